package params_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/furrow/params"
)

// With 11 waves in 40 005 points no two points stand at the same place of their waves, so that the sorted heights are as
// fine as the points; 5 sections fit.
const (
	closedPoints  = 40005
	closedPeriods = 11
	closedLength  = 4400.0 // so the wavelength is 400
)

// TestClosedForms holds the parameters against the values that follow from the definitions for waveforms of amplitude
// (cusp: height) 1: textbook values for Ra, Rq and Rku, the others derived by integration.
func TestClosedForms(t *testing.T) {
	const k = 2 * math.Pi / 400 // slope of the sine of wavelength 400
	const s = 4.0 / 400         // slope of the triangle
	// The line of the cusp, by least squares on v² for v from 0 to 0.4, meets v = 1 at 0.4 - 0.16/6 above the bottom.
	const cuspPeak = 1 - (0.4 - 0.16/6)
	shapes := map[string]struct {
		wave func(u float64) float64
		want map[string]float64
	}{
		"sine": {sine, map[string]float64{
			"Ra": 2 / math.Pi, "Rq": 1 / math.Sqrt2, "Rsk": 0, "Rku": 1.5, "Rp": 1, "Rv": 1, "Rz": 2, "Rt": 2, "Rzx": 2, "Rpt": 1, "Rvt": 1,
			"Rsm": 400, "Rsmx": 400, "Rsmq": 0, "Rc": 2, "Rcx": 2, "Rcq": 0, "Rpc": 25,
			"Rdq": k / math.Sqrt2, "Rda": s, "Rdt": k, "Rdr": 100 * (k*k/4 - 3*k*k*k*k/64), "Rdl": 4400 * (1 + k*k/4 - 3*k*k*k*k/64),
			"Rmr(0)": 50, "Rmr(0.5)": 100 * math.Acos(0.5) / math.Pi, "Rmr(-0.25)": 100 * math.Acos(-0.25) / math.Pi, "Rmc(25)": math.Sqrt2 / 2, "Rdc(10,80)": 1.760074,
			"Rvmp": 0.00325751, "Rvmc": 0.83105394, "Rvvc": 0.92901957, "Rvvv": 0.02529446, "Rvm(50)": 1 / math.Pi, "Rvv(50)": 1 / math.Pi,
			"Rk": 1.77470207, "Rpk": 0, "Rvk": 0.44391791, "Rmrk1": 0, "Rmrk2": 73.068941, "Rpkx": 0, "Rvkx": 0.337065,
		}},
		"triangle": {triangle, map[string]float64{
			"Ra": 0.5, "Rq": 1 / math.Sqrt(3), "Rsk": 0, "Rku": 1.8, "Rp": 1, "Rv": 1, "Rz": 2, "Rt": 2, "Rsm": 400, "Rc": 2,
			"Rdq": s, "Rda": s, "Rdr": 100 * (math.Sqrt(1+s*s) - 1), "Rdl": 4400 * math.Sqrt(1+s*s),
			"Rmr(0.5)": 25, "Rmc(30)": 0.4, "Rdc(10,80)": 1.4,
			"Rvmp": 0.01, "Rvmc": 0.63, "Rvvc": 0.77, "Rvvv": 0.04,
			"Rk": 2, "Rpk": 0, "Rvk": 0, "Rmrk1": 0, "Rmrk2": 100, "Rak1": 0, "Rak2": 0,
		}},
		"sawtooth": {sawtooth, map[string]float64{
			"Ra": 0.5, "Rq": 1 / math.Sqrt(3), "Rsk": 0, "Rku": 1.8, "Rz": 2, "Rsm": 400, "Rc": 2,
			"Rmr(0.5)": 25, "Rdc(10,80)": 1.4, "Rvmp": 0.01, "Rvmc": 0.63, "Rvvc": 0.77, "Rvvv": 0.04,
			"Rk": 2, "Rpk": 0, "Rvk": 0, "Rmrk1": 0, "Rmrk2": 100,
		}},
		"square": {square, map[string]float64{
			"Ra": 1, "Rq": 1, "Rsk": 0, "Rku": 1, "Rp": 1, "Rv": 1, "Rz": 2, "Rt": 2, "Rsm": 400, "Rc": 2,
			"Rmr(0.5)": 50, "Rmr(1)": 50, "Rdc(10,80)": 2, "Rvmp": 0, "Rvmc": 1, "Rvvc": 1, "Rvvv": 0,
			"Rk": 0, "Rpk": 0, "Rvk": 4, "Rmrk1": 0, "Rmrk2": 50, "Rak2": 1, "Rvkx": 2,
		}},
		"cusp": {cusp, map[string]float64{
			"Ra": 4 / (9 * math.Sqrt(3)), "Rq": 2 / (3 * math.Sqrt(5)), "Rsk": 2 * math.Sqrt(5) / 7, "Rku": 15.0 / 7, "Rp": 2.0 / 3, "Rv": 1.0 / 3, "Rz": 1, "Rt": 1,
			"Rsm": 400, "Rc": 1, "Rmr(0)": 100 * (1 - math.Sqrt(1.0/3)), "Rmr(0.5)": 100 * (1 - math.Sqrt(0.5+1.0/3)), "Rdc(10,80)": 0.77,
			"Rvmp": 0.00933333, "Rvmc": 0.28933333, "Rvvc": 0.48066667, "Rvvv": 0.00533333,
			"Rk": 0.4, "Rpk": 0.57622895, "Rvk": 0, "Rmrk1": 38.898991, "Rmrk2": 100, "Rpkx": cuspPeak, "Rvkx": 0,
		}},
	}
	// What a parameter may miss its continuous value by: with about 3640 points in a wave a corner is missed by up to
	// half a step, 4 · 0.5/3640 of the amplitude, in Rz less than that on average.
	tolerance := func(shape, name string) float64 {
		switch name {
		case "Rmrk1", "Rmrk2":
			return 5e-3 // in %
		case "Rmr(0)", "Rmr(0.5)", "Rmr(1)", "Rmr(-0.25)":
			return 3e-2 // in %: a jump takes the polyline one step, 11 of them 0.0275 %
		case "Rsm", "Rsmx", "Rsmq":
			return 0.2 // one step is 0.1
		case "Rpc":
			return 0.01
		case "Rdl":
			return 1e-2
		case "Rpk", "Rvk", "Rpkx", "Rvkx":
			return 2e-3
		case "Rdq", "Rda", "Rdt", "Rvmp":
			return 5e-5 // themselves about 0.01; the slope near a corner is lost
		}
		return 6e-4
	}
	for name, shape := range shapes {
		t.Run(name, func(t *testing.T) {
			in := params.Input{Z: sampled(closedPoints, closedPeriods, shape.wave), Dx: closedLength / closedPoints, Section: closedPoints / 5}
			for symbol, want := range shape.want {
				v := ask(t, in, "iso-21920", symbol)[symbol]
				holds(t, symbol, v.Value, want, tolerance(name, symbol), "closed form of the "+name+" "+v.Reason)
			}
		})
	}
}

