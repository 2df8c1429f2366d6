package filter

import (
	"fmt"
	"math"
)

// TotalLine is the straight line with the least sum of squared distances at right angles to it.
//
//	angle = ½·atan2(2·Sxz, Sxx - Szz)     S: centred sums of products
//	z = z̄ + tan(angle)·(x - x̄)
//
// The residual is nevertheless taken in z; at 1° the two differ by 1.5e-4 of it.
//
//   - Input: heights in the length unit of dx, at least two that take part.
//   - Errors: [ErrNoFit] for a vertical line, [ErrFewPoints], [ErrSpacing], [ErrNotFinite] inside a [PointError].
//   - Source: ISO 21920-2 and ISO 25178-2 name the total least squares fit as an F-operation (excerpt); the formula is textbook.
type TotalLine struct{}

// Fit returns the height of the line at every point.
func (TotalLine) Fit(dst, z []float64, dx float64, use []bool) ([]float64, error) {
	if err := checkForm(z, dx, use, 2); err != nil {
		return nil, err
	}
	c := gather(z, dx, use)
	var sxx, szz, sxz float64
	for i, u := range c.u {
		v := c.v[i]
		sxx += float64(u * u)
		szz += float64(v * v)
		sxz += float64(u * v)
	}
	sin, cos := sincos(math.Atan2(2*sxz, sxx-szz) / 2)
	if math.Abs(cos) < 1e-6 {
		return nil, fmt.Errorf("filter: total least-squares line is vertical: %w", ErrNoFit)
	}
	slope := sin / cos
	dst = target(dst, z)
	for i := range dst {
		dst[i] = c.height(float64(slope * c.across(i)))
	}
	return dst, nil
}

// A cloud holds the points that take part in a fit, about their mean and divided by half the length of the profile or by the
// greatest height, whichever is greater, so that no square overflows. Both axes share one scale: circles stay round.
type cloud struct {
	u, v              []float64
	meanX, meanZ, one float64
	dx                float64
}

func gather(z []float64, dx float64, use []bool) *cloud {
	c := &cloud{dx: dx}
	n := 0.0
	for i, v := range z {
		if use == nil || use[i] {
			n++
			c.meanX += (float64(float64(i)*dx) - c.meanX) / n
			c.meanZ += (v - c.meanZ) / n
		}
	}
	c.one = float64(len(z)-1) * dx / 2
	for i, v := range z {
		if use == nil || use[i] {
			c.one = max(c.one, math.Abs(v-c.meanZ))
		}
	}
	if c.one == 0 {
		c.one = 1
	}
	c.u, c.v = make([]float64, 0, int(n)), make([]float64, 0, int(n))
	for i, v := range z {
		if use == nil || use[i] {
			c.u = append(c.u, c.across(i))
			c.v = append(c.v, (v-c.meanZ)/c.one)
		}
	}
	return c
}

// across returns the abscissa of a point of the profile in the cloud.
func (c *cloud) across(i int) float64 { return (float64(float64(i)*c.dx) - c.meanX) / c.one }

// height takes a height back from the cloud.
func (c *cloud) height(v float64) float64 { return c.meanZ + float64(v*c.one) }

// thin returns a few hundred of the points of a large cloud, from which a search does well to begin; nil for a small one.
func (c *cloud) thin() *cloud {
	const few = 400
	stride := len(c.u) / few
	if stride < 4 {
		return nil
	}
	t := *c
	t.u, t.v = make([]float64, 0, few+few/4), make([]float64, 0, few+few/4)
	for i := 0; i < len(c.u); i += stride {
		t.u, t.v = append(t.u, c.u[i]), append(t.v, c.v[i])
	}
	return &t
}
