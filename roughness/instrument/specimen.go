package instrument

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// A Specimen is a measuring standard with its certificate. Types as in ISO 5436-1:2000: A1 is a groove with a flat bottom, certified
// by its depth; C1 to C4 are periodic, D1 and D2 irregular profiles, certified by roughness parameters.
type Specimen struct {
	Number   string  `json:"number,omitempty"`
	Type     string  `json:"type"`              // empty: a roughness standard of a type that is not stated
	Symbol   string  `json:"symbol"`            // the certified parameter: "Ra", "Rz"; "d" for the depth of type A1
	Value    float64 `json:"value"`             // certified, µm
	Expanded float64 `json:"expanded"`          // its expanded uncertainty, µm
	K        float64 `json:"k,omitempty"`       // coverage factor of Expanded; 0: 2
	Groove   float64 `json:"groove,omitempty"`  // A1: width of the groove in µm; 0: looked for on the trace
	Centre   float64 `json:"centre,omitempty"`  // A1 with a width: middle of the groove from the start of the trace
	Due      string  `json:"due,omitempty"`     // until when the certificate holds, ISO 8601
	Remarks  string  `json:"remarks,omitempty"` // free text
}

// An Allowance is how far the mean of the traces may lie from the certified value: the expanded uncertainty of the certificate, and
// to it the larger of a length and a share of the value.
type Allowance struct {
	Absolute float64       `json:"absolute,omitempty"` // µm
	Share    float64       `json:"share,omitempty"`    // of the certified value
	Source   standards.Ref `json:"source"`
}

// CalibrationAllowance is what an instrument must keep after adjustment to be fit for calibration: 0.01 µm on a depth standard,
// 1 % of the value on a roughness standard, each beside the expanded uncertainty (DKD-R 4-2, sheet 2; basis: excerpt).
func CalibrationAllowance(s Specimen) Allowance {
	a := Allowance{Source: standards.Ref{Doc: "DKD-R 4-2", Clause: "sheet 2", Basis: standards.Excerpt}}
	if s.Type == "A1" {
		a.Absolute = 0.01
	} else {
		a.Share = 0.01
	}
	return a
}

// AgreedAllowance is a share of the value that a shop has agreed on beside the expanded uncertainty; 3 % to 5 % are usual (trade practice).
func AgreedAllowance(share float64) Allowance {
	return Allowance{Share: share, Source: standards.Ref{Doc: "agreed in the shop", Basis: standards.Trade}}
}

// A Session says when, by whom and with what a check was made. It is kept with the record of the day.
type Session struct {
	Date       string  `json:"date,omitempty"` // ISO 8601
	Operator   string  `json:"operator,omitempty"`
	Instrument string  `json:"instrument,omitempty"`
	Gain       float64 `json:"gain,omitempty"` // factor that the instrument works with now; 0: 1
}

// A CheckWord is what a check found.
type CheckWord string

// The words of the checks.
const (
	Within  CheckWord = "within"  // the mean lies within the allowance
	Outside CheckWord = "outside" // it does not
	Small   CheckWord = "small"   // the noise is small enough for every limit
	Large   CheckWord = "large"   // it is too large for one of them
	Open    CheckWord = "open"    // something is missing
)

// leastTraces is the number of traces on a specimen below which a check cannot decide (common practice: three to five).
const leastTraces = 3

// A SpecimenCheck holds traces of a specimen against its certificate. All lengths are micrometres. It can be written as JSON: no field is NaN.
type SpecimenCheck struct {
	Session    Session       `json:"session"`
	Specimen   Specimen      `json:"specimen"`
	Conditions []string      `json:"conditions"` // settings in words
	Values     []float64     `json:"values"`
	Refused    []string      `json:"refused,omitempty"` // traces without a value, with the reason
	Mean       float64       `json:"mean"`
	S          *float64      `json:"s,omitempty"` // standard deviation; nil below two values
	Deviation  float64       `json:"deviation"`   // of the mean from the certified value
	Allowance  Allowance     `json:"allowance"`
	Allowed    float64       `json:"allowed"` // the allowance in µm, with the expanded uncertainty
	Word       CheckWord     `json:"word"`
	Gain       *GainProposal `json:"gain,omitempty"` // nil where the check gives no reason to change it, or cannot tell
	Hints      []string      `json:"hints,omitempty"`
	Caution    string        `json:"caution"` // standards.Caution

	vague  bool // the allowance is as large as the certified value
	copies int  // values of traces with the heights of an earlier one
}

