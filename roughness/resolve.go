package roughness

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// plan is what the settings come to: every default filled in, every choice with its origin.
type plan struct {
	set        Settings
	origins    map[string]callout.Origin
	notes      []Note
	calls      []params.Call
	stratified *FilterSpec // the edition's own filter for stratified surfaces, when the settings state no L-filter
	whole      bool        // a section is the whole remaining trace, divided by the number of sections

	short, long, behind, twoRC, limit filter.Filter // built; nil where there is none; behind makes the profile for stratified surfaces
	shape                             filter.Form
	groups                            []group // the calls by the profile that they are measured on
}

// A group is what is measured on one profile.
type group struct {
	on    params.On
	calls []params.Call
	at    []int // their places among all
}

// DefaultEdition holds where none is named.
const DefaultEdition = "iso-21920"

// resolve fills the settings. It reports what is wrong with the settings themselves as a *SettingError; the trace is looked at later.
// The plan shares no memory with the settings, and stays as it is.
func resolve(s *Settings) (*plan, error) {
	p := &plan{origins: map[string]callout.Origin{}}
	if s != nil {
		p.set = *s.clone()
	}
	for i := range fields {
		if f := &fields[i]; f.otherwise != "" {
			p.origin(f.Key, f.Stated(&p.set), own(f.otherwise))
		}
	}
	id := cmp.Or(p.set.Edition, DefaultEdition)
	ed, ok := standards.EditionByID(id)
	if !ok {
		return nil, settingErrorf("edition", "no edition is called %q; there are %s", id, standards.EditionNames(standards.EditionIDs()))
	}
	p.set.Edition = id
	if err := p.check("profile", "input", "choices.stratified_filter"); err != nil {
		return nil, err
	}
	p.set.Profile = cmp.Or(p.set.Profile, R)
	for _, step := range []func(standards.Edition) error{p.preparation, p.form, p.bands, p.gaps, p.lengths, p.parameters} {
		if err := step(ed); err != nil {
			return nil, err
		}
	}
	p.build()
	return p, nil
}

// build makes the filters and groups the calls.
func (p *plan) build() {
	if !p.set.Short.Off {
		p.short = p.set.Short.Spec.New()
	}
	if !p.set.Long.Off {
		p.long = p.set.Long.Spec.New()
	}
	p.shape = p.set.Form.build()
	if p.set.WavinessLimit > 0 {
		p.limit = filter.Gaussian{Cutoff: p.set.WavinessLimit}
	}
	for i, c := range p.calls {
		k := slices.IndexFunc(p.groups, func(g group) bool { return g.on == c.Parameter.On })
		if k < 0 {
			k = len(p.groups)
			p.groups = append(p.groups, group{on: c.Parameter.On})
		}
		g := &p.groups[k]
		g.calls, g.at = append(g.calls, c), append(g.at, i)
		switch {
		case g.on == params.Stratified && p.stratified != nil:
			p.behind = p.stratified.New()
		case g.on == params.TwoRC && p.set.Long.Spec.Cutoff > 0 && p.set.Long.Spec.Filter != "two-rc":
			p.twoRC = filter.TwoRC{Cutoff: p.set.Long.Spec.Cutoff}
		}
	}
}

// Complete returns the settings with every default filled in that does not follow from the trace. s may be nil.
func Complete(s *Settings) (*Settings, error) {
	plan, err := resolve(s)
	if err != nil {
		return nil, err
	}
	return &plan.set, nil
}

func (p *plan) origin(key string, isGiven bool, otherwise callout.Origin) {
	if isGiven {
		otherwise = p.stated(key)
	}
	p.origins[key] = otherwise
}

// stated is the origin of a setting that was given: by hand, or by a requirement.
func (p *plan) stated(key string) callout.Origin {
	if from, ok := p.set.From[key]; ok {
		return from
	}
	return setHere("set here")
}

// setHere is the origin of what a person chose.
func setHere(text string) callout.Origin {
	return callout.Origin{From: callout.SetHere, Text: text}
}

