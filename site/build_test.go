package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestSwapInReplacesASiteWhole(t *testing.T) {
	out := filepath.Join(t.TempDir(), "public")
	if err := swapIn(out, map[string][]byte{"lessons.json": []byte("[]"), "old/index.html": []byte("old")}); err != nil {
		t.Fatal(err)
	}
	if err := swapIn(out, map[string][]byte{"lessons.json": []byte("[]"), "new/index.html": []byte("new")}); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(out, "old")); !os.IsNotExist(err) {
		t.Errorf("the old page still stands: %v", err)
	}
	if data, err := os.ReadFile(filepath.Join(out, "new", "index.html")); err != nil || string(data) != "new" {
		t.Errorf("the new page reads %q, %v", data, err)
	}
	left, err := os.ReadDir(filepath.Dir(out))
	if err != nil || len(left) != 1 {
		t.Errorf("beside the site stand %v, %v; want nothing", left, err)
	}
}

func TestSwapInThatFailsLeavesTheOldSite(t *testing.T) {
	out := filepath.Join(t.TempDir(), "public")
	if err := swapIn(out, map[string][]byte{"lessons.json": []byte("[]")}); err != nil {
		t.Fatal(err)
	}
	// "a" cannot be both a file and a folder, so writing fails half-way.
	err := swapIn(out, map[string][]byte{"a": []byte("x"), "a/b": []byte("y")})
	if err == nil {
		t.Fatal("no error")
	}
	if _, err := os.Stat(filepath.Join(out, "lessons.json")); err != nil {
		t.Errorf("the old site is gone: %v", err)
	}
	left, err := os.ReadDir(filepath.Dir(out))
	if err != nil || len(left) != 1 {
		t.Errorf("beside the site stand %v, %v; want nothing", left, err)
	}
}

