package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// shopWays returns the hidden wear of the shop's table ways: 2019 with growth 0
// and 0, 2025 with 25.7 and 10.8 um.
func shopWays(frontGrowth, rearGrowth float64) WornWays {
	w := WornWays{Apart: 190 * mm, Bearing: 360 * mm}
	for u := -560.0; u <= 560; u += 2 {
		old, new := math.Exp(-math.Pow((u-40)/210, 2)/2), math.Exp(-math.Pow((u+180)/140, 2)/2)
		w.Places = append(w.Places, unit.Length(u)*mm)
		w.Front = append(w.Front, unit.Length(44*old+frontGrowth*new)*um)
		w.Rear = append(w.Rear, unit.Length(31*old+rearGrowth*new)*um)
	}
	return w
}

// TestTwoPointMotionMatchesTheTable holds the model against the pose of the
// table, T2, which was worked out with it; its figures are rounded to 0.1.
func TestTwoPointMotionMatchesTheTable(t *testing.T) {
	for _, test := range []struct {
		front, rear float64
		pick        func(poseRow) [3]float64
	}{
		{0, 0, func(p poseRow) [3]float64 { return [3]float64{p.height, p.along, p.across} }},
		{25.7, 10.8, func(p poseRow) [3]float64 { return [3]float64{p.height2, p.along2, p.acro2} }},
	} {
		motion, err := TwoPointMotion(shopWays(test.front, test.rear))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pose {
			height, along, across, sideways, yaw := motion(unit.Length(p.travel) * mm)
			want := test.pick(p)
			for i, got := range []float64{float64(height / um), along * 1e6, across * 1e6} {
				if math.Abs(got-want[i]) > 0.4 {
					t.Errorf("X = %g mm, value %d: %.2f, want %.1f", p.travel, i, got, want[i])
				}
			}
			if sideways != 0 || yaw != 0 {
				t.Errorf("flat ways push the table sideways by %v, %v", sideways, yaw)
			}
		}
	}
}

func TestTwoPointMotionKeepsItsOwnWays(t *testing.T) {
	ways := shopWays(0, 0)
	motion, err := TwoPointMotion(ways)
	if err != nil {
		t.Fatal(err)
	}
	before, _, _, _, _ := motion(0)
	for i := range ways.Front {
		ways.Front[i] = 0
	}
	if after, _, _, _, _ := motion(0); after != before {
		t.Error("the motion changed with the caller's slice")
	}
}

// flatWays returns unworn ways of a metre.
func flatWays(depth func(u float64) float64) WornWays {
	w := WornWays{Apart: 0.2, Bearing: 0.3}
	for u := -0.5; u <= 0.501; u += 0.005 {
		w.Places = append(w.Places, unit.Length(u))
		w.Front, w.Rear = append(w.Front, unit.Length(depth(u))), append(w.Rear, unit.Length(depth(u)))
	}
	return w
}

func TestPressedMotionOnFlatWays(t *testing.T) {
	// 1200 N, 30 mm off the middle of a pad of 300 by 60 mm, here two ways of
	// 30 mm: mean pressure 66 667 Pa, peak (1 + 6 e/L) of it at the very end,
	// 106 667 Pa; the middle of the last of 60 cells has 106 000 Pa.
	ways := flatWays(func(float64) float64 { return 0 })
	bed := Bed{Stiffness: 1e11, Width: 30 * mm, Load: 1200, LoadAt: 30 * mm}
	r, err := PressedMotion(ways, bed, 0)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(r.Peak-106_000) > 20 { // the cells' second moment is 1/3600 short
		t.Errorf("peak pressure = %.1f Pa, want 106000", r.Peak)
	}
	if want := -1200 / (1e11 * 0.3 * 0.06); math.Abs(float64(r.Height)/want-1) > 1e-9 {
		t.Errorf("height = %g, want %g", float64(r.Height), want)
	}
	if r.Touching < 0.9999 || r.Along > 0 || math.Abs(r.Across) > 1e-18 {
		t.Errorf("touching %g, along %g, across %g; the loaded side must sink", r.Touching, r.Along, r.Across)
	}
	// The same load above the middle again, the table having travelled.
	moved, err := PressedMotion(ways, bed, -30*mm)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(moved.Along) > 1e-15 {
		t.Errorf("load over the middle of the saddle leaves a slope of %g", moved.Along)
	}
}

func TestPressedMotionApproachesTwoPoints(t *testing.T) {
	ways := flatWays(func(u float64) float64 { return 40e-6 * math.Exp(-math.Pow((u-0.05)/0.15, 2)) })
	motion, err := TwoPointMotion(ways)
	if err != nil {
		t.Fatal(err)
	}
	bed := Bed{Stiffness: 1e16, Width: 50 * mm, Load: 2000}
	for _, travel := range []unit.Length{-70 * mm, -50 * mm, -30 * mm} {
		height, along, _, _, _ := motion(travel)
		bed.LoadAt = -travel
		r, err := PressedMotion(ways, bed, travel)
		if err != nil {
			t.Fatal(err)
		}
		// The outermost cells lie 2.5 mm inside the saddle's ends.
		if math.Abs(float64((r.Height-height)/um)) > 1 || math.Abs(r.Along-along) > 8e-6 {
			t.Errorf("travel %g mm: height %.2f um and slope %.1f um/m, two points give %.2f and %.1f", float64(travel/mm), float64(r.Height/um), r.Along*1e6, float64(height/um), along*1e6)
		}
	}
	// In the bottom of the hollow a stiff table touches at its ends only; softer
	// faces touch more.
	bed.LoadAt = 50 * mm
	stiff, err := PressedMotion(ways, bed, -50*mm)
	if err != nil {
		t.Fatal(err)
	}
	bed.Stiffness = 1e9
	soft, err := PressedMotion(ways, bed, -50*mm)
	if err != nil {
		t.Fatal(err)
	}
	if stiff.Touching > 0.2 || soft.Touching < 0.9 {
		t.Errorf("touching %g stiff and %g soft, want few and nearly all", stiff.Touching, soft.Touching)
	}
}

