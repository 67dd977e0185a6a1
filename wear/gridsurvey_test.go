package wear

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// gridReadings returns the steps of the 5 by 5 plate, each with an error.
func gridReadings(u, zeroX, zeroY float64, normal func() float64) (GridReadings, []SurfacePoint) {
	points := gridOf(plate25)
	r := GridReadings{U: Slope(u)}
	for i := range 5 {
		r.X, r.Y = append(r.X, points[i].X), append(r.Y, points[5*i].Y)
	}
	slope := func(a, b SurfacePoint, run unit.Length, zero float64) Slope {
		return Slope(float64(b.Height-a.Height)/float64(run) + zero + u*normal())
	}
	for j := range 5 {
		along, across := []Slope{}, []Slope{}
		for i := range 4 {
			along = append(along, slope(points[5*j+i], points[5*j+i+1], r.X[i+1]-r.X[i], zeroX))
			across = append(across, slope(points[5*i+j], points[5*(i+1)+j], r.Y[i+1]-r.Y[i], zeroY))
		}
		r.Along, r.Across = append(r.Along, along), append(r.Across, across)
	}
	return r, points
}

func TestGridWithoutErrors(t *testing.T) {
	for _, zero := range []float64{0, 3e-4} { // a level's zero is a tilt and drops out
		readings, _ := gridReadings(0, zero, -2*zero, func() float64 { return 0 })
		s, err := SurveyGrid(readings)
		if err != nil {
			t.Fatal(err)
		}
		// The case's own answers: 12.16 um by least squares, 12 by minimum zone.
		for reference, want := range map[Reference]float64{LeastSquares: 12.16, MinimumZone: 12} {
			f, err := s.Flatness(reference)
			if err != nil {
				t.Fatal(err)
			}
			near(t, reference.String(), float64(f.Value/um), want, 1e-4)
		}
		if s.Scatter > 1e-12 || s.Freedom != 40-24 {
			t.Errorf("exact readings: scatter %g with %d degrees of freedom, want 0 with 16", float64(s.Scatter), s.Freedom)
		}
	}
}

// TestGridOfATwist: the surface that lines with zeros of their own cannot see.
func TestGridOfATwist(t *testing.T) {
	r := GridReadings{X: []unit.Length{0, 100 * mm, 300 * mm}, Y: []unit.Length{0, 200 * mm}, U: 1e-6}
	const twist = 1e-4 // 1/m
	r.Along = [][]Slope{{0, 0}, {twist * 0.2, twist * 0.2}}
	r.Across = [][]Slope{{0}, {twist * 0.1}, {twist * 0.3}}
	s, err := SurveyGrid(r)
	if err != nil {
		t.Fatal(err)
	}
	wind := s.Points[0].Height - s.Points[2].Height - s.Points[3].Height + s.Points[5].Height
	near(t, "wind", float64(wind/um), twist*0.3*0.2*1e6, 1e-9)
}

func TestGridCoverage(t *testing.T) {
	_, points := gridReadings(0, 0, 0, func() float64 { return 0 })
	plane, err := newPlaneFrame(points)
	if err != nil {
		t.Fatal(err)
	}
	var scatter, count float64
	for _, k := range []int{0, 12, 17} {
		truth := points[k].Height - plane.plane.At(points[k].X, points[k].Y)
		coverage(t, fmt.Sprintf("height %d of a grid", k), uint64(90+k), surveys()/2, func(normal func() float64) bool {
			readings, _ := gridReadings(5e-6, 1e-4, 0, normal)
			s, err := SurveyGrid(readings)
			if err != nil {
				t.Fatal(err)
			}
			scatter, count = scatter+float64(s.Scatter*s.Scatter), count+1
			return math.Abs(float64(s.Points[k].Height-truth)) <= 1.96*math.Sqrt(s.Covariance.At(k, k))
		})
	}
	near(t, "scatter", math.Sqrt(scatter/count), 5e-6, 0.1e-6)
}

func TestGridRefuses(t *testing.T) {
	try := func(change func(r *GridReadings)) error {
		r, _ := gridReadings(1e-6, 0, 0, func() float64 { return 0 })
		change(&r)
		_, err := SurveyGrid(r)
		return err
	}
	for want, err := range map[string]error{
		"grid of 1 by 5":  try(func(r *GridReadings) { r.X = r.X[:1] }),
		"4 rows":          try(func(r *GridReadings) { r.Along = r.Along[:4] }),
		"place 2":         try(func(r *GridReadings) { r.X[1] = r.X[0] }),
		"has 3 steps":     try(func(r *GridReadings) { r.Across[2] = r.Across[2][:3] }),
		"step 1":          try(func(r *GridReadings) { r.Along[0][0] = 2 }),
		"must be from 0":  try(func(r *GridReadings) { r.U = -1 }),
		"line 1 across":   try(func(r *GridReadings) { r.Across[0][1] = Slope(math.NaN()) }),
		"5 by 100 places": try(func(r *GridReadings) { r.Y = make([]unit.Length, 100) }),
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}

func BenchmarkSurveyGrid(b *testing.B) {
	r := GridReadings{U: 1e-6}
	for i := range 20 {
		r.X, r.Y = append(r.X, unit.Length(i)*50*mm), append(r.Y, unit.Length(i)*50*mm)
		r.Along, r.Across = append(r.Along, make([]Slope, 19)), append(r.Across, make([]Slope, 19))
	}
	for b.Loop() {
		if _, err := SurveyGrid(r); err != nil {
			b.Fatal(err)
		}
	}
}
