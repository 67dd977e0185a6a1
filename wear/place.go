package wear

// Where on the table to work. The level's slopes say how the motion bends and
// how the table leans along the travel. Bow and lean at any place are linear in
// the worn ways of [MotionFromSlopes] and are predicted from the same model, each
// with its own uncertainty; the straight line that the readings do not know drops
// out of both.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// TableMap answers what a part finds at a place of the table. Make one with
// [MapTable].
type TableMap struct {
	rides       []*ride       // one a liveliness
	mean        *mat.VecDense // turns covariances of unit liveliness into values
	prior       float64       // turns a variance of unit liveliness into what is known before reading
	gained      *mat.SymDense // and covariances with the readings into what is known after
	first, last float64
	at, height  []float64 // the motion on a fine grid, up to a straight line
}

// mapGrid is the number of places at which a map holds the motion ready, and
// livelyGrid that of the livelinesses it averages over, a factor of e^livelyReach
// to either side of the best.
const (
	mapGrid     = 241
	livelyGrid  = 21
	livelyReach = 5.0
)

// MapTable makes a map from slopes that were read on the table at u = -X, as for
// [MotionFromSlopes], whose errors are its own.
func MapTable(slopes []SlopePoint, bearing unit.Length) (TableMap, error) {
	motion, err := MotionFromSlopes(slopes, MotionOptions{Bearing: bearing}) // checks all
	if err != nil {
		return TableMap{}, err
	}
	run, err := sortedRun(slopes)
	if err != nil {
		return TableMap{}, err
	}
	t := TableMap{first: float64(run[0].Position), last: float64(run[len(run)-1].Position)}
	if err := t.weigh(run, float64(bearing), motion.Liveliness); err != nil {
		return TableMap{}, err
	}
	t.at, t.height = make([]float64, mapGrid), make([]float64, mapGrid)
	for i := range t.at {
		t.at[i] = t.first + (t.last-t.first)*float64(i)/(mapGrid-1)
		t.height[i] = t.value(t.rise(t.at[i], 1))
	}
	return t, nil
}

// weigh sets up the models about the best liveliness.
func (t *TableMap) weigh(run []SlopePoint, bearing, best float64) error {
	base := newRide(run, bearing)
	var noise, typical float64
	for i := range base.noise {
		noise, typical = noise+base.noise[i], typical+base.kernel.At(i, i)
	}
	best = math.Max(best, 1e-2*noise/typical)
	least := math.Inf(1)
	misfits := make([]float64, livelyGrid)
	for k := range livelyGrid {
		r := newRide(run, bearing)
		lively := best * math.Exp(livelyReach*(2*float64(k)/(livelyGrid-1)-1))
		misfits[k] = r.misfit(lively) - math.Log(lively)
		if !finite(misfits[k]) {
			return errors.New("wear: the map cannot be computed: slopes or uncertainties are too far apart in size")
		}
		t.rides = append(t.rides, r)
		least = math.Min(least, misfits[k])
	}
	sum := 0.0
	for _, m := range misfits {
		sum += math.Exp((least - m) / 2)
	}
	t.mean, t.gained = mat.NewVecDense(len(run), nil), mat.NewSymDense(len(run), nil)
	for k, r := range t.rides {
		if err := t.add(r, math.Exp((least-misfits[k])/2)/sum); err != nil {
			return err
		}
	}
	return nil
}

// add takes in what a model of a weight says of values and of their squares: for
// covariances c with the readings its prediction is lively c's, and its square and
// variance are quadratic in c.
func (t *TableMap) add(r *ride, weight float64) error {
	_, solved := r.rest()
	t.mean.AddScaledVec(t.mean, weight*r.lively, solved)
	t.prior += weight * r.lively
	var inverse mat.SymDense
	if err := r.factor.InverseTo(&inverse); err != nil && !isCondition(err) {
		return errors.New("wear: the map cannot be computed: the stations lie too close together")
	}
	size := weight * r.lively * r.lively
	inverse.ScaleSym(-size, &inverse)
	t.gained.AddSym(t.gained, &inverse)
	t.gained.SymRankOne(t.gained, size/r.oneByIt, r.byOne)
	t.gained.SymRankOne(t.gained, size, solved)
	return nil
}

