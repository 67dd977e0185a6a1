package plate

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func worked(t *testing.T, in Inputs) *notebook.Sheet {
	t.Helper()
	sheet, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := sheet.Validate(); err != nil {
		t.Fatal(err)
	}
	return sheet
}

func TestWork(t *testing.T) {
	sheet := worked(t, Defaults())
	f, ok := sheet.Find("zone").(notebook.Figure)
	// 5.617 um over the outer lines by the classical way; all eight by least
	// squares come within the errors of reading.
	if !ok || math.Abs(f.Value.SI-5.6e-6) > 2*f.Value.U+0.05e-6 || !(f.Value.U > 0) {
		t.Errorf("zone = %g, standard uncertainty %g", f.Value.SI, f.Value.U)
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
	if v, ok := sheet.Find("closure").(notebook.Verdict); !ok || v.Tone != notebook.Good {
		t.Errorf("closure verdict: %v", v.Text.In(notebook.Metric))
	}
}

func TestWrongReadingOpensTheClosure(t *testing.T) {
	in := Defaults()
	in.Lines[6][1].Slope += 6 * wear.ArcSecond
	in.Lines[6][2].Slope += 6 * wear.ArcSecond
	v, ok := worked(t, in).Find("closure").(notebook.Verdict)
	if !ok || v.Tone != notebook.Watch || !strings.Contains(v.Text.In(notebook.Metric), "W to E misses") {
		t.Errorf("closure verdict: %v", v.Text.In(notebook.Metric))
	}
}

// TestClosureUncertainty compares it with repeated surveys.
func TestClosureUncertainty(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 5))
	in := Defaults()
	base, err := work(in)
	if err != nil {
		t.Fatal(err)
	}
	const draws = 300
	var squares [2]float64
	for range draws {
		drawn := in
		for k := range drawn.Lines {
			drawn.Lines[k] = append([]Step(nil), in.Lines[k]...)
			for i := range drawn.Lines[k] {
				drawn.Lines[k][i].Slope += wear.Slope(random.NormFloat64()) * in.ReadingU
			}
		}
		r, err := work(drawn)
		if err != nil {
			t.Fatal(err)
		}
		for k := range squares {
			squares[k] += math.Pow(float64(r.least.Closure[k]-base.least.Closure[k]), 2) / draws
		}
	}
	for k := range squares { // known to 4 %
		if ratio := math.Sqrt(squares[k]) / float64(base.closureU[k]); math.Abs(ratio-1) > 0.13 {
			t.Errorf("closure %d scatters by %.2f of its stated uncertainty", k, ratio)
		}
	}
}

func TestBadInput(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"odd", func(in *Inputs) { in.Lines[6] = in.Lines[6][:7] }, "line WtoE of the plate has 7 steps"},
		{"empty", func(in *Inputs) { in.Lines[0] = nil }, "line SWtoNE of the plate has 0 steps"},
		{"length", func(in *Inputs) { in.Length = 0 }, "a side of the plate is 0 mm"},
		{"not a number", func(in *Inputs) { in.Lines[2][1].Slope = wear.Slope(math.NaN()) }, "line SWtoSE of the plate, step 2"},
	} {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func TestLevelAgreesWithTheLines(t *testing.T) {
	sheet, err := Work(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	// The heights from which the level's readings were made, as the classical way
	// has them at the nine places.
	var made []wear.SurfacePoint
	for k, h := range []float64{4.645, 0.208, 4.208, 5.857, 0.766, 5.566, 4.208, 0.499, 4.645} {
		made = append(made, wear.SurfacePoint{X: unit.Length(k%3) * 400 * mm, Y: unit.Length(k/3) * 300 * mm, Height: unit.Length(h) * um})
	}
	truth, err := wear.FlatnessOf(made, wear.MinimumZone)
	if err != nil {
		t.Fatal(err)
	}
	f := sheet.Find("by-level").(notebook.Figure)
	if math.Abs(f.Value.SI-float64(truth.Value)) > 2.5*f.Value.U || f.Value.U > 0.6e-6 {
		t.Errorf("by level %g, standard uncertainty %g, made from %g", f.Value.SI, f.Value.U, float64(truth.Value))
	}
}
