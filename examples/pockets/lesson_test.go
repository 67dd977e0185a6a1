package pockets

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"gonum.org/v1/gonum/unit"
)

func worked(t *testing.T, in Inputs) *notebook.Sheet {
	t.Helper()
	sheet, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := sheet.Validate(); err != nil {
		t.Fatal(err)
	}
	return sheet
}

func TestWorkRecoversTheHiddenTruth(t *testing.T) {
	sheet := worked(t, Defaults())
	// Wear in front at u = -120 mm: truth 56.3 um; at 120 mm 43.5; at 0 54.4,
	// of which the readings give a bound only.
	table, ok := sheet.Find("front").(notebook.Table)
	if !ok || len(table.Rows) != 9 {
		t.Fatal("no table of the front way")
	}
	for _, want := range []struct {
		row   int
		truth float64
	}{{2, 41.5e-6}, {3, 56.3e-6}, {5, 43.5e-6}, {6, 28.2e-6}} {
		q := table.Rows[want.row][2].Quantity
		if miss := math.Abs(q.SI - want.truth); miss > 2.5*q.U {
			t.Errorf("row %d: wear %g, standard uncertainty %g, truth %g", want.row, q.SI, q.U, want.truth)
		}
	}
	if bound := table.Rows[4][2]; bound.Mark != "at least" || bound.Quantity.SI > 54.4e-6 {
		t.Errorf("bound at u = 0: %+v", bound)
	}
	f, ok := sheet.Find("slope-range").(notebook.Figure)
	// The pose of 2025 runs from -107.0 to 95.1 um/m.
	if !ok || math.Abs(f.Value.SI-202e-6) > 3*f.Value.U {
		t.Errorf("slope range %g, standard uncertainty %g, want 202e-6", f.Value.SI, f.Value.U)
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestOneSurveyOnly(t *testing.T) {
	in := Defaults()
	in.First = nil
	v, ok := worked(t, in).Find("grown").(notebook.Verdict)
	if !ok || !strings.Contains(v.Text.In(notebook.Metric), "One survey only") {
		t.Errorf("verdict %v", v)
	}
}

func TestGrowthIsSeenInFront(t *testing.T) {
	v, ok := worked(t, Defaults()).Find("grown").(notebook.Verdict)
	if !ok || v.Tone != notebook.Watch || !strings.Contains(v.Text.In(notebook.Metric), "front way has worn") {
		t.Errorf("verdict %v", v.Text.In(notebook.Metric))
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"more found than looked for", func(in *Inputs) { in.Second[1].RearFound = 6 }, "6 pockets found of 5"},
		{"no depth", func(in *Inputs) { in.Second[2].Front = 0 }, "station 3: mean depth 0 um"},
		{"spread", func(in *Inputs) { in.Spread = 0 }, "spread of the pockets"},
		{"no places", func(in *Inputs) { in.Second = nil }, ""},
		{"same place", func(in *Inputs) { in.Second[1].Place = in.Second[0].Place }, "does not lie beyond"},
		{"not a number", func(in *Inputs) { in.New = unit.Length(math.NaN()) }, "depth when new"},
		{"long bearing", func(in *Inputs) { in.Bearing = 2 }, "longer than the ways"},
	} {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

// TestFloorDates: with the line by maximum likelihood, -1.488251 + 2.222238 t, the
// limit of 30 um is reached after 14.17 years; with the years left out, -0.54 +
// 2.08 t, after 14.68; with 5 um written, 1.532143 + 1.734524 t, after 16.41
// (constructed, worked with another programme).
func TestFloorDates(t *testing.T) {
	sheet := &notebook.Sheet{}
	if err := floorDates(sheet); err != nil {
		t.Fatal(err)
	}
	table := sheet.Find("floor-dates").(notebook.Table)
	for i, want := range []float64{14.17, 14.68, 16.41} {
		at := table.Rows[i][1].Quantity.SI / float64(year)
		low, high := table.Rows[i][2].Quantity.SI/float64(year), table.Rows[i][3].Quantity.SI/float64(year)
		if math.Abs(at-want) > 0.06 || !(low < at && at < high) {
			t.Errorf("%s: %.2f, from %.2f to %.2f, want %.2f years", table.Rows[i][0].Words, at, low, high, want)
		}
	}
}

// TestWipersThatLast: by hand, of six watched one failed at 400 h, then of four one
// at 700 h: 5/6 times 3/4.
func TestWipersThatLast(t *testing.T) {
	e, err := lastExercise([3]unit.Time{400 * hour, 700 * hour, 900 * hour}, [3]unit.Time{500 * hour, 800 * hour, 1200 * hour}, 750*hour)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(e.Answer.SI-5.0/6*3/4) > 1e-12 || math.Abs(e.Wrong[0].Value.SI-1.0/3) > 1e-12 || math.Abs(e.Wrong[1].Value.SI-0.5) > 1e-12 {
		t.Errorf("answer %g, wrong %g and %g, want 0.625, 0.333 and 0.5", e.Answer.SI, e.Wrong[0].Value.SI, e.Wrong[1].Value.SI)
	}
}
