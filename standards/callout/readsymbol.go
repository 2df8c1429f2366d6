package callout

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"example.com/furrow/standards"
)

// A match is what the characters at a place may stand for.
type match struct {
	spelt
	end   int  // behind the name, before its arguments
	exact bool // in the spelling of the list, not in another case
	other bool // the symbols are those of other editions
}

// spelt is one way to write a symbol.
type spelt struct {
	name    string
	split   bool               // a blank may follow its first letter, where copying has cut a subscript off
	anyCase bool               // exact in any case
	symbols []standards.Symbol // of one spelling: they differ in arguments, or in case
	old     *oldName           // a name of another time, without symbols
}

// aliases are other names of a parameter, by its key.
var aliases = []struct{ name, key string }{{"CLA", "Ra"}, {"AA", "Ra"}, {"Rz(JIS)", "RzJIS"}, {"RzJIS", "RzJIS"}, {"RzJIS94", "RzJIS"}}

// An oldName is a name of other times and places with what it can mean today, as keys of parameters. It is asked about wherever the edition
// has no symbol of that name.
type oldName struct {
	name, text string
	means      []string
}

var oldNames = []oldName{
	{"Rmax", "The largest height of a section was called Rmax, and on other drawings the height of the whole profile.", []string{"Rzx", "Ry", "Rt"}},
	{"Rz1max", "", []string{"Rz"}}, // has a question of its own
	{"Rz1 max", "", []string{"Rz"}},
	{"Ry", "Ry is the maximum height of older texts, called Rz since 1997.", []string{"Rz"}},
	{"Rtm", "Rtm is the mean of the section heights, called Rz since 1997.", []string{"Rz"}},
	{"Mr1", "Mr1 of ISO 13565-2 is Rmrk1 in ISO 21920.", []string{"Rmrk1"}},
	{"Mr2", "Mr2 of ISO 13565-2 is Rmrk2 in ISO 21920.", []string{"Rmrk2"}},
	{"A1", "A1 of ISO 13565-2 is Rak1 in ISO 21920.", []string{"Rak1"}},
	{"A2", "A2 of ISO 13565-2 is Rak2 in ISO 21920.", []string{"Rak2"}},
	{"Sm", "Sm is the mean spacing of older texts, RSm since 1997.", []string{"Rsm"}},
}

// A list has the symbols of an edition, and the ways to write them by their first letter.
type list struct {
	symbols []standards.Symbol
	spelt   map[rune][]spelt
}

func (l list) add(s spelt) {
	c := fold([]rune(s.name)[0])
	l.spelt[c] = append(l.spelt[c], s)
}

// lists are those of all editions, and under "" the names of other times, made when a text is first read.
var lists = sync.OnceValue(func() map[standards.EditionID]list {
	old := list{nil, map[rune][]spelt{}}
	for i := range oldNames {
		o := spelt{name: oldNames[i].name, split: true, anyCase: true, old: &oldNames[i]}
		old.add(o)
		if rest, ok := strings.CutPrefix(o.name, "R"); ok {
			for _, letter := range []string{"P", "W"} {
				o.name = letter + rest
				old.add(o)
			}
		}
	}
	all := map[standards.EditionID]list{"": old}
	for _, id := range standards.EditionIDs() {
		l := list{standards.Symbols(id), map[rune][]spelt{}}
		for i, y := range l.symbols {
			only := l.symbols[i : i+1 : i+1]
			for _, name := range append([]string{y.Name}, y.Also...) {
				l.add(spelt{name: name, split: len(name) > 1 && name[0] == y.Letter, symbols: only})
			}
			for _, a := range aliases {
				if y.Key == a.key && y.Letter == 'R' {
					l.add(spelt{name: a.name, anyCase: true, symbols: only})
				}
			}
		}
		all[id] = l
	}
	return all
})

// symbolsOf returns the symbols of an edition; the list is shared.
func symbolsOf(edition standards.EditionID) []standards.Symbol { return lists()[edition].symbols }

// symbolBy returns the symbol that an edition has for a parameter on a profile; its key is empty when it has none.
func symbolBy(edition standards.EditionID, key string, letter byte) (y standards.Symbol) {
	list := symbolsOf(edition)
	if i := slices.IndexFunc(list, func(y standards.Symbol) bool { return y.Key == key && y.Letter == letter }); i >= 0 {
		y = list[i]
	}
	return y
}

// editionsWith returns the editions that have a parameter on a profile.
func editionsWith(y standards.Symbol) (ids []standards.EditionID) {
	for _, id := range standards.EditionIDs() {
		if symbolBy(id, y.Key, y.Letter).Key != "" {
			ids = append(ids, id)
		}
	}
	return ids
}

// hasName tells whether an edition has a symbol of this name.
func hasName(edition standards.EditionID, name string) bool {
	return slices.ContainsFunc(symbolsOf(edition), func(y standards.Symbol) bool { return y.Name == name })
}

