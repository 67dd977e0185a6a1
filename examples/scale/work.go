package scale

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// weighedRun is one row with its answer.
type weighedRun struct {
	Row
	number int
	plating.Weighed
	// impossible says why the row cannot be true; such a row is left out.
	impossible string
}

// used reports whether the run takes part in the line.
func (r weighedRun) used() bool { return r.Use != useNot && r.impossible == "" }

// reading is the run as the pooled fits want it.
func (r weighedRun) reading() plating.EfficiencyReading {
	return plating.EfficiencyReading{Efficiency: r.Efficiency, U: r.U, Explain: r.PH}
}

// answer is everything that follows from the inputs.
type answer struct {
	in     Inputs
	nickel plating.Deposit
	runs   []weighedRun
	// trend is the line against pH; noTrend says why there is none.
	trend   plating.Trend
	noTrend string
	// change is the difference of two states; noChange says why there is none.
	change   plating.Difference
	noChange string
	need     need
}

// need is the load that the question needs.
type need struct {
	gain        unit.Mass
	coupons     int
	runs        int
	couponGain  unit.Mass
	couponU     float64 // relative
	allowed     float64 // relative, for one state of two
	noFewCoupon string
}

// Work returns the lesson's sheet.
func Work(in Inputs) (*notebook.Sheet, error) {
	a := answer{in: in, nickel: plating.Nickel().Deposit()}
	if err := a.weigh(); err != nil {
		return nil, err
	}
	a.fit()
	if err := a.askLoad(); err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		a.addDrawing, a.addRuns, a.addTrend, a.addChange, a.addNeed, a.addEffect, a.addWrong, a.addExercises, a.addChecks,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}

// scale returns the scale as the library wants it.
func (in Inputs) scale() plating.Scale {
	return plating.Scale{Resolution: in.ScaleStep, Handling: in.Handling}
}

// weigh works out every run.
func (a *answer) weigh() error {
	supply := plating.Supply{Step: a.in.SupplyStep}
	for i, row := range a.in.Runs {
		w, err := plating.Run{
			Deposit: a.nickel, Before: []unit.Mass{row.Before}, After: []unit.Mass{row.After}, Scale: a.in.scale(),
			Current: row.Current, CurrentU: supply.CurrentU(row.Current), Time: row.Time, TimeU: a.in.Switching / unit.Time(math.Sqrt(3)),
		}.Efficiency()
		run := weighedRun{Row: row, number: i + 1, Weighed: w}
		var implausible *plating.ImplausibleError
		switch {
		case errors.As(err, &implausible):
			run.impossible = implausible.Reason
		case err != nil:
			return notebook.InRow("runs", i+1, "current", err)
		}
		a.runs = append(a.runs, run)
	}
	return nil
}

// fit draws the line against pH and compares the two states.
func (a *answer) fit() {
	var all, before, after []plating.EfficiencyReading
	for _, r := range a.runs {
		if !r.used() {
			continue
		}
		all = append(all, r.reading())
		switch r.Use {
		case useBefore:
			before = append(before, r.reading())
		case useAfter:
			after = append(after, r.reading())
		}
	}
	var err error
	if a.trend, err = plating.EfficiencyTrend(all); err != nil {
		a.noTrend = plain(err)
	}
	if len(before) == 0 || len(after) == 0 {
		a.noChange = "mark at least one run as before and one as after"
		return
	}
	if a.change, err = plating.CompareStates(before, after); err != nil {
		a.noChange = plain(err)
	}
}

// plain returns an error's words without the package's name.
func plain(err error) string {
	const prefix = "plating: "
	text := err.Error()
	if len(text) > len(prefix) && text[:len(prefix)] == prefix {
		return text[len(prefix):]
	}
	return text
}

// guess is the efficiency about which the load is worked out.
const guess = 0.95

// askLoad works out the load that the question needs.
func (a *answer) askLoad() error {
	gain, err := a.nickel.MassOfCoat(a.in.CouponThickness, a.in.CouponArea)
	if err != nil {
		return notebook.InField("coupon-thickness", err)
	}
	gainU := a.in.scale().GainU()
	a.need.couponGain, a.need.couponU = gain, float64(gainU/gain)
	q := plating.Question{Change: a.in.Change, Efficiency: guess, Coverage: a.in.Coverage, States: 2}
	a.need.allowed = a.in.Change / (a.in.Coverage * math.Sqrt2 * guess)
	if a.need.gain, err = q.GainNeeded(gainU); err != nil {
		return notebook.InField("change", err)
	}
	a.need.coupons = int(math.Ceil(math.Min(float64(a.need.gain/gain), 1e6)))
	if a.need.runs, err = q.RunsNeeded(a.need.couponU); err != nil {
		a.need.noFewCoupon = plain(err)
	}
	return nil
}

// addRuns adds the table of all runs.
func (a answer) addRuns(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "runs-table", Title: "Every run, weighed",
		Columns: []notebook.Column{notebook.Col("Run"), notebook.ColIn("Gain", notebook.Masses), notebook.Col("pH"),
			notebook.ColIn("Efficiency", notebook.Percents), notebook.ColIn("of it from the scale", notebook.Percents), notebook.Col("Used")}}
	impossible := 0
	for _, r := range a.runs {
		efficiency := notebook.Val(notebook.Of(r.Efficiency, r.U, notebook.Percents))
		use := r.Use
		if r.impossible != "" {
			impossible++
			efficiency, use = efficiency.Marked("cannot be"), "left out: "+r.impossible
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Val(notebook.Whole(r.number)),
			notebook.Val(notebook.Of(r.Gain, r.GainU, notebook.Masses)), notebook.Val(notebook.Stepped(r.PH, 0.1, notebook.Numbers)), efficiency,
			notebook.Val(notebook.Exact(r.Shares[0].U, notebook.Percents).WithDigits(2)), notebook.Str(use)})
	}
	v := notebook.Verdict{Name: "sound", Tone: notebook.Good, Text: notebook.Plain("No run contradicts the law of charge and mass.")}
	if impossible > 0 {
		v.Tone = notebook.Stop
		v.Text = notebook.Plain(fmt.Sprintf("%d of %d runs cannot be true and are left out; the table says why.", impossible, len(a.runs)))
	}
	sheet.Add(table, v)
	return nil
}

