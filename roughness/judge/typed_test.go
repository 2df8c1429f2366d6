package judge_test

import (
	"errors"
	"example.com/furrow/roughness/judge"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/standards"
	"example.com/furrow/standards/decide"
)

// Values as a person types them. 63 µin are 1.6002 µm (1 in is 25.4 mm); RPc counts per 10 mm.
func TestParseTyped(t *testing.T) {
	type v struct {
		symbol string
		value  float64
	}
	for _, c := range []struct {
		text    string
		edition standards.EditionID
		want    []v
	}{
		{"Rz 2.9; 3.1; 2.8", "", []v{{"Rz", 2.9}, {"Rz", 3.1}, {"Rz", 2.8}}},
		{"Rz 2,9;Ra = 0,41", "", []v{{"Rz", 2.9}, {"Ra", 0.41}}},
		{" Ra 63 µin ; 63 uin ; 0.0016 mm; 1600 nm", "", []v{{"Ra", 1.6002}, {"Ra", 1.6002}, {"Ra", 1.6}, {"Ra", 1.6}}},
		{"Rsk -0.5; +0.2; −0,1", "", []v{{"Rsk", -0.5}, {"Rsk", 0.2}, {"Rsk", -0.1}}},
		{"Rmr(0.5) 60; 61 %", "", []v{{"Rmr(0.5)", 60}, {"Rmr(0.5)", 61}}},
		{"Rmr(5;1) 60; Rz 3", "", []v{{"Rmr(5;1)", 60}, {"Rz", 3}}},
		{"RPc 80; 8 1/mm", "iso-4287", []v{{"RPc", 80}, {"RPc", 80}}},
		{"Pt 3; Wz 1", "", []v{{"Pt", 3}, {"Wz", 1}}},
		{"Rmc(5) -0.3", "", []v{{"Rmc(5)", -0.3}}},
		{"Rz 0", "", []v{{"Rz", 0}}},
		{"Ra 1,5", "asme-b46.1", []v{{"Ra", 1.5}}},
	} {
		got, err := judge.ParseTyped(c.text, c.edition)
		if err != nil || len(got) != len(c.want) {
			t.Errorf("%q: %v, %v", c.text, got, err)
			continue
		}
		for i, w := range c.want {
			if got[i].Symbol != w.symbol || math.Abs(got[i].Value-w.value) > 1e-12*math.Abs(w.value) {
				t.Errorf("%q: value %d is %s %g, want %s %g", c.text, i+1, got[i].Symbol, got[i].Value, w.symbol, w.value)
			}
		}
	}
	for _, c := range []struct {
		text    string
		edition standards.EditionID
		column  int
	}{
		{"", "", 1}, {"2.9", "", 1}, {"Rz", "", 1}, {"Rz three", "", 1}, {"Rz 2.9; x", "", 9}, {"Rz 2.9;", "", 8}, {"Rz 1.234,5", "", 1}, {"Rz 1e3", "", 1},
		{"Rz 0x1p2", "", 1}, {"Rz inf", "", 1}, {"Rz NaN", "", 1}, {"Rz 3 kg", "", 1}, {"Rz 2. 9", "", 1}, {"Rz 2.9 3.1", "", 1},
		{"Ra -0.1", "", 1}, {"Rz 2; -2", "", 7}, {"Rku 0.5", "", 1}, {"Rmr(0.5) 101", "", 1}, {"Rmr(0.5) -1", "", 1}, {"RPc -3", "iso-4287", 1}, {"Rz 1e", "", 1},
		{"Rxy 3", "", 1}, {"RSm 3", "iso-12085", 1}, {"Ra 1,000", "asme-b46.1", 1}, {"Rz 99999999999999999999", "", 1}, {"Rz --3", "", 1}, {"Rz 3-", "", 1},
	} {
		got, err := judge.ParseTyped(c.text, c.edition)
		var wrong *judge.TypedError
		if !errors.As(err, &wrong) || wrong.Column != c.column || wrong.Reason == "" {
			t.Errorf("%q: %v, %v; want an error in column %d", c.text, got, err, c.column)
		}
	}
}

