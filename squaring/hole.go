package squaring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// HoleFeed says what moves while a hole is made.
type HoleFeed string

const (
	// ByQuill: the quill comes down along the spindle's own axis.
	ByQuill HoleFeed = "quill"
	// ByKnee: the knee carries the work up to a spindle that stays.
	ByKnee HoleFeed = "knee"
)

// Hole is a hole drilled or bored with a tilted spindle or a leaning knee.
type Hole struct {
	// Feed is what moves.
	Feed HoleFeed
	// Tilt is table slope minus spindle tilt, as a sweep gives it, and TiltU its
	// standard uncertainty.
	Tilt, TiltU Gradient
	// KneeLean is how far the table moves sideways for each length it rises,
	// against the square to its top: positive X to the right, positive Y to the
	// back. KneeLeanU is its standard uncertainty.
	KneeLean, KneeLeanU Gradient
	// Depth is the depth of the hole, or the rise of the knee between two
	// tools; zero or more.
	Depth unit.Length
	// Diameter is the diameter of the tool's circle, zero or more.
	Diameter unit.Length
}

// MadeHole is what the hole is like.
type MadeHole struct {
	// Lean is the slope of the hole's axis against the square to the table: how
	// far the hole goes to the right, or back, for each length it goes down.
	Lean, LeanU Gradient
	// ShiftX and ShiftY are how far the bottom lies to the right of, and behind,
	// the top, with standard uncertainties.
	ShiftX, ShiftXU, ShiftY, ShiftYU unit.Length
	// Shift is the distance from top to bottom seen from above and ShiftU its
	// standard uncertainty to first order: near zero the distance is never less
	// than zero, and scatter alone makes it so large.
	Shift, ShiftU unit.Length
	// Ovality is the long axis of the hole less the short. A quill leaves none:
	// the tool's circle is square to the way it goes.
	Ovality unit.Length
}

// Made returns what the hole is like:
//
//	by quill: shift = -tilt depth      ovality = 0
//	by knee:  shift = -lean depth      ovality = diameter (1 - cos(tilt - lean))
//
// the knee's hole being cut by a circle that leans against the way the work
// goes. Depth and diameter must not be negative; the two directions are taken
// as independent.
func (h Hole) Made() (MadeHole, error) {
	if err := h.validate(); err != nil {
		return MadeHole{}, err
	}
	lean, leanU := Gradient{}.Minus(h.Tilt), h.TiltU
	ovality := unit.Length(0)
	if h.Feed == ByKnee {
		lean, leanU = Gradient{}.Minus(h.KneeLean), h.KneeLeanU
		ovality = h.Diameter * unit.Length(oneMinusCos(h.Tilt.Minus(h.KneeLean).Steepest()))
	}
	m := MadeHole{
		Lean: lean, LeanU: leanU, Ovality: ovality,
		ShiftX: lean.X.Rise(h.Depth), ShiftXU: leanU.X.Rise(h.Depth),
		ShiftY: lean.Y.Rise(h.Depth), ShiftYU: leanU.Y.Rise(h.Depth),
		Shift: lean.Steepest().Rise(h.Depth),
	}
	m.ShiftU = max(m.ShiftXU, m.ShiftYU)
	if m.Shift > 0 {
		m.ShiftU = unit.Length(math.Hypot(float64(m.ShiftX*m.ShiftXU), float64(m.ShiftY*m.ShiftYU))) / m.Shift
	}
	return m, nil
}

func (h Hole) validate() error {
	if h.Feed != ByQuill && h.Feed != ByKnee {
		return fmt.Errorf("squaring: a hole is fed by %q, must be %q or %q", h.Feed, ByQuill, ByKnee)
	}
	for _, g := range []struct {
		what string
		v, u Gradient
	}{{"tilt", h.Tilt, h.TiltU}, {"lean of the knee", h.KneeLean, h.KneeLeanU}} {
		if !(g.v.Steepest() <= 1) {
			return fmt.Errorf("squaring: %s is (%g, %g), must be numbers below one (45 deg)", g.what, float64(g.v.X), float64(g.v.Y))
		}
		if !(g.u.X >= 0 && g.u.Y >= 0) || math.IsInf(float64(g.u.X+g.u.Y), 0) {
			return fmt.Errorf("squaring: uncertainty of the %s is (%g, %g), must be numbers not below zero", g.what, float64(g.u.X), float64(g.u.Y))
		}
	}
	if err := notNegative("hole depth", h.Depth); err != nil {
		return err
	}
	return notNegative("hole diameter", h.Diameter)
}

// oneMinusCos returns 1 - cos of the slope's angle without cancellation.
func oneMinusCos(s Slope) float64 {
	half := math.Sin(float64(s.Angle()) / 2)
	return 2 * half * half
}
