package callout

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/furrow/filter"
	"example.com/furrow/standards"
)

// A partRow is a part of a requirement besides symbol and limit. Parts stand in any order behind the limit; some may stand before it.
type partRow struct {
	key    string
	before bool // may stand before the limit as well
	form   form
	says   string // what the words mean, where it is one of a few
	words  []string
}

// A form tells to which text a part belongs; 0 is all.
type form uint8

// The two texts that have forms of their own.
const (
	form1302 form = 1 + iota // counts and bands
	form2021                 // Tmax, T16%, Tmed and classes
)

var partTable = []partRow{
	{"rule", true, form2021, string(standards.Maximum), []string{"Tmax"}},
	{"rule", true, form2021, string(standards.SixteenPercent), []string{"T16 %", "T16"}},
	{"rule", true, form2021, string(standards.Median), []string{"Tmed"}},
	{"rule", true, 0, string(standards.SixteenPercent), []string{"16 % rule", "16 %-rule", "16 %"}},
	{"rule", true, 0, string(standards.Median), []string{"median rule", "median-rule", "median", "med"}},
	{"rule", true, 0, string(standards.Maximum), []string{"maximum rule", "max-rule", "max rule"}},
	{"class", true, form2021, "", []string{"Sc"}},
	{"long", false, 0, "", []string{"Nic", "λc", "lambda c", "cut-off", "cut off", "cutoff"}},
	{"short", false, 0, "", []string{"Nis", "λs", "lambda s"}},
	{"waviness_limit", false, 0, "", []string{"λf", "lambda f"}},
	{"section", false, 0, "", []string{"lsc", "lr"}},
	{"evaluation", false, 0, "", []string{"le", "ln"}},
	{"sections", false, 0, "", []string{"nsc"}},
	{"", false, 0, "", []string{"OR("}},
	{"reference", false, 0, "", []string{"from"}},
	{"extraction", false, 0, "mechanical", []string{"mechanical"}},
	{"extraction", false, 0, "optical", []string{"optical", "electromagnetic"}},
	{"process", true, 0, "", strings.Split(processes, "|")},
}

// read reads what stands behind the word of a part.
func (row *partRow) read(p *parser, r *Item, at int, word string) {
	switch row.key {
	case "rule":
		r.Rule, r.RuleWritten = standards.Rule(row.says), true
	case "class":
		p.class(r, at)
	case "sections":
		p.equals()
		r.Sections = p.integer()
	case "":
		r.Others = append(r.Others, p.integer())
		if !p.take(")") {
			p.bad(p.pos, "a closing bracket is expected here, not %s", p.rest())
		}
	case "reference":
		p.reference(r, at)
	case "extraction":
		r.Extraction = row.says
	case "process":
		r.Process = p.source(span{at, p.pos})
		p.take(":")
	default:
		p.length(r, word, row.key)
	}
}

// processes are the words for a process that may stand without quotation marks.
const processes = "ground|turned|milled|bored|drilled|reamed|honed|lapped|polished|planed|shaped|broached|superfinished|burnished|" +
	"blasted|peened|hobbed|rolled|cast|forged|sawn|filed|scraped|etched|eroded|machined|electropolished|extruded|drawn"

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
func (p *parser) part(r *Item, before bool) bool {
	at := p.pos
	for _, row := range partTable {
		if before && !row.before {
			continue
		}
		for _, w := range row.words {
			behind := *p.scanner
			if !behind.take(w) {
				continue
			}
			switch w {
			case "16 %": // a limit of a ratio
				if before && r.sym.Quantity == standards.Ratio && r.sym.Key != "" {
					continue
				}
			case "lr", "le", "ln": // L and a symbol
				if p.text[at] == 'L' {
					continue
				}
			case "Sc":
				if !isDigit(behind.peek(0)) {
					continue
				}
			}
			if row.key != "" {
				p.once(r, row.key, at)
			}
			p.pos = behind.pos
			row.read(p, r, at, w)
			where := span{at, p.pos}
			r.at[row.key], r.lastPart = where, row.key
			p.form(row.form, w, where, r)
			return true
		}
	}
	return false
}

