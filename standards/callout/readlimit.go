package callout

import (
	"math"
	"strconv"
	"strings"
	"unicode"

	"example.com/furrow/standards"
)

// amount is a number with its unit as written.
type amount struct {
	decimal  // the number
	negative bool
	unit     string
	unitAt   span
	at       span // of the number and its unit
	side     standards.Side
	sided    bool // max, min or a sign says the side
}

// signed gives a number the sign of the amount.
func (a *amount) signed(v float64) float64 {
	if a.negative {
		return -v
	}
	return v
}

// value returns the number without its unit.
func (a *amount) value() float64 { return a.signed(a.times(0)) }

// own returns the number in the unit in which the catalogue has its kind.
func (a *amount) own(unit string, q standards.Quantity) float64 { return a.signed(a.in(unit, q)) }

// written returns the number as written, with a point.
func (a *amount) written() string {
	if a.negative {
		return "-" + a.text
	}
	return a.text
}

// amount reads a number and a unit, where one stands.
func (s *scanner) amount(negative bool) *amount {
	from := s.pos
	a := amount{negative: negative && s.peek(0) == '-'}
	if a.negative {
		s.pos++
		s.blanks()
	}
	a.decimal = s.decimal()
	a.unit, a.unitAt = s.unit()
	a.at = span{from, s.pos}
	return &a
}

// relation reads a sign between symbol and limit.
func (p *parser) relation() (side standards.Side, ok bool) {
	switch {
	case p.take("<=", "≤"):
	case p.take(">=", "≥"):
		side = standards.Lower
	case p.take("<"):
	case p.take(">"):
		side = standards.Lower
	default:
		return side, false
	}
	return side, true
}

// leading reads a limit with a sign before the symbol: 1,6 ≥ Ra.
func (p *parser) leading() (a *amount) {
	from := p.pos
	switch {
	case p.atNumber():
		a = p.amount(false)
	case p.peek(0) != '-' || attempt(func() { a = p.amount(true) }) != nil:
		p.pos = from
		return nil
	}
	p.blanks()
	side, ok := p.relation()
	if !ok {
		p.pos = from
		return nil
	}
	a.side, a.sided = standards.Lower-side, true // seen from the other side
	return a
}

// symbolAndLimit reads the symbol with what stands around it, and the limit or the two limits.
func (p *parser) symbolAndLimit(r *Item) {
	lead := p.leading()
	p.symbol(r, r.band.motif)
	p.count(r)
	p.useBand(r)
	sign, signed := p.between(r)
	if lead != nil && !signed {
		r.first = lead
		p.sided(r, lead)
		return
	}
	p.blanks()
	negative := r.sym.Quantity == standards.Number
	switch dash := p.peek(0) == '-'; {
	case p.pos >= p.last():
		p.badNumber(p.last(), "the limit of %s is missing", r.symbolWords())
	case dash && !negative:
		p.badNumber(p.pos, "%s cannot be negative", r.symbolWords())
	case !p.atNumber() && !dash:
		p.badNumber(p.pos, "the limit of %s is expected here, not %s", r.symbolWords(), p.rest())
	}
	a := p.amount(negative)
	a.side, a.sided = sign, signed
	r.first = a
	switch {
	case lead != nil && lead.side == a.side:
		p.badNumber(a.from, "two limits on the same side")
	case lead != nil:
		r.first, r.second = lead, a
	case signed:
		p.sided(r, a)
	default:
		p.second(r, negative)
	}
}

// sided takes the side that a sign says.
func (p *parser) sided(r *Item, a *amount) {
	if r.SideWritten && r.Side != a.side {
		at := a.at.from
		if s, ok := r.at["sign"]; ok {
			at = s.from
		}
		p.bad(at, "the sign says %s limit, and what stands before it says %s limit", a.side, r.Side)
	}
	r.Side, r.SideWritten = a.side, true
}

