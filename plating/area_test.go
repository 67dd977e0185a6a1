package plating

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// mm returns an exact dimension.
func mm(v float64) Dimension { return Exactly(unit.Length(v) * millimetre) }

// mmU returns a dimension with a standard uncertainty.
func mmU(v, u float64) Dimension {
	return Dimension{unit.Length(v) * millimetre, unit.Length(u) * millimetre}
}

// at returns a sharp vertex reached by a straight line.
func at(x, r float64) ProfilePoint { return ProfilePoint{X: mm(x), R: mm(r)} }

// arcTo returns a vertex reached by an arc.
func arcTo(x, r, arc float64) ProfilePoint {
	return ProfilePoint{X: mm(x), R: mm(r), Arc: unit.Length(arc) * millimetre}
}

func TestShapeAreas(t *testing.T) {
	// A-A1 to A-A11: closed forms, printed to 0.001 mm2 or six figures; the
	// tolerance is relative.
	rootThree := math.Sqrt(3)
	tests := []struct {
		name  string
		shape Shape
		want  float64 // mm2
		tol   float64
	}{
		{"A-A1 sphere", Sphere{mm(20)}, 1256.637, 1e-6},
		{"A-A1 sphere as half a turn of arc", Turned{Profile: []ProfilePoint{at(-10, 0), arcTo(10, 0, 10)}}, 1256.637, 1e-6},
		{"A-A2 cone frustum", Turned{Profile: []ProfilePoint{at(0, 10), at(15, 6)}}, 780.330, 1e-6},
		{"A-A3 torus", Torus{mm(24), mm(6)}, 1421.223, 1e-6},
		{"A-A3 torus as two arcs", Turned{Profile: []ProfilePoint{at(-3, 12), arcTo(3, 12, 3), arcTo(-3, 12, 3)}}, 1421.223, 1e-6},
		{"A-A4 spherical cap", Turned{Profile: []ProfilePoint{at(0, 0), arcTo(5, math.Sqrt(20*20-15*15), 20)}}, 628.319, 1e-6},
		{"A-A5 rod with round ends", Turned{Profile: []ProfilePoint{at(0, 0), arcTo(5, 5, 5), at(35, 5), arcTo(40, 0, 5)}}, 1256.637, 1e-6},
		{"A-A6 hollow quarter round", Turned{Profile: []ProfilePoint{at(0, 13), arcTo(3, 10, -3)}}, 328.366, 2e-6},
		{"A-A7 ogee", Turned{Profile: []ProfilePoint{at(0, 8), arcTo(3*rootThree, 11, -6), arcTo(6*rootThree, 14, 6)}}, 868.525, 1e-6},
		{"A-A8 cosine profile as 4000 chords", cosineProfile(4000), 1191.363, 1e-6},
		{"A-A9 hexagon sides", Hexagon{mm(17), mm(30), 2}, 1766.692, 1e-6},
		{"A-A9 hexagon with ends", Hexagon{mm(17), mm(30), 0}, 1766.692 + 500.563, 1e-6},
		{"A-A10 M8 by rings, 1 mm", Thread{mm(8), mm(1.25), mm(1)}, 37.121, 5e-4},
		{"A-A10 M12 by rings, 1 mm", Thread{mm(12), mm(1.75), mm(1)}, 56.054, 5e-4},
		{"plate 44 x 19 x 1.6", Plate{mm(44), mm(19), mm(1.6)}, 1873.6, 1e-9},
		{"sleeve, bore at 0.2", Tube{mm(9), mm(6), mm(28), 0.2, 0}, 967.9, 1e-4},
		{"rod with both ends", Rod{mm(10), mm(40), 0}, math.Pi*400 + math.Pi*50, 1e-9},
		{"rod with no ends", Rod{mm(10), mm(40), 2}, math.Pi * 400, 1e-9},
		{"spring", Spring{mm(1), mm(8), mm(2), 10}, math.Pi*10*math.Hypot(math.Pi*8, 2) + math.Pi/2, 1e-9},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s, err := test.shape.Surface()
			if err != nil {
				t.Fatal(err)
			}
			if got := float64(s.Area) * 1e6; !scalar.EqualWithinRel(got, test.want, test.tol) {
				t.Errorf("area = %.6f mm2, want %v", got, test.want)
			}
			if s.U != 0 || len(s.Shares) != 0 {
				t.Errorf("exact dimensions gave uncertainty %v m2", float64(s.U))
			}
		})
	}
}

