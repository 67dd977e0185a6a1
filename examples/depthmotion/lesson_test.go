package depthmotion

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
	// T1 and T2 of 2025: deepest in front 57.1 um near u = -90 mm; the table sinks
	// 35.3 um at X = 0 and 16.4 um at X = -360 mm; slopes from -107.0 to 95.5; wear
	// of 54.4 um where no pocket is left; the top bowed by 4.15 um over the run.
	for name, want := range map[string]float64{"deepest": 57.1e-6, "sinks-middle": 35.3e-6, "sinks-end": 16.4e-6,
		"slope-range": 204e-6, "gone": 54.4e-6, "top-bow": 4.15e-6} {
		f, ok := sheet.Find(name).(notebook.Figure)
		if !ok || f.Unknown != "" {
			t.Errorf("%s: %+v", name, f)
			continue
		}
		if math.Abs(f.Value.SI-want) > 2.5*f.Value.U {
			t.Errorf("%s = %g, standard uncertainty %g, truth %g", name, f.Value.SI, f.Value.U, want)
		}
	}
	// Residuals within reading: 4.1 um/m a slope, 0.8 um a height.
	for name, most := range map[string]float64{"level-left": 4.5e-6, "dial-left": 1.1e-6} {
		if f, ok := sheet.Find(name).(notebook.Figure); !ok || f.Value.SI > most {
			t.Errorf("%s = %g, want at most %g", name, f.Value.SI, most)
		}
	}
	if v, ok := sheet.Find("answer").(notebook.Verdict); !ok || v.Tone != notebook.Good {
		t.Errorf("the wear does not explain the motion: %s", v.Text.In(notebook.Metric))
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

// TestWrongMotionIsNotExplained: the same wear with a level that leans as wear
// cannot make it.
func TestWrongMotionIsNotExplained(t *testing.T) {
	in := Defaults()
	for i := range in.Levels {
		lift := 4 * math.Pow(-1, float64(i))
		in.Levels[i].AlongNormal += lift
		in.Levels[i].AlongTurned -= lift
	}
	if v, ok := worked(t, in).Find("answer").(notebook.Verdict); !ok || v.Tone != notebook.Watch {
		t.Errorf("answer = %s", v.Text.In(notebook.Metric))
	}
}

func TestMotionIsBlindToWhatItCannotSee(t *testing.T) {
	table, ok := worked(t, Defaults()).Find("patterns").(notebook.Table)
	if !ok || len(table.Rows) != 5 {
		t.Fatal("no table of patterns")
	}
	for i, blind := range []bool{true, true, false, true, false} {
		row := table.Rows[i]
		if (row[2].Mark == "blind") != blind {
			t.Errorf("pattern %d: motion knows it to %g of %g", i+1, row[2].Quantity.SI, row[1].Quantity.SI)
		}
		if row[3].Quantity.SI > row[1].Quantity.SI/2 {
			t.Errorf("pattern %d: with the pockets known to %g of %g", i+1, row[3].Quantity.SI, row[1].Quantity.SI)
		}
	}
}

func TestExerciseAnswers(t *testing.T) {
	sheet := worked(t, Defaults())
	for name, want := range map[string]float64{"exercise-back": 38.52e-6, "exercise-forth": 15e-6 / 0.19} {
		e, ok := sheet.Find(name).(notebook.Exercise)
		if !ok || math.Abs(e.Answer.SI-want) > 1e-9 {
			t.Errorf("%s: answer %g, want %g", name, e.Answer.SI, want)
		}
		for _, wrong := range e.Wrong {
			if math.Abs(wrong.Value.SI-want) < 1e-8 {
				t.Errorf("%s: a wrong turn gives the answer", name)
			}
		}
	}
}

func TestAllPocketsLeft(t *testing.T) {
	in := Defaults()
	for i := range in.Pockets {
		in.Pockets[i].Front, in.Pockets[i].FrontFound = 30*um, 5
	}
	if f, ok := worked(t, in).Find("gone").(notebook.Figure); !ok || f.Unknown == "" {
		t.Error("a place without pockets was found where there is none")
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"division", func(in *Inputs) { in.Division = 0 }, "division"},
		{"not a number", func(in *Inputs) { in.Levels[0].AlongNormal = math.NaN() }, "station"},
		{"dial", func(in *Inputs) { in.Runs[3].Rear = unit.Length(math.Inf(1)) }, "track 3"},
		{"count", func(in *Inputs) { in.Pockets[2].FrontFound = 8 }, "8 pockets found of 5"},
		{"bearing", func(in *Inputs) { in.Bearing = 0 }, "bearing"},
		{"give", func(in *Inputs) { in.Give = 0 }, "bed"},
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

func FuzzWork(f *testing.F) {
	f.Add(11.5, -0.01, 6e-6, 0.36, 1)
	f.Add(1e3, 1e-2, 0.0, 3.0, 0)
	f.Fuzz(func(t *testing.T, reading, run, depth, bearing float64, found int) {
		in := Defaults()
		in.Levels[2].AlongNormal, in.Runs[4].Middle = reading, unit.Length(run)
		in.Pockets[3].Front, in.Pockets[3].FrontFound, in.Bearing = unit.Length(depth), found, unit.Length(bearing)
		sheet, err := Work(in)
		if err != nil {
			return
		}
		if err := sheet.Validate(); err != nil {
			t.Error(err)
		}
	})
}

func BenchmarkWork(b *testing.B) {
	in := Defaults()
	for b.Loop() {
		if _, err := Work(in); err != nil {
			b.Fatal(err)
		}
	}
}
