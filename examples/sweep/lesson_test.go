package sweep

import (
	"math"
	"strings"
	"testing"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// figure returns a figure of the sheet by name.
func figure(t *testing.T, s *notebook.Sheet, name string) notebook.Figure {
	t.Helper()
	f, ok := s.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure %q", name)
	}
	return f
}

// verdict returns a verdict of the sheet by name.
func verdict(t *testing.T, s *notebook.Sheet, name string) notebook.Verdict {
	t.Helper()
	v, ok := s.Find(name).(notebook.Verdict)
	if !ok {
		t.Fatalf("no verdict %q", name)
	}
	return v
}

// work works the lesson on changed defaults.
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

// The demonstration's made-up truth lies within two stated standard
// uncertainties, in the sign of table less spindle.
func TestRecoversTruth(t *testing.T) {
	s := work(t, func(*Inputs) {})
	truths := actionshop.TrueTilts()
	truth := truths[len(truths)-1]
	for name, want := range map[string]float64{"tilt-x": -truth.FoundX, "tilt-y": -truth.FoundY} {
		q := figure(t, s, name).Value
		if math.Abs(q.SI-want) > 2*q.U || q.U > 16e-6 || q.U < 7e-6 {
			t.Errorf("%s = %.1f, u %.1f um/m, want %.1f", name, q.SI*1e6, q.U*1e6, want*1e6)
		}
	}
	if v := verdict(t, s, "limit-verdict"); v.Tone != notebook.Stop {
		t.Errorf("limit: %s", v.Text.In(notebook.Metric))
	}
	if v := verdict(t, s, "trust"); v.Tone != notebook.Good {
		t.Errorf("trust: %s", v.Text.In(notebook.Metric))
	}
	for name, want := range map[string]string{"turn-nod": "comes forward", "turn-side": "to the left", "answer": "high on the left"} {
		if text := verdict(t, s, name).Text.In(notebook.Metric); !strings.Contains(text, want) {
			t.Errorf("%s: %q, want it to say %q", name, text, want)
		}
	}
}

// As left in the middle, the head cannot be told from square.
func TestAsLeft(t *testing.T) {
	left := actionshop.SweepsAsLeft()[2]
	s := work(t, func(in *Inputs) {
		for i := range in.Readings {
			in.Readings[i].Shown = left.Readings[i]
		}
		in.Closing = &left.Closing
	})
	if v := verdict(t, s, "limit-verdict"); v.Tone != notebook.Good {
		t.Errorf("limit: %s", v.Text.In(notebook.Metric))
	}
	for _, name := range []string{"turn-nod", "turn-side"} {
		if v := verdict(t, s, name); v.Tone != notebook.Good || !strings.Contains(v.Text.In(notebook.Metric), "cannot tell") {
			t.Errorf("%s: %s", name, v.Text.In(notebook.Metric))
		}
	}
}

// An empty row between the readings moves their numbers, but not their azimuths.
func TestMisreadIsFoundInAFileWithEmptyRows(t *testing.T) {
	rows := `[0, 0], ["", ""], [45, -0.5], [90, 0], [135, 31], [180, 2], [225, 2.5], [270, 2], [315, 1]`
	s, err := Lesson().Work([]byte(`{"lesson": "sweep", "inputs": {"turn": "30 thou", "closing": "0 thou", "readings": {"units": {"azimuth": "°", "shown": "thou"}, "rows": [` + rows + `]}}}`))
	if err != nil {
		t.Fatal(err)
	}
	if text := verdict(t, s, "trust").Text.In(notebook.Metric); !strings.Contains(text, "Reading 4, at 135°, shows") {
		t.Errorf("trust: %s", text)
	}
	// Readings that tell no tilt: what is said of them counts the filled rows.
	_, err = Lesson().Work([]byte(`{"lesson": "sweep", "inputs": {"readings": {"units": {"azimuth": "°", "shown": "thou"}, "rows": [[0, 0], ["", ""], [0, 0], [0, 1]]}}}`))
	if err == nil || !strings.Contains(err.Error(), "the 3 readings") || !strings.Contains(err.Error(), "without the empty ones") {
		t.Errorf("alike azimuths: %v", err)
	}
}

