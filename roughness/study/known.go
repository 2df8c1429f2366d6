package study

import (
	"fmt"
	"math"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// A KnownValue is a parameter that a made surface has by a formula, beside what the calculation gives, by ISO 21920.
type KnownValue struct {
	Symbol, Unit, Formula, Source string

	Known    float64
	Plain    float64 // calculated without filters, in one section
	Bound    float64 // how far the points may bring Plain away from Known, a share of the scale of the value
	Why      string  // of a difference
	Filtered float64 // calculated behind the filters
	// KnownFiltered is what the transmission of the filters leaves; NaN where no formula gives it.
	KnownFiltered float64
	Expected      bool // on average over many seeds

	scale float64
}

// Deviation is how far Plain is from Known, a share of the scale of the value: the known value itself, or Rq for a height that is zero
// or belongs to the material ratio curve, 1 for a pure number that is zero, 100 for a ratio in %.
func (k *KnownValue) Deviation() float64 { return math.Abs(k.Plain-k.Known) / k.scale }

// Known lists what is known of a made surface; reason says why nothing is.
func (d *Desk) Known(s State) (list []KnownValue, reason string, err error) {
	s = s.Complete()
	if err := s.check(); err != nil {
		return nil, "", err
	}
	shapes, reason := s.shapes()
	if reason != "" {
		return nil, reason, nil
	}
	surface, err := d.Surface(s)
	if err != nil {
		return nil, "", err
	}
	known := together(shapes)
	var symbols []string
	for _, k := range known {
		symbols = append(symbols, k.Symbol)
	}
	plain, err := roughness.Evaluate(surface, &roughness.Settings{Input: roughness.Filtered, Parameters: symbols})
	if err != nil {
		return nil, "", err
	}
	behind := s
	behind.Edition, behind.Letter, behind.Symbol = "iso-21920", "R", firstSymbol
	if behind.Filter.Kind == "none" || s.Edition != "iso-21920" {
		behind.Filter = Removal{Kind: "class"}
	}
	behind.Sections = Sections{}
	set, err := behind.Settings()
	if err != nil {
		return nil, "", err
	}
	set.Parameters = symbols
	filtered, wrong := roughness.Evaluate(surface, set)
	left := map[string]float64{}
	if wrong == nil {
		for _, k := range remaining(shapes, filtered) {
			left[k.Symbol] = k.Value
		}
	}
	rq := 0.0 // the scale of heights that are small beside it
	for _, k := range known {
		if k.Symbol == "Rq" {
			rq = k.Value
		}
	}
	for i, k := range known {
		v := KnownValue{Symbol: k.Symbol, Unit: k.Unit, Formula: k.Formula, Source: k.Source, Known: k.Value, Plain: plain.Values[i].Value, Expected: k.Expected,
			Filtered: math.NaN(), KnownFiltered: math.NaN(), scale: math.Abs(k.Value)}
		switch {
		case k.Unit == "length":
			v.Unit = "µm"
			if v.scale == 0 || coreSymbol(k.Symbol) {
				v.scale = math.Max(v.scale, rq)
			}
		case k.Unit == "%" && !strings.HasPrefix(k.Symbol, "Rdr"):
			v.scale = 100
		case v.scale == 0:
			v.scale = 1
		}
		if wrong == nil {
			v.Filtered = filtered.Values[i].Value
			if x, ok := left[k.Symbol]; ok {
				v.KnownFiltered = x
			}
		}
		v.Bound, v.Why = s.explain(shapes, k, surface.Spacing)
		if v.Deviation() < 5e-4 {
			v.Why = ""
		}
		list = append(list, v)
	}
	return list, "", nil
}

// shapes are the ingredients with closed forms; reason says why there is no closed form.
func (s *State) shapes() (shapes []synth.Shape, reason string) {
	switch {
	case s.Surface != Made:
		return nil, "Only a made surface has values that a formula gives."
	case len(s.Moved) > 0:
		return nil, "A moved ordinate leaves nothing that a formula gives."
	case s.Turned:
		return nil, "The formulas are those of the surface as it was made; turn it back to compare."
	case len(s.Parts) == 0:
		return nil, "Add an ingredient."
	}
	for _, p := range s.Parts {
		in := ingredientOf(p.Kind)
		if in.shape == nil {
			return nil, fmt.Sprintf("%s: that leaves nothing that a formula gives.", in.Words)
		}
		shapes = append(shapes, in.shape(p.Values))
	}
	return shapes, ""
}

// together is what is known of a sum: of one shape all that it knows, of sines what holds for their sum, of independent parts their Rq.
func together(shapes []synth.Shape) []synth.Known {
	if len(shapes) == 1 {
		return shapes[0].Known()
	}
	var sines synth.Sines
	for _, s := range shapes {
		if sine, ok := s.(synth.Sine); ok {
			sines = append(sines, sine)
		}
	}
	if len(sines) == len(shapes) && sines[0].Wavelength != sines[1].Wavelength {
		return sines.Known()
	}
	return synth.Independent(shapes...)
}

// remaining is what is known behind the filters of an evaluation, from their transmission: a sine stays a sine, normal heights stay normal.
func remaining(shapes []synth.Shape, e *roughness.Evaluation) []synth.Known {
	short, ownShort := e.Settings.Short.Linear()
	long, ownLong := e.Settings.Long.Linear()
	if !ownShort || !ownLong {
		return nil
	}
	passed := func(wave float64) float64 {
		t := 1.0
		if short != nil {
			t = short.Transmission(wave)
		}
		if long != nil {
			t *= 1 - long.Transmission(wave)
		}
		return t
	}
	var left []synth.Shape
	for _, s := range shapes {
		switch s := s.(type) {
		case synth.Sine:
			s.Amplitude *= passed(s.Wavelength)
			left = append(left, s)
		case synth.Correlated:
			s.Sigma *= math.Sqrt(powerLeft(s.Length, passed))
			left = append(left, s)
		default:
			return nil
		}
	}
	var known []synth.Known
	for _, k := range together(left) {
		switch _, noise := left[0].(synth.Correlated); {
		case noise && (k.Symbol == "Rdq" || k.Symbol == "Rsm" || k.Symbol == "Ral"): // the waves of the noise are others behind a filter
		case strings.HasPrefix(k.Symbol, "Rk") && k.Symbol != "Rku", strings.HasPrefix(k.Symbol, "Rpk"), strings.HasPrefix(k.Symbol, "Rvk"), strings.HasPrefix(k.Symbol, "Rmrk"):
			// these have a filter of their own
		default:
			known = append(known, k)
		}
	}
	return known
}

// powerLeft is the share of the variance of a normal process with the autocorrelation exp(-(t/β)²) that a transmission lets through:
// its spectrum over the frequency f falls by exp(-(πβf)²).
func powerLeft(beta float64, passed func(wave float64) float64) float64 {
	const steps = 2000
	most := 6 / (math.Pi * beta)
	sum, all := 0.0, 0.0
	for i := range steps {
		f := most * (float64(i) + 0.5) / steps
		w := math.Exp(-math.Pow(math.Pi*beta*f, 2))
		t := passed(1 / f)
		sum += w * t * t
		all += w
	}
	return sum / all
}

// explain states how far the points may bring a value away from the formula, and says it in a sentence.
func (s *State) explain(shapes []synth.Shape, k synth.Known, dx float64) (bound float64, why string) {
	shortest, corners, random := math.Inf(1), false, 0.0
	for _, shape := range shapes {
		switch shape := shape.(type) {
		case synth.Sine:
			shortest = math.Min(shortest, shape.Wavelength)
		case synth.Triangle:
			shortest, corners = math.Min(shortest, shape.Wavelength), true
		case synth.Sawtooth:
			shortest, corners = math.Min(shortest, shape.Wavelength*2*math.Min(shape.Rise, 1-shape.Rise)), true
		case synth.Turned:
			shortest, corners = math.Min(shortest, shape.Feed), true
		case synth.Correlated:
			random = math.Max(random, shape.Length)
		case synth.Noise:
			random = math.Max(random, dx)
		case synth.Honed:
			random = math.Max(random, math.Max(shape.PlateauLength, shape.GrooveLength))
		}
	}
	l := s.Length * millimetre
	if k.Expected {
		if k.Symbol == "Rsm" {
			return math.Inf(1), "ISO 21920 joins hills and dales that are too small; the formula counts every crossing."
		}
		independent := math.Max(1, l/math.Max(random, dx))
		bound = 6 / math.Sqrt(independent)
		if coreSymbol(k.Symbol) && random < 3*dx {
			return bound + 0.3, "The material ratio follows the straight lines between the points, and these are steep where each point is independent of the next."
		}
		return bound, fmt.Sprintf("One surface scatters around the mean of many: this one is about %.0f correlation lengths long.", independent)
	}
	points := shortest / dx
	waves := l / shortest
	if part := math.Abs(waves - math.Round(waves)); part > 1e-6 {
		bound, why = 2/waves, fmt.Sprintf("The length holds %.4g waves and not a whole number of them.", waves)
	} else {
		why = fmt.Sprintf("The points are %g µm apart: a wave has %.4g of them.", dx, points)
	}
	if corners {
		bound += 8 / points
	} else {
		bound += math.Pow(4/points, 2)
	}
	switch {
	case corners && k.Symbol == "Rdt":
		bound += 0.25
		why = "The formula of seven points overshoots at a corner."
	case k.Symbol == "Rdq" || k.Symbol == "Rda" || k.Symbol == "Rdr":
		bound += 12 * dx / l
		why = "The three points at each end have no slope. " + why
	case k.Symbol == "Ral":
		bound += shortest / l
		why = "Each shift compares the parts that overlap, and these need not be whole waves."
	}
	if coreSymbol(k.Symbol) {
		bound += 0.015 + 1/points
		why = "A sampled wave repeats its heights, so the flattest window and its ends lie between two of them. " + why
	}
	return bound, why
}

// coreSymbol tells whether a value is read from the sorted heights of the material ratio curve.
func coreSymbol(symbol string) bool {
	for _, start := range []string{"Rpk", "Rvk", "Rmrk", "Rk", "Rv", "Rdc"} {
		if strings.HasPrefix(symbol, start) && symbol != "Rku" && symbol != "Rv" {
			return true
		}
	}
	return false
}
