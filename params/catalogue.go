package params

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.com/furrow/standards"
)

// A row is a parameter as its family writes it down: the card with what is said of it, the mathematics, and the picture.
type row struct {
	card      string
	eval      evaluator
	construct constructor
}

// sharing gives the cards of rows the lines that they have in common.
func sharing(lines string, rows []row) []row {
	for i := range rows {
		rows[i].card += lines
	}
	return rows
}

// A group is a list of rows with the heading they stand under.
type group struct {
	heading string
	rows    []row
}

// groups are the rows of the catalogue in its order of print.
func groups() []group {
	return []group{
		{GroupHeight, heightRows},
		{GroupHeight, extremeRows},
		{GroupSpacing, spacingRows},
		{GroupGradient, slopeRows},
		{GroupRatio, ratioRows},
		{GroupCore, coreRows},
		{GroupProbability, probabilityRows},
		{GroupVolume, volumeRows},
		{GroupSpatial, spatialRows},
		{GroupSpatial, dominantRows},
		{GroupFeature, featureRows},
		{GroupMotif, motifRows},
		{GroupMotif, wavinessRows},
		{GroupMotif, envelopeRows},
		{GroupLegacy, tenPointRows},
		{GroupLegacy, olderHeightRows},
		{GroupLegacy, olderSpacingRows},
		{GroupLegacy, bearingRows},
		{GroupLegacy, countRows},
	}
}

// onWords are the profiles a parameter may be measured on, as a card says it.
var onWords = [...]string{"own", "stratified", "primary", "two-rc"}

// read reads the card. Its lines are
//
//	KEY: the name in full
//	also: KEY                                          under which the list of symbols has it where an edition calls it by another name
//	in EDITION ..., LENGTH: REFERENCE (BASIS); ...     one for each meaning, the newest first
//	on: PROFILE                                        unless it is the one the letter names
//	argument: NAME UNIT DEFAULT TEXT                   the unit 1 is none, the default - follows from the input
//	must: NAME SIGN NUMBER-OR-NAME REASON              what the arguments have to be, and what is said when they are not
//	formula, defined, says, practice, blind: TEXT      see [Parameter]
//	shape: needed                                      a flat profile has no value
func (r *row) read() Parameter {
	p := Parameter{row: r}
	for i, line := range strings.Split(r.card, "\n") {
		word, text, ok := strings.Cut(line, ": ")
		editions, in := strings.CutPrefix(word, "in ")
		switch {
		case !ok:
			panic("params: card " + strconv.Quote(line))
		case i == 0:
			p.Key, p.Name = word, text
		case word == "also":
			p.also = text
		case in:
			p.Meanings = append(p.Meanings, readMeaning(editions, text))
		case word == "on":
			p.On = On(slices.Index(onWords[:], text))
		case word == "shape":
			p.shape = true
		case word == "argument":
			f := strings.SplitN(text, " ", 4)
			a := Arg{Name: f[0], Unit: Unit(strings.TrimPrefix(f[1], "1")), Default: nan, Text: f[3]}
			if f[2] != "-" {
				a.Default, _ = strconv.ParseFloat(f[2], 64)
			}
			p.Args = append(p.Args, a)
		case word == "must":
			p.must = append(p.must, p.readCondition(strings.SplitN(text, " ", 4)))
		default:
			*map[string]*string{"formula": &p.Formula, "defined": &p.Defined, "says": &p.Sentence, "practice": &p.Practice, "blind": &p.Blind}[word] = text
		}
	}
	return p
}

func readMeaning(editions, text string) (m Meaning) {
	editions, over, _ := strings.Cut(editions, ", ")
	m.Over = Over(slices.Index(overText[:], over))
	for _, e := range strings.Fields(editions) {
		m.Editions = append(m.Editions, standards.EditionID(e))
	}
	for ref := range strings.SplitSeq(text, "; ") {
		place, basis, _ := strings.Cut(strings.TrimSuffix(ref, ")"), " (")
		doc, clause, _ := strings.Cut(place, ", ")
		m.Refs = append(m.Refs, standards.Ref{Doc: doc, Clause: clause, Basis: standards.Basis(basis)})
	}
	return m
}

