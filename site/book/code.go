package book

// Shown code is cut from the real source by the name of its declaration, so
// that a page can never show code that the tests did not run.

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"strings"

	"github.com/alecthomas/chroma/v2"
	chromahtml "github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/alecthomas/chroma/v2/styles"
)

// shownCode is a declaration cut from its file.
type shownCode struct {
	file string // path in the module
	line int
	text string
}

// cutCode returns the declaration called name ("FitSweep", "Slope.Over") from
// the Go files of a folder of the module; one called Example... from its tests,
// which run it and compare what it prints.
func cutCode(module fs.FS, dir, name string) (shownCode, error) {
	entries, err := fs.ReadDir(module, dir)
	if err != nil {
		return shownCode{}, fmt.Errorf("no package in %s to show code from", dir)
	}
	for _, entry := range entries {
		file := path.Join(dir, entry.Name())
		if !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") != strings.HasPrefix(name, "Example") {
			continue
		}
		source, err := fs.ReadFile(module, file)
		if err != nil {
			return shownCode{}, err
		}
		if !bytes.Contains(source, []byte(name[strings.LastIndex(name, ".")+1:])) {
			continue // it is not declared there
		}
		set := token.NewFileSet()
		parsed, err := parser.ParseFile(set, file, source, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return shownCode{}, err
		}
		for _, decl := range parsed.Decls {
			if declares(decl, name) {
				from, to := declStart(decl), decl.End()
				return shownCode{file, set.Position(from).Line,
					string(source[set.Position(from).Offset:set.Position(to).Offset])}, nil
			}
		}
	}
	return shownCode{}, fmt.Errorf("no declaration called %s in %s", name, dir)
}

// declares reports whether the declaration is the one called name; a method is
// called Type.Method.
func declares(decl ast.Decl, name string) bool {
	switch decl := decl.(type) {
	case *ast.FuncDecl:
		return funcName(decl) == name
	case *ast.GenDecl:
		for _, spec := range decl.Specs {
			switch spec := spec.(type) {
			case *ast.TypeSpec:
				if spec.Name.Name == name {
					return true
				}
			case *ast.ValueSpec:
				for _, id := range spec.Names {
					if id.Name == name {
						return true
					}
				}
			}
		}
	}
	return false
}

func funcName(decl *ast.FuncDecl) string {
	if decl.Recv == nil || len(decl.Recv.List) == 0 {
		return decl.Name.Name
	}
	receiver := decl.Recv.List[0].Type
	if star, ok := receiver.(*ast.StarExpr); ok {
		receiver = star.X
	}
	if id, ok := receiver.(*ast.Ident); ok {
		return id.Name + "." + decl.Name.Name
	}
	return decl.Name.Name
}

// declStart is where a declaration begins, its doc comment included.
func declStart(decl ast.Decl) token.Pos {
	switch decl := decl.(type) {
	case *ast.FuncDecl:
		if decl.Doc != nil {
			return decl.Doc.Pos()
		}
	case *ast.GenDecl:
		if decl.Doc != nil {
			return decl.Doc.Pos()
		}
	}
	return decl.Pos()
}

// highlight returns the code as HTML, coloured by class.
func highlight(code string) (string, error) {
	found, err := chroma.Tokenise(lexers.Get("go"), nil, code)
	if err != nil {
		return "", err
	}
	var out bytes.Buffer
	formatter := chromahtml.New(chromahtml.WithClasses(true), chromahtml.TabWidth(4), chromahtml.PreventSurroundingPre(true))
	if err := formatter.Format(&out, styles.Fallback, chroma.Literator(fewer(found)...)); err != nil {
		return "", err
	}
	return out.String(), nil
}

// fewer joins neighbouring tokens that look alike: names and punctuation are the
// page's own colour, and a space has none, so that it goes with what is before it.
// Each a span of its own, they made up two thirds of shown code.
func fewer(tokens []chroma.Token) []chroma.Token {
	var out []chroma.Token
	for _, t := range tokens {
		switch {
		case t.Type == chroma.Punctuation || t.Type == chroma.NameOther:
			t.Type = chroma.Text
		case strings.TrimSpace(t.Value) == "" && len(out) > 0:
			t.Type = out[len(out)-1].Type
		}
		if n := len(out); n > 0 && out[n-1].Type == t.Type {
			out[n-1].Value += t.Value
			continue
		}
		out = append(out, t)
	}
	return out
}
