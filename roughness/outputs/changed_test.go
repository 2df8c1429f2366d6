package outputs

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	rec "example.com/furrow/roughness/record"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

var jsonToken = regexp.MustCompile(`"(?:[^"\\]|\\.)*"|-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?|true|false|null|[\[\]{}:,]`)

// changed are JSON texts with one token each replaced by others of its kind and of other kinds; lists of heights are left out.
func changed(text string, each int) []string {
	var list []string
	end := len(text)
	if at := strings.Index(text, "\n \"heights\""); at >= 0 {
		end = at
	}
	for i, place := range jsonToken.FindAllStringIndex(text[:end], -1) {
		token := text[place[0]:place[1]]
		var others []string
		switch {
		case strings.ContainsAny(token[:1], "[]{}:,"):
			continue
		case token[0] == '"':
			word := token[1 : len(token)-1]
			others = []string{`"` + word + `x"`, `null`, `7`, `""`, strconv.Quote(strings.Map(func(r rune) rune {
				if r >= '0' && r <= '8' {
					return r + 1
				}
				return r
			}, word)), `[]`, `{}`, `"ISO 4287"`}
		case token == "true" || token == "false" || token == "null":
			others = []string{`true`, `false`, `null`, `0`, `"x"`, `{}`, `[]`, `[{}]`}
		default:
			v, _ := strconv.ParseFloat(token, 64)
			others = []string{strconv.FormatFloat(v*(1+3e-12), 'g', 12, 64), strconv.FormatFloat(v*(1+3e-11), 'g', 12, 64), `-1`, `0`, `null`, strconv.FormatFloat(v+1, 'g', 12, 64), strconv.FormatFloat(v+0.5, 'g', 12, 64), `"` + token + `"`, `1e999`, `2e9`, `[1,2,3]`}
		}
		for k := range each {
			other := others[(i+k)%len(others)]
			if other != token {
				list = append(list, text[:place[0]]+other+text[place[1]:])
			}
		}
	}
	return list
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

var stampOf = regexp.MustCompile(`"made": \{"time": "([^"]*)", "version": "([^"]*)", "platform": "([^"]*)", "number": "[^"]*"`)

// resealed is a record whose checksums belong to what it holds now.
func resealed(text string) string {
	at := strings.LastIndex(text, "\n \"sha256\"")
	if at < 0 {
		return text
	}
	content, parts := text[:at], []string(nil)
	for _, block := range strings.Split(content, "\n \"")[1:] {
		name, _, _ := strings.Cut(block, `"`)
		parts = append(parts, fmt.Sprintf("%q: %q", name, hash(block)[:16]))
	}
	end := text[at:]
	end = regexp.MustCompile(`"record": "[0-9a-f]*"`).ReplaceAllString(end, `"record": "`+hash(content)+`"`)
	end = regexp.MustCompile(`"parts": \{[^}]*\}`).ReplaceAllString(end, `"parts": {`+strings.Join(parts, ", ")+`}`)
	if m := stampOf.FindStringSubmatch(end); m != nil {
		d := hash(hash(content) + "\n" + m[1] + "\n" + m[2] + "\n" + m[3] + "\n")
		end = stampOf.ReplaceAllString(end, fmt.Sprintf(`"made": {"time": %q, "version": %q, "platform": %q, "number": %q`, m[1], m[2], m[3], d[:4]+" "+d[4:8]))
	}
	return content + end
}

// smallSheets are sheets of short traces with much beside them.
func smallSheets() map[string]*rec.Sheet {
	short := func(name string, n int) rec.SheetTrace {
		p := traced(name, n)
		p.Name, p.Spacing = name+".txt", 1
		return rec.SheetTrace{Profile: p}
	}
	set := &roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Parameters: []string{"Rz", "Ra", "Rmr(0.5)"}, Sections: 3}
	full := short("turned", 350)
	full.File, full.Hints, full.Reading = rec.NewFile("a.csv", []byte("x")), []byte(`{"z_unit":"µm"}`), "text"
	full.Profile.Traced = roughness.Traced{Instrument: "bench 2", Skid: roughness.WithSkid, TipRadius: 2, ConeAngle: 60, Force: 0.75, Speed: 0.5, Direction: "across", Place: "place 1", Date: "2026-03-03"}
	full.Notes = []roughness.Note{{Code: "reading", Text: "as read"}}
	left := short("ground", 350)
	left.LeftOut = "a scratch"
	return map[string]*rec.Sheet{
		"much": {Name: "Rod", Invented: true, Asked: rec.Asked{Limit: "Rz <= 3.2; Ra >= 0.1", Rule: "max", U: "Rz 0.12; Ra 0.01", K: 2, Prove: "buyer", Guard: "1998", Agreed: "the customer"}, Typed: []rec.TypedValue{{Text: "Rz 2.95", From: "place 6"}},
			Settings: set, Traces: []rec.SheetTrace{full, left}, Check: &rec.LatestCheck{Name: "S 14", Date: "2026-02-27", Word: "within"},
			Budget: &rec.BudgetUsed{Symbol: "Rz", Unit: "µm", Value: 2.9, U: 0.094, K: 2, Sentence: "An estimate.", Left: []string{"tip"}, Lines: []rec.InfluenceUsed{{Name: "noise", Effect: 0.025, Share: 0.28, Source: "own choice"}}},
			Blanks: rec.Blanks{Operator: "b", Remarks: "two\nlines"}, Notes: []roughness.Note{{Code: "requirement", Text: "as read"}}},
		"drawing": {Asked: rec.Asked{Text: "-0,08/Rz3 3,2", Edition: standards.ISO4287}, Traces: []rec.SheetTrace{short("ground", 350)}, FileOpen: []string{"x.txt, unit"}},
		"values":  {Settings: &roughness.Settings{Profile: roughness.P, Form: roughness.FormSpec{Kind: "polynomial", Degree: 2}, Parameters: []string{"Pt", "Pmr(1)"}, Exclude: []roughness.Exclusion{{From: 20, To: 30, Reason: "pore"}}, Crop: [2]float64{5, 5}}, Traces: []rec.SheetTrace{short("turned", 250)}},
	}
}

