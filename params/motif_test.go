package params_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/furrow/params"
)

// chain makes the motifs between neighbouring peaks; the pits are one fewer. Lengths and heights in one unit.
func chain(peaks, pits []params.Point) []params.Motif {
	var c []params.Motif
	for i, v := range pits {
		c = append(c, params.Motif{Left: peaks[i], Pit: v, Right: peaks[i+1]})
	}
	return c
}

// The two examples were worked by hand from the four conditions (x in mm, z in µm, limit A = 0.5 mm); no published
// example with numbers is known.
func TestCombineWorkedExamples(t *testing.T) {
	tests := []struct {
		name        string
		peaks, pits []params.Point
		motifs      int
		r, ar, rx   float64
	}{
		{
			"the first two merge, the rest is blocked by the envelope",
			[]params.Point{{0, 2}, {0.1, 1}, {0.2, 2.2}, {0.4, 2.1}},
			[]params.Point{{0.05, 0}, {0.15, 0.2}, {0.3, -0.5}},
			2, 2.375, 0.2, 2.7,
		},
		{
			"relative depth and envelope block, the last two merge",
			[]params.Point{{0, 2}, {0.1, 1.9}, {0.2, 2.2}, {0.3, 2}, {0.6, 2.1}},
			[]params.Point{{0.05, 0}, {0.15, 0.1}, {0.25, 1.2}, {0.45, -0.3}},
			3, 12.7 / 6, 0.2, 2.5,
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := params.Combine(chain(tt.peaks, tt.pits), 0.5)
			if len(got) != tt.motifs {
				t.Fatalf("%d motifs, want %d: %v", len(got), tt.motifs, got)
			}
			var r, ar, rx float64
			for _, m := range got {
				left, right := m.Depths()
				r += (left + right) / float64(2*len(got))
				ar += m.Width() / float64(len(got))
				rx = max(rx, left, right)
			}
			if math.Abs(r-tt.r) > 1e-12 || math.Abs(ar-tt.ar) > 1e-12 || math.Abs(rx-tt.rx) > 1e-12 {
				t.Errorf("R %v, AR %v, Rx %v, want %v, %v, %v", r, ar, rx, tt.r, tt.ar, tt.rx)
			}
		})
	}
}

// The first worked example as a profile: straight lines between its points, with a way up to the first peak and a way
// down from the last, which belong to no motif.
func TestMotifsOfAProfile(t *testing.T) {
	corners := []params.Point{{0, 1}, {50, 2}, {100, 0}, {150, 1}, {200, 0.2}, {250, 2.2}, {350, -0.5}, {450, 2.1}, {500, 1.5}}
	var z []float64
	for i := 0; i < 501; i++ {
		x := float64(i)
		k := 0
		for corners[k+1].X < x {
			k++
		}
		p, q := corners[k], corners[k+1]
		z = append(z, p.Y+(q.Y-p.Y)*(x-p.X)/(q.X-p.X))
	}
	// The peaks stand at 50, 150, 250 and 450 µm, so the last motif is 200 µm wide and the merged one too.
	for _, tt := range []struct {
		name string
		got  float64
		want float64
	}{
		{"R", params.R(z, 1, 500), 2.375},
		{"AR", params.AR(z, 1, 500), 200},
		{"Rx", params.Rx(z, 1, 500), 2.7},
		{"Nr", params.Nr(z, 1, 500), 2},
		{"SR", params.SR(z, 1, 500), math.Sqrt(0.081875)}, // of 2.0 2.2 2.7 2.6 about 2.375
		{"SAR", params.SAR(z, 1, 500), 0},
		{"Wte", params.Wte(z, 1, 500, 2500), 0.2}, // peaks 2, 2.2 and 2.1; none is outstanding
		{"Nw", params.Nw(z, 1, 500, 2500), 0},
	} {
		if math.Abs(tt.got-tt.want) > 1e-12 {
			t.Errorf("%s = %v, want %v", tt.name, tt.got, tt.want)
		}
	}
	if got := params.W(z, 1, 500, 2500); !math.IsNaN(got) {
		t.Errorf("W = %v of an envelope with one peak, want undefined", got)
	}
}

