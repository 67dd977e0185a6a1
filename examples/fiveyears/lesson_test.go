package fiveyears

import (
	"math"
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

func verdict(t *testing.T, s *notebook.Sheet, name string) notebook.Verdict {
	t.Helper()
	v, ok := s.Find(name).(notebook.Verdict)
	if !ok {
		t.Fatalf("no verdict %q", name)
	}
	return v
}

func TestWorkRecoversTheHiddenTruth(t *testing.T) {
	in := Defaults()
	o, err := look(in)
	if err != nil {
		t.Fatal(err)
	}
	// Truth: 2.0 um a year by the calendar, 6.6 um in 1000 h; 51.1 um deep in
	// May 2025; 70 um after 18.9 um more, in 2860 h.
	if miss := math.Abs(float64(o.line.Rate) - 6.6*float64(wear.MicrometrePerThousandHour)); miss > 2*float64(o.line.RateU) {
		t.Errorf("rate %g, u %g", float64(o.line.Rate), float64(o.line.RateU))
	}
	truth := o.now.Hours + 2860*hour
	if o.reach.Kind != wear.Bounded || truth < o.reach.Low || truth > o.reach.High {
		t.Errorf("%v from %g to %g h, truth %g h", o.reach.Kind, float64(o.reach.Low/hour), float64(o.reach.High/hour), float64(truth/hour))
	}
	sheet := worked(t, in)
	// The scenario's conclusion: no rebuild yet.
	if v := verdict(t, sheet, "pays"); v.Tone != notebook.Stop {
		t.Errorf("pays: %s", v.Text.In(notebook.Metric))
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestZeroRateNeverReaches(t *testing.T) {
	in := Defaults()
	for i := range in.Depths {
		in.Depths[i].Depth = 25 * um
	}
	sheet := worked(t, in)
	v := verdict(t, sheet, "answer")
	if !strings.Contains(v.Text.In(notebook.Metric), "never, or not before") {
		t.Errorf("answer: %s", v.Text.In(notebook.Metric))
	}
	if f := sheet.Find("break-even").(notebook.Figure); !strings.Contains(f.Unknown, "never") {
		t.Errorf("break-even: %q", f.Unknown)
	}
	if v := verdict(t, sheet, "stopped"); !strings.Contains(v.Text.In(notebook.Metric), "never pay") {
		t.Errorf("stopped: %s", v.Text.In(notebook.Metric))
	}
}

func TestTheSevenAnswers(t *testing.T) {
	tests := []struct {
		name   string
		depths []unit.Length
		limit  unit.Length
		want   string
	}{
		{"bounded", []unit.Length{10, 20, 30, 40}, 70, "between"},
		{"open", []unit.Length{46, 46, 47, 47}, 70, "never, or not before"},
		{"passed", []unit.Length{60, 70, 80, 90}, 65, "reached already"},
		{"falling", []unit.Length{40, 30, 20, 10}, 70, "never reached"},
		{"anytime", []unit.Length{46, 47, 46, 47}, 46.4, "exclude no date"},
		{"at the limit", []unit.Length{50, 55, 60, 69}, 69.5, "may have been reached"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			in := Defaults()
			in.Limit = test.limit * um
			for i := range in.Depths {
				in.Depths[i].Depth = test.depths[i] * um
			}
			if v := verdict(t, worked(t, in), "answer"); !strings.Contains(v.Text.In(notebook.Metric), test.want) {
				t.Errorf("answer: %s", v.Text.In(notebook.Metric))
			}
		})
	}
}

func TestTwoDepths(t *testing.T) {
	in := Defaults()
	in.Depths = []Depth{in.Depths[0], in.Depths[3]}
	sheet := worked(t, in)
	if v := verdict(t, sheet, "agreement"); v.Tone != notebook.Watch {
		t.Errorf("agreement: %s", v.Text.In(notebook.Metric))
	}
	for _, item := range worked(t, Defaults()).Items {
		if sheet.Find(item.ItemName()) == nil {
			t.Errorf("with two depths %q is missing", item.ItemName())
		}
	}
}

func TestMoreUseComesSooner(t *testing.T) {
	table := worked(t, Defaults()).Find("use-table").(notebook.Table)
	year := func(row int) string { w := table.Rows[row][2].Words; return w[len(w)-4:] }
	if !(year(2) < year(1) && year(1) < year(0)) {
		t.Errorf("years %s, %s, %s", year(0), year(1), year(2))
	}
}

func TestExerciseAnswers(t *testing.T) {
	sheet := worked(t, Defaults())
	for _, name := range []string{"exercise-years", "exercise-money"} {
		e, ok := sheet.Find(name).(notebook.Exercise)
		if !ok {
			t.Fatalf("no exercise %q", name)
		}
		for _, wrong := range e.Wrong {
			if math.Abs(wrong.Value.SI-e.Answer.SI) < 0.05*math.Abs(e.Answer.SI) {
				t.Errorf("%s: a wrong turn gives the answer: %v", name, wrong.Why.In(notebook.Metric))
			}
		}
	}
	if e := sheet.Find("exercise-money").(notebook.Exercise); math.Abs(e.Answer.SI-3165) > 1 {
		t.Errorf("worth %g", e.Answer.SI) // 400 times 7.912424; the prose says 3165
	}
}

func TestBadInput(t *testing.T) {
	tests := []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"one depth", func(in *Inputs) { in.Depths = in.Depths[:1] }, "needs 3 readings"},
		{"backward", func(in *Inputs) { in.Depths[1].Hours = 0 }, "backward"},
		{"one clock", func(in *Inputs) {
			for i := range in.Depths {
				in.Depths[i].Hours = 5 * hour
			}
		}, "one clock"},
		{"use out of order", func(in *Inputs) { in.LikelyUse = 1 * hour }, "must lie between"},
		{"guess out of order", func(in *Inputs) { in.Interest.Low = 0.5 }, "interest from 0.5"},
		{"not a number", func(in *Inputs) { in.Depths[2].Depth = unit.Length(math.NaN()) }, "reading 3"},
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
	f.Add(46e-6, 52e-6, 1e-6, 70e-6, 300.0)
	f.Add(0.0, 0.0, 1e-9, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, a, b, u, limit, use float64) {
		if !(math.Abs(a) < 1e-3) || !(math.Abs(b) < 5e-3) || !(u > 1e-9 && u < 1e-4) || !(limit >= 0 && limit < 5e-3) || !(use > 0.001 && use < 8800) {
			return // the form refuses it
		}
		in := Defaults()
		in.Depths[0].Depth, in.Depths[3].Depth = unit.Length(a), unit.Length(b)
		in.DepthU, in.Limit = unit.Length(u), unit.Length(limit)
		in.LeastUse, in.LikelyUse, in.MostUse = unit.Time(use)*hour, unit.Time(use)*hour, unit.Time(use)*hour
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
