package process

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"example.org/thouspan/internal/notebook"
	"example.org/thouspan/plating"
)

// What a small bench can read: a burette to 0.05 mL either end, a pipette to
// half a per cent and a titrant to as much, as standard uncertainties (common
// practice).
const (
	buretteU  = 0.03 * mL
	pipetteU  = 0.005
	titrantU  = 0.003
	lowBoric  = 35 * plating.GramPerLitre
	milliBase = plating.MolePerLitre
)

// bath is what the analysis says.
type bath struct {
	additions []plating.Addition
	// falls is what falls out in the cold.
	falls unit.Mass
}

// titration returns the titration of one reading.
func (in Inputs) titration(used unit.Volume, strength float64) plating.Titration {
	c := plating.AmountConcentration(strength) * milliBase
	return plating.Titration{Sample: in.Sample, Used: used, Strength: c, SampleU: in.Sample * pipetteU, UsedU: buretteU, StrengthU: c * titrantU}
}

// analyse returns the bath's state and what it takes.
func (in Inputs) analyse() (bath, error) {
	nickel, err := in.titration(in.Nickel, in.Edta).Nickel()
	if err != nil {
		return bath{}, notebook.InField("nickel", err)
	}
	chloride, err := in.titration(in.Silver, in.SilverStrength).Chloride()
	if err != nil {
		return bath{}, notebook.InField("silver", err)
	}
	boric, err := in.titration(in.Boric, in.Soda).BoricAcid()
	if err != nil {
		return bath{}, notebook.InField("boric", err)
	}
	found := plating.Analysis{Nickel: nickel.Concentration, NickelU: nickel.U, Chloride: chloride.Concentration, ChlorideU: chloride.U, Boric: boric.Concentration, BoricU: boric.U}
	var b bath
	if b.additions, err = found.Additions(plating.WattsRecipe(in.Sulfate, in.Chloride, in.BoricRecipe), in.Volume); err != nil {
		return bath{}, notebook.InField("silver", err)
	}
	if b.falls, err = plating.FallsOut(boric.Concentration, in.Stays, in.Volume); err != nil {
		return bath{}, notebook.InField("stays", err)
	}
	return b, nil
}

// held returns a concentration as it is shown.
func held(c, u plating.Concentration) notebook.Quantity {
	return notebook.Of(c, u, notebook.Same(notebook.GramPerLitre))
}

// addBath adds what the bath holds and what it takes.
func (a answer) addBath(sheet *notebook.Sheet) error {
	table := notebook.Table{Name: "bath", Title: "The bath by burette, and what to add",
		Columns: []notebook.Column{notebook.Col("Salt"), notebook.ColIn("Found", notebook.Same(notebook.GramPerLitre)), notebook.ColIn("Recipe", notebook.Same(notebook.GramPerLitre)),
			notebook.ColIn("To add", notebook.Masses), notebook.Col("What to do")},
		Note: notebook.Plain("Below zero there is too much: only drag-out takes it away. Add half of what is asked, stir warm, and titrate again.")}
	clear, worst := 0, ""
	for _, x := range a.bath.additions {
		do := "leave it: within twice its doubt"
		if x.Clear() {
			do = "add half, then look again"
			if x.Mass < 0 {
				do = "too much: add none"
			}
			clear++
			worst += " " + x.Salt.Name + ";"
		}
		table.Rows = append(table.Rows, []notebook.Cell{notebook.Str(x.Salt.Name), notebook.Val(held(x.Found, x.FoundU)),
			notebook.Val(notebook.Exact(x.Wanted, notebook.Same(notebook.GramPerLitre))), notebook.Val(notebook.Of(x.Mass, x.MassU, notebook.Masses)), notebook.Str(do)})
	}
	verdict := notebook.Verdict{Name: "bath-verdict", Tone: notebook.Good, Text: notebook.Plain("The bath is on its recipe within what the burettes can tell.")}
	if clear > 0 {
		verdict.Tone, verdict.Text = notebook.Watch, notebook.Say("{} of the three stand off the recipe by more than twice their doubt:"+worst[:len(worst)-1]+".", notebook.Whole(clear))
	}
	if boric := a.bath.additions[2].Found; boric < lowBoric {
		verdict.Tone = notebook.Watch
		verdict.Text = verdict.Text.And(notebook.Say("Boric acid of {} is low: bright Watts-type baths are run at 35 g/L and more (read), or edges burn and pit.", held(boric, a.bath.additions[2].FoundU)))
	}
	sheet.Add(table, verdict, notebook.Figure{Name: "falls-out", Label: "Boric acid that falls out when the bath is cold", Value: notebook.Of(a.bath.falls, a.fallsU(), notebook.Masses),
		Note: notebook.Plain("Against the figure typed for what stays dissolved: no figure for a nickel bath was read. Warm and stir before you sample, or the burette sees less than there is.")})
	return nil
}

// fallsU returns the standard uncertainty of what falls out, zero when nothing
// does.
func (a answer) fallsU() unit.Mass {
	if a.bath.falls == 0 {
		return 0
	}
	return unit.Mass(math.Abs(float64(a.bath.additions[2].MassU)))
}
