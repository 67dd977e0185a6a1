package scale

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
)

func figure(t *testing.T, sheet *notebook.Sheet, name string) notebook.Figure {
	t.Helper()
	f, ok := sheet.Find(name).(notebook.Figure)
	if !ok {
		t.Fatalf("no figure called %s", name)
	}
	return f
}

func tone(t *testing.T, in Inputs, name string) notebook.Tone {
	t.Helper()
	sheet, err := Work(in)
	if err != nil {
		t.Fatal(err)
	}
	v, ok := sheet.Find(name).(notebook.Verdict)
	if !ok {
		t.Fatalf("no verdict called %s", name)
	}
	return v.Tone
}

func TestLogRecoversTruth(t *testing.T) {
	sheet, err := Lesson().Demo()
	if err != nil {
		t.Fatal(err)
	}
	truth := actionshop.TrueEfficiencies()
	table := sheet.Find("runs-table").(notebook.Table)
	for i, row := range table.Rows {
		q := row[3].Quantity
		if math.Abs(q.SI-truth[i]) > 2*q.U {
			t.Errorf("run %d: %v +- %v, truth %v", i+1, q.SI, q.U, truth[i])
		}
	}
	// The truth falls by about 4 % for one unit of pH; before and after the
	// correction it is 93.5, 92.5, 91.5 and three times 95.0.
	slope := figure(t, sheet, "slope").Value
	if math.Abs(slope.SI+0.04) > 2*slope.U {
		t.Errorf("slope %v +- %v, truth about -0.04", slope.SI, slope.U)
	}
	change := figure(t, sheet, "change").Value
	if lo, hi := 0.95-0.935, 0.95-0.915; change.SI+2*change.U < lo || change.SI-2*change.U > hi {
		t.Errorf("change %v +- %v, truth between %v and %v", change.SI, change.U, lo, hi)
	}
	if got := tone(t, Defaults(), "news"); got != notebook.Good {
		t.Errorf("the correction of the acid: %s, want it told from scatter", got)
	}
	for _, c := range sheet.Checks() {
		if !c.Pass() {
			t.Errorf("%s: computed %v, published %v", c.Name, c.Computed, c.Row.Value)
		}
	}
}

func TestSingleCouponsAreNotNews(t *testing.T) {
	// Runs 11 and 12 alone: truth 3.5 % apart, which one coupon each does not
	// show.
	in := Defaults()
	for i := range in.Runs {
		in.Runs[i].Use = useTrend
	}
	in.Runs[10].Use, in.Runs[11].Use = useBefore, useAfter
	if got := tone(t, in, "news"); got != notebook.Watch {
		t.Errorf("one coupon each: %s, want it not told from scatter", got)
	}
}

func TestNeed(t *testing.T) {
	sheet, err := Work(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	// By hand: 2 sqrt(2) 0.95 0.008 / 0.02 = 1.07 g; a coupon gains 0.39 g.
	if got := figure(t, sheet, "gain-needed").Value.SI * 1e3; !scalar.EqualWithinAbs(got, 1.077, 0.01) {
		t.Errorf("gain needed = %v g, want 1.077", got)
	}
	if got := figure(t, sheet, "coupons").Value.SI; got != 3 {
		t.Errorf("coupons = %v, want 3", got)
	}
}

func TestExercises(t *testing.T) {
	sheet, err := Work(Defaults())
	if err != nil {
		t.Fatal(err)
	}
	// 2.0 % and about 4 coupons for each of two states, 2 against a known value.
	if got := sheet.Find("exercise-one").(notebook.Exercise).Answer.SI; !scalar.EqualWithinAbs(got, 0.02, 1e-9) {
		t.Errorf("one coupon = %v, want 0.02", got)
	}
	two := sheet.Find("exercise-two").(notebook.Exercise)
	if two.Answer.SI != 4 || two.Wrong[0].Value.SI != 2 {
		t.Errorf("coupons = %v and %v, want 4 and 2", two.Answer.SI, two.Wrong[0].Value.SI)
	}
}

func TestItemsDoNotDependOnReadings(t *testing.T) {
	names := func(in Inputs) string {
		sheet, err := Work(in)
		if err != nil {
			t.Fatal(err)
		}
		if err := sheet.Validate(); err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, item := range sheet.Items {
			all = append(all, item.ItemName()+" "+item.Kind())
		}
		return strings.Join(all, "\n")
	}
	want := names(Defaults())
	change := map[string]func(in *Inputs){
		"one run": func(in *Inputs) { in.Runs = in.Runs[:1] },
		"all left out": func(in *Inputs) {
			for i := range in.Runs {
				in.Runs[i].Use = useNot
			}
		},
		"one pH": func(in *Inputs) {
			for i := range in.Runs {
				in.Runs[i].PH = 4
			}
		},
		"impossible run": func(in *Inputs) { in.Runs[0].After += 5 * gram },
		"every run impossible": func(in *Inputs) {
			for i := range in.Runs {
				in.Runs[i].After, in.Runs[i].Before = in.Runs[i].Before, in.Runs[i].After
			}
		},
		"tiny change": func(in *Inputs) { in.Change = 1e-6 },
		"no states": func(in *Inputs) {
			for i := range in.Runs {
				in.Runs[i].Use = useTrend
			}
		},
	}
	for name, spoil := range change {
		in := Defaults()
		spoil(&in)
		if got := names(in); got != want {
			t.Errorf("%s: the sheet's items change:\n%s", name, got)
		}
	}
	in := Defaults()
	in.Runs[0].After += 5 * gram
	if got := tone(t, in, "sound"); got != notebook.Stop {
		t.Errorf("an impossible run: %s, want stop", got)
	}
}
