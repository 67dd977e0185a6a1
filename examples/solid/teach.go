package solid

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// asRunThree reports whether the load is that of run 3, of which there are
// readings.
func (in Inputs) asRunThree() bool {
	near := func(a, b unit.Length) bool { return math.Abs(float64(a-b)) < 1e-6 }
	return in.Part == fourPlates && near(in.PlateLength, actionshop.EscutcheonLength) && near(in.PlateWidth, actionshop.EscutcheonWidth) && near(in.PlateThickness, actionshop.EscutcheonThickness)
}

// spot is a place on the skin with its share of the mean.
type spot struct {
	name  string
	share float64
}

// spots returns places of the part: on the right face of a plate, or the pieces
// of a turned part from its lower end.
func (a answer) spots() []spot {
	in := a.in
	if in.flat() {
		y, z := float64(in.PlateWidth/2), float64(in.PlateLength/2)
		edge := math.Min(1e-3, math.Min(y, z)/2)
		return []spot{
			{"corner, 1 mm in", a.onFace(y-edge, z-edge)},
			{"long edge, middle, 1 mm in", a.onFace(y-edge, 0)},
			{"centre of the face", a.onFace(0, 0)},
			{"quarter point", a.onFace(y/2, 0)},
			{"all of the right face", a.meanShare(func(f facet) bool { return f.normal.X > 0.999 })},
			{"all of the left face", a.meanShare(func(f facet) bool { return f.normal.X < -0.999 })},
		}
	}
	if in.Part == ownFile {
		return a.sides()
	}
	points := thumbScrew()
	if in.Part == ownTurned {
		points = in.Points
	}
	first, last := points[0].Place, points[len(points)-1].Place
	height := func(p unit.Length) float64 { return float64(p - (first+last)/2) }
	low, high := height(first), height(last)
	all := []spot{{"lower end", a.meanShare(func(f facet) bool { return f.normal.Z < -0.99 && f.middle.Z < low+1e-6 })}}
	for i := 1; i < len(points); i++ {
		from, to := height(points[i-1].Place), height(points[i].Place)
		name := fmt.Sprintf("points %d to %d", i, i+1)
		all = append(all, spot{name, a.meanShare(func(f facet) bool {
			if to-from < 1e-6 {
				return math.Abs(f.middle.Z-from) < 1e-6 && math.Abs(f.normal.Z) > 0.99 && from > low && from < high
			}
			return f.middle.Z > from && f.middle.Z < to && math.Abs(f.normal.Z) < 0.99
		})})
	}
	return append(all, spot{"upper end", a.meanShare(func(f facet) bool { return f.normal.Z > 0.99 && f.middle.Z > high-1e-6 })})
}

// micrometerU is the standard uncertainty of a growth by micrometer: two
// readings in steps of 0.001 mm, each rectangular.
const micrometerU = 0.41 * um

// addSpots adds the coat by place, with run 3's readings beside it.
func (a answer) addSpots(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "spots", Title: "The coat by place",
		Columns: []notebook.Column{notebook.Col("Place"), notebook.ColIn("Of the mean", notebook.Percents), notebook.ColIn("Coat", notebook.FineLengths), notebook.ColIn("Run 3, by micrometer", notebook.FineLengths)},
		Note:    notebook.Plain("Run 3's growth over both faces is halved. A dash: not read there.")}
	readings := actionshop.PlateSpots()
	worst, where := 0.0, ""
	for i, s := range a.spots() {
		if math.IsNaN(s.share) {
			continue
		}
		coat := a.plain.coat(s.share)
		read := notebook.Str("–")
		if a.in.asRunThree() && i < len(readings) {
			half := readings[i].Growth / 2
			read = notebook.Val(notebook.Of(half, micrometerU/2, notebook.FineLengths))
			if off := float64(coat/half) - 1; math.Abs(off) > math.Abs(worst) {
				worst, where = off, s.name
			}
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(s.name), notebook.Val(share(s.share)), notebook.Val(fine(coat)), read})
	}
	honest := notebook.Verdict{Name: "honest", Tone: notebook.Note, Text: notebook.Plain("Run 3 was four escutcheons. This is another load, so there is nothing to set beside it.")}
	if where != "" {
		honest.Tone, honest.Text = notebook.Watch, notebook.Say("Computed and read differ most at "+where+": by {}. How the plates hung and what the bath conducts were not written down, and a micrometer rests on the highest place under its anvil.", share(math.Abs(worst)))
	}
	sheet.Add(table, honest)
	return nil
}

