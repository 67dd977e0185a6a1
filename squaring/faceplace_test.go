package squaring

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// bowedWays sink in the middle: a parabola, with its slopes, and wind across.
func bowedWays(x unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle) {
	const bend, wind = 4e-4, 3e-4 // per metre
	// The table's plane at travel x is that at u = -x.
	return unit.Length(bend / 2 * float64(x) * float64(x)), -bend * float64(x), wind * float64(x), 0, 0
}

// A face on the table is what a CutFace with the motion written out by hand
// gives, with the table fed and with the saddle fed.
func TestFaceOnTable(t *testing.T) {
	m := Machine{X: MotionFromWays(bowedWays), Tilt: Gradient{X: 120e-6, Y: -80e-6}}
	face := FaceOnTable{U: 0.18, V: -0.03, Long: 0.150, Deep: 0.080, Diameter: 0.060, Passes: 2, StepOver: 0.040}
	for _, test := range []struct {
		name string
		feed unit.Angle
		// place is the table's point under the spindle for a distance along the
		// feed on a track.
		place func(along, track float64) (u, v float64)
		width unit.Length
	}{
		{"to the right", 0, func(s, k float64) (float64, float64) { return 0.105 + s, -0.07 + k }, 0.08},
		{"to the back", 90 * Degree, func(s, k float64) (float64, float64) { return 0.255 - k, -0.07 + s }, 0.15},
		{"to the left", 180 * Degree, func(s, k float64) (float64, float64) { return 0.255 - s, 0.01 - k }, 0.08},
		{"to the front", -90 * Degree, func(s, k float64) (float64, float64) { return 0.105 + k, 0.01 - s }, 0.15},
	} {
		t.Run(test.name, func(t *testing.T) {
			f := face
			f.Feed = test.feed
			cut, err := m.Face(f, 17, 13)
			if err != nil {
				t.Fatal(err)
			}
			got, err := cut.Map()
			if err != nil {
				t.Fatal(err)
			}
			sin, cos := math.Sincos(float64(test.feed))
			byHand := CutFace{Tilt: Gradient{X: -120e-6, Y: 80e-6}, Feed: test.feed, Diameter: f.Diameter, Length: cut.Length, Width: cut.Width, Columns: 17, Rows: 13}
			if cut.Width != test.width {
				t.Fatalf("width across the feed %v, want %v", cut.Width, test.width)
			}
			for _, track := range []unit.Length{test.width/2 - 0.02, test.width/2 + 0.02} {
				k := float64(track)
				slopes := func(s unit.Length) (z, x, y float64) {
					u, v := test.place(float64(s), k)
					h, sx, sy, _, _ := bowedWays(unit.Length(-u))
					return float64(h) + sy*v, sx, sy
				}
				byHand.Tracks = append(byHand.Tracks, track)
				byHand.Passes = append(byHand.Passes, FeedMotion{
					Height: func(s unit.Length) unit.Length {
						z, x, y := slopes(s)
						return unit.Length(z - k*(-x*sin+y*cos))
					},
					Along:  func(s unit.Length) Slope { _, x, y := slopes(s); return Slope(x*cos + y*sin) },
					Across: func(s unit.Length) Slope { _, x, y := slopes(s); return Slope(-x*sin + y*cos) },
				})
			}
			want, err := byHand.Map()
			if err != nil {
				t.Fatal(err)
			}
			for i, h := range want.Heights {
				if math.IsNaN(float64(h)) && math.IsNaN(float64(got.Heights[i])) {
					continue // 150 mm across are more than two passes reach
				}
				// 1 nm: the motion is taken as straight over steps of 1 mm.
				near(t, "height, um", float64(got.Heights[i])*1e6, float64(h)*1e6, 1e-3)
			}
		})
	}
}

func job(m Machine) FaceJob {
	return FaceJob{Machine: m, Face: FaceOnTable{Long: 0.150, Deep: 0.060, Diameter: 0.080, StepOver: 0.060}, Zone: FlatZone, Limit: 4e-6,
		Places: []unit.Length{-0.2, 0, 0.2}, Feeds: []unit.Angle{0, 90 * Degree}, SettingU: Gradient{X: 8e-6, Y: 10e-6}, TiltU: Gradient{X: 10e-6, Y: 10e-6}}
}

