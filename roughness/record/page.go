package record

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"

	_ "embed"
)

//go:embed page.css
var pageStyle string

// pageMark stands in the head of every page that carries a record.
const pageMark = `<meta name="generator" content="furrow">`

// pagePicture is the width of the picture on paper, in CSS pixels.
const pagePicture = 680

// AppendPage appends the record as a page to b: HTML that prints on A4 and on Letter, needs no network and no script, and carries the
// record as JSON, from which [Open] reads it again.
func AppendPage(b []byte, r *Record, d Display) []byte {
	p := &page{r: r, d: d}
	p.write()
	b = append(b, p.b.String()...)
	b = append(b, scriptOpen+pageDigest([]byte(p.b.String()))+scriptTag...)
	b = AppendRecord(b, r)
	return append(b, scriptClose...)
}

// AppendArticle appends what a page shows of the record, an article element without a style sheet.
func AppendArticle(b []byte, r *Record, d Display) []byte {
	p := &page{r: r, d: d}
	p.article()
	return append(b, p.b.String()...)
}

type page struct {
	b strings.Builder
	r *Record
	d Display
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "\n", "<br>")

// html writes markup in which each %s is a text, and escaped.
func (p *page) html(markup string, texts ...string) {
	for _, t := range texts {
		markup = strings.Replace(markup, "%s", "\x00", 1)
		before, after, _ := strings.Cut(markup, "\x00")
		p.b.WriteString(before + escaper.Replace(t))
		markup = after
	}
	p.b.WriteString(markup)
}

func (p *page) write() {
	p.head(joined(", ", p.r.Name, "surface texture record"))
	p.article()
	p.html("</main>\n")
}

func (p *page) article() {
	r := p.r
	p.html("<article class=\"record\" id=\"record-page\">\n")
	what := "Surface texture record" + map[bool]string{true: ". Invented data. Not a measurement."}[r.Invented]
	p.html("<header><h1>%s</h1><p>%s</p></header>\n", cmp.Or(r.Name, what), map[bool]string{true: what}[r.Name != ""])
	p.verdict()
	p.picture()
	p.html("<div class=\"cols\">\n<div>\n")
	p.values()
	p.html("</div>\n<div>\n")
	// A few traces take the place of the sections of one; many stand below, over the whole width.
	few := len(r.Traces)+len(r.Typed) > 1 && len(r.Traces)+len(r.Typed) <= 6
	if few {
		p.traces()
	} else {
		p.sections()
	}
	p.rule()
	p.html("</div>\n</div>\n")
	if !few {
		p.traces()
	}
	p.table("record-settings", "Settings, and where each comes from", p.r.Rows(p.d))
	p.budget()
	p.blanks()
	p.html("<p class=\"fine\"><b>Cautions.</b> %s</p>\n", strings.Join(append(append([]string{}, r.Cautions...), standards.Caution), " "))
	p.foot()
	p.html("</article>\n")
}

// verdict writes the sign, the word and the sentence.
func (p *page) verdict() {
	v := p.r.Verdict
	p.html("<section class=\"decide\">\n<div class=\"word\">")
	if v == nil {
		p.html("<div><b>Values</b><p>Nothing was asked for, and nothing is judged.</p></div></div>\n")
		return
	}
	p.sign()
	p.html("<div><b id=\"record-word\">%s</b><p>%s</p>", string(v.Word), tidy(v.Sentence))
	if len(v.Limits) > 0 && v.Word != decide.NoVerdict {
		p.html("<p>%s</p>", p.measured())
	}
	for _, d := range v.Agreed {
		p.html("<p>%s</p>", fmt.Sprintf("Judged with %s, as agreed with %s.", d, d.With))
	}
	if len(v.Open) > 1 {
		p.html("<p>Also open:")
		for _, o := range v.Open[1:] {
			p.html(" %s", tidy(o.Text))
		}
		p.html("</p>")
	}
	p.html("</div></div>\n")
}

// measured says value, limit and uncertainty of each limit in one line.
func (p *page) measured() string {
	var parts []string
	for _, l := range p.r.Verdict.Limits {
		text := l.Asks()
		if !math.IsNaN(l.Value) && l.N > 0 && l.Quantity != "values above" && l.Quantity != "values below" {
			text = l.Quantity + " " + p.inUnit(l.Value, l.Symbol, p.r.digits(l.Symbol, l.Value)) + ", " + text
		}
		if p.d.Inch && !strings.Contains(l.Text, "in") {
			text += " (" + p.inUnit(l.Bound.Value, l.Symbol, 5) + ")"
		}
		if l.U > 0 {
			text += ", U " + p.inUnit(l.U, l.Symbol, 2)
		}
		parts = append(parts, text)
	}
	text := strings.Join(parts, "; ") + "."
	return strings.ToUpper(text[:1]) + text[1:]
}

