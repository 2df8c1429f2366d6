package inspect

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
)

// Observation is something about a trace that a person should look at before believing its values.
type Observation struct {
	Code     string  // short and stable: "clipped"
	Number   float64 // what led to it
	Unit     string  // of Number
	Text     string  // a sentence with the number
	Advice   string  // what to do
	From, To int     // the points meant, To behind the last; 0, 0 is the whole trace
}

// Note is the observation as evaluations and records carry it.
func (f Observation) Note() roughness.Note {
	return roughness.Note{Code: f.Code, Text: f.Text + " " + f.Advice}
}

// Conditions are what a trace is to be evaluated under, as far as looking at it needs to know.
type Conditions struct {
	Short    float64 // cut-off of the S-filter (λs), µm; 0 is none
	Long     float64 // cut-off of the L-filter (λc), µm; 0 is none
	Section  float64 // section length, µm; 0 is not said
	Sections int     // how many of them; 0 is not said
	Filtered bool    // the heights are said to be the profile itself, counted from its own zero
}

// Under returns the conditions that an evaluation was made under.
func Under(e *roughness.Evaluation) Conditions {
	s := &e.Settings
	return Conditions{Short: s.Short.Spec.Cutoff, Long: s.Long.Spec.Cutoff, Filtered: s.Input == roughness.Filtered}
}

// grave are the findings on a trace that make its values doubtful, whatever a verdict says; a doubt about its unit comes from reading it.
var grave = []string{"flat", "clipped", "spikes", "long-waves-missing", "short-waves-missing", "unit-doubt"}

// Grave reports whether a finding with this code makes the values of its trace doubtful, whatever a verdict says.
func Grave(code string) bool { return slices.Contains(grave, code) }

// Look looks at a trace before it is evaluated and returns what it finds, in the order of the looks:
//
//	gaps, flat, too-coarse, too-short, clipped, repeated-end, quantised, spikes, step, drift, form, upside-down,
//	one-sign, long-waves-missing, short-waves-missing, periodic
//
// Gaps are closed by straight lines for the looks that follow. A trace without points or without a spacing has no observations. The limits
// that separate an observation from nothing are the project's own choice; each stands in the code beside its look. An empty result is no
// proof that a trace is good. The heights are not changed; calls may run at the same time.
func Look(p roughness.Profile, c Conditions) []Observation { return Begin(p).Look(c) }

// A Looker has looked at a trace for all that the conditions do not change: what remains to be looked at under each of them is little.
type Looker struct {
	t      trace         // with what was found before the conditions are needed
	always []Observation // found under all conditions, behind those of the sampling
	ends   bool          // there is nothing else to look at
}

// Begin looks at a trace. Calls of Look on what it returns may run at the same time.
func Begin(p roughness.Profile) *Looker {
	l := &Looker{t: trace{p: p}}
	t := &l.t
	if len(p.Z) == 0 || !(p.Spacing > 0) || math.IsInf(p.Spacing, 0) || !t.mend() || t.flat() {
		l.ends = true
		return l
	}
	t.points, t.low, t.high, t.middle = len(t.z), slices.Min(t.z), slices.Max(t.z), mean(t.z)
	t.transform()
	rest := *t
	rest.found = nil
	for _, look := range []func(){rest.clipped, rest.repeatedEnd, rest.quantised, rest.spikes, rest.step, rest.form, rest.upsideDown} {
		look()
	}
	l.always = rest.found
	t.p.Z, t.z, t.level, t.rest = nil, nil, nil, nil // a Looker may stay for long
	return l
}

// Look is the function Look on the trace of the Looker.
func (l *Looker) Look(c Conditions) []Observation {
	t := l.t
	t.c, t.found = c, slices.Clone(t.found)
	if l.ends {
		return t.found
	}
	t.sampling()
	t.found = append(t.found, l.always...)
	t.oneSign()
	t.spectrum()
	return t.found
}

