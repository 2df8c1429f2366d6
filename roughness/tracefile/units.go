package tracefile

import (
	"math"
	"strings"
)

// unit is what a column counts in.
type unit struct {
	text   string  // as the file or the hint spells it
	factor float64 // to µm; for an angle to radians; for a plain slope to 1
	per    float64 // where not 0: how many make one µm, for the quotient is rounded once and a product with 1e-3 twice
	slope  bool
	angle  bool
}

// value converts a number of the file: a length to µm, a slope to dz/dx.
func (u unit) value(v float64) float64 {
	if u.angle {
		return math.Tan(v * u.factor)
	}
	if u.per != 0 {
		return v / u.per
	}
	return v * u.factor
}

// parseUnit reads a unit: µ may be U+00B5, U+03BC or the letter u, capitals do not matter (save that M alone is no metre).
func parseUnit(s string) (unit, bool) {
	s = strings.TrimSpace(s)
	key := strings.ToLower(strings.ReplaceAll(s, "\u03bc", "µ"))
	if len(s) > 16 || s == "M" {
		return unit{}, false
	}
	u, ok := units[key]
	if !ok {
		switch key {
		case "um", "uin", "uinch", "urad", "um/mm", "um/m", "um/um":
			u, ok = units[strings.ReplaceAll(key, "u", "µ")]
		case "\"", "″":
			u, ok = units["in"]
		default:
			u, ok = units[strings.TrimSuffix(key, "s")]
			ok = ok && len(key) > 4
		}
	}
	if !ok {
		return unit{}, false
	}
	u.text = s
	return u, true
}

// splitUnit takes a unit off a name: x_mm, Height (nm), Weg [mm], x/mm, Position / µm, "Height um", "depth in µm".
// Known reports that the unit is one; a text in brackets that is none comes back with known false.
func splitUnit(name string) (base string, u unit, known bool) {
	name = strings.TrimSpace(name)
	if u, ok := parseUnit(name); ok {
		return "", u, true
	}
	strange := ""
	for rest, off := name, 0; ; {
		i := strings.IndexAny(rest, "([{<")
		if i < 0 {
			break
		}
		closing := map[byte]string{'(': ")", '[': "]", '{': "}", '<': ">"}[rest[i]]
		j := strings.Index(rest[i:], closing)
		if j < 0 {
			off, rest = off+i+1, rest[i+1:]
			continue
		}
		inner := rest[i+1 : i+j]
		if u, ok := parseUnit(inner); ok {
			return strings.TrimSpace(name[:off+i]), u, true
		}
		if strange == "" {
			strange = inner
			base = strings.TrimSpace(name[:off+i])
		}
		off += i + j + 1
		rest = rest[i+j+1:]
	}
	for _, sep := range []string{"/", ",", "_", " in ", " ", "-", ":"} {
		i := strings.LastIndex(name, sep)
		if i <= 0 {
			continue
		}
		tail := strings.TrimSpace(name[i+len(sep):])
		if sep == " " && strings.EqualFold(tail, "in") { // "what it went in"
			continue
		}
		if u, ok := parseUnit(tail); ok {
			return strings.Trim(name[:i], " /,_-:"), u, true
		}
	}
	if strange != "" {
		return base, unit{text: strange}, false
	}
	return name, unit{}, false
}

// roleOf looks at the words of a name; the first one that says something counts, a slope anywhere counts most.
func roleOf(name string) role {
	base, u, known := splitUnit(name)
	if known && u.slope {
		return isSlope
	}
	words := strings.FieldsFunc(strings.ToLower(base), func(r rune) bool { return strings.ContainsRune(" _-./:()[]", r) })
	found := unnamed
	for _, w := range words {
		r := roleOfWord(w)
		if r == isSlope {
			return isSlope
		}
		if found == unnamed {
			found = r
		}
	}
	return found
}

// columnRole is the role of a name that may be numbered, as in x1 z1 x2 z2. It is for lines that are known to hold names: anywhere
// otherwise x2 may be a damaged number.
func columnRole(name string) role {
	if ro := roleOf(name); ro != unnamed {
		return ro
	}
	base, _, _ := splitUnit(name)
	return roleOf(strings.TrimRight(base, "0123456789"))
}

func trimBrackets(s string) string { return strings.Trim(s, "()[]{}<> ") }
