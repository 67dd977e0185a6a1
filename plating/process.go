package plating

// The process sheet: what is done to a part from the first wash to the last
// look, in order, with the figures that this package computes and those that the
// trade uses, each marked as known.

import (
	"fmt"

	"gonum.org/v1/gonum/unit"
)

// BaseMetal is what the part is made of.
type BaseMetal string

// The base metals.
const (
	BaseBrass         BaseMetal = "brass"
	BaseCopper        BaseMetal = "copper"
	BaseMildSteel     BaseMetal = "mild steel"
	BaseHardenedSteel BaseMetal = "hardened steel"
	BaseCastZinc      BaseMetal = "cast zinc alloy"
)

// BaseMetals returns the base metals.
func BaseMetals() []BaseMetal {
	return []BaseMetal{BaseBrass, BaseCopper, BaseMildSteel, BaseHardenedSteel, BaseCastZinc}
}

// StepKind is what a step of the process does.
type StepKind string

// The kinds of step, in the order of work. Rinse comes after each wet step.
const (
	StepInspect  StepKind = "inspect"
	StepRelieve  StepKind = "relieve"
	StepClean    StepKind = "clean"
	StepRinse    StepKind = "rinse"
	StepActivate StepKind = "activate"
	StepStrike   StepKind = "strike"
	StepPlate    StepKind = "plate"
	StepDry      StepKind = "dry"
	StepBake     StepKind = "bake"
)

// Step is one step of a process sheet. A figure of zero is not stated.
type Step struct {
	Kind StepKind
	// What is done, and Why.
	What, Why string
	// TimeFrom and TimeTo bound the time; they are equal for a computed one, and
	// TimeTo is zero when the time is a least one.
	TimeFrom, TimeTo unit.Time
	// TemperatureFrom and TemperatureTo bound the temperature.
	TemperatureFrom, TemperatureTo unit.Temperature
	// CurrentFrom and CurrentTo bound the current for the whole load; they are
	// equal for a setting.
	CurrentFrom, CurrentTo unit.Current
	// Known says how the figures are known and Source where they are from.
	Known  Known
	Source string
	// Caution says what can hurt someone at this step; empty when nothing does.
	Caution string
	// Licensed is true for a step that belongs in licensed practice.
	Licensed bool
}

// Job is what a process sheet is written for.
type Job struct {
	Base BaseMetal
	// RockwellC is the hardness of hardened steel, of its surface when
	// SurfaceHardened is set. It is not used for the other metals.
	RockwellC       float64
	SurfaceHardened bool
	// Plan is the nickel that is wanted.
	Plan Plan
	// Bath is the temperature of the nickel bath, above zero.
	Bath unit.Temperature
}

// ProcessSheet is the order of work for a job.
type ProcessSheet struct {
	// Refused says why the job is not done at this bench, empty when it is; there
	// are no steps then.
	Refused string
	Steps   []Step
	// Setting and Bake are those of the steps plate and bake; a bake that is not
	// needed is in no step.
	Setting Setting
	Bake    Bake
}

// ProcessFor returns the process sheet of a job. Cast zinc alloy is refused: an
// acid nickel bath eats it, and the copper strike that would have to come first
// is as a rule a cyanide bath, which is for licensed plants. So is steel beyond
// the end of the bake table. It returns an error for an unknown base metal, a
// hardness out of range, a bath that is not a bath's temperature, or a plan
// without a setting.
func ProcessFor(job Job) (ProcessSheet, error) {
	if !(job.Bath > Celsius(0) && job.Bath < Celsius(100)) {
		return ProcessSheet{}, fmt.Errorf("plating: bath is at %.4g degrees Celsius, must be above 0 and below 100", float64(job.Bath)-273.15)
	}
	setting, err := job.Plan.Setting()
	if err != nil {
		return ProcessSheet{}, err
	}
	sheet := ProcessSheet{Setting: setting}
	switch job.Base {
	case BaseBrass, BaseCopper, BaseMildSteel:
	case BaseCastZinc:
		sheet.Refused = "acid nickel eats cast zinc, and the copper strike that has to come first is as a rule a cyanide bath: that is work for a licensed plater"
		return sheet, nil
	case BaseHardenedSteel:
		if !(job.RockwellC >= 20 && job.RockwellC <= 80) {
			return ProcessSheet{}, fmt.Errorf("plating: hardness of hardened steel is %.4g HRC, must be 20 to 80", job.RockwellC)
		}
		if sheet.Bake, err = BakeForHardness(job.RockwellC); err != nil {
			sheet.Refused = "steel this hard lies beyond the bake table, which ends at 51 HRC: it is not plated without a specialist's word"
			return sheet, nil
		}
	default:
		return ProcessSheet{}, fmt.Errorf("plating: base metal %q is not known, must be one of %q", job.Base, BaseMetals())
	}
	sheet.Steps = job.steps(sheet)
	return sheet, nil
}

