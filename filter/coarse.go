package filter

import (
	"math"
	"slices"
	"sync"
)

// A wide bell leaves nothing of short waves, so that a mean line of order 2 is computed at knots, a stride apart, and a curve is laid through
// them. Three things keep it within 1e-13 of the range of sums at every point:
//
//   - The moments at the knots are whole: thin folds the spectrum, it leaves nothing out.
//   - The bell ends at its half width, where it is not yet zero. Each point that enters there or leaves makes a step in the mean line, too small
//     to matter and too sharp for a curve. cut sums these steps at every point, and the curve is laid through the rest.
//   - The differences of the rest tell what the curve may be off by. Where that is too much, as at a stretch with hardly a weight, the
//     moments are computed at every point.
const (
	curvePoints = 12     // knots of a curve
	before      = 6      // knots before the first point: one more than the curve needs
	curveOff    = 5.6e-5 // of the difference of that order: half way between two points
	farPoints   = 6      // knots of a curve through what happens at the half width
	fewest      = 64     // strides in a cut-off
	mostEdge    = 1e-10  // of the bell where it ends
	mostCut     = 3e-7   // of the highest point: as exact as farPoints are
	mostOff     = 1e-14  // of the highest point: between two knots
	mostBend    = 2e-13  // of the highest point: 8 times what a straight line may be off by
)

// A knot is the fit at one point: its value, and for each side four functions at the distance half: how much a height there pulls at the
// value, the same times the fitted height there, and how fast both grow outwards, in halves.
type knot struct {
	value float64
	far   [2][4]float64
}

// knotRooms are slices of knots to work in, lent to the next evaluation.
var knotRooms = sync.Pool{New: func() any { return new([]knot) }}

// coarseness returns the power of 2 that is the stride, 0 where the moments are computed at every point.
func (w *window) coarseness(order int) (shift int) {
	if order == 2 && w.g[w.half] <= mostEdge {
		for float64(int(4*fewest)<<shift) <= w.m {
			shift += 2 // a whole stage of the transform
		}
	}
	return shift
}

// knotOf fits the parabola as local does. The value is NaN where a lower order would do, or nearly.
func knotOf(s *[5]float64, t *[3]float64, total float64) (k knot) {
	const well = 100 // times better than a fit must be
	e, c := s[1]/s[0], s[2]/s[0]
	d1 := s[2] - float64(e*s[1])
	f := (s[3] - float64(e*s[2])) / d1
	d2 := s[4] - float64(f*f*d1) - float64(c*s[2])
	q := float64(f*e) - c
	least := float64(well * leastSpread * total)
	if !(s[0] >= float64(well*leastWeight*total) && d1 > least && float64(e*e*s[0]*well) <= mostLever*d1 &&
		d2 > least && float64(q*q*s[0]*well) <= mostLever*d2) {
		k.value = math.NaN()
		return k
	}
	mean := t[0] / s[0]
	h1 := (t[1] - float64(e*t[0])) / d1
	h2 := (t[2] - float64(f*h1*d1) - float64(c*t[0])) / d2
	k.value = mean - float64(e*h1) + float64(q*h2)
	for side, x := range [2]float64{-1, 1} {
		q1 := x - e
		q2 := 1 - float64(f*q1) - c
		r2 := 2 - float64(f*x) // slopes of q1 and q2 outwards: x and r2
		pull := 1/s[0] - float64(e*q1/d1) + float64(q*q2/d2)
		grow := float64(q*r2/d2) - float64(e*x/d1)
		fit := mean + float64(q1*h1) + float64(q2*h2)
		rise := float64(x*h1) + float64(r2*h2)
		k.far[side] = [4]float64{pull, float64(pull * fit), grow, float64(grow*fit) + float64(pull*rise)}
	}
	return k
}

