package plating

// The search for the places of anodes, shields and thieves that give the most
// even coat.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/unit"
)

// Reach is how far a search may move one outline from where it is: by FromX to
// ToX and FromY to ToY. A direction whose two limits are equal is held there.
type Reach struct {
	Outline                string
	FromX, ToX, FromY, ToY unit.Length
}

// Evened is the outcome of [Field.Even].
type Evened struct {
	// Moves is where the outlines went, in the order of the reaches.
	Moves []Move
	// Field is the field there.
	Field *Field
	// Before and After are the distributions at the start and there.
	Before, After Distribution
	// Solves is how many places were tried.
	Solves int
}

// penalty stands for the spread of a place that cannot be had.
const penalty = 1e3

// Even searches for the places of anodes, shields or thieves that give the
// parts the least [Distribution.Spread], by gonum's simplex method of Nelder and
// Mead within the reaches, in at most the given number of solves (zero means
// 40). The search runs on the coarser mesh and its outcome is solved again on
// the finer; if nothing better was found the moves are zero. It finds a good
// place, not surely the best: the spread may have several hollows.
//
// At least one direction must have room, limits must be in order, and places
// where outlines would touch are passed over.
func (f *Field) Even(c Conditions, reaches []Reach, solves int) (Evened, error) {
	if solves == 0 {
		solves = 40
	}
	if solves < 1 {
		return Evened{}, fmt.Errorf("plating: %d solves asked for, must be 1 or more", solves)
	}
	before, err := f.Solve(c)
	if err != nil {
		return Evened{}, err
	}
	start, err := f.checkReaches(reaches)
	if err != nil {
		return Evened{}, err
	}
	tried := 0
	spread := func(x []float64) float64 {
		tried++
		section, moved, err := f.displace(movesAt(reaches, x))
		if err != nil {
			return penalty
		}
		d, err := f.coarse.solveMoved(section, moved, c)
		if err != nil {
			return penalty
		}
		return d.Spread
	}
	best, err := simplex(spread, start, 0.3, solves, 1e-4)
	if err != nil {
		return Evened{}, err
	}
	return f.settle(c, before, movesAt(reaches, best), tried)
}

// settle solves the outcome of a search on the finer mesh, and goes back to the
// start when it is no better.
func (f *Field) settle(c Conditions, before Distribution, moves []Move, tried int) (Evened, error) {
	there, err := f.Moved(moves...)
	if err == nil {
		var after Distribution
		if after, err = there.Solve(c); err == nil && after.Spread < before.Spread {
			return Evened{Moves: moves, Field: there, Before: before, After: after, Solves: tried}, nil
		}
	}
	for i := range moves {
		moves[i].X, moves[i].Y = 0, 0
	}
	return Evened{Moves: moves, Field: f, Before: before, After: before, Solves: tried}, nil
}

// checkReaches checks the limits of a search and returns its start: no move,
// or the nearest limit, as shares of the room in each free direction.
func (f *Field) checkReaches(reaches []Reach) ([]float64, error) {
	var start []float64
	for i, r := range reaches {
		if _, err := f.section.outline(r.Outline); err != nil {
			return nil, err
		}
		for _, room := range []struct {
			name     string
			from, to float64
		}{{"x", float64(r.FromX), float64(r.ToX)}, {"y", float64(r.FromY), float64(r.ToY)}} {
			if !(room.from <= room.to) || math.IsInf(room.to-room.from, 0) {
				return nil, fmt.Errorf("plating: reach %d of %q in %s is %s to %s, must be finite and in order",
					i+1, r.Outline, room.name, inMillimetre.of(room.from), inMillimetre.of(room.to))
			}
			if room.from < room.to {
				start = append(start, math.Max(0, math.Min(1, -room.from/(room.to-room.from))))
			}
		}
	}
	if len(start) == 0 {
		return nil, fmt.Errorf("plating: the search has no direction with room to move")
	}
	return start, nil
}

// movesAt returns the moves for a place in the search, folded back into the
// reaches.
func movesAt(reaches []Reach, x []float64) []Move {
	moves := make([]Move, len(reaches))
	k := 0
	along := func(from, to unit.Length) unit.Length {
		if from == to {
			return from
		}
		t := math.Abs(math.Remainder(x[k], 2))
		k++
		return from + unit.Length(t)*(to-from)
	}
	for i, r := range reaches {
		moves[i].Outline = r.Outline
		moves[i].X = along(r.FromX, r.ToX)
		moves[i].Y = along(r.FromY, r.ToY)
	}
	return moves
}

// simplex returns the lowest place that the simplex method finds from a start
// in at most so many calls. The first corners lie a step away along each
// direction; it ends when twice as many rounds as a simplex has corners have not
// lowered the lowest by the given share.
func simplex(f func([]float64) float64, start []float64, step float64, calls int, agree float64) ([]float64, error) {
	// The lowest place is kept here: the limit on calls may cut a round short.
	best, lowest := append([]float64(nil), start...), math.Inf(1)
	problem := optimize.Problem{Func: func(x []float64) float64 {
		v := f(x)
		if v < lowest {
			lowest = v
			copy(best, x)
		}
		return v
	}}
	settings := optimize.Settings{FuncEvaluations: calls,
		Converger: &optimize.FunctionConverge{Relative: agree, Iterations: 2 * (len(start) + 1)}}
	if _, err := optimize.Minimize(problem, start, &settings, &optimize.NelderMead{SimplexSize: step}); err != nil {
		return nil, fmt.Errorf("plating: the search failed: %w", err)
	}
	return best, nil
}
