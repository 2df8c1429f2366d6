package e2e

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// ids are the controls and places of steps 1 to 6 that the page promises.
var ids = strings.Fields(`
	sheet-name undo redo clear-all decimal-mark running-line announce
	requirement requirement-fold requirement-edition requirement-class requirement-reading requirement-settings
	trace trace-fold trace-file trace-paste trace-demo trace-report trace-holds trace-skid trace-turn trace-picture trace-numbers trace-checks
	trace-leave-out
	primary primary-fold short-cutoff short-on form-kind form-left form-picture form-numbers
	filters filters-fold long-cutoff long-shorter long-longer long-slide long-kind long-ends filters-picture filters-wave filters-waviness
	filters-numbers
	profile profile-fold sections-count sections-length sections-start profile-letter view-from view-to view-whole profile-picture
	profile-numbers profile-leave-out
	values values-fold values-show values-table value-Rz value-Ra material-ratio material-picture material-numbers rk-worked
	answer answer-picture answer-values answer-word answer-missing answer-caution requirement-text trace-reading kept sheet-file sheet-menu
	sheets-kept sheet-new record-open settings-save settings-import sheet-link clear-yes clear-no trace-list trace-add trace-stats value-open value-add
	value-typed value-from trace-show-1 trace-remove-1 verdict-rule verdict-proof verdict-u verdict-k verdict-guard verdict-budget verdict-word
	verdict-picture verdict-log record-save record-copy record-print record-csv record-json record-svg record-png record-part record-place
	record-direction record-instrument record-tip record-check record-operator record-date record-signature record-remarks record-page
	keys-table`)

func TestIds(t *testing.T) {
	s := open(t, 1280, 900)
	for _, id := range ids {
		if n := eval[int](s, fmt.Sprintf("document.querySelectorAll('#' + CSS.escape(%q)).length", id)); n != 1 {
			t.Errorf("%d elements with the id %s", n, id)
		}
	}
	if twice := eval[[]string](s, `[...document.querySelectorAll('[id]')].map(e => e.id).filter((id, i, all) => all.indexOf(id) !== i)`); len(twice) > 0 {
		t.Errorf("ids that occur twice: %v", twice)
	}
}

// Every step answers the four questions in the same words.
func TestSteps(t *testing.T) {
	s := open(t, 1280, 900)
	for _, id := range []string{"requirement", "trace", "primary", "filters", "profile", "values"} {
		s.reveal(id)
		said := s.text(id)
		for _, question := range []string{"Input", "Choice", "Reason", "Result"} {
			if !strings.Contains(strings.ToLower(said), strings.ToLower(question)) {
				t.Errorf("step %s does not say %q", id, question)
			}
		}
		if empty := eval[int](s, fmt.Sprintf(`[...document.querySelectorAll('#%s .why dd')].filter(e => e.textContent.trim() === '').length`, id)); empty > 0 {
			t.Errorf("step %s leaves %d of its questions open", id, empty)
		}
		s.click(id + "-fold")
		if outcome := eval[string](s, fmt.Sprintf(`document.querySelector('#%s .gist').innerText`, id)); strings.TrimSpace(outcome) == "" {
			t.Errorf("step %s says nothing when hidden", id)
		}
		s.click(id + "-fold")
	}
}

// Tab reaches everything that can be operated, in the order of reading.
func TestReach(t *testing.T) {
	s := open(t, 1280, 900)
	s.click("value-Rz")
	s.wait(`document.getElementById('mark-next')?.checkVisibility()`, "the working of Rz is open")
	// What is made beside the calculation comes late and brings things to reach.
	s.wait(`document.getElementById('record-page').childElementCount > 1 && !document.getElementById('record-page').hasAttribute('data-old') && !document.querySelector('#values .wait')`, "record and steadiness are there")
	s.settle()
	// Of a group of radio buttons Tab reaches the one that is chosen.
	count := eval[int](s, `(() => {
		const all = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')].filter(e =>
			!e.disabled && e.tabIndex >= 0 && e.checkVisibility({ visibilityProperty: true }) && e.getClientRects().length &&
			!(e.type === 'radio' && !e.checked && document.querySelector('input[name="' + e.name + '"]:checked')));
		window.toReach = all;
		document.activeElement.blur();
		window.scrollTo(0, 0);
		getSelection().removeAllRanges();
		return all.length;
	})()`)
	if count < 40 {
		t.Fatalf("only %d things to reach", count)
	}
	// From the start of the document on.
	eval[bool](s, `(() => { document.body.tabIndex = -1; document.body.focus(); document.body.removeAttribute('tabindex'); return true; })()`)
	var order []int
	unexpected := ""
	for range count + 5 {
		s.press(kb.Tab)
		at := eval[int](s, `toReach.indexOf(document.activeElement)`)
		if at >= 0 && (len(order) > 0 && at == order[0]) {
			break
		}
		if at < 0 && unexpected == "" {
			unexpected = eval[string](s, `document.activeElement.cloneNode(false).outerHTML`)
		}
		order = append(order, at)
		if hidden := eval[string](s, `(() => {
			const e = document.activeElement, r = e.getBoundingClientRect();
			if (e === document.body || !e.matches(':focus-visible')) return '';
			const line = document.getElementById('running-line'), l = line.getBoundingClientRect();
			return !line.contains(e) && r.top >= l.top && r.bottom <= l.bottom && r.left < l.right && r.right > l.left ? e.id || e.textContent : '';
		})()`); hidden != "" {
			t.Errorf("the focus lies under the running line at %q", hidden)
		}
	}
	if at := slices.Index(order, -1); at >= 0 && at < count {
		t.Errorf("stop %d of Tab is on %s, which was not expected", at+1, unexpected)
	}
	for i := range count {
		if !slices.Contains(order, i) {
			t.Errorf("Tab does not reach %s", eval[string](s, fmt.Sprintf("toReach[%d].id || toReach[%d].outerHTML.slice(0, 120)", i, i)))
		}
	}
	if !slices.IsSorted(slices.DeleteFunc(order, func(i int) bool { return i < 0 })) {
		t.Errorf("Tab does not follow the order of reading: %v", order)
	}
}

