package record_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// random is a sheet of random traces, settings, requirements and texts.
func random(r *rand.Rand) *record.Sheet {
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	s := &record.Sheet{Name: pick("", "rod", "ä <&> \"7\"\n\t"), Invented: r.IntN(2) == 0}
	s.Asked = record.Asked{Text: pick("", "Rz 3,2", "Rz 3,2", "Ra 0,8", "Ra 0,8; Rz 6,3", "U Rz 4 T16% / L Rz 1", "Rsk 0", "Rz 3,2 Sc9", "Pt 10", "Rmr(0,5) 20%"), Agreed: pick("", "the customer", "the customer", "the customer")}
	if s.Asked.Text != "" {
		s.Asked.U = pick("", "0.12", "Rz 0.12; Ra 0.02")
		s.Asked.Rule = pick("", "", "median")
		if s.Asked.U != "" {
			s.Asked.Prove, s.Asked.Guard, s.Asked.K = pick("", "maker", "buyer", "none"), pick("", "1998", "2017"), float64(r.IntN(3))
		}
	}
	if s.Asked.Text == "" && r.IntN(2) == 0 {
		s.Asked.Limit = pick("Rz <= 3.2", "Ra <= 0.8; Rz >= 1")
	}
	set := &roughness.Settings{Edition: standards.EditionID(pick("", "iso-21920", "iso-4287", "asme-b46.1")), Sections: r.IntN(3), Parameters: []string{"Rz", "Ra", "Rq", "Rsk", "Rk", "Rmr(0.5)"}}
	set.Long.Spec.Cutoff = []float64{0, 250, 80}[r.IntN(3)]
	if r.IntN(3) == 0 {
		set.Long.Spec.Filter = pick("gaussian", "robust-gaussian", "spline")
	}
	if r.IntN(4) == 0 {
		set.Form = roughness.FormSpec{Kind: "polynomial", Degree: 1 + r.IntN(4)}
	}
	if r.IntN(3) > 0 {
		s.Settings = set
	}
	for i := range r.IntN(3) {
		p := roughness.Profile{Name: fmt.Sprintf("place %d.csv", i+1), Spacing: []float64{0.5, 1.0 / 3, 1, 2}[r.IntN(4)]}
		scale := math.Exp(4 * (r.Float64() - 0.5))
		n := 600 + r.IntN(2000)
		for k := range n {
			z := scale * (math.Sin(float64(k)/7) + r.NormFloat64()/3)
			if r.IntN(500) == 0 {
				z = math.NaN()
			}
			p.Z = append(p.Z, z)
		}
		t := record.SheetTrace{Profile: p, LeftOut: pick("", "", "", "a scratch"), Reading: pick("", "SMD")}
		if r.IntN(2) == 0 {
			t.File = record.NewFile(p.Name, []byte(p.Name))
		}
		s.Traces = append(s.Traces, t)
	}
	if r.IntN(3) == 0 {
		s.Typed = []record.TypedValue{{Text: "Rz 2.9", From: "a print"}, {Text: "Ra 0.4; 0.5"}}
	}
	return s
}

// Whatever the sheet, its record opens, comes out the same, and is made again to the last byte.
func TestRandomRecords(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 11))
	words, tried := map[string]int{}, 0
	for i := range 120 {
		s := random(r)
		rec, err := s.Record(noon)
		var field *record.FieldError
		var setting *roughness.SettingError
		switch {
		case errors.Is(err, judge.ErrMixed), errors.As(err, &field), errors.As(err, &setting):
			continue
		case err != nil:
			t.Fatalf("sheet %d: %v", i, err)
		}
		tried++
		data := record.AppendRecord(nil, rec)
		if err := validate(record.RecordSchema, data); err != nil {
			t.Fatalf("sheet %d: %v", i, err)
		}
		o := opened(t, data)
		words[string(o.Word)]++
		v, err := o.Verify()
		if err != nil || !v.Same {
			t.Errorf("sheet %d: %v, %v", i, err, v)
			continue
		}
		if again := record.AppendRecord(nil, v.Again); !bytes.Equal(again, data) {
			t.Errorf("sheet %d: made again it differs: %s", i, firstDifference(data, again))
		}
		page := record.AppendPage(nil, rec, record.Display{Comma: i%2 == 0, Inch: i%3 == 0})
		if again := opened(t, page); again.Made != o.Made {
			t.Errorf("sheet %d: the page carries another record", i)
		}
		if bytes.Contains(page, []byte("NaN")) && !strings.Contains(string(data), "NaN") {
			t.Errorf("sheet %d: NaN on the page", i)
		}
	}
	t.Logf("%d records, %v", tried, words)
	if tried < 60 || len(words) < 4 {
		t.Errorf("%d records, %v: the sheets are one-sided", tried, words)
	}
}

