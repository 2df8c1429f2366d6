package judge_test

import (
	"context"
	"errors"
	"example.com/furrow/roughness/judge"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness"
)

// heights are traces of sines whose Rz is known.
func heights(rz ...float64) []roughness.Profile {
	var list []roughness.Profile
	for _, h := range rz {
		list = append(list, sine(h, 50, 4800, 0.5))
	}
	return list
}

var onlyRz = &roughness.Settings{Parameters: []string{"Rz"}}

// Mean, standard deviation with n-1 and range of a series of known heights (textbook formulas): 2, 4, 4, 4, 5, 5, 7, 9 have the mean 5,
// and the sum of squares 32 about it.
func TestSeriesSummary(t *testing.T) {
	s, err := judge.EvaluateSeries(context.Background(), heights(2, 4, 4, 4, 5, 5, 7, 9), onlyRz)
	if err != nil {
		t.Fatal(err)
	}
	one := s.Values("Rz")[0] / 2 // what the filters leave of a sine 1 µm high
	near(t, "of 1 µm", one, 1, 0.01)
	sum := s.Summary("Rz")
	near(t, "mean", sum.Mean/one, 5, 1e-9)
	near(t, "standard deviation", sum.S/one, math.Sqrt(32.0/7), 1e-9)
	near(t, "range", sum.Range/one, 7, 1e-9)
	near(t, "median", sum.Median/one, 4.5, 1e-9)
	if sum.N != 8 || s.Units[0] != "µm" {
		t.Errorf("%d values in %q", sum.N, s.Units[0])
	}
	for i, h := range []float64{2, 4, 4, 4, 5, 5, 7, 9} {
		near(t, "in order", s.Values("Rz")[i]/one, h, 1e-9)
	}
}

// An outlier is proposed and stays: nine traces alike and one twice as high.
func TestSeriesOutlier(t *testing.T) {
	s, err := judge.EvaluateSeries(context.Background(), heights(3, 3.1, 2.9, 3.05, 2.95, 3, 3.02, 2.98, 3.01, 6), onlyRz)
	if err != nil {
		t.Fatal(err)
	}
	sum := s.Summary("Rz")
	if len(sum.Outliers) != 1 || sum.Outliers[0].Index != 9 || sum.N != 10 {
		t.Errorf("%+v", sum)
	}
}

// A trace that cannot be evaluated stays in the series with its reason.
func TestSeriesWithBadTrace(t *testing.T) {
	traces := append(heights(2, 3), sine(1, 50, 300, 0.5), roughness.Profile{Spacing: 0.5, Name: "empty.txt"})
	s, err := judge.EvaluateSeries(context.Background(), traces, onlyRz)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Traces) != 4 || len(s.Values("Rz")) != 2 || s.Traces[3].Name != "empty.txt" || s.Traces[0].Name != "trace 1" {
		t.Errorf("%+v", s)
	}
	for _, i := range []int{2, 3} {
		if !math.IsNaN(s.Traces[i].Values[0]) || s.Traces[i].Reasons[0] == "" {
			t.Errorf("trace %d: %+v", i+1, s.Traces[i])
		}
	}
	if v := s.Values("Ra"); len(v) != 0 {
		t.Errorf("values that were not asked for: %v", v)
	}
	var setting *roughness.SettingError
	if _, err := judge.EvaluateSeries(context.Background(), traces, &roughness.Settings{Edition: "iso-1"}); !errors.As(err, &setting) {
		t.Errorf("settings that cannot be followed: %v", err)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, err := judge.EvaluateSeries(stopped, traces, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

// Traces evaluated with other settings are no series: the error says which one and in what. Another place is no other setting.
func TestSeriesRefusesMixed(t *testing.T) {
	p := sine(2, 50, 6000, 0.5)
	first := evaluate(t, p.Z, p.Spacing, onlyRz)
	start := 100.0
	for _, c := range []struct {
		set  roughness.Settings
		says string
	}{
		{roughness.Settings{Long: gaussian(250), SectionLength: 800}, "long.cutoff is 250 µm and not 800 µm"},
		{roughness.Settings{Edition: "iso-4287"}, "edition is iso-4287 and not iso-21920"},
		{roughness.Settings{Sections: 3}, "sections is 3 and not 5"},
		{roughness.Settings{Short: off()}, "short is none"},
		{roughness.Settings{Invert: true}, "invert"},
		{roughness.Settings{Bridge: &start}, "gaps.bridge is 100 µm and not 400 µm"},
		{roughness.Settings{Start: &start}, ""},
		{roughness.Settings{Crop: [2]float64{100, 0}}, ""},
		{roughness.Settings{Exclude: []roughness.Exclusion{{From: 10, To: 20, Reason: "pore"}}}, ""},
	} {
		c.set.Parameters = []string{"Rz"}
		e := evaluate(t, p.Z, p.Spacing, &c.set)
		_, err := judge.Collect([]string{"first", "other"}, first, e)
		if (err == nil) != (c.says == "") || err != nil && (!errors.Is(err, judge.ErrMixed) || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), "other")) {
			t.Errorf("%q: %v", c.says, err)
		}
	}
	other := evaluate(t, p.Z, p.Spacing, &roughness.Settings{Parameters: []string{"Ra"}})
	if _, err := judge.Collect(nil, first, other); !errors.Is(err, judge.ErrMixed) {
		t.Errorf("other parameters: %v", err)
	}
	more := evaluate(t, p.Z, p.Spacing, &roughness.Settings{Parameters: []string{"Rz", "Ra"}})
	if _, err := judge.Collect(nil, first, more); !errors.Is(err, judge.ErrMixed) {
		t.Errorf("more parameters: %v", err)
	}
	if _, err := judge.Collect(nil, more, first); !errors.Is(err, judge.ErrMixed) {
		t.Errorf("fewer parameters: %v", err)
	}
}

// The name of a value is that of its trace, counted over the traces that have the value; behind them stand those typed in.
func TestNameOf(t *testing.T) {
	traces := heights(1, 2, 3)
	for i, name := range []string{"one", "flat", "three"} {
		traces[i].Name = name
	}
	clear(traces[1].Z) // Rsm of nothing is undefined
	s, err := judge.EvaluateSeries(context.Background(), traces, &roughness.Settings{Parameters: []string{"Rsm"}})
	if err != nil {
		t.Fatal(err)
	}
	typed, err := judge.ParseTyped("Rsm 60 µm", "")
	if err != nil {
		t.Fatal(err)
	}
	s.Type(typed...)
	if n := len(s.Values("Rsm")); n != 3 {
		t.Fatalf("%d values", n)
	}
	for i, want := range []string{"one", "three", "typed in", "typed in"} {
		if got := s.NameOf("Rsm", i); got != want {
			t.Errorf("value %d: %q, want %q", i, got, want)
		}
	}
	if got := s.NameOf("Rz", 0); got != "typed in" {
		t.Errorf("a symbol that no trace has: %q", got)
	}
}
