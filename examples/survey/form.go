package survey

import (
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

var (
	long = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine = []notebook.Unit{notebook.Micrometre, notebook.Thou}
	dial = []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre, notebook.InchUnit}
)

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fields := goalFields(in)
	for _, table := range []notebook.Field{sweepField(in), gaugeField(in), runField(in), barField(in), levelField(in), skimField(in), kneeField(in), jawField(in), holesField(in), costField(in)} {
		fields = append(fields, notebook.Grouped(table.Label, table)...)
	}
	fields = append(fields, notebook.Grouped("Sizes of the gauges and of the set-up", setUpFields(in)...)...)
	return append(fields, notebook.Grouped("How surely each reading is taken", sureFields(in)...)...)
}

// shown binds a dial reading in a table's column.
func shown(name string, p *unit.Length, label, help string) notebook.Field {
	return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: dial, Decimals: 3, Limits: notebook.Between(-100*mm, 100*mm)})
}

func travel(name string, p *unit.Length, label, help string) notebook.Field {
	return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: long, Limits: notebook.Between(-1500*mm, 1500*mm)})
}

func headChoice(p *string) notebook.Field {
	return notebook.Choice("head", p, notebook.Spec{Label: "Head", Help: "Before the head was set, or after.", Options: []string{found, left}})
}

func sweepField(in *Inputs) notebook.Field {
	return notebook.Rows("sweeps", &in.Sweep, notebook.Spec{Label: "Sweeps",
		Help: "One row a sweep, eight readings anticlockwise from the right, and back at the right. Empty the table if you have none.", MaxRows: 30},
		func(r *SweepRow) []notebook.Field {
			columns := []notebook.Field{headChoice(&r.Head), travel("travel", &r.Travel, "Travel X", "Positive with the table to the right.")}
			for i, place := range sweepPlaces {
				columns = append(columns, notebook.Measure(place.name, &r.Shown[i], notebook.Spec{Label: place.label,
					Help: "Plus: stem pushed in.", Units: []notebook.Unit{notebook.Thou, notebook.Millimetre, notebook.Micrometre, notebook.InchUnit}, Decimals: 2, Limits: notebook.Between(-100*mm, 100*mm)}))
			}
			return columns
		})
}

var sweepPlaces = []struct{ name, label string }{
	{"right", "Right"}, {"rear-right", "Rear right"}, {"rear", "Rear"}, {"rear-left", "Rear left"}, {"left", "Left"},
	{"front-left", "Front left"}, {"front", "Front"}, {"front-right", "Front right"}, {"closing", "Right again"},
}

func gaugeField(in *Inputs) notebook.Field {
	return notebook.Rows("gauge", &in.Gauge, notebook.Spec{Label: "Two-dial gauge at X = 0",
		Help: "One row a direction: first dial left, or in front; then the gauge turned half a turn.", MaxRows: 20},
		func(r *GaugeRow) []notebook.Field {
			return []notebook.Field{
				headChoice(&r.Head),
				notebook.Choice("axis", &r.Axis, notebook.Spec{Label: "Direction", Help: "X: the dials left and right. Y: front and back.", Options: []string{axisX, axisY}}),
				shown("b", &r.B, "First", "The dial at the left, or in front."), shown("c", &r.C, "Second", "The dial at the right, or at the back."),
				shown("b-turned", &r.BTurned, "First, turned", "The same dial, now on the other side."),
				shown("c-turned", &r.CTurned, "Second, turned", "The same dial, now on the other side."),
			}
		})
}

func runField(in *Inputs) notebook.Field {
	return notebook.Rows("run", &in.Run, notebook.Spec{Label: "Table run under a still dial", Help: "One row a place, on three tracks of the table.", MaxRows: 80},
		func(r *RunRow) []notebook.Field {
			return []notebook.Field{travel("travel", &r.Travel, "Travel X", "Positive with the table to the right."),
				shown("front", &r.Front, "Front track", "Plus: stem pushed in."), shown("middle", &r.Middle, "Middle track", "Plus: stem pushed in."),
				shown("rear", &r.Rear, "Rear track", "Plus: stem pushed in.")}
		})
}

