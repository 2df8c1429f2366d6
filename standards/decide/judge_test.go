package decide_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

func upper(v float64) []standards.Bound {
	return []standards.Bound{{Symbol: "Rz", Side: standards.Upper, Value: v}}
}

func lower(v float64) []standards.Bound {
	return []standards.Bound{{Symbol: "Rz", Side: standards.Lower, Value: v}}
}

// The number beside a limit says what the limit is, however small it is.
func TestLimitWordsBeside(t *testing.T) {
	for _, c := range []struct {
		symbol, text, unit string
		um                 float64
		want               string
	}{
		{"RSm", "0.4", "nm", 0.0004, "0.4 nm (0.0004 µm)"}, {"Rz", "1", "nm", 0.001, "1 nm (0.001 µm)"}, {"Ra", "0.1", "µin", 0.00254, "0.1 µin (0.00254 µm)"},
		{"Ra", "63", "µin", 1.6002, "63 µin (1.600 µm)"}, {"Rz", "3.2", "µm", 3.2, "3.2 µm"},
	} {
		if got := decide.LimitWords(standards.Bound{Symbol: c.symbol, Value: c.um}, c.text, c.unit); got != c.want {
			t.Errorf("%s: %q, want %q", c.text, got, c.want)
		}
	}
}

// Of a value and a limit in inches the numbers in brackets, in micrometres, stand to each other as the two do.
func TestLimitBeside(t *testing.T) {
	brackets := regexp.MustCompile(`\(([0-9.]+) µm\)`)
	for _, side := range []standards.Side{standards.Upper, standards.Lower} {
		for _, um := range []float64{0.4064, 0.5002, 1.6002, 0.0254} {
			for _, off := range []float64{-0.0003, -0.0002, -0.0001, -1e-6, 0, 1e-6, 0.0001, 0.0002, 0.0003} {
				j := decide.Judgement{Bound: standards.Bound{Symbol: "Ra", Side: side, Value: um}, Rule: standards.Maximum, Unit: "µin"}
				v, err := j.Judge([]float64{um + off})
				found := brackets.FindAllStringSubmatch(v.Sentence, -1)
				if err != nil || len(found) != 2 {
					t.Fatalf("%v: %v %q", j, err, v.Sentence)
				}
				value, _ := strconv.ParseFloat(found[0][1], 64)
				limit, _ := strconv.ParseFloat(found[1][1], 64)
				if d := value - limit; d > 0 != (off > 0) || d < 0 != (off < 0) {
					t.Errorf("%g: %s", off, v.Sentence)
				}
			}
		}
	}
	v, _ := decide.Judgement{Bound: standards.Bound{Symbol: "Ra", Value: 0.4064}, Rule: standards.Maximum, Unit: "µin", Text: "16"}.Judge([]float64{0.40615})
	if want := "The value 15.99 µin (0.4062 µm) does not exceed 16 µin (0.4064 µm). "; !strings.HasPrefix(v.Sentence, want) {
		t.Errorf("%q", v.Sentence)
	}
}

