package plating

// rules returns the table of causes with what the circumstances say to each.
// Weights, limits and tests are rules of the trade (common practice), after the
// usual causes of defects in Watts-type nickel; the pH and temperature limits
// bracket 3.5 to 4.5 and 50 to 60 degrees Celsius.
func (c Circumstances) rules() []rule {
	var rules []rule
	for _, group := range [][]rule{c.burningRules(), c.pittingRules(), c.peelingRules(), c.lookRules(), c.sizeRules()} {
		rules = append(rules, group...)
	}
	return rules
}

// tooDense is the evidence of a local current density near or beyond burning.
func (c Circumstances) tooDense() evidence {
	if c.Mean == 0 || c.Burns == 0 {
		return evidence{}
	}
	return above(c.peak(), float64(c.Burns), 0.75*float64(c.Burns),
		"the thickest place saw more current than the bath stands", "even the thickest place stayed well below burning")
}

// cold, acidLow, nickelLow and boricLow are evidence from the bath's state.
func (c Circumstances) cold() evidence {
	return under(c.celsius(), 50, 53, "the bath was cold", "the bath was warm enough")
}
func (c Circumstances) acidLow() evidence {
	return above(c.PH, 4.5, 4.25, "the pH was high", "the pH was in its range")
}
func (c Circumstances) nickelLow() evidence {
	return under(float64(c.Nickel), 55, 62, "nickel is low", "there is nickel enough")
}
func (c Circumstances) boricLow() evidence {
	return under(float64(c.Boric), 30, 36, "boric acid is low", "there is boric acid enough")
}

func (c Circumstances) burningRules() []rule {
	return []rule{
		{BurntCorners, "too much current at the corners", 4, "a bent strip or a sloping panel at the same mean: does its high end burn at the same current density?",
			"halve the current and double the time, or put a thief wire round the corners", []evidence{c.tooDense()}},
		{BurntCorners, "bath too cold", 2, "warm it to 55 degrees Celsius and plate a strip", "wait for the heat; stir", []evidence{c.cold()}},
		{BurntCorners, "too little boric acid", 1.5, "weigh the crystals that fall from a cooled sample; titrate if you can", "add boric acid, dissolved hot", []evidence{c.boricLow()}},
		{BurntCorners, "too little nickel", 0.5, "have the bath analysed", "add nickel sulfate", []evidence{c.nickelLow()}},
		{BurntCorners, "bath and work stand still", 1, "rock the work by hand for half a run", "move the work, or stir without stirring up dirt",
			[]evidence{when(c.Stirred, No, "nothing moved", "bath or work moved")}},
		{BurntCorners, "pH too high", 1, "measure it warm", "acid by a trial on a sample", []evidence{c.acidLow()}},
	}
}

func (c Circumstances) pittingRules() []rule {
	still := when(c.Stirred, No, "nothing moved", "bath or work moved")
	return []rule{
		{RoundPits, "gas clings: pH too high", 3, "measure the pH warm; watch for bubbles that stay", "acid by a trial on a sample", []evidence{c.acidLow()}},
		{RoundPits, "gas clings: too little wetting agent", 3, "dip a wire ring: does a film hold for some seconds?", "wetting agent in small doses", nil},
		{RoundPits, "gas clings: bath and work stand still", 2, "rock the work for half a run", "move the work; hang faces upright", []evidence{still}},
		{RoundPits, "gas clings: too much current", 1, "plate one part at half the current", "less current, longer", []evidence{c.tooDense()}},
		{RaggedPits, "dirt in the bath", 4, "let a beaker of bath stand overnight and look at the bottom", "filter; bag the anodes; cover the tank",
			[]evidence{when(c.Bagged, No, "the anodes have no bags", "the anodes are in bags")}},
		{RaggedPits, "porous or dirty base metal", 3, "look at the bare part with a lens; plate a sound piece beside it", "better base metal, or a copper layer under the nickel", nil},
		{RaggedPits, "polishing compound left on", 2, "wipe a cleaned part with white cloth", "clean hotter and longer, before the activation", nil},
	}
}

