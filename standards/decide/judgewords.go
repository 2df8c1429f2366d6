package decide

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// words prints the numbers of one judgement: values and edges with as many decimals as it takes that what is read never
// contradicts what was decided.
type words struct {
	j        *Judgement
	n        int
	guarded  bool
	factor   float64 // from the parameter's unit to the one shown
	unit     string  // with its blank
	own      string  // the parameter's unit, where another is shown
	decimals int
}

func (j *Judgement) words(in, out test, v *Verdict, sorted []float64) words {
	q := j.Kind()
	w := words{j: j, n: len(sorted), guarded: in.shift != 0 || out.shift != 0, factor: q.In(j.Unit), unit: j.Unit, own: q.Unit()}
	if w.unit == "" || w.factor == 0 {
		w.factor, w.unit = 1, w.own
	}
	if w.unit == w.own {
		w.own = ""
	}
	if w.unit != "" {
		w.unit = " " + w.unit
	}
	edges := []float64{j.Value}
	for _, t := range []test{in, out} {
		if finite(t.edge()) {
			edges = append(edges, t.edge())
		}
	}
	values := append([]float64{in.edge(), out.edge()}, sorted...)
	if v.Quantity != "" && !strings.HasPrefix(v.Quantity, "values") {
		values = append(values, v.Value)
	}
	for w.decimals = decimals(q, j.Symbol, j.Value, j.Unit); w.decimals < 15 && !w.tells(values, edges); w.decimals++ {
	}
	return w
}

// tells reports whether each value, as shown, stands to each edge, as shown, as it does in truth.
func (w *words) tells(values, edges []float64) bool {
	read := func(v float64) float64 {
		r, _ := strconv.ParseFloat(standards.RoundHalfUp(v*w.factor, w.decimals), 64)
		return r
	}
	for i, e := range edges {
		shownEdge := read(e)
		if i == 0 { // the limit is shown as it was written
			shownEdge = standards.RoundDigits(e*w.factor, 12)
		}
		for _, v := range values {
			if finite(v) && !sameSide(v, e, read(v), shownEdge) {
				return false
			}
		}
	}
	return true
}

// say prints a value in the unit of the drawing, and in the parameter's own beside it.
func (w *words) say(v float64) string {
	text := standards.RoundHalfUp(v*w.factor, w.decimals) + w.unit
	if w.own != "" {
		text += " (" + standards.RoundHalfUp(v, max(0, w.decimals+int(math.Round(math.Log10(w.factor))))) + " " + w.own + ")"
	}
	return text
}

// limit prints the limit with the digits and the unit that were written.
func (w *words) limit() string { return LimitWords(w.j.Bound, w.j.Text, w.j.Unit) }

// LimitWords is a limit with the digits and the unit that the drawing writes, and in micrometres beside it where that unit is
// another one: "63 µin (1.600 µm)". Without a text it is the number of the bound in its unit.
func LimitWords(b standards.Bound, text, unit string) string {
	q := b.Kind()
	factor := q.In(unit)
	if unit == "" || factor == 0 {
		unit, factor = q.Unit(), 1
	}
	if text == "" {
		text = shortest(standards.RoundDigits(b.Value*factor, 12))
	}
	if unit != "" {
		text += " " + unit
	}
	if own := q.Unit(); unit != own {
		text += " (" + standards.RoundHalfUp(b.Value, decimals(q, b.Symbol, b.Value, own)) + " " + own + ")"
	}
	return text
}

// edge prints a moved limit; one that was not moved is the limit as written.
func (w *words) edge(t test) string {
	if t.shift == 0 {
		return w.limit()
	}
	return w.say(t.edge())
}

// exact prints a number as it is, for the log.
func (w *words) exact(v float64) string {
	if w.factor != 1 {
		v = standards.RoundDigits(v*w.factor, 12)
	}
	return shortest(v) + w.unit
}

// exactEdge prints a moved limit, which twelve digits tell.
func (w *words) exactEdge(v float64) string {
	return shortest(standards.RoundDigits(v*w.factor, 12)) + w.unit
}

// The two sides of a limit in words.
func beyond(s standards.Side) string  { return []string{"above", "below"}[s] }
func inside(s standards.Side) string  { return []string{"below", "above"}[s] }
func exceeds(s standards.Side) string { return []string{"exceeds", "falls below"}[s] }
func extreme(s standards.Side) string { return []string{"largest", "smallest"}[s] }
func doesNotExceed(s standards.Side) string {
	return []string{"does not exceed", "does not fall below"}[s]
}

