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
	end     int                // behind the name, before its arguments
	exact   bool               // in the spelling of the list, not in another case
	symbols []standards.Symbol // of one spelling: they differ in arguments, or in case where exact is false
	other   bool               // the symbols are those of other editions
	name    string             // a name of another time, a key of oldNames
}

// aliases are other names of a parameter, by its key.
var aliases = []struct{ name, key string }{{"CLA", "Ra"}, {"AA", "Ra"}, {"Rz(JIS)", "RzJIS"}, {"RzJIS", "RzJIS"}}

// oldNames are names of other times and places with what they can mean today, as names of ISO 21920 on the roughness profile. They are
// asked about wherever the edition has no symbol of that name.
var oldNames = []struct {
	name, text string
	means      []string
}{
	{"Rmax", "The largest height of a section was called Rmax, and on other drawings the height of the whole profile.", []string{"Rzx", "Ry", "Rt"}},
	{"Rz1max", "", nil}, // has a question of its own
	{"Ry", "Ry is the maximum height of older texts, called Rz since 1997.", []string{"Rz"}},
	{"Rtm", "Rtm is the mean of the section heights, called Rz since 1997.", []string{"Rz"}},
	{"Mr1", "Mr1 of ISO 13565-2 is Rmrk1 in ISO 21920.", []string{"Rmrk1"}},
	{"Mr2", "Mr2 of ISO 13565-2 is Rmrk2 in ISO 21920.", []string{"Rmrk2"}},
	{"A1", "A1 of ISO 13565-2 is Rak1 in ISO 21920.", []string{"Rak1"}},
	{"A2", "A2 of ISO 13565-2 is Rak2 in ISO 21920.", []string{"Rak2"}},
	{"Sm", "Sm is the mean spacing of older texts, RSm since 1997.", []string{"Rsm"}},
}

// spells returns the place behind a name that stands at a place of the text, and whether its case is exact; 0 when it does not stand there.
// split lets a blank follow the first letter, where copying has cut a subscript off.
func (s *scanner) spells(at int, name string, split bool) (end int, exact bool) {
	i, exact, first := at, true, true
	for _, r := range name {
		if i >= s.end || fold(s.text[i]) != fold(r) {
			return 0, false
		}
		exact = exact && s.text[i] == r
		i++
		if first && split {
			from := i
			for i < s.end && s.text[i] == ' ' {
				i++
			}
			if i == from {
				return 0, false
			}
		}
		first = false
	}
	var next, second rune
	if i < s.end {
		next = s.text[i]
	}
	if i+1 < s.end {
		second = s.text[i+1]
	}
	long := i-at > 1
	switch last := s.text[i-1]; {
	case unicode.IsLetter(next):
		// max and min may stand at a symbol, but R and W with max are not the motif parameters.
		if !long || s.at(i, "max") == 0 && s.at(i, "min") == 0 && s.at(i, "maximum") == 0 && s.at(i, "minimum") == 0 {
			return 0, false
		}
	case isDigit(last) && (isDigit(next) || isMark(next) && isDigit(second)):
		return 0, false
	}
	return i, exact
}

// spelt is one way to write a symbol.
type spelt struct {
	name   string
	split  bool // a blank may follow its first letter
	symbol []standards.Symbol
}

// An editionList is the symbols of an edition, and their spellings by their first letter.
type editionList struct {
	symbols []standards.Symbol
	names   map[rune][]spelt
}

// lists are those of all editions, made when a text is first read.
var lists = sync.OnceValue(func() map[standards.EditionID]editionList {
	all := map[standards.EditionID]editionList{}
	for _, id := range standards.EditionIDs() {
		l := editionList{standards.Symbols(id), map[rune][]spelt{}}
		for i, y := range l.symbols {
			for _, name := range append([]string{y.Name}, y.Also...) {
				c := fold([]rune(name)[0])
				l.names[c] = append(l.names[c], spelt{name, len(name) > 1 && name[0] == y.Letter, l.symbols[i : i+1 : i+1]})
			}
		}
		all[id] = l
	}
	return all
})

// symbolsOf returns the symbols of an edition; the list is shared.
func symbolsOf(edition standards.EditionID) []standards.Symbol { return lists()[edition].symbols }

