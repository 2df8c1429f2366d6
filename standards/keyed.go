package standards

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// The keyed notation is furrow's own: the word furrow, then key=value with blanks between, one requirement to a line.
// It is not the text of any standard; it states each entry by name, so that nothing depends on an order or a default.
//
//	furrow edition=iso-21920 symbol=Rz limit=3.2µm rule=max long=800µm
//
// Lengths are in micrometres unless a unit is written. Text with blanks stands between quotation marks.

// key is one entry: how it is read, and how it is printed when it is not empty.
type key struct {
	name string
	read func(r *Requirement, at int) error
	show func(r *Requirement) string
}

// tailKeys are the keys that may also follow the limit in other notations. Nis, Nic, lsc, nsc and le take the units of
// ISO 21920-3: micrometres for Nis, millimetres for the others.
var tailKeys, keyedKeys = makeKeys()

func makeKeys() (tail, all []key) {
	length := func(name string, to func(*Requirement) *float64) key {
		return key{name, readLength(name, "µm", to), func(r *Requirement) string { return showLength(*to(r)) }}
	}
	alias := func(name, same, unit string, to func(*Requirement) *float64) key {
		return key{name, readLength(same, unit, to), nil}
	}
	words := func(name string, to func(*Requirement) *string, allowed ...string) key {
		return key{name, readText(name, to, allowed), func(r *Requirement) string { return quote(*to(r)) }}
	}
	short := func(r *Requirement) *float64 { return &r.Short }
	long := func(r *Requirement) *float64 { return &r.Long }
	section := func(r *Requirement) *float64 { return &r.Section }
	evaluation := func(r *Requirement) *float64 { return &r.Evaluation }
	sections := key{"sections", readSections, func(r *Requirement) string {
		if r.Sections == 0 {
			return ""
		}
		return strconv.Itoa(r.Sections)
	}}
	filters := []string{"gaussian", "gaussian-regression", "robust-gaussian", "spline", "robust-spline", "two-rc", "two-rc-zero-phase", "valley-suppression"}
	tail = []key{
		words("short-filter", func(r *Requirement) *string { return &r.ShortFilter }, filters...),
		length("short", short), alias("Nis", "short", "µm", short),
		words("long-filter", func(r *Requirement) *string { return &r.LongFilter }, filters...),
		length("long", long), alias("Nic", "long", "mm", long), alias("cutoff", "long", "mm", long),
		length("waviness-limit", func(r *Requirement) *float64 { return &r.WavinessLimit }),
		length("a", func(r *Requirement) *float64 { return &r.A }),
		length("b", func(r *Requirement) *float64 { return &r.B }),
		length("section", section), alias("lsc", "section", "mm", section),
		sections, {"nsc", readSections, nil},
		length("evaluation", evaluation), alias("le", "evaluation", "mm", evaluation),
		words("form", func(r *Requirement) *string { return &r.Form }, "none", "mean", "line", "circle", "ellipse", "polynomial"),
		words("extraction", func(r *Requirement) *string { return &r.Extraction }, "mechanical", "optical"),
		words("process", func(r *Requirement) *string { return &r.Process }),
		words("lay", func(r *Requirement) *string { return &r.Lay }, "=", "⟂", "X", "M", "C", "R", "P"),
		words("direction", func(r *Requirement) *string { return &r.Direction }),
		words("from", func(r *Requirement) *string { return &r.Reference }, "mean-line"),
		words("cutoff-by", func(r *Requirement) *string { return &r.CutoffBy }, "measured"),
	}
	all = []key{
		words("edition", func(r *Requirement) *string { return &r.Edition }),
		words("removal", func(r *Requirement) *string { return &r.Removal }, "APA", "MRR", "NMR"),
		words("mark", func(r *Requirement) *string { return &r.Mark }, oldMarks()...),
		{"side", readSide, func(r *Requirement) string {
			if r.SideWritten {
				return r.Side.String()
			}
			return ""
		}},
		{"symbol", readSymbol, func(r *Requirement) string { return quote(r.Symbol) }},
		{"limit", readLimit, func(r *Requirement) string {
			if r.LimitText == "" {
				return ""
			}
			return r.LimitText + strings.TrimPrefix(r.Unit, "1") // 60/cm, not 601/cm
		}},
		{"rule", readRule, func(r *Requirement) string {
			if r.RuleWritten {
				return string(r.Rule)
			}
			return ""
		}},
		words("class", func(r *Requirement) *string { return &r.Class }, "Sc1", "Sc2", "Sc3", "Sc4", "Sc5"),
	}
	return tail, append(all, tail...)
}

// Keyed returns the requirement in the keyed notation, with what the text stated and nothing else: read again under
// the same edition it gives the same settings and the same open questions.
func (r *Requirement) Keyed() string {
	var b strings.Builder
	b.WriteString("furrow")
	for _, k := range keyedKeys {
		if k.show == nil {
			continue
		}
		if text := k.show(r); text != "" {
			fmt.Fprintf(&b, " %s=%s", k.name, text)
		}
	}
	for _, n := range r.Others {
		fmt.Fprintf(&b, " other=%d", n)
	}
	return b.String()
}

