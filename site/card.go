package main

// A machine's file in the terminal: the inputs of one lesson out of it, and the
// card that hangs on the machine.

import (
	"errors"
	"fmt"
	"io"
	"time"

	"example.org/thouspan/examples/workbench"
	"example.org/thouspan/internal/machine"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/site/render"
)

// fromMachine returns the lesson's document out of a machine's file, and says
// which entries it comes from; any other document is returned as it is.
func fromMachine(document []byte, slug, day string, log io.Writer) ([]byte, error) {
	if day != "" {
		if _, err := time.Parse(time.DateOnly, day); err != nil {
			return nil, fmt.Errorf("-date %q is not a date; write it as 2025-05-24", day)
		}
	}
	if !machine.IsFile(document) {
		if day != "" {
			return nil, errors.New("-date is for a machine's file, and this is none")
		}
		return document, nil
	}
	file, problems := machine.Read(document, day)
	if len(problems) > 0 {
		return nil, &notebook.InputError{Problems: problems}
	}
	taken, err := workbench.On(file, slug, day)
	if err != nil {
		return nil, err
	}
	if taken.Entry != nil {
		// Said with the place in the file, which the document alone does not know.
		if problems := taken.Entry.Check(document, workbench.Fields); len(problems) > 0 {
			return nil, &notebook.InputError{Problems: problems}
		}
	}
	for _, line := range taken.Used {
		fmt.Fprintf(log, "  from %s\n", line)
	}
	for _, line := range taken.Left {
		fmt.Fprintf(log, "  left out: %s\n", line)
	}
	return taken.Document, nil
}

const cardHead = `Writes the card that hangs on the machine: its slopes with dates and doubt, what
it is good for, which readings are due. It is made from the newest entries of the
machine's file, which the page "Your machine" saves.

  go run ./site card -in machine.json
  go run ./site card                      the action shop's, to see what it is
  go run ./site card -template            print the action shop's file, to edit`

// runCard prints the card of a machine's file.
func runCard(args []string, stdin io.Reader, stdout, stderr io.Writer, now time.Time) error {
	flags := newFlags("card", cardHead, stderr)
	in := flags.String("in", "", "`FILE` of your machine; - reads standard input")
	date := flags.String("date", now.Format(time.DateOnly), "`DAY` of which the card is, as 2025-05-24")
	units := flags.String("units", "metric", "`metric` or inch")
	template := flags.Bool("template", false, "print the action shop's file")
	words, err := parse(flags, args)
	if err != nil {
		return err
	}
	if len(words) > 0 {
		return fmt.Errorf("card takes no words, but got %q", words[0])
	}
	system, err := systemNamed(*units)
	if err != nil {
		return err
	}
	file, err := machineFile(*in, *date, stdin, stderr)
	if err != nil {
		return err
	}
	if *template {
		_, err := stdout.Write(file.Write())
		return err
	}
	card, err := workbench.NewCard(file, *date)
	if err != nil {
		return err
	}
	head := notebook.Lesson{About: notebook.About{Title: card.Title, Question: card.Read}}
	_, err = io.WriteString(stdout, render.Terminal(head, card.Sheet, system))
	return err
}

// machineFile reads a machine's file, or a lesson's readings as taken on the day;
// no name means the action shop's. What is wrong inside an entry is said, and the
// card shows what it costs.
func machineFile(name, day string, stdin io.Reader, log io.Writer) (*machine.File, error) {
	text, err := readDocument(name, stdin)
	if err != nil {
		return nil, err
	}
	if text == nil {
		return workbench.ActionShop()
	}
	file, problems := machine.Read(text, day)
	if len(problems) > 0 {
		return nil, inputError(name, &notebook.InputError{Problems: problems})
	}
	for _, entry := range file.Check(text, workbench.Fields) {
		for _, problem := range entry.Problems {
			fmt.Fprintf(log, "  %s: %s\n", name, problem)
		}
	}
	return file, nil
}