// steps returns the steps in the order of work.
func (job Job) steps(sheet ProcessSheet) []Step {
	steps := []Step{inspectStep()}
	if job.Base == BaseHardenedSteel && StressReliefNeeded(job.RockwellC, job.SurfaceHardened) {
		steps = append(steps, relieveStep())
	}
	steps = append(steps, cleanStep(), rinseStep("Look at the water: an unbroken film says clean. Where it breaks, clean again.", "grease keeps nickel off"),
		job.activateStep(), rinseStep("Short and at once into the next bath.", "acid carried on upsets the bath, and bare metal tarnishes"))
	if job.Base == BaseHardenedSteel {
		steps = append(steps, job.strikeStep(), rinseStep("Short, without drying.", "hydrochloric acid stays out of the nickel bath"))
	}
	steps = append(steps, job.plateStep(sheet.Setting), dragOutStep(), rinseStep("Twice, the last in clean water.", "salt left on the skin of the work is what the buyer touches"), dryStep())
	if sheet.Bake.Needed {
		steps = append(steps, bakeStep(sheet.Bake))
	}
	return append(steps, weighStep())
}

const minuteOf unit.Time = 60

func inspectStep() Step {
	return Step{Kind: StepInspect, What: "Break edges, stone off burrs, measure what has to fit, weigh the dry part, wire it.",
		Why: "nickel hides nothing and fits are lost here", Known: KnownPractice}
}

func relieveStep() Step {
	return Step{Kind: StepRelieve, What: "Have the stress relieved. How hot and how long depends on how it was tempered: ask who hardened it.",
		Why: "stressed hard steel cracks in acid and under nickel", Known: KnownRead, Source: "ISO 9587:2007, extract",
		Caution: "A wrong heat softens the part, which then fails in use.", Licensed: true}
}

func cleanStep() Step {
	return Step{Kind: StepClean, What: "Brush and soak in warm alkaline cleaner made for the metal, as its maker says.", Why: "grease keeps nickel off",
		TimeFrom: 2 * minuteOf, TimeTo: 10 * minuteOf, TemperatureFrom: Celsius(50), TemperatureTo: Celsius(70), Known: KnownPractice,
		Caution: "Hot lye blinds. Goggles and long gloves. Never let a chlorinated cleaner or bleach meet acid: chlorine."}
}

func rinseStep(what, why string) Step {
	return Step{Kind: StepRinse, What: "Rinse. " + what, Why: why, TimeFrom: minuteOf / 2, TimeTo: minuteOf, Known: KnownPractice}
}

// activateStep returns the dip in acid. Hard steel gets the shortest.
func (job Job) activateStep() Step {
	s := Step{Kind: StepActivate, What: "Dip in sulfuric acid, 5 to 10 % by volume, cold.", Why: "nickel takes hold of bare metal, not of oxide",
		TimeFrom: minuteOf / 4, TimeTo: minuteOf, TemperatureFrom: Celsius(15), TemperatureTo: Celsius(25), Known: KnownPractice,
		Caution: "Acid into water, never water into acid. Goggles, gloves, a draught. No acid near bleach or anything with cyanide."}
	if job.Base == BaseHardenedSteel {
		s.What = "Scour, then dip in the same acid for the shortest time that leaves it bright."
		s.Why = "acid drives hydrogen into hard steel"
		s.TimeFrom, s.TimeTo = 5, 15
	}
	return s
}

