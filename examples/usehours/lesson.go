// Package usehours is the lesson "Where the saddle has been": from where the work
// has lain to the wear it makes, and from two surveys to the wear factor of each
// way.
package usehours

import (
	"fmt"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm   = unit.Milli * unit.Metre
	um   = unit.Micro * unit.Metre
	hour = 3600 * unit.Second

	metrePerSecond unit.Velocity = 1
)

// Depth is the wear of both ways at a place, at both surveys.
type Depth struct{ Place, FrontBefore, FrontAfter, RearBefore, RearAfter unit.Length }

// Use is one way in which the machine was used.
type Use struct {
	Place, Stroke unit.Length
	Share         float64
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Depths []Depth
	// DepthU is the standard uncertainty of each depth.
	DepthU unit.Length
	Uses   []Use
	// Hours are those under power between the surveys, Speed the mean speed of
	// sliding over them.
	Hours unit.Time
	Speed unit.Velocity
	// Saddle is the length of the saddle's face, Width that of one way, Table the
	// length of the table.
	Saddle, Width, Table unit.Length
	// Load is what one way carries of table, vise and work, standing at LoadAt of
	// the table; Thrust what the cut and the gib press over the saddle's middle.
	Load, Thrust unit.Force
	LoadAt       unit.Length
	// Hardness is that of the softer face, in Brinell.
	Hardness float64
	// The bushing of a crank or a feed shaft, to set beside the ways.
	Bore, Length, Worn unit.Length
	BushLoad           unit.Force
	BushSpeed          unit.Velocity
}

