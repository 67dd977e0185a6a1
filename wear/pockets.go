package wear

// Flaking is a pattern of shallow oil pockets scraped into a finished way. As
// the way wears the pockets grow shallow and, one by one, vanish. Their depth is
// a gauge of wear that is always at hand, if two things are minded: the pockets
// were not all equally deep when new, and those that have vanished were the
// shallow ones. The mean of those that can still be found is therefore too deep
// and the wear from it too small. Counting the missing ones as "shallower than
// can be seen" puts it right: the likelihood of a depth mu that is left, for k
// pockets found with the mean m among n, is
//
//	normal(m; mu, s^2/k) * Phi((floor - mu)/s)^(n-k)
//
// with s the spread of the pockets. Only the mean of those found is needed, not
// the single depths: what these say beyond it does not depend on mu.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// PocketStation is what is left of the flaking at one station.
type PocketStation struct {
	// Place is the place u on the table.
	Place unit.Length
	// Depth is the mean depth of the pockets that were found; not used when
	// none was.
	Depth unit.Length
	// Found is the number of pockets found and Total the number looked for.
	Found, Total int
}

// PocketOptions says what the flaking was like when new.
type PocketOptions struct {
	// New is the mean depth of the pockets when new, and NewU its standard
	// uncertainty: measured where nothing has run, as under the end caps.
	New, NewU unit.Length
	// Spread is the standard deviation of single pockets, reading included.
	Spread unit.Length
	// Floor is the least depth that can still be found.
	Floor unit.Length
}

// PocketWear is the wear at one station.
type PocketWear struct {
	// Place is copied from the station.
	Place unit.Length
	// Wear is the depth worn off and U its standard uncertainty. Where AtLeast
	// is set no pocket was found: Wear is then the depth that the wear exceeds
	// with a chance of 95 %, and U is zero.
	Wear, U unit.Length
	// Low and High bound the wear with a chance of 95 % by the profile of the
	// likelihood, with the 5 % shared between both sides as said at [ReadPockets].
	// High is infinite where AtLeast is set.
	Low, High unit.Length
	// AtLeast reports that the wear is a lower bound only.
	AtLeast bool
	// Plain is the depth when new less the mean of the pockets that were found:
	// what one gets by forgetting the missing ones. Zero where none was found.
	Plain unit.Length
}

// ReadPockets returns the wear at each station from the flaking that is left,
// by maximum likelihood with the missing pockets counted as shallower than the
// floor. The depth when new is uncertain for all stations alike: their errors
// are correlated by NewU.
//
// The spread is taken as known and the same everywhere, and a pocket as found
// whenever it is deeper than the floor. Wear may come out below zero within its
// uncertainty.
//
// Of the 5 % that an interval may fail, half lies on each side, as long as a
// station without any pocket left would speak against the wear. At a wear that
// leaves none with a chance of 5 % or more, no find is too small to be believed:
// only one too large is, and the whole 5 % lies there. Halved there too, the
// interval would hold in 98 of 100. A little below that wear an empty station
// alone takes more than half of the 5 %, and the other side gets the rest, but
// 1.5 % at the least.
//
// It returns an error for no stations, a count or a depth that cannot be, or
// options outside 0 to 1 mm with a spread above zero.
func ReadPockets(stations []PocketStation, options PocketOptions) ([]PocketWear, error) {
	if err := options.check(); err != nil {
		return nil, err
	}
	if len(stations) == 0 {
		return nil, fmt.Errorf("wear: flaking needs at least one station")
	}
	wears := make([]PocketWear, len(stations))
	for i, s := range stations {
		if err := s.check(i+1, options); err != nil {
			return nil, err
		}
		if s.Found == 0 {
			wears[i] = noneFound(s, options)
		} else {
			wears[i] = someFound(s, options)
		}
	}
	return wears, nil
}

func (o PocketOptions) check() error {
	const most = 1e-3 // m
	for _, l := range []unit.Length{o.New, o.NewU, o.Spread, o.Floor} {
		if !(l >= 0 && float64(l) <= most) {
			return fmt.Errorf("wear: flaking: depth when new %g um (u %g um), spread %g um, floor %g um; each must be from 0 to 1000 um",
				float64(o.New)*1e6, float64(o.NewU)*1e6, float64(o.Spread)*1e6, float64(o.Floor)*1e6)
		}
	}
	if !(float64(o.Spread) >= 1e-9) {
		return fmt.Errorf("wear: flaking: spread of the pockets %g um must be above zero", float64(o.Spread)*1e6)
	}
	return nil
}

func (s PocketStation) check(n int, o PocketOptions) error {
	if !finite(float64(s.Place)) {
		return fmt.Errorf("wear: flaking, station %d: place %g m is not finite", n, float64(s.Place))
	}
	if s.Total < 1 || s.Total > 10000 || s.Found < 0 || s.Found > s.Total {
		return fmt.Errorf("wear: flaking, station %d: %d pockets found of %d; there must be 1 to 10000, and no more found than there are", n, s.Found, s.Total)
	}
	if s.Found > 0 && !(s.Depth >= o.Floor && float64(s.Depth) <= 1e-3) {
		return fmt.Errorf("wear: flaking, station %d: mean depth %g um must be from the floor of %g um to 1000 um", n, float64(s.Depth)*1e6, float64(o.Floor)*1e6)
	}
	return nil
}

// pocketChance is the chance of the intervals and of the lower bound.
const pocketChance = 0.95

