package callout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// What concerns several requirements of a text, or needs its settings: the questions that are asked when all is read.

// derive works out the settings of all requirements and asks what is left.
func (p *parser) derive() {
	p.askEdition()
	p.askList()
	p.twins()
	for _, r := range p.items {
		e := editionOf(r.Edition)
		if !r.RuleWritten {
			r.Rule = e.Rule
		}
		r.Settings = Derived{"edition": {Word: string(e.ID)}}
		if r.open {
			r.Symbol = ""
			continue
		}
		d := deriving{p: p, r: r, e: e, t: r.Settings}
		d.classAgrees()
		for _, o := range p.items {
			if o != r && o.twin(r) && o.Side != r.Side {
				d.other = o
			}
		}
		d.all()
		p.askLevel(r)
		r.Complete = r.Settings["sections"].Number > 0 && !slices.ContainsFunc(r.Questions, func(q Question) bool { return q.Blocks == "settings" })
		r.Settings.sources()
	}
}

// twin tells whether two requirements are on one parameter.
func (r *Item) twin(o *Item) bool {
	return r.Symbol == o.Symbol && r.Edition == o.Edition
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
	var choices []choice
	for _, id := range ids {
		choices = append(choices, byEdition(id))
	}
	if edits, ok := p.inOwnForms(); ok && !symbol {
		choices = append(choices, pick("this", byEdition(p.edition).text+", as the text says", edits...))
	}
	text := fmt.Sprintf("%s belongs to the text of another edition, with other rules: by which one is the requirement meant?", strings.Join(what, ", "))
	for _, r := range p.items {
		r.ask("edition", text, p.foreign[0].at, choices...)
		r.editionOpen = true
	}
}

