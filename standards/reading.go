package standards

import (
	"fmt"
	"strings"
)

// removalWords are the three texts that stand for the graphical symbols.
var removalWords = map[string]string{
	"APA": "any process is permitted", "MRR": "material must be removed", "NMR": "no material may be removed",
}

// layWords are the lay symbols, common to ISO 1302, ISO 21920-1 and ASME Y14.36.
var layWords = map[string]string{
	"=": "lay parallel to the projection plane", "⟂": "lay perpendicular to the projection plane", "X": "crossed lay",
	"M": "lay in many directions", "C": "circular lay", "R": "radial lay", "P": "no lay, or particles",
}

// counts are small numbers as words.
var counts = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

func inWords(n int) string {
	if n >= 0 && n < len(counts) {
		return counts[n]
	}
	return fmt.Sprint(n)
}

// capital makes the first letter of plain words large.
func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// Reading returns the requirement in plain words.
func (r *Requirement) Reading() string {
	if r.Symbol == "" {
		if r.Mark != "" {
			return "The mark " + r.Mark + ": open, see the question."
		}
		return "A number without a symbol, " + r.limitWords() + ": open, see the question."
	}
	var b strings.Builder
	side := "Upper"
	if r.Side == Lower {
		side = "Lower"
	}
	fmt.Fprintf(&b, "%s limit %s for %s", side, r.limitWords(), r.Symbol)
	if e := r.Edition; r.Symbol == "Rz" && (e == "jis-b0601-1994" || e == "jis-b0601-1982") {
		b.WriteString(" (the ten-point height)")
	}
	b.WriteString(". " + r.ruleWords() + ".")
	if words := r.Settings.words(); words != "" {
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
	if r.Direction != "" {
		more = append(more, "trace direction: "+r.Direction)
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
	return b.String()
}

func (r *Requirement) limitWords() string {
	text := r.LimitText
	switch {
	case r.Unit == "" && r.Symbol != "" && rowOf(r.Symbol).quantity == number:
	case r.Unit == "":
		text += " (unit open)"
	default:
		text += " " + r.Unit
		if r.Unit == "µin" || r.Unit == "in" {
			text += " (" + shortest(r.Limit) + " µm)"
		}
	}
	return text
}

func (r *Requirement) ruleWords() string {
	beyond := "exceed it"
	if r.Side == Lower {
		beyond = "fall below it"
	}
	switch r.Rule {
	case SixteenPercent:
		return "At most 16 % of the measured values may " + beyond
	case Median:
		return "The median of at least three measured values must not " + beyond
	}
	return "No measured value may " + beyond
}

// words says the settings in one or two sentences.
func (t *Settings) words() string {
	if !t.Complete || t.Edition == "" {
		return ""
	}
	var parts []string
	if t.Long.Filter != "" {
		what := "cut-off "
		if o := t.Origins["long.cutoff"]; o.Provisional {
			what = "cut-off, as a first estimate, "
		}
		parts = append(parts, what+Length(t.Long.Cutoff)+" ("+filterWords(t.Long.Filter)+")")
	}
	if t.A > 0 {
		parts = append(parts, "motifs with A "+Length(t.A)+" and B "+Length(t.B))
	}
	if t.WavinessLimit > 0 {
		parts = append(parts, "waves up to "+Length(t.WavinessLimit))
	}
	if t.Short.Filter != "" {
		parts = append(parts, "short waves below "+Length(t.Short.Cutoff)+" taken away")
	}
	switch {
	case t.Evaluation == 0:
		parts = append(parts, "evaluated over the whole feature")
	case t.Sections == 1:
		parts = append(parts, "evaluated over "+Length(t.Evaluation))
	default:
		parts = append(parts, fmt.Sprintf("%s sections of %s, %s in all", inWords(t.Sections), Length(t.Section), Length(t.Evaluation)))
	}
	text := capital(strings.Join(parts, ", ")) + "."
	if o, ok := t.Origins["section"]; ok && strings.HasPrefix(o.Text, "class") {
		text += " That is " + o.Text + "."
	}
	return text
}

func filterWords(name string) string {
	return map[string]string{
		"gaussian": "Gaussian", "gaussian-regression": "Gaussian regression", "robust-gaussian": "robust Gaussian",
		"spline": "spline", "robust-spline": "robust spline", "two-rc": "2RC", "two-rc-zero-phase": "2RC without phase shift",
		"valley-suppression": "two passes that ignore valleys, ISO 13565-1",
	}[name]
}
