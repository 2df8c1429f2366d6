package decide_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
	"gonum.org/v1/gonum/stat"
)

// Reference: gonum/stat.
func TestSummarise(t *testing.T) {
	x := []float64{3.1, 2.9, 3.4, 3.0, 3.2, 2.8}
	s := decide.Summarise(x)
	if !close(s.Mean, stat.Mean(x, nil), 1e-14) || !close(s.S, stat.StdDev(x, nil), 1e-14) || s.Min != 2.8 || s.Max != 3.4 ||
		!close(s.Range, 0.6, 1e-12) || !close(s.Median, 3.05, 1e-14) || len(s.Outliers) != 0 {
		t.Errorf("%+v", s)
	}
	// Copies of one trace in several formats agree to seven digits: none of them is far from the others.
	if s := decide.Summarise([]float64{0.69842501, 0.69842508, 0.69842508, 0.69842508}); len(s.Outliers) != 0 {
		t.Errorf("%+v", s)
	}
	if s := decide.Summarise([]float64{0.69842501, 0.5, 0.5001, 0.5002}); len(s.Outliers) != 1 || s.Outliers[0].Index != 0 {
		t.Errorf("%+v", s)
	}
	if s := decide.Summarise(nil); s.N != 0 || !math.IsNaN(s.Mean) {
		t.Errorf("%+v", s)
	}
	if s := decide.Summarise([]float64{1}); s.Mean != 1 || !math.IsNaN(s.S) {
		t.Errorf("%+v", s)
	}
}

// Critical values of Grubbs's test, two-sided, 5 %: printed tables have 1.155 (3), 1.887 (6), 2.290 (10), 2.709 (20)
// (from memory; the oldest tables are off by one in the last digit).
func TestOutliers(t *testing.T) {
	for n, want := range map[int]float64{3: 1.155, 6: 1.887, 10: 2.290, 20: 2.709} {
		if got := decide.GrubbsCritical(n, 0.05); math.Abs(got-want) > 1.1e-3 {
			t.Errorf("n = %d: %.4f, want %.3f", n, got, want)
		}
	}
	o := decide.Outliers([]float64{3.1, 2.9, 3.0, 9, 3.2, 3.1, 2.95}, 0.05)
	if len(o) != 1 || o[0].Index != 3 {
		t.Errorf("%+v", o)
	}
	if o := decide.Outliers([]float64{3, 3, 3, 3}, 0.05); o != nil {
		t.Errorf("equal values: %+v", o)
	}
}

// Outliers one after the other: each farther from the rest than Grubbs's critical value, the first of two that are as far, at most half of the
// values, and as long as three are left that differ.
func TestOutliersPlainly(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	most := 0
	for range 3000 {
		values := make([]float64, 1+r.IntN(9))
		for i := range values {
			values[i] = 10 + float64(r.IntN(3))/4
			if r.IntN(3) == 0 {
				values[i] = 10 * math.Exp2(float64(r.IntN(40)-8)) // far away
			}
		}
		var want []int
		out := map[int]bool{}
		for {
			var rest []float64
			for i, v := range values {
				if !out[i] {
					rest = append(rest, v)
				}
			}
			n := float64(len(rest))
			if len(rest) < 3 || 2*(len(out)+1) > len(values) {
				break
			}
			mean, square, far := 0.0, 0.0, -1
			for _, v := range rest {
				mean += v
			}
			mean /= n
			for _, v := range rest {
				square += (v - mean) * (v - mean)
			}
			for i, v := range values {
				if !out[i] && (far < 0 || math.Abs(v-mean) > math.Abs(values[far]-mean)) {
					far = i
				}
			}
			s := math.Sqrt(square / (n - 1))
			if !(s > 0 && math.Abs(values[far]-mean)/s > decide.GrubbsCritical(len(rest), 0.05)) {
				break
			}
			want, out[far] = append(want, far), true
		}
		got := decide.Outliers(values, 0.05)
		same := len(got) == len(want)
		for i := range want {
			same = same && got[i].Index == want[i]
		}
		if !same {
			t.Fatalf("%v: %+v, want %v", values, got, want)
		}
		most = max(most, len(want))
	}
	if most < 3 {
		t.Errorf("never more than %d outliers", most)
	}
	for spread, found := range map[float64]int{0.99e-4: 0, 1.01e-4: 1} { // values that agree to four digits
		values := []float64{1, 1, 1, 1, 1, 1, 1 + spread*math.Sqrt(7)}
		if s := decide.Summarise(values); len(s.Outliers) != found {
			t.Errorf("a spread of %g of the mean: %+v", spread, s)
		}
	}
}

