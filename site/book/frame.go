package book

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"

	"example.org/thouspan/internal/notebook"
)

//go:embed templates/*.html
var templates embed.FS

// policy is the content security policy of every page: nothing from elsewhere,
// scripts only from files of the site, the lessons' program in a worker made
// from a Blob.
const policy = "default-src 'none'; script-src 'self' blob: 'wasm-unsafe-eval'; worker-src blob:; " +
	"style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self'; connect-src 'none'; base-uri 'none'; form-action 'none'"

// frameData fills the frame around every page.
type frameData struct {
	Title, Description string
	// Root leads from the page to the site's folder: "" or "../".
	Root string
	// Body is the template of the page's body, Data what fills it.
	Body string
	Data any

	// ChartOptions is the script with the options of the page's charts, if any.
	ChartOptions string

	Policy      template.HTMLAttr
	ChartScript bool
	Live        bool
	Tokens      template.HTML
	Inside      template.HTML

	// Head are the pages in the head's menu, Shelves those in the foot's; Find
	// says that there is a search.
	Head    []pageAbout
	Shelves []shelf
	Find    bool
}

// frame returns a whole page.
func (in Input) frame(data frameData) ([]byte, error) {
	set, err := template.New("").Funcs(template.FuncMap{"tracks": notebook.Tracks}).ParseFS(templates, "templates/*.html")
	if err != nil {
		return nil, fmt.Errorf("book: the templates do not parse: %w", err)
	}
	data.Find = in.hasPages()
	var inside bytes.Buffer
	if err := set.ExecuteTemplate(&inside, data.Body, data); err != nil {
		return nil, fmt.Errorf("book: page %q: %w", data.Title, err)
	}
	tokens, err := tokenJSON()
	if err != nil {
		return nil, err
	}
	data.Policy = template.HTMLAttr(`content="` + template.HTMLEscapeString(policy) + `"`)
	data.ChartScript, data.Live = in.ChartScript, in.Live
	data.Shelves = in.shelves()
	for _, slug := range []string{"machine", "glossary", "checks"} {
		if slug == "checks" || data.Find {
			data.Head = append(data.Head, findPage(slug))
		}
	}
	data.Tokens = template.HTML(`<script type="application/json" id="tokens">` + tokens + `</script>`)
	data.Inside = template.HTML(inside.String())
	var page bytes.Buffer
	if err := set.ExecuteTemplate(&page, "frame", data); err != nil {
		return nil, fmt.Errorf("book: page %q: %w", data.Title, err)
	}
	return page.Bytes(), nil
}
