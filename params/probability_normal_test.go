package params

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// An internal test: the two functions have no name outside.
func TestNormalAgainstLibrary(t *testing.T) {
	data, err := os.ReadFile("../testdata/params/second.json")
	if err != nil {
		t.Fatal(err)
	}
	var golden struct {
		Libraries       string
		Quantile, Share [][2]float64
	}
	if err := json.Unmarshal(data, &golden); err != nil {
		t.Fatal(err)
	}
	for _, g := range golden.Quantile {
		// Both are good to about 1e-16; the library's own algorithm is another one.
		if got := normalQuantile(g[0]); math.Abs(got-g[1]) > 4e-15*math.Max(1, math.Abs(g[1])) {
			t.Errorf("quantile of %v = %v, want %v (%s)", g[0], got, g[1], golden.Libraries)
		}
	}
	for _, g := range golden.Share {
		if got := normalShare(g[0]); math.Abs(got-g[1]) > 1e-13*g[1] {
			t.Errorf("share below %v = %v, want %v (%s)", g[0], got, g[1], golden.Libraries)
		}
	}
}

func TestNormalRoundTrip(t *testing.T) {
	for i := 1; i < 2000; i++ {
		p := float64(i) / 2000
		if got := normalShare(normalQuantile(p)); math.Abs(got-p) > 1e-15 {
			t.Errorf("Φ(Φ⁻¹(%v)) = %v", p, got)
		}
		if a, b := normalQuantile(p), normalQuantile(1-p); math.Abs(a+b) > 1e-12 {
			t.Errorf("quantiles of %v and its complement: %v, %v", p, a, b)
		}
	}
	// The standard library is good to the last digit or two on this platform.
	for x := -37.0; x < 37; x += 0.37 {
		want := math.Erfc(-x/math.Sqrt2) / 2
		if got := normalShare(x); math.Abs(got-want) > 1e-12*want { // far out, the square of x loses three digits
			t.Errorf("Φ(%v) = %v, want %v", x, got, want)
		}
	}
	for x := -690.0; x <= 0; x += 0.7 {
		if got, want := exponential(x), math.Exp(x); math.Abs(got-want) > 1e-15*want+1e-300 {
			t.Errorf("exp(%v) = %v, want %v", x, got, want)
		}
	}
	if !math.IsInf(normalQuantile(0), -1) || !math.IsInf(normalQuantile(1), 1) || !math.IsNaN(normalQuantile(-0.1)) || !math.IsNaN(normalQuantile(1.0000001)) || !math.IsNaN(normalQuantile(2)) || !math.IsNaN(normalQuantile(math.NaN())) {
		t.Error("ends of the quantile")
	}
}

// The far tail, where r is above 5: the quantile of the share is the number again, by the standard library's erfc.
func TestNormalFarTail(t *testing.T) {
	for x := -6.3; x > -37; x -= 0.13 {
		p := math.Erfc(-x/math.Sqrt2) / 2
		// A share good to 1e-13 gives a quantile good to 1e-13 over its slope, which is near |x|.
		if got := normalQuantile(p); math.Abs(got-x) > 1e-12 {
			t.Errorf("quantile of %g = %.15g, want %.15g (math.Erfc)", p, got, x)
		}
	}
}
