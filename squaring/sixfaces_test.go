package squaring

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// angle returns the angle of a pair, um/m.
func pairAngle(t *testing.T, pairs []FacePair, a, b Face) float64 {
	t.Helper()
	for _, p := range pairs {
		if p.A == a && p.B == b {
			return p.Angle.Slope.Microradians()
		}
	}
	t.Fatalf("no pair %d and %d", a, b)
	return 0
}

// By hand, a jaw that leans back by 100 um/m and no other error. Each top cut
// with a face flat on that jaw closes their inside angle by 100. Flat on the jaw
// throughout: 1-2, 1-4, 2-3 are -100 and the last must close the four to a whole
// turn, +300; opposite faces taper by 200. Flat on the bed for the second of
// each pair: a parallelogram, parallel and 100 out of square everywhere.
func TestSquareBlockByHand(t *testing.T) {
	errors := ViseErrors{JawLean: MeasuredSlope{100e-6, 5e-6}}
	tests := []struct {
		seat                 Seat
		a12, a14, a23, a34   float64
		wedge24, wedge13, u4 float64
	}{
		{OnJaw, -100, -100, -100, 300, 200, 200, 15},
		{OnBed, -100, 100, 100, -100, 0, 0, 5},
	}
	for _, test := range tests {
		b, err := SquareBlock(SixFaces(test.seat, false), errors)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "1-2", pairAngle(t, b.Neighbours, 1, 2), test.a12, 1e-9)
		near(t, "1-4", pairAngle(t, b.Neighbours, 1, 4), test.a14, 1e-9)
		near(t, "2-3", pairAngle(t, b.Neighbours, 2, 3), test.a23, 1e-9)
		near(t, "3-4", pairAngle(t, b.Neighbours, 3, 4), test.a34, 1e-9)
		near(t, "wedge 2-4", pairAngle(t, b.Opposites, 2, 4), test.wedge24, 1e-9)
		near(t, "wedge 1-3", pairAngle(t, b.Opposites, 1, 3), test.wedge13, 1e-9)
		for _, p := range b.Neighbours {
			if p.A == 3 && p.B == 4 {
				near(t, "u 3-4", p.Angle.Uncertainty.Microradians(), test.u4, 1e-9)
			}
		}
		if len(b.Neighbours) != 12 || len(b.Opposites) != 3 {
			t.Errorf("%d neighbours, %d opposites", len(b.Neighbours), len(b.Opposites))
		}
	}
}

// The demonstration shop's block: jaw lean 0.267 mm/m and lift 0.5 mm/m make the
// second face 46 um out over 60 mm as clamped, and 16 with a round bar.
func TestSquareBlockTrials(t *testing.T) {
	errors := ViseErrors{JawLean: MeasuredSlope{Slope: Slope(0.012 / 45.0)}, Lift: MeasuredSlope{Slope: 0.030 / 60}}
	for lifted, want := range map[bool]float64{true: -46, false: -16} {
		b, err := SquareBlock(SixFaces(OnBed, lifted)[:2], errors)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "1-2 over 60 mm, um", float64(b.WorstSquare.Angle.Slope)*60e3, want, 1e-9)
	}
}

