// Package gib is the lesson "Tight here, loose there": the play of a table across
// its ways along the travel, and the one setting of its gib.
package gib

import (
	"fmt"
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Reading is one push and pull at a place of the travel: the dial's readings.
type Reading struct{ Travel, Pushed, Pulled unit.Length }

// Inputs is what the lesson asks for.
type Inputs struct {
	Readings []Reading
	// Step is the step to which the dial is read.
	Step unit.Length
	// Film is the play that the oil needs, Rock the most that the work bears.
	Film, Rock unit.Length
	// Chance is how sure it shall be that the gib binds nowhere.
	Chance float64
	// Taper is the slope of the gib, Pitch that of its screw, Guide the length of
	// the guide.
	Taper        wear.Slope
	Pitch, Guide unit.Length
	// Reach is how far from the table's middle the work is cut.
	Reach unit.Length
}

// Defaults returns the action shop's table gib.
func Defaults() Inputs {
	in := Inputs{Step: actionshop.DialD, Film: 8 * um, Rock: 25 * um, Chance: 0.95, Taper: 1.0 / 50, Pitch: 1 * mm, Guide: actionshop.BearingLength, Reach: 150 * mm}
	for _, r := range actionshop.GibPlays() {
		for _, p := range r.Plays {
			in.Readings = append(in.Readings, Reading{r.Travel, p, 0})
		}
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Millimetre, notebook.Thou, notebook.InchUnit}
	little := notebook.Between(0*um, 2000*um)
	fields := []notebook.Field{
		notebook.Rows("readings", &in.Readings, notebook.Spec{Label: "Push and pull", MinRows: 2, MaxRows: 200, Help: "One row a try, three tries a place."}, func(r *Reading) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("travel", &r.Travel, notebook.Spec{Label: "Place X", Help: "Plus when the table has moved right.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
				notebook.Measure("pushed", &r.Pushed, notebook.Spec{Label: "Pushed", Help: "The dial while the table is pushed toward the column.", Units: fine, Limits: notebook.Between(-5*mm, 5*mm)}),
				notebook.Measure("pulled", &r.Pulled, notebook.Spec{Label: "Pulled", Help: "The dial while it is pulled away.", Units: fine, Limits: notebook.Between(-5*mm, 5*mm)}),
			}
		}),
		notebook.Measure("step", &in.Step, notebook.Spec{Label: "The dial is read to", Help: "A division, or half of one.", Units: fine, Limits: notebook.AboveUpTo(0*um, 100*um)}),
		notebook.Measure("film", &in.Film, notebook.Spec{Label: "Play that the oil needs", Help: "5 to 15 µm on scraped iron.", Units: fine, Limits: little}),
		notebook.Measure("rock", &in.Rock, notebook.Spec{Label: "Most play that the work bears", Help: "What the table may move across under the cut.", Units: fine, Limits: little}),
	}
	return append(fields, notebook.Grouped("The gib, and how sure",
		notebook.Measure("taper", &in.Taper, notebook.Spec{Label: "Taper of the gib", Help: "1 in 50 is 20 mm/m. Zero for a flat gib that screws push straight.", Units: []notebook.Unit{notebook.MillimetrePerMetre, notebook.InchPerFoot}, Limits: notebook.Between(wear.Slope(0), wear.Slope(0.5))}),
		notebook.Measure("pitch", &in.Pitch, notebook.Spec{Label: "Pitch of the gib's screw", Help: "One turn moves it so far.", Units: lengths, Limits: notebook.Between(0.1*mm, 20*mm)}),
		notebook.Measure("guide", &in.Guide, notebook.Spec{Label: "Length of the guide", Help: "Along the travel, in the saddle.", Units: lengths, Limits: notebook.Between(10*mm, 5000*mm)}),
		notebook.Measure("reach", &in.Reach, notebook.Spec{Label: "Work is cut so far from the saddle's middle", Help: "Play turns the table; it shows most far out.", Units: lengths, Limits: notebook.Between(0*mm, 5000*mm)}),
		notebook.Number("chance", &in.Chance, notebook.Spec{Label: "Sure not to bind, as a chance", Help: "0.95 is usual.", Limits: notebook.Between(0.5, 0.9999)}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "gib",
		Title:    "Tight here, loose there",
		Question: "The table rocks in the middle and binds at the end. Where do I set the gib?",
		Asked:    "My gib is tight at one end",
		Track:    notebook.Ways,
		Summary:  "A gib has one setting for a way that is worn in one place. The map of play along the travel says what that setting is, and whether it is good enough.",
		Minutes:  9,
		After:    []string{"thousandth", "dial"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is the readings, worked.
type result struct {
	in    Inputs
	plays []wear.Play
	tries []int
	set   wear.GibSetting
}

// options are those of the inputs.
func (in Inputs) options() wear.GibOptions {
	return wear.GibOptions{Film: in.Film, Rock: in.Rock, Chance: in.Chance, Taper: in.Taper, Pitch: in.Pitch, Guide: in.Guide}
}

// mapped returns the mean play at each place, in order, with its standard
// uncertainty: the scatter of all places pooled, or the rounding of a difference
// of two readings where that is more.
func mapped(in Inputs) (plays []wear.Play, tries []int, err error) {
	values := map[unit.Length][]float64{}
	for i, r := range in.Readings {
		play := float64(r.Pushed - r.Pulled)
		if !(play >= 0) {
			return nil, nil, notebook.InRow("readings", i+1, "pushed", fmt.Errorf("the play at X = %g mm is %g µm; it cannot be below zero: push reads more than pull when the dial's stem points at the column", float64(r.Travel/mm), play*1e6))
		}
		if values[r.Travel] == nil {
			k := 0
			for k < len(plays) && plays[k].Travel < r.Travel {
				k++
			}
			plays = append(plays[:k], append([]wear.Play{{Travel: r.Travel}}, plays[k:]...)...)
		}
		values[r.Travel] = append(values[r.Travel], play)
	}
	var squares, freedom float64
	tries = make([]int, len(plays))
	for i := range plays {
		v := values[plays[i].Travel]
		tries[i] = len(v)
		for _, x := range v {
			plays[i].Clear += unit.Length(x / float64(len(v)))
		}
		for _, x := range v {
			squares += math.Pow(x-float64(plays[i].Clear), 2)
		}
		freedom += float64(len(v) - 1)
	}
	one := float64(in.Step) * math.Sqrt(2.0/12) // two readings, rounded
	if freedom > 0 {
		one = math.Max(one, math.Sqrt(squares/freedom))
	}
	for i := range plays {
		plays[i].U = unit.Length(one / math.Sqrt(float64(tries[i])))
	}
	return plays, tries, nil
}

func work(in Inputs) (result, error) {
	r := result{in: in}
	var err error
	if r.plays, r.tries, err = mapped(in); err != nil {
		return r, err
	}
	if len(r.plays) < 2 {
		return r, notebook.InField("readings", fmt.Errorf("all readings were taken at X = %g mm; a map needs two places", float64(r.plays[0].Travel/mm)))
	}
	r.set, err = wear.SetGib(r.plays, in.options())
	return r, notebook.InField("readings", err)
}

// factor is the one-sided factor of the chance.
func (r result) factor() float64 { return distuv.UnitNormal.Quantile(r.in.Chance) }

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := work(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{setUp, r.answers, r.chart, r.harm, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
