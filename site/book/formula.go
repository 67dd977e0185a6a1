package book

// A lesson's formulas are written as TeX in formulas.tex and kept as MathML in
// formulas.mathml beside it, which "go generate ./site/book" makes. The pages
// are built from the MathML alone; a test holds the two together by hash.
//
// formulas.tex holds one formula a paragraph: a line "name: how it is said",
// then the TeX. formulas.mathml holds a line "sha256 HASH" of formulas.tex,
// then a line "name: how it is said" and a line of MathML for each.

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"path"
	"strings"
)

//go:generate go run ./internal/mathml ../../examples

// Formula is one formula as MathML, set on its own or within a sentence.
type Formula struct {
	// Name is what the prose calls it by, Spoken how it is read aloud.
	Name, Spoken  string
	Block, Inline string
}

// TeXFormula is one formula as its author wrote it.
type TeXFormula struct {
	// Name is what the prose calls it by, Spoken how it is read aloud.
	Name, Spoken string
	TeX          string
}

// The names of the two files.
const (
	TeXFile    = "formulas.tex"
	MathMLFile = "formulas.mathml"
)

// ParseTeX reads a formulas.tex.
func ParseTeX(source []byte) ([]TeXFormula, error) {
	var list []TeXFormula
	seen := map[string]bool{}
	for n, paragraph := range strings.Split(strings.TrimSpace(string(source)), "\n\n") {
		head, tex, _ := strings.Cut(strings.TrimSpace(paragraph), "\n")
		name, spoken, ok := strings.Cut(head, ":")
		f := TeXFormula{strings.TrimSpace(name), strings.TrimSpace(spoken), strings.TrimSpace(tex)}
		if !ok || f.Name == "" || f.Spoken == "" || f.TeX == "" || seen[f.Name] {
			return nil, fmt.Errorf("%s, formula %d: it needs a line \"name: how it is said\" with a new name, then its TeX", TeXFile, n+1)
		}
		seen[f.Name] = true
		list = append(list, f)
	}
	return list, nil
}

// WriteMathML returns the formulas.mathml of a formulas.tex, given what turns
// TeX into a MathML element.
func WriteMathML(source []byte, convert func(tex string) (string, error)) ([]byte, error) {
	formulas, err := ParseTeX(source)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "sha256 %s\n", texHash(source))
	for _, f := range formulas {
		math, err := convert(f.TeX)
		if err != nil {
			return nil, fmt.Errorf("%s, %s: %w", TeXFile, f.Name, err)
		}
		fmt.Fprintf(&b, "%s: %s\n%s\n", f.Name, f.Spoken, strings.ReplaceAll(math, "\n", " "))
	}
	return b.Bytes(), nil
}

func texHash(source []byte) string {
	sum := sha256.Sum256(source)
	return hex.EncodeToString(sum[:])
}

// LoadFormulas returns the formulas of the folder, in order; none when the
// folder has no formulas.mathml.
func LoadFormulas(module fs.FS, dir string) ([]Formula, error) {
	file := path.Join(dir, MathMLFile)
	data, err := fs.ReadFile(module, file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, checkNoTeX(module, dir)
	}
	if err != nil {
		return nil, err
	}
	var formulas []Formula
	lines := bufio.NewScanner(bytes.NewReader(data))
	lines.Buffer(nil, 1<<20)
	if !lines.Scan() || !strings.HasPrefix(lines.Text(), "sha256 ") {
		return nil, sourceError{file, 1, errors.New("it does not begin with its hash; run go generate ./site/book")}
	}
	for n := 2; lines.Scan(); n += 2 {
		name, spoken, ok := strings.Cut(lines.Text(), ": ")
		if !ok || !lines.Scan() || !strings.HasPrefix(lines.Text(), "<math") {
			return nil, sourceError{file, n, errors.New("no formula here; run go generate ./site/book")}
		}
		formulas = append(formulas, formulaOf(lines.Text(), name, spoken))
	}
	return formulas, lines.Err()
}

// checkNoTeX returns an error when the folder has formulas that were never
// turned into MathML.
func checkNoTeX(module fs.FS, dir string) error {
	if _, err := fs.Stat(module, path.Join(dir, TeXFile)); err == nil {
		return sourceError{path.Join(dir, TeXFile), 1, errors.New("there is no formulas.mathml beside it; run go generate ./site/book")}
	}
	return nil
}

// formulaOf returns the formula in both settings, with how it is said.
func formulaOf(math, name, spoken string) Formula {
	label := ` aria-label="` + html.EscapeString(spoken) + `"`
	inside := strings.TrimPrefix(math, "<math")
	return Formula{Name: name, Spoken: spoken, Block: `<math display="block"` + label + inside, Inline: "<math" + label + inside}
}
