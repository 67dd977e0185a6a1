// Package warmarm is the lesson "A warm arm": what a warm sweep arm, a warm part
// and a column warmed on one side do to a reading, and how long to wait.
package warmarm

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm     = unit.Milli * unit.Metre
	um     = unit.Micro * unit.Metre
	kelvin = unit.Temperature(1)
	minute = 60 * unit.Second
)

// reference is the temperature at which a length is its length (ISO 1).
const reference = unit.Temperature(293.15)

// perKelvin and perFahrenheit are the units of expansion, one pair for pages.
var (
	perKelvin  = notebook.Unit{Symbol: "µm/(m·K)", Plain: []string{"um/(m K)", "ppm/K", "1e-6/K"}, Scale: 1e-6}
	perRankine = notebook.Unit{Symbol: "µin/(in·°F)", Plain: []string{"uin/(in F)", "ppm/F"}, Scale: 1e-6 * 9 / 5}
	rankine    = notebook.Unit{Symbol: "°F step", Plain: []string{"F", "degF"}, Scale: 5.0 / 9}
	expansions = notebook.Pair{Metric: perKelvin, Inch: perRankine}
	steps      = notebook.Pair{Metric: notebook.Kelvin, Inch: rankine}
)

// Inputs is what the lesson asks for.
type Inputs struct {
	// Drop is the length of arm between spindle and stylus that lies along the
	// spindle; Warm how much warmer it is than the machine when the sweep
	// begins, and Cools the time in which that falls to a third.
	Drop          unit.Length
	Warm, WarmU   unit.Temperature
	Cools         unit.Time
	Arm, ArmU     squaring.Expansion
	Radius        unit.Length
	Count         int
	Takes         unit.Time
	Limit         squaring.Slope
	Part          unit.Length
	Metal, MetalU squaring.Expansion
	PartT, PartTU unit.Temperature
	GaugeT        unit.Temperature
	GaugeTU       unit.Temperature
	Gauge, GaugeU squaring.Expansion
	Height, Depth unit.Length
	Column        squaring.Expansion
	Front, FrontU unit.Temperature
}

// Defaults returns a hand-warm arm of 300 mm, an aluminium part just cut, and a
// column in the morning sun.
func Defaults() Inputs {
	return Inputs{
		Drop: 300 * mm, Warm: 5 * kelvin, WarmU: 1 * kelvin, Cools: 8 * minute, Arm: squaring.SteelExpansion, ArmU: 0.6e-6,
		Radius: 110 * mm, Count: 8, Takes: 4 * minute, Limit: 10 * squaring.Microradian,
		Part: 250 * mm, Metal: squaring.AluminiumExpansion, MetalU: 0.6e-6, PartT: 26 * kelvin, PartTU: 0.5 * kelvin,
		GaugeT: 22 * kelvin, GaugeTU: 0.5 * kelvin, Gauge: squaring.SteelExpansion, GaugeU: 0.6e-6,
		Height: 500 * mm, Depth: 200 * mm, Column: squaring.CastIronExpansion, Front: 1 * kelvin, FrontU: 0.3 * kelvin,
	}.absolute()
}

