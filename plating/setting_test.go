package plating

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// escutcheonPlan is four escutcheons 44 x 19 x 1.6 at 3 A/dm2 for 26.3 um.
func escutcheonPlan(t *testing.T) Plan {
	t.Helper()
	s, err := Rack("load", RackItem{"escutcheons", Plate{mmU(44, 0.05), mmU(19, 0.05), mmU(1.6, 0.02)}, 4})
	if err != nil {
		t.Fatal(err)
	}
	return Plan{Deposit: Nickel().Deposit(), Area: s, Thickness: 26.3 * micrometre,
		CurrentDensity: 3 * AmperePerSquareDecimetre, Efficiency: 0.95, EfficiencyU: 0.01,
		Supply: Supply{Step: 0.01 * unit.Ampere, Most: 10 * unit.Ampere}, TimeU: 5 * unit.Second,
		Spread: Spread{0.82, 1.75}}
}

func TestEscutcheonExercise(t *testing.T) {
	// Four escutcheons: 74.9 cm2, 2.25 A; 45 min at 95 %: 1.76 g, 26.3 um.
	// Arithmetic, rounded as printed.
	s, err := escutcheonPlan(t).Setting()
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name           string
		got, want, tol float64
	}{
		{"current, A", float64(s.Current), 2.25, 1e-9},
		{"time, min", float64(s.Time / minute), 45, 0.05},
		{"mass, g", float64(s.Mass / gram), 1.76, 0.005},
		{"mean, um", float64(s.Mean / micrometre), 26.3, 0.05},
		{"charge, A h", float64(s.Charge / AmpereHour), 2.25 * 0.75, 0.002},
		{"thinnest, um", float64(s.Thinnest / micrometre), 0.82 * 26.3, 0.01},
		{"thickest, um", float64(s.Thickest / micrometre), 1.75 * 26.3, 0.01},
		{"peak current density, A/dm2", float64(s.PeakCurrentDensity / AmperePerSquareDecimetre), 1.75 * 2.25 / 0.74944, 1e-3},
	}
	for _, test := range tests {
		if !scalar.EqualWithinAbs(test.got, test.want, test.tol) {
			t.Errorf("%s = %v, want %v", test.name, test.got, test.want)
		}
	}
}

func TestSettingUncertainty(t *testing.T) {
	p := escutcheonPlan(t)
	s, err := p.Setting()
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinRel(rootSumSquares(s.Shares), float64(s.MeanU), 1e-12) {
		t.Errorf("shares give %v, MeanU is %v m", rootSumSquares(s.Shares), float64(s.MeanU))
	}
	// Draws of every input through Faraday's law.
	random := rand.New(rand.NewPCG(3, 4))
	const n = 40000
	var mean, squares, mass, massSquares float64
	for range n {
		normal := random.NormFloat64
		area := float64(p.Area.Area) + float64(p.Area.U)*normal()
		eta := p.Efficiency + p.EfficiencyU*normal()
		current := float64(s.Current) + float64(s.CurrentU)*normal()
		time := float64(s.Time) + float64(p.TimeU)*normal()
		density := float64(p.Deposit.Density) + float64(p.Deposit.DensityU)*normal()
		m := float64(p.Deposit.Equivalent) * eta * current * time
		d := m / (density * area)
		mean += d
		squares += d * d
		mass += m
		massSquares += m * m
	}
	// The scatter of a standard deviation from n draws is 1/sqrt(2n), 0.35 %.
	got := math.Sqrt(squares/n - mean*mean/n/n)
	if !scalar.EqualWithinRel(float64(s.MeanU), got, 0.015) {
		t.Errorf("MeanU = %v m, draws give %v", float64(s.MeanU), got)
	}
	got = math.Sqrt(massSquares/n - mass*mass/n/n)
	if !scalar.EqualWithinRel(float64(s.MassU), got, 0.015) {
		t.Errorf("MassU = %v kg, draws give %v", float64(s.MassU), got)
	}
}

func TestSettingRoundsTheCurrentFirst(t *testing.T) {
	p := escutcheonPlan(t)
	p.Supply.Step = 0.5 * unit.Ampere
	s, err := p.Setting()
	if err != nil {
		t.Fatal(err)
	}
	if s.Current != 2*unit.Ampere && s.Current != 2.5*unit.Ampere {
		t.Errorf("current = %v A, want a whole number of half amperes", float64(s.Current))
	}
	if !scalar.EqualWithinRel(float64(s.Mean), float64(p.Thickness), 1e-12) {
		t.Errorf("mean = %v m, want the wanted %v m", float64(s.Mean), float64(p.Thickness))
	}
}

func TestSettingByCurrent(t *testing.T) {
	p := escutcheonPlan(t)
	p.CurrentDensity, p.Current = 0, 4.5*unit.Ampere
	s, err := p.Setting()
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(s.CurrentDensity / AmperePerSquareDecimetre); !scalar.EqualWithinRel(got, 4.5/0.74944, 1e-9) {
		t.Errorf("current density = %v A/dm2, want %v", got, 4.5/0.74944)
	}
}

