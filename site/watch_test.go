package main

import (
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// write puts a file below dir and makes the folders to it.
func write(t *testing.T, dir, name, text string) string {
	t.Helper()
	file := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

func TestChangesOfTheSource(t *testing.T) {
	root := t.TempDir()
	out := filepath.Join(root, "public")
	prose := write(t, root, "examples/sweep/lesson.md", "one")
	write(t, root, "site/main.go", "package main")
	write(t, root, ".git/index", "one")
	write(t, root, "public/index.html", "one")
	write(t, root, "site/e2e/go.mod", "module example.org/thouspan/site/e2e")
	write(t, root, "site/e2e/a_test.go", "package e2e")
	look := func() source {
		t.Helper()
		seen, err := lookAt(root, out)
		if err != nil {
			t.Fatal(err)
		}
		return seen
	}
	before := look()
	if len(before) != 2 {
		t.Fatalf("%d files are looked at, want 2: not the site, not hidden folders, not other modules: %v", len(before), before)
	}
	if changed := look().changes(before); len(changed) != 0 {
		t.Errorf("nothing was changed, but %q", changed)
	}
	write(t, root, ".git/index", "two")
	write(t, root, "public/index.html", "two, longer")
	write(t, root, "public.new-1/index.html", "a build under way")
	if changed := look().changes(before); len(changed) != 0 {
		t.Errorf("only the site was changed, but %q", changed)
	}
	write(t, root, "examples/sweep/lesson.md", "one and a half")
	added := write(t, root, "examples/sweep/more.go", "package sweep")
	if changed := look().changes(before); len(changed) != 2 || changed[0] != prose || changed[1] != added {
		t.Errorf("changed: %q, want the prose and the new file", changed)
	}
	before = look()
	// The same size, changed at another time.
	if err := os.Chtimes(prose, time.Time{}, time.Now().Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(added); err != nil {
		t.Fatal(err)
	}
	if changed := look().changes(before); len(changed) != 2 {
		t.Errorf("changed: %q, want the file of another time and the one that is gone", changed)
	}
}

func TestWhatChangesTheProgram(t *testing.T) {
	for file, want := range map[string]bool{
		"wear/profile.go": true, "go.mod": true, "site/book/templates/frame.html": true,
		"wear/profile_test.go": false, "examples/sweep/lesson.md": false, "site/assets/site.css": false,
		"site/assets/worker.js": true, "site/assets/page.js": false,
	} {
		if got := isProgram(filepath.FromSlash(file)); got != want {
			t.Errorf("isProgram(%s) = %t", file, got)
		}
	}
}

func TestServedPagesReload(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "index.html", "<html><head><title>a</title></head><body>home</body></html>")
	write(t, dir, "sweep/index.html", "<html><head></head><body>sweep</body></html>")
	write(t, dir, "assets/page.js", "let a = '</head>';")
	secret := write(t, filepath.Dir(dir), "secret.html", "not for the browser")
	w := &watcher{}
	server := httptest.NewServer(w.reloading(dir))
	defer server.Close()
	get := func(path string) string {
		t.Helper()
		answer, err := http.Get(server.URL + path)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		text, err := io.ReadAll(answer.Body)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	for path, word := range map[string]string{"/": "home", "/index.html": "home", "/sweep/": "sweep"} {
		if page := get(path); strings.Count(page, `<script src="/-/reload.js" defer></script></head>`) != 1 || !strings.Contains(page, word) {
			t.Errorf("%s is served as %q", path, page)
		}
	}
	if script := get("/assets/page.js"); script != "let a = '</head>';" {
		t.Errorf("a script was changed: %q", script)
	}
	if page := get("/..%2f" + filepath.Base(secret)); strings.Contains(page, "not for") {
		t.Error("a file outside the folder is served")
	}
	before := get("/-/build.js")
	w.builds.Add(1)
	if after := get("/-/build.js"); after == before || !strings.Contains(after, "(1)") {
		t.Errorf("after a build: %q, before: %q", after, before)
	}
	if !strings.Contains(get("/-/reload.js"), "location.reload()") {
		t.Error("the script does not reload")
	}
}
