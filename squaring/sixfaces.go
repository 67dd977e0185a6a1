package squaring

// A block is squared face by face. In each step one finished face lies against
// the fixed jaw, another on the parallels (or is set upright by a square), and
// the top is cut. The errors of jaw, bed, square and cut pass into the new face
// and from there into every later face that is held by it.
//
// To first order each face has an outward normal n + e, with n one of the six
// axes of the block and e a small error square to it. A step holds the block in
// a nominal attitude R, one of the cube's own, and turns it by a small rotation
// w so that the held faces lie on what holds them:
//
//	primary face:    R e + w x R n = error of its support    (fixes two turns)
//	secondary face:  the same, about the primary's normal     (fixes the third)
//
// The cut face's error is then what brings its normal to the cut's. Everything
// is linear in the vise's errors, so that their uncertainties pass through
// exactly. Derived here; rigid block, faces flat, contact where said.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Face is one of a block's six faces: 1 opposite 3, 2 opposite 4, and the ends 5
// opposite 6.
type Face int

// faceNormals are the outward normals in the block's own frame.
var faceNormals = [7]r3.Vec{{}, {Y: 1}, {Z: 1}, {Y: -1}, {Z: -1}, {X: 1}, {X: -1}}

// Opposite returns the face on the other side, or zero for no face.
func (f Face) Opposite() Face {
	if f < 1 || f > 6 {
		return 0
	}
	return [7]Face{0, 3, 4, 1, 2, 6, 5}[f]
}

// Seat says which of the two held faces lies flat, the other touching along a
// line.
type Seat string

const (
	// OnJaw: the face at the fixed jaw lies flat on it, as with a round bar at
	// the moving jaw.
	OnJaw Seat = "jaw"
	// OnBed: the face on the parallels lies flat, as when the work is knocked
	// down until no parallel moves.
	OnBed Seat = "bed"
)

// BlockStep is one cut.
type BlockStep struct {
	// Cut is the face that is cut, on top.
	Cut Face
	// AtJaw is the face against the fixed jaw; zero for a rough face, in the
	// first step only.
	AtJaw Face
	// Below is the face on the parallels. Zero means that the block is set by
	// Upright instead, or in the first step by a rough face.
	Below Face
	// Upright is a finished face that is set upright by a square on the bed,
	// when Below is zero.
	Upright Face
	// Seat says which held face lies flat. Zero means [OnJaw].
	Seat Seat
	// Lifted says that the moving jaw carries the work up on clamping: no round
	// bar lets it float. It acts with OnJaw.
	Lifted bool
}

// ViseErrors are the small slopes that pass into a block, each with its standard
// uncertainty.
type ViseErrors struct {
	// JawLean is how far the fixed jaw's top leans back, away from the work.
	JawLean MeasuredSlope
	// BedX and BedY are the slopes of the parallels against the cut: positive
	// when they rise to the right, or to the back.
	BedX, BedY MeasuredSlope
	// Lift is how far the moving jaw's side of the work rises over the depth
	// held, when nothing lets it float.
	Lift MeasuredSlope
	// Square is how far the square's blade leans to the right at its top, when a
	// face is set upright by it.
	Square MeasuredSlope
}

// list returns the errors in a fixed order.
func (v ViseErrors) list() [5]MeasuredSlope {
	return [5]MeasuredSlope{v.JawLean, v.BedX, v.BedY, v.Lift, v.Square}
}

// FacePair is what two faces are to each other.
type FacePair struct {
	// A and B are the faces, A before B.
	A, B Face
	// Angle is, for neighbours, their inside angle less a right angle, positive
	// when open; for opposites, the wedge between them.
	Angle MeasuredSlope
}

// SquaredBlock is a block when its cuts are done.
type SquaredBlock struct {
	// Neighbours are the pairs of cut faces that meet in an edge, Opposites
	// those that face one another.
	Neighbours, Opposites []FacePair
	// WorstSquare and WorstParallel are the pairs that are farthest out; the
	// zero pair when there is none.
	WorstSquare, WorstParallel FacePair
}

// SixFaces returns the usual order: 1; 2 with 1 at the jaw; 4 with 1 at the jaw
// and 2 down; 3 with 2 at the jaw and 1 down; the ends upright by a square on 2,
// then down on the first end. Seat says how the second of each pair of opposite
// faces is held.
func SixFaces(seat Seat, lifted bool) []BlockStep {
	return []BlockStep{
		{Cut: 1},
		{Cut: 2, AtJaw: 1, Lifted: lifted},
		{Cut: 4, AtJaw: 1, Below: 2, Seat: seat, Lifted: lifted},
		{Cut: 3, AtJaw: 2, Below: 1, Seat: seat, Lifted: lifted},
		{Cut: 5, AtJaw: 1, Upright: 2, Lifted: lifted},
		{Cut: 6, AtJaw: 1, Below: 5, Seat: seat, Lifted: lifted},
	}
}

