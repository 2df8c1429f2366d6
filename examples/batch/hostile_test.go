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

// The same trace under two names is told in the row of the second, also where points are missing, as evaluate tells it.
func TestSameHeights(t *testing.T) {
	dir := t.TempDir()
	for name, last := range map[string]string{"a.txt": "-", "b.txt": "-", "c.txt": "1"} {
		write(t, dir, name, "x (µm)\tz (µm)\n0\t1\n1\t2\n2\t"+last+"\n")
	}
	var out, errs bytes.Buffer
	run(context.Background(), []string{dir}, &out, &errs)
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:4] {
		if again := strings.Contains(r[len(r)-2], "same-heights"); again != (r[0] == "b.txt") {
			t.Errorf("%s: %s", r[0], r[len(r)-2])
		}
	}
}

// A folder that holds no file that can be read, one that is missing, and a file of settings or hints that is wrong are one line with the place.
func TestOneLine(t *testing.T) {
	dir := t.TempDir()
	folders := t.TempDir()
	if err := os.Mkdir(filepath.Join(folders, "inside"), 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, dir, "trace.txt", "x (µm)\tz (µm)\n0\t1\n1\t2\n")
	for name, text := range map[string]string{"wrong.json": "{\"sections\":\n \"many\"}", "never.json": `{"edition": "iso-1"}`, "hints.json": `{"colour": 1}`} {
		write(t, dir, name, text)
	}
	t.Chdir(dir)
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{folders}, "its 1 entries are no regular files"}, {[]string{"absent"}, "batch: absent: "},
		{[]string{"-settings", "wrong.json", "."}, "batch: wrong.json:2:2: sections: "}, {[]string{"-settings", "never.json", "."}, "batch: never.json:1:13: edition: "},
		{[]string{"-text", "hints.json", "."}, "batch: hints.json:1:"}, {[]string{"-settings", "none.json", "."}, "batch: none.json: "},
	} {
		var out, errs bytes.Buffer
		if code := run(context.Background(), c.args, &out, &errs); code != 2 || out.Len() > 0 || strings.Count(errs.String(), "\n") != 1 || !strings.Contains(errs.String(), c.says) {
			t.Errorf("%v: state %d, %s, want %s", c.args, code, &errs, c.says)
		}
	}
}

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
