package squaring

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"
)

// solidHead is a head as a solid: the spindle's axis and the dial's arm turn
// together about a pivot; the table is a plane that stays. It knows nothing of
// the package's formulas.
type solidHead struct {
	axis, centre r3.Vec // unit vector up the spindle, and the middle of the swept circle
	table        r3.Vec // unit normal of the table, which passes through the origin
}

// reading is minus the distance from the stylus tip down the spindle's axis to
// the table: larger where the table is nearer.
func (h solidHead) reading(azimuth unit.Angle, radius unit.Length) unit.Length {
	// The arm points to the azimuth, square to the axis.
	sin, cos := math.Sincos(float64(azimuth))
	arm := r3.Vec{X: cos, Y: sin}
	arm = r3.Unit(r3.Sub(arm, r3.Scale(r3.Dot(arm, h.axis), h.axis)))
	tip := r3.Add(h.centre, r3.Scale(float64(radius), arm))
	return -unit.Length(r3.Dot(tip, h.table) / r3.Dot(h.axis, h.table))
}

// turned is the head turned about a line through the pivot.
func (h solidHead) turned(angle float64, about, pivot r3.Vec) solidHead {
	turn := r3.NewRotation(angle, about)
	h.axis = turn.Rotate(h.axis)
	h.centre = r3.Add(pivot, turn.Rotate(r3.Sub(h.centre, pivot)))
	return h
}

