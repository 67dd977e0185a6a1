package squaring

import (
	"math"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/unit"
)

// finiteAll asserts that no number anywhere in a result is NaN or infinite,
// but for degrees of freedom, which are infinite when all is known.
func finiteAll(t *testing.T, where string, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if bad(v.Float()) {
			t.Errorf("%s is %g", where, v.Float())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if field := v.Type().Field(i); field.IsExported() && field.Name != "DegreesOfFreedom" {
				finiteAll(t, where+"."+field.Name, v.Field(i))
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			finiteAll(t, where, v.Index(i))
		}
	}
}

// orFinite asserts an error of this package or a finite result.
func orFinite(t *testing.T, what string, result any, err error) {
	t.Helper()
	if err == nil {
		finiteAll(t, what, reflect.ValueOf(result))
		return
	}
	if text := err.Error(); len(text) < 10 || text[:10] != "squaring: " && text[:9] != "range of " {
		t.Errorf("%s: error %q does not say whose it is", what, text)
	}
}

// Readings of every gauge but the sweep and the survey, which have their own.
func FuzzGauges(f *testing.F) {
	f.Add(0.605, 0.61, 0.595, 0.62, 0.19, 0.01, uint8(4))
	f.Add(0.0, 0.2, 0.2, 0.0, -1.0, 0.0, uint8(3))
	f.Add(math.NaN(), math.Inf(1), 1e308, -1e308, 1e-308, -0.1, uint8(255))
	f.Fuzz(func(t *testing.T, a, b, c, d, span, step float64, count uint8) {
		n := int(count % 12)
		values := [4]float64{a, b, c, d}
		length := func(i int) unit.Length { return unit.Length(values[i%4] * (1 + float64(i/4))) }
		u := unit.Length(step)
		var blocks []BlockReading
		var pairs []DialPair
		var edges []EdgeReading
		var points []JawPoint
		var trials []Slope
		var turns []AxisTrial
		var corners [][]unit.Angle
		for i := range n {
			blocks = append(blocks, BlockReading{length(i), length(i + 1), i%3 == 2})
			pairs = append(pairs, DialPair{length(i), length(i + 1), i%2 == 1})
			edges = append(edges, EdgeReading{length(i), length(i + 2), i%2 == 1})
			points = append(points, JawPoint{length(i), length(i + 3)})
			trials = append(trials, Slope(length(i)))
			g := Gradient{X: Slope(length(i)), Y: Slope(length(i + 1))}
			turns = append(turns, AxisTrial{g, Gradient{Y: Slope(step)}, Gradient{X: Slope(length(i + 2))}})
			corners = append(corners, []unit.Angle{unit.Angle(length(i)), unit.Angle(length(i + 1)), unit.Angle(length(i + 2))})
		}
		calibration, err := CalibrateIndicator(blocks, u)
		orFinite(t, "CalibrateIndicator", calibration, err)
		dial := Indicator{Division: u, Gain: a, StylusAngle: unit.Angle(b), GainU: math.Abs(c), Turn: unit.Length(d), Hysteresis: u}
		height, err := dial.Measure(length(0), length(1))
		orFinite(t, "Measure", height, err)
		dials, err := ReadTwoDials(pairs, TwoDialOptions{Span: unit.Length(span), First: Indicator{Division: u}, Second: dial})
		orFinite(t, "ReadTwoDials", dials, err)
		square, err := ReverseSquare(edges, u)
		orFinite(t, "ReverseSquare", square, err)
		jaw, err := FitJawRun(points, u)
		orFinite(t, "FitJawRun", jaw, err)
		shift, err := SummariseShift(trials, Slope(step))
		orFinite(t, "SummariseShift", shift, err)
		if err == nil {
			half, err := shift.Interval(0.95)
			orFinite(t, "Interval", half, err)
			difference, err := CompareShifts(shift, shift)
			orFinite(t, "CompareShifts", difference, err)
		}
		chances, err := NextTry{Residual: Slope(a), Scatter: Slope(step), ResidualU: Slope(b), Aim: Slope(c), Tolerance: Slope(d), DegreesOfFreedom: span}.Chances()
		orFinite(t, "Chances", chances, err)
		map2, err := FitCrossEffect(turns, Gradient{Slope(step), Slope(step)})
		orFinite(t, "FitCrossEffect", map2, err)
		if err == nil {
			plan, err := map2.Plan(Gradient{Slope(a), Slope(b)}, Gradient{}, Slope(step))
			orFinite(t, "Plan", plan, err)
		}
		polygon, err := ClosePolygon(corners, unit.Angle(step))
		orFinite(t, "ClosePolygon", polygon, err)
		three, err := CompareSquares(trials, trials, append([]Slope{Slope(a)}, trials...), Slope(step))
		orFinite(t, "CompareSquares", three, err)
	})
}

