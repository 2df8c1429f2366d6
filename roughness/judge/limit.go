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

// ParseRule reads the name of an acceptance rule, "max", "16%" or "median"; empty is none.
func ParseRule(name string) (standards.Rule, error) {
	rules := []standards.Rule{standards.Maximum, standards.SixteenPercent, standards.Median, ""}
	if !slices.Contains(rules, standards.Rule(name)) {
		return "", fmt.Errorf("%q is none of %s, %s, %s", name, rules[0], rules[1], rules[2])
	}
	return standards.Rule(name), nil
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
			return l, fmt.Errorf("judge: %.80q: %s: %w", strings.TrimSpace(text), unit, ErrRuleApart)
		}
		v, unit, reason := readNumber(call, number, unit)
		if why := cannot(call, v); reason == "" && why != "" {
			reason = fmt.Sprintf("%s cannot be %s: %s", symbol, strings.TrimSpace(number+" "+unit), why)
		}
		if reason != "" {
			return l, fmt.Errorf("judge: %.80q is not a limit: %s", strings.TrimSpace(text), reason)
		}
		return writtenLimit{standards.Bound{Symbol: symbol, Side: op.side, Value: v, Edition: edition}, strings.Replace(number, ",", ".", 1), unit, roughness.Letter(call.Letter)}, nil
	}
	return l, fmt.Errorf("judge: %.80q is not a limit; write it as Rz <= 3.2 or Ra >= 0.2", strings.TrimSpace(text))
}

// SettingsFor turns the settings that a requirement leads to into settings of an evaluation. An open question that the settings need
// is the requirement's own error.
func SettingsFor(r *callout.Item) (*roughness.Settings, error) {
	if err := r.Err(); err != nil {
		return nil, err
	}
	s := &roughness.Settings{From: map[string]callout.Origin{}}
	for key, e := range r.Settings {
		if s.From[key] = e.Origin; e.From == "" { // edition, profile or parameters
			s.From[key] = callout.Origin{From: callout.FromDrawing, Text: "the requirement"}
		}
	}
	for _, row := range roughness.Table() {
		state(row.At(s), row.Key, r.Settings)
	}
	s.Parameters = []string{withLimits(r)}
	// The drawing names the cut-off, the edition the filter of the Rk family, unless the drawing names that too.
	s.Stratified = roughness.StratifiedByEdition
	if o := s.From["long.filter"]; s.Long.Off || o.From == callout.FromDrawing {
		s.Stratified = roughness.StratifiedByLong
		if !s.Long.Off {
			s.From["choices.stratified_filter"] = o
		}
	} else if ed, ok := standards.EditionByID(s.Edition); ok {
		s.From["choices.stratified_filter"] = roughness.OriginOf(ed.Stratified.Source, "the edition's own filter")
	}
	return s, nil
}

// state sets one setting to what a requirement says of it. A filter of which it says nothing is off.
func state(setting any, key string, says callout.Derived) {
	e := says[key]
	switch p := setting.(type) {
	case *standards.EditionID:
		*p = standards.EditionID(e.Word)
	case *roughness.Letter:
		*p = roughness.Letter(e.Word[0])
	case *roughness.FormSpec:
		p.Kind = says[key+".kind"].Word
	case *roughness.Band:
		f := says[key+".filter"]
		*p = roughness.BandOf(standards.FilterKey{Name: f.Word, Order: int(f.Number)}, says[key+".cutoff"].Number)
	case *float64:
		*p = e.Number
	case *int:
		*p = int(e.Number)
	}
}

// withLimits gives a motif parameter the operator lengths that the requirement states: R becomes R(500).
func withLimits(r *callout.Item) string {
	name, limits := r.Symbol, []float64{r.Settings["a"].Number, r.Settings["b"].Number}
	c, err := params.Lookup(r.Edition, r.Settings["profile"].Word[0], name)
	if err == nil && c.Parameter.Group == params.GroupMotif && limits[0] != 0 && !strings.Contains(name, "(") && (len(c.Args) == 1 || limits[1] != 0) {
		c.Args = limits[:len(c.Args)]
		return c.String()
	}
	return name
}
