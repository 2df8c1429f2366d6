package callout

import (
	"fmt"
	"strings"
	"unicode"

	"example.com/furrow/filter"
	"example.com/furrow/standards"
)

// A partRow is a part of a requirement besides symbol and limit. Parts stand in any order behind the limit; some may stand before it.
type partRow struct {
	words   []string
	before  bool  // may stand before the limit as well
	foreign uint8 // form1302 or form2021: to which text the form belongs; 0 to all
	key     string
	read    func(p *parser, r *Requirement, at int, word string) error
}

// The two texts that have forms of their own.
const (
	form1302 = 1 + iota // counts and bands
	form2021            // Tmax, T16%, Tmed and classes
)

var partTable []partRow

func init() { partTable = parts() } // the rows lead back to the table by the parser

func parts() []partRow {
	rule := func(to standards.Rule) func(p *parser, r *Requirement, at int, word string) error {
		return func(_ *parser, r *Requirement, _ int, _ string) error {
			r.Rule, r.RuleWritten = to, true
			return nil
		}
	}
	length := func(unit string, to func(*Requirement) *float64) func(p *parser, r *Requirement, at int, word string) error {
		return func(p *parser, r *Requirement, at int, word string) error { return p.length(r, word, unit, to(r)) }
	}
	long := func(r *Requirement) *float64 { return &r.Long }
	short := func(r *Requirement) *float64 { return &r.Short }
	return []partRow{
		{[]string{"Tmax"}, true, form2021, "rule", rule(standards.Maximum)},
		{[]string{"T16 %", "T16"}, true, form2021, "rule", rule(standards.SixteenPercent)},
		{[]string{"Tmed"}, true, form2021, "rule", rule(standards.Median)},
		{[]string{"16 % rule", "16 %-rule"}, true, 0, "rule", rule(standards.SixteenPercent)},
		{[]string{"16 %"}, true, 0, "rule", rule(standards.SixteenPercent)},
		{[]string{"median rule", "median-rule", "median", "med"}, true, 0, "rule", rule(standards.Median)},
		{[]string{"maximum rule", "max-rule", "max rule"}, true, 0, "rule", rule(standards.Maximum)},
		{[]string{"Sc"}, true, form2021, "class", (*parser).class},
		{[]string{"Nic", "λc", "lambda c", "cut-off", "cut off", "cutoff"}, false, 0, "long", length("mm", long)},
		{[]string{"Nis", "λs", "lambda s"}, false, 0, "short", length("µm", short)},
		{[]string{"λf", "lambda f"}, false, 0, "waviness_limit", length("mm", func(r *Requirement) *float64 { return &r.WavinessLimit })},
		{[]string{"lsc", "lr"}, false, 0, "section", length("mm", func(r *Requirement) *float64 { return &r.Section })},
		{[]string{"le", "ln"}, false, 0, "evaluation", length("mm", func(r *Requirement) *float64 { return &r.Evaluation })},
		{[]string{"nsc"}, false, 0, "sections", func(p *parser, r *Requirement, _ int, _ string) (err error) {
			p.equals()
			r.Sections, err = p.integer()
			return err
		}},
		{[]string{"OR("}, false, 0, "", func(p *parser, r *Requirement, _ int, _ string) error {
			n, err := p.integer()
			if err != nil {
				return err
			}
			if !p.take(")") {
				return p.fail(p.pos, ErrSyntax, "a closing bracket is expected here, not %s", p.rest())
			}
			r.Others = append(r.Others, n)
			return nil
		}},
		{[]string{"from"}, false, 0, "reference", (*parser).reference},
		{[]string{"mechanical"}, false, 0, "extraction", func(_ *parser, r *Requirement, _ int, _ string) error { r.Extraction = "mechanical"; return nil }},
		{[]string{"optical", "electromagnetic"}, false, 0, "extraction", func(_ *parser, r *Requirement, _ int, _ string) error { r.Extraction = "optical"; return nil }},
		{processes, true, 0, "process", func(p *parser, r *Requirement, at int, _ string) error {
			r.Process = string(p.raw[at:p.pos])
			p.take(":")
			return nil
		}},
	}
}

// processes are the words for a process that may stand without quotation marks.
var processes = strings.Fields("ground turned milled bored drilled reamed honed lapped polished planed shaped broached superfinished burnished " +
	"blasted peened hobbed rolled cast forged sawn filed scraped etched eroded machined electropolished extruded drawn")

// removalWords are the three texts that stand for the graphical symbols.
var removalWords = map[string]string{
	"APA": "any process is permitted", "MRR": "material must be removed", "NMR": "no material may be removed",
}

