package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// folder holds n traces of 1.2 mm and one that is no trace.
func folder(t *testing.T, n int) string {
	t.Helper()
	dir := t.TempDir()
	for k := range n {
		var b strings.Builder
		b.WriteString("x (µm)\tz (µm)\n")
		for i, z := range (synth.Noise{Sigma: 1, Seed: uint64(k)}).Heights(2401, 0.5) {
			fmt.Fprintf(&b, "%g\t%.4f\n", float64(i)*0.5, z)
		}
		write(t, dir, fmt.Sprintf("trace-%03d.txt", k), b.String())
	}
	write(t, dir, "broken.txt", "x (µm)\tz (µm)\n0\tone\n")
	return dir
}

func write(t *testing.T, dir, name, text string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

const settings = `{"long": {"filter": "gaussian", "cutoff": 250}, "sections": 4, "parameters": ["Ra", "Rz"]}`

func TestBatch(t *testing.T) {
	dir := folder(t, 12)
	set := filepath.Join(t.TempDir(), "s.json")
	write(t, filepath.Dir(set), "s.json", settings)
	var out, errs bytes.Buffer
	if code := run(context.Background(), []string{"-settings", set, "-jobs", "3", dir}, &out, &errs); code != 1 {
		t.Fatalf("state %d: %s", code, &errs)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+13+5 || strings.Join(rows[0], "|") != "file|Ra [µm]|Rz [µm]|notes|error" {
		t.Fatalf("%d rows, head %q", len(rows), rows[0])
	}
	// The broken file stands in its place with the line and column of the fault.
	last := ""
	sum, n := 0.0, 0
	for _, r := range rows[1:14] {
		if r[0] <= last {
			t.Errorf("%s after %s", r[0], last)
		}
		last = r[0]
		if r[0] == "broken.txt" {
			if r[1] != "" || !strings.Contains(r[4], "line 2, column 3") {
				t.Errorf("row of the broken file: %q", r)
			}
			continue
		}
		ra, err := strconv.ParseFloat(r[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		sum += ra
		n++
	}
	if mean, _ := strconv.ParseFloat(rows[14][1], 64); rows[14][0] != "(mean)" || mean-sum/float64(n) > 1e-12 || sum/float64(n)-mean > 1e-12 {
		t.Errorf("mean row %q, want %g", rows[14], sum/float64(n))
	}
}

// A row says what the library says.
func TestBatchJSON(t *testing.T) {
	dir := folder(t, 1)
	set := filepath.Join(t.TempDir(), "s.json")
	write(t, filepath.Dir(set), "s.json", settings)
	var out, errs bytes.Buffer
	run(context.Background(), []string{"-json", "-settings", set, dir}, &out, &errs)
	var got struct {
		Traces []struct {
			File, Error string
			Values      map[string]*float64
		}
		Summary []struct{ N int }
	}
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatalf("%v in %s", err, &out)
	}
	z := (synth.Noise{Sigma: 1, Seed: 0}).Heights(2401, 0.5)
	for i := range z {
		z[i], _ = strconv.ParseFloat(strconv.FormatFloat(z[i], 'f', 4, 64), 64)
	}
	e, err := roughness.Evaluate(roughness.Profile{Z: z, Spacing: 0.5}, &roughness.Settings{
		Long:     roughness.Band{Spec: roughness.FilterSpec{Filter: "gaussian", Cutoff: 250}},
		Sections: 4, Parameters: []string{"Ra", "Rz"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range e.Values {
		if g := got.Traces[1].Values[v.Symbol]; g == nil || *g != v.Value {
			t.Errorf("%s: %v, library %g", v.Symbol, g, v.Value)
		}
	}
	if got.Traces[0].Error == "" || got.Summary[0].N != 1 {
		t.Errorf("%+v", got)
	}
}

// Outcomes come in their order, few wait at once, and an end of the context stops new work.
func TestEach(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var started atomic.Int64
	taken := 0
	each(ctx, 1000, 4, func(i int) int { started.Add(1); return i * i }, func(i, sq int) {
		if sq != i*i || i != taken {
			t.Errorf("outcome %d is %d", i, sq)
		}
		taken++
		if ahead := started.Load() - int64(taken); ahead > 16 {
			t.Errorf("%d outcomes wait", ahead)
		}
		if i == 100 {
			cancel()
		}
	})
	if taken < 101 || taken > 130 {
		t.Errorf("%d outcomes taken after the end at 100", taken)
	}
}

func TestUsage(t *testing.T) {
	for _, args := range [][]string{{}, {"a", "b"}, {"-jobs", "0", "."}, {"-settings", "absent.json", "."}, {"absent"}, {t.TempDir()}} {
		var out, errs bytes.Buffer
		if code := run(context.Background(), args, &out, &errs); code != 2 || out.Len() != 0 || !strings.HasPrefix(errs.String(), "batch: ") {
			t.Errorf("%v: state %d, %q, %q", args, code, &out, &errs)
		}
	}
}