// Explicit returns the requirement in the keyed notation with every setting stated, so that no table is needed to read
// it again.
func (r *Requirement) Explicit() string {
	c := *r
	if t := r.Settings; t.Complete {
		c.SideWritten, c.RuleWritten = true, true
		c.ShortFilter, c.Short = t.Short.Filter, t.Short.Cutoff
		c.LongFilter, c.Long = t.Long.Filter, t.Long.Cutoff
		c.WavinessLimit, c.A, c.B = t.WavinessLimit, t.A, t.B
		c.Section, c.Sections, c.Evaluation = t.Section, t.Sections, t.Evaluation
		c.Form = t.Form
	}
	return c.Keyed()
}

// Keyed returns all requirements in the keyed notation, one to a line.
func (rs *Requirements) Keyed() string {
	lines := make([]string, len(rs.Items))
	for i := range rs.Items {
		lines[i] = rs.Items[i].Keyed()
	}
	return strings.Join(lines, "\n")
}

// Answer returns the requirements with one question of one item answered. The key LeaveOpen changes nothing.
func (rs *Requirements) Answer(item int, question, answer string) (*Requirements, error) {
	if item < 0 || item >= len(rs.Items) {
		return nil, fmt.Errorf("standards: no requirement %d", item)
	}
	for _, q := range rs.Items[item].Questions {
		if q.Key != question {
			continue
		}
		for _, a := range q.Answers {
			if a.Key != answer {
				continue
			}
			lines := make([]string, len(rs.Items))
			for i := range rs.Items {
				lines[i] = rs.Items[i].Keyed()
			}
			lines[item] = a.Then
			return rs.reader.Read(strings.Join(lines, "\n"))
		}
	}
	return nil, fmt.Errorf("standards: requirement %d has no question %q with an answer %q", item, question, answer)
}

// parseKeyed reads the keys after the word furrow.
func (r *Requirement) parseKeyed() error {
	start := r.s.pos
	for !r.s.done() {
		at := r.s.pos
		if r.s.take("other=") {
			n, err := r.s.integer()
			if err != nil {
				return err
			}
			r.Others = append(r.Others, n)
			continue
		}
		if err := r.entry(keyedKeys); err != nil {
			return err
		}
		if _, ok := EditionByID(r.Edition); !ok {
			return r.s.fail(at, ErrEdition, "no edition %q", r.Edition)
		}
	}
	if r.Symbol == "" && r.LimitText == "" && r.Mark == "" {
		return r.s.fail(start, ErrSyntax, "neither symbol nor limit")
	}
	if r.Symbol != "" && r.LimitText == "" {
		return r.s.fail(start, ErrSyntax, "%s without a limit", r.Symbol)
	}
	if r.Symbol != "" {
		if _, known := r.at["limit"]; known {
			if err := r.checkUnit(rowOf(r.Symbol).quantity, r.at["limit"]); err != nil {
				return err
			}
		}
	}
	if r.Class != "" && familyOf(r.Edition) != iso2021 {
		return r.s.fail(r.at["class"], ErrSyntax, "setting classes are of ISO 21920")
	}
	r.setLimit()
	return nil
}

// entry reads one key=value.
func (r *Requirement) entry(keys []key) error {
	s := r.s
	start := s.pos
	for s.pos < s.end && (isLower(s.text[s.pos]) || s.text[s.pos] == '-' || s.text[s.pos] == 'N') {
		s.pos++
	}
	name := string(s.text[start:s.pos])
	at := s.pos
	if name == "" || !s.take("=") {
		s.pos = start
		return s.fail(start, ErrSyntax, "%s is no element that can stand here", s.rest())
	}
	i := slices.IndexFunc(keys, func(k key) bool { return k.name == name })
	if i < 0 {
		return s.fail(start, ErrSyntax, "no key %q", name)
	}
	if r := s.peek(0); r == 0 || r == ' ' {
		return s.fail(at, ErrSyntax, "%s has no value", name)
	}
	if err := keys[i].read(r, start); err != nil {
		return err
	}
	if r := s.peek(0); r != 0 && r != ' ' && r != '\n' {
		return s.fail(s.pos, ErrSyntax, "a blank is missing before %s", s.rest())
	}
	return nil
}

func isLower(r rune) bool { return r >= 'a' && r <= 'z' }

func showLength(v float64) string {
	if v == 0 || math.IsNaN(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64) + "µm"
}

// quote puts marks around text that holds more than letters, digits and a few signs.
func quote(text string) string {
	for _, r := range text {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || isDigit(r) || strings.ContainsRune("-.,()%", r)) {
			return `"` + text + `"`
		}
	}
	return text
}
