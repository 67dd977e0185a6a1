// Package book makes the pages: it reads a lesson's prose, puts the sheet's
// items, formulas and shown code where the prose names them, and frames the
// result. It takes a file system and gives files; two runs give equal bytes.
package book
