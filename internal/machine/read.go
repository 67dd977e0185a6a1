package machine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"sort"
	"strings"

	"example.org/thouspan/internal/notebook"
)

// Read reads a machine file, or the document of a single lesson (format 0),
// which becomes an entry of the given day. It returns everything that is wrong,
// each with its line and column; the file is nil then. What is inside the
// inputs is not judged here: see [File.Check].
func Read(text []byte, day string) (*File, []notebook.Problem) {
	r := reader{notebook.NewReading(text, MaxBytes)}
	if len(r.Problems) > 0 {
		return nil, r.Problems
	}
	members := r.Object(text, 0, "the file")
	file := &File{}
	switch {
	case hasMember(members, "machine"):
		r.readFile(file, members)
	case hasMember(members, "lesson"):
		r.readLesson(file, members, day)
	case len(r.Problems) == 0:
		r.Add(0, notebook.Problem{Message: `the file has neither the member "machine" of a machine's file nor "lesson" of a lesson's readings`})
	}
	if len(r.Problems) > 0 {
		return nil, r.Problems
	}
	file.Entries = sorted(file.Entries)
	return file, nil
}

// IsFile reports whether a text is a machine's file, good or not, and not a
// single lesson's document.
func IsFile(text []byte) bool {
	return hasMember(notebook.NewReading(text, MaxBytes).Object(text, 0, ""), "machine")
}

func hasMember(members []notebook.Member, name string) bool {
	for _, m := range members {
		if m.Name == name {
			return true
		}
	}
	return false
}

// reader reads one file.
type reader struct {
	*notebook.Reading
}

// readFile reads a file of format 1.
func (r reader) readFile(file *File, members []notebook.Member) {
	for _, m := range members {
		if m.Name == "machine" && !r.readVersion(m, "the file's format", Format) {
			return
		}
	}
	for _, m := range members {
		switch m.Name {
		case "machine":
		case "entries":
			r.readEntries(file, m)
		case unmerged:
			for _, several := range r.Object(m.Value, m.At, unmerged) {
				for _, value := range r.List(several.Value, several.At, several.Name) {
					file.extra = append(file.extra, extraMember{several.Name, r.plain(value)})
				}
			}
		default:
			file.extra = append(file.extra, extraMember{m.Name, r.plain(m)})
		}
	}
	if !hasMember(members, "entries") {
		r.Add(0, notebook.Problem{Message: `the file has no "entries"`})
	}
	file.extra = sortedExtra(file.extra)
}

// readVersion reads the version of a format, from 1 to the one known.
func (r reader) readVersion(m notebook.Member, what string, most int) bool {
	var got int
	if json.Unmarshal(m.Value, &got) != nil || got < 1 || got > most {
		r.Add(m.At, notebook.Problem{Label: what, Message: fmt.Sprintf("%s is not a format that this program reads, 1 to %d; a newer Thouspan may", clip(m.Value), most)})
		return false
	}
	return true
}

func (r reader) readEntries(file *File, m notebook.Member) {
	list := r.List(m.Value, m.At, "entries")
	if len(list) > MaxEntries {
		r.Add(m.At, notebook.Problem{Message: fmt.Sprintf("the file has %d entries; the most is %d", len(list), MaxEntries)})
		return
	}
	for i, one := range list {
		file.Entries = append(file.Entries, r.readEntry(one, i+1))
	}
}

