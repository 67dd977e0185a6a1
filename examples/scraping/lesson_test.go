package scraping

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

// truth is the hidden wear of 2025 (T1).
func truth() wear.WornWays {
	w := waysOf(Defaults())
	w.Front = lengths(4.6, 18.4, 41.5, 56.3, 54.4, 43.5, 28.2, 13.8, 4.9)
	w.Rear = lengths(2.5, 9.8, 22.6, 33.1, 35.2, 29.9, 19.8, 9.7, 3.5)
	return w
}

func lengths(values ...float64) []unit.Length {
	l := make([]unit.Length, len(values))
	for i, v := range values {
		l[i] = unit.Length(v) * um
	}
	return l
}

func TestPlanIsThatOfTheTruth(t *testing.T) {
	in := Defaults()
	r, err := work(in)
	if err != nil {
		t.Fatal(err)
	}
	want, err := wear.PlanScraping(truth(), in.Width, wear.ScrapeOptions{Light: in.Light, Heavy: in.Heavy})
	if err != nil {
		t.Fatal(err)
	}
	// Errors of reading make a plan larger, hardly smaller: the plane must clear
	// the lowest of them.
	if off := float64(r.plan.Most - want.Most); math.Abs(off) > 2.5*float64(r.mostU) {
		t.Errorf("most %g, u %g; by the truth %g", float64(r.plan.Most), float64(r.mostU), float64(want.Most))
	}
	if off := float64(r.plan.Sinks - want.Sinks); math.Abs(off) > 2.5*float64(r.sinksU) {
		t.Errorf("sinks %g, u %g; by the truth %g", float64(r.plan.Sinks), float64(r.sinksU), float64(want.Sinks))
	}
	for i, p := range r.twist {
		true := -float64(truth().Rear[i]-truth().Front[i]) / 0.19
		if math.Abs(float64(p.Slope)-true) > 3*float64(p.U) {
			t.Errorf("twist %d = %g, u %g, truth %g", i, float64(p.Slope), float64(p.U), true)
		}
	}
	for _, check := range worked(t, in).Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestChoices(t *testing.T) {
	text := func(change func(in *Inputs), item string) string {
		in := Defaults()
		change(&in)
		return worked(t, in).Find(item).(notebook.Verdict).Text.In(notebook.Metric)
	}
	for _, test := range []struct {
		item, want string
		change     func(in *Inputs)
	}{
		{"answer", "in one plane already", func(in *Inputs) {
			for i := range in.Depths {
				in.Depths[i].Front, in.Depths[i].Rear = 3*um, 3*um
			}
		}},
		{"edge", "no part of the plan", func(*Inputs) {}},
		{"edge", "scrape that into the way", func(in *Inputs) { in.Support = 0 }},
		{"lining", "too thin", func(in *Inputs) { in.Lining, in.Moving = 50*um, 400*um }},
		{"lining", "off the moving face", func(*Inputs) {}},
	} {
		if got := text(test.change, test.item); !strings.Contains(got, test.want) {
			t.Errorf("%s: %s; want %q", test.item, got, test.want)
		}
	}
	in := Defaults()
	lean, err := work(in)
	if err != nil {
		t.Fatal(err)
	}
	in.Across = level
	flat, err := work(in)
	if err != nil {
		t.Fatal(err)
	}
	if flat.plan.Across != 0 || flat.plan.Volume < lean.plan.Volume || flat.other.Volume != lean.plan.Volume {
		t.Errorf("level: leans %g, takes %g against %g m3", float64(flat.plan.Across), float64(flat.plan.Volume), float64(lean.plan.Volume))
	}
	in.Layer = 60 * um
	if f := worked(t, in).Find("layer").(notebook.Figure); f.Unknown != "" || f.Value.SI > 60e-6 {
		t.Errorf("layer left: %+v", f)
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"order", func(in *Inputs) { in.Depths[1].Place = in.Depths[0].Place }, "place 2"},
		{"not a number", func(in *Inputs) { in.Depths[1].Front = unit.Length(math.NaN()) }, "place 2"},
		{"passes", func(in *Inputs) { in.Light = 20 * um }, "heavy"},
		{"one square", func(in *Inputs) { in.Squares = in.Squares[:1] }, "1 squares"},
		{"support", func(in *Inputs) { in.Support = 600 * mm }, "supports 600 mm"},
		{"cut", func(in *Inputs) { in.Cut = 0 }, "cut of 0"},
		{"lining", func(in *Inputs) { in.Lining = 0 }, "lining 0 mm"},
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

func BenchmarkWork(b *testing.B) {
	in := Defaults()
	for b.Loop() {
		if _, err := Work(in); err != nil {
			b.Fatal(err)
		}
	}
}
