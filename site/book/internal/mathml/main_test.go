package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/thouspan/site/book"
)

// temmlOrSkip returns the converter, or skips where temml cannot be had; under
// CI it must be.
func temmlOrSkip(t *testing.T) func(string) (string, error) {
	t.Helper()
	convert, err := converter(t.Context())
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skipf("no temml here: %v", err)
	}
	return convert
}

func TestConvert(t *testing.T) {
	convert := temmlOrSkip(t)
	tests := []struct {
		name, tex string
		want      []string
	}{
		{"fraction", `\frac{d}{2R}`, []string{"<mfrac>", "<mi>d</mi>", "<mn>2</mn>"}},
		{"hat", `\hat{a}`, []string{"<mover", "<mi>a</mi>"}},
		{"sum", `\sum_{i=1}^{n} r_i \cos\varphi_i`, []string{"∑", "<mi>cos</mi>", "<mi>φ</mi>"}},
		{"root", `\sqrt{R^2 - W^2/4}`, []string{"<msqrt>", "<msup>"}},
		{"unit in words", `t_\mathrm{min}`, []string{"<msub>", "min"}},
		{"matrix", `\begin{pmatrix} 1 & x \\ 1 & y \end{pmatrix}`, []string{"<mtable", "<mtr>"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := convert(test.tex)
			if err != nil {
				t.Fatal(err)
			}
			for _, want := range append(test.want, "</math>") {
				if !strings.Contains(got, want) {
					t.Errorf("%s gave %s, which lacks %s", test.tex, got, want)
				}
			}
			if !strings.HasPrefix(got, "<math") {
				t.Errorf("%s does not begin as a formula", got)
			}
			for _, bad := range []string{"style=", "class=", "display=", "<script", "<style", "annotation"} {
				if strings.Contains(got, bad) {
					t.Errorf("%s holds %s, which is the page's to say", got, bad)
				}
			}
			if again, err := convert(test.tex); err != nil || again != got {
				t.Errorf("a second time it gave %s, %v", again, err)
			}
		})
	}
}

func TestBadTeXIsRefused(t *testing.T) {
	convert := temmlOrSkip(t)
	for _, tex := range []string{`\frac{a}`, `\nosuchcommand`, `{`, `a_b_c`} {
		if got, err := convert(tex); err == nil {
			t.Errorf("%s gave %s, want an error", tex, got)
		}
	}
}

// Every formula of the lessons is what temml makes of its TeX today.
func TestLessonsFormulasAreTemmls(t *testing.T) {
	convert := temmlOrSkip(t)
	files, err := filepath.Glob("../../../../examples/*/" + book.TeXFile)
	if err != nil || len(files) == 0 {
		t.Fatalf("found %d files of formulas: %v", len(files), err)
	}
	for _, file := range files {
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want, err := book.WriteMathML(source, convert)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		got, err := os.ReadFile(filepath.Join(filepath.Dir(file), book.MathMLFile))
		if err != nil || string(got) != string(want) {
			t.Errorf("%s is not what temml makes of it: run go generate ./site/book", file)
		}
	}
}
