package survey

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
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

func figureOf(t *testing.T, s *notebook.Sheet, name string) notebook.Figure {
	t.Helper()
	f, ok := s.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("the sheet has no figure %q", name)
	}
	return f
}

func verdictOf(t *testing.T, s *notebook.Sheet, name string) notebook.Verdict {
	t.Helper()
	v, ok := s.Find(name).(notebook.Verdict)
	if !ok {
		t.Fatalf("the sheet has no verdict %q", name)
	}
	return v
}

// trueWays is the motion of the made-up machine in 2025, from its wear: height,
// and slope along and across, with four contacts 360 mm apart along and 190 mm
// across.
func trueWays(x float64) (height, along, across float64) {
	bell := func(u, middle, width float64) float64 {
		return math.Exp(-0.5 * (u - middle) * (u - middle) / (width * width))
	}
	const frontGrown, rearGrown = 6.1*3.335 + 2.0*2.683, 1.8 * 6.018 // um: years times rates
	front := func(u float64) float64 {
		return (44*bell(u, 0.040, 0.210) + frontGrown*bell(u, -0.180, 0.140)) * 1e-6
	}
	rear := func(u float64) float64 {
		return (31*bell(u, 0.040, 0.210) + rearGrown*bell(u, -0.180, 0.140)) * 1e-6
	}
	right, left := 0.180-x, -0.180-x
	return -(front(right) + rear(right) + front(left) + rear(left)) / 4,
		-(front(right) + rear(right) - front(left) - rear(left)) / 2 / 0.360,
		(front(right) + front(left) - rear(right) - rear(left)) / 2 / 0.190
}

