// Package scale is the lesson "Will the scale see it?": what weighing says of a
// bath's efficiency, run by run and over a log, and what load it takes to see a
// change.
package scale

import (
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

const (
	um     = unit.Micro * unit.Metre
	gram   = unit.Milli * unit.Kilogram
	minute = 60 * unit.Second
)

// What a run is used for.
const (
	useTrend  = "trend"          // in the line against pH
	useBefore = "trend + before" // and in the first of two states
	useAfter  = "trend + after"  // and in the second
	useNot    = "left out"
)

// Row is one weighed run.
type Row struct {
	Current       unit.Current
	Time          unit.Time
	Before, After unit.Mass
	PH            float64
	Use           string
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Runs []Row
	// ScaleStep is the scale's step, Handling the standard uncertainty that
	// drying and touching add to a gain.
	ScaleStep, Handling unit.Mass
	// SupplyStep is the step of the supply's reading; Switching is how far a
	// time may be off either way.
	SupplyStep unit.Current
	Switching  unit.Time
	// PH is where the efficiency is wanted.
	PH float64
	// Change is the change of efficiency that is to be seen, Coverage by how
	// many standard uncertainties.
	Change, Coverage float64
	// CouponArea and CouponThickness are those of the usual coupon.
	CouponArea      unit.Area
	CouponThickness unit.Length
}

// Defaults returns the action shop's log: runs 9 to 11 before the acid was
// corrected, runs 12 to 14 after, and the burnt run left out.
func Defaults() Inputs {
	in := Inputs{
		ScaleStep: actionshop.ScaleStep, Handling: actionshop.ScaleHandling,
		SupplyStep: actionshop.SupplyStep, Switching: 10 * unit.Second,
		PH: 4.2, Change: 0.02, Coverage: 2,
		CouponArea: 25.75 * plating.SquareCentimetre, CouponThickness: 17 * um,
	}
	for _, r := range actionshop.PlatingLog() {
		row := Row{r.Current, r.Time, r.Before, r.After, r.PH, useTrend}
		switch {
		case r.Run == 5:
			row.Use = useNot
		case r.Run >= 9 && r.Run <= 11:
			row.Use = useBefore
		case r.Run >= 12:
			row.Use = useAfter
		}
		in.Runs = append(in.Runs, row)
	}
	return in
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "scale",
		Title:    "Will the scale see it?",
		Question: "Did the bath change, or is it only the scale?",
		Asked:    "I weighed a run",
		Track:    notebook.Nickel,
		Summary:  "The efficiency of each weighed run with its uncertainty, the line of a whole log against pH, the difference between two states of the bath, and the load that a scale needs.",
		Minutes:  14,
		After:    []string{"amps"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	masses := []notebook.Unit{notebook.Gram, notebook.Ounce}
	amperes := []notebook.Unit{notebook.Ampere}
	percent := []notebook.Unit{notebook.Percent}
	load := notebook.AboveUpTo(0, 10*unit.Kilogram)
	return []notebook.Field{
		notebook.Rows("runs", &in.Runs, notebook.Spec{Label: "Weighed runs",
			Help:    "Current as read, time by the clock, load clean and dry before and after. Leave out a run that burnt or was interrupted. Mark the runs of two states of the bath that you want to compare.",
			MinRows: 1, MaxRows: 100},
			func(r *Row) []notebook.Field {
				return []notebook.Field{
					notebook.Measure("current", &r.Current, notebook.Spec{Label: "Current", Units: amperes, Limits: notebook.AboveUpTo(0, 1000*unit.Ampere), Decimals: 2}),
					notebook.Measure("time", &r.Time, notebook.Spec{Label: "Time", Units: []notebook.Unit{notebook.Minute, notebook.Hour}, Limits: notebook.AboveUpTo(0, 6000*minute)}),
					notebook.Measure("before", &r.Before, notebook.Spec{Label: "Before", Units: masses, Limits: load, Decimals: 2}),
					notebook.Measure("after", &r.After, notebook.Spec{Label: "After", Units: masses, Limits: load, Decimals: 2}),
					notebook.Number("ph", &r.PH, notebook.Spec{Label: "pH", Limits: notebook.Between(0.0, 14.0), Decimals: 1}),
					notebook.Choice("use", &r.Use, notebook.Spec{Label: "Use for", Options: []string{useTrend, useBefore, useAfter, useNot}}),
				}
			}),
		notebook.Measure("scale-step", &in.ScaleStep, notebook.Spec{Label: "Scale reads to",
			Help: "The last digit of its display.", Units: masses, Limits: notebook.AboveUpTo(0, 10*gram)}),
		notebook.Measure("handling", &in.Handling, notebook.Spec{Label: "Handling adds",
			Help:  "Standard uncertainty of a gain from water, fingerprints and drift. Weigh one part ten times, wetting and drying it between.",
			Units: masses, Limits: notebook.Between(0, 10*gram)}),
		notebook.Measure("supply-step", &in.SupplyStep, notebook.Spec{Label: "Supply reads to",
			Help: "The last digit of its ammeter.", Units: amperes, Limits: notebook.AboveUpTo(0, 5*unit.Ampere)}),
		notebook.Measure("switching", &in.Switching, notebook.Spec{Label: "Time good to, either way",
			Help: "Switching on and off by hand: about 10 s.", Units: []notebook.Unit{notebook.Second, notebook.Minute}, Limits: notebook.Between(0, 10*minute)}),
		notebook.Number("ph", &in.PH, notebook.Spec{Label: "Efficiency wanted at pH",
			Help: "Where you hold the bath.", Limits: notebook.Between(0.0, 14.0)}),
		notebook.Measure("change", &in.Change, notebook.Spec{Label: "Change to be seen",
			Help: "The fall of efficiency that you want to notice.", Units: percent, Limits: notebook.AboveUpTo(0.0, 0.5)}),
		notebook.Number("coverage", &in.Coverage, notebook.Spec{Label: "Standing out by standard uncertainties",
			Help: "2 is wrong once in twenty, 3 once in four hundred.", Limits: notebook.AboveUpTo(0.0, 5.0)}),
		notebook.Measure("coupon-area", &in.CouponArea, notebook.Spec{Label: "Area of a coupon",
			Help: "All faces.", Units: []notebook.Unit{notebook.SquareCentimetre, notebook.SquareInch}, Limits: notebook.AboveUpTo(0, 1*unit.Area(1))}),
		notebook.Measure("coupon-thickness", &in.CouponThickness, notebook.Spec{Label: "Nickel on a coupon",
			Help: "Mean thickness of your usual test.", Units: []notebook.Unit{notebook.Micrometre, notebook.Thou}, Limits: notebook.AboveUpTo(0, 500*um)}),
	}
}
