package tracefile_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// show prints a trace as "spacing: z z z", with - for an invalid point.
func show(t *tracefile.Trace) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%g:", t.Profile.Spacing)
	for _, z := range t.Profile.Z {
		if math.IsNaN(z) {
			b.WriteString(" -")
		} else {
			fmt.Fprintf(&b, " %g", z)
		}
	}
	return b.String()
}

// outcome reads text and tells what came of it: the trace, or place and sentinel, or place and the hints that are asked for.
func outcome(text, hints string) string {
	var h *tracefile.Hints
	if hints != "" {
		var err error
		if h, err = tracefile.ParseHints([]byte(hints)); err != nil {
			return "hints: " + err.Error()
		}
	}
	trace, err := tracefile.Read([]byte(text), h)
	if err == nil {
		return show(trace)
	}
	var e *tracefile.Error
	if !errors.As(err, &e) {
		return "no *Error: " + err.Error()
	}
	if q := tracefile.IsQuestion(err); q != nil {
		var keys []string
		for _, one := range q {
			keys = append(keys, one.Hint)
		}
		return fmt.Sprintf("%d:%d ask %s", e.Line, e.Column, strings.Join(keys, " "))
	}
	for name, s := range map[string]error{"empty": tracefile.ErrEmpty, "nodata": tracefile.ErrNoData, "number": tracefile.ErrNumber, "cells": tracefile.ErrCells,
		"quote": tracefile.ErrQuote, "nox": tracefile.ErrMissingX, "uneven": tracefile.ErrUneven, "repeated": tracefile.ErrRepeated, "turns": tracefile.ErrTurns,
		"hint": tracefile.ErrHint, "format": tracefile.ErrFormat, "limit": tracefile.ErrLimit} {
		if errors.Is(err, s) {
			return fmt.Sprintf("%d:%d %s", e.Line, e.Column, name)
		}
	}
	return err.Error()
}

const (
	xz = `{"x_unit":"um","z_unit":"um"}`
	z1 = `{"z_unit":"um","spacing":1}`
)