func (c Circumstances) peelingRules() []rule {
	lost := when(c.Interrupted, Yes, "the current was lost for a time", "the current was never lost")
	return []rule{
		{PeelsFromBase, "activation missing or too weak", 4, "activate one part twice as long and bend it", "fresh activation just before the bath, and no drying in between",
			[]evidence{when(c.Activated, No, "it was not activated just before", "it was activated just before")}},
		{PeelsFromBase, "grease left on", 3, "does water run off in a whole film, or break?", "clean again; change the cleaner", nil},
		{PeelsFromBase, "base metal that will not hold nickel directly", 2, "plate a piece of brass beside it", "a strike first: copper on zinc alloys, a chloride strike on stainless steel", nil},
		{PeelsFromBase, "coat brittle", 1, "bend a coupon: does it crack before it peels?", "see to pH and additives", []evidence{c.acidLow()}},
		{PeelsInLayers, "current lost while plating", 5, "look in the log; shake the clips", "clean contacts; after a gap activate again, or strip", []evidence{lost}},
		{PeelsInLayers, "old nickel not activated", 4, "does the part have an older coat?", "strip it, or activate for nickel",
			[]evidence{when(c.Activated, No, "it was not activated just before", "it was activated just before")}},
		{PeelsInLayers, "work turned plus for a moment", 1, "check the polarity when switching on", "switch on with the work already connected", nil},
	}
}

func (c Circumstances) lookRules() []rule {
	foreign := when(c.Purged, No, "there was no purge lately", "the bath was purged lately")
	return []rule{
		{DullRecess, "copper or zinc in the bath", 4, "plate a corrugated sheet at 0.2 to 0.5 A/dm2 for an hour: do its valleys come out dark?", "go on with that purge until they do not", []evidence{foreign}},
		{DullRecess, "too little current reaches in", 3, "measure the coat there; hang a wire anode in front of the mouth", "an inside anode, or a wider spacing", nil},
		{DullRecess, "pH too high", 1, "measure it warm", "acid by a trial on a sample", []evidence{c.acidLow()}},
		{Haze, "pH too high", 4, "measure it warm", "acid by a trial on a sample", []evidence{c.acidLow()}},
		{Haze, "organic dirt", 2, "shake a sample with active carbon, filter, plate a coupon in it", "treat the bath with carbon and filter", nil},
		{Haze, "copper or zinc in the bath", 1.5, "as for a dark recess: purge at low current and look", "low-current purge", []evidence{foreign}},
		{Haze, "bath too cold", 1, "warm it to 55 degrees Celsius", "wait for the heat", []evidence{c.cold()}},
		{RoughShelf, "dirt from the anodes", 4, "look into the bags and at the bottom of the tank", "bag the anodes; filter", []evidence{when(c.Bagged, No, "the anodes have no bags", "the anodes are in bags")}},
		{RoughShelf, "crystals of boric acid", 2, "does the roughness wash off in hot water?", "warm and stir until all is dissolved, then filter", []evidence{c.cold()}},
		{RoughShelf, "dust from the room", 1, "cover the tank for a day", "a lid", nil},
	}
}

func (c Circumstances) sizeRules() []rule {
	return []rule{
		{ThreadTight, "coat thicker than the allowance", 5, "weigh a run; measure a screw over wires before and after", "plate thinner, or cut with more room", []evidence{c.outgrown()}},
		{ThreadTight, "ends of the thread plate thicker", 2, "does the nut start hard and then run?", "plug the end or fit a thief", nil},
		{ThreadTight, "burr or dirt in the thread", 1, "run a chaser or a clean nut over it", "clean the thread before plating", nil},
		{CoatThin, "efficiency has fallen", 3, "weigh a load of several coupons", "see to the pH, then count on the new figure", []evidence{c.fallen()}},
		{CoatThin, "area larger than worked out", 3, "wrap a part in foil and weigh the foil", "put hooks, wire and bores into the area", nil},
		{CoatThin, "supply reads too high", 1, "a second ammeter in the line", "correct the reading", nil},
		{CoatThin, "looked at the thin place", 2, "measure at a corner too", "ask for the least thickness where it matters", nil},
	}
}

// outgrown is the evidence of growth against the allowance.
func (c Circumstances) outgrown() evidence {
	if c.Local == 0 || c.GrowthFactor == 0 {
		return evidence{}
	}
	if c.GrowthFactor*float64(c.Local) > float64(c.Allowance) {
		return evidence{1, "the coat grows it by more than the room that there is"}
	}
	return evidence{-1, "the coat fits the room that there is"}
}

// fallen is the evidence of a weighed efficiency below the one counted on.
func (c Circumstances) fallen() evidence {
	if c.Weighed == 0 || c.Counted == 0 {
		return evidence{}
	}
	return under(c.Weighed, c.Counted-0.02, c.Counted-0.01, "less efficiency was weighed than counted on", "the weighed efficiency is the one counted on")
}
