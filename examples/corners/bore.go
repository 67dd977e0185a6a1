package corners

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
)

// sleeve is a sleeve in a large bath, solved on rings.
type sleeve struct {
	in Inputs
	// depth is the distance from the mouth, share the current density there as a
	// share of the mean on the outside.
	depth, share []float64
	// bore is the mean in the bore, as the same share.
	bore float64
	// change is that of the thinnest place on twice as fine a mesh.
	change float64
}

// deepest is how many diameters deep a bore may be. Without kinetics the current
// dies away as exp(-2.405 x/r), and with them it goes a few times as deep: at 10
// diameters it is below the solver's own noise, a millionth.
const deepest = 10

// solveSleeve solves half a sleeve above its middle plane, a mirror, with the
// anodes far away, so that the mean on the outside is about the one asked for.
func (in Inputs) solveSleeve() (sleeve, error) {
	inside, outside, half := in.Inside/2, in.Outside/2, in.Length/2
	wall := outside - inside
	if !(wall >= 0.2*mm) {
		return sleeve{}, fmt.Errorf("plating: a bore of %.4g mm in %.4g mm outside leaves a wall of %.4g mm, must be 0.2 mm or more",
			float64(in.Inside/mm), float64(in.Outside/mm), float64(wall/mm))
	}
	if half > deepest*inside*2 {
		return sleeve{}, fmt.Errorf("plating: a bore of %.4g mm that is %.4g mm deep from its mouth to its middle is over %d diameters deep: no current is left there to compute, leave it out of the area",
			float64(in.Inside/mm), float64(half/mm), deepest)
	}
	round := min(in.Rounding, wall/4, half/4)
	field, err := plating.NewField(plating.Section{Axisymmetric: true, Mirror: true, Unbounded: true, Outlines: []plating.Outline{
		{Name: "outside", Role: plating.RolePart, Corners: []plating.Corner{
			point(outside, 0), {X: outside, Y: half, Round: round}, point((inside+outside)/2, half)}},
		{Name: "bore", Role: plating.RolePart, Corners: []plating.Corner{
			point((inside+outside)/2, half), {X: inside, Y: half, Round: round}, point(inside, 0)}},
	}}, elements)
	if err != nil {
		return sleeve{}, err
	}
	outer := unit.Area(math.Pi * float64(in.Outside) * float64(half))
	c := in.conditions(in.Mean, 1)
	c.Current = unit.Current(float64(in.Mean) * float64(outer))
	d, err := field.Solve(c)
	if err != nil {
		return sleeve{}, err
	}
	out, _ := d.Profile("outside")
	bore, _ := d.Profile("bore")
	s := sleeve{in: in, change: d.Change.Thinnest}
	sum, area := 0.0, 0.0
	for _, p := range bore.Samples {
		if p.X > inside*(1+1e-9) {
			continue
		}
		s.depth = append(s.depth, float64(half-p.Y))
		// Deep in a narrow bore the solver's noise is all that is left.
		s.share = append(s.share, math.Max(0, float64(p.CurrentDensity/out.Mean)))
		sum += float64(p.CurrentDensity) * float64(p.Area)
		area += float64(p.Area)
	}
	s.bore = sum / area / float64(out.Mean)
	return s, nil
}

// at returns the share at a depth from the mouth.
func (s sleeve) at(depth unit.Length) float64 {
	for i := 1; i < len(s.depth); i++ {
		if a, b := s.depth[i-1], s.depth[i]; float64(depth) <= b || i == len(s.depth)-1 {
			return s.share[i-1] + (float64(depth)-a)/(b-a)*(s.share[i]-s.share[i-1])
		}
	}
	return s.bore
}

// addBore adds the chart of the coat down the bore and what it comes to.
func (a answer) addBore(sheet *notebook.Sheet) error {
	s := a.sleeve
	one := s.at(min(a.in.Inside, a.in.Length/2))
	chart, err := plot.XY{
		Name: "bore", Title: "Down the bore of the sleeve",
		Caption: notebook.Say("The mouth is at the left, the middle of the sleeve at the right. One bore's diameter down, {}, the nickel is {} of that on the outside.",
			size(a.in.Inside), share(one)),
		X:      plot.Axis{Label: "Depth from the mouth", Show: notebook.Lengths, Range: notebook.AtLeast(0.0)},
		Y:      plot.Axis{Label: "Of the mean on the outside", Show: notebook.Percents, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{{Label: "on the bore's wall", Style: plot.Curve, X: s.depth, Y: s.share}},
		Limits: []plot.Limit{{Label: "mean of the bore", Y: s.bore}},
	}.Chart()
	if err != nil {
		return err
	}
	middle := s.share[len(s.share)-1]
	verdict := notebook.Verdict{Name: "bore-verdict", Tone: notebook.Watch, Text: notebook.Say(
		"The bore takes {} of the outside on average, and {} in the middle. Count its area at that share, and do not promise the mean in there.", share(s.bore), share(middle))}
	sheet.Add(chart, notebook.Figure{Name: "bore-mean", Label: "Mean in the bore, of that on the outside", Value: share(s.bore)}, verdict)
	return nil
}
