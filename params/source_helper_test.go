package params_test

import (
	"math"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// holds fails when got is further than tol from want. Source says where want comes from.
func holds(t *testing.T, name string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g ± %g (%s)", name, got, want, tol, source)
	}
}

// ask evaluates the named parameters of an edition on the roughness profile.
func ask(t *testing.T, in params.Input, edition standards.EditionID, names ...string) map[string]params.Value {
	t.Helper()
	var calls []params.Call
	for _, n := range names {
		c, err := params.Lookup(edition, 'R', n)
		if err != nil {
			t.Fatal(err)
		}
		calls = append(calls, c)
	}
	values := map[string]params.Value{}
	for _, v := range params.Evaluate(&in, calls...) {
		values[v.Symbol] = v
	}
	return values
}

// sampled returns n heights of f, whose period is 1, at equal steps over the given number of periods. The steps start
// half a step in, so that the points stand in the middle of their cells.
func sampled(n, periods int, f func(u float64) float64) []float64 {
	z := make([]float64, n)
	for i := range z {
		u := (float64(i) + 0.5) * float64(periods) / float64(n)
		z[i] = f(u - math.Floor(u))
	}
	return z
}

// The waveforms of the closed forms, amplitude or height 1, mean 0.
func sine(u float64) float64     { return math.Sin(2 * math.Pi * u) }
func triangle(u float64) float64 { return 1 - 4*math.Abs(u-0.5) }
func square(u float64) float64 {
	if u < 0.5 {
		return 1
	}
	return -1
}
