package plating

// Areas of turned parts. A profile of straight lines and arcs is turned about
// its axis; each piece is exact by Pappus: the length of the piece times the
// path of its centroid. For an arc of radius R about (xc, rc), running from
// angle p0 to p1,
//
//	A = 2 pi R (rc (p1 - p0) - R (cos p1 - cos p0))

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// ProfilePoint is a point of a turned profile and how the profile gets there.
type ProfilePoint struct {
	// X is the place along the axis and R the radius from it, zero or more.
	X, R Dimension
	// Arc is the radius of the arc that arrives here from the vertex before:
	// positive when it bulges to the left of the direction of travel, negative
	// when it is hollow. Drawn along +x with the metal between the profile and
	// the axis, left is outward: a bead is positive, a cove negative. Zero is a
	// straight line. Arcs are of at most half a turn. The first vertex has none.
	Arc unit.Length
	// Fillet is the radius that rounds this corner between its two straight
	// pieces, zero for a sharp one. The first and last vertex have none.
	Fillet unit.Length
}

// Turned is a solid of revolution. Its surface is what the profile sweeps: a
// profile that begins or ends off the axis leaves that end open, so draw the
// end face as a piece down to R = 0 if it is plated.
type Turned struct {
	Name    string
	Profile []ProfilePoint
}

// arcPiece is one piece of a profile: straight when radius is 0, else an arc
// with the sign of [ProfilePoint.Arc].
type arcPiece struct {
	x0, r0, x1, r1, radius float64
}

// Surface returns the area swept by the profile. The uncertainty comes from the
// coordinates of the vertices, taken as independent; radii of arcs and fillets
// are taken as exact.
func (t Turned) Surface() (Surface, error) {
	name := t.Name
	if name == "" {
		name = "turned part"
	}
	if err := t.validate(name); err != nil {
		return Surface{}, err
	}
	var dims []named
	for i, v := range t.Profile {
		dims = append(dims, named{fmt.Sprintf("place of point %d", i+1), v.X}, named{fmt.Sprintf("radius of point %d", i+1), v.R})
	}
	x := make([]float64, len(dims))
	for i, d := range dims {
		x[i] = float64(d.Value)
	}
	if _, err := t.pieces(x); err != nil {
		return Surface{}, err
	}
	if err := t.checkArcs(); err != nil {
		return Surface{}, err
	}
	return propagate(name, t.area, dims)
}

// Trace returns the profile as points joined by straight lines, each arc and
// fillet in at least the given number of steps, 1 to 1000: for a drawing. Place
// and radius are in the order of the profile.
func (t Turned) Trace(steps int) (places, radii []unit.Length, err error) {
	if steps < 1 || steps > 1000 {
		return nil, nil, fmt.Errorf("plating: steps of an arc are %d, must be 1 to 1000", steps)
	}
	if _, err := t.Surface(); err != nil {
		return nil, nil, err
	}
	var c []float64
	for _, v := range t.Profile {
		c = append(c, float64(v.X.Value), float64(v.R.Value))
	}
	pieces, err := t.pieces(c)
	if err != nil {
		return nil, nil, err
	}
	places, radii = []unit.Length{unit.Length(c[0])}, []unit.Length{unit.Length(c[1])}
	for _, p := range pieces {
		x, r := p.trace(steps)
		places, radii = append(places, x...), append(radii, r...)
	}
	return places, radii, nil
}

// trace returns the piece's points after its first.
func (p arcPiece) trace(steps int) (places, radii []unit.Length) {
	if p.radius != 0 {
		xc, rc := p.centre()
		start, sweep := p.angles()
		for i := 1; i < steps; i++ {
			angle := start + sweep*float64(i)/float64(steps)
			places = append(places, unit.Length(xc+math.Abs(p.radius)*math.Cos(angle)))
			radii = append(radii, unit.Length(rc+math.Abs(p.radius)*math.Sin(angle)))
		}
	}
	return append(places, unit.Length(p.x1)), append(radii, unit.Length(p.r1))
}

