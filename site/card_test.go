package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/thouspan/examples/workbench"
)

// shopFile writes the action shop's file, changed, and returns its name.
func shopFile(t *testing.T, changes ...string) string {
	t.Helper()
	file, err := workbench.ActionShop()
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "machine.json")
	text := strings.NewReplacer(changes...).Replace(string(file.Write()))
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestMachineFileInTheTerminal(t *testing.T) {
	shop := shopFile(t)
	tests := []struct {
		name           string
		args           []string
		code           int
		stdout, stderr string
	}{
		{"a survey put together", []string{"work", "survey", "-in", shop}, exitOK, "Side tilt of the head at the work", "from 5 sweeps, head as left"},
		{"an earlier day", []string{"work", "twodials", "-in", shop, "-date", "2024-01-01"}, exitOK, "Two dials", "from twodials “dials made to agree” of 2023-05-20"},
		{"a lesson that is not there", []string{"work", "baking", "-in", shop}, exitFails, "", "no entry for the lesson baking; it has some for"},
		{"a day that is none", []string{"work", "sweep", "-in", shop, "-date", "May"}, exitFails, "", `-date "May" is not a date`},
		{"a day without a file", []string{"work", "sweep", "-date", "2025-01-01"}, exitFails, "", "-date is for a machine's file"},
		{"a bad reading, where it stands", []string{"work", "sweep", "-in", shopFile(t, `"radius": "110 mm"`, `"radius": "-110 mm"`)}, exitFails, "", "column 19: Radius of the sweep: -110"},
		{"a bad file", []string{"work", "sweep", "-in", shopFile(t, `"date"`, `"day"`)}, exitFails, "", `Entry 1: has no "date"`},
		{"the card", []string{"card", "-in", shop, "-date", "2025-06-01"}, exitOK, "Dowel holes through a lever block", ""},
		{"the card in inches", []string{"card", "-date", "2025-06-01", "-units", "inch"}, exitOK, "Slope, thou/ft", ""},
		{"the card with a bad reading", []string{"card", "-date", "2025-06-01", "-in", shopFile(t, `"gain": "0.98`, `"gain": "9.98`)}, exitOK, "Slopes now", "9.98"},
		{"the card's help", []string{"card", "-h"}, exitOK, "", "go run ./site card -in machine.json"},
		{"a card of words", []string{"card", "now"}, exitFails, "", `card takes no words`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var stdout, stderr bytes.Buffer
			if code := run(context.Background(), test.args, strings.NewReader(""), &stdout, &stderr); code != test.code {
				t.Errorf("exit code %d, want %d", code, test.code)
			}
			if !strings.Contains(stdout.String(), test.stdout) || test.stdout == "" && stdout.Len() > 0 {
				t.Errorf("stdout lacks %q:\n%s", test.stdout, stdout.String())
			}
			if !strings.Contains(stderr.String(), test.stderr) {
				t.Errorf("stderr lacks %q:\n%s", test.stderr, stderr.String())
			}
		})
	}
}

// The template of the card is a file that the card, and each lesson, reads.
func TestCardTemplateIsAFile(t *testing.T) {
	var file, card, stderr bytes.Buffer
	if err := runCard([]string{"-template"}, nil, &file, &stderr, time.Now()); err != nil {
		t.Fatal(err)
	}
	if err := runCard([]string{"-in", "-", "-date", "2025-06-01"}, &file, &card, &stderr, time.Now()); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(card.String(), "The action shop’s mill\n") || stderr.Len() > 0 {
		t.Errorf("got %s\n%s", card.String(), stderr.String())
	}
}
