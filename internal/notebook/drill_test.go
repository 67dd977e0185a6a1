package notebook

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// ringDrill asks for the tilt that a difference across a ring tells of.
func ringDrill() Drill {
	return Drill{Name: "exercise-ring", Draw: func(r *rand.Rand) (Exercise, error) {
		rise, span := Steps(r, 4, 24, 5e-6), Pick(r, 0.1, 0.15, 0.2, 0.25)
		return ringExercise(rise, span), nil
	}}
}

func ringExercise(rise, span float64) Exercise {
	tilt := rise / span
	return Exercise{Name: "exercise-ring", Ask: Say("{} over {}: what tilt?", Exact(rise, FineLengths), Exact(span, Lengths)),
		Answer: Exact(tilt, Slopes),
		Wrong: []WrongTurn{
			{Exact(2*tilt, Slopes), Plain("The radius was taken.")},
			{Exact(tilt, Slopes), Plain("This is the answer itself and must be left out.")},
			{Exact(2.0001*tilt, Slopes), Plain("This is the first turn again.")},
		}}
}

func TestDrillIsTheSameForOneNumberAndDiffersBetweenTwo(t *testing.T) {
	seen := map[float64]bool{}
	for seed := range 20 {
		one, err := ringDrill().At(seed)
		if err != nil {
			t.Fatal(err)
		}
		two, _ := ringDrill().At(seed)
		if one.Ask.In(Metric) != two.Ask.In(Metric) || one.Answer.SI != two.Answer.SI {
			t.Errorf("draw %d: %q and %q", seed, one.Ask.In(Metric), two.Ask.In(Metric))
		}
		if len(one.Wrong) != 1 {
			t.Errorf("draw %d: %d wrong turns, want the one that is distinct", seed, len(one.Wrong))
		}
		seen[one.Answer.SI] = true
	}
	if len(seen) < 10 {
		t.Errorf("20 draws gave %d answers", len(seen))
	}
	// What number 4711 asks everywhere: terminal and browser, this year and next.
	pinned, err := ringDrill().At(4711)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := pinned.Ask.In(Metric), "75.0\u00a0µm over 100\u00a0mm: what tilt?"; got != want {
		t.Errorf("draw 4711 asks %q, want %q", got, want)
	}
}

func TestDrillAtRefuses(t *testing.T) {
	for _, seed := range []int{-1, MaxSeed + 1} {
		if _, err := ringDrill().At(seed); err == nil {
			t.Errorf("draw %d was taken", seed)
		}
	}
	broken := Drill{Name: "exercise-x", Draw: func(*rand.Rand) (Exercise, error) { return Exercise{}, errors.New("no") }}
	if _, err := broken.At(1); err == nil || !strings.Contains(err.Error(), "exercise-x, draw 1") {
		t.Errorf("a drill that fails gives %v", err)
	}
	endless := Drill{Name: "exercise-x", Draw: func(*rand.Rand) (Exercise, error) {
		return Exercise{Answer: Exact(math.Inf(1), Slopes)}, nil
	}}
	if _, err := endless.At(1); err == nil {
		t.Error("an answer that is not finite was taken")
	}
}

