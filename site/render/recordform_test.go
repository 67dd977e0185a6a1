package render

import (
	"regexp"
	"strings"
	"testing"

	"example.org/thouspan/internal/machine"
)

// The forms of all records can stand on one page: no id is there twice, and
// every label and description leads to one.
func TestRecordFormsStandOnOnePage(t *testing.T) {
	var page string
	for _, r := range machine.Records() {
		page += RecordForm(r.Name, r.Title, r.Fields())
	}
	ids := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		if ids[m[1]] {
			t.Errorf("the id %q is there twice", m[1])
		}
		ids[m[1]] = true
	}
	leads := 0
	for _, m := range regexp.MustCompile(` (?:for|aria-describedby)="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		for _, id := range strings.Fields(m[1]) {
			leads++
			if !ids[id] {
				t.Errorf("%q leads to no id", id)
			}
		}
	}
	if leads < 50 {
		t.Errorf("only %d labels and descriptions", leads)
	}
}
