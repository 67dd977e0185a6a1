package viseplace

import (
	"math"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// choice is what is known of every place, and the places of note.
type choice struct {
	table wear.TableMap
	way   wear.SlidingWay
	start []unit.Length // depths of the way as they are now
	added unit.Length   // what the most used place will lose
	all   []place       // every place that the travel allows
	// here is where the vise stands; straight, level and steady are the places of
	// least bow, lean and change of lean; fairest that which leaves the way most
	// even; pick the one to take.
	here, straight, level, steady, fairest, pick place
	// enough reports that the pick keeps the tolerance.
	enough bool
}

// place is what a part finds at a place, and the way after the years there.
type place struct {
	spot  wear.Spot
	ahead wear.History
	// plain is how uneven the way would be under an even pressure.
	plain unit.Length
}

// tried is how many places along the table are looked at.
const tried = 21

// choose works everything.
func choose(in Inputs) (choice, error) {
	var c choice
	stations := make([]wear.LevelStation, len(in.Readings))
	for i, r := range in.Readings {
		stations[i] = wear.LevelStation{Position: -r.Travel, Normal: r.Normal, Turned: r.Turned}
	}
	survey, err := wear.ReadLevel(stations, wear.LevelOptions{Division: in.Division, Step: in.ReadTo})
	if err != nil {
		return c, notebook.InField("readings", err)
	}
	if c.table, err = wear.MapTable(survey.SlopePoints(), in.Bearing); err != nil {
		return c, notebook.InField("readings", err)
	}
	from, to := c.table.Run()
	if _, err = c.table.Spot((from+to)/2, in.Part, (from+to)/2); err != nil {
		return c, notebook.InField("part", err)
	}
	if _, err = c.table.Spot((from+to)/2, in.Part, in.Set); err != nil {
		return c, notebook.InField("set", err)
	}
	if c.here.spot, err = c.table.Spot(in.Now, in.Part, in.Set); err != nil {
		return c, notebook.InField("now", err)
	}
	c.added = unit.Length(float64(in.Rate) * float64(in.Use) * float64(in.Years))
	if err = c.setWay(in); err != nil {
		return c, err
	}
	if err = c.spread(in); err != nil {
		return c, err
	}
	c.mark(in)
	return c, nil
}

// stiffness is how the faces give in the look ahead, in Pa/m: the mean pressure
// of such a table over the few micrometres to which pockets tell a depth. A
// stiffer bed would follow their errors.
const stiffness = 1e10

// speed and width of the way are of no account: the wear factor is found from the
// rate.
const speed, width = 0.01, 50 * mm

// setWay sets up the way with the factor that wears it, with the vise where it
// stands, by the rate that was measured.
func (c *choice) setWay(in Inputs) error {
	c.way = wear.SlidingWay{From: -in.Table / 2, To: in.Table / 2, Stations: 113, Bearing: in.Saddle, Width: width,
		Load: (in.TableWeight + in.ViseWeight) / 2, Thrust: in.Thrust / 2, Stiffness: stiffness}
	for i := range c.way.Stations {
		u := c.way.From + in.Table*unit.Length(i)/unit.Length(c.way.Stations-1)
		c.start = append(c.start, depthAt(in.Depths, u))
	}
	slid := float64(in.Use) * float64(in.Years) * speed
	pressure := float64(c.way.Load+c.way.Thrust) / float64(c.way.Bearing*c.way.Width)
	if !(slid > 0) || !(pressure > 0) || c.added == 0 {
		return nil
	}
	c.way.Table = wear.WearFactor(float64(c.added) / pressure / slid)
	for range 4 {
		c.way.Saddle = c.way.Table
		h, err := c.look(in, in.Now)
		if err != nil {
			return notebook.InField("now", err)
		}
		most := unit.Length(0)
		for i, w := range h.Worn {
			most = max(most, w-c.start[i])
		}
		c.way.Table *= wear.WearFactor(c.added / most)
	}
	c.way.Saddle = c.way.Table
	return nil
}

// look follows the way through the years with the vise at a place.
func (c *choice) look(in Inputs, at unit.Length) (wear.History, error) {
	way := c.way
	if total := in.TableWeight + in.ViseWeight; total > 0 {
		way.LoadAt = unit.Length(in.ViseWeight/total) * at
	}
	years := in.Use * unit.Time(in.Years)
	return wear.Simulate(way, c.start, []wear.Spell{{Time: years, Speed: speed, Placements: []wear.Placement{{Place: at, Stroke: in.Stroke, Share: 1}}}},
		wear.HistoryOptions{Step: max(years/150, 1*unit.Second), Positions: 8})
}

// spread works the place where the vise stands and every one that the travel
// allows.
func (c *choice) spread(in Inputs) error {
	spots, err := c.table.Spots(in.Part, in.Set, tried)
	if err != nil {
		return notebook.InField("part", err)
	}
	at, depths := make([]unit.Length, len(in.Depths)), make([]unit.Length, len(in.Depths))
	for i, d := range in.Depths {
		at[i], depths[i] = d.Place, d.Depth
	}
	plain := func(u unit.Length) (unit.Length, error) {
		fair, _, err := wear.FairPlaces(at, depths, in.Saddle, in.Stroke, c.added, []unit.Length{u})
		if err != nil {
			return 0, notebook.InField("depths", err)
		}
		return fair[0].Uneven, nil
	}
	if c.here.plain, err = plain(in.Now); err != nil {
		return err
	}
	if c.here.ahead, err = c.look(in, in.Now); err != nil {
		return notebook.InField("now", err)
	}
	for _, s := range spots {
		p := place{spot: s}
		if p.ahead, err = c.look(in, s.Place); err != nil {
			continue // the saddle would leave the way, or the table tip
		}
		if p.plain, err = plain(s.Place); err != nil {
			return err
		}
		c.all = append(c.all, p)
	}
	if len(c.all) == 0 {
		c.all = []place{c.here}
	}
	return nil
}

// mark finds the places of note.
func (c *choice) mark(in Inputs) {
	least := func(badness func(p place) float64) place {
		best := c.all[0]
		for _, p := range c.all {
			if badness(p) < badness(best) {
				best = p
			}
		}
		return best
	}
	bow := func(p place) float64 { return math.Abs(float64(p.spot.Bow)) }
	c.straight = least(bow)
	c.level = least(func(p place) float64 { return math.Abs(float64(p.spot.Lean)) })
	c.steady = least(func(p place) float64 { return float64(p.spot.Turn) })
	c.fairest = least(func(p place) float64 { return float64(p.ahead.Uneven()) })
	// The pick is the fairest of the places that keep both tolerances.
	good := func(p place) bool { return keeps(in, p.spot) }
	c.pick = least(func(p place) float64 {
		if !good(p) {
			return 1 + bow(p)/float64(in.Tolerance) + float64(p.spot.Turn/in.Tip)
		}
		return float64(p.ahead.Uneven())
	})
	c.enough = good(c.pick)
}

// keeps reports whether a part keeps its tolerances at a spot, each with a chance
// of 95 %.
func keeps(in Inputs, s wear.Spot) bool {
	return math.Abs(float64(s.Bow))+1.645*float64(s.BowU) <= float64(in.Tolerance) && s.Turn+1.645*s.TurnU <= in.Tip
}

// depthAt returns the depth at a place, straight between those given and level
// beyond them.
func depthAt(depths []Depth, u unit.Length) unit.Length {
	last := len(depths) - 1
	if u <= depths[0].Place {
		return depths[0].Depth
	}
	for i := range last {
		if a, b := depths[i], depths[i+1]; u <= b.Place {
			return a.Depth + (b.Depth-a.Depth)*(u-a.Place)/(b.Place-a.Place)
		}
	}
	return depths[last].Depth
}
