package baking

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
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

func TestBakeVerdicts(t *testing.T) {
	tests := []struct {
		name     string
		hardness float64
		since    float64 // h
		want     notebook.Tone
		hours    float64 // 0 when there is no bake
	}{
		{"mild steel", 15, 100, notebook.Good, 0},
		{"spring steel in time", 44, 1, notebook.Watch, 16},
		{"at the table's edge", 31, 0, notebook.Watch, 8},
		{"too late", 44, 5, notebook.Stop, 16},
		{"off the table", 58, 0, notebook.Stop, 0},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			in.Hardness = test.hardness
			in.Since = unit.Time(test.since) * hour
			sheet := work(t, in)
			if got := sheet.Find("bake").(notebook.Verdict).Tone; got != test.want {
				t.Errorf("tone = %s, want %s", got, test.want)
			}
			f := sheet.Find("bake-hours").(notebook.Figure)
			if known := f.Unknown == ""; known != (test.hours > 0) || (known && !scalar.EqualWithinAbs(f.Value.SI/3600, test.hours, 1e-9)) {
				t.Errorf("bake = %v h (%q), want %v", f.Value.SI/3600, f.Unknown, test.hours)
			}
		})
	}
}

func TestAir(t *testing.T) {
	in := Defaults()
	sheet := work(t, in)
	// 3.4 A at 20 degrees Celsius: 0.4487 L/h for each ampere (R T / 2 F p).
	if got := sheet.Find("hydrogen").(notebook.Figure).Value.SI * 3.6e6; !scalar.EqualWithinAbs(got, 3.4*0.4487, 0.01) {
		t.Errorf("hydrogen = %v L/h", got)
	}
	if got := sheet.Find("air").(notebook.Verdict).Tone; got != notebook.Good {
		t.Errorf("a room with a window: %s", got)
	}
	in.Air = 0
	if got := work(t, in).Find("air").(notebook.Verdict).Tone; got != notebook.Stop {
		t.Errorf("a sealed room: %s, want stop", got)
	}
	// 0.4 mL of a 75 g/L bath as mist fills 30 m3 to 1 mg/m3.
	if got := sheet.Find("limits").(notebook.Table).Rows[2][4].Quantity.SI * 1e6; !scalar.EqualWithinAbs(got, 0.4, 1e-9) {
		t.Errorf("mist = %v mL, want 0.4", got)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
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
	for _, hardness := range []float64{0, 31, 51, 51.5, 70} {
		in := Defaults()
		in.Hardness, in.Surface = hardness, caseHard
		if got := names(in); got != want {
			t.Errorf("%v HRC: the sheet's items change:\n%s", hardness, got)
		}
	}
}
