package plating

// Moving an anode, a thief or a shield: the field made anew from what did not
// change, and the effect of a small move.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

// Move is a displacement of one outline.
type Move struct {
	Outline string
	// X and Y are in the section's directions.
	X, Y unit.Length
}

// Moved returns the field with some outlines displaced. Elements keep their
// places on the outlines, the integrals between outlines that did not move are
// kept, and so is the factorisation of the insulators unless one of them moved.
// It returns an error for an unknown outline, and where the moved section could
// not be solved: an outline joined to others, for one, cannot leave them.
func (f *Field) Moved(moves ...Move) (*Field, error) {
	section, moved, err := f.displace(moves)
	if err != nil {
		return nil, err
	}
	loops, err := section.loops()
	if err != nil {
		return nil, err
	}
	to := &Field{section: section}
	if to.fine, err = f.fine.moved(section, loops, moved); err != nil {
		return nil, err
	}
	to.coarse, err = f.coarse.moved(section, loops, moved)
	return to, err
}

// displace returns the section with some outlines displaced, and which they
// are.
func (f *Field) displace(moves []Move) (Section, []bool, error) {
	section := f.section.clone()
	moved := make([]bool, len(section.Outlines))
	for _, m := range moves {
		if err := firstError(finite("move in x", float64(m.X), inMillimetre), finite("move in y", float64(m.Y), inMillimetre)); err != nil {
			return Section{}, nil, err
		}
		o, err := section.outline(m.Outline)
		if err != nil {
			return Section{}, nil, err
		}
		moved[o] = true
		for i := range section.Outlines[o].Corners {
			section.Outlines[o].Corners[i].X += m.X
			section.Outlines[o].Corners[i].Y += m.Y
		}
	}
	return section, moved, nil
}

// outline returns the index of the named outline.
func (s Section) outline(name string) (int, error) {
	for i, o := range s.Outlines {
		if o.Name == name {
			return i, nil
		}
	}
	return 0, fmt.Errorf("plating: section has no outline named %q", name)
}

// moved returns the system with its elements on the loops of a moved section.
func (s *system) moved(section Section, loops []loop, moved []bool) (*system, error) {
	to := *s
	to.section, to.loops = section, loops
	to.elements = make([]element, len(s.elements))
	insulatorMoved := false
	for i, old := range s.elements {
		el := old
		l := &loops[old.loop]
		el.place(&l.edges[old.index], section.Axisymmetric)
		to.elements[i] = el
		insulatorMoved = insulatorMoved || moved[el.edge.outline] && !el.role.electrode()
	}
	to.h, to.g = mat.DenseCopyOf(s.h), mat.DenseCopyOf(s.g)
	to.assemble(func(outline int) bool { return moved[outline] })
	if insulatorMoved {
		to.walls = nil
	}
	return &to, to.reduce()
}

// Effect is what a move does to the parts' coat: the changes, per metre of the
// move, of the spread and of the thinnest and thickest current density as
// shares of the mean.
type Effect struct{ Spread, Thinnest, Thickest float64 }

// Sensitivity returns the effect of moving an outline along X and along Y, from
// solves with the outline displaced by a step to either side. The step must be
// above zero and leave the outline clear of others.
func (f *Field) Sensitivity(c Conditions, outline string, step unit.Length) (x, y Effect, err error) {
	if err := firstError(c.validate(), positive("step", float64(step), inMillimetre)); err != nil {
		return Effect{}, Effect{}, err
	}
	if x, err = f.effect(c, Move{Outline: outline, X: step}); err != nil {
		return Effect{}, Effect{}, err
	}
	if y, err = f.effect(c, Move{Outline: outline, Y: step}); err != nil {
		return Effect{}, Effect{}, err
	}
	return x, y, nil
}

// effect returns the central difference of a move and its opposite.
func (f *Field) effect(c Conditions, m Move) (Effect, error) {
	var at [2]Effect
	for i, sign := range []unit.Length{-1, 1} {
		section, moved, err := f.displace([]Move{{m.Outline, sign * m.X, sign * m.Y}})
		if err != nil {
			return Effect{}, err
		}
		d, err := f.fine.solveMoved(section, moved, c)
		if err != nil {
			return Effect{}, err
		}
		at[i] = Effect{d.Spread, float64(d.Thinnest.CurrentDensity / d.Mean), float64(d.Thickest.CurrentDensity / d.Mean)}
	}
	span := 2 * math.Abs(float64(m.X+m.Y))
	return Effect{(at[1].Spread - at[0].Spread) / span, (at[1].Thinnest - at[0].Thinnest) / span, (at[1].Thickest - at[0].Thickest) / span}, nil
}

// solveMoved returns the distribution on a moved section.
func (s *system) solveMoved(section Section, moved []bool, c Conditions) (Distribution, error) {
	loops, err := section.loops()
	if err != nil {
		return Distribution{}, err
	}
	to, err := s.moved(section, loops, moved)
	if err != nil {
		return Distribution{}, err
	}
	return to.solve(c)
}
