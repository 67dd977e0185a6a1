package workbench

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
	"github.com/google/go-cmp/cmp"
)

func actionShop(t *testing.T) *machine.File {
	t.Helper()
	f, err := ActionShop()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func sheetOf(t *testing.T, slug string, document []byte) *notebook.Sheet {
	t.Helper()
	lesson, ok := examples.Find(slug)
	if !ok {
		t.Fatalf("no lesson %q", slug)
	}
	sheet, err := lesson.Work(document)
	if err != nil {
		t.Fatalf("%s: %v\n%s", slug, err, document)
	}
	return sheet
}

// Every entry of the demo file is what its form takes, can be worked, and the
// file is the same when it is made or read again.
func TestActionShopIsSound(t *testing.T) {
	f := actionShop(t)
	text := f.Write()
	again, problems := machine.Read(text, "")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if !machine.Equal(f, again) || !machine.Equal(f, actionShop(t)) {
		t.Error("read or made again, it differs")
	}
	for _, e := range again.Check(text, Fields) {
		t.Errorf("%s: %v", said(e.Entry), e.Problems)
	}
	for _, e := range again.Entries {
		if _, known := Fields(e.Of); !known {
			t.Errorf("an entry is of %q, which is neither lesson nor record", e.Of)
		}
		if !isRecord(e.Of) {
			sheetOf(t, e.Of, e.Document())
		}
	}
	if len(text) > machine.MaxBytes/10 {
		t.Errorf("the demo has %d bytes, more than a tenth of what a browser keeps", len(text))
	}
}

// Every lesson's inputs go into a file and back unchanged, and give the same
// figures.
func TestEveryLessonGoesThroughTheFile(t *testing.T) {
	f := &machine.File{}
	for _, lesson := range examples.Lessons() {
		e, err := machine.FromDocument(lesson.Template(), "2025-05-24")
		if err != nil {
			t.Fatal(err)
		}
		f, _ = f.Put(e)
	}
	text := f.Write()
	back, problems := machine.Read(text, "")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if found := back.Check(text, Fields); len(found) > 0 {
		t.Errorf("problems in the demos' inputs: %+v", found)
	}
	for _, lesson := range examples.Lessons() {
		g, err := On(back, lesson.Slug, "")
		if err != nil {
			t.Fatal(err)
		}
		var was, is any
		if json.Unmarshal(lesson.Template(), &was) != nil || json.Unmarshal(g.Document, &is) != nil {
			t.Fatal("no JSON")
		}
		if d := cmp.Diff(was, is); d != "" {
			t.Errorf("%s (-put in +taken out):\n%s", lesson.Slug, d)
		}
		if testing.Short() && lesson.Slug != "survey" {
			continue
		}
		a, errA := json.Marshal(sheetOf(t, lesson.Slug, nil))
		b, errB := json.Marshal(sheetOf(t, lesson.Slug, g.Document))
		if errA != nil || errB != nil || !bytes.Equal(a, b) {
			t.Errorf("%s gives other figures out of the file", lesson.Slug)
		}
	}
}

// The survey gathered from the entries of eight lessons is the shop's survey.
func TestSurveyIsGatheredFromLessons(t *testing.T) {
	g, err := Survey(actionShop(t), "")
	if err != nil {
		t.Fatal(err)
	}
	in := inputsOf(entryInputs(g.Document))
	in.setText("gain", "0.985") // what the lesson takes; the file has what the dial's check gave
	demo, got := sheetOf(t, "survey", nil), sheetOf(t, "survey", machine.Entry{Of: "survey", InputsFormat: 1, Inputs: in.raw()}.Document())
	figures := 0
	for _, item := range demo.Items {
		want, ok := item.(notebook.Figure)
		if !ok {
			continue
		}
		figures++
		have, ok := got.Find(want.Name).(notebook.Figure)
		// The same readings in another order: rounding of the solution alone.
		if !ok || have.Unknown != want.Unknown || math.Abs(have.Value.SI-want.Value.SI) > 1e-9*math.Max(1e-3, math.Abs(want.Value.SI)) || math.Abs(have.Value.U-want.Value.U) > 1e-9 {
			t.Errorf("%s: %v, want %v", want.Label, have.Value.In(notebook.Metric).Full(), want.Value.In(notebook.Metric).Full())
		}
	}
	if figures < 10 {
		t.Errorf("only %d figures were compared", figures)
	}
	if g.Day != "2025-05-24" || g.Head != "2025-05-24" || len(g.Days) != 7 {
		t.Errorf("days %q, %q, %v", g.Day, g.Head, g.Days)
	}
	if !strings.Contains(strings.Join(g.Left, "\n"), "2023-05-20: more than 396 days older") {
		t.Errorf("left out: %s", strings.Join(g.Left, "\n"))
	}
}

// A kind of reading that two lessons of one day hold is taken from its own; the
// other is named where it differs, and where it does not, nothing is said.
func TestSurveyTakesOneOfAKind(t *testing.T) {
	f := put(t, actionShop(t), machine.Entry{Day: "2025-05-24", Of: "groundbar", Name: "again"}, func(in *inputs) {
		rows := in.grid("groundbar", "readings")
		rows[0]["up"] = cell{"0.002", "mm"}
		in.setGrid("groundbar", "readings", rows)
	})
	g, err := Survey(f, "")
	if err != nil {
		t.Fatal(err)
	}
	used, left := strings.Join(g.Used, "\n"), strings.Join(g.Left, "\n")
	if !strings.Contains(used, "Level on the table, in divisions: bubble") || strings.Contains(left, "depthmotion") || strings.Contains(left, "fiveplaces") {
		t.Errorf("used\n%s\nleft\n%s", used, left)
	}
	if !strings.Contains(left, "a survey takes one ground bar, rolled over, and another stands in it") {
		t.Errorf("left\n%s", left)
	}
}

// put adds a lesson's demo inputs, changed, to a file.
func put(t *testing.T, f *machine.File, e machine.Entry, change func(*inputs)) *machine.File {
	t.Helper()
	in, err := template(e.Of)
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(&in)
	}
	e.Inputs, e.InputsFormat = in.raw(), notebook.Format
	f, _ = f.Put(e)
	return f
}

