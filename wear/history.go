package wear

// How a way wears over the years. The table slides on the saddle; wherever they
// press, both lose depth in proportion to pressure and distance. What has worn
// away no longer presses, so the shape feeds back: the load moves along the
// bearing to where metal still stands.
//
// At each position of a stroke the pressure is that of a rigid table on a bed of
// springs that push and never pull,
//
//	p(x) = K (d + a x - g(x))+,
//
// g being the depth missing from both faces, with d and a such that the
// pressures carry the load at its place. The set of cells that press is found by
// trial: fit d and a for the cells that press, see which press now, and repeat.
// A step takes its wear from the pressure at its end, not at its start, which
// comes to a softer spring K/(1 + K k s) and makes any length of step stable.
// The positions along a stroke are shifted from step to step by the golden
// ratio, so that no ripple builds up.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// SlidingWay is one way of a table and the saddle's face under it.
type SlidingWay struct {
	// From and To are the ends of the way, as places u on the table.
	From, To unit.Length
	// Stations is the number of places along the way, ends included.
	Stations int
	// Bearing is the length of the saddle's face, Width that of both faces.
	Bearing, Width unit.Length
	// Load travels with the table and stands at the place LoadAt of it: the
	// share that this way carries of table, vise and work. Thrust stands over
	// the middle of the saddle all the time: the share of the cut's.
	Load, Thrust unit.Force
	LoadAt       unit.Length
	// Stiffness is the pressure that presses the faces together by a unit of
	// length, in Pa/m (see [Bed]).
	Stiffness float64
	// Table and Saddle are the wear factors of the two faces.
	Table, Saddle WearFactor
}

// Spell is a time in which a machine is used in one way.
type Spell struct {
	// Time is that under power.
	Time unit.Time
	// Speed is the mean speed of sliding over that time, stops included: the
	// distance slid is their product.
	Speed unit.Velocity
	// Placements say where.
	Placements []Placement
	// Times multiplies both wear factors: above 1 while oil or covers are
	// wanting. Zero means 1.
	Times float64
}

// HistoryOptions says how finely a history is followed. The zero value takes
// steps of one hour under power and 12 positions a stroke.
type HistoryOptions struct {
	Step      unit.Time
	Positions int
}

// History is what has worn in the course of some spells.
type History struct {
	// Places are the stations of the way and Worn the depth there, positive
	// down from the surface as new.
	Places, Worn []unit.Length
	// SaddlePlaces are places on the saddle's face, counted from its middle, and
	// SaddleWorn the depth there that came in these spells.
	SaddlePlaces, SaddleWorn []unit.Length
	// TableVolume and SaddleVolume are what the two faces lost in these spells.
	TableVolume, SaddleVolume unit.Volume
	// After holds the depths of the way after each spell.
	After [][]unit.Length
	// Leaning is the largest distance of the middle of pressure from the middle
	// of the bearing at the end, as a share of its half length.
	Leaning float64
}

// Deepest returns the deepest wear of the way and where it is.
func (h History) Deepest() (depth, place unit.Length) {
	for i, w := range h.Worn {
		if w > depth {
			depth, place = w, h.Places[i]
		}
	}
	return depth, place
}

// Uneven returns the root mean square of the way's depths about their best
// straight line; zero for a history that was not followed.
func (h History) Uneven() unit.Length {
	if len(h.Worn) < 2 {
		return 0
	}
	points := make([]Point, len(h.Worn))
	for i, w := range h.Worn {
		points[i] = Point{h.Places[i], w}
	}
	return unevenness(points)
}

// maxSteps bounds the work of a history.
const maxSteps = 200_000

