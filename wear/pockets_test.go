package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// shopFlaking says what the flaking was like: 52 um when new, single pockets
// scattering by 6 um and the reading of each by 1.5.
var shopFlaking = PocketOptions{New: 52 * um, Spread: 6.2 * um, Floor: 3 * um}

func pocket(u, depth float64, found int) PocketStation {
	return PocketStation{Place: unit.Length(u) * mm, Depth: unit.Length(depth) * um, Found: found, Total: 5}
}

func TestPocketsCountTheMissing(t *testing.T) {
	// Worked with another programme: 54.4 and 44.1 um with standard
	// uncertainties 3.8 and 2.8; plain means 46 and 42; rounded to 0.1.
	wears, err := ReadPockets([]PocketStation{pocket(-120, 6, 1), pocket(120, 10, 4), pocket(240, 24, 5), pocket(0, 0, 0)}, shopFlaking)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct{ wear, u, plain float64 }{{54.4, 3.8, 46}, {44.1, 2.8, 42}, {28, 6.2 / math.Sqrt(5), 28}} {
		w := wears[i]
		if math.Abs(float64(w.Wear/um)-want.wear) > 0.06 || math.Abs(float64(w.U/um)-want.u) > 0.06 || math.Abs(float64(w.Plain/um)-want.plain) > 1e-9 {
			t.Errorf("station %d: wear %.2f um (u %.2f), plain %.1f; want %.1f (u %.1f), %.1f", i+1,
				float64(w.Wear/um), float64(w.U/um), float64(w.Plain/um), want.wear, want.u, want.plain)
		}
		if !(w.Low < w.Wear && w.Wear < w.High) {
			t.Errorf("station %d: interval %g to %g um does not hold %g", i+1, float64(w.Low/um), float64(w.High/um), float64(w.Wear/um))
		}
	}
	// All found: the interval is the normal one.
	full := wears[2]
	if math.Abs(float64((full.High-full.Wear)/full.U)-1.959964) > 1e-5 || math.Abs(float64((full.Wear-full.Low)/full.U)-1.959964) > 1e-5 {
		t.Errorf("interval of five found pockets is %g to %g standard uncertainties, want 1.96", float64((full.Low-full.Wear)/full.U), float64((full.High-full.Wear)/full.U))
	}
	// One found of five, 6 um deep: the likelihood, written out here, falls short by
	// 1.959964^2/2 at the lower end, and by 1.644854^2/2 at the upper one, where none
	// would be found in more than 5 of 100 stations.
	likelihood := func(wear unit.Length) float64 {
		left := 52 - float64(wear/um)
		return -math.Pow((6-left)/6.2, 2)/2 + 4*math.Log(0.5*math.Erfc((left-3)/6.2/math.Sqrt2))
	}
	one := wears[0]
	near(t, "short at the lower end", likelihood(one.Wear)-likelihood(one.Low), 1.959964*1.959964/2, 1e-5)
	near(t, "short at the upper end", likelihood(one.Wear)-likelihood(one.High), 1.644854*1.644854/2, 1e-5)
	// None found: at least about 49 um, and by hand 52 - 3 + 6.2*0.1234 = 49.77.
	none := wears[3]
	if !none.AtLeast || math.Abs(float64(none.Wear/um)-49.77) > 0.02 || !math.IsInf(float64(none.High), 1) {
		t.Errorf("none found: %+v, want at least 49.77 um", none)
	}
}

// TestPocketsRecoverTheWear holds table D7 against the hidden wear.
func TestPocketsRecoverTheWear(t *testing.T) {
	options := shopFlaking
	options.NewU = 1.5 * um
	front := map[string][]PocketStation{}
	truth := map[string][]float64{}
	add := func(name string, u, depth float64, found int, wear float64) {
		front[name] = append(front[name], pocket(u, depth, found))
		truth[name] = append(truth[name], wear)
	}
	for _, r := range [][4]float64{{-480, 54, 5, 2.1}, {-360, 43, 5, 7.2}, {-240, 36, 5, 18.1}, {-120, 17, 5, 32.9}, {0, 11, 4, 43.2}, {120, 8, 5, 40.9}, {240, 21, 5, 28.0}, {360, 34, 5, 13.8}, {480, 52, 5, 4.9}} {
		add("front 2019", r[0], r[1], int(r[2]), r[3])
	}
	for _, r := range [][4]float64{{-480, 43, 5, 4.6}, {-360, 34, 5, 18.4}, {-240, 13, 5, 41.5}, {-120, 6, 1, 56.3}, {0, 0, 0, 54.4}, {120, 10, 4, 43.5}, {240, 24, 5, 28.2}, {360, 37, 5, 13.8}, {480, 51, 5, 4.9}} {
		add("front 2025", r[0], r[1], int(r[2]), r[3])
	}
	for _, r := range [][4]float64{{-480, 53, 5, 2.5}, {-360, 40, 5, 9.8}, {-240, 30, 5, 22.6}, {-120, 16, 5, 33.1}, {0, 15, 5, 35.2}, {120, 25, 5, 29.9}, {240, 31, 5, 19.8}, {360, 43, 5, 9.7}, {480, 48, 5, 3.5}} {
		add("rear 2025", r[0], r[1], int(r[2]), r[3])
	}
	var squares, n, outside float64
	for name, stations := range front {
		wears, err := ReadPockets(stations, options)
		if err != nil {
			t.Fatal(err)
		}
		for i, w := range wears {
			want := unit.Length(truth[name][i]) * um
			if w.AtLeast {
				if w.Wear > want {
					t.Errorf("%s, u = %g mm: at least %g um, truth %g", name, float64(w.Place/mm), float64(w.Wear/um), float64(want/um))
				}
				continue
			}
			r := float64((w.Wear - want) / w.U)
			squares, n = squares+r*r, n+1
			if want < w.Low || want > w.High {
				outside++
			}
			if math.Abs(r) > 3 {
				t.Errorf("%s, u = %g mm: wear %.1f um (u %.1f), truth %.1f", name, float64(w.Place/mm), float64(w.Wear/um), float64(w.U/um), float64(want/um))
			}
		}
	}
	if outside > 4 || squares/n > 1.8 || squares/n < 0.3 {
		t.Errorf("%g of %g truths outside their 95 %% interval, mean squared miss %.2f", outside, n, squares/n)
	}
}

