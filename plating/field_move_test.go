package plating

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

func TestMovedIsTheSameAsNew(t *testing.T) {
	// Elements keep their places, so a moved field differs from a new one only
	// through how elements are spread: 0.5 % of the spread. The part that moves
	// is an anode, then a shield (which breaks the factorisation).
	shield := Box("shield", RoleShield, .03, -.02, .032, .02)
	for name, test := range map[string]struct {
		from, to Section
		move     Move
	}{
		"anode": {hangingPlate(0), hangingPlate(0.02), Move{Outline: "left", X: 20 * millimetre}},
		"shield": {
			func() Section { s := hangingPlate(0); s.Outlines = append(s.Outlines, shield); return s }(),
			func() Section {
				s := hangingPlate(0)
				s.Outlines = append(s.Outlines, Box("shield", RoleShield, .025, -.02, .027, .02))
				return s
			}(),
			Move{Outline: "shield", X: -5 * millimetre}},
	} {
		f, err := NewField(test.from, 240)
		if err != nil {
			t.Fatal(err)
		}
		before, err := f.Solve(bathConditions)
		if err != nil {
			t.Fatal(err)
		}
		moved, err := f.Moved(test.move)
		if err != nil {
			t.Fatal(err)
		}
		got, err := moved.Solve(bathConditions)
		if err != nil {
			t.Fatal(err)
		}
		want := solved(t, test.to, 240, bathConditions)
		if !scalar.EqualWithinRel(got.Spread, want.Spread, 5e-3) || !scalar.EqualWithinRel(float64(got.Voltage), float64(want.Voltage), 5e-3) {
			t.Errorf("%s: moved: spread %v, %v V; new: %v, %v V", name, got.Spread, float64(got.Voltage), want.Spread, float64(want.Voltage))
		}
		back, err := moved.Moved(Move{Outline: test.move.Outline, X: -test.move.X})
		if err != nil {
			t.Fatal(err)
		}
		again, err := back.Solve(bathConditions)
		// Rounding of the places only.
		if err != nil || !scalar.EqualWithinRel(again.Spread, before.Spread, 1e-6) {
			t.Errorf("%s: spread after moving back = %v, %v, want %v", name, again.Spread, err, before.Spread)
		}
		if still, err := f.Solve(bathConditions); err != nil || still.Spread != before.Spread {
			t.Errorf("%s: the field itself changed: spread %v, %v, was %v", name, still.Spread, err, before.Spread)
		}
	}
}

func TestMovedRing(t *testing.T) {
	// On rings a move along the axis changes places, a move across it areas too.
	tank := ringTank()
	f, err := NewField(tank, 240)
	if err != nil {
		t.Fatal(err)
	}
	c := bathConditions
	c.Current = 0.5
	moved, err := f.Moved(Move{Outline: "anode", X: -20 * millimetre, Y: 5 * millimetre})
	if err != nil {
		t.Fatal(err)
	}
	got, err := moved.Solve(c)
	if err != nil {
		t.Fatal(err)
	}
	tank.Outlines[2] = Box("anode", RoleAnode, .045, .025, .05, .135)
	want := solved(t, tank, 240, c)
	// Two meshes of one fineness: 0.5 %.
	if !scalar.EqualWithinRel(got.Spread, want.Spread, 5e-3) || !scalar.EqualWithinRel(float64(got.Voltage), float64(want.Voltage), 5e-3) {
		t.Errorf("moved: spread %v, %v V; new: %v, %v V", got.Spread, float64(got.Voltage), want.Spread, float64(want.Voltage))
	}
}

func TestMovedErrors(t *testing.T) {
	f, err := NewField(hangingPlate(0), 80)
	if err != nil {
		t.Fatal(err)
	}
	for name, m := range map[string]Move{
		"unknown":   {Outline: "none"},
		"NaN":       {Outline: "left", X: unit.Length(math.NaN())},
		"touching":  {Outline: "left", X: 90 * millimetre},
		"into wall": {Outline: "left", X: -20 * millimetre},
	} {
		if _, err := f.Moved(m); err == nil {
			t.Errorf("%s: Moved gave no error", name)
		}
	}
	joined, err := NewField(duct(0.2, 0.1), 40)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := joined.Moved(Move{Outline: "anode", Y: 1 * millimetre}); err == nil {
		t.Error("moving an outline away from those it joins gave no error")
	}
}

