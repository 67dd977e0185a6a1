package wear

// A level is read twice at each station, the second time turned end for end.
// Half the difference of the two readings is the slope of the surface and half
// their sum is the error of the level, its zero. Both halves carry the same two
// reading errors, so they have the same variance; and the zero belongs to the
// level and should be alike at every station. The scatter of the zeros along
// the run is therefore a direct measurement of the uncertainty of the slopes,
// made at no extra cost, and a station whose zero stands out was read wrongly.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/unit"
)

// LevelStation is one station of a survey with a level that is turned end for
// end.
type LevelStation struct {
	// Position is where the level stood: along a bed, the place of its middle;
	// on a table that travels, u = -X (see the package comment).
	Position unit.Length
	// Normal is the reading in divisions with the marked end of the level to
	// the right (survey along x) or to the back (survey across y). It is
	// positive when the bubble has run toward the marked end.
	Normal float64
	// Turned is the reading in divisions after turning the level end for end on
	// the same spot. The sign still belongs to the level: positive when the
	// bubble has run toward the marked end, which is now on the other side.
	Turned float64
}

// LevelOptions describes the level. Division has no default.
type LevelOptions struct {
	// Division is the slope that moves the bubble by one division. It must be
	// above 0 and at most 10 mm/m.
	Division Slope
	// Step is the fraction of a division to which the bubble is read, at most
	// 2; zero means half a division.
	Step float64
	// ReadingU is the standard uncertainty of one reading that rounding does
	// not cover, in divisions: parallax, a bubble that has not settled. Zero
	// means none is known.
	ReadingU float64
}

// LevelPoint is what one station says.
type LevelPoint struct {
	// Position is copied from the station.
	Position unit.Length
	// Slope is half the difference of the readings, as a slope, and SlopeU its
	// standard uncertainty. At a suspect station SlopeU also holds how far the
	// zero stands out, since that is how far the slope may be wrong.
	Slope, SlopeU Slope
	// Zero is half the sum of the readings, as a slope: the error of the level.
	Zero Slope
	// ZeroOff is Zero less what the other stations say it should be.
	ZeroOff Slope
	// Suspect reports that ZeroOff is too large to be chance.
	Suspect bool
}

// LevelSurvey is what a run of stations says.
type LevelSurvey struct {
	// Points are the stations in the order in which they were given.
	Points []LevelPoint
	// Zero is the mean error of the level over the stations that are not
	// suspect, and ZeroU its standard uncertainty.
	Zero, ZeroU Slope
	// RoundingU is the standard uncertainty of a slope, or of a zero, that
	// follows from how finely the bubble is read: Type B.
	RoundingU Slope
	// ScatterU is the standard deviation of the zeros along the run: Type A. It
	// is zero when fewer than three stations can be used.
	ScatterU Slope
	// Freedom is the number of degrees of freedom of SlopeU: that of ScatterU
	// where the scatter is the larger, infinite where rounding is.
	Freedom float64
	// Drift is the change of the zero per station, in the order of the
	// stations, and DriftU its standard uncertainty.
	Drift, DriftU Slope
	// DriftP is the chance of a drift as large as this if there were none; 1
	// when fewer than four stations can be used.
	DriftP float64
}

// driftLevel is the chance below which a drift of the zero is taken as real;
// suspectLevel the chance, over the whole run, of calling a sound station
// suspect. Both are choices, in the customary range.
const (
	driftLevel   = 0.05
	suspectLevel = 0.01
)

// ReadLevel returns the slope and the error of the level at each station:
//
//	slope = (normal - turned)/2 * division
//	zero  = (normal + turned)/2 * division
//
// Their standard uncertainty is the larger of two estimates: rounding, which
// for a reading in steps of q is q/sqrt(12) a reading and 1/sqrt(2) of that in
// a half-difference (JCGM 100:2008, 4.3.7), and the scatter of the zeros along
// the run, taken about their mean, or about a straight line when the zero
// drifts. The larger is taken and not the sum because each contains the other's
// share. A steady drift of the zero leaves the slopes right as long as the two
// readings at a station follow one another.
//
// A station is suspect when its zero differs from the mean of the others by
// more than chance allows: a Student test with the station left out, the level
// of 1 % shared over all stations (Bonferroni), repeated without the worst
// while at least four stations stay and at most a third have gone.
//
// It returns an error for no stations, a position or reading that is not
// finite, a reading beyond 1000 divisions, or options outside their limits.
func ReadLevel(stations []LevelStation, options LevelOptions) (LevelSurvey, error) {
	options, err := options.checked()
	if err != nil {
		return LevelSurvey{}, err
	}
	if len(stations) == 0 {
		return LevelSurvey{}, errors.New("wear: a level survey needs at least one station")
	}
	survey := LevelSurvey{Points: make([]LevelPoint, len(stations))}
	for i, station := range stations {
		if err := station.check(i + 1); err != nil {
			return LevelSurvey{}, err
		}
		survey.Points[i] = LevelPoint{
			Position: station.Position,
			Slope:    Slope((station.Normal - station.Turned) / 2 * float64(options.Division)),
			Zero:     Slope((station.Normal + station.Turned) / 2 * float64(options.Division)),
		}
	}
	reading := math.Hypot(options.Step/math.Sqrt(12), options.ReadingU)
	survey.RoundingU = Slope(reading/math.Sqrt2) * options.Division
	survey.judgeZeros()
	return survey, nil
}