// keyTests does what each row of the page's table of keys says.
var keyTests = map[string]func(*sheet){
	"key-undo": func(s *sheet) {
		before := s.values()
		s.changed(func() { s.click("long-shorter") })
		s.away()
		s.changed(func() { s.press2("z", kb.ModifierCtrl) })
		s.equal(before)
	},
	"key-redo": func(s *sheet) {
		s.changed(func() { s.click("long-shorter") })
		after := s.values()
		s.changed(func() { s.click("undo") })
		s.away()
		s.changed(func() { s.press2("y", kb.ModifierCtrl) })
		s.equal(after)
	},
	"key-paste": func(s *sheet) {
		text := table("x [mm]\tz [µm]", "\t", ",", surface(21, 11600, 0.5), 0.5)
		s.away()
		s.changed(func() { s.clipboard(text) })
		if s.text("demo-note") != "" {
			s.t.Error("the demonstration is still there")
		}
	},
	"key-print": func(s *sheet) {
		// The browser's own key; what matters is what comes on paper: the table alone, on one page.
		s.onOnePage()
	},
	"key-fold": func(s *sheet) {
		s.focus("filters-fold")
		for _, key := range []string{kb.Enter, kb.Enter, " ", " "} {
			was := eval[bool](s, `document.getElementById('filters').open`)
			s.press(key)
			if eval[bool](s, `document.getElementById('filters').open`) == was {
				s.t.Errorf("%q leaves the step as it is", key)
			}
		}
	},
	"key-step": func(s *sheet) {
		s.focus("requirement-fold")
		for _, c := range [][2]string{{kb.ArrowDown, "trace-fold"}, {kb.ArrowDown, "primary-fold"}, {kb.ArrowUp, "trace-fold"}, {kb.End, "record-fold"}, {kb.Home, "requirement-fold"}} {
			s.press(c[0])
			s.focused(c[1])
		}
	},
	"key-remove": func(s *sheet) {
		text := table("x [mm];z [µm]", ";", ".", surface(91, 9600, 0.5), 0.5)
		s.dropBytes([]file{{"place-1.csv", []byte(text)}, {"place-2.csv", []byte(text)}})
		s.says("trace-reading", "2 traces")
		s.focus("trace-show-1")
		s.press(kb.Delete)
		s.says("trace-reading", "place-2.csv")
		s.focused("trace-remove-1")
		s.click("undo")
		s.says("trace-reading", "2 traces")
	},
	"key-cursor": func(s *sheet) {
		s.picked()
		first := s.said(func() { s.press(kb.ArrowRight) })
		second := s.said(func() { s.press(kb.ArrowRight) })
		s.said(func() { s.press2(kb.ArrowRight, kb.ModifierShift) })
		s.said(func() { s.press2(kb.ArrowLeft, kb.ModifierShift) })
		if back := s.said(func() { s.press(kb.ArrowLeft) }); back != first {
			s.t.Errorf("there and back: %q, then %q, then %q", first, second, back)
		}
		if !strings.Contains(first, "millimetres") || !strings.Contains(first, "section") {
			s.t.Errorf("the mark says %q", first)
		}
	},
	"key-section": func(s *sheet) {
		s.picked()
		here := s.said(func() { s.press(kb.ArrowRight) })
		there := s.said(func() { s.press(kb.PageDown) })
		if back := s.said(func() { s.press(kb.PageUp) }); back != here || there == here {
			s.t.Errorf("%q, then %q, then %q", here, there, back)
		}
	},
	"key-ends": func(s *sheet) {
		s.picked()
		end := s.said(func() { s.press(kb.End) })
		start := s.said(func() { s.press(kb.Home) })
		if start == end {
			s.t.Errorf("start and end are %q", start)
		}
	},
	"key-closer": func(s *sheet) {
		s.picked()
		span := func() string {
			return eval[string](s, `document.getElementById('view-from').value + ' to ' + document.getElementById('view-to').value`)
		}
		whole := span()
		s.press("+")
		s.wait(fmt.Sprintf(`document.getElementById('view-from').value + ' to ' + document.getElementById('view-to').value !== %q`, whole), "plus comes closer")
		closer := span()
		s.press("-")
		s.wait(fmt.Sprintf(`document.getElementById('view-from').value + ' to ' + document.getElementById('view-to').value !== %q`, closer), "minus goes further")
		s.press("+", "+", "0")
		s.wait(fmt.Sprintf(`document.getElementById('view-from').value + ' to ' + document.getElementById('view-to').value === %q`, whole), "0 shows the whole")
	},
	"key-mark": func(s *sheet) {
		s.picked()
		s.press(kb.ArrowRight, kb.Enter)
		s.press2(kb.ArrowRight, kb.ModifierShift)
		s.press(kb.Enter)
		s.wait(`document.getElementById('leave-out').checkVisibility()`, "the part can be left out")
		s.focused("leave-out-reason")
		before := s.values()
		s.changed(func() { s.press("a scratch from handling", kb.Enter) })
		if !strings.Contains(s.text("left-out"), "a scratch from handling") {
			s.t.Errorf("the part left out says %q", s.text("left-out"))
		}
		s.changed(func() { s.click("left-out-back") })
		s.equal(before)
	},
	"key-open": func(s *sheet) {
		s.focus("value-Rz")
		for i, key := range []string{kb.Enter, kb.Enter, " ", " "} {
			s.press(key)
			s.wait(fmt.Sprintf(`(document.getElementById('value-Rz').getAttribute('aria-expanded') === 'true') === %v && (document.getElementById('value-Rz-work') !== null) === %v`, i%2 == 0, i%2 == 0), "the working of Rz opens and closes")
		}
	},
	"key-row": func(s *sheet) {
		s.focus("value-Rz")
		s.press(kb.ArrowDown)
		s.focused("value-Ra")
		s.press(kb.ArrowUp)
		s.focused("value-Rz")
	},
	"key-next-mark": func(s *sheet) {
		s.click("value-Rz")
		s.wait(`document.getElementById('mark-next')?.checkVisibility()`, "the sections of Rz can be stepped through")
		s.focus("mark-next")
		at := func() string {
			return eval[string](s, `document.querySelector('.stepper [role=status]').textContent`)
		}
		here := at()
		s.press(kb.ArrowRight)
		there := at()
		s.press(kb.ArrowLeft)
		if back := at(); back != here || there == here {
			s.t.Errorf("%q, then %q, then %q", here, there, back)
		}
	},
	"key-slide": func(s *sheet) {
		s.focus("long-slide")
		s.changed(func() { s.press(kb.PageDown) })
		if at := eval[string](s, `document.getElementById('long-cutoff').value`); at != "0.25" {
			s.t.Errorf("the next shorter standard value is %s", at)
		}
		s.changed(func() { s.press(kb.PageUp) })
		if at := eval[string](s, `document.getElementById('long-slide').getAttribute('aria-valuetext')`); at != "0.8 millimetres, standard value" {
			s.t.Errorf("the slider says %q", at)
		}
		s.changed(func() { s.press(kb.ArrowLeft, kb.ArrowLeft, kb.ArrowLeft, kb.ArrowLeft) })
	},
	"key-escape": func(s *sheet) {
		s.focus("value-Rz")
		s.press(kb.Enter)
		s.wait(`document.getElementById('value-Rz-work') !== null`, "the working of Rz is open")
		s.press(kb.Escape)
		s.wait(`document.getElementById('value-Rz-work') === null`, "Escape closes it")
		s.click("profile-leave-out")
		s.wait(`document.getElementById('leave-out').checkVisibility()`, "the form is open")
		s.press(kb.Escape)
		s.wait(`!document.getElementById('leave-out').checkVisibility()`, "Escape closes it")
	},
}

