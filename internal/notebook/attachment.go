package notebook

// Files that a reader adds to a form, held as text in the input document: the
// name, then its bytes in base64 (RFC 4648, section 4).

import (
	"encoding/base64"
	"fmt"
	"path"
	"strings"
)

// MostAttached is the size of the largest file that a field takes unless its
// spec says less, in bytes: as base64 it still fits what a browser keeps.
const MostAttached = 2 << 20

// attachedMark stands between a file's name and its bytes.
const attachedMark = ";base64,"

// Attachment is a small file that a reader added: its name and its bytes. The
// zero Attachment is none.
type Attachment struct {
	Name string
	Data []byte
}

// File binds a small file that may be left out; it is limited by the spec's
// MostBytes. Accept lists the endings of names that a browser offers: ".stl".
func File(name string, p *Attachment, s Spec) Field {
	if s.MostBytes == 0 {
		s.MostBytes = MostAttached
	}
	return Field{Name: name, Kind: FileField, Spec: s, Optional: true,
		getText: func() string { return p.text() },
		setFile: func(a Attachment) { *p = a }}
}

// text returns the attachment as it stands in an input document, empty for none.
func (a Attachment) text() string {
	if len(a.Data) == 0 {
		return ""
	}
	return a.Name + attachedMark + base64.StdEncoding.EncodeToString(a.Data)
}

// readAttachment returns the attachment that a text holds.
func readAttachment(text string) (Attachment, error) {
	if strings.TrimSpace(text) == "" {
		return Attachment{}, nil
	}
	name, code, ok := strings.Cut(text, attachedMark)
	if !ok {
		return Attachment{}, fmt.Errorf("%s is not a file; write its name, %q and its bytes in base64, or leave it empty", quoted(text), attachedMark)
	}
	data, err := base64.StdEncoding.DecodeString(code)
	if err != nil {
		return Attachment{}, fmt.Errorf("%s: its bytes are not base64: %w", quoted(name), err)
	}
	return Attachment{Name: name, Data: data}, nil
}

// attach sets a file field, or says why the file cannot be taken.
func (f Field) attach(a Attachment) error {
	a.Name = path.Base(strings.ReplaceAll(strings.TrimSpace(a.Name), `\`, "/"))
	switch {
	case len(a.Data) > f.MostBytes:
		return fmt.Errorf("%s has %d bytes; the most is %d", quoted(a.Name), len(a.Data), f.MostBytes)
	case len([]rune(a.Name)) > maxWords:
		return fmt.Errorf("the name %s has %d characters; the most is %d", quoted(a.Name), len([]rune(a.Name)), maxWords)
	case strings.Contains(a.Name, ";") || strings.ContainsFunc(a.Name, func(c rune) bool { return c < ' ' || c == 0x7f }):
		return fmt.Errorf("the name %s holds a semicolon or a control character", quoted(a.Name))
	}
	f.setFile(a)
	return nil
}

// setFileText sets a file field from the text of an input document.
func setFileText(f Field, text string) error {
	a, err := readAttachment(text)
	if err != nil {
		return err
	}
	if len(a.Data) == 0 {
		f.setFile(Attachment{})
		return nil
	}
	return f.attach(a)
}

// setFiles sets file fields by name and returns what is wrong.
func setFiles(files map[string]Attachment, fields []Field) []Problem {
	var problems []Problem
	known := map[string]bool{}
	for _, f := range fields {
		file, given := files[f.Name]
		if !given || f.Kind != FileField {
			continue
		}
		known[f.Name] = true
		var err error
		if len(file.Data) == 0 {
			err = fmt.Errorf("%s is empty", quoted(file.Name))
		} else {
			err = f.attach(file)
		}
		if err != nil {
			problems = append(problems, Problem{Field: f.Name, Label: f.Label, Message: err.Error()})
		}
	}
	for name := range files {
		if !known[name] {
			problems = append(problems, Problem{Message: fmt.Sprintf("%s is not a field of this lesson that takes a file", quoted(name))})
		}
	}
	return problems
}
