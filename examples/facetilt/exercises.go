package facetilt

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// dishOf returns the hollow of a cutter over a width, at a tilt along the feed.
func dishOf(tilt squaring.Slope, cutter, width unit.Length) (squaring.FacedSurface, error) {
	return squaring.Facing{Tilt: squaring.Gradient{X: tilt}, Diameter: cutter, Width: width}.Surface()
}

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	hundred := 100 * squaring.Microradian
	var dishes [3]unit.Length
	for i, pair := range [3][2]unit.Length{{80 * mm, 60 * mm}, {120 * mm, 60 * mm}, {75 * mm, 75 * mm}} {
		f, err := dishOf(hundred, pair[0], pair[1])
		if err != nil {
			return err
		}
		dishes[i] = f.Dish
	}
	ovality := func(tilt squaring.Slope) (unit.Length, error) {
		bore, err := squaring.Hole{Feed: squaring.ByKnee, Tilt: squaring.Gradient{X: tilt}, Diameter: 40 * mm}.Made()
		return bore.Ovality, err
	}
	little, err := ovality(300 * squaring.Microradian)
	if err != nil {
		return err
	}
	much, err := ovality(squaring.Slope(math.Tan(math.Pi / 180)))
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-oval", notebook.Say("A bore of {} with the spindle {} out is oval by {}. At a whole degree it is {}. Look for play instead.",
			length(40*mm), slope(300*squaring.Microradian), notebook.Exact(little, notebook.FineLengths).WithDigits(2), fine(much))),
		note("wrong-hollow", notebook.Say("Across the feed it makes steps: {} over a step of {} is {}. The hollow comes from the tilt along the feed.",
			slope(hundred), length(50*mm), fine(hundred.Rise(50*mm)))),
		note("wrong-size", notebook.Say("At {} and over a width of {} a cutter of {} leaves a hollow of {}, one of {} only {}: bigger is flatter. What is bad is a cutter as wide as the work: {} over {} leaves {}.",
			slope(hundred), length(60*mm), length(80*mm), fine(dishes[0]), length(120*mm), fine(dishes[1]), length(75*mm), length(75*mm), fine(dishes[2]))),
		note("wrong-small", notebook.Say("{} over the {} of an end mill is {}.", slope(hundred), length(12*mm), fine(hundred.Rise(12*mm)))),
	)
	return nil
}

