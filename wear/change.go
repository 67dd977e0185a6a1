package wear

// Two surveys of one way differ by wear and by the settling of the floor, which
// tilts the whole machine and so adds one constant to every slope. The constant
// cannot be told from wear that tilts the whole way alike: the readings alone
// give the change only up to a constant. What fixes it is a statement about the
// machine, that some stations did not wear; without one the mean change of all
// stations stands in, and what is called change is then the departure from that
// mean. The shape of the change, its height profile less a straight line, needs
// no such statement.

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/unit"
)

// Control is how the chance of false alarms is held down when many stations are
// judged at once.
type Control int

const (
	// Holm holds the chance of even one false alarm in the whole run at the
	// level (S. Holm, A simple sequentially rejective multiple test procedure,
	// Scandinavian Journal of Statistics 6 (1979) 65, from memory).
	Holm Control = iota
	// BenjaminiHochberg holds the expected share of false alarms among the
	// stations that are called changed at the level (Y. Benjamini and
	// Y. Hochberg, Controlling the false discovery rate, Journal of the Royal
	// Statistical Society B 57 (1995) 289, from memory).
	BenjaminiHochberg
)

// ChangeOptions says how two surveys are compared. The zero value takes the
// mean change of all stations as the floor's share and tests at 5 % after Holm.
type ChangeOptions struct {
	// Unworn are the positions of stations that are taken not to have worn
	// between the surveys: their change is the floor's. Nil means that no
	// station is known to be unworn.
	Unworn []unit.Length
	// Level is the chance, or share, of false alarms; above 0 and at most 0.5.
	// Zero means 0.05.
	Level float64
	// Control is how the level is shared over the stations.
	Control Control
}

// StationChange is what happened at one station between two surveys.
type StationChange struct {
	// Position is the place of the station.
	Position unit.Length
	// Total is the later slope less the earlier one, TotalU its standard
	// uncertainty.
	Total, TotalU Slope
	// Own is Total less the floor's share: the change that belongs to the
	// ways. OwnU is its standard uncertainty.
	Own, OwnU Slope
	// P is the chance of an Own as large as this if the station had not
	// changed, judged alone; Adjusted is the same chance with all the stations
	// that were looked at taken into account. Both are 1 at a station that
	// alone stands for the floor.
	P, Adjusted float64
	// Changed reports that Adjusted is below the level.
	Changed bool
}

// Change is what happened between two surveys.
type Change struct {
	// Floor is the share common to all stations, FloorU its standard
	// uncertainty.
	Floor, FloorU Slope
	// Assumed reports that no station was stated to be unworn: Floor is then
	// the weighted mean of all changes and FloorU their scatter, on the
	// footing that wear tilts the ways one way as often as the other.
	Assumed bool
	// SameP is the chance that the stations differ as much as they do by
	// errors of reading alone: small when the way has changed its shape.
	SameP float64
	// Stations are the changes in the order of the earlier survey.
	Stations []StationChange
}

// CompareSlopes sets a later survey beside an earlier one of the same stations,
// in any order, and divides the change of slope into the share of the floor,
// found by weighted least squares over the stations that are taken not to have
// worn, and what each station has changed of its own. Where the unworn stations
// disagree by more than their uncertainties the uncertainty of the floor's
// share is widened to their scatter, and with it that of every Own.
//
// A station counts as changed when a Student test against the floor's share,
// with degrees of freedom after Welch and Satterthwaite and the chance of false
// alarms controlled over all stations, falls below the level.
//
// It returns an error for surveys of fewer than two stations or of different
// stations, two stations at one place, an uncertainty that is not above zero or
// has fewer than one degree of freedom, a value that is not finite, an unworn position where no station stands, or a
// level outside its limits.
func CompareSlopes(before, after []SlopePoint, options ChangeOptions) (Change, error) {
	if options.Level == 0 {
		options.Level = 0.05
	}
	if !(options.Level > 0 && options.Level <= 0.5) {
		return Change{}, fmt.Errorf("wear: level of false alarms %g must be above 0 and at most 0.5", options.Level)
	}
	if options.Control != Holm && options.Control != BenjaminiHochberg {
		return Change{}, fmt.Errorf("wear: no control of number %d for false alarms", int(options.Control))
	}
	difference, err := Difference(before, after)
	if err != nil {
		return Change{}, err
	}
	anchor, err := anchors(difference, options.Unworn)
	if err != nil {
		return Change{}, err
	}
	change := Change{Assumed: options.Unworn == nil, Stations: make([]StationChange, len(difference))}
	change.takeFloor(difference, anchor)
	change.judge(difference, options)
	_, _, change.SameP = weightedMean(difference, nil)
	return change, nil
}

