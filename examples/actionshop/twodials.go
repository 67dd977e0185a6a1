package actionshop

import (
	"time"

	"gonum.org/v1/gonum/unit"
)

// GaugeSpan is the distance between dials B and C on their bar.
const GaugeSpan = 190 * mm

// GaugeReading is the two-dial gauge read in one direction of the machine and
// turned half a turn: first dial B stood left (or in front) and C right (or at
// the back), then the other way about.
type GaugeReading struct {
	Date time.Time
	// Head is "found" before the head was touched, "left" after; Axis is "X" or
	// "Y".
	Head, Axis             string
	B, C, BTurned, CTurned unit.Length
}

// GaugeReadings returns the readings of the four dates on which the head was
// set, with the table in the middle of its travel.
func GaugeReadings() []GaugeReading {
	var rows []GaugeReading
	day := time.Time{}
	add := func(head, axis string, b, c, bTurned, cTurned unit.Length) {
		rows = append(rows, GaugeReading{day, head, axis, b * mm, c * mm, bTurned * mm, cTurned * mm})
	}
	day = time.Date(2019, 5, 18, 0, 0, 0, 0, time.UTC)
	add("found", "X", 0.625, 0.590, 0.575, 0.635)
	add("found", "Y", 0.570, 0.640, 0.630, 0.580)
	add("left", "X", 0.605, 0.610, 0.595, 0.620)
	add("left", "Y", 0.610, 0.605, 0.590, 0.620)
	day = time.Date(2021, 5, 22, 0, 0, 0, 0, time.UTC)
	add("found", "X", 0.610, 0.605, 0.595, 0.620)
	add("found", "Y", 0.610, 0.600, 0.590, 0.620)
	add("left", "X", 0.605, 0.605, 0.595, 0.620)
	add("left", "Y", 0.605, 0.605, 0.595, 0.615)
	day = time.Date(2023, 5, 20, 0, 0, 0, 0, time.UTC)
	add("found", "X", 0.610, 0.625, 0.590, 0.640)
	add("found", "Y", 0.610, 0.625, 0.590, 0.645)
	add("left", "X", 0.620, 0.620, 0.585, 0.655)
	add("left", "Y", 0.615, 0.615, 0.580, 0.650)
	day = time.Date(2025, 5, 24, 0, 0, 0, 0, time.UTC)
	add("found", "X", 0.620, 0.610, 0.580, 0.655)
	add("found", "Y", 0.620, 0.610, 0.575, 0.655)
	add("left", "X", 0.600, 0.635, 0.600, 0.635)
	add("left", "Y", 0.600, 0.635, 0.600, 0.635)
	return rows
}
