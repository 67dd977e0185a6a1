package squaring

// The propagation of distributions by trials (JCGM 101:2008, clause 7). The
// trials are cut into blocks of fixed length, each with a generator of its own
// seeded by the number of the block, so that the result does not depend on how
// many cores share the work. Correlated shares are drawn as order_correlate.go
// says.

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
)

// trialBlock is the number of trials that one generator makes, and maxTrials the
// most of one call.
const (
	trialBlock = 1 << 14
	maxTrials  = 20_000_000
)

// Inspection is a measurement of every part before it is sent.
type Inspection struct {
	// Uncertainty is the standard uncertainty of the measurement, taken as
	// normal; zero when nothing is measured.
	Uncertainty float64
	// Accept is the range of measured values that are accepted.
	Accept Tolerance
}

// TrialOptions says how trials are made.
type TrialOptions struct {
	// Trials is their number, at least 1000; zero is a million.
	Trials int
	// Seed chooses the run: equal seeds give equal results on any machine.
	Seed uint64
	// Inspection, when its uncertainty is above zero, adds the chances of
	// deciding wrongly.
	Inspection Inspection
}

// Trials is what the trials of an order give.
type Trials struct {
	// Number is how many were made.
	Number int
	// Mean and Deviation are those of the error.
	Mean, Deviation float64
	// Low and High hold the middle 95 % of the errors, ShortLow and ShortHigh
	// the shortest range with 95 % (JCGM 101:2008, 7.7).
	Low, High, ShortLow, ShortHigh float64
	// Conforming is the share within the tolerance, ConformingU what the number
	// of trials leaves in doubt of it.
	Conforming, ConformingU float64
	// Risks are those of the inspection, all zero without one.
	Risks Risks
	// Sorted holds the errors in rising order, for charts.
	Sorted []float64
}

// trialSum is what one block of trials adds up to.
type trialSum struct {
	conforming         int
	consumer, producer float64
	bad                bool
}

// sampler draws the shares of one order.
type sampler struct {
	order  Order
	root   [][]float64 // nil when no shares are correlated
	accept Tolerance
	u      float64
}

// Trials works an order out by trials. A million trials of ten shares take about
// half a second of two cores.
func (o Order) Trials(options TrialOptions) (Trials, error) {
	if options.Trials == 0 {
		options.Trials = 1_000_000
	}
	s, err := o.sampler(options)
	if err != nil {
		return Trials{}, err
	}
	values := make([]float64, options.Trials)
	blocks := make([]trialSum, (options.Trials+trialBlock-1)/trialBlock)
	next := make(chan int, len(blocks))
	for i := range blocks {
		next <- i
	}
	close(next)
	var workers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(blocks)) {
		workers.Go(func() {
			for i := range next {
				blocks[i] = s.run(values[i*trialBlock:min(len(values), (i+1)*trialBlock)], options.Seed, uint64(i))
			}
		})
	}
	workers.Wait()
	return summarise(values, blocks)
}

// sampler checks order and options.
func (o Order) sampler(options TrialOptions) (sampler, error) {
	s := sampler{order: o, accept: options.Inspection.Accept, u: options.Inspection.Uncertainty}
	if err := o.validate(); err != nil {
		return s, err
	}
	if options.Trials < 1000 || options.Trials > maxTrials {
		return s, fmt.Errorf("squaring: %d trials, must be 1000 to %d", options.Trials, maxTrials)
	}
	if err := notNegativeNumber("uncertainty of the inspection", s.u); err != nil {
		return s, err
	}
	if s.u > 0 {
		if err := s.accept.validate(); err != nil {
			return s, fmt.Errorf("range of acceptance: %w", err)
		}
	}
	if len(o.Correlations) == 0 {
		return s, nil
	}
	c, err := o.correlation()
	if err != nil {
		return s, err
	}
	s.root, err = lowerRoot(o.normalCorrelation(c))
	if err != nil {
		err = fmt.Errorf("%w: shares of different spreads cannot be correlated fully (a normal and a rectangular one not beyond 0.977), nor a group of bounded ones in every way", err)
	}
	return s, err
}

