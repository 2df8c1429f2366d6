package e2e

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"example.com/furrow/roughness/study"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// exercise opens the link of an exercise.
func exercise(t *testing.T, s *sheet, e study.State) {
	t.Helper()
	link, err := e.Link()
	if err != nil {
		t.Fatal(err)
	}
	s.turn("index.html", `document.querySelectorAll('#values-table [data-value]').length > 0`, "the worksheet")
	s.turn("study.html#"+link, `document.getElementById('study').dataset.revision > 0 && document.getElementById('main').getAttribute('aria-busy') !== 'true'`, "the exercise")
	s.settle()
}

// everything is all that a person or a screen reader gets of the page: texts, names, values of fields, and what the page holds as data.
const everything = `(() => {
	const out = [];
	const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
	for (let n = walk.currentNode; n; n = walk.nextNode()) {
		if (n.nodeType === 3) { if (!n.parentElement.closest('script, style')) out.push(n.data); continue; }
		for (const a of n.attributes) if (/^(aria-|data-|title|alt|placeholder)/.test(a.name) && !['data-options', 'data-of'].includes(a.name)) out.push(a.value);
		if ('value' in n && n.type !== 'range' && n.type !== 'radio' && n.type !== 'checkbox') out.push(String(n.value));
	}
	return out.join(' \n ');
})()`

// holds tells whether a printed number stands in a text by itself.
func holds(text, number string) bool {
	return regexp.MustCompile(`(^|[^0-9.,])` + regexp.QuoteMeta(number) + `([^0-9]|$)`).MatchString(strings.ReplaceAll(text, "\u202f", ""))
}

// An exercise that hides its values shows the value of no symbol anywhere on the page until it is guessed: not in the value line, the table of
// what is known, notes, worked lines, tables, pictures, fields or names.
func TestStudyHides(t *testing.T) {
	s := studies(t, 1366, 900)
	made := study.State{Symbol: "Rz", Surface: study.Made, Hide: 1, Parts: []study.Part{{Kind: "sine1", Values: []float64{1.371, 0.27, 0.1}}}}
	exercise(t, s, made)
	if got := s.text("value-now"); got != "hidden until you answer" {
		t.Fatalf("the value line says %q", got)
	}
	if eval[bool](s, `!document.getElementById('hidden-show').hidden`) {
		t.Error("a link that hides values offers to show them")
	}
	s.click("study-known")
	s.click("study-numbers")
	s.click("pin")
	d := &study.Desk{}
	symbols := eval[[]string](s, `[...document.querySelectorAll('#study-symbols option')].map(o => o.value)`)
	for _, way := range []string{"look", "work"} {
		s.choice("study-way", way)
		for i, symbol := range symbols {
			state := made
			state.Symbol = symbol
			r, err := d.Evaluate(state)
			if err != nil {
				t.Fatal(err)
			}
			shown := r.Shown()
			if len(strings.Trim(shown, "-−0.")) < 3 || i%3 > 0 && way == "work" {
				continue // as short a number stands for other things too
			}
			s.enter("study-symbol", symbol)
			if i%4 == 0 {
				s.click("step-next")
				s.settle()
			}
			if text := eval[string](s, everything); holds(text, shown) {
				at := strings.Index(strings.ReplaceAll(text, "\u202f", ""), shown)
				t.Errorf("%s, %s: %s is on the page: …%s…", way, symbol, shown, text[max(0, at-80):min(len(text), at+40)])
			}
		}
	}
	s.picture("study-hidden")
	// The guess opens all.
	s.choice("study-way", "look")
	s.fill("guess-value", "1.2")
	s.click("guess-done")
	s.wait(`document.getElementById('guess-reply').textContent.includes('The calculation gives')`, "the reply to the guess")
	r, err := d.Evaluate(made)
	if err != nil {
		t.Fatal(err)
	}
	if got := s.text("guess-reply"); !strings.Contains(got, "You expected: 1.2") || !holds(got, r.Shown()) {
		t.Errorf("the reply is %q", got)
	}
	if v := s.value(); !same(v, r.Value.Value) {
		t.Errorf("the value is %v after the guess, want %v", v, r.Value.Value)
	}
	s.wait(`document.querySelectorAll('#study-known-table tbody tr').length > 5`, "what is known is shown too")
	s.enter("sine1-height", "2.9")
	if got := s.text("value-now"); got == "hidden until you answer" {
		t.Error("a move after the guess hides the value again")
	}
	s.accessible("study-guess")
}

