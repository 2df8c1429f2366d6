package study

import (
	"fmt"
	"hash/crc32"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// A Prediction is a question about the trace in use, to be answered before the value is shown.
type Prediction struct {
	Letter, ID   string
	Words        string
	Options      []string
	Answer       int      // the option that the calculation gives
	Hides        []string // symbols whose values it asks for
	Distribution bool     // the distribution of heights is shown in place of the trace
	Tells        bool     // words or reason hold the value of the state's symbol
	Reason       string

	chosen        map[int]string // what a known misconception is told, before the reason
	try, move     string
	state, before *State
}

// A Withheld question is not asked here.
type Withheld struct{ Letter, ID, Why string }

// A QuestionKind is one of the sixteen questions.
type QuestionKind struct {
	Letter, ID string
	heights    bool // not where Rz is a ten-point height, and not by motifs
	ask        func(a *asker, p *Prediction) (why string)
}

// Questions are the sixteen questions in their order.
func Questions() []QuestionKind { return slices.Clone(questions) }

var questions = []QuestionKind{
	{"a", "q-section", true, (*asker).section},
	{"b", "q-total", true, (*asker).total},
	{"c", "q-double", false, (*asker).double},
	{"d", "q-turned", true, (*asker).turned},
	{"e", "q-sorted", true, (*asker).sorted},
	{"f", "q-skewness", false, (*asker).skewness},
	{"g", "q-scratch", true, (*asker).scratch},
	{"h", "q-dust", true, (*asker).dust},
	{"i", "q-cutoff", false, (*asker).cutoff},
	{"j", "q-short", true, (*asker).short},
	{"k", "q-elements", false, (*asker).elements},
	{"l", "q-cut", false, (*asker).cut},
	{"m", "q-window", false, (*asker).window},
	{"n", "q-top", false, (*asker).top},
	{"o", "q-wave", false, (*asker).wave},
	{"p", "q-digits", true, (*asker).digits},
}

// otherHeights are the editions where Rz is another height, or where there is none.
var otherHeights = []standards.EditionID{"jis-b0601-1994", "jis-b0601-1982", "iso-12085"}

// Ask makes the questions that fit the trace of a state, and says why the others do not.
func (d *Desk) Ask(s State) (offered []Prediction, withheld []Withheld, err error) {
	a, err := d.asker(s)
	if err != nil {
		return nil, nil, err
	}
	for _, q := range questions {
		p, why := a.make(q)
		if why == "" {
			offered = append(offered, *p)
		} else {
			withheld = append(withheld, Withheld{q.Letter, q.ID, why})
		}
	}
	return offered, withheld, nil
}

// A Reply is what is said after an answer. It has the same form whatever the answer was.
type Reply struct {
	Answer        int
	Reason        string
	Compared      string
	Try, Move     string
	State, Before *State
}

// Reply answers the option chosen for a question, -1 for "I do not know".
func (d *Desk) Reply(s State, letter string, option int) (*Reply, error) {
	a, err := d.asker(s)
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(questions, func(q QuestionKind) bool { return q.Letter == letter })
	if i < 0 {
		return nil, &RefusedError{"predict-question", fmt.Sprintf("There is no question %q.", letter)}
	}
	p, why := a.make(questions[i])
	if why != "" {
		return nil, &RefusedError{"predict-question", "This question is not asked here: " + why + "."}
	}
	if option < -1 || option >= len(p.Options) {
		return nil, &RefusedError{"predict-options", "There is no such option."}
	}
	expected := "I do not know"
	if option >= 0 {
		expected = p.Options[option]
	}
	reason := p.Reason
	if told := p.chosen[option]; told != "" {
		reason = told + " " + reason
	}
	return &Reply{p.Answer, reason, fmt.Sprintf("You expected: %s. The calculation gives: %s.", expected, p.Options[p.Answer]), p.try, p.move, p.state, p.before}, nil
}

// An asker makes questions about one result.
type asker struct {
	desk *Desk
	r    *Result
	e    *roughness.Evaluation
	z    []float64 // the profile evaluated
	n    int       // sections
	sec  int       // points of a section
	why  string    // why there is no question at all
}

func (d *Desk) asker(s State) (*asker, error) {
	r, err := d.Evaluate(s)
	if err != nil {
		return nil, err
	}
	a := &asker{desk: d, r: r, e: r.Evaluation}
	if r.Input == nil {
		a.why = "nothing can be evaluated"
		return a, nil
	}
	a.z, a.n, a.sec = a.e.Evaluated(), a.e.Sections, a.e.SectionPoints
	if a.z == nil {
		a.z = a.e.Input(params.OwnProfile).Z
	}
	if len(a.z) < 4 || slices.Max(a.z) == slices.Min(a.z) {
		a.why = "the profile is flat or has fewer than four points"
	}
	return a, nil
}

// make makes one question, or says why it is not asked.
func (a *asker) make(q QuestionKind) (*Prediction, string) {
	p := &Prediction{Letter: q.Letter, ID: q.ID, chosen: map[int]string{}}
	switch {
	case a.why != "":
		return p, a.why
	case q.heights && slices.Contains(otherHeights, a.r.State.Edition):
		return p, "Rz means another height in this edition"
	}
	why := q.ask(a, p)
	if why == "" && len(p.Options) < 3 {
		why = "the options are too close to each other"
	}
	if a.r.State.Hide > 0 && why == "" {
		p.Tells = a.tells(p)
	}
	return p, why
}

var numbers = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// tells looks for the value of the result in what a question says, to two digits.
func (a *asker) tells(p *Prediction) bool {
	text := p.Words + " " + p.Reason + " " + p.Options[p.Answer]
	for _, told := range p.chosen {
		text += " " + told
	}
	v := math.Abs(a.r.Value.Value)
	for _, n := range numbers.FindAllString(text, -1) {
		if x, err := strconv.ParseFloat(n, 64); err == nil && math.Abs(x-v) <= 0.05*v {
			return true
		}
	}
	return false
}

// call finds a parameter of the edition by its key.
func (a *asker) call(key string, args ...float64) (params.Call, bool) {
	for _, c := range params.Defaults(a.r.State.Edition, a.r.State.Letter[0]) {
		if c.Parameter.Key == key {
			if len(args) > 0 {
				c.Args = args
				c.Symbol = c.String()
			}
			return c, true
		}
	}
	return params.Call{}, false
}

// name is the symbol as the edition writes it.
func (a *asker) name(key string) string {
	c, ok := a.call(key)
	if !ok {
		return key
	}
	name, _, _ := strings.Cut(c.Symbol, "(")
	return name
}

// has tells whether the edition has all of the keys.
func (a *asker) lacks(keys ...string) string {
	for _, k := range keys {
		if _, ok := a.call(k); !ok {
			return "this edition has no " + k
		}
	}
	return ""
}

// value is a parameter of the result as it is.
func (a *asker) value(key string, args ...float64) float64 {
	if in := a.input(key); in != nil {
		c, _ := a.call(key, args...)
		return params.Evaluate(in, c)[0].Value
	}
	return math.NaN()
}

// input is the profile that a parameter is measured on: some have a filter of their own.
func (a *asker) input(key string) *params.Input {
	c, ok := a.call(key)
	if !ok {
		return nil
	}
	if c.Parameter.On == params.OwnProfile {
		return a.e.Input(c.Parameter.On)
	}
	s := a.r.State
	s.Symbol = c.Symbol
	r, err := a.desk.Evaluate(s)
	if err != nil {
		return nil
	}
	return r.Input
}

// ownFilter tells whether a parameter is measured behind a filter of its own.
func (a *asker) ownFilter(in *params.Input) bool { return !slices.Equal(in.Z, a.z) }

func (a *asker) valueOf(e *roughness.Evaluation, key string, args ...float64) params.Value {
	c, ok := a.call(key, args...)
	if !ok {
		return params.Value{Value: math.NaN()}
	}
	return params.Evaluate(e.Input(c.Parameter.On), c)[0]
}

// onProfile evaluates heights as the profile itself, in the same sections: the values by their keys.
func (a *asker) onProfile(z []float64, keys ...string) map[string]float64 {
	values := map[string]float64{}
	in := &params.Input{Z: z, Dx: a.e.Spacing, Section: a.sec, Choices: a.e.Settings.Choices}
	for _, k := range keys {
		values[k] = math.NaN()
		if c, ok := a.call(k); ok {
			values[k] = params.Evaluate(in, c)[0].Value
		}
	}
	return values
}

// changed evaluates the state after a change; nil where it cannot be.
func (a *asker) changed(change func(s *State)) *roughness.Evaluation {
	s := a.r.State.Complete()
	change(&s)
	r, err := a.desk.Evaluate(s)
	if err != nil || r.Input == nil {
		return nil
	}
	return r.Evaluation
}

// sameSections keeps the sections of the result where they are.
func (a *asker) sameSections(s *State) {
	start := a.e.StartLength() / millimetre
	s.Sections = Sections{Number: a.n, Length: float64(a.sec) * a.e.Spacing / millimetre, Start: &start}
}

// own states the filters of the result as cut-offs.
func (a *asker) own(s *State) {
	set := a.e.Settings
	s.Filter = Removal{Kind: "own", Long: set.Long.Spec.Cutoff / millimetre, Short: set.Short.Spec.Cutoff}
}

// shows says what the picture goes to: the state with another symbol, and the state as it was.
func (p *Prediction) shows(a *asker, change func(s *State)) {
	before := a.r.State.Complete()
	after := before.Complete()
	change(&after)
	p.state, p.before = &after, &before
}

func (p *Prediction) tries(words, move string) { p.try, p.move = "Try: "+words+".", move }

// symbol makes the state show a parameter.
func (a *asker) symbol(key string, args ...float64) func(s *State) {
	return func(s *State) {
		if c, ok := a.call(key, args...); ok {
			s.Symbol = c.Symbol
		}
	}
}

// same tells whether two values are the same to 0.1 %.
func same(a, b float64) bool { return math.Abs(a-b) <= 1e-3*math.Max(math.Abs(a), math.Abs(b)) }

func percent(before, after float64) float64 { return 100 * (after/before - 1) }

// whole writes a count in full.
func whole(n int) string { return printedTo(float64(n), len(strconv.Itoa(n))) }

// signed writes a change in percent.
func signed(v float64) string {
	s := printedTo(math.Abs(v), 2)
	switch {
	case v < 0:
		return "−" + s
	case v > 0:
		return "+" + s
	}
	return s
}

// numeric makes options of numbers: the answer and what is far enough from it and from those before it, ascending.
func (p *Prediction) numeric(unit string, answer float64, distractors ...float64) {
	kept := []float64{answer}
	for _, d := range distractors {
		if math.IsNaN(d) || math.IsInf(d, 0) || slices.ContainsFunc(kept, func(k float64) bool { return close(unit, d, k) }) || len(kept) == 5 {
			continue
		}
		kept = append(kept, d)
	}
	slices.Sort(kept)
	p.Answer = slices.Index(kept, answer)
	for _, v := range kept {
		p.Options = append(p.Options, strings.TrimSuffix(twoDigits(v, unit)+" "+unit, " "))
	}
}

// close tells whether two options are too near to each other: 15 % of the larger one, 8 points of a percentage.
func close(unit string, a, b float64) bool {
	if unit == "%" {
		return math.Abs(a-b) < 8
	}
	return math.Abs(a-b) < 0.15*math.Max(math.Abs(a), math.Abs(b)) || a == b
}

// twoDigits writes the number of an option: two significant digits, counts below 1000 in full.
func twoDigits(v float64, unit string) string {
	if v == 0 {
		return "0"
	}
	if unit == "" && v == math.Trunc(v) && math.Abs(v) < 1000 {
		return strconv.Itoa(int(v))
	}
	if unit == "%" && math.Abs(v) > 99 {
		return strconv.FormatFloat(math.Round(v), 'f', 0, 64)
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 1, 64), 64)
	if err != nil {
		return "not defined"
	}
	return printedTo(rounded, 2)
}

// shuffled puts options in the order that check and question give, so that a class sees the same one. The first is the answer.
func (p *Prediction) shuffled(a *asker, options ...string) {
	check, err := a.r.State.Check()
	if err != nil {
		check = "0000"
	}
	order := make([]float64, len(options))
	for i := range order {
		order[i] = float64(i)
	}
	synth.NewRandom(uint64(crc32.ChecksumIEEE([]byte(check))), uint64(p.Letter[0])).Shuffle(order)
	for i, k := range order {
		p.Options = append(p.Options, options[int(k)])
		if k == 0 {
			p.Answer = i
		}
	}
}

// option finds an option by its words, -2 for none.
func (p *Prediction) option(words string) int {
	if i := slices.Index(p.Options, words); i >= 0 {
		return i
	}
	return -2
}

// largest is the index of the largest value, and the next largest one.
func largest(v []float64) (first, second int) {
	order := make([]int, len(v))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case v[a] > v[b]:
			return -1
		case v[a] < v[b]:
			return 1
		}
		return 0
	})
	return order[0], order[min(1, len(v)-1)]
}
