package book

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"
	"testing/fstest"
)

func TestFormulasRoundTrip(t *testing.T) {
	source := []byte("tilt: reading \"over\" span\n\\frac{d}{D}\n\nsum: a plus b\na\n+ b\n")
	out, err := WriteMathML(source, func(tex string) (string, error) { return "<math><mtext>" + tex + "</mtext></math>", nil })
	if err != nil {
		t.Fatal(err)
	}
	module := fstest.MapFS{"examples/one/" + MathMLFile: {Data: out}}
	formulas, err := LoadFormulas(module, "examples/one")
	if err != nil || len(formulas) != 2 {
		t.Fatalf("LoadFormulas = %v, %v", formulas, err)
	}
	want := Formula{Name: "tilt", Spoken: `reading "over" span`,
		Block:  `<math display="block" aria-label="reading &#34;over&#34; span"><mtext>\frac{d}{D}</mtext></math>`,
		Inline: `<math aria-label="reading &#34;over&#34; span"><mtext>\frac{d}{D}</mtext></math>`,
	}
	if got := formulas[0]; got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

func TestFormulasRefused(t *testing.T) {
	for _, source := range []string{"no colon\nx", "name: said", "name:\nx", "a: b\nx\n\na: b\ny"} {
		if got, err := ParseTeX([]byte(source)); err == nil {
			t.Errorf("ParseTeX(%q) = %v, want an error", source, got)
		}
	}
	bad := errors.New("bad TeX")
	if _, err := WriteMathML([]byte("a: b\nx"), func(string) (string, error) { return "", bad }); !errors.Is(err, bad) {
		t.Errorf("WriteMathML = %v, want %v", err, bad)
	}
	if _, err := LoadFormulas(fstest.MapFS{"d/" + TeXFile: {Data: []byte("a: b\nx")}}, "d"); err == nil || !strings.Contains(err.Error(), "go generate") {
		t.Errorf("TeX without MathML: %v", err)
	}
	if _, err := LoadFormulas(fstest.MapFS{"d/" + MathMLFile: {Data: []byte("a: b\n<math></math>\n")}}, "d"); err == nil {
		t.Error("MathML without its hash was taken")
	}
}

// TestFormulasAreUpToDate holds every formulas.tex and formulas.mathml of the
// source together.
func TestFormulasAreUpToDate(t *testing.T) {
	module := os.DirFS("../..")
	err := fs.WalkDir(module, "examples", func(file string, entry fs.DirEntry, err error) error {
		if err != nil || entry.Name() != TeXFile {
			return err
		}
		source, err := fs.ReadFile(module, file)
		if err != nil {
			return err
		}
		made, err := fs.ReadFile(module, path.Join(path.Dir(file), MathMLFile))
		if err != nil || !strings.HasPrefix(string(made), "sha256 "+texHash(source)+"\n") {
			t.Errorf("%s was changed since its MathML was made: run go generate ./site/book", file)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
