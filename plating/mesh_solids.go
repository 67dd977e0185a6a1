package plating

// Meshes of plates and blocks with rounded edges and of turned solids.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"
)

// Block is a rectangular solid about the origin: a plate, a bar, a block anode.
type Block struct {
	Name string
	// X, Y and Z are its whole sizes.
	X, Y, Z unit.Length
	// Round is the radius of all its edges and corners; zero leaves them square.
	Round unit.Length
	// Steps is how many triangles' sides lie along the longest side, 1 to 200.
	// The other sides have fewer, and sides grow shorter towards edges.
	Steps int
	// Half keeps only the half above the middle in X, Y or Z, open at the
	// middle, which must lie in a wall of the tank: the wall is then the mirror
	// that makes the block whole.
	Half [3]bool
}

// validate returns what is wrong with the block.
func (b Block) validate() error {
	name := b.name()
	if err := firstError(positive("size of "+name+" in x", float64(b.X), inMillimetre), positive("size of "+name+" in y", float64(b.Y), inMillimetre),
		positive("size of "+name+" in z", float64(b.Z), inMillimetre), notNegative("rounding of "+name, float64(b.Round), inMillimetre)); err != nil {
		return err
	}
	if least := min(b.X, b.Y, b.Z); b.Round >= 0.5*least {
		return fmt.Errorf("plating: rounding of %s is %s, must be below half its least size, %s", name,
			inMillimetre.of(float64(b.Round)), inMillimetre.of(float64(least)/2))
	}
	return checkSteps(name, b.Steps)
}

// name returns the name for messages.
func (b Block) name() string {
	if b.Name == "" {
		return "block"
	}
	return b.Name
}

// checkSteps returns an error for a number of steps out of range.
func checkSteps(name string, steps int) error {
	if steps < 1 || steps > 200 {
		return fmt.Errorf("plating: steps of %s are %d, must be 1 to 200", name, steps)
	}
	return nil
}

// tick is a place on the grid along one side of a block: along the flat, and
// on the rounding as a share of its eighth of a turn, -1 to 1.
type tick struct{ flat, turn float64 }

// Mesh returns the surface of the block.
func (b Block) Mesh(finer int) (Mesh, error) {
	if err := firstError(b.validate(), checkFiner(finer)); err != nil {
		return Mesh{}, err
	}
	sizes := [3]float64{float64(b.X), float64(b.Y), float64(b.Z)}
	w := newWelder(math.Max(sizes[0], math.Max(sizes[1], sizes[2])))
	var grids [3][]tick
	for axis := range grids {
		grids[axis] = b.grid(axis, sizes, finer)
	}
	for axis := range 3 {
		for _, sign := range []float64{-1, 1} {
			if b.Half[axis] && sign < 0 {
				continue
			}
			b.face(w, axis, sign, sizes, grids)
		}
	}
	return w.mesh(b.Name), nil
}

// grid returns the places along one side, from the lower end to the upper.
func (b Block) grid(axis int, sizes [3]float64, finer int) []tick {
	r := float64(b.Round)
	longest := math.Max(sizes[0], math.Max(sizes[1], sizes[2]))
	inner := sizes[axis]/2 - r
	// The shorter a side the fewer its steps, by the root, for its edges too
	// want fine elements.
	steps := max(1, int(math.Round(float64(b.Steps)*math.Sqrt(sizes[axis]/longest)/2))) * finer
	arc := 0
	if r > 0 {
		arc = finer
	}
	var ticks []tick
	for i := range steps + 1 {
		ticks = append(ticks, tick{flat: inner * math.Sin(math.Pi/2*float64(i)/float64(steps))})
	}
	for i := 1; i <= arc; i++ {
		ticks = append(ticks, tick{flat: inner, turn: float64(i) / float64(arc)})
	}
	if b.Half[axis] {
		return ticks
	}
	whole := make([]tick, 0, 2*len(ticks))
	for i := len(ticks) - 1; i > 0; i-- {
		whole = append(whole, tick{-ticks[i].flat, -ticks[i].turn})
	}
	return append(whole, ticks...)
}

