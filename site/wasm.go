package main

// The browser's program: the lessons compiled to WebAssembly, gzipped, in
// base64, in one classic script that sets one global. This is the form that a
// page opened from a disk can load: there, modules, fetch and workers from
// files are all refused.

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

//go:embed assets/worker.js
var workerScript []byte

// livePackage is the program that is built for the browser.
const livePackage = "example.org/thouspan/site/live"

// packLive returns assets/live.js, built from the module at root.
func packLive(ctx context.Context, root string) ([]byte, error) {
	return liveScript(ctx, root, liveCache())
}

// liveScript builds the browser's program from the module that holds dir and
// returns assets/live.js. The packed script is kept in the folder cache and
// used again while the program has not changed; an empty cache keeps nothing.
// Two builds of the same source by the same Go give the same bytes.
func liveScript(ctx context.Context, dir, cache string) ([]byte, error) {
	goCommand, err := exec.LookPath("go")
	if err != nil {
		return nil, errors.New("the pages' program is built by the go command, and there is none on the path")
	}
	wasm, err := buildWasm(ctx, goCommand, dir)
	if err != nil {
		return nil, err
	}
	glue, err := wasmGlue(ctx, goCommand, dir)
	if err != nil {
		return nil, err
	}
	worker := append(append(glue, '\n'), workerScript...)
	key := hashOf(wasm, worker)
	if script, ok := readPacked(cache, key); ok {
		return script, nil
	}
	script, err := packScript(wasm, worker)
	if err != nil {
		return nil, err
	}
	// A cache that cannot be written costs the next build time, nothing else.
	_ = writePacked(cache, key, script)
	return script, nil
}

// liveCache is the folder in which the packed program is kept, or empty when
// the user has no cache folder.
func liveCache() string {
	dir, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	return filepath.Join(dir, "thouspan")
}

// buildWasm compiles the program, stripped and without anything that differs
// between two machines' folders.
func buildWasm(ctx context.Context, goCommand, dir string) ([]byte, error) {
	temp, err := os.MkdirTemp("", "thouspan-live-")
	if err != nil {
		return nil, fmt.Errorf("no place to build the pages' program: %w", err)
	}
	defer os.RemoveAll(temp)
	out := filepath.Join(temp, "live.wasm")
	command := exec.CommandContext(ctx, goCommand, "build", "-trimpath", "-buildvcs=false",
		"-ldflags=-s -w -buildid=", "-o", out, livePackage)
	command.Dir = dir
	command.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOFLAGS=", "GOWORK=off")
	if said, err := command.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("the pages' program does not build: %w\n%s", err, bytes.TrimSpace(said))
	}
	return os.ReadFile(out)
}

// wasmGlue returns wasm_exec.js of the Go that builds: the program and it must
// be of one version.
func wasmGlue(ctx context.Context, goCommand, dir string) ([]byte, error) {
	command := exec.CommandContext(ctx, goCommand, "env", "GOROOT")
	command.Dir = dir
	root, err := command.Output()
	if err != nil {
		return nil, fmt.Errorf("go env GOROOT: %w", err)
	}
	glue, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return nil, fmt.Errorf("this Go installation lacks its script for WebAssembly: %w", err)
	}
	return glue, nil
}

// packScript returns the classic script that carries program and worker.
func packScript(wasm, worker []byte) ([]byte, error) {
	var packed bytes.Buffer
	// The hardest level saves 0.7 % and takes three times as long.
	zip := gzip.NewWriter(&packed)
	if _, err := zip.Write(wasm); err != nil {
		return nil, err
	}
	if err := zip.Close(); err != nil {
		return nil, err
	}
	source, err := json.Marshal(string(worker))
	if err != nil {
		return nil, err
	}
	var script bytes.Buffer
	script.WriteString("// The lessons, compiled to WebAssembly: gzip in base64, and the script of the worker that runs them.\n")
	script.WriteString("window.thouspanLive = {\n  worker: ")
	script.Write(source)
	script.WriteString(",\n  packed: \"")
	script.WriteString(base64.StdEncoding.EncodeToString(packed.Bytes()))
	script.WriteString("\"\n};\n")
	return script.Bytes(), nil
}

// packedFile holds a line with the key and the script's own hash, then the
// script.
const packedFile = "live.js.packed"

// readPacked returns the kept script if it is of this key and whole.
func readPacked(cache, key string) ([]byte, bool) {
	if cache == "" {
		return nil, false
	}
	kept, err := os.ReadFile(filepath.Join(cache, packedFile))
	if err != nil {
		return nil, false
	}
	head, script, _ := bytes.Cut(kept, []byte("\n"))
	if string(head) != key+" "+hashOf(script) {
		return nil, false
	}
	return script, true
}

// writePacked keeps the script, whole or not at all.
func writePacked(cache, key string, script []byte) error {
	if cache == "" {
		return nil
	}
	if err := os.MkdirAll(cache, 0o755); err != nil {
		return fmt.Errorf("the cache folder: %w", err)
	}
	temp, err := os.CreateTemp(cache, packedFile+".*")
	if err != nil {
		return fmt.Errorf("the cache folder: %w", err)
	}
	defer os.Remove(temp.Name())
	_, err = temp.WriteString(key + " " + hashOf(script) + "\n" + string(script))
	if err := errors.Join(err, temp.Close()); err != nil {
		return fmt.Errorf("the cache folder: %w", err)
	}
	return os.Rename(temp.Name(), filepath.Join(cache, packedFile))
}

// hashOf returns the SHA-256 of the texts, each with its length before it, in
// hexadecimal.
func hashOf(texts ...[]byte) string {
	h := sha256.New()
	for _, text := range texts {
		fmt.Fprintf(h, "%d\n", len(text))
		h.Write(text)
	}
	return hex.EncodeToString(h.Sum(nil))
}
