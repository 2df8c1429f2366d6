package selfcheck

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

func filterSets() []set {
	const m = 1000.0 // samples in a cut-off
	spiked := shape(101, 0, 1, func(x float64) float64 { return 0.01*x + 0.5*math.Sin(2*math.Pi*x/8) })
	spiked[50], spiked[51] = spiked[50]+10, spiked[51]+10
	robust := func(order int) filter.Filter {
		return filter.RobustGaussian{Cutoff: 16, Order: order, Support: 7, Tolerance: 1e-12}
	}
	line := func(x float64) float64 { return 3 + 0.25*x }
	kept := func(key string) set { // a straight line, at both ends and in the middle
		return set{key + " line", "a straight line, 3 + x/4", "it is its own mean line", ClosedForm, rounding, shows(filter.Find(key).New(40), key, shape(401, 0, 1, line), 1, 0, 1, false), `
			0   3   =
			200 53  =
			400 103 =
		`}
	}
	pit, ridge := shape(2001, -10, 0.01, groove(2, 9)), shape(2001, -10, 0.01, groove(2, -9))
	bridged := func(id, key string, f filter.Filter, z []float64, rows string) set {
		return set{id, "a groove or ridge 2 wide under an element of radius 2, or 3 long", "circle geometry, by hand", ClosedForm, rounding, shows(f, key, z, 0.01, 1000, 100, false), rows}
	}
	disk := filter.DiskClosing{Radius: 2}
	return []set{
		{"gaussian", "the share of a sine in the mean line, at wavelengths in cut-offs", "ISO 16610-21, also printed in papers of a national laboratory on ISO 11562: 2^-(λc/λ)²", standards.Excerpt, "the bell is cut off at one cut-off, which costs 1.8e-7", passes(m, filter.Gaussian{Cutoff: m}, "gaussian"), `
			0.1 7.88860905221e-31 1e-6
			0.2 2.98023223877e-08 1e-6
			0.25 1.52587890625e-05 1e-6
			0.333333333 0.001953125 1e-6
			0.5 0.0625 1e-6
			0.8 0.338563886734 1e-6
			0.9 0.424969762371 1e-6
			1 0.5 1e-6
			1.25 0.641712948781 1e-6
			1.5 0.734867246138 1e-6
			2 0.840896415254 1e-6
			3 0.925874712287 1e-6
			4 0.957603280699 1e-6
			5 0.972654947412 1e-6
			10 0.993092495437 1e-6
		`},
		{"gaussian step", "the mean line of a step of 1, behind it in cut-offs", "(1 + erf(√π x/α))/2", ClosedForm, "1000 samples in a cut-off", shows(filter.Gaussian{Cutoff: m, Support: 1.5}, "gaussian", shape(8*m+1, -4, 1/m, step), 1, 4*m, m, false), `
			0 0.5 1e-9
			.05 0.605197013136 2e-6
			.1 0.703206286375 2e-6
			.2 0.857079379846 2e-6
			.25 0.908916351759 2e-6
			.3 0.94530421735 2e-6
			.4 0.983602272513 2e-6
			.5 0.996187320081 2e-6
			.6 0.999317301669 2e-6
			.8 0.999990189344 2e-6
			1 0.999999952607 2e-6
		`},
		{"gaussian impulse", "the mean line of a single point of 7000, beside it in cut-offs", "the weighting function, ISO 16610-21", standards.Excerpt, "the bell is cut off at one cut-off", shows(filter.Gaussian{Cutoff: m}, "gaussian", shape(4*m+1, -2, 1/m, func(x float64) float64 { return 7000 * max(0, 1-math.Abs(x)*m) }), 1, 2*m, m, false), `
			0   14.902538273  1e-5
			0.1 12.924739415  1e-5
			0.3 4.137273154  1e-5
			0.5 0.423934728  1e-5
		`},
		kept("gaussian"), kept("gaussian-regression"), kept("robust-gaussian"), kept("spline"), kept("robust-spline"), kept("two-rc-zero-phase"), kept("valley-suppression"),
		{"regression of order 2", "the share of a sine in the mean line, at wavelengths in cut-offs", "e^-t (1 + t), t = 1.67834699 (λc/λ)²: the local parabola under a bell", ClosedForm, "the bell is cut off at two cut-offs", passes(m, filter.GaussianRegression{Cutoff: m, Order: 2}, "gaussian-regression"), `
			0.5  0.009368236 1e-7
			0.8  0.263085648 1e-7
			1    0.5         1e-7
			1.25 0.708507621 1e-7
			2    0.933120493 1e-7
			5    0.997844883 1e-7
		`},
		{"regression on a spike", "the mean line of a wave with a spike, order 2, at points", "numpy, weighted least squares at every point", Library, digits, shows(filter.GaussianRegression{Cutoff: 16, Order: 2, Support: 7}, "gaussian-regression", spiked, 1, 0, 1, false), `
			0   0.310712319 6e-10
			25  0.253303523 6e-10
			50  3.021643563 6e-10
			100 1.310712319 6e-10
		`},
		{"robust on a spike, order 2", "the robust mean line of a wave with a spike, at points", "numpy, weighted least squares at every point, biweight with 3·1.4826·median", Library, digits, shows(robust(2), "robust-gaussian", spiked, 1, 0, 1, false), `
			0   0.309360527 6e-10
			25  0.253154891 6e-10
			50  0.356833060 6e-10
			75  0.753161595 6e-10
			100 1.309360523 6e-10
		`},
		{"robust on a spike, order 1", "the robust mean line of a wave with a spike, at points", "numpy, weighted least squares at every point, biweight with 3·1.4826·median", Library, digits, shows(robust(1), "robust-gaussian", spiked, 1, 0, 1, false), `
			0   0.291997923 6e-10
			25  0.270922546 6e-10
			50  0.385476286 6e-10
			100 1.291997923 6e-10
		`},
		{"spline", "the share of a sine in the mean line, at wavelengths in cut-offs", "ISO 16610-22: 1/(1 + (λc/λ)⁴)", standards.Excerpt, "1000 samples in a cut-off: the exact share differs by (π/1000)²/3 of it", passes(m, filter.Spline{Cutoff: m}, "spline"), `
			0.5  0.0588235294118  2e-5
			0.8  0.290578887628 2e-5
			1    0.5       2e-5
			1.25 0.709421112372 2e-5
			2    0.941176470588 2e-5
			5    0.998402555911 2e-5
		`},
		{"spline with tension", "the same with the tension 0.62524", "1/(1 + β(λc/λ)² + (1-β)(λc/λ)⁴)", ClosedForm, "1000 samples in a cut-off", passes(m, filter.Spline{Cutoff: m, Tension: 0.62524}, "spline"), `
			0.5 0.105295078929 2e-5
			1   0.5 2e-5
			2   0.847649785015 2e-5
		`},
		{"robust spline", "the first pass of the robust spline, in which all weights are 1", "1/(1 + (λc/λ)⁴)", ClosedForm, "1000 samples in a cut-off", passes(m, filter.RobustSpline{Cutoff: m, Passes: 1}, "robust-spline"), `
			0.5 0.0588235294118  2e-5
			1   0.5       2e-5
			2   0.941176470588 2e-5
		`},
		{"2RC", "the share of a sine that is left for roughness, at wavelengths in cut-offs", "two high-passes of the first order, 75 % at the cut-off: 1/(1 + (λ/λc)²/3)", ClosedForm, "1000 samples in a cut-off", leaves(m, filter.TwoRC{Cutoff: m}, "two-rc"), `
			0.5 0.923076923077 1e-5
			0.8 0.824175824176 1e-5
			1   0.75            1e-9
			2   0.428571428571         1e-5
			5   0.107142857143        1e-5
		`},
		{"2RC step", "what a step of 1 leaves for roughness, behind it in cut-offs", "(1 - u)e^-u, u = 2πx/√3", ClosedForm, "4000 samples in a cut-off", shows(filter.TwoRC{Cutoff: 4000}, "two-rc", shape(16001, -1, 1./4000, step), 1, 4000, 4000, true), `
			0.5 -0.132677 2e-6
			1   -0.069841 2e-6
			2   -0.004419 2e-6
		`},
		{"2RC without shift", "the share of a sine that is left for roughness, at wavelengths in cut-offs", "1/(1 + (λ/λc)²/3)", ClosedForm, "1000 samples in a cut-off", leaves(m, filter.TwoRCZeroPhase{Cutoff: m}, "two-rc-zero-phase"), `
			0.5 0.923076923077 1e-5
			1   0.75            1e-9
			2   0.428571428571         1e-5
			5   0.107142857143        1e-5
		`},
		{"valley suppression", "grooves 5 deep that cover 39 of 400 points, much closer than the cut-off", "-d f², f the share that the grooves cover", ClosedForm, "the grooves are 1/10 of the cut-off apart", shows(filter.ValleySuppression{Cutoff: 4000}, "valley-suppression", shape(40000, 0, 1, func(x float64) float64 { return -5 * (1 - step(math.Mod(x, 400)-38.5)) }), 1, 0, 1, false), `
			20000 -0.04753125 1e-6
		`},
		bridged("closing", "disk-closing", disk, pit, "0 -0.267949192431 1e-9 √(r² - w²/4) - r\n2 0 1e-9\n0.5 -0.204440865535 1e-9\n"),
		bridged("opening", "disk-opening", filter.DiskOpening(disk), ridge, "0 0.267949192431 1e-9 r - √(r² - w²/4)\n2 0 1e-9\n0.5 0.204440865535 1e-9\n"),
		bridged("alternating, groove", "disk-alternating", filter.DiskAlternating{Radius: 2}, pit, "0 -0.267949192431 1e-9\n5 0 1e-9\n"),
		bridged("alternating, ridge", "disk-alternating", filter.DiskAlternating{Radius: 2, OpenFirst: true}, ridge, "0 0.267949192431 1e-9\n5 0 1e-9\n"),
		bridged("filled groove", "segment-closing", filter.SegmentClosing{Length: 3}, pit, "0 0 1e-9\n2 0 1e-9\n"),
		bridged("groove that stays", "segment-closing", filter.SegmentClosing{Length: 1}, pit, "0 -9 1e-9\n2 0 1e-9\n"),
		bridged("cut ridge", "segment-opening", filter.SegmentOpening{Length: 3}, ridge, "0 0 1e-9\n2 0 1e-9\n"),
		bridged("ridge that stays", "segment-opening", filter.SegmentOpening{Length: 1}, ridge, "0 9 1e-9\n2 0 1e-9\n"),
	}
}

