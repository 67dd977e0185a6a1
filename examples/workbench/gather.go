package workbench

// One survey out of the readings of several lessons. Head readings (sweeps, the
// two-dial gauge) are taken from the newest day that has any, since a head is
// turned between days; of the others, which see table, ways and knee, the newest
// of each kind counts.

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
)

// oldest is by how many days a reading of table, ways or knee may be older than
// the newest one of the survey: a year and a month, so that a yearly round
// holds together.
const oldest = 396

// Gathered is a lesson's inputs put together from several entries.
type Gathered struct {
	Document []byte
	// Entry is the one entry that the inputs are; nil when they are put together.
	Entry *machine.Entry
	// Day is that of the newest reading used; Head that of the head's readings,
	// empty when there are none.
	Day, Head string
	// Days are the newest days of the survey's tables of readings; nil when the
	// inputs are one entry's.
	Days map[string]string
	// Used says, a line each, which entries went in; Left which did not and why.
	Used, Left []string
}

// survey is a survey being gathered.
type survey struct {
	Gathered
	in inputs
	// tables are the survey's tables of readings, as far as they are found.
	tables map[string]grid
	radius string
}

// Survey gathers the survey lesson's inputs from the readings of the lessons
// that take one kind each, none later than the day; an empty day means any. It
// is an error when there is no such reading.
func Survey(f *machine.File, day string) (Gathered, error) {
	in, err := template("survey")
	if err != nil {
		return Gathered{}, err
	}
	s := &survey{in: in, tables: map[string]grid{}}
	s.Days = map[string]string{}
	s.in.setText("place", "0 mm") // mid-table, unless the machine's record says where
	filled, left := fill(f, "survey", &s.in, day)
	for _, e := range s.newestFirst(f, day) {
		for _, read := range sources()[e.Of] {
			read(s, e)
		}
	}
	if len(s.tables) == 0 {
		return Gathered{}, fmt.Errorf("there are no readings for a survey%s; it takes those of: %s", until(day), strings.Join(order(), ", "))
	}
	for _, table := range []string{"sweeps", "gauge", "run", "bar", "level", "skim", "knee"} {
		s.in.setGrid("survey", table, s.tables[table])
	}
	s.in.setText("setting", s.setting())
	for _, from := range filled {
		if s.in.text(from.field) == from.value { // the readings' own sizes come before
			s.Used = append(s.Used, from.line)
		}
	}
	s.Left = append(s.Left, left...)
	s.Document = machine.Entry{Of: "survey", InputsFormat: notebook.Format, Inputs: s.in.raw()}.Document()
	return s.Gathered, nil
}

func until(day string) string {
	if day == "" {
		return ""
	}
	return " up to " + day
}

// newestFirst returns the entries that a survey can take readings from.
func (s *survey) newestFirst(f *machine.File, day string) []machine.Entry {
	var list []machine.Entry
	for i := len(f.Entries) - 1; i >= 0; i-- {
		e := f.Entries[i]
		if sources()[e.Of] == nil || day != "" && e.Day > day || e.InputsFormat > notebook.Format {
			continue
		}
		if s.Day == "" {
			s.Day = e.Day
		}
		if daysBetween(e.Day, s.Day) > oldest {
			s.Left = append(s.Left, fmt.Sprintf("%s: more than %d days older than the newest reading", said(e), oldest))
			continue
		}
		list = append(list, e)
	}
	slices.SortStableFunc(list, func(a, b machine.Entry) int {
		return cmp.Or(strings.Compare(b.Day, a.Day), slices.Index(order(), a.Of)-slices.Index(order(), b.Of))
	})
	return list
}

// order lists the sources as they are taken on one day: the lesson on a kind of
// reading before those that use it beside another.
func order() []string {
	return []string{"sweep", "fiveplaces", "twodials", "bubble", "groundbar", "skimmedbar", "square", "depthmotion"}
}

func daysBetween(from, to string) int {
	a, errA := time.Parse(time.DateOnly, from)
	b, errB := time.Parse(time.DateOnly, to)
	if errA != nil || errB != nil {
		return math.MaxInt
	}
	return int(b.Sub(a).Hours() / 24)
}

// sources lists what each lesson's entry gives to a survey.
func sources() map[string][]func(*survey, machine.Entry) {
	return map[string][]func(*survey, machine.Entry){
		"sweep": {(*survey).oneSweep},
		"fiveplaces": {(*survey).sweeps, func(s *survey, e machine.Entry) {
			s.once(e, "bar", inputsOf(e.Inputs).grid(e.Of, "bar"))
		}},
		"twodials": {(*survey).gauge},
		"bubble":   {(*survey).level},
		"depthmotion": {(*survey).run, func(s *survey, e machine.Entry) {
			s.once(e, "level", inputsOf(e.Inputs).grid(e.Of, "levels"), "division")
		}},
		"groundbar":  {(*survey).bar},
		"skimmedbar": {(*survey).skim},
		"square":     {(*survey).knee},
	}
}

