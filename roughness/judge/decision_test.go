package judge_test

import (
	"context"
	"example.com/furrow/roughness/judge"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// trace is a surface of two grains on a wave and a slope.
func trace(seed uint64) roughness.Profile {
	z := synth.Sum{
		synth.Correlated{Sigma: 0.4, Length: 9, Seed: seed}, synth.Correlated{Sigma: 0.2, Length: 3.5, Seed: seed + 1000},
		synth.Sine{Amplitude: 0.3, Wavelength: 1700 + float64(seed%7)*150, Phase: 0.3}, synth.Tilt{Offset: 1, Slope: 0.0004},
	}.Heights(3001, 1)
	return roughness.Profile{Z: z, Spacing: 1}
}

// Scaling all heights and all limits by k changes no verdict: not the word, not how many more values are needed, not how many steps the
// log has. Under every rule, with and without a guard band, with a limit that a value meets exactly.
func TestScalingChangesNoVerdict(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	set := &roughness.Settings{Long: gaussian(250), Parameters: []string{"Rz"}}
	var traces []roughness.Profile
	for i := range 12 {
		p := trace(uint64(i))
		p.Z = p.Z[:1500]
		traces = append(traces, p)
	}
	evaluateAll := func(k float64) []float64 {
		scaled := make([]roughness.Profile, len(traces))
		for i, p := range traces {
			scaled[i] = p
			scaled[i].Z = make([]float64, len(p.Z))
			for j, z := range p.Z {
				scaled[i].Z[j] = z * k
			}
		}
		s, err := judge.EvaluateSeries(context.Background(), scaled, set)
		if err != nil {
			t.Fatal(err)
		}
		return s.Values("Rz")
	}
	plain := evaluateAll(1)
	words := map[decide.Word]int{}
	for _, k := range []float64{0.25, 2, 3, 0.1, 1.0 / 7} {
		scaled := evaluateAll(k)
		for range 200 {
			n := 1 + r.IntN(12)
			i := r.IntN(len(plain))
			limit := plain[i] // met exactly by one value
			if r.IntN(2) == 0 {
				limit *= 0.8 + 0.5*r.Float64()
			}
			bounds := []standards.Bound{{Symbol: "Rz", Side: standards.Side(r.IntN(2)), Value: limit}}
			if r.IntN(4) == 0 {
				bounds = []standards.Bound{{Symbol: "Rz", Value: limit}, {Symbol: "Rz", Side: standards.Lower, Value: limit * 0.7}}
			}
			rule := []standards.Rule{standards.Maximum, standards.SixteenPercent, standards.Median}[r.IntN(3)]
			guard := decide.Guard{Rule: []decide.GuardRule{decide.Simple, decide.Probability, decide.ExpandedU}[r.IntN(3)], Expanded: 0.1 * r.Float64(), K: 2}
			a := verdict(t, plain[:n], bounds, rule, guard)
			guard.Expanded *= k
			for j := range bounds {
				bounds[j].Value *= k
			}
			b := verdict(t, scaled[:n], bounds, rule, guard)
			if a.Word != b.Word || a.More != b.More || len(a.Log) != len(b.Log) {
				t.Errorf("k = %g, rule %s, %+v, n = %d: %q with %d more became %q with %d more", k, rule, bounds, n, a.Word, a.More, b.Word, b.More)
			}
			words[a.Word]++
		}
	}
	for _, w := range []decide.Word{decide.Conforms, decide.NotDecided, decide.DoesNotConform, decide.NoVerdict} {
		if words[w] < 50 {
			t.Errorf("%q came up %d times: the cases are one-sided", w, words[w])
		}
	}
}

// From evaluated traces to a verdict by the plan of 1, 3, 6 and 12 values (ISO 4288:1996, Annex A; steps confirmed by neutral copies):
// sines whose Rz stand to the limit as the vectors 2.8 | 3.5 3.9 4.0 | 3.5 4.1 3.9 3.2 3.3 3.1 | 3.5 4.1 4.2 4.3 do to 4.
func TestSeriesToVerdict(t *testing.T) {
	unit := value(t, evaluate(t, sine(1, 50, 4800, 0.5).Z, 0.5, onlyRz), "Rz")
	bounds := []standards.Bound{{Symbol: "Rz", Value: 4 * unit}}
	for _, c := range []struct {
		heights []float64
		rule    standards.Rule
		word    decide.Word
	}{
		{[]float64{2.8}, standards.SixteenPercent, decide.Conforms},
		{[]float64{2.9}, standards.SixteenPercent, decide.NoVerdict},
		{[]float64{3.5, 3.9, 4.0}, standards.SixteenPercent, decide.Conforms},
		{[]float64{3.5, 4.1, 3.9, 3.2, 3.3, 3.1}, standards.SixteenPercent, decide.Conforms},
		{[]float64{3.5, 4.1, 4.2, 4.3}, standards.SixteenPercent, decide.DoesNotConform},
		{[]float64{3.5, 4.1}, standards.Maximum, decide.DoesNotConform},
		{[]float64{3.6, 4.4, 3.9}, standards.Median, decide.Conforms},
		{[]float64{3.6, 4.4}, standards.Median, decide.NoVerdict},
	} {
		s, err := judge.EvaluateSeries(context.Background(), heights(c.heights...), onlyRz)
		if err != nil {
			t.Fatal(err)
		}
		if v := verdict(t, s.Values("Rz"), bounds, c.rule, decide.Guard{}); v.Word != c.word {
			t.Errorf("%v by %s: %q, want %q", c.heights, c.rule, v.Word, c.word)
		}
	}
}

// verdict judges values by one bound or two of one parameter: the word for both, and what each says.
func verdict(t *testing.T, values []float64, bounds []standards.Bound, rule standards.Rule, guard decide.Guard) (all decide.Ruling) {
	t.Helper()
	var words []decide.Word
	for _, b := range bounds {
		j := decide.Judgement{Bound: b, Rule: rule, Guard: guard, Unit: "µm"}
		if len(bounds) == 2 {
			j.Tolerance = math.Abs(bounds[0].Value - bounds[1].Value)
		}
		v, err := j.Judge(values)
		if err != nil {
			t.Fatal(err)
		}
		words = append(words, v.Word)
		all.More = max(all.More, v.More)
		all.Log = append(all.Log, v.Log...)
	}
	all.Word = decide.Whole(words...)
	return all
}

// Three traces of one surface, evaluated alike and held against a limit.
func ExampleEvaluateSeries() {
	s, err := judge.EvaluateSeries(context.Background(), heights(2.9, 3.4, 3.0), &roughness.Settings{Parameters: []string{"Rz"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	sum := s.Summary("Rz")
	fmt.Printf("mean %.2f µm, standard deviation %.2f µm\n", sum.Mean, sum.S)
	bounds, _ := judge.ParseLimits("Rz <= 3.2", "")
	v, err := decide.Judgement{Bound: bounds[0], Rule: standards.Median}.Judge(s.Values("Rz"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v.Sentence)
	for _, line := range v.Log {
		fmt.Println("-", line)
	}
	// Output:
	// mean 3.09 µm, standard deviation 0.26 µm
	// The median of three values, 2.99 µm, does not exceed 3.2 µm. Simple acceptance.
	// - The median of three values, 2.994984794840042 µm, is not above 3.2 µm.
}
