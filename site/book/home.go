package book

import (
	"html/template"

	"example.org/thouspan/internal/notebook"
)

// homeData fills the home page.
type homeData struct {
	// Tracks are the chapters that have lessons, in order.
	Tracks []trackData
	// Hero is the drawing of one thousandth over three spans.
	Hero template.HTML
	// Checks is how many published values the pages are checked against.
	Checks int
}

// trackData is a chapter with its lessons.
type trackData struct {
	Track   notebook.Track
	Lessons []notebook.About
}

// homePage returns the first page: what this is, and the questions that lead
// to the lessons.
func (in Input) homePage(worked []workedLesson) ([]byte, error) {
	data := homeData{Hero: template.HTML(spanDrawing())}
	for _, track := range notebook.Tracks() {
		t := trackData{Track: track}
		for _, w := range worked {
			if w.Track == track {
				t.Lessons = append(t.Lessons, w.About)
			}
		}
		if len(t.Lessons) > 0 {
			data.Tracks = append(data.Tracks, t)
		}
	}
	for _, w := range worked {
		data.Checks += len(w.sheet.Checks())
	}
	return in.frame(frameData{Title: "Thouspan", Root: "", Body: "home", Data: data,
		Description: "What an old knee mill does now, how sure that is, what the next part will measure, and the amps and minutes for its nickel: computed on the page from your own readings."})
}
