package plating

import "fmt"

// ThrowingPower is how evenly a bath spreads metal in a cell with a near and a
// far cathode, by three formulas that give different figures for one result:
// always say which one is meant.
type ThrowingPower struct {
	// HaringBlum is (K - M)/K; it cannot pass (K - 1)/K, 0.8 in the usual cell
	// of K 5. Heatley is (K - M)/(K - 1). Field is (K - M)/(K + M - 2).
	HaringBlum, Heatley, Field float64
}

// ThrowingPowerFromMasses returns the throwing power of a cell whose far cathode
// is K times as far from the anode as the near one, when the near one gained M
// times the mass of the far one. The distance ratio is above 1 and the mass
// ratio above zero; a mass ratio of K is no throwing power at all and 1 is
// perfect.
func ThrowingPowerFromMasses(distanceRatio, massRatio float64) (ThrowingPower, error) {
	k, m := distanceRatio, massRatio
	if !(k > 1) || !isFinite(k) {
		return ThrowingPower{}, fmt.Errorf("plating: ratio of the distances is %.4g, must be above 1 and finite", k)
	}
	if err := positive("ratio of the masses", m, inPlain); err != nil {
		return ThrowingPower{}, err
	}
	if k+m <= 2 {
		return ThrowingPower{}, fmt.Errorf("plating: ratios of distances %.4g and of masses %.4g leave the third formula without a meaning, their sum must be above 2", k, m)
	}
	return ThrowingPower{HaringBlum: (k - m) / k, Heatley: (k - m) / (k - 1), Field: (k - m) / (k + m - 2)}, nil
}

// CurrentRatio returns the near over the far current density in such a cell
// when the electrode has a polarisation of Wagner number Wa, taken with the near
// distance:
//
//	(K + Wa)/(1 + Wa)
//
// It is K without polarisation and tends to 1 for a large Wagner number. The
// distance ratio is above 1 and the Wagner number zero or more.
func CurrentRatio(distanceRatio, wagner float64) (float64, error) {
	if !(distanceRatio > 1) || !isFinite(distanceRatio) {
		return 0, fmt.Errorf("plating: ratio of the distances is %.4g, must be above 1 and finite", distanceRatio)
	}
	if err := notNegative("Wagner number", wagner, inPlain); err != nil {
		return 0, err
	}
	return (distanceRatio + wagner) / (1 + wagner), nil
}
