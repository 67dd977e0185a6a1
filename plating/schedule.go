package plating

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// Stage is a stretch of time in which the current runs evenly from one value to
// another; equal values are a steady current, two zeros an interruption.
type Stage struct {
	// From and To are the currents at the start and the end, zero or more.
	From, To unit.Current
	// Time is how long the stage lasts, zero or more.
	Time unit.Time
}

// Steady returns the stage of a current that does not change.
func Steady(current unit.Current, time unit.Time) Stage {
	return Stage{From: current, To: current, Time: time}
}

// Pause returns the stage in which no current flows.
func Pause(time unit.Time) Stage { return Stage{Time: time} }

// Schedule is a current against time, stage after stage.
type Schedule []Stage

// Validate returns what is wrong with the schedule: no stages, or a current or
// time that is negative or not finite. Current turned round strips metal and is
// outside the model.
func (s Schedule) Validate() error {
	if len(s) == 0 {
		return fmt.Errorf("plating: schedule has no stages")
	}
	for i, stage := range s {
		n := fmt.Sprintf(" of stage %d", i+1)
		if err := firstError(
			notNegative("current at the start"+n, float64(stage.From), inAmpere),
			notNegative("current at the end"+n, float64(stage.To), inAmpere),
			notNegative("time"+n, float64(stage.Time), inMinute),
		); err != nil {
			return err
		}
	}
	return nil
}

// Time returns how long the schedule lasts.
func (s Schedule) Time() unit.Time {
	var t unit.Time
	for _, stage := range s {
		t += stage.Time
	}
	return t
}

// Charge returns the charge that the schedule passes.
func (s Schedule) Charge() unit.Charge {
	q := 0.0
	for _, stage := range s {
		q += float64(stage.From+stage.To) / 2 * float64(stage.Time)
	}
	return unit.Charge(q)
}

// Grow returns the coat that a schedule lays down on an area when the
// efficiency follows the current density. The coat's efficiency is metal laid
// down over charge passed; its current and current density are means over the
// time, pauses counted.
func (s Schedule) Grow(d Deposit, area unit.Area, efficiency EfficiencyCurve) (Coat, error) {
	if err := firstError(d.validate(), positive("area", float64(area), inSquareCM), s.Validate(), efficiency.Validate()); err != nil {
		return Coat{}, err
	}
	return s.grow(d, area, efficiency), nil
}

// grow is [Schedule.Grow] on inputs that were checked.
func (s Schedule) grow(d Deposit, area unit.Area, efficiency EfficiencyCurve) Coat {
	a, metal := float64(area), 0.0
	for _, stage := range s {
		from, to := CurrentDensity(float64(stage.From)/a), CurrentDensity(float64(stage.To)/a)
		metal += efficiency.metalShare(from, to) * a * float64(stage.Time)
	}
	c := Coat{Deposit: d, Area: area, Time: s.Time(), Charge: s.Charge()}
	c.Mass = unit.Mass(float64(d.Equivalent) * metal)
	c.Thickness = unit.Length(float64(c.Mass) / (float64(d.Density) * a))
	if c.Time > 0 {
		c.Current = unit.Current(float64(c.Charge) / float64(c.Time))
		c.CurrentDensity = CurrentDensity(float64(c.Current) / a)
	}
	if c.Charge > 0 {
		c.Efficiency = metal / float64(c.Charge)
	}
	return c
}

// Until returns the part of the schedule up to a time from its start, for the
// growth of a coat with time. Past the end it is the whole schedule; at or
// before the start it has no stages.
func (s Schedule) Until(t unit.Time) Schedule {
	var cut Schedule
	for _, stage := range s {
		if t <= 0 {
			break
		}
		if t < stage.Time {
			stage.To = stage.From + unit.Current(float64(stage.To-stage.From)*float64(t)/float64(stage.Time))
			stage.Time = t
		}
		cut = append(cut, stage)
		t -= stage.Time
	}
	return cut
}

// TimeTo returns when the mean thickness of a schedule's coat reaches a wanted
// one, found by bisection to a ten-millionth of the schedule's length. A
// schedule that ends before that is an error which says how far it gets.
func (s Schedule) TimeTo(thickness unit.Length, d Deposit, area unit.Area, efficiency EfficiencyCurve) (unit.Time, error) {
	if err := notNegative("thickness", float64(thickness), inMicrometre); err != nil {
		return 0, err
	}
	whole, err := s.Grow(d, area, efficiency)
	if err != nil {
		return 0, err
	}
	if whole.Thickness < thickness {
		return 0, fmt.Errorf("plating: the schedule ends at %s, before the wanted %s",
			inMicrometre.of(float64(whole.Thickness)), inMicrometre.of(float64(thickness)))
	}
	lo, hi := 0.0, float64(s.Time())
	for hi-lo > 1e-7*float64(s.Time()) {
		mid := (lo + hi) / 2
		if s.Until(unit.Time(mid)).grow(d, area, efficiency).Thickness < thickness {
			lo = mid
		} else {
			hi = mid
		}
	}
	return unit.Time(hi), nil
}

// Interruption is a gap in the current after metal has begun to be laid down.
type Interruption struct {
	// Start is when the current stopped, from the start of the schedule, and
	// Time how long it stayed away.
	Start, Time unit.Time
}

// Interruptions returns the gaps between the first and the last current of the
// schedule. On nickel a gap lets the surface turn passive, and nickel laid on
// passive nickel peels (common practice): the part must be activated again.
func (s Schedule) Interruptions() []Interruption {
	var gaps []Interruption
	at, stopped := unit.Time(0), unit.Time(math.NaN())
	for _, stage := range s {
		live := (stage.From > 0 || stage.To > 0) && stage.Time > 0
		if live && at > stopped {
			gaps = append(gaps, Interruption{Start: stopped, Time: at - stopped})
		}
		at += stage.Time
		if live {
			stopped = at
		}
	}
	return gaps
}