// judged judges by each bound and returns the word for all, the values needed and the verdicts.
func judged(bounds []standards.Bound, rule standards.Rule, guard decide.Guard, values ...float64) (decide.Word, int, []decide.Ruling, error) {
	var words []decide.Word
	var all []decide.Ruling
	more := 0
	for _, b := range bounds {
		j := decide.Judgement{Bound: b, Rule: rule, Guard: guard}
		if len(bounds) == 2 {
			j.Tolerance = math.Abs(bounds[0].Value - bounds[1].Value)
		}
		v, err := j.Judge(values)
		if err != nil {
			return "", 0, nil, err
		}
		words, all, more = append(words, v.Word), append(all, v), max(more, v.More)
	}
	return decide.Whole(words...), more, all, nil
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
	yes, no, wait := decide.Conforms, decide.DoesNotConform, decide.NoVerdict
	cases := []struct {
		values []float64
		limit  float64
		word   decide.Word
		more   int
	}{
		{nil, 4, wait, 3},
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
		// All values count: a first value of at most 70 % does not make up for five above the limit.
		{many(5, 5, 2.5), 4, no, 0},
		{[]float64{2.5, 5}, 4, wait, 4},
		{[]float64{2.5, 2.7}, 4, yes, 0},
		{[]float64{2.5, 2.9}, 4, wait, 1},
		{many(3, 21, 5, 5, 5, 5), 4, yes, 0}, // 4 of 25 are 16 %
		{many(3, 20, 5, 5, 5, 5), 4, no, 0},  // 4 of 24 are more
		{many(3, 10, 5, 5, 5), 4, no, 0},     // 3 of 13
		{many(3, 11, 5, 5), 4, yes, 0},       // 2 of 13
	}
	for _, c := range cases {
		word, more, all, err := judged(upper(c.limit), standards.SixteenPercent, decide.Guard{}, c.values...)
		if err != nil || word != c.word || more != c.more {
			t.Errorf("%v: %s, %d more, %v; want %s, %d more", c.values, word, more, err, c.word, c.more)
		}
		if len(all[0].Log) == 0 || all[0].Sentence == "" {
			t.Errorf("%v: no words", c.values)
		}
	}
	// A lower limit has no first step, and is the mirror image otherwise.
	if word, more, _, err := judged(lower(1), standards.SixteenPercent, decide.Guard{}, 9); err != nil || word != wait || more != 2 {
		t.Errorf("lower limit, first value: %s, %d more, %v", word, more, err)
	}
	if word, _, _, _ := judged(lower(1), standards.SixteenPercent, decide.Guard{}, 0.9, 1, 2, 0.8, 0.7); word != no {
		t.Errorf("lower limit, three below: %s", word)
	}
	// 70 % of a limit below 0 would lie above it, and 70 % of 0 is 0.
	if word, _, _, _ := judged(upper(0), standards.SixteenPercent, decide.Guard{}, -0.5); word != wait {
		t.Errorf("upper limit of 0: %s", word)
	}
	if word, _, _, _ := judged(upper(-10), standards.SixteenPercent, decide.Guard{}, -8); word != wait {
		t.Errorf("upper limit below 0: %s", word)
	}
}

func TestMaximumAndMedian(t *testing.T) {
	cases := []struct {
		rule   standards.Rule
		bounds []standards.Bound
		values []float64
		word   decide.Word
		more   int
	}{
		{standards.Maximum, upper(4), []float64{3.5, 4.1, 3.9, 3.2, 3.3, 3.1}, decide.DoesNotConform, 0},
		{standards.Maximum, upper(4), []float64{3.5, 4, 3.9}, decide.Conforms, 0},
		{standards.Maximum, upper(1), []float64{0.75, 1.01, 0.9, 0.8, 0.7, 0.9}, decide.DoesNotConform, 0},
		{standards.Maximum, lower(4), []float64{4, 3.9}, decide.DoesNotConform, 0},
		{standards.Maximum, both(1, 5), []float64{1, 5, 3}, decide.Conforms, 0},
		{standards.Maximum, both(1, 5), []float64{3, 0.9}, decide.DoesNotConform, 0},
		{standards.Maximum, upper(4), nil, decide.NoVerdict, 1},
		{standards.Median, upper(4), []float64{3.6, 4.4, 3.9}, decide.Conforms, 0},
		{standards.Median, upper(4), []float64{3.6, 4.4}, decide.NoVerdict, 1},
		{standards.Median, upper(4), []float64{3.6, 4.4, 4.2}, decide.DoesNotConform, 0},
		{standards.Median, upper(4), []float64{3, 5, 3.9, 4.1}, decide.Conforms, 0}, // the mean of the middle two is 4
		{standards.Median, lower(4), []float64{3, 5, 4}, decide.Conforms, 0},
	}
	for _, c := range cases {
		word, more, _, err := judged(c.bounds, c.rule, decide.Guard{}, c.values...)
		if err != nil || word != c.word || more != c.more {
			t.Errorf("%s %v: %s, %d more, %v; want %s, %d", c.rule, c.values, word, more, err, c.word, c.more)
		}
	}
}