// On straight ways the best setting is square, and then nothing stands out.
func TestChoicesOnStraightWays(t *testing.T) {
	j := job(Machine{Tilt: Gradient{X: 232e-6, Y: 231e-6}})
	j.Face.StepOver = 0.05
	j.SettingU, j.TiltU = Gradient{}, Gradient{}
	choices, err := j.Choices()
	if err != nil {
		t.Fatal(err)
	}
	if len(choices) != 12 {
		t.Fatalf("%d choices, want 12", len(choices))
	}
	for i, c := range choices {
		if c.Reset != (i < 6) {
			t.Errorf("choice %d: reset %v, want the head set square first", i+1, c.Reset)
		}
		if c.Reset && (c.Tilt.Steepest() > 2e-6 || c.Chance != 1) {
			t.Errorf("the best setting is %v with chance %v, want square and sure", c.Tilt, c.Chance)
		}
		if !c.Reset && c.Tilt != j.Machine.Tilt {
			t.Errorf("the head as it stands is %v", c.Tilt)
		}
		if math.Abs(float64(c.Shows.X+c.Tilt.X)) > 1e-15 {
			t.Errorf("a sweep shows %v with the spindle at %v on a level table", c.Shows, c.Tilt)
		}
	}
}

// No setting tried on a grid beats the one found.
func TestChoicesAgainstGrid(t *testing.T) {
	j := job(Machine{X: MotionFromWays(shopWays), Tilt: Gradient{X: 232e-6, Y: 231e-6}})
	j.Face.Passes, j.Face.StepOver, j.Face.Deep = 3, 0.055, 0.120
	j.SettingU = Gradient{}
	j.Places = []unit.Length{-0.05, 0.24}
	choices, err := j.Choices()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range choices {
		if !c.Reset {
			continue
		}
		f := j.Face
		f.U, f.Feed = c.U, c.Feed
		cut, err := j.Machine.Face(f, placeColumns, placeRows)
		if err != nil {
			t.Fatal(err)
		}
		for x := -200.0; x <= 300; x += 25 {
			for y := -200.0; y <= 300; y += 25 {
				cut.Tilt = Gradient{X: Slope(-x * 1e-6), Y: Slope(-y * 1e-6)}
				faced, err := cut.Map()
				if err != nil {
					t.Fatal(err)
				}
				// 5 nm: the simplex stops there.
				if zone := faced.Flatness(); zone < c.Zone-5e-9 {
					t.Fatalf("at %v toward %v tilt shown %v gives %v, better than the %v found at %v", c.U, c.Feed, cut.Tilt, zone, c.Zone, c.Tilt)
				}
			}
		}
	}
}

// The zone that a choice tells is that of a fine map, and its chance that of
// fresh draws of fine maps.
func TestChoiceAgainstFineMaps(t *testing.T) {
	j := job(Machine{X: MotionFromWays(shopWays), Tilt: Gradient{X: 60e-6, Y: 90e-6}})
	j.Places, j.Feeds = []unit.Length{-0.1}, []unit.Angle{0}
	j.TiltU, j.Limit = Gradient{X: 40e-6, Y: 40e-6}, 2.0e-6
	choices, err := j.Choices()
	if err != nil {
		t.Fatal(err)
	}
	stands := choices[slices.IndexFunc(choices, func(c FaceChoice) bool { return !c.Reset })]
	random := rand.New(rand.NewPCG(5, 5))
	kept, sum := 0, 0.0
	const n = 100
	for range n {
		m := j.Machine
		m.Tilt = m.Tilt.Plus(Gradient{X: 40e-6 * Slope(random.NormFloat64()), Y: 40e-6 * Slope(random.NormFloat64())})
		f := j.Face
		f.U = -0.1
		cut, err := m.Face(f, 41, 21)
		if err != nil {
			t.Fatal(err)
		}
		faced, err := cut.Map()
		if err != nil {
			t.Fatal(err)
		}
		zone := faced.Flatness()
		sum += float64(zone)
		if zone <= j.Limit {
			kept++
		}
	}
	if stands.Chance < 0.1 || stands.Chance > 0.9 {
		t.Fatalf("chance %v: the limit judges nothing", stands.Chance)
	}
	// Three standard deviations of counts, and of means, of 400 and of 100.
	near(t, "chance", stands.Chance, float64(kept)/n, 3*math.Hypot(0.025, 0.05))
	near(t, "mean zone, um", float64(stands.Zone)*1e6, sum/n*1e6, 3*float64(stands.ZoneU)*1e6*math.Hypot(1.0/20, 1.0/10))
}

// Mirrored left to right, the shop's best is mirrored.
func TestChoicesMirror(t *testing.T) {
	mirrored := func(x unit.Length) (unit.Length, float64, float64, unit.Length, unit.Angle) {
		h, along, across, sideways, yaw := shopWays(-x)
		return h, -along, across, sideways, -yaw
	}
	j := job(Machine{X: MotionFromWays(shopWays), Tilt: Gradient{X: 150e-6, Y: 60e-6}})
	j.Feeds = []unit.Angle{0, 180 * Degree}
	j.SettingU, j.TiltU = Gradient{}, Gradient{}
	k := j
	k.Machine = Machine{X: MotionFromWays(mirrored), Tilt: Gradient{X: -150e-6, Y: 60e-6}}
	a, err := j.Choices()
	if err != nil {
		t.Fatal(err)
	}
	b, err := k.Choices()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range a {
		i := slices.IndexFunc(b, func(d FaceChoice) bool {
			return d.U == -c.U && d.Reset == c.Reset && math.Abs(math.Cos(float64(d.Feed))+math.Cos(float64(c.Feed))) < 1e-9
		})
		near(t, "zone, um", float64(b[i].Zone)*1e6, float64(c.Zone)*1e6, 2e-3)
	}
}

