package decide

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// words says one judgement: values and edges with as many decimals as it takes that what is read never contradicts what
// was decided.
type words struct {
	*Judgement
	v        *Ruling
	in, out  test
	sorted   []float64
	side     sideWords
	factor   float64 // from the parameter's unit to the one shown
	unit     string  // with its blank
	own      string  // the parameter's unit, where another is shown
	decimals int
	beside   int       // decimals in the parameter's unit, where another is shown
	shown    []float64 // what is held against the limit and shown
}

// sideWords are the two sides of a limit in words.
type sideWords struct{ beyond, inside, exceeds, doesNotExceed, extreme, spread, atMost, from string }

var bySide = [...]sideWords{
	standards.Upper: {"above", "below", "exceeds", "does not exceed", "largest", "mean plus standard deviation", "at most", "from"},
	standards.Lower: {"below", "above", "falls below", "does not fall below", "smallest", "mean less standard deviation", "at least", "down from"},
}

// inUnit chooses unit and decimals.
func (w *words) inUnit() {
	q := w.Kind()
	w.factor, w.unit, w.own = q.In(w.Unit), w.Unit, q.Unit()
	if w.unit == "" || w.factor == 0 {
		w.factor, w.unit = 1, w.own
	}
	if w.unit == w.own {
		w.own = ""
	}
	if w.unit != "" {
		w.unit = " " + w.unit
	}
	edges := []float64{w.Value}
	for _, t := range []test{w.in, w.out} {
		if finite(t.edge()) {
			edges = append(edges, t.edge())
		}
	}
	w.shown = append([]float64{w.in.edge(), w.out.edge()}, w.sorted...)
	if w.v.Quantity != "" && !strings.HasPrefix(w.v.Quantity, "values") {
		w.shown = append(w.shown, w.v.Value)
	}
	for w.decimals = decimals(q, w.Symbol, w.Value, w.Unit); w.decimals < 15 && (!w.tells(edges) || w.vanishes()); w.decimals++ {
	}
	w.beside = max(0, w.decimals+int(math.Round(math.Log10(w.factor))))
}

// rounded is a number as it is read.
func rounded(v float64, decimals int) float64 {
	r, _ := strconv.ParseFloat(standards.RoundHalfUp(v, decimals), 64)
	return r
}

// vanishes reports whether a value that is not 0 is shown as 0.
func (w *words) vanishes() bool {
	return slices.ContainsFunc(w.shown, func(v float64) bool { return finite(v) && v != 0 && rounded(v*w.factor, w.decimals) == 0 })
}

// tells reports whether each value, as shown, stands to each edge, as shown, as it does in truth.
func (w *words) tells(edges []float64) bool {
	for i, e := range edges {
		shownEdge := rounded(e*w.factor, w.decimals)
		if i == 0 { // the limit is shown as it was written
			shownEdge = standards.RoundDigits(e*w.factor, 12)
		}
		if !w.stand(e, shownEdge, w.factor, w.decimals) {
			return false
		}
	}
	return true
}

// stand reports whether each value stands to an edge as it does in truth, shown in a unit with so many decimals.
func (w *words) stand(edge, shownEdge, factor float64, decimals int) bool {
	return !slices.ContainsFunc(w.shown, func(v float64) bool {
		return finite(v) && !sameSide(v, edge, rounded(v*factor, decimals), shownEdge)
	})
}

// show prints a value in the unit of the drawing, and in the parameter's own beside it.
func (w *words) show(v float64) string {
	text := standards.RoundHalfUp(v*w.factor, w.decimals) + w.unit
	if w.own != "" {
		text += " (" + standards.RoundHalfUp(v, w.beside) + " " + w.own + ")"
	}
	return text
}

// limit prints the limit with the digits and the unit that were written, and beside them with as many decimals as it takes to stand to
// the values as in truth.
func (w *words) limit() string {
	d := decimals(w.Kind(), w.Symbol, w.Value, w.own)
	for d < w.beside && !w.stand(w.Value, rounded(w.Value, d), 1, w.beside) {
		d++
	}
	return limitWords(w.Judgement.Bound, w.Text, w.Unit, d)
}

// LimitWords is a limit with the digits and the unit that the drawing writes, and in micrometres beside it where that unit is
// another one: "63 µin (1.600 µm)". Without a text it is the number of the bound in its unit.
func LimitWords(b standards.Bound, text, unit string) string { return limitWords(b, text, unit, 0) }

// besideShare is how far rounding may take the number beside a limit from it (own choice).
const besideShare = 0.005

// limitWords is LimitWords with so many decimals at least of the number beside.
func limitWords(b standards.Bound, text, unit string, least int) string {
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
		d := max(least, decimals(q, b.Symbol, b.Value, own))
		for d < 15 && math.Abs(rounded(b.Value, d)-b.Value) > besideShare*math.Abs(b.Value) {
			d++
		}
		text += " (" + standards.RoundHalfUp(b.Value, d) + " " + own + ")"
	}
	return text
}

