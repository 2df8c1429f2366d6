package decide_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// A balanced study made of its parts: values = 20 + part + operator + cell + repeat, each of which sums to 0. The mean squares follow from the
// sums of squares of those (two-way analysis of variance): o·r·Σa²/(p-1), p·r·Σb²/(o-1), r·Σg²/((p-1)(o-1)), Σe²/(p·o·(r-1)).
func TestStudyGageByItsParts(t *testing.T) {
	part, operator, row := []float64{-6, 1, 5}, []float64{3, -3}, []float64{1, -2, 1}
	for _, c := range []struct {
		name                                    string
		part, operator, cell, noise             float64
		repeat, interaction, reproduce, between float64
		pooled                                  bool
	}{
		// Mean squares 2·4·62/2 = 248, 3·4·18 = 216, 4·12/2 = 24 and 6·4·0.01/18 = 0.04/3.
		{"all", 1, 1, 1, 0.1, math.Sqrt(0.04 / 3), math.Sqrt((24 - 0.04/3) / 4), math.Sqrt((216 - 24) / 12.0), math.Sqrt((248 - 24) / 8.0), false},
		{"operators and parts beside the interaction", 0.1, 0.1, 1, 0.1, math.Sqrt(0.04 / 3), math.Sqrt((24 - 0.04/3) / 4), 0, 0, false},
		// An interaction of 0.0024 in 2 degrees against 0.04/3 in 18 is none; pooled, (0.0048 + 0.24)/20.
		{"no interaction", 1, 1, 0.01, 0.1, math.Sqrt(0.2448 / 20), 0, math.Sqrt((216 - 0.2448/20) / 12), math.Sqrt((248 - 0.2448/20) / 8), true},
		{"repeats that do not differ", 1, 1, 0, 0, 0, 0, math.Sqrt(216 / 12.0), math.Sqrt(248 / 8.0), true},
	} {
		var values [][][]float64
		for i, a := range part {
			values = append(values, nil)
			for j, b := range operator {
				values[i] = append(values[i], nil)
				for k := range 4 {
					values[i][j] = append(values[i][j], 20+c.part*a+c.operator*b+c.cell*row[i]*float64(1-2*j)+c.noise*float64(1-2*(k%2)))
				}
			}
		}
		g, err := decide.StudyGage(values)
		gage := math.Sqrt(c.repeat*c.repeat + c.interaction*c.interaction + c.reproduce*c.reproduce)
		total := math.Sqrt(gage*gage + c.between*c.between)
		if err != nil || g.Pooled != c.pooled || !close(g.Repeatability, c.repeat, 1e-7) || !close(g.Interaction, c.interaction, 1e-12) || !close(g.Reproducibility, c.reproduce, 1e-12) || !close(g.Parts, c.between, 1e-12) {
			t.Errorf("%s: %+v, %v; want %v", c.name, g, err, c)
		}
		if !close(g.Gage, gage, 1e-12) || !close(g.Total, total, 1e-12) || !close(g.GageShare, gage/total, 1e-12) || !close(g.NDC, math.Sqrt2*c.between/gage, 1e-12) {
			t.Errorf("%s: gage %v, total %v, share %v, categories %v; want %v, %v", c.name, g.Gage, g.Total, g.GageShare, g.NDC, gage, total)
		}
	}
	for _, few := range [][][][]float64{nil, {{{1, 2}, {1, 2}}}, {{{1, 2}}, {{1, 2}}}, {{{1}, {1}}, {{1}, {2}}}} {
		if _, err := decide.StudyGage(few); err == nil {
			t.Errorf("%v is a study", few)
		}
	}
}

