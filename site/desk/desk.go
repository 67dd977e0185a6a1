package desk

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"example.org/thouspan/examples/workbench"
	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/render"
)

// Request is what the page asks. Which members a call needs stands at [Answer].
type Request struct {
	// File is the machine's file as the browser keeps it, empty for none yet.
	File string `json:"file"`
	// Today is the reader's day, as 2025-05-24.
	Today string `json:"today"`
	// Text is another file: one that is loaded or merged.
	Text string `json:"text"`
	// Document is a lesson's or record's document.
	Document string `json:"document"`
	// Lesson is a lesson's slug, Key an entry's key or [workbench.GatheredKey].
	Lesson string `json:"lesson"`
	Key    string `json:"key"`
	// Day, Name, Head and Travel are an entry's.
	Day    string `json:"day"`
	Name   string `json:"name"`
	Head   string `json:"head"`
	Travel string `json:"travel"`
}

// reply is what the page gets. Problems alone when the call failed.
type reply struct {
	Problems []notebook.Problem `json:"problems"`
	// File is the file's text after the call.
	File    string      `json:"file,omitempty"`
	Entries []shown     `json:"entries"`
	Merged  *mergedText `json:"merged,omitempty"`
	// Said is what was done, in a sentence.
	Said string `json:"said,omitempty"`
	// Key is the entry that was put in.
	Key string `json:"key,omitempty"`

	Choices []choice `json:"choices,omitempty"`
	// Asks lists what else is to be said when a lesson's readings are put in.
	Asks []string `json:"asks,omitempty"`

	Document string   `json:"document,omitempty"`
	Used     []string `json:"used,omitempty"`
	Left     []string `json:"left,omitempty"`

	Card *cardText `json:"card,omitempty"`
}

// mergedText says what a merge did.
type mergedText struct {
	Added     []string `json:"added"`
	Same      int      `json:"same"`
	Conflicts []string `json:"conflicts"`
}

// choice is one thing that a lesson can take.
type choice struct {
	Key   string `json:"key"`
	Day   string `json:"day"`
	Title string `json:"title"`
}

// cardText is the card as HTML.
type cardText struct {
	Title string `json:"title"`
	Read  string `json:"read"`
	Items string `json:"items"`
}

// Answer carries out one call and returns its answer as JSON:
//
//	show     file                                     the file and its entries
//	open     text, today                              the same of a loaded file
//	merge    file, text, today                        the union of both
//	put      file, document, day, name, head, travel  the file with an entry more
//	         and key                                  ... in place of that entry
//	change   file, key, day, name, head, travel       the entry with other particulars
//	remove   file, key                                the file without the entry
//	keep     file, key                                without the others of its id
//	choices  file, lesson                             what a lesson can take
//	take     file, lesson, key                        a document for the lesson
//	share    file, document, today                    it with sizes and gauges filled in
//	card     file, today                              the card as HTML
//	shop                                              the action shop's file
//
// It never panics: a fault of our own comes back as a problem too.
func Answer(call string, request []byte) (text []byte) {
	defer func() {
		if fault := recover(); fault != nil {
			text = encode(failed(fmt.Errorf("this is a fault of the program, not of your file: %v; please save the file and report it", fault)))
		}
	}()
	var q Request
	if err := json.Unmarshal(request, &q); err != nil {
		return encode(failed(fmt.Errorf("the page asked what cannot be read: %w", err)))
	}
	file := &machine.File{}
	if q.File != "" {
		var problems []notebook.Problem
		if file, problems = machine.Read([]byte(q.File), ""); len(problems) > 0 {
			return encode(reply{Problems: problems})
		}
	}
	calls := map[string]func(*machine.File, Request) reply{
		"show": func(f *machine.File, _ Request) reply { return show(f) },
		"open": open, "merge": merge, "put": put, "change": change, "remove": remove, "keep": keep,
		"choices": choices, "take": take, "share": share, "card": card,
		"shop": func(*machine.File, Request) reply {
			f, err := workbench.ActionShop()
			if err != nil {
				return failed(err)
			}
			return show(f)
		},
	}
	carryOut, ok := calls[call]
	if !ok {
		return encode(failed(fmt.Errorf("there is no call %.40q", call)))
	}
	return encode(carryOut(file, q))
}

// failed is the reply that consists of one error.
func failed(err error) reply {
	var input *notebook.InputError
	if errors.As(err, &input) {
		return reply{Problems: input.Problems}
	}
	return reply{Problems: []notebook.Problem{{Message: err.Error()}}}
}

