package judge

import (
	"cmp"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

// maxLeftOut is the share of a section that may be missing (own choice).
const maxLeftOut = 0.1

// typedIn is the name of a value that comes from no trace.
const typedIn = "typed in"

// measuring takes the values for each limit of a requirement from the traces.
type measuring struct {
	j      *Judging
	asked  []*roughness.Settings // of each limit, complete
	used   []*roughness.Settings // of each limit, complete
	made   [][]*roughness.Evaluation
	agreed []Deviation
}

// settle finds what each limit asks for and what is used. A cut-off that the measured value finds is looked for on the first trace.
func (m *measuring) settle() error {
	if m.asked != nil {
		return nil
	}
	j, r := m.j, m.j.Requirement
	for i := range r.Items {
		s, err := r.onAll(j.Traces, i, nil, j.Periodic)
		if err != nil {
			return err
		}
		asked, err := roughness.Complete(s)
		if err != nil {
			return err
		}
		used := asked
		switch {
		case j.Settings != nil && (i == 0 || r.settingsFree):
			own := *j.Settings
			own.Parameters = s.Parameters
			if r.settingsFree { // a limit on P is judged on P
				own.Profile = s.Profile
			}
			if used, err = roughness.Complete(&own); err != nil { // the edition may have no such parameter
				own.Parameters = nil
				used, err = roughness.Complete(&own)
			}
			if err != nil {
				return err
			}
		case i > 0:
			used = laid(asked, m.asked[0], m.used[0])
		}
		if r.settingsFree {
			asked = used
			if r.drawing != nil {
				drawn, err := r.drawing.asked(j.Traces, s, &r.Items[i])
				if err != nil {
					return err
				}
				if drawn != nil {
					asked = drawn
				}
			}
		}
		m.asked, m.used = append(m.asked, asked), append(m.used, used)
	}
	m.made = make([][]*roughness.Evaluation, len(j.Traces))
	return nil
}

// evaluation returns the evaluation of a trace for limit i, made once for each kind of settings.
func (m *measuring) evaluation(t, i int) (*roughness.Evaluation, error) {
	name := m.name(i)
	fits := func(e *roughness.Evaluation) bool {
		if e == nil {
			return false
		}
		if _, ok := e.Value(name); !ok {
			return false
		}
		want, err := roughness.NewEvaluator(m.place(t, i))
		return err == nil && sameBut(&e.Settings, want.SettingsAt(e.Spacing))
	}
	if t < len(m.j.Done) && fits(m.j.Done[t]) {
		return m.j.Done[t], nil
	}
	for _, e := range m.made[t] {
		if fits(e) {
			return e, nil
		}
	}
	s := *m.place(t, i)
	s.Parameters = nil
	for k := range m.used {
		if k == i || sameBut(m.used[k], m.used[i]) {
			if n := m.name(k); !slices.Contains(s.Parameters, n) {
				s.Parameters = append(s.Parameters, n)
			}
		}
	}
	e, err := roughness.Evaluate(m.j.Traces[t], &s)
	if e == nil {
		return nil, err
	}
	m.made[t] = append(m.made[t], e) // a trace that cannot be evaluated has values with their reason
	return e, nil
}

// place are the settings for limit i on a trace: where on the trace it was looked at stays, for every limit.
func (m *measuring) place(t, i int) *roughness.Settings {
	s := *m.used[i]
	if t < len(m.j.Done) && m.j.Done[t] != nil {
		d := &m.j.Done[t].Settings
		s.Crop, s.Exclude, s.Start = d.Crop, d.Exclude, d.Start
	}
	return &s
}

// sameBut compares complete settings but for what does not change a value, and for section lengths that follow from the trace.
func sameBut(a, b *roughness.Settings) bool {
	for _, x := range roughness.Changes(a, b) {
		if x.Key == "section" && (a.SectionLength == 0 || b.SectionLength == 0) {
			continue
		}
		return false
	}
	return true
}

// name is the parameter of limit i as it is evaluated: a motif parameter carries its operator lengths.
func (m *measuring) name(i int) string {
	if p := m.j.Requirement.ItemSettings[i].Parameters; len(p) > 0 {
		return p[0]
	}
	return m.j.Requirement.Items[i].Symbol
}

// limit judges limit i.
func (m *measuring) limit(i int, common []Reason, blocked bool) (*LimitVerdict, error) {
	j := m.j
	item := &j.Requirement.Items[i]
	l := &LimitVerdict{Rule: item.Rule, Unit: item.Unit}
	if j.Rule != "" {
		l.Rule = j.Rule
	}
	l.Bound = standards.Bound{Symbol: item.Symbol, Side: item.Side, Value: item.Limit, Edition: item.Edition}
	l.Accept, l.Reject, l.Value = math.NaN(), math.NaN(), math.NaN()
	l.Open = slices.Clone(common)
	bound, bounded := item.Bounded()
	if bounded {
		l.Bound, l.Text, l.Unit = bound, decide.LimitWords(bound, item.LimitText, item.Unit), cmp.Or(item.Unit, bound.Kind().Unit())
		if bound.Symbol == "Ra" && bound.Side == standards.Upper {
			l.Grade = standards.GradeOf(bound.Value)
		}
	} else {
		l.Text = strings.TrimSpace(item.LimitText + " " + item.Unit)
	}
	if blocked || !bounded {
		l.none()
		return l, nil
	}
	if err := m.settle(); err != nil {
		return nil, err
	}
	l.Settings, l.Apart = m.used[i], i > 0 && !sameBut(m.used[i], m.used[0])
	if err := m.collect(l, i); err != nil {
		return nil, err
	}
	if err := m.judge(l, item); err != nil {
		return nil, err
	}
	return l, m.repeating(l, i)
}

// repeating keeps a verdict open that would be another one if the marks of the surface repeat, where the requirement states no cut-off:
// then the spacing of the marks asks for it, and which of the two rules holds cannot be determined from the values.
func (m *measuring) repeating(l *LimitVerdict, i int) error {
	r := m.j.Requirement
	if l.Word != decide.Conforms || m.j.Periodic || !r.searched(i, nil) || !sameBut(m.asked[i], m.used[i]) {
		return nil
	}
	other := *l
	other.Counted, other.Open = slices.Clone(l.Counted), nil
	longest := 0.0
	for t, p := range m.j.Traces {
		s, err := r.on(p, i, nil, true)
		if err != nil {
			return err
		}
		e, err := roughness.Evaluate(p, s.Only(m.name(i)))
		if err != nil || len(e.Values) == 0 || !finite(e.Values[0].Value) {
			continue
		}
		longest = max(longest, s.Long.Spec.Cutoff)
		other.Counted[t].Value = e.Values[0].Value // a verdict that conforms has a value of every trace, in their order
	}
	if err := m.judge(&other, &r.Items[i]); err != nil || other.Word == decide.Conforms || longest == 0 {
		return err
	}
	l.Open = append(l.Open, Reason{WhyRequirementOpen, fmt.Sprintf("The requirement states no cut-off. By the measured height it is %s. If the marks of the surface repeat, their spacing asks for %s, and then the surface does not clearly conform: state the cut-off.",
		standards.Length(m.used[i].Long.Spec.Cutoff), standards.Length(longest))})
	l.none()
	return nil
}

// none makes the word of what is open.
func (l *LimitVerdict) none() {
	slices.SortStableFunc(l.Open, func(a, b Reason) int { return slices.Index(whyOrder, a.Key) - slices.Index(whyOrder, b.Key) })
	l.Word, l.Sentence, l.Log = decide.NoVerdict, l.Open[0].Text, nil
	l.Why = &l.Open[0]
	l.N = len(l.Counted)
}

// collect takes the values of limit i, and what is wrong with them.
func (m *measuring) collect(l *LimitVerdict, i int) error {
	j := m.j
	open := func(key, format string, args ...any) {
		l.Open = append(l.Open, Reason{key, fmt.Sprintf(format, args...)})
	}
	var deviating []Deviation
	name := m.name(i)
	undefined := 0
	if len(j.Traces) > 0 || j.Settings != nil {
		deviating = deviations(m.asked[i], m.used[i], name)
	}
	for t, p := range j.Traces {
		deviating = add(deviating, shortened(p, m.asked[i], m.used[i])...)
		e, err := m.evaluation(t, i)
		if err != nil {
			if wrong, ok := err.(*roughness.SettingError); ok && len(deviating) > 0 && strings.HasPrefix(wrong.Key, "parameters") {
				undefined++ // another profile or edition, which has no such parameter: the deviation says so
				continue
			}
			return err
		}
		which := ""
		if len(j.Traces) > 1 {
			which = traceName(j.Traces, t) + ": "
		}
		v, _ := e.Value(name)
		if math.IsNaN(v.Value) {
			undefined++
			open(WhyUndefined, "%s%s is not defined on this trace: %s", which, l.Symbol, sentence(v.Reason))
			continue
		}
		if still(p.Z) {
			undefined++
			open(WhyUndefined, "%sAll heights are equal; the probe may not have moved.", which)
			continue
		}
		l.Counted = append(l.Counted, CountedValue{Name: traceName(j.Traces, t), Value: v.Value})
		if n := e.Settings.Sections; e.Sections < n {
			missing := float64(n-e.Sections) * e.Settings.SectionLength
			if room, err := roughness.RoomFor(p, &e.Settings); err == nil && room.Missing > 0 {
				missing = room.Missing
			}
			if j.Agreed == "" {
				open(WhySections, "%sThe trace holds %d of %d sections. %s are missing.", which, e.Sections, n, shortLength(missing))
			} else {
				m.agree(Deviation{Key: "sections", Asked: fmt.Sprint(n), Used: fmt.Sprint(e.Sections)})
			}
		}
		if off := m.asked[i].Short; !off.Off && !m.used[i].Short.Off && e.Settings.Short.Off && (!j.Requirement.settingsFree || j.Requirement.drawing != nil) {
			deviating = add(deviating, Deviation{Key: "short", Asked: off.Plain(), Used: "none"})
		}
		z, first := roughness.Entering(p, &e.Settings)
		if section, share := leftOut(e, z, first); share > maxLeftOut {
			open(WhyLeftOut, "%sA part of section %d is left out; more than 10 %% of the section is missing.", which, section)
		}
		if text := inspect.Clipped(z); text != "" && j.Agreed == "" {
			open(WhyDeviates, "%s%s", which, text)
		} else if text != "" {
			m.agree(clipped)
		}
	}
	for _, t := range j.Typed {
		if sameParameter(t, m.asked[i].Edition, name) {
			if t.From == "" && t.Unit == "" && l.Unit != "" && !l.OwnUnit(l.Unit) {
				return &TypedError{"", 1, fmt.Sprintf("the limit of %s is written in %s: write the unit of the value typed in", l.Symbol, l.Unit)}
			}
			c := CountedValue{Name: t.From, Value: t.Value}
			if c.Name == "" {
				c.Name, c.Typed = typedIn, true
			}
			l.Counted = append(l.Counted, c)
		}
	}
	if len(l.Counted)+undefined == 0 {
		of := ""
		if len(j.Typed) > 0 { // values, but none of this parameter
			of = " of " + l.Symbol
		}
		open(WhyNoValue, "Choose a trace or type in a value%s.", of)
	}
	if asked := j.Requirement.Items[i].Rule; j.Rule != "" && j.Rule != asked && !j.Requirement.settingsFree {
		deviating = add(deviating, Deviation{Key: "rule", Asked: string(asked), Used: string(j.Rule)})
	}
	deviating = add(deviating, j.Requirement.otherLimit(i)...)
	if asked, s := j.Requirement.Items[i].Evaluation, m.asked[i]; asked > 0 && s.SectionLength > 0 && len(j.Traces) > 0 {
		if made := float64(float64(s.Sections) * s.SectionLength); !standards.Near(made, asked) { // it went with another cut-off than the one found
			deviating = add(deviating, Deviation{Key: "evaluation", Asked: standards.Length(asked), Used: standards.Length(made)})
		}
	}
	switch {
	case len(deviating) == 0:
	case j.Agreed == "":
		open(WhyDeviates, "%s", deviatesWords(deviating))
	default:
		m.agree(deviating...)
	}
	return nil
}

// still reports whether all heights of a trace are one: those of a surface never are.
func still(z []float64) bool {
	first := math.NaN()
	for _, v := range z {
		if math.IsNaN(first) {
			first = v
		} else if v != first && finite(v) {
			return false
		}
	}
	return true
}

// shortLength prints a length that is missing, to a tenth of a millimetre.
func shortLength(v float64) string {
	if v < 100 {
		return standards.Length(v)
	}
	return strings.TrimSuffix(standards.RoundHalfUp(v/1000, 1), ".0") + " mm"
}

// add adds deviations that the list does not hold yet.
func add(list []Deviation, more ...Deviation) []Deviation {
	for _, d := range more {
		if !slices.Contains(list, d) {
			list = append(list, d)
		}
	}
	return list
}

// agree keeps deviations that a person has agreed to, each once.
func (m *measuring) agree(list ...Deviation) {
	for _, d := range list {
		d.With = m.j.Agreed
		m.agreed = add(m.agreed, d)
	}
}

// judge makes the word of limit l on its values.
func (m *measuring) judge(l *LimitVerdict, item *callout.Item) error {
	j := m.j
	guard := j.Guard
	switch u, reason, err := j.uncertainty(l, item); {
	case err != nil:
		return err
	case reason != nil:
		l.Open = append(l.Open, *reason)
	default:
		guard.Expanded, guard.Standard, l.U = u, 0, u
		if u == 0 {
			guard.Rule = decide.Simple
		}
	}
	each := "value"
	if len(l.Counted) > 0 && !slices.ContainsFunc(l.Counted, func(c CountedValue) bool { return c.Typed }) {
		each = "trace"
	}
	values := make([]float64, len(l.Counted))
	for k, c := range l.Counted {
		values[k] = c.Value
	}
	call, err := lookupAny(l.Bound.Edition, l.Symbol)
	v, err := decide.Judgement{Bound: l.Bound, Tolerance: j.tolerance(item), Rule: l.Rule, Guard: guard,
		Text: item.LimitText, Unit: item.Unit, Each: each, Positive: err == nil && cannot(call, -1) != ""}.Judge(values)
	if err != nil {
		return err
	}
	if v.Word == decide.NoVerdict && v.N > 0 {
		l.Open = append(l.Open, Reason{WhyMore, v.Sentence})
	}
	l.Ruling = v
	if len(l.Open) > 0 {
		log := v.Log
		l.none()
		if l.Why.Key == WhyMore {
			l.Log = log
		}
	}
	return nil
}

// tolerance is the distance to the nearest limit of the same parameter on the other side, 0 without one.
func (j *Judging) tolerance(item *callout.Item) float64 {
	nearest := 0.0
	for k := range j.Requirement.Items {
		o := &j.Requirement.Items[k]
		if b, ok := o.Bounded(); ok && o.Side != item.Side && sameSymbol(item.Edition, o.Symbol, item.Symbol) {
			if d := math.Abs(b.Value - item.Limit); nearest == 0 || d < nearest {
				nearest = d
			}
		}
	}
	return nearest
}

// uncertainty finds the expanded uncertainty for a limit, in the unit of the values.
func (j *Judging) uncertainty(l *LimitVerdict, item *callout.Item) (float64, *Reason, error) {
	if len(j.U) == 0 || j.Guard.Rule == decide.Simple {
		return 0, nil, nil
	}
	var symbols []string
	for k := range j.Requirement.Items {
		s := j.Requirement.Items[k].Symbol
		if !slices.ContainsFunc(symbols, func(have string) bool { return sameSymbol(item.Edition, s, have) }) {
			symbols = append(symbols, s)
		}
	}
	several := len(symbols) > 1
	for _, u := range j.U {
		if u.Symbol == "" && several || u.Symbol != "" && !sameSymbol(item.Edition, u.Symbol, item.Symbol) {
			continue
		}
		unit := u.Unit
		if unit == "" {
			unit = item.Unit
		}
		v, ok := l.ToOwnUnit(u.Value, unit)
		if !ok {
			return 0, nil, &TypedError{"u", max(1, u.column), fmt.Sprintf("an uncertainty of %s cannot be in %s", item.Symbol, unit)}
		}
		if !(v >= 0) || !finite(v) {
			return 0, nil, fmt.Errorf("judge: %w", decide.ErrUncertainty)
		}
		return v, nil, nil
	}
	if !several {
		return 0, &Reason{WhyUncertainty, "The uncertainty is given for another parameter than " + item.Symbol + "."}, nil
	}
	return 0, &Reason{WhyUncertainty, "There are limits on " + strings.Join(symbols, " and ") + ": state an uncertainty for each."}, nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func settingErrorf(key, format string, args ...any) error {
	return &roughness.SettingError{Key: key, Err: fmt.Errorf(format, args...)}
}
