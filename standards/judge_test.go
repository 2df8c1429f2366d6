package standards_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/furrow/standards"
)

func upper(v float64) []standards.Bound {
	return []standards.Bound{{Symbol: "Rz", Side: standards.Upper, Value: v}}
}

func lower(v float64) []standards.Bound {
	return []standards.Bound{{Symbol: "Rz", Side: standards.Lower, Value: v}}
}

func both(low, up float64) []standards.Bound { return append(upper(up), lower(low)...) }

// The vectors of the 16 % procedure follow the table of ISO 4288:1996, Annex A, of which the steps were seen; that a
// value equal to the limit does not exceed it is its wording.
func TestSixteenPercent(t *testing.T) {
	many := func(v float64, n int, first ...float64) []float64 {
		for range n {
			first = append(first, v)
		}
		return first
	}
	yes, no, wait := standards.Conforms, standards.DoesNotConform, standards.NotDecided
	cases := []struct {
		values []float64
		limit  float64
		word   standards.Word
		more   int
	}{
		{nil, 4, wait, 1},
		{[]float64{2.8}, 4, yes, 0}, // 2.8 is 70 %
		{[]float64{2.81}, 4, wait, 2},
		{[]float64{3.5, 3.9}, 4, wait, 1},
		{[]float64{3.5, 3.9, 4.0}, 4, yes, 0},
		{[]float64{4.1}, 4, wait, 5},
		{[]float64{3.5, 4.1, 3.9}, 4, wait, 3},
		{[]float64{3.5, 4.1, 3.9, 3.2, 3.3, 3.1}, 4, yes, 0},
		{[]float64{3.5, 4.1, 4.2}, 4, wait, 9},
		{many(4, 9, 3.5, 4.1, 4.2), 4, yes, 0},
		{many(4, 8, 3.5, 4.1, 4.2), 4, wait, 1},
		{[]float64{3.5, 4.1, 4.2, 4.3}, 4, no, 0},
		{[]float64{0.69}, 1, yes, 0},
		{[]float64{0.71}, 1, wait, 2},
		{[]float64{0.75, 0.9, 0.95}, 1, yes, 0},
		{[]float64{0.75, 1.0, 1.0}, 1, yes, 0},
		{[]float64{0.75, 1.01, 0.9, 0.8, 0.7, 0.9}, 1, yes, 0},
		{many(1, 10, 1.01, 1.02), 1, yes, 0},
		{many(1, 9, 1.01, 1.02, 1.03), 1, no, 0},
	}
	for _, c := range cases {
		v, err := standards.Judgement{Bounds: upper(c.limit), Rule: standards.SixteenPercent}.Judge(c.values)
		if err != nil || v.Word != c.word || v.More != c.more {
			t.Errorf("%v: %s, %d more, %v; want %s, %d more", c.values, v.Word, v.More, err, c.word, c.more)
		}
		if len(v.Log) == 0 || v.Sentence == "" {
			t.Errorf("%v: no words", c.values)
		}
	}
	// A lower limit has no first step, and is the mirror image otherwise.
	v, err := standards.Judgement{Bounds: lower(1), Rule: standards.SixteenPercent}.Judge([]float64{9})
	if err != nil || v.Word != wait || v.More != 2 {
		t.Errorf("lower limit, first value: %+v %v", v, err)
	}
	v, _ = standards.Judgement{Bounds: lower(1), Rule: standards.SixteenPercent}.Judge([]float64{0.9, 1, 2, 0.8, 0.7})
	if v.Word != no {
		t.Errorf("lower limit, three below: %+v", v)
	}
}