func FuzzTyped(f *testing.F) {
	for _, s := range []string{"Rz 2.9; 3.1; 2.8", "Rmr(5;1) 60 %; Rsk -0,5", "Ra 63 µin", "Rz 1.234,5", "R(", "Rz 2.9;", "λ 1", "Rsm 0,2 mm", "Rz\t−3"} {
		f.Add(s, "iso-21920")
		f.Add(s, "asme-b46.1")
	}
	f.Fuzz(func(t *testing.T, text, edition string) {
		list, err := judge.ParseTyped(text, standards.EditionID(edition))
		var wrong *judge.TypedError
		if err != nil && !errors.As(err, &wrong) {
			t.Fatalf("%q: %v is no TypedError", text, err)
		}
		if err != nil && (wrong.Column < 1 || wrong.Column > len(text)+1 || list != nil) {
			t.Fatalf("%q: column %d, %v", text, wrong.Column, list)
		}
		for _, v := range list {
			if math.IsNaN(v.Value) || math.IsInf(v.Value, 0) || v.Symbol == "" || math.Abs(v.Value) > 1e9 {
				t.Fatalf("%q: %+v", text, v)
			}
		}
		if u, err := judge.ParseUncertainty(text, standards.EditionID(edition)); err == nil {
			for _, x := range u {
				if !(x.Value >= 0) || math.IsInf(x.Value, 0) {
					t.Fatalf("%q: %+v", text, x)
				}
			}
		}
	})
}

// An uncertainty that cannot be used has its place, whether the list or the limit shows it.
func TestUncertaintyPlace(t *testing.T) {
	for text, column := range map[string]int{"Rz 0.1; Ra 0x1p-2": 9, "Rz 0.1;  Ra µm": 10, "Rz 0.1; Rz 0.2": 9, "0.1; 0.2": 6, "Rfoo 1": 1, "Rz 0.1; Ra 0.1 %": 9} {
		u, err := judge.ParseUncertainty(text, "")
		if err == nil {
			r, e := judge.Limits("Rz <= 3; Ra <= 1", "", "max")
			if e != nil {
				t.Fatal(e)
			}
			typed, e := judge.ParseTyped("Rz 2; Ra 0.5", "")
			if e != nil {
				t.Fatal(e)
			}
			j := &judge.Judging{Requirement: r, U: u, Typed: typed}
			j.Guard, _ = judge.GuardFor("", "", 0, true)
			_, err = j.Judge()
		}
		wrong, ok := errors.AsType[*judge.TypedError](err)
		if !ok || wrong.Key != "u" || wrong.Column != column {
			t.Errorf("%q: %v, want column %d", text, err, column)
		}
	}
}

// What has no number is no uncertainty, whatever its word; a word before a number has to be a parameter.
func TestUncertaintyWords(t *testing.T) {
	for text, want := range map[string]string{"abc": "is not an uncertainty", "Rz": "is not an uncertainty", "abc 0.1": "unknown"} {
		if _, err := judge.ParseUncertainty(text, ""); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// What nobody types is refused in few words.
func TestEndlessTyped(t *testing.T) {
	long := strings.Repeat("b", 1<<20)
	for _, text := range []string{long, "Rz " + long, "Rz 2.9 " + long, "Rz " + strings.Repeat("1", 1<<20), strings.Repeat("Rz 2.9; ", 1<<17), "Rz 2.9 b" + strings.Repeat("; Rz b", 1000),
		strings.Repeat("b ", 4000), "Rmr(" + strings.Repeat("1; ", 3000) + "1) 5", "Rz" + strings.Repeat(" ", 9000) + "x"} {
		_, err := judge.ParseTyped(text, "")
		_, other := judge.ParseUncertainty(text, "")
		for _, err := range []error{err, other} {
			var wrong *judge.TypedError
			if !errors.As(err, &wrong) || len(err.Error()) > 12_000 || len(text) > 1<<19 && len(err.Error()) > 200 {
				t.Errorf("%.20q of %d bytes: %d bytes of error, %.200v", text, len(text), len(fmt.Sprint(err)), err)
			}
		}
	}
}

// Between two limits of one parameter a value has to be far enough from both: 2.5 lies 0.5 from each, and with u = 0.28 the chance of a true
// value between 2 and 3 is 2Φ(0.5/0.28) - 1 = 0.926, under 95 %, while against one limit alone it is Φ(0.5/0.28) = 0.963. A limit of
// another parameter changes nothing.
func TestTwoLimitsGuardEachOther(t *testing.T) {
	for limits, want := range map[string]decide.Word{
		"Rz <= 3; Rz >= 2": decide.NotDecided, "Rz <= 3": decide.Conforms, "Rz >= 2": decide.Conforms, "Rz <= 3; Rz >= 0.5": decide.Conforms,
		"Rz <= 3; Ra >= 0.2": decide.Conforms,
	} {
		r, err := judge.Limits(limits, "", "max")
		if err != nil {
			t.Fatal(err)
		}
		j := judge.Judging{Requirement: r}
		j.U, _ = judge.ParseUncertainty("Rz 0.56; Ra 0.01", "")
		j.Typed, _ = judge.ParseTyped("Rz 2.5; Ra 0.5", "")
		j.Guard, _ = judge.GuardFor("", "", 0, true)
		v, err := j.Judge()
		if err != nil {
			t.Fatal(err)
		}
		if v.Word != want {
			t.Errorf("%s: %s, want %s; %s", limits, v.Word, want, v.Sentence)
		}
	}
}
