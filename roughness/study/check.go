package study

import (
	"math"
	"strconv"
	"strings"

	"example.com/furrow/params"
)

// A Verified entry is what is said of a blank.
type Verified struct {
	Goes  bool
	Reply string
	Value string // what stands there
}

// tolerance is how far an entry may be away.
func (k *Blank) tolerance(v float64) float64 {
	switch k.kind {
	case 'X':
		return math.Max(k.axis/100, 0.6*math.Pow(10, -float64(k.Decimals)))
	case 'C':
		return 1e-9
	case '%':
		return 0.5
	case 'S':
		return math.Max(0.02, math.Abs(v)/100)
	}
	return math.Max(0.6*math.Pow(10, -float64(k.Decimals)), 0.003*math.Abs(v)) * (1 + 1e-9)
}

// entry reads what was typed; a comma is a decimal mark too.
func entry(text string) (v float64, decimals int, ok bool) {
	text = strings.NewReplacer("−", "-", "–", "-", ",", ".", "\u202f", "", " ", "", "(", "", ")", "").Replace(strings.TrimSpace(text))
	v, err := strconv.ParseFloat(text, 64)
	return v, decimalsOf(text), err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

// Check looks at one blank; entries are what stands in all of them. With show the number is told.
func (b *BlankLines) Check(entries []string, blank int, show bool) (*Verified, error) {
	if blank < 0 || blank >= len(b.Blanks) {
		return nil, &RefusedError{"blank-1", "There is no such blank."}
	}
	k := &b.Blanks[blank]
	step := b.step(blank, nil)
	if show {
		return &Verified{true, strings.TrimSpace(step + " = " + k.printed + "."), k.printed}, nil
	}
	text := ""
	if blank < len(entries) {
		text = entries[blank]
	}
	v, decimals, ok := entry(text)
	if !ok {
		return &Verified{Reply: "A number."}, nil
	}
	enough := ""
	if decimals > k.Decimals+1 {
		enough = " Three digits are enough: the value is not known better."
	}
	if math.Abs(v-k.value) <= k.tolerance(k.value) {
		return &Verified{true, strings.TrimPrefix(step+" = "+k.printed+". Goes on.", " = ") + enough, k.printed}, nil
	}
	// What follows from the printed terms, or from the entries before.
	if plain, ok := b.follows(blank, nil); ok && k.kind != 'X' && k.kind != 'C' && math.Abs(v-plain) <= k.tolerance(plain) {
		return &Verified{true, b.step(blank, nil) + " = " + printedTo(plain, b.digits) + ". Goes on." + enough, k.printed}, nil
	}
	if own, ok := b.follows(blank, entries); ok && k.kind != 'X' && k.kind != 'C' && math.Abs(v-own) <= k.tolerance(own) {
		return &Verified{true, "Goes on. It follows from your numbers. The table gives " + k.printed + ".", k.printed}, nil
	}
	for _, s := range k.slips {
		if math.Abs(s.value-k.value) > k.tolerance(k.value) && math.Abs(v-s.value) <= 0.02*math.Abs(s.value)+1e-9 {
			return &Verified{Reply: s.reply}, nil
		}
	}
	if step == "" {
		return &Verified{Reply: "Look at " + k.Name + " again."}, nil
	}
	return &Verified{Reply: step + " = …"}, nil
}

// step is the expression before a blank of a later part, with the printed numbers, or with entries in its blanks; "" for a term.
func (b *BlankLines) step(blank int, entries []string) string {
	k := &b.Blanks[blank]
	if k.part == 0 {
		return ""
	}
	var text strings.Builder
	for _, p := range b.Lines[k.line] {
		if p.Blank == blank {
			break
		}
		switch {
		case p.Blank < 0:
			text.WriteString(p.Text)
		case entries != nil:
			if p.Blank < len(entries) {
				text.WriteString(strings.TrimSpace(entries[p.Blank]))
			}
		default:
			text.WriteString(b.Blanks[p.Blank].printed)
		}
	}
	parts := strings.Split(strings.NewReplacer(" ≈ ", " = ").Replace(text.String()), " = ")
	for i := len(parts) - 1; i >= 1; i-- {
		if part := strings.TrimSpace(parts[i]); part != "" && k.part >= 1 {
			return part
		}
	}
	return ""
}

// follows works out the expression before the blank of a result.
func (b *BlankLines) follows(blank int, entries []string) (float64, bool) {
	k := &b.Blanks[blank]
	for _, other := range b.Blanks {
		if other.line == k.line && other.part > k.part {
			return 0, false // a sum: the expression before it is the whole mean
		}
	}
	if entries != nil {
		plain := make([]string, len(entries))
		for i, e := range entries {
			v, _, ok := entry(e)
			if !ok && i < len(b.Blanks) && b.Blanks[i].line == k.line && i < blank {
				return 0, false
			}
			plain[i] = strconv.FormatFloat(v, 'f', -1, 64)
			if v < 0 {
				plain[i] = "(" + plain[i] + ")"
			}
		}
		entries = plain
	}
	return params.WorkedLine{Parts: []string{b.step(blank, entries)}}.Value()
}
