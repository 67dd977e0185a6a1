package squaring

import (
	"math/rand/v2"
	"testing"
)

// surveySimulation is a survey whose truth is known: the equations of real
// observations with readings drawn about a drawn machine.
type surveySimulation struct {
	set       *unknowns
	equations []equation
	truth     []float64
}

// simulateSurvey draws a machine that is as smooth as the survey says it is, and
// readings of it with the stated uncertainties.
func simulateSurvey(t testing.TB, s Survey, o SurveyOptions, random *rand.Rand) surveySimulation {
	t.Helper()
	o, err := o.defaults()
	if err != nil {
		t.Fatal(err)
	}
	k, err := knotsFor(s.Observations, o)
	if err != nil {
		t.Fatal(err)
	}
	b := surveyBuilder{set: &unknowns{knots: k}}
	b.observe(s.Observations)
	sounded := len(b.equations)
	b.smooth(o)
	if b.err != nil {
		t.Fatal(b.err)
	}
	sim := surveySimulation{set: b.set, equations: b.equations, truth: make([]float64, b.set.len())}
	drawn := map[unknown][]float64{}
	for i := range sim.truth {
		key := b.set.key(i)
		sim.truth[i] = 100e-6 * random.NormFloat64()
		if familyFacts[key.family].kind == LengthValue {
			sim.truth[i] = 10e-6 * random.NormFloat64()
		}
		if key.family.isCurve() {
			curve := unknown{family: key.family, of: key.of}
			if drawn[curve] == nil {
				drawn[curve] = drawCurve(k, key.family, b.equations[sounded:], curve, random)
			}
			sim.truth[i] = drawn[curve][int((float64(key.place)*1e-6-k.datum)/k.step+1000.5)-1000-k.first]
		}
	}
	for _, e := range b.equations[sounded:] {
		if len(e.terms) == 1 && e.of == "flatness of the table top" {
			sim.truth[e.terms[0].unknown] = e.u * random.NormFloat64()
		}
	}
	for i := range sim.equations[:sounded] {
		e := &sim.equations[i]
		e.value = dotTerms(e.terms, sim.truth) + e.u*random.NormFloat64()
	}
	return sim
}

// drawCurve draws the knots of a curve whose second differences are as the
// smoothness says, and sets it on its pins.
func drawCurve(k knots, f family, smoothness []equation, curve unknown, random *rand.Rand) []float64 {
	bend := 0.0
	for _, e := range smoothness {
		if e.of == "smoothness of "+curve.group() {
			bend = e.u
		}
	}
	values := make([]float64, k.last-k.first+1)
	scale := 50e-6
	if familyFacts[f].kind == LengthValue {
		scale = 10e-6
	}
	values[0], values[1] = scale*random.NormFloat64(), scale*random.NormFloat64()
	for i := 2; i < len(values); i++ {
		values[i] = 2*values[i-1] - values[i-2] + bend*random.NormFloat64()
	}
	at := func(i int) float64 { return values[i-k.first] }
	offset, ramp := at(0), 0.0
	if f == sidewaysCurve {
		offset, ramp = (at(1)+at(-1))/2, (at(1)-at(-1))/2
	}
	for i := range values {
		values[i] -= offset + ramp*float64(i+k.first)
	}
	return values
}

func (s surveySimulation) adjust(t testing.TB) *Adjustment {
	t.Helper()
	o, err := SurveyOptions{}.defaults()
	if err != nil {
		t.Fatal(err)
	}
	a, err := solveSurvey(s.set, s.equations, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// largeSurvey is a survey of about the given numbers of readings and unknowns:
// sweeps, runs and levels over so many dates.
func largeSurvey(dates, sweeps, runs int) Survey {
	var s Survey
	for d := range dates {
		epoch := string(rune('a' + d))
		for i := range sweeps {
			x := -0.36 + 0.72*float64(i)/float64(max(sweeps-1, 1))
			s.Observations = append(s.Observations, ObservedSweep{Setup: Setup{epoch + "/" + placeText(micrometresOf(x)), epoch, "left " + epoch}, X: lengthOf(x),
				Radius: 0.11, Readings: evenRound(24), ReadingU: 2e-6})
		}
		for i := range runs {
			s.Observations = append(s.Observations, ObservedRun{Setup: Setup{Name: epoch + "/run " + string(rune('a'+i)), Epoch: epoch}, Track: lengthOf(-0.08 + 0.04*float64(i)),
				Readings: evenRun(-0.36, 0.36, 49), ReadingU: 1e-6})
		}
		level := ObservedLevel{Setup: Setup{Name: epoch, Epoch: epoch}, ReadingU: 4e-6}
		for _, r := range evenRun(-0.36, 0.36, 13) {
			for _, axis := range []SurveyAxis{AlongX, AlongY} {
				level.Readings = append(level.Readings, LevelReading{X: r.X, Axis: axis}, LevelReading{X: r.X, Axis: axis, Reversed: true})
			}
		}
		s.Observations = append(s.Observations, level)
	}
	return s
}

func BenchmarkSurvey(b *testing.B) {
	for _, size := range []struct {
		name                string
		dates, sweeps, runs int
	}{{"500x60", 1, 13, 3}, {"5000x300", 6, 21, 6}} {
		s := largeSurvey(size.dates, size.sweeps, size.runs)
		b.Run(size.name, func(b *testing.B) {
			for b.Loop() {
				a, err := s.Adjust(SurveyOptions{})
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(a.Readings)), "readings")
				b.ReportMetric(float64(len(a.Parameters)), "unknowns")
			}
		})
	}
}

func BenchmarkNextBest(b *testing.B) {
	for _, dates := range []int{1, 5} {
		a, err := largeSurvey(dates, 13, 3).Adjust(SurveyOptions{})
		if err != nil {
			b.Fatal(err)
		}
		var candidates []Candidate
		for i := range 200 {
			x := -0.35 + 0.0035*float64(i)
			candidates = append(candidates, Candidate{Name: "sweep", Minutes: 5, Observations: []Observation{
				ObservedSweep{Setup: Setup{Name: "next " + placeText(micrometresOf(x)), Epoch: "a", Head: "left a"}, X: lengthOf(x), Radius: 0.11, Readings: evenRound(8), ReadingU: 2e-6}}})
		}
		b.Run(string(rune('0'+dates))+" dates", func(b *testing.B) {
			for b.Loop() {
				if _, err := a.NextBest(candidates, PartBow("a", 0, 0.3)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
