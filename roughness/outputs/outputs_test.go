// Package outputs is a record of what furrow gives: its tests walk the data of this repository and invented surfaces through everything, and
// compare with the files in testdata. It is a guard against change and proves nothing: the other tests say what is right.
//
// Whoever changes an output on purpose runs
//
//	go test ./roughness/outputs -update
//
// looks at the lines that differ, and says in CHANGELOG.md why.
package outputs

import (
	"flag"
	"fmt"
	"hash/fnv"
	"maps"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
)

var update = flag.Bool("update", false, "write the record of outputs")

// A page is the record of one room: a line a case, "name | checksum | numbers".
type page struct {
	t     *testing.T
	lines []string
	seen  map[string]bool
	want  map[string]string // with -failfast: the lines by their names, compared as they come
}

// Rooms that try whole families of inputs take long, and show on another platform nothing that the others do not show.
var families = strings.Fields("questions changed changed-texts checks verdicts differences layouts formats lengths marks charts faults varied borders drawn-texts drawn-studies drawn-checks drawn-sheets drawn-figures drawn-words")

// keep runs a room and compares its lines.
func keep(t *testing.T, name string, room func(p *page)) {
	if testing.Short() && slices.Contains(families, name) {
		t.Skip("a whole family of inputs, which -short leaves out")
	}
	t.Parallel()
	p := &page{t: t, seen: map[string]bool{}}
	file := filepath.Join("testdata", name+".txt")
	if *update {
		room(p)
		if err := os.WriteFile(file, []byte(strings.Join(p.lines, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	if flag.Lookup("test.failfast").Value.String() == "true" {
		p.want = map[string]string{}
		for _, line := range want {
			name, _, _ := strings.Cut(line, " | ")
			p.want[name] = line
		}
	}
	room(p)
	if len(want) != len(p.lines) {
		t.Errorf("%s: %d cases, the record has %d", name, len(p.lines), len(want))
	}
	wrong := 0
	for i := range min(len(want), len(p.lines)) {
		if why := differ(p.lines[i], want[i]); why != "" {
			if wrong++; wrong <= 20 {
				t.Errorf("%s: %s", name, why)
			}
		}
	}
	if wrong > 20 {
		t.Errorf("%s: %d cases differ", name, wrong)
	}
}

// differ says how a line is not that of the record. Numbers may differ in their last digits, as platforms do.
func differ(got, want string) string {
	a, b := strings.Split(got, " | "), strings.Split(want, " | ")
	switch {
	case len(a) != 3 || len(b) != 3 || a[0] != b[0]:
		return fmt.Sprintf("%s, the record has %s", got, want)
	case a[1] != b[1]:
		return a[0] + ": words, order or reasons are others"
	}
	x, y := strings.Fields(a[2]), strings.Fields(b[2])
	if len(x) != len(y) {
		return fmt.Sprintf("%s: %d numbers, the record has %d", a[0], len(x), len(y))
	}
	for i := range x {
		u, _ := strconv.ParseFloat(x[i], 64)
		v, _ := strconv.ParseFloat(y[i], 64)
		if math.Abs(u-v) > 1e-9*math.Abs(v)+1e-12 {
			return fmt.Sprintf("%s: number %d is %s, the record has %s", a[0], i+1, x[i], y[i])
		}
	}
	return ""
}

func (p *page) add(name, sum string, numbers ...float64) {
	if p.seen[name] || strings.Contains(name, " | ") {
		p.t.Errorf("the name %q stands twice or cannot stand", name)
	}
	p.seen[name] = true
	b := []byte(strings.ReplaceAll(strconv.Quote(name), `\u00a0`, " "))
	b = append(append(b[1:len(b)-1], " | "...), sum...)
	b = append(b, " |"...)
	for _, v := range numbers {
		b = strconv.AppendFloat(append(b, ' '), v, 'g', 12, 64)
	}
	p.lines = append(p.lines, string(b))
	line := p.lines[len(p.lines)-1]
	quoted, _, _ := strings.Cut(line, " | ")
	if want := p.want[quoted]; want != "" {
		if why := differ(line, want); why != "" {
			p.t.Fatal(why)
		}
	}
}

// sum adds a line with the digest of things.
func (p *page) sum(name string, things ...any) {
	var d digest
	for _, x := range things {
		d.put(x)
	}
	p.digest(name, &d)
}

func (p *page) digest(name string, d *digest) { p.add(name, d.word(), d.total) }

// A digest is a checksum of things. Words go into a hash. Numbers, also those inside words, go into a sum with weights of their own each, so
// that the digest is the same where the last digits differ; their logarithms count, so that small numbers show beside large ones.
type digest struct {
	hash  uint64
	n     uint64
	total float64
}

func (d *digest) word() string { return fmt.Sprintf("%08x", uint32(d.hash^d.hash>>32)) }

func (d *digest) mark(text string) {
	h := fnv.New64a()
	h.Write([]byte(text))
	d.hash = (d.hash^h.Sum64())*0x9e3779b97f4a7c15 + 1
	d.hash ^= d.hash >> 29
}

func (d *digest) number(v float64) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		d.mark(fmt.Sprint(v))
		return
	}
	d.n++
	x := d.n * 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x ^= x >> 31
	weight := 0.5 + float64(x>>12)/(1<<52)
	if x&1 == 1 {
		weight = -weight
	}
	d.total += weight * math.Asinh(1e6*v)
}

// text puts words, and the numbers among them.
func (d *digest) text(s string) {
	var words strings.Builder
	for i := 0; i < len(s); {
		end := i
		if s[end] == '-' {
			end++
		}
		start := end
		for end < len(s) && (s[end] >= '0' && s[end] <= '9' || s[end] == '.' && end > start && end+1 < len(s) && s[end+1] >= '0' && s[end+1] <= '9') {
			end++
		}
		if end == start {
			_, size := utf8.DecodeRuneInString(s[i:])
			words.WriteString(s[i : i+size])
			i += size
			continue
		}
		if end+2 < len(s) && s[end] == 'e' && (s[end+1] == '-' || s[end+1] == '+') && s[end+2] >= '0' && s[end+2] <= '9' {
			for end += 2; end < len(s) && s[end] >= '0' && s[end] <= '9'; end++ {
			}
		}
		if v, err := strconv.ParseFloat(s[i:end], 64); err == nil {
			d.number(v)
			words.WriteByte('#')
		} else {
			words.WriteString(s[i:end])
		}
		i = end
	}
	d.mark(words.String())
}

// put puts anything: what it holds, what it says of itself as text, and what its methods without arguments answer.
func (d *digest) put(x any) { d.value(reflect.ValueOf(x), 1, 12) }

// unasked are methods whose answer is large, or made anew with much work, or leads back, or that need settings which were looked at before.
var unasked = []string{"Error", "Is", "Unwrap", "String", "Verify", "Complete", "Heights", "Density", "GoString", "Finding", "Table", "Settings", "New", "Linear"}

func (d *digest) value(v reflect.Value, ask, depth int) {
	if !v.IsValid() || depth == 0 {
		d.mark("nothing")
		return
	}
	if v.CanInterface() && v.Kind() != reflect.Func {
		if nilable(v) && v.IsNil() {
			d.mark("nil")
			return
		}
		switch x := v.Interface().(type) {
		case []float64:
			d.mark(fmt.Sprint("heights ", len(x)))
			for _, h := range x {
				d.number(h)
			}
			return
		case []byte:
			d.text(string(x))
			return
		case *params.Parameter:
			d.mark(x.Key)
			return
		case error:
			d.text(x.Error())
		case fmt.Stringer:
			d.text(x.String())
		}
		if ask > 0 && v.Type().PkgPath() != "" || v.Kind() == reflect.Pointer && ask > 0 {
			d.answers(v, depth)
		}
	}
	if of := v.Type().PkgPath(); of != "" && !strings.HasPrefix(of, "example.com/furrow") {
		d.mark(of)
		return
	}
	switch v.Kind() {
	case reflect.Float64:
		d.number(v.Float())
	case reflect.String:
		d.text(v.String())
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			d.mark("nil")
			return
		}
		d.value(v.Elem(), ask, depth-1)
	case reflect.Slice, reflect.Array:
		d.mark(fmt.Sprint("list ", v.Len()))
		for i := range v.Len() {
			d.value(v.Index(i), ask, depth-1)
		}
	case reflect.Map:
		keys := v.MapKeys()
		slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
		for _, k := range keys {
			d.mark(k.String())
			d.value(v.MapIndex(k), ask, depth-1)
		}
	case reflect.Struct:
		d.mark(v.Type().Name())
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				d.value(v.Field(i), ask, depth-1)
			}
		}
	case reflect.Func, reflect.Chan:
	default:
		d.mark(fmt.Sprint(v))
	}
}

