package wear

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// These targets hold what takes readings and has no target of its own beside it:
// whatever is typed, an error or a finite answer, and no panic.

// noInfinity fails for a value that is not finite.
func noInfinity(t *testing.T, what string, values ...float64) {
	t.Helper()
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%s = %g", what, v)
		}
	}
}

func FuzzReadLevel(f *testing.F) {
	f.Add(-360.0, 11.5, -13.5, 0.0, 8.5, -10.5, 360.0, 2.0, -4.0, 20e-6)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1e300, -1e300, 1e-300)
	f.Fuzz(func(t *testing.T, x0, a0, b0, x1, a1, b1, x2, a2, b2, division float64) {
		s, err := ReadLevel([]LevelStation{{unit.Length(x0), a0, b0}, {unit.Length(x1), a1, b1}, {unit.Length(x2), a2, b2}}, LevelOptions{Division: Slope(division)})
		if err != nil {
			return
		}
		for _, p := range s.Points {
			noInfinity(t, "slope", float64(p.Slope), float64(p.SlopeU), float64(p.ZeroOff))
		}
	})
}

func FuzzSurveyPlate(f *testing.F) {
	f.Add(0.8, 0.6, 1e-5, -2e-5, 3e-6, 1e-6)
	f.Add(1e-300, 1e2, 1.0, -1.0, 1.0, 1.0)
	f.Fuzz(func(t *testing.T, length, width, a, b, c, u float64) {
		line := func(x, y Slope) []Slope { return []Slope{x, y} }
		lines := PlateLines{SWtoNE: line(Slope(a), Slope(b)), NWtoSE: line(Slope(b), Slope(c)), SWtoSE: line(Slope(c), Slope(a)), NWtoNE: line(Slope(a), Slope(a)),
			SWtoNW: line(Slope(b), Slope(b)), SEtoNE: line(Slope(c), Slope(c)), WtoE: line(Slope(a), Slope(c)), StoN: line(Slope(c), Slope(b))}
		for _, survey := range []func(unit.Length, unit.Length, PlateLines, Slope) (PlateSurvey, error){SurveyPlate, SurveyPlateClassical} {
			s, err := survey(unit.Length(length), unit.Length(width), lines, Slope(u))
			if err != nil {
				continue
			}
			for _, p := range s.Points {
				noInfinity(t, "height", float64(p.Height))
			}
		}
	})
}

func FuzzScraping(f *testing.F) {
	f.Add(-0.4, 0.0, 0.4, 1e-5, 5e-5, 2e-5, 0.19, 0.05, 2e-6, 1e-5, false)
	f.Add(0.0, 1e-300, 1e300, -1e300, 1e300, 0.0, 1e-300, 1e300, 1e-300, 1e300, true)
	f.Fuzz(func(t *testing.T, x0, x1, x2, d0, d1, d2, apart, width, light, heavy float64, level bool) {
		at := []unit.Length{unit.Length(x0), unit.Length(x1), unit.Length(x2)}
		w := WornWays{Places: at, Front: []unit.Length{unit.Length(d0), unit.Length(d1), unit.Length(d2)}, Rear: []unit.Length{unit.Length(d2), unit.Length(d0), unit.Length(d1)}, Apart: unit.Length(apart), Bearing: 0.3}
		plan, err := PlanScraping(w, unit.Length(width), ScrapeOptions{Light: unit.Length(light), Heavy: unit.Length(heavy), Level: level})
		if err != nil {
			return
		}
		noInfinity(t, "plan", float64(plan.Most), float64(plan.Sinks), float64(plan.Volume), float64(plan.Along), float64(plan.Across))
		for i := range plan.Front {
			if plan.Front[i] < 0 || plan.Rear[i] < 0 {
				t.Fatalf("metal is put on: %g, %g", float64(plan.Front[i]), float64(plan.Rear[i]))
			}
		}
		if g, err := PlanGrinding(plan, GrindOptions{Clean: unit.Length(light), Cut: unit.Length(heavy)}); err == nil {
			noInfinity(t, "grinding", float64(g.Depth), float64(g.Left))
		}
	})
}

func FuzzGibAndScrew(f *testing.F) {
	f.Add(0.0, 3e-5, 1e-6, 0.3, 5e-5, 1e-6, 1e-5, 4e-5, 0.02, 1e-3, 5e-3)
	f.Add(0.0, 1e300, 1e300, 0.0, 0.0, 1e-300, 0.0, 0.0, 1e-300, 1e-300, 1e-300)
	f.Fuzz(func(t *testing.T, x0, c0, u0, x1, c1, u1, film, rock, taper, pitch, lead float64) {
		plays := []Play{{unit.Length(x0), unit.Length(c0), unit.Length(u0)}, {unit.Length(x1), unit.Length(c1), unit.Length(u1)}}
		if s, err := SetGib(plays, GibOptions{Film: unit.Length(film), Rock: unit.Length(rock), Taper: Slope(taper), Pitch: unit.Length(pitch), Guide: unit.Length(lead)}); err == nil {
			noInfinity(t, "gib", float64(s.Close), float64(s.Worst), float64(s.Uneven))
		}
		r := []unit.Length{unit.Length(c0), unit.Length(c1)}
		if p, err := ReadPositioning([]Target{{unit.Length(x0), r, r[:]}, {unit.Length(x1), r, []unit.Length{unit.Length(film), unit.Length(rock)}}}); err == nil {
			noInfinity(t, "positioning", float64(p.Accuracy), float64(p.Lost), p.VariesP)
		}
		screw := Screw{Lead: unit.Length(lead), Pitch: unit.Length(pitch), Nut: 0.05, Depth: 0.002, Flank: unit.Angle(taper)}
		if lost, err := screw.LostMotion(unit.Length(c0), unit.Length(c1)); err == nil && math.Abs(c0) < 1 && math.Abs(c1) < 1 {
			noInfinity(t, "lost motion", float64(lost))
		}
		_, _ = screw.NutWear(WearFactor(u0), unit.Force(u1), unit.Length(rock))
	})
}