// A GainProposal is a factor for the heights that would make the mean of a check equal to the certificate. It is a proposal: nothing in
// this package applies it.
type GainProposal struct {
	Before float64 `json:"before"`
	Factor float64 `json:"factor"` // Before · certified value / mean
	Low    float64 `json:"low"`    // limits of the factor, from the expanded uncertainty of the ratio (k = 2)
	High   float64 `json:"high"`
	Change float64 `json:"change"` // Factor/Before - 1
	Text   string  `json:"text"`
}

// ErrSpecimen is wrapped by the error for a specimen that cannot be checked.
var ErrSpecimen = errors.New("specimen cannot be checked")

// CheckSpecimen evaluates traces of a specimen and holds their mean against the certificate. The depth of type A1 is found by
// [MeasureGroove] or [FindGroove] and takes no settings; types C and D are evaluated with the settings they were certified for.
// Fewer than three values leave the outcome open, where traces with the same heights are one; they are named in the hints. So does an allowance as large as the certified value: an instrument that shows nothing would keep it.
//
//	|mean − certified| ≤ U + allowance,   U for k = 2
//
// Source: the calibratability of DKD-R 4-2, sheet 2 (excerpt), and shop checks (trade practice).
func CheckSpecimen(ctx context.Context, traces []roughness.Profile, s *roughness.Settings, sp Specimen, a Allowance, session Session) (*SpecimenCheck, error) {
	if err := sp.check(a); err != nil {
		return nil, err
	}
	c := &SpecimenCheck{Session: session, Specimen: sp, Allowance: a, Values: []float64{}, Caution: standards.Caution}
	if c.Session.Gain == 0 {
		c.Session.Gain = 1
	}
	if err := c.measure(ctx, traces, s); err != nil {
		return nil, err
	}
	c.Hints = append(c.Hints, repeated(traces)...)
	c.Allowed = sp.Expanded*2/sp.k() + max(a.Absolute, a.Share*sp.Value)
	if len(c.Values) == 0 {
		c.Word = Open
		return c, nil
	}
	sum := decide.Summarise(c.Values)
	c.Mean, c.Deviation = sum.Mean, sum.Mean-sp.Value
	if !math.IsNaN(sum.S) {
		c.S = &sum.S
	}
	for _, o := range sum.Outliers {
		c.Hints = append(c.Hints, fmt.Sprintf("Value %d, %.6g µm, differs from the others: check that trace. It is not left out.", o.Index+1, c.Values[o.Index]))
	}
	switch {
	case c.distinct() < leastTraces:
		c.Word = Open
		c.Hints = append(c.Hints, fmt.Sprintf("%s too few to decide: trace the specimen at least %d times (common practice).", counted(c.distinct(), "value is", "values are"), leastTraces))
	case math.Abs(c.Deviation) <= c.Allowed*(1+1e-12) && c.Allowed >= sp.Value:
		c.Word, c.vague = Open, true
	case math.Abs(c.Deviation) <= c.Allowed*(1+1e-12):
		c.Word = Within
	default:
		c.Word = Outside
	}
	c.propose(sum)
	return c, nil
}

