package instrument

import (
	"math"
	"math/rand/v2"
	"slices"

	"example.com/furrow/standards/decide"
)

const (
	// largeShare is the share of the variance, in rectangular lines and in a bias, from which distributions are propagated (own choice: below it
	// the coverage factor changes by less than 3 %).
	largeShare = 0.2
	draws      = 50_000
	coverage   = 0.9545
)

// expand takes the expanded uncertainty from the propagation of distributions where the lines are not near enough to normal: it is the half
// width of the interval around the value, which is not corrected for the bias, that holds 95.45 % of what the value can differ by. The draws are
// the same every time.
func (w *budgeting) expand(lines []decide.Contribution) {
	r := &w.out.Result
	odd := w.bias * w.bias
	for _, c := range lines {
		if c.Distribution == "rectangular" {
			odd += math.Pow(c.Sensitivity*c.U, 2)
		}
	}
	if r.Standard == 0 || odd < largeShare*r.Standard*r.Standard {
		return
	}
	random := rand.New(rand.NewPCG(1, 101))
	far := make([]float64, draws)
	for i := range far {
		sum := 0.0
		for _, c := range lines {
			sum += c.Sensitivity * w.draw(random, c)
		}
		far[i] = math.Abs(sum)
	}
	slices.Sort(far)
	r.Expanded = far[int(math.Ceil(coverage*draws))-1]
	r.K = r.Expanded / r.Standard
	r.Notes = append(r.Notes, "The coverage factor comes from the propagation of distributions.")
}

// draw draws what the input of a line can differ by.
func (w *budgeting) draw(r *rand.Rand, c decide.Contribution) float64 {
	switch {
	case c.Distribution == "rectangular":
		return c.U * math.Sqrt(3) * (2*r.Float64() - 1)
	case c.Name == noiseLine && w.bias != 0:
		return w.bias + math.Sqrt(max(0, c.U*c.U-w.bias*w.bias))*student(r, c.DoF)
	}
	return c.U * student(r, c.DoF)
}

// mostDoF is the number of degrees of freedom from which the t-distribution is taken as normal; 0 means infinitely many.
const mostDoF = 50

// student draws from the t-distribution.
func student(r *rand.Rand, dof float64) float64 {
	x := r.NormFloat64()
	if dof == 0 || dof > mostDoF {
		return x
	}
	chi := 0.0
	for range int(dof) {
		y := r.NormFloat64()
		chi += y * y
	}
	return x / math.Sqrt(chi/math.Floor(dof))
}
