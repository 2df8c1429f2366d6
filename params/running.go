package params

import "math"

// Running computes values of a profile that is too long to hold, from heights that come in turn: averages of the heights and the slopes,
// and extremes, of the evaluation length and of the sections. They are those of [Evaluate] but for rounding (1e-12 of the value). Everything
// else needs all heights at once and has a reason in place of a value.
//
// Set Input and Calls, then Add heights. It keeps a block of heights and a few sums for each section.
type Running struct {
	Input Input // without Z and Tail; Flat may be set as late as Values
	Calls []Call

	near     []float64 // heights that are not counted yet, behind some that are
	counted  int       // of near
	sections []tally
	whole    tally
	slope    []float64
}

// runningBlock is the number of heights that are summed up as one.
const runningBlock = 1 << 14

// A tally holds sums over the blocks of a piece of the profile.
type tally struct {
	points                      int
	mean, square, cube, fourth  float64 // points times Ra, Rq², Rsk·Rq³ and Rku·Rq⁴ of each block
	high, low                   float64
	slopes                      int
	gradient, gradient2, excess float64 // slopes times Rda, Rdq² and Rdr of each block, Rdr as a number
	steepest                    float64
}

// add counts a block of heights, and the slopes in it.
func (t *tally) add(z, slope []float64) {
	n, q := float64(len(z)), Rq(z)
	t.mean += float64(n * Ra(z))
	t.square += float64(n * q * q)
	if q > 0 {
		t.cube += float64(n * skewness(z, 0) * q * q * q)
		t.fourth += float64(n * kurtosis(z, 0) * q * q * q * q)
	}
	high, low := extremeIndices(z)
	if t.points == 0 {
		t.high, t.low = z[high], z[low]
	}
	t.high, t.low = max(t.high, z[high]), min(t.low, z[low])
	t.points += len(z)
	if len(slope) > 0 {
		n, q := float64(len(slope)), Rq(slope)
		t.gradient += float64(n * Ra(slope))
		t.gradient2 += float64(n * q * q)
		t.excess += float64(n * meanStretch(slope))
		t.steepest = max(t.steepest, largest(slope))
		t.slopes += len(slope)
	}
}

// join adds another piece.
func (t *tally) join(o *tally) {
	if t.points == 0 {
		t.high, t.low = o.high, o.low
	}
	t.points += o.points
	t.mean += o.mean
	t.square += o.square
	t.cube += o.cube
	t.fourth += o.fourth
	t.high, t.low = max(t.high, o.high), min(t.low, o.low)
	t.slopes += o.slopes
	t.gradient += o.gradient
	t.gradient2 += o.gradient2
	t.excess += o.excess
	t.steepest = max(t.steepest, o.steepest)
}

func (t *tally) rq() float64 { return math.Sqrt(t.square / float64(t.points)) }

// shape is a mean of powers over that power of Rq, NaN when the piece is flat.
func (t *tally) shape(sum, flat float64, power int) float64 {
	q := t.rq()
	if !(q > flat) {
		return nan
	}
	v := sum / float64(t.points)
	for range power {
		v /= q
	}
	return v
}

// bySlopes is a mean over the slopes, NaN without one.
func (t *tally) bySlopes(sum float64) float64 { return sum / float64(t.slopes) }

// A tallied parameter follows from a tally. What it lacks where it has no value is said as its row says it.
type tallied struct {
	of       func(t *tally, flat, dx float64) float64
	sections bool // they are shown beside a value of the evaluation length
	what     string
	none     string
}

func talliedHeight(of func(t *tally, flat, dx float64) float64) tallied {
	return tallied{of, true, lacksShape, allFlat}
}

func talliedSlope(of func(t *tally, flat, dx float64) float64) tallied {
	return tallied{of, false, lacksSlope, reasonSlope}
}

var (
	talliedPeak  = talliedHeight(func(t *tally, _, _ float64) float64 { return t.high })
	talliedPit   = talliedHeight(func(t *tally, _, _ float64) float64 { return -t.low })
	talliedTotal = talliedHeight(func(t *tally, _, _ float64) float64 { return t.high - t.low })
)

