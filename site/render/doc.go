// Package render turns a lesson's sheet into HTML for the page and plain text
// for the terminal. The page's build and the reader's browser run this same
// code, so it compiles to WebAssembly and stays clear of html/template and of
// everything that only the build needs.
package render
