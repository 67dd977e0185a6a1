package machine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"sort"
	"time"
)

// Format is the version of the file that this code writes. A version is raised
// only when an older program would misread a file; members may be added
// without, since unknown ones are kept. Format 0 is the document of a single
// lesson.
const Format = 1

// The bounds of a file.
const (
	// MaxBytes is the size of the largest file, in bytes: what a browser keeps.
	MaxBytes = 4 << 20
	// MaxEntries is the number of entries that a file may hold.
	MaxEntries = 5000
	// maxName bounds names and ids, in characters.
	maxName = 80
)

// File is everything that is kept of one machine. The zero File is empty and
// ready for use.
type File struct {
	// Entries are in order of date, id and content, and no two are the same.
	// Two entries of one id and different content are kept both: see
	// [File.Conflicts].
	Entries []Entry
	// extra holds members that this version does not know, in order.
	extra []extraMember
}

// Entry is one thing written down on one day.
type Entry struct {
	// ID stays with the entry for good: letters, digits and hyphens.
	ID string
	// Day is when it was read or became true, as 2025-05-24.
	Day string
	// Of is the slug of a lesson or the name of a record: see [Records].
	Of string
	// Name is what the reader calls it; may be empty.
	Name string
	// Head is how the head stood, [AsFound] or [AsLeft]; empty when it does not
	// matter.
	Head string
	// Travel is the table travel X at which the readings were taken, as typed
	// with its unit ("150 mm"); empty when the readings say it or it does not
	// matter.
	Travel string
	// InputsFormat is the format of the inputs document: see [notebook.Format].
	InputsFormat int
	// Inputs are the lesson's inputs as typed, a JSON object without spaces.
	Inputs json.RawMessage
	// extra holds members that this version does not know, in order.
	extra []extraMember
	// at is where the inputs stand in the text that was read, in bytes.
	at int
}

// The settings of the head.
const (
	AsFound = "as found"
	AsLeft  = "as left"
)

// extraMember is a member of a newer version, kept as it is.
type extraMember struct {
	name  string
	value json.RawMessage
}

// dayLayout is how a date is written: ISO 8601 calendar date.
const dayLayout = "2006-01-02"

// checkDay returns why a text is not a day between the years 1900 and 2199.
func checkDay(text string) error {
	day, err := time.Parse(dayLayout, text)
	if err != nil || day.Year() < 1900 || day.Year() > 2199 {
		return fmt.Errorf("%.20q is not a date between the years 1900 and 2199; write it as 2025-05-24", text)
	}
	return nil
}

// NewID returns an id for an entry, made from its content: the same readings
// put into two files get the same id in both. An id that the file holds already
// is not given again.
func (f *File) NewID(e Entry) string {
	e.ID = ""
	hash := fnv.New64a()
	hash.Write(e.content())
	for {
		id := fmt.Sprintf("%s-%s-%08x", e.Day, e.Of, uint32(hash.Sum64()))
		if !f.has(id) {
			return id
		}
		hash.Write([]byte{'+'})
	}
}

func (f *File) has(id string) bool {
	for _, e := range f.Entries {
		if e.ID == id {
			return true
		}
	}
	return false
}

// Put returns the file with an entry added; an entry without an id gets one.
// The same entry put twice stands once.
func (f *File) Put(e Entry) (*File, Entry) {
	if e.ID == "" {
		same := e
		for _, old := range f.Entries {
			if same.ID = old.ID; bytes.Equal(same.content(), old.content()) {
				return f, old
			}
		}
		e.ID = f.NewID(e)
	}
	return &File{Entries: sorted(append(append([]Entry{}, f.Entries...), e)), extra: f.extra}, e
}

// Key tells an entry from every other of the file: its id, and a mark of its
// content, which two entries of one id do not share.
func (e Entry) Key() string {
	hash := fnv.New64a()
	hash.Write(e.content())
	return fmt.Sprintf("%s.%016x", e.ID, hash.Sum64())
}

// Find returns the entry with the key, and whether there is one.
func (f *File) Find(key string) (Entry, bool) {
	for _, e := range f.Entries {
		if e.Key() == key {
			return e, true
		}
	}
	return Entry{}, false
}

// Remove returns the file without the entry of the given key.
func (f *File) Remove(key string) *File {
	left := &File{extra: f.extra}
	for _, e := range f.Entries {
		if e.Key() != key {
			left.Entries = append(left.Entries, e)
		}
	}
	return left
}

// Of returns the entries of a lesson or record, newest first; of one day, the
// one written later in the file's order first.
func (f *File) Of(slug string) []Entry {
	var found []Entry
	for i := len(f.Entries) - 1; i >= 0; i-- {
		if f.Entries[i].Of == slug {
			found = append(found, f.Entries[i])
		}
	}
	return found
}

// Newest returns the newest entry of a lesson or record that is not later than
// the day, and whether there is one. An empty day means any.
func (f *File) Newest(slug, day string) (Entry, bool) {
	for _, e := range f.Of(slug) {
		if day == "" || e.Day <= day {
			return e, true
		}
	}
	return Entry{}, false
}

// Document returns the entry's inputs as the document that the lesson's page
// loads.
func (e Entry) Document() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "{\n  \"lesson\": %s,\n  \"format\": %d,\n  \"inputs\": ", quote(e.Of), e.InputsFormat)
	writeValue(&b, e.Inputs, "  ", "")
	b.WriteString("\n}\n")
	return b.Bytes()
}

// FromDocument returns an entry that holds a lesson's document, or what is
// wrong with it.
func FromDocument(document []byte, day string) (Entry, error) {
	file, problems := Read(document, day)
	if len(problems) > 0 {
		return Entry{}, problemError(problems)
	}
	if len(file.Entries) != 1 {
		return Entry{}, fmt.Errorf("machine: the document holds %d entries, not one", len(file.Entries))
	}
	e := file.Entries[0]
	e.ID = ""
	return e, nil
}

// sorted puts entries into the file's order and drops those that are the same.
func sorted(entries []Entry) []Entry {
	content := make(map[string]Entry, len(entries))
	for _, e := range entries {
		meaning := e.meaning()
		kept, there := content[meaning]
		if !there || bytes.Compare(e.content(), kept.content()) < 0 {
			content[meaning] = e
		}
	}
	type keyed struct {
		Entry
		content []byte
	}
	list := make([]keyed, 0, len(content))
	for _, e := range content {
		list = append(list, keyed{e, e.content()})
	}
	sort.Slice(list, func(i, j int) bool {
		a, b := list[i], list[j]
		switch {
		case a.Day != b.Day:
			return a.Day < b.Day
		case a.ID != b.ID:
			return a.ID < b.ID
		}
		return bytes.Compare(a.content, b.content) < 0
	})
	order := make([]Entry, len(list))
	for i, k := range list {
		order[i] = k.Entry
	}
	return order
}

// With returns the entry with another's day, particulars and inputs; its id and
// the members that this version does not know stay.
func (e Entry) With(other Entry) Entry {
	other.ID, other.extra = e.ID, e.extra
	return other
}
