package echarts

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"time"

	"example.org/thouspan/internal/notebook/plot"
	"github.com/dop251/goja"
)

// Renderer draws charts. It is safe for use by several goroutines.
type Renderer struct {
	// program compiles ECharts, at the first chart that is not in the cache.
	program func() (*goja.Program, error)
	cache   string // folder of drawn charts; empty: none
	// places bounds how many engines run at once: each takes tens of megabytes.
	places chan struct{}
}

// drawnBy names the way of drawing, so that a cached chart of an older way is
// not used.
const drawnBy = "4"

// NewRenderer returns what draws charts with the asset.
func NewRenderer(asset *Asset) *Renderer {
	r := &Renderer{places: make(chan struct{}, runtime.GOMAXPROCS(0))}
	r.program = sync.OnceValues(func() (*goja.Program, error) {
		program, err := goja.Compile("echarts.min.js", string(asset.Script), false)
		if err != nil {
			return nil, fmt.Errorf("ECharts does not compile: %w", err)
		}
		return program, nil
	})
	if dir, err := os.UserCacheDir(); err == nil {
		r.cache = filepath.Join(dir, "thouspan", "charts")
		forget(r.cache, time.Now().Add(-keepFor))
	}
	return r
}

// keepFor is how long a drawn chart that nobody asks for stays in the cache.
const keepFor = 60 * 24 * time.Hour

// forget removes the drawn charts last used before a time, so that the cache
// does not grow for ever.
func forget(cache string, before time.Time) {
	entries, err := os.ReadDir(cache)
	if err != nil {
		return // there is no cache yet
	}
	for _, entry := range entries {
		if info, err := entry.Info(); err == nil && info.Mode().IsRegular() && info.ModTime().Before(before) {
			os.Remove(filepath.Join(cache, entry.Name()))
		}
	}
}

// narrowWidth is the width, in CSS pixels, of the picture for a telephone: the
// lettering of the wide one would be too small there.
const narrowWidth = 340

// SVG draws one chart, of the given size in CSS pixels, as SVG whose colours
// are the page's. Above twice the width of a telephone it draws two elements,
// of the classes "wide" and "narrow", of which the style sheet shows one. The
// id must be unique on the site.
func (r *Renderer) SVG(id string, option json.RawMessage, width, height int) (string, error) {
	sum := sha256.Sum256([]byte(strings.Join([]string{drawnBy, scriptHash, id, string(option), strconv.Itoa(width), strconv.Itoa(height), tokenNames()}, "\x00")))
	cached := filepath.Join(r.cache, hex.EncodeToString(sum[:])+".svg")
	if r.cache != "" {
		if svg, err := os.ReadFile(cached); err == nil {
			now := time.Now()
			os.Chtimes(cached, now, now) // still used; failing to say so only means drawing it again
			return string(svg), nil
		}
	}
	svg, err := r.pictures(id, option, width, height)
	if err != nil {
		return "", err
	}
	r.keep(cached, svg)
	return svg, nil
}

// pictures draws the chart for a desk and for a telephone, both at once.
func (r *Renderer) pictures(id string, option json.RawMessage, width, height int) (string, error) {
	if width < 2*narrowWidth {
		return r.picture(id, "", option, width, height)
	}
	var narrow string
	var narrowErr error
	done := make(chan struct{})
	go func() {
		defer close(done)
		narrow, narrowErr = r.picture(id+"-narrow", "narrow", option, narrowWidth, height)
	}()
	wide, err := r.picture(id, "wide", option, width, height)
	<-done
	return wide + narrow, errors.Join(err, narrowErr)
}

// picture draws the chart at one width, when one of the places to draw is free.
func (r *Renderer) picture(id, class string, option json.RawMessage, width, height int) (string, error) {
	r.places <- struct{}{}
	defer func() { <-r.places }()
	raw, err := r.draw(option, width, height)
	if err != nil {
		return "", err
	}
	return tidy(id, class, raw, width, height)
}

// keep caches a drawn chart; failing to is no error, only slower next time.
func (r *Renderer) keep(file, svg string) {
	if r.cache == "" || os.MkdirAll(r.cache, 0o755) != nil {
		return
	}
	temp, err := os.CreateTemp(r.cache, "drawing-")
	if err != nil {
		return
	}
	_, errWrite := temp.WriteString(svg)
	errClose := temp.Close()
	if errors.Join(errWrite, errClose) != nil || os.Rename(temp.Name(), file) != nil {
		os.Remove(temp.Name())
	}
}

// stage is what ECharts expects around it and does not find outside a browser.
const stage = `var setTimeout = function () { return 0; }, clearTimeout = function () {}, setInterval = setTimeout,
	clearInterval = clearTimeout, requestAnimationFrame = setTimeout, cancelAnimationFrame = clearTimeout;
var console = {log: function () {}, warn: function () {}, error: function (text) { complaints.push(String(text)); }};
var complaints = [];`

const drawing = `(function (option, width, height) {
	var chart = echarts.init(null, null, {renderer: "svg", ssr: true, width: width, height: height});
	option = JSON.parse(option);
	option.animation = false;
	chart.setOption(option);
	var svg = chart.renderToSVGString();
	chart.dispose();
	if (complaints.length) throw new Error(complaints.join("; "));
	return svg;
})`

// draw runs ECharts in a fresh engine, so that the ids it counts are the same
// in each run.
func (r *Renderer) draw(option json.RawMessage, width, height int) (string, error) {
	vm := goja.New()
	if _, err := vm.RunString(stage); err != nil {
		return "", err
	}
	program, err := r.program()
	if err != nil {
		return "", err
	}
	if _, err := vm.RunProgram(program); err != nil {
		return "", fmt.Errorf("ECharts does not start: %w", err)
	}
	value, err := vm.RunString(drawing)
	if err != nil {
		return "", err
	}
	call, ok := goja.AssertFunction(value)
	if !ok {
		return "", errors.New("ECharts has no way to draw")
	}
	svg, err := call(goja.Undefined(), vm.ToValue(string(option)), vm.ToValue(width), vm.ToValue(height))
	if err != nil {
		return "", fmt.Errorf("ECharts cannot draw it: %w", err)
	}
	return svg.String(), nil
}

// tokenNames lists the tokens, as part of a cached chart's key.
func tokenNames() string {
	var b strings.Builder
	for _, t := range plot.Tokens() {
		b.WriteString(t.Name + t.Light + " ")
	}
	return b.String()
}
