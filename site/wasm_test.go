package main

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// unpackScript returns the worker's source and the program that a script
// carries.
func unpackScript(t *testing.T, script []byte) (worker string, wasm []byte) {
	t.Helper()
	parts := regexp.MustCompile(`(?s)^//[^\n]*\nwindow\.thouspanLive = \{\n  worker: (".*"),\n  packed: "([A-Za-z0-9+/=]*)"\n\};\n$`).FindSubmatch(script)
	if parts == nil {
		t.Fatalf("the script is not of the form that sets one global: %.200s", script)
	}
	if err := json.Unmarshal(parts[1], &worker); err != nil {
		t.Fatal(err)
	}
	packed, err := base64.StdEncoding.DecodeString(string(parts[2]))
	if err != nil {
		t.Fatal(err)
	}
	zip, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	if !zip.ModTime.IsZero() || zip.Name != "" {
		t.Errorf("the gzip header holds the time %v and the name %q, so builds would differ", zip.ModTime, zip.Name)
	}
	wasm, err = io.ReadAll(zip)
	if err != nil {
		t.Fatal(err)
	}
	return worker, wasm
}

func TestPackScriptCarriesWhatItIsGiven(t *testing.T) {
	wasm := bytes.Repeat([]byte("\x00asm\x01"), 1000)
	const source = "const s = \"</script>\\u2028\"; // µ\n"
	script, err := packScript(wasm, []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	worker, got := unpackScript(t, script)
	if worker != source || !bytes.Equal(got, wasm) {
		t.Errorf("the script carries %q and %d bytes, want %q and %d", worker, len(got), source, len(wasm))
	}
}

func TestLiveScriptIsReproducible(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the browser's program")
	}
	cache := t.TempDir()
	first, err := liveScript(t.Context(), ".", cache)
	if err != nil {
		t.Fatal(err)
	}
	kept, err := liveScript(t.Context(), ".", cache)
	if err != nil {
		t.Fatal(err)
	}
	fresh, err := liveScript(t.Context(), "render", t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, kept) {
		t.Error("the kept script differs from the one that was packed")
	}
	if !bytes.Equal(first, fresh) {
		t.Error("two builds, from two folders, differ")
	}
	worker, wasm := unpackScript(t, first)
	if !strings.Contains(worker, "class") || !strings.HasSuffix(worker, string(workerScript)) {
		t.Error("the worker lacks Go's glue or our own part")
	}
	if !bytes.HasPrefix(wasm, []byte("\x00asm")) {
		t.Errorf("the program begins with %q, which is not WebAssembly", wasm[:4])
	}
	t.Logf("program %d bytes, script %d bytes", len(wasm), len(first))
}

func TestSpoiltCacheIsNotUsed(t *testing.T) {
	cache := t.TempDir()
	if err := writePacked(cache, "key", []byte("script")); err != nil {
		t.Fatal(err)
	}
	if got, ok := readPacked(cache, "key"); !ok || string(got) != "script" {
		t.Fatalf("read back %q, %t", got, ok)
	}
	if _, ok := readPacked(cache, "other"); ok {
		t.Error("a script of another key was used")
	}
	file := filepath.Join(cache, packedFile)
	whole, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, whole[:len(whole)-1], 0o644); err != nil {
		t.Fatal(err)
	}
	if _, ok := readPacked(cache, "key"); ok {
		t.Error("a cut script was used")
	}
}

func TestLiveScriptSaysThatGoIsMissing(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	_, err := liveScript(t.Context(), ".", "")
	if err == nil || !strings.Contains(err.Error(), "go command") {
		t.Errorf("got %v, want an error that names the go command", err)
	}
}

// The browser's program must not carry what only the build needs.
func TestLiveProgramStaysSmall(t *testing.T) {
	command := exec.Command("go", "list", "-deps", livePackage)
	command.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	said, err := command.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	for _, pkg := range strings.Fields(string(said)) {
		for _, heavy := range []string{"github.com/yuin/goldmark", "github.com/dop251/goja", "github.com/alecthomas/chroma", "net/http", "os/exec", "go/parser"} {
			if pkg == heavy || strings.HasPrefix(pkg, heavy+"/") {
				t.Errorf("the browser's program reaches %s", pkg)
			}
		}
	}
}
