package wear

// An event at an unknown date: the same bend as in FitEvent, its date to be found.
// The profile of the misfit over the dates gives the
// interval. The usual quantile is too narrow there, since the bend hides between
// the readings when it is small; so the quantile is found for each candidate date
// by drawing readings that have their bend just there (a parametric bootstrap of
// the likelihood ratio, B. Efron and R. J. Tibshirani, An Introduction to the
// Bootstrap, 1993, chapter 12, from memory).

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"sort"

	"gonum.org/v1/gonum/unit"
)

// EventSearch says how an unknown date is looked for. The zero value looks for an
// interval of 95 % at 60 candidate dates with 400 draws each.
type EventSearch struct {
	// Chance is that of the interval.
	Chance float64
	// Dates is the number of candidates, from 10 to 200; Draws the number of
	// simulated surveys for each, from 100 to 10,000.
	Dates, Draws int
	// Seed starts the draws: equal seeds give equal answers.
	Seed uint64
}

// FoundEvent is a change of rate at a date that was found from the readings.
type FoundEvent struct {
	// Date is the best date, and Best the fit there.
	Date unit.Time
	Best Event
	// NoChangeP is the chance of a bend that fits as well or better when there
	// was none: small when something did change.
	NoChangeP float64
	// Low and High are the first and the last candidate date that the readings
	// do not exclude. Open reports that one of them is the end of what was
	// searched, so that the date may lie outside the readings, or that there was
	// none at all.
	Low, High unit.Time
	Open      bool
	// Dates are the candidates, Excess how much worse each fits than the best
	// one (in squared standard deviations), Allowed up to what excess the date
	// is not excluded.
	Dates           []unit.Time
	Excess, Allowed []float64
}

// FindEvent looks for one bend at an unknown date between the first and the last
// reading.
//
// It returns an error for fewer than five readings (four when all state their
// uncertainty), fewer than four different clocks, options outside their limits,
// or what [FitEvent] would refuse.
func FindEvent(readings []MeasuredDepth, search EventSearch) (FoundEvent, error) {
	search, err := search.checked()
	if err != nil {
		return FoundEvent{}, err
	}
	d, err := readDepths(readings, 4)
	if err != nil {
		return FoundEvent{}, err
	}
	b, err := newBends(d, search.Dates)
	if err != nil {
		return FoundEvent{}, err
	}
	rest := b.rest(d)
	shares, best := b.shares(rest)
	rss := dot(rest, rest)
	spare := float64(len(d.t) - 4)
	variance := 1.0
	if !d.known {
		variance = (rss - shares[best]) / spare
	}
	if size := dot(d.w, d.w) * float64(len(d.y)); !finite(rss) || !(variance > 1e-24*size*largest(d.y)) {
		return FoundEvent{}, errors.New("wear: the readings meet a bent line exactly or cannot be fitted: they tell nothing of their scatter")
	}
	found := FoundEvent{Date: unit.Time(b.dates[best]), Dates: make([]unit.Time, len(b.dates)),
		Excess: make([]float64, len(b.dates)), Allowed: make([]float64, len(b.dates))}
	if found.Best, err = FitEvent(readings, found.Date); err != nil {
		return FoundEvent{}, err
	}
	random := rand.New(rand.NewPCG(search.Seed, 0x6576656e74))
	low, high := -1, -1
	for k := range b.dates {
		found.Dates[k] = unit.Time(b.dates[k])
		found.Excess[k] = (shares[best] - shares[k]) / variance
		bend := dot(b.unit[k], rest) / math.Sqrt(variance)
		found.Allowed[k] = quantileOf(b.draw(random, k, bend, search.Draws, d.known), search.Chance)
		if found.Excess[k] <= found.Allowed[k] {
			if low < 0 {
				low = k
			}
			high = k
		}
	}
	if low < 0 { // the best date itself is never excluded
		low, high = best, best
	}
	found.Low, found.High = found.Dates[low], found.Dates[high]
	found.Open = low == 0 || high == len(b.dates)-1
	found.NoChangeP = b.noChange(random, shares[best]/variance, 4*search.Draws, d.known)
	if found.NoChangeP > 1-search.Chance {
		found.Open = true
	}
	return found, nil
}

// largest returns the largest square of the values.
func largest(values []float64) float64 {
	most := 0.0
	for _, v := range values {
		most = math.Max(most, v*v)
	}
	return most
}

// checked returns the options with their defaults.
func (s EventSearch) checked() (EventSearch, error) {
	if s.Chance == 0 {
		s.Chance = 0.95
	}
	if s.Dates == 0 {
		s.Dates = 60
	}
	if s.Draws == 0 {
		s.Draws = 400
	}
	if !(s.Chance > 0 && s.Chance < 1) || s.Dates < 10 || s.Dates > 200 || s.Draws < 100 || s.Draws > 10_000 {
		return s, fmt.Errorf("wear: search with chance %g, %d dates and %d draws; they must be from 0 to 1, 10 to 200 and 100 to 10,000", s.Chance, s.Dates, s.Draws)
	}
	return s, nil
}

