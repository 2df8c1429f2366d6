package record_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"example.com/furrow/filter"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

var noon = time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)

// trace is a demonstration trace, the first points of it.
func trace(i, points int) roughness.Profile {
	d := synth.Demos()[i]
	return roughness.Profile{Z: d.Heights()[:points], Spacing: d.Spacing, Name: d.Key + ".csv"}
}

// rod is an invented sheet with everything in it.
func rod() *record.Sheet {
	gap := trace(0, 9601)
	gap.Z[4000], gap.Z[4001], gap.Z[7] = math.NaN(), math.NaN(), math.Copysign(0, -1)
	gap.Traced = roughness.Traced{Instrument: "bench instrument 2", Skid: roughness.WithoutSkid, TipRadius: 2, ConeAngle: 60, Force: 0.75, Speed: 0.5, Direction: "along the axis", Place: "120 mm from the eye", Date: "2026-03-03"}
	second, third := trace(0, 9601), trace(2, 9601)
	second.Name = "<b>rod & \"place\" 2</b></script>.csv"
	return &record.Sheet{
		Name: "Piston rod 7, lock gate cylinder", Invented: true,
		Asked:    record.Asked{Text: "Rz 3,2", U: "0.12", Prove: "buyer", K: 2},
		Typed:    []record.TypedValue{{Text: "Rz 2.95", From: "place 6, printed by the instrument"}},
		FileOpen: nil,
		Traces: []record.SheetTrace{
			{Profile: gap, File: record.NewFile("rod-place-1.csv", []byte("x;z\n")), Hints: []byte(`{"z_unit":"µm","decimal":","}`), Reading: "delimited text", Notes: []roughness.Note{{Code: "reading", Text: "2 points"}}},
			{Profile: second},
			{Profile: third, LeftOut: "a scratch across the place"},
		},
		Settings: &roughness.Settings{Parameters: []string{"Rz", "Ra", "Rmr(0.5)", "Rk"}, Exclude: []roughness.Exclusion{{From: 1200, To: 1230, Reason: "pore"}}},
		Check:    &record.LatestCheck{Name: "S 14", Date: "2026-02-27", Word: "within"},
		Budget: &record.BudgetUsed{Symbol: "Rz", Unit: "µm", Value: 2.9, U: 0.094, K: 2, Sentence: "An estimate.", Left: []string{"tip: unknown"},
			Lines: []record.InfluenceUsed{{Name: "certificate", Effect: 0.04, Share: 0.72, Source: "own choice"}, {Name: "noise", Effect: 0.025, Share: 0.28}}},
		Blanks: record.Blanks{Part: "Piston rod 7", Operator: "", Remarks: "two lines\nof remarks"},
		Notes:  []roughness.Note{{Code: "requirement", Text: "as read"}},
	}
}

func made(t testing.TB, s *record.Sheet) *record.Record {
	t.Helper()
	r, err := s.Record(noon)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func opened(t testing.TB, data []byte) *record.Opened {
	t.Helper()
	o, err := record.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// A record opens again as it was, comes out the same, and made from what it holds it is the same to the last byte but for its block made.
func TestRecordReopens(t *testing.T) {
	first := made(t, rod())
	data := record.AppendRecord(nil, first)
	o := opened(t, data)
	if o.Made != first.Made || string(o.Word) != string(first.Verdict.Word) {
		t.Errorf("made %+v, word %q", o.Made, o.Word)
	}
	v, err := o.Verify()
	if err != nil || !v.Same {
		t.Fatalf("%v, %v", err, v)
	}
	if again := record.AppendRecord(nil, v.Again); !bytes.Equal(again, data) {
		t.Errorf("made again it differs: %s", firstDifference(data, again))
	}
	v.Again.At(noon.Add(time.Hour))
	later := record.AppendRecord(nil, v.Again)
	cut := func(b []byte) []byte { return b[:bytes.Index(b, []byte("\n \"made\""))] }
	if bytes.Equal(later, data) || !bytes.Equal(cut(later), cut(data)) {
		t.Error("the time belongs into the block made, and nowhere else")
	}
}

func firstDifference(a, b []byte) string {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("at byte %d: %q, %q", i, a[max(0, i-60):min(len(a), i+60)], b[max(0, i-60):min(len(b), i+60)])
		}
	}
	return fmt.Sprintf("%d and %d bytes", len(a), len(b))
}

