package params

import "math"

// A motif is the part of a line between two of its peaks, not always neighbours, with the lowest point between them.
type motif struct{ Left, Pit, Right Point }

// Width returns the distance of the two peaks along the trace.
func (m motif) Width() float64 { return m.Right.X - m.Left.X }

// Depths returns the heights of the two peaks over the pit.
func (m motif) Depths() (left, right float64) { return m.Left.Y - m.Pit.Y, m.Right.Y - m.Pit.Y }

// Depth returns the smaller of the two depths, the characteristic T of a motif.
func (m motif) Depth() float64 { return min(m.Depths()) }

// What the cards of the motif parameters say of their limits.
const (
	limitA = `
on: primary
argument: A µm 500 the largest width of a roughness motif
must: A > 0 the limits A and B are widths above 0`
	limitB = `
argument: B µm 2500 the largest width of a waviness motif
must: B > 0 the limits A and B are widths above 0`
)

const (
	relativeDepth      = 0.60 // of the combined motif's depth that the two depths beside the common peak must reach, to keep it
	leastRise          = 0.05 // of the mean height that a peak must rise above its pits to be one
	outstanding        = 1.65 // standard deviations above the mean depth beyond which a peak is outstanding
	defaultMotifLimit  = 500.0
	defaultWavingLimit = 2500.0
)

// combine merges neighbouring motifs of a chain, in which each begins at the peak where the one before ends, until no
// two satisfy all four conditions, and returns the chain that is left.
//
//	P2 is not higher than both P1 and P3                     envelope
//	x(P3) - x(P1) ≤ limit                                    width
//	T12 = min(P1, P3) - min(V1, V2) ≥ max(T1, T2)            enlargement
//	min(P2-V1, P2-V2) < 60 % of T12                          relative depth
//
// The chain is gone through from left to right, a merged motif being tried against the next one at once, until a whole
// pass changes nothing. The standard prescribes the conditions; this order is an own choice, for annex A was not seen.
func combine(chain []motif, limit float64) []motif {
	chain = append([]motif(nil), chain...)
	for changed := true; changed; {
		changed = false
		kept := chain[:0]
		for _, m := range chain {
			if n := len(kept); n > 0 {
				if joined, ok := combined(kept[n-1], m, limit); ok {
					kept[n-1], changed = joined, true
					continue
				}
			}
			kept = append(kept, m)
		}
		chain = kept
	}
	return chain
}

// combined merges two neighbouring motifs, if they satisfy the conditions. Equalities hold in spite of rounding.
func combined(a, b motif, limit float64) (motif, bool) {
	m := motif{Left: a.Left, Pit: a.Pit, Right: b.Right}
	if b.Pit.Y < a.Pit.Y {
		m.Pit = b.Pit
	}
	_, h2 := a.Depths()
	h3, _ := b.Depths()
	common := a.Right.Y
	switch {
	case common > a.Left.Y && common > b.Right.Y,
		!within(m.Width(), limit),
		m.Depth() < max(a.Depth(), b.Depth())*(1-1e-12),
		!(min(h2, h3) < float64(relativeDepth*m.Depth())):
		return m, false
	}
	return m, true
}

// within tells whether a width is no more than a limit, in spite of rounding.
func within(width, limit float64) bool { return width <= limit*(1+1e-12) }

// motifs are the roughness and waviness motifs of a profile, with the envelope between the two.
type motifs struct {
	LeastRise float64 // a peak that rises less above its pits was no peak
	Roughness []motif // at most A wide
	Limit     float64 // depth beyond which a peak was outstanding and was lowered for the envelope
	Lowered   int     // number of peaks lowered
	Peaks     []Point // peaks that end the roughness motifs, as they stand in the profile
	Envelope  []Point // upper envelope line of the waviness: through the peaks, outstanding ones lowered
	Waviness  []motif // of the envelope, at most B wide

	below *work // on the profile below the peaks
}

// findMotifs looks for the motifs of z, roughness up to the width a and waviness up to b, in the length unit of dx. Of
// the choices, MotifBase and Deviation matter.
//
// What lies before the first peak and behind the last belongs to no motif. Peaks further apart than a end no common
// roughness motif, but the envelope runs through both.
func findMotifs(z []float64, dx, a, b float64, choices Choices) *motifs {
	m := &motifs{}
	peaks := Extremes(z)
	if choices.MotifBase == MeanOfPeaks {
		m.LeastRise = leastRise * meanRise(peaks)
	} else {
		m.LeastRise = leastRise * meanWindow(z, int(math.Round(min(a/2/dx, float64(len(z))))))
	}
	chain := combine(motifChain(prune(peaks, m.LeastRise, new(scratch)), func(at float64) float64 { return float64(at * dx) }), a)
	m.Roughness = upTo(chain, a)
	m.envelope(chain, a, choices)

	heights := make([]float64, len(m.Envelope))
	for i, p := range m.Envelope {
		heights[i] = p.Y
	}
	position := func(at float64) float64 { // between two vertices of equal height: the middle
		i := int(at)
		if float64(i) == at {
			return m.Envelope[i].X
		}
		return (m.Envelope[i].X + m.Envelope[i+1].X) / 2
	}
	low, high := limits(z)
	waves := prune(Extremes(heights), (high-low)*1e-9, new(scratch)) // rounding makes no wave of peaks of equal height
	m.Waviness = upTo(combine(motifChain(waves, position), b), b)
	return m
}

