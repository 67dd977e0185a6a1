package plating_test

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/plating"
)

const (
	micrometre = unit.Micro * unit.Metre
	millimetre = unit.Milli * unit.Metre
	minute     = 60 * unit.Second
	gram       = unit.Milli * unit.Kilogram
)

// How long ten micrometres of nickel take at 3 A/dm2 and 95 %.
func ExampleCoat_Solve() {
	coat, err := plating.Coat{
		Deposit:        plating.Nickel().Deposit(),
		Thickness:      10 * micrometre,
		CurrentDensity: 3 * plating.AmperePerSquareDecimetre,
		Efficiency:     0.95,
	}.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f min\n", float64(coat.Time/minute))
	// Output:
	// 17.1 min
}

// Four escutcheons, 25 um of nickel at 3 A/dm2: what to set, and how sure.
func ExamplePlan_Setting() {
	rule := func(v unit.Length) plating.Dimension {
		return plating.Dimension{Value: v, U: 0.05 * millimetre}
	}
	load, err := plating.Rack("load", plating.RackItem{Name: "escutcheons", Count: 4,
		Shape: plating.Plate{Length: rule(44 * millimetre), Width: rule(19 * millimetre), Thickness: rule(1.6 * millimetre)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := plating.Plan{
		Deposit: plating.Nickel().Deposit(), Area: load, Thickness: 25 * micrometre,
		CurrentDensity: 3 * plating.AmperePerSquareDecimetre,
		Efficiency:     0.95, EfficiencyU: 0.01,
		Supply: plating.Supply{Step: 0.01 * unit.Ampere}, TimeU: 5 * unit.Second,
	}.Setting()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f cm2, %.2f A for %.1f min\n", float64(load.Area/plating.SquareCentimetre), float64(s.Current), float64(s.Time/minute))
	fmt.Printf("%.2f um with a standard uncertainty of %.2f um\n", float64(s.Mean/micrometre), float64(s.MeanU/micrometre))
	fmt.Printf("%.2f g on the scale; a mean of 24.5 um or more with %.0f in 100\n", float64(s.Mass/gram), 100*s.ChanceAtLeast(24.5*micrometre))
	// Output:
	// 74.9 cm2, 2.25 A for 42.8 min
	// 25.00 um with a standard uncertainty of 0.29 um
	// 1.67 g on the scale; a mean of 24.5 um or more with 96 in 100
}

// A coupon weighed before and after: the efficiency, and how little one coupon
// says about it.
func ExampleRun_Efficiency() {
	w, err := plating.Run{
		Deposit: plating.Nickel().Deposit(),
		Before:  []unit.Mass{5.32 * gram}, After: []unit.Mass{5.69 * gram},
		Scale:   plating.Scale{Resolution: 0.01 * gram, Handling: 0.007 * gram},
		Current: 0.52 * unit.Ampere, CurrentU: 0.003 * unit.Ampere,
		Time: 40 * minute, TimeU: 5 * unit.Second,
	}.Efficiency()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %% with a standard uncertainty of %.1f %%\n", 100*w.Efficiency, 100*w.U)
	// Output:
	// 97.5 % with a standard uncertainty of 2.2 %
}

// What a scale of 0.01 g steps can see: a 3 % fall of the bath's efficiency.
func ExampleQuestion_GainNeeded() {
	q := plating.Question{Change: 0.03, Efficiency: 0.95, ChargeU: 0.003}
	gain, err := q.GainNeeded(0.008 * gram)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("each load must gain %.2f g\n", float64(gain/gram))
	// Output:
	// each load must gain 0.74 g
}

// A knob turned with a cove: straight lines and an arc about the axis.
func ExampleTurned() {
	point := func(x, r unit.Length) plating.ProfilePoint {
		return plating.ProfilePoint{X: plating.Exactly(x), R: plating.Exactly(r)}
	}
	cove := point(3*millimetre, 10*millimetre)
	cove.Arc = -3 * millimetre // hollow
	s, err := plating.Turned{Name: "knob", Profile: []plating.ProfilePoint{
		point(0, 13*millimetre), cove, point(20*millimetre, 10*millimetre),
	}}.Surface()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f cm2\n", float64(s.Area/plating.SquareCentimetre))
	// Output:
	// 13.97 cm2
}

// A current that is ramped up, held, and lost for five minutes.
func ExampleSchedule_Grow() {
	s := plating.Schedule{
		{From: 0, To: 2 * unit.Ampere, Time: 2 * minute},
		plating.Steady(2*unit.Ampere, 20*minute),
		plating.Pause(5 * minute),
		plating.Steady(2*unit.Ampere, 10*minute),
	}
	coat, err := s.Grow(plating.Nickel().Deposit(), 75*plating.SquareCentimetre, plating.ConstantEfficiency(0.95))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um\n", float64(coat.Thickness/micrometre))
	for _, gap := range s.Interruptions() {
		fmt.Printf("current lost after %.0f min for %.0f min: activate again\n", float64(gap.Start/minute), float64(gap.Time/minute))
	}
	// Output:
	// 16.1 um
	// current lost after 22 min for 5 min: activate again
}

// How thick the flanks of an M4 screw may be plated before its allowance is
// used up.
func ExampleFlankThicknessLimit() {
	t, err := plating.FlankThicknessLimit(22*micrometre, plating.ISOThread)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um\n", float64(t/micrometre))
	// Output:
	// 5.5 um
}
