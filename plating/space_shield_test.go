package plating

import (
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
)

func TestShieldAgreesWithPlane(t *testing.T) {
	if testing.Short() {
		t.Skip("a long solve; skipped with -short")
	}
	// A plate, an anode and between them an insulating board, all from floor to
	// surface: a plane section.
	mm := millimetre
	section := Section{Depth: 20 * mm, Outlines: []Outline{
		Box("tank", RoleWall, 0, 0, 80*mm, 60*mm),
		Box("plate", RolePart, 20*mm, 20*mm, 24*mm, 40*mm),
		Box("board", RoleShield, 36*mm, 24*mm, 40*mm, 50*mm),
		Box("anode", RoleAnode, 60*mm, 15*mm, 64*mm, 45*mm)}}
	space := Space{Length: 80 * mm, Width: 60 * mm, Depth: 20 * mm, Bodies: []Body{
		{Name: "plate", Role: RolePart, Solid: Block{X: 4 * mm, Y: 20 * mm, Z: 20 * mm, Steps: 3}, At: Point{22 * mm, 30 * mm, 10 * mm}},
		{Name: "board", Role: RoleShield, Solid: Block{X: 4 * mm, Y: 26 * mm, Z: 20 * mm, Steps: 3}, At: Point{38 * mm, 37 * mm, 10 * mm}},
		{Name: "anode", Role: RoleAnode, Solid: Block{X: 4 * mm, Y: 30 * mm, Z: 20 * mm, Steps: 3}, At: Point{62 * mm, 30 * mm, 10 * mm}}}}
	c := bathConditions
	c.Current = 0.2
	flat := solved(t, section, 240, c)
	d := solvedSpace(t, space, c)
	resistance(t, "behind the board", d, float64(flat.Resistance()), 0.015)
	if !scalar.EqualWithinRel(d.Spread, flat.Spread, 0.03) {
		t.Errorf("spread over the prism = %v, the section's is %v", d.Spread, flat.Spread)
	}
	space.Bodies = append(space.Bodies[:1:1], space.Bodies[2])
	open := solvedSpace(t, space, c)
	if d.Resistance() < 1.05*open.Resistance() {
		t.Errorf("resistance with the board = %v ohm, without %v", float64(d.Resistance()), float64(open.Resistance()))
	}
	if _, ok := d.Skin("board"); ok || len(d.Skins) != 2 {
		t.Errorf("the board has a skin: %d in all", len(d.Skins))
	}
}

func TestShieldInSpaceEvensTheEdge(t *testing.T) {
	// A frame of four strips before the edges of a plate on either side, in an
	// eighth of the tank: two strips.
	mm := millimetre
	plate := Body{Name: "plate", Role: RolePart, Solid: Block{X: 2 * mm, Y: 40 * mm, Z: 40 * mm, Round: 0.6 * mm, Steps: 3, Half: [3]bool{true, true, true}}}
	anode := Body{Name: "anode", Role: RoleAnode, Solid: Block{X: 4 * mm, Y: 60 * mm, Z: 60 * mm, Steps: 2, Half: [3]bool{false, true, true}}, At: Point{X: 60 * mm}}
	tank := Space{Length: 70 * mm, Width: 45 * mm, Depth: 45 * mm, Bodies: []Body{plate, anode}}
	c := bathConditions
	c.Current = 0.3
	bare := solvedSpace(t, tank, c)
	tank.Bodies = append(tank.Bodies,
		Body{Name: "upright strip", Role: RoleShield, Solid: Block{X: 2 * mm, Y: 10 * mm, Z: 60 * mm, Steps: 3, Half: [3]bool{false, false, true}}, At: Point{X: 8 * mm, Y: 20 * mm}},
		Body{Name: "level strip", Role: RoleShield, Solid: Block{X: 2 * mm, Y: 30 * mm, Z: 10 * mm, Steps: 3, Half: [3]bool{false, true, false}}, At: Point{X: 12 * mm, Z: 20 * mm}})
	shielded := solvedSpace(t, tank, c)
	if shielded.Spread > 0.95*bare.Spread {
		t.Errorf("spread with a frame = %v, without %v", shielded.Spread, bare.Spread)
	}
	if shielded.ChargeError > 1e-9 {
		t.Errorf("charge error = %v, want rounding only", shielded.ChargeError)
	}
}