func TestMaximumAndMedian(t *testing.T) {
	cases := []struct {
		rule   standards.Rule
		bounds []standards.Bound
		values []float64
		word   standards.Word
		more   int
	}{
		{standards.Maximum, upper(4), []float64{3.5, 4.1, 3.9, 3.2, 3.3, 3.1}, standards.DoesNotConform, 0},
		{standards.Maximum, upper(4), []float64{3.5, 4, 3.9}, standards.Conforms, 0},
		{standards.Maximum, upper(1), []float64{0.75, 1.01, 0.9, 0.8, 0.7, 0.9}, standards.DoesNotConform, 0},
		{standards.Maximum, lower(4), []float64{4, 3.9}, standards.DoesNotConform, 0},
		{standards.Maximum, both(1, 5), []float64{1, 5, 3}, standards.Conforms, 0},
		{standards.Maximum, both(1, 5), []float64{3, 0.9}, standards.DoesNotConform, 0},
		{standards.Maximum, upper(4), nil, standards.NotDecided, 1},
		{standards.Median, upper(4), []float64{3.6, 4.4, 3.9}, standards.Conforms, 0},
		{standards.Median, upper(4), []float64{3.6, 4.4}, standards.NotDecided, 1},
		{standards.Median, upper(4), []float64{3.6, 4.4, 4.2}, standards.DoesNotConform, 0},
		{standards.Median, upper(4), []float64{3, 5, 3.9, 4.1}, standards.Conforms, 0}, // the mean of the middle two is 4
		{standards.Median, lower(4), []float64{3, 5, 4}, standards.Conforms, 0},
	}
	for _, c := range cases {
		v, err := standards.Judgement{Bounds: c.bounds, Rule: c.rule}.Judge(c.values)
		if err != nil || v.Word != c.word || v.More != c.more {
			t.Errorf("%s %v: %s, %d more, %v; want %s, %d", c.rule, c.values, v.Word, v.More, err, c.word, c.more)
		}
	}
}

// Mean and standard deviation: 0.9 + 0.0707 and 0.93 + 0.1255 by hand; the factors of σ are √(n/5).
func TestMeanAndSpread(t *testing.T) {
	j := standards.Judgement{Bounds: upper(1), Rule: standards.SixteenPercent, Spread: true}
	v, err := j.Judge([]float64{0.8, 0.9, 1.0, 0.9, 0.9})
	if err != nil || v.Word != standards.Conforms || math.Abs(v.Zones[0].Value-0.9707) > 5e-5 {
		t.Errorf("%+v %v", v, err)
	}
	v, err = j.Judge([]float64{0.8, 0.95, 1.05, 0.9, 0.95})
	if err != nil || v.Word != standards.DoesNotConform || math.Abs(v.Zones[0].Value-1.0208) > 5e-5 {
		t.Errorf("%+v %v", v, err)
	}
	if v, _ = j.Judge([]float64{0.2}); v.Word != standards.NotDecided || v.More != 1 {
		t.Errorf("one value: %+v", v)
	}
	for n, want := range map[int]float64{1: 0.447, 2: 0.632, 3: 0.775, 4: 0.894, 5: 1} {
		if got := standards.SigmaFive(1, n); math.Abs(got-want) > 5e-4 {
			t.Errorf("factor for %d sections: %g, want %g", n, got, want)
		}
	}
	if got := standards.SigmaFive(0.30, 2); math.Abs(got-0.190) > 5e-4 {
		t.Errorf("0.30 over two sections counts as %g, want 0.190", got)
	}
	// Over two sections the spread is larger than over five; converted, the second series conforms.
	j.Sections = 1
	if v, _ = j.Judge([]float64{0.8, 0.95, 1.05, 0.9, 0.95}); v.Word != standards.Conforms {
		t.Errorf("over one section: %+v", v)
	}
}

// Guard bands. The one-sided factor is the normal quantile; the two-sided factors solve Φ(g) − Φ(g−T) = 0.95.
func TestBands(t *testing.T) {
	g := standards.Guard{Rule: standards.Probability, Standard: 1}
	for _, c := range []struct{ t, want float64 }{{0, 1.64485}, {4, 1.79621}, {5, 1.64877}, {6, 1.64492}, {100, 1.64485}} {
		accept, reject, err := g.Bands(c.t)
		if err != nil || math.Abs(accept-c.want) > 5e-6 || math.Abs(reject-1.644854) > 1e-6 {
			t.Errorf("T = %g: %g, %g, %v; want %g", c.t, accept, reject, err, c.want)
		}
	}
	for _, c := range []struct {
		t    float64
		none bool
	}{{3.9199, true}, {3.9200, false}} {
		if accept, _, _ := g.Bands(c.t); math.IsInf(accept, 1) != c.none {
			t.Errorf("T = %g: %g", c.t, accept)
		}
	}
	if _, _, err := (standards.Guard{Rule: standards.Probability, Standard: -1}).Bands(0); !errors.Is(err, standards.ErrUncertainty) {
		t.Error("an uncertainty below 0 passes")
	}
}

