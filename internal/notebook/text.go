package notebook

import (
	"fmt"
	"strings"
)

// Span is a piece of a sentence: words, or a quantity shown in the reader's
// units.
type Span struct {
	Words    string
	Quantity *Quantity
	// WithU asks for the quantity's standard uncertainty to be shown too.
	WithU bool
}

// Text is a sentence with quantities in it.
type Text []Span

// Say builds a sentence: each {} in the pattern is replaced by the next
// quantity, and each {u} by the next quantity with its standard uncertainty.
// It panics when their numbers differ, which only our own code can cause.
func Say(pattern string, quantities ...Quantity) Text {
	var text Text
	rest := pattern
	for _, q := range quantities {
		at := strings.IndexByte(rest, '{')
		end := strings.IndexByte(rest, '}')
		if at < 0 || end < at {
			panic(fmt.Sprintf("notebook: %q has fewer places than its %d quantities", pattern, len(quantities)))
		}
		if at > 0 {
			text = append(text, Span{Words: rest[:at]})
		}
		value := q
		text = append(text, Span{Quantity: &value, WithU: rest[at+1:end] == "u"})
		rest = rest[end+1:]
	}
	if strings.Contains(rest, "{}") || strings.Contains(rest, "{u}") {
		panic(fmt.Sprintf("notebook: %q has more places than its %d quantities", pattern, len(quantities)))
	}
	if rest != "" {
		text = append(text, Span{Words: rest})
	}
	return text
}

// Plain returns a sentence of words alone, braces and all.
func Plain(words string) Text {
	if words == "" {
		return nil
	}
	return Text{{Words: words}}
}

// And returns the sentence followed by another, a space between them.
func (t Text) And(more Text) Text {
	if len(t) == 0 {
		return more
	}
	if len(more) == 0 {
		return t
	}
	joined := append(Text{}, t...)
	joined = append(joined, Span{Words: " "})
	return append(joined, more...)
}

// In returns the sentence as plain text in the given system of units.
func (t Text) In(s System) string {
	var b strings.Builder
	for _, span := range t {
		switch {
		case span.Quantity == nil:
			b.WriteString(span.Words)
		case span.WithU:
			b.WriteString(span.Quantity.In(s).Full())
		default:
			b.WriteString(span.Quantity.In(s).String())
		}
	}
	return b.String()
}
