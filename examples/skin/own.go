package skin

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/examples/ownpart"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
	"example.org/thouspan/plating"
)

// own puts the area of the reader's own part, if there is one, in the place of
// the profile's. A dimension off by so much lets each face lie off by half.
func (a *answer) own() error {
	if !a.in.Own.Given() {
		return nil
	}
	var err error
	if a.mesh, err = a.in.Own.Mesh(); err != nil {
		return err
	}
	a.bare, err = a.mesh.Within(a.in.Good / unit.Length(2*math.Sqrt(3)))
	a.bare.Name = "file"
	return notebook.InField("own", err)
}

// addOwn adds what is known of the reader's own part.
func (a answer) addOwn(sheet *notebook.Sheet) error {
	volume := notebook.Figure{Name: "volume", Label: "Volume of your own part", Unknown: "no file was given"}
	v := notebook.Verdict{Name: "own", Tone: notebook.Note, Text: notebook.Plain("No file was given, so the points above are counted.")}
	if a.in.Own.Given() {
		size, _ := ownpart.Size(a.mesh)
		show := func(l unit.Length) notebook.Quantity { return notebook.Exact(l, notebook.Lengths).WithDigits(3) }
		volume.Unknown, volume.Value = "", notebook.Exact(a.mesh.Volume(), notebook.PartVolumes).WithDigits(3)
		v.Text = notebook.Say("{} triangles without a gap, {} by {} by {} over all. If that is not your part's size, choose another unit.",
			notebook.Whole(len(a.mesh.Triangles)), show(size[0]), show(size[1]), show(size[2]))
	}
	sheet.Add(v, volume)
	return nil
}

// mostDrawn is the number of triangles with which a part is drawn.
const mostDrawn = 400

// addOwnDrawing draws the reader's own part from near and above.
func (a answer) addOwnDrawing(sheet *notebook.Sheet) error {
	m := a.mesh
	if len(m.Triangles) > mostDrawn {
		// A skin that cannot be coarsened so far is drawn in full.
		if few, err := m.Remeshed(mostDrawn); err == nil {
			m = few
		}
	}
	c := drawing.New("part", "Your own part, from its file", fmt.Sprintf("The part from near, right and above, in %d triangles.", len(m.Triangles)), 420, 240)
	// Seen from (3, -4, 3): right is level, up square to both.
	toward := r3.Unit(r3.Vec{X: 3, Y: -4, Z: 3})
	right := r3.Unit(r3.Cross(r3.Vec{Z: 1}, toward))
	up := r3.Cross(toward, right)
	size, low := ownpart.Size(m)
	middle := r3.Vec{X: float64(low.X + size[0]/2), Y: float64(low.Y + size[1]/2), Z: float64(low.Z + size[2]/2)}
	scale := 210 / math.Sqrt(float64(size[0]*size[0]+size[1]*size[1]+size[2]*size[2]))
	for _, f := range facing(m, toward) {
		var corners []drawing.Point
		for _, p := range f {
			v := r3.Sub(p, middle)
			corners = append(corners, drawing.Point{X: 210 + scale*r3.Dot(v, right), Y: 120 - scale*r3.Dot(v, up)})
		}
		c.Face(drawing.Brass, corners...)
	}
	item, err := c.Item(notebook.Plain("To scale with itself, from the file. The points of the profile are not used while there is a file."))
	if err != nil {
		return err
	}
	sheet.Add(item)
	return nil
}

// facing returns the triangles that face a direction, the far ones first.
func facing(m plating.Mesh, toward r3.Vec) [][3]r3.Vec {
	var all [][3]r3.Vec
	for _, k := range m.Triangles {
		var f [3]r3.Vec
		for i, p := range k {
			f[i] = r3.Vec{X: float64(m.Points[p].X), Y: float64(m.Points[p].Y), Z: float64(m.Points[p].Z)}
		}
		if r3.Dot(r3.Cross(r3.Sub(f[1], f[0]), r3.Sub(f[2], f[0])), toward) > 0 {
			all = append(all, f)
		}
	}
	depth := func(f [3]r3.Vec) float64 { return r3.Dot(r3.Add(f[0], r3.Add(f[1], f[2])), toward) }
	sort.SliceStable(all, func(i, j int) bool { return depth(all[i]) < depth(all[j]) })
	return all
}
