package plating_test

import (
	"fmt"
	"strings"

	"example.org/thouspan/plating"
)

// wedgeFile is a corner cut off a block, 10 mm along each edge, as an STL file.
func wedgeFile() string {
	var b strings.Builder
	b.WriteString("solid wedge\n")
	for _, corners := range [4]string{"0 0 0, 0 10 0, 10 0 0", "0 0 0, 0 0 10, 0 10 0", "0 0 0, 10 0 0, 0 0 10", "10 0 0, 0 10 0, 0 0 10"} {
		b.WriteString("facet normal 0 0 0\nouter loop\nvertex " + strings.ReplaceAll(corners, ", ", "\nvertex ") + "\nendloop\nendfacet\n")
	}
	return b.String() + "endsolid wedge\n"
}

// The area and the volume of a part out of a drawing program, and how sure the
// area is when the part is held to a tenth of a millimetre.
func ExampleReadSTL() {
	mesh, err := plating.ReadSTL(strings.NewReader(wedgeFile()), millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	surface, err := mesh.Within(0.1 * millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %.2f cm2 with u = %.2f cm2, %.1f mm3\n", surface.Name, float64(surface.Area/plating.SquareCentimetre),
		float64(surface.U/plating.SquareCentimetre), float64(mesh.Volume())*1e9)
	// Output:
	// wedge: 2.37 cm2 with u = 0.14 cm2, 166.7 mm3
}

// A mesh with a triangle missing is no solid.
func ExampleMesh_Closed() {
	mesh, err := plating.ReadSTL(strings.NewReader(wedgeFile()), millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("as read:", mesh.Closed())
	mesh.Triangles = mesh.Triangles[:3]
	fmt.Println(mesh.Closed())
	// Output:
	// as read: <nil>
	// plating: triangle 1 of wedge has a free side at (0, 10, 0) mm: the mesh is not closed
}

// A drawing's thousands of triangles are made few enough for a solver.
func ExampleMesh_Remeshed() {
	mesh, err := plating.Ball("ball", 20*millimetre, 24).Mesh(1)
	if err != nil {
		fmt.Println(err)
		return
	}
	few, err := mesh.Remeshed(200)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d triangles to %d, volume %.0f %% less\n", len(mesh.Triangles), len(few.Triangles), 100*(1-float64(few.Volume()/mesh.Volume())))
	// Output:
	// 528 triangles to 200, volume 2 % less
}
