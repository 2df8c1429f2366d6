package callout

import (
	"slices"
	"strings"
	"unicode"

	"example.com/furrow/standards"
)

// The grammar, in words. A text is one or more requirements. A line end or a semicolon separates them; so do, when another requirement begins
// behind it, a stroke, a comma with a blank, "and", "&", "or", or a blank alone. A requirement has
//
//	[removal] [process] [U|L] ["filter"] [band] symbol [count] [max]  limit [unit] [the limit in another unit, in brackets]
//
// and then, in any order, what partTable names, each once, each also in brackets. Rule, class, max and min may also stand before the
// symbol or the limit. Only known words are passed over: an unknown one refuses the text, because it can turn the meaning round.

// ParseRequirement reads the text of a drawing requirement under an edition (ISO 21920 when empty), whatever its spacing, case and order of
// parts. A refusal is a *TextError and gives nothing. What the text leaves open is a question of its requirement, never a choice made
// silently.
func ParseRequirement(text string, edition standards.EditionID) (*Requirements, error) {
	p, refused := readText(text, edition)
	if refused != nil {
		refused.Try = p.suggest(refused)
		return nil, refused
	}
	p.possible()
	all := p.result()
	all.Text = text
	return all, nil
}

// readText reads a text.
func readText(text string, edition standards.EditionID) (p *parser, refused *TextError) {
	if edition == "" {
		edition = standards.ISO21920
	}
	p = &parser{scanner: newScanner(text), edition: edition, free: -1}
	return p, attempt(func() {
		if _, ok := standards.EditionByID(edition); !ok {
			p.refuse(ErrEdition, 0, "no edition %q", edition)
		}
		p.all()
		p.derive()
	})
}

// result returns the requirements as read so far.
func (p *parser) result() *Requirements {
	all := &Requirements{Text: string(p.raw), Edition: p.edition}
	for _, r := range p.items {
		all.Items = append(all.Items, *r)
	}
	return all
}

// parser reads one text.
type parser struct {
	*scanner
	edition   standards.EditionID
	items     []*Item
	foreign   []foreign
	free      int    // a place where a symbol may follow a letter: behind U or L
	removal   string // for the requirements that follow
	process   string
	options   []span // requirements of which one may be meant: with "or", or one behind the other in brackets
	signs     []span // what stands between them
	ors       bool   // the requirements stand with "or"
	lineBegin int
}

// foreign is a form or a symbol that belongs to the text of another edition.
type foreign struct {
	kind     string
	at       span
	r        *Item
	editions []standards.EditionID
}

// all reads the whole text.
func (p *parser) all() {
	for i, c := range p.raw {
		switch {
		case i >= maxText:
			p.bad(maxText, "a text of more than %d characters", maxText)
		case turnsDirection(c):
			p.bad(i, "a character that turns the direction of the text: what is seen is then not what is stored")
		}
	}
	p.strip()
	begin, whole := p.pos, p.end
	for p.pos < whole {
		p.end = p.hardEnd()
		next := p.end + 1
		if !p.done() {
			p.line()
		}
		p.end = whole
		p.pos = min(next, whole)
	}
	// A requirement in brackets was added before the one it stands behind.
	slices.SortStableFunc(p.items, func(a, b *Item) int { return a.at["begin"].from - b.at["begin"].from })
	if len(p.items) == 0 {
		p.bad(begin, "no requirement in the text")
	}
}

// strip leaves out quotation marks around the whole text and a full stop at its end.
func (p *parser) strip() {
	p.end = p.last()
	p.blanks()
	if n := p.end - 1; n-p.pos > 1 && p.text[p.pos] == '"' && p.text[n] == '"' && !slices.Contains(p.text[p.pos+1:n], '"') {
		p.pos, p.end = p.pos+1, n
		p.end = p.last()
	}
	if n := p.end - 1; n-p.pos > 0 && p.text[n] == '.' && p.text[n-1] != '.' {
		p.end = n
	}
}

// hardEnd returns the next line end or semicolon outside quotation marks and brackets.
func (p *parser) hardEnd() int {
	quote := false
	for i := p.pos; i < p.end; i++ {
		switch r := p.text[i]; {
		case r == '\n':
			return i
		case r == '"':
			quote = !quote
		case quote:
		case r == '(' || r == '[':
			i = max(i, p.closing(i))
		case r == ';':
			return i
		}
	}
	return p.end
}

// line reads the requirements between two line ends or semicolons.
func (p *parser) line() {
	p.lineBegin = p.pos
	for soft := false; ; soft = true {
		before, from := len(p.items), p.pos
		r := p.requirement()
		for _, x := range p.items[before:] {
			x.onLine = soft || p.pos < p.end
			x.soft = soft
		}
		option := span{from, p.pos}
		if p.done() {
			if p.ors {
				p.options = append(p.options, option)
			}
			return
		}
		sep := p.pos
		sign := p.taken("or", "and", "&", "/", ",")
		if !p.begins() {
			p.pos = sep
			if c := p.peek(0); c == ',' || c == '/' {
				p.bad(sep, "no requirement begins behind this sign")
			}
			p.unknown()
		}
		if last := r.at[r.lastPart]; sign == "" && slices.Contains([]string{"rule", "class", "max", "min"}, r.lastPart) && last.to == option.to {
			next := *p.scanner
			if !next.take("U ", "L ") {
				p.bad(last.from, "this can belong to the limit before it or to the one behind it: put a semicolon between the two requirements")
			}
		}
		if sign == "or" {
			if len(p.options) > 0 && !(p.ors && p.signs[len(p.signs)-1].to > p.lineBegin) {
				p.choices(sep)
			}
			p.ors = true
			p.options = append(p.options, option)
			p.signs = append(p.signs, span{sep, sep + 2})
		}
		p.blanks()
	}
}