// Records and sheets in which one thing each was changed.
func TestChanged(t *testing.T) {
	keep(t, "changed", func(p *page) {
		noon := time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)
		sheets := smallSheets()
		for _, name := range names(sheets) {
			s := sheets[name]
			r, err := s.Record(noon)
			if err != nil {
				t.Fatal(name, err)
			}
			r.Made.Platform = "here"
			text := resealed(string(rec.AppendRecord(nil, r)))
			if m := regexp.MustCompile(`"number": "([^"]*)"\}\n\}`).FindStringSubmatch(text); m != nil {
				r.Made.Number = m[1] // the page prints it
			}
			var d, broken digest
			for i, one := range append([]string{text, text + " ", "\xef\xbb\xbf" + text, strings.Replace(text, `"version": "0.1.0"`, `"version": "0.0.9"`, 1)}, changed(text, 1)...) {
				if i%4 == 0 {
					o, err := rec.Open([]byte(one))
					broken.put(err)
					if o != nil {
						broken.put([]any{o.Word, o.Made.Time})
					}
				}
				if i > 3 && i%2 == 0 {
					continue
				}
				o, err := rec.Open([]byte(resealed(one)))
				d.put(err)
				if o == nil {
					continue
				}
				d.put([]any{o.Word, o.Sheet.Asked, o.Sheet.Settings, o.Sheet.Origins, o.Sheet.Check, o.Sheet.Budget, o.Sheet.Blanks, o.Made.Time, o.Made.Version})
				v, err := o.Verify()
				d.put(err)
				if v != nil {
					d.put([]any{v.Same, v.Differences})
					if i%8 == 1 {
						d.put(rec.AppendVerification(nil, o, v))
					}
				}
			}
			p.digest(name+" changed", &d)
			p.digest(name+" changed, and its checksums not", &broken)
			var cut, page, sheet digest
			for i := range 60 {
				o, err := rec.Open([]byte(text[:len(text)*i/60]))
				cut.put([]any{o == nil, err})
				line, column := rec.Locate([]byte(text[:20000*i/60%len(text)]), "asked.text")
				cut.put([]any{line, column})
			}
			for _, key := range []string{"asked", "asked.text", "asked.tex", "traces[0]", "traces[0].name", "traces[1].file", "traces[9].x", "settings.long.cutoff", "settings.long.nesting", "nothing", ""} {
				line, column := rec.Locate([]byte(text), key)
				cut.put([]any{line, column})
			}
			p.digest(name+" cut", &cut)
			for _, display := range []rec.Display{{}, {Comma: true}, {Inch: true}, {Comma: true, Inch: true}} {
				whole := string(rec.AppendPage(nil, r, display))
				at := strings.Index(whole, `<script type="application/json"`)
				printed, carried := whole[:at], whole[at:]
				sums := regexp.MustCompile(`data-page-sha256="[0-9a-f]*"`)
				last := strings.LastIndex(printed, "</svg>") // how the picture rounds depends on the machine
				for i, one := range append([]string{printed[last:]}, spoilt(printed[last:], 14, 3, "0123456789<>ab")...) {
					one = printed[:last] + one
					data := one + sums.ReplaceAllString(carried, `data-page-sha256="`+hash(one)+`"`)
					if i%3 == 2 {
						data = one + carried
					}
					o, err := rec.Open([]byte(data))
					page.put(err)
					if o == nil {
						continue
					}
					v, err := o.Verify()
					page.put(err)
					if v != nil {
						for k := range v.Differences { // the picture and the name of the platform are no matter of the record
							page.put(v.Differences[k].String())
						}
					}
				}
				for _, data := range []string{whole[:at+90], whole[:at+200], whole[:len(whole)-9], printed, strings.Replace(whole, `"furrow-record"`, `"x"`, 1), strings.Replace(whole, "furrow_record", "furrow_recorf", 1), "<html></html>", "<p>", " \n{", "x"} {
					_, err := rec.Open([]byte(data))
					page.put(err)
				}
			}
			p.digest(name+" on a page", &page)
			for i, one := range changed(string(rec.AppendSheet(nil, s)), 4) {
				x, err := rec.ParseSheet([]byte(one))
				sheet.put(err)
				if err == nil && i%5 == 0 {
					x.Traces = nil
					sheet.put(*x)
				}
			}
			p.digest(name+" sheet changed", &sheet)
		}
	})
}

