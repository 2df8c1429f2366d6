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
func (r *Requirement) symbolWords() string {
	switch {
	case r.Symbol != "":
		return r.Symbol
	case r.sym.Name != "":
		return r.sym.Name
	}
	return "the parameter"
}

// Reading returns the requirement in plain words.
func (r *Requirement) Reading() string {
	switch {
	case r.hidden && r.Mark != "":
		return "The mark " + r.Mark + ": see the question."
	case r.hidden:
		return "See the question."
	}
	var b strings.Builder
	side := "Upper limit"
	if r.Open("side") {
		side = "Limit"
	} else if r.Side == standards.Lower {
		side = "Lower limit"
	}
	b.WriteString(side + " " + r.limitWords())
	if r.Symbol != "" {
		b.WriteString(" for " + r.Symbol)
	}
	if e := r.Edition; r.Symbol == "Rz" && (e == standards.JIS1994 || e == standards.JIS1982) {
		b.WriteString(" (the ten-point height)")
	}
	if !r.Open("side", "rule", "edition") {
		b.WriteString("; " + r.ruleWords())
	}
	b.WriteString(".")
	if words := r.Settings.words(r.Class); words != "" {
		b.WriteString(" " + words)
	}
	var more []string
	if w := removalWords[r.Removal]; w != "" {
		more = append(more, w)
	}
	if r.Process != "" {
		more = append(more, "process: "+r.Process)
	}
	if w := layWords[r.Lay]; w != "" {
		more = append(more, w)
	}
	switch r.Reference {
	case "":
	case "mean-line":
		more = append(more, "the level counts from the mean line")
	case "highest-peak":
		more = append(more, "the level counts from the highest peak")
	default:
		more = append(more, "the level counts from the height of "+r.Reference+" %")
	}
	if r.Extraction != "" {
		more = append(more, "traced by "+map[string]string{"mechanical": "a stylus", "optical": "light"}[r.Extraction])
	}
	for _, n := range r.Others {
		more = append(more, fmt.Sprintf("requirement %d, written elsewhere, also holds", n))
	}
	if len(more) > 0 {
		b.WriteString(" " + capital(strings.Join(more, "; ")) + ".")
	}
	if !r.Open("edition") {
		b.WriteString(" " + shortTitle(r.Edition))
	}
	return b.String()
}

// shortTitle names an edition by its first document.
func shortTitle(id standards.EditionID) string {
	if id == standards.ISO21920 {
		return "ISO 21920:2021"
	}
	return editionOf(id).Documents[0]
}

func (r *Requirement) limitWords() string {
	text := r.LimitText
	switch {
	case r.Unit != "":
		text += " " + r.Unit
		if r.Unit == "µin" || r.Unit == "in" {
			text += " (" + standards.RoundHalfUp(r.Limit, 3) + " µm)"
		}
	case r.Open("unit", "number", "pair"):
		text += " (unit open)"
	}
	return text
}

func (r *Requirement) ruleWords() string {
	beyond := "exceed it"
	if r.Side == standards.Lower {
		beyond = "fall below it"
	}
	switch r.Rule {
	case standards.SixteenPercent:
		return "at most 16 % of the measured values may " + beyond
	case standards.Median:
		return "the median of at least three measured values must not " + beyond
	}
	return "no measured value may " + beyond
}

// words says the settings in one sentence, or two.
func (t *Settings) words(class string) string {
	if !t.Complete || t.Edition == "" {
		return ""
	}
	var parts []string
	long, section := t.Origins["long.cutoff"], t.Origins["section"]
	if t.Long.Filter != "" {
		text := "L-filter " + standards.Length(t.Long.Cutoff)
		if f := filter.Find(t.Long.Filter); f != nil && t.Long.Filter != "gaussian" {
			text += " (" + f.Said + ")"
		}
		if long.Provisional {
			text += " to begin with (the measured value decides)"
		}
		parts = append(parts, text)
	}
	if t.A > 0 {
		parts = append(parts, "motifs with A "+standards.Length(t.A)+" and B "+standards.Length(t.B))
	}
	if t.WavinessLimit > 0 {
		parts = append(parts, "waves up to "+standards.Length(t.WavinessLimit))
	}
	if t.Long.Filter == "" && t.Short.Filter != "" {
		parts = append(parts, "S-filter "+standards.Length(t.Short.Cutoff))
	}
	switch {
	case t.Evaluation == 0:
		parts = append(parts, "the whole feature")
	case t.Sections == 1:
		parts = append(parts, "one section of "+standards.Length(t.Section))
	case t.Long.Cutoff > 0 && standards.Near(t.Section, t.Long.Cutoff):
		parts = append(parts, fmt.Sprintf("%d sections", t.Sections))
	default:
		parts = append(parts, fmt.Sprintf("%d sections of %s", t.Sections, standards.Length(t.Section)))
	}
	text := strings.Join(parts, ", ") + "."
	if class == "" {
		if name, ok := strings.CutPrefix(section.Text, "class "); ok {
			class, _, _ = strings.Cut(name, ",")
		}
	}
	if class != "" {
		return "Class " + class + ": " + text
	}
	return capital(text)
}
