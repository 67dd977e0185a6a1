package drawing

import (
	"fmt"
	"strconv"
	"strings"
)

// Tints is how many steps a scale of tints has. They run from light to dark, so
// that they are told apart without their colour; a drawing in tints gives its
// figures in numbers too.
const Tints = 8

// Tint fills closed outlines with a step of the scale of tints, 0 the lightest.
// All of one call make one element, later ones over earlier ones.
func (c *Canvas) Tint(step int, outlines ...[]Point) {
	if step < 0 || step >= Tints {
		c.fail(fmt.Errorf("drawing %q: tint %d is not 0 to %d", c.name, step, Tints-1))
		return
	}
	var d strings.Builder
	for _, points := range outlines {
		if len(points) < 3 {
			c.fail(fmt.Errorf("drawing %q: a tinted outline of %d points", c.name, len(points)))
			return
		}
		for i, p := range points {
			letter := "L"
			if i == 0 {
				letter = "M"
			}
			d.WriteString(letter + c.tenth(p.X) + " " + c.tenth(p.Y))
		}
		d.WriteByte('Z')
	}
	if d.Len() > 0 {
		c.path(Style("tint tint"+strconv.Itoa(step)), d.String())
	}
}

// tenth writes a coordinate with one decimal at most: there are many.
func (c *Canvas) tenth(x float64) string {
	whole := c.number(x)
	if at := strings.IndexByte(whole, '.'); at >= 0 && len(whole) > at+2 {
		return strings.TrimSuffix(whole[:at+2], ".0")
	}
	return whole
}

// TintScale draws the scale of tints from a point to the right, its steps as
// wide as given, with the words between one step and the next below them: one
// word fewer than there are tints.
func (c *Canvas) TintScale(at Point, width float64, between []string) {
	if len(between) != Tints-1 {
		c.fail(fmt.Errorf("drawing %q: %d words between %d tints", c.name, len(between), Tints))
		return
	}
	const high = 14
	for i := range Tints {
		left := at.Add(float64(i)*width, 0)
		c.Tint(i, []Point{left, left.Add(width, 0), left.Add(width, high), left.Add(0, high)})
		if i > 0 {
			c.Note(left.Add(0, high+15), Middle, between[i-1])
		}
	}
}
