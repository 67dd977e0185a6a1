package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"gonum.org/v1/gonum/unit"
)

// truth2025 is the wear of the demonstration's ways in 2025 (T1).
func truth2025() WornWays {
	w := WornWays{Apart: 190 * mm, Bearing: 360 * mm}
	front := []float64{4.6, 18.4, 41.5, 56.3, 54.4, 43.5, 28.2, 13.8, 4.9}
	rear := []float64{2.5, 9.8, 22.6, 33.1, 35.2, 29.9, 19.8, 9.7, 3.5}
	for i := range front {
		w.Places = append(w.Places, unit.Length(120*(i-4))*mm)
		w.Front, w.Rear = append(w.Front, unit.Length(front[i])*um), append(w.Rear, unit.Length(rear[i])*um)
	}
	return w
}

var byHand = ScrapeOptions{Light: 2 * um, Heavy: 10 * um}

func TestScrapingIsTheLinearProgram(t *testing.T) {
	// The plane z = p + q x + r y under all points with the greatest height at
	// the centroid, by the simplex method: variables split in two for signs, one
	// slack a point.
	ways := truth2025()
	plan, err := PlanScraping(ways, 50*mm, byHand)
	if err != nil {
		t.Fatal(err)
	}
	n := len(ways.Places)
	a, b := mat.NewDense(2*n, 6+2*n, nil), make([]float64, 2*n)
	for i, u := range ways.Places {
		for k, depth := range []unit.Length{ways.Front[i], ways.Rear[i]} {
			row := 2*i + k
			y := 95 * (2*float64(k) - 1) / 100
			x := float64(u) * 10
			for j, c := range []float64{1, x, y} {
				a.Set(row, 2*j, c)
				a.Set(row, 2*j+1, -c)
			}
			a.Set(row, 6+row, 1)
			b[row] = -float64(depth/um) + 100 // all above zero
		}
	}
	cost := make([]float64, 6+2*n)
	cost[0], cost[1] = -1, 1
	height, _, err := lp.Simplex(cost, a, b, 1e-10, nil)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "sinks", float64(plan.Sinks/um), -2.5-(-height-100), 1e-3)
}

func TestScrapingPlan(t *testing.T) {
	ways := truth2025()
	plan, err := PlanScraping(ways, 50*mm, byHand)
	if err != nil {
		t.Fatal(err)
	}
	touching := 0
	for i := range plan.Places {
		for _, off := range []unit.Length{plan.Front[i], plan.Rear[i]} {
			if off < 0 {
				t.Errorf("metal is put on at %g mm", float64(plan.Places[i]/mm))
			}
			if off < 0.01*um {
				touching++
			}
		}
		// What is left lies in one plane.
		near(t, "front to rear", float64(-ways.Front[i]-plan.Front[i]+ways.Rear[i]+plan.Rear[i]), -float64(plan.Across)*0.19, 1e-10)
	}
	// Three, but two where the deepest place stands at the middle and the plane
	// can turn about it.
	if touching < 2 {
		t.Errorf("the plane touches %d places", touching)
	}
	if plan.FewestPasses != int(math.Ceil(float64(plan.Most/um)/10)) || plan.MostPasses != int(math.Ceil(float64(plan.Most/um)/2)) {
		t.Errorf("%d to %d passes for %g um", plan.FewestPasses, plan.MostPasses, float64(plan.Most/um))
	}
	level, err := PlanScraping(ways, 50*mm, ScrapeOptions{Light: 2 * um, Heavy: 10 * um, Level: true})
	if err != nil {
		t.Fatal(err)
	}
	if level.Across != 0 || level.Volume < plan.Volume {
		t.Errorf("level: across %g, volume %g against %g mm3", float64(level.Across), float64(level.Volume)*1e9, float64(plan.Volume)*1e9)
	}
}

func TestScrapingLaws(t *testing.T) {
	ways := truth2025()
	plan, _ := PlanScraping(ways, 50*mm, byHand)
	// A plane worn off both ways alike needs no more scraping.
	for i, u := range ways.Places {
		ways.Front[i] += 3*um + u*20e-6
		ways.Rear[i] += 7*um + u*20e-6
	}
	tipped, err := PlanScraping(ways, 50*mm, byHand)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "volume", float64(tipped.Volume)*1e9, float64(plan.Volume)*1e9, 1e-3*float64(plan.Volume)*1e9)
	// Straight ways need none.
	for i := range ways.Places {
		ways.Front[i], ways.Rear[i] = 5*um, 5*um
	}
	none, err := PlanScraping(ways, 50*mm, byHand)
	if err != nil || none.Most > 1e-12 || none.FewestPasses != 0 {
		t.Errorf("straight ways: %g um, %d passes, %v", float64(none.Most/um), none.FewestPasses, err)
	}
}

// TestAlignmentIsKept: a plane that touches one place in the middle may turn about
// it at no cost, and then keeps the direction of the surface as new.
func TestAlignmentIsKept(t *testing.T) {
	for _, lean := range []float64{0, 20e-6, -40e-6, 200e-6} {
		ways := WornWays{Apart: 190 * mm, Bearing: 300 * mm}
		for i := range 5 {
			u := unit.Length(i-2) * 200 * mm
			d := unit.Length(30-15*math.Abs(float64(i-2)))*um + u*unit.Length(lean)
			ways.Places, ways.Front, ways.Rear = append(ways.Places, u), append(ways.Front, d), append(ways.Rear, d)
		}
		plan, err := PlanScraping(ways, 50*mm, byHand)
		if err != nil {
			t.Fatal(err)
		}
		// The sides of the hollow rise by 75 um/m: up to that it can turn.
		want := -math.Copysign(math.Max(math.Abs(lean)-75e-6, 0), lean)
		near(t, "along", float64(plan.Along), want, 1e-9)
		near(t, "volume", float64(plan.Volume)*1e9, 1200, 1) // 2 ways, 50 by 800 mm, 15 um on the mean
	}
}

func TestPoints(t *testing.T) {
	// 25.4/sqrt(n), exact.
	for n, want := range map[float64]float64{10: 8.03, 16: 6.35, 25: 5.08, 40: 4.02} {
		s, err := PointSpacing(n)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "spacing", float64(s/mm), want, 0.005)
	}
	c, err := CountPoints([]int{18, 22, 20, 24}, inch*unit.Metre)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "points", c.PerSquareInch, 21, 1e-9)
	near(t, "points' u", c.U, math.Sqrt((9+1+1+9)/3.0/4), 1e-9)
	if c.Class != "good ways" || c.Least != 18 || c.Most != 24 {
		t.Errorf("%+v", c)
	}
	quarter, _ := CountPoints([]int{18, 22, 20, 24}, 2*inch*unit.Metre)
	near(t, "in squares of two inches", quarter.PerSquareInch, 21.0/4, 1e-9)
}

func TestScrapeRefuses(t *testing.T) {
	_, ways := PlanScraping(WornWays{}, 1, byHand)
	_, width := PlanScraping(truth2025(), 0, byHand)
	_, order := PlanScraping(truth2025(), 1, ScrapeOptions{Light: 2, Heavy: 1})
	_, spacing := PointSpacing(0)
	_, one := CountPoints([]int{3}, 1)
	_, negative := CountPoints([]int{3, -1}, 1)
	for want, err := range map[string]error{"0 places": ways, "wide by": width, "heavier": order, "0 points": spacing, "1 squares": one, "square 2": negative} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}
