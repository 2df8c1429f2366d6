package roughness

import (
	"context"
	"math"

	"example.com/furrow/filter"
)

// Steadiness says how far one value moves when conditions move that the requirement does not fix.
type Steadiness struct {
	Symbol string
	Value  float64 // with the settings as they are
	Trials []Trial
	// Low and High bound the value as the sections slide along the trace: the only trial that changes nothing but the place.
	Low, High float64
	// Digits is the number of significant digits that stay the same over the places: of 2.91 between 2.78 and 2.94, one
	// is sure and the second nearly so, which makes 2. At least 1.
	Digits int
}

// A Trial is one change of conditions and the value it gives, NaN where the trace or the settings do not allow it.
type Trial struct {
	Text  string
	Value float64
}

// places is the number of places at which the sections are laid for the slide.
const places = 21

// Steady evaluates each symbol of the settings again under changed conditions: other places along the trace, every second
// point, the S-filter off or on, the L-filter one standard step shorter and longer, and a tip of 5 µm in place of 2 µm.
func Steady(ctx context.Context, p Profile, s *Settings) ([]Steadiness, error) {
	base, err := Evaluate(p, s)
	if err != nil {
		return nil, err
	}
	trials := steadinessTrials(p, base)
	results := make([]*Evaluation, len(trials))
	err = parallel(ctx, len(trials), func(i int) error {
		t := trials[i]
		if e, err := Evaluate(t.profile, &t.settings); err == nil && e.Sections == base.Sections {
			results[i] = e
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	out := make([]Steadiness, len(base.Values))
	for k, v := range base.Values {
		st := Steadiness{Symbol: v.Symbol, Value: v.Value, Low: v.Value, High: v.Value}
		for i, t := range trials {
			x := math.NaN()
			if results[i] != nil {
				x = results[i].Values[k].Value
			}
			if t.place {
				if !math.IsNaN(x) {
					st.Low, st.High = min(st.Low, x), max(st.High, x)
				}
				continue
			}
			st.Trials = append(st.Trials, Trial{t.text, x})
		}
		st.Digits = digits(v.Value, st.High-st.Low)
		out[k] = st
	}
	return out, nil
}

type trial struct {
	text     string
	place    bool
	profile  Profile
	settings Settings
}

// ladder are the standard cut-offs (ISO 3274:1996; ISO 21920-3).
var ladder = []float64{80, 250, 800, 2500, 8000}

func steadinessTrials(p Profile, base *Evaluation) []trial {
	var list []trial
	s := base.Settings
	room := len(base.Read) - base.Sections*base.SectionPoints
	for i := range places {
		start := float64(base.First)*base.Spacing + float64(room)*base.Spacing*float64(i)/(places-1)
		t := trial{place: true, profile: p, settings: s}
		t.settings.Start = &start
		t.settings.SectionLength = float64(base.SectionPoints) * base.Spacing
		t.settings.Sections = base.Sections
		list = append(list, t)
	}
	half := Profile{Spacing: 2 * p.Spacing, Name: p.Name, Traced: p.Traced}
	for i := 0; i < len(p.Z); i += 2 {
		half.Z = append(half.Z, p.Z[i])
	}
	list = append(list, trial{text: "every second point", profile: half, settings: s})

	t := trial{text: "without the S-filter", profile: p, settings: s}
	t.settings.Short = Band{Off: true}
	if s.Short.Off {
		t.text, t.settings.Short = "with an S-filter of 2.5 µm", shortOf(2.5)
	}
	list = append(list, t)

	if c := s.Long.Spec.Cutoff; !s.Long.Off && c > 0 && s.Profile != P {
		for i, step := range ladder {
			if math.Abs(step-c) > 1e-9*c {
				continue
			}
			for _, n := range []struct {
				at   int
				text string
			}{{i - 1, "L-filter one step shorter"}, {i + 1, "L-filter one step longer"}} {
				if n.at >= 0 && n.at < len(ladder) {
					t := trial{text: n.text, profile: p, settings: s}
					t.settings.Long.Spec.Cutoff = ladder[n.at]
					t.settings.Long.Spec.DiscardLength *= ladder[n.at] / c
					list = append(list, t)
				}
			}
		}
	}
	if blunt, ok := tipped(p); ok {
		list = append(list, trial{text: "a tip of 5 µm in place of 2 µm", profile: blunt, settings: s})
	}
	return list
}

// tipped is the trace as a tip of 5 µm would have followed what a tip of 2 µm left of it: the profile is taken for the
// surface, which it is but for what the first tip could not reach. ok is false where the trace has gaps.
func tipped(p Profile) (q Profile, ok bool) {
	z, err := filter.Tip{Radius: 5}.Trace(nil, p.Z, p.Spacing)
	if err != nil {
		return Profile{}, false
	}
	return Profile{Z: z, Spacing: p.Spacing, Name: p.Name, Traced: p.Traced}, true
}

// digits is how many significant digits of v a spread leaves.
func digits(v, spread float64) int {
	if math.IsNaN(v) || v == 0 || math.IsNaN(spread) {
		return 1
	}
	if spread == 0 {
		return 6
	}
	d := int(math.Floor(math.Log10(math.Abs(v)))) - int(math.Floor(math.Log10(spread))) + 1
	return min(max(d, 1), 6)
}