// envelope draws the line through the ends of the motifs of the chain, of which those up to a wide count, after lowering
// the outstanding peaks: those that stand more than the limit above the pits on both sides.
func (m *motifs) envelope(chain []motif, a float64, choices Choices) {
	depths := motifDepths(m.Roughness)
	m.Limit = mean(depths) + float64(outstanding*spread(depths, choices.Deviation))
	for i, motif := range chain {
		if i == 0 {
			m.Peaks = append(make([]Point, 0, len(chain)+1), motif.Left)
			m.Envelope = append(make([]Point, 0, len(chain)+1), motif.Left)
		}
		peak := motif.Right
		m.Peaks = append(m.Peaks, peak)
		if i+1 < len(chain) && within(motif.Width(), a) && within(chain[i+1].Width(), a) {
			_, before := motif.Depths()
			after, _ := chain[i+1].Depths()
			if before > m.Limit && after > m.Limit {
				peak.Y = max(motif.Pit.Y, chain[i+1].Pit.Y) + m.Limit
				m.Lowered++
			}
		}
		m.Envelope = append(m.Envelope, peak)
	}
}

// Below returns the heights of z minus the line through the peaks that end roughness motifs, from the first of them to the
// last; from is the index of the first. Outstanding peaks count as they stand: they are lowered for the waviness alone. There
// are none when there is no such line.
func (m *motifs) Below(z []float64, dx float64) (heights []float64, from int) {
	if len(m.Peaks) < 2 {
		return nil, 0
	}
	first, last := m.Peaks[0].X/dx, m.Peaks[len(m.Peaks)-1].X/dx
	from = int(math.Ceil(first - 1e-6))
	to := min(int(last+1e-6), len(z)-1)
	heights = make([]float64, 0, to-from+1)
	k := 0
	for i := from; i <= to; i++ {
		x := float64(float64(i) * dx)
		for k+2 < len(m.Peaks) && x > m.Peaks[k+1].X {
			k++
		}
		p, q := m.Peaks[k], m.Peaks[k+1]
		heights = append(heights, z[i]-p.Y-float64((x-p.X)/(q.X-p.X)*(q.Y-p.Y)))
	}
	return heights, from
}

// motifChain makes a chain of the motifs between neighbouring peaks; position turns the place of an extreme into a length.
func motifChain(e []Extreme, position func(at float64) float64) []motif {
	if len(e) > 0 && !e[0].Peak {
		e = e[1:]
	}
	var chain []motif
	point := func(x Extreme) Point { return Point{position(x.At), x.Z} }
	for i := 0; i+2 < len(e); i += 2 {
		chain = append(chain, motif{point(e[i]), point(e[i+1]), point(e[i+2])})
	}
	return chain
}

// upTo returns the motifs that are no wider than limit.
func upTo(chain []motif, limit float64) []motif {
	var kept []motif
	for _, m := range chain {
		if within(m.Width(), limit) {
			kept = append(kept, m)
		}
	}
	return kept
}

// motifDepths returns both depths of every motif.
func motifDepths(motifs []motif) []float64 {
	depths := make([]float64, 0, 2*len(motifs))
	for _, m := range motifs {
		left, right := m.Depths()
		depths = append(depths, left, right)
	}
	return depths
}

// meanWindow returns the mean of max - min over windows of w points; points that remain belong to none.
func meanWindow(z []float64, w int) float64 {
	w = min(max(w, 2), len(z))
	sum, count := 0.0, 0
	for i := 0; w > 0 && i+w <= len(z); i += w {
		low, high := limits(z[i : i+w])
		sum += high - low
		count++
	}
	return sum / float64(max(count, 1))
}

// meanRise returns the mean height of the peaks of e over the higher of their neighbouring pits.
func meanRise(e []Extreme) float64 {
	sum, count := 0.0, 0
	for i, x := range e {
		if !x.Peak || len(e) < 2 {
			continue
		}
		base := math.Inf(-1)
		if i > 0 {
			base = e[i-1].Z
		}
		if i+1 < len(e) {
			base = max(base, e[i+1].Z)
		}
		sum += x.Z - base
		count++
	}
	return sum / float64(max(count, 1))
}

// spread returns the standard deviation of v about its mean, with the chosen divisor.
func spread(v []float64, divisor Divisor) float64 {
	m, sum := mean(v), 0.0
	for _, x := range v {
		sum += float64((x - m) * (x - m))
	}
	n := len(v)
	if divisor == DivideByCountLessOne {
		n--
	}
	if n <= 0 {
		return math.NaN()
	}
	return math.Sqrt(sum / float64(n))
}

// limits returns the lowest and the highest height.
func limits(z []float64) (low, high float64) {
	if len(z) == 0 {
		return 0, 0
	}
	low, high = z[0], z[0]
	for _, v := range z[1:] {
		low, high = min(low, v), max(high, v)
	}
	return low, high
}
