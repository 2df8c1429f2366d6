package e2e

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

// fileQuestions holds small files that leave something open, each with the answers a person gives: the hint that is asked for, and
// how the answer that is chosen begins, with the number typed beside it behind a "=".
var fileQuestions = []struct {
	name, text string
	answers    map[string]string
	hints      string // what the answers come to
}{
	{"x unit", heightsOver("x;z [µm]", ";", ".", 1), map[string]string{"x_unit": "Millimetres"}, `{"x_unit": "mm"}`},
	{"z unit", heightsOver("x [mm];z", ";", ".", 2), map[string]string{"z_unit": "Nanometres"}, `{"z_unit": "nm"}`},
	{"both units", heightsOver("", ";", ".", 3), map[string]string{"x_unit": "Millimetres", "z_unit": "Micrometres"}, `{"x_unit": "mm", "z_unit": "µm"}`},
	{"spacing", oneColumn("z [µm]\n", 4, 4), map[string]string{"spacing": "Distance between points=0,5"}, `{"spacing": 0.5}`},
	{"first", oneColumn("0.5\n", 4, 5), map[string]string{"spacing": "The column begins with it", "z_unit": "Micrometres"}, `{"first": "spacing", "z_unit": "µm"}`},
	{"columns", threeColumns("a;b;c", 6), map[string]string{"z_column": "Column 3", "x_column": "Column 1", "x_unit": "Millimetres", "z_unit": "Micrometres"},
		`{"z_column": 3, "x_column": 1, "x_unit": "mm", "z_unit": "µm"}`},
	{"decimal comma", heightsOver("", ";", ",", 7), map[string]string{"decimal": "The comma", "x_unit": "Millimetres", "z_unit": "Micrometres"},
		`{"decimal": ",", "x_unit": "mm", "z_unit": "µm"}`},
	{"delimiter", strings.ReplaceAll(oneColumn("", 3, 8), ".", ","), map[string]string{"delimiter": "The whole is one number", "decimal": "The comma", "spacing": "Distance between points=0.5", "z_unit": "Micrometres"},
		`{"delimiter": " ", "decimal": ",", "spacing": 0.5, "z_unit": "µm"}`},
	{"rows of heights", strings.ReplaceAll(strings.TrimSpace(oneColumn("", 4, 9)), "\n", ";") + "\n", map[string]string{"heights": "Each is a height", "spacing": "Distance between points=0.5", "z_unit": "Micrometres"},
		`{"heights": "rows", "spacing": 0.5, "z_unit": "µm"}`},
	{"trace number", heightsOver("x [mm];z [µm]", ";", ".", 10) + "\n" + heightsOver("", ";", ".", 11), map[string]string{"trace": "Number of the trace=2"}, `{"trace": 2}`},
	{"row of an area", area(12), map[string]string{"row": "A row, along x=2"}, `{"row": 2}`},
	{"column of an area", area(13), map[string]string{"row": "A column, along y=3"}, `{"column": 3}`},
	{"slopes", heightsOver("x [mm];slope [mrad]", ";", ".", 14), map[string]string{"integrate": "Integrate them"}, `{"integrate": true}`},
}

// enough is the number of points that one section needs, and some more.
const enough = 2400

func heightsOver(heading, separator, decimal string, seed uint64) string {
	text := table(heading, separator, decimal, surface(seed, enough, 0.5), 0.5)
	return strings.TrimPrefix(text, "\n")
}

func oneColumn(first string, decimals int, seed uint64) string {
	var b strings.Builder
	b.WriteString(first)
	for _, z := range surface(seed, enough, 0.5) {
		fmt.Fprintf(&b, "%.*f\n", decimals, z+10)
	}
	return b.String()
}

func threeColumns(heading string, seed uint64) string {
	var b strings.Builder
	fmt.Fprintln(&b, heading)
	for i, z := range surface(seed, enough, 0.5) {
		fmt.Fprintf(&b, "%.4f;%d;%.3f\n", float64(i)*0.0005, i%7, z)
	}
	return b.String()
}

