package outputs

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// parts are what may stand in a requirement besides symbol and limit, right and wrong.
var parts = strings.Split("max|min|max.|U|L|Tmax|T16 %|Tmed|16 %|16 %-rule|median|max rule|Sc3|Sc6|Sc|λc 0,8|Nic 2,5 mm|cut-off .8|λc 0,03 in|Nis 2,5|λs 0,0025|λs 8 µm|λf 8|λc 0,8 x 3|lsc 0,8|lr 0.25|le 4|ln 12,5|ln 4 km|nsc 3|nsc 1001|OR(1)|from=mean-line|from the highest peak|from 5 %|mechanical|optical|"+
	"turned|ground:|\"turned\"|APA|MRR|NMR|√|=|X|R|C|⟂|G2,5|G 2,5 G 0,8|S 0,08 G 0,8 0,8 5 4|F2,5|-0,8/|0,008-0,8/|0,8/|0,8x4/|±0,1|to 1,6|-1,6|/ 63|...3|(63)|(63 µin)|[Rq 1]|(N7)|N7|▽▽|~|RMS|µm|mm|µin|%|1/cm|km|≤|>=|<|:|=>|,|;|/|or Rq 1|and Rq 1|& L Rq 0,1|\n|.|x|0", "|")

// varied are variants of a text: each of its words left out, twice, in the place of the next, first, last, in brackets and in quotation marks,
// with something else behind it; the whole in other letters, marks and units.
func varied(text string, turn int) []string {
	words := strings.Fields(text)
	list := []string{strings.ToLower(text), strings.ToUpper(text), strings.ReplaceAll(text, ",", "."), strings.ReplaceAll(text, ".", ","), strings.ReplaceAll(text, " ", ""), strings.ReplaceAll(text, " ", "  "),
		"(" + text + ")", "\"" + text + "\"", text + ".", text + " " + text, text + "; " + text, text + " or " + text, text + " µm", text + " in", "U " + text, "L " + text, "max " + text, text + " min"}
	for i, w := range words {
		put := func(some ...string) {
			list = append(list, strings.Join(slices.Concat(words[:i], some, words[i+1:]), " "))
		}
		put()
		put(w, w)
		put("(" + w + ")")
		put("\"" + w + "\"")
		put(w[:len(w)/2], w[len(w)/2:])
		put(w, parts[(turn*7+i)%len(parts)])
		rest := slices.Concat(words[:i:i], words[i+1:])
		list = append(list, w+" "+strings.Join(rest, " "), strings.Join(rest, " ")+" "+w)
		if i+1 < len(words) {
			list = append(list, strings.Join(slices.Concat(words[:i], []string{words[i+1], w}, words[i+2:]), " "))
		}
	}
	return list
}

// reading puts how a text is read, or why not.
func (d *digest) reading(text string, edition standards.EditionID) {
	rs, err := callout.ParseRequirement(text, edition)
	d.put(err)
	if rs == nil {
		return
	}
	for i := range rs.Items {
		item := &rs.Items[i]
		d.text(fmt.Sprint(item.Line, item.Column, item.Reading(), item.Err(), item.Notes, item.Settings["short.cutoff"].Number, item.Settings["short.filter"].Word, item.Settings["section"].Number))
		for _, q := range item.Questions {
			d.text(fmt.Sprint(q.Text, q.Line, q.Column))
			for _, a := range q.Answers {
				d.text(a.Text + a.Then)
			}
		}
	}
}

// Requirements whose parts are left out, doubled, moved and mixed.
func TestRequirementsVaried(t *testing.T) {
	keep(t, "varied", func(p *page) {
		for i, c := range texts(t) {
			var d digest
			for _, text := range varied(c.Text, i) {
				d.reading(text, standards.EditionID(c.Edition))
			}
			p.digest(fmt.Sprint("text ", i+1), &d)
		}
		for k, edition := range []standards.EditionID{standards.ISO21920, standards.ISO4287, standards.ASMEB46} {
			for i, one := range parts {
				var d digest
				for turn := range 7 {
					other := parts[(i*5+turn*13+k)%len(parts)]
					symbol := []string{"Ra", "Rz", "Rmr(0,5)", "Rsk", "Wa", "Pt", "Rsm"}[turn]
					for _, text := range []string{one + " " + symbol + " 0,8 " + other, symbol + " " + one + " 0,8 " + other, symbol + " 0,8 " + one + " " + other, symbol + " 0,8 (" + one + ") (" + other + ")"} {
						d.reading(text, edition)
					}
				}
				p.digest(fmt.Sprintf("part %s %q", edition, one), &d)
			}
		}
	})
}

