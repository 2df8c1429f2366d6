package callout

import (
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/standards"
)

// transmission is the band before a symbol, as written: two lengths in millimetres with a hyphen between, which stays when one is left out,
// then a stroke; for motif parameters an evaluation length and a second stroke.
type transmission struct {
	short, long, length          decimal
	hasShort, hasLong, hasLength bool
	hyphen, motif                bool
}

// band reads "0,008-0,8/", "-0,8/", "0,008-/", "0,8/", "//" or "/10/" where a symbol follows, and tells whether it did.
func (p *parser) band(r *Requirement) (bool, error) {
	from := p.pos
	var b transmission
	number := func(to *decimal, has *bool) {
		if p.blanks(); p.atNumber() {
			d, err := p.decimal()
			*to, *has = d, err == nil
		}
		p.blanks()
	}
	number(&b.short, &b.hasShort)
	if b.hyphen = p.take("-"); b.hyphen {
		number(&b.long, &b.hasLong)
	}
	if !p.take("/") {
		p.pos = from
		return false, nil
	}
	number(&b.length, &b.hasLength)
	stroke := p.pos
	b.motif = p.take("/")
	if b.hasLength && !b.motif || !b.motif && !b.hasShort && !b.hyphen || b.hasLength && b.hasShort && !b.hyphen {
		p.pos = from
		return false, nil
	}
	end := p.pos
	if !b.motif {
		end = stroke
	}
	p.pos = end
	p.blanks()
	_, follows := p.symbolAt(p.pos, p.edition, standards.ISO12085)
	switch {
	case !follows && !b.hyphen && !b.motif:
		p.pos = from
		return false, nil
	case b.hyphen && !b.hasShort && !b.hasLong:
		return true, p.fail(from, ErrSyntax, "a hyphen without a length")
	case b.hasShort && b.hasLong && b.short.times(0) >= b.long.times(0):
		e := p.fail(from, ErrNumber, "the shorter length of a band stands first")
		e.Try = p.edited(edit{b.short.at, b.short.at + len([]rune(p.source(p.numberAt(b.short)))), p.source(p.numberAt(b.long))},
			edit{b.long.at, p.numberAt(b.long).to, p.source(p.numberAt(b.short))})
		return true, e
	}
	for _, d := range []struct {
		has bool
		d   decimal
	}{{b.hasShort, b.short}, {b.hasLong, b.long}, {b.hasLength, b.length}} {
		if v := d.d.times(3); d.has && (!(v > 1e-6) || v > 1e9) {
			return true, p.fail(d.d.at, ErrNumber, "not a length in millimetres")
		}
	}
	r.band, r.at["band"] = b, span{from, end}
	return true, nil
}

// numberAt returns where the number stands.
func (p *parser) numberAt(d decimal) span {
	s := scanner{raw: p.raw, text: p.text, pos: d.at, end: len(p.text)}
	if _, err := s.decimal(); err != nil {
		return span{d.at, d.at}
	}
	return span{d.at, s.pos}
}

// filterOrProcess reads a text in quotation marks before the symbol: a filter when a band follows, otherwise a process.
func (p *parser) filterOrProcess(r *Requirement) error {
	at := p.pos
	name, err := p.quoted()
	if err != nil {
		return err
	}
	here := *p.scanner
	p.blanks()
	band, err := p.band(p.fresh())
	*p.scanner = here
	if err != nil || !band {
		if err := p.once(r, "process", at); err != nil {
			return err
		}
		r.Process, r.at["process"] = name, span{at, p.pos}
		return nil
	}
	var known []string
	for _, f := range filter.All() {
		if f.Word == "" {
			continue
		}
		known = append(known, strconv.Quote(f.Word))
		if f.Word == name {
			r.LongFilter = f.Key
		}
	}
	if r.LongFilter == "" {
		return p.fail(at, ErrSyntax, "no filter %q: ISO 1302 text knows %s", name, strings.Join(known, " and "))
	}
	r.at["filter"] = span{at, p.pos}
	return nil
}

// useBand gives the lengths of the band their meaning, which depends on the parameter.
func (p *parser) useBand(r *Requirement) error {
	at, written := r.at["band"]
	if !written {
		return nil
	}
	b := r.band
	motifParameter := slices.ContainsFunc(symbolsOf(standards.ISO12085), func(y standards.Symbol) bool { return y.Key == r.sym.Key }) && r.sym.Key != "RPcBand"
	if b.motif && !motifParameter {
		return p.fail(at.from, ErrSyntax, "two strokes belong to a motif parameter, and %s is none", r.symbolWords())
	}
	if !p.own(form1302) {
		p.foreign = append(p.foreign, foreign{kind: "band", at: at, r: r, editions: homeOf(form1302)})
		return nil
	}
	if !b.hyphen && b.hasShort {
		p.askBareLength(r)
		return nil
	}
	first, second := &r.Short, &r.Long
	firstKey, secondKey := "short", "long"
	switch {
	case motifParameter && r.sym.Letter == 'W': // operators A and B
		first, second, firstKey, secondKey = &r.A, &r.B, "a", "b"
	case motifParameter:
		second, secondKey = &r.A, "a"
	case r.sym.Letter == 'W':
		first, second, firstKey, secondKey = &r.Long, &r.WavinessLimit, "long", "waviness_limit"
	case r.sym.Letter == 'P' && b.hasLong:
		return p.fail(b.long.at, ErrSyntax, "the primary profile has no long-wave limit")
	}
	fill := func(has bool, d decimal, key string, to *float64) {
		if has {
			*to, r.at[key] = d.times(3), p.numberAt(d)
		}
	}
	fill(b.hasShort, b.short, firstKey, first)
	fill(b.hasLong, b.long, secondKey, second)
	fill(b.hasLength, b.length, "evaluation", &r.Evaluation)
	return nil
}
