package e2e

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/synth"
)

// turn goes to another sheet of the pad, as by its link.
func (s *sheet) turn(file, until, what string) {
	s.t.Helper()
	s.do(chromedp.Navigate(site + file))
	s.wait(until, what)
}

// differs opens the sheet Difference with the demonstration.
func differs(t *testing.T, width, height int) *sheet {
	t.Helper()
	s := open(t, width, height)
	s.turn("difference.html", `document.querySelectorAll('#steady-table tbody tr').length > 3 && !!document.querySelector('#edition-side tbody')`, "all parts of Difference are worked")
	return s
}

// found waits for the end of a search.
func (s *sheet) found(what string) string {
	s.t.Helper()
	s.wait(`document.getElementById('busy').hidden && !document.getElementById('printed-found').hidden`, what)
	return s.text("printed-found")
}

// What an instrument printed with another cut-off is explained by it, is shared out, and is compared below, with the library's own numbers.
func TestFindSettings(t *testing.T) {
	s := differs(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	other := roughness.Settings{Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: 250}}}
	e, err := roughness.Evaluate(trace, &other)
	if err != nil {
		t.Fatal(err)
	}
	rz, _ := e.Value("Rz")
	ra, _ := e.Value("Ra")
	s.fill("printed-value-1", fmt.Sprintf("%.3f", rz.Value))
	s.fill("printed-value-2", fmt.Sprintf("%.4f", ra.Value))
	s.click("printed-find")
	if said := s.found("the search for a cut-off of 0.25 mm"); !strings.Contains(said, "cut-off 0.25\u00a0mm instead of 0.8\u00a0mm") {
		t.Errorf("found: %q", said)
	}
	s.wait(`!!document.querySelector('#differ-picture svg')`, "the picture of the shares")
	s.click("printed-apply")
	s.wait(`document.getElementById('side-out').textContent.includes('µm')`, "the two sides")
	usual, err := roughness.Evaluate(trace, nil)
	if err != nil {
		t.Fatal(err)
	}
	own, _ := usual.Value("Rz")
	want := strings.ReplaceAll(fmt.Sprintf("%.3g", rz.Value-own.Value), "-", "\u2212")
	if got := s.text("side-out"); !strings.Contains(got, want) {
		t.Errorf("the sides differ by %q, want %s", got, want)
	}
	s.picture("difference-1280")
}

// A search can be stopped; nothing is found then, and the fields stay.
func TestStopSearch(t *testing.T) {
	s := blankTab(t, usual)
	s.before(workers)
	s.load(1280, 900)
	s.turn("difference.html", `document.querySelectorAll('#steady-table tbody tr').length > 3 && !!document.querySelector('#edition-side tbody')`, "all parts of Difference are worked")
	s.fill("printed-value-1", "2.111")
	s.fill("printed-value-2", "0.7777")
	// While it is going on: how long until it is over and the calculation is free for something else. A tenth of a second is what is wanted.
	s.click("printed-find")
	s.wait(`document.getElementById('busy-text').textContent.includes(' of ')`, "its progress")
	waited := eval2[float64](s, `new Promise((done) => {
		const from = performance.now(), before = [...workers];
		document.getElementById('busy-stop').click();
		const look = () => (document.getElementById('busy').hidden && before.some(w => !workers.includes(w)) ? done(performance.now() - from) : requestAnimationFrame(look));
		look();
	})`)
	t.Logf("stopped after %.0f ms", waited)
	if waited > 5000 || !eval[bool](s, `document.getElementById('busy').hidden`) {
		t.Errorf("the search stopped after %v ms", waited)
	}
	// In one turn of the page, so that no quick machine is through with the search before.
	if !eval[bool](s, `(document.getElementById('printed-find').click(), !document.getElementById('busy').hidden && (document.getElementById('busy-stop').click(), true))`) {
		t.Error("the search cannot be stopped")
	}
	s.wait(`document.getElementById('busy').hidden`, "its end")
	if !eval[bool](s, `document.getElementById('printed-found').hidden`) {
		t.Error("a stopped search found something")
	}
	s.says("printed-said", "Stopped. Nothing was found.")
	s.click("printed-find")
	if said := s.found("a search after a stopped one"); !strings.Contains(said, "No combination gives both printed values.") {
		t.Errorf("found: %q", said)
	}
	if got := s.text("printed-said"); got != "" {
		t.Errorf("after a search that was not stopped: %q", got)
	}
	s.fill("printed-value-1", "3,x")
	s.click("printed-find")
	s.wait(`document.getElementById('printed-value-1').getAttribute('aria-invalid') === 'true'`, "the refused value")
}

