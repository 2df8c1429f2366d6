package tracefile

import (
	"fmt"
	"strings"
)

// Report says how a file was read.
type Report struct {
	Format    string // "delimited text", "SMD", ...
	Encoding  string // "UTF-8", "Latin-1", ...
	LineEnds  string // "LF", "CR LF", "CR"
	Delimiter string // "tab", "comma", "semicolon", "blanks"; empty for one column
	Decimal   string // "point", "comma"; empty where no number has a mark

	XColumn, ZColumn   int // from 1; 0 where there is none
	XName, ZName       string
	XUnit, ZUnit       string
	XUnitBy, ZUnitBy   string // "line 3", "hint x_unit"
	Spacing            float64
	SpacingBy          string // "x", "hint spacing", "line 2"
	Points, Invalid    int
	FirstLine, LastRow int // lines of the first and the last row
	Turned             bool

	Lines []LineRead // header lines that carried meaning, then the first four rows and the last
}

// Mark is the decimal mark of the file's numbers, '.' or ','; 0 where none of them has one.
func (r Report) Mark() rune {
	return map[string]rune{"point": '.', "comma": ','}[r.Decimal]
}

// LineRead is one line of the file and how it was read.
type LineRead struct {
	Number      int
	Text, Taken string
}

// String tells the report in a few lines.
func (r Report) String() string {
	var b strings.Builder
	b.WriteString(r.Format)
	for _, s := range []string{r.Encoding, lineEndWord(r.LineEnds)} {
		if s != "" {
			b.WriteString(", " + s)
		}
	}
	if r.Delimiter != "" {
		b.WriteString(", cells separated by " + r.Delimiter)
	}
	if r.Decimal != "" {
		b.WriteString(", decimal " + r.Decimal)
	}
	b.WriteByte('\n')
	if r.XColumn > 0 {
		fmt.Fprintf(&b, "x: column %d%s", r.XColumn, quoted(r.XName))
		if r.XUnit != "" {
			fmt.Fprintf(&b, ", %s (%s)", r.XUnit, r.XUnitBy)
		}
		if r.Turned {
			b.WriteString(", falling, turned round")
		}
		b.WriteString("; ")
	}
	fmt.Fprintf(&b, "spacing %s µm (%s)\n", number(r.Spacing), r.SpacingBy)
	if r.ZColumn > 0 {
		fmt.Fprintf(&b, "z: column %d%s, %s (%s)\n", r.ZColumn, quoted(r.ZName), r.ZUnit, r.ZUnitBy)
	} else {
		fmt.Fprintf(&b, "z: %s (%s)\n", r.ZUnit, r.ZUnitBy)
	}
	fmt.Fprintf(&b, "%s", plural(r.Points, "point"))
	if r.FirstLine > 0 {
		fmt.Fprintf(&b, ", lines %d to %d", r.FirstLine, r.LastRow)
	}
	if r.Invalid > 0 {
		fmt.Fprintf(&b, "; %d without a height", r.Invalid)
	}
	b.WriteByte('\n')
	for _, l := range r.Lines {
		if l.Number < r.FirstLine {
			fmt.Fprintf(&b, "line %d, %s: %s\n", l.Number, l.Taken, clip(strings.TrimSpace(l.Text)))
		}
	}
	return b.String()
}

func quoted(s string) string {
	if s == "" {
		return ""
	}
	return " \"" + clip(s) + "\""
}

func lineEndWord(s string) string {
	if s == "" {
		return ""
	}
	return s + " line ends"
}