// Mean and standard deviation: 0.9 + 0.0707 and 0.93 + 0.1255 by hand; the factors of σ are √(n/5).
func TestMeanAndSpread(t *testing.T) {
	j := decide.Judgement{Bound: upper(1)[0], Rule: standards.SixteenPercent, Spread: true}
	v, err := j.Judge([]float64{0.8, 0.9, 1.0, 0.9, 0.9})
	if err != nil || v.Word != decide.Conforms || math.Abs(v.Value-0.9707) > 5e-5 {
		t.Errorf("%+v %v", v, err)
	}
	v, err = j.Judge([]float64{0.8, 0.95, 1.05, 0.9, 0.95})
	if err != nil || v.Word != decide.DoesNotConform || math.Abs(v.Value-1.0208) > 5e-5 {
		t.Errorf("%+v %v", v, err)
	}
	if v, _ = j.Judge([]float64{0.2}); v.Word != decide.NoVerdict || v.More != 1 {
		t.Errorf("one value: %+v", v)
	}
	for n, want := range map[int]float64{1: 0.447, 2: 0.632, 3: 0.775, 4: 0.894, 5: 1} {
		if got := decide.SigmaFive(1, n); math.Abs(got-want) > 5e-4 {
			t.Errorf("factor for %d sections: %g, want %g", n, got, want)
		}
	}
	if got := decide.SigmaFive(0.30, 2); math.Abs(got-0.190) > 5e-4 {
		t.Errorf("0.30 over two sections counts as %g, want 0.190", got)
	}
	// Over two sections the spread is larger than over five; converted, the second series conforms.
	j.Sections = 1
	if v, _ = j.Judge([]float64{0.8, 0.95, 1.05, 0.9, 0.95}); v.Word != decide.Conforms {
		t.Errorf("over one section: %+v", v)
	}
}

