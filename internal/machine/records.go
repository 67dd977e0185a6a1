package machine

import (
	"example.org/thouspan/internal/notebook"
	"gonum.org/v1/gonum/unit"
)

// Record is a form for what is kept beside the lessons' readings.
type Record struct {
	// Name is what an entry is "of".
	Name string
	// Title heads it on a page; Help says what it is for.
	Title, Help string
	form        func() []notebook.Field
}

// The names of the records.
const (
	RecordMachine = "machine"
	RecordGauge   = "gauge"
	RecordBath    = "bath"
	RecordRun     = "run"
)

// Records returns the records, in the order in which they are shown.
func Records() []Record {
	return []Record{
		{RecordMachine, "The machine", "Its sizes, where you work, what work you promise and how often to read again.", machineForm},
		{RecordGauge, "A gauge", "What it reads to and what checking it gave. The lesson on dials finds gain and hysteresis.", gaugeForm},
		{RecordBath, "The bath", "What was made up, or found by analysis, on a day.", bathForm},
		{RecordRun, "A plated run", "One load, weighed before and after.", runForm},
	}
}

// Fields returns the record's form, empty but for what is common.
func (r Record) Fields() []notebook.Field { return r.form() }

// FindRecord returns the record of the given name, and whether there is one.
func FindRecord(name string) (Record, bool) {
	for _, r := range Records() {
		if r.Name == name {
			return r, true
		}
	}
	return Record{}, false
}

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

var (
	long = []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine = []notebook.Unit{notebook.Millimetre, notebook.Thou, notebook.Micrometre, notebook.InchUnit}
)

// maybe binds a length that may be left empty, from zero to the most.
func maybe(name, label, help string, units []notebook.Unit, most unit.Length) notebook.Field {
	return notebook.MeasureMaybe(name, new(*unit.Length), notebook.Spec{Label: label, Help: help, Units: units, Limits: notebook.Between(0, most)})
}

// place binds a place along the table that may be left empty.
func place(name, label, help string) notebook.Field {
	return notebook.MeasureMaybe(name, new(*unit.Length), notebook.Spec{Label: label, Help: help, Units: long, Limits: notebook.Between(-1500*mm, 1500*mm)})
}

// share binds a pure number that may be left empty.
func share(name, label, help string, lo, hi float64) notebook.Field {
	f := notebook.MeasureMaybe(name, new(*float64), notebook.Spec{Label: label, Help: help, Units: []notebook.Unit{notebook.One}, Limits: notebook.Between(lo, hi)})
	f.Kind = notebook.NumberField
	return f
}

// measured binds a measure in the given units that may be left empty.
func measured(name, label, help string, least, most float64, units ...notebook.Unit) notebook.Field {
	return notebook.MeasureMaybe(name, new(*float64), notebook.Spec{Label: label, Help: help, Units: units, Limits: notebook.Between(least, most)})
}

func words(name, label, help string) notebook.Field {
	return notebook.Words(name, new(string), notebook.Spec{Label: label, Help: help})
}

// The kinds of work for which the card says whether the machine is good.
const (
	JobStep  = "facing in passes: the step between them"
	JobFace  = "facing in one pass: the hollow"
	JobHole  = "hole by the quill: its lean"
	JobPart  = "part along the table: its bow"
	JobKnee  = "knee moved between two tools: the shift"
	jobsHelp = "For each the card says whether the machine is good for it now. Size: the step between passes; the width of the pass, with a cutter a third wider; the depth of the hole; the length of the part; the move of the knee."
)

// JobRow is one kind of work that the reader promises.
type JobRow struct {
	What, Kind      string
	Size, Tolerance unit.Length
}

// DueRow is how often a kind of reading is to be taken.
type DueRow struct {
	Reading string
	Months  float64
}

// Reading is a kind of reading that a machine's record can ask for again.
type Reading struct {
	// Name is what the record calls it.
	Name string
	// Of lists the lessons and records whose entries are such readings; Table is
	// the survey's table that holds them, empty for none.
	Of    []string
	Table string
}