// face adds one of the six faces with its share of the roundings: each place is
// a place of the inner block and from there the radius along a direction.
func (b Block) face(w *welder, axis int, sign float64, sizes [3]float64, grids [3][]tick) {
	u, v := (axis+1)%3, (axis+2)%3
	r := float64(b.Round)
	at := func(p, q tick) int {
		var inner, direction [3]float64
		inner[axis], direction[axis] = sign*(sizes[axis]/2-r), sign
		inner[u], direction[u] = p.flat, math.Tan(p.turn*math.Pi/4)
		inner[v], direction[v] = q.flat, math.Tan(q.turn*math.Pi/4)
		d := r3.Unit(r3.Vec{X: direction[0], Y: direction[1], Z: direction[2]})
		return w.add(r3.Add(r3.Vec{X: inner[0], Y: inner[1], Z: inner[2]}, r3.Scale(r, d)))
	}
	gu, gv := grids[u], grids[v]
	for i := 1; i < len(gu); i++ {
		for j := 1; j < len(gv); j++ {
			a, c := at(gu[i-1], gv[j-1]), at(gu[i], gv[j])
			e, f := at(gu[i], gv[j-1]), at(gu[i-1], gv[j])
			// The diagonal runs alike on the four quarters of the face.
			if (gu[i].flat+gu[i-1].flat+gu[i].turn > 0) == (gv[j].flat+gv[j-1].flat+gv[j].turn > 0) {
				addQuad(w, sign > 0, a, e, c, f)
			} else {
				addQuad(w, sign > 0, e, c, f, a)
			}
		}
	}
}

// addQuad adds two triangles of four corners in order, cut from the first to
// the third, turned about unless outward.
func addQuad(w *welder, outward bool, a, b, c, d int) {
	if !outward {
		b, d = d, b
	}
	w.triangle(a, b, c)
	w.triangle(a, c, d)
}

// Spun is a turned solid with its axis upright along Z.
type Spun struct {
	// Turned is the profile; its places along the axis become heights.
	// Its ends must lie on the axis.
	Turned Turned
	// Around is how many steps make the round, 3 to 400; steps along the
	// profile are about as long, and shorter towards corners.
	Around int
	// Half keeps only the half at X above zero, open in the plane X = 0, which
	// must be a wall of the tank, as [Block.Half] has it. Around must then be a
	// multiple of four.
	Half bool
}

// UprightRod returns a round bar upright on the origin.
func UprightRod(name string, diameter, length unit.Length, around int) Spun {
	end, r := Exactly(length), Exactly(diameter/2)
	return Spun{Around: around, Turned: Turned{Name: name, Profile: []ProfilePoint{{}, {R: r}, {X: end, R: r}, {X: end}}}}
}

// Ball returns a sphere about the origin.
func Ball(name string, diameter unit.Length, around int) Spun {
	r := diameter / 2
	return Spun{Around: around, Turned: Turned{Name: name, Profile: []ProfilePoint{{X: Exactly(-r)}, {R: Exactly(r), Arc: r}, {X: Exactly(r), Arc: r}}}}
}

// Mesh returns the surface of the turned solid.
func (s Spun) Mesh(finer int) (Mesh, error) {
	if err := checkFiner(finer); err != nil {
		return Mesh{}, err
	}
	name := s.Turned.Name
	if name == "" {
		name = "turned part"
	}
	if s.Around < 3 || s.Around > 400 {
		return Mesh{}, fmt.Errorf("plating: steps around %s are %d, must be 3 to 400", name, s.Around)
	}
	if s.Half && s.Around%4 != 0 {
		return Mesh{}, fmt.Errorf("plating: steps around half of %s are %d, must be a multiple of four", name, s.Around)
	}
	rings, err := s.rings(name, finer)
	if err != nil {
		return Mesh{}, err
	}
	return s.turn(name, rings, s.Around*finer), nil
}

