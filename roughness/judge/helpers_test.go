package judge_test

import (
	"math"
	"testing"

	"example.com/furrow/roughness"
)

func off() roughness.Band { return roughness.Band{Off: true} }

func gaussian(cutoff float64) roughness.Band {
	return roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: cutoff}}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %.2g", what, got, want, tol)
	}
}

func evaluate(t *testing.T, z []float64, dx float64, s *roughness.Settings) *roughness.Evaluation {
	t.Helper()
	e, err := roughness.Evaluate(roughness.Profile{Z: z, Spacing: dx}, s)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func value(t *testing.T, e *roughness.Evaluation, symbol string) float64 {
	t.Helper()
	v, ok := e.Value(symbol)
	if !ok {
		t.Fatalf("the evaluation has no %s", symbol)
	}
	return v.Value
}
