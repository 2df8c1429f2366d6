package roughness

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/bits"

	"example.com/furrow/params"
)

// A Ledger explains why one value differs between two settings on one trace.
type Ledger struct {
	Symbol  string // as in the first settings
	A, B    Value
	Entries []Entry // in the order of the evaluation
}

// An Entry is one change between the two settings and what it does to the value.
type Entry struct {
	Change
	After float64 // the value when this change and all before it are made
	Step  float64 // After less the value before
	Share float64 // the effect of this change, averaged over all orders in which the changes can be made
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
func Explain(ctx context.Context, p Profile, a, b *Settings, symbol string) (*Ledger, error) {
	ea, err := evaluateOne(p, a, symbol)
	if err != nil {
		return nil, err
	}
	nameB, err := respell(ea.Settings.Edition, edition(b), ea.Settings.Profile, letter(b), symbol)
	if err != nil {
		return nil, err
	}
	eb, err := evaluateOne(p, b, nameB)
	if err != nil {
		return nil, err
	}
	list := relevant(changes(&ea.Settings, &eb.Settings), ea, eb)
	if len(list) > MostChanges {
		return nil, fmt.Errorf("%w: %d, at most %d", ErrTooManyChanges, len(list), MostChanges)
	}
	v := make([]float64, 1<<len(list))
	err = parallel(ctx, len(v), func(mask int) error {
		s := ea.Settings
		for i, x := range list {
			if mask>>i&1 == 1 {
				x.copy(&s, &eb.Settings)
			}
		}
		name, err := respell(ea.Settings.Edition, s.Edition, ea.Settings.Profile, s.Profile, symbol)
		if err != nil {
			return err
		}
		e, err := evaluateOne(p, &s, name)
		if err != nil {
			return fmt.Errorf("with the changes %s: %w", keys(list, mask), err)
		}
		v[mask] = e.Values[0].Value
		if math.IsNaN(v[mask]) {
			return fmt.Errorf("roughness: with the changes %s, %s is undefined: %s", keys(list, mask), name, e.Values[0].Reason)
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
		l.Entries = append(l.Entries, Entry{Change: x.change(&ea.Settings, &eb.Settings),
			After: after, Step: after - before, Share: share(v, i, len(list))})
		before = after
	}
	return l, nil
}

// relevant drops changes that cannot touch this value on this trace: the bridge where there is no gap, and the filter for
// stratified surfaces where the parameter is not measured behind it. They are defaults that follow from other settings.
func relevant(list []aspect, a, b *Evaluation) []aspect {
	var kept []aspect
	for _, x := range list {
		if x.key == "gaps.bridge" && a.Invalid == 0 && len(a.Settings.Exclude)+len(b.Settings.Exclude) == 0 ||
			x.key == "choices.stratified_filter" && a.Stratified == nil && b.Stratified == nil {
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

func keys(list []aspect, mask int) string {
	var names []string
	for i, x := range list {
		if mask>>i&1 == 1 {
			names = append(names, x.key)
		}
	}
	return fmt.Sprint(names)
}

// evaluateOne evaluates a single parameter.
func evaluateOne(p Profile, s *Settings, symbol string) (*Evaluation, error) {
	one := Settings{}
	if s != nil {
		one = *s
	}
	one.Parameters = []string{symbol}
	return Evaluate(p, &one)
}

func edition(s *Settings) string {
	if s == nil || s.Edition == "" {
		return defaultEdition
	}
	return s.Edition
}

func letter(s *Settings) Letter {
	if s == nil || s.Profile == 0 {
		return R
	}
	return s.Profile
}

// respell returns the name that another edition (or profile) has for the parameter called symbol in the first.
func respell(from, to string, fromLetter, toLetter Letter, symbol string) (string, error) {
	c, err := params.Lookup(from, byte(fromLetter), symbol)
	if err != nil {
		return "", settingErrorf("parameters[0]", "%v", err)
	}
	if from == to && fromLetter == toLetter {
		return symbol, nil
	}
	for _, other := range params.Defaults(to, byte(toLetter)) {
		if other.Parameter.Key == c.Parameter.Key {
			other.Args = c.Args
			return other.String(), nil
		}
	}
	return "", settingErrorf("parameters[0]", "%s has no parameter like %s", to, symbol)
}
