// Package examples lists the lessons, in teaching order.
package examples

import (
	"example.org/thouspan/examples/allowance"
	"example.org/thouspan/examples/amps"
	"example.org/thouspan/examples/baking"
	"example.org/thouspan/examples/bestplace"
	"example.org/thouspan/examples/bubble"
	"example.org/thouspan/examples/corners"
	"example.org/thouspan/examples/crosseffect"
	"example.org/thouspan/examples/current"
	"example.org/thouspan/examples/defects"
	"example.org/thouspan/examples/depthmotion"
	"example.org/thouspan/examples/diagonals"
	"example.org/thouspan/examples/dial"
	"example.org/thouspan/examples/facetilt"
	"example.org/thouspan/examples/fiveplaces"
	"example.org/thouspan/examples/fiveyears"
	"example.org/thouspan/examples/gib"
	"example.org/thouspan/examples/groundbar"
	"example.org/thouspan/examples/holelands"
	"example.org/thouspan/examples/jaw"
	"example.org/thouspan/examples/longrail"
	"example.org/thouspan/examples/lostmotion"
	"example.org/thouspan/examples/oilline"
	"example.org/thouspan/examples/order"
	"example.org/thouspan/examples/panel"
	"example.org/thouspan/examples/plate"
	"example.org/thouspan/examples/pockets"
	"example.org/thouspan/examples/process"
	"example.org/thouspan/examples/scale"
	"example.org/thouspan/examples/scraping"
	"example.org/thouspan/examples/setoff"
	"example.org/thouspan/examples/sinebar"
	"example.org/thouspan/examples/sixfaces"
	"example.org/thouspan/examples/skimmedbar"
	"example.org/thouspan/examples/skin"
	"example.org/thouspan/examples/solid"
	"example.org/thouspan/examples/square"
	"example.org/thouspan/examples/stoprule"
	"example.org/thouspan/examples/survey"
	"example.org/thouspan/examples/sweep"
	"example.org/thouspan/examples/thousandth"
	"example.org/thouspan/examples/threelines"
	"example.org/thouspan/examples/threelitres"
	"example.org/thouspan/examples/threeplates"
	"example.org/thouspan/examples/threesquares"
	"example.org/thouspan/examples/twodials"
	"example.org/thouspan/examples/usehours"
	"example.org/thouspan/examples/viseplace"
	"example.org/thouspan/examples/warmarm"
	"example.org/thouspan/internal/notebook"
)

// Lessons returns every lesson, in the order in which the book teaches them.
func Lessons() []notebook.Lesson {
	return []notebook.Lesson{
		thousandth.Lesson(),
		sinebar.Lesson(),
		dial.Lesson(),
		warmarm.Lesson(),
		threesquares.Lesson(),
		sweep.Lesson(),
		fiveplaces.Lesson(),
		twodials.Lesson(),
		crosseffect.Lesson(),
		setoff.Lesson(),
		stoprule.Lesson(),
		square.Lesson(),
		jaw.Lesson(),
		facetilt.Lesson(),
		sixfaces.Lesson(),
		bubble.Lesson(),
		threelines.Lesson(),
		groundbar.Lesson(),
		skimmedbar.Lesson(),
		pockets.Lesson(),
		depthmotion.Lesson(),
		longrail.Lesson(),
		viseplace.Lesson(),
		usehours.Lesson(),
		oilline.Lesson(),
		fiveyears.Lesson(),
		lostmotion.Lesson(),
		gib.Lesson(),
		threeplates.Lesson(),
		scraping.Lesson(),
		plate.Lesson(),
		diagonals.Lesson(),
		amps.Lesson(),
		skin.Lesson(),
		scale.Lesson(),
		corners.Lesson(),
		current.Lesson(),
		solid.Lesson(),
		panel.Lesson(),
		allowance.Lesson(),
		threelitres.Lesson(),
		defects.Lesson(),
		baking.Lesson(),
		process.Lesson(),
		survey.Lesson(),
		bestplace.Lesson(),
		holelands.Lesson(),
		order.Lesson(),
	}
}

// Find returns the lesson with the given slug, and whether there is one.
func Find(slug string) (notebook.Lesson, bool) {
	for _, lesson := range Lessons() {
		if lesson.Slug == slug {
			return lesson, true
		}
	}
	return notebook.Lesson{}, false
}
