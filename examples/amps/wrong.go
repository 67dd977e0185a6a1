package amps

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// addEffects adds what the coat does to sizes and fits.
func (a answer) addEffects(sheet *notebook.Sheet) error {
	thread, err := plating.PitchDiameterFactor(plating.ISOThread)
	if err != nil {
		return err
	}
	features := []struct {
		name   string
		factor float64
	}{
		{"Thickness of a plate, both faces", 2},
		{"Diameter of a pin", 2},
		{"Diameter of a bore", -2},
		{"Pitch diameter of a 60° screw", thread},
		{"Pitch diameter of a 60° nut", -thread},
	}
	table := notebook.Table{Name: "growth-table", Title: "How sizes change",
		Columns: []notebook.Column{notebook.Col("Size"), notebook.ColIn("At the mean", notebook.FineLengths), notebook.ColIn("At the thickest place", notebook.FineLengths)},
		Note:    notebook.Plain("Bores and nuts shrink, so their figures are negative. A deep bore takes less than the mean.")}
	for _, f := range features {
		grow := func(t, u unit.Length) notebook.Cell {
			factor := unit.Length(f.factor)
			return notebook.Val(notebook.Of(factor*t, max(factor, -factor)*u, notebook.FineLengths))
		}
		scale := unit.Length(a.in.Thickest)
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(f.name),
			grow(a.setting.Mean, a.setting.MeanU), grow(a.setting.Thickest, a.setting.MeanU*scale)})
	}
	sheet.Add(table)
	return a.addThreadVerdict(sheet)
}

// addThreadVerdict says whether the coat fits the allowance of the shop's
// smallest screw.
func (a answer) addThreadVerdict(sheet *notebook.Sheet) error {
	allowance, _, err := plating.Allowance(0.7*mm, plating.PositionG)
	if err != nil {
		return err
	}
	limit, err := plating.FlankThicknessLimit(allowance, plating.ISOThread)
	if err != nil {
		return err
	}
	limitQ, allowanceQ := notebook.Exact(limit, notebook.FineLengths), notebook.Exact(allowance, notebook.FineLengths)
	v := notebook.Verdict{Name: "thread", Tone: notebook.Watch, Text: notebook.Say(
		"On an M4 × 0.7 screw at 6g this mean uses up more than the allowance of {}: only {} on the flanks fits, so cut the thread smaller or plate it thinner.", allowanceQ, limitQ)}
	if a.setting.Mean <= limit {
		v.Tone, v.Text = notebook.Good, notebook.Say("An M4 × 0.7 screw at 6g has an allowance of {}, room for {} on the flanks: this mean fits if the flanks take no more than the mean.", allowanceQ, limitQ)
	}
	sheet.Add(v, a.spotsVerdict())
	return nil
}

// spotsVerdict says what a micrometer found on an escutcheon of run 3.
func (a answer) spotsVerdict() notebook.Verdict {
	spots := actionshop.PlateSpots()
	corner, middle := spots[0].Growth, spots[2].Growth
	fine := func(t unit.Length) notebook.Quantity { return notebook.Exact(t, notebook.FineLengths) }
	return notebook.Verdict{Name: "spots", Tone: notebook.Note, Text: notebook.Say(
		"By micrometer the middle of an escutcheon of run 3 grew {} over two faces, so {} of nickel; its corner grew {}, so {}. One run, one mean.",
		fine(middle).WithDigits(2), fine(middle/2), fine(corner).WithDigits(2), fine(corner/2))}
}

// ninetyFive is the efficiency of the misconceptions and exercises.
const ninetyFive = 0.95

// meanAfter returns the mean thickness after a time.
func (a answer) meanAfter(j plating.CurrentDensity, t unit.Time) (notebook.Quantity, error) {
	c, err := plating.Coat{Deposit: a.nickel, CurrentDensity: j, Time: t, Efficiency: ninetyFive}.Solve()
	return notebook.Exact(c.Thickness, notebook.FineLengths), err
}

