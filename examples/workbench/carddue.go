package workbench

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
)

// dueReading is a reading to be taken again.
type dueReading struct {
	name, last string
	due        time.Time
	// never is set when there is none yet.
	never bool
}

// due is the table of the next readings, the most urgent first.
func (c *card) due() notebook.Table {
	t := notebook.Table{Name: "due", Title: "Next readings",
		Columns: []notebook.Column{notebook.Col("Reading"), notebook.Col("Last"), notebook.Col("Due"), notebook.Col("So")}}
	today, _ := time.Parse(time.DateOnly, c.today)
	var list []dueReading
	for _, row := range c.machine.Due {
		list = append(list, c.dueOf(row))
	}
	slices.SortStableFunc(list, func(a, b dueReading) int {
		if a.never != b.never {
			if a.never {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.due.Unix(), b.due.Unix())
	})
	for _, r := range list {
		if r.never {
			t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(r.name), notebook.Str("never"), notebook.Str("now"), notebook.Str("not in the file").Marked("due")})
			continue
		}
		days := int(math.Round(r.due.Sub(today).Hours() / 24))
		so := notebook.Str("in " + daysOf(days))
		if days <= 0 {
			so = notebook.Str("for " + daysOf(-days)).Marked("due")
		}
		if days == 0 {
			so = notebook.Str("today").Marked("due")
		}
		t.Rows = append(t.Rows, []notebook.Cell{notebook.Str(r.name), notebook.Str(r.last), notebook.Str(r.due.Format(time.DateOnly)), so})
	}
	if len(list) == 0 {
		t.Note = notebook.Plain("The machine’s record asks for none.")
	}
	return t
}

// dueOf says when one kind of reading was taken last and is due again.
func (c *card) dueOf(row machine.DueRow) dueReading {
	r := dueReading{name: row.Reading, never: true}
	for _, kind := range machine.Readings() {
		if kind.Name != row.Reading {
			continue
		}
		for _, of := range kind.Of {
			if e, ok := c.file.Newest(of, c.today); ok {
				r.last = max(r.last, e.Day)
			}
		}
		for _, e := range c.file.Of("survey") {
			if kind.Table != "" && e.Day <= c.today && len(inputsOf(e.Inputs).grid("survey", kind.Table)) > 0 {
				r.last = max(r.last, e.Day)
			}
		}
	}
	last, err := time.Parse(time.DateOnly, r.last)
	if err != nil {
		return r
	}
	r.never = false
	whole := int(math.Trunc(row.Months))
	r.due = last.AddDate(0, whole, int(math.Round((row.Months-float64(whole))*30.44)))
	return r
}

func daysOf(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
