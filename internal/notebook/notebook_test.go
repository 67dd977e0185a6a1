package notebook

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/unit"
)

type reading struct {
	Azimuth unit.Angle
	Reading unit.Length
}

type inputs struct {
	Part     string
	Radius   unit.Length
	Closing  *unit.Length
	Turns    int
	Gain     float64
	Feed     string
	Day      time.Time
	Readings []reading
}

func demo() inputs {
	return inputs{
		Part: "rail", Radius: 110 * unit.Milli * unit.Metre, Turns: 2, Gain: 0.985, Feed: "along x",
		Day:      time.Date(2025, 5, 24, 0, 0, 0, 0, time.UTC),
		Readings: []reading{{0, 0}, {1.5, -0.5 * 25.4e-6}},
	}
}

func form(in *inputs) []Field {
	dial := Spec{Label: "Reading", Units: []Unit{Thou, Millimetre}, Limits: Between(-1*unit.Metre, 1*unit.Metre), Decimals: 2}
	return []Field{
		Words("part", &in.Part, Spec{Label: "Part"}),
		Measure("radius", &in.Radius, Spec{Label: "Radius", Units: []Unit{Millimetre, InchUnit},
			Limits: AboveUpTo(0, 2*unit.Metre)}),
		MeasureMaybe("closing", &in.Closing, dial),
		Count("turns", &in.Turns, Spec{Label: "Turns", Limits: Between(1.0, 9.0)}),
		Number("gain", &in.Gain, Spec{Label: "Gain", Limits: Between(0.5, 2.0)}),
		Choice("feed", &in.Feed, Spec{Label: "Feed", Options: []string{"along x", "along y"}}),
		Day("day", &in.Day, Spec{Label: "Date"}),
		Rows("readings", &in.Readings, Spec{Label: "Readings", MinRows: 2, MaxRows: 4}, func(r *reading) []Field {
			return []Field{
				Measure("azimuth", &r.Azimuth, Spec{Label: "Azimuth", Units: []Unit{Degree}, Limits: Between(-2*math.Pi, 2*math.Pi)}),
				Measure("reading", &r.Reading, dial),
			}
		}),
	}
}

// echo is a lesson that gives its inputs back, so that tests can see them.
func echo(got *inputs) Lesson {
	about := About{Slug: "echo", Title: "Echo"}
	return NewLesson(about, demo, form, func(in inputs) (*Sheet, error) {
		*got = in
		sheet := &Sheet{}
		sheet.Add(Figure{Name: "radius", Label: "Radius", Value: Exact(in.Radius, Lengths)})
		return sheet, nil
	})
}

func TestTemplateReadsBackAsTheDemo(t *testing.T) {
	var got inputs
	lesson := echo(&got)
	if _, err := lesson.Work(lesson.Template()); err != nil {
		t.Fatalf("the template is refused: %v\n%s", err, lesson.Template())
	}
	near := cmp.Comparer(func(a, b unit.Length) bool { return math.Abs(float64(a-b)) < 1e-15 })
	nearAngle := cmp.Comparer(func(a, b unit.Angle) bool { return math.Abs(float64(a-b)) < 1e-11 })
	if diff := cmp.Diff(demo(), got, near, nearAngle); diff != "" {
		t.Errorf("the template reads back otherwise (-demo +read):\n%s", diff)
	}
}

func document(inputs string) []byte {
	return []byte(`{"lesson": "echo", "format": 1, "inputs": {` + inputs + `}}`)
}

