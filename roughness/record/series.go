package record

import (
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards/decide"
)

// SeriesVersion is the newest version of a series that this package writes.
const SeriesVersion = 1

// AppendSeries appends a series of traces as a JSON document to b, with a verdict when there is one.
func AppendSeries(b []byte, s *judge.Series, verdict *judge.Verdict) []byte {
	settings := any(raw("{}")) // values typed in, and nothing asked for
	if s.Settings.Edition != "" {
		settings = settingsAt(&s.Settings, " ")
	}
	w := opened(b, "")
	w.put("furrow_series", SeriesVersion, "settings", settings, "traces", list(s.Traces, "", func(t judge.TraceValues) any {
		values := make([]raw, len(t.Values))
		for k, v := range t.Values {
			all := []any{"symbol", s.Symbols[k], "value", v}
			if t.Reasons[k] != "" {
				all = append(all, "reason", t.Reasons[k])
			}
			values[k] = line(all...)
		}
		return line("name", t.Name, "values", inline(values, same), "notes", inline(t.Notes, note))
	}), "typed", list(s.Typed, "", func(t judge.Typed) any {
		return line("symbol", t.Symbol, "value", t.Value)
	}), "summary", list(s.Symbols, "", func(symbol string) any {
		u := s.Summary(symbol)
		return line("symbol", symbol, "unit", s.Unit(symbol), "n", u.N, "mean", u.Mean, "s", u.S, "min", u.Min, "max", u.Max, "median", u.Median,
			"proposed_outliers", inline(u.Outliers, func(o decide.Outlier) any {
				return line("value", s.Values(symbol)[o.Index], "name", s.NameOf(symbol, o.Index), "g", o.G, "critical", o.Critical)
			}))
	}))
	if verdict != nil {
		w.put("verdict", verdictAt(verdict, " "))
	}
	return w.end()
}
