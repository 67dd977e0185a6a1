package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

func TestReadLevelByReversal(t *testing.T) {
	// Reversal as algebra: readings +0.035 and, with the sign of the surface,
	// -0.011 mm/m give the surface (0.035-0.011)/2 = 0.012 and the level's zero
	// (0.035+0.011)/2 = 0.023 mm/m. Our second reading carries the sign of the
	// level, so it is +0.011.
	survey, err := ReadLevel([]LevelStation{{Normal: 35, Turned: 11}}, LevelOptions{Division: MicrometrePerMetre})
	if err != nil {
		t.Fatal(err)
	}
	p := survey.Points[0]
	if got := float64(p.Slope / MillimetrePerMetre); math.Abs(got-0.012) > 1e-15 {
		t.Errorf("slope = %g mm/m, want 0.012", got)
	}
	if got := float64(p.Zero / MillimetrePerMetre); math.Abs(got-0.023) > 1e-15 {
		t.Errorf("zero = %g mm/m, want 0.023", got)
	}
	// Half a division, rectangular, in half the difference of two readings.
	if want := 0.5 / math.Sqrt(24) * 1e-6; math.Abs(float64(p.SlopeU)-want) > 1e-18 {
		t.Errorf("slope uncertainty = %g, want %g", float64(p.SlopeU), want)
	}
}

// leveled reads one run of the shop's level.
func leveled(t *testing.T, rows []levelRow, along bool) LevelSurvey {
	t.Helper()
	survey, err := ReadLevel(stations(rows, along), shopLevel)
	if err != nil {
		t.Fatal(err)
	}
	return survey
}

// TestReadLevelRecoversThePose holds the 28 slopes against the hidden truth.
func TestReadLevelRecoversThePose(t *testing.T) {
	runs := []struct {
		name  string
		rows  []levelRow
		along bool
		truth func(poseRow) float64
	}{
		{"2019 along", level2019, true, func(p poseRow) float64 { return p.along + lean2019Along }},
		{"2019 across", level2019, false, func(p poseRow) float64 { return p.across + lean2019Across }},
		{"2025 along", level2025, true, func(p poseRow) float64 { return p.along2 + lean2025Along }},
		{"2025 across", level2025, false, func(p poseRow) float64 { return p.acro2 + lean2025Across }},
	}
	var sum, scatter float64
	for _, run := range runs {
		survey := leveled(t, run.rows, run.along)
		scatter += math.Pow(float64(survey.ScatterU/MicrometrePerMetre), 2) / 4
		limit := 3.0 // of 28 slopes, normal, the worst stays below 3.2 nineteen times in twenty
		if !math.IsInf(survey.Freedom, 1) {
			limit = distuv.StudentsT{Sigma: 1, Nu: survey.Freedom}.Quantile(1 - 0.025/28)
		}
		for i, p := range survey.Points {
			miss := (float64(p.Slope/MicrometrePerMetre) - run.truth(pose[i])) / float64(p.SlopeU/MicrometrePerMetre)
			sum += math.Pow(float64(p.Slope/MicrometrePerMetre)-run.truth(pose[i]), 2) / 28
			if math.Abs(miss) > limit {
				t.Errorf("%s, station %d: slope misses the truth by %.1f standard uncertainties, limit %.1f", run.name, i+1, miss, limit)
			}
			if p.Suspect {
				t.Errorf("%s, station %d: called suspect", run.name, i+1)
			}
		}
	}
	// The misses must be of the size that the scatter of the zeros tells: F with
	// 28 and 24 degrees of freedom lies between 0.46 and 2.2 in 95 of 100 cases.
	if ratio := sum / scatter; ratio < 0.46 || ratio > 2.2 {
		t.Errorf("mean squared miss is %.2f of the zeros' variance, want 0.46 to 2.2", ratio)
	}
}

func TestReadLevelFindsTheZero(t *testing.T) {
	// The level was out by +1.6 divisions in 2019 and -1.1 in 2025, within what
	// the table's own check allows (-22 um/m in 2025).
	for _, test := range []struct {
		rows []levelRow
		want float64
	}{{level2025, -22}} {
		survey := leveled(t, test.rows, true)
		if miss := float64(survey.Zero/MicrometrePerMetre) - test.want; math.Abs(miss) > 3*float64(survey.ZeroU/MicrometrePerMetre) {
			t.Errorf("zero misses %g um/m by %.2f, standard uncertainty %.2f", test.want, miss, float64(survey.ZeroU/MicrometrePerMetre))
		}
		if survey.DriftP < 0.01 {
			t.Errorf("drift of a steady zero has chance %g", survey.DriftP)
		}
	}
}

