package params

import "math"

// A Curve is one of the functions a profile has, as numbers. Lengths along the trace are in µm.
type Curve struct {
	Key    string // "power-spectral-density"
	Name   string // in words
	X, Y   Axis
	Points []Point
	// Check is what the curve must add up to, by which a reader can tell how it is scaled; Symbol is empty when nothing.
	Check Arithmetic
}

// An Axis says what the numbers on it are.
type Axis struct {
	Name string
	Unit Unit
}

// Units of curves alone.
const (
	perMicrometre  Unit = "1/µm"
	squareTimesMM  Unit = "µm²·mm"
	standardDev    Unit = "standard deviations"
	curveClasses        = 100 // of heights and slopes
	materialPoints      = 500
)

// Curves returns the functions of the profile: autocorrelation, amplitude spectrum, power spectral density, height
// density, slope distribution, material ratio curve and the same on normal paper. A curve the profile does not have, such
// as the autocorrelation of a flat one, has no points.
func Curves(in *Input) []Curve {
	w := newWork(in)
	defer w.release()
	curves := []Curve{
		{Key: "autocorrelation", Name: "autocorrelation function", X: Axis{"shift", Micrometre}, Y: Axis{"autocorrelation", None}},
		{Key: "amplitude-spectrum", Name: "amplitude spectrum", X: Axis{"spatial frequency", PerMillimetre}, Y: Axis{"amplitude", Micrometre}},
		{Key: "power-spectral-density", Name: "power spectral density", X: Axis{"spatial frequency", PerMillimetre}, Y: Axis{"density", squareTimesMM}},
		{Key: "height-density", Name: "height density", X: Axis{"height", Micrometre}, Y: Axis{"density", perMicrometre}},
		{Key: "slope-distribution", Name: "slope distribution", X: Axis{"slope", None}, Y: Axis{"density", None}},
		{Key: "material-ratio", Name: "material ratio curve", X: Axis{"material ratio", Percent}, Y: Axis{"height", Micrometre}},
		{Key: "material-probability", Name: "material ratio curve on normal paper", X: Axis{"quantile of the material ratio", standardDev}, Y: Axis{"height", Micrometre}},
	}
	if w.n == 0 {
		return curves
	}
	if !w.flat() {
		for k, r := range w.correlation() {
			curves[0].Points = append(curves[0].Points, Point{float64(k) * w.dx, r})
		}
	}
	s := w.spectrum()
	perMM := s.Step * 1000
	power := 0.0
	for k, d := range s.Density() {
		f := float64(k) * perMM
		curves[1].Points = append(curves[1].Points, Point{f, s.Amplitude[k]})
		curves[2].Points = append(curves[2].Points, Point{f, d / 1000})
		power += d / 1000
	}
	curves[2].Check = Arithmetic{
		Symbol: "Σ PSD·Δf", Form: "{1} · {2} = Rq²", Terms: []float64{power, perMM}, Result: power * perMM, Unit: "µm²",
	}
	curves[3].Points = HeightDensity(w.z, curveClasses)
	if g := w.gradient(); g.slope != nil {
		curves[4].Points = density(g.slope, curveClasses)
	}
	curves[5].Points = w.curve().outline(0, 1, materialPoints)
	if w.n > 1 {
		quantiles, heights := probabilityCurve(w.sorted())
		for i, q := range quantiles {
			curves[6].Points = append(curves[6].Points, Point{q, heights[i]})
		}
	}
	return curves
}

// HeightDensity returns the density of the heights of the polyline through z, the derivative of the material ratio with
// its sign turned, as the middles of equal classes from the lowest height to the highest and the share of the length in
// each, divided by its width. The densities times the width add up to 1. A level profile has none.
//
// A piece of the polyline that is level lies in one class whole; every other is spread evenly over its heights.
func HeightDensity(z []float64, classes int) []Point {
	low, high := limits(z)
	if !(high > low) || classes < 1 {
		return nil
	}
	width := (high - low) / float64(classes)
	class := func(h float64) int { return max(0, min(classes-1, int((h-low)/width))) }
	shares := make([]float64, classes)
	for i := 1; i < len(z); i++ {
		a, b := min(z[i-1], z[i]), max(z[i-1], z[i])
		first, last := class(a), class(b)
		if first == last {
			shares[first]++
			continue
		}
		for k := first; k <= last; k++ {
			bottom, top := low+float64(float64(k)*width), low+float64(float64(k+1)*width)
			if k == first {
				bottom = a
			}
			if k == last {
				top = b
			}
			shares[k] += (top - bottom) / (b - a)
		}
	}
	return middles(shares, low, width, float64(len(z)-1))
}

// density returns the density of single values, as the middles of equal classes and the share in each over its width.
func density(v []float64, classes int) []Point {
	low, high := limits(v)
	if !(high > low) {
		return nil
	}
	width := (high - low) / float64(classes)
	shares := make([]float64, classes)
	for _, x := range v {
		shares[max(0, min(classes-1, int((x-low)/width)))]++
	}
	return middles(shares, low, width, float64(len(v)))
}

func middles(shares []float64, low, width, total float64) []Point {
	points := make([]Point, len(shares))
	for k, s := range shares {
		points[k] = Point{low + float64((float64(k)+0.5)*width), s / total / width}
	}
	return points
}

// NormalQuantile returns the place of a material ratio, a fraction, on normal paper: the x below which a standard
// normal distribution has that share. It is infinite at 0 and 1.
func NormalQuantile(ratio float64) float64 { return normalQuantile(ratio) }

// NormalShare returns the material ratio, a fraction, at a place on normal paper. It is the inverse of [NormalQuantile].
func NormalShare(x float64) float64 {
	if math.IsNaN(x) {
		return x
	}
	return normalShare(x)
}