// Every figure lies within three of its own standard uncertainties of the hidden
// truth: thirteen are compared.
func TestWorkRecoversTheHiddenTruth(t *testing.T) {
	sheet := worked(t, Defaults())
	tilts := actionshop.TrueTilts()
	now := tilts[len(tilts)-1]
	c0, x0, y0 := trueWays(0)
	_, xWork, yWork := trueWays(0.180)
	left, _, _ := trueWays(-0.020)
	middle, _, _ := trueWays(0.180)
	right, _, _ := trueWays(0.380)
	truths := map[string]float64{
		"side-middle": now.LeftX, "nod-middle": now.LeftY,
		"side-work": now.LeftX - (xWork - x0), "nod-work": now.LeftY - (yWork - y0),
		"bow":    (left+right)/2 - middle,
		"hole":   0.060 * (now.LeftX - (xWork - x0)),
		"knee-x": 20e-6, "knee-y": -60e-6, "skew": 35e-6, "jaw-angle": -12e-6, "jaw-hollow": 10e-6,
		"level-x": 165e-6 + x0, "level-y": -85e-6 + y0,
	}
	if c0 > -30e-6 {
		t.Fatalf("the made-up ways are not worn: %g", c0)
	}
	for name, want := range truths {
		f := figureOf(t, sheet, name)
		if f.Unknown != "" {
			t.Errorf("%s is not known: %s", name, f.Unknown)
			continue
		}
		if miss := math.Abs(f.Value.SI - want); miss > 3*f.Value.U {
			t.Errorf("%s = %g, standard uncertainty %g; misses %g", name, f.Value.SI, f.Value.U, want)
		}
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
	if v := verdictOf(t, sheet, "suspect"); v.Tone != notebook.Good {
		t.Errorf("sound readings are suspected: %s", v.Text.In(notebook.Metric))
	}
}

// The gauges' own errors come out without having been measured on purpose:
// mismatch 34 um, level -22 um/m, square 28 um/m.
func TestGaugesAreFound(t *testing.T) {
	table, ok := worked(t, Defaults()).Find("gauges").(notebook.Table)
	if !ok {
		t.Fatal("no table of gauges")
	}
	truths := map[string]float64{"mismatch of " + theGauge: 34e-6, "zero of " + theLevel: -22e-6, "error of " + theSquare: 28e-6}
	seen := 0
	for _, row := range table.Rows {
		want, ok := truths[row[0].Words]
		if !ok {
			continue
		}
		seen++
		if q := row[1].Quantity; q == nil || math.Abs(q.SI-want) > 3*q.U {
			t.Errorf("%s = %v, true %g", row[0].Words, q, want)
		}
	}
	if seen != len(truths) {
		t.Errorf("%d of %d gauges found", seen, len(truths))
	}
}

func TestWrongReadingIsNamed(t *testing.T) {
	in := Defaults()
	in.Run[5].Middle += 0.020 * mm
	v := verdictOf(t, worked(t, in), "suspect")
	if v.Tone != notebook.Watch || !strings.Contains(v.Text.In(notebook.Metric), "the table run middle, reading 6, shows") {
		t.Errorf("verdict = %s", v.Text.In(notebook.Metric))
	}
	if inch := v.Text.In(notebook.Inch); strings.Contains(inch, "µm") || !strings.Contains(inch, "thou") {
		t.Errorf("in inch units: %s", inch)
	}
}

// What is foretold of a reading that the shop has taken once is, within its doubt,
// what it showed then.
func TestNextReadingIsForetold(t *testing.T) {
	for _, test := range []struct {
		kind, want string
		shown      float64 // um
	}{{kindRun, "reading 7 less reading 1", -14}, {kindJaw, "reading 4 less reading 1", -8}, {kindKnee, "reading 3 less reading 1", 4}} {
		in := Defaults()
		in.Costs = []CostRow{{test.kind, minutes(10)}}
		v := verdictOf(t, worked(t, in), "foretold")
		if text := v.Text.In(notebook.Metric); !strings.Contains(text, test.want) {
			t.Errorf("%s: %s", test.kind, text)
		}
		var got *notebook.Quantity
		for _, span := range v.Text {
			if span.Quantity != nil {
				got = span.Quantity
			}
		}
		if got == nil || math.Abs(got.SI*1e6-test.shown) > 3*got.U*1e6 || got.U > 3e-6 {
			t.Errorf("%s: foretold %v, the shop's reading shows %g um", test.kind, got, test.shown)
		}
	}
	in := Defaults()
	in.Costs = []CostRow{{kindSweep, minutes(6)}}
	in.Run, in.Level, in.Bar, in.Skim, in.Gauge, in.Sweep = nil, nil, nil, nil, nil, nil
	if text := verdictOf(t, worked(t, in), "foretold").Text.In(notebook.Metric); !strings.Contains(text, "cannot be foretold") {
		t.Errorf("with no head readings: %s", text)
	}
}

// Where a row of the form holds several readings, the row and the column are named.
func TestWrongReadingIsNamedByRowAndColumn(t *testing.T) {
	for want, spoil := range map[string]func(*Inputs){
		"the level in row 3, across, turned, shows":  func(in *Inputs) { in.Level[2].AcrossTurned += 20 },
		"the sweep in row 4, reading at 90°, shows":  func(in *Inputs) { in.Sweep[3].Shown[2] += 0.2 * mm },
		"the table run rear, reading 2, shows":       func(in *Inputs) { in.Run[1].Rear += 0.05 * mm },
		"the sweep in row 1, closing reading, shows": func(in *Inputs) { in.Sweep[0].Shown[8] += 0.5 * mm },
		"the level in row 7, along, shows":           func(in *Inputs) { in.Level[6].AlongNormal -= 25 },
	} {
		in := Defaults()
		spoil(&in)
		if text := verdictOf(t, worked(t, in), "suspect").Text.In(notebook.Metric); !strings.Contains(text, want) {
			t.Errorf("%q is not in: %s", want, text)
		}
	}
}

// With some kinds of reading missing the page shows the same items and says what
// it cannot tell.
func TestFewReadings(t *testing.T) {
	all := worked(t, Defaults())
	tests := []struct {
		name         string
		change       func(*Inputs)
		unknown      string
		question     string
		nextContains string
	}{
		{"sweeps only", func(in *Inputs) { *in = only(*in, kindSweep) }, "bow", "", "Nothing read so far tells the bow of the part. Take next:"},
		{"one sweep off the middle", func(in *Inputs) { *in = only(*in, kindSweep); in.Sweep = in.Sweep[5:] }, "side-middle", "cannot tell the spindle tilt along x", ""},
		{"runs only", func(in *Inputs) { *in = only(*in, kindRun) }, "side-work", "", ""},
		{"level once", func(in *Inputs) { *in = only(*in, kindLevel); in.Goal = goalKneeY }, "knee-y", "", "the square, both ways"},
		{"gauge only", func(in *Inputs) { *in = only(*in, kindGauge); in.Goal = goalSide }, "side-work", "", "sweep at X = 180"},
		{"bearing not known", func(in *Inputs) { in.Bearing = 0 }, "", "", ""},
		{"knee only", func(in *Inputs) { *in = only(*in, kindKnee) }, "bow", "", ""},
		{"no costs", func(in *Inputs) { in.Costs = nil }, "", "", "no reading that could be taken"},
		{"spindle as found", func(in *Inputs) { in.Head = found }, "", "", ""},
		{"no such head", func(in *Inputs) { in.Sweep, in.Gauge, in.Head = in.Sweep[1:], in.Gauge[2:], found }, "side-middle", "", ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			sheet := worked(t, in)
			for _, item := range all.Items {
				if sheet.Find(item.ItemName()) == nil {
					t.Errorf("item %q is missing", item.ItemName())
				}
			}
			if test.unknown != "" && figureOf(t, sheet, test.unknown).Unknown == "" {
				t.Errorf("%s is known: %+v", test.unknown, figureOf(t, sheet, test.unknown).Value)
			}
			if text := verdictOf(t, sheet, "cannot-tell").Text.In(notebook.Metric); !strings.Contains(text, test.question) {
				t.Errorf("open questions: %s", text)
			}
			if text := verdictOf(t, sheet, "next-best").Text.In(notebook.Metric); !strings.Contains(text, test.nextContains) {
				t.Errorf("next: %s", text)
			}
		})
	}
}