// say fills in what was compared, the sentence and the log.
func (j *Judgement) say(v *Verdict, in, out test, sorted []float64) {
	v.Value = math.NaN()
	n := len(sorted)
	counting := j.Rule == standards.SixteenPercent && !j.Spread
	switch {
	case n == 0:
	case j.Rule == standards.Maximum:
		v.Quantity, v.Value = "value", in.worst(sorted)
		if n > 1 {
			v.Quantity = extreme(in.Side) + " value"
		}
	case j.Rule == standards.Median && n >= 3:
		v.Quantity, v.Value = "median", median(sorted)
	case j.Spread && n >= 2:
		v.Quantity, v.Value = map[standards.Side]string{standards.Upper: "mean plus standard deviation", standards.Lower: "mean less standard deviation"}[j.Side], in.spread(sorted, j.Sections)
	case counting:
		v.Quantity, v.Value = "values "+beyond(in.Side), float64(in.count(sorted))
		if v.Word == DoesNotConform {
			v.Value = float64(out.count(sorted))
		}
	}
	w := j.words(in, out, v, sorted)
	if w.guarded {
		v.Log = append(v.Log, j.guardWords(&w, in, out))
	}
	switch {
	case v.Word == NoVerdict:
		v.Sentence = j.needs(v)
	case counting:
		v.Sentence = j.countWords(&w, v, in, out, sorted)
	default:
		v.Sentence = j.valueWords(&w, v, in, out)
	}
	v.Log = append(v.Log, j.log(&w, v, in, out, sorted)...)
	v.Sentence += j.closing(v, n)
}

// needs says how many more values the rule asks for.
func (j *Judgement) needs(v *Verdict) string {
	if v.N == 0 {
		return "There is no value yet."
	}
	name := map[standards.Rule]string{standards.SixteenPercent: "16 % rule", standards.Median: "median rule", standards.Maximum: "maximum rule"}[j.Rule]
	of := v.N + v.More
	if j.Rule == standards.Median {
		return fmt.Sprintf("The %s needs three values: %d of %d.", name, v.N, of)
	}
	noun := "values"
	if v.More == 1 {
		noun = "value"
	}
	return fmt.Sprintf("The %s needs %s more %s: %d of %d.", name, standards.InWords(v.More), noun, v.N, of)
}

// valueWords says how one number stands to the limit.
func (j *Judgement) valueWords(w *words, v *Verdict, in, out test) string {
	subject := "The value " + w.say(v.Value)
	if w.n > 1 {
		of := v.Quantity
		if j.Rule == standards.Maximum {
			of = extreme(in.Side)
		}
		subject = fmt.Sprintf("The %s of %s values, %s,", of, standards.InWords(w.n), w.say(v.Value))
	}
	switch v.Word {
	case NotDecided:
		return j.between(w, v, in, out, strings.TrimSuffix(subject, ",")+map[bool]string{true: ","}[w.n > 1])
	case DoesNotConform:
		if out.shift != 0 {
			return fmt.Sprintf("%s %s %s by at least the guard band.", subject, exceeds(j.Side), w.limit())
		}
		return fmt.Sprintf("%s %s %s.", subject, exceeds(j.Side), w.limit())
	}
	if in.shift != 0 {
		side := "is " + inside(j.Side)
		if sameSide(v.Value, in.edge(), 0, 0) {
			side = "is not " + beyond(j.Side)
		}
		return fmt.Sprintf("%s %s %s: %s.", subject, side, w.edge(in), j.proven())
	}
	return fmt.Sprintf("%s %s %s.", subject, doesNotExceed(j.Side), w.limit())
}

// between says that neither is proven.
func (j *Judgement) between(w *words, v *Verdict, in, out test, subject string) string {
	if math.IsNaN(v.Accept) {
		why := "The two limits are too close for this uncertainty"
		if j.tooWide {
			why = "The guard band is wider than the limit"
		}
		return why + ": no value can prove that the surface conforms. A smaller U can decide it."
	}
	low, high := in, out
	if j.Side == standards.Lower {
		low, high = out, in
	}
	return fmt.Sprintf("%s lies between %s and %s. Neither is proven. More %ss, or a smaller U, can decide it.",
		subject, w.edge(low), w.edge(high), j.each())
}

// countWords is the sentence of the 16 % rule by counting.
func (j *Judgement) countWords(w *words, v *Verdict, in, out test, sorted []float64) string {
	n := w.n
	switch v.Word {
	case Conforms:
		if n < 3 {
			s, _ := in.small()
			subject := "The value " + w.say(in.worst(sorted)) + " is"
			if n == 2 {
				subject = "Both values, the larger " + w.say(in.worst(sorted)) + ", are"
			}
			return fmt.Sprintf("%s at most 70 %% of %s, that is %s; the 16 %% rule asks for no more.", subject, w.edge(in), w.exactEdge(s.edge()))
		}
		text := fmt.Sprintf("Of %s values %s %s %s; the 16 %% rule allows %s of %s.",
			standards.InWords(n), noneIs(in.count(sorted)), beyond(in.Side), w.edge(in), none(sixteenAllows(n)), standards.InWords(n))
		if in.shift != 0 {
			text = strings.TrimSuffix(text, ".") + ": " + j.proven() + "."
		}
		return text
	case DoesNotConform:
		of := max(n, plan[len(plan)-1].values)
		return fmt.Sprintf("Of %s values %s %s %s; the 16 %% rule allows %s of %s.",
			standards.InWords(n), noneIs(out.count(sorted)), map[bool]string{true: "at or ", false: ""}[out.strict]+beyond(out.Side), w.edge(out), none(sixteenAllows(of)), standards.InWords(of))
	}
	if math.IsNaN(v.Accept) {
		return j.between(w, v, in, out, "")
	}
	return fmt.Sprintf("Of %s values %s %s %s and %s at or %s %s. Neither is proven. More %ss, or a smaller U, can decide it.",
		standards.InWords(n), noneIs(in.count(sorted)), beyond(in.Side), w.edge(in), noneIs(out.count(sorted)), beyond(out.Side), w.edge(out), j.each())
}

