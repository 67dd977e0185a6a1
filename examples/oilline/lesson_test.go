package oilline

import (
	"math"
	"strings"
	"testing"
	"time"

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

// within reports whether a figure holds a true value within k standard
// uncertainties.
func within(t *testing.T, s *notebook.Sheet, name string, want, k float64) {
	t.Helper()
	f, ok := s.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("the sheet has no figure %q", name)
	}
	if miss := math.Abs(f.Value.SI - want); miss > k*f.Value.U {
		t.Errorf("%s = %g, standard uncertainty %g; misses %g", name, f.Value.SI, f.Value.U, want)
	}
}

func TestWorkRecoversTheHiddenTruth(t *testing.T) {
	sheet := worked(t, Defaults())
	rate := func(x float64) float64 { return x * float64(wear.MicrometrePerThousandHour) }
	// The truth of the scenario: front 20.3 um in 1047 h, then 5.4 in 813; rear
	// 10.8 um in 1860 h throughout.
	within(t, sheet, "front-before", rate(19.4), 2)
	within(t, sheet, "front-after", rate(6.6), 2)
	within(t, sheet, "front-change", rate(6.6-19.4), 2)
	within(t, sheet, "rear-change", 0, 2)
	within(t, sheet, "beyond", rate(6.6-19.4), 2)
	within(t, sheet, "spared", 12.8e-6*813/1000, 2)
	v := sheet.Find("answer").(notebook.Verdict)
	if v.Tone != notebook.Good || !strings.Contains(v.Text.In(notebook.Metric), "helped") {
		t.Errorf("answer: %s", v.Text.In(notebook.Metric))
	}
	for _, check := range sheet.Checks() {
		if !check.Pass() {
			t.Errorf("check %s: computed %g, published %g", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestTheDayIsFoundWithoutTheBook(t *testing.T) {
	f, err := find(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	if f.search.NoChangeP > 0.01 || f.event < f.search.Low || f.event > f.search.High {
		t.Errorf("chance of no change %g, day between %v and %v", f.search.NoChangeP, f.clock.day(f.search.Low), f.clock.day(f.search.High))
	}
}

func TestClock(t *testing.T) {
	c, err := newClock(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	day := func(s string) time.Time { d, _ := time.Parse(time.DateOnly, s); return d }
	for _, test := range []struct {
		day   string
		hours float64
	}{{"2019-05-18", 0}, {"2020-01-01", 190}, {"2021-01-01", 520}, {"2022-07-02", 820 + 320*182.0/365}, {"2025-05-24", 1860}} {
		at, err := c.at(day(test.day))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(at/hour)-test.hours) > 1e-9 {
			t.Errorf("%s is %g h, want %g", test.day, float64(at/hour), test.hours)
		}
		if back := c.day(at); back.Sub(day(test.day)).Abs() > 24*time.Hour {
			t.Errorf("%s comes back as %v", test.day, back)
		}
	}
}

func TestCalendarClock(t *testing.T) {
	in := Defaults()
	in.Clock = byCalendar
	sheet := worked(t, in)
	within(t, sheet, "front-before", 6.1*float64(wear.MicrometrePerYear), 2)
	within(t, sheet, "front-after", 2.0*float64(wear.MicrometrePerYear), 2)
}

func TestNothingHelped(t *testing.T) {
	in := Defaults()
	for i := range in.Steps {
		in.Steps[i].Front = in.Steps[i].Rear
	}
	v := worked(t, in).Find("answer").(notebook.Verdict)
	if v.Tone != notebook.Watch {
		t.Errorf("two ways alike: %s", v.Text.In(notebook.Metric))
	}
	// The other way about: what slowed was the witness.
	in = Defaults()
	for i := range in.Steps {
		in.Steps[i].Front, in.Steps[i].Rear = in.Steps[i].Rear, in.Steps[i].Front
	}
	if v = worked(t, in).Find("answer").(notebook.Verdict); v.Tone != notebook.Stop {
		t.Errorf("ways changed over: %s", v.Text.In(notebook.Metric))
	}
}

func TestExerciseAnswers(t *testing.T) {
	sheet := worked(t, Defaults())
	for _, name := range []string{"exercise-rate", "exercise-witness"} {
		e, ok := sheet.Find(name).(notebook.Exercise)
		if !ok {
			t.Fatalf("no exercise %q", name)
		}
		for _, wrong := range e.Wrong {
			if math.Abs(wrong.Value.SI-e.Answer.SI) < 0.02*math.Abs(e.Answer.SI) {
				t.Errorf("%s: a wrong turn gives the answer: %v", name, wrong.Why.In(notebook.Metric))
			}
		}
	}
	// 18 um in 943 h.
	if e := sheet.Find("exercise-rate").(notebook.Exercise); math.Abs(e.Answer.SI/float64(wear.MicrometrePerThousandHour)-18/0.943) > 0.05 {
		t.Errorf("rate %g", e.Answer.SI)
	}
}

func TestBadInput(t *testing.T) {
	tests := []struct {
		name   string
		change func(in *Inputs)
		want   string
	}{
		{"event before all", func(in *Inputs) { in.Event = in.FirstDay }, "must lie between"},
		{"day outside the book", func(in *Inputs) { in.Steps[2].Day = in.LastDay.AddDate(1, 0, 0) }, "outside the use book"},
		{"years missing", func(in *Inputs) { in.Use = in.Use[:3] }, "3 years are written down"},
		{"years out of order", func(in *Inputs) { in.Use[1].Year = 2030 }, "2030 stands where 2020 should"},
		{"book ends before it begins", func(in *Inputs) { in.LastDay = in.FirstDay }, "must end after"},
		{"not a number", func(in *Inputs) { in.Steps[3].Front = unit.Length(math.NaN()) }, "reading 4"},
		{"all on one day", func(in *Inputs) {
			for i := range in.Steps {
				in.Steps[i].Day = in.Steps[0].Day
			}
		}, "must lie between"},
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
	f.Add(25e-6, 18e-6, 1e-6, 0.19, 300.0)
	f.Add(1.0, -1.0, 1e-300, 1e-300, 0.0)
	f.Fuzz(func(t *testing.T, front, rear, u, apart, hours float64) {
		in := Defaults()
		in.Steps[2].Front, in.Steps[5].Rear = unit.Length(front), unit.Length(rear)
		in.StepU, in.Apart, in.Use[2].Hours = unit.Length(u), unit.Length(apart), unit.Time(hours)*hour
		if !(hours >= 0 && hours <= 9000) || !(apart > 1e-6 && apart < 10) || !(u > 1e-9 && u < 1e-4) || !(math.Abs(front) < 0.01) || !(math.Abs(rear) < 0.01) {
			return // the form refuses it
		}
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