// bends are the directions in which a bend at each candidate date moves the
// weighted readings, with the straight line taken off and of length one.
type bends struct {
	dates []float64
	unit  [][]float64
	line  [2][]float64 // two orthogonal directions of the straight line, of length one
}

func newBends(d depthData, dates int) (*bends, error) {
	clocks := append([]float64(nil), d.t...)
	sort.Float64s(clocks)
	distinct := 1
	for i := 1; i < len(clocks); i++ {
		if clocks[i] > clocks[i-1] {
			distinct++
		}
	}
	if distinct < 4 {
		return nil, fmt.Errorf("wear: an unknown date needs readings at 4 different clocks, got %d", distinct)
	}
	first, last := ends(d.t)
	b := &bends{}
	constant, slope := make([]float64, len(d.t)), make([]float64, len(d.t))
	for i := range d.t {
		constant[i], slope[i] = d.w[i], d.w[i]*(d.t[i]-first)/(last-first)
	}
	normalise(constant)
	takeOff(slope, constant)
	normalise(slope)
	b.line = [2][]float64{constant, slope}
	for k := range dates {
		date := first + (last-first)*(float64(k)+0.5)/float64(dates)
		v := make([]float64, len(d.t))
		for i := range v {
			v[i] = d.w[i] * math.Max(d.t[i]-date, 0) / (last - first)
		}
		takeOff(v, constant)
		takeOff(v, slope)
		if dot(v, v) < 1e-20*dot(d.w, d.w) {
			continue
		}
		normalise(v)
		b.dates, b.unit = append(b.dates, date), append(b.unit, v)
	}
	if len(b.dates) == 0 || !finite(dot(constant, slope)) {
		return nil, errors.New("wear: the readings are too far apart to look for a date")
	}
	return b, nil
}

func dot(a, b []float64) float64 {
	var sum float64
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func normalise(v []float64) {
	size := math.Sqrt(dot(v, v))
	for i := range v {
		v[i] /= size
	}
}

// takeOff takes the part along a direction of length one off v.
func takeOff(v, direction []float64) {
	along := dot(v, direction)
	for i := range v {
		v[i] -= along * direction[i]
	}
}

// rest returns the weighted readings with the straight line taken off.
func (b *bends) rest(d depthData) []float64 {
	rest := make([]float64, len(d.y))
	for i := range rest {
		rest[i] = d.w[i] * d.y[i]
	}
	takeOff(rest, b.line[0])
	takeOff(rest, b.line[1])
	return rest
}

// shares returns how much of the square of rest a bend at each date takes up,
// and which takes most.
func (b *bends) shares(rest []float64) (shares []float64, best int) {
	shares = make([]float64, len(b.unit))
	for k, v := range b.unit {
		along := dot(v, rest)
		if shares[k] = along * along; shares[k] > shares[best] {
			best = k
		}
	}
	return shares, best
}

// draw returns simulated excesses at date k for readings whose bend is there and
// has the given size in standard deviations.
func (b *bends) draw(random *rand.Rand, k int, bend float64, draws int, known bool) []float64 {
	excess := make([]float64, draws)
	for i := range excess {
		rest := b.noise(random)
		for j := range rest {
			rest[j] += bend * b.unit[k][j]
		}
		shares, best := b.shares(rest)
		excess[i] = (shares[best] - shares[k]) / b.variance(rest, shares[best], known)
	}
	return excess
}

// noChange returns the chance of a bend as large as seen from readings that have
// none.
func (b *bends) noChange(random *rand.Rand, seen float64, draws int, known bool) float64 {
	count := 0
	for range draws {
		rest := b.noise(random)
		shares, best := b.shares(rest)
		if shares[best]/b.variance(rest, shares[best], known) >= seen {
			count++
		}
	}
	return (float64(count) + 1) / (float64(draws) + 1)
}

// noise returns normal numbers with the straight line taken off.
func (b *bends) noise(random *rand.Rand) []float64 {
	rest := make([]float64, len(b.line[0]))
	for i := range rest {
		rest[i] = random.NormFloat64()
	}
	takeOff(rest, b.line[0])
	takeOff(rest, b.line[1])
	return rest
}

// variance returns that of the readings: one when stated, else from what the best
// bend leaves.
func (b *bends) variance(rest []float64, share float64, known bool) float64 {
	if known {
		return 1
	}
	return (dot(rest, rest) - share) / float64(len(rest)-4)
}

// quantileOf returns the value that a share of the drawn ones does not exceed; it
// sorts them.
func quantileOf(values []float64, share float64) float64 {
	sort.Float64s(values)
	i := int(math.Ceil(share*float64(len(values)+1))) - 1
	return values[min(i, len(values)-1)]
}
