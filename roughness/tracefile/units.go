package tracefile

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// unit is what a column counts in. The zero value is none.
type unit struct {
	text   string  // as the file or the hint spells it
	factor float64 // to µm; for an angle to radians; for a plain slope to 1
	div    float64 // where not 0: how many make one µm, for the quotient is rounded once and a product with 1e-3 twice
	slope  bool
	angle  bool
}

// metres is the unit of SDF and X3P.
var metres, _ = parseUnit("m")

// times is a unit of length with the factor that a file puts before it.
func (u unit) times(scale float64) unit {
	k := math.Round(math.Log10(u.factor))
	if math.Pow10(int(k)) == u.factor {
		u.factor = shift10(scale, int(k))
	} else {
		u.factor *= scale
	}
	u.div = 0
	if k := math.Round(math.Log10(u.factor)); k < 0 && k > -22 && math.Pow10(int(k)) == u.factor {
		u.div = math.Pow10(-int(k))
	}
	if scale != 1 {
		u.text = fmt.Sprintf("%s times %s", u.text, number(scale))
	}
	return u
}

// shift10 is v times a power of ten as one would do it on paper: 5e-07 becomes 0.5 and nothing beside it.
func shift10(v float64, k int) float64 {
	digits, exponent, _ := strings.Cut(strconv.FormatFloat(v, 'e', -1, 64), "e")
	e, err := strconv.Atoi(exponent)
	if err != nil {
		return v * math.Pow10(k)
	}
	out, _ := strconv.ParseFloat(digits+"e"+strconv.Itoa(e+k), 64)
	return out
}

// value converts a number of the file: a length to µm, a slope to dz/dx.
func (u *unit) value(v float64) float64 {
	if u.angle {
		return math.Tan(v * u.factor)
	}
	return u.length(v)
}

// length converts a number that counts a length, as the heights of a format of its own do.
func (u *unit) length(v float64) float64 {
	if u.div != 0 {
		return v / u.div
	}
	return v * u.factor
}

// parseUnit reads a unit: µ may be U+00B5, U+03BC or the letter u, capitals do not matter (save that M alone is no metre).
func parseUnit(s string) (unit, bool) {
	s = strings.TrimSpace(s)
	if len(s) > 16 || s == "M" {
		return unit{}, false
	}
	key := strings.ToLower(strings.ReplaceAll(s, "\u03bc", "µ"))
	switch {
	case key == "\"" || key == "″":
		key = "in"
	case strings.HasPrefix(key, "u"):
		key = strings.ReplaceAll(key, "u", "µ")
	}
	u, ok := units[key]
	if !ok && len(key) > 4 {
		u, ok = units[strings.TrimSuffix(key, "s")]
	}
	u.text = s
	return u, ok
}

func isUnit(s string) bool {
	_, ok := parseUnit(trimBrackets(s))
	return ok
}

func trimBrackets(s string) string { return strings.Trim(s, "()[]{}<> ") }

// name is a cell of a header: what it calls a column, and the unit.
type name struct {
	text, base string // base: without the unit
	unit       unit
	known      bool // the unit is one; a text in brackets that is none stands in unit.text
	role       role
}

var bracketed = regexp.MustCompile(`\([^)]*\)|\[[^\]]*\]|\{[^}]*\}|<[^>]*>`)

// nameOf types a cell of a header: x_mm, Height (nm), Weg [mm], x/mm, Position / µm, "Height um", "depth in µm".
func nameOf(text string) name {
	n := name{text: text}
	n.split(strings.TrimSpace(text))
	if n.known && n.unit.slope {
		n.role = isSlope
		return n
	}
	for _, w := range strings.FieldsFunc(strings.ToLower(n.base), func(r rune) bool { return strings.ContainsRune(" _-./:()[]", r) }) {
		// The first word that says something counts, a slope anywhere counts most.
		if r := roleOfWord(w); r == isSlope || n.role == unnamed {
			n.role = r
		}
		if n.role == isSlope {
			break
		}
	}
	return n
}

// split takes the unit off.
func (n *name) split(text string) {
	take := func(base, text string) bool {
		u, ok := parseUnit(text)
		if ok {
			n.base, n.unit, n.known = base, u, true
		}
		return ok
	}
	if take("", text) {
		return
	}
	n.base = text
	for _, at := range bracketed.FindAllStringIndex(text, -1) {
		before, inner := strings.TrimSpace(text[:at[0]]), text[at[0]+1:at[1]-1]
		if take(before, inner) {
			return
		}
		if n.unit.text == "" && inner != "" {
			n.base, n.unit.text = before, inner
		}
	}
	for _, sep := range []string{"/", ",", "_", " in ", " ", "-", ":"} {
		i := strings.LastIndex(text, sep)
		if i <= 0 {
			continue
		}
		tail := strings.TrimSpace(text[i+len(sep):])
		if sep == " " && strings.EqualFold(tail, "in") { // "what it went in"
			continue
		}
		if take(strings.Trim(text[:i], " /,_-:"), tail) {
			return
		}
	}
}

// column is the role of a name that may be numbered, as in x1 z1 x2 z2. It is for lines that are known to hold names: anywhere
// otherwise x2 may be a damaged number.
func (n name) column() role {
	if n.role != unnamed {
		return n.role
	}
	return nameOf(strings.TrimRight(n.base, "0123456789")).role
}

// telling reports whether the name says what it is the name of.
func (n name) telling() bool { return n.known || n.role != unnamed }

// united reports whether the name has a unit and more than that.
func (n name) united() bool { return n.known && n.base != "" }

// tells reports whether a name can hardly be anything else: it has a unit and is no length of something ("Rod 100 mm"), or its
// only word is what a column is called.
func (n name) tells() bool {
	words := strings.Fields(n.base)
	if n.known {
		return len(words) == 0 || strings.ContainsAny(n.text[len(n.text)-1:], ")]}>") || !amount(words[len(words)-1])
	}
	return len(words) == 1 && n.role != unnamed
}

// amount reports whether a text is a number with a unit, "0,1 mm", which names nothing.
func amount(s string) bool {
	_, u, ok := quantity(s, &layout{grammar: grammar{decimal: '.'}})
	return ok && len(s) <= 40 && (u == "" || isUnit(u))
}

// quantity parts "0,2 mm" into number and unit.
func quantity(s string, l *layout) (v float64, unit string, ok bool) {
	s = strings.TrimSpace(s)
	end := len(s) - len(strings.TrimLeft(s, "0123456789+-.,eEdD"))
	if end > 100 { // no number that a header says
		return 0, "", false
	}
	for ; end > 0; end-- {
		for _, g := range []grammar{l.grammar, {decimal: '.'}, {decimal: ','}} {
			if v, ok := g.wholeNumber([]byte(s[:end])); ok {
				return v, strings.TrimSpace(s[end:]), true
			}
		}
	}
	return 0, "", false
}
