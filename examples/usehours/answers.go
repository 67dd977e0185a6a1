package usehours

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func place(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*mm, notebook.Lengths) }

// factors shows wear factors: in 10^-9 mm^3/(N m), and in the inch way of saying
// it, in 10^-12 in^3 min/(lbf ft h).
var factors = notebook.Pair{Metric: notebook.Unit{Symbol: "×10⁻⁹ mm³/(N·m)", Scale: 1e-18}, Inch: notebook.Unit{Symbol: "×10⁻¹² in³·min/(lbf·ft·h)", Scale: 1e-12 * float64(wear.CubicInchMinutePerPoundFootHour)}}

func (w way) quantity() notebook.Quantity { return notebook.Of(w.factor, w.factorU, factors) }

// setUp adds the drawing and the caution.
func (r result) setUp(s *notebook.Sheet) error {
	in := r.in
	shown := min(len(in.Uses), 3)
	c := drawing.New("setup-drawing", "What the saddle rubs",
		"Seen from the front: the table with a bar for each habit, showing the stretch of the way that the saddle covers during the stroke, and the part that it never leaves.", 420, 146+32*float64(shown))
	c.TableFront(drawing.Point{X: 20, Y: 70}, drawing.Point{X: 400, Y: 70}, 20)
	scale := 380 / float64(in.Table)
	x := func(u unit.Length) float64 { return math.Min(math.Max(210+scale*float64(u), 20), 400) }
	for i, u := range in.Uses {
		if i == shown {
			c.Note(drawing.Point{X: 210, Y: 138 + 32*float64(shown)}, drawing.Middle, "and others")
			break
		}
		y := 126 + 32*float64(i)
		reach, always := in.Saddle/2+u.Stroke/2, in.Saddle/2-u.Stroke/2
		c.Box(drawing.Glass, drawing.Point{X: x(u.Place - reach), Y: y}, drawing.Point{X: x(u.Place + reach), Y: y + 16}, 2)
		if always > 0 {
			c.Box(drawing.Steel, drawing.Point{X: x(u.Place - always), Y: y}, drawing.Point{X: x(u.Place + always), Y: y + 16}, 2)
		}
		c.Line(drawing.Centre, drawing.Point{X: x(u.Place), Y: 52}, drawing.Point{X: x(u.Place), Y: y + 18})
	}
	c.Words(drawing.Point{X: 210, Y: 34}, drawing.Middle, "where the work lay")
	c.Words(drawing.Point{X: 22, Y: 118}, drawing.Start, "what it covers")
	c.Frame(drawing.Point{X: 376, Y: 52}, "u", "z")
	item, err := c.Item(notebook.Plain("One bar a habit. Dark: never left by the saddle, worn by the whole stroke. Light: covered for a part of it."))
	if err != nil {
		return err
	}
	s.Add(item, notebook.Caution{Name: "caution-oil", Text: notebook.Plain("Isolate the machine before you take a pipe off an outlet or lift a wiper. Way oil on the floor is a fall: wipe it at once. Keep it off skin, and the rags in a closed tin.")})
	return nil
}

// agrees reports whether the use explains the wear of a way.
func (w way) agrees() bool { return w.fit.Agreement >= 0.05 }

// answers adds the verdict and the figures.
func (r result) answers(s *notebook.Sheet) error {
	v := notebook.Verdict{Name: "answer", Tone: notebook.Note}
	ratio := notebook.Of(r.ratio.Times, r.ratio.TimesU, notebook.Numbers)
	switch {
	case r.ratio.Low > 1:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("The same hours under the same hands wore the front way {u} times as fast as the rear one. Where the work lay does not explain that: look for oil, dirt or a tight gib on the front way.", ratio)
	case r.ratio.High < 1:
		v.Tone = notebook.Watch
		v.Text = notebook.Say("The front way wore {u} times as fast as the rear one. Where the work lay does not explain that: look for oil, dirt or a tight gib on the rear way.", ratio)
	default:
		v.Text = notebook.Say("Both ways wore alike for what they were used: the ratio is {u}. Where the work lay is explanation enough.", ratio)
	}
	s.Add(v)
	for _, w := range []way{r.front, r.rear} {
		k, err := w.factor.Coefficient(unit.Pressure(r.in.Hardness)*wear.KilogramForcePerSquareMillimetre, wear.WithoutThree)
		if err != nil {
			return notebook.InField("hardness", err)
		}
		s.Add(notebook.Figure{Name: w.name + "-factor", Label: "Wear factor of the " + w.name + " way", Value: w.quantity(),
			Note: notebook.Say("As K in V = K W s/H: {}. Boundary lubrication gives 10⁻¹⁰ to 10⁻⁶, dry iron 10⁻⁴ and more (from memory).", notebook.Exact(k, notebook.Same(notebook.Unit{Symbol: "× 10⁻⁶", Scale: 1e-6})).WithDigits(2))},
			r.agreement(w))
	}
	s.Add(notebook.Figure{Name: "ratio", Label: "Front over rear", Value: ratio, Note: r.bounds()},
		notebook.Figure{Name: "slid", Label: "Slid between the surveys", Value: notebook.Exact(r.slid, notebook.Same(notebook.Unit{Symbol: "km", Scale: 1000})).WithDigits(2),
			Note: notebook.Say("{} at the mean speed.", notebook.Stepped(r.in.Hours, 1*hour, notebook.Hours))})
	return nil
}

