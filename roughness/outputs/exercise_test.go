package outputs

import (
	"fmt"
	"hash/crc32"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/study"
	"example.com/furrow/standards"
)

// randomWhole are whole heights from -size to size.
func randomWhole(n, size int, seed source) []float64 {
	z := make([]float64, n)
	for i := range z {
		z[i] = float64(seed.upTo(2*size+1) - size)
	}
	return z
}

// near are entries about a printed number: itself, a little and much beside it, and what the known slips make of it.
func near(printed string) []string {
	v, err := strconv.ParseFloat(strings.NewReplacer("−", "-", "\u202f", "").Replace(printed), 64)
	if err != nil {
		return []string{printed}
	}
	_, decimals, _ := strings.Cut(printed, ".")
	unit := math.Pow(10, -float64(len(decimals)))
	list := []string{printed, strings.ReplaceAll(printed, ".", ","), printed + "000", " " + printed + " "}
	for _, x := range []float64{v + 0.5*unit, v + 0.65*unit, v - 0.65*unit, v * 1.0025, v * 1.004, v * 1.009, v * 1.015, v + 0.4, v + 0.6, v + 0.019, v + 0.021, 1000 * v, 1015 * v, 1030 * v, v / 1000, v / 100, 100 * v, -v, v * v, v / 2, 2 * v, v * 16 / 15, v * 12 / 11, v + 1, v - 3} {
		list = append(list, strconv.FormatFloat(x, 'g', 8, 64))
	}
	return list
}

// Worked lines with blanks: typed heights with ties, with one sign, few and many, in sections, at each level, with entries right, near and wrong.
func TestBlankLines(t *testing.T) {
	keep(t, "blank-lines", func(p *page) {
		desk := &study.Desk{}
		heights := [][]float64{
			{3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2}, {1, -1, 1, -1}, {2, 2, 2, -2, -2, -2, 1, 1, 0, -1, -1, 0},
			{12.5, 13, 14.25, 12, 15, 12.5, 13.5, 16}, {-1, -2, -4, -3, -2.5, -8, -1, -2}, {0.011, -0.02, 0.015, -0.006, 0.03, -0.03}, randomWhole(64, 9, 3), randomWhole(40, 500, 4),
		}
		for i, z := range heights {
			for j, call := range params.Defaults(standards.ISO21920, 'R') {
				if i > 0 && (i+j)%3 != 0 && call.Parameter.Key != "Rz" && call.Parameter.Key != "Ra" {
					continue
				}
				r, err := desk.Evaluate(study.State{Symbol: call.Symbol, Surface: study.Typed, Heights: z, Spacing: []float64{0, 10, 0.5}[i%3], Sections: study.Sections{Number: []int{0, 2, 3, 1}[(i+j)%4]}})
				if err != nil {
					t.Fatal(err)
				}
				var d digest
				for level := study.AllShown; level <= study.TermsBlank; level++ {
					fill(&d, r, level)
				}
				table, err := r.Table(i%2 == 0)
				d.put([]any{r.Shown(), r.Notes(), r.Handles(), r.Moves(), r.Looked(), table, err})
				p.digest(fmt.Sprint(i+1, " ", call.Symbol), &d)
			}
		}
		for i, symbol := range []string{"Rz", "Ra", "Rq", "Rsk", "Rku", "Rp", "Rv", "Rsm", "Rc", "Rdq", "Rmr(0.2)", "Rdc(20,80)", "Rpk", "Rk", "Rvvc", "Rpc", "Rt"} {
			for j, s := range []study.State{{Demo: "turned-pin"}, {Demo: "honed-bore", Filter: study.Removal{Kind: "own", Long: 0.25, Short: 8}}, {Surface: study.Made, Length: 0.3, Spacing: 3, Parts: []study.Part{{Kind: "sine1", Values: []float64{2, 0.07, 0.2}}, {Kind: "noise", Values: []float64{0.2, 10, 3}}}, Sections: study.Sections{Number: 1 + i%3}}} {
				s.Symbol = symbol
				r, err := desk.Evaluate(s)
				if err != nil {
					t.Fatal(err)
				}
				var d digest
				for level := study.LastBlank; level <= study.TermsBlank; level++ {
					fill(&d, r, level)
				}
				p.digest(fmt.Sprint("surface ", j+1, " ", symbol), &d)
			}
		}
	})
}

