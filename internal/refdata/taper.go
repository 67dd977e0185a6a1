package refdata

// taperRows are tapers and sine bars.
func taperRows() []Row {
	tables := Source{Title: "Machine-taper dimension tables as reproduced in an open machinery wiki, Dimensions of Standard Tapers", Year: "2009",
		Section: "half angles, printed to four places from a taper to four places"}
	steep := Source{Title: "Steep machine taper", Section: "7 in 24 on diameter: included angle 16° 35′ 39.44″"}
	forum := Source{Title: "Worked answer in a machining forum", Section: "a quarter of an inch per foot on the radius"}
	bar := Source{Title: "Published worked example on sine bars", Section: "5 in bar, 27°; printed 2.270 in"}
	slips := Source{Title: "Textbook exercise in metrology", Section: "slips of 47.667 and 37.667 mm, bar of 112 mm: asin(10/112)"}
	tangent := Source{Title: "Sine bar, differential of its sine", Section: "tan(angle) (dh/h − dL/L), for 100 mm, 45° and 1 µm"}
	turning := Source{Title: "Turning and Boring Tapers", Year: "1902", Section: "24 tan(angle/2), recomputed; its own table has misprints"}
	return []Row{
		{ID: "taper-morse-1", What: "half angle of Morse 1, 0.5986 in per foot", Value: 1.4287, Unit: "°", Tolerance: 2e-4, Source: tables, Known: Read},
		{ID: "taper-morse-3", What: "half angle of Morse 3, 0.6024 in per foot", Value: 1.4377, Unit: "°", Tolerance: 2e-4, Source: tables, Known: Read},
		{ID: "taper-morse-5", What: "half angle of Morse 5, 0.6315 in per foot", Value: 1.5073, Unit: "°", Tolerance: 2e-4, Source: tables, Known: Read},
		{ID: "taper-steep", What: "included angle of 7 in 24", Value: 16.594289, Unit: "°", Tolerance: 1e-5, Source: steep, Known: FromMemory},
		{ID: "taper-radius", What: "angle of a quarter of an inch per foot on the radius", Value: 1.1935, Unit: "°", Tolerance: 5e-5, Source: forum, Known: Read},
		{ID: "sine-27", What: "blocks under a sine bar of 5 in for 27°", Value: 2.270, Unit: "in", Tolerance: 5e-4, Source: bar, Known: Read},
		{ID: "sine-slips", What: "angle of two stacks 10 mm different under a bar of 112 mm", Value: 5.122516, Unit: "°", Tolerance: 1e-6, Source: slips, Known: Computed},
		{ID: "sine-u-45", What: "what 1 µm of the stack is on a bar of 100 mm at 45°", Value: 2.917025, Unit: "arcsec", Tolerance: 1e-5, Source: tangent, Known: Computed},
		{ID: "taper-ten", What: "taper of an included angle of 10°", Value: 2.0997279, Unit: "in/ft", Tolerance: 1e-6, Source: turning, Known: Computed},
		{ID: "taper-shank", What: "taper of a Morse 3 shank, 0.938 to 0.778 in over 3 3/16 in", Value: 0.6024, Unit: "in/ft", Tolerance: 1e-4, Source: tables, Known: Read},
	}
}
