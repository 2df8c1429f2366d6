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
	d        decimal
	negative bool
	unit     string
	unitAt   span
	at       span // of the number and its unit
	number   span
	side     standards.Side
	sided    bool // max, min or a sign says the side
}

// value returns the number without its unit.
func (a *amount) value() float64 {
	v := a.d.times(0)
	if a.negative {
		return -v
	}
	return v
}

// text returns the number as written, with a point.
func (a *amount) text() string {
	text := a.d.text
	if a.negative {
		text = "-" + text
	}
	return text
}

// amount reads a number and a unit, where one stands.
func (p *parser) amount(negative bool) (a amount, err error) {
	a.at.from = p.pos
	if negative && p.peek(0) == '-' {
		p.pos++
		p.blanks()
		a.negative = true
	}
	if a.d, err = p.decimal(); err != nil {
		return a, err
	}
	a.number = span{a.d.at, p.pos}
	a.unit, a.unitAt = p.unit()
	a.at.to = p.pos
	return a, nil
}

// relation reads a sign between symbol and limit.
func (p *parser) relation() (standards.Side, bool) {
	for _, w := range []struct {
		text string
		side standards.Side
	}{{"<=", standards.Upper}, {">=", standards.Lower}, {"≤", standards.Upper}, {"≥", standards.Lower}, {"<", standards.Upper}, {">", standards.Lower}} {
		if p.take(w.text) {
			return w.side, true
		}
	}
	return 0, false
}

// leading reads a limit with a sign before the symbol: 1,6 ≥ Ra.
func (p *parser) leading() (*amount, error) {
	from := p.pos
	if !p.atNumber() && p.peek(0) != '-' {
		return nil, nil
	}
	a, err := p.amount(true)
	if err != nil {
		p.pos = from
		if p.peek(0) == '-' {
			return nil, nil
		}
		return nil, err
	}
	p.blanks()
	side, ok := p.relation()
	if !ok {
		p.pos = from
		return nil, nil
	}
	a.side, a.sided = standards.Lower-side, true // seen from the other side
	return &a, nil
}

// symbolAndLimit reads the symbol with what stands around it, and the limit or the two limits.
func (p *parser) symbolAndLimit(r *Requirement) error {
	lead, err := p.leading()
	if err != nil {
		return err
	}
	if err := p.symbol(r, r.band.motif); err != nil {
		return err
	}
	if err := p.count(r); err != nil {
		return err
	}
	if err := p.useBand(r); err != nil {
		return err
	}
	sign, signed, err := p.between(r)
	if err != nil {
		return err
	}
	if lead != nil && !signed {
		r.first = lead
		return p.sided(r, lead)
	}
	p.blanks()
	negative := r.sym.Quantity == standards.Number
	switch {
	case p.pos >= p.last():
		return p.fail(p.last(), ErrNumber, "the limit of %s is missing", r.symbolWords())
	case p.peek(0) == '-' && !negative:
		return p.fail(p.pos, ErrNumber, "%s cannot be negative", r.symbolWords())
	case !p.atNumber() && p.peek(0) != '-':
		return p.fail(p.pos, ErrNumber, "the limit of %s is expected here, not %s", r.symbolWords(), p.rest())
	}
	a, err := p.amount(negative)
	if err != nil {
		return err
	}
	if signed {
		a.side, a.sided = sign, true
	}
	r.first = &a
	if lead != nil {
		if lead.side == a.side {
			return p.fail(a.number.from, ErrNumber, "two limits on the same side")
		}
		r.first, r.second = lead, &a
		return nil
	}
	if err := p.sided(r, &a); err != nil || a.sided {
		return err
	}
	return p.second(r, negative)
}

// sided takes the side that a sign says.
func (p *parser) sided(r *Requirement, a *amount) error {
	if !a.sided {
		return nil
	}
	if r.SideWritten && r.Side != a.side {
		at := a.at.from
		if s, ok := r.at["sign"]; ok {
			at = s.from
		}
		return p.fail(at, ErrSyntax, "the sign says %s limit, and what stands before it says %s limit", a.side, r.Side)
	}
	r.Side, r.SideWritten = a.side, true
	return nil
}

