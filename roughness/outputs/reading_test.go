package outputs

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// traceFiles are the traces of testdata, by their names below it.
func traceFiles(t testing.TB) (names []string, data map[string]string) {
	data = map[string]string{}
	root := filepath.Join("..", "..", "testdata")
	for _, folder := range []string{"formats", "layouts", "tracefile"} {
		err := filepath.WalkDir(filepath.Join(root, folder), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || slices.Contains([]string{".py", ".md", ".json", ".go"}, filepath.Ext(path)) {
				return err
			}
			b, err := os.ReadFile(path)
			name, _ := filepath.Rel(root, path)
			name = filepath.ToSlash(name)
			names, data[name] = append(names, name), string(b)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return names, data
}

var hintTexts = []string{
	`{"x_unit":"mm"}`, `{"x_unit":"in"}`, `{"z_unit":"nm"}`, `{"z_unit":"mm","x_unit":"mm"}`, `{"z_unit":"m","x_unit":"µin"}`, `{"decimal":","}`, `{"decimal":"."}`,
	`{"delimiter":"tab"}`, `{"delimiter":";"}`, `{"delimiter":","}`, `{"delimiter":"blank"}`, `{"x_column":1,"z_column":2}`, `{"x_column":2,"z_column":1}`,
	`{"z_column":1,"spacing":0.5}`, `{"z_column":2,"spacing":1.5}`, `{"z_column":9}`, `{"skip_lines":3}`, `{"skip_lines":400}`, `{"missing":["9.99","n/a"]}`, `{"heights":"column"}`,
	`{"heights":"rows","spacing":1}`, `{"heights":"matrix","row":2}`, `{"heights":"matrix","column":1}`, `{"heights":"triples","y_column":2}`, `{"first":"spacing"}`,
	`{"first":"length-count"}`, `{"first":"span-count"}`, `{"integrate":true}`, `{"blank_lines":"missing"}`, `{"blank_lines":"skip","spacing":2}`,
	`{"resample":true}`, `{"resample":true,"x_column":1,"z_column":2,"x_unit":"mm","z_unit":"µm"}`, `{"trace":1}`, `{"trace":2}`, `{"trace":7}`, `{"spacing":0.25}`,
	`{"x_unit":"mm","z_unit":"µm","delimiter":"tab","decimal":","}`, `{"x_unit":"mm","z_unit":"µm","delimiter":";","decimal":",","x_column":1,"z_column":2}`,
}

// read puts what a file gives with hints, and with each answer to what it leaves open.
func (d *digest) read(data string, hints *tracefile.Hints, deeper int) {
	all, err := tracefile.ReadAll([]byte(data), hints)
	d.put(all)
	d.put(err)
	if err == nil && deeper > 0 {
		one, err := tracefile.Decode(context.Background(), strings.NewReader(data), hints, nil)
		d.put(one)
		d.put(err)
	}
	for _, q := range tracefile.IsQuestion(err) {
		d.put(q)
		for _, a := range q.Answers {
			if deeper == 0 || a.Value == "" {
				continue
			}
			h := tracefile.Hints{}
			if hints != nil {
				h = *hints
			}
			if err := answered(&h, q.Hint, a.Value); err != nil {
				d.put(err)
				continue
			}
			d.read(data, &h, deeper-1)
		}
	}
}

// answered sets a hint to the value of an answer, a word or a number.
func answered(h *tracefile.Hints, key, value string) error {
	quoted, err := json.Marshal(value)
	if err != nil {
		return err
	}
	for _, v := range []string{string(quoted), value} {
		if err = json.Unmarshal([]byte(`{"`+key+`":`+v+`}`), h); err == nil {
			return nil
		}
	}
	return err
}

func TestReading(t *testing.T) {
	keep(t, "reading", func(p *page) {
		names, files := traceFiles(t)
		var hints []*tracefile.Hints
		for _, text := range hintTexts {
			h, err := tracefile.ParseHints([]byte(text))
			p.sum("hints "+text, h, err)
			if err == nil {
				hints = append(hints, h)
			}
			var d digest
			for _, bad := range spoilt(text, 12, source(len(text)), `x",:{}19-`) {
				h, err := tracefile.ParseHints([]byte(bad))
				d.put(h)
				d.put(err)
			}
			p.digest("hints spoilt "+text, &d)
		}
		for i, name := range names {
			data := files[name]
			var plain, wrong, hinted digest
			plain.read(data, nil, 2)
			p.digest("read "+name, &plain)
			count := 12
			if strings.Contains(name, "written") {
				count = 120
			}
			for _, bad := range spoiltFile(t, name, data, count, source(i)) {
				wrong.read(bad, nil, 0)
			}
			p.digest("read spoilt "+name, &wrong)
			for _, h := range hints {
				hinted.read(data, h, 0)
			}
			p.digest("read with hints "+name, &hinted)
		}
		p.sum("asked", tracefile.Asked())
	})
}

// spoiltFile spoils a file, a packed one in its main document.
func spoiltFile(t testing.TB, name, data string, count int, seed source) []string {
	const signs = ";,\t \n\rx9-e\"'.#N\x00\xff<>"
	list := spoilt(data, count, seed, signs)
	if filepath.Ext(name) != ".x3p" {
		return list
	}
	archive, err := zip.NewReader(strings.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var main string
	for _, f := range archive.File {
		if f.Name == "main.xml" {
			main = unpacked(t, f)
		}
	}
	for _, bad := range spoilt(main, 2*count, seed, signs) {
		var b bytes.Buffer
		w := zip.NewWriter(&b)
		for _, f := range archive.File {
			text := bad
			if f.Name != "main.xml" {
				text = unpacked(t, f)
			}
			to, err := w.Create(f.Name)
			if err != nil {
				t.Fatal(err)
			}
			to.Write([]byte(text))
		}
		w.Close()
		list = append(list, b.String())
	}
	return list
}

func unpacked(t testing.TB, f *zip.File) string {
	r, err := f.Open()
	if err != nil {
		t.Fatal(err)
	}
	b, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestWriting(t *testing.T) {
	keep(t, "writing", func(p *page) {
		gap := ground(60)
		gap[3], gap[30], gap[31] = math.NaN(), math.NaN(), math.NaN()
		traces := []tracefile.Trace{
			{Profile: roughness.Profile{Z: ground(40), Spacing: 0.5, Name: "a trace"}, Origin: 12.5},
			{Profile: roughness.Profile{Z: gap, Spacing: 1.0 / 3, Name: "ä <&> \"7\"\nline", Traced: roughness.Traced{Instrument: "bench", TipRadius: 2, ConeAngle: 60, Force: 0.75, Speed: 0.5, Date: "2026-03-03", Place: "place 3", Skid: roughness.WithoutSkid}},
				Fields: []tracefile.Field{{Key: "operator", Value: "a; b"}, {Key: "lot", Value: "7"}}, Notes: []roughness.Note{{Code: "x", Text: "a note"}}},
			{Profile: roughness.Profile{Z: []float64{1e5, -2e5, 3}, Spacing: 1000}},
			{Profile: roughness.Profile{Z: []float64{1}, Spacing: 0}},
			{Profile: roughness.Profile{Z: []float64{1, math.NaN()}, Spacing: 1e-5}},
			{},
		}
		for i := range traces {
			for name, write := range map[string]func(io.Writer, *tracefile.Trace) error{"SDF binary": tracefile.WriteSDFBinary, "SDF text": tracefile.WriteSDFText, "SMD": tracefile.WriteSMD,
				"text": tracefile.WriteText, "X3P": tracefile.WriteX3P} {
				var b bytes.Buffer
				var d digest
				d.put(write(&b, &traces[i]))
				if name == "X3P" && b.Len() > 0 { // what is packed, as another version of Go may pack otherwise
					archive, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
					if err != nil {
						t.Fatal(err)
					}
					for _, f := range archive.File {
						d.mark(f.Name)
						if strings.HasSuffix(f.Name, ".xml") {
							d.text(unpacked(t, f))
						}
					}
				} else {
					d.text(b.String())
				}
				again, err := tracefile.Read(b.Bytes(), nil)
				d.put(again)
				d.put(err)
				p.digest(fmt.Sprintf("write %s %d", name, i+1), &d)
			}
		}
		slices.Sort(p.lines)
	})
}