// SquareBlock carries the errors through the steps. The first step's face is
// what the rest is measured from: its own rough holding does not count. Each
// later step must hold faces that have been cut. In the second step, with
// neither Below nor Upright, the turn about the jaw's normal is free and counts
// as zero: it does not enter any angle then.
func SquareBlock(steps []BlockStep, errors ViseErrors) (SquaredBlock, error) {
	if err := errors.validate(); err != nil {
		return SquaredBlock{}, err
	}
	if err := validateSteps(steps); err != nil {
		return SquaredBlock{}, err
	}
	// One pass for each error by itself, one unit large; the rest is scaling.
	var unit [5][7]r3.Vec
	for i := range unit {
		var single [5]float64
		single[i] = 1
		unit[i] = cutFaces(steps, single)
	}
	cut := map[Face]bool{}
	for _, s := range steps {
		cut[s.Cut] = true
	}
	return gatherPairs(cut, unit, errors), nil
}

func (v ViseErrors) validate() error {
	names := [5]string{"jaw lean", "bed slope in x", "bed slope in y", "lift", "square"}
	for i, m := range v.list() {
		if !(math.Abs(float64(m.Slope)) <= 0.1) {
			return fmt.Errorf("squaring: %s is %g, must be a number within 0.1", names[i], float64(m.Slope))
		}
		if err := notNegativeNumber("uncertainty of the "+names[i], float64(m.Uncertainty)); err != nil {
			return err
		}
	}
	return nil
}

// validateSteps checks that each step can be done.
func validateSteps(steps []BlockStep) error {
	if len(steps) == 0 || len(steps) > 24 {
		return fmt.Errorf("squaring: %d steps, needs 1 to 24", len(steps))
	}
	cut := map[Face]bool{}
	for i, s := range steps {
		if s.Cut.Opposite() == 0 {
			return fmt.Errorf("squaring: step %d cuts face %d, must be 1 to 6", i+1, s.Cut)
		}
		if i > 0 {
			if err := s.validateHold(i+1, cut); err != nil {
				return err
			}
		}
		cut[s.Cut] = true
	}
	return nil
}

// validateHold checks what holds the block in a step after the first.
func (s BlockStep) validateHold(number int, cut map[Face]bool) error {
	if !cut[s.AtJaw] || s.AtJaw == s.Cut || s.AtJaw == s.Cut.Opposite() {
		return fmt.Errorf("squaring: step %d holds face %d at the jaw to cut face %d: it must be cut already, and beside it", number, s.AtJaw, s.Cut)
	}
	if s.Below != 0 && (!cut[s.Below] || s.Below != s.Cut.Opposite()) {
		return fmt.Errorf("squaring: step %d rests on face %d to cut face %d: it must be cut already, and opposite", number, s.Below, s.Cut)
	}
	if s.Upright != 0 && (s.Below != 0 || !cut[s.Upright] || s.Upright == s.AtJaw || s.Upright == s.AtJaw.Opposite() || s.Upright == s.Cut || s.Upright == s.Cut.Opposite()) {
		return fmt.Errorf("squaring: step %d sets face %d upright by a square: it must be cut already, beside the jaw's face and the cut one, with nothing below", number, s.Upright)
	}
	if s.Seat != "" && s.Seat != OnJaw && s.Seat != OnBed {
		return fmt.Errorf("squaring: step %d seats the work on %q, must be %q or %q", number, s.Seat, OnJaw, OnBed)
	}
	if s.Seat == OnBed && s.Below == 0 {
		return fmt.Errorf("squaring: step %d seats the work on the bed with no face below", number)
	}
	return nil
}

// cutFaces runs the steps and returns each face's error in the block's frame.
func cutFaces(steps []BlockStep, errors [5]float64) [7]r3.Vec {
	var faces [7]r3.Vec
	for i, s := range steps {
		if i == 0 {
			continue // the first face is where errors are counted from
		}
		faces[s.Cut] = cutOne(s, faces, errors)
	}
	return faces
}

