package plating

// Closed surfaces of triangles: the shape of a part in three dimensions.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"
)

// Point is a place in space.
type Point struct{ X, Y, Z unit.Length }

// vec returns the point in metres.
func (p Point) vec() r3.Vec { return r3.Vec{X: float64(p.X), Y: float64(p.Y), Z: float64(p.Z)} }

// pointAt returns the point of a vector in metres.
func pointAt(v r3.Vec) Point {
	return Point{unit.Length(v.X), unit.Length(v.Y), unit.Length(v.Z)}
}

// Solid is a body that can be drawn as a mesh of any fineness.
type Solid interface {
	// Mesh returns the surface with every step of the description cut into the
	// given number of steps, 1 to 64.
	Mesh(finer int) (Mesh, error)
}

// Mesh is a surface of flat triangles, each three places in Points that run
// anticlockwise seen from outside the solid. It is the [Solid] of a shape that
// was measured or drawn elsewhere, and a [Shape] for its area.
type Mesh struct {
	Name      string
	Points    []Point
	Triangles [][3]int
}

// largestFiner is the largest number of steps that one step is cut into.
const largestFiner = 64

// checkFiner returns an error for a fineness out of range.
func checkFiner(finer int) error {
	if finer < 1 || finer > largestFiner {
		return fmt.Errorf("plating: each step of a mesh is to be cut into %d, must be 1 to %d", finer, largestFiner)
	}
	return nil
}

// name returns the name for messages.
func (m Mesh) name() string {
	if m.Name == "" {
		return "mesh"
	}
	return m.Name
}

// corners returns the corners of a triangle in metres.
func (m Mesh) corners(t int) (a, b, c r3.Vec) {
	k := m.Triangles[t]
	return m.Points[k[0]].vec(), m.Points[k[1]].vec(), m.Points[k[2]].vec()
}

// Surface returns the area of the triangles, taken as exact: what the mesh
// leaves out of a rounded shape is not known here. It returns an error that
// names the triangle for one without area, with a place that is not finite or
// with a corner that does not exist. It does not ask that the mesh be closed.
func (m Mesh) Surface() (Surface, error) {
	if len(m.Triangles) == 0 {
		return Surface{}, fmt.Errorf("plating: %s has no triangles", m.name())
	}
	sum := 0.0
	for t, k := range m.Triangles {
		for _, i := range k {
			if i < 0 || i >= len(m.Points) {
				return Surface{}, fmt.Errorf("plating: triangle %d of %s has corner %d, must be 0 to %d", t+1, m.name(), i, len(m.Points)-1)
			}
		}
		a, b, c := m.corners(t)
		u, v := r3.Sub(b, a), r3.Sub(c, a)
		twice := r3.Norm(r3.Cross(u, v))
		longest := math.Max(r3.Norm2(r3.Sub(c, b)), math.Max(r3.Norm2(u), r3.Norm2(v)))
		if !(twice > 1e-7*longest) || math.IsInf(twice, 0) {
			return Surface{}, fmt.Errorf("plating: triangle %d of %s at %s has no area: %.3g mm2", t+1, m.name(), where(a), twice/2*1e6)
		}
		sum += twice / 2
	}
	return Surface{Name: m.name(), Area: unit.Area(sum)}, nil
}

// Volume returns the volume that the mesh encloses, negative when its triangles
// face inwards; it means something only for a closed mesh.
func (m Mesh) Volume() unit.Volume {
	if len(m.Triangles) == 0 {
		return 0
	}
	// Seen from a corner of the mesh, so that a far origin costs no digits.
	origin, _, _ := m.corners(0)
	sum := 0.0
	for t := range m.Triangles {
		a, b, c := m.corners(t)
		sum += r3.Dot(r3.Sub(a, origin), r3.Cross(r3.Sub(b, origin), r3.Sub(c, origin))) / 6
	}
	return unit.Volume(sum)
}

// Mesh returns the mesh with each side of a triangle cut into the given number
// of steps. The shape stays as it is: facets of a rounded shape stay flat.
func (m Mesh) Mesh(finer int) (Mesh, error) {
	if err := checkFiner(finer); err != nil {
		return Mesh{}, err
	}
	if _, err := m.Surface(); err != nil {
		return Mesh{}, err
	}
	if finer == 1 {
		return m, nil
	}
	w := newWelder(m.size())
	at := func(t, i, j int) int {
		k := m.Triangles[t]
		// The sum runs in the order of the corners' numbers, so that two
		// triangles agree on the places of the side they share.
		weights := map[int]float64{}
		weights[k[0]] += float64(finer - i - j)
		weights[k[1]] += float64(i)
		weights[k[2]] += float64(j)
		var v r3.Vec
		for _, c := range sorted3(k) {
			v = r3.Add(v, r3.Scale(weights[c]/float64(finer), m.Points[c].vec()))
		}
		return w.add(v)
	}
	for t := range m.Triangles {
		for i := range finer {
			for j := range finer - i {
				w.triangle(at(t, i, j), at(t, i+1, j), at(t, i, j+1))
				if i+j < finer-1 {
					w.triangle(at(t, i+1, j), at(t, i+1, j+1), at(t, i, j+1))
				}
			}
		}
	}
	return w.mesh(m.Name), nil
}