// Run returns the first and the last station: a part must lie between them.
func (t TableMap) Run() (from, to unit.Length) { return unit.Length(t.first), unit.Length(t.last) }

// rise returns weight times the height of the motion at u.
func (t TableMap) rise(u, weight float64) []term {
	terms := t.rides[0].heightTerms(u)
	terms[0].weight *= weight
	terms[1].weight *= weight
	return terms[:]
}

// tip returns weight times the slope of the table at u.
func (t TableMap) tip(u, weight float64) []term {
	terms := t.rides[0].slopeTerms(u)
	terms[0].weight *= weight
	terms[1].weight *= weight
	return terms[:]
}

// cross returns the covariances of a sum of terms with the readings, for unit
// liveliness.
func (t TableMap) cross(sum []term) *mat.VecDense {
	seen := t.rides[0].seen
	c := mat.NewVecDense(len(seen), nil)
	for j := range seen {
		c.SetVec(j, termsCovariance(sum, seen[j][:]))
	}
	return c
}

func termsCovariance(a, b []term) float64 {
	var sum float64
	for _, p := range a {
		for _, q := range b {
			if p.weight != 0 && q.weight != 0 {
				sum += p.weight * q.weight * waysCovariance(p, q)
			}
		}
	}
	return sum
}

// value returns the predicted value of a sum of terms, less its share of the
// straight line.
func (t TableMap) value(sum []term) float64 { return mat.Dot(t.cross(sum), t.mean) }

// estimate returns the value and standard uncertainty of a sum of terms in which
// the straight line cancels.
func (t TableMap) estimate(sum []term) (value, u float64) {
	c := t.cross(sum)
	value = mat.Dot(c, t.mean)
	variance := t.prior*termsCovariance(sum, sum) + mat.Inner(c, t.gained, c) - value*value
	return value, math.Sqrt(math.Max(variance, 0))
}

// Spot is what a part finds at a place of the table.
type Spot struct {
	// Place is where the middle of the part lies, Length its length.
	Place, Length unit.Length
	// Bow is as in [BowOfCut]: positive when the work comes out high in its
	// middle.
	Bow, BowU unit.Length
	// Lean is the slope of the table there less that at the place where the head
	// was set square: what the head is out by at this place.
	Lean, LeanU Slope
	// Turn is how much the slope of the table changes while the part passes
	// under the spindle, from its steepest to its shallowest place.
	Turn, TurnU Slope
}

// spotSamples is the number of places along a part that are looked at.
const spotSamples = 13

// Spot returns what a part of a length finds with its middle at a place, the head
// having been set square to the table at another place.
//
// It returns an error for a length that is not above zero, or a part or a place
// that lies beyond the stations.
func (t TableMap) Spot(place, length, set unit.Length) (Spot, error) {
	if err := t.check(place, length, set); err != nil {
		return Spot{}, err
	}
	return t.spot(float64(place), float64(length), float64(set)), nil
}

func (t TableMap) check(place, length, set unit.Length) error {
	if len(t.rides) == 0 {
		return errors.New("wear: the map of the table is empty")
	}
	slack := 1e-9 * (t.last - t.first)
	if !(length > 0) || !(float64(place-length/2) >= t.first-slack) || !(float64(place+length/2) <= t.last+slack) {
		return fmt.Errorf("wear: a part of %.6g mm with its middle at %.6g mm must be longer than 0 and lie between the stations, %.6g to %.6g mm",
			float64(length)*1e3, float64(place)*1e3, t.first*1e3, t.last*1e3)
	}
	if !(float64(set) >= t.first-slack && float64(set) <= t.last+slack) {
		return fmt.Errorf("wear: the head was set at %.6g mm, which must lie between the stations, %.6g to %.6g mm", float64(set)*1e3, t.first*1e3, t.last*1e3)
	}
	return nil
}

