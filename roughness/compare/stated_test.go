package compare_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/tracefile"
)

func stated(lines string, mark rune) string {
	var got []string
	for _, p := range compare.Stated(strings.Split(lines, "\n"), mark) {
		got = append(got, p.Typed())
	}
	return strings.Join(got, "; ")
}

// What a header clearly states is found with its digits, whatever parts its cells.
func TestStated(t *testing.T) {
	for lines, want := range map[string]string{
		"Ra = 0.420 µm":                               "Ra 0.420",
		"Ra: 0.42um\nRz: 3.10um":                      "Ra 0.42; Rz 3.10",
		"Ra\t0.42\tµm\tRz\t3.1\tµm":                   "Ra 0.42; Rz 3.1",
		"Ra;0.42;µm":                                  "Ra 0.42",
		"Ra,0.42,um,Rz,3.10,um":                       "Ra 0.42; Rz 3.10",
		"Ra [µm] = 0.42":                              "Ra 0.42",
		"Ra(um): 0.42, Rsk: -0.31":                    "Ra 0.42; Rsk -0.31",
		"\"Ra\"\t\"µin\"\t16.5":                       "Ra 16.5 µin",
		"Rsm 0.12 mm":                                 "Rsm 0.12 mm",
		"Rod 7\nRa (um)\tRz (um)\n0.4213\t2.87\nx\tz": "Ra 0.4213; Rz 2.87",
		"Ra,Rz\num,um\n0.42,2.87":                     "Ra 0.42; Rz 2.87",
		"place;Ra [µm];Rsk\n7;0.42;-0.3":              "Ra 0.42; Rsk -0.3",
		"Rmr(0.5) = 30 %":                             "Rmr(0.5) 30",
		"Ra 0.42 µm\nRa 0.42 µm":                      "Ra 0.42",
		"operator: R. N.\nRz 2.8 µm\nlength 4.8 mm":   "Rz 2.8",
	} {
		for _, mark := range []rune{'.', 0} {
			if got := stated(lines, mark); got != want {
				t.Errorf("%q, mark %q: %s; want %s", lines, mark, got, want)
			}
		}
	}
	for lines, want := range map[string]string{"Ra;0,42;µm": "Ra 0.42", "Ra (µm);Rz (µm)\n0,42;2,871": "Ra 0.42; Rz 2.871", "Ra 1,234 µm": "Ra 1.234"} {
		if got := stated(lines, ','); got != want {
			t.Errorf("%q: %s; want %s", lines, got, want)
		}
	}
}

// What is not clear is not taken.
func TestStatedNotGuessed(t *testing.T) {
	for _, lines := range []string{
		"", "Ra", "Ra 0.42", "Ra 0.42 s", "Rfoo 0.42 µm", "ra 0.42 µm", "Pt 100", "Ra max 0.8 µm", "Ra 0.8 µm max", "limit Ra 0.8 µm", "Ra 0.4 µm 0.5 µm", "mean Ra 0.4 µm",
		"Tolerances\nRa 0.8 µm\nRz 3.2 µm", "Specimen\nRa 2.97 µm", "Nominal values;;\nRa;0.8;µm", "Grenzwerte\nRa 0.8 µm",
		"Ra 0.42 µm\nRa 0.44 µm", "Ra 0.4 µm\nRa 0.40 µm", // twice, and not the same
		"Ra 1,234 µm", "Ra 0x1p-2 µm", "Ra 1e-3 mm", "Ra .5 µm", "Ra 5. µm", "Ra ~0.4 µm", "Ra NaN µm", "Ra -0.4 µm", "Ra 0.4 µm (2)", "Rsk 0,42",
		"Ra (µm)\tRz (µm)\n0.42", "Ra (µm)\tRz (µm)\n0.42\t2.87\t1", "Ra (µm)\tRz (µm)\nx\ty", "Ra\tRz\n0.42\t2.87",
		"Ra (µm)\tRz (µm)\n0,42,2,87", "0.42 µm", "Ra = 0.42 µm at 5 places", "Ra µm 0.42 µm",
	} {
		if got := stated(lines, '.'); got != "" {
			t.Errorf("%q: %s", lines, got)
		}
	}
	if got := stated("Ra 1,234 µm", 0) + stated("Rsk 1.234", ','); got != "" {
		t.Error(got)
	}
}

