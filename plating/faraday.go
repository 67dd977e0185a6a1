package plating

// Faraday's law in the shop's forms. One charge hub joins them all:
//
//	Q = I t,  m = k eta Q,  m = rho A d,  I = j A
//
// with charge Q, current I, time t, mass m, electrochemical equivalent k,
// cathode efficiency eta, density rho, area A, mean thickness d and current
// density j.

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/unit"
)

// Mass returns the mass that a charge lays down at a cathode efficiency above 0
// and at most 1:
//
//	m = k eta Q
//
// A negative or infinite charge is an error.
func (d Deposit) Mass(charge unit.Charge, efficiency float64) (unit.Mass, error) {
	if err := firstError(d.validate(), notNegative("charge", float64(charge), inAmpereHour), fraction("efficiency", efficiency)); err != nil {
		return 0, err
	}
	return unit.Mass(float64(d.Equivalent) * efficiency * float64(charge)), nil
}

// Charge returns the charge that lays down a mass at a cathode efficiency above
// 0 and at most 1; it is the inverse of [Deposit.Mass].
func (d Deposit) Charge(mass unit.Mass, efficiency float64) (unit.Charge, error) {
	if err := firstError(d.validate(), notNegative("mass", float64(mass), inGram), fraction("efficiency", efficiency)); err != nil {
		return 0, err
	}
	return unit.Charge(float64(mass) / (float64(d.Equivalent) * efficiency)), nil
}

// Thickness returns the mean thickness of a mass spread over an area:
//
//	d = m / (rho A)
//
// The area is that of the bare part: on a wire or a sharp edge of a radius not
// large beside d the true mean is smaller.
func (d Deposit) Thickness(mass unit.Mass, area unit.Area) (unit.Length, error) {
	if err := firstError(d.validate(), notNegative("mass", float64(mass), inGram), positive("area", float64(area), inSquareCM)); err != nil {
		return 0, err
	}
	return unit.Length(float64(mass) / (float64(d.Density) * float64(area))), nil
}

// MassOfCoat returns the mass of a mean thickness over an area; it is the
// inverse of [Deposit.Thickness].
func (d Deposit) MassOfCoat(thickness unit.Length, area unit.Area) (unit.Mass, error) {
	if err := firstError(d.validate(), notNegative("thickness", float64(thickness), inMicrometre), positive("area", float64(area), inSquareCM)); err != nil {
		return 0, err
	}
	return unit.Mass(float64(d.Density) * float64(area) * float64(thickness)), nil
}

// Rate returns how fast the mean thickness grows at a current density and a
// cathode efficiency above 0 and at most 1:
//
//	v = k eta j / rho
func (d Deposit) Rate(j CurrentDensity, efficiency float64) (unit.Velocity, error) {
	if err := firstError(d.validate(), notNegative("current density", float64(j), inAPerDM2), fraction("efficiency", efficiency)); err != nil {
		return 0, err
	}
	return unit.Velocity(float64(d.Equivalent) * efficiency * float64(j) / float64(d.Density)), nil
}

// TimeFor returns how long a mean thickness takes at a current density above
// zero and a cathode efficiency above 0 and at most 1.
func (d Deposit) TimeFor(thickness unit.Length, j CurrentDensity, efficiency float64) (unit.Time, error) {
	if err := firstError(notNegative("thickness", float64(thickness), inMicrometre), positive("current density", float64(j), inAPerDM2)); err != nil {
		return 0, err
	}
	v, err := d.Rate(j, efficiency)
	if err != nil {
		return 0, err
	}
	return unit.Time(float64(thickness) / float64(v)), nil
}

// Coat is one coat on one load. In what is handed to [Coat.Solve] a zero field
// means "not known"; the deposit must be known.
type Coat struct {
	Deposit Deposit
	// Area is the wetted area of the bare load.
	Area unit.Area
	// Efficiency is the cathode efficiency, a fraction above 0 and at most 1.
	Efficiency float64
	// Current and CurrentDensity are positive when metal is laid down; the
	// density is the mean over the area.
	Current        unit.Current
	CurrentDensity CurrentDensity
	Time           unit.Time
	Charge         unit.Charge
	// Mass is the mass gained and Thickness the mean over the area.
	Mass      unit.Mass
	Thickness unit.Length
}

// coatField is one unknown of a coat: its name, its unit in messages and where
// it stands.
type coatField struct {
	name  string
	in    shown
	value *float64
}

// coatLaw is one relation between fields: the product of the left fields is the
// constant times the product of the right fields.
type coatLaw struct {
	left, right []int
	constant    float64
}

// The indices of the fields in a coat's list.
const (
	fieldArea = iota
	fieldEfficiency
	fieldCurrent
	fieldCurrentDensity
	fieldTime
	fieldCharge
	fieldMass
	fieldThickness
	fieldCount
)

// coatAgreement is the largest relative disagreement between given values that
// is put down to rounding.
const coatAgreement = 1e-6

