package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
)

// rods are trace files of the demonstration, written into a new folder.
func rods(t *testing.T, n int) []string {
	t.Helper()
	dir := t.TempDir()
	var names []string
	for i := range n {
		d := synth.Demos()[i]
		var b bytes.Buffer
		tr := &tracefile.Trace{}
		tr.Profile.Z, tr.Profile.Spacing = d.Heights(), d.Spacing
		if err := tracefile.WriteText(&b, tr); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(dir, d.Key+".txt")
		if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		names = append(names, name)
	}
	return names
}

var noon = time.Date(2026, 11, 27, 12, 0, 0, 0, time.UTC)

func readFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// What a run writes into its record is what it prints: settings and verdict to the last digit but the twelfth, whatever was asked. The
// record is the same with and without -json, and verifying it says that it comes out the same.
func TestRecordFlag(t *testing.T) {
	files := rods(t, 3)
	dir := t.TempDir()
	for i, args := range [][]string{
		nil,
		{files[0]},
		{"-callout", "Rz 3,2", files[0]},
		{"-callout", "Rz 3,2", "-u", "0.12", "-prove", "buyer", "-guard", "1998", files[0]},
		{"-callout", "Rz 12,5", "-settings", "OLDER", files[1]},
		{"-callout", "U Rz 3,2 / L Ra 0,1", "-u", "Rz 0.12; Ra 0.02", files[0], files[2]},
		{"-callout", "Rz 25", "-settings", "SETTINGS", "-agreed", "the customer", files[0]},
		{"-callout", "Rz 25", "-settings", "SETTINGS", files[0]},
		{"-limit", "Rz <= 126 µin; Ra >= 0.1", "-rule", "16%", "-typed", "Rz 2.9 µm; 3.1 µm", files[0]},
		{"-callout", "Rz 3,2", "-limit", "Rz <= 3", files[0]},
		{"-callout", "RSm 0,2", files[0]},
		{"-typed", "Rz 2.9; 3.1; 2.8", "-callout", "Rz 3,2 Tmed"},
		{"-callout", "Wt 4", files[1]},
		{"-callout", "Rz 3,2", "-units", "inch", files[0]},
	} {
		for k := range args {
			if text := map[string]string{"SETTINGS": `{"sections": 3, "exclude": [{"from": 1200, "to": 1230, "reason": "pore"}]}`, "OLDER": `{"edition": "iso-4287"}`}[args[k]]; text != "" {
				args[k] = filepath.Join(dir, "settings.json")
				if err := os.WriteFile(args[k], []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
		kept, page := filepath.Join(dir, "r.json"), filepath.Join(dir, "r.html")
		code, out, errs := call(t, "", nil, append([]string{"-json", "-record", kept}, args...)...)
		if errs != "" || code != 0 {
			t.Fatalf("%v: state %d, %s", args, code, errs)
		}
		if _, table, errs := call(t, "", nil, append([]string{"-record", page}, args...)...); errs != "" || table == "" {
			t.Fatalf("%v: %s", args, errs)
		}
		var printed, written struct {
			Settings json.RawMessage
			Verdict  *verdict
		}
		if err := json.Unmarshal([]byte(out), &printed); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(readFile(t, kept), &written); err != nil {
			t.Fatal(err)
		}
		if a, b := compact(t, printed.Settings), compact(t, written.Settings); a != b && !(a == "{}" && b == "null") {
			t.Errorf("%v: settings %s\nin the record %s", args, a, b)
		}
		if (printed.Verdict == nil) != (written.Verdict == nil) {
			t.Fatalf("%v: verdict %v, in the record %v", args, printed.Verdict, written.Verdict)
		}
		if printed.Verdict != nil {
			a, _ := json.Marshal(printed.Verdict)
			b, _ := json.Marshal(written.Verdict)
			if string(a) != string(b) {
				t.Errorf("%v: verdict %s\nin the record %s", args, a, b)
			}
		}
		first, err := record.Open(readFile(t, kept))
		if err != nil {
			t.Fatalf("%v: %v", args, err)
		}
		second, err := record.Open(readFile(t, page))
		if err != nil {
			t.Fatalf("%v: %v", args, err)
		}
		if a, b := record.AppendSheet(nil, &first.Sheet), record.AppendSheet(nil, &second.Sheet); !bytes.Equal(a, b) {
			t.Errorf("%v: the record differs with -json", args)
		}
		for _, name := range []string{kept, page} {
			code, out, errs := call(t, "", nil, "-verify", name)
			if code != 0 || errs != "" || !strings.Contains(out, "come out the same") || !strings.Contains(out, "A calculation aid") {
				t.Errorf("%v: state %d, %s%s", args, code, out, errs)
			}
		}
		if i == 0 && (!first.Invented || first.Traces[0].File != nil) || i == 1 && (first.Invented || first.Traces[0].File.SHA256 != record.NewFile("", readFile(t, files[0])).SHA256) {
			t.Errorf("%v: invented %v, %+v", args, first.Invented, first.Traces[0].File)
		}
	}
}

// verdict is what of a verdict does not depend on the twelfth digit.
type verdict struct {
	Word, Acceptance, Prove, Rule string
	Guard                         *string
	Values, More                  int
	Agreed                        []struct{ Key, Asked, Used, With string }
	Open                          []struct{ Key string }
	Limits                        []struct {
		Symbol, Side, Text, Unit, Rule, Word string
		Limit                                *float64
		Values, More                         int
	}
}

func compact(t *testing.T, raw json.RawMessage) string {
	t.Helper()
	var b bytes.Buffer
	if err := json.Compact(&b, raw); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// A record that does not come out the same is state 1 with what differs; one that was changed is state 2 with its place and nothing on
// standard output.
func TestVerify(t *testing.T) {
	dir := t.TempDir()
	kept := filepath.Join(dir, "r.json")
	if code, _, errs := call(t, "", nil, "-callout", "Rz 3,2", "-record", kept); code != 0 {
		t.Fatal(errs)
	}
	data := readFile(t, kept)
	write := func(b []byte) string {
		name := filepath.Join(dir, "changed.json")
		if err := os.WriteFile(name, b, 0o644); err != nil {
			t.Fatal(err)
		}
		return name
	}
	code, out, errs := call(t, "", nil, "-verify", write(bytes.Replace(data, []byte(`"text": "Rz 3,2"`), []byte(`"text": "Rz 3,5"`), 1)))
	if code != 2 || out != "" || strings.Count(errs, "\n") != 1 || !strings.Contains(errs, "changed.json:5:11: asked: the record was changed") {
		t.Errorf("state %d, %s%s", code, out, errs)
	}
	code, out, errs = call(t, "", nil, "-verify", write(data[:len(data)/2]))
	if code != 2 || out != "" || !strings.Contains(errs, "cut short") {
		t.Errorf("state %d, %s%s", code, out, errs)
	}
	// The same record from a furrow that calculated something else: made by hand, with checksums that belong to it.
	o, err := record.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	other := o.Sheet
	other.Asked.Text = "Rz 2,5"
	r, err := other.Record(noon)
	if err != nil {
		t.Fatal(err)
	}
	r.Asked.Text = "Rz 3,2"
	r.Evaluations[0].Values[0].Value *= 1.01
	r.At(noon)
	name := write(record.AppendRecord(nil, r))
	code, out, errs = call(t, "", nil, "-verify", name)
	for _, want := range []string{"does not come out the same", "Rz, trace 1,", "limit of limit 1, Rz, is 2.5", `the verdict is "Does not conform" in the record and "Conforms"`, "A calculation aid"} {
		if flat := strings.Join(strings.Fields(out), " "); code != 1 || errs != "" || !strings.Contains(flat, want) {
			t.Errorf("state %d, %q, want %q; %s", code, flat, want, errs)
		}
	}
	for i, line := range strings.Split(out, "\n") {
		if n := utf8.RuneCountInString(line); n > cli.Width {
			t.Errorf("line %d has %d columns", i+1, n)
		}
	}
	code, out, errs = call(t, "", nil, "-verify", name, "-json")
	var doc struct {
		Same        bool
		Differences []struct{ What, Then, Now string }
		Caution     string
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil || code != 1 || errs != "" || doc.Same || len(doc.Differences) < 2 || doc.Caution != standards.Caution {
		t.Errorf("state %d, %v, %s%s", code, err, out, errs)
	}
}

// A record never writes over what is read, and a name that cannot be written is one line.
func TestRecordRefusals(t *testing.T) {
	dir := t.TempDir()
	trace := filepath.Join(dir, "trace.json")
	if err := os.WriteFile(trace, []byte("x (µm)\tz (µm)\n0\t1\n1\t2\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"-record", trace, trace}, "would write over it"},
		{[]string{"-settings", trace, "-record", trace}, "would write over it"},
		{[]string{"-record", filepath.Join(dir, "no", "r.json")}, "no such file"},
		{[]string{"-record", filepath.Join(dir, "r.txt")}, "ends in"},
	} {
		code, out, errs := call(t, "", nil, c.args...)
		if code != 2 || out != "" || strings.Count(errs, "\n") != 1 || !strings.Contains(errs, c.says) {
			t.Errorf("%v: state %d, %q %q, want %q", c.args, code, out, errs, c.says)
		}
	}
}

// Inches are for people: µin and in in the table, limit and value in both units, and µm in the JSON.
func TestInches(t *testing.T) {
	_, metric, _ := call(t, "", nil, "-json", "-callout", "Rz 3,2")
	if _, out, _ := call(t, "", nil, "-json", "-units", "inch", "-callout", "Rz 3,2"); out != metric {
		t.Error("-units inch changes the JSON")
	}
	code, out, errs := call(t, "", nil, "-units", "inch", "-callout", "Rz 3,2")
	for _, want := range []string{"Rz               114.95 µin", "19.685 µin", "5 sections of 0.0314961 in", "Rz at most 3.2 µm.", "The limit 3.2 µm is 125.98 µin, the value 114.95 µin."} {
		if code != 0 || !strings.Contains(out, want) {
			t.Errorf("state %d, %s, no %q in\n%s", code, errs, want, out)
		}
	}
	_, table, _ := strings.Cut(out, "symbol")
	if table, _, _ = strings.Cut(table, "\n\n"); table == "" || strings.Contains(table, "µm") {
		t.Errorf("µm in the table:\n%s", table)
	}
	code, out, _ = call(t, "", nil, append([]string{"-units", "inch", "-typed", "Rz 110 µin", "-limit", "Rz <= 126 µin"}, rods(t, 2)...)...)
	for _, want := range []string{"114.95", "typed in", "110", "µin, s "} {
		if code != 0 || !strings.Contains(out, want) {
			t.Errorf("state %d, no %q in\n%s", code, want, out)
		}
	}
}