// fill puts the lines of a level, and what is said of entries in each blank: with the right numbers in the others, with others, and with none.
func fill(d *digest, r *study.Result, level int) {
	b, err := r.Blanks(level)
	d.put([]any{b, err})
	if b == nil || err != nil {
		return
	}
	right, other := make([]string, len(b.Blanks)), make([]string, len(b.Blanks))
	for i := range b.Blanks {
		v, err := b.Check(nil, i, true)
		d.put([]any{v, err})
		right[i], other[i] = v.Value, v.Value+"1"
		if i%2 == 0 {
			other[i] = strconv.Itoa(3*i + 2)
		}
	}
	for i := range b.Blanks {
		if i > 7 && i < len(b.Blanks)-3 {
			continue
		}
		for k, entry := range append(near(right[i]), "x", "-", "1e400", "(2)", "–3") {
			entries := append([]string(nil), right...)
			if k%4 == 3 {
				entries = append([]string(nil), other...)
			}
			entries[i] = entry
			if k%7 == 6 {
				entries = entries[:i+1]
			}
			v, err := b.Check(entries, i, false)
			d.put([]any{v, err})
		}
		for _, e := range [][]string{other, other[:i], nil} {
			v, err := b.Check(e, i, false)
			d.put([]any{v, err})
		}
	}
}

// exercises are states with each field away from its first value.
func exercises() []study.State {
	start, window, shift := 0.3, 0.5, 20.0
	noise := study.Part{Kind: "noise", Values: []float64{0.3, 6, 17}}
	made := study.State{Surface: study.Made, Length: 4.8, Spacing: 2, Parts: []study.Part{noise}, Filter: study.Removal{Kind: "class"}}
	with := func(change func(s *study.State)) study.State {
		s := made.Complete()
		change(&s)
		return s
	}
	parts := func(list ...study.Part) func(s *study.State) {
		return func(s *study.State) { s.Parts = append([]study.Part{noise}, list...) }
	}
	return []study.State{
		{}, made,
		{Surface: study.Made, Parts: []study.Part{{Kind: "sine1", Values: []float64{2, 0.25, 0}}, {Kind: "sine2", Values: []float64{0.5, 0.05, 0.1}}}, Spacing: 1},
		{Surface: study.Made, Parts: []study.Part{{Kind: "sine1", Values: []float64{2, 0.25, 0}}, {Kind: "sine2", Values: []float64{0.5, 0.25, 0.1}}}, Spacing: 1, Filter: study.Removal{Kind: "class"}},
		{Surface: study.Made, Parts: []study.Part{noise}, Spacing: 2, Filter: study.Removal{Kind: "own", Long: 0.25, Short: 8}},
		with(parts(study.Part{Kind: "sine1", Values: []float64{0.7, 0.9, 0.3}})),
		with(parts(study.Part{Kind: "sine1", Values: []float64{3, 0.8, 0}}, study.Part{Kind: "sine2", Values: []float64{1, 2.2, 0.5}})),
		with(parts(study.Part{Kind: "feed", Values: []float64{0.2, 0.6}})),
		with(parts(study.Part{Kind: "hone", Values: []float64{0.2, 1.5, 1, 5, 13, 9}})),
		with(parts(study.Part{Kind: "scratch", Values: []float64{2.3, 30, 5}}, study.Part{Kind: "scratch", Values: []float64{4, 12, 2}}, study.Part{Kind: "dust", Values: []float64{1.1, 8, 6}}, study.Part{Kind: "dust", Values: []float64{3, 20, 4}})),
		with(parts(study.Part{Kind: "worn", Values: []float64{55}}, study.Part{Kind: "tilt", Values: []float64{3}}, study.Part{Kind: "bow", Values: []float64{-2}})),
		with(parts(study.Part{Kind: "triangle", Values: []float64{4, 0.1, 30}})),
		with(func(s *study.State) { s.Filter = study.Removal{Kind: "none"}; s.Sections.Number = 4; s.Hide = 2 }),
		with(func(s *study.State) {
			s.Filter = study.Removal{Kind: "class", Class: "Sc2"}
			s.Turned, s.Hide = true, 1
		}),
		with(func(s *study.State) {
			s.Filter = study.Removal{Kind: "own", Long: 0.4, Short: 5}
			s.Sections = study.Sections{Number: 3, Length: 0.5, Start: &start}
			s.Every, s.Fade, s.Way, s.Questions, s.Move = 2, 3, "predict", "abp", "noise-rq"
		}),
		with(func(s *study.State) {
			s.Filter = study.Removal{Kind: "own", Short: 8}
			s.Symbol = "Rdq"
			s.Way = "work"
		}),
		with(func(s *study.State) { s.Filter = study.Removal{Kind: "own", Long: 0.25}; s.Symbol = "Rmr(0.1)" }),
		with(func(s *study.State) { s.Edition, s.Symbol = "iso-4287", "Rz" }),
		with(func(s *study.State) { s.Edition, s.Symbol = "asme-b46.1", "Ra" }),
		with(func(s *study.State) { s.Edition, s.Symbol = "jis-b0601-1994", "Ra" }),
		with(func(s *study.State) { s.Edition, s.Symbol = "iso-12085", "R" }),
		with(func(s *study.State) { s.Letter, s.Symbol = "P", "Pa" }),
		with(func(s *study.State) { s.Letter, s.Symbol = "W", "Wa" }),
		with(func(s *study.State) { s.Symbol, s.Window = "Rzx", &window }),
		with(func(s *study.State) { s.Symbol, s.Shift = "Ral", &shift }),
		with(func(s *study.State) {
			s.Moved = []study.MovedPoint{{Point: 1200, By: 6, Width: 1}, {Point: 700, By: -4.5, Width: 8}, {Point: 1, By: 2, Width: 4}, {Point: 2400, By: 1, Width: 5}}
		}),
		with(func(s *study.State) { s.Point, s.Width, s.Every = 1201, 6, 4 }),
		{Surface: study.Made, Parts: []study.Part{noise}, Length: 3.3337, Spacing: 0.7, Symbol: "Rsm"},
		{Surface: study.Made, Parts: []study.Part{noise}, Length: 1.23459, Spacing: 1.2345, Symbol: "Rk", Filter: study.Removal{Kind: "none"}},
		{Surface: study.Sheet, Symbol: "Rvvv", Filter: study.Removal{Kind: "own", Long: 0.25, Short: 2.5}, File: &study.SheetFile{Points: 3000, CRC: "0123cdef"}},
		{Demo: "turned-pin", Symbol: "Rmr(0.5)"}, {Demo: "honed-bore", Symbol: "Rdc(10,60)"},
		{Surface: study.Typed, Heights: randomWhole(24, 6, 5), Line: "mean", Spacing: 5, Symbol: "Rq"},
		{Surface: study.Typed, Heights: []float64{1.5, -2.25, 3, 1e-6, -0.5}, Line: "line", Sections: study.Sections{Number: 2}},
		{Surface: study.Typed, Heights: randomWhole(64, 900, 6), Spacing: 0.25, Filter: study.Removal{Kind: "own", Long: 0.08, Short: 2.5}},
	}
}

