package decide

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"example.com/furrow/standards"
)

// A Contribution is one line of an uncertainty budget.
type Contribution struct {
	Name         string
	U            float64 // standard uncertainty of the input, in its own unit
	Sensitivity  float64 // change of the result with the input; a contribution may well have 0
	DoF          float64 // degrees of freedom of U; 0 means that U is known exactly (infinitely many)
	Distribution string  // "normal", "rectangular" ...: what U was worked out from
	Source       standards.Ref
}

// A Correlation ties two contributions, by their index from 0.
type Correlation struct {
	A, B int
	R    float64 // coefficient, -1 to 1
}

// A Budget is an uncertainty budget by the GUM. It is an estimate, and no substitute for a calibration.
type Budget struct {
	Quantity      string
	Value         float64 // of the result
	Contributions []Contribution
	Correlations  []Correlation
	// Coverage is the probability of the expanded uncertainty; 0 is 0.9545, which gives k = 2 for many degrees of
	// freedom.
	Coverage float64
}

// Combined is a budget added up.
type Combined struct {
	Standard float64   // combined standard uncertainty
	DoF      float64   // effective degrees of freedom, +Inf when every contribution is known exactly
	K        float64   // coverage factor
	Expanded float64   // K times Standard
	Shares   []float64 // of each contribution in the variance; they add up to 1
	Notes    []string
}

// ErrBudget says that a line of a budget cannot be used.
var ErrBudget = errors.New("decide: a budget needs finite uncertainties of 0 or more, and degrees of freedom of 0 or at least 1")

// Combine adds a budget up.
//
//	u² = Σᵢ Σⱼ cᵢ cⱼ uᵢ uⱼ rᵢⱼ          JCGM 100:2008, (10) and (16)
//	ν = u⁴ / Σ (cᵢuᵢ)⁴/νᵢ               Welch-Satterthwaite, (G.2b), cut to a whole number
//	k = t((1+p)/2, ν)                   G.4.1
func (b Budget) Combine() (Combined, error) {
	n := len(b.Contributions)
	parts := make([]float64, n)
	for i, c := range b.Contributions {
		parts[i] = c.Sensitivity * c.U
		if !(c.U >= 0) || !finite(parts[i]) || c.DoF < 0 || (c.DoF > 0 && c.DoF < 1) || math.IsNaN(c.DoF) {
			return Combined{}, fmt.Errorf("%w (%s)", ErrBudget, c.Name)
		}
	}
	p := b.Coverage
	if p == 0 {
		p = 0.9545
	}
	if !(p > 0) || !(p < 1) {
		return Combined{}, fmt.Errorf("decide: a coverage probability of %g is not between 0 and 1", p)
	}
	variances := make([]float64, n) // of each line, with half of what it shares with others
	for i, v := range parts {
		variances[i] = v * v
	}
	for _, r := range b.Correlations {
		if r.A < 0 || r.A >= n || r.B < 0 || r.B >= n || r.A == r.B || !(math.Abs(r.R) <= 1) {
			return Combined{}, fmt.Errorf("decide: a correlation of %g between lines %d and %d is not possible in a budget of %d lines", r.R, r.A, r.B, n)
		}
		both := float64(r.R * parts[r.A] * parts[r.B])
		variances[r.A] += both
		variances[r.B] += both
	}
	sum, denominator := 0.0, 0.0
	for i, v := range variances {
		sum += v
		if d := b.Contributions[i].DoF; d > 0 && !math.IsInf(d, 1) {
			fourth := parts[i] * parts[i]
			denominator += float64(fourth*fourth) / d
		}
	}
	sum = max(sum, 0) // below 0 are correlations that cannot be; rounding alone when it is next to nothing
	c := Combined{Standard: math.Sqrt(sum), DoF: math.Inf(1), Shares: make([]float64, n)}
	if denominator > 0 && sum > 0 {
		c.DoF = max(1, math.Floor(sum*sum/denominator*(1+1e-12)))
		if len(b.Correlations) > 0 {
			c.Notes = append(c.Notes, "The effective degrees of freedom assume that the contributions do not depend on each other.")
		}
	}
	c.K = studentQuantile((1+p)/2, c.DoF)
	c.Expanded = c.K * c.Standard
	for i := range variances {
		if sum > 0 {
			c.Shares[i] = variances[i] / sum
		}
	}
	return c, nil
}

// Rectangular is a contribution known to lie within ± half, with nothing said about where: u = half/√3.
func Rectangular(name string, half float64) Contribution {
	return Contribution{Name: name, U: half / math.Sqrt(3), Sensitivity: 1, Distribution: "rectangular"}
}

