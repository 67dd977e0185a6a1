package actionshop

import "gonum.org/v1/gonum/unit"

// ScrewReading is one run to a place of the table's travel from both sides: where
// the table stood less where the handwheel sent it, coming up in the positive
// direction and coming down.
type ScrewReading struct{ Travel, Up, Down unit.Length }

// The table's lead screw and its handwheel.
const (
	ScrewLead     = 5 * mm
	ScrewDivision = 0.02 * mm
	ScrewPitch    = 22.5 * mm
	ScrewNut      = 45 * mm
	ScrewDepth    = 2.5 * mm
)

// ScrewRuns returns five runs at each of five places, read with dial D against
// gauge blocks; zero is the first reading. They were made: lost motion of 42 um
// everywhere and 34 um more in a hump of 130 mm about X = 180 mm, where the vise
// lives, a lead long by 14 um in 480 mm, and a scatter of 3 um.
func ScrewRuns() []ScrewReading {
	const um = mm / 1000
	var runs []ScrewReading
	for _, target := range []struct {
		travel   unit.Length
		up, down [5]float64
	}{
		{-240 * mm, [5]float64{0, 4, 8, 0, 2}, [5]float64{40, 44, 46, 46, 42}},
		{-120 * mm, [5]float64{8, 12, 4, 8, 6}, [5]float64{48, 52, 50, 46, 46}},
		{0 * mm, [5]float64{10, 14, 8, 6, 8}, [5]float64{64, 64, 68, 68, 60}},
		{120 * mm, [5]float64{14, 10, 18, 10, 12}, [5]float64{86, 90, 82, 84, 82}},
		{240 * mm, [5]float64{18, 16, 16, 14, 14}, [5]float64{88, 88, 86, 88, 92}},
	} {
		for i := range target.up {
			runs = append(runs, ScrewReading{target.travel, unit.Length(target.up[i]) * um, unit.Length(target.down[i]) * um})
		}
	}
	return runs
}

// GibReading is the play of the table across its ways at a place of its travel:
// the dial pushed less pulled, three times.
type GibReading struct {
	Travel unit.Length
	Plays  [3]unit.Length
}

// GibPlays returns the play at seven places, read with dial D. They were made:
// 26 um everywhere and 34 um more in a hump of 150 mm about X = 180 mm, and a
// scatter of 2 um.
func GibPlays() []GibReading {
	const um = mm / 1000
	return []GibReading{
		{-360 * mm, [3]unit.Length{26 * um, 26 * um, 26 * um}}, {-240 * mm, [3]unit.Length{26 * um, 28 * um, 28 * um}},
		{-120 * mm, [3]unit.Length{30 * um, 32 * um, 28 * um}}, {0 * mm, [3]unit.Length{44 * um, 44 * um, 44 * um}},
		{120 * mm, [3]unit.Length{58 * um, 58 * um, 62 * um}}, {240 * mm, [3]unit.Length{60 * um, 56 * um, 62 * um}},
		{360 * mm, [3]unit.Length{46 * um, 46 * um, 40 * um}},
	}
}
