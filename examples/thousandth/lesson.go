// Package thousandth is the lesson "A thousandth over what?": a reading and its
// span, and the slope that they are, in every way the shop says it.
package thousandth

import (
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Inputs is what the lesson asks for.
type Inputs struct {
	// Reading is the difference that the dial shows over Span.
	Reading, ReadingU unit.Length
	Span, SpanU       unit.Length
	// Limit is the rise allowed over LimitSpan.
	Limit, LimitSpan unit.Length
}

// Defaults returns a dial that differs by 0.0012 in across a ring of 8 in, and
// the limit of 0.025 mm over 300 mm.
func Defaults() Inputs {
	return Inputs{
		Reading: 1.2 * squaring.Thou, ReadingU: 0.1 * squaring.Thou,
		Span: 8 * squaring.Inch, SpanU: 0.04 * squaring.Inch,
		Limit: 0.025 * mm, LimitSpan: 300 * mm,
	}
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fine := []notebook.Unit{notebook.Thou, notebook.Millimetre, notebook.Micrometre, notebook.InchUnit}
	spans := []notebook.Unit{notebook.InchUnit, notebook.Millimetre, notebook.Metre}
	fields := []notebook.Field{
		notebook.Measure("reading", &in.Reading, notebook.Spec{Label: "The dial differs by", Help: "Far reading less near reading, with its sign.",
			Units: fine, Limits: notebook.Between(-10*mm, 10*mm)}),
		notebook.Measure("span", &in.Span, notebook.Spec{Label: "Over a span of", Help: "From the one place to the other: the diameter of a sweep, not its radius.",
			Units: spans, Limits: notebook.Between(5*mm, 10000*mm)}),
	}
	return append(fields, notebook.Grouped("How surely, and what is allowed",
		notebook.Measure("reading-u", &in.ReadingU, notebook.Spec{Label: "Standard uncertainty of the difference", Help: "Two readings, each to a step: the step times 0.41.",
			Units: fine, Limits: notebook.Between(0*mm, 10*mm)}),
		notebook.Measure("span-u", &in.SpanU, notebook.Spec{Label: "Standard uncertainty of the span", Help: "With a rule, about 0.04 in or 1 mm.",
			Units: spans, Limits: notebook.Between(0*mm, 100*mm)}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "The drawing allows", Help: "The rise in the limit, either way.",
			Units: []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre, notebook.InchUnit}, Limits: notebook.AboveUpTo(0*mm, 10*mm)}),
		notebook.Measure("limit-span", &in.LimitSpan, notebook.Spec{Label: "Over a span of", Help: "The span in the limit: 300 mm in most standards.",
			Units: []notebook.Unit{notebook.Millimetre, notebook.InchUnit, notebook.Metre}, Limits: notebook.Between(5*mm, 10000*mm)}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "thousandth",
		Title:    "A thousandth over what?",
		Question: "The dial differs by so much. What slope is that, and is it within the limit?",
		Asked:    "It is out a thou",
		Track:    notebook.Foundations,
		Summary: "A reading means nothing until its span is said. From both follow the slope, in every way the shop says it, " +
			"what it comes to over other spans, and whether it is within a limit given over another.",
		Minutes: 6,
	}, Defaults, form, Work).WithDrills(drills()...)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	measured, err := squaring.MeasureSlope(in.Reading, in.ReadingU, in.Span, in.SpanU)
	if err != nil {
		return nil, notebook.InField("span", err)
	}
	limit, err := squaring.SlopeFromRise(in.Limit, in.LimitSpan)
	if err != nil {
		return nil, notebook.InField("limit-span", err)
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, squaring.MeasuredSlope, squaring.Slope) error{
		answerItems, ladderItems, wallItems, mythItems, exerciseItems, checkItems,
	} {
		if err := add(sheet, in, measured, limit); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