// What a survey cannot take is left out, with the reason.
func TestSurveyLeavesOutWhatDoesNotFit(t *testing.T) {
	tests := []struct {
		name string
		make func() *machine.File
		used int
		left string
	}{
		{"head readings of an earlier day", func() *machine.File {
			f := put(t, &machine.File{}, machine.Entry{Day: "2025-05-01", Of: "sweep"}, nil)
			return put(t, f, machine.Entry{Day: "2025-05-24", Of: "fiveplaces"}, nil)
		}, 2, "sweep of 2025-05-01: the head may have been turned before the readings of 2025-05-24"},
		{"two radii", func() *machine.File {
			f := put(t, &machine.File{}, machine.Entry{Day: "2025-05-24", Of: "sweep"}, func(in *inputs) { in.setText("radius", "4 in") })
			return put(t, f, machine.Entry{Day: "2025-05-24", Of: "fiveplaces"}, nil)
		}, 2, "its sweep has a radius of"},
		{"a sweep read at odd places", func() *machine.File {
			f := put(t, &machine.File{}, machine.Entry{Day: "2025-05-24", Of: "square"}, nil)
			return put(t, f, machine.Entry{Day: "2025-05-24", Of: "sweep"}, func(in *inputs) {
				rows := in.grid("sweep", "readings")
				rows[3]["azimuth"] = cell{"130", "°"}
				in.setGrid("sweep", "readings", rows)
			})
		}, 1, "one reading stands at 130 °"},
		{"a sweep that lacks a place", func() *machine.File {
			f := put(t, &machine.File{}, machine.Entry{Day: "2025-05-24", Of: "square"}, nil)
			return put(t, f, machine.Entry{Day: "2025-05-24", Of: "sweep"}, func(in *inputs) {
				in.setGrid("sweep", "readings", in.grid("sweep", "readings")[:7])
			})
		}, 1, "this has 7 of the 8 places"},
		{"heights read one way", func() *machine.File {
			return put(t, &machine.File{}, machine.Entry{Day: "2025-05-24", Of: "square"}, func(in *inputs) {
				in.setGrid("square", "y", in.grid("square", "y")[:3])
			})
		}, 1, "heights read in one direction only: 1"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			g, err := Survey(test.make(), "")
			if err != nil {
				t.Fatal(err)
			}
			if left := strings.Join(g.Left, "\n"); !strings.Contains(left, test.left) {
				t.Errorf("left out:\n%s\nwant: %s", left, test.left)
			}
			if len(g.Used) != test.used {
				t.Errorf("used %d: %v, want %d", len(g.Used), g.Used, test.used)
			}
			sheetOf(t, "survey", g.Document)
		})
	}
	if _, err := Survey(&machine.File{}, ""); err == nil || !strings.Contains(err.Error(), "it takes those of: sweep, fiveplaces") {
		t.Errorf("an empty file: %v", err)
	}
}