// What was found goes as soon as another value is typed or another search begins, and does not come back when that is stopped.
func TestOldFinding(t *testing.T) {
	s := differs(t, 1280, 900)
	e, err := roughness.Evaluate(demo(t, synth.Demos()[0].Key), &roughness.Settings{Long: roughness.Band{Spec: roughness.FilterSpec{Cutoff: 250}}})
	if err != nil {
		t.Fatal(err)
	}
	rz, _ := e.Value("Rz")
	ra, _ := e.Value("Ra")
	find := func() {
		s.fill("printed-value-1", fmt.Sprintf("%.3f", rz.Value))
		s.fill("printed-value-2", fmt.Sprintf("%.4f", ra.Value))
		s.click("printed-find")
		s.found("the search")
		s.wait(`!document.getElementById('differ-picture').hidden && !document.getElementById('printed-apply').hidden`, "the finding with its picture")
	}
	gone := func(after string) {
		s.wait(`['printed-found', 'differ-picture'].every((id) => document.getElementById(id).hidden) && !document.getElementById('printed-apply').checkVisibility()`, "nothing old stands there after "+after)
		if got := s.text("printed-out") + s.text("printed-note"); got != "" {
			t.Errorf("after %s the result is %q", after, got)
		}
	}
	find()
	s.fill("printed-value-1", "2.111")
	gone("another value")
	find()
	// In one turn of the page, so that no quick machine is through with the search before.
	if !eval[bool](s, `(document.getElementById('printed-find').click(), document.getElementById('printed-found').hidden)`) {
		t.Error("what was found stands there while a search goes on")
	}
	s.found("the same search again")
	eval[bool](s, `(document.getElementById('printed-find').click(), document.getElementById('busy-stop').click(), true)`)
	s.says("printed-said", "Stopped. Nothing was found.")
	gone("a stopped search")
	find()
	s.choose("printed-symbol-2", "Rq")
	gone("another symbol")
}

// One requirement by two standards: values and words are those of the library.
func TestTwoEditions(t *testing.T) {
	s := differs(t, 1280, 900)
	s.fill("edition-text", "Rz 12,5")
	s.press("Enter")
	e, err := compare.ByEdition(demo(t, synth.Demos()[0].Key), "Rz 12,5", "iso-21920", "iso-4287", nil)
	if err != nil {
		t.Fatal(err)
	}
	s.wait(`document.getElementById('edition-out').textContent.includes('12.5')`, "the limit of the new text")
	table := s.text("edition-side")
	for _, r := range []*compare.EditionText{&e.A, &e.B} {
		if !strings.Contains(table, string(r.Verdict.Word)) {
			t.Errorf("%s: the table has no %q: %q", r.Edition, r.Verdict.Word, table)
		}
	}
	s.fill("edition-text", "Rz x")
	s.press("Enter")
	s.wait(`document.getElementById('edition-side').textContent.includes('not read') || document.getElementById('edition-text').getAttribute('aria-invalid') === 'true'`, "why the text is not read")
	if strings.Contains(s.text("edition-out"), "Conforms") {
		t.Error("a text that is not read has a verdict")
	}
}

// The digits that are sure are those of the library.
func TestSureDigits(t *testing.T) {
	s := differs(t, 390, 844)
	list, err := compare.Steady(context.Background(), demo(t, synth.Demos()[0].Key), &roughness.Settings{Parameters: []string{"Rz", "Ra"}})
	if err != nil {
		t.Fatal(err)
	}
	out := s.text("steady-out")
	for _, v := range list {
		if want := fmt.Sprintf("sure digits of %s%d", v.Symbol, v.Digits); !strings.Contains(strings.ReplaceAll(out, "\n", ""), want) {
			t.Errorf("no %q in %q", want, out)
		}
		if math.IsNaN(v.Value) {
			t.Errorf("%s has no value", v.Symbol)
		}
	}
	s.picture("difference-390")
}