// asked answers the names of a table.
func asked(subject string, answers map[string]func() (float64, error)) func() finder {
	return func() finder {
		return func(name string) (float64, string, error) {
			f := answers[name]
			if f == nil {
				return 0, subject, errors.New("nothing answers to " + name)
			}
			v, err := f()
			return v, subject, err
		}
	}
}

// cutoffs answers "Ra=0.8": the long cut-off in µm for a limit or measured value.
func cutoffs(row func(symbol string, value float64) (float64, error)) func() finder {
	return func() finder {
		return func(name string) (float64, string, error) {
			symbol, number, _ := strings.Cut(name, "=")
			value, err := strconv.ParseFloat(number, 64)
			if err != nil {
				return 0, "", err
			}
			v, err := row(symbol, value)
			return v, "cut-off", err
		}
	}
}

func standardSets() []set {
	line := func(u, c, dof float64) decide.Contribution {
		return decide.Contribution{U: u, Sensitivity: c, DoF: dof}
	}
	gauge := func(read func(c decide.Combined) float64) func() (float64, error) {
		return func() (float64, error) {
			c, err := (&decide.Budget{Coverage: 0.99, Contributions: []decide.Contribution{line(25, 1, 18), line(9.7, 1, 25.6), line(1.2e-6, 0, 0), line(0.41, 0, 0),
				line(0.58e-6, 5e6, 50), line(0.029, 575, 2)}}).Combine()
			if err != nil {
				return 0, err
			}
			return read(c), nil
		}
	}
	guard := func(rule decide.GuardRule, apart float64) func() (float64, error) {
		return func() (float64, error) {
			accept, _, err := decide.Guard{Rule: rule, Standard: 1}.Bands(apart)
			return accept, err
		}
	}
	return []set{
		{"cut-off by the limit", "a limit on a drawing, cut-off in µm", "ISO 21920-3:2021, 4.4.3, from an excerpt of its table", standards.Excerpt, "a table", cutoffs(func(symbol string, limit float64) (float64, error) {
			c, err := standards.Class(symbol, limit)
			return c.Long, err
		}), `
			Ra=0.02 80   0
			Ra=0.1  250  0
			Ra=0.11 800  0
			Ra=2    800  0
			Ra=2.1  2500 0
			Ra=10.1 8000 0
			Rz=0.16 80   0
			Rz=0.8  250  0
			Rz=3.2  800  0
			Rz=16   800  0
			Rz=16.1 2500 0
			Rz=81   8000 0
		`},
		{"cut-off by the value", "a measured value, cut-off in µm", "ISO 4288:1996, Tables 1 to 3, confirmed by neutral copies", standards.Excerpt, "a table", cutoffs(func(symbol string, value float64) (float64, error) {
			e, _ := standards.EditionByID(standards.ISO4287)
			for _, s := range e.Steps {
				if i, ok := s.Row(value); ok && s.By == symbol {
					return e.Rows[i].Long, nil
				}
			}
			return 0, errors.New("no table knows " + symbol)
		}), `
			Ra=0.02  80   0
			Ra=0.021 250  0
			Ra=2     800  0
			Ra=2.1   2500 0
			Ra=10.1  8000 0
			Rz=0.1   80   0
			Rz=0.11  250  0
			Rz=10    800  0
			Rz=50    2500 0
			Rz=51    8000 0
			RSm=40   80   0
			RSm=41   250  0
			RSm=400  800  0
			RSm=1300 2500 0
			RSm=1310 8000 0
		`},
		{"end gauge", "the calibration of an end gauge of 50 mm, in nm", "JCGM 100:2008, H.1", standards.Memory, digits, asked("uncertainty budget", map[string]func() (float64, error){
			"u": gauge(func(c decide.Combined) float64 { return c.Standard }), "ν": gauge(func(c decide.Combined) float64 { return c.DoF }),
			"k": gauge(func(c decide.Combined) float64 { return c.K }), "U": gauge(func(c decide.Combined) float64 { return c.Expanded }),
		}), `
			u 31.7 0.05
			ν 16   0
			k 2.92 0.005
			U 93   0.5
		`},
		{"guard band", "a limit, or two limits this far apart, in standard uncertainties", "ISO 14253-1:2017 at 95 %: Φ(g) - Φ(g - T) = 0.95", ClosedForm, digits, asked("guard band", map[string]func() (float64, error){
			"one": guard(decide.Probability, 0), "4": guard(decide.Probability, 4), "5": guard(decide.Probability, 5), "6": guard(decide.Probability, 6), "U": guard(decide.ExpandedU, 0),
		}), `
			one 1.644853627 6e-10
			4   1.79621 6e-6
			5   1.64877 6e-6
			6   1.64492 6e-6
			U   2       0 ISO 14253-1:1998
		`},
	}
}

