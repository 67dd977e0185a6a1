package workbench

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

// plain is the card's tables and sentences as text.
func plain(c Card) string {
	var b strings.Builder
	b.WriteString(c.Title + "\n" + c.Read + "\n")
	for _, item := range c.Sheet.Items {
		switch item := item.(type) {
		case notebook.Table:
			b.WriteString("\n" + item.Title + "\n")
			for _, row := range item.Rows {
				var cells []string
				for _, cell := range row {
					text := cell.Words
					if cell.Quantity != nil {
						text = cell.Quantity.In(notebook.Metric).Full()
					}
					cells = append(cells, strings.TrimSpace(text+" "+cell.Mark))
				}
				b.WriteString("  " + strings.Join(cells, " | ") + "\n")
			}
			b.WriteString("  " + item.Note.In(notebook.Metric) + "\n")
		case notebook.Verdict:
			b.WriteString("\n" + string(item.Tone) + ": " + item.Text.In(notebook.Metric) + "\n")
		}
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

func TestCardOfTheActionShop(t *testing.T) {
	c, err := NewCard(actionShop(t), "2026-01-15")
	if err != nil {
		t.Fatal(err)
	}
	golden := filepath.Join("testdata", "card.txt")
	got := plain(c)
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("card (-golden +now; -update writes it anew):\n%s", d)
	}
}

// The card of a file that lacks things says which.
func TestCardSaysWhatIsMissing(t *testing.T) {
	sweep := put(t, &machine.File{}, machine.Entry{Day: "2025-05-24", Of: "sweep", Head: machine.AsFound}, nil)
	jobs := func(f *machine.File, rows string) *machine.File {
		f, _ = f.Put(machine.Entry{Day: "2025-05-01", Of: machine.RecordMachine, InputsFormat: 1,
			Inputs: json.RawMessage(`{"name":"<b>mill</b>","jobs":{"units":{"size":"mm","tolerance":"µm"},"rows":[` + rows + `]},"due":{"rows":[["vise jaw",6],["sweep",0.5]]}}`)})
		return f
	}
	tests := []struct {
		name string
		file *machine.File
		want []string
	}{
		{"nothing at all", &machine.File{}, []string{"This machine", "No readings of the head or the table are in the file.", "The machine has no record",
			"No slope is known: there are no readings for a survey up to 2025-06-01", "The bath’s efficiency is not known", "weighed run | never | now | not in the file due"}},
		{"one sweep, knee and bow asked for", jobs(sweep, `["shift","`+machine.JobKnee+`",100,10],["hole","`+machine.JobHole+`",60,1],["rail","`+machine.JobPart+`",600,10]`),
			[]string{"<b>mill</b>", "Knee, as it rises | not known", "shift: the readings do not tell it.", "rail: the readings do not tell it.", "Side tilt of the head, mid-table | 241 µm/m (u 10 µm/m) | right high | 2025-05-24",
				"Side tilt of the head at the work | 241 µm/m (u 10 µm/m)", "hole | 20.5 µm", "NOT GOOD",
				"The place of the work is not written down", "sweep | 2025-05-24 | 2025-06-08 | in 7 days", "vise jaw | never"}},
		{"a record that is none", jobs(&machine.File{}, `["x","`+machine.JobHole+`",-60,1]`), []string{"The machine’s record cannot be used: ", "-60"}},
		{"only later entries", put(t, &machine.File{}, machine.Entry{Day: "2025-06-02", Of: "sweep"}, nil), []string{"No slope is known"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, err := NewCard(test.file, "2025-06-01")
			if err != nil {
				t.Fatal(err)
			}
			got := plain(c)
			for _, want := range test.want {
				if !strings.Contains(got, want) {
					t.Errorf("the card lacks %q:\n%s", want, got)
				}
			}
		})
	}
	if _, err := NewCard(sweep, "tomorrow"); err == nil {
		t.Error("a card of no day was written")
	}
}

// A reading is due on the day that its months end, and overdue after.
func TestDue(t *testing.T) {
	f := put(t, &machine.File{}, machine.Entry{Day: "2025-01-31", Of: "square"}, nil)
	f, _ = f.Put(machine.Entry{Day: "2025-01-01", Of: machine.RecordMachine, InputsFormat: 1, Inputs: json.RawMessage(`{"due":{"rows":[["square on the knee",2]]}}`)})
	for _, test := range []struct{ today, want string }{{"2025-03-30", "2025-03-31 | in 1 day"}, {"2025-03-31", "today due"}, {"2025-04-02", "for 2 days due"}} {
		c, err := NewCard(f, test.today)
		if err != nil {
			t.Fatal(err)
		}
		if got := plain(c); !strings.Contains(got, test.want) {
			t.Errorf("on %s the card lacks %q:\n%s", test.today, test.want, got)
		}
	}
}

// Whatever a file holds, a card comes of it or a plain error.
func FuzzCard(f *testing.F) {
	f.Add([]byte(`{"lesson":"sweep","format":1,"inputs":{"radius":"110 mm","readings":{"units":{"shown":"thou"},"rows":[[0,0.00],[45,"-0.50"],[90,0]]},"closing":"0 thou"}}`))
	f.Add([]byte(`{"machine":1,"entries":[{"id":"a","date":"2025-05-24","of":"fiveplaces","inputs":{"sweeps":{"units":{"r0":7},"rows":[[1,"",null,{}],["1e300 mm"]]},"radius":[1]}},
		{"id":"b","date":"2025-05-24","of":"machine","inputs":{"jobs":{"rows":[["x"]]}}},{"id":"c","date":"2025-05-24","of":"run","inputs":{"current":"A","time":" ","ph":"4"}},
		{"id":"d","date":"2025-05-24","of":"twodials","inputs":{"pairs":[],"visits":{"rows":[["2025-05-24","found"]]}}}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		file, problems := machine.Read(text, "2025-05-24")
		if len(problems) > 0 {
			return
		}
		card, err := NewCard(file, "2025-06-01")
		if err == nil && len(card.Sheet.Items) < 5 {
			t.Errorf("a card of %d items", len(card.Sheet.Items))
		}
		for _, slug := range []string{"survey", "scale", "sweep"} {
			for _, choice := range Choices(file, slug) {
				if _, err := Take(file, slug, choice.Key); err != nil {
					t.Errorf("%s: %+v is offered and not there: %v", slug, choice, err)
				}
			}
		}
	})
}
