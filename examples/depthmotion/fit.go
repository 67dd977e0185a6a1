package depthmotion

import (
	"math"
	"sort"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/unit"
)

// gather turns what was typed into the readings of two ways.
func gather(in Inputs) (wear.WayReadings, error) {
	r := wear.WayReadings{Bearing: in.Bearing, Apart: in.Apart, TopBow: in.TopBow,
		Pockets: wear.PocketOptions{New: in.New, NewU: in.NewU, Spread: in.Spread, Floor: in.Floor}}
	for _, p := range in.Pockets {
		r.Front = append(r.Front, wear.PocketStation{Place: p.Place, Depth: p.Front, Found: p.FrontFound, Total: in.Total})
		r.Rear = append(r.Rear, wear.PocketStation{Place: p.Place, Depth: p.Rear, Found: p.RearFound, Total: in.Total})
	}
	levels := append([]Level(nil), in.Levels...)
	sort.SliceStable(levels, func(i, j int) bool { return levels[i].Travel > levels[j].Travel })
	along, across := make([]wear.LevelStation, len(levels)), make([]wear.LevelStation, len(levels))
	for i, l := range levels {
		along[i] = wear.LevelStation{Position: -l.Travel, Normal: l.AlongNormal, Turned: l.AlongTurned}
		across[i] = wear.LevelStation{Position: -l.Travel, Normal: l.AcrossNormal, Turned: l.AcrossTurned}
	}
	options := wear.LevelOptions{Division: in.Division, Step: in.ReadTo}
	first, err := wear.ReadLevel(along, options)
	if err != nil {
		return r, notebook.InField("levels", err)
	}
	second, err := wear.ReadLevel(across, options)
	if err != nil {
		return r, notebook.InField("levels", err)
	}
	r.Along, r.Across = first.SlopePoints(), second.SlopePoints()
	runs := append([]Run(nil), in.Runs...)
	sort.SliceStable(runs, func(i, j int) bool { return runs[i].Travel > runs[j].Travel })
	for k := range 3 {
		track := wear.HeightTrack{Across: unit.Length(k-1) * in.Track, U: in.DialU}
		for _, run := range runs {
			track.Points = append(track.Points, wear.Point{Position: -run.Travel, Height: [3]unit.Length{run.Front, run.Middle, run.Rear}[k]})
		}
		r.Tracks = append(r.Tracks, track)
	}
	return r, nil
}

// ridden is the motion at some places, each value with its standard uncertainty.
type ridden struct {
	places                    []float64
	height, along, across     []float64
	heightU, alongU, acrossU  []float64
	pressedAlong, pressedHigh []float64
	touching                  float64 // the least share of the faces that press
	// slopesCovariance is that of all slopes along, then across.
	slopesCovariance *mat.Dense
}

// answers is all that the sheet shows.
type answers struct {
	in                     Inputs
	readings               wear.WayReadings
	places                 []unit.Length
	pockets, motion, joint wear.WayFit
	atStations, atCurve    ridden
	// seenAlong, seenAcross and seenHeight are the readings less what motion
	// cannot know: lean, zero, line and bow.
	seenAlong, seenAcross, seenHeight []float64
	// misfit is the mean squared difference of level and prediction in standard
	// uncertainties, limit what chance allows 19 times in 20.
	misfit, limit float64
}

const placesOnWays, placesOnCurve = 25, 13

// answer computes the motion from the depth, and the depth from the motion.
func answer(in Inputs, r wear.WayReadings) (answers, error) {
	a := answers{in: in, readings: r}
	from, to := reach(r)
	for i := range placesOnWays {
		a.places = append(a.places, from+(to-from)*unit.Length(i)/(placesOnWays-1))
	}
	onlyPockets, onlyMotion := r, r
	onlyPockets.Along, onlyPockets.Across, onlyPockets.Tracks = nil, nil, nil
	onlyMotion.Front, onlyMotion.Rear = nil, nil
	for _, fit := range []struct {
		to       *wear.WayFit
		readings wear.WayReadings
		field    string
	}{{&a.pockets, onlyPockets, "pockets"}, {&a.motion, onlyMotion, "runs"}, {&a.joint, r, "runs"}} {
		var err error
		if *fit.to, err = wear.FitWays(fit.readings, a.places); err != nil {
			return a, notebook.InField(fit.field, err)
		}
	}
	stations, curve := make([]float64, len(r.Along)), make([]float64, placesOnCurve)
	for i, p := range r.Along {
		stations[i] = float64(p.Position)
	}
	low, high := stations[0], stations[len(stations)-1]
	for i := range curve {
		curve[i] = low + (high-low)*float64(i)/(placesOnCurve-1)
	}
	var err error
	if a.atStations, err = a.ride(a.pockets, stations); err != nil {
		return a, notebook.InField("bearing", err)
	}
	if a.atCurve, err = a.ride(a.pockets, curve); err != nil {
		return a, notebook.InField("bearing", err)
	}
	return a, a.compare()
}

// reach is from end to end of the ways that the readings touch, and a little more.
func reach(r wear.WayReadings) (from, to unit.Length) {
	from, to = r.Along[0].Position-r.Bearing/2, r.Along[0].Position+r.Bearing/2
	take := func(low, high unit.Length) { from, to = min(from, low), max(to, high) }
	for _, p := range r.Along {
		take(p.Position-r.Bearing/2, p.Position+r.Bearing/2)
	}
	for _, p := range r.Tracks[0].Points {
		take(p.Position-r.Bearing/2, p.Position+r.Bearing/2)
	}
	for _, s := range r.Front {
		take(s.Place, s.Place)
	}
	return from - 1*mm, to + 1*mm
}