// TestAmplitudesDiscrete uses the sums of sampled sines, which are known exactly: M points in a whole wave give Rq
// exactly from M = 3 on, Rsk from 4, Rku from 5; Ra with points on the zeros and M even is (2/M) cot(π/M).
func TestAmplitudesDiscrete(t *testing.T) {
	for _, m := range []int{8, 20, 100, 800} {
		z := make([]float64, m)
		for i := range z {
			z[i] = math.Sin(2 * math.Pi * float64(i) / float64(m))
		}
		source := fmt.Sprintf("sum of a sine of %d points", m)
		holds(t, "Ra", params.Ra(z), 2/float64(m)/math.Tan(math.Pi/float64(m)), 1e-13, source)
		holds(t, "Rq", params.Rq(z), math.Sqrt(0.5), 1e-13, source)
		holds(t, "Rsk", params.Rsk(z), 0, 1e-13, source)
		holds(t, "Rku", params.Rku(z), 1.5, 1e-13, source)
	}
}

// TestMoments uses waveforms with more than one moment: a two-level profile with a share d at the top, two cosines, the
// rectified sine, the trapezoid of equal quarters. The values follow by integration.
func TestMoments(t *testing.T) {
	for _, d := range []float64{0.1, 0.25} {
		z := sampled(4000, 1, func(u float64) float64 {
			if u < d {
				return 1 - d
			}
			return -d
		})
		q := d * (1 - d)
		source := fmt.Sprintf("two levels, share %g at the top", d)
		holds(t, "Ra", params.Ra(z), 2*q, 1e-12, source)
		holds(t, "Rq", params.Rq(z), math.Sqrt(q), 1e-12, source)
		holds(t, "Rsk", params.Rsk(z), (1-2*d)/math.Sqrt(q), 1e-11, source)
		holds(t, "Rku", params.Rku(z), 1/q-3, 1e-11, source)
		holds(t, "Rp", params.Rp(z, 0), 1-d, 1e-12, source)
		holds(t, "Rv", params.Rv(z, 0), d, 1e-12, source)
	}
	cosines := sampled(4000, 1, func(u float64) float64 { return math.Cos(2*math.Pi*u) + 0.5*math.Cos(4*math.Pi*u) })
	holds(t, "Rsk", params.Rsk(cosines), 0.75*0.5/math.Pow(0.625, 1.5), 1e-12, "two cosines, ¾a₁²a₂/Rq³")
	holds(t, "Rku", params.Rku(cosines), 1.98, 1e-12, "two cosines")
	rectified := sampled(40000, 1, func(u float64) float64 { return math.Abs(math.Sin(math.Pi*u)) - 2/math.Pi })
	holds(t, "Ra", params.Ra(rectified), 0.268034319615, 1e-8, "rectified sine")
	holds(t, "Rq", params.Rq(rectified), 0.307758453061, 1e-8, "rectified sine")
	holds(t, "Rsk", params.Rsk(rectified), -0.497159952645, 1e-7, "rectified sine")
	holds(t, "Rku", params.Rku(rectified), 1.93153483679, 1e-7, "rectified sine")
	trapezoid := sampled(40000, 1, func(u float64) float64 { return math.Max(-1, math.Min(1, 2*triangle(u))) })
	holds(t, "Ra", params.Ra(trapezoid), 0.75, 1e-8, "trapezoid of equal quarters")
	holds(t, "Rq", params.Rq(trapezoid), math.Sqrt(2.0/3), 1e-8, "trapezoid of equal quarters")
	holds(t, "Rku", params.Rku(trapezoid), 1.35, 1e-7, "trapezoid of equal quarters")
	truncated := sampled(40000, 1, func(u float64) float64 { return math.Min(triangle(u), 0) + 0.25 })
	holds(t, "Ra", params.Ra(truncated), 0.28125, 1e-7, "triangle cut at half its height")
	holds(t, "Rq", params.Rq(truncated), math.Sqrt(5.0/48), 1e-7, "triangle cut at half its height")
	holds(t, "Rsk", params.Rsk(truncated), -0.929516, 1e-6, "triangle cut at half its height")
	holds(t, "Rku", params.Rku(truncated), 2.376, 1e-6, "triangle cut at half its height")
	holds(t, "Rvk", params.Rvk(truncated), 1, 1e-3, "triangle cut at half its height")
	holds(t, "Rk", params.Rk(truncated), 0, 1e-12, "triangle cut at half its height")
	holds(t, "Rmrk2", params.Rmrk2(truncated), 50, 1e-2, "triangle cut at half its height")
}

