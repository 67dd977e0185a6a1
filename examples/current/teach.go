package current

import (
	"example.org/thouspan/internal/notebook"
)

// addWrong adds the numbers that correct what people say. They are those of the
// demo's tank, whatever the reader typed.
func addWrong(sheet *notebook.Sheet) error {
	demo, err := (layout{in: Defaults()}).solve()
	if err != nil {
		return err
	}
	in := demo.in
	near, err := demo.moved(20*mm, 0)
	if err != nil {
		return err
	}
	far, err := demo.moved(100*mm, 0)
	if err != nil {
		return err
	}
	fierce := demo.layout
	fierce.in.Mean *= 3
	three, err := fierce.at(demo.field)
	if err != nil {
		return err
	}
	note := func(name string, text notebook.Text) {
		sheet.Add(notebook.Verdict{Name: name, Tone: notebook.Note, Text: text})
	}
	note("wrong-far", notebook.Say("In the demo's tank, with the anode before the middle, the edge gets {} times the middle at {} and {} times at {}. A small anode close by feeds the middle; a far one leaves the edges their lead.",
		number(near.shares().left/near.shares().middle), size(20*mm), number(far.shares().left/far.shares().middle), size(100*mm)))
	note("wrong-amps", notebook.Say("Three times the current gives three times the mean, and a worse spread: in the demo's tank {} from thinnest to thickest at {}, {} at {}.",
		number(demo.shares().uneven()), density(in.Mean), number(three.shares().uneven()), density(3*in.Mean)))
	note("wrong-digits", notebook.Plain("A solver prints as many digits as you like. What it is worth shows on a finer mesh, on a case whose answer is known, and in the charge that comes out again. Even then the bath's own figures are the larger doubt."))
	return nil
}

// addCautions adds what can hurt someone, each at its step.
func addCautions(sheet *notebook.Sheet) error {
	sheet.Add(
		notebook.Caution{Name: "caution-supply", Text: notebook.Plain("Switch off before you move an anode, a shield or a thief. A short throws sparks and hot metal, and hydrogen stands above the bath: no flame, a window open, no sealed lid.")},
		notebook.Caution{Name: "caution-salts", Body: "NIOSH, OSHA", Text: notebook.Plain("Nickel salts sensitise the skin, for life, and cause cancer when breathed in. Gloves without pinholes, goggles, no food nearby. Limits for nickel in air over a shift: 0.015 mg/m³ (NIOSH), 1 mg/m³ (OSHA). Your local rules decide.")},
		notebook.Caution{Name: "caution-thief", Text: notebook.Plain("A thief grows trees of nickel that reach across and short. Look at it after every run. It goes to the metal waste: nickel sheds and cuts.")},
	)
	return nil
}