// own is the origin of what is chosen here because no standard says it.
func own(text string) callout.Origin {
	return callout.Origin{Ref: standards.Ref{Basis: standards.OwnChoice}, From: callout.SetHere, Text: text}
}

// OriginOf is the origin of a default that stands in a document, if one is known.
func OriginOf(r standards.Ref, text string) callout.Origin {
	if r.Doc == "" || r.Basis == standards.OwnChoice {
		o := own(text)
		o.Ref.Doc, o.Ref.Clause = r.Doc, r.Clause
		return o
	}
	return callout.Origin{Ref: r, From: callout.FromStandard, Text: text}
}

func (p *plan) note(code, format string, args ...any) {
	p.notes = append(p.notes, Note{Code: code, Text: fmt.Sprintf(format, args...)})
}

// check refuses settings that alone cannot be what they are.
func (p *plan) check(keys ...string) error {
	for _, key := range keys {
		if err := fieldOf(key).check(&p.set); err != nil {
			return err
		}
	}
	return nil
}

func (p *plan) preparation(standards.Edition) error {
	for i, c := range p.set.Crop {
		if !(c >= 0) || !finite(c) {
			return settingErrorf("crop", "entry %d must be a length, 0 or more", i+1)
		}
	}
	for i, e := range p.set.Exclude {
		key := fmt.Sprintf("exclude[%d]", i)
		if !finite(e.From) || !finite(e.To) || e.From > e.To {
			return settingErrorf(key, "must run from one place to a later one")
		}
		if strings.TrimSpace(e.Reason) == "" {
			return settingErrorf(key+".reason", "is missing: a part is left out for a reason that stays in the record")
		}
	}
	return nil
}

func (p *plan) form(standards.Edition) error {
	if err := p.set.Form.check(); err != nil {
		return err
	}
	p.origin("form.kind", p.set.Form.Kind != "", own("least-squares line, because none is named"))
	if p.set.Input != Raw {
		if k := p.set.Form.Kind; k != "" && k != "none" {
			p.note("ignored", "The heights are %s: the form %q is not removed.", p.set.Input, k)
		}
		p.set.Form = FormSpec{Kind: "none"}
		p.origins["form.kind"] = setHere("the heights are " + p.set.Input.String())
	}
	if p.set.Form.Kind == "" {
		p.set.Form.Kind = "line"
	}
	return nil
}

