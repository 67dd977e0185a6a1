package wear

// What worn ways do to the table that rests on them. Wear is a depth along each
// of the two ways under the table, front and rear, against the place u on the
// table. The saddle stands still; at a travel X the piece of the ways that is on
// it reaches from u = -X - L/2 to u = -X + L/2.
//
// Two models. In the first the table bears at the ends of the saddle only, as a
// stiff table does in a hollow: four points, and the plane that fits them best.
// In the second the faces press against one another along the whole saddle
// through a bed of springs that push and never pull, which is how scraped faces
// with their asperities and oil give (K. L. Johnson, Contact Mechanics, 1985,
// chapter 4, elastic foundation, from memory). A stiff bed approaches the first
// model in a hollow and touches in the middle on a crown.

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// WornWays are the two ways of a table.
type WornWays struct {
	// Places are the places u on the table where the wear is known, growing.
	Places []unit.Length
	// Front and Rear are the depths of wear there, positive down.
	Front, Rear []unit.Length
	// Apart is the distance between the two ways along y.
	Apart unit.Length
	// Bearing is the length of the saddle along x.
	Bearing unit.Length
}

// check returns what is wrong with the ways.
func (w WornWays) check() error {
	if len(w.Places) < 2 || len(w.Front) != len(w.Places) || len(w.Rear) != len(w.Places) {
		return fmt.Errorf("wear: ways with %d places, %d depths in front and %d at the rear; they must be equally many and at least 2", len(w.Places), len(w.Front), len(w.Rear))
	}
	for i := range w.Places {
		if !finite(float64(w.Places[i])) || !(math.Abs(float64(w.Front[i])) <= 0.1) || !(math.Abs(float64(w.Rear[i])) <= 0.1) {
			return fmt.Errorf("wear: ways, place %d: u %g m, wear %g and %g m must be finite and the wear within 100 mm", i+1, float64(w.Places[i]), float64(w.Front[i]), float64(w.Rear[i]))
		}
		if i > 0 && !(w.Places[i] > w.Places[i-1]) {
			return fmt.Errorf("wear: ways, place %d at %.6g mm does not lie beyond place %d", i+1, float64(w.Places[i])*1e3, i)
		}
	}
	if !(w.Apart > 0) || !(w.Bearing > 0) || !finite(float64(w.Apart+w.Bearing)) {
		return fmt.Errorf("wear: ways %.6g mm apart with a bearing of %.6g mm; both must be above zero", float64(w.Apart)*1e3, float64(w.Bearing)*1e3)
	}
	if w.Bearing > w.Places[len(w.Places)-1]-w.Places[0] {
		return fmt.Errorf("wear: a bearing of %.6g mm is longer than the ways whose wear is known, %.6g mm", float64(w.Bearing)*1e3, float64(w.Places[len(w.Places)-1]-w.Places[0])*1e3)
	}
	return nil
}

// depths returns the wear of both ways at a place, on a straight line between
// the places given and level beyond them.
func (w WornWays) depths(u float64) (front, rear float64) {
	n := len(w.Places)
	i := sort.Search(n, func(i int) bool { return float64(w.Places[i]) >= u })
	if i == 0 {
		return float64(w.Front[0]), float64(w.Rear[0])
	}
	if i == n {
		return float64(w.Front[n-1]), float64(w.Rear[n-1])
	}
	t := (u - float64(w.Places[i-1])) / float64(w.Places[i]-w.Places[i-1])
	return float64(w.Front[i-1]) + t*float64(w.Front[i]-w.Front[i-1]), float64(w.Rear[i-1]) + t*float64(w.Rear[i]-w.Rear[i-1])
}

// Travel returns how far the table may go to either side with the saddle on ways
// whose wear is known.
func (w WornWays) Travel() (from, to unit.Length) {
	n := len(w.Places)
	if n == 0 {
		return 0, 0
	}
	return -(w.Places[n-1] - w.Bearing/2), -(w.Places[0] + w.Bearing/2)
}

// WayMotion is what worn ways do to the table at a travel: the height of its
// plane under the spindle, positive when it has risen; its slopes dz/dx along
// and dz/dy across; how far the table has moved toward the column there; and
// its yaw, anticlockwise seen from above. Flat ways leave the last two zero.
type WayMotion func(travel unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle)

