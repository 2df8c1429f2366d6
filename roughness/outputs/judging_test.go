package outputs

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/judge"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
	"example.com/furrow/standards/decide"
)

// scaled are heights times a factor, on the grid.
func scaled(p roughness.Profile, by float64) roughness.Profile {
	z := make([]float64, len(p.Z))
	for i, v := range p.Z {
		z[i] = v * by
	}
	p.Z = rounded(z)
	return p
}

// Every text of the trial set, judged on traces with values typed in, with and without an uncertainty.
func TestJudging(t *testing.T) {
	keep(t, "judging", func(p *page) {
		one, two := traced("turned", 2600), scaled(traced("ground", 2600), 1.7)
		long := scaled(traced("turned", 9601), 1.1)
		typed := func(text string, edition standards.EditionID) []judge.Typed {
			list, err := judge.ParseTyped(text, edition)
			if err != nil {
				return nil
			}
			return list
		}
		for i, c := range texts(t) {
			edition := standards.EditionID(c.Edition)
			req, err := judge.ReadRequirement(c.Text, edition)
			var d digest
			d.put(err)
			if req != nil {
				d.put(*req)
				traces := []roughness.Profile{one, two}
				if i%6 == 0 {
					traces = []roughness.Profile{long, one}
				}
				over := []*roughness.Settings{nil, {Sections: 2}, {Short: roughness.Band{Off: true}}}[i%3]
				d.put(req.Overriding(over))
				for k := range req.Items {
					s, err := req.On(traces, k, over)
					d.put([]any{s, err})
				}
				u, err := judge.ParseUncertainty([]string{"0.1", "Rz 0.3; Ra 0.02", ""}[i%3], edition)
				d.put([]any{u, err})
				guard, err := judge.GuardFor([]string{"2017", "1998"}[i%2], []string{"maker", "buyer", "none"}[i%3], 2, len(u) > 0)
				d.put([]any{guard, err})
				list := []judge.Judging{{Requirement: req, Traces: traces}, {Requirement: req, Traces: traces, Settings: over, Agreed: []string{"", "the customer"}[i%2], Typed: typed("Ra 0.4; 0.5; Rz 2.9", edition), U: u, Guard: guard},
					{Requirement: req, Periodic: true, Traces: traces[:1], FileOpen: []string{"place-7.txt, unit of the heights"}[:i%2]}, {Requirement: req, Typed: typed("Rz 3.1; 3.0; 2.9; Ra 0.1; 0.7", edition), Rule: []standards.Rule{"", standards.Median, standards.SixteenPercent}[i%3]}}
				for _, j := range list[:4-i%2*2] {
					v, err := j.Judge()
					d.put(v)
					d.put(err)
					if v != nil {
						d.put(rec.AppendVerdict(nil, v, ""))
					}
				}
			} else {
				v, err := (&judge.Judging{Refused: err, Traces: []roughness.Profile{one}}).Judge()
				d.put([]any{v, err})
			}
			p.digest(fmt.Sprint("text ", i+1), &d)
		}
		for _, edition := range standards.EditionIDs() {
			for _, text := range []string{"Rz 2.9; 3.1; 2.8", "Ra 0,4 µm; Rz 120 µin", "Rsk -0.5; 0.2", "Rmr(0.5) 20 %", "Ra -1", "2.9", "Rz x", "", "Rz", "Rz 1.2.3", "Rz 1; Rno 2", "RSm 0.1 mm"} {
				var d digest
				for _, bad := range append(spoilt(text, 8, 3, "0;, Rzµx-"), text) {
					a, err := judge.ParseTyped(bad, edition)
					b, err2 := judge.ParseUncertainty(bad, edition)
					d.put([]any{a, err, b, err2})
					c, err := judge.ParseLimits(bad+" <= 3", edition)
					d.put([]any{c, err})
				}
				p.digest(fmt.Sprintf("typed %s %s", edition, text), &d)
			}
			for _, text := range []string{"Rz <= 3.2", "Ra <= 0.8; Ra >= 0.2; Rz <= 6.3", "Rz < 3,2 µm", "Rsk >= -1", "Rmr(0.5) >= 20 %", "Rz = 3", "Rz <= 126 µin", "RSm <= 0.1 mm", "Ra <= -1", "x"} {
				var d digest
				for _, rule := range []standards.Rule{"", standards.Maximum, standards.SixteenPercent, standards.Median} {
					r, err := judge.Limits(text, edition, rule)
					d.put([]any{r, err})
					if err == nil {
						v, err := (&judge.Judging{Requirement: r, Traces: []roughness.Profile{long, one, two}}).Judge()
						d.put([]any{v, err})
					}
				}
				for _, bad := range spoilt(text, 12, 5, "<>=0,; Rzx%") {
					b, err := judge.ParseLimits(bad, edition)
					d.put([]any{b, err})
				}
				p.digest(fmt.Sprintf("limits %s %s", edition, text), &d)
			}
			for _, symbol := range []string{"Ra", "Rz", "RSm", "Rsm", "Rk", "Wz", "Pt"} {
				a, okA := judge.CutoffBy(edition, symbol, false)
				b, okB := judge.CutoffBy(edition, symbol, true)
				p.sum(fmt.Sprint("chosen by ", edition, " ", symbol), a, okA, b, okB)
			}
		}
		for _, by := range []string{"Ra", "Rz", "RSm"} {
			for _, factor := range []float64{0.02, 0.3, 1, 6} {
				var d digest
				for _, estimate := range []float64{0, 0.05, 5} {
					found, err := judge.FindCutoff(scaled(long, factor), &roughness.Settings{Edition: standards.ISO4287}, by, estimate)
					d.put([]any{err})
					if found != nil {
						d.put([]any{found.By, found.Cutoff, found.Value, found.Stable, found.Notes})
						for _, turn := range found.Turns {
							d.put(turn.Turn)
						}
					}
				}
				p.digest(fmt.Sprint("cut-off by ", by, " ", factor), &d)
			}
		}
		s, err := judge.EvaluateSeries(context.Background(), []roughness.Profile{one, two, long, one, {Z: ground(20), Spacing: 0.5, Name: "short"}}, &roughness.Settings{Parameters: []string{"Ra", "Rz", "Rsm"}, Sections: 1})
		if err != nil {
			t.Fatal(err)
		}
		s.Type(typed("Ra 0.4; Rq 1", "")...)
		p.sum("series", s, s.Values("Ra"), s.Summary("Rz"), s.Unit("Rsm"), s.NameOf("Ra", 1), s.NameOf("Ra", 4), rec.AppendSeries(nil, s, nil))
		given := judge.Given{}
		for i, trace := range []roughness.Profile{one, two, one, {Z: []float64{math.NaN(), 1}}, {Z: []float64{math.NaN(), 1}}} {
			p.sum(fmt.Sprint("again ", i+1), given.Again(judge.HeightsSHA256(trace.Z), fmt.Sprint("trace ", i+1), "its values count"))
		}
		for _, rule := range []string{"", "max", "16%", "median", "x"} {
			r, err := judge.ParseRule(rule)
			p.sum("rule "+rule, r, err)
		}
	})
}

