package notebook

import (
	"errors"
	"testing"
)

func TestOnce(t *testing.T) {
	calls := 0
	add := Once(func(s *Sheet) error {
		calls++
		s.Add(Caution{Name: "hot", Text: Plain("hot")}, Caution{Name: "sharp", Text: Plain("sharp")})
		return nil
	})
	for range 3 {
		s := &Sheet{Items: []Item{Caution{Name: "first"}}}
		if err := add(s); err != nil {
			t.Fatal(err)
		}
		s.Add(Caution{Name: "last"})
		var names string
		for _, item := range s.Items {
			names += item.ItemName() + " "
		}
		if names != "first hot sharp last " {
			t.Errorf("the sheet holds %s", names)
		}
	}
	if calls != 1 {
		t.Errorf("the items were made %d times", calls)
	}
}

func TestOnceKeepsItsError(t *testing.T) {
	wrong := errors.New("wrong")
	add := Once(func(s *Sheet) error { s.Add(Caution{Name: "half"}); return wrong })
	for range 2 {
		s := &Sheet{}
		if err := add(s); !errors.Is(err, wrong) || len(s.Items) != 0 {
			t.Errorf("%v, with %d items on the sheet", err, len(s.Items))
		}
	}
}
