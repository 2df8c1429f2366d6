package callout

import (
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// What concerns several requirements of a text, or needs its settings: the questions that are asked when all is read.

// derive works out the settings of all requirements and asks what is left.
func (p *parser) derive() error {
	p.askEdition()
	p.askList()
	if err := p.twins(); err != nil {
		return err
	}
	for _, r := range p.items {
		e := editionOf(r.Edition)
		if !r.RuleWritten {
			r.Rule = e.Rule
		}
		r.Settings = Settings{Edition: e.ID, Origins: map[string]Origin{}}
		if r.open {
			r.Symbol = ""
			continue
		}
		if err := p.classAgrees(r, e); err != nil {
			return err
		}
		d := deriving{p: p, r: r, e: e, t: &r.Settings}
		for _, o := range p.items {
			if o != r && o.Symbol == r.Symbol && o.Edition == r.Edition && o.Side != r.Side {
				d.other = o
			}
		}
		if err := d.all(); err != nil {
			return err
		}
		p.askLevel(r)
		r.Settings.Complete = r.Settings.Sections > 0 && !slices.ContainsFunc(r.Questions, func(q Question) bool { return q.Blocks == "settings" })
		r.Settings.sources()
	}
	return nil
}

// classAgrees refuses a class beside a cut-off that is not the one of the class.
func (p *parser) classAgrees(r *Requirement, e standards.Edition) error {
	if r.Class == "" || r.Long == 0 {
		return nil
	}
	for _, row := range e.Rows {
		if row.Name == r.Class && !standards.Near(row.Long, r.Long) {
			at := max(r.at["class"].from, r.at["long"].from)
			return p.fail(at, ErrSyntax, "class %s has the cut-off %s, and the text states %s", r.Class, standards.Length(row.Long), standards.Length(r.Long))
		}
	}
	return nil
}

// askEdition asks by which edition a text is meant that has forms or symbols of another one.
func (p *parser) askEdition() {
	if len(p.foreign) == 0 {
		return
	}
	var ids []standards.EditionID
	var what []string
	symbol := false
	for _, f := range p.foreign {
		for _, id := range f.editions {
			if id != p.edition && !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
		if text := p.source(f.at); !slices.Contains(what, text) {
			what = append(what, text)
		}
		symbol = symbol || f.kind == "symbol"
	}
	first := p.foreign[0]
	var choices []choice
	for _, id := range ids {
		choices = append(choices, byEdition(id))
	}
	if edits, ok := p.inOwnForms(); ok && !symbol {
		choices = append(choices, choice{"this", "by " + editionOf(p.edition).Title + ", as the text says", edits, ""})
	}
	text := fmt.Sprintf("%s belongs to the text of another edition, with other rules: by which one is the requirement meant?", strings.Join(what, ", "))
	for _, r := range p.items {
		r.ask("edition", "settings", text, first.at, choices...)
		r.editionOpen = true
	}
}

// inOwnForms rewrites the forms of another edition as those of the own; ok is false for what it cannot say.
func (p *parser) inOwnForms() (edits []edit, ok bool) {
	for _, f := range p.foreign {
		r := f.r
		tail := r.at["tail"].from
		switch f.kind {
		case "count":
			edits = append(edits, edit{f.at.from, f.at.to, ""}, insert(tail, fmt.Sprintf(" nsc %d", r.Sections)))
			if f.at.to < len(p.text) && !isBlank(p.text[f.at.to]) {
				edits = append(edits, insert(f.at.to, " "))
			}
		case "band":
			if r.LongFilter != "" || r.band.motif || !r.band.hyphen {
				return nil, false
			}
			b, names := r.band, [2]string{"Nis", "Nic"}
			if p.edition != standards.ISO21920 {
				names = [2]string{"λs", "λc"}
			}
			if r.sym.Letter == 'W' {
				names = [2]string{names[1], "λf"}
			}
			e := edit{f.at.from, f.at.to, ""}
			for e.to < len(p.text) && p.text[e.to] == ' ' {
				e.to++
			}
			edits = append(edits, e)
			if b.hasShort {
				edits = append(edits, insert(tail, " "+names[0]+" "+p.source(p.numberAt(b.short))+" mm"))
			}
			if b.hasLong {
				edits = append(edits, insert(tail, " "+names[1]+" "+p.source(p.numberAt(b.long))+" mm"))
			}
		case "tmax":
			drop := p.without(f.at)
			if f.at.from <= r.at["symbol"].from {
				drop = edit{f.at.from, f.at.to + 1, ""}
			}
			if !p.own(form1302) { // the maximum rule needs no word there
				edits = append(edits, edit{f.at.from, f.at.to, "max-rule"})
				break
			}
			at := r.at["symbol"]
			if c, ok := r.at["count"]; ok {
				at = c
			}
			word := "max"
			if at.to < len(p.text) && !isBlank(p.text[at.to]) {
				word += " "
			}
			edits = append(edits, drop, insert(at.to, word))
		case "t16 %", "t16":
			edits = append(edits, edit{f.at.from, f.at.to, "16%"})
		case "tmed":
			edits = append(edits, edit{f.at.from, f.at.to, "median"})
		case "sc":
			for _, row := range editionOf(standards.ISO21920).Rows {
				if row.Name == r.Class {
					edits = append(edits, edit{f.at.from, f.at.to, ""}, insert(tail, " λc "+p.mm(row.Long)+" mm"))
					if f.at.from >= tail {
						edits = append(edits[:len(edits)-2], edit{f.at.from, f.at.to, "λc " + p.mm(row.Long) + " mm"})
					}
				}
			}
		}
	}
	return edits, true
}

// askList asks which of several requirements hold.
func (p *parser) askList() {
	if len(p.options) == 0 {
		return
	}
	trim := func(s span) span {
		for s.from < s.to && isBlank(p.text[s.from]) {
			s.from++
		}
		for s.to > s.from && isBlank(p.text[s.to-1]) {
			s.to--
		}
		return s
	}
	whole := span{trim(p.options[0]).from, p.options[len(p.options)-1].to}
	text := "Either of them, or both: which requirement holds?"
	var all []edit
	for _, s := range p.signs {
		all = append(all, edit{s.from, s.to, "and"})
	}
	if !p.ors {
		whole.to = p.signs[0].to
		text = "A second requirement in brackets is the one of other surfaces of the drawing, or holds as well: which one holds here?"
		open := p.signs[0]
		before := p.without(span{open.from, open.from + 1})
		all = []edit{{before.from, open.from + 1, "; "}, {open.to - 1, open.to, ""}}
	}
	in := func(r *Requirement) bool { return r.at["begin"].from >= whole.from && r.at["begin"].from < whole.to }
	for i, r := range p.items { // two limits on one parameter need their side
		for j, o := range p.items {
			if i != j && in(r) && in(o) && r.Symbol == o.Symbol && !r.SideWritten {
				all = append(all, insert(r.at["head"].from, "U "))
				break
			}
		}
	}
	choices := []choice{{"all", "all of them", all, ""}}
	for i, s := range p.options {
		choices = append(choices, choice{[]string{"first", "second", "third", "fourth"}[min(i, 3)], p.source(trim(s)), []edit{{whole.from, whole.to, p.source(trim(s))}}, ""})
	}
	for _, r := range p.items {
		if in(r) {
			r.ask("list", "verdict", text, p.signs[0], choices...)
			r.listed = true
		}
	}
}

// twins looks at requirements on one parameter: limits that exclude each other, sides that are not written, and settings that are written
// for one of them only.
func (p *parser) twins() error {
	for i, r := range p.items {
		for _, o := range p.items[i+1:] {
			same := r.Symbol != "" && r.Symbol == o.Symbol && r.Edition == o.Edition
			if same && r.Side != o.Side && !r.listed {
				low, high := r, o
				if low.Side == standards.Upper {
					low, high = o, r
				}
				if low.Limit > high.Limit {
					e := p.fail(o.at["number"].from, ErrNumber, "the lower limit lies above the upper one: no value can keep both")
					if a, b := r.at["side"], o.at["side"]; a.to > 0 && b.to > 0 && a != b {
						e.Try = p.edited(edit{a.from, a.to, p.source(b)}, edit{b.from, b.to, p.source(a)})
					}
					return e
				}
			}
			if same && !r.listed && !(r.SideWritten && o.SideWritten) && r.Side == o.Side && !r.Open("side") && !o.Open("side") {
				p.askSides(r, o)
			}
			if r.at["begin"] != o.at["begin"] && (same && r.Side != o.Side && r.Line == o.Line || o.soft && r.onLine && r.Line == o.Line) {
				r.shares(o)
				o.shares(r)
			}
		}
	}
	return nil
}

// shares notes that a class or cut-off stands at o, on the same line, and none at r.
func (r *Requirement) shares(o *Requirement) {
	if (o.Class != "" || o.Long > 0) && r.Class == "" && r.Long == 0 && r.sym.Letter == o.sym.Letter {
		r.beside = o
	}
}

// askSides asks on which side two limits on one parameter are, or more of them.
func (p *parser) askSides(r, o *Requirement) {
	var group []*Requirement
	low, high := r, o
	if r.Limit > o.Limit {
		low, high = o, r
	}
	var upper []edit
	for _, x := range p.items {
		if x.Symbol == r.Symbol && x.Edition == r.Edition && x.Side == standards.Upper && !x.listed {
			group = append(group, x)
			if !x.SideWritten {
				upper = append(upper, insert(x.at["head"].from, "U "))
			}
		}
	}
	var choices []choice
	if len(group) == 2 && !low.SideWritten && low.Limit < high.Limit {
		edits := []edit{insert(low.at["head"].from, "L ")}
		if !high.SideWritten {
			edits = append(edits, insert(high.at["head"].from, "U "))
		}
		choices = append(choices, choice{"range", "maximum and minimum", edits, ""})
	}
	choices = append(choices, choice{"upper", standards.InWords(len(group)) + " upper limits", upper, ""})
	for _, x := range group {
		x.ask("side", "verdict", fmt.Sprintf("%s has %s limits, and the text does not say which of them are upper and lower ones.", r.Symbol, standards.InWords(len(group))), o.at["begin"], choices...)
	}
}

// askLevel asks for side and reference of a material ratio.
func (p *parser) askLevel(r *Requirement) {
	key := r.sym.Key
	if key != "Rmr" && key != "RmrFrom" && key != "Tp" {
		return
	}
	head, tail := r.at["head"].from, r.at["tail"].from
	if key == "Rmr" && r.Reference == "" {
		says := func(key, text string) choice { return choice{key, text, []edit{insert(tail, " ("+text+")")}, ""} }
		r.ask("reference", "verdict", "From where does the level in brackets count? The same surface gives another ratio for each.", r.at["symbol"],
			says("mean-line", "from the mean line"), says("highest-peak", "from the highest peak"), says("5%", "from 5 %"))
	}
	if !r.SideWritten && !slices.ContainsFunc(r.Questions, func(q Question) bool { return q.Key == "side" }) {
		r.ask("side", "verdict", "A material ratio often has a lower limit, written with L. This text does not say which side is meant.", r.at["begin"],
			choice{"upper", "an upper limit", []edit{insert(head, "U ")}, ""}, choice{"lower", "a lower limit", []edit{insert(head, "L ")}, ""})
	}
}

// askSettings asks for a class or a cut-off.
func (d *deriving) askClass(text string) {
	r, p := d.r, d.p
	tail := r.at["tail"].from
	e, key := d.e, "class"
	if d.e.ID == standards.ISO12085 {
		e = editionOf(standards.ISO4287)
	}
	var choices []choice
	for _, row := range e.Rows {
		text := fmt.Sprintf("cut-off %s, evaluated over %s", standards.Length(row.Long), standards.Length(row.Evaluation))
		if e.FromLimit {
			choices = append(choices, choice{row.Name, row.Name + ": " + text, []edit{insert(tail, " "+row.Name)}, ""})
			continue
		}
		key = "cutoff"
		put := insert(tail, " λc "+p.mm(row.Long)+" mm")
		if _, marked := r.at["mark"]; p.own(form1302) && !marked && r.band == (transmission{}) && d.e.ID != standards.ISO12085 && r.sym.Letter == 'R' && r.at["head"].from <= r.at["symbol"].from &&
			r.first.number.from > r.at["symbol"].from && r.Short == 0 {
			put = insert(r.at["head"].from, "-"+p.mm(row.Long)+"/")
		}
		choices = append(choices, choice{p.number(row.Long / 1000), text, []edit{put}, ""})
	}
	r.ask(key, "settings", text, r.at["symbol"], choices...)
}

// askBand asks for the band of a W-parameter of ISO 4287.
func (d *deriving) askBand() {
	r, p := d.r, d.p
	var choices []choice
	for _, row := range d.e.Rows {
		band := p.mm(row.Long) + "-" + p.mm(10*row.Long) + "/"
		edits := []edit{insert(r.at["head"].from, band)}
		if !p.own(form1302) || r.at["head"].from > r.at["symbol"].from {
			edits = []edit{insert(r.at["tail"].from, " λc "+p.mm(row.Long)+" mm λf "+p.mm(10*row.Long)+" mm")}
		}
		choices = append(choices, choice{p.number(row.Long / 1000), "waves from " + standards.Length(row.Long) + " to " + standards.Length(10*row.Long), edits, ""})
	}
	r.ask("band", "settings", fmt.Sprintf("%s has no default: its band must be stated.", r.Symbol), r.at["symbol"], choices...)
}

// askShort asks for the S-filter of a P-parameter.
func (d *deriving) askShort() {
	text := fmt.Sprintf("%s needs the cut-off of its S-filter.", d.r.Symbol)
	if d.e.FromLimit && d.r.Symbol == "Pt" {
		text = "Pt has defaults that follow from its limit (ISO 21920-3, 4.4.6), but their numbers were not seen: state the nesting index of the S-filter."
	}
	d.shortChoices("short", text, 0)
}

// askLengths asks for the S-filter of a cut-off that is not in the table.
func (d *deriving) askLengths() {
	d.shortChoices("lengths", fmt.Sprintf("%s is not a cut-off of the table, so nothing goes with it: which S-filter?", standards.Length(d.r.Long)), d.r.Long)
}

func (d *deriving) shortChoices(key, text string, below float64) {
	name := "λs"
	if d.e.FromLimit {
		name = "Nis"
	}
	values := []float64{2.5, 8, 25}
	if below > 0 && below <= 25 {
		values = []float64{below / 10, below / 30, below / 100}
	}
	var choices []choice
	for _, v := range values {
		choices = append(choices, choice{shortest(v), "S-filter " + standards.Length(v), []edit{insert(d.r.at["tail"].from, " "+name+" "+d.p.number(v)+" µm")}, ""})
	}
	d.r.ask(key, "settings", text, d.r.at["symbol"], choices...)
}

// possible leaves out the answers that lead to a refusal, or to the same question again, as long as one is left.
func (p *parser) possible() {
	known, now := map[Answer]bool{}, p.result()
	for _, r := range p.items {
		for i, q := range r.Questions {
			var good []Answer
			for _, a := range q.Answers {
				ok, seen := known[a]
				if !seen {
					ok = p.leads(now, q, a)
					known[a] = ok
				}
				if ok {
					good = append(good, a)
				}
			}
			if len(good) > 0 {
				r.Questions[i].Answers = good
			}
		}
	}
}

// leads tells whether an answer leads to a text where its question is answered.
func (p *parser) leads(now *Requirements, q Question, a Answer) bool {
	text, edition := a.Then, a.Edition
	if text == "" {
		text = string(p.raw)
	}
	if edition == "" {
		edition = p.edition
	}
	next, err := readText(text, edition, false)
	if err != nil {
		return false
	}
	open := func(rs *Requirements) (n int) {
		for _, o := range rs.Open() {
			if o.Key == q.Key && o.Text == q.Text {
				n++
			}
		}
		return n
	}
	return open(next) < open(now)
}

// suggest looks for one correction of a refused text that can be read.
func (p *parser) suggest(e *TextError) string {
	if e.Try != "" {
		if _, err := readText(e.Try, p.edition, false); err == nil {
			return e.Try
		}
	}
	if len(p.raw) > 200 || e.at > len(p.raw) {
		return ""
	}
	var tries []string
	end := e.at
	for end < len(p.text) && !isBlank(p.text[end]) {
		end++
	}
	word := string(p.text[e.at:end])
	if word == "16" && p.edition == standards.ISO21920 {
		tries = append(tries, p.edited(edit{e.at, end, "T16%"}))
	}
	for at := max(e.at-20, 1); at < end && at < e.at+20; at++ { // a missing blank, never inside a number or behind a hyphen
		if a, b := p.text[at-1], p.text[at]; a != '-' && !isBlank(a) && !isBlank(b) && !((isDigit(a) || isMark(a)) && (isDigit(b) || isMark(b))) {
			tries = append(tries, p.edited(insert(at, " ")))
		}
	}
	found := ""
	for _, t := range tries {
		if _, err := readText(t, p.edition, false); err != nil {
			continue
		}
		if found != "" && strings.Join(strings.Fields(t), "") != strings.Join(strings.Fields(found), "") {
			return ""
		}
		if found == "" {
			found = t
		}
	}
	return found
}