// gone returns the chance that a wear leaves no pocket that can be found, averaged
// over the uncertain depth when new.
func (s PocketStation) gone(wear float64, o PocketOptions) float64 {
	points := 50
	if o.NewU == 0 {
		points = 1
	}
	var sum float64
	for i := range points {
		new := float64(o.New) + float64(o.NewU)*normalQuantile((float64(i)+0.5)/float64(points))
		one := normalBelow((float64(o.Floor) - new + wear) / float64(o.Spread))
		sum += math.Pow(one, float64(s.Total))
	}
	return sum / float64(points)
}

// noneFound bounds the wear from below: with less wear than that, the chance
// that all pockets are gone would be under 5 %.
func noneFound(s PocketStation, o PocketOptions) PocketWear {
	reach := 10 * (float64(o.Spread) + float64(o.NewU))
	low, high := float64(o.New-o.Floor)-reach, float64(o.New-o.Floor)+reach
	for range 60 {
		if middle := (low + high) / 2; s.gone(middle, o) < 1-pocketChance {
			low = middle
		} else {
			high = middle
		}
	}
	bound := unit.Length((low + high) / 2)
	return PocketWear{Place: s.Place, Wear: bound, Low: bound, High: unit.Length(math.Inf(1)), AtLeast: true}
}

// tooMuchFound returns the chance with which a station may hold more than the wear
// lets expect and yet the wear be true: what the interval of the wear leaves to its
// upper side.
func (s PocketStation) tooMuchFound(wear float64, o PocketOptions) float64 {
	const miss, least = 1 - pocketChance, 0.015
	switch empty := s.gone(wear, o); {
	case empty >= miss:
		return miss
	case empty > miss/2:
		return math.Max(miss-empty, least)
	}
	return miss / 2
}

// pocketLikelihood is the likelihood of the depth that is left, in units of the
// spread.
type pocketLikelihood struct {
	mean, floor    float64
	found, missing float64
}

// slopes returns the log likelihood of the depth z and its first two
// derivatives.
func (p pocketLikelihood) slopes(z float64) (value, first, second float64) {
	d := p.mean - z
	value, first, second = -p.found*d*d/2, p.found*d, -p.found
	if p.missing > 0 {
		t := p.floor - z
		m := millsBelow(t) // phi(t)/Phi(t)
		value += p.missing * logPhi(t)
		first -= p.missing * m
		second -= p.missing * m * (t + m)
	}
	return value, first, second
}

// logPhi returns the logarithm of the normal distribution at t.
func logPhi(t float64) float64 {
	if t > -30 {
		return math.Log(normalBelow(t))
	}
	return -t*t/2 - math.Log(-t) - math.Log(2*math.Pi)/2 - 1/(t*t)
}

// millsBelow returns the density over the distribution of the normal law at t.
func millsBelow(t float64) float64 {
	if t > -30 {
		return math.Exp(-t*t/2) / math.Sqrt(2*math.Pi) / normalBelow(t)
	}
	return -t - 1/t
}

// best returns the depth at which the log likelihood less slope*z is greatest,
// and the second derivative there. The function is concave.
func (p pocketLikelihood) best() (z, second float64) {
	z = p.mean - p.missing/p.found
	for range 200 {
		_, first, second := p.slopes(z)
		step := first / second
		z -= math.Max(math.Min(step, 5), -5)
		if math.Abs(step) < 1e-13*(1+math.Abs(z)) {
			break
		}
	}
	_, _, second = p.slopes(z)
	return z, second
}

// someFound finds the wear from the pockets that are left and the count of those
// that are not.
func someFound(s PocketStation, o PocketOptions) PocketWear {
	spread := float64(o.Spread)
	p := pocketLikelihood{mean: float64(s.Depth) / spread, floor: float64(o.Floor) / spread,
		found: float64(s.Found), missing: float64(s.Total - s.Found)}
	z, second := p.best()
	w := PocketWear{Place: s.Place, Wear: o.New - unit.Length(z*spread), Plain: o.New - s.Depth,
		U: unit.Length(math.Hypot(spread/math.Sqrt(-second), float64(o.NewU)))}
	newU := float64(o.NewU) / spread
	top, _, _ := p.slopes(z)
	short := func(wear float64) float64 { return top - p.withNew(z-wear, newU) } // wear away from the best, in spreads
	u := float64(w.U) / spread
	// Neither call can fail: the functions give no error.
	low, _ := crossing(func(wear float64) (float64, error) { return short(wear) - likelihoodDrop(pocketChance), nil }, 0, -u)
	high, _ := crossing(func(wear float64) (float64, error) {
		chance := s.tooMuchFound(float64(w.Wear)+wear*spread, o)
		return short(wear) - likelihoodDrop(1-2*chance), nil
	}, 0, u)
	w.Low, w.High = w.Wear+unit.Length(low*spread), w.Wear+unit.Length(high*spread)
	return w
}

// withNew returns the log likelihood of a depth left that would be z if the
// depth when new were as stated, made best over an error of it with standard
// uncertainty u.
func (p pocketLikelihood) withNew(z, u float64) float64 {
	if u == 0 {
		value, _, _ := p.slopes(z)
		return value
	}
	error := 0.0
	for range 200 {
		_, first, second := p.slopes(z + error)
		step := (first - error/u/u) / (second - 1/u/u)
		error -= math.Max(math.Min(step, 5), -5)
		if math.Abs(step) < 1e-13*(1+math.Abs(z)) {
			break
		}
	}
	value, _, _ := p.slopes(z + error)
	return value - error*error/u/u/2
}