// bands determines the S-filter and the L-filter.
func (p *plan) bands(ed standards.Edition) error {
	longOnly := p.set.Long.Given() && !p.set.Short.Given()
	for _, b := range []struct {
		key    string
		band   *Band
		own    standards.FilterKey
		cutoff float64
		source standards.Ref
	}{
		{"short", &p.set.Short, ed.Short, ed.Default.Short, ed.Columns.Short},
		{"long", &p.set.Long, ed.Long, ed.Default.Long, ed.Columns.Long},
	} {
		isGiven := b.band.Given()
		switch {
		case p.set.Input == Filtered:
			if isGiven && !b.band.Off {
				p.note("ignored", "The heights are already filtered: the setting %s is not used.", b.key)
			}
			*b.band = Band{Off: true}
			p.origins[b.key] = setHere("the heights are filtered")
			continue
		case !isGiven && b.own.Name == "":
			*b.band = Band{Off: true}
			p.origins[b.key] = callout.Origin{Ref: b.source, From: callout.FromStandard, Text: ed.Title + " has none"}
			continue
		case !isGiven:
			b.band.Spec = specOf(b.own, b.cutoff)
		case b.band.Off:
			p.origins[b.key] = p.stated(b.key)
			continue
		}
		kind := isGiven && b.band.Spec.Filter != ""
		if b.band.Spec.Filter == "" {
			own := specOf(b.own, 0)
			if b.own.Name == "" {
				own.Filter = "gaussian"
			}
			b.band.Spec.Filter = own.Filter
			if b.band.Spec.Order == nil {
				b.band.Spec.Order = own.Order
			}
		}
		var wrong *filter.OptionError
		if errors.As(b.band.Spec.Check(), &wrong) {
			return settingErrorf(b.key+"."+wrong.Key, "%s", wrong.Text)
		}
		p.origin(b.key+".filter", kind, origin(b.own.Source, ed))
		p.origin(b.key+".cutoff", isGiven, origin(b.source, ed))
		b.band.Spec = b.band.Spec.Complete()
		if b.key == "long" {
			p.chooseStratified(ed, kind)
		}
	}
	if p.set.Stratified == "" || p.set.Long.Off {
		p.set.Stratified = StratifiedByLong
	}
	if short, long := p.set.Short.Spec.Cutoff, p.set.Long.Spec.Cutoff; short > 0 && long > 0 && short >= long {
		if longOnly {
			return settingErrorf("long.cutoff", "%g µm is not longer than the cut-off of the S-filter, %g µm; lengths are micrometres", long, short)
		}
		return settingErrorf("short.cutoff", "must be shorter than the cut-off of the L-filter, %g µm", long)
	}
	if err := p.check("waviness_limit"); err != nil {
		return err
	}
	if w := p.set.WavinessLimit; w != 0 && !p.set.Long.Off && w <= p.set.Long.Spec.Cutoff {
		return settingErrorf("waviness_limit", "must be longer than the cut-off of the L-filter, %g µm", p.set.Long.Spec.Cutoff)
	}
	if p.set.Long.Off && p.set.Input != Filtered {
		if p.set.Profile == R && ed.Long.Name != "" {
			p.note("no-long", "No L-filter is used: the roughness profile is the primary profile.")
		}
	}
	return nil
}

// chooseStratified determines which filter makes the profile for stratified surfaces: the edition's own as long as the
// settings state no kind of L-filter, or where they ask for it.
func (p *plan) chooseStratified(ed standards.Edition, kindGiven bool) {
	own, cutoff := ed.Stratified, p.set.Long.Spec.Cutoff
	stated := p.set.Stratified != ""
	if !stated && !kindGiven {
		p.set.Stratified = StratifiedByEdition
	}
	if p.set.Stratified != StratifiedByEdition || own.Name == "" || p.set.Profile != R || cutoff == 0 {
		return
	}
	spec := specOf(own, cutoff).Complete()
	p.stratified = &spec
	if !stated {
		p.origins["choices.stratified_filter"] = origin(own.Source, ed)
	}
}

// BandOf returns the band of a filter that a standard names, at a cut-off; off without a name.
func BandOf(k standards.FilterKey, cutoff float64) Band {
	if k.Name == "" {
		return Band{Off: true}
	}
	return Band{Spec: specOf(k, cutoff)}
}

func specOf(k standards.FilterKey, cutoff float64) FilterSpec {
	s := FilterSpec{Filter: k.Name, Cutoff: cutoff}
	if k.Order != 0 {
		s.Order = &k.Order
	}
	return s
}

// origin says where a default of the edition comes from.
func origin(r standards.Ref, ed standards.Edition) callout.Origin {
	text := "default"
	if ed.Default.Name != "" {
		text += " class " + ed.Default.Name
	}
	return OriginOf(r, text)
}

// at returns the plan for a trace of the given spacing: without the S-filter where the points stand too far apart for it, because a
// kernel needs four of them.
func (p *plan) at(spacing float64) *plan {
	c := p.set.Short.Spec.Cutoff
	if p.set.Short.Off || !(spacing > c/4) || c == 0 {
		return p
	}
	q := *p
	q.set.Short, q.short = Band{Off: true}, nil
	q.origins, q.notes = maps.Clone(p.origins), slices.Clone(p.notes)
	delete(q.origins, "short.filter")
	delete(q.origins, "short.cutoff")
	q.origins["short"] = own(fmt.Sprintf("left out: the spacing of %.6g µm is more than a quarter of the cut-off of %.6g µm", spacing, c))
	q.note("short-left-out", "The S-filter of %.6g µm is left out: the spacing of %.6g µm is more than a quarter of it.", c, spacing)
	return &q
}