// count reads the number of sampling lengths at a symbol: Ra3 1,6.
func (p *parser) count(r *Requirement) error {
	at := p.pos
	if !isDigit(p.peek(0)) || !p.countAhead(at) {
		digits := *p.scanner
		for isDigit(digits.peek(0)) {
			digits.pos++
		}
		if digits.pos > at && unicode.IsLetter(digits.peek(0)) && digits.take("max", "maximum") { // Rz8max is Rz over eight sections
			return p.fail(p.last(), ErrNumber, "the limit of %s is missing, or a blank between %s and its limit", r.symbolWords(), r.symbolWords())
		}
		return nil
	}
	n, err := p.integer()
	if err != nil {
		return err
	}
	r.at["count"] = span{at, p.pos}
	switch {
	case r.sym.Letter == 'P':
		return p.fail(at, ErrSymbol, "a P-parameter is measured over the whole feature and has no number of sampling lengths")
	case r.Edition == standards.ISO12085:
		return p.fail(at, ErrSymbol, "a motif parameter has no number of sampling lengths")
	case !p.own(form1302):
		p.foreign = append(p.foreign, foreign{kind: "count", at: r.at["count"], r: r, editions: homeOf(form1302)})
	}
	r.Sections, r.at["sections"] = n, r.at["count"]
	return nil
}

// countAhead tells whether the digits at a place are a number of sampling lengths: a whole number with another number behind it.
func (p *parser) countAhead(at int) bool {
	saved, forms := *p.scanner, len(p.foreign)
	defer func() { *p.scanner, p.foreign = saved, p.foreign[:forms] }()
	p.pos = at
	for isDigit(p.peek(0)) {
		p.pos++
	}
	if p.pos == at || p.pos > at+3 || p.text[at] == '0' || isMark(p.peek(0)) && isDigit(p.peek(1)) {
		return false
	}
	scratch := p.fresh()
	if _, _, err := p.between(scratch); err != nil {
		return false
	}
	p.blanks()
	return p.atNumber() && p.at(p.pos, "16 %") == 0
}

// between reads what may stand between symbol and limit.
func (p *parser) between(r *Requirement) (sign standards.Side, signed bool, err error) {
	colon := false
	for {
		p.blanks()
		at := p.pos
		if side, ok := p.extreme(); ok {
			if err := p.say(r, side, span{at, p.pos}, true); err != nil {
				return 0, false, err
			}
			continue
		}
		if side, ok := p.relation(); ok && !signed {
			sign, signed = side, true
			r.at["sign"] = span{at, p.pos}
			continue
		} else if ok {
			return 0, false, p.fail(at, ErrSyntax, "two signs before one limit")
		}
		if c := p.peek(0); (c == ':' || c == '=') && !colon {
			if c == '=' && p.peek(1) == '>' {
				return 0, false, p.fail(p.pos, ErrSyntax, "=> can be an arrow or a lower limit: write >= for a lower limit")
			}
			p.pos++
			colon = true
			continue
		}
		if found, err := p.part(r, true); err != nil {
			return 0, false, err
		} else if !found {
			return sign, signed, nil
		}
	}
}

// rangeSigns stand between the two limits of a range.
var rangeSigns = []string{"±", "+/-", "...", "..", "…", "-", "to", "/"}

// second reads the other one of two limits: 0,8-1,6 or 3,2/1,6 or 0,8 ± 0,2.
func (p *parser) second(r *Requirement, negative bool) error {
	from := p.pos
	p.blanks()
	sign, at := "", p.pos
	for _, w := range rangeSigns {
		if p.take(w) {
			sign = w
			break
		}
	}
	joined := p.atNumber()
	p.blanks()
	if sign == "" || !p.atNumber() && !(negative && p.peek(0) == '-') || sign == "/" && p.begins() {
		p.pos = from
		return nil
	}
	if sign == "-" && at > from && joined { // many write a cut-off like this behind a limit
		return p.fail(at, ErrSyntax, "this is a cut-off or a second limit; write two limits as 0,8-1,6, and a cut-off with Nic, or before the symbol in older editions")
	}
	b, err := p.amount(negative)
	if err != nil {
		return err
	}
	r.second = &b
	r.at["range"] = span{at, b.number.from}
	if r.SideWritten {
		return p.fail(b.number.from, ErrSyntax, "two limits, and what stands before them says %s limit", r.Side)
	}
	if sign == "±" || sign == "+/-" {
		return p.deviation(r)
	}
	if sign == "/" && r.sym.Quantity == standards.Height && oneLimit(r.first, &b) {
		p.askPair(r)
	}
	return nil
}

// deviation makes two limits of a nominal value and its deviation.
func (p *parser) deviation(r *Requirement) error {
	a, b := r.first, r.second
	if a.unit == "" {
		a.unit, a.unitAt = b.unit, b.unitAt
	}
	if b.unit != "" && a.unit != b.unit || b.unit == "%" && r.sym.Quantity != standards.Ratio || b.value() == 0 {
		return p.fail(b.number.from, ErrNumber, "the deviation is in the unit of the value, and not 0")
	}
	digits := 0
	for _, d := range []decimal{a.d, b.d} {
		if _, behind, ok := strings.Cut(d.text, "."); ok {
			digits = max(digits, len(behind))
		}
	}
	low, high := a.value()-b.value(), a.value()+b.value()
	x, y := *a, *a
	for _, z := range []struct {
		to *amount
		v  float64
	}{{&x, low}, {&y, high}} {
		z.to.negative = z.v < 0
		z.to.d.text = strconv.FormatFloat(math.Abs(z.v), 'f', digits, 64)
		z.to.at = span{a.at.from, b.at.to}
	}
	r.first, r.second = &x, &y
	if low <= 0 && r.sym.Quantity != standards.Number {
		return p.fail(b.number.from, ErrNumber, "the deviation leaves no lower limit above 0")
	}
	return nil
}