// layWords are the lay symbols, common to ISO 1302, ISO 21920-1 and ASME Y14.36.
var layWords = map[string]string{
	"=": "lay parallel to the projection plane", "⟂": "lay perpendicular to the projection plane", "X": "crossed lay",
	"M": "lay in many directions", "C": "circular lay", "R": "radial lay", "P": "no lay, or particles",
}

// part reads a part of the table, and tells whether one stood there.
func (p *parser) part(r *Requirement, before bool) (bool, error) {
	at := p.pos
	for _, row := range partTable {
		if before && !row.before {
			continue
		}
		for _, w := range row.words {
			n := p.at(at, w)
			if n == 0 || w == "16 %" && before && r.sym.Quantity == standards.Ratio && r.sym.Key != "" {
				continue
			}
			if (w == "lr" || w == "le" || w == "ln") && p.text[at] == 'L' { // L and a symbol
				continue
			}
			if w == "Sc" && !isDigit(runeAt(p.text, at+n)) || row.key == "process" && unicode.IsLetter(runeAt(p.text, at+n)) {
				continue
			}
			if row.key != "" {
				if err := p.once(r, row.key, at); err != nil {
					return true, err
				}
			}
			p.pos = at + n
			if err := row.read(p, r, at, w); err != nil {
				return true, err
			}
			r.at[row.key] = span{at, p.pos}
			r.lastPart = row.key
			if row.foreign != 0 && !p.own(row.foreign) {
				p.foreign = append(p.foreign, foreign{kind: strings.ToLower(w), at: r.at[row.key], r: r, editions: homeOf(row.foreign)})
			}
			return true, nil
		}
	}
	return false, nil
}

// own tells whether a form belongs to the texts of the edition.
func (p *parser) own(form uint8) bool {
	if form == form2021 {
		return p.edition == standards.ISO21920
	}
	return p.like1997() || p.edition == standards.ISO12085
}

// like1997 tells whether the edition is ISO 4287 or the Japanese one that follows it.
func (p *parser) like1997() bool {
	return p.edition == standards.ISO4287 || p.edition == standards.JIS2013
}

func homeOf(form uint8) []standards.EditionID {
	if form == form2021 {
		return []standards.EditionID{standards.ISO21920}
	}
	return []standards.EditionID{standards.ISO4287}
}

// once refuses a part that was given before.
func (p *parser) once(r *Requirement, key string, at int) error {
	if _, twice := r.at[key]; twice {
		return p.fail(at, ErrSyntax, "the %s is given twice", partNames[key])
	}
	return nil
}

var partNames = map[string]string{"rule": "acceptance rule", "class": "setting class", "long": "cut-off", "short": "cut-off of the S-filter",
	"waviness_limit": "long limit of the waviness", "section": "section length", "evaluation": "evaluation length", "sections": "number of sections",
	"reference": "reference of the level", "extraction": "extraction", "process": "process", "lay": "lay", "side": "side", "limit": "limit", "max": "word max", "min": "word min", "removal": "kind of removal"}

// equals moves past the equals sign or colon between a name and its value.
func (p *parser) equals() {
	p.blanks()
	if c := p.peek(0); c == '=' || c == ':' {
		p.pos++
		p.blanks()
	}
}

// class reads the number of a setting class.
func (p *parser) class(r *Requirement, at int, _ string) error {
	if n := p.peek(0); n >= '1' && n <= '5' && !isDigit(p.peek(1)) && !isMark(p.peek(1)) || n >= '1' && n <= '5' && isMark(p.peek(1)) && !isDigit(p.peek(2)) {
		p.pos++
		r.Class = "Sc" + string(n)
		return nil
	}
	return p.fail(at, ErrSyntax, "the setting classes are Sc1 to Sc5")
}

// inchPairs are the cut-offs of ASME B46.1 in inches and the metric ones beside them (seen in neutral copies of the
// tables). They are pairs of preferred numbers, not conversions.
var inchPairs = map[string]float64{"0.003": 80, "0.01": 250, "0.03": 800, "0.1": 2500, "0.3": 8000}