func TestThreadFactors(t *testing.T) {
	// A-A10: with the helix 37.153 mm2/mm for M8 x 1.25; factors on pi d
	// 1.4770 and on pi d2 1.6438; M12 x 1.75 1.4869 on pi d. Computed, 0.05 %.
	m8 := Thread{mm(8), mm(1.25), mm(1)}
	helix, err := m8.HelixSurface()
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(helix.Area) * 1e6; !scalar.EqualWithinRel(got, 37.153, 5e-4) {
		t.Errorf("M8 with helix = %v mm2/mm, want 37.153", got)
	}
	rings, err := m8.Surface()
	if err != nil {
		t.Fatal(err)
	}
	if !(helix.Area > rings.Area) {
		t.Errorf("helix %v m2 is not above rings %v m2", float64(helix.Area), float64(rings.Area))
	}
	pitchDiameter := 8 - 0.75*math.Sqrt(3)/2*1.25
	if got := float64(rings.Area) * 1e6 / (math.Pi * 8); !scalar.EqualWithinRel(got, 1.4770, 5e-4) {
		t.Errorf("factor on d = %v, want 1.4770", got)
	}
	if got := float64(rings.Area) * 1e6 / (math.Pi * pitchDiameter); !scalar.EqualWithinRel(got, 1.6438, 5e-4) {
		t.Errorf("factor on d2 = %v, want 1.6438", got)
	}
	m12, err := Thread{mm(12), mm(1.75), mm(10)}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(m12.Area) * 1e6 / (math.Pi * 120); !scalar.EqualWithinRel(got, 1.4869, 5e-4) {
		t.Errorf("M12 factor = %v, want 1.4869", got)
	}
}

func TestHelixAgainstQuadrature(t *testing.T) {
	// The flank integral summed by midpoints, good to about 1e-10.
	d, p := 8e-3, 1.25e-3
	minor := d - 2*isoHeight*p
	slope := math.Sqrt(3) / 2
	sum := 0.0
	const n = 20000
	for i := range n {
		r := minor/2 + (d-minor)/2*(float64(i)+0.5)/n
		sum += math.Hypot(r, p/(2*math.Pi)*slope) * (d - minor) / 2 / n / slope
	}
	want := math.Pi*p*(d/8+minor/4) + 2*2*math.Pi*sum
	if got := helixPerPitch(d, p); !scalar.EqualWithinRel(got, want, 1e-8) {
		t.Errorf("helix of a pitch = %v m2, want %v", got, want)
	}
}

func TestKnurl(t *testing.T) {
	// A-A11: exact for ideal forms.
	for _, test := range []struct{ degrees, want float64 }{{90, 1.41421}, {60, 2.0}} {
		low, high, err := Knurl{Degrees: test.degrees}.Bounds()
		if err != nil {
			t.Fatal(err)
		}
		if low != 1 || !scalar.EqualWithinAbs(high, test.want, 5e-6) {
			t.Errorf("%v degrees: bounds %v to %v, want 1 to %v", test.degrees, low, high, test.want)
		}
	}
	plain, err := Area("grip", 10*SquareCentimetre, 0)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Knurl{plain, 60}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	// Between 10 and 20 cm2, anywhere: 15 with 10/sqrt(12).
	if got, u := float64(s.Area/SquareCentimetre), float64(s.U/SquareCentimetre); !scalar.EqualWithinRel(got, 15, 1e-9) || !scalar.EqualWithinRel(u, 10/math.Sqrt(12), 1e-9) {
		t.Errorf("knurl = %v +- %v cm2, want 15 +- 2.887", got, u)
	}
}

