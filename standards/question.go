package standards

import (
	"fmt"
	"math"
	"strings"
)

// ask adds a question at the place of an entry.
func (d *deriving) ask(key, blocks, text, place string, answers ...answer) {
	r := d.r
	at, ok := r.at[place]
	if !ok {
		at = r.at["begin"]
	}
	e := r.s.fail(at, nil, "")
	q := Question{Key: key, Text: text, Line: e.Line, Column: e.Column, Blocks: blocks}
	for _, a := range answers {
		c := *r
		a.change(&c)
		q.Answers = append(q.Answers, Answer{Key: a.key, Text: a.text, Then: c.Keyed()})
	}
	r.Questions = append(r.Questions, q)
}

// answer is an answer before its requirement is printed.
type answer struct {
	key, text string
	change    func(*Requirement)
}

// close adds the answer that each question has.
func (q *Question) close(r *Requirement) {
	q.Answers = append(q.Answers, Answer{Key: LeaveOpen, Text: "Leave open, and note it", Then: r.Keyed()})
}

// askAboutLimit asks for what the limit itself leaves open: its unit, its side, the level of a material ratio.
func (d *deriving) askAboutLimit() {
	r := d.r
	if r.LimitText == "" {
		return
	}
	v := decimal{text: r.LimitText}
	length := r.Symbol == "" || rowOf(r.Symbol).quantity == height || rowOf(r.Symbol).quantity == spacing
	if r.Unit == "" && length {
		units := []string{"µm", "µin"}
		text := "The unit is that of the drawing, and the text does not say it: micrometre or microinch?"
		switch {
		case r.Symbol != "" && rowOf(r.Symbol).quantity == spacing:
			units = []string{"mm", "µm"}
			text = fmt.Sprintf("%s is a length along the surface: millimetre, as on older drawings, or micrometre?", r.Symbol)
		case r.Symbol == "" && familyOf(r.Edition) != asme:
			return // the question for the symbol settles the unit as well
		}
		var answers []answer
		for _, u := range units {
			um, _ := micrometres(v, u)
			says := fmt.Sprintf("%s %s", r.LimitText, u)
			if u != "µm" {
				says += fmt.Sprintf(", which is %s µm", shortest(um))
			}
			key := map[string]string{"µm": "micrometre", "µin": "microinch", "mm": "millimetre"}[u]
			answers = append(answers, answer{key, says, func(c *Requirement) { c.Unit = u }})
		}
		d.ask("unit", "limit", text, "limit", answers...)
	}
	if r.Symbol == "" {
		return
	}
	if base, level, ok := strings.Cut(r.Symbol, "("); ok && rowOf(r.Symbol).quantity == ratio {
		if r.Reference == "" && !strings.Contains(level, ",") {
			down := func(from string) func(*Requirement) {
				return func(c *Requirement) { c.Symbol = base + "(" + from + "," + strings.TrimPrefix(level, "-") }
			}
			answers := []answer{{"mean-line", "from the mean line, up positive", func(c *Requirement) { c.Reference = "mean-line" }}}
			if rowOf(r.Symbol).max > 1 {
				answers = append(answers, answer{"highest-peak", "down from the highest peak", down("0")},
					answer{"5%", "down from the level at 5 % material", down("5")})
			}
			d.ask("reference", "", "From where does the level in brackets count? The same surface gives another ratio for each.", "symbol", answers...)
		}
		if !r.SideWritten {
			d.ask("side", "", "Limits of a material ratio are often lower limits, and then L must be written; here nothing is. It is read as an upper limit.", "begin",
				answer{"upper", "an upper limit", func(c *Requirement) { c.Side, c.SideWritten = Upper, true }},
				answer{"lower", "a lower limit", func(c *Requirement) { c.Side, c.SideWritten = Lower, true }})
		}
	}
}

