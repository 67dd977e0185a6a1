package plating

import "testing"

// benchmarkSolve measures a section from its outlines to the distribution, with
// the second mesh that judges the first.
func benchmarkSolve(b *testing.B, section Section, elements int, c Conditions) {
	b.ReportAllocs()
	for b.Loop() {
		f, err := NewField(section, elements)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := f.Solve(c); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPrimaryDisc(b *testing.B) {
	benchmarkSolve(b, disc(10*millimetre), 40, oneAmpere)
}

func BenchmarkPlane400(b *testing.B) { benchmarkSolve(b, hangingPlate(0.01), 400, bathConditions) }

func BenchmarkPlane2000(b *testing.B) { benchmarkSolve(b, hangingPlate(0.01), 2000, bathConditions) }

// ringTank is a turned part in a round tank with a ring anode.
func ringTank() Section {
	return Section{Axisymmetric: true, Outlines: []Outline{
		openLine("tank", RoleWall, 0, 0, .08, 0, .08, .15, 0, .15),
		openLine("part", RolePart, 0, .05, .01, .05, .01, .07, .004, .08, .004, .1, 0, .1),
		Box("anode", RoleAnode, .065, .02, .07, .13)}}
}

func BenchmarkRings400(b *testing.B) {
	c := bathConditions
	c.Current = 0.5
	benchmarkSolve(b, ringTank(), 400, c)
}

func BenchmarkRings2000(b *testing.B) {
	c := bathConditions
	c.Current = 0.5
	benchmarkSolve(b, ringTank(), 2000, c)
}

func BenchmarkEven40(b *testing.B) {
	f, err := NewField(hangingPlate(0.01), 400)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		room := 20 * millimetre
		if _, err := f.Even(bathConditions, []Reach{
			{Outline: "left", FromX: -5 * millimetre, ToX: room, FromY: -room, ToY: room},
			{Outline: "right", FromX: -room, ToX: 5 * millimetre, FromY: -room, ToY: room}}, 40); err != nil {
			b.Fatal(err)
		}
	}
}
