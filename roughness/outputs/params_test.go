package outputs

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

var surfaceNames = []string{"ground", "turned", "worn"}

// calls are the parameters of an edition for a profile, also with other arguments than the usual ones.
func calls(edition standards.EditionID, letter byte) []params.Call {
	list := params.Defaults(edition, letter)
	for _, c := range slices.Clone(list) {
		if len(c.Args) == 0 {
			continue
		}
		more := c
		more.Args = slices.Clone(c.Args)
		for i := range more.Args {
			more.Args[i] = 0.75*more.Args[i] + 0.1
		}
		if !math.IsNaN(more.Args[0]) {
			list = append(list, more)
		}
	}
	return list
}

// Values on three surfaces in the order of surfaceNames, in full, then digests on others.
func TestParameters(t *testing.T) {
	keep(t, "parameters", func(p *page) {
		in, small := inputs(), coarse(150)
		for _, edition := range standards.EditionIDs() {
			for _, letter := range []byte("RPW") {
				all := calls(edition, letter)
				digests := make([]digest, len(all))
				numbers := make([][]float64, len(all))
				names := surfaceNames
				if letter != 'R' {
					names = names[1:2]
				}
				for _, surface := range names {
					for i, v := range params.Evaluate(in[surface], all...) {
						digests[i].put([]any{v.Unit, v.Source, v.Reason, v.Note})
						numbers[i] = append(numbers[i], v.Value)
						for _, s := range v.Sections {
							digests[i].number(s)
						}
					}
				}
				if letter == 'P' {
					small = small[:40]
				}
				for _, s := range small {
					for i, v := range params.Evaluate(s, all...) {
						digests[i].put(v)
					}
				}
				for i, c := range all {
					name := fmt.Sprintf("%s %c %s %v", edition, letter, c.Symbol, c.Args)
					p.add(name, digests[i].word(), append(numbers[i], digests[i].total)...)
				}
			}
		}
	})
}

// Motifs with limits of the size of the coarse profiles, some of them a motif wide exactly.
func TestParametersOfMotifs(t *testing.T) {
	keep(t, "motifs", func(p *page) {
		small := coarse(150)
		for _, letter := range []byte("RW") {
			for i, c := range params.Defaults(standards.ISO12085, letter) {
				if len(c.Args) == 0 || c.Args[0] < 50 {
					continue
				}
				for _, a := range []float64{1, 2, 3.5, 6, 11} {
					one := c
					one.Args = []float64{a, 3 * a}[:len(c.Args)]
					var d digest
					for k, s := range small {
						d.put(params.Evaluate(s, one))
						if k < 12 {
							made, err := params.Construct(s, one)
							d.put(made)
							d.put(err)
						}
					}
					p.digest(fmt.Sprintf("%d %c %s %v", i, letter, c.Symbol, one.Args), &d)
				}
			}
		}
	})
}

// The same with each switch turned.
func TestSwitches(t *testing.T) {
	keep(t, "switches", func(p *page) {
		in, small := inputs(), coarse(40)
		for _, sw := range params.Switches() {
			for _, o := range sw.Options {
				for _, edition := range []standards.EditionID{standards.ISO21920, standards.ISO4287, standards.ASMEB46, standards.ISO12085, standards.JIS1994} {
					var c params.Choices
					if err := c.Set(sw.Key, o.Word); err != nil {
						t.Fatal(err)
					}
					all := params.Defaults(edition, 'R')
					var d digest
					for _, s := range append([]*params.Input{in["turned"]}, small...) {
						one := *s
						one.Choices = c
						d.put(params.Evaluate(&one, all...))
					}
					p.digest(fmt.Sprint(edition, " ", sw.Key, " ", o.Word), &d)
				}
			}
			var c params.Choices
			p.sum("switch "+sw.Key, sw, c.Get(sw.Key), c.Set(sw.Key, "no such word"))
		}
	})
}

func TestConstructions(t *testing.T) {
	keep(t, "constructions", func(p *page) {
		in, small := inputs(), coarse(15)
		for _, edition := range standards.EditionIDs() {
			for _, letter := range []byte("RPW") {
				if letter != 'R' && edition != standards.ISO21920 {
					continue
				}
				for _, c := range calls(edition, letter) {
					var d digest
					for _, s := range append([]*params.Input{in["turned"], in["worn"]}, small...) {
						made, err := params.Construct(s, c)
						d.put(made)
						d.put(err)
						for _, w := range made.Worked {
							for _, digits := range []int{2, 4, 12} {
								d.put(w.Work(digits))
							}
						}
					}
					p.digest(fmt.Sprintf("%s %c %s %v", edition, letter, c.Symbol, c.Args), &d)
				}
			}
		}
	})
}

func TestCatalogue(t *testing.T) {
	keep(t, "catalogue", func(p *page) {
		for _, entry := range params.Catalogue() {
			var d digest
			d.put(entry)
			p.digest(entry.Key, &d)
		}
		p.sum("synonyms", params.Synonyms())
		for _, edition := range standards.EditionIDs() {
			var found, wrong digest
			for _, letter := range []byte("RPW") {
				for _, c := range calls(edition, letter) {
					found.put(c)
					written := c.String()
					if strings.HasSuffix(c.Symbol, ")") {
						written = c.Symbol
					}
					for _, name := range append(spoilt(written, 10, source(len(written)), "().,; µm%xRz09"), written, c.Parameter.Key, strings.ToLower(written)) {
						call, err := params.Lookup(edition, letter, name)
						wrong.put(call)
						wrong.put(err)
					}
				}
			}
			p.digest("calls "+string(edition), &found)
			p.digest("names "+string(edition), &wrong)
		}
		in := inputs()
		for _, name := range surfaceNames {
			z := in[name].Z
			fit, why := params.FitProbability(sorted(z))
			p.sum("curves "+name, params.MaterialRatioCurve(z, 101), params.MaterialRatioCurve(z, 2), fit, why, params.Extremes(z), params.Watershed(z, 0.3), params.Watershed(z, 0))
			s := params.NewSpectrum(z, 0.5)
			p.sum("spectrum "+name, s, s.Density(), s.Peak())
		}
		for i, s := range coarse(40) {
			fit, why := params.FitProbability(sorted(s.Z))
			p.sum(fmt.Sprint("curves ", i+1), params.MaterialRatioCurve(s.Z, 7), fit, why, params.Extremes(s.Z), params.Watershed(s.Z, 1), params.Watershed(s.Z, 0))
		}
	})
}

func sorted(z []float64) []float64 {
	z = slices.Clone(z)
	slices.Sort(z)
	return z
}