// addTrend adds the line of efficiency against pH.
func (a answer) addTrend(sheet *notebook.Sheet) error {
	at := notebook.Figure{Name: "at-ph", Label: "Efficiency at the pH asked for", Unknown: a.noTrend}
	slope := notebook.Figure{Name: "slope", Label: "Change for one unit of pH", Unknown: a.noTrend}
	verdict := notebook.Verdict{Name: "trend", Tone: notebook.Note, Text: notebook.Plain("No line can be drawn: " + a.noTrend + ".")}
	if a.noTrend == "" {
		e, u := a.trend.At(a.in.PH)
		at.Value, slope.Value = notebook.Of(e, u, notebook.Percents), notebook.Of(a.trend.Slope, a.trend.SlopeU, notebook.Percents)
		verdict = a.trendVerdict(e, u)
	}
	chart, err := a.trendChart()
	if err != nil {
		return err
	}
	sheet.Add(at, slope, verdict, chart)
	return nil
}

// trendVerdict says whether the efficiency follows the pH.
func (a answer) trendVerdict(e, u float64) notebook.Verdict {
	ph := notebook.Exact(a.in.PH, notebook.Numbers).WithDigits(2)
	slope := notebook.Of(a.trend.Slope, a.trend.SlopeU, notebook.Percents)
	count := notebook.Of(e, u, notebook.Percents)
	switch {
	case a.trend.Slope < -2*a.trend.SlopeU:
		return notebook.Verdict{Name: "trend", Tone: notebook.Watch, Text: notebook.Say(
			"The efficiency falls as the pH rises, {u} for one unit. Count on {u} at pH {}, and add acid before it rises further.", slope, count, ph)}
	case a.trend.Slope > 2*a.trend.SlopeU:
		return notebook.Verdict{Name: "trend", Tone: notebook.Watch, Text: notebook.Say(
			"The efficiency rises with the pH, {u} for one unit, which is not what a nickel bath does near pH 4: look for what else changed.", slope)}
	}
	return notebook.Verdict{Name: "trend", Tone: notebook.Note, Text: notebook.Say(
		"These runs do not show that the efficiency follows the pH. Count on {u} at pH {}.", count, ph)}
}

// addChange adds the difference of the two states.
func (a answer) addChange(sheet *notebook.Sheet) error {
	before := notebook.Figure{Name: "state-before", Label: "Before", Unknown: a.noChange}
	after := notebook.Figure{Name: "state-after", Label: "After", Unknown: a.noChange}
	change := notebook.Figure{Name: "change", Label: "Change", Unknown: a.noChange}
	verdict := notebook.Verdict{Name: "news", Tone: notebook.Note, Text: notebook.Plain("Nothing to compare: " + a.noChange + ".")}
	if a.noChange == "" {
		d := a.change
		before.Value = notebook.Of(d.Before.Efficiency, d.Before.U, notebook.Percents)
		after.Value = notebook.Of(d.After.Efficiency, d.After.U, notebook.Percents)
		change.Value = notebook.Of(d.Change, d.U, notebook.Percents)
		times := notebook.Exact(math.Abs(d.InUncertainties()), notebook.Numbers).WithDigits(2)
		verdict = notebook.Verdict{Name: "news", Tone: notebook.Good, Text: notebook.Say(
			"The change of {u} is news: it is {} times its own standard uncertainty.", change.Value, times)}
		if math.Abs(d.InUncertainties()) < a.in.Coverage {
			verdict = notebook.Verdict{Name: "news", Tone: notebook.Watch, Text: notebook.Say(
				"The change of {u} is not told from scatter: it is only {} times its own standard uncertainty. Weigh a larger load.", change.Value, times)}
		}
	}
	sheet.Add(before, after, change, verdict)
	return nil
}

// addNeed adds the load that the question needs.
func (a answer) addNeed(sheet *notebook.Sheet) error {
	percent := notebook.Exact(a.in.Change, notebook.Percents).WithDigits(2)
	sheet.Add(
		notebook.Figure{Name: "gain-u", Label: "Standard uncertainty of one gain", Value: notebook.Exact(a.in.scale().GainU(), notebook.Masses).WithDigits(2)},
		notebook.Figure{Name: "coupon-gain", Label: "Gain of one coupon", Value: notebook.Of(a.need.couponGain, a.in.scale().GainU(), notebook.Masses)},
		notebook.Figure{Name: "gain-needed", Label: "Gain needed in each state", Value: notebook.Exact(a.need.gain, notebook.Masses).WithDigits(2)},
		notebook.Figure{Name: "coupons", Label: "Coupons to weigh together, in each state", Value: notebook.Whole(a.need.coupons)},
		notebook.Figure{Name: "runs-needed", Label: "Or single coupons, run and weighed one by one, in each state", Value: notebook.Whole(a.need.runs), Unknown: a.need.noFewCoupon},
		notebook.Verdict{Name: "need", Tone: notebook.Note, Text: notebook.Say(
			"To see a change of {} between two states, hang {} coupons at once and weigh them together, before and after.", percent, notebook.Whole(a.need.coupons))},
	)
	chart, err := a.needChart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}
