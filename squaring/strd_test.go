package squaring

import (
	"math"
	"testing"
)

// Sets of the Statistical Reference Datasets, linear least squares, of NIST/ITL,
// certified to 15 figures (read), through the survey's own solver: nine agreeing
// figures are asked on Norris and seven on Longley and Wampler, which are made to
// be hard. The figures reached are logged.

type strd struct {
	name     string
	rows     [][]float64 // terms of a reading
	y        []float64
	want, sd []float64
	residual float64
	figures  float64
}

func powers(x float64, n int) []float64 {
	row := make([]float64, n)
	row[0] = 1
	for i := 1; i < n; i++ {
		row[i] = row[i-1] * x
	}
	return row
}

func strdSets() []strd {
	norris := strd{name: "Norris", want: []float64{-0.262323073774029, 1.00211681802045}, sd: []float64{0.232818234301152, 0.429796848199937e-3},
		residual: 0.884796396144373, figures: 9}
	for _, p := range [][2]float64{{0.2, 0.1}, {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2}, {226.5, 228.1}, {666.3, 668.5}, {996.3, 998.5},
		{448.6, 449.1}, {777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3}, {0.6, 0.1}, {775.5, 778.1}, {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9}, {11.6, 10.8},
		{556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0}, {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3}, {0.3, 0.6}, {556.8, 557.6}, {339.1, 339.3}, {887.2, 888.0},
		{999.0, 998.5}, {779.0, 778.9}, {11.1, 10.2}, {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4}, {448.9, 449.2}, {0.5, 0.2}} {
		norris.rows, norris.y = append(norris.rows, []float64{1, p[0]}), append(norris.y, p[1])
	}
	longley := strd{name: "Longley", residual: 304.854073561965, figures: 7,
		want: []float64{-3482258.63459582, 15.0618722713733, -0.358191792925910e-1, -2.02022980381683, -1.03322686717359, -0.511041056535807e-1, 1829.15146461355},
		sd:   []float64{890420.383607373, 84.9149257747669, 0.334910077722432e-1, 0.488399681651699, 0.214274163161675, 0.226073200069370, 455.478499142212}}
	for _, r := range [][7]float64{
		{60323, 83.0, 234289, 2356, 1590, 107608, 1947}, {61122, 88.5, 259426, 2325, 1456, 108632, 1948}, {60171, 88.2, 258054, 3682, 1616, 109773, 1949},
		{61187, 89.5, 284599, 3351, 1650, 110929, 1950}, {63221, 96.2, 328975, 2099, 3099, 112075, 1951}, {63639, 98.1, 346999, 1932, 3594, 113270, 1952},
		{64989, 99.0, 365385, 1870, 3547, 115094, 1953}, {63761, 100.0, 363112, 3578, 3350, 116219, 1954}, {66019, 101.2, 397469, 2904, 3048, 117388, 1955},
		{67857, 104.6, 419180, 2822, 2857, 118734, 1956}, {68169, 108.4, 442769, 2936, 2798, 120445, 1957}, {66513, 110.8, 444546, 4681, 2637, 121950, 1958},
		{68655, 112.6, 482704, 3813, 2552, 123366, 1959}, {69564, 114.2, 502601, 3931, 2514, 125368, 1960}, {69331, 115.7, 518173, 4806, 2572, 127852, 1961},
		{70551, 116.9, 554894, 4007, 2827, 130081, 1962}} {
		longley.rows, longley.y = append(longley.rows, append([]float64{1}, r[1:]...)), append(longley.y, r[0])
	}
	ones := []float64{1, 1, 1, 1, 1, 1}
	exact := strd{name: "Wampler1", want: ones, figures: 7}
	noisy := strd{name: "Wampler3", want: ones, residual: 2360.14502379268, figures: 7,
		sd: []float64{2152.32624678170, 2363.55173469681, 779.343524331583, 101.475507550350, 5.64566512170752, 0.112324854679312},
		y: []float64{760, -2042, 2111, -1684, 3888, 1858, 11379, 17560, 39287, 64382, 113159, 175108, 273291, 400186, 581243, 811568, 1121004, 1506550,
			2002767, 2611612, 3369180}}
	for i := range 21 {
		row := powers(float64(i), 6)
		sum := 0.0
		for _, p := range row {
			sum += p
		}
		exact.rows, exact.y = append(exact.rows, row), append(exact.y, sum)
		noisy.rows = append(noisy.rows, row)
	}
	return []strd{norris, longley, exact, noisy}
}

func TestSurveySolverOnReferenceData(t *testing.T) {
	for _, data := range strdSets() {
		t.Run(data.name, func(t *testing.T) {
			set := &unknowns{}
			var equations []equation
			for i, row := range data.rows {
				e := equation{of: data.name, number: i + 1, value: data.y[i], u: 1, surveyRow: surveyRow{set: set}}
				for k, weight := range row {
					e.add(unknown{family: zeroOf, of: string(rune('a' + k))}, weight)
				}
				equations = append(equations, e)
			}
			o, err := SurveyOptions{}.defaults()
			if err != nil {
				t.Fatal(err)
			}
			a, err := solveSurvey(set, equations, o)
			if err != nil {
				t.Fatal(err)
			}
			s := math.Sqrt(a.ChiSquare / float64(a.Redundancy))
			least := math.Inf(1)
			compare := func(what string, got, want float64) {
				figures := math.Min(15, logError(got, want))
				least = math.Min(least, figures)
				if !(figures >= data.figures) {
					t.Errorf("%s = %.16g, want %.16g: %.1f figures agree, want %g", what, got, want, figures, data.figures)
				}
			}
			for k, want := range data.want {
				i, _ := set.find(unknown{family: zeroOf, of: string(rune('a' + k))})
				if !a.Parameters[i].Determined {
					t.Fatalf("unknown %d is not determined", k)
				}
				compare("estimate", a.Parameters[i].Value, want)
				if data.residual > 0 {
					compare("standard deviation", s*a.Parameters[i].U, data.sd[k])
				}
			}
			if data.residual > 0 {
				compare("residual standard deviation", s, data.residual)
			}
			t.Logf("%.1f figures agree at least", least)
		})
	}
}