// like1997 tells whether the edition is ISO 4287 or the Japanese one that follows it.
func (p *parser) like1997() bool {
	return p.edition == standards.ISO4287 || p.edition == standards.JIS2013
}

// own tells whether a form belongs to the texts of the edition.
func (p *parser) own(f form) bool {
	switch f {
	case form2021:
		return p.edition == standards.ISO21920
	case form1302:
		return p.like1997() || p.edition == standards.ISO12085
	}
	return true
}

// form notes a form that belongs to the text of another edition, and tells whether it does.
func (p *parser) form(f form, kind string, at span, r *Item) bool {
	if p.own(f) {
		return false
	}
	home := standards.ISO4287
	if f == form2021 {
		home = standards.ISO21920
	}
	p.foreign = append(p.foreign, foreign{kind, at, r, []standards.EditionID{home}})
	return true
}

// once refuses a part that was given before.
func (p *parser) once(r *Item, key string, at int) {
	if _, twice := r.at[key]; twice {
		name := partNames[key]
		if name == "" {
			name = key
		}
		p.bad(at, "the %s is given twice", name)
	}
}

var partNames = map[string]string{"rule": "acceptance rule", "class": "setting class", "long": "cut-off", "short": "cut-off of the S-filter",
	"waviness_limit": "long limit of the waviness", "section": "section length", "evaluation": "evaluation length", "sections": "number of sections",
	"reference": "reference of the level", "max": "word max", "min": "word min", "removal": "kind of removal"}

// equals moves past the equals sign or colon between a name and its value.
func (p *parser) equals() {
	p.blanks()
	if p.take("=", ":") {
		p.blanks()
	}
}

// class reads the number of a setting class.
func (p *parser) class(r *Item, at int) {
	n := p.peek(0)
	if p.digits() > 1 || n < '1' || n > '5' || p.atNumber() {
		p.bad(at, "the setting classes are Sc1 to Sc5")
	}
	r.Class = "Sc" + string(n)
}

// inchPairs are the cut-offs of ASME B46.1 in inches and the metric ones beside them (seen in neutral copies of the
// tables). They are pairs of preferred numbers, not conversions.
var inchPairs = map[string]float64{"0.003": 80, "0.01": 250, "0.03": 800, "0.1": 2500, "0.3": 8000}

// length returns an entry that is a length, by the key of its part.
func (r *Item) length(key string) *float64 {
	return map[string]*float64{"long": &r.Long, "short": &r.Short, "waviness_limit": &r.WavinessLimit, "section": &r.Section,
		"evaluation": &r.Evaluation, "a": &r.A, "b": &r.B}[key]
}

// length reads the value of a cut-off or a length.
func (p *parser) length(r *Item, name, key string) {
	p.equals()
	d := p.amount(false)
	unit := d.unit
	if unit == "" {
		if unit = "mm"; key == "short" && d.times(0) >= shortestFilter {
			unit = "µm"
		}
	}
	v := d.in(unit, standards.Spacing)
	if pair := inchPairs[trimNumber(d.text)]; key == "long" && unit == "in" && pair > 0 {
		v = pair
		r.note("%s in is the customary pair of %s in the tables of ASME B46.1.", trimNumber(d.text), standards.Length(pair))
	}
	switch {
	case !has(unit, standards.Spacing):
		p.badNumber(d.from, "%s is a length, not a number in %s", name, unit)
	case !isLength(v):
		p.badNumber(d.from, "%s is not between a picometre and a kilometre", name)
	}
	*r.length(key) = v
	if key != "long" {
		return
	}
	from := p.pos // λc 0,8 × 5
	p.blanks()
	sign := p.pos
	if c := p.peek(0); c == '×' || c == 'x' && !unicode.IsLetter(p.peek(1)) {
		p.pos++
		if p.blanks(); p.atNumber() {
			p.once(r, "sections", sign)
			r.Sections = p.integer()
			r.at["sections"] = span{sign, p.pos}
			return
		}
	}
	p.pos = from
}

