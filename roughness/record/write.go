package record

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strconv"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/internal/checksum"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/standards"
)

// RecordVersion is the newest version of a record that this package writes and reads.
const RecordVersion = 1

// Version is that of furrow.
const Version = "0.1.0"

// Stamp says where and when a record was made. It is all of a record that depends on that.
type Stamp struct {
	Time     string // UTC, ISO 8601 to the second
	Version  string // of furrow
	Platform string // "linux/amd64"
	Number   string // of the record: eight digits that follow from the rest of it
}

const stampTime = "2006-01-02T15:04:05Z"

// At makes the record anew at another time, of all that it holds now: its block made states the time, this version on this machine, and the
// number that follows from them and from the rest.
func (r *Record) At(t time.Time) {
	r.body = nil
	r.Made = Stamp{Time: t.UTC().Format(stampTime), Version: Version, Platform: platform()}
	r.Made.Number = r.Made.number(digest(r.content()))
}

// number is the number of a record whose content has a digest.
func (m Stamp) number(content string) string {
	d := digest([]byte(content + "\n" + m.Time + "\n" + m.Version + "\n" + m.Platform + "\n"))
	return d[:4] + " " + d[4:8]
}

func (m *Stamp) members() []member {
	return []member{{"time", &m.Time}, {"version", &m.Version}, {"platform", &m.Platform}, {"number", &m.Number}}
}

func (m *Stamp) json() raw { return line(pairs(m.members())...) }

func digest(b []byte) string {
	return hex.EncodeToString(checksum.Of(checksum.SHA256(), b))
}

// rounded has 12 significant digits: what a value keeps wherever it is calculated.
func rounded(v float64) float64 { return standards.RoundDigits(v, 12) }

var longNumber = regexp.MustCompile(`\d+\.\d{9,}(e[-+]?\d+)?`)

// tidy rounds the numbers in a sentence to 12 significant digits.
func tidy(s string) string {
	return longNumber.ReplaceAllStringFunc(s, func(t string) string {
		v, err := strconv.ParseFloat(t, 64)
		if err != nil {
			return t
		}
		return number(rounded(v))
	})
}

// AppendRecord appends the record as a JSON document to b. But for its last block, made, the bytes are the same wherever it is made from
// the same sheet.
func AppendRecord(b []byte, r *Record) []byte {
	content := r.content()
	b = append(b, content...)
	w := writer{b: b, more: true}
	w.b = w.b[:len(w.b)-1] // the comma, which name writes
	w.name("sha256")
	w.b = append(w.b, sums(content)...)
	w.put("made", r.Made.json())
	return append(w.close(), '\n')
}

// sums are the checksums: of all that stands before them, and short ones of each block in it, so that a change can be named.
func sums(content []byte) string {
	var parts []any
	for _, p := range split(content) {
		parts = append(parts, p.name, p.digest)
	}
	w := opened(nil, " ")
	w.put("record", digest(content), "parts", line(parts...))
	return string(w.close())
}

// A part is one block of a record.
type part struct {
	name   string
	offset int
	digest string // short
}

// split parts the content of a record at the lines that its blocks begin with: no other line begins so.
func split(content []byte) []part {
	begin := []byte("\n \"")
	var parts []part
	for at := bytes.Index(content, begin); at >= 0; {
		next := bytes.Index(content[at+1:], begin)
		text := content[at+len(begin):]
		if next >= 0 {
			text = content[at+len(begin) : at+1+next]
		}
		name, _, _ := bytes.Cut(text, []byte(`"`))
		parts = append(parts, part{string(name), at + 2, digest(text)[:16]})
		if next < 0 {
			break
		}
		at += 1 + next
	}
	return parts
}

// content is the document up to the comma before its checksums.
func (r *Record) content() []byte {
	if r.body != nil {
		return r.body
	}
	w := opened(nil, "")
	w.put("furrow_record", RecordVersion)
	r.sheet(&w)
	results := make([]any, len(r.Evaluations))
	for i, e := range r.Evaluations {
		results[i] = result(r.Traces[i].Profile.Name, e)
	}
	verdict := any(nil)
	if r.Verdict != nil {
		verdict = verdictAt(twelve(r.Verdict), " ")
	}
	w.put("results", list(results, "", same), "verdict", verdict, "cautions", r.Cautions, "caution", standards.Caution)
	w.name("heights")
	w.b = appendHeights(w.b, r.Traces)
	w.b = append(w.b, ',')
	r.body = bytes.ReplaceAll(w.b, []byte("<"), []byte(`\u003c`)) // a page carries it inside an element of its own
	return r.body
}

// AppendSheet appends the sheet as a JSON object to b, without the heights of its traces: what [ParseSheet] reads.
func AppendSheet(b []byte, s *Sheet) []byte {
	w := opened(b, "")
	(&Record{Sheet: *s}).sheet(&w)
	return append(w.close(), '\n')
}

func (a *Asked) members() []member {
	return []member{{"text", &a.Text}, {"edition", &a.Edition}, {"limit", &a.Limit}, {"rule", &a.Rule}, {"u", &a.U}, {"k", &a.K}, {"prove", &a.Prove},
		{"guard", &a.Guard}, {"agreed", &a.Agreed}}
}

func (t *TypedValue) members() []member { return []member{{"text", &t.Text}, {"from", &t.From}} }

func (f *File) members() []member {
	return []member{{"name", &f.Name}, {"size", &f.Size}, {"sha256", &f.SHA256}}
}

func (c *LatestCheck) members() []member {
	return []member{{"name", &c.Name}, {"date", &c.Date}, {"word", &c.Word}}
}

