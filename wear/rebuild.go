package wear

// Whether a rebuild pays is a sum of money over years, each year's worth less the
// further off it lies:
//
//	worth = -cost + sum over years of (loss without - loss with)/(1 + interest)^t + resale/(1 + interest)^T,
//
// what is lost in a year being in proportion to the depth of wear beyond what
// does no harm. Nearly every figure in it is a guess, so each is given as a range
// and drawn from a triangle over it (JCGM 101:2008, 6.4.5 has the trapezoid of
// which it is a case, from memory); the wear is drawn from its measured
// uncertainty. Money is in whatever the reader reckons in.

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"sort"

	"gonum.org/v1/gonum/unit"
)

// Guess is a figure known by its least, likeliest and greatest value.
type Guess struct{ Low, Likely, High float64 }

// Sure returns a guess that is certain.
func Sure(x float64) Guess { return Guess{x, x, x} }

// check returns what is wrong with a guess that must be zero or more.
func (g Guess) check(what string) error {
	if !(g.Low >= 0) || !(g.Low <= g.Likely) || !(g.Likely <= g.High) || !finite(g.High) {
		return fmt.Errorf("wear: %s from %g to %g, likely %g; the three must be zero or more and in order", what, g.Low, g.High, g.Likely)
	}
	return nil
}

// at returns the value below which the share q of the triangle lies.
func (g Guess) at(q float64) float64 {
	width := g.High - g.Low
	if width == 0 {
		return g.Likely
	}
	if split := (g.Likely - g.Low) / width; q < split {
		return g.Low + math.Sqrt(q*width*(g.Likely-g.Low))
	}
	return g.High - math.Sqrt((1-q)*width*(g.High-g.Likely))
}

// Rebuild is what a rebuild costs and spares.
type Rebuild struct {
	// Cost is paid at the start, standstill included.
	Cost Guess
	// LossPerMicrometre is what a year costs for every micrometre of wear beyond
	// Harmless: scrap, time at set-up, work turned away.
	LossPerMicrometre Guess
	// Harmless is the depth up to which wear costs nothing.
	Harmless unit.Length
	// Depth is the wear now and Rate how it grows by the calendar, with their
	// standard uncertainties.
	Depth, DepthU unit.Length
	Rate, RateU   WearRate
	// RateAfter is the rate after the rebuild as a share of Rate: 1 when the
	// cause is still there.
	RateAfter Guess
	// Resale is by how much more the machine sells at the end.
	Resale Guess
	// Interest is the yearly rate at which money not spent would grow: 0.05 for
	// 5 %.
	Interest Guess
	// Years is how long the machine is to be kept, 1 to 100.
	Years int
}

// RebuildWorth is what a rebuild is worth.
type RebuildWorth struct {
	// Worth is its net worth today, from the likely figures. Low and High bound
	// the middle 95 % of the draws, Median is their middle.
	Worth, Low, Median, High float64
	// Pays is the share of the draws in which it pays within the years.
	Pays float64
	// BreakEven is the year by whose end the likely figures have paid the cost;
	// infinite when they never do, resale not counted. BreakEvenLow and
	// BreakEvenHigh bound the middle 95 % of the draws.
	BreakEven, BreakEvenLow, BreakEvenHigh float64
	// MostToPay is the cost at which the likely figures come out even.
	MostToPay float64
	// Without and With are what has been spent by the end of each year, in
	// today's worth, left alone and rebuilt, from the likely figures; year 0
	// first. WithLow and WithHigh, WithoutLow and WithoutHigh bound the middle
	// 95 % of the draws.
	Without, WithoutLow, WithoutHigh []float64
	With, WithLow, WithHigh          []float64
}

// check returns what is wrong with the figures.
func (r Rebuild) check() error {
	for _, g := range []struct {
		guess Guess
		what  string
	}{{r.Cost, "cost"}, {r.LossPerMicrometre, "loss per micrometre"}, {r.RateAfter, "rate after the rebuild"}, {r.Resale, "resale"}, {r.Interest, "interest"}} {
		if err := g.guess.check(g.what); err != nil {
			return err
		}
	}
	if r.Years < 1 || r.Years > 100 {
		return fmt.Errorf("wear: the machine is to be kept %d years; it must be 1 to 100", r.Years)
	}
	if !(r.Harmless >= 0) || !finite(float64(r.Harmless)) || !finite(float64(r.Depth)) || !(r.DepthU >= 0) || !finite(float64(r.DepthU)) || !finite(float64(r.Rate)) || !(r.RateU >= 0) || !finite(float64(r.RateU)) {
		return errors.New("wear: the harmless depth, the depth and its rate must be finite, their uncertainties zero or more")
	}
	return nil
}

// figures are one draw.
type figures struct {
	cost, loss, depth, rate, after, resale, interest float64 // depths in um, rates in um a year
}

