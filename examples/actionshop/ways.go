package actionshop

import "gonum.org/v1/gonum/unit"

// WornDepth is the depth of wear of both ways at a place u of the table.
type WornDepth struct{ Place, Front, Rear unit.Length }

// WornDepthU is the standard uncertainty of such a depth.
const WornDepthU = 0.0022 * mm

// WornDepths returns the wear of 2025 as pockets and level together tell it (see
// lesson depthmotion), rounded to a micrometre.
func WornDepths() []WornDepth {
	front := []float64{7, 20, 39, 54, 55, 44, 29, 14, 2}
	rear := []float64{2, 10, 23, 35, 36, 27, 18, 11, 4}
	depths := make([]WornDepth, len(front))
	for i := range depths {
		depths[i] = WornDepth{unit.Length(120*(i-4)) * mm, unit.Length(front[i]) * mm / 1000, unit.Length(rear[i]) * mm / 1000}
	}
	return depths
}
