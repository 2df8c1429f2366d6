package callout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// meanings are the parameters that an old name can stand for, by their keys.
func (r *Requirement) meanings() []string {
	for _, o := range oldNames {
		if o.name == r.old {
			return o.means
		}
	}
	return nil
}

// askOldName asks what a name of another time stands for.
func (p *parser) askOldName(r *Requirement) {
	if r.old == "" {
		return
	}
	at := r.at["symbol"]
	name := string(r.oldLetter) + strings.TrimPrefix(r.old, "R")
	if r.old[0] != 'R' {
		name = r.old
	}
	put := func(y standards.Symbol, key, text string, edition standards.EditionID, more ...edit) choice {
		return choice{key, text, append([]edit{{at.from, at.to, y.Name}}, more...), edition}
	}
	letter := byte(r.oldLetter)
	if r.old == "Rz1max" {
		one, home := symbolBy(p.edition, "Rz", letter), standards.EditionID("")
		if one.Key == "" {
			one, home = symbolBy(standards.ISO4287, "Rz", letter), standards.ISO4287
		}
		if p.own(form1302) || home != "" {
			one.Name += "max"
		}
		largest := put(symbolBy(standards.ISO21920, "Rzx", letter), "largest", "the largest height of a section: Rzx of ISO 21920", standards.ISO21920)
		if p.edition == standards.ISO21920 {
			largest.edition = ""
		}
		r.ask("rz1max", "settings", "Rz1max is Rz over one section under the maximum rule, or the largest height of five sections.", at,
			put(one, "one-section", "Rz over one section, maximum rule", home, insert(r.at["tail"].from, " nsc 1")), largest)
		return
	}
	var choices []choice
	for _, key := range r.meanings() {
		if y := symbolBy(p.edition, key, letter); y.Key != "" {
			choices = append(choices, put(y, y.Name, y.Name+p.meaning(y), ""))
		} else if y := symbolBy(standards.ISO21920, key, letter); y.Key != "" {
			choices = append(choices, put(y, "iso-21920-"+y.Name, y.Name+" of ISO 21920"+p.meaning(y), standards.ISO21920))
		}
	}
	for _, id := range standards.EditionIDs() {
		if slices.ContainsFunc(symbolsOf(id), func(y standards.Symbol) bool { return y.Name == name }) {
			e, _ := standards.EditionByID(id)
			choices = append(choices, choice{string(id), name + ", read by " + e.Title, nil, id})
		}
	}
	text := ""
	for _, o := range oldNames {
		if o.name == r.old {
			text = o.text
		}
	}
	r.ask("symbol", "settings", text+" Which parameter is meant?", at, choices...)
}

// meaning says in words what some symbols are.
func (p *parser) meaning(y standards.Symbol) string {
	return map[string]string{"Rzx": ", the largest height of a section", "Rt": ", the height of the whole profile", "Ry": ", the maximum height", "Rz": ", the mean height of the sections"}[y.Key]
}

// askTriangles asks what the triangles of old drawings stand for.
func (p *parser) askTriangles(r *Requirement, at span) {
	var choices []choice
	for _, m := range standards.TriangleMarks(r.Mark) {
		key, text := "jis", m.System
		if m.Series != "" {
			key, text = "din-"+m.Series, m.System+", series "+m.Series
		} else if m.Symbol != "Ra" {
			key += "-" + m.Symbol
		}
		c := choice{key, fmt.Sprintf("%s: %s at most %s µm", text, m.Symbol, shortest(m.Limit)), []edit{{at.from, at.to, m.Symbol + " " + p.number(m.Limit) + " µm"}}, ""}
		if !p.has(m.Symbol) {
			if c.edition = standards.ISO4287; m.Symbol == "Rmax" {
				continue
			}
		}
		choices = append(choices, c)
	}
	r.ask("mark", "settings", "A withdrawn mark; the numbers of old tables are an orientation, not a requirement.", at, choices...)
}

// has tells whether the edition has a symbol of this name.
func (p *parser) has(name string) bool {
	return slices.ContainsFunc(symbolsOf(p.edition), func(y standards.Symbol) bool { return y.Name == name })
}

