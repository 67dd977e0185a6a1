package e2e

// A table's numbers saved for a spreadsheet.

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Every cell of the first chart's table is in the file, in the units shown, and
// numbers are such that a program reads them.
func TestTableIsSavedAsCSV(t *testing.T) {
	s := site(t)
	p := open(t, s.server.URL+"/"+s.lessonWith(t, `class="item chart"`)+"/index.html")
	p.awake()
	p.await("a button at a table", `() => Boolean(document.querySelector("details.data .csv"))`)
	ask[bool](p, `() => document.querySelector("details.data").open = true`)
	records := map[string][][]string{}
	for _, units := range []string{"metric", "inch"} {
		p.do(chromedp.Click(chromedp.CSS(`[data-set-units="` + units + `"]`)))
		p.do(chromedp.Click(chromedp.CSS(`details.data .csv`)))
		text := string(p.saved("*.csv", "\r\n"))
		rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff"))).ReadAll()
		if err != nil {
			t.Fatalf("the file is not CSV: %v\n%s", err, text)
		}
		records[units] = rows
		shown := ask[[]string](p, `() => [...document.querySelector("details.data table").rows].map((row) => row.innerText)`)
		if len(shown) < 3 || len(rows) != len(shown) {
			t.Fatalf("%d rows were saved of %d shown", len(rows), len(shown))
		}
		for r, row := range shown {
			saved := rows[r]
			if r == 0 { // the columns of uncertainties have heads of their own
				saved = slices.DeleteFunc(slices.Clone(saved), func(head string) bool { return strings.HasPrefix(head, "u of ") })
			}
			got := strings.Join(saved, "")
			if got, want := squeeze(got), squeeze(row); got != want {
				t.Errorf("in %s, row %d: saved %q, shown %q", units, r, got, want)
			}
		}
	}
	if strings.Contains(strings.Join(records["metric"][1], ""), "\u2212") {
		t.Errorf("a minus sign that no program reads: %q", records["metric"][1])
	}
	if strings.Join(records["metric"][0], ",") == strings.Join(records["inch"][0], ",") {
		t.Errorf("the columns are headed alike in both units: %q", records["inch"][0])
	}
}

// squeeze leaves out what a file writes otherwise than a page.
func squeeze(text string) string {
	return strings.NewReplacer("\u2212", "-", "(u", "", "(", "", ")", "", " ", "", "\t", "", "\n", "", "\u00a0", "", "\u2009", "", "\u202f", "").Replace(text)
}
