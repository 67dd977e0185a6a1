package drawing_test

import (
	"fmt"
	"strings"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/internal/notebook/drawing"
)

// A spindle over a table, its lean drawn larger than it is and said to be.
func ExampleCanvas() {
	c := drawing.New("lean", "How the head stands", "A spindle that leans to the right over a level table.", 420, 260)
	const times = 200
	nose := drawing.Point{X: 210, Y: 150}
	c.Spindle(nose, 60, 120, 400e-6*times)
	c.TableFront(drawing.Point{X: 60, Y: 190}, drawing.Point{X: 360, Y: 190}, 22)
	c.Label(drawing.Point{X: 300, Y: 60}, drawing.Start, notebook.Say("{}", notebook.Of(400e-6, 8e-6, notebook.Slopes)))
	c.Exaggerated("The lean is", times)
	item, err := c.Item(notebook.Plain("Seen from the front."))
	if err != nil {
		fmt.Println(err)
		return
	}
	svg := strings.ReplaceAll(item.SVG, "\u00a0", " ")
	for _, words := range []string{"400 µm/m", "4.80 thou/ft", "200 times too large"} {
		fmt.Println(words, strings.Contains(svg, words))
	}
	// Output:
	// 400 µm/m true
	// 4.80 thou/ft true
	// 200 times too large true
}

// A view maps heights at a scale of their own.
func ExampleView() {
	v := drawing.View{Origin: drawing.Point{X: 30, Y: 150}, Along: 500, Up: 2e6}
	p := v.At(0.2, 25e-6)
	fmt.Printf("%.0f, %.0f; heights drawn %.0f times too large\n", p.X, p.Y, v.Times())
	// Output: 130, 100; heights drawn 4000 times too large
}