// Simulate follows the wear of a way through spells of use, beginning with the
// depths worn at its stations (nil for a new way).
//
// The two ways of a table are followed apart, each with its own load: the model
// does not let a way that sinks shift load to the other. The way neither bends
// nor is scraped, and the factors stay what they are said to be.
//
// It returns an error for a way of fewer than 3 or more than 20,000 stations, a
// size, load, stiffness or factor out of range, depths that do not fit the
// stations, spells that run the saddle off the way or the load off the saddle,
// or more than 200,000 steps.
func Simulate(way SlidingWay, worn []unit.Length, spells []Spell, options HistoryOptions) (History, error) {
	s, err := newSlide(way, worn)
	if err != nil {
		return History{}, err
	}
	if options.Step == 0 {
		options.Step = 3600 * unit.Second
	}
	if options.Positions == 0 {
		options.Positions = 12
	}
	if !(options.Step > 0) || options.Positions < 1 || options.Positions > 1000 {
		return History{}, fmt.Errorf("wear: a step of %g s and %d positions; the step must be above zero and the positions 1 to 1000", float64(options.Step), options.Positions)
	}
	h := History{Places: s.places()}
	for i, spell := range spells {
		if err := s.run(spell, options); err != nil {
			return History{}, fmt.Errorf("spell %d: %w", i+1, err)
		}
		h.After = append(h.After, lengths(s.table))
	}
	h.Worn = lengths(s.table)
	for m := range s.saddle {
		h.SaddlePlaces = append(h.SaddlePlaces, unit.Length(s.x[m]))
	}
	h.SaddleWorn = lengths(s.saddle)
	h.TableVolume, h.SaddleVolume, h.Leaning = unit.Volume(s.tableVolume), unit.Volume(s.saddleVolume), s.leaning
	return h, nil
}

func lengths(x []float64) []unit.Length {
	l := make([]unit.Length, len(x))
	for i := range x {
		l[i] = unit.Length(x[i])
	}
	return l
}

// slide is the state of a history.
type slide struct {
	way           SlidingWay
	step          float64   // between stations, m
	table, saddle []float64 // depths worn, m
	x             []float64 // places of the saddle's cells from its middle, m
	gap           []float64
	steps         int
	leaning       float64

	tableVolume, saddleVolume float64
}

func newSlide(way SlidingWay, worn []unit.Length) (*slide, error) {
	if way.Stations < 3 || way.Stations > 20_000 {
		return nil, fmt.Errorf("wear: a way of %d stations; it must be 3 to 20,000", way.Stations)
	}
	length := float64(way.To - way.From)
	if !(length > 0) || !finite(length) || !(way.Bearing > 0) || !(float64(way.Bearing) <= length) || !(way.Width > 0) || !finite(float64(way.Width)) {
		return nil, fmt.Errorf("wear: a way of %.6g mm with a bearing of %.6g mm and a width of %.6g mm; they must be above zero and the bearing no longer than the way", length*1e3, float64(way.Bearing)*1e3, float64(way.Width)*1e3)
	}
	if !(way.Load >= 0) || !(way.Thrust >= 0) || !(way.Load+way.Thrust > 0) || !finite(float64(way.Load+way.Thrust+unit.Force(way.LoadAt))) {
		return nil, fmt.Errorf("wear: a load of %g N at %g m and a thrust of %g N; they must be zero or more and not both zero", float64(way.Load), float64(way.LoadAt), float64(way.Thrust))
	}
	if !(way.Stiffness > 0) || !finite(way.Stiffness) || !(way.Table >= 0) || !(way.Saddle >= 0) || !finite(float64(way.Table+way.Saddle)) {
		return nil, fmt.Errorf("wear: stiffness %g Pa/m must be above zero and the wear factors %g and %g 1/Pa zero or more", way.Stiffness, float64(way.Table), float64(way.Saddle))
	}
	s := &slide{way: way, step: length / float64(way.Stations-1), table: make([]float64, way.Stations)}
	if worn != nil && len(worn) != way.Stations {
		return nil, fmt.Errorf("wear: %d depths for %d stations", len(worn), way.Stations)
	}
	for i, w := range worn {
		if !(math.Abs(float64(w)) <= 0.01) {
			return nil, fmt.Errorf("wear: station %d: depth %g m must be within 10 mm", i+1, float64(w))
		}
		s.table[i] = float64(w)
	}
	cells := int(math.Round(float64(way.Bearing) / s.step))
	if cells < 2 {
		return nil, fmt.Errorf("wear: the stations stand %.6g mm apart; a bearing of %.6g mm needs at least two of them", s.step*1e3, float64(way.Bearing)*1e3)
	}
	cells = min(cells, way.Stations)
	s.saddle, s.x, s.gap = make([]float64, cells), make([]float64, cells), make([]float64, cells)
	for m := range s.x {
		s.x[m] = (float64(m) - float64(cells-1)/2) * s.step
	}
	return s, nil
}

