package wear_test

import (
	"fmt"

	"example.org/thouspan/wear"
	"gonum.org/v1/gonum/unit"
)

func ExampleReverseBar() {
	// Travel from 240 to -240 mm under the dial, so u from -240 to 240 mm.
	first := []unit.Length{0, -4 * um, -8 * um, -14 * um, -20 * um}
	second := []unit.Length{0, 10 * um, 16 * um, 18 * um, 20 * um}
	var readings []wear.ReversalReading
	for i := range first {
		readings = append(readings, wear.ReversalReading{Position: unit.Length(i-2) * 120 * mm, First: first[i], Second: second[i]})
	}
	s, err := wear.ReverseBar(readings, wear.Gauge{Step: 2 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, p := range s.Motion.Points {
		fmt.Printf("u = %4.0f mm: motion %5.2f um, bar %5.2f um, standard uncertainty %.2f um\n",
			float64(p.Position/mm), float64(p.Height/um), float64(s.Reference.Points[i].Height/um), float64(s.Motion.U(i)/um))
	}
	// Output:
	// u = -240 mm: motion  0.00 um, bar  0.00 um, standard uncertainty 0.00 um
	// u = -120 mm: motion -2.00 um, bar  3.00 um, standard uncertainty 0.52 um
	// u =    0 mm: motion -2.00 um, bar  4.00 um, standard uncertainty 0.50 um
	// u =  120 mm: motion -1.00 um, bar  2.00 um, standard uncertainty 0.52 um
	// u =  240 mm: motion  0.00 um, bar  0.00 um, standard uncertainty 0.00 um
}

func ExampleReverseStraightedge() {
	readings := []wear.ReversalReading{{Position: 0}, {Position: 400 * mm, First: 2.2 * um, Second: 6.6 * um}, {Position: 800 * mm}}
	s, err := wear.ReverseStraightedge(readings, wear.Gauge{Step: 1 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("way %.1f um, edge %.1f um\n", float64(s.Motion.Points[1].Height/um), float64(s.Reference.Points[1].Height/um))
	// Output:
	// way 4.4 um, edge -2.2 um
}

func ExampleThreePlates() {
	a, b, c, u, err := wear.ThreePlates([]unit.Length{2 * um}, []unit.Length{-1 * um}, []unit.Length{5 * um}, 1*um)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f, %.1f and %.1f um, standard uncertainty %.2f um\n", float64(a[0]/um), float64(b[0]/um), float64(c[0]/um), float64(u/um))
	// Output:
	// -2.0, 4.0 and 1.0 um, standard uncertainty 0.87 um
}

func ExampleThreeProbes() {
	readings := []wear.ProbeReading{{A: 0.2 * um, B: 0.7 * um, C: 2.2 * um}, {A: 1.5 * um, B: 3.7 * um, C: 5.4 * um}, {A: 1.9 * um, B: 3.3 * um, C: 2.7 * um}}
	profile, err := wear.ThreeProbes(50*mm, readings, 0.1*um, 0.2*um)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, p := range profile.Points {
		fmt.Printf("%3.0f mm: %5.2f um, standard uncertainty %.2f um\n", float64(p.Position/mm), float64(p.Height/um), float64(profile.U(i)/um))
	}
	// Output:
	//   0 mm:  0.00 um, standard uncertainty 0.00 um
	//  50 mm:  0.00 um, standard uncertainty 0.38 um
	// 100 mm:  1.00 um, standard uncertainty 0.50 um
	// 150 mm:  1.50 um, standard uncertainty 0.38 um
	// 200 mm:  0.00 um, standard uncertainty 0.00 um
}

func ExampleBeamSag() {
	steel := wear.Beam{Length: 500 * mm, Width: 25 * mm, Height: 50 * mm, Stiffness: 210e9, Density: 7850}
	for _, support := range []unit.Length{0, 500 * mm * wear.Airy} {
		sag, err := wear.BeamSag(steel, support, []unit.Length{250 * mm})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("supports %.0f mm from the ends: %.2f um in the middle\n", float64(support/mm), float64(sag[0]/um))
	}
	// Output:
	// supports 0 mm from the ends: 1.43 um in the middle
	// supports 106 mm from the ends: 0.06 um in the middle
}

func ExampleMotionFromSkimmedBar() {
	places := []wear.SkimmedPlace{{Position: -300 * mm, Thickness: 19.976 * mm}, {Position: 0, Thickness: 19.985 * mm}, {Position: 300 * mm, Thickness: 19.971 * mm}}
	motion, err := wear.MotionFromSkimmedBar(places, wear.Gauge{Step: 1 * um})
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := motion.Straightness(wear.EndPoints)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the table sinks %.1f um in the middle, standard uncertainty %.1f um\n", float64(s.Value/um), float64(s.U/um))
	// Output:
	// the table sinks 11.5 um in the middle, standard uncertainty 0.4 um
}
