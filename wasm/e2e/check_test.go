package e2e

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/roughness/record"
)

// checks opens the sheet Instrument check.
func checks(t *testing.T, width, height int) *sheet {
	t.Helper()
	s := open(t, width, height)
	s.turn("check.html", `document.querySelectorAll('#budget-table tbody tr').length > 0`, "the sheet is there")
	return s
}

// A specimen is held against its certificate with the library's own words; a gain is proposed and nothing applies it; the check is kept and
// comes again after a reload.
func TestSpecimen(t *testing.T) {
	s := checks(t, 1280, 900)
	var files []file
	var traces []roughness.Profile
	for i, name := range []string{"s14-1.csv", "s14-2.csv", "s14-3.csv"} {
		text := table("x [mm];z [µm]", ";", ".", surface(uint64(51+i), 9600, 0.5), 0.5)
		files = append(files, file{name, []byte(text)})
		p := readTrace(t, text)
		p.Name = name
		traces = append(traces, p)
	}
	s.fill("check-instrument", "bench 2")
	s.fill("specimen-number", "S 14")
	s.fill("specimen-value", "0.9")
	s.fill("specimen-u", "0.02")
	s.dropOn("specimen-file", files)
	s.wait(`!document.getElementById('specimen-outcome').hidden`, "the outcome")
	certified := instrument.Specimen{Number: "S 14", Symbol: "Ra", Value: 0.9, Expanded: 0.02, K: 2}
	c, err := instrument.CheckSpecimen(context.Background(), traces, nil, certified, instrument.CalibrationAllowance(certified), instrument.Session{Gain: 1})
	if err != nil {
		t.Fatal(err)
	}
	want := c.Check()
	plain := strings.NewReplacer("\u00a0", " ", "\u2212", "-")
	_, sentence, _ := strings.Cut(want.Sentence, ": ")
	if got := plain.Replace(s.text("specimen-outcome")); !strings.Contains(got, plain.Replace(sentence)) {
		t.Errorf("the outcome says %q, the library %q", got, want.Sentence)
	}
	if got, word := s.text("check-result"), string(want.Word); !strings.Contains(got, word) {
		t.Errorf("the result says %q, the library %q", got, word)
	}
	if n := eval[int](s, `[...document.querySelectorAll('#specimen-gain button')].length`); n > 0 {
		t.Error("a control could apply the gain")
	}
	if !strings.Contains(s.text("specimen-caution"), "A calculation aid") {
		t.Error("the caution is missing")
	}
	s.click("check-keep")
	s.wait(`document.getElementById('kept').textContent.startsWith('Kept on this device')`, "the check is kept")
	s.picture("check-1280")
	s.turn("check.html", `document.getElementById('check-earlier').textContent === 'Earlier checks (1)'`, "the kept check after a reload")
	if got := eval[string](s, `document.getElementById('specimen-number').value`); got != "S 14" {
		t.Errorf("the number of the specimen is %q after a reload", got)
	}
	s.wait(`document.getElementById('check-earlier-list').textContent.includes('µm')`, "the list of earlier checks")
	// The record of a trace takes the check of the instrument that it names.
	day := eval[string](s, `document.getElementById('check-date').value`)
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	taken := fmt.Sprintf("S 14, %s: outside", day)
	s.fill("record-instrument", "bench 2")
	s.wait(fmt.Sprintf(`document.getElementById('record-check').placeholder === %q`, taken), "the check of bench 2")
	s.fill("record-date", "2020-01-31")
	s.wait(`document.getElementById('record-check').placeholder === ''`, "no check before the trace")
}

// A file that leaves something open is asked about, and one that cannot be read is named; the others count.
func TestCheckFiles(t *testing.T) {
	s := checks(t, 1280, 900)
	row := eval[string](s, `[...document.querySelectorAll('#budget-table tr')].find(r => r.cells[0].textContent.startsWith('expanded uncertainty')).cells[1].textContent`)
	if out := s.text("budget-out"); row == "" || !strings.Contains(out, "U\n"+row) && !strings.Contains(out, "U"+row) {
		t.Errorf("the result of the budget says %q, its table U %s", out, row)
	}
	s.dropOn("flat-file", []file{{"broken.csv", []byte("x;z\n1;2\n2;a b c\n")}})
	s.wait(`!document.getElementById('trouble').hidden || !document.getElementById('check-question').hidden`, "what is wrong with the file")
	s.fill("specimen-value", "-1")
	s.wait(`document.getElementById('specimen-value').getAttribute('aria-invalid') === 'true'`, "the refused certificate")
}

// The sheets besides the worksheet hold to the same rules of access and width.
func TestOtherSheets(t *testing.T) {
	for _, c := range []struct {
		name string
		open func(*testing.T, int, int) *sheet
	}{{"difference", differs}, {"check", checks}, {"study", studies}} {
		s := c.open(t, 1280, 900)
		s.accessible(c.name)
		for _, width := range []int64{320, 390, 768, 1920} {
			s.do(chromedp.EmulateViewport(width, 900))
			s.settle()
			if over := eval[int](s, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
				t.Errorf("%s at %d: %d px too wide", c.name, width, over)
			}
			s.picture(fmt.Sprintf("%s-%d", c.name, width))
		}
	}
}

