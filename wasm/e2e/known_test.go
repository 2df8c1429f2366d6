package e2e

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// withheld lets the module come only when window.release is called, and answers known.json as window.altered changes it, where sessionStorage asks for that.
const withheld = `
	const released = new Promise(done => (window.release = done));
	const real = window.fetch;
	window.fetch = async (address, ...options) => {
		if (sessionStorage.withheld && String(address).endsWith('furrow.wasm')) {
			window.wanted = true;
			await released;
		}
		const response = await real(address, ...options);
		if (!sessionStorage.altered || !String(address).endsWith('known.json')) return response;
		const [from, to] = JSON.parse(sessionStorage.altered);
		return new Response((await response.text()).replaceAll(from, to));
	};`

// withhold opens a page whose module does not come.
func withhold(t *testing.T) *sheet {
	t.Helper()
	s := blankTab(t, usual)
	s.before(withheld + catching)
	s.load(1280, 900)
	s.unsure(false)
	eval[string](s, `sessionStorage.withheld = 'yes'`)
	return s
}

// unsure waits until the answer says, or says no longer, that it is known from before.
func (s *sheet) unsure(want bool) {
	s.t.Helper()
	s.wait(fmt.Sprintf(`(document.getElementById('answer').ariaBusy === 'true') === %t && document.getElementById('answer-known').checkVisibility() === %t`, want, want), "what is known from before is marked, and nothing else")
}

// kept changes what is kept: a statement on choices, the object store, with the answers a, and on sheets with the only sheet r.
func (s *sheet) kept(statement string) {
	s.t.Helper()
	if !eval2[bool](s, fmt.Sprintf(`new Promise(done => {
		indexedDB.open('furrow').onsuccess = ({ target: { result: base } }) => {
			const work = base.transaction(['choices', 'sheets'], 'readwrite'), choices = work.objectStore('choices'), sheets = work.objectStore('sheets');
			choices.get('answers').onsuccess = ({ target: { result: a } }) => {
				sheets.getAll().onsuccess = ({ target: { result: [r] } }) => { %s };
			};
			work.oncomplete = () => (base.close(), done(true));
			work.onabort = () => done(false);
		};
	})`, statement)) {
		s.t.Fatal("what is kept cannot be changed")
	}
}

// conforming has a sheet that conforms kept, with its answers.
func (s *sheet) conforming() {
	s.t.Helper()
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	s.stores(`r.state.required?.text === 'Rz 3,2' && r.word === 'Conforms'`)
	s.wait(`document.querySelector('main').ariaBusy === 'false'`, "everything is calculated")
	eval2[bool](s, `(async () => {
		const open = () => new Promise(done => (indexedDB.open('furrow').onsuccess = e => done(e.target.result)));
		for (;;) {
			const base = await open();
			const a = await new Promise(done => (base.transaction('choices').objectStore('choices').get('answers').onsuccess = e => done(e.target.result)));
			base.close();
			if (a && Object.entries(a.answers).some(([asked, answer]) => asked.startsWith('["judge","Rz 3,2"') && JSON.parse(answer).word === 'Conforms')) return true;
			await new Promise(requestAnimationFrame);
		}
	})()`)
}

// What the build wrote is, byte for byte, what the calculation answers to the page as it opens: every request, and what every sheet starts with.
func TestKnownAnswers(t *testing.T) {
	s := blankTab(t, usual)
	s.before(workers + `
		const [asked, answers] = [new Map(), []];
		window.answers = answers;
		const post = Worker.prototype.postMessage;
		Worker.prototype.postMessage = function (message) {
			if (!asked.has(this)) {
				asked.set(this, new Map());
				this.addEventListener('message', ({ data }) => answers.push([asked.get(this).get(data.id), data.value]));
			}
			asked.get(this).set(message.id, message.name);
			post.call(this, message);
		};`)
	s.load(1280, 900)
	s.unsure(false)
	s.settle()
	found := eval2[[]string](s, `(async () => {
		const { textOf, valueOf } = await import('./shared/memo.js');
		const known = await (await fetch('known.json')).json();
		const said = [];
		const form = { thousandths: [[0], [-0], [0.001, -0, 0.001], [0.868, -0.91], [2147483.647, -2147483.648, 2147483.647]], float64: [[], [1.234, NaN], [2147483.648], [0.1 + 0.2], [1 / 3], [Infinity]] };
		for (const [key, traces] of Object.entries(form)) {
			for (const z of traces) {
				const back = valueOf(textOf(new Float64Array(z)));
				if (!(key in JSON.parse(textOf(new Float64Array(z)))) || back.length !== z.length || z.some((x, i) => !Object.is(x, back[i]))) said.push(z + ' comes back as ' + back);
			}
		}
		for (const [asked, answer] of Object.entries(known.answers)) {
			const [name] = JSON.parse(asked);
			if (!answers.some(([n, value]) => n === name && textOf(value) === answer)) said.push(name + ' is answered otherwise');
		}
		const counted = Object.keys(known.answers).map(k => JSON.parse(k)[0]).sort().join();
		if (counted !== 'demo,evaluate,hold,judge,measure,take') said.push('known are ' + counted);
		const start = new Promise(done => workers[0].addEventListener('message', ({ data }) => data.id === 'start' && done(data.value)));
		workers[0].postMessage({ id: 'start', name: 'start', args: [] });
		if (JSON.stringify(await start) !== JSON.stringify(known.start)) said.push('start is answered otherwise');
		return said;
	})()`)
	if len(found) > 0 {
		t.Error(found)
	}
	if said := s.text("trouble"); said != "" {
		t.Errorf("the page says %q", said)
	}
}

