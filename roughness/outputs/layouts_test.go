package outputs

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// A table is a text of numbers as programs write it.
type table struct {
	head            []string
	delimiter, mark string
	columns         string // x z w n: place, height, another height, counter
	rows            int
	step            float64
	places          func(i int) float64 // nil: even
	form            byte
	decimals        int
	line            string
}

// text writes the table, and puts other cells in the place of some: by row and column.
func (t table) text(instead map[[2]int]string) string {
	var b strings.Builder
	for _, h := range t.head {
		b.WriteString(strings.ReplaceAll(h, ";", t.delimiter) + t.line)
	}
	for i := range t.rows {
		var cells []string
		for k, c := range t.columns {
			v := 0.1*float64(i*7%11) - 0.4
			switch c {
			case 'x':
				if v = t.step * float64(i); t.places != nil {
					v = t.places(i)
				}
			case 'w':
				v = 2 - 0.3*float64(i*5%7)
			case 'n':
				v = float64(i + 1)
			}
			cell := strings.Replace(strconv.FormatFloat(v, t.form, t.decimals, 64), ".", t.mark, 1)
			if c == 'n' {
				cell = strconv.Itoa(i + 1)
			}
			if other, ok := instead[[2]int{i, k}]; ok {
				cell = other
			}
			cells = append(cells, cell)
		}
		row := strings.Join(cells, t.delimiter)
		if other, ok := instead[[2]int{i, -1}]; ok {
			row = other
		}
		b.WriteString(row + t.line)
	}
	return b.String()
}

var heads = [][]string{
	nil, {"x;z"}, {"x [mm];z [µm]"}, {"Position / µm;Height / nm"}, {"x;z", "mm;µm"}, {"mm;µm"}, {"# a remark", "# spacing = 0.5 µm", "x_mm;z_um"}, {"Part 7, lock gate", "", "x in mm;depth in µm"}, {"spacing: 0,5 µm", "number of points: 12", "z (µm)"},
	{"unit of x = mm", "unit of z = nm"}, {"unit of x = mm", "x [µm];z [µm]"}, {"x [mm];z [µm]", "", "-----"}, {"Ra;0.4", "Rz;2.9", "x [mm];z [µm]"}, {"0.4;2.9", "x [mm];z [µm]"}, {"\"x [mm]\";\"z [µm]\""}, {"no;x [mm];z [µm]"}, {"x1 [mm];z1 [µm]"}, {"type: slope", "x [mm];slope [mrad]"}, {"x [mm];tilt [°]"}, {"step = 0.5", "z"}, {"sampling interval\t0.5\tµm", "height µm"}, {"Höhe (µm)"}, {"a;b"}, {"z [in];x [in]"},
	{"Height (µm)"}, {"Position / mm Height / µm"}, {"x : mm z = µm"}, {"/ x z"}, {": mm µm"}, {"\"x\" / z"}, {"x [mm]  z [µm]  "}, {"x(mm) {z}<µm>"},
}