// The bytes of a record do not depend on where it is made: the checksums of its blocks in testdata were written on linux/amd64, and this
// test holds on every platform. When a value, a setting or a sentence was meant to change, run it with -update.
func TestRecordIsTheSameEverywhere(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	list := []*record.Sheet{rod(), {Asked: record.Asked{Text: "Ra 0,8; Rz 6,3", U: "Rz 0.12; Ra 0.02"}}, {Asked: record.Asked{Text: "Rz 12,5", Edition: standards.ISO4287}}, {Settings: &roughness.Settings{Profile: roughness.W}}}
	for i, s := range list[1:] {
		s.Traces = []record.SheetTrace{{Profile: trace(i+1, 9601)}}
	}
	for i, s := range list {
		var doc struct {
			Sha256 struct{ Parts map[string]string }
		}
		if err := json.Unmarshal(record.AppendRecord(nil, made(t, s)), &doc); err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"settings", "origins", "traces", "results", "verdict", "cautions", "heights"} {
			fmt.Fprintf(&b, "record %d %s %s\n", i+1, name, doc.Sha256.Parts[name])
		}
	}
	name := filepath.Join("testdata", "everywhere.txt")
	if *update {
		if err := os.WriteFile(name, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Split(b.String(), "\n")
	for i, line := range strings.Split(string(want), "\n") {
		if i >= len(got) || got[i] != line {
			t.Errorf("%s/%s: %s, want %s", runtime.GOOS, runtime.GOARCH, got[min(i, len(got)-1)], line)
		}
	}
}

// Records that were made on one platform come out the same on every other one.
func TestKeptRecords(t *testing.T) {
	for _, name := range []string{"kept-linux-amd64.html", "kept-js-wasm.json"} {
		file := filepath.Join("testdata", name)
		if *update && strings.Contains(name, runtime.GOOS+"-"+runtime.GOARCH) {
			data := record.AppendRecord(nil, made(t, short()))
			if filepath.Ext(name) == ".html" {
				data = record.AppendPage(nil, made(t, short()), record.Display{})
			}
			if err := os.WriteFile(file, data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		o := opened(t, data)
		if v, err := o.Verify(); err != nil || !v.Same || strings.ReplaceAll(o.Made.Platform, "/", "-") != strings.TrimPrefix(strings.TrimSuffix(name, filepath.Ext(name)), "kept-") {
			t.Errorf("%s on %s/%s: %v, %+v", name, runtime.GOOS, runtime.GOARCH, err, v)
		}
	}
}

// The file is whole or the old one: what cannot be written leaves it as it was, and no temporary file stays.
func TestWriteFile(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "record.json")
	for _, text := range []string{"first", "second, longer"} {
		if err := record.WriteFile(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(name); err != nil || string(got) != text {
			t.Errorf("%q, %v", got, err)
		}
	}
	if err := record.WriteFile(filepath.Join(dir, "no", "record.json"), nil); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%v", err)
	}
	if err := os.Mkdir(filepath.Join(dir, "folder"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := record.WriteFile(filepath.Join(dir, "folder"), []byte("x")); err == nil {
		t.Error("a folder was written over")
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".*")); len(left) > 0 {
		t.Errorf("%v stayed", left)
	}
}