// Where a guess is asked for first, no question stands before it; the questions come with the guess, and the code holds both.
func TestStudyGuessFirst(t *testing.T) {
	s := studies(t, 1366, 900)
	s.allowClipboard()
	e := study.State{Symbol: "Rz", Surface: study.Demo, Demo: "ground-rod", Filter: study.Removal{Kind: "class", Class: "Sc3"}, Way: "predict", Questions: "abhn", Hide: 2}
	exercise(t, s, e)
	s.wait(`document.getElementById('predict-question').textContent.includes('First your guess')`, "the guess comes first")
	if n := eval[int](s, `document.querySelectorAll('#predict-options input').length`); n > 1 {
		t.Errorf("%d options before the guess", n)
	}
	s.fill("guess-value", "3")
	s.click("guess-done")
	s.wait(`document.querySelectorAll('#predict-options input').length >= 4`, "the first question")
	answered := []int{1, 0, 2, 1}
	for i, option := range answered {
		s.click(fmt.Sprintf("predict-option-%d", option+1))
		s.click("predict-look")
		s.wait(`document.getElementById('predict-reply').textContent.includes('The calculation gives')`, "the reply")
		if i+1 < len(answered) {
			s.click("predict-look")
			s.wait(`document.getElementById('predict-reply').textContent === ''`, "the next question")
		}
	}
	s.click("code-copy")
	s.wait(`document.getElementById('code-text').textContent.length === 29`, "the code")
	code := s.text("code-text")
	c, err := e.ReadCodes(code)
	if err != nil || len(c.Read) != 1 || c.Read[0].Guess != 3 {
		t.Fatalf("%s is read as %+v %v", code, c, err)
	}
	for i, want := range answered {
		if got := c.Read[0].Options[i]; got != want {
			t.Errorf("answer %d is %d in the code, chosen was %d", i+1, got, want)
		}
	}
	// A reload keeps what was answered and the same code.
	exercise(t, s, e)
	s.wait(`document.getElementById('study')?.dataset.revision > 0 && document.getElementById('study-said').textContent.includes('You answered this exercise before')`, "the exercise again")
	if got := s.text("value-now"); got == "hidden until you answer" {
		t.Error("the value is hidden again after the guess")
	}
	s.click("code-copy")
	s.wait(`document.getElementById('code-text').textContent.length === 29`, "the code")
	if again := s.text("code-text"); again != code {
		t.Errorf("the code is %s after a reload, %s before", again, code)
	}
}

// With values hidden and no guess wanted first, the questions that do not tell the value are asked, and their answers show it.
func TestStudyAnswersShow(t *testing.T) {
	s := studies(t, 1366, 900)
	e := study.State{Symbol: "Rz", Surface: study.Demo, Demo: "ground-rod", Way: "predict", Questions: "bek", Hide: 1}
	d := &study.Desk{}
	r, err := d.Evaluate(e)
	if err != nil {
		t.Fatal(err)
	}
	exercise(t, s, e)
	s.wait(`document.querySelectorAll('#predict-options input').length >= 4`, "a question")
	for n := 0; s.text("value-now") == "hidden until you answer"; n++ {
		if n > 3 {
			t.Fatal("the value stays hidden")
		}
		if text := eval[string](s, everything); holds(text, r.Shown()) {
			t.Errorf("%s is on the page before the answers: %s", r.Shown(), s.text("predict-question"))
		}
		if n > 0 {
			s.click("predict-look")
			s.wait(`document.getElementById('predict-reply').textContent === ''`, "the next question")
		}
		s.click("predict-option-1")
		s.click("predict-look")
		s.wait(`document.getElementById('predict-reply').textContent.includes('The calculation gives')`, "the reply")
		s.settle()
	}
	if !eval[bool](s, `[...document.querySelectorAll('#predict-list button')].some(b => b.id === 'q-total')`) {
		t.Error("the question that tells Rz is not asked after the value is shown")
	}
}

