package selfcheck

import (
	"math"

	"example.com/furrow/params"
	"example.com/furrow/roughness/synth"
)

// The reasons of tolerances that several sets share.
const (
	steps    = "a wave has 3637 points: a corner or crest is missed by up to half a step, and a ratio comes in whole steps"
	rounding = "rounding"
	digits   = "half a unit of the last digit given"
)

// sets are the sets of an area.
func sets(area string) []set {
	return map[string]func() []set{"params": parameterSets, "filter": filterSets, "standards": standardSets, "roughness": roughnessSets}[area]()
}

var deviations = []float64{-4.1, -2.2, -0.5, 1.2, 3.3, 4.6, 5.1, 2.1, 5.7, 0.2, -8.1, 3.6, -3.1, 1.2, 0.5, 2.2, 4.1, 2.5, 7.2, -2.3, 5.1, 7.3, 4.5, 1.7, -0.2,
	-1.2, -3.3, -4.6, -5.0, -2.2, -1.1, 0.8, 3.2, -0.1, -4.8, 7.2, -4.7, 1.2, 2.3, 0.5, 5.7, -0.2, 5.1, 4.6, -3.1, 1.2, 0.5, 5.2, 4.1, 2.5, 7.2, -2.3, 5.1, 7.3, 4.5, 1.7}

// exercise is a list of peak and trough heights of a public student exercise.
var exercise = []float64{35, 22, 38, 26, 35, 18, 43, 28, 32, 21, 39, 26, 41, 22, 29, 18, 36, 16}

