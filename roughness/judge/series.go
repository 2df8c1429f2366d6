package judge

import (
	"context"
	"errors"
	"example.com/furrow/roughness"
	"fmt"
	"math"
	"slices"

	"example.com/furrow/roughness/internal/parallel"
	"example.com/furrow/standards/decide"
)

// A Series is several traces of one surface, evaluated with the same settings: other places, or the same line again.
type Series struct {
	Settings roughness.Settings // of the first trace
	Symbols  []string
	Units    []string
	Traces   []TraceValues
	Typed    []Typed // values read elsewhere, which count with those of the traces
}

// TraceValues is what a series keeps of one trace.
type TraceValues struct {
	Name    string
	Values  []float64 // in the order of Symbols; NaN where undefined
	Reasons []string  // why, where undefined
	Notes   []roughness.Note
}

// Unit is the unit of the values of a symbol; empty for one that no trace has.
func (s *Series) Unit(symbol string) string {
	if k := slices.Index(s.Symbols, symbol); k >= 0 {
		return s.Units[k]
	}
	return ""
}

// ErrMixed is wrapped by the error for evaluations whose settings differ.
var ErrMixed = errors.New("settings differ between the traces of a series")

// placeAspects may differ between the traces of a series: they say where on the trace it was looked at.
var placeAspects = map[string]bool{"crop": true, "exclude": true, "start": true}

// Collect makes a series of evaluations. Evaluations made with other settings are refused, and the error says in what they
// differ; where on its trace each was evaluated may differ.
func Collect(names []string, evaluations ...*roughness.Evaluation) (*Series, error) {
	s := &Series{}
	for i, e := range evaluations {
		name := fmt.Sprintf("trace %d", i+1)
		if i < len(names) && names[i] != "" {
			name = names[i]
		}
		if i == 0 {
			s.Settings = e.Settings
			for _, v := range e.Values {
				s.Symbols = append(s.Symbols, v.Symbol)
				s.Units = append(s.Units, string(v.Unit))
			}
		}
		if c, ok := mixed(&s.Settings, &e.Settings); ok {
			return nil, fmt.Errorf("judge: %s: %w: %s is %s and not %s", name, ErrMixed, c.Key, c.To, c.From)
		}
		if len(e.Values) != len(s.Symbols) {
			return nil, fmt.Errorf("judge: %s: %w: parameters", name, ErrMixed)
		}
		t := TraceValues{Name: name, Notes: slices.Clone(e.Notes)}
		for k, v := range e.Values {
			if v.Symbol != s.Symbols[k] {
				return nil, fmt.Errorf("judge: %s: %w: parameters", name, ErrMixed)
			}
			t.Values = append(t.Values, v.Value)
			t.Reasons = append(t.Reasons, v.Reason)
		}
		s.Traces = append(s.Traces, t)
	}
	return s, nil
}

// mixed returns a change that keeps two evaluations out of one series. The longest gap bridged follows from the cut-off, and is named
// only where nothing else differs.
func mixed(a, b *roughness.Settings) (c roughness.Change, found bool) {
	for _, x := range roughness.Changes(a, b) {
		if placeAspects[x.Key] || found && c.Key != "gaps.bridge" {
			continue
		}
		c, found = x, true
	}
	return c, found
}

// EvaluateSeries evaluates each trace with the settings, on all cores. A trace that cannot be evaluated stays in the
// series with its reason.
func EvaluateSeries(ctx context.Context, traces []roughness.Profile, set *roughness.Settings) (*Series, error) {
	all := make([]*roughness.Evaluation, len(traces))
	names := make([]string, len(traces))
	err := parallel.Do(ctx, len(traces), func(i int) error {
		e, err := roughness.Evaluate(traces[i], set)
		if e == nil {
			return err
		}
		all[i], names[i] = e, traces[i].Name
		return nil
	})
	if err != nil {
		return nil, err
	}
	return Collect(names, all...)
}

// Type adds values that were read elsewhere; a symbol that no trace has is added.
func (s *Series) Type(values ...Typed) {
	for _, t := range values {
		s.Typed = append(s.Typed, t)
		if !slices.ContainsFunc(s.Symbols, func(name string) bool { return sameParameter(t, t.call.Edition, name) }) {
			s.Symbols = append(s.Symbols, t.Symbol)
			s.Units = append(s.Units, string(t.call.Parameter.Unit))
		}
	}
}

// Values returns the defined values of a symbol in the order of the traces, and behind them those typed in.
func (s *Series) Values(symbol string) []float64 {
	var out []float64
	for k, name := range s.Symbols {
		if name != symbol {
			continue
		}
		for _, t := range s.Traces {
			if k < len(t.Values) && !math.IsNaN(t.Values[k]) {
				out = append(out, t.Values[k])
			}
		}
	}
	for _, t := range s.Typed {
		if sameParameter(t, t.call.Edition, symbol) {
			out = append(out, t.Value)
		}
	}
	return out
}

// NameOf returns where value i of a symbol comes from, as Values counts them: the name of its trace, or "typed in".
func (s *Series) NameOf(symbol string, i int) string {
	k := slices.Index(s.Symbols, symbol)
	for _, t := range s.Traces {
		if k < 0 || k >= len(t.Values) || math.IsNaN(t.Values[k]) {
			continue
		}
		if i == 0 {
			return t.Name
		}
		i--
	}
	return typedIn
}

// Summary describes the values of a symbol: mean, standard deviation, range, and which lie apart. Outliers are proposed, never
// taken away.
func (s *Series) Summary(symbol string) decide.Summary {
	return decide.Summarise(s.Values(symbol))
}

func traceName(traces []roughness.Profile, i int) string {
	if i < len(traces) && traces[i].Name != "" {
		return traces[i].Name
	}
	return fmt.Sprintf("trace %d", i+1)
}
