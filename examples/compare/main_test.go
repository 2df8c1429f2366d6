package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// folder holds the demonstration as rod.tsv, a short trace, settings and files that cannot be read.
func folder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	d := synth.Demos()[0]
	var rod strings.Builder
	for i, z := range d.Heights() {
		fmt.Fprintf(&rod, "%.9g\t%.9g\n", float64(i)*d.Spacing, z)
	}
	for name, text := range map[string]string{
		"rod.tsv": rod.String(), "short.tsv": "0\t1\n1\t2\n2\t1\n3\t2\n4\t1\n5\t1\n", "hints.json": `{"x_unit": "µm", "z_unit": "µm"}`,
		"three.json": `{"sections": 3, "short": null}`, "wrong.json": "{\"sections\":\n \"many\"}", "never.json": `{"edition": "iso-1"}`,
		"empty.json": `{"furrow_result": 2}`, "stated.tsv": "Rz = 3.03 µm\nRa = 0.408 µm\nPt = 9.1 µm\n" + rod.String(),
		"broken.tsv": "0\t1\n0.5\t1,2,3e\n1\t2\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(dir)
	return dir
}

func call(args ...string) (int, string, string) {
	var out, errs bytes.Buffer
	code := run(context.Background(), args, strings.NewReader(""), &out, &errs)
	return code, out.String(), errs.String()
}

// ask runs the command with the demonstration.
func ask(t *testing.T, args ...string) map[string]any {
	t.Helper()
	return about(t, "rod.tsv", args...)
}

// about runs it with a file.
func about(t *testing.T, file string, args ...string) map[string]any {
	t.Helper()
	code, out, errs := call(append(args, "-json", "-text", "hints.json", file)...)
	var v map[string]any
	if err := json.Unmarshal([]byte(out), &v); err != nil || code != 0 || errs != "" {
		t.Fatalf("%q: %d, %s, %v", args, code, errs, err)
	}
	if v["caution"] != standards.Caution {
		t.Errorf("%q: caution %v", args, v["caution"])
	}
	return v
}

func TestAnswers(t *testing.T) {
	folder(t)
	shares := ask(t, "-against", "three.json", "-symbol", "Rz")
	sum := 0.0
	for _, c := range shares["changes"].([]any) {
		sum += c.(map[string]any)["share"].(float64)
	}
	if whole := shares["b"].(float64) - shares["a"].(float64); shares["furrow_shares"] != 1.0 || math.Abs(sum-whole) > 1e-9 || whole == 0 {
		t.Errorf("shares %g of %g", sum, whole)
	}
	d := synth.Demos()[0]
	three, err := record.ParseSettings([]byte(`{"sections": 3, "short": null}`))
	if err != nil {
		t.Fatal(err)
	}
	r, err := (&record.Sheet{Settings: three, Traces: []record.SheetTrace{{Profile: roughness.Profile{Z: d.Heights(), Spacing: d.Spacing}}}}).Record(time.Unix(0, 0))
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string][]byte{"r.json": record.AppendRecord(nil, r), "r.html": record.AppendPage(nil, r, record.Display{}), "result.json": record.AppendResult(nil, r.Evaluations[0], nil)} {
		if err := os.WriteFile(name, text, 0o666); err != nil {
			t.Fatal(err)
		}
		if same := ask(t, "-against", name, "-symbol", "Rz"); math.Abs(same["b"].(float64)-shares["b"].(float64)) > 1e-9 {
			t.Errorf("%s: %v", name, same)
		}
		if other := ask(t, "-settings", name, "-symbol", "Rz"); math.Abs(other["a"].(float64)-shares["b"].(float64)) > 1e-9 {
			t.Errorf("%s: %v", name, other)
		}
		if code, out, errs := call("-settings", name, "-symbol", "Rz", "-text", "hints.json", "rod.tsv"); code != 0 || !strings.Contains(out, "5 sections instead of 3") {
			t.Errorf("%s: %d, %s%s", name, code, out, errs)
		}
		if err := os.WriteFile("cut", text[:len(text)/2], 0o666); err != nil {
			t.Fatal(err)
		}
		if code, out, errs := call("-against", "cut", "-symbol", "Rz", "-text", "hints.json", "rod.tsv"); code != 2 || out != "" || !strings.HasPrefix(errs, "compare: cut:") {
			t.Errorf("cut %s: %d, %s%s", name, code, out, errs)
		}
	}
	fits := ask(t, "-printed", "Rz 3.03; Ra 0.408", "-most", "3")
	if list := append(fits["fits"].([]any), fits["nearest"].([]any)...); fits["furrow_finding"] != 1.0 || len(list) == 0 || len(list) > 5 || fits["tried"].(float64) < 500 {
		t.Errorf("%v", fits["sentences"])
	}
	stated := about(t, "stated.tsv")
	if !reflect.DeepEqual(stated["sentences"], fits["sentences"]) || !reflect.DeepEqual(stated["printed"], fits["printed"]) {
		t.Errorf("what the file states: %v", stated["sentences"])
	}
	editions := ask(t, "-callout", "Rz 12", "-editions", "iso-4287, iso-21920")
	if r := editions["readings"].([]any); editions["furrow_editions"] != 1.0 || len(r) != 2 || r[1].(map[string]any)["verdict"].(map[string]any)["word"] != "Conforms" {
		t.Errorf("%v", editions["differences"])
	}
	if len(editions["notes"].([]any)) != 0 {
		t.Errorf("%v", editions["notes"])
	}
	steady := ask(t, "-steady", "-symbol", "Rz")
	if v := steady["values"].([]any); steady["furrow_steadiness"] != 1.0 || len(v) != 1 || v[0].(map[string]any)["digits"] != 2.0 {
		t.Errorf("%v", steady)
	}
}

