// Package ownpart holds what the lessons that take a part of the reader's own
// share: the fields for its file and the mesh that the file holds.
package ownpart

import (
	"bytes"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// The units that a file may be in.
const (
	Millimetre = "millimetre"
	Inch       = "inch"
	Centimetre = "centimetre"
	Metre      = "metre"
)

// Part is a part of the reader's own, as a file.
type Part struct {
	File notebook.Attachment
	// Unit is what one stands for in the file.
	Unit string
}

// None returns no part, in millimetres.
func None() Part { return Part{Unit: Millimetre} }

// Given reports whether there is a file.
func (p Part) Given() bool { return len(p.File.Data) > 0 }

// Fields binds the file and its unit to what the reader picks.
func (p *Part) Fields(help string) []notebook.Field {
	return []notebook.Field{
		notebook.File("own", &p.File, notebook.Spec{Label: "STL file", Help: help, Accept: ".stl"}),
		notebook.Choice("own-unit", &p.Unit, notebook.Spec{Label: "One in the file is a", Help: "The format does not say. Most programs write millimetres.", Options: []string{Millimetre, Inch, Centimetre, Metre}}),
	}
}

// one returns the unit as a length.
func (p Part) one() unit.Length {
	switch p.Unit {
	case Inch:
		return 25.4 * unit.Milli * unit.Metre
	case Centimetre:
		return 10 * unit.Milli * unit.Metre
	case Metre:
		return 1 * unit.Metre
	}
	return 1 * unit.Milli * unit.Metre
}

// Mesh returns the part's skin, or an error at the file's field.
func (p Part) Mesh() (plating.Mesh, error) {
	m, err := plating.ReadSTL(bytes.NewReader(p.File.Data), p.one())
	return m, notebook.InField("own", err)
}

// Size returns the sides of the box about a mesh and its lowest corner.
func Size(m plating.Mesh) (size [3]unit.Length, low plating.Point) {
	low, high := m.Points[0], m.Points[0]
	for _, p := range m.Points {
		low = plating.Point{X: min(low.X, p.X), Y: min(low.Y, p.Y), Z: min(low.Z, p.Z)}
		high = plating.Point{X: max(high.X, p.X), Y: max(high.Y, p.Y), Z: max(high.Z, p.Z)}
	}
	return [3]unit.Length{high.X - low.X, high.Y - low.Y, high.Z - low.Z}, low
}
