package squaring

// Where on the table to face a part, which way to feed and how to set the head.
//
// For each place and way the face is looked up once (facecoarse.go). The best head
// setting is sought with a simplex on the mean zone over a fixed set of drawn
// settings, the chance counted over a longer one; every place and way sees the same
// draws, so that their order does not hang on luck.

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/unit"
)

// ZoneKind says how the height of a face is judged.
type ZoneKind string

const (
	// FlatZone: by itself, about its own least-squares plane (flatness).
	FlatZone ZoneKind = "flatness"
	// ParallelZone: against the table on which the part lies (parallelism).
	ParallelZone ZoneKind = "parallelism"
)

// FaceJob is a face to be cut within a tolerance wherever on the table, however
// fed and with whatever head setting that goes best.
type FaceJob struct {
	// Machine is the machine as it stands, its Tilt included.
	Machine Machine
	// Face is the part and its cutter. Its U and Feed are what is sought.
	Face FaceOnTable
	// Zone says what is judged, Limit the most that is allowed.
	Zone  ZoneKind
	Limit unit.Length
	// Places are where the part's middle may lie, to the right of the table's.
	Places []unit.Length
	// Feeds are the ways in which it may be fed.
	Feeds []unit.Angle
	// TiltU is the standard uncertainty of the head's tilt as it stands, and
	// SettingU what a new setting scatters by about where it was aimed.
	TiltU, SettingU Gradient
	// BowU is the standard uncertainty of how much the ways bow the part along
	// the table, over its length.
	BowU unit.Length
}

// FaceChoice is one way of doing the job.
type FaceChoice struct {
	// U and Feed are place and way.
	U    unit.Length
	Feed unit.Angle
	// Reset says that the head is set anew; Tilt is the spindle's tilt then, or
	// as it stands, and Shows what a sweep over the part's middle shows with it:
	// table slope minus spindle tilt.
	Reset       bool
	Tilt, Shows Gradient
	// Zone is the mean of the zone over what may happen, and ZoneU its standard
	// deviation.
	Zone, ZoneU unit.Length
	// Chance is that of keeping the limit, ChanceU what the number of draws
	// leaves open.
	Chance, ChanceU float64
}

// Sizes of the search: draws to seek with and to count with, steps of the grid of
// tilts either way, and places by ways.
const (
	seekDraws, countDraws = 8, 400
	seekReach             = 3
	maxPlaces             = 200
)

// placeDraw is one state of what is not known, in standard deviations.
type placeDraw struct{ x, y, bow float64 }

// Choices returns every place and way, with the head as it stands and with the
// head set as well as can be for it, the best chance first and of equal chances
// the smaller zone. Chances within two of their ChanceU are not told apart by
// the draws.
func (j FaceJob) Choices() ([]FaceChoice, error) {
	if err := j.validate(); err != nil {
		return nil, err
	}
	random := rand.New(rand.NewPCG(106, 101))
	draws := make([]placeDraw, countDraws)
	for i := range draws {
		draws[i] = placeDraw{random.NormFloat64(), random.NormFloat64(), random.NormFloat64()}
	}
	var choices []FaceChoice
	for _, u := range j.Places {
		for _, feed := range j.Feeds {
			f := j.Face
			f.U, f.Feed = u, feed
			look, err := j.look(f)
			if err != nil {
				return nil, err
			}
			_, slope, err := j.Machine.planeAt(u, j.Face.V)
			if err != nil {
				return nil, err
			}
			best := j.seek(look, slope, draws[:seekDraws])
			for i, tilt := range []Gradient{j.Machine.Tilt, best} {
				choices = append(choices, j.judge(look, FaceChoice{U: u, Feed: feed, Reset: i == 1, Tilt: tilt, Shows: slope.Minus(tilt)}, draws))
			}
		}
	}
	slices.SortStableFunc(choices, better)
	return choices, nil
}

// better orders choices: by chance, then by zone, then the head left alone, then
// by place and feed.
func better(a, b FaceChoice) int {
	for _, d := range []float64{b.Chance - a.Chance, float64(a.Zone - b.Zone), float64(a.U - b.U), float64(a.Feed - b.Feed)} {
		if d < 0 {
			return -1
		}
		if d > 0 {
			return 1
		}
	}
	switch {
	case a.Reset == b.Reset:
		return 0
	case b.Reset:
		return -1
	}
	return 1
}

