package main

import (
	"slices"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

type catalogueAnswer struct {
	Editions   []edition            `json:"editions"`
	Parameters map[string]parameter `json:"parameters"` // by key
	Filters    []filterEntry        `json:"filters"`
	Ends       []choice             `json:"ends"`
	Forms      []string             `json:"forms"`
	Caution    string               `json:"caution"` // stands beside every verdict
	Inches     map[string]other     `json:"inches"`  // what each unit is for those who count in inches
}

// An other unit, and how many of it one is.
type other struct {
	Unit   string  `json:"unit"`
	Factor float64 `json:"factor"`
}

// inches are the units of values, and of lengths, in µin and in.
func inches() map[string]other {
	list := map[string]other{"mm": {"in", roughness.Millimetre / roughness.Inch}}
	for _, unit := range []params.Unit{params.Micrometre, params.PerMillimetre, params.PerCentimetre} {
		v, name := record.Display{Inch: true}.Value(1, string(unit))
		list[string(unit)] = other{name, v}
	}
	return list
}

// A choice is one entry of a menu.
type choice struct {
	Key  string `json:"key"`
	Name string `json:"name"`
	Hint string `json:"hint"`
}

type filterEntry struct {
	choice
	Size string   `json:"size"` // the key of its size: "cutoff", "radius" or "length"
	Ends []string `json:"ends"` // keys of the treatments of the ends that it has
}

type edition struct {
	ID        standards.EditionID `json:"id"`
	Title     string              `json:"title"`
	Documents []string            `json:"documents"`
	Replaced  string              `json:"replaced"` // by which document; "" for one in force
	Default   int                 `json:"default"`  // index of the row that holds when nothing chooses another
	Rows      []row               `json:"rows"`
	Columns   map[string]ref      `json:"columns"`
	Short     string              `json:"short"` // the edition's S-filter and L-filter by name, "" for none
	Long      string              `json:"long"`
	Notes     []string            `json:"notes"`
	Symbols   map[string][]entry  `json:"symbols"` // by the letter of the profile: R, P, W
}

type row struct {
	Name       string `json:"name"`
	Long       number `json:"long"`
	Short      number `json:"short"`
	Section    number `json:"section"`
	Sections   int    `json:"sections"`
	Evaluation number `json:"evaluation"`
	MaxSpacing number `json:"maxSpacing"`
	TipRadius  number `json:"tipRadius"`
}

type ref struct {
	Source string `json:"source"`
	Basis  string `json:"basis"`
}

// An entry is a parameter as one edition has it for one profile.
type entry struct {
	Symbol string `json:"symbol"` // with default arguments: "Rmr(0.5)"
	Key    string `json:"key"`
	Over   string `json:"over"`
	ref
}

type parameter struct {
	Symbol   string   `json:"symbol"`
	Name     string   `json:"name"`
	Group    string   `json:"group"`
	Unit     string   `json:"unit"`
	Formula  string   `json:"formula"` // the right-hand side
	Equation equation `json:"equation"`
	Defined  equation `json:"defined"` // the formula as defined, empty where that is the one as computed
	Letters  []letter `json:"letters"` // of the formula
	Sentence string   `json:"sentence"`
	Practice string   `json:"practice"` // common practice; "" where nothing general is known
	Blind    string   `json:"blind"`
	On       string   `json:"on"` // the profile it is measured on
	Args     []arg    `json:"args"`
}

// An arg is one argument of a symbol, in the order in which they are written.
type arg struct {
	Name string `json:"name"`
	Unit string `json:"unit"`
	Text string `json:"text"` // what it is, in words
}

// A letter is one of a formula.
type letter struct {
	Key     string `json:"key"` // as the attribute data-letter of the MathML has it
	Shown   string `json:"shown"`
	Spoken  string `json:"spoken"`
	Meaning string `json:"meaning"`
}

// An equation is a formula for the eye and for the ear.
type equation struct {
	MathML string `json:"mathml"`
	Spoken string `json:"spoken"`
}

// said fills in what the formulas of a parameter say.
func (out *parameter) said(p *params.Parameter) {
	e, d := p.Equation(), p.DefinedEquation()
	out.Formula, out.Equation, out.Defined, out.Letters = e.Plain, equation{e.MathML, e.Spoken}, equation{d.MathML, d.Spoken}, []letter{}
	for _, l := range e.Letters {
		out.Letters = append(out.Letters, letter{l.Key, l.Shown, l.Spoken(), l.Meaning})
	}
}

var measuredOn = map[params.On]string{
	params.OwnProfile: "own", params.Stratified: "stratified", params.Primary: "primary", params.TwoRC: "two-rc",
}

// catalogue answers with the editions that can be evaluated by and what they hold.
func (m *module) catalogue(*none, []byte) (any, error) {
	c := catalogueAnswer{
		Parameters: map[string]parameter{}, Forms: roughness.FormNames(), Caution: standards.Caution, Inches: inches(),
	}
	for _, f := range filter.All() {
		c.Filters = append(c.Filters, filterEntry{choice{f.Key, f.Name, f.Hint}, f.Size(), f.EndsOf()})
	}
	for _, e := range filter.EndTreatments() {
		c.Ends = append(c.Ends, choice(e))
	}
	for _, p := range params.Catalogue() {
		out := parameter{
			Symbol: p.Symbol, Name: p.Name, Group: p.Group, Unit: string(p.Unit), Sentence: p.Sentence, Practice: p.Practice, Blind: p.Blind, On: measuredOn[p.On], Args: []arg{},
		}
		for _, a := range p.Args {
			out.Args = append(out.Args, arg{a.Name, string(a.Unit), a.Text})
		}
		out.said(&p)
		c.Parameters[p.Key] = out
	}
	for _, e := range standards.Editions() {
		c.Editions = append(c.Editions, editionOf(e))
	}
	return c, nil
}

func editionOf(e standards.Edition) edition {
	out := edition{
		ID: e.ID, Title: e.Title, Documents: e.Documents, Replaced: e.Replaced, Default: slices.IndexFunc(e.Rows, func(r standards.TableRow) bool { return r == e.Default }), Notes: e.Notes, Short: e.Short.Name, Long: e.Long.Name, Symbols: map[string][]entry{},
		Columns: map[string]ref{
			"long": refOf(e.Columns.Long), "short": refOf(e.Columns.Short), "section": refOf(e.Columns.Section),
			"sections": refOf(e.Columns.Sections), "maxSpacing": refOf(e.Columns.MaxSpacing), "tipRadius": refOf(e.Columns.TipRadius),
		},
	}
	for _, r := range e.Rows {
		out.Rows = append(out.Rows, rowOf(r))
	}
	for _, letter := range "RPW" {
		list := []entry{}
		for _, call := range params.Defaults(e.ID, byte(letter)) {
			x := entry{Symbol: call.Symbol, Key: call.Parameter.Key, Over: call.Meaning().Over.String()}
			if refs := call.Meaning().Refs; len(refs) > 0 {
				x.ref = refOf(refs[0])
			}
			list = append(list, x)
		}
		out.Symbols[string(letter)] = list
	}
	return out
}

func rowOf(r standards.TableRow) row {
	return row{r.Name, number(r.Long), number(r.Short), number(r.Section), r.Sections, number(r.Evaluation),
		number(r.MaxSpacing), number(r.TipRadius)}
}

func refOf(r standards.Ref) ref { return ref{r.String(), string(r.Basis)} }

type demo struct {
	Key     string  `json:"key"`
	Title   string  `json:"title"`
	Note    string  `json:"note"`
	Spacing float64 `json:"spacing"`
}

// demos answers with what there is to say of the invented traces, without their heights.
func (m *module) demos(*none, []byte) (any, error) {
	list := []demo{}
	for _, d := range synth.Demos() {
		list = append(list, demo{d.Key, d.Title, d.Note, d.Spacing})
	}
	return list, nil
}

type demoRequest struct {
	Key string `json:"key"`
}

// demo answers with one invented trace.
func (m *module) demo(req *demoRequest, _ []byte) (any, error) {
	d, ok := synth.FindDemo(req.Key)
	if !ok {
		return nil, requestf("there is no demonstration trace %q", req.Key)
	}
	return answer{of: demo{d.Key, d.Title, d.Note, d.Spacing}, arrays: []array{{"z", d.Heights()}}}, nil
}
