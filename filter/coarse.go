package filter

import (
	"math"
	"math/bits"
	"slices"
	"sync"
)

// A wide bell leaves nothing of short waves, so that a mean line of order 2 is computed at knots, a stride apart, and a curve is laid through
// them. What is wide in the mean line is wide in the sums that make it: weights and heights are gathered at the knots, by the weights of the same
// curve, before they meet the bell. Three things keep the mean line as near to
// sums at every point as transforms of whole profiles come, 1e-14 of the range in the middle and 1e-13 at the ends:
//
//   - The bell ends at its half width, where it is not yet zero, and an end is too sharp for a curve. At the knots it goes on, falling like an
//     exponential, and its moments go on evenly.
//   - cut takes away what that adds, at every point: sums over an exponential need one step from point to point.
//   - The differences of the values tell what the curve may be off by. Where that is too much, as at a stretch with hardly a weight, the
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
	if order == 2 && w.g[w.half] <= mostEdge && w.m >= 4*fewest { // with a stride of 2 nothing is gained
		shift = bits.Len(uint(w.m/fewest)) - 1
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
	count := (len(dst)-1)/stride + 2*before + 2
	place := knotRooms.Get().(*[]knot)
	defer knotRooms.Put(place)
	*place = slices.Grow((*place)[:0], count)[:count]
	knots := *place
	one, other := lend(count), lend(count)
	defer giveBack(one)
	defer giveBack(other)
	dealOut(*one, heavy, shift)
	dealOut(*other, weight, shift)
	tail := w.exponential()
	reach := (w.half + tail.reach) >> shift
	b := w.bank("knots", shift, blockSize(count, 1, reach), func() []kernel { return w.goingOn(&tail, reach, stride) })
	total := w.total()
	transformMoments(*one, *other, 2, b, func(i int, s *[5]float64, t *[3]float64) { knots[i] = knotOf(s, t, total) })
	if slices.ContainsFunc(knots, func(k knot) bool { return math.IsNaN(k.value) }) {
		return false
	}
	values := *one
	for i, k := range knots {
		values[i] = k.value
	}
	if !(float64(curveOff*sharpest(values[1:count-1])) <= mostOff) {
		return false
	}
	w.cut(dst, heavy, weight, knots, shift)
	if !(highest(dst) <= mostCut) {
		return false
	}
	lay(dst, values, shift)
	return true
}

// A fold is the row of a curve at a place between two knots and at the place as far from the other knot, which has the same weights the other way round:
// half the sums of the two rows, then half their differences, each from the outermost knots inwards.
type fold [curvePoints]float64

// folds returns those of the places 1, 2 ... stride/2.
func folds(stride int) []fold {
	if f, ok := foldsOf.Load(stride); ok {
		return f.([]fold)
	}
	rows := curve(curvePoints, stride)[(curvePoints/2-1)*stride*curvePoints:]
	f := make([]fold, stride/2)
	for i := range f {
		row := rows[(i+1)*curvePoints:][:curvePoints]
		for k := range curvePoints / 2 {
			f[i][k], f[i][curvePoints/2+k] = (row[k]+row[curvePoints-1-k])/2, (row[k]-row[curvePoints-1-k])/2
		}
	}
	kept, _ := foldsOf.LoadOrStore(stride, f)
	return kept.([]fold)
}

var foldsOf sync.Map // stride -> []fold

// lay adds to dst the curve through the values of the knots.
func lay(dst, values []float64, shift int) {
	stride := 1 << shift
	all := folds(stride)
	for at := 0; len(dst) > 0; at++ {
		v := (*[curvePoints]float64)(values[at+1:])
		s0, s1, s2, s3, s4, s5 := v[0]+v[11], v[1]+v[10], v[2]+v[9], v[3]+v[8], v[4]+v[7], v[5]+v[6]
		d0, d1, d2, d3, d4, d5 := v[0]-v[11], v[1]-v[10], v[2]-v[9], v[3]-v[8], v[4]-v[7], v[5]-v[6]
		here := dst[:min(stride, len(dst))]
		dst = dst[len(here):]
		here[0] += v[curvePoints/2-1]
		for i := range all {
			f, place, other := &all[i], i+1, stride-i-1
			even := float64(f[0]*s0) + float64(f[1]*s1) + float64(f[2]*s2) + float64(f[3]*s3) + float64(f[4]*s4) + float64(f[5]*s5)
			odd := float64(f[6]*d0) + float64(f[7]*d1) + float64(f[8]*d2) + float64(f[9]*d3) + float64(f[10]*d4) + float64(f[11]*d5)
			if place < len(here) {
				here[place] += even + odd
			}
			if other < len(here) && other != place {
				here[other] += even - odd
			}
		}
	}
}