func (j FaceJob) validate() error {
	if j.Zone != FlatZone && j.Zone != ParallelZone {
		return fmt.Errorf("squaring: the face is judged by %q, must be %q or %q", j.Zone, FlatZone, ParallelZone)
	}
	for _, check := range []error{positiveLength("limit of the zone", j.Limit), notNegative("uncertainty of the bow", j.BowU),
		finite("spindle tilt along x", float64(j.Machine.Tilt.X)), finite("spindle tilt along y", float64(j.Machine.Tilt.Y)),
		notNegativeNumber("uncertainty of the tilt in x", float64(j.TiltU.X)), notNegativeNumber("uncertainty of the tilt in y", float64(j.TiltU.Y)),
		notNegativeNumber("scatter of a setting in x", float64(j.SettingU.X)), notNegativeNumber("scatter of a setting in y", float64(j.SettingU.Y))} {
		if check != nil {
			return check
		}
	}
	if n := len(j.Places) * len(j.Feeds); n == 0 || n > maxPlaces {
		return fmt.Errorf("squaring: %d places by %d feeds, must be 1 to %d together", len(j.Places), len(j.Feeds), maxPlaces)
	}
	if j.Machine.Tilt.Steepest() > 0.1 {
		return fmt.Errorf("squaring: tilt is %s, must be within 0.1 rad for a height map", degrees(j.Machine.Tilt.Steepest().Angle()))
	}
	for _, u := range j.Places {
		f := j.Face
		f.U, f.Feed = u, j.Feeds[0]
		if err := f.validate(); err != nil {
			return err
		}
	}
	return nil
}

// seek returns the tilt of the spindle with the least mean zone over the draws,
// begun at square to the table over the part's middle.
func (j FaceJob) seek(k *coarse, start Gradient, draws []placeDraw) Gradient {
	// In units of 100 urad, so that the simplex begins at a useful size.
	const scale = 1e-4
	mean := func(x []float64, draws []placeDraw) float64 {
		sum := 0.0
		for _, d := range draws {
			sum += k.zone(j.Zone, Gradient{X: Slope(x[0]*scale) + j.SettingU.X*Slope(d.x), Y: Slope(x[1]*scale) + j.SettingU.Y*Slope(d.y)}, float64(j.BowU)*d.bow)
		}
		return sum / float64(len(draws)) / scale
	}
	// The zone has corners, and more than one hollow: begin at the best of a
	// grid, begin anew where the simplex has shrunk, and take what scatters into
	// account only then.
	sure := []placeDraw{{}}
	x := []float64{float64(start.X) / scale, float64(start.Y) / scale}
	best := mean(x, sure)
	for dx := -seekReach; dx <= seekReach; dx++ {
		for dy := -seekReach; dy <= seekReach; dy++ {
			try := []float64{float64(start.X)/scale + 0.3*float64(dx), float64(start.Y)/scale + 0.3*float64(dy)}
			if zone := mean(try, sure); zone < best {
				best, x = zone, try
			}
		}
	}
	settings := &optimize.Settings{FuncEvaluations: 80, Converger: &optimize.FunctionConverge{Absolute: 1e-5, Iterations: 30}}
	for _, step := range []struct {
		size  float64
		draws []placeDraw
	}{{0.2, sure}, {0.1, sure}, {0.05, sure}, {0.1, draws}} {
		if j.SettingU == (Gradient{}) && j.BowU == 0 && len(step.draws) > 1 {
			continue
		}
		best = mean(x, step.draws)
		problem := optimize.Problem{Func: func(x []float64) float64 { return mean(x, step.draws) }}
		result, err := optimize.Minimize(problem, x, settings, &optimize.NelderMead{SimplexSize: step.size})
		if err == nil && result.F < best {
			x = result.X
		}
	}
	return Gradient{X: Slope(x[0] * scale), Y: Slope(x[1] * scale)}
}

// judge fills in zone and chance.
func (j FaceJob) judge(k *coarse, c FaceChoice, draws []placeDraw) FaceChoice {
	u := j.TiltU
	if c.Reset {
		u = j.SettingU
	}
	n := float64(len(draws))
	sum, squares, kept := 0.0, 0.0, 0.0
	for _, d := range draws {
		z := k.zone(j.Zone, c.Tilt.Plus(Gradient{X: u.X * Slope(d.x), Y: u.Y * Slope(d.y)}), float64(j.BowU)*d.bow)
		sum, squares = sum+z, squares+z*z
		if z <= float64(j.Limit) {
			kept++
		}
	}
	c.Zone = unit.Length(sum / n)
	c.ZoneU = unit.Length(math.Sqrt(math.Max(0, squares/n-(sum/n)*(sum/n))))
	c.Chance = kept / n
	c.ChanceU = math.Sqrt(c.Chance * (1 - c.Chance) / n)
	return c
}
