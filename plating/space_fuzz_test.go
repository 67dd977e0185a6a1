package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// FuzzSpace holds that any block in any tank gives an error or a finite current
// distribution that keeps its charge.
func FuzzSpace(f *testing.F) {
	f.Add(0.1, 0.08, 0.06, 0.03, 0.02, 0.005, 0.02, 0.016, 0.0005, 8.0, 0.2, 2)
	f.Add(0.1, 0.1, 0.1, 0.05, 0.05, 0.01, 0.01, 0.01, 0.0, 8.0, 0.2, 1)
	f.Add(math.NaN(), 0.08, 0.06, 0.03, 0.02, 0.005, 0.02, 0.016, 0.0005, 8.0, 0.2, 2)
	f.Add(0.1, 0.08, 0.06, 1e9, -0.02, 1e-9, 0.02, math.Inf(1), 0.0005, -8.0, 0.0, -2)
	f.Add(1e-6, 1e-6, 1e-6, 3e-7, 5e-7, 1e-7, 1e-7, 1e-7, 1e-8, 1e6, 1e6, 1)
	f.Fuzz(func(t *testing.T, length, width, depth, x, y, bx, by, bz, round, kappa, amps float64, steps int) {
		if steps > 3 {
			return
		}
		m := func(v float64) unit.Length { return unit.Length(v) }
		space, err := NewSpaceField(Space{Length: m(length), Width: m(width), Depth: m(depth), Bodies: []Body{
			{Name: "part", Role: RolePart, Solid: Block{X: m(bx), Y: m(by), Z: m(bz), Round: m(round), Steps: steps}, At: Point{m(x), m(y), m(depth / 2)}},
			{Name: "anode", Role: RoleAnode, Solid: Block{X: m(0.05 * length), Y: m(width / 2), Z: m(depth / 2), Steps: 1}, At: Point{m(0.9 * length), m(width / 2), m(depth / 2)}}}})
		if err != nil {
			return
		}
		d, err := space.Solve(Conditions{Conductivity: Conductivity(kappa), Current: unit.Current(amps), Cathode: nickelLike})
		if err != nil {
			return
		}
		if !isFinite(float64(d.Voltage)) || !isFinite(d.Spread) || !(d.ChargeError < 1e-6) {
			t.Errorf("voltage %v, spread %v, charge error %v", float64(d.Voltage), d.Spread, d.ChargeError)
		}
	})
}
