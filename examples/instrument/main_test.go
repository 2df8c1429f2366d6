package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

func write(t *testing.T, name string, z []float64, dx float64) {
	t.Helper()
	var b strings.Builder
	for i, v := range z {
		fmt.Fprintf(&b, "%.9g\t%.9g\n", float64(i)*dx, v)
	}
	if err := os.WriteFile(name, []byte(b.String()), 0o666); err != nil {
		t.Fatal(err)
	}
}

// folder holds traces of a sine 3 µm high (Ra = 3/π = 0.9549 µm), of a flat, of a groove 1.5 µm deep, of the demonstration, and settings.
func folder(t *testing.T) {
	t.Helper()
	t.Chdir(t.TempDir())
	r := rand.New(rand.NewPCG(1, 1))
	noise := func(n int, s float64) []float64 {
		z := make([]float64, n)
		for i := range z {
			z[i] = s * r.NormFloat64()
		}
		return z
	}
	several := func(name string, z []float64) {
		for i, name := range times(name, 5) {
			raised := slices.Clone(z)
			for k := range raised {
				raised[k] += float64(i) / 8
			}
			write(t, name, raised, 0.5)
		}
	}
	several("sine.tsv", synth.Sine{Amplitude: 1.5, Wavelength: 100}.Heights(9600, 0.5))
	several("flat.tsv", noise(9600, 0.01))
	groove := noise(1001, 0.005)
	for i := range groove {
		if x := float64(i) * 0.5; x > 200 && x < 300 {
			groove[i] -= 1.5
		}
	}
	several("groove.tsv", groove)
	d := synth.Demos()[0]
	write(t, "rod.tsv", d.Heights(), d.Spacing)
	write(t, "zero.tsv", make([]float64, 9600), 0.5)
	write(t, "short.tsv", make([]float64, 8), 0.5)
	for name, text := range map[string]string{"hints.json": `{"x_unit": "µm", "z_unit": "µm"}`, "never.json": `{"edition": "iso-1"}`, "broken.tsv": "0\t1\n0.5\t1,2,3e\n1\t2\n"} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

func call(args ...string) (int, string, string) {
	var out, errs bytes.Buffer
	code := run(context.Background(), args, strings.NewReader(""), &out, &errs)
	return code, out.String(), errs.String()
}

// times are n files of one surface, each with heights of its own.
func times(name string, n int) []string {
	list := []string{name}
	for i := 2; i <= n; i++ {
		list = append(list, fmt.Sprintf("%d-%s", i, name))
	}
	return list
}

func TestChecks(t *testing.T) {
	folder(t)
	for _, c := range []struct {
		args  []string
		files []string
		word  any
		gain  bool
		says  string
	}{
		{[]string{"-specimen", "Ra 0.955", "-u", "0.01"}, times("sine.tsv", 3), "within", false, "Within the allowance"},
		{[]string{"-specimen", "Ra 1,0", "-u", "0.01", "-tolerance", "1 %", "-type", "C1"}, times("sine.tsv", 3), "outside", true, "below the certificate; 0.020 µm is allowed (U 0.010 µm + 1 %)"},
		{[]string{"-specimen", "Ra 1.0", "-u", "0.01", "-tolerance", "0.06 µm"}, times("sine.tsv", 3), "within", true, "+ 0.06 µm"},
		{[]string{"-specimen", "Ra 0.955", "-u", "0.01"}, times("sine.tsv", 2), "open", false, "3 traces are needed"},
		{[]string{"-specimen", "Ra 1.5", "-u", "0.01"}, times("sine.tsv", 3), "outside", false, "Outside"},
		{[]string{"-flat", "-limit", "Rz <= 3.2"}, times("flat.tsv", 5), "small", false, "of the limit 3.2"},
		{[]string{"-flat", "-limit", "Rz <= 0.1"}, times("flat.tsv", 5), "large", false, "Too much noise"},
		{[]string{"-flat", "-limit", "Rz <= 3.2"}, times("flat.tsv", 2), "open", false, "mean of 5 traces"},
		{[]string{"-flat"}, times("flat.tsv", 5), "open", false, "without a limit"},
		{[]string{"-groove"}, times("groove.tsv", 1), "open", false, "Depth 1.49"},
		{[]string{"-groove", "-depth", "1.5", "-u", "0.02"}, times("groove.tsv", 3), "within", false, "Within"},
		{[]string{"-groove", "-depth", "1.6", "-u", "0.02", "-width", "100", "-centre", "250"}, times("groove.tsv", 3), "outside", true, "Outside"},
		{[]string{"-budget", "Rz", "-certificate", "3", "-certificate-u", "0.06", "-noise", "0.01", "-drift", "1 %", "-spacing", "-cutoffs", "0.02"}, times("rod.tsv", 1), nil, false, "no substitute for a calibration"},
	} {
		args := append(c.args, "-date", "2026-03-02", "-text", "hints.json", "-json")
		code, out, errs := call(append(args, c.files...)...)
		var v map[string]any
		if err := json.Unmarshal([]byte(out), &v); err != nil || code != 0 || errs != "" {
			t.Errorf("%q: %d, %s, %v", c.args, code, errs, err)
			continue
		}
		if v["furrow_check"] != 1.0 || v["word"] != c.word || (v["gain"] != nil) != c.gain || !strings.Contains(v["sentence"].(string), c.says) || v["date"] != "2026-03-02" || v["caution"] != standards.Caution {
			t.Errorf("%q: %v, gain %v, %v", c.args, v["word"], v["gain"], v["sentence"])
		}
		if len(v["values"].([]any)) != len(c.files) {
			t.Errorf("%q: values %v", c.args, v["values"])
		}
		// The table fits 80 columns and carries the caution.
		code, out, errs = call(append(append(c.args, "-text", "hints.json"), c.files...)...)
		if code != 0 || errs != "" || !strings.Contains(strings.Join(strings.Fields(out), " "), standards.Caution) {
			t.Errorf("%q: %d, %s, %s", c.args, code, out, errs)
		}
		for line := range strings.Lines(out) {
			if utf8.RuneCountInString(strings.TrimSuffix(line, "\n")) > 80 {
				t.Errorf("%q: more than 80 characters: %s", c.args, line)
			}
		}
	}
	// A file given again, or a copy of it, is no further measurement.
	if code, out, _ := call("-specimen", "Ra 0.955", "-u", "0.06", "-text", "hints.json", "sine.tsv", "sine.tsv", "2-sine.tsv"); code != 0 || !strings.Contains(out, "without copies 2 gave") {
		t.Errorf("copies: %d, %s", code, out)
	}
	// A groove and a specimen together tell of the tip.
	_, groove, _ := call(append([]string{"-groove", "-depth", "1.5", "-u", "0.02", "-json", "-text", "hints.json"}, times("groove.tsv", 3)...)...)
	if err := os.WriteFile("groove.json", []byte(groove), 0o666); err != nil {
		t.Fatal(err)
	}
	if code, out, errs := call(append([]string{"-specimen", "Ra 1", "-u", "0.01", "-with", "groove.json", "-text", "hints.json"}, times("sine.tsv", 3)...)...); code != 0 || !strings.Contains(out, "Look at the tip.") {
		t.Errorf("-with: %d, %s, %s", code, out, errs)
	}
	if code, out, _ := call("-h"); code != 0 || !strings.HasPrefix(out, "usage: instrument") {
		t.Errorf("-h: %d, %s", code, out)
	}
	// Read, but not possible.
	for _, args := range [][]string{{"-specimen", "Ra 1", "-u", "0.1", "-text", "hints.json", "short.tsv"}, {"-budget", "Rsk", "-text", "hints.json", "zero.tsv"},
		{"-budget", "Rz", "-text", "hints.json", "short.tsv"}, {"-groove", "-text", "hints.json", "zero.tsv"}, {"-flat", "-text", "hints.json", "short.tsv"}} {
		if code, out, errs := call(append([]string{"-json"}, args...)...); code != 1 || !json.Valid([]byte(out)) || errs != "" {
			t.Errorf("%q: %d, %s, %s", args, code, out, errs)
		}
	}
}

// Bad usage and unreadable input are one line on standard error with the place, status 2, and nothing on standard output.
func TestRefusals(t *testing.T) {
	folder(t)
	read := []string{"-text", "hints.json", "sine.tsv"}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"sine.tsv"}, "one check at a time"}, {[]string{"-flat", "-groove", "sine.tsv"}, "one check at a time"}, {[]string{"-flat"}, "no FILE"},
		{[]string{"-specimen", "Ra 1", "sine.tsv"}, "-u"}, {[]string{"-specimen", "", "-u", "1", "sine.tsv"}, "-specimen is empty"}, {[]string{"-flat", "-u", "0.1", "sine.tsv"}, "-u goes with -specimen or -groove"},
		{[]string{"-groove", "-depth", "1", "sine.tsv"}, "go together"}, {[]string{"-groove", "-k", "2", "sine.tsv"}, "-k goes with -u"}, {[]string{"-groove", "-centre", "2", "sine.tsv"}, "-width"},
		{[]string{"-specimen", "Ra 1", "-u", "x", "sine.tsv"}, "above 0"}, {[]string{"-specimen", "Ra 1", "-u", "NaN", "sine.tsv"}, "above 0"}, {[]string{"-budget", "Ra", "-drift", "80 %", "sine.tsv"}, "up to 50 %"},
		{[]string{"-flat", "-limit", "Rz 3", "-text", "hints.json", "flat.tsv"}, "-limit: "},
		{append([]string{"-specimen", "Ra", "-u", "1"}, read...), "no certificate"}, {append([]string{"-specimen", "Ra 1", "-u", "1", "-tolerance", "much"}, read...), "-tolerance: "},
		{append([]string{"-specimen", "Ra 1", "-u", "1", "-type", "B2"}, read...), "B2"}, {append([]string{"-specimen", "Ra 1", "-u", "1", "-k", "95"}, read...), "not a percentage"},
		{append([]string{"-specimen", "Rfoo 1", "-u", "1"}, read...), "Rfoo"}, {append([]string{"-budget", "Ra", "-certificate-u", "1"}, read...), "certificate"},
		{append([]string{"-flat", "-settings", "never.json"}, read...), "never.json:1:13: edition: "},
		{[]string{"-flat", "none.tsv"}, "none.tsv: "}, {append([]string{"-specimen", "Ra 1", "-u", "1", "-with", "hints.json"}, read...), "no check of an instrument"}, {append([]string{"-flat", "-with", "x"}, read...), "-with goes with"}, {[]string{"-flat", "-text", "hints.json", "broken.tsv"}, "broken.tsv:2:"}, {[]string{"-flat", "flat.tsv"}, "flat.tsv:1:1: "},
	} {
		code, out, errs := call(c.args...)
		if code != 2 || out != "" || strings.Count(errs, "\n") != 1 || !strings.HasPrefix(errs, "instrument: ") || !strings.Contains(errs, c.says) {
			t.Errorf("%q: %d, %q, %q", c.args, code, out, errs)
		}
	}
}