// Guard bands. The one-sided factor is the normal quantile; the two-sided factors solve Φ(g) − Φ(g−T) = 0.95.
func TestBands(t *testing.T) {
	g := decide.Guard{Rule: decide.Probability, Standard: 1}
	for _, c := range []struct{ t, want float64 }{{0, 1.64485}, {4, 1.79621}, {5, 1.64877}, {6, 1.64492}, {100, 1.64485}} {
		accept, reject, err := g.Bands(c.t)
		if err != nil || math.Abs(accept-c.want) > 5e-6 || reject != accept {
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
	if _, _, err := (decide.Guard{Rule: decide.Probability, Standard: -1}).Bands(0); !errors.Is(err, decide.ErrUncertainty) {
		t.Error("an uncertainty below 0 passes")
	}
}

// Conformity with an uncertainty. The first two groups are computed by hand from the rules; the third states what
// happens on the boundary: on it, conformity is proven, and so is the opposite.
func TestConformity(t *testing.T) {
	p := decide.Guard{Rule: decide.Probability, Standard: 0.10}
	old := decide.Guard{Rule: decide.ExpandedU, Expanded: 0.20, K: 2}
	small := decide.Guard{Rule: decide.ExpandedU, Expanded: 0.05}
	yes, no, wait := decide.Conforms, decide.DoesNotConform, decide.NotDecided
	cases := []struct {
		guard  decide.Guard
		bounds []standards.Bound
		value  float64
		want   decide.Word
	}{
		{p, upper(4), 3.835, yes}, {p, upper(4), 3.836, wait}, {p, upper(4), 4.164, wait}, {p, upper(4), 4.165, no},
		{old, upper(4), 3.80, yes}, {old, upper(4), 3.81, wait}, {old, upper(4), 4.19, wait}, {old, upper(4), 4.20, no},
		{small, upper(0.80), 0.74, yes}, {small, upper(0.80), 0.75, yes}, {small, upper(0.80), 0.78, wait},
		{small, upper(0.80), 0.84, wait}, {small, upper(0.80), 0.85, no}, {small, upper(0.80), 0.86, no},
		{small, lower(0.80), 0.85, yes}, {small, lower(0.80), 0.84, wait}, {small, lower(0.80), 0.75, no},
		{decide.Guard{}, upper(0.80), 0.80, yes}, {decide.Guard{}, upper(0.80), 0.801, no},
		{p, both(3.7, 4), 3.85, wait}, // closer than 3.92 u: nothing can be proven
		{p, both(3.7, 4), 4.2, no},
		{p, both(3.6, 4), 3.8, yes}, // T = 4 u: 1.796 u
		{p, both(3.6, 4), 3.83, wait},
	}
	for _, c := range cases {
		word, _, all, err := judged(c.bounds, standards.Maximum, c.guard, c.value)
		if err != nil || word != c.want {
			t.Errorf("%g against %v, %+v: %s, %v; want %s\n%+v", c.value, c.bounds, c.guard, word, err, c.want, all)
		}
	}
	v, _ := decide.Judgement{Bound: upper(4)[0], Rule: standards.Maximum,
		Guard: decide.Guard{Rule: decide.Probability, Standard: 0.1, Proof: decide.Maker}}.Judge([]float64{4})
	if v.Sentence != "The value 4.00 µm lies between 3.84 µm and 4.16 µm. Neither is proven. More values, or a smaller U, can decide it. The maker must prove that the surface conforms, and has not." {
		t.Errorf("%q", v.Sentence)
	}
	if math.Abs(v.Accept-3.836) > 5e-4 || math.Abs(v.Reject-4.164) > 5e-4 || v.Value != 4 {
		t.Errorf("%+v", v)
	}
}

// judgements makes one of every kind.
func judgements(r *rand.Rand) []decide.Judgement {
	var all []decide.Judgement
	u := 0.02 + 0.1*r.Float64()
	for _, rule := range []standards.Rule{standards.Maximum, standards.SixteenPercent, standards.Median} {
		for _, b := range append(upper(4), lower(3)...) {
			for _, g := range []decide.Guard{{}, {Rule: decide.Probability, Standard: u}, {Rule: decide.ExpandedU, Expanded: 2 * u}} {
				for _, tolerance := range []float64{0, 1} {
					j := decide.Judgement{Bound: b, Tolerance: tolerance, Rule: rule, Guard: g}
					all = append(all, j)
					if rule == standards.SixteenPercent {
						j.Spread, j.Sections = true, 1+r.IntN(6)
						all = append(all, j)
					}
				}
			}
		}
	}
	return all
}

// some draws values around the limits, many of them on a limit or at 70 % of one.
func some(r *rand.Rand, n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = 3.6 + 0.4*r.NormFloat64()
		if r.IntN(3) == 0 {
			values[i] = []float64{2.8, 3, 3.5, 4}[r.IntN(4)]
		}
	}
	return values
}

// The order of the values changes nothing: neither the word nor a sentence nor a line of the log.
func TestOrderNeverMatters(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 4))
	seen := map[decide.Word]int{}
	for range 200 {
		for _, j := range judgements(r) {
			values := some(r, 1+r.IntN(30))
			a, err := j.Judge(values)
			if err != nil {
				t.Fatal(err)
			}
			seen[a.Word]++
			r.Shuffle(len(values), func(i, k int) { values[i], values[k] = values[k], values[i] })
			b, err := j.Judge(values)
			if err != nil || a.Word != b.Word || a.More != b.More || a.Sentence != b.Sentence || !slices.Equal(a.Log, b.Log) {
				t.Fatalf("%+v %v: %s %q, otherwise %s %q, %v", j, values, a.Word, a.Sentence, b.Word, b.Sentence, err)
			}
		}
	}
	for _, w := range []decide.Word{decide.Conforms, decide.DoesNotConform, decide.NotDecided, decide.NoVerdict} {
		if seen[w] == 0 {
			t.Errorf("%s was never tried", w)
		}
	}
}

// sequential is the plan of 1, 3, 6 and 12 values one after the other (ISO 4288:1996, Annex A; the steps were seen): the word
// when the plan ends, and after how many values.
func sequential(limit float64, values []float64) (decide.Word, int) {
	over := 0
	for i, v := range values {
		if v > limit {
			over++
		}
		switch n := i + 1; {
		case over > 2:
			return decide.DoesNotConform, n
		case n == 1 && v <= 0.7*limit, n == 3 && over == 0, n == 6 && over <= 1, n == 12:
			return decide.Conforms, n
		}
	}
	return decide.NoVerdict, len(values)
}

// Whoever measures until the plan ends gets the word of the plan, and up to there none.
func TestPlanKeepsItsWords(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 5))
	j := decide.Judgement{Bound: upper(4)[0], Rule: standards.SixteenPercent}
	ends := map[int]int{}
	for range 5000 {
		values := some(r, 12)
		want, n := sequential(4, values)
		ends[n]++
		for k := 1; k <= n; k++ {
			v, err := j.Judge(values[:k])
			if err != nil || k == n && v.Word != want || k < n && v.Word != decide.NoVerdict {
				t.Fatalf("%v: %s after %d values, %v; the plan ends with %s after %d", values, v.Word, k, err, want, n)
			}
		}
	}
	for _, n := range []int{1, 3, 6, 12} {
		if ends[n] == 0 {
			t.Errorf("no plan ended after %d values", n)
		}
	}
}