// Tables of numbers in all forms, with one fault each at their beginning, in the middle and at the end.
func TestLayouts(t *testing.T) {
	keep(t, "layouts", func(p *page) {
		base := table{delimiter: ";", mark: ".", columns: "xz", rows: 12, step: 0.5, form: 'f', decimals: 4, line: "\n"}
		forms := []func(t *table){
			func(t *table) {}, func(t *table) { t.mark = "," }, func(t *table) { t.delimiter = "\t" }, func(t *table) { t.delimiter = "," }, func(t *table) { t.delimiter = " " }, func(t *table) { t.delimiter, t.mark = " ", "," }, func(t *table) { t.delimiter = "  " },
			func(t *table) { t.delimiter = ", " }, func(t *table) { t.delimiter = "|" }, func(t *table) { t.delimiter, t.mark = ",", "," }, func(t *table) { t.form, t.decimals = 'e', 3 }, func(t *table) { t.form, t.decimals = 'g', -1 }, func(t *table) { t.decimals = 0 }, func(t *table) { t.decimals, t.mark = 3, "," },
			func(t *table) { t.line = "\r\n" }, func(t *table) { t.line = "\r" }, func(t *table) { t.line = ";\n" },
		}
		sets := []string{"xz", "z", "xzw", "nxz", "zx", "nz", "xzxw", "zzzzz"}
		for i, head := range heads {
			var d digest
			for k, form := range forms {
				tab := base
				tab.head, tab.columns = head, sets[(i+k)%len(sets)]
				form(&tab)
				d.read(tab.text(nil), nil, 2)
				tab.rows = []int{1, 2, 3, 4, 5}[(i+k)%5]
				d.read(tab.text(nil), nil, 1)
				for _, columns := range []string{"xz", "z"} {
					tab.columns, tab.rows = columns, 9
					d.read(tab.text(nil), nil, 0)
				}
			}
			p.digest(fmt.Sprint("head ", i+1), &d)
		}
		cells := []string{"", " ", "-", "x", "NaN", "nan", "***", "9999", "-9999", "-32768", "1e400", "1e-400", "--1", "1.2.3", "1,2,3", "1 2", "\"0.5\"", "\"0.5", "0.5\"", "(0.5)", "+0.25", "−0.25", ".5", "5.", "1e", "1e5", "1d1", "0x10", "1'000", "1 000", "1.000,5", "1,000.5", "12345678901234567890", "0.1234567890123456789", "inf", "-inf", "0.5 µm", "#", "bad", "n/a", "1;2", "\x00", "9007199254740993", "1e22", "123456789e15", "1e23", "00.5", "0,5", "1,234", "1.234"}
		for i, cell := range cells {
			var d digest
			for _, form := range []int{0, 1, 3, 4, 10} {
				tab := base
				tab.head = heads[[]int{2, 0}[(i+form)%2]]
				forms[form](&tab)
				for _, row := range []int{0, 1, 6, 11} {
					for column := range 2 {
						d.read(tab.text(map[[2]int]string{{row, column}: cell}), nil, (row+i)%2)
					}
				}
				tab.columns = "z"
				tab.head = heads[8]
				for _, row := range []int{0, 6, 11} {
					d.read(tab.text(map[[2]int]string{{row, 0}: cell}), nil, 0)
				}
			}
			p.digest(fmt.Sprintf("cell %q", cell), &d)
		}
		for i, head := range [][]string{heads[0], heads[2], {"Höhe 😀 [µm];x [mm]"}, {"é;\ud7ff\ufffd"}} {
			var d digest
			tab := base
			tab.head, tab.rows = head, 6
			for _, text := range []string{tab.text(nil), "\ufeff" + tab.text(nil), tab.text(map[[2]int]string{{2, -1}: "a😀;b"}), tab.text(map[[2]int]string{{1, 1}: "x"})} {
				for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
					var b []byte
					for _, u := range utf16.Encode([]rune(text)) {
						b = order.AppendUint16(b, u)
					}
					d.read(string(b), nil, 1)
					d.read(string(b[:len(b)-1]), nil, 0)
					d.read(string(b[:20])+"\x00\xd8"+string(b[20:]), nil, 0)
					d.read(string(b[:20])+"\xd8\x00\xdc\x00"+string(b[20:]), nil, 0)
				}
				d.read(strings.Map(func(r rune) rune { return min(r, 255) }, text), nil, 0)
				d.read(strings.NewReplacer("µ", "\xb5", "ö", "\xf6", "é", "\xe9").Replace(text), nil, 1)
			}
			p.digest(fmt.Sprint("encoded ", i+1), &d)
		}
		said := append(sweep(0.4, 0.6, 9), 0.5)
		for _, off := range []float64{1e-5, 1e-4, 1.5e-4, 2.5e-4, 4e-4, 6e-4, 9e-4, 1.1e-3, 1.8e-3, 3e-3, 6e-3, 9e-3} {
			said = append(said, 0.5*(1+off), 0.5*(1-off))
		}
		for _, spacing := range said {
			var d digest
			for _, form := range []int{0, 1, 2} {
				tab := base
				tab.head = []string{"x [µm];z [µm]"}
				forms[form](&tab)
				d.read(tab.text(nil), &tracefile.Hints{Spacing: spacing}, 0)
				d.read(tab.text(map[[2]int]string{{0, -1}: "", {1, -1}: "", {5, -1}: ""}), &tracefile.Hints{Spacing: spacing, BlankLines: []string{"", "missing", "skip"}[form]}, 0)
				tab.columns, tab.head = "z", []string{"z [µm]"}
				d.read(tab.text(map[[2]int]string{{0, -1}: "", {5, -1}: ""}), &tracefile.Hints{Spacing: spacing, Trace: form}, 0)
				d.read(fmt.Sprintf("spacing = %v µm\n", spacing)+tab.text(nil), nil, 0)
				tab.columns, tab.head = "xz", []string{fmt.Sprintf("spacing = %v µm", spacing), "x [µm];z [µm]"}
				d.read(tab.text(nil), nil, 0)
			}
			p.digest(fmt.Sprint("spacing said ", spacing), &d)
		}
		// whole numbers of three digits beside numbers with a mark before three digits
		for i, cells := range [][]string{{"998", "999", "1,000", "1,001"}, {"98", "99", "1,000", "1,001"}, {"998", "-999", "1.000", "+100"}, {"1,500", "2,250", "3,125", "4,750"}, {"1.5", "999", "1,000", "2"}} {
			for k, head := range [][]string{heads[0], heads[2], heads[10], {"z [µm]"}, {"a;b"}} {
				var d digest
				for _, form := range []int{0, 2, 3, 4} {
					tab := base
					tab.head, tab.rows = head, 4
					forms[form](&tab)
					instead := map[[2]int]string{}
					for row, cell := range cells {
						instead[[2]int{row, 1}] = cell
					}
					d.read(tab.text(instead), nil, 1)
					tab.columns = "z"
					for row, cell := range cells {
						instead[[2]int{row, 0}] = cell
					}
					d.read(tab.text(instead), nil, 1)
				}
				p.digest(fmt.Sprint("three digits ", i+1, " ", k+1), &d)
			}
		}
		for _, columns := range sets {
			var d digest
			for _, h := range []tracefile.Hints{{ZColumn: 1}, {ZColumn: 2}, {ZColumn: 3}, {XColumn: 1}, {XColumn: 2}, {XColumn: 3}, {YColumn: 1}, {XColumn: 1, ZColumn: 3}, {YColumn: 2, ZColumn: 3}, {Trace: 2}, {Row: 2}, {Column: 2}, {Heights: "matrix"}, {Heights: "triples"}, {Heights: "rows"}, {Heights: "column"}, {First: "spacing"}, {ZColumn: 2, XUnit: "mm"}} {
				for k, head := range [][]string{heads[0], heads[2], heads[15], heads[1], heads[6]} {
					tab := base
					tab.head, tab.columns = head, columns
					tab.rows = []int{12, 1, 2, 5, 9}[(k+h.ZColumn)%5]
					d.read(tab.text(nil), &h, 1)
				}
			}
			p.digest("columns "+columns, &d)
		}
		for _, unit := range []string{"µm", "mm", "m", "nm"} {
			var d digest
			for _, row := range []int{0, 1, 5, 11} {
				for _, cell := range []string{"1e302", "1e304", "1e306", "-1e306", "1e308", "1e-308"} {
					tab := base
					tab.head = []string{"x [mm];z [" + unit + "]"}
					d.read(tab.text(map[[2]int]string{{row, 1}: cell}), nil, 0)
					tab.head = []string{"x [" + unit + "];z [mm]"}
					d.read(tab.text(map[[2]int]string{{row, 0}: cell}), nil, 0)
				}
			}
			p.digest("too large in "+unit, &d)
		}
		lines := []string{"", " ", "x;z", "1", "1;2;3", "1;2;3;4", ";", ";;", "# remark", "// remark", "end", "x [mm];z [µm]", "---", "Rz = 3.2 µm", "0.5", "; 2", "2 ;", "\t", "NaN;NaN", "\x1a", "spacing = 2 µm", "1;2;"}
		for i, line := range lines {
			var d digest
			for _, form := range []int{0, 1, 2, 4, 14, 15} {
				tab := base
				tab.head = heads[[]int{2, 0, 6}[(i+form)%3]]
				forms[form](&tab)
				line := strings.ReplaceAll(line, ";", tab.delimiter)
				for _, row := range []int{0, 1, 2, 6, 10, 11} {
					text := tab.text(map[[2]int]string{{row, -1}: line})
					d.read(text, nil, (row+i)%2)
					d.read(tab.text(map[[2]int]string{{row, -1}: line + tab.line + line}), &tracefile.Hints{XUnit: "mm", ZUnit: "µm", BlankLines: []string{"", "missing", "skip"}[(i+row)%3]}, 0)
				}
				d.read(strings.TrimRight(tab.text(nil), "\r\n")+line, nil, 0)
				d.read(line+tab.line+tab.text(nil), nil, 0)
				d.read(tab.text(nil)+line+tab.line+tab.text(nil), nil, 1)
			}
			p.digest(fmt.Sprintf("line %q", line), &d)
		}
		// places that are not even, by little and by much
		units := &tracefile.Hints{XUnit: "µm", ZUnit: "µm", Delimiter: ";", Decimal: "."}
		again := *units
		again.Resample = true
		coarse := again
		coarse.Spacing = 0.7
		uneven := func(name string, at func(i int, off float64) float64) {
			var d digest
			for k, off := range append(sweep(1e-7, 3, 44), 0, -0.2, -0.5, -1, -7) {
				tab := base
				tab.head, tab.form, tab.decimals, tab.rows = heads[0], 'g', -1, 9+k%3
				tab.places = func(i int) float64 { return math.Round(1e7*at(i, off)) / 1e7 }
				for m, h := range []*tracefile.Hints{units, &again, &coarse} {
					if m == 0 || k%3 == 0 {
						d.read(tab.text(nil), h, 0)
					}
					if k%4 == 0 {
						d.read(tab.text(map[[2]int]string{{3 + m, 1}: "NaN"}), h, 0)
					}
				}
			}
			p.digest(name, &d)
		}
		uneven("one place off", func(i int, off float64) float64 {
			if i == 4 {
				return 2 + off
			}
			return 0.5 * float64(i)
		})
		uneven("the first place off", func(i int, off float64) float64 {
			if i == 0 {
				return -off
			}
			return 0.5 * float64(i)
		})
		uneven("from a place on", func(i int, off float64) float64 { return 0.5*float64(i) + off*float64(i/5) })
		uneven("growing steps", func(i int, off float64) float64 { return 100 + float64(i)*(0.5+off*float64(i)/9) })
		uneven("falling", func(i int, off float64) float64 { return -float64(i)*(0.5+off) + off*float64(i/7)/3 })
		uneven("far away", func(i int, off float64) float64 { return 1e5*off + 0.001*float64(i) })
		for i, hint := range hintTexts {
			h, err := tracefile.ParseHints([]byte(hint))
			if err != nil {
				continue
			}
			var d digest
			for k := range 24 {
				tab := base
				tab.head, tab.columns = heads[(5*i+k)%len(heads)], sets[(i+3*k)%len(sets)]
				forms[(3*i+k)%len(forms)](&tab)
				d.read(tab.text(nil), h, k%2)
			}
			p.digest("hint "+hint, &d)
		}
		for i, unit := range []string{"µm", "μm", "um", "UM", "mm", "MM", "M", "m", "nm", "in", "\"", "µin", "uin", "inch", "inches", "mil", "mils", "micron", "microns", "pm", "Å", "km", "rad", "mrad", "µrad", "deg", "°", "%", "x", "", "micrometres", "millimeter", "[mm]"} {
			var d digest
			for _, format := range []string{"x [%s];z [µm]", "x %s;z µm", "x_mm;z_%s", "x/mm;z/%s", "x;z (%s)", "unit of z = %s", "spacing = 0.5 %s", "Position in %s;Height, µm"} {
				tab := base
				tab.head = []string{fmt.Sprintf(format, unit)}
				d.read(tab.text(nil), nil, 1)
				tab.columns = "z"
				d.read(tab.text(nil), &tracefile.Hints{ZUnit: unit, XUnit: []string{"", "mm"}[i%2]}, 1)
			}
			p.digest("unit "+unit, &d)
		}
		for i, z := range [][]float64{{0, 1, 2, 3}, {0.5, 1, 2, 3}, {3, 2, 1, 0}, {2, 4, 1, 2, 3, 4}, {2, 3, 1, 2, 3}, {4, 5, 1, 2, 3, 4, 5}, {0.5, 4, 1, 2, 3, 4}} {
			text := ""
			for _, v := range z {
				text += strconv.FormatFloat(v, 'g', -1, 64) + "\n"
			}
			var d digest
			d.read(text, nil, 2)
			for _, h := range []tracefile.Hints{{First: "spacing"}, {First: "length-count"}, {First: "span-count"}, {Heights: "column"}, {Spacing: 2}, {ZUnit: "µm", Spacing: 1}, {Heights: "rows", Spacing: 1}} {
				d.read(text, &h, 1)
			}
			p.digest(fmt.Sprint("first numbers ", i+1), &d)
		}
		for _, height := range sweep(0.5, 400, 30) {
			var d digest
			d.read(fmt.Sprintf("x [mm];z [nm]\n0;0\n1;%v\n2;1\n3;0.1\n", height/10), nil, 0)
			p.digest(fmt.Sprint("nanometres ", height), &d)
		}
	})
}

