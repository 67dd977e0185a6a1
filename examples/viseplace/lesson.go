// Package viseplace is the lesson "Where should the vise live?": the place on a
// worn table where small parts come out straight and the ways wear evenly.
package viseplace

import (
	"math"

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

// Reading is one station of the level along the table, in divisions.
type Reading struct {
	Travel         unit.Length
	Normal, Turned float64
}

// Depth is how deep the worse of the two ways is worn at a place.
type Depth struct{ Place, Depth unit.Length }

// Inputs is what the lesson asks for.
type Inputs struct {
	Readings []Reading
	Depths   []Depth
	// Now is where the vise stands, Set where the head was set square.
	Now, Set unit.Length
	// Part is the length of the usual part, Tolerance how far it may bow, Stroke
	// how far the table travels for it.
	Part, Tolerance, Stroke unit.Length
	// Tip is by how much the table may tip while the part passes.
	Tip wear.Slope
	// Rate is how fast the most used place wears, Use the hours under power a
	// year, Years how far to look ahead.
	Rate  wear.WearRate
	Use   unit.Time
	Years int
	// Saddle is the length of the saddle's face, Table the length of the table's
	// ways; Bearing the distance between the places that carry the table.
	Saddle, Table, Bearing unit.Length
	// TableWeight stands in the middle of the table, ViseWeight over the vise,
	// Thrust over the middle of the saddle; half of each on each way.
	TableWeight, ViseWeight, Thrust unit.Force
	// Division and ReadTo belong to the level.
	Division wear.Slope
	ReadTo   float64
}

// Defaults returns the action shop's survey of 2025 and the wear of its front way
// from the pockets of that day; where none is left, the least that it can be.
func Defaults() Inputs {
	in := Inputs{Now: -180 * mm, Set: 0 * mm, Part: 150 * mm, Tolerance: 4 * um, Tip: 50 * wear.MicrometrePerMetre, Stroke: 180 * mm,
		Rate: 7.5 * wear.MicrometrePerThousandHour, Use: 300 * hour, Years: 10,
		Saddle: 460 * mm, Table: 1120 * mm, Bearing: actionshop.BearingLength,
		TableWeight: 1500 * unit.Newton, ViseWeight: 500 * unit.Newton, Thrust: 400 * unit.Newton,
		Division: actionshop.LevelDivision, ReadTo: 0.5}
	_, rows := actionshop.SecondLevelSurvey()
	for _, r := range rows {
		in.Readings = append(in.Readings, Reading{r.Travel, r.AlongNormal, r.AlongTurned})
	}
	_, pockets := actionshop.SecondPockets()
	stations := make([]wear.PocketStation, len(pockets))
	for i, p := range pockets {
		stations[i] = wear.PocketStation{Place: p.Place, Depth: p.Front, Found: p.FrontFound, Total: actionshop.PocketsLookedFor}
	}
	worn, err := wear.ReadPockets(stations, wear.PocketOptions{New: actionshop.FlakingNew, NewU: 1.5 * um, Spread: 6.2 * um, Floor: 3 * um})
	if err != nil {
		return in // the shop's pockets are read in a test
	}
	for _, w := range worn {
		in.Depths = append(in.Depths, Depth{w.Place, unit.Length(math.Round(float64(w.Wear/um))) * um})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre}
	forces := []notebook.Unit{notebook.Newton, notebook.PoundForce}
	place, long := notebook.Between(-5000*mm, 5000*mm), notebook.AboveUpTo(0*mm, 10000*mm)
	weight := notebook.Between(0*unit.Newton, 1e6*unit.Newton)
	fields := []notebook.Field{
		notebook.Rows("readings", &in.Readings, notebook.Spec{Label: "Level along the table", Help: "One row a station, readings in divisions, plus when the bubble runs toward the marked end.", MinRows: 3, MaxRows: 60}, func(r *Reading) []notebook.Field {
			reading := notebook.Between(-1000.0, 1000.0)
			return []notebook.Field{
				notebook.Measure("travel", &r.Travel, notebook.Spec{Label: "Travel X", Help: "Positive with the table to the right.", Units: lengths, Limits: place}),
				notebook.Number("normal", &r.Normal, notebook.Spec{Label: "As it stands", Help: "Marked end to the right.", Limits: reading}),
				notebook.Number("turned", &r.Turned, notebook.Spec{Label: "Turned", Help: "Marked end to the left.", Limits: reading}),
			}
		}),
		notebook.Rows("depths", &in.Depths, notebook.Spec{Label: "Wear of the worse way, by place", Help: "From the oil pockets, or a step beside the track. In order from left to right.", MinRows: 3, MaxRows: 60}, func(d *Depth) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("place", &d.Place, notebook.Spec{Label: "Place u", Units: lengths, Limits: place}),
				notebook.Measure("depth", &d.Depth, notebook.Spec{Label: "Depth", Units: fine, Limits: notebook.Between(0*um, 5000*um)}),
			}
		}),
		notebook.Measure("now", &in.Now, notebook.Spec{Label: "Where the vise stands", Help: "The middle of the work, right of the table's middle positive.", Units: lengths, Limits: place}),
		notebook.Measure("set", &in.Set, notebook.Spec{Label: "Where the head was set square", Help: "The place of the table that was under the spindle then.", Units: lengths, Limits: place}),
		notebook.Measure("part", &in.Part, notebook.Spec{Label: "Length of the usual part", Units: lengths, Limits: long}),
		notebook.Measure("tolerance", &in.Tolerance, notebook.Spec{Label: "It may bow by", Units: fine, Limits: notebook.AboveUpTo(0*um, 5000*um)}),
		notebook.Measure("tip", &in.Tip, notebook.Spec{Label: "Its ends may lean by", Help: "Holes bored at its two ends, one against the other.",
			Units: []notebook.Unit{notebook.MicrometrePerMetre, notebook.ThouPerFoot, notebook.MillimetrePerMetre}, Limits: notebook.AboveUpTo(0, 10*wear.MillimetrePerMetre)}),
	}
	rates := []notebook.Unit{{Symbol: "µm/1000 h", Plain: []string{"um/1000 h"}, Scale: 1e-6 / 3.6e6}, {Symbol: "thou/1000 h", Scale: 25.4e-6 / 3.6e6}}
	fields = append(fields, notebook.Grouped("How the ways wear",
		notebook.Measure("stroke", &in.Stroke, notebook.Spec{Label: "Travel for the usual part", Help: "Its length and the run-out of the cutter.", Units: lengths, Limits: long}),
		notebook.Measure("rate", &in.Rate, notebook.Spec{Label: "Rate of wear at the most used place", Units: rates, Limits: notebook.Between(0, 1000*wear.MicrometrePerThousandHour)}),
		notebook.Measure("use", &in.Use, notebook.Spec{Label: "Under power a year", Units: []notebook.Unit{notebook.Hour}, Limits: notebook.Between(0*hour, 8800*hour)}),
		notebook.Count("years", &in.Years, notebook.Spec{Label: "Years to look ahead", Limits: notebook.Between(1.0, 40.0)}))...)
	return append(fields, notebook.Grouped("The machine and the level",
		notebook.Measure("saddle", &in.Saddle, notebook.Spec{Label: "Length of the saddle's face", Help: "Along x.", Units: lengths, Limits: long}),
		notebook.Measure("bearing", &in.Bearing, notebook.Spec{Label: "Bearing length of the table on the saddle", Help: "Between the two places that carry the table.", Units: lengths, Limits: notebook.Between(0*mm, 3000*mm)}),
		notebook.Measure("table", &in.Table, notebook.Spec{Label: "Length of the table's ways", Help: "End to end.", Units: lengths, Limits: long}),
		notebook.Measure("table-weight", &in.TableWeight, notebook.Spec{Label: "Weight of the table", Units: forces, Limits: weight}),
		notebook.Measure("vise-weight", &in.ViseWeight, notebook.Spec{Label: "Weight of vise and work", Units: forces, Limits: weight}),
		notebook.Measure("thrust", &in.Thrust, notebook.Spec{Label: "Push of the cut, downward", Help: "Mean over the hours, under the spindle.", Units: forces, Limits: weight}),
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of the level",
			Units: []notebook.Unit{notebook.MillimetrePerMetre, notebook.ArcSecond, notebook.ThouPerFoot, notebook.MicrometrePerMetre}, Limits: notebook.AboveUpTo(0, 10e-3)}),
		notebook.Number("read-to", &in.ReadTo, notebook.Spec{Label: "Read to a fraction of a division", Limits: notebook.AboveUpTo(0.0, 2.0)}))...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "viseplace",
		Title:    "Where should the vise live?",
		Question: "My vise has always stood in one place. Is it a good one for the work, and is it fair to the ways?",
		Asked:    "Where do I put my vise?",
		Track:    notebook.Holding,
		Summary:  "Bow, lean and change of lean of a usual part by place, and what years of work there will make of the ways.",
		Minutes:  13,
		After:    []string{"longrail"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	c, err := choose(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		func(s *notebook.Sheet) error { return setUpItems(s, in, c) },
		func(s *notebook.Sheet) error { return placeItems(s, in, c) },
		func(s *notebook.Sheet) error { return aheadItems(s, in, c) },
		exerciseItems,
		checkItems,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
