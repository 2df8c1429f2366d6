package instrument

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// A NoiseCheck is what the instrument makes of a flat: its noise and the straightness of its guide. All values are micrometres. It
// can be written as JSON: no field is NaN.
type NoiseCheck struct {
	Session      Session            `json:"session"`
	Conditions   []string           `json:"conditions"` // settings in words
	Traces       int                `json:"traces"`     // that gave values
	Symbols      []string           `json:"symbols"`    // of Mean, in their order
	Each         []float64          `json:"each"`       // Rz0 of each trace
	Mean         map[string]float64 `json:"mean"`       // "Rz" -> Rz0: mean over the traces
	Largest      map[string]float64 `json:"largest"`
	Straightness float64            `json:"straightness,omitempty"` // Pt0: largest total height of a levelled trace
	Waviness     float64            `json:"waviness,omitempty"`     // Wt0: largest total height of the waviness
	Refused      []string           `json:"refused,omitempty"`
	Warnings     []string           `json:"warnings,omitempty"`
	Word         CheckWord          `json:"word"`     // Small, Large or Open
	Sentence     string             `json:"sentence"` // how it stands to the limits
	Caution      string             `json:"caution"`  // standards.Caution
}

// noiseTraces is the number of traces on a flat whose mean is the noise (DKD-R 4-2; basis: excerpt).
const noiseTraces = 5

// CheckNoise evaluates traces of an optical flat with the settings of the work: Ra0, Rq0 and Rz0 as means over the traces (five, by DKD-R 4-2;
// basis: excerpt), and the straightness over the whole travel as the largest Pt of the levelled traces and the largest Wt. A trace with the
// heights of an earlier one is no second measurement and counts once.
// Limits are those that are to be judged with the instrument; a warning is given where the noise exceeds a tenth of one (rule of
// thumb; trade practice).
func CheckNoise(ctx context.Context, flats []roughness.Profile, s *roughness.Settings, limits []standards.Bound, session Session) (*NoiseCheck, error) {
	base := roughness.Settings{}
	if s != nil {
		base = *s
	}
	base.Profile, base.Parameters = roughness.R, nil
	complete, err := roughness.Complete(&base)
	if err != nil {
		return nil, err
	}
	edition := complete.Edition
	for _, symbol := range []string{"Ra", "Rq", "Rz"} {
		if _, err := params.Lookup(edition, 'R', symbol); err == nil {
			base.Parameters = append(base.Parameters, symbol)
		}
	}
	if len(base.Parameters) == 0 {
		return nil, &roughness.SettingError{Key: "edition", Err: fmt.Errorf("noise is stated as Ra, Rq and Rz, which %s does not have", edition)}
	}
	for _, b := range limits {
		if _, err := params.Lookup(edition, 'R', b.Symbol); err == nil && !slices.Contains(base.Parameters, b.Symbol) {
			base.Parameters = append(base.Parameters, b.Symbol)
		}
	}
	// A trace without any height tells nothing of the noise: a probe that does not move draws one.
	var still []string
	var moving []roughness.Profile
	flats, copies := withoutCopies(flats)
	for _, p := range flats {
		if span(p.Z) == 0 {
			still = append(still, p.Name+": all heights are equal; the probe may not have moved")
			continue
		}
		moving = append(moving, p)
	}
	dead := len(moving) == 0
	if !dead {
		flats = moving
	}
	series, err := judge.EvaluateSeries(ctx, flats, &base)
	if err != nil {
		return nil, err
	}
	n := &NoiseCheck{Refused: still, Symbols: series.Symbols, Each: series.Values("Rz"), Warnings: append(short(flats, &base), copies...), Session: session, Conditions: conditions(&series.Settings), Mean: map[string]float64{}, Largest: map[string]float64{}, Caution: standards.Caution}
	for i, t := range series.Traces {
		if !finite(t.Values[0]) {
			n.Refused = append(n.Refused, fmt.Sprintf("%s: %s", traceName(flats, i), t.Reasons[0]))
			continue
		}
		n.Traces++
	}
	for _, symbol := range series.Symbols {
		if v := series.Values(symbol); len(v) > 0 {
			sum := decide.Summarise(v)
			n.Mean[symbol], n.Largest[symbol] = sum.Mean, sum.Max
		}
	}
	if dead {
		n.Traces = 0
	}
	n.straightness(flats, &base)
	if n.Traces < noiseTraces {
		n.warn("%s: the noise is the mean of %d (DKD-R 4-2).", counted(n.Traces, "trace", "traces"), noiseTraces)
	}
	for _, b := range limits {
		noise, ok := n.Mean[b.Symbol]
		if !ok {
			n.warn("The noise of %s is not known: the traces of the flat give no value of it.", b.Symbol)
		} else if text := decide.NoiseWarning(b.Symbol, noise, b.Value); text != "" {
			n.Warnings = append(n.Warnings, text)
		}
	}
	n.settle(limits)
	return n, nil
}

