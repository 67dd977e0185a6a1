package wear

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"
)

// The readings of the action shop's level (tables D6) and the pose of the table
// behind them (table T2), against which the answers are held.

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// levelRow is one row of D6: travel X in mm, readings in divisions of 20 um/m.
type levelRow struct {
	travel                     float64
	alongNormal, alongTurned   float64
	acrossNormal, acrossTurned float64
}

var level2019 = []levelRow{
	{-360, 11.5, -8.5, 0.5, 3.0},
	{-240, 12.0, -8.5, 1.0, 2.5},
	{-120, 10.0, -6.5, 1.0, 2.0},
	{0, 6.5, -3.0, 1.0, 2.5},
	{120, 4.0, 0.0, 0.5, 2.5},
	{240, 3.5, 0.0, 0.5, 3.0},
	{360, 4.5, -1.5, -0.5, 3.5},
}

var level2025 = []levelRow{
	{-360, 11.5, -13.5, -4.0, 1.5},
	{-240, 11.5, -14.0, -3.0, 1.0},
	{-120, 11.0, -13.5, -2.0, 0.0},
	{0, 8.5, -10.5, -1.0, -1.0},
	{120, 4.5, -6.5, -1.5, -1.0},
	{240, 2.0, -4.0, -2.0, 0.0},
	{360, 2.0, -4.0, -2.5, 0.5},
}

// stations returns the stations of one date, along x or across y, at u = -X.
func stations(rows []levelRow, along bool) []LevelStation {
	s := make([]LevelStation, len(rows))
	for i, r := range rows {
		s[i] = LevelStation{Position: unit.Length(-r.travel) * mm, Normal: r.alongNormal, Turned: r.alongTurned}
		if !along {
			s[i].Normal, s[i].Turned = r.acrossNormal, r.acrossTurned
		}
	}
	return s
}

var shopLevel = LevelOptions{Division: 20 * MicrometrePerMetre}

// poseRow is one row of T2: travel in mm, heights in um, slopes in um/m.
type poseRow struct {
	travel                 float64
	height, along, across  float64
	height2, along2, acro2 float64
}

// pose holds T2: 2019 first, then 2025.
var pose = []poseRow{
	{-360, -16.1, 77.3, 29.4, -16.4, 79.1, 30.8},
	{-240, -22.3, 83.4, 40.7, -24.4, 95.1, 49.7},
	{-120, -25.5, 44.6, 46.4, -31.8, 79.6, 73.6},
	{0, -25.8, -23.2, 47.2, -35.3, 25.6, 87.7},
	{120, -23.7, -75.6, 43.3, -32.1, -52.2, 79.3},
	{240, -18.4, -83.5, 33.6, -26.9, -107.0, 69.7},
	{360, -11.2, -57.9, 20.5, -20.7, -106.7, 61.0},
}

// The lean of the machine to gravity, in um/m: along and across, by date.
const (
	lean2019Along, lean2019Across = 120, -60
	lean2025Along, lean2025Across = 165, -85
)

var unitNaN = unit.Length(math.NaN())

// newNormal returns a source of normal numbers with a fixed seed.
func newNormal(seed uint64) func() float64 {
	return rand.New(rand.NewPCG(seed, 7)).NormFloat64
}