func TestChoicesReject(t *testing.T) {
	tests := []struct {
		name   string
		change func(*FaceJob)
		want   string
	}{
		{"zone", func(j *FaceJob) { j.Zone = "roundness" }, `"roundness"`},
		{"limit", func(j *FaceJob) { j.Limit = 0 }, "limit of the zone"},
		{"nowhere", func(j *FaceJob) { j.Places = nil }, "0 places"},
		{"no way", func(j *FaceJob) { j.Feeds = nil }, "0 feeds"},
		{"aslant", func(j *FaceJob) { j.Feeds = []unit.Angle{30 * Degree} }, "30"},
		{"place", func(j *FaceJob) { j.Places[1] = unit.Length(math.NaN()) }, "place of the part"},
		{"cutter", func(j *FaceJob) { j.Face.Diameter = -1 }, "cutter diameter"},
		{"uncut", func(j *FaceJob) { j.Face.Diameter = 0.03 }, "uncut"},
		{"passes", func(j *FaceJob) { j.Face.Passes = -1 }, "-1 passes"},
		{"no step", func(j *FaceJob) { j.Face.StepOver = 0 }, "step-over"},
		{"tilt", func(j *FaceJob) { j.Machine.Tilt.X = 0.5 }, "0.1 rad"},
		{"nan tilt", func(j *FaceJob) { j.Machine.Tilt.Y = Slope(math.NaN()) }, "spindle tilt"},
		{"scatter", func(j *FaceJob) { j.SettingU.X = -1 }, "scatter of a setting"},
		{"bow", func(j *FaceJob) { j.BowU = -1 }, "bow"},
		{"ways", func(j *FaceJob) {
			j.Machine.X = func(unit.Length) (AxisErrors, AxisErrors) {
				return AxisErrors{EZ: unit.Length(math.NaN())}, AxisErrors{}
			}
		}, "EZX"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			j := job(Machine{})
			test.change(&j)
			_, err := j.Choices()
			if err == nil || !strings.HasPrefix(err.Error(), "squaring: ") || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want one of squaring that says %q", err, test.want)
			}
		})
	}
}

// Whatever is asked, an error or finite zones and chances between 0 and 1.
func FuzzChoices(f *testing.F) {
	f.Add(0.15, 0.06, 0.08, 0.05, 232e-6, 4e-6, 1e-5, 1.0, uint8(2))
	f.Add(0.6, 0.1, 0.05, 0.0, -1e-3, 1e-5, 0.0, 4.0, uint8(1))
	f.Add(math.Inf(1), -0.1, 1e-300, 1e300, 0.2, math.NaN(), -1.0, 0.5, uint8(255))
	f.Fuzz(func(t *testing.T, long, deep, cutter, step, tilt, limit, u, quarter float64, passes uint8) {
		j := FaceJob{Machine: Machine{X: MotionFromWays(bowedWays), Tilt: Gradient{X: Slope(tilt), Y: Slope(-tilt)}},
			Face: FaceOnTable{Long: unit.Length(long), Deep: unit.Length(deep), Diameter: unit.Length(cutter), Passes: int(passes % 8), StepOver: unit.Length(step)},
			Zone: FlatZone, Limit: unit.Length(limit), Places: []unit.Length{unit.Length(u)}, Feeds: []unit.Angle{unit.Angle(quarter * math.Pi / 2)},
			SettingU: Gradient{X: Slope(u), Y: Slope(u)}, BowU: unit.Length(u)}
		if passes > 127 {
			j.Zone = ParallelZone
		}
		choices, err := j.Choices()
		if err != nil {
			return
		}
		for _, c := range choices {
			if bad(float64(c.Zone)) || bad(float64(c.ZoneU)) || !(c.Chance >= 0 && c.Chance <= 1) || bad(float64(c.Tilt.X)) || bad(float64(c.Shows.Y)) {
				t.Errorf("%+v", c)
			}
		}
	})
}

func BenchmarkChoices(b *testing.B) {
	j := job(Machine{X: MotionFromWays(shopWays), Tilt: Gradient{X: 232e-6, Y: 231e-6}})
	j.Places = nil
	for i := range 21 {
		j.Places = append(j.Places, unit.Length(-0.3+0.03*float64(i)))
	}
	for b.Loop() {
		if _, err := j.Choices(); err != nil {
			b.Fatal(err)
		}
	}
}
