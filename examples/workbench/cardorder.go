package workbench

import (
	"fmt"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/notebook"
)

// mostOrders is how many orders the card has room for.
const mostOrders = 3

// orders are rows of the table of work: the orders that were worked out up to the
// day, each by its newest entry.
func (c *card) orders() [][]notebook.Cell {
	var rows [][]notebook.Cell
	lesson, ok := examples.Find("order")
	if !ok {
		return nil
	}
	seen := map[string]bool{}
	for _, entry := range c.file.Of("order") { // the newest first
		if entry.Day > c.today || seen[entry.Name] || len(rows) == mostOrders {
			continue
		}
		seen[entry.Name] = true
		name := entry.Name
		if name == "" {
			name = "without a name"
		}
		sheet, err := lesson.Work(entry.Document())
		if err != nil {
			c.missing = append(c.missing, fmt.Sprintf("The order %s cannot be worked: %s.", name, inOneLine(err)))
			continue
		}
		size, isSize := sheet.Find("error").(notebook.Figure)
		chance, isChance := sheet.Find("chance").(notebook.Figure)
		decision, isDecided := sheet.Find("decision").(notebook.Verdict)
		if !isSize || !isChance || !isDecided {
			continue
		}
		rows = append(rows, []notebook.Cell{notebook.Str("Order: " + name), notebook.Val(size.Value),
			notebook.Str(inputsOf(entry.Inputs).text("limit")), chanceCell(chance.Value.SI), takeIt(decision.Tone)})
	}
	return rows
}

// takeIt says in a word what the lesson decided.
func takeIt(tone notebook.Tone) notebook.Cell {
	switch tone {
	case notebook.Good:
		return notebook.Str("take it")
	case notebook.Watch:
		return notebook.Str("not yet").Marked("read again")
	}
	return notebook.Str("REFUSE").Marked("beyond")
}
