package cli

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// A Page collects lines for a reader, at most 80 characters each.
type Page struct{ bytes.Buffer }

// Say prints a paragraph.
func (p *Page) Say(format string, args ...any) {
	Wrap(p, fmt.Sprintf(format, args...), "")
}

// Row prints a name and numbers in columns of 12 behind it; a name that is too long stands on lines of its own.
func (p *Page) Row(name string, numbers ...string) {
	width := Width - 12*len(numbers)
	if utf8.RuneCountInString(name) > width-1 {
		Wrap(p, name, "")
		name = ""
	}
	line := name + strings.Repeat(" ", width-utf8.RuneCountInString(name))
	for _, n := range numbers {
		line += strings.Repeat(" ", max(1, 12-utf8.RuneCountInString(n))) + n
	}
	p.WriteString(strings.TrimRight(line, " ") + "\n")
}

// End closes the page with a caution.
func (p *Page) End(caution string) []byte {
	p.WriteByte('\n')
	Para(p, "", caution)
	return p.Bytes()
}
