package book

import (
	"fmt"
	"html"
	"io/fs"
	"regexp"
	"strings"

	"example.org/thouspan/squaring"
)

// The README's program, and what the README says that it prints.
var (
	readmeProgram = regexp.MustCompile("(?s)```go\n(.*?)```")
	readmePrinted = regexp.MustCompile("(?s)It prints\n\n```\n(.*?)```")
)

// programmers returns the inside of the page for those who write programs.
func (s *surroundings) programmers() (string, error) {
	readme, err := fs.ReadFile(s.in.Module, "README.md")
	if err != nil {
		return "", err
	}
	cut := func(pattern *regexp.Regexp, show func(string) (string, error)) func(directive) (string, error) {
		return func(directive) (string, error) {
			m := pattern.FindSubmatch(readme)
			if m == nil {
				return "", fmt.Errorf("the README holds nothing like %s", pattern)
			}
			return show(string(m[1]))
		}
	}
	return s.markdown("programmers.md", map[string]func(directive) (string, error){
		"readme-program": cut(readmeProgram, func(text string) (string, error) { return codeFigure("main.go", strings.TrimSpace(text)) }),
		"readme-output":  cut(readmePrinted, plainBlock),
		"template":       s.template,
		"code-sections":  func(directive) (string, error) { return s.codeSections(), nil },
		"error": func(directive) (string, error) {
			_, err := squaring.SlopeFromRise(squaring.Thou, 0)
			if err == nil {
				return "", fmt.Errorf("a span of nothing gives no error")
			}
			return plainBlock(err.Error())
		},
	})
}

// plainBlock shows text as it would stand in a terminal.
func plainBlock(text string) (string, error) {
	return `<pre class="plain" tabindex="0"><code>` + html.EscapeString(strings.TrimRight(text, "\n")) + "</code></pre>", nil
}

// template shows a lesson's input document.
func (s *surroundings) template(d directive) (string, error) {
	w, err := s.lesson(d.argument)
	if err != nil {
		return "", err
	}
	return plainBlock(string(w.Template()))
}

// codeSections lists the lessons, each linked to the code that made it.
func (s *surroundings) codeSections() string {
	return s.byTrackList(func(w workedLesson) string {
		return `<a href="../` + w.Slug + `/index.html#code">` + html.EscapeString(w.Title) + "</a>"
	})
}