func TestCheckOut(t *testing.T) {
	root := t.TempDir()
	source := filepath.Join(root, "source")
	full := filepath.Join(root, "full")
	site := filepath.Join(root, "site")
	file := filepath.Join(root, "file")
	for _, dir := range []string{source, full, site, filepath.Join(root, "empty")} {
		if err := os.Mkdir(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{filepath.Join(full, "letter.txt"), filepath.Join(site, siteMark), file} {
		if err := os.WriteFile(name, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	tests := []struct{ name, out, want string }{
		{"new", filepath.Join(root, "new"), ""},
		{"empty", filepath.Join(root, "empty"), ""},
		{"a site", site, ""},
		{"below the source", filepath.Join(source, "public"), ""},
		{"the source", source, "source itself"},
		{"above the source", root, "source itself"},
		{"a stranger's folder", full, "holds files"},
		{"a file", file, "is a file"},
		{"no name", "", "needs a folder"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			err := checkOut(test.out, source)
			if test.want == "" && err != nil || test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)) {
				t.Errorf("checkOut(%s) = %v, want %q", test.out, err, test.want)
			}
		})
	}
}

// command runs the program's command line and returns what it printed.
func command(t *testing.T, stdin string, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, log bytes.Buffer
	code = run(t.Context(), args, strings.NewReader(stdin), &out, &log)
	return code, out.String(), log.String()
}

func TestCommandLine(t *testing.T) {
	empty := filepath.Join(t.TempDir(), "empty.json")
	if err := os.WriteFile(empty, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name, stdin string
		args        []string
		code        int
		stdout      string
		stderr      string
	}{
		{name: "help", args: []string{"-h"}, stdout: "go run ./site work LESSON"},
		{name: "unknown command", args: []string{"biuld"}, code: exitUsage, stderr: "did you mean build"},
		{name: "help of work", args: []string{"work", "-h"}, stderr: "-template"},
		{name: "unknown flag", args: []string{"work", "-wrong"}, code: exitUsage, stderr: "-wrong"},
		{name: "list", args: []string{"work"}, stdout: "sweep"},
		{name: "unknown lesson", args: []string{"work", "sweap"}, code: exitFails, stderr: `no lesson is called "sweap"; did you mean sweep`},
		{name: "two lessons", args: []string{"work", "sweep", "amps"}, code: exitFails, stderr: "one lesson, not 2"},
		{name: "template", args: []string{"work", "sweep", "-template"}, stdout: `"lesson": "sweep"`},
		{name: "worked", args: []string{"work", "sweep"}, stdout: "Once round the clock"},
		{name: "worked in inches", args: []string{"work", "-units", "inch", "sweep"}, stdout: "thou/ft"},
		{name: "no such units", args: []string{"work", "-units", "feet", "sweep"}, code: exitFails, stderr: "metric or inch"},
		{name: "as JSON", args: []string{"work", "sweep", "-json"}, stdout: `"si":`},
		{name: "from standard input", args: []string{"work", "sweep", "-in", "-"}, stdin: `{"inputs": {}}`, stdout: "Once round the clock"},
		{name: "no such file", args: []string{"work", "sweep", "-in", "none.json"}, code: exitFails, stderr: "none.json"},
		{name: "empty file", args: []string{"work", "sweep", "-in", empty}, code: exitFails, stderr: "is empty"},
		{name: "broken JSON", args: []string{"work", "sweep", "-in", "-"}, stdin: "{\n \"inputs\": oops}", code: exitFails, stderr: "line 2, column 12"},
		{name: "unknown field", args: []string{"work", "sweep", "-in", "-"}, stdin: `{"inputs": {"radus": "1 mm"}}`, code: exitFails, stderr: "did you mean radius"},
		{name: "wrong unit", args: []string{"work", "sweep", "-in", "-"}, stdin: `{"inputs": {"radius": "1 kg"}}`, code: exitFails, stderr: "mm"},
		{name: "exercise as printed", args: []string{"work", "thousandth", "-exercise", "exercise-tilt", "-answer", "300 µm/m"}, stdout: "The radius of the ring was taken"},
		{name: "exercise drawn", args: []string{"work", "thousandth", "-exercise", "exercise-tilt", "-seed", "4711", "-answer", "227 um/m", "-solve"}, stdout: "+ Right."},
		{name: "exercise on readings", stdin: `{"inputs": {"span": "4 in"}}`, args: []string{"work", "thousandth", "-in", "-", "-exercise", "exercise-tilt", "-units", "inch"}, stdout: "8.00 in diameter"},
		{name: "unknown exercise", args: []string{"work", "thousandth", "-exercise", "exercise-lilt"}, code: exitFails, stderr: "did you mean exercise-tilt"},
		{name: "exercises listed", args: []string{"work", "thousandth", "-exercise", "?", "-seed", "1"}, code: exitFails, stderr: "exercise-tilt, exercise-limit"},
		{name: "draw out of range", args: []string{"work", "thousandth", "-exercise", "exercise-tilt", "-seed", "1000000"}, code: exitFails, stderr: "0 to 999999"},
		{name: "answer to nothing", args: []string{"work", "thousandth", "-answer", "3 mm"}, code: exitFails, stderr: "-exercise"},
		{name: "draw on readings", args: []string{"work", "thousandth", "-exercise", "exercise-tilt", "-seed", "1", "-in", "x"}, code: exitFails, stderr: "does not go with -in"},
		{name: "port in use", args: []string{"serve", "-addr", "256.0.0.1:1"}, code: exitFails, stderr: "256.0.0.1:1"},
		{name: "words after build", args: []string{"build", "now"}, code: exitFails, stderr: `"now"`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			code, stdout, stderr := command(t, test.stdin, test.args...)
			if code != test.code {
				t.Errorf("exit code %d, want %d\n%s", code, test.code, stderr)
			}
			if !strings.Contains(stdout, test.stdout) {
				t.Errorf("standard output lacks %q:\n%s", test.stdout, stdout)
			}
			if !strings.Contains(stderr, test.stderr) {
				t.Errorf("standard error lacks %q:\n%s", test.stderr, stderr)
			}
		})
	}
}

func TestListenSaysThatThePortIsInUse(t *testing.T) {
	first, err := listen("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	if _, err := listen(first.Addr().String()); err == nil || !strings.Contains(err.Error(), "in use by another program") {
		t.Errorf("listening twice gave %v", err)
	}
}

// TestReadmeSession holds the terminal session shown in the README to what the
// command prints.
func TestReadmeSession(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	const start = "$ go run ./site work amps\n"
	_, session, found := strings.Cut(string(readme), start)
	session, _, closed := strings.Cut(session, "```")
	if !found || !closed {
		t.Fatal("the README shows no session of work amps")
	}
	_, stdout, _ := command(t, "", "work", "amps")
	for _, line := range strings.Split(strings.TrimSpace(session), "\n") {
		if line != "..." && !strings.Contains(stdout, line+"\n") {
			t.Errorf("the README shows %q, which the command does not print", line)
		}
	}
}