// validate returns what is wrong with single vertices.
func (t Turned) validate(name string) error {
	if len(t.Profile) < 2 {
		return fmt.Errorf("plating: profile of the %s has %d points, needs 2 or more", name, len(t.Profile))
	}
	for i, v := range t.Profile {
		n := fmt.Sprintf(" of point %d of the %s", i+1, name)
		last := i == 0 || i == len(t.Profile)-1
		if err := firstError(
			notNegative("radius"+n, float64(v.R.Value), inMillimetre),
			notNegative("standard uncertainty of the radius"+n, float64(v.R.U), inMillimetre),
			notNegative("standard uncertainty of the place"+n, float64(v.X.U), inMillimetre),
			notNegative("fillet"+n, float64(v.Fillet), inMillimetre),
		); err != nil {
			return err
		}
		switch {
		case math.IsNaN(float64(v.X.Value)) || math.IsInf(float64(v.X.Value), 0):
			return fmt.Errorf("plating: place%s is not finite", n)
		case math.IsNaN(float64(v.Arc)) || math.IsInf(float64(v.Arc), 0):
			return fmt.Errorf("plating: arc%s is not finite", n)
		case i == 0 && v.Arc != 0:
			return fmt.Errorf("plating: arc%s has no point before it", n)
		case last && v.Fillet != 0:
			return fmt.Errorf("plating: fillet%s is not between two pieces", n)
		case v.Fillet > 0 && (v.Arc != 0 || t.Profile[i+1].Arc != 0):
			return fmt.Errorf("plating: fillet%s joins an arc, must join two straight pieces", n)
		}
	}
	return nil
}

// area returns the area for coordinates x, r of the vertices in turn, NaN where
// they make no profile. A radius below the axis counts as on it.
func (t Turned) area(coordinates []float64) float64 {
	c := append([]float64(nil), coordinates...)
	for i := 1; i < len(c); i += 2 {
		c[i] = math.Max(c[i], 0)
	}
	pieces, err := t.pieces(c)
	if err != nil {
		return math.NaN()
	}
	total := 0.0
	for _, p := range pieces {
		total += p.area()
	}
	return total
}

// pieces returns the profile as lines and arcs, fillets put in. An arc too
// small to span its chord is stretched to half a turn; [Turned.checkArcs]
// refuses that for the profile as given.
func (t Turned) pieces(c []float64) ([]arcPiece, error) {
	var pieces []arcPiece
	x, r := c[0], c[1]
	for i := 1; i < len(t.Profile); i++ {
		v, xi, ri := t.Profile[i], c[2*i], c[2*i+1]
		if v.Fillet > 0 {
			in, arc, err := fillet(x, r, xi, ri, c[2*i+2], c[2*i+3], float64(v.Fillet))
			if err != nil {
				return nil, fmt.Errorf("plating: fillet of point %d of the profile is %s, %w", i+1, inMillimetre.of(float64(v.Fillet)), err)
			}
			pieces = append(pieces, in, arc)
			x, r = arc.x1, arc.r1
			continue
		}
		p := arcPiece{x, r, xi, ri, float64(v.Arc)}
		if half := math.Hypot(xi-x, ri-r) / 2; p.radius != 0 && half > math.Abs(p.radius) {
			p.radius = math.Copysign(half, p.radius)
		}
		pieces = append(pieces, p)
		x, r = xi, ri
	}
	return pieces, nil
}

// checkArcs returns an error when an arc of the profile is too small to span
// its chord or cuts through the axis.
func (t Turned) checkArcs() error {
	for i := 1; i < len(t.Profile); i++ {
		a, b := t.Profile[i-1], t.Profile[i]
		p := arcPiece{float64(a.X.Value), float64(a.R.Value), float64(b.X.Value), float64(b.R.Value), float64(b.Arc)}
		if p.radius == 0 {
			continue
		}
		if chord := math.Hypot(p.x1-p.x0, p.r1-p.r0); chord > 2*math.Abs(p.radius)*(1+1e-9) {
			return fmt.Errorf("plating: arc of point %d of the profile is %s, too small to span its chord of %s",
				i+1, inMillimetre.of(math.Abs(p.radius)), inMillimetre.of(chord))
		}
		if p.lowest() < -1e-9*(p.r0+p.r1+math.Abs(p.radius)) {
			return fmt.Errorf("plating: arc of point %d of the profile cuts through the axis", i+1)
		}
	}
	return nil
}