func (t TableMap) spot(place, length, set float64) Spot {
	s := Spot{Place: unit.Length(place), Length: unit.Length(length)}
	at := func(i int) float64 { return place + length*(float64(i)/(spotSamples-1)-0.5) }
	var deepest, steepest, shallowest int
	depth, steep, shallow := 0.0, math.Inf(-1), math.Inf(1)
	for i := range spotSamples {
		if d := t.value(t.departure(place, length, at(i))); math.Abs(d) > math.Abs(depth) {
			depth, deepest = d, i
		}
		slope := t.value(t.tip(at(i), 1))
		if slope > steep {
			steep, steepest = slope, i
		}
		if slope < shallow {
			shallow, shallowest = slope, i
		}
	}
	if deepest == 0 {
		deepest = spotSamples / 2
	}
	bow, u := t.estimate(t.departure(place, length, at(deepest)))
	s.Bow, s.BowU = unit.Length(-bow), unit.Length(u)
	lean, leanU := t.estimate(append(t.tip(place, 1), t.tip(set, -1)...))
	s.Lean, s.LeanU = Slope(lean), Slope(leanU)
	if math.Abs(place-set) < 1e-9*(t.last-t.first) {
		s.Lean, s.LeanU = 0, 0 // the same place, and not what rounding leaves of it
	}
	turn, turnU := t.estimate(append(t.tip(at(steepest), 1), t.tip(at(shallowest), -1)...))
	s.Turn, s.TurnU = Slope(turn), Slope(turnU)
	return s
}

// departure returns the height of the motion at u above the chord of a part.
func (t TableMap) departure(place, length, u float64) []term {
	share := (u-place)/length + 0.5
	return append(append(t.rise(u, 1), t.rise(place-length/2, share-1)...), t.rise(place+length/2, -share)...)
}

// Aim is what a place is chosen for.
type Aim int

const (
	// LeastBow looks for the straightest stretch.
	LeastBow Aim = iota
	// LeastLean looks for the place where the table leans least against the head.
	LeastLean
	// LeastTurn looks for the stretch over which the lean changes least.
	LeastTurn
)

// badness returns what an aim wants small.
func (a Aim) badness(s Spot) float64 {
	switch a {
	case LeastLean:
		return math.Abs(float64(s.Lean))
	case LeastTurn:
		return float64(s.Turn)
	}
	return math.Abs(float64(s.Bow))
}

// Best returns the place that is best for an aim, among many evenly spread ones.
// Where several are alike within the uncertainty of the readings the best of them
// is a matter of chance; its own value stands beside its uncertainty.
//
// It returns an error for a part that does not lie between the stations wherever
// it is put, or an aim that is none of the three.
func (t TableMap) Best(length, set unit.Length, aim Aim) (Spot, error) {
	if aim != LeastBow && aim != LeastLean && aim != LeastTurn {
		return Spot{}, fmt.Errorf("wear: no aim of number %d for a place", int(aim))
	}
	spots, err := t.Spots(length, set, 81)
	if err != nil {
		return Spot{}, err
	}
	best := spots[0]
	for _, s := range spots {
		if aim.badness(s) < aim.badness(best) {
			best = s
		}
	}
	return best, nil
}

// Spots returns what a part of a length finds at a number of evenly spread
// places, from as far left as it can lie to as far right.
//
// It returns an error for a part that is longer than the run of the stations, or
// a number outside 1 to 1000.
func (t TableMap) Spots(length, set unit.Length, count int) ([]Spot, error) {
	if count < 1 || count > 1000 {
		return nil, fmt.Errorf("wear: %d places on the table; it must be 1 to 1000", count)
	}
	if err := t.check(unit.Length(t.first+t.last)/2, length, set); err != nil {
		return nil, err
	}
	room := math.Max(t.last-t.first-float64(length), 0)
	spots := make([]Spot, count)
	for i := range spots {
		at := (t.first + t.last) / 2
		if count > 1 {
			at = t.first + float64(length)/2 + room*float64(i)/float64(count-1)
		}
		spots[i] = t.spot(at, float64(length), float64(set))
	}
	return spots, nil
}

// Shape returns a part of a length as it comes out when it is cut in one setting
// with its middle at a place: its height above the line through its ends at a
// number of even places, counted from its left end. It returns nil for a part
// that does not lie between the stations or fewer than two places.
func (t TableMap) Shape(place, length unit.Length, count int) []Point {
	if t.check(place, length, place) != nil || count < 2 {
		return nil
	}
	shape := make([]Point, count)
	for i := range shape {
		s := float64(length) * float64(i) / float64(count-1)
		height := -t.value(t.departure(float64(place), float64(length), float64(place)+s-float64(length)/2))
		shape[i] = Point{unit.Length(s), unit.Length(height)}
	}
	return shape
}
