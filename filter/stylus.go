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
	if err := checkLength(dx, ErrSpacing); err != nil {
		return nil, err
	}
	if !(p.Radius >= 1/huge && p.Radius <= huge && cone > 1 && cone < 179) {
		return nil, fmt.Errorf("filter: tip of radius %v and cone %v°: %w", p.Radius, p.Cone, ErrOption)
	}
	if err := checkHeights(z, nil); err != nil {
		return nil, err
	}
	sin, cos := sincos(cone / 2 * math.Pi / 180)
	r, tangent := p.Radius, p.Radius*cos
	return sample(len(z), dx, spanOf(z), len(z), func(u float64) float64 {
		if u <= tangent {
			q := u / r
			return -u * q / (1 + math.Sqrt((1-q)*(1+q)))
		}
		return -(u*cos/sin - float64(r*(1/sin-1)))
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
	b.over(dst, z)
	return dst, nil
}