// The document keeps to its schema, and what is a result in it to the schemas of those.
func TestRecordSchema(t *testing.T) {
	for _, s := range []*record.Sheet{rod(), {}, {Typed: []record.TypedValue{{Text: "Rz 2.9; 3.1"}}, Asked: record.Asked{Text: "Rz 3,2"}}, {Traces: []record.SheetTrace{{Profile: trace(1, 20)}}, Asked: record.Asked{Text: "Rz 3,2 Sc9"}}} {
		data := record.AppendRecord(nil, made(t, s))
		got := valid(t, record.RecordSchema, data)
		if set := got["settings"]; set != nil {
			b, _ := json.Marshal(set)
			valid(t, record.SettingsSchema, b)
		}
		if v := got["verdict"]; v != nil {
			b, _ := json.Marshal(v)
			valid(t, record.VerdictSchema, b)
		}
		if got["caution"] != standards.Caution {
			t.Errorf("caution %v", got["caution"])
		}
		if o := opened(t, data); len(o.Traces) != len(s.Traces) {
			t.Errorf("%d traces", len(o.Traces))
		}
	}
}

// The checksums are those of any other program: of the file's bytes, of the heights, of all that stands before them.
func TestRecordChecksums(t *testing.T) {
	s := rod()
	data := record.AppendRecord(nil, made(t, s))
	o := opened(t, data)
	var doc struct {
		Traces []struct {
			File    *struct{ Sha256 string }
			Heights string `json:"heights_sha256"`
		}
		Sha256 struct{ Record string }
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	hexOf := func(b []byte) string { d := sha256.Sum256(b); return hex.EncodeToString(d[:]) }
	if got, want := doc.Traces[0].File.Sha256, hexOf([]byte("x;z\n")); got != want {
		t.Errorf("file %s, want %s", got, want)
	}
	for i, tr := range o.Traces {
		var b []byte
		for _, v := range s.Traces[i].Profile.Z {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
		}
		if doc.Traces[i].Heights != hexOf(b) {
			t.Errorf("heights of trace %d: %s", i+1, doc.Traces[i].Heights)
		}
		for k, v := range tr.Profile.Z {
			if math.Float64bits(v) != math.Float64bits(s.Traces[i].Profile.Z[k]) && !math.IsNaN(v) {
				t.Fatalf("trace %d: height %d came back as %v", i+1, k, v)
			}
		}
	}
	if got, want := doc.Sha256.Record, hexOf(data[:bytes.Index(data, []byte("\n \"sha256\""))]); got != want {
		t.Errorf("record %s, want %s", got, want)
	}
}

// Every digit counts: a record with one digit changed is refused, wherever it stands, and the error names the block.
func TestRecordChanged(t *testing.T) {
	t.Parallel()
	s := short()
	r := made(t, s)
	for kind, data := range map[string][]byte{"JSON": record.AppendRecord(nil, r), "page": record.AppendPage(nil, r, record.Display{})} {
		var digits []int
		for i, c := range data {
			if c >= '0' && c <= '9' {
				digits = append(digits, i)
			}
		}
		random := rand.New(rand.NewPCG(1, 2))
		refused := map[error]int{}
		for range 150 {
			i := digits[random.IntN(len(digits))]
			copied := bytes.Clone(data)
			copied[i] = '0' + (copied[i]-'0'+1+byte(random.IntN(9)))%10
			_, err := record.Open(copied)
			var e *record.DocumentError
			if err == nil || !errors.As(err, &e) || e.Line < 1 || e.Column < 1 {
				t.Fatalf("%s: a digit changed at byte %d: %v, in %q", kind, i, err, copied[max(0, i-80):i+20])
			}
			for _, reason := range []error{record.ErrChanged, record.ErrVersion} {
				if errors.Is(err, reason) {
					refused[reason]++
				}
			}
		}
		if refused[record.ErrChanged] < 130 {
			t.Errorf("%s: %v", kind, refused)
		}
	}
}

// What was changed is said.
func TestRecordSaysWhatDiffers(t *testing.T) {
	r := made(t, rod())
	data := string(record.AppendRecord(nil, r))
	rz := r.Evaluations[0].Values[0]
	value := fmt.Sprintf(`{"symbol": "Rz", "value": %.11g`, rz.Value)
	if !strings.Contains(data, value) {
		t.Fatalf("no %s", value)
	}
	for _, c := range []struct{ from, to, want string }{
		{value, `{"symbol": "Rz", "value": 2.5`, "Rz, trace 1, ground-rod.csv, is 2.5"},
		{`"word": "` + string(r.Verdict.Word), `"word": "No ` + string(r.Verdict.Word), "the verdict is \"No Conforms\" in the record"},
		{fmt.Sprintf("%v,", r.Traces[1].Profile.Z[100]), "7.5,", "the heights of trace"},
		{`"part": "Piston rod 7"`, `"part": "Piston rod 8"`, "blanks"},
		{`"number": "`, `"number": "0`, "do not belong together"},
		{`"u": "0.12"`, `"u": "0.02"`, "asked"},
	} {
		if strings.Count(data, c.from) < 1 {
			t.Fatalf("%q is not in the record", c.from)
		}
		_, err := record.Open([]byte(strings.Replace(data, c.from, c.to, 1)))
		if !errors.Is(err, record.ErrChanged) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v, want %q", c.to, err, c.want)
		}
	}
}