// A condition is what an argument has to be.
type condition struct {
	arg    int
	sign   string
	bound  float64
	other  int // the argument to compare with, -1 for the bound
	reason string
}

func (p *Parameter) readCondition(f []string) condition {
	find := func(name string) int {
		return slices.IndexFunc(p.Args, func(a Arg) bool { return a.Name == name })
	}
	c := condition{arg: find(f[0]), sign: f[1], other: find(f[2]), reason: f[3]}
	c.bound, _ = strconv.ParseFloat(f[2], 64)
	return c
}

// broken tells whether complete arguments break the condition. An argument that follows from the input breaks none.
func (c *condition) broken(args []float64) bool {
	a, b := args[c.arg], c.bound
	if c.other >= 0 {
		b = args[c.other]
	}
	switch c.sign {
	case "<":
		return a >= b
	case ">":
		return a <= b
	}
	return a < b // must be >=
}

// Catalogue returns all parameters, group by group. It is a copy: what a caller changes in it, down to an edition or an
// argument, changes nothing elsewhere.
func Catalogue() []Parameter {
	rows := slices.Clone(catalogue().rows)
	for i := range rows {
		p := &rows[i]
		p.Args, p.Meanings = slices.Clone(p.Args), slices.Clone(p.Meanings)
		for j := range p.Meanings {
			m := &p.Meanings[j]
			m.Editions, m.Refs = slices.Clone(m.Editions), slices.Clone(m.Refs)
		}
	}
	return rows
}

// A listed parameter is a row with the symbol and the meaning that an edition has for it on one profile.
type listed struct {
	parameter *Parameter
	symbol    *standards.Symbol
	meaning   *Meaning
}

type editionLetter struct {
	edition standards.EditionID
	letter  byte
}

// all is the catalogue attached to the list of symbols.
type all struct {
	rows  []Parameter
	index map[string]int             // of the rows, by key
	by    map[editionLetter][]listed // in the order of the list of symbols
}

// catalogue returns the catalogue, made when it is first asked for.
var catalogue = sync.OnceValue(func() *all {
	c := &all{index: map[string]int{}, by: map[editionLetter][]listed{}}
	for _, g := range groups() {
		for i := range g.rows {
			p := g.rows[i].read()
			p.Group = g.heading
			c.index[p.Key], c.index[p.also] = len(c.rows), len(c.rows)
			c.rows = append(c.rows, p)
		}
	}
	for _, edition := range standards.EditionIDs() {
		symbols := standards.Symbols(edition)
		for i := range symbols {
			s := &symbols[i]
			row, ok := c.index[s.Key]
			if !ok {
				panic("params: no row for the symbol " + s.Name)
			}
			p := &c.rows[row]
			p.attach(s, edition)
			at := editionLetter{edition, s.Letter}
			c.by[at] = append(c.by[at], listed{p, s, p.of(edition)})
		}
	}
	return c
})

// units are those of the quantities.
var units = [...]Unit{
	standards.Height: Micrometre, standards.Spacing: Micrometre, standards.Area: Micrometre, standards.Ratio: Percent,
	standards.Number: None, standards.PeakCount: PerCentimetre, standards.PerLength: PerMillimetre,
}

// attach fills in what the list of symbols knows of the row. The first edition that has it gives symbol and letters.
func (p *Parameter) attach(s *standards.Symbol, edition standards.EditionID) {
	if p.Symbol == "" {
		p.Symbol, p.Unit, p.first = s.Name, units[s.Quantity], edition
	}
	if p.first == edition && strings.IndexByte(p.Letters, s.Letter) < 0 {
		p.Letters += string(rune(s.Letter))
		if s.Letter == 'R' {
			p.Symbol = s.Name
		}
	}
}

// of returns the meaning of the row in an edition, nil when it has none.
func (p *Parameter) of(edition standards.EditionID) *Meaning {
	for i := range p.Meanings {
		if slices.Contains(p.Meanings[i].Editions, edition) {
			return &p.Meanings[i]
		}
	}
	return nil
}
