package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"
)

func call(args ...string) (int, string, string) {
	var out, errs bytes.Buffer
	code := run(args, &out, &errs)
	return code, out.String(), errs.String()
}

func TestPlan(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		out  string
	}{
		{[]string{"Rz 3,2"}, 0, "Trace: 4 mm to evaluate, 4.8 mm with run-up and run-out"},
		{[]string{"Rz 3,2"}, 0, "Cut-off 0.8 mm: class Sc3, from the limit of Rz (above 0.8 µm, up to 16 µm); standard, ISO 21920-3:2021, 4.4 (excerpt)."},
		{[]string{"Rq 0,5"}, 0, "class from an unconfirmed table: state the class or the cut-off; standard, ISO 21920-3:2021, 4.4.3 (memory)."},
		{[]string{"Rz 3,2 Nic 2,5"}, 0, "Cut-off 2.5 mm: drawing."},
		{[]string{"-edition", "iso-4287", "-0,8/Ra3 1,6"}, 0, "3 sections"},
		{[]string{"-edition", "iso-4287", "--", "-0,8/Ra3 1,6"}, 0, "3 sections"},
		{[]string{"-edition=iso-4287", "Ra 1,6"}, 0, "found by measuring"},
		{[]string{"Rk 1,2"}, 0, "write Rk 1,2 Sc3"},
		{[]string{"Pt 25 Nis=8"}, 0, "as long as the feature"},
		{[]string{"RzJIS 6,3"}, 0, "with -edition jis-b0601-2013"},
		{[]string{"-h"}, 0, "usage: plan"},
		{[]string{strings.Repeat("Rz 3,2 ", 1) + `"` + strings.Repeat("x", 200) + `"`}, 0, "Process: xxx"},
	} {
		code, out, errs := call(c.args...)
		if code != c.code || !strings.Contains(strings.Join(strings.Fields(out), " "), c.out) || errs != "" {
			t.Errorf("%q: %d, %s%s", c.args, code, out, errs)
		}
		for _, line := range strings.Split(out, "\n") {
			if n := utf8.RuneCountInString(line); n > 80 && c.args[0] != "-h" {
				t.Errorf("%q: a line of %d characters: %s", c.args, n, line)
			}
		}
	}
}

// A refusal is one line on standard error with its place, and with -json the document besides; nothing else is printed.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"Rz 3,2 foo"}, "plan: TEXT:1:8: "},
		{[]string{"L Ra 1,6; U Ra 0,8"}, `perhaps: "U Ra 1,6; L Ra 0,8"`},
		{[]string{""}, "plan: TEXT:1:1: "},
		{[]string{}, "one text"}, {[]string{"Rz", "3,2"}, "quotation marks"}, {[]string{"-edition", "iso-1", "Rz 3"}, "there are iso-21920, iso-4287"}, {[]string{"-x", "Rz 3"}, "-x"},
	} {
		code, out, errs := call(c.args...)
		if code != 2 || out != "" || strings.Count(errs, "\n") != 1 || !strings.HasPrefix(errs, "plan: ") || !strings.Contains(errs, c.says) {
			t.Errorf("%q: %d, %q, %q", c.args, code, out, errs)
		}
	}
	code, out, errs := call("-json", "Rz 3,2 foo")
	var doc struct {
		State   string
		Refusal struct{ Column int }
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil || code != 2 || doc.State != "refuse" || doc.Refusal.Column != 8 || errs == "" {
		t.Errorf("%d, %s, %s", code, out, errs)
	}
	if code, out, _ := call("-json", "Rk 1,2"); code != 0 || !strings.Contains(out, `"state": "ask"`) {
		t.Errorf("%d, %s", code, out)
	}
}
