package plating

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// fallingEfficiency is a made-up curve: 97 % at 1 A/dm2 falling to 90 % at 9.
func fallingEfficiency() EfficiencyCurve {
	return EfficiencyCurve{
		{1 * AmperePerSquareDecimetre, 0.97},
		{3 * AmperePerSquareDecimetre, 0.95},
		{9 * AmperePerSquareDecimetre, 0.90},
	}
}

func TestEfficiencyCurve(t *testing.T) {
	c := fallingEfficiency()
	tests := []struct{ j, want float64 }{ // A/dm2; straight lines by hand
		{0, 0.97}, {1, 0.97}, {2, 0.96}, {3, 0.95}, {6, 0.925}, {9, 0.90}, {20, 0.90},
	}
	for _, test := range tests {
		if got := c.At(CurrentDensity(test.j) * AmperePerSquareDecimetre); !scalar.EqualWithinAbs(got, test.want, 1e-12) {
			t.Errorf("At(%v A/dm2) = %v, want %v", test.j, got, test.want)
		}
	}
	if !math.IsNaN(EfficiencyCurve(nil).At(1*AmperePerSquareMetre)) || !math.IsNaN(c.At(CurrentDensity(math.NaN()))) {
		t.Error("an empty curve or a current density that is no number must give NaN")
	}
	bad := []struct {
		name    string
		curve   EfficiencyCurve
		wantErr string
	}{
		{"empty", nil, "no points"},
		{"percent", ConstantEfficiency(95), "0 to 1"},
		{"not a number", EfficiencyCurve{{CurrentDensity(math.NaN()), 0.9}}, "point 1"},
		{"backwards", EfficiencyCurve{{300 * AmperePerSquareMetre, 0.9}, {100 * AmperePerSquareMetre, 0.9}}, "point 2 is 1 A/dm2"},
	}
	for _, test := range bad {
		if err := test.curve.Validate(); err == nil || !strings.Contains(err.Error(), test.wantErr) {
			t.Errorf("%s: error = %v, want one with %q", test.name, err, test.wantErr)
		}
	}
}

func TestMetalShareIsExact(t *testing.T) {
	c := fallingEfficiency()
	for _, ends := range [][2]CurrentDensity{{0, 1200}, {50, 80}, {200, 700}, {700, 200}, {300, 300}, {900, 2000}} {
		// A midpoint sum of 200 000 steps is good to about 1e-9.
		const n = 200000
		sum := 0.0
		for i := range n {
			j := ends[0] + (ends[1]-ends[0])*(CurrentDensity(i)+0.5)/n
			sum += float64(j) * c.At(j)
		}
		if got, want := c.metalShare(ends[0], ends[1]), sum/n; !scalar.EqualWithinRel(got, want, 1e-8) {
			t.Errorf("metalShare(%v, %v) = %v A/m2, want %v", float64(ends[0]), float64(ends[1]), got, want)
		}
	}
}

