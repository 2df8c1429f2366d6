package callout

import (
	"fmt"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/standards"
)

// capital makes the first letter of plain words large.
func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// symbolWords is the symbol for a message, or what stands for it while it is open.
func (r *Item) symbolWords() string {
	switch {
	case r.Symbol != "":
		return r.Symbol
	case r.sym.Name != "":
		return r.sym.Name
	}
	return "the parameter"
}

// Reading returns the requirement in plain words.
func (r *Item) Reading() string {
	switch {
	case r.hidden && r.Mark != "":
		return "The mark " + r.Mark + ": see the question."
	case r.hidden:
		return "See the question."
	}
	side := "Upper limit "
	switch {
	case r.Open("side"):
		side = "Limit "
	case r.Side == standards.Lower:
		side = "Lower limit "
	}
	text := side + r.limitWords()
	if r.Symbol != "" {
		text += " for " + r.Symbol
	}
	if e := r.Edition; r.Symbol == "Rz" && (e == standards.JIS1994 || e == standards.JIS1982) {
		text += " (the ten-point height)"
	}
	if !r.Open("side", "rule", "edition") {
		text += "; " + r.ruleWords()
	}
	text += "." + r.settingsWords()
	var more phrases
	more.add(removalWords[r.Removal])
	if r.Process != "" {
		more.add("process: " + r.Process)
	}
	more.add(layWords[r.Lay])
	switch r.Reference {
	case "":
	case "mean-line", "highest-peak":
		more.add("the level counts from the " + strings.ReplaceAll(r.Reference, "-", " "))
	default:
		more.add("the level counts from the height of " + r.Reference + " %")
	}
	more.add(map[string]string{"mechanical": "traced by a stylus", "optical": "traced by light"}[r.Extraction])
	for _, n := range r.Others {
		more.add(fmt.Sprintf("requirement %d, written elsewhere, also holds", n))
	}
	if len(more) > 0 {
		text += " " + capital(strings.Join(more, "; ")) + "."
	}
	switch {
	case r.Open("edition"):
		return text
	case r.Edition == standards.ISO21920:
		return text + " ISO 21920:2021"
	}
	return text + " " + editionOf(r.Edition).Documents[0] // the first document names the edition
}

// phrases make a sentence; one without words is left out.
type phrases []string

func (p *phrases) add(text string) {
	if text != "" {
		*p = append(*p, text)
	}
}

func (r *Item) limitWords() string {
	text := r.LimitText
	switch {
	case r.Unit == "µin" || r.Unit == "in":
		text += " " + r.Unit + " (" + standards.RoundHalfUp(r.Limit, 3) + " µm)"
	case r.Unit != "":
		text += " " + r.Unit
	case r.Open("unit", "number", "pair"):
		text += " (unit open)"
	}
	return text
}

func (r *Item) ruleWords() string {
	beyond := []string{"exceed it", "fall below it"}[r.Side]
	switch r.Rule {
	case standards.SixteenPercent:
		return "at most 16 % of the measured values may " + beyond
	case standards.Median:
		return "the median of at least three measured values must not " + beyond
	}
	return "no measured value may " + beyond
}

// settingsWords says the settings in one sentence, or two, with the blank before it.
func (r *Item) settingsWords() string {
	if !r.Complete {
		return ""
	}
	t, class := r.Settings, r.Class
	var parts phrases
	length := func(before, key string) {
		if v := t[key].Number; v > 0 {
			parts.add(before + standards.Length(v))
		}
	}
	section, sections, long := t["section"].Number, t["sections"].Number, t["long.cutoff"]
	if long.Number > 0 {
		text := "L-filter " + standards.Length(long.Number)
		if f := filter.Find(t["long.filter"].Word); f != nil && f.Key != "gaussian" {
			text += " (" + f.Said + ")"
		}
		if long.Provisional {
			text += " to begin with (the measured value decides)"
		}
		parts.add(text)
	}
	if a := t["a"].Number; a > 0 {
		parts.add("motifs with A " + standards.Length(a) + " and B " + standards.Length(t["b"].Number))
	}
	length("waves up to ", "waviness_limit")
	if long.Number == 0 {
		length("S-filter ", "short.cutoff")
	}
	switch {
	case t["evaluation"].Number == 0:
		parts.add("the whole feature")
	case sections == 1:
		parts.add("one section of " + standards.Length(section))
	case long.Number > 0 && standards.Near(section, long.Number):
		parts.add(fmt.Sprintf("%.0f sections", sections))
	default:
		parts.add(sectionsOf(sections, section))
	}
	text := strings.Join(parts, ", ") + "."
	if name, ok := strings.CutPrefix(t["section"].Text, "class "); ok && class == "" {
		class, _, _ = strings.Cut(name, ",")
	}
	if class != "" {
		return " Class " + class + ": " + text
	}
	return " " + capital(text)
}