// By hand: places {1, 3} and {5, 7}: mean squares 2 within and 16 between, so 2 and (16-2)/2 = 7.
func TestSplitNested(t *testing.T) {
	n, err := decide.SplitNested([][]float64{{1, 3}, {5, 7}})
	if err != nil || !close(n.Repeatability, math.Sqrt2, 1e-14) || !close(n.Between, math.Sqrt(7), 1e-14) || !close(n.Total, 3, 1e-14) {
		t.Errorf("%+v %v", n, err)
	}
	n, err = decide.SplitNested([][]float64{{1, 3}, {3, 1}, {2, 2}})
	if err != nil || n.Between != 0 || n.Note == "" {
		t.Errorf("%+v %v", n, err)
	}
	if _, err := decide.SplitNested([][]float64{{1}, {2}}); err == nil {
		t.Error("no repeats pass")
	}
	// A known split comes back from many values.
	r := rand.New(rand.NewPCG(5, 5))
	places := make([][]float64, 3000)
	for i := range places {
		at := 4 + 0.3*r.NormFloat64()
		for range 2 + i%3 {
			places[i] = append(places[i], at+0.1*r.NormFloat64())
		}
	}
	n, err = decide.SplitNested(places)
	if err != nil || math.Abs(n.Repeatability-0.1) > 0.004 || math.Abs(n.Between-0.3) > 0.015 {
		t.Errorf("%+v %v", n, err)
	}
}

func TestCapability(t *testing.T) {
	x := []float64{1, 2, 3}
	c, err := decide.CapabilityOf(x, standards.Bound{Value: 5})
	if err != nil || !close(c.Index, 1, 1e-14) || c.Skewness != 0 || c.Note == "" || !(c.LowerEnd < c.Index) {
		t.Errorf("%+v %v", c, err)
	}
	c, err = decide.CapabilityOf(x, standards.Bound{Side: standards.Lower, Value: -1})
	if err != nil || !close(c.Index, 1, 1e-14) || !math.IsNaN(c.IndexLog) {
		t.Errorf("%+v %v", c, err)
	}
	// Without logarithms: a value or a limit of 0 or below.
	for _, bad := range []struct {
		values []float64
		limit  float64
	}{{[]float64{0, 1, 2}, 5}, {[]float64{-1, 1, 2}, 5}, {[]float64{0, 0, 2}, 5}, {[]float64{1, 2, 3}, 0}, {[]float64{1, 2, 3}, -4}} {
		if c, err := decide.CapabilityOf(bad.values, standards.Bound{Value: bad.limit}); err != nil || !math.IsNaN(c.IndexLog) || c.PreferLog {
			t.Errorf("%v against %g: %+v %v", bad.values, bad.limit, c, err)
		}
	}
	// Lognormal values: the index on the logarithms finds the share beyond the limit, the plain one does not.
	r := rand.New(rand.NewPCG(5, 6))
	y := make([]float64, 20000)
	for i := range y {
		y[i] = math.Exp(0.5 * r.NormFloat64())
	}
	c, err = decide.CapabilityOf(y, standards.Bound{Value: math.Exp(1.5)})
	if err != nil || !c.PreferLog || math.Abs(c.IndexLog-1) > 0.02 || c.Index < 1.1 {
		t.Errorf("%+v %v", c, err)
	}
	if _, err := decide.CapabilityOf([]float64{1, 1, 1}, standards.Bound{Value: 5}); err == nil {
		t.Error("equal values pass")
	}
	if _, err := decide.CapabilityOf([]float64{1, 2}, standards.Bound{Value: 5}); err == nil {
		t.Error("two values pass")
	}
}

