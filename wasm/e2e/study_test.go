package e2e

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// studies opens the sheet Study.
func studies(t *testing.T, width, height int) *sheet {
	t.Helper()
	s := open(t, width, height)
	s.turn("study.html", `document.getElementById('study').dataset.revision > 0`, "the sheet is there")
	return s
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
	s.wait(`navigator.serviceWorker.controller !== null`, "the service worker is there")
	before := len(asked.all())
	s.click("symbol-next")
	s.fill("move-number", "0.5")
	s.click("pin")
	s.click("step-next")
	s.click("undo")
	s.settle()
	for _, path := range asked.all()[before:] {
		if path != "/sw.js" { // the browser's own look for a newer version, once after loading
			t.Errorf("asked for %s", path)
		}
	}
}

// choice presses a radio of the sheet.
func (s *sheet) choice(name, value string) {
	s.t.Helper()
	before := eval[string](s, `document.getElementById('study').dataset.revision`)
	eval[bool](s, fmt.Sprintf(`(document.querySelector('input[name=%q][value=%q]').click(), true)`, name, value))
	s.wait(fmt.Sprintf(`document.getElementById('study').dataset.revision !== %q`, before), name+" "+value)
	s.settle()
}

// value is what the sheet calculates, unrounded.
func (s *sheet) value() float64 {
	s.t.Helper()
	v, err := strconv.ParseFloat(eval[string](s, `document.getElementById('value-now').dataset.value ?? 'NaN'`), 64)
	if err != nil {
		s.t.Fatal(err)
	}
	return v
}

// enter types into a number field of the sheet and waits for the answer.
func (s *sheet) enter(id, text string) {
	s.t.Helper()
	before := eval[string](s, `document.getElementById('study').dataset.revision`)
	s.fill(id, text)
	s.wait(fmt.Sprintf(`document.getElementById('study').dataset.revision !== %q`, before), id+" "+text)
	s.settle()
}

// A made surface has the closed form of its wave, ingredients come and go, and what cannot be is refused at its field.
func TestStudyMade(t *testing.T) {
	s := studies(t, 1366, 900)
	s.choice("study-surface", "made")
	s.enter("study-symbol", "Ra")
	// Ra of a sine of height 2 is 2/π: ISO 21920-2, 4.2.2, integrated over a whole wave.
	if v := s.value(); math.Abs(v-2/math.Pi) > 0.015*2/math.Pi {
		t.Errorf("Ra of a sine of height 2 is %v", v)
	}
	if got := s.text("study-removed"); got != "Removed: nothing." {
		t.Errorf("removed: %q", got)
	}
	s.enter("sine1-height", "4")
	if v := s.value(); math.Abs(v-4/math.Pi) > 0.015*4/math.Pi {
		t.Errorf("Ra of a sine of height 4 is %v", v)
	}
	// Nothing is left of the cubes of a sine but rounding, and that is 0.
	s.enter("study-symbol", "Rsk")
	s.wait(`document.getElementById('value-now').textContent === '0' && /[=≈] 0$/.test(document.getElementById('worked-line').textContent.trim())`, "Rsk of a sine is 0, and so says its worked line")
	if got := s.text("worked-line"); strings.Contains(got, "0.00000") {
		t.Errorf("Rsk is worked out as %q", got)
	}
	t.Log(s.text("worked-line"), s.text("step-text"))
	s.choose("surface-add", "feed")
	s.click("surface-add-do")
	s.wait(`document.getElementById('feed-feed') !== null`, "the fields of the feed marks")
	s.accessible("study-made")
	s.fill("feed-feed", "4")
	s.wait(`document.getElementById('feed-feed-fault') !== null`, "a feed above twice the nose radius is refused")
	if got := s.text("feed-feed-fault"); !strings.Contains(got, "The nose arc ends there") {
		t.Errorf("the refusal says %q", got)
	}
	s.click("take-out-feed")
	s.wait(`document.getElementById('feed-feed') === null`, "the feed marks are gone")
	s.click("undo")
	s.wait(`document.getElementById('feed-feed') !== null`, "they are back")
}

