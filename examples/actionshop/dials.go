package actionshop

import (
	"gonum.org/v1/gonum/unit"
)

// DialRun is a dial's run over gauge blocks, rising and then falling.
type DialRun struct {
	// Name is the letter by which the shop calls the dial, and what it is.
	Name string
	// Division is one mark of the dial, Step what it was read to in this run.
	Division, Step unit.Length
	Blocks         []DialBlock
	// TrueGain and TrueHysteresis are the made-up truth: tested against, never
	// shown as known.
	TrueGain       float64
	TrueHysteresis unit.Length
}

// DialBlock is one gauge block of a run, as a height above the first, and what
// the dial showed on the way up and on the way down.
type DialBlock struct {
	Block, Rising, Falling unit.Length
}

// DialRuns returns the runs of the shop's four dials: A, the lever on the sweep
// arm; B and C, the plungers of the two-dial gauge; D, the fine lever.
func DialRuns() []DialRun {
	return []DialRun{
		{"A, lever", LeverDivision, LeverDivision / 2, dialBlocks(thou,
			[]float64{0, 5, 10, 15, 20, 25},
			[]float64{0, 5, 9.75, 15, 19.75, 24.5},
			[]float64{0.25, 5.25, 10, 15, 20, 24.75}), 0.985, 0.22 * thou},
		{"B, plunger", 0.01 * mm, 0.005 * mm, dialBlocks(mm,
			[]float64{0, 0.2, 0.4, 0.6, 0.8, 1.0},
			[]float64{0, 0.205, 0.405, 0.600, 0.800, 1.005},
			[]float64{0.005, 0.205, 0.405, 0.605, 0.800, 1.005}), 1.004, 0.003 * mm},
		{"C, plunger", 0.01 * mm, 0.005 * mm, dialBlocks(mm,
			[]float64{0, 0.2, 0.4, 0.6, 0.8, 1.0},
			[]float64{0, 0.210, 0.415, 0.615, 0.820, 1.030},
			[]float64{0.010, 0.220, 0.425, 0.620, 0.825, 1.040}), 1.031, 0.007 * mm},
		{"D, lever", 0.002 * mm, 0.001 * mm, dialBlocks(mm,
			[]float64{0, 0.02, 0.05, 0.10, 0.15},
			[]float64{0, 0.021, 0.051, 0.100, 0.149},
			[]float64{0.001, 0.021, 0.051, 0.101, 0.150}), 0.996, 0.0008 * mm},
	}
}

func dialBlocks(scale unit.Length, blocks, rising, falling []float64) []DialBlock {
	rows := make([]DialBlock, len(blocks))
	for i := range blocks {
		rows[i] = DialBlock{Block: unit.Length(blocks[i]) * scale, Rising: unit.Length(rising[i]) * scale, Falling: unit.Length(falling[i]) * scale}
	}
	return rows
}
