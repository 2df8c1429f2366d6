package outputs

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/judge"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/roughness/selfcheck"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
)

// What documents hold of settings, what is said of several checks, long files number by number, and one requirement in two editions.
func TestWords(t *testing.T) {
	keep(t, "words", func(p *page) {
		noon := time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)
		sheets := smallSheets()
		for i, asked := range []rec.Asked{{}, {Text: "-0,08/Rz3 3,2; 0,0025-0,08/Ra2 0,8", Edition: standards.ISO4287}, {Text: "-0,08/Rz3 3,2; L 0,0025-0,08/Rz2 0,1", Edition: standards.ISO4287}, {Limit: "Rz <= 3; Pt <= 9"}} {
			s := *sheets["drawing"]
			s.Asked = asked
			if i%3 == 0 {
				s.Settings = narrowly(3, "Rz", "Ra")
			}
			r, err := s.Record(noon)
			if err != nil {
				t.Fatal(err)
			}
			r.Made.Platform = "here"
			text := resealed(string(rec.AppendRecord(nil, r)))
			var d digest
			for _, data := range []string{text, string(rec.AppendResult(nil, r.Evaluations[0], r.Verdict)), string(rec.AppendSettings(nil, &r.Evaluations[0].Settings, "")), strings.Replace(text, `"settings"`, `"settingz"`, 1), "[]", `{"furrow_result": 1}`, `{"furrow_record": 1}`} {
				x, err := rec.SettingsIn([]byte(data))
				d.put([]any{x, err})
				for _, symbol := range []string{"Rz", "Ra", "Pt", "Rq"} {
					x, err := rec.SettingsFor([]byte(data), symbol)
					d.put([]any{x, err})
				}
				for k, one := range changed(data, 1) {
					if i < 2 && k%7 == i && strings.HasPrefix(data, `{`) && len(data) < len(text) {
						x, err := rec.SettingsFor([]byte(one), "Rz")
						d.put([]any{x, err})
					}
				}
			}
			p.digest(fmt.Sprint("settings in documents ", i+1), &d)
		}
		// a value near its limit is printed with as many digits as tell them apart
		for _, near := range []float64{-0.5, -0.01, -1e-3, -1e-4, -1e-6, 0, 1e-6, 1e-4, 1e-3, 0.01} {
			var d digest
			s := *sheets["much"]
			e, err := roughness.Evaluate(s.Traces[0].Profile, s.Settings)
			if err != nil {
				t.Fatal(err)
			}
			rz, _ := e.Value("Rz")
			for _, asked := range []rec.Asked{{Limit: fmt.Sprintf("Rz <= %.9f; Ra <= 9", rz.Value*(1+near))}, {Limit: fmt.Sprintf("Ra <= 9; Rz >= %.9f", rz.Value*(1+near)), U: "Rz 0.01; Ra 0.01"}} {
				s.Asked, s.Typed = asked, nil
				r, err := s.Record(noon)
				if d.put(err); err == nil {
					r.Made = rec.Stamp{}
					d.put([]any{rec.AppendArticle(nil, r, rec.Display{}), r.Grid(rec.Display{Inch: true})})
				}
			}
			p.digest(fmt.Sprint("near its limit ", near), &d)
		}
		words := []instrument.CheckWord{instrument.Within, instrument.Outside, instrument.Open}
		for i, depth := range words {
			for k, fine := range words {
				var d digest
				for _, share := range append(sweep(0.001, 0.2, 12), 0) {
					for _, sign := range []float64{1, -1} {
						a, b := &instrument.Check{Word: depth, Held: &instrument.Held{Certificate: 2, Deviation: 0.1, Allowed: 0.02}}, &instrument.Check{Word: fine, Held: &instrument.Held{Certificate: 0.8, Deviation: sign * 0.8 * share, Allowed: 0.01}}
						d.put(instrument.TipHints(a, b))
						if k == 0 {
							b.Held = nil
							d.put([]any{instrument.TipHints(a, b), instrument.TipHints(b, a)})
						}
					}
				}
				p.digest(fmt.Sprint("tip ", i+1, " ", k+1), &d)
			}
		}
		for n := 1; n < 9; n++ {
			var d digest
			for _, slope := range append(sweep(0.001, 0.1, 12), 0, -0.02) {
				for _, last := range []float64{0, 0.05, -0.05, 0.021, 0.2} {
					var list []instrument.Earlier
					for i := range n {
						v := 2 + slope*float64(i) + 0.01*float64(i*3%4-1)
						if i == n-1 {
							v += last
						}
						list = append(list, instrument.Earlier{Date: fmt.Sprintf("2026-01-%02d", i+1), Value: v})
					}
					d.put(instrument.Course(list))
				}
			}
			p.digest(fmt.Sprint("course of ", n), &d)
		}
		checks := selfcheck.Run("standards")
		checks[1].Found, checks[1].Word, checks[1].Fault = math.NaN(), selfcheck.Differs, "no value"
		sheet := string(rec.AppendValidationArticle(nil, checks, "today"))
		_, rest, _ := strings.Cut(sheet, "</header>") // which says the platform
		p.sum("validation sheet", rest, len(rec.AppendValidation(nil, checks, "today"))-len(sheet) > 0)
		for i, text := range []string{"", "1\n2\n3", "1.5\n\n NaN \n-2e3\n", "1\nx\n3", "1\n0x1p4", "1_000", "inf", "1\r\n2\r\n", "\n\n", "1e400", strings.Repeat("7", 70000)} {
			for _, block := range []int{1, 2, 7} {
				for name, next := range map[string]func(z []float64) (int, error){"lines": tracefile.Lines(strings.NewReader(text)), "floats": tracefile.Floats(strings.NewReader(text))} {
					var one digest
					for range 8 {
						z := make([]float64, block)
						n, err := next(z)
						one.put([]any{n, err, z[:n]})
						if err != nil {
							break
						}
					}
					p.digest(fmt.Sprint(name, " ", i+1, " ", block), &one)
				}
			}
		}
		var raw bytes.Buffer
		for _, v := range []float64{1, -2.5, math.NaN(), 1e300} {
			binary.Write(&raw, binary.LittleEndian, v)
		}
		for cut := range 10 {
			var d digest
			next := tracefile.Floats(io.LimitReader(bytes.NewReader(raw.Bytes()), int64(raw.Len()-cut)))
			for range 4 {
				z := make([]float64, 3)
				n, err := next(z)
				d.put([]any{n, err, z[:n]})
			}
			p.digest(fmt.Sprint("floats cut ", cut), &d)
		}
		for i, text := range []string{"-0,08/Rz3 3,2", "Rz 3,2", "0,0025-0,08/Ra2 0,4; Rz 6,3", "Rz", "Rmr(0,5) 20 %", "x", "Rz 3,2 Sc2"} {
			for k, options := range []*compare.EditionOptions{nil, {Periodic: true}, {Over: &roughness.Settings{Sections: 2}}, {Over: narrowly(2), Periodic: true}, {Over: &roughness.Settings{Form: roughness.FormSpec{Kind: "x"}}}} {
				var d digest
				for _, other := range []standards.EditionID{standards.ISO4287, standards.ASMEB46, standards.ISO21920, "x"} {
					e, err := compare.ByEdition(traced("turned", 3400), text, standards.ISO21920, other, options)
					if d.put(err); e != nil {
						d.put([]any{e.A, e.B, e.Limits, rec.AppendEditions(nil, e)})
					}
				}
				p.digest(fmt.Sprint("in two editions ", i+1, " ", k+1), &d)
			}
		}
		for _, text := range []string{"Rz 3,2", "Rz 3,2; Ra 0,8; Pt 9", "Wz 3", "Rmr(0,5) 20 %"} {
			for _, edition := range standards.EditionIDs() {
				req, err := judge.ReadRequirement(text, edition)
				if err != nil {
					continue
				}
				p.sum(fmt.Sprint("include ", text, " ", edition), req.Include(nil), req.Include(narrowly(2, "Rq")), req.Include(&roughness.Settings{Profile: roughness.P}), req.Overriding(narrowly(2)), req.Open())
			}
		}
		slices.Sort(p.lines)
	})
}
