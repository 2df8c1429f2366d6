package compare

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/internal/parallel"
)

// Steadiness says how far one value moves when conditions move that the requirement does not fix.
type Steadiness struct {
	Symbol string
	Value  float64 // with the settings as they are
	Unit   params.Unit
	Trials []Trial
	// Low and High bound the value as the sections move along the trace, to a number of different Places.
	Low, High float64
	Places    int
	// Stated says whether anything can be said of Digits: the sections can stand at five different places or more and have a tenth of
	// a section to move, another condition than the place gives a value as well (own choice), and not every value is 0.
	Stated bool
	// Digits is the number of significant digits that are sure, from 0 to 4, where Stated: the unit of the last one is at least a
	// third of the range of the value over the places and over the trials that count (own choice). It says nothing about the instrument.
	Digits int
}

// A Trial is one change of conditions and the value it gives, NaN where the trace or the settings do not allow it.
type Trial struct {
	Text   string
	Value  float64
	Counts bool // the trace changes, not a filter: the value enters Digits
}

const (
	places      = 21  // at which the sections are laid
	leastPlaces = 5   // that must be different for Digits
	leastFree   = 0.1 // of a section that they must be able to move
	mostDigits  = 4
)

// Steady evaluates each symbol of the settings again under changed conditions: other places along the trace, every second
// point, the S-filter off or on, the L-filter one standard step shorter and longer, and a tip of 5 µm in place of 2 µm.
func Steady(ctx context.Context, p roughness.Profile, s *roughness.Settings) ([]Steadiness, error) {
	base, err := roughness.Evaluate(p, s)
	if err != nil {
		return nil, err
	}
	trials := steadinessTrials(p, base)
	results := make([]*roughness.Evaluation, len(trials))
	err = parallel.Do(ctx, len(trials), func(i int) error {
		t := trials[i]
		if e, err := roughness.Evaluate(t.profile, &t.settings); err == nil && e.Sections == base.Sections {
			results[i] = e
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	out := make([]Steadiness, len(base.Values))
	for k, v := range base.Values {
		st := Steadiness{Symbol: v.Symbol, Value: v.Value, Unit: v.Unit, Low: v.Value, High: v.Value}
		low, high, conditions := v.Value, v.Value, 0
		for i, t := range trials {
			x := math.NaN()
			if results[i] != nil {
				x = results[i].Values[k].Value
			}
			if !math.IsNaN(x) && (t.place || t.counts) {
				low, high = min(low, x), max(high, x)
			}
			switch {
			case !t.place:
				st.Trials = append(st.Trials, Trial{t.text, x, t.counts})
				if t.counts && !math.IsNaN(x) {
					conditions++
				}
			case !math.IsNaN(x):
				st.Low, st.High = min(st.Low, x), max(st.High, x)
				st.Places++
			}
		}
		st.Stated = !math.IsNaN(v.Value) && conditions > 0 && st.Places >= leastPlaces && float64(free(base)) >= leastFree*float64(base.SectionPoints) && (v.Value != 0 || high > low)
		if st.Stated {
			st.Digits = digits(v.Value, high-low)
		}
		out[k] = st
	}
	return out, nil
}

// Most returns the trial that moves the value most, nil without one that has a value.
func (s Steadiness) Most() *Trial {
	var most *Trial
	far := 0.0
	for i := range s.Trials {
		if d := math.Abs(s.Trials[i].Value - s.Value); d > far {
			most, far = &s.Trials[i], d
		}
	}
	return most
}

// String says in words how steady the value is.
func (s Steadiness) String() string {
	switch {
	case s.Stated:
	case s.Value == 0 && s.Low == s.High && s.Places >= leastPlaces:
		return "The value is 0 under every condition, so nothing can be said about steadiness: is the trace flat?"
	default:
		return "The trace has no room to move the sections, so nothing can be said about steadiness."
	}
	figure := func(v float64) string {
		return strconv.FormatFloat(v, 'f', max(0, max(3, s.Digits+1)-1-exponent(v)), 64)
	}
	var with []string
	for _, t := range s.Trials {
		if t.Counts && !math.IsNaN(t.Value) {
			with = append(with, t.Text)
		}
	}
	high := strings.TrimSpace(figure(s.High) + " " + string(s.Unit))
	return fmt.Sprintf("Moved along the trace, the sections give %s to %s (%d places). With %s as well, %s. This says nothing about the instrument.",
		figure(s.Low), high, s.Places, strings.Join(with, " and "), sure(s.Digits))
}

func sure(n int) string {
	switch n {
	case 0:
		return "no digit is sure"
	case 1:
		return "1 digit is sure, to within 3 units"
	}
	return fmt.Sprintf("%d digits are sure, the last one to within 3 units", n)
}

// free is how many points the sections can be moved.
func free(e *roughness.Evaluation) int {
	from, to := e.Room()
	return to - from - e.Sections*e.SectionPoints
}

type trial struct {
	text     string
	place    bool
	counts   bool
	profile  roughness.Profile
	settings roughness.Settings
}

func steadinessTrials(p roughness.Profile, base *roughness.Evaluation) []trial {
	var list []trial
	s := base.Settings
	from, _ := base.Room()
	last := -1
	for i := range places {
		at := base.First + from + int(math.Round(float64(free(base))*float64(i)/(places-1)))
		if at == last {
			continue
		}
		last = at
		start := float64(at) * base.Spacing
		t := trial{place: true, profile: p, settings: s}
		t.settings.Start = &start
		t.settings.SectionLength = float64(base.SectionPoints) * base.Spacing
		t.settings.Sections = base.Sections
		list = append(list, t)
	}
	half := roughness.Profile{Spacing: 2 * p.Spacing, Name: p.Name, Traced: p.Traced}
	for i := 0; i < len(p.Z); i += 2 {
		half.Z = append(half.Z, p.Z[i])
	}
	list = append(list, trial{text: "every second point", counts: true, profile: half, settings: s})

	t := trial{text: "without the S-filter", profile: p, settings: s}
	t.settings.Short = roughness.Band{Off: true}
	if s.Short.Off {
		t.text, t.settings.Short = "with an S-filter of 2.5 µm", roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: 2.5}}
	}
	list = append(list, t)

	if c := s.Long.Spec.Cutoff; !s.Long.Off && c > 0 && s.Profile != roughness.P {
		ladder := rows()
		for i, step := range ladder {
			if math.Abs(step.Long-c) > 1e-9*c {
				continue
			}
			for _, n := range []struct {
				at   int
				text string
			}{{i - 1, "L-filter one step shorter"}, {i + 1, "L-filter one step longer"}} {
				if n.at >= 0 && n.at < len(ladder) {
					t := trial{text: n.text, profile: p, settings: s}
					t.settings.Long.Spec.Cutoff = ladder[n.at].Long
					t.settings.Long.Spec.DiscardLength *= ladder[n.at].Long / c
					list = append(list, t)
				}
			}
		}
	}
	if blunt, ok := tipped(p); ok {
		list = append(list, trial{text: "a tip of 5 µm in place of 2 µm", counts: true, profile: blunt, settings: s})
	}
	return list
}

// tipped is the trace as a tip of 5 µm would have followed what a tip of 2 µm left of it: the profile is taken for the
// surface, which it is but for what the first tip could not reach. ok is false where the trace has gaps.
func tipped(p roughness.Profile) (q roughness.Profile, ok bool) {
	z, err := filter.Tip{Radius: 5}.Trace(nil, p.Z, p.Spacing)
	if err != nil {
		return roughness.Profile{}, false
	}
	return roughness.Profile{Z: z, Spacing: p.Spacing, Name: p.Name, Traced: p.Traced}, true
}

// digits is how many significant digits of v are sure when it has the given range: the unit of the last one is the smallest power of
// ten that is at least a third of the range.
func digits(v, spread float64) int {
	if spread == 0 {
		return mostDigits
	}
	if v == 0 {
		return 0
	}
	unit := exponent(spread / 3)
	if spread/3 > math.Pow10(unit)*(1+1e-9) {
		unit++
	}
	return min(max(exponent(v)-unit+1, 0), mostDigits)
}

// exponent is the power of ten of the first digit of v.
func exponent(v float64) int {
	s := strconv.FormatFloat(v, 'e', -1, 64)
	n, _ := strconv.Atoi(s[strings.IndexByte(s, 'e')+1:])
	return n
}