// use notes that an entry's readings went into a table of the survey.
func (s *survey) use(e machine.Entry, table, what string) {
	s.Days[table] = max(s.Days[table], e.Day)
	s.Used = append(s.Used, what+": "+said(e))
}

func (s *survey) leave(e machine.Entry, format string, args ...any) {
	s.Left = append(s.Left, said(e)+": "+fmt.Sprintf(format, args...))
}

// takesHead reports whether a day's head readings go in: the newest day's alone.
func (s *survey) takesHead(e machine.Entry) bool {
	if s.Head == "" {
		s.Head = e.Day
	}
	if e.Day != s.Head {
		s.leave(e, "the head may have been turned before the readings of %s", s.Head)
	}
	return e.Day == s.Head
}

// headOf is how the head stood for an entry's readings: as left unless it says
// otherwise.
func headOf(e machine.Entry) string {
	if e.Head == machine.AsFound {
		return machine.AsFound
	}
	return machine.AsLeft
}

// sweepColumns are the survey's columns of a sweep, from the right
// anticlockwise, 45 degrees apart.
var sweepColumns = [8]string{"right", "rear-right", "rear", "rear-left", "left", "front-left", "front", "front-right"}

// takesRadius reports whether a sweep's arm is that of the others: a survey has
// one radius and one gain.
func (s *survey) takesRadius(e machine.Entry, in inputs) bool {
	radius := in.text("radius")
	if s.radius != "" && radius != s.radius {
		s.leave(e, "its sweep has a radius of %s, the others %s", radius, s.radius)
		return false
	}
	s.radius = radius
	s.in.setText("radius", radius)
	return true
}

// oneSweep takes the sweep of one place, if it was read at the eight places that
// a survey takes.
func (s *survey) oneSweep(e machine.Entry) {
	in := inputsOf(e.Inputs)
	if !s.takesHead(e) {
		return
	}
	travel := e.Travel
	if travel == "" {
		travel = "0 mm"
	}
	row := map[string]cell{"head": {text: headOf(e)}, "travel": cellOf(travel), "closing": cellOf(in.text("closing"))}
	for _, reading := range in.grid(e.Of, "readings") {
		eighth, ok := eighthOf(reading["azimuth"])
		if _, twice := row[sweepColumns[eighth]]; !ok || twice {
			s.leave(e, "a survey takes sweeps read once at each 45°, and one reading stands at %s", reading["azimuth"].typed())
			return
		}
		row[sweepColumns[eighth]] = reading["shown"]
	}
	if len(row) != len(sweepColumns)+3 {
		s.leave(e, "a survey takes sweeps read at each 45°, and this has %d of the 8 places", len(row)-3)
		return
	}
	if !s.takesRadius(e, in) {
		return
	}
	s.in.setText("gain", in.text("gain"))
	s.tables["sweeps"] = append(s.tables["sweeps"], row)
	s.use(e, "sweeps", "sweep, head "+headOf(e))
}

// eighthOf returns which eighth of the turn an azimuth is.
func eighthOf(azimuth cell) (eighth int, ok bool) {
	if azimuth.unit != "°" {
		return 0, false
	}
	degrees, err := strconv.ParseFloat(strings.ReplaceAll(azimuth.text, ",", "."), 64)
	if err != nil || degrees != math.Trunc(degrees) || math.Mod(degrees, 45) != 0 || math.Abs(degrees) > 3600 {
		return 0, false
	}
	return (int(degrees)/45%8 + 8) % 8, true
}

// sweeps takes the sweeps of several places.
func (s *survey) sweeps(e machine.Entry) {
	in := inputsOf(e.Inputs)
	rows := in.grid(e.Of, "sweeps")
	if len(rows) == 0 || !s.takesHead(e) || !s.takesRadius(e, in) {
		return
	}
	for _, reading := range rows {
		row := map[string]cell{"head": {text: headOf(e)}, "travel": reading["travel"], "closing": reading["r360"]}
		for i, name := range sweepColumns {
			row[name] = reading[fmt.Sprintf("r%d", 45*i)]
		}
		s.tables["sweeps"] = append(s.tables["sweeps"], row)
	}
	s.use(e, "sweeps", fmt.Sprintf("%d sweeps, head %s", len(rows), headOf(e)))
}

