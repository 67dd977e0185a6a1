package workbench

// The card that hangs on the machine: what it does now, what it is good for,
// and which readings are due, from the newest entries of its file.

import (
	"errors"
	"fmt"
	"time"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
)

// Card is the card as a sheet, and what heads it.
type Card struct {
	// Title is the machine's name, and Read says of which day the readings are.
	Title, Read string
	Sheet       *notebook.Sheet
}

// card is a card being written.
type card struct {
	file    *machine.File
	today   string
	machine machine.Machine
	survey  Gathered
	figures map[string]notebook.Figure
	// missing says, a sentence each, what the card cannot say and why.
	missing []string
	sheet   *notebook.Sheet
}

// NewCard writes the card as of a day, from entries that are not later.
func NewCard(f *machine.File, today string) (Card, error) {
	if _, err := time.Parse(time.DateOnly, today); err != nil {
		return Card{}, fmt.Errorf("%.20q is not a date; write it as 2025-05-24", today)
	}
	c := &card{file: f, today: today, figures: map[string]notebook.Figure{}, sheet: &notebook.Sheet{}}
	var found bool
	var err error
	if c.machine, found, err = f.MachineOn(today); err != nil {
		c.missing = append(c.missing, "The machine’s record cannot be used: "+err.Error()+".")
	} else if !found {
		c.missing = append(c.missing, "The machine has no record: its name, the place of the work and the work that you promise are not known.")
	}
	c.adjust()
	if err := c.write(); err != nil {
		return Card{}, err
	}
	title := c.machine.Name
	if title == "" {
		title = "This machine"
	}
	read := "No readings of the head or the table are in the file."
	if c.survey.Day != "" {
		read = "From readings of " + c.survey.Day
		if c.survey.Head != "" && c.survey.Head != c.survey.Day {
			read += ", of the head of " + c.survey.Head
		}
		read += "."
	}
	return Card{Title: title, Read: "Written " + today + ". " + read, Sheet: c.sheet}, nil
}

// adjust works the survey of the newest readings, if there are any.
func (c *card) adjust() {
	g, err := On(c.file, "survey", c.today)
	if err != nil {
		c.missing = append(c.missing, "No slope is known: "+err.Error()+".")
		return
	}
	sheet, err := workSurvey(g.Document)
	if err != nil {
		c.missing = append(c.missing, "The readings of "+g.Day+" cannot be adjusted: "+inOneLine(err)+".")
		return
	}
	c.survey = g
	for _, item := range sheet.Items {
		if f, ok := item.(notebook.Figure); ok {
			c.figures[f.Name] = f
		}
	}
	if v, ok := sheet.Find("fit").(notebook.Verdict); ok && v.Tone == notebook.Stop {
		c.sheet.Add(notebook.Verdict{Name: "fit", Tone: notebook.Stop, Text: v.Text})
	}
}

func workSurvey(document []byte) (*notebook.Sheet, error) {
	lesson, ok := examples.Find("survey")
	if !ok {
		return nil, errors.New("there is no lesson on the survey")
	}
	return lesson.Work(document)
}

// inOneLine returns the first problem of an error alone.
func inOneLine(err error) string {
	var input *notebook.InputError
	if errors.As(err, &input) && len(input.Problems) > 0 {
		p := input.Problems[0]
		p.Line = 0
		return p.String()
	}
	return err.Error()
}

// write adds the card's items.
func (c *card) write() error {
	slopes := c.slopes()
	work, err := c.work()
	if err != nil {
		return err
	}
	c.sheet.Add(slopes, work, c.nickel(), c.due(), c.gaps())
	return c.sheet.Validate()
}

// line is one line of the card's table of slopes: a figure of the survey, what
// the card calls it, and the survey's tables that tell it.
type line struct {
	figure, label, plus string
	tables              []string
}