// FromCertificate is a contribution stated as an expanded uncertainty with its coverage factor.
func FromCertificate(name string, expanded, k float64) Contribution {
	return Contribution{Name: name, U: expanded / k, Sensitivity: 1, Distribution: "normal"}
}

// FromRepeats is the uncertainty of a mean of n values with standard deviation s: s/√n, with n-1 degrees of freedom.
func FromRepeats(name string, s float64, n int) Contribution {
	return Contribution{Name: name, U: s / math.Sqrt(float64(n)), Sensitivity: 1, DoF: float64(n - 1), Distribution: "normal"}
}

// Sensitivity returns the change of f with x at x by the symmetric difference quotient over ± step: for an influence
// whose effect on a parameter is found by evaluating the actual trace again.
func Sensitivity(f func(x float64) (float64, error), x, step float64) (float64, error) {
	if !(step > 0) {
		return 0, fmt.Errorf("decide: a step of %g gives no sensitivity", step)
	}
	high, err := f(x + step)
	if err != nil {
		return 0, err
	}
	low, err := f(x - step)
	if err != nil {
		return 0, err
	}
	return (high - low) / (2 * step), nil
}

// TextureInput is what a budget for a height parameter is made of. An entry of 0 is left out. Heights are in
// micrometres, shares are fractions.
type TextureInput struct {
	Symbol string
	Value  float64 // the measured value

	CertificateValue float64 // of the specimen the instrument was adjusted with
	CertificateU     float64 // its expanded uncertainty
	CertificateK     float64 // 0: 2
	SpecimenS        float64 // standard deviation of traces on the specimen
	SpecimenN        int
	DriftShare       float64 // half width of the change of gain since then
	Noise            float64 // the same parameter on a flat: Rz0, Ra0, Rq0
	TipEffect        float64 // half width of what tip radius and wear change
	SpacingEffect    float64 // half width of what spacing and filter change
	WorkpieceS       float64 // standard deviation between places; only when a mean is reported
	WorkpieceN       int

	More []Contribution // from sensitivities on the actual trace
}

// BudgetFor makes the shop budget of a height parameter:
//
//	u² = R²[(U/k/Rc)² + (s/Rc)²/n + drift²/3] + noise²/12 + tip²/3 + spacing²/3 + s²/n
//
// after DKD-R 4-2 and ISO 12179, Annex C (the noise by trace on a flat was seen, the rest is remembered).
func BudgetFor(in TextureInput) (Budget, error) {
	b := Budget{Quantity: in.Symbol, Value: in.Value}
	if !(in.CertificateValue > 0) && (in.CertificateU > 0 || in.SpecimenS > 0) {
		return Budget{}, errors.New("decide: the value on the certificate is needed with its uncertainty")
	}
	scale := in.Value / in.CertificateValue // of what is stated for the certificate; without a certificate nothing is
	// add leaves out what is 0.
	add := func(size float64, c Contribution, sensitivity float64, basis standards.Basis) {
		if size > 0 {
			c.Sensitivity, c.Source = sensitivity, ref("DKD-R 4-2", "", basis)
			b.Contributions = append(b.Contributions, c)
		}
	}
	switch {
	case in.SpecimenS > 0 && in.SpecimenN < 2:
		return Budget{}, errors.New("decide: a standard deviation on the specimen needs two traces at least")
	case in.WorkpieceS > 0 && in.WorkpieceN < 2:
		return Budget{}, errors.New("decide: a spread of the workpiece needs two traces at least")
	}
	noise := Contribution{Name: "noise on a flat", U: in.Noise / math.Sqrt(12), Distribution: "rectangular"}
	add(in.CertificateU, FromCertificate("certificate of the specimen", in.CertificateU, cmp.Or(in.CertificateK, 2)), scale, standards.Excerpt)
	add(in.SpecimenS, FromRepeats("repeatability on the specimen", in.SpecimenS, in.SpecimenN), scale, standards.Excerpt)
	add(in.DriftShare, Rectangular("drift of the gain", in.DriftShare), in.Value, standards.Memory)
	add(in.Noise, noise, 1, standards.Memory)
	add(in.TipEffect, Rectangular("tip", in.TipEffect), 1, standards.Memory)
	add(in.SpacingEffect, Rectangular("spacing and filter", in.SpacingEffect), 1, standards.Memory)
	add(in.WorkpieceS, FromRepeats("spread of the workpiece", in.WorkpieceS, in.WorkpieceN), 1, standards.Memory)
	b.Contributions = append(b.Contributions, in.More...)
	return b, nil
}
