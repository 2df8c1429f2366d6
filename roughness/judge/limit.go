package judge

import (
	"errors"
	"example.com/furrow/roughness"
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// ParseLimits reads limits as a person types them: "Rz <= 3.2", or several, "Ra <= 0.8; Ra >= 0.2; Rz <= 6.3", with the symbols of an
// edition ("" is ISO 21920). Numbers are in the unit of the parameter (µm for heights) unless another follows them; both decimal marks
// are accepted. A unit or a value that the parameter cannot have is refused.
func ParseLimits(text string, edition standards.EditionID) ([]standards.Bound, error) {
	limits, err := parseLimits(text, orDefault(edition))
	if err != nil {
		return nil, err
	}
	var bounds []standards.Bound
	for _, l := range limits {
		bounds = append(bounds, l.Bound)
	}
	return bounds, nil
}

// A writtenLimit is a limit with the digits and the unit that were written.
type writtenLimit struct {
	standards.Bound
	text, unit string
	letter     roughness.Letter
}

func parseLimits(text string, edition standards.EditionID) ([]writtenLimit, error) {
	var limits []writtenLimit
	for _, part := range splitOutside(text) {
		l, err := parseLimit(part, edition)
		if err != nil {
			return nil, err
		}
		limits = append(limits, l)
	}
	return limits, nil
}

// ErrRuleApart is wrapped by the error for a limit with an acceptance rule behind it.
var ErrRuleApart = errors.New("an acceptance rule is stated apart from the limit")

func parseLimit(text string, edition standards.EditionID) (l writtenLimit, err error) {
	for _, op := range []struct {
		sign string
		side standards.Side
	}{{"<=", standards.Upper}, {"≤", standards.Upper}, {">=", standards.Lower}, {"≥", standards.Lower}} {
		symbol, rest, ok := strings.Cut(text, op.sign)
		if !ok {
			continue
		}
		symbol = strings.TrimSpace(symbol)
		number, unit := cutNumber(strings.TrimSpace(rest))
		if symbol == "" || number == "" {
			break
		}
		call, err := lookupAny(edition, symbol)
		if err != nil {
			return l, err
		}
		if slices.Contains([]string{"Tmax", "T16%", "Tmed", "max", "16%", "median"}, unit) {
			return l, fmt.Errorf("roughness: %.80q: %s: %w", strings.TrimSpace(text), unit, ErrRuleApart)
		}
		v, unit, reason := readNumber(call, number, unit)
		if why := cannot(call, v); reason == "" && why != "" {
			reason = fmt.Sprintf("%s cannot be %s: %s", symbol, strings.TrimSpace(number+" "+unit), why)
		}
		if reason != "" {
			return l, fmt.Errorf("roughness: %.80q is not a limit: %s", strings.TrimSpace(text), reason)
		}
		return writtenLimit{standards.Bound{Symbol: symbol, Side: op.side, Value: v, Edition: edition}, strings.Replace(number, ",", ".", 1), unit, roughness.Letter(call.Letter)}, nil
	}
	return l, fmt.Errorf("roughness: %.80q is not a limit; write it as Rz <= 3.2 or Ra >= 0.2", strings.TrimSpace(text))
}

// SettingsFor turns the settings that a requirement leads to into settings of an evaluation. An open question that the settings need
// is the requirement's own error.
func SettingsFor(r *callout.Item) (*roughness.Settings, error) {
	if err := r.Err(); err != nil {
		return nil, err
	}
	from := r.Settings
	s := &roughness.Settings{Edition: from.Edition, WavinessLimit: from.WavinessLimit, SectionLength: from.Section, Sections: from.Sections}
	s.Parameters = withLimits(from)
	if from.Profile != "" {
		s.Profile = roughness.Letter(from.Profile[0])
	}
	band := func(f callout.FilterSetting) roughness.Band {
		if f.Filter == "" {
			return roughness.Band{Off: true}
		}
		return roughness.BandOf(standards.FilterKey{Name: f.Filter, Order: f.Order}, f.Cutoff)
	}
	s.Short, s.Long = band(from.Short), band(from.Long)
	if from.Form != "" {
		s.Form.Kind = from.Form
	}
	if from.Section == 0 { // the whole length of the feature
		s.Sections = max(from.Sections, 1)
	}
	s.From = map[string]callout.Origin{}
	for key, o := range from.Origins {
		s.From[key] = o
	}
	for _, key := range []string{"edition", "profile", "parameters"} {
		if _, ok := s.From[key]; !ok {
			s.From[key] = callout.Origin{From: callout.FromDrawing, Text: "the requirement"}
		}
	}
	// The drawing names the cut-off, the edition the filter of the Rk family, unless the drawing names that too.
	s.Stratified = roughness.StratifiedByEdition
	if s.Long.Off || from.Origins["long.filter"].From == callout.FromDrawing {
		s.Stratified = roughness.StratifiedByLong
	} else if ed, ok := standards.EditionByID(s.Edition); ok {
		s.From["choices.stratified_filter"] = roughness.OriginOf(ed.Stratified.Source, "the edition's own filter")
	}
	if o, ok := s.From["long.filter"]; ok && s.Stratified == roughness.StratifiedByLong {
		s.From["choices.stratified_filter"] = o
	}
	return s, nil
}

// withLimits gives the motif parameters the operator lengths that the requirement states: R becomes R(500).
func withLimits(from callout.Derived) []string {
	names := append([]string(nil), from.Parameters...)
	if from.A == 0 || from.Profile == "" {
		return names
	}
	for i, name := range names {
		c, err := params.Lookup(from.Edition, from.Profile[0], name)
		if err != nil || strings.Contains(name, "(") {
			continue
		}
		limits := []float64{from.A, from.B}
		if n := len(c.Args); n > 0 && n <= 2 && (n == 1 || from.B > 0) {
			c.Args = limits[:n]
			names[i] = c.String()
		}
	}
	return names
}
