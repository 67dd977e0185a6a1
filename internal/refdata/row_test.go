package refdata

import (
	"math"
	"testing"
)

func TestRowsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range Rows() {
		if err := row.validate(); err != nil {
			t.Error(err)
		}
		if seen[row.ID] {
			t.Errorf("two rows are called %s", row.ID)
		}
		seen[row.ID] = true
		if found, ok := Find(row.ID); !ok || found != row {
			t.Errorf("Find(%q) = %v, %v, want the row itself", row.ID, found, ok)
		}
	}
	if len(seen) == 0 {
		t.Fatal("no rows")
	}
}

func TestPass(t *testing.T) {
	row := Row{Value: 2, Tolerance: 0.5}
	tests := []struct {
		name     string
		computed float64
		want     bool
	}{
		{"equal", 2, true},
		{"at the edge", 2.5, true},
		{"outside", 2.51, false},
		{"not a number", math.NaN(), false},
		{"infinite", math.Inf(1), false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := row.Pass(test.computed); got != test.want {
				t.Errorf("Pass(%v) = %v, want %v", test.computed, got, test.want)
			}
		})
	}
}

func TestFindUnknown(t *testing.T) {
	if row, ok := Find("no such row"); ok {
		t.Errorf("Find of an unknown id gave %v", row)
	}
}