// coarse fits the parabola to weights and weighted heights, into dst, and says whether it could.
func (w *window) coarse(dst, heavy, weight []float64, shift int) bool {
	stride := 1 << shift
	margin := before * stride
	half := (w.half + stride - 1) / stride * stride
	count := (len(dst)-1)/stride + 2*before + 2
	b := w.bank("moments", 4, blockSize(count*stride, 1, half), func() []kernel { return w.kernels(4) })
	small := transformOf(b.t.size / stride)
	place := knotRooms.Get().(*[]knot)
	defer knotRooms.Put(place)
	*place = slices.Grow((*place)[:0], count)[:count]
	knots := *place
	total := w.total()
	together(count*stride, b.t.size-2*half, func(at, points int) {
		buf := borrow(b.t.size)
		defer buf.giveBack()
		s, t := buf.moments()
		buf.load(weight, at-margin-half, heavy, at-margin-half)
		b.t.forward(buf.x)
		for k, y := range b.thin(buf, stride) {
			small.backward(y)
			for i, c := range y[half/stride:][:points/stride] {
				s[i][k] = real(c)
				if k <= 2 {
					t[i][k] = imag(c)
				}
			}
		}
		for i := range points / stride {
			knots[at/stride+i] = knotOf(&s[i], &t[i], total)
		}
	})
	if slices.ContainsFunc(knots, func(k knot) bool { return math.IsNaN(k.value) }) {
		return false
	}
	room := lend((count-1)*stride + 1)
	defer giveBack(room)
	cut := *room
	w.cut(cut, heavy, weight, knots, shift)
	spare := lend(count)
	defer giveBack(spare)
	rest := *spare
	for i, k := range knots {
		rest[i] = k.value - cut[i<<shift]
	}
	if !(float64(curveOff*sharpest(rest[1:count-1])) <= mostOff && highest(cut) <= mostCut) {
		return false
	}
	table := curve(curvePoints, stride)[(curvePoints/2-1)*stride*curvePoints:]
	for place := range stride {
		row := (*[curvePoints]float64)(table[place*curvePoints:])
		for i := place; i < len(dst); i += stride {
			near := (*[curvePoints]float64)(rest[i>>shift+1:])
			dst[i] = cut[i+margin] +
				float64(row[0]*near[0]) + float64(row[1]*near[1]) + float64(row[2]*near[2]) + float64(row[3]*near[3]) +
				float64(row[4]*near[4]) + float64(row[5]*near[5]) + float64(row[6]*near[6]) + float64(row[7]*near[7]) +
				float64(row[8]*near[8]) + float64(row[9]*near[9]) + float64(row[10]*near[10]) + float64(row[11]*near[11])
		}
	}
	return true
}

// thin multiplies the spectrum x of a buffer by those of the moments and folds the products, of which the transform back gives every stride-th
// point of the whole answers. Coefficients that are folded together are neighbours in the order of the stages. The first takes the place of the
// spectrum, the others that of y.
func (b *bank) thin(buf *buffer, stride int) (folded [5][]complex128) {
	size := b.t.size / stride
	folded[0] = buf.x[:size]
	for k := range 4 {
		folded[k+1] = buf.y[k*size:][:size]
	}
	y1, y2, y3, y4 := folded[1], folded[2], folded[3], folded[4]
	for i := range size {
		x := buf.x[i*stride:][:stride]
		s0, s1, s2 := b.spectra[0][i*stride:][:len(x)], b.spectra[1][i*stride:][:len(x)], b.spectra[2][i*stride:][:len(x)]
		s3, s4 := b.spectra[3][i*stride:][:len(x)], b.spectra[4][i*stride:][:len(x)]
		var r0, i0, r1, i1, r2, i2, r3, i3, r4, i4 float64
		for j, c := range x {
			re, im := real(c), imag(c)
			r0, i0 = r0+float64(re*s0[j]), i0+float64(im*s0[j])
			r1, i1 = r1+float64(re*s1[j]), i1+float64(im*s1[j])
			r2, i2 = r2+float64(re*s2[j]), i2+float64(im*s2[j])
			r3, i3 = r3+float64(re*s3[j]), i3+float64(im*s3[j])
			r4, i4 = r4+float64(re*s4[j]), i4+float64(im*s4[j])
		}
		// Times the conjugate of an imaginary number where the moment is odd: these are correlations.
		buf.x[i] = complex(r0, i0)
		y1[i], y2[i], y3[i], y4[i] = complex(i1, -r1), complex(r2, i2), complex(i3, -r3), complex(r4, i4)
	}
	return folded
}

