package order

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
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

func figure(t *testing.T, s *notebook.Sheet, name string) notebook.Quantity {
	t.Helper()
	f, ok := s.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure %q", name)
	}
	return f.Value
}

// By hand: means 6 + 2 = 8; squares 9 + 25 + 16/3 + 0.25 + 1/3 = 39.92, root
// 6.318; Phi(12/6.318) - Phi(-28/6.318) = 0.9712.
func TestDemo(t *testing.T) {
	s := work(t, func(*Inputs) {})
	e := figure(t, s, "error")
	if math.Abs(e.SI-8e-6) > 1e-12 || math.Abs(e.U-6.318e-6) > 0.001e-6 {
		t.Errorf("error %g u %g", e.SI, e.U)
	}
	if law := figure(t, s, "law").SI; math.Abs(law-0.9712) > 0.0002 {
		t.Errorf("law %g", law)
	}
	if trials := figure(t, s, "chance"); math.Abs(trials.SI-0.9712) > 0.006 {
		t.Errorf("trials %g", trials.SI)
	}
	if v := s.Find("decision").(notebook.Verdict); v.Tone != notebook.Good {
		t.Error(v.Text.In(notebook.Metric))
	}
	if v := s.Find("improve").(notebook.Verdict); !strings.Contains(v.Text.In(notebook.Metric), "line 1") {
		t.Error(v.Text.In(notebook.Metric))
	}
	for _, check := range s.Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestDecisions(t *testing.T) {
	for tone, change := range map[notebook.Tone]func(*Inputs){
		notebook.Watch: func(in *Inputs) { in.Limit = 17 * um },
		notebook.Stop:  func(in *Inputs) { in.Limit = 6 * um },
		notebook.Good:  func(in *Inputs) { in.Shares = in.Shares[:1] },
	} {
		s := work(t, change)
		if v := s.Find("decision").(notebook.Verdict); v.Tone != tone {
			t.Errorf("%s: %s", tone, v.Text.In(notebook.Metric))
		}
	}
	// Shares that counter one another better the chance, and the reverse.
	none := figure(t, work(t, func(in *Inputs) { in.First, in.Second = 2, 3 }), "chance").SI
	against := figure(t, work(t, func(in *Inputs) { in.First, in.Second, in.Together = 2, 3, -0.9 }), "chance").SI
	along := figure(t, work(t, func(in *Inputs) { in.First, in.Second, in.Together = 2, 3, 0.9 }), "chance").SI
	if !(against > none && none > along) {
		t.Errorf("chances against %g, independent %g, along %g", against, none, along)
	}
	work(t, func(in *Inputs) { in.MeasureU, in.Sides = 0, upTo })
	work(t, func(in *Inputs) {
		for i := range in.Shares {
			in.Shares[i].Spread = "fixed"
		}
	})
}

func TestBadInputs(t *testing.T) {
	for inputs, want := range map[string]string{
		`"limit": "20"`:                    "unit",
		`"together": 0.5, "second": 9`:     "cannot go together",
		`"measure-u": "15 um", "guard": 2`: "guard band",
		`"shares": {"rows": []}`:           "1",
		`"together": 0.99, "second": 4`:    "cannot be correlated",
		`"together": 1.5`:                  "1",
	} {
		_, err := Lesson().Work([]byte(`{"lesson": "order", "format": 1, "inputs": {` + inputs + `}}`))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want a message with %q", inputs, err, want)
		}
	}
}

// One rectangular share that rules parts the law from the trials.
func TestParting(t *testing.T) {
	tone := func(change func(*Inputs)) notebook.Tone {
		in := Defaults()
		change(&in)
		s, err := Work(in)
		if err != nil {
			t.Fatal(err)
		}
		return s.Find("parting").(notebook.Verdict).Tone
	}
	if got := tone(func(*Inputs) {}); got != notebook.Good {
		t.Errorf("the demo's law and trials part: %s", got)
	}
	if got := tone(func(in *Inputs) {
		in.Shares = []Share{{"dirt", 0, string(squaring.RectangularSpread), 12 * um}, {"head", 0, string(squaring.NormalSpread), 1 * um}}
	}); got != notebook.Watch {
		t.Errorf("a rectangular share that rules: %s", got)
	}
}
