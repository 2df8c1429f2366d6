package record

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// Cell is a text as a spreadsheet takes it: one that would be read as a formula gets an apostrophe before it.
func Cell(s string) string {
	if s != "" && strings.IndexByte("=+-@\t\r", s[0]) >= 0 {
		return "'" + s
	}
	return s
}

// Grid is the record as rows of cells: name, date, version, verdict and caution, then the values of every trace with their sections, then
// the settings. Numbers have at most 12 significant digits and no groups.
func (r *Record) Grid(d Display) [][]string {
	rows := [][]string{{"Surface texture record", r.Name}, {"Made", r.Made.Time, "furrow " + r.Made.Version, "record " + r.Made.Number}}
	if r.Invented {
		rows = append(rows, []string{"Demonstration", "Invented data. Not a measurement."})
	}
	if v := r.Verdict; v != nil {
		rows = append(rows, []string{"Verdict", string(v.Word), tidy(v.Sentence)})
	}
	rows = append(rows, []string{"Caution", strings.Join(append(append([]string{}, r.Cautions...), standards.Caution), " ")}, nil)
	n := 0
	for _, e := range r.Evaluations {
		for _, v := range e.Values {
			n = max(n, len(v.Sections))
		}
	}
	figure := func(v float64) string {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return ""
		}
		return d.mark(number(rounded(v)))
	}
	head := []string{"Trace", "Symbol", "Value", "Unit"}
	for k := range n {
		head = append(head, "Section "+strconv.Itoa(k+1))
	}
	rows = append(rows, append(head, "Source", "Counts", "Remark"))
	for i, e := range r.Evaluations {
		t := &r.Traces[i]
		counts := joined(": ", map[bool]string{true: "yes", false: "left out"}[t.LeftOut == ""], t.LeftOut)
		for _, v := range e.Values {
			x, unit := d.Value(v.Value, string(v.Unit))
			row := []string{Cell(t.Profile.Name), v.Symbol, figure(x), unit}
			for k := range n {
				s := ""
				if k < len(v.Sections) {
					x, _ := d.Value(v.Sections[k], string(v.Unit))
					s = figure(x)
				}
				row = append(row, s)
			}
			rows = append(rows, append(row, v.Source.String(), Cell(counts), tidy(joined(" ", v.Reason, v.Note))))
		}
	}
	for i, v := range r.Series.Typed {
		x, unit := d.Value(v.Value, r.Series.Unit(v.Symbol))
		remark := ""
		if len(r.Typed) == len(r.Series.Typed) {
			remark = r.Typed[i].From
		}
		row := append([]string{"typed in, no trace", v.Symbol, figure(x), unit}, make([]string, n)...)
		rows = append(rows, append(row, "", "yes", Cell(remark)))
	}
	rows = append(rows, nil)
	for _, s := range r.Rows(d) {
		rows = append(rows, []string{s.Name, Cell(s.Text), s.From})
	}
	for i := range rows {
		if len(rows[i]) == 2 {
			rows[i][1] = Cell(rows[i][1])
		}
	}
	return rows
}

// AppendTSV appends the table of the record as text with tabs between its cells, as a spreadsheet pastes it.
func AppendTSV(b []byte, r *Record, d Display) []byte {
	for _, row := range r.Grid(d) {
		for i, c := range row {
			if i > 0 {
				b = append(b, '\t')
			}
			b = append(b, strings.Join(strings.Fields(c), " ")...)
		}
		b = append(b, '\n')
	}
	return b
}

// AppendCSV appends the table of the record as CSV (RFC 4180): with a decimal comma the cells stand between semicolons.
func AppendCSV(b []byte, r *Record, d Display) []byte {
	var text strings.Builder
	w := csv.NewWriter(&text)
	if d.Comma {
		w.Comma = ';'
	}
	_ = w.WriteAll(r.Grid(d)) // a strings.Builder takes everything
	return append(b, text.String()...)
}

// AppendTable appends the table of the record as an HTML element.
func AppendTable(b []byte, r *Record, d Display) []byte {
	b = append(b, "<table>"...)
	for _, row := range r.Grid(d) {
		b = append(b, "<tr>"...)
		for _, c := range row {
			b = append(b, "<td>"+escaper.Replace(c)+"</td>"...)
		}
		b = append(b, "</tr>\n"...)
	}
	return append(b, "</table>\n"...)
}

// AppendPoints appends the points of each profile of trace i as text with tabs between its columns, after lines that say what they are.
// Lengths and heights are micrometres; a profile that the settings do not make has no column.
func AppendPoints(b []byte, r *Record, i int) []byte {
	e := r.Evaluations[i]
	for _, line := range []string{r.Traces[i].Profile.Name, "made " + r.Made.Time + " with furrow " + r.Made.Version, standards.Caution} {
		b = append(b, "# "+strings.Join(strings.Fields(line), " ")+"\n"...)
	}
	type column struct {
		name string
		z    []float64
	}
	var columns []column
	for _, c := range []column{{"traced", e.Read}, {"primary", e.Primary}, {"waviness", e.Waviness}, {"roughness", e.Roughness}, {"roughness for Rk", e.Stratified}} {
		if c.z != nil {
			columns = append(columns, c)
		}
	}
	b = append(b, "x [µm]"...)
	for _, c := range columns {
		b = append(b, "\t"+c.name+" [µm]"...)
	}
	b = append(b, '\n')
	for k := range e.Read {
		b = strconv.AppendFloat(b, float64(e.First+k)*e.Spacing, 'g', 15, 64)
		for _, c := range columns {
			b = append(b, '\t')
			b = strconv.AppendFloat(b, c.z[k], 'g', -1, 64)
		}
		b = append(b, '\n')
	}
	return b
}
