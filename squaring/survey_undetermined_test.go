package squaring

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// freeing is an adjustment whose undetermined combinations are asked for.
func freeing(t *testing.T, observations ...Observation) (*Adjustment, []Undetermined) {
	t.Helper()
	a, err := Survey{Observations: observations}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return a, a.Undetermined()
}

func TestUndetermined(t *testing.T) {
	halfTurn := ObservedTwoDial{Setup: Setup{Name: "one way"}, Gauge: "two-dial gauge", Span: 0.19, ReadingU: 3e-6,
		Readings: []TwoDialReading{{Azimuth: 0, Difference: -10e-6}}}
	turned := halfTurn
	turned.Readings = append([]TwoDialReading{{Azimuth: 180 * Degree, Difference: 75e-6}}, halfTurn.Readings...)
	level := ObservedLevel{Setup: Setup{Name: "once"}, Gauge: "level", ReadingU: 4e-6, Readings: []LevelReading{{X: -0.2}, {X: 0}, {X: 0.2}}}
	knee := shopKnee()
	bars := shopBars()

	tests := []struct {
		name         string
		observations []Observation
		count        int
		sentences    []string // each must be part of some sentence
		cures        []string
	}{
		{"sweep away from the datum", []Observation{shopSweeps()[5]}, 2,
			[]string{"cannot tell the spindle tilt along x (head left) from the table slope along x", "cannot tell the spindle tilt along y (head left) from the table slope along y"},
			[]string{"A sweep with the table at X = 0 would tell.", "A sweep with the table at X = 0 would tell."}},
		{"two dials without a half turn", []Observation{halfTurn}, 1,
			[]string{"cannot tell the spindle tilt along x from the mismatch of two-dial gauge"},
			[]string{"A sweep with the table at X = 0 would tell."}},
		{"two dials turned", []Observation{turned}, 0, nil, nil},
		{"level never turned", []Observation{level}, 1,
			[]string{"cannot tell the lean of the table to level along x from the zero of level"},
			[]string{"The level turned end for end would tell."}},
		{"square one way", []Observation{knee[0]}, 1,
			[]string{"cannot tell the knee lean along x (2025-05-24) from the error of 200 mm square"},
			[]string{"The square turned end for end would tell."}},
		{"square both ways", []Observation{knee[0], knee[2]}, 0, nil, nil},
		{"bar one way", bars[:1], 1, []string{"cannot tell the table height"}, []string{"A run of the table under a still dial, on the middle track"}},
		{"bar both ways, without a run", bars, 1, []string{"cannot tell the table height"}, []string{"A run of the table under a still dial, on the middle track"}},
		{"diagonals", []Observation{shopHoles()}, 0, nil, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			a, free := freeing(t, test.observations...)
			if test.count != len(free) {
				for _, f := range free {
					t.Logf("%s %s", f.Sentence, f.Cure)
				}
				t.Fatalf("%d combinations undetermined, want %d", len(free), test.count)
			}
			for _, want := range test.sentences {
				found := false
				for _, f := range free {
					found = found || strings.Contains(f.Sentence, want)
				}
				if !found {
					t.Errorf("no sentence says %q; the first is %q", want, free[0].Sentence)
				}
			}
			for i, want := range test.cures {
				if !strings.HasPrefix(free[i].Cure, want) {
					t.Errorf("cure of %q is %q, want %q", free[i].Sentence, free[i].Cure, want)
				}
			}
			checkFree(t, a, free)
		})
	}
}