// Settings, hints and checks of an instrument in which one thing each was changed.
func TestChangedTexts(t *testing.T) {
	keep(t, "changed-texts", func(p *page) {
		var settings, hints, checks digest
		all := variants()
		for i, name := range names(all) {
			if s := all[name]; s != nil && i%4 == 0 {
				for _, one := range changed(string(rec.AppendSettings(nil, s, "")), 3) {
					x, err := rec.ParseSettings([]byte(one))
					settings.put([]any{x, err})
				}
			}
		}
		p.digest("settings changed", &settings)
		for _, text := range hintTexts {
			for _, one := range changed(text, 8) {
				h, err := tracefile.ParseHints([]byte(one))
				hints.put([]any{h, err})
			}
		}
		p.digest("hints changed", &hints)
		gain := &instrument.GainProposal{Before: 1, Factor: 1.02, Low: 1.01, High: 1.03, Text: "a gain"}
		check := &instrument.Check{Kind: "specimen", Word: "within", Symbol: "Ra", Unit: "µm", Sentence: "It is within.", Values: []float64{0.8, 0.81}, Gain: gain, Held: &instrument.Held{Certificate: 0.8, Deviation: 0.005, Allowed: 0.03},
			Lines: []instrument.CheckLine{{Name: "noise", Value: 0.01, Unit: "µm", Share: 0.3, Source: standards.Ref{Doc: "a certificate", Basis: standards.Trade}}}, Settings: []string{"Rz"}, Notes: []string{"a note"}, Session: instrument.Session{Date: "2026-03-03", Operator: "b", Instrument: "bench"}}
		text := string(rec.AppendCheck(nil, check))
		for _, one := range append([]string{text, strings.Replace(text, `"furrow_check": 1`, `"furrow_check": 2`, 1)}, changed(text, 3)...) {
			x, err := rec.ParseCheck([]byte(one))
			if err != nil { // the words of encoding/json belong to the version of Go
				checks.mark("refused")
				continue
			}
			checks.put(x)
		}
		p.digest("check changed", &checks)
	})
}

