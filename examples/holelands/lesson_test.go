package holelands

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func work(t *testing.T, change func(*Inputs)) *notebook.Sheet {
	t.Helper()
	in := Defaults()
	change(&in)
	s, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	return s
}

// straight is a machine with nothing wrong but what the change puts in.
func straight(in *Inputs) {
	in.ShownX, in.ShownY, in.KneeX, in.KneeY, in.Skew, in.ScaleX, in.ScaleY = 0, 0, 0, 0, 0, 0, 0
	for i := range in.Ways {
		in.Ways[i] = Station{Travel: in.Ways[i].Travel}
	}
}

func land(t *testing.T, change func(*Inputs)) []landed {
	t.Helper()
	in := Defaults()
	change(&in)
	m, err := in.machine()
	if err != nil {
		t.Fatal(err)
	}
	all, err := in.land(m)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func near(t *testing.T, what string, got unit.Length, want float64) {
	t.Helper()
	// 0.01 um: products of two errors.
	if math.Abs(float64(got/um)-want) > 0.01 {
		t.Errorf("%s: %.3f um, want %.3f", what, float64(got/um), want)
	}
}

// Each error by itself does what hand and eye say.
func TestOneErrorAtATime(t *testing.T) {
	for _, l := range land(t, straight) {
		near(t, "a perfect machine", l.off.Norm()+l.lean.Norm()+l.second.Norm(), 0)
	}
	skew := land(t, func(in *Inputs) { straight(in); in.Skew = 35 * squaring.Microradian })
	near(t, "rear holes drift left", skew[2].off.Minus(skew[1].off).X, -35*0.160)
	scale := land(t, func(in *Inputs) { straight(in); in.ScaleX = 30 * squaring.Microradian })
	near(t, "holes too far apart", scale[1].off.Minus(scale[0].off).X, 30*0.300)
	head := land(t, func(in *Inputs) { straight(in); in.ShownX = -238 * squaring.Microradian })
	near(t, "the bottom of a hole", head[0].lean.X, 238*0.060)
	near(t, "the pattern with a head that leans", head[2].off.Minus(head[0].off).Norm(), 0)
	near(t, "the second tool", head[0].second.X, 238*0.070)
	knee := land(t, func(in *Inputs) { straight(in); in.KneeY = -50 * squaring.Microradian })
	// Going down by 70 mm the knee carries the work to the back by 3.5 um.
	near(t, "the second tool on a knee that leans", knee[0].second.Y, -50*0.070)
	slope := land(t, func(in *Inputs) {
		straight(in)
		for i := range in.Ways {
			if in.Ways[i].Travel < 0 {
				in.Ways[i].Along = 100 * squaring.Microradian
			}
		}
	})
	// The table's right end high turns the top of the work to the left, so the
	// hole at u = 150, travel -150, lands to the right by arm times slope.
	near(t, "a slope of the table", slope[1].off.X-slope[0].off.X, 100*0.060)
}

func TestDemo(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if f := s.Find("order").(notebook.Figure).Value; f.SI > 0.05e-6 {
		t.Errorf("the plain sum misses the exact chain by %g", f.SI)
	}
	// 238 um/m over 50 mm, the foot to the right.
	if q := s.Find("wall-gap").(notebook.Figure); math.Abs(q.Value.SI-11.9e-6) > 1e-9 || !strings.Contains(q.Note.In(notebook.Metric), "at the top") {
		t.Errorf("wall %g: %s", q.Value.SI, q.Note.In(notebook.Metric))
	}
	if n := len(s.Find("blames").(notebook.Table).Rows); n != 22 {
		t.Errorf("%d errors, want 21 and the spindle", n)
	}
	for _, check := range s.Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v", check.Name, check.Computed, check.Row.Value)
		}
	}
}

// The errors one at a time add up to all of them together.
func TestBlamesAddUp(t *testing.T) {
	in := Defaults()
	m, err := in.machine()
	if err != nil {
		t.Fatal(err)
	}
	at := position(in.Holes[2], in.Work, in.Quill)
	from := position(in.Holes[0], in.Work, in.Quill)
	list, err := blames(m, at, from)
	if err != nil {
		t.Fatal(err)
	}
	var sum squaring.Vector
	for _, b := range list {
		sum = sum.Plus(b.moves)
	}
	all, err := m.Deviation(at)
	if err != nil {
		t.Fatal(err)
	}
	first, err := m.Deviation(from)
	if err != nil {
		t.Fatal(err)
	}
	if miss := sum.Minus(all.Tool.Minus(first.Tool)).Norm(); miss > 1e-12 {
		t.Errorf("they miss the whole by %g m", float64(miss))
	}
}

func TestVerdicts(t *testing.T) {
	for want, zone := range map[notebook.Tone]unit.Length{notebook.Good: 0.2 * mm, notebook.Stop: 2 * um} {
		s := work(t, func(in *Inputs) { in.Zone = zone })
		if v := s.Find("pattern").(notebook.Verdict); v.Tone != want {
			t.Errorf("zone %g: %s", float64(zone), v.Text.In(notebook.Metric))
		}
	}
	work(t, straight)
	work(t, func(in *Inputs) { in.Bore, in.Depth, in.Wall, in.Longer, in.Quill = 0, 0, 0, 0, 0 })
}

func TestBadInputs(t *testing.T) {
	for name, change := range map[string]func(*Inputs){
		"nan":   func(in *Inputs) { in.Holes[1].V = unit.Length(math.NaN()) },
		"twice": func(in *Inputs) { in.Ways[0].Travel = in.Ways[1].Travel },
		"inf":   func(in *Inputs) { in.Bore = unit.Length(math.Inf(1)) },
		"wall":  func(in *Inputs) { in.Wall = -1 * mm },
		"ways":  func(in *Inputs) { in.Ways[3].Along = squaring.Slope(math.NaN()) },
	} {
		in := Defaults()
		change(&in)
		if _, err := Work(in); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
