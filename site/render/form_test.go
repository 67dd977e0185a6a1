package render

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
)

type station struct {
	Place   unit.Length
	Reading *unit.Length
	Side    string
}

type trialInputs struct {
	Part     string
	Radius   unit.Length
	Turns    int
	Gain     float64
	Feed     string
	Day      time.Time
	Stations []station
}

func trialDefaults() trialInputs {
	up := 25 * unit.Micro * unit.Metre
	return trialInputs{Part: `rail <"1">`, Radius: 110 * unit.Milli * unit.Metre, Turns: 2, Gain: 0.985, Feed: "along y",
		Day: time.Date(2025, 5, 24, 0, 0, 0, 0, time.UTC),
		Stations: []station{{Place: 0, Reading: &up, Side: "left"},
			{Place: 50 * unit.Milli * unit.Metre, Side: "right"}}}
}

func trialForm(in *trialInputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	return []notebook.Field{
		notebook.Words("part", &in.Part, notebook.Spec{Label: "Part"}),
		notebook.Measure("radius", &in.Radius, notebook.Spec{Label: "Radius & reach", Help: "From the axis to the <tip>.",
			Units: lengths, Limits: notebook.AboveUpTo(0, 2*unit.Metre)}),
		notebook.Count("turns", &in.Turns, notebook.Spec{Label: "Turns", Limits: notebook.Between(1.0, 9.0)}),
		notebook.Number("gain", &in.Gain, notebook.Spec{Label: "Gain"}),
		notebook.Choice("feed", &in.Feed, notebook.Spec{Label: "Feed", Options: []string{"along x", "along y"}}),
		notebook.Day("day", &in.Day, notebook.Spec{Label: "Date"}),
		notebook.Rows("stations", &in.Stations, notebook.Spec{Label: "Stations", Help: "One row a place.", MinRows: 1, MaxRows: 9},
			func(s *station) []notebook.Field {
				return []notebook.Field{
					notebook.Measure("place", &s.Place, notebook.Spec{Label: "Place", Help: "From the left.", Units: lengths}),
					notebook.MeasureMaybe("reading", &s.Reading, notebook.Spec{Label: "Reading", Units: []notebook.Unit{notebook.Micrometre}}),
					notebook.Choice("side", &s.Side, notebook.Spec{Label: "Side", Options: []string{"left", "right"}}),
				}
			}),
	}
}

func trialWork(in trialInputs) (*notebook.Sheet, error) {
	switch in.Part {
	case "fault":
		panic("no such part")
	case "refused":
		return nil, notebook.InRow("stations", 2, "reading", errors.New("reads one turn off"))
	case "unsound":
		return &notebook.Sheet{Items: []notebook.Item{notebook.Figure{Name: "Not A Name"}}}, nil
	}
	sheet := &notebook.Sheet{}
	sheet.Add(
		notebook.Figure{Name: "double", Label: "Twice the radius", Value: notebook.Exact(2*in.Radius, notebook.Lengths)},
		notebook.Verdict{Name: "word", Tone: notebook.Good, Text: notebook.Plain("The part is " + in.Part + ".")},
		notebook.Chart{Name: "picture", Title: "Readings", Data: notebook.Table{Columns: []notebook.Column{notebook.Col("Place")}},
			Option: func(system notebook.System) (json.RawMessage, error) {
				return fmt.Appendf(nil, `{"a":%d}`, 1+system), nil
			}},
	)
	return sheet, nil
}

func trialLesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{Slug: "trial", Title: "Trial"}, trialDefaults, trialForm, trialWork)
}

// elements returns the start tags of well-formed HTML, in order. It fails the
// test when the elements are not properly nested.
func elements(t *testing.T, text string) []xml.StartElement {
	t.Helper()
	bare := regexp.MustCompile(` (hidden|readonly|disabled|selected|novalidate|data-signed)([ >])`)
	for bare.MatchString(text) {
		text = bare.ReplaceAllString(text, ` $1=""$2`)
	}
	text = regexp.MustCompile(`<(input[^>]*)>`).ReplaceAllString(text, "<$1/>")
	dec := xml.NewDecoder(strings.NewReader(text))
	var found []xml.StartElement
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return found
		}
		if err != nil {
			t.Fatalf("the form is not well formed: %v", err)
		}
		if start, ok := token.(xml.StartElement); ok {
			found = append(found, start.Copy())
		}
	}
}