// A sine has one motif per period and a flat envelope (by symmetry, for equal peaks).
func TestMotifsOfASine(t *testing.T) {
	const a, period = 1.5, 100
	z := make([]float64, 4000)
	for i := range z {
		z[i] = a * math.Sin(2*math.Pi*float64(i)/period)
	}
	if got := params.R(z, 1, 500); math.Abs(got-2*a) > 1e-12 {
		t.Errorf("R = %v, want %v", got, 2*a)
	}
	if got := params.Rx(z, 1, 500); math.Abs(got-2*a) > 1e-12 {
		t.Errorf("Rx = %v, want %v", got, 2*a)
	}
	if got := params.AR(z, 1, 500); math.Abs(got-period) > 1e-9 {
		t.Errorf("AR = %v, want %v", got, period)
	}
	if got := params.Wte(z, 1, 500, 2500); math.Abs(got) > 1e-12 {
		t.Errorf("Wte = %v, want 0", got)
	}
	if got := params.W(z, 1, 500, 2500); !math.IsNaN(got) {
		t.Errorf("W = %v, want undefined: the envelope has no peaks", got)
	}
	if got := params.R(z, 1, 50); !math.IsNaN(got) {
		t.Errorf("R = %v with a limit below the period, want undefined", got)
	}
}

// A fine wave on a coarse one: the envelope follows the coarse wave. The fine peaks stand on a grid that samples the
// coarse wave ten times per period, with one on each crest and each trough.
func TestMotifsOfTwoWaves(t *testing.T) {
	const fine, coarse = 100, 1000
	z := make([]float64, 10001)
	for i := range z {
		x := float64(i)
		z[i] = 0.5*math.Cos(2*math.Pi*x/fine) + 2*math.Cos(2*math.Pi*x/coarse)
	}
	for _, tt := range []struct {
		name           string
		got, want, tol float64
	}{
		{"AW", params.AW(z, 1, 500, 2500), coarse, 1e-9},
		{"W", params.W(z, 1, 500, 2500), 4, 1e-9},
		{"Wx", params.Wx(z, 1, 500, 2500), 4, 1e-9},
		{"Wte", params.Wte(z, 1, 500, 2500), 4, 1e-9},
		{"SW", params.SW(z, 1, 500, 2500), 0, 1e-6},
		{"SAW", params.SAW(z, 1, 500, 2500), 0, 1e-6},
	} {
		if !(math.Abs(tt.got-tt.want) <= tt.tol) {
			t.Errorf("%s = %v, want %v", tt.name, tt.got, tt.want)
		}
	}
}

// One outstanding peak among equal ones is lowered to mean + 1.65 standard deviations for the envelope alone.
func TestOutstandingPeak(t *testing.T) {
	z := make([]float64, 0, 2100)
	for i := 0; i < 100; i++ {
		h := 1.0
		if i == 50 {
			h = 6
		}
		for k := 0; k < 10; k++ {
			z = append(z, h*float64(k)/10)
		}
		for k := 10; k > 0; k-- {
			z = append(z, h*float64(k)/10)
		}
	}
	m := params.FindMotifs(z, 1, 500, 2500, params.Choices{})
	if m.Lowered != 1 {
		t.Fatalf("%d peaks lowered, want 1", m.Lowered)
	}
	// 99 motifs with 198 depths, of which two are 6 and the others 1.
	mean := (196.0 + 12) / 198
	sd := math.Sqrt((196*(1-mean)*(1-mean) + 2*(6-mean)*(6-mean)) / 198)
	want := mean + 1.65*sd
	if math.Abs(m.Limit-want) > 1e-12 {
		t.Errorf("limit %v, want %v", m.Limit, want)
	}
	if got := params.Wte(z, 1, 500, 2500); math.Abs(got-(want-1)) > 1e-12 {
		t.Errorf("Wte = %v, want %v", got, want-1)
	}
	// The profile below the line through its peaks keeps it too: no point stands above the line.
	below, _ := m.Below(z, 1)
	if high := slices.Max(below); high > 1e-12 {
		t.Errorf("a point stands %v above the line through the peaks", high)
	}
	if got := params.Rx(z, 1, 500); got != 6 {
		t.Errorf("Rx = %v, want 6: the roughness keeps the peak", got)
	}
}