// Sheets in which one thing each is asked, typed, left out or written, as records and pages.
func TestSheets(t *testing.T) {
	keep(t, "sheets", func(p *page) {
		noon := time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)
		one := func(name string, change func(s *rec.Sheet)) {
			s := smallSheets()["much"]
			change(s)
			var d digest
			r, err := s.Record(noon)
			if d.put(err); err == nil {
				r.Made = rec.Stamp{Time: r.Made.Time, Version: "now", Platform: "here", Number: "1"}
				for _, display := range []rec.Display{{}, {Comma: true, Inch: true}} {
					d.put([]any{rec.AppendArticle(nil, r, display), r.Grid(display), r.Rows(display)})
				}
				d.put([]any{r.Cautions, rec.AppendCSV(nil, r, rec.Display{}), r.Name})
				data := string(rec.AppendRecord(nil, r))
				d.put(data[:strings.Index(data, "\n \"heights\"")])
				for i := range r.Traces {
					if i < 1 || name == "as it is" {
						d.put(rec.AppendPoints(nil, r, i))
					}
				}
			}
			p.digest(name, &d)
		}
		one("as it is", func(s *rec.Sheet) {})
		for _, text := range []string{"Rz 3,2", "Ra 0,8; Rz 6,3", "L Ra 0,1", "U Rz 1; L Rz 0,1", "Rz 1 max", "-0,08/Rz3 2,5", "0,0025-0,08/Rz2 2,5", "Rz 3,2,1", "Rmr(0,5) 20 %", "Rz", "Rsm 0,08 mm", "Rno 3"} {
			one("asked "+text, func(s *rec.Sheet) { s.Asked = rec.Asked{Text: text}; s.Typed = nil })
			one("asked without settings "+text, func(s *rec.Sheet) { s.Asked = rec.Asked{Text: text, U: "0.05"}; s.Typed, s.Settings = nil, nil })
			one("asked with limits "+text, func(s *rec.Sheet) { s.Asked.Text = text })
		}
		for _, limit := range []string{"", "Rz <= 3", "Rz <= 0.5; Rz >= 0.1", "Ra >= 9", "Rz <= 2.2; Ra <= 0.35", "x", "Rsm <= 0.1 mm"} {
			for _, rule := range []string{"", "max", "16%", "median", "x"} {
				one("limit "+limit+" by "+rule, func(s *rec.Sheet) { s.Asked.Limit, s.Asked.Rule = limit, rule })
			}
		}
		for _, u := range []string{"", "0.3", "Rz 0.3", "Ra 0.02; Rz x", "-1", "Rsm 1"} {
			for _, prove := range []string{"", "maker", "buyer", "none", "x"} {
				one("uncertainty "+u+" proves "+prove, func(s *rec.Sheet) { s.Asked.U, s.Asked.Prove, s.Asked.K = u, prove, float64(len(u)%4) })
			}
		}
		for _, typed := range []string{"Rz 3.3; 2.1", "Rz 2.9; Ra 0.4", "Rq 1", "Rz -1", "2", "Rz 1 2"} {
			one("typed "+typed, func(s *rec.Sheet) { s.Typed = []rec.TypedValue{{Text: typed, From: "a print"}} })
			one("typed alone "+typed, func(s *rec.Sheet) { s.Typed, s.Traces = []rec.TypedValue{{Text: typed}, {Text: "Rz 2"}}, nil })
		}
		for n := range 9 {
			one(fmt.Sprint("traces ", n), func(s *rec.Sheet) {
				all := s.Traces
				s.Traces = nil
				for i := range n {
					trace := all[i%2]
					trace.Profile.Name = fmt.Sprint(`c:\data\trace `, i+1, ".txt")
					trace.LeftOut = []string{"", "", "dust"}[(i+n)%3]
					s.Traces = append(s.Traces, trace)
				}
				s.Name, s.Typed = "", s.Typed[:n%2]
				if n > 4 {
					s.Settings.Parameters = []string{"Rz", "Ra", "Rq", "Rt", "Rp", "Rv", "Rsk", "Rku", "Rk", "Rsm"}[:n+2]
				}
			})
			one(fmt.Sprint("sections ", n), func(s *rec.Sheet) {
				s.Settings.Sections, s.Settings.Parameters = n, []string{"Rp", "Rv", "Rz", "Ra", "Rq", "Rsm"}[n%6:]
			})
		}
		for i, traced := range []roughness.Traced{{}, {TipRadius: 5}, {ConeAngle: 90}, {Instrument: "a"}, {Skid: roughness.WithoutSkid}, {Skid: roughness.WithSkid, Instrument: "b"}, {Date: "2026-01-01", Speed: 1}, {Force: 2, Place: "p", Direction: "d"}} {
			one(fmt.Sprint("traced ", i+1), func(s *rec.Sheet) {
				s.Traces[0].Profile.Traced = traced
				s.Blanks, s.Check = rec.Blanks{}, nil
				if i%2 == 0 {
					s.Traces[0].LeftOut, s.Blanks.Check = "no", "x"
				}
			})
		}
		for i, check := range []rec.LatestCheck{{}, {Name: "a"}, {Date: "2026-01-01"}, {Word: "outside"}, {Name: "a", Word: "open"}} {
			one(fmt.Sprint("check ", i+1), func(s *rec.Sheet) { s.Check, s.Invented = &check, false })
		}
		one("little", func(s *rec.Sheet) {
			*s = rec.Sheet{Traces: s.Traces[:1], Settings: s.Settings, Origins: map[string]callout.Origin{"sections": {From: callout.SetHere, Text: "3"}, "long": {From: callout.FromDrawing, Text: "0,08"}}, FileOpen: []string{"a.txt, unit", "b.txt"}}
		})
		one("settings of one trace", func(s *rec.Sheet) {
			own := *s.Settings
			own.Exclude, own.Parameters = []roughness.Exclusion{{From: 30, To: 34, Reason: "dust"}}, []string{"Rz", "Ra"}
			third := s.Traces[0]
			third.Settings = &own
			s.Traces = append(s.Traces, third)
		})
		for i, set := range []*roughness.Settings{nil, {}, {Edition: "x"}, {Profile: roughness.W, Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}}, {Edition: standards.ISO4287, Sections: 2, Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}}, {Short: roughness.Band{Off: true}, Long: roughness.Band{Spec: filter.Spec{Filter: "spline", Cutoff: 80, Ends: "retain"}}},
			{Input: roughness.Filtered, Sections: 2, SectionLength: 80}, {Long: roughness.Band{Spec: filter.Spec{Cutoff: 80}}, Form: roughness.FormSpec{Kind: "circle", Radius: 1000}}} {
			one(fmt.Sprint("settings ", i+1), func(s *rec.Sheet) { s.Settings, s.Asked, s.Typed = set, rec.Asked{Limit: "Rz <= 3"}, nil })
		}
		for _, v := range []float64{0, 9.4, 9.5, 9.996, 99.96, 0.0996, 0.99949, 1234.5, -2.5, 1e-7, 123456789} {
			var d digest
			for _, display := range []rec.Display{{}, {Comma: true}, {Inch: true}} {
				for n := 1; n < 6; n++ {
					d.put(display.Figure(v, n))
				}
				for _, unit := range []string{"µm", "mm", "1/mm", "1/cm", "%", ""} {
					x, u := display.Value(v, unit)
					d.put([]any{x, u})
				}
				d.put(display.Length(v))
			}
			p.digest(fmt.Sprint("shown ", v), &d)
		}
		slices.Sort(p.lines)
	})
}
