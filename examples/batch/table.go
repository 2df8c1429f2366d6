package main

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// table writes rows as they come and keeps only running sums.
type table struct {
	csv          *csv.Writer
	buf          *bufio.Writer
	json         bool
	symbols      []string
	units        []string
	sums         []running
	rows, failed int
	err          error

	given  judge.Given
	judged *judged // nil without limits
}

func newTable(out io.Writer, asJSON bool, values []roughness.Value, limits *judge.Requirement) *table {
	t := &table{buf: bufio.NewWriter(out), json: asJSON, sums: make([]running, len(values))}
	if limits != nil {
		t.judged = &judged{limits: limits}
	}
	t.csv = csv.NewWriter(t.buf)
	head := []string{"file"}
	for _, v := range values {
		t.symbols = append(t.symbols, v.Symbol)
		t.units = append(t.units, string(v.Unit))
		name := v.Symbol
		if v.Unit != "" {
			name += " [" + string(v.Unit) + "]"
		}
		head = append(head, name)
	}
	if asJSON {
		t.buf.WriteString("{\n \"furrow_batch\": 1,\n \"traces\": [")
	} else {
		if t.judged != nil {
			head = append(head, "verdict", "why")
		}
		t.csv.Write(append(head, "notes", "error"))
	}
	return t
}

// running is mean and spread of what has come so far (B. P. Welford, Technometrics 4 (1962) 419).
type running struct {
	n         int
	mean, sum float64
	low, high float64
}

func (r *running) add(v float64) {
	if math.IsNaN(v) {
		return
	}
	if r.n == 0 {
		r.low, r.high = v, v
	}
	r.n++
	d := v - r.mean
	r.mean += d / float64(r.n)
	r.sum += float64(d * (v - r.mean))
	r.low, r.high = min(r.low, v), max(r.high, v)
}

func (r *running) deviation() float64 { return math.Sqrt(r.sum / float64(r.n-1)) }

func (t *table) add(r row) {
	t.rows++
	if r.sha256 != "" && t.given.Again(r.sha256, r.file, "its values count") != "" {
		r.notes = append(r.notes, judge.SameHeights)
	}
	defined := false
	for i, v := range r.values {
		t.sums[i].add(v.Value)
		defined = defined || !math.IsNaN(v.Value)
	}
	if !defined {
		t.failed++
	}
	if t.judged != nil {
		t.judged.add(r)
	}
	if t.json {
		t.addJSON(r)
		return
	}
	line := []string{record.Cell(r.file)}
	for _, v := range r.values {
		line = append(line, cell(v.Value))
	}
	for len(line) < 1+len(t.symbols) {
		line = append(line, "")
	}
	if t.judged != nil {
		line = append(line, said(r.verdict)...)
	}
	reason := ""
	if r.err != nil {
		reason = r.err.Error()
	}
	t.csv.Write(append(line, record.Cell(strings.Join(r.notes, " ")), record.Cell(reason)))
}

// blank are the cells behind the values.
func (t *table) blank() []string {
	if t.judged != nil {
		return make([]string, 4)
	}
	return make([]string, 2)
}

// said is a verdict in two cells.
func said(v *judge.Verdict) []string {
	if v == nil {
		return []string{string(decide.NoVerdict), "The file has no value."}
	}
	text := v.Sentence
	for _, r := range v.Open[min(1, len(v.Open)):] {
		text += " " + r.Text
	}
	for _, d := range v.Agreed {
		text += fmt.Sprintf(" Judged with %s, as agreed with %s.", d, d.With)
	}
	return []string{string(v.Word), record.Cell(text)}
}

func (t *table) addJSON(r row) {
	if t.rows > 1 {
		t.buf.WriteByte(',')
	}
	o := struct {
		File   string              `json:"file"`
		Values map[string]*float64 `json:"values"`
		Notes  []string            `json:"notes"`
		Error  string              `json:"error,omitempty"`

		Verdict json.RawMessage `json:"verdict,omitempty"`
	}{File: r.file, Values: map[string]*float64{}, Notes: append([]string{}, r.notes...)}
	for _, v := range r.values {
		o.Values[v.Symbol] = nullable(v.Value)
	}
	if r.err != nil {
		o.Error = r.err.Error()
	}
	if t.judged != nil {
		o.Verdict = verdictJSON(r.verdict)
	}
	t.put("\n  ", o)
}

func (t *table) put(lead string, v any) {
	b, err := json.Marshal(v)
	if err != nil && t.err == nil {
		t.err = err
	}
	t.buf.WriteString(lead)
	t.buf.Write(b)
}

func nullable(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

func cell(v float64) string {
	if p := nullable(v); p != nil {
		return strconv.FormatFloat(*p, 'g', -1, 64)
	}
	return ""
}

// close writes the summary: number, mean, standard deviation and range of each value.
func (t *table) close() error {
	var all *judge.Verdict
	if t.judged != nil {
		var err error
		if all, err = t.judged.verdict(); err != nil {
			return err
		}
	}
	if t.json {
		t.buf.WriteString("\n ],\n \"summary\": [")
		for i, s := range t.sums {
			if i > 0 {
				t.buf.WriteByte(',')
			}
			o := struct {
				Symbol string   `json:"symbol"`
				Unit   string   `json:"unit"`
				N      int      `json:"n"`
				Mean   *float64 `json:"mean"`
				S      *float64 `json:"s"`
				Low    *float64 `json:"low"`
				High   *float64 `json:"high"`
			}{Symbol: t.symbols[i], Unit: t.units[i], N: s.n}
			if s.n > 0 {
				o.Mean, o.Low, o.High = nullable(s.mean), nullable(s.low), nullable(s.high)
				o.S = nullable(s.deviation())
			}
			t.put("\n  ", o)
		}
		t.buf.WriteString("\n ],\n")
		if all != nil {
			t.put(" \"verdict\": ", verdictJSON(all))
			t.buf.WriteString(",\n")
		}
		t.put(" \"caution\": ", standards.Caution)
		t.buf.WriteString("\n}\n")
		if t.err != nil {
			return t.err
		}
		return t.buf.Flush()
	}
	for _, line := range []struct {
		name string
		of   func(running) float64
	}{
		{"(mean)", func(r running) float64 { return r.mean }},
		{"(s)", func(r running) float64 { return r.deviation() }},
		{"(lowest)", func(r running) float64 { return r.low }},
		{"(highest)", func(r running) float64 { return r.high }},
	} {
		out := []string{line.name}
		for _, s := range t.sums {
			if s.n == 0 {
				out = append(out, "")
				continue
			}
			out = append(out, cell(line.of(s)))
		}
		if len(out) > 1 {
			t.csv.Write(append(out, t.blank()...))
		}
	}
	empty := make([]string, len(t.symbols))
	if all != nil {
		t.csv.Write(append(append(append([]string{"(verdict)"}, empty...), said(all)...), "", ""))
	}
	last := append(append([]string{"(caution)"}, empty...), t.blank()...)
	last[len(last)-1] = standards.Caution
	t.csv.Write(last)
	t.csv.Flush()
	if err := t.csv.Error(); err != nil {
		return err
	}
	return t.buf.Flush()
}