// reference reads from where the level of a material ratio counts: "from=mean-line", "from the highest peak", "from 5 %".
func (p *parser) reference(r *Item, at int) {
	p.equals()
	if r.sym.Key != "Rmr" && r.sym.Key != "Tp" {
		p.bad(at, "%s has no level that could count from there", r.symbolWords())
	}
	p.take("the ")
	p.blanks()
	from := "0"
	switch {
	case p.take("mean line", "mean-line"):
		r.Reference = "mean-line"
	case p.take("highest peak", "highest-peak"):
		r.Reference = "highest-peak"
	case p.atNumber():
		d := p.decimal()
		if unit, _ := p.unit(); unit != "%" || d.times(0) > 100 {
			p.badNumber(d.from, "the reference is a material ratio in per cent")
		}
		from = trimNumber(d.text)
		r.Reference = from
	default:
		p.bad(p.pos, "a level counts from the mean line, from the highest peak or from a material ratio, not from %s", p.rest())
	}
	switch {
	case r.sym.Key == "Rmr" && r.Reference != "mean-line":
		y := symbolBy(p.edition, "RmrFrom", r.sym.Letter)
		switch {
		case y.Key == "":
			p.bad(at, "%s with a level that counts from there is no parameter of the edition %s", r.sym.Name, p.edition)
		case len(r.args) == 0: // a question about the brackets is open
			p.bad(at, "a level counts from there only once the brackets of %s are clear: write the comma in them as a point, and a second value behind a semicolon", r.sym.Name)
		}
		r.sym = y
		r.name([]string{from, strings.TrimPrefix(r.args[0], "-")})
	case r.sym.Key == "Tp" && r.Reference != "highest-peak":
		p.bad(at, "the level of %s counts from the highest peak", r.sym.Name)
	}
}

// extreme reads max or min as a word, and returns the side it says.
func (p *parser) extreme() (side standards.Side, ok bool) {
	at := p.pos
	switch {
	case p.take("maximum", "max"):
	case p.take("minimum", "min"):
		side = standards.Lower
	default:
		return
	}
	if unicode.ToLower(p.text[p.pos-1]) != 'm' && p.peek(0) == '.' && !isDigit(p.peek(1)) { // max. and min. cut short
		p.pos++
	}
	if p.at(p.pos, " rule")+p.at(p.pos, "-rule") > 0 {
		p.pos = at
		return
	}
	return side, true
}

// lay reads a lay symbol that stands by itself.
func (p *parser) lay(r *Item) bool {
	c, next := p.peek(0), p.peek(1)
	if layWords[string(c)] == "" || c != '=' && c != '⟂' && next != 0 && !strings.ContainsRune(" )],;/\n", next) {
		return false
	}
	at := span{p.pos, p.pos + 1}
	after := *p.scanner
	after.pos++
	if after.blanks(); c == 'R' && (after.atNumber() || strings.ContainsRune("≤≥<>=:", after.peek(0))) { // the motif parameter
		return false
	}
	p.once(r, "lay", at.from)
	p.pos++
	r.Lay, r.at["lay"], r.lastPart = string(c), at, "lay"
	return true
}

// withLetters are the filters that a text of ISO 21920-1 can name, the longest letters first. The letters are those of ISO 1101; that
// ISO 21920-1 has the same is remembered.
var withLetters = slices.SortedStableFunc(slices.Values(filter.All()), func(a, b filter.Info) int { return len(b.Letters) - len(a.Letters) })

// shortestFilter is below every S-filter in use, in µm: an index without a unit below it is more likely in millimetres.
const shortestFilter = 0.1

// A lettered is a filter with its letters and its index.
type lettered struct {
	name string
	*amount
}

