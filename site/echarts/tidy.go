package echarts

import (
	"encoding/xml"
	"errors"
	"fmt"
	"html"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.org/thouspan/internal/notebook/plot"
)

// This file makes a drawn chart the page's, as a tree: it scales with its place,
// its ids are its own, its colours and its font are the style sheet's, and it
// takes few characters: what every page repeats is left to the style sheet, what
// neighbours share is said once, and what cannot be seen goes.

// element is one element of an SVG.
type element struct {
	name     string
	attrs    []attribute
	children []element
	text     string
}

type attribute struct{ name, value string }

// attr returns an attribute's value, or "".
func (e element) attr(name string) string {
	for _, a := range e.attrs {
		if a.name == name {
			return a.value
		}
	}
	return ""
}

// set gives an attribute a value, or takes it away where the value is empty.
func (e *element) set(name, value string) {
	i := slices.IndexFunc(e.attrs, func(a attribute) bool { return a.name == name })
	switch {
	case value == "" && i >= 0:
		e.attrs = slices.Delete(e.attrs, i, i+1)
	case value != "" && i >= 0:
		e.attrs[i].value = value
	case value != "":
		e.attrs = append(e.attrs, attribute{name, value})
	}
}

// tidy returns the SVG of a chart as it stands in a page. Its words are in the
// page beside it, so a screen reader passes it over.
func tidy(id, class, svg string, width, height int) (string, error) {
	root, err := readSVG(svg)
	if err != nil {
		return "", err
	}
	root.children = tidied(root.children, id, false)
	shareClips(&root)
	root.children = grouped(merged(root.children))
	root.attrs = nil
	if class != "" {
		root.set("class", class)
	}
	root.set("viewBox", fmt.Sprintf("0 0 %d %d", width, height))
	root.set("aria-hidden", "true")
	root.set("focusable", "false")
	root.set("data-plot", id)
	var b strings.Builder
	root.write(&b)
	text := b.String()
	for _, t := range plot.Tokens() {
		text = strings.ReplaceAll(text, t.Light, "var(--"+t.Name+")")
	}
	return text, nil
}

// readSVG reads what ECharts drew.
func readSVG(svg string) (element, error) {
	odd := errors.New("ECharts drew something that is not a plain SVG")
	decoder := xml.NewDecoder(strings.NewReader(svg))
	open := []element{{}}
	for {
		token, err := decoder.RawToken()
		if err == io.EOF {
			break
		}
		if err != nil {
			return element{}, fmt.Errorf("%w: %w", odd, err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local}
			for _, a := range token.Attr {
				name := a.Name.Local
				if a.Name.Space != "" {
					name = a.Name.Space + ":" + name
				}
				e.attrs = append(e.attrs, attribute{name, a.Value})
			}
			open = append(open, e)
		case xml.EndElement:
			last := len(open) - 1
			if last == 0 {
				return element{}, odd
			}
			open[last-1].children = append(open[last-1].children, open[last])
			open = open[:last]
		case xml.CharData:
			open[len(open)-1].text += string(token)
		}
	}
	if len(open) != 1 || len(open[0].children) != 1 || open[0].children[0].name != "svg" {
		return element{}, odd
	}
	root := open[0].children[0]
	if has(root, "script") {
		return element{}, odd
	}
	return root, nil
}

func has(e element, name string) bool {
	return e.name == name || slices.ContainsFunc(e.children, func(c element) bool { return has(c, name) })
}

// forPointer is what only a live chart needs, and what is so anyway.
var forPointer = map[string]bool{"class": true, "pointer-events": true, "xml:space": true, "stroke-miterlimit": true}

var (
	idOrRef = regexp.MustCompile(`^(#|url\(#|)(zr\d+-[\w-]+\)?)$`)
	// sizeOf finds the size of letters in an inline style.
	sizeOf = regexp.MustCompile(`(\d+)px`)
	moved  = regexp.MustCompile(`^translate\((-?[\d.]+)[ ,](-?[\d.]+)\)$`)
	long   = regexp.MustCompile(`-?\d+\.\d{3,}`)
)

