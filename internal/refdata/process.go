package refdata

// processRows holds service thickness, strikes and the bath's analysis.
func processRows() []Row {
	guidebook := Source{Title: "Metal Finishing Guidebook, extract on nickel plating", Section: "decorative nickel and chromium on steel"}
	wood := Source{Title: "Products Finishing, question on Wood's nickel strike", Section: "10 to 45 A/ft2; 1 A/dm2 is 9.290304 A/ft2 exactly"}
	normal := Source{Author: "JCGM", Title: "JCGM 100, Guide to the expression of uncertainty in measurement", Year: "2008", Section: "table G.1: 1.645 at 90 % two-sided"}
	return []Row{
		{ID: "process-sc3-mean", What: "mean for 30 µm (SC 3, regular chromium) where the thinnest place gets 75 %, no doubt", Value: 40, Unit: "µm", Tolerance: 0.05,
			Source: guidebook, Known: Read},
		{ID: "process-normal-95", What: "standard uncertainties for a one-sided chance of 95 %", Value: 1.645, Unit: "1", Tolerance: 0.0005, Source: normal, Known: FromMemory},
		{ID: "process-wood-top", What: "most current of a Wood's strike on 0.75 dm²", Value: 3.6328, Unit: "A", Tolerance: 0.001, Source: wood, Known: Read},
		{ID: "process-chloride", What: "chloride in 45 g/L NiCl2·6H2O", Value: 13.42, Unit: "g/L", Tolerance: 0.007, Source: sourceIUPAC, Known: Computed},
		{ID: "process-make-up", What: "nickel sulfate hexahydrate for 5 L at 300 g/L, from nothing", Value: 1500, Unit: "g", Tolerance: 0.75, Source: sourceIUPAC, Known: Computed},
	}
}