// edge prints a moved limit; one that was not moved is the limit as written.
func (w *words) edge(t test) string {
	if t.shift == 0 {
		return w.limit()
	}
	return w.show(t.edge())
}

// exact prints a number as it is, for the log.
func (w *words) exact(v float64) string {
	if w.factor != 1 {
		return w.exactEdge(v)
	}
	return shortest(v) + w.unit
}

// exactEdge prints a moved limit, which twelve digits tell.
func (w *words) exactEdge(v float64) string {
	return shortest(standards.RoundDigits(v*w.factor, 12)) + w.unit
}

// say fills in what was compared, the sentence and the log.
func (j *Judgement) say(v *Ruling, in, out test, sorted []float64) {
	w := words{Judgement: j, v: v, in: in, out: out, sorted: sorted, side: bySide[j.Side]}
	v.Value = math.NaN()
	n := len(sorted)
	counting := j.Rule == standards.SixteenPercent && !j.Spread
	switch {
	case n == 0:
	case j.Rule == standards.Maximum:
		v.Quantity, v.Value = "value", in.worst(sorted)
		if n > 1 {
			v.Quantity = w.side.extreme + " value"
		}
	case j.Rule == standards.Median && n >= 3:
		v.Quantity, v.Value = "median", median(sorted)
	case j.Spread && n >= 2:
		v.Quantity, v.Value = w.side.spread, in.spread(sorted, j.Sections)
	case counting:
		v.Quantity, v.Value = "values "+w.side.beyond, float64(in.count(sorted))
		if v.Word == DoesNotConform {
			v.Value = float64(out.count(sorted))
		}
	}
	w.inUnit()
	if w.guarded() {
		v.Log = append(v.Log, w.guardWords())
	}
	switch {
	case v.Word == NoVerdict:
		v.Sentence = w.needs()
	case counting:
		v.Sentence = w.countWords()
	default:
		v.Sentence = w.valueWords()
	}
	v.Log = append(v.Log, w.log()...)
	v.Sentence += w.closing()
}

func (w *words) guarded() bool { return w.in.shift != 0 || w.out.shift != 0 }

// needs says how many more values the rule asks for.
func (w *words) needs() string {
	v := w.v
	if v.N == 0 {
		return "There is no value yet."
	}
	more := standards.InWords(v.More) + " more values"
	switch {
	case w.Rule == standards.Median:
		more = "three values"
	case v.More == 1:
		more = "one more value"
	}
	name := map[standards.Rule]string{standards.SixteenPercent: "16 %", standards.Median: "median", standards.Maximum: "maximum"}[w.Rule]
	return fmt.Sprintf("The %s rule needs %s: %d of %d.", name, more, v.N, v.N+v.More)
}

// valueWords says how one number stands to the limit.
func (w *words) valueWords() string {
	value := w.show(w.v.Value)
	subject, comma := "The value "+value, ""
	if n := len(w.sorted); n > 1 {
		subject, comma = fmt.Sprintf("The %s of %s values, %s", strings.TrimSuffix(w.v.Quantity, " value"), standards.InWords(n), value), ","
	}
	is := func(what, why string) string { return subject + comma + " " + what + " " + why }
	switch {
	case w.v.Word == NotDecided:
		return w.between(subject + comma)
	case w.v.Word == DoesNotConform && w.out.shift != 0:
		return is(w.side.exceeds, w.limit()+" by at least the guard band.")
	case w.v.Word == DoesNotConform:
		return is(w.side.exceeds, w.limit()+".")
	case w.in.shift == 0:
		return is(w.side.doesNotExceed, w.limit()+".")
	}
	side := "is " + w.side.inside
	if sameSide(w.v.Value, w.in.edge(), 0, 0) {
		side = "is not " + w.side.beyond
	}
	return is(side, w.edge(w.in)+": "+w.proven()+".")
}

// between says that neither is proven.
func (w *words) between(subject string) string {
	if math.IsNaN(w.v.Accept) {
		return w.tooClose("The two limits are too close for this uncertainty", "The guard band is wider than the limit") +
			": no value can prove that the surface conforms. A smaller U can decide it."
	}
	low, high := w.edge(w.in), w.edge(w.out)
	if w.Side == standards.Lower {
		low, high = high, low
	}
	return fmt.Sprintf("%s lies between %s and %s.%s", subject, low, high, w.neither())
}

// tooClose says why no value can prove that the surface conforms.
func (w *words) tooClose(limits, wide string) string {
	if w.tooWide {
		return wide
	}
	return limits
}

func (w *words) neither() string {
	return " Neither is proven. More " + w.each() + "s, or a smaller U, can decide it."
}

