package tracefile_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// At each bound a file is read, and one step beyond it is not, or otherwise.
func TestBoundsOfFiles(t *testing.T) {
	rep := strings.Repeat
	x3p := func(within string, members ...string) string {
		main := `<a>` + within + `<Record1><FeatureType>PRF</FeatureType><Axes><CX><AxisType>I</AxisType><Increment>1e-6</Increment></CX><CY><AxisType>I</AxisType></CY><CZ><AxisType>A</AxisType></CZ></Axes></Record1>` +
			`<Record3><MatrixDimension><SizeX>2</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataList><Datum>1e-6</Datum><Datum>2e-6</Datum></DataList></Record3></a>`
		return string(pack(t, append([]string{"main.xml", main}, members...)...))
	}
	fill := func(n int) (list []string) {
		for i := range n {
			list = append(list, fmt.Sprint("more/", i), "")
		}
		return list
	}
	const smd = "ISO 5436 - 2000 rod\r\nPRF 1 ISO5436\r\nCX I %d um 1.0e0 D 0.5\r\nCZ A %d um 1.0e0 D\r\n\x03\r\n\x03\r\n1\r\n2\r\n\x03\r\n"
	for _, c := range []struct {
		what         string
		most         int
		text         func(n int) string
		hints        string
		reads, fails string // "" is not tried; * stands for any place
	}{
		{"members of a container", 1000, func(n int) string { return x3p("", fill(n-1)...) }, "", "1: 1 2", "0:0 limit"},
		{"depth of elements", 32, func(n int) string { return x3p(rep("<b>", n-1) + rep("</b>", n-1)) }, "", "1: 1 2", "1:100 limit"},
		{"bytes of the name of an element", 256, func(n int) string { return x3p("<" + rep("b", n) + "/>") }, "", "1: 1 2", "1:264 limit"},
		{"elements", 10_000 - 17, func(n int) string { return x3p(rep("<b/>", n)) }, "", "1: 1 2", "*limit"},
		{"bytes of a cell", 4096, func(n int) string {
			return string(pack(t, "main.xml", `<a><Record1><FeatureType>PRF</FeatureType><Axes><CX><AxisType>I</AxisType><Increment>1e-6</Increment></CX><CY><AxisType>I</AxisType></CY><CZ><AxisType>A</AxisType></CZ></Axes></Record1>`+
				`<Record3><MatrixDimension><SizeX>1</SizeX><SizeY>1</SizeY><SizeZ>1</SizeZ></MatrixDimension><DataList><Datum>`+rep(" ", n-4)+`1e-6</Datum></DataList></Record3></a>`))
		}, "", "1: 1", "*limit"},
		{"bytes of a line of names", 1 << 16, func(n int) string { return "x [µm];z [µm]" + rep(" ", n-15) + "\n0;1\n1;2\n" }, "", "1: 1 2", "2:1 ask x_unit z_unit"},
		{"bytes of a statement", 1 << 16, func(n int) string { return "z unit = µm" + rep(" ", n-12) + "\n1\n2\n" }, `{"spacing":1}`, "1: 1 2", "2:1 ask z_unit"},
		{"lines of a header", 1000, func(n int) string { return "x [µm];z [µm]\n" + rep("spacing = 1 µm\n", n-1) + "0;1\n1;2\n" }, "", "1: 1 2", "1002:1 ask z_unit"},
		{"words for a missing height", 100, func(n int) string { return "z [µm]\n1\n2\n" }, `{"spacing":1,"missing":[%]}`, "1: 1 2", "hints: "},
		{"rows of triples", 20_000, func(n int) string {
			var b strings.Builder
			for i := range n {
				fmt.Fprintf(&b, "0 %d 1\n1 %d 2\n", i, i)
			}
			return b.String()
		}, `{"heights":"triples","row":1,"x_unit":"um","z_unit":"um"}`, "1: 1 2", "40001:1 limit"},
		{"points that SMD announces", 1 << 27, func(n int) string { return fmt.Sprintf(smd, n, n) }, "", "0.5: 1 2", "3:1 limit"},
		{"points of a resampled trace", 1 << 22, func(n int) string { return fmt.Sprintf("0 1\n1 2\n%d 3\n", n-1) }, `{"x_unit":"um","z_unit":"um","resample":true,"spacing":1}`, "", "1:1 limit"},
	} {
		for n := c.most; n <= c.most+1; n++ {
			hints := strings.Replace(c.hints, "%", strings.TrimSuffix(rep(`"-",`, n), ","), 1)
			want := c.reads
			if n > c.most {
				want = c.fails
			}
			if want == "" { // takes long
				continue
			}
			got := outcome(c.text(n), hints)
			if suffix, ok := strings.CutPrefix(want, "*"); ok && !strings.HasSuffix(got, suffix) || !ok && got != want && !(strings.HasPrefix(want, "hints") && strings.HasPrefix(got, want)) {
				t.Errorf("%d %s: %.200s, want %s", n, c.what, got, want)
			}
		}
	}
}

