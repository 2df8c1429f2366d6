package standards

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// choice is an answer before its text is written: what to change in the text, or the edition to read it by.
type choice struct {
	key, text string
	edits     []edit
	edition   string
}

// edit puts other text in place of a part of it.
type edit struct {
	from, to int
	text     string
}

// insert is an edit that takes nothing away.
func insert(at int, text string) edit { return edit{at, at, text} }

// edited returns the whole text with the edits.
func (s *scanner) edited(edits ...edit) string {
	edits = slices.Clone(edits)
	slices.SortStableFunc(edits, func(a, b edit) int { return cmp.Compare(a.from, b.from) })
	var b strings.Builder
	at := 0
	for _, e := range edits {
		if e.from < at {
			continue
		}
		b.WriteString(string(s.raw[at:e.from]))
		b.WriteString(e.text)
		at = e.to
	}
	b.WriteString(string(s.raw[at:]))
	return b.String()
}

// source returns a part of the text as written.
func (s *scanner) source(at span) string { return string(s.raw[at.from:at.to]) }

// without is the edit that takes a part away, with the blanks before it.
func (s *scanner) without(at span) edit {
	for at.from > 0 && s.text[at.from-1] == ' ' {
		at.from--
	}
	return edit{at.from, at.to, ""}
}

// number writes a number with the decimal mark of the text.
func (s *scanner) number(v float64) string {
	text := shortest(v)
	for i := 1; i+1 < len(s.text); i++ {
		if s.text[i] == ',' && isDigit(s.text[i-1]) && isDigit(s.text[i+1]) {
			return strings.Replace(text, ".", ",", 1)
		}
	}
	return text
}

// mm writes a length in millimetres.
func (s *scanner) mm(um float64) string { return s.number(um / 1000) }

// order is that of the questions: one that is answered first decides whether a later one is open at all.
var order = []string{"pair", "list", "mark", "grade", "rz1max", "number", "symbol", "edition", "unit", "rms", "class", "cutoff", "band", "short", "lengths", "reference", "side", "rule"}

// ask adds a question at a place.
func (r *Requirement) ask(key, blocks, text string, at span, choices ...choice) {
	q := Question{Key: key, Text: text, Blocks: blocks}
	q.Line, q.Column = r.s.place(at.from)
	for _, c := range choices {
		a := Answer{Key: c.key, Text: c.text, Edition: c.edition}
		if len(c.edits) > 0 {
			a.Then = r.s.edited(c.edits...)
		}
		q.Answers = append(q.Answers, a)
	}
	r.Questions = append(r.Questions, q)
	slices.SortStableFunc(r.Questions, func(a, b Question) int {
		return cmp.Compare(slices.Index(order, a.Key), slices.Index(order, b.Key))
	})
}

// note adds what a reader should know and need not answer.
func (r *Requirement) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

// edition is an answer that reads the text by another edition.
func byEdition(id string) choice {
	e, _ := EditionByID(id)
	return choice{id, "by " + e.Title, nil, id}
}

// askUnit asks for the unit of a limit.
func (p *parser) askUnit(r *Requirement, a *amount, units []string) {
	text := "The unit is that of the drawing, and the text does not say it."
	if r.sym.Quantity != Height && p.family != asme {
		text = fmt.Sprintf("The unit of %s is not always the same, and the text does not say it.", r.symbolWords())
	}
	var choices []choice
	at := r.at["amounts"]
	for _, u := range units {
		says := fmt.Sprintf("%s %s", a.text(), u)
		if v := inUnit(a.d, u, r.sym.Quantity); u != "µm" && (r.sym.Quantity == Height || r.sym.Quantity == Spacing || r.sym.Quantity == Area) {
			says += ", which is " + shortest(v) + " µm"
		}
		written := " " + u
		if strings.HasPrefix(u, "1/") {
			written = u[1:]
		}
		choices = append(choices, choice{unitKeys[u], says, []edit{insert(at.to, written)}, ""})
	}
	r.ask("unit", p.blocksLimit(r), text, at, choices...)
	r.limitOpen = true
}

// blocksLimit tells what a limit that is open blocks: the settings too, where they follow from it.
func (p *parser) blocksLimit(r *Requirement) string {
	if p.family == iso2021 && r.Class == "" && r.Long == 0 {
		return "settings"
	}
	return "limit"
}

// askSlip asks whether a roughness in millimetres is meant so.
func (p *parser) askSlip(r *Requirement, a *amount) {
	um := inUnit(a.d, a.unit, Height)
	other := map[string]string{"mm": "µm", "in": "µin"}[a.unit]
	r.ask("unit", p.blocksLimit(r), fmt.Sprintf("A roughness of %s %s would be %s µm: is the unit a slip?", a.text(), a.unit, shortest(um)), a.number,
		choice{unitKeys[other], a.text() + " " + other, []edit{{a.unitAt.from, a.unitAt.to, other}}, ""},
		choice{unitKeys[a.unit], a.text() + " " + a.unit + ", which is " + shortest(um) + " µm", []edit{{a.number.from, a.unitAt.to, p.number(um) + " µm"}}, ""})
	r.limitOpen = true
}

