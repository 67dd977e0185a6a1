package squaring

// A face of a part on the table, as the machine cuts it on its worn ways: what the
// table does under each position of the spindle is looked up along every pass.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// FaceOnTable is a face of a part that lies on the table, level with its top,
// and is cut by feeding the table or the saddle.
type FaceOnTable struct {
	// U is how far the part's middle lies to the right of the table's, V how far
	// behind it.
	U, V unit.Length
	// Long is the face along the table, Deep across it.
	Long, Deep unit.Length
	// Feed is the azimuth toward which the cutter goes over the work: 0 or 180
	// degrees with the table fed, 90 or 270 with the saddle.
	Feed unit.Angle
	// Diameter is the circle of the cutting edges.
	Diameter unit.Length
	// Passes are laid side by side, StepOver apart, their middle over the
	// middle of the face. Zero passes means as many as it takes when each cuts a
	// step-over's width; the step-over must then be above zero.
	Passes   int
	StepOver unit.Length
}

// maxPlacePasses is the most passes of a face on the table.
const maxPlacePasses = 50

func (f FaceOnTable) validate() error {
	for _, check := range []error{
		finite("place of the part along the table", float64(f.U)), finite("place of the part across the table", float64(f.V)),
		positiveLength("length of the face along the table", f.Long), positiveLength("depth of the face across the table", f.Deep),
		positiveLength("cutter diameter", f.Diameter), notNegative("step-over", f.StepOver),
	} {
		if check != nil {
			return check
		}
	}
	if _, err := f.quarter(); err != nil {
		return err
	}
	if f.Passes < 0 || f.Passes > maxPlacePasses {
		return fmt.Errorf("squaring: %d passes, must be 0 to %d", f.Passes, maxPlacePasses)
	}
	if most := max(f.Long, f.Deep); f.Passes == 0 && !(f.StepOver > most/maxPlacePasses) {
		return fmt.Errorf("squaring: step-over is %s, must be above %s: more than %d passes for this face", millimetres(f.StepOver), millimetres(most/maxPlacePasses), maxPlacePasses)
	}
	return nil
}

// quarter returns the feed as a number of right angles, 0 to 3.
func (f FaceOnTable) quarter() (int, error) {
	turns := float64(f.Feed) / (math.Pi / 2)
	q := math.Round(turns)
	if !(math.Abs(turns-q) < 1e-6) || math.Abs(q) > 1e6 {
		return 0, fmt.Errorf("squaring: feed is toward %s, must be 0, 90, 180 or 270 deg: the table or the saddle is fed", degrees(f.Feed))
	}
	return (int(q)%4 + 4) % 4, nil
}

// bodyOnTable is the face's frame on the table: along and left of the feed.
type bodyOnTable struct {
	length, width float64 // along and across the feed
	ahead, left   [2]float64
	corner        [2]float64 // on the table: the right edge at the beginning
	tracks        []float64
}

func (f FaceOnTable) body() bodyOnTable {
	q, _ := f.quarter()
	ahead := [4][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}[q]
	b := bodyOnTable{length: float64(f.Long), width: float64(f.Deep), ahead: ahead, left: [2]float64{-ahead[1], ahead[0]}}
	if q%2 == 1 {
		b.length, b.width = b.width, b.length
	}
	for k, middle := range [2]float64{float64(f.U), float64(f.V)} {
		b.corner[k] = middle - b.length/2*b.ahead[k] - b.width/2*b.left[k]
	}
	passes := f.Passes
	if passes == 0 {
		passes = int(math.Ceil(b.width/float64(f.StepOver) - 1e-9))
	}
	for i := range passes {
		b.tracks = append(b.tracks, b.width/2+float64(f.StepOver)*(float64(i)-float64(passes-1)/2))
	}
	return b
}

// placeStations is the number of steps into which a pass is cut to look up what
// the table does; between them it is taken as straight.
const placeStations = 128

// motion returns how the machine carries the work under the spindle on one
// track: height and slopes of the table's plane, counted from where it should be.
func (m Machine) motion(f FaceOnTable, b bodyOnTable, track float64) (FeedMotion, error) {
	r := float64(f.Diameter) / 2
	from, step := -r, (b.length+2*r)/placeStations
	var height, along, across [placeStations + 1]float64
	for i := range height {
		var spot [2]float64
		for k := range spot {
			spot[k] = b.corner[k] + (from+float64(i)*step)*b.ahead[k] + track*b.left[k]
		}
		z, slope, err := m.planeAt(unit.Length(spot[0]), unit.Length(spot[1]))
		if err != nil {
			return FeedMotion{}, err
		}
		along[i] = float64(slope.X)*b.ahead[0] + float64(slope.Y)*b.ahead[1]
		across[i] = float64(slope.X)*b.left[0] + float64(slope.Y)*b.left[1]
		// Height is told on the line across = 0, the track lies beside it.
		height[i] = float64(z) - track*across[i]
	}
	at := func(list *[placeStations + 1]float64) func(unit.Length) float64 {
		return func(s unit.Length) float64 {
			place := math.Max(0, math.Min(placeStations, (float64(s)-from)/step))
			i := min(int(place), placeStations-1)
			return list[i] + (place-float64(i))*(list[i+1]-list[i])
		}
	}
	h, l, a := at(&height), at(&along), at(&across)
	return FeedMotion{
		Height: func(s unit.Length) unit.Length { return unit.Length(h(s)) },
		Along:  func(s unit.Length) Slope { return Slope(l(s)) },
		Across: func(s unit.Length) Slope { return Slope(a(s)) },
	}, nil
}

// planeAt returns height and slope of the table's plane, with the table's point
// (u, v) under the spindle.
func (m Machine) planeAt(u, v unit.Length) (height unit.Length, slope Gradient, err error) {
	at := Position{X: -u, Y: -v}
	// The plane is exactly linear in the point: a metre off gives its slope.
	var z [3]unit.Length
	for i, off := range [3][2]unit.Length{{0, 0}, {1, 0}, {0, 1}} {
		e, _, err := m.WorkError(at, Vector{X: u + off[0], Y: v + off[1]})
		if err != nil {
			return 0, Gradient{}, err
		}
		z[i] = e.Z
	}
	return z[0], Gradient{X: Slope(z[1] - z[0]), Y: Slope(z[2] - z[0])}, nil
}

// Face returns the face as the machine cuts it on its worn ways, for
// [CutFace.Map]: heights are then those above the table's top. With the saddle
// fed, each pass stands at another travel of the table.
func (m Machine) Face(f FaceOnTable, columns, rows int) (CutFace, error) {
	if err := f.validate(); err != nil {
		return CutFace{}, err
	}
	b := f.body()
	face := CutFace{Tilt: Gradient{}.Minus(m.Tilt), Feed: f.Feed, Diameter: f.Diameter,
		Length: unit.Length(b.length), Width: unit.Length(b.width), Columns: columns, Rows: rows}
	for _, track := range b.tracks {
		motion, err := m.motion(f, b, track)
		if err != nil {
			return CutFace{}, err
		}
		face.Tracks, face.Passes = append(face.Tracks, unit.Length(track)), append(face.Passes, motion)
	}
	return face, nil
}
