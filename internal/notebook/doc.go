// Package notebook is the contract between the lessons and everything that
// shows them: the pages, the terminal and the reader's browser.
//
// A [Lesson] has a form and one pure function. The form ([Field]) says what is
// typed, in which units and between which limits; it reads the reader's JSON,
// names what is wrong with it, and hands the function a plain Go struct. The
// function returns a [Sheet]: an ordered list of named items (figures, tables,
// charts, drawings, verdicts, checks, cautions, exercises). The lesson's prose
// names the items where they belong. There is no second model of a page: the
// page, the terminal and the browser all render the same sheet.
//
// Every value inside is in SI. A [Quantity] carries its standard uncertainty
// and the pair of units, metric and inch, in which it is shown, and is rounded
// by its uncertainty.
package notebook
