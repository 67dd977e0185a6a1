package squaring

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func nextCandidates() []Candidate {
	setup := func(name string) Setup { return Setup{Name: name, Epoch: shopEpoch, Head: "left"} }
	sweep := func(name string, x unit.Length) Candidate {
		return Candidate{Name: name, Minutes: 5, Observations: []Observation{
			ObservedSweep{Setup: setup(name), X: x, Radius: 0.11, Readings: evenRound(8), Drift: true, ReadingU: 2.5e-6}}}
	}
	level := ObservedLevel{Setup: setup("next level"), Gauge: "the level", ReadingU: 4e-6}
	for _, r := range evenRun(-0.36, 0.36, 7) {
		level.Readings = append(level.Readings, LevelReading{X: r.X}, LevelReading{X: r.X, Reversed: true})
	}
	return []Candidate{
		sweep("sweep at 0", 0), sweep("sweep at 300", 0.3),
		{Name: "table run", Minutes: 10, Observations: []Observation{
			ObservedRun{Setup: setup("next run"), Readings: evenRun(-0.36, 0.36, 13), ReadingU: 1e-6}}},
		{Name: "bar both ways", Minutes: 40, Observations: []Observation{
			ObservedBar{Setup: setup("next up"), Bar: "next bar", Readings: evenRun(-0.3, 0.3, 11), ReadingU: 1e-6},
			ObservedBar{Setup: setup("next down"), Bar: "next bar", Down: true, Readings: evenRun(-0.3, 0.3, 11), ReadingU: 1e-6}}},
		{Name: "level", Minutes: 30, Observations: []Observation{level}},
		{Name: "square", Minutes: 15, Observations: bothWays(setup("next square"), 0)},
	}
}

// What the update formula foretells is what an adjustment with the reading in it
// gives: for a feature already determined, for one that the reading determines
// and for one that stays undetermined.
func TestNextBestAgainstRefit(t *testing.T) {
	tests := []struct {
		name    string
		survey  Survey
		feature Feature
	}{
		{"determined", shopSurvey(), PartBow(shopEpoch, 0, 0.6)},
		{"determined, tilt elsewhere", shopSurvey(), SpindleSquareness("left", shopEpoch, AlongX, 0.2)},
		{"nothing known of heights", Survey{Observations: append(shopSweeps(), shopLevel())}, PartBow(shopEpoch, 0, 0.6)},
		{"one sweep far off", Survey{Observations: shopSweeps()[5:]}, SpindleSquareness("left", shopEpoch, AlongX, 0)},
		{"runs only", Survey{Observations: shopRuns()}, SpindleSquareness("left", shopEpoch, AlongX, 0.15)},
		{"height of the far end", Survey{Observations: shopBars()}, TableHeight(shopEpoch, 0.2)},
	}
	options := SurveyOptions{From: -0.36, To: 0.36}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			a, err := test.survey.Adjust(options)
			if err != nil {
				t.Fatal(err)
			}
			list, err := a.NextBest(nextCandidates(), test.feature)
			if err != nil {
				t.Fatal(err)
			}
			if len(list) != len(nextCandidates()) {
				t.Fatalf("%d answers for %d candidates", len(list), len(nextCandidates()))
			}
			for _, next := range list {
				s := test.survey
				s.Observations = append(append([]Observation(nil), s.Observations...), nextCandidates()[next.place].Observations...)
				refit, err := s.Adjust(options)
				if err != nil {
					t.Fatal(err)
				}
				e, err := refit.Predict(test.feature)
				if err != nil {
					t.Fatal(err)
				}
				if e.Determined != next.After.Determined {
					t.Errorf("%s: foretold determined %v, refit %v (%s)", next.Name, next.After.Determined, e.Determined, e.Why)
				}
				// 1e-6: an updated against a fresh decomposition.
				near(t, next.Name, next.After.U, e.U, 1e-6*e.U)
			}
		})
	}
}