func parameterSets() []set {
	list := []set{
		{"sine", "a sine of amplitude 1 and wavelength 400", "textbook values of the sine, the others by integration; k = 2π/400", ClosedForm, steps, wave(sine), `
		Ra          0.636619772368   6e-4  2/π
		Rq          0.707106781187 6e-4  1/√2
		Rsk         0     6e-4
		Rku         1.5   6e-4
		Rp          1     6e-4
		Rv          1     6e-4
		Rz          2     6e-4
		Rt          2     6e-4
		Rzx         2     6e-4
		Rpt         1     6e-4
		Rvt         1     6e-4
		Rsm         400   0.2
		Rsmx        400   0.2
		Rsmq        0     0.2
		Rc          2     6e-4
		Rcx         2     6e-4
		Rcq         0     6e-4
		Rpc         25    0.01
		Rdq         0.0111072073454 5e-5 k/√2
		Rda         0.01  5e-5  4/400
		Rdt         0.0157079632679 5e-5  k
		Rdr         0.00616821740183 6e-4 complete elliptic integral of the second kind
		Rdl         4400.27140157 1e-2 complete elliptic integral of the second kind
		Rmr(0)      50    3e-2
		Rmr(0.5)    33.3333333333 3e-2 arccos(0.5)/π
		Rmr(-0.25)  58.0430623255 3e-2 arccos(-0.25)/π
		Rmr(20,0.5) 40 3e-2 arccos(cos 0.2π - 0.5)/π
		Rmc(25)     0.707106781187 6e-4 √2/2
		Rdc(10,80)  1.76007351067 6e-4 cos 0.1π - cos 0.8π
		Rvmp        0.00325751267883 5e-5 (sin πp)/π - p cos πp at 10 %
		Rvmc        0.831053939579 6e-4
		Rvvc        0.929019571091 6e-4
		Rvvv        0.0252944578827 6e-4
		Rvm(50)     0.318309886184 6e-4 1/π
		Rvv(50)     0.318309886184 6e-4 1/π
		Rk          1.77470207 6e-4 least-squares line over the first 40 %
		Rpk         0     2e-3
		Rvk         0.44391791 2e-3 twice the area below the core over its width
		Rmrk1       0     5e-3
		Rmrk2       73.068941 5e-3
		Rpkx        0     2e-3
		Rvkx        0.337065 2e-3
		R5p         1     6e-4
		R5v         1     6e-4
		R10z        2     6e-4
		Rpd         2.5   1e-9  one peak a wave
		Rvd         2.5   1e-9  one pit a wave
		Rmpc        0.246740110027 6e-4 k² in 1/mm
		Rmvc        0.246740110027 6e-4 k² in 1/mm
		Rsw         400   1e-9
		iso-21920:RPc(0.5,-0.5) 25 1e-9 11 waves in 4.4 mm
		asme-b46.1:Pc           25 1e-9 11 waves in 4.4 mm
		asme-b46.1:HSC          25 1e-9 11 waves in 4.4 mm
		asme-b46.1:λa           400 0.2 λa = λ of a sine
		asme-b46.1:λq           400 0.2 λq = λ of a sine
		iso-4287:lr             1.00006168217 1e-7
	`},
		{"ten waves", "a sine of amplitude 1.5, ten waves of 100 points 2 apart", "by hand; the curvature as the seven-point formula sees it, (490 - 540 cos θ + 54 cos 2θ - 4 cos 3θ)/180θ² of it", ClosedForm, rounding, on(shape(1000, 0, 0.01, func(u float64) float64 { return 1.5 * sine(u) }), 2, 1), `
		R5p  1.5 1e-12
		R5v  1.5 1e-12
		R10z 3   1e-12
		Rpd  5   1e-9
		Rvd  5   1e-9
		Rmpc 1.48044066 1e-9
		Rmvc 1.48044066 1e-9
	`},
		{"triangle", "a triangle of amplitude 1 and wavelength 400", "textbook values of the triangle, the others by integration", ClosedForm, steps, wave(triangle), `
		Ra         0.5  6e-4
		Rq         0.57735026919 6e-4 1/√3
		Rsk        0    6e-4
		Rku        1.8  6e-4
		Rp         1    6e-4
		Rv         1    6e-4
		Rz         2    6e-4
		Rt         2    6e-4
		Rsm        400  0.2
		Rc         2    6e-4
		Rdq        0.01 5e-5
		Rda        0.01 5e-5
		Rdr        0.00499987500624 6e-4 √(1 + 0.01²) - 1
		Rdl        4400.2199945 1e-2
		Rmr(0.5)   25   3e-2
		Rmr(10,0.5) 35  3e-2 the curve is straight
		Rmc(30)    0.4  6e-4
		Rdc(10,80) 1.4  6e-4
		Rvmp       0.01 5e-5
		Rvmc       0.63 6e-4
		Rvvc       0.77 6e-4
		Rvvv       0.04 6e-4
		Rk         2    6e-4
		Rpk        0    2e-3
		Rvk        0    2e-3
		Rmrk1      0    5e-3
		Rmrk2      100  5e-3
		Rak1       0    6e-4
		Rak2       0    6e-4
		asme-b46.1:tp(0.5)       25  0.3
		asme-b46.1:Htp(10,80)    1.4 6e-4
		jis-b0601-2013:Ra75      0.5 6e-4
	`},
		{"sawtooth", "a sawtooth of amplitude 1 and wavelength 400", "textbook values of the sawtooth, the others by integration", ClosedForm, steps, wave(sawtooth), `
		Ra         0.5  6e-4
		Rq         0.57735026919 6e-4 1/√3
		Rsk        0    6e-4
		Rku        1.8  6e-4
		Rz         2    6e-4
		Rsm        400  0.2
		Rc         2    6e-4
		Rmr(0.5)   25   3e-2
		Rdc(10,80) 1.4  6e-4
		Rvmp       0.01 5e-5
		Rvmc       0.63 6e-4
		Rvvc       0.77 6e-4
		Rvvv       0.04 6e-4
		Rk         2    6e-4
		Rpk        0    2e-3
		Rvk        0    2e-3
		Rmrk1      0    5e-3
		Rmrk2      100  5e-3
	`},
		{"square", "a square wave of amplitude 1 and wavelength 400", "textbook values of the square wave, the others by integration", ClosedForm, steps, wave(square), `
		Ra         1   6e-4
		Rq         1   6e-4
		Rsk        0   6e-4
		Rku        1   6e-4
		Rp         1   6e-4
		Rv         1   6e-4
		Rz         2   6e-4
		Rt         2   6e-4
		Rsm        400 0.2
		Rc         2   6e-4
		Rmr(0.5)   50  3e-2
		Rmr(1)     50  3e-2
		Rdc(10,80) 2   6e-4
		Rvmp       0   5e-5
		Rvmc       1   6e-4
		Rvvc       1   6e-4
		Rvvv       0   6e-4
		Rk         0   6e-4
		Rpk        0   2e-3
		Rvk        4   2e-3
		Rmrk1      0   5e-3
		Rmrk2      50  5e-3
		Rak2       1   6e-4
		Rvkx       2   2e-3
	`},
		{"cusp", "a parabola of height 1 and feed 400, as turning leaves it", "by integration", ClosedForm, steps, wave(cusp), `
		Ra         0.25660011964 6e-4 4/(9√3)
		Rq         0.298142397 6e-4 2/(3√5)
		Rsk        0.638876565 6e-4 2√5/7
		Rku        2.14285714286 6e-4 15/7
		Rp         0.666666666667 6e-4
		Rv         0.333333333333 6e-4
		Rz         1    6e-4
		Rt         1    6e-4
		Rsm        400  0.2
		Rc         1    6e-4
		Rmr(0)     42.264973081 3e-2 1 - √(1/3)
		Rmr(0.5)   8.71290708247 3e-2 1 - √(5/6)
		Rdc(10,80) 0.77 6e-4
		Rvmp       0.00933333333333 5e-5
		Rvmc       0.289333333333 6e-4
		Rvvc       0.480666666667 6e-4
		Rvvv       0.00533333333333 6e-4
		Rk         0.4  6e-4
		Rpk        0.57622895 2e-3
		Rvk        0    2e-3
		Rmrk1      38.898991 5e-3
		Rmrk2      100  5e-3
		Rpkx       0.626666666667 2e-3 1 - (0.4 - 0.16/6): least squares on v² for v from 0 to 0.4
		Rvkx       0    2e-3
	`},
		{"sine of 20 points", "a sine of 20 points in a whole wave", "sums of a sampled sine", ClosedForm, rounding, on(shape(20, 0, 0.05, sine), 1, 1), `
		Ra  0.631375151468 1e-12 (2/M) cot(π/M)
		Rq  0.707106781187 1e-12 exact from three points on
		Rsk 0 1e-13
		Rku 1.5 1e-13
	`},
		{"two levels", "two levels, a tenth at the top", "by integration", ClosedForm, rounding, on(sampled(4000, 1, levels(0.1)), 1, 1), `
		Ra  0.18 1e-12 2d(1 - d)
		Rq  0.3  1e-12 √(d(1 - d))
		Rsk 2.66666666667 1e-11 (1 - 2d)/√(d(1 - d))
		Rku 8.11111111111 1e-11 1/(d(1 - d)) - 3
		Rp  0.9  1e-12
		Rv  0.1  1e-12
	`},
		{"two cosines", "cos u + ½ cos 2u", "by integration", ClosedForm, rounding, on(sampled(4000, 1, func(u float64) float64 { return math.Cos(2*math.Pi*u) + 0.5*math.Cos(4*math.Pi*u) }), 1, 1), `
		Rsk 0.75894663844 1e-11 ¾a₁²a₂/Rq³
		Rku 1.98 1e-11
	`},
		{"rectified sine", "a rectified sine", "by integration", ClosedForm, "the corner is sampled 40 000 times in a wave", on(sampled(40000, 1, func(u float64) float64 { return math.Abs(math.Sin(math.Pi*u)) - 2/math.Pi }), 1, 1), `
		Ra  0.268034319615  1e-8
		Rq  0.307758453061  1e-8
		Rsk -0.497159952645 1e-7
		Rku 1.93153483679   1e-7
	`},
		{"trapezium", "a trapezium of equal quarters", "by integration", ClosedForm, "the corners are sampled 40 000 times in a wave", on(sampled(40000, 1, func(u float64) float64 { return math.Max(-1, math.Min(1, 2*triangle(u))) }), 1, 1), `
		Ra  0.75 1e-8
		Rq  0.816496580928 1e-8 √(2/3)
		Rku 1.35 1e-7
	`},
		{"cut triangle", "a triangle cut at half its height", "by integration", ClosedForm, "the corners are sampled 40 000 times in a wave", on(sampled(40000, 1, func(u float64) float64 { return math.Min(triangle(u), 0) + 0.25 }), 1, 1), `
		Ra    0.28125 1e-7
		Rq    0.322748612184 1e-7 √(5/48)
		Rsk   -0.929516 1e-6
		Rku   2.376 1e-6
		Rk    0 1e-12
		Rvk   1 1e-3
		Rmrk2 50 1e-2
	`},
		{"normal", "10 000 quantiles of the normal distribution", "derived from the normal distribution, for this many points where digits allow", ClosedForm, "10 000 points stand for the continuous curve", curve(10000, synth.Quantile), `
		Ra    0.797884560803 1e-4 √(2/π)
		Rku   3 1e-2
		Rk    2.573992 2e-6
		Rpk   0.944866 2e-6
		Rvk   0.944868 2e-6
		Rmrk1 9.90474  2e-5
		Rmrk2 90.09518 2e-5
		Rak1  0.0468031 2e-5
		Rak2  0.0468031 2e-5
		Rvmp  0.04734318 3e-5
		Rvmc  0.90591573 1e-4
		Rvvc  1.21725707 1e-4
		Rvvv  0.11163767 3e-5
	`},
		{"three pieces", "a material ratio curve of three straight pieces", "worked by hand", ClosedForm, "20 000 points stand for the curve", curve(20000, func(p float64) float64 {
			return 3 - (p-0.1)/0.35 + max(0, 20-200*p)*(20-1/0.35)/200 - max(0, p-0.8)*(20-1/0.35)
		}), `
		Rk    2.85714285714 1e-9
		Rpk   1.71428571429 1e-3
		Rvk   3.42857142857 1e-3
		Rmrk1 8.57142857143 1e-6
		Rmrk2 82.8571428571 1e-6
	`},
		{"straight curve", "a straight material ratio curve from 10 to 0", "nothing lies outside the core", ClosedForm, rounding, curve(20000, func(p float64) float64 { return 10 - 10*p }), `
		Rk    10 1e-9
		Rpk   0 1e-9
		Rvk   0 1e-9
		Rmrk1 0 1e-9
		Rmrk2 100 1e-9
	`},
		{"two processes", "two straight lines on normal paper, 0.2 and 1.5, kink at 80 %", "by construction", ClosedForm, "8000 points stand for the curve in the Rk family", twoLines(0.2, 1.5, 0.8), `
		Rpq   0.2  1e-10
		Rvq   1.5  1e-10
		Rmq   80   1e-8
		Rk    0.51480 1e-4
		Rpk   0.18897 1e-4
		Rvk   1.6362  1e-3
		Rmrk1 9.905   5e-3
		Rmrk2 81.62   1e-2
	`},
		{"two rough processes", "two straight lines on normal paper, 0.5 and 2, kink at 60 %", "by construction", ClosedForm, "8000 points stand for the curve in the Rk family", twoLines(0.5, 2, 0.6), `
		Rpq   0.5  1e-10
		Rvq   2    1e-10
		Rmq   60   1e-8
		Rk    1.33722 1e-4
		Rpk   0.46432 1e-4
		Rvk   2.5379  1e-3
		Rmrk1 9.082   5e-3
		Rmrk2 70.01   1e-2
	`},
		{"turned", "a turned surface, feed 0.2 mm, nose 0.8 mm, taken as a parabola", "shop formulas of turning and their integrals", ClosedForm, "10 000 points in a feed", func() finder {
			return over(params.Input{Z: sampled(50000, 5, func(u float64) float64 { return cusp(u) * 6.25 }), Dx: 0.02, Section: 10000})
		}, `
		Rz  6.25 5e-3 f²/8r, a worked example on a public page
		Ra  1.60375074775 1e-6 f²/(18√3 r)
		Rsm 200 1e-6
		Rda 0.0625 1e-4 f/4r
		Rdq 0.0721687836487 1e-4 f/(2√3 r)
	`},
		{"slope of few points", "a sine of eight points in a wave, going on beyond both ends", "what the seven-point formula of ISO 4287, 3.2.9 leaves of a slope: (sin 3θ - 9 sin 2θ + 45 sin θ)/30θ", ClosedForm, rounding, continued(8, 1/(2*math.Pi)*8), `
		Rdq 0.706055422783 5e-9
	`},
		{"steep sine", "a sine with the greatest slope 1", "complete elliptic integral of the second kind", ClosedForm, "rounding, and the seven-point slope", continued(1000, 1000/(2*math.Pi)), `
		Rdr 21.6006723425 1e-6
		Rdl 4864.0268937 1e-4
		iso-4287:lr 1.21600672342 1e-8
	`},
		{"Ral of a sine", "1000 waves of a sine, in wavelengths", "its autocorrelation is cos 2πu", ClosedForm, "normalised by the overlap it is exact only over whole waves", on(sampled(40000, 1000, sine), 0.025, 1), `
		Ral 0.217952891576 2e-3 arccos(0.2)/2π
	`},
		{"Ral of a sawtooth", "1000 waves of a sawtooth, in wavelengths", "its autocorrelation is 1 - 6u(1 - u)", ClosedForm, "40 points in a wave", on(sampled(40000, 1000, sawtooth), 0.025, 1), `
		Ral 0.158434974468 5e-3 1/2 - √(1.4/12)
	`},
		{"dominant waviness", "a sine of amplitude 1.5 and wavelength 200", "a sine is its own dominant waviness", ClosedForm, "a crest may fall between two points", on(shape(8000, 0.5/400, 1./400, func(u float64) float64 { return 1.5 * math.Cos(2*math.Pi*u) }), 0.5, 1), `
		iso-4287:WDSm 200 2e-4
		iso-4287:WDt  3 1e-3
		iso-4287:WDc  3 1e-3
	`},
		{"envelope of a sine", "a sine of amplitude 2 and wavelength 200 below its level envelope", "the Rk family of the sine", ClosedForm, "2000 points in a wave", on(shape(40000, 0, 1./2000, func(u float64) float64 { return 2 * sine(u) }), 0.1, 1), `
		iso-12085:Rke  3.54940414 2e-3
		iso-12085:Rpke 0 1e-3
		iso-12085:Rvke 0.88783582 2e-3
		iso-12085:Mr1e 0 0.1
		iso-12085:Mr2e 73.068941 0.1
	`},
		{"envelope of turning", "a parabola of height 3 below its level envelope", "the Rk family of the parabola", ClosedForm, "10 000 points in a feed", on(shape(40001, 0, 1./10000, func(u float64) float64 { return 3 * cusp(u-math.Floor(u)) }), 0.01, 1), `
		iso-12085:Rke  1.2 2e-3
		iso-12085:Rpke 1.72868685 2e-3
		iso-12085:Rvke 0 1e-3
		iso-12085:Mr1e 38.898991 0.03
		iso-12085:Mr2e 100 0.1
	`},
		{"growing sine", "five sections of ten waves, amplitudes 1 to 5, a point on each crest", "by hand", ClosedForm, rounding, on(shape(2000, 0, 1./40, func(u float64) float64 { return math.Ceil((u+1e-9)/10) * sine(u) }), 1, 5), `
		jis-b0601-2013:RzJIS 6 1e-9 mean of the amplitudes, twice
		jis-b0601-1982:Rmax  6 1e-2 the same about the line of each section
		iso-4287:R3z         6 1e-9
		iso-4287:R3zm        10 1e-9
		asme-b46.1:Rpm       3 1e-9
		asme-b46.1:Rmax      10 1e-9
		jis-b0601-1994:Ry    6 1e-9
		jis-b0601-1994:S     40 1e-9 one local peak a wave
		iso-4287:D           25 1e-9 1000 over 40
		asme-b46.1:Rp        5 1e-9
	`},
	}
	return append(list, librarySets()...)
}

// continued evaluates whole waves that go on beyond both ends, so that every point has a slope.
func continued(points int, amplitude float64) func() finder {
	return func() finder {
		z := shape(4*points+6, -3/float64(points), 1/float64(points), func(u float64) float64 { return amplitude * sine(u) })
		n := len(z)
		return over(params.Input{Z: z[3 : n-3], Dx: 1, Lead: z[:3], Tail: z[n-3:]})
	}
}
