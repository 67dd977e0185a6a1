// Package threeplates is the lesson "Straight from nothing": three straightedges
// that tell one another's errors, and two and three probes that need no master.
package threeplates

import (
	"fmt"
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Gap is what two edges at a time show at one place.
type Gap struct{ Place, AB, AC, BC unit.Length }

// Probe is what the probes and the level on their carriage show at one place.
type Probe struct {
	A, B, C unit.Length
	Tilt    wear.Slope
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Gaps []Gap
	// GapU is the standard uncertainty of one gap.
	GapU unit.Length
	// Probed are the rows of the carriage along edge B, Pitch apart.
	Probed []Probe
	Pitch  unit.Length
	// ProbeU is that of one probe's reading, ZeroU that of how far the three zeros
	// are from one line, TiltU that of the carriage's tilt.
	ProbeU, ZeroU unit.Length
	TiltU         wear.Slope
}

// Defaults returns the action shop's three straightedges.
func Defaults() Inputs {
	in := Inputs{GapU: actionshop.EdgeGapU, Pitch: actionshop.ProbePitch, ProbeU: actionshop.ProbeU, ZeroU: 0.4 * um, TiltU: actionshop.ProbeTiltU}
	for _, g := range actionshop.ThreeEdges() {
		in.Gaps = append(in.Gaps, Gap(g))
	}
	for _, p := range actionshop.ThreeProbes() {
		in.Probed = append(in.Probed, Probe{p.A, p.B, p.C, wear.Slope(p.Tilt)})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre, notebook.InchUnit}
	reading := notebook.Between(-2000*um, 2000*um)
	little := notebook.Between(0*um, 100*um)
	measure := func(name string, p *unit.Length, label, help string) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: fine, Limits: reading})
	}
	fields := []notebook.Field{
		notebook.Rows("gaps", &in.Gaps, notebook.Spec{Label: "Gaps, two at a time", Help: "Places in order. Plus where the edges stand out toward one another, above the line through the ends.", MinRows: 3, MaxRows: 100}, func(g *Gap) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("place", &g.Place, notebook.Spec{Label: "Place", Help: "From the marked end.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
				measure("ab", &g.AB, "A on B", "Sum of both edges."), measure("ac", &g.AC, "A on C", "Sum of both edges."), measure("bc", &g.BC, "B on C", "Sum of both edges."),
			}
		}),
		notebook.Measure("gap-u", &in.GapU, notebook.Spec{Label: "One gap is sure to", Help: "Standard uncertainty: rounding and repeat.", Units: fine, Limits: little}),
		notebook.Rows("probed", &in.Probed, notebook.Spec{Label: "Probes along edge B", Help: "One row a step of one pitch. Plus: stem pushed in. Tilt by a level on the carriage: plus when the end of C is high.", MinRows: 2, MaxRows: 100}, func(p *Probe) []notebook.Field {
			return []notebook.Field{
				measure("a", &p.A, "Probe A", "The one behind."), measure("b", &p.B, "Probe B", "The one in the middle."), measure("c", &p.C, "Probe C", "The one ahead."),
				notebook.Measure("tilt", &p.Tilt, notebook.Spec{Label: "Tilt", Help: "Of the carriage.", Units: []notebook.Unit{notebook.MicrometrePerMetre, notebook.ThouPerFoot, notebook.ArcSecond}, Limits: notebook.Between(wear.Slope(-0.01), wear.Slope(0.01))}),
			}
		}),
		notebook.Measure("pitch", &in.Pitch, notebook.Spec{Label: "Pitch of the probes", Help: "From one to the next, and the step of the carriage.", Units: lengths, Limits: notebook.Between(1*mm, 2000*mm)}),
	}
	return append(fields, notebook.Grouped("How sure the probes are",
		notebook.Measure("probe-u", &in.ProbeU, notebook.Spec{Label: "One probe reading", Help: "Standard uncertainty.", Units: fine, Limits: little}),
		notebook.Measure("zero-u", &in.ZeroU, notebook.Spec{Label: "Zeros in one line to", Help: "Set on a face that is straight to this: A − 2B + C of the zeros.", Units: fine, Limits: little}),
		notebook.Measure("tilt-u", &in.TiltU, notebook.Spec{Label: "One tilt", Help: "Standard uncertainty; large if the level was not read.", Units: []notebook.Unit{notebook.MicrometrePerMetre, notebook.ThouPerFoot, notebook.ArcSecond}, Limits: notebook.Between(wear.Slope(0), wear.Slope(0.01))}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "threeplates",
		Title:    "Straight from nothing",
		Question: "I have no master. How do I know which of my straightedges is straight?",
		Asked:    "I have no true straightedge",
		Track:    notebook.Ways,
		Summary:  "Three edges compared two at a time give each one's own error, with no master at all. Probes on a carriage do the same for a way, and each method has one thing it cannot see.",
		Minutes:  13,
		After:    []string{"groundbar"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is the readings, worked.
type result struct {
	in                 Inputs
	edges              [3]wear.Profile // A, B, C above the lines through their ends
	zones              [3]wear.Straightness
	two, three         wear.Profile
	twoZone, threeZone wear.Straightness
}

var names = [3]string{"A", "B", "C"}

func work(in Inputs) (result, error) {
	r := result{in: in}
	ab, ac, bc := make([]unit.Length, len(in.Gaps)), make([]unit.Length, len(in.Gaps)), make([]unit.Length, len(in.Gaps))
	for i, g := range in.Gaps {
		if i > 0 && !(g.Place > in.Gaps[i-1].Place) {
			return r, notebook.InRow("gaps", i+1, "place", fmt.Errorf("the place %g mm does not lie beyond the one before, %g mm", float64(g.Place/mm), float64(in.Gaps[i-1].Place/mm)))
		}
		ab[i], ac[i], bc[i] = g.AB, g.AC, g.BC
	}
	a, b, c, u, err := wear.ThreePlates(ab, ac, bc, in.GapU)
	if err != nil {
		return r, notebook.InField("gaps", err)
	}
	for k, heights := range [3][]unit.Length{a, b, c} {
		if r.edges[k], r.zones[k], err = judge(r.profile(heights, u)); err != nil {
			return r, notebook.InField("gaps", err)
		}
	}
	if err := r.probe(); err != nil {
		return r, notebook.InField("probed", err)
	}
	return r, nil
}

// profile puts heights at the places of the gaps.
func (r result) profile(heights []unit.Length, u unit.Length) wear.Profile {
	p := wear.Profile{Covariance: mat.NewSymDense(len(heights), nil)}
	for i, h := range heights {
		p.Points = append(p.Points, wear.Point{Position: r.in.Gaps[i].Place, Height: h})
		p.Covariance.SetSym(i, i, float64(u*u))
	}
	return p
}

// judge takes the line through the ends off a profile and measures it.
func judge(p wear.Profile) (wear.Profile, wear.Straightness, error) {
	less, _, err := p.Less(wear.EndPoints)
	if err != nil {
		return less, wear.Straightness{}, err
	}
	zone, err := less.Straightness(wear.MinimumZone)
	return less, zone, err
}

// probe works the rows of the carriage by three probes and by two with the level.
// The last row's B and C are one more pair.
func (r *result) probe() error {
	rows := make([]wear.ProbeReading, len(r.in.Probed))
	pairs := make([]wear.ProbePair, len(rows))
	for i, p := range r.in.Probed {
		rows[i], pairs[i] = wear.ProbeReading{A: p.A, B: p.B, C: p.C}, wear.ProbePair{A: p.A, B: p.B, Tilt: p.Tilt}
	}
	last := r.in.Probed[len(rows)-1]
	pairs = append(pairs, wear.ProbePair{A: last.B, B: last.C, Tilt: last.Tilt})
	three, err := wear.ThreeProbes(r.in.Pitch, rows, r.in.ProbeU, r.in.ZeroU)
	if err != nil {
		return err
	}
	if r.three, r.threeZone, err = judge(three); err != nil {
		return err
	}
	two, err := wear.TwoProbes(r.in.Pitch, pairs, r.in.ProbeU, r.in.TiltU)
	if err != nil {
		return err
	}
	r.two, r.twoZone, err = judge(two)
	return err
}

// farthest returns the largest departure of a profile from the line through its
// ends, with its sign.
func farthest(p wear.Profile) (height, u, at unit.Length) {
	at, u = p.Points[len(p.Points)/2].Position, p.U(len(p.Points)/2)
	for i, q := range p.Points {
		if math.Abs(float64(q.Height)) > math.Abs(float64(height)) {
			height, u, at = q.Height, p.U(i), q.Position
		}
	}
	return height, u, at
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	if len(in.Gaps) < 3 || len(in.Probed) < 1 {
		return nil, notebook.InField("gaps", fmt.Errorf("there are gaps at %d places and %d rows of the probes; at least 3 and 1 are needed", len(in.Gaps), len(in.Probed)))
	}
	r, err := work(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{setUp, r.edgeItems, r.probeItems, r.wrongItems, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
