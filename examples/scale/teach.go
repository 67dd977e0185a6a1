package scale

import (
	"errors"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/plating"
)

// addDrawing draws coupons on the scale, as many as the question needs up to
// six.
func (a answer) addDrawing(sheet *notebook.Sheet) error {
	c := drawing.New("pan", "Coupons weighed together",
		"A bench scale with several plated coupons on its pan. Its display shows the gain.", 420, 210)
	n := min(a.need.coupons, 6)
	c.Box(drawing.Body, drawing.Point{X: 90, Y: 130}, drawing.Point{X: 330, Y: 195}, 8)
	c.Box(drawing.Steel, drawing.Point{X: 110, Y: 112}, drawing.Point{X: 310, Y: 124}, 3)
	c.Line(drawing.Visible, drawing.Point{X: 210, Y: 124}, drawing.Point{X: 210, Y: 130})
	c.Box(drawing.Glass, drawing.Point{X: 150, Y: 145}, drawing.Point{X: 270, Y: 180}, 4)
	gain := a.need.couponGain * unit.Mass(a.need.coupons)
	c.Label(drawing.Point{X: 210, Y: 169}, drawing.Middle, notebook.Say("+{}", notebook.Stepped(gain, a.in.ScaleStep, notebook.Masses)))
	for i := range n {
		x := 210 - 26*(float64(n)-1)/2 + 26*float64(i)
		c.Box(drawing.Brass, drawing.Point{X: x - 10, Y: 52}, drawing.Point{X: x + 10, Y: 111}, 2)
		c.Circle(drawing.Visible, drawing.Point{X: x, Y: 58}, 2)
	}
	c.Leader(drawing.Point{X: 110, Y: 75}, drawing.End, "coupons", drawing.Point{X: 210 - 13*(float64(n)-1) - 4, Y: 80})
	item, err := c.Item(notebook.Say("{} coupons of your size gain {} together; the scale's standard uncertainty stays {}. Up to six are drawn.",
		notebook.Whole(a.need.coupons), notebook.Exact(gain, notebook.Masses), notebook.Exact(a.in.scale().GainU(), notebook.Masses).WithDigits(1)))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// addEffect says what a wrong efficiency does to the next part.
func (a answer) addEffect(sheet *notebook.Sheet) error {
	const wanted = 25 * um
	off := unit.Length(a.in.Change/guess) * wanted
	sheet.Add(notebook.Verdict{Name: "effect", Tone: notebook.Note, Text: notebook.Say(
		"Counting on an efficiency that is wrong by {} of the charge makes a coat of {} wrong by {}, and the pitch diameter of a screw by {}.",
		notebook.Exact(a.in.Change, notebook.Percents).WithDigits(2), notebook.Exact(wanted, notebook.FineLengths).WithDigits(2),
		notebook.Exact(off, notebook.FineLengths).WithDigits(2), notebook.Exact(4*off, notebook.FineLengths).WithDigits(2))})
	return nil
}

// benchScale is the action shop's scale.
func benchScale() plating.Scale {
	return plating.Scale{Resolution: actionshop.ScaleStep, Handling: actionshop.ScaleHandling}
}

// addWrong adds the numbers that correct what people say.
func (a answer) addWrong(sheet *notebook.Sheet) error {
	rounding := plating.Scale{Resolution: actionshop.ScaleStep}.GainU()
	coupon := actionshop.PlatingLog()[5]
	gain := coupon.After - coupon.Before
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	mass := func(m unit.Mass, digits int) notebook.Quantity {
		return notebook.Exact(m, notebook.Masses).WithDigits(digits)
	}
	percent := func(x float64, digits int) notebook.Quantity {
		return notebook.Exact(x, notebook.Percents).WithDigits(digits)
	}
	note("wrong-step", notebook.Say("A gain is the difference of two readings, each rounded: {} from a scale that reads {}, and wet corners and fingers double it.",
		mass(rounding, 2), mass(actionshop.ScaleStep, 1)))
	note("wrong-coupon", notebook.Say("One coupon gains {}, and the scale leaves {} of that open.", mass(gain, 2), percent(float64(benchScale().GainU()/gain), 1)))
	note("wrong-average", notebook.Say("Four single coupons, averaged, are known to {}. Four weighed together are known to {}, for one weighing instead of four.",
		percent(float64(benchScale().GainU()/gain)/2, 1), percent(float64(benchScale().GainU()/gain)/4, 1)))
	over, err := plating.Run{Deposit: a.nickel, Scale: benchScale(), Before: []unit.Mass{coupon.Before}, After: []unit.Mass{coupon.After + 0.05*gram},
		Current: coupon.Current, CurrentU: 0.003 * unit.Ampere, Time: coupon.Time, TimeU: 5 * unit.Second}.Efficiency()
	var implausible *plating.ImplausibleError
	if err != nil && !errors.As(err, &implausible) {
		return err
	}
	note("wrong-wet", notebook.Say("A drop of water left in a bore, {}, turns an honest run into {}: more metal than the charge can lay down.", mass(0.05*gram, 1), percent(over.Efficiency, 3)))
	return nil
}

// addChecks sets the law beside published figures.
func (a answer) addChecks(sheet *notebook.Sheet) error {
	copper, err := plating.Copper().Deposit().Mass(1*plating.AmpereHour, 1)
	if err != nil {
		return err
	}
	nickel, err := a.nickel.Mass(1*plating.AmpereHour, 1)
	if err != nil {
		return err
	}
	sheet.Add(
		notebook.CheckRow("check-silver", "plating-silver", float64(plating.Silver().Equivalent()/plating.MilligramPerCoulomb)),
		notebook.CheckRow("check-copper", "plating-copper-ampere-hour", float64(copper/gram)),
		notebook.CheckRow("check-nickel", "plating-nickel-ampere-hour", float64(nickel/gram)),
		notebook.Caution{Name: "caution-coupon", Text: notebook.Plain("A coupon out of the bath is covered with nickel salts. Rinse it over the tank, then twice in water that is kept as waste, and dry it, before it comes near the scale or a bare hand.")},
	)
	return nil
}
