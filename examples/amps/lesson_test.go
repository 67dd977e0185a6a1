package amps

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// figure returns a figure of the sheet.
func figure(t *testing.T, sheet *notebook.Sheet, name string) notebook.Figure {
	t.Helper()
	f, ok := sheet.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure called %s", name)
	}
	return f
}

func TestDefaults(t *testing.T) {
	sheet, err := Lesson().Demo()
	if err != nil {
		t.Fatal(err)
	}
	// Four escutcheons: 74.9 cm2, 2.25 A; 25 um at 95 % take 42.8 min and
	// weigh 1.67 g. Arithmetic; the tolerance is half the last digit.
	tests := []struct {
		name            string
		want, unit, tol float64
	}{
		{"area", 74.94, 1e-4, 0.01},
		{"current", 2.25, 1, 1e-9},
		{"time", 42.8, 60, 0.05},
		{"gain", 1.67, 1e-3, 0.005},
		{"mean", 25, 1e-6, 1e-6},
		{"thinnest", 17, 1e-6, 0.01},
		{"thickest", 44.25, 1e-6, 0.01},
	}
	for _, test := range tests {
		if got := figure(t, sheet, test.name).Value.SI / test.unit; !scalar.EqualWithinAbs(got, test.want, test.tol) {
			t.Errorf("%s = %v, want %v", test.name, got, test.want)
		}
	}
	// The weighed run is run 3, whose true efficiency is 95.0 %.
	e := figure(t, sheet, "efficiency").Value
	if truth := actionshop.TrueEfficiencies()[2]; math.Abs(e.SI-truth) > 2*e.U {
		t.Errorf("efficiency %v +- %v, truth %v", e.SI, e.U, truth)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestEveryRunOfTheLogAsCheckRun(t *testing.T) {
	for i, run := range actionshop.PlatingLog() {
		in := Defaults()
		in.Parts, in.Extra, in.ExtraU = nil, &run.Area, 0.02
		in.RunCurrent, in.RunTime, in.Before, in.After = run.Current, run.Time, run.Before, run.After
		sheet, err := Work(in)
		if err != nil {
			t.Fatalf("run %d: %v", run.Run, err)
		}
		e := figure(t, sheet, "efficiency").Value
		if truth := actionshop.TrueEfficiencies()[i]; math.Abs(e.SI-truth) > 2*e.U {
			t.Errorf("run %d: efficiency %v +- %v, truth %v", run.Run, e.SI, e.U, truth)
		}
		d := figure(t, sheet, "weighed-thickness").Value
		if d.SI <= 0 || d.U <= 0.02*d.SI {
			t.Errorf("run %d: thickness %v +- %v m", run.Run, d.SI, d.U)
		}
	}
}

func TestItemsDoNotDependOnReadings(t *testing.T) {
	names := func(in Inputs) string {
		sheet, err := Work(in)
		if err != nil {
			t.Fatal(err)
		}
		if err := sheet.Validate(); err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, item := range sheet.Items {
			all = append(all, item.ItemName()+" "+item.Kind())
		}
		return strings.Join(all, "\n")
	}
	want := names(Defaults())
	change := map[string]func(in *Inputs){
		"weighed before and after swapped": func(in *Inputs) { in.Before, in.After = in.After, in.Before },
		"no gain":                          func(in *Inputs) { in.After = in.Before },
		"wet load":                         func(in *Inputs) { in.After += 1 * gram },
		"burning":                          func(in *Inputs) { in.Density = 9 * plating.AmperePerSquareDecimetre },
		"thin enough for the screw":        func(in *Inputs) { in.Thickness = 5 * um },
		"no uncertainty at all": func(in *Inputs) {
			in.Good, in.EfficiencyU, in.Switching = 0, 0, 0
		},
		"current typed in": func(in *Inputs) { c := 1 * unit.Ampere; in.Current = &c },
		"every shape": func(in *Inputs) {
			l, w, third := 20*mm, 8*mm, 1.25*mm
			in.Parts = nil
			for _, shape := range shapeNames() {
				in.Parts = append(in.Parts, Part{Shape: shape, Length: &l, Width: &w, Third: &third, Count: 2})
			}
		},
	}
	for name, spoil := range change {
		in := Defaults()
		spoil(&in)
		if got := names(in); got != want {
			t.Errorf("%s: the sheet's items change:\n%s", name, got)
		}
	}
}

func TestVerdicts(t *testing.T) {
	tone := func(in Inputs, name string) notebook.Tone {
		sheet, err := Work(in)
		if err != nil {
			t.Fatal(err)
		}
		v, ok := sheet.Find(name).(notebook.Verdict)
		if !ok {
			t.Fatalf("no verdict called %s", name)
		}
		return v.Tone
	}
	in := Defaults()
	if got := tone(in, "burn"); got != notebook.Good {
		t.Errorf("3 A/dm2: %s", got)
	}
	in.Density = 9 * plating.AmperePerSquareDecimetre // run 5
	if got := tone(in, "burn"); got != notebook.Stop {
		t.Errorf("9 A/dm2: %s, want stop", got)
	}
	in = Defaults()
	in.EfficiencyU, in.Efficiency = 0.005, 0.90
	if got := tone(in, "run"); got != notebook.Watch {
		t.Errorf("counting on 90 %% when 95 was weighed: %s, want watch", got)
	}
	in = Defaults()
	in.Before, in.After = in.After, in.Before
	if got := tone(in, "run"); got != notebook.Stop {
		t.Errorf("lost mass: %s, want stop", got)
	}
}

func TestProblemsNameTheirField(t *testing.T) {
	document := func(inputs string) []byte {
		return []byte(`{"lesson": "amps", "format": 1, "inputs": {` + inputs + `}}`)
	}
	tests := []struct {
		name, inputs  string
		field, column string
		row           int
		message       string
	}{
		{"empty rack", `"parts": {"rows": []}`, "parts", "", 0, "nothing is on the rack"},
		{"plate without thickness", `"parts": {"units": {"length":"mm","width":"mm","third":"mm"}, "rows": [["plate", 44, 19, null, 4]]}`, "parts", "third", 1, "needs this dimension"},
		{"tube inside out", `"parts": {"units": {"length":"mm","width":"mm","third":"mm"}, "rows": [["plate", 44, 19, 1.6, 4], ["tube", 28, 6, 9, 1]]}`, "parts", "shape", 2, "below the outside, 6 mm"},
		{"supply too small", `"supply-most": "1 A"`, "density", "", 0, "at most the 1 A"},
		{"current too small", `"current": "0.001 A"`, "current", "", 0, "half the supply's step"},
		{"percent over 100", `"efficiency": "110 %"`, "efficiency", "", 0, "100"},
		{"no unit", `"thickness": "25"`, "thickness", "", 0, "unit"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := Lesson().Work(document(test.inputs))
			var input *notebook.InputError
			if !errors.As(err, &input) {
				t.Fatalf("error = %v, want one of inputs", err)
			}
			p := input.Problems[0]
			if p.Field != test.field || p.Column != test.column || p.Row != test.row || !strings.Contains(p.Message, test.message) {
				t.Errorf("problem = %+v, want field %s, column %s, row %d with %q", p, test.field, test.column, test.row, test.message)
			}
		})
	}
}

func TestInchReadings(t *testing.T) {
	// The same escutcheon typed in inches: 1.732 x 0.748 x 0.063 in.
	sheet, err := Lesson().Work([]byte(`{"lesson": "amps", "format": 1, "inputs": {
		"parts": {"units": {"length":"in","width":"in","third":"in"}, "rows": [["plate", 1.7323, 0.7480, 0.06299, 4]]},
		"thickness": "1 thou", "density": "27.87 A/ft²"}}`))
	if err != nil {
		t.Fatal(err)
	}
	if got := figure(t, sheet, "area").Value.SI; !scalar.EqualWithinRel(got, 74.944e-4, 1e-3) {
		t.Errorf("area = %v m2, want 74.944e-4", got)
	}
	if got := figure(t, sheet, "current").Value.SI; !scalar.EqualWithinAbs(got, 2.25, 0.006) {
		t.Errorf("current = %v A, want 2.25", got)
	}
}

func BenchmarkWork(b *testing.B) {
	for b.Loop() {
		if _, err := Work(Defaults()); err != nil {
			b.Fatal(err)
		}
	}
}
