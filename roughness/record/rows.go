package record

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// Display says how numbers are shown to people. What programs read stays in µm with a decimal point.
type Display struct {
	Comma bool // decimal comma
	Inch  bool // µin and in instead of µm and mm
}

// Value is a value of a unit in the units of the display.
func (d Display) Value(v float64, unit string) (float64, string) {
	if !d.Inch {
		return v, unit
	}
	switch params.Unit(unit) {
	case params.Micrometre:
		return v / roughness.Microinch, "µin"
	case params.PerMillimetre:
		return v * roughness.Inch / roughness.Millimetre, "1/in"
	case params.PerCentimetre:
		return v * roughness.Inch / (10 * roughness.Millimetre), "1/in"
	}
	return v, unit
}

// Figure prints a number with n significant digits, and never in powers of ten.
func (d Display) Figure(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	decimals := n - 1
	if v != 0 {
		decimals = n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	}
	s := standards.RoundHalfUp(v, decimals)
	if up, err := strconv.ParseFloat(s, 64); err == nil && decimals > 0 && v != 0 && math.Floor(math.Log10(math.Abs(up))) > math.Floor(math.Log10(math.Abs(v))) {
		s = standards.RoundHalfUp(v, decimals-1) // 9.999 has become 10.00
	}
	return d.mark(strings.Replace(s, "-", "−", 1))
}

func (d Display) mark(s string) string {
	if d.Comma {
		return strings.Replace(s, ".", ",", 1)
	}
	return s
}

// Length prints a length along the trace, or one that belongs to it: "0.8 mm", "2.5 µm".
func (d Display) Length(um float64) string {
	v, unit := um/1000, "mm"
	switch {
	case d.Inch && um < 50:
		v, unit = um/roughness.Microinch, "µin"
	case d.Inch:
		v, unit = um/roughness.Inch, "in"
	case um < 50:
		v, unit = um, "µm"
	}
	return d.mark(standards.Digits(v)) + " " + unit
}

// A Row is one line of a record: what, its words, and where it comes from.
type Row struct {
	Name string `json:"name"`
	Text string `json:"text"`
	From string `json:"from"` // "drawing", "standard, ISO 21920-3:2021, 4.4 (excerpt)" or "set here": see [From]
}

// From is an origin in one of its three words, with document, clause and what the knowledge of it is based on.
func From(o callout.Origin) string {
	ref := o.Ref.String()
	if o.From != callout.FromStandard {
		return o.From
	}
	if ref == "" {
		return "standard"
	}
	return "standard, " + ref + " (" + string(o.Basis) + ")"
}

// Rules are the acceptance rules in words.
var rules = map[standards.Rule]string{standards.Maximum: "maximum (Tmax)", standards.SixteenPercent: "16 % rule (T16%)", standards.Median: "median (Tmed)"}

// Rows are the settings of the record for a person, each with where it comes from.
func (r *Record) Rows(d Display) []Row {
	var rows []Row
	add := func(name, text, from string) { rows = append(rows, Row{name, text, from}) }
	origin := func(key string) string { return From(r.Origins[key]) }
	a := r.Asked
	if a.Text != "" {
		add("Requirement", a.Text, callout.FromDrawing)
	}
	if a.Limit != "" {
		add("Limit", a.Limit, callout.SetHere)
	}
	s := r.Settings
	if s != nil {
		title, where := string(s.Edition), origin("edition")
		if e, ok := standards.EditionByID(s.Edition); ok {
			title = e.Title
		}
		if where == callout.SetHere && a.Text != "" {
			where = "set here; the drawing names none"
		}
		add("Standard", title, where)
	}
	if v := r.Verdict; v != nil && len(v.Limits) > 0 {
		where := callout.SetHere
		if e, ok := standards.EditionByID(v.Limits[0].Edition); ok && a.Rule == "" {
			where = callout.FromDrawing
			if v.Limits[0].Rule == e.Rule {
				where = From(callout.Origin{Ref: e.RuleSource, From: callout.FromStandard})
			}
		}
		add("Acceptance rule", rules[v.Limits[0].Rule], where)
		if a.U == "" {
			add("Uncertainty", "none stated: simple acceptance", callout.SetHere)
		} else {
			k := a.K
			if k == 0 {
				k = 2
			}
			add("Uncertainty", joined("; ", a.U+", k = "+number(k), v.Acceptance, map[string]string{"maker": "the maker must prove it", "buyer": "the buyer must prove the opposite"}[string(v.Guard.Proof)]), callout.SetHere)
		}
	}
	if s != nil && len(r.Evaluations) > 0 {
		add("Heights", map[roughness.Heights]string{roughness.Raw: "as traced", roughness.Levelled: "form already removed", roughness.Filtered: "already filtered"}[s.Input]+
			map[bool]string{true: ", upside down"}[s.Invert], origin("input"))
		add("S-filter", filterWords(d, s.Short), origin("short.cutoff"))
		add("Form removed", map[string]string{"line": "straight line, least squares", "none": "none"}[s.Form.Kind]+map[bool]string{true: s.Form.String()}[s.Form.Kind != "line" && s.Form.Kind != "none"], origin("form.kind"))
		add("L-filter", filterWords(d, s.Long), origin("long.cutoff"))
		e := r.Evaluations[0]
		add("Sections", fmt.Sprintf("%d × %s, from %s; evaluation length %s", e.Sections, d.Length(rounded(float64(e.SectionPoints)*e.Spacing)), d.Length(rounded(e.StartLength())), d.Length(rounded(e.EvaluationLength()))), origin("sections"))
	}
	var out []string
	for i, t := range r.Traces {
		for _, x := range r.Evaluations[i].Settings.Exclude {
			text := d.Length(x.From) + " to " + d.Length(x.To) + ": " + x.Reason
			if len(r.Traces) > 1 {
				text = "trace " + strconv.Itoa(i+1) + ", " + text
			}
			out = append(out, text)
		}
		if t.LeftOut != "" {
			out = append(out, "trace "+strconv.Itoa(i+1)+": "+t.LeftOut)
		}
	}
	if len(r.Traces) > 0 {
		text, where := "nothing", ""
		if len(out) > 0 {
			text, where = strings.Join(out, "; "), callout.SetHere
		}
		add("Left out", text, where)
	}
	if v := r.Verdict; v != nil {
		for _, dev := range v.Agreed {
			add("Agreed", dev.String()+", with "+dev.With, callout.SetHere)
		}
	}
	return rows
}