// What is kept as before stays beside the value, and a dragged level and its typed field are two views of one value.
func TestStudyGhost(t *testing.T) {
	s := studies(t, 1366, 650)
	s.enter("study-symbol", "Rmr(0.5)")
	shown := s.text("value-now")
	s.click("pin")
	s.wait(`!document.getElementById('value-beside').hidden`, "the value of before")
	before := s.value()
	s.do(chromedp.Focus(chromedp.ID("handle-trace-cut-level")))
	s.press(kb.ArrowDown)
	s.wait(`document.getElementById('cut-level').value !== '0.5'`, "the field of the cut level")
	s.settle()
	if v := s.value(); !(v > before) {
		t.Errorf("the ratio is %v at a lower cut, %v before", v, before)
	}
	if got := s.text("value-before"); got != shown {
		t.Errorf("before is %q, shown was %q", got, shown)
	}
	s.enter("cut-ratio", "50")
	if v := s.value(); math.Abs(v-50) > 0.01 {
		t.Errorf("the ratio is %v, typed was 50", v)
	}
	if at := eval[float64](s, `Number(document.getElementById('handle-trace-cut-level').getAttribute('aria-valuenow'))`); math.Abs(at) > 0.2 {
		t.Errorf("half of the length is at or above %v µm", at)
	}
	s.click("pin-remove")
	s.wait(`document.getElementById('value-beside').hidden`, "nothing before")
}

// A question is answered before anything of its answer is in the page, and its first answer stays.
func TestStudyPredict(t *testing.T) {
	s := studies(t, 1366, 900)
	s.choice("study-way", "predict")
	s.wait(`document.querySelectorAll('#predict-options input').length >= 4`, "a question")
	if hidden := eval[bool](s, `document.getElementById('value-now').textContent === 'hidden until you answer'`); hidden {
		if page := eval[string](s, `document.getElementById('study-seen').textContent`); strings.Contains(page, "2.92") {
			t.Error("the value is in the page before the answer")
		}
	}
	options := eval[[]string](s, `[...document.querySelectorAll('#predict-options label')].map(l => l.textContent)`)
	if last := options[len(options)-1]; last != "I do not know" {
		t.Errorf("the last option is %q", last)
	}
	s.click("predict-look")
	s.wait(`!document.getElementById('predict-missing').hidden`, "nothing is chosen yet")
	s.picture("study-predict")
	s.click("predict-option-1")
	s.click("predict-look")
	s.wait(`document.getElementById('predict-reply').textContent.includes('The calculation gives')`, "the reply")
	if free := eval[int](s, `document.querySelectorAll('#predict-options input:not(:disabled)').length`); free > 0 {
		t.Errorf("%d options can still be chosen", free)
	}
	if got := s.text("predict-look"); got != "Next question" {
		t.Errorf("the button says %q", got)
	}
	if !eval[bool](s, `document.activeElement.id === 'predict-look'`) {
		t.Error("the focus left the button")
	}
	s.accessible("study-reply")
	question := s.text("predict-question")
	s.click("predict-look")
	s.wait(fmt.Sprintf(`document.getElementById('predict-question').innerText !== %q`, question), "the next question")
}

// A first answer belongs to its exercise: another trace asks its questions anew, and the first trace still has its answers.
func TestStudyAnswersOfAnExercise(t *testing.T) {
	s := studies(t, 1366, 900)
	s.choice("study-way", "predict")
	s.wait(`document.querySelectorAll('#predict-options input').length >= 4`, "a question")
	s.click("predict-option-1")
	s.click("predict-look")
	s.wait(`document.getElementById('predict-reply').textContent.includes('The calculation gives')`, "the reply")
	answered := `[...document.querySelectorAll('#predict-list li')].filter(l => l.textContent.includes(', answered')).length`
	asked := `document.querySelectorAll('#predict-list button').length > 1`
	if n := eval[int](s, answered); n != 1 {
		t.Fatalf("%d questions are answered, want 1", n)
	}
	first := eval[string](s, `document.getElementById('surface-demo').value`)
	s.choose("surface-demo", synth.Demos()[len(synth.Demos())-1].Key)
	s.wait(`document.getElementById('predict-reply').textContent === '' && `+asked, "the questions on the other trace")
	if n := eval[int](s, answered); n != 0 {
		t.Errorf("%d questions on the other trace are answered already", n)
	}
	s.choose("surface-demo", first)
	s.wait(answered+` === 1`, "the first trace has its answer again")
}

