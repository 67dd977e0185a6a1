// Package sinebar is the lesson "Sine bar and taper": what angle a taper is, what
// blocks set it, and how sure a sine bar is of it.
package sinebar

import (
	"fmt"
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// tapers shows a taper on diameter; arcs shows small angles.
var (
	tapers = notebook.Pair{Metric: notebook.MillimetrePerMetre, Inch: notebook.InchPerFoot}
	arcs   = notebook.Same(notebook.ArcSecond)
)

// own is the choice of a taper that is typed.
const own = "the taper typed below"

// standard is a taper with a name.
type standard struct {
	name  string
	taper squaring.Slope
}

// standards lists tapers by name, on diameter.
func standards() []standard {
	foot := func(inches float64) squaring.Slope { return squaring.Slope(inches) * squaring.InchPerFoot }
	return []standard{
		{"Morse 1", foot(0.5986)}, {"Morse 2", foot(0.5994)}, {"Morse 3", foot(0.6024)}, {"Morse 4", foot(0.6233)}, {"Morse 5", foot(0.6315)},
		{"Jarno", foot(0.6)}, {"steep machine taper, 7 in 24", 7.0 / 24},
	}
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Large and Small are two diameters of the cone, Apart the length between
	// them along the axis, with their standard uncertainties.
	Large, Small, DiameterU, Apart, ApartU unit.Length
	Nominal                                string
	Taper                                  squaring.Slope
	// Bar is the sine bar between its rollers, Block the smallest step in which
	// blocks can be built.
	Bar, BarU, Block, StackU unit.Length
	// Rise is what the dial reads at the small end less what it reads at the
	// large end along the top of the cone, Run the way between; RiseU is the
	// standard uncertainty of the rise.
	Rise, RiseU, Run unit.Length
	Limit            unit.Angle
}

// Defaults returns a Morse 3 shank of the action shop's own making.
func Defaults() Inputs {
	return Inputs{Large: 23.825 * mm, Small: 20.058 * mm, DiameterU: 2 * um, Apart: 75 * mm, ApartU: 0.02 * mm, Nominal: "Morse 3", Taper: 50 * squaring.MillimetrePerMetre,
		Bar: 100 * mm, BarU: 1 * um, Block: 0.005 * mm, StackU: 0.5 * um, Rise: -2 * um, RiseU: 1 * um, Run: 70 * mm, Limit: 20 * squaring.Arcsecond}
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Millimetre, notebook.Thou}
	measure := func(name, label, help string, units []notebook.Unit, limits notebook.Limits, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: units, Limits: limits})
	}
	names := []string{}
	for _, s := range standards() {
		names = append(names, s.name)
	}
	fields := []notebook.Field{
		measure("large", "Large diameter", "By micrometer over rollers or balls.", lengths, notebook.AboveUpTo(0*mm, 2000*mm), &in.Large),
		measure("small", "Small diameter", "The same way.", lengths, notebook.AboveUpTo(0*mm, 2000*mm), &in.Small),
		measure("apart", "How far apart", "Along the axis, between the two places.", lengths, notebook.AboveUpTo(0*mm, 5000*mm), &in.Apart),
		notebook.Choice("nominal", &in.Nominal, notebook.Spec{Label: "It should be", Help: "Tapers are given on diameter.", Options: append(names, own)}),
		notebook.Measure("taper", &in.Taper, notebook.Spec{Label: "Taper, if typed", Help: "Change of diameter for each length along the axis.",
			Units: []notebook.Unit{notebook.MillimetrePerMetre, notebook.InchPerFoot}, Limits: notebook.Between(0, 1.5)}),
		measure("rise", "Dial at the small end less at the large end", "Along the top of the cone, lying on the sine bar with its small end up.", fine, notebook.Between(-5*mm, 5*mm), &in.Rise),
		measure("run", "Way between the two readings", "Along the top of the cone.", lengths, notebook.AboveUpTo(0*mm, 2000*mm), &in.Run),
	}
	return append(fields, notebook.Grouped("Bar, blocks, doubt and limit",
		measure("bar", "Sine bar, between its rollers", "100 mm or 5 in, engraved on it.", lengths, notebook.Between(20*mm, 1000*mm), &in.Bar),
		measure("bar-u", "Standard uncertainty of it", "From its paper, else 1 µm.", fine, notebook.Between(0*mm, 0.1*mm), &in.BarU),
		measure("block", "Smallest step of the blocks", "A common set builds every 0.005 mm or 0.0001 in.", []notebook.Unit{notebook.Millimetre, notebook.InchUnit}, notebook.AboveUpTo(0*mm, 1*mm), &in.Block),
		measure("stack-u", "Standard uncertainty of a stack", "Of all its blocks together.", fine, notebook.Between(0*mm, 0.1*mm), &in.StackU),
		measure("diameter-u", "Standard uncertainty of a diameter", "Of one micrometer reading.", fine, notebook.Between(0*mm, 1*mm), &in.DiameterU),
		measure("apart-u", "Standard uncertainty of the way between", "A pin or a stop: 0.02 mm.", fine, notebook.Between(0*mm, 5*mm), &in.ApartU),
		measure("rise-u", "Standard uncertainty of the dial's difference", "Its rounding and scatter.", fine, notebook.Between(0*mm, 1*mm), &in.RiseU),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "The included angle may be out by", Help: "Either way.", Units: []notebook.Unit{notebook.ArcSecond, notebook.Degree}, Limits: notebook.AboveUpTo(0, 5*squaring.Degree)}),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "sinebar",
		Title:    "Sine bar and taper",
		Question: "What angle is this taper, what blocks set it, and is my shank on it?",
		Asked:    "I have a taper to check",
		Track:    notebook.Foundations,
		Summary: "A taper is a slope on both sides of an axis. Two diameters give it, a sine bar sets it, and a dial along the top says how far the cone is off; " +
			"each with its doubt, and why a sine bar is no use near a right angle.",
		Minutes: 9,
		After:   []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// worked is the taper both ways.