func TestMotifInvariants(t *testing.T) {
	for seed := uint64(0); seed < 300; seed++ {
		rng := rand.New(rand.NewPCG(seed, 5))
		z := walk(rng, 200+rng.IntN(1500))
		const dx, a, b = 2, 300, 1500
		m := params.FindMotifs(z, dx, a, b, params.Choices{})
		for i, x := range m.Roughness {
			left, right := x.Depths()
			if !(left > 0 && right > 0) || x.Width() > a*(1+1e-12) || x.Pit.X <= x.Left.X || x.Pit.X >= x.Right.X {
				t.Fatalf("seed %d: motif %d is none: %v", seed, i, x)
			}
		}
		if again := params.Combine(m.Roughness, a); len(again) != len(m.Roughness) {
			t.Fatalf("seed %d: combining again merges %d motifs to %d", seed, len(m.Roughness), len(again))
		}
		for i := 1; i < len(m.Envelope); i++ {
			if m.Envelope[i].X <= m.Envelope[i-1].X {
				t.Fatalf("seed %d: the envelope runs backwards", seed)
			}
		}
		if len(m.Roughness) > 0 && !(params.Rx(z, dx, a) >= params.R(z, dx, a)) {
			t.Fatalf("seed %d: Rx below R", seed)
		}
		scaled := make([]float64, len(z))
		for i, v := range z {
			scaled[i] = 4 * v // a power of two: exact
		}
		near(t, seed, "R scales", params.R(scaled, dx, a), 4*params.R(z, dx, a))
		near(t, seed, "Wte scales", params.Wte(scaled, dx, a, b), 4*params.Wte(z, dx, a, b))
		near(t, seed, "AR keeps", params.AR(scaled, dx, a), params.AR(z, dx, a))
	}
}

// walk is a seeded random profile: a random walk with a pull to zero, some plateaus, a little noise.
func walk(rng *rand.Rand, n int) []float64 {
	z := make([]float64, n)
	h := 0.0
	pull := 0.5 + rng.Float64()/2
	for i := range z {
		if rng.IntN(8) > 0 {
			h = pull*h + rng.NormFloat64()
		}
		z[i] = h
	}
	return z
}

// near fails when two values are not equal up to rounding; two undefined ones are equal.
func near(t *testing.T, seed uint64, what string, got, want float64) {
	t.Helper()
	if math.IsNaN(got) && math.IsNaN(want) {
		return
	}
	if !(math.Abs(got-want) <= 1e-9*max(1, math.Abs(want))) {
		t.Fatalf("seed %d: %s: %v, want %v", seed, what, got, want)
	}
}

// mergeable states the four conditions as the text lists them, with the names of the points.
func mergeable(a, b params.Motif, limit float64) bool {
	p1, v1, p2, v2, p3 := a.Left, a.Pit, a.Right, b.Pit, b.Right
	h1, h2, h3, h4 := p1.Y-v1.Y, p2.Y-v1.Y, p2.Y-v2.Y, p3.Y-v2.Y
	t1, t2 := min(h1, h2), min(h3, h4)
	t12 := min(p1.Y, p3.Y) - min(v1.Y, v2.Y)
	envelope := p2.Y <= p1.Y || p2.Y <= p3.Y
	width := p3.X-p1.X <= limit*(1+1e-12)
	enlargement := t12 >= max(t1, t2)*(1-1e-12)
	relative := min(h2, h3) < 0.6*t12
	return envelope && width && enlargement && relative
}

// Second way: the passes written with indices into a list that shrinks.
func combineNaively(chain []params.Motif, limit float64) []params.Motif {
	chain = slices.Clone(chain)
	for again := true; again; {
		again = false
		for i := 0; i+1 < len(chain); {
			a, b := chain[i], chain[i+1]
			if !mergeable(a, b, limit) {
				i++
				continue
			}
			pit := a.Pit
			if b.Pit.Y < pit.Y {
				pit = b.Pit
			}
			chain[i] = params.Motif{Left: a.Left, Pit: pit, Right: b.Right}
			chain = slices.Delete(chain, i+1, i+2)
			again = true
		}
	}
	return chain
}

func TestCombineAgainstNaivePasses(t *testing.T) {
	merged := 0
	for seed := uint64(0); seed < 500; seed++ {
		rng := rand.New(rand.NewPCG(seed, 12))
		z := walk(rng, 100+rng.IntN(400))
		limit := 5 + 100*rng.Float64()
		if seed%2 == 0 { // whole heights and a whole limit: equal peaks, widths of exactly the limit
			for i := range z {
				z[i] = math.Round(2 * z[i])
			}
			limit = float64(3 + rng.IntN(30))
		}
		var c []params.Motif
		e := params.Watershed(z, 0.1)
		for i := 0; i+2 < len(e); i++ {
			if e[i].Peak {
				c = append(c, params.Motif{
					Left: params.Point{X: e[i].At, Y: e[i].Z}, Pit: params.Point{X: e[i+1].At, Y: e[i+1].Z}, Right: params.Point{X: e[i+2].At, Y: e[i+2].Z},
				})
			}
		}
		got, want := params.Combine(c, limit), combineNaively(c, limit)
		if !slices.Equal(got, want) {
			t.Fatalf("seed %d: %v, want %v", seed, got, want)
		}
		merged += len(c) - len(got)
		for i, m := range got {
			if i > 0 && mergeable(got[i-1], m, limit) {
				t.Fatalf("seed %d: motifs %d and %d can still merge", seed, i-1, i)
			}
			for _, x := range e {
				if x.At > m.Left.X && x.At < m.Right.X && x.Z < m.Pit.Y {
					t.Fatalf("seed %d: motif %d has a lower pit at %v", seed, i, x.At)
				}
			}
		}
	}
	if merged < 1000 {
		t.Errorf("only %d merges were tried", merged)
	}
}