// An exercise comes again from its link, and a link that was cut says so and sets nothing.
func TestStudyLink(t *testing.T) {
	s := studies(t, 1366, 650)
	s.choice("study-surface", "made")
	s.enter("study-symbol", "Rq")
	s.enter("sine1-height", "3")
	v := s.value()
	s.click("study-link")
	s.wait(`location.hash.startsWith('#s1')`, "the link")
	link := eval[string](s, `location.hash`)
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	s.turn("study.html"+link, `document.getElementById('study').dataset.revision > 0`, "the exercise")
	if got := s.value(); !same(got, v) {
		t.Errorf("the value is %v from the link, %v before", got, v)
	}
	if got := eval[string](s, `document.getElementById('sine1-height').value`); got != "3" {
		t.Errorf("the height is %q from the link", got)
	}
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	s.turn("study.html"+strings.Replace(link, "Rq", "Rz", 1), `document.getElementById('study').dataset.revision > 0`, "the sheet")
	s.wait(`document.getElementById('trouble').textContent.includes('This link was changed or cut')`, "what is wrong with the link")
}

// Sixteen heights worked by hand have the sums of the definitions; what cannot be read is named and changes nothing.
func TestStudyHand(t *testing.T) {
	s := studies(t, 1366, 900)
	s.choice("study-surface", "typed")
	s.enter("hand-heights", "3 1 -2 4 0 -5 2 1 -1 3 -4 2 0 -3 1 -2")
	// The heights are whole numbers: sum of |z| 34, of z² 104, over 16 points.
	for _, c := range []struct {
		symbol string
		want   float64
	}{{"Rq", math.Sqrt(104. / 16)}, {"Rt", 9}, {"Ra", 34. / 16}} {
		s.enter("study-symbol", c.symbol)
		if v := s.value(); !same(v, c.want) {
			t.Errorf("%s of the sixteen heights is %v, want %v", c.symbol, v, c.want)
		}
	}
	s.wait(`document.getElementById('hand-table').textContent.includes('34/16 = 2.125')`, "the mean as a fraction")
	if got := s.text("hand-echo"); !strings.Contains(got, "16 heights") {
		t.Errorf("read as %q", got)
	}
	columns := eval[int](s, `document.querySelectorAll('#hand-table thead th').length`)
	s.click("hand-columns")
	s.wait(fmt.Sprintf(`document.querySelectorAll('#hand-table thead th').length > %d`, columns), "all columns")
	s.picture("study-hand")
	// The decimal mark is the reader's, in values, arithmetic, tables and pictures, and stays for the next visit.
	s.click("decimal-comma")
	s.wait(`document.getElementById('value-now').textContent === '2,125\u00a0µm' && document.getElementById('worked-line').textContent.includes('2,125') && document.getElementById('hand-table').textContent.includes('34/16 = 2,125') && document.querySelector('#construction-frame svg').textContent.includes('0,2')`, "a comma everywhere")
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	s.turn("study.html", `document.getElementById('study').dataset.revision > 0`, "the sheet again")
	s.wait(`document.getElementById('decimal-comma').checked && document.getElementById('value-now').textContent.startsWith('2,125')`, "a comma on the next visit")
	s.click("decimal-point")
	s.wait(`document.getElementById('value-now').textContent.startsWith('2.125')`, "a point again")
	before := s.value()
	s.fill("hand-heights", "3 1 x 4")
	s.wait(`document.getElementById('hand-heights').getAttribute('aria-invalid') === 'true'`, "x is no number")
	if v := s.value(); v != before {
		t.Errorf("the value is %v after a text that cannot be read, %v before", v, before)
	}
	s.click("undo")
	s.settle()
}

// What is known of a made surface stands beside what is calculated, without filters and behind them.
func TestStudyKnown(t *testing.T) {
	s := studies(t, 1366, 900)
	s.choice("study-surface", "made")
	s.click("study-known")
	s.wait(`document.querySelectorAll('#study-known-table tbody tr').length > 5`, "the table of what is known")
	rows := eval[[][]string](s, `[...document.querySelectorAll('#study-known-table tbody tr')].map(r => [r.cells[0].textContent, r.querySelector('[data-known]').dataset.known, r.querySelector('[data-calculated]').dataset.calculated])`)
	for _, r := range rows {
		if symbol := r[0]; symbol == "Ra" || symbol == "Rq" || symbol == "Rz" {
			known, _ := strconv.ParseFloat(r[1], 64)
			calculated, _ := strconv.ParseFloat(r[2], 64)
			if known == 0 || math.Abs(calculated-known) > 0.015*known {
				t.Errorf("%s: known %v, calculated %v", symbol, known, calculated)
			}
		}
	}
	s.picture("study-known")
}

