package book

import (
	"flag"
	"os"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/refdata"
	"example.org/thouspan/squaring"
	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/unit"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// goldenShop is two lessons that use a term, share a source and hold a formula.
func goldenShop() *surroundings {
	source := refdata.Source{Author: "A body", Title: "A <guide>", Year: "2008", Section: "table 2"}
	one := notebook.About{Slug: "one", Title: "One & only", Track: notebook.Spindle}
	two := notebook.About{Slug: "two", Title: "Two", Track: notebook.Spindle}
	check := func(name string, known refdata.Known, value float64) notebook.Check {
		return notebook.Check{Name: name, Computed: value, Row: refdata.Row{ID: name, What: "the mean of three", Value: 2, Unit: "µm", Tolerance: 0.5, Source: source, Known: known}}
	}
	return &surroundings{
		in: Input{},
		worked: []workedLesson{
			{Lesson: notebook.Lesson{About: one}, terms: []string{"tilt"}, shown: map[string]bool{"formula-rise": true},
				formulas: []Formula{formulaOf("<math><mi>s</mi></math>", "rise", "slope is rise over span")}},
			{Lesson: notebook.Lesson{About: two}, terms: []string{"tilt"}},
		},
		terms:    []term{{Name: "tilt", ID: "tilt", source: []byte("How it leans: {{q 100 µm/m}}.")}},
		meanings: map[string]string{},
		checks:   []LessonCheck{{one, check("mean", refdata.Read, 2.1)}, {two, check("again", refdata.FromMemory, 2)}},
	}
}

func TestGoldenFragments(t *testing.T) {
	s := goldenShop()
	wall := wallSheet{rise: squaring.Thou, riseText: "0.001 in", spans: []unit.Length{6 * squaring.Inch, 12 * squaring.Inch},
		spanUnit: notebook.InchUnit, columns: []wallColumn{{"thou in 1 ft", notebook.ThouPerFoot}}, rule: "Say the span."}
	var got strings.Builder
	for _, fragment := range []struct {
		name string
		make func() (string, error)
	}{{"glossary", s.glossary}, {"formulas", s.formulas}, {"sources", s.sources}, {"wall", wall.html}} {
		text, err := fragment.make()
		if err != nil {
			t.Fatalf("%s: %v", fragment.name, err)
		}
		got.WriteString("<!-- " + fragment.name + " -->\n" + text)
	}
	const file = "testdata/around.golden.html"
	if *update {
		if err := os.WriteFile(file, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got.String()); diff != "" {
		t.Errorf("the fragments differ from %s (-want +got); rewrite it with -update if that is meant:\n%s", file, diff)
	}
}
