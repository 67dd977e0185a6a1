package wear

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

const testHour = 3600 * unit.Second

// bent returns yearly depths of a bent line, with normal errors of the given
// standard deviation.
func bent(n int, date, before, after, u float64, state bool, normal func() float64) []MeasuredDepth {
	r := make([]MeasuredDepth, n)
	for i := range r {
		t := float64(i)
		y := before*math.Min(t, date) + after*math.Max(t-date, 0)
		if normal != nil {
			y += u * normal()
		}
		r[i] = MeasuredDepth{unit.Time(t) * testYear, unit.Length(y) * um, 0}
		if state {
			r[i].U = unit.Length(u) * um
		}
	}
	return r
}

func TestEventWithoutErrors(t *testing.T) {
	e, err := FitEvent(bent(7, 3.4, 6.1, 2.0, 1, true, nil), 3.4*testYear)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "before", float64(e.Before/MicrometrePerYear), 6.1, 1e-9)
	near(t, "after", float64(e.After/MicrometrePerYear), 2.0, 1e-9)
	near(t, "at the date", float64(e.At/um), 6.1*3.4, 1e-9)
	depth, _ := e.Depth(6 * testYear)
	near(t, "end", float64(depth/um), 6.1*3.4+2*2.6, 1e-9)
	if e.Agreement < 0.999 || e.Helped < 0.99 {
		t.Errorf("agreement %g, helped %g", e.Agreement, e.Helped)
	}
}

func TestEventUncertaintyIsThatOfTwoSlopes(t *testing.T) {
	// Far from the date on both sides and with the depth there known (one
	// reading of tiny uncertainty), the two rates are two independent ratios.
	r := []MeasuredDepth{{-10, 0, 2e-6}, {0, 0, 1e-11}, {10, 0, 3e-6}}
	e, err := FitEvent(r, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "before's u", float64(e.BeforeU), 2e-7, 1e-12)
	near(t, "after's u", float64(e.AfterU), 3e-7, 1e-12)
	near(t, "change's u", float64(e.ChangeU), math.Hypot(2e-7, 3e-7), 1e-12)
	near(t, "helped", e.Helped, 0.5, 1e-12)
}

func TestEventMirror(t *testing.T) {
	// Time run backward swaps the rates and turns their signs.
	normal := newNormal(3)
	r := bent(7, 3.4, 6.1, 2.0, 1, false, normal)
	back := make([]MeasuredDepth, len(r))
	for i, d := range r {
		back[i] = MeasuredDepth{-d.Clock, d.Depth, 0}
	}
	e, err := FitEvent(r, 3.4*testYear)
	if err != nil {
		t.Fatal(err)
	}
	m, err := FitEvent(back, -3.4*testYear)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "before", float64(m.Before), -float64(e.After), 1e-18)
	near(t, "after's u", float64(m.AfterU), float64(e.BeforeU), 1e-18)
}

func TestEventBeyondControl(t *testing.T) {
	// Both ways ease by 1 a year, one of them by 3 more.
	front, err := FitEvent(bent(9, 4, 6, 2, 1, true, nil), 4*testYear)
	if err != nil {
		t.Fatal(err)
	}
	rear, err := FitEvent(bent(9, 4, 3, 2, 1, true, nil), 4*testYear)
	if err != nil {
		t.Fatal(err)
	}
	b := front.Beyond(rear)
	near(t, "beyond", float64(b.Change/MicrometrePerYear), -3, 1e-9)
	near(t, "beyond's u", float64(b.ChangeU), math.Sqrt2*float64(front.ChangeU), 1e-15)
	if !(b.Helped < front.Helped) || b.Helped < 0.9 {
		t.Errorf("helped %g beyond a control, %g alone", b.Helped, front.Helped)
	}
}