// askAboutMark asks what an old grade, a mark or a bare number stands for.
func (d *deriving) askAboutMark() {
	r := d.r
	be := func(symbol, limit, unit string) func(*Requirement) {
		return func(c *Requirement) { c.Mark, c.Symbol, c.LimitText, c.Unit = "", symbol, limit, unit }
	}
	known := func(symbol string) bool { _, _, ok := lookSymbol(symbol, familyOf(r.Edition)); return ok }
	switch {
	case r.Mark == "RMS":
		var answers []answer
		if known("Rq") {
			answers = append(answers, answer{"rq", "Rq, the root mean square height", be("Rq", r.LimitText, r.Unit)})
		}
		if known("Ra") {
			answers = append(answers, answer{"ra", "Ra: most old RMS notes are meant so today", be("Ra", r.LimitText, r.Unit)})
		}
		d.ask("rms", "settings", "RMS can mean Rq or, on old drawings and instruments, 1.11 times Ra.", "mark", answers...)
	case r.Mark == "Rz1max":
		d.ask("rz1max", "settings", "Rz1max is either Rz over one section under the maximum rule, or the largest height of a section among five.", "mark",
			answer{"one-section", "Rz over one section, maximum rule", func(c *Requirement) {
				be("Rz", r.LimitText, r.Unit)(c)
				c.Sections, c.Rule, c.RuleWritten = 1, Maximum, true
			}},
			answer{"largest", "the largest height of a section", be("Rz1max", r.LimitText, r.Unit)})
	case GradeLimit(r.Mark) > 0:
		ra := shortest(GradeLimit(r.Mark))
		var answers []answer
		if known("Ra") {
			answers = append(answers, answer{"ra", "Ra " + ra + " µm as an upper limit", be("Ra", ra, "µm")})
		}
		d.ask("grade", "settings", fmt.Sprintf("%s is a label on an upper limit of Ra, and no requirement of today's standards.", r.Mark), "mark", answers...)
	case r.Mark != "":
		var answers []answer
		for _, m := range TriangleMarks(r.Mark) {
			if !known(m.Symbol) {
				continue
			}
			key, text := "jis", m.System
			if m.Series != "" {
				key, text = "din-"+m.Series, m.System+", series "+m.Series
			}
			v := shortest(m.Limit)
			answers = append(answers, answer{key, fmt.Sprintf("%s: %s up to %s µm", text, m.Symbol, v), be(m.Symbol, v, "µm")})
		}
		text := "A withdrawn mark; the numbers in old tables are an orientation, not a requirement."
		if r.Mark == "~" {
			text = "A withdrawn mark for a surface left as it is; no number goes with it."
		}
		d.ask("mark", "settings", text, "mark", answers...)
	default:
		var answers []answer
		if known("Ra") {
			answers = append(answers, answer{"ra", "Ra " + r.LimitText + " as an upper limit", be("Ra", r.LimitText, orMicrometre(r.Unit))})
		}
		d.ask("symbol", "settings", "A number without a symbol: on old drawings Ra in micrometres.", "limit", answers...)
	}
}

func orMicrometre(unit string) string {
	if unit == "" {
		return "µm"
	}
	return unit
}

// classAnswers are the five classes, or the five cut-offs where the edition has no classes.
func (d *deriving) classAnswers() []answer {
	var answers []answer
	for _, row := range d.e.Rows {
		if row.Long == 0 {
			continue
		}
		text := fmt.Sprintf("cut-off %s, evaluated over %s", Length(row.Long), Length(row.Evaluation))
		if d.e.FromLimit {
			answers = append(answers, answer{row.Name, row.Name + ": " + text, func(c *Requirement) { c.Class = row.Name }})
		} else {
			answers = append(answers, answer{shortest(row.Long), text, func(c *Requirement) { c.Long = row.Long }})
		}
	}
	return answers
}

func (d *deriving) askClass() {
	what := "a cut-off"
	if d.e.FromLimit {
		what = "a setting class or a nesting index"
	}
	d.ask("class", "settings", fmt.Sprintf("%s needs %s: no default follows from its limit.", d.r.Symbol, what), "symbol", d.classAnswers()...)
}

func (d *deriving) askBand() {
	if d.e.FromLimit {
		d.ask("class", "settings", fmt.Sprintf("%s needs a setting class or a nesting index.", d.r.Symbol), "symbol", d.classAnswers()...)
		return
	}
	d.ask("band", "settings", fmt.Sprintf("%s has no default: the requirement must state its band, such as 0,8-8/.", d.r.Symbol), "symbol", d.classAnswers()...)
}

func (d *deriving) askShort() {
	var answers []answer
	for _, v := range []float64{2.5, 8, 25} {
		answers = append(answers, answer{shortest(v), "S-filter " + Length(v), func(c *Requirement) { c.Short = v }})
	}
	text := fmt.Sprintf("%s needs its short-wave limit stated.", d.r.Symbol)
	if d.e.FromLimit && d.r.Symbol == "Pt" {
		text = "Pt has defaults that follow from its limit (ISO 21920-3, 4.4.6), but their numbers were not seen: state the nesting index of the S-filter."
	}
	d.ask("short", "settings", text, "symbol", answers...)
}

func (d *deriving) askLengths() {
	r := d.r
	d.ask("lengths", "settings", fmt.Sprintf("%s is not a cut-off of the table, so nothing goes with it: state the S-filter too.", Length(r.Long)), "long",
		answer{"short", fmt.Sprintf("S-filter %s (a three-hundredth)", Length(r.Long/300)), func(c *Requirement) { c.Short = r.Long / 300 }})
}

// askCutoff asks how the cut-off is found when the drawing does not state it.
func (d *deriving) askCutoff(s Steps) {
	r := d.r
	if r.CutoffBy == "measured" {
		return
	}
	answers := []answer{{"measure", "measure, and let the value of " + s.By + " find the cut-off", func(c *Requirement) { c.CutoffBy = "measured" }}}
	if s.By == r.Symbol && !math.IsNaN(r.Limit) {
		if i, ok := s.Row(r.Limit); ok {
			row := d.e.Rows[i]
			answers = append(answers, answer{"limit", fmt.Sprintf("%s, the row of the limit, as agreed", Length(row.Long)), func(c *Requirement) { c.Long = row.Long }})
		}
	}
	d.ask("cutoff", "", fmt.Sprintf("No cut-off is stated: the measured %s decides, and the limit gives no more than a first estimate.", s.By), "symbol", answers...)
}