// tidied returns the elements that can be seen, each without what it need not say;
// within a clipping path, all of them: what cuts has no colour.
func tidied(list []element, id string, within bool) []element {
	var kept []element
	for _, e := range list {
		if e.name == "style" {
			continue
		}
		e.children = tidied(e.children, id, e.name == "clipPath")
		for _, a := range slices.Clone(e.attrs) {
			e.set(a.name, attributeOf(e, a, id))
		}
		e = inPlace(e)
		if within || !unseen(e) {
			kept = append(kept, e)
		}
	}
	return kept
}

// attributeOf returns an attribute's value for the page, empty where it can be
// left out.
func attributeOf(e element, a attribute, id string) string {
	switch {
	case forPointer[a.name] || strings.HasPrefix(a.name, "ecmeta_"):
		return ""
	case a.name == "style": // keeps only the size of letters; the rest is the page's
		if size := sizeOf.FindStringSubmatch(a.value); size != nil {
			return size[1]
		}
		return ""
	case a.name == "fill" && a.value == "#000": // of lines and of outlines that only cut
		return "none"
	case a.name == "dominant-baseline" && a.value == "central", // the style sheet's
		a.name == "text-anchor" && a.value == "start", a.name == "stroke-linecap" && a.value == "butt",
		a.name == "stroke-width" && a.value == "1":
		return ""
	case a.name == "id" || strings.HasPrefix(a.value, "url(#") || strings.HasSuffix(a.name, "href"):
		return idOrRef.ReplaceAllString(a.value, "${1}"+id+"-${2}")
	}
	return a.value
}

// inPlace returns the element with its shift worked into its coordinates, and its
// numbers short.
func inPlace(e element) element {
	e.attrs = slices.Clone(e.attrs)
	if size := e.attr("style"); size != "" {
		e.set("style", "")
		e.set("font-size", size)
	}
	var dx, dy float64
	shifts := moved.FindStringSubmatch(e.attr("transform"))
	if e.attr("clip-path") != "" {
		shifts = nil // the clip is shifted too
	}
	if shifts != nil {
		dx, dy = number(shifts[1]), number(shifts[2])
	}
	switch {
	case e.name == "path":
		if path, ok := readPath(e.attr("d"), dx, dy); ok {
			e.set("d", writePath(straightened(path)))
			if shifts != nil {
				e.set("transform", "")
			}
		}
	case e.name == "text" && shifts != nil:
		e.set("x", short(tenth(number(e.attr("x"))+dx)))
		e.set("y", short(tenth(number(e.attr("y"))+dy)))
		e.set("transform", "")
	}
	for i, a := range e.attrs {
		e.attrs[i].value = long.ReplaceAllStringFunc(a.value, func(s string) string { return short(math.Round(number(s)*100) / 100) })
	}
	if e.name == "text" {
		e.text = strings.TrimSpace(e.text)
		if digits := strings.TrimPrefix(e.text, "-"); digits != e.text && digits != "" && digits[0] >= '0' && digits[0] <= '9' {
			e.text = "\u2212" + digits
		}
	}
	return e
}

// number reads a number that ECharts wrote; what is none counts nothing.
func number(s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0
	}
	return x
}

func tenth(x float64) float64 { return math.Round(x*10) / 10 }

// unseen reports whether an element draws nothing and cuts nothing.
func unseen(e element) bool {
	switch e.name {
	case "path":
		if e.attr("d") == "" {
			return true
		}
	case "rect":
	case "g", "defs":
		return len(e.children) == 0
	default:
		return false
	}
	fill, stroke := e.attr("fill"), e.attr("stroke")
	noFill := fill == "none" || fill == "transparent" || e.attr("fill-opacity") == "0"
	noStroke := stroke == "" || stroke == "none" || stroke == "transparent" || e.attr("stroke-width") == "0"
	return noFill && noStroke && e.attr("id") == ""
}