// strikeStep returns a Wood's strike for the load.
func (job Job) strikeStep() Step {
	area := float64(job.Plan.Area.Area)
	return Step{Kind: StepStrike, What: "Strike in acid nickel chloride (Wood's: 240 g/L nickel chloride, 40 g/L concentrated hydrochloric acid), nickel anodes.",
		Why: "nickel bites through the film on hard steel", TimeFrom: minuteOf / 2, TimeTo: 2 * minuteOf,
		TemperatureFrom: Celsius((70.0 - 32) / 1.8), TemperatureTo: Celsius((90.0 - 32) / 1.8),
		CurrentFrom: unit.Current(float64(10*AmperePerSquareFoot) * area), CurrentTo: unit.Current(float64(45*AmperePerSquareFoot) * area),
		Known: KnownRead, Source: "Products Finishing, question on Wood's strike; other texts print several times the current",
		Caution: "It gives off hydrochloric acid fume, and at any anode but nickel chlorine. Only under an extracted hood, by someone trained.", Licensed: true}
}

// plateStep returns the nickel with its setting.
func (job Job) plateStep(s Setting) Step {
	what := "Hang in the nickel bath and switch on; look that gas and current are as they were last time."
	if job.Base == BaseBrass || job.Base == BaseCopper {
		what = "Hang in the nickel bath with the current already on; leave it on to the end."
	}
	return Step{Kind: StepPlate, What: what, Why: "the coat; a break in the current makes nickel peel from nickel",
		TimeFrom: s.Time, TimeTo: s.Time, TemperatureFrom: job.Bath, TemperatureTo: job.Bath, CurrentFrom: s.Current, CurrentTo: s.Current,
		Known: KnownComputed, Source: "Faraday's law, from the area, thickness and efficiency given",
		Caution: "Nickel salts sensitise the skin for life and mist causes cancer when breathed in. Gloves, goggles, lid ajar under a draught, no flame: hydrogen comes off."}
}

func dragOutStep() Step {
	return Step{Kind: StepRinse, What: "Drain over the tank, then dip in the still rinse.", Why: "this water tops up the bath, so the nickel comes back",
		TimeFrom: 10, TimeTo: 20, Known: KnownPractice, Caution: "Rinse water holds nickel. Not down the drain: your local rules say where."}
}

func dryStep() Step {
	return Step{Kind: StepDry, What: "Blot, then warm air.", Why: "water stains, and weighs", TimeFrom: 5 * minuteOf, TimeTo: 15 * minuteOf,
		TemperatureFrom: Celsius(40), TemperatureTo: Celsius(80), Known: KnownPractice}
}

func bakeStep(b Bake) Step {
	return Step{Kind: StepBake, What: fmt.Sprintf("Bake, beginning within %.3g h of leaving the bath. The time counts from when the part is hot.", float64(b.StartWithin)/3600),
		Why: "hydrogen leaves before it cracks the steel", TimeFrom: b.Least, TemperatureFrom: b.From, TemperatureTo: b.To, Known: KnownRead, Source: b.Source,
		Caution: "No bake guarantees that hard steel will not snap. Where a break can hurt someone, the standard and a specialist decide.", Licensed: true}
}

func weighStep() Step {
	return Step{Kind: StepInspect, What: "Cool, weigh, measure what has to fit, bend a witness strip, write it all down.",
		Why: "the gain proves the mean, the witness the hold", Known: KnownPractice,
		Caution: "Never grind, file or brush nickel dry: the dust is what the limits in air are about."}
}

// AtBench returns the longest time that the steps before the bake take, for
// those that state one: a time to plan by.
func (s ProcessSheet) AtBench() unit.Time {
	total := unit.Time(0)
	for _, step := range s.Steps {
		if step.Kind != StepBake {
			total += max(step.TimeFrom, step.TimeTo)
		}
	}
	return total
}
