// Package fiveyears is the lesson "Next five years": when worn ways reach a limit,
// how sure that is, and whether a rebuild pays.
package fiveyears

import (
	"errors"
	"fmt"
	"math"
	"time"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm   = unit.Milli * unit.Metre
	um   = unit.Micro * unit.Metre
	hour = 3600 * unit.Second
	year = 365.25 * 86400 * unit.Second
)

// Depth is a depth of wear with its day and what the hour meter showed.
type Depth struct {
	Day   time.Time
	Hours unit.Time
	Depth unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Depths []Depth
	// DepthU is the standard uncertainty of each depth, Limit the depth at which
	// something must be done.
	DepthU, Limit unit.Length
	// LeastUse, LikelyUse and MostUse are the hours under power a year from now
	// on.
	LeastUse, LikelyUse, MostUse unit.Time
	// Cost, Loss (a year for each micrometre beyond Harmless), After (the rate
	// after a rebuild as a share of the rate now), Resale and Interest are what
	// the reckoning needs; Years how long the machine is kept.
	Cost, Loss, After, Resale, Interest wear.Guess
	Harmless                            unit.Length
	Years                               int
}

// Defaults returns the action shop's depths of the front way since its oil outlet
// was cleared, and the shop's guesses about a rebuild.
func Defaults() Inputs {
	in := Inputs{DepthU: actionshop.WearStepU, Limit: 70 * um, LeastUse: 250 * hour, LikelyUse: 300 * hour, MostUse: 400 * hour,
		Cost: wear.Guess{Low: 2500, Likely: 4000, High: 7000}, Loss: wear.Guess{Low: 4, Likely: 8, High: 20},
		After: wear.Guess{Low: 0.5, Likely: 1, High: 1}, Resale: wear.Guess{Low: 0, Likely: 500, High: 1500},
		Interest: wear.Guess{Low: 0.02, Likely: 0.04, High: 0.07}, Harmless: 30 * um, Years: 10}
	// What the hour meter showed at the last four dates.
	hours := []unit.Time{1102, 1250, 1553, 1860}
	steps := actionshop.WearSteps()
	for i, s := range steps[len(steps)-len(hours):] {
		in.Depths = append(in.Depths, Depth{s.Date, hours[i] * hour, s.Front})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre}
	hours := []notebook.Unit{notebook.Hour}
	depth := notebook.Between(-1000*um, 5000*um)
	use := notebook.AboveUpTo(0*hour, 8800*hour)
	fields := []notebook.Field{
		notebook.Rows("depths", &in.Depths, notebook.Spec{Label: "Depth of wear by date",
			Help:    "One place, always the same. Only depths since the last change of oil, habit or place: a forecast through a bend is none.",
			MinRows: 2, MaxRows: 60}, func(d *Depth) []notebook.Field {
			return []notebook.Field{
				notebook.Day("day", &d.Day, notebook.Spec{Label: "Date"}),
				notebook.Measure("hours", &d.Hours, notebook.Spec{Label: "Hour meter", Help: "Hours under power since any fixed day.", Units: hours, Limits: notebook.Between(0*hour, 1e6*hour)}),
				notebook.Measure("depth", &d.Depth, notebook.Spec{Label: "Depth", Units: fine, Limits: depth}),
			}
		}),
		notebook.Measure("depth-u", &in.DepthU, notebook.Spec{Label: "A depth is sure to", Help: "Standard uncertainty of one depth in the table.", Units: fine, Limits: notebook.AboveUpTo(0*um, 100*um)}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "Limit", Help: "The depth at which you cannot live with it: where your longest part leaves its tolerance, or the gib will not set.", Units: fine, Limits: notebook.Between(0*um, 5000*um)}),
		notebook.Measure("likely-use", &in.LikelyUse, notebook.Spec{Label: "Hours a year from now on, likely", Help: "Under power.", Units: hours, Limits: use}),
	}
	fields = append(fields, notebook.Grouped("How the use may differ",
		notebook.Measure("least-use", &in.LeastUse, notebook.Spec{Label: "Hours a year, least", Units: hours, Limits: use}),
		notebook.Measure("most-use", &in.MostUse, notebook.Spec{Label: "Hours a year, most", Units: hours, Limits: use}))...)
	money := notebook.Between(0.0, 1e9)
	return append(fields, notebook.Grouped("What a rebuild costs and spares",
		append(append(append(append(append(
			guess("cost", &in.Cost, "Cost of the rebuild", "In your money, standstill included.", money),
			guess("loss", &in.Loss, "Loss a year for each micrometre", "In your money: scrap, time at set-up, work turned away, for each micrometre of wear beyond what does no harm.", money)...),
			guess("after", &in.After, "Rate after the rebuild, of the rate now", "1 when the cause is still there.", notebook.Between(0.0, 10.0))...),
			guess("resale", &in.Resale, "More at resale", "In your money: by how much more the machine sells at the end.", money)...),
			guess("interest", &in.Interest, "Interest a year", "0.04 for 4 %: what the money would earn elsewhere.", notebook.Between(0.0, 1.0))...),
			notebook.Measure("harmless", &in.Harmless, notebook.Spec{Label: "Wear that does no harm", Help: "Up to this depth it costs nothing.", Units: fine, Limits: notebook.Between(0*um, 5000*um)}),
			notebook.Count("years", &in.Years, notebook.Spec{Label: "Years the machine is kept", Limits: notebook.Between(1.0, 40.0)}))...)...)
}

