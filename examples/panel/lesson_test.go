package panel

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
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
	// 2(5.1038 - 5.2420 log10 1.7) = 7.79 and, at 7.8 cm, 0.857 A/dm2: arithmetic,
	// half of the last digit.
	if got := figure(t, sheet, "high").Value.SI; !scalar.EqualWithinAbs(got, 779, 0.5) {
		t.Errorf("high = %v A/m2, want 779", got)
	}
	if got := figure(t, sheet, "low").Value.SI; !scalar.EqualWithinAbs(got, 85.6, 0.2) {
		t.Errorf("low = %v A/m2, want 85.6", got)
	}
	v, ok := sheet.Find("part").(notebook.Verdict)
	if !ok || v.Tone != notebook.Good || !strings.Contains(v.Text.In(notebook.Metric), "1.3\u00a0A/dm² to 4.4\u00a0A/dm²") {
		t.Errorf("part verdict = %q, want a mean of 1.3 to 4.4 A/dm²", v.Text.In(notebook.Metric))
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestOverpotentialEvensThePanel(t *testing.T) {
	in := Defaults()
	in.Tafel = 1 * unit.Volt
	even, err := in.solve()
	if err != nil {
		t.Fatal(err)
	}
	usual, err := Defaults().solve()
	if err != nil {
		t.Fatal(err)
	}
	near, far := 10*mm, 80*mm
	if !(even.bath.At(near) < usual.bath.At(near) && usual.bath.At(near) < usual.primary.At(near)) {
		t.Errorf("near end: %v, %v and %v A/m2 with less and less overpotential, want them to rise",
			even.bath.At(near), usual.bath.At(near), usual.primary.At(near))
	}
	if !(even.bath.At(far) > usual.bath.At(far) && usual.bath.At(far) > usual.primary.At(far)) {
		t.Errorf("far end: %v, %v and %v A/m2 with less and less overpotential, want them to fall",
			even.bath.At(far), usual.bath.At(far), usual.primary.At(far))
	}
}

func TestNoMeanSuits(t *testing.T) {
	in := Defaults()
	in.From, in.To = 50*mm, 55*mm
	sheet, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if v, ok := sheet.Find("part").(notebook.Verdict); !ok || v.Tone != notebook.Stop {
		t.Errorf("part verdict = %+v, want a stop", v)
	}
}

func TestOpenPanel(t *testing.T) {
	in := Defaults()
	in.From, in.To = 0, 101*mm
	sheet, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := sheet.Validate(); err != nil {
		t.Error(err)
	}
	for _, name := range []string{"low", "high"} {
		if len(figure(t, sheet, name).Note) == 0 {
			t.Errorf("%s does not say that the panel is good to its end", name)
		}
	}
}

func TestBadInput(t *testing.T) {
	for want, change := range map[string]func(*Inputs){
		"78 mm to 17 mm":          func(in *Inputs) { in.From, in.To = in.To, in.From },
		"outside the places that": func(in *Inputs) { in.From, in.To = 90*mm, 100*mm },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("Work gave %v, want an error with %q", err, want)
		}
	}
}
