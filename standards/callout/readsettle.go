package callout

import (
	"math"
	"slices"
	"strings"

	"example.com/furrow/standards"
)

// expand gives the limit or the two limits their number, unit and side, and returns the requirements of the text.
func (p *parser) expand(r *Requirement) ([]*Requirement, error) {
	r.at["all"] = span{r.at["begin"].from, p.pos}
	if r.first == nil { // a mark
		r.Limit = math.NaN()
		return []*Requirement{r}, nil
	}
	r.at["amounts"] = r.first.number
	if r.second != nil && r.second.number.from > r.first.number.from {
		r.at["amounts"] = r.second.number
	}
	p.askRule(r)
	p.askOldName(r)
	if r.second == nil {
		return []*Requirement{r}, p.settle(r, r.first)
	}
	a, b := r.first, r.second
	if a.unit == "" {
		a.unit, a.unitAt = b.unit, b.unitAt
	} else if b.unit == "" {
		b.unit, b.unitAt = a.unit, a.unitAt
	}
	q := r.sym.Quantity
	av, bv := inUnit(a.d, a.unit, q), inUnit(b.d, b.unit, q)
	if a.negative {
		av = -av
	}
	if b.negative {
		bv = -bv
	}
	if !a.sided { // the smaller number is the lower limit
		a.side, b.side = standards.Upper, standards.Lower
		if av < bv {
			a.side, b.side = standards.Lower, standards.Upper
		}
	}
	if av == bv {
		return nil, p.fail(b.number.from, ErrNumber, "the two limits are the same")
	}
	if (av < bv) != (a.side == standards.Lower) {
		return nil, p.fail(b.number.from, ErrNumber, "the lower limit lies above the upper one: no value can keep both")
	}
	other := *r
	other.Questions, other.Notes = slices.Clone(r.Questions), slices.Clone(r.Notes)
	other.at = map[string]span{}
	for k, v := range r.at {
		other.at[k] = v
	}
	items := []*Requirement{r, &other}
	for i, x := range items {
		x.Side, x.SideWritten = []*amount{a, b}[i].side, true
		if err := p.settle(x, []*amount{a, b}[i]); err != nil {
			return nil, err
		}
	}
	return items, nil
}

// settle gives one requirement its limit, and asks for what is open in it.
func (p *parser) settle(r *Requirement, a *amount) error {
	q := r.sym.Quantity
	r.at["limit"], r.at["number"] = a.at, a.number
	r.LimitText, r.Unit, r.Limit = a.text(), a.unit, math.NaN()
	if a.unit != "" && !has(a.unit, q) {
		return p.fail(a.unitAt.from, ErrNumber, "%s has no limit in %s", r.symbolWords(), a.unit)
	}
	switch v := a.value(); {
	case q == standards.Ratio && v > 100 && r.sym.Key != "Rdr":
		return p.fail(a.number.from, ErrNumber, "%s cannot be above 100 %%", r.symbolWords())
	case v == 0 && q != standards.Number && q != standards.Ratio:
		return p.fail(a.number.from, ErrNumber, "a limit of 0 cannot be kept")
	}
	if r.hidden || r.limitOpen {
		return nil
	}
	if p.edition == standards.ASMEB46 && thousands(a.d) {
		r.limitOpen = true
		p.askThousands(r, a)
		return nil
	}
	choices, certain := usualUnits(q, p.edition)
	if r.Mark == "RMS" {
		choices, certain = usualUnits(standards.Height, standards.ASMEB46)
	}
	if r.Unit == "" && certain == "µm" && (inchNumber(r, r.first) || inchNumber(r, r.second)) {
		choices = []string{"µm", "µin"}
	}
	switch {
	case r.Unit == "" && len(choices) > 0:
		p.askUnit(r, a, choices)
		return nil
	case r.Unit == "":
		r.Unit = certain
	case q == standards.Height && r.sym.Letter == 'R' && (r.Unit == "mm" || r.Unit == "in"):
		p.askSlip(r, a)
		return nil
	}
	r.Limit = inUnit(a.d, r.Unit, q)
	if a.negative {
		r.Limit = -r.Limit
	}
	return nil
}

// inchNumber tells whether a limit of Ra or Rq without a unit is more likely in microinches: a number of the customary series of inch
// drawings that is coarse for micrometres (own choice).
func inchNumber(r *Requirement, a *amount) bool {
	if a == nil || r.sym.Key != "Ra" && r.sym.Key != "Rq" {
		return false
	}
	return slices.Contains([]float64{32, 63, 125, 250, 500, 1000, 2000}, a.value()) || a.value() > 80
}

// thousands tells whether a comma may set groups of thousands apart: 1,000.
func thousands(d decimal) bool {
	whole, behind, ok := strings.Cut(d.text, ".")
	return ok && d.comma && len(behind) == 3 && whole[0] != '0' && len(whole) <= 3
}