func (sp Specimen) check(a Allowance) error {
	switch types := []string{"A1", "C1", "C2", "C3", "C4", "D1", "D2"}; {
	case sp.Type != "" && !slices.Contains(types, sp.Type):
		return fmt.Errorf("instrument: %w: type %q is none of %v", ErrSpecimen, sp.Type, types)
	case (sp.Type == "A1") != (sp.Symbol == "d"):
		return fmt.Errorf("instrument: %w: type %s is not certified by %q; the depth of type A1 is called d", ErrSpecimen, sp.Type, sp.Symbol)
	case !(sp.Value > 0) || !finite(sp.Value) || !(sp.Expanded >= 0) || !finite(sp.Expanded) || !(sp.K >= 0) || !finite(sp.K):
		return fmt.Errorf("instrument: %w: value %g, uncertainty %g, coverage factor %g", ErrSpecimen, sp.Value, sp.Expanded, sp.K)
	case sp.K != 0 && (sp.K < leastCoverage || sp.K > mostCoverage):
		return fmt.Errorf("instrument: %w: the coverage factor %g is not between %g and %g; it is usually 2, and not a percentage", ErrSpecimen, sp.K, leastCoverage, mostCoverage)
	case !(a.Absolute >= 0) || !(a.Share >= 0) || !finite(a.Absolute) || !finite(a.Share):
		return fmt.Errorf("instrument: %w: an allowance of %g µm and %g of the value", ErrSpecimen, a.Absolute, a.Share)
	}
	return nil
}

// Between these lies a coverage factor (own choice).
const leastCoverage, mostCoverage = 0.1, 10.0

// k is the coverage factor of the certificate.
func (sp Specimen) k() float64 {
	if sp.K == 0 {
		return 2
	}
	return sp.K
}

// distinct is the number of values without those of copies.
func (c *SpecimenCheck) distinct() int { return len(c.Values) - c.copies }

// measure fills the values.
func (c *SpecimenCheck) measure(ctx context.Context, traces []roughness.Profile, s *roughness.Settings) error {
	seen := map[string]bool{}
	take := func(i int, v float64) {
		sum := judge.HeightsSHA256(traces[i].Z)
		if seen[sum] {
			c.copies++
		}
		seen[sum] = true
		c.Values = append(c.Values, v)
	}
	refuse := func(i int, reason string) {
		c.Refused = append(c.Refused, traceName(traces, i)+": "+reason)
	}
	if c.Specimen.Type == "A1" {
		c.Conditions = []string{grooveCondition}
		for i, p := range traces {
			g, err := c.Specimen.Measure(p)
			if err != nil {
				refuse(i, standards.Bare(err))
				continue
			}
			take(i, g.Depth)
		}
		return nil
	}
	if len(traces) == 0 {
		return nil
	}
	one := roughness.Settings{}
	if s != nil {
		one = *s
	}
	one.Parameters = []string{c.Specimen.Symbol}
	series, err := judge.EvaluateSeries(ctx, traces, &one)
	if err != nil {
		return err
	}
	c.Conditions = conditions(&series.Settings)
	c.Hints = short(traces, &one)
	for i, t := range series.Traces {
		if v := t.Values[0]; !finite(v) {
			refuse(i, t.Reasons[0])
			continue
		}
		if clipped := inspect.Clipped(traces[i].Z); clipped != "" {
			refuse(i, clipped)
			continue
		}
		take(i, t.Values[0])
	}
	return nil
}

const grooveCondition = "depth by least squares over three widths of the groove (ISO 5436-1:2000, type A1)"

// Measure finds and measures the groove of a specimen of type A1 on a trace, where its width and centre are stated, there.
func (sp Specimen) Measure(p roughness.Profile) (Groove, error) {
	if sp.Groove > 0 {
		return MeasureGroove(p, sp.Centre, sp.Groove)
	}
	return FindGroove(p)
}