// A lecturer makes an exercise, can see its values, and reads the codes of a class; what the calculation gives is folded until it is opened.
func TestStudyClass(t *testing.T) {
	s := studies(t, 1366, 900)
	s.allowClipboard()
	s.choice("study-way", "predict")
	s.wait(`document.querySelectorAll('#predict-options input').length >= 4`, "a question")
	s.click("exercise-build")
	for _, letter := range "abh" {
		s.click("exercise-" + string(letter))
		s.settle()
	}
	s.choice("exercise-hide", "2")
	s.wait(`document.getElementById('value-now').textContent === 'hidden until you answer' && !document.getElementById('hidden-show').hidden`, "hidden, with a way to see the values here")
	s.click("hidden-show")
	s.wait(`document.getElementById('value-now').dataset.value !== undefined`, "the values here")
	s.click("study-link")
	s.wait(`location.hash.startsWith('#s1')`, "the link")
	e, notes, err := study.OpenLink(eval[string](s, `location.hash`))
	if err != nil || len(notes) > 0 || e.Questions != "abh" || e.Hide != 2 {
		t.Fatalf("the link holds %+v %v %v", e, notes, err)
	}
	var lines []string
	for i := range 30 {
		code, err := e.Code(study.Answers{Options: []int{i % 3, 1, study.Unsure}, Guess: 2 + float64(i)/10, Tag: i})
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, "student: "+strings.ToLower(code))
	}
	lines[4] = "good morning"
	lines[7] = lines[6]
	lines[9] = lines[9][:12] + "u" + lines[9][13:]
	s.click("class-view")
	s.fill("class-codes", strings.Join(lines, "\n"))
	s.click("class-read")
	s.wait(`document.querySelectorAll('#class-answers table').length === 3`, "the answers to three questions")
	said := s.text("class-said")
	for _, want := range []string{"27 codes read.", "1 line without a code.", "1 code more than once", "Line 10: one sign is wrong or missing."} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not said: %q", want, said)
		}
	}
	counts := eval[[]string](s, `[...document.querySelectorAll('#class-answers table:first-of-type tbody tr')].map(r => r.cells[1].textContent.trim())`)
	sum := 0
	for _, c := range counts {
		n := 0
		fmt.Sscan(c, &n)
		sum += n
	}
	if sum < 27 {
		t.Errorf("the counts are %q", counts)
	}
	if text := s.text("class-answers"); strings.Contains(text, "The calculation gives") {
		t.Errorf("the calculation is told before it is opened: %q", text)
	}
	eval[bool](s, `(document.querySelector('#class-answer-h summary').click(), true)`)
	s.wait(`document.getElementById('class-answer-h').textContent.includes('The calculation gives: 0.58')`, "what the calculation gives for h")
	eval[bool](s, `(document.querySelector('#class-answer-guess summary').click(), true)`)
	s.wait(`document.getElementById('class-answer-guess').textContent.includes('Rz = 2.92')`, "the calculated value")
	if n := eval[int](s, `document.querySelectorAll('#class-answers .dot').length`); n != 27 {
		t.Errorf("%d dots", n)
	}
	s.click("class-copy")
	s.wait(`document.getElementById('class-copied').textContent === 'Copied.'`, "the table is copied")
	s.accessible("study-class")
	s.picture("study-class")
	kept := eval[string](s, `JSON.stringify(Object.entries(localStorage).concat(Object.entries(sessionStorage)))`)
	if strings.Contains(strings.ToUpper(kept), strings.ToUpper(lines[0][9:13])) {
		t.Errorf("a code is kept: %s", kept)
	}
}

// The state before is shown in the pictures while it is asked for, and the value line stays.
func TestStudySwap(t *testing.T) {
	s := studies(t, 1366, 900)
	s.click("pin")
	s.wait(`!document.getElementById('pin-swap').hidden`, "there is a before")
	drawn := `document.querySelector('#trace-frame svg').outerHTML`
	before := eval[string](s, drawn)
	s.enter("ordinate-height", "4")
	after, value := eval[string](s, drawn), s.text("value-now")
	if before == after {
		t.Fatal("the move draws nothing")
	}
	s.focus("pin-swap")
	s.press("\r")
	s.wait(`document.getElementById('pin-swap').getAttribute('aria-pressed') === 'true'`, "pressed")
	s.settle()
	if got := eval[string](s, drawn); got == after {
		t.Error("the picture stays")
	}
	if got := s.text("value-now"); got != value {
		t.Errorf("the value is %q, %q before", got, value)
	}
	s.press("\r")
	s.wait(`document.getElementById('pin-swap').getAttribute('aria-pressed') === 'false'`, "not pressed")
	s.settle()
	if got := eval[string](s, drawn); got != after {
		t.Error("the picture does not come back")
	}
}

// Another surface with the same Ra stands beside the one of before.
func TestStudySameRa(t *testing.T) {
	s := studies(t, 1366, 900)
	s.enter("study-symbol", "Ra")
	ra := s.value()
	s.click("same-ra")
	s.wait(`document.getElementById('same-said').textContent.includes('Both have the same Ra')`, "the other surface")
	s.settle()
	if v := s.value(); math.Abs(v/ra-1) > 1e-4 {
		t.Errorf("Ra is %v, before %v", v, ra)
	}
	if eval[bool](s, `document.getElementById('value-beside').hidden`) {
		t.Error("there is no value of before")
	}
	s.enter("study-symbol", "Rz")
	if got := s.text("value-change"); !strings.Contains(got, "%") {
		t.Errorf("Rz changes by %q", got)
	}
	s.picture("study-same-ra")
}

