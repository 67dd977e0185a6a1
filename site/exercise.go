package main

// One exercise in the terminal: asked, marked, worked.

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/render"
)

// exerciseOptions says which exercise to ask and what to do with it.
type exerciseOptions struct {
	name   string
	seed   int // negative: the exercise as the lesson prints it
	answer string
	solve  bool
}

// register binds the options to flags.
func (o *exerciseOptions) register(flags *flag.FlagSet) {
	flags.StringVar(&o.name, "exercise", "", "`NAME` of an exercise to ask, such as exercise-tilt; ? lists them")
	flags.IntVar(&o.seed, "seed", -1, "`NUMBER` of a draw, 0 to 999999: asks the exercise with new numbers, for one\nnumber always the same, here and on the page")
	flags.StringVar(&o.answer, "answer", "", "your answer with its `UNIT`, such as \"150 µm/m\", to be marked")
	flags.BoolVar(&o.solve, "solve", false, "show the exercise's answer, its steps and the usual wrong turns")
}

// draws reports whether the exercise is asked with new numbers, so that the
// lesson itself need not be worked.
func (o *exerciseOptions) draws() bool { return o.name != "" && o.seed >= 0 }

// check refuses options that would be passed over.
func (o *exerciseOptions) check(in string) error {
	if o.name == "" && (o.seed >= 0 || o.answer != "" || o.solve) {
		return errors.New("-seed, -answer and -solve need -exercise NAME; -exercise ? lists the names")
	}
	if o.draws() && in != "" {
		return errors.New("-seed draws the numbers; it does not go with -in")
	}
	return nil
}

// run asks the exercise, and marks and works it when asked to. Sheet is the
// lesson worked, or nil when the exercise is drawn.
func (o *exerciseOptions) run(lesson notebook.Lesson, sheet *notebook.Sheet, system notebook.System, out io.Writer) error {
	e, err := o.find(lesson, sheet)
	if err != nil {
		return err
	}
	text := render.TerminalExercise(e, system)
	if o.answer != "" {
		text += render.TerminalMarking(notebook.Mark(e, o.answer), system)
	}
	if o.solve {
		text += render.TerminalSolution(e, system)
	}
	_, err = io.WriteString(out, text)
	return err
}

// find returns the exercise, drawn anew or as the sheet has it.
func (o *exerciseOptions) find(lesson notebook.Lesson, sheet *notebook.Sheet) (notebook.Exercise, error) {
	var known []string
	if sheet == nil {
		for _, d := range lesson.Drills() {
			known = append(known, d.Name)
		}
		if d, ok := lesson.Drill(o.name); ok {
			return d.At(o.seed)
		}
	} else {
		for _, item := range sheet.Items {
			if e, ok := item.(notebook.Exercise); ok {
				if known = append(known, e.Name); e.Name == o.name {
					return e, nil
				}
			}
		}
	}
	return notebook.Exercise{}, o.unknown(lesson, known)
}

// unknown says that there is no such exercise, and which there are.
func (o *exerciseOptions) unknown(lesson notebook.Lesson, known []string) error {
	what := "exercises"
	if o.draws() {
		what = "exercises with new numbers"
	}
	if len(known) == 0 {
		return fmt.Errorf("the lesson %s has no %s", lesson.Slug, what)
	}
	list := fmt.Sprintf("the %s of the lesson %s are: %s", what, lesson.Slug, strings.Join(known, ", "))
	if o.name == "?" {
		return errors.New(list)
	}
	return fmt.Errorf("no exercise is called %q%s; %s", o.name, didYouMean(o.name, known), list)
}
