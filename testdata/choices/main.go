// Command choices computes what the choices that furrow had to make change on the demonstration surfaces, for standards/README.md.
//
//	go run ./testdata/choices          compares with the table there
//	go run ./testdata/choices -write   writes it
package main

import (
	"flag"
	"fmt"
	"log"
	"math"
	"os"
	"strings"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

const page, begin, end = "standards/README.md", "<!-- choices -->\n", "<!-- end of choices -->\n"

// A choice is another reading than furrow's default.
type choice struct {
	question, other string
	basis           standards.Basis
	base, set       func(s *roughness.Settings) // furrow's reading and the other; nil: the defaults
}

func choices() (list []choice) {
	for _, sw := range params.Switches() {
		for _, o := range sw.Options[1:] {
			list = append(list, choice{sw.Text, o.Word + ": " + o.Effect, sw.Basis, nil, func(s *roughness.Settings) {
				if err := s.Choices.Set(sw.Key, o.Word); err != nil {
					log.Fatal(err)
				}
			}})
		}
	}
	long := func(ends string, support float64) func(s *roughness.Settings) {
		return func(s *roughness.Settings) {
			s.Edition = standards.ISO21920
			s.Long.Spec = roughness.FilterSpec{Filter: "gaussian", Cutoff: 800, Ends: ends, Support: support}
		}
	}
	for _, e := range []filter.Ends{filter.Retain0, filter.LineSymmetric, filter.PointSymmetric, filter.Zero} {
		list = append(list, choice{"how the Gaussian treats the ends (ISO 16610-28)", e.String(), standards.OwnChoice, long("", 0), long(e.String(), 0)})
	}
	return append(list,
		choice{"how far the bell of the Gaussian reaches (ISO 16610-21)", "half a cut-off", standards.Memory, long("", 0), long("", 0.5)},
		choice{"which filter is behind the Rk family (ISO 21920-3)", "the L-filter of the other parameters", standards.Memory, nil, func(s *roughness.Settings) { s.Stratified = roughness.StratifiedByLong }},
	)
}

// most evaluates a surface both ways and says which value changes most, of those that both readings have.
func most(d synth.Demo, edition standards.EditionID, c choice) (share float64, text string) {
	values := func(set func(s *roughness.Settings)) map[string]float64 {
		s := &roughness.Settings{Edition: edition}
		if set != nil {
			set(s)
		}
		e, err := roughness.Evaluate(roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}, s)
		if err != nil {
			return nil
		}
		v := map[string]float64{}
		for _, x := range e.Values {
			v[x.Symbol] = x.Value
		}
		return v
	}
	usual, other := values(c.base), values(c.set)
	for _, y := range standards.Symbols(edition) {
		a, b := usual[y.Name], other[y.Name]
		if change := b/a - 1; math.Abs(change) > math.Abs(share)+1e-9 && math.Abs(a) > 1e-3 && !math.IsInf(change, 0) {
			share, text = change, fmt.Sprintf("%s %+.1f %%", y.Name, 100*change)
		}
	}
	return share, text
}

func table() string {
	var b strings.Builder
	b.WriteString("| what the texts leave open | the other reading | known by |")
	for _, d := range synth.Demos() {
		b.WriteString(" " + d.Title + " |")
	}
	b.WriteString("\n|---|---|---|---|---|---|---|\n")
	for _, c := range choices() {
		fmt.Fprintf(&b, "| %s | %s | %s |", c.question, c.other, c.basis)
		for _, d := range synth.Demos() {
			best, said := 5e-4, "less than 0.05 %"
			for _, edition := range []standards.EditionID{standards.ISO21920, standards.ISO4287, standards.ISO12085} {
				if share, text := most(d, edition, c); math.Abs(share) > math.Abs(best) {
					best, said = share, text
				}
			}
			b.WriteString(" " + said + " |")
		}
		b.WriteString("\n")
	}
	return b.String()
}

func main() {
	log.SetFlags(0)
	write := flag.Bool("write", false, "write the table")
	flag.Parse()
	text, err := os.ReadFile(page)
	if err != nil {
		log.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), begin)
	got, after, ok2 := strings.Cut(rest, end)
	if !ok || !ok2 {
		log.Fatal(page + " has no marks of the table")
	}
	want := table()
	if *write {
		if err := os.WriteFile(page, []byte(before+begin+want+end+after), 0o644); err != nil {
			log.Fatal(err)
		}
	} else if got != want {
		log.Fatal(page + " is not current; go run ./testdata/choices -write writes it")
	}
	fmt.Println(strings.Count(want, "\n")-2, "readings compared on the demonstration surfaces")
}