func TestMark(t *testing.T) {
	tilt := ringExercise(30e-6, 0.2) // 150 µm/m, 1.80 thou/ft
	negative := Exercise{Answer: Of(-184e-6, 7.6e-6, Slopes), Wrong: []WrongTurn{{Exact(-92e-6, Slopes), Plain("Only one pair.")}}}
	hole := Exercise{Answer: Exact(0.0762, Lengths)}
	chance := Exercise{Answer: Stepped(0.74, 0.01, Numbers)}
	gain := Exercise{Answer: Stepped(231e-6, 1e-6, Slopes), Wrong: []WrongTurn{{Stepped(227e-6, 1e-6, Slopes), Plain("The gain was left out.")}}}
	count := Exercise{Answer: Whole(4), Wrong: []WrongTurn{{Whole(2), Plain("One state.")}}}
	part := Exercise{Answer: Exact(0.95, Percents)}
	pin := Exercise{Answer: Stepped(9.96e-3, 1e-6, Lengths), Within: 2e-6, Wrong: []WrongTurn{{Stepped(9.98e-3, 1e-6, Lengths), Plain("One side.")}}}
	warm := Exercise{Answer: Exact(293.15, Temperatures)}
	none := Exercise{Answer: Exact(0.0, FineLengths)}
	tests := []struct {
		name  string
		e     Exercise
		typed string
		grade Grade
		says  string
	}{
		{"as asked", tilt, "150 µm/m", Right, "Right. It is 150"},
		{"plain letters, no space", tilt, "150um/m", Right, ""},
		{"other unit", tilt, "0.045 mm/300 mm", Right, ""},
		{"decimal comma", tilt, "1,8 thou/ft", Right, ""},
		{"arc seconds", tilt, "31 arcsec", Right, ""},
		{"within 2 %", tilt, "152.9 µm/m", Right, ""},
		{"outside 2 %", tilt, "154 µm/m", Wrong, "Close, but a little too large."},
		{"its own wrong turn", tilt, "300 µm/m", Turn, "The radius was taken."},
		{"half", tilt, "75 µm/m", Turn, "half of it"},
		{"sign", tilt, "−150 µm/m", Turn, "the sign is turned"},
		{"half and sign", tilt, "-75 µm/m", Turn, "half of it: a diameter and a radius, or a difference and its half. And the sign"},
		{"point", tilt, "15 µm/m", Turn, "decimal point"},
		{"foot and inch", tilt, "1800 µm/m", Turn, "twelve times too large"},
		{"inch and millimetre", tilt, "3810 µm/m", Turn, "25.4 times too large"},
		{"thousand", tilt, "150 mm/m", Turn, "a thousand times too large"},
		{"too small", tilt, "111 µm/m", Wrong, "Too small."},
		{"no unit", tilt, "150", Unread, "150 of what?"},
		{"a length for a slope", tilt, "150 µm", Unread, "µm does not measure what is asked. Answer in µm/m or thou/ft."},
		{"words", tilt, "a lot", Unread, `"a lot" is not a number with its unit`},
		{"nothing", tilt, "  ", Unread, "Type a number with its unit"},
		{"two readings of a comma", tilt, "1,234.5 µm/m", Unread, "is not a number"},
		{"long", tilt, strings.Repeat("1", 500), Unread, "too long"},
		{"huge", tilt, "1e308 mm/300 mm", Wrong, "Too large"},
		{"with doubt", negative, "-184 ± 8 µm/m", Right, ""},
		{"with doubt as printed", negative, "−184 µm/m (u 8 µm/m)", Right, ""},
		{"sign of a negative", negative, "184 µm/m", Turn, "the sign is turned"},
		{"negative turn", negative, "-92 µm/m", Turn, "Only one pair."},
		{"negative, too far", negative, "-250 µm/m", Wrong, "Too large, the sign left aside."},
		{"inches", hole, "3 in", Right, ""},
		{"fraction", hole, "3 1/32 in", Right, ""},
		{"foot", hole, "0.25 ft", Right, ""},
		{"thousandths of an inch are not thou", hole, "3.000 in", Right, ""},
		{"pure number", chance, "0.74", Right, ""},
		{"pure number in percent", chance, "74 %", Right, ""},
		{"pure number with a unit", chance, "0.74 mm", Unread, "mm does not measure what is asked. Answer with a number alone."},
		{"nearer to right than to the turn", gain, "229.5 µm/m", Right, ""},
		{"nearer to the turn", gain, "227 µm/m", Turn, "The gain was left out."},
		{"count", count, "4", Right, ""},
		{"not quite a count", count, "4.1", Wrong, "Close"},
		{"count, wrong turn", count, "2", Turn, "One state."},
		{"percent", part, "95 %", Right, ""},
		{"percent without its sign", part, "95", Unread, "95 of what?"},
		{"a close fit", pin, "9.961 mm", Right, ""},
		{"a close fit missed", pin, "9.965 mm", Wrong, "Close, but a little too large."},
		{"a close fit, one side", pin, "9.98 mm", Turn, "One side."},
		{"degrees", warm, "68 °F", Right, ""},
		{"degrees off", warm, "25 °C", Wrong, "Too large"},
		{"nothing at all", none, "0 µm", Right, ""},
		{"something for nothing", none, "3 µm", Wrong, "Too large"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			test.e.Wrong = distinctTurns(test.e)
			got := Mark(test.e, test.typed)
			said := strings.ReplaceAll(got.Said.In(Metric), "\u00a0", " ")
			if got.Grade != test.grade || !strings.Contains(said, test.says) {
				t.Errorf("Mark(%q) = %s, %q; want %s, with %q", test.typed, got.Grade, said, test.grade, test.says)
			}
		})
	}
}

// TestMarkKeepsTheAnswer: only a right answer is told the answer.
func TestMarkKeepsTheAnswer(t *testing.T) {
	e := ringExercise(30e-6, 0.2)
	for _, typed := range []string{"75 µm/m", "-150 µm/m", "151 µm", "900 µm/m", "150"} {
		m := Mark(e, typed)
		for _, span := range m.Said {
			if span.Quantity != nil {
				t.Errorf("Mark(%q) says %q", typed, m.Said.In(Metric))
			}
		}
	}
}

// A value with "0.001 in" at its end is in inches.
func TestSplitUnitOfThousandthsOfAnInch(t *testing.T) {
	for _, text := range []string{"0.001 in", "10.001 in"} {
		number, u, ok := splitUnit(text, []Unit{Thou, InchUnit})
		if !ok || u.Symbol != "in" || number+" in" != text {
			t.Errorf("splitUnit(%q) = %q, %q, %v", text, number, u.Symbol, ok)
		}
	}
}

func FuzzMark(f *testing.F) {
	for _, typed := range []string{"150 µm/m", "-1.8 thou/ft", "150", "1 3/8 in", "±", "(", "1e999 µm/m", "--5 µm/m", "\xff\xfe", "5 ± µm/m", "0x10 µm/m", "NaN µm/m", "Inf mm/m", "1/0 in", "٣ mm", "<b>5</b>"} {
		f.Add(typed)
	}
	exercises := []Exercise{ringExercise(30e-6, 0.2), {Answer: Whole(3)}, {Answer: Exact(0.0, FineLengths)}, {Answer: Exact(300.0, Temperatures)}, {Answer: Exact(0.95, Percents)}}
	f.Fuzz(func(t *testing.T, typed string) {
		for _, e := range exercises {
			m := Mark(e, typed)
			if m.Said.In(Metric) == "" || len([]rune(m.Said.In(Inch))) > 400 {
				t.Errorf("Mark(%q) says %q", typed, m.Said.In(Metric))
			}
			switch m.Grade {
			case Right, Turn, Wrong, Unread:
			default:
				t.Errorf("Mark(%q) grades %q", typed, m.Grade)
			}
		}
	})
}
