package diagonals

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

func work(t *testing.T, change func(*Inputs)) *notebook.Sheet {
	t.Helper()
	in := Defaults()
	change(&in)
	s, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	return s
}

func TestRecoversTruth(t *testing.T) {
	s := work(t, func(*Inputs) {})
	q := s.Find("skew").(notebook.Figure).Value
	if math.Abs(q.SI-actionshop.Holes().TrueSkew) > 2*q.U || math.Abs(q.U-7.23e-6) > 0.01e-6 {
		t.Errorf("skew %g u %g, want 35e-6 u 7.2e-6", q.SI, q.U)
	}
	for _, check := range s.Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v", check.Name, check.Computed, check.Row.Value)
		}
	}
}

// A leaning rectangle stretched by its screws is recovered exactly, and in the
// right sense: the tool drifts left going back when the corner is open.
func TestSkewAndScaleExactly(t *testing.T) {
	const a, b, skew, stretch = 0.3, 0.16, 1.2e-3, 4e-4
	dx, dy := -b*math.Sin(skew), b*math.Cos(skew)
	in := Defaults()
	in.AC = []Reading{{unit.Length((1 + stretch) * math.Hypot(a+dx, dy))}}
	in.BD = []Reading{{unit.Length((1 + stretch) * math.Hypot(dx-a, dy))}}
	w, err := in.work()
	if err != nil {
		t.Fatal(err)
	}
	// The stretch acts on the skew by twice itself.
	if math.Abs(float64(w.skew.Slope)/(math.Sin(skew)*(1+stretch)*(1+stretch))-1) > 1e-9 || math.Abs(float64(w.scale.Slope)-stretch) > 1e-12 {
		t.Errorf("skew %v, scale %v", w.skew.Slope, w.scale.Slope)
	}
	in.AC, in.BD = in.BD, in.AC
	mirrored, err := in.work()
	if err != nil || math.Abs(float64(mirrored.skew.Slope+w.skew.Slope)) > 1e-15 {
		t.Errorf("mirrored: %v, %v", mirrored.skew.Slope, err)
	}
}

// Corrected holes lie on a rectangle when a machine with that skew drills them.
func TestCorrectionMakesItSquare(t *testing.T) {
	in := Defaults()
	w, err := in.work()
	if err != nil {
		t.Fatal(err)
	}
	shift := float64(w.skew.Slope.Rise(in.Y))
	at := func(x, y float64) (float64, float64) { return x - y*float64(w.skew.Slope), y }
	ax, ay := at(0, 0)
	cx, cy := at(float64(in.X)+shift, float64(in.Y))
	bx, by := at(float64(in.X), 0)
	dx, dy := at(shift, float64(in.Y))
	if d := math.Hypot(cx-ax, cy-ay) - math.Hypot(bx-dx, by-dy); math.Abs(d) > 1e-12 {
		t.Errorf("the corrected diagonals differ by %g m", d)
	}
}

func TestVerdicts(t *testing.T) {
	for tone, change := range map[notebook.Tone]func(*Inputs){
		notebook.Good:  func(in *Inputs) { in.BD, in.Limit = in.AC, 100*squaring.Microradian },
		notebook.Stop:  func(in *Inputs) { in.Limit = 5 * squaring.Microradian },
		notebook.Watch: func(in *Inputs) {},
	} {
		if v := work(t, change).Find("answer").(notebook.Verdict); v.Tone != tone {
			t.Errorf("%s: %s %s", tone, v.Tone, v.Text.In(notebook.Metric))
		}
	}
}

func TestBadInputs(t *testing.T) {
	for inputs, want := range map[string]string{
		`"x": "300"`:                      "unit",
		`"ac": {"rows": [["399.995"]]}`:   "slipped digit",
		`"corners": {"rows": [[1], [2]]}`: "4",
		`"y": "1 mm"`:                     "below the least",
	} {
		_, err := Lesson().Work([]byte(`{"lesson": "diagonals", "format": 1, "inputs": {` + inputs + `}}`))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want a message with %q", inputs, err, want)
		}
	}
}
