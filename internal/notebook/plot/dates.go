package plot

import (
	"math"
	"time"

	"github.com/go-echarts/go-echarts/v2/types"
)

// Axes of dates. ECharts puts up to nine ticks on one, whose words then run
// into one another on a telephone, so the ticks are chosen here.

// Day returns the date as a value for an axis of dates.
func Day(t time.Time) float64 { return float64(t.Unix()) }

// Days returns the dates as values for an axis of dates.
func Days(dates []time.Time) []float64 {
	values := make([]float64, len(dates))
	for i, t := range dates {
		values[i] = Day(t)
	}
	return values
}

// dateEnds returns ends in milliseconds that leave a little room around dates
// in seconds; the step only sets decimals.
func dateEnds(lo, hi float64) (least, most, step float64) {
	room := math.Max((hi-lo)*0.03, 86400)
	return math.Floor((lo - room) * 1000), math.Ceil((hi + room) * 1000), 1000
}

// mostDates is the most dates whose words stand side by side on a telephone.
const mostDates = 5

// dateTicks returns up to five round dates, in milliseconds, between two ends
// in milliseconds, and how ECharts is to write them: days of a short axis, else
// months, else years.
func dateTicks(least, most float64) ([]float64, types.FuncStr) {
	from, to := time.UnixMilli(int64(least)).UTC(), time.UnixMilli(int64(most)).UTC()
	for _, days := range []int{1, 2, 5, 7, 14} {
		if ticks := everyDays(from, to, days); len(ticks) <= mostDates {
			return ticks, "{MM}-{dd}"
		}
	}
	for _, months := range []int{1, 2, 3, 6} {
		if ticks := everyMonths(from, to, months); len(ticks) <= mostDates {
			return ticks, "{yyyy}-{MM}"
		}
	}
	for _, years := range []int{1, 2, 5, 10, 20, 50, 100} {
		if ticks := everyMonths(from, to, 12*years); len(ticks) <= mostDates {
			return ticks, "{yyyy}"
		}
	}
	return []float64{least, most}, "{yyyy}"
}

// everyDays returns the dates between two times, some days apart.
func everyDays(from, to time.Time, days int) []float64 {
	var ticks []float64
	for t := time.Date(from.Year(), from.Month(), from.Day()+1, 0, 0, 0, 0, time.UTC); t.Before(to) && len(ticks) <= mostDates; t = t.AddDate(0, 0, days) {
		ticks = append(ticks, float64(t.UnixMilli()))
	}
	return ticks
}

// everyMonths returns the firsts of months between two times, some months
// apart, counted from a January.
func everyMonths(from, to time.Time, months int) []float64 {
	years := max(1, months/12)
	var ticks []float64
	for t := time.Date(from.Year()/years*years, 1, 1, 0, 0, 0, 0, time.UTC); t.Before(to) && len(ticks) <= mostDates; t = t.AddDate(0, months, 0) {
		if t.After(from) {
			ticks = append(ticks, float64(t.UnixMilli()))
		}
	}
	return ticks
}