// Slopes, tapers, warmth and tolerances.
func FuzzFormulas(f *testing.F) {
	f.Add(0.001, 0.3, 0.1, 0.0001, 2.0)
	f.Add(-1.0, 0.0, 1.6, 1e-300, 0.0)
	f.Add(0.75, -100.0, 0.8, 867.0, 0.0015)
	f.Add(math.Inf(-1), math.NaN(), 1e308, 5e-324, -3.0)
	f.Fuzz(func(t *testing.T, a, b, c, u, k float64) {
		l := func(x float64) unit.Length { return unit.Length(x) }
		slope, err := SlopeFromRise(l(a), l(b))
		orFinite(t, "SlopeFromRise", slope, err)
		slope, err = SlopeFromAngle(unit.Angle(a))
		orFinite(t, "SlopeFromAngle", slope, err)
		measured, err := MeasureSlope(l(a), l(u), l(b), l(c))
		orFinite(t, "MeasureSlope", measured, err)
		slope, err = TaperFromHalfAngle(unit.Angle(c))
		orFinite(t, "TaperFromHalfAngle", slope, err)
		slope, err = TaperFromDiameters(l(a), l(b), l(c))
		orFinite(t, "TaperFromDiameters", slope, err)
		angle, err := HalfAngleFromTaper(Slope(a))
		orFinite(t, "HalfAngleFromTaper", angle, err)
		bar := SineBar{Length: l(b), LengthU: l(u)}
		angle, angleU, err := bar.Angle(l(a), l(u))
		orFinite(t, "SineBar.Angle", []unit.Angle{angle, angleU}, err)
		stack, err := bar.Stack(unit.Angle(c))
		orFinite(t, "SineBar.Stack", stack, err)
		growth, growthU, err := Warming{l(a), Expansion(b), Expansion(u), unit.Temperature(c), unit.Temperature(k)}.Growth()
		orFinite(t, "Growth", []unit.Length{growth, growthU}, err)
		slope, err = ColumnNod(l(a), l(b), Expansion(u), unit.Temperature(c))
		orFinite(t, "ColumnNod", slope, err)
		factor, err := CoverageFactor(a, k)
		orFinite(t, "CoverageFactor", factor, err)
		degrees, err := DegreesFromReliability(a)
		orFinite(t, "DegreesFromReliability", struct{ DegreesOfFreedom float64 }{degrees}, err)
		if degrees < 0 || math.IsNaN(degrees) {
			t.Errorf("degrees of freedom %g", degrees)
		}
		tolerance := Tolerance{Low: a, High: b}
		chance, err := tolerance.Conformance(c, u)
		orFinite(t, "Conformance", chance, err)
		accept, err := tolerance.Accept(k, u)
		if err == nil {
			risks, err := tolerance.GlobalRisks(accept, c, math.Abs(a), u)
			orFinite(t, "GlobalRisks", risks, err)
		}
	})
}