func (l *InfluenceUsed) members() []member {
	return []member{{"name", &l.Name}, {"effect", &l.Effect}, {"share", &l.Share}, {"source", &l.Source}}
}

func (r *Record) sheet(w *writer) {
	check, budget := any(nil), any(nil)
	if c := r.Check; c != nil {
		check = line(pairs(c.members())...)
	}
	if b := r.Budget; b != nil {
		budget = b.json()
	}
	blanks := opened(nil, " ")
	for _, f := range r.Blanks.each() {
		blanks.put(f.key, f.value)
	}
	w.put("name", r.Name, "invented", r.Invented, "asked", line(pairs(r.Asked.members())...),
		"typed", inline(r.Typed, func(t TypedValue) any { return line(pairs(t.members())...) }), "file_open", r.FileOpen, "settings", settingsAt(r.Settings, " "),
		"origins", AppendOrigins(nil, r.Origins, " "), "traces", list(r.Traces, "", keptTrace), "check", check, "budget", budget, "blanks", blanks.close(),
		"notes", inline(r.Notes, note))
}

// keptTrace is what a record holds of a trace beside its heights.
func keptTrace(t SheetTrace) any {
	file, hints := any(nil), any(nil)
	if t.File != nil {
		file = line(pairs(t.File.members())...)
	}
	var b bytes.Buffer
	if len(t.Hints) > 0 && json.Compact(&b, t.Hints) == nil {
		hints = b.Bytes()
	}
	w := opened(nil, "  ")
	w.put("name", t.Profile.Name, "file", file, "hints", hints, "reading", t.Reading, "left_out", t.LeftOut, "settings", settingsAt(t.Settings, "   "),
		"traced", traced(&t.Profile.Traced), "notes", inline(t.Notes, note), "spacing", t.Profile.Spacing, "points", len(t.Profile.Z), "heights_sha256", t.heights)
	return w.close()
}

// The blanks by their keys, in the order in which they are printed.
func (b *Blanks) each() []struct {
	key, label string
	value      *string
} {
	return []struct {
		key, label string
		value      *string
	}{
		{"part", "Part", &b.Part}, {"place", "Place of the trace", &b.Place}, {"direction", "Direction", &b.Direction},
		{"instrument", "Instrument", &b.Instrument}, {"tip", "Tip", &b.Tip}, {"check", "Specimen check", &b.Check},
		{"operator", "Operator", &b.Operator}, {"date", "Date of the trace", &b.Date}, {"remarks", "Remarks", &b.Remarks},
	}
}

// json is the budget with numbers of 12 digits.
func (b *BudgetUsed) json() []byte {
	w := opened(nil, " ")
	w.put("symbol", b.Symbol, "unit", b.Unit, "value", rounded(b.Value), "u", rounded(b.U), "k", rounded(b.K), "lines", list(b.Lines, "", func(l InfluenceUsed) any {
		l.Effect, l.Share = rounded(l.Effect), rounded(l.Share)
		return line(pairs(l.members())...)
	}), "left", b.Left, "sentence", tidy(b.Sentence))
	return w.close()
}

// result is what an evaluation gave.
func result(name string, e *roughness.Evaluation) []byte {
	w := opened(nil, "  ")
	w.put("trace", name, "profile", profile(e), "values", list(e.Values, "", func(v roughness.Value) any {
		v.Value, v.Reason, v.Note = rounded(v.Value), tidy(v.Reason), tidy(v.Note)
		v.Sections = slices.Clone(v.Sections)
		for k := range v.Sections {
			v.Sections[k] = rounded(v.Sections[k])
		}
		return value(v)
	}))
	return w.close()
}

// twelve is a verdict whose calculated numbers have 12 significant digits. The limits stay as they are.
func twelve(v *judge.Verdict) *judge.Verdict {
	c := *v
	c.Sentence, c.Open = tidy(v.Sentence), tidied(v.Open)
	if v.Why != nil {
		c.Why = &judge.Reason{Key: v.Why.Key, Text: tidy(v.Why.Text)}
	}
	c.Limits = slices.Clone(v.Limits)
	for i := range c.Limits {
		l := &c.Limits[i]
		l.Sentence, l.Open = tidy(l.Sentence), tidied(l.Open)
		if l.Why != nil {
			l.Why = &judge.Reason{Key: l.Why.Key, Text: tidy(l.Why.Text)}
		}
		l.Value, l.Accept, l.Reject, l.U = rounded(l.Value), rounded(l.Accept), rounded(l.Reject), rounded(l.U)
		l.Counted = slices.Clone(l.Counted)
		for k := range l.Counted {
			l.Counted[k].Value = rounded(l.Counted[k].Value)
		}
		l.Log = slices.Clone(l.Log)
		for k := range l.Log {
			l.Log[k] = tidy(l.Log[k])
		}
	}
	return &c
}

func tidied(list []judge.Reason) []judge.Reason {
	list = slices.Clone(list)
	for i := range list {
		list[i].Text = tidy(list[i].Text)
	}
	return list
}

// appendHeights appends the heights of each trace, a line each: shortest decimals that read back as the same number, null without one.
func appendHeights(b []byte, traces []SheetTrace) []byte {
	b = append(b, '[')
	for i, t := range traces {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, "\n  ["...)
		for k, v := range t.Profile.Z {
			if k > 0 {
				b = append(b, ',')
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				b = append(b, "null"...)
			} else {
				b = strconv.AppendFloat(b, v, 'g', -1, 64)
			}
		}
		b = append(b, ']')
	}
	return append(b, "\n ]"...)
}
