package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// cosineProfile is r = 9 + 3 cos(pi x/20) mm for x from 0 to 20 mm.
func cosineProfile(n int) Turned {
	var p []ProfilePoint
	for i := range n + 1 {
		x := 20 * float64(i) / float64(n)
		p = append(p, at(x, 9+3*math.Cos(math.Pi*x/20)))
	}
	return Turned{Name: "cosine", Profile: p}
}

func TestFilletIsItsArc(t *testing.T) {
	// A shoulder from radius 20 down to a shaft of radius 10 with a 3 mm
	// fillet is a face, the hollow quarter round of A-A6 and a cylinder.
	filleted := Turned{Profile: []ProfilePoint{at(0, 20), {X: mm(0), R: mm(10), Fillet: 3 * millimetre}, at(50, 10)}}
	s, err := filleted.Surface()
	if err != nil {
		t.Fatal(err)
	}
	want := math.Pi*(20*20-13*13) + 328.366 + 2*math.Pi*10*47
	if got := float64(s.Area) * 1e6; !scalar.EqualWithinRel(got, want, 1e-6) {
		t.Errorf("area = %v mm2, want %v", got, want)
	}
	// The outward corner of a rod end rounded by its own radius is half a ball.
	ball := Turned{Profile: []ProfilePoint{at(0, 0), {X: mm(0), R: mm(5), Fillet: 5 * millimetre}, at(5, 5)}}
	s, err = ball.Surface()
	if err != nil {
		t.Fatal(err)
	}
	if got, want := float64(s.Area)*1e6, 2*math.Pi*25; !scalar.EqualWithinRel(got, want, 1e-9) {
		t.Errorf("rounded end = %v mm2, want half a ball, %v", got, want)
	}
}

func TestTurnedLaws(t *testing.T) {
	profile := []ProfilePoint{at(0, 6), arcTo(4, 8, 5), at(20, 9), arcTo(26, 9, -7), {X: mm(40), R: mm(9), Fillet: 2 * millimetre}, at(40, 4)}
	base, err := Turned{Profile: profile}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	t.Run("mirror", func(t *testing.T) {
		var mirrored []ProfilePoint
		for i := len(profile) - 1; i >= 0; i-- {
			v := profile[i]
			v.X.Value = -v.X.Value
			v.Arc = 0
			if i+1 < len(profile) {
				v.Arc = profile[i+1].Arc
			}
			mirrored = append(mirrored, v)
		}
		s, err := Turned{Profile: mirrored}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(s.Area), float64(base.Area), 1e-12) {
			t.Errorf("mirrored area %v, want %v m2", float64(s.Area), float64(base.Area))
		}
	})
	t.Run("scale", func(t *testing.T) {
		var big []ProfilePoint
		for _, v := range profile {
			v.X.Value, v.R.Value, v.Arc, v.Fillet = 3*v.X.Value, 3*v.R.Value, 3*v.Arc, 3*v.Fillet
			big = append(big, v)
		}
		s, err := Turned{Profile: big}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(s.Area), 9*float64(base.Area), 1e-12) {
			t.Errorf("three times as large: area %v, want %v m2", float64(s.Area), 9*float64(base.Area))
		}
	})
	t.Run("shift along the axis", func(t *testing.T) {
		var moved []ProfilePoint
		for _, v := range profile {
			v.X.Value += 100 * millimetre
			moved = append(moved, v)
		}
		s, err := Turned{Profile: moved}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(s.Area), float64(base.Area), 1e-9) {
			t.Errorf("moved area %v, want %v m2", float64(s.Area), float64(base.Area))
		}
	})
	t.Run("an arc is the limit of its chords", func(t *testing.T) {
		// Hollow quarter of radius 3 about (3, 13), as 2000 chords.
		var chords []ProfilePoint
		for i := range 2001 {
			a := math.Pi + math.Pi/2*float64(i)/2000
			chords = append(chords, at(3+3*math.Cos(a), 13+3*math.Sin(a)))
		}
		s, err := Turned{Profile: chords}.Surface()
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(s.Area) * 1e6; !scalar.EqualWithinRel(got, 328.366, 3e-6) {
			t.Errorf("chords = %v mm2, want 328.366", got)
		}
	})
}

func TestTrace(t *testing.T) {
	// The traced chords sweep the same area as the profile, to the second order
	// of their length.
	part := Turned{Profile: []ProfilePoint{at(0, 0), at(0, 4), arcTo(4, 5, 5), at(8, 5), arcTo(10, 3, -2), {X: mm(20), R: mm(3), Fillet: 1 * millimetre}, at(20, 0)}}
	want, err := part.Surface()
	if err != nil {
		t.Fatal(err)
	}
	places, radii, err := part.Trace(400)
	if err != nil {
		t.Fatal(err)
	}
	var chords []ProfilePoint
	for i := range places {
		chords = append(chords, ProfilePoint{X: Exactly(places[i]), R: Exactly(radii[i])})
	}
	got, err := Turned{Profile: chords}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinRel(float64(got.Area), float64(want.Area), 1e-5) {
		t.Errorf("traced area %v m2, want %v", float64(got.Area), float64(want.Area))
	}
	if _, _, err := part.Trace(0); err == nil {
		t.Error("no steps: no error")
	}
	if _, _, err := (Turned{}).Trace(10); err == nil {
		t.Error("no profile: no error")
	}
}

// FuzzTurned holds that any profile gives an error or a finite area.
func FuzzTurned(f *testing.F) {
	f.Add(0.0, 8.0, 5.2, 11.0, -6.0, 10.4, 14.0, 6.0, 0.0)
	f.Add(0.0, 20.0, 0.0, 10.0, 0.0, 50.0, 10.0, 0.0, 3.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(math.Inf(1), 1e300, -1e300, 1e-300, 1.0, math.NaN(), 3.0, 1e300, 1e-9)
	f.Fuzz(func(t *testing.T, x0, r0, x1, r1, arc1, x2, r2, arc2, fillet float64) {
		middle := ProfilePoint{X: mmU(x1, 0.1), R: mmU(r1, 0.1), Arc: unit.Length(arc1) * millimetre, Fillet: unit.Length(fillet) * millimetre}
		s, err := Turned{Profile: []ProfilePoint{at(x0, r0), middle, arcTo(x2, r2, arc2)}}.Surface()
		if err == nil && (math.IsNaN(float64(s.Area)) || math.IsInf(float64(s.Area), 0) || s.Area < 0 || math.IsNaN(float64(s.U)) || math.IsInf(float64(s.U), 0)) {
			t.Errorf("area %v +- %v m2 without an error", float64(s.Area), float64(s.U))
		}
	})
}

func BenchmarkTurnedSurface(b *testing.B) {
	part := cosineProfile(200)
	for i := range part.Profile {
		part.Profile[i].R.U = 0.02 * millimetre
	}
	for b.Loop() {
		if _, err := part.Surface(); err != nil {
			b.Fatal(err)
		}
	}
}