func TestComparing(t *testing.T) {
	keep(t, "comparing", func(p *page) {
		ctx := context.Background()
		trace := traced("turned", 3000)
		all := variants()
		base := &roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: 250}}, Sections: 3}
		for i, name := range names(all) {
			b := all[name]
			if b == nil || i%3 != 0 {
				continue
			}
			l, err := compare.Explain(ctx, trace, base, b, "Rz")
			list := []any{l, err, rec.AppendShares(nil, "Rz", l, err)}
			if l != nil {
				list = append(list, l.Show(1.23456), l.Show(0.00123456), l.Show(123.456))
			}
			p.sum("shares "+name, list...)
		}
		for _, edition := range []standards.EditionID{standards.ISO4287, standards.JIS1994, standards.ASMEB46, standards.ISO12085} {
			for _, text := range []string{"Rz 3,2", "Ra 0,8; Rz 6,3", "Ra", "x 1"} {
				e, err := compare.ByEdition(trace, text, standards.ISO21920, edition, &compare.EditionOptions{Periodic: text == "Rz 3,2"})
				list := []any{err}
				if e != nil {
					list = append(list, e.A, e.B, e.Limits, rec.AppendEditions(nil, e))
				}
				p.sum(fmt.Sprint("editions ", edition, " ", text), list...)
			}
		}
		for i, s := range []*roughness.Settings{base, {Parameters: []string{"Ra", "Rmr(0.5)"}, Long: base.Long, Sections: 2}, {Edition: standards.ISO4287, Long: base.Long, Sections: 4, Parameters: []string{"RSm", "Rz"}}} {
			steady, err := compare.Steady(ctx, trace, s)
			p.sum(fmt.Sprint("steady ", i+1), steady, err, rec.AppendSteadiness(nil, steady, err))
		}
		for _, text := range []string{"Rz 2.87", "Ra 0,43; Rz 2,9 µm", "Rz 120 µin", "Rz 2.870", "Rz", "", "Rno 1", "Ra 0.5;", "Rsk -0.2", "Rmr(0.5) 20 %", "Ra 1e-3", "Rz=3.1"} {
			for i, one := range append(spoilt(text, 6, 9, "0;,.Rz x"), text) {
				printed, err := compare.ParsePrinted(one)
				p.sum(fmt.Sprintf("printed %s %d", text, i), printed, err)
			}
		}
		short := traced("turned", 1400)
		narrow := &roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Parameters: []string{"Ra", "Rz"}}
		for _, text := range []string{"Ra 0.25; Rz 1.3", "Rz 900"} {
			printed, err := compare.ParsePrinted(text)
			if err != nil {
				t.Fatal(err)
			}
			f, err := compare.Find(ctx, short, printed, narrow, nil)
			list := []any{err}
			if f != nil {
				list = append(list, f.Outcome(), f.Sentences(), rec.AppendFinding(nil, f, 8))
			}
			p.sum("found "+text, list...)
		}
		for i, lines := range [][]string{{"Rz = 2.87 µm", "Ra 0,4"}, {"Ra\tRz\tRsm", "0.4\t2.9\t80"}, {"Ra (µm);0,41", "x"}, {"Rz: 2.87", "Rz: 2.88"}, {"Ra;Rz", "1,2;3"}, {}, {"Lc = 0.8 mm", "Rz 3.2 µm max", "Ra=.5"}} {
			for _, mark := range []rune{'.', ','} {
				p.sum(fmt.Sprintf("stated %d %c", i+1, mark), compare.Stated(lines, mark))
			}
		}
	})
}