func (j *Judgement) each() string {
	if j.Each == "" {
		return "value"
	}
	return j.Each
}

// proven says how firmly.
func (j *Judgement) proven() string {
	if j.Guard.Rule == ExpandedU {
		return "proven with the whole uncertainty U"
	}
	return fmt.Sprintf("proven at %s %%", standards.Digits(100*j.Guard.chance()))
}

// closing says by whom or by how little it is proven.
func (j *Judgement) closing(v *Verdict, n int) string {
	switch {
	case v.Word == NoVerdict:
		return ""
	case j.Guard.simple() && n == 1:
		return " One " + j.each() + ", simple acceptance."
	case j.Guard.simple():
		return " Simple acceptance."
	case j.Guard.Proof == Maker:
		return " The maker must prove that the surface conforms, and has " + done[v.Word == Conforms]
	case j.Guard.Proof == Buyer:
		return " The buyer must prove that the surface does not conform, and has " + done[v.Word == DoesNotConform]
	}
	return ""
}

var done = map[bool]string{true: "done so.", false: "not."}

// log is the rule step by step, with numbers that are not rounded.
func (j *Judgement) log(w *words, v *Verdict, in, out test, sorted []float64) []string {
	var lines []string
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	if len(sorted) == 0 {
		return []string{"There is no value yet."}
	}
	tests := []test{in}
	if math.IsNaN(v.Accept) {
		tests = nil
	}
	if w.guarded {
		tests = append(tests, out)
	}
	for _, t := range tests {
		verb := func(x float64) string {
			switch {
			case !t.outside(x):
				return "is not " + beyond(t.Side)
			case t.strict:
				return "is at or " + beyond(t.Side)
			}
			return "is " + beyond(t.Side)
		}
		switch {
		case j.Rule == standards.Median && len(sorted) < 3, j.Spread && len(sorted) < 2:
		case j.Rule == standards.SixteenPercent && !j.Spread:
			if s, ok := t.small(); ok && len(sorted) < 3 {
				worst := in.worst(sorted)
				is := map[bool]string{true: "is above", false: "is at most"}[s.outside(worst)]
				name := "value"
				if len(sorted) > 1 {
					name = "largest value"
				}
				add("The %s, %s, %s 70 %% of %s, that is %s.", name, w.exact(worst), is, w.exactEdge(t.edge()), w.exactEdge(s.edge()))
			}
			add("Of %s %s %s %s.", countWords(len(sorted)), noneIs(t.count(sorted)), beyond(t.Side), w.exactEdge(t.edge()))
		default:
			subject := "The value " + w.exact(v.Value)
			if len(sorted) > 1 {
				subject = fmt.Sprintf("The %s of %s, %s,", strings.TrimSuffix(v.Quantity, " value"), countWords(len(sorted)), w.exact(v.Value))
			}
			add("%s %s %s.", subject, verb(v.Value), w.exactEdge(t.edge()))
		}
	}
	if v.More > 0 {
		add("%s", j.needs(v))
	}
	if j.Rule == standards.Maximum && len(sorted) < 3 && v.Word == Conforms {
		add("Three traces, where the surface looks worst, are usual.")
	}
	return lines
}

// guardWords says what the uncertainty does to the limit.
func (j *Judgement) guardWords(w *words, in, out test) string {
	rule := "ISO 14253-1:2017, " + standards.Digits(100*j.Guard.chance()) + " %"
	if j.Guard.Rule == ExpandedU {
		rule = "ISO 14253-1:1998, expanded uncertainty"
	}
	inside, outside := "at most", "from"
	if j.Side == standards.Lower {
		inside, outside = "at least", "down from"
	}
	if math.IsInf(in.shift, 1) {
		why := "the two limits are too close for this uncertainty"
		if j.tooWide {
			why = "it is wider than the limit"
		}
		return fmt.Sprintf("Guard band (%s): %s; no value can prove that the surface conforms.", rule, why)
	}
	return fmt.Sprintf("Guard band (%s): %s %s proves that the surface conforms, %s %s that it does not; the limit is %s.",
		rule, inside, w.exactEdge(in.edge()), outside, w.exactEdge(out.edge()), w.limit())
}

func countWords(n int) string {
	if n == 1 {
		return "one value"
	}
	return standards.InWords(n) + " values"
}

// noneIs says how many there are, with the verb: "none is", "one is", "two are".
func noneIs(n int) string {
	if n <= 1 {
		return none(n) + " is"
	}
	return standards.InWords(n) + " are"
}

func none(n int) string {
	if n == 0 {
		return "none"
	}
	return standards.InWords(n)
}
