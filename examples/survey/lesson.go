// Package survey is the lesson "One machine, one answer": every reading of one
// day adjusted together, what they say, what they cannot say, which of them looks
// wrong and which to take next.
package survey

import (
	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// The settings of the head, the directions of the two-dial gauge, and what the
// reader may care about most.
const (
	found, left = "as found", "as left"
	axisX       = "X"
	axisY       = "Y"

	goalBow   = "bow of the part"
	goalSide  = "side tilt at the work"
	goalNod   = "nod at the work"
	goalKneeX = "knee lean in x"
	goalKneeY = "knee lean in y"
)

// GaugeRow is the two-dial gauge one way and turned half a turn.
type GaugeRow struct {
	Head, Axis             string
	B, C, BTurned, CTurned unit.Length
}

// SweepRow is one sweep: eight places from the right anticlockwise, and the
// closing reading.
type SweepRow struct {
	Head   string
	Travel unit.Length
	Shown  [9]unit.Length
}

// RunRow is one place of the table run.
type RunRow struct {
	Travel, Front, Middle, Rear unit.Length
}

// BarRow is one station of the ground bar.
type BarRow struct {
	Travel, Up, Down unit.Length
}

// LevelRow is one station of the level, in divisions.
type LevelRow struct {
	Travel                     unit.Length
	AlongNormal, AlongTurned   float64
	AcrossNormal, AcrossTurned float64
}

// SkimRow is one place of the skimmed bar.
type SkimRow struct {
	Place, Thickness unit.Length
}

// KneeRow is one height of the knee.
type KneeRow struct {
	Raised                             unit.Length
	MarkedX, MarkedY, TurnedX, TurnedY unit.Length
}

// JawRow is one place of the run along the vise's fixed jaw.
type JawRow struct{ Along, Shown unit.Length }

// HolesRow is a rectangle of four holes: its sides as dialled, and its diagonals.
type HolesRow struct{ A, B, Rising, Falling unit.Length }

// CostRow is what a kind of reading costs in time.
type CostRow struct {
	Kind string
	Time unit.Time
}

// Inputs is what the lesson asks for. Any table may be empty.
type Inputs struct {
	Gauge []GaugeRow
	Span  unit.Length
	Sweep []SweepRow
	// Radius is of the sweep and Gain of its dial.
	Radius unit.Length
	Gain   float64
	Run    []RunRow
	// Track is how far the outer tracks lie from the middle one.
	Track unit.Length
	Bar   []BarRow
	Level []LevelRow
	// Division is the slope of one division of the level.
	Division squaring.Slope
	Skim     []SkimRow
	Knee     []KneeRow
	Jaw      []JawRow
	// JawMiddle is the jaw's middle right of the table's, JawWidth its width.
	JawMiddle, JawWidth unit.Length
	Holes               []HolesRow
	// Bearing is the distance along x between the two places where the table
	// bears on the saddle; zero when it is not known.
	Bearing unit.Length
	// The standard uncertainties of one reading each.
	GaugeU, SweepU, DialU unit.Length
	LevelU                squaring.Slope
	MicrometerU           unit.Length
	HoleU                 unit.Length
	// Head is the setting that stands now; Place and Length are of the part.
	Head          string
	Place, Length unit.Length
	// Depth is of a hole by the quill.
	Depth unit.Length
	// Goal is what matters most, and Costs what each kind of reading takes.
	Goal  string
	Costs []CostRow
}

// Defaults returns the action shop's readings of 2025-05-24.
func Defaults() Inputs {
	in := Inputs{
		Span: actionshop.GaugeSpan, Radius: actionshop.SweepRadius, Gain: 0.985, Track: actionshop.RunTrack, Division: actionshop.LevelDivision,
		Bearing: actionshop.BearingLength, Depth: 60 * mm,
		GaugeU: 3 * um, SweepU: 2.5 * um, DialU: 1 * um, LevelU: 4 * squaring.Microradian, MicrometerU: 0.7 * um, HoleU: 1.5 * um, JawMiddle: -180 * mm, JawWidth: 120 * mm,
		Head: left, Place: -180 * mm, Length: 400 * mm, Goal: goalBow,
		Costs: []CostRow{{kindSweep, minutes(6)}, {kindGauge, minutes(8)}, {kindRun, minutes(15)}, {kindLevel, minutes(40)},
			{kindBar, minutes(45)}, {kindSkim, minutes(90)}, {kindKnee, minutes(30)}, {kindJaw, minutes(10)}, {kindHoles, minutes(60)}},
	}
	readings := actionshop.GaugeReadings()
	for _, r := range readings {
		if r.Date.Equal(readings[len(readings)-1].Date) {
			in.Gauge = append(in.Gauge, GaugeRow{"as " + r.Head, r.Axis, r.B, r.C, r.BTurned, r.CTurned})
		}
	}
	for _, s := range append([]actionshop.Sweep{actionshop.SweepAsFound()}, actionshop.SweepsAsLeft()...) {
		row := SweepRow{Head: "as " + s.Head, Travel: s.Travel}
		copy(row.Shown[:], s.Readings[:])
		row.Shown[8] = s.Closing
		in.Sweep = append(in.Sweep, row)
	}
	_, runs := actionshop.SecondTableRun()
	for _, r := range runs {
		in.Run = append(in.Run, RunRow(r))
	}
	for _, r := range actionshop.GroundBar() {
		in.Bar = append(in.Bar, BarRow(r))
	}
	_, level := actionshop.SecondLevelSurvey()
	for _, r := range level {
		in.Level = append(in.Level, LevelRow(r))
	}
	for _, r := range actionshop.SkimmedBar() {
		in.Skim = append(in.Skim, SkimRow(r))
	}
	for _, r := range actionshop.SquareOnKnee() {
		in.Knee = append(in.Knee, KneeRow(r))
	}
	jaws := actionshop.JawRuns()
	for i, place := range actionshop.JawPlaces() {
		in.Jaw = append(in.Jaw, JawRow{place, jaws[len(jaws)-1].Readings[i]})
	}
	h := actionshop.Holes()
	in.Holes = []HolesRow{{h.X, h.Y, h.AC, h.BD}}
	return in
}

func minutes(n float64) unit.Time { return unit.Time(n * 60) }

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "survey",
		Title:    "One machine, one answer",
		Question: "I have swept, run, levelled and turned bars over, and the numbers disagree. What is my machine really doing?",
		Asked:    "My readings disagree with one another",
		Track:    notebook.Deciding,
		Summary: "Every reading goes into one least-squares adjustment of one machine. It says what is known and how well, " +
			"what these readings cannot tell, which of them looks wrong, and which to take next.",
		Minutes: 25,
		After:   []string{"fiveplaces", "bubble"},
	}, Defaults, form, Work).WithDrills(drills()...)
}