// only returns the inputs with the tables of all other kinds empty.
func only(in Inputs, kind string) Inputs {
	kept := in
	kept.Bearing = 0
	kept.Sweep, kept.Gauge, kept.Run, kept.Bar, kept.Level, kept.Skim, kept.Knee, kept.Jaw, kept.Holes = nil, nil, nil, nil, nil, nil, nil, nil, nil
	switch kind {
	case kindSweep:
		kept.Sweep = in.Sweep
	case kindGauge:
		kept.Gauge = in.Gauge
	case kindRun:
		kept.Run = in.Run
	case kindLevel:
		kept.Level = in.Level
	case kindKnee:
		kept.Knee = in.Knee
	case kindJaw:
		kept.Jaw = in.Jaw
	case kindHoles:
		kept.Holes = in.Holes
	}
	return kept
}

// Knowing the bearing, sweeps alone tell something of the heights: a table that
// rests on two places rises as its ways do, a bearing apart.
func TestBearingTiesHeightsToSlopes(t *testing.T) {
	in := only(Defaults(), kindSweep)
	in.Bearing = 360 * mm
	left, _, _ := trueWays(-0.020)
	middle, _, _ := trueWays(0.180)
	right, _, _ := trueWays(0.380)
	f := figureOf(t, worked(t, in), "bow")
	if f.Unknown != "" || math.Abs(f.Value.SI-((left+right)/2-middle)) > 3*f.Value.U {
		t.Errorf("bow = %g, standard uncertainty %g (%s), true %g", f.Value.SI, f.Value.U, f.Unknown, (left+right)/2-middle)
	}
	both := Defaults()
	with := figureOf(t, worked(t, both), "side-work")
	both.Bearing = 0
	without := figureOf(t, worked(t, both), "side-work")
	if !(with.Value.U < without.Value.U) {
		t.Errorf("the bearing leaves the side tilt at the work known to %g, was %g", with.Value.U, without.Value.U)
	}
}