// Effective degrees of freedom are those of parts that do not depend on each other, which is said where some do. Correlations that cannot all be
// leave a negative sum, which counts as nothing.
func TestBudgetOfDependentParts(t *testing.T) {
	line := func(u, dof float64) decide.Contribution {
		return decide.Contribution{U: u, Sensitivity: 1, DoF: dof}
	}
	three := []decide.Contribution{line(1, 4), line(1, 4), line(1, 0)}
	c, err := decide.Budget{Contributions: three, Correlations: []decide.Correlation{{A: 0, B: 1, R: 0.5}}}.Combine()
	// u² = 1 + 1 + 1 + 2·0.5 = 4, the degrees 16/(1/4 + 1/4) = 32, each of the two 1.5 of 4 with its half of what they share.
	if err != nil || c.Standard != 2 || c.DoF != 32 || len(c.Notes) != 1 || !strings.Contains(c.Notes[0], "do not depend on each other") || !close(c.Shares[0], 0.375, 1e-15) || !close(c.Shares[2], 0.25, 1e-15) {
		t.Errorf("%+v, %v", c, err)
	}
	if !close(c.K, decide.StudentQuantile((1+0.9545)/2, 32), 1e-15) || c.Expanded != c.K*2 {
		t.Errorf("k = %v, U = %v", c.K, c.Expanded)
	}
	if c, err := (decide.Budget{Contributions: three}).Combine(); err != nil || c.Notes != nil || c.DoF != 18 { // 9/(1/4 + 1/4)
		t.Errorf("%+v, %v", c, err)
	}
	c, err = decide.Budget{Contributions: three, Correlations: []decide.Correlation{{A: 0, B: 1, R: -1}, {A: 0, B: 2, R: -1}, {A: 1, B: 2, R: -1}}}.Combine()
	if err != nil || c.Standard != 0 || c.Expanded != 0 || !math.IsInf(c.DoF, 1) || c.Shares[0] != 0 || c.Shares[1] != 0 || c.Shares[2] != 0 {
		t.Errorf("correlations that cannot be: %+v, %v", c, err)
	}
	for _, p := range []float64{-0.5, 1, 1.5, math.NaN()} {
		if _, err := (decide.Budget{Contributions: three, Coverage: p}).Combine(); err == nil {
			t.Errorf("a coverage of %g passes", p)
		}
	}
}

func TestSensitivityRefuses(t *testing.T) {
	square := func(x float64) (float64, error) { return x * x, nil }
	if c, err := decide.Sensitivity(square, 3, 0.5); err != nil || c != 6 { // exact for a parabola
		t.Errorf("%v, %v", c, err)
	}
	for _, step := range []float64{0, -1, math.NaN()} {
		if _, err := decide.Sensitivity(square, 3, step); err == nil {
			t.Errorf("a step of %g passes", step)
		}
	}
	broken := errors.New("no value")
	for _, at := range []float64{2.5, 3.5} {
		if c, err := decide.Sensitivity(func(x float64) (float64, error) {
			if x == at {
				return 1, broken
			}
			return x, nil
		}, 3, 0.5); err != broken || c != 0 {
			t.Errorf("no value at %g: %v, %v", at, c, err)
		}
	}
}

// A value below the table of ISO 4288 belongs to its finest row, and a trace too short for a cut-off ends the search wherever that happens.
func TestFindCutoffAtTheEnds(t *testing.T) {
	e, _ := standards.EditionByID("iso-4287")
	f, err := decide.FindCutoff(e, "Ra", 0.005, surface(map[float64]float64{80: 0.004}))
	if err != nil || f.Cutoff != 80 || f.Value != 0.004 || !f.Stable || len(f.Turns) != 1 {
		t.Errorf("%+v, %v", f, err)
	}
	// The next shorter one cannot be tried.
	f, err = decide.FindCutoff(e, "Ra", 1, surface(map[float64]float64{800: 0.9}))
	if err == nil || err.Error() != "decide: measuring with 0.25 mm: trace too short" || len(f.Turns) != 1 || f.Cutoff != 0 {
		t.Errorf("%+v, %v", f, err)
	}
}

// Shown beside a limit that six digits do not show, a value stands where it stands to the limit.
func TestBesides(t *testing.T) {
	for _, c := range []struct {
		v, edge float64
		want    string
	}{
		{0.8, 0.8, "0.8"}, {0.80000012, 0.8, "0.8000001"}, {0.79999995, 0.8, "0.79999995"}, {3.14159265, 1, "3.14159"},
		{1.234569, 1.2345678, "1.234569"}, // above the limit, and below its six digits: all of them
		{0.1 + 0.2, 0.3, "0.3"}, {12345678, 1, "12345700"},
	} {
		if got := decide.Besides(c.v, c.edge); got != c.want {
			t.Errorf("%v beside %v: %s, want %s", c.v, c.edge, got, c.want)
		}
	}
	for _, c := range []struct {
		symbol string
		v      float64
		unit   string
		want   string
	}{{"RPc", 12.345, "1/cm", "12.3"}, {"Ra", 1.23456, "ell", "1.235"}, {"Ra", 1.23456, "", "1.235"}, {"Rz", 0.42134, "mm", "0.00042"}, {"Rsm", 123.456, "µm", "123.5"}, {"Rmr(1)", 5, "%", "5.0"}} {
		if got := decide.Show(c.symbol, c.v, c.unit); got != c.want {
			t.Errorf("%s %g %s: %s, want %s", c.symbol, c.v, c.unit, got, c.want)
		}
	}
}

