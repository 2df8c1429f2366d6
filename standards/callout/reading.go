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
	text += "." + r.Settings.words(r.Class)
	var more phrases
	more.add(removalWords[r.Removal])
	if r.Process != "" {
		more.add("process: " + r.Process)
	}
	more.add(layWords[r.Lay])
	switch r.Reference {
	case "":
	case "mean-line", "highest-peak":
		more.add("the level counts from the " + strings.Replace(r.Reference, "-", " ", 1))
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

// words says the settings in one sentence, or two, with the blank before it.
func (t *Derived) words(class string) string {
	if !t.Complete || t.Edition == "" {
		return ""
	}
	var parts phrases
	section := standards.Length(t.Section)
	if t.Long.Filter != "" {
		text := "L-filter " + standards.Length(t.Long.Cutoff)
		if f := filter.Find(t.Long.Filter); f != nil && t.Long.Filter != "gaussian" {
			text += " (" + f.Said + ")"
		}
		if t.Origins["long.cutoff"].Provisional {
			text += " to begin with (the measured value decides)"
		}
		parts.add(text)
	}
	if t.A > 0 {
		parts.add("motifs with A " + standards.Length(t.A) + " and B " + standards.Length(t.B))
	}
	if t.WavinessLimit > 0 {
		parts.add("waves up to " + standards.Length(t.WavinessLimit))
	}
	if t.Long.Filter == "" && t.Short.Filter != "" {
		parts.add("S-filter " + standards.Length(t.Short.Cutoff))
	}
	switch {
	case t.Evaluation == 0:
		parts.add("the whole feature")
	case t.Sections == 1:
		parts.add("one section of " + section)
	case t.Long.Cutoff > 0 && standards.Near(t.Section, t.Long.Cutoff):
		parts.add(fmt.Sprintf("%d sections", t.Sections))
	default:
		parts.add(sectionsOf(t.Sections, t.Section))
	}
	text := strings.Join(parts, ", ") + "."
	if name, ok := strings.CutPrefix(t.Origins["section"].Text, "class "); ok && class == "" {
		class, _, _ = strings.Cut(name, ",")
	}
	if class != "" {
		return " Class " + class + ": " + text
	}
	return " " + capital(text)
}
