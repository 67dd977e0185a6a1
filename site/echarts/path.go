package echarts

import (
	"math"
	"strconv"
	"strings"
)

// This file writes the data of an SVG path in few characters: coordinates are
// rounded to a tenth of a pixel (a hundredth where there are arcs, whose two
// ends may lie close), each command is the shorter of its absolute and its
// relative form, and points of a polyline that change nothing one could see go.

// command is one step of a path with absolute coordinates.
type command struct {
	letter byte // M, L, C, Q, A or Z
	args   []float64
}

// argsOf is how many numbers a command of each letter takes.
var argsOf = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'Q': 4, 'A': 7, 'Z': 0}

// readPath returns the commands of a path's data, moved by dx, dy. It reports
// false where the data hold what this file does not know.
func readPath(d string, dx, dy float64) ([]command, bool) {
	var path []command
	var x, y, startX, startY float64
	for d != "" {
		letter := d[0]
		upper := letter &^ 0x20
		n, known := argsOf[upper]
		end := strings.IndexFunc(d[1:], func(r rune) bool { return r >= 'A' && r != 'e' })
		if end < 0 {
			end = len(d) - 1
		}
		args, ok := numbers(d[1 : 1+end])
		if !known || !ok || len(args) != n {
			return nil, false
		}
		d = d[1+end:]
		if letter != upper {
			toAbsolute(upper, args, x, y)
		}
		switch upper {
		case 'H':
			upper, args = 'L', []float64{args[0], y}
		case 'V':
			upper, args = 'L', []float64{x, args[0]}
		}
		if n > 0 {
			x, y = args[len(args)-2], args[len(args)-1]
		} else {
			x, y = startX, startY
		}
		if upper == 'M' {
			startX, startY = x, y
		}
		path = append(path, command{upper, args})
	}
	for _, c := range path {
		shift(c, dx, dy)
	}
	return path, true
}

// numbers reads the numbers of one command.
func numbers(s string) ([]float64, bool) {
	var all []float64
	for _, field := range strings.FieldsFunc(strings.ReplaceAll(s, "-", " -"), func(r rune) bool { return r == ' ' || r == ',' }) {
		x, err := strconv.ParseFloat(field, 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			return nil, false
		}
		all = append(all, x)
	}
	return all, true
}

// toAbsolute adds the place where a relative command begins.
func toAbsolute(letter byte, args []float64, x, y float64) {
	switch letter {
	case 'H':
		args[0] += x
	case 'V':
		args[0] += y
	default:
		shift(command{letter, args}, x, y)
	}
}

// shift moves a command with absolute coordinates.
func shift(c command, dx, dy float64) {
	from := 0
	if c.letter == 'A' {
		from = 5 // radii, turn and flags stay
	}
	for i := from; i+1 < len(c.args); i += 2 {
		c.args[i] += dx
		c.args[i+1] += dy
	}
}

// unseenBend is how far, in pixels, a point of a polyline may lie from the line
// drawn without it.
const unseenBend = 0.1

// straightened leaves out the points of polylines that lie within the unseen
// bend of the line without them.
func straightened(path []command) []command {
	var out []command
	for i := 0; i < len(path); {
		end := i + 1
		for end < len(path) && path[end].letter == 'L' {
			end++
		}
		if len(path[i].args) >= 2 && end-i > 2 {
			out = append(out, keepBends(path[i:end])...)
		} else {
			out = append(out, path[i:end]...)
		}
		i = end
	}
	return out
}

// keepBends is the method of Ramer (1972) and of Douglas and Peucker (1973): the
// farthest point from the chord stays if it is far enough, and both sides of it
// are looked at in the same way.
func keepBends(run []command) []command {
	last := len(run) - 1
	if last < 2 {
		return run
	}
	far, at := 0.0, 0
	for i := 1; i < last; i++ {
		if away := distance(run[i], run[0], run[last]); away > far {
			far, at = away, i
		}
	}
	if far <= unseenBend {
		return []command{run[0], run[last]}
	}
	return append(keepBends(run[:at+1:at+1]), keepBends(run[at:])[1:]...)
}

// distance returns how far a command's end lies from the segment between two others'.
func distance(p, a, b command) float64 {
	px, py := end(p)
	ax, ay := end(a)
	bx, by := end(b)
	along := 0.0
	if square := (bx-ax)*(bx-ax) + (by-ay)*(by-ay); square > 0 {
		along = min(max(((px-ax)*(bx-ax)+(py-ay)*(by-ay))/square, 0), 1)
	}
	return math.Hypot(px-ax-along*(bx-ax), py-ay-along*(by-ay))
}

func end(c command) (x, y float64) { return c.args[len(c.args)-2], c.args[len(c.args)-1] }

// writePath returns the path's data. Places are rounded before they are
// subtracted, so that relative steps never add up to an error.
func writePath(path []command) string {
	grid := 10.0
	for _, c := range path {
		if c.letter == 'A' {
			grid = 100
		}
	}
	var b strings.Builder
	var x, y, startX, startY float64
	for _, c := range path {
		if c.letter == 'Z' {
			b.WriteByte('z')
			x, y = startX, startY
			continue
		}
		args := make([]float64, len(c.args))
		for i, a := range c.args {
			args[i] = math.Round(a*grid) / grid
		}
		b.WriteString(shortest(c.letter, args, x, y, grid))
		x, y = args[len(args)-2], args[len(args)-1]
		if c.letter == 'M' {
			startX, startY = x, y
		}
	}
	return b.String()
}

// shortest returns the command in its shorter form, from the place where it begins.
func shortest(letter byte, args []float64, x, y, grid float64) string {
	relative := append([]float64(nil), args...)
	toAbsolute(letter, relative, -x, -y)
	for i, a := range relative {
		relative[i] = math.Round(a*grid) / grid
	}
	small := letter | 0x20
	if letter == 'L' {
		switch {
		case relative[1] == 0:
			letter, small, args, relative = 'H', 'h', args[:1], relative[:1]
		case relative[0] == 0:
			letter, small, args, relative = 'V', 'v', args[1:], relative[1:]
		}
	}
	absolute := string(letter) + join(args)
	if text := string(small) + join(relative); len(text) < len(absolute) {
		return text
	}
	return absolute
}

// join writes numbers with as little between them as can be.
func join(numbers []float64) string {
	var b strings.Builder
	for i, x := range numbers {
		text := short(x)
		if i > 0 && text[0] != '-' {
			b.WriteByte(' ')
		}
		b.WriteString(text)
	}
	return b.String()
}

// short writes a number without what can be left out.
func short(x float64) string {
	text := strconv.FormatFloat(x, 'f', -1, 64)
	if text == "-0" {
		return "0"
	}
	if whole, rest, found := strings.Cut(text, "."); found && (whole == "0" || whole == "-0") {
		return strings.TrimSuffix(whole, "0") + "." + rest
	}
	return text
}
