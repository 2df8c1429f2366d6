package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness/record"
)

// A spreadsheet takes a cell that begins with = + - @, tab or CR for a formula. No text gets there so, and numbers stay numbers.
func TestNoFormula(t *testing.T) {
	dir := t.TempDir()
	names := []string{"=1+2.txt", "+A1.txt", "-2.txt", "@sum.txt", "\tx.txt", "\rx.txt"}
	for _, name := range names {
		write(t, dir, name, "x (µm)\tz (µm)\n0\tone\n")
	}
	write(t, dir, "plain.txt", "x (µm)\tz (µm)\n0\t-1\n")
	var out, errs bytes.Buffer
	if code := run(context.Background(), []string{dir}, &out, &errs); code != 1 {
		t.Fatalf("state %d: %s", code, &errs)
	}
	rows, err := csv.NewReader(bytes.NewReader(out.Bytes())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range rows[1:] {
		if !strings.HasSuffix(r[0], ".txt") {
			continue
		}
		for _, c := range []string{r[0], r[len(r)-2], r[len(r)-1]} {
			if c != "" && strings.IndexByte("=+-@\t\r", c[0]) >= 0 {
				t.Errorf("a cell begins with %q: %q", c[0], c)
			}
		}
		if strings.HasPrefix(r[0], "'") {
			seen++
		}
	}
	if seen != len(names) {
		t.Errorf("%d of %d names have an apostrophe", seen, len(names))
	}
	if record.Cell("-1.5") != "'-1.5" || cell(-1.5) != "-1.5" || record.Cell("Ra") != "Ra" || record.Cell("") != "" {
		t.Error("texts get an apostrophe, numbers none")
	}
	// JSON is no spreadsheet: names stay as they are.
	out.Reset()
	run(context.Background(), []string{"-json", dir}, &out, &errs)
	var got struct{ Traces []struct{ File string } }
	if err := json.Unmarshal(out.Bytes(), &got); err != nil || got.Traces[len(got.Traces)-1].File != "plain.txt" {
		t.Fatalf("%v in %s", err, &out)
	}
	for _, tr := range got.Traces {
		if strings.HasPrefix(tr.File, "'") {
			t.Errorf("JSON changes the name %q", tr.File)
		}
	}
}

// Folders and links in the folder are left out and counted, whatever they lead to.
func TestNoRegularFile(t *testing.T) {
	dir := folder(t, 1)
	if err := os.Mkdir(filepath.Join(dir, "sub"), 0o755); err != nil {
		t.Fatal(err)
	}
	outside := filepath.Join(t.TempDir(), "outside.txt")
	write(t, filepath.Dir(outside), "outside.txt", "x (µm)\tz (µm)\n0\t1\n")
	for name, to := range map[string]string{"device.txt": "/dev/zero", "link.txt": outside, "loop.txt": "loop.txt"} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
	}
	more := 4 + pipe(t, filepath.Join(dir, "pipe.txt"))
	var out, errs bytes.Buffer
	done := make(chan int, 1)
	go func() { done <- run(context.Background(), []string{dir}, &out, &errs) }()
	select {
	case <-done:
	case <-time.After(30 * time.Second):
		t.Fatal("still reading")
	}
	want := map[int]string{4: "left out 4 of 6 entries", 5: "left out 5 of 7 entries"}[more]
	if !strings.Contains(errs.String(), want) {
		t.Errorf("%q, want %q", &errs, want)
	}
	for _, name := range []string{"device", "link.txt", "loop", "pipe", "sub", "outside"} {
		if strings.Contains(out.String(), name) {
			t.Errorf("%s was taken up: %s", name, &out)
		}
	}
	// What was a file when the folder was listed may be something else later.
	if r := evaluate(&options{folder: dir}, "device.txt"); r.err == nil || !strings.Contains(r.err.Error(), "no regular file") {
		t.Errorf("a link to a device: %v", r.err)
	}
}