func TestInstruments(t *testing.T) {
	keep(t, "instruments", func(p *page) {
		ctx := context.Background()
		set := &roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: 250}}, Sections: 3}
		trace := traced("turned", 2600)
		var traces, flats, grooves []roughness.Profile
		for i := range 6 {
			traces = append(traces, scaled(trace, 1+0.01*float64(i%4)))
			flats = append(flats, scaled(roughness.Profile{Z: ground(2600 + 10*i)[10*i:], Spacing: 0.5, Name: fmt.Sprint("flat ", i+1)}, 0.02+0.001*float64(i)))
			g := make([]float64, 1400)
			for k, v := range ground(1400 + i)[i:] {
				x := float64(k) * 0.5
				g[k] = 0.001*x + 0.03*v
				if math.Abs(x-340) < 60 {
					g[k] -= 2 + 0.005*float64(i)
				}
			}
			grooves = append(grooves, roughness.Profile{Z: rounded(g), Spacing: 0.5, Name: fmt.Sprint("groove ", i+1)})
		}
		session := instrument.Session{Date: "2026-03-03", Operator: "a", Instrument: "bench 2", Gain: 1.02}
		allowances := []instrument.Allowance{{}, instrument.AgreedAllowance(0.03), instrument.CalibrationAllowance(instrument.Specimen{Type: "A1", Value: 2}), instrument.CalibrationAllowance(instrument.Specimen{Type: "C1", Value: 2}), {Absolute: 0.05, Share: 0.5}}
		var depth, fine *instrument.Check
		for i, a := range allowances {
			for _, n := range []int{0, 1, 2, 3, 6} {
				for _, value := range []float64{0, 1.2, 1.4, 3} {
					for k, sp := range []instrument.Specimen{{Type: "C1", Symbol: "Rz", Value: value, Expanded: 0.05}, {Type: "D1", Symbol: "Ra", Value: value / 5, Expanded: 0.02, K: 3, Due: "2026-02-01", Number: "S 14"}, {Type: "A1", Symbol: "d", Value: 2 * value / 1.4, Expanded: 0.02}, {Type: "A1", Symbol: "d", Value: 2, Groove: 120, Centre: 340},
						{Symbol: "Rno", Value: 1}, {Type: "X9", Symbol: "Rz", Value: 1, Expanded: -1}} {
						if n == 6 && i > 1 || k > 2 && value > 0 && n != 3 {
							continue
						}
						list := traces[:n]
						if sp.Type == "A1" {
							list = grooves[:n]
						}
						c, err := instrument.CheckSpecimen(ctx, list, set, sp, a, session)
						d := []any{c, err}
						if c != nil {
							d = append(d, rec.AppendCheck(nil, c.Check()))
							if fine == nil {
								fine = c.Check()
							}
						}
						if sp.Type == "A1" {
							c, err := instrument.CheckGroove(ctx, list, sp, a, session)
							d = append(d, c, err)
							if c != nil {
								d = append(d, rec.AppendCheck(nil, c))
								depth = c
							}
						}
						p.sum(fmt.Sprint("specimen ", i, " ", n, " ", value, " ", k), d...)
					}
				}
			}
		}
		p.sum("tip", instrument.TipHints(depth, fine), instrument.TipHints(fine, depth), instrument.TipHints(fine, fine))
		for _, n := range []int{0, 1, 5, 6} {
			for i, limits := range [][]standards.Bound{nil, {{Symbol: "Rz", Value: 3.2}}, {{Symbol: "Ra", Value: 0.05}, {Symbol: "Rz", Value: 0.1}}, {{Symbol: "Rsm", Value: 100}}} {
				c, err := instrument.CheckNoise(ctx, flats[:n], set, limits, session)
				list := []any{c, err}
				if c != nil {
					e, err2 := roughness.Evaluate(trace, roughness.WithParameters(set, "Rq", "Ra"))
					if err2 != nil {
						t.Fatal(err2)
					}
					a, errA := c.Correct(e, "Rq")
					b, errB := c.Correct(e, "Ra")
					list = append(list, c.Check(), a, errA, b, errB)
				}
				p.sum(fmt.Sprint("flat ", n, " ", i), list...)
			}
		}
		for i, g := range append(grooves, trace, roughness.Profile{Z: make([]float64, 900), Spacing: 0.5}, roughness.Profile{Z: []float64{1, 2}, Spacing: 1}, roughness.Profile{}) {
			found, err := instrument.FindGroove(g)
			measured, err2 := instrument.MeasureGroove(g, 341, 118)
			outside, err3 := instrument.MeasureGroove(g, 5, 118)
			p.sum(fmt.Sprint("groove ", i+1), found, err, measured, err2, outside, err3)
		}
		for i, list := range [][]instrument.Earlier{nil, {{Date: "2026-01-01", Value: 2}}, {{Date: "2026-01-01", Value: 2}, {Date: "2026-02-01", Value: 2.02}}, {{Date: "2025-01-01", Value: 2}, {Date: "2025-07-01", Value: 2.1}, {Date: "2026-01-01", Value: 2.21}}, {{Date: "x", Value: 1}, {Date: "2026-01-01", Value: 1}},
			{{Date: "2026-01-01", Value: 1}, {Date: "2026-01-01", Value: 1.2}, {Date: "2026-05-05", Value: 0.9}, {Date: "2026-06-05", Value: 1.01}}} {
			p.sum(fmt.Sprint("course ", i+1), instrument.Course(list))
		}
		certified := decide.TextureInput{CertificateValue: 2, CertificateU: 0.04, SpecimenS: 0.02, SpecimenN: 4, DriftShare: 0.01}
		for i, in := range []instrument.BudgetInput{{}, {TextureInput: certified}, {NoiseRq: 0.02}, {Flats: flats[:2]}, {TipTolerance: 0.5}, {Spacing: true}, {CutoffShare: 0.02}, {TravelShare: 0.01}, {TextureInput: certified, Others: traces[1:]},
			{TextureInput: certified, NoiseRq: 0.02, TipTolerance: 0.5, Spacing: true, CutoffShare: 0.02, TravelShare: 0.01, Others: append(traces[1:3:3], trace)}, {CutoffShare: -1}, {TipTolerance: math.NaN()}} {
			for _, symbol := range []string{"Rz", "Ra", "Rsk", "Rmr(0.5)", "Rno"} {
				b, err := instrument.BudgetOn(ctx, trace, set, symbol, in)
				list := []any{b, err}
				if b != nil {
					list = append(list, rec.AppendCheck(nil, b.Check(session)))
				}
				p.sum(fmt.Sprint("budget ", i+1, " ", symbol), list...)
			}
		}
	})
}