// length reads the value of a cut-off or a length.
func (p *parser) length(r *Requirement, name, unit string, to *float64) error {
	p.equals()
	d, err := p.decimal()
	if err != nil {
		return err
	}
	given, _ := p.unit()
	if given == "" && name == "Nis" || given == "" && strings.HasSuffix(name, "s") && unit == "µm" {
		if given = unit; d.times(0) < 0.1 {
			given = "mm"
		}
	} else if given == "" {
		given = unit
	}
	v, ok := micrometres(d, given)
	if pair := inchPairs[trimNumber(d.text)]; to == &r.Long && given == "in" && pair > 0 {
		v = pair
		r.note("%s in is the customary pair of %s in the tables of ASME B46.1.", trimNumber(d.text), standards.Length(pair))
	}
	switch {
	case !ok:
		return p.fail(d.at, ErrNumber, "%s is a length, not a number in %s", name, given)
	case !(v > 1e-6) || v > 1e9:
		return p.fail(d.at, ErrNumber, "%s is not between a picometre and a kilometre", name)
	}
	*to = v
	if to == &r.Long { // λc 0,8 × 5
		from := p.pos
		if p.blanks(); p.peek(0) == '×' || p.peek(0) == 'x' && !unicode.IsLetter(p.peek(1)) {
			sign := p.pos
			p.pos++
			p.blanks()
			if !p.atNumber() {
				p.pos = from
				return nil
			}
			if err := p.once(r, "sections", sign); err != nil {
				return err
			}
			if r.Sections, err = p.integer(); err != nil {
				return err
			}
			r.at["sections"] = span{sign, p.pos}
			return nil
		}
		p.pos = from
	}
	return nil
}

// reference reads from where the level of a material ratio counts: "from=mean-line", "from the highest peak", "from 5 %".
func (p *parser) reference(r *Requirement, at int, _ string) error {
	p.equals()
	if r.sym.Key != "Rmr" && r.sym.Key != "Tp" {
		return p.fail(at, ErrSyntax, "%s has no level that could count from there", r.symbolWords())
	}
	p.take("the ")
	p.blanks()
	switch {
	case p.take("mean line", "mean-line"):
		r.Reference = "mean-line"
	case p.take("highest peak", "highest-peak"):
		r.Reference = "highest-peak"
	case p.atNumber():
		d, err := p.decimal()
		if err != nil {
			return err
		}
		if unit, _ := p.unit(); unit != "%" || d.times(0) > 100 {
			return p.fail(d.at, ErrNumber, "the reference is a material ratio in per cent")
		}
		r.Reference = trimNumber(d.text)
	default:
		return p.fail(p.pos, ErrSyntax, "a level counts from the mean line, from the highest peak or from a material ratio, not from %s", p.rest())
	}
	if r.sym.Key == "Tp" {
		if r.Reference != "highest-peak" {
			return p.fail(at, ErrSyntax, "the level of %s counts from the highest peak", r.sym.Name)
		}
		return nil
	}
	if from := map[bool]string{true: "0", false: r.Reference}[r.Reference == "highest-peak"]; r.Reference != "mean-line" {
		r.args = []string{from, strings.TrimPrefix(r.args[0], "-")}
		r.sym = symbolBy(p.edition, "RmrFrom", r.sym.Letter)
		r.name(r.args)
	}
	return nil
}

// extreme reads max or min as a word, and returns the side it says.
func (p *parser) extreme() (standards.Side, bool) {
	for i, words := range [][]string{{"maximum", "max"}, {"minimum", "min"}} {
		at := p.pos
		if !p.take(words...) {
			continue
		}
		if p.text[p.pos-1] == 'x' || p.text[p.pos-1] == 'X' || p.text[p.pos-1] == 'n' || p.text[p.pos-1] == 'N' {
			if p.peek(0) == '.' && !isDigit(p.peek(1)) {
				p.pos++
			}
		}
		if p.at(p.pos, " rule")+p.at(p.pos, "-rule") > 0 {
			p.pos = at
			return 0, false
		}
		return []standards.Side{standards.Upper, standards.Lower}[i], true
	}
	return 0, false
}

// lay reads a lay symbol that stands by itself.
func (p *parser) lay(r *Requirement) (bool, error) {
	c, next := p.peek(0), p.peek(1)
	if layWords[string(c)] == "" || c != '=' && c != '⟂' && next != 0 && !strings.ContainsRune(" )],;/\n", next) {
		return false, nil
	}
	after := *p.scanner
	after.pos++
	if after.blanks(); c == 'R' && (after.atNumber() || strings.ContainsRune("≤≥<>=:", after.peek(0)) && after.peek(0) != 0) { // the motif parameter
		return false, nil
	}
	at := p.pos
	if err := p.once(r, "lay", at); err != nil {
		return true, err
	}
	p.pos++
	r.Lay, r.at["lay"], r.lastPart = string(c), span{at, p.pos}, "lay"
	return true, nil
}

// shortestFilter is below every S-filter in use, in µm: an index without a unit below it is more likely in millimetres.
const shortestFilter = 0.1

