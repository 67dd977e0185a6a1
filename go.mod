module example.org/thouspan

go 1.26

require (
	github.com/alecthomas/chroma/v2 v2.27.0
	github.com/dop251/goja v0.0.0-20260917113740-793a2a65c13b
	github.com/go-echarts/go-echarts/v2 v2.6.7
	github.com/google/go-cmp v0.7.0
	github.com/yuin/goldmark v1.8.7
	gonum.org/v1/gonum v0.17.0
)

require (
	github.com/dlclark/regexp2/v2 v2.5.2 // indirect
	github.com/go-sourcemap/sourcemap v2.1.3+incompatible // indirect
	github.com/google/pprof v0.0.0-20230207041349-798e818bf904 // indirect
	github.com/stretchr/testify v1.7.0 // indirect
	golang.org/x/text v0.23.0 // indirect
	golang.org/x/tools v0.30.0 // indirect
)
