package plating_test

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/plating"
)

// plateInTank is a 44 mm plate, 1.6 mm thick, between two anodes in a small
// tank, seen from above.
func plateInTank() plating.Section {
	plate := plating.Box("plate", plating.RolePart, -0.8*millimetre, -22*millimetre, 0.8*millimetre, 22*millimetre)
	for i := range plate.Corners {
		plate.Corners[i].Round = 0.3 * millimetre
	}
	return plating.Section{Depth: 19 * millimetre, Outlines: []plating.Outline{
		plating.Box("tank", plating.RoleWall, -100*millimetre, -75*millimetre, 100*millimetre, 75*millimetre),
		plating.Box("left anode", plating.RoleAnode, -90*millimetre, -30*millimetre, -85*millimetre, 30*millimetre),
		plating.Box("right anode", plating.RoleAnode, 85*millimetre, -30*millimetre, 90*millimetre, 30*millimetre),
		plate,
	}}
}

// bathAt is a bath of 8 S/m with a straight-line cathode.
func bathAt(current unit.Current) plating.Conditions {
	return plating.Conditions{Conductivity: 8 * plating.SiemensPerMetre, Current: current,
		Cathode: plating.Kinetics{Resistance: 4e-4 * plating.OhmSquareMetre}}
}

func ExampleNewField() {
	field, err := plating.NewField(plateInTank(), 300)
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := field.Solve(bathAt(0.5 * unit.Ampere))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("cell %.2f V, of which the bath takes %.2f V\n", float64(d.Voltage), float64(d.Ohmic))
	fmt.Printf("mean %.1f, thinnest %.1f, thickest %.1f A/dm2\n", d.Mean/plating.AmperePerSquareDecimetre,
		d.Thinnest.CurrentDensity/plating.AmperePerSquareDecimetre, d.Thickest.CurrentDensity/plating.AmperePerSquareDecimetre)
	fmt.Printf("settled to 2 %%: %v\n", d.Change.Thickest < 0.02 && d.Change.Thinnest < 0.02)
	// Output:
	// cell 1.60 V, of which the bath takes 1.47 V
	// mean 2.9, thinnest 2.2, thickest 6.0 A/dm2
	// settled to 2 %: true
}

func ExampleDistribution_TimeFor() {
	field, err := plating.NewField(plateInTank(), 200)
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := field.Solve(bathAt(0.5 * unit.Ampere))
	if err != nil {
		fmt.Println(err)
		return
	}
	nickel, efficiency := plating.Nickel().Deposit(), plating.ConstantEfficiency(0.95)
	t, err := d.TimeFor(10*unit.Micro*unit.Metre, nickel, efficiency)
	if err != nil {
		fmt.Println(err)
		return
	}
	coat, err := d.Grow(nickel, efficiency, t)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("10 um at the thinnest place takes %.0f min; the edge then has %.0f um\n",
		float64(t)/60, float64(coat.Thickest.Thickness/(unit.Micro*unit.Metre)))
	// Output:
	// 10 um at the thinnest place takes 23 min; the edge then has 27 um
}

func ExampleField_Even() {
	field, err := plating.NewField(plateInTank(), 200)
	if err != nil {
		fmt.Println(err)
		return
	}
	askew, err := field.Moved(plating.Move{Outline: "left anode", X: 75 * millimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	got, err := askew.Even(bathAt(0.5*unit.Ampere), []plating.Reach{{Outline: "left anode", FromX: -75 * millimetre, ToX: 0}}, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("spread %.2f before, %.2f after\n", got.Before.Spread, got.After.Spread)
	// Output:
	// spread 0.47 before, 0.33 after
}

func ExamplePanel_Read() {
	panel := plating.Panel{Current: 2 * unit.Ampere}
	got, err := panel.Read(plating.PanelReading{From: 22 * millimetre, To: 78 * millimetre, U: 1 * millimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("bright from %.1f(%.1f) to %.1f(%.1f) A/dm2\n",
		got.Low/plating.AmperePerSquareDecimetre, got.LowU/plating.AmperePerSquareDecimetre,
		got.High/plating.AmperePerSquareDecimetre, got.HighU/plating.AmperePerSquareDecimetre)
	// Output:
	// bright from 0.9(0.1) to 6.6(0.2) A/dm2
}

func ExampleKinetics_Overpotential() {
	k := plating.Kinetics{Exchange: 0.5 * plating.AmperePerSquareDecimetre, Cathodic: 1, Anodic: 1, Temperature: plating.Celsius(55)}
	eta, err := k.Overpotential(1 * plating.AmperePerSquareDecimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f mV\n", 1e3*float64(eta))
	// Output:
	// 24.923 mV
}

// A rod before an anode: what its side toward the anode gets and what its back
// does, and what hanging it further off would change.
func ExampleField_Sensitivity() {
	field, err := plating.NewField(plating.Section{Depth: 40 * millimetre, Outlines: []plating.Outline{
		plating.Box("tank", plating.RoleWall, 0, 0, 200*millimetre, 120*millimetre),
		plating.Box("anode", plating.RoleAnode, 10*millimetre, 30*millimetre, 14*millimetre, 90*millimetre),
		plating.Circle("rod", plating.RolePart, 120*millimetre, 60*millimetre, 8*millimetre),
	}}, 160)
	if err != nil {
		fmt.Println(err)
		return
	}
	bath := bathAt(0.5 * unit.Ampere)
	d, err := field.Solve(bath)
	if err != nil {
		fmt.Println(err)
		return
	}
	rod, ok := d.Profile("rod")
	if !ok {
		fmt.Println("no rod")
		return
	}
	// The outline runs from the point away from the anode, against the clock.
	quarter := 4 * millimetre * unit.Length(math.Pi)
	front, back := rod.MeanBetween(quarter, 3*quarter), 2*d.Mean-rod.MeanBetween(quarter, 3*quarter)
	fmt.Printf("%d outlines, at least 160 elements: %v\n", len(field.Section().Outlines), field.Elements() >= 160)
	fmt.Printf("toward the anode %.2f of the mean, behind %.2f; %.1f ohm\n", front/d.Mean, back/d.Mean, float64(d.Resistance()))
	along, _, err := field.Sensitivity(bath, "rod", 2*millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("10 mm further off: the thickest place has %+.1f %% of the mean\n", 100*along.Thickest*0.010)
	// Output:
	// 3 outlines, at least 160 elements: true
	// toward the anode 1.19 of the mean, behind 0.81; 3.4 ohm
	// 10 mm further off: the thickest place has -0.1 % of the mean
}

// The ways of the current to the plate, for a drawing.
func ExampleField_Lines() {
	field, err := plating.NewField(plateInTank(), 160)
	if err != nil {
		fmt.Println(err)
		return
	}
	bath := bathAt(0.5 * unit.Ampere)
	d, err := field.Solve(bath)
	if err != nil {
		fmt.Println(err)
		return
	}
	lines, err := field.Lines(d, bath.Conductivity, 8)
	if err != nil {
		fmt.Println(err)
		return
	}
	last := lines[0][len(lines[0])-1]
	fmt.Printf("%d lines, each of an eighth of the current; the first ends at x = %.0f mm\n", len(lines), math.Abs(float64(last.X/millimetre)))
	// Output: 8 lines, each of an eighth of the current; the first ends at x = 85 mm
}