// Readings returns the kinds of reading that can be asked for again.
func Readings() []Reading {
	return []Reading{
		{"sweep", []string{"sweep", "fiveplaces"}, "sweeps"}, {"sweep at several places", []string{"fiveplaces"}, "sweeps"},
		{"two-dial reversal", []string{"twodials"}, "gauge"}, {"level along the table", []string{"bubble", "longrail", "depthmotion"}, "level"},
		{"ground bar", []string{"groundbar"}, "bar"}, {"square on the knee", []string{"square"}, "knee"}, {"vise jaw", []string{"jaw"}, ""},
		{"diagonals", []string{"diagonals"}, ""}, {"oil pockets", []string{"pockets"}, ""}, {"dials on gauge blocks", []string{"dial"}, ""},
		{"weighed run", []string{"scale", RecordRun}, ""}, {"bath book", []string{"threelitres"}, ""},
	}
}

// Machine is the machine's record, as far as it is computed with.
type Machine struct {
	Name string
	// Place is the middle of the work on the table, right of the table's middle
	// positive; nil when it is not said.
	Place *unit.Length
	// Jobs are what the reader promises; Due is how often each kind of reading
	// is to be taken.
	Jobs []JobRow
	Due  []DueRow
}

// commonDue is how often readings are taken again unless the reader says
// otherwise: common practice.
func commonDue() []DueRow {
	return []DueRow{{"two-dial reversal", 6}, {"sweep at several places", 12}, {"level along the table", 12}, {"square on the knee", 12}, {"oil pockets", 24}, {"weighed run", 3}}
}

// MachineOn returns the newest machine's record that is not later than the day,
// and whether there is one; without one, the readings to take again are those
// of common practice. The error says what is wrong with the record.
func (f *File) MachineOn(day string) (Machine, bool, error) {
	m := Machine{Due: commonDue()}
	e, found := f.Newest(RecordMachine, day)
	if !found {
		return m, false, nil
	}
	r := notebook.NewReading(e.Inputs, MaxBytes)
	r.Inputs(notebook.Member{Value: e.Inputs}, m.form())
	if len(r.Problems) > 0 {
		return Machine{Due: commonDue()}, true, problemError(r.Problems)
	}
	return m, true, nil
}

func machineForm() []notebook.Field {
	m := Machine{Due: commonDue()}
	return m.form()
}

func (m *Machine) form() []notebook.Field {
	var names []string
	for _, r := range Readings() {
		names = append(names, r.Name)
	}
	return []notebook.Field{
		notebook.Words("name", &m.Name, notebook.Spec{Label: "Name of the machine", Help: "What you call it."}),
		notebook.MeasureMaybe("place", &m.Place, notebook.Spec{Label: "Place of the work on the table",
			Help: "The middle of the vise, right of the table's middle positive.", Units: long, Limits: notebook.Between(-1500*mm, 1500*mm)}),
		maybe("bearing", "Bearing length of the table on the saddle", "Along x, between the two places that carry the table.", long, 2000*mm),
		maybe("apart", "Ways apart", "Across, from the middle of the front way to the middle of the rear.", long, 2000*mm),
		maybe("travel", "Table travel", "From stop to stop.", long, 5000*mm),
		maybe("table", "Length of the table", "Of its ways.", long, 5000*mm),
		notebook.Rows("jobs", &m.Jobs, notebook.Spec{Label: "Work that you promise", Help: jobsHelp, MaxRows: 12}, func(r *JobRow) []notebook.Field {
			return []notebook.Field{
				notebook.Words("what", &r.What, notebook.Spec{Label: "Work", Help: "A name for it."}),
				notebook.Choice("kind", &r.Kind, notebook.Spec{Label: "What can go wrong", Help: "One a row.", Options: []string{JobStep, JobFace, JobHole, JobPart, JobKnee}}),
				notebook.Measure("size", &r.Size, notebook.Spec{Label: "Size", Help: "See above.", Units: long, Limits: notebook.AboveUpTo(0*mm, 2000*mm)}),
				notebook.Measure("tolerance", &r.Tolerance, notebook.Spec{Label: "Tolerance", Help: "What the work allows.", Units: []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre}, Limits: notebook.AboveUpTo(0*mm, 10*mm)}),
			}
		}),
		notebook.Rows("due", &m.Due, notebook.Spec{Label: "Readings to take again", Help: "How often is for you to say; the months given at first are common practice.", MaxRows: 20}, func(r *DueRow) []notebook.Field {
			return []notebook.Field{
				notebook.Choice("reading", &r.Reading, notebook.Spec{Label: "Reading", Help: "One a row.", Options: names}),
				notebook.Number("months", &r.Months, notebook.Spec{Label: "Every so many months", Help: "From the last one.", Limits: notebook.Between(0.25, 240.0)}),
			}
		}),
	}
}

