package decide_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// The plan without its first step, by summing binomials: "0 of 3, at most 1 of 6, at most 2 of 12".
func TestCharacteristicExact(t *testing.T) {
	for p, want := range map[float64]float64{
		0.02: 0.999349, 0.05: 0.991404, 0.10: 0.947988, 0.16: 0.847175, 0.20: 0.760148, 0.30: 0.524770, 0.50: 0.174805,
	} {
		c, err := decide.SixteenCharacteristic(p, 0)
		if err != nil || math.Abs(c.Accept-want) > 5e-7 {
			t.Errorf("share %g: %.7f, %v; want %.6f", p, c.Accept, err, want)
		}
	}
	for _, bad := range [][2]float64{{-0.1, 0}, {0.6, 0.5}, {math.NaN(), 0}} {
		if _, err := decide.SixteenCharacteristic(bad[0], bad[1]); err == nil {
			t.Errorf("shares %v pass", bad)
		}
	}
}

// The plan with its first step, for normal values of 10 % relative scatter: exact, and played through with the very
// rule that judges, within four standard deviations of the simulation. Two digits of each were simulated before.
func TestCharacteristicSimulated(t *testing.T) {
	const scatter, trials = 0.10, 5000
	for p, want := range map[float64]float64{0.05: 0.99, 0.10: 0.95, 0.16: 0.85, 0.20: 0.76, 0.30: 0.53, 0.50: 0.18} {
		mean := 1 / (1 + scatter*decide.NormalQuantile(1-p))
		small := decide.NormalCDF((0.7 - mean) / (scatter * mean)) // the share of at most 70 % of the limit
		exact, err := decide.SixteenCharacteristic(p, small)
		if err != nil || math.Abs(exact.Accept-want) > 0.0101 {
			t.Errorf("share %g: exact %.4f, want %.2f", p, exact.Accept, want)
		}
		if exact.Traces < 2.5 || exact.Traces > 7 {
			t.Errorf("share %g takes %.2f traces", p, exact.Traces)
		}
		r := rand.New(rand.NewPCG(11, uint64(1000*p)))
		j := decide.Judgement{Bound: upper(1)[0], Rule: standards.SixteenPercent}
		var got decide.Characteristic
		for range trials {
			var values []float64
			for v := (decide.Ruling{Word: decide.NoVerdict}); v.Word == decide.NoVerdict; {
				values = append(values, mean*(1+scatter*r.NormFloat64()))
				if v, err = j.Judge(values); err != nil {
					t.Fatal(err)
				}
				if v.Word == decide.Conforms {
					got.Accept += 1.0 / trials
				}
			}
			got.Traces += float64(len(values)) / trials
		}
		if sd := math.Sqrt(exact.Accept * (1 - exact.Accept) / trials); math.Abs(got.Accept-exact.Accept) > 4*sd {
			t.Errorf("share %g: %.4f simulated, %.4f exact, standard deviation %.4f", p, got.Accept, exact.Accept, sd)
		}
		if math.Abs(got.Traces-exact.Traces) > 4*4/math.Sqrt(trials) {
			t.Errorf("share %g: %.3f traces simulated, %.3f exact", p, got.Traces, exact.Traces)
		}
	}
}