// inOwnForms rewrites the forms of another edition as those of the own; ok is false for what it cannot say.
func (p *parser) inOwnForms() (edits []edit, ok bool) {
	for _, f := range p.foreign {
		r := f.r
		tail, symbol := r.at["tail"].from, r.at["symbol"].from
		put := func(e ...edit) { edits = append(edits, e...) }
		// joined is a blank where text follows at a place.
		joined := func(at int) string {
			if at < len(p.text) && !isBlank(p.text[at]) {
				return " "
			}
			return ""
		}
		switch f.kind {
		case "count":
			put(edit{f.at, joined(f.at.to)}, insert(tail, fmt.Sprintf(" nsc %d", r.Sections)))
		case "band":
			b := r.band
			if r.LongFilter != "" || b.motif || !b.hyphen {
				return nil, false
			}
			names := []string{"Nis", "Nic"}
			if p.edition != standards.ISO21920 {
				names = []string{"λs", "λc"}
			}
			if r.sym.Letter == 'W' {
				names = []string{names[1], "λf"}
			}
			put(edit{p.withBlanks(f.at, len(p.text)), ""})
			for i, d := range []*decimal{b.short, b.long} {
				if d != nil {
					put(insert(tail, " "+names[i]+" "+p.source(d.span)+" mm"))
				}
			}
		case "Tmax":
			if !p.own(form1302) { // the maximum rule needs no word there
				put(edit{f.at, "max-rule"})
				break
			}
			drop := p.without(f.at)
			if f.at.from <= symbol {
				drop = edit{span{f.at.from, f.at.to + 1}, ""}
			}
			at := r.behindSymbol()
			put(drop, insert(at, "max"+joined(at)))
		case "T16 %", "T16":
			put(edit{f.at, "16%"})
		case "Tmed":
			put(edit{f.at, "median"})
		case "Sc":
			for _, row := range editionOf(standards.ISO21920).Rows {
				if long := "λc " + p.mm(row.Long) + " mm"; row.Name == r.Class && f.at.from >= tail {
					put(edit{f.at, long})
				} else if row.Name == r.Class {
					put(edit{f.at, ""}, insert(tail, " "+long))
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
	whole := span{to: p.options[len(p.options)-1].to}
	for i, s := range p.options {
		option := scanner{text: p.text, pos: s.from, end: s.to}
		option.blanks()
		p.options[i] = span{option.pos, option.last()}
	}
	whole.from = p.options[0].from
	text := "Either of them, or both: which requirement holds?"
	var all []edit
	for _, s := range p.signs {
		all = append(all, edit{s, "and"})
	}
	if !p.ors {
		brackets := p.signs[0]
		whole.to = brackets.to
		text = "A second requirement in brackets is the one of other surfaces of the drawing, or holds as well: which one holds here?"
		open := p.without(span{brackets.from, brackets.from + 1})
		open.text = "; "
		all = []edit{open, {span{brackets.to - 1, brackets.to}, ""}}
	}
	in := func(r *Item) bool { return r.at["begin"].from >= whole.from && r.at["begin"].from < whole.to }
	for i, r := range p.items { // two limits on one parameter need their side
		for j, o := range p.items {
			if i != j && in(r) && in(o) && r.Symbol == o.Symbol && !r.SideWritten {
				all = append(all, insert(r.at["head"].from, "U "))
				break
			}
		}
	}
	choices := []choice{pick("all", "all of them", all...)}
	for i, s := range p.options {
		choices = append(choices, pick([]string{"first", "second", "third", "fourth"}[min(i, 3)], p.source(s), edit{whole, p.source(s)}))
	}
	for _, r := range p.items {
		if in(r) {
			r.ask("list", text, p.signs[0], choices...)
			r.listed = true
		}
	}
}

// twins looks at requirements on one parameter: limits that exclude each other, sides that are not written, and settings that are written
// for one of them only.
func (p *parser) twins() {
	for i, r := range p.items {
		for _, o := range p.items[i+1:] {
			same := r.Symbol != "" && r.twin(o)
			low, high := r, o
			if low.Side == standards.Upper {
				low, high = o, r
			}
			sides := r.Side != o.Side
			switch {
			case !same || r.listed:
			case sides && low.Limit > high.Limit:
				e := p.refusal(ErrNumber, o.at["number"].from, exclusive)
				if a, b := r.at["side"], o.at["side"]; a.to > 0 && b.to > 0 && a != b {
					e.Try = p.edited(edit{a, p.source(b)}, edit{b, p.source(a)})
				}
				panic(e)
			case !sides && !(r.SideWritten && o.SideWritten) && !r.Open("side") && !o.Open("side"):
				p.askSides(r, o)
			}
			if r.Line == o.Line && r.at["begin"] != o.at["begin"] && (same && sides || o.soft && r.onLine) {
				r.shares(o)
				o.shares(r)
			}
		}
	}
}

// shares notes that a class or cut-off stands at o, on the same line, and none at r.
func (r *Item) shares(o *Item) {
	if o.explicit() && !r.explicit() && r.sym.Letter == o.sym.Letter {
		r.beside = o
	}
}

// askSides asks on which side two limits on one parameter are, or more of them.
func (p *parser) askSides(r, o *Item) {
	var group []*Item
	low, high := r, o
	if r.Limit > o.Limit {
		low, high = o, r
	}
	side := func(x *Item, letter string) (edits []edit) {
		if !x.SideWritten {
			edits = append(edits, insert(x.at["head"].from, letter))
		}
		return edits
	}
	var upper []edit
	for _, x := range p.items {
		if x.twin(r) && x.Side == standards.Upper && !x.listed {
			group = append(group, x)
			upper = append(upper, side(x, "U ")...)
		}
	}
	number := standards.InWords(len(group))
	choices := []choice{pick("upper", number+" upper limits", upper...)}
	if len(group) == 2 && !low.SideWritten && low.Limit < high.Limit {
		choices = append([]choice{pick("range", "maximum and minimum", append(side(low, "L "), side(high, "U ")...)...)}, choices...)
	}
	for _, x := range group {
		x.ask("side", fmt.Sprintf("%s has %s limits, and the text does not say which of them are upper and lower ones.", r.Symbol, number), o.at["begin"], choices...)
	}
}

// askLevel asks for side and reference of a material ratio.
func (p *parser) askLevel(r *Item) {
	key := r.sym.Key
	if key != "Rmr" && key != "RmrFrom" && key != "Tp" {
		return
	}
	if key == "Rmr" && r.Reference == "" {
		says := func(key, text string) choice { return pick(key, text, insert(r.at["tail"].from, " ("+text+")")) }
		r.ask("reference", "From where does the level in brackets count? The same surface gives another ratio for each.", r.at["symbol"],
			says("mean-line", "from the mean line"), says("highest-peak", "from the highest peak"), says("5%", "from 5 %"))
	}
	if !r.SideWritten && !r.Open("side") {
		head := r.at["head"].from
		r.ask("side", "A material ratio often has a lower limit, written with L. This text does not say which side is meant.", r.at["begin"],
			pick("upper", "an upper limit", insert(head, "U ")), pick("lower", "a lower limit", insert(head, "L ")))
	}
}

// behind is the edit that adds a part at the end of the requirement.
func (r *Item) behind(format string, args ...any) edit {
	return insert(r.at["tail"].from, " "+fmt.Sprintf(format, args...))
}

// byRow is an answer for each row of a table.
func (d *deriving) byRow(answer func(row standards.TableRow) choice) (choices []choice) {
	for _, row := range d.e.Rows {
		choices = append(choices, answer(row))
	}
	return choices
}

// askClass asks for a class or a cut-off.
func (d *deriving) askClass(format string, args ...any) {
	r, p := d.r, d.p
	head, symbol := r.at["head"].from, r.at["symbol"].from
	_, marked := r.at["mark"]
	inFront := p.own(form1302) && !marked && r.band == (transmission{}) && d.e.ID != standards.ISO12085 && r.sym.Letter == 'R' && head <= symbol &&
		r.first.from > symbol && r.Short == 0
	key := "cutoff"
	if d.e.FromLimit {
		key = "class"
	}
	r.ask(key, fmt.Sprintf(format, args...), r.at["symbol"], d.byRow(func(row standards.TableRow) choice {
		text := fmt.Sprintf("cut-off %s, evaluated over %s", standards.Length(row.Long), standards.Length(row.Evaluation))
		if d.e.FromLimit {
			return pick(row.Name, row.Name+": "+text, r.behind("%s", row.Name))
		}
		put := r.behind("λc %s mm", p.mm(row.Long))
		if inFront {
			put = insert(head, "-"+p.mm(row.Long)+"/")
		}
		return pick(p.mm(row.Long), text, put)
	})...)
}

// tenfold is the band of waves from a cut-off to ten times as long, in millimetres and in words.
func (p *parser) tenfold(row standards.TableRow) (from, to, says string) {
	return p.mm(row.Long), p.mm(10 * row.Long), "waves from " + standards.Length(row.Long) + " to " + standards.Length(10*row.Long)
}

// askBand asks for the band of a W-parameter of ISO 4287.
func (d *deriving) askBand() {
	r, p := d.r, d.p
	head := r.at["head"].from
	r.ask("band", r.Symbol+" has no default: its band must be stated.", r.at["symbol"], d.byRow(func(row standards.TableRow) choice {
		from, to, says := p.tenfold(row)
		put := insert(head, from+"-"+to+"/")
		if !p.own(form1302) || head > r.at["symbol"].from {
			put = r.behind("λc %s mm λf %s mm", from, to)
		}
		return pick(from, says, put)
	})...)
}

// askShort asks for the S-filter of a P-parameter.
func (d *deriving) askShort() {
	text := d.r.Symbol + " needs the cut-off of its S-filter."
	if d.e.FromLimit && d.r.Symbol == "Pt" {
		text = "Pt has defaults that follow from its limit (ISO 21920-3, 4.4.6), but their numbers were not seen: state the nesting index of the S-filter."
	}
	d.shortChoices("short", text, 2.5, 8, 25)
}

// askLengths asks for the S-filter of a cut-off that is not in the table.
func (d *deriving) askLengths() {
	long := d.r.Long
	values := []float64{2.5, 8, 25}
	if long <= 25 {
		values = []float64{long / 10, long / 30, long / 100}
	}
	d.shortChoices("lengths", standards.Length(long)+" is not a cut-off of the table, so nothing goes with it: which S-filter?", values...)
}

func (d *deriving) shortChoices(key, text string, values ...float64) {
	name := "λs"
	if d.e.FromLimit {
		name = "Nis"
	}
	var choices []choice
	for _, v := range values {
		choices = append(choices, pick(shortest(v), "S-filter "+standards.Length(v), d.r.behind("%s %s µm", name, d.p.number(v))))
	}
	d.r.ask(key, text, d.r.at["symbol"], choices...)
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
	next, refused := readText(cmp.Or(a.Then, string(p.raw)), cmp.Or(a.Edition, p.edition))
	if refused != nil {
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
	return open(next.result()) < open(now)
}

// suggest looks for one correction of a refused text that can be read.
func (p *parser) suggest(e *TextError) (found string) {
	reads := func(text string) bool {
		q, refused := readText(text, p.edition)
		return refused == nil && !slices.ContainsFunc(q.items, func(r *Item) bool { return r.hidden }) // a blank makes no number without a symbol: "L4"
	}
	if e.Try != "" && reads(e.Try) {
		return e.Try
	}
	if len(p.raw) > 200 || e.at > len(p.raw) {
		return ""
	}
	var tries []string
	here := scanner{text: p.text, pos: e.at, end: len(p.text)}
	word := span{e.at, here.word()}
	if string(p.text[word.from:word.to]) == "16" && p.edition == standards.ISO21920 {
		tries = append(tries, p.edited(edit{word, "T16%"}))
	}
	for at := max(e.at-20, 1); at < word.to && at < e.at+20; at++ { // a missing blank, never inside a number or behind a hyphen
		if a, b := p.text[at-1], p.text[at]; a != '-' && !isBlank(a) && !isBlank(b) && !((isDigit(a) || isMark(a)) && (isDigit(b) || isMark(b))) {
			tries = append(tries, p.edited(insert(at, " ")))
		}
	}
	for _, t := range tries {
		switch {
		case !reads(t):
		case found == "":
			found = t
		case strings.Join(strings.Fields(t), "") != strings.Join(strings.Fields(found), ""):
			return ""
		}
	}
	return found
}