// propose works out the gain factor where the deviation is more than chance and certificate explain.
//
//	factor = before · certified/mean,   u² = (U/k/certified)² + (s/mean)²/n
//
// Source: trade practice; only after cleaning and a repeat.
func (c *SpecimenCheck) propose(sum decide.Summary) {
	sp := c.Specimen
	if !heightSymbol(sp) {
		if c.Word == Outside {
			c.Hints = append(c.Hints, fmt.Sprintf("A factor for the heights does not change %s: look at the traverse and the spacing.", sp.Symbol))
		}
		return
	}
	if c.distinct() < leastTraces || !(sum.Mean > 0) {
		return
	}
	g := &GainProposal{Before: c.Session.Gain, Factor: c.Session.Gain * sp.Value / sum.Mean}
	u := math.Hypot(sp.Expanded/sp.k()/sp.Value, sum.S/sum.Mean/math.Sqrt(float64(sum.N)))
	g.Low, g.High = g.Factor*(1-2*u), g.Factor*(1+2*u)
	g.Change = g.Factor/g.Before - 1
	if g.Low <= g.Before && g.Before <= g.High {
		return // the present factor is as good
	}
	if math.Abs(g.Change) > mostChange {
		c.Hints = append(c.Hints, fmt.Sprintf("A change of the gain factor by %.0f %% is refused: more than %.0f %% is no matter of the gain. Compare specimen, certificate, unit and measuring range.", 100*g.Change, 100*mostChange))
		return
	}
	g.Text = fmt.Sprintf("Proposed gain factor: %.4g (%.4g to %.4g) instead of %.4g. It has not been applied and is never applied here. First clean tip and specimen and repeat the check.",
		g.Factor, g.Low, g.High, g.Before)
	c.Gain = g
	if math.Abs(g.Change) > largeChange {
		cause := "wear or damage of the tip is likely. Look at it under the microscope, or check it with type B."
		if sp.Type == "A1" { // whose depth hardly depends on the radius of the tip
			cause = "look at the seat of the tip, at the range that is switched on, and for dirt in the groove."
		}
		c.Hints = append(c.Hints, fmt.Sprintf("The factor would change by %.2g %%, which is more than drift: %s", 100*g.Change, cause))
	}
	if strings.HasPrefix(sp.Type, "D") {
		c.Hints = append(c.Hints, "Type D checks the whole chain: set the factor on a depth standard (type A1), and let type D confirm it.")
	}
}

// mostChange is the change of the factor beyond which none is proposed (own choice).
const mostChange = 0.1

// largeChange is the change of the factor from which the tip is suspected (trade practice: 2 % to 3 %).
const largeChange = 0.02

// heightSymbol reports whether the certified parameter grows with the heights in proportion.
func heightSymbol(sp Specimen) bool {
	if sp.Type == "A1" {
		return true
	}
	return slices.Contains([]string{"Ra", "Rq", "Rz", "Rp", "Rv", "Rt", "Rzx", "Rz1max", "Rmax", "Rc", "Rk", "Rpk", "Rvk", "Pt", "Pa", "Pq", "Pz"}, sp.Symbol)
}

// short says which traces hold fewer sections than the settings ask for, or points too far apart for the S-filter.
func short(traces []roughness.Profile, s *roughness.Settings) (notes []string) {
	ev, err := roughness.NewEvaluator(s)
	for i, p := range traces {
		if err == nil && ev.SettingsAt(p.Spacing).Short.Off && !ev.SettingsAt(0).Short.Off {
			notes = append(notes, fmt.Sprintf("%s: the points stand too far apart for the S-filter, which is left out.", traceName(traces, i)))
		}
		if room, err := roughness.RoomFor(p, s); err == nil && 0 < room.Whole && room.Whole < room.Wanted {
			notes = append(notes, fmt.Sprintf("%s holds %d of %d sections.", traceName(traces, i), room.Whole, room.Wanted))
		}
	}
	return notes
}

// repeated says which traces have the heights of an earlier one: the same trace twice is no second measurement.
func repeated(traces []roughness.Profile) (notes []string) {
	var given judge.Given
	for i, p := range traces {
		if text := given.Again(judge.HeightsSHA256(p.Z), traceName(traces, i), "its value counts"); text != "" {
			notes = append(notes, text)
		}
	}
	return notes
}

// withoutCopies are the traces that count, each with a name, and what is said of those with the heights of an earlier one.
func withoutCopies(traces []roughness.Profile) (kept []roughness.Profile, copies []string) {
	first := map[string]string{}
	for i, p := range traces {
		p.Name = traceName(traces, i)
		sum := judge.HeightsSHA256(p.Z)
		if earlier, again := first[sum]; again {
			copies = append(copies, p.Name+" has the same heights as "+earlier+", and counts once.")
			continue
		}
		first[sum] = p.Name
		kept = append(kept, p)
	}
	return kept, copies
}