// run fills values with the errors of one block of trials.
func (s sampler) run(values []float64, seed, number uint64) trialSum {
	random := rand.New(rand.NewPCG(seed, number))
	shares, normal := make([]float64, len(s.order.Shares)), make([]float64, len(s.order.Shares))
	var b trialSum
	t := s.order.Tolerance
	for i := range values {
		s.draw(random, shares, normal)
		x := s.order.value(shares)
		values[i] = x
		inside := x >= t.Low && x <= t.High
		if inside {
			b.conforming++
		}
		if math.IsNaN(x) || math.IsInf(x, 0) {
			b.bad = true
		}
		if s.u > 0 {
			accepted := normalBetween(s.accept.Low-x, s.accept.High-x, s.u)
			if inside {
				b.producer += 1 - accepted
			} else {
				b.consumer += accepted
			}
		}
	}
	return b
}

// normalBetween returns the chance that a normal error of deviation u lies
// between the two.
func normalBetween(low, high, u float64) float64 {
	return (math.Erfc(low/(u*math.Sqrt2)) - math.Erfc(high/(u*math.Sqrt2))) / 2
}

// draw draws one set of shares.
func (s sampler) draw(random *rand.Rand, shares, normal []float64) {
	if s.root != nil {
		for i := range normal {
			normal[i] = random.NormFloat64()
		}
	}
	for i, share := range s.order.Shares {
		shares[i] = share.Value
		if share.Spread == FixedSpread {
			continue
		}
		if s.root == nil {
			shares[i] += share.Width * share.Spread.draw(random)
			continue
		}
		z := 0.0
		for k, weight := range s.root[i] {
			z += weight * normal[k]
		}
		shares[i] += share.Width * share.Spread.value(z)
	}
}

// draw draws a value of width one from a spread that is not fixed.
func (s Spread) draw(random *rand.Rand) float64 {
	switch s {
	case NormalSpread:
		return random.NormFloat64()
	case TriangularSpread:
		return random.Float64() - random.Float64()
	}
	return 2*random.Float64() - 1
}

// summarise sorts the values and adds the blocks up, in their order.
func summarise(values []float64, blocks []trialSum) (Trials, error) {
	n := float64(len(values))
	t := Trials{Number: len(values), Sorted: values}
	conforming := 0
	for _, b := range blocks {
		if b.bad {
			return Trials{}, fmt.Errorf("squaring: an error of the work given by the model %w", errNotFinite)
		}
		conforming += b.conforming
		t.Risks.Consumer += b.consumer / n
		t.Risks.Producer += b.producer / n
	}
	t.Conforming = float64(conforming) / n
	t.ConformingU = math.Sqrt(t.Conforming * (1 - t.Conforming) / n)
	if t.Risks.Consumer > 0 || t.Risks.Producer > 0 {
		t.Risks.Conforming = t.Conforming
	}
	for i, x := range values {
		step := x - t.Mean
		t.Mean += step / float64(i+1)
		t.Deviation += step * (x - t.Mean)
	}
	t.Deviation = math.Sqrt(t.Deviation / (n - 1))
	slices.Sort(values)
	t.Low, t.High = quantile(values, 0.025), quantile(values, 0.975)
	t.ShortLow, t.ShortHigh = shortest(values)
	return t, nil
}

// quantile returns the value below which the given share of the sorted values
// lies.
func quantile(sorted []float64, share float64) float64 {
	return sorted[min(len(sorted)-1, int(share*float64(len(sorted))))]
}

// shortest returns the shortest range that holds 95 % of the sorted values.
func shortest(sorted []float64) (low, high float64) {
	span := int(math.Ceil(0.95*float64(len(sorted)))) - 1
	low, high = sorted[0], sorted[span]
	for i := 1; i+span < len(sorted); i++ {
		if sorted[i+span]-sorted[i] < high-low {
			low, high = sorted[i], sorted[i+span]
		}
	}
	return low, high
}