func TestBadInput(t *testing.T) {
	tests := []struct {
		name        string
		change      func(*Inputs)
		field, want string
	}{
		{"no readings", func(in *Inputs) { *in = only(*in, "") }, "", "no readings"},
		{"not a number", func(in *Inputs) { in.Run[3].Middle = unit.Length(math.NaN()) }, "run", "table run middle, reading 4"},
		{"uncertainty", func(in *Inputs) { in.LevelU = 0 }, "level", "standard uncertainty"},
		{"radius", func(in *Inputs) { in.Radius = 0 }, "sweeps", "radius"},
		{"gain", func(in *Inputs) { in.Gain = 0 }, "sweeps", "sweep 1"},
		{"far travel", func(in *Inputs) { in.Bar[0].Travel = 1000 }, "", "travel"},
		{"part of no length", func(in *Inputs) { in.Length = 0 }, "length", "length of the part"},
		{"free reading", func(in *Inputs) { in.Costs[0].Time = 0 }, "costs", "minutes"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			_, err := Work(in)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func TestExercises(t *testing.T) {
	sheet := worked(t, Defaults())
	for _, name := range []string{"exercise-redundancy", "exercise-next"} {
		e, ok := sheet.Find(name).(notebook.Exercise)
		if !ok {
			t.Fatalf("no exercise %q", name)
		}
		if !(e.Answer.SI > 0) {
			t.Errorf("%s: answer %g", name, e.Answer.SI)
		}
		for _, wrong := range e.Wrong {
			if math.Abs(wrong.Value.SI-e.Answer.SI) < 0.02*e.Answer.SI {
				t.Errorf("%s: a wrong turn gives the answer", name)
			}
		}
	}
	// The share that shows is what a wrong reading really does: made 10 um too
	// high, the misfit grows by the answer.
	in := Defaults()
	before, err := adjust(in)
	if err != nil {
		t.Fatal(err)
	}
	in.Run[6].Middle += 10 * um
	after, err := adjust(in)
	if err != nil {
		t.Fatal(err)
	}
	e := sheet.Find("exercise-redundancy").(notebook.Exercise)
	if grown := residualOf(after) - residualOf(before); math.Abs(grown-e.Answer.SI) > 1e-10 {
		t.Errorf("the misfit grows by %g, the exercise says %g", grown, e.Answer.SI)
	}
}

// residualOf is the misfit of reading 7 of the run on the middle track.
func residualOf(a *squaring.Adjustment) float64 {
	for _, r := range a.Readings {
		if r.Observation == "table run middle" && r.Number == 7 {
			return r.Residual
		}
	}
	return math.NaN()
}

func FuzzWork(f *testing.F) {
	f.Add(0.0, 0.02, 0.11, -0.18, 0.4, uint8(0))
	f.Add(-0.35, -0.01, 0.19, 0.3, 0.6, uint8(3))
	f.Add(1e-9, 1e-9, 1e-6, 0.0, 1e-3, uint8(5))
	f.Fuzz(func(t *testing.T, travel, reading, radius, place, length float64, kind uint8) {
		in := Defaults()
		if k := int(kind) % 11; k < 9 {
			in = only(in, kindNames()[k])
		}
		if len(in.Run) > 0 {
			in.Run[2].Travel, in.Run[4].Rear = unit.Length(travel), unit.Length(reading)
		}
		if len(in.Sweep) > 0 {
			in.Sweep[0].Travel, in.Sweep[1].Shown[3] = unit.Length(travel), unit.Length(reading)
		}
		in.Radius, in.Place, in.Length = unit.Length(radius), unit.Length(place), unit.Length(length)
		sheet, err := Work(in)
		if err != nil {
			return
		}
		if err := sheet.Validate(); err != nil {
			t.Error(err)
		}
	})
}

func BenchmarkWork(b *testing.B) {
	in := Defaults()
	for b.Loop() {
		if _, err := Work(in); err != nil {
			b.Fatal(err)
		}
	}
}
