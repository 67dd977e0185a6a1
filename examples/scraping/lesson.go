// Package scraping is the lesson "Putting it right": what to take off two worn
// ways, where and in how many passes, what the straightedge adds to it, and how
// the height is made good.
package scraping

import (
	"math"
	"math/rand/v2"

	"example.org/thouspan/examples/actionshop"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

const (
	mm = unit.Milli * unit.Metre
	um = unit.Micro * unit.Metre
)

// Depth is the wear of both ways at a place.
type Depth struct{ Place, Front, Rear unit.Length }

// Square is the number of points counted in one square of a spotted face.
type Square struct{ Points int }

const (
	level = "keep it level"
	least = "let it lean"
)

// Inputs is what the lesson asks for.
type Inputs struct {
	Depths []Depth
	// DepthU is the standard uncertainty of each depth.
	DepthU unit.Length
	// Across says whether the new surface must lie level across.
	Across string
	// Apart is the distance between the ways, Width that of each.
	Apart, Width unit.Length
	// Light and Heavy are the least and the most that one pass takes off.
	Light, Heavy unit.Length
	// The straightedge: its size, and how far from its ends it is held.
	EdgeLength, EdgeWidth, EdgeHeight, Support unit.Length
	// Squares hold the points counted, Side is that of a square.
	Squares []Square
	Side    unit.Length
	// Grinding instead: how far from parallel, the clean-up, one cut, and the
	// hard layer when new.
	SetUpU, Clean, Cut, Layer unit.Length
	// The lining, its joint, how proud it shall stand, and what the moving face
	// has lost.
	Lining, LiningU, Glue, GlueU, Proud, Moving unit.Length
	// The table beyond its saddle: section, reach and load at its end.
	TableWidth, TableHeight, Reach unit.Length
	Load                           unit.Force
}

// Defaults returns the action shop's ways of 2025.
func Defaults() Inputs {
	in := Inputs{DepthU: actionshop.WornDepthU, Across: least, Apart: 190 * mm, Width: 50 * mm, Light: 2 * um, Heavy: 8 * um,
		EdgeLength: 1000 * mm, EdgeWidth: 25 * mm, EdgeHeight: 60 * mm, Support: 220 * mm,
		Side:   25.4 * mm,
		SetUpU: 4 * um, Clean: 5 * um, Cut: 5 * um,
		Lining: 0.8 * mm, LiningU: 5 * um, Glue: 0.1 * mm, GlueU: 15 * um, Proud: 50 * um, Moving: 30 * um,
		TableWidth: 200 * mm, TableHeight: 60 * mm, Reach: 350 * mm, Load: 400 * unit.Newton}
	for _, d := range actionshop.WornDepths() {
		in.Depths = append(in.Depths, Depth(d))
	}
	for _, n := range []int{11, 14, 9, 13, 12, 15} { // a way half done
		in.Squares = append(in.Squares, Square{n})
	}
	return in
}

// Lesson returns the lesson.
func Lesson() notebook.Lesson {
	return notebook.NewLesson(notebook.About{
		Slug:     "scraping",
		Title:    "Putting it right",
		Question: "My ways are worn and I mean to scrape them. How much comes off, where, and what does that do to all that rests on them?",
		Asked:    "I want to scrape the ways",
		Track:    notebook.Ways,
		Summary:  "The least metal that brings two worn ways into one plane, the passes it takes, what a straightedge's own sag adds, and what makes good the height that is lost.",
		Minutes:  16,
		After:    []string{"threelines", "groundbar"},
	}, Defaults, form, Work).WithDrills(drills()...)
}

// result is the plan and all that hangs on it.
type result struct {
	in          Inputs
	ways        wear.WornWays
	plan, other wear.ScrapePlan // as asked for, and the other way across
	mostU       unit.Length
	sinksU      unit.Length
	twist       []wear.SlopePoint
	points      wear.PointCount
	spacing     unit.Length
	grind       wear.GrindPlan
	lining      wear.LiningFit
	droop       unit.Length
	droopSlope  wear.Slope
}

// draws is how often the plan is made anew with the depths moved by their errors.
const draws = 100

func work(in Inputs) (result, error) {
	r := result{in: in, ways: waysOf(in)}
	options := wear.ScrapeOptions{Light: in.Light, Heavy: in.Heavy, Level: in.Across == level}
	var err error
	if r.plan, err = wear.PlanScraping(r.ways, in.Width, options); err != nil {
		return r, notebook.InField("depths", err)
	}
	other := options
	other.Level = !options.Level
	if r.other, err = wear.PlanScraping(r.ways, in.Width, other); err != nil {
		return r, notebook.InField("depths", err)
	}
	if err := r.scatter(options); err != nil {
		return r, notebook.InField("depths", err)
	}
	if r.twist, err = twistOf(r.ways, in.DepthU); err != nil {
		return r, notebook.InField("depths", err)
	}
	if err := r.bearing(); err != nil {
		return r, err
	}
	if r.grind, err = wear.PlanGrinding(r.plan, wear.GrindOptions{DeepestU: in.DepthU, SetUpU: in.SetUpU, Clean: in.Clean, Cut: in.Cut, Layer: in.Layer}); err != nil {
		return r, notebook.InField("cut", err)
	}
	lining := wear.Lining{Thickness: in.Lining, ThicknessU: in.LiningU, Glue: in.Glue, GlueU: in.GlueU, Proud: in.Proud}
	if r.lining, err = lining.Fit(max(r.plan.Sinks, 0)+in.Moving, r.sinksU); err != nil {
		return r, notebook.InField("lining", err)
	}
	r.droop, r.droopSlope, err = wear.Beam{Width: in.TableWidth, Height: in.TableHeight, Stiffness: ironStiffness, Density: ironDensity}.Overhang(in.Reach, in.Load)
	return r, notebook.InField("reach", err)
}

// Grey iron; common practice.
const ironStiffness, ironDensity = 110e9, 7200

func waysOf(in Inputs) wear.WornWays {
	w := wear.WornWays{Apart: in.Apart, Bearing: in.Apart}
	for _, d := range in.Depths {
		w.Places, w.Front, w.Rear = append(w.Places, d.Place), append(w.Front, d.Front), append(w.Rear, d.Rear)
	}
	return w
}

// scatter draws the depths anew from their errors and takes how far the plan
// moves.
func (r *result) scatter(options wear.ScrapeOptions) error {
	random := rand.New(rand.NewPCG(1, 0x736372617065))
	var most, sinks float64
	for range draws {
		drawn := r.ways
		drawn.Front, drawn.Rear = moved(r.ways.Front, r.in.DepthU, random), moved(r.ways.Rear, r.in.DepthU, random)
		plan, err := wear.PlanScraping(drawn, r.in.Width, options)
		if err != nil {
			return err
		}
		most += math.Pow(float64(plan.Most-r.plan.Most), 2)
		sinks += math.Pow(float64(plan.Sinks-r.plan.Sinks), 2)
	}
	r.mostU, r.sinksU = unit.Length(math.Sqrt(most/draws)), unit.Length(math.Sqrt(sinks/draws))
	return nil
}

func moved(depths []unit.Length, u unit.Length, random *rand.Rand) []unit.Length {
	drawn := make([]unit.Length, len(depths))
	for i, d := range depths {
		drawn[i] = d + u*unit.Length(random.NormFloat64())
	}
	return drawn
}

// twistOf returns the slope across of the worn surface, place by place.
func twistOf(w wear.WornWays, u unit.Length) ([]wear.SlopePoint, error) {
	front, rear := wear.Profile{}, wear.Profile{}
	for i, at := range w.Places {
		front.Points = append(front.Points, wear.Point{Position: at, Height: -w.Front[i]})
		rear.Points = append(rear.Points, wear.Point{Position: at, Height: -w.Rear[i]})
	}
	twist, err := wear.Twist(front, rear, w.Apart)
	for i := range twist {
		twist[i].U = wear.Slope(math.Sqrt2 * float64(u/w.Apart))
	}
	return twist, err
}

// bearing counts the points.
func (r *result) bearing() error {
	counts := make([]int, len(r.in.Squares))
	for i, s := range r.in.Squares {
		counts[i] = s.Points
	}
	var err error
	if r.points, err = wear.CountPoints(counts, r.in.Side); err != nil {
		return notebook.InField("squares", err)
	}
	if r.points.PerSquareInch > 0 {
		r.spacing, err = wear.PointSpacing(r.points.PerSquareInch)
	}
	return err
}

// Work is the lesson's pure function.
func Work(in Inputs) (*notebook.Sheet, error) {
	r, err := work(in)
	if err != nil {
		return nil, err
	}
	sheet := &notebook.Sheet{}
	for _, add := range []func(*notebook.Sheet) error{r.setUp, r.planItems, r.edgeItems, r.afterItems, r.wrongItems, exercises, checks} {
		if err := add(sheet); err != nil {
			return nil, err
		}
	}
	return sheet, nil
}
