package machine

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// randomFile draws a file whose entries come from a small stock, so that two
// files often hold the same entries and the same ids with other content.
func randomFile(t *testing.T, random *rand.Rand) *File {
	t.Helper()
	f := &File{}
	for range random.IntN(6) {
		kind := []string{"sweep", "gauge", "of-the-future"}[random.IntN(3)]
		e := Entry{ID: fmt.Sprintf("id-%d", random.IntN(4)), Day: fmt.Sprintf("2025-05-%02d", 1+random.IntN(3)), Of: kind,
			Name: []string{"", "as left", `<b>"hostile"</b>`}[random.IntN(3)], InputsFormat: 1,
			Inputs: json.RawMessage([]string{`{}`, `{"radius":"110 mm"}`, `{"radius":"110.0 mm","x":{"units":{"a":"mm"},"rows":[[0.00,"−1"]]}}`}[random.IntN(3)])}
		if random.IntN(3) == 0 {
			e.extra = []extraMember{{"later", json.RawMessage(`{"deep":[1.50,null,true]}`)}}
		}
		f, _ = f.Put(e)
	}
	if random.IntN(2) == 0 {
		f.extra = []extraMember{{"owner", json.RawMessage([]string{`"one"`, `"two"`}[random.IntN(2)])}}
	}
	return f
}

// A file read back from its text gives the same text, whatever it holds.
func TestWriteThenReadChangesNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		f := randomFile(t, random)
		text := f.Write()
		again, problems := Read(text, "")
		if len(problems) > 0 {
			t.Fatalf("Read(%s): %v", text, problems)
		}
		if d := cmp.Diff(string(text), string(again.Write())); d != "" {
			t.Fatalf("written again (-first +second):\n%s", d)
		}
		if !Equal(f, again) {
			t.Fatalf("Equal says that the file read back differs:\n%s", text)
		}
	}
}

func TestMergeLaws(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	conflicts := 0
	for range 300 {
		a, b, c := randomFile(t, random), randomFile(t, random), randomFile(t, random)
		ab := Merge(a, b)
		conflicts += len(ab.Conflicts)
		same := func(law string, x, y *File) {
			t.Helper()
			if d := cmp.Diff(string(x.Write()), string(y.Write())); d != "" {
				t.Fatalf("%s:\n%s", law, d)
			}
		}
		same("commutative", ab.File, Merge(b, a).File)
		same("associative", Merge(ab.File, c).File, Merge(a, Merge(b, c).File).File)
		same("idempotent", Merge(a, a).File, a)
		same("absorbing", Merge(ab.File, a).File, ab.File)
		same("nothing is the unit", Merge(a, &File{}).File, a)
		holds(t, ab.File, a)
		holds(t, ab.File, b)
		if len(a.Entries)+len(ab.Added) != len(ab.File.Entries) {
			t.Fatalf("%d entries and %d added give %d", len(a.Entries), len(ab.Added), len(ab.File.Entries))
		}
		if ab.Same+len(ab.Added) != len(b.Entries) {
			t.Fatalf("%d the same and %d added are not the %d of the second file", ab.Same, len(ab.Added), len(b.Entries))
		}
	}
	if conflicts == 0 {
		t.Error("no two of the files disagreed, so keeping both was not tried")
	}
}

// holds fails the test unless the file has every entry of the part.
func holds(t *testing.T, f, part *File) {
	t.Helper()
	for _, e := range part.Entries {
		if _, ok := f.Find(e.Key()); !ok {
			t.Fatalf("lost: %s", e.content())
		}
	}
	for _, m := range part.extra {
		if !strings.Contains(string(f.Write()), string(m.value)) {
			t.Fatalf("lost: %s %s", m.name, m.value)
		}
	}
}