func TestWaysOfTyping(t *testing.T) {
	tests := []struct {
		name, inputs string
		want         func(in inputs) bool
	}{
		{"other unit", `"radius": "4 in"`, func(in inputs) bool { return in.Radius == 4*0.0254 }},
		{"decimal comma", `"radius": "1,5mm"`, func(in inputs) bool { return in.Radius == 1.5e-3 }},
		{"fraction", `"radius": "4 1/2 in"`, func(in inputs) bool { return in.Radius == 4.5*0.0254 }},
		{"other spelling", `"closing": "0.5 mil"`, func(in inputs) bool { return in.Closing != nil && math.Abs(float64(*in.Closing)-12.7e-6) < 1e-18 }},
		{"left empty", `"closing": ""`, func(in inputs) bool { return in.Closing == nil }},
		{"null", `"closing": null`, func(in inputs) bool { return in.Closing == nil }},
		{"true minus sign", `"closing": "−0.5 thou"`, func(in inputs) bool { return in.Closing != nil && *in.Closing < 0 }},
		{"number as number", `"gain": 1.031`, func(in inputs) bool { return in.Gain == 1.031 }},
		{"number as text", `"gain": " 1.031 "`, func(in inputs) bool { return in.Gain == 1.031 }},
		{"choice", `"feed": "along y"`, func(in inputs) bool { return in.Feed == "along y" }},
		{"date", `"day": "2019-05-18"`, func(in inputs) bool { return in.Day.Year() == 2019 }},
		{"name kept as typed", `"part": "<b>rail</b>"`, func(in inputs) bool { return in.Part == "<b>rail</b>" }},
		{"table in another unit", `"readings": {"units": {"reading": "mm"}, "rows": [[0, 1], ["90", "0,5"]]}`,
			func(in inputs) bool { return len(in.Readings) == 2 && in.Readings[1].Reading == 0.5e-3 }},
		{"empty rows dropped", `"readings": {"rows": [[0, 1], ["", null], [90, 2], []]}`,
			func(in inputs) bool { return len(in.Readings) == 2 }},
		{"a cell in its own unit", `"readings": {"rows": [[0, "1 mm"], [90, 2]]}`,
			func(in inputs) bool { return in.Readings[0].Reading == 1e-3 }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var got inputs
			if _, err := echo(&got).Work(document(test.inputs)); err != nil {
				t.Fatal(err)
			}
			if !test.want(got) {
				t.Errorf("%s was read as %+v", test.inputs, got)
			}
		})
	}
}

func TestWhatIsRefused(t *testing.T) {
	tests := []struct {
		name, document string
		want           []string // what the message must hold
	}{
		{"no unit", string(document(`"radius": "110"`)), []string{"Radius", `"110"`, "mm or in"}},
		{"bare number", string(document(`"radius": 110`)), []string{"Radius", "mm or in"}},
		{"wrong unit", string(document(`"radius": "110 kg"`)), []string{"Radius", "kg", "mm or in"}},
		{"another unit's ending", string(document(`"radius": "1 xmm"`)), []string{"Radius", `"1 xmm" has no unit`}},
		{"above the most", string(document(`"radius": "3000 mm"`)), []string{"Radius", "3000", "2000", "mm"}},
		{"not above zero", string(document(`"radius": "0 mm"`)), []string{"Radius", "not above 0"}},
		{"not a number", string(document(`"radius": "NaN mm"`)), []string{"Radius", "NaN"}},
		{"infinite", string(document(`"radius": "1e999 mm"`)), []string{"Radius", "1e999"}},
		{"two readings of a comma", string(document(`"radius": "1,234.5 mm"`)), []string{"comma"}},
		{"half a turn", string(document(`"turns": 1.5`)), []string{"Turns", "whole"}},
		{"no such choice", string(document(`"feed": "up"`)), []string{"Feed", `"up"`, "along x or along y"}},
		{"no such day", string(document(`"day": "2025-02-30"`)), []string{"Date", "2025-02-30"}},
		{"control character", string(document(`"part": "a\u0007b"`)), []string{"Part", "control"}},
		{"too few rows", string(document(`"readings": {"rows": [[0,0]]}`)), []string{"Readings", "1 rows", "2 to 4"}},
		{"too many rows", string(document(`"readings": {"rows": [[0,0],[0,0],[0,0],[0,0],[0,0]]}`)), []string{"5 rows"}},
		{"too many cells", string(document(`"readings": {"rows": [[0,0],[0,0,7]]}`)), []string{"Readings, row 2", "3 values"}},
		{"empty cell", string(document(`"readings": {"rows": [[0,0],[5]]}`)), []string{"Readings, row 2, Reading", "empty"}},
		{"bad cell", string(document(`"readings": {"rows": [[0,0],[5,"x"]]}`)), []string{"Readings, row 2, Reading", `"x"`}},
		{"unknown column unit", string(document(`"readings": {"units": {"reading": "kg"}, "rows": [[0,0],[5,1]]}`)), []string{"kg", "thou or mm"}},
		{"unknown field", string(document(`"radus": "1 mm"`)), []string{"radus", "did you mean radius"}},
		{"twice", string(document(`"gain": 1, "gain": 1.1`)), []string{"twice"}},
		{"list for a value", string(document(`"gain": [1]`)), []string{"Gain", "[1]"}},
		{"other lesson", `{"lesson": "amps", "inputs": {}}`, []string{"amps", "echo"}},
		{"newer format", `{"format": 99}`, []string{"99"}},
		{"broken", "{\n  \"inputs\": {\n    \"gain\": oops\n  }\n}", []string{"line 3, column 13", "not JSON"}},
		{"cut short", "{\n  \"inputs\": {", []string{"line 2", "ends too soon"}},
		{"not an object", `[1]`, []string{"braces"}},
		{"more behind", `{} {}`, []string{"more text"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var got inputs
			_, err := echo(&got).Work([]byte(test.document))
			var input *InputError
			if !errors.As(err, &input) {
				t.Fatalf("Work(%s) = %v, want an InputError", test.document, err)
			}
			for _, want := range test.want {
				if !strings.Contains(err.Error(), want) {
					t.Errorf("message %q does not say %q", err, want)
				}
			}
		})
	}
}

