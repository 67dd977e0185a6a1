package render

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"example.org/thouspan/internal/notebook"
)

// terminalWidth is the width, in characters, to which sentences are folded.
const terminalWidth = 78

// Terminal returns the sheet as plain text for a terminal, in one system of
// units, items in order. Charts are given as their tables; drawings by their
// captions.
func Terminal(l notebook.Lesson, sheet *notebook.Sheet, s notebook.System) string {
	var b strings.Builder
	b.WriteString(l.Title + "\n" + strings.Repeat("=", utf8.RuneCountInString(l.Title)) + "\n" + fold(l.Question, "") + "\n")
	previous := ""
	for _, item := range sheet.Items {
		if item.Kind() != previous || item.Kind() != "figure" && item.Kind() != "check" {
			b.WriteString("\n")
		}
		previous = item.Kind()
		writePlain(&b, item, s)
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// writePlain writes one item as text.
func writePlain(b *strings.Builder, item notebook.Item, s notebook.System) {
	switch item := item.(type) {
	case notebook.Figure:
		value := item.Value.In(s).Full()
		if item.Unknown != "" {
			value = "not known: " + item.Unknown
		}
		fmt.Fprintf(b, "%s  %s\n", pad(item.Label, 44), value)
	case notebook.Table:
		writePlainTable(b, item, s)
	case notebook.Chart:
		b.WriteString(fold("Chart, "+item.Title+": "+item.Says().In(s), "") + "\n")
	case notebook.Drawing:
		b.WriteString(fold("Drawing, "+item.Title+": "+item.Caption.In(s), "") + "\n")
	case notebook.Verdict:
		b.WriteString(fold("> "+toneWord(item.Tone)+": "+item.Text.In(s), "  ") + "\n")
	case notebook.Check:
		writePlainCheck(b, item)
	case notebook.Caution:
		b.WriteString(fold("! Caution: "+item.Text.In(s)+bracketed(item.Body), "  ") + "\n")
	case notebook.Exercise:
		b.WriteString(fold("? "+item.Ask.In(s), "  ") + "\n")
		b.WriteString(fold("  Answer: "+item.Answer.In(s).Full(), "  ") + "\n")
	}
}

func writePlainCheck(b *strings.Builder, c notebook.Check) {
	word := "agrees"
	if !c.Pass() {
		word = "DOES NOT AGREE"
	}
	b.WriteString(fold(fmt.Sprintf("= %s: computed %s, published %s %s: %s. %s (%s)", c.Row.What,
		CheckNumber(c, c.Computed), CheckNumber(c, c.Row.Value), c.Row.Unit, word,
		c.Row.Source, c.Row.Known), "  ") + "\n")
}

// writePlainTable writes a table with its columns aligned.
func writePlainTable(b *strings.Builder, t notebook.Table, s notebook.System) {
	if t.Title != "" {
		b.WriteString(t.Title + "\n")
	}
	lines := make([][]string, 0, len(t.Rows)+1)
	head := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		head[i] = c.Label
		if c.Show != nil && c.Show.In(s).Symbol != "" {
			head[i] += ", " + c.Show.In(s).Symbol
		}
	}
	lines = append(lines, head)
	for _, row := range t.Rows {
		line := make([]string, len(row))
		for i, cell := range row {
			line[i] = plainCell(cell, t.Columns[i].Show != nil, s)
		}
		lines = append(lines, line)
	}
	widths := make([]int, len(head))
	for _, line := range lines {
		for i, text := range line {
			widths[i] = max(widths[i], utf8.RuneCountInString(text))
		}
	}
	for _, line := range lines {
		var row strings.Builder
		for i, text := range line {
			row.WriteString("  " + pad(text, widths[i]))
		}
		b.WriteString(strings.TrimRight(row.String(), " ") + "\n")
	}
	if len(t.Note) > 0 {
		b.WriteString(fold(t.Note.In(s), "  ") + "\n")
	}
}

func plainCell(c notebook.Cell, unitInHead bool, s notebook.System) string {
	text := c.Words
	if c.Quantity != nil {
		shown := c.Quantity.In(s)
		text = shown.Full()
		if unitInHead {
			text = shown.Value
			if shown.U != "" {
				text += " (u " + shown.U + ")"
			}
		}
	}
	if c.Mark != "" {
		text += " <- " + c.Mark
	}
	return text
}

func bracketed(text string) string {
	if text == "" {
		return ""
	}
	return " (" + text + ")"
}

// pad returns the text filled with spaces to a width in characters.
func pad(text string, width int) string {
	if n := utf8.RuneCountInString(text); n < width {
		return text + strings.Repeat(" ", width-n)
	}
	return text
}

// fold breaks a sentence into lines, each after the first indented. A number
// stays on one line with its unit, since a no-break space joins them.
func fold(text, indent string) string {
	var b strings.Builder
	column := 0
	words := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' })
	for i, word := range words {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case column+1+n > terminalWidth:
			b.WriteString("\n" + indent)
			column = utf8.RuneCountInString(indent)
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += n
	}
	return b.String()
}