// A record that is cut short is refused at every length.
func TestRecordCut(t *testing.T) {
	r := made(t, short())
	for kind, data := range map[string][]byte{"JSON": record.AppendRecord(nil, r), "page": record.AppendPage(nil, r, record.Display{})} {
		for k := range 50 {
			_, err := record.Open(data[:len(data)*k/50])
			var e *record.DocumentError
			if !errors.As(err, &e) || e.Line < 1 || k > 0 && !errors.Is(err, record.ErrCut) {
				t.Errorf("%s, %d of 50: %v", kind, k, err)
			}
		}
		if _, err := record.Open(data); err != nil {
			t.Errorf("%s: %v", kind, err)
		}
	}
}

// short is rod with little to calculate.
func short() *record.Sheet {
	s := rod()
	for i := range s.Traces {
		s.Traces[i].Profile.Z = s.Traces[i].Profile.Z[3700:4500]
	}
	s.Settings.Sections, s.Settings.Exclude = 1, nil
	s.Settings.Long.Spec = filter.Spec{Filter: "gaussian", Cutoff: 250}
	return s
}

// What is no record, or none of this version, is refused with its place.
func TestNoRecord(t *testing.T) {
	data := string(record.AppendRecord(nil, made(t, short())))
	page := string(record.AppendPage(nil, made(t, short()), record.Display{}))
	for _, c := range []struct {
		text   string
		reason error
		want   string
	}{
		{"", record.ErrNoRecord, "empty"},
		{"{}", record.ErrNoRecord, "furrow_record"},
		{"[1]", record.ErrNoRecord, "begins"},
		{"hello", record.ErrNoRecord, "begins"},
		{"PK\x03\x04\n more", record.ErrNoRecord, "begins"},
		{"{\"furrow_settings\": 1,\n 5}\n", record.ErrNoRecord, "invalid"},
		{`{"furrow_record": "1"}`, record.ErrNoRecord, "furrow_record"},
		{"<p>\nno page", record.ErrNoRecord, "carries no record"},
		{"\xff\xfe{", record.ErrNoRecord, "begins"},
		{strings.Replace(data, `"asked": {`, `"asked": {,`, 1), record.ErrChanged, "invalid"},
		{strings.Replace(data, `"sha256": {`, `"sha256": {"sha256": 1, "record": 3,`, 1), record.ErrChanged, "sha256"},
		{strings.Replace(data, `"time": "`, `"time": 1, "was": "`, 1), record.ErrChanged, "made.time"},
		{`{"furrow_settings": 1}`, record.ErrNoRecord, "furrow_record"},
		{"x (µm)\tz (µm)\n", record.ErrNoRecord, "begins"},
		{"<!DOCTYPE html>\n<html><body>Ra 0.4</body></html>", record.ErrNoRecord, "carries no record"},
		{strings.Replace(data, `"furrow_record": 1`, `"furrow_record": 2`, 1), record.ErrVersion, "version 2"},
		{strings.Replace(data, `"furrow_record": 1`, `"furrow_record": 0`, 1), record.ErrVersion, "version 0"},
		{strings.Replace(page, "<h1>Piston", "<h1>Pistol", 1), record.ErrChanged, "printed page"},
		{strings.Replace(page, `"text": "Rz 3,2"`, `"text": "Rz 3,5"`, 1), record.ErrChanged, "asked"},
		{data + data, record.ErrChanged, "more after the end"},
	} {
		_, err := record.Open([]byte(c.text))
		var e *record.DocumentError
		if !errors.As(err, &e) || e.Line < 1 || !errors.Is(err, c.reason) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.60q: %v, want %q", c.text, err, c.want)
		}
	}
}

