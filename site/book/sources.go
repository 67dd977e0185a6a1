package book

// The ledger of checks and the sources that they rest on, linked both ways.

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"sort"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/refdata"
	"example.org/thouspan/site/render"
)

// checksData fills the page of all checks.
type checksData struct {
	Checks []LessonCheck
	Totals []knownTotal
	// Sourced reports whether there is a page of sources to link to.
	Sourced bool
}

// checksPage returns the page that lists every check of every lesson.
func (in Input) checksPage(checks []LessonCheck) ([]byte, error) {
	about := findPage("checks")
	return in.frame(frameData{Title: about.Title, Root: "../", Body: "checks", Data: checksData{checks, knownTotals(checks), in.hasPages()},
		Description: about.Says})
}

// ComputedText and PublishedText are the two values, to the tolerance's digits.
func (c LessonCheck) ComputedText() string  { return render.CheckNumber(c.Check, c.Computed) }
func (c LessonCheck) PublishedText() string { return render.CheckNumber(c.Check, c.Row.Value) }

// Margin is the difference of computed and published over the tolerance: 0 is
// full agreement, 1 is just accepted.
func (c LessonCheck) Margin() float64 {
	return math.Abs(c.Computed-c.Row.Value) / c.Row.Tolerance
}

// MarginText is the margin in hundredths of the tolerance.
func (c LessonCheck) MarginText() string { return notebook.FormatNumber(c.Margin(), 2) }

// UnitText is the row's unit, empty for a pure number.
func (c LessonCheck) UnitText() string {
	if c.Row.Unit == "1" {
		return ""
	}
	return c.Row.Unit
}

// Place is the check's place on its lesson's page.
func (c LessonCheck) Place() string { return "item-" + c.Name }

// RowID is the check's place in the ledger.
func (c LessonCheck) RowID() string { return c.Lesson.Slug + "-" + c.Name }

// SourceID is the place of the check's source on the page of sources.
func (c LessonCheck) SourceID() string { return sourceID(c.Row.Source) }

// SourceName is the check's source without its section.
func (c LessonCheck) SourceName() string { return sourceName(c.Row.Source) }

// KnownRank orders the ways of knowing, the strongest first.
func (c LessonCheck) KnownRank() int { return knownRank(c.Row.Known) }

func knownRank(known refdata.Known) int {
	for i, k := range []refdata.Known{refdata.Read, refdata.Computed, refdata.FromMemory, refdata.CommonPractice} {
		if k == known {
			return i
		}
	}
	return len(known)
}

// sourceName is a source without its section.
func sourceName(s refdata.Source) string {
	s.Section = ""
	return s.String()
}

// sourceID is a source's place on the page of sources.
func sourceID(s refdata.Source) string { return "source-" + termID(sourceName(s)) }

// citedSource is a source with the checks that rest on it.
type citedSource struct {
	name, id string
	best     int // the rank of the strongest way of knowing it
	checks   []LessonCheck
}

// citedSources returns the sources of the checks, in order of name.
func citedSources(checks []LessonCheck) []*citedSource {
	byID := map[string]*citedSource{}
	var list []*citedSource
	for _, c := range checks {
		s, ok := byID[c.SourceID()]
		if !ok {
			s = &citedSource{name: sourceName(c.Row.Source), id: c.SourceID(), best: c.KnownRank()}
			byID[s.id] = s
			list = append(list, s)
		}
		s.best = min(s.best, c.KnownRank())
		s.checks = append(s.checks, c)
	}
	sort.SliceStable(list, func(i, j int) bool { return strings.ToLower(list[i].name) < strings.ToLower(list[j].name) })
	return list
}

// knownHeads are the headings of the groups of sources, by rank.
var knownHeads = []struct{ head, says string }{
	{"Read", "The figure was read in the text itself or in a faithful copy of it; the entry says which."},
	{"Computed from a definition", "The figure follows from a definition, an identity or exact arithmetic on stated inputs. It checks our programs, not the definition."},
	{"From memory", "Remembered from the text named, not read for this book. Look it up before you hold anyone to it."},
	{"Common practice", "A rule of the trade with no single text behind it."},
}

// sources returns the inside of the page of sources.
func (s *surroundings) sources() (string, error) {
	var b strings.Builder
	list := citedSources(s.checks)
	fmt.Fprintf(&b, "<p>%d checks rest on %d sources. A source stands under the strongest way in which any of its figures is known; each check says its own. The %s has every value; the lessons name further reading under their own Sources.</p>\n",
		len(s.checks), len(list), `<a href="../checks/index.html">ledger of checks</a>`)
	for rank, head := range knownHeads {
		group := ""
		for _, source := range list {
			if source.best == rank {
				group += source.html()
			}
		}
		if group != "" {
			b.WriteString(`<h2 id="known-` + termID(head.head) + `">` + head.head + "</h2>\n<p>" + head.says + "</p>\n" + group)
		}
	}
	return b.String(), nil
}

// html returns the source with its checks, section by section.
func (c *citedSource) html() string {
	var sections []string
	bySection := map[string][]string{}
	for _, check := range c.checks {
		section := check.Row.Source.Section
		if _, ok := bySection[section]; !ok {
			sections = append(sections, section)
		}
		bySection[section] = append(bySection[section], check.sourceLine())
	}
	var b strings.Builder
	b.WriteString(`<section class="source-entry" id="` + c.id + `"><h3>` + html.EscapeString(c.name) + "</h3>\n")
	for _, section := range sections {
		if section != "" {
			b.WriteString("<p>" + html.EscapeString(upperFirst(section)) + ":</p>\n")
		}
		b.WriteString("<ul>\n" + strings.Join(bySection[section], "") + "</ul>\n")
	}
	return b.String() + "</section>\n"
}

// sourceLine returns a check as a line below its source.
func (c LessonCheck) sourceLine() string {
	return `<li><a href="../checks/index.html#` + c.RowID() + `">` + html.EscapeString(upperFirst(c.Row.What)) + "</a>: " +
		html.EscapeString(strings.TrimSpace(c.PublishedText()+" "+c.UnitText())) + ", " + html.EscapeString(string(c.Row.Known)) +
		`, in <a href="../` + c.Lesson.Slug + "/index.html#" + c.Place() + `">` + html.EscapeString(c.Lesson.Title) + "</a></li>\n"
}

// checkSources returns the paragraph that leads from a lesson's checks to their
// sources; empty when there are none or no page of sources.
func (in Input) checkSources(w workedLesson) template.HTML {
	if !in.hasPages() {
		return ""
	}
	var links []string
	seen := map[string]bool{}
	for _, check := range w.sheet.Checks() {
		id := sourceID(check.Row.Source)
		if !seen[id] {
			seen[id] = true
			links = append(links, `<a href="../sources/index.html#`+id+`">`+html.EscapeString(sourceName(check.Row.Source))+"</a>")
		}
	}
	if len(links) == 0 {
		return ""
	}
	return template.HTML(`<p class="check-sources">These rest on: ` + strings.Join(links, "; ") + ".</p>\n")
}