func TestPressedMotionLaws(t *testing.T) {
	ways := shopWays(25.7, 10.8)
	bed := Bed{Stiffness: 2e12, Width: 40 * mm, Load: 2500}
	r, err := PressedMotion(ways, bed, 60*mm)
	if err != nil {
		t.Fatal(err)
	}
	double := bed
	double.Load, double.Stiffness = 2*bed.Load, 2*bed.Stiffness
	again, err := PressedMotion(ways, double, 60*mm)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(again.Height-r.Height)) > 1e-12 || math.Abs(again.Along-r.Along) > 1e-11 {
		t.Errorf("twice the load on twice the stiffness moved the table: %v, %v", r, again)
	}
	deeper := shopWays(25.7, 10.8)
	for i := range deeper.Front {
		deeper.Front[i] += 7 * um
		deeper.Rear[i] += 7 * um
	}
	lower, err := PressedMotion(deeper, bed, 60*mm)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(r.Height-lower.Height-7*um)) > 1e-11 || math.Abs(r.Along-lower.Along) > 1e-10 {
		t.Errorf("7 um more wear all over lowers the table by %g m", float64(r.Height-lower.Height))
	}
}

func TestContactErrors(t *testing.T) {
	good := flatWays(func(float64) float64 { return 0 })
	bad := func(change func(w *WornWays)) WornWays {
		w := good.copied()
		change(&w)
		return w
	}
	bed := Bed{Stiffness: 1e12, Width: 0.05, Load: 1000}
	for _, test := range []struct {
		name string
		ways WornWays
		want string
	}{
		{"none", WornWays{}, "ways with 0 places"},
		{"unequal", bad(func(w *WornWays) { w.Rear = w.Rear[1:] }), "equally many"},
		{"not a number", bad(func(w *WornWays) { w.Front[3] = unitNaN }), "place 4"},
		{"order", bad(func(w *WornWays) { w.Places[3] = w.Places[2] }), "does not lie beyond place 3"},
		{"bearing", bad(func(w *WornWays) { w.Bearing = 0 }), "bearing of 0 mm"},
		{"long bearing", bad(func(w *WornWays) { w.Bearing = 2 }), "longer than the ways"},
	} {
		t.Run(test.name, func(t *testing.T) {
			if _, err := TwoPointMotion(test.ways); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
			if _, err := PressedMotion(test.ways, bed, 0); err == nil {
				t.Error("no error from the pressed model")
			}
		})
	}
	for _, test := range []struct {
		bed    Bed
		travel unit.Length
		want   string
	}{
		{Bed{}, 0, "must be above zero"}, {bed, 0.4, "travel 400 mm is beyond"}, {bed, unitNaN, "beyond"},
		{Bed{Stiffness: 1e12, Width: 0.05, Load: 1000, LoadAt: 0.2}, 0, "would tip"},
		{Bed{Stiffness: 1e12, Width: 0.05, Load: 1000, LoadAcross: unitNaN}, 0, "would tip"},
	} {
		if _, err := PressedMotion(good, test.bed, test.travel); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("error = %v, want one about %q", err, test.want)
		}
	}
}

func FuzzPressedMotion(f *testing.F) {
	f.Add(1e-5, 4e-5, 0.0, 2e12, 2500.0, 0.0)
	f.Add(0.1, 0.0, 0.1, 1e-300, 1e300, 0.05)
	f.Add(-1e-3, 1e-3, 5e-2, 1e30, 1e-30, -0.1)
	f.Fuzz(func(t *testing.T, a, b, c, stiffness, load, travel float64) {
		ways := WornWays{Places: []unit.Length{-0.5, 0, 0.5}, Front: []unit.Length{unit.Length(a), unit.Length(b), unit.Length(c)},
			Rear: []unit.Length{unit.Length(c), unit.Length(a), unit.Length(b)}, Apart: 0.2, Bearing: 0.3}
		r, err := PressedMotion(ways, Bed{Stiffness: stiffness, Width: 0.05, Load: load, LoadAt: unit.Length(-travel)}, unit.Length(travel))
		if err == nil && (!finite(float64(r.Height)) || !finite(r.Along) || !finite(r.Across) || !finite(r.Peak)) {
			t.Errorf("riding %v", r)
		}
	})
}

func BenchmarkPressedMotion(b *testing.B) {
	ways, bed := shopWays(25.7, 10.8), Bed{Stiffness: 2e12, Width: 40 * mm, Load: 2500}
	for b.Loop() {
		if _, err := PressedMotion(ways, bed, 0); err != nil {
			b.Fatal(err)
		}
	}
}
