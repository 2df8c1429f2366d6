package callout

import (
	"fmt"
	"strings"

	"example.com/furrow/standards"
)

// askOldName asks what a name of another time stands for.
func (p *parser) askOldName(r *Item) {
	if r.old == nil {
		return
	}
	at, letter, iso := r.at["symbol"], r.oldLetter, standards.ISO21920
	put := func(y standards.Symbol, key, text string, more ...edit) choice {
		return pick(key, text, append([]edit{{at, y.Name}}, more...)...)
	}
	if r.old.text == "" { // Rz1max
		one, home := symbolBy(p.edition, "Rz", letter), standards.EditionID("")
		if one.Key == "" {
			home = standards.ISO4287
			one = symbolBy(home, "Rz", letter)
		}
		if p.own(form1302) || home != "" {
			one.Name += "max"
		}
		r.ask("rz1max", "Rz1max is Rz over one section under the maximum rule, or the largest height of five sections.", at,
			put(one, "one-section", "Rz over one section, maximum rule", r.behind("nsc 1")).by(home),
			put(symbolBy(iso, "Rzx", letter), "largest", "the largest height of a section: Rzx of ISO 21920").by(p.other(iso)))
		return
	}
	var choices []choice
	for _, key := range r.old.means {
		if y := symbolBy(p.edition, key, letter); y.Key != "" {
			choices = append(choices, put(y, y.Name, y.Name+meaning[key]))
		} else if y := symbolBy(iso, key, letter); y.Key != "" {
			choices = append(choices, put(y, "iso-21920-"+y.Name, y.Name+" of ISO 21920"+meaning[key]).by(iso))
		}
	}
	name := r.old.name
	if rest, ok := strings.CutPrefix(name, "R"); ok {
		name = string(letter) + rest
	}
	for _, id := range standards.EditionIDs() {
		if hasName(id, name) {
			choices = append(choices, pick(string(id), name+", read "+byEdition(id).text).by(id))
		}
	}
	r.ask("symbol", r.old.text+" Which parameter is meant?", at, choices...)
}

// meaning says in words what some parameters are.
var meaning = map[string]string{"Rzx": ", the largest height of a section", "Rt": ", the height of the whole profile", "Ry": ", the maximum height", "Rz": ", the mean height of the sections"}

// askTriangles asks what the triangles of old drawings stand for.
func (p *parser) askTriangles(r *Item, at span) {
	var choices []choice
	for _, m := range standards.TriangleMarks(r.Mark) {
		key, text := "jis", m.System
		if m.Series != "" {
			key, text = "din-"+m.Series, m.System+", series "+m.Series
		}
		choices = append(choices, pick(key, fmt.Sprintf("%s: %s at most %s µm", text, m.Symbol, shortest(m.Limit)),
			edit{at, m.Symbol + " " + p.number(m.Limit) + " µm"}).by(p.reader(m.Symbol)))
	}
	r.ask("mark", "A withdrawn mark; the numbers of old tables are an orientation, not a requirement.", at, choices...)
}

// A named is a parameter that a number without a symbol can be of, and what an answer says of it.
type named struct{ name, before, behind string }

// named are the answers that write a symbol and a unit at a number, for each of the parameters and units; a unit of "" is written there.
func (p *parser) named(at span, number string, units []string, list ...named) (choices []choice) {
	for _, y := range list {
		for _, u := range units {
			key, text := strings.ToLower(y.name), number
			if u != "" {
				key, text = key+"-"+unitKeys[u], number+" "+u
			}
			says := y.before + text
			if u != "µin" {
				says += y.behind
			}
			choices = append(choices, pick(key, says, edit{at, y.name + " " + text}).by(p.reader(y.name)))
		}
	}
	return choices
}

// askBare asks what a number without a symbol is.
func (p *parser) askBare(r *Item, at span) {
	units := []string{"µm", "µin"}
	if r.unitWritten() {
		units = []string{""}
	}
	r.ask("symbol", "A number without a symbol: which parameter is meant?", at,
		p.named(at, p.source(at), units, named{"Ra", "Ra ", ", the custom of older drawings"}, named{"Rz", "Rz ", ""})...)
}

// unitWritten tells whether a unit stands at one of the numbers.
func (r *Item) unitWritten() bool {
	return r.first.unit != "" || r.second != nil && r.second.unit != ""
}

// askRMS asks whether RMS is Rq or Ra. Where the unit is open and an edition would fill it in, the answers name it.
func (p *parser) askRMS(r *Item, at span) {
	last := r.first
	if r.second != nil {
		last = r.second
	}
	number := p.source(span{r.first.from, last.at.to})
	units := []string{""}
	if !r.unitWritten() {
		if p.edition != standards.ASMEB46 {
			units = []string{"µm", "µin"}
		}
		r.at["amounts"] = last.span
	}
	r.ask("rms", "RMS can mean Rq or, on old drawings and instruments, Ra.", at, p.named(at, number, units,
		named{"Rq", "Rq, the root mean square height: ", ""}, named{"Ra", "Ra, as on most old drawings: ", ""})...)
}

// askBareLength asks what one length before a stroke is: 0,8/Ra 3,2.
func (p *parser) askBareLength(r *Item) {
	var choices []choice
	at := r.at["band"]
	if r.sym.Letter == 'P' {
		for _, v := range []float64{2.5, 8, 25} {
			choices = append(choices, pick(shortest(v), "S-filter "+standards.Length(v), edit{at, p.mm(v) + "-/"}))
		}
	} else {
		for _, row := range editionOf(standards.ISO4287).Rows {
			from, to, _ := p.tenfold(row)
			band := "-" + from + "/"
			if r.sym.Letter == 'W' {
				band = from + "-" + to + "/"
			}
			choices = append(choices, pick(shortest(row.Long/1000), "cut-off "+standards.Length(row.Long), edit{at, band}))
		}
	}
	r.ask("cutoff", "One length before the stroke is the sampling length of old drawings, or a band cut short.", at, choices...)
	r.cutoffOpen = true
}
