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
	"sync"
	"time"

	"example.org/thouspan/examples"
	"example.org/thouspan/internal/notebook"
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
	b, err := newBuilder(ctx, options, stderr)
	if err != nil {
		return err
	}
	return b.build(ctx)
}

// builder builds the site. What a change of prose, style or script leaves as it
// was is kept from one build to the next: the chart program, the lessons worked
// on their demos, the browser's program.
type builder struct {
	options buildOptions
	root    string // the module's folder
	log     io.Writer
	demos   *demos

	charted     bool              // the chart program was looked for
	charts      book.ChartDrawer  // nil: charts are shown as tables
	chartScript map[string][]byte // what the browser needs for charts
	live        []byte            // the browser's program; nil: not compiled yet
}

// newBuilder returns a builder of the module that holds the working folder.
func newBuilder(ctx context.Context, options buildOptions, log io.Writer) (*builder, error) {
	root, err := moduleRoot(ctx)
	if err != nil {
		return nil, err
	}
	return &builder{options: options, root: root, log: log, demos: newDemos()}, nil
}

// build makes the whole site beside its place, then swaps it in.
func (b *builder) build(ctx context.Context) error {
	began := time.Now()
	if err := checkOut(b.options.out, b.root); err != nil {
		return err
	}
	live := b.startLive(ctx)
	if err := b.loadCharts(ctx); err != nil {
		return err
	}
	made, err := book.Make(book.Input{Lessons: examples.Lessons(), Demo: b.demos.of,
		Module: os.DirFS(b.root), Assets: os.DirFS(filepath.Join(b.root, "site", "assets")),
		Charts: b.charts, ChartScript: b.charts != nil, Live: !b.options.noLive,
		Progress: func(what string) { fmt.Fprintf(b.log, "  %s\n", what) }})
	if err != nil {
		return fmt.Errorf("the pages are not right, and nothing was written:\n%w", err)
	}
	for name, data := range b.chartScript {
		made.Files["assets/"+name] = data
	}
	if !b.options.noLive {
		fmt.Fprintln(b.log, "  the lessons, compiled for the browser")
		program := <-live
		if program.err != nil {
			return program.err
		}
		b.live = program.script
		made.Files["assets/live.js"] = program.script
	}
	if err := swapIn(b.options.out, made.Files); err != nil {
		return err
	}
	fmt.Fprintf(b.log, "%s: %d lessons, %d checks agree, %d files, in %.1f s\n", b.options.out,
		len(examples.Lessons()), len(made.Checks), len(made.Files), time.Since(began).Seconds())
	return nil
}

// demos keeps each lesson worked on its demo, by the lesson's slug. The same
// program gives the same answers, so that they are worked once.
type demos struct {
	mu     sync.Mutex
	sheets map[string]*notebook.Sheet
}

func newDemos() *demos { return &demos{sheets: map[string]*notebook.Sheet{}} }

// of returns the lesson worked on its demo.
func (d *demos) of(lesson notebook.Lesson) (*notebook.Sheet, error) {
	d.mu.Lock()
	sheet := d.sheets[lesson.Slug]
	d.mu.Unlock()
	if sheet != nil {
		return sheet, nil
	}
	sheet, err := lesson.Demo()
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.sheets[lesson.Slug] = sheet
	return sheet, nil
}

// liveProgram is the browser's program, packed as a script.
type liveProgram struct {
	script []byte
	err    error
}

// startLive compiles the browser's program while the pages are made, unless it
// is there from an earlier build.
func (b *builder) startLive(ctx context.Context) <-chan liveProgram {
	done := make(chan liveProgram, 1)
	switch {
	case b.options.noLive:
	case b.live != nil:
		done <- liveProgram{script: b.live}
	default:
		go func() {
			script, err := packLive(ctx, b.root)
			done <- liveProgram{script, err}
		}()
	}
	return done
}

// loadCharts finds what draws the charts, once; when it cannot be had, each
// chart is shown as its table and the log says why.
func (b *builder) loadCharts(ctx context.Context) error {
	if b.charted {
		return nil
	}
	fmt.Fprintln(b.log, "  the chart program")
	asset, err := echarts.Load(ctx, b.options.echartsFile)
	if err != nil {
		if b.options.requireEcharts || b.options.echartsFile != "" {
			return err
		}
		fmt.Fprintf(b.log, "  each chart is shown as its table: %v\n", err)
		b.charted = true
		return nil
	}
	b.charts, b.charted = echarts.NewRenderer(asset).SVG, true
	b.chartScript = map[string][]byte{"echarts.min.js": asset.Script, "echarts-LICENSE.txt": asset.Licence}
	return nil
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