// area is an SDF text file of as many rows as columns.
func area(seed uint64) string {
	const n = 300
	var b strings.Builder
	fmt.Fprintf(&b, "aBCR-1.0\nManufacID = invented\nCreateDate = 010120261200\nModDate = 010120261200\nNumPoints = %d\nNumProfiles = %d\n", n, n)
	b.WriteString("Xscale = 4e-6\nYscale = 4e-6\nZscale = 1.0e-9\nZresolution = 0\nCompression = 0\nDataType = 5\nCheckType = 0\n*\n")
	for i, z := range surface(seed, n*n, 4) {
		fmt.Fprintf(&b, "%d", int(1000*(z+10)))
		b.WriteByte(" \n"[map[bool]int{true: 1}[i%n == n-1]])
	}
	b.WriteString("*\n")
	return b.String()
}

// Every question about a file is answered to the end: the page shows the values that the library gives with these answers. A question
// that tracefile can ask and no file here asks fails the test.
func TestFileQuestions(t *testing.T) {
	s := open(t, 1280, 900)
	seen := map[string]bool{}
	for _, c := range fileQuestions {
		hints, err := tracefile.ParseHints([]byte(c.hints))
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		want, err := tracefile.Read([]byte(c.text), hints)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		s.drop(c.name+".txt", c.text)
		s.wait(fmt.Sprintf(`!document.getElementById('trace-list').textContent.includes(%q) && document.getElementById('trace-question').checkVisibility()`, c.name+".txt"), c.name+" asks")
		for range 4 {
			open := eval[[]string](s, `[...document.querySelectorAll('#trace-question [data-hint]')].map(q => q.dataset.hint)`)
			for _, hint := range open {
				seen[hint] = true
				if hint == "z_column" && eval[bool](s, `document.getElementById('ask-columns') !== null`) { // ticked beforehand are all columns of heights
					s.wait(`[...document.querySelectorAll('#ask-columns .then')].every(e => e.textContent)`, "the columns are looked at")
					eval[bool](s, `([...document.querySelectorAll('[name=ask-columns]')].forEach(c => { c.checked = false; }), true)`)
				}
				s.reply(c.name, hint, c.answers[hint])
			}
			if bare := eval[[]string](s, `[...document.querySelectorAll('#trace-question label')].filter(l => !l.nextElementSibling?.matches('input') && l.textContent.endsWith(':')).map(l => l.textContent)`); len(bare) > 0 {
				t.Errorf("%s: nothing follows the colon of %q", c.name, bare)
			}
			form := eval[string](s, `document.getElementById('trace-question').textContent`)
			s.picture("question-" + strings.ReplaceAll(c.name, " ", "-"))
			s.click("ask-answer")
			s.wait(fmt.Sprintf(`document.getElementById('trace-list').textContent.includes(%q) || document.getElementById('trace-question').textContent !== %q || !document.getElementById('trace-wrong').hidden`, c.name+".txt", form), c.name+" takes the answer")
			if eval[bool](s, `document.getElementById('trace-question').hidden`) {
				break
			}
		}
		s.says("trace-list", c.name+".txt")
		s.agree(want.Profile, roughness.Settings{})
	}
	asked := slices.Clone(tracefile.Asked())
	slices.Sort(asked)
	if got := slices.Sorted(maps.Keys(seen)); !slices.Equal(got, asked) {
		t.Errorf("answered are %v, tracefile can ask for %v", got, asked)
	}
}

