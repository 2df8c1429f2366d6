package instrument_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/synth"
)

var coverage = flag.Int("coverage", 20, "simulated instruments for each surface and influence; the figures of DEVELOPERS.md are of 600")

// An instrument as the budget knows it, with errors drawn from what is stated: it was adjusted with a specimen whose certificate is off, on a
// mean of five traces that scatter; its gain has drifted since; its tip is larger or smaller, its filters and its drive are a little off, and
// it adds noise. What it shows of a surface, with the uncertainty of its budget, holds the value that an instrument without errors shows in
// 95 of 100 cases (JCGM 100:2008, 6.2, with k for 95.45 %; JCGM 101:2008, the propagation of distributions; both from memory).
func TestBudgetCoverage(t *testing.T) {
	set := &roughness.Settings{Long: gaussian(250)}
	surfaces := map[string]synth.Sum{
		"ground":  {synth.Correlated{Sigma: 0.4, Length: 12, Seed: 1}, synth.Correlated{Sigma: 0.15, Length: 4, Seed: 2}},
		"turned":  {synth.Sine{Amplitude: 1.2, Wavelength: 83}, synth.Correlated{Sigma: 0.08, Length: 5, Seed: 3}},
		"plateau": {synth.Correlated{Sigma: 0.5, Length: 15, Seed: 4}, synth.Correlated{Sigma: 0.05, Length: 4, Seed: 5}},
	}
	for _, c := range []struct {
		name, symbol         string
		certificate, repeats float64 // U and s, shares of the certified value
		drift, noise         float64 // share; Rq, µm
		tip, cutoffs, travel float64 // µm, shares
	}{
		{"all", "Rz", 0.02, 0.005, 0.005, 0.02, 0.5, 0.01, 0.003},
		{"all", "Ra", 0.02, 0.005, 0.005, 0.02, 0.5, 0.01, 0.003},
		{"certificate", "Rz", 0.03, 0.01, 0, 0, 0, 0, 0},
		{"noise", "Rz", 0.005, 0, 0, 0.06, 0, 0, 0},
		{"drift", "Ra", 0.005, 0, 0.03, 0, 0, 0, 0},
	} {
		if *coverage < 50 && c.name != "all" {
			continue
		}
		for name, s := range surfaces {
			t.Run(c.name+" "+c.symbol+" "+name, func(t *testing.T) {
				r := rand.New(rand.NewPCG(11, uint64(len(name))<<16+uint64(name[0])<<8+uint64(len(c.name))))
				const fine = 0.1 // µm between the points of the surface
				z := s.Heights(15400, fine)
				if name == "plateau" {
					for i, v := range z {
						if v > 0.2 {
							z[i] = 0.2 + 0.2*(v-0.2)
						}
					}
				}
				const radius = 2.0
				followed := map[float64][]float64{}
				traced := func(radius, travel float64) []float64 { // 3 000 points at 0.5 µm, as far as the drive knows
					if followed[radius] == nil {
						out, err := filter.Tip{Radius: radius}.Trace(nil, z, fine)
						if err != nil {
							t.Fatal(err)
						}
						followed[radius] = out
					}
					out, all := make([]float64, 3000), followed[radius]
					for i := range out {
						x := float64(len(all)-1)/2 + (float64(i)-1499.5)*0.5*(1+travel)/fine
						k := int(x)
						out[i] = all[k] + (x-float64(k))*(all[k+1]-all[k])
					}
					return out
				}
				nominal := traced(radius, 0)
				truth := value(t, evaluate(t, nominal, 0.5, set), c.symbol)
				inside := 0
				for range *coverage {
					uniform := func(half float64) float64 { return half * (2*r.Float64() - 1) }
					const n = 5
					mean, sum := 0.0, 0.0
					var reps [n]float64
					for i := range reps {
						reps[i] = c.repeats * r.NormFloat64()
						mean += reps[i] / n
					}
					for _, v := range reps {
						sum += (v - mean) * (v - mean)
					}
					gain := 1 + c.certificate/2*r.NormFloat64() + mean + uniform(c.drift)
					shown := traced(radius+math.Round(10*uniform(c.tip))/10, uniform(c.travel))
					for i, v := range shown {
						shown[i] = v*gain + c.noise*r.NormFloat64()
					}
					own := *set
					own.Long.Spec.Cutoff *= 1 + uniform(c.cutoffs)
					own.SectionLength = 250
					got := value(t, evaluate(t, shown, 0.5, &own), c.symbol)
					in := instrument.BudgetInput{TipTolerance: c.tip, CutoffShare: c.cutoffs, TravelShare: c.travel}
					in.CertificateValue, in.CertificateU, in.DriftShare = 1, c.certificate, c.drift
					if in.SpecimenS = math.Sqrt(sum / (n - 1)); in.SpecimenS > 0 {
						in.SpecimenN = n
					}
					if c.noise > 0 { // what a flat shows
						flat := make([]float64, len(shown))
						for i := range flat {
							flat[i] = c.noise * r.NormFloat64()
						}
						in.NoiseRq = value(t, evaluate(t, flat, 0.5, set), "Rq")
					}
					b, err := instrument.BudgetOn(t.Context(), roughness.Profile{Z: shown, Spacing: 0.5}, set, c.symbol, in)
					if err != nil {
						t.Fatal(err)
					}
					if math.Abs(got-truth) <= b.Result.Expanded {
						inside++
					}
				}
				share := 100 * float64(inside) / float64(*coverage)
				t.Logf("%s, %s of a %s surface: %.1f %% of %d, standard error %.1f %%", c.name, c.symbol, name, share, *coverage, math.Sqrt(share*(100-share)/float64(*coverage)))
				if slack := 300 * math.Sqrt(0.05*0.95/float64(*coverage)); share < 95-2-slack || share > 95+2+slack {
					t.Errorf("%s, %s of a %s surface: %.1f %% inside", c.name, c.symbol, name, share)
				}
			})
		}
	}
}
