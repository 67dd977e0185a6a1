// Package threesquares is the lesson "Three squares and four corners": how three
// squares that nobody vouches for tell each its own error, and how the four
// corners of a block tell the error of the square that they are read with.
package threesquares

import (
	"fmt"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// The pairs of squares.
const (
	firstSecond = "first and second"
	secondThird = "second and third"
	firstThird  = "first and third"
)

// Comparison is two squares set blade to blade.
type Comparison struct {
	Pair string
	// Opening is what stands open at the top, negative when the blades touch
	// there and are open at the foot.
	Opening unit.Length
}

// Corner is one corner of the block, read in one or two rounds.
type Corner struct {
	First  unit.Length
	Second *unit.Length
}

// Inputs is what the lesson asks for.
type Inputs struct {
	// Height is where up the blades the opening is read, OpeningU the standard
	// uncertainty of one opening.
	Height, OpeningU unit.Length
	Comparisons      []Comparison
	// Side is the height over which a corner is read, CornerU the standard
	// uncertainty of one reading.
	Side, CornerU unit.Length
	Corners       []Corner
	Limit         squaring.Slope
}

// Defaults returns the action shop's square beside two that were lent, and a
// block read against it.
func Defaults() Inputs {
	in := Inputs{Height: 200 * mm, OpeningU: 1 * um, Side: 60 * mm, CornerU: 0.6 * um, Limit: 20 * squaring.Microradian}
	for _, c := range []struct {
		pair     string
		openings []float64
	}{{firstSecond, []float64{3, 4}}, {secondThird, []float64{-2, -1}}, {firstThird, []float64{7, 6}}} {
		for _, o := range c.openings {
			in.Comparisons = append(in.Comparisons, Comparison{c.pair, unit.Length(o) * um})
		}
	}
	for _, c := range [][2]float64{{3, 2.5}, {-3.5, -3}, {-1, -1.5}, {-5, -4.5}} {
		second := unit.Length(c[1]) * um
		in.Corners = append(in.Corners, Corner{unit.Length(c[0]) * um, &second})
	}
	return in
}

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Millimetre, notebook.Thou}
	read := notebook.Between(-1*mm, 1*mm)
	return []notebook.Field{
		notebook.Measure("height", &in.Height, notebook.Spec{Label: "Height of the reading on the squares", Help: "From the plate up to the feeler or the light gap.", Units: lengths, Limits: notebook.Between(10*mm, 2000*mm)}),
		notebook.Rows("comparisons", &in.Comparisons, notebook.Spec{Label: "Blade to blade", Help: "Each pair at least once; twice or more shows how well you repeat.", MinRows: 3, MaxRows: 60},
			func(c *Comparison) []notebook.Field {
				if c.Pair == "" {
					c.Pair = firstSecond
				}
				return []notebook.Field{
					notebook.Choice("pair", &c.Pair, notebook.Spec{Label: "Squares", Help: "Which two stand on the plate.", Options: []string{firstSecond, secondThird, firstThird}}),
					notebook.Measure("opening", &c.Opening, notebook.Spec{Label: "Open at the top", Help: "Minus when they touch at the top and are open at the foot: then what is open at the foot.", Units: fine, Limits: read}),
				}
			}),
		notebook.Measure("side", &in.Side, notebook.Spec{Label: "Height of the block's faces", Help: "Over which a corner is read.", Units: lengths, Limits: notebook.Between(2*mm, 2000*mm)}),
		notebook.Rows("corners", &in.Corners, notebook.Spec{Label: "The block's corners, one after the other", Help: "Each against the same square, or the same angle plate and dial. Three corners or more; four for a block.", MinRows: 3, MaxRows: 12},
			func(c *Corner) []notebook.Field {
				return []notebook.Field{
					notebook.Measure("first", &c.First, notebook.Spec{Label: "First round", Help: "Plus when the corner is more open than the square.", Units: fine, Limits: read}),
					notebook.MeasureMaybe("second", &c.Second, notebook.Spec{Label: "Second round", Help: "The same corners again, in the same order; empty when there was none.", Units: fine, Limits: read}),
				}
			}),
		notebook.Measure("opening-u", &in.OpeningU, notebook.Spec{Label: "Standard uncertainty of one opening", Help: "A feeler: 1 to 2 µm; a light gap: under 1.", Units: fine, Limits: notebook.AboveUpTo(0*mm, 0.1*mm), Group: "Doubt and limit"}),
		notebook.Measure("corner-u", &in.CornerU, notebook.Spec{Label: "Standard uncertainty of one corner", Help: "Of the dial or feeler, over the block's height.", Units: fine, Limits: notebook.AboveUpTo(0*mm, 0.1*mm), Group: "Doubt and limit"}),
		notebook.Measure("limit", &in.Limit, notebook.Spec{Label: "A square may be out by", Help: "Half of what your work allows.",
			Units: []notebook.Unit{notebook.MicrometrePerMetre, notebook.MillimetrePer300, notebook.ThouPerFoot}, Limits: notebook.AboveUpTo(0, 10e-3), Group: "Doubt and limit"}),
	}
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "threesquares",
		Title:    "Three squares and four corners",
		Question: "I have three squares and trust none of them. Which one is square, and by how much are the others out?",
		Asked:    "Which of my squares is true?",
		Track:    notebook.Foundations,
		Summary: "Three squares compared two by two give the error of each, with nothing true to begin with. The corners of a block sum to a whole turn, " +
			"so four readings tell block and square apart.",
		Minutes: 10,
		After:   []string{"thousandth"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// worked is both results.
type worked struct {
	squares squaring.ThreeSquares
	polygon squaring.Polygon
	rounds  [][]unit.Angle
}

// work compares the squares and closes the corners.
func (in Inputs) work() (worked, error) {
	var w worked
	pairs := map[string][]squaring.Slope{}
	for i, c := range in.Comparisons {
		s, err := squaring.SlopeFromRise(c.Opening, in.Height)
		if err != nil {
			return w, notebook.InRow("comparisons", i+1, "opening", err)
		}
		pairs[c.Pair] = append(pairs[c.Pair], s)
	}
	for _, pair := range []string{firstSecond, secondThird, firstThird} {
		if len(pairs[pair]) == 0 {
			return w, notebook.InField("comparisons", fmt.Errorf("the pair %q is missing: two comparisons cannot tell three squares apart", pair))
		}
	}
	u, err := squaring.SlopeFromRise(in.OpeningU, in.Height)
	if err != nil {
		return w, notebook.InField("opening-u", err)
	}
	if w.squares, err = squaring.CompareSquares(pairs[firstSecond], pairs[secondThird], pairs[firstThird], u); err != nil {
		return w, notebook.InField("comparisons", err)
	}
	if w.rounds, err = in.rounds(); err != nil {
		return w, err
	}
	cornerU, err := squaring.SlopeFromRise(in.CornerU, in.Side)
	if err != nil {
		return w, notebook.InField("corner-u", err)
	}
	w.polygon, err = squaring.ClosePolygon(w.rounds, cornerU.LinearAngle())
	return w, notebook.InField("corners", err)
}

// rounds returns the corners' readings as angles, one or two rounds.
func (in Inputs) rounds() ([][]unit.Angle, error) {
	var first, second []unit.Angle
	for i, c := range in.Corners {
		s, err := squaring.SlopeFromRise(c.First, in.Side)
		if err != nil {
			return nil, notebook.InRow("corners", i+1, "first", err)
		}
		first = append(first, s.LinearAngle())
		if c.Second == nil {
			continue
		}
		if s, err = squaring.SlopeFromRise(*c.Second, in.Side); err != nil {
			return nil, notebook.InRow("corners", i+1, "second", err)
		}
		second = append(second, s.LinearAngle())
	}
	switch len(second) {
	case 0:
		return [][]unit.Angle{first}, nil
	case len(first):
		return [][]unit.Angle{first, second}, nil
	}
	return nil, notebook.InField("corners", fmt.Errorf("the second round has %d of %d corners: read all of them or none", len(second), len(first)))
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	w, err := in.work()
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet, Inputs, worked) error{setUpItems, squareItems, cornerItems, workItems, mythItems, exerciseItems, checkItems} {
		if err := add(sheet, in, w); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
