// Command site builds the book of worked examples, serves it, and works single
// lessons in the terminal.
//
//	go run ./site                      build into public/ and serve on localhost:8080
//	go run ./site build -out DIR       build only
//	go run ./site serve -addr HOST:PORT
//	go run ./site work LESSON          work one lesson on the demo's readings
//	go run ./site work LESSON -in FILE.json
//	go run ./site work LESSON -template
//	go run ./site card -in FILE.json   the card of the machine that the file keeps
//	go run ./site work LESSON -exercise NAME -seed N -answer TEXT
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"example.org/thouspan/internal/notebook"
)

// Exit codes.
const (
	exitOK    = 0
	exitFails = 1 // the work failed: a check, a file, a port
	exitUsage = 2 // the words on the command line are off
)

const usage = `Thouspan: readings from an old mill and a small nickel bath, worked into answers.

  go run ./site                       build the pages into public/ and show them on
                                      http://localhost:8080
  go run ./site build -out DIR        build the pages into DIR; fails if a check fails
  go run ./site serve -addr HOST:PORT build, then show the pages at another address
  go run ./site work                  list the lessons
  go run ./site work LESSON           work one lesson here, on the demo's readings
  go run ./site work LESSON -template print those readings as a file to edit
  go run ./site work LESSON -in FILE  work it on the readings in your file: one
                                      lesson's, or your machine's, -date DAY
  go run ./site card -in FILE         the card to hang on the machine, from its file
  go run ./site work LESSON -exercise NAME -seed 4711
                                      ask an exercise with new numbers; mark it with
                                      -answer "150 µm/m"

Add -h after build, serve, work or card for all they take.
`

// errUsage marks an error of the command line; its text was already printed.
var errUsage = errors.New("usage")

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run carries out one command line and returns its exit code.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	command, rest := "serve", args
	if len(args) > 0 && args[0] != "" && args[0][0] != '-' {
		command, rest = args[0], args[1:]
	}
	var err error
	switch {
	case command == "help", len(args) > 0 && isHelp(args[0]):
		fmt.Fprint(stdout, usage)
	case command == "build":
		err = runBuild(ctx, rest, stderr)
	case command == "serve":
		err = runServe(ctx, rest, stderr)
	case command == "work":
		err = runWork(rest, stdin, stdout, stderr)
	case command == "card":
		err = runCard(rest, stdin, stdout, stderr, time.Now())
	default:
		fmt.Fprintf(stderr, "site: %q is not a command%s\n\n%s", command, didYouMean(command, []string{"build", "serve", "work", "card", "help"}), usage)
		return exitUsage
	}
	switch {
	case err == nil, errors.Is(err, flag.ErrHelp):
		return exitOK
	case errors.Is(err, errUsage):
		return exitUsage
	}
	fmt.Fprintf(stderr, "site: %v\n", err)
	return exitFails
}

func isHelp(arg string) bool { return arg == "-h" || arg == "-help" || arg == "--help" }

// didYouMean returns "; did you mean ...?" or nothing.
func didYouMean(name string, known []string) string {
	near := notebook.Nearest(name, known)
	if len(near) == 0 {
		return ""
	}
	return "; did you mean " + near[0] + "?"
}

// newFlags returns a flag set that writes its help, headed by the given text,
// to w.
func newFlags(name, head string, w io.Writer) *flag.FlagSet {
	flags := flag.NewFlagSet(name, flag.ContinueOnError)
	flags.SetOutput(w)
	flags.Usage = func() {
		fmt.Fprintf(w, "%s\n\nIt takes:\n", head)
		flags.PrintDefaults()
	}
	return flags
}

// parse parses flags that may stand before, between and after the words, and
// returns the words. Its error has been printed.
func parse(flags *flag.FlagSet, args []string) ([]string, error) {
	var words []string
	for {
		if err := flags.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return nil, err
			}
			return nil, errUsage
		}
		if flags.NArg() == 0 {
			return words, nil
		}
		words = append(words, flags.Arg(0))
		args = flags.Args()[1:]
	}
}