func (h solidHead) sweep(t *testing.T) Sweep {
	readings := round(um, make([]float64, 8)...)
	for i := range readings {
		readings[i].Reading = h.reading(readings[i].Azimuth, 110*mm)
	}
	s, err := FitSweep(readings, SweepOptions{Radius: 110 * mm, Indicator: Indicator{Division: 1 * um, Gain: 1}})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The words and the numbers of TurnHead, carried out on the solid head, must
// bring it square, with the dial reading what was foretold. All four quadrants
// of tilt are tried, each the mirror of another. Tolerance: the tilt squared
// times the lengths, 0.3e-3^2 * 0.4 m = 0.04 um.
func TestTurnHeadOnSolid(t *testing.T) {
	for _, tilt := range []Gradient{{232e-6, 231e-6}, {-232e-6, 231e-6}, {232e-6, -231e-6}, {-232e-6, -231e-6}} {
		head := solidHead{
			axis:   r3.Unit(r3.Vec{X: -float64(tilt.X), Y: -float64(tilt.Y), Z: 1}),
			centre: r3.Vec{Z: 0.001},
			table:  r3.Unit(r3.Vec{X: -40e-6, Y: 25e-6, Z: 1}),
		}
		s := head.sweep(t)
		near(t, "sweep sees table minus spindle, x", s.Tilt.X.Microradians(), 40-tilt.X.Microradians(), 0.1)
		near(t, "sweep sees table minus spindle, y", s.Tilt.Y.Microradians(), -25-tilt.Y.Microradians(), 0.1)
		options := HeadOptions{PivotX: 15 * mm, PivotY: 260 * mm}
		turn, err := TurnHead(s, options)
		if err != nil {
			t.Fatal(err)
		}
		pivot := r3.Vec{X: 0.015, Y: 0.260, Z: 0.4}
		// The words. Anticlockwise seen from the right: about +x. The nose, at
		// the bottom of the axis, must go where the words say.
		nodded := head.turned(math.Abs(float64(turn.Nod.Turn)), aboutFor(t, turn.Nod.Way), pivot)
		nose := -(nodded.axis.Y - head.axis.Y)
		if back := turn.Nod.Way == NoseBack; back != (nose > 0) {
			t.Errorf("tilt %v: nod %q but the nose goes %g back", tilt, turn.Nod.Way, nose)
		}
		square := nodded.turned(math.Abs(float64(turn.Side.Turn)), aboutFor(t, turn.Side.Way), pivot)
		nose = -(square.axis.X - nodded.axis.X)
		if right := turn.Side.Way == NoseRight; right != (nose > 0) {
			t.Errorf("tilt %v: side %q but the nose goes %g right", tilt, turn.Side.Way, nose)
		}
		for _, target := range turn.Targets {
			near(t, target.Place+" now um", float64(target.Now/um), float64(head.reading(target.Azimuth, 110*mm)/um), 0.04)
			near(t, target.Place+" after nod um", float64(target.AfterNod/um), float64(nodded.reading(target.Azimuth, 110*mm)/um), 0.1)
			near(t, target.Place+" after both um", float64(target.AfterBoth/um), float64(square.reading(target.Azimuth, 110*mm)/um), 0.1)
		}
		after := square.sweep(t)
		near(t, "square in x", after.Tilt.X.Microradians(), 0, 0.3)
		near(t, "square in y", after.Tilt.Y.Microradians(), 0, 0.3)
		mean := turn.Targets[0].AfterBoth
		for _, target := range turn.Targets {
			near(t, "all four alike", float64(target.AfterBoth/um), float64(mean/um), 1e-9)
		}
	}
}

// aboutFor turns the words into the axis of a right-handed turn. Seen from the
// front the operator looks along +y, so anticlockwise is about -y.
func aboutFor(t *testing.T, way Way) r3.Vec {
	switch way {
	case NoseRight:
		return r3.Vec{Y: -1}
	case NoseLeft:
		return r3.Vec{Y: 1}
	case NoseBack:
		return r3.Vec{X: 1}
	case NoseForward:
		return r3.Vec{X: -1}
	}
	t.Fatalf("no turn for %q", way)
	return r3.Vec{}
}

// The demonstration machine as found: the dial is highest front left, so the
// spindle's nose must go left and come forward.
func TestTurnHeadAsFound(t *testing.T) {
	readings, options := asFound()
	s, err := FitSweep(readings, options)
	if err != nil {
		t.Fatal(err)
	}
	turn, err := TurnHead(s, HeadOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if turn.Side.Way != NoseLeft || turn.Nod.Way != NoseForward {
		t.Errorf("side %q, nod %q", turn.Side.Way, turn.Nod.Way)
	}
	// With the pivots on the axis the dial ends at the mean reading everywhere,
	// 1.0 thou, and the nod alone moves only rear and front.
	for _, target := range turn.Targets {
		near(t, target.Place, float64(target.AfterBoth/Thou), 1, 0.01)
	}
	near(t, "right after nod", float64(turn.Targets[0].AfterNod-turn.Targets[0].Now), 0, 1e-15)
	near(t, "rear after nod", float64(turn.Targets[1].AfterNod/Thou), 1, 0.01)
}

func TestTurnHeadLeavesWhatIsAsked(t *testing.T) {
	s, err := FitSweep(round(um, 22, 0, -22, 0), SweepOptions{Radius: 110 * mm, Indicator: Indicator{Division: 2 * um}})
	if err != nil {
		t.Fatal(err)
	}
	turn, err := TurnHead(s, HeadOptions{Leave: Gradient{X: 50e-6}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "turn", turn.Side.Turn.Microradians(), 150, 1e-9)
	near(t, "right less left um", float64((turn.Targets[0].AfterBoth-turn.Targets[2].AfterBoth)/um), 11, 1e-9)
	if turn.Nod.Way != NoTurn {
		t.Errorf("nod %q, want none: the sweep shows no nod", turn.Nod.Way)
	}
}

func TestTurnHeadRejects(t *testing.T) {
	if _, err := TurnHead(Sweep{}, HeadOptions{}); err == nil {
		t.Error("an empty sweep was accepted")
	}
	s, err := FitSweep(round(um, 1, 2, 3, 4), SweepOptions{Radius: 110 * mm})
	if err != nil {
		t.Fatal(err)
	}
	nan := math.NaN()
	for _, o := range []HeadOptions{{PivotX: unit.Length(nan)}, {PivotY: unit.Length(math.Inf(1))}, {Leave: Gradient{X: Slope(nan)}}, {Leave: Gradient{Y: Slope(nan)}}} {
		if _, err := TurnHead(s, o); err == nil {
			t.Errorf("%+v accepted", o)
		}
	}
}

// Mirrored machine, mirrored advice.
func TestTurnHeadMirror(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	mirror := map[Way]Way{NoseRight: NoseLeft, NoseLeft: NoseRight, NoTurn: NoTurn}
	for range 50 {
		values := make([]float64, 8)
		for i := range values {
			values[i] = random.NormFloat64() * 20
		}
		readings := round(um, values...)
		mirrored := append([]SweepReading(nil), readings...)
		for i := range mirrored {
			mirrored[i].Azimuth = 180*Degree - mirrored[i].Azimuth
		}
		var turns [2]HeadTurn
		for i, r := range [][]SweepReading{readings, mirrored} {
			s, err := FitSweep(r, SweepOptions{Radius: 110 * mm, Indicator: Indicator{Division: 2 * um}})
			if err != nil {
				t.Fatal(err)
			}
			if turns[i], err = TurnHead(s, HeadOptions{}); err != nil {
				t.Fatal(err)
			}
		}
		if turns[1].Side.Way != mirror[turns[0].Side.Way] || turns[1].Nod.Way != turns[0].Nod.Way {
			t.Errorf("mirrored %q, %q gave %q, %q", turns[0].Side.Way, turns[0].Nod.Way, turns[1].Side.Way, turns[1].Nod.Way)
		}
	}
}
