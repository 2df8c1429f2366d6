package outputs

import (
	"fmt"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/judge"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/roughness/study"
	"example.com/furrow/standards"
)

// results draws what a file may say beside its heights.
func (s *source) results() (lines []string) {
	number := func() string {
		return one(s, "0.42", "0.42", "2.87", "2,87", "1.000", "1,000", "0,500", "12", "-0.2", "−0.2", "0.420", "x", "20")
	}
	symbol := func() string { return one(s, "Ra", "Rz", "Rq", "Rsk", "Rsm", "Rmr(0.5)", "Rt", "R", "Ra1") }
	unit := func() string {
		return one(s, "µm", "µm", "um", "(µm)", "[µm]", "mm", "%", "", "µin", "-")
	}
	for range 1 + s.upTo(5) {
		switch s.upTo(9) {
		case 0, 1, 2:
			line := ""
			for range one(s, 1, 1, 1, 2) {
				line += one(s, symbol()+" = "+number()+" "+unit(), symbol()+": "+number()+unit(), symbol()+" "+unit()+" "+number(), symbol()+";"+number()+";"+unit(), symbol()+"="+number(), symbol()+" "+unit()+" "+number()+" "+unit()) + one(s, "", "; ", ", ")
			}
			lines = append(lines, line)
		case 3, 4, 5:
			between := one(s, "\t", ";", " ", ",", " | ")
			var head, units, row []string
			for range 1 + s.upTo(3) {
				head, units, row = append(head, symbol()+one(s, "", " ", "")+one(s, "", unit())), append(units, one(s, unit(), unit(), "-")), append(row, number())
			}
			lines = append(lines, strings.Join(head, between))
			if s.often(40) {
				lines = append(lines, strings.Join(units, between))
			}
			for range one(s, 1, 1, 1, 2, 2, 3) {
				if s.often(40) {
					row = append([]string(nil), row...)
					row[s.upTo(len(row))] = number()
				}
				lines = append(lines, strings.Join(row, between)+one(s, "", "", "", " mean"))
			}
		default:
			lines = append(lines, one(s, "", "Results", "Measured values:", "Part 7", "Length 4 mm", "Cut-off: 0.8 mm", "Date 2026-03-03", "Limits", "Rz max 3 µm", "Operator: b", "Werkstück", "Ra", "place 2", "1 2 3", "Ergebnisse", "= 3"))
		}
	}
	return lines
}

// Words that people and other programs write, drawn from short lists: results beside heights, values, limits, uncertainties, links and settings.
func TestWordsDrawn(t *testing.T) {
	keep(t, "drawn-words", func(p *page) {
		for i := range 40 {
			s := source(i)
			var d digest
			for range 40 {
				lines := s.results()
				d.put(compare.Stated(lines, one(&s, '.', ',', rune(0))))
				text := ""
				for range 1 + s.upTo(3) {
					text += one(&s, "", "", "", "U ") + one(&s, "Rz", "Ra", "Rsk", "Rsm", "Rmr(0.5)", "Rmr(5;1)", "RSm", "Rno", "", "Pt", "R(500)", "Wz") + one(&s, " ", " <= ", " >= ", "=", " ≤", ": ") + one(&s, "3.2", "3,2", "0", "-1", "1,000", "1.000", "101", "0.05", "1e3", "", "x", "+2", "3.2.1", "126") + one(&s, "", "", " µm", " mm", " µin", " %", "um", " 1/cm", " °", " max") + one(&s, "; ", "; ", ";", " ", ", ")
				}
				text = strings.TrimSuffix(text, one(&s, "; ", ";", " "))
				edition := one(&s, append(standards.EditionIDs(), "")...)
				printed, err := compare.ParsePrinted(text)
				limits, err2 := judge.ParseLimits(text, edition)
				typed, err3 := judge.ParseTyped(text, edition)
				u, err4 := judge.ParseUncertainty(text, edition)
				d.put([]any{printed, err, limits, err2, typed, err3, u, err4})
				rows := `{"edition":"` + string(one(&s, "iso-21920", "iso-4287", "x")) + `"`
				for range s.upTo(4) {
					rows += ", " + one(&s, `"sections":`, `"section":`, `"crop":`, `"start":`, `"long":`, `"short":`, `"form":`, `"profile":`, `"gaps":`, `"exclude":`, `"parameters":`, `"input":`, `"choices":`, `"name":`, `"invert":`) +
						one(&s, "3", "0", "2.5", "-1", "null", "[1,2]", "[2,1]", `["Ra","Rz"]`, `{"filter":"gaussian","cutoff":800}`, `{"filter":"spline","cutoff":0}`, `{"cutoff":2.5}`, `{"kind":"polynomial","degree":2}`, `{"kind":"line"}`, `"R"`, `"raw"`, "true", `[{"from":1,"to":2,"reason":"pore"}]`, `[{"from":2,"to":1}]`, `{"bridge":10}`, `{"bridge":0}`, `"x"`, `{}`)
				}
				set, err := rec.ParseSettings([]byte(rows + one(&s, "}", "}", "}", "", "}}")))
				if d.put(err); err == nil {
					complete, err := roughness.Complete(set)
					if d.put(err); err == nil {
						d.put(rec.AppendSettings(nil, complete, " "))
						other := set
						if s.often(50) {
							other = narrowly(3, "Ra")
						}
						d.put([]any{other.Against(complete), roughness.Merge(set, narrowly(2)).Sections})
						if more, err := roughness.Complete(other); err == nil {
							for _, c := range roughness.Changes(complete, more) {
								from, to := c.Plain()
								d.put([]any{c.Key, c.From, c.To, from, to})
							}
						}
					}
				}
			}
			p.digest(fmt.Sprint("words ", i+1), &d)
		}
		for i := range 20 {
			s := source(i)
			var d digest
			for range 40 {
				text := "s1"
				for range 1 + s.upTo(5) {
					text += "~" + one(&s, "sy", "ed", "le", "su", "ln", "sp", "sa", "sb", "ns", "no", "wo", "sc", "du", "fe", "ti", "mv", "pt", "ev", "tu", "fi", "se", "hh", "wi", "sh", "fa", "hi", "wa", "qu", "fl", "xx") + one(&s, "Rz", "Rq", "Rmr(0.5)", "1", "2", "0.5", "0.3_6_17", "1_2", "1_2_3", "-1", "1.5", "honed-bore", "iso-4287", "P", "none", "abc", "", "4_1_0.2", "1e3", "3000_0123cdef")
				}
				state, notes, err := study.OpenLink(closed(text))
				d.put([]any{state, notes, err})
				if err == nil {
					link, err := state.Link()
					d.put([]any{link, err})
				}
				z, err := study.ReadHeights(strings.Join([]string{one(&s, "1", "1,5", "-2", "x"), one(&s, "2", "2.5", "−3"), one(&s, "3", "", "1e9"), one(&s, "4", "0.5")}, one(&s, " ", "; ", "\n", ",", ", ")))
				d.put([]any{z, err})
			}
			p.digest(fmt.Sprint("links ", i+1), &d)
		}
		for _, v := range []float64{1e-12, -1e-12, 9e-13, 0.9999, 0.99995, 9.9995, 99.995, 999.5, 999.95, 1000, 12345.6, 1e12, 1e-7, -0.00005} {
			p.sum(fmt.Sprint("number ", v), study.Printed(v), study.Echo([]float64{v, v}), rec.Display{}.Figure(v, 3), rec.Display{Inch: true}.Length(v), fmt.Sprint(rec.Display{Inch: true}.Value(v, string(params.PerMillimetre))), standards.Length(v))
		}
	})
}
