package main

// Building again while the pages are shown: a change of the source is seen
// within half a second, and the pages that are open reload themselves.

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"time"
)

// lookEvery is the time between two looks at the source.
const lookEvery = 300 * time.Millisecond

// stamp is what tells one state of a file from another.
type stamp struct {
	changed time.Time
	size    int64
}

// source is the state of every file that the pages are made from, by path.
type source map[string]stamp

// lookAt returns the state of the source below root, without the site itself,
// hidden folders and other modules.
func lookAt(root, out string) (source, error) {
	seen := source{}
	err := filepath.WalkDir(root, func(file string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() {
			// A build stands beside the site, under a name that begins alike.
			hidden := strings.HasPrefix(entry.Name(), ".") || strings.HasPrefix(file, out)
			if file != root && (hidden || isModule(file)) {
				return fs.SkipDir
			}
			return nil
		}
		info, err := entry.Info()
		if err != nil {
			return err
		}
		seen[file] = stamp{info.ModTime(), info.Size()}
		return nil
	})
	return seen, err
}

// isModule reports whether the folder is a module's own.
func isModule(dir string) bool {
	_, err := os.Stat(filepath.Join(dir, "go.mod"))
	return err == nil
}

// changes returns the files that are new, gone or otherwise than before, sorted.
func (s source) changes(before source) []string {
	var files []string
	for file, now := range s {
		if before[file] != now {
			files = append(files, file)
		}
	}
	for file := range before {
		if _, still := s[file]; !still {
			files = append(files, file)
		}
	}
	slices.Sort(files)
	return files
}

// isProgram reports whether a change of the file changes this program, which
// must then be built anew to make the pages.
func isProgram(file string) bool {
	switch path.Ext(filepath.ToSlash(file)) {
	case ".go", ".mod", ".sum", ".html": // the page frame is part of the program
		return !strings.HasSuffix(file, "_test.go")
	case ".js": // so is the worker's script
		return strings.HasSuffix(filepath.ToSlash(file), "site/assets/worker.js")
	}
	return false
}

// watcher builds again on changes and counts the builds.
type watcher struct {
	*builder
	// old is set once the running program is no longer that of the source.
	old bool
	// builds is the number of builds that went well.
	builds atomic.Int64
}

// run looks until the context ends.
func (w *watcher) run(ctx context.Context) {
	out, err := filepath.Abs(w.options.out)
	if err != nil {
		return
	}
	before, err := lookAt(w.root, out)
	for {
		select {
		case <-ctx.Done():
			return
		case <-time.After(lookEvery):
		}
		now, lookErr := lookAt(w.root, out)
		if lookErr != nil || err != nil {
			before, err = now, lookErr // a file went while it was looked at
			continue
		}
		files := now.changes(before)
		before = now
		if len(files) > 0 {
			w.rebuild(ctx, files)
		}
	}
}

// rebuild makes the site again: here, or by the program built anew when the
// program itself has changed. A build that fails leaves the site that stands.
func (w *watcher) rebuild(ctx context.Context, files []string) {
	name, _ := filepath.Rel(w.root, files[0])
	fmt.Fprintf(w.log, "%s has changed", filepath.ToSlash(name))
	if len(files) > 1 {
		fmt.Fprintf(w.log, ", and %d more", len(files)-1)
	}
	fmt.Fprintln(w.log)
	w.old = w.old || slices.ContainsFunc(files, isProgram)
	made := w.build
	if w.old {
		made = w.buildAnew
	}
	if err := made(ctx); err != nil {
		fmt.Fprintf(w.log, "site: %v\nthe pages are still those of before\n", err)
		return
	}
	w.builds.Add(1)
}

// buildAnew builds by the source's present program.
func (w *watcher) buildAnew(ctx context.Context) error {
	options := w.options
	out, err := filepath.Abs(options.out)
	if err != nil {
		return err
	}
	args := []string{"run", "-ldflags=-s -w", "./site", "build", "-out", out}
	if options.echartsFile != "" {
		file, err := filepath.Abs(options.echartsFile)
		if err != nil {
			return err
		}
		args = append(args, "-echarts", file)
	}
	args = append(args, fmt.Sprintf("-require-charts=%t", options.requireEcharts), fmt.Sprintf("-no-live=%t", options.noLive))
	command := exec.CommandContext(ctx, "go", args...)
	command.Dir, command.Stdout, command.Stderr = w.root, w.log, w.log
	return command.Run()
}

// reloadScript asks for the number of the build and reloads the page when it
// has grown. A script element asks, since pages may load nothing else.
const reloadScript = `"use strict";
(() => {
  let first;
  window.thouspanBuild = (number) => {
    if (first !== undefined && number !== first) location.reload();
    first = number;
  };
  setInterval(() => {
    if (document.hidden) return;
    const asking = document.createElement("script");
    asking.src = "/-/build.js?" + Date.now();
    asking.onload = asking.onerror = () => asking.remove();
    document.head.append(asking);
  }, 500);
})();
`

// reloading shows the folder's files, with a script in each page that reloads
// it after a build.
func (w *watcher) reloading(dir string) http.Handler {
	files := http.FileServer(http.Dir(dir))
	mux := http.NewServeMux()
	script := func(text func() string) http.HandlerFunc {
		return func(rw http.ResponseWriter, _ *http.Request) {
			rw.Header().Set("Content-Type", "text/javascript; charset=utf-8")
			io.WriteString(rw, text())
		}
	}
	mux.HandleFunc("/-/reload.js", script(func() string { return reloadScript }))
	mux.HandleFunc("/-/build.js", script(func() string { return fmt.Sprintf("window.thouspanBuild?.(%d);\n", w.builds.Load()) }))
	mux.HandleFunc("/", func(rw http.ResponseWriter, r *http.Request) {
		page := path.Clean("/" + r.URL.Path)
		if strings.HasSuffix(r.URL.Path, "/") {
			page = path.Join(page, "index.html")
		}
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(page)))
		if err != nil || path.Ext(page) != ".html" {
			files.ServeHTTP(rw, r)
			return
		}
		rw.Header().Set("Content-Type", "text/html; charset=utf-8")
		rw.Write(bytes.Replace(text, []byte("</head>"), []byte(`<script src="/-/reload.js" defer></script></head>`), 1))
	})
	return mux
}
