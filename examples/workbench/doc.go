// Package workbench brings a machine's file and the lessons together: it takes
// a lesson's inputs from the file, fills in the sizes and gauges that lessons
// share, gathers the readings of several lessons into one survey, and writes
// the card that hangs on the machine.
//
// What it moves from one lesson to another it moves as typed, number and unit
// together, and never converts.
package workbench