// Two entries of one id are kept both, and named; one of them taken out ends it.
func TestConflictIsKeptAndNamed(t *testing.T) {
	one, _ := (&File{}).Put(Entry{ID: "a", Day: "2025-05-24", Of: "sweep", InputsFormat: 1, Inputs: json.RawMessage(`{"radius":"110 mm"}`)})
	two, _ := (&File{}).Put(Entry{ID: "a", Day: "2025-05-24", Of: "sweep", InputsFormat: 1, Inputs: json.RawMessage(`{"radius":"101 mm"}`)})
	merged := Merge(one, two)
	if d := cmp.Diff([]string{"a"}, merged.Conflicts); d != "" {
		t.Errorf("conflicts (-want +got):\n%s", d)
	}
	if d := cmp.Diff([]string{"a"}, merged.File.Conflicts()); d != "" {
		t.Errorf("the file's conflicts (-want +got):\n%s", d)
	}
	left := merged.File.Remove(two.Entries[0].Key())
	if !Equal(left, one) {
		t.Errorf("one taken out leaves\n%s", left.Write())
	}
}

// The same members in another order are the same readings.
func TestOrderOfMembersIsNoDifference(t *testing.T) {
	read := func(inputs string) *File {
		f, problems := Read([]byte(`{"machine":1,"entries":[{"id":"a","date":"2025-05-24","of":"sweep","inputs":`+inputs+`}]}`), "")
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return f
	}
	a, b := read(`{"radius":"110 mm","limit":"1 mm/m"}`), read(`{"limit":"1 mm/m","radius":"110 mm"}`)
	merged := Merge(a, b)
	if len(merged.File.Entries) != 1 || len(merged.Conflicts) > 0 {
		t.Errorf("merged to\n%s", merged.File.Write())
	}
	if !Equal(merged.File, Merge(b, a).File) {
		t.Error("which order is kept depends on which file came first")
	}
	if got := read(`{"radius":"110.0 mm","limit":"1 mm/m"}`); len(Merge(a, got).File.Entries) != 2 {
		t.Error("110 mm and 110.0 mm, typed differently, were taken for one")
	}
}

// Putting the same readings twice keeps them once; into two files, under one id.
func TestPut(t *testing.T) {
	e := Entry{Day: "2025-05-24", Of: "sweep", InputsFormat: 1, Inputs: json.RawMessage(`{"radius":"110 mm"}`)}
	f, first := (&File{}).Put(e)
	again, second := f.Put(e)
	if !Equal(f, again) || first.ID != second.ID {
		t.Errorf("put twice gives\n%s", again.Write())
	}
	_, elsewhere := (&File{}).Put(e)
	if elsewhere.ID != first.ID {
		t.Errorf("ids %q and %q for the same readings", first.ID, elsewhere.ID)
	}
	renamed, err := first.Change(first.Day, "another name", "", "")
	if err != nil {
		t.Fatal(err)
	}
	changed, _ := f.Remove(first.Key()).Put(renamed)
	other, third := changed.Put(e)
	if len(other.Entries) != 2 || third.ID == first.ID {
		t.Errorf("the first readings put again beside the renamed ones:\n%s", other.Write())
	}
	if len(f.Entries) != 1 || f.Entries[0].Name != "" {
		t.Error("Put or Change changed the file it was given")
	}
}

func TestNewest(t *testing.T) {
	f := &File{}
	for _, day := range []string{"2025-05-24", "2019-05-18", "2023-05-20"} {
		f, _ = f.Put(Entry{Day: day, Of: "sweep", InputsFormat: 1, Inputs: json.RawMessage(`{}`)})
	}
	tests := []struct{ day, want string }{{"", "2025-05-24"}, {"2025-05-23", "2023-05-20"}, {"2019-05-18", "2019-05-18"}, {"2019-05-17", ""}}
	for _, test := range tests {
		e, ok := f.Newest("sweep", test.day)
		if e.Day != test.want || ok != (test.want != "") {
			t.Errorf("Newest(sweep, %q) = %q, %v, want %q", test.day, e.Day, ok, test.want)
		}
	}
}
