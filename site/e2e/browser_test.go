package e2e

// One Chromium for all tests; a tab with an empty memory for each.

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// patience bounds every wait for the page, on a busy machine too.
const patience = time.Minute

var onceBrowser = sync.OnceValues(startBrowser)

func startBrowser() (context.Context, error) {
	var path string
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			path = found
			break
		}
	}
	if path == "" {
		return nil, nil
	}
	profile := filepath.Join(scratch, "profile")
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.DisableGPU, chromedp.UserDataDir(profile), chromedp.WindowSize(1280, 900),
		// Nothing is to glide away from under a click.
		chromedp.Flag("force-prefers-reduced-motion", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-features", "Translate,OptimizationHints,MediaRouter"))
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stop := chromedp.NewContext(allocator)
	endings = append(endings, stopAllocator, stop)
	if err := chromedp.Do(ctx); err != nil {
		return nil, fmt.Errorf("%s does not start: %w", path, err)
	}
	return ctx, nil
}

// call sends a command of the browser's protocol to the tab.
func call[P, R any](p *tab, command cdp.Command[P, R], params P) R {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	result, err := chromedp.Call(ctx, command, params)
	if err != nil {
		p.t.Fatal(err)
	}
	return result
}

// tab is one page under test.
type tab struct {
	t   *testing.T
	ctx context.Context
	// downloads is the folder that saved files land in.
	downloads string

	mu       sync.Mutex
	noise    []string // console messages, exceptions, log entries
	requests []string
}

// open opens a tab with nothing remembered, at an address.
func open(t *testing.T, address string) *tab {
	t.Helper()
	p := blank(t)
	p.visit(address)
	return p
}

// blank opens an empty tab with nothing remembered.
func blank(t *testing.T) *tab {
	t.Helper()
	parent, err := onceBrowser()
	if err != nil {
		t.Fatal(err)
	}
	if parent == nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("there is no Chromium on the path, and CI=true asks for one")
		}
		t.Skip("there is no Chromium on the path")
	}
	p := &tab{t: t, downloads: t.TempDir()}
	ctx, cancel := chromedp.NewContext(parent, chromedp.WithNewBrowserContext(), chromedp.WithListener(p.hear))
	t.Cleanup(cancel)
	p.ctx = ctx
	p.do(chromedp.EmulateViewport(1280, 900))
	call(p, network.Enable, network.EnableParams{})
	// Several tabs are tested at a time; each is to think that it has the focus.
	call(p, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
	id := chromedp.FromContext(ctx).BrowserContextID
	if _, err := chromedp.CallBrowser(ctx, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{
		Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, BrowserContextID: id, DownloadPath: p.downloads}); err != nil {
		t.Fatal(err)
	}
	return p
}

// hear notes everything that a quiet page would not do.
func (p *tab) hear(event any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch event := event.(type) {
	case *runtime.EventConsoleAPICalled:
		var words []string
		for _, arg := range event.Args {
			words = append(words, string(arg.Value)+arg.Description)
		}
		p.noise = append(p.noise, fmt.Sprintf("console.%s: %s", event.Type, strings.Join(words, " ")))
	case *runtime.EventExceptionThrown:
		text := event.ExceptionDetails.Text
		if event.ExceptionDetails.Exception != nil {
			text += " " + event.ExceptionDetails.Exception.Description
		}
		p.noise = append(p.noise, "exception: "+text)
	case *log.EventEntryAdded:
		p.noise = append(p.noise, fmt.Sprintf("log %s: %s %s", event.Entry.Level, event.Entry.Text, event.Entry.URL))
	case *network.EventRequestWillBeSent:
		p.requests = append(p.requests, event.Request.URL)
	}
}

// quiet fails the test if the page said anything or asked for anything outside
// its own address.
func (p *tab) quiet(origin string) {
	p.t.Helper()
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, noise := range p.noise {
		p.t.Errorf("the page is not quiet: %s", noise)
	}
	if len(p.requests) == 0 {
		p.t.Error("no request was seen, so none was judged")
	}
	for _, address := range p.requests {
		if !strings.HasPrefix(address, origin) && !strings.HasPrefix(address, "data:") && !strings.HasPrefix(address, "blob:") {
			p.t.Errorf("a request left the page's own address: %s", address)
		}
	}
}

// do carries out steps within the test's patience.
func (p *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	if chromedp.FromContext(p.ctx).Target == nil {
		// The first step binds the tab's life to its context.
		if err := chromedp.Do(p.ctx); err != nil {
			p.t.Fatal(err)
		}
	}
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		p.t.Fatal(err)
	}
}

func (p *tab) visit(address string) {
	p.t.Helper()
	p.do(chromedp.Navigate(address))
}

// size sets the window's size in CSS pixels.
func (p *tab) size(width, height int64) {
	p.t.Helper()
	p.do(chromedp.EmulateViewport(width, height))
}

// keys presses keys where the focus is.
func (p *tab) keys(keys string) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(keys))
}

// ask evaluates a function of JavaScript on the page with the given arguments.
func ask[T any](p *tab, function string, args ...any) T {
	p.t.Helper()
	return askWithin[T](p, patience, function, args...)
}

// askWithin is ask with another patience.
func askWithin[T any](p *tab, patience time.Duration, function string, args ...any) T {
	p.t.Helper()
	texts := make([]string, len(args))
	for i, arg := range args {
		text, err := json.Marshal(arg)
		if err != nil {
			p.t.Fatal(err)
		}
		texts[i] = string(text)
	}
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T]("("+function+")("+strings.Join(texts, ", ")+")", chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%s: %v", function, err)
	}
	return value
}

// await waits until a function of JavaScript gives true.
func (p *tab) await(what, function string, args ...any) {
	p.t.Helper()
	for began := time.Now(); time.Since(began) < patience; time.Sleep(20 * time.Millisecond) {
		if ask[bool](p, function, args...) {
			return
		}
	}
	p.t.Fatalf("after %v the page still does not show: %s\nstate: %s", patience, what, p.state())
}

// state is what the form says about the answers on the page.
func (p *tab) state() string {
	p.t.Helper()
	return ask[string](p, `() => { const o = document.querySelector(".state output"); return o ? document.documentElement.dataset.readings + ": " + o.textContent : "no form"; }`)
}
