// Package machine is the file in which one person keeps one machine and its
// bath: what it is, its gauges, every set of readings by date, and the log of
// plated runs.
//
// A [File] is a set of entries. An entry says what it is of (a lesson by its
// slug, or one of the [Records]: machine, gauge, bath, run), the day, and holds
// inputs: the very document that the lesson's page saves, each number as it was
// typed and with its unit. So every lesson can take its inputs from a file and
// put readings into it, and nothing here knows any lesson.
//
// [Read] reads a file, or a single lesson's document, which was the format
// before there were machine files; [File.Write] writes the same bytes for the
// same entries; [Merge] joins two files and loses nothing. The format is
// described, member by member, in FORMAT.md beside this file.
package machine
