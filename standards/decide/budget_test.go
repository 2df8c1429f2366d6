package decide_test

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"example.com/furrow/standards/decide"
)

// JCGM 100:2008, H.1: calibration of an end gauge of 50 mm, in nanometres (the numbers of Table H.1, from memory). The results stand in the check
// register; here, that of the difference and the shares.
func TestGUMEndGauge(t *testing.T) {
	const length = 50e6 // nm
	line := func(name string, u, c, dof float64) decide.Contribution {
		return decide.Contribution{Name: name, U: u, Sensitivity: c, DoF: dof}
	}
	difference := decide.Budget{Contributions: []decide.Contribution{
		line("mean of five", 5.8, 1, 24), line("comparator, random", 3.9, 1, 5), line("comparator, systematic", 6.7, 1, 8),
	}}
	d, err := difference.Combine()
	if err != nil || math.Abs(d.Standard-9.7) > 0.05 || d.DoF != 25 { // 25.6, cut
		t.Fatalf("difference: %+v %v", d, err)
	}
	b := decide.Budget{Coverage: 0.99, Contributions: []decide.Contribution{
		line("standard", 25, 1, 18),
		line("difference", 9.7, 1, 25.6),
		line("expansion of the standard", 1.2e-6, 0, 0),
		line("temperature of the bed", 0.41, 0, 0),
		line("difference of expansion", 0.58e-6, length*0.1, 50),
		line("difference of temperature", 0.029, length*11.5e-6, 2),
	}}
	c, err := b.Combine()
	if err != nil {
		t.Fatal(err)
	}
	if c.Shares[2] != 0 || c.Shares[3] != 0 || !close(sum(c.Shares), 1, 1e-12) {
		t.Errorf("shares %v", c.Shares)
	}
}

// JCGM 100:2008, H.2: resistance, reactance and impedance from five sets of V, I and φ (Table H.2, from memory; the
// results are those of Tables H.3 and H.4). The inputs depend on each other.
func TestGUMImpedance(t *testing.T) {
	v := []float64{5.007, 4.994, 5.005, 4.990, 4.999}
	i := []float64{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}
	phi := []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}
	x := [3][]float64{v, i, phi}
	var mean, u [3]float64
	for k := range x {
		s := decide.Summarise(x[k])
		mean[k], u[k] = s.Mean, s.StandardErrorOfTheMean
	}
	r := func(a, b int) float64 {
		sum := 0.0
		for k := range 5 {
			sum += (x[a][k] - mean[a]) * (x[b][k] - mean[b])
		}
		return sum / 20 / (u[a] * u[b])
	}
	results := []struct {
		name      string
		f         func(v, i, phi float64) float64
		value, u  float64
		tol, tolU float64
	}{
		{"R", func(v, i, p float64) float64 { return v / i * math.Cos(p) }, 127.732, 0.071, 5e-4, 5e-4},
		{"X", func(v, i, p float64) float64 { return v / i * math.Sin(p) }, 219.847, 0.295, 1e-3, 1e-3},
		{"Z", func(v, i, p float64) float64 { return cmplx.Abs(complex(v/i, 0)) }, 254.260, 0.236, 5e-4, 5e-4},
	}
	for _, q := range results {
		// The second approach of H.2.4: each set by itself, then the mean. It agrees to the printed digits; the first
		// one, printed from coefficients of two digits, to one in the last.
		var sets []float64
		for k := range v {
			sets = append(sets, q.f(v[k], i[k], phi[k]))
		}
		if s := decide.Summarise(sets); math.Abs(s.Mean-q.value) > 1e-3 || math.Abs(s.StandardErrorOfTheMean-q.u) > 5e-4 {
			t.Errorf("%s set by set: %.4f, u = %.4f; want %.3f, %.3f", q.name, s.Mean, s.StandardErrorOfTheMean, q.value, q.u)
		}
		b := decide.Budget{Correlations: []decide.Correlation{{A: 0, B: 1, R: r(0, 1)}, {A: 0, B: 2, R: r(0, 2)}, {A: 1, B: 2, R: r(1, 2)}}}
		for k := range x {
			c, err := decide.Sensitivity(func(y float64) (float64, error) {
				at := mean
				at[k] = y
				return q.f(at[0], at[1], at[2]), nil
			}, mean[k], 1e-5*mean[k])
			if err != nil {
				t.Fatal(err)
			}
			b.Contributions = append(b.Contributions, decide.Contribution{Name: fmt.Sprint(k), U: u[k], Sensitivity: c})
		}
		c, err := b.Combine()
		if err != nil {
			t.Fatal(err)
		}
		value := q.f(mean[0], mean[1], mean[2])
		if math.Abs(value-q.value) > q.tol || math.Abs(c.Standard-q.u) > q.tolU {
			t.Errorf("%s = %.4f, u = %.4f; want %.3f, %.3f", q.name, value, c.Standard, q.value, q.u)
		}
		if !close(sum(c.Shares), 1, 1e-12) {
			t.Errorf("%s: shares %v", q.name, c.Shares)
		}
	}
	if got := r(0, 1); math.Abs(got+0.36) > 0.005 { // Table H.2
		t.Errorf("r(V, I) = %.3f, want -0.36", got)
	}
	if got := r(1, 2); math.Abs(got+0.65) > 0.005 {
		t.Errorf("r(I, φ) = %.3f, want -0.65", got)
	}
}

