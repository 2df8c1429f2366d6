package filter

import (
	"fmt"
	"math"
)

// A Tip is a stylus tip: a ball that goes over into a cone.
//
//	h(u) = r - √(r²-u²)                             |u| <= r·cos(θ/2)
//	h(u) = |u|·cot(θ/2) - r·(1/sin(θ/2) - 1)        beyond
//
// Source: tip radius and cone as in ISO 3274:1996 (memory; 2 µm and 60° are common practice); the geometry is elementary, the
// reconstruction by J. S. Villarrubia, J. Res. NIST 102 (1997) 425.
type Tip struct {
	Radius float64
	// Cone is the included angle θ in degrees. 0 means 60; 90 is the other usual one.
	Cone float64
}

func (p Tip) element(z []float64, dx float64) (element, error) {
	cone := p.Cone
	if cone == 0 {
		cone = 60
	}
	if err := checkLength("spacing", dx, ErrSpacing); err != nil {
		return nil, err
	}
	if !(p.Radius >= 1/huge && p.Radius <= huge && cone > 1 && cone < 179) {
		return nil, fmt.Errorf("filter: tip of radius %v and cone %v°: %w", p.Radius, p.Cone, ErrOption)
	}
	if err := checkHeights(z, nil); err != nil {
		return nil, err
	}
	sin, cos := math.Sincos(cone / 2 * math.Pi / 180)
	r, tangent := p.Radius, p.Radius*cos
	return sample(len(z), dx, spanOf(z), len(z), func(u float64) float64 {
		if u <= tangent {
			q := u / r
			return -u * q / (1 + math.Sqrt((1-q)*(1+q)))
		}
		return -(u*cos/sin - r*(1/sin-1))
	}), nil
}

// Trace returns what the tip would trace of the surface z: the path of its apex.
//
//	t(x) = max over u of z(x+u) - h(u)
func (p Tip) Trace(dst, z []float64, dx float64) ([]float64, error) {
	b, err := p.element(z, dx)
	if err != nil {
		return nil, err
	}
	dst = target(dst, z)
	b.over(dst, z, nil)
	return dst, nil
}

// Reconstruct returns what a trace says of the surface: no point of the surface lies above
//
//	ẑ(x) = min over u of t(x+u) + h(u)
//
// and where the tip touched, it lies there. known marks these points. The others lie below a stretch that the tip bridged at one
// of its places, from one contact to the next, and how deep the surface goes there no trace can tell. Contacts closer than a
// tenth of the tip radius, or than four samples, count as one stretch of contact (own choice: a bridge that short sinks by less than
// r/800).
func (p Tip) Reconstruct(dst, trace []float64, dx float64) (z []float64, known []bool, err error) {
	b, err := p.element(trace, dx)
	if err != nil {
		return nil, nil, err
	}
	n := len(trace)
	z = target(dst, trace)
	b.under(z, trace, nil)
	close := max(3, samples(p.Radius/10, dx))
	known = make([]bool, n)
	// The contacts of the tip at each place: from the first to the last point within rounding of touching.
	first, last := make([]int, n), make([]int, n)
	b.over(make([]float64, n), z, first)
	slack := 1e-9 * spanOf(trace)
	touch := func(x, j int) bool {
		d := distance(x, j)
		return d < len(b) && z[j]+b[d] >= trace[x]-slack
	}
	copy(last, first)
	for x := range n {
		// A bridge of the tip over a groove shows as a run of contacts on both sides of the one found.
		for first[x] > 0 && last[x]-first[x] <= close && touch(x, first[x]-1) {
			first[x]--
		}
		for last[x] < n-1 && last[x]-first[x] <= close && touch(x, last[x]+1) {
			last[x]++
		}
		if !touch(x, first[x]) || last[x]-first[x] > close {
			continue // nothing can stand like this, or a bridge
		}
		for j := first[x]; j <= last[x]; j++ {
			known[j] = true
		}
		if x > 0 && last[x-1]-first[x-1] <= close && first[x]-last[x-1] <= close {
			for j := last[x-1]; j < first[x]; j++ {
				known[j] = true
			}
		}
	}
	return z, known, nil
}
