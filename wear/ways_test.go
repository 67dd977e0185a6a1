package wear

import (
	"math"
	"os"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// hiddenWear is T1: the wear behind the shop's tables, in um, at a place in mm.
func hiddenWear(u, front, rear float64) (f, r float64) {
	old, new := math.Exp(-math.Pow((u-40)/210, 2)/2), math.Exp(-math.Pow((u+180)/140, 2)/2)
	return 44*old + front*new, 31*old + rear*new
}

// tracks returns the runs of table D4, in um, a reading every 60 mm of travel.
func tracks(front, middle, rear [13]float64) []HeightTrack {
	var t []HeightTrack
	for k, row := range [][13]float64{front, middle, rear} {
		track := HeightTrack{Across: unit.Length(80*(k-1)) * mm, U: 0.8 * um}
		for i, h := range row {
			track.Points = append(track.Points, Point{unit.Length(360-60*i) * mm, unit.Length(h) * um})
		}
		t = append(t, track)
	}
	return t
}

// shopReadings returns tables D4, D6 and D7 of 2025.
func shopReadings(t *testing.T) WayReadings {
	t.Helper()
	r := WayReadings{Bearing: 360 * mm, Apart: 190 * mm, TopBow: 10 * um, Pockets: shopFlaking}
	r.Pockets.NewU = 1.5 * um
	for along, slopes := range map[bool]*[]SlopePoint{true: &r.Along, false: &r.Across} {
		survey, err := ReadLevel(stations(level2025, along), LevelOptions{Division: 20 * MicrometrePerMetre, Step: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		*slopes = survey.SlopePoints()
	}
	r.Tracks = tracks([13]float64{0, -4, -6, -12, -16, -18, -20, -18, -16, -12, -10, -10, -8},
		[13]float64{0, -2, -4, -10, -12, -12, -14, -14, -12, -10, -10, -6, -4},
		[13]float64{0, -4, -2, -6, -8, -10, -10, -8, -8, -6, -6, -4, -2})
	r.Front = []PocketStation{pocket(-480, 43, 5), pocket(-360, 34, 5), pocket(-240, 13, 5), pocket(-120, 6, 1), pocket(0, 0, 0),
		pocket(120, 10, 4), pocket(240, 24, 5), pocket(360, 37, 5), pocket(480, 51, 5)}
	r.Rear = []PocketStation{pocket(-480, 53, 5), pocket(-360, 40, 5), pocket(-240, 30, 5), pocket(-120, 16, 5), pocket(0, 15, 5),
		pocket(120, 25, 5), pocket(240, 31, 5), pocket(360, 43, 5), pocket(480, 48, 5)}
	return r
}

// wayPlaces are those of T1.
func wayPlaces() []unit.Length {
	var p []unit.Length
	for u := -480.0; u <= 480; u += 120 {
		p = append(p, unit.Length(u)*mm)
	}
	return p
}

// misses returns how far the fit lies from the hidden wear, in standard
// uncertainties.
func misses(f WayFit, front, rear float64) []float64 {
	var z []float64
	for i, u := range f.Ways.Places {
		a, b := hiddenWear(float64(u/mm), front, rear)
		z = append(z, float64((f.Ways.Front[i]-unit.Length(a)*um)/f.FrontU[i]), float64((f.Ways.Rear[i]-unit.Length(b)*um)/f.RearU[i]))
	}
	return z
}

func TestFitWaysRecoversTheHiddenWear(t *testing.T) {
	fit, err := FitWays(shopReadings(t), wayPlaces())
	if err != nil {
		t.Fatal(err)
	}
	var squares float64
	z := misses(fit, 25.7, 10.8)
	for i, miss := range z {
		squares += miss * miss / float64(len(z))
		if math.Abs(miss) > 3 {
			t.Errorf("depth %d misses the truth by %.1f standard uncertainties", i+1, miss)
		}
	}
	if squares > 2 {
		t.Errorf("mean squared miss %.2f standard uncertainties, want about 1", squares)
	}
	// The top of the table is 8 um lower at 500 mm from its middle, as a parabola:
	// 4.15 um over the run of 360 mm to either side.
	if math.Abs(float64(fit.TopBow/um)-4.15) > 2*float64(fit.TopBowU/um) {
		t.Errorf("bow of the top = %.2f um (u %.2f), want 4.15", float64(fit.TopBow/um), float64(fit.TopBowU/um))
	}
	for i, u := range fit.FrontU {
		if u > 3*um || fit.RearU[i] > 3*um {
			t.Errorf("place %d: known to %.1f and %.1f um only", i+1, float64(u/um), float64(fit.RearU[i]/um))
		}
	}
}

// TestFitWaysJoinsMotionAndPockets: where no pocket is left the motion tells the
// depth, and the depth that the motion cannot tell the pockets do.
func TestFitWaysJoinsMotionAndPockets(t *testing.T) {
	all := shopReadings(t)
	motion, pockets := all, all
	motion.Front, motion.Rear = nil, nil
	pockets.Along, pockets.Across, pockets.Tracks = nil, nil, nil
	var fits []WayFit
	for _, r := range []WayReadings{motion, pockets, all} {
		fit, err := FitWays(r, wayPlaces())
		if err != nil {
			t.Fatal(err)
		}
		fits = append(fits, fit)
	}
	deepest := 4 // u = 0: gone in front
	if joined := fits[2].FrontU[deepest]; joined > fits[1].FrontU[deepest]*0.75 || joined > fits[0].FrontU[deepest]/3 {
		t.Errorf("at u = 0 in front motion knows %.1f, pockets %.1f, both %.1f um", float64(fits[0].FrontU[deepest]/um), float64(fits[1].FrontU[deepest]/um), float64(joined/um))
	}
	for _, z := range misses(fits[0], 25.7, 10.8) {
		if math.Abs(z) > 3 {
			t.Errorf("from motion alone a depth misses by %.1f standard uncertainties", z)
		}
	}
}

// TestPatternsThatMotionCannotSee: an even depth all over, and a level slope,
// leave the motion as it is; so does a twist that repeats in twice the bearing,
// and a level alone does not see what repeats in the bearing.
func TestPatternsThatMotionCannotSee(t *testing.T) {
	all := shopReadings(t)
	level := all
	level.Front, level.Rear, level.Tracks = nil, nil, nil
	motion := all
	motion.Front, motion.Rear = nil, nil
	wave := func(length, twist float64) func(u float64) (float64, float64) {
		return func(u float64) (float64, float64) {
			s := math.Sin(2 * math.Pi * u / length)
			return s, twist * s
		}
	}
	for _, test := range []struct {
		name          string
		readings      WayReadings
		pattern       func(u float64) (float64, float64)
		least, atMost float64 // share of the standard uncertainty that is left
	}{
		{"even, by motion", motion, func(float64) (float64, float64) { return 1, 1 }, 0.7, 1},
		{"even, by all", all, func(float64) (float64, float64) { return 1, 1 }, 0, 0.15},
		{"one bearing, by level", level, wave(0.36, 1), 0.3, 1},
		{"one bearing, by motion", motion, wave(0.36, 1), 0, 0.2},
		{"twist of two bearings, by motion", motion, wave(0.72, -1), 0.5, 1},
		{"twist of two bearings, by all", all, wave(0.72, -1), 0, 0.3},
		{"two bearings alike, by motion", motion, wave(0.72, 1), 0, 0.1},
	} {
		fit, err := FitWays(test.readings, nil)
		if err != nil {
			t.Fatal(err)
		}
		var front, rear []float64
		for _, u := range fit.Ways.Places {
			f, r := test.pattern(float64(u))
			front, rear = append(front, f), append(rear, r)
		}
		_, before, after, err := fit.Pattern(front, rear)
		if err != nil {
			t.Fatal(err)
		}
		if share := float64(after / before); share < test.least || share > test.atMost {
			t.Errorf("%s: %.2f of %.2f um is left, want a share from %.2f to %.2f", test.name, float64(after/um), float64(before/um), test.least, test.atMost)
		}
	}
}

// machine returns readings of a machine with humps of wear of its own, and that
// wear.
func machine(normal func() float64) (WayReadings, func(u float64) (float64, float64)) {
	r := WayReadings{Bearing: 0.36, Apart: 0.19, TopBow: 5 * um, Pockets: PocketOptions{New: 52 * um, NewU: 1.5 * um, Spread: 6 * um, Floor: 3 * um}}
	at, wide, deep, second := 0.1*normal(), 0.2+0.03*normal(), 35+8*normal(), 12+4*normal()
	share := 0.7 + 0.1*normal()
	wear := func(u float64) (float64, float64) {
		a, b := math.Exp(-math.Pow((u-at)/wide, 2)/2), math.Exp(-math.Pow((u+0.2)/0.14, 2)/2)
		return deep*a + second*b, share*deep*a + second*b/3
	}
	r.ride(wear, 5e-6*normal(), normal)
	r.flake(wear, 52+1.5*normal(), normal)
	return r, wear
}

// ride adds what a level and a dial read while the table rides on worn ways, with
// errors, the dial on a top of the given bow.
func (r *WayReadings) ride(wear func(u float64) (float64, float64), bow float64, normal func() float64) {
	w := WornWays{Apart: r.Apart, Bearing: r.Bearing}
	for u := -0.6; u < 0.601; u += 0.004 {
		f, b := wear(u)
		w.Places, w.Front, w.Rear = append(w.Places, unit.Length(u)), append(w.Front, unit.Length(f)*um), append(w.Rear, unit.Length(b)*um)
	}
	motion, _ := TwoPointMotion(w)
	leanX, leanY := 1e-4*normal(), 1e-4*normal()
	for u := -0.36; u < 0.361; u += 0.12 {
		_, along, across, _, _ := motion(unit.Length(-u))
		r.Along = append(r.Along, SlopePoint{Position: unit.Length(u), Slope: Slope(along + leanX + 3e-6*normal()), U: 3e-6})
		r.Across = append(r.Across, SlopePoint{Position: unit.Length(u), Slope: Slope(across + leanY + 3e-6*normal()), U: 3e-6})
	}
	for _, y := range []float64{-0.08, 0, 0.08} {
		track := HeightTrack{Across: unit.Length(y), U: 0.8 * um}
		line := 2e-5 * normal()
		for u := -0.36; u < 0.361; u += 0.06 {
			h, _, across, _, _ := motion(unit.Length(-u))
			height := float64(h) + y*across + bow*(1-u*u/0.36/0.36) + line*u + 0.8e-6*normal()
			track.Points = append(track.Points, Point{unit.Length(u), unit.Length(height)})
		}
		r.Tracks = append(r.Tracks, track)
	}
}

// flake adds five pockets at nine places on each way, of a depth when new common
// to all, and leaves out those that are gone.
func (r *WayReadings) flake(wear func(u float64) (float64, float64), fresh float64, normal func() float64) {
	for u := -0.48; u < 0.481; u += 0.12 {
		f, b := wear(u)
		for k, stations := range []*[]PocketStation{&r.Front, &r.Rear} {
			depth := []float64{f, b}[k]
			s := PocketStation{Place: unit.Length(u), Total: 5}
			var sum float64
			for range 5 {
				if d := fresh - depth + 6*normal(); d > 3 {
					s.Found++
					sum += d
				}
			}
			if s.Found > 0 {
				s.Depth = unit.Length(sum/float64(s.Found)) * um
			}
			*stations = append(*stations, s)
		}
	}
}

// TestFitWaysCoverage counts how often the interval of 95 % holds the truth, over
// simulated machines with humps of wear of many shapes.
func TestFitWaysCoverage(t *testing.T) {
	machines, low, high := 40, 0.90, 0.99
	if os.Getenv("WEAR_LONG") != "" {
		machines, low, high = 600, 0.93, 0.97
	}
	normal := newNormal(23)
	held, count := 0, 0
	for range machines {
		readings, wear := machine(normal)
		fit, err := FitWays(readings, wayPlaces())
		if err != nil {
			t.Fatal(err)
		}
		for i, u := range fit.Ways.Places {
			f, b := wear(float64(u))
			for _, z := range []float64{(float64(fit.Ways.Front[i]/um) - f) / float64(fit.FrontU[i]/um), (float64(fit.Ways.Rear[i]/um) - b) / float64(fit.RearU[i]/um)} {
				count++
				if math.Abs(z) < 1.96 {
					held++
				}
			}
		}
	}
	share := float64(held) / float64(count)
	t.Logf("%.3f of %d", share, count)
	// The depths of one machine share the error of the depth when new, so that 40
	// machines scatter by about 2 in 100.
	if share < low || share > high {
		t.Errorf("the interval of 95 %% holds %.1f in 100 of the depths", share*100)
	}
}

func BenchmarkFitWays(b *testing.B) {
	r := shopReadings(&testing.T{})
	for b.Loop() {
		if _, err := FitWays(r, wayPlaces()); err != nil {
			b.Fatal(err)
		}
	}
}

func TestFitWaysErrors(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(r *WayReadings)
		places []unit.Length
		want   string
	}{
		{"nothing", func(r *WayReadings) { *r = WayReadings{Bearing: 0.3, Apart: 0.2} }, nil, "got 0"},
		{"bearing", func(r *WayReadings) { r.Bearing = 0 }, nil, "bearing of 0 mm"},
		{"apart", func(r *WayReadings) { r.Apart = unitNaN }, nil, "must be above zero"},
		{"slope", func(r *WayReadings) { r.Along[2].Slope = Slope(math.NaN()) }, nil, "slope along, station 3"},
		{"slope's uncertainty", func(r *WayReadings) { r.Across[1].U = 0 }, nil, "slope across, station 2"},
		{"track", func(r *WayReadings) { r.Tracks[1].U = 0 }, nil, "track 2"},
		{"reading", func(r *WayReadings) { r.Tracks[2].Points[4].Height = unitNaN }, nil, "track 3, point 5"},
		{"bow", func(r *WayReadings) { r.TopBow = -1 }, nil, "bow under the dial"},
		{"count", func(r *WayReadings) { r.Front[0].Found = 9 }, nil, "9 pockets found of 5"},
		{"far", func(r *WayReadings) { r.Rear[0].Place = 1e9 }, nil, "beyond 100 m"},
		{"options", func(r *WayReadings) { r.Pockets.Spread = 0 }, nil, "spread of the pockets"},
		{"places", func(*WayReadings) {}, []unit.Length{0, 0}, "place 2"},
		{"many places", func(*WayReadings) {}, make([]unit.Length, 300), "at most 200"},
	} {
		t.Run(test.name, func(t *testing.T) {
			r := shopReadings(t)
			test.change(&r)
			if _, err := FitWays(r, test.places); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
	if _, _, _, err := (WayFit{}).Pattern(nil, nil); err == nil {
		t.Error("a fit that was never made knows a pattern")
	}
}

func TestPatternErrors(t *testing.T) {
	fit, err := FitWays(shopReadings(t), wayPlaces())
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range [][]float64{make([]float64, 9), make([]float64, 3), {0, 0, 0, math.Inf(1), 0, 0, 0, 0, 0}} {
		if _, _, _, err := fit.Pattern(bad, make([]float64, 9)); err == nil {
			t.Errorf("no error for the pattern %v", bad)
		}
	}
}

// TestFitWaysLaws: the answer does not hang on the lean of the machine or the zero
// of the dial, turns with the table, and grows with the readings.
func TestFitWaysLaws(t *testing.T) {
	plain := shopReadings(t)
	moved, mirrored := shopReadings(t), shopReadings(t)
	for i := range moved.Along {
		moved.Along[i].Slope += 1e-4
		mirrored.Along[i].Position, mirrored.Along[i].Slope = -plain.Along[i].Position, -plain.Along[i].Slope
		mirrored.Across[i].Position = -plain.Across[i].Position
	}
	for k := range moved.Tracks {
		for i := range moved.Tracks[k].Points {
			moved.Tracks[k].Points[i].Height += 20*um + unit.Length(30e-6*float64(moved.Tracks[k].Points[i].Position))
			mirrored.Tracks[k].Points[i].Position *= -1
		}
	}
	for i := range mirrored.Front {
		mirrored.Front[i].Place *= -1
		mirrored.Rear[i].Place *= -1
	}
	a, err := FitWays(plain, wayPlaces())
	if err != nil {
		t.Fatal(err)
	}
	b, err := FitWays(moved, wayPlaces())
	if err != nil {
		t.Fatal(err)
	}
	c, err := FitWays(mirrored, wayPlaces())
	if err != nil {
		t.Fatal(err)
	}
	n := len(a.FrontU)
	for i := range n {
		// The scale that the depths of the process are tried at follows the spread
		// of the readings, which the tilt of the dial's line changes.
		if math.Abs(float64((a.Ways.Front[i]-b.Ways.Front[i])/um)) > 0.05 {
			t.Errorf("place %d: %.3f um, with lean and zero changed %.3f", i+1, float64(a.Ways.Front[i]/um), float64(b.Ways.Front[i]/um))
		}
		if math.Abs(float64((a.Ways.Rear[i]-c.Ways.Rear[n-1-i])/um)) > 1e-3 {
			t.Errorf("place %d: %.3f um, mirrored %.3f", i+1, float64(a.Ways.Rear[i]/um), float64(c.Ways.Rear[n-1-i]/um))
		}
	}
}

func FuzzFitWays(f *testing.F) {
	f.Add(3e-4, 1e-5, 6e-6, 0.3, 5, 1e-6)
	f.Add(0.9, 0.1, 1e-3, 9.0, 0, 1e-9)
	f.Add(-1e-9, -1e-9, 0.0, 1e-6, 1, 0.1)
	f.Fuzz(func(t *testing.T, slope, height, depth, bearing float64, found int, u float64) {
		r := WayReadings{Bearing: unit.Length(bearing), Apart: 0.2, TopBow: 1e-6, Pockets: shopFlaking}
		r.Along = []SlopePoint{{Position: 0, Slope: Slope(slope), U: Slope(u)}, {Position: 0.1, U: 1e-6}}
		r.Tracks = []HeightTrack{{U: unit.Length(u), Points: []Point{{0, 0}, {0.1, unit.Length(height)}, {0.2, 0}}}}
		r.Rear = []PocketStation{{Place: 0.1, Depth: unit.Length(depth), Found: found, Total: 5}}
		fit, err := FitWays(r, nil)
		if err != nil {
			return
		}
		for i := range fit.FrontU {
			if !finite(float64(fit.Ways.Front[i] + fit.Ways.Rear[i] + fit.FrontU[i] + fit.RearU[i])) {
				t.Fatalf("place %d is not finite", i+1)
			}
		}
	})
}
