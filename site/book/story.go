package book

// The story of the action shop, with its numbers computed from the shop's
// readings and from the lessons.

import (
	"fmt"
	"math"
	"time"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/site/render"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// setting is one day on which the head was set, by the two-dial gauge turned
// half a turn.
type setting struct {
	date        time.Time
	found, left squaring.MeasuredSlope // the larger of side tilt and nod
	mismatch    squaring.MeasuredLength
}

// settings returns the days on which the head was set, in order.
func settings() ([]setting, error) {
	dial := squaring.Indicator{Division: 0.01 * unit.Milli * unit.Metre}
	var list []setting
	for _, r := range actionshop.GaugeReadings() {
		gauge, err := squaring.ReadTwoDials([]squaring.DialPair{{First: r.B, Second: r.C}, {First: r.BTurned, Second: r.CTurned, Turned: true}},
			squaring.TwoDialOptions{Span: actionshop.GaugeSpan, First: dial, Second: dial})
		if err != nil {
			return nil, err
		}
		if len(list) == 0 || !list[len(list)-1].date.Equal(r.Date) {
			list = append(list, setting{date: r.Date})
		}
		last := &list[len(list)-1]
		last.take(r.Head, gauge)
	}
	return list, nil
}

// take adds what the gauge says before or after the head was set.
func (s *setting) take(head string, gauge squaring.TwoDials) {
	tilt := gauge.Tilt
	tilt.Slope = squaring.Slope(math.Abs(float64(tilt.Slope)))
	if head == "found" {
		if tilt.Slope > s.found.Slope {
			s.found = tilt
		}
		return
	}
	if tilt.Slope >= s.left.Slope {
		s.left = tilt
		s.mismatch = squaring.MeasuredLength{Length: gauge.Mismatch, Uncertainty: gauge.MismatchU}
	}
}

// story returns the inside of the page that tells the shop's years.
func (s *surroundings) story() (string, error) {
	list, err := settings()
	if err != nil {
		return "", err
	}
	picture, err := timeline(list)
	if err != nil {
		return "", err
	}
	return s.markdown("story.md", map[string]func(directive) (string, error){
		"timeline": func(directive) (string, error) { return picture, nil },
		"setting":  func(d directive) (string, error) { return settingValue(list, d.argument) },
		"hours":    func(d directive) (string, error) { return hoursIn(d.argument) },
		"run":      func(d directive) (string, error) { return runValue(d.argument) },
	})
}

// settingValue returns a value of the setting of a year: "2023 left".
func settingValue(list []setting, argument string) (string, error) {
	var year int
	var what string
	if _, err := fmt.Sscanf(argument, "%d %s", &year, &what); err != nil {
		return "", fmt.Errorf("{{setting %s}}: want a year and found, left or mismatch", argument)
	}
	for _, s := range list {
		if s.date.Year() != year {
			continue
		}
		switch what {
		case "found":
			return render.Quantity(slopeOf(s.found), true), nil
		case "left":
			return render.Quantity(slopeOf(s.left), true), nil
		case "mismatch":
			return render.Quantity(notebook.Of(s.mismatch.Length, s.mismatch.Uncertainty, notebook.FineLengths), true), nil
		}
	}
	return "", fmt.Errorf("{{setting %s}}: no such setting", argument)
}

func slopeOf(m squaring.MeasuredSlope) notebook.Quantity {
	return notebook.Of(m.Slope, m.Uncertainty, notebook.Slopes)
}

// hoursIn returns the hours that the mill ran in a year, or "all" of them.
func hoursIn(argument string) (string, error) {
	var sum unit.Time
	found := false
	for _, y := range actionshop.UseBook() {
		if argument == "all" || argument == fmt.Sprint(y.Year) {
			sum += y.Hours
			found = true
		}
	}
	if !found {
		return "", fmt.Errorf("{{hours %s}}: the use book has no such year", argument)
	}
	return render.Quantity(notebook.Quantity{SI: float64(sum), Show: notebook.Hours, Step: 3600}, false), nil
}

// runValue returns a value of the plating log: "5 density", "11 ph", "5 looks".
func runValue(argument string) (string, error) {
	var number int
	var what string
	if _, err := fmt.Sscanf(argument, "%d %s", &number, &what); err != nil {
		return "", fmt.Errorf("{{run %s}}: want a run and density, ph or looks", argument)
	}
	for _, r := range actionshop.PlatingLog() {
		if r.Run != number {
			continue
		}
		switch what {
		case "density":
			return render.Quantity(notebook.Exact(float64(r.Current)/float64(r.Area), notebook.CurrentDensities).WithDigits(2), false), nil
		case "ph":
			return notebook.FormatNumber(r.PH, 1), nil
		case "looks":
			return r.Looks, nil
		}
	}
	return "", fmt.Errorf("{{run %s}}: the log has no such thing", argument)
}

// The timeline's measures, in units of its canvas.
const (
	lineTop     = 44.0
	linePerYear = 118.0
	lineX       = 107.0
	barPerHour  = 0.22
	lineFrom    = 2019.0
	lineTo      = 2025.6
)

// lineY is the height of a day on the timeline.
func lineY(day time.Time) float64 {
	start := time.Date(day.Year(), 1, 1, 0, 0, 0, 0, time.UTC)
	return lineTop + linePerYear*(float64(day.Year())-lineFrom+day.Sub(start).Hours()/24/365.25)
}

// event is a thing that happened, at the right of the timeline.
type event struct {
	day   time.Time
	words []notebook.Text
}

// timeline draws the shop's years from above to below: hours of running at the
// left, what happened at the right.
func timeline(list []setting) (string, error) {
	height := lineTop + linePerYear*(lineTo-lineFrom) + 30
	c := drawing.New("timeline", "The action shop, 2019 to 2025",
		"Time runs down the page. At the left the hours that the mill ran in each year, at the right the four days on which the head was set, the oil outlet that was shut until September 2022, and the plating bath's good and bad days.",
		420, height)
	c.Note(drawing.Point{X: lineX - 14, Y: 20}, drawing.End, "hours run")
	c.Note(drawing.Point{X: lineX + 16, Y: 20}, drawing.Start, "what happened")
	shut := time.Date(2019, 5, 18, 0, 0, 0, 0, time.UTC)
	c.Box(drawing.Brass, drawing.Point{X: lineX - 3, Y: lineY(shut)}, drawing.Point{X: lineX + 7, Y: lineY(actionshop.OutletCleared())}, 0)
	for _, y := range actionshop.UseBook() {
		drawYear(c, y)
	}
	c.Line(drawing.Visible, drawing.Point{X: lineX, Y: lineTop - 8}, drawing.Point{X: lineX, Y: lineTop + linePerYear*(lineTo-lineFrom)})
	free := 0.0
	for _, e := range shopEvents(list) {
		free = drawEvent(c, e, free)
	}
	svg, err := c.SVG()
	if err != nil {
		return "", err
	}
	return `<figure class="item drawing">` + svg + "<figcaption><b>Six years from above to below.</b> The broad strip beside the line is the time in which the front oil outlet was shut. Bars are hours under power.</figcaption></figure>", nil
}

// drawYear draws a year's mark and its hours.
func drawYear(c *drawing.Canvas, y actionshop.YearOfUse) {
	top := lineY(time.Date(y.Year, 1, 1, 0, 0, 0, 0, time.UTC))
	hours := float64(y.Hours) / 3600
	c.Line(drawing.Thin, drawing.Point{X: lineX - 6, Y: top}, drawing.Point{X: lineX + 6, Y: top})
	c.Box(drawing.Steel, drawing.Point{X: lineX - 10 - hours*barPerHour, Y: top + 12}, drawing.Point{X: lineX - 10, Y: top + 34}, 0)
	c.Words(drawing.Point{X: lineX - 12, Y: top + 52}, drawing.End, fmt.Sprintf("%d: %.0f h", y.Year, hours))
}

// drawEvent writes an event beside its day, not above the given height, and
// returns the height below it.
func drawEvent(c *drawing.Canvas, e event, free float64) float64 {
	const line = 18.0
	at := lineY(e.day)
	y := math.Max(at+5, free)
	c.Circle(drawing.Solid, drawing.Point{X: lineX, Y: at}, 4)
	c.Line(drawing.Thin, drawing.Point{X: lineX + 5, Y: at}, drawing.Point{X: lineX + 18, Y: y - 5})
	for i, text := range e.words {
		c.Label(drawing.Point{X: lineX + 23, Y: y + float64(i)*line}, drawing.Start, text)
	}
	return y + float64(len(e.words))*line + 4
}

// shopEvents returns what happened, in order of day.
func shopEvents(list []setting) []event {
	day := func(year int, month time.Month, d int) time.Time {
		return time.Date(year, month, d, 0, 0, 0, 0, time.UTC)
	}
	say := func(lines ...notebook.Text) []notebook.Text { return lines }
	found := func(i int) notebook.Quantity { return slopeOf(list[i].found) }
	left := func(i int) notebook.Quantity { return slopeOf(list[i].left) }
	return []event{
		{list[0].date, say(notebook.Plain("The mill comes; dials made alike:"), notebook.Say("head found {} out,", found(0)), notebook.Say("left {} out.", left(0)))},
		{list[1].date, say(notebook.Plain("Set the same way:"), notebook.Say("left {} out.", left(1)))},
		{actionshop.OutletCleared(), say(notebook.Plain("The front oil outlet is found"), notebook.Plain("shut, and cleared."))},
		{list[2].date, say(notebook.Plain("Gauge dropped; dials made alike:"), notebook.Say("left {} out.", left(2)))},
		{day(2023, 10, 7), say(notebook.Plain("First runs of the nickel bath."))},
		{day(2024, 1, 13), say(notebook.Plain("Four plates burnt at the corners."))},
		{day(2024, 11, 16), say(notebook.Plain("A hard cut moves the head."))},
		{day(2025, 2, 8), say(notebook.Plain("Grey haze; acid puts it right."))},
		{list[3].date, say(notebook.Plain("Half a turn tells:"), notebook.Say("found {} out,", found(3)), notebook.Say("left {}.", left(3)))},
	}
}
