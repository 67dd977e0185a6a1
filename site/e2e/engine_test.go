package e2e

// A second browser engine: Firefox opens a lesson's page with a script that
// types a reading and tells the server what the page then shows. It must be
// what Chromium shows.

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// shownFigures is a function that returns every figure's text in the units
// chosen.
const shownFigures = `() => [...document.querySelectorAll(".item.figure .value")].map((e) => e.innerText.replace(/\s+/g, " ").trim())`

// probe is the script that Firefox runs in the page; an image carries what it
// says, since pages may load nothing else.
const probe = `"use strict";
(() => {
  const faults = [];
  addEventListener("error", (event) => faults.push(String(event.message || event.target.src)), true);
  addEventListener("unhandledrejection", (event) => faults.push(String(event.reason)));
  addEventListener("securitypolicyviolation", (event) => faults.push(event.violatedDirective + " " + event.blockedURI));
  const until = async (done) => { while (!done()) await new Promise((go) => setTimeout(go, 50)); };
  const page = document.documentElement;
  const tell = (said) => { new Image().src = "/said?" + encodeURIComponent(JSON.stringify(said)); };
  addEventListener("load", async () => {
    const { box, text } = PLAN;
    await until(() => !document.querySelector(".actions")?.hidden && !document.querySelector("form.readings input[readonly]"));
    const place = (FIND)(box);
    place.focus();
    place.value = text;
    place.dispatchEvent(new Event("input", { bubbles: true }));
    await until(() => page.dataset.readings === "yours" || page.dataset.readings === "stale");
    const metric = (SHOWN)();
    document.querySelector("[data-set-units=inch]").click();
    const inch = (SHOWN)();
    tell({ readings: page.dataset.readings, metric, inch, faults, width: page.scrollWidth - page.clientWidth });
  });
})();
`

// seen is what an engine shows.
type seen struct {
	Readings string
	Metric   []string
	Inch     []string
	Faults   []string
	Width    int
}

// quietFirefox keeps a fresh Firefox from asking and fetching anything of its
// own.
const quietFirefox = `user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.aboutwelcome.enabled", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("toolkit.telemetry.enabled", false);
user_pref("app.update.enabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("extensions.update.enabled", false);
user_pref("services.settings.server", "data:,#remote-settings-dummy/v1");
`

func TestAnotherEngineShowsTheSame(t *testing.T) {
	firefox, err := exec.LookPath("firefox-esr")
	if err != nil {
		firefox, err = exec.LookPath("firefox")
	}
	switch {
	case err != nil && os.Getenv("CI") != "":
		t.Fatal("there is no Firefox here, and CI needs one")
	case err != nil:
		t.Skip("there is no Firefox here (Debian: firefox-esr)")
	}
	s := site(t)
	lessons := s.lessons
	if len(lessons) < len(s.every) { // a short run
		lessons = lessons[:1]
	}
	for _, slug := range lessons {
		t.Run(slug, func(t *testing.T) {
			c := findChange(t, s, slug)
			got := inFirefox(t, s, firefox, slug, c)
			p := open(t, s.server.URL+"/"+slug+"/index.html")
			p.awake()
			p.typeInto(c.at, c.text)
			p.answered("yours")
			want := ask[[]string](p, shownFigures)
			if got.Readings != "yours" || len(want) == 0 || strings.Join(got.Metric, "\n") != strings.Join(want, "\n") {
				t.Errorf("after %q was typed, Firefox (%s) shows\n%q, Chromium\n%q", c.text, got.Readings, got.Metric, want)
			}
			if strings.Join(got.Inch, "\n") == strings.Join(got.Metric, "\n") {
				t.Errorf("Firefox shows the same in inch as in metric: %q", got.Inch)
			}
			if len(got.Faults) > 0 {
				t.Errorf("Firefox complains: %q", got.Faults)
			}
			if got.Width > 0 {
				t.Errorf("in Firefox the page is %d px wider than the window", got.Width)
			}
		})
	}
}

// inFirefox opens the lesson's page in a fresh Firefox, types, and returns what
// the page then shows.
func inFirefox(t *testing.T, s *built, firefox, slug string, c change) seen {
	t.Helper()
	page, err := os.ReadFile(filepath.Join(s.dir, slug, "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	page = bytes.Replace(page, []byte("</head>"), []byte(`<script src="/probe.js"></script></head>`), 1)
	script := strings.NewReplacer("PLAN", asJSON(t, map[string]any{"box": c.at, "text": c.text}), "FIND", boxFunction, "SHOWN", shownFigures).Replace(probe)
	said := make(chan string, 1)
	files := http.FileServer(http.Dir(s.dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/" + slug + "/":
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			w.Write(page)
		case "/probe.js":
			w.Header().Set("Content-Type", "text/javascript")
			w.Write([]byte(script))
		case "/said":
			select {
			case said <- r.URL.RawQuery:
			default:
			}
			w.WriteHeader(http.StatusNoContent)
		default:
			files.ServeHTTP(w, r)
		}
	}))
	t.Cleanup(server.Close)
	profile := t.TempDir()
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(quietFirefox), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	command := exec.CommandContext(ctx, firefox, "--headless", "--no-remote", "--profile", profile, server.URL+"/"+slug+"/")
	command.Env = append(os.Environ(), "HOME="+profile, "MOZ_HEADLESS_WIDTH=1280", "MOZ_HEADLESS_HEIGHT=900")
	var out bytes.Buffer
	command.Stdout, command.Stderr = &out, &out
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	defer command.Wait()
	defer stop()
	select {
	case query := <-said:
		return decodeSeen(t, query)
	case <-time.After(2 * patience):
		t.Fatalf("Firefox said nothing in %v:\n%s", 2*patience, out.String())
	}
	return seen{}
}

// decodeSeen reads what the probe's image asked for.
func decodeSeen(t *testing.T, query string) seen {
	t.Helper()
	text, err := url.QueryUnescape(strings.ReplaceAll(query, "+", "%2B"))
	if err != nil {
		t.Fatal(err)
	}
	var s seen
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	return s
}