// Of the lines of information ten thousand are kept, and a note says that there were more.
func TestBoundOfFields(t *testing.T) {
	for n := 9_999; n <= 10_001; n++ {
		trace := &tracefile.Trace{Profile: roughness.Profile{Z: []float64{1, 2}, Spacing: 0.5}}
		for i := range n {
			trace.Fields = append(trace.Fields, tracefile.Field{Key: fmt.Sprint("lot ", i), Value: "7"})
		}
		var b bytes.Buffer
		if err := tracefile.WriteSMD(&b, trace); err != nil {
			t.Fatal(err)
		}
		again, err := tracefile.Read(b.Bytes(), nil)
		if err != nil {
			t.Fatal(err)
		}
		noted := len(again.Notes) > 0 && again.Notes[len(again.Notes)-1].Code == "fields"
		if len(again.Fields) > 10_000 || noted != (len(again.Fields) < n) {
			t.Errorf("%d lines: %d kept, noted: %t", n, len(again.Fields), noted)
		}
	}
}

// UTF-16 without a mark is told from nine of ten characters that are Latin, a file of another kind by eight control characters that are more than a twentieth of its
// beginning, and by a zero byte in its first 4096 bytes where its first bytes alone could be text.
func TestBoundsOfEncodings(t *testing.T) {
	wide := func(foreign int, big bool) string {
		var b strings.Builder
		for i, r := range "# rod of a gate, place 7 of 9, traced on bench 2\n1\n2\n"[:50] {
			low, high := byte(r), byte(0)
			if i < foreign {
				low, high = 0x30, 0x4e
			}
			if big {
				low, high = high, low
			}
			b.WriteByte(low)
			b.WriteByte(high)
		}
		return b.String()
	}
	control := func(n, of int) string { return strings.Repeat("\x01", n) + strings.Repeat("y", of-n) }
	for _, c := range []struct {
		what, text, says string
	}{
		{"5 of 50 beyond Latin", wide(5, false), "distance between points"}, {"6 of 50 beyond Latin", wide(6, false), "a binary file"}, {"5 of 50 beyond Latin, big end first", wide(5, true), "distance between points"}, {"6 of 50 beyond Latin, big end first", wide(6, true), "a binary file"},
		{"7 control characters", control(7, 20), "no row of numbers"}, {"8 control characters", control(8, 20), "a binary file"}, {"a twentieth", control(10, 200), "no row of numbers"}, {"more than a twentieth", control(10, 199), "a binary file"},
		{"a zero byte at 4095", "BM" + strings.Repeat(" ", 4093) + "\x00", "a BMP picture"}, {"a zero byte at 4096", "BM" + strings.Repeat(" ", 4094) + "\x00", "a zero byte"},
		{"control characters at the end of what is looked at", strings.Repeat("y", 4096-205) + control(205, 205) + "y", "a binary file"}, {"one of them behind", strings.Repeat("y", 4096-204) + control(205, 205), "no row of numbers"},
	} {
		if _, err := tracefile.Read([]byte(c.text), nil); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %.200v, want %s", c.what, err, c.says)
		}
	}
}

// An error shows forty signs of a cell, and a word for a missing height has 64 at most.
func TestBoundsOfCells(t *testing.T) {
	for n := 39; n <= 41; n++ {
		word := strings.Repeat("y", n)
		if _, err := tracefile.Read([]byte("z [µm]\n1\n"+word+"\n2\n"), &tracefile.Hints{Spacing: 1}); err == nil || strings.Contains(err.Error(), word) != (n <= 40) {
			t.Errorf("%d signs: %v", n, err)
		}
	}
	for n := 63; n <= 65; n++ {
		word := strings.Repeat("y", n)
		if got := outcome("z [µm]\n1\n"+word+"\n2\n", `{"spacing":1,"missing":["`+word+`"]}`); n <= 64 && got != "1: 1 - 2" || n > 64 && got == "1: 1 - 2" {
			t.Errorf("a word of %d signs: %s", n, got)
		}
	}
	for n := 97; n <= 101; n++ {
		got := outcome("x [µm];z [µm]\n0;1\n1;2\n"+strings.Repeat("rod\n", n)+"x [µm];z [µm]\n0;3\n1;4\n", `{"trace":2}`)
		if want := map[bool]string{true: "1: 3 4", false: "no"}[n <= 98]; want != "no" && got != want || want == "no" && got == "1: 3 4" {
			t.Errorf("%d lines between two traces: %s", n, got)
		}
	}
}
