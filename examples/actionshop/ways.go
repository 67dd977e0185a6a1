package actionshop

import "gonum.org/v1/gonum/unit"

// WornDepth is the depth of wear of both ways at a place u of the table.
type WornDepth struct{ Place, Front, Rear unit.Length }

// WornDepthU is the standard uncertainty of such a depth.
const WornDepthU = 0.0022 * mm

// FirstWornDepths returns the wear of 2019 as pockets and level together tell it
// (see lesson depthmotion), rounded to a micrometre.
func FirstWornDepths() []WornDepth {
	return wornDepths([]float64{0, 6, 17, 33, 43, 41, 30, 16, 6}, []float64{-3, 2, 10, 22, 30, 29, 20, 9, 1})
}

// WornDepths returns that of 2025.
func WornDepths() []WornDepth {
	return wornDepths([]float64{7, 20, 39, 54, 55, 44, 29, 14, 2}, []float64{2, 10, 23, 35, 36, 27, 18, 11, 4})
}

// wornDepths returns depths in micrometres at the nine places of the surveys.
func wornDepths(front, rear []float64) []WornDepth {
	depths := make([]WornDepth, len(front))
	for i := range depths {
		depths[i] = WornDepth{unit.Length(120*(i-4)) * mm, unit.Length(front[i]) * mm / 1000, unit.Length(rear[i]) * mm / 1000}
	}
	return depths
}
