package params_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/furrow/params"
)

// twoLines returns heights that lie on two straight lines on normal paper, slopes -rpq and -rvq, with the kink at the
// ratio rmq and the height 0 (exact by construction).
func twoLines(n int, rpq, rvq, rmq float64) []float64 {
	kink := distuv.UnitNormal.Quantile(rmq)
	z := make([]float64, n)
	for i := range z {
		s := distuv.UnitNormal.Quantile((float64(i) + 0.5) / float64(n))
		if s <= kink {
			z[i] = -rpq * (s - kink)
		} else {
			z[i] = -rvq * (s - kink)
		}
	}
	return z
}

func TestProbabilityOfTwoLines(t *testing.T) {
	const source = "two exact lines on normal paper"
	for _, c := range [][3]float64{{0.2, 1.5, 0.8}, {0.5, 2, 0.6}, {0.1, 1, 0.9}, {0.3, 3, 0.5}, {0.1, 1, 0.97}, {0.4, 0.7, 0.2}} {
		z := twoLines(8000, c[0], c[1], c[2])
		rand.New(rand.NewPCG(1, 1)).Shuffle(len(z), func(i, k int) { z[i], z[k] = z[k], z[i] })
		holds(t, "Rpq", params.Rpq(z), c[0], 1e-12, source)
		holds(t, "Rvq", params.Rvq(z), c[1], 1e-12, source)
		holds(t, "Rmq", params.Rmq(z), 100*c[2], 1e-10, source)
		// The heights of the reference line and their unit do not matter.
		for i := range z {
			z[i] = 39.37*z[i] + 7
		}
		holds(t, "Rpq scaled", params.Rpq(z), 39.37*c[0], 1e-10, source)
		holds(t, "Rvq scaled", params.Rvq(z), 39.37*c[1], 1e-10, source)
		holds(t, "Rmq scaled", params.Rmq(z), 100*c[2], 1e-8, source)
	}
}

// The lower of two normal processes is not two exact lines: the plateau comes out a few percent rough. The wanted values
// are those of an independent prototype of the same steps, which lay within the scatter of chance given here: six
// profiles of 8000 heights scatter by about 2 % in Rpq, 5 % in Rvq and 1.5 in Rmq, and the tolerance is three of each.
func TestProbabilityOfTwoProcesses(t *testing.T) {
	tests := []struct{ plateau, valley, offset, rpq, rvq, rmq float64 }{
		{0.2, 1.5, 1.2, 0.216, 1.49, 83.9},
		{0.3, 2, 2, 0.319, 1.85, 88.7},
		{0.5, 3, 2.5, 0.535, 2.94, 85.4},
	}
	for _, tt := range tests {
		for seed := uint64(0); seed < 6; seed++ {
			rng := rand.New(rand.NewPCG(seed, 1))
			z := make([]float64, 8000)
			for i := range z {
				z[i] = min(tt.plateau*rng.NormFloat64(), tt.offset+tt.valley*rng.NormFloat64())
			}
			const source = "prototype of the same steps"
			holds(t, "Rpq", params.Rpq(z), tt.rpq, 0.06*tt.rpq, source)
			holds(t, "Rvq", params.Rvq(z), tt.rvq, 0.15*tt.rvq+0.1, source)
			holds(t, "Rmq", params.Rmq(z), tt.rmq, 4.5, source)
		}
	}
}

func TestProbabilityUndefined(t *testing.T) {
	normal := make([]float64, 8000)
	rng := rand.New(rand.NewPCG(1, 1))
	for i := range normal {
		normal[i] = rng.NormFloat64()
	}
	convex := twoLines(4000, 0.2, 1.5, 0.8)
	for i := range convex {
		convex[i] = -convex[i] // peaks on a smooth ground: steep first, flat after
	}
	wave := make([]float64, 4000)
	for i := range wave {
		wave[i] = math.Sin(float64(i) / 10)
	}
	plateau := make([]float64, 1000)
	for i := range 200 {
		plateau[i] = -float64(i)
	}
	for name, z := range map[string][]float64{
		"one process": normal, "convex": convex, "sine": wave, "few": normal[:99], "flat": make([]float64, 500),
	} {
		for symbol, v := range ask(t, params.Input{Z: z, Dx: 1}, "iso-21920", "Rpq", "Rvq", "Rmq") {
			if !math.IsNaN(v.Value) || v.Reason == "" {
				t.Errorf("%s: %s = %v, %q", name, symbol, v.Value, v.Reason)
			}
		}
	}
	// An exactly level plateau is a straight part of slope 0, up to rounding.
	for symbol, v := range ask(t, params.Input{Z: plateau, Dx: 1}, "iso-21920", "Rpq", "Rvq", "Rmq") {
		if math.IsNaN(v.Value) == (v.Reason == "") {
			t.Errorf("level plateau: %s = %v, %q", symbol, v.Value, v.Reason)
		}
	}
}

func TestProbabilityInvariants(t *testing.T) {
	for seed := uint64(0); seed < 200; seed++ {
		rng := rand.New(rand.NewPCG(seed, 2))
		z := make([]float64, 400+rng.IntN(2000))
		for i := range z {
			z[i] = min(0.3*rng.NormFloat64(), 1.5+2*rng.NormFloat64())
		}
		sorted := slices.Clone(z)
		slices.SortFunc(sorted, func(a, b float64) int { return cmp.Compare(b, a) })
		p, reason := params.FitProbability(sorted)
		if p == nil {
			if reason == "" {
				t.Fatalf("seed %d: neither fit nor reason", seed)
			}
			continue
		}
		if !(p.Rvq > p.Rpq && p.Rpq >= 0 && p.Rmq > 0 && p.Rmq < 100) {
			t.Fatalf("seed %d: Rpq %v, Rvq %v, Rmq %v", seed, p.Rpq, p.Rvq, p.Rmq)
		}
		if !(p.Upper < p.PlateauEnd && p.PlateauEnd <= p.DaleStart && p.DaleStart < p.Lower) {
			t.Fatalf("seed %d: limits %v %v %v %v", seed, p.Upper, p.PlateauEnd, p.DaleStart, p.Lower)
		}
		for i := 1; i < len(p.Z); i++ {
			if p.Z[i] > p.Z[i-1] {
				t.Fatalf("seed %d: the curve rises", seed)
			}
		}
	}
}
