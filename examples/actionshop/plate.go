package actionshop

// The shop's surface plate: its sides, and the step of the mirror's foot along
// every line.
const (
	PlateLength = 800 * mm
	PlateWidth  = 600 * mm
)

// PlateLine is one line of the plate's survey with an autocollimator: readings
// in arc seconds, each line with its own zero.
type PlateLine struct {
	// From and To name the ends by compass as seen from above, north away from
	// the operator.
	From, To string
	Readings []float64
}

// PlateReadingU is the standard uncertainty of one reading, in arc seconds.
const PlateReadingU = 0.1

// Plate returns the readings along the eight lines: two diagonals, four sides,
// two through the middle.
func Plate() []PlateLine {
	return []PlateLine{
		{"SW", "NE", []float64{18.5, 17.8, 17.1, 16.8, 17.5, 19.7, 21.6, 21.6, 20.8, 20.0}},
		{"NW", "SE", []float64{14.4, 13.8, 13.3, 13.0, 12.8, 13.3, 16.0, 18.1, 17.9, 16.2}},
		{"SW", "SE", []float64{15.7, 15.4, 15.6, 16.6, 18.1, 20.4, 21.4, 20.8}},
		{"NW", "NE", []float64{6.7, 6.4, 6.8, 8.1, 10.0, 11.1, 11.7, 11.4}},
		{"SW", "NW", []float64{16.8, 16.1, 15.5, 14.7, 14.2, 13.6}},
		{"SE", "NE", []float64{10.3, 10.0, 9.6, 9.0, 8.6, 7.6}},
		{"W", "E", []float64{6.9, 6.3, 6.0, 6.7, 8.7, 11.9, 13.6, 12.5}},
		{"S", "N", []float64{8.3, 8.1, 9.1, 9.1, 8.1, 6.8}},
	}
}

// PlateGrid returns the plate's nine places, three by three, walked with an
// electronic level on a bridge: slopes in um/m along the three rows, front first,
// and across the three columns, left first. They were made from the heights of
// those places by the eight lines, with errors of one standard uncertainty of 1
// um/m, and rounded to that.
func PlateGrid() (along, across [3][2]float64) {
	return [3][2]float64{{-12, 10}, {-12, 14}, {-11, 10}}, [3][2]float64{{3, -6}, {2, -2}, {5, -5}}
}