// From a step of the slider to the new pictures it takes no longer than a frame or two; the figures are printed, because a shared machine
// cannot hold to them.
func TestStudySpeed(t *testing.T) {
	s := studies(t, 1366, 650)
	for _, c := range []struct {
		symbol, move string
		wanted       int
	}{{"Rz", "filter-long", 33}, {"Rz", "ordinate-height", 33}, {"Ra", "section-start", 33}, {"Rmr(0.5)", "cut-level", 33}, {"Rk", "ordinate-height", 60}, {"Rk", "filter-long", 60}} {
		if eval[string](s, `document.getElementById('study-symbol').value`) != c.symbol {
			s.enter("study-symbol", c.symbol)
		}
		before := eval[string](s, `document.getElementById('study').dataset.revision`)
		s.choose("move-what", c.move)
		s.wait(fmt.Sprintf(`document.getElementById('study').dataset.revision !== %q`, before), c.move)
		s.settle()
		times := get(s, chromedp.Evaluate[[]float64](`(async () => {
			const root = document.getElementById('study'), slide = document.getElementById('move-slide'), times = [];
			for (let i = 0; i < 45; i++) {
				const before = root.dataset.revision, start = performance.now();
				slide.value = String(400 + 7 * (i % 40));
				slide.dispatchEvent(new Event('input'));
				await new Promise(done => { const o = new MutationObserver(() => { if (root.dataset.revision !== before) { o.disconnect(); done(); } }); o.observe(root, { attributes: true }); });
				times.push(performance.now() - start);
			}
			slide.dispatchEvent(new Event('change'));
			return times.slice(25).sort((a, b) => a - b);
		})()`, chromedp.EvalAwaitPromise))
		t.Logf("%s, %s: %.0f ms (%d wanted), the slowest of 20 %.0f ms", c.symbol, c.move, times[10], c.wanted, times[19])
		if times[10] > 1000 {
			t.Errorf("%s, %s: %.0f ms", c.symbol, c.move, times[10])
		}
		s.settle()
	}
}

// A blank takes what follows from the printed terms; another entry gets the step with its terms, and a blank can be shown.
func TestStudyWork(t *testing.T) {
	s := studies(t, 1366, 900)
	v := s.value()
	s.choice("study-way", "work")
	s.wait(`document.querySelectorAll('#fade-lines li').length > 0`, "the lines at level 0")
	if n := eval[int](s, `document.querySelectorAll('#fade-lines input').length`); n > 0 {
		t.Errorf("%d blanks where all is shown", n)
	}
	s.click("fade-less")
	s.wait(`document.querySelectorAll('#fade-lines input').length === 1`, "the last step is blank")
	s.wait(`document.getElementById('value-now').textContent === 'hidden until you answer'`, "the value is hidden")
	s.fill("blank-1", "9.9")
	s.wait(`document.getElementById('blank-1-reply').textContent !== ''`, "the reply")
	if got := s.text("blank-1-reply"); strings.Contains(got, "Goes on") {
		t.Errorf("9.9 goes on: %q", got)
	}
	s.picture("study-work")
	s.fill("blank-1", strconv.FormatFloat(v, 'f', 3, 64))
	s.wait(`document.getElementById('blank-1-reply').textContent.includes('Goes on')`, "the library's value goes on")
	s.wait(`document.getElementById('value-now').dataset.value !== undefined`, "the value is shown again")
	s.click("fade-less")
	s.wait(`document.querySelectorAll('#fade-lines input').length > 2`, "the single steps are blank too")
	s.click("blank-show")
	s.wait(`document.getElementById('blank-1').value !== ''`, "the first blank is filled")
	s.click("fade-more")
	s.wait(`document.querySelectorAll('#fade-lines input').length === 1`, "more is shown again")
}

