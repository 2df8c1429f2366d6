package outputs

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// sheet draws a sheet of short traces from short lists.
func (s *source) sheet(traces []roughness.Profile) rec.Sheet {
	symbol, limit := one(s, "Rz", "Rz", "Ra", "Rq", "Rsm", "Rmr(0,5)", "Rsk", "Rk"), one(s, "0,5", "1,6", "2", "3,2", "80", "0,02")
	h := rec.Sheet{Name: one(s, "", "rod 7"), Invented: s.often(30)}
	a := &h.Asked
	a.Edition = one(s, "", standards.ISO21920, standards.ISO4287, standards.ASMEB46, standards.ISO12085)
	switch s.upTo(6) {
	case 0:
	case 1:
		point := strings.ReplaceAll(strings.ReplaceAll(limit, ",", "."), "(0,5)", "(0.5)")
		a.Limit = strings.ReplaceAll(symbol, ",", ".") + one(s, " <= ", " >= ", " < ") + point + one(s, "", "; Ra <= 0.8", " µm")
		a.Rule = one(s, "", "max", "16%", "median")
		a.Text = one(s, "", "", "Rz 3,2; Ra 0,8", "-0,08/Rz2 1,6", "L Ra 0,5", "Rz 3,2,1")
	default:
		a.Text = one(s, "", "", "U ", "L ", "-0,08/", "0,0025-0,08/") + symbol + one(s, "", "", "", "2", "3", "max", "1max") + " " + limit + one(s, "", "", "", "; Ra 0,8", "; L Rz 0,1", " max", " or Ra 1", " Tmax", " (N7)")
	}
	if s.often(60) {
		a.U, a.K, a.Prove, a.Guard = one(s, "", "0.1", "0", "Rz 0.1; Ra 0.02", "x", "0.1 µin"), one(s, 0.0, 1, 2, 3, 0.05, 11), one(s, "", "maker", "buyer", "none"), one(s, "", "2017", "1998", "1999")
	}
	a.Agreed = one(s, "", "", "the customer")
	for range one(s, 0, 0, 1, 2) {
		h.Typed = append(h.Typed, rec.TypedValue{Text: one(s, "Rz 3.2", "Rz 3.1; 3.2; 3.3", "Ra 0.8", "Ra 0.79; 0.8", "Rsk -0.5", "Rz 126 µin", "Rq x", ""), From: one(s, "", "a print")})
	}
	for range one(s, 0, 1, 1, 2, 2, 3) {
		tr := rec.SheetTrace{Profile: one(s, traces...), Reading: one(s, "", "delimited text"), LeftOut: one(s, "", "", "", "", "a scratch")}
		if s.often(30) {
			tr.Hints, tr.File = []byte(`{"z_unit":"µm"}`), rec.NewFile("rod.csv", []byte("x;z\n"))
			tr.Notes = []roughness.Note{{Code: "reading", Text: "2 points"}}
		}
		h.Traces = append(h.Traces, tr)
	}
	if s.often(75) {
		h.Settings = narrowly(one(s, 0, 1, 2, 3, 5, 7, 8), one(s, []string(nil), []string{"Rz"}, []string{"Ra", "Rz", "Rsm"}, []string{"Rk", "Rmr(0.5)", "Rdq"})...)
		h.Settings.Edition = one(s, a.Edition, a.Edition, "", standards.ISO4287)
		if s.often(20) {
			h.Settings.Exclude = []roughness.Exclusion{{From: one(s, 0, 100.0, 300), To: one(s, 104, 120.0, 340), Reason: "dust"}}
		}
		if s.often(20) {
			h.Settings.Crop, h.Settings.Invert = [2]float64{one(s, 0, 20.0), one(s, 0, 10.0)}, s.often(50)
		}
		if s.often(15) {
			h.Settings.Profile = one(s, roughness.P, roughness.W)
		}
		if s.often(20) {
			h.Settings.Form, h.Settings.Short = one(s, roughness.FormSpec{Kind: "line"}, roughness.FormSpec{Kind: "polynomial", Degree: 2}, roughness.FormSpec{Kind: "none"}), roughness.Band{Off: s.often(50)}
		}
	}
	if s.often(20) {
		h.FileOpen = []string{"x.txt, unit", "y.txt, spacing"}[:1+s.upTo(2)]
	}
	if s.often(30) {
		h.Check = &rec.LatestCheck{Name: one(s, "", "S 14"), Date: one(s, "2026-02-27", "2026-10-27", "2026-10-28", "2026-10-29", "2026-11-27", "2026-11-28", "x", ""), Word: one(s, "within", "outside", "open")}
		h.Blanks = rec.Blanks{Part: one(s, "", "rod"), Operator: one(s, "", "b"), Remarks: one(s, "", "two lines\nof remarks")}
		h.Budget = &rec.BudgetUsed{Symbol: one(s, "Rz", "Ra"), Unit: "µm", Value: 2.9, U: 0.1, K: one(s, 2, 2.1), Sentence: "An estimate.", Left: one(s, []string(nil), []string{"tip: unknown"}), Lines: []rec.InfluenceUsed{{Name: "certificate", Effect: 0.04, Share: one(s, 1, 0.5), Source: one(s, "", "own choice")}}}
	}
	return h
}

// Sheets drawn from short lists: what is judged, recorded, printed and opened again, also when something in the text is another.
func TestSheetsDrawn(t *testing.T) {
	keep(t, "drawn-sheets", func(p *page) {
		noon := time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)
		traces := []roughness.Profile{short("turned", 340), scaled(short("ground", 300), 1.5), short("worn", 260), {Z: make([]float64, 300), Spacing: 1, Name: "flat"}, {Z: with(short("turned", 340).Z, func(z []float64) { z[50], z[200], z[201] = math.NaN(), math.NaN(), math.NaN() }), Spacing: 1, Name: "<gaps>", Traced: roughness.Traced{Instrument: "bench", TipRadius: 2, Speed: 0.5, Date: "2026-03-03"}}, short("ground", 60), short("turned", 700)}
		for i := range 40 {
			s := source(i)
			var d digest
			for k := range 10 {
				h := s.sheet(traces)
				r, err := h.Record(noon)
				if d.put(err); err != nil {
					continue
				}
				r.Made = rec.Stamp{Time: r.Made.Time, Version: "now", Platform: "here", Number: "1"}
				shown := rec.Display{Comma: k%2 == 0, Inch: k%3 == 0}
				data := rec.AppendRecord(nil, r)
				d.put([]any{data, r.Cautions, r.Rows(shown), r.Grid(shown), rec.AppendCSV(nil, r, shown)})
				if k%4 == 0 {
					d.put([]any{rec.AppendArticle(nil, r, shown), rec.AppendTable(nil, r, shown)})
				}
				sheet := rec.AppendSheet(nil, &h)
				for _, text := range append(spoilt(string(sheet[:min(len(sheet), 1500)]), 3, source(k), `{}[]",:0-9xt`), string(sheet)) {
					again, err := rec.ParseSheet([]byte(text))
					if d.put(err); again != nil {
						d.put([]any{again.Asked, again.Settings, again.Typed, len(again.Traces)})
					}
				}
				if k%5 == 0 {
					for _, text := range append(spoilt(string(data), 2, source(k), `{}[]",:0-9xt`), string(data)) {
						o, err := rec.Open([]byte(text))
						if d.put(err); o != nil {
							v, err := o.Verify()
							d.put([]any{o.Word, o.Name, err})
							if v != nil {
								d.put([]any{v.Same, v.Differences})
							}
						}
					}
				}
			}
			p.digest(fmt.Sprint("sheets ", i+1), &d)
		}
	})
}