// askThousands asks whether a comma sets thousands apart.
func (p *parser) askThousands(r *Requirement, a *amount) {
	whole, behind, _ := strings.Cut(a.d.text, ".")
	one := trimNumber(a.d.text)
	r.ask("number", p.blocksLimit(r), "The comma sets groups of thousands apart, or it is a decimal mark.", a.number,
		choice{"thousand", whole + behind, []edit{{a.number.from, a.number.to, whole + behind}}, ""},
		choice{"decimal", one, []edit{{a.number.from, a.number.to, one}}, ""})
}

// askPair asks whether two numbers are two limits or one in two units.
func (p *parser) askPair(r *Requirement) {
	a, b := r.first, r.second
	units := []string{"µm", "µin"}
	if a.value() > b.value() {
		units = []string{"µin", "µm"}
	}
	x, y := p.source(a.number)+" "+units[0], p.source(b.number)+" "+units[1]
	r.ask("pair", "limit", "Two limits, or one limit in µm and in µin.", span{a.number.from, b.number.to},
		choice{"two", "two limits, " + p.source(a.number) + " and " + p.source(b.number), []edit{{a.number.to, b.number.from, "-"}}, ""},
		choice{"one", "one limit, " + x + ", which is about " + y, []edit{{a.number.from, b.at.to, x + " [" + y + "]"}}, ""})
	r.hidden, r.open, r.limitOpen = true, true, true
}

