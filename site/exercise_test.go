package main

import (
	"os"
	"strings"
	"testing"
)

// The README's exercise is asked and marked as it says.
func TestReadmeExercise(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	const typed = "$ go run ./site work thousandth -exercise exercise-tilt -seed 4711 -answer \"453 um/m\"\n"
	_, session, found := strings.Cut(string(readme), typed)
	session, _, closed := strings.Cut(session, "```")
	if !found || !closed {
		t.Fatal("the README shows no exercise")
	}
	_, stdout, _ := command(t, "", "work", "thousandth", "-exercise", "exercise-tilt", "-seed", "4711", "-answer", "453 um/m")
	if stdout != session {
		t.Errorf("the README shows\n%s\nbut the command prints\n%s", session, stdout)
	}
}