// ride foretells the motion at the places u from a fit of the ways. The motion of
// two points is linear in the depths, so that the covariance of the depths is
// carried along by moving each by a micrometre.
func (a answers) ride(fit wear.WayFit, places []float64) (ridden, error) {
	r := ridden{places: places, touching: 1}
	motion, err := wear.TwoPointMotion(fit.Ways)
	if err != nil {
		return r, err
	}
	n := len(a.places)
	by := [3]*mat.Dense{}
	for k := range by {
		by[k] = mat.NewDense(len(places), 2*n, nil)
	}
	for j := range 2 * n {
		moved := wear.WornWays{Places: a.places, Front: make([]unit.Length, n), Rear: make([]unit.Length, n), Apart: a.in.Apart, Bearing: a.in.Bearing}
		if j < n {
			moved.Front[j] = 1 * um
		} else {
			moved.Rear[j-n] = 1 * um
		}
		one, err := wear.TwoPointMotion(moved)
		if err != nil {
			return r, err
		}
		for i, u := range places {
			height, along, across, _, _ := one(unit.Length(-u))
			by[0].Set(i, j, float64(height/um))
			by[1].Set(i, j, along/float64(um))
			by[2].Set(i, j, across/float64(um))
		}
	}
	var slopes, carried mat.Dense
	slopes.Stack(by[1], by[2])
	carried.Mul(&slopes, fit.Covariance)
	r.slopesCovariance = mat.NewDense(2*len(places), 2*len(places), nil)
	r.slopesCovariance.Mul(&carried, slopes.T())
	for i, u := range places {
		height, along, across, _, _ := motion(unit.Length(-u))
		r.height, r.along, r.across = append(r.height, float64(height)), append(r.along, along), append(r.across, across)
		sd := func(k int) float64 {
			row := by[k].RowView(i)
			return math.Sqrt(math.Max(mat.Inner(row, fit.Covariance, row), 0))
		}
		r.heightU, r.alongU, r.acrossU = append(r.heightU, sd(0)), append(r.alongU, sd(1)), append(r.acrossU, sd(2))
		// The gibs hold the overhanging table down: the load stays over the saddle.
		bed := wear.Bed{Stiffness: 1e6 / float64(a.in.Give), Width: a.in.Width, Load: float64(a.in.Load), LoadAt: unit.Length(u)}
		pressed, err := wear.PressedMotion(fit.Ways, bed, unit.Length(-u))
		if err != nil {
			return r, err
		}
		r.pressedAlong, r.pressedHigh = append(r.pressedAlong, pressed.Along), append(r.pressedHigh, float64(pressed.Height))
		r.touching = math.Min(r.touching, pressed.Touching)
	}
	return r, nil
}

// compare takes off the readings what the motion cannot know, and judges what is
// left of the slopes.
func (a *answers) compare() error {
	r := a.atStations
	lean := func(points []wear.SlopePoint, foretold, foretoldU []float64) []float64 {
		var sum, weight float64
		for i, p := range points {
			w := 1 / (math.Pow(float64(p.U), 2) + foretoldU[i]*foretoldU[i])
			sum, weight = sum+w*(float64(p.Slope)-foretold[i]), weight+w
		}
		seen := make([]float64, len(points))
		for i, p := range points {
			seen[i] = float64(p.Slope) - sum/weight
		}
		return seen
	}
	a.seenAlong = lean(a.readings.Along, r.along, r.alongU)
	a.seenAcross = lean(a.readings.Across, r.across, r.acrossU)
	freedom := float64(2*len(r.places) - 2)
	a.misfit, a.limit = a.mismatch()/freedom, distuv.ChiSquared{K: freedom}.Quantile(0.95)/freedom
	// The middle track: what the joined ways explain plus what is left.
	motion, err := wear.TwoPointMotion(a.joint.Ways)
	if err != nil {
		return err
	}
	for i, p := range a.readings.Tracks[1].Points {
		height, _, _, _, _ := motion(-p.Position)
		a.seenHeight = append(a.seenHeight, float64(height+a.joint.TracksLeft[1][i]))
	}
	return nil
}

// mismatch returns chi-square of the level's slopes less those foretold, with the
// errors that the foretold ones have in common. The two leans are free: they enter
// as errors, common to a direction, far larger than any slope.
func (a answers) mismatch() float64 {
	const lean = 1e-2
	n := len(a.seenAlong)
	miss, cov := mat.NewVecDense(2*n, nil), mat.NewSymDense(2*n, nil)
	for i := range 2 * n {
		for j := i; j < 2*n; j++ {
			c := a.atStations.slopesCovariance.At(i, j)
			if i/n == j/n {
				c += lean * lean
			}
			cov.SetSym(i, j, c)
		}
		p, seen, foretold := a.readings.Along, a.seenAlong, a.atStations.along
		if i >= n {
			p, seen, foretold = a.readings.Across, a.seenAcross, a.atStations.across
		}
		miss.SetVec(i, seen[i%n]-foretold[i%n])
		cov.SetSym(i, i, cov.At(i, i)+math.Pow(float64(p[i%n].U), 2))
	}
	var factor mat.Cholesky
	var solved mat.VecDense
	if !factor.Factorize(cov) || factor.SolveVecTo(&solved, miss) != nil {
		return math.Inf(1)
	}
	return mat.Dot(miss, &solved)
}
