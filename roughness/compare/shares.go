package compare

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/bits"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/internal/parallel"
	"example.com/furrow/standards"
)

// A Ledger explains why one value differs between two settings on one trace.
type Ledger struct {
	Symbol  string // as in the first settings
	A, B    roughness.Value
	Entries []Entry // in the order of the evaluation
}

// An Entry is one change between the two settings and what it does to the value.
type Entry struct {
	roughness.Change
	After float64 // the value when this change and all before it are made
	Step  float64 // After less the value before
	Share float64 // the effect of this change, averaged over all orders in which the changes can be made
	Plain string  // "cut-off 2.5 mm instead of 0.8 mm"
}

// MostChanges is the largest number of changes that a ledger shares out. Each one doubles the evaluations.
const MostChanges = 10

// ErrTooManyChanges is returned for settings that differ in more than MostChanges aspects.
var ErrTooManyChanges = errors.New("the settings differ in too many respects to split the difference")

// Explain evaluates symbol on the trace with the settings a and b and shares the difference out among what differs
// between them. The share of a change is its mean effect over all orders (the Shapley value); every combination of
// changes is evaluated once, so shares are exact, and they add up to the whole difference.
//
// A name that the other edition spells differently is followed there. The error is that of an evaluation, or says which
// combination leaves the value undefined.
func Explain(ctx context.Context, p roughness.Profile, a, b *roughness.Settings, symbol string) (*Ledger, error) {
	ea, err := roughness.Evaluate(p, a.Only(symbol))
	if err != nil {
		return nil, err
	}
	complete, err := roughness.Complete(b)
	if err != nil {
		return nil, err
	}
	nameB, err := respell(&ea.Settings, complete, symbol)
	if err != nil {
		return nil, err
	}
	eb, err := roughness.Evaluate(p, b.Only(nameB))
	if err != nil {
		return nil, err
	}
	list := relevant(ea, eb)
	if len(list) > MostChanges {
		return nil, fmt.Errorf("%w: %d, at most %d", ErrTooManyChanges, len(list), MostChanges)
	}
	v := make([]float64, 1<<len(list))
	err = parallel.Do(ctx, len(v), func(mask int) error {
		s := ea.Settings
		for i, x := range list {
			if mask>>i&1 == 1 {
				x.Make(&s, &eb.Settings)
			}
		}
		name, err := respell(&ea.Settings, &s, symbol)
		if err != nil {
			return err
		}
		e, err := roughness.Evaluate(p, s.Only(name))
		if err != nil {
			return fmt.Errorf("with the changes %s: %w", keys(list, mask), err)
		}
		v[mask] = e.Values[0].Value
		if math.IsNaN(v[mask]) {
			return fmt.Errorf("compare: with the changes %s, %s is undefined: %s", keys(list, mask), name, e.Values[0].Reason)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	l := &Ledger{Symbol: symbol, A: ea.Values[0], B: eb.Values[0]}
	before := v[0]
	for i, x := range list {
		after := v[1<<(i+1)-1]
		l.Entries = append(l.Entries, Entry{Change: x, Plain: Plain(x, &ea.Settings, &eb.Settings),
			After: after, Step: after - before, Share: share(v, i, len(list))})
		before = after
	}
	return l, nil
}

// Largest returns the entry with the largest share, nil where nothing differs.
func (l *Ledger) Largest() *Entry {
	var most *Entry
	for i := range l.Entries {
		if e := &l.Entries[i]; most == nil || math.Abs(e.Share) > math.Abs(most.Share) {
			most = e
		}
	}
	return most
}

// Show prints a value or a part of the difference with as many decimals as show three digits of the whole difference, at least those of the
// value and at most six.
func (l *Ledger) Show(v float64) string {
	d := 3
	if whole := math.Abs(l.B.Value - l.A.Value); whole > 0 {
		d = min(6, max(d, 2-exponent(whole)))
	}
	if math.Abs(l.A.Value) >= 100 {
		d = min(d, 2)
	}
	return standards.RoundHalfUp(v, d)
}

// Sentence says what the difference is and where most of it comes from.
func (l *Ledger) Sentence() string {
	unit := ""
	if l.A.Unit != "" {
		unit = " " + string(l.A.Unit)
	}
	most := l.Largest()
	if most == nil {
		return fmt.Sprintf("%s is %s%s both times. There is no difference between the settings that matters for it.", l.Symbol, l.Show(l.A.Value), unit)
	}
	if l.A.Value == l.B.Value && most.Share == 0 {
		return fmt.Sprintf("%s is %s%s both times, although the settings differ.", l.Symbol, l.Show(l.A.Value), unit)
	}
	sign := func(v float64) string {
		if v > 0 {
			return "+" + l.Show(v)
		}
		return l.Show(v)
	}
	return fmt.Sprintf("%s is %s%s and %s%s: a difference of %s%s. The largest part, %s%s, comes from %s. Neither side is wrong: the requirement decides which settings count.",
		l.Symbol, l.Show(l.A.Value), unit, l.Show(l.B.Value), unit, sign(l.B.Value-l.A.Value), unit, sign(most.Share), unit, most.Plain)
}

// relevant are the changes between two evaluations of one parameter but for those that cannot touch its value on this trace: the bridge
// where there is no gap, and the filter for stratified surfaces where the parameter is not measured behind it. They are defaults that
// follow from other settings.
func relevant(a, b *roughness.Evaluation) []roughness.Change {
	var kept []roughness.Change
	for _, x := range roughness.Changes(&a.Settings, &b.Settings) {
		if x.Key == "gaps.bridge" && a.Invalid == 0 && len(a.Settings.Exclude)+len(b.Settings.Exclude) == 0 ||
			x.Key == "choices.stratified_filter" && a.Stratified == nil && b.Stratified == nil {
			continue
		}
		kept = append(kept, x)
	}
	return kept
}

// share is the mean effect of change i over all orders of n changes; v holds the value of every combination.
func share(v []float64, i, n int) float64 {
	// a combination of k other changes stands before i in k!(n-k-1)! of the n! orders
	weight := make([]float64, n)
	weight[0] = 1 / float64(n)
	for k := 1; k < n; k++ {
		weight[k] = weight[k-1] * float64(k) / float64(n-k)
	}
	sum := 0.0
	for mask := range v {
		if mask>>i&1 == 0 {
			sum += float64(weight[bits.OnesCount(uint(mask))] * (v[mask|1<<i] - v[mask]))
		}
	}
	return sum
}

func keys(list []roughness.Change, mask int) string {
	var names []string
	for i, x := range list {
		if mask>>i&1 == 1 {
			names = append(names, x.Key)
		}
	}
	return fmt.Sprint(names)
}

// respell returns the name that the edition and profile of b have for the parameter called symbol in those of a. Both settings are complete.
func respell(a, b *roughness.Settings, symbol string) (string, error) {
	fail := func(format string, args ...any) (string, error) {
		return "", &roughness.SettingError{Key: "parameters[0]", Err: fmt.Errorf(format, args...)}
	}
	c, err := params.Lookup(a.Edition, byte(a.Profile), symbol)
	if err != nil {
		return fail("%v", err)
	}
	if a.Edition == b.Edition && a.Profile == b.Profile {
		return symbol, nil
	}
	for _, other := range params.Defaults(b.Edition, byte(b.Profile)) {
		if other.Parameter.Key == c.Parameter.Key {
			other.Args = c.Args
			return other.String(), nil
		}
	}
	return fail("%s has no parameter like %s", b.Edition, symbol)
}
