package workbench

import (
	"fmt"
	"strings"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
)

// mostRuns is how many weighed runs the lesson on the scale takes; the newest
// are kept.
const mostRuns = 100

// Runs gathers the plating log into the inputs of the lesson on the scale: every
// run, none later than the day, whose current, time, both weighings and pH are
// written down. It is an error when there is none.
func Runs(f *machine.File, day string) (Gathered, error) {
	in, err := template("scale")
	if err != nil {
		return Gathered{}, err
	}
	var g Gathered
	var rows grid
	for _, e := range f.Of(machine.RecordRun) {
		if day != "" && e.Day > day {
			continue
		}
		run := inputsOf(e.Inputs)
		row := map[string]cell{"use": {text: "trend"}}
		var missing []string
		for _, name := range []string{"current", "time", "before", "after", "ph"} {
			row[name] = cellOf(run.text(name))
			if row[name].text == "" {
				missing = append(missing, name)
			}
		}
		switch {
		case len(missing) > 0:
			g.Left = append(g.Left, said(e)+": it has no "+strings.Join(missing, ", "))
		case len(rows) == mostRuns:
			g.Left = append(g.Left, fmt.Sprintf("%s: the lesson takes %d runs, and there are newer ones", said(e), mostRuns))
		default:
			rows = append(grid{row}, rows...)
			if g.Day == "" {
				g.Day = e.Day
			}
		}
	}
	if len(rows) == 0 {
		return Gathered{}, fmt.Errorf("there is no plated run%s with current, time, both weighings and pH", until(day))
	}
	in.setGrid("scale", "runs", rows)
	filled, left := fill(f, "scale", &in, day)
	g.Used = []string{fmt.Sprintf("%d plated runs, the last of %s", len(rows), g.Day)}
	for _, from := range filled {
		g.Used = append(g.Used, from.line)
	}
	g.Left = append(g.Left, left...)
	g.Document = machine.Entry{Of: "scale", InputsFormat: notebook.Format, Inputs: in.raw()}.Document()
	return g, nil
}

// cellOf splits a single value as typed into number and unit.
func cellOf(text string) cell {
	text = strings.TrimSpace(text)
	at := strings.LastIndexAny(text, "0123456789.")
	if at < 0 {
		return cell{text: text}
	}
	return cell{text[:at+1], strings.TrimSpace(text[at+1:])}
}

// Choice is one thing that a lesson can take from a file.
type Choice struct {
	// Key names it to [Take]: an entry's key, or [GatheredKey].
	Key string
	// Day is the newest day in it; Title says what it is.
	Day, Title string
}

// GatheredKey is the key of inputs put together from several entries.
const GatheredKey = "gathered"

// gatherers lists the lessons whose inputs can be put together.
func gatherers() map[string]func(*machine.File, string) (Gathered, error) {
	return map[string]func(*machine.File, string) (Gathered, error){"survey": Survey, "scale": Runs}
}

// Choices returns what a lesson can take from the file, newest first: the
// lesson's own entries, and what can be put together for it from others.
func Choices(f *machine.File, slug string) []Choice {
	var list []Choice
	for _, e := range f.Of(slug) {
		title := e.Name
		if e.Head != "" {
			title = strings.TrimPrefix(title+", head "+e.Head, ", ")
		}
		if e.Travel != "" {
			title = strings.TrimPrefix(title+", X = "+e.Travel, ", ")
		}
		list = append(list, Choice{e.Key(), e.Day, title})
	}
	if gather, ok := gatherers()[slug]; ok {
		if g, err := gather(f, ""); err == nil {
			c := Choice{GatheredKey, g.Day, "put together from what other entries hold"}
			at := 0
			for at < len(list) && list[at].Day > c.Day {
				at++
			}
			if at < len(list) && list[at].Day == c.Day {
				at++ // the lesson's own entry of that day comes first
			}
			list = append(list[:at], append([]Choice{c}, list[at:]...)...)
		}
	}
	return list
}

// Take returns the inputs that a choice stands for.
func Take(f *machine.File, slug, key string) (Gathered, error) {
	if gather, ok := gatherers()[slug]; ok && key == GatheredKey {
		return gather(f, "")
	}
	e, ok := f.Find(key)
	if !ok || e.Of != slug {
		return Gathered{}, fmt.Errorf("the file has no such entry for the lesson %s", slug)
	}
	return Gathered{Document: e.Document(), Entry: &e, Day: e.Day, Used: []string{said(e)}}, nil
}

// On returns the newest inputs for a lesson that are not later than the day,
// whether one entry or put together; an empty day means any. The error says what
// there is instead.
func On(f *machine.File, slug, day string) (Gathered, error) {
	own, found := f.Newest(slug, day)
	if gather, ok := gatherers()[slug]; ok {
		g, err := gather(f, day)
		if err == nil && (!found || g.Day > own.Day) {
			return g, nil
		}
		if err != nil && !found {
			return Gathered{}, err
		}
	}
	if found {
		return Gathered{Document: own.Document(), Entry: &own, Day: own.Day, Used: []string{said(own)}}, nil
	}
	return Gathered{}, fmt.Errorf("the file has no entry for the lesson %s%s; %s", slug, until(day), instead(f, slug))
}

// instead says which entries a file has for a lesson, or else for which lessons
// it has any.
func instead(f *machine.File, slug string) string {
	var days []string
	for _, e := range f.Of(slug) {
		days = append(days, e.Day)
	}
	if len(days) > 0 {
		return "it has those of " + strings.Join(days, ", ")
	}
	var slugs []string
	for _, l := range examples.Lessons() {
		if len(f.Of(l.Slug)) > 0 {
			slugs = append(slugs, l.Slug)
		}
	}
	if len(slugs) == 0 {
		return "it has none for any lesson"
	}
	return "it has some for " + strings.Join(slugs, ", ")
}

// Asks lists what is to be said of a lesson's readings, beside their day, when
// they are put into a file: "head", how the head stood, and "travel", the table
// travel X at which they were taken.
func Asks(slug string) []string {
	switch slug {
	case "sweep":
		return []string{"head", "travel"}
	case "fiveplaces", "twodials":
		return []string{"head"}
	}
	return nil
}

// Says tells in short what a record holds: the fields that are filled in, in the
// order of its form. Of a lesson's inputs it tells nothing.
func Says(e machine.Entry) string {
	record, ok := machine.FindRecord(e.Of)
	if !ok {
		return ""
	}
	in := inputsOf(e.Inputs)
	var parts []string
	for _, f := range record.Fields() {
		text := in.text(f.Name)
		switch {
		case f.Kind == notebook.RowsField:
			if n := len(in.grid(e.Of, f.Name)); n > 0 {
				parts = append(parts, fmt.Sprintf("%s: %d", lowered(f.Label), n))
			}
		case text == "":
		case f.Kind == notebook.WordsField || f.Kind == notebook.ChoiceField:
			parts = append(parts, text)
		default:
			parts = append(parts, lowered(f.Label)+" "+text)
		}
	}
	return strings.Join(parts, "; ")
}

// lowered begins a label with a small letter, unless it is an abbreviation.
func lowered(label string) string {
	if len(label) > 1 && label[1] >= 'a' && label[1] <= 'z' {
		return strings.ToLower(label[:1]) + label[1:]
	}
	return label
}
