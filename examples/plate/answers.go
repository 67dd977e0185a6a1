package plate

import (
	"fmt"
	"math"
	"sort"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

func fine(value, u unit.Length) notebook.Quantity {
	return notebook.Of(value, u, notebook.FineLengths)
}

// hundredth is a height to a hundredth of a micrometre.
func hundredth(x unit.Length) notebook.Quantity {
	return notebook.Stepped(x, 0.01*um, notebook.FineLengths)
}

// answers adds the verdicts, the figures and the table.
func (r result) answers(s *notebook.Sheet) error {
	grade, err := r.gradeVerdict()
	if err != nil {
		return err
	}
	s.Add(grade, r.closureVerdict(),
		notebook.Figure{Name: "zone", Label: "Flatness, minimum zone", Value: fine(r.zone.Value, r.zone.U), Note: notebook.Say("By least squares {u}.", fine(r.plane.Value, r.plane.U))},
		notebook.Figure{Name: "classical", Label: "Highest less lowest, the classical way", Value: hundredth(r.classicalRange),
			Note: notebook.Plain("Above the plane in which the corners balance.")},
		notebook.Figure{Name: "scatter", Label: "Reading error that the lines themselves tell", Value: notebook.Exact(r.least.Scatter, notebook.Slopes).WithDigits(1),
			Note: notebook.Say("From how far the eight lines disagree; only {} independent disagreements, so a rough figure. You said {}.", notebook.Whole(r.least.Freedom), notebook.Exact(r.in.ReadingU, notebook.Slopes).WithDigits(2))},
		notebook.Figure{Name: "arcsec-rise", Label: "Rise of one arc second over 100 mm", Value: notebook.Exact(wear.ArcSecond.Rise(100*mm), notebook.FineLengths)},
		r.extremes(),
		notebook.Caution{Name: "caution-plate", Text: notebook.Plain("A plate is heavy and its stand tips: do not lean over a corner. Never look into a laser or into the light of an autocollimator without knowing its class; keep to the maker's instructions.")})
	return nil
}

// gradeVerdict says which grade the plate reaches, sure or not.
func (r result) gradeVerdict() (notebook.Verdict, error) {
	diagonal := unit.Length(math.Hypot(float64(r.in.Length), float64(r.in.Width)))
	text := notebook.Say("The plate is flat within {u} over a diagonal of {}.", fine(r.zone.Value, r.zone.U), place(diagonal))
	din, err := r.dinWords()
	if err != nil {
		return notebook.Verdict{}, err
	}
	for _, grade := range []wear.PlateGrade{wear.GradeAA, wear.GradeA, wear.GradeB} {
		limit, err := wear.PlateLimit(diagonal, grade)
		if err != nil {
			return notebook.Verdict{}, err
		}
		switch {
		case r.zone.Value+2*r.zone.U <= limit:
			return notebook.Verdict{Name: "answer", Tone: notebook.Good, Text: text.And(notebook.Say("It keeps grade "+grade.String()+", which allows {}, with twice the uncertainty to spare.", hundredth(limit))).And(din)}, nil
		case r.zone.Value <= limit:
			return notebook.Verdict{Name: "answer", Tone: notebook.Watch, Text: text.And(notebook.Say("It may keep grade "+grade.String()+", which allows {}: too near to be sure.", hundredth(limit))).And(din)}, nil
		}
	}
	return notebook.Verdict{Name: "answer", Tone: notebook.Stop, Text: text.And(notebook.Plain("It keeps none of the grades AA, A and B: have it lapped, or work on a part of it that you have mapped.")).And(din)}, nil
}

// dinWords says which grade of DIN 876, which goes by the longest side, the plate
// keeps with twice the uncertainty to spare.
func (r result) dinWords() (notebook.Text, error) {
	for grade := range 4 {
		limit, err := wear.PlateLimitDIN(max(r.in.Length, r.in.Width), grade)
		if err != nil {
			return notebook.Text{}, err
		}
		if r.zone.Value+2*r.zone.U <= limit {
			return notebook.Say(fmt.Sprintf("By DIN 876 it keeps grade %d, which allows {}.", grade), hundredth(limit)), nil
		}
	}
	return notebook.Plain("By DIN 876 it keeps no grade."), nil
}

// closureVerdict says whether the middle lines meet the diagonals.
func (r result) closureVerdict() notebook.Verdict {
	v := notebook.Verdict{Name: "closure", Tone: notebook.Good, Text: notebook.Say("The line W to E meets the diagonals within {}, S to N within {}; the errors of reading allow {} and {}.",
		hundredth(size(r.least.Closure[0])), hundredth(size(r.least.Closure[1])), hundredth(2*r.closureU[0]), hundredth(2*r.closureU[1]))}
	for k, c := range r.least.Closure {
		if math.Abs(float64(c)) > 2*float64(r.closureU[k]) {
			v.Tone = notebook.Watch
			v.Text = v.Text.And(notebook.Plain("The line " + []string{"W to E", "S to N"}[k] + " misses by more than chance: a reading is wrong, or the plate has moved while you measured. Read it again."))
		}
	}
	return v
}

func size(x unit.Length) unit.Length { return max(x, -x) }

// extremes lists the places that the zone touches.
func (r result) extremes() notebook.Table {
	t := notebook.Table{Name: "contacts", Title: "Where the zone touches", Columns: []notebook.Column{notebook.Col("Plane"), notebook.ColIn("x", notebook.Lengths), notebook.ColIn("y", notebook.Lengths), notebook.ColIn("Height", notebook.FineLengths)},
		Note: notebook.Plain("From the left front corner; heights above the plane in which the corners balance.")}
	for _, side := range []struct {
		words  string
		points []int
	}{{"upper", r.zone.Highest}, {"lower", r.zone.Lowest}} {
		for _, i := range side.points {
			p := r.least.Points[i]
			t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(side.words), notebook.Val(place(p.X)), notebook.Val(place(p.Y)),
				notebook.Val(fine(p.Height, unit.Length(math.Sqrt(math.Max(r.least.Covariance.At(i, i), 0)))))})
		}
	}
	return t
}