// checkItems sets hollow, step and lean against plane geometry.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	type hollow struct {
		name, row     string
		tilt          squaring.Slope
		cutter, width unit.Length
	}
	tenth := squaring.Slope(math.Tan(0.1 * math.Pi / 180))
	for _, h := range []hollow{
		{"check-dish-50", "face-dish-50-40", tenth, 50 * mm, 40 * mm},
		{"check-dish-80", "face-dish-80-60", 100 * squaring.Microradian, 80 * mm, 60 * mm},
		{"check-dish-120", "face-dish-120-60", 100 * squaring.Microradian, 120 * mm, 60 * mm},
		{"check-dish-75", "face-dish-75-75", 100 * squaring.Microradian, 75 * mm, 75 * mm},
		{"check-dish-100", "dish-100-80", 0.02 * squaring.MillimetrePer300, 100 * mm, 80 * mm},
	} {
		f, err := dishOf(h.tilt, h.cutter, h.width)
		if err != nil {
			return err
		}
		s.Add(notebook.CheckRow(h.name, h.row, float64(f.Dish/um)))
		if h.name == "check-dish-50" {
			s.Add(notebook.CheckRow("check-heel", "face-heel-50", float64(f.HeelLift/um)))
		}
	}
	m, err := squaring.CutFace{Tilt: squaring.Gradient{X: 200e-6}, Diameter: 120 * mm, Length: 100 * mm, Width: 90 * mm, Tracks: []unit.Length{45 * mm}, Columns: 11, Rows: 181}.Map()
	if err != nil {
		return err
	}
	stepped, err := squaring.Facing{Tilt: squaring.Gradient{Y: 231e-6}, Diameter: 120 * mm, Width: 90 * mm, StepOver: 50 * mm}.Surface()
	if err != nil {
		return err
	}
	hole, err := squaring.Hole{Feed: squaring.ByQuill, Tilt: squaring.Gradient{X: 232e-6}, Depth: 60 * mm}.Made()
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-map", "face-dish-120-90-200", float64(m.Flatness()/um)),
		notebook.CheckRow("check-step", "step-231-50", float64(stepped.Step/um)),
		notebook.CheckRow("check-hole", "hole-232-60", float64(hole.Shift/um)),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	dish, err := dishExercise(200*squaring.Microradian, 120*mm, 90*mm)
	if err != nil {
		return err
	}
	s.Add(dish, stepExercise(231*squaring.Microradian, 50*mm, 120*mm))
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	tilt := func(r *rand.Rand) squaring.Slope { return notebook.Steps(r, 4, 30, 10*squaring.Microradian) }
	cutter := func(r *rand.Rand) unit.Length {
		return notebook.Pick[unit.Length](r, 50, 63, 80, 100, 125, 160) * mm
	}
	return []notebook.Drill{
		{Name: "exercise-dish", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			across := cutter(r)
			width := unit.Length(math.Floor(float64(across/mm)*notebook.Steps(r, 12, 18, 0.05)/5)*5) * mm
			return dishExercise(tilt(r), across, width)
		}},
		{Name: "exercise-step", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			across := cutter(r)
			return stepExercise(tilt(r), notebook.Steps(r, 4, 9, across/10), across), nil
		}},
	}
}

// dishExercise asks how hollow one pass leaves a face.
func dishExercise(tilt squaring.Slope, cutter, width unit.Length) (notebook.Exercise, error) {
	f, err := dishOf(tilt, cutter, width)
	root := unit.Length(math.Sqrt(float64(cutter*cutter-width*width))) / 2
	return notebook.Exercise{Name: "exercise-dish",
		Ask:    notebook.Say("A cutter of {} cuts {} wide in one pass, the head {} out along the feed. How hollow is the face?", length(cutter), length(width), slope(tilt)),
		Answer: fine(f.Dish),
		Worked: []notebook.Text{
			notebook.Say("Half the cutter is {}, half the width {}; the root of the difference of their squares is {}.", length(cutter/2), length(width/2), length(root)),
			notebook.Say("The arc is {} deep in plan, and times the tilt that is {}.", length(cutter/2-root), fine(f.Dish)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(tilt.Rise(width * width / (4 * cutter))), Why: notebook.Plain("The shortcut W²/(4 D) was used: it falls short on a wide cut.")},
			{Value: fine(tilt.Rise(width)), Why: notebook.Plain("The whole tilt over the width was taken, as if the tilt were across the feed.")},
			{Value: fine(tilt.Rise(cutter / 2)), Why: notebook.Plain("The tilt over the cutter's radius was taken: that is the hollow of a cut as wide as the cutter.")},
		}}, err
}

// stepExercise asks how high the steps between passes are.
func stepExercise(tilt squaring.Slope, over, cutter unit.Length) notebook.Exercise {
	step := tilt.Rise(over)
	return notebook.Exercise{Name: "exercise-step",
		Ask:    notebook.Say("The head is {} out across the feed. A cutter of {} steps over by {}. How high is each step?", slope(tilt), length(cutter), length(over)),
		Answer: fine(step),
		Worked: []notebook.Text{notebook.Say("{} over {} is {}.", slope(tilt), length(over), fine(step))},
		Wrong: []notebook.WrongTurn{
			{Value: fine(tilt.Rise(cutter)), Why: notebook.Plain("The cutter's diameter was taken for the step-over.")},
			{Value: fine(step / 2), Why: notebook.Plain("Half was taken: each pass slopes the same way, so the whole rise stands at the joint.")},
		}}
}