// Solve returns the coat with every field that follows from those given. A
// field that does not follow stays zero: without an area, for instance, a
// current density and a time give a thickness but no mass.
//
// It returns an error when a given value is negative, not finite or, for the
// efficiency, above 1; when nothing follows from what is given; when two given
// values contradict each other by more than one part in a million; or when the
// efficiency that follows is above 1, which no bath can do.
func (c Coat) Solve() (Coat, error) {
	if err := c.Deposit.validate(); err != nil {
		return Coat{}, err
	}
	values := [fieldCount]float64{float64(c.Area), c.Efficiency, float64(c.Current), float64(c.CurrentDensity),
		float64(c.Time), float64(c.Charge), float64(c.Mass), float64(c.Thickness)}
	fields := [fieldCount]coatField{
		{"area", inSquareCM, &values[fieldArea]},
		{"efficiency", inPlain, &values[fieldEfficiency]},
		{"current", inAmpere, &values[fieldCurrent]},
		{"current density", inAPerDM2, &values[fieldCurrentDensity]},
		{"time", inMinute, &values[fieldTime]},
		{"charge", inAmpereHour, &values[fieldCharge]},
		{"mass", inGram, &values[fieldMass]},
		{"thickness", inMicrometre, &values[fieldThickness]},
	}
	for _, f := range fields {
		if err := notNegative(f.name, *f.value, f.in); err != nil {
			return Coat{}, err
		}
	}
	if c.Efficiency > 0 {
		if err := fraction("efficiency", c.Efficiency); err != nil {
			return Coat{}, err
		}
	}
	if err := solveCoat(fields[:], c.Deposit.laws()); err != nil {
		return Coat{}, err
	}
	if eta := values[fieldEfficiency]; eta > 1+coatAgreement {
		return Coat{}, fmt.Errorf("plating: mass and charge give an efficiency of %.4g, above 1: more metal than the charge can lay down", eta)
	}
	return Coat{Deposit: c.Deposit, Area: unit.Area(values[fieldArea]), Efficiency: values[fieldEfficiency],
		Current: unit.Current(values[fieldCurrent]), CurrentDensity: CurrentDensity(values[fieldCurrentDensity]),
		Time: unit.Time(values[fieldTime]), Charge: unit.Charge(values[fieldCharge]),
		Mass: unit.Mass(values[fieldMass]), Thickness: unit.Length(values[fieldThickness])}, nil
}

// laws returns the relations between a coat's fields. The last follows from the
// others, but serves when the area is not known.
func (d Deposit) laws() []coatLaw {
	k, rho := float64(d.Equivalent), float64(d.Density)
	return []coatLaw{
		{[]int{fieldCurrent}, []int{fieldCurrentDensity, fieldArea}, 1},
		{[]int{fieldCharge}, []int{fieldCurrent, fieldTime}, 1},
		{[]int{fieldMass}, []int{fieldEfficiency, fieldCharge}, k},
		{[]int{fieldMass}, []int{fieldArea, fieldThickness}, rho},
		{[]int{fieldThickness}, []int{fieldEfficiency, fieldCurrentDensity, fieldTime}, k / rho},
	}
}

// solveCoat fills in the fields that follow, law by law until nothing more
// does, and then checks every law whose fields are all known.
func solveCoat(fields []coatField, laws []coatLaw) error {
	found := 0
	for again := true; again; {
		again = false
		for _, law := range laws {
			if law.fill(fields) {
				found++
				again = true
			}
		}
	}
	for _, law := range laws {
		if err := law.check(fields); err != nil {
			return err
		}
	}
	if found == 0 {
		return tooLittle(fields)
	}
	return nil
}

// sides returns the products of the known fields on both sides and the fields
// that are not known.
func (l coatLaw) sides(fields []coatField) (left, right float64, unknown []int) {
	left, right = 1, l.constant
	for _, i := range l.left {
		if *fields[i].value == 0 {
			unknown = append(unknown, i)
			continue
		}
		left *= *fields[i].value
	}
	for _, i := range l.right {
		if *fields[i].value == 0 {
			unknown = append(unknown, i)
			continue
		}
		right *= *fields[i].value
	}
	return left, right, unknown
}

// fill finds the law's only unknown field and reports whether it did.
func (l coatLaw) fill(fields []coatField) bool {
	left, right, unknown := l.sides(fields)
	if len(unknown) != 1 {
		return false
	}
	value := left / right
	if unknown[0] == l.left[0] {
		value = right / left
	}
	if !(value > 0) || math.IsInf(value, 0) {
		return false
	}
	*fields[unknown[0]].value = value
	return true
}

// check returns an error when the law's fields are all known and contradict
// each other.
func (l coatLaw) check(fields []coatField) error {
	left, right, unknown := l.sides(fields)
	if len(unknown) > 0 || math.Abs(left-right) <= coatAgreement*math.Max(left, right) {
		return nil
	}
	f := fields[l.left[0]]
	var others []string
	for _, i := range l.right {
		others = append(others, fields[i].name)
	}
	return fmt.Errorf("plating: %s is %s, but %s give %s", f.name, f.in.of(left), strings.Join(others, " and "), f.in.of(right))
}

// tooLittle says what was given when nothing follows from it, or returns nil
// when nothing is missing.
func tooLittle(fields []coatField) error {
	var given []string
	for _, f := range fields {
		if *f.value != 0 {
			given = append(given, f.name)
		}
	}
	if len(given) == len(fields) {
		return nil
	}
	if len(given) == 0 {
		return fmt.Errorf("plating: nothing is given, so nothing follows")
	}
	return fmt.Errorf("plating: nothing follows from %s alone", strings.Join(given, " and "))
}
