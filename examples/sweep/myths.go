package sweep

import (
	"fmt"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, sweep squaring.Sweep) error {
	spans, err := spanTable()
	if err != nil {
		return err
	}
	tilt := sweep.Tilt.Steepest()
	across := tilt.Rise(2 * in.Radius)
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	bore, err := squaring.Hole{Feed: squaring.ByKnee, Tilt: squaring.Gradient{X: 300e-6}, Diameter: 40 * mm}.Made()
	if err != nil {
		return err
	}
	s.Add(
		spans,
		note("wrong-radius", notebook.Say("The difference across the circle belongs to its diameter. Here {} over {} is {}; divided by the radius it would come out twice that.",
			height(across), length(2*in.Radius), slope(tilt))),
		note("wrong-arm", notebook.Say("A longer arm does not measure a smaller tilt. It shows the same {} as more: {} across a radius of {}, and {} across one of {}. Only the doubt shrinks with the arm.",
			slope(tilt), height(across), length(in.Radius), height(tilt.Rise(100*mm)), length(50*mm))),
		note("wrong-small-cutter", notebook.Say("A small end mill hardly notices: this tilt over a cutter of {} is {}.", length(12*mm), height(tilt.Rise(12*mm)))),
		note("wrong-stylus", notebook.Say("A slanted lever shows too much, not too little: at {} a move of {} shows as {}.",
			angle(30*squaring.Degree), height(10*um), height(squaring.Indicator{StylusAngle: 30 * squaring.Degree}.Shown(10*um)))),
		note("wrong-oval", notebook.Say("Tilt does not bore oval holes. A bore of {} made by raising the knee, with the spindle {} out, is oval by {}. Look for play instead. By quill it is round, and leans.",
			length(40*mm), slope(300*squaring.Microradian), notebook.Exact(bore.Ovality, notebook.FineLengths).WithDigits(2))),
	)
	return nil
}

// spanTable shows one reading over several spans.
func spanTable() (notebook.Table, error) {
	t := notebook.Table{Name: "spans", Title: "“It is out a thou”: over what?",
		Columns: []notebook.Column{notebook.Col("0.001 in over"), notebook.ColIn("is a slope of", notebook.Slopes), notebook.ColIn("or, in arc seconds", notebook.Same(notebook.ArcSecond))}}
	for _, inches := range []unit.Length{2, 6, 10, 12, 24} {
		s, err := squaring.SlopeFromRise(1*squaring.Thou, inches*squaring.Inch)
		if err != nil {
			return t, err
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(fmt.Sprintf("%.0f in (%.0f mm)", float64(inches), float64(inches*squaring.Inch/mm))),
			notebook.Val(notebook.Exact(s, notebook.Slopes)), notebook.Val(notebook.Exact(s.LinearAngle(), notebook.Same(notebook.ArcSecond)))})
	}
	return t, nil
}

// setUpItems adds the cautions, each shown at its step.
func setUpItems(s *notebook.Sheet, in Inputs, sweep squaring.Sweep) error {
	s.Add(
		notebook.Caution{Name: "isolate", Text: notebook.Plain(
			"Isolate the machine, at the plug or the lockable switch, before a hand or a dial goes near the spindle. Put the spindle in neutral and turn it by hand. Take the dial out before the machine is switched on again.")},
		notebook.Caution{Name: "support", Text: notebook.Plain(
			"A head can weigh more than a person and swings about its pivot when its bolts are slack. Hold it up with a jack or a hoist made for it before you slacken the first bolt, stand out of its arc, and slacken only as far as it takes to move it.")},
		notebook.Caution{Name: "tighten", Text: notebook.Plain(
			"Bring every head bolt to full torque, crosswise, before you cut or switch the spindle on. Never leave them short of tight to keep a reading: set off for the shift instead.")},
	)
	return nil
}
