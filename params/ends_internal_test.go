package params

import (
	"math"
	"strings"
	"testing"
)

// What the helpers say of nothing, at the ends of a curve and of a flat profile.
func TestHelpersAtTheEnds(t *testing.T) {
	c := newWork(&Input{Z: []float64{1, 3, 2}}).curve() // 3, 2, 1 in the middles of thirds
	for _, v := range []struct {
		name      string
		got, want float64
	}{
		{"median of none", median(nil), 0}, {"median of two", median([]float64{5, 2}), 3.5}, {"median of three", median([]float64{5, 9, 2}), 5},
		{"greatest of none", greatest(nil), math.NaN()}, {"greatest", greatest([]float64{-5, -2, -9}), -2},
		{"e^-690.1", exponential(-690.1), 0}, {"e^0", exponential(0), 1},
		{"reaches above the top", c.reaches(3.1, 0), 0}, {"reaches the top", c.reaches(3, 0), 0}, {"reaches 2.5", c.reaches(2.5, 0), 1.0 / 3}, {"reaches the lowest", c.reaches(1, 0), 2.5 / 3}, {"never reaches", c.reaches(0.9, 0), 1}, {"reaches within the tolerance", c.reaches(0.9, 0.11), 2.5 / 3},
		{"leaves below the lowest", c.leaves(0.9, 0), 1}, {"leaves the lowest", c.leaves(1, 0), 1}, {"leaves 1.5", c.leaves(1.5, 0), 2.0 / 3}, {"leaves the top", c.leaves(3, 0), 0.5 / 3}, {"never left", c.leaves(3.1, 0), 0}, {"leaves within the tolerance", c.leaves(3.1, 0.11), 0.5 / 3},
		{"quantile of 0", normalQuantile(0), math.Inf(-1)}, {"quantile of 1", normalQuantile(1), math.Inf(1)}, {"quantile below 0", normalQuantile(-1e-300), math.NaN()}, {"quantile above 1", normalQuantile(math.Nextafter(1, 2)), math.NaN()}, {"quantile of NaN", normalQuantile(math.NaN()), math.NaN()}, {"quantile of 1/2", normalQuantile(0.5), 0},
	} {
		if !(math.Abs(v.got-v.want) <= 1e-15 || v.got == v.want || math.IsNaN(v.got) && math.IsNaN(v.want)) {
			t.Errorf("%s: %v, want %v", v.name, v.got, v.want)
		}
	}
	if low, high := limits(nil); low != 0 || high != 0 {
		t.Errorf("limits of none: %v, %v", low, high)
	}
	for x := -690.0; x <= 0; x += 13.7 {
		if got, want := exponential(x), math.Exp(x); math.Abs(got/want-1) > 1e-14 {
			t.Errorf("e^%v = %v, want %v", x, got, want)
		}
	}
	for _, wave := range []struct {
		z          []float64
		wavelength float64
	}{{nil, 1}, {[]float64{5}, 1}, {[]float64{5, 6, 7}, 0}, {[]float64{5, 6, 7}, -1}, {[]float64{5, 6, 7}, math.NaN()}} {
		got := dominantProfile(wave.z, 1, wave.wavelength)
		if len(got) != len(wave.z) {
			t.Errorf("%v: %v", wave, got)
		}
		for _, v := range got {
			if v != 0 {
				t.Errorf("%v: %v", wave, got)
			}
		}
	}
}

// A profile of rounding alone is flat: what lies at zero has the whole ratio at zero and below, and none above; shapes have a reason.
func TestFlatProfile(t *testing.T) {
	in := &Input{Z: []float64{1e-13, -1e-13, 5e-14, -3e-14, 1e-13, -1e-13, 2e-14, 0, 1e-13, -1e-13}, Dx: 1, Flat: 1e-12}
	for name, want := range map[string]float64{"Rmr(0)": 100, "Rmr(-1)": 100, "Rmr(1)": 0, "Rmr(0.000000000001)": 100, "Rmr(0.0000000000011)": 0} {
		call, err := Lookup("iso-21920", 'R', name)
		if err != nil {
			t.Fatal(err)
		}
		if v := Evaluate(in, call)[0]; v.Value != want || v.Reason != "" {
			t.Errorf("%s = %v, %s", name, v.Value, v.Reason)
		}
	}
	for _, name := range []string{"Rsm", "Rc", "Rsk", "Rku"} {
		call, err := Lookup("iso-21920", 'R', name)
		if err != nil {
			t.Fatal(err)
		}
		if v := Evaluate(in, call)[0]; !math.IsNaN(v.Value) || v.Reason != reasonFlat {
			t.Errorf("%s = %v, %s", name, v.Value, v.Reason)
		}
	}
	zero := &Input{Z: make([]float64, 64), Dx: 1}
	for _, name := range []string{"Ral", "Rsw"} {
		call, err := Lookup("iso-21920", 'R', name)
		if err != nil {
			t.Fatal(err)
		}
		if v := Evaluate(zero, call)[0]; !math.IsNaN(v.Value) || v.Reason == "" {
			t.Errorf("%s of zeros = %v, %s", name, v.Value, v.Reason)
		}
	}
	if _, err := Lookup("iso-12085", 'P', "nonsense"); err == nil || !strings.HasSuffix(err.Error(), "iso-12085 has nothing for profile P") {
		t.Errorf("%v", err)
	}
}

// A material probability curve that cannot be one of two processes says why.
func TestNoProbability(t *testing.T) {
	equal, two, few := make([]float64, 200), make([]float64, 200), make([]float64, 99)
	for i := range two {
		if i < 100 {
			two[i] = 1
		}
	}
	for i := range few {
		few[i] = float64(-i)
	}
	for want, sorted := range map[string][]float64{reasonOneHeight: equal, reasonOneProcess: two, reasonFewHeights: few} {
		if p, reason := FitProbability(sorted); p != nil || reason != want {
			t.Errorf("%+v, %s, want %s", p, reason, want)
		}
	}
	// Two heights fulfil v² = v, so that a conic through them is not determined.
	if q, ok := fitUnitConic([]float64{0, 1, 2, 3, 4, 5, 6, 7}, []float64{1, 1, 1, 1, 0, 0, 0, 0}, make([]float64, 48)); ok {
		t.Errorf("%+v", q)
	}
	for _, z := range [][]float64{{1, 1, 1, 1, 1}, {0, 1, 2, 3, 4}, {3, 2, 1, 0}, {math.NaN(), 1, 1, 1, 0}} {
		if q, ok := fitUnitConic([]float64{0, 1, 2, 3, 4}[:len(z)], z, make([]float64, 30)); ok {
			t.Errorf("%v: %+v", z, q)
		}
	}
}

// A formula that the notation does not hold stands as text, and so does a piece of a template that means nothing.
func TestFormulaThatCannotBeRead(t *testing.T) {
	for _, formula := range []string{"(", "a < ) & b"} {
		e := equation(formula)
		if e.Plain != formula || e.Spoken != formula || !strings.HasPrefix(e.MathML, "<math><mtext>") || strings.Contains(formula, "&") && !strings.Contains(e.MathML, "a &lt; ) &amp; b") {
			t.Errorf("%q: %+v", formula, e)
		}
	}
	w := &writing{kinds: map[string]string{"piece": "$t costs $9 or $x$1"}, special: func(*writing, formulaNode) (string, bool) { return "", false }}
	n := formulaNode{kind: "piece", text: "it", of: []formulaNode{{kind: "piece", text: "this"}}}
	if got := n.write(w); got != "it costs $9 or $xthis costs $9 or $x$1" {
		t.Error(got)
	}
}