// An azimuth is which eighth of the turn, whichever way round it is counted.
func TestEighthOf(t *testing.T) {
	tests := []struct {
		text, unit string
		want       int
		ok         bool
	}{{"0", "°", 0, true}, {"45", "°", 1, true}, {"-45", "°", 7, true}, {"360", "°", 0, true}, {"315.0", "°", 7, true}, {"44", "°", 0, false}, {"1", "rad", 0, false}, {"x", "°", 0, false}, {"1e99", "°", 0, false}}
	for _, test := range tests {
		if got, ok := eighthOf(cell{test.text, test.unit}); got != test.want || ok != test.ok {
			t.Errorf("eighthOf(%s %s) = %d, %v, want %d, %v", test.text, test.unit, got, ok, test.want, test.ok)
		}
	}
}

// Every column that goes into a survey offers there the units it may be typed in.
func TestSurveyTakesTheUnitsOfItsSources(t *testing.T) {
	units := func(slug, table, column string) []string {
		fields, _ := Fields(slug)
		for _, f := range fields {
			for _, c := range append(f.Columns(), f) {
				if f.Name == table && c.Name == column {
					var symbols []string
					for _, u := range c.Units {
						symbols = append(symbols, u.Symbol)
					}
					return symbols
				}
			}
		}
		t.Fatalf("%s has no %s, %s", slug, table, column)
		return nil
	}
	type place struct{ slug, table, column string }
	moves := map[place]place{
		{"sweep", "readings", "shown"}: {"survey", "sweeps", "rear"}, {"sweep", "closing", "closing"}: {"survey", "sweeps", "closing"},
		{"fiveplaces", "sweeps", "r90"}: {"survey", "sweeps", "rear"}, {"fiveplaces", "sweeps", "travel"}: {"survey", "sweeps", "travel"},
		{"fiveplaces", "bar", "up"}: {"survey", "bar", "up"}, {"groundbar", "readings", "down"}: {"survey", "bar", "down"}, {"groundbar", "readings", "travel"}: {"survey", "bar", "travel"},
		{"twodials", "pairs", "first"}: {"survey", "gauge", "b"}, {"twodials", "visits", "second-turned"}: {"survey", "gauge", "c-turned"},
		{"bubble", "second", "travel"}: {"survey", "level", "travel"}, {"depthmotion", "levels", "travel"}: {"survey", "level", "travel"},
		{"depthmotion", "runs", "front"}: {"survey", "run", "front"}, {"depthmotion", "runs", "travel"}: {"survey", "run", "travel"},
		{"skimmedbar", "readings", "place"}: {"survey", "skim", "place"}, {"skimmedbar", "readings", "thickness"}: {"survey", "skim", "thickness"},
		{"square", "x", "height"}: {"survey", "knee", "raised"}, {"square", "y", "turned"}: {"survey", "knee", "turned-y"},
	}
	for from, to := range moves {
		takes := units(to.slug, to.table, to.column)
		for _, unit := range units(from.slug, from.table, from.column) {
			if !slices.Contains(takes, unit) {
				t.Errorf("%v may be typed in %s, which %v does not take: %v", from, unit, to, takes)
			}
		}
	}
}

// The plating log gathers into the lesson on the scale: the shop's runs.
func TestRunsAreGathered(t *testing.T) {
	g, err := Runs(actionShop(t), "")
	if err != nil {
		t.Fatal(err)
	}
	demo, err := template("scale")
	if err != nil {
		t.Fatal(err)
	}
	got, want := inputsOf(entryInputs(g.Document)).grid("scale", "runs"), demo.grid("scale", "runs")
	for _, rows := range []grid{got, want} {
		for _, row := range rows {
			delete(row, "use") // which runs count is for the reader to say
		}
	}
	// Runs of one day stand in no order of their own.
	order := func(rows grid) []string {
		var lines []string
		for _, row := range rows {
			lines = append(lines, fmt.Sprint(row))
		}
		slices.Sort(lines)
		return lines
	}
	if d := cmp.Diff(order(want), order(got)); d != "" {
		t.Errorf("runs (-demo +gathered):\n%s", d)
	}
	f := put(t, &machine.File{}, machine.Entry{Day: "2025-05-24", Of: "scale"}, nil)
	f, _ = f.Put(machine.Entry{Day: "2025-06-01", Of: machine.RecordRun, InputsFormat: 1, Inputs: json.RawMessage(`{"current":"1 A"}`)})
	if _, err := Runs(f, ""); err == nil {
		t.Error("a run without weighings was taken")
	}
	if c := Choices(f, "scale"); len(c) != 1 || c[0].Key == GatheredKey {
		t.Errorf("choices %+v", c)
	}
}

