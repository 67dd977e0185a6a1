//go:build js && wasm

// Command live is the browser's way into the lessons. It sets one global,
// thouspan, and waits:
//
//	thouspan.lessons                            the slugs of the lessons, in order
//	thouspan.work(slug, text, system, charts)   the answer to an input document, as JSON;
//	                                            with the options of the charts named (with
//	                                            commas between) in the system of units
//	thouspan.drill(slug, name, seed)            an exercise drawn anew, as JSON
//	thouspan.mark(slug, name, seed, typed)      a typed answer to it marked, as JSON
//	thouspan.machine(call, request)             a call of the reader's own machine, as
//	                                            JSON: see package desk
//
// It runs in a worker, so that a page never stands still while it computes.
package main

import (
	"fmt"
	"runtime/debug"
	"slices"
	"strings"
	"syscall/js"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/desk"
	"example.org/thouspan/site/render"
)

func main() {
	// The heap is small and there is one thread: collecting at every doubling
	// would take a third of each answer's time.
	debug.SetGCPercent(500)
	debug.SetMemoryLimit(256 << 20)
	lessons := examples.Lessons()
	slugs := make([]any, len(lessons))
	for i, l := range lessons {
		slugs[i] = l.Slug
	}
	js.Global().Set("thouspan", map[string]any{
		"lessons": slugs,
		"work": js.FuncOf(func(_ js.Value, args []js.Value) any {
			return string(work(args))
		}),
		"drill": js.FuncOf(func(_ js.Value, args []js.Value) any {
			return string(drill(args))
		}),
		"mark": js.FuncOf(func(_ js.Value, args []js.Value) any {
			return string(mark(args))
		}),
		"machine": js.FuncOf(func(_ js.Value, args []js.Value) any {
			if len(args) != 2 || args[0].Type() != js.TypeString || args[1].Type() != js.TypeString {
				return string(render.AnswerProblem("machine takes a call and a request, both text"))
			}
			return string(desk.Answer(args[0].String(), []byte(args[1].String())))
		}),
	})
	select {}
}

// work answers one call from the browser.
func work(args []js.Value) []byte {
	if len(args) != 4 || slices.ContainsFunc(args, func(v js.Value) bool { return v.Type() != js.TypeString }) {
		return render.AnswerProblem("work takes a lesson's name, an input document, a system of units and the charts to draw, all text")
	}
	drawn := render.Drawn{Charts: strings.Split(args[3].String(), ",")}
	if args[2].String() == notebook.Inch.String() {
		drawn.System = notebook.Inch
	}
	slug := args[0].String()
	if lesson, ok := examples.Find(slug); ok {
		return render.Answer(lesson, []byte(args[1].String()), drawn)
	}
	var known []string
	for _, l := range examples.Lessons() {
		known = append(known, l.Slug)
	}
	message := fmt.Sprintf("there is no lesson %q", slug)
	if near := notebook.Nearest(slug, known); len(near) > 0 {
		message += "; did you mean " + strings.Join(near, " or ") + "?"
	}
	return render.AnswerProblem(message)
}

// drill draws an exercise anew: (slug, name, seed).
func drill(args []js.Value) []byte {
	if len(args) != 3 || !drillArguments(args) {
		return []byte(`{"problem":"drill takes a lesson's name, an exercise's name and a number"}`)
	}
	return render.Drill(lessonOf(args[0].String()), args[1].String(), args[2].Int())
}

// mark marks an answer: (slug, name, seed, typed).
func mark(args []js.Value) []byte {
	if len(args) != 4 || !drillArguments(args) || args[3].Type() != js.TypeString {
		return []byte(`{"problem":"mark takes a lesson's name, an exercise's name, a number and an answer"}`)
	}
	return render.Mark(lessonOf(args[0].String()), args[1].String(), args[2].Int(), args[3].String())
}

// drillArguments reports whether the arguments begin with two texts and a
// number.
func drillArguments(args []js.Value) bool {
	return args[0].Type() == js.TypeString && args[1].Type() == js.TypeString && args[2].Type() == js.TypeNumber
}

// lessonOf returns the lesson of that name, or one without exercises.
func lessonOf(slug string) notebook.Lesson {
	if lesson, ok := examples.Find(slug); ok {
		return lesson
	}
	return notebook.Lesson{About: notebook.About{Slug: slug}}
}
