package wear

// A part that is longer than the travel, or than the straight stretch of it, is
// cut in two settings that share an overlap.

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"
)

// TwoSettings is a long part cut in two settings.
type TwoSettings struct {
	// Piece is the length cut in each setting; the two share the overlap.
	Piece unit.Length
	// Places are where the middle of the stretch that is cut lies in the first
	// and in the second setting.
	Places [2]unit.Length
	// Bow is the largest departure of the whole part from the line through its
	// ends, positive when it comes out high, BowU its standard uncertainty: from
	// the map and from the dial that sets the second piece to the first.
	Bow, BowU unit.Length
	// Shape is the part as it comes out, above the line through its ends, left
	// end at zero.
	Shape []Point
}

// rail is a part in two settings, in metres.
type rail struct{ length, overlap, piece float64 }

// terms returns the shape of the part at s from its left end: the first piece as
// cut, the second shimmed so that a dial reads alike at both ends of the
// overlap. weight multiplies it.
func (r rail) terms(t TableMap, first, second, s, weight float64) []term {
	one := func(s, w float64) []term { return t.rise(first-r.piece/2+s, -w) }
	if s <= r.piece {
		return one(s, weight)
	}
	start := r.length - r.piece
	two := func(s, w float64) []term { return t.rise(second-r.piece/2+s-start, -w) }
	// The line that carries the second piece onto the first at both ends of the
	// overlap, at s.
	share := (s - start) / r.overlap
	terms := two(s, weight)
	for _, end := range []struct{ at, w float64 }{{start, 1 - share}, {r.piece, share}} {
		terms = append(terms, one(end.at, weight*end.w)...)
		terms = append(terms, two(end.at, -weight*end.w)...)
	}
	return terms
}

// shape returns the values of the part at even places, from the motion on the
// grid.
func (r rail) shape(t TableMap, first, second float64, count int) []float64 {
	one := func(s float64) float64 { return -t.heightAt(first - r.piece/2 + s) }
	start := r.length - r.piece
	two := func(s float64) float64 { return -t.heightAt(second - r.piece/2 + s - start) }
	left, right := one(start)-two(start), one(r.piece)-two(r.piece)
	shape := make([]float64, count)
	for i := range shape {
		s := r.length * float64(i) / float64(count-1)
		if s <= r.piece {
			shape[i] = one(s)
			continue
		}
		share := (s - start) / r.overlap
		shape[i] = two(s) + left*(1-share) + right*share
	}
	from, to := shape[0], shape[count-1]
	for i := range shape {
		share := float64(i) / float64(count-1)
		shape[i] -= from*(1-share) + to*share
	}
	return shape
}

// heightAt returns the motion at u from the grid.
func (t TableMap) heightAt(u float64) float64 {
	x := (u - t.first) / (t.last - t.first) * (mapGrid - 1)
	i := min(max(int(x), 0), mapGrid-2)
	return t.height[i] + (x-float64(i))*(t.height[i+1]-t.height[i])
}

// InTwoSettings returns how a part that is cut in two settings comes out, at the
// two places where it comes out straightest. In the second setting the part is
// shimmed until a dial with the given standard uncertainty reads alike at both
// ends of the overlap that is already cut.
//
// The part does not bend or spring between the settings, and the second cut runs
// into the first without a step.
//
// It returns an error for a length or overlap that is not above zero, an overlap
// as long as the part, a piece longer than the run of the stations, or a negative
// uncertainty of the dial.
func (t TableMap) InTwoSettings(length, overlap, dialU unit.Length) (TwoSettings, error) {
	if !(length > 0) || !(overlap > 0) || !(overlap < length) || !finite(float64(length)) {
		return TwoSettings{}, fmt.Errorf("wear: a part of %.6g mm with an overlap of %.6g mm; both must be above zero and the overlap the shorter", float64(length)*1e3, float64(overlap)*1e3)
	}
	if !(dialU >= 0) || !finite(float64(dialU)) {
		return TwoSettings{}, fmt.Errorf("wear: standard uncertainty of the dial %g m must be zero or more", float64(dialU))
	}
	r := rail{float64(length), float64(overlap), float64(length+overlap) / 2}
	if err := t.check(unit.Length(t.first+t.last)/2, unit.Length(r.piece), unit.Length(t.first)); err != nil {
		return TwoSettings{}, err
	}
	const tries, samples = 25, 25
	room := math.Max(t.last-t.first-r.piece, 0)
	at := func(i int) float64 { return t.first + r.piece/2 + room*float64(i)/(tries-1) }
	best, first, second := math.Inf(1), at(0), at(0)
	for i := range tries {
		for j := range tries {
			worst := 0.0
			for _, z := range r.shape(t, at(i), at(j), samples) {
				worst = math.Max(worst, math.Abs(z))
			}
			if worst < best {
				best, first, second = worst, at(i), at(j)
			}
		}
	}
	two := TwoSettings{Piece: unit.Length(r.piece), Places: [2]unit.Length{unit.Length(first), unit.Length(second)}}
	deepest := Point{Position: length / 2}
	for i, z := range r.shape(t, first, second, samples) {
		p := Point{unit.Length(r.length * float64(i) / (samples - 1)), unit.Length(z)}
		two.Shape = append(two.Shape, p)
		if math.Abs(z) > math.Abs(float64(deepest.Height)) {
			deepest = p
		}
	}
	s := float64(deepest.Position)
	share := s / r.length
	sum := append(append(r.terms(t, first, second, s, 1), r.terms(t, first, second, 0, share-1)...), r.terms(t, first, second, r.length, -share)...)
	value, u := t.estimate(sum)
	two.Bow, two.BowU = unit.Length(value), unit.Length(math.Hypot(u, float64(dialU)*r.lever(s)))
	return two, nil
}

// lever returns by how much an error of the dial at each end of the overlap moves
// the part at s above the line through its ends.
func (r rail) lever(s float64) float64 {
	start := r.length - r.piece
	at := func(s float64) (left, right float64) {
		if s <= r.piece {
			return 0, 0
		}
		share := (s - start) / r.overlap
		return 1 - share, share
	}
	left, right := at(s)
	endLeft, endRight := at(r.length)
	share := s / r.length
	return math.Hypot(left-share*endLeft, right-share*endRight)
}