func nilable(v reflect.Value) bool {
	return slices.Contains([]reflect.Kind{reflect.Pointer, reflect.Interface, reflect.Map, reflect.Slice, reflect.Func, reflect.Chan}, v.Kind())
}

// answers puts what the methods without arguments answer.
func (d *digest) answers(v reflect.Value, depth int) {
	if v.Kind() == reflect.Struct { // so that the methods of its pointer are there
		p := reflect.New(v.Type())
		p.Elem().Set(v)
		v = p
	} else if v.Kind() != reflect.Pointer || v.Elem().Kind() != reflect.Struct || !strings.HasPrefix(v.Elem().Type().PkgPath(), "example.com/furrow") {
		return
	}
	if _, large := v.Interface().(*roughness.Evaluation); large {
		return
	}
	for i := range v.NumMethod() {
		m := v.Type().Method(i)
		if m.Type.NumIn() != 1 || m.Type.NumOut() == 0 || slices.Contains(unasked, m.Name) {
			continue
		}
		d.mark(m.Name)
		for _, out := range v.Method(i).Call(nil) {
			d.value(out, 0, depth-1)
		}
	}
}

// A source gives numbers that are the same everywhere and in every version of Go.
type source uint64

func (s *source) upTo(n int) int {
	*s += 0x9e3779b97f4a7c15
	x := uint64(*s)
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return int((x ^ x>>31) >> 1 % uint64(n))
}

// spoilt are variants of a text with one fault each: a byte taken out, put in or exchanged, a piece twice, or its end gone.
func spoilt(text string, count int, seed source, signs string) []string {
	var list []string
	for range count {
		if text == "" {
			break
		}
		at := seed.upTo(len(text))
		sign := string(signs[seed.upTo(len(signs))])
		switch seed.upTo(6) {
		case 0:
			list = append(list, text[:at]+text[at+1:])
		case 1:
			list = append(list, text[:at]+sign+text[at:])
		case 2, 3:
			list = append(list, text[:at]+sign+text[at+1:])
		case 4:
			end := min(len(text), at+1+seed.upTo(20))
			list = append(list, text[:end]+text[at:])
		default:
			list = append(list, text[:at])
		}
	}
	return list
}

// names are the keys of a map in their order.
func names[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