// closed ends the text of a link with its check, the lowest 20 bits of a CRC-32 in four signs.
func closed(body string) string {
	sum, check := crc32.ChecksumIEEE([]byte(body)), ""
	for shift := 15; shift >= 0; shift -= 5 {
		check += string("0123456789ABCDEFGHJKMNPQRSTVWXYZ"[sum>>shift&31])
	}
	return body + "~zz" + check
}

// Exercises of all kinds: links and what is spoilt in them, the sixteen questions with all their answers, what moves and how far.
func TestExercises(t *testing.T) {
	keep(t, "exercises", func(p *page) {
		worksheet := traced("worn", 3000)
		desk := &study.Desk{Trace: &worksheet}
		for i, s := range exercises() {
			name := fmt.Sprint("exercise ", i+1)
			link, err := s.Link()
			check, checkErr := s.Check()
			var links, answers, moves digest
			links.put([]any{link, err, check, checkErr})
			body, _, _ := strings.Cut(link, "~zz")
			for _, text := range append(spoilt(body, 12, source(i), "0123456789=~._-LSabczR"), body, body+"~xx1", strings.ReplaceAll(body, "s1", "s2"), strings.ReplaceAll(body, "_", "_-"), strings.ReplaceAll(body, "cdef", "cdeg"), strings.ReplaceAll(body, "cdef", "cdef0")) {
				again, notes, err := study.OpenLink(closed(text))
				links.put([]any{again, notes, err})
			}
			p.digest(name+" links", &links)
			r, err := desk.Evaluate(s)
			if err != nil {
				p.sum(name, err)
				continue
			}
			var d digest
			shown, said := r.Change(nil)
			d.put([]any{r.Value, r.Shown(), shown, said, r.Notes(), r.Moves(), r.Handles(), r.Ordinate(), r.Removed(), r.Looked()})
			if c, err := r.Construct(); err == nil {
				for picked := range min(4, len(c.Steps)+1) {
					letters := r.Letters(c, picked)
					for _, k := range names(letters) {
						d.put([]any{k, letters[k]})
					}
				}
			}
			known, reason, err := desk.Known(s)
			d.put([]any{known, reason, err})
			other, err := desk.SameRa(s)
			d.put([]any{other, err})
			p.digest(name, &d)
			offered, withheld, err := desk.Ask(s)
			answers.put([]any{offered, withheld, err})
			for _, q := range offered {
				for option := -2; option <= len(q.Options); option++ {
					reply, err := desk.Reply(s, q.Letter, option)
					answers.put([]any{reply, err})
				}
			}
			p.digest(name+" answers", &answers)
			for _, m := range r.Moves() {
				for _, v := range []float64{m.Low, m.High, m.Least, m.Most, m.Value, m.Value + 1, (m.Low + 2*m.High) / 3} {
					moved, err := r.Set(m.ID, v)
					moves.put([]any{moved, err})
				}
				if moved, err := r.Set(m.ID, (2*m.Low+m.High)/3); err == nil && i%3 == 0 {
					if after, err := desk.Evaluate(moved); err == nil {
						shown, said := after.Change(r)
						moves.put([]any{after.Value, shown, said, after.Moves()})
					}
				}
			}
			for _, id := range []string{"scratch-1-depth", "scratch-4-width", "dust-2-place", "hone-seed", "sine2-phase", "cut-ratio", "cut-ratio-2", "cut-level", "cut-level-2", "ordinate-height", "limit-b", "no-such"} {
				moved, err := r.Set(id, 1)
				moves.put([]any{moved, err, r.Tells(id)})
			}
			p.digest(name+" moves", &moves)
		}
	})
}