// lettered reads a filter that stands without a name; nil when none does.
func (p *parser) lettered() *lettered {
	p.blanks()
	from, rest := p.pos, string(p.text[p.pos:p.end])
	for _, f := range withLetters {
		p.pos = from + len(f.Letters)
		if f.Letters == "" || !strings.HasPrefix(rest, f.Letters) || unicode.IsLetter(p.peek(0)) {
			continue
		}
		if p.blanks(); p.atNumber() {
			l := lettered{f.Key, p.amount(false)}
			l.at.from = from
			return &l
		}
	}
	p.pos = from
	return nil
}

// filters reads the elements of ISO 21920-1 that stand without a name, in their order: S-filter, L-filter and their indices, and three lengths.
func (p *parser) filters(r *Item) bool {
	begin := p.pos
	var list []*lettered
	for len(list) < 3 {
		f := p.lettered()
		if f == nil {
			break
		}
		list = append(list, f)
	}
	switch {
	case len(list) == 0:
		p.pos = begin
		return false
	case p.edition != standards.ISO21920:
		p.bad(begin, "a filter with its letter is text of ISO 21920-1: write λs or λc")
	case len(list) > 2:
		p.bad(list[2].at.from, "a third filter: there is an S-filter and an L-filter")
	}
	first := list[0]
	where := span{begin, p.pos}
	r.at["long"], r.at["short"] = where, where
	if len(list) == 1 {
		millimetre := first.unit == "mm"
		if millimetre || first.unit == "µm" || first.unit == "" && first.times(0) >= shortestFilter {
			delete(r.at, map[bool]string{true: "short", false: "long"}[millimetre])
		}
		if first.unit == "" {
			n := p.source(span{first.from, first.at.to})
			is := func(key, filter, name, unit string) choice {
				return pick(key, filter+" "+n+unit, edit{first.at, name + " " + n + unit})
			}
			r.ask("unit", fmt.Sprintf("%s can be the S-filter in µm or a filter in mm.", p.source(first.at)), first.at,
				is("micrometre", "S-filter", "Nis", " µm"), is("short-millimetre", "S-filter", "Nis", " mm"), is("millimetre", "L-filter", "Nic", " mm"))
			return true
		}
	}
	r.note("Filters and lengths are read by their order: S-filter index in µm, L-filter index and lengths in mm. How ISO 21920-1 spells them was not seen.")
	for i, f := range list {
		unit, name, to, n := "µm", &r.ShortFilter, &r.Short, trimNumber(f.text)
		if i == 1 || len(list) == 1 && f.unit == "mm" {
			unit, name, to = "mm", &r.LongFilter, &r.Long
		} else if f.unit == "" && f.times(0) < shortestFilter {
			r.ask("unit", fmt.Sprintf("An S-filter of %s µm is below every one in use: is the index in millimetres?", n), f.at,
				pick("millimetre", n+" mm, which is "+standards.Length(f.times(3)), insert(f.at.to, " mm")),
				pick("micrometre", n+" µm, as it stands", insert(f.at.to, " µm")))
		}
		if f.unit != "" {
			unit = f.unit
		}
		if *name, *to = f.name, f.in(unit, standards.Spacing); !has(unit, standards.Spacing) || !isLength(*to) {
			p.badNumber(f.from, "%s is no nesting index", f.text)
		}
	}
	p.blanks()
	if len(list) < 2 || !p.atNumber() {
		return true
	}
	for _, part := range [][2]string{{"section", "lsc"}, {"sections", "nsc"}, {"evaluation", "le"}} {
		key := part[0]
		p.blanks()
		at := p.pos
		if !p.atNumber() {
			p.bad(at, "behind the filters stand three numbers: section length, number of sections, evaluation length; or write lsc, nsc or le")
		}
		p.once(r, key, at)
		(&partRow{key: key}).read(p, r, at, part[1])
		r.at[key] = span{at, p.pos}
	}
	return true
}
