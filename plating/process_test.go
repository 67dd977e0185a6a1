package plating

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/unit"
)

// jobOn returns a job of 25 um on 75 cm2 of a base metal.
func jobOn(base BaseMetal, hardness float64) Job {
	return Job{Base: base, RockwellC: hardness, Bath: Celsius(55), Plan: Plan{Deposit: Nickel().Deposit(),
		Area: Surface{Name: "parts", Area: 75 * SquareCentimetre, U: 1 * SquareCentimetre}, Thickness: 25e-6,
		CurrentDensity: 3 * AmperePerSquareDecimetre, Efficiency: 0.95, EfficiencyU: 0.01, Supply: Supply{Step: 0.01}}}
}

// kinds returns the kinds of the steps of a sheet.
func kinds(s ProcessSheet) []StepKind {
	var all []StepKind
	for _, step := range s.Steps {
		all = append(all, step.Kind)
	}
	return all
}

func TestProcessOrder(t *testing.T) {
	soft := []StepKind{StepInspect, StepClean, StepRinse, StepActivate, StepRinse, StepPlate, StepRinse, StepRinse, StepDry, StepInspect}
	hard := []StepKind{StepInspect, StepRelieve, StepClean, StepRinse, StepActivate, StepRinse, StepStrike, StepRinse, StepPlate, StepRinse, StepRinse, StepDry, StepBake, StepInspect}
	for _, test := range []struct {
		job  Job
		want []StepKind
	}{{jobOn(BaseBrass, 0), soft}, {jobOn(BaseCopper, 0), soft}, {jobOn(BaseMildSteel, 0), soft}, {jobOn(BaseHardenedSteel, 44), hard}} {
		sheet, err := ProcessFor(test.job)
		if err != nil || sheet.Refused != "" {
			t.Fatalf("%s: %v, refused %q", test.job.Base, err, sheet.Refused)
		}
		if got := kinds(sheet); !slices.Equal(got, test.want) {
			t.Errorf("%s: steps are %v, want %v", test.job.Base, got, test.want)
		}
	}
}

func TestProcessComputedSteps(t *testing.T) {
	job := jobOn(BaseHardenedSteel, 44)
	sheet, err := ProcessFor(job)
	if err != nil {
		t.Fatal(err)
	}
	setting, err := job.Plan.Setting()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range sheet.Steps {
		switch s.Kind {
		case StepPlate:
			if s.CurrentFrom != setting.Current || s.TimeFrom != setting.Time || s.TemperatureFrom != Celsius(55) {
				t.Errorf("the plating step says %v, %v, want %v, %v", s.CurrentFrom, s.TimeFrom, setting.Current, setting.Time)
			}
		case StepStrike:
			// 10 to 45 A/ft2 (read) is 1.0764 to 4.8438 A/dm2 (computed): on 0.75 dm2
			// 0.8073 to 3.6329 A.
			if !scalar.EqualWithinRel(float64(s.CurrentFrom), 0.80729, 1e-4) || !scalar.EqualWithinRel(float64(s.CurrentTo), 3.63281, 1e-4) || !s.Licensed {
				t.Errorf("the strike says %v to %v A, licensed %v", s.CurrentFrom, s.CurrentTo, s.Licensed)
			}
		case StepBake:
			// ASTM B850: 16 h at 43 to 45 HRC (read).
			if s.TimeFrom != 16*3600 || s.TemperatureFrom != Celsius(190) || s.TemperatureTo != Celsius(220) {
				t.Errorf("the bake says %v s, %v to %v K", s.TimeFrom, s.TemperatureFrom, s.TemperatureTo)
			}
		}
	}
	if sheet.AtBench() <= setting.Time || sheet.AtBench() >= 16*3600 {
		t.Errorf("at the bench for %v s, want more than the plating and without the bake", sheet.AtBench())
	}
}

func TestProcessCautions(t *testing.T) {
	for _, base := range []BaseMetal{BaseBrass, BaseHardenedSteel} {
		sheet, err := ProcessFor(jobOn(base, 44))
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range sheet.Steps {
			if s.What == "" || s.Why == "" || s.Known == "" {
				t.Errorf("%s: a step lacks what, why or how known: %+v", s.Kind, s)
			}
			if s.Known == KnownRead && s.Source == "" {
				t.Errorf("%s: read, but nowhere", s.Kind)
			}
			if wet := s.Kind == StepClean || s.Kind == StepActivate || s.Kind == StepStrike || s.Kind == StepPlate || s.Kind == StepBake; wet && s.Caution == "" {
				t.Errorf("%s has no caution", s.Kind)
			}
		}
	}
}

func TestProcessRefuses(t *testing.T) {
	for want, job := range map[string]Job{"cyanide bath": jobOn(BaseCastZinc, 0), "bake table": jobOn(BaseHardenedSteel, 58)} {
		sheet, err := ProcessFor(job)
		if err != nil || !strings.Contains(sheet.Refused, want) || len(sheet.Steps) != 0 {
			t.Errorf("%s: refused %q, %v, %d steps; want %q", job.Base, sheet.Refused, err, len(sheet.Steps), want)
		}
	}
	cold, bare := jobOn(BaseBrass, 0), jobOn(BaseBrass, 0)
	cold.Bath, bare.Plan.Area = 55, Surface{}
	for want, job := range map[string]Job{
		"-218.1": cold, "area": bare, `base metal "tin"`: jobOn("tin", 0), "hardness": jobOn(BaseHardenedSteel, math.NaN()),
	} {
		if _, err := ProcessFor(job); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("ProcessFor gave %v, want an error with %q", err, want)
		}
	}
}

func FuzzProcessFor(f *testing.F) {
	f.Add("brass", 0.0, 0.0075, 25e-6, 328.0)
	f.Add("hardened steel", 44.0, 0.01, 10e-6, 323.0)
	f.Fuzz(func(t *testing.T, base string, hardness, area, thickness, bath float64) {
		job := jobOn(BaseMetal(base), hardness)
		job.Plan.Area.Area, job.Plan.Thickness, job.Bath = unit.Area(area), unit.Length(thickness), unit.Temperature(bath)
		sheet, err := ProcessFor(job)
		if err == nil && (sheet.Refused == "") == (len(sheet.Steps) == 0) {
			t.Errorf("refused %q with %d steps", sheet.Refused, len(sheet.Steps))
		}
	})
}

func ExampleProcessFor() {
	area, err := Area("four escutcheons", 74.94*SquareCentimetre, 0.5*SquareCentimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	sheet, err := ProcessFor(Job{Base: BaseBrass, Bath: Celsius(55), Plan: Plan{Deposit: Nickel().Deposit(), Area: area, Thickness: 25e-6,
		CurrentDensity: 3 * AmperePerSquareDecimetre, Efficiency: 0.95, EfficiencyU: 0.01, Supply: Supply{Step: 0.01}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range sheet.Steps {
		if s.Known == KnownComputed {
			fmt.Printf("%s: %.2f A for %.0f min\n", s.Kind, float64(s.CurrentTo), float64(s.TimeTo)/60)
		}
	}
	fmt.Println(len(sheet.Steps), "steps")
	// Output:
	// plate: 2.25 A for 43 min
	// 10 steps
}
