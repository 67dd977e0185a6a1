// Package bestplace is the lesson "Where, which way, and how set?": the place on
// the table, the feed and the setting of the head that give a face the best
// chance, found from the machine's own motion.
package bestplace

import (
	"fmt"
	"math"
	"sort"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// The two ways of feeding.
const (
	byTable  = "side to side, by the table"
	bySaddle = "front to back, by the saddle"
)

// azimuths are the feeds: there and back leave the same face.
func azimuths() map[string]unit.Angle {
	return map[string]unit.Angle{byTable: 0 * squaring.Degree, bySaddle: 90 * squaring.Degree}
}

// Station is what the table does at one place of its travel.
type Station struct {
	Travel, Height unit.Length
	Along, Across  squaring.Slope
}

// Inputs is what the lesson asks for.
type Inputs struct {
	Ways []Station
	// ShownX and ShownY are what a sweep shows with the table in the middle, and
	// their standard uncertainties.
	ShownX, ShownXU, ShownY, ShownYU squaring.Slope
	// SettingX and SettingY are what a new setting of the head scatters by.
	SettingX, SettingY squaring.Slope
	Long, Deep         unit.Length
	Cutter, StepOver   unit.Length
	Zone               string
	Limit, BowU        unit.Length
	// Here and Feed are where and how the part would be cut now.
	Here unit.Length
	Feed string
}

// Defaults returns the action shop's machine as its survey of 2025 tells it, its
// head as left that day, and a plate to be faced in the middle of the table.
func Defaults() Inputs {
	in := Inputs{
		ShownX: 5 * squaring.Microradian, ShownXU: 5 * squaring.Microradian, ShownY: -10 * squaring.Microradian, ShownYU: 6 * squaring.Microradian,
		SettingX: 8 * squaring.Microradian, SettingY: 10 * squaring.Microradian,
		Long: 300 * mm, Deep: 90 * mm, Cutter: 80 * mm, StepOver: 60 * mm, Zone: string(squaring.FlatZone), Limit: 3 * um, BowU: 0.7 * um,
		Here: 0 * mm, Feed: byTable,
	}
	for _, s := range [][4]float64{
		{-360, 18.7, 60, -56}, {-300, 14.2, 70, -52}, {-240, 11.7, 68, -40}, {-180, 6.6, 62, -28}, {-120, 3.6, 56, -20}, {-60, 1.6, 34, -9}, {0, 0, 0, 0},
		{60, 1.5, -45, 2}, {120, 3.6, -77, -7}, {180, 6.1, -107, -21}, {240, 8.1, -128, -22}, {300, 10.5, -132, -20}, {360, 13.9, -128, -30},
	} {
		in.Ways = append(in.Ways, Station{unit.Length(s[0]) * mm, unit.Length(s[1]) * um, squaring.Slope(s[2]) * squaring.Microradian, squaring.Slope(s[3]) * squaring.Microradian})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	slopes := []notebook.Unit{notebook.MicrometrePerMetre, notebook.MillimetrePer300, notebook.ThouPerFoot}
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Millimetre, notebook.Thou}
	measure := func(name, label, help string, units []notebook.Unit, limits notebook.Limits, p *unit.Length) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: units, Limits: limits})
	}
	tilt := func(name, label, help string, limits notebook.Limits, p *squaring.Slope) notebook.Field {
		return notebook.Measure(name, p, notebook.Spec{Label: label, Help: help, Units: slopes, Limits: limits})
	}
	either := notebook.Between(-10e-3, 10e-3)
	fields := []notebook.Field{
		measure("long", "Length of the face along the table", "Side to side.", lengths, notebook.Between(5*mm, 700*mm), &in.Long),
		measure("deep", "Depth of the face across the table", "Front to back.", lengths, notebook.Between(5*mm, 300*mm), &in.Deep),
		measure("cutter", "Diameter of the cutter", "The circle of its edges.", lengths, notebook.Between(10*mm, 300*mm), &in.Cutter),
		measure("step-over", "Width that each pass cuts", "Up to three quarters of the cutter.", lengths, notebook.Between(10*mm, 250*mm), &in.StepOver),
		notebook.Choice("zone", &in.Zone, notebook.Spec{Label: "The drawing asks for", Help: "Flatness: by itself. Parallelism: against the table or the parallels under the part.", Options: []string{string(squaring.FlatZone), string(squaring.ParallelZone)}}),
		measure("limit", "Within", "The width of the zone.", fine, notebook.AboveUpTo(0*mm, 1*mm), &in.Limit),
		measure("here", "Where the part would lie now", "Its middle, to the right of the table's middle.", lengths, notebook.Between(-600*mm, 600*mm), &in.Here),
		notebook.Choice("feed", &in.Feed, notebook.Spec{Label: "Which way it would be fed", Help: "There and back leave the same face.", Options: []string{byTable, bySaddle}}),
	}
	fields = append(fields, notebook.Grouped("The head",
		tilt("shown-x", "A sweep shows, side to side", "With the table in the middle: table less spindle, right high is plus.", either, &in.ShownX),
		tilt("shown-y", "A sweep shows, front to back", "Back high is plus.", either, &in.ShownY),
		tilt("shown-x-u", "Standard uncertainty of it, side to side", "From the sweep.", notebook.Between(0, 1e-3), &in.ShownXU),
		tilt("shown-y-u", "Standard uncertainty of it, front to back", "From the sweep.", notebook.Between(0, 1e-3), &in.ShownYU),
		tilt("setting-x", "A new setting scatters, side to side", "After tightening, set-off made.", notebook.Between(0, 1e-3), &in.SettingX),
		tilt("setting-y", "A new setting scatters, front to back", "After tightening, set-off made.", notebook.Between(0, 1e-3), &in.SettingY),
	)...)
	return append(fields, notebook.Grouped("What the table does on its way",
		notebook.Rows("ways", &in.Ways, notebook.Spec{Label: "Along the travel", Help: "From a survey, counted from the middle of the travel. Between two places it is taken as straight.", MinRows: 2, MaxRows: 60},
			func(s *Station) []notebook.Field {
				return []notebook.Field{
					measure("travel", "Travel X", "Plus when the table has moved right.", lengths, notebook.Between(-1500*mm, 1500*mm), &s.Travel),
					measure("height", "Height", "Of the table's plane under the spindle.", fine, notebook.Between(-5*mm, 5*mm), &s.Height),
					tilt("along", "Slope along", "Plus when its right end is high.", either, &s.Along),
					tilt("across", "Slope across", "Plus when its back is high.", either, &s.Across),
				}
			}),
		measure("bow-u", "Standard uncertainty of the ways' bow over the part", "From the survey: bow of the part.", fine, notebook.Between(0*mm, 0.1*mm), &in.BowU),
	)...)
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "bestplace",
		Title:    "Where, which way, and how set?",
		Question: "I have one face to cut. Where on the table, fed which way, and with the head set how, has it the best chance?",
		Asked:    "Where do I clamp this one?",
		Track:    notebook.Deciding,
		Summary: "Every place on the table, both feeds and the best setting of the head for each are tried on the machine's own motion, with what a setting scatters by. " +
			"The page names the best, and what is lost by leaving the head alone.",
		Minutes: 11,
		After:   []string{"facetilt", "fiveplaces"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// ways returns the table's motion, straight between the stations.
func (in Inputs) ways() (squaring.WayMotion, error) {
	list := append([]Station(nil), in.Ways...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Travel < list[j].Travel })
	for i := 1; i < len(list); i++ {
		if list[i].Travel == list[i-1].Travel {
			return nil, notebook.InField("ways", fmt.Errorf("the travel %.4g mm stands there twice", float64(list[i].Travel/mm)))
		}
	}
	return func(x unit.Length) (unit.Length, float64, float64, unit.Length, unit.Angle) {
		i := sort.Search(len(list)-1, func(i int) bool { return list[i].Travel >= x })
		i = min(max(i, 1), len(list)-1)
		a, b := list[i-1], list[i]
		t := math.Max(0, math.Min(1, float64((x-a.Travel)/(b.Travel-a.Travel))))
		mix := func(p, q float64) float64 { return p + t*(q-p) }
		return unit.Length(mix(float64(a.Height), float64(b.Height))), mix(float64(a.Along), float64(b.Along)), mix(float64(a.Across), float64(b.Across)), 0, 0
	}, nil
}

