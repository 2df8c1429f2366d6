package instrument

import (
	"context"
	"fmt"
	"math"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// A Check is what any check of an instrument found, as page, command and record show it.
type Check struct {
	Kind     string // "specimen", "flat", "groove" or "budget"
	Session  Session
	Word     CheckWord // empty for a budget
	Sentence string
	Symbol   string
	Unit     string
	Values   []float64     // one of each trace
	Gain     *GainProposal // nil where none is proposed
	Held     *Held         // nil where nothing is held against a certificate
	Lines    []CheckLine
	Settings []string // what it was evaluated with, in words
	Notes    []string
}

// Held says how the mean of a check stands to a certificate.
type Held struct {
	Certificate float64
	Deviation   float64 // of the mean
	Allowed     float64
}

// A CheckLine is one number of a check.
type CheckLine struct {
	Name   string
	Value  float64
	Unit   string
	Share  float64 // of the variance, for a budget; NaN otherwise
	Source standards.Ref
}

func (c *Check) line(name string, value float64, unit string) {
	c.Lines = append(c.Lines, CheckLine{Name: name, Value: value, Unit: unit, Share: math.NaN()})
}

const micrometre = "µm"

// show prints heights with digits for the smallest of them that counts.
func show(v, smallest float64) string {
	d := 3
	if s := math.Abs(smallest); s > 0 && s < 0.01 {
		d = min(6, 1-int(math.Floor(math.Log10(s))))
	}
	return standards.RoundHalfUp(v, d)
}

// Check returns what the check found for a reader.
func (c *SpecimenCheck) Check() *Check {
	sp := c.Specimen
	kind, unit := "specimen", micrometre
	if sp.Type == "A1" {
		kind = "groove"
	}
	out := &Check{Kind: kind, Session: c.Session, Word: c.Word, Symbol: sp.Symbol, Unit: unit, Values: c.Values, Gain: c.Gain, Settings: c.Conditions}
	out.Notes = append(append(out.Notes, c.Refused...), c.Hints...)
	out.line("certificate", sp.Value, unit)
	out.line("its U (k = 2)", sp.Expanded*2/sp.k(), unit)
	if len(c.Values) > 0 {
		out.Held = &Held{sp.Value, c.Deviation, c.Allowed}
		out.line("mean", c.Mean, unit)
		out.line("deviation of the mean", c.Deviation, unit)
	}
	if c.S != nil {
		out.line("standard deviation", *c.S, unit)
	}
	out.line("allowed", c.Allowed, unit)
	out.Lines[len(out.Lines)-1].Source = c.Allowance.Source
	why := "U " + show(sp.Expanded*2/sp.k(), c.Allowed) + " " + unit
	switch a := c.Allowance; {
	case a.Share*sp.Value > a.Absolute:
		why += fmt.Sprintf(" + %.3g %%", 100*a.Share)
	case a.Absolute > 0:
		why += fmt.Sprintf(" + %.3g %s", a.Absolute, unit)
	}
	side := "above"
	if c.Deviation < 0 {
		side = "below"
	}
	finding := fmt.Sprintf("%s is %s %s %s the certificate; %s %s is allowed (%s).", show(c.Mean, c.Allowed), show(math.Abs(c.Deviation), c.Allowed), unit, side, show(c.Allowed, c.Allowed), unit, why)
	switch {
	case c.vague:
		out.Sentence = "Open: the allowance is as large as the certified value and can show nothing; look at U and the tolerance. " + finding
	case c.Word == Within:
		out.Sentence = "Within the allowance: " + finding
	case c.Word == Outside:
		out.Sentence = "Outside the allowance: " + finding
	default:
		out.Sentence = fmt.Sprintf("Open: %d traces are needed, and %d gave a value.", leastTraces, len(c.Values))
		if c.copies > 0 {
			out.Sentence = fmt.Sprintf("Open: %d traces are needed, and without copies %d gave a value.", leastTraces, c.distinct())
		}
	}
	if c.Gain != nil {
		out.Notes = append([]string{c.Gain.Text}, out.Notes...)
	}
	return out
}

// Check returns what the check found for a reader.
func (n *NoiseCheck) Check() *Check {
	out := &Check{Kind: "flat", Session: n.Session, Word: n.Word, Sentence: n.Sentence, Symbol: "Rz", Unit: micrometre, Values: n.Each, Settings: n.Conditions}
	out.Notes = append(append(out.Notes, n.Refused...), n.Warnings...)
	for _, symbol := range n.Symbols {
		if v, ok := n.Mean[symbol]; ok {
			out.line(symbol+"0", v, micrometre)
		}
	}
	if n.Straightness > 0 {
		out.line("straightness Pt0", n.Straightness, micrometre)
	}
	if n.Waviness > 0 {
		out.line("waviness Wt0", n.Waviness, micrometre)
	}
	return out
}

// settle makes the word and the sentence of the limits.
func (n *NoiseCheck) settle(limits []standards.Bound) {
	n.Word = Small
	var parts []string
	for _, b := range limits {
		noise, ok := n.Mean[b.Symbol]
		if !ok || !(b.Value > 0) {
			n.Word = Open
			continue
		}
		large, share := noise > b.Value/10, 100*noise/b.Value
		digits := 2
		for ; digits < 6 && (standards.RoundDigits(share, digits) > 10) != large; digits++ { // what is shown never contradicts the word
		}
		parts = append(parts, fmt.Sprintf("%s0 is %s %% of the limit %s µm", b.Symbol, standards.Digits(standards.RoundDigits(share, digits)), decide.Show(b.Symbol, b.Value, "µm")))
		if large {
			n.Word = Large
		}
	}
	said := strings.Join(parts, "; ")
	if said != "" {
		said += "; up to 10 % is usual (common practice)."
	}
	switch {
	case len(limits) == 0:
		n.Word, n.Sentence = Open, "Open: without a limit there are only the numbers."
	case n.Traces < noiseTraces:
		n.Word, n.Sentence = Open, fmt.Sprintf("Open: the noise is the mean of %d traces, and %d gave values. ", noiseTraces, n.Traces)+said
	case n.Word == Large:
		n.Sentence = "Too much noise: " + said
	case n.Word == Open:
		n.Sentence = "Open: the traces of the flat give no noise for one of the limits. " + said
	default:
		n.Sentence = "Small enough: " + said
	}
	n.Sentence = strings.TrimSpace(n.Sentence)
}

// CheckGroove measures the depth of a groove on each trace, see [FindGroove], and with a certificate (value above 0) holds the mean against it like
// [CheckSpecimen] does.
func CheckGroove(ctx context.Context, traces []roughness.Profile, sp Specimen, a Allowance, session Session) (*Check, error) {
	sp.Type, sp.Symbol = "A1", "d"
	var out *Check
	if sp.Value > 0 {
		c, err := CheckSpecimen(ctx, traces, nil, sp, a, session)
		if err != nil {
			return nil, err
		}
		out = c.Check()
	} else {
		out = &Check{Kind: "groove", Session: session, Word: Open, Symbol: "d", Unit: micrometre, Values: []float64{},
			Settings: []string{grooveCondition}, Sentence: "Open: there is no certificate to hold the depth against."}
	}
	sum, sumU, n := 0.0, 0.0, 0
	if sp.Value <= 0 {
		out.Notes = repeated(traces)
	}
	for i, p := range traces {
		g, err := sp.Measure(p)
		if err != nil {
			if sp.Value <= 0 {
				out.Notes = append(out.Notes, traceName(traces, i)+": "+standards.Bare(err))
			}
			continue
		}
		if sp.Value <= 0 {
			out.Values = append(out.Values, g.Depth)
		}
		name := traceName(traces, i)
		out.line(name+": depth", g.Depth, micrometre)
		out.line(name+": U of the fit (95 %)", g.U, micrometre)
		out.line(name+": width", g.Width, micrometre)
		sum, sumU, n = sum+g.Depth, sumU+g.U, n+1
	}
	if sp.Value <= 0 && n > 0 {
		out.Sentence = fmt.Sprintf("Depth %s µm, mean of %d; the fit of one trace is uncertain by %s µm (95 %%). ", show(sum/float64(n), sumU/float64(n)), n, show(sumU/float64(n), sumU/float64(n))) + out.Sentence
	}
	return out, nil
}

// Check returns the budget for a reader.
func (b *TraceBudget) Check(session Session) *Check {
	out := &Check{Kind: "budget", Session: session, Symbol: b.Symbol, Unit: b.Unit, Values: []float64{b.Value}, Sentence: b.Sentence, Settings: b.Conditions, Notes: append(b.Left[:len(b.Left):len(b.Left)], b.Copies...)}
	for _, l := range b.Lines {
		out.Lines = append(out.Lines, CheckLine{Name: l.Name, Value: l.Effect, Unit: b.Unit, Share: l.Share, Source: l.Source})
	}
	out.line("standard uncertainty u", b.Result.Standard, b.Unit)
	out.line("coverage factor k", b.Result.K, "")
	out.line("expanded uncertainty U", b.Result.Expanded, b.Unit)
	return out
}
