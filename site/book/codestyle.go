package book

import (
	"bytes"
	"fmt"

	chromahtml "github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/styles"
)

// codeStyle returns the style sheet of shown code: a light style by day and in
// print, a dark one by night, chosen like the rest of the page.
func codeStyle() ([]byte, error) {
	light, err := styleSheet("github")
	if err != nil {
		return nil, err
	}
	dark, err := styleSheet("github-dark")
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "@media print {\n%s}\n", light)
	fmt.Fprintf(&out, "@media screen and (prefers-color-scheme: light) {\n[data-theme=\"auto\"] {\n%s}\n}\n", light)
	fmt.Fprintf(&out, "@media screen and (prefers-color-scheme: dark) {\n[data-theme=\"auto\"] {\n%s}\n}\n", dark)
	fmt.Fprintf(&out, "@media screen {\n[data-theme=\"light\"] {\n%s}\n[data-theme=\"dark\"] {\n%s}\n}\n", light, dark)
	return out.Bytes(), nil
}

// styleSheet returns one style's rules by class.
func styleSheet(name string) ([]byte, error) {
	style := styles.Get(name)
	if style.Name != name {
		return nil, fmt.Errorf("book: no code style called %q", name)
	}
	var out bytes.Buffer
	err := chromahtml.New(chromahtml.WithClasses(true), chromahtml.WithCSSComments(false)).WriteCSS(&out, style)
	return out.Bytes(), err
}