func (s *slide) places() []unit.Length {
	p := make([]unit.Length, len(s.table))
	for i := range p {
		p[i] = s.way.From + unit.Length(s.step*float64(i))
	}
	return p
}

// check returns what is wrong with a spell.
func (s *slide) check(spell Spell) error {
	if !(spell.Time >= 0) || !(spell.Speed >= 0) || !(spell.Times >= 0) || !finite(float64(spell.Time)*float64(spell.Speed)*spell.Times) {
		return fmt.Errorf("wear: time %g s, speed %g m/s and multiplier %g must be zero or more", float64(spell.Time), float64(spell.Speed), spell.Times)
	}
	if err := checkShares(spell.Placements); err != nil {
		return err
	}
	half := float64(s.way.Bearing) / 2
	for i, p := range spell.Placements {
		from, to := float64(p.Place-p.Stroke/2), float64(p.Place+p.Stroke/2)
		if !(p.Stroke > 0) || !(from-half >= float64(s.way.From)-s.step) || !(to+half <= float64(s.way.To)+s.step) {
			return fmt.Errorf("wear: placement %d: a stroke of %.6g mm about %.6g mm runs the saddle off the way, %.6g to %.6g mm", i+1,
				float64(p.Stroke)*1e3, float64(p.Place)*1e3, float64(s.way.From)*1e3, float64(s.way.To)*1e3)
		}
		for _, u := range []float64{from, to} {
			if off := s.off(u); !(math.Abs(off) < 0.98*half) {
				return fmt.Errorf("wear: placement %d: with the saddle at %.6g mm the load stands %.6g mm off its middle and the table tips", i+1, u*1e3, off*1e3)
			}
		}
	}
	return nil
}

// off returns how far from the middle of the saddle the whole load stands when
// the saddle is at u.
func (s *slide) off(u float64) float64 {
	return float64(s.way.Load) * (float64(s.way.LoadAt) - u) / float64(s.way.Load+s.way.Thrust)
}