// A page carries the record, needs nothing from outside and no script, and shows texts as texts.
func TestPage(t *testing.T) {
	r := made(t, rod())
	for _, d := range []record.Display{{}, {Comma: true}, {Inch: true}} {
		page := string(record.AppendPage(nil, r, d))
		o := opened(t, []byte(page))
		if v, err := o.Verify(); err != nil || !v.Same {
			t.Errorf("%+v: %v, %v", d, err, v)
		}
		for _, want := range []string{"Surface texture record", "Invented data. Not a measurement.", string(r.Verdict.Word), "&lt;b&gt;rod &amp; &quot;place&quot;", standards.Caution[:40], "Signature", "two lines<br>of remarks",
			"a scratch across the place", "set here; the drawing names none", "standard, ISO 21920-3:2021, 4.4", o.Made.Number, r.Traces[0].File.SHA256, "5 ×"} {
			if !strings.Contains(page, want) {
				t.Errorf("%+v: the page has no %q", d, want)
			}
		}
		for _, no := range []string{"<b>rod", "http://", "https://", "src=", "url(h", "<link", "onload", "NaN", "Inf"} {
			if strings.Contains(strings.ReplaceAll(page, `xmlns="http://www.w3.org/2000/svg"`, ""), no) {
				t.Errorf("%+v: the page has %q", d, no)
			}
		}
		if n := strings.Count(page, "<script"); n != 1 {
			t.Errorf("%d script elements", n)
		}
	}
	page := func(d record.Display) string { return string(record.AppendArticle(nil, r, d)) }
	for _, c := range []struct {
		d    record.Display
		want string
	}{{record.Display{}, "2.92</b></td><td>µm"}, {record.Display{Comma: true}, "2,92</b></td><td>µm"}, {record.Display{Inch: true}, "115</b></td><td>µin"}} {
		if !strings.Contains(page(c.d), c.want) {
			t.Errorf("%+v: no %q", c.d, c.want)
		}
	}
	// The drawing's own unit stands beside its limit.
	if in := page(record.Display{Inch: true}); !strings.Contains(in, "Rz at most 3.2 µm (125.98 µin)") {
		t.Error("the limit does not stand in both units")
	}
}