// borders are requirements with a number one step below a border, on it and above: of a table, of what a part may be, of a custom.
func borders() []string {
	var list []string
	each := func(form string, numbers ...any) {
		for _, n := range numbers {
			list = append(list, strings.ReplaceAll(form, "#", fmt.Sprint(n)))
		}
	}
	each("Rz 3,2 λs #", "0,09", "0,1", "0,11")
	each("Rz 3,2 Nis # Nic 0,8", "0,09", "0,1", "0,11", 800, 799)
	each("Rz 3,2 G# G0,8", "0,09", "0,1", "0,11", "0,2")
	each("Rz 3,2 G#", "0,09", "0,1", "0,11")
	each("Rz 3,2 lsc 0,8 nsc #", 0, 1, 2, 3, 1000, 1001, "1,5")
	each("Rz 3,2 lsc 0,8 le #", "0,39", "0,4", "0,79", "0,8", "1,6", "799,2", 800, "4,0000001", "4,000001")
	each("Rz 3,2 nsc 5 lsc 0,8 le #", "3,9", 4, "4,1")
	each("Rz 3,2 λc # nm", "0,0009", "0,001", "0,0011")
	each("Rz 3,2 λc # m", 999, 1000, 1001)
	each("Rz 3,2 λc # mm λs 2,5 µm", "0,0024", "0,0025", "0,0026", "0,08", "0,25", "0,799", "0,8", "0,801", "2,5", 8, 25)
	each("Rz 3,2 λc # mm", "0,002", "0,0249", "0,025", "0,0251", "0,1", 1)
	each("Wz 3,2 λc 0,8 λf #", "0,79", "0,8", "0,81", 8)
	each("Wz 3,2 Nis # µm", 79, 80, 81, 2500)
	each("Pt 8 λs # µm", "2,49", "2,5", 8, 10, 25)
	each("Pt 8 λs 8 µm nsc # lsc 3", 1, 2)
	each("Sc# Rz 3,2", 0, 1, 5, 6, 33)
	each("Rz 3,2 Sc#", "", 0, 1, 5, 6, 33, "3,2", "3 4")
	each("N#", 0, 1, 12, 13, "7x", "8/N6", "6/N8", "8 / N8", "7 (Ra 1,6)", "7 (Ra 0,8)", "7 (Rz 6,3)", "7 (L Ra 1,6)", "7 (Ra 1-2)", "7 (Ra 1 µ)")
	for n := range 6 {
		list = append(list, strings.Repeat("▽", n), "Ra"+strings.Repeat("3", n)+" 1,6", "Ra0"+strings.Repeat("3", n)+" 1,6")
	}
	each("# S", 24, 25, "1,6")
	each("#a", 1, 25, "1,6")
	each("#Z", 1, 25, "6,3 - 12,5 ")
	each("Ra #", "79,9", 80, "80,1", 31, 32, 33, 62, 63, 64, "0,2 - 32", "32 - 63", "0,8/31,9", "0,8 / 32", "1/36,9", "1/37", "1/37,1", "1/41,9", "1/42", "1/42,1", "42/1", "37,5/1", "0/39")
	each("Rq #", 32, 63, 80, 81)
	each("Rz #", 32, 63, 81)
	each("RMS #", 32, 0.8, "0,8 - 1,6", "63 AA", "0,8 RMS", "")
	each("# RMS", 32, "0,8", "16 - 32", "0,4 µm")
	each("Ra 1 µm (# µin)", "37,4", "37,5", "39,4", "41,3", "41,4")
	each("Ra 1 µm / # µin", "37,4", "37,5", "39,4", "41,3", "41,4")
	each("Ra 39 µin (#)", "0,94", "0,95", 1, "1,04", "1,05")
	each("Rdc(20;#) 1", 0, 19, 20, 21, 100, "100,1", "-30")
	each("Rmr(#) 60 L from mean-line", "0,5", "0.5", "0,5;1", "49 µm", "0,05 mm", "0,5 %", "-0,5", "1,2", "5,10", "5;10")
	each("Rmr(0,5) # %", 0, 99, 100, 101, "99,9")
	each("Rdr # %", 0, 100, 101)
	each("L Rmr(1) 60 from # %", 0, 5, 100, 101, "100,1")
	each("Rcm(#) 3", 49, 50, 51)
	each("Rsm # ", "0,05", 49, 50, 51, "100 µm", "0,1 mm")
	each("Ra 1 ± #", 0, "0,9", "0,99", 1, "1,1", "10 %", "0,1 µm", "0,1 mm")
	each("Rsk #", 0, -1, "-1 - 1", "-1 ± 2", "1 - -1")
	each("Ra #", strings.Repeat("1", 29), strings.Repeat("1", 30), strings.Repeat("1", 31), "0,"+strings.Repeat("0", 27)+"1", "0,"+strings.Repeat("0", 28)+"1", "0,"+strings.Repeat("0", 29)+"1")
	each("Ra #", "1,000", "10,000", "100,000", "1000,000", "0,500", "1.000", "1,00", "1,0000", "12,345 µin")
	each("#/Ra 3,2", 0, "0,25", "0,8", 8, "0,8-0,8", "0,9-0,8", "0,8-0,9", "-", "0,8x3", "0,0000000001", "1000000", "1000001")
	each("#/Pt 3,2", "0,8", "0,0025-", "-8")
	each("#/Wz 3,2", "0,8", "0,8-8", "0,8-0,8", "8-0,8", "-8")
	each("#/R 3,2", "0,008-0,5", "0,5/16/", "0,008-/16/", "-0,3", "-0,3/8/", "0,5/")
	each("#/AW 3,2", "0,5-2,5", "2,5-0,5", "-2,5", "0,5-", "0,1-", "0,1-0,5", "0,3-1,5/8/")
	each("0,008-#/R 3", "0,008", "0,02", "0,1", "0,5", 1)
	for _, n := range []int{39, 40, 41, 60} {
		list = append(list, "Ra 0,8 "+strings.Repeat("y", n), strings.Repeat("y", n))
	}
	for _, n := range []int{192, 193, 194, 195, 1992, 1993, 1994, 1995} { // Ra1x stands behind so many blanks
		list = append(list, "Ra 0,8"+strings.Repeat(" ", n-6)+"U Rz5max3", "Ra 0,8"+strings.Repeat(" ", n)+";")
	}
	for n := range 24 {
		list = append(list, "Ra"+strings.Repeat("x", n)+" 1,6", "turned"+strings.Repeat("d", n)+"Ra 1,6", "Ra 1,6"+strings.Repeat("µ", n)+"Sc3")
	}
	each("# ", "\u200eRa 1", "Ra 1\u202a", "Ra 1\u2066", "Ra\u061c 1", "Ra\u2070 1", "Ra\u2029 1", "\uff32\uff41 1", "Ra 1\uff5e2", "Ra 1\uff01", "R\u2090 1,6", "Rz₃ 3,2")
	each("Ra 1,6 or # ", "Rz 5", "  Rz 5  ", "Rz 5 or Rq 2", "Rz 5 or Rq 2 or Rp 3", "Ra 3", "U Ra 3", "Rz 5; Rp 3 or Rv 2", "(Rz 5)")
	each("Ra 1,6 (# )", "Rz 5", "Ra 3", " Rz 5 ", "U Ra 3 Sc3", "Rz 5) (Rq 2", "max", "16%", "turned", "Tmax", "APA", "U", "L", "λc 0,8", "=", "C")
	each("Ra 1,6 # ", "U Ra 3", "L Ra 1", "L Ra 3", "U Ra 1,6", "Ra 3; Ra 5", "Sc3 L Ra 1", "Sc3 L Rz 1", "; L Ra 1 Sc3", "λc 0,8; L Ra 1 λc 2,5")
	each("L Ra 3 U Ra 1 # ", "", "Sc3")
	each("U Ra 1 L Ra 3 # ", "", "max")
	each("Ra 3 L; Ra # U", 1, 3, 5)
	each("Tmax #", "▽▽", "3,2", "3,2 µm", "RMS 3", "N7", "~", "25 S")
	return list
}

func TestRequirementsAtBorders(t *testing.T) {
	keep(t, "borders", func(p *page) {
		surfaces := []callout.Surface{{Length: 4000, Spacing: 400, Ra: 0.5, Rz: 3}, {Length: 4800, Spacing: 401, Ra: 0.6, Rz: 2}, {Length: 799, Rz: 3.1, RunUp: 1}}
		for i, text := range borders() {
			var d digest
			for _, edition := range []standards.EditionID{standards.ISO21920, standards.ISO4287, standards.ASMEB46, standards.ISO12085, standards.JIS1982} {
				d.requirement(text, edition, surfaces)
			}
			p.digest(fmt.Sprint("border ", i+1, " ", clipped(text)), &d)
		}
	})
}

// clipped is a text short enough for the name of a line.
func clipped(text string) string {
	if r := []rune(text); len(r) > 30 {
		return string(r[:30]) + fmt.Sprint("... of ", len(r))
	}
	return text
}
