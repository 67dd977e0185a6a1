package bubble

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"gonum.org/v1/gonum/unit"
)

// figure returns a figure of the sheet.
func figure(t *testing.T, s *notebook.Sheet, name string) notebook.Figure {
	t.Helper()
	f, ok := s.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("the sheet has no figure %q", name)
	}
	return f
}

// within reports whether a figure holds a true value, within k standard
// uncertainties.
func within(t *testing.T, f notebook.Figure, want, k float64) {
	t.Helper()
	if f.Unknown != "" {
		t.Errorf("%s is not known: %s", f.Name, f.Unknown)
		return
	}
	if miss := math.Abs(f.Value.SI - want); miss > k*f.Value.U {
		t.Errorf("%s = %g, standard uncertainty %g; misses %g", f.Name, f.Value.SI, f.Value.U, want)
	}
}

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
	within(t, figure(t, sheet, "floor-along"), 45e-6, 2)
	within(t, figure(t, sheet, "floor-across"), -25e-6, 2)
	within(t, figure(t, sheet, "part-bow"), 13.0e-6, 2)
	within(t, figure(t, sheet, "zero-second"), -22e-6, 3)
	// From the poses of 2025: slopes from -107 to 95 um/m along the run.
	within(t, figure(t, sheet, "slope-range"), 202e-6, 3)
	// Middle to worst station: 25.6 to -107 um/m.
	within(t, figure(t, sheet, "tram-drift"), 132.6e-6, 3)
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestExerciseAnswers(t *testing.T) {
	sheet := worked(t, Defaults())
	for name, want := range map[string]float64{"exercise-reading": 255e-6, "exercise-floor": 45e-6} {
		e, ok := sheet.Find(name).(notebook.Exercise)
		if !ok {
			t.Fatalf("no exercise %q", name)
		}
		if math.Abs(e.Answer.SI-want) > 1e-12 {
			t.Errorf("%s: answer %g, want %g", name, e.Answer.SI, want)
		}
		for _, wrong := range e.Wrong {
			if math.Abs(wrong.Value.SI-want) < 1e-9 {
				t.Errorf("%s: a wrong turn gives the answer", name)
			}
		}
	}
}

func TestOneSurveyOnly(t *testing.T) {
	in := Defaults()
	in.Second = nil
	sheet := worked(t, in)
	if f := figure(t, sheet, "floor-along"); f.Unknown == "" {
		t.Error("the floor's share is known from one survey")
	}
	// The same items as with two surveys.
	both := worked(t, Defaults())
	for _, item := range both.Items {
		if sheet.Find(item.ItemName()) == nil {
			t.Errorf("without a second survey %q is missing", item.ItemName())
		}
	}
}

func TestSlippedLevelIsNamed(t *testing.T) {
	in := Defaults()
	in.Second[3].AlongTurned += 5
	v, ok := worked(t, in).Find("level-sound").(notebook.Verdict)
	if !ok || v.Tone != notebook.Watch || !strings.Contains(v.Text.In(notebook.Metric), "station 4") {
		t.Errorf("verdict = %v", v.Text.In(notebook.Metric))
	}
}

func TestNoSparedStation(t *testing.T) {
	in := Defaults()
	in.Spared = nil
	f := figure(t, worked(t, in), "floor-along")
	within(t, f, 45e-6, 2)
	if f.Value.U < 8e-6 {
		t.Errorf("the mean of all stations is called sure to %g", f.Value.U)
	}
}

func TestInchUnits(t *testing.T) {
	sheet := worked(t, Defaults())
	v, ok := sheet.Find("answer").(notebook.Verdict)
	if !ok || !strings.Contains(v.Text.In(notebook.Inch), "thou") {
		t.Errorf("answer in inch units = %q", v.Text.In(notebook.Inch))
	}
}

func TestBadInput(t *testing.T) {
	length := func(x float64) *unit.Length { l := unit.Length(x); return &l }
	tests := []struct {
		name        string
		change      func(in *Inputs)
		field, want string
	}{
		{"two stations", func(in *Inputs) { in.First = in.First[:2]; in.Second = nil }, "first", "at least 3"},
		{"one station twice", func(in *Inputs) { in.Second[1].Travel = in.Second[0].Travel }, "second", "two stations"},
		{"other stations", func(in *Inputs) { in.Second[1].Travel += 0.05 }, "second", "no station within"},
		{"fewer stations", func(in *Inputs) { in.Second = in.Second[:5] }, "second", "7 stations, the later one 5"},
		{"not a number", func(in *Inputs) { in.First[0].AlongNormal = math.NaN() }, "first", "station 1"},
		{"division", func(in *Inputs) { in.Division = 0 }, "first", "division"},
		{"part too long", func(in *Inputs) { in.PartLength = 0.9 }, "part-length", "part of 900 mm"},
		{"part over the end", func(in *Inputs) { in.PartPlace = 0.3 }, "part-place", "must be longer than 0 and lie between the stations"},
		{"spared nowhere", func(in *Inputs) { in.Spared = length(0.05) }, "spared", "no station"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			_, err := Work(in)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func FuzzWork(f *testing.F) {
	f.Add(11.5, -8.5, 0.0, 0.1, 0.36, 0.6)
	f.Add(1e3, -1e3, 1e-300, 1e-9, 3.0, 1e-9)
	f.Add(0.0, 0.0, -0.36, 0.0, 0.0, 0.72)
	f.Fuzz(func(t *testing.T, normal, turned, travel, place, bearing, length float64) {
		in := Defaults()
		in.First[2].AlongNormal, in.Second[4].AcrossTurned = normal, turned
		in.Second[3].AlongTurned, in.First[5].Travel = turned, unit.Length(travel)
		in.Second[5].Travel = unit.Length(travel)
		in.Bearing, in.PartLength, in.PartPlace = unit.Length(bearing), unit.Length(length), unit.Length(place)
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
