package tracefile

import (
	"fmt"
	"math"
	"slices"

	"example.com/furrow/roughness"
)

// Finding is something about a trace that a person should look at before believing its values.
type Finding struct {
	Code     string  // short and stable: "clipped"
	Number   float64 // what led to it
	Unit     string  // of Number
	Text     string  // a sentence with the number
	Advice   string  // what to do
	From, To int     // the points meant, To behind the last; 0, 0 is the whole trace
}

// Note is the finding as evaluations and records carry it.
func (f Finding) Note() roughness.Note {
	return roughness.Note{Code: f.Code, Text: f.Text + " " + f.Advice}
}

// Conditions are what a trace is to be evaluated under, as far as judging it needs to know.
type Conditions struct {
	Short    float64 // cut-off of the S-filter (λs), µm; 0 is none
	Long     float64 // cut-off of the L-filter (λc), µm; 0 is none
	Section  float64 // section length, µm
	Sections int
	Filtered bool // the heights are said to be the profile itself, counted from its own zero
}

// Judge looks at a trace before it is evaluated and returns what it finds, in the order of the checks:
//
//	gaps, flat, too-coarse, too-short, clipped, repeated-end, quantised, spikes, step, drift, form, upside-down,
//	one-sign, long-waves-missing, short-waves-missing, periodic
//
// The limits that separate a finding from nothing are the project's own choice; each stands in the code beside its check. An empty
// result is no proof that a trace is good.
func Judge(p roughness.Profile, c Conditions) []Finding {
	j := judge{p: p, c: c}
	if len(p.Z) == 0 || !(p.Spacing > 0) || math.IsInf(p.Spacing, 0) {
		return nil
	}
	if !j.mend() {
		return j.found
	}
	if j.flat() {
		return j.found
	}
	j.sampling()
	j.clipped()
	j.repeatedEnd()
	j.quantised()
	j.spikes()
	j.step()
	j.form()
	j.upsideDown()
	j.oneSign()
	j.spectrum()
	return j.found
}

// judge carries what the checks share.
type judge struct {
	p     roughness.Profile
	c     Conditions
	z     []float64 // gaps closed by straight lines
	level []float64 // z without its least-squares line
	rest  []float64 // z without its least-squares parabola
	sigma float64   // standard deviation of rest
	found []Finding
}

func (j *judge) find(f Finding) { j.found = append(j.found, f) }

// at is the place of a point in words.
func (j *judge) at(i int) string {
	return fmt.Sprintf("%s mm (point %d)", number(float64(i)*j.p.Spacing/1000), i+1)
}

// mend counts gaps and closes them for the checks that follow. It reports whether anything is left to look at.
func (j *judge) mend() bool {
	z := slices.Clone(j.p.Z)
	invalid, gaps, longest, where := 0, 0, 0, 0
	for i := 0; i < len(z); i++ {
		if !math.IsNaN(z[i]) && !math.IsInf(z[i], 0) {
			continue
		}
		k := i
		for k < len(z) && (math.IsNaN(z[k]) || math.IsInf(z[k], 0)) {
			k++
		}
		gaps++
		invalid += k - i
		if k-i > longest {
			longest, where = k-i, i
		}
		switch {
		case i > 0 && k < len(z):
			for m := i; m < k; m++ {
				t := float64(m-i+1) / float64(k-i+1)
				z[m] = z[i-1]*(1-t) + z[k]*t
			}
		case i > 0:
			for m := i; m < k; m++ {
				z[m] = z[i-1]
			}
		case k < len(z):
			for m := i; m < k; m++ {
				z[m] = z[k]
			}
		}
		i = k
	}
	if invalid > 0 {
		j.find(Finding{Code: "gaps", Number: float64(invalid), Unit: "points", From: where, To: where + longest,
			Text: fmt.Sprintf("%d of %s without a height, in %s; the longest is %s µm, at %s.", invalid, plural(len(z), "point"), plural(gaps, "gap"),
				number(float64(longest)*j.p.Spacing), j.at(where)),
			Advice: "Short gaps are bridged and marked; leave out what lies beside a long one, or measure again."})
	}
	j.z = z
	return invalid < len(z)
}

// flat is a trace without any height: nothing else can be said about it.
func (j *judge) flat() bool {
	j.level = detrend(j.z, 1)
	j.rest = detrend(j.z, 2)
	j.sigma = deviation(j.rest)
	peak := 0.0
	for _, v := range j.z {
		peak = max(peak, math.Abs(v))
	}
	if j.sigma > 1e-12*peak && len(j.z) > 2 {
		return false
	}
	if len(j.z) > 2 {
		j.find(Finding{Code: "flat", Number: j.sigma, Unit: "µm", Text: fmt.Sprintf("The heights do not vary: their standard deviation is %s µm.", number(j.sigma)),
			Advice: "Check that the right column was read and that the probe touched the surface."})
	}
	return true
}

