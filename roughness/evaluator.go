package roughness

import (
	"context"
	"runtime"
	"sync"
)

// An Evaluator evaluates traces with settings that are looked at once. It keeps its work space for the next trace, and of the latest
// traces the steps that it has taken: evaluated again under other settings ([Evaluator.With]), the same trace goes through only
// those steps whose own settings, or whose input, have changed. A moved cut-off repeats neither the S-filter nor the form.
//
// An Evaluator does not change, and may be used by several goroutines at once; each call takes a work space of its own. As many work
// spaces as there were calls at one time, at most one for each core, stay with the Evaluator; each holds up to eleven profiles of the
// longest trace that it has seen.
//
// Nothing is shared: an Evaluation belongs to the caller, and neither the settings nor the trace that were given, nor a later call,
// can change it. The caller may change them at any time between calls.
type Evaluator struct {
	plan *plan
	idle *idle
}

// NewEvaluator fills in the settings (nil for the defaults) and returns an Evaluator for them. Settings that cannot be followed give
// a *SettingError.
func NewEvaluator(s *Settings) (*Evaluator, error) {
	return (*Evaluator)(nil).With(s)
}

// With returns an Evaluator for other settings that goes on with the work spaces of this one, and so with the steps that it has taken.
// Both can be used. On a nil Evaluator it is [NewEvaluator], with its error.
func (ev *Evaluator) With(s *Settings) (*Evaluator, error) {
	plan, err := resolve(s)
	if err != nil {
		return nil, err
	}
	places := &idle{}
	if ev != nil {
		places = ev.idle
	}
	return &Evaluator{plan: plan, idle: places}, nil
}

// Settings returns the settings with every default filled in that does not follow from the trace. They are a copy.
func (ev *Evaluator) Settings() *Settings { return ev.plan.set.clone() }

// SettingsAt returns the settings for a trace of the given spacing: without the S-filter where the points stand too far apart for it.
func (ev *Evaluator) SettingsAt(spacing float64) *Settings { return ev.plan.at(spacing).set.clone() }

// Evaluate takes the trace through the order of operations of the package comment. The errors are those of the function [Evaluate],
// and that of the context: when it ends, Evaluate returns at once, without an evaluation; the step in hand is finished in the
// background and dropped.
func (ev *Evaluator) Evaluate(ctx context.Context, p Profile) (*Evaluation, error) {
	return ev.evaluate(ctx, p, true)
}

// Measure is Evaluate for a steady stream of traces of which the values are asked for: the Evaluation holds all but the
// profiles, the origins and the notes.
func (ev *Evaluator) Measure(ctx context.Context, p Profile) (*Evaluation, error) {
	return ev.evaluate(ctx, p, false)
}

// evaluate makes the evaluation in a work space, whole or bare.
func (ev *Evaluator) evaluate(ctx context.Context, p Profile, whole bool) (*Evaluation, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	b := ev.idle.take()
	b.receive(p)
	p.Z = b.raw
	plan := ev.plan.at(p.Spacing)
	if ctx.Done() == nil {
		return ev.work(ctx, p, plan, b, whole)
	}
	return ev.beside(ctx, p, plan, b, whole)
}

// work makes the evaluation and gives the work space back.
func (ev *Evaluator) work(ctx context.Context, p Profile, plan *plan, b *workplace, whole bool) (*Evaluation, error) {
	e := plan.evaluation(p, whole)
	err := e.run(ctx, p, plan, b)
	if whole {
		e.own()
	} else {
		e.strip()
	}
	ev.idle.give(b)
	if ended := ctx.Err(); ended != nil {
		return nil, ended
	}
	return e, err
}

// beside does the work in a goroutine of its own, so that the end of the context need not wait for it.
func (ev *Evaluator) beside(ctx context.Context, p Profile, plan *plan, b *workplace, whole bool) (*Evaluation, error) {
	type outcome struct {
		e        *Evaluation
		err      error
		panicked any
	}
	done := make(chan outcome, 1)
	go func() {
		var o outcome
		defer func() { done <- o }()
		defer func() { o.panicked = recover() }()
		o.e, o.err = ev.work(ctx, p, plan, b, whole)
	}()
	select {
	case <-ctx.Done():
		return nil, ctx.Err()
	case o := <-done:
		if o.panicked != nil {
			panic(o.panicked)
		}
		return o.e, o.err
	}
}

// idle are the work spaces that are not in use, the latest one last.
type idle struct {
	mu   sync.Mutex
	free []*workplace
}

func (s *idle) take() *workplace {
	s.mu.Lock()
	defer s.mu.Unlock()
	n := len(s.free)
	if n == 0 {
		return &workplace{}
	}
	b := s.free[n-1]
	s.free = s.free[:n-1]
	return b
}

func (s *idle) give(b *workplace) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.free) < runtime.GOMAXPROCS(0) {
		s.free = append(s.free, b)
	}
}
