package e2e

import (
	"encoding/json"
	"fmt"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
	"github.com/chromedp/chromedp"
)

// Control, value, trace, construction and worked line are on one screen together, for every parameter of the catalogue in the first edition
// that has it; nothing of the control stands out of it, and in both pictures no text is cut or lies on another.
func TestStudyBoxes(t *testing.T) {
	s := studies(t, 1366, 650)
	type place struct {
		Edition, Letter string
		Symbols         []string
	}
	var places []place
	seen := map[string]bool{}
	for _, ed := range standards.Editions() {
		for _, letter := range "RWP" {
			p := place{Edition: string(ed.ID), Letter: string(letter)}
			for _, call := range params.Defaults(ed.ID, byte(letter)) {
				if !seen[call.Parameter.Key] {
					seen[call.Parameter.Key] = true
					p.Symbols = append(p.Symbols, call.String())
				}
			}
			if len(p.Symbols) > 0 {
				places = append(places, p)
			}
		}
	}
	if len(seen) < 90 {
		t.Fatalf("%d parameters", len(seen))
	}
	list, err := json.Marshal(places)
	if err != nil {
		t.Fatal(err)
	}
	for _, size := range [][2]int64{{1366, 650}, {1366, 768}, {390, 664}, {390, 844}} {
		s.do(chromedp.EmulateViewport(size[0], size[1]))
		s.settle()
		bad := get(s, chromedp.Evaluate[[]string](`(async () => {
			const root = document.getElementById('study');
			const bad = [];
			const set = async (id, value) => {
				const field = document.getElementById(id), before = root.dataset.revision;
				if (field.value === value) return true;
				field.value = value;
				field.dispatchEvent(new Event('change'));
				for (let n = 0; root.dataset.revision === before && n < 300; n++) await new Promise(requestAnimationFrame);
				if (root.dataset.revision === before) bad.push(value + ' is not shown');
				return root.dataset.revision !== before;
			};
			for (const { Edition, Letter, Symbols } of `+string(list)+`) {
				await set('study-edition', Edition);
				await set('study-letter', Letter);
				for (const symbol of Symbols) {
					if (!await set('study-symbol', symbol)) continue;
					document.getElementById('study-construction').scrollIntoView();
					for (const id of ['study-move', 'study-value', 'study-trace', 'study-construction', 'study-worked']) {
						const r = document.getElementById(id).getBoundingClientRect();
						if (r.left < 0 || r.top < 0 || r.right > innerWidth || r.bottom > innerHeight + 0.5 || r.height < 20) bad.push(symbol + ': ' + id + ' ' + [r.left, r.top, r.right, r.bottom].map(Math.round));
					}
					const box = id => document.getElementById(id).getBoundingClientRect();
					if (box('study-worked').bottom > box('study-move').top && box('study-worked').left < box('study-move').right && box('study-worked').top < box('study-move').bottom) bad.push(symbol + ': the worked line ends at ' + Math.round(box('study-worked').bottom) + ', behind the control: ' + document.getElementById('worked-line').textContent);
					if (box('study-trace').top < box('study-value').bottom - 1) bad.push(symbol + ': the trace is behind the value');
					for (const frame of ['trace-frame', 'construction-frame']) {
						const texts = [...document.querySelectorAll('#' + frame + ' > svg text')].map(e => [e.textContent, e.getBoundingClientRect()]), f = box(frame);
						texts.forEach(([a, r], i) => {
							if (r.left < f.left - 6 || r.right > f.right + 6 || r.top < f.top - 6 || r.bottom > f.bottom + 6) bad.push(symbol + ': “' + a + '” is cut in the picture');
							for (const [b, q] of texts.slice(i + 1)) if (Math.min(r.right, q.right) - Math.max(r.left, q.left) > 3 && Math.min(r.bottom, q.bottom) - Math.max(r.top, q.top) > 4) bad.push(symbol + ': “' + a + '” and “' + b + '” lie on each other');
						});
					}
					for (const e of document.querySelectorAll('#study-move :is(button, input, select, .unit)')) {
						const r = e.getBoundingClientRect(), m = box('study-move');
						if (!e.hidden && (r.right > m.right + 0.5 || r.left < m.left - 0.5)) bad.push(symbol + ': ' + (e.id || e.className) + ' stands out of the control, ' + Math.round(r.right) + ' > ' + Math.round(m.right));
					}
				}
			}
			await set('study-edition', document.getElementById('study-edition').options[0].value);
			await set('study-letter', 'R');
			return bad;
		})()`, chromedp.EvalAwaitPromise))
		for _, b := range bad {
			t.Errorf("%d × %d: %s", size[0], size[1], b)
		}
		s.fitting()
		s.picture(fmt.Sprintf("study-%d-%d", size[0], size[1]))
	}
	// The longest words of what moves, with a unit.
	s.do(chromedp.EmulateViewport(1366, 768))
	s.choice("study-surface", "made")
	s.enter("study-symbol", "Rsk")
	s.click("pin")
	s.settle()
	if out := eval[[]string](s, `[...document.querySelectorAll('#study-move :is(button, input, select, .unit)')].filter(e => !e.hidden && e.getBoundingClientRect().right > document.getElementById('study-move').getBoundingClientRect().right + 0.5).map(e => e.id)`); len(out) > 0 {
		t.Errorf("with the worn level %v stand out of the control", out)
	}
	s.picture("study-worn")
	s.do(chromedp.EmulateViewport(390, 664))
	s.settle()
	if high := eval[[]float64](s, `(e => [e.scrollHeight, e.clientHeight])(document.getElementById('study-move'))`); high[0] > high[1]+1 {
		t.Errorf("on a phone the control is %v high in a room of %v", high[0], high[1])
	}
	s.accessible("study-worn")
}

// fitting checks that both pictures are drawn for the room that they have.
func (s *sheet) fitting() {
	s.t.Helper()
	s.settle()
	for _, id := range []string{"trace-frame", "construction-frame"} {
		size := eval[[]float64](s, fmt.Sprintf(`(e => [e.clientWidth, e.clientHeight, Number(e.querySelector('svg').getAttribute('width')), Number(e.querySelector('svg').getAttribute('height'))])(document.getElementById(%q))`, id))
		if size[0] != size[2] || size[1] != size[3] {
			s.t.Errorf("%s has room for %v × %v, the picture is %v × %v", id, size[0], size[1], size[2], size[3])
		}
	}
}