// A clipped trace conforms in no edition, and says why, with where.
func TestEditionsOfClipped(t *testing.T) {
	folder(t)
	var clip strings.Builder
	for i, z := range synth.Demos()[0].Heights() {
		fmt.Fprintf(&clip, "%.9g\t%.9g\n", float64(i)/2, math.Min(z, 0.5))
	}
	if err := os.WriteFile("clip.tsv", []byte(clip.String()), 0o666); err != nil {
		t.Fatal(err)
	}
	args := []string{"-callout", "Rz 12", "-editions", "iso-4287,iso-21920"}
	doc := about(t, "clip.tsv", args...)
	for _, r := range doc["readings"].([]any) {
		if v := r.(map[string]any)["verdict"].(map[string]any); v["word"] != "No verdict yet" || !strings.Contains(v["sentence"].(string), "The trace is clipped: ") {
			t.Errorf("%v", v)
		}
	}
	if n := doc["notes"].([]any); len(n) != 1 || n[0].(map[string]any)["code"] != "clipped" {
		t.Errorf("%v", n)
	}
	_, out, _ := call(append(args, "-text", "hints.json", "clip.tsv")...)
	if !strings.Contains(strings.Join(strings.Fields(out), " "), "the range of the instrument seems to end there. Measure again with a larger range") {
		t.Errorf("%s", out)
	}
}

// Tables fit 80 columns, and carry the caution.
func TestTables(t *testing.T) {
	folder(t)
	for _, args := range [][]string{{"-against", "three.json", "-symbol", "Rz"}, {"-settings", "three.json", "-symbol", "Ra"}, {"-printed", "Ra 99.0"}, {"-printed", "Rz 2.92; Ra 0.406"},
		{"-callout", "Rz 12; Rk 2", "-editions", "iso-4287,iso-21920"}, {"-callout", "-0,8/Ra3 1,6", "-editions", "iso-21920,iso-4287"}, {"-steady"}, {"-steady", "-symbol", "Rz"}} {
		code, out, errs := call(append(args, "-text", "hints.json", "rod.tsv")...)
		if code != 0 || errs != "" || !strings.Contains(strings.Join(strings.Fields(out), " "), standards.Caution) {
			t.Errorf("%q: %d, %s, %s", args, code, out, errs)
		}
		for line := range strings.Lines(out) {
			if utf8.RuneCountInString(strings.TrimSuffix(line, "\n")) > 80 {
				t.Errorf("%q: more than 80 characters: %s", args, line)
			}
		}
	}
	if code, out, _ := call("-h"); code != 0 || !strings.HasPrefix(out, "usage: compare") {
		t.Errorf("-h: %d, %s", code, out)
	}
	// Read, but not possible: the document is printed with the reason.
	for _, args := range [][]string{{"-steady"}, {"-against", "three.json", "-symbol", "Rz"}, {"-printed", "Rz 3.0"}, {"-callout", "Rz 3", "-editions", "iso-4287,iso-21920"}} {
		args = append(args, "-text", "hints.json", "short.tsv")
		if code, out, errs := call(args...); code != 1 || out == "" || errs != "" {
			t.Errorf("%q: %d, %s, %s", args, code, out, errs)
		}
		if code, out, _ := call(append([]string{"-json"}, args...)...); code != 1 || !json.Valid([]byte(out)) {
			t.Errorf("%q with -json: %d, %s", args, code, out)
		}
	}
}