// A plan is each time the best after those before it: the same as adjusting with
// the first in and asking again.
func TestPlanAgainstRefit(t *testing.T) {
	s := Survey{Observations: shopSweeps()}
	options := SurveyOptions{From: -0.36, To: 0.36}
	feature := PartBow(shopEpoch, 0, 0.6)
	a, err := s.Adjust(options)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := a.Plan(nextCandidates(), feature, 3)
	if err != nil {
		t.Fatal(err)
	}
	if len(plan) != 3 {
		t.Fatalf("a plan of %d, want 3", len(plan))
	}
	if plan[0].Before.Determined || !math.IsInf(plan[0].PerMinute, 1) || !plan[0].After.Determined {
		t.Errorf("sweeps cannot tell a bow, yet the plan starts from %+v", plan[0])
	}
	for _, step := range plan {
		s.Observations = append(s.Observations, nextCandidates()[step.place].Observations...)
		refit, err := s.Adjust(options)
		if err != nil {
			t.Fatal(err)
		}
		e, err := refit.Predict(feature)
		if err != nil {
			t.Fatal(err)
		}
		near(t, step.Name, step.After.U, e.U, 1e-6*e.U)
	}
	if plan[0].place == plan[1].place || plan[1].place == plan[2].place || plan[0].place == plan[2].place {
		t.Errorf("the plan takes one reading twice: %v", plan)
	}
	same, err := a.NextBest(nextCandidates(), feature)
	if err != nil {
		t.Fatal(err)
	}
	if same[0].Name != plan[0].Name {
		t.Errorf("next best is %s, the plan starts with %s", same[0].Name, plan[0].Name)
	}
}

// A longer look never knows less, and a reading that has nothing to do with the
// feature changes nothing.
func TestNextBestLaws(t *testing.T) {
	a, err := shopSurvey().Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	list, err := a.NextBest(nextCandidates(), TravelSquareness(shopEpoch))
	if err != nil {
		t.Fatal(err)
	}
	for _, next := range list {
		near(t, next.Name, next.After.U, next.Before.U, 1e-9*next.Before.U)
	}
	list, err = a.NextBest(nextCandidates(), PartBow(shopEpoch, 0.05, 0.4))
	if err != nil {
		t.Fatal(err)
	}
	for i, next := range list {
		if next.After.U > next.Before.U*(1+1e-9) {
			t.Errorf("%s makes it worse: %g from %g", next.Name, next.After.U, next.Before.U)
		}
		if i > 0 && next.PerMinute > list[i-1].PerMinute {
			t.Errorf("%s stands behind %s", next.Name, list[i-1].Name)
		}
	}
}

func TestNextBestRejects(t *testing.T) {
	a, err := Survey{Observations: shopSweeps()}.Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	good := nextCandidates()[0]
	free := good
	free.Minutes = 0
	far := Candidate{Name: "far sweep", Minutes: 5, Observations: []Observation{ObservedSweep{X: 2, Radius: 0.1, Readings: evenRound(4), ReadingU: 1e-6}}}
	tests := []struct {
		name      string
		candidate Candidate
		feature   Feature
		want      string
	}{
		{"no cost", free, KneeLean("", AlongX), "0 minutes"},
		{"outside", far, KneeLean("", AlongX), "outside the surveyed travel"},
		{"no readings", Candidate{Name: "none", Minutes: 1}, KneeLean("", AlongX), "no readings"},
		{"feature outside", good, TableHeight("", 5), "outside the surveyed travel"},
		{"feature without length", good, PartBow("", 0, 0), "length of the part"},
		{"no direction", good, KneeLean("", SurveyAxis(3)), "must be AlongX or AlongY"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := a.NextBest([]Candidate{test.candidate}, test.feature)
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "squaring: ") {
				t.Errorf("error %v, want one of squaring saying %q", err, test.want)
			}
			if _, err := a.Plan([]Candidate{test.candidate}, test.feature, 2); err == nil {
				t.Error("Plan takes what NextBest refuses")
			}
		})
	}
}