// dealOut gives each knot what the points around it hold, each point dealt out by the weights that a curve through the knots has there: a sum over
// the points of what a curve runs through is then the same sum over the knots.
func dealOut(dst, x []float64, shift int) {
	stride := 1 << shift
	all := folds(stride)
	clear(dst)
	for at := 0; len(x) > 0; at++ {
		if len(x) < stride {
			room := lend(stride)
			defer giveBack(room)
			clear((*room)[copy(*room, x):])
			x = *room
		}
		here := x[:stride]
		x = x[stride:]
		var s0, s1, s2, s3, s4, s5, d0, d1, d2, d3, d4, d5 float64
		for i := range all {
			f := &all[i]
			a, b := here[i+1], here[stride-i-1]
			s, d := a+b, a-b
			if i == len(all)-1 { // the middle, which has no other place
				s = a
			}
			s0 += float64(f[0] * s)
			s1 += float64(f[1] * s)
			s2 += float64(f[2] * s)
			s3 += float64(f[3] * s)
			s4 += float64(f[4] * s)
			s5 += float64(f[5] * s)
			d0 += float64(f[6] * d)
			d1 += float64(f[7] * d)
			d2 += float64(f[8] * d)
			d3 += float64(f[9] * d)
			d4 += float64(f[10] * d)
			d5 += float64(f[11] * d)
		}
		near := (*[curvePoints]float64)(dst[at+1:])
		near[0], near[11] = near[0]+s0+d0, near[11]+s0-d0
		near[1], near[10] = near[1]+s1+d1, near[10]+s1-d1
		near[2], near[9] = near[2]+s2+d2, near[9]+s2-d2
		near[3], near[8] = near[3]+s3+d3, near[8]+s3-d3
		near[4], near[7] = near[4]+s4+d4, near[7]+s4-d4
		near[5], near[6] = near[5]+s5+d5+here[0], near[6]+s5-d5
	}
}

// An exponential is what a bell falls like from where it ends.
type exponential struct {
	edge, fall float64 // of the bell at its half width, and from one point to the next
	rate       float64 // fall is e^(-rate)
	reach      int     // points until nothing is left
}

func (w *window) exponential() exponential {
	am := float64(w.a * w.m)
	e := exponential{edge: w.g[w.half], rate: math.Pi * float64(2*w.half+1) / float64(am*am)}
	e.fall = exp(-e.rate)
	e.reach = int(44 / e.rate) // e^-44 is 1e-19
	return e
}

// goingOn returns the kernels of the moments at knots, up to reach strides: those of the bell, and beyond its end an exponential times what u^k grows by
// where the bell ends.
func (w *window) goingOn(tail *exponential, reach, stride int) []kernel {
	var kernels []kernel
	for k := range 5 {
		taps := make([]float64, reach+1)
		for j := range taps {
			if u := j * stride; u <= w.half {
				taps[j] = float64(w.g[u] * power(w.distance(u), k))
			} else {
				beyond := float64(u - w.half)
				taps[j] = float64(float64(tail.edge*exp(-float64(tail.rate*beyond))) * (1 + float64(k)*beyond/float64(w.half)))
			}
		}
		kernels = append(kernels, kernel{taps, k%2 == 1})
	}
	return kernels
}