// The uses of a gauge, by which lessons find what they need of it.
const (
	GaugeSweep  = "dial of the sweep"
	GaugeFirst  = "first dial of the two-dial gauge"
	GaugeSecond = "second dial of the two-dial gauge"
	GaugeFine   = "fine dial"
	GaugeLevel  = "level"
	GaugeBar    = "ground bar"
	GaugeMike   = "micrometer"
	GaugeScale  = "scale for weighing"
)

func gaugeForm() []notebook.Field {
	use := GaugeSweep
	return []notebook.Field{
		words("name", "Name of the gauge", "What is written on it: A, B, the fine one."),
		notebook.Choice("use", &use, notebook.Spec{Label: "Used as", Help: "By this the lessons find it.",
			Options: []string{GaugeSweep, GaugeFirst, GaugeSecond, GaugeFine, GaugeLevel, GaugeBar, GaugeMike, GaugeScale}}),
		maybe("division", "One division", "Of a dial or micrometer.", fine, 10*mm),
		measured("level-division", "One division of a level", "Engraved beside the vial.", 0, 0.01, notebook.MillimetrePerMetre, notebook.ArcSecond, notebook.ThouPerFoot, notebook.MicrometrePerMetre),
		maybe("step", "It is read to", "The smallest step that you read on a dial or micrometer.", fine, 10*mm),
		share("read-to", "Read to a fraction of a division", "0.5 when you read to half of one.", 0.01, 1),
		share("gain", "Gain", "What it shows for one unit of true height.", 0.5, 2),
		share("gain-u", "Standard uncertainty of the gain", "From the lesson on dials.", 0, 0.5),
		maybe("hysteresis", "Hysteresis", "Falling less rising, at one height.", fine, 10*mm),
		maybe("arm", "Radius or span", "From the spindle's centre to the stylus, or between the two dials.", long, 2000*mm),
		maybe("length", "Length of a bar", "Of a ground bar.", long, 5000*mm),
		measured("scale-step", "A scale reads to", "Its last digit.", 0, 1, notebook.Gram, notebook.Ounce),
	}
}

func bathForm() []notebook.Field {
	grams := []notebook.Unit{notebook.GramPerLitre}
	return []notebook.Field{
		words("name", "Name of the bath", "What you call it."),
		measured("volume", "Volume", "At working level.", 0, 10, notebook.Litre, notebook.USGallon),
		measured("sulfate", "Nickel sulfate, as hexahydrate", "As made up, or by analysis.", 0, 1000, grams...),
		measured("chloride", "Nickel chloride, hexahydrate", "As made up, or by analysis.", 0, 1000, grams...),
		measured("boric", "Boric acid", "As made up, or by analysis.", 0, 1000, grams...),
		measured("nickel", "Nickel metal", "By analysis.", 0, 1000, grams...),
		share("ph", "pH", "As measured.", 0, 14),
	}
}

func runForm() []notebook.Field {
	return []notebook.Field{
		words("part", "Load", "What was plated, and how many."),
		measured("area", "Area of the load", "All that is wet.", 0, 10, notebook.SquareCentimetre, notebook.SquareDecimetre, notebook.SquareInch),
		measured("current", "Current", "As read on the supply.", 0, 10000, notebook.Ampere),
		measured("time", "Time", "Under current.", 0, 1e7, notebook.Minute, notebook.Hour),
		measured("before", "Load before", "Weighed dry.", 0, 1000, notebook.Gram, notebook.Ounce),
		measured("after", "Load after", "Weighed dry.", 0, 1000, notebook.Gram, notebook.Ounce),
		measured("temperature", "Temperature of the bath", "At work.", 273.15, 373.15, notebook.Celsius, notebook.Fahrenheit),
		share("ph", "pH", "As measured.", 0, 14),
		words("looks", "Looks", "Even, burnt, pitted, dull."),
	}
}
