package warmarm

import (
	"math"
	"strings"
	"testing"

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

func figure(s *notebook.Sheet, name string) notebook.Quantity {
	return s.Find(name).(notebook.Figure).Value
}

// By hand: 300 mm of steel, 5 K: 17.25 um, and with u 1 K and 0.6 per million
// the root of 3.45 squared and 0.9 squared. An even drift round eight places
// would be left out by the closing reading whole.
func TestArm(t *testing.T) {
	s := work(t, func(*Inputs) {})
	q := figure(s, "growth")
	if math.Abs(q.SI-17.25e-6) > 1e-12 || math.Abs(q.U-math.Hypot(3.45, 0.9)*1e-6) > 1e-12 {
		t.Errorf("growth %g (u %g)", q.SI, q.U)
	}
	seems, closed := figure(s, "false").SI, figure(s, "closed").SI
	if !(seems > 20e-6 && closed < seems/4 && closed > 0) {
		t.Errorf("the tilt seems %g, and %g when closed", seems, closed)
	}
	// A round in no time at all drifts evenly: closing takes it out.
	quick := work(t, func(in *Inputs) { in.Takes = 0.1 * minute })
	if even := figure(quick, "closed").SI; even > 0.01*figure(quick, "false").SI {
		t.Errorf("an even drift leaves %g of %g", even, figure(quick, "false").SI)
	}
	cold := work(t, func(in *Inputs) { in.Warm = 0 })
	if figure(cold, "false").SI != 0 || cold.Find("arm-verdict").(notebook.Verdict).Tone != notebook.Good {
		t.Error("a cold arm makes a tilt")
	}
}

// After waiting as long as told the false tilt is what is borne.
func TestWait(t *testing.T) {
	s := work(t, func(*Inputs) {})
	in := Defaults()
	in.Warm *= unit.Temperature(in.left(unit.Time(figure(s, "wait").SI)))
	w, err := in.sweep()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(w.seems-in.Limit)) > 1e-9 {
		t.Errorf("after the wait the table seems to lean %g, borne is %g", float64(w.seems), float64(in.Limit))
	}
	for tone, limit := range map[notebook.Tone]squaring.Slope{notebook.Good: 1e-3, notebook.Watch: 10e-6, notebook.Stop: 1e-6} {
		s := work(t, func(in *Inputs) { in.Limit = limit })
		if v := s.Find("arm-verdict").(notebook.Verdict); v.Tone != tone {
			t.Errorf("limit %g: %s", float64(limit), v.Tone)
		}
	}
}

// By hand: 250 mm of aluminium 6 K above 20: 34.65 um; the micrometer 2 K
// above: 5.75 um.
func TestPart(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if off := figure(s, "off").SI; math.Abs(off-(5.75e-6-34.65e-6)) > 1e-9 {
		t.Errorf("off by %g", off)
	}
	same := work(t, func(in *Inputs) { in.Metal, in.GaugeT = in.Gauge, in.PartT })
	if off := figure(same, "off").SI; math.Abs(off) > 1e-12 {
		t.Errorf("part and micrometer alike and equally warm: off by %g", off)
	}
}

func TestColumn(t *testing.T) {
	s := work(t, func(*Inputs) {})
	if nod := figure(s, "nod").SI; math.Abs(nod-27e-6) > 1e-9 {
		t.Errorf("nod %g", nod)
	}
	for _, check := range s.Checks() {
		if !check.Pass() {
			t.Errorf("%s: computed %v, published %v", check.Name, check.Computed, check.Row.Value)
		}
	}
}

func TestBadInputs(t *testing.T) {
	for inputs, want := range map[string]string{`"drop": "300"`: "unit", `"count": "2"`: "below the least", `"depth": "0 mm"`: "below the least", `"part-t": "-300 °C"`: "below the least"} {
		_, err := Lesson().Work([]byte(`{"lesson": "warmarm", "format": 1, "inputs": {` + inputs + `}}`))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want a message with %q", inputs, err, want)
		}
	}
}

// W. H. Dooley, Applied Science for Metal Workers, coefficients per degree
// Fahrenheit (read): brass, wrought iron and tempered steel.
func TestExpansionPerDegreeFahrenheit(t *testing.T) {
	for perFahrenheit, perKelvin := range map[float64]float64{10.52: 18.936, 6.48: 11.664, 6.89: 12.402} {
		if got := expansions.Metric.FromSI(expansions.Inch.ToSI(perFahrenheit)); math.Abs(got-perKelvin) > 1e-9 {
			t.Errorf("%g per degree Fahrenheit is %g per kelvin, want %g", perFahrenheit, got, perKelvin)
		}
	}
}