// TestPocketsDrawn draws flaking from the model and counts how often the
// interval holds the wear, and shows the bias of the plain mean.
func TestPocketsDrawn(t *testing.T) {
	random := newNormal(81)
	const draws, wear = 4000, 47.0
	held, estimated, plain, n := 0, 0.0, 0.0, 0.0
	for range draws {
		var sum float64
		found := 0
		for range 5 {
			if d := 52 - wear + 6.2*random(); d >= 3 {
				sum, found = sum+d, found+1
			}
		}
		s := pocket(0, 0, found)
		if found > 0 {
			s.Depth = unit.Length(sum/float64(found)) * um
		}
		w, err := ReadPockets([]PocketStation{s}, shopFlaking)
		if err != nil {
			t.Fatal(err)
		}
		if w[0].Low <= wear*um && wear*um <= w[0].High {
			held++
		}
		if !w[0].AtLeast {
			estimated, plain, n = estimated+float64(w[0].Wear/um), plain+float64(w[0].Plain/um), n+1
		}
	}
	// Profile intervals are right for many pockets; with five, near 95 %.
	if share := float64(held) / draws; share < 0.92 || share > 0.98 {
		t.Errorf("the interval holds the wear in %.3f of the draws, want about 0.95", share)
	}
	if bias := estimated/n - wear; math.Abs(bias) > 0.8 {
		t.Errorf("estimates are off by %.2f um on average", bias)
	}
	if bias := plain/n - wear; bias > -1.5 {
		t.Errorf("the plain mean is off by %.2f um on average; it should be far too small", bias)
	}
}

func TestPocketErrors(t *testing.T) {
	good := []PocketStation{pocket(0, 20, 5)}
	for _, test := range []struct {
		name     string
		stations []PocketStation
		options  PocketOptions
		want     string
	}{
		{"none", nil, shopFlaking, "at least one station"},
		{"spread", good, PocketOptions{New: 52 * um}, "spread of the pockets 0 um"},
		{"new", good, PocketOptions{New: -1, Spread: 1 * um}, "depth when new"},
		{"not a number", good, PocketOptions{New: unitNaN, Spread: 1 * um}, "depth when new NaN"},
		{"more than there are", []PocketStation{{Depth: 9 * um, Found: 6, Total: 5}}, shopFlaking, "station 1: 6 pockets found of 5"},
		{"below the floor", []PocketStation{pocket(0, 20, 5), pocket(0, 2, 5)}, shopFlaking, "station 2: mean depth 2 um"},
		{"place", []PocketStation{{Place: unitNaN, Total: 1}}, shopFlaking, "place NaN"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := ReadPockets(test.stations, test.options)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func FuzzPockets(f *testing.F) {
	f.Add(6e-6, 1, 5, 52e-6, 1.5e-6, 6.2e-6, 3e-6)
	f.Add(1e-3, 1, 10000, 1e-3, 1e-3, 1e-9, 0.0)
	f.Add(0.0, 0, 1, 0.0, 0.0, 1e-3, 1e-3)
	f.Fuzz(func(t *testing.T, depth float64, found, total int, new, newU, spread, floor float64) {
		wears, err := ReadPockets([]PocketStation{{Depth: unit.Length(depth), Found: found, Total: total}},
			PocketOptions{New: unit.Length(new), NewU: unit.Length(newU), Spread: unit.Length(spread), Floor: unit.Length(floor)})
		if err != nil {
			return
		}
		w := wears[0]
		if !finite(float64(w.Wear)) || !finite(float64(w.U)) || w.Low > w.Wear || w.High < w.Wear {
			t.Errorf("wear %+v", w)
		}
	})
}