func sum(x []float64) float64 {
	s := 0.0
	for _, v := range x {
		s += v
	}
	return s
}

// A budget for Rz, worked by hand: 0.04, 0.05/√12 and 0.03/√12 in quadrature.
func TestBudgetFor(t *testing.T) {
	b, err := decide.BudgetFor(decide.TextureInput{Symbol: "Rz", Value: 3, CertificateValue: 3, CertificateU: 0.08, SpecimenS: 0.05, SpecimenN: 12, Noise: 0.03})
	if err != nil {
		t.Fatal(err)
	}
	want := []float64{0.04, 0.0144338, 0.0086603}
	for i, c := range b.Contributions {
		if math.Abs(c.U*c.Sensitivity-want[i]) > 5e-8 || c.Source.Doc == "" {
			t.Errorf("%s: %.8f, want %.7f", c.Name, c.U*c.Sensitivity, want[i])
		}
	}
	c, err := b.Combine()
	if err != nil || math.Abs(c.Standard-0.0433974) > 5e-8 {
		t.Errorf("u = %.8f, %v", c.Standard, err)
	}
	if math.Abs(2*c.Standard-0.0867948) > 5e-8 || c.K < 2 || c.K > 2.01 {
		t.Errorf("2u = %.8f, k = %.4f", 2*c.Standard, c.K)
	}
	// Half the value, half of what scales with it.
	b, _ = decide.BudgetFor(decide.TextureInput{Symbol: "Rz", Value: 1.5, CertificateValue: 3, CertificateU: 0.08, DriftShare: 0.01})
	if got := b.Contributions[0].U * b.Contributions[0].Sensitivity; math.Abs(got-0.02) > 1e-12 {
		t.Errorf("certificate at half the value: %g", got)
	}
	for _, bad := range []decide.TextureInput{{CertificateU: 1}, {CertificateValue: 1, SpecimenS: 1, SpecimenN: 1}, {WorkpieceS: 1}} {
		if _, err := decide.BudgetFor(bad); err == nil {
			t.Errorf("%+v passes", bad)
		}
	}
}

func TestBudgetRefuses(t *testing.T) {
	line := decide.Contribution{U: 1, Sensitivity: 1}
	for _, b := range []decide.Budget{
		{Contributions: []decide.Contribution{{U: -1, Sensitivity: 1}}},
		{Contributions: []decide.Contribution{{U: math.NaN(), Sensitivity: 1}}},
		{Contributions: []decide.Contribution{{U: 1, Sensitivity: math.Inf(1)}}},
		{Contributions: []decide.Contribution{{U: 1, Sensitivity: 1, DoF: 0.5}}},
		{Contributions: []decide.Contribution{line}, Coverage: 1},
		{Contributions: []decide.Contribution{line}, Correlations: []decide.Correlation{{A: 0, B: 1, R: 1}}},
		{Contributions: []decide.Contribution{line, line}, Correlations: []decide.Correlation{{A: 0, B: 1, R: 2}}},
	} {
		if _, err := b.Combine(); err == nil {
			t.Errorf("%+v passes", b)
		}
	}
	if c, err := (decide.Budget{}).Combine(); err != nil || c.Standard != 0 || c.Expanded != 0 {
		t.Errorf("an empty budget: %+v %v", c, err)
	}
}

func TestNoise(t *testing.T) {
	got, err := decide.WithoutNoise("Rq", 0.5, 0.3)
	if err != nil || math.Abs(got-0.4) > 1e-15 {
		t.Errorf("%g %v", got, err)
	}
	if _, err := decide.WithoutNoise("Rz", 0.5, 0.3); !errors.Is(err, decide.ErrNoise) {
		t.Errorf("Rz: %v", err)
	}
	for _, bad := range [][2]float64{{0.3, 0.3}, {0, 0}, {1, -1}, {math.NaN(), 0.1}} {
		if _, err := decide.WithoutNoise("Rq", bad[0], bad[1]); err == nil {
			t.Errorf("%v passes", bad)
		}
	}
	if text := decide.NoiseWarning("Rz", 0.412345678, 3.2); !strings.Contains(text, "Rz0 0.412 µm on a flat, is more than a tenth of the limit 3.2 µm") {
		t.Error(text)
	}
	if decide.NoiseWarning("Rz", 0.32, 3.2) != "" || decide.NoiseWarning("Rz", 0.33, 3.2) == "" {
		t.Error("a tenth of the limit is the border")
	}
}
