package filter

import (
	"fmt"
	"math"
)

// Ellipse is the arc of an ellipse, in any position, with the least sum of squared distances in z: a cylinder cut askew.
//
//	A·z² + (1 + b·x)·z + a·x² + B·x + D = 0,  4·A·a > b²
//
// The five unknowns are sought from the best circle on. A short arc says little about an ellipse: where the best curve of this
// kind is not closed, or is a mere line, the fit is refused rather than bent; a circle or a polynomial then says as much.
//
//   - Input: heights in the length unit of dx, at least five that take part, on one side of the ellipse.
//   - Errors: [ErrNoFit], [ErrFewPoints], [ErrSpacing], [ErrNotFinite] inside a [PointError].
//   - Source: common practice; the equation is elementary, least squares in z are an own choice.
type Ellipse struct{}

// Fit returns the height of the ellipse at every point.
func (f Ellipse) Fit(dst, z []float64, dx float64, use []bool) ([]float64, error) {
	c, q, err := f.seek(z, dx, use)
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(z))
	for i := range out {
		v, _, ok := q.height(c.across(i))
		if !ok {
			return nil, fmt.Errorf("filter: ellipse is narrower than the profile: %w", ErrNoFit)
		}
		out[i] = c.height(v)
	}
	return append(target(dst, z)[:0], out...), nil
}

// A conic is vv·v² + (1 + uv·u)·v + uu·u² + u·u + one = 0.
type conic struct{ vv, uv, uu, u, one float64 }

// height returns the height nearer to v = 0, with the derivative of the left side by v there.
func (q conic) height(u float64) (v, slope float64, ok bool) {
	k := 1 + float64(q.uv*u)
	rest := float64((float64(q.uu*u)+q.u)*u) + q.one
	root := math.Sqrt(float64(k*k) - float64(4*float64(q.vv*rest)))
	if !(k > 0 && root > 0) {
		return 0, 0, false
	}
	return -2 * rest / (k + root), root, true
}

// closed says whether the curve is an ellipse.
func (q conic) closed() bool { return float64(4*q.vv*q.uu)-float64(q.uv*q.uv) > 1e-12*q.uu*q.uu }

func (f Ellipse) seek(z []float64, dx float64, use []bool) (*cloud, conic, error) {
	if err := checkForm(z, dx, use, 5); err != nil {
		return nil, conic{}, err
	}
	c := gather(z, dx, use)
	q, err := c.ellipse()
	return c, q, err
}

func (c *cloud) ellipse() (conic, error) {
	make := func(p []float64) conic { return conic{p[0], p[1], p[2], p[3], p[4]} }
	row := func(p []float64, i int, d []float64) (float64, bool) {
		v, slope, ok := make(p).height(c.u[i])
		if !ok {
			return 0, false
		}
		u := c.u[i]
		d[0], d[1], d[2], d[3], d[4] = -v*v/slope, -u*v/slope, -u*u/slope, -u/slope, -1/slope
		return v - c.v[i], true
	}
	var starts [][]float64
	if small := c.thin(); small != nil {
		if q, err := small.ellipse(); err == nil {
			starts = append(starts, []float64{q.vv, q.uv, q.uu, q.u, q.one})
		}
	}
	r, err := Circle{}.fit(c)
	if err != nil {
		return conic{}, err
	}
	b, k := r.direction()
	for _, share := range [...]float64{1, 1e-3, 0} { // from a circle to a parabola
		starts = append(starts, []float64{share * r.a / k, 0, r.a / k, b / k, r.d / k})
	}
	best, least := []float64(nil), math.Inf(1)
	for _, start := range starts {
		if p, s := descend(len(c.u), start, row); s < least {
			best, least = p, s
			if make(best).closed() {
				break
			}
		}
	}
	if best == nil {
		return conic{}, fmt.Errorf("filter: profile is steeper than an ellipse seen from above: %w", ErrNoFit)
	}
	q := make(best)
	if !q.closed() {
		return conic{}, fmt.Errorf("filter: the best curve is not closed, so an ellipse fits no better than a polynomial: %w", ErrNoFit)
	}
	return q, nil
}
