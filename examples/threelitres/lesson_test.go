package threelitres

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

func TestBookRecoversTruth(t *testing.T) {
	// The truth of the bath book counts drag-out alone: nickel to 0.1 g/L,
	// drag-out to 0.1 mL from areas to 0.1 dm2 (0.12 mL).
	sheet := work(t, Defaults())
	table := sheet.Find("balance").(notebook.Table)
	dragOut := []float64{4.6, 1.4, 2.4, 1.9, 1.9, 2.9, 1.7, 1.4}
	nickel := []float64{74.9, 74.9, 74.8, 74.7, 74.7, 74.6, 74.6, 74.5}
	if len(table.Rows) != len(nickel) {
		t.Fatalf("%d entries, want %d", len(table.Rows), len(nickel))
	}
	for i, row := range table.Rows {
		if got := row[1].Quantity.SI * 1e6; !scalar.EqualWithinAbs(got, dragOut[i], 0.13) {
			t.Errorf("entry %d: drag-out %v mL, want %v", i+1, got, dragOut[i])
		}
		if got := row[3].Quantity.SI; !scalar.EqualWithinAbs(got, nickel[i], 0.06) {
			t.Errorf("entry %d: nickel %v g/L, want %v", i+1, got, nickel[i])
		}
	}
	// Runs 1 to 12 of the log pass 12.08 A h of its 13.85; at 5 % over they
	// bring 12.08 x 1.095 x 0.05 / 3 g/L.
	if got := value(t, sheet, "gained"); !scalar.EqualWithinAbs(got, 12.08*1.095*0.05/3, 0.005) {
		t.Errorf("gained = %v g/L", got)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestExercises(t *testing.T) {
	// 1.27 g of acid and 390.5 g of nickel: arithmetic, as printed.
	sheet := work(t, Defaults())
	if got := sheet.Find("exercise-acid").(notebook.Exercise).Answer.SI * 1e3; !scalar.EqualWithinAbs(got, 1.27, 0.006) {
		t.Errorf("acid = %v g, want 1.27", got)
	}
	if got := sheet.Find("exercise-nickel").(notebook.Exercise).Answer.SI * 1e3; !scalar.EqualWithinRel(got, 390.5, 5e-4) {
		t.Errorf("nickel = %v g, want 390.5", got)
	}
}

func TestHydrateOnTheShelf(t *testing.T) {
	in := Defaults()
	six := value(t, work(t, in), "nickel-metal")
	in.Hydrate = heptahydrate
	sheet := work(t, in)
	if got := value(t, sheet, "nickel-metal"); !scalar.EqualWithinRel(got, six, 1e-9) {
		t.Errorf("nickel from the heptahydrate = %v, want the same %v", got, six)
	}
	row := sheet.Find("make-up").(notebook.Table).Rows[0]
	if want := 285 * 280.854 / 262.839; !scalar.EqualWithinRel(row[1].Quantity.SI, want, 1e-4) {
		t.Errorf("heptahydrate = %v g/L, want %v", row[1].Quantity.SI, want)
	}
	if row[0].Words != "nickel sulfate, NiSO₄·7H₂O" {
		t.Errorf("salt = %q", row[0].Words)
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
		"one entry":     func(in *Inputs) { in.Book = in.Book[:1] },
		"nothing done":  func(in *Inputs) { in.Book = []Entry{{Day: in.Book[0].Day}} },
		"weak heater":   func(in *Inputs) { in.Heater = 1 },
		"no drag-out":   func(in *Inputs) { in.Dips = 0 },
		"cold anode":    func(in *Inputs) { in.Anode = 0.9 },
		"hot already":   func(in *Inputs) { in.Room = plating.Celsius(80) },
		"much work":     func(in *Inputs) { in.Book[0].Charge = 5000 * plating.AmpereHour },
		"no salt":       func(in *Inputs) { in.Boric, in.Chloride = 0, 0 },
		"great dragout": func(in *Inputs) { in.DragOut = 3e-3 },
	} {
		in := Defaults()
		change(&in)
		if got := names(in); got != want {
			t.Errorf("%s: the sheet's items change:\n%s", name, got)
		}
	}
	in := Defaults()
	in.DragOut = 3e-3
	if v := work(t, in).Find("nickel-need").(notebook.Verdict); v.Tone != notebook.Watch {
		t.Errorf("a bath dragged out: %s, want watch", v.Tone)
	}
}

func TestProblemsNameTheirField(t *testing.T) {
	for _, test := range []struct{ inputs, field, message string }{
		{`"volume": "100 mL"`, "book", "more than the bath"},
		{`"sample": "900 mL", "volume": "0.5 L"`, "sample", "more than the bath"},
		{`"book": {"rows": []}`, "book", ""},
	} {
		_, err := Lesson().Work([]byte(`{"lesson": "threelitres", "format": 1, "inputs": {` + test.inputs + `}}`))
		var input *notebook.InputError
		if !errors.As(err, &input) || input.Problems[0].Field != test.field || !strings.Contains(input.Problems[0].Message, test.message) {
			t.Errorf("%s: %v, want field %s with %q", test.inputs, err, test.field, test.message)
		}
	}
}
