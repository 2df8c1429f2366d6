package decide

import (
	"errors"
	"fmt"
	"math"

	"example.com/furrow/standards"
)

// GuardRule says how measurement uncertainty moves the limits that a value is held against.
type GuardRule string

// The three rules. The older and the newer ISO 14253-1 are both in use; each must be agreed or named.
const (
	Simple      GuardRule = ""            // no guard band, when agreed: the limit itself decides
	Probability GuardRule = "probability" // ISO 14253-1:2017: the chance of conforming is at least 95 %
	ExpandedU   GuardRule = "expanded"    // ISO 14253-1:1998: the whole expanded uncertainty
)

// Proof says who has to prove; the uncertainty counts against them.
type Proof string

// The three answers. The maker proves that a part conforms, the buyer that it does not.
const (
	Nobody Proof = "" // as agreed
	Maker  Proof = "maker"
	Buyer  Proof = "buyer"
)

// A Guard is the uncertainty of a measured value and how it is taken into account. The zero value is simple acceptance.
//
// The uncertainty is that of the measuring chain alone. The spread between places of a surface is already in the
// acceptance rule and is not counted twice (after ISO 4288:1996, 5.4; remembered). The guard bands are those of ISO 14253-1 (memory).
type Guard struct {
	Rule     GuardRule
	Proof    Proof
	Standard float64 // standard uncertainty u; 0: Expanded over K
	Expanded float64 // expanded uncertainty U
	K        float64 // coverage factor of Expanded; 0: 2
	Chance   float64 // of conforming, for Probability; 0: 0.95
}

// ErrUncertainty says that the uncertainty cannot be used as it is.
var ErrUncertainty = errors.New("decide: uncertainty must be a number of 0 or more")

// standard returns the standard and the expanded uncertainty.
func (g Guard) standard() (u, expanded float64, err error) {
	k := g.K
	if k == 0 {
		k = 2
	}
	u, expanded = g.Standard, g.Expanded
	if u == 0 {
		u = expanded / k
	}
	if expanded == 0 {
		expanded = u * k
	}
	if !(u >= 0) || !(expanded >= 0) || !finite(u) || !finite(expanded) || !(k > 0) {
		return 0, 0, ErrUncertainty
	}
	return u, expanded, nil
}

// simple reports whether the limit itself decides: no guard band.
func (g Guard) simple() bool {
	u, expanded, _ := g.standard()
	return g.Rule == Simple || u == 0 && expanded == 0
}

// chance returns the probability asked for.
func (g Guard) chance() float64 {
	if g.Chance == 0 {
		return 0.95
	}
	return g.Chance
}

// Bands returns how far inside the limits a value must lie to prove conformity, and how far outside to prove the
// opposite: the same distance. tolerance is the distance between two limits, and 0 or +Inf when there is one. accept is
// +Inf when two limits are so close that no value can prove conformity; then reject is that of one limit.
//
//	Φ(g/u) − Φ((g−T)/u) = 0.95        two limits T apart
//	g = 1.645 u                       one limit
//	g = U                             ISO 14253-1:1998
func (g Guard) Bands(tolerance float64) (accept, reject float64, err error) {
	u, expanded, err := g.standard()
	if err != nil {
		return 0, 0, err
	}
	switch g.Rule {
	case Simple:
		return 0, 0, nil
	case ExpandedU:
		if tolerance > 0 && 2*expanded > tolerance*(1+closeEnough) { // decimal fractions are not exact in binary
			return math.Inf(1), expanded, nil
		}
		return expanded, expanded, nil
	case Probability:
		p := g.chance()
		if !(p > 0.5) || !(p < 1) {
			return 0, 0, fmt.Errorf("decide: a probability of %g is not between one half and one", p)
		}
		if u == 0 {
			return 0, 0, nil
		}
		reject = normalQuantile(p) * u
		if !(tolerance > 0) || math.IsInf(tolerance, 1) {
			return reject, reject, nil
		}
		if accept = guardTwoSided(tolerance/u, p) * u; !math.IsInf(accept, 1) {
			reject = accept
		}
		return accept, reject, nil
	}
	return 0, 0, fmt.Errorf("decide: no guard rule %q", g.Rule)
}

// guardTwoSided solves Φ(g) − Φ(g−T) = p for the smaller g, in units of u; +Inf when no value has that chance.
func guardTwoSided(t, p float64) float64 {
	inside := func(g float64) float64 { return normalCDF(g) - normalCDF(g-t) }
	low, high := -10.0, float64(t/2)
	if inside(high) < p {
		return math.Inf(1)
	}
	_, high = bisect(low, high, func(g float64) bool { return inside(g) < p })
	return high
}

// ref names a place in a document.
func ref(doc, clause string, basis standards.Basis) standards.Ref {
	return standards.Ref{Doc: doc, Clause: clause, Basis: basis}
}
