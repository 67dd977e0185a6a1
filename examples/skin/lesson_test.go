package skin

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/ownpart"
	"example.org/thouspan/examples/ownpart/ownparttest"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

func work(t *testing.T, in Inputs) *notebook.Sheet {
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

func value(t *testing.T, sheet *notebook.Sheet, name string) notebook.Quantity {
	t.Helper()
	f, ok := sheet.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure called %s", name)
	}
	return f.Value
}

func TestKnob(t *testing.T) {
	sheet := work(t, Defaults())
	// By hand: face pi 16, bead by quadrature, cylinder pi 12 x 5, cove by
	// Pappus, shaft pi 6 x 11, end pi 9; then the 0.5 mm fillet, a quarter ring
	// in the place of a sharp corner.
	bead := 0.0
	const n = 100000
	// Centre of the bead of radius 4 through (0, 4) and (3, 6).
	chord := math.Hypot(3, 2)
	h := math.Sqrt(16 - chord*chord/4)
	xc, rc := 1.5+2/chord*h, 5-3/chord*h
	start := math.Atan2(4-rc, 0-xc)
	sweep := 2 * math.Asin(chord/8)
	for i := range n {
		bead += 2 * math.Pi * (rc + 4*math.Sin(start-sweep*(float64(i)+0.5)/n)) * 4 * sweep / n
	}
	cove := 2 * math.Pi * (math.Pi / 2 * 3) * (6 - 3*2/math.Pi)
	want := math.Pi*16 + bead + math.Pi*60 + cove + math.Pi*66 + math.Pi*9
	want += 2*math.Pi*0.5*(2.5*math.Pi/2+0.5) - math.Pi*(9-2.5*2.5) - math.Pi*6*0.5
	if got := value(t, sheet, "drawn").SI * 1e6; !scalar.EqualWithinRel(got, want, 1e-6) {
		t.Errorf("area = %v mm2, want %v", got, want)
	}
	if v := sheet.Find("agree").(notebook.Verdict); v.Tone != notebook.Good {
		t.Errorf("the demo's drawing and foil: %s", v.Tone)
	}
	best, drawn, foil := value(t, sheet, "best"), value(t, sheet, "drawn"), value(t, sheet, "foil")
	if !(best.U < drawn.U && best.U < foil.U) || (best.SI-drawn.SI)*(best.SI-foil.SI) > 0 {
		t.Errorf("together %v +- %v from %v +- %v and %v +- %v", best.SI, best.U, drawn.SI, drawn.U, foil.SI, foil.U)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestDisagreement(t *testing.T) {
	in := Defaults()
	in.WrapMass *= 1.4
	if v := work(t, in).Find("agree").(notebook.Verdict); v.Tone != notebook.Watch {
		t.Errorf("foil that is 40 %% heavier: %s, want watch", v.Tone)
	}
}

func TestItemsDoNotDependOnReadings(t *testing.T) {
	names := func(in Inputs) string {
		var all []string
		for _, item := range work(t, in).Items {
			all = append(all, item.ItemName()+" "+item.Kind())
		}
		return strings.Join(all, "\n")
	}
	want := names(Defaults())
	for name, change := range map[string]func(in *Inputs){
		"exact":      func(in *Inputs) { in.Good, in.FitU, in.PieceAreaU = 0, 0, 0 },
		"knurled":    func(in *Inputs) { in.Knurled = 0.4 },
		"own part":   func(in *Inputs) { in.Own.File = notebook.Attachment{Name: "block.stl", Data: block(t)} },
		"all knurl":  func(in *Inputs) { in.Knurled = 1 },
		"two points": func(in *Inputs) { in.Points = in.Points[3:5]; in.Points[0].Fillet = nil },
		"a ball": func(in *Inputs) {
			r := 5 * mm
			in.Points = []Point{{Place: -5 * mm, How: straight}, {Place: 5 * mm, How: bead, Radius: &r}}
		},
	} {
		in := Defaults()
		change(&in)
		if got := names(in); got != want {
			t.Errorf("%s: the sheet's items change:\n%s", name, got)
		}
	}
}

func TestProblemsNameTheirField(t *testing.T) {
	points := func(rows string) string {
		return `"points": {"units": {"place":"mm","diameter":"mm","radius":"mm","fillet":"mm"}, "rows": [` + rows + `]}`
	}
	for _, test := range []struct {
		inputs, column string
		row            int
		message        string
	}{
		{points(`[0, 8, "straight", null, null], [3, 12, "bead (bulging)", null, null]`), "radius", 2, "needs its radius"},
		{points(`[0, 8, "straight", null, null], [30, 12, "cove (hollow)", 2, null]`), "", 0, "too small to span"},
		{points(`[0, 0, "straight", null, null], [30, 0, "straight", null, null]`), "", 0, "sweeps no area"},
		{points(`[0, 8, "straight", null, null], [3, 12, "straight", null, 1]`), "", 0, "not between two pieces"},
	} {
		_, err := Lesson().Work([]byte(`{"lesson": "skin", "format": 1, "inputs": {` + test.inputs + `}}`))
		var input *notebook.InputError
		if !errors.As(err, &input) || input.Problems[0].Field != "points" || input.Problems[0].Column != test.column || input.Problems[0].Row != test.row || !strings.Contains(input.Problems[0].Message, test.message) {
			t.Errorf("%s: %v, want row %d, column %q with %q", test.inputs, err, test.row, test.column, test.message)
		}
	}
}

// block is a block of 10 by 20 by 30 as an STL file.
func block(t *testing.T) []byte {
	m, err := plating.Block{X: 10 * mm, Y: 20 * mm, Z: 30 * mm, Steps: 8}.Mesh(1)
	if err != nil {
		t.Fatal(err)
	}
	return ownparttest.STL(m)
}

func TestOwnPart(t *testing.T) {
	in := Defaults()
	in.Points = nil // not used
	in.Own.File = notebook.Attachment{Name: "block.stl", Data: block(t)}
	sheet := work(t, in)
	if got := value(t, sheet, "drawn"); !scalar.EqualWithinRel(got.SI, 22e-4, 1e-6) || !scalar.EqualWithinRel(got.U, 120e-3*math.Pi*0.1e-3/(2*math.Sqrt(3)), 1e-6) {
		t.Errorf("area = %v with u = %v, want 22 cm2 with the edges' share", got.SI, got.U)
	}
	if got := value(t, sheet, "volume"); !scalar.EqualWithinRel(got.SI, 6e-6, 1e-6) {
		t.Errorf("volume = %v, want 6 cm3", got.SI)
	}
	if text := sheet.Find("own").(notebook.Verdict).Text.In(notebook.Metric); !strings.Contains(text, "10.0\u00a0mm by 20.0\u00a0mm by 30.0\u00a0mm") {
		t.Errorf("says %q", text)
	}
	if svg := sheet.Find("part").(notebook.Drawing).SVG; strings.Count(svg, "brass") < 100 {
		t.Errorf("the part is drawn with %d faces", strings.Count(svg, "brass"))
	}
	in.Own.Unit = ownpart.Inch
	if got := value(t, work(t, in), "drawn"); !scalar.EqualWithinRel(got.SI, 22e-4*25.4*25.4, 1e-6) {
		t.Errorf("in inches the area = %v", got.SI)
	}
	in.Own.File.Data = []byte("knob")
	if _, err := Work(in); err == nil || !strings.Contains(err.Error(), "does not begin with the word solid") {
		t.Errorf("a file that is none: %v", err)
	}
}

// FuzzProfile holds that any profile gives an error or a sheet that can be
// shown.
func FuzzProfile(f *testing.F) {
	f.Add(0.0, 8.0, 3.0, 12.0, 4.0, 20.0, 6.0, 0.5)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, x0, d0, x1, d1, radius, x2, d2, fillet float64) {
		for _, v := range []float64{x0, d0, x1, d1, radius, x2, d2, fillet} {
			if math.IsNaN(v) || math.Abs(v) > 2000 { // the form refuses these
				return
			}
		}
		length := func(x float64) unit.Length { return unit.Length(x) * mm }
		in := Defaults()
		r, fl := length(radius), length(math.Abs(fillet))
		in.Points = []Point{{Place: length(x0), Diameter: length(math.Abs(d0)), How: straight},
			{Place: length(x1), Diameter: length(math.Abs(d1)), How: bead, Radius: &r},
			{Place: length(x2), Diameter: length(math.Abs(d2)), How: straight, Fillet: nil}}
		if fillet > 0 {
			in.Points[1].How, in.Points[1].Radius, in.Points[1].Fillet = straight, nil, &fl
		}
		sheet, err := Work(in)
		if err != nil {
			return
		}
		if err := sheet.Validate(); err != nil {
			t.Errorf("points %v: %v", in.Points, err)
		}
	})
}
