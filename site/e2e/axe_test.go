package e2e

// Whether everybody can use the pages, as far as a program can tell: axe-core,
// fetched by npm into the user's cache and pinned by its integrity hash.

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/base64"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

const (
	axeVersion   = "4.14.1"
	axeIntegrity = "FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ==" // SHA-512 of the package
)

var onceAxe = sync.OnceValues(loadAxe)

// loadAxe returns axe.min.js from the cached package, which npm fetches when
// it is not there.
func loadAxe() (string, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	dir := filepath.Join(cache, "thouspan", "axe-core")
	file := filepath.Join(dir, "axe-core-"+axeVersion+".tgz")
	pack, err := os.ReadFile(file)
	if err != nil || !intact(pack) {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return "", err
		}
		npm := exec.Command("npm", "pack", "axe-core@"+axeVersion, "--ignore-scripts", "--silent")
		npm.Dir = dir
		if said, err := npm.CombinedOutput(); err != nil {
			return "", fmt.Errorf("npm pack axe-core@%s: %w\n%s", axeVersion, err, said)
		}
		if pack, err = os.ReadFile(file); err != nil {
			return "", err
		}
	}
	if !intact(pack) {
		os.Remove(file)
		return "", fmt.Errorf("the package axe-core %s is not the one that is pinned: its SHA-512 differs", axeVersion)
	}
	return fileInPack(pack, "package/axe.min.js")
}

func intact(pack []byte) bool {
	sum := sha512.Sum512(pack)
	return base64.StdEncoding.EncodeToString(sum[:]) == axeIntegrity
}

func fileInPack(pack []byte, name string) (string, error) {
	unzipped, err := gzip.NewReader(bytes.NewReader(pack))
	if err != nil {
		return "", err
	}
	for files := tar.NewReader(unzipped); ; {
		head, err := files.Next()
		if err != nil {
			return "", fmt.Errorf("the package has no %s: %w", name, err)
		}
		if head.Name == name {
			text, err := io.ReadAll(files)
			return string(text), err
		}
	}
}

// axe returns what axe-core finds wrong with the page as it stands: by all its
// rules, or by those named.
func (p *tab) axe(t *testing.T, rules ...string) []string {
	t.Helper()
	script, err := onceAxe()
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	if !ask[bool](p, `() => Boolean(window.axe)`) {
		p.do(chromedp.Evaluate[chromedp.Void](script + ";0"))
	}
	return askWithin[[]string](p, 5*time.Minute, `(only) => axe.run(document, {
		resultTypes: ["violations"],
		...(only.length ? { runOnly: only } : { rules: { "target-size": { enabled: true } } }),
	}).then((result) => result.violations.flatMap((v) =>
		v.nodes.slice(0, 3).map((n) => v.id + ": " + v.help + ": " + n.html.slice(0, 160) + " " + (n.any[0] ? n.any[0].message : ""))))`, append([]string{}, rules...))
}

// Every rule at both widths in the light; in the dark, where nothing but the
// colours is another, the rule of colours.
func TestEveryPageIsAccessible(t *testing.T) {
	s := site(t)
	for _, path := range s.pages {
		t.Run(path, func(t *testing.T) {
			t.Parallel()
			p := open(t, s.server.URL+"/"+path)
			p.await("switches", `() => !document.querySelector(".switches").hidden`)
			if ask[bool](p, `() => Boolean(document.querySelector("form.readings"))`) {
				p.awake()
			}
			ask[bool](p, `() => { for (const d of document.querySelectorAll("details")) d.open = true; return true; }`)
			for _, width := range []int64{360, 1280} {
				p.size(width, 900)
				for light, rules := range map[string][]string{"light": nil, "dark": {"color-contrast"}} {
					call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
						Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: light}}})
					for _, violation := range p.axe(t, rules...) {
						t.Errorf("%s, %d px: %s", light, width, violation)
					}
				}
			}
		})
	}
}
