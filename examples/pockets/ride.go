package pockets

import (
	"math"
	"sort"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

// ride is the motion that the wear foretells.
type ride struct {
	places          []float64 // u over the middle of the saddle
	along, across   []float64
	alongU, acrossU []float64
	bounds          int // stations that are known as bounds only
}

// predict works out how the table rides on ways worn like this, and carries the
// uncertainty of every station through.
func predict(in Inputs, s survey) (ride, error) {
	ways := wear.WornWays{Apart: in.Apart, Bearing: in.Bearing}
	order := make([]int, len(s.front))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return s.front[order[i]].Place < s.front[order[j]].Place })
	var r ride
	for _, i := range order {
		ways.Places = append(ways.Places, s.front[i].Place)
		ways.Front, ways.Rear = append(ways.Front, s.front[i].Wear), append(ways.Rear, s.rear[i].Wear)
		if s.front[i].AtLeast || s.rear[i].AtLeast {
			r.bounds++
		}
	}
	motion, err := wear.TwoPointMotion(ways)
	if err != nil {
		return r, err
	}
	from, to := ways.Travel()
	const steps = 18
	for k := range steps + 1 {
		travel := from + (to-from)*unit.Length(k)/steps
		_, along, across, _, _ := motion(travel)
		r.places, r.along, r.across = append(r.places, -float64(travel)), append(r.along, along), append(r.across, across)
	}
	r.alongU, r.acrossU = make([]float64, len(r.places)), make([]float64, len(r.places))
	for n, i := range order {
		for _, change := range []struct {
			to []unit.Length
			u  unit.Length
		}{{ways.Front, own(s.front[i], in)}, {ways.Rear, own(s.rear[i], in)}} {
			was := change.to[n]
			change.to[n] += change.u
			moved, err := wear.TwoPointMotion(ways)
			change.to[n] = was
			if err != nil {
				return r, err
			}
			for k, u := range r.places {
				_, along, across, _, _ := moved(unit.Length(-u))
				r.alongU[k], r.acrossU[k] = math.Hypot(r.alongU[k], along-r.along[k]), math.Hypot(r.acrossU[k], across-r.across[k])
			}
		}
	}
	return r, nil
}

// own is the uncertainty of a station's wear without the part common to all. A
// bound is taken to be as uncertain as the spread.
func own(w wear.PocketWear, in Inputs) unit.Length {
	if w.AtLeast {
		return in.Spread
	}
	return unit.Length(math.Sqrt(math.Max(math.Pow(float64(w.U), 2)-math.Pow(float64(in.NewU), 2), 0)))
}

// rideItems adds what the wear does to the table.
func rideItems(s *notebook.Sheet, r ride) error {
	high, low := 0, 0
	for i := range r.along {
		if r.along[i] > r.along[high] {
			high = i
		}
		if r.along[i] < r.along[low] {
			low = i
		}
	}
	f := notebook.Figure{Name: "slope-range", Label: "Change of slope along x that this wear makes",
		Value: notebook.Of(r.along[high]-r.along[low], math.Hypot(r.alongU[high], r.alongU[low]), notebook.Slopes),
		Note:  notebook.Say("Between u = {} and u = {}.", place(unit.Length(r.places[low])), place(unit.Length(r.places[high])))}
	chart, err := plot.XY{Name: "ride-chart", Title: "How a table rides on ways worn like this", Caption: rideCaption(r),
		X: plot.Axis{Label: "Place on the table u", Show: notebook.Lengths}, Y: plot.Axis{Label: "Slope", Show: notebook.Slopes},
		Series: []plot.Series{
			{Label: "along x", Style: plot.Curve, X: r.places, Y: r.along}, band("along x ± u", r.places, r.along, r.alongU),
			{Label: "across y", Style: plot.Curve, X: r.places, Y: r.across}, band("across y ± u", r.places, r.across, r.acrossU),
		}}.Chart()
	if err != nil {
		return err
	}
	s.Add(f, chart)
	return nil
}

func rideCaption(r ride) notebook.Text {
	text := notebook.Plain("The table bears at the two ends of the saddle. One standard uncertainty either way.")
	if r.bounds > 0 {
		text = text.And(notebook.Plain("Where no pocket is left the bound stands in for the wear, so the true slopes are steeper there."))
	}
	return text
}

func band(label string, x, y, u []float64) plot.Series {
	s := plot.Series{Label: label, Style: plot.Band, X: x, Low: make([]float64, len(x)), High: make([]float64, len(x))}
	for i := range x {
		s.Low[i], s.High[i] = y[i]-u[i], y[i]+u[i]
	}
	return s
}