func barField(in *Inputs) notebook.Field {
	return notebook.Rows("bar", &in.Bar, notebook.Spec{Label: "Ground bar, rolled over",
		Help: "One row a station: the marked edge up with the dial above it, then down with the dial below it.", MaxRows: 80},
		func(r *BarRow) []notebook.Field {
			return []notebook.Field{travel("travel", &r.Travel, "Travel X", "Positive with the table to the right."),
				shown("up", &r.Up, "Edge up", "Plus: stem pushed in."), shown("down", &r.Down, "Edge down", "Plus: stem pushed in.")}
		})
}

func levelField(in *Inputs) notebook.Field {
	reading := func(name string, p *float64, label, help string) notebook.Field {
		return notebook.Number(name, p, notebook.Spec{Label: label, Help: help, Limits: notebook.Between(-1000.0, 1000.0)})
	}
	return notebook.Rows("level", &in.Level, notebook.Spec{Label: "Level on the table, in divisions",
		Help: "One row a station, plus when the bubble runs toward the marked end.", MaxRows: 60},
		func(r *LevelRow) []notebook.Field {
			return []notebook.Field{travel("travel", &r.Travel, "Travel X", "Positive with the table to the right."),
				reading("along", &r.AlongNormal, "Along", "Marked end to the right."), reading("along-turned", &r.AlongTurned, "Along, turned", "Marked end to the left."),
				reading("across", &r.AcrossNormal, "Across", "Marked end to the back."), reading("across-turned", &r.AcrossTurned, "Across, turned", "Marked end to the front.")}
		})
}

func skimField(in *Inputs) notebook.Field {
	return notebook.Rows("skim", &in.Skim, notebook.Spec{Label: "Skimmed bar", Help: "Thickness along a bar skimmed in one setting.", MaxRows: 60},
		func(r *SkimRow) []notebook.Field {
			return []notebook.Field{travel("place", &r.Place, "Place u", "On the table, right of its middle positive."),
				notebook.Measure("thickness", &r.Thickness, notebook.Spec{Label: "Thickness", Help: "By micrometer.", Units: long, Decimals: 3, Limits: notebook.AboveUpTo(0*mm, 500*mm)})}
		})
}

func kneeField(in *Inputs) notebook.Field {
	return notebook.Rows("knee", &in.Knee, notebook.Spec{Label: "Square on the table, knee raised", Help: "One row a height: the square as marked and turned end for end, in x and in y.", MaxRows: 40},
		func(r *KneeRow) []notebook.Field {
			return []notebook.Field{travel("raised", &r.Raised, "Knee raised", "From where the dials were zeroed."),
				shown("marked-x", &r.MarkedX, "Marked, x", "Plus: the blade has come toward the dial at the right."), shown("marked-y", &r.MarkedY, "Marked, y", "Dial at the back."),
				shown("turned-x", &r.TurnedX, "Turned, x", "The square end for end."), shown("turned-y", &r.TurnedY, "Turned, y", "The square end for end.")}
		})
}

func jawField(in *Inputs) notebook.Field {
	return notebook.Rows("jaw", &in.Jaw, notebook.Spec{Label: "Jaw run", Help: "A dial at the vise's fixed jaw, pointing to the column, while the table travels.", MaxRows: 40},
		func(r *JawRow) []notebook.Field {
			return []notebook.Field{travel("along", &r.Along, "Place on the jaw", "Right of the jaw's middle positive."), shown("shown", &r.Shown, "Dial", "Plus: stem pushed in.")}
		})
}

func holesField(in *Inputs) notebook.Field {
	size := func(name string, p *unit.Length, label, help string) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: long, Decimals: 3, Limits: notebook.AboveUpTo(0*mm, 2000*mm)})
	}
	return notebook.Rows("holes", &in.Holes, notebook.Spec{Label: "Four holes, both diagonals", Help: "One row a rectangle stepped off on the dials.", MaxRows: 10},
		func(r *HolesRow) []notebook.Field {
			return []notebook.Field{size("a", &r.A, "Side along x", "As dialled."), size("b", &r.B, "Side along y", "As dialled."),
				size("rising", &r.Rising, "Front left to rear right", "Over pins."), size("falling", &r.Falling, "Front right to rear left", "Over pins.")}
		})
}

