// Package facetilt is the lesson "What the tilt does to a face": the hollow, the
// steps and the marks that a leaning spindle leaves, point by point, and the lean
// of a hole made under it.
package facetilt

import (
	"fmt"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Which way the cutter goes over the work.
const (
	right  = "to the right"
	back   = "to the back"
	left   = "to the left"
	toward = "to the front"
)

// feeds lists the ways with their azimuths.
func feeds() map[string]unit.Angle {
	return map[string]unit.Angle{right: 0 * squaring.Degree, back: 90 * squaring.Degree, left: 180 * squaring.Degree, toward: 270 * squaring.Degree}
}

// Inputs is what the lesson asks for.
type Inputs struct {
	TiltX, TiltXU, TiltY, TiltYU squaring.Slope
	Feed                         string
	Cutter, Length, Width        unit.Length
	Passes                       int
	StepOver                     unit.Length
	// Hollow is how far the table's travel sinks in the middle of the face's
	// length, below the line through its ends.
	Hollow unit.Length
	Limit  unit.Length
	Depth  unit.Length
}

// Defaults returns the action shop's head as found in 2025 by its sweep, and a
// face of two passes on ways that sink a little.
func Defaults() Inputs {
	return Inputs{
		TiltX: -238 * squaring.Microradian, TiltXU: 12 * squaring.Microradian, TiltY: -238 * squaring.Microradian, TiltYU: 12 * squaring.Microradian,
		Feed: right, Cutter: 120 * mm, Length: 300 * mm, Width: 140 * mm, Passes: 2, StepOver: 50 * mm,
		Hollow: 3 * um, Limit: 10 * um, Depth: 60 * mm,
	}
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
	fields := []notebook.Field{
		tilt("tilt-x", "Tilt in x", "Table less spindle, from a sweep: plus when the table looks high on the right.", notebook.Between(-10e-3, 10e-3), &in.TiltX),
		tilt("tilt-y", "Tilt in y", "Plus when the table looks high at the back.", notebook.Between(-10e-3, 10e-3), &in.TiltY),
		notebook.Choice("feed", &in.Feed, notebook.Spec{Label: "The cutter goes", Help: "Over the work. It goes to the right when the table is fed to the left.", Options: []string{right, back, left, toward}}),
		measure("cutter", "Diameter of the cutter", "The circle of its edges.", lengths, notebook.Between(2*mm, 500*mm), &in.Cutter),
		measure("length", "Length of the face", "Along the feed.", lengths, notebook.Between(5*mm, 1500*mm), &in.Length),
		measure("width", "Width of the face", "Across the feed.", lengths, notebook.Between(2*mm, 1000*mm), &in.Width),
		notebook.Count("passes", &in.Passes, notebook.Spec{Label: "Passes", Help: "Side by side, the middle of them over the middle of the face.", Limits: notebook.Between(1.0, 50.0)}),
		measure("step-over", "Step from pass to pass", "Not used with one pass.", lengths, notebook.Between(0*mm, 500*mm), &in.StepOver),
	}
	return append(fields, notebook.Grouped("Doubt, ways and limits",
		tilt("tilt-x-u", "Standard uncertainty of the tilt in x", "From the same sweep.", notebook.Between(0, 10e-3), &in.TiltXU),
		tilt("tilt-y-u", "Standard uncertainty of the tilt in y", "From the same sweep.", notebook.Between(0, 10e-3), &in.TiltYU),
		measure("hollow", "The table sinks mid-way by", "Over the length of the face, from a table run; minus when it rises.", fine, notebook.Between(-1*mm, 1*mm), &in.Hollow),
		measure("limit", "Flatness that the drawing allows", "Over the whole face.", fine, notebook.AboveUpTo(0*mm, 1*mm), &in.Limit),
		measure("depth", "Depth of a hole by quill", "Made under the same head.", lengths, notebook.Between(0*mm, 500*mm), &in.Depth),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "facetilt",
		Title:    "What the tilt does to a face",
		Question: "My head leans by so much. How hollow, how stepped and which way marked will this face come out?",
		Asked:    "The face is hollow",
		Track:    notebook.Holding,
		Summary: "A leaning cutter leaves a hollow along its feed and a step across it. The face is worked out point by point, with every pass " +
			"and the table's own travel, and what the same lean does to a hole.",
		Minutes: 12,
		After:   []string{"sweep"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// tilt returns the tilt as the domain takes it.
func (in Inputs) tilt() squaring.Gradient  { return squaring.Gradient{X: in.TiltX, Y: in.TiltY} }
func (in Inputs) tiltU() squaring.Gradient { return squaring.Gradient{X: in.TiltXU, Y: in.TiltYU} }

// tracks returns where the passes lie across the face.
func (in Inputs) tracks() []unit.Length {
	var tracks []unit.Length
	for i := range in.Passes {
		tracks = append(tracks, in.Width/2+in.StepOver*(unit.Length(i)-unit.Length(in.Passes-1)/2))
	}
	return tracks
}

// face returns the face fed toward the azimuth, in so many points.
func (in Inputs) face(feed unit.Angle, columns, rows int) squaring.CutFace {
	half := in.Length / 2
	return squaring.CutFace{Tilt: in.tilt(), Feed: feed, Diameter: in.Cutter, Length: in.Length, Width: in.Width, Tracks: in.tracks(),
		Motion: squaring.FeedMotion{
			// A parabola through the ends of the face, and its slope.
			Height: func(along unit.Length) unit.Length {
				x := (along - half) / half
				return in.Hollow * (x*x - 1)
			},
			Along: func(along unit.Length) squaring.Slope {
				return squaring.Slope(2 * in.Hollow / half * ((along - half) / half))
			},
		}, Columns: columns, Rows: rows}
}

// surface returns what one pass leaves, by the formula.
func (in Inputs) surface(feed unit.Angle) (squaring.FacedSurface, error) {
	width := min(in.Width, in.Cutter)
	if in.Passes > 1 && in.StepOver > 0 {
		width = min(width, in.StepOver)
	}
	step := in.StepOver
	if in.Passes == 1 {
		step = 0
	}
	return squaring.Facing{Tilt: in.tilt(), TiltU: in.tiltU(), Feed: feed, Diameter: in.Cutter, Width: width, StepOver: step}.Surface()
}

// worked is the face worked out.
type worked struct {
	feed    unit.Angle
	fine    squaring.HeightMap
	surface squaring.FacedSurface
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	w := worked{feed: feeds()[in.Feed]}
	var err error
	if w.fine, err = in.face(w.feed, 121, 161).Map(); err != nil {
		return nil, notebook.InField("cutter", err)
	}
	if w.fine.Leading+w.fine.Trailing == 0 {
		return nil, notebook.InField("passes", fmt.Errorf("miss the face altogether"))
	}
	if w.surface, err = in.surface(w.feed); err != nil {
		return nil, notebook.InField("width", err)
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{answerItems, mapItems, feedItems, holeItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
