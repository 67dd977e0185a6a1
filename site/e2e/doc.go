// Package e2e tests the pages in a real browser: Chromium, without a window,
// driven by chromedp. It is a module of its own, so that nobody who uses the
// lessons or the packages has to download a browser's protocol.
//
//	cd site/e2e && go test -timeout 30m ./...
//
// The site is built once; with THOUSPAN_SITE=DIR the one in DIR is taken. Every
// test opens a tab of its own with nothing remembered. Where there is no
// Chromium the tests are skipped, except when CI=true.
package e2e
