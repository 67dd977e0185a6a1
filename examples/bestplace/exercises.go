package bestplace

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, w worked) error {
	// The head set square at mid-table, and the part where it lies now.
	square := w.job
	_, x0, y0, err := slopes(w, 0)
	if err != nil {
		return err
	}
	square.Machine.Tilt = squaring.Gradient{X: x0, Y: y0}
	square.Places, square.Feeds, square.TiltU = []unit.Length{in.Here}, []unit.Angle{azimuths()[in.Feed]}, square.SettingU
	choices, err := square.Choices()
	if err != nil {
		return err
	}
	middle := first(choices, false)
	_, xHere, yHere, err := slopes(w, in.Here)
	if err != nil {
		return err
	}
	worst := w.choices[len(w.choices)-1]
	other := w.set
	for _, c := range w.choices {
		if c.Reset && fed(c.Feed) != fed(w.set.Feed) {
			other = c
			break
		}
	}
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-middle", notebook.Say("Where your part lies the table leans {} and {} against where the head was set. Set square in the middle, the face there comes out at {u} with a chance of {}.", slope(xHere-x0), slope(yHere-y0), notebook.Of(middle.Zone, middle.ZoneU, notebook.FineLengths), chance(middle.Chance))),
		note("wrong-feed", notebook.Say("It matters. Best fed the one way the zone is {}, best the other way {}; and the worst way tried makes {}.", fine(w.set.Zone), fine(other.Zone), fine(worst.Zone))),
		note("wrong-square", notebook.Say("Best is not always dead square to the table: a little lean that follows the bend of the ways takes some of it away. Here the best sweep shows {} and {}.", slope(w.set.Shows.X), slope(w.set.Shows.Y))),
		note("wrong-more", notebook.Say("A setting scatters by {} and {}, so the zone scatters by {} whatever you aim at. When that is most of what is allowed, the place counts and not another try.", slope(in.SettingX), slope(in.SettingY), fine(w.set.ZoneU))),
	)
	return nil
}

// slopes returns height and slopes of the table with place u under the spindle.
func slopes(w worked, u unit.Length) (unit.Length, squaring.Slope, squaring.Slope, error) {
	ways := squaring.WaysFromMotion(w.job.Machine.X)
	h, x, y, _, _ := ways(-u)
	return h, squaring.Slope(x), squaring.Slope(y), nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	lean, err := leanExercise(25*squaring.Microradian, -107*squaring.Microradian, 60*mm)
	if err != nil {
		return err
	}
	bow, err := bowExercise(600*squaring.Microradian, 150*mm)
	if err != nil {
		return err
	}
	s.Add(lean, bow)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	step := 5 * squaring.Microradian
	return []notebook.Drill{
		{Name: "exercise-lean", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return leanExercise(notebook.Steps(r, -10, 10, step), notebook.Either(r, notebook.Steps(r, 11, 30, step)), notebook.Steps(r, 6, 20, 5*mm))
		}},
		{Name: "exercise-bow", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return bowExercise(notebook.Steps(r, 4, 20, 50*squaring.Microradian), notebook.Steps(r, 5, 30, 20*mm))
		}},
	}
}

// leanExercise asks for the steps of a part cut away from where the head was set.
func leanExercise(there, here squaring.Slope, step unit.Length) (notebook.Exercise, error) {
	lean := here - there
	f, err := squaring.Facing{Tilt: squaring.Gradient{X: lean}, Feed: 90 * squaring.Degree, Diameter: 2 * step, Width: step, StepOver: step}.Surface()
	return notebook.Exercise{Name: "exercise-lean",
		Ask: notebook.Say("The head was set square to the table where the table's slope along is {}. The part is cut where it is {}, fed front to back in passes {} apart. How high are the steps?",
			slope(there), slope(here), place(step)),
		Answer: fine(f.Step),
		Worked: []notebook.Text{
			notebook.Say("Here the table leans {} against the spindle's plane.", slope(lean)),
			notebook.Say("Across the feed that makes a step of {} in {}.", fine(f.Step), place(step)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(max(here, -here).Rise(step)), Why: notebook.Plain("The head was not set square to level but to the table as it leaned there.")},
			{Value: fine(0 * mm), Why: notebook.Plain("Square in one place is not square in another.")},
			{Value: fine(max(here+there, -here-there).Rise(step)), Why: notebook.Plain("The slopes were added: it is their difference that counts.")},
		}}, err
}

// bowExercise asks for the bow that ways of a steady bend leave in a part.
func bowExercise(bend squaring.Slope, long unit.Length) (notebook.Exercise, error) {
	// bend is the change of slope over a metre.
	bow := unit.Length(float64(bend) * float64(long) * float64(long) / 8)
	return notebook.Exercise{Name: "exercise-bow",
		Ask:    notebook.Say("Over a metre of travel the table's slope changes evenly by {}. A part {} long is skimmed along the table. How much does its middle differ from its ends?", slope(bend), place(long)),
		Answer: fine(bow),
		Worked: []notebook.Text{
			notebook.Say("Over the part the slope changes by {}.", slope(bend*squaring.Slope(long))),
			notebook.Say("The motion is an arc; its middle lies off the chord by an eighth of that change times the length: {}.", fine(bow)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(4 * bow), Why: notebook.Plain("That is half the change times the length: how far one end lies off a line that touches the other.")},
			{Value: fine(8 * bow), Why: notebook.Plain("Slope change times length is a rise, not a bow.")},
			{Value: fine(bow / 2), Why: notebook.Plain("A sixteenth was taken, not an eighth.")},
		}}, nil
}

// checkItems sets what is sought with against exact geometry.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	// Straight ways, head out by 0.02 in 300 along the feed, one pass of 80 mm
	// with a cutter of 100: the map's flatness is the hollow.
	tilt := squaring.Gradient{X: 0.02 * squaring.MillimetrePer300}
	j := squaring.FaceJob{Machine: squaring.Machine{Tilt: tilt}, Face: squaring.FaceOnTable{Long: 200 * mm, Deep: 80 * mm, Diameter: 100 * mm, Passes: 1},
		Zone: squaring.FlatZone, Limit: 1 * um, Places: []unit.Length{0 * mm}, Feeds: []unit.Angle{0 * squaring.Degree}}
	choices, err := j.Choices()
	if err != nil {
		return err
	}
	stands, set := first(choices, false), first(choices, true)
	// Ways of a steady bend of 600 um/m a metre, a narrow cutter, head square to
	// the place: the part's bow is an eighth of the bend times its length squared.
	bent := j
	bent.Machine = squaring.Machine{X: squaring.MotionFromWays(func(x unit.Length) (unit.Length, float64, float64, unit.Length, unit.Angle) {
		return unit.Length(300e-6 * float64(x) * float64(x)), -600e-6 * float64(x), 0, 0, 0
	})}
	bent.Face = squaring.FaceOnTable{Long: 600 * mm, Deep: 1 * mm, Diameter: 1 * mm, Passes: 1}
	bowed, err := bent.Choices()
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-dish", "dish-100-80", float64(stands.Zone/um)),
		notebook.CheckRow("check-square", "place-square", float64(set.Zone/um)),
		notebook.CheckRow("check-bow", "place-bow", float64(first(bowed, false).Zone/um)),
	)
	return nil
}