// shareClips leaves one of the clipping paths that are alike.
func shareClips(root *element) {
	first, instead := map[string]string{}, map[string]string{}
	var look func(list []element) []element
	look = func(list []element) []element {
		var kept []element
		for _, e := range list {
			if e.name == "clipPath" {
				var b strings.Builder
				for _, c := range e.children {
					c.write(&b)
				}
				if id, known := first[b.String()]; known {
					instead["url(#"+e.attr("id")+")"] = "url(#" + id + ")"
					continue
				}
				first[b.String()] = e.attr("id")
			}
			e.children = look(e.children)
			kept = append(kept, e)
		}
		return kept
	}
	root.children = look(root.children)
	var refer func(list []element)
	refer = func(list []element) {
		for i := range list {
			if id, shared := instead[list[i].attr("clip-path")]; shared {
				list[i].set("clip-path", id)
			}
			refer(list[i].children)
		}
	}
	refer(root.children)
}

// merged makes one path of neighbours that are drawn alike and opaque.
func merged(list []element) []element {
	var out []element
	for _, e := range list {
		e.children = merged(e.children)
		if n := len(out); n > 0 && e.name == "path" && out[n-1].name == "path" && mergeable(out[n-1], e) {
			out[n-1].set("d", out[n-1].attr("d")+e.attr("d"))
			continue
		}
		out = append(out, e)
	}
	return out
}

// mergeable reports whether two paths differ in their data alone, begin anew
// and let nothing show through where they cross.
func mergeable(a, b element) bool {
	if !strings.HasPrefix(b.attr("d"), "M") || a.attr("transform") != "" || a.attr("id") != "" || len(a.attrs) != len(b.attrs) {
		return false
	}
	for _, x := range a.attrs {
		if x.name == "d" {
			continue
		}
		if x.value != b.attr(x.name) || strings.HasSuffix(x.name, "opacity") || x.name == "stroke-dasharray" {
			return false
		}
	}
	// A later filled shape hides the outline of an earlier one that it crosses;
	// in one path it would not.
	return a.attr("fill") == "none" || a.attr("stroke") == ""
}

// inherited are the attributes that an element may leave to the group around it.
var inherited = []string{"fill", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin", "stroke-dasharray", "font-size",
	"font-weight", "paint-order", "fill-opacity", "stroke-opacity", "clip-path"}

// grouped says what neighbours share once, in a group around them, wherever that
// is shorter.
func grouped(list []element) []element {
	var out []element
	for i := 0; i < len(list); {
		n, shared := bestRun(list[i:])
		if n < 2 {
			out = append(out, list[i])
			i++
			continue
		}
		group := element{name: "g", attrs: shared}
		for _, e := range list[i : i+n] {
			e.attrs = slices.Clone(e.attrs)
			for _, a := range shared {
				e.set(a.name, "")
			}
			group.children = append(group.children, e)
		}
		out = append(out, group)
		i += n
	}
	return out
}

// bestRun returns how many of the first elements are shortest in one group, and
// what they share.
func bestRun(list []element) (int, []attribute) {
	var common []attribute
	for _, a := range list[0].attrs {
		if slices.Contains(inherited, a.name) && (a.name != "clip-path" || list[0].attr("transform") == "") {
			common = append(common, a)
		}
	}
	best, count, shared := 0, 1, []attribute(nil)
	for n, e := range list {
		if e.name != "path" && e.name != "text" || e.attr("clip-path") != "" && e.attr("transform") != "" {
			break
		}
		common = slices.DeleteFunc(slices.Clone(common), func(a attribute) bool { return e.attr(a.name) != a.value })
		size := 0
		for _, a := range common {
			size += len(a.name) + len(a.value) + 4
		}
		if saved := size*n - len("<g></g>"); saved > best {
			best, count, shared = saved, n+1, common
		}
	}
	return count, shared
}

// write writes the element. Those without anything inside close themselves, as
// SVG within HTML may.
func (e element) write(b *strings.Builder) {
	b.WriteString("<" + e.name)
	for _, a := range e.attrs {
		b.WriteString(" " + a.name + `="` + html.EscapeString(a.value) + `"`)
	}
	text := strings.TrimSpace(e.text)
	if len(e.children) == 0 && text == "" {
		b.WriteString("/>")
		return
	}
	b.WriteString(">" + html.EscapeString(text))
	for _, c := range e.children {
		c.write(b)
	}
	b.WriteString("</" + e.name + ">")
}