// gauge takes the two-dial gauge, one way and turned, and its readings of the
// same day among those of other dates.
func (s *survey) gauge(e machine.Entry) {
	in := inputsOf(e.Inputs)
	if !s.takesHead(e) {
		return
	}
	axes := map[string]string{"side to side": "X", "front to back": "Y"}
	rows := grid{}
	if in.text("day") == "" || in.text("day") == e.Day {
		rows = pairs(in.grid(e.Of, "pairs"), headOf(e), axes)
	}
	for _, visit := range in.grid(e.Of, "visits") {
		if visit["day"].text == e.Day {
			rows = append(rows, map[string]cell{"head": {text: "as " + visit["head"].text}, "axis": {text: axes[visit["direction"].text]},
				"b": visit["first"], "c": visit["second"], "b-turned": visit["first-turned"], "c-turned": visit["second-turned"]})
		}
	}
	if len(rows) == 0 {
		s.leave(e, "no direction was read both ways on that day")
		return
	}
	s.in.setText("span", in.text("span"))
	s.tables["gauge"] = append(s.tables["gauge"], rows...)
	s.use(e, "gauge", fmt.Sprintf("two-dial gauge, %d directions", len(rows)))
}

// pairs joins the readings as marked with those turned half a turn, in order.
func pairs(readings grid, head string, axes map[string]string) grid {
	var rows grid
	for _, direction := range []string{"side to side", "front to back"} {
		var marked, turned grid
		for _, r := range readings {
			switch {
			case r["direction"].text != direction:
			case r["position"].text == "as marked":
				marked = append(marked, r)
			default:
				turned = append(turned, r)
			}
		}
		for i := range min(len(marked), len(turned)) {
			rows = append(rows, map[string]cell{"head": {text: head}, "axis": {text: axes[direction]}, "b": marked[i]["first"], "c": marked[i]["second"],
				"b-turned": turned[i]["first"], "c-turned": turned[i]["second"]})
		}
	}
	return rows
}

// once takes a table of which a survey has one, unless a newer one is there
// already; scalars are the single values that come with it.
func (s *survey) once(e machine.Entry, table string, rows grid, scalars ...string) {
	if len(rows) == 0 {
		return
	}
	label := s.label(table)
	if slices.EqualFunc(s.tables[table], rows, maps.Equal) {
		return // the same readings, written down with another lesson
	}
	if s.tables[table] != nil {
		s.leave(e, "a survey takes one %s, and another stands in it", strings.ToLower(label[:1])+label[1:])
		return
	}
	in := inputsOf(e.Inputs)
	for _, name := range scalars {
		if text := in.text(name); text != "" {
			s.in.setText(name, text)
		}
	}
	s.tables[table] = rows
	s.use(e, table, label)
}

// label is what the survey's form calls a field.
func (s *survey) label(name string) string {
	fields, _ := Fields("survey")
	for _, f := range fields {
		if f.Name == name {
			return f.Label
		}
	}
	return name
}

// level takes the survey by level of the entry's day, or else the latest in it.
func (s *survey) level(e machine.Entry) {
	in := inputsOf(e.Inputs)
	rows := in.grid(e.Of, "second")
	if in.text("first-day") == e.Day && in.text("second-day") != e.Day || len(rows) == 0 {
		rows = in.grid(e.Of, "first")
	}
	s.once(e, "level", rows, "division", "bearing")
}

func (s *survey) run(e machine.Entry) {
	s.once(e, "run", inputsOf(e.Inputs).grid(e.Of, "runs"), "track", "bearing")
}

func (s *survey) bar(e machine.Entry) {
	s.once(e, "bar", inputsOf(e.Inputs).grid(e.Of, "readings"))
}

func (s *survey) skim(e machine.Entry) {
	s.once(e, "skim", inputsOf(e.Inputs).grid(e.Of, "readings"))
}

// knee joins the square's two directions at each height; a height at which only
// one direction was read is left out.
func (s *survey) knee(e machine.Entry) {
	in := inputsOf(e.Inputs)
	x, y := in.grid(e.Of, "x"), in.grid(e.Of, "y")
	var rows grid
	for _, a := range x {
		for _, b := range y {
			if a["height"] == b["height"] {
				rows = append(rows, map[string]cell{"raised": a["height"], "marked-x": a["marked"], "turned-x": a["turned"], "marked-y": b["marked"], "turned-y": b["turned"]})
			}
		}
	}
	if alone := len(x) + len(y) - 2*len(rows); alone > 0 {
		s.leave(e, "heights read in one direction only: %d", alone)
	}
	s.once(e, "knee", rows)
}

// setting is the setting of the head that stands now: as left if any reading was
// taken so.
func (s *survey) setting() string {
	found := false
	for _, table := range []string{"sweeps", "gauge"} {
		for _, row := range s.tables[table] {
			if row["head"].text == machine.AsLeft {
				return machine.AsLeft
			}
			found = true
		}
	}
	if found {
		return machine.AsFound
	}
	return machine.AsLeft
}
