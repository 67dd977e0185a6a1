package refdata

// currentRows holds further cells for the solver of current distributions.
func currentRows() []Row {
	newman := Source{Author: "J. Newman", Title: "Resistance for flow of current to a disk, J. Electrochem. Soc. 113 501", Year: "1966",
		Section: "j over its mean = 1/(2 sqrt(1 - r2/a2))"}
	ohm := Source{Title: "Ohm's law in a straight duct", Section: "U = I (L/(kappa A) + r/A), even current"}
	return []Row{
		{ID: "current-disc-eight", What: "primary current density at eight tenths of the radius of a disc, of the mean", Value: 0.83333, Unit: "1",
			Tolerance: 0.01, Source: newman, Known: FromMemory},
		{ID: "current-duct-volts", What: "1 A through a duct 0.1 m each way, 8 S/m, electrode of 0.001 ohm m2", Value: 1.35, Unit: "V",
			Tolerance: 1e-3, Source: ohm, Known: Computed},
		{ID: "current-duct-even", What: "thickest place of that duct's end, of the mean", Value: 1, Unit: "1", Tolerance: 1e-2, Source: ohm, Known: Computed},
	}
}