func TestChanceAtLeast(t *testing.T) {
	s := Setting{Mean: 20 * micrometre, MeanU: 1 * micrometre}
	// Normal distribution: 0.5 at the mean, 0.8413 and 0.1587 at one standard
	// uncertainty.
	for limit, want := range map[float64]float64{20: 0.5, 19: 0.8413447, 21: 0.1586553} {
		if got := s.ChanceAtLeast(unit.Length(limit) * micrometre); !scalar.EqualWithinAbs(got, want, 1e-6) {
			t.Errorf("chance of %v um = %v, want %v", limit, got, want)
		}
	}
	sure := Setting{Mean: 20 * micrometre}
	if sure.ChanceAtLeast(20*micrometre) != 1 || sure.ChanceAtLeast(20.1*micrometre) != 0 {
		t.Error("without uncertainty the chance must be 1 up to the mean and 0 beyond")
	}
}

func TestMostCurrentDensity(t *testing.T) {
	// Corner factor 1.75, corner below 5 A/dm2: mean 2.86. Arithmetic, 0.01.
	got, err := MostCurrentDensity(5*AmperePerSquareDecimetre, 1.75)
	if err != nil {
		t.Fatal(err)
	}
	if !scalar.EqualWithinAbs(float64(got/AmperePerSquareDecimetre), 2.86, 0.005) {
		t.Errorf("mean = %v A/dm2, want 2.86", float64(got/AmperePerSquareDecimetre))
	}
	for _, share := range []float64{0.5, math.NaN(), math.Inf(1)} {
		if _, err := MostCurrentDensity(5*AmperePerSquareDecimetre, share); err == nil {
			t.Errorf("share %v: no error", share)
		}
	}
	if _, err := MostCurrentDensity(0, 1.75); err == nil {
		t.Error("limit of nought: no error")
	}
}

func TestSettingErrors(t *testing.T) {
	tests := []struct {
		name    string
		spoil   func(p *Plan)
		wantErr string
	}{
		{"no area", func(p *Plan) { p.Area = Surface{} }, "area is 0 cm2"},
		{"area uncertainty", func(p *Plan) { p.Area.U = unit.Area(math.NaN()) }, "standard uncertainty of the area"},
		{"thickness", func(p *Plan) { p.Thickness = -1 * micrometre }, "thickness is -1 um"},
		{"both", func(p *Plan) { p.Current = 1 * unit.Ampere }, "give one"},
		{"neither", func(p *Plan) { p.CurrentDensity = 0 }, "neither a current nor"},
		{"percent", func(p *Plan) { p.Efficiency = 95 }, "95 % is 0.95"},
		{"supply too small", func(p *Plan) { p.Supply.Most = 2 * unit.Ampere }, "at most the 2 A that the supply gives"},
		{"supply too coarse", func(p *Plan) { p.Supply.Step = 10 * unit.Ampere }, "half the supply's step"},
		{"no step", func(p *Plan) { p.Supply.Step = 0 }, "step of the supply"},
		{"thin share", func(p *Plan) { p.Spread.Thinnest = 1.2 }, "thinnest place is 1.2"},
		{"thick share", func(p *Plan) { p.Spread.Thickest = 0.9 }, "thickest place is 0.9"},
		{"clock", func(p *Plan) { p.TimeU = -1 }, "standard uncertainty of the time"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			p := escutcheonPlan(t)
			test.spoil(&p)
			if _, err := p.Setting(); err == nil || !strings.Contains(err.Error(), test.wantErr) {
				t.Errorf("error = %v, want one with %q", err, test.wantErr)
			}
		})
	}
}

// FuzzPlan holds that any plan gives an error or a finite setting.
func FuzzPlan(f *testing.F) {
	f.Add(74.9, 1.0, 26.3, 3.0, 0.0, 0.95, 0.01, 0.01, 0.82, 1.75)
	f.Add(25.75, 0.5, 15.0, 0.0, 0.52, 0.955, 0.02, 0.01, 0.0, 0.0)
	f.Add(1e300, 1e300, 1e-300, 1e300, 0.0, 1.0, 1e300, 1e-300, 1.0, 1e300)
	f.Fuzz(func(t *testing.T, area, areaU, um, density, current, efficiency, efficiencyU, step, thin, thick float64) {
		s, err := Plan{Deposit: Nickel().Deposit(),
			Area:      Surface{Area: unit.Area(area) * SquareCentimetre, U: unit.Area(areaU) * SquareCentimetre},
			Thickness: unit.Length(um) * micrometre, CurrentDensity: CurrentDensity(density) * AmperePerSquareDecimetre,
			Current: unit.Current(current), Efficiency: efficiency, EfficiencyU: efficiencyU,
			Supply: Supply{Step: unit.Current(step)}, Spread: Spread{thin, thick}}.Setting()
		if err != nil {
			return
		}
		for _, v := range []float64{float64(s.Current), float64(s.Time), float64(s.Mass), float64(s.Mean), float64(s.MeanU), float64(s.PeakCurrentDensity)} {
			if !isFinite(v) || v < 0 {
				t.Errorf("setting %+v has a value that is not finite", s)
			}
		}
	})
}
