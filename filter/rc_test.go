package filter_test

import (
	"math"
	"math/cmplx"
	"testing"

	"example.com/furrow/filter"
)

// |H|, phase in degrees, |H| with A = 3.64, and the phase-corrected filter of 50 %, from the closed forms (derived).
func TestTwoRCResponse(t *testing.T) {
	for _, c := range []struct{ wavelength, size, degrees, printed, half float64 }{
		{0.25, 0.979592, 16.4264, 0.979455, 0.941176}, {1. / 3, 0.964286, 21.7868, 0.964050, 0.9}, {0.5, 0.923077, 32.2042, 0.922591, 0.8},
		{0.8, 0.824176, 49.5826, 0.823185, 0.609756}, {1, 0.75, 60, 0.748718, 0.5}, {1.25, 0.657534, 71.6351, 0.655996, 0.390244},
		{2, 0.428571, 98.2132, 0.426901, 0.2}, {3, 0.25, 120, 0.248722, 0.1}, {5, 0.107143, 141.7868, 0.106492, 0.038462},
	} {
		size, lead := filter.TwoRC{Cutoff: 1}.Response(c.wavelength)
		near(t, "|H|", size, c.size, 6e-7, "closed form")
		near(t, "phase", lead*180/math.Pi, c.degrees, 6e-5, "closed form")
		printed, _ := filter.TwoRC{Cutoff: 1, Constant: 3.64}.Response(c.wavelength)
		near(t, "|H| with A = 3.64", printed, c.printed, 6e-7, "closed form")
		near(t, "R of 50 %", 1-filter.TwoRCZeroPhase{Cutoff: 1, Percent: 50}.Transmission(c.wavelength), c.half, 6e-7, "closed form")
		near(t, "R of 75 %", 1-filter.TwoRCZeroPhase{Cutoff: 1}.Transmission(c.wavelength), c.size, 6e-7, "closed form")
	}
	// The long-wave part exceeds the profile most at 2.449 cut-offs.
	near(t, "peak of |1-H|", filter.TwoRC{Cutoff: 1}.Transmission(math.Sqrt(6)), 1.154701, 6e-7, "closed form")
}

// What a sine at the cut-off shows after the run-up: 75 % and 60 degrees at every spacing, thanks to pre-warping.
func TestTwoRCPrewarped(t *testing.T) {
	for _, m := range []int{20, 50, 160, 1600} {
		z := sine(12*m, 1, float64(m), 0)
		w := apply(t, filter.TwoRC{Cutoff: float64(m)}, z, 1)
		var h complex128
		for i := 9 * m; i < 11*m; i++ {
			h += complex(z[i]-w[i], 0) * cmplx.Exp(complex(0, -2*math.Pi*float64(i)/float64(m))) * complex(0, 1/float64(m))
		}
		near(t, "|H(λc)|", cmplx.Abs(h), 0.75, 1e-9, "derived; 0.6590 for backward differences at 20 samples")
		near(t, "phase", cmplx.Phase(h)*180/math.Pi, 60, 1e-7, "derived")
	}
}

// A step and a ramp of slope 1 in a cut-off, from the start: (1-u)·e^(-u) with u = A·x/λc, and its integral.
func TestTwoRCStepAndRamp(t *testing.T) {
	const m = 4000
	step, ramp := make([]float64, 4*m), make([]float64, 4*m)
	for i := range step {
		if i > 0 {
			step[i] = 1
		}
		ramp[i] = float64(i) / m
	}
	f := filter.TwoRC{Cutoff: m}
	w := apply(t, f, step, 1)
	for _, c := range []struct{ x, r float64 }{
		{0.5, -0.132677}, {1, -0.069841}, {1.5, -0.019246}, {2, -0.004419}, {2.5, -0.000929}, {3, -0.000186}, {0.5513, -0.135335},
	} {
		i := int(math.Round(c.x * m))
		near(t, "step", (step[i]-w[i]+step[i+1]-w[i+1])/2, c.r, 2e-6, "closed form; the step stands half a sample before")
	}
	w = apply(t, f, ramp, 1)
	for _, c := range []struct{ x, r float64 }{{0.2757, 0.101411}, {1, 0.026580}, {2, 0.001413}} {
		i := int(math.Round(c.x * m))
		near(t, "ramp", ramp[i]-w[i], c.r, 2e-6, "closed form")
	}
	if head, tail := f.Trim(len(step), 1); head != 2*m || tail != 0 {
		t.Errorf("Trim = %d, %d", head, tail)
	}
}

// S(x)·λc, one-sided, and its zero crossing at 0.551329 cut-offs.
func TestTwoRCWeights(t *testing.T) {
	const m = 8000
	x, w := weights(t, filter.TwoRC{Cutoff: m}, 4*m, 0)
	half := len(x) / 2
	for _, c := range []struct{ x, s float64 }{
		{.1, 4.132254}, {.2, 2.238016}, {.3, 1.113902}, {.5, 0.110123}, {1, -0.156935}, {2, -0.013468}, {0.551329, 0},
	} {
		near(t, "S·λc", w[half-int(math.Round(c.x*m))]*m, c.s, 3e-3, "closed form, spacing 1/8000")
	}
	for i := range half {
		if w[half+1+i] != 0 {
			t.Fatalf("weight %g for a point %v ahead", w[half+1+i], x[half+1+i])
		}
	}
}

// The recursion from both sides against plain sums of the weights and their moments.
func TestTwoRCZeroPhasePlain(t *testing.T) {
	z := rough(200, 6)
	for _, percent := range []float64{75, 50} {
		for _, m := range []float64{2, 3.5, 4, 8, 60, 700} {
			f := filter.TwoRCZeroPhase{Cutoff: m, Percent: percent}
			_, h := weights(t, f, int(4*m), int(4*m))
			half := len(h) / 2
			w := apply(t, f, z, 1)
			for i := range z {
				var s0, s1, s2, t0, t1 float64
				for j := range z {
					u := float64(j - i)
					if k := half + j - i; k >= 0 && k < len(h) {
						s0, s1, s2 = s0+h[k], s1+h[k]*u, s2+h[k]*u*u
						t0, t1 = t0+h[k]*z[j], t1+h[k]*u*z[j]
					}
				}
				want := (t0*s2 - t1*s1) / (s0*s2 - s1*s1)
				tol := 1e-10
				if m < 100 {
					tol = 1e-5 // the weights shown end at four cut-offs
				}
				if m > 2 {
					near(t, "w", w[i], want, tol, "plain sums")
				}
			}
		}
	}
}
