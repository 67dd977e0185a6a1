package machine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"sort"
	"strings"
)

// Write returns the file's text, laid out for a person to read. The same
// entries give the same bytes.
func (f *File) Write() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "{\n  \"machine\": %d,\n", Format)
	writeExtra(&b, f.extra)
	b.WriteString("  \"entries\": [")
	for i, e := range sorted(f.Entries) {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n    ")
		writeValue(&b, e.content(), "    ", "")
	}
	if len(f.Entries) > 0 {
		b.WriteString("\n  ")
	}
	b.WriteString("]\n}\n")
	return b.Bytes()
}

// writeExtra writes the unknown members; a name that two merged files gave
// different values has them all in the member "unmerged".
func writeExtra(b *bytes.Buffer, extra []extraMember) {
	values := map[string][]json.RawMessage{}
	var names []string
	for _, m := range extra {
		if values[m.name] == nil {
			names = append(names, m.name)
		}
		values[m.name] = append(values[m.name], m.value)
	}
	sort.Strings(names)
	var several bytes.Buffer
	for _, name := range names {
		if list := values[name]; len(list) == 1 && name != unmerged {
			b.WriteString("  " + quote(name) + ": ")
			writeValue(b, list[0], "  ", name)
			b.WriteString(",\n")
			continue
		}
		if several.Len() > 0 {
			several.WriteByte(',')
		}
		several.WriteString(quote(name) + ":[" + string(bytes.Join(rawBytes(values[name]), []byte{','})) + "]")
	}
	if several.Len() > 0 {
		b.WriteString("  \"" + unmerged + "\": ")
		writeValue(b, []byte("{"+several.String()+"}"), "  ", unmerged)
		b.WriteString(",\n")
	}
}

// unmerged is the member that holds what two merged files disagreed on.
const unmerged = "unmerged"

func rawBytes(list []json.RawMessage) [][]byte {
	out := make([][]byte, len(list))
	for i, raw := range list {
		out[i] = raw
	}
	return out
}

// content returns the entry as a JSON object without spaces, its members in
// order.
func (e Entry) content() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, `{"id":%s,"date":%s,"of":%s`, quote(e.ID), quote(e.Day), quote(e.Of))
	for _, m := range []struct{ name, value string }{{"name", e.Name}, {"head", e.Head}, {"travel", e.Travel}} {
		if m.value != "" {
			b.WriteString("," + quote(m.name) + ":" + quote(m.value))
		}
	}
	for _, m := range e.extra {
		b.WriteString("," + quote(m.name) + ":")
		b.Write(m.value)
	}
	inputs := e.Inputs
	if len(inputs) == 0 {
		inputs = json.RawMessage("{}")
	}
	fmt.Fprintf(&b, `,"format":%d,"inputs":%s}`, e.InputsFormat, inputs)
	return b.Bytes()
}

// meaning returns the entry's content with the members of every object in order
// of name: the same for two entries that differ only in that order.
func (e Entry) meaning() string {
	content := e.content()
	dec := json.NewDecoder(bytes.NewReader(content))
	dec.UseNumber()
	var value any
	if dec.Decode(&value) != nil {
		return string(content)
	}
	ordered, err := json.Marshal(value)
	if err != nil {
		return string(content)
	}
	return string(ordered)
}

// writeValue writes JSON without spaces over several lines: one member of an
// object a line, one row of a table a line. Units stand on one line.
func writeValue(b *bytes.Buffer, raw []byte, indent, name string) {
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.UseNumber()
	writeNext(b, dec, indent, name == "units")
}

// writeNext writes the next value of the decoder.
func writeNext(b *bytes.Buffer, dec *json.Decoder, indent string, flat bool) {
	token, err := dec.Token()
	if err != nil {
		return
	}
	switch token := token.(type) {
	case json.Delim:
		if token == '{' {
			writeObject(b, dec, indent, flat)
		} else {
			writeList(b, dec, indent, flat)
		}
	case string:
		b.WriteString(quote(token))
	case json.Number:
		b.WriteString(token.String())
	case bool:
		fmt.Fprint(b, token)
	case nil:
		b.WriteString("null")
	}
}

func writeObject(b *bytes.Buffer, dec *json.Decoder, indent string, flat bool) {
	b.WriteByte('{')
	first := true
	for dec.More() {
		token, err := dec.Token()
		name, ok := token.(string)
		if err != nil || !ok {
			return
		}
		separate(b, &first, indent, flat)
		b.WriteString(quote(name) + ": ")
		writeNext(b, dec, indent+"  ", flat || name == "units")
	}
	_, _ = dec.Token()
	if !first && !flat {
		b.WriteString("\n" + indent)
	}
	b.WriteByte('}')
}

// writeList writes a list of single values on one line, and any other with a
// line for each value.
func writeList(b *bytes.Buffer, dec *json.Decoder, indent string, flat bool) {
	var values []json.RawMessage
	single := true
	for dec.More() {
		var raw json.RawMessage
		if dec.Decode(&raw) != nil {
			return
		}
		values = append(values, raw)
		single = single && !strings.HasPrefix(string(raw), "{") && !strings.HasPrefix(string(raw), "[")
	}
	_, _ = dec.Token()
	b.WriteByte('[')
	first := true
	for _, raw := range values {
		separate(b, &first, indent, flat || single)
		inner := json.NewDecoder(bytes.NewReader(raw))
		inner.UseNumber()
		writeNext(b, inner, indent+"  ", flat)
	}
	if !first && !flat && !single {
		b.WriteString("\n" + indent)
	}
	b.WriteByte(']')
}

// separate writes what stands before a member or value: a comma unless it is
// the first, and a new line or a space.
func separate(b *bytes.Buffer, first *bool, indent string, flat bool) {
	if !*first {
		b.WriteByte(',')
		if flat {
			b.WriteByte(' ')
		}
	}
	if !flat {
		b.WriteString("\n" + indent + "  ")
	}
	*first = false
}

func quote(text string) string {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if enc.Encode(text) != nil {
		return `""`
	}
	return strings.TrimSuffix(b.String(), "\n")
}