func TestOnSaysWhatThereIs(t *testing.T) {
	f := actionShop(t)
	tests := []struct{ slug, day, used, err string }{
		{"sweep", "", "sweep “before the head was set” of 2025-05-24", ""},
		{"twodials", "2024-01-01", "twodials “dials made to agree” of 2023-05-20", ""},
		{"sweep", "2020-01-01", "", "no entry for the lesson sweep up to 2020-01-01; it has those of 2025-05-24"},
		{"baking", "", "", "no entry for the lesson baking; it has some for dial, sweep,"},
		{"survey", "2020-01-01", "", "there are no readings for a survey up to 2020-01-01"},
	}
	for _, test := range tests {
		g, err := On(f, test.slug, test.day)
		switch {
		case test.err == "" && err != nil:
			t.Errorf("%s: %v", test.slug, err)
		case test.err != "" && (err == nil || !strings.Contains(err.Error(), test.err)):
			t.Errorf("%s up to %q: error %v, want %s", test.slug, test.day, err, test.err)
		case test.used != "" && strings.Join(g.Used, "") != test.used:
			t.Errorf("%s: used %v, want %s", test.slug, g.Used, test.used)
		}
	}
}

// A survey of the reader's own comes before one put together of the same day,
// and after one put together of a later day.
func TestOwnSurveyAndGathered(t *testing.T) {
	f := put(t, actionShop(t), machine.Entry{Day: "2025-05-24", Of: "survey", Name: "my own"}, nil)
	if g, err := On(f, "survey", ""); err != nil || g.Days != nil {
		t.Errorf("took %v, %v, want the survey's own entry", g.Used, err)
	}
	later := put(t, f, machine.Entry{Day: "2025-06-01", Of: "square"}, nil)
	if g, err := On(later, "survey", ""); err != nil || g.Days == nil || g.Days["knee"] != "2025-06-01" {
		t.Errorf("took %v, %v, want what was put together", g.Used, err)
	}
	list := Choices(later, "survey")
	if len(list) != 2 || list[0].Key != GatheredKey || list[1].Title != "my own" {
		t.Errorf("choices %+v", list)
	}
	for _, choice := range list {
		if _, err := Take(later, "survey", choice.Key); err != nil {
			t.Errorf("%+v: %v", choice, err)
		}
	}
	if _, err := Take(later, "sweep", list[1].Key); err == nil {
		t.Error("a sweep was taken from a survey's entry")
	}
}

// Every fact is a field of its record, and of each lesson that asks for it, in
// the units that the record may be typed in.
func TestFactsHaveTheirFields(t *testing.T) {
	find := func(of, name string) (notebook.Field, bool) {
		fields, _ := Fields(of)
		for _, f := range fields {
			if f.Name == name {
				return f, true
			}
		}
		return notebook.Field{}, false
	}
	for _, k := range facts() {
		from, ok := find(k.record, k.field)
		if !ok {
			t.Errorf("the record %s has no field %s", k.record, k.field)
			continue
		}
		for _, place := range strings.Fields(k.lessons) {
			lesson, name, _ := strings.Cut(place, ".")
			to, ok := find(lesson, name)
			switch {
			case !ok:
				t.Errorf("the lesson %s has no field %s", lesson, name)
			case from.Kind != to.Kind:
				t.Errorf("%s.%s is a %s, %s a %s", k.record, k.field, from.Kind, place, to.Kind)
			case len(from.Units) > 0 && from.Units[0].Symbol != "" && !slices.ContainsFunc(to.Units, func(u notebook.Unit) bool { return u.Symbol == from.Units[0].Symbol }):
				t.Errorf("%s does not take %s, the first unit of %s.%s", place, from.Units[0].Symbol, k.record, k.field)
			}
		}
	}
}

// The newest record that is not later than the day fills in a lesson's sizes,
// and nothing else changes.
func TestShare(t *testing.T) {
	f := actionShop(t)
	f, _ = f.Put(machine.Entry{Day: "2025-07-01", Of: machine.RecordGauge, InputsFormat: 1,
		Inputs: json.RawMessage(`{"name":"A","use":"dial of the sweep","gain":"1.001","arm":"4 in"}`)})
	in, err := template("sweep")
	if err != nil {
		t.Fatal(err)
	}
	e := machine.Entry{Of: "sweep", InputsFormat: 1, Inputs: in.raw()}
	for _, test := range []struct{ day, gain, radius string }{{"2025-06-30", "0.9821", "110 mm"}, {"2025-07-01", "1.001", "4 in"}, {"", "1.001", "4 in"}, {"2019-01-01", in.text("gain"), "110 mm"}} {
		shared := Share(f, e, test.day)
		got := inputsOf(entryInputs(shared.Document))
		if got.text("gain") != test.gain || got.text("radius") != test.radius {
			t.Errorf("on %q: gain %s, radius %s, want %s, %s", test.day, got.text("gain"), got.text("radius"), test.gain, test.radius)
		}
		if got.text("limit") != in.text("limit") || len(got.names) != len(in.names) {
			t.Errorf("on %q other fields changed", test.day)
		}
		sheetOf(t, "sweep", shared.Document)
	}
}