// A square that leans 50 um/m to the right leaves the end, cut on top with face 2
// upright against it, 50 out to face 2; and each end is square to face 1 but for
// the jaw.
func TestSquareBlockEnds(t *testing.T) {
	b, err := SquareBlock(SixFaces(OnBed, false), ViseErrors{Square: MeasuredSlope{Slope: 50e-6}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "2-5", math.Abs(pairAngle(t, b.Neighbours, 2, 5)), 50, 1e-9)
	near(t, "4-5 the other way", pairAngle(t, b.Neighbours, 4, 5), -pairAngle(t, b.Neighbours, 2, 5), 1e-9)
	near(t, "1-5", pairAngle(t, b.Neighbours, 1, 5), 0, 1e-9)
	near(t, "wedge 5-6", pairAngle(t, b.Opposites, 5, 6), 0, 1e-9)
}

// Laws: round every section the four inside angles make a whole turn; twice the
// errors, twice the angles; errors add.
func TestSquareBlockLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	draw := func() ViseErrors {
		m := func() MeasuredSlope { return MeasuredSlope{Slope: Slope(random.NormFloat64()) * 1e-4} }
		return ViseErrors{JawLean: m(), BedX: m(), BedY: m(), Lift: m(), Square: m()}
	}
	solve := func(e ViseErrors, seat Seat, lifted bool) SquaredBlock {
		b, err := SquareBlock(SixFaces(seat, lifted), e)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	for range 50 {
		seat, lifted := []Seat{OnJaw, OnBed, ""}[random.IntN(3)], random.IntN(2) == 0
		e, f := draw(), draw()
		b := solve(e, seat, lifted)
		for _, ring := range [][4]Face{{1, 2, 3, 4}, {1, 5, 3, 6}, {2, 5, 4, 6}} {
			sum := 0.0
			for i := range ring {
				a, c := ring[i], ring[(i+1)%4]
				sum += pairAngle(t, b.Neighbours, min(a, c), max(a, c))
			}
			near(t, "a whole turn", sum, 0, 1e-9)
		}
		g, both := solve(f, seat, lifted), e
		both.JawLean.Slope += f.JawLean.Slope
		both.BedX.Slope += f.BedX.Slope
		both.BedY.Slope += f.BedY.Slope
		both.Lift.Slope += f.Lift.Slope
		both.Square.Slope += f.Square.Slope
		h := solve(both, seat, lifted)
		for i := range h.Neighbours {
			near(t, "superposition", float64(h.Neighbours[i].Angle.Slope), float64(b.Neighbours[i].Angle.Slope+g.Neighbours[i].Angle.Slope), 1e-15)
		}
	}
}

// Against exact turns: the block is turned as a solid until its face lies on the
// leaning jaw and the other face, by a line, on the sloping bed; the top is then
// the machine's level. A few products of two errors of up to 3e-4 are 3e-7.
func TestCutOneAgainstExactTurns(t *testing.T) {
	random := rand.New(rand.NewPCG(23, 24))
	for range 50 {
		e := func() float64 { return random.NormFloat64() * 1e-4 }
		errors := [5]float64{e(), e(), e(), 0, 0}
		var faces [7]r3.Vec
		faces[1], faces[2] = r3.Vec{X: e(), Z: e()}, r3.Vec{X: e(), Y: e()}
		step := BlockStep{Cut: 4, AtJaw: 1, Below: 2}
		got := r3.Add(faceNormals[4], cutOne(step, faces, errors))
		// Bring the true normals into the machine nominally, then turn exactly:
		// first the jaw's face onto the jaw, then about the jaw's normal until
		// the face below holds the bed's line along the jaw.
		toMachine, toBlock := attitude(1, 4)
		held, below := r3.Unit(toMachine(r3.Add(faceNormals[1], faces[1]))), r3.Unit(toMachine(r3.Add(faceNormals[2], faces[2])))
		jaw := r3.Unit(r3.Vec{Y: 1, Z: -errors[0]})
		first := turnOnto(held, jaw)
		below = first.Rotate(below)
		bed := r3.Unit(r3.Vec{X: errors[1], Y: errors[2], Z: -1})
		// About the jaw's normal: the lines in which the jaw cuts face and bed
		// must be one.
		line, wanted := r3.Unit(r3.Cross(jaw, below)), r3.Unit(r3.Cross(jaw, bed))
		angle := math.Atan2(r3.Dot(r3.Cross(line, wanted), jaw), r3.Dot(line, wanted))
		// The cut's normal, carried back into the block.
		back := r3.NewRotation(-angle, jaw).Rotate(r3.Vec{Z: 1})
		back = turnOnto(jaw, held).Rotate(back)
		want := toBlock(back)
		near(t, "x", got.X, want.X, 3e-7)
		near(t, "y", got.Y, want.Y, 3e-7)
		near(t, "z", r3.Unit(got).Z, want.Z, 3e-7)
	}
}

// turnOnto returns the shortest turn of one unit vector onto another.
func turnOnto(from, to r3.Vec) r3.Rotation {
	axis := r3.Cross(from, to)
	return r3.NewRotation(math.Atan2(r3.Norm(axis), r3.Dot(from, to)), axis)
}

func TestSquareBlockRejects(t *testing.T) {
	nan := Slope(math.NaN())
	usual := SixFaces(OnBed, false)
	for name, in := range map[string]struct {
		steps  []BlockStep
		errors ViseErrors
	}{
		"no steps":      {nil, ViseErrors{}},
		"no face":       {[]BlockStep{{Cut: 7}}, ViseErrors{}},
		"negative face": {[]BlockStep{{Cut: -1}}, ViseErrors{}},
		"not yet cut":   {[]BlockStep{{Cut: 1}, {Cut: 2, AtJaw: 3}}, ViseErrors{}},
		"jaw opposite":  {[]BlockStep{{Cut: 1}, {Cut: 3, AtJaw: 1}}, ViseErrors{}},
		"below beside":  {append(append([]BlockStep{}, usual[:2]...), BlockStep{Cut: 3, AtJaw: 2, Below: 2}), ViseErrors{}},
		"upright same":  {append(append([]BlockStep{}, usual[:4]...), BlockStep{Cut: 5, AtJaw: 1, Upright: 3}), ViseErrors{}},
		"seat":          {append(append([]BlockStep{}, usual[:2]...), BlockStep{Cut: 4, AtJaw: 1, Below: 2, Seat: "knee"}), ViseErrors{}},
		"bed, no below": {append(append([]BlockStep{}, usual[:1]...), BlockStep{Cut: 2, AtJaw: 1, Seat: OnBed}), ViseErrors{}},
		"nan":           {usual, ViseErrors{JawLean: MeasuredSlope{Slope: nan}}},
		"large":         {usual, ViseErrors{BedX: MeasuredSlope{Slope: 1}}},
		"negative u":    {usual, ViseErrors{Lift: MeasuredSlope{Uncertainty: -1}}},
	} {
		if b, err := SquareBlock(in.steps, in.errors); err == nil {
			t.Errorf("%s: %+v, want an error", name, b)
		}
	}
	if b, err := SquareBlock(usual, ViseErrors{}); err != nil || b.WorstSquare.Angle.Slope != 0 {
		t.Errorf("a perfect vise: %+v, %v", b.WorstSquare, err)
	}
}