func traceName(traces []roughness.Profile, i int) string {
	if i < len(traces) && traces[i].Name != "" {
		return traces[i].Name
	}
	return fmt.Sprintf("trace %d", i+1)
}

// conditions tells settings in words, so that two checks can be compared long after.
func conditions(s *roughness.Settings) []string {
	list := []string{"edition " + string(s.Edition), "profile " + s.Profile.String(), "form " + s.Form.String(),
		"S-filter " + s.Short.Plain(), "L-filter " + s.Long.Plain()}
	if l := s.Long.Spec; !s.Long.Off && l.DiscardLength > 0 {
		list = append(list, fmt.Sprintf("ends %s %g µm", l.Ends, l.DiscardLength))
	} else if !s.Long.Off && l.Ends != "" {
		list = append(list, "ends "+l.Ends)
	}
	return append(list, fmt.Sprintf("%d sections of %s", s.Sections, standards.Length(s.SectionLength)))
}

// TipHints reads a depth check and a check with a roughness specimen of the same day together: the depth of a wide groove does not
// see the tip, a fine profile does. Source: trade practice.
func TipHints(depth, fine *Check) []string {
	if depth.Word == Open || fine.Word == Open || depth.Held == nil || fine.Held == nil {
		return []string{"One of the checks is not decided, so they do not show the state of the tip."}
	}
	d, f := depth.Held, fine.Held
	low, high := fine.Word == Outside && f.Deviation < 0, fine.Word == Outside && f.Deviation > 0
	alike := math.Abs(d.Deviation/d.Certificate-f.Deviation/f.Certificate) <= d.Allowed/d.Certificate+f.Allowed/f.Certificate
	switch {
	case depth.Word == Within && low:
		return []string{"Look at the tip. The depth is right and the fine profile reads low: the tip is blunt, or too large for this specimen. Check it with a type B specimen or under a microscope."}
	case depth.Word == Within && high:
		return []string{"Look at the tip. The depth is right and the fine profile reads high: a chipped tip, dirt, vibration or noise. Check the tip, and the noise on a flat."}
	case depth.Word == Outside && alike:
		return []string{"Depth and fine profile differ by the same share: the gain, not the tip."}
	case depth.Word == Outside:
		return []string{"The depth is wrong: correct the gain before you judge the tip."}
	}
	return nil
}

// An Earlier is the result of a check of the same instrument on another day.
type Earlier struct {
	Date  string  `json:"date"` // ISO 8601
	Value float64 `json:"value"`
}

// leastEarlier is the number of checks below which nothing is said of their course (own choice).
const leastEarlier = 4

// Course says whether checks of one specimen, in the order of their dates, show a step or a drift; empty where neither shows. A step is a
// last change of more than twice the spread before it; a drift is a slope of the least-squares line that is more than three times as large as
// its standard deviation (own choices).
func Course(checks []Earlier) string {
	n := len(checks)
	if n < leastEarlier {
		return ""
	}
	low, high := checks[0].Value, checks[0].Value
	for _, c := range checks[:n-1] {
		low, high = min(low, c.Value), max(high, c.Value)
	}
	if last := checks[n-1].Value; last < low-2*(high-low) || last > high+2*(high-low) {
		return "A step, not a drift: something changed after " + checks[n-2].Date + "."
	}
	mean, sxx, sxy := 0.0, 0.0, 0.0
	for _, c := range checks {
		mean += c.Value / float64(n)
	}
	x := func(i int) float64 { return float64(i) - float64(n-1)/2 }
	for i, c := range checks {
		sxx += x(i) * x(i)
		sxy += x(i) * (c.Value - mean)
	}
	rest := 0.0
	for i, c := range checks {
		r := c.Value - mean - sxy/sxx*x(i)
		rest += r * r
	}
	if slope := sxy / sxx; math.Abs(slope) > 3*math.Sqrt(rest/float64(n-2)/sxx) && slope != 0 {
		return fmt.Sprintf("It drifts: %+.2g %% since %s.", 100*slope*float64(n-1)/mean, checks[0].Date)
	}
	return ""
}
