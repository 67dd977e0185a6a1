package squaring

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func TestSurveyRejects(t *testing.T) {
	nan := math.NaN()
	run := func(change func(*ObservedRun)) Survey {
		o := shopRuns()[1].(ObservedRun)
		change(&o)
		return Survey{Observations: []Observation{shopSweeps()[0], o}}
	}
	tests := []struct {
		name    string
		survey  Survey
		options SurveyOptions
		want    []string
	}{
		{"nothing", Survey{}, SurveyOptions{}, []string{"no readings"}},
		{"nil", Survey{Observations: []Observation{nil}}, SurveyOptions{}, []string{"observation 1"}},
		{"empty", run(func(o *ObservedRun) { o.Readings = nil }), SurveyOptions{}, []string{"table run middle", "no readings"}},
		{"reading", run(func(o *ObservedRun) { o.Readings[4].Reading = unit.Length(nan) }), SurveyOptions{}, []string{"table run middle, reading 5", "-120 mm", "NaN"}},
		{"travel", run(func(o *ObservedRun) { o.Readings[2].X = unit.Length(math.Inf(1)) }), SurveyOptions{}, []string{"table run middle, reading 3", "travel"}},
		{"far", run(func(o *ObservedRun) { o.Readings[2].X = 1e9 }), SurveyOptions{}, []string{"reading 3", "120 knots"}},
		{"uncertainty", run(func(o *ObservedRun) { o.ReadingU = 0 }), SurveyOptions{}, []string{"table run middle, reading 1", "standard uncertainty"}},
		{"negative uncertainty", run(func(o *ObservedRun) { o.ReadingU = -1e-6 }), SurveyOptions{}, []string{"standard uncertainty"}},
		{"track", run(func(o *ObservedRun) { o.Track = unit.Length(nan) }), SurveyOptions{}, []string{"track"}},
		{"radius", Survey{Observations: []Observation{ObservedSweep{Setup: Setup{Name: "s"}, Readings: evenRound(4), ReadingU: 1e-6}}}, SurveyOptions{}, []string{"sweep s", "radius", "above zero"}},
		{"azimuth", Survey{Observations: []Observation{ObservedSweep{Radius: 0.1, Readings: []SweepReading{{Azimuth: unit.Angle(nan)}}, ReadingU: 1e-6}}}, SurveyOptions{}, []string{"sweep 1, reading 1"}},
		{"span", Survey{Observations: []Observation{ObservedTwoDial{Span: -1, Readings: []TwoDialReading{{}}, ReadingU: 1e-6}}}, SurveyOptions{}, []string{"two-dial gauge 1", "span"}},
		{"level's direction", Survey{Observations: []Observation{ObservedLevel{Readings: []LevelReading{{Axis: 7}}, ReadingU: 1e-6}}}, SurveyOptions{}, []string{"level 1, reading 1", "direction is 7"}},
		{"knee's direction", Survey{Observations: []Observation{ObservedKnee{Axis: -1, Readings: []KneeReading{{}}, ReadingU: 1e-6}}}, SurveyOptions{}, []string{"direction is -1"}},
		{"side", Survey{Observations: []Observation{ObservedDiagonals{A: 0.3, ReadingU: 1e-6}}}, SurveyOptions{}, []string{"side along y"}},
		{"jaw", Survey{Observations: []Observation{ObservedJaw{Readings: []JawReading{{}}, ReadingU: 1e-6}}}, SurveyOptions{}, []string{"width of the jaw"}},
		{"knot step", shopSurvey(), SurveyOptions{KnotStep: -1}, []string{"step between knots"}},
		{"datum", shopSurvey(), SurveyOptions{Datum: unit.Length(nan)}, []string{"datum"}},
		{"bend", shopSurvey(), SurveyOptions{HeightBend: unit.Length(nan)}, []string{"bend of the height"}},
		{"range", shopSurvey(), SurveyOptions{To: 1e12}, []string{"travel asked for"}},
		{"false alarm", shopSurvey(), SurveyOptions{FalseAlarm: 1.5}, []string{"false alarm"}},
		{"detection", shopSurvey(), SurveyOptions{DetectionChance: -0.5}, []string{"detection"}},
		{"too fine", Survey{Observations: append(append(shopRuns(), shopSweeps()...), shopLevel())}, SurveyOptions{KnotStep: 0.0031}, []string{"unknowns", "wider step", "3.1 mm"}},
		{"prior", Survey{Observations: shopSweeps(), Priors: []Prior{{Name: "old", Feature: KneeLean("", AlongX), Value: 1e-6}}}, SurveyOptions{}, []string{"prior knowledge old", "standard uncertainty"}},
		{"prior elsewhere", Survey{Observations: shopSweeps(), Priors: []Prior{{Name: "old", Feature: TableHeight("", 9), ValueU: 1e-6}}}, SurveyOptions{}, []string{"prior knowledge old", "outside the surveyed travel"}},
		{"prior of nothing", Survey{Priors: []Prior{{Name: "none", ValueU: 1e-6}}}, SurveyOptions{}, []string{"nothing to solve"}},
		{"unlike features", Survey{Observations: shopSweeps(), Priors: []Prior{{Feature: Combine("sum", []Feature{KneeLean("", AlongX), TableHeight("", 0.1)}, []float64{1, 1}), ValueU: 1}}}, SurveyOptions{}, []string{"not of one kind"}},
		{"too few weights", Survey{Observations: shopSweeps(), Priors: []Prior{{Feature: Combine("sum", []Feature{KneeLean("", AlongX)}, nil), ValueU: 1}}}, SurveyOptions{}, []string{"1 features with 0 weights"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := test.survey.Adjust(test.options)
			if err == nil || !strings.HasPrefix(err.Error(), "squaring: ") || strings.Contains(err.Error(), "squaring: squaring") {
				t.Fatalf("error %v, want one of squaring", err)
			}
			for _, want := range test.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("error %q does not say %q", err, want)
				}
			}
		})
	}
}

