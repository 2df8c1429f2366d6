package filter

import (
	"fmt"
	"math"
)

// Circle is the circle with the least sum of squared distances from the points, at right angles to it.
//
//	Σ (√((xᵢ-a)² + (zᵢ-b)²) - R)² = min
//
// The circle is sought as A·(x²+z²) + B·x + C·z + D = 0 with B² + C² - 4AD = 1, in which a straight line is only A = 0, so that
// flat arcs are no harder than round ones. Distances to it are 2P/(1 + √(1+4AP)) with P the left side at a point. The residual
// is nevertheless taken in z.
//
//   - Input: heights in the length unit of dx, at least three that take part (two for a given radius), on one side of a
//     circle: a profile.
//   - Errors: [ErrNoFit] where the circle is narrower than the profile, [ErrFewPoints], [ErrOption], [ErrSpacing],
//     [ErrNotFinite] inside a [PointError].
//   - Source: geometric fit by N. Chernov and C. Lesort 2005 (memory), checked on the data of W. Gander, G. H. Golub and
//     R. Strebel, BIT 34 (1994).
type Circle struct {
	// Radius is the radius if it is known, else 0. Whether the arc bulges or is hollow is found out.
	Radius float64
}

// An Arc is a fitted circle. X counts from the first point of the profile.
type Arc struct {
	X, Z, Radius float64
	Convex       bool // the centre lies below the points: a bulge
}

// Fit returns the height of the circle at every point.
func (f Circle) Fit(dst, z []float64, dx float64, use []bool) ([]float64, error) {
	c, round, err := f.seek(z, dx, use)
	if err != nil {
		return nil, err
	}
	// Two halves of the circle lie above most points: the profile follows one of them.
	near, far := 0.0, 0.0
	for i, u := range c.u {
		a, b := round.heights(u)
		near += math.Abs(a - c.v[i])
		far += math.Abs(b - c.v[i])
	}
	out := make([]float64, len(z))
	for i := range out {
		a, b := round.heights(c.across(i))
		if far < near {
			a = b
		}
		if math.IsNaN(a) || math.IsInf(a, 0) {
			return nil, fmt.Errorf("filter: circle of radius %.6g is narrower than the profile: %w", c.one/(2*math.Abs(round.a)), ErrNoFit)
		}
		out[i] = c.height(a)
	}
	return append(target(dst, z)[:0], out...), nil
}

// Find returns the fitted circle itself. A profile that is straight to the last digit gives an infinite radius.
func (f Circle) Find(z []float64, dx float64, use []bool) (Arc, error) {
	c, round, err := f.seek(z, dx, use)
	if err != nil {
		return Arc{}, err
	}
	return c.arc(round), nil
}

func (c *cloud) arc(r round) Arc {
	b, k := r.direction()
	a := Arc{
		X:      c.meanX - c.one*b/(2*r.a),
		Z:      c.meanZ - c.one*k/(2*r.a),
		Radius: c.one / (2 * math.Abs(r.a)),
	}
	a.Convex = a.Z < c.meanZ
	return a
}

func (f Circle) seek(z []float64, dx float64, use []bool) (*cloud, round, error) {
	unknowns := 3
	if f.Radius != 0 {
		unknowns = 2
	}
	if err := checkForm(z, dx, use, unknowns); err != nil {
		return nil, round{}, err
	}
	c := gather(z, dx, use)
	r, err := f.fit(c)
	return c, r, err
}

// A round is a circle or line A·(u²+v²) + E·(u·cosθ + v·sinθ) + D = 0, E = √(1+4AD).
type round struct{ a, d, theta float64 }

func (r round) direction() (b, c float64) {
	e := math.Sqrt(max(0, 1+float64(4*r.a*r.d)))
	sin, cos := sincos(r.theta)
	return e * cos, e * sin
}

// heights returns both heights of the circle at u, first the one nearer to v = 0.
func (r round) heights(u float64) (near, far float64) {
	b, c := r.direction()
	rest := float64(r.a*u*u) + float64(b*u) + r.d
	q := c + math.Copysign(math.Sqrt(float64(c*c)-float64(4*r.a*rest)), c)
	return -2 * rest / q, -q / (2 * r.a)
}

// row returns the distance of (u, v) and its derivatives by a, d and theta.
func (r round) row(u, v float64, d *[3]float64) (distance float64, ok bool) {
	e2 := 1 + float64(4*r.a*r.d)
	if !(e2 > 0) {
		return 0, false
	}
	e := math.Sqrt(e2)
	sin, cos := sincos(r.theta)
	h := float64(u*cos) + float64(v*sin)
	w := float64(u*u) + float64(v*v)
	p := float64(r.a*w) + float64(e*h) + r.d
	q := math.Sqrt(max(0, 1+float64(4*r.a*p)))
	distance = 2 * p / (1 + q)
	if q == 0 {
		return 0, false // a point at the centre
	}
	g := 2 * (1 - float64(r.a*distance)/q) / (1 + q)
	d[0] = float64(g*(w+float64(2*r.d*h)/e)) - float64(distance*distance)/q
	d[1] = g * (float64(2*r.a*h)/e + 1)
	d[2] = g * e * (float64(v*cos) - float64(u*sin))
	return distance, true
}

func (f Circle) fit(c *cloud) (round, error) {
	if !(f.Radius >= 0 && f.Radius <= huge) {
		return round{}, fmt.Errorf("filter: circle of radius %v: %w", f.Radius, ErrOption)
	}
	var best round
	least := math.Inf(1)
	try := func(start round, fixed bool) {
		p := []float64{start.d, start.theta, start.a}
		if fixed {
			p = p[:2]
		}
		make := func(p []float64) round {
			r := round{start.a, p[0], p[1]}
			if !fixed {
				r.a = p[2]
			}
			return r
		}
		found, s := descend(len(c.u), p, func(p []float64, i int, d []float64) (float64, bool) {
			var full [3]float64
			r, ok := make(p).row(c.u[i], c.v[i], &full)
			d[0], d[1] = full[1], full[2]
			if !fixed {
				d[2] = full[0]
			}
			return r, ok
		})
		if s < least {
			best, least = make(found), s
		}
	}
	kasa := c.algebraic()
	if small := c.thin(); small != nil {
		if r, err := f.fit(small); err == nil {
			if try(r, f.Radius > 0); !math.IsInf(least, 1) {
				return best, nil
			}
		}
	}
	if f.Radius > 0 {
		a := c.one / (2 * f.Radius)
		try(round{a, 0, kasa.theta}, true) // bulge and hollow
		try(round{-a, 0, kasa.theta}, true)
	} else {
		try(kasa, false)
		try(round{0, 0, kasa.theta}, false)
	}
	if math.IsInf(least, 1) {
		return best, fmt.Errorf("filter: circle: %w", ErrNoFit)
	}
	return best, nil
}

// algebraic returns the circle with the least Σ (u² + v² + b·u + c·v + d)² (Kåsa), from which the search starts.
func (c *cloud) algebraic() round {
	t := newLittle(3)
	for i, u := range c.u {
		v := c.v[i]
		t.add([]float64{u, v, 1}, -(float64(u*u) + float64(v*v)))
	}
	x, ok := t.solve()
	if !ok || !(float64(x[0]*x[0])+float64(x[1]*x[1]) > 4*x[2]) {
		return round{0, 0, math.Pi / 2}
	}
	k := math.Sqrt(float64(x[0]*x[0]) + float64(x[1]*x[1]) - float64(4*x[2]))
	return round{1 / k, x[2] / k, math.Atan2(x[1], x[0])}
}
