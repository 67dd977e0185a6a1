package wear

// Scraping or grinding takes metal off, and what slid on it sinks: the nut of the
// screw then stands high in its bracket, the gib and the next way no longer meet.
// A lining on the moving face makes the height good. A hardened or plated face has
// only so much to give.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// GrindOptions says how well a way can be set up and ground.
type GrindOptions struct {
	// DeepestU is the standard uncertainty of the deepest wear, SetUpU that of how
	// far from the planned plane the grinder's comes at the ends of the way.
	DeepestU, SetUpU unit.Length
	// Clean is what the last cuts take below the deepest mark, Cut the depth of
	// one cut.
	Clean, Cut unit.Length
	// Chance is how sure it shall be that no mark stays; zero means 0.95.
	Chance float64
	// Layer is the depth of the hardened or plated layer when new; zero for none.
	Layer unit.Length
}

// GrindPlan is what to grind off.
type GrindPlan struct {
	// Depth is what to take off where the way stands highest, Cuts the number of
	// cuts that makes. It is the deepest cut of the scraping plan, a margin for
	// what is not known, Margin, and the clean-up.
	Depth, Margin unit.Length
	Cuts          int
	// Left is what then remains of the layer at its thinnest; zero or less where
	// it is ground through. Zero too where there was none.
	Left unit.Length
	// Deeper is what grinding takes off beyond scraping to the same plane.
	Deeper unit.Length
}

// PlanGrinding returns how deep to grind ways for which a scraping plan was made.
// A scraper stops where the marks say; a grinder takes one plane and must go below
// the deepest mark wherever that is.
//
// It returns an error for a chance outside 0.5 to 1, a length below zero or a cut
// that is not above zero.
func PlanGrinding(plan ScrapePlan, options GrindOptions) (GrindPlan, error) {
	if options.Chance == 0 {
		options.Chance = 0.95
	}
	if !(options.Chance >= 0.5 && options.Chance < 1) {
		return GrindPlan{}, fmt.Errorf("wear: chance %g of a clean face must be from 0.5 to below 1", options.Chance)
	}
	for _, x := range []unit.Length{options.DeepestU, options.SetUpU, options.Clean, options.Layer, plan.Most} {
		if !(x >= 0) || !finite(float64(x)) {
			return GrindPlan{}, fmt.Errorf("wear: grinding with a depth or uncertainty of %.6g um; it must be zero or more", float64(x)*1e6)
		}
	}
	if !(options.Cut > 0) || !finite(float64(options.Cut)) {
		return GrindPlan{}, fmt.Errorf("wear: cut of %.6g um must be above zero", float64(options.Cut)*1e6)
	}
	g := GrindPlan{Margin: unit.Length(normalQuantile(options.Chance) * math.Hypot(float64(options.DeepestU), float64(options.SetUpU)))}
	g.Deeper = g.Margin + options.Clean
	g.Depth = plan.Most + g.Deeper
	g.Cuts = passes(g.Depth, options.Cut)
	if options.Layer > 0 {
		g.Left = options.Layer - g.Depth
	}
	return g, nil
}

// Lining is a sheet that is glued to a moving face.
type Lining struct {
	// Thickness is that of the sheet, Glue that of the joint, with their standard
	// uncertainties.
	Thickness, ThicknessU, Glue, GlueU unit.Length
	// Proud is what the lined face shall stand too high, to be scraped in.
	Proud unit.Length
}

// LiningFit is how a lining makes good what was taken off.
type LiningFit struct {
	// Mill is what to take off the moving face before the lining goes on; zero
	// where the lining is too thin for that.
	Mill unit.Length
	// Pack is the sheet to put under a lining that is too thin; zero otherwise.
	Pack unit.Length
	// U is the standard uncertainty of the height that comes of it.
	U unit.Length
	// Thinnest is the thinnest sheet that needs no packing.
	Thinnest unit.Length
}

