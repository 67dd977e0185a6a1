// Package depthmotion is the lesson "From depth to motion and back": whether the
// wear of the ways explains how the table tips and sinks, and what wear the motion
// tells in return.
package depthmotion

import (
	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Pocket is one place with what is left of its pockets on both ways.
type Pocket struct {
	Place      unit.Length
	Front      unit.Length
	FrontFound int
	Rear       unit.Length
	RearFound  int
}

// Level is one station of the level, in divisions.
type Level struct {
	Travel                     unit.Length
	AlongNormal, AlongTurned   float64
	AcrossNormal, AcrossTurned float64
}

// Run is the dial on three tracks at one travel.
type Run struct {
	Travel, Front, Middle, Rear unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Pockets []Pocket
	Levels  []Level
	Runs    []Run
	// New is the depth of the pockets when new, NewU its standard uncertainty,
	// Spread that of single ones, Floor the least depth that can be found, Total
	// how many were looked for.
	New, NewU, Spread, Floor unit.Length
	Total                    int
	// Division is the slope of one division, ReadTo the fraction it is read to.
	Division wear.Slope
	ReadTo   float64
	// DialU is the standard uncertainty of a reading of the dial, Track how far
	// the outer tracks lie from the middle one, TopBow how far the top of the
	// table may be bowed.
	DialU, Track, TopBow unit.Length
	// Bearing and Apart say where the table bears; Width is that of a way, Load
	// the weight on them, Give how far the faces give under 1 MPa.
	Bearing, Apart, Width, Give unit.Length
	Load                        unit.Force
}

// Defaults returns the action shop's readings of 2025.
func Defaults() Inputs {
	in := Inputs{New: actionshop.FlakingNew, NewU: 1.5 * um, Spread: 6.2 * um, Floor: 3 * um, Total: actionshop.PocketsLookedFor,
		Division: actionshop.LevelDivision, ReadTo: 0.5, DialU: 0.8 * um, Track: actionshop.RunTrack, TopBow: 10 * um,
		Bearing: actionshop.BearingLength, Apart: 190 * mm, Width: 40 * mm, Give: 0.5 * um, Load: 2500 * unit.Newton}
	_, pockets := actionshop.SecondPockets()
	for _, p := range pockets {
		in.Pockets = append(in.Pockets, Pocket(p))
	}
	_, levels := actionshop.SecondLevelSurvey()
	for _, l := range levels {
		in.Levels = append(in.Levels, Level(l))
	}
	_, runs := actionshop.SecondTableRun()
	for _, r := range runs {
		in.Runs = append(in.Runs, Run(r))
	}
	return in
}

var (
	lengths = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine    = []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre, notebook.InchUnit}
)

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	fields := []notebook.Field{pocketsField(in), levelsField(in), runsField(in)}
	small := notebook.Between(0*um, 1000*um)
	fields = append(fields, notebook.Grouped("The flaking when new",
		notebook.Measure("new", &in.New, notebook.Spec{Label: "Depth of the pockets when new", Help: "The mean where nothing has run: under the end caps.", Units: fine, Limits: small}),
		notebook.Measure("new-u", &in.NewU, notebook.Spec{Label: "That mean is sure to", Help: "The spread over the square root of how many were measured.", Units: fine, Limits: small}),
		notebook.Measure("spread", &in.Spread, notebook.Spec{Label: "Single pockets differ by", Help: "One standard deviation.", Units: fine, Limits: notebook.AboveUpTo(0*um, 1000*um)}),
		notebook.Measure("floor", &in.Floor, notebook.Spec{Label: "Shallowest pocket you can find", Help: "With the light and the gauge you use.", Units: fine, Limits: small}),
		notebook.Count("total", &in.Total, notebook.Spec{Label: "Pockets looked for", Help: "At each place, on each way.", Limits: notebook.Between(1.0, 1000.0)}))...)
	fields = append(fields, notebook.Grouped("The level and the dial",
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of the level", Help: "Engraved beside the vial.",
			Units: []notebook.Unit{notebook.MillimetrePerMetre, notebook.ArcSecond, notebook.ThouPerFoot, notebook.MicrometrePerMetre}, Limits: notebook.AboveUpTo(0, 10e-3)}),
		notebook.Number("read-to", &in.ReadTo, notebook.Spec{Label: "Read to a fraction of a division", Help: "0.5 when you read to half a division.", Limits: notebook.AboveUpTo(0.0, 2.0)}),
		notebook.Measure("dial-u", &in.DialU, notebook.Spec{Label: "A reading of the dial is sure to", Help: "Standard uncertainty: about 0.3 of a division, and what it repeats to.", Units: fine, Limits: notebook.Between(0.01*um, 1000*um)}),
		notebook.Measure("track", &in.Track, notebook.Spec{Label: "Outer tracks from the middle", Help: "Across the table.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 2000*mm)}),
		notebook.Measure("top-bow", &in.TopBow, notebook.Spec{Label: "The table's top may be bowed by", Help: "Standard uncertainty, over the length of the run. 0 when the dial runs on a straight reference.", Units: fine, Limits: small}))...)
	return append(fields, notebook.Grouped("How the table bears",
		notebook.Measure("bearing", &in.Bearing, notebook.Spec{Label: "Bearing length of the table on the saddle", Help: "Along x, between the two places that carry the table.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 3000*mm)}),
		notebook.Measure("apart", &in.Apart, notebook.Spec{Label: "Ways apart", Help: "Across, middle to middle.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 3000*mm)}),
		notebook.Measure("width", &in.Width, notebook.Spec{Label: "Width of one way", Help: "The face that bears.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 500*mm)}),
		notebook.Measure("load", &in.Load, notebook.Spec{Label: "Weight on the ways", Help: "Table, vise and work.", Units: []notebook.Unit{notebook.Newton, notebook.PoundForce}, Limits: notebook.AboveUpTo(0*unit.Newton, 1e5*unit.Newton)}),
		notebook.Measure("give", &in.Give, notebook.Spec{Label: "The faces give under 1 MPa by", Help: "0.1 to 1 µm for scraped iron (common practice).", Units: fine, Limits: notebook.Between(0.001*um, 100*um)}))...)
}

func travel(p *unit.Length) notebook.Field {
	return notebook.Measure("travel", p, notebook.Spec{Label: "Travel X", Help: "Positive with the table to the right.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)})
}

func pocketsField(in *Inputs) notebook.Field {
	depth, found := notebook.Between(0*um, 1000*um), notebook.Between(0.0, 1000.0)
	return notebook.Rows("pockets", &in.Pockets, notebook.Spec{Label: "Flaking that is left", MinRows: 3, MaxRows: 30, Help: "Means of the pockets that were found; 0 where none was."}, func(r *Pocket) []notebook.Field {
		return []notebook.Field{
			notebook.Measure("place", &r.Place, notebook.Spec{Label: "Place u", Help: "Right of the table's middle positive.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
			notebook.Measure("front", &r.Front, notebook.Spec{Label: "Front, depth", Help: "On the front way.", Units: fine[:2], Limits: depth}),
			notebook.Count("front-found", &r.FrontFound, notebook.Spec{Label: "Front, found", Help: "How many.", Limits: found}),
			notebook.Measure("rear", &r.Rear, notebook.Spec{Label: "Rear, depth", Help: "On the rear way.", Units: fine[:2], Limits: depth}),
			notebook.Count("rear-found", &r.RearFound, notebook.Spec{Label: "Rear, found", Help: "How many.", Limits: found}),
		}
	})
}

func levelsField(in *Inputs) notebook.Field {
	reading := func(column string, p *float64, label, help string) notebook.Field {
		return notebook.Number(column, p, notebook.Spec{Label: label, Help: help, Limits: notebook.Between(-1000.0, 1000.0)})
	}
	return notebook.Rows("levels", &in.Levels, notebook.Spec{Label: "Level on the table", MinRows: 3, MaxRows: 25, Help: "In divisions, plus when the bubble runs toward the marked end."}, func(r *Level) []notebook.Field {
		return []notebook.Field{travel(&r.Travel),
			reading("along", &r.AlongNormal, "Along", "Marked end right."), reading("along-turned", &r.AlongTurned, "Along, turned", "Marked end left."),
			reading("across", &r.AcrossNormal, "Across", "Marked end back."), reading("across-turned", &r.AcrossTurned, "Across, turned", "Marked end front.")}
	})
}

func runsField(in *Inputs) notebook.Field {
	reading := func(column string, p *unit.Length, label string) notebook.Field {
		return notebook.Measure(column, p, notebook.Spec{Label: label, Help: "Plus when the table has risen.", Units: fine, Limits: notebook.Between(-10*mm, 10*mm)})
	}
	return notebook.Rows("runs", &in.Runs, notebook.Spec{Label: "Table run under a still dial", MinRows: 3, MaxRows: 25, Help: "Three tracks, each zeroed at its first place."}, func(r *Run) []notebook.Field {
		return []notebook.Field{travel(&r.Travel), reading("front", &r.Front, "Front"), reading("middle", &r.Middle, "Middle"), reading("rear", &r.Rear, "Rear")}
	})
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "depthmotion",
		Title:    "From depth to motion and back",
		Question: "My ways are worn and my table tips. Does the one explain the other?",
		Asked:    "Does the wear explain the motion?",
		Track:    notebook.Ways,
		Summary:  "Wear foretells how the table rides; the level and the dial tell the wear in return, and the pockets tell what motion cannot.",
		Minutes:  15,
		After:    []string{"pockets", "bubble"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	readings, err := gather(in)
	if err != nil {
		return nil, err
	}
	a, err := answer(in, readings)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		func(s *notebook.Sheet) error { return setUp(s, a) },
		func(s *notebook.Sheet) error { return forwardItems(s, a) },
		func(s *notebook.Sheet) error { return backItems(s, a) },
		func(s *notebook.Sheet) error { return mythItems(s, a) },
		exercises,
		checks,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