// TwoPointMotion returns the motion of a table that bears at the ends of its
// saddle:
//
//	height = -(mean of the four depths)
//	along  = -(mean of the two right depths - mean of the two left ones)/L
//	across = -(mean of the two rear depths - mean of the two front ones)/B
//
// the plane of best fit through four points. Beyond the travel over which the
// wear is known the ways go on level.
//
// It returns an error for ways that are not whole (see [WornWays]).
func TwoPointMotion(ways WornWays) (WayMotion, error) {
	if err := ways.check(); err != nil {
		return nil, err
	}
	ways = ways.copied()
	return func(travel unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle) {
		u, half := -float64(travel), float64(ways.Bearing)/2
		frontLeft, rearLeft := ways.depths(u - half)
		frontRight, rearRight := ways.depths(u + half)
		mean := (frontLeft + rearLeft + frontRight + rearRight) / 4
		along = -(frontRight + rearRight - frontLeft - rearLeft) / 2 / float64(ways.Bearing)
		across = -(rearLeft + rearRight - frontLeft - frontRight) / 2 / float64(ways.Apart)
		return unit.Length(-mean), along, across, 0, 0
	}, nil
}

func (w WornWays) copied() WornWays {
	w.Places = append([]unit.Length(nil), w.Places...)
	w.Front = append([]unit.Length(nil), w.Front...)
	w.Rear = append([]unit.Length(nil), w.Rear...)
	return w
}

// Bed is the give of the faces between table and saddle, and the load on it.
type Bed struct {
	// Stiffness is the pressure that presses the faces together by a unit of
	// length, in Pa/m: about 1e12 to 1e13 for scraped iron (common practice: a
	// micrometre at 1 to 10 MPa).
	Stiffness float64
	// Width is the width of each way.
	Width unit.Length
	// Load is the weight that the ways carry, in N: table, vise and work.
	Load float64
	// LoadAt is where the load stands along the table, from the table's middle,
	// positive to the right: it travels with the table.
	LoadAt unit.Length
	// LoadAcross is where the load stands across, from the middle between the
	// ways, positive to the rear.
	LoadAcross unit.Length
}

// bedCells is the number of cells along each way under the saddle.
const bedCells = 60

// Riding is how a table rides at one travel.
type Riding struct {
	// Height, Along and Across are as in [WayMotion].
	Height        unit.Length
	Along, Across float64
	// Touching is the share of the saddle's two faces that press.
	Touching float64
	// Peak is the highest pressure in Pa.
	Peak float64
}

// PressedMotion returns how a rigid table rides on worn ways through a bed of
// springs that push and never pull, at one travel. It finds the one position of
// the table at which the pressures carry the load and its moments, by Newton's
// method on the potential energy, which is convex, with its steps halved until
// the energy falls.
//
// It returns an error for ways that are not whole, a bed, width or load that is
// not above zero, a travel beyond the ways that are known, or a load so far out
// that the table would tip.
func PressedMotion(ways WornWays, bed Bed, travel unit.Length) (Riding, error) {
	if err := ways.check(); err != nil {
		return Riding{}, err
	}
	if !(bed.Stiffness > 0) || !(bed.Width > 0) || !(bed.Load > 0) || !finite(bed.Stiffness*float64(bed.Width)*bed.Load) {
		return Riding{}, fmt.Errorf("wear: a bed of %g Pa/m, %.6g mm wide under %g N; all must be above zero", bed.Stiffness, float64(bed.Width)*1e3, bed.Load)
	}
	from, to := ways.Travel()
	if !(travel >= from && travel <= to) {
		return Riding{}, fmt.Errorf("wear: travel %.6g mm is beyond the ways whose wear is known, %.6g to %.6g mm", float64(travel)*1e3, float64(from)*1e3, float64(to)*1e3)
	}
	// The load as seen from the middle of the saddle.
	x, y := float64(bed.LoadAt+travel), float64(bed.LoadAcross)
	if !(math.Abs(x) < float64(ways.Bearing)/2) || !(math.Abs(y) < float64(ways.Apart)/2) {
		return Riding{}, fmt.Errorf("wear: the load stands %.6g mm along and %.6g mm across from the middle of the saddle: outside it, the table would tip", x*1e3, y*1e3)
	}
	riding, err := newPress(ways, bed, travel).settle(bed.Load, x, y)
	if err == nil && !finite(float64(riding.Height)+riding.Along+riding.Across+riding.Peak) {
		err = errors.New("wear: the table's ride cannot be computed: load, stiffness and wear too far apart in size")
	}
	if err != nil {
		return Riding{}, err
	}
	return riding, nil
}