// run follows one spell.
func (s *slide) run(spell Spell, options HistoryOptions) error {
	if err := s.check(spell); err != nil {
		return err
	}
	times := spell.Times
	if times == 0 {
		times = 1
	}
	n := int(math.Ceil(float64(spell.Time/options.Step) - 1e-9))
	if s.steps+n > maxSteps || float64(spell.Time/options.Step) > maxSteps {
		return fmt.Errorf("wear: more than %d steps; take longer ones", maxSteps)
	}
	type place struct{ lift, lean float64 }
	last := make([]place, len(spell.Placements)*options.Positions)
	s.leaning = 0
	for range n {
		s.steps++
		_, shift := math.Modf(float64(s.steps) * (math.Sqrt(5) - 1) / 2)
		distance := float64(spell.Time) / float64(n) * float64(spell.Speed)
		for i, p := range spell.Placements {
			if p.Share == 0 {
				continue
			}
			for j := range options.Positions {
				at := (float64(j)+shift)/float64(options.Positions) - 0.5
				u := float64(p.Place) + at*float64(p.Stroke)
				k := &last[i*options.Positions+j]
				var err error
				k.lift, k.lean, err = s.rub(u, distance*p.Share/float64(options.Positions), times, k.lift, k.lean)
				if err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// rub presses the faces with the saddle at u, starting from a lift and lean of
// the table, and wears both over a distance.
func (s *slide) rub(u, distance, times, lift, lean float64) (float64, float64, error) {
	first := int(math.Round((u-float64(s.way.From))/s.step - float64(len(s.x)-1)/2))
	first = min(max(first, 0), len(s.table)-len(s.x))
	under := s.table[first : first+len(s.x)]
	for m, w := range under {
		s.gap[m] = w + s.saddle[m]
	}
	load := float64(s.way.Load + s.way.Thrust)
	table, saddle := float64(s.way.Table)*times*distance, float64(s.way.Saddle)*times*distance
	stiffness := s.way.Stiffness / (1 + s.way.Stiffness*(table+saddle))
	area := s.step * float64(s.way.Width)
	off := s.off(u)
	lift, lean, err := s.press(load/(stiffness*area), off, lift, lean)
	if err != nil {
		return 0, 0, err
	}
	pressed := 0.0
	for m, x := range s.x {
		if into := lift + lean*x - s.gap[m]; into > 0 {
			pressed += into
			under[m] += table * stiffness * into
			s.saddle[m] += saddle * stiffness * into
		}
	}
	volume := pressed * stiffness * area
	s.tableVolume += table * volume
	s.saddleVolume += saddle * volume
	s.leaning = math.Max(s.leaning, math.Abs(off)/(float64(s.way.Bearing)/2))
	return lift, lean, nil
}

// press finds lift and lean such that the penetrations sum to the given total
// about the given place.
func (s *slide) press(total, off, lift, lean float64) (float64, float64, error) {
	before := -1.0
	for try := range 200 {
		var n, x1, x2, g, gx float64
		for m, x := range s.x {
			if lift+lean*x > s.gap[m] {
				n, x1, x2 = n+1, x1+x, x2+x*x
				g, gx = g+s.gap[m], gx+s.gap[m]*x
			}
		}
		det := n*x2 - x1*x1
		if n < 2 || !(det > 1e-9*n*x2) || try == 60 {
			// Start again with everything pressed.
			deepest := 0.0
			for _, d := range s.gap {
				deepest = math.Max(deepest, d)
			}
			lift, lean, before = deepest+2*total/float64(len(s.x)), 0, -1
			continue
		}
		r, rx := total+g, total*off+gx
		newLift, newLean := (r*x2-rx*x1)/det, (rx*n-r*x1)/det
		mark := n + x1 + 1e3*x2 // tells sets of cells apart
		if mark == before {
			return newLift, newLean, nil
		}
		before = mark
		if try > 60 {
			newLift, newLean = (lift+newLift)/2, (lean+newLean)/2
		}
		lift, lean = newLift, newLean
	}
	return 0, 0, errors.New("wear: the load does not settle on the way: it stands too near the end of what still presses")
}

// RewornStation is the wear of a way at one place at two surveys.
type RewornStation struct {
	Place                          unit.Length
	Before, BeforeU, After, AfterU unit.Length
}

// FactorFit is how a history fits two surveys.
type FactorFit struct {
	// Times is what the wear factors of the way must be multiplied by, TimesU
	// its standard uncertainty from the surveys.
	Times, TimesU float64
	// Agreement is the chance of surveys that differ from the history by as much
	// as these: below 0.05 the use, the loads or the uncertainties are not right.
	Agreement float64
	// History is that with the fitted factors.
	History History
}

// FitFactor finds by what the wear factors of a way must be multiplied so that
// the spells turn the earlier survey into the later one, by least squares with
// the uncertainties of both. The way begins as the earlier survey has it,
// straight between its stations, so that errors of that survey are also errors
// of the load's place: keep Stiffness no higher than what such errors can bear,
// about the mean pressure divided by the uncertainty of a depth.
//
// It returns an error for fewer than two stations, places out of order or off
// the way, uncertainties that are not above zero, or what [Simulate] would
// refuse.
func FitFactor(way SlidingWay, stations []RewornStation, spells []Spell, options HistoryOptions) (FactorFit, error) {
	worn, err := wornFrom(way, stations)
	if err != nil {
		return FactorFit{}, err
	}
	fit := FactorFit{Times: 1}
	for range 30 {
		scaled := append([]Spell(nil), spells...)
		for i := range scaled {
			if scaled[i].Times == 0 {
				scaled[i].Times = 1
			}
			scaled[i].Times *= fit.Times
		}
		if fit.History, err = Simulate(way, worn, scaled, options); err != nil {
			return FactorFit{}, err
		}
		var mm, md, misfit float64
		for _, s := range stations {
			model := depthAt(fit.History.Places, fit.History.Worn, s.Place) - depthAt(fit.History.Places, worn, s.Place)
			change, v := float64(s.After-s.Before), math.Pow(math.Hypot(float64(s.AfterU), float64(s.BeforeU)), 2)
			mm, md = mm+model*model/v, md+model*change/v
			misfit += math.Pow(change-model, 2) / v
		}
		if !(mm > 0) {
			return FactorFit{}, errors.New("wear: the spells wear nothing at the stations: no factor can be found")
		}
		if !(md > 0) {
			return FactorFit{}, errors.New("wear: the later survey is not deeper than the earlier one where the spells wear: no factor can be found")
		}
		ratio := md / mm
		fit.TimesU, fit.Agreement = fit.Times/math.Sqrt(mm), chiSquareAbove(misfit, float64(len(stations)-1))
		if math.Abs(ratio-1) < 1e-5 {
			return fit, nil
		}
		fit.Times *= math.Min(math.Max(ratio, 0.1), 10)
	}
	return FactorFit{}, errors.New("wear: no factor fits: the history does not follow the change between the surveys")
}

// FactorRatio is how many times as fast one way wears as another that ran the same
// hours.
type FactorRatio struct {
	// Times is the ratio of the two factors and TimesU its standard uncertainty to
	// first order, which holds where that of the lower factor is small.
	Times, TimesU float64
	// Low and High bound the ratio with the chance asked for, by Fieller's theorem:
	// High is farther off than Low, and infinite where the lower factor may be zero.
	Low, High float64
	// Faster is the chance that the one wears faster than the other.
	Faster float64
}

// Over compares the factor of a way with that of another. Load, speed and hours
// that are common to both drop out; the surveys of the two are taken to err
// independently, and the same factor to stand in both ways at the start.
//
// It returns an error for a chance outside 0 to 1 or fits that were not made.
func (f FactorFit) Over(other FactorFit, chance float64) (FactorRatio, error) {
	k := coverageFactor(chance, math.Inf(1))
	if math.IsNaN(k) || !(f.Times > 0) || !(f.TimesU > 0) || !(other.Times > 0) || !(other.TimesU > 0) {
		return FactorRatio{}, fmt.Errorf("wear: factors of %g (u %g) and %g (u %g) with a chance of %g; the factors must be fitted and the chance lie between 0 and 1", f.Times, f.TimesU, other.Times, other.TimesU, chance)
	}
	top, bottom := f.TimesU/f.Times, other.TimesU/other.Times
	r := FactorRatio{Times: f.Times / other.Times, High: math.Inf(1)}
	r.TimesU = r.Times * math.Hypot(top, bottom)
	r.Faster = normalBelow((f.Times - other.Times) / math.Hypot(f.TimesU, other.TimesU))
	// The ratios q times Times for which f - q Times other is no more than k of its
	// standard uncertainties: (1-q)^2 = k^2 (top^2 + q^2 bottom^2).
	a, c := 1-k*k*bottom*bottom, 1-k*k*top*top
	root := math.Sqrt(math.Max(1-a*c, 0))
	// Written so that a may pass through zero; below, every larger ratio is held.
	r.Low = r.Times * math.Max(c/(1+root), 0)
	if a > 0 {
		r.High = r.Times * (1 + root) / a
	}
	return r, nil
}

// wornFrom returns the earlier survey at the stations of the way.
func wornFrom(way SlidingWay, stations []RewornStation) ([]unit.Length, error) {
	if len(stations) < 2 {
		return nil, fmt.Errorf("wear: a factor needs at least 2 stations, got %d", len(stations))
	}
	places, before := make([]unit.Length, len(stations)), make([]unit.Length, len(stations))
	for i, s := range stations {
		if !(s.Place >= way.From && s.Place <= way.To) || i > 0 && !(s.Place > stations[i-1].Place) {
			return nil, fmt.Errorf("wear: station %d at %.6g mm must lie on the way and beyond the one before it", i+1, float64(s.Place)*1e3)
		}
		if !finite(float64(s.Before+s.After)) || !(s.BeforeU > 0) || !(s.AfterU > 0) || !finite(float64(s.BeforeU+s.AfterU)) {
			return nil, fmt.Errorf("wear: station %d: depths %g and %g m must be finite and their standard uncertainties above zero", i+1, float64(s.Before), float64(s.After))
		}
		places[i], before[i] = s.Place, s.Before
	}
	worn := make([]unit.Length, max(way.Stations, 0))
	for i := range worn {
		u := way.From + (way.To-way.From)*unit.Length(i)/unit.Length(max(way.Stations-1, 1))
		worn[i] = unit.Length(depthAt(places, before, u))
	}
	return worn, nil
}

// depthAt returns the depth at a place, straight between those given and level
// beyond them.
func depthAt(places, depths []unit.Length, at unit.Length) float64 {
	front, _ := WornWays{Places: places, Front: depths, Rear: depths}.depths(float64(at))
	return front
}
