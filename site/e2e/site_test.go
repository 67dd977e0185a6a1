package e2e

// The site under test: built once, served on this machine, and the same
// program for the terminal, whose answers the browser's are held against.

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// moduleRoot is the folder of the module that holds the lessons.
const moduleRoot = "../.."

// built is the site and the terminal's program, in one temporary folder.
type built struct {
	dir     string // of the pages
	program string // the compiled ./site
	server  *httptest.Server
	pages   []string // paths of the pages to test, as in a URL: "sweep/index.html"
	files   []string // paths of all files
	every   []string // slugs of all lessons
	lessons []string // slugs
}

var (
	scratch  string // removed at the end
	endings  []func()
	onceSite = sync.OnceValues(buildSite)
)

func TestMain(m *testing.M) {
	var err error
	if scratch, err = os.MkdirTemp("", "thouspan-e2e-"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	code := m.Run()
	for i := len(endings) - 1; i >= 0; i-- {
		endings[i]()
	}
	os.RemoveAll(scratch)
	os.Exit(code)
}

// site returns the site under test.
func site(t *testing.T) *built {
	t.Helper()
	s, err := onceSite()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func buildSite() (*built, error) {
	s := &built{dir: os.Getenv("THOUSPAN_SITE"), program: filepath.Join(scratch, "site")}
	if said, err := command("go", "build", "-o", s.program, "./site"); err != nil {
		return nil, fmt.Errorf("%w\n%s", err, said)
	}
	if s.dir == "" {
		s.dir = filepath.Join(scratch, "public")
		if said, err := command(s.program, "build", "-out", s.dir); err != nil {
			return nil, fmt.Errorf("%w\n%s", err, said)
		}
	}
	if err := s.list(); err != nil {
		return nil, err
	}
	s.server = httptest.NewServer(http.FileServer(http.Dir(s.dir)))
	endings = append(endings, s.server.Close)
	return s, nil
}

// command runs a program in the module's folder and returns what it wrote.
func command(name string, args ...string) (string, error) {
	var out bytes.Buffer
	c := exec.Command(name, args...)
	c.Dir, c.Stdout, c.Stderr = moduleRoot, &out, &out
	if err := c.Run(); err != nil {
		return out.String(), fmt.Errorf("%s %s: %w", filepath.Base(name), strings.Join(args, " "), err)
	}
	return out.String(), nil
}

// limit keeps, when folders are named ("sweep,amps,machine"), only those lessons
// and pages, and the home page. With all of them the tests take about as many
// minutes as there are pages, over three.
func (s *built) limit(named string) {
	if named == "" {
		return
	}
	keep := map[string]bool{}
	for _, slug := range strings.Split(named, ",") {
		keep[slug] = true
	}
	s.lessons = slices.DeleteFunc(s.lessons, func(slug string) bool { return !keep[slug] })
	s.pages = slices.DeleteFunc(s.pages, func(page string) bool {
		folder, _, isBelow := strings.Cut(page, "/")
		return isBelow && !keep[folder]
	})
}

// list finds the pages and the lessons.
func (s *built) list() error {
	err := filepath.WalkDir(s.dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(s.dir, path)
		s.files = append(s.files, filepath.ToSlash(name))
		if entry.Name() == "index.html" {
			s.pages = append(s.pages, filepath.ToSlash(name))
		}
		return err
	})
	if err != nil {
		return err
	}
	text, err := os.ReadFile(filepath.Join(s.dir, "lessons.json"))
	if err != nil {
		return err
	}
	var lessons []struct{ Slug string }
	if err := json.Unmarshal(text, &lessons); err != nil {
		return err
	}
	for _, l := range lessons {
		s.lessons = append(s.lessons, l.Slug)
	}
	s.every = slices.Clone(s.lessons)
	s.limit(os.Getenv("THOUSPAN_E2E"))
	if len(s.lessons) == 0 {
		return errors.New("the site has no lessons")
	}
	return nil
}

// chartsDrawn reports whether the site was built with ECharts.
func (s *built) chartsDrawn() bool {
	_, err := os.Stat(filepath.Join(s.dir, "assets", "echarts.min.js"))
	return err == nil
}

// lessonWith returns the first lesson whose page holds the given text, of those
// under test if there is one, or fails the test.
func (s *built) lessonWith(t *testing.T, text string) string {
	t.Helper()
	for _, slug := range slices.Concat(s.lessons, s.every) {
		page, err := os.ReadFile(filepath.Join(s.dir, slug, "index.html"))
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(page, []byte(text)) {
			return slug
		}
	}
	t.Fatalf("no lesson's page holds %s", text)
	return ""
}

// template returns the lesson's demo document.
func (s *built) template(t *testing.T, slug string) []byte {
	t.Helper()
	said, err := command(s.program, "work", slug, "-template")
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	return []byte(said)
}

// work works a document in the terminal and returns the sheet as JSON.
func (s *built) work(t *testing.T, slug string, document []byte) ([]byte, error) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "readings.json")
	if err := os.WriteFile(file, document, 0o644); err != nil {
		t.Fatal(err)
	}
	said, err := command(s.program, "work", slug, "-json", "-in", file)
	if err != nil {
		return nil, fmt.Errorf("%w\n%s", err, said)
	}
	return []byte(said), nil
}

// variant serves the site with some files replaced.
func (s *built) variant(t *testing.T, replaced map[string]string) string {
	t.Helper()
	pages := http.FileServer(http.Dir(s.dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if text, ok := replaced[strings.TrimPrefix(r.URL.Path, "/")]; ok {
			w.Header().Set("Content-Type", "text/javascript")
			fmt.Fprint(w, text)
			return
		}
		pages.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return server.URL
}
