package pockets

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

// worn is the wear as a quantity, without an uncertainty where it is a bound.
func worn(w wear.PocketWear) notebook.Quantity {
	if w.AtLeast {
		return notebook.Stepped(w.Wear, 1*um, notebook.FineLengths)
	}
	return notebook.Of(w.Wear, w.U, notebook.FineLengths)
}

// cell is the wear as a cell of a table.
func cell(w wear.PocketWear) notebook.Cell {
	c := notebook.Val(worn(w))
	if w.AtLeast {
		c.Mark = "at least"
	}
	return c
}

// answers adds the verdict, the tables and the chart of the wear.
func answers(s *notebook.Sheet, in Inputs, first, second survey) error {
	s.Add(wornVerdict(second), grownVerdict(in, first, second), missingFigure(second),
		wearTable("front", "Wear of the front way", in, first.front, second.front),
		wearTable("rear", "Wear of the rear way", in, first.rear, second.rear))
	chart, err := wearChart(first, second)
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// deepest returns the station with the most wear.
func deepest(wears []wear.PocketWear) wear.PocketWear {
	most := wears[0]
	for _, w := range wears {
		if w.Wear > most.Wear {
			most = w
		}
	}
	return most
}

func wornVerdict(second survey) notebook.Verdict {
	text := notebook.Text{}
	for _, way := range []struct {
		words string
		wears []wear.PocketWear
	}{{"The front way", second.front}, {"The rear way", second.rear}} {
		w := deepest(way.wears)
		how := " has worn most at u = {}: {u}."
		if w.AtLeast {
			how = " has worn most at u = {}: at least {u}, for not one pocket is left there."
		}
		text = text.And(notebook.Say(way.words+how, place(w.Place), worn(w)))
	}
	return notebook.Verdict{Name: "answer", Tone: notebook.Note, Text: text}
}

// growth is the growth of wear at one place, if it can be told.
func growth(in Inputs, before, after wear.PocketWear) (grown, u unit.Length, known bool) {
	if before.AtLeast || after.AtLeast {
		return 0, 0, false
	}
	// The depth when new is common to both and drops out.
	own := math.Pow(float64(before.U), 2) + math.Pow(float64(after.U), 2) - 2*math.Pow(float64(in.NewU), 2)
	return after.Wear - before.Wear, unit.Length(math.Sqrt(math.Max(own, 0))), true
}

// match returns the wear at a place in an earlier survey.
func match(wears []wear.PocketWear, at unit.Length) (wear.PocketWear, bool) {
	for _, w := range wears {
		if math.Abs(float64(w.Place-at)) < 0.5e-3 {
			return w, true
		}
	}
	return wear.PocketWear{}, false
}

// grownVerdict says where the wear has grown beyond chance.
func grownVerdict(in Inputs, first, second survey) notebook.Verdict {
	v := notebook.Verdict{Name: "grown", Tone: notebook.Note, Text: notebook.Plain("One survey only: no growth to tell.")}
	if len(first.front) == 0 {
		return v
	}
	v.Tone, v.Text = notebook.Good, nil
	tests := len(second.front) + len(second.rear)
	for _, way := range []struct {
		words         string
		before, after []wear.PocketWear
	}{{"front", first.front, second.front}, {"rear", first.rear, second.rear}} {
		var most wear.PocketWear
		var grown, u unit.Length
		for _, after := range way.after {
			if before, ok := match(way.before, after.Place); ok {
				if g, gu, known := growth(in, before, after); known && g > grown {
					most, grown, u = after, g, gu
				}
			}
		}
		// Chance of a growth as large at the worst of all places tried.
		if u > 0 && grown > unit.Length(bonferroni(tests))*u {
			v.Tone = notebook.Watch
			v.Text = v.Text.And(notebook.Say("The "+way.words+" way has worn {u} more at u = {} since the first survey, beyond what chance can do.", notebook.Of(grown, u, notebook.FineLengths), place(most.Place)))
		} else {
			v.Text = v.Text.And(notebook.Plain("On the " + way.words + " way no growth stands out from chance where it can be told."))
		}
	}
	return v
}

// bonferroni is how many standard uncertainties a growth must reach to be real
// at 5 % when so many places are looked at.
func bonferroni(tests int) float64 { return math.Sqrt2 * math.Erfcinv(0.1/float64(tests)) }

// missingFigure shows what forgetting the missing pockets does, where it does
// most.
func missingFigure(s survey) notebook.Figure {
	f := notebook.Figure{Name: "forgotten", Label: "Wear missed by forgetting the missing pockets", Unknown: "at no place are some pockets found and some gone"}
	var most unit.Length
	for _, w := range append(append([]wear.PocketWear(nil), s.front...), s.rear...) {
		if miss := w.Wear - w.Plain; !w.AtLeast && miss > most && miss > 0.01*um {
			most = miss
			f.Unknown, f.Value = "", notebook.Stepped(miss, 0.1*um, notebook.FineLengths)
			f.Note = notebook.Say("At u = {}: {u} with the missing ones counted, {} from the mean of those found.", place(w.Place), worn(w), notebook.Stepped(w.Plain, 0.1*um, notebook.FineLengths))
		}
	}
	return f
}

func wearTable(name, title string, in Inputs, first, second []wear.PocketWear) notebook.Table {
	t := notebook.Table{Name: name, Title: title, Columns: []notebook.Column{notebook.ColIn("Place u", notebook.Lengths),
		notebook.ColIn("First survey", notebook.FineLengths), notebook.ColIn("Latest survey", notebook.FineLengths),
		notebook.ColIn("95 % from", notebook.FineLengths), notebook.ColIn("to", notebook.FineLengths), notebook.ColIn("Grown by", notebook.FineLengths)}}
	for _, w := range second {
		row := []notebook.Cell{notebook.Val(place(w.Place)), notebook.Str("–"), cell(w), notebook.Val(notebook.Stepped(w.Low, 1*um, notebook.FineLengths)), notebook.Str("not known"), notebook.Str("–")}
		if !w.AtLeast {
			row[4] = notebook.Val(notebook.Stepped(w.High, 1*um, notebook.FineLengths))
		}
		if before, ok := match(first, w.Place); ok {
			row[1] = cell(before)
			if g, u, known := growth(in, before, w); known {
				row[5] = notebook.Val(notebook.Of(g, u, notebook.FineLengths))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// wearChart draws both ways at both dates; bounds are arrows.
func wearChart(first, second survey) (notebook.Chart, error) {
	var series []plot.Series
	for _, line := range []struct {
		words string
		wears []wear.PocketWear
	}{{"front, first", first.front}, {"front, latest", second.front}, {"rear, first", first.rear}, {"rear, latest", second.rear}} {
		known, bound := plot.Series{Label: line.words, Style: plot.Line}, plot.Series{Label: line.words + ": at least", Style: plot.AtLeast}
		for _, w := range line.wears {
			if w.AtLeast {
				bound.X, bound.Y = append(bound.X, float64(w.Place)), append(bound.Y, float64(w.Wear))
				continue
			}
			known.X, known.Y, known.U = append(known.X, float64(w.Place)), append(known.Y, float64(w.Wear)), append(known.U, float64(w.U))
		}
		for _, s := range []plot.Series{known, bound} {
			if len(s.X) > 0 {
				series = append(series, s)
			}
		}
	}
	return plot.XY{Name: "wear-chart", Title: "Wear of the ways", Caption: notebook.Plain("With one standard uncertainty either way; an arrow means at least."),
		X: plot.Axis{Label: "Place on the table u", Show: notebook.Lengths}, Y: plot.Axis{Label: "Wear", Show: notebook.FineLengths}, Series: series}.Chart()
}