// Conformity with an uncertainty. The first two groups are computed by hand from the rules; the third states what
// happens on the boundary: on it, conformity is proven, and so is the opposite.
func TestConformity(t *testing.T) {
	p := standards.Guard{Rule: standards.Probability, Standard: 0.10}
	old := standards.Guard{Rule: standards.ExpandedU, Expanded: 0.20, K: 2}
	small := standards.Guard{Rule: standards.ExpandedU, Expanded: 0.05}
	yes, no, wait := standards.Conforms, standards.DoesNotConform, standards.NotDecided
	cases := []struct {
		guard  standards.Guard
		bounds []standards.Bound
		value  float64
		want   standards.Word
	}{
		{p, upper(4), 3.835, yes}, {p, upper(4), 3.836, wait}, {p, upper(4), 4.164, wait}, {p, upper(4), 4.165, no},
		{old, upper(4), 3.80, yes}, {old, upper(4), 3.81, wait}, {old, upper(4), 4.19, wait}, {old, upper(4), 4.20, no},
		{small, upper(0.80), 0.74, yes}, {small, upper(0.80), 0.75, yes}, {small, upper(0.80), 0.78, wait},
		{small, upper(0.80), 0.84, wait}, {small, upper(0.80), 0.85, no}, {small, upper(0.80), 0.86, no},
		{small, lower(0.80), 0.85, yes}, {small, lower(0.80), 0.84, wait}, {small, lower(0.80), 0.75, no},
		{standards.Guard{}, upper(0.80), 0.80, yes}, {standards.Guard{}, upper(0.80), 0.801, no},
		{p, both(3.7, 4), 3.85, wait}, // closer than 3.92 u: nothing can be proven
		{p, both(3.7, 4), 4.2, no},
		{p, both(3.6, 4), 3.8, yes}, // T = 4 u: 1.796 u
		{p, both(3.6, 4), 3.83, wait},
	}
	for _, c := range cases {
		v, err := standards.Judgement{Bounds: c.bounds, Rule: standards.Maximum, Guard: c.guard}.Judge([]float64{c.value})
		if err != nil || v.Word != c.want {
			t.Errorf("%g against %v, %+v: %s, %v; want %s\n%v", c.value, c.bounds, c.guard, v.Word, err, c.want, v.Log)
		}
	}
	v, _ := standards.Judgement{Bounds: upper(4), Rule: standards.Maximum,
		Guard: standards.Guard{Rule: standards.Probability, Standard: 0.1, Proof: standards.Maker}}.Judge([]float64{4})
	if v.Sentence != "The value lies too near the limit for its uncertainty: neither is proven. The maker has to prove that the surface conforms, and has not." {
		t.Errorf("%q", v.Sentence)
	}
	if z := v.Zones[0]; math.Abs(z.Accept-3.836) > 5e-4 || math.Abs(z.Reject-4.164) > 5e-4 || z.Value != 4 {
		t.Errorf("zone %+v", z)
	}
}

// judgements makes one of every kind.
func judgements(r *rand.Rand) []standards.Judgement {
	var all []standards.Judgement
	u := 0.02 + 0.1*r.Float64()
	for _, rule := range []standards.Rule{standards.Maximum, standards.SixteenPercent, standards.Median} {
		for _, b := range [][]standards.Bound{upper(4), lower(3), both(3, 4)} {
			for _, g := range []standards.Guard{{}, {Rule: standards.Probability, Standard: u}, {Rule: standards.ExpandedU, Expanded: 2 * u}} {
				all = append(all, standards.Judgement{Bounds: b, Rule: rule, Guard: g})
				if rule == standards.SixteenPercent {
					all = append(all, standards.Judgement{Bounds: b, Rule: rule, Guard: g, Spread: true, Sections: 1 + r.IntN(6)})
				}
			}
		}
	}
	return all
}