// A surface and a setting go to the worksheet when they are asked for, and nothing else does; undo there leads back.
func TestStudyGives(t *testing.T) {
	s := open(t, 1366, 900)
	s.drop("rod.csv", table("x [mm];z [µm]", ";", ".", surface(77, 11600, 0.5), 0.5))
	s.wait(`document.getElementById('demo-note').hidden`, "the trace is read")
	s.wait(`document.getElementById('kept').textContent.startsWith('Kept on this device')`, "the sheet is kept")
	s.turn("study.html", `document.getElementById('study').dataset.revision > 0`, "the sheet Study")
	s.choice("study-surface", "made")
	s.enter("sine1-height", "3")
	s.click("to-worksheet")
	s.wait(`document.getElementById('given-said').textContent.includes('made in Study')`, "the surface is taken")
	s.choice("study-surface", "demo")
	s.choose("study-class", "Sc2")
	s.settle()
	s.click("study-take")
	s.wait(`document.getElementById('given-said').textContent.includes('Filter and sections')`, "the setting is taken")
	s.turn("index.html", `document.querySelectorAll('#trace-list tbody tr[data-trace]').length === 2`, "two traces on the worksheet")
	s.wait(`document.querySelectorAll('#values-table [data-value]').length > 0`, "values")
	s.settle()
	if got := s.text("trace-list"); !strings.Contains(got, "made in Study") || !strings.Contains(got, "rod") {
		t.Errorf("the traces are %q", got)
	}
	made := study.State{Surface: study.Made, Filter: study.Removal{Kind: "class", Class: "Sc2"}, Parts: []study.Part{{Kind: "sine1", Values: []float64{3, 0.25, 0}}}}
	r, err := (&study.Desk{}).Evaluate(made)
	if err != nil {
		t.Fatal(err)
	}
	if got := s.values()["Rz"]; !same(got, r.Value.Value) {
		t.Errorf("Rz on the worksheet is %v, want %v", got, r.Value.Value)
	}
	s.click("undo")
	s.settle()
	s.click("undo")
	s.wait(`document.querySelectorAll('#trace-list tbody tr[data-trace]').length === 1`, "the trace of the file alone again")
}

// Lengths along the trace are dragged by pointer and by keys, and typed: the window of Rzx, the shift of the copy for Ral, a limit of the motifs.
func TestStudyAlong(t *testing.T) {
	s := studies(t, 1366, 900)
	for _, c := range []struct{ edition, symbol, id, typed string }{{"iso-21920", "Rzx", "window-from", "1.25"}, {"iso-21920", "Ral", "shift", "100"}, {"iso-12085", "R", "limit-a", "300"}} {
		if eval[string](s, `document.getElementById('study-edition').value`) != c.edition {
			s.choose("study-edition", c.edition)
			s.wait(`document.getElementById('value-symbol').textContent.length > 0 && document.getElementById('study-edition').value === '`+c.edition+`'`, "the edition")
			s.settle()
		}
		if !strings.HasPrefix(eval[string](s, `document.getElementById('study-symbol').value`), c.symbol+"(") && eval[string](s, `document.getElementById('study-symbol').value`) != c.symbol {
			s.enter("study-symbol", c.symbol)
		}
		s.wait(fmt.Sprintf(`document.getElementById('handle-trace-%s') !== null && document.getElementById(%[1]q) !== null`, c.id), "handle and field of "+c.id)
		s.enter(c.id, c.typed)
		place := fmt.Sprintf(`document.getElementById('handle-trace-%s').getBoundingClientRect().left`, c.id)
		before, field := eval[float64](s, place), fmt.Sprintf(`document.getElementById(%q).value`, c.id)
		was := eval[string](s, field)
		s.do(chromedp.Focus(chromedp.ID("handle-trace-" + c.id)))
		s.press(kb.ArrowRight)
		s.wait(field+` !== `+fmt.Sprintf("%q", was), "a key moves it")
		s.settle()
		if now := eval[float64](s, place); !(now > before) {
			t.Errorf("%s: the handle is at %v, %v before the key", c.id, now, before)
		}
		was = eval[string](s, field)
		eval[bool](s, fmt.Sprintf(`(() => {
			const e = document.getElementById('handle-trace-%s'), r = e.getBoundingClientRect(), x = r.left + r.width / 2, y = r.top + r.height / 2;
			e.setPointerCapture = () => {};
			for (const [name, by] of [['pointerdown', 0], ['pointermove', -30], ['pointerup', -30]]) e.dispatchEvent(new PointerEvent(name, { pointerId: 1, clientX: x + by, clientY: y, bubbles: true }));
			return true;
		})()`, c.id))
		s.wait(field+` !== `+fmt.Sprintf("%q", was), "the pointer moves it")
		s.settle()
	}
	s.picture("study-along")
	s.accessible("study-along")
}
