package filter

import (
	"math"
	"runtime"
	"testing"
)

// sincos gives the bits of the standard library where that does not fuse, and stays within its last digits elsewhere.
func TestSincos(t *testing.T) {
	t.Parallel()
	tried := 0
	for x := -40.0; x < 40; x += 0.00917 {
		for _, x := range []float64{x, 1e-9 * x, 1e5 * x, math.Round(x) * math.Pi / 4} {
			sin, cos := sincos(x)
			s, c := math.Sincos(x)
			same := sin == s && cos == c
			if runtime.GOARCH != "amd64" {
				same = math.Abs(sin-s) <= 2e-16 && math.Abs(cos-c) <= 2e-16
			}
			if tried++; !same {
				t.Fatalf("sincos(%v) = %v, %v, want %v, %v", x, sin, cos, s, c)
			}
		}
	}
	if tried < 30000 {
		t.Errorf("%d angles", tried)
	}
}
