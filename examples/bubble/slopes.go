package bubble

import (
	"fmt"
	"time"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
)

// day is a date inside a sentence.
func day(t time.Time) string { return t.Format("2 January 2006") }

// slopeItems adds what the level says at each date: tables, zeros, charts and
// whether the level can be trusted.
func slopeItems(s *notebook.Sheet, first, second survey) error {
	s.Add(slopeTable("slopes-first", "First survey", first), slopeTable("slopes-second", "Second survey", second),
		zeroFigure("zero-first", "Zero of the level, first survey", first), zeroFigure("zero-second", "Zero of the level, second survey", second),
		soundVerdict(first, second))
	chart, err := slopeChart(first, second)
	if err != nil {
		return err
	}
	s.Add(chart)
	return nil
}

// slopeTable lists the slopes and zeros of one survey.
func slopeTable(name, title string, s survey) notebook.Table {
	t := notebook.Table{Name: name, Title: title + ": no readings", Columns: []notebook.Column{
		notebook.ColIn("Travel X", notebook.Lengths), notebook.ColIn("Slope along", notebook.Slopes), notebook.ColIn("Zero along", notebook.Slopes),
		notebook.ColIn("Slope across", notebook.Slopes), notebook.ColIn("Zero across", notebook.Slopes)}}
	if !s.given() {
		return t
	}
	t.Title = title + ", " + day(s.day)
	t.Note = notebook.Plain("Positive slope: right, or back, is high. The zero is the level's own error and should be alike down each column.")
	for i, r := range s.rows {
		row := []notebook.Cell{notebook.Val(place(r.Travel))}
		for _, p := range []wear.LevelPoint{s.along.Points[i], s.across.Points[i]} {
			zero := notebook.Val(notebook.Stepped(p.Zero, 1e-6, notebook.Slopes))
			if p.Suspect {
				zero.Mark = "read again"
			}
			row = append(row, notebook.Val(notebook.Of(p.Slope, p.SlopeU, notebook.Slopes)), zero)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func zeroFigure(name, label string, s survey) notebook.Figure {
	f := notebook.Figure{Name: name, Label: label}
	if !s.given() {
		f.Unknown = "there are no readings of that date"
		return f
	}
	f.Value = notebook.Of(s.along.Zero, s.along.ZeroU, notebook.Slopes)
	f.Note = notebook.Say("From the run along the table; the run across gives {u}. It is taken out of every slope by turning the level.",
		notebook.Of(s.across.Zero, s.across.ZeroU, notebook.Slopes))
	return f
}

// soundVerdict says whether the zeros behave, station by station.
func soundVerdict(first, second survey) notebook.Verdict {
	v := notebook.Verdict{Name: "level-sound", Tone: notebook.Good}
	for _, s := range []survey{first, second} {
		if s.given() {
			v.Text = v.Text.And(faultsOf("along", s, s.along)).And(faultsOf("across", s, s.across))
		}
	}
	if len(v.Text) > 0 {
		v.Tone = notebook.Watch
		v.Text = notebook.Plain("Look again.").And(v.Text)
		return v
	}
	latest := first
	if second.given() {
		latest = second
	}
	rounding, scatter := latest.along.RoundingU, latest.along.ScatterU
	v.Text = notebook.Say("The zeros agree from station to station, so the level was set down and read alike throughout. Rounding alone makes a slope uncertain by {}; the scatter of the zeros says {}. The larger of the two counts.",
		notebook.Stepped(rounding, 0.1e-6, notebook.Slopes), notebook.Stepped(scatter, 0.1e-6, notebook.Slopes))
	return v
}

// faultsOf says in words which zeros of a run stand out and whether they drift.
func faultsOf(direction string, s survey, run wear.LevelSurvey) notebook.Text {
	var faults notebook.Text
	for i, p := range run.Points {
		if p.Suspect {
			faults = faults.And(notebook.Say(fmt.Sprintf("On %s the zero %s the table at X = {} (station %d) is {} from the others, so one of its two readings is wrong: read that station again.",
				day(s.day), direction, i+1), place(s.rows[i].Travel), notebook.Stepped(p.ZeroOff, 1e-6, notebook.Slopes)))
		}
	}
	if run.DriftP < 0.01 {
		faults = faults.And(notebook.Say(fmt.Sprintf("On %s the zero drifts by {u} a station %s the table: the level was still warming.", day(s.day), direction),
			notebook.Of(run.Drift, run.DriftU, notebook.Slopes)))
	}
	return faults
}

// slopeChart draws the slopes of both dates, along and across, with their
// standard uncertainties.
func slopeChart(first, second survey) (notebook.Chart, error) {
	var series []plot.Series
	for _, s := range []survey{first, second} {
		if s.given() {
			year := s.day.Format("2006")
			series = append(series, slopeSeries("along, "+year, s.along), slopeSeries("across, "+year, s.across))
		}
	}
	return plot.XY{Name: "slopes-chart", Title: "Slope of the table, along and across",
		Caption: notebook.Plain("To gravity, as the level sees it, with one standard uncertainty either way."),
		X:       alongTable, Y: plot.Axis{Label: "Slope", Show: notebook.Slopes}, Series: series}.Chart()
}

func slopeSeries(label string, run wear.LevelSurvey) plot.Series {
	line := plot.Series{Label: label, Style: plot.Line}
	for _, p := range byPlace(run.SlopePoints()) {
		line.X, line.Y, line.U = append(line.X, float64(p.Position)), append(line.Y, float64(p.Slope)), append(line.U, float64(p.U))
	}
	return line
}