// sampling holds spacing and length against the conditions. Spacing: at most a quarter of λs (the contract of the command; ISO 3274
// asks for a fifth, from memory).
func (j *judge) sampling() {
	d, n := j.p.Spacing, len(j.z)
	if j.c.Short > 0 && d > j.c.Short/4*(1+1e-9) {
		j.find(Finding{Code: "too-coarse", Number: d, Unit: "µm",
			Text:   fmt.Sprintf("The points lie %s µm apart, more than a quarter of the short cut-off %s µm.", number(d), number(j.c.Short)),
			Advice: "The S-filter cannot work on them: leave it out and say so, or measure with closer points."})
	}
	if j.c.Section > 0 && j.c.Sections > 0 {
		have := int(math.Floor(float64(n)*d/j.c.Section + 1e-9))
		if have < j.c.Sections {
			j.find(Finding{Code: "too-short", Number: float64(n) * d, Unit: "µm",
				Text: fmt.Sprintf("The trace is %s mm long: %s of %s mm, where %d are wanted.", number(float64(n)*d/1000), plural(have, "section"),
					number(j.c.Section/1000), j.c.Sections),
				Advice: "Measure a longer trace, or evaluate fewer sections and say so; do not take a shorter cut-off for this reason."})
		}
	}
}

// form compares the line and the parabola through the trace with the residuals.
func (j *judge) form() {
	n := float64(len(j.z))
	rise := (j.z[0] - j.level[0]) - (j.z[len(j.z)-1] - j.level[len(j.level)-1])
	if sigma := deviation(j.level); math.Abs(rise) > 20*sigma { // a line that hides the surface twentyfold
		j.find(Finding{Code: "drift", Number: -rise, Unit: "µm",
			Text:   fmt.Sprintf("The trace rises by %s µm over its length, %s times the standard deviation about its line.", number(round3(-rise)), number(math.Round(math.Abs(rise)/sigma))),
			Advice: "Remove the line (form: line); if the part was level, look for drift of the instrument."})
	}
	mid := len(j.z) / 2
	bend := func(i int) float64 { return j.level[i] - j.rest[i] } // parabola less line
	sagitta := bend(mid) - (bend(0)+bend(len(j.z)-1))/2
	if math.Abs(sagitta) > 5*j.sigma { // more than the surface itself
		length := n * j.p.Spacing
		j.find(Finding{Code: "form", Number: sagitta, Unit: "µm",
			Text: fmt.Sprintf("The trace is bent by %s µm (radius about %s mm), the surface beside it has a standard deviation of %s µm.", number(round3(sagitta)),
				number(round3(length*length/8/math.Abs(sagitta)/1000)), number(round3(j.sigma))),
			Advice: "Remove the nominal form: a circle for a cylinder or ball, else a polynomial."})
	}
}

// upsideDown looks at the skewness of the residuals of the parabola: worn, honed and ground surfaces have more pits than peaks.
func (j *judge) upsideDown() {
	var s2, s3 float64
	for _, v := range j.rest {
		s2 += v * v
		s3 += v * v * v
	}
	n := float64(len(j.rest))
	skew := s3 / n / math.Pow(s2/n, 1.5)
	if skew > 1.5 { // turned surfaces stay below 1, plateaus lie below -1
		j.find(Finding{Code: "upside-down", Number: skew, Text: fmt.Sprintf("There are sharp peaks on a flat surface: the skewness is %s.", number(round3(skew))),
			Advice: "If this is a replica, or the instrument counts depth, turn z over."})
	}
}

// oneSign is for heights that are said to count from the profile's own mean line.
func (j *judge) oneSign() {
	low, high := slices.Min(j.z), slices.Max(j.z)
	if j.c.Filtered && (low >= 0 || high <= 0) {
		j.find(Finding{Code: "one-sign", Number: low, Unit: "µm",
			Text:   fmt.Sprintf("All heights have one sign (from %s to %s µm), although they should be measured from the mean line.", number(low), number(high)),
			Advice: "They may be distances without a sign, or heights from another zero: values that need the sign are then meaningless."})
	}
}

func round3(v float64) float64 {
	if v == 0 {
		return 0
	}
	f := math.Pow(10, 2-math.Floor(math.Log10(math.Abs(v))))
	return math.Round(v*f) / f
}

// detrend takes the least-squares line (degree 1) or parabola (degree 2) off.
func detrend(z []float64, degree int) []float64 {
	m := float64(len(z)-1) / 2
	var q, s [3]float64
	mean2 := m * (m + 1) / 3
	basis := func(i int) [3]float64 { // orthogonal on -m ... m
		t := float64(i) - m
		return [3]float64{1, t, t*t - mean2}
	}
	for i, v := range z {
		for k, b := range basis(i) {
			s[k] += b * v
			q[k] += b * b
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

func deviation(z []float64) float64 {
	mean, sum := 0.0, 0.0
	for _, v := range z {
		mean += v
	}
	mean /= float64(len(z))
	for _, v := range z {
		sum += (v - mean) * (v - mean)
	}
	return math.Sqrt(sum / float64(len(z)))
}
