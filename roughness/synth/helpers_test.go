package synth_test

import (
	"math"
	"testing"

	"example.com/furrow/roughness/synth"
)

// moments are the values that need no rules: plain means over the samples.
func moments(z []float64) (mean, ra, rq, rsk, rku float64) {
	n := float64(len(z))
	for _, h := range z {
		mean += h / n
	}
	var s2, s3, s4 float64
	for _, h := range z {
		h -= mean
		ra += math.Abs(h) / n
		s2 += h * h / n
		s3 += h * h * h / n
		s4 += h * h * h * h / n
	}
	rq = math.Sqrt(s2)
	return mean, ra, rq, s3 / (rq * rq * rq), s4 / (s2 * s2)
}

func extent(z []float64) (low, high float64) {
	low, high = z[0], z[0]
	for _, h := range z {
		low, high = math.Min(low, h), math.Max(high, h)
	}
	return low, high
}

func known(t *testing.T, s synth.Shape, symbol string) float64 {
	t.Helper()
	v, ok := synth.Value(s, symbol)
	if !ok {
		t.Fatalf("%T does not know %s", s, symbol)
	}
	return v
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g within %g", what, got, want, tolerance)
	}
}