// Records of sheets, as JSON, page, tables, and opened again.
func TestRecords(t *testing.T) {
	keep(t, "records", func(p *page) {
		noon := time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)
		gap := traced("worn", 4800)
		gap.Z[400], gap.Z[401] = math.NaN(), math.NaN()
		gap.Traced = roughness.Traced{Instrument: "bench instrument 2", Skid: roughness.WithoutSkid, TipRadius: 2, ConeAngle: 60, Force: 0.75, Speed: 0.5, Direction: "along the axis", Place: "120 mm from the eye", Date: "2026-03-03"}
		sheets := map[string]rec.Sheet{
			"full": {Name: "Piston rod 7, lock gate cylinder", Invented: true, Asked: rec.Asked{Text: "Rz 3,2", U: "0.12", Prove: "buyer", K: 2}, Typed: []rec.TypedValue{{Text: "Rz 2.95", From: "place 6"}},
				Traces: []rec.SheetTrace{{Profile: gap, File: rec.NewFile("rod.csv", []byte("x;z\n")), Hints: []byte(`{"z_unit":"µm"}`), Reading: "delimited text", Notes: []roughness.Note{{Code: "reading", Text: "2 points"}}}, {Profile: traced("turned", 4800)},
					{Profile: traced("ground", 4800), LeftOut: "a scratch across the place"}},
				Settings: &roughness.Settings{Parameters: []string{"Rz", "Ra", "Rmr(0.5)", "Rk"}, Exclude: []roughness.Exclusion{{From: 1200, To: 1230, Reason: "pore"}}}, Check: &rec.LatestCheck{Name: "S 14", Date: "2026-02-27", Word: "within"},
				Budget: &rec.BudgetUsed{Symbol: "Rz", Unit: "µm", Value: 2.9, U: 0.094, K: 2, Sentence: "An estimate.", Left: []string{"tip: unknown"}, Lines: []rec.InfluenceUsed{{Name: "certificate", Effect: 0.04, Share: 0.72, Source: "own choice"}, {Name: "noise", Effect: 0.025, Share: 0.28}}},
				Blanks: rec.Blanks{Part: "Piston rod 7", Operator: "b", Remarks: "two lines\nof remarks"}, Notes: []roughness.Note{{Code: "requirement", Text: "as read"}}},
			"two limits": {Asked: rec.Asked{Text: "Ra 0,8; Rz 6,3", U: "Rz 0.12; Ra 0.02"}, Traces: []rec.SheetTrace{{Profile: traced("turned", 9601)}}},
			"older":      {Asked: rec.Asked{Text: "Rz 12,5", Edition: standards.ISO4287}, Traces: []rec.SheetTrace{{Profile: traced("ground", 9601)}}, FileOpen: []string{"x.txt, unit"}},
			"waviness":   {Settings: &roughness.Settings{Profile: roughness.W}, Traces: []rec.SheetTrace{{Profile: traced("worn", 9601)}}},
			"limit":      {Asked: rec.Asked{Limit: "Rz <= 3.2; Ra >= 0.1", Rule: "median"}, Traces: []rec.SheetTrace{{Profile: traced("turned", 3000)}}, Settings: &roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: 250}}, Parameters: []string{"Ra", "Rz"}}},
			"typed":      {Asked: rec.Asked{Text: "Rz 3,2"}, Typed: []rec.TypedValue{{Text: "Rz 2.9; 3.1", From: "a print"}}}, "nothing": {}, "refused": {Asked: rec.Asked{Text: "Rz 3,2,1"}},
			"wrong": {Asked: rec.Asked{Text: "Rz 3,2", U: "x"}}, "short": {Traces: []rec.SheetTrace{{Profile: traced("ground", 50)}}},
		}
		for _, name := range names(sheets) {
			s := sheets[name]
			r, err := s.Record(noon)
			if err != nil {
				p.sum(name, err)
				continue
			}
			r.Made = rec.Stamp{Time: r.Made.Time, Version: "now", Platform: "here", Number: "1"}
			data := rec.AppendRecord(nil, r)
			p.sum(name, data, r.Cautions)
			for i, d := range []rec.Display{{}, {Comma: true}, {Inch: true}, {Comma: true, Inch: true}} {
				p.sum(fmt.Sprint(name, " printed ", i+1), rec.AppendArticle(nil, r, d), rec.AppendCSV(nil, r, d), rec.AppendTSV(nil, r, d), rec.AppendTable(nil, r, d), r.Rows(d), r.Grid(d), d.Figure(1.23456, 3), d.Length(0.0254), d.Length(2.5e4))
			}
			if len(r.Traces) > 0 {
				p.sum(name+" points", rec.AppendPoints(nil, r, 0), rec.AppendSheet(nil, &s), rec.AppendPage(nil, r, rec.Display{}))
			}
			for i, e := range r.Evaluations {
				if e != nil {
					p.sum(fmt.Sprint(name, " result ", i+1), rec.AppendResult(nil, e, r.Verdict))
				}
			}
			var again digest
			for i, text := range append(spoilt(string(data), 8, source(len(name)), `{}[]",:0-9xt`), string(data)) {
				o, err := rec.Open([]byte(text))
				again.put(err)
				if o != nil && i%8 == 0 {
					v, err := o.Verify()
					again.put([]any{o.Word, o.Name, err})
					if v != nil {
						again.put([]any{v.Same, v.Differences})
					}
				}
				line, column := rec.Locate([]byte(text), "settings")
				again.put([]any{line, column})
				x, err := rec.SettingsIn([]byte(text))
				again.put([]any{x, err})
				x, err = rec.SettingsFor([]byte(text), "Rz")
				again.put([]any{x, err})
				sheet, err := rec.ParseSheet([]byte(text))
				again.put(err)
				if sheet != nil {
					again.put(sheet.Asked)
				}
			}
			p.digest(name+" opened again", &again)
		}
		for i, o := range []callout.Origin{{}, {From: callout.FromDrawing, Text: "Rz 3,2"}, {From: callout.FromStandard, Ref: standards.Ref{Doc: "ISO 21920-3:2021", Clause: "4.4", Basis: standards.Excerpt}}, {From: callout.SetHere, Unconfirmed: true}, {From: callout.FromStandard, Provisional: true, Text: "a"}} {
			p.sum(fmt.Sprint("origin ", i+1), rec.Origin(o), rec.From(o))
		}
		for _, cell := range []string{"", "a", "a;b", "=1", "+1", "-1", "@x", "a\"b", "a\nb", " a"} {
			p.sum("cell "+cell, rec.Cell(cell))
		}
	})
}
