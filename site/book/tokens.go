package book

import (
	"bytes"
	"encoding/json"
	"fmt"

	"example.org/thouspan/internal/notebook/plot"
)

// tokenJSON returns the charts' colour tokens for the browser: each colour
// that an option may hold, and the style sheet's variable that replaces it.
func tokenJSON() (string, error) {
	type entry struct {
		Name   string `json:"name"`
		Colour string `json:"colour"`
	}
	var entries []entry
	for _, t := range plot.Tokens() {
		entries = append(entries, entry{t.Name, t.Light})
	}
	text, err := json.Marshal(entries)
	return string(text), err
}

// tokenStyle returns the style sheet that gives each token its colour, by day,
// by night and in print.
func tokenStyle() []byte {
	var light, dark, out bytes.Buffer
	for _, t := range plot.Tokens() {
		fmt.Fprintf(&light, "--%s:%s;", t.Name, t.Light)
		fmt.Fprintf(&dark, "--%s:%s;", t.Name, t.Dark)
	}
	fmt.Fprintf(&out, ":root{%s}\n", light.Bytes())
	fmt.Fprintf(&out, "@media screen{[data-theme=dark]{%s}}\n", dark.Bytes())
	fmt.Fprintf(&out, "@media screen and (prefers-color-scheme:dark){[data-theme=auto]{%s}}\n", dark.Bytes())
	return out.Bytes()
}
