package workbench

import (
	"strings"

	"example.org/thouspan/internal/machine"
)

// fact is something of the machine, a gauge or the bath that lessons ask for.
type fact struct {
	// record and field name it; use is the gauge's use, empty for other records.
	record, use, field string
	// lessons lists where it is asked for: "sweep.radius fiveplaces.radius".
	lessons string
}

// facts lists what lessons share.
func facts() []fact {
	gauge := func(use, field, lessons string) fact {
		return fact{machine.RecordGauge, use, field, lessons}
	}
	return []fact{
		gauge(machine.GaugeSweep, "division", "sweep.division fiveplaces.division"),
		gauge(machine.GaugeSweep, "read-to", "sweep.read-to"),
		gauge(machine.GaugeSweep, "gain", "sweep.gain survey.gain"),
		gauge(machine.GaugeSweep, "gain-u", "sweep.gain-u"),
		gauge(machine.GaugeSweep, "hysteresis", "sweep.hysteresis"),
		gauge(machine.GaugeSweep, "arm", "sweep.radius fiveplaces.radius survey.radius"),
		gauge(machine.GaugeFirst, "division", "twodials.division"),
		gauge(machine.GaugeFirst, "read-to", "twodials.read-to"),
		gauge(machine.GaugeFirst, "gain", "twodials.first-gain"),
		gauge(machine.GaugeFirst, "gain-u", "twodials.first-gain-u"),
		gauge(machine.GaugeFirst, "hysteresis", "twodials.first-hysteresis"),
		gauge(machine.GaugeFirst, "arm", "twodials.span setoff.span survey.span"),
		gauge(machine.GaugeSecond, "gain", "twodials.second-gain"),
		gauge(machine.GaugeSecond, "gain-u", "twodials.second-gain-u"),
		gauge(machine.GaugeSecond, "hysteresis", "twodials.second-hysteresis"),
		gauge(machine.GaugeFine, "step", "square.step jaw.step setoff.step groundbar.step threelines.step fiveplaces.run-step"),
		gauge(machine.GaugeLevel, "level-division", "bubble.division depthmotion.division longrail.division viseplace.division survey.division"),
		gauge(machine.GaugeLevel, "read-to", "bubble.read-to depthmotion.read-to longrail.read-to viseplace.read-to"),
		gauge(machine.GaugeBar, "length", "groundbar.length"),
		gauge(machine.GaugeMike, "step", "skimmedbar.step"),
		gauge(machine.GaugeScale, "scale-step", "scale.scale-step amps.scale-step skin.scale-step"),
		{machine.RecordMachine, "", "place", "survey.place longrail.place viseplace.now"},
		{machine.RecordMachine, "", "bearing", "survey.bearing bubble.bearing pockets.bearing depthmotion.bearing longrail.bearing viseplace.bearing"},
		{machine.RecordMachine, "", "apart", "pockets.apart depthmotion.apart oilline.apart"},
		{machine.RecordMachine, "", "table", "viseplace.table"},
		{machine.RecordBath, "", "volume", "threelitres.volume process.volume"},
		{machine.RecordBath, "", "sulfate", "threelitres.sulfate"},
		{machine.RecordBath, "", "chloride", "threelitres.chloride"},
		{machine.RecordBath, "", "boric", "threelitres.boric defects.boric"},
		{machine.RecordBath, "", "nickel", "threelitres.nickel defects.nickel baking.nickel"},
		{machine.RecordBath, "", "ph", "defects.ph"},
	}
}

// Shared is a lesson's inputs with what the file knows of machine, gauges and
// bath filled in.
type Shared struct {
	Document []byte
	// Used says, a line each, what was filled in and from which record.
	Used []string
	// Left says what the file knows but the lesson's form does not take.
	Left []string
}

// Share fills in what a lesson asks for and the file's records say, the newest
// that are not later than the day; the rest of the entry's inputs stays.
func Share(f *machine.File, e machine.Entry, day string) Shared {
	in := inputsOf(e.Inputs)
	filled, left := fill(f, e.Of, &in, day)
	e.Inputs = in.raw()
	shared := Shared{Document: e.Document(), Left: left}
	for _, from := range filled {
		shared.Used = append(shared.Used, from.line)
	}
	return shared
}

// filled is a field that was filled in, with its value and a line that says from
// where.
type filled struct {
	field, value, line string
}

// fill sets the shared fields of a lesson's inputs; left says, a line each, what
// the lesson's form does not take.
func fill(f *machine.File, slug string, in *inputs, day string) (used []filled, left []string) {
	fields, _ := Fields(slug)
	label := map[string]string{}
	for _, field := range fields {
		label[field.Name] = field.Label
	}
	for _, fact := range facts() {
		for _, place := range strings.Fields(fact.lessons) {
			lesson, field, _ := strings.Cut(place, ".")
			if lesson != slug {
				continue
			}
			e, value := fact.find(f, day)
			if value == "" {
				continue
			}
			line := label[field] + ": " + value + ", from " + said(e)
			if !fits(fields, field, quoted(value)) {
				left = append(left, line)
				continue
			}
			in.setText(field, value)
			used = append(used, filled{field, value, line})
		}
	}
	return used, left
}

// find returns the newest record that tells the fact, and the value as typed.
func (k fact) find(f *machine.File, day string) (machine.Entry, string) {
	for _, e := range f.Of(k.record) {
		in := inputsOf(e.Inputs)
		if day != "" && e.Day > day || k.use != "" && in.text("use") != k.use {
			continue
		}
		if value := strings.TrimSpace(in.text(k.field)); value != "" {
			return e, value
		}
	}
	return machine.Entry{}, ""
}

// said names an entry in words: "gauge A, lever of 2025-05-24", "sweep “before
// the crash” of 2024-11-02".
func said(e machine.Entry) string {
	if !isRecord(e.Of) {
		if e.Name == "" {
			return e.Of + " of " + e.Day
		}
		return e.Of + " “" + e.Name + "” of " + e.Day
	}
	name := e.Name
	if name == "" {
		name = inputsOf(e.Inputs).text("name")
	}
	return strings.TrimSpace(e.Of+" "+name) + " of " + e.Day
}

func isRecord(of string) bool {
	_, ok := machine.FindRecord(of)
	return ok
}