// Who has to prove is told whether that was done (ISO 14253-1: the uncertainty counts against whoever proves).
func TestWhoProves(t *testing.T) {
	for _, c := range []struct {
		proof decide.Proof
		v     float64
		want  string
	}{
		{decide.Maker, 3, "The maker must prove that the surface conforms, and has done so."}, {decide.Maker, 4, "The maker must prove that the surface conforms, and has not."}, {decide.Maker, 5, "The maker must prove that the surface conforms, and has not."},
		{decide.Buyer, 5, "The buyer must prove that the surface does not conform, and has done so."}, {decide.Buyer, 4, "The buyer must prove that the surface does not conform, and has not."}, {decide.Buyer, 3, "The buyer must prove that the surface does not conform, and has not."},
		{decide.Nobody, 3, ""},
	} {
		j := decide.Judgement{Bound: standards.Bound{Symbol: "Rz", Value: 4}, Rule: standards.Maximum, Guard: decide.Guard{Rule: decide.ExpandedU, Expanded: 0.25, Proof: c.proof}}
		v, err := j.Judge([]float64{c.v})
		if err != nil || c.want != "" && !strings.HasSuffix(v.Sentence, " "+c.want) || c.want == "" && strings.Contains(v.Sentence, "must prove") {
			t.Errorf("%s, %g: %q, %v", c.proof, c.v, v.Sentence, err)
		}
	}
	if v, err := (decide.Judgement{Bound: standards.Bound{Symbol: "Rz", Value: 4}, Rule: standards.Maximum, Guard: decide.Guard{Rule: "half", Expanded: 0.25}}).Judge([]float64{3}); err == nil || v.Word != "" {
		t.Errorf("no such rule: %+v, %v", v, err)
	}
}

// The ends of the distributions: nothing lies beyond infinity, and with very many degrees of freedom t is normal.
func TestDistributionsAtTheEnds(t *testing.T) {
	inf := math.Inf(1)
	for _, nu := range []float64{1, 3, 25.6} {
		if a, b, c := decide.StudentCDF(-inf, nu), decide.StudentCDF(inf, nu), decide.StudentQuantile(0.5, nu); a != 0 || b != 1 || c != 0 {
			t.Errorf("%g degrees: %v below -∞, %v below ∞, median %v", nu, a, b, c)
		}
	}
	for _, x := range []float64{-2, 0, 1.5} {
		if got := decide.StudentCDF(x, inf); got != decide.NormalCDF(x) {
			t.Errorf("t below %g with infinitely many degrees: %v", x, got)
		}
	}
	// F above f with 2 and 2 degrees is 1/(1+f); with 2 and m degrees (1 + 2f/m)^(-m/2).
	for _, f := range []float64{0, 1e-9, 0.5, 1, 7, 1e6} {
		for _, m := range []float64{2, 4, 18, 60} {
			if got, want := decide.FTail(f, 2, m), math.Pow(1+2*f/m, -m/2); math.Abs(got-want) > 1e-12*(want+1e-3) {
				t.Errorf("F above %g with 2 and %g degrees: %v, want %v", f, m, got, want)
			}
		}
	}
	if got := decide.FTail(inf, 2, 2); got != 0 {
		t.Errorf("F above ∞: %v", got)
	}
	// t with one degree is Cauchy's, with two x/√(2+x²).
	for _, x := range []float64{-30, -1, -0.01, 0.2, 3, 500} {
		if got, want := decide.StudentCDF(x, 1), 0.5+math.Atan(x)/math.Pi; math.Abs(got-want) > 1e-14 {
			t.Errorf("t below %g with one degree: %v, want %v", x, got, want)
		}
		if got, want := decide.StudentCDF(x, 2), 0.5+x/2/math.Sqrt(2+x*x); math.Abs(got-want) > 1e-14 {
			t.Errorf("t below %g with two degrees: %v, want %v", x, got, want)
		}
	}
	if s := decide.Summarise(nil); !math.IsNaN(s.Median) {
		t.Error(fmt.Sprint(s))
	}
}

// Places without a value count as none.
func TestNestedWithEmptyPlaces(t *testing.T) {
	want, err := decide.SplitNested([][]float64{{1, 3}, {5, 7}})
	if err != nil {
		t.Fatal(err)
	}
	got, err := decide.SplitNested([][]float64{{}, {1, 3}, nil, {5, 7}})
	if err != nil || got.Between != want.Between || got.Repeatability != want.Repeatability || got.Total != want.Total || got.WithinDoF != 2 || got.BetweenDoF != 1 {
		t.Errorf("%+v, %v; want %+v", got, err, want)
	}
	for _, few := range [][][]float64{nil, {{1, 2, 3}}, {{1}, {2}}, {{1, 2}, {}}} {
		if _, err := decide.SplitNested(few); err == nil {
			t.Errorf("%v is nested", few)
		}
	}
}
