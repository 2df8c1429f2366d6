package record

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"math"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/furrow/roughness"
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
	r.Made = Stamp{Time: t.UTC().Format(stampTime), Version: Version, Platform: runtime.GOOS + "/" + runtime.GOARCH}
	r.Made.Number = r.Made.number(digest(r.content()))
}

// number is the number of a record whose content has a digest.
func (m Stamp) number(content string) string {
	d := digest([]byte(content + "\n" + m.Time + "\n" + m.Version + "\n" + m.Platform + "\n"))
	return d[:4] + " " + d[4:8]
}

func (m Stamp) json() string {
	return `{"time": ` + quote(m.Time) + `, "version": ` + quote(m.Version) + `, "platform": ` + quote(m.Platform) + `, "number": ` + quote(m.Number) + "}"
}

func digest(b []byte) string {
	d := sha256.Sum256(b)
	return hex.EncodeToString(d[:])
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
	w.raw("made", r.Made.json())
	return append(w.close(), '\n')
}

// sums are the checksums: of all that stands before them, and short ones of each block in it, so that a change can be named.
func sums(content []byte) string {
	w := writer{indent: " "}
	w.open()
	w.text("record", digest(content))
	var parts []string
	for _, p := range split(content) {
		parts = append(parts, quote(p.name)+": "+quote(p.digest))
	}
	w.raw("parts", "{"+strings.Join(parts, ", ")+"}")
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
	w := writer{}
	w.open()
	w.number("furrow_record", RecordVersion)
	r.sheet(&w)
	w.name("results")
	w.b = appendList(w.b, len(r.Evaluations), func(i int) string { return result(r.Traces[i].Profile.Name, r.Evaluations[i]) })
	w.name("verdict")
	if r.Verdict == nil {
		w.b = append(w.b, "null"...)
	} else {
		w.b = AppendVerdict(w.b, twelve(r.Verdict), " ")
	}
	w.raw("cautions", inline(len(r.Cautions), func(i int) string { return quote(r.Cautions[i]) }))
	w.text("caution", standards.Caution)
	w.name("heights")
	w.b = appendHeights(w.b, r.Traces)
	w.b = append(w.b, ',')
	r.body = bytes.ReplaceAll(w.b, []byte("<"), []byte(`\u003c`)) // a page carries it inside an element of its own
	return r.body
}

// AppendSheet appends the sheet as a JSON object to b, without the heights of its traces: what [ParseSheet] reads.
func AppendSheet(b []byte, s *Sheet) []byte {
	w := writer{b: b}
	w.open()
	(&Record{Sheet: *s}).sheet(&w)
	return append(w.close(), '\n')
}

func (r *Record) sheet(w *writer) {
	w.text("name", r.Name)
	w.raw("invented", strconv.FormatBool(r.Invented))
	a := r.Asked
	w.raw("asked", `{"text": `+quote(a.Text)+`, "edition": `+quote(string(a.Edition))+`, "limit": `+quote(a.Limit)+`, "rule": `+quote(a.Rule)+
		`, "u": `+quote(a.U)+`, "k": `+number(a.K)+`, "prove": `+quote(a.Prove)+`, "guard": `+quote(a.Guard)+`, "agreed": `+quote(a.Agreed)+"}")
	w.raw("typed", inline(len(r.Typed), func(i int) string {
		return `{"text": ` + quote(r.Typed[i].Text) + `, "from": ` + quote(r.Typed[i].From) + "}"
	}))
	w.raw("file_open", inline(len(r.FileOpen), func(i int) string { return quote(r.FileOpen[i]) }))
	w.name("settings")
	if r.Settings == nil {
		w.b = append(w.b, "null"...)
	} else {
		w.b = AppendSettings(w.b, r.Settings, " ")
	}
	w.name("origins")
	w.b = AppendOrigins(w.b, r.Origins, " ")
	w.name("traces")
	w.b = appendList(w.b, len(r.Traces), func(i int) string { return trace1(&r.Traces[i]) })
	w.raw("check", "null")
	if c := r.Check; c != nil {
		w.b = append(w.b[:len(w.b)-len("null")], `{"name": `+quote(c.Name)+`, "date": `+quote(c.Date)+`, "word": `+quote(c.Word)+"}"...)
	}
	w.raw("budget", budget(r.Budget))
	w.name("blanks")
	w.b = appendBlanks(w.b, &r.Blanks)
	w.name("notes")
	w.b = appendNotes(w.b, r.Notes)
}