// readEntry reads one entry, the given number in the file.
func (r reader) readEntry(one notebook.Member, number int) Entry {
	label := fmt.Sprintf("Entry %d", number)
	e := Entry{InputsFormat: notebook.Format}
	problem := func(m notebook.Member, format string, args ...any) {
		r.Add(m.At, notebook.Problem{Field: m.Name, Row: number, Label: label + ", " + m.Name, Message: fmt.Sprintf(format, args...)})
	}
	seen := map[string]bool{}
	for _, m := range r.Object(one.Value, one.At, label) {
		seen[m.Name] = true
		switch m.Name {
		case "id", "date", "of", "name", "head", "travel":
			text, err := textOf(m.Value)
			if err == nil {
				err = e.set(m.Name, text)
			}
			if err != nil {
				problem(m, "%v", err)
			}
		case "format":
			// Inputs of a newer format are kept; they cannot be worked here.
			if json.Unmarshal(m.Value, &e.InputsFormat) != nil || e.InputsFormat < 1 {
				problem(m, "%s is not a format: 1 or more", clip(m.Value))
			}
		case "inputs":
			if !bytes.HasPrefix(m.Value, []byte{'{'}) {
				problem(m, "expected an object in braces: {…}")
				continue
			}
			e.Inputs, e.at = r.plain(m), m.At
		default:
			e.extra = append(e.extra, extraMember{m.Name, r.plain(m)})
		}
	}
	e.extra = sortedExtra(e.extra)
	for _, name := range []string{"id", "date", "of", "inputs"} {
		if !seen[name] {
			r.Add(one.At, notebook.Problem{Field: name, Row: number, Label: label, Message: fmt.Sprintf("has no %q", name) + meant(name, e.extra)})
		}
	}
	return e
}

// meant says which unknown member may have been meant for a missing one.
func meant(name string, extra []extraMember) string {
	var names []string
	for _, m := range extra {
		names = append(names, m.name)
	}
	if near := notebook.Nearest(name, names); len(near) > 0 {
		return fmt.Sprintf("; is it %q?", near[0])
	}
	return ""
}

// set sets one of the entry's texts, or says why it cannot be that.
func (e *Entry) set(name, text string) error {
	switch name {
	case "id":
		e.ID = text
		return checkWord(text)
	case "date":
		e.Day = text
		return checkDay(text)
	case "of":
		e.Of = text
		return checkWord(text)
	case "name":
		e.Name = strings.TrimSpace(text)
		return checkName(text)
	case "head":
		if e.Head = text; text != "" && text != AsFound && text != AsLeft {
			return fmt.Errorf("%.40q is neither %q nor %q", text, AsFound, AsLeft)
		}
	case "travel":
		e.Travel = strings.TrimSpace(text)
		return checkTravel(e.Travel)
	}
	return nil
}

// Change returns the entry with its day, name, head and travel as given, each
// checked as a file's is.
func (e Entry) Change(day, name, head, travel string) (Entry, error) {
	for _, m := range []struct{ name, text string }{{"date", day}, {"name", name}, {"head", head}, {"travel", travel}} {
		if err := e.set(m.name, m.text); err != nil {
			return e, fmt.Errorf("%s: %w", m.name, err)
		}
	}
	return e, nil
}

// checkWord returns why a text is not letters, digits and hyphens.
func checkWord(text string) error {
	if n := len(text); n == 0 || n > maxName {
		return fmt.Errorf("has %d characters; it takes 1 to %d", n, maxName)
	}
	for _, c := range text {
		if c != '-' && (c < '0' || c > '9') && (c < 'a' || c > 'z') && (c < 'A' || c > 'Z') {
			return fmt.Errorf("%.40q holds something else than letters, digits and hyphens", text)
		}
	}
	return nil
}

// checkName returns why a text is not a name of at most 80 characters.
func checkName(text string) error {
	if n := len([]rune(text)); n > maxName {
		return fmt.Errorf("has %d characters; the most is %d", n, maxName)
	}
	for _, c := range text {
		if c < ' ' || c == 0x7f {
			return fmt.Errorf("%.40q holds a control character", text)
		}
	}
	return nil
}

// readLesson reads the document of a single lesson, format 0, as one entry.
func (r reader) readLesson(file *File, members []notebook.Member, day string) {
	e := Entry{Day: day, InputsFormat: notebook.Format, Inputs: json.RawMessage("{}")}
	if err := checkDay(day); err != nil {
		r.Add(0, notebook.Problem{Label: "Day of the readings", Message: err.Error()})
	}
	for _, m := range members {
		switch m.Name {
		case "lesson":
			text, err := textOf(m.Value)
			if err == nil {
				err = e.set("of", text)
			}
			if err != nil {
				r.Add(m.At, notebook.Problem{Label: "lesson", Message: err.Error()})
			}
		case "format":
			if r.readVersion(m, "the format of the readings", notebook.Format) {
				e.InputsFormat = notebook.Format
			}
		case "inputs":
			if !bytes.HasPrefix(m.Value, []byte{'{'}) {
				r.Add(m.At, notebook.Problem{Label: "inputs", Message: "expected an object in braces: {…}"})
				continue
			}
			e.Inputs, e.at = r.plain(m), m.At
		default:
			r.Add(m.At, notebook.Problem{Message: notebook.UnknownName(m.Name, []string{"lesson", "format", "inputs"})})
		}
	}
	if len(r.Problems) == 0 {
		e.ID = file.NewID(e)
		file.Entries = []Entry{e}
	}
}

