package e2e

// The pages opened from a disk, without any server.

import (
	"net/url"
	"path/filepath"
	"testing"
)

// fileAddress returns the address of a page on the disk.
func fileAddress(t *testing.T, s *built, path string) string {
	t.Helper()
	full, err := filepath.Abs(filepath.Join(s.dir, filepath.FromSlash(path)))
	if err != nil {
		t.Fatal(err)
	}
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(full)}).String()
}

func TestPagesFromADiskCompute(t *testing.T) {
	s := site(t)
	slug := s.lessons[0]
	c := findChange(t, s, slug)
	p := open(t, fileAddress(t, s, slug+"/index.html"))
	p.awake()
	p.typeInto(c.at, c.text)
	p.answered("yours")
	sheet, err := s.work(t, slug, p.save())
	if err != nil {
		t.Fatal(err)
	}
	compared, differences := differ(t, p, sheet)
	if compared == 0 {
		t.Error("nothing was compared")
	}
	for _, d := range differences {
		t.Error(d)
	}
	p.do(reload)
	p.answered("yours")
	p.quiet(fileAddress(t, s, ""))
}

func TestPagesFromADiskAreQuiet(t *testing.T) {
	s := site(t)
	for _, path := range s.pages {
		t.Run(path, func(t *testing.T) {
			t.Parallel()
			p := open(t, fileAddress(t, s, path))
			p.await("a page that is loaded", `() => document.readyState === "complete"`)
			p.quiet(fileAddress(t, s, ""))
		})
	}
}

// Every link between the pages leads to a page that is there, also from a disk.
func TestLinksLeadSomewhere(t *testing.T) {
	s := site(t)
	known := map[string]bool{}
	for _, path := range s.files {
		known[fileAddress(t, s, path)] = true
	}
	for _, path := range s.pages {
		p := open(t, fileAddress(t, s, path))
		links := ask[[]string](p, `() => [...document.querySelectorAll("a[href]")].filter((a) => !a.hash || a.pathname !== location.pathname).map((a) => a.href.split("#")[0])`)
		for _, link := range links {
			if !known[link] {
				t.Errorf("%s links to %s, which is not there", path, link)
			}
		}
		for _, missing := range ask[[]string](p, `() => [...document.querySelectorAll('a[href^="#"]')].filter((a) => !document.getElementById(a.hash.slice(1))).map((a) => a.hash)`) {
			t.Errorf("%s links to its own %s, which is not there", path, missing)
		}
	}
}
