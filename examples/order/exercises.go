package order

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// checkItems sets law, trials and risks against published figures.
func checkItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	if err := lawChecks(s); err != nil {
		return err
	}
	return trialChecks(s)
}

// lawChecks are of the law of propagation, conformity and risk.
func lawChecks(s *notebook.Sheet) error {
	four := squaring.Order{Tolerance: squaring.Within(3)}
	for range 4 {
		four.Shares = append(four.Shares, squaring.OrderShare{Spread: squaring.NormalSpread, Width: 1})
	}
	law, err := four.Forecast()
	if err != nil {
		return err
	}
	factor, err := squaring.CoverageFactor(0.95, math.Inf(1))
	if err != nil {
		return err
	}
	up := squaring.Tolerance{Low: math.Inf(-1), High: 0.020}
	conform, err := up.Conformance(0.017, 0.002)
	if err != nil {
		return err
	}
	guarded, err := up.Accept(2, 0.002)
	if err != nil {
		return err
	}
	full, err := up.Conformance(guarded.High, 0.002)
	if err != nil {
		return err
	}
	risks, err := squaring.Within(0.2).GlobalRisks(squaring.Within(0.2), 0, 0.12, 0.02)
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-normal", "order-four-normal", factor*law.Uncertainty),
		notebook.CheckRow("check-limits", "gum-limits-rectangular", squaring.RectangularSpread.Uncertainty(4)),
		notebook.CheckRow("check-middle", "gum-limits-triangular", squaring.TriangularSpread.Uncertainty(4)),
		notebook.CheckRow("check-conform", "order-conform", conform),
		notebook.CheckRow("check-guard", "order-guard", full),
		notebook.CheckRow("check-process", "order-process", risks.Conforming),
		notebook.CheckRow("check-consumer", "order-consumer", risks.Consumer),
		notebook.CheckRow("check-producer", "order-producer", risks.Producer),
	)
	return nil
}

// trialChecks are of the trials.
func trialChecks(s *notebook.Sheet) error {
	four := squaring.Order{Tolerance: squaring.Within(3)}
	for range 4 {
		four.Shares = append(four.Shares, squaring.OrderShare{Spread: squaring.RectangularSpread, Width: math.Sqrt(3)})
	}
	rectangular, err := four.Trials(squaring.TrialOptions{Trials: 2 * demoTrials, Seed: 1})
	if err != nil {
		return err
	}
	squares := squaring.Order{Tolerance: squaring.Within(1), Model: func(x []float64) float64 { return x[0]*x[0] + x[1]*x[1] },
		Shares: []squaring.OrderShare{{Spread: squaring.NormalSpread, Width: 0.005}, {Spread: squaring.NormalSpread, Width: 0.005}}}
	loss, err := squares.Trials(squaring.TrialOptions{Trials: demoTrials, Seed: 1})
	if err != nil {
		return err
	}
	s.Add(
		notebook.CheckRow("check-rectangular", "order-four-rectangular", (rectangular.High-rectangular.Low)/2),
		notebook.CheckRow("check-squares", "order-squares-mean", loss.Mean),
		notebook.CheckRow("check-squares-deviation", "order-squares-deviation", loss.Deviation),
	)
	return nil
}

// exerciseItems adds two exercises.
func exerciseItems(s *notebook.Sheet, _ Inputs, _ worked) error {
	sum, err := sumExercise(4*um, 6*um, 3*um, 12*um)
	if err != nil {
		return err
	}
	one, err := oneExercise(20*um, 17*um, 2*um)
	if err != nil {
		return err
	}
	s.Add(sum, one)
	return nil
}

// drills ask the exercises with new numbers.
func drills() []notebook.Drill {
	return []notebook.Drill{
		{Name: "exercise-sum", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			return sumExercise(notebook.Steps(r, 2, 10, 1*um), notebook.Steps(r, 4, 16, 1*um), notebook.Steps(r, 2, 8, 1*um), notebook.Steps(r, 6, 12, 2*um))
		}},
		{Name: "exercise-one", Draw: func(r *rand.Rand) (notebook.Exercise, error) {
			limit, doubt := notebook.Steps(r, 3, 10, 5*um), notebook.Pick(r, 1*um, 2*um, 3*um, 4*um)
			return oneExercise(limit, limit-notebook.Steps(r, 1, 9, doubt/4), doubt)
		}},
	}
}

// sumExercise asks for the standard uncertainty of three shares: a spread, a
// half-width either way, and a fixed share.
func sumExercise(setting, dirt, ways, tolerance unit.Length) (notebook.Exercise, error) {
	o := squaring.Order{Tolerance: squaring.Within(float64(tolerance)), Shares: []squaring.OrderShare{
		{Source: "setting", Spread: squaring.NormalSpread, Width: float64(setting)},
		{Source: "dirt", Spread: squaring.RectangularSpread, Width: float64(dirt)},
		{Source: "ways", Value: float64(ways), Spread: squaring.FixedSpread},
	}}
	f, err := o.Forecast()
	u, rectangular := unit.Length(f.Uncertainty), unit.Length(o.Shares[1].Uncertainty())
	root := func(a, b unit.Length) notebook.Quantity {
		return fine(unit.Length(math.Hypot(float64(a), float64(b))))
	}
	return notebook.Exercise{Name: "exercise-sum",
		Ask: notebook.Say("Setting scatters by {} (standard deviation), dirt by anything up to {} either way, and the ways add {} to every piece. What is the standard uncertainty of the error?",
			fine(setting), fine(dirt), fine(ways)),
		Answer: fine(u),
		Worked: []notebook.Text{
			notebook.Say("Dirt is rectangular: {} over √3 is {}.", fine(dirt), fine(rectangular)),
			notebook.Say("The root of the sum of the squares of {} and {} is {}. The fixed {} is no spread: it moves the middle.", fine(setting), fine(rectangular), fine(u), fine(ways)),
			notebook.Say("Against {} either way {} of the pieces would be good.", fine(tolerance), chance(f.Conforming)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: fine(setting + rectangular), Why: notebook.Plain("Spreads were added plainly: they add by their squares.")},
			{Value: root(setting, dirt), Why: notebook.Plain("The half-width was taken for a standard uncertainty.")},
			{Value: root(u, ways), Why: notebook.Plain("The fixed share was counted as a spread.")},
		}}, err
}

// oneExercise asks for the chance that a measured piece is good.
func oneExercise(limit, measured, doubt unit.Length) (notebook.Exercise, error) {
	conform, err := squaring.Tolerance{Low: math.Inf(-1), High: float64(limit)}.Conformance(float64(measured), float64(doubt))
	times := notebook.Exact(float64((limit-measured)/doubt), notebook.Numbers)
	return notebook.Exercise{Name: "exercise-one",
		Ask:    notebook.Say("A piece measures {} out, with a standard uncertainty of {}; {} is allowed, on one side. What is the chance that it is good?", fine(measured), fine(doubt), fine(limit)),
		Answer: chance(conform),
		Worked: []notebook.Text{
			notebook.Say("It lies {} short of the limit: {} standard uncertainties.", fine(limit-measured), times),
			notebook.Say("The normal law leaves {} below that.", chance(conform)),
		},
		Wrong: []notebook.WrongTurn{
			{Value: chance(1), Why: notebook.Plain("A reading inside the limit was taken for a piece inside the limit.")},
			{Value: chance(2*conform - 1), Why: notebook.Plain("Both tails were taken off; only one side has a limit.")},
			{Value: chance(1 - conform), Why: notebook.Plain("That is the chance that it is bad.")},
		}}, err
}