// trace1 is what a record holds of a trace beside its heights.
func trace1(t *SheetTrace) string {
	w := writer{indent: "  "}
	w.open()
	w.text("name", t.Profile.Name)
	if f := t.File; f != nil {
		w.raw("file", `{"name": `+quote(f.Name)+`, "size": `+strconv.FormatInt(f.Size, 10)+`, "sha256": `+quote(f.SHA256)+"}")
	} else {
		w.raw("file", "null")
	}
	hints := "null"
	if len(t.Hints) > 0 {
		var b bytes.Buffer
		if json.Compact(&b, t.Hints) == nil {
			hints = b.String()
		}
	}
	w.raw("hints", hints)
	w.text("reading", t.Reading)
	w.text("left_out", t.LeftOut)
	w.name("settings")
	if t.Settings == nil {
		w.b = append(w.b, "null"...)
	} else {
		w.b = AppendSettings(w.b, t.Settings, "   ")
	}
	w.name("traced")
	w.b = appendTraced(w.b, &t.Profile.Traced)
	w.name("notes")
	w.b = appendNotes(w.b, t.Notes)
	w.number("spacing", t.Profile.Spacing)
	w.number("points", float64(len(t.Profile.Z)))
	w.text("heights_sha256", t.heights)
	return string(w.close())
}

func appendNotes(b []byte, notes []roughness.Note) []byte {
	return append(b, inline(len(notes), func(i int) string {
		return `{"code": ` + quote(notes[i].Code) + `, "text": ` + quote(notes[i].Text) + "}"
	})...)
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

func appendBlanks(b []byte, blanks *Blanks) []byte {
	w := writer{b: b, indent: " "}
	w.open()
	for _, f := range blanks.each() {
		w.text(f.key, *f.value)
	}
	return w.close()
}

func budget(b *BudgetUsed) string {
	if b == nil {
		return "null"
	}
	w := writer{indent: " "}
	w.open()
	w.text("symbol", b.Symbol)
	w.text("unit", b.Unit)
	w.number("value", rounded(b.Value))
	w.number("u", rounded(b.U))
	w.number("k", rounded(b.K))
	w.name("lines")
	w.b = appendList(w.b, len(b.Lines), func(i int) string {
		l := b.Lines[i]
		return `{"name": ` + quote(l.Name) + `, "effect": ` + number(rounded(l.Effect)) + `, "share": ` + number(rounded(l.Share)) + `, "source": ` + quote(l.Source) + "}"
	})
	w.raw("left", inline(len(b.Left), func(i int) string { return quote(b.Left[i]) }))
	w.text("sentence", tidy(b.Sentence))
	return string(w.close())
}

// result is what an evaluation gave.
func result(name string, e *roughness.Evaluation) string {
	w := writer{indent: "  "}
	w.open()
	w.text("trace", name)
	w.name("profile")
	w.b = appendProfile(w.b, e)
	w.name("values")
	w.b = appendList(w.b, len(e.Values), func(i int) string {
		v := e.Values[i]
		v.Value, v.Reason, v.Note = rounded(v.Value), tidy(v.Reason), tidy(v.Note)
		v.Sections = slices.Clone(v.Sections)
		for k := range v.Sections {
			v.Sections[k] = rounded(v.Sections[k])
		}
		return value(v)
	})
	return string(w.close())
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
