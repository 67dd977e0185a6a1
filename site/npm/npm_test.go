package npm

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/base64"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// tgz returns a packed package holding the files.
func tgz(t *testing.T, files map[string]string) []byte {
	t.Helper()
	var b bytes.Buffer
	zipped := gzip.NewWriter(&b)
	archive := tar.NewWriter(zipped)
	for name, text := range files {
		if err := archive.WriteHeader(&tar.Header{Name: "package/" + name, Mode: 0o644, Size: int64(len(text))}); err != nil {
			t.Fatal(err)
		}
		if _, err := archive.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	if err := zipped.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func integrity(data []byte) string {
	sum := sha512.Sum512(data)
	return "sha512-" + base64.StdEncoding.EncodeToString(sum[:])
}

// fakeNpm puts an npm on the path that gives the packed package, and an empty
// cache.
func fakeNpm(t *testing.T, script string) {
	t.Helper()
	bin := t.TempDir()
	if err := os.WriteFile(filepath.Join(bin, "npm"), []byte("#!/bin/sh\n"+script), 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", bin+":/usr/bin:/bin")
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
}

func TestFilesFetchesOnceAndChecksTheHash(t *testing.T) {
	data := tgz(t, map[string]string{"dist/a.js": "a()", "LICENSE": "free"})
	source := filepath.Join(t.TempDir(), "a.tgz")
	if err := os.WriteFile(source, data, 0o644); err != nil {
		t.Fatal(err)
	}
	fakeNpm(t, `cp "`+source+`" "$6/a-1.0.0.tgz"`)
	p := Package{Name: "a", Version: "1.0.0", Integrity: integrity(data)}
	files, err := Files(t.Context(), p, "dist/a.js", "LICENSE")
	if err != nil || string(files["dist/a.js"]) != "a()" || string(files["LICENSE"]) != "free" {
		t.Fatalf("Files = %q, %v", files, err)
	}
	fakeCache := os.Getenv("XDG_CACHE_HOME")
	fakeNpm(t, "exit 1")
	t.Setenv("XDG_CACHE_HOME", fakeCache)
	if _, err := Files(t.Context(), p, "LICENSE"); err != nil {
		t.Errorf("the second time, without npm: %v", err)
	}
	spoiled, err := filepath.Glob(filepath.Join(fakeCache, "thouspan", "assets", "*.tgz"))
	if err != nil || len(spoiled) != 1 {
		t.Fatalf("the cache holds %v, %v", spoiled, err)
	}
	if err := os.WriteFile(spoiled[0], data[:len(data)-1], 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Files(t.Context(), p, "LICENSE"); err == nil {
		t.Error("a spoiled cache was used")
	}
}

func TestFilesSaysWhatIsWrong(t *testing.T) {
	data := tgz(t, map[string]string{"a.js": "a()"})
	source := filepath.Join(t.TempDir(), "a.tgz")
	if err := os.WriteFile(source, data, 0o644); err != nil {
		t.Fatal(err)
	}
	give := `cp "` + source + `" "$6/a-1.0.0.tgz"`
	tests := []struct{ name, script, integrity, file, want string }{
		{"wrong hash", give, "sha512-AAAA", "a.js", "SHA-512 differs"},
		{"no such file", give, integrity(data), "b.js", "holds no file b.js"},
		{"no network", "echo 'request failed' >&2; exit 1", integrity(data), "a.js", "is there a network? (request failed)"},
		{"no package", "exit 0", integrity(data), "a.js", "gave 0 files"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			fakeNpm(t, test.script)
			_, err := Files(t.Context(), Package{"a", "1.0.0", test.integrity}, test.file)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v, want %q", err, test.want)
			}
		})
	}
	t.Run("no npm", func(t *testing.T) {
		t.Setenv("PATH", t.TempDir())
		t.Setenv("XDG_CACHE_HOME", t.TempDir())
		_, err := Files(t.Context(), Package{"a", "1.0.0", "sha512-AAAA"}, "a.js")
		if err == nil || !strings.Contains(err.Error(), "npm is not installed") {
			t.Errorf("got %v", err)
		}
	})
}
