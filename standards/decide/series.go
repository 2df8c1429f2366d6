package decide

import (
	"fmt"
	"math"
	"slices"
)

// meanOf is the arithmetic mean, by a plain loop.
func meanOf(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// sampleDeviation is the standard deviation with divisor n-1; NaN for fewer than two values.
func sampleDeviation(values []float64) float64 {
	if len(values) < 2 {
		return math.NaN()
	}
	m, sum := meanOf(values), 0.0
	for _, v := range values {
		d := v - m
		sum += float64(d * d)
	}
	return math.Sqrt(sum / float64(len(values)-1))
}

// A Summary describes the values of a series of traces, in their unit.
type Summary struct {
	N                      int
	Mean                   float64
	S                      float64 // standard deviation, divisor n-1; NaN below two values
	Min, Max, Range        float64
	Median                 float64
	StandardErrorOfTheMean float64 // S over the root of N
	Outliers               []Outlier
}

// Summarise describes values. Outliers are proposed, never removed. It returns NaN for what no value gives.
func Summarise(values []float64) Summary {
	nan := math.NaN()
	s := Summary{N: len(values), Mean: nan, S: nan, Min: nan, Max: nan, Range: nan, Median: nan, StandardErrorOfTheMean: nan}
	if s.N == 0 {
		return s
	}
	s.Mean, s.S, s.Median = meanOf(values), sampleDeviation(values), median(values)
	s.Min, s.Max = slices.Min(values), slices.Max(values)
	s.Range = s.Max - s.Min
	s.StandardErrorOfTheMean = s.S / math.Sqrt(float64(s.N))
	// Own choice: values that agree to four digits differ by their storage, and none of them is a question about its trace.
	if s.S > 1e-4*math.Abs(s.Mean) {
		s.Outliers = Outliers(values, 0.05)
	}
	return s
}

// An Outlier is a value that lies further from the others than chance makes likely.
type Outlier struct {
	Index    int     // from 0
	G        float64 // distance from the mean over the standard deviation
	Critical float64 // what G would have to stay below
}

// Outliers proposes values by the two-sided test of Grubbs at a level of significance, one after the other, each time
// without those already found.
//
//	G = max|xᵢ − x̄| / s,   G crit = (n−1)/√n · √(t²/(n−2+t²)),   t = t(1−α/(2n), n−2)
//
// The test supposes normal values; roughness is skewed, so a proposal is a question about the trace, not an answer.
// Source: F. E. Grubbs, Technometrics 11 (1969) (memory).
func Outliers(values []float64, level float64) []Outlier {
	left := make([]int, len(values))
	for i := range left {
		left[i] = i
	}
	var found []Outlier
	for len(left) >= 3 && len(found) < len(values)/2 {
		x := make([]float64, len(left))
		for i, k := range left {
			x[i] = values[k]
		}
		m, s := meanOf(x), sampleDeviation(x)
		if !(s > 0) {
			break
		}
		worst := 0
		for i := range x {
			if math.Abs(x[i]-m) > math.Abs(x[worst]-m) {
				worst = i
			}
		}
		o := Outlier{left[worst], math.Abs(x[worst]-m) / s, grubbs(len(x), level)}
		if !(o.G > o.Critical) {
			break
		}
		found = append(found, o)
		left = slices.Delete(left, worst, worst+1)
	}
	return found
}

// grubbs is the critical value of Grubbs's two-sided test.
func grubbs(n int, level float64) float64 {
	f := float64(n)
	t := studentQuantile(1-level/(2*f), f-2)
	return (f - 1) / math.Sqrt(f) * math.Sqrt(t*t/(f-2+float64(t*t)))
}

// A Nested split separates what the same line repeats with from what other places differ by.
type Nested struct {
	Repeatability float64 // standard deviation of repeats in one place
	Between       float64 // standard deviation between places, without the repeatability in it; 0 when none is seen
	Total         float64 // of a single value anywhere
	WithinDoF     float64
	BetweenDoF    float64
	Note          string
}

// SplitNested splits the variance of values grouped by place (one-way analysis of variance, random places; groups may
// differ in size). At least two places are needed, and a place with two values.
//
// A traced line is not traced a second time as it was, so the repeatability holds the instrument and what its stylus
// left on the surface.
func SplitNested(places [][]float64) (Nested, error) {
	var n, k int
	var sum, squares float64
	for i, g := range places {
		for _, v := range g {
			if !finite(v) {
				return Nested{}, &ValueError{i, v}
			}
			sum += v
		}
		if len(g) > 0 {
			k++
		}
		n += len(g)
		squares += float64(len(g) * len(g))
	}
	if k < 2 || n <= k {
		return Nested{}, fmt.Errorf("decide: %d values in %d places: two places and repeats in one of them are needed", n, k)
	}
	grand := sum / float64(n)
	var within, between float64
	for _, g := range places {
		if len(g) == 0 {
			continue
		}
		m := meanOf(g)
		for _, v := range g {
			d := v - m
			within += float64(d * d)
		}
		between += float64(float64(len(g)) * (m - grand) * (m - grand))
	}
	r := Nested{WithinDoF: float64(n - k), BetweenDoF: float64(k - 1)}
	msWithin, msBetween := within/r.WithinDoF, between/r.BetweenDoF
	size := (float64(n) - squares/float64(n)) / r.BetweenDoF
	r.Repeatability = math.Sqrt(msWithin)
	if v := (msBetween - msWithin) / size; v > 0 {
		r.Between = math.Sqrt(v)
	} else {
		r.Note = "The places differ by no more than the repeats do: a spread of the surface cannot be shown."
	}
	r.Total = math.Sqrt(float64(r.Repeatability*r.Repeatability) + float64(r.Between*r.Between))
	return r, nil
}