// Fit returns how deep to mill a moving face so that, lined, it stands again at
// the height from which it sank: lining + glue - sunk - proud. sunk counts
// everything: what was worn off, what was scraped or ground off the way, and what
// the moving face itself has lost.
//
// It returns an error for a lining that is not above zero, or a length or
// uncertainty below zero.
func (l Lining) Fit(sunk, sunkU unit.Length) (LiningFit, error) {
	for _, x := range []unit.Length{l.ThicknessU, l.Glue, l.GlueU, l.Proud, sunk, sunkU} {
		if !(x >= 0) || !finite(float64(x)) {
			return LiningFit{}, fmt.Errorf("wear: lining with a length or uncertainty of %.6g mm; it must be zero or more", float64(x)*1e3)
		}
	}
	if !(l.Thickness > 0) || !finite(float64(l.Thickness)) {
		return LiningFit{}, fmt.Errorf("wear: lining %.6g mm thick; it must be above zero", float64(l.Thickness)*1e3)
	}
	mill := l.Thickness + l.Glue - sunk - l.Proud
	return LiningFit{Mill: max(mill, 0), Pack: max(-mill, 0), Thinnest: max(sunk+l.Proud-l.Glue, 0),
		U: unit.Length(math.Hypot(math.Hypot(float64(l.ThicknessU), float64(l.GlueU)), float64(sunkU)))}, nil
}

// ChanceThrough returns the chance that wear of a depth has gone through a coat:
// chrome on a way, or its hardened skin. Below the coat the way wears at another
// rate: a line through depths from both sides of it foretells nothing.
//
// It returns an error for a coat that is not above zero, a depth that is not
// finite, or a negative uncertainty.
func ChanceThrough(depth, depthU, coat, coatU unit.Length) (float64, error) {
	if !(coat > 0) || !finite(float64(coat)) || !finite(float64(depth)) || !(depthU >= 0) || !(coatU >= 0) || !finite(float64(depthU+coatU)) {
		return 0, fmt.Errorf("wear: wear of %.6g um (u %.6g) against a coat of %.6g um (u %.6g); the coat must be above zero and no uncertainty below", float64(depth)*1e6, float64(depthU)*1e6, float64(coat)*1e6, float64(coatU)*1e6)
	}
	return chanceBelowZero(float64(coat-depth), math.Hypot(float64(depthU), float64(coatU)), math.Inf(1)), nil
}

// Twist returns the slope across between two ways at their common places: how the
// table is twisted from one place to the next. A constant is the lean of the
// machine.
//
// It returns an error for profiles of different places or fewer than two, or a
// distance that is not above zero.
func Twist(front, rear Profile, apart unit.Length) ([]SlopePoint, error) {
	if !(apart > 0) || !finite(float64(apart)) {
		return nil, fmt.Errorf("wear: ways %.6g mm apart; it must be above zero", float64(apart)*1e3)
	}
	if len(front.Points) < 2 || len(front.Points) != len(rear.Points) {
		return nil, fmt.Errorf("wear: front way with %d places and rear way with %d; both need the same two or more", len(front.Points), len(rear.Points))
	}
	twist := make([]SlopePoint, len(front.Points))
	for i, f := range front.Points {
		r := rear.Points[i]
		if math.Abs(float64(f.Position-r.Position)) > samePlace {
			return nil, fmt.Errorf("wear: place %d is at %.6g mm in front and %.6g mm at the rear; they must be the same", i+1, float64(f.Position)*1e3, float64(r.Position)*1e3)
		}
		twist[i] = SlopePoint{Position: f.Position, Slope: Slope(float64(r.Height-f.Height) / float64(apart)),
			U: Slope(math.Hypot(float64(front.U(i)), float64(rear.U(i))) / float64(apart))}
		if !finite(float64(twist[i].Slope)) {
			return nil, fmt.Errorf("wear: place %d: heights %g and %g m must be finite", i+1, float64(f.Height), float64(r.Height))
		}
	}
	return twist, nil
}
