package plating

// Which cause is likely for what is seen on a plated part. Every cause starts
// with a weight that is a rule of the trade, and each circumstance that is known
// multiplies it: by four when it points to the cause, by a quarter when it
// speaks against it. The shares are the weights over their sum. They order what
// to look at first; they are not measured probabilities.

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/unit"
)

// Defect is what is seen on a part.
type Defect string

// The defects, named by what is seen.
const (
	BurntCorners  Defect = "dark, rough corners and edges"
	RoundPits     Defect = "round, shiny pits, most on upper faces"
	RaggedPits    Defect = "ragged pits with dirt in them"
	PeelsFromBase Defect = "peels, the metal below is bare"
	PeelsInLayers Defect = "peels, nickel from nickel"
	DullRecess    Defect = "dull or dark band in a recess"
	Haze          Defect = "grey haze all over"
	RoughShelf    Defect = "roughness on upward faces"
	ThreadTight   Defect = "nut or pin too tight"
	CoatThin      Defect = "coat thinner than worked out"
)

// Defects returns all defects.
func Defects() []Defect {
	return []Defect{BurntCorners, RoundPits, RaggedPits, PeelsFromBase, PeelsInLayers, DullRecess, Haze, RoughShelf, ThreadTight, CoatThin}
}

// Answer is what is known of a yes-or-no question.
type Answer string

// The answers; the zero value is not known.
const (
	NotKnown Answer = ""
	Yes      Answer = "yes"
	No       Answer = "no"
)

// Circumstances are what is known of the run. A zero value is not known.
type Circumstances struct {
	// Mean is the mean current density, Thickest the share at the thickest
	// place, Burns the current density at which the bath burns.
	Mean     CurrentDensity
	Thickest float64
	Burns    CurrentDensity
	// Bath is the temperature of the bath, PH its pH.
	Bath unit.Temperature
	PH   float64
	// Nickel and Boric are the concentrations of nickel metal and boric acid.
	Nickel, Boric Concentration
	// Interrupted says whether the current was lost for a time, Stirred whether
	// bath or work moved, Bagged whether the anodes are in bags, Purged whether
	// the bath had a low-current purge lately, Activated whether the base metal
	// was activated just before.
	Interrupted, Stirred, Bagged, Purged, Activated Answer
	// Mean thickness times its share on the place that has to fit, and the
	// allowance left for it on the diameter or pitch diameter, with the growth
	// factor of the feature (2 or 4).
	Local, Allowance unit.Length
	GrowthFactor     float64
	// Weighed is the efficiency found by weighing, Counted the one that the
	// setting counted on.
	Weighed, Counted float64
}

// Cause is a likely cause of a defect.
type Cause struct {
	Name string
	// Share is its weight over all causes of the defect.
	Share float64
	// For and Against are the known circumstances that point to it or speak
	// against it, in words.
	For, Against []string
	// Test tells it from the others; Remedy is what to do when it is so.
	Test, Remedy string
}

// The factors by which a circumstance changes a cause's weight.
const (
	pointsTo      = 4.0
	speaksAgainst = 0.25
)

// evidence says whether a circumstance points to a cause (positive), against it
// (negative) or is not known (zero), and how it is put in words.
type evidence struct {
	sign  int
	words string
}

// rule is a cause of a defect as it stands in the table.
type rule struct {
	defect       Defect
	name         string
	weight       float64 // of ten, by the rule of the trade
	test, remedy string
	evidence     []evidence
}

// Causes returns the causes of a defect, the likeliest first, with shares that
// sum to 1. Unknown defects and values that are negative or not finite are
// errors. Change one thing at a time, the first on the list first.
func Causes(d Defect, c Circumstances) ([]Cause, error) {
	if err := c.validate(); err != nil {
		return nil, err
	}
	var causes []Cause
	sum := 0.0
	for _, r := range c.rules() {
		if r.defect != d {
			continue
		}
		cause := Cause{Name: r.name, Share: r.weight, Test: r.test, Remedy: r.remedy}
		for _, e := range r.evidence {
			switch {
			case e.sign > 0:
				cause.Share *= pointsTo
				cause.For = append(cause.For, e.words)
			case e.sign < 0:
				cause.Share *= speaksAgainst
				cause.Against = append(cause.Against, e.words)
			}
		}
		sum += cause.Share
		causes = append(causes, cause)
	}
	if len(causes) == 0 {
		return nil, fmt.Errorf("plating: defect %q is not one of the table", string(d))
	}
	for i := range causes {
		causes[i].Share /= sum
	}
	sort.SliceStable(causes, func(i, j int) bool { return causes[i].Share > causes[j].Share })
	return causes, nil
}

// validate returns an error for a value that cannot be.
func (c Circumstances) validate() error {
	return firstError(
		notNegative("mean current density", float64(c.Mean), inAPerDM2),
		notNegative("share of the thickest place", c.Thickest, inPlain),
		notNegative("current density at which the bath burns", float64(c.Burns), inAPerDM2),
		notNegative("temperature of the bath", float64(c.Bath), shown{"K", 1}),
		notNegative("pH", c.PH, inPlain),
		notNegative("nickel", float64(c.Nickel), inGramPerLitre),
		notNegative("boric acid", float64(c.Boric), inGramPerLitre),
		notNegative("local thickness", float64(c.Local), inMicrometre),
		notNegative("allowance", float64(c.Allowance), inMicrometre),
		notNegative("growth factor", c.GrowthFactor, inPlain),
		notNegative("weighed efficiency", c.Weighed, inPlain),
		notNegative("counted efficiency", c.Counted, inPlain),
	)
}

// above returns evidence for a value above a limit and against one well below
// it; in between it says nothing. The value zero is not known.
func above(value, limit, wellBelow float64, high, low string) evidence {
	switch {
	case value == 0:
		return evidence{}
	case value > limit:
		return evidence{1, high}
	case value < wellBelow:
		return evidence{-1, low}
	}
	return evidence{}
}

// under is the mirror of above: evidence for a value below a limit, against one
// well above it.
func under(value, limit, wellAbove float64, low, high string) evidence {
	e := above(-value, -limit, -wellAbove, low, high)
	if value == 0 {
		return evidence{}
	}
	return e
}

// when returns evidence for an answer and against its opposite.
func when(given, wanted Answer, yes, no string) evidence {
	switch given {
	case NotKnown:
		return evidence{}
	case wanted:
		return evidence{1, yes}
	}
	return evidence{-1, no}
}

// peak returns the current density at the thickest place, zero when it is not
// known.
func (c Circumstances) peak() float64 {
	return float64(c.Mean) * math.Max(1, c.Thickest)
}

// celsius returns the bath's temperature in degrees Celsius, zero when it is not
// known.
func (c Circumstances) celsius() float64 {
	if c.Bath == 0 {
		return 0
	}
	return float64(c.Bath) - 273.15
}
