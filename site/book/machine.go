package book

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"strings"

	"example.org/thouspan/internal/machine"
	"example.org/thouspan/site/render"
)

// formatFile describes the machine's file; the page shows it whole.
const formatFile = "internal/machine/FORMAT.md"

// recordForm is the form of one record, for the page's script to show.
type recordForm struct {
	Name string
	Form template.HTML
}

// machine returns the inside of the page of the reader's own machine: the lists
// that its script fills, the records' forms, and the description of the file.
func (s *surroundings) machine() (string, error) {
	set, err := template.ParseFS(templates, "templates/machine.html")
	if err != nil {
		return "", fmt.Errorf("the template does not parse: %w", err)
	}
	var forms []recordForm
	for _, r := range machine.Records() {
		forms = append(forms, recordForm{r.Name, template.HTML(render.RecordForm(r.Name, r.Title, r.Fields()))})
	}
	var page bytes.Buffer
	if err := set.ExecuteTemplate(&page, "machine", forms); err != nil {
		return "", err
	}
	source, err := fs.ReadFile(s.in.Module, formatFile)
	if err != nil {
		return "", err
	}
	// Its heading becomes one of this page's, its parts the parts of that.
	text := strings.Replace(strings.ReplaceAll(string(source), "\n## ", "\n### "), "# ", "## ", 1)
	format, err := s.markdownText([]byte(text), formatFile, nil)
	if err != nil {
		return "", err
	}
	// Wider than a telephone, it scrolls, by keyboard too.
	format = strings.ReplaceAll(format, "<pre>", `<pre tabindex="0" role="group" aria-label="An example of the file">`)
	return page.String() + `<div class="format wide">` + format + "</div>", nil
}
