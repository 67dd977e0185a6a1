// Package npm gets single files out of packages of the npm registry, by the
// user's own npm command, pinned by hash and kept in the user's cache folder.
// Nothing of what it gets is part of this project's source.
package npm

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha512"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// Package is one version of an npm package.
type Package struct {
	// Name and Version are the package's: "echarts", "5.6.0".
	Name, Version string
	// Integrity is the hash of the packed package as the registry publishes
	// it: "sha512-" and base64.
	Integrity string
}

// String returns name@version.
func (p Package) String() string { return p.Name + "@" + p.Version }

// timeout bounds one run of npm.
const timeout = 2 * time.Minute

// Files returns the named files of the package ("dist/echarts.min.js"), from
// the cache when the package is there whole, else by "npm pack". The package's
// hash is checked at each use.
func Files(ctx context.Context, p Package, names ...string) (map[string][]byte, error) {
	packed, err := packed(ctx, p)
	if err != nil {
		return nil, err
	}
	files, err := unpack(packed, names)
	if err != nil {
		return nil, fmt.Errorf("npm package %s: %w", p, err)
	}
	return files, nil
}

// packed returns the package as the registry packs it.
func packed(ctx context.Context, p Package) ([]byte, error) {
	dir, err := cacheDir()
	if err != nil {
		return nil, err
	}
	file := filepath.Join(dir, strings.ReplaceAll(strings.TrimPrefix(p.Name, "@"), "/", "-")+"-"+p.Version+".tgz")
	if data, err := os.ReadFile(file); err == nil && p.matches(data) {
		return data, nil
	}
	data, err := pack(ctx, p)
	if err != nil {
		return nil, err
	}
	if !p.matches(data) {
		return nil, fmt.Errorf("npm package %s: its SHA-512 differs from the one pinned; nothing was kept", p)
	}
	return data, keep(dir, file, data)
}

// keep writes the package into the cache, whole or not at all.
func keep(dir, file string, data []byte) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	temp, err := os.CreateTemp(dir, "packing-")
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name())
	if _, err := temp.Write(data); err != nil {
		return errors.Join(err, temp.Close())
	}
	if err := temp.Close(); err != nil {
		return err
	}
	return os.Rename(temp.Name(), file)
}

func cacheDir() (string, error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		return "", fmt.Errorf("no folder for cached files: %w", err)
	}
	return filepath.Join(dir, "thouspan", "assets"), nil
}

// matches reports whether the packed package has the pinned hash.
func (p Package) matches(data []byte) bool {
	sum := sha512.Sum512(data)
	return p.Integrity == "sha512-"+base64.StdEncoding.EncodeToString(sum[:])
}

// pack has npm pack the package into a new folder and returns it.
func pack(ctx context.Context, p Package) ([]byte, error) {
	ctx, cancel := context.WithTimeout(ctx, timeout)
	defer cancel()
	dir, err := os.MkdirTemp("", "thouspan-npm-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	command := exec.CommandContext(ctx, "npm", "pack", p.String(), "--ignore-scripts", "--silent", "--pack-destination", dir)
	command.Dir = dir
	var said bytes.Buffer
	command.Stderr = &said
	if err := command.Run(); err != nil {
		return nil, explain(ctx, p, err, said.String())
	}
	found, err := filepath.Glob(filepath.Join(dir, "*.tgz"))
	if err != nil || len(found) != 1 {
		return nil, fmt.Errorf("npm pack %s gave %d files; one was expected", p, len(found))
	}
	return os.ReadFile(found[0])
}

// explain turns a failure of npm into one plain line.
func explain(ctx context.Context, p Package, err error, said string) error {
	switch {
	case errors.Is(err, exec.ErrNotFound):
		return fmt.Errorf("npm is not installed, and %s is not in the cache", p)
	case ctx.Err() != nil:
		return fmt.Errorf("npm did not fetch %s within %v; is there a network?", p, timeout)
	}
	lines := strings.FieldsFunc(said, func(r rune) bool { return r == '\n' })
	if len(lines) == 0 {
		lines = []string{err.Error()}
	}
	return fmt.Errorf("npm could not fetch %s; is there a network? (%s)", p, strings.TrimSpace(lines[0]))
}

// maxFile bounds one unpacked file, in bytes.
const maxFile = 32 << 20

// unpack returns the named files of a packed package.
func unpack(packed []byte, names []string) (map[string][]byte, error) {
	unzipped, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	archive := tar.NewReader(unzipped)
	for len(files) < len(names) { // what stands behind the last is not unpacked
		head, err := archive.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			if head.Name != "package/"+name {
				continue
			}
			data, err := io.ReadAll(io.LimitReader(archive, maxFile))
			if err != nil {
				return nil, err
			}
			files[name] = data
		}
	}
	for _, name := range names {
		if files[name] == nil {
			return nil, fmt.Errorf("it holds no file %s", name)
		}
	}
	return files, nil
}
