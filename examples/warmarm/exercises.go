package warmarm

import (
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// mythItems adds what people get wrong, each with the number that corrects it.
func mythItems(s *notebook.Sheet, in Inputs, w sweep) error {
	grows := func(l unit.Length, a squaring.Expansion, t unit.Temperature) (unit.Length, error) {
		g, _, err := squaring.Warming{Length: l, Expansion: a, Change: t}.Growth()
		return g, err
	}
	degree, err := grows(100*mm, squaring.SteelExpansion, 1*kelvin)
	if err != nil {
		return err
	}
	hand, err := grows(300*mm, squaring.SteelExpansion, 5*kelvin)
	if err != nil {
		return err
	}
	aluminium, err := grows(100*mm, squaring.AluminiumExpansion-squaring.SteelExpansion, 6*kelvin)
	if err != nil {
		return err
	}
	column, err := squaring.ColumnNod(500*mm, 200*mm, squaring.CastIronExpansion, 1*kelvin)
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) notebook.Verdict {
		return notebook.Verdict{Name: name, Tone: notebook.Note, Text: text}
	}
	s.Add(
		note("wrong-degree", notebook.Say("One degree is {} on {} of steel. A hand-warm arm of {} has {} in it: more than most heads are out.", fine(degree), length(100*mm), length(300*mm), fine(hand))),
		note("wrong-same", notebook.Say("Only when both are of one metal. An aluminium part of {} and a steel micrometer, both {} above 20 °C, differ by {}.", length(100*mm), warmer(6*kelvin), fine(aluminium))),
		note("wrong-closes", notebook.Say("Closing on zero says that nothing drifted from first to last. Here the round misses by {}; taken out evenly it still leaves {} of the {} that seemed to be there, since an arm cools fast at first.", fine(w.readings[in.Count]), slope(w.closed), slope(w.seems))),
		note("wrong-column", notebook.Say("A column {} high and {} deep leans {} for one degree between front and back. It is heavy, so it takes an hour, and stays an hour.", length(500*mm), length(200*mm), slope(column))),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ sweep) error {
	arm, err := armExercise(300*mm, 5*kelvin)
	if err != nil {
		return err
	}
	part, err := partExercise(250*mm, 26*kelvin)
	if err != nil {
		return err
	}
	s.Add(arm, part)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-arm", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return armExercise(notebook.Steps(r, 10, 40, 10*mm), notebook.Steps(r, 2, 12, 1*kelvin))
		}},
		{Name: "exercise-part", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return partExercise(notebook.Steps(r, 8, 60, 10*mm), notebook.Pick(r, 8*kelvin, 12*kelvin, 14*kelvin, 16*kelvin, 23*kelvin, 25*kelvin, 26*kelvin, 28*kelvin, 31*kelvin))
		}},
	}
}

// armExercise asks how far a warm steel arm has grown.
func armExercise(drop unit.Length, warm unit.Temperature) (notebook.Exercise, error) {
	growth, _, err := squaring.Warming{Length: drop, Expansion: squaring.SteelExpansion, Change: warm}.Growth()
	return notebook.Exercise{Name: "exercise-arm",
		Ask:    notebook.Say("A steel arm reaches {} down from the spindle and is {} warmer than the machine. Steel grows by {}. By how much does the dial change while the arm cools?", length(drop), warmer(warm), notebook.Exact(squaring.SteelExpansion, expansions)),
		Answer: fine(growth),
		Worked: []notebook.Text{
			notebook.Say("Length times expansion times warmth: {}.", fine(growth)),
			notebook.Plain("The dial reads less by as much, since the stylus rises."),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(growth / 10), Why: notebook.Plain("The decimal point slipped: a micrometre is a thousandth of a millimetre.")},
			{Value: fine(growth * unit.Length(squaring.AluminiumExpansion/squaring.SteelExpansion)), Why: notebook.Plain("That is an aluminium arm.")},
		}}, err
}

// partExercise asks for the correction of an aluminium part measured away from
// 20 degrees with a steel micrometer at the same temperature.
func partExercise(part unit.Length, celsius unit.Temperature) (notebook.Exercise, error) {
	t := celsius + 273.15
	own, _, err := squaring.Warming{Length: part, Expansion: squaring.AluminiumExpansion, Change: t - reference}.Growth()
	if err != nil {
		return notebook.Exercise{}, err
	}
	gauge, _, err := squaring.Warming{Length: part, Expansion: squaring.SteelExpansion, Change: t - reference}.Growth()
	return notebook.Exercise{Name: "exercise-part",
		Ask: notebook.Say("An aluminium part of {} and your steel micrometer are both at {}. Aluminium grows by {}, steel by {}. What do you add to the reading to have the length at {}?",
			length(part), degrees(t), notebook.Exact(squaring.AluminiumExpansion, expansions), notebook.Exact(squaring.SteelExpansion, expansions), degrees(reference)),
		Answer: fine(gauge - own),
		Worked: []notebook.Text{
			notebook.Say("The part has grown by {}, the micrometer by {}.", fine(own), fine(gauge)),
			notebook.Say("A grown part reads too much, a grown micrometer too little: add {}.", fine(gauge-own)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(-own), Why: notebook.Plain("The micrometer was left out: it has grown too.")},
			{Value: fine(own - gauge), Why: notebook.Plain("The sign was not turned.")},
			{Value: fine(-own - gauge), Why: notebook.Plain("Both were taken off: the micrometer's growth makes it read too little.")},
		}}, err
}

// checkItems sets the formulas against exact arithmetic on stated inputs.
func checkItems(s *notebook.Sheet, _ Inputs, _ sweep) error {
	steel, u, err := squaring.Warming{Length: 300 * mm, Expansion: 11.5e-6, ExpansionU: 1e-6 / 1.7320508075688772, Change: 5 * kelvin, ChangeU: 0.5 * kelvin}.Growth()
	if err != nil {
		return err
	}
	aluminium, _, err := squaring.Warming{Length: 250 * mm, Expansion: 23.1e-6, Change: -3 * kelvin}.Growth()
	if err != nil {
		return err
	}
	nod, err := squaring.ColumnNod(500*mm, 200*mm, 10e-6, 1*kelvin)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-steel", "warm-steel", float64(steel/um)),
		notebook.CheckRow("check-steel-u", "warm-steel-u", float64(u/um)),
		notebook.CheckRow("check-aluminium", "warm-aluminium", float64(aluminium/um)),
		notebook.CheckRow("check-column", "warm-column", nod.Microradians()),
	)
	return nil
}
