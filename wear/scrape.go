package wear

// To make two worn ways straight again by taking metal off, a plane is laid under
// both that touches the lowest places and leaves the least to scrape. A plane
// under all points that takes off least is the one that stands highest at their
// centroid. For a given slope across, the two ways are one row of points, and the
// highest line under them at the centroid is their lower hull there; that height
// is a concave function of the slope across, whose top a golden section finds.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// ScrapeOptions says how a way is scraped.
type ScrapeOptions struct {
	// Light and Heavy are the least and the most that one pass takes off: about 2
	// to 10 um by hand (common practice; L. N. Lopez de Lacalle and A. Lamikiz,
	// Machine Tools for High Performance Machining, 2009, p. 25, has 1 to 3).
	Light, Heavy unit.Length
	// Level keeps the plane level across: set it when what stands on the ways
	// must not tip.
	Level bool
}

// ScrapePlan is what to take off two ways.
type ScrapePlan struct {
	// Places are those of the ways; Front and Rear what to take off there.
	Places, Front, Rear []unit.Length
	// FrontPasses and RearPasses are how many heavy passes each place needs; the
	// last of them is a light one where the depth says so.
	FrontPasses, RearPasses []int
	// Most is the deepest cut, at MostAt on the front way or, if MostRear, the
	// rear.
	Most, MostAt unit.Length
	MostRear     bool
	// Volume is what is taken off in all, for ways of the width given.
	Volume unit.Volume
	// Passes is the number of passes over the deepest place: from all heavy to
	// all light.
	FewestPasses, MostPasses int
	// Sinks is how far the middle of the surface comes down against the highest
	// place as it is now; Along and Across are the slopes of the new plane against
	// the old unworn surface.
	Sinks         unit.Length
	Along, Across Slope
}

// PlanScraping returns what to scrape off two worn ways of the given width to
// bring both into one plane with the least metal taken off. Where several planes
// take off as little, it is the one that leans least along the ways against the
// surface as new, so that the alignment is kept as far as that costs nothing.
//
// The depths are taken as they stand: where they are uncertain by u, so is every
// depth to take off. Spot with blue between the passes and let the marks, not the
// plan, say when to stop.
//
// It returns an error for ways that are not whole, more than 500 places, a width
// that is not above zero, or passes that are not above zero and in order.
func PlanScraping(ways WornWays, width unit.Length, options ScrapeOptions) (ScrapePlan, error) {
	if err := ways.check(); err != nil {
		return ScrapePlan{}, err
	}
	if len(ways.Places) > 500 {
		return ScrapePlan{}, fmt.Errorf("wear: scraping plan for %d places; it must be at most 500", len(ways.Places))
	}
	if !(width > 0) || !finite(float64(width)) || !(options.Light > 0) || !(options.Heavy >= options.Light) || !finite(float64(options.Heavy)) {
		return ScrapePlan{}, fmt.Errorf("wear: scraping ways %.6g mm wide by %.6g to %.6g um a pass; all must be above zero and the heavy pass the heavier", float64(width)*1e3, float64(options.Light)*1e6, float64(options.Heavy)*1e6)
	}
	weights := shares(ways.Places)
	middle := 0.0
	for i, u := range ways.Places {
		middle += weights[i] * float64(u)
	}
	across := 0.0
	if !options.Level {
		across = bestAcross(ways, middle)
	}
	height, along := ways.under(middle, across)
	plan := ScrapePlan{Places: append([]unit.Length(nil), ways.Places...), Along: Slope(along), Across: Slope(across)}
	length := float64(ways.Places[len(ways.Places)-1] - ways.Places[0])
	highest := math.Inf(-1)
	for i, u := range ways.Places {
		for k, depth := range []unit.Length{ways.Front[i], ways.Rear[i]} {
			y := float64(ways.Apart) * (float64(k) - 0.5)
			off := math.Max(-float64(depth)-(height+along*(float64(u)-middle)+across*y), 0)
			highest = math.Max(highest, -float64(depth))
			plan.Volume += unit.Volume(off * weights[i] * length * float64(width))
			plan.take(unit.Length(off), k == 1, u, options.Heavy)
		}
	}
	plan.Sinks = unit.Length(highest - height)
	plan.FewestPasses, plan.MostPasses = passes(plan.Most, options.Heavy), passes(plan.Most, options.Light)
	return plan, nil
}

// take notes the depth to take off at a place.
func (p *ScrapePlan) take(off unit.Length, rear bool, at, pass unit.Length) {
	if rear {
		p.Rear, p.RearPasses = append(p.Rear, off), append(p.RearPasses, passes(off, pass))
	} else {
		p.Front, p.FrontPasses = append(p.Front, off), append(p.FrontPasses, passes(off, pass))
	}
	if off > p.Most {
		p.Most, p.MostAt, p.MostRear = off, at, rear
	}
}

