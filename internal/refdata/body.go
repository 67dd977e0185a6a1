package refdata

// bodyRows are points of a table on a saddle on a knee, by the chain of bodies.
func bodyRows() []Row {
	sum := Source{Title: "Table on saddle on knee, first order, derived", Section: "shifts, turns times arms, and squareness; travels 250, −100 and 150 mm, point 40, 60 and 80 mm above the table"}
	product := Source{Title: "Table on saddle on knee, product of the transforms", Section: "the same case, exact"}
	return []Row{
		{ID: "body-x", What: "displacement along x of a point with all 21 errors", Value: -0.280, Unit: "µm", Tolerance: 1e-6, Source: sum, Known: Computed},
		{ID: "body-y", What: "displacement along y of the same point", Value: 8, Unit: "µm", Tolerance: 1e-6, Source: sum, Known: Computed},
		{ID: "body-z", What: "displacement along z of the same point", Value: 0.940, Unit: "µm", Tolerance: 1e-6, Source: sum, Known: Computed},
		{ID: "body-exact-z", What: "displacement along z of the same point by the exact chain", Value: 0.93989, Unit: "µm", Tolerance: 2e-4, Source: product, Known: Computed},
		{ID: "body-skew", What: "shift along x by a squareness of 50 µrad over 120 mm of saddle travel", Value: -6, Unit: "µm", Tolerance: 1e-9, Source: sum, Known: Computed},
		{ID: "body-arm", What: "shift along x of a point 100 mm above a table that turns by 40 µrad", Value: 4, Unit: "µm", Tolerance: 1e-6, Source: sum, Known: Computed},
	}
}