func TestSurveyFeatureRejects(t *testing.T) {
	a, err := shopSurvey().Adjust(SurveyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []Feature{
		PartBow("", 0, -1), PartBow(shopEpoch, 0, unit.Length(math.NaN())), TableSlope("", SurveyAxis(9), 0), TableHeight(shopEpoch, unit.Length(math.NaN())),
		TopForm(unit.Length(math.Inf(1)), 0), JawAngle("j", shopEpoch, 0, 0), ReadingChange(nil, 1, 0), ReadingChange(shopHoles(), 3, 0), ReadingChange(shopHoles(), 1, 9),
	} {
		if e, err := a.Predict(f); err == nil {
			t.Errorf("%s is given as %+v", f.Name, e)
		}
	}
	if e, err := a.Predict(Feature{}); err != nil || !e.Determined || e.Value != 0 || e.U != 0 {
		t.Errorf("the zero feature is %+v, %v; want nought", e, err)
	}
	if a.Covariance(-1, 0) != 0 || a.Covariance(0, 1<<20) != 0 {
		t.Error("a covariance of what is not there is not zero")
	}
	near(t, "variance", a.Covariance(2, 2), a.Parameters[2].U*a.Parameters[2].U, 1e-12*a.Covariance(2, 2))
}

// Whatever is read, an error or finite answers.
func FuzzSurvey(f *testing.F) {
	f.Add(0.0, 0.11, -0.3, 12e-6, 2e-6, 0.06, uint8(0), uint8(8))
	f.Add(0.3, 0.19, 0.2, 35e-6, 3e-6, 0.1, uint8(2), uint8(2))
	f.Add(0.1, 0.1, 0.1, 0.02, 1e-6, 0.05, uint8(3), uint8(13))
	f.Add(-0.1, 0.5, 1e-9, 1e-3, 1e-9, 0.3, uint8(5), uint8(1))
	f.Add(math.Inf(1), math.NaN(), -1.0, 1e308, 0.0, -1.0, uint8(7), uint8(3))
	f.Fuzz(func(t *testing.T, x, size, step, value, u, knot float64, kind, count uint8) {
		n := int(count % 16)
		if knots := (math.Abs(x) + math.Abs(step)*float64(n)) / math.Abs(knot); knots > 30 && knots < 200 {
			return // allowed, but slow: a fuzzing worker is given up after a second
		}
		setup := Setup{Name: "fuzzed", Head: "h"}
		travel := make([]TravelReading, n)
		sweep := make([]SweepReading, n)
		dials := make([]TwoDialReading, n)
		level := make([]LevelReading, n)
		knee := make([]KneeReading, n)
		jaw := make([]JawReading, n)
		skim := make([]SkimReading, n)
		for i := range n {
			at, v := x+float64(i)*step, value*float64(i%3)
			travel[i] = TravelReading{unit.Length(at), unit.Length(v)}
			sweep[i] = SweepReading{unit.Angle(at), unit.Length(v)}
			dials[i] = TwoDialReading{unit.Angle(at), unit.Length(v)}
			level[i] = LevelReading{unit.Length(at), SurveyAxis(i % 2), i%4 > 1, Slope(v)}
			knee[i] = KneeReading{unit.Length(at), unit.Length(v)}
			jaw[i] = JawReading{unit.Length(at), unit.Length(v)}
			skim[i] = SkimReading{unit.Length(at), unit.Length(v)}
		}
		l := unit.Length(size)
		all := []Observation{
			ObservedSweep{setup, unit.Length(x), 0, l, sweep, count > 99, unit.Length(u)},
			ObservedTilt{setup, unit.Length(x), 0, Gradient{Slope(value), Slope(step)}, Gradient{Slope(u), Slope(u)}},
			ObservedTwoDial{setup, "g", unit.Length(x), 0, l, dials, unit.Length(u)},
			ObservedRun{setup, l, travel, count > 99, unit.Length(u)},
			ObservedLevel{setup, "l", l, l, level, Slope(u)},
			ObservedBar{setup, "b", count > 99, travel, unit.Length(u)},
			ObservedSkim{setup, skim, unit.Length(u)},
			ObservedJaw{setup, "j", unit.Length(x), l, jaw, unit.Length(u)},
			ObservedKnee{setup, "s", SurveyAxis(kind % 2), count > 99, unit.Length(x), knee, unit.Length(u)},
			ObservedDiagonals{setup, l, l, unit.Length(value), unit.Length(value), unit.Length(u)},
		}
		first, second := all[int(kind)%len(all)], all[int(kind/16)%len(all)]
		survey := Survey{Observations: []Observation{first, second}}
		features := fuzzedFeatures(unit.Length(x), l, unit.Length(step), second)
		if count > 127 {
			survey.Priors = append(ContactPriors("", l, []unit.Length{unit.Length(x)}, unit.Length(u)),
				Prior{Name: "known", Feature: features[int(kind)%len(features)], Value: value, ValueU: u})
		}
		a, err := survey.Adjust(SurveyOptions{KnotStep: unit.Length(knot)})
		if err != nil {
			return
		}
		for _, p := range a.Parameters {
			if bad(p.Value) || bad(p.U) {
				t.Errorf("%s is %g (u %g)", p.Name, p.Value, p.U)
			}
		}
		for _, r := range a.Readings {
			if bad(r.Residual) || bad(r.Redundancy) || bad(r.Test) || r.Redundancy < 0 || r.Redundancy > 1 {
				t.Errorf("%s reading %d: %+v", r.Observation, r.Number, r)
			}
		}
		for _, f := range features {
			if e, err := a.Predict(f); err == nil && (bad(e.Value) || bad(e.U) || e.U < 0 || !e.Determined && e.Why == "") {
				t.Errorf("%s is %+v", f.Name, e)
			}
		}
		machine, _ := a.Machine("", "h")
		if d, err := machine.Deviation(Position{X: unit.Length(x), Quill: l}); err == nil && (bad(float64(d.Tool.X)) || bad(float64(d.Tool.Z))) {
			t.Errorf("the machine's deviation is %+v", d)
		}
		if len(a.Parameters) > 100 {
			return // as slow
		}
		a.Suspects()
		for _, free := range a.Undetermined() {
			if free.Sentence == "" || len(free.Together) == 0 {
				t.Errorf("a free combination without a sentence: %+v", free)
			}
		}
		if _, err := a.Plan([]Candidate{{Name: "again", Observations: []Observation{second}, Minutes: 1}}, TableSlope("", AlongX, 0), 2); err != nil {
			t.Logf("plan: %v", err)
		}
	})
}

// fuzzedFeatures is one feature of every kind, about a place and a size.
func fuzzedFeatures(x, size, step unit.Length, o Observation) []Feature {
	tool := ToolDeviation("h", "", Position{X: x, Y: step, Z: size, Quill: size})
	return []Feature{
		SpindleSquareness("h", "", AlongX, x), TableSlope("", AlongY, x), TableHeight("", x), PartBow("", x, size), KneeLean("", AlongX),
		TravelSquareness(""), LeanToLevel("", AlongY), TopForm(x, size), JawAngle("j", "", x, size), JawHollow("j"), ReadingChange(o, 1, 0), ReadingChange(o, 2, 1),
		tool[0], tool[1], tool[2], Combine("", []Feature{TableHeight("", x), tool[2]}, []float64{float64(step), 1}),
	}
}

func bad(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }
