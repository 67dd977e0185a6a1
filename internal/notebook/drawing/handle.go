package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// Grip ties a direction of a handle to a field of the lesson's form.
type Grip struct {
	// Field is the field's name, empty when the handle does not move that way.
	Field string
	// Says names the field for those who cannot see the handle.
	Says string
	// PerUnit is how much the field's value grows, in SI, for one unit of the
	// canvas to the right or upward.
	PerUnit float64
	// Step is by how much an arrow key changes it, in SI.
	Step float64
	// Units are the field's, as in its form.
	Units []notebook.Unit
}

// Handle draws a mark that the reader can drag, or move by the arrow keys, to
// change what is typed into one or two fields of the form. Without scripts it
// is a mark like any other.
func (c *Canvas) Handle(at Point, says string, across, up Grip) {
	c.body.WriteString(`<g class="handle" aria-label="` + escaped(says) + `"` + c.grip("across", across) + c.grip("up", up) + ">")
	const r, arm = 11, 19
	c.Circle("grab", at, 20)
	c.Circle(Marked, at, r)
	for _, way := range []struct {
		grip  Grip
		angle float64
	}{{across, 0}, {across, math.Pi}, {up, math.Pi / 2}, {up, -math.Pi / 2}} {
		if way.grip.Field != "" {
			c.head(Polar(at, arm, way.angle), way.angle)
		}
	}
	c.body.WriteString("</g>")
}

// grip writes a direction of a handle as attributes.
func (c *Canvas) grip(way string, g Grip) string {
	if g.Field == "" {
		return ""
	}
	if !(g.Step > 0) || g.PerUnit == 0 || math.IsInf(g.PerUnit, 0) || math.IsNaN(g.PerUnit) || len(g.Units) == 0 {
		c.fail(fmt.Errorf("drawing %q: handle for %q moves %g a unit in steps of %g with %d units", c.name, g.Field, g.PerUnit, g.Step, len(g.Units)))
		return ""
	}
	units := make([]string, len(g.Units))
	for i, u := range g.Units {
		units[i] = u.Symbol + "=" + strconv.FormatFloat(u.Scale, 'g', -1, 64)
	}
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
	return ` data-` + way + `="` + escaped(g.Field) + `" data-` + way + `-says="` + escaped(g.Says) + `" data-` + way + `-per="` + number(g.PerUnit) +
		`" data-` + way + `-step="` + number(g.Step) + `" data-` + way + `-units="` + escaped(strings.Join(units, ";")) + `"`
}
