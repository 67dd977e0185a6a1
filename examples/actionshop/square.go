package actionshop

import "gonum.org/v1/gonum/unit"

// SquareRun is the knee raised past dial D on the blade of a 200 mm square that
// stands on the table: readings at [SquareHeights], as marked and turned end for
// end.
type SquareRun struct {
	// Axis is "X" when the blade faces along x, "Y" along y.
	Axis           string
	Marked, Turned [4]unit.Length
	// TrueLean and TrueSquare are the made-up truth, rise over run: tested
	// against, never shown as known.
	TrueLean, TrueSquare float64
}

// SquareStep is what dial D was read to.
const SquareStep = 0.002 * mm

// SquareHeights returns how far the knee had been raised at each reading.
func SquareHeights() [4]unit.Length { return [4]unit.Length{0 * mm, 50 * mm, 100 * mm, 150 * mm} }

// SquareRuns returns both directions.
func SquareRuns() []SquareRun {
	return []SquareRun{
		{"X", [4]unit.Length{0 * mm, 0.002 * mm, 0.004 * mm, 0.008 * mm}, [4]unit.Length{0 * mm, -0.002 * mm, 0 * mm, 0 * mm}, 20e-6, 28e-6},
		{"Y", [4]unit.Length{0 * mm, -0.002 * mm, -0.002 * mm, -0.004 * mm}, [4]unit.Length{0 * mm, -0.006 * mm, -0.008 * mm, -0.012 * mm}, -60e-6, 28e-6},
	}
}
