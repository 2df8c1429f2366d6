package e2e

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"github.com/chromedp/chromedp"
)

// studies opens the sheet Study.
func studies(t *testing.T, width, height int) *sheet {
	t.Helper()
	s := open(t, width, height)
	s.turn("study.html", `document.getElementById('study').dataset.revision > 0`, "the sheet is there")
	return s
}

// Control, value, trace, construction and worked line are on one screen together, for every symbol.
func TestStudyBoxes(t *testing.T) {
	s := studies(t, 1366, 650)
	for _, size := range [][2]int64{{1366, 650}, {390, 664}} {
		s.do(chromedp.EmulateViewport(size[0], size[1]))
		s.settle()
		bad := get(s, chromedp.Evaluate[[]string](`(async () => {
			const root = document.getElementById('study');
			const bad = [];
			const symbols = [...document.querySelectorAll('#study-symbols option')].map(o => o.value);
			if (symbols.length < 40) bad.push(symbols.length + ' symbols');
			for (const symbol of symbols) {
				const before = root.dataset.revision;
				const field = document.getElementById('study-symbol');
				if (field.value !== symbol) {
					field.value = symbol;
					field.dispatchEvent(new Event('change'));
					for (let n = 0; root.dataset.revision === before && n < 300; n++) await new Promise(requestAnimationFrame);
					if (root.dataset.revision === before) { bad.push(symbol + ' is not shown'); continue; }
				}
				document.getElementById('study-construction').scrollIntoView();
				for (const id of ['study-move', 'study-value', 'study-trace', 'study-construction', 'study-worked']) {
					const r = document.getElementById(id).getBoundingClientRect();
					if (r.left < 0 || r.top < 0 || r.right > innerWidth || r.bottom > innerHeight + 0.5 || r.height < 20) bad.push(symbol + ': ' + id + ' ' + [r.left, r.top, r.right, r.bottom].map(Math.round));
				}
				const box = id => document.getElementById(id).getBoundingClientRect();
				if (box('study-worked').bottom > box('study-move').top && box('study-worked').left < box('study-move').right && box('study-worked').top < box('study-move').bottom) bad.push(symbol + ': the worked line ends at ' + Math.round(box('study-worked').bottom) + ', behind the control: ' + document.getElementById('worked-line').textContent);
				if (box('study-trace').top < box('study-value').bottom - 1) bad.push(symbol + ': the trace is behind the value');
			}
			return bad;
		})()`, chromedp.EvalAwaitPromise))
		for _, b := range bad {
			t.Errorf("%d × %d: %s", size[0], size[1], b)
		}
		s.picture(fmt.Sprintf("study-%d", size[0]))
	}
}

// eachSymbol takes every symbol of the list in turn and collects what the expression says of it.
func (s *sheet) eachSymbol(expression string) []string {
	s.t.Helper()
	return get(s, chromedp.Evaluate[[]string](`(async () => {
		const root = document.getElementById('study'), field = document.getElementById('study-symbol'), out = [];
		for (const symbol of [...document.querySelectorAll('#study-symbols option')].map(o => o.value)) {
			const before = root.dataset.revision;
			field.value = symbol;
			field.dispatchEvent(new Event('change'));
			for (let n = 0; root.dataset.revision === before && n < 300; n++) await new Promise(requestAnimationFrame);
			out.push(symbol + ' ' + (root.dataset.revision === before ? 'is not shown' : `+expression+`));
		}
		return out;
	})()`, chromedp.EvalAwaitPromise))
}

// The values of the sheet are those of the library, and every symbol has a formula with its letters.
func TestStudyValues(t *testing.T) {
	s := studies(t, 1366, 650)
	p := demo(t, synth.Demos()[0].Key)
	for _, line := range s.eachSymbol(`(document.getElementById('value-now').dataset.value ?? 'NaN') + ' ' + document.querySelectorAll('#study-formula math').length`) {
		symbol, rest, _ := strings.Cut(line, " ")
		shown, maths, _ := strings.Cut(rest, " ")
		v, err := strconv.ParseFloat(shown, 64)
		if err != nil {
			t.Errorf("%s: %s", symbol, rest)
			continue
		}
		e, err := roughness.Evaluate(p, &roughness.Settings{Parameters: []string{symbol}})
		if err != nil {
			t.Errorf("%s: %v", symbol, err)
			continue
		}
		if want, _ := e.Value(symbol); !same(v, want.Value) {
			t.Errorf("%s is %v on the sheet, %v by the library", symbol, v, want.Value)
		}
		if maths != "1" {
			t.Errorf("%s has %s formulas", symbol, maths)
		}
	}
}

// Nothing is asked of the network once the sheet is there.
func TestStudyAlone(t *testing.T) {
	s := studies(t, 1366, 650)
	s.wait(`document.getElementById('kept').textContent !== ''`, "what is kept is said")
	s.wait(`navigator.serviceWorker.controller !== null || document.getElementById('kept').textContent.includes('offline')`, "the service worker is there")
	before := len(asked.all())
	s.click("symbol-next")
	s.fill("move-number", "0.5")
	s.click("pin")
	s.click("step-next")
	s.click("undo")
	s.settle()
	if after := asked.all()[before:]; len(after) > 0 {
		t.Errorf("asked for %v", after)
	}
}
