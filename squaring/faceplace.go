package squaring

// Where on the table to face a part, which way to feed and how to set the head.
//
// For one place and one way of feeding, what the table does under each position
// of the spindle is looked up once. A tilt of the head then changes the height
// of the cutter's circle over each point by
//
//	left v +- ahead c
//
// only, so that another head setting costs one pass over the points of a coarse
// map. The best setting is sought with a simplex on the mean zone over a fixed
// set of drawn settings, the chance counted over a longer one; every place and
// way sees the same draws, so that their order does not hang on luck.

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/unit"
)

// FaceOnTable is a face of a part that lies on the table, level with its top,
// and is cut by feeding the table or the saddle.
type FaceOnTable struct {
	// U is how far the part's middle lies to the right of the table's, V how far
	// behind it.
	U, V unit.Length
	// Long is the face along the table, Deep across it.
	Long, Deep unit.Length
	// Feed is the azimuth toward which the cutter goes over the work: 0 or 180
	// degrees with the table fed, 90 or 270 with the saddle.
	Feed unit.Angle
	// Diameter is the circle of the cutting edges.
	Diameter unit.Length
	// Passes are laid side by side, StepOver apart, their middle over the
	// middle of the face. Zero passes means as many as it takes when each cuts a
	// step-over's width; the step-over must then be above zero.
	Passes   int
	StepOver unit.Length
}

// maxPlacePasses is the most passes of a face on the table.
const maxPlacePasses = 50

func (f FaceOnTable) validate() error {
	for _, check := range []error{
		finite("place of the part along the table", float64(f.U)), finite("place of the part across the table", float64(f.V)),
		positiveLength("length of the face along the table", f.Long), positiveLength("depth of the face across the table", f.Deep),
		positiveLength("cutter diameter", f.Diameter), notNegative("step-over", f.StepOver),
	} {
		if check != nil {
			return check
		}
	}
	if _, err := f.quarter(); err != nil {
		return err
	}
	if f.Passes < 0 || f.Passes > maxPlacePasses {
		return fmt.Errorf("squaring: %d passes, must be 0 to %d", f.Passes, maxPlacePasses)
	}
	if most := max(f.Long, f.Deep); f.Passes == 0 && !(f.StepOver > most/maxPlacePasses) {
		return fmt.Errorf("squaring: step-over is %s, must be above %s: more than %d passes for this face", millimetres(f.StepOver), millimetres(most/maxPlacePasses), maxPlacePasses)
	}
	return nil
}

// quarter returns the feed as a number of right angles, 0 to 3.
func (f FaceOnTable) quarter() (int, error) {
	turns := float64(f.Feed) / (math.Pi / 2)
	q := math.Round(turns)
	if !(math.Abs(turns-q) < 1e-6) || math.Abs(q) > 1e6 {
		return 0, fmt.Errorf("squaring: feed is toward %s, must be 0, 90, 180 or 270 deg: the table or the saddle is fed", degrees(f.Feed))
	}
	return (int(q)%4 + 4) % 4, nil
}

// bodyOnTable is the face's frame on the table: along and left of the feed.
type bodyOnTable struct {
	length, width float64 // along and across the feed
	ahead, left   [2]float64
	corner        [2]float64 // on the table: the right edge at the beginning
	tracks        []float64
}

func (f FaceOnTable) body() bodyOnTable {
	q, _ := f.quarter()
	ahead := [4][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}[q]
	b := bodyOnTable{length: float64(f.Long), width: float64(f.Deep), ahead: ahead, left: [2]float64{-ahead[1], ahead[0]}}
	if q%2 == 1 {
		b.length, b.width = b.width, b.length
	}
	for k, middle := range [2]float64{float64(f.U), float64(f.V)} {
		b.corner[k] = middle - b.length/2*b.ahead[k] - b.width/2*b.left[k]
	}
	passes := f.Passes
	if passes == 0 {
		passes = int(math.Ceil(b.width/float64(f.StepOver) - 1e-9))
	}
	for i := range passes {
		b.tracks = append(b.tracks, b.width/2+float64(f.StepOver)*(float64(i)-float64(passes-1)/2))
	}
	return b
}