// inUnit prints a value of a symbol with its unit.
func (p *page) inUnit(v float64, symbol string, digits int) string {
	v, unit := p.d.Value(v, p.r.Series.Unit(symbol))
	return strings.TrimSpace(p.d.Figure(v, digits) + " " + unit)
}

// sign draws the limit as a stroke and the value as a dot before it, on it or beyond it. Where there is no verdict there is no sign.
func (p *page) sign() {
	v := p.r.Verdict
	dot, stroke, open := 16, 36, ""
	switch v.Word {
	case decide.NoVerdict:
		return
	case decide.DoesNotConform:
		dot, stroke = 34, 14
	case decide.NotDecided:
		dot, stroke, open = 24, 24, ` class="open"`
	}
	for _, l := range v.Limits {
		if l.Word == v.Word && l.Side == standards.Lower {
			dot, stroke = 48-dot, 48-stroke
		}
		if l.Word == v.Word {
			break
		}
	}
	p.html(fmt.Sprintf(`<svg class="sign" viewBox="0 0 48 48" aria-hidden="true"><path d="M%d 8v32"/><circle cx="%d" cy="24" r="9"%s/></svg>`, stroke, dot, open))
}

// drawn is the first trace that counts, and the parameter that the picture is about.
func (p *page) drawn() (i int, symbol string) {
	r := p.r
	for i = range r.Traces {
		if r.Traces[i].LeftOut != "" {
			continue
		}
		if list := r.shown(r.Evaluations[i], 1); len(list) > 0 {
			symbol = list[0].Symbol
		}
		return i, symbol
	}
	return -1, ""
}

func (p *page) picture() {
	if i, symbol := p.drawn(); i >= 0 && p.r.Evaluations[i].Sections > 0 {
		pic := Strip(p.r.Evaluations[i], symbol).Draw(figure.Options{Width: pagePicture, ID: "strip", DecimalComma: p.d.Comma, Inch: p.d.Inch})
		p.b.WriteString("<figure>" + pic.SVG)
		p.html("<figcaption>%s</figcaption></figure>\n", pic.Caption)
	}
	p.html("</section>\n")
}

// Strip is the picture of an evaluation with the values of a parameter in its sections.
func Strip(e *roughness.Evaluation, symbol string) figure.Strip {
	d := figure.Strip{Symbol: symbol, ProfilePlot: figure.ProfilePlot{Letter: e.Settings.Profile.String(), Z: e.Profile(), Spacing: e.Spacing, Origin: float64(e.First) * e.Spacing,
		Layout: figure.Layout{Sections: e.Sections, Length: float64(e.SectionPoints) * e.Spacing, Start: e.StartLength()}}}
	v, ok := e.Value(symbol)
	call, err := params.Lookup(e.Settings.Edition, e.Settings.Profile.String()[0], symbol)
	if !ok || err != nil || v.Unit != params.Micrometre || len(v.Sections) != e.Sections {
		return d
	}
	peak, pit := false, false
	switch call.Parameter.Key {
	case "Rz":
		peak, pit = true, true
	case "Rp":
		peak = true
	case "Rv":
		pit = true
	case "Ra", "Rq":
	default:
		return d
	}
	d.Values, d.Tips = v.Sections, peak || pit
	sum := 0.0
	z := e.Evaluated()
	for k, s := range v.Sections {
		sum += s
		low, high := -s, s
		if d.Tips {
			low, high = math.NaN(), math.NaN()
			part := z[k*e.SectionPoints : (k+1)*e.SectionPoints]
			for _, h := range part {
				if pit && !(h >= low) {
					low = h
				}
				if peak && !(h <= high) {
					high = h
				}
			}
		}
		d.Levels = append(d.Levels, [2]float64{low, high})
	}
	mean := sum / float64(len(v.Sections))
	d.Added = len(v.Sections) > 1 && math.Abs(mean-v.Value) <= 1e-9*math.Abs(v.Value)
	return d
}

const mostValues = 8 // that a page prints of one trace

