package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"time"

	"example.org/thouspan/examples"
	"example.org/thouspan/site/book"
	"example.org/thouspan/site/echarts"
)

// buildOptions says what to build and where.
type buildOptions struct {
	out            string // the site's folder
	echartsFile    string // echarts.min.js given by hand; empty: fetch by npm
	requireEcharts bool   // fail when the charts cannot be drawn
	noLive         bool   // leave out the program for the browser
}

// register binds the options to flags.
func (o *buildOptions) register(flags interface {
	StringVar(*string, string, string, string)
	BoolVar(*bool, string, bool, string)
}) {
	flags.StringVar(&o.out, "out", "public", "`DIR` in which the site is written; what stood there is replaced")
	flags.StringVar(&o.echartsFile, "echarts", "", "`FILE` echarts.min.js "+echarts.Version+", when npm cannot fetch it")
	flags.BoolVar(&o.requireEcharts, "require-charts", false, "fail when the charts cannot be drawn")
	flags.BoolVar(&o.noLive, "no-live", false, "leave out the program that works the lessons in the browser (quicker)")
}

const buildHead = `Builds the pages: works every lesson, checks it against published values, draws
the charts, compiles the lessons for the browser. A check that fails stops the
build and leaves the site that stood there as it was.`

// runBuild builds the site.
func runBuild(ctx context.Context, args []string, stderr io.Writer) error {
	var options buildOptions
	flags := newFlags("build", buildHead, stderr)
	options.register(flags)
	words, err := parse(flags, args)
	if err != nil {
		return err
	}
	if len(words) > 0 {
		return fmt.Errorf("build takes no words, but got %q", words[0])
	}
	return build(ctx, options, stderr)
}

// build makes the whole site beside its place, then swaps it in.
func build(ctx context.Context, options buildOptions, log io.Writer) error {
	began := time.Now()
	root, err := moduleRoot(ctx)
	if err != nil {
		return err
	}
	if err := checkOut(options.out, root); err != nil {
		return err
	}
	live := startLive(ctx, options, root)
	charts, script, err := chartDrawer(ctx, options, log)
	if err != nil {
		return err
	}
	made, err := book.Make(book.Input{Lessons: examples.Lessons(), Module: os.DirFS(root), Assets: os.DirFS(filepath.Join(root, "site", "assets")),
		Charts: charts, ChartScript: script != nil, Live: !options.noLive,
		Progress: func(what string) { fmt.Fprintf(log, "  %s\n", what) }})
	if err != nil {
		return fmt.Errorf("the pages are not right, and nothing was written:\n%w", err)
	}
	for name, data := range script {
		made.Files["assets/"+name] = data
	}
	if !options.noLive {
		fmt.Fprintln(log, "  the lessons, compiled for the browser")
		program := <-live
		if program.err != nil {
			return program.err
		}
		made.Files["assets/live.js"] = program.script
	}
	if err := swapIn(options.out, made.Files); err != nil {
		return err
	}
	fmt.Fprintf(log, "%s: %d lessons, %d checks agree, %d files, in %.1f s\n", options.out,
		len(examples.Lessons()), len(made.Checks), len(made.Files), time.Since(began).Seconds())
	return nil
}

// liveProgram is the browser's program, packed as a script.
type liveProgram struct {
	script []byte
	err    error
}

// startLive compiles the browser's program while the pages are made.
func startLive(ctx context.Context, options buildOptions, root string) <-chan liveProgram {
	done := make(chan liveProgram, 1)
	if options.noLive {
		return done
	}
	go func() {
		script, err := packLive(ctx, root)
		done <- liveProgram{script, err}
	}()
	return done
}

// chartDrawer returns what draws the charts, and the files that the browser
// needs for them; both nil, with a word in the log, when ECharts cannot be had.
func chartDrawer(ctx context.Context, options buildOptions, log io.Writer) (book.ChartDrawer, map[string][]byte, error) {
	fmt.Fprintln(log, "  the chart program")
	asset, err := echarts.Load(ctx, options.echartsFile)
	if err != nil {
		if options.requireEcharts || options.echartsFile != "" {
			return nil, nil, err
		}
		fmt.Fprintf(log, "  each chart is shown as its table: %v\n", err)
		return nil, nil, nil
	}
	renderer, err := echarts.NewRenderer(asset)
	if err != nil {
		return nil, nil, err
	}
	return renderer.SVG, map[string][]byte{"echarts.min.js": asset.Script, "echarts-LICENSE.txt": asset.Licence}, nil
}

// moduleRoot returns the folder of the module's go.mod.
func moduleRoot(ctx context.Context) (string, error) {
	command := exec.CommandContext(ctx, "go", "env", "GOMOD")
	var stderr bytes.Buffer
	command.Stderr = &stderr
	out, err := command.Output()
	if errors.Is(err, exec.ErrNotFound) {
		return "", errors.New("the go command is not on the path; it is needed to build the pages")
	}
	if err != nil {
		return "", fmt.Errorf("go env GOMOD: %w: %s", err, strings.TrimSpace(stderr.String()))
	}
	file := strings.TrimSpace(string(out))
	source, err := os.ReadFile(file)
	if err != nil || !bytes.HasPrefix(source, []byte("module example.org/thouspan\n")) {
		return "", errors.New("run this inside a copy of Thouspan's source: its go.mod is not here or above")
	}
	return filepath.Dir(file), nil
}

// siteMark is the file that says a folder is a site of ours, which a build may
// replace.
const siteMark = "lessons.json"

// checkOut refuses a place that holds something other than a site, so that a
// build never deletes a stranger's folder, and the source tree itself.
func checkOut(out, root string) error {
	if out == "" {
		return errors.New("-out needs a folder")
	}
	full, err := filepath.Abs(out)
	if err != nil {
		return err
	}
	if inside, err := filepath.Rel(full, root); err == nil && !strings.HasPrefix(inside, "..") {
		return fmt.Errorf("-out %s would replace the source itself", out)
	}
	info, err := os.Stat(full)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("-out %s: %w", out, err)
	}
	if !info.IsDir() {
		return fmt.Errorf("-out %s is a file, not a folder", out)
	}
	entries, err := os.ReadDir(full)
	if err != nil {
		return fmt.Errorf("-out %s: %w", out, err)
	}
	if _, err := os.Stat(filepath.Join(full, siteMark)); err != nil && len(entries) > 0 {
		return fmt.Errorf("-out %s holds files and is not a site built here; name an empty or a new folder", out)
	}
	return nil
}

// swapIn writes the files into a new folder beside out and puts it in out's
// place, so that a build that fails half-way leaves the old site whole.
func swapIn(out string, files map[string][]byte) error {
	full, err := filepath.Abs(out)
	if err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(filepath.Dir(full), filepath.Base(full)+".new-")
	if err != nil {
		return fmt.Errorf("the site cannot be written: %w", err)
	}
	defer os.RemoveAll(fresh)
	if err := writeAll(fresh, files); err != nil {
		return fmt.Errorf("the site cannot be written: %w", err)
	}
	old := fresh + ".old"
	if err := os.Rename(full, old); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the old site cannot be moved aside: %w", err)
	}
	if err := os.Rename(fresh, full); err != nil {
		return errors.Join(fmt.Errorf("the new site cannot be put in place: %w", err), os.Rename(old, full))
	}
	return os.RemoveAll(old)
}

// writeAll writes every file below dir, in order of name.
func writeAll(dir string, files map[string][]byte) error {
	if err := os.Chmod(dir, 0o755); err != nil {
		return err
	}
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, files[name], 0o644); err != nil {
			return err
		}
	}
	return nil
}
