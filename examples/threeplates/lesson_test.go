package threeplates

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
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

// truth returns the edges that the demonstration's gaps were made from, in um.
func truth(k int) (a, b, c float64) {
	s, wave := 1-math.Pow((float64(k)-4)/4, 2), math.Sin(math.Pi*float64(k)/4)
	return -8 * s, 11*s + 2*wave, 3*s - 2.5*wave
}

func TestRecoversTheEdges(t *testing.T) {
	r, err := work(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	var squares, n float64
	hold := func(what string, p wear.Profile, k int, want float64) {
		if u := float64(p.U(k) / um); u > 1e-6 {
			z := (float64(p.Points[k].Height/um) - want) / u
			squares, n = squares+z*z, n+1
			if math.Abs(z) > 3 {
				t.Errorf("%s, place %d: %.2f um, u %.2f, truth %.2f", what, k, float64(p.Points[k].Height/um), u, want)
			}
		}
	}
	for k := range 9 {
		a, b, c := truth(k)
		hold("A", r.edges[0], k, a)
		hold("B", r.edges[1], k, b)
		hold("C", r.edges[2], k, c)
		hold("three probes", r.three, k, b)
		hold("two probes", r.two, k, b)
	}
	if m := squares / n; m < 0.2 || m > 2 {
		t.Errorf("mean squared miss %.2f of %g heights, want about 1", m, n)
	}
	sheet := worked(t, Defaults())
	if v := sheet.Find("agree").(notebook.Verdict); v.Tone != notebook.Good {
		t.Errorf("agree: %s", v.Text.In(notebook.Metric))
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
	// (3 - 2 - 7)/2, by hand.
	if e := sheet.Find("exercise-plate").(notebook.Exercise); math.Abs(e.Answer.SI+3e-6) > 1e-15 {
		t.Errorf("exercise-plate = %g, want -3e-6", e.Answer.SI)
	}
}

func TestAgreement(t *testing.T) {
	tone := func(change func(in *Inputs)) (notebook.Tone, string) {
		in := Defaults()
		change(&in)
		v := worked(t, in).Find("agree").(notebook.Verdict)
		return v.Tone, v.Text.In(notebook.Metric)
	}
	if got, text := tone(func(in *Inputs) { // B was turned end for end on C
		for i, j := 0, len(in.Gaps)-1; i < j; i, j = i+1, j-1 {
			in.Gaps[i].BC, in.Gaps[j].BC = in.Gaps[j].BC, in.Gaps[i].BC
			in.Gaps[i].AB, in.Gaps[j].AB = in.Gaps[j].AB, in.Gaps[i].AB
		}
	}); got != notebook.Watch {
		t.Errorf("turned end for end: %s", text)
	}
	if got, text := tone(func(in *Inputs) { in.Pitch = 40 * mm }); got != notebook.Note {
		t.Errorf("another span: %s", text)
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"two places", func(in *Inputs) { in.Gaps = in.Gaps[:2] }, "at 2 places"},
		{"no probes", func(in *Inputs) { in.Probed = nil }, "0 rows"},
		{"order", func(in *Inputs) { in.Gaps[1].Place = 0 }, "does not lie beyond"},
		{"not a number", func(in *Inputs) { in.Gaps[1].AB = unit.Length(math.NaN()) }, "place 2"},
		{"probe", func(in *Inputs) { in.Probed[1].C = unit.Length(math.NaN()) }, "reading 2"},
		{"pitch", func(in *Inputs) { in.Pitch = 0 }, "pitch of the three probes"},
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