// cutOne returns the error of the face that a step cuts. In the machine's frame
// the jaw's face looks forward, so that the block's held face looks back, along
// +y; the cut face looks up.
func cutOne(s BlockStep, faces [7]r3.Vec, errors [5]float64) r3.Vec {
	lean, bedX, bedY, lift, square := errors[0], errors[1], errors[2], errors[3], errors[4]
	up := r3.Vec{Z: 1}
	toMachine, toBlock := attitude(s.AtJaw, s.Cut)
	held := toMachine(faces[s.AtJaw])
	// The block's face at the jaw must have the jaw's plane: its normal turns
	// down by the lean. A jaw that is turned to the travel turns the block about
	// the upright, which the top that is cut does not feel.
	jaw := r3.Vec{Z: -lean}
	below := r3.Vec{X: bedX, Y: bedY} // minus the bed's normal (-bedX, -bedY, 1), less -up
	var w r3.Vec
	if s.Seat == OnBed {
		// w x (-up) = below - R e: fixes wx and wy; then wz by the jaw.
		need := r3.Sub(below, toMachine(faces[s.Below]))
		w.X, w.Y = need.Y, -need.X
		w.Z = -(jaw.X - held.X)
	} else {
		// w x back = jaw - R e: (-wz, 0, wx).
		need := r3.Sub(jaw, held)
		w.X, w.Z = need.Z, -need.X
		if s.Lifted {
			// The side of the moving jaw, in front, rises: a turn about x the
			// same way as a jaw that leans back.
			w.X -= lift
		}
		switch {
		case s.Below != 0:
			w.Y = -(below.X - toMachine(faces[s.Below]).X)
		case s.Upright != 0:
			w.Y = uprightTurn(toMachine(faceNormals[s.Upright]), toMachine(faces[s.Upright]), square)
		}
	}
	// The cut is the machine's own plane: R e + w x up = 0.
	return toBlock(r3.Scale(-1, r3.Cross(w, up)))
}

// uprightTurn returns the turn about y that brings a face beside, looking right
// or left, against the blade of a square that leans to the right at its top.
func uprightTurn(normal, e r3.Vec, square float64) float64 {
	// A right-hand face along a blade that leans right has its normal turned
	// down; a left-hand one, up.
	wanted := -square * normal.X
	// (w x normal).z = wx ny - wy nx = -wy nx for a normal along x.
	return -(wanted - e.Z) / normal.X
}

// attitude returns the turns between block and machine when one face looks back
// and another up.
func attitude(atJaw, cut Face) (toMachine, toBlock func(r3.Vec) r3.Vec) {
	y, z := faceNormals[atJaw], faceNormals[cut]
	x := r3.Cross(y, z)
	toMachine = func(v r3.Vec) r3.Vec { return r3.Vec{X: r3.Dot(v, x), Y: r3.Dot(v, y), Z: r3.Dot(v, z)} }
	toBlock = func(v r3.Vec) r3.Vec { return r3.Add(r3.Scale(v.X, x), r3.Add(r3.Scale(v.Y, y), r3.Scale(v.Z, z))) }
	return toMachine, toBlock
}

// gatherPairs turns the faces' errors for one unit of each vise error into the
// angles between faces.
func gatherPairs(cut map[Face]bool, unit [5][7]r3.Vec, errors ViseErrors) SquaredBlock {
	var block SquaredBlock
	list := errors.list()
	for a := Face(1); a <= 6; a++ {
		for b := a + 1; b <= 6; b++ {
			if !cut[a] || !cut[b] {
				continue
			}
			pair := FacePair{A: a, B: b}
			if b == a.Opposite() {
				pair.Angle = wedge(unit, list, a, b)
				block.Opposites = append(block.Opposites, pair)
				block.WorstParallel = worse(block.WorstParallel, pair)
				continue
			}
			variance := 0.0
			for i, m := range list {
				// Outward normals n + e: their product is the inside angle less
				// a right angle.
				rate := r3.Dot(faceNormals[a], unit[i][b]) + r3.Dot(faceNormals[b], unit[i][a])
				pair.Angle.Slope += m.Slope * Slope(rate)
				variance += rate * rate * float64(m.Uncertainty) * float64(m.Uncertainty)
			}
			pair.Angle.Uncertainty = Slope(math.Sqrt(variance))
			block.Neighbours = append(block.Neighbours, pair)
			block.WorstSquare = worse(block.WorstSquare, pair)
		}
	}
	return block
}

// wedge returns the angle between two opposite faces: the length of the sum of
// their normals' errors, its uncertainty taken along that sum.
func wedge(unit [5][7]r3.Vec, list [5]MeasuredSlope, a, b Face) MeasuredSlope {
	var sum r3.Vec
	var rates [5]r3.Vec
	for i, m := range list {
		rates[i] = r3.Add(unit[i][a], unit[i][b])
		sum = r3.Add(sum, r3.Scale(float64(m.Slope), rates[i]))
	}
	size := r3.Norm(sum)
	along, across := 0.0, 0.0
	for i, m := range list {
		u := float64(m.Uncertainty)
		across = math.Hypot(across, r3.Norm(rates[i])*u)
		if size > 0 {
			along = math.Hypot(along, r3.Dot(rates[i], sum)/size*u)
		}
	}
	if size == 0 {
		along = across
	}
	return MeasuredSlope{Slope: Slope(size), Uncertainty: Slope(along)}
}

// worse returns the pair that is farther out.
func worse(a, b FacePair) FacePair {
	if a.A == 0 || math.Abs(float64(b.Angle.Slope)) > math.Abs(float64(a.Angle.Slope)) {
		return b
	}
	return a
}
