package compare

import (
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/standards"
)

// Plain says in plain words what a change makes of a in b: "cut-off 2.5 mm instead of 0.8 mm", "no S-filter instead of 2.5 µm".
func Plain(c roughness.Change, a, b *roughness.Settings) string {
	pair := func(name, used, asked string) string {
		if name != "" {
			name += " "
		}
		return name + used + " instead of " + asked
	}
	length := func(v float64) string {
		if v == 0 {
			return "none"
		}
		return standards.Length(v)
	}
	switch c.Key {
	case "edition":
		return pair("", title(b.Edition), title(a.Edition))
	case "long.cutoff":
		return pair("cut-off", length(b.Long.Spec.Cutoff), length(a.Long.Spec.Cutoff))
	case "long":
		return pair("", kind(b.Long, "L-filter"), kind(a.Long, "L-filter"))
	case "long.ends":
		return pair("ends of the L-filter", ends(b.Long.Spec), ends(a.Long.Spec))
	case "short":
		if a.Short.Spec.Filter == b.Short.Spec.Filter || a.Short.Off != b.Short.Off && (a.Short.Off || a.Short.Spec.Filter == "gaussian") && (b.Short.Off || b.Short.Spec.Filter == "gaussian") {
			return pair("", shortWords(b.Short), strings.TrimPrefix(shortWords(a.Short), "S-filter "))
		}
		return pair("S-filter", b.Short.String(), a.Short.String())
	case "form":
		return pair("", formWords(b.Form), formWords(a.Form))
	case "sections":
		if b.Sections == 1 {
			return pair("", "1 section", fmt.Sprint(a.Sections))
		}
		return pair("", fmt.Sprintf("%d sections", b.Sections), fmt.Sprint(a.Sections))
	case "section":
		return pair("section length", length(b.SectionLength), length(a.SectionLength))
	case "waviness_limit":
		return pair("long limit of the waviness", length(b.WavinessLimit), length(a.WavinessLimit))
	case "profile":
		return pair("profile", b.Profile.String(), a.Profile.String())
	case "input":
		return pair("heights taken as", b.Input.String(), a.Input.String())
	case "choices.stratified_filter":
		return pair("filter of the Rk family:", stratified(b), stratified(a))
	}
	name := strings.TrimPrefix(c.Key, "choices.")
	return pair(strings.ReplaceAll(name, "_", " "), c.To, c.From)
}

// title is the first document of an edition, which is short enough for a sentence.
func title(id standards.EditionID) string {
	ed, ok := standards.EditionByID(id)
	if !ok || len(ed.Documents) == 0 {
		return string(id)
	}
	return ed.Documents[0]
}

// filterName is the name of a kind of filter in a sentence.
func filterName(key string) string {
	if f := filter.Find(key); f != nil {
		return f.Said
	}
	return key
}

func kind(b roughness.Band, name string) string {
	if b.Off {
		return "no " + name
	}
	s := b.Spec
	text := filterName(s.Filter) + " filter"
	if s.Filter == "two-rc-zero-phase" {
		text += fmt.Sprintf(" (%g %% at the cut-off)", s.Transmission)
	}
	if s.Filter == "gaussian" && s.Support > 0 && s.Support < 1 {
		text += fmt.Sprintf(" cut at %g of the cut-off", s.Support)
	}
	return text
}

func ends(s roughness.FilterSpec) string {
	switch {
	case s.Ends == "":
		return "its own"
	case s.DiscardLength > 0:
		return s.Ends + " " + standards.Length(s.DiscardLength)
	}
	return s.Ends
}

func shortWords(b roughness.Band) string {
	if b.Off {
		return "no S-filter"
	}
	return "S-filter " + standards.Length(b.Spec.Cutoff)
}

func formWords(f roughness.FormSpec) string {
	switch f.Kind {
	case "none":
		return "no form removed"
	case "mean":
		return "only the mean height removed"
	case "line":
		return "line removed"
	}
	return f.String() + " removed"
}

func stratified(s *roughness.Settings) string {
	if s.Stratified == roughness.StratifiedByLong {
		return "the L-filter"
	}
	return "the edition's own"
}

// explain fills in what a fit changes in plain words, and what speaks against it.
func (f *Finding) explain(p roughness.Profile, x *Fit) {
	changes, brought := f.visible(&x.Settings)
	parts := make([]string, len(changes))
	for i, c := range changes {
		parts[i] = Plain(c, &f.Usual, &x.Settings)
	}
	what := strings.Join(parts, ", ")
	if what == "" {
		what = "the usual settings"
	}
	values := make([]string, len(f.Printed))
	for i := range f.Printed {
		values[i] = f.Printed[i].show(x.Values[i])
	}
	gives := " gives "
	if len(parts) != 1 {
		gives = " give "
	}
	x.Plain = what + gives + strings.Join(values, ", ")
	x.Against = f.against(p, x, changes)
	for _, c := range brought {
		x.Against = append(x.Against, title(x.Settings.Edition)+" itself brings: "+Plain(c, &f.Usual, &x.Settings)+".")
	}
}