func TestMisreadIsNamed(t *testing.T) {
	s := work(t, func(in *Inputs) { in.Readings[3].Shown += *in.Turn })
	v := verdict(t, s, "trust")
	text := v.Text.In(notebook.Inch)
	if v.Tone != notebook.Stop || !strings.Contains(text, "Reading 4") || !strings.Contains(text, string(squaring.WholeTurn)) {
		t.Errorf("trust: %s", text)
	}
	if text := verdict(t, s, "limit-verdict").Text.In(notebook.Metric); !strings.Contains(text, "cannot be said") {
		t.Errorf("limit: %s", text)
	}
}

// The sheet holds the same items whatever the readings.
func TestSameItemsAlways(t *testing.T) {
	names := func(s *notebook.Sheet) string {
		var all []string
		for _, item := range s.Items {
			all = append(all, item.Kind()+" "+item.ItemName())
		}
		return strings.Join(all, "\n")
	}
	want := names(work(t, func(*Inputs) {}))
	for name, change := range map[string]func(*Inputs){
		"three readings, not closed": func(in *Inputs) { in.Readings, in.Closing = in.Readings[:3], nil },
		"four readings": func(in *Inputs) {
			in.Readings = []Reading{in.Readings[0], in.Readings[2], in.Readings[4], in.Readings[6]}
		},
		"all alike": func(in *Inputs) {
			for i := range in.Readings {
				in.Readings[i].Shown = 0
			}
		},
		"a narrow arc": func(in *Inputs) {
			for i := range in.Readings {
				in.Readings[i].Azimuth = unit.Angle(5*i) * squaring.Degree
			}
		},
		"dragged, no turn, one pass": func(in *Inputs) { in.Approach, in.Turn, in.StepOver = dragged, nil, 0 },
		"no depth":                   func(in *Inputs) { in.Depth = 0 },
		"misread":                    func(in *Inputs) { in.Readings[0].Shown += 30 * squaring.Thou },
	} {
		if got := names(work(t, change)); got != want {
			t.Errorf("%s: items\n%s\nwant\n%s", name, got, want)
		}
	}
}

func TestBadInputs(t *testing.T) {
	lesson := Lesson()
	for name, test := range map[string]struct{ inputs, want string }{
		"wide":        {`"width": "130 mm"`, "wider than the cutter"},
		"no unit":     {`"radius": "110"`, "unit"},
		"azimuths":    {`"readings": {"rows": [[0, 0], [180, 1], [0, 0], [180, 1]]}`, "do not differ"},
		"two":         {`"readings": {"rows": [[0, 0], [90, 1]]}`, "3"},
		"not numbers": {`"readings": {"rows": [[0, "x"], [90, 1], [180, 1]]}`, "not a number"},
		"gain":        {`"gain": 25.4`, "1.25"},
		"closing":     {`"closing": "1 km"`, ""},
		"approach":    {`"approach": "by ear"`, "not one of"},
	} {
		_, err := lesson.Work([]byte(`{"lesson": "sweep", "format": 1, "inputs": {` + test.inputs + `}}`))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want a message with %q", name, err, test.want)
		}
	}
}

func TestChecksPass(t *testing.T) {
	for _, check := range work(t, func(*Inputs) {}).Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v %s", check.Name, check.Computed, check.Row.Value, check.Row.Unit)
		}
	}
}

// Exercises by hand: 0.75 thou over 220 mm is 86.6 um/m, sure to 11.8; 0.025
// over 300 is 18.3 um over 220 mm.
func TestExercises(t *testing.T) {
	s := work(t, func(*Inputs) {})
	two := s.Find("exercise-two").(notebook.Exercise).Answer
	if math.Abs(two.SI+86.6e-6) > 0.1e-6 || math.Abs(two.U-11.8e-6) > 0.1e-6 {
		t.Errorf("exercise-two: %g, u %g", two.SI, two.U)
	}
	if limit := s.Find("exercise-limit").(notebook.Exercise).Answer.SI; math.Abs(limit-18.33e-6) > 0.01e-6 {
		t.Errorf("exercise-limit: %g", limit)
	}
}
