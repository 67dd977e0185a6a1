package squaring

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// wavy is a motion that rises, sinks and leans.
func wavy() FeedMotion {
	return FeedMotion{
		Height: func(s unit.Length) unit.Length { return unit.Length(20e-6 * math.Sin(9*float64(s))) },
		Along:  func(s unit.Length) Slope { return Slope(180e-6 * math.Cos(9*float64(s))) },
		Across: func(s unit.Length) Slope { return Slope(60e-6 * float64(s)) },
	}
}

// crossings finds, by walking the spindle along its track in small steps and
// halving, every place where the circle of the edges stands over a point, and
// returns the lowest height at which it does. It knows nothing of chords.
func crossings(f CutFace, s, v float64) float64 {
	r := float64(f.Diameter) / 2
	from, to := float64(f.From), float64(f.To)
	if from == 0 && to == 0 {
		from, to = -r, float64(f.Length)+r
	}
	lowest := math.Inf(1)
	for _, track := range f.Tracks {
		gap := func(spindle float64) float64 { return math.Hypot(s-spindle, v-float64(track)) - r }
		const steps = 4000
		for i := 0; i < steps; i++ {
			a, b := from+(to-from)*float64(i)/steps, from+(to-from)*float64(i+1)/steps
			if (gap(a) > 0) == (gap(b) > 0) {
				continue
			}
			for k := 0; k < 60; k++ {
				if mid := (a + b) / 2; (gap(mid) > 0) == (gap(a) > 0) {
					a = mid
				} else {
					b = mid
				}
			}
			// The edge in the machine: over the spindle's plane, at (dx, dy) from
			// its axis, the frame turned so that x is along the feed.
			along := f.Feed
			dx, dy := s-a, v-float64(track)
			east := dx*math.Cos(float64(along)) - dy*math.Sin(float64(along))
			north := dx*math.Sin(float64(along)) + dy*math.Cos(float64(along))
			edge := -float64(f.Tilt.X)*east - float64(f.Tilt.Y)*north
			table := 0.0
			if f.Motion.Height != nil {
				place := unit.Length(a)
				table = float64(f.Motion.Height(place)) + float64(f.Motion.Along(place))*dx + float64(f.Motion.Across(place))*v
			}
			lowest = math.Min(lowest, edge-table)
		}
	}
	return lowest
}

func TestMapAgainstWalkingTheSpindle(t *testing.T) {
	for name, f := range map[string]CutFace{
		"one pass":      {Tilt: Gradient{X: 200e-6}, Diameter: 0.12, Length: 0.15, Width: 0.09, Tracks: []unit.Length{0.0457}},
		"three, skew":   {Tilt: Gradient{X: 150e-6, Y: -231e-6}, Feed: 0.7, Diameter: 0.05, Length: 0.11, Width: 0.12, Tracks: []unit.Length{0.02, 0.06, 0.1}},
		"worn ways":     {Tilt: Gradient{X: -90e-6, Y: 40e-6}, Diameter: 0.08, Length: 0.2, Width: 0.1, Tracks: []unit.Length{0.0307, 0.0712}, Motion: wavy()},
		"begun inside":  {Tilt: Gradient{X: 90e-6}, Diameter: 0.08, Length: 0.2, Width: 0.1, Tracks: []unit.Length{0.0507}, From: 0.051, To: 0.121, Motion: wavy()},
		"feed backward": {Tilt: Gradient{X: 90e-6, Y: 5e-6}, Feed: math.Pi, Diameter: 0.08, Length: 0.2, Width: 0.07, Tracks: []unit.Length{0.031}, Motion: wavy()},
	} {
		f.Columns, f.Rows = 13, 11
		m, err := f.Map()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		uncut := 0
		for row, across := range m.Across {
			for column, along := range m.Along {
				s, v := float64(along), float64(across)
				got, want := float64(m.Height(row, column)), crossings(f, s, v)
				if math.IsInf(want, 1) {
					uncut++
					want = math.NaN()
				}
				// The walk ends within 1e-18 m of the crossing, and a slope of
				// 1e-3 carries the rounding of c near the edge of a pass.
				if !(math.Abs(got-want) < 1e-12) && !(math.IsNaN(got) && math.IsNaN(want)) {
					t.Errorf("%s: height at %.4f, %.4f is %g, walking gives %g", name, s, v, got, want)
				}
			}
		}
		if uncut != m.Uncut || m.Uncut+m.Leading+m.Trailing != len(m.Heights) {
			t.Errorf("%s: counts %d, %d, %d of %d; walking leaves %d uncut", name, m.Leading, m.Trailing, m.Uncut, len(m.Heights), uncut)
		}
	}
}