func TestAreaUncertainty(t *testing.T) {
	t.Run("plate by hand", func(t *testing.T) {
		s, err := Plate{mmU(44, 0.05), mmU(19, 0.05), mmU(1.6, 0.02)}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		// Slopes 2(W+T), 2(L+T), 2(L+W).
		want := math.Sqrt(math.Pow(2*20.6*0.05, 2) + math.Pow(2*45.6*0.05, 2) + math.Pow(2*63*0.02, 2))
		if got := float64(s.U) * 1e6; !scalar.EqualWithinRel(got, want, 1e-6) {
			t.Errorf("u = %v mm2, want %v", got, want)
		}
	})
	t.Run("turned part against random draws", func(t *testing.T) {
		part := func(d func(v, u float64) Dimension) Turned {
			return Turned{Profile: []ProfilePoint{
				{X: d(0, 0.05), R: d(4, 0.02)},
				{X: d(6, 0.05), R: d(6, 0.02), Arc: 7 * millimetre},
				{X: d(20, 0.05), R: d(6, 0.02)},
				{X: d(25, 0.05), R: d(3, 0.02)},
			}}
		}
		s, err := part(mmU).Surface()
		if err != nil {
			t.Fatal(err)
		}
		random := rand.New(rand.NewPCG(1, 2))
		const n = 20000
		sum, squares := 0.0, 0.0
		for range n {
			drawn, err := part(func(v, u float64) Dimension { return mm(v + u*random.NormFloat64()) }).Surface()
			if err != nil {
				t.Fatal(err)
			}
			off := float64(drawn.Area - s.Area)
			sum += off
			squares += off * off
		}
		// The scatter of a standard deviation from n draws is 1/sqrt(2n), 0.5 %.
		got := math.Sqrt(squares/n - sum*sum/n/n)
		if !scalar.EqualWithinRel(float64(s.U), got, 0.02) {
			t.Errorf("u = %v m2, draws give %v", float64(s.U), got)
		}
	})
	t.Run("a ball drawn as half a turn of arc", func(t *testing.T) {
		// The chord cannot grow past the diameter and the tips cannot pass the
		// axis: the uncertainty is that of the move that can happen.
		s, err := Turned{Profile: []ProfilePoint{{X: mmU(-10, 0.1), R: mmU(0, 0.1)}, arcTo(10, 0, 10)}}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		if u := float64(s.U) * 1e6; !(u > 1 && u < 250) {
			t.Errorf("u = %v mm2, want one above 1 (a tenth of a millimetre matters) and below a fifth of the area", u)
		}
	})
	t.Run("shares add as squares", func(t *testing.T) {
		s, err := Rack("rack", RackItem{"sleeves", Tube{mmU(9, 0.02), mmU(6, 0.05), mmU(28, 0.05), 0.2, 0.1}, 6},
			RackItem{"hook", Rod{mmU(1, 0.02), mmU(60, 2), 2}, 1})
		if err != nil {
			t.Fatal(err)
		}
		squares := 0.0
		for _, share := range s.Shares {
			squares += share.U * share.U
		}
		if !scalar.EqualWithinRel(math.Sqrt(squares), float64(s.U), 1e-12) {
			t.Errorf("shares give %v, u is %v m2", math.Sqrt(squares), float64(s.U))
		}
		one, err := Tube{mmU(9, 0.02), mmU(6, 0.05), mmU(28, 0.05), 0.2, 0.1}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Shares[0].U; !scalar.EqualWithinRel(got, 6*float64(one.U), 1e-12) {
			t.Errorf("six sleeves contribute %v, want six times one's %v", got, float64(one.U))
		}
	})
}

func TestFoilWrap(t *testing.T) {
	piece, err := Plate{mmU(50, 0.2), mmU(50, 0.2), mm(0.02)}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	piece = Surface{Name: "square", Area: 25 * SquareCentimetre, U: piece.U / 2}
	s, err := FoilWrap(piece, 0.50*gram, 1.10*gram, 0.005*gram, 0.03)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(s.Area / SquareCentimetre); !scalar.EqualWithinRel(got, 55, 1e-12) {
		t.Errorf("area = %v cm2, want 55", got)
	}
	want := 55 * math.Sqrt(math.Pow(float64(piece.U/piece.Area), 2)+0.01*0.01+math.Pow(0.005/1.1, 2)+0.03*0.03)
	if got := float64(s.U / SquareCentimetre); !scalar.EqualWithinRel(got, want, 1e-9) {
		t.Errorf("u = %v cm2, want %v", got, want)
	}
}