// runningRows are the parameters that follow from tallies, by key.
var runningRows = map[string]tallied{
	"Ra":  talliedHeight(func(t *tally, _, _ float64) float64 { return t.mean / float64(t.points) }),
	"Rq":  talliedHeight(func(t *tally, _, _ float64) float64 { return t.rq() }),
	"Rsk": talliedHeight(func(t *tally, flat, _ float64) float64 { return t.shape(t.cube, flat, 3) }),
	"Rku": talliedHeight(func(t *tally, flat, _ float64) float64 { return t.shape(t.fourth, flat, 4) }),
	"Rp":  talliedPeak, "Rv": talliedPit, "Rz": talliedTotal, "Rmax": talliedTotal,
	"Rpt": alone(talliedPeak), "Rvt": alone(talliedPit), "Rt": alone(talliedTotal),
	"Rda": talliedSlope(func(t *tally, _, _ float64) float64 { return t.bySlopes(t.gradient) }),
	"Rdq": talliedSlope(func(t *tally, _, _ float64) float64 { return math.Sqrt(t.bySlopes(t.gradient2)) }),
	"Rdt": talliedSlope(func(t *tally, _, _ float64) float64 { return t.steepest + t.bySlopes(0) }),
	"Rdl": talliedSlope(func(t *tally, _, dx float64) float64 { return float64(t.points) * dx * (1 + t.bySlopes(t.excess)) }),
	"Rdr": talliedSlope(func(t *tally, _, _ float64) float64 { return 100 * t.bySlopes(t.excess) }),
}

// alone is a parameter of the evaluation length beside which no section is shown.
func alone(p tallied) tallied {
	p.sections = false
	return p
}

// Add takes the next heights, all finite.
func (r *Running) Add(z []float64) {
	if r.near == nil && len(z) > 0 {
		r.near = append([]float64{}, r.Input.Lead...)
		r.counted = len(r.near)
	}
	for len(z) > 0 {
		n := min(len(z), runningBlock)
		r.near, z = append(r.near, z[:n]...), z[n:]
		r.count(len(r.near)-3, 3)
	}
}

// count counts the heights of near before the index to. Slopes go by so many neighbours on each side.
func (r *Running) count(to, reach int) {
	for r.counted < to {
		n := min(to-r.counted, runningBlock)
		length := r.Input.Section
		if k := len(r.sections); k == 0 || r.sections[k-1].points == length {
			r.sections = append(r.sections, tally{})
		}
		t := &r.sections[len(r.sections)-1]
		if length > 0 {
			n = min(n, length-t.points)
		}
		from, end := max(r.counted, reach), min(r.counted+n, len(r.near)-reach)
		r.slope = r.slope[:0]
		if reach > 0 && from < end {
			r.slope = append(r.slope, r.near[from:end]...)
			slopes(r.slope, r.near, from, reach, r.Input.Dx)
		}
		t.add(r.near[r.counted:r.counted+n], r.slope)
		r.counted += n
	}
	if spare := r.counted - 6; spare > 0 { // as many as make the slopes of a profile that ends here
		r.near = r.near[:copy(r.near, r.near[spare:])]
		r.counted -= spare
	}
}

// Values returns those of the first so many sections; tail are up to three heights of the same profile behind them, unless they were added.
// Nothing can be added afterwards.
func (r *Running) Values(sections int, tail []float64) []Value {
	end := len(r.near)
	r.near = append(r.near, tail[:min(3, len(tail))]...)
	r.count(end, min(3, (len(r.near)-1)/2))
	r.sections = r.sections[:min(sections, len(r.sections))]
	for k := range r.sections {
		r.whole.join(&r.sections[k])
	}
	values := make([]Value, len(r.Calls))
	for i := range r.Calls {
		values[i] = r.value(&r.Calls[i])
	}
	return values
}

func (r *Running) value(c *Call) Value {
	v := c.undefined("")
	if v.Reason == reasonCall {
		return v
	}
	row, ok := runningRows[c.Parameter.Key]
	flat := r.Input.Flat
	switch {
	case !ok || c.Parameter.On != OwnProfile:
		v.Reason = reasonRunning
		return v
	case r.whole.points == 0:
		v.Reason = reasonEmpty
		return v
	case c.Parameter.shape && !(r.whole.rq() > flat):
		v.Reason = reasonFlat
		return v
	}
	w := &work{as: c.meaning, count: len(r.sections)}
	each := func() []float64 {
		return w.each(func(k int) float64 { return row.of(&r.sections[k], flat, r.Input.Dx) })
	}
	if c.meaning.Over != EvaluationLength {
		return c.finish(v, w.bySections(each(), row.what, row.none))
	}
	got := result{value: row.of(&r.whole, flat, r.Input.Dx)}
	if math.IsNaN(got.value) {
		got.reason = row.none
	}
	if row.sections {
		got.sections = each()
	}
	return c.finish(v, got)
}

const reasonRunning = "it needs all heights at once; a profile that is read in blocks has averages and extremes of heights and slopes"
