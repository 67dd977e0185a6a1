// Package consumer proves that a stranger can use the module: it packs the
// committed source as the module proxy would, serves it from a folder, gets it
// in a fresh module and runs the README's program there.
package consumer

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/mod/module"
	"golang.org/x/mod/zip"
)

const (
	path    = "example.org/thouspan"
	version = "v0.0.1"
)

func TestReadmeProgram(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	clone := filepath.Join(t.TempDir(), "clone")
	run(t, "", nil, "git", "clone", "--quiet", "--no-hardlinks", root, clone)
	program, printed := readme(t, filepath.Join(clone, "README.md"))

	proxy := t.TempDir()
	pack(t, clone, proxy)
	fresh := t.TempDir()
	write(t, filepath.Join(fresh, "main.go"), program)
	env := []string{"GOPROXY=file://" + filepath.ToSlash(proxy) + "," + upstream(t), "GONOSUMDB=" + path, "GOFLAGS=-mod=mod"}
	run(t, fresh, env, "go", "mod", "init", "example.com/shop")
	run(t, fresh, env, "go", "get", path+"@"+version)
	run(t, fresh, env, "go", "mod", "tidy")
	if got := run(t, fresh, env, "go", "run", "."); got != printed {
		t.Errorf("the README's program prints\n%s\nand the README says\n%s", got, printed)
	}
	checkCompiled(t, fresh, env)
}

// checkCompiled makes sure that a program that uses the three packages
// compiles nothing of what only the site needs.
func checkCompiled(t *testing.T, dir string, env []string) {
	deps := run(t, dir, env, "go", "list", "-deps", ".")
	for _, heavy := range []string{"goja", "goldmark", "go-echarts", "chroma", "chromedp", path + "/site", path + "/internal"} {
		if strings.Contains(deps, heavy) {
			t.Errorf("a program that uses the library compiles %s", heavy)
		}
	}
}

var (
	goBlock   = regexp.MustCompile("(?s)```go\n(.*?)```")
	textBlock = regexp.MustCompile("(?s)It prints\n\n```\n(.*?)```")
)

// readme returns the README's program and what it says that it prints.
func readme(t *testing.T, file string) (program, printed string) {
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	code, out := goBlock.FindSubmatch(text), textBlock.FindSubmatch(text)
	if code == nil || out == nil {
		t.Fatal("the README has no Go program, or does not say what it prints")
	}
	return string(code[1]), string(out[1])
}

// pack writes the module into a folder laid out as a module proxy.
func pack(t *testing.T, source, proxy string) {
	dir := filepath.Join(proxy, filepath.FromSlash(path), "@v")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	out, err := os.Create(filepath.Join(dir, version+".zip"))
	if err != nil {
		t.Fatal(err)
	}
	defer out.Close()
	if err := zip.CreateFromDir(out, module.Version{Path: path, Version: version}, source); err != nil {
		t.Fatal(err)
	}
	mod, err := os.ReadFile(filepath.Join(source, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, version+".mod"), string(mod))
	write(t, filepath.Join(dir, version+".info"), fmt.Sprintf(`{"Version": %q}`, version))
	write(t, filepath.Join(dir, "list"), version+"\n")
}

func upstream(t *testing.T) string {
	return strings.TrimSpace(run(t, "", nil, "go", "env", "GOPROXY"))
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// run runs a command and returns its standard output.
func run(t *testing.T, dir string, env []string, name string, args ...string) string {
	t.Helper()
	command := exec.Command(name, args...)
	command.Dir = dir
	command.Env = append(os.Environ(), env...)
	var errors strings.Builder
	command.Stderr = &errors
	out, err := command.Output()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s%s", name, strings.Join(args, " "), err, out, errors.String())
	}
	return string(out)
}