// yearSeconds is a year of 365.25 days, in s.
const yearSeconds = 365.25 * 86400

// loss returns what the year that ends at t costs with a depth then half a year
// back.
func (r Rebuild) loss(f figures, depth float64) float64 {
	return f.loss * math.Max(depth-float64(r.Harmless)*1e6, 0)
}

// follow returns what has been spent by the end of each year, left alone and
// rebuilt.
func (r Rebuild) follow(f figures) (without, with []float64) {
	without, with = make([]float64, r.Years+1), make([]float64, r.Years+1)
	with[0] = f.cost
	for t := 1; t <= r.Years; t++ {
		middle := float64(t) - 0.5
		today := math.Pow(1+f.interest, -middle)
		without[t] = without[t-1] + today*r.loss(f, f.depth+f.rate*middle)
		with[t] = with[t-1] + today*r.loss(f, f.rate*f.after*middle)
	}
	return without, with
}

// worth returns the net worth, and the year at which the cost is paid back.
func (r Rebuild) worth(f figures, without, with []float64) (worth, breakEven float64) {
	last := r.Years
	worth = without[last] - with[last] + f.resale*math.Pow(1+f.interest, -float64(last))
	if f.cost == 0 {
		return worth, 0
	}
	for t := 1; t <= last; t++ {
		before, after := with[t-1]-without[t-1], with[t]-without[t]
		if after <= 0 {
			return worth, float64(t-1) + before/(before-after)
		}
	}
	return worth, math.Inf(1)
}

// WorthOfRebuild returns what a rebuild is worth, from the likely figures and
// from draws of all the guesses. Equal seeds give equal answers. The wear does
// not fall below zero and its rate, in the draws, not either: wear does not grow
// back.
//
// It returns an error for figures below zero or out of order, years outside 1 to
// 100, or fewer than 100 or more than 100,000 draws.
func WorthOfRebuild(r Rebuild, draws int, seed uint64) (RebuildWorth, error) {
	if err := r.check(); err != nil {
		return RebuildWorth{}, err
	}
	if draws < 100 || draws > 100_000 {
		return RebuildWorth{}, fmt.Errorf("wear: %d draws; the number must be from 100 to 100,000", draws)
	}
	const micro = 1e-6
	perYear := func(rate WearRate) float64 { return float64(rate) * yearSeconds / micro }
	likely := figures{r.Cost.Likely, r.LossPerMicrometre.Likely, math.Max(float64(r.Depth)/micro, 0), math.Max(perYear(r.Rate), 0), r.RateAfter.Likely, r.Resale.Likely, r.Interest.Likely}
	var w RebuildWorth
	w.Without, w.With = r.follow(likely)
	w.Worth, w.BreakEven = r.worth(likely, w.Without, w.With)
	w.MostToPay = w.Worth + likely.cost
	random := rand.New(rand.NewPCG(seed, 0x72656275))
	worths, breaks := make([]float64, draws), make([]float64, draws)
	without, with := make([][]float64, r.Years+1), make([][]float64, r.Years+1)
	for i := range draws {
		f := figures{
			r.Cost.at(random.Float64()), r.LossPerMicrometre.at(random.Float64()),
			math.Max((float64(r.Depth)+float64(r.DepthU)*random.NormFloat64())/micro, 0),
			math.Max(perYear(r.Rate+WearRate(float64(r.RateU)*random.NormFloat64())), 0),
			r.RateAfter.at(random.Float64()), r.Resale.at(random.Float64()), r.Interest.at(random.Float64())}
		a, b := r.follow(f)
		worths[i], breaks[i] = r.worth(f, a, b)
		if worths[i] > 0 {
			w.Pays += 1 / float64(draws)
		}
		for t := range a {
			without[t], with[t] = append(without[t], a[t]), append(with[t], b[t])
		}
	}
	w.Low, w.Median, w.High = middleOf(worths)
	w.BreakEvenLow, _, w.BreakEvenHigh = middleOf(breaks)
	for t := range without {
		low, _, high := middleOf(without[t])
		w.WithoutLow, w.WithoutHigh = append(w.WithoutLow, low), append(w.WithoutHigh, high)
		low, _, high = middleOf(with[t])
		w.WithLow, w.WithHigh = append(w.WithLow, low), append(w.WithHigh, high)
	}
	if !finite(w.Worth) || !finite(w.High) {
		return RebuildWorth{}, errors.New("wear: the figures are too large to reckon with")
	}
	return w, nil
}

// middleOf returns the bounds of the middle 95 % of values and their median; it
// sorts them.
func middleOf(values []float64) (low, median, high float64) {
	sort.Float64s(values)
	n := float64(len(values))
	at := func(q float64) float64 { return values[min(int(q*n), len(values)-1)] }
	return at(0.025), at(0.5), at(0.975)
}