// fillet returns the straight piece from (x0, r0) towards the corner (x1, r1)
// and the arc of the given radius that turns into the piece towards (x2, r2).
func fillet(x0, r0, x1, r1, x2, r2, radius float64) (in, arc arcPiece, err error) {
	ax, ar, bx, br := x1-x0, r1-r0, x2-x1, r2-r1
	la, lb := math.Hypot(ax, ar), math.Hypot(bx, br)
	if la == 0 || lb == 0 {
		return in, arc, fmt.Errorf("but two of its points are one")
	}
	cross, dot := (ax*br-ar*bx)/(la*lb), (ax*bx+ar*br)/(la*lb)
	turn := math.Atan2(cross, dot)
	reach := radius * math.Tan(math.Abs(turn)/2)
	if reach > la*(1+1e-9) || reach > lb*(1+1e-9) {
		return in, arc, fmt.Errorf("too large for its pieces of %s and %s", inMillimetre.of(la), inMillimetre.of(lb))
	}
	in = arcPiece{x0: x0, r0: r0, x1: x1 - ax/la*reach, r1: r1 - ar/la*reach}
	arc = arcPiece{in.x1, in.r1, x1 + bx/lb*reach, r1 + br/lb*reach, radius}
	if turn > 0 { // the profile turns left, so its arc bulges to the right
		arc.radius = -radius
	}
	if turn == 0 {
		arc.radius = 0
	}
	return in, arc, nil
}

// centre returns the arc's centre. A positive radius bulges to the left of
// travel, so its centre is to the right.
func (p arcPiece) centre() (x, r float64) {
	dx, dr := p.x1-p.x0, p.r1-p.r0
	chord := math.Hypot(dx, dr)
	if chord == 0 {
		return p.x0, p.r0
	}
	h := math.Sqrt(math.Max(0, p.radius*p.radius-chord*chord/4))
	side := math.Copysign(h, p.radius)
	return (p.x0+p.x1)/2 + dr/chord*side, (p.r0+p.r1)/2 - dx/chord*side
}

// angles returns where the arc begins and how far it turns, both in radians.
func (p arcPiece) angles() (start, sweep float64) {
	xc, rc := p.centre()
	start = math.Atan2(p.r0-rc, p.x0-xc)
	chord := math.Hypot(p.x1-p.x0, p.r1-p.r0)
	sweep = 2 * math.Asin(math.Min(1, chord/(2*math.Abs(p.radius))))
	if p.radius > 0 { // bulging left means running clockwise
		sweep = -sweep
	}
	return start, sweep
}

// area returns the area that the piece sweeps about the axis.
func (p arcPiece) area() float64 {
	if p.radius == 0 {
		return math.Pi * (p.r0 + p.r1) * math.Hypot(p.x1-p.x0, p.r1-p.r0)
	}
	_, rc := p.centre()
	start, sweep := p.angles()
	radius := math.Abs(p.radius)
	return 2 * math.Pi * radius * (rc*math.Abs(sweep) - radius*(math.Cos(start+sweep)-math.Cos(start))*sign(sweep))
}

// lowest returns the smallest radius from the axis along the piece.
func (p arcPiece) lowest() float64 {
	low := math.Min(p.r0, p.r1)
	if p.radius == 0 {
		return low
	}
	_, rc := p.centre()
	start, sweep := p.angles()
	// The lowest point of the circle is at -90 degrees; is it on the arc?
	turn := math.Mod(-math.Pi/2-start, 2*math.Pi)
	if sweep > 0 && turn < 0 {
		turn += 2 * math.Pi
	}
	if sweep < 0 && turn > 0 {
		turn -= 2 * math.Pi
	}
	if math.Abs(turn) <= math.Abs(sweep) {
		low = math.Min(low, rc-math.Abs(p.radius))
	}
	return low
}

// sign returns -1 for a negative number and 1 otherwise.
func sign(x float64) float64 { return math.Copysign(1, x) }
