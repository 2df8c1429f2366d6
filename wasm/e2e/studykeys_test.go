package e2e

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.com/furrow/roughness/study"
	"github.com/chromedp/chromedp/kb"
)

// tabTo presses Tab until the control has the focus, and checks that it is to be seen: in the window, and behind nothing that is fixed.
func (s *sheet) tabTo(id string) {
	s.t.Helper()
	for range 150 {
		s.press(kb.Tab)
		if eval[string](s, `document.activeElement.id || document.activeElement.name || ''`) != id {
			continue
		}
		s.settle()
		if at := eval[[]float64](s, `(e => {
			const r = e.getBoundingClientRect(), x = r.left + r.width / 2, y = r.top + r.height / 2, over = document.elementFromPoint(x, y);
			return over && (e.contains(over) || over.contains(e) || over.closest('label')?.contains(e)) ? [] : [x, y, innerWidth, innerHeight];
		})(document.activeElement)`); len(at) > 0 {
			s.picture("hidden-focus")
			s.t.Errorf("%s has the focus and is not to be seen: at %.0f, %.0f in %.0f × %.0f", id, at[0], at[1], at[2], at[3])
		}
		return
	}
	s.t.Fatalf("Tab does not reach %s", id)
}

// On a phone and with keys alone: what Rz counts, why Rk changes with the cut-off, eight heights by hand, and the answers as a code.
func TestStudyByKeys(t *testing.T) {
	for _, size := range [][2]int{{390, 664}, {1366, 650}} {
		s := studies(t, size[0], size[1])
		moved := func(what string, act func()) {
			t.Helper()
			before := eval[string](s, `document.getElementById('study').dataset.revision`)
			act()
			s.wait(fmt.Sprintf(`document.getElementById('study').dataset.revision !== %q`, before), what)
			s.settle()
		}
		symbol := func(name string) {
			t.Helper()
			s.tabTo("study-symbol")
			eval[bool](s, `(document.activeElement.select(), true)`)
			moved(name, func() { s.press(kb.Backspace, name, kb.Enter) })
		}
		// Rz: the steps name peak and pit of each section.
		s.tabTo("step-next")
		for k := 1; k <= 5; k++ {
			moved("a step", func() { s.press(kb.ArrowRight) })
			if got := s.text("step-text"); !strings.HasPrefix(got, fmt.Sprintf("%d of 5: section %d: peak", k, k)) {
				t.Errorf("step %d says %q", k, got)
			}
		}
		// Rk behind a longer cut-off.
		symbol("Rk")
		s.tabTo("move-what")
		moved("the cut-off", func() { s.press("c") })
		if got := eval[string](s, `document.getElementById('move-what').selectedOptions[0].textContent`); !strings.Contains(got, "cut-off of the L-filter") {
			t.Errorf("moved is %q", got)
		}
		at := s.value()
		s.tabTo("move-slide")
		moved("a longer cut-off", func() { s.press(strings.Repeat(kb.PageUp, 2)) })
		if v := s.value(); !(v > at) {
			t.Errorf("Rk is %v behind a longer cut-off, %v before", v, at)
		}
		s.wait(`!document.getElementById('value-beside').hidden`, "the value of before")
		// Eight heights by hand.
		s.tabTo("study-surface")
		moved("made here", func() { s.press(kb.ArrowRight) })
		moved("typed by hand", func() { s.press(kb.ArrowRight) })
		s.tabTo("hand-heights")
		eval[bool](s, `(document.activeElement.select(), true)`)
		moved("eight heights", func() { s.press(kb.Backspace, "3 1 -2 4 0 -5 2 1", kb.Tab) })
		symbol("Ra")
		if v := s.value(); math.Abs(v-18./8) > 1e-12 { // 3 + 1 + 2 + 4 + 0 + 5 + 2 + 1 = 18
			t.Errorf("Ra of the eight heights is %v", v)
		}
		s.wait(`document.getElementById('hand-table').textContent.includes('18/8 = 2.25')`, "the mean as a fraction")
		// The answers as a code, from a link as a teacher gives it.
		e := study.State{Symbol: "Rz", Surface: study.Demo, Demo: "ground-rod", Way: "predict", Questions: "ak"}
		exercise(t, s, e)
		s.wait(`document.querySelectorAll('#predict-options input').length >= 4`, "a question")
		for k := range 2 {
			s.tabTo("predict-option-1")
			s.press(" ")
			s.tabTo("predict-look")
			s.press(kb.Enter)
			s.wait(`document.getElementById('predict-reply').textContent.includes('The calculation gives')`, "the reply")
			if k == 0 {
				s.press(kb.Enter)
				s.wait(`document.getElementById('predict-reply').textContent === ''`, "the next question")
			}
		}
		s.tabTo("code-copy")
		s.press(kb.Enter)
		s.wait(`document.getElementById('code-text').textContent.length === 29`, "the code")
		if c, err := e.ReadCodes(s.text("code-text")); err != nil || len(c.Read) != 1 || c.Read[0].Options[0] != 0 || c.Read[0].Options[1] != 0 {
			t.Errorf("the code is read as %+v %v", c, err)
		}
		if wide := eval[float64](s, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
			t.Errorf("the page is %v px too wide", wide)
		}
	}
}