// cut is what the fit has too much because the bell goes on at the knots, with its sign turned. What a height does beyond the end is taken to change
// evenly, as the moments do there.
func (w *window) cut(dst, heavy, weight []float64, knots []knot, shift int) {
	n, stride := len(heavy), 1<<shift
	tail := w.exponential()
	fall := tail.fall
	most := tail.edge / (1 - fall)
	far := most / (1 - fall) / float64(w.half)
	reach := [4]float64{most, most, far, far}
	// what far is multiplied by: the sums count the distance beyond in points
	unit := [4]float64{-tail.edge, tail.edge, -tail.edge / float64(w.half), tail.edge / float64(w.half)}
	table := curve(farPoints, stride)
	clear(dst)
	dst = dst[:n]
	for side, way := range [2]int{1, -1} {
		// Sums over what lies beyond, of the weighted heights and of the weights; and each times the distance beyond.
		var t, s, t1, s1 float64
		at, end := w.half, n // points from which something lies beyond
		if way < 0 {
			at, end = n-1-w.half, -1
		}
		for (end-at)*way > 0 {
			cell := at >> shift
			last := min((cell+1)<<shift, n) // behind the last point of the cell
			if way < 0 {
				last = cell<<shift - 1
			}
			length := stride / parts(knots, side, cell+before, stride, &reach)
			var now [4]float64 // far where a part begins
			for first := true; at != last; first = false {
				place := at & (stride - 1)
				lo := place &^ (length - 1)
				begin, finish := lo, lo+length
				stop := min(cell<<shift+finish, n)
				if way < 0 {
					begin, finish, stop = finish, lo, cell<<shift+lo-1
				}
				if first {
					now = farAt(knots, side, cell+before, begin, stride, table, &unit)
				}
				next := farAt(knots, side, cell+before, finish, stride, table, &unit)
				var far, rise [4]float64
				for k := range far {
					rise[k] = float64((next[k] - now[k]) / float64(length))
					far[k] = now[k] + float64(rise[k]*float64((place-begin)*way))
				}
				a, b, c, d := far[0], far[1], far[2], far[3]
				ra, rb, rc, rd := rise[0], rise[1], rise[2], rise[3]
				for from := at - way*w.half; at != stop; at, from = at+way, from+way {
					dst[at] += float64(a*t) + float64(b*s) + float64(c*t1) + float64(d*s1)
					t, s = float64((t+heavy[from])*fall), float64((s+weight[from])*fall)
					t1, s1 = float64(t1*fall)+t, float64(s1*fall)+s
					a, b, c, d = a+ra, b+rb, c+rc, d+rd
				}
				now = next
			}
		}
	}
}

// parts says into how many parts, a power of 2, what lies between a knot and the next one is cut, so that far may be taken to change evenly in each.
// reach is the greatest sum, at the height of the bell where it ends, and that times the distance beyond.
func parts(knots []knot, side, at, stride int, reach *[4]float64) int {
	a, b, c, d := &knots[at-1].far[side], &knots[at].far[side], &knots[at+1].far[side], &knots[at+2].far[side]
	bend := 0.0
	for k, r := range reach {
		bend = max(bend, math.Abs(a[k]-2*b[k]+c[k])*r, math.Abs(b[k]-2*c[k]+d[k])*r)
	}
	n := 1
	for n < stride && !(bend <= mostBend*float64(n*n)) {
		n *= 2
	}
	return n
}

// farAt is far at a place behind a knot, up to the next one, by a curve through the knots around, each function times its unit.
func farAt(knots []knot, side, at, place, stride int, table []float64, unit *[4]float64) (far [4]float64) {
	if place == 0 || place == stride {
		far = knots[at+place/stride].far[side]
	} else {
		row := (*[farPoints]float64)(table[(farPoints/2-1)*stride*farPoints+place*farPoints:])
		near := (*[farPoints]knot)(knots[at-farPoints/2+1:])
		for k, r := range row {
			f := &near[k].far[side]
			far[0], far[1] = far[0]+float64(r*f[0]), far[1]+float64(r*f[1])
			far[2], far[3] = far[2]+float64(r*f[2]), far[3]+float64(r*f[3])
		}
	}
	return [4]float64{far[0] * unit[0], far[1] * unit[1], far[2] * unit[2], far[3] * unit[3]}
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