// normalQuantile inverts the standard normal distribution by halving its error function.
func normalQuantile(p float64) float64 {
	lo, hi := -10.0, 10.0
	for range 200 {
		mid := (lo + hi) / 2
		if 0.5*math.Erfc(-mid/math.Sqrt2) < p {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// TestCoreGaussian uses the quantiles of Gaussian heights of Rq 1: the Rk family of 10 000 points, and the continuous
// values, derived from the Gaussian distribution function.
func TestCoreGaussian(t *testing.T) {
	const n = 10000
	z := make([]float64, n)
	for i := range z {
		z[(i*7919)%n] = normalQuantile((float64(i) + 0.5) / n) // the order does not matter
	}
	const source = "Gaussian quantiles, 10 000 points"
	holds(t, "Rk", params.Rk(z), 2.573992, 2e-6, source)
	holds(t, "Rpk", params.Rpk(z), 0.944866, 2e-6, source)
	holds(t, "Rvk", params.Rvk(z), 0.944868, 2e-6, source)
	holds(t, "Rmrk1", params.Rmrk1(z), 9.90474, 2e-5, source)
	holds(t, "Rmrk2", params.Rmrk2(z), 90.09518, 2e-5, source)
	const continuous = "Gaussian distribution"
	holds(t, "Rk", params.Rk(z), 2.57395611, 1e-4, continuous)
	holds(t, "Rak1", params.Rak1(z), 0.0468031, 2e-5, continuous)
	holds(t, "Ra", params.Ra(z), math.Sqrt(2/math.Pi), 1e-4, continuous)
	holds(t, "Rku", params.Rku(z), 3, 1e-2, continuous)
	holds(t, "Rvmp", params.Rvmp(z, 10), 0.04734318, 3e-5, continuous)
	holds(t, "Rvmc", params.Rvmc(z, 10, 80), 0.90591573, 1e-4, continuous)
	holds(t, "Rvvc", params.Rvvc(z, 10, 80), 1.21725707, 1e-4, continuous)
	holds(t, "Rvvv", params.Rvvv(z, 80), 0.11163767, 3e-5, continuous)
}

// TestCorePlateau uses two Gaussian processes, exact on normal paper; values of 10 000 sorted points.
func TestCorePlateau(t *testing.T) {
	const n = 10000
	for _, c := range []struct{ rpq, rvq, rmq, rk, rpk, rvk, mr1, mr2 float64 }{
		{0.2, 1.5, 0.8, 0.51480, 0.18897, 1.6362, 9.905, 81.62},
		{0.5, 2, 0.6, 1.33722, 0.46432, 2.5379, 9.082, 70.01},
	} {
		z := make([]float64, n)
		s0 := normalQuantile(c.rmq)
		for i := range z {
			s := normalQuantile((float64(i) + 0.5) / n)
			slope := c.rpq
			if s > s0 {
				slope = c.rvq
			}
			z[(i*7919)%n] = -slope * (s - s0)
		}
		source := fmt.Sprint("two processes ", c.rpq, c.rvq, c.rmq)
		holds(t, "Rk", params.Rk(z), c.rk, 6e-6, source)
		holds(t, "Rpk", params.Rpk(z), c.rpk, 6e-6, source)
		holds(t, "Rvk", params.Rvk(z), c.rvk, 6e-5, source)
		holds(t, "Rmrk1", params.Rmrk1(z), c.mr1, 6e-4, source)
		holds(t, "Rmrk2", params.Rmrk2(z), c.mr2, 6e-3, source)
	}
}

// TestCorePiecewise uses a material ratio curve of three straight pieces, 5 to 3 on 0-10 %, 3 to 1 on 10-80 %, 1 to -3
// on 80-100 %, whose Rk family follows by hand; and the straight curve.
func TestCorePiecewise(t *testing.T) {
	const n = 20000
	z, straight := make([]float64, n), make([]float64, n)
	for i := range z {
		p := (float64(i) + 0.5) / n
		at := (i * 7919) % n
		switch {
		case p < 0.1:
			z[at] = 5 - 20*p
		case p < 0.8:
			z[at] = 3 - (p-0.1)/0.35
		default:
			z[at] = 1 - 20*(p-0.8)
		}
		straight[at] = 10 - 10*p
	}
	const source = "three straight pieces, by hand"
	holds(t, "Rk", params.Rk(z), 20.0/7, 1e-9, source)
	holds(t, "Rpk", params.Rpk(z), 12.0/7, 1e-3, source)
	holds(t, "Rvk", params.Rvk(z), 24.0/7, 1e-3, source)
	holds(t, "Rmrk1", params.Rmrk1(z), 8.571428571, 1e-6, source)
	holds(t, "Rmrk2", params.Rmrk2(z), 82.857142857, 1e-6, source)
	const straightSource = "a straight curve from 10 to 0 has nothing outside the core"
	holds(t, "Rk", params.Rk(straight), 10, 1e-9, straightSource)
	holds(t, "Rpk", params.Rpk(straight), 0, 1e-9, straightSource)
	holds(t, "Rvk", params.Rvk(straight), 0, 1e-9, straightSource)
	holds(t, "Rmrk1", params.Rmrk1(straight), 0, 1e-9, straightSource)
	holds(t, "Rmrk2", params.Rmrk2(straight), 100, 1e-9, straightSource)
}