// unknown refuses what stands next.
func (p *parser) unknown() { p.bad(p.pos, "%s has no meaning that is known here", p.rest()) }

// choices refuses a text with more than one choice between requirements.
func (p *parser) choices(at int) {
	p.bad(at, "the text leaves more than one choice: write the requirement that is meant")
}

// ahead reads from here, takes all back, and tells whether the reading was refused.
func (p *parser) ahead(read func(scratch *Item)) (refused bool) {
	saved, keep, forms := *p.scanner, p.free, len(p.foreign)
	defer func() { *p.scanner, p.free, p.foreign = saved, keep, p.foreign[:forms] }()
	return attempt(func() { read(p.fresh()) }) != nil
}

// begins tells whether a requirement begins here.
func (p *parser) begins() (ok bool) {
	return p.ahead(func(r *Item) { // one that is refused will be refused there
		p.blanks()
		p.front(r)
		p.blanks()
		_, side := r.at["side"]
		ok = side && p.pos < p.end || r.at["band"].to > 0 || p.symbolNext() || p.markAhead()
	}) || ok
}

// symbolNext tells whether a symbol comes next.
func (p *parser) symbolNext() bool {
	_, ok := p.symbolAt(p.pos, p.edition, standards.ISO12085)
	return ok
}

// fresh returns a requirement with nothing read.
func (p *parser) fresh() *Item {
	r := &Item{Edition: p.edition, at: map[string]span{"begin": {p.pos, p.pos}}, s: p.scanner}
	r.Line, r.Column = p.place(p.pos)
	return r
}

// requirement reads one requirement; two numbers make two of it.
func (p *parser) requirement() *Item {
	p.blanks()
	r := p.fresh()
	p.front(r)
	if r.Removal == "" {
		r.Removal = p.removal
	}
	if r.Process == "" {
		r.Process = p.process
	}
	p.removal, p.process = r.Removal, r.Process
	if begin := r.at["begin"].from; p.done() {
		p.bad(begin, "%s alone is no requirement: a symbol and a limit are missing", strings.TrimSpace(p.source(span{begin, p.end})))
	}
	r.at["head"] = span{p.pos, p.pos}
	if b := r.at["band"]; b.to > 0 {
		r.at["head"] = b
	}
	if !p.mark(r) {
		p.symbolAndLimit(r)
	}
	p.tail(r)
	p.items = append(p.items, p.expand(r)...)
	return r
}

// front reads what may stand before the symbol.
func (p *parser) front(r *Item) {
	for {
		p.blanks()
		at := p.pos
		if p.peek(0) == '√' {
			p.pos++
			continue
		}
		if side, ok := p.sideLetter(); ok {
			p.once(r, "side", at)
			p.agrees(r, side, at)
			r.Side, r.SideWritten, r.at["side"] = side, true, span{at, at + 1}
			continue
		}
		if w := p.taken("APA", "MRR", "NMR"); w != "" {
			p.once(r, "removal", at)
			r.Removal, r.at["removal"] = w, span{at, p.pos}
			continue
		}
		if p.peek(0) == '"' {
			p.filterOrProcess(r)
			continue
		}
		if p.band(r) {
			return
		}
		if side, ok := p.extreme(); ok {
			p.say(r, side, span{at, p.pos}, false)
			continue
		}
		if !p.part(r, true) {
			return
		}
	}
}

// agrees refuses a side that contradicts the one written before.
func (p *parser) agrees(r *Item, side standards.Side, at int) {
	if r.SideWritten && r.Side != side {
		p.bad(at, "this says %s limit, and what stands before it says %s limit", side, r.Side)
	}
}

// sideLetter reads U or L before a symbol, with or without a blank.
func (p *parser) sideLetter() (side standards.Side, ok bool) {
	at, c, next := p.pos, p.peek(0), p.peek(1)
	switch unicode.ToLower(c) {
	case 'l':
		side = standards.Lower
	case 'u':
	default:
		return
	}
	switch next {
	case ' ', '"', '-':
		after := *p.scanner
		if after.pos++; after.done() {
			return
		}
		// A small letter only right before a symbol.
		if _, ok = p.symbolAt(after.pos, p.edition); ok || unicode.IsUpper(c) {
			p.pos++
			return side, true
		}
		return
	}
	if !unicode.IsUpper(c) || !unicode.IsLetter(next) {
		return
	}
	if m, known := p.symbolAt(at, p.edition); known && m.exact && !m.other {
		return
	}
	keep := p.free
	p.free = at + 1
	if m, known := p.symbolAt(at+1, p.edition, standards.ISO12085); known && m.exact {
		p.pos++
		return side, true
	}
	p.free = keep
	return
}
