package main

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/standards"
)

// sine is a trace as text: a sine of the given height, 60 µm long each wave, every half micrometre.
func sine(height, length float64) string {
	var b strings.Builder
	b.WriteString("x (µm),z (µm)\n")
	for i := range int(length * 2) {
		fmt.Fprintf(&b, "%g,%g\n", float64(i)/2, height/2*math.Sin(2*math.Pi*float64(i)/120))
	}
	return b.String()
}

// series is the part of a series that the tests look at.
type series struct {
	Version int `json:"furrow_series"`
	Traces  []struct {
		Name   string
		Values []struct {
			Symbol string
			Value  *float64
			Reason string
		}
		Notes []struct{ Code, Text string }
	}
	Typed   []struct{ Symbol string }
	Summary []struct {
		Symbol         string
		N              int
		Mean, S        *float64
		Min, Max       *float64
		ProposedOutlie []struct {
			Name string
			G    float64
		} `json:"proposed_outliers"`
	}
	Verdict *said
	Caution string
}

func seriesOf(t *testing.T, files map[string]string, args ...string) (int, series) {
	t.Helper()
	code, out, errs := call(t, "", files, append([]string{"-json"}, args...)...)
	if errs != "" {
		t.Fatalf("%v: %s", args, errs)
	}
	var s series
	if err := json.Unmarshal([]byte(out), &s); err != nil {
		t.Fatal(err)
	}
	if s.Version != 1 || s.Caution != standards.Caution {
		t.Errorf("%v: version %d, caution %q", args, s.Version, s.Caution)
	}
	return code, s
}

// Several files are one series under one verdict; the values typed in count too, and the order changes nothing.
func TestSeries(t *testing.T) {
	files := func() map[string]string {
		return map[string]string{"a.csv": sine(3, 4800), "b.csv": sine(3.4, 4800), "c.csv": sine(3.1, 4800), "short.csv": sine(3, 3000)}
	}
	code, s := seriesOf(t, files(), "-callout", "Rz 3,2", "a.csv", "b.csv", "c.csv")
	if code != 0 || len(s.Traces) != 3 || s.Summary[0].N != 3 || s.Verdict.Word != "Does not conform" || !strings.HasSuffix(s.Traces[1].Name, "b.csv") {
		t.Errorf("state %d, %+v", code, s)
	}
	_, turned := seriesOf(t, files(), "-callout", "Rz 3,2", "b.csv", "c.csv", "a.csv")
	if turned.Verdict.Word != s.Verdict.Word || turned.Verdict.Sentence != s.Verdict.Sentence {
		t.Errorf("%q, turned round %q", s.Verdict.Sentence, turned.Verdict.Sentence)
	}
	for _, c := range []struct {
		args      []string
		n         int
		word, why string
	}{
		{[]string{"-callout", "Rz 3,2 T16%", "a.csv", "b.csv", "c.csv"}, 3, "No verdict yet", "more"},
		{[]string{"-callout", "Rz 3,2 T16%", "-typed", "Rz 2.9; 3.1; 2.8", "a.csv", "b.csv", "c.csv"}, 6, "Conforms", ""},
		{[]string{"-callout", "Rz 3,2 Tmed", "a.csv", "b.csv", "c.csv"}, 3, "Conforms", ""},
		{[]string{"-callout", "Rz 3,2 Tmed", "a.csv", "b.csv"}, 2, "No verdict yet", "more"},
		{[]string{"-callout", "Rz 3,2", "-typed", "Rz 3.3", "a.csv"}, 2, "Does not conform", ""},
		{[]string{"-callout", "Rz 3,2", "-typed", "Rz 3"}, 1, "Conforms", ""},
		{[]string{"-callout", "Rz 3,2 T16%", "-typed", "Rz 2.5; 5; 5; 5; 5; 5"}, 6, "Does not conform", ""},
		{[]string{"-callout", "Rz 4 T16%", "-typed", "Rz 5" + strings.Repeat("; 5", 3) + strings.Repeat("; 3", 21)}, 25, "Conforms", ""},
		{[]string{"-callout", "Rz 3,2", "a.csv", "short.csv"}, 2, "No verdict yet", "sections"},
	} {
		_, s := seriesOf(t, files(), c.args...)
		if s.Summary[0].N != c.n || s.Verdict.Word != c.word || s.Verdict.why() != c.why {
			t.Errorf("%v: %d values, %s (%s) %q", c.args, s.Summary[0].N, s.Verdict.Word, s.Verdict.why(), s.Verdict.Sentence)
		}
	}
	if _, s := seriesOf(t, nil, "-typed", "Rz 2.9; 3.1; 2.8; 2.95; 3.0; 4.9"); s.Verdict != nil || len(s.Traces) != 0 || len(s.Typed) != 6 ||
		len(s.Summary) != 1 || len(s.Summary[0].ProposedOutlie) != 1 || s.Summary[0].ProposedOutlie[0].Name != "typed in" || *s.Summary[0].Max != 4.9 {
		t.Errorf("%+v", s)
	}
}