func TestEveryProblemIsReported(t *testing.T) {
	var got inputs
	_, err := echo(&got).Work([]byte("{\"inputs\": {\n\"gain\": 7,\n\"turns\": 0}}"))
	var input *InputError
	if !errors.As(err, &input) || len(input.Problems) != 2 {
		t.Fatalf("got %v, want two problems", err)
	}
	if p := input.Problems[1]; p.Field != "turns" || p.Line != 3 {
		t.Errorf("the second problem is %+v, want field turns on line 3", p)
	}
}

func TestProblemsOfTheFunctionFindTheirField(t *testing.T) {
	fail := func(inputs) (*Sheet, error) {
		return nil, InRow("readings", 2, "reading", errors.New("reads one turn off"))
	}
	_, err := NewLesson(About{Slug: "echo"}, demo, form, fail).Work(nil)
	if want := "Readings, row 2, Reading: reads one turn off"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %q", err, want)
	}
	// Rows are counted as the person sees them: an empty one counts.
	_, err = NewLesson(About{Slug: "echo"}, demo, form, fail).Work(document(`"readings": {"rows": [[0, 1], ["", null], [90, 2]]}`))
	if want := "Readings, row 3, Reading: reads one turn off"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %q", err, want)
	}
	// What a package counted for itself counts the filled rows, and says so.
	counted := func(inputs) (*Sheet, error) { return nil, InField("readings", errors.New("reading 2 is off")) }
	for rows, want := range map[string]string{
		`[0, 1], ["", null], [90, 2]`: "Readings: reading 2 is off (rows are counted without the empty ones)",
		`[0, 1], [90, 2], ["", null]`: "Readings: reading 2 is off",
	} {
		if _, err = NewLesson(About{Slug: "echo"}, demo, form, counted).Work(document(`"readings": {"rows": [` + rows + `]}`)); err == nil || err.Error() != want {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

func FuzzWork(f *testing.F) {
	var scratch inputs
	f.Add([]byte(echo(&scratch).Template()))
	f.Add([]byte(`{"inputs": {"readings": {"rows": [[0,1],[null,{}]]}}}`))
	f.Add([]byte(`{"inputs": {"radius": "1/0 mm", "closing": "-- 5"}}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		var got inputs
		sheet, err := echo(&got).Work(text)
		if (sheet == nil) == (err == nil) {
			t.Fatalf("Work(%q) = %v, %v: want a sheet or an error", text, sheet, err)
		}
		if err == nil && (math.IsNaN(float64(got.Radius)) || got.Radius <= 0 || got.Radius > 2) {
			t.Errorf("a radius of %v passed its limits", float64(got.Radius))
		}
	})
}

func TestQuantityIsRoundedByItsUncertainty(t *testing.T) {
	tests := []struct {
		name         string
		q            Quantity
		metric, inch string
	}{
		{"slope", Of(-237.94e-6, 8.31e-6, Slopes), "−238 µm/m (u 8 µm/m)", "−2.86 thou/ft (u 0.10 thou/ft)"},
		{"two digits for 1 and 2", Of(54.43e-6, 2.46e-6, FineLengths), "54.4 µm (u 2.5 µm)", "2.14 thou (u 0.10 thou)"},
		{"rounding up to ten", Of(100.0e-6, 9.7e-6, FineLengths), "100 µm (u 10 µm)", "3.9 thou (u 0.4 thou)"},
		{"hundreds", Of(12345.0, 320.0, Numbers), "12300 (u 300)", "12300 (u 300)"},
		{"exact", Exact(0.110, Lengths), "110 mm", "4.33 in"},
		{"stepped", Stepped(0.605e-3, 0.005e-3, Lengths), "0.605 mm", "0.0238 in"},
		{"zero", Exact(0.0, Lengths), "0 mm", "0 in"},
		{"no minus zero", Of(-0.01e-6, 1e-6, FineLengths), "0.0 µm (u 1.0 µm)", "0.00 thou (u 0.04 thou)"},
		{"degrees close up", Exact(math.Pi/4, Angles), "45.0°", "45.0°"},
		{"temperature", Exact(328.15, Temperatures).WithDigits(2), "55 °C", "130 °F"},
		{"count", Whole(4), "4", "4"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			space := strings.NewReplacer("\u00a0", " ")
			if got := space.Replace(test.q.In(Metric).Full()); got != test.metric {
				t.Errorf("metric: got %q, want %q", got, test.metric)
			}
			if got := space.Replace(test.q.In(Inch).Full()); got != test.inch {
				t.Errorf("inch: got %q, want %q", got, test.inch)
			}
		})
	}
}

func TestSay(t *testing.T) {
	text := Say("Turn by {}, known to {u}.", Exact(1e-3, Lengths), Of(2e-6, 1e-6, FineLengths))
	if got, want := strings.ReplaceAll(text.In(Metric), "\u00a0", " "), "Turn by 1.00 mm, known to 2.0 µm (u 1.0 µm)."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	defer func() {
		if recover() == nil {
			t.Error("Say with a quantity too many did not panic")
		}
	}()
	Say("nothing", Whole(1))
}

func TestValidate(t *testing.T) {
	good := Figure{Name: "a", Label: "A", Value: Whole(1)}
	tests := []struct {
		name  string
		items []Item
		want  string
	}{
		{"good", []Item{good}, ""},
		{"same name", []Item{good, good}, "two items"},
		{"bad name", []Item{Figure{Name: "A b"}}, "lower-case"},
		{"not finite", []Item{Figure{Name: "a", Value: Exact(math.NaN(), Lengths)}}, "not finite"},
		{"negative uncertainty", []Item{Figure{Name: "a", Value: Of(1.0, -1.0, Lengths)}}, "not finite"},
		{"ragged table", []Item{Table{Name: "t", Columns: []Column{Col("x")}, Rows: [][]Cell{{}}}}, "row 1"},
		{"chart that is not known", []Item{Chart{Name: "c", Unknown: "one survey only"}}, ""},
		{"chart without option", []Item{Chart{Name: "c"}}, "no option"},
		{"empty drawing", []Item{Drawing{Name: "d"}}, "no drawing"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := (&Sheet{Items: test.items}).Validate()
			if test.want == "" && err != nil || test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)) {
				t.Errorf("Validate() = %v, want %q", err, test.want)
			}
		})
	}
}

func TestSheetJSON(t *testing.T) {
	sheet := &Sheet{}
	sheet.Add(Figure{Name: "tilt", Label: "Tilt", Value: Of(-238e-6, 8e-6, Slopes)},
		CheckRow("published", "slope-thou-per-foot", 83.3333333), CheckRow("missing", "no-such-row", 1))
	text, err := json.Marshal(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"si":-0.000238`, `"kind":"figure"`, `"pass":true`, `"pass":false`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("%s lacks %s", text, want)
		}
	}
}

func TestNearest(t *testing.T) {
	if got := Nearest("sweap", []string{"bubble", "sweep", "amps"}); len(got) != 1 || got[0] != "sweep" {
		t.Errorf("Nearest = %v, want sweep", got)
	}
	if got := Nearest(strings.Repeat("x", 1000), []string{"sweep"}); got != nil {
		t.Errorf("Nearest of a long name = %v, want none", got)
	}
}
