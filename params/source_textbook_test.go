package params_test

import (
	"math"
	"testing"

	"example.com/furrow/params"
)

func minus(z []float64, offset float64) []float64 {
	out := make([]float64, len(z))
	for i, v := range z {
		out[i] = v - offset
	}
	return out
}

func average(z []float64) float64 {
	sum := 0.0
	for _, v := range z {
		sum += v
	}
	return sum / float64(len(z))
}

// TestConstantProfile: a constant trace minus its mean leaves rounding, which has no shape. Statistics libraries have
// returned a skewness of 1, of -105683727.5 and a kurtosis of 9.3e15 for these three (scipy issue 11086 and pull request
// 16061, polars issue 15067, pandas issue 11974).
func TestConstantProfile(t *testing.T) {
	for _, c := range []struct {
		v float64
		n int
	}{{14.3, 7}, {1.0042855193121334, 11}, {3075.3, 300}} {
		z := make([]float64, c.n)
		for i := range z {
			z[i] = c.v
		}
		z = minus(z, average(z))
		in := params.Input{Z: z, Dx: 1, Flat: 1e-12 * c.v}
		calls := params.Defaults("iso-21920", 'R')
		defined := 0
		for _, v := range params.Evaluate(&in, calls...) {
			switch v.Symbol {
			case "Ra", "Rq", "Rp", "Rv", "Rz", "Rt", "Rk":
				holds(t, v.Symbol, v.Value, 0, 1e-12*c.v, "a constant profile has no height")
			case "Rsk", "Rku", "Rsm", "Rc", "Rmrk1", "Rmrk2":
				if !math.IsNaN(v.Value) || v.Reason == "" {
					t.Errorf("%s of %v = %v, reason %q; want undefined with a reason", v.Symbol, c.v, v.Value, v.Reason)
				}
			}
			if math.IsNaN(v.Value) != (v.Reason != "") {
				t.Errorf("%s = %v with reason %q", v.Symbol, v.Value, v.Reason)
			}
			if !math.IsNaN(v.Value) {
				defined++
			}
		}
		if defined < 10 {
			t.Errorf("only %d values of a constant profile are defined", defined)
		}
	}
}