// The worksheet's opened value leads to the same trace and the same value here.
func TestStudySheet(t *testing.T) {
	s := open(t, 1280, 900)
	s.drop("rod.csv", table("x [mm];z [µm]", ";", ".", surface(77, 11600, 0.5), 0.5))
	s.wait(`document.getElementById('demo-note').hidden`, "the trace is read")
	s.wait(`document.getElementById('kept').textContent.startsWith('Kept on this device')`, "the sheet is kept")
	want := s.values()["Rz"]
	s.click("value-Rz")
	s.turn(eval[string](s, `document.getElementById('rz-study').getAttribute('href')`), `document.getElementById('study')?.dataset.revision > 0`, "the sheet Study")
	if got := s.value(); !same(got, want) {
		t.Errorf("Rz is %v here, %v on the worksheet", got, want)
	}
	if got := s.text("surface-note"); !strings.Contains(got, "rod") {
		t.Errorf("the surface is said to be %q", got)
	}
}

// Every control has its printed name, can be reached by keys, and stands in the order of the screen.
func TestStudyControls(t *testing.T) {
	s := studies(t, 1366, 900)
	s.enter("study-symbol", "Rmr(0.5)")
	s.click("pin")
	s.wait(`!document.getElementById('pin-remove').hidden`, "the state before is kept")
	names := []struct{ id, name string }{
		{"undo", "Undo"}, {"study-link", "Copy a link to this exercise"}, {"study-symbol", "Symbol"}, {"symbol-previous", "previous symbol"}, {"symbol-next", "next symbol"},
		{"surface-demo", "Demonstration"}, {"study-class", "Class"}, {"study-letter", "Profile"}, {"study-edition", "Standard and year"}, {"move-what", "Move"}, {"move-back", "Back"}, {"pin", "Keep as before"},
		{"pin-remove", "Remove the before"}, {"step-previous", "previous"}, {"step-next", "next"}, {"cut-level", "cut level, µm"}, {"cut-ratio", "material ratio, %"}, {"study-numbers", "The numbers of this picture"}, {"study-clear", "Clear all"},
	}
	at := -1
	for _, c := range names {
		got := eval[[]any](s, fmt.Sprintf(`(e => { e.focus(); return [(e.labels?.[0] ?? e).textContent, document.activeElement === e, [...document.querySelectorAll('*')].indexOf(e)]; })(document.getElementById(%q))`, c.id))
		if got[0] != c.name {
			t.Errorf("%s is called %q, want %q", c.id, got[0], c.name)
		}
		if got[1] != true {
			t.Errorf("%s takes no focus", c.id)
		}
		if place := int(got[2].(float64)); place < at {
			t.Errorf("%s stands before the control above it", c.id)
		} else {
			at = place
		}
	}
	// A letter tells what it is here, a step goes to its place, and the numbers of the picture are a table.
	s.click("letter-c")
	if got := s.text("letter-line"); !strings.Contains(got, "height") {
		t.Errorf("the letter c says %q", got)
	}
	s.click("study-numbers")
	s.wait(`document.querySelectorAll('#study-numbers-table tbody tr').length > 0`, "the numbers")
	s.enter("study-symbol", "Rsm")
	s.click("step-next")
	s.wait(`document.getElementById('step-text').textContent.startsWith('1 of')`, "the first step")
	s.click("step-next")
	s.wait(`!document.getElementById('finder').hidden`, "an element is zoomed to, and the finder shows where")
	s.fitting()
	s.picture("study-zoom")
	if n := eval[int](s, `document.querySelectorAll('#finder .window').length`); n != 1 {
		t.Errorf("%d windows in the finder", n)
	}
	s.click("zoom-whole")
	s.wait(`document.getElementById('finder').hidden`, "the whole trace")
	s.enter("ordinate-height", "9")
	s.wait(`document.querySelectorAll('#study-moved li').length === 1`, "the moved ordinate is listed")
	s.click(eval[string](s, `document.querySelector('#study-moved button').id`))
	s.wait(`document.getElementById('study-moved').hidden`, "it is back at its own height")
	s.fill("study-symbol", "Rxyz")
	s.wait(`document.getElementById('study-symbol-fault') !== null`, "an unknown symbol is refused in words")
	if got := s.text("value-symbol"); got != "Rsm" {
		t.Errorf("the symbol is %q after a refusal", got)
	}
}
