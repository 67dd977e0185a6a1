// Package longrail is the lesson "Long rail, where and how": where on a worn table
// a long part comes out straight, and whether to cut it in two settings.
package longrail

import (
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Reading is one station of the level: the travel and the two readings along the
// table, in divisions.
type Reading struct {
	Travel         unit.Length
	Normal, Turned float64
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Readings []Reading
	// Length is that of the rail, Tolerance how far its middle may depart from
	// the line through its ends.
	Length, Tolerance unit.Length
	// Place is where its middle lies if it is cut in one setting as usual.
	Place unit.Length
	// Overlap is the stretch that two settings share, DialU the standard
	// uncertainty of the dial that sets the second to the first.
	Overlap, DialU unit.Length
	// Division, ReadTo and Bearing belong to the level and the saddle.
	Division wear.Slope
	ReadTo   float64
	Bearing  unit.Length
}

// Defaults returns the action shop's level survey of 2025 and its longest rail.
func Defaults() Inputs {
	_, rows := actionshop.SecondLevelSurvey()
	in := Inputs{Length: 600 * mm, Tolerance: 12 * um, Place: 0 * mm, Overlap: 150 * mm, DialU: 1 * um,
		Division: actionshop.LevelDivision, ReadTo: 0.5, Bearing: actionshop.BearingLength}
	for _, r := range rows {
		in.Readings = append(in.Readings, Reading{r.Travel, r.AlongNormal, r.AlongTurned})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre}
	place := notebook.Between(-5000*mm, 5000*mm)
	fields := []notebook.Field{
		notebook.Rows("readings", &in.Readings, notebook.Spec{Label: "Level along the table",
			Help:    "One row a station, readings in divisions, plus when the bubble runs toward the marked end.",
			MinRows: 3, MaxRows: 60}, func(r *Reading) []notebook.Field {
			reading := notebook.Between(-1000.0, 1000.0)
			return []notebook.Field{
				notebook.Measure("travel", &r.Travel, notebook.Spec{Label: "Travel X", Help: "Positive with the table to the right.", Units: lengths, Limits: place}),
				notebook.Number("normal", &r.Normal, notebook.Spec{Label: "As it stands", Help: "Marked end to the right.", Limits: reading}),
				notebook.Number("turned", &r.Turned, notebook.Spec{Label: "Turned", Help: "Marked end to the left.", Limits: reading}),
			}
		}),
		notebook.Measure("length", &in.Length, notebook.Spec{Label: "Length of the rail", Help: "Along the table, the stretch that is cut.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 5000*mm)}),
		notebook.Measure("tolerance", &in.Tolerance, notebook.Spec{Label: "It may bow by", Help: "High or low in the middle, from the line through its ends.", Units: fine, Limits: notebook.AboveUpTo(0*um, 5000*um)}),
		notebook.Measure("place", &in.Place, notebook.Spec{Label: "Where you would lay it", Help: "Its middle, right of the table's middle positive.", Units: lengths, Limits: place}),
	}
	fields = append(fields, notebook.Grouped("Two settings",
		notebook.Measure("overlap", &in.Overlap, notebook.Spec{Label: "Overlap of two settings", Help: "The stretch cut in the first setting on which the second is set.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 5000*mm)}),
		notebook.Measure("dial-u", &in.DialU, notebook.Spec{Label: "Dial is sure to", Help: "Standard uncertainty at each end of the overlap.", Units: fine, Limits: notebook.Between(0*um, 1000*um)}))...)
	return append(fields, notebook.Grouped("The level and the saddle",
		notebook.Measure("division", &in.Division, notebook.Spec{Label: "One division of the level",
			Units: []notebook.Unit{notebook.MillimetrePerMetre, notebook.ArcSecond, notebook.ThouPerFoot, notebook.MicrometrePerMetre}, Limits: notebook.AboveUpTo(0, 10e-3)}),
		notebook.Number("read-to", &in.ReadTo, notebook.Spec{Label: "Read to a fraction of a division", Help: "0.5 when you read to half a division.", Limits: notebook.AboveUpTo(0.0, 2.0)}),
		notebook.Measure("bearing", &in.Bearing, notebook.Spec{Label: "Bearing length of the table on the saddle", Help: "Along x, between the two places that carry the table; 0 for a level walked along a bed.", Units: lengths, Limits: notebook.Between(0*mm, 3000*mm)}))...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "longrail",
		Title:    "Long rail, where and how",
		Question: "My table runs in a hollow. Where do I bolt down a long part, and should I cut it in two settings?",
		Asked:    "I must cut a long part",
		Track:    notebook.Holding,
		Summary:  "The bow of a part by its length and place, the straightest place for it, and what two settings with an overlap would leave.",
		Minutes:  13,
		After:    []string{"bubble"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// rail is what the rail finds.
type rail struct {
	table      wear.TableMap
	from, to   unit.Length
	here, best wear.Spot
	two        wear.TwoSettings
	// oneFits and twoFits are the chances that the rail keeps its tolerance.
	hereFits, oneFits, twoFits float64
}

// find works the map and the settings.
func find(in Inputs) (rail, error) {
	stations := make([]wear.LevelStation, len(in.Readings))
	for i, r := range in.Readings {
		stations[i] = wear.LevelStation{Position: -r.Travel, Normal: r.Normal, Turned: r.Turned}
	}
	survey, err := wear.ReadLevel(stations, wear.LevelOptions{Division: in.Division, Step: in.ReadTo})
	if err != nil {
		return rail{}, notebook.InField("readings", err)
	}
	var r rail
	if r.table, err = wear.MapTable(survey.SlopePoints(), in.Bearing); err != nil {
		return rail{}, notebook.InField("readings", err)
	}
	r.from, r.to = r.table.Run()
	middle := (r.from + r.to) / 2
	if r.best, err = r.table.Best(in.Length, middle, wear.LeastBow); err != nil {
		return rail{}, notebook.InField("length", err)
	}
	if r.here, err = r.table.Spot(in.Place, in.Length, middle); err != nil {
		return rail{}, notebook.InField("place", err)
	}
	if r.two, err = r.table.InTwoSettings(in.Length, in.Overlap, in.DialU); err != nil {
		return rail{}, notebook.InField("overlap", err)
	}
	r.hereFits = fits(r.here.Bow, r.here.BowU, in.Tolerance)
	r.oneFits = fits(r.best.Bow, r.best.BowU, in.Tolerance)
	r.twoFits = fits(r.two.Bow, r.two.BowU, in.Tolerance)
	return r, nil
}

// fits returns the chance that a bow keeps a tolerance either way (JCGM 106:2012,
// clause 7, from memory).
func fits(bow, u, tolerance unit.Length) float64 {
	if u == 0 {
		if math.Abs(float64(bow)) <= float64(tolerance) {
			return 1
		}
		return 0
	}
	normal := distuv.Normal{Mu: float64(bow), Sigma: float64(u)}
	return normal.CDF(float64(tolerance)) - normal.CDF(-float64(tolerance))
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := find(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{
		func(s *notebook.Sheet) error { return setUpItems(s, in, r) },
		func(s *notebook.Sheet) error { return answerItems(s, in, r) },
		func(s *notebook.Sheet) error { return mapItems(s, in, r) },
		exerciseItems,
		checkItems,
	} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