// cut is what the fit lacks because the bell ends, at the points from the second knot to the last but one. Beyond, the bell falls like an
// exponential at first, and what a height does grows evenly at first: values and slopes of the sums are right there, so that the steps are.
func (w *window) cut(dst, heavy, weight []float64, knots []knot, shift int) {
	n, stride, edge := len(heavy), 1<<shift, w.g[w.half]
	am, h := float64(w.a*w.m), float64(w.half)
	fall := exp(-math.Pi * float64(2*h+1) / float64(am*am))
	step := fall / h
	most := edge / (1 - fall)
	far := most / (1 - fall) / h
	reach := [4]float64{most, most, far, far}
	table := curve(farPoints, stride)
	clear(dst)
	heavy, weight = heavy[:n], weight[:n]
	for side := range 2 {
		// Sums over what lies beyond, of the weighted heights and of the weights; and each times the distance beyond in halves.
		var t, s, t1, s1 float64
		for cell := range len(knots) - 1 {
			way, from, to := 1, cell, cell+1
			if side == 1 {
				way, from, to = -1, len(knots)-1-cell, len(knots)-2-cell
			}
			at := from << shift
			source := at - before*stride - way*w.half
			if last := source + way*stride; max(source, last) < 0 || min(source, last) >= n {
				if t == 0 && s == 0 {
					continue // no point has left the bell yet
				}
			}
			far, rise, straight := straight(knots, side, from, to, 1/float64(stride), &reach)
			first := max(0, min(from, to, len(knots)-farPoints+2)-2)
			near := (*[farPoints]knot)(knots[first:])
			a, b, c, d := far[0], far[1], far[2], far[3]
			for range stride {
				dst[at] -= float64(edge * (float64(a*t) - float64(b*s) + float64(c*t1) - float64(d*s1)))
				if source >= 0 && source < n {
					t += heavy[source]
					s += weight[source]
				}
				t1, s1 = float64(t1*fall)+float64(t*step), float64(s1*fall)+float64(s*step)
				t, s = float64(t*fall), float64(s*fall)
				at += way
				source += way
				if straight {
					a, b, c, d = a+rise[0], b+rise[1], c+rise[2], d+rise[3]
					continue
				}
				row := (*[farPoints]float64)(table[(at-first<<shift)*farPoints:])
				a, b, c, d = 0, 0, 0, 0
				for k, r := range row {
					f := &near[k].far[side]
					a, b, c, d = a+float64(r*f[0]), b+float64(r*f[1]), c+float64(r*f[2]), d+float64(r*f[3])
				}
			}
		}
	}
}

// straight returns what far is at a knot, how it changes from point to point towards the next one, and whether it may be taken to change
// evenly. reach is the greatest sum, at the height of the bell where it ends, and that times the distance beyond.
func straight(knots []knot, side, from, to int, share float64, reach *[4]float64) (far, rise [4]float64, ok bool) {
	far = knots[from].far[side]
	next := &knots[to].far[side]
	for k := range far {
		rise[k] = float64((next[k] - far[k]) * share)
	}
	after, behind := 2*to-from, 2*from-to
	if min(after, behind) < 0 || max(after, behind) >= len(knots) {
		return far, rise, false
	}
	p, q := &knots[behind].far[side], &knots[after].far[side]
	for k, a := range far {
		b := next[k]
		if !(math.Abs(p[k]-2*a+b)*reach[k] <= mostBend && math.Abs(a-2*b+q[k])*reach[k] <= mostBend) {
			return far, rise, false
		}
	}
	return far, rise, true
}

var curves sync.Map // [2]int{points, stride} -> []float64

// curve returns the weights of values at 0, stride, 2·stride ... in the polynomial through them: those at the place 0, then those at 1 ...
func curve(points, stride int) []float64 {
	key := [2]int{points, stride}
	if c, ok := curves.Load(key); ok {
		return c.([]float64)
	}
	var c []float64
	for at := range (points-1)*stride + 1 {
		for k := range points {
			v := 1.0
			for j := range points {
				if j != k {
					v = float64(v*float64(at-j*stride)) / float64((k-j)*stride)
				}
			}
			c = append(c, v)
		}
	}
	kept, _ := curves.LoadOrStore(key, c)
	return kept.([]float64)
}

// sharpest returns the greatest difference of the order of the curve.
func sharpest(v []float64) float64 {
	var binomial [curvePoints + 1]float64
	binomial[0] = 1
	for k := range curvePoints {
		binomial[k+1] = float64(-binomial[k]*float64(curvePoints-k)) / float64(k+1)
	}
	most := 0.0
	for ; len(v) >= len(binomial); v = v[1:] {
		d := 0.0
		for k, x := range v[:len(binomial)] {
			d += float64(binomial[k] * x)
		}
		most = max(most, math.Abs(d))
	}
	return most
}
