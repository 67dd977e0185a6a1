package skimmedbar

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
	f, ok := sheet.Find("motion").(notebook.Figure)
	// Hidden truth over 600 mm in the middle: 13.0 um low.
	if !ok || math.Abs(f.Value.SI+13.0e-6) > 2.5*f.Value.U {
		t.Errorf("motion = %g, standard uncertainty %g, want -13.0e-6", f.Value.SI, f.Value.U)
	}
	ways, ok := sheet.Find("three-ways").(notebook.Table)
	if !ok || len(ways.Rows) != 4 {
		t.Fatal("no table of three ways")
	}
	for _, row := range ways.Rows { // hidden truth over 480 mm: 9.65 um
		if q := row[1].Quantity; math.Abs(q.SI-9.65e-6) > 2.5*q.U {
			t.Errorf("%s: hollow %g, standard uncertainty %g, want 9.65e-6", row[0].Words, q.SI, q.U)
		}
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
	e, ok := sheet.Find("exercise-middle").(notebook.Exercise)
	if !ok || math.Abs(e.Answer.SI+11.5e-6) > 1e-12 {
		t.Errorf("exercise = %g, want -11.5e-6", e.Answer.SI)
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"two", func(in *Inputs) { in.Readings = in.Readings[:2] }, "at least 3 places"},
		{"same place", func(in *Inputs) { in.Readings[1].Place = in.Readings[0].Place }, "two readings at"},
		{"no thickness", func(in *Inputs) { in.Readings[1].Thickness = 0 }, "place 2: thickness 0 mm"},
		{"not a number", func(in *Inputs) { in.Readings[1].Place = unit.Length(math.NaN()) }, "point 2"},
		{"long part", func(in *Inputs) { in.PartLength = 3 }, "a stretch of 3000 mm"},
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