// With a straight travel the map is what Facing says: hollow, step, slope, edge.
func TestMapAgreesWithFacing(t *testing.T) {
	tilt := Gradient{X: 200e-6, Y: -231e-6}
	const d, w, step = 0.12, 0.05, 0.05
	f := CutFace{Tilt: tilt, Diameter: d, Length: 0.1, Width: 2 * w, Tracks: []unit.Length{w / 2, w/2 + step}, Columns: 3, Rows: 2001}
	m, err := f.Map()
	if err != nil {
		t.Fatal(err)
	}
	s, err := Facing{Tilt: tilt, Diameter: d, Width: w, StepOver: step}.Surface()
	if err != nil {
		t.Fatal(err)
	}
	if s.Cuts != LeadingEdge || m.Leading != len(m.Heights) {
		t.Errorf("the surface is made by %s; counts %d leading, %d trailing", s.Cuts, m.Leading, m.Trailing)
	}
	// Within a pass that overlaps nothing the section is Facing's profile. The
	// overlap takes the lower of two, so compare with the lower profile.
	face := Facing{Tilt: tilt, Diameter: d, Width: w}
	for row, across := range m.Across {
		want := math.Inf(1)
		for _, track := range f.Tracks {
			if v := across - track; math.Abs(float64(v)) <= d/2 {
				h, err := face.Profile(v)
				if err != nil {
					t.Fatal(err)
				}
				want = math.Min(want, float64(h))
			}
		}
		// Facing takes the sine where the map takes the slope: 1e-8 of 12 um.
		if got := float64(m.Height(row, 1)); math.Abs(got-want) > 1e-12 {
			t.Fatalf("at %g across: %g, Facing says %g", float64(across), got, want)
		}
	}
}

// Laws: turning feed and tilt together changes nothing; superposition of a
// level rise; a mirrored tilt mirrors the face.
func TestMapLaws(t *testing.T) {
	f := CutFace{Tilt: Gradient{X: 120e-6, Y: 70e-6}, Diameter: 0.08, Length: 0.2, Width: 0.1, Tracks: []unit.Length{0.03, 0.07}, Motion: wavy(), Columns: 21, Rows: 17}
	want, err := f.Map()
	if err != nil {
		t.Fatal(err)
	}
	turned := f
	turned.Feed = 1.1
	turned.Tilt = GradientToward(f.Tilt.Azimuth()+1.1, f.Tilt.Steepest())
	raised := f
	height := f.Motion.Height
	raised.Motion.Height = func(s unit.Length) unit.Length { return height(s) + 5e-6 }
	mirrored := f
	mirrored.Tilt.Y = -f.Tilt.Y
	mirrored.Motion.Across = nil
	plain := f
	plain.Motion.Across = nil
	maps := map[string]HeightMap{}
	for name, face := range map[string]CutFace{"turned": turned, "raised": raised, "mirrored": mirrored, "plain": plain} {
		if maps[name], err = face.Map(); err != nil {
			t.Fatal(err)
		}
	}
	for row := range want.Across {
		for column := range want.Along {
			h := float64(want.Height(row, column))
			if got := float64(maps["turned"].Height(row, column)); math.Abs(got-h) > 1e-15 {
				t.Fatalf("turned: %g, want %g", got, h)
			}
			if got := float64(maps["raised"].Height(row, column)); math.Abs(got-(h-5e-6)) > 1e-15 {
				t.Fatalf("raised: %g, want %g", got, h-5e-6)
			}
			one, other := float64(maps["plain"].Height(row, column)), float64(maps["mirrored"].Height(16-row, column))
			if math.Abs(one-other) > 1e-15 {
				t.Fatalf("mirrored: %g, want %g", other, one)
			}
		}
	}
}