// clipped is a trace of an instrument whose range was too small.
func clipped() string {
	var b strings.Builder
	b.WriteString("x (µm),z (µm)\n")
	for i := range 9600 {
		z := 1.5*math.Sin(2*math.Pi*float64(i)/120) + 0.2*math.Sin(2*math.Pi*float64(i)/7)
		fmt.Fprintf(&b, "%g,%g\n", float64(i)/2, min(max(z, -0.9), 0.9))
	}
	return b.String()
}

// What makes the values of one trace doubtful stands beside the verdict on the series, with the name of the trace, in the table and in JSON.
func TestSeriesDoubt(t *testing.T) {
	files := map[string]string{"a.csv": sine(3, 4800), "clip.csv": clipped()}
	_, out, _ := call(t, "", files, "-callout", "Rz 3,2", "a.csv", "clip.csv")
	if joined := strings.Join(strings.Fields(out), ""); strings.Count(joined, "clip.csv:") != 3 || strings.Count(joined, "peakvaluesfromherearetoosmall") != 2 {
		t.Errorf("%s", out)
	}
	_, s := seriesOf(t, files, "-callout", "Rz 3,2", "a.csv", "clip.csv")
	count := func(i int) (n int) {
		for _, note := range s.Traces[i].Notes {
			if note.Code == "clipped" && strings.Contains(note.Text, "too small") {
				n++
			}
		}
		return n
	}
	if count(0) != 0 || count(1) != 2 {
		t.Errorf("%+v", s.Traces)
	}
}

// A clipped trace leaves no verdict, alone or in a series, in the table, the JSON and the record, until somebody has agreed.
func TestClippedVerdict(t *testing.T) {
	files := map[string]string{"a.csv": sine(1, 4800), "clip.csv": clipped()}
	for _, traces := range [][]string{{"clip.csv"}, {"a.csv", "clip.csv"}} {
		for _, limit := range []string{"-limit", "-callout"} {
			args := append([]string{limit, map[string]string{"-limit": "Rz <= 3.2", "-callout": "Rz 3,2"}[limit]}, traces...)
			_, table, _ := call(t, "", files, args...)
			if line := strings.Join(strings.Fields(table), " "); !strings.Contains(line, "No verdict yet. ") || !strings.Contains(line, "The trace is clipped: ") {
				t.Errorf("%v: %s", args, table)
			}
			agreed := append([]string{"-agreed", "the buyer"}, args...)
			_, table, _ = call(t, "", files, agreed...)
			if line := strings.Join(strings.Fields(table), " "); !strings.Contains(line, "Conforms. ") || !strings.Contains(line, "Judged with clipped heights instead of a trace within the range of the probe, as agreed with the buyer.") {
				t.Errorf("%v: %s", agreed, table)
			}
			_, text, _ := call(t, "", files, append([]string{"-json"}, args...)...)
			var doc struct {
				Verdict struct {
					Word   string
					Why    struct{ Key string }
					Limits []struct{ Unit string }
				}
			}
			if err := json.Unmarshal([]byte(text), &doc); err != nil || doc.Verdict.Word != "No verdict yet" || doc.Verdict.Why.Key != "deviates" || doc.Verdict.Limits[0].Unit != "µm" {
				t.Errorf("%v: %v %+v", args, err, doc)
			}
		}
	}
}

