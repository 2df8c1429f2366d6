package callout

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/standards"
)

// transmission is the band before a symbol, as written: two lengths in millimetres with a hyphen between, which stays when one is left out,
// then a stroke; for motif parameters an evaluation length and a second stroke.
type transmission struct {
	short, long, length *decimal // nil where none stands
	hyphen, motif       bool
}

// band reads "0,008-0,8/", "-0,8/", "0,008-/", "0,8/", "//" or "/10/" where a symbol follows, and tells whether it did.
func (p *parser) band(r *Item) bool {
	from := p.pos
	var b transmission
	var refused *TextError
	number := func() (d *decimal) {
		if p.blanks(); p.atNumber() {
			refused = cmp.Or(attempt(func() { v := p.decimal(); d = &v }), refused)
		}
		p.blanks()
		return d
	}
	b.short = number()
	if b.hyphen = p.take("-"); b.hyphen {
		b.long = number()
	}
	if !p.take("/") {
		p.pos = from
		return false
	}
	b.length = number()
	end := p.pos
	if b.motif = p.take("/"); b.motif {
		end = p.pos
	}
	p.pos = end
	p.blanks()
	switch {
	case b.length != nil && (!b.motif || b.short != nil && !b.hyphen), !b.hyphen && !b.motif && (b.short == nil || !p.symbolNext()):
		p.pos = from
		return false
	case b.hyphen && b.short == nil && b.long == nil:
		if refused != nil {
			panic(refused)
		}
		p.bad(from, "a hyphen without a length")
	case b.short != nil && b.long != nil && b.short.times(0) >= b.long.times(0):
		e := p.refusal(ErrNumber, from, "the shorter length of a band stands first")
		if b.long.times(0) < shortestFilter || fold(p.peek(0)) == 'w' { // otherwise 2,5-0,8 may be 2,5 µm and 0,8 mm
			e.Try = p.edited(edit{b.short.span, p.source(b.long.span)}, edit{b.long.span, p.source(b.short.span)})
		}
		panic(e)
	}
	for _, d := range []*decimal{b.short, b.long, b.length} {
		if d != nil && !isLength(d.times(3)) {
			p.badNumber(d.from, "not a length in millimetres")
		}
	}
	r.band, r.at["band"] = b, span{from, end}
	return true
}

// isLength tells whether a length in micrometres can be meant: from a picometre to a kilometre.
func isLength(um float64) bool { return um > 1e-6 && um <= 1e9 }

// filterOrProcess reads a text in quotation marks before the symbol: a filter when a band follows, otherwise a process.
func (p *parser) filterOrProcess(r *Item) {
	at := p.pos
	name := p.quoted()
	where, band := span{at, p.pos}, false
	if p.ahead(func(scratch *Item) { p.blanks(); band = p.band(scratch) }) || !band {
		p.once(r, "process", at)
		r.Process, r.at["process"] = name, where
		return
	}
	var words []string
	for _, f := range filter.All() {
		switch f.Word {
		case "":
		case name:
			r.LongFilter = f.Key
			return
		default:
			words = append(words, strconv.Quote(f.Word))
		}
	}
	p.bad(at, "no filter %q: ISO 1302 text knows %s", name, strings.Join(words, " and "))
}

// useBand gives the lengths of the band their meaning, which depends on the parameter.
func (p *parser) useBand(r *Item) {
	at, written := r.at["band"]
	if !written {
		return
	}
	b, letter := r.band, r.sym.Letter
	motif := slices.ContainsFunc(symbolsOf(standards.ISO12085), func(y standards.Symbol) bool { return y.Key == r.sym.Key }) && r.sym.Key != "RPcBand"
	short, long := "short", "long"
	switch {
	case b.motif && !motif:
		p.bad(at.from, "two strokes belong to a motif parameter, and %s is none", r.symbolWords())
	case p.form(form1302, "band", at, r):
		return
	case !b.hyphen && b.short != nil:
		p.askBareLength(r)
		return
	case motif && letter == 'W': // operators A and B
		short, long = "a", "b"
	case motif:
		long = "a"
	case letter == 'W':
		short, long = "long", "waviness_limit"
	case letter == 'P' && b.long != nil:
		p.bad(b.long.from, "the primary profile has no long-wave limit")
	}
	for key, d := range map[string]*decimal{short: b.short, long: b.long, "evaluation": b.length} {
		if d != nil {
			*r.length(key), r.at[key] = d.times(3), d.span
		}
	}
}
