package book

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

func TestProseDirectives(t *testing.T) {
	tests := []struct {
		name, source, want string
	}{
		{"alone in its paragraph", "before\n\n{{tilt}}\n\nafter", "<p>before</p>\n[block tilt|]\n<p>after</p>\n"},
		{"within a sentence", "It is {{tilt}} here.", "<p>It is [inline tilt|] here.</p>\n"},
		{"with an argument", "{{math the sum}}", "[block math|the sum]"},
		{"left alone in code", "Write `{{tilt}}` so.", "<p>Write <code>{{tilt}}</code> so.</p>\n"},
		{"left alone in a code block", "```\n{{tilt}}\n```", "<pre><code>{{tilt}}\n</code></pre>\n"},
		{"a single brace", "a {b} c", "<p>a {b} c</p>\n"},
		{"in a table", "| a |\n|---|\n| {{tilt}} |", "<table>\n<thead>\n<tr>\n<th>a</th>\n</tr>\n</thead>\n<tbody>\n<tr>\n<td>[inline tilt|]</td>\n</tr>\n</tbody>\n</table>\n"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, problems := prose([]byte(test.source), "lesson.md", func(d directive) (string, error) {
				shape := "inline"
				if d.block {
					shape = "block"
				}
				return fmt.Sprintf("[%s %s|%s]", shape, d.verb, d.argument), nil
			})
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			if got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}

func TestProseProblemsNameFileAndLine(t *testing.T) {
	source := "one\n\n{{wrong}}\n\nthree {{also}}\n\nopen {{never\n"
	_, problems := prose([]byte(source), "lesson.md", func(d directive) (string, error) {
		return "", errors.New("no item " + d.verb)
	})
	text := errors.Join(problems...).Error()
	for _, want := range []string{"lesson.md:3: no item wrong", "lesson.md:5: no item also", "lesson.md:7: {{ is not closed"} {
		if !strings.Contains(text, want) {
			t.Errorf("problems lack %q:\n%s", want, text)
		}
	}
}

func TestCutCode(t *testing.T) {
	module := fstest.MapFS{
		"wear/a.go":      {Data: []byte("package wear\n\n// Law is a law.\ntype Law struct{ K float64 }\n\n// Depth is how deep.\nfunc (l Law) Depth() float64 { return l.K }\n\nconst (\n\ta = 1\n\tb = 2\n)\n")},
		"wear/a_test.go": {Data: []byte("package wear\n\nfunc Hidden() {}\n")},
	}
	tests := []struct {
		name, want, wantErr string
		line                int
	}{
		{name: "Law", want: "// Law is a law.\ntype Law struct{ K float64 }", line: 3},
		{name: "Law.Depth", want: "// Depth is how deep.\nfunc (l Law) Depth() float64 { return l.K }", line: 6},
		{name: "b", want: "const (\n\ta = 1\n\tb = 2\n)", line: 9},
		{name: "Hidden", wantErr: "no declaration called Hidden in wear"},
		{name: "Depth", wantErr: "no declaration called Depth"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := cutCode(module, "wear", test.name)
			if test.wantErr != "" {
				if err == nil || !strings.Contains(err.Error(), test.wantErr) {
					t.Fatalf("error %v, want %q", err, test.wantErr)
				}
				return
			}
			if err != nil || got.text != test.want || got.line != test.line || got.file != "wear/a.go" {
				t.Errorf("got %+v, %v, want line %d of wear/a.go: %q", got, err, test.line, test.want)
			}
		})
	}
	if _, err := cutCode(module, "nowhere", "Law"); err == nil {
		t.Error("no error for a folder that is not there")
	}
}

func TestParts(t *testing.T) {
	got := parts("<p>first</p>\n<h2 id=\"answer\">Answer &amp; more</h2>\n<p>x</p>\n<h2 id=\"why\">Why</h2>\n")
	if len(got) != 3 || got[0].ID != "" || got[1].ID != "answer" || got[1].Title != "Answer & more" || got[2].ID != "why" {
		t.Errorf("parts = %+v", got)
	}
	if !strings.HasPrefix(string(got[1].HTML), "<h2") || !strings.Contains(string(got[1].HTML), "<p>x</p>") {
		t.Errorf("the part holds %q", got[1].HTML)
	}
}
