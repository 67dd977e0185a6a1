// Command mathml turns each formulas.tex below the folders named on the
// command line into the formulas.mathml beside it. It fetches temml from npm,
// pinned, and runs it in goja; neither is needed to build the pages.
package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"

	"example.org/thouspan/site/book"
	"example.org/thouspan/site/npm"
	"github.com/dop251/goja"
)

var temml = npm.Package{Name: "temml", Version: "0.13.5",
	Integrity: "sha512-aPkDDgunanpLNL0ql32HbolqLep+w8DRcVXRql7rWrMt/PhczdLgL4UBYYVU3BYjCNjkGq4EqwIicu/zWr1iOg=="}

func main() {
	if err := run(context.Background(), os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "mathml:", err)
		os.Exit(1)
	}
}

// run turns every formulas.tex below the folders.
func run(ctx context.Context, roots []string) error {
	if len(roots) == 0 {
		return errors.New("name the folders to look in")
	}
	convert, err := converter(ctx)
	if err != nil {
		return err
	}
	for _, root := range roots {
		err := filepath.WalkDir(root, func(file string, entry fs.DirEntry, err error) error {
			if err != nil || entry.Name() != book.TeXFile {
				return err
			}
			return turn(file, convert)
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// turn writes the formulas.mathml beside one formulas.tex.
func turn(file string, convert func(string) (string, error)) error {
	source, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	out, err := book.WriteMathML(source, convert)
	if err != nil {
		return fmt.Errorf("%s: %w", filepath.Dir(file), err)
	}
	return os.WriteFile(filepath.Join(filepath.Dir(file), book.MathMLFile), out, 0o644)
}

// Styling that temml adds and that the pages' own style sheet replaces.
var (
	styling = regexp.MustCompile(` (?:style|class)="[^"]*"`)
	display = regexp.MustCompile(` display="block"`)
)

// converter returns what turns TeX into a bare MathML element.
func converter(ctx context.Context) (func(string) (string, error), error) {
	files, err := npm.Files(ctx, temml, "dist/temml.cjs")
	if err != nil {
		return nil, err
	}
	vm := goja.New()
	if _, err := vm.RunString("var module = {exports: {}}, exports = module.exports;"); err != nil {
		return nil, err
	}
	if _, err := vm.RunScript("temml.cjs", string(files["dist/temml.cjs"])); err != nil {
		return nil, fmt.Errorf("temml does not load: %w", err)
	}
	render, err := vm.RunString("(tex) => module.exports.renderToString(tex, {displayMode: true, throwOnError: true, annotate: false})")
	if err != nil {
		return nil, err
	}
	call, ok := goja.AssertFunction(render)
	if !ok {
		return nil, errors.New("temml has no renderToString")
	}
	return func(tex string) (string, error) {
		out, err := call(goja.Undefined(), vm.ToValue(tex))
		if err != nil {
			return "", err
		}
		return display.ReplaceAllString(styling.ReplaceAllString(out.String(), ""), ""), nil
	}, nil
}