// reach returns the ends of the travel that is known, as places on the table.
func (in Inputs) reach() (from, to unit.Length) {
	from, to = -in.Ways[0].Travel, -in.Ways[0].Travel
	for _, s := range in.Ways {
		from, to = min(from, -s.Travel), max(to, -s.Travel)
	}
	return from, to
}

// mostPlaces is how many places are tried.
const mostPlaces = 9

// job returns what is sought, with the places at which a part of this length fits
// into the travel that is known.
func (in Inputs) job() (squaring.FaceJob, error) {
	ways, err := in.ways()
	if err != nil {
		return squaring.FaceJob{}, err
	}
	_, x0, y0, _, _ := ways(0)
	j := squaring.FaceJob{
		Machine: squaring.Machine{X: squaring.MotionFromWays(ways), Tilt: squaring.Gradient{X: squaring.Slope(x0) - in.ShownX, Y: squaring.Slope(y0) - in.ShownY}},
		Face:    squaring.FaceOnTable{Long: in.Long, Deep: in.Deep, Diameter: in.Cutter, StepOver: in.StepOver},
		Zone:    squaring.ZoneKind(in.Zone), Limit: in.Limit, Feeds: []unit.Angle{0, 90 * squaring.Degree},
		TiltU:    squaring.Gradient{X: in.ShownXU, Y: in.ShownYU},
		SettingU: squaring.Gradient{X: in.SettingX, Y: in.SettingY}, BowU: in.BowU,
	}
	if in.StepOver > in.Cutter {
		return j, notebook.InField("step-over", fmt.Errorf("%.4g mm is more than the cutter, %.4g mm: it leaves ridges uncut", float64(in.StepOver/mm), float64(in.Cutter/mm)))
	}
	from, to := in.reach()
	from, to = from+in.Long/2, to-in.Long/2
	if !(from <= to) {
		return j, notebook.InField("long", fmt.Errorf("%.4g mm is longer than the travel that is known", float64(in.Long/mm)))
	}
	if in.Here < from || in.Here > to {
		return j, notebook.InField("here", fmt.Errorf("a part of %.4g mm whose middle is at %.4g mm lies beyond the travel that is known; its middle may lie from %.4g to %.4g mm",
			float64(in.Long/mm), float64(in.Here/mm), float64(from/mm), float64(to/mm)))
	}
	for i := range mostPlaces {
		j.Places = append(j.Places, from+(to-from)*unit.Length(i)/(mostPlaces-1))
	}
	return j, nil
}

// worked is every choice, and those that the page names.
type worked struct {
	job     squaring.FaceJob
	choices []squaring.FaceChoice
	// now is here and fed as said with the head as it stands, stand the best
	// with the head left alone and set the best of all with it set.
	now, stand, set squaring.FaceChoice
}

// work tries everything.
func (in Inputs) work() (worked, error) {
	var w worked
	var err error
	if w.job, err = in.job(); err != nil {
		return w, err
	}
	if w.choices, err = w.job.Choices(); err != nil {
		return w, notebook.InField("cutter", err)
	}
	here := w.job
	here.Places, here.Feeds = []unit.Length{in.Here}, []unit.Angle{azimuths()[in.Feed]}
	mine, err := here.Choices()
	if err != nil {
		return w, notebook.InField("here", err)
	}
	w.now = first(mine, false)
	w.stand, w.set = first(w.choices, false), first(w.choices, true)
	return w, nil
}

// first returns the best choice with the head as it stands, or set.
func first(choices []squaring.FaceChoice, reset bool) squaring.FaceChoice {
	for _, c := range choices {
		if c.Reset == reset {
			return c
		}
	}
	return squaring.FaceChoice{}
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	w, err := in.work()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{setUpItems, answerItems, chartItems, showItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