// The study of ten parts, three appraisers and three trials that handbooks of measurement systems analysis print
// (values and results from memory: 0.1999, 0.2268, 0.3024, 1.0423, 1.0853; 27.9 %, 4.9 parts told apart).
func TestStudyGage(t *testing.T) {
	rows := [3][3][10]float64{
		{{0.29, -0.56, 1.34, 0.47, -0.80, 0.02, 0.59, -0.31, 2.26, -1.36}, {0.41, -0.68, 1.17, 0.50, -0.92, -0.11, 0.75, -0.20, 1.99, -1.25}, {0.64, -0.58, 1.27, 0.64, -0.84, -0.21, 0.66, -0.17, 2.01, -1.31}},
		{{0.08, -0.47, 1.19, 0.01, -0.56, -0.20, 0.47, -0.63, 1.80, -1.68}, {0.25, -1.22, 0.94, 1.03, -1.20, 0.22, 0.55, 0.08, 2.12, -1.62}, {0.07, -0.68, 1.34, 0.20, -1.28, 0.06, 0.83, -0.34, 2.19, -1.50}},
		{{0.04, -1.38, 0.88, 0.14, -1.46, -0.29, 0.02, -0.46, 1.77, -1.49}, {-0.11, -1.13, 1.09, 0.20, -1.07, -0.67, 0.01, -0.56, 1.45, -1.77}, {-0.15, -0.96, 0.67, 0.11, -1.45, -0.49, 0.21, -0.49, 1.87, -2.16}},
	}
	values := make([][][]float64, 10)
	for p := range values {
		values[p] = make([][]float64, 3)
		for o := range 3 {
			for k := range 3 {
				values[p][o] = append(values[p][o], rows[o][k][p])
			}
		}
	}
	g, err := decide.StudyGage(values)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string][2]float64{
		"repeatability": {g.Repeatability, 0.1999}, "reproducibility": {g.Reproducibility, 0.2268}, "gage": {g.Gage, 0.3024},
		"parts": {g.Parts, 1.0423}, "total": {g.Total, 1.0853},
	} {
		if math.Abs(c[0]-c[1]) > 6e-5 {
			t.Errorf("%s %.5f, want %.4f", name, c[0], c[1])
		}
	}
	if !g.Pooled || g.Interaction != 0 || math.Abs(g.GageShare-0.279) > 5e-4 || math.Abs(g.NDC-4.9) > 0.05 {
		t.Errorf("%+v", g)
	}
	if _, err := decide.StudyGage(values[:1]); err == nil {
		t.Error("one part passes")
	}
	values[3][1] = values[3][1][:2]
	if _, err := decide.StudyGage(values); err == nil {
		t.Error("uneven repeats pass")
	}
}

// A study that is not even is refused with the part and the operator; a value that is none, with its place when all are counted.
func TestStudyGageRefuses(t *testing.T) {
	for _, c := range []struct {
		values [][][]float64
		want   string
	}{
		{[][][]float64{{{1, 2}, {1, 3}}, {{1, 2}, {1, 2}, {1, 2}}}, "part 2 has 3 operators, not 2"},
		{[][][]float64{{{1, 2}, {1, 3}}, {{1, 2}, {1, 2, 3}}}, "part 2, operator 2 has 3 repeats, not 2"},
		{[][][]float64{{{1, 2}, {1}}, {{1, 2}, {1, 2}}}, "part 1, operator 2 has 1 repeats, not 2"},
		{[][][]float64{{{1, 2}, {1, 3}}}, "two parts"}, {[][][]float64{{{1, 2}}, {{1, 2}}}, "two operators"}, {[][][]float64{{{1}, {1}}, {{1}, {1}}}, "two repeats"},
	} {
		if _, err := decide.StudyGage(c.values); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v, want %s", c.values, err, c.want)
		}
	}
	for at := range 8 {
		values := [][][]float64{{{1, 2}, {1, 3}}, {{1, 2}, {2, 3}}}
		values[at/4][at/2%2][at%2] = []float64{math.NaN(), math.Inf(1)}[at%2]
		_, err := decide.StudyGage(values)
		var wrong *decide.ValueError
		if !errors.As(err, &wrong) || wrong.Index != at {
			t.Errorf("value %d: %v", at, err)
		}
	}
}
