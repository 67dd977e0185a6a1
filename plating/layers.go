package plating

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// Layer is one metal of a coat of several, innermost first.
type Layer struct {
	Deposit Deposit
	// Thickness is the mean thickness wanted.
	Thickness unit.Length
	// CurrentDensity and Efficiency are those of its bath.
	CurrentDensity CurrentDensity
	Efficiency     float64
}

// Layers returns the coat of each layer on an area, and their total thickness
// and mass. The area is taken as that of the bare part for every layer.
func Layers(area unit.Area, layers ...Layer) (coats []Coat, thickness unit.Length, mass unit.Mass, err error) {
	if len(layers) == 0 {
		return nil, 0, 0, fmt.Errorf("plating: no layers are given")
	}
	for i, l := range layers {
		n := fmt.Sprintf(" of layer %d", i+1)
		if err := firstError(
			l.Deposit.validate(),
			positive("area", float64(area), inSquareCM),
			positive("thickness"+n, float64(l.Thickness), inMicrometre),
			positive("current density"+n, float64(l.CurrentDensity), inAPerDM2),
			fraction("efficiency"+n, l.Efficiency),
		); err != nil {
			return nil, 0, 0, err
		}
		c, err := Coat{Deposit: l.Deposit, Area: area, Thickness: l.Thickness,
			CurrentDensity: l.CurrentDensity, Efficiency: l.Efficiency}.Solve()
		if err != nil {
			return nil, 0, 0, err
		}
		coats = append(coats, c)
		thickness += c.Thickness
		mass += c.Mass
	}
	return coats, thickness, mass, nil
}