// sorted3 returns three numbers in order.
func sorted3(k [3]int) [3]int {
	for _, s := range [3][2]int{{0, 1}, {1, 2}, {0, 1}} {
		if k[s[0]] > k[s[1]] {
			k[s[0]], k[s[1]] = k[s[1]], k[s[0]]
		}
	}
	return k
}

// Shifted returns the mesh moved.
func (m Mesh) Shifted(by Point) Mesh {
	points := make([]Point, len(m.Points))
	for i, p := range m.Points {
		points[i] = Point{p.X + by.X, p.Y + by.Y, p.Z + by.Z}
	}
	m.Points = points
	return m
}

// size returns the longest side of the box about the mesh in m.
func (m Mesh) size() float64 {
	low, high := m.box()
	d := r3.Sub(high, low)
	return math.Max(d.X, math.Max(d.Y, d.Z))
}

// box returns the corners of the box about the mesh in m.
func (m Mesh) box() (low, high r3.Vec) {
	low = r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	high = r3.Scale(-1, low)
	for _, p := range m.Points {
		v := p.vec()
		low, high = lower(low, v), upper(high, v)
	}
	return low, high
}

// lower and upper return the lower and the upper corner of the box about two
// points.
func lower(a, b r3.Vec) r3.Vec {
	return r3.Vec{X: math.Min(a.X, b.X), Y: math.Min(a.Y, b.Y), Z: math.Min(a.Z, b.Z)}
}
func upper(a, b r3.Vec) r3.Vec {
	return r3.Vec{X: math.Max(a.X, b.X), Y: math.Max(a.Y, b.Y), Z: math.Max(a.Z, b.Z)}
}

// where writes a place for an error message.
func where(v r3.Vec) string {
	return fmt.Sprintf("(%.4g, %.4g, %.4g) mm", v.X*1e3, v.Y*1e3, v.Z*1e3)
}

// welder gathers triangles and makes places that agree within a hair one.
type welder struct {
	hair      float64
	places    map[[3]int64]int
	points    []Point
	triangles [][3]int
}

// newWelder returns a welder for a mesh of a size in m.
func newWelder(size float64) *welder {
	return &welder{hair: 1e-8 * size, places: map[[3]int64]int{}}
}

// add returns the number of a place, a new one unless a neighbour is known.
func (w *welder) add(v r3.Vec) int {
	key := [3]int64{int64(math.Floor(v.X / w.hair)), int64(math.Floor(v.Y / w.hair)), int64(math.Floor(v.Z / w.hair))}
	for i := range int64(27) {
		if p, ok := w.places[[3]int64{key[0] + i%3 - 1, key[1] + i/3%3 - 1, key[2] + i/9 - 1}]; ok {
			return p
		}
	}
	w.places[key] = len(w.points)
	w.points = append(w.points, pointAt(v))
	return len(w.points) - 1
}

// triangle keeps a triangle unless two of its corners are one.
func (w *welder) triangle(a, b, c int) {
	if a != b && b != c && c != a {
		w.triangles = append(w.triangles, [3]int{a, b, c})
	}
}

// mesh returns what was gathered.
func (w *welder) mesh(name string) Mesh {
	return Mesh{Name: name, Points: w.points, Triangles: w.triangles}
}

// Within returns the area of a closed mesh whose whole skin may lie further out
// or in by a standard uncertainty: along each side two flats meet at an angle,
// and growing by a hair adds the hair times side and angle (J. Steiner, 1840;
// from memory). It returns an error for what [Mesh.Closed] refuses, and for an
// uncertainty that is negative or not finite.
func (m Mesh) Within(u unit.Length) (Surface, error) {
	if !(u >= 0) || math.IsInf(float64(u), 0) {
		return Surface{}, fmt.Errorf("plating: standard uncertainty of the skin of %s is %.4g mm, must be 0 mm or more", m.name(), float64(u)*1e3)
	}
	if err := m.Closed(); err != nil {
		return Surface{}, err
	}
	s, err := m.Surface()
	if err != nil {
		return Surface{}, err
	}
	runs, err := m.runs(m.name())
	if err != nil {
		return Surface{}, err
	}
	perLength := 0.0
	for t, k := range m.Triangles {
		for i := range 3 {
			a, b := k[i], k[(i+1)%3]
			if a > b {
				continue
			}
			along := r3.Sub(m.Points[b].vec(), m.Points[a].vec())
			n, o := m.normal(t), m.normal(runs[[2]int{b, a}])
			perLength += math.Atan2(r3.Dot(r3.Cross(n, o), along), r3.Norm(along)*r3.Dot(n, o)) * r3.Norm(along)
		}
	}
	s.U = unit.Area(math.Abs(perLength) * float64(u))
	if s.U > 0 {
		s.Shares = []Share{{Name: m.name(), U: float64(s.U)}}
	}
	return s, nil
}

// normal returns the direction out of a triangle.
func (m Mesh) normal(t int) r3.Vec {
	a, b, c := m.corners(t)
	return r3.Unit(r3.Cross(r3.Sub(b, a), r3.Sub(c, a)))
}
