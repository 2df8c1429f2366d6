package compare

import (
	"slices"
	"strings"
	"unicode"

	"example.com/furrow/standards"
)

// Stated finds the results that a file states beside its heights: "Ra = 0.42 µm", "Rz;2,87;µm", or a line of names such as "Ra (µm)" above one
// of numbers. lines are those of the file, mark is its decimal mark, '.' or ',', and 0 where it shows none.
//
// Nothing is guessed. A line counts only when all of it is symbols of an edition, numbers as printed and their units. Not taken are a number without
// the unit that its symbol has, one that the decimal mark leaves open, a symbol that is stated twice with different values, a table with rows that
// differ, and all from the first line on that speaks of limits, nominal values, other parts or a certificate. Nor is what stands below a heading,
// unless it says that results follow, or behind a line that breaks off the results and is no remark on how they were measured.
func Stated(lines []string, mark rune) []Printed {
	var list []Printed
	begun, ended := false, false
	for i := 0; i < len(lines); i++ {
		line := lines[i]
		own := words(line)
		if len(own) == 0 {
			continue
		}
		if slices.ContainsFunc(own, asks) {
			break
		}
		found, ok := statement(cells(line), mark)
		if !ok {
			var used int
			found, used = columns(lines[i:], mark)
			i += used
		}
		switch {
		case len(found) > 0:
			if begun = true; !ended {
				list = append(list, found...)
			}
		case saysResults(line, own):
			begun, ended = false, false
		case begun && !slices.Contains(remarks, own[0]), isHeading(line):
			ended = true
		}
	}
	differs := func(a Printed) bool {
		return slices.ContainsFunc(list, func(b Printed) bool { return a.Symbol == b.Symbol && (a.Value != b.Value || a.Half != b.Half) })
	}
	var kept []Printed
	for _, p := range list {
		if !differs(p) && !slices.ContainsFunc(kept, func(k Printed) bool { return k.Symbol == p.Symbol }) {
			kept = append(kept, p)
		}
	}
	return kept
}

// words are those of a line, in small letters.
func words(line string) []string {
	return strings.FieldsFunc(strings.ToLower(line), func(r rune) bool { return !unicode.IsLetter(r) })
}

// asks reports whether a word is one of what a surface shall have or another one has, and not of what it has. The words are those of English,
// German and French.
func asks(word string) bool {
	return slices.Contains([]string{"ot", "ut", "og", "ug", "ref", "dev", "sd", "last"}, word) ||
		slices.ContainsFunc([]string{"limit", "toler", "nomin", "spec", "max", "min", "target", "requ", "drawing", "certif", "usl", "lsl",
			"grenz", "soll", "zeichn", "zertif", "consigne", "exig", "étalon", "vorgab", "nenn", "tolér", "spéc", "refer", "référ", "upper", "lower",
			"allow", "zul", "admis", "uncert", "unsich", "incert", "deviat", "stddev", "abweich", "écart", "previous", "vorig", "précéd"},
			func(begin string) bool { return strings.HasPrefix(word, begin) })
}

// remarks are the first words of lines that may stand between results: they tell how the surface was measured.
var remarks = strings.Fields("length cutoff cut filter operator date time points spacing speed tip stylus instrument profile λc λs lc ls lr ln le lt " +
	"messstrecke taststrecke bediener prüfer datum uhrzeit punkte longueur filtre opérateur heure")

// saysResults reports whether a line is a heading that says that results follow.
func saysResults(line string, own []string) bool {
	return isHeading(line) && slices.ContainsFunc(own, func(word string) bool {
		return slices.ContainsFunc([]string{"result", "résultat", "ergebnis", "messergebnis", "messwert", "istwert", "measured", "mesuré"},
			func(begin string) bool { return strings.HasPrefix(word, begin) })
	})
}

// isHeading reports whether a line is one of words only, without a value behind a colon or an equals sign.
func isHeading(line string) bool {
	if strings.ContainsFunc(line, unicode.IsDigit) {
		return false
	}
	i := strings.IndexAny(line, ":=")
	return i < 0 || len(words(line[i:])) == 0 || len(words(line[:i])) == 0
}

// cells parts a line at tabs, semicolons, bars and blanks, and at commas that do not stand between digits; a unit in brackets is a cell.
func cells(line string) []string {
	runes := []rune(strings.NewReplacer("=", " ", "\"", " ").Replace(line))
	digit := func(i int) bool { return i >= 0 && i < len(runes) && unicode.IsDigit(runes[i]) }
	depth := 0
	for i, r := range runes {
		switch {
		case r == '(':
			depth++
		case r == ')':
			depth--
		case strings.ContainsRune("\t;|", r), r == ':' && !digit(i+1), r == ',' && depth == 0 && !(digit(i-1) && digit(i+1)):
			runes[i] = ' '
		}
	}
	var list []string
	for _, cell := range strings.Fields(string(runes)) {
		if i := strings.LastIndexAny(cell, "[("); i > 0 && isUnit(bracketed(cell[i:])) {
			list, cell = append(list, cell[:i]), cell[i:]
		}
		list = append(list, cell)
	}
	return list
}

