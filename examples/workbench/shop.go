package workbench

// The action shop's machine as a file: the demo that a reader starts from.

import (
	"encoding/json"
	"fmt"
	"strconv"
	"time"

	"example.org/thouspan/examples"
	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
)

// The days of the shop's story.
const (
	shopCame   = "2019-05-18" // the machine came to the shop
	shopGauge  = "2023-05-20" // set with a gauge that had been dropped
	shopSurvey = "2025-05-24" // the full survey
	shopBath   = "2023-10-07" // the first run of the bath
	shopBook   = "2025-05-10" // the last
)

// ActionShop returns the file of the action shop's machine and bath, made from
// its data and from the inputs of the lessons that show them.
func ActionShop() (*machine.File, error) {
	s := &shop{file: &machine.File{}}
	s.record(shopCame, machine.RecordMachine, "", millRecord())
	s.gauges()
	s.lessons()
	s.twodials()
	s.record(shopBath, machine.RecordBath, "", texts("name", "three litres of bright nickel", "volume", "3 L", "sulfate", "300 g/L", "chloride", "45 g/L",
		"boric", "40 g/L", "nickel", "75 g/L", "ph", "4.0"))
	for _, run := range actionshop.PlatingLog() {
		s.record(run.Day.Format(time.DateOnly), machine.RecordRun, strconv.Itoa(run.Run), texts("part", run.Load,
			"area", number(float64(run.Area)/1e-4, 2)+" cm²", "current", number(float64(run.Current), 2)+" A", "time", number(float64(run.Time)/60, 0)+" min",
			"before", number(float64(run.Before)/1e-3, 2)+" g", "after", number(float64(run.After)/1e-3, 2)+" g",
			"temperature", number(float64(run.Bath)-273.15, 0)+" °C", "ph", number(run.PH, 1), "looks", run.Looks))
	}
	return s.file, s.err
}

// shop is the file being filled; after an error nothing more is.
type shop struct {
	file *machine.File
	err  error
}

func (s *shop) put(e machine.Entry) {
	e.InputsFormat = notebook.Format
	s.file, _ = s.file.Put(e)
}

func (s *shop) record(day, of, name string, in inputs) {
	s.put(machine.Entry{Day: day, Of: of, Name: name, Inputs: in.raw()})
}

// texts returns inputs from names and values in turn.
func texts(pairs ...string) inputs {
	in := inputs{values: map[string]json.RawMessage{}}
	for i := 0; i+1 < len(pairs); i += 2 {
		in.setText(pairs[i], pairs[i+1])
	}
	return in
}

func number(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }

func millRecord() inputs {
	in := texts("name", "The action shop’s mill", "place", "-180 mm", "bearing", "360 mm", "apart", "190 mm", "travel", "760 mm", "table", "1120 mm")
	var rows grid
	for _, job := range [][4]string{
		{"Long action rail, faced in two passes", machine.JobStep, "50 mm", "5 µm"},
		{"Reed-frame blank, faced in one pass", machine.JobFace, "60 mm", "5 µm"},
		{"Dowel holes through a lever block", machine.JobHole, "60 mm", "5 µm"},
		{"Reed-frame blank, 150 long", machine.JobPart, "150 mm", "3 µm"},
		{"Action rail, 600 long", machine.JobPart, "600 mm", "10 µm"},
		{"Drill, then reamer, knee moved between", machine.JobKnee, "120 mm", "10 µm"},
	} {
		rows = append(rows, map[string]cell{"what": {text: job[0]}, "kind": {text: job[1]}, "size": cellOf(job[2]), "tolerance": cellOf(job[3])})
	}
	in.setGrid(machine.RecordMachine, "jobs", rows)
	return in
}

// gauges puts in the shop's gauges; the dials with what their runs over gauge
// blocks gave, as the lesson on dials works them.
func (s *shop) gauges() {
	uses := []string{machine.GaugeSweep, machine.GaugeFirst, machine.GaugeSecond, machine.GaugeFine}
	for i, run := range actionshop.DialRuns() {
		division := map[string]string{machine.GaugeSweep: "0.5 thou", machine.GaugeFine: "0.002 mm"}[uses[i]]
		if division == "" {
			division = "0.01 mm"
		}
		in := texts("name", run.Name, "use", uses[i], "division", division)
		switch uses[i] {
		case machine.GaugeSweep:
			in.setText("arm", "110 mm")
		case machine.GaugeFine:
			in.setText("step", "0.002 mm")
		default:
			in.setText("arm", "190 mm")
		}
		if uses[i] != machine.GaugeFine {
			in.setText("read-to", "0.5")
		}
		s.calibrate(run, &in)
		s.record(shopSurvey, machine.RecordGauge, "", in)
	}
	s.record(shopCame, machine.RecordGauge, "", texts("name", "level, 0.02 mm/m", "use", machine.GaugeLevel, "level-division", "0.02 mm/m", "read-to", "0.5"))
	s.record(shopCame, machine.RecordGauge, "", texts("name", "500 mm ground bar", "use", machine.GaugeBar, "length", "500 mm"))
	s.record(shopCame, machine.RecordGauge, "", texts("name", "micrometer", "use", machine.GaugeMike, "step", "1 µm"))
	s.record(shopBath, machine.RecordGauge, "", texts("name", "scale", "use", machine.GaugeScale, "scale-step", "0.01 g"))
}