// count reads the number of sampling lengths at a symbol: Ra3 1,6.
func (p *parser) count(r *Item) {
	at := p.pos
	if !p.countAhead(at) {
		after := *p.scanner
		if after.digits() > 0 && unicode.IsLetter(after.peek(0)) && after.take("max", "maximum") { // Rz8max is Rz over eight sections
			p.badNumber(p.last(), "the limit of %s is missing, or a blank between %s and its limit", r.symbolWords(), r.symbolWords())
		}
		return
	}
	r.Sections = p.integer()
	where := span{at, p.pos}
	r.at["count"], r.at["sections"] = where, where
	switch {
	case r.sym.Letter == 'P':
		p.refuse(ErrSymbol, at, "a P-parameter is measured over the whole feature and has no number of sampling lengths")
	case r.Edition == standards.ISO12085:
		p.refuse(ErrSymbol, at, "a motif parameter has no number of sampling lengths")
	}
	p.form(form1302, "count", where, r)
}

// countAhead tells whether the digits at a place are a number of sampling lengths: a whole number with another number behind it.
func (p *parser) countAhead(at int) (ok bool) {
	return !p.ahead(func(scratch *Item) {
		p.pos = at
		if n := p.digits(); n == 0 || n > 3 || p.text[at] == '0' || p.atNumber() {
			return
		}
		p.between(scratch)
		p.blanks()
		ok = p.atNumber() && p.at(p.pos, "16 %") == 0
	}) && ok
}

// between reads what may stand between symbol and limit.
func (p *parser) between(r *Item) (sign standards.Side, signed bool) {
	colon := false
	for {
		p.blanks()
		at := p.pos
		if side, ok := p.extreme(); ok {
			p.say(r, side, span{at, p.pos}, true)
			continue
		}
		if side, ok := p.relation(); ok {
			if signed {
				p.bad(at, "two signs before one limit")
			}
			sign, signed = side, true
			r.at["sign"] = span{at, p.pos}
			continue
		}
		if c := p.peek(0); (c == ':' || c == '=') && !colon {
			p.pos++
			if p.blanks(); c == '=' && p.peek(0) == '>' {
				p.bad(at, "=> can be an arrow or a lower limit: write >= for a lower limit")
			}
			colon = true
			continue
		}
		if !p.part(r, true) {
			return sign, signed
		}
	}
}

// second reads the other one of two limits: 0,8-1,6 or 3,2/1,6 or 0,8 ± 0,2.
func (p *parser) second(r *Item, negative bool) {
	from := p.pos
	p.blanks()
	at := p.pos
	sign := p.taken("±", "+/-", "...", "..", "…", "-", "to", "/")
	joined := p.atNumber()
	p.blanks()
	switch {
	case sign == "" || !p.atNumber() && !(negative && p.peek(0) == '-') || sign == "/" && p.begins():
		p.pos = from
		return
	case sign == "-" && at > from && joined: // many write a cut-off like this behind a limit
		p.bad(at, "this is a cut-off or a second limit; write two limits as 0,8-1,6, and a cut-off with Nic, or before the symbol in older editions")
	}
	b := p.amount(negative)
	r.second = b
	switch {
	case r.SideWritten:
		p.bad(b.from, "two limits, and what stands before them says %s limit", r.Side)
	case sign == "±" || sign == "+/-":
		p.deviation(r)
	case sign == "/" && r.sym.Quantity == standards.Height && oneLimit(r.first, b):
		p.askPair(r)
	}
}

// deviation makes two limits of a nominal value and its deviation.
func (p *parser) deviation(r *Item) {
	a, b := r.first, r.second
	if a.unit == "" {
		a.unit, a.unitAt = b.unit, b.unitAt
	}
	if b.unit != "" && a.unit != b.unit || b.unit == "%" && r.sym.Quantity != standards.Ratio || b.value() == 0 {
		p.badNumber(b.from, "the deviation is in the unit of the value, and not 0")
	}
	digits := 0
	for _, d := range []*amount{a, b} {
		_, behind, _ := strings.Cut(d.text, ".")
		digits = max(digits, len(behind))
	}
	limit := func(v float64) *amount {
		x := *a
		x.negative = v < 0
		x.text = strconv.FormatFloat(math.Abs(v), 'f', digits, 64)
		x.at.to = b.at.to
		return &x
	}
	low := a.value() - b.value()
	r.first, r.second = limit(low), limit(a.value()+b.value())
	if low <= 0 && r.sym.Quantity != standards.Number {
		p.badNumber(b.from, "the deviation leaves no lower limit above 0")
	}
}