func TestReadLevelNamesTheSlippedStation(t *testing.T) {
	run := stations(level2025, true)
	run[3].Turned += 4 // the level slid by four divisions between readings
	survey, err := ReadLevel(run, shopLevel)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range survey.Points {
		if p.Suspect != (i == 3) {
			t.Errorf("station %d: suspect = %v", i+1, p.Suspect)
		}
	}
	if got, want := float64(survey.Points[3].SlopeU/MicrometrePerMetre), 40.0; got < want-3 || got > want+3 {
		t.Errorf("uncertainty at the slipped station = %g um/m, want about the %g that it slipped", got, want)
	}
	clean := leveled(t, level2025, true)
	if got, was := survey.Points[0].SlopeU, clean.Points[0].SlopeU; got > 1.1*was {
		t.Errorf("one slipped station raised the others' uncertainty from %g to %g", float64(was), float64(got))
	}
}

func TestReadLevelSeesDrift(t *testing.T) {
	run := stations(level2025, true)
	for i := range run { // the vial warms: its zero runs by half a division a station
		run[i].Normal += 0.5 * float64(i)
		run[i].Turned += 0.5 * float64(i)
	}
	survey, err := ReadLevel(run, shopLevel)
	if err != nil {
		t.Fatal(err)
	}
	if survey.DriftP > 0.001 {
		t.Errorf("chance of the drift = %g, want it seen", survey.DriftP)
	}
	if miss := float64(survey.Drift/MicrometrePerMetre) - 10; math.Abs(miss) > 3*float64(survey.DriftU/MicrometrePerMetre) {
		t.Errorf("drift misses 10 um/m a station by %g", miss)
	}
	if got := float64(survey.ScatterU / MicrometrePerMetre); got > 4 {
		t.Errorf("scatter about the drift = %g um/m, want it without the drift", got)
	}
}

// TestReadLevelFalseAlarms counts sound runs in which a station is called
// suspect: about one in a hundred.
func TestReadLevelFalseAlarms(t *testing.T) {
	random := newNormal(11)
	alarms := 0
	const runs = 4000
	for range runs {
		run := make([]LevelStation, 9)
		for i := range run {
			run[i].Normal, run[i].Turned = 3+0.5*random(), -3+0.5*random()
		}
		survey, err := ReadLevel(run, LevelOptions{Division: 20 * MicrometrePerMetre, Step: 0.1})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range survey.Points {
			if p.Suspect {
				alarms++
				break
			}
		}
	}
	// 1 % of 4000 is 40, standard deviation 6.3.
	if alarms < 20 || alarms > 62 {
		t.Errorf("%d of %d sound runs have a suspect, want about 40", alarms, runs)
	}
}

func TestReadLevelLaws(t *testing.T) {
	base := leveled(t, level2025, true)
	turned := stations(level2025, true)
	for i := range turned { // begin with the marked end to the left
		turned[i].Normal, turned[i].Turned = turned[i].Turned, turned[i].Normal
	}
	mirrored, err := ReadLevel(turned, shopLevel)
	if err != nil {
		t.Fatal(err)
	}
	for i := range base.Points {
		if base.Points[i].Slope != -mirrored.Points[i].Slope || base.Points[i].Zero != mirrored.Points[i].Zero {
			t.Errorf("station %d: swapping the readings must turn the slope and keep the zero", i+1)
		}
	}
}

func TestReadLevelErrors(t *testing.T) {
	good := stations(level2025, true)
	with := func(change func(s *LevelStation)) []LevelStation {
		bad := append([]LevelStation(nil), good...)
		change(&bad[4])
		return bad
	}
	nan := math.NaN()
	tests := []struct {
		name     string
		stations []LevelStation
		options  LevelOptions
		want     string
	}{
		{"no stations", nil, shopLevel, "at least one station"},
		{"no division", good, LevelOptions{}, "division of the level is 0 mm/m"},
		{"coarse division", good, LevelOptions{Division: 1}, "at most 10 mm/m"},
		{"negative step", good, LevelOptions{Division: 1e-5, Step: -1}, "read to -1 of a division"},
		{"uncertainty not a number", good, LevelOptions{Division: 1e-5, ReadingU: nan}, "NaN divisions"},
		{"position", with(func(s *LevelStation) { s.Position = unitNaN }), shopLevel, "station 5: position NaN"},
		{"reading", with(func(s *LevelStation) { s.Normal = math.Inf(1) }), shopLevel, "station 5: reading +Inf"},
		{"turned", with(func(s *LevelStation) { s.Turned = -2000 }), shopLevel, "station 5, turned: reading -2000"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, err := ReadLevel(test.stations, test.options)
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "wear: ") {
				t.Errorf("error = %v, want one about %q", err, test.want)
			}
		})
	}
}
