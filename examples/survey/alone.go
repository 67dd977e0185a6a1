package survey

import (
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
)

// aloneItems adds what each kind of reading would tell without the others.
func (o outcome) aloneItems(s *notebook.Sheet) error {
	columns := []string{"side-middle", "side-work", "bow", "knee-y", "level-x"}
	table := notebook.Table{Name: "alone", Title: "What each kind of reading tells alone, and all together",
		Columns: []notebook.Column{notebook.Col("Readings"), notebook.ColIn("Side tilt, X = 0", notebook.Slopes), notebook.ColIn("Side tilt at the work", notebook.Slopes),
			notebook.ColIn("Bow of the part", notebook.FineLengths), notebook.ColIn("Knee, y", notebook.Slopes), notebook.ColIn("To level, x", notebook.Slopes)},
		Note: notebook.Plain("A dash: these readings alone cannot tell it. \"Assumed\" marks a value that is more smoothness than reading.")}
	for _, k := range kinds() {
		list := k.observe(o.in)
		if len(list) == 0 {
			continue
		}
		alone, err := surveyOf(o.in, list).Adjust(options(o.in))
		if err != nil {
			return notebook.InField(k.field, err)
		}
		row, err := aloneRow(k.name, outcome{o.in, alone}, columns)
		if err != nil {
			return err
		}
		table.Rows = append(table.Rows, row)
	}
	together, err := aloneRow("all together", o, columns)
	if err != nil {
		return err
	}
	table.Rows = append(table.Rows, together)
	s.Add(table)
	return nil
}

func aloneRow(name string, o outcome, columns []string) ([]notebook.Cell, error) {
	row := []notebook.Cell{notebook.Str(name)}
	for _, column := range columns {
		e, err := o.predict(column)
		if err != nil {
			return nil, err
		}
		cell := notebook.Str("–")
		if told(e) {
			cell = notebook.Val(quantity(e))
			if e.FromPrior > 0.5 {
				cell = cell.Marked("assumed")
			}
		}
		row = append(row, cell)
	}
	return row, nil
}

// unknownItems adds what all the readings together cannot tell, and what would.
func (o outcome) unknownItems(s *notebook.Sheet) error {
	v := notebook.Verdict{Name: "cannot-tell", Tone: notebook.Good,
		Text: notebook.Plain("There is nothing in the model that these readings leave open. What the model leaves out they cannot tell either: the straightness of saddle and knee, play, and heat.")}
	free := o.adjustment.Undetermined()
	if len(free) > 0 {
		v.Tone, v.Text = notebook.Watch, nil
	}
	for _, u := range free {
		v.Text = v.Text.And(openQuestion(u)).And(notebook.Plain(u.Cure))
	}
	s.Add(v)
	return nil
}

// openQuestion says in a sentence what cannot be told from what.
func openQuestion(u squaring.Undetermined) notebook.Text {
	if len(u.Parties) == 1 {
		return notebook.Plain("No reading says anything about the " + u.Parties[0].Name + ".")
	}
	text := notebook.Plain("These readings cannot tell the ")
	for i, p := range u.Parties {
		switch {
		case i == 1:
			text = append(text, notebook.Plain(" from the ")...)
		case i > 1 && i == len(u.Parties)-1:
			text = append(text, notebook.Plain(" and the ")...)
		case i > 1:
			text = append(text, notebook.Plain(", the ")...)
		}
		text = append(text, partyText(p)...)
	}
	return append(text, notebook.Plain(".")...)
}

func partyText(p squaring.Party) notebook.Text {
	switch {
	case p.Curve && p.From == p.To:
		return notebook.Say(p.Name+" at {}", place(p.From))
	case p.Curve:
		return notebook.Say(p.Name+" from {} to {}", place(p.From), place(p.To))
	}
	return notebook.Plain(p.Name)
}