func (p *plan) gaps(standards.Edition) error {
	if p.set.Bridge == nil {
		b := p.set.Long.Spec.Cutoff / 2
		if b == 0 {
			b = DefaultBridge
			p.origins["gaps.bridge"] = own("without an L-filter")
		}
		p.set.Bridge = &b
	}
	return p.check("gaps.bridge")
}

func (p *plan) lengths(ed standards.Edition) error {
	if err := p.check("sections", "section", "start"); err != nil {
		return err
	}
	l := p.set.SectionLength
	cutoff := 0.0
	oneWaviness := p.set.Profile == W && ed.ID == DefaultEdition
	if p.set.Profile != P && !oneWaviness && !p.set.Long.Off {
		cutoff = p.set.Long.Spec.Cutoff
	}
	sections := 5
	switch {
	case l != 0:
		p.origins["section"] = p.stated("section")
	case cutoff > 0:
		p.set.SectionLength = cutoff
		p.origins["section"] = OriginOf(ed.Columns.Section, "the cut-off of the L-filter")
	default:
		p.whole = true
		p.origins["section"] = own("the whole remaining trace, divided by the number of sections")
		sections = 1
	}
	p.origin("sections", p.set.Sections != 0, origin(ed.Columns.Sections, ed))
	if p.set.Sections == 0 {
		p.set.Sections = sections
		switch {
		case sections == 1 && oneWaviness:
			p.origins["sections"] = callout.Origin{Ref: standards.Ref{Doc: "ISO 21920-3:2021", Basis: standards.Memory}, From: callout.FromStandard, Text: "waviness in one section"}
		case sections == 1:
			p.origins["sections"] = own("one section without an L-filter")
		}
	}
	return nil
}

func (p *plan) parameters(standards.Edition) error {
	letter := byte(p.set.Profile)
	if len(p.set.Parameters) == 0 {
		p.calls = params.Defaults(p.set.Edition, letter)
		for _, c := range p.calls {
			p.set.Parameters = append(p.set.Parameters, c.Symbol)
		}
		if len(p.calls) == 0 {
			return settingErrorf("profile", "%s has no parameter for profile %s", p.set.Edition, p.set.Profile)
		}
		return p.waviness()
	}
	for i, name := range p.set.Parameters {
		call, err := params.Lookup(p.set.Edition, letter, name)
		if err != nil {
			return settingErrorf(fmt.Sprintf("parameters[%d]", i), "%s", p.unknown(name, err))
		}
		p.calls = append(p.calls, call)
	}
	return p.waviness()
}

// waviness refuses parameters of a waviness profile that no filter makes; those of the motif method need none.
func (p *plan) waviness() error {
	if p.set.Profile == W && p.set.Long.Off && p.set.Input != Filtered &&
		slices.ContainsFunc(p.calls, func(c params.Call) bool { return c.Parameter.On == params.OwnProfile }) {
		return settingErrorf("long", "the waviness profile needs an L-filter")
	}
	return nil
}

// unknown is the text of an error about a name; one that the edition has on other profiles alone comes with the names that there are.
func (p *plan) unknown(name string, err error) string {
	text, letters := standards.Bare(err), ""
	symbol, _, _ := strings.Cut(name, "(")
	for _, y := range standards.Symbols(p.set.Edition) {
		if y.Is(strings.TrimSpace(symbol)) {
			letters += string(rune(y.Letter))
		}
	}
	if letters == "" || strings.Contains(letters, p.set.Profile.String()) {
		return text
	}
	var names []string
	for _, c := range params.Defaults(p.set.Edition, byte(p.set.Profile)) {
		names = append(names, c.Symbol)
	}
	return fmt.Sprintf("%s; %s has for profile %s: %s", text, p.set.Edition, p.set.Profile, strings.Join(names, " "))
}