func (n *NoiseCheck) warn(format string, args ...any) {
	n.Warnings = append(n.Warnings, fmt.Sprintf(format, args...))
}

// straightness is found on the primary and the waviness profile of each trace, whole.
func (n *NoiseCheck) straightness(flats []roughness.Profile, base *roughness.Settings) {
	for _, p := range flats {
		e, err := roughness.Evaluate(p, base.Only("Ra"))
		if err != nil {
			continue
		}
		if p.Traced.Skid == roughness.WithSkid {
			n.warn("Traced with a skid: the flat does not show the errors of a guide.")
			continue
		}
		n.Straightness = max(n.Straightness, span(e.Primary))
		if e.Settings.Long.Off || e.Settings.Input == roughness.Filtered {
			continue
		}
		n.Waviness = max(n.Waviness, span(e.Waviness))
	}
}

func span(z []float64) float64 {
	if len(z) == 0 {
		return 0
	}
	return slices.Max(z) - slices.Min(z)
}

// A Correction is a value of Rq with the noise of the instrument taken out.
type Correction struct {
	Symbol    string
	Shown     float64
	Noise     float64
	Corrected float64
	Text      string
}

// Correct takes the noise out of the Rq of an evaluation, in quadrature; see [decide.WithoutNoise]. It refuses any other parameter, and
// an evaluation under other settings than the flat's: the noise of one cut-off is not that of another. The evaluation stays
// as it is.
func (n *NoiseCheck) Correct(e *roughness.Evaluation, symbol string) (Correction, error) {
	v, ok := e.Value(symbol)
	if !ok || math.IsNaN(v.Value) {
		return Correction{}, fmt.Errorf("instrument: the evaluation has no value of %s to correct", symbol)
	}
	noise, ok := n.Mean[symbol]
	c := Correction{Symbol: symbol, Shown: v.Value, Noise: noise}
	var err error
	if c.Corrected, err = decide.WithoutNoise(symbol, v.Value, noise); err != nil {
		return Correction{}, err
	}
	if !ok {
		return Correction{}, fmt.Errorf("instrument: the flat has no value of %s", symbol)
	}
	if own := filtering(conditions(&e.Settings)); !slices.Equal(own, filtering(n.Conditions)) {
		return Correction{}, fmt.Errorf("instrument: the flat was evaluated under other settings: %w: %v and not %v", judge.ErrMixed, filtering(n.Conditions), own)
	}
	c.Text = fmt.Sprintf("%s %.6g µm without the noise of %.6g µm, in quadrature; the value shown is %.6g µm.", symbol, c.Corrected, c.Noise, c.Shown)
	return c, nil
}

// filtering is what of the conditions decides how much noise is left: all but the form.
func filtering(conditions []string) []string {
	return slices.DeleteFunc(slices.Clone(conditions), func(c string) bool { return strings.HasPrefix(c, "form ") })
}