// calibrate puts a dial's run into the file as the lesson's inputs, and what the
// lesson makes of it into the gauge's record.
func (s *shop) calibrate(run actionshop.DialRun, gauge *inputs) {
	in, err := template("dial")
	if err != nil {
		s.err = err
		return
	}
	unit, symbol, decimals := 1e-3, "mm", 4
	if run.Division == actionshop.LeverDivision {
		unit, symbol, decimals = 0.0254e-3, "thou", 2
	}
	var rows grid
	typed := func(x float64) cell { return cell{number(x/unit, decimals), symbol} }
	for _, b := range run.Blocks {
		rows = append(rows, map[string]cell{"block": typed(float64(b.Block)), "rising": typed(float64(b.Rising)), "falling": typed(float64(b.Falling))})
	}
	in.setGrid("dial", "blocks", rows)
	in.setText("step", typed(float64(run.Step)).typed())
	e := machine.Entry{Day: shopSurvey, Of: "dial", Name: run.Name, InputsFormat: notebook.Format, Inputs: in.raw()}
	lesson, _ := examples.Find("dial")
	sheet, err := lesson.Work(e.Document())
	if err != nil {
		s.err = fmt.Errorf("workbench: dial %s: %w", run.Name, err)
		return
	}
	s.put(e)
	if gain, ok := sheet.Find("gain").(notebook.Figure); ok {
		gauge.setText("gain", number(gain.Value.SI, 4))
		gauge.setText("gain-u", number(gain.Value.U, 4))
	}
	if lag, ok := sheet.Find("hysteresis").(notebook.Figure); ok {
		gauge.setText("hysteresis", typed(max(0, lag.Value.SI)).typed())
	}
}

// lessons puts in the inputs of the lessons that show the shop's readings.
func (s *shop) lessons() {
	for _, one := range []machine.Entry{
		{Day: shopSurvey, Of: "sweep", Name: "before the head was set", Head: machine.AsFound, Travel: "0 mm"},
		{Day: shopSurvey, Of: "fiveplaces", Name: "after the head was set", Head: machine.AsLeft},
		{Day: shopGauge, Of: "twodials", Name: "dials made to agree", Head: machine.AsLeft, Travel: "0 mm"},
		{Day: shopSurvey, Of: "setoff"}, {Day: shopSurvey, Of: "square"}, {Day: shopSurvey, Of: "jaw"}, {Day: shopSurvey, Of: "diagonals"},
		{Day: shopSurvey, Of: "bubble"}, {Day: shopCame, Of: "threelines", Name: "table run, middle track"}, {Day: shopSurvey, Of: "groundbar"},
		{Day: shopSurvey, Of: "skimmedbar"}, {Day: shopSurvey, Of: "pockets"}, {Day: shopSurvey, Of: "depthmotion"},
		{Day: shopSurvey, Of: "longrail"}, {Day: shopSurvey, Of: "viseplace"}, {Day: shopSurvey, Of: "oilline"}, {Day: shopSurvey, Of: "fiveyears"},
		{Day: shopBook, Of: "threelitres"}, {Day: shopSurvey, Of: "order", Name: "long action rail"},
	} {
		in, err := template(one.Of)
		if err != nil {
			s.err = err
			return
		}
		one.Inputs = in.raw()
		s.put(one)
	}
}

// twodials puts in the reversal of the survey's day, which the lesson shows
// among the readings at other dates.
func (s *shop) twodials() {
	in, err := template("twodials")
	if err != nil {
		s.err = err
		return
	}
	typed := func(x float64) cell { return cell{number(x/1e-3, 3), "mm"} }
	direction := map[string]string{"X": "side to side", "Y": "front to back"}
	var pairs, visits grid
	for _, r := range actionshop.GaugeReadings() {
		day := r.Date.Format(time.DateOnly)
		way := cell{text: direction[r.Axis]}
		if day == shopSurvey && r.Head == "left" {
			pairs = append(pairs,
				map[string]cell{"direction": way, "position": {text: "as marked"}, "first": typed(float64(r.B)), "second": typed(float64(r.C))},
				map[string]cell{"direction": way, "position": {text: "turned half a turn"}, "first": typed(float64(r.BTurned)), "second": typed(float64(r.CTurned))})
			continue
		}
		visits = append(visits, map[string]cell{"day": {text: day}, "head": {text: r.Head}, "direction": way, "first": typed(float64(r.B)), "second": typed(float64(r.C)),
			"first-turned": typed(float64(r.BTurned)), "second-turned": typed(float64(r.CTurned))})
	}
	in.setText("day", shopSurvey)
	in.setGrid("twodials", "pairs", pairs)
	in.setGrid("twodials", "visits", visits)
	s.put(machine.Entry{Day: shopSurvey, Of: "twodials", Name: "after the head was set", Head: machine.AsLeft, Travel: "0 mm", Inputs: in.raw()})
}