// textOf returns a JSON string.
func textOf(raw json.RawMessage) (string, error) {
	var text string
	if !bytes.HasPrefix(raw, []byte{'"'}) || json.Unmarshal(raw, &text) != nil {
		return "", fmt.Errorf("%s is not a text in quotation marks", clip(raw))
	}
	return text, nil
}

// plain returns a value without spaces, its texts written in one way and its
// numbers as they stand. A name that comes twice in an object is a problem.
func (r reader) plain(m notebook.Member) json.RawMessage {
	dec := json.NewDecoder(bytes.NewReader(m.Value))
	dec.UseNumber()
	var b bytes.Buffer
	if twice := copyPlain(&b, dec); twice != "" {
		r.Add(m.At, notebook.Problem{Field: m.Name, Message: fmt.Sprintf("the name %.40q comes twice in one object", twice)})
	}
	return b.Bytes()
}

// copyPlain writes the next value of the decoder without spaces and returns a
// name that came twice, or nothing.
func copyPlain(b *bytes.Buffer, dec *json.Decoder) (twice string) {
	token, err := dec.Token()
	if err != nil {
		if err != io.EOF {
			b.WriteString("null")
		}
		return ""
	}
	switch token := token.(type) {
	case json.Delim:
		return copyInside(b, dec, token)
	case string:
		b.WriteString(quote(token))
	case json.Number:
		b.WriteString(token.String())
	case bool:
		fmt.Fprint(b, token)
	default:
		b.WriteString("null")
	}
	return ""
}

// copyInside writes the members or values that follow an opening delimiter.
func copyInside(b *bytes.Buffer, dec *json.Decoder, open json.Delim) (twice string) {
	seen := map[string]bool{}
	b.WriteRune(rune(open))
	for i := 0; dec.More(); i++ {
		if i > 0 {
			b.WriteByte(',')
		}
		if open == '{' {
			token, err := dec.Token()
			name, ok := token.(string)
			if err != nil || !ok {
				return twice
			}
			if seen[name] {
				twice = name
			}
			seen[name] = true
			b.WriteString(quote(name) + ":")
		}
		if again := copyPlain(b, dec); again != "" {
			twice = again
		}
	}
	_, _ = dec.Token()
	b.WriteByte(byte(open) + 2) // '{' to '}', '[' to ']'
	return twice
}

// sortedExtra puts unknown members into order of name and value and drops those
// that are the same.
func sortedExtra(extra []extraMember) []extraMember {
	sort.Slice(extra, func(i, j int) bool {
		if extra[i].name != extra[j].name {
			return extra[i].name < extra[j].name
		}
		return bytes.Compare(extra[i].value, extra[j].value) < 0
	})
	var kept []extraMember
	for _, m := range extra {
		if n := len(kept); n == 0 || kept[n-1].name != m.name || !bytes.Equal(kept[n-1].value, m.value) {
			kept = append(kept, m)
		}
	}
	return kept
}

// clip returns JSON text short enough for a message.
func clip(value []byte) string {
	const most = 40
	runes := []rune(string(value))
	if len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return string(runes)
}

// problemError joins problems into an error.
func problemError(problems []notebook.Problem) error {
	return &notebook.InputError{Problems: problems}
}

// checkTravel returns why a text is not a table travel with its unit.
func checkTravel(text string) error {
	if text == "" {
		return nil
	}
	document := []byte(`{"travel":` + quote(text) + `}`)
	r := notebook.NewReading(document, len(document))
	r.Inputs(notebook.Member{Value: document}, []notebook.Field{place("travel", "Travel X", "")})
	if len(r.Problems) > 0 {
		return fmt.Errorf("%s", r.Problems[0].Message)
	}
	return nil
}