func (p *page) values() {
	i, _ := p.drawn()
	if i < 0 {
		return
	}
	e := p.r.Evaluations[i]
	p.html("<table id=\"record-values\"><caption>Values of trace %s</caption><thead><tr><th scope=\"col\">Symbol</th><th scope=\"col\" class=\"num\">Value</th><th scope=\"col\">Unit</th><th scope=\"col\">Definition</th></tr></thead><tbody>\n", p.r.Traces[i].Profile.Name)
	list := p.r.shown(e, mostValues)
	for _, v := range list {
		x, unit := p.d.Value(v.Value, string(v.Unit))
		if math.IsNaN(x) {
			p.html("<tr><th scope=\"row\"><var>%s</var></th><td colspan=\"3\">not defined: %s</td></tr>\n", v.Symbol, tidy(v.Reason))
			continue
		}
		p.html("<tr><th scope=\"row\"><var>%s</var></th><td class=\"num\"><b>%s</b></td><td>%s</td><td class=\"from\">%s</td></tr>\n", v.Symbol,
			p.d.Figure(x, p.r.digits(v.Symbol, v.Value)), unit, v.Source.String())
	}
	p.html("</tbody></table>\n")
	if more := len(e.Values) - len(list); more > 0 {
		p.html("<p class=\"fine\">%s</p>\n", strconv.Itoa(more)+" more values are in the data of this record.")
	}
}

const mostSections = 7 // that fit beside the values

func (p *page) sections() {
	i, symbol := p.drawn()
	if i < 0 {
		return
	}
	v, _ := p.r.Evaluations[i].Value(symbol)
	if len(v.Sections) < 2 || len(v.Sections) > mostSections {
		return
	}
	_, unit := p.d.Value(0, string(v.Unit))
	p.html("<table id=\"record-sections\"><caption>%s</caption><thead><tr>", joined(", ", v.Symbol+" by section", unit))
	for k := range v.Sections {
		p.html("<th scope=\"col\" class=\"num\">%s</th>", strconv.Itoa(k+1))
	}
	p.html("<th scope=\"col\" class=\"num\">result</th></tr></thead><tbody><tr>")
	for _, s := range append(append([]float64{}, v.Sections...), v.Value) {
		x, _ := p.d.Value(s, string(v.Unit))
		p.html("<td class=\"num\">%s</td>", p.d.Figure(x, 3))
	}
	p.html("</tr></tbody></table>\n")
}

// rule writes the rule step by step.
func (p *page) rule() {
	if p.r.Verdict == nil {
		return
	}
	var rows []Row
	for i := range p.r.Verdict.Limits {
		l := &p.r.Verdict.Limits[i]
		if len(p.r.Verdict.Limits) > 1 {
			rows = append(rows, Row{"", l.Asks() + ": " + string(l.Word) + ".", ""})
		}
		for k, line := range l.Log {
			rows = append(rows, Row{strconv.Itoa(k + 1), tidy(line), ""})
		}
	}
	if len(rows) > 0 {
		p.table("record-rule", "The rule", rows)
	}
}

func (p *page) table(id, caption string, rows []Row) {
	p.html("<table id=\"%s\"><caption>%s</caption><tbody>\n", id, caption)
	for _, r := range rows {
		if r.Name == "" {
			p.html("<tr><td colspan=\"2\">%s</td>", r.Text)
		} else {
			p.html("<tr><th scope=\"row\">%s</th><td>%s</td>", r.Name, r.Text)
		}
		if id == "record-settings" {
			p.html("<td class=\"from\">%s</td>", r.From)
		}
		p.html("</tr>\n")
	}
	p.html("</tbody></table>\n")
}

