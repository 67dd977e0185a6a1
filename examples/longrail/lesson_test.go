package longrail

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
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

func figure(t *testing.T, s *notebook.Sheet, name string) notebook.Quantity {
	t.Helper()
	f, ok := s.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure %q", name)
	}
	return f.Value
}

func TestWorkRecoversTheHiddenTruth(t *testing.T) {
	sheet := worked(t, Defaults())
	// Over 600 mm in the middle of the table the true motion bows 13.0 um.
	if q := figure(t, sheet, "bow-here"); math.Abs(q.SI-13.0e-6) > 2*q.U {
		t.Errorf("bow %g, u %g", q.SI, q.U)
	}
	best, two := figure(t, sheet, "bow-best"), figure(t, sheet, "bow-two")
	if !(math.Abs(best.SI) < 13e-6) || !(math.Abs(two.SI) < math.Abs(best.SI)) {
		t.Errorf("best %g, two settings %g", best.SI, two.SI)
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestTheAnswers(t *testing.T) {
	tests := []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"short part", func(in *Inputs) { in.Length = 100 * mm; in.Overlap = 20 * mm; in.Tolerance = 10 * um }, "where you would"},
		{"loose tolerance", func(in *Inputs) { in.Tolerance = 100 * um }, "where you would"},
		{"too fine", func(in *Inputs) { in.Tolerance = 1 * um }, "Not on this machine"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			v := worked(t, in).Find("answer").(notebook.Verdict)
			if !strings.Contains(v.Text.In(notebook.Metric), test.want) {
				t.Errorf("answer: %s", v.Text.In(notebook.Metric))
			}
		})
	}
}

func TestExerciseAnswers(t *testing.T) {
	sheet := worked(t, Defaults())
	for _, name := range []string{"exercise-half", "exercise-joint"} {
		e, ok := sheet.Find(name).(notebook.Exercise)
		if !ok {
			t.Fatalf("no exercise %q", name)
		}
		for _, wrong := range e.Wrong {
			if math.Abs(wrong.Value.SI-e.Answer.SI) < 0.05*math.Abs(e.Answer.SI) {
				t.Errorf("%s: a wrong turn gives the answer", name)
			}
		}
	}
	// 1 um times root 2 over 150 mm, times 375 mm.
	if e := sheet.Find("exercise-joint").(notebook.Exercise); math.Abs(e.Answer.SI-math.Sqrt2*1e-6*2.5) > 1e-12 {
		t.Errorf("joint %g", e.Answer.SI)
	}
}

func TestBadInput(t *testing.T) {
	tests := []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"too long", func(in *Inputs) { in.Length = 900 * mm }, "part of 900 mm"},
		{"off the table", func(in *Inputs) { in.Place = 300 * mm }, "middle at 300 mm"},
		{"overlap too long", func(in *Inputs) { in.Overlap = 600 * mm }, "overlap of 600 mm"},
		{"two stations", func(in *Inputs) { in.Readings = in.Readings[:2] }, "from 3 to"},
		{"one place twice", func(in *Inputs) { in.Readings[1].Travel = in.Readings[0].Travel }, "two stations"},
		{"not a number", func(in *Inputs) { in.Readings[3].Turned = math.NaN() }, "station 4"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			test.change(&in)
			if _, err := Work(in); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}

func FuzzWork(f *testing.F) {
	f.Add(8.5, -10.5, 0.0, 0.6, 0.15, 0.0)
	f.Add(1000.0, -1000.0, 0.1, 0.01, 0.001, 0.3)
	f.Fuzz(func(t *testing.T, normal, turned, travel, length, overlap, place float64) {
		in := Defaults()
		in.Readings[3] = Reading{unit.Length(travel), normal, turned}
		in.Length, in.Overlap, in.Place = unit.Length(length), unit.Length(overlap), unit.Length(place)
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