// members are what a packed file holds.
func members(t testing.TB, data string) map[string]string {
	archive, err := zip.NewReader(strings.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	m := map[string]string{}
	for _, f := range archive.File {
		m[f.Name] = unpacked(t, f)
	}
	return m
}

func packed(m map[string]string) string {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, name := range names(m) {
		to, _ := w.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		io.WriteString(to, m[name])
	}
	w.Close()
	return b.String()
}

// Files of the formats with one field, number, element or byte each that is another.
func TestFormats(t *testing.T) {
	keep(t, "formats", func(p *page) {
		gap := ground(24)
		gap[3], gap[20], gap[21] = math.NaN(), math.NaN(), math.NaN()
		traces := []tracefile.Trace{{Profile: roughness.Profile{Z: gap, Spacing: 0.5, Name: "a"}, Origin: 2}, {Profile: roughness.Profile{Z: ground(9), Spacing: 0.25, Name: "b", Traced: roughness.Traced{Instrument: "bench", TipRadius: 2, Speed: 0.5, Date: "2026-03-03"}}, Fields: []tracefile.Field{{Key: "lot", Value: "7"}}}}
		write := func(i int, w func(io.Writer, *tracefile.Trace) error) string {
			var b bytes.Buffer
			if err := w(&b, &traces[i]); err != nil {
				t.Fatal(err)
			}
			return b.String()
		}
		number := regexp.MustCompile(`-?\d+(\.\d+)?([eE][-+]?\d+)?`)
		others := []string{"0", "-1", "1", "2", "1e-3", "x", "", "1e999", "3.5", "200000000", "7", "BAD", "nan", "1 2"}
		for i := range traces {
			for name, w := range map[string]func(io.Writer, *tracefile.Trace) error{"SDF": tracefile.WriteSDFText, "SMD": tracefile.WriteSMD} {
				if name == "SMD" && i == 0 { // which has no word for a missing height
					traces[0].Profile.Z[3], traces[0].Profile.Z[20], traces[0].Profile.Z[21] = 1, 2, 3
				}
				text := write(i, w)
				traces[0].Profile.Z[3], traces[0].Profile.Z[20], traces[0].Profile.Z[21] = math.NaN(), math.NaN(), math.NaN()
				var d, l digest
				for k, at := range number.FindAllStringIndex(text, -1) {
					for m, other := range others {
						if k > 25 && m > 2 {
							break
						}
						d.read(text[:at[0]]+other+text[at[1]:], nil, 0)
					}
				}
				lines := strings.SplitAfter(text, "\n")
				for k := range lines {
					for _, other := range []string{"", lines[k] + lines[k], "\n", "*\n", "\x03\r\n", "x\n", "key = value\n", "Rz\n", strings.ToUpper(lines[k]), strings.ReplaceAll(lines[k], " ", "  "), strings.ReplaceAll(lines[k], "=", "")} {
						d.read(strings.Join(lines[:k], "")+other+strings.Join(lines[k+1:], ""), nil, 0)
					}
					for word := range strings.FieldsSeq(lines[k]) {
						if k < 14 {
							for _, other := range []string{"", "A", "I", "mm", "PRF", "CX", "0", "R", "D", "F", "m"} {
								l.read(strings.Join(lines[:k], "")+strings.Replace(lines[k], word, other, 1)+strings.Join(lines[k+1:], ""), nil, 0)
							}
						}
					}
				}
				p.digest(fmt.Sprint(name, " numbers and lines ", i+1), &d)
				p.digest(fmt.Sprint(name, " words ", i+1), &l)
			}
			binary := write(i, tracefile.WriteSDFBinary)
			for at := range min(100, len(binary)) {
				var d digest
				for _, other := range []byte{0, 1, 2, 7, '0', '5', ' ', 0x7f, 0x80, 0xff} {
					d.read(binary[:at]+string([]byte{other})+binary[at+1:], nil, 1)
				}
				d.read(binary[:at], nil, 0)
				d.read(binary[:len(binary)-at/2], nil, 0)
				if at%5 == 4 {
					p.digest(fmt.Sprint("SDF byte ", at, " of ", i+1), &d)
				}
			}
			for kind := range byte(9) {
				var d digest
				for _, row := range []int{0, 1, 2, 3} {
					area := []byte(binary + strings.Repeat("\x00\x80\x01\x00", 60))
					area[42], area[43], area[44], area[45], area[79] = 4, 0, 3, 0, kind
					d.read(string(area), &tracefile.Hints{Row: row}, 0)
					d.read(string(area), &tracefile.Hints{Column: row}, 0)
				}
				p.digest(fmt.Sprint("SDF kind ", kind, " ", i+1), &d)
			}
			parts := members(t, write(i, tracefile.WriteX3P))
			main := parts["main.xml"]
			var texts, tags, sizes digest
			with := func(d *digest, name, text string) {
				m := map[string]string{}
				for k, v := range parts {
					m[k] = v
				}
				if m[name] = text; text == "gone" {
					delete(m, name)
				}
				d.read(packed(m), nil, 0)
			}
			for _, at := range regexp.MustCompile(`>[^<>]*</`).FindAllStringIndex(main, -1) {
				for _, other := range []string{"", "A", "I", "L", "F", "D", "0", "1", "2", "12", "-1", "x", "1e-7", "PRF", "SUR", "../x", "bindata/data.bin", "1e999", "400000000"} {
					with(&texts, "main.xml", main[:at[0]+1]+other+main[at[1]-2:])
				}
			}
			for k, at := range regexp.MustCompile(`<[^<>]*>`).FindAllStringIndex(main, -1) {
				with(&tags, "main.xml", main[:at[0]]+main[at[1]:])
				if k%2 == 0 {
					with(&tags, "main.xml", main[:at[1]]+"<Extra>7</Extra>"+main[at[1]:])
					with(&tags, "main.xml", main[:at[1]])
				}
			}
			for _, name := range names(parts) {
				if text := parts[name]; name != "main.xml" {
					for _, other := range []string{"gone", "", text[:len(text)-1], text[:len(text)/2], text + "\x00", text + text, strings.Repeat("\xff", len(text)), strings.ToUpper(text)} {
						with(&sizes, name, other)
					}
				}
			}
			for _, other := range []string{"sub/main.xml", "main.XML", "__MACOSX/main.xml", "a.txt"} {
				m := map[string]string{}
				for k, v := range parts {
					if k == "main.xml" {
						k = other
					}
					m[k] = v
				}
				sizes.read(packed(m), nil, 0)
			}
			data := regexp.MustCompile(`(?s)<DataLink>.*</DataLink>`)
			list := func(cells ...string) string {
				return "<DataList><Datum>" + strings.Join(cells, "</Datum><Datum>") + "</Datum></DataList>"
			}
			for _, cells := range [][]string{{"1"}, {"1", "2", "", "nan", "1e-6"}, {"0;1", "1;2", "2;3"}, {"0;0;1", "1;0;2", "2;0;3"}, {"1;2;3;4"}, {"x"}, slices.Repeat([]string{"1e-6"}, len(traces[i].Profile.Z)), slices.Repeat([]string{"0;0;2e-6"}, len(traces[i].Profile.Z)), slices.Repeat([]string{"2e-6;1e-6"}, len(traces[i].Profile.Z)+1)} {
				inline := data.ReplaceAllString(main, list(cells...))
				with(&sizes, "main.xml", inline)
				with(&sizes, "main.xml", strings.Replace(inline, "<AxisType>I</AxisType>", "<AxisType>A</AxisType>", 1))
				with(&sizes, "main.xml", strings.ReplaceAll(inline, "<AxisType>I</AxisType>", "<AxisType>A</AxisType>"))
			}
			p.digest(fmt.Sprint("X3P texts ", i+1), &texts)
			p.digest(fmt.Sprint("X3P tags ", i+1), &tags)
			p.digest(fmt.Sprint("X3P parts ", i+1), &sizes)
		}
		slices.Sort(p.lines)
	})
}
