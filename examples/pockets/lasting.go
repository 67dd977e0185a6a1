package pockets

import (
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const hour = 3600 * unit.Second

// lastExercise asks what share of the wipers lasts when some are still good. The
// hours are those at which one was changed and those that the good ones have run.
func lastExercise(changed, good [3]unit.Time, asked unit.Time) (notebook.Exercise, error) {
	var lives, ended []wear.Life
	for _, t := range changed {
		lives, ended = append(lives, wear.Life{Time: t, Failed: true}), append(ended, wear.Life{Time: t, Failed: true})
	}
	asEnds := append([]wear.Life(nil), ended...)
	for _, t := range good {
		lives, asEnds = append(lives, wear.Life{Time: t}), append(asEnds, wear.Life{Time: t, Failed: true})
	}
	share := func(lives []wear.Life) (notebook.Quantity, float64, error) {
		s, err := wear.Surviving(lives)
		if err != nil {
			return notebook.Quantity{}, 0, err
		}
		q, u := s.At(asked)
		return notebook.Stepped(q, 0.01, notebook.Percents), u, nil
	}
	answer, u, err := share(lives)
	if err != nil {
		return notebook.Exercise{}, err
	}
	forgot, _, err := share(ended)
	if err != nil {
		return notebook.Exercise{}, err
	}
	counted, _, err := share(asEnds)
	if err != nil {
		return notebook.Exercise{}, err
	}
	all, err := wear.Surviving(lives)
	if err != nil {
		return notebook.Exercise{}, err
	}
	h := func(t unit.Time) notebook.Quantity { return notebook.Stepped(t, 1*hour, notebook.Hours) }
	ask := notebook.Say("Of six wipers three let chips through and were changed, after {}, {} and {}. The others are still good, after {}, {} and {}. What share lasts beyond {}?",
		h(changed[0]), h(changed[1]), h(changed[2]), h(good[0]), h(good[1]), h(good[2]), h(asked))
	worked := []notebook.Text{notebook.Plain("At each change count how many had run that long and were being watched. Multiply the shares that came through.")}
	for _, step := range all.Steps {
		if step.Time <= asked {
			worked = append(worked, notebook.Say("{}: {} of {} changed; {} last longer.", h(step.Time), notebook.Whole(step.Failed), notebook.Whole(step.AtRisk), notebook.Stepped(step.Share, 0.01, notebook.Percents)))
		}
	}
	worked = append(worked, notebook.Say("From so few it is sure to {} only, one standard uncertainty.", notebook.Stepped(u, 0.01, notebook.Percents)))
	return notebook.Exercise{Name: "exercise-last", Ask: ask, Answer: answer, Worked: worked,
		Wrong: []notebook.WrongTurn{
			{Value: forgot, Why: notebook.Plain("The good ones were left out, as if only those that failed had ever been fitted.")},
			{Value: counted, Why: notebook.Plain("The good ones were taken for failed on the day of asking.")},
		}}, nil
}