// along returns the places and heights along a line, in order.
func (r result) along(k int) (x, z, u []float64) {
	name := lineNames[k]
	dx, dy := (name.x1-name.x0)*float64(r.in.Length), (name.y1-name.y0)*float64(r.in.Width)
	size := math.Hypot(dx, dy)
	type at struct{ s, z, u float64 }
	var points []at
	for i, p := range r.least.Points {
		px, py := float64(p.X)-name.x0*float64(r.in.Length), float64(p.Y)-name.y0*float64(r.in.Width)
		if math.Abs(px*dy-py*dx)/size < 1e-9*size {
			points = append(points, at{(px*dx + py*dy) / size, float64(p.Height), math.Sqrt(math.Max(r.least.Covariance.At(i, i), 0))})
		}
	}
	sort.Slice(points, func(i, j int) bool { return points[i].s < points[j].s })
	for _, p := range points {
		x, z, u = append(x, p.s), append(z, p.z), append(u, p.u)
	}
	return x, z, u
}

// pictures adds two charts and the map.
func (r result) pictures(s *notebook.Sheet) error {
	for _, c := range []struct {
		name, title string
		lines       []int
	}{{"diagonals-chart", "Along the diagonals and through the middle", []int{0, 1, 6, 7}}, {"sides-chart", "Along the sides", []int{2, 3, 4, 5}}} {
		var series []plot.Series
		for _, k := range c.lines {
			x, z, u := r.along(k)
			series = append(series, plot.Series{Label: lineNames[k].label, Style: plot.Line, X: x, Y: z, U: u})
		}
		chart, err := plot.XY{Name: c.name, Title: c.title, Caption: notebook.Plain("Heights above the plane in which the corners balance, with one standard uncertainty either way."),
			X: plot.Axis{Label: "From the end named first", Show: notebook.Lengths}, Y: plot.Axis{Label: "Height", Show: notebook.FineLengths}, Series: series}.Chart()
		if err != nil {
			return err
		}
		s.Add(chart)
	}
	item, err := r.drawing()
	if err != nil {
		return err
	}
	s.Add(item)
	return nil
}

// drawing is the plate from above with its eight lines; the dots grow with the
// height above the lowest point.
func (r result) drawing() (notebook.Drawing, error) {
	c := drawing.New("map-drawing", "Eight lines over a plate", "The plate from above. The eight lines are drawn; the dots are the points where heights are known, large where the plate is high.", 420, 330)
	scale := math.Min(340/float64(r.in.Length), 250/float64(r.in.Width))
	view := drawing.View{Origin: drawing.Point{X: 210 - scale*float64(r.in.Length)/2, Y: 150 + scale*float64(r.in.Width)/2}, Along: scale, Up: scale}
	at := func(x, y float64) drawing.Point { return view.At(x*float64(r.in.Length), y*float64(r.in.Width)) }
	c.Face(drawing.Body, at(0, 0), at(1, 0), at(1, 1), at(0, 1))
	for _, name := range lineNames {
		c.Line(drawing.Thin, at(name.x0, name.y0), at(name.x1, name.y1))
	}
	high, low := r.least.Points[0].Height, r.least.Points[0].Height
	for _, p := range r.least.Points {
		high, low = max(high, p.Height), min(low, p.Height)
	}
	for _, p := range r.least.Points {
		radius := 1.5
		if high > low {
			radius += 6 * float64((p.Height-low)/(high-low))
		}
		c.Circle(drawing.Marked, view.At(float64(p.X), float64(p.Y)), radius)
	}
	for _, corner := range []struct {
		words  string
		x, y   float64
		anchor drawing.Anchor
		dy     float64
	}{{"SW", 0, 0, drawing.End, 16}, {"SE", 1, 0, drawing.Start, 16}, {"NW", 0, 1, drawing.End, -6}, {"NE", 1, 1, drawing.Start, -6}} {
		c.Words(at(corner.x, corner.y).Add(0, corner.dy), corner.anchor, corner.words)
	}
	c.Frame(drawing.Point{X: 196, Y: 322}, "x", "y")
	return c.Item(notebook.Say("From above, the operator at the foot of the drawing. From the smallest dot to the largest is {}.", hundredth(high-low)))
}
