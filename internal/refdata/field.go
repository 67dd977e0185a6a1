package refdata

// fieldRows holds current distributions with exact or published answers.
func fieldRows() []Row {
	newman := Source{Author: "J. Newman", Title: "Resistance for flow of current to a disk, J. Electrochem. Soc. 113 501", Year: "1966"}
	rotating := Source{Author: "J. Newman", Title: "Current distribution on a rotating disk below the limiting current, J. Electrochem. Soc. 113 1235",
		Year: "1966", Section: "straight-line kinetics, re-derived by a Legendre series and by rings"}
	conformal := Source{Title: "Exact solution of Laplace's equation by a conformal map"}
	hull := Source{Author: "A. C. West, M. Matlosz, D. Landolt", Title: "Primary current distribution in the Hull cell, J. Appl. Electrochem. 22 301",
		Year: "1992", Section: "method, re-derived for the 267 mL cell"}
	guide := Source{Title: "Metal Finishing Guidebook, chapter on plating cells", Year: "2013", Section: "j = I (27.7 - 48.7 log10 L)"}
	table := Source{Author: "M. McCormick, A. T. Kuhn", Title: "The Haring-Blum cell, Trans. IMF 71 74", Year: "1993", Section: "table 1"}
	cube := Source{Author: "C.-O. Hwang, M. Mascagni", Title: "Electrical capacitance of the unit cube, J. Appl. Phys. 95 3798", Year: "2004",
		Section: "the same digits also seen quoted at second hand"}
	square := Source{Author: "F. H. Read", Title: "Improved extrapolation technique in the boundary element method to find the capacitances of the unit square and cube, J. Comput. Phys. 133 1",
		Year: "1997"}
	ball := Source{Title: "Laplace's equation about a sphere", Section: "the capacitance over 4 pi eps is the radius"}
	return []Row{
		{ID: "space-cube", What: "capacitance of a cube over 4 pi eps and its edge", Value: 0.6606782, Unit: "1",
			Tolerance: 0.0015, Source: cube, Known: FromMemory},
		{ID: "space-square", What: "capacitance of a thin square plate over 4 pi eps and its edge", Value: 0.3667896, Unit: "1",
			Tolerance: 0.002, Source: square, Known: FromMemory},
		{ID: "space-ball", What: "capacitance of a ball over 4 pi eps and its radius", Value: 1, Unit: "1",
			Tolerance: 0.02, Source: ball, Known: Computed},
		{ID: "field-disc-resistance", What: "primary resistance of a disc of 10 mm radius in an insulating plane, 8 S/m", Value: 3.125, Unit: "Ω",
			Tolerance: 0.003, Source: newman, Known: FromMemory},
		{ID: "field-disc-half", What: "primary current density half-way out on that disc, of the mean", Value: 0.57735, Unit: "1",
			Tolerance: 0.005, Source: newman, Known: FromMemory},
		{ID: "field-disc-secondary", What: "resistance of a disc at a Wagner number of 1, times 4 kappa a", Value: 2.34368, Unit: "1",
			Tolerance: 0.002, Source: rotating, Known: Computed},
		{ID: "field-cylinder-plane", What: "R 2 pi kappa L of a cylinder of radius 5 whose axis is 20 from a plane: acosh 4", Value: 2.06344, Unit: "1",
			Tolerance: 2e-4, Source: conformal, Known: Computed},
		{ID: "field-strips", What: "G/kappa of two strips in the wall of a half-space, from 1 to 2 either side", Value: 0.639631, Unit: "1",
			Tolerance: 2e-4, Source: conformal, Known: Computed},
		{ID: "panel-formula-1", What: "current density 1 cm from the high-current end of the 267 mL panel at 1 A", Value: 5.10, Unit: "A/dm²",
			Tolerance: 0.01, Source: guide, Known: Read},
		{ID: "panel-formula-5", What: "current density 5 cm from the high-current end of the 267 mL panel at 2 A", Value: 2.87, Unit: "A/dm²",
			Tolerance: 0.02, Source: guide, Known: Read},
		{ID: "panel-primary-tenth", What: "primary current density at a tenth of the panel, of the mean", Value: 2.1348, Unit: "1",
			Tolerance: 0.02, Source: hull, Known: Computed},
		{ID: "panel-primary-six", What: "primary current density at six tenths of the panel, of the mean", Value: 0.5260, Unit: "1",
			Tolerance: 0.005, Source: hull, Known: Computed},
		{ID: "panel-resistance", What: "conductivity times depth times resistance of the 267 mL cell", Value: 1.05596, Unit: "1",
			Tolerance: 0.003, Source: hull, Known: Computed},
		{ID: "panel-table-one-inch", What: "current density 1.02 in from the high-current end, of the mean", Value: 1.292, Unit: "1",
			Tolerance: 0.065, Source: table, Known: Read},
	}
}