// symbolAt finds the longest name at a place: of the editions given, of another time, or of other editions.
func (p *parser) symbolAt(at int, editions ...standards.EditionID) (best match, ok bool) {
	if at >= p.end || at > 0 && unicode.IsLetter(p.text[at]) && unicode.IsLetter(p.text[at-1]) && p.free != at {
		return match{}, false
	}
	offer := func(m match) {
		switch {
		case m.end == 0 || m.end < best.end || m.end == best.end && best.exact && !m.exact:
		case m.end == best.end && m.exact == best.exact && m.other == best.other && best.name == "":
			best.symbols = append(best.symbols, m.symbols...)
		case m.end > best.end || m.exact && !best.exact && m.other == best.other:
			best = m
		}
	}
	try := func(id standards.EditionID, other bool) {
		for _, n := range lists()[id].names[fold(p.text[at])] {
			for _, split := range [...]bool{false, true} {
				if split && !n.split {
					continue
				}
				if end, exact := p.spells(at, n.name, split); end > 0 && (exact || !other && !split) {
					offer(match{end: end, exact: exact, symbols: n.symbol, other: other})
				}
			}
		}
	}
	for _, id := range editions {
		try(id, false)
		for _, a := range aliases {
			if end, _ := p.spells(at, a.name, false); end > 0 {
				if i := slices.IndexFunc(symbolsOf(id), func(y standards.Symbol) bool { return y.Key == a.key && y.Letter == 'R' }); i >= 0 {
					offer(match{end: end, exact: true, symbols: symbolsOf(id)[i : i+1 : i+1]})
				}
			}
		}
	}
	for _, o := range oldNames {
		for _, letter := range "RPW" {
			name := o.name
			if name[0] == 'R' {
				name = string(letter) + name[1:]
			} else if letter != 'R' {
				continue
			}
			for _, split := range []bool{false, true} {
				if end, _ := p.spells(at, name, split); end > best.end {
					best = match{end: end, exact: true, name: o.name}
				}
			}
		}
	}
	own := best
	for _, id := range standards.EditionIDs() {
		try(id, true)
	}
	for _, a := range aliases {
		if end, _ := p.spells(at, a.name, false); end > best.end {
			for _, id := range standards.EditionIDs() {
				for _, y := range symbolsOf(id) {
					if y.Key == a.key && y.Letter == 'R' {
						best = match{end: end, exact: true, symbols: []standards.Symbol{y}, other: true}
					}
				}
			}
		}
	}
	if own.end > 0 && best.other && isDigit(p.text[best.end-1]) && !p.countAhead(own.end) {
		best = own // Ra75 is Ra 75 unless a limit follows
	}
	return best, best.end > 0
}

// symbol reads the symbol of a requirement with its arguments. motif lets the motif parameters stand among those of ISO 4287.
func (p *parser) symbol(r *Requirement, motif bool) error {
	p.blanks()
	editions := []standards.EditionID{p.edition}
	if motif && p.like1997() {
		editions = append(editions, standards.ISO12085)
	}
	at := p.pos
	m, ok := p.symbolAt(at, editions...)
	if !ok {
		if at >= p.last() {
			return p.fail(p.last(), ErrSyntax, "the symbol of a parameter is missing")
		}
		return p.fail(at, ErrSymbol, "%s is not the symbol of a parameter", p.rest())
	}
	p.pos = m.end
	r.at["symbol"] = span{at, m.end}
	if m.name != "" {
		r.old = m.name
		r.oldLetter = unicode.ToUpper(p.text[at])
		if m.name[0] != 'R' {
			r.oldLetter = 'R'
		}
		r.open = true
		if y := symbolBy(standards.ISO21920, append(r.meanings(), "Rz")[0], byte(r.oldLetter)); y.Key != "" {
			r.sym = standards.Symbol{Quantity: y.Quantity, Letter: y.Letter}
		}
		return nil
	}
	args, err := p.arguments(r, &m)
	if err != nil {
		return err
	}
	r.at["symbol"] = span{at, p.pos}
	m.symbols = oneKey(m.symbols)
	y := m.symbols[0]
	r.sym = y
	switch {
	case m.other:
		var ids []standards.EditionID
		for _, id := range standards.EditionIDs() {
			if slices.ContainsFunc(symbolsOf(id), func(z standards.Symbol) bool { return z.Key == y.Key && z.Letter == y.Letter }) {
				ids = append(ids, id)
			}
		}
		p.foreign = append(p.foreign, foreign{kind: "symbol", at: r.at["symbol"], r: r, editions: ids})
		r.open = true
		return nil
	case len(m.symbols) > 1:
		var choices []choice
		for _, y := range m.symbols {
			choices = append(choices, choice{y.Name, y.Name, []edit{{at, m.end, y.Name}}, ""})
		}
		r.ask("symbol", "settings", "Two symbols differ in the case of their letters only.", r.at["symbol"], choices...)
		r.open = true
		return nil
	case !m.exact:
		r.note("%s is read as %s.", string(p.raw[at:m.end]), y.Name)
	}
	if !slices.ContainsFunc(symbolsOf(p.edition), func(z standards.Symbol) bool { return z.Key == y.Key && z.Letter == y.Letter }) {
		r.Edition = standards.ISO12085
	}
	if !r.open {
		r.name(args)
	}
	return nil
}

// name gives the requirement the symbol of its edition with the arguments.
func (r *Requirement) name(args []string) {
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

// symbolBy returns the symbol that an edition has for a parameter on a profile; its key is empty when it has none.
func symbolBy(edition standards.EditionID, key string, letter byte) standards.Symbol {
	for _, y := range symbolsOf(edition) {
		if y.Key == key && y.Letter == letter {
			return y
		}
	}
	return standards.Symbol{}
}

// stratified are the parameters that the edition's filter for stratified surfaces is for, by their key.
var stratified = []string{"Rk", "Rpk", "Rvk", "Rpkx", "Rvkx", "Rmrk1", "Rmrk2", "Rak1", "Rak2", "Rpq", "Rvq", "Rmq"}

// isStratified tells whether a symbol is of the Rk family or its probability counterpart.
func isStratified(y standards.Symbol) bool {
	return y.Letter == 'R' && slices.Contains(stratified, y.Key)
}