// A straight face is flat to nothing about its plane, and a hollow of one pass
// lies between half and all of its depth about the least-squares plane.
func TestFlatness(t *testing.T) {
	f := CutFace{Tilt: Gradient{Y: 100e-6}, Diameter: 0.12, Length: 0.1, Width: 0.09, Tracks: []unit.Length{0.045}, Columns: 11, Rows: 101}
	flat, err := f.Map()
	if err != nil {
		t.Fatal(err)
	}
	if got := flat.Flatness(); got > 1e-14 {
		t.Errorf("flatness of a sloping plane is %g m", float64(got))
	}
	if low, high := flat.Range(); math.Abs(float64(high-low)-9e-6) > 1e-14 {
		t.Errorf("range of a sloping plane is %g m, want 9 um", float64(high-low))
	}
	before := flat.Height(50, 5)
	if got := flat.Levelled().Height(50, 5); math.Abs(float64(got)) > 1e-14 || flat.Height(50, 5) != before {
		t.Errorf("levelled, a sloping plane stands at %g m", float64(got))
	}
	f.Tilt = Gradient{X: 200e-6}
	hollow, err := f.Map()
	if err != nil {
		t.Fatal(err)
	}
	// Exercise 7 of the job: 4.06 um, to the digits given.
	if got := float64(hollow.Flatness()); math.Abs(got-4.06e-6) > 0.005e-6 {
		t.Errorf("flatness of the hollow is %g m, want 4.06 um", got)
	}
	if (HeightMap{}).Flatness() != 0 || !math.IsNaN(float64((HeightMap{}).Height(0, 0))) {
		t.Error("the zero map does not say that nothing was cut")
	}
}

func TestMapRefuses(t *testing.T) {
	good := CutFace{Tilt: Gradient{X: 1e-4}, Diameter: 0.1, Length: 0.1, Width: 0.1, Tracks: []unit.Length{0.05}, Columns: 3, Rows: 3}
	for want, change := range map[string]func(*CutFace){
		"cutter diameter": func(f *CutFace) { f.Diameter = 0 },
		"tilt in x":       func(f *CutFace) { f.Tilt.X = Slope(math.NaN()) },
		"within 0.1 rad":  func(f *CutFace) { f.Tilt.Y = 0.2 },
		"at least 2 each": func(f *CutFace) { f.Rows = 1 },
		"together":        func(f *CutFace) { f.Rows, f.Columns = 3000, 3000 },
		"passes":          func(f *CutFace) { f.Tracks = nil },
		"track 1":         func(f *CutFace) { f.Tracks = []unit.Length{unit.Length(math.Inf(1))} },
		"run forward":     func(f *CutFace) { f.From = 0.1 },
		"not a finite": func(f *CutFace) {
			f.Motion.Height = func(unit.Length) unit.Length { return unit.Length(math.NaN()) }
		},
	} {
		f := good
		change(&f)
		if _, err := f.Map(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want a message with %q", err, want)
		}
	}
}

// A thousand by a thousand points, 300 mm path, 120 mm cutter.
func BenchmarkHeightMap(b *testing.B) {
	one, three := []unit.Length{0.06}, []unit.Length{0.05, 0.1, 0.15}
	for _, bench := range []struct {
		name   string
		width  unit.Length
		tracks []unit.Length
		motion FeedMotion
	}{{"straight", 0.12, one, FeedMotion{}}, {"worn ways", 0.12, one, wavy()}, {"three passes on worn ways", 0.2, three, wavy()}} {
		b.Run(bench.name, func(b *testing.B) {
			f := CutFace{Tilt: Gradient{X: 120e-6, Y: 70e-6}, Diameter: 0.12, Length: 0.3, Width: bench.width, Tracks: bench.tracks,
				Motion: bench.motion, Columns: 1000, Rows: 1000}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := f.Map(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
