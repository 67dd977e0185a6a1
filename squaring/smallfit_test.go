package squaring

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// fitPoly fits a polynomial of the given number of terms.
func fitPoly(x, y []float64, terms int) smallFit {
	fit := smallFit{unknowns: terms}
	for i := range x {
		var row row5
		p := 1.0
		for j := 0; j < terms; j++ {
			row[j] = p
			p *= x[i]
		}
		fit.add(row, y[i])
	}
	return fit
}

// logError is the number of figures that agree with a certified value.
func logError(got, want float64) float64 { return -math.Log10(math.Abs(got-want) / math.Abs(want)) }

// Source: NIST/ITL Statistical Reference Datasets, linear least squares, set
// Norris, certified to 15 figures (read). Nine agreeing figures are asked of a
// QR in double precision; the lost ones are the set's own conditioning.
func TestSmallFitNorris(t *testing.T) {
	x := []float64{0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9,
		338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3,
		229.2, 669.1, 448.9, 0.5}
	y := []float64{0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8,
		339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6,
		228.9, 668.4, 449.2, 0.2}
	fit := fitPoly(x, y, 2)
	b, c := fit.solve(), fit.covariance()
	s := math.Sqrt(fit.rss / float64(fit.degreesOfFreedom()))
	for _, test := range []struct {
		name      string
		got, want float64
	}{
		{"B0", b[0], -0.262323073774029}, {"B1", b[1], 1.00211681802045},
		{"sd B0", s * math.Sqrt(c[0][0]), 0.232818234301152}, {"sd B1", s * math.Sqrt(c[1][1]), 0.429796848199937e-3},
		{"residual sd", s, 0.884796396144373}, {"residual sum of squares", fit.rss, 26.6173985294224},
	} {
		if figures := logError(test.got, test.want); !(figures >= 9) {
			t.Errorf("%s = %.16g, want %.16g: %.1f figures agree, want 9", test.name, test.got, test.want, figures)
		}
	}
}

// Source: as above, set NoInt1 (no constant). The quartic is ours: exact data
// must give back exact coefficients but for the conditioning of powers of 20.
func TestSmallFitNoIntercept(t *testing.T) {
	fit := smallFit{unknowns: 1}
	for i := range 11 {
		fit.add(row5{float64(60 + i)}, float64(130+i))
	}
	s := math.Sqrt(fit.rss / float64(fit.degreesOfFreedom()))
	for _, test := range []struct {
		name      string
		got, want float64
	}{
		{"B1", fit.solve()[0], 2.07438016528926}, {"sd B1", s * math.Sqrt(fit.covariance()[0][0]), 0.165289256198347e-1},
		{"residual sd", s, 3.56753034006338}, {"residual sum of squares", fit.rss, 127.272727272727},
	} {
		if figures := logError(test.got, test.want); !(figures >= 9) {
			t.Errorf("%s = %.16g, want %.16g: %.1f figures agree, want 9", test.name, test.got, test.want, figures)
		}
	}
	x, y := make([]float64, 21), make([]float64, 21)
	for i := range x {
		v := float64(i)
		x[i], y[i] = v, 1+v+v*v+v*v*v+v*v*v*v
	}
	quartic := fitPoly(x, y, 5)
	for _, b := range quartic.solve() {
		near(t, "coefficient of an exact quartic", b, 1, 1e-7)
	}
}

// Source: JCGM 100:2008, H.3, data read in three transcriptions, printed
// results from memory and recomputed; 1e-8 is the last figure kept.
func TestSmallFitThermometer(t *testing.T) {
	temperature := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	b := []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
	shifted := make([]float64, len(temperature))
	for i, v := range temperature {
		shifted[i] = v - 20
	}
	fit := fitPoly(shifted, b, 2)
	y, c := fit.solve(), fit.covariance()
	s := math.Sqrt(fit.rss / float64(fit.degreesOfFreedom()))
	near(t, "y1", y[0], -0.17120379, 1e-8)
	near(t, "s(y1)", s*math.Sqrt(c[0][0]), 0.00287760, 1e-8)
	near(t, "y2", y[1], 0.00218270, 1e-8)
	near(t, "s(y2)", s*math.Sqrt(c[1][1]), 0.00066794, 1e-8)
	near(t, "r", c[0][1]/math.Sqrt(c[0][0]*c[1][1]), -0.93042960, 1e-8)
	near(t, "s", s, 0.003497564, 1e-9)
	at := fit.half(row5{1, 10})
	near(t, "b(30)", y[0]+10*y[1], -0.14937681, 1e-8)
	near(t, "u(b(30))", s*math.Sqrt(dot5(at, at)), 0.00413860, 1e-8)
}

// Against gonum's Householder QR on random designs.
func TestSmallFitAgainstQR(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 50 {
		n, p := 6+random.IntN(20), 1+random.IntN(maxUnknowns)
		design, readings := mat.NewDense(n, p, nil), mat.NewVecDense(n, nil)
		fit := smallFit{unknowns: p}
		for i := range n {
			var row row5
			for j := range p {
				row[j] = random.NormFloat64()
				design.Set(i, j, row[j])
			}
			y := random.NormFloat64()
			readings.SetVec(i, y)
			fit.add(row, y)
		}
		var qr mat.QR
		qr.Factorize(design)
		var want mat.VecDense
		if err := qr.SolveVecTo(&want, false, readings); err != nil {
			t.Fatal(err)
		}
		got := fit.solve()
		for j := range p {
			near(t, "unknown", got[j], want.AtVec(j), 1e-12)
		}
		var normal, inverse mat.Dense
		normal.Mul(design.T(), design)
		if err := inverse.Inverse(&normal); err != nil {
			t.Fatal(err)
		}
		c := fit.covariance()
		for i := range p {
			for j := range p {
				near(t, "covariance", c[i][j], inverse.At(i, j), 1e-10)
			}
		}
		var residual mat.VecDense
		residual.MulVec(design, &want)
		residual.SubVec(readings, &residual)
		near(t, "residual sum of squares", fit.rss, math.Pow(mat.Norm(&residual, 2), 2), 1e-11)
	}
}