// Bad usage and unreadable input are one line on standard error with the place, status 2, and nothing on standard output.
func TestRefusals(t *testing.T) {
	folder(t)
	read := []string{"-text", "hints.json", "rod.tsv"}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"-text", "hints.json", "rod.tsv"}, "no question, and the file states no result"}, {[]string{"-settings", "empty.json", "-symbol", "Rz", "-text", "hints.json", "rod.tsv"}, "empty.json:1:1: settings: the document holds no settings"}, {[]string{"-steady"}, "one FILE is needed, not 0"}, {[]string{"-steady", "a", "b"}, "one FILE"}, {[]string{"-steady", "rod.tsv", "-json"}, "one FILE"},
		{[]string{"-steady", "-printed", "Ra 1", "rod.tsv"}, "one question"}, {[]string{"-against", "three.json", "rod.tsv"}, "give -symbol"},
		{[]string{"-symbol", "Rz", "rod.tsv"}, "-symbol goes with"}, {[]string{"-callout", "Rz 3", "rod.tsv"}, "go together"}, {[]string{"-editions", "a,b", "rod.tsv"}, "go together"},
		{[]string{"-periodic", "-steady", "rod.tsv"}, "-periodic goes with"}, {[]string{"-most", "-1", "-printed", "Ra 1", "rod.tsv"}, "-most"}, {[]string{"-printed", " ", "rod.tsv"}, "-printed is empty"},
		{[]string{"-x", "rod.tsv"}, "-x"}, {[]string{"-steady", "none.tsv"}, "none.tsv: "}, {[]string{"-steady", ""}, "FILE is empty"},
		{[]string{"-steady", "rod.tsv"}, "rod.tsv:1:1: "}, {[]string{"-steady", "-text", "hints.json", "broken.tsv"}, "broken.tsv:2:"},
		{append([]string{"-steady", "-settings", "wrong.json"}, read...), "wrong.json:2:2: sections: "},
		{append([]string{"-steady", "-settings", "never.json"}, read...), "never.json:1:13: edition: "},
		{append([]string{"-against", "never.json", "-symbol", "Rz"}, read...), "never.json:1:13: edition: "},
		{append([]string{"-settings", "never.json", "-printed", "Rz 3"}, read...), "never.json:1:13: edition: "},
		{append([]string{"-steady", "-symbol", "Rfoo"}, read...), "Rfoo"},
		{append([]string{"-printed", "Rz 3; Rfoo 2"}, read...), "-printed:1:7: "},
		{append([]string{"-callout", "Rz 3 foo", "-editions", "iso-4287,iso-21920"}, read...), "-callout:1:6: "},
		{append([]string{"-callout", "Rz 3", "-editions", "iso-4287"}, read...), "two editions"},
		{append([]string{"-callout", "Rz 3", "-editions", "iso-4287,iso-1"}, read...), `-editions: no edition is called "iso-1"; there are iso-21920, iso-4287, `},
		{append([]string{"-callout", "Rz 3", "-editions", "iso-4287, iso-4287"}, read...), "named twice"},
		{append([]string{"-printed", "Rsk -0.4; Rz -3"}, read...), "-printed:1:11: Rz cannot be -3: it is never below 0"},
	} {
		code, out, errs := call(c.args...)
		if code != 2 || out != "" || strings.Count(errs, "\n") != 1 || !strings.HasPrefix(errs, "compare: ") || !strings.Contains(errs, c.says) {
			t.Errorf("%q: %d, %q, %q", c.args, code, out, errs)
		}
	}
}