// spells returns the place behind a name that stands at a place of the text, and whether its case is exact; 0 when it does not stand there.
// split asks for a blank behind the first letter.
func (s *scanner) spells(at int, name string, split bool) (end int, exact bool) {
	i, exact := at, true
	for k, r := range name {
		if split && k > 0 && i == at+1 {
			for i < s.end && s.text[i] == ' ' {
				i++
			}
			if i == at+1 {
				return 0, false
			}
		}
		if r == ' ' && i < s.end && s.text[i] == ' ' { // any number of them
			for i+1 < s.end && s.text[i+1] == ' ' {
				i++
			}
		}
		if i >= s.end || fold(s.text[i]) != fold(r) {
			return 0, false
		}
		exact = exact && s.text[i] == r
		i++
	}
	behind := *s
	behind.pos = i
	next := behind.peek(0)
	switch {
	case unicode.IsLetter(next):
		// max and min may stand at a symbol, but R and W with max are not the motif parameters.
		if i-at < 2 || !behind.take("max", "min", "maximum", "minimum") {
			return 0, false
		}
	case isDigit(s.text[i-1]) && behind.atNumber():
		return 0, false
	}
	return i, exact
}

// symbolAt finds the longest name at a place: of the editions given, of another time, or of other editions.
func (p *parser) symbolAt(at int, editions ...standards.EditionID) (best match, ok bool) {
	if at >= p.end || at > 0 && unicode.IsLetter(p.text[at]) && unicode.IsLetter(p.text[at-1]) && p.free != at {
		return match{}, false
	}
	try := func(id standards.EditionID, other bool) {
		for _, n := range lists()[id].spelt[fold(p.text[at])] {
			for _, split := range [...]bool{false, true} {
				if split && !n.split {
					continue
				}
				m := match{spelt: n, other: other}
				m.end, m.exact = p.spells(at, n.name, split)
				m.exact = m.exact || n.anyCase
				switch {
				case m.end == 0 || !m.exact && (other || split) || m.end < best.end || m.end == best.end && best.exact && !m.exact:
				case m.end == best.end && m.exact == best.exact && other == best.other && best.old == nil && n.old == nil:
					best.symbols = append(best.symbols, n.symbols...)
				case m.end > best.end || n.old == nil && m.exact && !best.exact && other == best.other:
					best = m
				}
			}
		}
	}
	for _, id := range editions {
		try(id, false)
	}
	try("", false)
	own := best
	for _, id := range standards.EditionIDs() {
		try(id, true)
	}
	if own.end > at && best.other && isDigit(p.text[best.end-1]) && !p.countAhead(own.end) {
		best = own // Ra75 is Ra 75 unless a limit follows
	}
	return best, best.end > 0
}

// symbol reads the symbol of a requirement with its arguments. motif lets the motif parameters stand among those of ISO 4287.
func (p *parser) symbol(r *Item, motif bool) {
	p.blanks()
	editions := []standards.EditionID{p.edition}
	if motif && p.like1997() {
		editions = append(editions, standards.ISO12085)
	}
	at := p.pos
	m, ok := p.symbolAt(at, editions...)
	switch {
	case !ok && at >= p.last():
		p.bad(p.last(), "the symbol of a parameter is missing")
	case !ok:
		p.refuse(ErrSymbol, at, "%s is not the symbol of a parameter", p.rest())
	}
	p.pos = m.end
	if r.old = m.old; r.old != nil {
		r.at["symbol"] = span{at, m.end}
		r.oldLetter = 'R'
		if r.old.name[0] == 'R' {
			r.oldLetter = byte(unicode.ToUpper(p.text[at]))
		}
		r.open = true
		if y := symbolBy(standards.ISO21920, r.old.means[0], r.oldLetter); y.Key != "" {
			r.sym = standards.Symbol{Quantity: y.Quantity, Letter: y.Letter}
		}
		return
	}
	args := p.arguments(r, &m)
	where := span{at, p.pos}
	r.at["symbol"] = where
	y := m.symbols[0]
	r.sym = y
	var choices []choice
	for i, z := range m.symbols {
		if !slices.ContainsFunc(m.symbols[:i], func(k standards.Symbol) bool { return k.Key == z.Key && k.Letter == z.Letter }) {
			choices = append(choices, pick(z.Name, z.Name, edit{span{at, m.end}, z.Name}))
		}
	}
	switch {
	case m.other:
		p.foreign = append(p.foreign, foreign{"symbol", where, r, editionsWith(y)})
		r.open = true
		return
	case len(choices) > 1:
		r.ask("symbol", "Two symbols differ in the case of their letters only.", where, choices...)
		r.open = true
		return
	case !m.exact:
		r.note("%s is read as %s.", p.source(span{at, m.end}), y.Name)
	}
	if symbolBy(p.edition, y.Key, y.Letter).Key == "" {
		r.Edition = standards.ISO12085
	}
	if !r.open {
		r.name(args)
	}
}

// name gives the requirement the symbol of its edition with the arguments.
func (r *Item) name(args []string) {
	r.args = args
	r.Symbol = r.sym.Name
	if len(args) > 0 {
		mark := ","
		if r.sym.Key == "RmrFrom" {
			mark = ";"
		}
		r.Symbol += "(" + strings.Join(args, mark) + ")"
	}
}

// stratified are the parameters that the edition's filter for stratified surfaces is for, by their key.
var stratified = strings.Fields("Rk Rpk Rvk Rpkx Rvkx Rmrk1 Rmrk2 Rak1 Rak2 Rpq Rvq Rmq")

// isStratified tells whether a symbol is of the Rk family or its probability counterpart.
func isStratified(y standards.Symbol) bool {
	return y.Letter == 'R' && slices.Contains(stratified, y.Key)
}