// traces lists the traces of a series and the values typed in.
func (p *page) traces() {
	r := p.r
	if len(r.Traces) < 2 && len(r.Typed) == 0 {
		return
	}
	var symbols []string
	add := func(s string) {
		for _, have := range symbols {
			if have == s {
				return
			}
		}
		if len(symbols) < 4 {
			symbols = append(symbols, s)
		}
	}
	if r.Verdict != nil {
		for _, l := range r.Verdict.Limits {
			add(l.Symbol)
		}
	}
	for _, t := range r.Series.Typed {
		add(t.Symbol)
	}
	if len(symbols) == 0 {
		_, s := p.drawn()
		add(s)
	}
	p.html("<table id=\"record-traces\"><caption>Traces of this surface</caption><thead><tr><th scope=\"col\">Number</th><th scope=\"col\">Trace</th>")
	for _, s := range symbols {
		p.html("<th scope=\"col\" class=\"num\">%s</th>", p.headOf(s))
	}
	p.html("<th scope=\"col\">Counts</th></tr></thead><tbody>\n")
	for i, t := range r.Traces {
		p.html("<tr><th scope=\"row\">%s</th><td>%s</td>", strconv.Itoa(i+1), t.Profile.Name)
		for _, s := range symbols {
			v, _ := r.Evaluations[i].Value(s)
			x, _ := p.d.Value(v.Value, string(v.Unit))
			if v.Symbol == "" {
				x = math.NaN()
			}
			p.html("<td class=\"num\">%s</td>", p.d.Figure(x, r.digits(s, v.Value)))
		}
		p.html("<td>%s</td></tr>\n", joined(": ", map[bool]string{true: "yes", false: "left out"}[t.LeftOut == ""], t.LeftOut))
	}
	for i, t := range r.Series.Typed {
		from := ""
		if len(r.Typed) == len(r.Series.Typed) {
			from = r.Typed[i].From
		}
		p.html("<tr><th scope=\"row\">%s</th><td>%s</td>", strconv.Itoa(len(r.Traces)+i+1), joined(": ", "typed in, no trace", from))
		for _, s := range symbols {
			text := ""
			if s == t.Symbol {
				x, _ := p.d.Value(t.Value, p.r.Series.Unit(s))
				text = p.d.Figure(x, r.digits(s, t.Value))
			}
			p.html("<td class=\"num\">%s</td>", text)
		}
		p.html("<td>yes</td></tr>\n")
	}
	p.html("</tbody></table>\n")
	for _, s := range symbols {
		if u := r.Series.Summary(s); u.N > 1 {
			say := func(v float64) string { return p.inUnit(v, s, 3) }
			p.html("<p class=\"fine\">%s</p>\n", fmt.Sprintf("%s of %d values: mean %s, s %s, smallest %s, largest %s, median %s.", s, u.N, say(u.Mean), say(u.S), say(u.Min), say(u.Max), say(u.Median)))
		}
	}
}

func (p *page) headOf(symbol string) string {
	_, unit := p.d.Value(0, p.r.Series.Unit(symbol))
	return joined(", ", symbol, unit)
}

func (p *page) budget() {
	b := p.r.Budget
	if b == nil {
		return
	}
	var rows []Row
	for _, l := range b.Lines {
		x, unit := p.d.Value(l.Effect, b.Unit)
		rows = append(rows, Row{l.Name, strings.TrimSpace(p.d.Figure(x, 2)+" "+unit) + ", " + p.d.Figure(100*l.Share, 2) + " % of the variance", ""})
	}
	for _, l := range b.Left {
		rows = append(rows, Row{"not worked out", l, ""})
	}
	x, unit := p.d.Value(b.U, b.Unit)
	p.table("record-budget", fmt.Sprintf("Uncertainty of %s: U = %s (k = %s)", b.Symbol, strings.TrimSpace(p.d.Figure(x, 2)+" "+unit), p.d.mark(number(rounded(b.K)))), rows)
	if b.Sentence != "" {
		p.html("<p class=\"fine\">%s</p>\n", tidy(b.Sentence))
	}
}

func (p *page) blanks() {
	p.html("<dl class=\"blank\">\n")
	for _, f := range p.r.Blanks.each() {
		class := ""
		if f.key == "remarks" {
			p.html("<div><dt>Signature</dt><dd></dd></div>\n")
			class = ` class="wide"`
		}
		p.html("<div"+class+"><dt>%s</dt><dd>%s</dd></div>\n", f.label, *f.value)
	}
	p.html("</dl>\n")
}

// foot says what the record was made from, and by what.
func (p *page) foot() {
	r := p.r
	p.html("<p class=\"fine\">")
	for _, t := range r.Traces {
		if f := t.File; f != nil {
			p.html("File %s, %s points · SHA-256 <span class=\"typed\">%s</span> · ", f.Name, strconv.Itoa(len(t.Profile.Z)), f.SHA256)
		} else {
			p.html("%s, %s points · SHA-256 of the heights <span class=\"typed\">%s</span> · ", t.Profile.Name, strconv.Itoa(len(t.Profile.Z)), t.heights)
		}
	}
	m := r.Made
	at := strings.TrimSuffix(strings.Replace(m.Time, "T", " ", 1), "Z") + " UTC"
	p.html("furrow %s · %s · record <span class=\"typed\">%s</span></p>\n", m.Version, at, m.Number)
}
