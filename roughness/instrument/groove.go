package instrument

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"example.com/furrow/roughness"
	"example.com/furrow/standards/decide"
)

// A Groove is a wide groove with a flat bottom, type A1 of ISO 5436-1:2000, on a trace.
type Groove struct {
	Centre float64 // middle of the groove, from the start of the trace
	Width  float64 // between the edges at half depth
	Depth  float64 // positive
	Tilt   float64 // slope of the trace that was fitted with it
	Land   float64 // height of the upper line at the centre
	Rest   float64 // root mean square of what the fit leaves
	U      float64 // expanded uncertainty of Depth from what the fit leaves (95 %); the gain of the instrument is not in it
}

// ErrGroove is wrapped by the errors of [FindGroove] and [MeasureGroove].
var ErrGroove = errors.New("no measurable groove")

// MeasureGroove returns the depth of a groove whose place and width are known.
//
// Over three widths of the trace, the straight line a·x + b + h·δ is fitted by least squares, with δ = +1 on the land
// left and right and δ = -1 on the bottom; the third of a width next to each edge is left out, and of the bottom only the
// middle third counts. The depth is 2h, taken across the tilt: d = 2h·cos(arctan a).
//
// Its uncertainty is that of the fit, with neighbouring points as alike as what the fit leaves shows: u² = Σ Σ wᵢ wⱼ c(i - j), where d = Σ wᵢ zᵢ
// and c is the autocovariance of the rest, up to its first value below 0 at the distance L; it has n/(2L + 1) degrees of freedom.
//
// Source: ISO 5436-1:2000, assessment of type A1 (basis: memory); JCGM 100:2008, 5.2.2, correlated input quantities (basis: memory).
func MeasureGroove(p roughness.Profile, centre, width float64) (Groove, error) {
	if !(width > 0) || !finite(centre) || !finite(width) || !(p.Spacing > 0) {
		return Groove{}, fmt.Errorf("instrument: centre %g and width %g: %w", centre, width, ErrGroove)
	}
	end := float64(len(p.Z)-1) * p.Spacing
	if centre-1.5*width < -1e-9*width || centre+1.5*width > end*(1+1e-9) {
		return Groove{}, fmt.Errorf("instrument: the fit needs three widths of trace, from %.6g to %.6g µm, and the trace reaches from 0 to %.6g µm: %w",
			centre-1.5*width, centre+1.5*width, end, ErrGroove)
	}
	// Sums of the normal equations for a, b, h, with x counted from the centre in widths.
	var n, su, suu, sd, sud, sz, suz, sdz float64
	var counts [2]int
	each := func(visit func(i int, u, delta, z float64)) {
		for i, z := range p.Z {
			u := (float64(i)*p.Spacing - centre) / width
			v := math.Abs(u)
			if math.IsNaN(z) {
				continue
			}
			switch {
			case v <= 1.0/6+1e-12:
				visit(i, u, -1, z)
			case v >= 5.0/6-1e-12 && v <= 1.5+1e-12:
				visit(i, u, 1, z)
			}
		}
	}
	base := math.NaN()
	each(func(_ int, u, delta, z float64) {
		if math.IsNaN(base) {
			base = z // heights far from zero lose nothing
		}
		z -= base
		n++
		su += u
		suu += float64(u * u)
		sd += delta
		sud += float64(u * delta)
		sz += z
		suz += float64(u * z)
		sdz += float64(delta * z)
		counts[int(delta+1)/2]++
	})
	if counts[0] < 3 || counts[1] < 6 {
		return Groove{}, fmt.Errorf("instrument: %d points on the bottom and %d beside it are too few: %w", counts[0], counts[1], ErrGroove)
	}
	x, ok := solve3([3][4]float64{{suu, su, sud, suz}, {su, n, sd, sz}, {sud, sd, n, sdz}})
	if !ok {
		return Groove{}, fmt.Errorf("instrument: the fit is singular: %w", ErrGroove)
	}
	// The weights that the fit gives to each point for h: the row of h in the inverse of the normal equations.
	row, _ := solve3([3][4]float64{{suu, su, sud, 0}, {su, n, sd, 0}, {sud, sd, n, 1}})
	rest := 0.0
	leaves, weights := make([]float64, len(p.Z)), make([]float64, len(p.Z)) // 0 where a point does not count
	each(func(i int, u, delta, z float64) {
		r := z - base - float64(x[0]*u) - x[1] - float64(x[2]*delta)
		rest += float64(r * r)
		leaves[i], weights[i] = r, float64(row[0]*u)+row[1]+float64(row[2]*delta)
	})
	g := Groove{Centre: centre, Width: width, Tilt: x[0] / width, Land: base + x[1] + x[2], Rest: math.Sqrt(rest / n)}
	cos := math.Cos(math.Atan(g.Tilt))
	g.Depth = 2 * x[2] * cos
	variance, dof := propagated(leaves, weights, int(n))
	c := decide.Contribution{Name: "fit", U: math.Sqrt(variance), Sensitivity: 2 * cos, DoF: dof}
	sum, err := decide.Budget{Contributions: []decide.Contribution{c}}.Combine()
	if err != nil {
		return Groove{}, fmt.Errorf("instrument: %w: %w", ErrGroove, err)
	}
	g.U = sum.Expanded
	return g, nil
}

