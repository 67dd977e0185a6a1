// Package drawing makes the line drawings of the lessons, in one hand: the same
// line weights, arrows, dimension lines and lettering everywhere, colours left
// to the page's style sheet (assets/drawing.css).
//
// A [Canvas] is 420 units wide as a rule, so that its lettering of 15 units is
// 13 CSS pixels on a phone 360 pixels wide. Its y grows downward, as in SVG. A
// [View] maps a world in metres, z or y upward, onto it, with a scale of its
// own for heights: that is how a tilt is exaggerated, and a drawing that
// exaggerates says by how much with [Canvas.Exaggerated].
//
// Parts that several lessons draw are drawn here once: gauges ([Canvas.Dial],
// [Canvas.Plunger], [Canvas.Lever], [Canvas.Level]), the mill and what stands on
// it ([Canvas.Spindle], [Canvas.TableFront], [Canvas.TableSide],
// [Canvas.TablePlan], [Canvas.Vise], [Canvas.Square], [Canvas.MillFront],
// [Canvas.MillSide]) and the bench ([Canvas.Tank], [Canvas.Anode],
// [Canvas.Bar], [Canvas.Wire], [Canvas.Supply]).
//
// A field over a surface is drawn in steps of light and dark ([Canvas.Tint],
// [Canvas.TintScale]), and what the reader may drag has a [Canvas.Handle].
//
// Colours and widths are classes, one a [Style]; nothing in a drawing names a
// colour. Labels that hold quantities are written in metric and in inch units,
// of which the page shows one.
package drawing
