package defects

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

func TestBadRuns(t *testing.T) {
	// What put the scenario's bad runs right: run 12 follows an acid correction
	// and a purge, run 14 a thinner coat, run 13 a better activation.
	want := []string{"current at the corners", "activation", "thicker than the allowance", "pH too high", "copper or zinc", "pH too high"}
	rows := work(t, Defaults()).Find("log").(notebook.Table).Rows
	if len(rows) != len(want) {
		t.Fatalf("%d bad runs, want %d", len(rows), len(want))
	}
	for i, row := range rows {
		if !strings.Contains(row[4].Words, want[i]) {
			t.Errorf("run %v: %q, want %q", row[0].Quantity.SI, row[4].Words, want[i])
		}
	}
}

func TestEveryDefect(t *testing.T) {
	names := func(sheet *notebook.Sheet) string {
		var all []string
		for _, item := range sheet.Items {
			all = append(all, item.ItemName()+" "+item.Kind())
		}
		return strings.Join(all, "\n")
	}
	want := names(work(t, Defaults()))
	for _, d := range plating.Defects() {
		in := Defaults()
		in.Defect = string(d)
		if got := names(work(t, in)); got != want {
			t.Errorf("%s: the sheet's items change:\n%s", d, got)
		}
		bare := Inputs{Defect: string(d), Thickest: 1, Interrupted: notKnown, Stirred: notKnown, Bagged: notKnown, Purged: notKnown, Activated: notKnown,
			Thread: featureDiameter, PanelCurrent: 1, PanelBurnt: 20 * mm}
		if got := names(work(t, bare)); got != want {
			t.Errorf("%s with nothing known: the sheet's items change:\n%s", d, got)
		}
	}
}

func TestEvidenceCounts(t *testing.T) {
	in := Defaults()
	in.Defect, in.PH = string(plating.Haze), 5
	row := work(t, in).Find("causes").(notebook.Table).Rows[0]
	if row[0].Words != "pH too high" || row[2].Words != "the pH was high" {
		t.Errorf("haze at pH 5: %q because %q", row[0].Words, row[2].Words)
	}
	five, room := 5*um, 22*um
	in.Defect, in.Local, in.Room, in.Thread = string(plating.ThreadTight), &five, &room, featureThread
	row = work(t, in).Find("causes").(notebook.Table).Rows[0]
	if row[0].Words == "coat thicker than the allowance" {
		t.Error("5 um in an allowance of 22 um: the coat comes first, but it fits")
	}
}

func TestPanel(t *testing.T) {
	sheet := work(t, Defaults())
	// 2 (5.1038 - 5.2420 log 1.6) A/dm2, and over 1.77.
	burns := sheet.Find("panel-burns").(notebook.Figure).Value.SI / 100
	if !scalar.EqualWithinAbs(burns, 8.068, 0.005) {
		t.Errorf("the bath burns from %v A/dm2, want 8.068", burns)
	}
	if got := sheet.Find("panel-mean").(notebook.Figure).Value.SI / 100; !scalar.EqualWithinAbs(got, burns/1.77, 1e-9) {
		t.Errorf("mean = %v A/dm2, want %v", got, burns/1.77)
	}
	// Exercise: corner below 5 A/dm2 at 1.75 times the mean: 2.86.
	if got := sheet.Find("exercise-corner").(notebook.Exercise).Answer.SI / 100; !scalar.EqualWithinAbs(got, 2.86, 0.005) {
		t.Errorf("exercise = %v A/dm2, want 2.86", got)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestProblemsNameTheirField(t *testing.T) {
	for _, test := range []struct{ inputs, field string }{
		{`"defect": "purple"`, "defect"},
		{`"panel-burnt": "2 mm"`, "panel-burnt"},
		{`"ph": "-1"`, "ph"},
		{`"stirred": "perhaps"`, "stirred"},
	} {
		_, err := Lesson().Work([]byte(`{"lesson": "defects", "format": 1, "inputs": {` + test.inputs + `}}`))
		var input *notebook.InputError
		if !errors.As(err, &input) || input.Problems[0].Field != test.field {
			t.Errorf("%s: %v, want a problem in field %s", test.inputs, err, test.field)
		}
	}
}