// alike5 tells whether two numbers agree within five per cent.
func alike5(v, w float64) bool { return v > 0 && math.Abs(v/w-1) < 0.05 }

// oneLimit tells whether two numbers can be one limit in two units: without them, whether they are one roughness in µm and in µin.
func oneLimit(a, b *amount) bool {
	if a.unit == "" || b.unit == "" {
		low, high := min(a.value(), b.value()), max(a.value(), b.value())
		return low > 0 && high/low > 37 && high/low < 42
	}
	return a.unit != b.unit && alike5(a.in(a.unit, standards.Height), b.in(b.unit, standards.Height))
}

// sideBehind takes max or min behind a limit, which may carry a second limit.
func (p *parser) sideBehind(r *Item, side standards.Side, at int) {
	word := span{at, p.pos}
	from := p.pos
	p.equals()
	if !p.atNumber() || p.at(p.pos, "16 %") > 0 && r.sym.Quantity != standards.Ratio {
		p.pos = from
		if r.second != nil {
			p.bad(at, "two limits, and this says %s limit", side)
		}
		p.say(r, side, word, false)
		return
	}
	b := p.amount(false)
	first, sided := r.at["max"].to+r.at["min"].to > 0, r.Side
	behind := p.pos
	p.blanks()
	end := p.pos
	last, trailing := p.extreme()
	switch {
	case r.second != nil || r.first == nil:
	case first && !trailing && sided != side: // min 0,2 max 0,8
		p.pos = behind
		r.first.side, b.side, r.at["extremes"] = sided, side, word
		r.first.sided, r.second = true, b
		return
	case !first && trailing && last != side && !r.SideWritten: // 0,2 min 0,8 max
		r.first.side, b.side, r.at["extremes"] = side, last, span{end, p.pos}
		r.first.sided, r.second, r.SideWritten = true, b, true
		return
	}
	p.bad(b.from, "a second limit, and it is not clear which one is the maximum and which one the minimum")
}

// repeated reads the limit again in another unit, in brackets: 1.6 µm (63 µin).
func (p *parser) repeated(r *Item, brackets span) bool {
	from := p.pos
	var b *amount
	refused := attempt(func() { b = p.amount(false) })
	q := r.sym.Quantity
	if refused != nil || !p.done() || r.first == nil || r.second != nil || r.at["repeated"].to > 0 || b.unit == "%" && q != standards.Ratio {
		p.pos = from
		return false
	}
	a := r.first
	if q != standards.Height && q != standards.Spacing || b.unit != "" && !has(b.unit, q) {
		p.badNumber(brackets.from, "a second limit in brackets")
	}
	p.closed(r, brackets)
	units := func(u string) []string {
		if u != "" {
			return []string{u}
		}
		return []string{"µm", "µin"}
	}
	for _, x := range units(a.unit) {
		for _, y := range units(b.unit) {
			if x != y && alike5(a.in(x, q), b.in(y, q)) {
				a.unit = x
				return true
			}
		}
	}
	if a.unit == "" && b.unit == "" {
		p.badNumber(brackets.from, "a second limit in brackets, and not the first one in another unit")
	}
	second := p.source(b.at)
	r.ask("unit", "The two numbers are not one limit in two units: which one holds?", a.at,
		pick("first", p.source(a.at), edit{span{a.at.to, brackets.to}, ""}),
		pick("second", second, edit{span{a.at.from, brackets.to}, second}))
	r.limitOpen = true
	return true
}

// closed moves behind a bracket that says the limit again.
func (p *parser) closed(r *Item, brackets span) {
	p.pos = brackets.to
	r.at["repeated"], r.at["tail"] = brackets, span{p.pos, p.pos}
}