// More is the number of values that can end it: with so many values inside, the surface conforms; with one fewer, nothing.
func TestMore(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 6))
	tried := 0
	for range 3000 {
		j := decide.Judgement{Bound: upper(4)[0], Rule: []standards.Rule{standards.SixteenPercent, standards.Median}[r.IntN(2)]}
		values := some(r, 1+r.IntN(11))
		v, _ := j.Judge(values)
		if v.Word != decide.NoVerdict {
			continue
		}
		tried++
		if v.More < 1 {
			t.Fatalf("%v: %d more", values, v.More)
		}
		for k := 1; k <= v.More; k++ {
			values = append(values, 3.9)
			w, _ := j.Judge(values)
			if k < v.More && w.Word != decide.NoVerdict || k == v.More && w.Word == decide.NoVerdict {
				t.Fatalf("%v: %s after %d of %d", values, w.Word, k, v.More)
			}
		}
	}
	if tried < 100 {
		t.Errorf("%d cases", tried)
	}
}

// Scaling values, limits and uncertainty changes no verdict, on the boundary neither; and turning all round changes
// upper for lower where the rule has no first step.
func TestVerdictScales(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2))
	for range 200 {
		for _, j := range judgements(r) {
			values := some(r, 1+r.IntN(12))
			v, err := j.Judge(values)
			if err != nil {
				t.Fatal(err)
			}
			k := math.Exp(3 * r.NormFloat64())
			s := j
			s.Value *= k
			s.Tolerance *= k
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
			j.Guard = decide.Guard{}
			plain, _ := j.Judge(values)
			firm := func(w decide.Word) bool { return w == decide.Conforms || w == decide.DoesNotConform }
			if firm(guarded.Word) && firm(plain.Word) && guarded.Word != plain.Word {
				t.Fatalf("%+v %v: %s with, %s without", j, values, guarded.Word, plain.Word)
			}
		}
	}
}

func TestJudgeRefuses(t *testing.T) {
	var e *decide.ValueError
	_, err := decide.Judgement{Bound: upper(4)[0], Rule: standards.Maximum}.Judge([]float64{1, math.NaN()})
	if !errors.As(err, &e) || e.Index != 1 {
		t.Errorf("NaN: %v", err)
	}
	for _, j := range []decide.Judgement{{Bound: upper(math.NaN())[0]}, {Bound: upper(math.Inf(1))[0]}, {Bound: upper(4)[0], Tolerance: -1}, {Bound: upper(4)[0], Tolerance: math.NaN()}} {
		j.Rule = standards.Maximum
		if _, err := j.Judge([]float64{1}); !errors.Is(err, decide.ErrBounds) {
			t.Errorf("%+v: %v", j, err)
		}
	}
	if _, err := (decide.Judgement{Bound: upper(4)[0], Rule: "often"}).Judge([]float64{1}); err == nil {
		t.Error("a rule that is none")
	}
}

// The words for several limits: the first of these that holds for any.
func TestWhole(t *testing.T) {
	yes, no, zone, none := decide.Conforms, decide.DoesNotConform, decide.NotDecided, decide.NoVerdict
	for _, c := range []struct {
		words []decide.Word
		want  decide.Word
	}{
		{[]decide.Word{yes, yes}, yes}, {[]decide.Word{yes, zone}, zone}, {[]decide.Word{zone, none}, none},
		{[]decide.Word{none, no, yes}, no}, {nil, none},
	} {
		if got := decide.Whole(c.words...); got != c.want {
			t.Errorf("%v: %s, want %s", c.words, got, c.want)
		}
	}
}

// A value far below its limit is never shown as 0.
func TestSmallValueShown(t *testing.T) {
	v, err := decide.Judgement{Bound: standards.Bound{Symbol: "Rz", Value: 3.2, Edition: standards.ISO21920}, Rule: standards.Maximum}.Judge([]float64{0.0032})
	if err != nil || !strings.Contains(v.Sentence, "The value 0.003 µm does not exceed 3.2 µm.") {
		t.Errorf("%v %s", err, v.Sentence)
	}
}
