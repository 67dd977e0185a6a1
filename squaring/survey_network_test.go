package squaring

import (
	"math"
	"testing"

	"example.org/thouspan/internal/refdata"
)

// A levelling loop, each line run forward and back, adjusted and tested for
// blunders by a general-purpose adjustment program, whose printed result was
// read: heights, their standard deviations, the scale and the worst normalized
// residual.
func TestSurveyLevellingLoop(t *testing.T) {
	const known = 1000.0 // m, point 1a
	lines := []struct {
		from, to string
		rise     float64
	}{
		{"1a", "4", -1.225}, {"4", "3", -0.848}, {"3", "2", 1.342}, {"2", "1a", 0.720},
		{"1a", "2", -0.724}, {"2", "3", -1.335}, {"3", "4", 0.842}, {"4", "1a", 1.231},
	}
	set := &unknowns{}
	var equations []equation
	for i, line := range lines {
		e := equation{of: "line", number: i + 1, value: line.rise, u: 0.005, surveyRow: surveyRow{set: set}}
		for point, weight := range map[string]float64{line.to: 1, line.from: -1} {
			if point == "1a" {
				e.value -= weight * known
			} else {
				e.add(unknown{family: zeroOf, of: point}, weight)
			}
		}
		equations = append(equations, e)
	}
	options, err := SurveyOptions{}.defaults()
	if err != nil {
		t.Fatal(err)
	}
	a, err := solveSurvey(set, equations, options)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]float64{
		"survey-loop-scale": 5 * math.Sqrt(a.ChiSquare/float64(a.Redundancy)),
	}
	for _, point := range []string{"2", "3", "4"} {
		i, ok := set.find(unknown{family: zeroOf, of: point})
		if !ok {
			t.Fatalf("point %s is not among the unknowns", point)
		}
		got["survey-loop-height-"+point] = a.Parameters[i].Value
		got["survey-loop-u-"+point] = a.Parameters[i].U * 1e3
	}
	worst := 0
	for i, r := range a.Readings {
		if math.Abs(r.Test) > math.Abs(a.Readings[worst].Test) {
			worst = i
		}
	}
	got["survey-loop-worst"] = math.Abs(a.Readings[worst].Test)
	if number := a.Readings[worst].Number; number != 6 {
		t.Errorf("the worst line is the %d., published: the 6.", number)
	}
	if a.Redundancy != 5 {
		t.Errorf("redundancy %d, published: 5", a.Redundancy)
	}
	for id, value := range got {
		row, ok := refdata.Find(id)
		if !ok {
			t.Errorf("there is no row %s", id)
		} else if !row.Pass(value) {
			t.Errorf("%s: %.6g, published %.6g %s", row.What, value, row.Value, row.Unit)
		}
	}
	// Published as within 1.96 on the 5 % level: nothing is suspect.
	options.FalseAlarm = 0.05
	if a, err = solveSurvey(set, equations, options); err != nil {
		t.Fatal(err)
	}
	if found := a.Suspects(); len(found) != 0 {
		t.Errorf("suspects: %+v; published: none", found)
	}
	// The same loop with a line read a decimetre wrong: that line is named.
	equations[2].value += 0.1
	if a, err = solveSurvey(set, equations, options); err != nil {
		t.Fatal(err)
	}
	if found := a.Suspects(); len(found) == 0 || a.Readings[found[0].Reading].Number != 3 {
		t.Errorf("suspects: %+v, want the third line first", found)
	}
}