func TestFindEvent(t *testing.T) {
	found, err := FindEvent(bent(13, 6.3, 6.1, 2.0, 1, true, newNormal(8)), EventSearch{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if found.Open || found.NoChangeP > 0.01 || !(found.Low <= 6.3*testYear && 6.3*testYear <= found.High) {
		t.Errorf("date %g, from %g to %g yr, open %v, no change %g", float64(found.Date/testYear), float64(found.Low/testYear), float64(found.High/testYear), found.Open, found.NoChangeP)
	}
	again, err := FindEvent(bent(13, 6.3, 6.1, 2.0, 1, true, newNormal(8)), EventSearch{Seed: 1})
	if err != nil || again.Low != found.Low || again.NoChangeP != found.NoChangeP {
		t.Error("the same seed gave another answer")
	}
	// A straight line has no date to find.
	none, err := FindEvent(bent(13, 6.3, 4, 4, 1, true, newNormal(5)), EventSearch{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if !none.Open || none.NoChangeP < 0.05 {
		t.Errorf("a straight line: from %g to %g yr, open %v, no change %g", float64(none.Low/testYear), float64(none.High/testYear), none.Open, none.NoChangeP)
	}
}

func TestEventCoverage(t *testing.T) {
	for _, state := range []bool{true, false} {
		for what, miss := range map[string]func(e Event) (off, u WearRate){
			"rate before":            func(e Event) (off, u WearRate) { return e.Before - 6.1*MicrometrePerYear, e.BeforeU },
			"rate after":             func(e Event) (off, u WearRate) { return e.After - 2.0*MicrometrePerYear, e.AfterU },
			"change at a known date": func(e Event) (off, u WearRate) { return e.Change + 4.1*MicrometrePerYear, e.ChangeU },
		} {
			coverage(t, fmt.Sprintf("%s, uncertainty stated %v", what, state), 4, surveys(), func(normal func() float64) bool {
				e, err := FitEvent(bent(7, 3.34, 6.1, 2.0, 1.2, state, normal), 3.34*testYear)
				if err != nil {
					t.Fatal(err)
				}
				off, u := miss(e)
				return math.Abs(float64(off)) <= e.Coverage(0.95)*float64(u)
			})
		}
	}
}

func TestFoundDateCoverage(t *testing.T) {
	for _, test := range []struct {
		bend  float64
		state bool
	}{{4.1, true}, {4.1, false}, {1, true}} {
		seed := uint64(0)
		coverage(t, fmt.Sprintf("unknown date, bend %g, uncertainty stated %v", test.bend, test.state), 21, surveys()/8, func(normal func() float64) bool {
			// The truth stands at a candidate: the check looks it up there.
			seed++
			found, err := FindEvent(bent(9, 3.4, 2+test.bend, 2, 1, test.state, normal), EventSearch{Dates: 20, Draws: 100, Seed: seed})
			if err != nil {
				t.Fatal(err)
			}
			k := 0
			for i, d := range found.Dates {
				if math.Abs(float64(d-3.4*testYear)) < math.Abs(float64(found.Dates[k]-3.4*testYear)) {
					k = i
				}
			}
			return found.Excess[k] <= found.Allowed[k]
		})
	}
}

func TestEventRefuses(t *testing.T) {
	good := bent(7, 3.4, 6, 2, 1, true, nil)
	_, outside := FitEvent(good, 9*testYear)
	_, few := FitEvent(good[:2], 0.5*testYear)
	_, fixed := FitEvent([]MeasuredDepth{{0, 0, 1}, {0, 1, 1}, {9, 2, 1}, {9, 3, 1}}, 4)
	_, clocks := FindEvent([]MeasuredDepth{{0, 0, 1}, {0, 1, 1}, {9, 2, 1}, {9, 3, 1}}, EventSearch{})
	_, options := FindEvent(good, EventSearch{Dates: 5})
	exact := bent(7, 3.3, 6, 2, 1, false, nil)
	_, scatter := FindEvent(exact, EventSearch{Dates: 10})
	for want, err := range map[string]error{"must lie between": outside, "needs 4 readings": few, "two clocks": fixed, "4 different clocks": clocks, "5 dates": options, "scatter": scatter} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
	if depth, u := (Event{}).Depth(1); depth != 0 || u != 0 {
		t.Error("an event that was not fitted has a depth")
	}
}

func FuzzEvent(f *testing.F) {
	f.Add(0.0, 1.0, 2.0, 3.0, 1.5, 1e-6, 2e-6)
	f.Add(0.0, 0.0, 1e300, -1e300, 0.0, 1e300, 0.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, date, depth, u float64) {
		r := []MeasuredDepth{{unit.Time(a), 0, unit.Length(u)}, {unit.Time(b), unit.Length(depth), unit.Length(u)}, {unit.Time(c), 1, unit.Length(u)}, {unit.Time(d), unit.Length(-depth), unit.Length(u)}}
		if e, err := FitEvent(r, unit.Time(date)); err == nil && !finite(float64(e.Change)) {
			t.Errorf("change %g", float64(e.Change))
		}
		if _, err := FindEvent(r, EventSearch{Dates: 10, Draws: 100}); err == nil {
			return
		}
	})
}

func BenchmarkFindEvent(b *testing.B) {
	r := bent(13, 6.3, 6.1, 2.0, 1, true, newNormal(8))
	for b.Loop() {
		if _, err := FindEvent(r, EventSearch{}); err != nil {
			b.Fatal(err)
		}
	}
}
