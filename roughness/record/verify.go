package record

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards/callout"
)

// A Verification says whether a record comes out the same when its traces are evaluated again with its settings.
type Verification struct {
	Same        bool // every value and the verdict
	Differences []Difference
	Again       *Record // made anew from the same sheet, at the time that the record states
}

// A Difference is one thing that comes out otherwise.
type Difference struct {
	What string // "Rz of trace 1, rod-place-1.csv"
	Then string // as the record says
	Now  string // as it comes out again
}

// String says it in a sentence without its end.
func (d Difference) String() string {
	return fmt.Sprintf("%s is %s in the record and %s when it is evaluated again", d.What, d.Then, d.Now)
}

// Verify evaluates the traces of the record again with its settings and judges them again. Values are compared with 12 significant
// digits; one unit in the last of them is no difference, because the last bits of a calculation depend on the machine. The sentences about
// them, the cautions and what the page prints are compared where this version of furrow made the record: another one may say the same in
// other words. The error is one of [Sheet.Record].
func (o *Opened) Verify() (*Verification, error) {
	then, _ := time.Parse(stampTime, o.Made.Time) // a record of another kind of time is made again at none
	again, err := o.Sheet.Record(then)
	if err != nil {
		return nil, err
	}
	root, err := parseLarge(AppendRecord(nil, again))
	if err != nil {
		return nil, err
	}
	v := &Verification{Again: again}
	c := &comparing{o: o, words: o.Made.Version == Version}
	now := root.value.(*object).fields
	for _, name := range claimed {
		if c.words || !slices.Contains(worded, name) {
			c.compare(o.claims[name], now[name])
		}
	}
	if c.words {
		c.origins(again)
	}
	if c.words && o.page != nil && len(c.found) == 0 {
		c.printed(again)
	}
	v.Differences = c.found
	v.Same = len(c.found) == 0
	return v, nil
}

// origins holds what the record says of where its settings come from against what its requirement and the defaults of its edition say. What is
// said to be set by a person is believed.
func (c *comparing) origins(again *Record) {
	if len(again.Traces) == 0 || again.Settings == nil {
		return
	}
	set := *again.Settings
	set.From = nil
	var known []map[string]callout.Origin
	if req, err := judge.ReadRequirement(c.o.Asked.Text, c.o.Asked.Edition); err == nil && req.Settings != nil {
		req.Credit(&set)
		known = append(known, req.Settings.From) // a cut-off found by measuring keeps the origin of the first estimate
		if found, err := req.On(again.profiles(), 0, nil); err == nil {
			known = append(known, found.From)
		}
	}
	for _, s := range []*roughness.Settings{&set, {Edition: set.Edition, Profile: set.Profile}} {
		if e, _ := roughness.Evaluate(again.Traces[0].Profile, s.Only(set.Parameters[0])); e != nil {
			known = append(known, e.Origins)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(c.o.Origins)) {
		said := c.o.Origins[key]
		if said.From == callout.SetHere || key == "parameters" || slices.ContainsFunc(known, func(m map[string]callout.Origin) bool { return string(Origin(m[key])) == string(Origin(said)) }) {
			continue
		}
		now := "no such origin"
		if len(known) > 0 && known[0][key].Text != "" {
			now = strconv.Quote(known[0][key].Text) + ", " + known[0][key].From
		}
		c.found = append(c.found, Difference{"the origin of " + key, strconv.Quote(said.Text) + ", " + said.From, now})
	}
}

type comparing struct {
	o     *Opened
	words bool // whether sentences are compared too
	found []Difference
}

// claimed are the blocks of a record that follow from the others.
var claimed = []string{"results", "verdict", "cautions", "caution"}

// worded are the keys of sentences, which another version of furrow may word otherwise.
var worded = []string{"text", "sentence", "log", "reason", "note", "source", "basis", "quantity", "acceptance", "caution", "cautions"}

// compare walks through what the record says and what comes out again.
func (c *comparing) compare(then, now *node) {
	switch a := then.value.(type) {
	case *object:
		b, ok := now.value.(*object)
		if !ok {
			c.differ(then, now)
			return
		}
		for _, name := range a.names {
			if !c.words && slices.Contains(worded, name) {
				continue
			}
			if b.fields[name] == nil {
				c.differ(a.fields[name], &node{})
				continue
			}
			c.compare(a.fields[name], b.fields[name])
		}
		for _, name := range b.names {
			if a.fields[name] == nil && (c.words || !slices.Contains(worded, name)) {
				c.differ(&node{key: b.fields[name].key}, b.fields[name])
			}
		}
	case []*node:
		b, ok := now.value.([]*node)
		if !ok || len(a) != len(b) {
			c.differ(then, now)
			return
		}
		for i := range a {
			c.compare(a[i], b[i])
		}
	default:
		if !sameScalar(then.value, now.value) {
			c.differ(then, now)
		}
	}
}

func sameScalar(a, b any) bool {
	if a == b {
		return true
	}
	then, isText := a.(string)
	now, isText2 := b.(string)
	if isText && isText2 {
		return sameText(then, now)
	}
	x, err := asNumber(&node{value: a})
	y, err2 := asNumber(&node{value: b})
	return err == nil && err2 == nil && math.Abs(x-y) <= 1.01*unitOf12(x)
}

var aNumber = regexp.MustCompile(`\d+(\.\d+)?(e[-+]?\d+)?`)

// sameText compares sentences as values are compared: numbers of 12 digits in them may differ in the last.
func sameText(a, b string) bool {
	if a == b {
		return true
	}
	x, y := aNumber.FindAllString(a, -1), aNumber.FindAllString(b, -1)
	return aNumber.ReplaceAllString(a, "0") == aNumber.ReplaceAllString(b, "0") &&
		slices.EqualFunc(x, y, func(a, b string) bool { return a == b || sameScalar(json.Number(a), json.Number(b)) })
}

// drawing is the picture of a page: how its coordinates round depends on the machine.
var drawing = regexp.MustCompile(`(?s)<svg xmlns.*?</svg>`)

// printed holds the page that carries the record against the one that comes out again, in the units that it is printed in.
func (c *comparing) printed(again *Record) {
	r := *again
	r.Made = c.o.Made
	lines := func(page string) []string { return strings.SplitAfter(drawing.ReplaceAllString(page, ""), "\n") }
	then := lines(string(c.o.page))
	most, found := -1, Difference{}
	for _, d := range []Display{{}, {Comma: true}, {Inch: true}, {Comma: true, Inch: true}} {
		p := &page{r: &r, d: d}
		p.write()
		now := lines(p.b.String())
		if slices.EqualFunc(then, now, sameText) {
			return
		}
		n := 0
		for n < min(len(then), len(now))-1 && sameText(then[n], now[n]) {
			n++
		}
		if n > most {
			most, found = n, Difference{"line " + strconv.Itoa(n+1) + " of the printed page, its picture apart,", excerpt(then[n], now[n]), excerpt(now[n], then[n])}
		}
	}
	c.found = append(c.found, found)
}

// excerpt is where a line differs from another one.
func excerpt(line, other string) string {
	a, b := []rune(line), []rune(other)
	n := 0
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return strconv.Quote(string(a[max(0, n-10):min(len(a), n+30)]))
}

// unitOf12 is one unit in the twelfth significant digit.
func unitOf12(v float64) float64 {
	if v == 0 {
		return 1e-15 // what is left of a difference of two numbers of about 1
	}
	return math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-11)
}

