package book

// Pages that collect what stands in the lessons: the formulas, and what people
// get wrong.

import (
	"fmt"
	"html"
	"regexp"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// byTrack calls one for each lesson, chapter by chapter, and head before the
// first lesson of a chapter for which one gave anything.
func (s *surroundings) byTrack(one func(workedLesson) string) string {
	var b strings.Builder
	for _, track := range notebook.Tracks() {
		inside := ""
		for _, w := range s.worked {
			if w.Track == track {
				inside += one(w)
			}
		}
		if inside != "" {
			b.WriteString(`<h2 id="` + termID(string(track)) + `">` + html.EscapeString(string(track)) + "</h2>\n" + inside)
		}
	}
	return b.String()
}

// byTrackList returns a list of the chapters, each with what one gives for its
// lessons.
func (s *surroundings) byTrackList(one func(workedLesson) string) string {
	var b strings.Builder
	b.WriteString("<dl class=\"by-track\">\n")
	for _, track := range notebook.Tracks() {
		var list []string
		for _, w := range s.worked {
			if w.Track == track {
				list = append(list, one(w))
			}
		}
		if len(list) > 0 {
			b.WriteString("<dt>" + html.EscapeString(string(track)) + "</dt><dd>" + strings.Join(list, ", ") + "</dd>\n")
		}
	}
	return b.String() + "</dl>\n"
}

// formulaPlace is a formula's place on its lesson's page.
func formulaPlace(name string) string { return "formula-" + termID(name) }

// formulas returns the inside of the index of formulas.
func (s *surroundings) formulas() (string, error) {
	return s.byTrack(func(w workedLesson) string {
		if len(w.formulas) == 0 {
			return ""
		}
		rows := ""
		for _, f := range w.formulas {
			address := "../" + w.Slug + "/index.html"
			if w.shown[formulaPlace(f.Name)] {
				address += "#" + formulaPlace(f.Name)
			}
			rows += `<li><div class="formula" tabindex="0" role="group" aria-label="formula">` + f.Block + `</div><a href="` + address + `">` +
				html.EscapeString(upperFirst(f.Spoken)) + "</a></li>\n"
		}
		return `<h3 id="of-` + w.Slug + `"><a href="../` + w.Slug + `/index.html">` + html.EscapeString(w.Title) + "</a></h3>\n<ul class=\"formulas\">\n" + rows + "</ul>\n"
	}), nil
}

// upperFirst returns the text with its first letter as a capital.
func upperFirst(text string) string {
	if text == "" {
		return text
	}
	first := []rune(text)[0]
	return strings.ToUpper(string(first)) + text[len(string(first)):]
}

// saying is one thing that people get wrong, with what corrects it, as HTML.
type saying struct{ said, corrected string }

var (
	sayingStart = regexp.MustCompile(`<p><strong>(&ldquo;.*?)</strong>`)
	verdictText = regexp.MustCompile(`(?s)<p class="verdict-text"[^>]*><b class="tone">[^<]*</b>(.*?)</p>`)
	itemMarks   = regexp.MustCompile(` (?:data-item|data-shape|id)="[^"]*"`)
)

// wrongPart is the part of a lesson that says what people get wrong.
const wrongPart = "what-people-get-wrong"

// sayings returns what a lesson says that people get wrong: each paragraph that
// begins with a quotation in bold, and the rest of it or the verdict below it.
func sayings(w workedLesson) []saying {
	var list []saying
	for _, p := range parts(w.body) {
		if p.ID != wrongPart {
			continue
		}
		text := string(p.HTML)
		at := sayingStart.FindAllStringSubmatchIndex(text, -1)
		for i, m := range at {
			end := len(text)
			if i+1 < len(at) {
				end = at[i+1][0]
			}
			rest, _, _ := strings.Cut(text[m[1]:end], "</p>")
			if verdict := verdictText.FindStringSubmatch(text[m[1]:end]); strings.TrimSpace(rest) == "" && verdict != nil {
				rest = verdict[1]
			}
			if strings.Contains(text[m[1]:end], "<table") {
				rest += ` <a href="../` + w.Slug + `/index.html#` + wrongPart + `">The table there</a> says.`
			}
			list = append(list, saying{text[m[2]:m[3]], itemMarks.ReplaceAllString(rest, "")})
		}
	}
	return list
}

// wrong returns the inside of the page of what people get wrong.
func (s *surroundings) wrong() (string, error) {
	count := 0
	body := s.byTrack(func(w workedLesson) string {
		list := sayings(w)
		if len(list) == 0 {
			return ""
		}
		rows := ""
		for _, said := range list {
			count++
			rows += "<dt>" + said.said + "</dt>\n<dd>" + strings.TrimSpace(said.corrected) + "</dd>\n"
		}
		return `<h3 id="of-` + w.Slug + `"><a href="../` + w.Slug + `/index.html#` + wrongPart + `">` + html.EscapeString(w.Title) + "</a></h3>\n<dl>\n" + rows + "</dl>\n"
	})
	if count == 0 {
		return "", fmt.Errorf("no lesson says what people get wrong")
	}
	return fmt.Sprintf("<p>%d sayings. The numbers are those of the action shop's readings, computed when these pages were built; the lesson gives them for yours.</p>\n", count) + body, nil
}
