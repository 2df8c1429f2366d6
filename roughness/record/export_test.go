package record_test

import (
	"encoding/csv"
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// The table has name, date, version, verdict and caution before the values; every value of every trace stands in it with its unit, as many
// digits as the record has, and the decimal mark that is asked for. As CSV, TSV and HTML it has the same cells.
func TestTables(t *testing.T) {
	s := rod()
	s.Name = "=1+2"
	r := made(t, s)
	for _, d := range []record.Display{{}, {Comma: true}, {Inch: true}} {
		grid := r.Grid(d)
		c := csv.NewReader(strings.NewReader(string(record.AppendCSV(nil, r, d))))
		c.FieldsPerRecord = -1
		if d.Comma {
			c.Comma = ';'
		}
		rows, err := c.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		tsv := strings.Split(strings.TrimSuffix(string(record.AppendTSV(nil, r, d)), "\n"), "\n")
		var html struct {
			Rows []struct {
				Cells []string `xml:"td"`
			} `xml:"tr"`
		}
		if err := xml.Unmarshal(record.AppendTable(nil, r, d), &html); err != nil {
			t.Fatal(err)
		}
		if len(tsv) != len(grid) || len(html.Rows) != len(grid) {
			t.Fatalf("%d rows, %d with tabs, %d in HTML", len(grid), len(tsv), len(html.Rows))
		}
		k := 0 // encoding/csv leaves out empty lines
		for i, row := range grid {
			if strings.Join(html.Rows[i].Cells, "|") != strings.Join(row, "|") {
				t.Errorf("HTML %q, want %q", html.Rows[i].Cells, row)
			}
			if got := strings.Join(strings.Split(tsv[i], "\t"), "|"); strings.Join(strings.Fields(got), " ") != strings.Join(strings.Fields(strings.Join(row, "|")), " ") {
				t.Errorf("TSV %q, want %q", got, row)
			}
			if len(row) > 0 {
				if strings.Join(rows[k], "|") != strings.Join(row, "|") {
					t.Errorf("CSV %q, want %q", rows[k], row)
				}
				k++
			}
		}
		text := strings.Join(tsv, "\n")
		for _, want := range []string{"'=1+2", "2026-11-27T12:00:00Z", "furrow " + record.Version, r.Made.Number, "Verdict\t" + string(r.Verdict.Word), standards.Caution, "Invented data", "left out: a scratch across the place", "typed in, no trace"} {
			if !strings.Contains(text, want) {
				t.Errorf("%+v: no %q", d, want)
			}
		}
		mark := func(s string) string {
			if d.Comma {
				s = strings.Replace(s, ".", ",", 1)
			}
			return s
		}
		for i, e := range r.Evaluations {
			for _, v := range e.Values {
				x, unit := d.Value(v.Value, string(v.Unit))
				want := r.Traces[i].Profile.Name + "\t" + v.Symbol + "\t" + mark(strconv.FormatFloat(standards.RoundDigits(x, 12), 'f', -1, 64)) + "\t" + unit
				if !math.IsNaN(x) && !strings.Contains(text, want) {
					t.Errorf("%+v: no %q", d, want)
				}
			}
		}
		if d.Inch && strings.Contains(text, "\tµm\t") {
			t.Error("µm among the inches")
		}
	}
}

// The points of each profile are those of the evaluation, to the last bit, and the roughness profile is the primary one less the waviness.
func TestPoints(t *testing.T) {
	r := made(t, rod())
	lines := strings.Split(strings.TrimSpace(string(record.AppendPoints(nil, r, 0))), "\n")
	e := r.Evaluations[0]
	if len(lines) != 4+len(e.Read) || !strings.Contains(lines[2], standards.Caution) || lines[3] != "x [µm]\ttraced [µm]\tprimary [µm]\twaviness [µm]\troughness [µm]\troughness for Rk [µm]" {
		t.Fatalf("%d lines, head %q", len(lines), lines[:4])
	}
	for i, line := range lines[4:] {
		var row []float64
		for _, c := range strings.Split(line, "\t") {
			v, err := strconv.ParseFloat(c, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, v)
		}
		if row[0] != float64(e.First+i)*e.Spacing || row[1] != e.Read[i] || row[2] != e.Primary[i] || row[3] != e.Waviness[i] || row[4] != e.Roughness[i] || row[5] != e.Stratified[i] {
			t.Fatalf("point %d: %v", i, row)
		}
	}
}

// Numbers for people: significant digits, never powers of ten, a minus as a reader expects it, inches where they are asked for.
func TestDisplay(t *testing.T) {
	for _, c := range []struct {
		d    record.Display
		v    float64
		n    int
		want string
	}{
		{record.Display{}, 2.9197, 3, "2.92"}, {record.Display{}, 9.999, 3, "10.0"}, {record.Display{}, 0.0999949, 3, "0.100"}, {record.Display{}, -0.4409, 3, "−0.441"},
		{record.Display{}, 1788.2, 3, "1788"}, {record.Display{}, 0, 3, "0.00"}, {record.Display{Comma: true}, 2.9197, 4, "2,920"}, {record.Display{}, math.NaN(), 3, "–"}, {record.Display{}, 2.675, 3, "2.68"},
	} {
		if got := c.d.Figure(c.v, c.n); got != c.want {
			t.Errorf("%v to %d digits: %q, want %q", c.v, c.n, got, c.want)
		}
	}
	// 25.4 mm to the inch, exactly (international yard and pound agreement, 1959; from memory).
	for _, c := range []struct {
		v          float64
		unit, want string
		to         float64
	}{{0.0254, "µm", "µin", 1}, {25.4, "µm", "µin", 1000}, {2, "1/mm", "1/in", 50.8}, {10, "1/10 mm", "1/in", 25.4}, {7, "%", "%", 7}, {7, "", "", 7}} {
		if v, unit := (record.Display{Inch: true}).Value(c.v, c.unit); math.Abs(v-c.to) > 1e-12*c.to || unit != c.want {
			t.Errorf("%v %s: %v %s", c.v, c.unit, v, unit)
		}
	}
	for um, want := range map[float64]string{800: "0.0314961 in", 2.54: "100 µin", 25400: "1 in", 49.9999: "1968.5 µin", 50: "0.0019685 in"} {
		if got := (record.Display{Inch: true}).Length(um); got != want {
			t.Errorf("%v µm: %q, want %q", um, got, want)
		}
	}
	for um, want := range map[float64]string{2.5: "2.5 µm", 49: "49 µm", 50: "0.05 mm", 800: "0.8 mm"} {
		if got := (record.Display{}).Length(um); got != want {
			t.Errorf("%v µm: %q, want %q", um, got, want)
		}
	}
	if got := (record.Display{Comma: true}).Length(800); got != "0,8 mm" {
		t.Errorf("%q", got)
	}
}

// What is true of a record is said on it, and what is not is not said.
func TestCautions(t *testing.T) {
	for _, c := range []struct {
		change func(s *record.Sheet)
		says   string
	}{
		{func(s *record.Sheet) { s.Invented = true }, "Invented data. Not a measurement."},
		{func(s *record.Sheet) { s.Traces = s.Traces[:1] }, "One trace is one place"},
		{func(s *record.Sheet) { s.Traces = s.Traces[:2] }, "Two traces; three are usual"},
		{func(s *record.Sheet) { s.Asked.U = "" }, "Simple acceptance"},
		{func(s *record.Sheet) { s.Asked.Agreed = "the customer"; s.Settings.Sections = 3 }, "Judged with 3 sections instead of 5, as agreed with the customer"},
		{func(s *record.Sheet) { s.Traces[2].LeftOut = "a scratch" }, "Something was left out"},
		{func(s *record.Sheet) {
			s.Settings.Exclude = []roughness.Exclusion{{From: 1000, To: 1010, Reason: "pore"}}
		}, "Something was left out"},
		{func(s *record.Sheet) { s.Typed = []record.TypedValue{{Text: "Rz 2.9"}} }, "Values were typed in"},
		{func(s *record.Sheet) { s.Check = nil }, "Specimen check: none kept."},
		{func(s *record.Sheet) { s.Check.Word = "outside" }, "is not within its allowance: outside"},
		{func(s *record.Sheet) { s.Check.Date = "2026-01-03" }, "older than 30 days"},
		{func(s *record.Sheet) { s.Traces[0].Profile.Traced.TipRadius = 10 }, "The tip has a radius of 10 µm; with a cut-off of 0.8 mm it should have at most 2 µm"},
		{func(s *record.Sheet) { s.Traces[1].Profile.Spacing = 0.6 }, "The points are 0.6 µm apart"},
		{func(s *record.Sheet) { s.Traces[0].Profile.Traced.Skid = roughness.WithSkid }, "Traced with a skid"},
	} {
		sheet := func() *record.Sheet {
			s := &record.Sheet{Asked: record.Asked{Text: "Rz 3,2", U: "0.12"}, Check: &record.LatestCheck{Name: "S 14", Date: "2026-02-27", Word: "within"}, Blanks: record.Blanks{Date: "2026-03-03"}}
			s.Settings = &roughness.Settings{}
			for range 3 {
				s.Traces = append(s.Traces, record.SheetTrace{Profile: trace(0, 9601)})
			}
			return s
		}
		plain, changed := sheet(), sheet()
		c.change(changed)
		if text := strings.Join(made(t, plain).Cautions, " "); strings.Contains(text, c.says) {
			t.Errorf("%q is said of every record: %s", c.says, text)
		}
		r := made(t, changed)
		if text := strings.Join(r.Cautions, " "); !strings.Contains(text, c.says) {
			t.Errorf("no %q in %s", c.says, text)
		}
		if page := string(record.AppendArticle(nil, r, record.Display{})); !strings.Contains(page, c.says) || r.Verdict.Word == decide.Conforms && !strings.Contains(page, "Conforms") {
			t.Errorf("the page does not say %q", c.says)
		}
	}
}