// passes returns how many passes a depth takes; a thousandth of a pass is not
// worth one.
func passes(depth, pass unit.Length) int { return int(math.Ceil(float64(depth/pass) - 1e-3)) }

// shares returns the share of the length that each place stands for.
func shares(places []unit.Length) []float64 {
	n := len(places)
	w := make([]float64, n)
	for i := 1; i < n; i++ {
		half := float64(places[i]-places[i-1]) / 2 / float64(places[n-1]-places[0])
		w[i-1], w[i] = w[i-1]+half, w[i]+half
	}
	return w
}

// under returns the highest line under both ways, for a slope across: its height
// at the middle and its slope along.
func (w WornWays) under(middle, across float64) (height, along float64) {
	low := make([]float64, len(w.Places)) // the lower of the two ways, the slope across taken off
	for i := range low {
		shift := across * float64(w.Apart) / 2
		low[i] = math.Min(-float64(w.Front[i])+shift, -float64(w.Rear[i])-shift)
	}
	height = math.Inf(1)
	for i, a := range w.Places {
		for j, b := range w.Places {
			if float64(a) <= middle && float64(b) > middle {
				height = math.Min(height, low[i]+(low[j]-low[i])*(middle-float64(a))/float64(b-a))
			}
		}
	}
	// The slopes that keep the line under the places to the left and the right:
	// one slope, unless it can turn about a place at the middle; then the one that
	// leans least against the surface as new.
	least, most := math.Inf(-1), math.Inf(1)
	for i, u := range w.Places {
		if run := float64(u) - middle; run < 0 {
			least = math.Max(least, (low[i]-height)/run)
		} else if run > 0 {
			most = math.Min(most, (low[i]-height)/run)
		}
	}
	return height, math.Min(math.Max(least, 0), most)
}

// bestAcross returns the slope across at which the plane stands highest.
func bestAcross(w WornWays, middle float64) float64 {
	most := 0.0
	for i := range w.Places {
		most = math.Max(most, math.Max(math.Abs(float64(w.Front[i])), math.Abs(float64(w.Rear[i]))))
	}
	reach := 2 * most / float64(w.Apart)
	if reach == 0 {
		return 0
	}
	// goldenSection works to a thousandth of a unit: the slope in parts of its
	// reach, a million of them.
	const parts = 1e6
	x := goldenSection(func(x float64) float64 {
		height, _ := w.under(middle, x*reach/parts)
		return -height
	}, -parts, parts)
	return x * reach / parts
}

// PointSpacing returns the mean distance between bearing points of a scraped
// face, for a number of them in a square inch: the side of each one's square.
//
// It returns an error for a number that is not above zero.
func PointSpacing(perSquareInch float64) (unit.Length, error) {
	if !(perSquareInch > 0) || !finite(perSquareInch) {
		return 0, fmt.Errorf("wear: %g points in a square inch; it must be above zero", perSquareInch)
	}
	return unit.Length(inch / math.Sqrt(perSquareInch)), nil
}

// PointCount is the bearing of a scraped face, counted in squares.
type PointCount struct {
	// PerSquareInch is the mean density of points, U its standard uncertainty
	// from the scatter of the squares.
	PerSquareInch, U float64
	// Least and Most are the extreme squares, as densities; what a good face
	// needs is that they are alike.
	Least, Most float64
	// Class says in words what such a face is fit for (common practice).
	Class string
}

// CountPoints works the numbers of points that were counted in squares of one
// side length, laid here and there on a face.
//
// It returns an error for fewer than two squares, a negative count, or a side
// that is not above zero.
func CountPoints(counts []int, side unit.Length) (PointCount, error) {
	if len(counts) < 2 || !(side > 0) || !finite(float64(side)) {
		return PointCount{}, fmt.Errorf("wear: %d squares of %.6g mm; at least 2 must be counted and the side be above zero", len(counts), float64(side)*1e3)
	}
	squares := math.Pow(float64(side)/inch, 2)
	c := PointCount{Least: math.Inf(1)}
	n := float64(len(counts))
	for i, k := range counts {
		if k < 0 {
			return PointCount{}, fmt.Errorf("wear: square %d: %d points; a count cannot be negative", i+1, k)
		}
		d := float64(k) / squares
		c.PerSquareInch += d / n
		c.Least, c.Most = math.Min(c.Least, d), math.Max(c.Most, d)
	}
	for _, k := range counts {
		c.U += math.Pow(float64(k)/squares-c.PerSquareInch, 2)
	}
	c.U = math.Sqrt(c.U / (n - 1) / n)
	c.Class = pointClass(c.PerSquareInch)
	return c, nil
}

// pointClass names what a density of points is fit for; common practice.
func pointClass(perSquareInch float64) string {
	switch {
	case perSquareInch < 5:
		return "not yet bearing"
	case perSquareInch < 10:
		return "rough or unimportant faces"
	case perSquareInch < 20:
		return "ordinary ways"
	case perSquareInch < 25:
		return "good ways"
	}
	return "plates and gauges"
}