// Difference returns the later slope less the earlier one at each station, in
// the order of the earlier survey, with the uncertainties of both: ready for
// [ProfileFromSlopes], which then gives how the shape of the way has changed.
//
// It returns an error as [CompareSlopes] does for surveys that do not match.
func Difference(before, after []SlopePoint) ([]SlopePoint, error) {
	if _, err := sortedRun(before); err != nil {
		return nil, fmt.Errorf("earlier survey: %w", err)
	}
	if _, err := sortedRun(after); err != nil {
		return nil, fmt.Errorf("later survey: %w", err)
	}
	if len(before) != len(after) {
		return nil, fmt.Errorf("wear: the earlier survey has %d stations, the later one %d; they must be the same", len(before), len(after))
	}
	difference := make([]SlopePoint, len(before))
	for i, b := range before {
		j := nearest(after, b.Position)
		if j < 0 {
			return nil, fmt.Errorf("wear: the later survey has no station within %.6g mm of %.6g mm", samePlace*1e3, float64(b.Position)*1e3)
		}
		a := after[j]
		if !(b.U > 0) || !(a.U > 0) {
			return nil, fmt.Errorf("wear: station %d: standard uncertainties %g and %g must be above zero to judge a change", i+1, float64(b.U), float64(a.U))
		}
		for _, p := range []SlopePoint{b, a} {
			if err := checkFreedom(p, i+1); err != nil {
				return nil, err
			}
		}
		difference[i] = SlopePoint{Position: b.Position, Slope: a.Slope - b.Slope,
			U: Slope(math.Hypot(float64(a.U), float64(b.U))), Freedom: jointFreedom(a, b)}
		if err := checkChange(difference[i], i+1); err != nil {
			return nil, err
		}
	}
	return difference, nil
}

// checkFreedom returns an error for degrees of freedom that no measurement has.
func checkFreedom(p SlopePoint, n int) error {
	if math.IsNaN(p.Freedom) || p.Freedom > 0 && p.Freedom < 1 {
		return fmt.Errorf("wear: station %d: %g degrees of freedom; they must be 1 or more, or zero for an uncertainty that is known", n, p.Freedom)
	}
	return nil
}

// checkChange returns an error when the change at the n-th station is too large
// or its uncertainty too small to compute with: squares of both are needed.
func checkChange(p SlopePoint, n int) error {
	const largest, smallest = 1e6, 1e-15
	if !(math.Abs(float64(p.Slope)) <= largest) || !(float64(p.U) >= smallest && float64(p.U) <= largest) {
		return fmt.Errorf("wear: station %d: change of slope %g with standard uncertainty %g; they must be at most %g, the uncertainty at least %g",
			n, float64(p.Slope), float64(p.U), largest, smallest)
	}
	return nil
}

// samePlace is how far apart, in metres, two stations may lie and still count
// as one place: a level is set down by eye.
const samePlace = 0.5e-3

// nearest returns the index of the station at a position, or -1.
func nearest(points []SlopePoint, position unit.Length) int {
	for i, p := range points {
		if math.Abs(float64(p.Position-position)) <= samePlace {
			return i
		}
	}
	return -1
}

// jointFreedom returns the degrees of freedom of the uncertainty of a
// difference after Welch and Satterthwaite (JCGM 100:2008, G.4.1).
func jointFreedom(a, b SlopePoint) float64 {
	share := func(p SlopePoint) float64 {
		if p.Freedom <= 0 || math.IsInf(p.Freedom, 1) {
			return 0
		}
		return math.Pow(float64(p.U), 4) / p.Freedom
	}
	sum := share(a) + share(b)
	if sum == 0 {
		return math.Inf(1)
	}
	return math.Pow(math.Hypot(float64(a.U), float64(b.U)), 4) / sum
}