// trace carries what the looks share.
type trace struct {
	p     roughness.Profile
	c     Conditions
	z     []float64 // gaps closed by straight lines
	level []float64 // z without its least-squares line
	rest  []float64 // z without its least-squares parabola
	rise  float64   // of the line from the first point to the last
	sigma float64   // standard deviation of rest

	points            int // and lowest, highest and mean height of z
	low, high, middle float64
	power             []float64 // of the waves in rest, none where there are too few points
	waves             int       // points that power is made of
	found             []Observation
}

// find adds an observation. Its sentence shows a float64 with ten digits.
func (t *trace) find(f Observation, format string, args ...any) {
	shown := make([]any, len(args))
	for i, a := range args {
		if v, ok := a.(float64); ok {
			a = strconv.FormatFloat(v, 'g', 10, 64)
		}
		shown[i] = a
	}
	f.Text = fmt.Sprintf(format, shown...)
	t.found = append(t.found, f)
}

// at is the place of a point in words.
func (t *trace) at(i int) string {
	return fmt.Sprintf("%.10g mm (point %d)", float64(i)*t.p.Spacing/1000, i+1)
}

func plural(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%.10g %s", float64(n), what)
}

// mend counts gaps and closes them for the looks that follow. It reports whether anything is left to look at.
func (t *trace) mend() bool {
	var longest filter.Gap
	invalid, gaps := 0, filter.Gaps(t.p.Z)
	for _, g := range gaps {
		if invalid += g.To - g.From; g.To-g.From > longest.To-longest.From {
			longest = g
		}
	}
	if invalid > 0 {
		t.find(Observation{Code: "gaps", Number: float64(invalid), Unit: "points", From: longest.From, To: longest.To,
			Advice: "Short gaps are bridged and marked; leave out what lies beside a long one, or measure again."},
			"%d of %s without a height, in %s; the longest is %v µm, at %s.", invalid, plural(len(t.p.Z), "point"), plural(len(gaps), "gap"),
			longest.Length(t.p.Spacing), t.at(longest.From))
	}
	t.z = bridged(t.p.Z)
	return t.z != nil
}

// bridged closes gaps by straight lines; nil where there is no height.
func bridged(z []float64) []float64 {
	b, err := filter.Bridge(nil, z, 1, math.Inf(1))
	if err != nil {
		return nil
	}
	return slices.Concat(slices.Repeat(b.Z[:1], b.From), b.Z, slices.Repeat(b.Z[len(b.Z)-1:], len(z)-b.To))
}

// flat is a trace without any height: nothing else can be said about it.
func (t *trace) flat() bool {
	t.level, t.rest = detrend(t.z, 1), detrend(t.z, 2)
	last := len(t.z) - 1
	t.rise = (t.z[last] - t.level[last]) - (t.z[0] - t.level[0])
	t.sigma = deviation(t.rest)
	peak := 0.0
	for _, v := range t.z {
		peak = max(peak, math.Abs(v))
	}
	if t.sigma > 1e-12*peak && len(t.z) > 2 {
		return false
	}
	if len(t.z) > 2 {
		t.find(Observation{Code: "flat", Number: t.sigma, Unit: "µm", Advice: "Check that the right column was read and that the probe touched the surface."},
			"The heights do not vary: their standard deviation is %v µm.", t.sigma)
	}
	return true
}

// sampling holds spacing and length against the conditions. Spacing: at most a quarter of λs (the contract of the command; ISO 3274
// asks for a fifth, from memory).
func (t *trace) sampling() {
	d, length := t.p.Spacing, float64(t.points)*t.p.Spacing
	if t.c.Short > 0 && d > t.c.Short/4*(1+1e-9) {
		t.find(Observation{Code: "too-coarse", Number: d, Unit: "µm",
			Advice: "The S-filter cannot work on them: leave it out and say so, or measure with closer points."},
			"The points lie %v µm apart, more than a quarter of the short cut-off %v µm.", d, t.c.Short)
	}
	if t.c.Section > 0 && t.c.Sections > 0 {
		if have := int(math.Floor(length/t.c.Section + 1e-9)); have < t.c.Sections {
			t.find(Observation{Code: "too-short", Number: length, Unit: "µm",
				Advice: "Measure a longer trace, or evaluate fewer sections and say so; do not take a shorter cut-off for this reason."},
				"The trace is %v mm long: %s of %v mm, where %d are wanted.", length/1000, plural(have, "section"), t.c.Section/1000, t.c.Sections)
		}
	}
}

