package params_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// Arguments of any size give a value or a reason; those that make no sense are refused by name.
func TestRareArguments(t *testing.T) {
	names := map[string][]string{
		"iso-21920":      {"Ral(0)", "Ral(0.99)", "RPc(1e300,-1e300)", "RPc(0,0)", "RPc(-1,-2)"},
		"iso-12085":      {"R(1e300)", "R(1e-300)", "AR(50)", "Rx(2500)", "Nr(1)", "Rke(1e-300)", "Rke(1e300)", "Mr2e(20)"},
		"asme-b46.1":     {"Pc", "Pc(2)", "Pc(2,-1)", "HSC(1e300)", "HSC(-1e300)", "tp(0)", "tp(1e300)", "Htp(0,100)", "Htp(20)"},
		"jis-b0601-1994": {"tp(0.1)", "Rz", "S", "Ry", "Ra75"},
		"iso-4287":       {"λa", "lambdaa", "λq", "Lo", "lr", "D", "S"},
	}
	for edition, list := range names {
		for _, name := range list {
			call, err := params.Lookup(standards.EditionID(edition), 'R', name)
			if err != nil {
				t.Error(err)
				continue
			}
			for seed := uint64(0); seed < 5; seed++ {
				rng := rand.New(rand.NewPCG(seed, 20))
				checkRare(t, &params.Input{Z: walk(rng, 50+rng.IntN(1000)), Dx: 1, Section: 100}, []params.Call{call})
			}
		}
	}
	for _, c := range []params.Call{lookup(t, "iso-12085", 'W', "W(1e300,1e300)"), lookup(t, "iso-12085", 'W', "Wte(1e-300,1e-300)"), lookup(t, "iso-12085", 'W', "AW(100)")} {
		checkRare(t, &params.Input{Z: seededWalk(1, 800), Dx: 1}, []params.Call{c})
	}
	for _, refused := range [][2]string{
		{"iso-21920", "Ral(1)"}, {"iso-21920", "Ral(-0.1)"}, {"iso-12085", "R(0)"}, {"iso-12085", "R(-5)"}, {"iso-12085", "R(5,5)"},
		{"asme-b46.1", "tp"}, {"asme-b46.1", "tp(-1)"}, {"asme-b46.1", "Htp(80,10)"}, {"asme-b46.1", "Pc(-1)"}, {"iso-21920", "RPc(1)"},
		{"iso-21920", "R"}, {"iso-12085", "Ra"}, {"jis-b0601-1982", "RzJIS"},
	} {
		if c, err := params.Lookup(standards.EditionID(refused[0]), 'R', refused[1]); err == nil {
			t.Errorf("%s of %s is taken as %s", refused[1], refused[0], c.Parameter.Key)
		}
	}
}

func lookup(t *testing.T, edition standards.EditionID, letter byte, name string) params.Call {
	t.Helper()
	c, err := params.Lookup(standards.EditionID(edition), letter, name)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// A public student exercise: the ten-point height is not the total height.
func ExampleRzJIS() {
	z := []float64{35, 22, 38, 26, 35, 18, 43, 28, 32, 21, 39, 26, 41, 22, 29, 18, 36, 16}
	for i := range z {
		z[i] -= 525.0 / 18
	}
	fmt.Printf("%.1f %.1f\n", params.RzJIS(z, 0), params.Rt(z))
	// Output: 20.4 27.0
}

// Two peaks leave a band of ±0.5 µm on a trace of 100 µm: 200 on 10 mm.
func ExampleRPcBand() {
	z := []float64{0, 0.8, 0.2, 0.9, -0.7, 0.4, 0.6, 0.1, -0.6, 0.3}
	fmt.Println(params.RPcBand(z, 10, 0.5, -0.5))
	// Output: 200
}

// Heights on two straight lines of normal paper, like those of a plateau-honed bore.
func ExampleFitProbability() {
	const n = 2000
	quantile := func(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }
	kink := quantile(0.8)
	z := make([]float64, n)
	for i := range z {
		s := quantile((float64(i) + 0.5) / n)
		if s < kink {
			z[i] = 0.2 * (kink - s)
		} else {
			z[i] = 1.5 * (kink - s)
		}
	}
	p, _ := params.FitProbability(z)
	fmt.Printf("Rpq %.3f Rvq %.3f Rmq %.1f %%\n", p.Rpq, p.Rvq, p.Rmq)
	// Output: Rpq 0.200 Rvq 1.500 Rmq 80.0 %
}

// A wave of 250 µm under a weaker one of 40 µm.
func ExampleRsw() {
	z := make([]float64, 4000)
	for i := range z {
		z[i] = math.Sin(2*math.Pi*float64(i)/250) + 0.4*math.Sin(2*math.Pi*float64(i)/40)
	}
	fmt.Printf("%.0f\n", params.Rsw(z, 1))
	// Output: 250
}
