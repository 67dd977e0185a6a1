//go:build js && wasm

// Command live is the browser's way into the lessons. It sets one global,
// thouspan, and waits:
//
//	thouspan.lessons             the slugs of the lessons, in order
//	thouspan.work(slug, text)    the answer to an input document, as JSON
//
// It runs in a worker, so that a page never stands still while it computes.
package main

import (
	"fmt"
	"strings"
	"syscall/js"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/render"
)

func main() {
	lessons := examples.Lessons()
	slugs := make([]any, len(lessons))
	for i, l := range lessons {
		slugs[i] = l.Slug
	}
	js.Global().Set("thouspan", map[string]any{
		"lessons": slugs,
		"work": js.FuncOf(func(_ js.Value, args []js.Value) any {
			return string(work(lessons, args))
		}),
	})
	select {}
}

// work answers one call from the browser.
func work(lessons []notebook.Lesson, args []js.Value) []byte {
	if len(args) != 2 || args[0].Type() != js.TypeString || args[1].Type() != js.TypeString {
		return render.AnswerProblem("work takes a lesson's name and an input document, both text")
	}
	slug := args[0].String()
	known := make([]string, len(lessons))
	for i, l := range lessons {
		if l.Slug == slug {
			return render.Answer(l, []byte(args[1].String()))
		}
		known[i] = l.Slug
	}
	message := fmt.Sprintf("there is no lesson %q", slug)
	if near := notebook.Nearest(slug, known); len(near) > 0 {
		message += "; did you mean " + strings.Join(near, " or ") + "?"
	}
	return render.AnswerProblem(message)
}