// form compares the line and the parabola through the trace with the residuals.
func (t *trace) form() {
	if sigma := deviation(t.level); math.Abs(t.rise) > 20*sigma { // a line that hides the surface twentyfold
		t.find(Observation{Code: "drift", Number: t.rise, Unit: "µm",
			Advice: "Remove the line (form: line); if the part was level, look for drift of the instrument."},
			"The trace rises by %v µm over its length, %v times the standard deviation about its line.", round3(t.rise), math.Round(math.Abs(t.rise)/sigma))
	}
	bend := func(i int) float64 { return t.level[i] - t.rest[i] } // parabola less line
	sagitta := bend(len(t.z)/2) - float64((bend(0)+bend(len(t.z)-1))/2)
	if math.Abs(sagitta) > 5*t.sigma { // more than the surface itself
		length := float64(len(t.z)) * t.p.Spacing
		t.find(Observation{Code: "form", Number: sagitta, Unit: "µm", Advice: "Remove the nominal form: a circle for a cylinder or ball, else a polynomial."},
			"The trace is bent by %v µm (radius about %v mm), the surface beside it has a standard deviation of %v µm.", round3(sagitta),
			round3(length*length/8/math.Abs(sagitta)/1000), round3(t.sigma))
	}
}

// upsideDown looks at the skewness of the residuals of the parabola: worn, honed and ground surfaces have more pits than peaks.
func (t *trace) upsideDown() {
	var s2, s3 float64
	for _, v := range t.rest {
		s2 += float64(v * v)
		s3 += float64(v * v * v)
	}
	n := float64(len(t.rest))
	if skew := s3 / n / math.Pow(s2/n, 1.5); skew > 1.5 { // turned surfaces stay below 1, plateaus lie below -1
		t.find(Observation{Code: "upside-down", Number: skew, Advice: "If this is a replica, or the instrument counts depth, turn z over."},
			"There are sharp peaks on a flat surface: the skewness is %v.", round3(skew))
	}
}

// oneSign is for heights that are said to count from the profile's own mean line.
func (t *trace) oneSign() {
	if t.c.Filtered && (t.low >= 0 || t.high <= 0) {
		t.find(Observation{Code: "one-sign", Number: t.low, Unit: "µm",
			Advice: "They may be distances without a sign, or heights from another zero: values that need the sign are then meaningless."},
			"All heights have one sign (from %v to %v µm), although they should be measured from the mean line.", t.low, t.high)
	}
}

// round3 rounds to three digits.
func round3(v float64) float64 {
	if v == 0 {
		return 0
	}
	f := math.Pow(10, 2-math.Floor(math.Log10(math.Abs(v))))
	return math.Round(v*f) / f
}

// detrend takes the least-squares line (degree 1) or parabola (degree 2) off.
func detrend(z []float64, degree int) []float64 {
	m := float64(float64(len(z)-1) / 2)
	var q, s [3]float64
	mean2 := m * (m + 1) / 3
	basis := func(i int) [3]float64 { // orthogonal on -m ... m
		t := float64(i) - m
		return [3]float64{1, t, float64(t*t) - mean2}
	}
	for i, v := range z {
		for k, b := range basis(i) {
			s[k] += float64(b * v)
			q[k] += float64(b * b)
		}
	}
	out := make([]float64, len(z))
	for i, v := range z {
		b := basis(i)
		for k := 0; k <= degree; k++ {
			if q[k] > 0 {
				v -= b[k] * s[k] / q[k]
			}
		}
		out[i] = v
	}
	return out
}

func mean(z []float64) float64 {
	sum := 0.0
	for _, v := range z {
		sum += v
	}
	return sum / float64(len(z))
}

func deviation(z []float64) float64 {
	middle, sum := mean(z), 0.0
	for _, v := range z {
		sum += float64((v - middle) * (v - middle))
	}
	return math.Sqrt(sum / float64(len(z)))
}
