package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/furrow/standards"
)

// A verdict for each trace and one for all; a file without a value leaves none for all, and the caution ends the table.
func TestBatchVerdict(t *testing.T) {
	dir := folder(t, 6)
	set := filepath.Join(t.TempDir(), "s.json")
	write(t, filepath.Dir(set), "s.json", settings)
	rows := func(args ...string) [][]string {
		t.Helper()
		var out, errs bytes.Buffer
		if code := run(context.Background(), append(append([]string{"-settings", set}, args...), dir), &out, &errs); code == 2 {
			t.Fatal(errs.String())
		}
		rows, err := csv.NewReader(&out).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if last := rows[len(rows)-1]; last[0] != "(caution)" || last[len(last)-1] != standards.Caution {
			t.Errorf("last row %q", last)
		}
		return rows
	}
	all := func(rows [][]string) []string { return rows[len(rows)-2] }
	r := rows("-limit", "Ra <= 5")
	if strings.Join(r[0], "|") != "file|Ra [µm]|Rz [µm]|verdict|why|notes|error" || r[1][3] != "No verdict yet" || r[2][3] != "Conforms" {
		t.Errorf("%q", r)
	}
	if v := all(r); v[0] != "(verdict)" || v[3] != "No verdict yet" || !strings.Contains(v[4], "broken.txt") {
		t.Errorf("%q", v)
	}
	if err := os.Remove(filepath.Join(dir, "broken.txt")); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args      []string
		one, each string
	}{
		{[]string{"-limit", "Ra <= 5"}, "Conforms", "Conforms"},
		{[]string{"-limit", "Ra <= 0.1"}, "Does not conform", "Does not conform"},
		{[]string{"-limit", "Ra <= 5; Rz <= 0.1"}, "Does not conform", "Does not conform"},
		{[]string{"-limit", "Ra <= 5; Ra >= 0.1; Rq <= 5"}, "Conforms", "Conforms"},
		{[]string{"-limit", "Ra <= 5", "-rule", "median"}, "Conforms", "No verdict yet"},
	} {
		r := rows(c.args...)
		verdict := 0
		for i, name := range r[0] {
			if name == "verdict" {
				verdict = i
			}
		}
		if all(r)[verdict] != c.one || r[1][verdict] != c.each {
			t.Errorf("%v: %q for all, %q for the first", c.args, all(r), r[1])
		}
	}
	if r := rows(); len(r[0]) != 5 {
		t.Errorf("without a limit: %q", r[0])
	}
	var out, errs bytes.Buffer
	if code := run(context.Background(), []string{"-json", "-settings", set, "-limit", "Ra <= 5", dir}, &out, &errs); code != 0 {
		t.Fatalf("state %d: %s", code, &errs)
	}
	var got struct {
		Traces  []struct{ Verdict struct{ Word string } }
		Verdict struct {
			Word    string
			Values  int
			Caution string
		}
		Caution string
	}
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Caution != standards.Caution || got.Verdict.Caution != standards.Caution || got.Verdict.Word != "Conforms" || got.Verdict.Values != 6 || got.Traces[5].Verdict.Word != "Conforms" {
		t.Errorf("%+v", got)
	}
	for _, args := range [][]string{{"-rule", "max", dir}, {"-limit", "Ra", dir}, {"-limit", "Ra <= 1", "-rule", "often", dir}, {"-limit", "Rxy <= 1", dir}, {"-limit", "", dir}, {"-limit", "Ra <= 1", "-rule", " ", dir}, {"-settings", "", dir}} {
		out.Reset()
		if code := run(context.Background(), args, &out, &errs); code != 2 || out.Len() > 0 {
			t.Errorf("%v: state %d, %s", args, code, &out)
		}
	}
}

// A trace that is clipped and a probe that does not move leave no verdict; who agreed to the first stands with both verdicts.
func TestBatchDoubt(t *testing.T) {
	dir := t.TempDir()
	clip, flat := "x (µm),z (µm)\n", "x (µm),z (µm)\n"
	for i := range 9600 {
		z := 1.5*math.Sin(float64(i)/19) + 0.2*math.Sin(float64(i))
		clip += fmt.Sprintf("%g,%g\n", float64(i)/2, min(max(z, -0.9), 0.9))
		flat += fmt.Sprintf("%g,0\n", float64(i)/2)
	}
	write(t, dir, "clip.csv", clip)
	write(t, dir, "flat.csv", flat)
	var out, errs bytes.Buffer
	run(context.Background(), []string{"-limit", "Rz <= 3.2", dir}, &out, &errs)
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(rows) < 4 {
		t.Fatalf("%v %s", err, &errs)
	}
	last := len(rows[0]) - 2
	if rows[0][last] != "notes" || !strings.HasSuffix(rows[1][last], "clipped") || rows[1][last-2] != "No verdict yet" || !strings.Contains(rows[1][last-1], "The trace is clipped: ") || !strings.HasSuffix(rows[2][last], "flat") || rows[2][last-2] != "No verdict yet" {
		t.Errorf("%q", rows[1:3])
	}
	if all := rows[len(rows)-2]; all[last-2] != "No verdict yet" || !strings.Contains(all[last-1], "2 files") {
		t.Errorf("%q", all)
	}
	if err := os.Remove(filepath.Join(dir, "flat.csv")); err != nil {
		t.Fatal(err)
	}
	out.Reset()
	if code := run(context.Background(), []string{"-limit", "Rz <= 3.2", "-agreed", "the buyer", dir}, &out, &errs); code != 0 ||
		strings.Count(out.String(), "Judged with clipped heights instead of a trace within the range of the probe, as agreed with the buyer.") != 2 || strings.Count(out.String(), ",Conforms,") != 2 {
		t.Errorf("%s%s", &out, &errs)
	}
	if code := run(context.Background(), []string{"-agreed", "the buyer", dir}, &out, &errs); code != 2 || !strings.Contains(errs.String(), "-agreed: there is no limit") {
		t.Errorf("state %d %s", code, &errs)
	}
}

// An interrupt leaves no verdict for all.
func TestBatchVerdictInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, errs bytes.Buffer
	run(ctx, []string{"-limit", "Ra <= 5", folder(t, 3)}, &out, &errs)
	if !strings.Contains(out.String(), "No verdict yet") || strings.Contains(out.String(), "(verdict),,Conforms") {
		t.Errorf("%s", &out)
	}
}