// What a file states in its header is there to be explained; what is typed stays.
func TestStatedResults(t *testing.T) {
	s := open(t, 1280, 900)
	z := surface(61, 9600, 0.5)
	text := table("x [mm];z [µm]", ";", ".", z, 0.5)
	other, err := roughness.Evaluate(readTrace(t, text), &roughness.Settings{Long: stating(250)})
	if err != nil {
		t.Fatal(err)
	}
	rz, _ := other.Value("Rz")
	ra, _ := other.Value("Ra")
	s.drop("rod.csv", fmt.Sprintf("Rz = %.3f µm\nRa = %.4f µm\n%s", rz.Value, ra.Value, text))
	s.says("trace-reading", "rod.csv")
	s.stores(`r.state.traces.length === 1`)
	s.turn("difference.html", `document.querySelectorAll('#steady-table tbody tr').length > 3`, "Difference")
	s.says("printed-from", "Filled with the results that rod.csv states in its header.")
	if got := eval[string](s, `document.getElementById('printed-symbol-1').value + document.getElementById('printed-value-1').value`); got != fmt.Sprintf("Rz%.3f", rz.Value) {
		t.Errorf("the first value is %q", got)
	}
	s.click("printed-find")
	if said := s.found("the search for what the header states"); !strings.Contains(said, "cut-off 0.25\u00a0mm instead of 0.8\u00a0mm") {
		t.Errorf("found: %q", said)
	}
}

// The disputes that are usual: each is explained, and the explanation names what differs.
func TestDisputes(t *testing.T) {
	s := differs(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	for name, c := range map[string]struct {
		settings roughness.Settings
		says     []string
	}{
		"2rc":       {roughness.Settings{Long: roughness.Band{Spec: roughness.FilterSpec{Filter: "two-rc", Cutoff: 800}}}, []string{"2RC"}},
		"ten-point": {roughness.Settings{Edition: "jis-b0601-1994"}, []string{"1994", "is another parameter in", "ten-point height instead of maximum height"}},
	} {
		e, err := roughness.Evaluate(trace, &c.settings)
		if err != nil {
			t.Fatal(err)
		}
		rz, _ := e.Value("Rz")
		ra, _ := e.Value("Ra")
		began := time.Now()
		s.fill("printed-value-1", fmt.Sprintf("%.3f", rz.Value))
		s.fill("printed-value-2", fmt.Sprintf("%.4f", ra.Value))
		s.click("printed-find")
		said := s.found("the search for " + name)
		t.Logf("%s in %.1f s: %s", name, time.Since(began).Seconds(), said)
		for _, want := range c.says {
			if !strings.Contains(said, want) {
				t.Errorf("%s: found %q", name, said)
			}
		}
		if name == "ten-point" {
			s.says("printed-note", "Rz is not the same parameter on both sides: here maximum height")
			if !eval[bool](s, `document.getElementById('differ-picture').hidden`) {
				t.Error("two parameters are shared out as one")
			}
			// Part 2 says the same of the same two sides, and has no picture either.
			s.click("printed-apply")
			s.says("side-note", "Rz is not the same parameter on both sides: left maximum height")
			if !eval[bool](s, `document.getElementById('side-picture').hidden`) {
				t.Error("part 2 shares out two parameters as one")
			}
			s.choose("differ-symbol", "Ra")
			s.wait(`!document.getElementById('side-picture').hidden && !!document.querySelector('#side-picture svg')`, "the picture of the shares of Ra")
		} else {
			s.wait(`!!document.querySelector('#differ-picture svg')`, "the picture of the shares")
		}
		s.picture("dispute-" + name + "-1280")
		s.do(chromedp.EmulateViewport(390, 844))
		s.settle()
		s.picture("dispute-" + name + "-390")
		s.do(chromedp.EmulateViewport(1280, 900))
	}
}
