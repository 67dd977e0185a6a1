package plot

import (
	"fmt"

	"example.org/thouspan/internal/notebook"
)

// curvePoints is how many points of a curve or a band the table gives.
const curvePoints = 13

// table returns the chart's data: side by side when all series stand at the
// same places, else one below the other.
func (c XY) table(x, y scale) notebook.Table {
	picked := make([][]int, len(c.Series))
	thinned := false
	for i, s := range c.Series {
		most := MaxPoints
		if s.Style == Curve || s.Style == Band {
			most = curvePoints
		}
		picked[i] = thin(len(s.X), most)
		thinned = thinned || len(picked[i]) < len(s.X)
	}
	table := c.stacked(picked, x, y)
	if c.samePlaces(picked) {
		table = c.sideBySide(picked, x, y)
	}
	table.Note = c.note(y, thinned)
	return table
}

// note says what the picture shows beside the points.
func (c XY) note(y scale, thinned bool) notebook.Text {
	var note notebook.Text
	if thinned {
		note = notebook.Plain(fmt.Sprintf("Curves are given at up to %d of their points.", curvePoints))
	}
	for _, limit := range c.Limits {
		note = note.And(notebook.Plain(limit.Label + ":")).And(notebook.Say("{}.", c.Y.quantity(limit.Y, 0, y)))
	}
	return note
}

// samePlaces reports whether all series stand at equal places.
func (c XY) samePlaces(picked [][]int) bool {
	first := c.Series[0]
	for i, s := range c.Series {
		if len(picked[i]) != len(picked[0]) {
			return false
		}
		for k, at := range picked[i] {
			if s.X[at] != first.X[picked[0][k]] {
				return false
			}
		}
	}
	return true
}

func (c XY) sideBySide(picked [][]int, x, y scale) notebook.Table {
	table := notebook.Table{Columns: []notebook.Column{c.X.column(c.X.Label)}}
	for _, s := range c.Series {
		for k := range s.lists() {
			table.Columns = append(table.Columns, c.Y.column(s.listLabel(k)))
		}
	}
	for k, at := range picked[0] {
		row := []notebook.Cell{c.X.cell(c.Series[0].X[at], 0, x)}
		for i, s := range c.Series {
			for l := range s.lists() {
				row = append(row, s.cell(c.Y, y, l, picked[i][k]))
			}
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

func (c XY) stacked(picked [][]int, x, y scale) notebook.Table {
	table := notebook.Table{Columns: []notebook.Column{notebook.Col("Series"), c.X.column(c.X.Label), c.Y.column(c.Y.Label)}}
	for i, s := range c.Series {
		for l := range s.lists() {
			for _, at := range picked[i] {
				table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(s.listLabel(l)),
					c.X.cell(s.X[at], 0, x), s.cell(c.Y, y, l, at)})
			}
		}
	}
	return table
}

// listLabel names one list of a series.
func (s Series) listLabel(k int) string {
	if s.Style == Band {
		return s.Label + [2]string{", low", ", high"}[k]
	}
	return s.Label
}

// cell returns one value of a series as a table's cell.
func (s Series) cell(axis Axis, y scale, list, at int) notebook.Cell {
	u := 0.0
	if len(s.U) > 0 {
		u = s.U[at]
	}
	cell := axis.cell(s.lists()[list][at], u, y)
	switch s.Style {
	case AtLeast:
		return cell.Marked("or above")
	case AtMost:
		return cell.Marked("or below")
	}
	return cell
}