func (c *comparing) differ(then, now *node) {
	c.found = append(c.found, Difference{c.name(then.key), shown(then), shown(now)})
}

func shown(n *node) string {
	switch v := n.value.(type) {
	case nil:
		return "nothing"
	case string:
		return strconv.Quote(v)
	case json.Number:
		return string(v)
	case []*node:
		return fmt.Sprintf("a list of %d", len(v))
	case *object:
		return "a block"
	}
	return fmt.Sprint(n.value)
}

// name says what stands at a path such as results[0].values[3].value.
func (c *comparing) name(path string) string {
	steps := strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' })
	number := func(k int) int {
		if k < len(steps) {
			if i, err := strconv.Atoi(steps[k]); err == nil {
				return i + 1
			}
		}
		return 0
	}
	i, k, j := number(1), number(3), number(5)
	switch {
	case path == "verdict.word":
		return "the verdict"
	case len(steps) == 2 && steps[0] == "verdict":
		return "the " + steps[1] + " of the verdict"
	case len(steps) > 3 && steps[1] == "limits" && number(2) > 0:
		return fmt.Sprintf("%s of limit %d, %s,", strings.Join(steps[3:], " "), number(2), c.text(steps[:3], "symbol"))
	case len(steps) < 3 || steps[0] != "results" || i == 0:
		return path
	}
	text := strings.Join(steps[2:], " ")
	if k > 0 {
		text = c.text(steps[:4], "symbol")
		switch last := steps[len(steps)-1]; {
		case j > 0:
			text += " of section " + strconv.Itoa(j)
		case last != "value":
			text = "the " + last + " of " + text
		}
	}
	return fmt.Sprintf("%s, trace %d, %s,", text, i, c.text(steps[:2], "trace"))
}

// text is a text of the object to which the steps lead in the record; empty where there is none.
func (c *comparing) text(steps []string, key string) string {
	n := c.o.claims[steps[0]]
	for _, s := range append(slices.Clone(steps[1:]), key) {
		if n == nil {
			return ""
		}
		switch v := n.value.(type) {
		case *object:
			n = v.fields[s]
		case []*node:
			i, err := strconv.Atoi(s)
			if err != nil || i >= len(v) {
				return ""
			}
			n = v[i]
		default:
			return ""
		}
	}
	if n == nil {
		return ""
	}
	s, _ := n.value.(string)
	return s
}

// VerificationVersion is the newest version of a verification that this package writes.
const VerificationVersion = 1

// AppendVerification appends what verifying a record said as a JSON document to b.
func AppendVerification(b []byte, o *Opened, v *Verification) []byte {
	w := opened(b, "")
	w.put("furrow_verification", VerificationVersion, "same", v.Same, "differences", list(v.Differences, "", func(d Difference) any {
		return line("what", d.What, "then", d.Then, "now", d.Now)
	}), "made", o.Made.json(), "version", Version, "verdict", verdictAt(v.Again.Verdict, " "))
	return w.end()
}
