package plot

// Token is a colour that the page decides. A chart's option names it by its
// light colour, which no other token shares and which nothing else in an option
// can equal; a chart that nobody translates still looks right on white.
type Token struct {
	// Name is the name of the style sheet's variable without its dashes:
	// "ink" for var(--ink).
	Name string
	// Light and Dark are the colour on a light and on a dark page, "#rrggbb".
	Light, Dark string
}

// Colours of the frame: writing, lesser writing, grid lines and the ground.
const (
	ink   = "#1d2126"
	faint = "#59626d"
	grid  = "#d9dde2"
	paper = "#fefefd"
)

// seriesColours are the colours of the data, in the order in which series take
// them. They start from the set of M. Okabe and K. Ito, "Color Universal
// Design", 2008 (from memory), each darkened until it stands at least 3 to 1
// against the paper.
var seriesColours = [6]string{"#0069a8", "#c2500a", "#00785a", "#a34a86", "#7d6200", "#3d7394"}

// lowColours and highColours are the steps of a heat map below and above its
// level colour, outward. They darken outward, so that they also read in grey.
const levelColour = "#f1f0eb"

var (
	lowColours  = [4]string{"#c3dbec", "#8bbbdc", "#4a90c0", "#175f93"}
	highColours = [4]string{"#f5d5ba", "#eaa878", "#cf7138", "#97420e"}
)

// Tokens returns every colour that an option may hold.
func Tokens() []Token {
	return []Token{
		{"ink", ink, "#e6e8ea"},
		{"faint", faint, "#a3adb8"},
		{"grid", grid, "#3a4149"},
		{"paper", paper, "#16191d"},
		{"data-1", seriesColours[0], "#5cb3ec"},
		{"data-2", seriesColours[1], "#f2914f"},
		{"data-3", seriesColours[2], "#3dc39b"},
		{"data-4", seriesColours[3], "#dd8fc4"},
		{"data-5", seriesColours[4], "#d0b13e"},
		{"data-6", seriesColours[5], "#93c0dd"},
		{"level", levelColour, "#2b3036"},
		{"low-1", lowColours[0], "#2c4a60"},
		{"low-2", lowColours[1], "#33688e"},
		{"low-3", lowColours[2], "#4a90c4"},
		{"low-4", lowColours[3], "#8cc4ee"},
		{"high-1", highColours[0], "#573c2a"},
		{"high-2", highColours[1], "#86522d"},
		{"high-3", highColours[2], "#c57740"},
		{"high-4", highColours[3], "#f5b283"},
	}
}

// look is how one series is told from the others: its colour, its symbol and
// its dash.
type look struct {
	colour string
	symbol string
	dash   any // "solid", or lengths of dashes and gaps in pixels
}

// looks are taken in order; the seventh series is the first again.
var looks = [6]look{
	{seriesColours[0], "circle", "solid"},
	{seriesColours[1], "rect", []int{8, 4}},
	{seriesColours[2], "triangle", []int{2, 3}},
	{seriesColours[3], "diamond", []int{10, 3, 2, 3}},
	{seriesColours[4], "emptyCircle", []int{14, 4}},
	{seriesColours[5], "emptyRect", []int{5, 2, 1, 2, 1, 2}},
}

func lookOf(i int) look { return looks[i%len(looks)] }
