package e2e

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
)

// inches shows the sheet in µin and in.
func (s *sheet) inches() {
	s.t.Helper()
	s.menu()
	s.click("units-inch")
	s.click("sheet-file")
}

// In µin and in every number that a person reads is that of the library in the other unit, in table, picture, field and record; the limit
// stands with the drawing's own unit, and with the reader's beside it. What is typed is read in the reader's unit.
func TestDisplayUnits(t *testing.T) {
	s := blankTab(t, usual)
	s.before(catching)
	s.load(1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	values := s.agree(trace, roughness.Settings{})
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	s.inches()
	inch := record.Display{Inch: true}
	rz, unit := inch.Value(values["Rz"], "µm")
	shown := inch.Figure(rz, 3)
	s.says("answer-values", shown)
	s.says("answer-values", unit)
	s.says("answer-values", "limit 3.2 µm (125.98\u00a0µin)")
	for _, id := range []string{"values-table", "trace-list"} {
		s.says(id, shown)
	}
	if got := eval[string](s, `document.querySelector('#values-table tr[data-row=Rz] .unit').textContent`); got != "µin" {
		t.Errorf("Rz is in %q", got)
	}
	s.says("verdict-word", "does not exceed 3.2") // the sentence of the library, in the unit of the drawing
	s.says("verdict-word", "The limit 3.2 µm is 125.98\u00a0µin, the value "+inch.Figure(rz, 5)+"\u00a0µin.")
	s.wait(`[...document.querySelectorAll('#answer-picture text')].some(t => t.textContent === 'µin') && [...document.querySelectorAll('#answer-picture text')].some(t => t.textContent === '5 × 0.0315 in')`, "the picture counts in the same units")
	s.wait(`[...document.querySelectorAll('#verdict-picture text')].some(t => t.textContent === 'Rz, µin')`, "the decision too")
	s.says("record-page", "µin")
	if html := s.given("record-save", "The record is saved"); !strings.Contains(html, shown+" µin") && !strings.Contains(html, shown+"</td>") {
		t.Error("the record shows no microinches")
	}
	if svg := s.given("record-svg", "saved as SVG"); !strings.Contains(svg, "µin") {
		t.Error("the exported picture counts in µm")
	}
	// Fields: shown, typed and named in the reader's unit; a unit that is written counts.
	field := func(id, want string) {
		t.Helper()
		s.reveal(id)
		s.wait(fmt.Sprintf(`document.getElementById(%q).value === %q`, id, want), id+" shows "+want)
	}
	field("long-cutoff", "0.031496")
	if label := eval[string](s, `document.querySelector('label[for=long-cutoff]').textContent`); !strings.HasSuffix(label, "in inches") {
		t.Errorf("the field is called %q", label)
	}
	s.fill("long-cutoff", "0.01")
	s.agree(trace, roughness.Settings{Long: stating(254), SectionLength: 800})
	s.fill("long-cutoff", "0.25 mm")
	s.agree(trace, roughness.Settings{Long: stating(250), SectionLength: 800})
	field("long-cutoff", "0.0098425")
	s.fill("long-cutoff", "wide")
	s.says("long-cutoff-fault", "not a number")
	s.click("long-back")
	s.agree(trace, roughness.Settings{})
	s.click("value-open")
	s.fill("value-typed", "120")
	s.focus("value-from")
	s.press("printed", kb.Enter)
	s.says("trace-stats", "Rz of 2 values")
	s.stores(`r.state.units === 'inch' && r.state.values[0]?.text === '120 µin' && Math.abs(r.state.values[0].value - 3.048) < 1e-12`)
	// No height that a person reads is left in µm beside others in µin.
	left := regexp.MustCompile(`\d\s?µm`)
	for _, id := range []string{"answer-picture", "trace-list", "trace-stats", "values-table", "trace-checks", "primary", "profile"} {
		s.reveal(id)
		s.settle()
		if m := left.FindString(s.text(id)); m != "" {
			t.Errorf("%s still says %q", id, m)
		}
	}
	s.picture("inch")
	s.reload()
	s.says("answer-values", "µin")
	s.turn("difference.html", `document.querySelectorAll('#steady-table tbody tr').length > 3`, "Difference")
	s.says("steady-table", "Rz, µin")
	s.says("printed-pairs", "Printed, µin")
	s.fill("printed-value-1", inch.Figure(rz, 4))
	s.click("printed-find")
	s.found("a search for µin")
	s.says("printed-out", "µin")
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	s.menu()
	s.click("units-metric")
	s.wait(`document.querySelector('#values-table tr[data-row=Rz] .unit').textContent === 'µm' && document.getElementById('long-cutoff').value === '0.8'`, "back in µm")
}

// Each parameter with a limit has its picture; upper and lower limit of one stand on one line.
func TestTwoLimits(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2; Ra 0,8")
	s.says("verdict-word", "Conforms")
	for id, name := range map[string]string{"verdict-picture": "Rz, µm", "verdict-picture-2": "Ra, µm"} {
		s.wait(fmt.Sprintf(`[...document.querySelectorAll('#%s text')].some(t => t.textContent === %q)`, id, name), name+" is drawn")
	}
	s.picture("two-limits")
	s.write("requirement-text", "U Ra 0,8; L Ra 0,2")
	s.says("verdict-word", "Conforms")
	s.wait(`document.getElementById('verdict-picture-2').hidden && document.querySelectorAll('#verdict-picture .limit').length === 2`, "both limits on one line")
	if said := s.text("verdict-log"); !strings.Contains(said, "upper limit") || !strings.Contains(said, "lower limit") {
		t.Errorf("the log says %q", said)
	}
}
