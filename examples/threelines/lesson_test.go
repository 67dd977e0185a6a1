package threelines

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

func TestWork(t *testing.T) {
	sheet := worked(t, Defaults())
	zone, ok := sheet.Find("zone").(notebook.Figure)
	// The hidden motion runs 16.7 um below the line through its ends at X = 0
	// over 720 mm; the table top's own form, 8 um over (500 mm)^2, bends by
	// 4.1 um against it and takes that much off.
	if !ok || math.Abs(zone.Value.SI-12.6e-6) > 3*zone.Value.U+1e-6 {
		t.Errorf("zone = %g, standard uncertainty %g", zone.Value.SI, zone.Value.U)
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestExercises(t *testing.T) {
	sheet := worked(t, Defaults())
	for name, want := range map[string]float64{"exercise-ends": 6e-6, "exercise-zone": 7.640625e-6} {
		e, ok := sheet.Find(name).(notebook.Exercise)
		if !ok || math.Abs(e.Answer.SI-want) > 1e-12 {
			t.Errorf("%s: %g, want %g", name, e.Answer.SI, want)
		}
	}
}

func TestStraightReadings(t *testing.T) {
	in := Defaults()
	for i := range in.Readings {
		in.Readings[i].Height = 5 * um
	}
	worked(t, in) // nothing to divide by, nothing to draw, and no panic
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"one", func(in *Inputs) { in.Readings = in.Readings[:1] }, "at least 2 points"},
		{"same place", func(in *Inputs) { in.Readings[1].Place = in.Readings[0].Place }, "two readings at"},
		{"not a number", func(in *Inputs) { in.Readings[2].Height = unit.Length(math.NaN()) }, "reading 3"},
		{"stretch", func(in *Inputs) { in.Stretch = 2 }, "a stretch of 2000 mm"},
		{"step", func(in *Inputs) { in.Step = -1 }, "gauge with steps"},
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
