// Package ownparttest writes the files that the tests of lessons give as a
// reader's own part.
package ownparttest

import (
	"fmt"
	"strings"

	"example.org/thouspan/plating"
	"gonum.org/v1/gonum/unit"
)

// STL returns the mesh as a text file in millimetres.
func STL(m plating.Mesh) []byte {
	const mm = unit.Milli * unit.Metre
	var b strings.Builder
	b.WriteString("solid part\n")
	for _, k := range m.Triangles {
		b.WriteString("facet normal 0 0 0\nouter loop\n")
		for _, p := range k {
			fmt.Fprintf(&b, "vertex %g %g %g\n", float64(m.Points[p].X/mm), float64(m.Points[p].Y/mm), float64(m.Points[p].Z/mm))
		}
		b.WriteString("endloop\nendfacet\n")
	}
	b.WriteString("endsolid\n")
	return []byte(b.String())
}
