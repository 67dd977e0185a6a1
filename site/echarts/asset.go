package echarts

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"

	"example.org/thouspan/site/npm"
)

// Version is the version of ECharts that the charts are made for.
const Version = "5.6.0"

// packed is the npm package, pinned.
var packed = npm.Package{Name: "echarts", Version: Version,
	Integrity: "sha512-oTbVTsXfKuEhxftHqL5xprgLoc0k7uScAwtryCgWF6hPYFLRwOUHiFmHGCBKP5NPFNkDVopOieyUqYGH8Fa3kA=="}

// Names of files within the package.
const (
	scriptFile  = "dist/echarts.min.js"
	licenceFile = "LICENSE"
	noticeFile  = "NOTICE"
)

// scriptHash is the SHA-256 of the one script, so that a file given by hand is
// checked too.
const scriptHash = "bf4a223524e40b77c304bec67e1222cf551f14880cf42c69dc046558e11c07b1"

// Asset is ECharts as the browser loads it, with its licence.
type Asset struct {
	// Script is echarts.min.js.
	Script []byte
	// Licence is the text that must go with it.
	Licence []byte
}

// licenceNote goes with a script given by hand, without its package.
const licenceNote = "Apache ECharts is distributed under the Apache License, Version 2.0; see https://www.apache.org/licenses/LICENSE-2.0\n"

// Load returns ECharts: from the given file when one is named, else from the
// cache or, the first time, from npm. Either is checked by hash. The error is
// one line.
func Load(ctx context.Context, file string) (*Asset, error) {
	asset := &Asset{Licence: []byte(licenceNote)}
	if file != "" {
		script, err := os.ReadFile(file)
		if err != nil {
			return nil, fmt.Errorf("ECharts cannot be read: %w", err)
		}
		asset.Script = script
	} else {
		files, err := npm.Files(ctx, packed, scriptFile, licenceFile, noticeFile)
		if err != nil {
			return nil, err
		}
		asset.Script = files[scriptFile]
		asset.Licence = append(append(files[noticeFile], '\n'), files[licenceFile]...)
	}
	sum := sha256.Sum256(asset.Script)
	if got := hex.EncodeToString(sum[:]); got != scriptHash {
		return nil, fmt.Errorf("this is not echarts.min.js %s: its SHA-256 is %s, not %s", Version, got, scriptHash)
	}
	return asset, nil
}