// anchors reports for each station whether it stands for the floor.
func anchors(difference []SlopePoint, unworn []unit.Length) ([]bool, error) {
	anchor := make([]bool, len(difference))
	for i := range anchor {
		anchor[i] = unworn == nil
	}
	if unworn != nil && len(unworn) == 0 {
		return nil, fmt.Errorf("wear: no unworn station is named; leave them out altogether to use the mean of all")
	}
	for _, position := range unworn {
		i := nearest(difference, position)
		if i < 0 {
			return nil, fmt.Errorf("wear: no station stands at %.6g mm, which is said to be unworn", float64(position)*1e3)
		}
		anchor[i] = true
	}
	return anchor, nil
}

// weightedMean returns the mean of the slopes of the chosen stations (of all
// where chosen is nil), weighted by their uncertainties, its standard
// uncertainty from those alone, and the chance that they scatter as they do.
func weightedMean(points []SlopePoint, chosen []bool) (mean, u, chance float64) {
	var sw, swx float64
	for i, p := range points {
		if chosen == nil || chosen[i] {
			w := 1 / (float64(p.U) * float64(p.U))
			sw, swx = sw+w, swx+w*float64(p.Slope)
		}
	}
	mean = swx / sw
	var q, n float64
	for i, p := range points {
		if chosen == nil || chosen[i] {
			r := (float64(p.Slope) - mean) / float64(p.U)
			q, n = q+r*r, n+1
		}
	}
	if n < 2 {
		return mean, 1 / math.Sqrt(sw), 1
	}
	return mean, 1 / math.Sqrt(sw), chiSquareAbove(q, n-1)
}

// takeFloor finds the floor's share and what is left at each station.
func (c *Change) takeFloor(difference []SlopePoint, anchor []bool) {
	mean, inner, _ := weightedMean(difference, anchor)
	spread := scatterOfMean(difference, anchor, mean)
	c.Floor, c.FloorU = Slope(mean), Slope(math.Max(inner, spread))
	widened := 0.0
	if !c.Assumed && spread > inner {
		widened = spread*spread - inner*inner
	}
	for i, d := range difference {
		variance := float64(d.U)*float64(d.U) + inner*inner
		if anchor[i] {
			variance -= 2 * inner * inner // the station's own part in the mean
		}
		if variance < 1e-12*float64(d.U)*float64(d.U) {
			variance = 0
		}
		c.Stations[i] = StationChange{Position: d.Position, Total: d.Slope, TotalU: d.U,
			Own: d.Slope - c.Floor, OwnU: Slope(math.Sqrt(variance + widened))}
	}
}

// scatterOfMean returns the standard uncertainty of the mean of the chosen
// stations that their own scatter shows; zero for fewer than two.
func scatterOfMean(points []SlopePoint, chosen []bool, mean float64) float64 {
	var sw, q, n float64
	for i, p := range points {
		if chosen[i] {
			w := 1 / (float64(p.U) * float64(p.U))
			r := float64(p.Slope) - mean
			sw, q, n = sw+w, q+w*r*r, n+1
		}
	}
	if n < 2 {
		return 0
	}
	return math.Sqrt(q / (n - 1) / sw)
}

// judge tests every station and controls the false alarms.
func (c *Change) judge(difference []SlopePoint, options ChangeOptions) {
	chances := make([]float64, len(c.Stations))
	for i := range c.Stations {
		chances[i] = 1
		if s := c.Stations[i]; s.OwnU > 0 {
			chances[i] = twoSided(float64(s.Own/s.OwnU), difference[i].Freedom)
		}
	}
	adjusted := adjust(chances, options.Control)
	for i := range c.Stations {
		c.Stations[i].P, c.Stations[i].Adjusted = chances[i], adjusted[i]
		c.Stations[i].Changed = adjusted[i] < options.Level
	}
}

// adjust returns the chances with the number of tests taken into account.
func adjust(chances []float64, control Control) []float64 {
	n := len(chances)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return chances[order[i]] < chances[order[j]] })
	adjusted := make([]float64, n)
	if control == Holm {
		running := 0.0
		for rank, i := range order {
			running = math.Max(running, float64(n-rank)*chances[i])
			adjusted[i] = math.Min(running, 1)
		}
		return adjusted
	}
	running := 1.0
	for rank := n - 1; rank >= 0; rank-- {
		i := order[rank]
		running = math.Min(running, float64(n)/float64(rank+1)*chances[i])
		adjusted[i] = running
	}
	return adjusted
}
