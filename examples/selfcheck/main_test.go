package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/furrow/roughness/selfcheck"
	"example.com/furrow/standards"
)

func TestRun(t *testing.T) {
	one := func(word string) func(...string) []selfcheck.Comparison {
		return func(...string) []selfcheck.Comparison {
			list := selfcheck.Run("standards")
			list[0].Word = word
			return list
		}
	}
	sheet := filepath.Join(t.TempDir(), "sheet.html")
	for _, c := range []struct {
		args   string
		checks func(...string) []selfcheck.Comparison
		code   int
		out    string
		err    string
	}{
		{"", selfcheck.Run, 0, standards.Caution[:40], ""},
		{"", one(selfcheck.Differs), 1, "35 of 36 checks agree", ""},
		{"-json", one(selfcheck.Differs), 1, `"failed": 1`, ""},
		{"-html " + sheet, one(selfcheck.Agrees), 0, "36 of 36", ""},
		{"-html " + filepath.Join(sheet, "no"), one(selfcheck.Agrees), 2, "", "selfcheck: "},
		{"trace.csv", selfcheck.Run, 2, "", "selfcheck: trace.csv: no file is needed"},
		{"-html=", selfcheck.Run, 2, "", "-html is empty"},
		{"-html a.html -html b.html", selfcheck.Run, 2, "", "given twice"},
		{"-what", selfcheck.Run, 2, "", "-what"},
		{"-h", selfcheck.Run, 0, "usage: selfcheck", ""},
	} {
		var out, errs bytes.Buffer
		if code := run(strings.Fields(c.args), c.checks, &out, &errs); code != c.code || !strings.Contains(out.String(), c.out) || !strings.Contains(errs.String(), c.err) ||
			strings.Count(errs.String(), "\n") > 1 || code == 2 && out.Len() > 0 {
			t.Errorf("%q: exit %d, %q, %q; want %d, %q, %q", c.args, code, out.String(), errs.String(), c.code, c.out, c.err)
		}
		if c.args == "-json" && !json.Valid(out.Bytes()) {
			t.Errorf("no JSON: %s", out.String())
		}
		if c.args == "" {
			for l := range strings.Lines(out.String()) {
				if utf8.RuneCountInString(l) > 81 {
					t.Errorf("over 80 columns: %s", l)
				}
			}
		}
	}
	if data, err := os.ReadFile(sheet); err != nil || !strings.Contains(string(data), "Validation sheet") {
		t.Errorf("sheet: %v", err)
	}
}
