package filter_test

import (
	"testing"

	"example.com/furrow/filter"
)

// shortVector is the deterministic vector ((5i² + 2i + 1) mod 13) - 6, i = 0..20.
func shortVector() []float64 {
	z := make([]float64, 21)
	for i := range z {
		z[i] = float64((5*i*i+2*i+1)%13 - 6)
	}
	return z
}

// The values of this vector at spacing 1 and cut-off 8 were computed in numpy straight from each definition.
func TestShortVector(t *testing.T) {
	at := [...]int{0, 1, 4, 10, 14, 19, 20}
	for _, c := range vectorCases {
		t.Run(c.name, func(t *testing.T) {
			w := apply(t, c.f, shortVector(), 1)
			sum := 0.0
			for _, v := range w {
				sum += v
			}
			for k, i := range at {
				near(t, "w", w[i], c.w[k], 6e-10, "numpy, derived from the definition")
			}
			near(t, "sum of w", sum, c.sum, 6e-9, "numpy, derived from the definition")
		})
	}
}

var vectorCases = []struct {
	name string
	f    filter.Filter
	w    [7]float64
	sum  float64
}{
	{"regression order 0, full support", filter.GaussianRegression{Cutoff: 8, Order: filter.Order0, Support: 8},
		[7]float64{-0.673071476, 0.323593701, 1.121260939, -1.229630651, -0.051987385, 0.508522420, -0.617653392}, 3.459950580},
	{"regression order 0, support 1", filter.GaussianRegression{Cutoff: 8, Order: filter.Order0},
		[7]float64{-0.673071493, 0.323593726, 1.121260963, -1.229630688, -0.051987386, 0.508522446, -0.617653383}, 3.459950602},
	{"Gaussian retain-0, support 1", filter.Gaussian{Cutoff: 8, Ends: filter.Retain0},
		[7]float64{-0.673071493, 0.323593726, 1.121260963, -1.229630688, -0.051987386, 0.508522446, -0.617653383}, 3.459950602},
	{"Gaussian discard, support 1", filter.Gaussian{Cutoff: 8, Ends: filter.Discard},
		[7]float64{-0.673071493, 0.323593726, 1.121260963, -1.229630688, -0.051987386, 0.508522446, -0.617653383}, 3.459950602},
	{"Gaussian retain-0, support 0.5", filter.Gaussian{Cutoff: 8, Support: 0.5, Ends: filter.Retain0},
		[7]float64{-0.674914613, 0.318565458, 1.120919241, -1.238434520, -0.059245700, 0.507309911, -0.628689044}, 3.454628126},
	{"regression order 1, full support", filter.GaussianRegression{Cutoff: 8, Order: 1, Support: 8},
		[7]float64{-3.141956435, -0.211433044, 1.119899225, -1.229630651, -0.051949444, -0.118235029, -3.355010556}, -2.992558150},
	{"regression order 1, support 1", filter.GaussianRegression{Cutoff: 8},
		[7]float64{-3.141957272, -0.211433168, 1.119899257, -1.229630688, -0.051949483, -0.118235168, -3.355011668}, -2.992560524},
	{"Gaussian retain, support 1", filter.Gaussian{Cutoff: 8},
		[7]float64{-3.141957272, -0.211433168, 1.119899257, -1.229630688, -0.051949483, -0.118235168, -3.355011668}, -2.992560524},
	{"regression order 2, full support", filter.GaussianRegression{Cutoff: 8, Order: 2, Support: 8},
		[7]float64{-3.355019358, -0.253379670, 1.382386315, -1.372891840, -0.301043952, -0.035905959, -3.740277189}, -2.088404255},
	{"regression order 2, support 1.5", filter.GaussianRegression{Cutoff: 8, Order: 2, Support: 1.5},
		[7]float64{-3.355101214, -0.253365188, 1.382396561, -1.372891840, -0.301039295, -0.035884569, -3.740384155}, -2.088414170},
	{"Gaussian retain-2, support 1.5", filter.Gaussian{Cutoff: 8, Support: 1.5, Ends: filter.Retain2},
		[7]float64{-3.355101214, -0.253365188, 1.382396561, -1.372891840, -0.301039295, -0.035884569, -3.740384155}, -2.088414170},
	{"Gaussian zero", filter.Gaussian{Cutoff: 8, Ends: filter.Zero},
		[7]float64{-0.426093548, 0.273790300, 1.120010024, -1.229630688, -0.051987121, 0.430257146, -0.391010649}, 3.700512419},
	{"Gaussian line-symmetric", filter.Gaussian{Cutoff: 8, Ends: filter.LineSymmetric},
		[7]float64{0.478396689, 0.667669471, 1.122556391, -1.229630688, -0.051962601, 1.008967115, 0.814679244}, 7.146537966},
	{"Gaussian point-symmetric", filter.Gaussian{Cutoff: 8, Ends: filter.PointSymmetric},
		[7]float64{-5, -1.659161543, 1.106307112, -1.229630688, -0.052072584, -1.995340030, -6}, -12.403567943},
	{"Gaussian closed", filter.Gaussian{Cutoff: 8, Closed: true},
		[7]float64{-1.125589704, -0.197687269, 1.114320303, -1.229630688, -0.052011294, -0.004600910, -1.062303250}, 1},
	{"spline", filter.Spline{Cutoff: 8},
		[7]float64{-2.291057327, -0.180613197, 1.563806661, -1.511527133, -0.020313283, 0.078655667, -2.339097510}, 1},
	{"spline with tension", filter.Spline{Cutoff: 8, Tension: 0.62524},
		[7]float64{-1.779107977, 0.170268875, 1.306632229, -1.463486586, 0.108074272, 0.401153855, -1.857839139}, 1},
	{"spline closed", filter.Spline{Cutoff: 8, Closed: true},
		[7]float64{-1.244788535, -0.215979720, 1.324771452, -1.493830786, -0.062279885, 0.100125633, -1.149222905}, 1},
	{"roughness of 2RC", remainder{filter.TwoRC{Cutoff: 8}},
		[7]float64{0, 4.558824388, 4.194240367, -5.198747232, 4.566214934, 2.387553389, -6.777196715}, -3.330738613},
	{"closing, disk", filter.DiskClosing{Radius: 3},
		[7]float64{5.236067977, 5.407640853, 5, 3.171572875, 3.763932023, 5, 4.828427125}, 99.222922558},
	{"opening, disk", filter.DiskOpening{Radius: 3},
		[7]float64{-5, -5.171572875, -5.407640853, -5, -5.171572875, -5.407640853, -6}, -112.497194800},
	{"closing, segment of five points", filter.SegmentClosing{Length: 4}, [7]float64{6, 6, 5, 2, 2, 5, 5}, 92},
	{"opening, segment of five points", filter.SegmentOpening{Length: 4}, [7]float64{-5, -5, -6, -5, -5, -6, -6}, -115},
}

// A remainder shows the short-wave part in place of the long-wave part.
type remainder struct{ filter.Filter }

func (r remainder) Apply(dst, z []float64, dx float64) ([]float64, error) {
	w, err := r.Filter.Apply(dst, z, dx)
	for i := range w {
		w[i] = z[i] - w[i]
	}
	return w, err
}