// encode returns the reply as JSON; its problems and entries are always lists.
func encode(r reply) []byte {
	if r.Problems == nil {
		r.Problems = []notebook.Problem{}
	}
	if r.Entries == nil {
		r.Entries = []shown{}
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(r); err != nil {
		return []byte(`{"problems":[{"message":"the answer cannot be written as JSON; please report it"}]}`)
	}
	return b.Bytes()
}

// open reads a file that is loaded in place of what is kept.
func open(_ *machine.File, q Request) reply {
	f, problems := machine.Read([]byte(q.Text), q.Today)
	if len(problems) > 0 {
		return reply{Problems: problems}
	}
	return show(f)
}

// merge joins another file to the one that is kept.
func merge(f *machine.File, q Request) reply {
	other, problems := machine.Read([]byte(q.Text), q.Today)
	if len(problems) > 0 {
		return reply{Problems: problems}
	}
	merged := machine.Merge(f, other)
	r := show(merged.File)
	r.Merged = &mergedText{Added: []string{}, Same: merged.Same, Conflicts: []string{}}
	for _, e := range merged.Added {
		r.Merged.Added = append(r.Merged.Added, titled(e)+", "+e.Day)
	}
	for _, id := range merged.Conflicts {
		for _, e := range merged.File.Entries {
			if e.ID == id {
				r.Merged.Conflicts = append(r.Merged.Conflicts, titled(e)+", "+e.Day)
				break
			}
		}
	}
	return r
}

// put adds an entry, or puts it in another's place, under that one's id.
func put(f *machine.File, q Request) reply {
	e, err := machine.FromDocument([]byte(q.Document), q.Day)
	if err == nil {
		e, err = e.Change(q.Day, q.Name, q.Head, q.Travel)
	}
	if err != nil {
		return failed(err)
	}
	if _, isRecord := machine.FindRecord(e.Of); isRecord {
		// A record has no page of its own on which a fault would show.
		alone, problems := machine.Read(e.Document(), q.Day)
		if len(problems) > 0 {
			return reply{Problems: problems}
		}
		if found := alone.Check(e.Document(), workbench.Fields); len(found) > 0 {
			return reply{Problems: found[0].Problems}
		}
	}
	done := "Put in"
	if q.Key != "" {
		old, ok := f.Find(q.Key)
		if !ok {
			return failed(errGone)
		}
		e = old.With(e)
		f, done = f.Remove(q.Key), "Changed"
	}
	f, e = f.Put(e)
	r := show(f)
	r.Key, r.Said = e.Key(), done+": "+titled(e)+", "+e.Day+"."
	return r
}

// errGone says that an entry is no longer there: another window took it out.
var errGone = errors.New("that entry is not in the file any more; it may have been changed in another window")

func change(f *machine.File, q Request) reply {
	e, ok := f.Find(q.Key)
	if !ok {
		return failed(errGone)
	}
	changed, err := e.Change(q.Day, q.Name, q.Head, q.Travel)
	if err != nil {
		return failed(err)
	}
	f, changed = f.Remove(q.Key).Put(changed)
	r := show(f)
	r.Key, r.Said = changed.Key(), "Changed: "+titled(changed)+", "+changed.Day+"."
	return r
}

func remove(f *machine.File, q Request) reply {
	e, ok := f.Find(q.Key)
	if !ok {
		return failed(errGone)
	}
	r := show(f.Remove(q.Key))
	r.Said = "Deleted: " + titled(e) + ", " + e.Day + "."
	return r
}

// keep takes out every other entry of the same id.
func keep(f *machine.File, q Request) reply {
	kept, ok := f.Find(q.Key)
	if !ok {
		return failed(errGone)
	}
	for _, e := range f.Entries {
		if e.ID == kept.ID && e.Key() != q.Key {
			f = f.Remove(e.Key())
		}
	}
	r := show(f)
	r.Said = "Kept one version: " + titled(kept) + ", " + kept.Day + "."
	return r
}

func choices(f *machine.File, q Request) reply {
	r := reply{Choices: []choice{}, Asks: workbench.Asks(q.Lesson)}
	for _, c := range workbench.Choices(f, q.Lesson) {
		r.Choices = append(r.Choices, choice{c.Key, c.Day, c.Title})
	}
	return r
}

func take(f *machine.File, q Request) reply {
	taken, err := workbench.Take(f, q.Lesson, q.Key)
	if err != nil {
		return failed(err)
	}
	return reply{Document: string(taken.Document), Used: taken.Used, Left: taken.Left}
}

func share(f *machine.File, q Request) reply {
	e, err := machine.FromDocument([]byte(q.Document), q.Today)
	if err != nil {
		return failed(err)
	}
	shared := workbench.Share(f, e, q.Today)
	return reply{Document: string(shared.Document), Used: shared.Used, Left: shared.Left}
}

func card(f *machine.File, q Request) reply {
	c, err := workbench.NewCard(f, q.Today)
	if err != nil {
		return failed(err)
	}
	text := &cardText{Title: c.Title, Read: c.Read}
	for _, item := range c.Sheet.Items {
		text.Items += render.Wrapped(item)
	}
	return reply{Card: text}
}
