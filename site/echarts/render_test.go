package echarts

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"example.org/thouspan/internal/notebook/plot"
)

// asset returns ECharts, or skips where it cannot be had; under CI it must be.
func asset(t *testing.T) *Asset {
	t.Helper()
	a, err := Load(t.Context(), "")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skipf("no charts here: %v", err)
	}
	return a
}

// option is a small chart in the tokens' colours.
func option() json.RawMessage {
	colour := plot.Tokens()[0].Light
	return json.RawMessage(`{"xAxis":{"type":"value"},"yAxis":{"type":"value"},"series":[{"type":"line","areaStyle":{},"lineStyle":{"color":"` + colour +
		`"},"data":[[0,1.23456],[1,2],[2,1.5]]}]}`)
}

func TestSVG(t *testing.T) {
	r := NewRenderer(asset(t))
	r.cache = t.TempDir()
	svg, err := r.SVG("one-fit", option(), 680, 320)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(svg, `<svg class="wide" viewBox="0 0 680 320" aria-hidden="true"`) || !strings.HasSuffix(svg, "</svg>") {
		t.Errorf("the SVG is framed %.80s ... %s", svg, svg[len(svg)-20:])
	}
	if want := "var(--" + plot.Tokens()[0].Name + ")"; !strings.Contains(svg, want) || strings.Contains(svg, plot.Tokens()[0].Light) {
		t.Errorf("the colour was not turned into %s", want)
	}
	if !strings.Contains(svg, `</svg><svg class="narrow" viewBox="0 0 340 320"`) {
		t.Error("there is no picture for a telephone")
	}
	for _, bad := range []string{"<style", "style=", "font-family", "<script", "zr0-cls"} {
		if strings.Contains(svg, bad) {
			t.Errorf("the SVG holds %s", bad)
		}
	}
	seen := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
		if !strings.HasPrefix(m[1], "one-fit-") {
			t.Errorf("the id %q is not the chart's own", m[1])
		}
		if seen[m[1]] {
			t.Errorf("the id %q comes twice", m[1])
		}
		seen[m[1]] = true
	}
	t.Run("again, drawn anew", func(t *testing.T) {
		other := *r
		other.cache = ""
		again, err := other.SVG("one-fit", option(), 680, 320)
		if err != nil || again != svg {
			t.Errorf("the second drawing differs: %v", err)
		}
	})
	t.Run("again, from the cache", func(t *testing.T) {
		files, err := filepath.Glob(filepath.Join(r.cache, "*.svg"))
		if err != nil || len(files) != 1 {
			t.Fatalf("the cache holds %v, %v", files, err)
		}
		if err := os.WriteFile(files[0], []byte("kept"), 0o644); err != nil {
			t.Fatal(err)
		}
		if got, err := r.SVG("one-fit", option(), 680, 320); err != nil || got != "kept" {
			t.Errorf("got %q, %v", got, err)
		}
	})
	t.Run("not an option", func(t *testing.T) {
		if _, err := r.SVG("bad", json.RawMessage(`{"series":[{"type":"no such kind"`), 680, 320); err == nil {
			t.Error("broken JSON was drawn")
		}
	})
}

func TestLoadChecksAFileGivenByHand(t *testing.T) {
	file := filepath.Join(t.TempDir(), "echarts.min.js")
	if err := os.WriteFile(file, []byte("alert(1)"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Load(context.Background(), file); err == nil || !strings.Contains(err.Error(), "SHA-256") {
		t.Errorf("a wrong file gave %v", err)
	}
	if _, err := Load(context.Background(), file+".none"); err == nil {
		t.Error("a file that is not there gave no error")
	}
}

func TestOldChartsAreForgotten(t *testing.T) {
	dir := t.TempDir()
	now := time.Now()
	for name, age := range map[string]time.Duration{"old.svg": 2 * time.Hour, "new.svg": 0} {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, nil, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(file, now.Add(-age), now.Add(-age)); err != nil {
			t.Fatal(err)
		}
	}
	forget(dir, now.Add(-time.Hour))
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 1 || left[0].Name() != "new.svg" {
		t.Errorf("left are %v, %v; want new.svg", left, err)
	}
	forget(filepath.Join(dir, "none"), now)
}