// absolute turns the two temperatures, written in degrees Celsius, into kelvins.
func (in Inputs) absolute() Inputs {
	in.PartT, in.GaugeT = in.PartT+273.15, in.GaugeT+273.15
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	measure := func(name, label, help string, limits notebook.Limits, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: lengths, Limits: limits})
	}
	step := func(name, label, help string, limits notebook.Limits, p *unit.Temperature) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: []notebook.Unit{notebook.Kelvin, rankine}, Limits: limits})
	}
	warmth := func(name, label, help string, p *unit.Temperature) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: []notebook.Unit{notebook.Celsius, notebook.Fahrenheit},
			Limits: notebook.Between(263.15*kelvin, 373.15*kelvin), Decimals: 1})
	}
	expands := func(name, label, help string, least squaring.Expansion, p *squaring.Expansion) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: []notebook.Unit{perKelvin, perRankine}, Limits: notebook.Between(least, 100e-6)})
	}
	lasts := func(name, label, help string, p *unit.Time) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: []notebook.Unit{notebook.Minute, notebook.Second}, Limits: notebook.Between(0.1*minute, 600*minute)})
	}
	fields := []notebook.Field{
		measure("drop", "Arm between spindle and stylus, along the spindle", "Only what lies along the axis moves the stylus up and down.", notebook.Between(0*mm, 2000*mm), &in.Drop),
		step("warm", "Arm warmer than the machine by", "A hand on it for a minute: about 5 K.", notebook.Between(-50*kelvin, 50*kelvin), &in.Warm),
		lasts("cools", "It cools to a third in", "Lay a contact thermometer on it, or take 5 to 15 minutes for a bar as thick as a thumb.", &in.Cools),
		measure("radius", "Radius of the sweep", "From the spindle's axis to the stylus.", notebook.Between(5*mm, 2000*mm), &in.Radius),
		notebook.Count("count", &in.Count, notebook.Spec{Label: "Readings in the round", Help: "Evenly round, the closing one not counted.", Limits: notebook.Between(3.0, 36.0)}),
		lasts("takes", "The round takes", "From the first reading to the closing one.", &in.Takes),
		measure("part", "Length of the part", "As measured.", notebook.AboveUpTo(0*mm, 5000*mm), &in.Part),
		warmth("part-t", "The part is at", "When it is measured.", &in.PartT),
		warmth("gauge-t", "The micrometer is at", "When the part is measured.", &in.GaugeT),
		step("front", "Column warmer in front than behind by", "Sun, a motor or a stove on one side; minus when the back is warmer.", notebook.Between(-50*kelvin, 50*kelvin), &in.Front),
	}
	return append(fields, notebook.Grouped("Metals, doubt and limit",
		step("warm-u", "Standard uncertainty of the arm's warmth", "Guessed by hand: 1 K.", notebook.Between(0*kelvin, 20*kelvin), &in.WarmU),
		expands("arm", "The arm expands by", "Steel 11.5, aluminium 23.1.", 0, &in.Arm),
		expands("arm-u", "Standard uncertainty of it", "A twentieth, if you know the kind of metal only.", 0, &in.ArmU),
		expands("metal", "The part expands by", "Steel 11.5, aluminium 23.1.", 0, &in.Metal),
		expands("metal-u", "Standard uncertainty of it", "A twentieth, if you know the kind of metal only.", 0, &in.MetalU),
		step("part-t-u", "Standard uncertainty of the part's temperature", "A contact thermometer: half a kelvin.", notebook.Between(0*kelvin, 20*kelvin), &in.PartTU),
		expands("gauge", "The micrometer expands by", "Steel 11.5.", 0, &in.Gauge),
		expands("gauge-u", "Standard uncertainty of it", "A twentieth.", 0, &in.GaugeU),
		step("gauge-t-u", "Standard uncertainty of its temperature", "Half a kelvin.", notebook.Between(0*kelvin, 20*kelvin), &in.GaugeTU),
		measure("height", "Height of the column from knee to head", "What is warmed.", notebook.Between(0*mm, 5000*mm), &in.Height),
		measure("depth", "Depth of the column, front to back", "The longer it is, the less it leans.", notebook.Between(20*mm, 5000*mm), &in.Depth),
		expands("column", "The column expands by", "Grey cast iron 10.8.", 0, &in.Column),
		step("front-u", "Standard uncertainty of the difference", "Half a kelvin or less.", notebook.Between(0*kelvin, 20*kelvin), &in.FrontU),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "False tilt that you bear", Help: "A fifth of what the work allows.",
			Units: []notebook.Unit{notebook.MicrometrePerMetre, notebook.MillimetrePer300, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3)}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "warmarm",
		Title:    "A warm arm",
		Question: "My hand was on the arm, the part came warm off the mill, the sun is on the column. How much of my reading is warmth?",
		Asked:    "Something is warm",
		Track:    notebook.Foundations,
		Summary: "Warm metal grows. An arm that cools while it sweeps makes a tilt that is not there; a part measured warm is small when it is cold; " +
			"a column warmed in front leans back. Each in micrometres, with how long to wait.",
		Minutes: 9,
		After:   []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// sweep is what a level table seems to do under a cooling arm.
type sweep struct {
	growth, growthU unit.Length
	at              []unit.Time
	readings        []unit.Length // one more than the count: the closing one
	// seems and closed are the tilts that seem to be there, without and with
	// the closing reading taken into account.
	seems, closed squaring.Slope
}

// left returns the share of the warmth that is left after a time.
func (in Inputs) left(t unit.Time) float64 {
	return math.Exp(-float64(t) / float64(in.Cools) * math.Log(3))
}

// sweep works out the round on a level table.
func (in Inputs) sweep() (sweep, error) {
	var s sweep
	var err error
	s.growth, s.growthU, err = squaring.Warming{Length: in.Drop, Expansion: in.Arm, ExpansionU: in.ArmU, Change: in.Warm, ChangeU: in.WarmU}.Growth()
	if err != nil {
		return s, notebook.InField("warm", err)
	}
	var round []squaring.SweepReading
	for i := range in.Count + 1 {
		at := in.Takes * unit.Time(i) / unit.Time(in.Count)
		s.at, s.readings = append(s.at, at), append(s.readings, s.growth*unit.Length(in.left(at)-1))
		if i < in.Count {
			round = append(round, squaring.SweepReading{Azimuth: 360 * squaring.Degree * unit.Angle(i) / unit.Angle(in.Count), Reading: s.readings[i]})
		}
	}
	plain, err := squaring.FitSweep(round, squaring.SweepOptions{Radius: in.Radius})
	if err != nil {
		return s, notebook.InField("radius", err)
	}
	closed, err := squaring.FitSweep(round, squaring.SweepOptions{Radius: in.Radius, Closing: &s.readings[in.Count]})
	s.seems, s.closed = plain.Tilt.Steepest(), closed.Tilt.Steepest()
	return s, notebook.InField("radius", err)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	s, err := in.sweep()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, sweep) error{setUpItems, armItems, partItems, columnItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, s); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
