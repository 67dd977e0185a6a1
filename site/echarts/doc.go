// Package echarts draws charts as SVG while the site is built: it runs ECharts,
// fetched once from npm and pinned by hash, inside a JavaScript engine written
// in Go. Pages then hold their charts before any script runs.
package echarts
