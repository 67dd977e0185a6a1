// Package holelands is the lesson "Where does the hole land?": the whole machine
// as four bodies on one another with twenty-one errors, and what they do to a
// drilled pattern, a milled wall and a bore.
package holelands

import (
	"fmt"
	"math"
	"sort"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// The sides to which a wall may face, with their azimuths.
const (
	right = "to the right"
	back  = "to the back"
	left  = "to the left"
	front = "to the front"
)

func sides() map[string]unit.Angle {
	return map[string]unit.Angle{right: 0 * squaring.Degree, back: 90 * squaring.Degree, left: 180 * squaring.Degree, front: 270 * squaring.Degree}
}

// Hole is where a hole is wanted, from the table's middle.
type Hole struct{ U, V unit.Length }

// Station is what the table does at one place of its travel.
type Station struct {
	Travel, Height, Sideways unit.Length
	Along, Across            squaring.Slope
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Holes        []Hole
	Work, Depth  unit.Length
	Quill        unit.Length
	Longer       unit.Length
	Zone         unit.Length
	Bore         unit.Length
	Wall         unit.Length
	Faces        string
	ShownX       squaring.Slope
	ShownY       squaring.Slope
	ShownU       squaring.Slope
	KneeX, KneeY squaring.Slope
	KneeU        squaring.Slope
	Skew, SkewU  squaring.Slope
	ScaleX       squaring.Slope
	ScaleY       squaring.Slope
	Ways         []Station
}

// Defaults returns the action shop's machine as its survey tells it, its head as
// found, and the four holes of its pattern moved to where the vise stands.
func Defaults() Inputs {
	in := Inputs{Work: 60 * mm, Depth: 60 * mm, Quill: 20 * mm, Longer: 70 * mm, Zone: 0.05 * mm, Bore: 40 * mm, Wall: 50 * mm, Faces: right,
		ShownX: -238 * squaring.Microradian, ShownY: -238 * squaring.Microradian, ShownU: 12 * squaring.Microradian,
		KneeX: 28 * squaring.Microradian, KneeY: -50 * squaring.Microradian, KneeU: 6 * squaring.Microradian,
		Skew: 35 * squaring.Microradian, SkewU: 7 * squaring.Microradian, ScaleX: 30 * squaring.Microradian, ScaleY: -10 * squaring.Microradian}
	for _, h := range [][2]float64{{-150, -80}, {150, -80}, {150, 80}, {-150, 80}, {0, 0}} {
		in.Holes = append(in.Holes, Hole{unit.Length(h[0]) * mm, unit.Length(h[1]) * mm})
	}
	for _, s := range [][4]float64{{-360, 18.7, 60, -56}, {-240, 11.7, 68, -40}, {-120, 3.6, 56, -20}, {0, 0, 0, 0}, {120, 3.6, -77, -7}, {240, 8.1, -128, -22}, {360, 13.9, -128, -30}} {
		in.Ways = append(in.Ways, Station{Travel: unit.Length(s[0]) * mm, Height: unit.Length(s[1]) * um, Along: squaring.Slope(s[2]) * squaring.Microradian, Across: squaring.Slope(s[3]) * squaring.Microradian})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	slopes := []notebook.Unit{notebook.MicrometrePerMetre, notebook.MillimetrePer300, notebook.ThouPerFoot}
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Millimetre, notebook.Thou}
	measure := func(name, label, help string, units []notebook.Unit, limits notebook.Limits, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: units, Limits: limits})
	}
	tilt := func(name, label, help string, limits notebook.Limits, p *squaring.Slope) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: slopes, Limits: limits})
	}
	either := notebook.Between(-10e-3, 10e-3)
	fields := []notebook.Field{
		notebook.Rows("holes", &in.Holes, notebook.Spec{Label: "Holes wanted", Help: "From the table's middle. The first is the one that the others are counted from.", MinRows: 2, MaxRows: 30},
			func(h *Hole) []notebook.Field {
				return []notebook.Field{
					measure("u", "To the right", "Of the table's middle.", lengths, notebook.Between(-1500*mm, 1500*mm), &h.U),
					measure("v", "To the back", "Of the table's middle.", lengths, notebook.Between(-1000*mm, 1000*mm), &h.V),
				}
			}),
		measure("work", "Top of the work above the table", "Vise and parallels included.", lengths, notebook.Between(0*mm, 600*mm), &in.Work),
		measure("depth", "Depth of the holes", "From the top down.", lengths, notebook.Between(0*mm, 300*mm), &in.Depth),
		measure("zone", "A hole may lie anywhere in a circle of", "The diameter of the position zone.", fine, notebook.AboveUpTo(0*mm, 5*mm), &in.Zone),
	}
	fields = append(fields, notebook.Grouped("Tools, wall and bore",
		measure("quill", "Quill out at the top of the hole", "At the first tool.", lengths, notebook.Between(0*mm, 300*mm), &in.Quill),
		measure("longer", "The second tool is longer by", "So the knee goes down as much between the two.", lengths, notebook.Between(0*mm, 300*mm), &in.Longer),
		measure("bore", "Diameter of a bored hole", "For the bore gauge.", lengths, notebook.Between(0*mm, 500*mm), &in.Bore),
		measure("wall", "Depth of a wall milled with the side of the cutter", "For the square.", lengths, notebook.Between(0*mm, 300*mm), &in.Wall),
		notebook.Choice("faces", &in.Faces, notebook.Spec{Label: "The wall faces", Help: "Away from the metal.", Options: []string{right, back, left, front}}),
	)...)
	return append(fields, notebook.Grouped("The machine",
		tilt("shown-x", "A sweep shows, side to side", "Table in the middle: table less spindle, right high is plus.", either, &in.ShownX),
		tilt("shown-y", "A sweep shows, front to back", "Back high is plus.", either, &in.ShownY),
		tilt("shown-u", "Standard uncertainty of each", "From the sweep.", notebook.Between(0, 1e-3), &in.ShownU),
		tilt("knee-x", "The knee leans to the right as it rises by", "From the square turned round.", either, &in.KneeX),
		tilt("knee-y", "The knee leans to the back as it rises by", "From the square turned round.", either, &in.KneeY),
		tilt("knee-u", "Standard uncertainty of each", "From the same.", notebook.Between(0, 1e-3), &in.KneeU),
		tilt("skew", "Travels out of square by", "From two diagonals: plus when a hole moved to the back drifts to the left.", either, &in.Skew),
		tilt("skew-u", "Standard uncertainty of it", "From the same.", notebook.Between(0, 1e-3), &in.SkewU),
		tilt("scale-x", "The table goes too far by", "For each length asked, from gauge blocks on the table; plus when it goes too far.", either, &in.ScaleX),
		tilt("scale-y", "The saddle goes too far by", "The same way.", either, &in.ScaleY),
		notebook.Rows("ways", &in.Ways, notebook.Spec{Label: "The table along its travel", Help: "From a survey, counted from the middle. Between two places it is taken as straight.", MinRows: 2, MaxRows: 60},
			func(s *Station) []notebook.Field {
				return []notebook.Field{
					measure("travel", "Travel X", "Plus when the table has moved right.", lengths, notebook.Between(-1500*mm, 1500*mm), &s.Travel),
					measure("height", "Height", "Of the table's plane under the spindle.", fine, notebook.Between(-5*mm, 5*mm), &s.Height),
					tilt("along", "Slope along", "Plus when its right end is high.", either, &s.Along),
					tilt("across", "Slope across", "Plus when its back is high.", either, &s.Across),
					measure("sideways", "Sideways", "How far it has moved to the back; nought if nobody measured it.", fine, notebook.Between(-5*mm, 5*mm), &s.Sideways),
				}
			}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "holelands",
		Title:    "Where does the hole land?",
		Question: "Ways, knee, travels and head are each out a little. Where do my holes land, and which error is to blame?",
		Asked:    "My holes are out of place",
		Track:    notebook.Deciding,
		Summary: "Table on saddle on knee, and a spindle beside them: four bodies and twenty-one errors. Together they say where each hole of a pattern lands, " +
			"how a second tool misses it, and what a square and a bore gauge will show.",
		Minutes: 12,
		After:   []string{"square", "diagonals", "survey"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// machine builds the machine from what is known of it.
func (in Inputs) machine() (squaring.Machine, error) {
	list := append([]Station(nil), in.Ways...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Travel < list[j].Travel })
	for i := 1; i < len(list); i++ {
		if list[i].Travel == list[i-1].Travel {
			return squaring.Machine{}, notebook.InField("ways", fmt.Errorf("the travel %.4g mm stands there twice", float64(list[i].Travel/mm)))
		}
	}
	ways := func(x unit.Length) (unit.Length, float64, float64, unit.Length, unit.Angle) {
		i := sort.Search(len(list)-1, func(i int) bool { return list[i].Travel >= x })
		i = min(max(i, 1), len(list)-1)
		a, b := list[i-1], list[i]
		t := math.Max(0, math.Min(1, float64((x-a.Travel)/(b.Travel-a.Travel))))
		mix := func(p, q float64) float64 { return p + t*(q-p) }
		return unit.Length(mix(float64(a.Height), float64(b.Height))), mix(float64(a.Along), float64(b.Along)), mix(float64(a.Across), float64(b.Across)),
			unit.Length(mix(float64(a.Sideways), float64(b.Sideways))), 0
	}
	table := squaring.MotionFromWays(ways)
	_, alongX, acrossX, _, _ := ways(0)
	return squaring.Machine{
		X: func(travel unit.Length) (squaring.AxisErrors, squaring.AxisErrors) {
			e, u := table(travel)
			e.EX = travel * unit.Length(in.ScaleX)
			return e, u
		},
		Y: func(travel unit.Length) (squaring.AxisErrors, squaring.AxisErrors) {
			return squaring.AxisErrors{EY: travel * unit.Length(in.ScaleY)}, squaring.AxisErrors{}
		},
		C0Y: unit.Angle(in.Skew), C0YU: unit.Angle(in.SkewU),
		B0Z: unit.Angle(in.KneeX), B0ZU: unit.Angle(in.KneeU), A0Z: unit.Angle(-in.KneeY), A0ZU: unit.Angle(in.KneeU),
		Tilt:  squaring.Gradient{X: squaring.Slope(alongX) - in.ShownX, Y: squaring.Slope(acrossX) - in.ShownY},
		TiltU: squaring.Gradient{X: in.ShownU, Y: in.ShownU},
	}, nil
}

// position returns where the slides stand with the tool over a hole, the quill
// out so far and the tool's tip so far above the table.
func position(h Hole, tip, quill unit.Length) squaring.Position {
	return squaring.Position{X: -h.U, Y: -h.V, Z: -tip - quill, Quill: quill}
}

// landed is what becomes of one hole.
type landed struct {
	hole Hole
	// off is where its top lands less where it is wanted, and u the standard
	// uncertainty of each part.
	off, u squaring.Vector
	// lean is how far its bottom lies from under its top, by the quill; second
	// how far a longer tool misses the first.
	lean, second squaring.Vector
}

// land works out every hole.
func (in Inputs) land(m squaring.Machine) ([]landed, error) {
	var all []landed
	for i, h := range in.Holes {
		tip := func(height, quill unit.Length) (squaring.Vector, error) {
			at := position(h, height, quill)
			point, err := m.ToolInWork(at)
			return point.Minus(at.AtTool()), err
		}
		l := landed{hole: h}
		var err error
		if l.off, err = tip(in.Work, in.Quill); err != nil {
			return nil, notebook.InRow("holes", i+1, "u", err)
		}
		deviation, err := m.Deviation(position(h, in.Work, in.Quill))
		if err != nil {
			return nil, notebook.InRow("holes", i+1, "u", err)
		}
		l.u = deviation.U
		// By the quill the knee stays: it comes out by the depth.
		bottom := position(h, in.Work, in.Quill)
		bottom.Quill += in.Depth
		point, err := m.ToolInWork(bottom)
		if err != nil {
			return nil, notebook.InRow("holes", i+1, "u", err)
		}
		l.lean = point.Minus(bottom.AtTool()).Minus(l.off)
		longer, err := tip(in.Work, in.Quill+in.Longer)
		if err != nil {
			return nil, notebook.InRow("holes", i+1, "u", err)
		}
		l.second = longer.Minus(l.off)
		all = append(all, l)
	}
	return all, nil
}

// worked is the machine and its holes.
type worked struct {
	machine squaring.Machine
	holes   []landed
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	m, err := in.machine()
	if err != nil {
		return nil, err
	}
	w := worked{machine: m}
	if w.holes, err = in.land(m); err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{setUpItems, holeItems, blameItems, gaugeItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