// askRule asks what max behind a limit means in ISO 1302 text, which writes the rule at the symbol.
func (p *parser) askRule(r *Requirement) {
	at, ok := r.at["max"]
	if _, both := r.at["extremes"]; both && r.at["rule"] == at && ok {
		r.RuleWritten = false
	} else if !ok || !p.own(form1302) || r.RuleWritten || both {
		return
	}
	drop := p.without(at)
	if at.from <= r.at["symbol"].from {
		drop = edit{at.from, at.to, ""}
		for drop.to < p.end && p.text[drop.to] == ' ' {
			drop.to++
		}
	}
	symbol := r.at["symbol"]
	if c, ok := r.at["count"]; ok {
		symbol = c
	}
	upper := []edit{drop}
	if _, ok := r.at["side"]; !ok {
		upper = append(upper, insert(r.at["head"].from, "U "))
	}
	if _, both := r.at["extremes"]; both {
		r.ask("rule", "verdict", "The word max says that the limit is the upper one, or that no value may exceed it (the maximum rule).", at,
			choice{"upper", "the upper limit only", []edit{{r.first.number.from, r.second.at.to, p.source(r.second.number) + "-" + p.source(r.first.at)}, drop}, ""})
		return
	}
	r.ask("rule", "verdict", "The word max says that no measured value may exceed the limit (the maximum rule), or only that it is an upper limit.", at,
		choice{"max", "the maximum rule", []edit{drop, insert(symbol.to, "max")}, ""},
		choice{"upper", "an upper limit, with the rule of the standard", upper, ""})
}

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
	put := func(y Symbol, key, text, edition string, more ...edit) choice {
		return choice{key, text, append([]edit{{at.from, at.to, y.Name}}, more...), edition}
	}
	letter := byte(r.oldLetter)
	if r.old == "Rz1max" {
		text := "Rz1max is Rz over one section under the maximum rule, or the largest height of five sections."
		if rz := symbolBy(p.edition, "Rz", letter); rz.Key != "" {
			one := rz
			if p.own(form1302) {
				one.Name += "max"
			}
			largest := put(symbolBy("iso-21920", "Rzx", letter), "largest", "the largest height of a section: Rzx of ISO 21920", "iso-21920")
			if p.family == iso2021 {
				largest.edition = ""
			}
			r.ask("rz1max", "settings", text, at, put(one, "one-section", "Rz over one section, maximum rule", "", insert(r.at["tail"].from, " nsc 1")), largest)
			return
		}
		r.ask("rz1max", "settings", text, at, byEdition("iso-4287"), byEdition("iso-21920"))
		return
	}
	var choices []choice
	for _, key := range r.meanings() {
		if y := symbolBy(p.edition, key, letter); y.Key != "" {
			choices = append(choices, put(y, y.Name, y.Name+p.meaning(y), ""))
		} else if y := symbolBy("iso-21920", key, letter); y.Key != "" {
			choices = append(choices, put(y, "iso-21920-"+y.Name, y.Name+" of ISO 21920"+p.meaning(y), "iso-21920"))
		}
	}
	for _, id := range editionIDs {
		if slices.ContainsFunc(symbolsOf(id), func(y Symbol) bool { return y.Name == name }) {
			e, _ := EditionByID(id)
			choices = append(choices, choice{id, name + ", read by " + e.Title, nil, id})
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
func (p *parser) meaning(y Symbol) string {
	return map[string]string{"Rzx": ", the largest height of a section", "Rt": ", the height of the whole profile", "Ry": ", the maximum height", "Rz": ", the mean height of the sections"}[y.Key]
}

// askTriangles asks what the triangles of old drawings stand for.
func (p *parser) askTriangles(r *Requirement, at span) {
	var choices []choice
	for _, m := range TriangleMarks(r.Mark) {
		key, text := "jis", m.System
		if m.Series != "" {
			key, text = "din-"+m.Series, m.System+", series "+m.Series
		} else if m.Symbol != "Ra" {
			key += "-" + m.Symbol
		}
		c := choice{key, fmt.Sprintf("%s: %s at most %s µm", text, m.Symbol, shortest(m.Limit)), []edit{{at.from, at.to, m.Symbol + " " + p.number(m.Limit) + " µm"}}, ""}
		if !p.has(m.Symbol) {
			if c.edition = "iso-4287"; m.Symbol == "Rmax" {
				continue
			}
		}
		choices = append(choices, c)
	}
	r.ask("mark", "settings", "A withdrawn mark; the numbers of old tables are an orientation, not a requirement.", at, choices...)
}

// has tells whether the edition has a symbol of this name.
func (p *parser) has(name string) bool {
	return slices.ContainsFunc(symbolsOf(p.edition), func(y Symbol) bool { return y.Name == name })
}

// askOldJIS asks about 25S, 25Z and 1,6a outside the edition that writes them.
func (p *parser) askOldJIS(r *Requirement, letter rune, at span) {
	number := p.source(r.first.number) + " µm"
	means := map[rune]struct{ key, text string }{'S': {"Rz", "the maximum height"}, 'Z': {"RzJIS", "the ten-point height"}, 'a': {"Ra", "the centre-line average"}}[letter]
	var choices []choice
	for _, id := range []string{p.edition, "iso-4287"} {
		if y := symbolBy(id, means.key, 'R'); y.Key != "" {
			c := choice{strings.ToLower(y.Name), y.Name + ", " + means.text + ", " + number, []edit{{at.from, at.to, y.Name + " " + number}}, id}
			if id == p.edition {
				c.edition = ""
			}
			choices = append(choices, c)
			break
		}
	}
	r.ask("mark", "settings", "The notation of JIS B 0601:1982 for "+means.text+".", at, append(choices, byEdition("jis-b0601-1982"))...)
}

// askBare asks what a number without a symbol is.
func (p *parser) askBare(r *Requirement, at span) {
	var choices []choice
	edition := ""
	if !p.has("Ra") {
		edition = "iso-4287"
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
	r.ask("symbol", "settings", "A number without a symbol.", at, choices...)
}

// askRMS asks whether RMS is Rq or Ra. Where the unit is open and an edition would fill it in, the answers name it.
func (p *parser) askRMS(r *Requirement, at span) {
	number := p.source(span{r.first.number.from, r.first.at.to})
	if r.second != nil {
		number = p.source(span{r.first.number.from, r.second.at.to})
	}
	units := []string{""}
	if r.first.unit == "" && (r.second == nil || r.second.unit == "") {
		if p.family != asme {
			units = []string{" µm", " µin"}
		}
		r.at["amounts"] = r.first.number
		if r.second != nil {
			r.at["amounts"] = r.second.number
		}
	}
	var choices []choice
	for _, y := range []struct{ name, text string }{{"Rq", "Rq, the root mean square height"}, {"Ra", "Ra, as on most old drawings"}} {
		edition := ""
		if !p.has(y.name) {
			edition = "iso-4287"
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
	at, e := r.at["band"], editionOf("iso-4287")
	for _, row := range e.Rows {
		text := "-" + p.mm(row.Long) + "/"
		if r.sym.Letter == 'W' {
			text = p.mm(row.Long) + "-" + p.mm(10*row.Long) + "/"
		} else if r.sym.Letter == 'P' {
			continue
		}
		choices = append(choices, choice{strconv.FormatFloat(row.Long/1000, 'f', -1, 64), "cut-off " + Length(row.Long), []edit{{at.from, at.to, text}}, ""})
	}
	for _, v := range []float64{2.5, 8, 25} {
		if r.sym.Letter == 'P' {
			choices = append(choices, choice{shortest(v), "S-filter " + Length(v), []edit{{at.from, at.to, p.mm(v) + "-/"}}, ""})
		}
	}
	r.ask("cutoff", "settings", "One length before the stroke is the sampling length of old drawings, or a band cut short.", at, choices...)
	r.cutoffOpen = true
}

func editionOf(id string) Edition {
	e, _ := EditionByID(id)
	return e
}