// What a cut leaves, for any head, cutter and machine.
func FuzzCuts(f *testing.F) {
	f.Add(232e-6, -60e-6, 0.12, 0.09, 0.05, 0.3, 0.0, uint8(2))
	f.Add(1.5, 0.0, 0.0, -1.0, 1e-9, 1e9, 45.0, uint8(1))
	f.Add(math.NaN(), math.Inf(1), 1e308, 1e-308, 0.0, -0.1, 1e300, uint8(3))
	f.Fuzz(func(t *testing.T, x, y, diameter, width, step, length, feed float64, kind uint8) {
		tilt := Gradient{Slope(x), Slope(y)}
		u := Gradient{Slope(math.Abs(x) / 10), Slope(math.Abs(y) / 10)}
		d, w, s, l := unit.Length(diameter), unit.Length(width), unit.Length(step), unit.Length(length)
		azimuth := unit.Angle(feed)
		surface, err := Facing{Tilt: tilt, TiltU: u, Feed: azimuth, Diameter: d, Width: w, StepOver: s}.Surface()
		orFinite(t, "Surface", surface, err)
		hole := Hole{Feed: [2]HoleFeed{ByQuill, ByKnee}[kind%2], Tilt: tilt, TiltU: u, KneeLean: u, Depth: l, Diameter: d}
		made, err := hole.Made()
		orFinite(t, "Made", made, err)
		across, err := hole.Across(azimuth)
		orFinite(t, "Across", across, err)
		wall, err := Wall{Tilt: tilt, TiltU: u, Outward: azimuth, Depth: l, Wander: s}.Made()
		orFinite(t, "Wall", wall, err)
		m := Machine{X: MotionFromWays(bowedWays), C0Y: unit.Angle(x), B0Z: unit.Angle(y), Tilt: tilt, TiltU: u}
		if kind%3 == 0 {
			m.Y = func(travel unit.Length) (AxisErrors, AxisErrors) {
				return AxisErrors{EX: travel * unit.Length(x), EA: unit.Angle(y)}, AxisErrors{EZ: 1e-6}
			}
		}
		at := Position{X: l, Y: s, Z: w, Quill: d}
		deviation, err := m.Deviation(at)
		orFinite(t, "Deviation", deviation, err)
		exact, err := m.WorkErrorExact(at, at.AtTool())
		orFinite(t, "WorkErrorExact", exact, err)
		place, err := m.ToolInWork(at)
		orFinite(t, "ToolInWork", place, err)
		diagonals, err := m.BodyDiagonals(at, l, w, s)
		orFinite(t, "BodyDiagonals", diagonals, err)
		names, err := m.NamedErrors(l, s, w)
		orFinite(t, "NamedErrors", names, err)
		face, err := m.Face(FaceOnTable{U: l, Long: l, Deep: w, Feed: azimuth, Diameter: d, Passes: int(kind % 4), StepOver: s}, 5, 4)
		if err != nil {
			orFinite(t, "Face", nil, err)
			return
		}
		faced, err := face.Map()
		if err != nil {
			orFinite(t, "Map", nil, err)
			return
		}
		for _, h := range faced.Levelled().Heights {
			if math.IsInf(float64(h), 0) {
				t.Errorf("a levelled height is %g", float64(h))
			}
		}
		if gap, err := faced.StraightedgeAlong(1); err == nil {
			orFinite(t, "StraightedgeAlong", gap, err)
		}
	})
}

// Orders of any shares, correlated in any way, and blocks held in any way.
func FuzzOrders(f *testing.F) {
	f.Add(6e-6, 5e-6, 0.3, 20e-6, 2e-6, uint8(1), uint32(0x12345678))
	f.Add(0.0, 0.0, 1.0, 0.0, 0.0, uint8(2), uint32(0))
	f.Add(math.Inf(1), -1.0, -2.0, math.NaN(), 1e308, uint8(7), uint32(math.MaxUint32))
	f.Fuzz(func(t *testing.T, value, width, correlation, limit, u float64, spread uint8, holding uint32) {
		spreads := [5]Spread{FixedSpread, NormalSpread, RectangularSpread, TriangularSpread, "oval"}
		o := Order{Tolerance: Within(limit), Correlations: []Correlation{{0, 1, correlation}, {1, 2, correlation}},
			Shares: []OrderShare{{"a", value, spreads[spread%5], width}, {"b", -value, NormalSpread, width}, {"c", 0, spreads[spread/5%5], width}}}
		forecast, err := o.Forecast()
		orFinite(t, "Forecast", forecast, err)
		trials, err := o.Trials(TrialOptions{Trials: 1000, Seed: uint64(holding), Inspection: Inspection{Uncertainty: u, Accept: Within(limit)}})
		trials.Sorted = nil
		orFinite(t, "Trials", trials, err)
		var steps []BlockStep
		for i := range 6 {
			bits := holding >> (5 * i)
			steps = append(steps, BlockStep{Cut: Face(i + 1), AtJaw: Face(bits % 8), Below: Face(bits / 8 % 8), Upright: Face(bits / 4 % 8),
				Seat: [3]Seat{OnJaw, OnBed, "edge"}[bits%3], Lifted: bits%2 == 0})
		}
		slope := MeasuredSlope{Slope(value), Slope(width)}
		block, err := SquareBlock(steps, ViseErrors{JawLean: slope, BedX: slope, BedY: slope, Lift: slope, Square: slope})
		orFinite(t, "SquareBlock", block, err)
	})
}
