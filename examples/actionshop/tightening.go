package actionshop

import "gonum.org/v1/gonum/unit"

// Tightening is how far the head moved between bolts just nipped and fully
// tight, as the change of the end-to-end difference over the gauge's bar, read
// with dial D.
type Tightening struct {
	// Crosswise says that the bolts were tightened crosswise in three passes;
	// otherwise each in turn, round the ring.
	Crosswise bool
	Side, Nod unit.Length
}

// TighteningStep is what dial D was read to: half a division.
const TighteningStep = 0.001 * mm

// Tightenings returns the shop's twelve settings in the order made.
func Tightenings() []Tightening {
	side := [12]unit.Length{0.010, 0.003, 0.012, 0.004, 0.006, 0.002, 0.012, 0.004, 0.011, 0.003, 0.012, 0.003}
	nod := [12]unit.Length{-0.008, -0.004, -0.010, -0.004, -0.009, -0.003, -0.014, -0.008, -0.018, -0.006, -0.017, -0.004}
	rows := make([]Tightening, 12)
	for i := range rows {
		rows[i] = Tightening{Crosswise: i%2 == 1, Side: side[i] * mm, Nod: nod[i] * mm}
	}
	return rows
}

// TrueShift is the made-up truth behind a way of tightening, as rise over run:
// tested against, never shown as known.
type TrueShift struct {
	SideMean, SideScatter, NodMean, NodScatter float64
}

// TrueShifts returns the truth for bolts tightened round the ring and crosswise.
func TrueShifts() (round, crosswise TrueShift) {
	const urad = 1e-6
	return TrueShift{46 * urad, 14 * urad, -70 * urad, 20 * urad}, TrueShift{12 * urad, 8 * urad, -28 * urad, 10 * urad}
}
