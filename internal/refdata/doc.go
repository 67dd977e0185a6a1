// Package refdata holds the published figures that the lessons and the tests
// are checked against, one row a figure, each with its source and with how we
// know it.
//
// A row is read as: "for the case called What, the published value is Value in
// Unit, and a computed value passes when it lies within Tolerance of it". A
// figure that was remembered and not read says so in Known; a figure that is
// arithmetic from a definition says that. Nothing here is invented: data made
// up for the demonstration live in examples/actionshop and are never rows.
//
// The package imports nothing of ours, so that the domain packages' tests and
// the lessons can share one row.
package refdata