func setUpFields(in *Inputs) []notebook.Field {
	size := func(name string, p *unit.Length, label, help string) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: long, Limits: notebook.AboveUpTo(0*mm, 2000*mm)})
	}
	return []notebook.Field{
		size("radius", &in.Radius, "Radius of the sweep", "From the spindle's centre to the stylus tip."),
		notebook.Number("gain", &in.Gain, notebook.Spec{Label: "Gain of the sweep's dial", Help: "What the dial shows for one unit of true height; 1 when you have not checked it.", Limits: notebook.Between(0.5, 2.0)}),
		size("span", &in.Span, "Span of the two-dial gauge", "Between the two styli."),
		size("track", &in.Track, "Outer tracks from the middle", "Of the table run."),
		travel("jaw-middle", &in.JawMiddle, "Middle of the jaw", "Right of the table's middle positive."),
		size("jaw-width", &in.JawWidth, "Width of the jaw", "The hollow is told over it."),
		notebook.Measure("bearing", &in.Bearing, notebook.Spec{Label: "Bearing length of the table on the saddle",
			Help:  "Along x, between the two places that carry a worn table, near the ends of the saddle. 0 when you do not know.",
			Units: long, Limits: notebook.Between(0*mm, 2000*mm)}),
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of the level", Help: "Engraved beside the vial.",
			Units:  []notebook.Unit{notebook.MillimetrePerMetre, notebook.ArcSecond, notebook.ThouPerFoot, notebook.MicrometrePerMetre},
			Limits: notebook.AboveUpTo(squaring.Slope(0), 10*squaring.MillimetrePerMetre)}),
	}
}

func sureFields(in *Inputs) []notebook.Field {
	sure := func(name string, p *unit.Length, label string) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: "Standard uncertainty of one reading: step over the square root of 12, and what hysteresis and setting add.",
			Units: fine, Limits: notebook.Between(0.01*um, 1000*um)})
	}
	return []notebook.Field{
		sure("sweep-u", &in.SweepU, "Uncertainty, sweep's dial"),
		sure("gauge-u", &in.GaugeU, "Uncertainty, second dial less first"),
		sure("dial-u", &in.DialU, "Uncertainty, fine dial"),
		notebook.Measure("level-u", &in.LevelU, notebook.Spec{Label: "Uncertainty, level", Help: "Standard uncertainty of one reading, as a slope.",
			Units: []notebook.Unit{notebook.MicrometrePerMetre, notebook.ArcSecond}, Limits: notebook.Between(0.01*squaring.Microradian, 10000*squaring.Microradian)}),
		sure("micrometer-u", &in.MicrometerU, "Uncertainty, micrometer"),
		sure("hole-u", &in.HoleU, "Uncertainty, one diagonal"),
	}
}

func goalFields(in *Inputs) []notebook.Field {
	return []notebook.Field{
		notebook.Choice("setting", &in.Head, notebook.Spec{Label: "The head now stands", Help: "The setting that you will cut with.", Options: []string{found, left}}),
		notebook.Measure("place", &in.Place, notebook.Spec{Label: "Place of the work on the table", Help: "Its middle, right of the table's middle positive.",
			Units: long, Limits: notebook.Between(-1500*mm, 1500*mm)}),
		notebook.Measure("length", &in.Length, notebook.Spec{Label: "Length of the part", Help: "Along the table.", Units: long, Limits: notebook.AboveUpTo(0*mm, 2000*mm)}),
		notebook.Measure("depth", &in.Depth, notebook.Spec{Label: "Depth of a hole by the quill", Help: "At the work.", Units: long, Limits: notebook.AboveUpTo(0*mm, 500*mm)}),
		notebook.Choice("goal", &in.Goal, notebook.Spec{Label: "What matters most", Help: "The next reading is chosen for it.",
			Options: []string{goalBow, goalSide, goalNod, goalKneeX, goalKneeY}}),
	}
}

// costField binds what each kind of reading takes.
func costField(in *Inputs) notebook.Field {
	return notebook.Rows("costs", &in.Costs, notebook.Spec{Label: "What a reading takes", Help: "Set-up included. Leave out a row and that reading is not proposed.", MaxRows: 12},
		func(r *CostRow) []notebook.Field {
			return []notebook.Field{
				notebook.Choice("kind", &r.Kind, notebook.Spec{Label: "Reading", Help: "One kind a row.", Options: kindNames()}),
				notebook.Measure("time", &r.Time, notebook.Spec{Label: "Time", Help: "For one set of readings.", Units: []notebook.Unit{notebook.Minute, notebook.Hour},
					Limits: notebook.Between(minutes(0.1), minutes(6000))}),
			}
		})
}
