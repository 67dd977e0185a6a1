package echarts

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// A path is written shorter and drawn at the same places.
func TestWritePath(t *testing.T) {
	tests := []struct {
		name, in string
		dx, dy   float64
		want     string
	}{
		{"a grid line", "M26.7 354.5L660 354.5", 0, 0, "M26.7 354.5H660"},
		{"a shifted box", "M0 0l30 0l0 10l-30 0Z", 5.5, 6.5, "M5.5 6.5h30v10H5.5z"},
		{"rounded before it is subtracted", "M0.04 0L0.08 0.5L0.12 9", 0, 0, "M0 0L.1 9"},
		{"a bend that stays", "M0 0L5 0.3L10 0", 0, 0, "M0 0L5 .3L10 0"},
		{"a small circle in hundredths", "M1 5A0.4 0.4 0 1 1 1 4.96", 1, 2, "M2 7a.4 .4 0 1 1 0-.04"},
		{"a curve", "M0 0C1 2 3 4 5 6", 10, 0, "M10 0c1 2 3 4 5 6"},
		{"two pieces", "M0 0L1 1M5 5L6 5", 0, 0, "M0 0L1 1M5 5H6"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			path, ok := readPath(test.in, test.dx, test.dy)
			if !ok {
				t.Fatalf("%q is not read", test.in)
			}
			if got := writePath(straightened(path)); got != test.want {
				t.Errorf("%q is written %q, want %q", test.in, got, test.want)
			}
		})
	}
	for _, bad := range []string{"X1 2", "M1", "M1 b", "M1 2 3 4", "M1 NaN"} {
		if _, ok := readPath(bad, 0, 0); ok {
			t.Errorf("%q was read as a path", bad)
		}
	}
}

// What is written is read back as what was written, and no place of a long curve
// moves by more than the rounding and the unseen bend.
func TestPathKeepsItsPlaces(t *testing.T) {
	var d strings.Builder
	for i := range 600 {
		fmt.Fprintf(&d, "%c%g %g", "ML"[min(i, 1)], float64(i)*1.1, 100+80*math.Sin(float64(i)/40))
	}
	path, ok := readPath(d.String(), 0, 0)
	if !ok {
		t.Fatal("the curve is not read")
	}
	text := writePath(straightened(path))
	if len(text) > d.Len()/4 {
		t.Errorf("%d of %d characters are left", len(text), d.Len())
	}
	short, ok := readPath(text, 0, 0)
	if !ok {
		t.Fatalf("%q is not read", text)
	}
	if again := writePath(short); again != text {
		t.Errorf("%q is written again as %q", text, again)
	}
	for _, point := range path {
		near := math.Inf(1)
		for i := 1; i < len(short); i++ {
			near = min(near, distance(point, short[i-1], short[i]))
		}
		if limit := unseenBend + 0.05*math.Sqrt2; near > limit {
			t.Fatalf("the point %v lies %.3f px from the curve, at most %.3f is meant", point.args, near, limit)
		}
	}
}
