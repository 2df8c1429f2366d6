package record

import (
	"bytes"
	"encoding/json"
	"testing"
	"unicode/utf8"
)

// A string is written as encoding/json does without escapes for HTML, whatever stands in it.
func TestQuote(t *testing.T) {
	for _, s := range []string{"", "Rz 3.2 µm", "a\"b", `a\b`, "a\nb\x00", "\u2028", "\u2029x", "\ufffd", "\xff", "a\xe2\x80", "<b>&amp;</b>", "\x7f", "λc ≤ 0,8 😀"} {
		for r := range rune(utf8.MaxRune / 16) {
			if r > 0x3000 && len(s) > 0 {
				break
			}
			text := s + string(r)
			var want bytes.Buffer
			e := json.NewEncoder(&want)
			e.SetEscapeHTML(false)
			if err := e.Encode(text); err != nil {
				t.Fatal(err)
			}
			if got := quote(text) + "\n"; got != want.String() {
				t.Fatalf("%q is written as %s, want %s", text, got, want.String())
			}
		}
	}
}