// Each row of the table of keys holds, and each has its test.
func TestKeys(t *testing.T) {
	rows := eval[[]string](open(t, 1280, 900), `[...document.querySelectorAll('#keys-table tbody tr')].map(row => row.dataset.testId ?? '')`)
	if want := slices.Sorted(maps.Keys(keyTests)); !slices.Equal(slices.Sorted(slices.Values(rows)), want) {
		t.Errorf("the page lists %v, tested are %v", rows, want)
	}
	for _, id := range rows {
		t.Run(id, func(t *testing.T) {
			s := open(t, 1280, 900)
			s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{})
			if test := keyTests[id]; test != nil {
				test(s)
			}
		})
	}
}

// From the copied table to the printed record in at most 40 keys besides what is typed, without a pointer.
func TestKeysOnly(t *testing.T) {
	s := blankTab(t, usual)
	s.before(`window.print = () => { window.printed = (window.printed ?? 0) + 1; };`)
	s.load(1280, 900)
	s.away()
	keys := 1
	s.clipboard(table("x [mm]\tz [µm]", "\t", ",", surface(81, 9600, 0.5), 0.5))
	s.says("trace-reading", "pasted table")
	eval[bool](s, `(() => { document.activeElement.blur(); document.body.tabIndex = -1; document.body.focus(); document.body.removeAttribute('tabindex'); return true; })()`)
	to := func(what, selector string) {
		t.Helper()
		for ; keys < 40; keys++ {
			if eval[bool](s, fmt.Sprintf(`document.activeElement.matches(%q)`, selector)) {
				return
			}
			s.press(kb.Tab)
		}
		t.Fatalf("40 keys do not reach %s", what)
	}
	to("the way past the head", ".skip")
	s.press(kb.Enter)
	keys++
	to("the requirement", "#requirement-text")
	s.press("Rz 6")
	s.says("verdict-word", "Conforms")
	to("the link to the record", `.jump a[href="#record"]`)
	s.press(kb.Enter)
	keys++
	to("print", "#record-print")
	s.press(kb.Enter)
	keys++
	s.wait(`window.printed === 1`, "it is printed")
	s.says("record-page", "Conforms")
	if keys > 40 {
		t.Errorf("%d keys", keys)
	}
	t.Logf("%d keys", keys)
}