// statement reads cells that are all symbol, number and unit; the unit may stand before the number.
func statement(cells []string, mark rune) (list []Printed, ok bool) {
	for len(cells) > 1 {
		symbol, unit, rest := cells[0], "", cells[1:]
		if u := bracketed(rest[0]); isUnit(u) && len(rest) > 1 {
			unit, rest = u, rest[1:]
		}
		number, glued := split(rest[0])
		rest = rest[1:]
		if unit == "" && glued == "" && len(rest) > 0 && isUnit(bracketed(rest[0])) {
			glued, rest = bracketed(rest[0]), rest[1:]
		}
		if unit != "" && glued != "" {
			return nil, false
		}
		p, ok := stated(symbol, number, unit+glued, mark)
		if !ok {
			return nil, false
		}
		list, cells = append(list, p), rest
	}
	return list, len(cells) == 0 && len(list) > 0
}

// columns reads a line of names above a line of numbers; between them may stand a line of units. used is the number of lines that belong to
// the names. Where further rows of numbers differ, none is taken: they are those of several places or parts.
func columns(lines []string, mark rune) (list []Printed, used int) {
	if len(lines) < 2 {
		return nil, 0
	}
	var names, units []string
	for _, c := range cells(lines[0]) {
		if u := bracketed(c); u != c && len(names) > 0 {
			units[len(units)-1] = u
			continue
		}
		names, units = append(names, c), append(units, "")
	}
	used = 1
	values := row(lines[1], mark)
	if len(lines) > 2 && len(values) == len(names) && !slices.ContainsFunc(values, func(c string) bool { return !isUnit(bracketed(c)) && c != "-" }) {
		for i, c := range values {
			if units[i] == "" && c != "-" {
				units[i] = bracketed(c)
			}
		}
		used = 2
		values = row(lines[2], mark)
	}
	if len(values) != len(names) || slices.ContainsFunc(values, labels) || slices.ContainsFunc(words(lines[used]), asks) {
		return nil, 0
	}
	var at []int
	for i, name := range names {
		if p, ok := stated(name, values[i], units[i], mark); ok {
			list, at = append(list, p), append(at, i)
		}
	}
	if len(list) == 0 {
		return nil, 0
	}
	for _, line := range lines[used+1:] {
		if strings.TrimSpace(line) == "" {
			continue
		}
		other := row(line, mark)
		if len(other) != len(names) {
			return list, used
		}
		same, read := true, 0
		for k, i := range at {
			p, ok := stated(names[i], other[i], units[i], mark)
			if ok {
				read++
			}
			same = same && ok && p.Value == list[k].Value && p.Half == list[k].Half
		}
		switch {
		case read == 0 || read < len(at) && len(words(line)) > 0:
			return list, used
		case !same:
			return nil, used
		}
	}
	return list, used
}

// labels reports whether the cell of a row is a word without a number: what its numbers are is then not known.
func labels(cell string) bool {
	return strings.ContainsFunc(cell, unicode.IsLetter) && !strings.ContainsFunc(cell, unicode.IsDigit)
}

// row parts a line of numbers: at each comma that nothing else parts, unless that is the decimal mark.
func row(line string, mark rune) []string {
	if mark != ',' && !strings.ContainsAny(line, "\t;|") {
		line = strings.ReplaceAll(line, ",", " ")
	}
	return cells(line)
}

// stated makes a value of what a file says, where it is clear.
func stated(symbol, number, unit string, mark rune) (Printed, bool) {
	whole, fraction, marked := number, "", false
	for i, r := range number {
		if r == '.' || r == ',' {
			whole, fraction, marked = number[:i], number[i+1:], true
			if mark != 0 && r != mark || mark == 0 && len(fraction) == 3 && strings.Trim(whole, "-+−0") != "" {
				return Printed{}, false
			}
			break
		}
	}
	digits := func(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
	if !digits(strings.TrimLeft(whole, "-+−")) || marked && !digits(fraction) {
		return Printed{}, false
	}
	p, reason := parseOne(strings.TrimSpace(symbol + " " + number + " " + unit))
	return p, reason == "" && p.Symbol == symbol && (unit != "" || p.Unit == "")
}

// split parts a number from a unit that stands at it: "0.42um".
func split(cell string) (number, unit string) {
	if i := strings.IndexFunc(cell, func(r rune) bool { return !strings.ContainsRune("0123456789.,-+−", r) }); i > 0 {
		return cell[:i], cell[i:]
	}
	return cell, ""
}

// bracketed takes the brackets off a unit.
func bracketed(cell string) string {
	if n := len(cell); n > 2 && (cell[0] == '[' && cell[n-1] == ']' || cell[0] == '(' && cell[n-1] == ')') {
		return cell[1 : n-1]
	}
	return cell
}

func isUnit(text string) bool {
	_, ok := standards.UnitOf(text)
	return ok && text != ""
}
