package amps

import (
	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/plot"
	"example.org/thouspan/plating"
	"gonum.org/v1/gonum/unit"
)

// growthPoints is how many points the curves of growth have.
const growthPoints = 61

// addGrowth adds the chart of thickness against time for the set current.
func (a answer) addGrowth(sheet *notebook.Sheet) error {
	s := a.setting
	relative := float64(s.MeanU / s.Mean)
	var times, mean, low, high, thin, thick []float64
	for i := range growthPoints {
		t := 1.25 * float64(s.Time) * float64(i) / (growthPoints - 1)
		d := float64(s.Mean) * t / float64(s.Time)
		times = append(times, t)
		mean = append(mean, d)
		low, high = append(low, d*(1-2*relative)), append(high, d*(1+2*relative))
		thin, thick = append(thin, d*a.in.Thinnest), append(thick, d*a.in.Thickest)
	}
	chart, err := plot.XY{
		Name: "growth", Title: "Thickness against time at the set current",
		Caption: notebook.Say("At {} the mean reaches {} after {}. The band is two standard uncertainties either way; the thinnest and the thickest place grow in proportion.",
			a.current(), notebook.Exact(a.in.Thickness, notebook.FineLengths), a.time()),
		X: plot.Axis{Label: "Time", Show: notebook.Minutes, Range: notebook.AtLeast(0.0)},
		Y: plot.Axis{Label: "Thickness", Show: notebook.FineLengths, Range: notebook.AtLeast(0.0)},
		Series: []plot.Series{
			{Label: "within 2 u", Style: plot.Band, X: times, Low: low, High: high},
			{Label: "mean", Style: plot.Curve, X: times, Y: mean},
			{Label: "thinnest place", Style: plot.Curve, X: times, Y: thin},
			{Label: "thickest place", Style: plot.Curve, X: times, Y: thick},
		},
		Limits: []plot.Limit{{Label: "wanted", Y: float64(a.in.Thickness)}},
		Marks:  []plot.Mark{{Label: "switch off", X: float64(s.Time)}},
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(chart)
	return nil
}

// addBudget adds the shares of the uncertainty, as a table and as bars.
func (a answer) addBudget(sheet *notebook.Sheet) error {
	s := a.setting
	table := notebook.Table{Name: "budget", Title: "What makes the mean thickness uncertain",
		Columns: []notebook.Column{notebook.Col("From"), notebook.ColIn("Contributes", notebook.FineLengths), notebook.ColIn("Of the variance", notebook.Percents)},
		Note:    notebook.Say("Together, added as squares: {}.", notebook.Exact(s.MeanU, notebook.FineLengths))}
	var names []string
	var values []float64
	for _, share := range s.Shares {
		ofVariance := 0.0
		if s.MeanU > 0 {
			ofVariance = share.U * share.U / (float64(s.MeanU) * float64(s.MeanU))
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(share.Name),
			notebook.Val(notebook.Exact(share.U, notebook.FineLengths).WithDigits(2)), notebook.Val(notebook.Exact(ofVariance, notebook.Percents).WithDigits(2))})
		names = append(names, share.Name)
		values = append(values, share.U)
	}
	chart, err := plot.Bars{
		Name: "budget-bars", Title: "What makes the mean thickness uncertain",
		Caption: notebook.Say("Each bar is one input's contribution to the standard uncertainty of the mean, {} in all.", notebook.Exact(s.MeanU, notebook.FineLengths)),
		What:    "From", Groups: names,
		Value:      plot.Axis{Label: "Contribution", Show: notebook.FineLengths},
		Series:     []plot.BarSeries{{Label: "contribution", Values: values}},
		Horizontal: true,
	}.Chart()
	if err != nil {
		return err
	}
	sheet.Add(table, chart)
	return nil
}

// logChart returns the efficiencies of the shop's log, and of the reader's run,
// with bars of one standard uncertainty.
func (a answer) logChart() (notebook.Chart, error) {
	runs, err := logEfficiencies(a.nickel)
	if err != nil {
		return notebook.Chart{}, err
	}
	log := plot.Series{Label: "the shop's log", Style: plot.Dots}
	for i, w := range runs {
		log.X, log.Y, log.U = append(log.X, float64(i+1)), append(log.Y, w.Efficiency), append(log.U, w.U)
	}
	series := []plot.Series{log}
	if a.run.impossible == "" {
		series = append(series, plot.Series{Label: "your run", Style: plot.Dots,
			X: []float64{float64(len(runs) + 1)}, Y: []float64{a.run.weighed.Efficiency}, U: []float64{a.run.weighed.U}})
	}
	return plot.XY{
		Name: "log", Title: "Efficiency of fourteen runs, weighed",
		Caption: notebook.Say("Bars are one standard uncertainty. Runs 1, 2, 6, 11 and 12 are single coupons: the scale hardly sees them. Run 5 burnt at {}; runs 9 to 11 were made while the pH crept up.",
			burntDensity()),
		X:      plot.Axis{Label: "Run", Show: notebook.Numbers, Range: notebook.Between(0.0, float64(len(runs)+2))},
		Y:      plot.Axis{Label: "Efficiency", Show: notebook.Percents},
		Series: series,
		Limits: []plot.Limit{{Label: "counted on", Y: a.in.Efficiency}},
	}.Chart()
}

// burntDensity returns the mean current density of the log's burnt run.
func burntDensity() notebook.Quantity {
	burnt := actionshop.PlatingLog()[4]
	return notebook.Exact(plating.CurrentDensity(float64(burnt.Current)/float64(burnt.Area)), notebook.CurrentDensities).WithDigits(2)
}

// logEfficiencies weighs every run of the shop's log.
func logEfficiencies(nickel plating.Deposit) ([]plating.Weighed, error) {
	var all []plating.Weighed
	supply := plating.Supply{Step: actionshop.SupplyStep}
	for _, r := range actionshop.PlatingLog() {
		w, err := plating.Run{
			Deposit: nickel, Before: []unit.Mass{r.Before}, After: []unit.Mass{r.After},
			Scale:   plating.Scale{Resolution: actionshop.ScaleStep, Handling: actionshop.ScaleHandling},
			Current: r.Current, CurrentU: supply.CurrentU(r.Current), Time: r.Time, TimeU: 5 * unit.Second,
		}.Efficiency()
		if err != nil {
			return nil, err
		}
		all = append(all, w)
	}
	return all, nil
}
