package wear

// A gib takes up the play between table and saddle. The ways are worn where they
// are used, so the play differs along the travel, and the gib has one setting
// for all of it: tight enough not to rock where the ways are worn, it must still
// pass where they are not. The play is found by pushing and pulling across the
// travel with a dial on the table.

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Play is the play across a way at one place of the travel.
type Play struct {
	// Travel is where the table stood.
	Travel unit.Length
	// Clear is the dial's reading pushed less that pulled, U its standard
	// uncertainty.
	Clear, U unit.Length
}

// GibOptions says what a gib's setting has to keep to.
type GibOptions struct {
	// Film is the least play that the oil needs, Rock the most that the work
	// bears.
	Film, Rock unit.Length
	// Chance is how sure it shall be that no place binds; zero means 0.95.
	Chance float64
	// Taper is the slope of a tapered gib, Pitch the pitch of its screw: they
	// turn the setting into turns. Zero Taper means a gib pushed straight by its
	// screws.
	Taper Slope
	Pitch unit.Length
	// Guide is the length of the guide along the travel, over which play turns
	// into yaw; zero if it is not wanted.
	Guide unit.Length
}

// GibSetting is where to set a gib.
type GibSetting struct {
	// Tight and Loose are the places of least and of most play.
	Tight, Loose Play
	// Uneven is the play at the loose place less that at the tight one, UnevenU
	// its standard uncertainty: what no setting can take out.
	Uneven, UnevenU unit.Length
	// Close is how far the gib should be closed, negative to open it: as far as
	// the tight place allows with the chance that was asked for.
	Close unit.Length
	// Turns is the same in turns of the gib's screw; zero when the pitch is not
	// given.
	Turns float64
	// After is the play that then remains at each reading, in their order.
	After []Play
	// Worst is the play that remains at the loose place, and Yaw how far the
	// table can turn with it; Yaw is zero without a length of guide.
	Worst unit.Length
	Yaw   Slope
	// Possible reports that the play remaining is nowhere above Rock: one
	// setting then neither binds nor rocks.
	Possible bool
}

// SetGib finds the one setting of a gib that leaves the oil its film at the
// tightest place and as little play as may be elsewhere, and says whether that is
// little enough.
//
// Every place keeps a margin for the error of its own reading. If the gib binds
// at all it binds at the place that is truly tightest, so the margin of that one
// place, whichever it is, holds the chance for all.
//
// It returns an error for no readings, a value that is not finite, a negative
// play or uncertainty, a film or rock below zero, or a taper or pitch below zero.
func SetGib(plays []Play, options GibOptions) (GibSetting, error) {
	if options.Chance == 0 {
		options.Chance = 0.95
	}
	if err := options.check(); err != nil {
		return GibSetting{}, err
	}
	if len(plays) == 0 {
		return GibSetting{}, errors.New("wear: no play was read")
	}
	factor := normalQuantile(options.Chance)
	s := GibSetting{Tight: plays[0], Loose: plays[0], Close: unit.Length(math.Inf(1))}
	for i, p := range plays {
		if !finite(float64(p.Travel)) || !(p.Clear >= 0) || !finite(float64(p.Clear)) || !(p.U >= 0) || !finite(float64(p.U)) {
			return GibSetting{}, fmt.Errorf("wear: play %d: travel %g m, play %g m and its standard uncertainty %g m must be finite, the last two zero or more", i+1, float64(p.Travel), float64(p.Clear), float64(p.U))
		}
		if p.Clear < s.Tight.Clear {
			s.Tight = p
		}
		if p.Clear > s.Loose.Clear {
			s.Loose = p
		}
		s.Close = min(s.Close, p.Clear-unit.Length(factor)*p.U-options.Film)
	}
	s.Uneven = s.Loose.Clear - s.Tight.Clear
	if s.Loose != s.Tight {
		s.UnevenU = unit.Length(math.Hypot(float64(s.Loose.U), float64(s.Tight.U)))
	}
	s.After = make([]Play, len(plays))
	for i, p := range plays {
		s.After[i] = Play{p.Travel, p.Clear - s.Close, p.U}
		s.Worst = max(s.Worst, s.After[i].Clear)
	}
	s.Possible = s.Worst <= options.Rock
	if options.Guide > 0 {
		s.Yaw = Slope(s.Worst / options.Guide)
	}
	if options.Pitch > 0 {
		perTurn := float64(options.Pitch)
		if options.Taper > 0 {
			perTurn *= float64(options.Taper)
		}
		s.Turns = float64(s.Close) / perTurn
	}
	return s, nil
}

// check returns what is wrong with the options.
func (o GibOptions) check() error {
	for _, x := range []float64{float64(o.Film), float64(o.Rock), float64(o.Taper), float64(o.Pitch), float64(o.Guide)} {
		if !(x >= 0) || !finite(x) {
			return fmt.Errorf("wear: gib with a film of %.6g mm, rock of %.6g mm, taper %g, pitch %.6g mm and guide of %.6g mm; all must be zero or more",
				float64(o.Film)*1e3, float64(o.Rock)*1e3, float64(o.Taper), float64(o.Pitch)*1e3, float64(o.Guide)*1e3)
		}
	}
	if !(o.Chance > 0 && o.Chance < 1) {
		return fmt.Errorf("wear: chance %g must lie between 0 and 1", o.Chance)
	}
	return nil
}