// hoop is a place of the profile in m.
type hoop struct{ z, r float64 }

// rings returns the profile in steps.
func (s Spun) rings(name string, finer int) ([]hoop, error) {
	if _, err := s.Turned.Surface(); err != nil {
		return nil, err
	}
	var c []float64
	widest := 0.0
	for _, v := range s.Turned.Profile {
		c = append(c, float64(v.X.Value), float64(v.R.Value))
		widest = math.Max(widest, float64(v.R.Value))
	}
	pieces, err := s.Turned.pieces(c)
	if err != nil {
		return nil, err
	}
	rings := []hoop{{c[0], c[1]}}
	step := 2 * math.Pi * widest / float64(s.Around)
	for _, p := range pieces {
		length := math.Hypot(p.x1-p.x0, p.r1-p.r0)
		arc := p.radius != 0
		if arc {
			_, sweep := p.angles()
			length = math.Abs(p.radius * sweep)
		}
		n := max(1, int(math.Round(length/step))) * finer
		if arc {
			n = max(n, 2*finer)
		}
		for i := 1; i <= n; i++ {
			rings = append(rings, p.ringAt(float64(i)/float64(n)))
		}
	}
	last := rings[len(rings)-1]
	if rings[0].r > 1e-9*widest || last.r > 1e-9*widest {
		return nil, fmt.Errorf("plating: profile of %s begins %s and ends %s off the axis, must begin and end on it",
			name, inMillimetre.of(rings[0].r), inMillimetre.of(last.r))
	}
	return rings, nil
}

// ringAt returns the place at a share of the piece, even along an arc and
// closer towards the ends of a straight line off the axis.
func (p arcPiece) ringAt(share float64) hoop {
	if p.radius != 0 && share < 1 {
		xc, rc := p.centre()
		start, sweep := p.angles()
		sin, cos := math.Sincos(start + sweep*share)
		return hoop{xc + math.Abs(p.radius)*cos, rc + math.Abs(p.radius)*sin}
	}
	// A half wave crowds both ends, a quarter the end that is off the axis.
	t := (1 - math.Cos(math.Pi*share)) / 2
	if p.r0 == 0 {
		t = math.Sin(math.Pi / 2 * share)
	} else if p.r1 == 0 {
		t = 1 - math.Cos(math.Pi/2*share)
	}
	if share == 1 {
		t = 1
	}
	return hoop{p.x0 + t*(p.x1-p.x0), p.r0 + t*(p.r1-p.r0)}
}

// turn returns the mesh of rings turned about the axis, facing outwards.
func (s Spun) turn(name string, rings []hoop, around int) Mesh {
	size := 0.0
	for _, p := range rings {
		size = math.Max(size, math.Max(p.r, math.Abs(p.z-rings[0].z)))
	}
	w := newWelder(size)
	at := func(i, k int) int {
		sin, cos := math.Sincos(2 * math.Pi * float64(k%around) / float64(around))
		return w.add(r3.Vec{X: rings[i].r * cos, Y: rings[i].r * sin, Z: rings[i].z})
	}
	for i := 1; i < len(rings); i++ {
		for k := range around {
			if s.Half && k >= around/4 && k < 3*around/4 {
				continue
			}
			a, b, c, d := at(i-1, k), at(i-1, k+1), at(i, k+1), at(i, k)
			if (i+k)%2 == 0 {
				addQuad(w, true, a, b, c, d)
			} else {
				addQuad(w, true, b, c, d, a)
			}
		}
	}
	m := w.mesh(name)
	// The first corner is on the axis, so that the open side of a half adds none.
	if m.Volume() < 0 {
		for t, k := range m.Triangles {
			m.Triangles[t] = [3]int{k[0], k[2], k[1]}
		}
	}
	return m
}
