package bubble

import (
	"errors"
	"fmt"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// moved is what changed between two surveys. The zero value says that there is
// only one.
type moved struct {
	rows []Reading
	// along and across are the changes with the floor taken off by the spared
	// station, where one is named.
	along, across wear.Change
	// meanAlong and meanAcross take the mean of all stations for the floor.
	meanAlong, meanAcross wear.Change
	// shape is the change of the motion, above the line through its ends.
	shape wear.Profile
}

func (m moved) given() bool { return len(m.rows) > 0 }

// changeOf compares the two surveys, if there are two.
func changeOf(in Inputs, first, second survey) (moved, error) {
	if !second.given() {
		return moved{}, nil
	}
	m := moved{rows: first.rows}
	var options wear.ChangeOptions
	if in.Spared != nil {
		options.Unworn = []unit.Length{-*in.Spared}
		if !stands(first, *in.Spared) {
			return moved{}, notebook.InField("spared", errors.New("no station of the first survey stands there; name one that does, or leave it empty"))
		}
	}
	var err error
	for _, run := range []struct {
		change        *wear.Change
		before, after wear.LevelSurvey
		options       wear.ChangeOptions
	}{
		{&m.along, first.along, second.along, options}, {&m.across, first.across, second.across, options},
		{&m.meanAlong, first.along, second.along, wear.ChangeOptions{}}, {&m.meanAcross, first.across, second.across, wear.ChangeOptions{}},
	} {
		if *run.change, err = wear.CompareSlopes(run.before.SlopePoints(), run.after.SlopePoints(), run.options); err != nil {
			return moved{}, notebook.InField("second", err)
		}
	}
	difference, err := wear.Difference(first.along.SlopePoints(), second.along.SlopePoints())
	if err != nil {
		return moved{}, notebook.InField("second", err)
	}
	motion, err := wear.MotionFromSlopes(difference, wear.MotionOptions{Bearing: in.Bearing, At: spread(difference, places)})
	if err != nil {
		return moved{}, notebook.InField("second", err)
	}
	m.shape, _, err = motion.Less(wear.EndPoints)
	return m, err
}

// stands reports whether the survey has a station at a travel, to half a
// millimetre.
func stands(s survey, travel unit.Length) bool {
	for _, r := range s.rows {
		if d := r.Travel - travel; d <= 0.5*mm && d >= -0.5*mm {
			return true
		}
	}
	return false
}

// changeItems adds the change: the floor's share, the table, the charts.
func changeItems(s *notebook.Sheet, m moved) error {
	s.Add(floorFigure("floor-along", "Floor's share along the table", m.given(), m.along),
		floorFigure("floor-across", "Floor's share across the table", m.given(), m.across),
		changeTable(m), changedVerdict(m))
	shape, err := shapeChart(m)
	if err != nil {
		return err
	}
	s.Add(shape)
	return nil
}

// oneSurvey is why a change is not known.
const oneSurvey = "there is one survey only; a change needs two"

func floorFigure(name, label string, given bool, c wear.Change) notebook.Figure {
	f := notebook.Figure{Name: name, Label: label}
	if !given {
		f.Unknown = oneSurvey
		return f
	}
	f.Value = notebook.Of(c.Floor, c.FloorU, notebook.Slopes)
	f.Note = notebook.Plain("The change at the station that has worn least, taken as the floor's at every station.")
	if c.Assumed {
		f.Note = notebook.Plain("No spared station is named, so this is the mean change of all. It is the floor's only if the wear leans the table one way as often as the other.")
	}
	return f
}

func changeTable(m moved) notebook.Table {
	t := notebook.Table{Name: "change", Title: "Change of slope, and what is left without the floor", Columns: []notebook.Column{
		notebook.ColIn("Travel X", notebook.Lengths), notebook.ColIn("Change along", notebook.Slopes), notebook.ColIn("Ways along", notebook.Slopes),
		notebook.ColIn("Change across", notebook.Slopes), notebook.ColIn("Ways across", notebook.Slopes)},
		Note: notebook.Plain("“real”: too large to be chance. The chance of even one false “real” in a column is held to 5 % (Holm).")}
	for i := range m.along.Stations {
		row := []notebook.Cell{notebook.Val(place(m.rows[i].Travel))}
		for _, c := range []wear.StationChange{m.along.Stations[i], m.across.Stations[i]} {
			own := notebook.Val(notebook.Of(c.Own, c.OwnU, notebook.Slopes))
			switch {
			case c.OwnU == 0:
				own = notebook.Str("stands for the floor")
			case c.Changed:
				own.Mark = "real"
			}
			row = append(row, notebook.Val(notebook.Of(c.Total, c.TotalU, notebook.Slopes)), own)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// changedVerdict says which part of the change is the floor and whether the ways
// changed.
func changedVerdict(m moved) notebook.Verdict {
	v := notebook.Verdict{Name: "changed", Tone: notebook.Good}
	if !m.given() {
		v.Tone, v.Text = notebook.Note, notebook.Plain("Nothing to compare: "+oneSurvey+".")
		return v
	}
	v.Text = notebook.Say("The floor has tilted the whole machine by {u} along and {u} across the table.",
		notebook.Of(m.along.Floor, m.along.FloorU, notebook.Slopes), notebook.Of(m.across.Floor, m.across.FloorU, notebook.Slopes))
	along, across := realOnes(m.rows, m.along), realOnes(m.rows, m.across)
	if len(along) == 0 && len(across) == 0 {
		v.Text = v.Text.And(notebook.Plain("At no station is the rest more than chance: the ways have not measurably changed."))
		return v
	}
	v.Tone = notebook.Watch
	for _, found := range []struct {
		stations notebook.Text
		words    string
	}{{along, "along"}, {across, "across"}} {
		if len(found.stations) > 0 {
			v.Text = v.Text.And(notebook.Plain(fmt.Sprintf("The ways themselves have changed %s the table at X =", found.words))).And(found.stations)
		}
	}
	return v
}

// realOnes lists the stations that changed, or nothing.
func realOnes(rows []Reading, c wear.Change) notebook.Text {
	var where []notebook.Quantity
	for i, s := range c.Stations {
		if s.Changed {
			where = append(where, place(rows[i].Travel))
		}
	}
	if len(where) == 0 {
		return nil
	}
	return notebook.Say(strings.Repeat("{}, ", len(where)-1)+"{}.", where...)
}

// shapeChart draws how the shape of the motion has changed.
func shapeChart(m moved) (notebook.Chart, error) {
	const name, title = "shape-chart", "Change in the height of the motion, straight line removed"
	if !m.given() {
		return notebook.Chart{Name: name, Title: title, Unknown: oneSurvey}, nil
	}
	n := len(m.shape.Points)
	x, y, low, high := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i, p := range m.shape.Points {
		u := float64(m.shape.U(i))
		x[i], y[i], low[i], high[i] = float64(p.Position), float64(p.Height), float64(p.Height)-2*u, float64(p.Height)+2*u
	}
	return plot.XY{Name: name, Title: title,
		Caption: notebook.Plain("The floor cannot make this shape: a tilt of the whole machine is a straight line, and a straight line has been taken off."),
		X:       alongTable, Y: plot.Axis{Label: "Change of height", Show: notebook.FineLengths},
		Series: []plot.Series{{Label: "change of height", Style: plot.Curve, X: x, Y: y}, {Label: "± 2u", Style: plot.Band, X: x, Low: low, High: high}}}.Chart()
}