// onOnePage checks that the printed record is one page.
func (s *sheet) onOnePage() {
	s.t.Helper()
	pdf := get(s, chromedp.PrintToPDF())
	if dir := os.Getenv("FURROW_PICTURES"); dir != "" {
		write(s.t, filepath.Join(dir, strings.ReplaceAll(s.t.Name(), "/", "-")+".pdf"), string(pdf))
	}
	if n := bytes.Count(pdf, []byte("/Type /Page\n")) + bytes.Count(pdf, []byte("/Type /Page/")) + bytes.Count(pdf, []byte("/Type /Page ")); n != 1 {
		s.t.Errorf("the record takes %d pages", n)
	}
}

// press2 sends a key together with others that are held.
func (s *sheet) press2(key string, held ...chromedp.Modifier) {
	s.t.Helper()
	s.do(chromedp.KeyEvent(key, chromedp.KeyModifiers(held...)))
}

func (s *sheet) focus(id string) {
	s.t.Helper()
	s.reveal(id)
	s.do(chromedp.Focus(chromedp.ID(id)))
}

// focused checks which element has the focus.
func (s *sheet) focused(id string) {
	s.t.Helper()
	if at := eval[string](s, `document.activeElement.id`); at != id {
		s.t.Errorf("the focus is on %q, not on %q", at, id)
	}
}

// away takes the focus out of every field.
func (s *sheet) away() {
	s.t.Helper()
	eval[bool](s, `(document.activeElement.blur(), true)`)
}

// picked puts the focus on the picture of the profile.
func (s *sheet) picked() {
	s.t.Helper()
	s.reveal("profile-picture")
	eval[bool](s, `(document.querySelector('#profile-picture [tabindex="0"]').focus(), true)`)
}

// changed waits until what is done has changed a value of the table.
func (s *sheet) changed(do func()) {
	s.t.Helper()
	snapshot := `JSON.stringify([...document.querySelectorAll('#values-table [data-value]')].map(e => e.dataset.value))`
	before := eval[string](s, snapshot)
	do()
	s.wait(fmt.Sprintf("%s !== %q", snapshot, before), "a value changes")
	s.settle()
}

// equal checks that the table shows these values.
func (s *sheet) equal(want map[string]float64) {
	s.t.Helper()
	if got := s.values(); !maps.EqualFunc(got, want, same) {
		s.t.Errorf("the values are not those of before: %v, %v", got, want)
	}
}

// said returns what is announced to those who listen, once it has changed.
func (s *sheet) said(do func()) string {
	s.t.Helper()
	before := s.text("announce")
	do()
	s.wait(fmt.Sprintf("document.getElementById('announce').textContent !== %q", before), "something is announced")
	return eval[string](s, "document.getElementById('announce').textContent")
}
