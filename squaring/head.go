package squaring

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// HeadOptions says how the head is hung and where it is wanted.
type HeadOptions struct {
	// PivotX is how far right of the spindle's axis the pivot of the side tilt
	// lies; nearly zero on most heads.
	PivotX unit.Length
	// PivotY is how far behind the spindle's axis, toward the column, the pivot
	// of the nod lies. It makes the whole head rise or sink as it nods, and the
	// dial with it.
	PivotY unit.Length
	// Leave is the tilt (table slope minus spindle tilt) wanted when the turn
	// is done: zero for square, or what tightening the bolts will take away.
	Leave Gradient
}

// Way says which way a part of the head is turned.
type Way string

const (
	// NoTurn: the readings cannot tell the head from where it is wanted.
	NoTurn Way = "leave it"
	// NoseRight: side tilt, anticlockwise as the operator sees it.
	NoseRight Way = "anticlockwise seen from the front, so that the spindle's nose goes to the right"
	// NoseLeft: side tilt, clockwise as the operator sees it.
	NoseLeft Way = "clockwise seen from the front, so that the spindle's nose goes to the left"
	// NoseBack: nod, anticlockwise seen from the right-hand side.
	NoseBack Way = "so that the spindle's nose goes back toward the column and the top of the head comes forward"
	// NoseForward: nod, clockwise seen from the right-hand side.
	NoseForward Way = "so that the spindle's nose comes forward, away from the column, and the top of the head goes back"
)

// AxisTurn is how one of the head's two axes is to be turned.
type AxisTurn struct {
	// Turn is the change of spindle tilt wanted: positive lifts the right side,
	// or the back, of the plane square to the spindle.
	Turn Slope
	// Uncertainty is the standard uncertainty of Turn.
	Uncertainty Slope
	// Way says in words which way that is. It is [NoTurn] when zero lies in the
	// 95 % interval about Turn: there is nothing to turn by then.
	Way Way
}

// DialTarget is what the dial shows, and will show, at one place of the sweep.
// All are counted from the zero that the sweep was read from.
type DialTarget struct {
	// Place is right, rear, left or front, and Azimuth its angle.
	Place   string
	Azimuth unit.Angle
	// Now is what the fitted plane shows there before anything is turned.
	Now unit.Length
	// AfterNod is what the dial will show there when the nod is right, and
	// AfterBoth when the side tilt is right too.
	AfterNod, AfterBoth unit.Length
}

// HeadTurn is what to do to the head.
type HeadTurn struct {
	// Nod is done first, Side second.
	Nod, Side AxisTurn
	// Targets are for the four places: right, rear, left, front. Both turns are
	// in them, whether or not they are worth making.
	Targets [4]DialTarget
}

// TurnHead returns which way and how far to turn the head after a sweep, and
// what the dial will then show.
//
// The sweep sees table slope minus spindle tilt, so the spindle's tilt has to
// grow by what the sweep sees, less what is to be left. Turning it by (da, db)
// changes the reading at (x, y) from the spindle's axis by
//
//	change = -da (x - PivotX) - db (y - PivotY)
//
// to first order. The head must be held up by a jack or a hoist before its bolts
// are slackened: it can swing. The offsets and the tilt to be left must be
// finite.
func TurnHead(s Sweep, options HeadOptions) (HeadTurn, error) {
	if s.radius <= 0 || s.factor <= 0 {
		return HeadTurn{}, fmt.Errorf("squaring: the sweep holds no readings: fit it first")
	}
	for _, check := range []error{
		finite("pivot of the side tilt", float64(options.PivotX)), finite("pivot of the nod", float64(options.PivotY)),
		finite("side tilt to be left", float64(options.Leave.X)), finite("nod to be left", float64(options.Leave.Y)),
	} {
		if check != nil {
			return HeadTurn{}, check
		}
	}
	half, err := s.Expanded(0.95)
	if err != nil {
		return HeadTurn{}, err
	}
	turn := s.Tilt.Minus(options.Leave)
	t := HeadTurn{
		Nod:  axisTurn(turn.Y, s.TiltU.Y, half.Y, NoseBack, NoseForward),
		Side: axisTurn(turn.X, s.TiltU.X, half.X, NoseRight, NoseLeft),
	}
	for i, place := range [4]string{"right", "rear", "left", "front"} {
		t.Targets[i] = s.target(place, unit.Angle(i)*90*Degree, turn, options)
	}
	return t, nil
}

// axisTurn chooses the way of a turn.
func axisTurn(turn, u, half Slope, positive, negative Way) AxisTurn {
	way := NoTurn
	switch {
	case turn > half:
		way = positive
	case turn < -half:
		way = negative
	}
	return AxisTurn{Turn: turn, Uncertainty: u, Way: way}
}

// target works out the dial's readings at one place.
func (s Sweep) target(place string, azimuth unit.Angle, turn Gradient, options HeadOptions) DialTarget {
	now, _ := s.Expect(azimuth)
	at := GradientToward(azimuth, Slope(s.radius)) // the place, in metres
	shown := func(height unit.Length) unit.Length { return height / unit.Length(s.factor) }
	afterNod := now - shown(turn.Y.Rise(unit.Length(at.Y)-options.PivotY))
	return DialTarget{
		Place: place, Azimuth: azimuth, Now: now, AfterNod: afterNod,
		AfterBoth: afterNod - shown(turn.X.Rise(unit.Length(at.X)-options.PivotX)),
	}
}
