package filter

import (
	"math"
	"runtime"
	"slices"
	"testing"
)

// noise is a profile that needs no package to make.
func noise(n int) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = math.Sin(float64(i)/37) + 0.3*math.Cos(float64(i*i%10007)) + 1e-6*float64(i)
	}
	return z
}

// Blocks of a long profile on several cores give the same bits as one after the other.
func TestCoresGiveTheSameBits(t *testing.T) {
	z := noise(3*manyPoints + 17)
	for _, f := range []Filter{Gaussian{Cutoff: 160}, Gaussian{Cutoff: 20000}, Gaussian{Cutoff: 300, Ends: Linear}, RobustGaussian{Cutoff: 400, Passes: 3}} {
		before := runtime.GOMAXPROCS(1)
		one, err := f.Apply(nil, z, 1)
		runtime.GOMAXPROCS(4)
		four, other := f.Apply(nil, z, 1)
		runtime.GOMAXPROCS(before)
		if err != nil || other != nil || !slices.Equal(one, four) {
			t.Errorf("%#v: one core and four differ (%v, %v)", f, err, other)
		}
	}
}

// Rows of the spline's triangle that are copied are those that would be computed: equal weights stated take no short cut.
func TestRepeatedRows(t *testing.T) {
	for _, c := range []struct {
		cutoff, tension float64
		n               int
	}{{20, 0, 3}, {20, 0, 5}, {20, 0, 400}, {20, 0.6, 400}, {160, 0, 5000}, {160, 1, 5000}, {1600, 0, 30000}} {
		s := Spline{Cutoff: c.cutoff, Tension: c.tension}.stiffness(1, nil, c.n)
		short := s.factor(c.n)
		s.weight = slices.Repeat([]float64{1}, c.n)
		long := s.factor(c.n)
		if !slices.Equal(short.r0, long.r0) || !slices.Equal(short.r1, long.r1) || !slices.Equal(short.r2, long.r2) {
			t.Errorf("%+v: copied rows differ from computed ones", c)
		}
	}
}

// A window of tens of thousands of points goes through larger blocks, with the same result as plain sums.
func TestLongWindow(t *testing.T) {
	z := noise(100000)
	w, err := Gaussian{Cutoff: 16000}.Apply(nil, z, 1)
	if err != nil {
		t.Fatal(err)
	}
	k := newWindow(16000, 1, 1, len(z)-1).interior(1)
	plain := make([]float64, 1)
	for _, i := range []int{16000, 31313, 50000, 83999} {
		if correlateDirect(plain, z, i, i+1, k); math.Abs(plain[0]-w[i]) > 1e-13 {
			t.Errorf("point %d: %v, plain sums %v", i, w[i], plain[0])
		}
	}
	size := blockSize(len(z), 1, 32000)
	if step := size - 2*32000; step < 32000 {
		t.Errorf("blocks of %d points yield %d each", size, step)
	}
}
