package render

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/thouspan/internal/notebook"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// everyKind is a sheet with an item of every kind, some with hostile words.
func everyKind() *notebook.Sheet {
	tilt := notebook.Of(-238e-6, 8.2e-6, notebook.Slopes)
	table := notebook.Table{Name: "table", Title: "Readings <b>",
		Columns: []notebook.Column{notebook.Col("Station"), notebook.ColIn("Slope", notebook.Slopes)},
		Rows: [][]notebook.Cell{
			{notebook.Str("left & right"), notebook.Val(tilt)},
			{notebook.Val(notebook.Whole(2)), notebook.Val(notebook.Stepped(100e-6, 10e-6, notebook.Slopes)).Marked("misread")},
		},
		Note: notebook.Say("The least is {}.", tilt)}
	option := json.RawMessage(`{"title":"</script>"}`)
	return &notebook.Sheet{Items: []notebook.Item{
		notebook.Figure{Name: "tilt", Label: "Side tilt", Value: tilt, Note: notebook.Plain("The <right> side is high.")},
		notebook.Figure{Name: "drift", Label: "Drift", Unknown: "no closing reading was taken"},
		notebook.Figure{Name: "exact", Label: "Span", Value: notebook.Exact(0.22, notebook.Lengths)},
		table,
		notebook.Table{Name: "empty", Title: "Suspects", Columns: []notebook.Column{notebook.Col("Reading")}},
		notebook.Chart{Name: "chart", Title: "Fit", Caption: notebook.Say("It leaves {}.", tilt), Option: func(notebook.System) (json.RawMessage, error) { return option, nil }, Data: table},
		notebook.Chart{Name: "no-chart", Title: "Change", Unknown: "there is one survey only"},
		notebook.Drawing{Name: "drawing", Title: "Set-up", Caption: notebook.Plain("Seen from above."), SVG: "<svg></svg>"},
		notebook.Verdict{Name: "verdict", Tone: notebook.Watch, Text: notebook.Say("Turn by {u}.", tilt)},
		notebook.CheckRow("check", "slope-thou-per-foot", 83.33333333),
		notebook.CheckRow("failing", "slope-thou-per-foot", 80),
		notebook.Caution{Name: "caution", Text: notebook.Plain("Isolate the spindle."), Body: "your local code"},
		notebook.Exercise{Name: "exercise", Ask: notebook.Plain("What tilt?"), Answer: tilt, Worked: []notebook.Text{notebook.Say("Take {}.", tilt)},
			Wrong: []notebook.WrongTurn{{Value: notebook.Exact(-119e-6, notebook.Slopes), Why: notebook.Plain("half of it")}}},
	}}
}

// golden compares text with a golden file.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", file, diff)
	}
}

func TestItemsAsHTML(t *testing.T) {
	var b strings.Builder
	for _, item := range everyKind().Items {
		b.WriteString(Wrapped(item) + "\n" + WrappedInline(item) + "\n\n")
	}
	golden(t, "items.golden.html", b.String())
}

func TestItemsInTheTerminal(t *testing.T) {
	lesson := notebook.NewLesson(notebook.About{Title: "Every kind", Question: "What does each look like?"},
		func() int { return 0 }, func(*int) []notebook.Field { return nil }, func(int) (*notebook.Sheet, error) { return everyKind(), nil })
	for _, system := range notebook.Systems() {
		golden(t, "items."+system.String()+".golden.txt", Terminal(lesson, everyKind(), system))
	}
}

func TestHostileWordsStayText(t *testing.T) {
	hostile := `<img src=x onerror=alert(1)>"'&`
	items := []notebook.Item{
		notebook.Figure{Name: "a", Label: hostile, Value: notebook.Whole(1), Note: notebook.Plain(hostile)},
		notebook.Figure{Name: "b", Label: "b", Unknown: hostile},
		notebook.Table{Name: "c", Title: hostile, Columns: []notebook.Column{notebook.Col(hostile)},
			Rows: [][]notebook.Cell{{notebook.Str(hostile).Marked(hostile)}}, Note: notebook.Plain(hostile)},
		notebook.Verdict{Name: "d", Text: notebook.Plain(hostile)},
		notebook.Caution{Name: "e", Text: notebook.Plain(hostile), Body: hostile},
		notebook.Exercise{Name: "f", Ask: notebook.Plain(hostile)},
		notebook.Drawing{Name: "g", Title: hostile, Caption: notebook.Plain(hostile)},
		notebook.Chart{Name: "h", Title: hostile, Caption: notebook.Plain(hostile), Data: notebook.Table{Columns: []notebook.Column{notebook.Col(hostile)}}},
	}
	for _, item := range items {
		for _, got := range []string{Block(item), Inline(item)} {
			if strings.Contains(got, "<img") || strings.Contains(got, `"'&`) {
				t.Errorf("%s %s lets words through as markup: %s", item.Kind(), item.ItemName(), got)
			}
		}
	}
}

func TestChartOptionCannotEndItsScript(t *testing.T) {
	chart := everyKind().Find("chart").(notebook.Chart)
	got, err := ChartOptions(chart, notebook.Systems()...)
	if err != nil || strings.Contains(string(got), "</script") || !json.Valid(got) {
		t.Errorf("the option is %s", got)
	}
}
