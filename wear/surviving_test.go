package wear

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/refdata"
	"gonum.org/v1/gonum/unit"
)

// holdsRow holds a computed value against a published one.
func holdsRow(t *testing.T, id string, computed float64) {
	t.Helper()
	row, ok := refdata.Find(id)
	if !ok {
		t.Fatalf("no row %s", id)
	}
	if !row.Pass(computed) {
		t.Errorf("%s: computed %g %s, published %g", row.What, computed, row.Unit, row.Value)
	}
}

// miller is the maintained arm of the acute leukaemia data in R. G. Miller,
// Survival Analysis, 1997, as filed with the R survival package (read).
func miller() []Life {
	return []Life{{9, true}, {13, true}, {13, false}, {18, true}, {23, true}, {28, false}, {31, true}, {34, true}, {45, false}, {48, true}, {161, false}}
}

func TestSurviving(t *testing.T) {
	s, err := Surviving(miller())
	if err != nil {
		t.Fatal(err)
	}
	for id, time := range map[string]unit.Time{"9": 9, "13": 13, "18": 18, "23": 23, "31": 31, "34": 34, "48": 48} {
		share, u := s.At(time)
		holdsRow(t, "surviving-"+id, share)
		holdsRow(t, "surviving-"+id+"-u", u)
		// It holds until the next failure.
		if later, _ := s.At(time + 0.5); later != share {
			t.Errorf("share %g at %g, %g half a week later", share, float64(time), later)
		}
	}
	if s.Median() != 31 {
		t.Errorf("median %g, want 31", float64(s.Median()))
	}
	if share, u := s.At(8.9); share != 1 || u != 0 {
		t.Errorf("before the first failure %g (u %g)", share, u)
	}
	if s.Watched != 161 || len(s.Steps) != 7 || s.Steps[1].AtRisk != 10 || s.Steps[1].Failed != 1 {
		t.Errorf("watched %g, steps %v", float64(s.Watched), s.Steps)
	}
}

// TestSurvivingLaws: with every life known the share is the plain one and its
// uncertainty that of a share of n; the order of the parts does not matter.
func TestSurvivingLaws(t *testing.T) {
	lives := []Life{{40, true}, {10, true}, {30, true}, {20, true}, {20, true}}
	before := append([]Life(nil), lives...)
	s, err := Surviving(lives)
	if err != nil {
		t.Fatal(err)
	}
	for time, want := range map[unit.Time]float64{10: 0.8, 20: 0.4, 30: 0.2, 40: 0} {
		share, u := s.At(time)
		near(t, "share", share, want, 1e-15)
		near(t, "its u", u, math.Sqrt(want*(1-want)/5), 1e-15)
	}
	for i := range lives {
		if lives[i] != before[i] {
			t.Error("the caller's slice was changed")
		}
	}
	all, err := Surviving([]Life{{5, false}, {6, false}})
	if share, _ := all.At(7); err != nil || share != 1 || !math.IsInf(float64(all.Median()), 1) || len(all.Steps) != 0 {
		t.Errorf("none failed: %+v, %v", all, err)
	}
	if share, u := (Survival{}).At(1); share != 1 || u != 0 {
		t.Errorf("nothing measured: %g (u %g)", share, u)
	}
}

// TestSurvivingCoverage draws lives of which the longer ones are cut short, and
// counts how often 1.96 standard uncertainties hold the share.
func TestSurvivingCoverage(t *testing.T) {
	coverage(t, "share of parts that last", 83, surveys(), func(normal func() float64) bool {
		lives := make([]Life, 80)
		for i := range lives {
			life, watched := math.Exp(normal()), 3*math.Exp(0.5*normal())
			lives[i] = Life{unit.Time(math.Min(life, watched)), life <= watched}
		}
		s, err := Surviving(lives)
		if err != nil {
			t.Fatal(err)
		}
		share, u := s.At(1) // half of the logarithms are below zero
		return math.Abs(share-0.5) <= 1.96*u
	})
}

func TestSurvivingRefuses(t *testing.T) {
	for want, lives := range map[string][]Life{"at least one part": nil, "part 2: a time of 0 s": {{1, true}, {0, true}}, "part 1: a time of NaN": {{unit.Time(math.NaN()), false}}, "+Inf": {{unit.Time(math.Inf(1)), false}}} {
		if _, err := Surviving(lives); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}

func FuzzSurviving(f *testing.F) {
	f.Add(9.0, 13.0, 13.0, true, true, false)
	f.Add(1e300, 1e-300, 1.0, false, false, false)
	f.Fuzz(func(t *testing.T, a, b, c float64, x, y, z bool) {
		s, err := Surviving([]Life{{unit.Time(a), x}, {unit.Time(b), y}, {unit.Time(c), z}})
		if err != nil {
			return
		}
		last := 1.0
		for _, step := range s.Steps {
			if !(step.Share >= 0 && step.Share < last) || !(step.U >= 0) || !finite(step.U) {
				t.Errorf("step %+v", step)
			}
			last = step.Share
		}
	})
}