// Within the plan of twelve values a verdict that stands never changes with another value.
func TestStandingVerdict(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	stood := 0
	for range 300 {
		for _, j := range judgements(r) {
			if j.Rule != standards.SixteenPercent || j.Spread {
				continue
			}
			var values []float64
			before := standards.NotDecided
			for range 12 {
				values = append(values, 3.6+0.5*r.NormFloat64())
				v, err := j.Judge(values)
				if err != nil {
					t.Fatal(err)
				}
				if before != standards.NotDecided && len(j.Bounds) == 1 {
					stood++
					if v.Word != before {
						t.Fatalf("%+v: %s after %d values, was %s", j, v.Word, len(values), before)
					}
				}
				if before == standards.DoesNotConform && v.Word == standards.Conforms {
					t.Fatalf("%+v: refused and then accepted: %v", j, values)
				}
				before = v.Word
			}
		}
	}
	if stood == 0 {
		t.Fatal("no verdict was ever tried")
	}
}

// Scaling values, limits and uncertainty changes no verdict, on the boundary neither; and turning all round changes
// upper for lower where the rule has no first step.
func TestVerdictScales(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2))
	for range 200 {
		for _, j := range judgements(r) {
			values := make([]float64, 1+r.IntN(12))
			for i := range values {
				values[i] = 3.6 + 0.4*r.NormFloat64()
				if r.IntN(3) == 0 {
					values[i] = []float64{2.8, 3, 3.5, 4}[r.IntN(4)]
				}
			}
			v, err := j.Judge(values)
			if err != nil {
				t.Fatal(err)
			}
			k := math.Exp(3 * r.NormFloat64())
			s := j
			s.Bounds = slices.Clone(j.Bounds)
			for i := range s.Bounds {
				s.Bounds[i].Value *= k
			}
			s.Guard.Standard *= k
			s.Guard.Expanded *= k
			scaled := slices.Clone(values)
			for i := range scaled {
				scaled[i] *= k
			}
			w, err := s.Judge(scaled)
			if err != nil || w.Word != v.Word || w.More != v.More {
				t.Fatalf("%+v %v: %s, %d more; times %g: %s, %d more, %v", j, values, v.Word, v.More, k, w.Word, w.More, err)
			}
		}
	}
}

// A guard band never turns "not" into "yes": it only takes certainty away.
func TestGuardOnlyWithholds(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 3))
	for range 300 {
		for _, j := range judgements(r) {
			values := make([]float64, 1+r.IntN(12))
			for i := range values {
				values[i] = 3.5 + 0.4*r.NormFloat64()
			}
			guarded, err := j.Judge(values)
			if err != nil {
				t.Fatal(err)
			}
			j.Guard = standards.Guard{}
			plain, _ := j.Judge(values)
			if guarded.Word != standards.NotDecided && plain.Word != standards.NotDecided && guarded.Word != plain.Word {
				t.Fatalf("%+v %v: %s with, %s without", j, values, guarded.Word, plain.Word)
			}
		}
	}
}

func TestJudgeRefuses(t *testing.T) {
	var e *standards.ValueError
	_, err := standards.Judgement{Bounds: upper(4), Rule: standards.Maximum}.Judge([]float64{1, math.NaN()})
	if !errors.As(err, &e) || e.Index != 1 {
		t.Errorf("NaN: %v", err)
	}
	for _, b := range [][]standards.Bound{nil, both(5, 4), append(upper(4), upper(5)...), upper(math.NaN()), append(upper(4), lower(1)[0], lower(2)[0])} {
		if _, err := (standards.Judgement{Bounds: b, Rule: standards.Maximum}).Judge([]float64{1}); !errors.Is(err, standards.ErrBounds) {
			t.Errorf("%v: %v", b, err)
		}
	}
	if _, err := (standards.Judgement{Bounds: upper(4), Rule: "often"}).Judge([]float64{1}); err == nil {
		t.Error("a rule that is none")
	}
}
