package main

import (
	"fmt"

	"example.com/furrow/roughness/figure"
	"example.com/furrow/standards"
)

// decision is the picture of the latest verdict: the values of one limit, and of the others on the same parameter, on one line. names are
// those of the values in the order in which they count.
func (m *module) decision(o figureOptions) (figure.Drawing, error) {
	if m.verdict == nil || o.Limit < 0 || o.Limit >= len(m.verdict.Limits) {
		return nil, requestf("there is no verdict on limit %d", o.Limit+1)
	}
	l := m.verdict.Limits[o.Limit]
	d := figure.Decision{Symbol: l.Symbol, Unit: o.Unit}
	for _, other := range m.verdict.Limits {
		if other.Symbol == l.Symbol && len(other.Counted) == len(l.Counted) {
			d.Limits = append(d.Limits, figure.Limit{Value: other.Bound.Value, Lower: other.Side == standards.Lower, Accept: other.Accept, Reject: other.Reject})
		}
	}
	for i, c := range l.Counted {
		name := fmt.Sprintf("value %d", i+1)
		if i < len(o.Names) {
			name = o.Names[i]
		}
		d.Values = append(d.Values, figure.Measured{Name: name, Value: c.Value, U: l.U, Deciding: c.Value == l.Value})
	}
	return d, nil
}