func attribute(e xml.StartElement, name string) (string, bool) {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value, true
		}
	}
	return "", false
}

func TestFormIsLabelledAndAsleep(t *testing.T) {
	found := elements(t, Form(trialLesson()))
	ids, labelled := map[string]bool{}, map[string]bool{}
	for _, e := range found {
		if id, ok := attribute(e, "id"); ok {
			if ids[id] {
				t.Errorf("the id %q comes twice", id)
			}
			ids[id] = true
		}
		if to, ok := attribute(e, "for"); ok {
			labelled[to] = true
		}
	}
	boxes := 0
	for _, e := range found {
		if described, ok := attribute(e, "aria-describedby"); ok {
			for _, id := range strings.Fields(described) {
				if !ids[id] {
					t.Errorf("<%s> is described by %q, which is not there", e.Name.Local, id)
				}
			}
		}
		if e.Name.Local != "input" && e.Name.Local != "select" {
			continue
		}
		boxes++
		id, _ := attribute(e, "id")
		if _, named := attribute(e, "aria-label"); !named && !labelled[id] {
			t.Errorf("<%s id=%q> has no label", e.Name.Local, id)
		}
		_, readonly := attribute(e, "readonly")
		_, disabled := attribute(e, "disabled")
		_, hidden := attribute(e, "hidden")
		if !readonly && !disabled && !hidden {
			t.Errorf("<%s id=%q> can be changed where no script runs", e.Name.Local, id)
		}
	}
	// Six single boxes with one choice of unit, two rows and one blank row of
	// three, one choice of unit in the table's head, and the file's box.
	if want := 6 + 1 + 3*3 + 1 + 1; boxes != want {
		t.Errorf("the form has %d boxes, want %d", boxes, want)
	}
}

func TestFormHoldsTheDemo(t *testing.T) {
	text := Form(trialLesson())
	for _, want := range []string{
		`<form class="readings" data-lesson="trial" data-format="1"`,
		`<div class="field" data-field="radius" data-kind="measure">`,
		`value="110"`,
		`<option selected>mm</option><option data-also="&#34;|inch">in</option>`,
		`Radius &amp; reach`,
		`From the axis to the &lt;tip&gt;.`,
		`value="rail &lt;&#34;1&#34;&gt;"`,
		`<option selected>along y</option>`,
		`<input type="date" id="in-day" aria-describedby="problem-day" value="2025-05-24"`,
		`<div class="field rows" data-field="stations" data-kind="rows" data-label="Stations" data-min="1" data-max="9">`,
		`aria-label="Place, row 2" value="50"`,
		`aria-label="Reading, row 2" value=""`,
		`<span class="unit" data-unit="µm" data-also="um|μm|micron|microns">µm</span>`,
		`inputmode="decimal" data-signed`,
		`inputmode="numeric"`,
		`<template class="row">`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the form lacks %s", want)
		}
	}
	if strings.Contains(text, `inputmode="decimal" data-signed id="in-radius"`) {
		t.Error("the radius, which is above 0, is said to take a sign")
	}
}

func TestFieldsOfAGroupAreFoldedTogether(t *testing.T) {
	in := trialDefaults()
	spec := func(group string) notebook.Spec { return notebook.Spec{Label: "x", Group: group} }
	fields := []notebook.Field{
		notebook.Number("a", &in.Gain, spec("")), notebook.Number("b", &in.Gain, spec("The dial & arm")),
		notebook.Number("c", &in.Gain, spec("The dial & arm")), notebook.Number("d", &in.Gain, spec("The job")),
	}
	var b strings.Builder
	writeFields(&b, fields)
	var order []string
	for _, m := range regexp.MustCompile(`data-field="(\w)"|<summary>([^<]*)|(</details>)`).FindAllStringSubmatch(b.String(), -1) {
		order = append(order, m[1]+m[2]+m[3])
	}
	if got, want := strings.Join(order, " "), "a The dial &amp; arm b c </details> The job d </details>"; got != want {
		t.Errorf("the form holds %s, want %s", got, want)
	}
}
