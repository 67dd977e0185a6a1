package book

import (
	"encoding/json"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/render"
)

// optionsFile is the script beside a lesson's page that holds the options of its
// charts in both systems of units. A page is whole without it: it is read when a
// chart is first brought alive, and a script is the one file that a page opened
// from a disk may read.
const optionsFile = "options.js"

// chartOptions gathers the options of a page's charts, in the page's order.
type chartOptions struct {
	list []chartOption
}

type chartOption struct {
	name   string
	option json.RawMessage
}

// add makes the options of a chart; one shown twice is kept once.
func (o *chartOptions) add(c notebook.Chart) error {
	for _, known := range o.list {
		if known.name == c.Name {
			return nil
		}
	}
	option, err := render.ChartOptions(c, notebook.Systems()...)
	if err != nil {
		return err
	}
	o.list = append(o.list, chartOption{c.Name, option})
	return nil
}

// script returns the file that hands the options to the page's scripts.
func (o *chartOptions) script() ([]byte, error) {
	var b strings.Builder
	b.WriteString("thouspan.chartOptions = {")
	for i, chart := range o.list {
		if i > 0 {
			b.WriteString(",")
		}
		name, err := json.Marshal(chart.name)
		if err != nil {
			return nil, err
		}
		b.WriteString("\n" + string(name) + ": " + string(chart.option))
	}
	b.WriteString("\n};\n")
	return []byte(b.String()), nil
}
