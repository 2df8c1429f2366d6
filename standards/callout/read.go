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
	return readText(text, edition, true)
}

// readText reads a text; suggest lets a refusal look for a correction.
func readText(text string, edition standards.EditionID, suggest bool) (*Requirements, error) {
	if edition == "" {
		edition = standards.ISO21920
	}
	p := &parser{scanner: newScanner(text), edition: edition, free: -1}
	if _, ok := standards.EditionByID(edition); !ok {
		return nil, p.fail(0, ErrEdition, "no edition %q", edition)
	}
	err := p.all()
	if err == nil {
		err = p.derive()
	}
	if err != nil {
		if e, ok := err.(*TextError); ok && suggest {
			e.Try = p.suggest(e)
		}
		return nil, err
	}
	if suggest {
		p.possible()
	}
	all := p.result()
	all.Text = text
	return all, nil
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
	items     []*Requirement
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
	r        *Requirement
	editions []standards.EditionID
}

// all reads the whole text.
func (p *parser) all() error {
	for i, c := range p.raw {
		switch {
		case i >= maxText:
			return p.fail(maxText, ErrSyntax, "a text of more than %d characters", maxText)
		case turnsDirection(c):
			return p.fail(i, ErrSyntax, "a character that turns the direction of the text: what is seen is then not what is stored")
		}
	}
	p.strip()
	begin := p.pos
	for p.pos < p.end {
		line := *p.scanner
		line.end = p.hardEnd()
		next := line.end + 1
		whole := p.end
		p.end = line.end
		if !p.done() {
			if err := p.line(); err != nil {
				return err
			}
		}
		p.end = whole
		p.pos = min(next, whole)
	}
	// A requirement in brackets was added before the one it stands behind.
	slices.SortStableFunc(p.items, func(a, b *Requirement) int { return a.at["begin"].from - b.at["begin"].from })
	if len(p.items) == 0 {
		return p.fail(begin, ErrSyntax, "no requirement in the text")
	}
	return nil
}

// strip leaves out quotation marks around the whole text and a full stop at its end.
func (p *parser) strip() {
	p.end = p.last()
	start := p.pos
	for p.pos < p.end && isBlank(p.text[p.pos]) {
		p.pos++
	}
	if p.pos == p.end {
		p.pos = start
	}
	if n := p.end - 1; p.end-p.pos > 2 && p.text[p.pos] == '"' && p.text[n] == '"' && !slices.Contains(p.text[p.pos+1:n], '"') {
		p.pos, p.end = p.pos+1, n
		p.end = p.last()
	}
	if n := p.end - 1; p.end-p.pos > 1 && p.text[n] == '.' && p.text[n-1] != '.' {
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
			if to := p.closing(i); to > 0 {
				i = to
			}
		case r == ';':
			return i
		}
	}
	return p.end
}

// line reads the requirements between two line ends or semicolons.
func (p *parser) line() error {
	p.lineBegin = p.pos
	for first := true; ; first = false {
		begin := len(p.items)
		from := p.pos
		r, err := p.requirement()
		if err != nil {
			return err
		}
		for _, x := range p.items[begin:] {
			x.onLine = !first || p.pos < p.end
			x.soft = !first
		}
		at := p.pos
		if p.done() {
			if p.ors {
				p.options = append(p.options, span{from, at})
			}
			return nil
		}
		sep := p.pos
		or, bare := p.take("or"), false
		switch {
		case or, p.take("and", "&", "/", ","):
		default:
			bare = true
		}
		if !p.begins() {
			p.pos = sep
			if c := p.peek(0); c == ',' || c == '/' {
				return p.fail(sep, ErrSyntax, "no requirement begins behind this sign")
			}
			return p.fail(sep, ErrSyntax, "%s has no meaning that is known here", p.rest())
		}
		if bare && slices.Contains([]string{"rule", "class", "max", "min"}, r.lastPart) && r.at[r.lastPart].to == at {
			next := *p.scanner
			if next.take("U ", "L "); next.pos == p.pos {
				return p.fail(r.at[r.lastPart].from, ErrSyntax, "this can belong to the limit before it or to the one behind it: put a semicolon between the two requirements")
			}
		}
		if or {
			if len(p.options) > 0 && !(p.ors && p.signs[len(p.signs)-1].to > p.lineBegin) {
				return p.fail(sep, ErrSyntax, "the text leaves more than one choice: write the requirement that is meant")
			}
			p.ors = true
			p.options = append(p.options, span{from, at})
			p.signs = append(p.signs, span{sep, sep + 2})
		}
		p.blanks()
	}
}