func TestSensitivity(t *testing.T) {
	f, err := NewField(hangingPlate(0.01), 160)
	if err != nil {
		t.Fatal(err)
	}
	x, y, err := f.Sensitivity(bathConditions, "left", 1*millimetre)
	if err != nil {
		t.Fatal(err)
	}
	// The tank is symmetric about its long axis: a move across it changes
	// nothing to first order. The corners of the plate swap, so the extremes have
	// a kink there, but the spread has none.
	if math.Abs(y.Spread) > 0.02*math.Abs(x.Spread) {
		t.Errorf("effect across the tank = %v a metre, along it %v; want none across", y.Spread, x.Spread)
	}
	// Along the tank: against solves a millimetre apart.
	spreadAt := func(dx unit.Length) float64 {
		moved, err := f.Moved(Move{Outline: "left", X: dx})
		if err != nil {
			t.Fatal(err)
		}
		d, err := moved.Solve(bathConditions)
		if err != nil {
			t.Fatal(err)
		}
		return d.Spread
	}
	if want := (spreadAt(1*millimetre) - spreadAt(-1*millimetre)) / 2e-3; !scalar.EqualWithinRel(x.Spread, want, 1e-6) {
		t.Errorf("effect along the tank = %v a metre, want %v", x.Spread, want)
	}
	if _, _, err := f.Sensitivity(bathConditions, "left", 0); err == nil {
		t.Error("a step of zero gave no error")
	}
	if _, _, err := f.Sensitivity(bathConditions, "none", 1*millimetre); err == nil {
		t.Error("an unknown outline gave no error")
	}
}

func TestEven(t *testing.T) {
	// Begin with the anodes set askew. The most even coat has them level with the
	// plate again, by symmetry.
	s := hangingPlate(0)
	for i := range s.Outlines[1].Corners {
		s.Outlines[1].Corners[i].Y += 25 * millimetre
		s.Outlines[2].Corners[i].Y += 25 * millimetre
	}
	f, err := NewField(s, 160)
	if err != nil {
		t.Fatal(err)
	}
	room := 40 * millimetre
	got, err := f.Even(bathConditions, []Reach{
		{Outline: "left", FromY: -room, ToY: 0},
		{Outline: "right", FromY: -room, ToY: 0},
	}, 60)
	if err != nil {
		t.Fatal(err)
	}
	if got.After.Spread >= got.Before.Spread || got.Solves > 60 {
		t.Errorf("spread %v after %d solves, before %v", got.After.Spread, got.Solves, got.Before.Spread)
	}
	// The bottom of the hollow is flat: the two anodes' mean place is found to a
	// few millimetres.
	if mean := (got.Moves[0].Y + got.Moves[1].Y) / 2; !scalar.EqualWithinAbs(float64(mean), -25e-3, 5e-3) {
		t.Errorf("anodes moved by %v and %v m, want about -0.025 together", float64(got.Moves[0].Y), float64(got.Moves[1].Y))
	}
	level := solved(t, hangingPlate(0), 160, bathConditions)
	if !scalar.EqualWithinRel(got.After.Spread, level.Spread, 0.01) {
		t.Errorf("spread found = %v, level anodes have %v", got.After.Spread, level.Spread)
	}
}

func TestEvenErrors(t *testing.T) {
	f, err := NewField(hangingPlate(0), 80)
	if err != nil {
		t.Fatal(err)
	}
	for name, reaches := range map[string][]Reach{
		"no reach":     nil,
		"no room":      {{Outline: "left"}},
		"unknown":      {{Outline: "none", ToX: 1}},
		"out of order": {{Outline: "left", FromX: 1}},
		"NaN":          {{Outline: "left", FromX: unit.Length(math.NaN()), ToX: 1}},
	} {
		if _, err := f.Even(bathConditions, reaches, 0); err == nil {
			t.Errorf("%s: Even gave no error", name)
		}
	}
	if _, err := f.Even(Conditions{}, []Reach{{Outline: "left", ToX: 1 * millimetre}}, 0); err == nil {
		t.Error("empty conditions gave no error")
	}
}

func TestSimplex(t *testing.T) {
	// H. H. Rosenbrock's valley, with its lowest place at (1, 1) by definition.
	calls := 0
	got, err := simplex(func(x []float64) float64 {
		calls++
		return 100*math.Pow(x[1]-x[0]*x[0], 2) + math.Pow(1-x[0], 2)
	}, []float64{-1.2, 1}, 0.3, 400, 0)
	if err != nil {
		t.Fatal(err)
	}
	if calls > 400 || !scalar.EqualWithinAbs(got[0], 1, 1e-3) || !scalar.EqualWithinAbs(got[1], 1, 1e-3) {
		t.Errorf("simplex = %v after %d calls, want (1, 1)", got, calls)
	}
}