// bounds says between what the ratio lies.
func (r result) bounds() notebook.Text {
	q := func(x float64) notebook.Quantity { return notebook.Stepped(x, 0.1, notebook.Numbers) }
	if math.IsInf(r.ratio.High, 1) {
		return notebook.Say("At least {} with a chance of 95 %, and no bound above: the rear way may hardly have worn. Load, speed and hours are common to both and drop out.", q(r.ratio.Low))
	}
	return notebook.Say("From {} to {} with a chance of 95 %. The upper side is the longer one: what the rear way lost is not sure, and it stands below the line. Load, speed and hours are common to both and drop out.", q(r.ratio.Low), q(r.ratio.High))
}

func (r result) agreement(w way) notebook.Verdict {
	v := notebook.Verdict{Name: w.name + "-agrees", Tone: notebook.Good}
	p := notebook.Stepped(w.fit.Agreement, 0.01, notebook.Percents)
	if w.agrees() {
		v.Text = notebook.Say("The "+w.name+" way wore where its use says: depths scatter about it like that {} of the time.", p)
		return v
	}
	v.Tone, v.Text = notebook.Watch, notebook.Say("The "+w.name+" way did not wear where its use says: depths scatter about it like that only {} of the time. Its factor is then no more than a mean; the shares, the load's place or oil that reaches one stretch only are not as typed.", p)
	return v
}

// charts adds the histogram and the fit.
func (r result) charts(s *notebook.Sheet) error {
	n := 81
	at := make([]unit.Length, n)
	x := make([]float64, n)
	for i := range at {
		at[i] = r.in.Table * (unit.Length(i)/unit.Length(n-1) - 0.5)
		x[i] = float64(at[i])
	}
	mean, err := wear.UseHistogram(r.in.Saddle, placements(r.in), at)
	if err != nil {
		return notebook.InField("uses", err)
	}
	y := make([]float64, n)
	for i, m := range mean {
		y[i] = float64(m)
	}
	along := plot.Axis{Label: "Place u", Show: notebook.Lengths}
	use, err := plot.XY{Name: "use-chart", Title: "How far each place slides in a mean stroke", Caption: notebook.Plain("From where the work lay alone: the habits, weighted by their shares and rubbed by the whole length of the saddle."),
		X: along, Y: plot.Axis{Label: "Slid a stroke", Show: notebook.Lengths, Range: notebook.AtLeast(0.0)}, Series: []plot.Series{{Label: "slid", Style: plot.Curve, X: x, Y: y}}}.Chart()
	if err != nil {
		return err
	}
	var series []plot.Series
	for _, w := range []way{r.front, r.rear} {
		seen, model := plot.Series{Label: w.name + ", seen", Style: plot.Dots}, plot.Series{Label: w.name + ", by its use", Style: plot.Curve}
		for _, d := range w.at {
			seen.X, seen.Y, seen.U = append(seen.X, float64(d.Place)), append(seen.Y, float64(d.After-d.Before)), append(seen.U, math.Hypot(float64(d.AfterU), float64(d.BeforeU)))
		}
		h := w.fit.History
		for i := 0; i < len(h.Places); i += 2 {
			model.X, model.Y = append(model.X, float64(h.Places[i])), append(model.Y, float64(h.Worn[i]-w.before(h.Places[i])))
		}
		series = append(series, seen, model)
	}
	fit, err := plot.XY{Name: "fit-chart", Title: "What wore off between the surveys", Caption: notebook.Plain("Dots: later survey less earlier one. Curves: the same use for both ways, each with its own wear factor."),
		X: along, Y: plot.Axis{Label: "Wear between", Show: notebook.FineLengths}, Series: series}.Chart()
	if err != nil {
		return err
	}
	s.Add(use, fit)
	return nil
}

// before returns the first survey's depth at a place, straight between its
// stations and level beyond.
func (w way) before(u unit.Length) unit.Length {
	if u <= w.at[0].Place {
		return w.at[0].Before
	}
	for i := 1; i < len(w.at); i++ {
		if a, b := w.at[i-1], w.at[i]; u <= b.Place {
			return a.Before + (b.Before-a.Before)*(u-a.Place)/(b.Place-a.Place)
		}
	}
	return w.at[len(w.at)-1].Before
}

// more adds the part's share, the bushing and what people get wrong.
func (r result) more(s *notebook.Sheet) error {
	deepest, at := 0*um, 0*mm
	h := r.front.fit.History
	for i, u := range h.Places {
		if d := h.Worn[i] - r.front.before(u); d > deepest {
			deepest, at = d, u
		}
	}
	micron := func(x unit.Length) notebook.Quantity { return notebook.Stepped(x, 1*um, notebook.FineLengths) }
	spared := deepest * unit.Length(1-1/r.ratio.Times)
	oil := notebook.Verdict{Name: "oil", Tone: notebook.Note, Text: notebook.Say("By its use the front way lost {} at u = {}. At the rear way's factor it would have lost {} less.", micron(deepest), place(at), micron(spared))}
	if spared < 0 {
		oil.Text = notebook.Say("By its use the front way lost {} at u = {}. At the rear way's factor it would have lost {} more.", micron(deepest), place(at), micron(-spared))
	}
	var long unit.Length
	for _, u := range r.in.Uses {
		long = max(long, r.in.Saddle+u.Stroke)
	}
	s.Add(oil,
		notebook.Figure{Name: "bushing", Label: "A bushing at the rear way's factor lasts", Value: notebook.Exact(r.bush, notebook.Hours).WithDigits(2),
			Note: notebook.Say("{} turns, until {} are worn. The same law, with a cosine of pressure.", notebook.Exact(r.bushTurns, notebook.Numbers).WithDigits(2), micron(r.in.Worn))},
		notebook.Verdict{Name: "wrong-place", Tone: notebook.Note, Text: notebook.Say("The saddle is {} long. Work of the longest stroke here wears {} of the way, not the length of the work.", place(r.in.Saddle), place(long))})
	return nil
}