// oneLimit tells whether two numbers can be one limit in two units.
func oneLimit(a, b *amount) bool {
	if a.unit == "" || b.unit == "" {
		return customaryPair(a.value(), b.value())
	}
	return a.unit != b.unit && math.Abs(inUnit(a.d, a.unit, standards.Height)/inUnit(b.d, b.unit, standards.Height)-1) < 0.05
}

// customaryPair tells whether two numbers are one roughness in µm and in µin, in either order.
func customaryPair(a, b float64) bool {
	if a > b {
		a, b = b, a
	}
	return a > 0 && b/a > 37 && b/a < 42
}

// sideBehind takes max or min behind a limit, which may carry a second limit.
func (p *parser) sideBehind(r *Requirement, side standards.Side, at int) error {
	word := span{at, p.pos}
	from := p.pos
	p.equals()
	if !p.atNumber() || p.at(p.pos, "16 %") > 0 && r.sym.Quantity != standards.Ratio {
		p.pos = from
		if r.second != nil {
			return p.fail(at, ErrSyntax, "two limits, and this says %s limit", side)
		}
		return p.say(r, side, word, false)
	}
	number := p.pos
	b, err := p.amount(false)
	if err != nil {
		return err
	}
	first, sided := r.at["max"], r.Side
	if _, ok := r.at["min"]; ok {
		first = r.at["min"]
	}
	behind := p.pos
	p.blanks()
	end := p.pos
	last, trailing := p.extreme()
	switch {
	case r.second != nil || r.first == nil:
	case first.to > 0 && !trailing && sided != side: // min 0,2 max 0,8
		p.pos = behind
		b.side, b.sided = side, true
		r.first.side, r.first.sided = sided, true
		r.second, r.at["extremes"] = &b, word
		return nil
	case first.to == 0 && trailing && last != side && !r.SideWritten: // 0,2 min 0,8 max
		r.first.side, r.first.sided, b.side, b.sided = side, true, last, true
		r.second, r.at["extremes"] = &b, span{end, p.pos}
		r.SideWritten = true
		return nil
	}
	return p.fail(number, ErrSyntax, "a second limit, and it is not clear which one is the maximum and which one the minimum")
}

// repeated reads the limit again in another unit, in brackets: 1.6 µm (63 µin).
func (p *parser) repeated(r *Requirement, open, end int) (bool, error) {
	from := p.pos
	b, err := p.amount(false)
	if err != nil || !p.done() || r.first == nil || r.second != nil || r.at["repeated"].to > 0 {
		p.pos = from
		return false, nil
	}
	if b.unit == "%" && r.sym.Quantity != standards.Ratio {
		p.pos = from
		return false, nil
	}
	a := r.first
	q := r.sym.Quantity
	if q != standards.Height && q != standards.Spacing || b.unit != "" && !has(b.unit, q) {
		return true, p.fail(open, ErrNumber, "a second limit in brackets")
	}
	fits := func(x, y string) bool {
		v, w := inUnit(a.d, x, q), inUnit(b.d, y, q)
		return v > 0 && math.Abs(v/w-1) < 0.05
	}
	units := func(u string) []string {
		if u != "" {
			return []string{u}
		}
		return []string{"µm", "µin"}
	}
	r.at["repeated"] = span{open, end + 1}
	r.at["tail"] = span{end + 1, end + 1}
	p.pos = end + 1
	for _, x := range units(a.unit) {
		for _, y := range units(b.unit) {
			if x != y && fits(x, y) {
				a.unit = x
				return true, nil
			}
		}
	}
	if a.unit == "" && b.unit == "" {
		return true, p.fail(open, ErrNumber, "a second limit in brackets, and not the first one in another unit")
	}
	first, second := p.source(a.at), p.source(b.at)
	r.ask("unit", "settings", "The two numbers are not one limit in two units: which one holds?", a.at,
		choice{"first", first, []edit{{a.at.to, end + 1, ""}}, ""},
		choice{"second", second, []edit{{a.at.from, end + 1, second}}, ""})
	r.limitOpen = true
	return true, nil
}