func FuzzProbes(f *testing.F) {
	f.Add(0.1, 1e-6, 2e-6, 3e-6, 0.0, 1e-6, -1e-6, 1e-6, 1e-7)
	f.Add(1e-300, 1.0, -1.0, 1.0, 1e-300, 0.0, 0.0, 1e300, 0.0)
	f.Fuzz(func(t *testing.T, pitch, a0, b0, c0, a1, b1, c1, u, zero float64) {
		rows := []ProbeReading{{unit.Length(a0), unit.Length(b0), unit.Length(c0)}, {unit.Length(a1), unit.Length(b1), unit.Length(c1)}}
		pairs := []ProbePair{{unit.Length(a0), unit.Length(b0), Slope(c0)}, {unit.Length(a1), unit.Length(b1), Slope(c1)}}
		three, err := ThreeProbes(unit.Length(pitch), rows, unit.Length(u), unit.Length(zero))
		if err == nil {
			for _, p := range three.Points {
				noInfinity(t, "three probes", float64(p.Height))
			}
		}
		two, err := TwoProbes(unit.Length(pitch), pairs, unit.Length(u), Slope(zero))
		if err == nil {
			for _, p := range two.Points {
				noInfinity(t, "two probes", float64(p.Height))
			}
		}
	})
}

func FuzzHistory(f *testing.F) {
	f.Add(0.56, 0.36, 0.05, 800.0, 200.0, -0.1, 1e11, 1e-17, 0.02, -0.18, 0.15)
	f.Add(0.3, 0.3, 1e-300, 1e300, 0.0, 0.0, 1e300, 1e-300, 1e-300, 0.0, 1e-300)
	f.Fuzz(func(t *testing.T, half, bearing, width, load, thrust, loadAt, stiffness, factor, speed, place, stroke float64) {
		way := SlidingWay{From: unit.Length(-half), To: unit.Length(half), Stations: 21, Bearing: unit.Length(bearing), Width: unit.Length(width), Load: unit.Force(load),
			Thrust: unit.Force(thrust), LoadAt: unit.Length(loadAt), Stiffness: stiffness, Table: WearFactor(factor), Saddle: WearFactor(factor)}
		h, err := Simulate(way, nil, []Spell{{Time: 20 * 3600 * unit.Second, Speed: unit.Velocity(speed), Placements: []Placement{{unit.Length(place), unit.Length(stroke), 1}}}}, HistoryOptions{})
		if err != nil {
			return
		}
		for _, d := range h.Worn {
			noInfinity(t, "depth", float64(d))
		}
	})
}

func FuzzRebuild(f *testing.F) {
	f.Add(3000.0, 30.0, 4e-5, 5e-5, 1e-6, 1e-13, 0.05, 10)
	f.Add(0.0, 1e300, 0.0, 1e300, 1e300, 1e300, -0.5, 100)
	f.Fuzz(func(t *testing.T, cost, loss, harmless, depth, depthU, rate, interest float64, years int) {
		w, err := WorthOfRebuild(Rebuild{Cost: Sure(cost), LossPerMicrometre: Sure(loss), Harmless: unit.Length(harmless), Depth: unit.Length(depth), DepthU: unit.Length(depthU),
			Rate: WearRate(rate), RateU: WearRate(rate / 5), RateAfter: Sure(0.5), Interest: Sure(interest), Years: years}, 100, 1)
		if err == nil {
			noInfinity(t, "worth", w.Worth, w.Low, w.High, w.Pays)
		}
	})
}

func FuzzTableMap(f *testing.F) {
	f.Add(-0.3, 1e-5, 0.0, -5e-5, 0.3, 2e-5, 5e-6, 0.36, 0.15, 0.05)
	f.Add(0.0, 1.0, 1e-300, -1.0, 1e300, 1.0, 1e-300, 0.0, 1e-300, 0.0)
	f.Fuzz(func(t *testing.T, x0, s0, x1, s1, x2, s2, u, bearing, length, place float64) {
		m, err := MapTable([]SlopePoint{{Position: unit.Length(x0), Slope: Slope(s0), U: Slope(u)}, {Position: unit.Length(x1), Slope: Slope(s1), U: Slope(u)}, {Position: unit.Length(x2), Slope: Slope(s2), U: Slope(u)}}, unit.Length(bearing))
		if err != nil {
			return
		}
		if s, err := m.Spot(unit.Length(place), unit.Length(length), unit.Length(place)); err == nil {
			noInfinity(t, "spot", float64(s.Bow), float64(s.BowU), float64(s.Lean), float64(s.Turn))
		}
		_, _ = m.InTwoSettings(unit.Length(length), unit.Length(length/3), 1e-6)
	})
}