func (o LevelOptions) checked() (LevelOptions, error) {
	if !(o.Division > 0) || o.Division > 10*MillimetrePerMetre {
		return o, fmt.Errorf("wear: division of the level is %.6g mm/m; it must be above 0 and at most 10 mm/m", float64(o.Division/MillimetrePerMetre))
	}
	if o.Step == 0 {
		o.Step = 0.5
	}
	if !(o.Step > 0) || o.Step > 2 {
		return o, fmt.Errorf("wear: level read to %g of a division; the step must be above 0 and at most 2", o.Step)
	}
	if !(o.ReadingU >= 0) || o.ReadingU > 100 {
		return o, fmt.Errorf("wear: standard uncertainty of a level reading is %g divisions; it must be from 0 to 100", o.ReadingU)
	}
	return o, nil
}

// check returns what is wrong with the station, which is number n of the run.
func (s LevelStation) check(n int) error {
	const limit = 1000 // divisions; no vial shows more
	if !finite(float64(s.Position)) {
		return fmt.Errorf("wear: level station %d: position %g m is not finite", n, float64(s.Position))
	}
	if !(math.Abs(s.Normal) <= limit) {
		return fmt.Errorf("wear: level station %d: reading %g divisions is outside -%d to %d", n, s.Normal, limit, limit)
	}
	if !(math.Abs(s.Turned) <= limit) {
		return fmt.Errorf("wear: level station %d, turned: reading %g divisions is outside -%d to %d", n, s.Turned, limit, limit)
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// judgeZeros finds the suspect stations, the drift and the scatter of the
// zeros, and from them the uncertainty of every slope.
func (s *LevelSurvey) judgeZeros() {
	kept := s.dropSuspects()
	order, zeros := make([]float64, len(kept)), make([]float64, len(kept))
	for k, i := range kept {
		order[k], zeros[k] = float64(i), float64(s.Points[i].Zero)
	}
	floor := float64(s.RoundingU)
	mean, scatter := stat.MeanStdDev(zeros, nil)
	freedom := float64(len(kept) - 1)
	s.Zero, s.DriftP = Slope(mean), 1
	if len(kept) >= 4 {
		line := fitLine(order, zeros, nil)
		s.Drift = Slope(line.slope)
		s.DriftU = Slope(math.Max(line.scatter(), floor) / math.Sqrt(line.sxx))
		s.DriftP = twoSided(line.slope/float64(s.DriftU), freedomAbove(line.scatter(), floor, line.freedom()))
		if s.DriftP < driftLevel {
			scatter, freedom = line.scatter(), line.freedom()
		}
	}
	if len(kept) >= 3 {
		s.ScatterU = Slope(scatter)
	}
	u := math.Max(float64(s.ScatterU), floor)
	s.Freedom = freedomAbove(float64(s.ScatterU), floor, freedom)
	s.ZeroU = Slope(u / math.Sqrt(float64(len(kept))))
	for i := range s.Points {
		point := &s.Points[i]
		point.SlopeU = Slope(u)
		if point.Suspect {
			point.ZeroOff = point.Zero - s.Zero
			point.SlopeU = Slope(math.Hypot(u, float64(point.ZeroOff)))
		}
	}
}

// dropSuspects marks the stations whose zero stands out and returns the others.
func (s *LevelSurvey) dropSuspects() []int {
	kept := make([]int, len(s.Points))
	for i := range kept {
		kept[i] = i
	}
	for dropped := 0; ; dropped++ {
		worst, chance := -1, 1.0
		for k, i := range kept {
			off, p := s.standsOut(kept, k)
			s.Points[i].ZeroOff = Slope(off)
			if p < chance {
				worst, chance = k, p
			}
		}
		mayDrop := len(kept) >= 5 && dropped < len(s.Points)/3
		if worst < 0 || !mayDrop || chance*float64(len(kept)) >= suspectLevel {
			return kept
		}
		s.Points[kept[worst]].Suspect = true
		kept = append(kept[:worst], kept[worst+1:]...)
	}
}

// standsOut returns how far the zero of the k-th kept station is from the mean
// of the other kept ones, and the chance of that.
func (s *LevelSurvey) standsOut(kept []int, k int) (off, p float64) {
	if len(kept) < 3 {
		return 0, 1
	}
	others := make([]float64, 0, len(kept)-1)
	for j, i := range kept {
		if j != k {
			others = append(others, float64(s.Points[i].Zero))
		}
	}
	mean, sd := stat.MeanStdDev(others, nil)
	floor, n := float64(s.RoundingU), float64(len(others))
	off = float64(s.Points[kept[k]].Zero) - mean
	u := math.Max(sd, floor) * math.Sqrt(1+1/n)
	return off, twoSided(off/u, freedomAbove(sd, floor, n-1))
}

// freedomAbove returns the degrees of freedom of the larger of a scatter and a
// floor that is known without measuring.
func freedomAbove(scatter, floor, freedom float64) float64 {
	if scatter > floor {
		return freedom
	}
	return math.Inf(1)
}

// SlopePoints returns the slopes of the survey in the order of the stations,
// ready for [ProfileFromSlopes] and [CompareSlopes].
func (s LevelSurvey) SlopePoints() []SlopePoint {
	points := make([]SlopePoint, len(s.Points))
	for i, p := range s.Points {
		points[i] = SlopePoint{Position: p.Position, Slope: p.Slope, U: p.SlopeU, Freedom: s.Freedom}
	}
	return points
}
