package plating

// Reading of STL files, the plain exchange format for triangle meshes: text of
// "facet normal / outer loop / vertex" or, in the binary form, a head of 80
// bytes, a count and 50 bytes for each triangle (the format's own layout; from
// memory).

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/gonum/unit"
)

// mostRead is the largest number of triangles that a file may hold, and
// largestRead the number of bytes that they can take as text.
const (
	mostRead    = 2_000_000
	largestRead = 700 << 20
)

// ReadSTL reads a mesh from an STL file in text or binary form. The format has
// no unit: the caller says what one is, most often a millimetre. Corners that
// agree within a millionth of the mesh's size become one, since the binary form
// holds seven digits, and triangles that this makes a line are left out. Normals
// in the file are not used; the order of corners says where outside is.
//
// It returns an error that names the line or the triangle for a file that ends
// early, goes on after its end, has a word out of place or a number that is not
// finite, and for what [Mesh.Closed] refuses.
func ReadSTL(r io.Reader, one unit.Length) (Mesh, error) {
	if err := positive("unit of the mesh file", float64(one), inMillimetre); err != nil {
		return Mesh{}, err
	}
	data, err := io.ReadAll(io.LimitReader(r, largestRead+1))
	if err != nil {
		return Mesh{}, fmt.Errorf("plating: mesh file cannot be read: %w", err)
	}
	if len(data) > largestRead {
		return Mesh{}, fmt.Errorf("plating: mesh file is larger than %d bytes", largestRead)
	}
	var corners []r3.Vec
	name := "mesh"
	// A binary file may begin with the word "solid" too; its length tells.
	if count, ok := binaryCount(data); ok {
		corners, err = binaryCorners(data[84:], count)
	} else {
		name, corners, err = textCorners(data)
	}
	if err != nil {
		return Mesh{}, err
	}
	m, err := weld(name, corners, float64(one))
	if err != nil {
		return Mesh{}, err
	}
	if err := m.Closed(); err != nil {
		return Mesh{}, err
	}
	return m, nil
}

// weld returns the mesh of corners, three to a triangle.
func weld(name string, corners []r3.Vec, one float64) (Mesh, error) {
	low := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	high := r3.Scale(-1, low)
	for i := range corners {
		corners[i] = r3.Scale(one, corners[i])
		low, high = lower(low, corners[i]), upper(high, corners[i])
	}
	d := r3.Sub(high, low)
	size := max(d.X, d.Y, d.Z)
	if !(size > 0) || math.IsInf(size, 0) || math.IsInf(r3.Norm(low), 0) || 1e8*size < r3.Norm(low) {
		return Mesh{}, fmt.Errorf("plating: mesh of the file is %.3g mm across at %s, must have a size that is told from its place", size*1e3, where(low))
	}
	w := newWelder(100 * size) // a hair of a hundred-millionth of that
	for t := 0; t+2 < len(corners); t += 3 {
		w.triangle(w.add(corners[t]), w.add(corners[t+1]), w.add(corners[t+2]))
	}
	return w.mesh(name), nil
}

// binaryCount returns the number of triangles of a binary file, and whether its
// length is that of one.
func binaryCount(data []byte) (int, bool) {
	if len(data) < 84 {
		return 0, false
	}
	count := int64(binary.LittleEndian.Uint32(data[80:]))
	return int(count), int64(len(data)) == 84+50*count
}

// binaryCorners returns the corners of a binary file's triangles.
func binaryCorners(data []byte, count int) ([]r3.Vec, error) {
	if count < 1 || count > mostRead {
		return nil, fmt.Errorf("plating: mesh file has %d triangles, must have 1 to %d", count, mostRead)
	}
	corners := make([]r3.Vec, 0, 3*count)
	for t := range count {
		for c := range 3 {
			var v [3]float64
			for i := range v {
				v[i] = float64(math.Float32frombits(binary.LittleEndian.Uint32(data[50*t+12+12*c+4*i:])))
				if !isFinite(v[i]) {
					return nil, fmt.Errorf("plating: triangle %d of the mesh file has a corner at %v, must be finite", t+1, v[i])
				}
			}
			corners = append(corners, r3.Vec{X: v[0], Y: v[1], Z: v[2]})
		}
	}
	return corners, nil
}

// stlLines is the order of lines of a triangle in a text file.
var stlLines = [7]string{"facet normal", "outer loop", "vertex", "vertex", "vertex", "endloop", "endfacet"}

// textCorners returns the name and the corners of the triangles of a text file.
func textCorners(data []byte) (name string, corners []r3.Vec, err error) {
	step, number, ended := -1, 0, false
	for line := range bytes.Lines(data) {
		number++
		words := strings.Fields(string(line))
		if len(words) == 0 {
			continue
		}
		text := strings.ToLower(strings.Join(words[:min(2, len(words))], " "))
		switch {
		case ended:
			return "", nil, fmt.Errorf("plating: line %d of the mesh file comes after its end", number)
		case step < 0 && strings.ToLower(words[0]) == "solid":
			name, step = strings.Join(words[1:], " "), 0
		case step < 0:
			return "", nil, fmt.Errorf("plating: line %d of the mesh file does not begin with the word solid, and the file has not the length of a binary one", number)
		case step == 0 && (text == "endsolid" || strings.HasPrefix(text, "endsolid ")):
			ended = true
		case text != stlLines[step] && !(stlLines[step] == "vertex" && strings.HasPrefix(text, "vertex ")):
			return "", nil, fmt.Errorf("plating: line %d of the mesh file begins with %.40q, must be %q", number, text, stlLines[step])
		default:
			if stlLines[step] == "vertex" {
				v, err := textCorner(words)
				if err != nil {
					return "", nil, fmt.Errorf("plating: line %d of the mesh file: %w", number, err)
				}
				corners = append(corners, v)
			}
			step = (step + 1) % len(stlLines)
		}
	}
	if !ended || len(corners) == 0 || len(corners) > 3*mostRead {
		return "", nil, fmt.Errorf("plating: mesh file ends at line %d after %d triangles, must have 1 to %d and the word endsolid", number, len(corners)/3, mostRead)
	}
	return name, corners, nil
}

// textCorner returns the place of a line "vertex x y z".
func textCorner(words []string) (r3.Vec, error) {
	if len(words) != 4 {
		return r3.Vec{}, fmt.Errorf("a vertex has %d numbers, must have 3", len(words)-1)
	}
	var v [3]float64
	for i, word := range words[1:] {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil || !isFinite(x) {
			return r3.Vec{}, fmt.Errorf("a vertex has %.40q, must be a finite number", word)
		}
		v[i] = x
	}
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}, nil
}
