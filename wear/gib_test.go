package wear

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/unit"
)

func TestGib(t *testing.T) {
	// Worn in the middle: 30 um at the ends, 55 in the middle, sure to 1 um.
	plays := []Play{{-300 * mm, 30 * um, 1 * um}, {0, 55 * um, 1 * um}, {300 * mm, 32 * um, 1 * um}}
	options := GibOptions{Film: 10 * um, Rock: 40 * um, Taper: 1.0 / 50, Pitch: 1 * mm, Guide: 360 * mm}
	s, err := SetGib(plays, options)
	if err != nil {
		t.Fatal(err)
	}
	// One-sided factor for 0.95, from tables of the normal law: 1.6449.
	near(t, "close by", float64(s.Close/um), 30-1.6449-10, 1e-3)
	near(t, "remains at the tight place", float64(s.After[0].Clear/um), 11.6449, 1e-3)
	near(t, "remains at the loose place", float64(s.Worst/um), 36.6449, 1e-3)
	near(t, "uneven", float64(s.Uneven/um), 25, 1e-9)
	near(t, "turns", s.Turns, float64(s.Close)/20e-6, 1e-9)
	near(t, "yaw", float64(s.Yaw), 36.645e-6/0.36, 1e-8)
	if !s.Possible || s.Tight.Travel != -300*mm || s.Loose.Travel != 0 {
		t.Errorf("%+v", s)
	}
	options.Rock = 30 * um
	if s, _ := SetGib(plays, options); s.Possible {
		t.Error("25 um of unevenness and a film fit into 30")
	}
	// All play more by a constant: closed by as much more, and nothing else.
	for i := range plays {
		plays[i].Clear += 7 * um
	}
	more, _ := SetGib(plays, options)
	near(t, "close by", float64(more.Close-s.Close), 7e-6, 1e-12)
	near(t, "worst", float64(more.Worst), float64(s.Worst), 1e-12)
}

func TestGibSeldomBinds(t *testing.T) {
	normal, free := newNormal(9), 0
	const count = 4000
	for range count {
		plays := make([]Play, 7)
		for i := range plays {
			depth := 60.0
			if i == 3 {
				depth = 40
			}
			plays[i] = Play{unit.Length(i) * 100 * mm, unit.Length(depth+2*normal()) * um, 2 * um}
		}
		s, err := SetGib(plays, GibOptions{Film: 5 * um, Rock: 1})
		if err != nil {
			t.Fatal(err)
		}
		if s.Close <= (40-5)*um {
			free++
		}
	}
	// One tight place is the worst case; where several are alike the least of
	// their readings is on the safe side.
	if share := 100 * float64(free) / count; share < 93 || share > 97 {
		t.Errorf("%.1f of 100 settings keep the film", share)
	}
}

func TestGibRefuses(t *testing.T) {
	_, none := SetGib(nil, GibOptions{})
	_, nan := SetGib([]Play{{0, 1, 0}, {0, unit.Length(math.NaN()), 0}}, GibOptions{})
	_, film := SetGib([]Play{{0, 1, 0}}, GibOptions{Film: -1})
	_, chance := SetGib([]Play{{0, 1, 0}}, GibOptions{Chance: 2})
	for want, err := range map[string]error{"no play": none, "play 2": nan, "film": film, "chance 2": chance} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error = %v, want one about %q", err, want)
		}
	}
}
