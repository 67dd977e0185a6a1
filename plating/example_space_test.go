package plating_test

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/plating"
)

func ExampleNewSpaceField() {
	// Half a plate against the mirror that a tank's wall is, and a rod anode.
	field, err := plating.NewSpaceField(plating.Space{
		Length: 100 * millimetre, Width: 60 * millimetre, Depth: 80 * millimetre,
		Bodies: []plating.Body{
			{Name: "plate", Role: plating.RolePart, At: plating.Point{X: 0, Y: 30 * millimetre, Z: 40 * millimetre},
				Solid: plating.Block{X: 3 * millimetre, Y: 20 * millimetre, Z: 30 * millimetre, Round: 1 * millimetre, Steps: 2, Half: [3]bool{true, false, false}}},
			{Name: "anode", Role: plating.RoleAnode, At: plating.Point{X: 80 * millimetre, Y: 30 * millimetre, Z: 10 * millimetre},
				Solid: plating.UprightRod("anode", 12*millimetre, 60*millimetre, 4)},
		}})
	if err != nil {
		fmt.Println(err)
		return
	}
	got, err := field.Solve(plating.Conditions{Conductivity: 8 * plating.SiemensPerMetre, Current: 0.2 * unit.Ampere,
		Cathode: plating.Kinetics{Exchange: 0.01 * plating.AmperePerSquareDecimetre, Cathodic: 0.5, Anodic: 0.5, Temperature: plating.Celsius(55)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	_, _, burnt, err := got.Over(5 * plating.AmperePerSquareDecimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean %.1f A/dm2, thickest %.1f and thinnest %.1f of it\n",
		got.Mean/plating.AmperePerSquareDecimetre, got.Thickest.CurrentDensity/got.Mean, got.Thinnest.CurrentDensity/got.Mean)
	fmt.Printf("over 5 A/dm2 on %.0f %% of the area\n", 100*burnt)
	// Output:
	// mean 2.8 A/dm2, thickest 2.5 and thinnest 0.7 of it
	// over 5 A/dm2 on 4 % of the area
}

// A ball hung twice: what each gets, and that the nearer one gets more.
func ExampleSpaceDistribution_Skin() {
	ball, err := plating.Ball("ball", 16*millimetre, 6).Mesh(1)
	if err != nil {
		fmt.Println(err)
		return
	}
	field, err := plating.NewSpaceField(plating.Space{Length: 200 * millimetre, Width: 100 * millimetre, Depth: 100 * millimetre,
		Bodies: []plating.Body{
			{Name: "near", Role: plating.RolePart, At: plating.Point{X: 60 * millimetre, Y: 50 * millimetre, Z: 50 * millimetre}, Solid: ball},
			{Name: "far", Role: plating.RolePart, At: plating.Point{X: 60 * millimetre, Y: 50 * millimetre, Z: 50 * millimetre},
				Solid: ball.Shifted(plating.Point{X: 80 * millimetre})},
			{Name: "anode", Role: plating.RoleAnode, At: plating.Point{X: 20 * millimetre, Y: 50 * millimetre, Z: 10 * millimetre},
				Solid: plating.UprightRod("anode", 12*millimetre, 70*millimetre, 4)},
		}})
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := field.Solve(bathAt(0.5 * unit.Ampere))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, name := range []string{"near", "far"} {
		skin, ok := d.Skin(name)
		fmt.Printf("%s: %.1f A/dm2 %v\n", name, skin.Mean/plating.AmperePerSquareDecimetre, ok)
	}
	fmt.Println("a mesh:", field.Triangles() > 100, "and a resistance:", d.Resistance() > 0)
	// Output:
	// near: 4.6 A/dm2 true
	// far: 2.8 A/dm2 true
	// a mesh: true and a resistance: true
}