// addWrong adds the numbers that correct what people say.
func (a answer) addWrong(sheet *notebook.Sheet) error {
	hour, err := a.nickel.Mass(1*plating.AmpereHour, 1)
	if err != nil {
		return err
	}
	slow, err := a.meanAfter(1*plating.AmperePerSquareDecimetre, 30*minute)
	if err != nil {
		return err
	}
	fast, err := a.meanAfter(3*plating.AmperePerSquareDecimetre, 30*minute)
	if err != nil {
		return err
	}
	density := func(x float64) notebook.Quantity {
		return notebook.Exact(plating.CurrentDensity(x)*plating.AmperePerSquareDecimetre, notebook.CurrentDensities)
	}
	length := func(x float64) notebook.Quantity {
		return notebook.Exact(unit.Length(x)*um, notebook.FineLengths).WithDigits(2)
	}
	thread, err := plating.PitchDiameterGrowth(20*um, plating.ISOThread)
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	note("wrong-volts", notebook.Say("1 A·h lays down {} of nickel at 100 %, whatever the volts.", notebook.Exact(hour, notebook.Masses).WithDigits(4)))
	same, err := a.meanAfter(4*plating.AmperePerSquareDecimetre, 20*minute)
	if err != nil {
		return err
	}
	note("wrong-double", notebook.Say("20 min at {} and 40 min at {} do give the same mean, {}. The corners do not: 1.75 times a mean of {} is {}, and run 5 came out black there.",
		density(4), density(2), same, density(9), density(1.75*9)))
	note("wrong-half-hour", notebook.Say("30 min give {} at {} and {} at {}.", slow, density(1), fast, density(3)))
	note("wrong-twenty", notebook.Say("{} of nickel add {} to a diameter and {} to the pitch diameter of a 60° screw.",
		length(20), notebook.Exact(plating.DiameterGrowth(20*um), notebook.FineLengths).WithDigits(2), notebook.Exact(thread, notebook.FineLengths).WithDigits(2)))
	if err := a.noteNickel(note); err != nil {
		return err
	}
	return a.noteCoupon(note)
}

// noteNickel says what the bath book gained and lost.
func (a answer) noteNickel(note func(string, notebook.Text)) error {
	drag := plating.DragOut{PerArea: actionshop.DragOutPerArea, Dips: actionshop.DragOutDips}
	lost := plating.Bath{Volume: actionshop.BathVolume, Nickel: actionshop.BathNickel * plating.GramPerLitre}
	gained := lost
	for _, run := range actionshop.PlatingLog() {
		v, err := drag.Volume(run.Area)
		if err != nil {
			return err
		}
		if lost, err = lost.After(plating.Work{DragOut: v}); err != nil {
			return err
		}
		q := unit.Charge(float64(run.Current) * float64(run.Time))
		if gained, err = gained.After(plating.Work{Charge: q, CathodeEfficiency: ninetyFive, AnodeEfficiency: 1}); err != nil {
			return err
		}
	}
	start := notebook.Exact(actionshop.BathNickel*plating.GramPerLitre, gramsPerLitre).WithDigits(2)
	note("wrong-nickel", notebook.Say("Over the whole log the anode put {} of nickel into three litres and drag-out took {}, of {}. Acid is what goes: {}.",
		notebook.Exact(gained.Nickel-actionshop.BathNickel, gramsPerLitre).WithDigits(2),
		notebook.Exact(actionshop.BathNickel-lost.Nickel, gramsPerLitre).WithDigits(2), start,
		notebook.Exact(gained.AcidLost, notebook.Same(notebook.Unit{Symbol: "mol", Scale: 1})).WithDigits(2)))
	return nil
}

// gramsPerLitre shows a concentration.
var gramsPerLitre = notebook.Same(notebook.GramPerLitre)

// noteCoupon says what one coupon proves.
func (a answer) noteCoupon(note func(string, notebook.Text)) error {
	coupon := actionshop.PlatingLog()[5]
	scale := plating.Scale{Resolution: actionshop.ScaleStep, Handling: actionshop.ScaleHandling}
	relative := float64(scale.GainU() / (coupon.After - coupon.Before))
	need, err := plating.Question{Change: 0.01, Efficiency: 1, Coverage: 1, States: 1}.GainNeeded(scale.GainU())
	if err != nil {
		return err
	}
	note("wrong-coupon", notebook.Say("A coupon gained {u}: that is {} of it either way, so 95 % may be 93 or 97. To see 1 % the load must gain {} or more.",
		notebook.Of(coupon.After-coupon.Before, scale.GainU(), notebook.Masses),
		notebook.Exact(relative, notebook.Percents).WithDigits(1), notebook.Exact(need, notebook.Masses).WithDigits(1)))
	return nil
}