// Values stand there before the module comes, marked; nothing leaves before it has given the same.
func TestKnownBefore(t *testing.T) {
	s := withhold(t)
	s.again("")
	s.wait(`document.querySelectorAll('#values-table [data-value]').length > 0`, "values without the module")
	s.unsure(true)
	s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{})
	for _, id := range []string{"record-json", "record-csv", "record-svg", "record-copy"} {
		eval[bool](s, fmt.Sprintf(`(window.given = null, document.getElementById(%q).click(), true)`, id))
	}
	// Nothing of it was given after a request that needs no calculation has come back.
	eval2[bool](s, `fetch('icon.svg').then(() => new Promise(requestAnimationFrame)).then(() => true)`)
	if eval[bool](s, `window.given !== null || document.getElementById('record-said').textContent !== ''`) {
		t.Error("something left before it was sure")
	}
	eval[bool](s, `(window.release(), true)`)
	s.unsure(false)
	s.wait(`document.getElementById('record-said').textContent !== ''`, "what was asked for is given")
	s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{})
	if said := s.text("trouble"); said != "" {
		t.Errorf("the page says %q", said)
	}
}

// What the calculation answers otherwise takes the place of what was known, and the page says so.
func TestKnownCorrected(t *testing.T) {
	s := withhold(t)
	trace := demo(t, synth.Demos()[0].Key)
	e, err := roughness.Evaluate(trace, nil)
	if err != nil {
		t.Fatal(err)
	}
	rz, _ := e.Value("Rz")
	right := fmt.Sprint(rz.Value)
	wrong := strings.Replace(right, "2.9", "2.1", 1)
	if right == wrong {
		t.Fatalf("Rz is %s", right)
	}
	s.again(fmt.Sprintf(`["%s", "%s"]`, right, wrong))
	s.says("answer-values", "2.1")
	s.unsure(true)
	eval[bool](s, `(sessionStorage.removeItem('altered'), window.release(), true)`)
	s.unsure(false)
	s.says("trouble", "another answer than the one known from before")
	s.agree(trace, roughness.Settings{})
	s.says("answer-values", "2.9")
}

// A sheet opens with the verdict that it had, marked until the calculation has given it again; a kept answer of another version, or to another
// request, is not shown.
func TestKeptAnswers(t *testing.T) {
	for _, c := range []struct{ name, change, before, after string }{
		{"as kept", "", "Conforms", "Conforms"},
		{"another version", `a.version = a.version.replace(/./g, '0'); choices.put(a, 'answers');`, "", "Conforms"},
		{"another requirement", `r.state.required.text = r.typed = 'Rz 2,5'; sheets.put(r);`, "", "Does not conform"},
		{"another cut-off", `r.state.settings.long = { cutoff: 250 }; sheets.put(r);`, "", "No verdict yet"},
		{"an uncertainty", `r.state.u = '0.5'; sheets.put(r);`, "", "Not decided"},
		{"wrong answers", `for (const k in a.answers) if (k.startsWith('["judge"')) a.answers[k] = a.answers[k].replace('"word":"Conforms"', '"word":"Does not conform"'); choices.put(a, 'answers');`, "Does not conform", "Conforms"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := withhold(t)
			s.conforming()
			s.kept(c.change)
			s.again("")
			if c.before == "" {
				s.wait(`window.wanted === true`, "the page waits for the calculation")
				if word := eval[string](s, `document.querySelector('#verdict-word .word')?.textContent ?? ''`); word == "Conforms" || word == "Does not conform" {
					t.Errorf("the verdict is %q before the calculation", word)
				}
			} else {
				s.says("verdict-word", c.before)
				s.unsure(true)
				s.says("answer-caution", standards.Caution)
			}
			eval[bool](s, `(window.release(), true)`)
			s.unsure(false)
			s.says("verdict-word", c.after)
			s.settle()
			if said := s.text("trouble"); strings.Contains(said, "another answer") != (c.before != "" && c.before != c.after) {
				t.Errorf("the page says %q", said)
			}
		})
	}
}

// again loads the page again and does not wait; altered is what is replaced in what the build wrote.
func (s *sheet) again(altered string) {
	s.t.Helper()
	eval[bool](s, fmt.Sprintf(`(sessionStorage.altered = %q, true)`, altered))
	s.do(chromedp.Reload())
}
