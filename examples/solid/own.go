package solid

import (
	"math"

	"example.org/thouspan/examples/ownpart"
	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// The triangles that a part of the reader's own is given before the solver cuts
// each in four: without mirrors a browser holds no more in a minute.
const ownQuick, ownFiner = 120, 220

// ownMesh returns the reader's own part as its file has it, and with as many
// triangles as the solver is to hold, its middle at the origin; both zero
// without a file.
func (in Inputs) ownMesh() (file, own plating.Mesh, err error) {
	if in.Part != ownFile {
		return file, own, nil
	}
	if file, err = in.Own.Mesh(); err != nil {
		return file, own, err
	}
	triangles := ownQuick
	if in.Mesh == finer {
		triangles = ownFiner
	}
	if own, err = file.Remeshed(triangles); err != nil {
		return file, own, notebook.InField("own", err)
	}
	size, low := ownpart.Size(own)
	return file, own.Shifted(plating.Point{X: -low.X - size[0]/2, Y: -low.Y - size[1]/2, Z: -low.Z - size[2]/2}), nil
}

// addOwn adds what became of the reader's own part.
func (a answer) addOwn(sheet *notebook.Sheet) error {
	v := notebook.Verdict{Name: "own", Tone: notebook.Note, Text: notebook.Plain("No file was given: the part chosen in the form hangs in the tank.")}
	if a.in.Part == ownFile {
		was, err := a.file.Surface()
		if err != nil {
			return notebook.InField("own", err)
		}
		is, err := a.plain.own.Surface()
		if err != nil {
			return notebook.InField("own", err)
		}
		area, volume := float64(is.Area/was.Area)-1, float64(a.plain.own.Volume()/a.file.Volume())-1
		s, _ := ownpart.Size(a.plain.own)
		v.Text = notebook.Say("Your file's {} triangles, {} by {} by {} over all, became {}. That changed the area by {} and the volume by {}.",
			notebook.Whole(len(a.file.Triangles)), size(s[0]), size(s[1]), size(s[2]), notebook.Whole(len(a.plain.own.Triangles)), signed(area), signed(volume))
		if worst := math.Max(math.Abs(area), math.Abs(volume)); worst > 0.03 {
			v.Tone = notebook.Watch
			v.Text = v.Text.And(notebook.Plain("Small details are lost: trust the broad faces, not the places that were smoothed."))
		}
	}
	sheet.Add(v)
	return nil
}

// signed shows a small change.
func signed(x float64) notebook.Quantity { return notebook.Stepped(x, 0.001, notebook.Percents) }

// sides returns the shares of what faces each way of a part from a file.
func (a answer) sides() []spot {
	const facing = 0.7 // within 45 degrees
	return []spot{
		{"what faces the right anode", a.meanShare(func(f facet) bool { return f.normal.X > facing })},
		{"what faces left", a.meanShare(func(f facet) bool { return f.normal.X < -facing })},
		{"what faces you", a.meanShare(func(f facet) bool { return f.normal.Y < -facing })},
		{"what faces away from you", a.meanShare(func(f facet) bool { return f.normal.Y > facing })},
		{"what faces up", a.meanShare(func(f facet) bool { return f.normal.Z > facing })},
		{"what faces down", a.meanShare(func(f facet) bool { return f.normal.Z < -facing })},
	}
}
