package instrument

import (
	"context"
	"errors"
	"fmt"
	"math"

	"example.com/furrow/roughness"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// BudgetInput is what is known about how a value came about. The embedded part is that of the shop budget, whose Symbol and Value are
// filled in; the rest is worked out on the actual trace, by evaluating it again under changed conditions. An entry of 0 is left out.
type BudgetInput struct {
	decide.TextureInput

	Flats        []roughness.Profile // traces of a flat by the same instrument, with the spacing of the trace: their heights are laid over it
	NoiseRq      float64             // in place of them Rq of the noise on a flat under the same settings: white noise of that Rq is made
	TipTolerance float64             // half width of what the radius of the tip may differ by, wear included, µm
	Spacing      bool                // whether every second point would give another value
	CutoffShare  float64             // half width of how far the cut-offs of the filters are realised, as a share
	TravelShare  float64             // half width of the scale along the trace, as a share

	// Others are further traces of the surface. With them the value is the mean of all, and their spread is a line: WorkpieceS and WorkpieceN are
	// filled in. A trace with the heights of an earlier one is no second measurement and counts once.
	Others []roughness.Profile
}

// ErrUndefined is wrapped by the error for a value that is not defined on a trace.
var ErrUndefined = errors.New("no budget")

// A BudgetLine is one influence and what it does to the value.
type BudgetLine struct {
	Name   string
	Effect float64 // standard uncertainty that it brings to the value, in its unit
	Share  float64 // of the variance; all shares add up to 1
	Source standards.Ref
}

// A TraceBudget is the uncertainty of one value on one trace. It is an estimate, and no substitute for a calibration.
type TraceBudget struct {
	Symbol   string
	Unit     string
	Value    float64
	Lines    []BudgetLine
	Result   decide.Combined
	Left     []string // influences that could not be worked out on this trace, with the reason: they are missing in the result
	Copies   []string // traces that do not count, since they have the heights of an earlier one
	Sentence string   // the value with its expanded uncertainty, and what it is worth
	Caution  string   // standards.Caution

	Conditions []string // settings in words
}

// BudgetOn works out the uncertainty of a value on the trace by the GUM. What the certificate, the repeats on the specimen and the drift of
// the gain do is found by scaling the heights; noise, tip, spacing, cut-offs and travel by evaluating the trace again:
//
//   - noise: the trace with another dose of it, u² = b² + s²: by how much the noise has changed the value, and how far that scatters;
//   - tip: the trace followed by a ball, since balls add, for the tolerance in proportion to its radius; ± that change, rectangular;
//   - spacing: every second point left out, ± that change, rectangular;
//   - cut-offs: the symmetric difference quotient over ± 2 %, rectangular;
//   - travel: the difference quotient over 2 % of a longer trace, which holds as many sections, rectangular.
//
// Source: JCGM 100:2008, 5.1.3 and its note on sensitivities by calculation (memory); the influences after DKD-R 4-2 (excerpt), how they
// are worked out here is an own choice. Where the noise shifts the value, or a rectangular line is large, the coverage factor comes from
// the propagation of distributions (JCGM 101:2008, 7; memory) instead of the t-distribution, so that the interval holds 95 % as it says.
// An influence that the trace leaves undefined is named in Left.
func BudgetOn(ctx context.Context, p roughness.Profile, s *roughness.Settings, symbol string, in BudgetInput) (*TraceBudget, error) {
	if err := in.check(p); err != nil {
		return nil, err
	}
	e, err := roughness.Evaluate(p, s.Only(symbol))
	if err != nil {
		return nil, err
	}
	v := e.Values[0]
	if !finite(v.Value) {
		return nil, fmt.Errorf("instrument: %w: %s is undefined: %s", ErrUndefined, symbol, v.Reason)
	}
	w := &budgeting{ctx: ctx, p: p, e: e, symbol: symbol, value: v.Value, out: &TraceBudget{Symbol: symbol, Unit: string(v.Unit), Value: v.Value, Caution: standards.Caution, Conditions: conditions(&e.Settings)}}
	mean, err := w.spread(&in)
	if err != nil {
		return nil, err
	}
	b, err := w.shop(in.TextureInput)
	if err != nil {
		return nil, err
	}
	for _, line := range []func(BudgetInput) error{w.noise, w.tip, w.spacing, w.cutoffs, w.travel} {
		if err := line(in); err != nil {
			return nil, err
		}
	}
	b.Contributions = append(b.Contributions, w.lines...)
	w.out.Value = mean
	w.out.Result, err = b.Combine()
	if err != nil {
		return nil, err
	}
	for i, c := range b.Contributions {
		w.out.Lines = append(w.out.Lines, BudgetLine{Name: c.Name, Effect: math.Abs(c.Sensitivity) * c.U, Share: w.out.Result.Shares[i], Source: c.Source})
	}
	w.expand(b.Contributions)
	w.out.say()
	return w.out, nil
}

// spread returns the mean of the value over all traces, and fills in how far they spread.
func (w *budgeting) spread(in *BudgetInput) (float64, error) {
	if len(in.Others) == 0 {
		return w.value, nil
	}
	all, copies := withoutCopies(append([]roughness.Profile{w.p}, in.Others...))
	w.out.Copies = copies
	values := []float64{w.value}
	for _, p := range all[1:] {
		v, err := w.again(p, nil)
		if err != nil {
			return 0, fmt.Errorf("instrument: %w: %s: %w", ErrUndefined, p.Name, err)
		}
		values = append(values, v)
	}
	if len(values) < 2 {
		w.out.Left = append(w.out.Left, "spread of the workpiece: the further traces are copies of the first one.")
		return w.value, nil
	}
	sum := decide.Summarise(values)
	in.WorkpieceS, in.WorkpieceN = sum.S, sum.N
	return sum.Mean, nil
}

// check refuses what cannot be used, and what would count one influence twice.
func (in BudgetInput) check(p roughness.Profile) error {
	for _, x := range []float64{in.NoiseRq, in.TipTolerance, in.CutoffShare, in.TravelShare} {
		if !(x >= 0) || !finite(x) {
			return fmt.Errorf("instrument: %w", decide.ErrBudget)
		}
	}
	if in.CutoffShare > 0.5 || in.TravelShare > 0.5 {
		return fmt.Errorf("instrument: a share must be at most 0.5: %w", decide.ErrBudget)
	}
	if len(in.Others) > 0 && in.WorkpieceN > 0 {
		return fmt.Errorf("instrument: the spread of the workpiece is given twice: %w", decide.ErrBudget)
	}
	noises := 0
	for _, given := range []bool{in.Noise > 0, in.NoiseRq > 0, len(in.Flats) > 0} {
		if given {
			noises++
		}
	}
	if noises > 1 || in.TipEffect > 0 && in.TipTolerance > 0 || in.SpacingEffect > 0 && in.Spacing {
		return fmt.Errorf("instrument: noise, tip or spacing is given twice and would count twice: %w", decide.ErrBudget)
	}
	for i, f := range in.Flats {
		if math.Abs(f.Spacing-p.Spacing) > 1e-9*p.Spacing || len(f.Z) < 2 {
			return fmt.Errorf("instrument: flat %d has %d points at %g µm and the trace has them at %g µm: its noise cannot be laid over the trace: %w",
				i+1, len(f.Z), f.Spacing, p.Spacing, decide.ErrBudget)
		}
	}
	return nil
}

// shop makes the lines of the shop budget. It takes them in proportion to the value, as heights are; here the change of the value with the
// gain stands in for that, which is 0 for a parameter such as Rsk.
func (w *budgeting) shop(in decide.TextureInput) (decide.Budget, error) {
	in.Symbol, in.Value = w.symbol, w.value
	if in.CertificateU > 0 || in.SpecimenS > 0 || in.DriftShare > 0 {
		gain, err := decide.Sensitivity(func(x float64) (float64, error) { return w.again(scaled(w.p, x), nil) }, 1, 0.01)
		if err != nil {
			return decide.Budget{}, fmt.Errorf("instrument: no budget: with the heights scaled by 1 %%, %w", err)
		}
		in.Value = math.Abs(gain)
	}
	b, err := decide.BudgetFor(in)
	b.Value = w.value
	return b, err
}

func scaled(p roughness.Profile, by float64) roughness.Profile {
	z := make([]float64, len(p.Z))
	for i := range z {
		z[i] = p.Z[i] * by
	}
	p.Z = z
	return p
}

// say puts the result into words: the uncertainty with two digits, rounded up, and the value to the same place (DKD-L 13-3 and ISO
// 80000-1, Annex B; memory).
func (b *TraceBudget) say() {
	r := b.Result
	value, expanded := fmt.Sprintf("%.6g", b.Value), fmt.Sprintf("%.2g", r.Expanded)
	if r.Expanded > 0 {
		d := max(0, 1-int(math.Floor(math.Log10(r.Expanded))))
		unit := math.Pow(10, -float64(d))
		value = standards.RoundHalfUp(b.Value, d)
		expanded = fmt.Sprintf("%.*f", d, math.Ceil(r.Expanded/unit*(1-1e-12))*unit)
	}
	unit := ""
	if b.Unit != "" {
		unit = " " + b.Unit
	}
	b.Sentence = fmt.Sprintf("%s %s%s ± %s%s (k = %.2f): an estimate from %s, no substitute for a calibration.",
		b.Symbol, value, unit, expanded, unit, r.K, counted(len(b.Lines), "influence", "influences"))
	if len(b.Lines) == 0 {
		b.Sentence = fmt.Sprintf("%s %s%s: no influence is known, and so its uncertainty is not known.", b.Symbol, value, unit)
	}
	if len(b.Left) > 0 {
		b.Sentence += fmt.Sprintf(" %d more could not be calculated and are missing.", len(b.Left))
	}
}
