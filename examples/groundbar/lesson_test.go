package groundbar

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
	motion, ok := sheet.Find("motion-bow").(notebook.Figure)
	if !ok {
		t.Fatal("no figure of the motion")
	}
	// Hidden truth over the same run: heights -24.4, -35.3, -26.9 um at
	// X = -240, 0, 240 mm, so 9.65 um below the line in the middle; the lowest
	// place is a little off it.
	if miss := math.Abs(motion.Value.SI + 9.65e-6); miss > 2.5*motion.Value.U {
		t.Errorf("motion = %g, standard uncertainty %g, want -9.65e-6", motion.Value.SI, motion.Value.U)
	}
	bar, ok := sheet.Find("bar-bow").(notebook.Figure)
	if !ok || bar.Value.SI < 3e-6 || bar.Value.SI > 10e-6 {
		t.Errorf("bar = %g, want a bow of 6 um with a wave of 3 um", bar.Value.SI)
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
	e, ok := sheet.Find("exercise-middle").(notebook.Exercise)
	// Half the differences 0, -20, -19 um; the line passes at -9.5.
	if !ok || math.Abs(e.Answer.SI+10.5e-6) > 1e-12 {
		t.Errorf("exercise = %g, want -10.5e-6", e.Answer.SI)
	}
}

func TestSupportsMatter(t *testing.T) {
	in := Defaults()
	in.Support = 0
	sag, ok := worked(t, in).Find("sag").(notebook.Figure)
	if !ok || math.Abs(sag.Value.SI) < 1e-6 {
		t.Errorf("sag on the ends = %g m, want over a micrometre", sag.Value.SI)
	}
}

func TestBadInput(t *testing.T) {
	tests := []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"two rows", func(in *Inputs) { in.Readings = in.Readings[:2] }, "at least 3 places"},
		{"same travel", func(in *Inputs) { in.Readings[1].Travel = in.Readings[0].Travel }, "two readings at 240 mm"},
		{"not a number", func(in *Inputs) { in.Readings[2].Up = unit.Length(math.NaN()) }, "place 3"},
		{"short bar", func(in *Inputs) { in.Length = 300 * mm; in.Support = 50 * mm }, "off the beam"},
		{"supports", func(in *Inputs) { in.Support = 400 * mm }, "supports 400 mm"},
		{"no height", func(in *Inputs) { in.Height = 0 }, "must be above zero"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}