// askOldJIS asks about 25S, 25Z and 1,6a outside the edition that writes them.
func (p *parser) askOldJIS(r *Requirement, letter rune, at span) {
	number := p.source(r.first.number) + " µm"
	means := map[rune]struct{ key, text string }{'S': {"Rz", "the maximum height"}, 'Z': {"RzJIS", "the ten-point height"}, 'a': {"Ra", "the centre-line average"}}[letter]
	var choices []choice
	for _, id := range []standards.EditionID{p.edition, standards.ISO4287} {
		if y := symbolBy(id, means.key, 'R'); y.Key != "" {
			c := choice{strings.ToLower(y.Name), y.Name + ", " + means.text + ", " + number, []edit{{at.from, at.to, y.Name + " " + number}}, id}
			if id == p.edition {
				c.edition = ""
			}
			choices = append(choices, c)
			break
		}
	}
	r.ask("mark", "settings", "The notation of JIS B 0601:1982 for "+means.text+".", at, append(choices, byEdition(standards.JIS1982))...)
}

// askBare asks what a number without a symbol is.
func (p *parser) askBare(r *Requirement, at span) {
	var choices []choice
	edition := standards.EditionID("")
	if !p.has("Ra") {
		edition = standards.ISO4287
	}
	units := []string{"µm", "µin"}
	written := r.first.unit
	if r.second != nil && written == "" {
		written = r.second.unit
	}
	if written != "" {
		units = []string{""}
	}
	for _, name := range []string{"Ra", "Rz"} {
		for _, u := range units {
			edits := []edit{insert(at.from, name+" ")}
			key, says := strings.ToLower(name), name+" "+p.source(at)
			if u != "" {
				edits = append(edits, insert(at.to, " "+u))
				key, says = key+"-"+unitKeys[u], says+" "+u
			}
			if name == "Ra" && u != "µin" {
				says += ", the custom of older drawings"
			}
			choices = append(choices, choice{key, says, edits, edition})
		}
	}
	r.ask("symbol", "settings", "A number without a symbol: which parameter is meant?", at, choices...)
}

// askRMS asks whether RMS is Rq or Ra. Where the unit is open and an edition would fill it in, the answers name it.
func (p *parser) askRMS(r *Requirement, at span) {
	number := p.source(span{r.first.number.from, r.first.at.to})
	if r.second != nil {
		number = p.source(span{r.first.number.from, r.second.at.to})
	}
	units := []string{""}
	if r.first.unit == "" && (r.second == nil || r.second.unit == "") {
		if p.edition != standards.ASMEB46 {
			units = []string{" µm", " µin"}
		}
		r.at["amounts"] = r.first.number
		if r.second != nil {
			r.at["amounts"] = r.second.number
		}
	}
	var choices []choice
	for _, y := range []struct{ name, text string }{{"Rq", "Rq, the root mean square height"}, {"Ra", "Ra, as on most old drawings"}} {
		edition := standards.EditionID("")
		if !p.has(y.name) {
			edition = standards.ISO4287
		}
		for _, u := range units {
			key := strings.ToLower(y.name)
			if u != "" {
				key += "-" + unitKeys[u[1:]]
			}
			choices = append(choices, choice{key, y.text + ": " + number + u, []edit{{at.from, at.to, y.name + " " + number + u}}, edition})
		}
	}
	r.ask("rms", "settings", "RMS can mean Rq or, on old drawings and instruments, Ra.", at, choices...)
}

// askBareLength asks what one length before a stroke is: 0,8/Ra 3,2.
func (p *parser) askBareLength(r *Requirement) {
	var choices []choice
	at, e := r.at["band"], editionOf(standards.ISO4287)
	for _, row := range e.Rows {
		text := "-" + p.mm(row.Long) + "/"
		if r.sym.Letter == 'W' {
			text = p.mm(row.Long) + "-" + p.mm(10*row.Long) + "/"
		} else if r.sym.Letter == 'P' {
			continue
		}
		choices = append(choices, choice{strconv.FormatFloat(row.Long/1000, 'f', -1, 64), "cut-off " + standards.Length(row.Long), []edit{{at.from, at.to, text}}, ""})
	}
	for _, v := range []float64{2.5, 8, 25} {
		if r.sym.Letter == 'P' {
			choices = append(choices, choice{shortest(v), "S-filter " + standards.Length(v), []edit{{at.from, at.to, p.mm(v) + "-/"}}, ""})
		}
	}
	r.ask("cutoff", "settings", "One length before the stroke is the sampling length of old drawings, or a band cut short.", at, choices...)
	r.cutoffOpen = true
}

func editionOf(id standards.EditionID) standards.Edition {
	e, _ := standards.EditionByID(id)
	return e
}
