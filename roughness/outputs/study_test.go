package outputs

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/study"
	"example.com/furrow/standards"
)

// Exercises: each symbol on typed heights and on a made surface, each ingredient, question, move, link and code.
func TestStudies(t *testing.T) {
	keep(t, "studies", func(p *page) {
		typed := []float64{3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2}
		worksheet := traced("turned", 4000)
		desk := &study.Desk{Trace: &worksheet}
		ask := func(name string, s study.State) {
			var d digest
			r, err := desk.Evaluate(s)
			d.put(err)
			if r == nil {
				p.digest(name, &d)
				return
			}
			low, high := r.Extent()
			shown, said := r.Change(nil)
			table, tableErr := r.Table(true)
			link, linkErr := r.State.Link()
			check, checkErr := r.State.Check()
			d.put([]any{r.State, r.Value, low, high, shown, said, r.Shown(), r.Notes(), r.Moves(), r.Handles(), r.Ordinate(), r.Removed(), table, tableErr, link, linkErr, check, checkErr})
			for level := study.AllShown; level <= study.TermsBlank; level++ {
				b, err := r.Blanks(level)
				d.put([]any{b, err})
				if b == nil {
					continue
				}
				for i := range b.Blanks {
					for _, entry := range []string{"1", "0", "-2.5", "x", ""} {
						entries := make([]string, len(b.Blanks))
						entries[i] = entry
						v, err := b.Check(entries, i, entry == "")
						d.put([]any{v, err})
					}
					if i > 3 {
						break
					}
				}
			}
			if c, err := r.Construct(); err == nil {
				letters := r.Letters(c, 1)
				for _, k := range names(letters) {
					d.put([]any{k, letters[k]})
				}
				for i, step := range c.Steps {
					from, to := r.Stretch(c, step)
					d.put([]any{from, to, study.OnProfile(c, i+1)})
				}
			}
			known, reason, err := desk.Known(s)
			d.put([]any{known, reason, err})
			offered, withheld, err := desk.Ask(s)
			d.put([]any{offered, withheld, err})
			if strings.HasPrefix(name, "made") {
				for _, q := range offered {
					for option := -1; option < len(q.Options); option++ {
						reply, err := desk.Reply(s, q.Letter, option)
						d.put([]any{reply, err})
					}
				}
			}
			if linkErr == nil {
				again, notes, err := study.OpenLink(link)
				d.put([]any{again, notes, err})
				for _, bad := range spoilt(link, 4, source(len(link)), "0=&;.,xR-") {
					again, notes, err := study.OpenLink(bad)
					d.put([]any{again, notes, err})
				}
			}
			for _, m := range r.Moves() {
				for _, v := range []float64{m.Low, m.High, (m.Low + m.High) / 2, m.Least - 1, m.Most + 1, math.NaN()} {
					moved, err := r.Set(m.ID, v)
					d.put([]any{moved, err})
				}
			}
			p.digest(name, &d)
		}
		for _, edition := range standards.EditionIDs() {
			for i, call := range params.Defaults(edition, 'R') {
				if edition != standards.ISO21920 && i%4 != 0 {
					continue
				}
				ask(fmt.Sprint("typed ", edition, " ", call.Symbol), study.State{Symbol: call.Symbol, Edition: edition, Surface: study.Typed, Heights: typed, Line: []string{"", "mean", "line", "zero"}[i%4]})
			}
		}
		for i, symbol := range []string{"Ra", "Rq", "Rz", "Rsk", "Rsm", "Rk", "Rmr(0.5)", "Rdq", "Rpc"} {
			ask("made "+symbol, study.State{Symbol: symbol, Surface: study.Made, Length: 4, Spacing: 2, Filter: study.Removal{Kind: []string{"none", "class", "own"}[i%3], Class: "", Long: 0.8, Short: 8}})
			ask("worksheet "+symbol, study.State{Symbol: symbol, Surface: study.Sheet, Filter: study.Removal{Kind: "own", Long: 0.25, Short: 2.5}, Sections: study.Sections{Number: 3}, Point: 700, Width: 5, Moved: []study.MovedPoint{{Point: 100, By: 2, Width: 9}}})
		}
		for _, in := range study.Ingredients() {
			part := study.Part{Kind: in.Kind}
			for _, f := range in.Fields {
				part.Values = append(part.Values, f.First)
			}
			ask("made of "+in.Kind, study.State{Symbol: "Ra", Surface: study.Made, Length: 2, Spacing: 2, Parts: []study.Part{part}, Filter: study.Removal{Kind: "none"}})
			part.Values = nil
			for _, f := range in.Fields {
				v := (2*f.Low + f.High) / 3
				if f.Whole {
					v = math.Round(v)
				}
				part.Values = append(part.Values, v)
			}
			ask("made of other "+in.Kind, study.State{Symbol: "Rz", Surface: study.Made, Length: 2, Spacing: 2, Parts: []study.Part{part, {Kind: "sine", Values: []float64{1, 100}}}, Turned: true, Every: 2})
		}
		for i, s := range []study.State{{}, {Symbol: "Rno"}, {Edition: "x"}, {Letter: "X"}, {Surface: "x"}, {Surface: study.Demo, Demo: "x"}, {Surface: study.Typed}, {Surface: study.Typed, Heights: []float64{1}}, {Surface: study.Made, Length: -1}, {Surface: study.Made, Length: 1000, Spacing: 0.01},
			{Every: 3}, {Point: -1}, {Width: -1}, {Fade: 9}, {Hide: 9}, {Questions: "zz"}, {Move: "x"}, {Filter: study.Removal{Kind: "x"}}, {Filter: study.Removal{Kind: "own", Long: -1}}, {Filter: study.Removal{Kind: "class", Class: "Sc9"}}, {Sections: study.Sections{Number: -1}}, {Sections: study.Sections{Length: 0.1, Number: 2}},
			{Parts: []study.Part{{Kind: "x"}}}, {Moved: []study.MovedPoint{{Point: 1e9, By: 1, Width: 1}}}, {Letter: "P", Symbol: "Pt"}, {Letter: "W", Symbol: "Wz"}, {Surface: study.Sheet, File: &study.SheetFile{Points: 3, CRC: "x"}}} {
			ask(fmt.Sprint("state ", i+1), s)
		}
		for _, text := range []string{"1 2 3 4", "1,5; 2,5; -3", "1\n2\n3", "x", "", "1e9 2", "1;2;;3", "0.1, 0.2, 0.3", "−1 2", "1.2.3"} {
			z, err := study.ReadHeights(text)
			said := ""
			if err == nil {
				said = study.Echo(z)
			}
			p.sum("heights "+text, z, err, said)
		}
		for _, v := range amounts {
			p.sum(fmt.Sprint("printed ", v), study.Printed(v))
		}
		for i := range 12 {
			z, err := study.OtherHeights(3*i, i, uint64(i))
			p.sum(fmt.Sprint("other heights ", i), z, err)
		}
		s := study.State{Symbol: "Ra", Questions: "abc"}
		codes := ""
		for i, a := range []study.Answers{{Options: []int{0, 1, 2}, Guess: 1.5, Tag: 7}, {Options: []int{study.Unsure, study.NotAnswered, 5}, Guess: math.NaN(), Tag: 4095}, {Options: []int{9}}, {Guess: 1e-9, Tag: 5000}, {Guess: 123456, Options: []int{1, 2, 3}}} {
			code, err := s.Code(a)
			codes += code + " x\n"
			p.sum(fmt.Sprint("code ", i+1), code, err)
		}
		for i, text := range append(spoilt(codes, 30, 1, "0A-Z \n"), codes, codes+codes, "") {
			read, err := s.ReadCodes(text)
			p.sum(fmt.Sprint("codes ", i+1), read, err)
		}
		for _, e := range standards.Editions() {
			p.sum("classes "+string(e.ID), study.Classes(e))
		}
		p.sum("lists", study.Questions(), study.Ingredients(), study.Fingerprint(worksheet.Z), study.Fingerprint(nil), roughness.FormNames())
	})
}