type worked struct {
	nominal  squaring.Slope
	included unit.Angle // nominal
	// taper is that of the two diameters, angle its included angle.
	taper  squaring.MeasuredSlope
	angle  squaring.MeasuredAngle
	stack  unit.Length // rounded to the blocks
	set    squaring.MeasuredAngle
	byDial squaring.MeasuredAngle // included angle by bar and dial
}

// work works both ways.
func (in Inputs) work() (worked, error) {
	w := worked{nominal: in.Taper}
	for _, s := range standards() {
		if s.name == in.Nominal {
			w.nominal = s.taper
		}
	}
	half, err := squaring.HalfAngleFromTaper(w.nominal)
	if err != nil {
		return w, notebook.InField("taper", err)
	}
	w.included = 2 * half
	if !(in.Large > in.Small) {
		return w, notebook.InField("large", fmt.Errorf("%.4g mm is not above the small diameter, %.4g mm", float64(in.Large/mm), float64(in.Small/mm)))
	}
	if w.taper.Slope, err = squaring.TaperFromDiameters(in.Large, in.Small, in.Apart); err != nil {
		return w, notebook.InField("apart", err)
	}
	m, err := squaring.MeasureSlope(in.Large-in.Small, in.DiameterU*math.Sqrt2, in.Apart, in.ApartU)
	if err != nil {
		return w, notebook.InField("apart", err)
	}
	w.taper.Uncertainty = m.Uncertainty
	if w.angle, err = included(w.taper); err != nil {
		return w, notebook.InField("large", err)
	}
	exact, err := squaring.SineBar{Length: in.Bar}.Stack(w.included)
	if err != nil {
		return w, notebook.InField("bar", err)
	}
	w.stack = in.Block * unit.Length(math.Round(float64(exact/in.Block)))
	w.set.Angle, w.set.Uncertainty, err = squaring.SineBar{Length: in.Bar, LengthU: in.BarU}.Angle(w.stack, in.StackU)
	if err != nil {
		return w, notebook.InField("block", err)
	}
	// The cone lies with its large end down the slope: a top line that is high at
	// the small end means that the cone tapers less than the bar is set.
	off, err := squaring.MeasureSlope(in.Rise, in.RiseU, in.Run, 0*mm)
	if err != nil {
		return w, notebook.InField("run", err)
	}
	w.byDial = squaring.MeasuredAngle{Angle: w.set.Angle - off.Slope.Angle(), Uncertainty: unit.Angle(math.Hypot(float64(w.set.Uncertainty), float64(off.Uncertainty)))}
	return w, nil
}

// included turns a taper into the included angle, with its uncertainty.
func included(t squaring.MeasuredSlope) (squaring.MeasuredAngle, error) {
	half, err := squaring.HalfAngleFromTaper(t.Slope)
	cos := math.Cos(float64(half))
	return squaring.MeasuredAngle{Angle: 2 * half, Uncertainty: unit.Angle(float64(t.Uncertainty) * cos * cos)}, err
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	w, err := in.work()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{setUpItems, coneItems, barItems, workItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
