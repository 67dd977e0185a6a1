package actionshop

import "gonum.org/v1/gonum/unit"

// JawRun is dial D run along the fixed jaw after one setting of the vise:
// readings at [JawPlaces], the zero at the left end.
type JawRun struct {
	Readings [7]unit.Length
	// TrueYaw is the made-up turn of the jaw, rise over run: tested against,
	// never shown as known.
	TrueYaw float64
}

// JawStep is what dial D was read to.
const JawStep = 0.002 * mm

// JawPlaces returns the places of a run, from the middle of the jaw.
func JawPlaces() [7]unit.Length {
	var places [7]unit.Length
	for i := range places {
		places[i] = unit.Length(20*i-60) * mm
	}
	return places
}

// JawRuns returns the four settings in the order made.
func JawRuns() []JawRun {
	run := func(yaw float64, readings ...float64) JawRun {
		r := JawRun{TrueYaw: yaw}
		for i, v := range readings {
			r.Readings[i] = unit.Length(v) * mm
		}
		return r
	}
	return []JawRun{
		run(540e-6, 0.002, 0.008, 0.016, 0.026, 0.038, 0.050, 0.066),
		run(-130e-6, 0, -0.008, -0.010, -0.014, -0.014, -0.018, -0.014),
		run(40e-6, 0, -0.002, -0.004, -0.004, -0.002, 0, 0.004),
		run(-12e-6, 0, -0.004, -0.006, -0.008, -0.006, -0.006, -0.002),
	}
}

// BlockTrial is one way of holding a 60 mm block while its second face is cut:
// what the face is out over the block by the square, and by turning the block
// end for end, which doubles it.
type BlockTrial struct {
	Holding             string
	BySquare, ByReverse unit.Length
}

// BlockSize is the length over which the blocks were checked.
const BlockSize = 60 * mm

// BlockTrials returns the three ways of holding that the shop tried.
func BlockTrials() []BlockTrial {
	return []BlockTrial{
		{"as clamped", 0.046 * mm, 0.092 * mm},
		{"round bar at the moving jaw", 0.018 * mm, 0.030 * mm},
		{"round bar, and a shim high on the fixed jaw", 0 * mm, 0 * mm},
	}
}

// The vise itself: how far the fixed jaw's face leans back over the height of
// the jaw, and how far the moving jaw lifts the work on clamping.
const (
	JawLean   = 0.012 * mm
	JawHeight = 45 * mm
	JawLift   = 0.03 * mm
)