// Defaults returns the action shop's two surveys and its use.
func Defaults() Inputs {
	in := Inputs{DepthU: actionshop.WornDepthU, Saddle: actionshop.BearingLength, Width: 50 * mm, Table: 1120 * mm,
		Speed: 0.015 * metrePerSecond, Load: 350 * unit.Newton, Thrust: 600 * unit.Newton, LoadAt: -150 * mm, Hardness: 200,
		Bore: 16 * mm, Length: 20 * mm, Worn: 0.1 * mm, BushLoad: 120 * unit.Newton, BushSpeed: 0.05 * metrePerSecond,
		Uses: []Use{{-180 * mm, 150 * mm, 0.9}, {0 * mm, 300 * mm, 0.1}}}
	for _, y := range actionshop.UseBook() {
		in.Hours += y.Hours
	}
	after := actionshop.WornDepths()
	for i, d := range actionshop.FirstWornDepths() {
		in.Depths = append(in.Depths, Depth{d.Place, d.Front, after[i].Front, d.Rear, after[i].Rear})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre, notebook.InchUnit}
	forces := []notebook.Unit{notebook.Newton, notebook.PoundForce}
	speeds := []notebook.Unit{{Symbol: "m/min", Scale: 1.0 / 60}, {Symbol: "ft/min", Scale: 0.3048 / 60}}
	depth := notebook.Between(-1000*um, 2000*um)
	size := notebook.Between(1*mm, 5000*mm)
	fields := []notebook.Field{
		notebook.Rows("depths", &in.Depths, notebook.Spec{Label: "Wear at two surveys", Help: "Down from the surface as new, places in order.", MinRows: 3, MaxRows: 40}, func(d *Depth) []notebook.Field {
			column := func(name string, p *unit.Length, label string) notebook.Field {
				return notebook.Measure(name, p, notebook.Spec{Label: label, Help: "Depth of wear.", Units: fine, Limits: depth})
			}
			return []notebook.Field{
				notebook.Measure("place", &d.Place, notebook.Spec{Label: "Place u", Help: "Right of the table's middle positive.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
				column("front-before", &d.FrontBefore, "Front, before"), column("front-after", &d.FrontAfter, "Front, after"),
				column("rear-before", &d.RearBefore, "Rear, before"), column("rear-after", &d.RearAfter, "Rear, after"),
			}
		}),
		notebook.Measure("depth-u", &in.DepthU, notebook.Spec{Label: "Each depth is sure to", Help: "Standard uncertainty.", Units: fine, Limits: notebook.Between(0.01*um, 1000*um)}),
		notebook.Rows("uses", &in.Uses, notebook.Spec{Label: "Where the work lay", Help: "One row a habit. Shares of all the sliding; they must make 1.", MinRows: 1, MaxRows: 20}, func(u *Use) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("place", &u.Place, notebook.Spec{Label: "Place u", Help: "Of the middle of the work.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
				notebook.Measure("stroke", &u.Stroke, notebook.Spec{Label: "Stroke", Help: "How far the table travels there.", Units: lengths, Limits: size}),
				notebook.Number("share", &u.Share, notebook.Spec{Label: "Share", Help: "Of all the sliding.", Limits: notebook.Between(0.0, 1.0)}),
			}
		}),
		notebook.Measure("hours", &in.Hours, notebook.Spec{Label: "Hours under power", Help: "Between the surveys.", Units: []notebook.Unit{notebook.Hour}, Limits: notebook.Between(1*hour, 100_000*hour)}),
		notebook.Measure("speed", &in.Speed, notebook.Spec{Label: "Mean speed of the table", Help: "Over all those hours, standing included: distance over time.", Units: speeds, Limits: notebook.AboveUpTo(0*metrePerSecond, 1*metrePerSecond)}),
	}
	fields = append(fields, notebook.Grouped("The ways and what they carry",
		notebook.Measure("saddle", &in.Saddle, notebook.Spec{Label: "Length of the saddle", Help: "Along x, the face that bears.", Units: lengths, Limits: size}),
		notebook.Measure("width", &in.Width, notebook.Spec{Label: "Width of a way", Help: "Across.", Units: lengths, Limits: size}),
		notebook.Measure("table", &in.Table, notebook.Spec{Label: "Length of the ways", Help: "On the table.", Units: lengths, Limits: size}),
		notebook.Measure("load", &in.Load, notebook.Spec{Label: "Load on one way", Help: "Half of table, vise and work.", Units: forces, Limits: notebook.Between(1*unit.Newton, 1e5*unit.Newton)}),
		notebook.Measure("load-at", &in.LoadAt, notebook.Spec{Label: "It stands at u", Help: "The middle of its weight on the table.", Units: lengths, Limits: notebook.Between(-2000*mm, 2000*mm)}),
		notebook.Measure("thrust", &in.Thrust, notebook.Spec{Label: "Pressed over the saddle", Help: "By the cut and the gib, one way's share.", Units: forces, Limits: notebook.Between(0*unit.Newton, 1e5*unit.Newton)}),
		notebook.Number("hardness", &in.Hardness, notebook.Spec{Label: "Hardness, Brinell", Help: "Of the softer face; grey iron 180 to 220.", Limits: notebook.Between(10.0, 1000.0)}))...)
	return append(fields, notebook.Grouped("A bushing beside it",
		notebook.Measure("bore", &in.Bore, notebook.Spec{Label: "Bore", Help: "Of the bushing.", Units: lengths, Limits: size}),
		notebook.Measure("length", &in.Length, notebook.Spec{Label: "Length", Help: "Of the bushing.", Units: lengths, Limits: size}),
		notebook.Measure("bush-load", &in.BushLoad, notebook.Spec{Label: "Load", Help: "Square to the shaft.", Units: forces, Limits: notebook.Between(0.1*unit.Newton, 1e6*unit.Newton)}),
		notebook.Measure("bush-speed", &in.BushSpeed, notebook.Spec{Label: "Speed of the surface", Help: "Mean, while it runs.", Units: speeds, Limits: notebook.AboveUpTo(0*metrePerSecond, 10*metrePerSecond)}),
		notebook.Measure("worn", &in.Worn, notebook.Spec{Label: "Worn out at", Help: "Depth at the place of highest pressure.", Units: fine, Limits: notebook.AboveUpTo(0*um, 5000*um)}))...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "usehours",
		Title:    "Where the saddle has been",
		Question: "My vise has sat in one place for years. Is that what wore the ways there, or did something else?",
		Asked:    "My ways are worn where I work",
		Track:    notebook.Ways,
		Summary:  "Where the work lay says where a way should wear; two surveys say where it did. Set together they give each way's own wear factor, and a way that is short of oil stands out.",
		Minutes:  13,
		After:    []string{"pockets"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// nominal is the wear factor with which the histories begin; the fit multiplies it.
const nominal = 1e-7 * wear.CubicMillimetrePerNewtonMetre

// stations is the number of places along a way that are followed.
const stations = 113

// way is one way, fitted.
type way struct {
	name    string
	at      []wear.RewornStation
	fit     wear.FactorFit
	factor  wear.WearFactor
	factorU wear.WearFactor
}

// result is the readings, worked.
type result struct {
	in          Inputs
	front, rear way
	// ratio is how many times as fast the front way wore.
	ratio     wear.FactorRatio
	slid      unit.Length // in all
	bush      unit.Time   // life of the bushing at the rear way's factor
	bushTurns float64
}

func placements(in Inputs) []wear.Placement {
	p := make([]wear.Placement, len(in.Uses))
	for i, u := range in.Uses {
		p[i] = wear.Placement{Place: u.Place, Stroke: u.Stroke, Share: u.Share}
	}
	return p
}

func work(in Inputs) (result, error) {
	r := result{in: in, front: way{name: "front"}, rear: way{name: "rear"}, slid: unit.Length(float64(in.Speed) * float64(in.Hours))}
	for i, d := range in.Depths {
		if i > 0 && !(d.Place > in.Depths[i-1].Place) {
			return r, notebook.InRow("depths", i+1, "place", fmt.Errorf("the place %g mm does not lie beyond the one before, %g mm", float64(d.Place/mm), float64(in.Depths[i-1].Place/mm)))
		}
		r.front.at = append(r.front.at, wear.RewornStation{Place: d.Place, Before: d.FrontBefore, BeforeU: in.DepthU, After: d.FrontAfter, AfterU: in.DepthU})
		r.rear.at = append(r.rear.at, wear.RewornStation{Place: d.Place, Before: d.RearBefore, BeforeU: in.DepthU, After: d.RearAfter, AfterU: in.DepthU})
	}
	for _, w := range []*way{&r.front, &r.rear} {
		if err := w.follow(in); err != nil {
			return r, err
		}
	}
	var err error
	if r.ratio, err = r.front.fit.Over(r.rear.fit, 0.95); err != nil {
		return r, notebook.InField("depths", err)
	}
	r.bush, r.bushTurns, err = wear.Bushing{Bore: in.Bore, Length: in.Length, Load: in.BushLoad, Speed: in.BushSpeed, Factor: r.rear.factor}.Life(in.Worn)
	return r, notebook.InField("bore", err)
}

// follow fits the wear factor of a way. The faces press evenly but for the load's
// own lean: the springs are taken soft enough that errors of the first survey do
// not move the load.
func (w *way) follow(in Inputs) error {
	half := in.Table / 2
	pressure := float64(in.Load+in.Thrust) / float64(in.Saddle*in.Width)
	model := wear.SlidingWay{From: -half, To: half, Stations: stations, Bearing: in.Saddle, Width: in.Width, Load: in.Load, Thrust: in.Thrust, LoadAt: in.LoadAt,
		Stiffness: pressure / float64(10*in.DepthU), Table: nominal, Saddle: nominal}
	spell := wear.Spell{Time: in.Hours, Speed: in.Speed, Placements: placements(in)}
	fit, err := wear.FitFactor(model, w.at, []wear.Spell{spell}, wear.HistoryOptions{Step: in.Hours / 40})
	if err != nil {
		return notebook.InField("uses", fmt.Errorf("%s way: %w", w.name, err))
	}
	w.fit, w.factor, w.factorU = fit, wear.WearFactor(fit.Times)*nominal, wear.WearFactor(fit.TimesU)*nominal
	return nil
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := work(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{r.setUp, r.answers, r.charts, r.more, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