// help is one thing changed.
type help struct {
	name string
	s    solved
	err  error
}

// tryHelps solves the tank with one thing changed at a time, on a mesh as fine.
func (a answer) tryHelps() []help {
	all := []help{{"as set up", a.plain, nil}}
	for _, try := range []struct {
		name   string
		change func(*Inputs)
	}{
		{"anodes at half the distance", func(in *Inputs) { in.Distance /= 2 }},
	} {
		l := a.plain.layout
		try.change(&l.in)
		s, err := l.solve()
		all = append(all, help{try.name, s, err})
	}
	// The current moves nothing: the field that is there serves.
	l := a.plain.layout
	l.in.Mean /= 3
	s, err := l.at(a.plain.field)
	return append(all, help{"a third of the current", s, err})
}

// addHelps adds the table of what helps.
func (a answer) addHelps(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "helps", Title: "One thing changed at a time, at the same mean",
		Columns: []notebook.Column{notebook.Col("What"), notebook.ColIn("Most, of mean", notebook.Percents), notebook.ColIn("Least, of mean", notebook.Percents),
			notebook.ColIn("Spread", notebook.Percents), notebook.ColIn("Change of the spread on refining", notebook.Percents)},
		Note: notebook.Plain("Most and least are on a tenth of the skin each. At a third of the current the mean is a third too, and the time three times as long.")}
	best := help{}
	for _, h := range a.helps {
		if h.err != nil {
			none := notebook.Str("no room")
			table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(h.name), none, none, none, none})
			continue
		}
		d := h.s.d
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(h.name), notebook.Val(share(h.s.toMean(d.Thick))), notebook.Val(share(h.s.toMean(d.Thin))),
			notebook.Val(share(d.Spread)), notebook.Val(notebook.Stepped(d.Change.Spread, 0.001, notebook.Percents))})
		if best.name == "" || d.Spread < best.s.d.Spread {
			best = h
		}
	}
	text := notebook.Plain("None of them makes this coat more even.")
	if best.name != "" && best.name != a.helps[0].name {
		text = notebook.Say("Most even of these: "+best.name+", with a spread of {}.", share(best.s.d.Spread))
	}
	sheet.Add(table, notebook.Verdict{Name: "best", Tone: notebook.Note, Text: text})
	return nil
}

// addWrong adds the numbers that correct what people say. They are those of one
// escutcheon in the demo's tank, whatever the reader typed.
func addWrong(sheet *notebook.Sheet) error {
	in := Defaults()
	in.Part = onePlate
	both, err := layout{in: in, steps: fewSteps}.solve()
	if err != nil {
		return err
	}
	in.Anodes = oneSide
	one, err := layout{in: in, steps: fewSteps}.solve()
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	a := answer{in: in, plain: one, skin: one.facets()}
	front, back := a.meanShare(func(f facet) bool { return f.normal.X > 0.999 }), a.meanShare(func(f facet) bool { return f.normal.X < -0.999 })
	note("wrong-back", notebook.Say("One escutcheon before one anode gets {} of the mean on the face towards it and {} on the other. Turning it half-way evens the faces, not the edges.", share(front), share(back)))
	note("wrong-mean", notebook.Say("Amps over area is the mean, {}. On one escutcheon between two anodes the tenth of the skin that gets most has {} of it, the tenth that gets least {}.", density(in.Mean), share(both.toMean(both.d.Thick)), share(both.toMean(both.d.Thin))))
	note("wrong-picture", notebook.Say("A picture with many triangles looks sure. On a quarter of the triangles the thickest triangle of that escutcheon read {} differently, and the picture looked as good.", share(both.d.Change.Thickest)))
	return nil
}