func TestShapeErrors(t *testing.T) {
	nan := Exactly(unit.Length(math.NaN()))
	tests := []struct {
		name    string
		shape   Shape
		wantErr string
	}{
		{"plate", Plate{mm(44), nan, mm(1.6)}, "width of the plate is NaN mm"},
		{"plate zero value", Plate{}, "length of the plate is 0 mm"},
		{"negative uncertainty", Plate{mmU(44, -1), mm(1), mm(1)}, "standard uncertainty of length"},
		{"uncertain beyond first order", Rod{mmU(1, 0.5), mm(1), 0}, "at most 30 %"},
		{"open ends", Rod{mm(1), mm(1), 3}, "0, 1 or 2"},
		{"hexagon ends", Hexagon{mm(1), mm(1), -1}, "0, 1 or 2"},
		{"tube", Tube{mm(6), mm(9), mm(28), 0, 0}, "below the outside, 6 mm"},
		{"bore in percent", Tube{mm(9), mm(6), mm(28), 20, 0}, "bore share of the tube is 20"},
		{"closed spring", Spring{mm(1), mm(8), mm(1), 5}, "closed coils touch"},
		{"spring turns", Spring{mm(1), mm(8), mm(2), math.Inf(1)}, "turns"},
		{"coarse thread", Thread{mm(1), mm(2), mm(5)}, "too coarse"},
		{"thread zero value", Thread{}, "diameter of the thread is 0 mm"},
		{"torus without a hole", Torus{mm(5), mm(6)}, "below the mean diameter"},
		{"knurl", Knurl{Surface{Area: 1}, 200}, "below 180"},
		{"knurl on nothing", Knurl{Surface{}, 90}, "plain area"},
		{"one point", Turned{Profile: []ProfilePoint{at(0, 1)}}, "2 or more"},
		{"negative radius", Turned{Profile: []ProfilePoint{at(0, 1), at(5, -1)}}, "radius of point 2 of the turned part is -1 mm"},
		{"place", Turned{Profile: []ProfilePoint{at(0, 1), at(math.NaN(), 1)}}, "place of point 2"},
		{"short arc", Turned{Profile: []ProfilePoint{at(0, 5), arcTo(10, 5, 2)}}, "too small to span its chord of 10 mm"},
		{"arc through the axis", Turned{Profile: []ProfilePoint{at(0, 1), arcTo(10, 1, -5.1)}}, "cuts through the axis"},
		{"first arc", Turned{Profile: []ProfilePoint{arcTo(0, 1, 2), at(1, 1)}}, "no point before it"},
		{"last fillet", Turned{Profile: []ProfilePoint{at(0, 1), {X: mm(2), R: mm(1), Fillet: 1 * millimetre}}}, "not between two pieces"},
		{"large fillet", Turned{Profile: []ProfilePoint{at(0, 5), {X: mm(2), R: mm(5), Fillet: 9 * millimetre}, at(2, 0)}}, "too large for its pieces"},
		{"fillet on an arc", Turned{Profile: []ProfilePoint{at(0, 5), {X: mm(2), R: mm(5), Fillet: 1 * millimetre}, arcTo(4, 5, 3)}}, "two straight pieces"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s, err := test.shape.Surface()
			if err == nil || !strings.Contains(err.Error(), test.wantErr) {
				t.Errorf("surface %v m2, error = %v, want one with %q", float64(s.Area), err, test.wantErr)
			}
			if err != nil && !strings.HasPrefix(err.Error(), "plating: ") {
				t.Errorf("error %q does not name the package", err)
			}
		})
	}
	if _, err := Rack("empty"); err == nil {
		t.Error("empty rack: no error")
	}
	if _, err := Rack("none", RackItem{"x", Sphere{mm(1)}, 0}); err == nil {
		t.Error("a count of nought: no error")
	}
	if _, err := Rack("nil", RackItem{Name: "x", Count: 1}); err == nil {
		t.Error("an item without a shape: no error")
	}
	if _, err := Area("typed", 0, 0); err == nil {
		t.Error("a typed area of nought: no error")
	}
	if _, err := FoilWrap(Surface{Area: 1}, 0, 1, 0, 0); err == nil {
		t.Error("a foil piece without mass: no error")
	}
}