func lines() []line {
	head := []string{"sweeps", "gauge"}
	return []line{
		{"side-middle", "Side tilt of the head, mid-table", "right high", head},
		{"nod-middle", "Nod of the head, mid-table", "back high", head},
		{"side-work", "Side tilt of the head at the work", "right high", head},
		{"nod-work", "Nod of the head at the work", "back high", head},
		{"knee-x", "Knee, as it rises", "to the right", []string{"knee"}},
		{"knee-y", "Knee, as it rises", "to the back", []string{"knee"}},
		{"level-x", "Table to level, along", "right high", []string{"level"}},
		{"level-y", "Table to level, across", "back high", []string{"level"}},
	}
}

// slopes is the table of today's slopes.
func (c *card) slopes() notebook.Table {
	t := notebook.Table{Name: "slopes", Title: "Slopes now",
		Columns: []notebook.Column{notebook.Col("What"), notebook.ColIn("Slope", notebook.Slopes), notebook.Col("Plus is"), notebook.Col("Read on")},
		Note:    notebook.Plain("In brackets the standard uncertainty: two of them either way hold the truth 19 times in 20. Of the head: the plane square to the spindle against the table.")}
	if c.survey.Day == "" {
		t.Note = notebook.Plain("None is known.")
		return t
	}
	for _, l := range lines() {
		f, ok := c.figures[l.figure]
		if !ok || f.Unknown != "" {
			t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(l.label), notebook.Str("not known"), notebook.Str(l.plus), notebook.Str("–")})
			continue
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(l.label), notebook.Val(f.Value), notebook.Str(l.plus), notebook.Str(c.dayOf(l.tables))})
	}
	if c.machine.Place == nil && c.survey.Days != nil {
		c.missing = append(c.missing, "The place of the work is not written down; it is taken as the middle of the table.")
	}
	return t
}

// dayOf is the newest day of the survey's tables, or of the survey itself.
func (c *card) dayOf(tables []string) string {
	day := ""
	for _, table := range tables {
		day = max(day, c.survey.Days[table])
	}
	if day == "" {
		return c.survey.Day
	}
	return day
}

// nickel is what the card says of the bath.
func (c *card) nickel() notebook.Table {
	t := notebook.Table{Name: "nickel", Title: "Nickel bath", Columns: []notebook.Column{notebook.Col("What"), notebook.Col("Value"), notebook.Col("From")}}
	if g, err := On(c.file, "scale", c.today); err == nil {
		lesson, _ := examples.Find("scale")
		if sheet, err := lesson.Work(g.Document); err == nil {
			if f, ok := sheet.Find("at-ph").(notebook.Figure); ok && f.Unknown == "" {
				ph := inputsOf(entryInputs(g.Document)).text("ph")
				t.Rows = append(t.Rows, []notebook.Cell{notebook.Str("Cathode efficiency at pH " + ph), notebook.Val(f.Value), notebook.Str("weighed runs to " + g.Day)})
			}
		} else {
			c.missing = append(c.missing, "The efficiency is not known: "+inOneLine(err)+".")
		}
	} else {
		c.missing = append(c.missing, "The bath’s efficiency is not known: "+err.Error()+".")
	}
	if run, ok := c.file.Newest(machine.RecordRun, c.today); ok {
		in := inputsOf(run.Inputs)
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str("Last run: pH"), notebook.Str(in.text("ph")), notebook.Str(said(run))},
			[]notebook.Cell{notebook.Str("Last run: looks"), notebook.Str(in.text("looks")), notebook.Str(said(run))})
	}
	return t
}

// entryInputs returns the inputs of a lesson's document.
func entryInputs(document []byte) []byte {
	e, err := machine.FromDocument(document, "2000-01-01")
	if err != nil {
		return []byte("{}")
	}
	return e.Inputs
}

// gaps says what the card cannot say.
func (c *card) gaps() notebook.Verdict {
	if len(c.missing) == 0 {
		return notebook.Verdict{Name: "gaps", Tone: notebook.Good, Text: notebook.Plain("Nothing that this card should hold is missing.")}
	}
	var text notebook.Text
	for _, sentence := range c.missing {
		text = text.And(notebook.Plain(sentence))
	}
	return notebook.Verdict{Name: "gaps", Tone: notebook.Watch, Text: text}
}