// checkFree asserts what undetermined means: no reading changes when the
// unknowns change together, and no unknown among them is given a number.
func checkFree(t *testing.T, a *Adjustment, free []Undetermined) {
	t.Helper()
	for _, f := range free {
		change := make([]float64, a.set.len())
		for _, c := range f.Together {
			i, ok := a.set.find(c.key)
			if !ok {
				t.Fatalf("%s is not an unknown", c.Name)
			}
			change[i] = c.Amount
			if p := a.Parameters[i]; p.Determined || p.Value != 0 || p.U != 0 || p.Why == "" {
				t.Errorf("%s is free, yet given as %+v", c.Name, p)
			}
		}
		for _, e := range a.equations {
			if moved := dotTerms(e.terms, change); moved > 1e-6*e.u || moved < -1e-6*e.u {
				t.Errorf("%s: %s reading %d moves by %g m", f.Sentence, e.of, e.number, moved)
			}
		}
	}
	for _, p := range a.Parameters {
		if p.Determined != (p.Why == "") {
			t.Errorf("%s: determined %v, why %q", p.Name, p.Determined, p.Why)
		}
	}
}

// What cancels is known all the same: one sweep at X = 300 tells the tilt
// against the table there, though neither tilt nor slope. A closing law for
// free combinations.
func TestUndeterminedButTheirSumKnown(t *testing.T) {
	a, err := Survey{Observations: shopSweeps()[5:]}.Adjust(SurveyOptions{From: -0.36, To: 0.36})
	if err != nil {
		t.Fatal(err)
	}
	e, err := a.Predict(SpindleSquareness("left", shopEpoch, AlongX, 0.300))
	if err != nil || !e.Determined {
		t.Fatalf("tilt against the table where it was swept: %v %s", err, e.Why)
	}
	near(t, "tilt there, um/m", e.Value*1e6, 131, 3*e.U*1e6)
	for _, f := range []Feature{SpindleSquareness("left", shopEpoch, AlongX, 0), TableSlope(shopEpoch, AlongX, 0.3),
		PartBow(shopEpoch, 0, 0.2), KneeLean(shopEpoch, AlongX), SpindleSquareness("found", shopEpoch, AlongX, 0)} {
		e, err := a.Predict(f)
		if err != nil {
			t.Fatal(err)
		}
		if e.Determined || e.Value != 0 || e.Why == "" {
			t.Errorf("%s given as %+v by one sweep elsewhere", f.Name, e)
		}
	}
}

func TestUndeterminedOnFreeCurves(t *testing.T) {
	// Without smoothness, levels at three stations leave the knots between
	// free for nothing: only knots that a reading sees are unknowns.
	level := ObservedLevel{Setup: Setup{Name: "free"}, ReadingU: 4e-6}
	for _, x := range []unit.Length{-0.12, 0, 0.12} {
		level.Readings = append(level.Readings, LevelReading{X: x}, LevelReading{X: x, Reversed: true})
	}
	a, err := Survey{Observations: []Observation{level}}.Adjust(SurveyOptions{SlopeBend: -1})
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Parameters) != 4 || len(a.Undetermined()) != 0 || a.Redundancy != 2 {
		t.Errorf("%d unknowns, %d free, redundancy %d; want 4, 0, 2", len(a.Parameters), len(a.Undetermined()), a.Redundancy)
	}
	e, err := a.Predict(TableSlope("", AlongX, 0.06))
	if err != nil {
		t.Fatal(err)
	}
	if e.Determined {
		t.Errorf("a slope between stations is known without smoothness: %+v", e)
	}
}

// A bar run one way tells nothing of motion and bar apart: what is given for
// the motion is smoothness, and says so. Rolled over, the readings tell.
func TestFromPrior(t *testing.T) {
	bow := PartBow(shopEpoch, 0, 0.4)
	one, _ := freeing(t, shopBars()[:1]...)
	assumed, err := one.Predict(bow)
	if err != nil {
		t.Fatal(err)
	}
	both, _ := freeing(t, shopBars()...)
	told, err := both.Predict(bow)
	if err != nil {
		t.Fatal(err)
	}
	if assumed.FromPrior < 0.9 || told.FromPrior > 0.2 || told.U > assumed.U/3 {
		t.Errorf("from priors: %.2f (u %g) one way, %.2f (u %g) both ways", assumed.FromPrior, assumed.U, told.FromPrior, told.U)
	}
}