// Codes of answers: guesses of all sizes, tags at their ends, and lines as people send them.
func TestCodes(t *testing.T) {
	keep(t, "codes", func(p *page) {
		s := study.State{Symbol: "Rq", Questions: "acp"}
		var lines []string
		for i, guess := range []float64{math.NaN(), 0, 1, -1, 9.994, 9.996, 999.4, 999.6, 0.00123, -45.67, 1e-9, 9.99e-7, 1e9, 9.996e9, 1e12, math.Pi} {
			code, err := s.Code(study.Answers{Options: []int{i % 8, (i + 3) % 8, study.Unsure}[:i%4%3+1], Guess: guess, Tag: 273 * i})
			p.sum(fmt.Sprint("guess ", guess), code, err)
			lines = append(lines, code)
			read, err := s.ReadCodes("my code: " + strings.ToLower(code) + " thanks")
			p.sum(fmt.Sprint("read ", guess), read, err)
		}
		plain := strings.ReplaceAll(lines[5], "-", "")
		for i, text := range []string{
			strings.Join(lines, "\n"), strings.ReplaceAll(lines[3], "-", " "), plain, plain[:12] + " " + plain[12:], strings.NewReplacer("1", "I", "0", "O").Replace(lines[2]), lines[4] + "\r\n\r\nhello\n" + lines[4],
			lines[1][:20], lines[1] + "X", "X" + lines[1], strings.Replace(lines[6], "-", " - ", 2), "a-b-c-d", "a-b-c", lines[7] + " " + lines[8], "\n\n", lines[9][5:] + "\n" + lines[9], plain[:24] + "\n" + plain[:23],
		} {
			read, err := s.ReadCodes(text)
			p.sum(fmt.Sprint("sent ", i+1), read, err)
			read, err = study.State{}.ReadCodes(text)
			p.sum(fmt.Sprint("sent for another ", i+1), read, err)
		}
		for i, a := range []study.Answers{{Tag: -1}, {Tag: 4095}, {Tag: 4096}, {Options: make([]int, 16)}, {Options: make([]int, 17)}, {Options: []int{7}}, {Options: []int{8}}, {Options: []int{-1}}} {
			code, err := s.Code(a)
			p.sum(fmt.Sprint("answers ", i+1), code, err)
		}
	})
}
