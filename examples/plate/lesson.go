// Package plate is the lesson "Eight lines over a plate": how flat a surface
// plate is, from tilts read along a Union Jack.
package plate

import (
	"math"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Step is one reading along a line.
type Step struct {
	Slope wear.Slope
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Length and Width are the sides spanned by the lines, ReadingU the standard
	// uncertainty of one reading.
	Length, Width unit.Length
	ReadingU      wear.Slope
	// Lines are the readings along the eight lines, in the order of lineNames.
	Lines [8][]Step
}

// lineName says where a line runs.
type lineName struct {
	slug, label    string
	x0, y0, x1, y1 float64 // in shares of length and width
}

var lineNames = [8]lineName{
	{"sw-ne", "Diagonal SW to NE", 0, 0, 1, 1}, {"nw-se", "Diagonal NW to SE", 0, 1, 1, 0},
	{"sw-se", "Front side SW to SE", 0, 0, 1, 0}, {"nw-ne", "Back side NW to NE", 0, 1, 1, 1},
	{"sw-nw", "Left side SW to NW", 0, 0, 0, 1}, {"se-ne", "Right side SE to NE", 1, 0, 1, 1},
	{"w-e", "Middle W to E", 0, 0.5, 1, 0.5}, {"s-n", "Middle S to N", 0.5, 0, 0.5, 1},
}

// Defaults returns the action shop's plate.
func Defaults() Inputs {
	in := Inputs{Length: actionshop.PlateLength, Width: actionshop.PlateWidth, ReadingU: actionshop.PlateReadingU * wear.ArcSecond}
	for k, line := range actionshop.Plate() {
		for _, reading := range line.Readings {
			in.Lines[k] = append(in.Lines[k], Step{wear.Slope(reading) * wear.ArcSecond})
		}
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	tilts := []notebook.Unit{notebook.ArcSecond, notebook.MicrometrePerMetre, notebook.MillimetrePerMetre, notebook.ThouPerFoot}
	fields := []notebook.Field{
		notebook.Measure("length", &in.Length, notebook.Spec{Label: "Length spanned", Help: "Between the lines along the left and the right side.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 10000*mm)}),
		notebook.Measure("width", &in.Width, notebook.Spec{Label: "Width spanned", Help: "Between the lines along the front and the back side.", Units: lengths, Limits: notebook.AboveUpTo(0*mm, 10000*mm)}),
		notebook.Measure("reading-u", &in.ReadingU, notebook.Spec{Label: "One reading is sure to", Help: "Standard uncertainty: read one step ten times and take the standard deviation.", Units: tilts, Limits: notebook.Between(0.0, 1e-3)}),
	}
	for k := range in.Lines {
		fields = append(fields, notebook.Rows(lineNames[k].slug, &in.Lines[k], notebook.Spec{Label: lineNames[k].label, MinRows: 2, MaxRows: 60,
			Help: "One row a step of the foot, an even number of equal steps that fill the line."}, func(s *Step) []notebook.Field {
			return []notebook.Field{notebook.Measure("tilt", &s.Slope, notebook.Spec{Label: "Tilt", Help: "In the direction named; the zero of the line does not matter.", Units: tilts, Limits: notebook.Between(-0.01, 0.01)})}
		}))
	}
	return fields
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "plate",
		Title:    "Eight lines over a plate",
		Question: "Everything I measure stands on my surface plate. How flat is the plate?",
		Asked:    "I want to know my plate",
		Track:    notebook.Ways,
		Summary:  "Tilts along eight lines make a map of a surface plate, with a check built in, and its flatness by minimum zone with an uncertainty.",
		Minutes:  14,
		After:    []string{"bubble", "threelines"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is the survey, worked both ways.
type result struct {
	in               Inputs
	least, classical wear.PlateSurvey
	zone, plane      wear.Flatness
	classicalRange   unit.Length
	closureU         [2]unit.Length
}

func work(in Inputs) (result, error) {
	r := result{in: in}
	slopes := func(k int) []wear.Slope {
		line := make([]wear.Slope, len(in.Lines[k]))
		for i, s := range in.Lines[k] {
			line[i] = s.Slope
		}
		return line
	}
	lines := wear.PlateLines{SWtoNE: slopes(0), NWtoSE: slopes(1), SWtoSE: slopes(2), NWtoNE: slopes(3),
		SWtoNW: slopes(4), SEtoNE: slopes(5), WtoE: slopes(6), StoN: slopes(7)}
	for k, line := range in.Lines {
		if len(line) == 0 || len(line)%2 != 0 {
			_, err := wear.SurveyPlate(in.Length, in.Width, lines, in.ReadingU)
			return r, notebook.InField(lineNames[k].slug, err)
		}
	}
	var err error
	if r.least, err = wear.SurveyPlate(in.Length, in.Width, lines, in.ReadingU); err != nil {
		return r, err
	}
	if r.classical, err = wear.SurveyPlateClassical(in.Length, in.Width, lines, in.ReadingU); err != nil {
		return r, err
	}
	if r.zone, err = r.least.Flatness(wear.MinimumZone); err != nil {
		return r, err
	}
	if r.plane, err = r.least.Flatness(wear.LeastSquares); err != nil {
		return r, err
	}
	high, low := r.classical.Points[0].Height, r.classical.Points[0].Height
	for _, p := range r.classical.Points {
		high, low = max(high, p.Height), min(low, p.Height)
	}
	r.classicalRange = high - low
	r.closureU = closureU(in)
	return r, nil
}

// closureU returns the standard uncertainty of each closure. A middle height
// that is levelled between two ends holds half of every step of its line; the
// ends are the middles of two sides, which hold half of every step of theirs
// and lie between corners that both diagonals share.
func closureU(in Inputs) [2]unit.Length {
	half := func(k int) float64 {
		n := float64(len(in.Lines[k]))
		name := lineNames[k]
		base := math.Hypot((name.x1-name.x0)*float64(in.Length), (name.y1-name.y0)*float64(in.Width)) / n
		return math.Sqrt(n) / 2 * base * float64(in.ReadingU)
	}
	sides := func(line, a, b int) unit.Length {
		corners := math.Hypot(half(0), half(1)) / 2
		return unit.Length(math.Sqrt(math.Pow(half(line), 2) + math.Pow(half(a)/2, 2) + math.Pow(half(b)/2, 2) + corners*corners))
	}
	return [2]unit.Length{sides(6, 4, 5), sides(7, 2, 3)}
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := work(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{r.answers, r.pictures, byLevel, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
