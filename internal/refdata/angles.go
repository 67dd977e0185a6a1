package refdata

// angleRows holds conversions between the shop's ways of saying a slope.
func angleRows() []Row {
	definition := Source{Author: "BIPM", Title: "The International System of Units", Year: "2019",
		Section: "table 8, 1 arc second = π/648 000 rad"}
	return []Row{
		{ID: "slope-thou-per-foot", What: "0.001 in over 12 in, as a slope", Value: 83.3333333, Unit: "µm/m",
			Tolerance: 1e-6, Source: definition, Known: Computed},
		{ID: "slope-thou-per-foot-arcsec", What: "0.001 in over 12 in, as an angle", Value: 17.18873385, Unit: "arcsec",
			Tolerance: 1e-7, Source: definition, Known: Computed},
	}
}