// press is the contact at one travel: cells with their places, worn depths and
// spring rates.
type press struct {
	x, y, depth []float64
	rate        float64 // N/m a cell
	stiffness   float64
}

func newPress(ways WornWays, bed Bed, travel unit.Length) *press {
	p := &press{stiffness: bed.Stiffness}
	step := float64(ways.Bearing) / bedCells
	p.rate = bed.Stiffness * step * float64(bed.Width)
	for i := range bedCells {
		x := -float64(ways.Bearing)/2 + (float64(i)+0.5)*step
		front, rear := ways.depths(x - float64(travel))
		half := float64(ways.Apart) / 2
		p.x, p.y, p.depth = append(p.x, x, x), append(p.y, -half, half), append(p.depth, front, rear)
	}
	return p
}

// energy returns the potential energy at heights h + a x + b y of the table's
// plane over the saddle, its gradient and its second derivatives. A cell is
// pressed by -(plane + depth worn off): where the table's underside, worn back
// by the depth, would stand below the saddle's face at height zero.
func (p *press) energy(q [3]float64, load [3]float64) (e float64, gradient [3]float64, hessian [3][3]float64) {
	for k := range q {
		e += load[k] * q[k]
		gradient[k] = load[k]
	}
	for i := range p.x {
		shape := [3]float64{1, p.x[i], p.y[i]}
		into := -(q[0] + q[1]*p.x[i] + q[2]*p.y[i] + p.depth[i])
		if into <= 0 {
			continue
		}
		e += p.rate * into * into / 2
		for k := range shape {
			gradient[k] -= p.rate * into * shape[k]
			for l := range shape {
				hessian[k][l] += p.rate * shape[k] * shape[l]
			}
		}
	}
	return e, gradient, hessian
}

// settle finds the position of least energy.
func (p *press) settle(load, x, y float64) (Riding, error) {
	forces := [3]float64{load, load * x, load * y}
	deepest := 0.0
	for _, d := range p.depth {
		deepest = math.Max(deepest, d)
	}
	q := [3]float64{-deepest - load/(p.rate*float64(len(p.x))), 0, 0} // everything pressed
	scale := math.Max(float64(p.x[len(p.x)-1]), p.y[1])
	for range 200 {
		e, gradient, hessian := p.energy(q, forces)
		if math.Abs(gradient[0])+math.Hypot(gradient[1], gradient[2])/scale < 1e-9*load {
			return p.riding(q), nil
		}
		step, ok := newtonStep(gradient, hessian, p.rate, scale)
		if !ok {
			break
		}
		t := 1.0
		for ; t > 1e-12; t /= 2 {
			trial := q
			for k := range trial {
				trial[k] -= t * step[k]
			}
			if after, _, _ := p.energy(trial, forces); after < e {
				q = trial
				break
			}
		}
		if t <= 1e-12 { // at rest as far as rounding lets it
			return p.riding(q), nil
		}
	}
	return Riding{}, errors.New("wear: the table does not settle on its ways")
}

// newtonStep solves hessian * step = gradient, with a trace added to the
// diagonal so that a table which touches along one line only is still moved.
func newtonStep(gradient [3]float64, hessian [3][3]float64, rate, scale float64) ([3]float64, bool) {
	h := mat.NewSymDense(3, nil)
	size := [3]float64{1, scale, scale}
	for k := range 3 {
		for l := k; l < 3; l++ {
			h.SetSym(k, l, hessian[k][l]/size[k]/size[l])
		}
		h.SetSym(k, k, h.At(k, k)+1e-9*rate)
	}
	var factor mat.Cholesky
	if !factor.Factorize(h) {
		return [3]float64{}, false
	}
	var s mat.VecDense
	if err := factor.SolveVecTo(&s, mat.NewVecDense(3, []float64{gradient[0], gradient[1] / scale, gradient[2] / scale})); err != nil && !isCondition(err) {
		return [3]float64{}, false
	}
	return [3]float64{s.AtVec(0), s.AtVec(1) / scale, s.AtVec(2) / scale}, true
}

// riding returns the result at a position.
func (p *press) riding(q [3]float64) Riding {
	r := Riding{Height: unit.Length(q[0]), Along: q[1], Across: q[2]}
	for i := range p.x {
		if into := -(q[0] + q[1]*p.x[i] + q[2]*p.y[i] + p.depth[i]); into > 0 {
			r.Touching += 1 / float64(len(p.x))
			r.Peak = math.Max(r.Peak, p.stiffness*into)
		}
	}
	return r
}