// Traces that come to other settings are refused by name.
func TestMixedSeries(t *testing.T) {
	coarse := "x (µm),z (µm)\n"
	for i := range 4000 {
		coarse += fmt.Sprintf("%d,%g\n", 2*i, math.Sin(float64(i)/5))
	}
	code, out, errs := call(t, "", map[string]string{"a.csv": sine(3, 4800), "coarse.csv": coarse}, "-json", "a.csv", "coarse.csv")
	if code != 2 || out != "" || !strings.Contains(errs, "coarse.csv") || !strings.Contains(errs, "short is none and not gaussian 2.5 µm") {
		t.Errorf("state %d, %q, %q", code, out, errs)
	}
}

// The tables with a verdict fit 80 columns and end with the caution; those without a verdict have none.
func TestVerdictTable(t *testing.T) {
	files := map[string]string{strings.Repeat("long-name-", 12) + ".csv": sine(3, 4800), "b.csv": sine(3.4, 4800)}
	for _, args := range [][]string{
		{"-callout", "Rz 3,2; Ra 0,05"}, {"-callout", "Rz 25", "-agreed", "the customer"}, {"-limit", "Ra <= 63 µin", "-u", "4"},
		{"-callout", "Rz 3,2 T16%", strings.Repeat("long-name-", 12) + ".csv", "b.csv"}, {"-typed", "Rz 2.9; 3.1; 2.8"}, {"-callout", "RSm 0,2 Sc3", "-rule", "median"},
	} {
		code, out, errs := call(t, "", files, args...)
		if code != 0 || errs != "" {
			t.Errorf("%v: state %d, %s", args, code, errs)
		}
		for i, line := range strings.Split(out, "\n") {
			if n := utf8.RuneCountInString(line); n > cli.Width {
				t.Errorf("%v: line %d has %d columns: %s", args, i+1, n, line)
			}
		}
		if !strings.HasSuffix(strings.Join(strings.Fields(out), " "), standards.Caution) {
			t.Errorf("%v: the table ends without the caution:\n%s", args, out)
		}
	}
	// A copy under another name is the same trace.
	files["copy.csv"] = files["b.csv"]
	if _, out, _ := call(t, "", files, "-callout", "Rz 3,2", "b.csv", "copy.csv"); !strings.Contains(strings.Join(strings.Fields(out), ""), "copy.csvhasthesameheightsas") {
		t.Errorf("a copy counts without a word:\n%s", out)
	}
	// What holds for the whole series stands once in the table, what holds for one trace with its name.
	long := strings.Repeat("short-", 20) + ".csv"
	files[long] = sine(3, 400)
	_, out, _ := call(t, "", files, "-callout", "Rz 3,2", "b.csv", "b.csv", long)
	joined := strings.Join(strings.Fields(out), "")
	if strings.Count(joined, "b.csvisgiventwice") != 1 || !strings.Contains(joined, long+":Nothingcouldbeevaluated") || strings.Count(joined, "nomeasuredvalue") != 1 {
		t.Errorf("%s", out)
	}
	for _, line := range strings.Split(out, "\n") {
		if utf8.RuneCountInString(line) > cli.Width {
			t.Errorf("too long: %s", line)
		}
	}
	// Values stand as they were typed.
	if _, out, _ := call(t, "", nil, "-typed", "Rz 3; 3.1"); !strings.Contains(out, " 3\n") || !strings.Contains(out, "mean 3.05 µm") || strings.Contains(out, "3.0000") {
		t.Errorf("%s", out)
	}
	if _, out, _ := call(t, "", nil); strings.Contains(out, "calculation aid") {
		t.Error("a table without a verdict has the caution")
	}
	if _, out, _ := call(t, "", nil, "-callout", "Rz 25", "-agreed", "the customer"); !strings.Contains(out, "Judged with 1 section instead of 5, as agreed with the customer.") {
		t.Errorf("%s", out)
	}
}