// What is left out of one trace is left out of that one alone, for every limit: the values that are judged are those of the evaluations.
func TestLeftOutOfOneTrace(t *testing.T) {
	first, second := trace(0, 9601), trace(1, 9601)
	second.Name = "two"
	set := func(from, to float64) *roughness.Settings {
		return &roughness.Settings{Exclude: []roughness.Exclusion{{From: from, To: to, Reason: "pore"}}}
	}
	s := &record.Sheet{Asked: record.Asked{Text: "Rz 3,2; Ra 3"}, Traces: []record.SheetTrace{{Profile: first, Settings: set(1200, 1230)}, {Profile: second, Settings: set(2000, 2040)}}}
	r := made(t, s)
	o := opened(t, record.AppendRecord(nil, r))
	if len(o.Traces[1].Settings.Exclude) != 1 || o.Traces[1].Settings.Exclude[0].From != 2000 || o.Settings.Exclude[0].From != 1200 {
		t.Fatalf("%+v, %+v", o.Settings, o.Traces[1].Settings)
	}
	for i, symbol := range []string{"Rz", "Ra"} {
		for k, p := range []roughness.Profile{first, second} {
			own := *r.Verdict.Limits[i].Settings
			own.Parameters, own.Exclude = []string{symbol}, s.Traces[k].Settings.Exclude
			e, err := roughness.Evaluate(p, &own)
			if err != nil {
				t.Fatal(err)
			}
			if c := r.Verdict.Limits[i].Counted; len(c) != 2 || c[k].Value != e.Values[0].Value {
				t.Errorf("%s of trace %d: %+v, want %v", symbol, k+1, c, e.Values[0].Value)
			}
		}
	}
	if v, err := o.Verify(); err != nil || !v.Same {
		t.Errorf("%v, %v", err, v)
	}
}

// The strip shows what the values are: the lines of Rz lie as far apart as the value of the section, those of Ra at it on both sides.
func TestStrip(t *testing.T) {
	e, err := roughness.Evaluate(trace(0, 9601), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, symbol := range []string{"Rz", "Rp", "Rv", "Ra", "Rq", "Rk"} {
		d := record.Strip(e, symbol)
		v, _ := e.Value(symbol)
		if (len(d.Levels) == 0) != (symbol == "Rk") || len(d.Levels) > 0 && symbol != "Rq" && !d.Added {
			t.Fatalf("%s: %+v", symbol, d.Levels)
		}
		for k, l := range d.Levels {
			want := map[string]float64{"Rz": l[1] - l[0], "Rp": l[1], "Rv": -l[0], "Ra": l[1], "Rq": -l[0]}[symbol]
			if math.Abs(want-v.Sections[k]) > 1e-12 {
				t.Errorf("%s, section %d: lines at %v for %v", symbol, k+1, l, v.Sections[k])
			}
		}
		p := d.Draw(figure.Options{Width: 680})
		if p.Desc == "" || strings.Contains(p.SVG, "NaN") || len(p.Table.Rows) != 5 || p.Height > 196 {
			t.Errorf("%s: %d high, %q", symbol, p.Height, p.Desc)
		}
	}
}

// A page says how the ends are treated where it is not what is usual.
func TestPageNamesEnds(t *testing.T) {
	for ends, want := range map[string]bool{"": false, "retain": false, "line-symmetric": true} {
		named := "; ends: "
		if want {
			named += "mirror the trace"
		}
		s := rod()
		s.Settings = &roughness.Settings{Long: roughness.Band{Spec: filter.Spec{Filter: "gaussian", Cutoff: 800, Ends: ends}}}
		if got := strings.Contains(string(record.AppendArticle(nil, made(t, s), record.Display{})), named); got != want {
			t.Errorf("ends %q: named %v, want %v", ends, got, want)
		}
	}
}