// begins tells whether a requirement begins here.
func (p *parser) begins() bool {
	saved, keep, forms := *p.scanner, p.free, len(p.foreign)
	defer func() { *p.scanner, p.free, p.foreign = saved, keep, p.foreign[:forms] }()
	p.blanks()
	r := p.fresh()
	if err := p.front(r); err != nil {
		return true // it begins, and will be refused there
	}
	p.blanks()
	if _, ok := r.at["side"]; ok && p.pos < p.end || r.at["band"].to > 0 {
		return true
	}
	_, ok := p.symbolAt(p.pos, p.edition, standards.ISO12085)
	return ok || p.markAhead()
}

// fresh returns a requirement with nothing read.
func (p *parser) fresh() *Requirement {
	r := &Requirement{Edition: p.edition, at: map[string]span{"begin": {p.pos, p.pos}}, s: p.scanner}
	r.Line, r.Column = p.place(p.pos)
	return r
}

// requirement reads one requirement; two numbers make two of it.
func (p *parser) requirement() (*Requirement, error) {
	p.blanks()
	r := p.fresh()
	if err := p.front(r); err != nil {
		return nil, err
	}
	if r.Removal == "" {
		r.Removal = p.removal
	}
	if r.Process == "" {
		r.Process = p.process
	}
	p.removal, p.process = r.Removal, r.Process
	if p.done() {
		return nil, p.fail(r.at["begin"].from, ErrSyntax, "%s alone is no requirement: a symbol and a limit are missing", strings.TrimSpace(string(p.raw[r.at["begin"].from:p.end])))
	}
	r.at["head"] = span{p.pos, p.pos}
	if b := r.at["band"]; b.to > 0 {
		r.at["head"] = span{b.from, b.from}
	}
	found, err := p.mark(r)
	if err == nil && !found {
		err = p.symbolAndLimit(r)
	}
	if err == nil {
		err = p.tail(r)
	}
	if err != nil {
		return nil, err
	}
	items, err := p.expand(r)
	p.items = append(p.items, items...)
	return r, err
}

// front reads what may stand before the symbol.
func (p *parser) front(r *Requirement) error {
	for {
		p.blanks()
		at := p.pos
		if p.peek(0) == '√' {
			p.pos++
			continue
		}
		if side, ok := p.sideLetter(); ok {
			if err := p.once(r, "side", at); err != nil {
				return err
			}
			if r.SideWritten && r.Side != side {
				return p.fail(at, ErrSyntax, "this says %s limit, and what stands before it says %s limit", side, r.Side)
			}
			r.Side, r.SideWritten, r.at["side"] = side, true, span{at, at + 1}
			continue
		}
		if found, err := p.removalWord(r); found || err != nil {
			if err != nil {
				return err
			}
			continue
		}
		if p.peek(0) == '"' {
			if err := p.filterOrProcess(r); err != nil {
				return err
			}
			continue
		}
		if found, err := p.band(r); found || err != nil {
			if err != nil {
				return err
			}
			return nil
		}
		if side, ok := p.extreme(); ok {
			if err := p.say(r, side, span{at, p.pos}, false); err != nil {
				return err
			}
			continue
		}
		if found, err := p.part(r, true); err != nil {
			return err
		} else if !found {
			return nil
		}
	}
}

func (p *parser) removalWord(r *Requirement) (bool, error) {
	for w := range removalWords {
		if at := p.pos; p.take(w) {
			if err := p.once(r, "removal", at); err != nil {
				return true, err
			}
			r.Removal, r.at["removal"] = w, span{at, p.pos}
			return true, nil
		}
	}
	return false, nil
}

// sideLetter reads U or L before a symbol, with or without a blank.
func (p *parser) sideLetter() (standards.Side, bool) {
	at := p.pos
	c, next := p.peek(0), p.peek(1)
	side := standards.Upper
	switch c {
	case 'L', 'l':
		side = standards.Lower
	case 'U', 'u':
	default:
		return 0, false
	}
	if next == ' ' || strings.ContainsRune(`"-`, next) && next != 0 {
		after := *p.scanner
		if after.pos++; after.done() || after.pos >= p.end {
			return 0, false
		}
		if c == 'u' || c == 'l' { // a small letter only right before a symbol
			if _, ok := p.symbolAt(after.pos, p.edition); !ok {
				return 0, false
			}
		}
		p.pos++
		return side, true
	}
	if unicode.IsUpper(c) && unicode.IsLetter(next) {
		if m, ok := p.symbolAt(at, p.edition); ok && m.exact && !m.other {
			return 0, false
		}
		keep := p.free
		p.free = at + 1
		if m, ok := p.symbolAt(at+1, p.edition, standards.ISO12085); ok && m.exact {
			p.pos++
			return side, true
		}
		p.free = keep
	}
	return 0, false
}