// filters reads the elements of ISO 21920-1 that stand without a name, in their order: S-filter, L-filter and their indices, and three lengths.
func (p *parser) filters(r *Requirement) (bool, error) {
	type part struct {
		name, letters, unit string
		index               decimal
		at                  span
	}
	var list []part
	begin := p.pos
	for len(list) < 3 {
		p.blanks()
		from, found := p.pos, false
		for _, f := range filter.All() { // their letters are those of ISO 1101; that ISO 21920-1 has the same is remembered
			n := len(f.Letters)
			if n == 0 || p.pos+n > p.end || string(p.text[p.pos:p.pos+n]) != f.Letters || unicode.IsLetter(p.peek(n)) {
				continue
			}
			p.pos += n
			p.blanks()
			if !p.atNumber() {
				break
			}
			d, err := p.decimal()
			if err != nil {
				return true, err
			}
			unit, _ := p.unit()
			list, found = append(list, part{f.Key, f.Letters, unit, d, span{from, p.pos}}), true
			break
		}
		if !found {
			p.pos = from
			break
		}
	}
	if len(list) == 0 {
		p.pos = begin
		return false, nil
	}
	if p.edition != standards.ISO21920 {
		return true, p.fail(begin, ErrSyntax, "a filter with its letter is text of ISO 21920-1: write λs or λc")
	}
	if len(list) > 2 {
		return true, p.fail(list[2].at.from, ErrSyntax, "a third filter: there is an S-filter and an L-filter")
	}
	r.at["long"], r.at["short"] = span{begin, p.pos}, span{begin, p.pos}
	first := list[0]
	if len(list) == 1 {
		if first.unit == "mm" || first.unit == "" && first.index.times(0) >= shortestFilter || first.unit == "µm" {
			delete(r.at, map[bool]string{true: "short", false: "long"}[first.unit == "mm"])
		}
		n := string(p.raw[first.index.at:first.at.to])
		if first.unit == "" {
			r.ask("unit", "settings", fmt.Sprintf("%s can be the S-filter in µm or a filter in mm.", string(p.raw[first.at.from:first.at.to])), first.at,
				choice{"micrometre", "S-filter " + n + " µm", []edit{{first.at.from, first.at.to, "Nis " + n + " µm"}}, ""},
				choice{"short-millimetre", "S-filter " + n + " mm", []edit{{first.at.from, first.at.to, "Nis " + n + " mm"}}, ""},
				choice{"millimetre", "L-filter " + n + " mm", []edit{{first.at.from, first.at.to, "Nic " + n + " mm"}}, ""})
			return true, nil
		}
	}
	r.note("Filters and lengths are read by their order: S-filter index in µm, L-filter index and lengths in mm. How ISO 21920-1 spells them was not seen.")
	for i, f := range list {
		unit, name, to := "µm", &r.ShortFilter, &r.Short
		if i == 1 || len(list) == 1 && f.unit == "mm" {
			unit, name, to = "mm", &r.LongFilter, &r.Long
		}
		if unit == "µm" && f.unit == "" && f.index.times(0) < shortestFilter {
			n := f.at.to
			r.ask("unit", "settings", fmt.Sprintf("An S-filter of %s µm is below every one in use: is the index in millimetres?", trimNumber(f.index.text)), f.at,
				choice{"millimetre", trimNumber(f.index.text) + " mm, which is " + standards.Length(f.index.times(3)), []edit{{n, n, " mm"}}, ""},
				choice{"micrometre", trimNumber(f.index.text) + " µm, as it stands", []edit{{n, n, " µm"}}, ""})
		}
		if f.unit != "" {
			unit = f.unit
		}
		v, ok := micrometres(f.index, unit)
		if !ok || !(v > 1e-6) || v > 1e9 {
			return true, p.fail(f.index.at, ErrNumber, "%s is no nesting index", f.index.text)
		}
		*name, *to = f.name, v
	}
	p.blanks()
	if len(list) < 2 || !p.atNumber() {
		return true, nil
	}
	for i, key := range []string{"section", "sections", "evaluation"} {
		p.blanks()
		at := p.pos
		if !p.atNumber() {
			return true, p.fail(at, ErrSyntax, "behind the filters stand three numbers: section length, number of sections, evaluation length; or write lsc, nsc or le")
		}
		if err := p.once(r, key, at); err != nil {
			return true, err
		}
		var err error
		switch i {
		case 1:
			r.Sections, err = p.integer()
		case 0:
			err = p.length(r, "lsc", "mm", &r.Section)
		default:
			err = p.length(r, "le", "mm", &r.Evaluation)
		}
		if err != nil {
			return true, err
		}
		r.at[key] = span{at, p.pos}
	}
	return true, nil
}