// addExercises adds two questions with computed answers.
func addExercises(sheet *notebook.Sheet) error {
	sheet.Add(cubeExercise(20*mm, 8*plating.SiemensPerMetre), growthExercise(26*um, 1.75))
	return nil
}

// cubeExercise asks for the resistance about a cube.
func cubeExercise(edge unit.Length, k plating.Conductivity) notebook.Exercise {
	ohms := notebook.Same(notebook.Ohm)
	r := 1 / (4 * math.Pi * float64(k) * cubeExact * float64(edge))
	conducts := notebook.Exact(k, notebook.Same(notebook.Siemens))
	return notebook.Exercise{Name: "exercise-cube",
		Ask:    notebook.Say("A cube of {} hangs in a very wide bath of {}, anodes far away. A cube's capacitance is 0.66068 times 4π ε and its edge. What is the resistance of the bath about it?", size(edge), conducts),
		Answer: notebook.Exact(r, ohms),
		Worked: []notebook.Text{notebook.Plain("The same equation rules both: one over R is 4π times conductivity, times 0.66068, times the edge.")},
		Wrong: []notebook.WrongTurn{
			{Value: notebook.Exact(r*4*math.Pi, ohms), Why: notebook.Plain("This leaves out the 4π.")},
			{Value: notebook.Exact(r*cubeExact, ohms), Why: notebook.Plain("This takes the edge for a radius: a ball of that radius would have it.")},
		}}
}

// growthExercise asks what a micrometer reads over two faces.
func growthExercise(mean unit.Length, local float64) notebook.Exercise {
	growth := 2 * local * float64(mean)
	return notebook.Exercise{Name: "exercise-growth",
		Ask:    notebook.Say("The mean coat is {}. A corner gets {} of it on either face. By how much does a micrometer read more across the corner?", fine(mean), share(local)),
		Answer: notebook.Exact(growth, notebook.FineLengths),
		Worked: []notebook.Text{notebook.Plain("The share times the mean is the coat on one face. The micrometer spans two.")},
		Wrong: []notebook.WrongTurn{
			{Value: notebook.Exact(growth/2, notebook.FineLengths), Why: notebook.Plain("This counts one face.")},
			{Value: notebook.Exact(2*mean, notebook.FineLengths), Why: notebook.Plain("This takes the mean for the corner.")},
		}}
}

// drills returns the exercises to be drawn anew.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-cube", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return cubeExercise(notebook.Steps(r, 2, 16, 5*mm), notebook.Steps(r, 6, 12, 1*plating.SiemensPerMetre)), nil
		}},
		{Name: "exercise-growth", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return growthExercise(notebook.Steps(r, 10, 40, 1*um), notebook.Steps(r, 24, 44, 0.05)), nil
		}},
	}
}

// addCautions adds what can hurt someone, each at its step.
func addCautions(sheet *notebook.Sheet) error {
	sheet.Add(
		notebook.Caution{Name: "caution-supply", Text: notebook.Plain("Switch off before you move an anode or a part. A short throws sparks and hot metal, and hydrogen stands above the bath: no flame, a window open, no sealed lid.")},
		notebook.Caution{Name: "caution-salts", Body: "NIOSH, OSHA", Text: notebook.Plain("Nickel salts sensitise the skin, for life, and cause cancer when breathed in. Gloves without pinholes, goggles, no food nearby. Limits for nickel in air over a shift: 0.015 mg/m³ (NIOSH), 1 mg/m³ (OSHA). Your local rules decide.")},
		notebook.Caution{Name: "caution-burnt", Text: notebook.Plain("Do not grind or wire-brush burnt nickel off dry: the dust is what the limits are about. Stripping nickel takes strong acids: leave it to a licensed shop.")},
	)
	return nil
}
