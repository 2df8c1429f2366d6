package params_test

import (
	"math"
	"testing"

	"example.com/furrow/params"
)

// TestNISTUnivariate: the NIST Statistical Reference Datasets NumAcc1 to NumAcc4, univariate summary statistics. The sets
// are defined by a rule and so can be written down here; rule and certified values are from memory. Mean and standard
// deviation (divisor n - 1) are certified exactly: NumAcc1 10000002 and 1; NumAcc2 1.2 and 0.1; NumAcc3 1000000.2 and
// 0.1; NumAcc4 10000000.2 and 0.1.
func TestNISTUnivariate(t *testing.T) {
	alternating := func(base float64) []float64 {
		z := []float64{base + 0.2}
		for range 500 {
			z = append(z, base+0.1, base+0.3)
		}
		return z
	}
	for _, c := range []struct {
		name     string
		z        []float64
		mean, sd float64
	}{
		{"NumAcc1", []float64{10000001, 10000003, 10000002}, 10000002, 1},
		{"NumAcc2", alternating(1), 1.2, 0.1},
		{"NumAcc3", alternating(1000000), 1000000.2, 0.1},
		{"NumAcc4", alternating(10000000), 10000000.2, 0.1},
	} {
		n := float64(len(c.z))
		// Half a unit in the last place of the data is all the accuracy they hold.
		ulp := math.Nextafter(c.mean, math.Inf(1)) - c.mean
		m := average(c.z)
		m += average(minus(c.z, m)) // what the first sum rounded away
		holds(t, c.name+" mean", m, c.mean, ulp, "NIST StRD "+c.name+", from memory")
		z := minus(c.z, m)
		holds(t, c.name+" standard deviation", params.Rq(z)*math.Sqrt(n/(n-1)), c.sd, 4*ulp+1e-14, "NIST StRD "+c.name+", from memory")
		holds(t, c.name+" skewness", params.Rsk(z), 0, 1e2*ulp+1e-12, "symmetric about the mean")
		want := n * 500 * 2 / (1000 * 1000) // two equal values but for one at the mean
		if c.name == "NumAcc1" {
			want = 1.5
		}
		holds(t, c.name+" kurtosis", params.Rku(z), want, 1e2*ulp+1e-12, "Σ(z-m)⁴ n / (Σ(z-m)²)² by hand")
	}
}

// TestOffset: what counts heights from one another does not lose digits when the whole profile stands high, as it may
// when its heights come already filtered.
func TestOffset(t *testing.T) {
	z := sampled(8000, 7, func(u float64) float64 { return math.Round(1024*sine(u)) / 1024 })
	const offset = 1 << 23 // adds without rounding
	high := minus(z, -offset)
	for _, c := range []struct {
		name string
		f    func(z []float64) float64
	}{
		{"Rt", params.Rt}, {"Rk", params.Rk}, {"Rpk", params.Rpk}, {"Rvk", params.Rvk}, {"Rmrk1", params.Rmrk1}, {"Rmrk2", params.Rmrk2},
		{"Rak1", params.Rak1}, {"Rak2", params.Rak2},
		{"Rvmp", func(z []float64) float64 { return params.Rvmp(z, 10) }},
		{"Rvmc", func(z []float64) float64 { return params.Rvmc(z, 10, 80) }},
		{"Rvvv", func(z []float64) float64 { return params.Rvvv(z, 80) }},
		{"Rdc", func(z []float64) float64 { return params.Rdc(z, 10, 80) }},
		{"Rdq", func(z []float64) float64 { return params.Rdq(z, 0.5) }},
	} {
		holds(t, c.name, c.f(high), c.f(z), 1e-8, "the same profile without an offset of 2^23")
	}
}
