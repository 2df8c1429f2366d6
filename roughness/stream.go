package roughness

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"

	"example.com/furrow/filter"
	"example.com/furrow/params"
)

// A LongProfile is a trace that is too long to hold: a road, a roll, a strip.
type LongProfile struct {
	// Heights fills z with the next heights, in µm, NaN for an invalid point. Like an [io.Reader] it returns how many there were, and
	// [io.EOF] behind the last. [example.com/furrow/roughness/tracefile.Floats] and Lines make one from bytes and from text.
	Heights func(z []float64) (n int, err error)
	Spacing float64
	// Points is the number of heights, 0 when it is not known. It is needed where the settings do not say where the sections start.
	Points int
	Traced Traced
}

// EvaluateLong evaluates a trace while it is read, in memory that depends on the filters and the sections, not on the length (and a hundred bytes
// for each section). The values, with those of the sections, are those of [Evaluator.Evaluate] on the whole trace but for rounding,
// 1e-12 of a value; profiles there are none.
//
// What needs the whole trace is refused. Settings that do are a *SettingError: a filter but the Gaussian and the Gaussian regression, a
// form of which the roughness profile is not free in any case, a waviness limit, parts left out, an end cropped, and sections in the middle
// of a trace of unknown length. A parameter that needs all heights at once has the reason in place of a value ([params.Running] says which
// do not). Other errors are those of Evaluate, and that of Heights as it came. The context is looked at from block to block.
func (ev *Evaluator) EvaluateLong(ctx context.Context, p LongProfile) (*Evaluation, error) {
	plan := ev.plan.at(p.Spacing)
	if err := plan.refuseLong(p); err != nil {
		return nil, err
	}
	l := &long{plan: plan, trace: p, e: plan.evaluation(Profile{Spacing: p.Spacing, Traced: p.Traced}, true)}
	err := l.run(ctx)
	if foreign := (*sourceError)(nil); errors.As(err, &foreign) {
		return nil, foreign.err
	}
	if err != nil {
		l.e.undefined(plan, err)
		return l.e, err
	}
	l.e.explainValues(plan)
	l.e.refuseSkid(plan)
	return l.e, nil
}

// refuseLong refuses settings that need the whole trace.
func (p *plan) refuseLong(trace LongProfile) error {
	s := &p.set
	for _, b := range []struct {
		key  string
		band Band
		by   filter.Filter
	}{{"short", s.Short, p.short}, {"long", s.Long, p.long}} {
		local, ok := b.by.(filter.Local)
		if ok {
			_, ok = local.Reach(trace.Spacing)
		}
		if b.by != nil && !ok {
			return settingErrorf(b.key+".filter", "the filter %s needs the whole trace at once; a trace that is read in blocks can have a Gaussian", b.band.Spec.Filter)
		}
	}
	degree, simple := map[string]int{"none": -1, "mean": 0, "line": 1}[s.Form.Kind]
	if local, ok := p.long.(filter.Local); degree >= 0 || !simple {
		if free := simple && s.Profile == R && ok && local.Keeps() >= degree; !free {
			return settingErrorf("form.kind", "the form (%s) is known when the whole trace has been read, and profile %s depends on it here; state none, or an L-filter whose treatment of the ends keeps it",
				s.Form, s.Profile)
		}
	}
	switch {
	case s.WavinessLimit > 0:
		return settingErrorf("waviness_limit", "is not available for a trace that is read in blocks")
	case len(s.Exclude) > 0:
		return settingErrorf("exclude", "is not available for a trace that is read in blocks; give the heights as missing")
	case s.Crop[1] > 0:
		return settingErrorf("crop", "the end of a trace that is read in blocks is not known before it comes; read up to it")
	case trace.Points == 0 && p.whole:
		return settingErrorf("section", "must be stated, or the number of points: a section is a share of the whole trace here")
	case trace.Points == 0 && s.Start == nil:
		return settingErrorf("start", "must be stated, or the number of points: the middle of the trace is known only at its end")
	}
	return nil
}

// long is an evaluation of a long trace in hand.
type long struct {
	plan  *plan
	trace LongProfile
	e     *Evaluation

	begun   bool
	last    float64 // the latest height
	missing int     // points without one since then
	ends    int     // of these, at the ends of the trace
	gaps    int
	bridged int
	peak    float64
	out     []float64 // mended heights that the filters have not had

	send    func(z []float64) error // to the first filter; the profile comes out at take
	close   []func() error          // of the filters, in their order
	at      int                     // points of the profile so far
	from    int                     // those that count
	to      int
	tail    []float64
	values  params.Running
	profile []float64 // a block of it
}

// longBlock is how many heights are read at once.
const longBlock = 1 << 14

// A sourceError is one of the reader or of the context: no fault of the trace.
type sourceError struct{ err error }

func (e *sourceError) Error() string { return e.err.Error() }

func (l *long) run(ctx context.Context) error {
	if err := checkSpacing(l.trace.Spacing); err != nil {
		return err
	}
	if err := l.connect(); err != nil {
		return err
	}
	block, idle := make([]float64, longBlock), 0
	for {
		if err := ctx.Err(); err != nil {
			return &sourceError{err}
		}
		n, end := l.trace.Heights(block)
		for _, v := range block[:n] {
			if err := l.enter(v); err != nil {
				return err
			}
		}
		if idle++; n > 0 {
			idle = 0
		}
		switch {
		case end == io.EOF:
			return l.finish()
		case end != nil:
			return &sourceError{end}
		case idle > 100:
			return &sourceError{io.ErrNoProgress}
		}
	}
}

