package squaring_test

import (
	"fmt"

	"example.org/thouspan/squaring"
	"gonum.org/v1/gonum/unit"
)

// A cutter that leans along the feed leaves a trough. Its walls stand highest at
// the ends of the pass's width.
func ExampleFacing_Profile() {
	face := squaring.Facing{Tilt: squaring.Gradient{X: 200 * squaring.Microradian}, Diameter: 120 * mm, Width: 90 * mm}
	middle, err := face.Profile(0 * mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, v := range []unit.Length{0 * mm, 20 * mm, 45 * mm} {
		height, err := face.Profile(v)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%2.0f mm beside the track: %.2f um above the bottom\n", float64(v/mm), float64((height-middle)/um))
	}
	// Output:
	// 0 mm beside the track: 0.00 um above the bottom
	// 20 mm beside the track: 0.69 um above the bottom
	// 45 mm beside the track: 4.06 um above the bottom
}

// One pass of a leaning cutter, looked at as one would at the surface plate: the
// range hangs on how the part lies, the flatness does not, and a straightedge
// across shows the trough that one along the feed does not.
func ExampleHeightMap() {
	m, err := squaring.CutFace{Tilt: squaring.Gradient{X: 200 * squaring.Microradian, Y: -50 * squaring.Microradian}, Diameter: 120 * mm,
		Length: 150 * mm, Width: 90 * mm, Tracks: []unit.Length{45 * mm}, Columns: 31, Rows: 91}.Map()
	if err != nil {
		fmt.Println(err)
		return
	}
	lowest, highest := m.Range()
	fmt.Printf("range %.1f um, flatness %.1f um\n", float64((highest-lowest)/um), float64(m.Flatness()/um))
	level := m.Levelled()
	fmt.Printf("levelled: middle of an end %.1f um, its corner %+.1f um\n", float64(level.Height(45, 0)/um), float64(level.Height(0, 0)/um))
	across, err := m.StraightedgeAcross(15)
	if err != nil {
		fmt.Println(err)
		return
	}
	along, err := m.StraightedgeAlong(45)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("straightedge across: %.1f um open at %.0f mm; along: %.1f um\n", float64(across.Gap/um), float64(across.Place/mm), float64(along.Gap/um))
	// Output:
	// range 6.7 um, flatness 4.1 um
	// levelled: middle of an end -1.3 um, its corner +2.8 um
	// straightedge across: 4.1 um open at 45 mm; along: 0.0 um
}

// The same face on worn ways: a long part is bowed by them whatever the head does.
func ExampleMachine_Face() {
	for _, long := range []unit.Length{100 * mm, 400 * mm} {
		cut, err := wornMill().Face(squaring.FaceOnTable{Long: long, Deep: 60 * mm, Diameter: 80 * mm, Passes: 1}, 41, 13)
		if err != nil {
			fmt.Println(err)
			return
		}
		m, err := cut.Map()
		if err != nil {
			fmt.Println(err)
			return
		}
		gap, err := m.StraightedgeAlong(6)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f mm long, on %d track: flat within %.1f um, bowed by %.1f um\n", float64(long/mm), len(cut.Tracks), float64(m.Flatness()/um), float64(gap.Gap/um))
	}
	// Output:
	// 100 mm long, on 1 track: flat within 1.0 um, bowed by 0.8 um
	// 400 mm long, on 1 track: flat within 12.6 um, bowed by 13.0 um
}

// A face of 150 mm by 60 mm, flat within 3 um: where on worn ways, and is it worth
// setting the head anew? The place counts most; setting the head does the rest.
func ExampleFaceJob_Choices() {
	mill := squaring.Machine{Tilt: squaring.Gradient{X: 150 * squaring.Microradian}, X: squaring.MotionFromWays(
		func(x unit.Length) (height unit.Length, along, across float64, sideways unit.Length, yaw unit.Angle) {
			s := float64(x / (360 * mm)) // straight in the middle, ever more bent toward the ends
			return 80 * um * unit.Length(s*s*s), -3 * 80e-6 * s * s / 0.360, 0, 0, 0
		})}
	choices, err := squaring.FaceJob{
		Machine: mill, Zone: squaring.FlatZone, Limit: 3 * um,
		Face:     squaring.FaceOnTable{Long: 150 * mm, Deep: 60 * mm, Diameter: 80 * mm, Passes: 1},
		Places:   []unit.Length{-200 * mm, 0 * mm},
		Feeds:    []unit.Angle{0},
		TiltU:    squaring.Gradient{X: 10 * squaring.Microradian, Y: 10 * squaring.Microradian},
		SettingU: squaring.Gradient{X: 10 * squaring.Microradian, Y: 10 * squaring.Microradian},
	}.Choices()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range choices {
		fmt.Printf("at u = %4.0f mm, head set anew %-5v: %.1f um, within with chance %.1f\n", float64(c.U/mm), c.Reset, float64(c.Zone/um), c.Chance)
	}
	// Output:
	// at u =    0 mm, head set anew true : 0.9 um, within with chance 1.0
	// at u =    0 mm, head set anew false: 2.9 um, within with chance 0.8
	// at u = -200 mm, head set anew true : 6.3 um, within with chance 0.0
	// at u = -200 mm, head set anew false: 7.2 um, within with chance 0.0
}

// A bore gauge in a hole bored by the knee: the circle is shortest toward the
// lean, by next to nothing. A round gauge is no proof of a straight hole.
func ExampleHole_Across() {
	hole := squaring.Hole{Feed: squaring.ByKnee, Tilt: squaring.Gradient{X: 5 * squaring.MillimetrePerMetre}, Diameter: 50 * mm, Depth: 60 * mm}
	short, err := hole.Across(0)
	if err != nil {
		fmt.Println(err)
		return
	}
	long, err := hole.Across(90 * squaring.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("spindle 5 mm/m off the knee: %.1f um out of round\n", float64((long-short)/um))
	// Output:
	// spindle 5 mm/m off the knee: 0.6 um out of round
}
