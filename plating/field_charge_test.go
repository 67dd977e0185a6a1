package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"
)

func TestChargeIsKept(t *testing.T) {
	d := solved(t, hangingPlate(0.01), 240, bathConditions)
	sum := 0.0
	for _, p := range d.Profiles {
		sum += float64(p.Current)
	}
	// The balance is one of the equations: rounding only.
	if math.Abs(sum) > 2e-9 || !scalar.EqualWithinRel(float64(d.Current), 2, 1e-9) {
		t.Errorf("currents sum to %v A, cathode takes %v, want 0 and 2", sum, float64(d.Current))
	}
	// What the mesh itself loses is of the order of its error.
	if !(d.ChargeError > 0) || d.ChargeError > 0.01 {
		t.Errorf("charge error = %v, want above 0 and below 0.01", d.ChargeError)
	}
	if got := d.Ohmic + d.Cathode + d.Anode + d.Rest; !scalar.EqualWithinRel(float64(got), float64(d.Voltage), 1e-12) {
		t.Errorf("shares of the voltage sum to %v, want %v", float64(got), float64(d.Voltage))
	}
	if d.Residual > largestResidual || d.Steps == 0 {
		t.Errorf("residual %v after %d steps, want below %v after some", d.Residual, d.Steps, largestResidual)
	}
}

// potentialAt returns the potential in the bath of an unbounded plane section,
// but for a constant, from the layers of charge and dipoles on its electrodes.
func (s *system) potentialAt(x r2.Vec, potential, gradient []float64) float64 {
	k, sum := kernel{}, 0.0
	for e, i := range s.electrodes {
		v := k.pair(x, &s.elements[i])
		sum += v.g*gradient[e] - v.h*potential[e]
	}
	return sum
}

func TestFluxThroughTheBath(t *testing.T) {
	// The current that crosses the bath is found again from the potential away
	// from all electrodes. About a body the mean of the potential over a circle
	// grows as I ln(r)/(2 pi kappa L) (Gauss), so two circles tell the current:
	// an integral that no equation of the solver has in it.
	s := Section{Depth: 1 * unit.Metre, Unbounded: true, Outlines: []Outline{Box("part", RolePart, -22, -2, -18, 2), Box("anode", RoleAnode, 17, -5, 21, 3)}}
	f, err := NewField(s, 120)
	if err != nil {
		t.Fatal(err)
	}
	d, err := f.Solve(oneAmpere)
	if err != nil {
		t.Fatal(err)
	}
	fine := f.fine
	var potential, gradient []float64
	for e, i := range fine.electrodes {
		v := 0.0
		if fine.roles[e] == RoleAnode {
			v = float64(d.Voltage)
		}
		potential = append(potential, v)
		o := fine.section.Outlines[fine.elements[i].edge.outline].Name
		p, _ := d.Profile(o)
		for _, sample := range p.Samples {
			if float64(sample.X) == fine.elements[i].mid.X && float64(sample.Y) == fine.elements[i].mid.Y {
				gradient = append(gradient, -float64(sample.CurrentDensity)/8)
			}
		}
	}
	if len(gradient) != len(potential) {
		t.Fatalf("%d gradients for %d potentials", len(gradient), len(potential))
	}
	mean := func(r float64) float64 {
		const n = 400 // the rule of even steps on a circle converges faster than any power
		sum := 0.0
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / n)
			sum += fine.potentialAt(r2.Vec{X: -20 + r*cos, Y: r * sin}, potential, gradient)
		}
		return sum / n
	}
	flux := 2 * math.Pi * 8 * (mean(16) - mean(8)) / math.Log(2)
	if !scalar.EqualWithinRel(flux, 1, 1e-9) {
		t.Errorf("the bath carries %.12f A to the part, the supply 1 A", flux)
	}
	if d.ChargeError != 0 {
		t.Errorf("charge error on an unbounded section = %v, want none measured", d.ChargeError)
	}
}

func TestFluxThroughSpace(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// The same in three dimensions: over spheres the mean goes as
	// -I/(4 pi kappa r).
	f, err := NewSpaceField(Space{Unbounded: true, Bodies: []Body{
		{Name: "part", Role: RolePart, Solid: Block{X: 1, Y: 2, Z: 1.5, Steps: 3}, At: Point{X: -5}},
		{Name: "anode", Role: RoleAnode, Solid: Block{X: 2, Y: 1, Z: 2, Steps: 2}, At: Point{X: 6, Y: 1}}}})
	if err != nil {
		t.Fatal(err)
	}
	c := oneAmpere
	c.Cathode = nickelLike
	d, err := f.Solve(c)
	if err != nil {
		t.Fatal(err)
	}
	var potential, gradient []float64
	for _, skin := range d.Skins {
		for _, facet := range skin.Facets {
			v := float64(facet.Overpotential)
			if skin.Role == RoleAnode {
				v += float64(d.Voltage)
			}
			potential = append(potential, v)
			gradient = append(gradient, -float64(facet.CurrentDensity)/8)
		}
	}
	at := func(x r3.Vec) float64 {
		sum := 0.0
		for e := range f.fine.facets {
			g, h := f.fine.facets[e].exact(x)
			sum += g*gradient[e] - h*potential[e]
		}
		return sum / (4 * math.Pi)
	}
	mean := func(r float64) float64 {
		const n = 40
		nodes, weights := make([]float64, n), make([]float64, n)
		quad.Legendre{}.FixedLocations(nodes, weights, -1, 1)
		sum := 0.0
		for i, z := range nodes {
			for k := range 2 * n {
				sin, cos := math.Sincos(math.Pi * float64(k) / n)
				ring := math.Sqrt(1 - z*z)
				sum += weights[i] / (4 * n) * at(r3.Vec{X: -5 + r*ring*cos, Y: r * ring * sin, Z: r * z})
			}
		}
		return sum
	}
	flux := 4 * math.Pi * 8 * (mean(5) - mean(3)) / (1.0/3 - 1.0/5)
	if !scalar.EqualWithinRel(flux, 1, 1e-9) {
		t.Errorf("the bath carries %.12f A to the part, the supply 1 A", flux)
	}
	if d.ChargeError > 1e-9 {
		t.Errorf("charge error = %v, want below 1e-9", d.ChargeError)
	}
}
