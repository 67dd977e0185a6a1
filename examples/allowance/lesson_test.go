package allowance

import (
	"errors"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

func work(t *testing.T, in Inputs) *notebook.Sheet {
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

func value(t *testing.T, sheet *notebook.Sheet, name string) float64 {
	t.Helper()
	f, ok := sheet.Find(name).(notebook.Figure)
	if !ok || f.Unknown != "" {
		t.Fatalf("no figure called %s: %q", name, f.Unknown)
	}
	return f.Value.SI
}

func TestThumbScrew(t *testing.T) {
	// M4 x 0.7 at 6g: allowance 22 um, 5.5 um on the flanks, 18.8 min at 1.5
	// A/dm2 and 95 %; 5.2 um leave 22 - 20.8 um. Arithmetic.
	sheet := work(t, Defaults())
	tests := []struct {
		name            string
		want, unit, tol float64
	}{
		{"room", 22, 1e-6, 1e-9}, {"flank-limit", 5.5, 1e-6, 1e-9}, {"limit-time", 18.8, 60, 0.05},
		{"growth", 20.8, 1e-6, 1e-9}, {"worst-left", 1.2, 1e-6, 1e-9},
	}
	for _, test := range tests {
		if got := value(t, sheet, test.name) / test.unit; !scalar.EqualWithinAbs(got, test.want, test.tol) {
			t.Errorf("%s = %v, want %v", test.name, got, test.want)
		}
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestRunsOfTheLog(t *testing.T) {
	// Run 8, 11.7 um, was tight in the nut; run 14, 5.2 um, ran.
	tone := func(in Inputs) notebook.Tone {
		return work(t, in).Find("runs").(notebook.Verdict).Tone
	}
	in := Defaults()
	if got := tone(in); got == notebook.Stop {
		t.Errorf("run 14: %s, but it ran", got)
	}
	in.Mean = 11.7 * um
	if got := tone(in); got != notebook.Stop {
		t.Errorf("run 8: %s, but it was tight", got)
	}
	loose := 120 * um
	in.Clearance = &loose
	if got := tone(in); got != notebook.Good {
		t.Errorf("run 8 in a measured loose pair: %s, want good", got)
	}
	in.NutPlated, in.Mean = nutPlated, 20*um
	if got := tone(in); got != notebook.Stop {
		t.Errorf("both plated 20 um: %s, want stop", got)
	}
}

func TestPin(t *testing.T) {
	in := Defaults()
	sheet := work(t, in)
	// Middle of 2.986 and 3.000 less 2 x 1.1 x 5.2 um.
	if got := value(t, sheet, "cut") * 1e3; !scalar.EqualWithinAbs(got, 2.993-0.01144, 1e-9) {
		t.Errorf("cut = %v mm, want 2.98156", got)
	}
	in.Feature = string(plating.Bore)
	if got := value(t, work(t, in), "cut") * 1e3; !scalar.EqualWithinAbs(got, 2.993+0.01144, 1e-9) {
		t.Errorf("bore: cut = %v mm, want 3.00444", got)
	}
}

func TestItemsDoNotDependOnReadings(t *testing.T) {
	names := func(in Inputs) string {
		var all []string
		for _, item := range work(t, in).Items {
			all = append(all, item.ItemName()+" "+item.Kind())
		}
		return strings.Join(all, "\n")
	}
	want := names(Defaults())
	for name, change := range map[string]func(in *Inputs){
		"no coat":       func(in *Inputs) { in.Mean, in.MeanU = 0, 0 },
		"no flank":      func(in *Inputs) { in.Flank, in.FlankU = 0, 0 },
		"no allowance":  func(in *Inputs) { in.Position = string(plating.PositionH) },
		"off the table": func(in *Inputs) { in.Diameter, in.Pitch = 10*mm, 1.5*mm },
		"sure":          func(in *Inputs) { in.MeanU, in.FlankU, in.CutU, in.PlainShareU = 0, 0, 0, 0 },
		"thick":         func(in *Inputs) { in.Mean = 300 * um },
		"measured":      func(in *Inputs) { c := -10 * um; in.Clearance = &c },
	} {
		in := Defaults()
		change(&in)
		if got := names(in); got != want {
			t.Errorf("%s: the sheet's items change:\n%s", name, got)
		}
	}
}

func TestProblemsNameTheirField(t *testing.T) {
	for _, test := range []struct{ inputs, field, message string }{
		{`"length": "100 mm"`, "length", "at most 15"},
		{`"least": "4 mm"`, "greatest", "in order"},
		{`"diameter": "1 mm", "pitch": "2 mm", "length": "2 mm"`, "pitch", "too coarse"},
		{`"position": "k"`, "position", "not one of"},
	} {
		_, err := Lesson().Work([]byte(`{"lesson": "allowance", "format": 1, "inputs": {` + test.inputs + `}}`))
		var input *notebook.InputError
		if !errors.As(err, &input) || input.Problems[0].Field != test.field || !strings.Contains(input.Problems[0].Message, test.message) {
			t.Errorf("%s: %v, want field %s with %q", test.inputs, err, test.field, test.message)
		}
	}
}