// propagated is the variance of Σ wᵢ zᵢ, where the scatter of z is that of what a fit of three numbers to n points leaves, alike over the
// distance that its autocovariance shows, and the degrees of freedom of that variance.
func propagated(leaves, weights []float64, n int) (variance, dof float64) {
	var sum, first, all float64
	last := 0
	for lag := range n / 4 {
		c, w, pairs := 0.0, 0.0, 0
		for i := lag; i < len(leaves); i++ {
			if weights[i] != 0 && weights[i-lag] != 0 {
				c += float64(leaves[i] * leaves[i-lag])
				pairs++
			}
			w += float64(weights[i] * weights[i-lag])
		}
		if pairs == 0 || lag > 0 && c <= 0 {
			break
		}
		c /= float64(pairs)
		if lag == 0 {
			first, all = c, c
		} else {
			w *= 2
			all += 2 * c
		}
		sum += float64(c * w)
		last = lag
	}
	if first > 0 { // three numbers were fitted, each to as many points as are alike
		sum /= max(0.1, 1-3*all/first/float64(n))
	}
	return max(0, sum), math.Max(1, math.Floor(float64(n)/float64(2*last+1)))
}

// solve3 solves three linear equations by elimination with pivots.
func solve3(m [3][4]float64) (x [3]float64, ok bool) {
	for c := range 3 {
		best := c
		for r := c + 1; r < 3; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[best][c]) {
				best = r
			}
		}
		m[c], m[best] = m[best], m[c]
		if m[c][c] == 0 {
			return x, false
		}
		for r := c + 1; r < 3; r++ {
			f := m[r][c] / m[c][c]
			for k := c; k < 4; k++ {
				m[r][k] -= float64(f * m[c][k])
			}
		}
	}
	for r := 2; r >= 0; r-- {
		x[r] = m[r][3]
		for k := r + 1; k < 3; k++ {
			x[r] -= float64(m[r][k] * x[k])
		}
		x[r] /= m[r][r]
	}
	return x, true
}

// FindGroove looks for the widest stretch of the trace that lies below half way between land and bottom, and measures it.
// The trace is levelled by the line through the medians of its first and last fifth first (own choice).
func FindGroove(p roughness.Profile) (Groove, error) {
	n := len(p.Z)
	if n < 30 {
		return Groove{}, fmt.Errorf("instrument: %d points: %w", n, ErrGroove)
	}
	for i, z := range p.Z {
		if math.IsNaN(z) {
			return Groove{}, fmt.Errorf("instrument: point %d has no height: %w", i+1, ErrGroove)
		}
	}
	fifth := n / 5
	left, right := median(p.Z[:fifth]), median(p.Z[n-fifth:])
	slope := (right - left) / float64(n-fifth)
	z := make([]float64, n)
	for i := range z {
		z[i] = p.Z[i] - left - slope*(float64(i)-float64(fifth-1)/2)
	}
	half := slices.Min(z) / 2
	from, to := 0, 0
	for i := 0; i < n; i++ {
		j := i
		for j < n && z[j] < half {
			j++
		}
		if j-i > to-from {
			from, to = i, j
		}
		i = max(i, j)
	}
	if from == 0 || to == n || to-from < 6 {
		return Groove{}, fmt.Errorf("instrument: no stretch of the trace lies between two higher ones: %w", ErrGroove)
	}
	// The edges, where the trace crosses the half height between two points.
	cross := func(i int) float64 { return (float64(i) + (half-z[i])/(z[i+1]-z[i])) * p.Spacing }
	a, b := cross(from-1), cross(to-1)
	return MeasureGroove(p, (a+b)/2, b-a)
}

func median(z []float64) float64 {
	s := slices.Clone(z)
	slices.Sort(s)
	m := len(s) / 2
	if len(s)%2 == 1 {
		return s[m]
	}
	return (s[m-1] + s[m]) / 2
}