// guess binds the three figures of a guess.
func guess(name string, g *wear.Guess, label, help string, limits notebook.Limits) []notebook.Field {
	return []notebook.Field{
		notebook.Number(name+"-low", &g.Low, notebook.Spec{Label: label + ", least", Limits: limits}),
		notebook.Number(name, &g.Likely, notebook.Spec{Label: label + ", likely", Help: help, Limits: limits}),
		notebook.Number(name+"-high", &g.High, notebook.Spec{Label: label + ", most", Limits: limits}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "fiveyears",
		Title:    "Next five years",
		Question: "My ways are worn and wearing. When will they be too bad, and does a rebuild pay?",
		Asked:    "When must I rebuild?",
		Track:    notebook.Deciding,
		Summary:  "A forecast with the range it deserves: between two dates, or never, or not before; and the money of a rebuild with its break-even.",
		Minutes:  15,
	}, Defaults, form, Work).WithDrills(drills()...)
}

// outlook is what the depths say of the years to come.
type outlook struct {
	now      Depth
	depths   []wear.MeasuredDepth
	line     wear.Forecast
	reach    wear.Crossing
	curve    *wear.Saturating
	curveMet wear.Crossing
	worth    wear.RebuildWorth
	stopped  wear.RebuildWorth
}

// horizon is how far ahead the pages look.
const horizon = 5 * year

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	o, err := look(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		func(s *notebook.Sheet) error { return setUpItems(s, in, o) },
		func(s *notebook.Sheet) error { return forecastItems(s, in, o) },
		func(s *notebook.Sheet) error { return useItems(s, in, o) },
		func(s *notebook.Sheet) error { return rebuildItems(s, in, o) },
		exerciseItems,
		checkItems,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// look works the forecast and the rebuild.
func look(in Inputs) (outlook, error) {
	o := outlook{}
	clocks := map[unit.Time]bool{}
	for i, d := range in.Depths {
		if i > 0 && (d.Day.Before(in.Depths[i-1].Day) || d.Hours < in.Depths[i-1].Hours) {
			return o, notebook.InRow("depths", i+1, "hours", errors.New("day and hour meter must not run backward from row to row"))
		}
		o.depths = append(o.depths, wear.MeasuredDepth{Clock: d.Hours, Depth: d.Depth, U: in.DepthU})
		clocks[d.Hours] = true
		o.now = d
	}
	if !(in.LeastUse <= in.LikelyUse && in.LikelyUse <= in.MostUse) {
		return o, notebook.InField("likely-use", fmt.Errorf("%g h a year must lie between the least and the most, %g and %g h", float64(in.LikelyUse/hour), float64(in.LeastUse/hour), float64(in.MostUse/hour)))
	}
	var err error
	if o.line, err = wear.ForecastLine(o.depths); err != nil {
		return o, notebook.InField("depths", err)
	}
	if o.reach, err = o.line.Reach(in.Limit, 0.95, 0); err != nil {
		return o, notebook.InField("limit", err)
	}
	if len(clocks) >= 3 {
		curve, err := wear.ForecastSaturating(o.depths)
		if err != nil {
			return o, notebook.InField("depths", err)
		}
		if o.curveMet, err = curve.Reach(in.Limit, 0.95, o.now.Hours, o.now.Hours+in.LikelyUse*60); err != nil {
			return o, notebook.InField("limit", err)
		}
		o.curve = &curve
	}
	return o.reckon(in)
}

// reckon works the money.
func (o outlook) reckon(in Inputs) (outlook, error) {
	depth, u := o.line.At(o.now.Hours)
	share := in.LikelyUse / year
	r := wear.Rebuild{Cost: in.Cost, LossPerMicrometre: in.Loss, Harmless: in.Harmless, Depth: depth, DepthU: u,
		Rate: o.line.Rate * wear.WearRate(share), RateU: o.line.RateU * wear.WearRate(share), RateAfter: in.After, Resale: in.Resale, Interest: in.Interest, Years: in.Years}
	var err error
	if o.worth, err = wear.WorthOfRebuild(r, 2000, 1); err != nil {
		return o, notebook.InField(faulty(in), err)
	}
	r.Rate, r.RateU = 0, 0
	o.stopped, err = wear.WorthOfRebuild(r, 500, 1)
	return o, err
}

// faulty returns the field of the guess that is out of order.
func faulty(in Inputs) string {
	for name, g := range map[string]wear.Guess{"cost": in.Cost, "loss": in.Loss, "after": in.After, "resale": in.Resale, "interest": in.Interest} {
		if !(g.Low <= g.Likely && g.Likely <= g.High) {
			return name
		}
	}
	return "cost"
}

// dayAt returns the day on which the hour meter will show a clock, at so many
// hours a year; the zero day beyond the year 2200.
func (o outlook) dayAt(clock, use unit.Time) time.Time {
	ahead := float64((clock - o.now.Hours) / use) // years
	if !(ahead < 175) || !(ahead > -175) || math.IsNaN(ahead) {
		return time.Time{}
	}
	return o.now.Day.Add(time.Duration(ahead * float64(year) * 1e9))
}