// countWords is the sentence of the 16 % rule by counting.
func (w *words) countWords() string {
	n, in, out := len(w.sorted), w.in, w.out
	beyond := w.side.beyond
	of := fmt.Sprintf("Of %s values", standards.InWords(n))
	allows := func(n int) string {
		return fmt.Sprintf("; the 16 %% rule allows %s of %s", none(sixteenAllows(n)), standards.InWords(n))
	}
	switch {
	case w.v.Word == Conforms && n < 3:
		s, _ := in.small()
		subject := "The value " + w.show(in.worst(w.sorted)) + " is"
		if n == 2 {
			subject = "Both values, the larger " + w.show(in.worst(w.sorted)) + ", are"
		}
		return fmt.Sprintf("%s at most 70 %% of %s, that is %s; the 16 %% rule asks for no more.", subject, w.edge(in), w.exactEdge(s.edge()))
	case w.v.Word == Conforms:
		text := fmt.Sprintf("%s %s %s %s%s", of, noneIs(in.count(w.sorted)), beyond, w.edge(in), allows(n))
		if in.shift != 0 {
			text += ": " + w.proven()
		}
		return text + "."
	case w.v.Word == DoesNotConform:
		if out.strict {
			beyond = "at or " + beyond
		}
		return fmt.Sprintf("%s %s %s %s%s.", of, noneIs(out.count(w.sorted)), beyond, w.edge(out), allows(max(n, plan[len(plan)-1].values)))
	case math.IsNaN(w.v.Accept):
		return w.between("")
	}
	return fmt.Sprintf("%s %s %s %s and %s at or %s %s.%s", of, noneIs(in.count(w.sorted)), beyond, w.edge(in), noneIs(out.count(w.sorted)), beyond, w.edge(out), w.neither())
}

func (w *words) each() string { return cmp.Or(w.Each, "value") }

// proven says how firmly.
func (w *words) proven() string {
	if w.Guard.Rule == ExpandedU {
		return "proven with the whole uncertainty U"
	}
	return "proven at " + w.chance() + " %"
}

func (w *words) chance() string { return standards.Digits(100 * w.Guard.chance()) }

// closing says by whom or by how little it is proven.
func (w *words) closing() string {
	done := func(word Word) string {
		if w.v.Word == word {
			return "done so."
		}
		return "not."
	}
	switch simple := w.Guard.simple(); {
	case w.v.Word == NoVerdict:
	case simple && len(w.sorted) == 1:
		return " One " + w.each() + ", simple acceptance."
	case simple:
		return " Simple acceptance."
	case w.Guard.Proof == Maker:
		return " The maker must prove that the surface conforms, and has " + done(Conforms)
	case w.Guard.Proof == Buyer:
		return " The buyer must prove that the surface does not conform, and has " + done(DoesNotConform)
	}
	return ""
}

// log is the rule step by step, with numbers that are not rounded.
func (w *words) log() (lines []string) {
	n, v := len(w.sorted), w.v
	if n == 0 {
		return []string{"There is no value yet."}
	}
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	var tests []test
	if !math.IsNaN(v.Accept) {
		tests = append(tests, w.in)
	}
	if w.guarded() {
		tests = append(tests, w.out)
	}
	for _, t := range tests {
		edge := w.exactEdge(t.edge())
		switch {
		case w.Rule == standards.Median && n < 3, w.Spread && n < 2:
		case w.Rule == standards.SixteenPercent && !w.Spread:
			if s, ok := t.small(); ok && n < 3 {
				worst, is, name := w.in.worst(w.sorted), "at most", "value"
				if s.outside(worst) {
					is = "above"
				}
				if n > 1 {
					name = "largest value"
				}
				add("The %s, %s, is %s 70 %% of %s, that is %s.", name, w.exact(worst), is, edge, w.exactEdge(s.edge()))
			}
			add("Of %s %s %s %s.", countWords(n), noneIs(t.count(w.sorted)), w.side.beyond, edge)
		default:
			subject := "The value " + w.exact(v.Value)
			if n > 1 {
				subject = fmt.Sprintf("The %s of %s, %s,", strings.TrimSuffix(v.Quantity, " value"), countWords(n), w.exact(v.Value))
			}
			is := ""
			switch {
			case !t.outside(v.Value):
				is = "not "
			case t.strict:
				is = "at or "
			}
			add("%s is %s%s %s.", subject, is, w.side.beyond, edge)
		}
	}
	if v.More > 0 {
		lines = append(lines, w.needs())
	}
	if w.Rule == standards.Maximum && n < 3 && v.Word == Conforms {
		add("Three traces, where the surface looks worst, are usual.")
	}
	return lines
}

// guardWords says what the uncertainty does to the limit.
func (w *words) guardWords() string {
	rule := "ISO 14253-1:2017, " + w.chance() + " %"
	if w.Guard.Rule == ExpandedU {
		rule = "ISO 14253-1:1998, expanded uncertainty"
	}
	if math.IsInf(w.in.shift, 1) {
		return fmt.Sprintf("Guard band (%s): %s; no value can prove that the surface conforms.", rule,
			w.tooClose("the two limits are too close for this uncertainty", "it is wider than the limit"))
	}
	return fmt.Sprintf("Guard band (%s): %s %s proves that the surface conforms, %s %s that it does not; the limit is %s.",
		rule, w.side.atMost, w.exactEdge(w.in.edge()), w.side.from, w.exactEdge(w.out.edge()), w.limit())
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