// visible are the changes from the usual settings but for those that only follow from others; brought are those that another edition has
// by itself.
func (f *Finding) visible(s *roughness.Settings) (changes, brought []roughness.Change) {
	stated := map[string]bool{} // against what the edition has by itself
	if s.Edition != f.Usual.Edition {
		own, err := roughness.Complete(&roughness.Settings{Edition: s.Edition, Profile: s.Profile, Input: s.Input, Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: s.Long.Spec.Cutoff}}})
		if err == nil {
			for _, c := range roughness.Changes(own, s) {
				stated[c.Key] = true
			}
		}
	}
	for _, c := range roughness.Changes(&f.Usual, s) {
		switch {
		case c.Key == "gaps.bridge" || c.Key == "choices.stratified_filter",
			c.Key == "section" && s.SectionLength == s.Long.Spec.Cutoff && f.Usual.SectionLength == f.Usual.Long.Spec.Cutoff:
		case s.Edition != f.Usual.Edition && !stated[c.Key] && slices.Contains([]string{"short", "long", "long.ends"}, c.Key):
			brought = append(brought, c)
		default:
			changes = append(changes, c)
		}
	}
	return changes, brought
}

// against says what makes a fit less likely than another one.
func (f *Finding) against(p roughness.Profile, x *Fit, changes []roughness.Change) []string {
	var list []string
	say := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	s := &x.Settings
	if x.Misfit > 1 {
		for i := range f.Printed {
			if f.Printed[i].misfit(x.Values[i]) > 1 {
				say("%s differs by %s.", f.Printed[i].Symbol, f.Printed[i].off(x.Values[i]))
			}
		}
	}
	if x.Changes > 1 {
		say("It needs %d changes at once.", x.Changes)
	}
	ed, _ := standards.EditionByID(s.Edition)
	for _, c := range changes {
		switch c.Key {
		case "edition":
			for i := range f.Printed {
				f.Printed[i].meaning(&f.Usual, s, say)
			}
			if ed.Replaced != "" {
				say("%s was replaced by %s.", title(s.Edition), ed.Replaced)
			}
		case "long":
			if !s.Long.Off && s.Long.Spec.Filter != ed.Long.Name {
				say("%s asks for the %s filter.", title(s.Edition), filterName(ed.Long.Name))
			}
			if s.Long.Off {
				say("Without an L-filter the value is that of the primary profile.")
			}
		case "short":
			if s.Short.Off && ed.Short.Name != "" {
				say("%s asks for an S-filter.", title(s.Edition))
			}
		case "form":
			if s.Form.Kind == "none" || s.Form.Kind == "mean" {
				say("A tilted trace is usually levelled first.")
			}
		case "sections":
			if s.Sections != 5 {
				say("Other than five sections are usually written beside the symbol, as in %s%d.", f.Printed[0].Symbol, s.Sections)
			}
		}
	}
	for _, r := range rows() {
		if !s.Long.Off && r.Long == s.Long.Spec.Cutoff && !s.Short.Off && s.Short.Spec.Cutoff != r.Short {
			say("An S-filter of %s goes with a cut-off of %s.", standards.Length(r.Short), standards.Length(r.Long))
		}
	}
	if room, err := roughness.RoomFor(p, s); err == nil {
		if room.Whole < room.Wanted {
			say("The trace holds %d of %d sections.", room.Whole, room.Wanted)
		}
		if room.WithRunUp < room.Whole {
			say("The trace has no room for half a cut-off of run-up at both ends.")
		}
		list = append(list, room.Notes...)
	}
	if x.Misfit > 0.9 && x.Misfit <= 1 {
		say("A value lies at the edge of what rounds to the printed one.")
	}
	if n := len(x.Alike); n == 1 {
		say("One other combination gives the same values.")
	} else if n > 1 {
		say("%d other combinations give the same values.", n)
	}
	return list
}

// Outcome is what a search comes to.
type Outcome string

// The outcomes of a search.
const (
	Same Outcome = "same" // the usual settings give the printed values
	One  Outcome = "one"  // one fit
	Many Outcome = "many"
	None Outcome = "none"
)

// Outcome says what the search comes to.
func (f *Finding) Outcome() Outcome {
	switch {
	case len(f.Fits) == 0:
		return None
	case f.Fits[0].Changes == 0:
		return Same
	case len(f.Fits) == 1:
		return One
	}
	return Many
}

// Sentences say in words how much the finding is worth, the most important first.
func (f *Finding) Sentences() []string {
	var list []string
	say := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	each := "both printed values"
	if n := len(f.Printed); n == 1 {
		each = "the printed value"
	} else if n > 2 {
		each = fmt.Sprintf("all %d printed values", n)
	}
	switch f.Outcome() {
	case Same:
		say("The usual settings give the same values. There is no difference.")
	case None:
		say("No combination gives %s.", each)
		if len(f.Nearest) > 0 {
			x := &f.Nearest[0]
			k, worst := 0, 0.0
			for i := range f.Printed {
				if m := f.Printed[i].misfit(x.Values[i]); m > worst {
					k, worst = i, m
				}
			}
			say("The nearest one differs by %s in %s.", strings.TrimPrefix(f.Printed[k].off(x.Values[k]), "-"), f.Printed[k].Symbol)
		}
		say("Likely reasons: another place or another trace, a filter that furrow does not have, a part left out, a gain factor.")
	case One:
		say("These settings give %s: %s.", each, f.Fits[0].Plain)
		say("This is a possible explanation, not a proof: check the settings of the instrument.")
	case Many:
		say("The simplest explanation: %s.", f.Fits[0].Plain)
		say("%d of %d combinations give %s to the last digit, with %d different sets of values. It is a possible explanation, not a proof: check the settings of the instrument.",
			f.Fitting, f.Tried, each, len(f.Fits))
	}
	if len(f.Printed) == 1 {
		say("One value fits many settings. Add a second value.")
	}
	return list
}