// connect makes the filters: the S-filter hands its mean line to the L-filter, and that the profile to take.
func (l *long) connect() error {
	l.send = l.take
	if letter := l.plan.set.Profile; l.plan.long != nil && letter != P {
		take := l.send
		if err := l.before(l.plan.long, "L-filter", func(z, w []float64) error {
			if letter == W {
				return take(w)
			}
			l.profile = append(l.profile[:0], z...)
			for i, v := range w {
				l.profile[i] -= v
			}
			return take(l.profile)
		}); err != nil {
			return err
		}
	}
	if l.plan.short != nil {
		next := l.send
		return l.before(l.plan.short, "S-filter", func(_, w []float64) error { return next(w) })
	}
	return nil
}

// before puts a filter before those that are there.
func (l *long) before(f filter.Filter, name string, emit func(z, w []float64) error) error {
	of := func(err error) error {
		if p := (*ProfileError)(nil); err == nil || errors.As(err, &p) {
			return err
		}
		return filterError(name, err)
	}
	s, err := filter.NewStream(f.(filter.Local), l.trace.Spacing, emit)
	if err != nil {
		return of(err)
	}
	l.send = func(z []float64) error { return of(s.Write(z)) }
	l.close = append([]func() error{func() error { return of(s.Close()) }}, l.close...)
	return nil
}

// enter reads the next height as prepare does: turned over, cropped at the start, gaps bridged.
func (l *long) enter(v float64) error {
	e, s := l.e, &l.plan.set
	i := e.Points
	e.Points++
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		e.Invalid++
		v = math.NaN()
	case math.Abs(v) > MaxHeight:
		return tooHigh(i, v)
	default:
		l.peak = max(l.peak, math.Abs(v))
	}
	switch {
	case i < points(s.Crop[0], e.Spacing):
		return nil
	case math.IsNaN(v):
		l.missing++
		return nil
	case s.Invert:
		v = -v
	}
	switch {
	case !l.begun:
		l.begun, l.ends, e.First = true, l.missing, i
		if err := l.lay(); err != nil {
			return err
		}
	case l.missing > 0:
		if err := checkGap(i-l.missing, i, noHeight, e.Spacing, *s.Bridge); err != nil {
			return err
		}
		l.out = append(l.out, make([]float64, l.missing)...)
		straight(l.out[len(l.out)-l.missing:], l.last, v)
		l.gaps++
		l.bridged += l.missing
	}
	l.missing, l.last = 0, v
	if l.out = append(l.out, v); len(l.out) < longBlock {
		return nil
	}
	return l.flush()
}

func (l *long) flush() error {
	err := l.send(l.out)
	l.out = l.out[:0]
	return err
}

// unknownLength stands for the number of points when it is not known.
const unknownLength = math.MaxInt / 4

// lay lays the sections before the trace is read, as they come to lie if it is as long as stated.
func (l *long) lay() error {
	n := l.trace.Points - l.e.First
	if l.trace.Points == 0 {
		n = unknownLength
	}
	e := *l.e
	e.bare = true // notes are made at the end
	if err := l.place(&e, n); err != nil {
		return err
	}
	l.from, l.to = e.Start, e.End()
	l.values = params.Running{Input: params.Input{Dx: e.Spacing, Section: e.SectionPoints, Choices: e.Settings.Choices}, Calls: l.plan.calls}
	return nil
}

func (l *long) place(e *Evaluation, n int) error {
	head, tail := l.plan.cut(n, e.Spacing)
	return e.place(l.plan, n, head, tail)
}

// take takes the next points of the profile: those of the sections, and three on each side.
func (l *long) take(z []float64) error {
	cut := func(from, to int) []float64 {
		n := len(z)
		return z[min(max(from-l.at, 0), n):min(max(to-l.at, 0), n)]
	}
	if lead := cut(l.from-3, l.from); len(lead) > 0 {
		l.values.Input.Lead = append(l.values.Input.Lead, lead...)
	}
	l.values.Add(cut(l.from, l.to))
	l.tail = append(l.tail, cut(l.to, l.to+3)...)
	l.at += len(z)
	return nil
}

// finish goes on from the last height.
func (l *long) finish() error {
	e, s := l.e, &l.plan.set
	if !l.begun {
		if e.Points <= points(s.Crop[0], e.Spacing) {
			return nothingLeft(e.Points, s)
		}
		return nothingValid(e.Points)
	}
	if cut := l.ends + l.missing; cut > 0 {
		e.Notes = append(e.Notes, endsNote(cut))
	}
	if l.gaps > 0 {
		e.Notes = append(e.Notes, bridgedNote(l.bridged, l.gaps))
	}
	if err := l.flush(); err != nil {
		return err
	}
	for _, end := range l.close {
		if err := end(); err != nil {
			return err
		}
	}
	if err := l.place(e, l.at); err != nil {
		return err
	}
	if e.Start != l.from {
		return &ProfileError{Index: -1, Err: ErrStart, Text: fmt.Sprintf(
			"the trace ends with point %d, and %d were stated: the sections in the middle lie elsewhere; state where they start", e.First+l.at, l.trace.Points)}
	}
	l.values.Input.Flat = flat * l.peak
	e.Values = l.values.Values(e.Sections, l.tail)
	return nil
}