// Who counts in inches has results, table and pictures in µin, types in µin, and sees each unit behind what was typed; what was typed before
// keeps its own, the sentence of the library that of the certificate.
func TestCheckInches(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.wait(`document.querySelector('#requirement .gist').textContent.startsWith("Rz 3,2; ")`, "Rz 3,2 is read")
	s.stores(`!!r.state.required`)
	budget := func(unit string) {
		t.Helper()
		s.turn("check.html", fmt.Sprintf(`document.getElementById('budget-table').textContent.includes('Effect, %s')`, unit), "the budget in "+unit)
	}
	budget("µm")
	s.fill("specimen-value", "0,9")
	s.fill("groove-value", "1.5")
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	s.inches()
	s.stores(`r.state.units === 'inch'`)
	budget("µin")
	field := func(id, want string) {
		t.Helper()
		s.wait(fmt.Sprintf(`document.getElementById(%q).value === %q`, id, want), id+" shows "+want)
	}
	field("specimen-value", "0,9\u00a0µm")
	field("groove-value", "1.5\u00a0µm")
	text := table("x [mm];z [µm]", ";", ".", surface(51, 9600, 0.5), 0.5)
	p := readTrace(t, text)
	hold := func(value, u float64) *instrument.Check {
		t.Helper()
		certified := instrument.Specimen{Symbol: "Ra", Value: value, Expanded: u, K: 2}
		c, err := instrument.CheckSpecimen(context.Background(), []roughness.Profile{p}, nil, certified, instrument.CalibrationAllowance(certified), instrument.Session{Gain: 1})
		if err != nil {
			t.Fatal(err)
		}
		return c.Check()
	}
	plain := strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2212", "-")
	agree := func(want *instrument.Check, certificate string) {
		t.Helper()
		_, sentence, _ := strings.Cut(plain.Replace(want.Sentence), ": ")
		s.wait(fmt.Sprintf(`document.getElementById('specimen-outcome').textContent.replace(/[\u00a0\u202f]/g, ' ').replace(/\u2212/g, '-').includes(%q)`, sentence), "the library's sentence: "+sentence)
		s.says("specimen-outcome", "The certificate is "+certificate+"\u00a0µin")
	}
	s.fill("specimen-u", "0.8")
	field("specimen-u", "0.8\u00a0µin")
	s.dropOn("specimen-file", []file{{"a.csv", []byte(text)}})
	before := hold(0.9, 0.8*0.0254)
	agree(before, "35.43")
	inch := record.Display{Inch: true}
	mean, unit := inch.Value(before.Values[0], "µm")
	s.says("specimen-traces", "Ra, "+unit)
	s.says("specimen-traces", inch.Figure(mean, 4))
	s.fill("specimen-value", "30")
	field("specimen-value", "30\u00a0µin")
	agree(hold(0.762, 0.8*0.0254), "30")
	for id, label := range map[string]string{"specimen-value": "Certificate, Ra µin", "groove-u": "Its U, µin", "budget-tip": "Tip may differ by, µin", "check-tip": "Tip radius, µin"} {
		if got := eval[string](s, fmt.Sprintf(`document.querySelector('label[for=%s]').textContent`, id)); got != label {
			t.Errorf("the field %s is called %q", id, got)
		}
	}
	for _, id := range []string{"specimen-picture", "budget-picture"} {
		s.reveal(id)
		s.wait(fmt.Sprintf(`document.getElementById(%q).innerHTML.includes('µin')`, id), id+" counts in µin")
		if eval[bool](s, fmt.Sprintf(`[...document.querySelectorAll('#%s text')].some(t => t.textContent.includes('µm'))`, id)) {
			t.Errorf("%s still counts in µm", id)
		}
	}
	s.wait(`/^(Ra|Rz) is [0-9.]+\u00a0µin, U [0-9.]+\u00a0µin\.$/.test([...document.querySelectorAll('#budget-said .aside')].map(e => e.textContent)[0])`, "the budget's sentence in µin")
	s.dropOn("flat-file", []file{{"f.csv", []byte(table("x [mm];z [µm]", ";", ".", surface(61, 9600, 0.5), 0.5))}})
	s.says("noise-outcome", "The limit is 125.98\u00a0µin.")
	s.picture("check-inch")
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	s.menu()
	s.click("units-metric")
	s.stores(`r.state.units === 'metric'`)
	budget("µm")
	field("specimen-value", "30\u00a0µin") // the number keeps its unit
	s.dropOn("specimen-file", []file{{"a.csv", []byte(text)}})
	s.says("specimen-traces", "Ra, µm")
	if got := s.text("specimen-outcome"); strings.Contains(got, "µin") {
		t.Errorf("in µm the outcome says %q", got)
	}
}
