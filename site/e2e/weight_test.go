package e2e

import (
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// heaviest is the most, in bytes, that a page may weigh before the files that
// all pages share.
const heaviest = 200_000

// Every page is light enough for a telephone on a slow line.
func TestPagesAreLight(t *testing.T) {
	s := site(t)
	if !s.chartsDrawn() {
		t.Skip("the site was built without its chart program")
	}
	pages := 0
	err := filepath.WalkDir(s.dir, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".html") {
			return err
		}
		info, err := entry.Info()
		if err != nil {
			return err
		}
		pages++
		if info.Size() > heaviest {
			t.Errorf("%s weighs %d bytes, at most %d are meant", name, info.Size(), heaviest)
		}
		return nil
	})
	if err != nil || pages < 20 {
		t.Errorf("%d pages were weighed: %v", pages, err)
	}
}