// reply chooses the answer that begins with these words.
func (s *sheet) reply(name, hint, answer string) {
	s.t.Helper()
	words, number, _ := strings.Cut(answer, "=")
	if words == "" {
		s.t.Fatalf("%s: no answer for the question on %s", name, hint)
	}
	quoted, _ := json.Marshal(words) // a string always has JSON
	found := eval[string](s, fmt.Sprintf(`(() => {
		const labels = [...document.querySelectorAll('[data-hint=%s] label')], label = labels.find(l => l.textContent.trim().startsWith(%s));
		if (!label) return 'no answer ' + %s + ' among ' + labels.map(l => l.textContent.trim()).join(' | ');
		const radio = label.querySelector('input');
		if (!radio.checked) label.click();
		const number = document.getElementById(radio.id + '-number');
		if (number) { number.focus(); number.select(); }
		return '';
	})()`, hint, quoted, quoted))
	if found != "" {
		s.t.Fatalf("%s: %s", name, found)
	}
	if number != "" {
		s.press(number)
	}
}

// An answer that is missing or is no number is asked for again, in words, at its question.
func TestFileQuestionRefused(t *testing.T) {
	s := open(t, 1280, 900)
	before := s.text("trace-reading")
	s.drop("silent.txt", oneColumn("", 4, 15))
	s.wait(`document.getElementById('trace-question').checkVisibility()`, "the file asks")
	s.click("ask-answer")
	s.says("ask-spacing-fault", "Choose an answer")
	s.reply("silent.txt", "z_unit", "Micrometres")
	for _, typed := range []string{"wide", "0", "-1"} {
		s.reply("silent.txt", "spacing", "Distance between points="+typed)
		s.click("ask-answer")
		s.wait(`document.getElementById('ask-spacing-fault') !== null`, typed+" is refused")
	}
	s.click("ask-skip")
	s.wait(`document.getElementById('trace-question').hidden`, "the file is left out")
	if now := s.text("trace-reading"); now != before {
		t.Errorf("the trace is %q, it was %q", now, before)
	}
}

// What is no text is named in one sentence, without its bytes.
func TestForeignFile(t *testing.T) {
	s := open(t, 1280, 900)
	for _, c := range [][2]string{{"photo.png", "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x01"}, {"drawing.pdf", "%PDF-1.7\n%\x81\x82\x83\n1 0 obj\n"}, {"noise.bin", "\x00\x01\x02\x03\x04\x05\x06\x07\x00\x00"}} {
		s.dropBytes([]file{{c[0], []byte(c[1])}})
		s.says("trace-wrong", c[0])
		if eval[bool](s, `document.querySelector('#trace-wrong table, #error-edit') !== null`) {
			t.Errorf("%s: lines of the file are shown", c[0])
		}
		said := s.text("trace-wrong")
		if strings.ContainsAny(said, "\x00\x01\u0081\ufffd") || strings.Contains(said, "IHDR") || strings.Contains(said, "obj") {
			t.Errorf("%s: its bytes are shown: %q", c[0], said)
		}
		s.picture("foreign-" + c[0])
	}
}

// A file that cannot fit is refused by its size, before a byte of it is read; one that the browser does not give is an answer too.
func TestLargeFile(t *testing.T) {
	s := open(t, 1280, 900)
	drop := func(name, size, open string) {
		eval[any](s, `(() => {
			const event = new Event('drop', { bubbles: true, cancelable: true });
			event.dataTransfer = { files: [{ name: '`+name+`', size: `+size+`, arrayBuffer() { window.opened = '`+name+`'; `+open+` } }], getData: () => '' };
			document.dispatchEvent(event);
			return null;
		})()`)
	}
	before := s.text("trace-reading")
	drop("large.csv", "6e8", "return Promise.resolve(new ArrayBuffer(0));")
	s.says("trace-wrong", "large.csv: a file of 600 MB is larger than the 537 MB that can be read here")
	if opened := eval[bool](s, `window.opened === 'large.csv'`); opened {
		t.Error("it was opened")
	}
	drop("folder", "4096", "return Promise.reject(new Error('a folder'));")
	s.says("trace-wrong", "folder: the browser cannot open it")
	if now := s.text("trace-reading"); now != before {
		t.Errorf("the trace is %q, it was %q", now, before)
	}
}