func filterWords(d Display, b roughness.Band) string {
	if b.Off {
		return "none"
	}
	s := b.Spec
	text := s.Filter
	if info := filter.Find(s.Filter); info != nil {
		text = info.Name
	}
	if l := max(s.Cutoff, s.Radius, s.Length); l > 0 {
		text += ", " + d.Length(l)
	}
	if ends, err := filter.ParseEnds(s.Ends); err == nil && ends != filter.Retain {
		text += "; ends: " + filter.EndTreatments()[ends].Name
	}
	return text
}

// cautions are what the reader of the record must keep in mind, beside the one caution that always stands.
func (r *Record) cautions() []string {
	var all []string
	say := func(when bool, text string) {
		if when {
			all = append(all, text)
		}
	}
	counted, _ := r.counted()
	n := len(counted)
	say(r.Invented, "Invented data. Not a measurement.")
	say(n == 1, "One trace is one place of the surface; three are usual (common practice).")
	say(n == 2, "Two traces; three are usual (common practice).")
	say(len(r.Typed) > 0, "Values were typed in; furrow has not seen their traces.")
	if v := r.Verdict; v != nil {
		say(v.Acceptance == "simple acceptance", "Simple acceptance: no uncertainty counts.")
		for _, d := range v.Agreed {
			say(true, fmt.Sprintf("Judged with %s, as agreed with %s.", d, d.With))
		}
	}
	out := n < len(r.Traces)
	skid := false
	for i, t := range r.Traces {
		out = out || len(r.Evaluations[i].Settings.Exclude) > 0
		skid = skid || t.Profile.Traced.Skid == roughness.WithSkid
		if room, err := roughness.RoomFor(t.Profile, &r.Evaluations[i].Settings); err == nil && t.LeftOut == "" {
			for _, n := range room.Notes { // the spacing and the tip that go with the cut-off
				say(!slices.Contains(all, n), n)
			}
		}
	}
	for _, t := range r.Traces {
		for _, n := range t.Notes {
			say(t.LeftOut == "" && inspect.Grave(n.Code), t.Profile.Name+": "+n.Text)
		}
	}
	say(out, "Something was left out; the reason stands in this record.")
	say(skid, "Traced with a skid, which follows long waves.")
	if n > 0 {
		say(true, r.checkCaution())
	}
	say(n > 0, "A profile cannot show lead on a sealing face.")
	return slices.DeleteFunc(all, func(s string) bool { return s == "" })
}

// checkDays is how old a check may be (own choice).
const checkDays = 30

// checkCaution says what is wrong with the check of the instrument; empty where nothing is.
func (r *Record) checkCaution() string {
	c := r.Check
	if c == nil {
		if r.Blanks.Check != "" {
			return ""
		}
		return "Specimen check: none kept."
	}
	if c.Word != "within" {
		return "The specimen check " + joined(", ", c.Name, c.Date) + " is not within its allowance: " + c.Word + "."
	}
	then, err := time.Parse(time.DateOnly, c.Date)
	traced, err2 := time.Parse(time.DateOnly, r.Blanks.Date)
	if err == nil && err2 == nil && traced.Sub(then) > checkDays*24*time.Hour {
		return fmt.Sprintf("The specimen check is older than %d days (own choice).", checkDays)
	}
	return ""
}

// shown are the values of an evaluation that a record prints: those with a limit, then those asked for or usual.
func (r *Record) shown(e *roughness.Evaluation, most int) []roughness.Value {
	var names []string
	if r.Verdict != nil {
		for _, l := range r.Verdict.Limits {
			names = append(names, l.Symbol)
		}
	}
	letter := e.Settings.Profile.String()
	for _, s := range []string{"a", "z", "q", "t", "p", "v", "sm", "sk"} {
		names = append(names, letter+s)
	}
	var list []roughness.Value
	seen := map[string]bool{}
	take := func(v roughness.Value) {
		if !seen[v.Symbol] && len(list) < most {
			seen[v.Symbol] = true
			list = append(list, v)
		}
	}
	for _, n := range names {
		for _, v := range e.Values {
			if v.Symbol == n {
				take(v)
			}
		}
	}
	for _, v := range e.Values {
		take(v)
	}
	return list
}

// digits is how many significant digits of a value the decision needs: three, and more where it would look like its limit.
func (r *Record) digits(symbol string, v float64) int {
	n := 3
	if r.Verdict == nil {
		return n
	}
	for _, l := range r.Verdict.Limits {
		if l.Symbol != symbol {
			continue
		}
		for _, edge := range []float64{l.Bound.Value, l.Accept, l.Reject} {
			for !math.IsNaN(edge) && v != edge && n < 8 && (Display{}).Figure(v, n) == (Display{}).Figure(edge, n) {
				n++
			}
		}
	}
	return n
}
