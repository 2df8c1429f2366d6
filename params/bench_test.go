package params_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/params"
)

// ground returns a profile like that of a ground surface: noise smoothed over a few points, and a wave.
func ground(n int) []float64 {
	rng := rand.New(rand.NewPCG(1, 1))
	z := make([]float64, n)
	for i := range z {
		z[i] = rng.NormFloat64()
	}
	for range 3 {
		for i := range z {
			z[i] = (z[max(0, i-2)] + z[max(0, i-1)] + z[i] + z[min(n-1, i+1)] + z[min(n-1, i+2)]) / 5
		}
	}
	for i := range z {
		z[i] += 0.2 * math.Sin(2*math.Pi*float64(i)/777)
	}
	return minus(z, average(z))
}

// BenchmarkCatalogue evaluates all that ISO 21920 has for the roughness profile.
func BenchmarkCatalogue(b *testing.B) {
	for _, n := range []int{8000, 100000, 1000000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			in := params.Input{Z: ground(n), Dx: 0.5, Section: n / 5}
			calls := params.Defaults("iso-21920", 'R')
			b.ReportAllocs()
			for b.Loop() {
				params.Evaluate(&in, calls...)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/point")
		})
	}
}

// BenchmarkParameter evaluates each parameter by itself, with the work it shares.
func BenchmarkParameter(b *testing.B) {
	in := params.Input{Z: ground(8000), Dx: 0.5, Section: 1600}
	for _, c := range params.Defaults("iso-21920", 'R') {
		b.Run(c.Symbol, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				params.Evaluate(&in, c)
			}
		})
	}
}
