package record

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// writer prints one JSON object, a member a line.
type writer struct {
	b      []byte
	indent string
	more   bool
}

// opened starts an object; indent stands before each line but the first.
func opened(b []byte, indent string) writer { return writer{b: append(b, '{'), indent: indent} }

func (w *writer) close() []byte {
	w.b = append(w.b, '\n')
	w.b = append(w.b, w.indent...)
	return append(w.b, '}')
}

// name starts a member; its value is appended to w.b next.
func (w *writer) name(key string) {
	if w.more {
		w.b = append(w.b, ',')
	}
	w.more = true
	w.b = append(w.b, '\n')
	w.b = append(w.b, w.indent...)
	w.b = append(w.b, ' ')
	w.b = append(w.b, quote(key)...)
	w.b = append(w.b, ": "...)
}

// put writes members, of keys and values in turn.
func (w *writer) put(pairs ...any) {
	for i := 0; i < len(pairs); i += 2 {
		w.name(pairs[i].(string))
		w.b = append(w.b, text(pairs[i+1])...)
	}
}

// number prints the shortest decimal that reads back as v, and null for what JSON has no number for.
func number(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "null"
	}
	if v == 0 {
		return "0" // never -0
	}
	if a := math.Abs(v); a >= 1e-6 && a < 1e21 {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strconv.FormatFloat(v, 'e', -1, 64)
}

// quote prints a JSON string with µ and < as they are.
func quote(s string) string {
	if strings.IndexFunc(s, escaped) < 0 {
		return `"` + s + `"`
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		panic("record: a string cannot fail to encode: " + err.Error())
	}
	return string(bytes.TrimRight(b.Bytes(), "\n"))
}

// escaped says whether JSON writes a character otherwise than it is; U+FFFD may stand for bytes that are no character.
func escaped(r rune) bool {
	return r < ' ' || r == '"' || r == '\\' || r == '\u2028' || r == '\u2029' || r == utf8.RuneError
}
