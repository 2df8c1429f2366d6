package callout

import (
	"maps"
	"math"
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// expand gives the limit or the two limits their number, unit and side, and returns the requirements of the text.
func (p *parser) expand(r *Item) []*Item {
	a, b := r.first, r.second
	if a == nil { // a mark
		r.Limit = math.NaN()
		return []*Item{r}
	}
	r.at["amounts"] = a.span
	if b != nil && b.from > a.from {
		r.at["amounts"] = b.span
	}
	p.askRule(r)
	p.askOldName(r)
	if b == nil {
		p.settle(r, a)
		return []*Item{r}
	}
	if a.unit == "" {
		a.unit, a.unitAt = b.unit, b.unitAt
	} else if b.unit == "" {
		b.unit, b.unitAt = a.unit, a.unitAt
	}
	q := r.sym.Quantity
	av, bv := a.own(a.unit, q), b.own(b.unit, q)
	if !a.sided { // the smaller number is the lower limit
		a.side, b.side = standards.Upper, standards.Lower
		if av < bv {
			a.side, b.side = b.side, a.side
		}
	}
	if av == bv {
		p.badNumber(b.from, "the two limits are the same")
	}
	if (av < bv) != (a.side == standards.Lower) {
		p.badNumber(b.from, exclusive)
	}
	other := *r
	other.Questions, other.Notes, other.at = slices.Clone(r.Questions), slices.Clone(r.Notes), maps.Clone(r.at)
	r.Side, r.SideWritten = a.side, true
	other.Side, other.SideWritten = b.side, true
	p.settle(r, a)
	p.settle(&other, b)
	return []*Item{r, &other}
}

// exclusive refuses two limits that exclude each other.
const exclusive = "the lower limit lies above the upper one: no value can keep both"

// settle gives one requirement its limit, and asks for what is open in it.
func (p *parser) settle(r *Item, a *amount) {
	q := r.sym.Quantity
	r.at["number"] = a.span
	r.LimitText, r.Unit, r.Limit = a.written(), a.unit, math.NaN()
	switch v := a.value(); {
	case a.unit != "" && !has(a.unit, q):
		p.badNumber(a.unitAt.from, "%s has no limit in %s", r.symbolWords(), a.unit)
	case q == standards.Ratio && v > 100 && r.sym.Key != "Rdr":
		p.badNumber(a.from, "%s cannot be above 100 %%", r.symbolWords())
	case v == 0 && q != standards.Number && q != standards.Ratio:
		p.badNumber(a.from, "a limit of 0 cannot be kept")
	}
	if r.hidden || r.limitOpen {
		return
	}
	units := p.usual(q)
	if r.Mark == "RMS" || len(units) == 1 && q == standards.Height && (inchNumber(r, r.first) || inchNumber(r, r.second)) {
		units = usualUnitsASME[standards.Height]
	}
	switch {
	case p.edition == standards.ASMEB46 && thousands(a.decimal):
		p.askThousands(r, a)
		return
	case r.Unit == "" && len(units) > 1:
		p.askUnit(r, a, units)
		return
	case r.Unit == "" && len(units) == 1:
		r.Unit = units[0]
	case q == standards.Height && r.sym.Letter == 'R' && (r.Unit == "mm" || r.Unit == "in"):
		p.askSlip(r, a)
		return
	}
	r.Limit = a.own(r.Unit, q)
}

// inchNumber tells whether a limit of Ra or Rq without a unit is more likely in microinches: 32 and 63 of the customary series of inch
// drawings, and what is above every table in micrometres (own choice).
func inchNumber(r *Item, a *amount) bool {
	return a != nil && (r.sym.Key == "Ra" || r.sym.Key == "Rq") && (a.value() == 32 || a.value() == 63 || a.value() > 80)
}

// thousands tells whether a comma may set groups of thousands apart: 1,000.
func thousands(d decimal) bool {
	whole, behind, ok := strings.Cut(d.text, ".")
	return ok && d.comma && len(behind) == 3 && whole[0] != '0' && len(whole) <= 3
}