// lobes lays areas of a chart, in mm² at a magnification, out as lobes of even height along a length in µm.
func lobes(magnified, length float64, areas ...float64) func() finder {
	var z []float64
	for _, a := range areas {
		z = append(z, slices.Repeat([]float64{a * 1e6 / magnified / (length / float64(len(areas)))}, 100)...)
	}
	return given("none", z...)
}

func roughnessSets() []set {
	sharma := given("none", .15, .25, .35, .25, .30, .15, .10, .30, .35, .10)
	alternating := func(base float64) []float64 {
		return append([]float64{base + 0.2}, slices.Repeat([]float64{base + 0.1, base + 0.3}, 500)...)
	}
	numacc := func(n int, rq, tolerance string, z ...float64) set {
		return set{"NumAcc" + strconv.Itoa(n), "NIST statistical reference data NumAcc" + strconv.Itoa(n), "certified standard deviation, with the divisor n", standards.Memory, "what float64 holds of the data", given("mean", z...), "Rq " + rq + " " + tolerance}
	}
	return []set{
		{"ordinates", "ten ordinates from the mean line", "P. C. Sharma, A Textbook of Production Engineering, example 11.2", standards.Excerpt, digits, sharma, `
			Ra 0.23  5e-9
			Rq 0.24799194 5e-9 printed as 0.248
		`},
		{"exercise", "18 peak and trough heights", "a public student exercise; its answers are arithmetic", standards.TextRead, digits, given("mean", exercise...), `
			Ra  7.2962962963 1e-9
			Rq  8.3082957204 1e-9
			Rp  13.8333333333 1e-9
			Rv  13.1666666667 1e-9
			Rt  27 1e-12
			Rz  27 1e-12
			Rsk 0.0261227515 1e-9
			Rku 1.7174915894 1e-9
			jis-b0601-2013:RzJIS 20.4 1e-12 five highest less five lowest
			asme-b46.1:Rmax 27 1e-12
			iso-4287:R3z 21 1e-12 third highest 39, third lowest 18
		`},
		{"planimeter", "a chart of eight areas, 15000 by 100 times", "P. C. Sharma, A Textbook of Production Engineering, example 11.1", standards.Excerpt, digits, lobes(15000*100, 800, 160, -95, 90, -65, 180, -170, 50, -150), "Ra 0.80 5e-5"},
		{"planimeter, quiz", "a chart of eight areas, 10000 by 100 times", "a public quiz on metrology", standards.TextRead, digits, lobes(10000*100, 1200, 100, -80, 120, -40, 140, -150, 40, -90), "Ra 0.6333 5e-5"},
		{"deviations", "56 deviations about the given zero", "a public programming exercise, arithmetic", standards.TextRead, digits, given("none", deviations...), `
			Ra  3.3053571429 6e-7
			Rq  3.954586 6e-7
			Rt  15.4 1e-12
		`},
		{"deviations about their mean", "56 deviations about their mean", "a public programming exercise, arithmetic", standards.TextRead, digits, given("mean", deviations...), `
			Ra  3.0446428571 6e-7
			Rq  3.695087 6e-7
			Rsk -0.325436 6e-7
			Rku 2.402355 6e-7
		`},
		{"nine heights", "nine heights of an exam problem", "a classic exam problem, arithmetic", standards.Memory, digits, given("mean", 33, 25, 30, 19, 22, 18, 27, 29, 20), `
			Ra 4.4691358025 6e-7
			Rq 5.0283149 6e-7
			Rt 15 1e-12
		`},
		{"twenty heights", "twenty heights of an exam problem", "a classic exam problem, arithmetic", standards.Memory, digits, given("mean", 35, 25, 40, 22, 35, 18, 42, 25, 35, 22, 36, 18, 42, 22, 32, 21, 37, 18, 35, 20), `
			Ra 7.9 6e-7
			Rq 8.4023806 6e-7
			Rt 24 1e-12
		`},
		{"one pit", "one pit in five points", "by hand", ClosedForm, rounding, given("mean", 0, 0, 0, 0, -4), `
			Ra  1.28 1e-12
			Rq  1.6  1e-12
			Rp  0.8  1e-12
			Rv  3.2  1e-12
			Rsk -1.5 1e-12
			Rku 3.25 1e-12
		`},
		numacc(1, "0.816496580928", "1e-8", 10000001, 10000003, 10000002),
		numacc(2, "0.0999500374688", "1e-12", alternating(1)...),
		numacc(3, "0.0999500374688", "1e-9", alternating(1e6)...),
		numacc(4, "0.0999500374688", "1e-8", alternating(1e7)...),
		{"groove", "a groove 100 µm wide and 1.5 µm deep on a slope of 1 %", "ISO 5436-1, type A1: depth across the slope", ClosedForm, rounding, asked("groove", map[string]func() (float64, error){"d": func() (float64, error) {
			g, err := instrument.MeasureGroove(roughness.Profile{Z: shape(1001, -250, 0.5, func(x float64) float64 { return 0.01*x + groove(100, 1.5)(x) }), Spacing: 0.5}, 250, 100)
			return g.Depth, err
		}}), `
			d 1.49992500562 1e-9 1.5 cos arctan 0.01
		`},
		{"tip on a sine", "a sine of amplitude 1 and length 10 under a tip of radius 2", "numpy", Library, digits, asked("tip", map[string]func() (float64, error){"Ra": func() (float64, error) {
			z, err := filter.Tip{Radius: 2}.Trace(nil, shape(25001, 0, 0.0002, func(u float64) float64 { return math.Cos(2 * math.Pi * u) }), 0.002)
			if err != nil {
				return 0, err
			}
			middle := z[5000:20000] // three waves
			mean := 0.0
			for _, v := range middle {
				mean += v / float64(len(middle))
			}
			for i := range middle {
				middle[i] -= mean
			}
			return params.Ra(middle), nil
		}}), `
			Ra 0.594201 2e-6
		`},
	}
}
