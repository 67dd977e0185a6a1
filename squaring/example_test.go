package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// A reading is nothing until its span is said.
func ExampleSlopeFromRise() {
	for _, span := range []unit.Length{6 * squaring.Inch, 10 * squaring.Inch, 24 * squaring.Inch} {
		s, err := squaring.SlopeFromRise(1*squaring.Thou, span)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("0.001 in over %2.0f in: %3.0f um/m, %.4f mm over 300 mm, %.0f arc seconds\n",
			float64(span/squaring.Inch), s.Microradians(), float64(s.Per300()/mm), s.Arcseconds())
	}
	// Output:
	// 0.001 in over  6 in: 167 um/m, 0.0500 mm over 300 mm, 34 arc seconds
	// 0.001 in over 10 in: 100 um/m, 0.0300 mm over 300 mm, 21 arc seconds
	// 0.001 in over 24 in:  42 um/m, 0.0125 mm over 300 mm, 9 arc seconds
}

// Eight readings of a dial swung round by the spindle.
func ExampleFitSweep() {
	thou := []float64{0, -0.5, 0, 1, 2, 2.5, 2, 1}
	readings := make([]squaring.SweepReading, len(thou))
	for i, v := range thou {
		readings[i] = squaring.SweepReading{Azimuth: unit.Angle(45*i) * squaring.Degree, Reading: unit.Length(v) * squaring.Thou}
	}
	closing := 0 * squaring.Thou
	sweep, err := squaring.FitSweep(readings, squaring.SweepOptions{
		Radius:    110 * mm,
		Indicator: squaring.Indicator{Division: 0.5 * squaring.Thou, Gain: 0.985, GainU: 0.0025},
		Closing:   &closing,
		OneWay:    true,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("table less spindle, x: %.0f um/m, u %.0f um/m\n", sweep.Tilt.X.Microradians(), sweep.TiltU.X.Microradians())
	fmt.Printf("table less spindle, y: %.0f um/m, u %.0f um/m\n", sweep.Tilt.Y.Microradians(), sweep.TiltU.Y.Microradians())
	// Output:
	// table less spindle, x: -242 um/m, u 8 um/m
	// table less spindle, y: -242 um/m, u 11 um/m
}

// A reading on the wrong turn of the dial is named.
func ExampleFitSweep_misread() {
	thou := []float64{0, -0.5, 0, 31, 2, 2.5, 2, 1}
	readings := make([]squaring.SweepReading, len(thou))
	for i, v := range thou {
		readings[i] = squaring.SweepReading{Azimuth: unit.Angle(45*i) * squaring.Degree, Reading: unit.Length(v) * squaring.Thou}
	}
	sweep, err := squaring.FitSweep(readings, squaring.SweepOptions{
		Radius:    110 * mm,
		Indicator: squaring.Indicator{Division: 0.5 * squaring.Thou, Turn: 30 * squaring.Thou},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range sweep.Suspects {
		fmt.Printf("reading %d shows %.2f thou, the others say %.1f: %s\n", s.First, float64(s.Shown/squaring.Thou), float64(s.Expected/squaring.Thou), s.Likely)
	}
	// Output:
	// reading 4 shows 31.00 thou, the others say 1.0: one whole turn of the dial
}

// What to do to the head, and what the dial will then show.
func ExampleTurnHead() {
	readings := make([]squaring.SweepReading, 4)
	for i, v := range []float64{72, 50, 28, 50} {
		readings[i] = squaring.SweepReading{Azimuth: unit.Angle(90*i) * squaring.Degree, Reading: unit.Length(v) * um}
	}
	sweep, err := squaring.FitSweep(readings, squaring.SweepOptions{Radius: 110 * mm, Indicator: squaring.Indicator{Division: 2 * um}})
	if err != nil {
		fmt.Println(err)
		return
	}
	turn, err := squaring.TurnHead(sweep, squaring.HeadOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("nod: %s\n", turn.Nod.Way)
	fmt.Printf("side: %.0f um/m, %s\n", turn.Side.Turn.Microradians(), turn.Side.Way)
	for _, target := range turn.Targets {
		fmt.Printf("%-5s now %2.0f um, then %2.0f um\n", target.Place, float64(target.Now/um), float64(target.AfterBoth/um))
	}
	// Output:
	// nod: leave it
	// side: 200 um/m, anticlockwise seen from the front, so that the spindle's nose goes to the right
	// right now 72 um, then 50 um
	// rear  now 50 um, then 50 um
	// left  now 28 um, then 50 um
	// front now 50 um, then 50 um
}

// The hollow, the step and the edge that cuts.
func ExampleFacing_Surface() {
	surface, err := squaring.Facing{
		Tilt:     squaring.Gradient{X: -232 * squaring.Microradian, Y: -231 * squaring.Microradian},
		TiltU:    squaring.Gradient{X: 9 * squaring.Microradian, Y: 9 * squaring.Microradian},
		Diameter: 120 * mm, Width: 90 * mm, StepOver: 50 * mm,
	}.Surface()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("dish %.1f um, u %.1f um\n", float64(surface.Dish/um), float64(surface.DishU/um))
	fmt.Printf("step %.1f um, u %.1f um\n", float64(surface.Step/um), float64(surface.StepU/um))
	fmt.Printf("%s cuts\n", surface.Cuts)
	// Output:
	// dish 4.7 um, u 0.2 um
	// step 11.6 um, u 0.5 um
	// the trailing edge cuts
}

// A hole by quill runs along the spindle's own axis.
func ExampleHole_Made() {
	hole, err := squaring.Hole{
		Feed: squaring.ByQuill, Depth: 60 * mm,
		Tilt:  squaring.Gradient{X: -232 * squaring.Microradian},
		TiltU: squaring.Gradient{X: 9 * squaring.Microradian},
	}.Made()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the bottom lies %.1f um to the right of the top, u %.1f um\n", float64(hole.ShiftX/um), float64(hole.ShiftXU/um))
	// Output:
	// the bottom lies 13.9 um to the right of the top, u 0.5 um
}

// A run over gauge blocks, up and down again.
func ExampleCalibrateIndicator() {
	rising, falling := []float64{0, 0.21, 0.415, 0.615, 0.82, 1.03}, []float64{0.01, 0.22, 0.425, 0.62, 0.825, 1.04}
	var run []squaring.BlockReading
	for i := range rising {
		block := 0.2 * mm * unit.Length(i)
		run = append(run, squaring.BlockReading{Block: block, Shown: unit.Length(rising[i]) * mm},
			squaring.BlockReading{Block: block, Shown: unit.Length(falling[i]) * mm, Falling: true})
	}
	c, err := squaring.CalibrateIndicator(run, 0.005*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("gain %.3f, u %.3f; falling less rising %.1f um, u %.1f um\n", c.Gain, c.GainU, float64(c.Hysteresis/um), float64(c.HysteresisU/um))
	// Output:
	// gain 1.024, u 0.004; falling less rising 8.3 um, u 2.4 um
}

// Three repeats of one reading.
func ExampleIndicator_Measure() {
	dial := squaring.Indicator{Division: 0.002 * mm, StylusAngle: 30 * squaring.Degree, StylusAngleU: 3 * squaring.Degree}
	height, err := dial.Measure(0.115*mm, 0.116*mm, 0.115*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f mm, u %.4f mm\n", float64(height.Value/mm), float64(height.Uncertainty/mm))
	// Output:
	// 0.0999 mm, u 0.0030 mm
}

// Blocks under a sine bar.
func ExampleSineBar_Stack() {
	stack, err := squaring.SineBar{Length: 5 * squaring.Inch}.Stack(27 * squaring.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f in\n", float64(stack/squaring.Inch))
	// Output:
	// 2.2700 in
}

// A hand-warm arm of steel.
func ExampleWarming_Growth() {
	growth, u, err := squaring.Warming{Length: 300 * mm, Expansion: squaring.SteelExpansion, ExpansionU: 0.6e-6,
		Change: 5 * unit.Kelvin, ChangeU: 0.5 * unit.Kelvin}.Growth()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f um, u %.1f um\n", float64(growth/um), float64(u/um))
	// Output:
	// 17.2 um, u 1.9 um
}

// Dials that agree, and a head that does not stand square.
func ExampleReadTwoDials() {
	gauge, err := squaring.ReadTwoDials([]squaring.DialPair{
		{First: 0.620 * mm, Second: 0.620 * mm},
		{First: 0.585 * mm, Second: 0.655 * mm, Turned: true},
	}, squaring.TwoDialOptions{
		Span:   190 * mm,
		First:  squaring.Indicator{Division: 0.01 * mm},
		Second: squaring.Indicator{Division: 0.01 * mm},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("tilt %.0f um/m, u %.0f um/m\n", gauge.Tilt.Slope.Microradians(), gauge.Tilt.Uncertainty.Microradians())
	fmt.Printf("mismatch %.3f mm\n", float64(gauge.Mismatch/mm))
	// Output:
	// tilt -184 um/m, u 8 um/m
	// mismatch 0.035 mm
}

// Six trials of tightening the bolts crosswise, as a change over a 190 mm bar.
func ExampleSummariseShift() {
	var trials []squaring.Slope
	for _, change := range []unit.Length{-0.004 * mm, -0.004 * mm, -0.003 * mm, -0.008 * mm, -0.006 * mm, -0.004 * mm} {
		s, err := squaring.SlopeFromRise(change, 190*mm)
		if err != nil {
			fmt.Println(err)
			return
		}
		trials = append(trials, s)
	}
	shift, err := squaring.SummariseShift(trials, 2*squaring.Microradian)
	if err != nil {
		fmt.Println(err)
		return
	}
	half, err := shift.Interval(0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("leave %+.3f mm over 190 mm standing\n", float64(shift.SetOff().Slope.Rise(190*mm)/mm))
	fmt.Printf("a single tightening then ends within %.0f um/m of square, 95 times in a hundred\n", half.Microradians())
	// Output:
	// leave +0.005 mm over 190 mm standing
	// a single tightening then ends within 27 um/m of square, 95 times in a hundred
}

// Two head settings: one worth another try, one not.
func ExampleNextTry_Chances() {
	for _, residual := range []squaring.Slope{9 * squaring.Microradian, 4 * squaring.Microradian} {
		chances, err := squaring.NextTry{Residual: residual, Scatter: 8 * squaring.Microradian}.Chances()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("standing %.0f um/m out, scatter 8 um/m: better with chance %.2f, worth it: %v\n", residual.Microradians(), chances.Better, chances.Worth)
	}
	// Output:
	// standing 9 um/m out, scatter 8 um/m: better with chance 0.74, worth it: true
	// standing 4 um/m out, scatter 8 um/m: better with chance 0.38, worth it: false
}

// Measured 0.017 mm over 300 mm against a limit of 0.020.
func ExampleTolerance_Conformance() {
	limit := squaring.Within(0.020e-3)
	chance, err := limit.Conformance(0.017e-3, 0.002e-3)
	if err != nil {
		fmt.Println(err)
		return
	}
	accept, err := limit.Accept(2, 0.002e-3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("conforming with chance %.2f; accept up to %.3f mm\n", chance, accept.High*1e3)
	// Output:
	// conforming with chance 0.93; accept up to 0.016 mm
}

// A square run past a dial, as marked and turned end for end.
func ExampleReverseSquare() {
	square, err := squaring.ReverseSquare([]squaring.EdgeReading{
		{Height: 0 * mm, Reading: 0 * mm}, {Height: 250 * mm, Reading: 0.018 * mm},
		{Height: 0 * mm, Reading: 0 * mm, Turned: true}, {Height: 250 * mm, Reading: -0.006 * mm, Turned: true},
	}, 0.002*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("knee leans %.0f um/m, the square %.0f um/m, each u %.1f um/m\n",
		square.Lean.Slope.Microradians(), square.Square.Slope.Microradians(), square.Lean.Uncertainty.Microradians())
	// Output:
	// knee leans 24 um/m, the square 48 um/m, each u 2.3 um/m
}

// A dial run along the fixed jaw.
func ExampleFitJawRun() {
	var points []squaring.JawPoint
	for i, v := range []float64{0, -0.002, -0.004, -0.004, -0.002, 0, 0.004} {
		points = append(points, squaring.JawPoint{Place: unit.Length(20*i-60) * mm, Reading: unit.Length(v) * mm})
	}
	jaw, err := squaring.FitJawRun(points, 0.002*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("turned %.0f um/m, u %.0f um/m\n", jaw.Yaw.Slope.Microradians(), jaw.Yaw.Uncertainty.Microradians())
	fmt.Printf("hollow %.1f um over %.0f mm, u %.1f um\n", float64(jaw.Hollow.Length/um), float64(jaw.Length/mm), float64(jaw.Hollow.Uncertainty/um))
	// Output:
	// turned 32 um/m, u 5 um/m
	// hollow 5.8 um over 120 mm, u 0.6 um
}

// A jaw that leans back by 0.1 mm/m: what the order of seating makes of it.
func ExampleSquareBlock() {
	vise := squaring.ViseErrors{JawLean: squaring.MeasuredSlope{Slope: 100 * squaring.Microradian, Uncertainty: 10 * squaring.Microradian}}
	for _, seat := range []squaring.Seat{squaring.OnJaw, squaring.OnBed} {
		block, err := squaring.SquareBlock(squaring.SixFaces(seat, false), vise)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("flat on the %s: worst angle %.0f um/m, worst taper %.0f um/m\n", seat,
			block.WorstSquare.Angle.Slope.Microradians(), block.WorstParallel.Angle.Slope.Microradians())
	}
	// Output:
	// flat on the jaw: worst angle 300 um/m, worst taper 200 um/m
	// flat on the bed: worst angle -100 um/m, worst taper 0 um/m
}