// The rules of design: hints for delimited text.
func TestContract(t *testing.T) {
	for _, c := range []struct{ name, text, hints, want string }{
		// Delimiters and marks.
		{"comma", "x_mm,z_um\n0.0,1.5\n0.5,2.5\n", "", "500: 1.5 2.5"},
		{"semicolon, decimal comma", "x_mm;z_um\n0,0;1,5\n0,5;2,5\n", "", "500: 1.5 2.5"},
		{"tab", "x_mm\tz_um\n0\t1.5\n1\t2.5\n", "", "1000: 1.5 2.5"},
		{"blanks", "  0   1.5\n  1 \t 2.5\n", xz, "1: 1.5 2.5"},
		{"comma and blank", "0, 1.5\n1, 2.5\n", xz, "1: 1.5 2.5"},
		{"header settles comma", "x_um,z_um\n1,234\n2,345\n", "", "1: 234 345"},
		{"header of one name settles decimal comma", "z_um\n0,5\n1,5\n", `{"spacing":1}`, "1: 0.5 1.5"},
		{"one comma, two readings", "0,50\n0,53\n", z1, "1:1 ask delimiter decimal"},
		{"x_unit speaks of two columns", "0,50\n1,53\n", xz, "1: 50 53"},
		{"decimal answers", "0,50\n0,53\n", `{"z_unit":"um","spacing":1,"decimal":","}`, "1: 0.5 0.53"},
		{"delimiter answers", "0,50\n1,53\n", `{"x_unit":"um","z_unit":"um","delimiter":","}`, "1: 50 53"},
		{"grouping or mark", "0;1,234\n1;2,345\n", xz, "1:3 ask decimal"},
		{"point, grouping or mark", "0;1.234\n1;2.345\n", xz, "1:3 ask decimal"},
		{"one column, grouping or mark", "1,234\n2,345\n", z1, "1:1 ask delimiter decimal"},
		{"header settles the mark", "x_um;z_um\n0;1,234\n1;2,345\n", "", "1: 1.234 2.345"},
		{"header settles the mark, point", "x_um\tz_um\n0\t1.234\n1\t2.345\n", "", "1: 1.234 2.345"},
		{"header settles the mark, one column", "z_um\n1,234\n2,345\n", `{"spacing":1}`, "1: 1.234 2.345"},
		{"header settles comma and point", "x [µm],z [µm]\n0,\"1,234\"\n1,\"2,345\"\n2,\"3,456\"\n", "", "1: 1234 2345 3456"},
		{"quoted commas in one column", "z [µm]\n\"1,234\"\n\"2,345\"\n", `{"spacing":1}`, "1: 1.234 2.345"},
		{"quoted commas, no header", "0,\"1,234\"\n1,\"2,345\"\n", xz, "1:4 ask decimal"},
		{"header, digits run into groups", "x [µm];z [µm]\n0;998\n1;999\n2;1,000\n3;1,001\n", "", "4:3 ask decimal"},
		{"header, digits run into groups, tab", "x [µm]\tz [µm]\n0\t998\n1\t999\n2\t1.000\n3\t1.001\n", "", "4:3 ask decimal"},
		{"header and both marks", "x_um;z_um\n1.000;1,234\n2.000;2,345\n", "", "2:1 ask decimal"},
		{"a title settles nothing", "Rod 7\n0,50\n1,53\n", z1, "2:1 ask delimiter decimal"},
		{"settled by another number", "x_um;z_um\n0;1,234\n1;2,3456\n", "", "1: 1.234 2.3456"},
		{"settled by a leading zero", "x_um;z_um\n0;0,234\n1;2,345\n", "", "1: 0.234 2.345"},
		{"decimal given, other mark groups", "x_um;z_um\n0;1.234,5\n1;2.345\n", `{"decimal":","}`, "1: 1234.5 2345"},
		{"decimal given, other mark alone is wrong", "x_um;z_um\n0;1.23\n1;2.34\n", `{"decimal":","}`, "2:3 number"},
		{"decimal point given, comma groups", "x_um;z_um\n0;1,234.5\n1;2,345\n", `{"decimal":"."}`, "1: 1234.5 2345"},
		{"decimal point given, no header", "1,234\n2,345\n", `{"decimal":".","z_unit":"um","spacing":1}`, "1: 1234 2345"},
		{"both marks in one number", "x_um;z_um\n0;1.234,5\n1;2.345,5\n", "", "1: 1234.5 2345.5"},
		{"marks change", "x_um;z_um\n0;1,5\n1;2.5\n", "", "3:3 number"},
		{"sep line", "sep=;\nx_um;z_um\n0;1,5\n1;2,5\n", "", "1: 1.5 2.5"},
		{"comma twice", "x_um,z_um\n0,0,1,5\n0,5,2,5\n", "", "2:1 cells"},
		{"quoted", "\"x, um\",\"z, um\"\n\"0,0\",\"1,5\"\n\"1,0\",\"2,5\"\n", "", "1: 1.5 2.5"},
		{"bar", "0|1.5\n1|2.5\n", xz, "1: 1.5 2.5"},

		// Line ends, marks, encodings.
		{"CR LF", "x_um,z_um\r\n0,1\r\n1,2\r\n", "", "1: 1 2"},
		{"CR", "x_um,z_um\r0,1\r1,2\r", "", "1: 1 2"},
		{"CR CR LF", "x_um,z_um\r\r\n0,1\r\r\n1,2\r\r\n", "", "1: 1 2"},
		{"byte order mark", "\ufeffx_um,z_um\n0,1\n1,2\n", "", "1: 1 2"},
		{"mark is no character", "\ufeff0,1\n1,z\n", xz, "2:3 number"},
		{"Latin-1", "x [\xb5m];z [\xb5m]\n0;1\n1;2\n", "", "1: 1 2"},
		{"Greek mu", "x [\u03bcm];z [\u03bcm]\n0;1\n1;2\n", "", "1: 1 2"},
		{"no end of line at the end", "x_um,z_um\n0,1\n1,2", "", "1: 1 2"},
		{"trailing delimiters", "x_um;z_um;;;\n0;1;;;\n1;2;;;\n;;;;\n", "", "1: 1 2"},
		{"trailing delimiter in the first row alone", "0;1;\n1;2\n2;3\n", xz, "1: 1 2 3"},
		{"the same below names", "x_um;z_um\n0;1;;\n1;2\n2;3\n", "", "1: 1 2 3"},
		{"trailing delimiter, no z at all", "x_um,z_um\n0,\n1,\n", "", "1: - -"},
		{"blank tail", "x_um,z_um\n0,1\n1,2\n\n \n\n", "", "1: 1 2"},
		{"blank top", "\n\nx_um,z_um\n0,1\n1,2\n", "", "1: 1 2"},
		{"old end mark", "x_um,z_um\n0,1\n1,2\n\x1a", "", "1: 1 2"},

		// Units.
		{"mm and nm", "x (mm)\tz (nm)\n0\t500\n1\t1500\n", "", "1000: 0.5 1.5"},
		{"m", "x/m z/m\n0 0.5e-6\n1e-6 1e-6\n", "", "1: 0.5 1"},
		{"inch", "x [in];z [µin]\n0;100\n0.1;200\n", "", "2540: 2.54 5.08"},
		{"inch, letter u", "x_inch;z_uin\n0;100\n0.1;200\n", "", "2540: 2.54 5.08"},
		{"unit row", "x;z\nmm;nm\n0;500\n1;1500\n", "", "1000: 0.5 1.5"},
		{"units of their own", "# unit x: mm\n# unit z: nm\n0 500\n1 1500\n", "", "1000: 0.5 1.5"},
		{"hint beats header", "x_mm;z_um\n0;1\n1;2\n", `{"z_unit":"nm"}`, "1000: 0.001 0.002"},
		{"no x unit", "x;z_um\n0;1\n1;2\n", "", "2:1 ask x_unit"},
		{"no z unit", "x_mm;z\n0;1\n1;2\n", "", "2:1 ask z_unit"},
		{"no unit", "0 1.5\n1 2.5\n", "", "1:1 ask x_unit z_unit"},
		{"one column, nothing said", "1.5\n2.5\n", "", "1:1 ask spacing z_unit"},
		{"one column, z said", "z_um\n1.5\n2.5\n", "", "2:1 ask spacing"},
		{"one column, spacing said", "# dx [mm]: 0.25\n# unit z: um\n1.5\n2.5\n", "", "250: 1.5 2.5"},
		{"thousandths of an inch", "x [mils];z [thou]\n0;1\n1;2\n", "", "25.4: 25.4 50.8"},
		{"unit in brackets behind a value", "Spacing = 0.5 [µm]\nZ unit = [µm]\n1\n2\n", "", "0.5: 1 2"},
		{"quoted statements", "\"Spacing\",\"0.5\",\"µm\"\n\"Z unit\",\"µm\"\n1\n2\n", "", "0.5: 1 2"},
		{"quoted statements, decimal comma", "\"Spacing\",\"0,5\",\"µm\"\nz [µm]\n1\n2\n", "", "0.5: 1 2"},
		{"decimal comma of a value between commas", "Spacing = 1,5 µm\nNo.,z [µm]\n1,1.5\n2,2.5\n", "", "1.5: 1.5 2.5"},
		{"strange unit", "x_mm;z [V]\n0;1\n1;2\n", "", "2:1 ask z_unit"},
		{"swapped columns", "height (um);position (mm)\n1,5;0\n2,5;1\n", "", "1000: 1.5 2.5"},

		// Columns.
		{"columns named", "a;b;c\n0;t;1\n1;u;2\n", `{"x_column":1,"z_column":3,"x_unit":"um","z_unit":"um"}`, "1: 1 2"},
		{"spacing makes x needless", "x_mm;z_um\n0;1\n1;2\n", `{"spacing":0.5}`, "0.5: 1 2"},
		{"spacing with a column", "n;a;b\n1;5;6\n2;7;8\n", `{"z_column":3,"z_unit":"um","spacing":2}`, "2: 6 8"},
		{"spacing in µm whatever x_unit says", "1\n2\n", `{"x_unit":"mm","spacing":2,"z_unit":"um"}`, "2: 1 2"},
		{"no such column", "x_um;z_um\n0;1\n1;2\n", `{"z_column":3}`, "2:1 hint"},
		{"three columns, nothing said", "0;1;2\n1;2;3\n", xz, "1:1 ask z_column"},
		{"skip lines", "1\n2\n3\n4\n", `{"skip_lines":2,"z_unit":"um","spacing":1}`, "1: 3 4"},
		{"heights in rows", "1 2 3\n4 5\n6\n", `{"heights":"rows","z_unit":"um","spacing":1}`, "1: 1 2 3 4 5 6"},
		{"one row", "1;2;NaN;4", `{"heights":"rows","z_unit":"um","spacing":1}`, "1: 1 2 - 4"},
		{"spacing first", "0.5\n1\n2\n", `{"first":"spacing"}`, "0.5: 1 2"},
		{"spacing first, unit of z said", "z [nm]\n0.5\n1\n2\n", `{"first":"spacing"}`, "0.5: 0.001 0.002"},
		{"counter", "No.;z (um)\n1;5\n2;6\n", "", "2:1 ask spacing"},
		{"spacing against x", "x_um;z_um\n0;1\n1;2\n", `{"spacing":0.5,"x_column":1,"z_column":2}`, "3:1 hint"},

		// Invalid points.
		{"words", "x_um;z_um\n0;1\n1;\n2;NaN\n3;NA\n4;n/a\n5;BAD\n6;***\n7;-\n8;1.#QNAN\n9;#N/A\n10;2\n", "", "1: 1 - - - - - - - - - 2"},
		{"hinted word", "x_um;z_um\n0;1\n1;void\n2;3\n", `{"missing":["void"]}`, "1: 1 - 3"},
		{"hinted number", "x_um;z_um\n0;1\n1;-32768\n2;-32768.0\n3;3\n", `{"missing":["-32768"]}`, "1: 1 - - 3"},
		{"hinted number with a decimal comma", "x [µm];z [µm]\n0;1,5\n1;-99,5\n2;3,5\n", `{"missing":["-99,5"]}`, "1: 1.5 - 3.5"},
		{"hinted number, the file has a decimal comma", "x [µm];z [µm]\n0;1,5\n1;-99,50\n2;3,5\n", `{"missing":["-99.5"]}`, "1: 1.5 - 3.5"},
		{"hinted number, x passes through it", "x_um;z_um\n9998;1\n9999;9999\n10000;3\n", `{"missing":["9999"]}`, "1: 1 - 3"},
		{"one column, one of them first", "z_um\nNaN\n1\n#N/A\n2\n", `{"spacing":1}`, "1: - 1 - 2"},
		{"empty line in one column", "z_um\n1\n\n2\n", `{"spacing":1}`, "1: 1 - 2"},
		{"all invalid", "z_um\nNaN\nNaN\n", `{"spacing":1}`, "1: - -"},
		{"x may not be missing", "x_um;z_um\n0;1\n;2\n2;3\n", "", "3:1 nox"},

		// What is no number.
		{"inf", "x_um;z_um\n0;1\n1;inf\n2;3\n", "", "3:3 number"},
		{"hexadecimal", "x_um;z_um\n0;1\n1;0x1p-2\n2;3\n", "", "3:3 number"},
		{"underscore", "x_um;z_um\n0;1\n1;1_000\n2;3\n", "", "3:3 number"},
		{"too large", "x_um;z_um\n0;1\n1;1e400\n2;3\n", "", "3:3 number"},
		{"too small is 0", "x_um;z_um\n0;1\n1;1e-400\n2;3\n", "", "1: 1 0 3"},
		{"letter", "x_um;z_um\n0;1\n1;2a\n2;3\n", "", "3:3 number"},
		{"letters only", "hello\nworld\n", "", "1:1 nodata"},
		{"empty", "", "", "1:1 empty"},
		{"blank", " \n\n", "", "1:1 empty"},
		{"zero bytes", "a\x00b\n", "", "1:2 format"},
		{"a cell too few", "x_um;z_um\n0;1\n1\n2;3\n", "", "3:1 cells"},
		{"a cell too many", "x_um;z_um\n0;1\n1;2;3\n2;3\n", "", "3:5 cells"},
		{"column counts characters", "µ;µ\nx_um;z_um\n0;1\n1;\u00a0b\n2;3\n", "", "4:4 number"},
		{"last line", "x_um;z_um\n0;1\n1;2\nend\n", "", "4:1 number"},

		{"first row too large", "z_um\n1e400\n2\n3\n", `{"spacing":1}`, "2:1 number"},
		{"first row infinite", "x_um;z_um\n0;inf\n1;2\n2;3\n", "", "2:3 number"},
		{"first row infinite, no names", "0;inf\n1;2\n2;3\n", xz, "1:3 number"},
		{"first row a word", "x_um;z_um\n0;rod\n1;2\n2;3\n", "", "2:3 number"},
		{"first row too long", "x_um;z_um\n0;1;2\n1;2\n2;3\n", "", "2:5 cells"},
		{"first row too short", "x_um;z_um\n0\n1;2\n2;3\n", "", "2:1 cells"},

		// x.
		{"falling", "x_um;z_um\n2;1\n1;2\n0;3\n", "", "1: 3 2 1"},
		{"repeated", "x_um;z_um\n0;1\n1;2\n1;3\n2;4\n3;5\n", "", "4:1 repeated"},
		{"turns", "x_um;z_um\n0;1\n1;2\n2;3\n1;4\n", "", "5:1 turns"},
		{"uneven", "x_um;z_um\n0;1\n1;2\n2;3\n3.1;4\n4;5\n", "", "5:1 uneven"},
		{"within 2 %", "x_um;z_um\n0;1\n1.019;2\n2;3\n2.981;4\n4;5\n", "", "1: 1 2 3 4 5"},
		{"rounded steps", "x_um;z_um\n0.000;1\n0.333;2\n0.667;3\n1.000;4\n", "", "0.3333333333333333: 1 2 3 4"},
		{"one point", "x_um;z_um\n0;1\n", "", "2:1 ask spacing"},
		{"one point with a spacing", "z_um\n1\n", `{"spacing":1}`, "1: 1"},

		{"uneven triples", "0 0 1\n1 0 2\n2 0 3\n3.2 0 4\n4 0 5\n", `{"heights":"triples","row":1,"x_unit":"um","z_unit":"um"}`, "4:1 uneven"},
		{"uneven triples, second row", "0 0 1\n1 0 2\n2 0 3\n0 1 1\n1 1 2\n1 1 3\n", `{"heights":"triples","row":2,"x_unit":"um","z_unit":"um"}`, "5:1 uneven"},
		{"uneven triples, column", "0 0 1\n0 1 2\n0 2 3\n0 3.2 4\n0 4 5\n", `{"heights":"triples","column":1,"x_unit":"um","z_unit":"um"}`, "4:3 uneven"},

		// Numbers.
		{"forms", "z_um\n+1.5\n-.5\n5.\n1e3\n1E+003\n1.5D+01\n-0.000\n", `{"spacing":1}`, "1: 1.5 -0.5 5 1000 1000 15 -0"},
		{"Unicode minus", "z_um\n−1.5\n2\n", `{"spacing":1}`, "1: -1.5 2"},
		{"Unicode minus in the exponent", "z_um\n−1.5e−1\n2E−01\n", `{"spacing":1}`, "1: -0.15 0.2"},
		{"no-break blanks group", "z_um\n1\u00a0234,5\n12\u202f345\u202f678,5\n", `{"spacing":1}`, "1: 1234.5 1.23456785e+07"},
		{"19 digits and more", "z_um\n0.1000000000000000055511151231257827\n12345678901234567890\n", `{"spacing":1}`, "1: 0.1 1.2345678901234567e+19"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := outcome(c.text, c.hints); got != c.want {
				t.Errorf("%q with %s:\n got %s\nwant %s", c.text, c.hints, got, c.want)
			}
		})
	}
}

func TestHintsRefused(t *testing.T) {
	for text, want := range map[string]string{
		`{"x_units":"mm"}`:            "x_units",
		`{"X_unit":"mm"}`:             "X_unit",
		`{"x_unit":"furlong"}`:        "furlong",
		`{"spacing":-1}`:              "spacing",
		`{"spacing":"1"}`:             "spacing",
		`{"decimal":";"}`:             "decimal",
		`{"x_column":-1}`:             "x_column",
		`{"x_column":1.5}`:            "x_column",
		`{"heights":"diagonal"}`:      "heights",
		`{"x_column":1,"z_column":1}`: "z_column",
		`{"delimiter":"ab"}`:          "delimiter",
		`{"spacing":1,"spacing":2}`:   "spacing",
		`{"spacing":1} {}`:            "after the hints",
		`{"spacing":1`:                "",
		`[]`:                          "",
		``:                            "",
	} {
		if _, err := tracefile.ParseHints([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
	if _, err := tracefile.ParseHints([]byte(`{"x_unit":"mm","z_unit":"µm","decimal":",","delimiter":";","x_column":1,"z_column":2,"spacing":0.5,"skip_lines":3,"missing":["NA"],"heights":"column"}`)); err != nil {
		t.Error(err)
	}
}