// placeStations is the number of steps into which a pass is cut to look up what
// the table does; between them it is taken as straight.
const placeStations = 128

// motion returns how the machine carries the work under the spindle on one
// track: height and slopes of the table's plane, counted from where it should be.
func (m Machine) motion(f FaceOnTable, b bodyOnTable, track float64) (FeedMotion, error) {
	r := float64(f.Diameter) / 2
	from, step := -r, (b.length+2*r)/placeStations
	var height, along, across [placeStations + 1]float64
	for i := range height {
		var spot [2]float64
		for k := range spot {
			spot[k] = b.corner[k] + (from+float64(i)*step)*b.ahead[k] + track*b.left[k]
		}
		z, slope, err := m.planeAt(unit.Length(spot[0]), unit.Length(spot[1]))
		if err != nil {
			return FeedMotion{}, err
		}
		along[i] = float64(slope.X)*b.ahead[0] + float64(slope.Y)*b.ahead[1]
		across[i] = float64(slope.X)*b.left[0] + float64(slope.Y)*b.left[1]
		// Height is told on the line across = 0, the track lies beside it.
		height[i] = float64(z) - track*across[i]
	}
	at := func(list *[placeStations + 1]float64) func(unit.Length) float64 {
		return func(s unit.Length) float64 {
			place := math.Max(0, math.Min(placeStations, (float64(s)-from)/step))
			i := min(int(place), placeStations-1)
			return list[i] + (place-float64(i))*(list[i+1]-list[i])
		}
	}
	h, l, a := at(&height), at(&along), at(&across)
	return FeedMotion{
		Height: func(s unit.Length) unit.Length { return unit.Length(h(s)) },
		Along:  func(s unit.Length) Slope { return Slope(l(s)) },
		Across: func(s unit.Length) Slope { return Slope(a(s)) },
	}, nil
}

// planeAt returns height and slope of the table's plane, with the table's point
// (u, v) under the spindle.
func (m Machine) planeAt(u, v unit.Length) (height unit.Length, slope Gradient, err error) {
	at := Position{X: -u, Y: -v}
	// The plane is exactly linear in the point: a metre off gives its slope.
	var z [3]unit.Length
	for i, off := range [3][2]unit.Length{{0, 0}, {1, 0}, {0, 1}} {
		e, _, err := m.WorkError(at, Vector{X: u + off[0], Y: v + off[1]})
		if err != nil {
			return 0, Gradient{}, err
		}
		z[i] = e.Z
	}
	return z[0], Gradient{X: Slope(z[1] - z[0]), Y: Slope(z[2] - z[0])}, nil
}

// Face returns the face as the machine cuts it on its worn ways, for
// [CutFace.Map]: heights are then those above the table's top. With the saddle
// fed, each pass stands at another travel of the table.
func (m Machine) Face(f FaceOnTable, columns, rows int) (CutFace, error) {
	if err := f.validate(); err != nil {
		return CutFace{}, err
	}
	b := f.body()
	face := CutFace{Tilt: Gradient{}.Minus(m.Tilt), Feed: f.Feed, Diameter: f.Diameter,
		Length: unit.Length(b.length), Width: unit.Length(b.width), Columns: columns, Rows: rows}
	for _, track := range b.tracks {
		motion, err := m.motion(f, b, track)
		if err != nil {
			return CutFace{}, err
		}
		face.Tracks, face.Passes = append(face.Tracks, unit.Length(track)), append(face.Passes, motion)
	}
	return face, nil
}

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

// Sizes of the search: points of the coarse map, and draws to seek with and to
// count with.
const (
	placeColumns, placeRows = 21, 13
	seekDraws, countDraws   = 8, 400
	seekReach               = 3
	maxPlaces               = 200
)

// placeDraw is one state of what is not known, in standard deviations.
type placeDraw struct{ x, y, bow float64 }

