package scraping

import (
	"example.org/thouspan/internal/notebook"
	"gonum.org/v1/gonum/unit"
)

// form binds the inputs to what the reader types.
func form(in *Inputs) []notebook.Field {
	lengths := []notebook.Unit{notebook.Millimetre, notebook.InchUnit}
	fine := []notebook.Unit{notebook.Micrometre, notebook.Thou, notebook.Millimetre, notebook.InchUnit}
	size, little := notebook.Between(1*mm, 10_000*mm), notebook.Between(0*um, 1000*um)
	fields := []notebook.Field{
		notebook.Rows("depths", &in.Depths, notebook.Spec{Label: "Wear of both ways", Help: "Down from the surface as new, places in order.", MinRows: 3, MaxRows: 60}, func(d *Depth) []notebook.Field {
			return []notebook.Field{
				notebook.Measure("place", &d.Place, notebook.Spec{Label: "Place u", Help: "Right of the table's middle positive.", Units: lengths, Limits: notebook.Between(-5000*mm, 5000*mm)}),
				notebook.Measure("front", &d.Front, notebook.Spec{Label: "Front", Help: "Depth of wear of the front way.", Units: fine, Limits: notebook.Between(-1000*um, 2000*um)}),
				notebook.Measure("rear", &d.Rear, notebook.Spec{Label: "Rear", Help: "Depth of wear of the rear way.", Units: fine, Limits: notebook.Between(-1000*um, 2000*um)}),
			}
		}),
		notebook.Measure("depth-u", &in.DepthU, notebook.Spec{Label: "Each depth is sure to", Help: "Standard uncertainty.", Units: fine, Limits: little}),
		notebook.Choice("across", &in.Across, notebook.Spec{Label: "Across the ways", Help: "Level keeps what stands on the table from tipping; leaning takes off less.", Options: []string{least, level}}),
		notebook.Measure("light", &in.Light, notebook.Spec{Label: "A light pass takes off", Help: "1 to 3 µm.", Units: fine, Limits: notebook.Between(0.1*um, 100*um)}),
		notebook.Measure("heavy", &in.Heavy, notebook.Spec{Label: "A heavy pass takes off", Help: "5 to 10 µm by hand.", Units: fine, Limits: notebook.Between(0.1*um, 100*um)}),
		notebook.Rows("squares", &in.Squares, notebook.Spec{Label: "Points counted", Help: "One row a square of the spotted face.", MinRows: 2, MaxRows: 60}, func(q *Square) []notebook.Field {
			return []notebook.Field{notebook.Count("points", &q.Points, notebook.Spec{Label: "Points", Help: "Dark ones in the square.", Limits: notebook.Between(0.0, 1000.0)})}
		}),
		notebook.Measure("side", &in.Side, notebook.Spec{Label: "Side of the square", Help: "An inch is usual.", Units: lengths, Limits: notebook.Between(5*mm, 500*mm)}),
	}
	groups := [][]notebook.Field{
		notebook.Grouped("The ways",
			notebook.Measure("apart", &in.Apart, notebook.Spec{Label: "Ways apart", Help: "Across, middle to middle.", Units: lengths, Limits: size}),
			notebook.Measure("width", &in.Width, notebook.Spec{Label: "Width of a way", Help: "The face that bears.", Units: lengths, Limits: size})),
		notebook.Grouped("The straightedge",
			notebook.Measure("edge-length", &in.EdgeLength, notebook.Spec{Label: "Length", Help: "Over all.", Units: lengths, Limits: notebook.Between(50*mm, 10_000*mm)}),
			notebook.Measure("edge-width", &in.EdgeWidth, notebook.Spec{Label: "Width of its face", Help: "It drops out of the sag of a plain bar.", Units: lengths, Limits: size}),
			notebook.Measure("edge-height", &in.EdgeHeight, notebook.Spec{Label: "Height", Help: "In the direction in which it sags.", Units: lengths, Limits: size}),
			notebook.Measure("support", &in.Support, notebook.Spec{Label: "Held from each end at", Help: "Where the two supports or hands are.", Units: lengths, Limits: notebook.Between(0*mm, 5000*mm)})),
		notebook.Grouped("Grinding instead",
			notebook.Measure("setup-u", &in.SetUpU, notebook.Spec{Label: "Set up parallel to", Help: "Standard uncertainty at the ends of the way.", Units: fine, Limits: little}),
			notebook.Measure("clean", &in.Clean, notebook.Spec{Label: "Clean-up below the deepest mark", Help: "The last cuts.", Units: fine, Limits: little}),
			notebook.Measure("cut", &in.Cut, notebook.Spec{Label: "One cut takes", Help: "Down feed.", Units: fine, Limits: notebook.Between(0.1*um, 500*um)}),
			notebook.Measure("layer", &in.Layer, notebook.Spec{Label: "Hard layer when new", Help: "Chrome or hardened skin; 0 for plain iron.", Units: fine, Limits: notebook.Between(0*um, 5000*um)})),
		notebook.Grouped("The lining",
			notebook.Measure("lining", &in.Lining, notebook.Spec{Label: "Sheet", Help: "Thickness.", Units: fine, Limits: notebook.Between(1*um, 10*mm)}),
			notebook.Measure("lining-u", &in.LiningU, notebook.Spec{Label: "Sheet is sure to", Help: "Standard uncertainty.", Units: fine, Limits: little}),
			notebook.Measure("glue", &in.Glue, notebook.Spec{Label: "Joint", Help: "Thickness of the glue under it.", Units: fine, Limits: notebook.Between(0*um, 2000*um)}),
			notebook.Measure("glue-u", &in.GlueU, notebook.Spec{Label: "Joint is sure to", Help: "Standard uncertainty.", Units: fine, Limits: little}),
			notebook.Measure("proud", &in.Proud, notebook.Spec{Label: "Left to scrape in", Help: "How much too high the lined face shall stand.", Units: fine, Limits: little}),
			notebook.Measure("moving", &in.Moving, notebook.Spec{Label: "The moving face has lost", Help: "Its own wear and what was scraped off it.", Units: fine, Limits: notebook.Between(0*um, 5000*um)})),
		notebook.Grouped("The table beyond its saddle",
			notebook.Measure("table-width", &in.TableWidth, notebook.Spec{Label: "Width", Help: "Of its section, taken as solid.", Units: lengths, Limits: size}),
			notebook.Measure("table-height", &in.TableHeight, notebook.Spec{Label: "Thickness", Help: "Less the depth of the slots.", Units: lengths, Limits: size}),
			notebook.Measure("reach", &in.Reach, notebook.Spec{Label: "It reaches out by", Help: "Beyond the saddle at the end of its travel.", Units: lengths, Limits: notebook.Between(0*mm, 5000*mm)}),
			notebook.Measure("load", &in.Load, notebook.Spec{Label: "Load at its end", Help: "A vise, a dividing head.", Units: []notebook.Unit{notebook.Newton, notebook.PoundForce}, Limits: notebook.Between(0*unit.Newton, 1e5*unit.Newton)})),
	}
	for _, g := range groups {
		fields = append(fields, g...)
	}
	return fields
}