// What stands below a heading counts only where it says that results follow, and what stands behind another remark does not.
func TestStatedBelowHeadings(t *testing.T) {
	for _, heading := range []string{"Vorgabe", "Nennwerte:", "Tolérances", "Spécification", "Reference", "Upper", "Allowed", "Zul. Wert", "OT", "Uncertainty",
		"std dev", "Last part", "Wunsch", "[Master]", "Upper 2", "Vorgabe: Welle"} {
		for _, table := range []string{"Rz 6.3 µm", "Rz (µm)\n6.3"} {
			if got := stated(heading+"\n"+table, '.'); got != "" {
				t.Errorf("%q: %s", heading, got)
			}
			if got := stated("Ra 0.42 µm\n"+heading+"\n"+table, '.'); got != "Ra 0.42" {
				t.Errorf("%q behind a result: %s", heading, got)
			}
		}
	}
	for lines, want := range map[string]string{
		"Results\nRz 6.3 µm": "Rz 6.3", "Ergebnisse:\nRz 6.3 µm": "Rz 6.3", "Wunsch\nRz 5 µm\nMeasured\nRz 6.3 µm": "Rz 6.3",
		"Ra 0.42 µm\nlength 4.8 mm\nRz 6.3 µm": "Ra 0.42; Rz 6.3", "Ra 0.42 µm\nshaft 2\nRz 6.3 µm": "Ra 0.42",
		"row;Rz (µm)\nupper;6.3": "", "row;Rz (µm)\nwish;6.3": "",
	} {
		if got := stated(lines, '.'); got != want {
			t.Errorf("%q: %q; want %q", lines, got, want)
		}
	}
}

// A table of several parts states no one result.
func TestStatedOfSeveralParts(t *testing.T) {
	for lines, want := range map[string]string{
		"Ra (µm)\tRz (µm)\n0.42\t2.87\n0.45\t2.87": "", "Ra;Rz\nµm;µm\n0.42;2.87\n\n0.45;2.9\n0.46;3.0": "", "part;Ra (µm)\nA3;0.42\nA4;0.45": "", "Ra (µm)\n0.42\n0.45": "",
		"part;Ra (µm)\nA3;0.42\nA4;0.42": "Ra 0.42", "Ra (µm)\tRz (µm)\n0.42\t2.87\nlength\t4.8": "Ra 0.42; Rz 2.87",
	} {
		if got := stated(lines, '.'); got != want {
			t.Errorf("%q: %q; want %q", lines, got, want)
		}
	}
}

// The lines of a file, of a text and of another format alike.
func TestStatedInFiles(t *testing.T) {
	rows := "x (mm)\tz (µm)\n0\t1.5\n0.0005\t2.5\n0.001\t0.5\n"
	first, err := tracefile.Read([]byte("# lathe 3\n# Ra = 0.42 µm\n# Rz = 2.871 µm\n"+rows), nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := stated(strings.Join(first.Said(), "\n"), '.'); got != "Ra 0.42; Rz 2.871" {
		t.Errorf("%s of %q", got, first.Said())
	}
	first.Fields = append(first.Fields, tracefile.Field{Key: "Rz", Value: "2.87 µm"})
	var sdf bytes.Buffer
	if err := tracefile.WriteSDFText(&sdf, first); err != nil {
		t.Fatal(err)
	}
	second, err := tracefile.Read(sdf.Bytes(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := stated(strings.Join(second.Said(), "\n"), '.'); got != "Rz 2.87" {
		t.Errorf("%s of %q", got, second.Said())
	}
	var long strings.Builder
	for i := range 5000 {
		fmt.Fprintf(&long, "# remark %d\n", i)
	}
	many, err := tracefile.Read([]byte(long.String()+"#"+strings.Repeat("x", 1<<12)+"\n"+rows), nil)
	if err != nil || len(many.Said()) > 1000 {
		t.Errorf("%d lines kept, %v", len(many.Said()), err)
	}
}