// coarse is a face looked up at one place and one way of feeding.
type coarse struct {
	// v is a point's distance from a track, c how far ahead the circle crosses
	// it, front and back what the table has done there then. One entry a point
	// and pass that reaches it.
	point               []int32
	v, c, front, back   []float64
	along, across, bend []float64 // of the points
	feed                unit.Angle
	heights             []float64 // scratch
	inverse             [3][3]float64
}

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

// look finds out what the table does at each point and pass of a coarse map.
func (j FaceJob) look(f FaceOnTable) (*coarse, error) {
	if err := f.validate(); err != nil {
		return nil, err
	}
	b := f.body()
	r := float64(f.Diameter) / 2
	k := &coarse{feed: f.Feed}
	for row := range placeRows {
		across := b.width * float64(row) / (placeRows - 1)
		for column := range placeColumns {
			along := b.length * float64(column) / (placeColumns - 1)
			k.along, k.across = append(k.along, along), append(k.across, across)
			// The ways bow the part along the table, however it is fed.
			s := along / b.length
			if b.ahead[0] == 0 {
				s = across / b.width
			}
			k.bend = append(k.bend, 4*s*(1-s))
		}
	}
	sum := 0.0
	for _, track := range b.tracks {
		motion, err := j.Machine.motion(f, b, track)
		if err != nil {
			return nil, err
		}
		for i := range k.along {
			v := k.across[i] - track
			if math.Abs(v) > r {
				continue
			}
			c := math.Sqrt(r*r - v*v)
			front, back := motion.at(k.along[i]-c, c, k.across[i]), motion.at(k.along[i]+c, -c, k.across[i])
			sum += front + back
			k.point, k.v, k.c = append(k.point, int32(i)), append(k.v, v), append(k.c, c)
			k.front, k.back = append(k.front, front), append(k.back, back)
		}
	}
	if err := finite("the motion of the table under this face", sum); err != nil {
		return nil, err
	}
	k.heights = make([]float64, len(k.along))
	covered := make([]bool, len(k.along))
	for _, i := range k.point {
		covered[i] = true
	}
	if slices.Contains(covered, false) {
		return nil, fmt.Errorf("squaring: %d passes of a %s cutter, %s apart, leave part of the face uncut", len(b.tracks), millimetres(f.Diameter), millimetres(f.StepOver))
	}
	k.level()
	return k, nil
}

// level works out the inverse of the normal matrix of the least-squares plane on
// the grid; its columns are centred, so that it is well conditioned.
func (k *coarse) level() {
	n := float64(len(k.along))
	for _, list := range [][]float64{k.along, k.across} {
		mean := 0.0
		for _, x := range list {
			mean += x / n
		}
		for i := range list {
			list[i] -= mean
		}
	}
	k.inverse[0][0] = 1 / n
	for axis, list := range [][]float64{k.along, k.across} {
		square := 0.0
		for _, x := range list {
			square += x * x
		}
		k.inverse[axis+1][axis+1] = 1 / square
	}
}

// zone returns the zone of the face for a tilt of the spindle and a bow added.
func (k *coarse) zone(kind ZoneKind, tilt Gradient, bow float64) float64 {
	for i := range k.heights {
		k.heights[i] = math.Inf(1)
	}
	ahead, left := float64(tilt.Along(k.feed)), float64(tilt.Along(k.feed+90*Degree))
	for n, i := range k.point {
		plane, tip := left*k.v[n], ahead*k.c[n]
		k.heights[i] = min(k.heights[i], plane+tip-k.front[n], plane-tip-k.back[n])
	}
	var mean, along, across float64
	if kind == FlatZone {
		for i, h := range k.heights {
			h += bow * k.bend[i]
			mean, along, across = mean+h, along+h*k.along[i], across+h*k.across[i]
		}
		mean, along, across = mean*k.inverse[0][0], along*k.inverse[1][1], across*k.inverse[2][2]
	}
	low, high := math.Inf(1), math.Inf(-1)
	for i, h := range k.heights {
		h += bow*k.bend[i] - mean - along*k.along[i] - across*k.across[i]
		low, high = min(low, h), max(high, h)
	}
	return high - low
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