func TestScheduleGrow(t *testing.T) {
	nickel, area := Nickel().Deposit(), 2*SquareDecimetre
	eff := fallingEfficiency()
	ramped := Schedule{
		{From: 0, To: 6 * unit.Ampere, Time: 2 * minute},
		Steady(6*unit.Ampere, 20*minute),
		Pause(5 * minute),
		Steady(3*unit.Ampere, 10*minute),
	}
	got, err := ramped.Grow(nickel, area, eff)
	if err != nil {
		t.Fatal(err)
	}
	if want := 6.0/2*120 + 6*1200 + 3*600; !scalar.EqualWithinRel(float64(got.Charge), want, 1e-12) {
		t.Errorf("charge = %v C, want %v", float64(got.Charge), want)
	}
	t.Run("splitting time changes nothing", func(t *testing.T) {
		var split Schedule
		for _, s := range ramped {
			half := (s.From + s.To) / 2
			split = append(split, Stage{s.From, half, s.Time / 2}, Stage{half, s.To, s.Time / 2})
		}
		again, err := split.Grow(nickel, area, eff)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(again.Thickness), float64(got.Thickness), 1e-12) {
			t.Errorf("split schedule grows %v m, whole %v m", float64(again.Thickness), float64(got.Thickness))
		}
	})
	t.Run("twice the area at twice the current is the same coat", func(t *testing.T) {
		var twice Schedule
		for _, s := range ramped {
			twice = append(twice, Stage{2 * s.From, 2 * s.To, s.Time})
		}
		again, err := twice.Grow(nickel, 2*area, eff)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(again.Thickness), float64(got.Thickness), 1e-12) || !scalar.EqualWithinRel(float64(again.Mass), 2*float64(got.Mass), 1e-12) {
			t.Errorf("scaled schedule: %v m, %v kg; want %v m, %v kg", float64(again.Thickness), float64(again.Mass), float64(got.Thickness), 2*float64(got.Mass))
		}
	})
	t.Run("constant efficiency is Faraday's law", func(t *testing.T) {
		flat, err := ramped.Grow(nickel, area, ConstantEfficiency(0.95))
		if err != nil {
			t.Fatal(err)
		}
		m, err := nickel.Mass(ramped.Charge(), 0.95)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(flat.Mass), float64(m), 1e-12) || !scalar.EqualWithinRel(flat.Efficiency, 0.95, 1e-12) {
			t.Errorf("mass %v kg at %v, want %v kg at 0.95", float64(flat.Mass), flat.Efficiency, float64(m))
		}
	})
	t.Run("growth up to a time, and the time to a thickness", func(t *testing.T) {
		at, err := ramped.TimeTo(15*micrometre, nickel, area, eff)
		if err != nil {
			t.Fatal(err)
		}
		c, err := ramped.Until(at).Grow(nickel, area, eff)
		if err != nil {
			t.Fatal(err)
		}
		if !scalar.EqualWithinRel(float64(c.Thickness/micrometre), 15, 1e-6) {
			t.Errorf("thickness at that time = %v um, want 15", float64(c.Thickness/micrometre))
		}
		if n := len(ramped.Until(0)); n != 0 {
			t.Errorf("schedule up to 0 has %d stages, want none", n)
		}
		if got := ramped.Until(1e6 * unit.Second).Time(); got != ramped.Time() {
			t.Errorf("schedule up to long after its end lasts %v s, want %v", float64(got), float64(ramped.Time()))
		}
		if _, err := ramped.TimeTo(1*millimetre, nickel, area, eff); err == nil || !strings.Contains(err.Error(), "before the wanted 1000 um") {
			t.Errorf("error = %v, want one that says how far it gets", err)
		}
	})
}

func TestInterruptions(t *testing.T) {
	on, off := Steady(2*unit.Ampere, 10*minute), Pause(5*minute)
	tests := []struct {
		name     string
		schedule Schedule
		want     []Interruption
	}{
		{"none", Schedule{on, on}, nil},
		{"at the ends only", Schedule{off, on, off}, nil},
		{"in the middle", Schedule{on, off, on}, []Interruption{{10 * minute, 5 * minute}}},
		{"two pauses in a row are one gap", Schedule{on, off, off, on}, []Interruption{{10 * minute, 10 * minute}}},
		{"two gaps", Schedule{off, on, off, on, off, on}, []Interruption{{15 * minute, 5 * minute}, {30 * minute, 5 * minute}}},
		{"a stage of no length", Schedule{on, {2, 2, 0}, on}, nil},
		{"empty", nil, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := test.schedule.Interruptions()
			if len(got) != len(test.want) {
				t.Fatalf("interruptions = %v, want %v", got, test.want)
			}
			for i := range got {
				if got[i] != test.want[i] {
					t.Errorf("interruption %d = %v, want %v", i+1, got[i], test.want[i])
				}
			}
		})
	}
}

func TestScheduleErrors(t *testing.T) {
	nickel := Nickel().Deposit()
	tests := []struct {
		name     string
		schedule Schedule
		area     unit.Area
		wantErr  string
	}{
		{"empty", nil, 1, "no stages"},
		{"turned round", Schedule{Steady(-1*unit.Ampere, 60*unit.Second)}, 1, "current at the start of stage 1 is -1 A"},
		{"not a number", Schedule{Steady(1, 60), {1, unit.Current(math.NaN()), 60}}, 1, "end of stage 2"},
		{"time", Schedule{Steady(1, unit.Time(math.Inf(1)))}, 1, "time of stage 1"},
		{"area", Schedule{Steady(1, 60)}, 0, "area is 0 cm2"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := test.schedule.Grow(nickel, test.area, ConstantEfficiency(0.95))
			if err == nil || !strings.Contains(err.Error(), test.wantErr) {
				t.Errorf("error = %v, want one with %q", err, test.wantErr)
			}
		})
	}
}