// The base of the 5 % by choice: windows of A/2, or the mean height of the peaks.
func TestMotifBase(t *testing.T) {
	// Teeth of height 1 on a slow rise, which makes the windows high but not the peaks.
	var z []float64
	for i := range 40 {
		h := float64(i) * 0.5
		z = append(z, h, h+1, h, h)
	}
	z = append(z, 20)
	windows := params.FindMotifs(z, 10, 500, 2500, params.Choices{})
	peaks := params.FindMotifs(z, 10, 500, 2500, params.Choices{MotifBase: params.MeanOfPeaks})
	// A window of 25 points holds six teeth, which rise by 3 or more; every tooth is 1 high over the higher of its pits.
	if !(windows.LeastRise > 0.05*3) {
		t.Errorf("least rise by windows %v", windows.LeastRise)
	}
	holds(t, "least rise by peaks", peaks.LeastRise, 0.05, 1e-12, "5 % of 1")
}

// The envelope on whole heights: of motifs up to the limit wide, a peak that stands more than the limit of depth above both of its pits is
// lowered to that much above the higher one. Widths are often the limit exactly.
func TestEnvelopePlainly(t *testing.T) {
	lowered, exact := 0, 0
	for seed := uint64(0); seed < 400; seed++ {
		rng := rand.New(rand.NewPCG(seed, 31))
		z := walk(rng, 300)
		for i := range z {
			z[i] = math.Round(2 * z[i])
			if rng.IntN(40) == 0 {
				z[i] += 12
			}
		}
		a := float64(4 + rng.IntN(12))
		choices := params.Choices{}
		if seed%3 == 0 {
			choices.Deviation = params.DivideByCountLessOne
		}
		m := params.FindMotifs(z, 1, a, 5*a, choices)
		var all []params.Motif
		e := pruneNaively(params.Extremes(z), m.LeastRise)
		for i := 0; i+2 < len(e); i++ {
			if e[i].Peak {
				all = append(all, params.Motif{Left: params.Point{X: e[i].At, Y: e[i].Z}, Pit: params.Point{X: e[i+1].At, Y: e[i+1].Z}, Right: params.Point{X: e[i+2].At, Y: e[i+2].Z}})
			}
		}
		all = combineNaively(all, a)
		var depths []float64
		for _, x := range all {
			if x.Width() <= a {
				l, r := x.Depths()
				depths = append(depths, l, r)
			}
			if x.Width() == a {
				exact++
			}
		}
		divisor := float64(len(depths))
		if seed%3 == 0 {
			divisor--
		}
		mean, square := average(depths), 0.0
		for _, d := range depths {
			square += (d - mean) * (d - mean)
		}
		limit := mean + 1.65*math.Sqrt(square/divisor)
		near(t, seed, "limit of depth", m.Limit, limit)
		for i, x := range all {
			if i == 0 && m.Envelope[0] != x.Left {
				t.Fatalf("seed %d: the envelope begins at %v, not %v", seed, m.Envelope[0], x.Left)
			}
			want := x.Right
			if i+1 < len(all) && x.Width() <= a && all[i+1].Width() <= a && want.Y-x.Pit.Y > limit && want.Y-all[i+1].Pit.Y > limit {
				want.Y = max(x.Pit.Y, all[i+1].Pit.Y) + limit
				lowered++
			}
			if got := m.Envelope[i+1]; got.X != want.X || math.Abs(got.Y-want.Y) > 1e-9 {
				t.Fatalf("seed %d: the envelope has %v, want %v", seed, got, want)
			}
		}
		if len(m.Envelope) != len(all)+1 {
			t.Fatalf("seed %d: %d points of the envelope, want %d", seed, len(m.Envelope), len(all)+1)
		}
	}
	if lowered < 20 || exact < 200 {
		t.Errorf("only %d peaks lowered and %d motifs of exactly the limit", lowered, exact)
	}
}
