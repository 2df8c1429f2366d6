package e2e

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// A requirement typed as it stands on the drawing gives the settings, the values
// and the verdict of the library.
func TestRequirement(t *testing.T) {
	s := open(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	for _, text := range []string{"Rz 3,2", "Rz 2,5", "U Rz 5 / L Rz 1", "Ra 1.6 Sc2", "Wa 3 Sc3"} {
		want, err := judge.ReadRequirement(text, "iso-21920")
		if err != nil {
			t.Fatal(err)
		}
		s.write("requirement-text", text)
		s.wait(fmt.Sprintf(`document.querySelector('#requirement .gist').textContent.startsWith(%q)`, text+"; "), text+" is read")
		e, err := roughness.Evaluate(trace, want.Settings)
		if err != nil {
			t.Fatal(err)
		}
		v, err := (&judge.Judging{Requirement: want, Traces: []roughness.Profile{trace}, Done: []*roughness.Evaluation{e}}).Judge()
		if err != nil || v.Why != nil {
			t.Fatalf("%s: no verdict by the library: %v, %v", text, v, err)
		}
		s.wait(fmt.Sprintf(`document.querySelector('#values-table tr[data-row=%q]') !== null`, want.Bounds[0].Symbol), "the profile is the one asked for")
		values := s.agree(trace, *want.Settings)
		if _, ok := values[want.Bounds[0].Symbol]; !ok {
			t.Errorf("%s: %s is not in the table", text, want.Bounds[0].Symbol)
		}
		s.says("verdict-word", string(v.Word))
		s.says("verdict-word", v.Sentence)
		s.says("line-verdict", string(v.Word))
		for _, l := range v.Limits {
			for _, line := range l.Log {
				s.says("verdict-log", line)
			}
		}
		rows := eval[map[string]string](s, `Object.fromEntries([...document.querySelectorAll('#requirement-settings tr[data-key]')].map(r => [r.dataset.key, r.cells[2].textContent]))`)
		for _, key := range []string{"long.cutoff", "sections", "rule"} {
			o := want.Items[0].Settings[key]
			if said := rows[key]; !strings.Contains(said, o.Text) || strings.Contains(said, "Unconfirmed") != o.Unconfirmed {
				t.Errorf("%s: %s follows from %q, by the library from %q (unconfirmed: %v)", text, key, said, o.Text, o.Unconfirmed)
			}
		}
		s.picture("requirement-" + strings.NewReplacer(" ", "-", "/", "-", ",", "-").Replace(text))
	}
	s.write("requirement-text", "Rz 3,2")
	s.wait(`document.querySelector('#requirement .gist').textContent.startsWith("Rz 3,2; ")`, "Rz 3,2 is read")
	s.says("verdict-word", "Conforms")
	s.settle()
	s.choose("verdict-rule", "16%")
	s.says("verdict-word", "acceptance rule 16% instead of max") // a rule that nobody has agreed to leaves no verdict
	s.fill("long-cutoff", "0.25")
	s.says("verdict-word", "No verdict yet")
	s.settle()
	s.focus("long-back") // by key: the note above it comes and goes
	s.press(kb.Enter)
	s.says("verdict-word", "acceptance rule 16% instead of max")
	s.write("requirement-text", "")
	s.agree(trace, roughness.Settings{})
	s.says("verdict-word", "No verdict yet")
}

// A trace that ends with the range of the instrument has no verdict, and the finding of the library stands beside it, until somebody has agreed.
func TestClippedTrace(t *testing.T) {
	s := open(t, 1280, 900)
	z := synth.Sine{Amplitude: 1, Wavelength: 200}.Heights(9600, 0.5)
	for i, h := range (synth.Correlated{Sigma: 0.1, Length: 5, Seed: 17}).Heights(len(z), 0.5) {
		z[i] = max(-0.8, min(0.8, z[i]+h))
	}
	text := table("x [mm];z [µm]", ";", ".", z, 0.5)
	trace := readTrace(t, text)
	s.drop("clipped.csv", text)
	s.says("trace-reading", "clipped.csv")
	s.write("requirement-text", "Rz 3,2")
	s.says("answer-word", "No verdict yet")
	s.says("answer-word", "The trace is clipped: ")
	n := 0
	for _, f := range inspect.Look(trace, inspect.Conditions{Short: 2.5, Long: 800}) {
		s.says("trace-checks", f.Text+" "+f.Advice)
		if f.Code == "clipped" {
			if n++; n == 1 {
				s.says("answer-word", f.Text)
			}
		}
	}
	if n == 0 {
		t.Error("the library finds nothing clipped")
	}
	s.picture("clipped-1280")
	s.wait(`document.getElementById('verdict-back').hidden`, "there is no setting to go back to")
	s.fill("verdict-agreed", "the buyer")
	s.click("verdict-deviate")
	s.says("verdict-word", "Conforms")
	s.says("verdict-word", "Judged with clipped heights instead of a trace within the range of the probe, as agreed with the buyer.")
	s.click("undo")
	s.click("undo")
	s.click("undo")
	s.wait(`!document.getElementById('answer-clipped')`, "the demonstration has no such finding")
}

// What was typed in one go is taken back in one go, with its settings.
func TestRequirementUndone(t *testing.T) {
	s := open(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	for _, text := range []string{"Ra 1", "Ra 1.6", "Ra 1.6 Sc2"} {
		s.write("requirement-text", text)
		s.wait(fmt.Sprintf(`document.querySelector('#requirement .gist').textContent.startsWith(%q)`, text+"; "), text+" is read")
	}
	s.says("verdict-word", "Conforms")
	s.click("undo")
	s.says("verdict-word", "No verdict yet")
	s.agree(trace, roughness.Settings{})
	if left := eval[string](s, `document.getElementById('requirement-text').value`); left != "" {
		t.Errorf("the field still says %q", left)
	}
}

// The step of the verdict answers the four questions, also while it waits.
func TestVerdictStep(t *testing.T) {
	s := open(t, 1280, 900)
	s.says("verdict-word", "No verdict yet")
	said := strings.ToLower(s.text("verdict"))
	for _, words := range []string{"input", "choice", "reason", "result", "not a calibrated instrument"} {
		if !strings.Contains(said, words) {
			t.Errorf("the step does not say %q", words)
		}
	}
	for _, id := range []string{"requirement-text", "requirement-question", "verdict", "verdict-fold", "verdict-rule", "verdict-word", "verdict-log", "line-verdict"} {
		if n := eval[int](s, fmt.Sprintf("document.querySelectorAll('#%s').length", id)); n != 1 {
			t.Errorf("%d elements with the id %s", n, id)
		}
	}
	if empty := eval[int](s, `[...document.querySelectorAll('#verdict .why dd')].filter(e => e.textContent.trim() === '').length`); empty > 0 {
		t.Errorf("the step leaves %d of its questions open", empty)
	}
}

// A text that cannot be read is refused at its place. Nothing of it is used: the values stay as they were, and neither a limit nor a
// verdict stands beside them.
func TestRequirementRefused(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	values := s.values()
	for _, c := range [][2]string{{"Rz 3,2 Sc9", "Sc9"}, {"Rz 3,2 T17%", "T17%"}, {"Rz 3,2; Ra", ""}} {
		s.write("requirement-text", c[0])
		s.wait(`document.getElementById('requirement-text-fault') !== null`, c[0]+" is refused")
		s.says("requirement-text-fault", "Not understood")
		s.says("requirement-text-fault", c[1])
		s.says("verdict-word", "The requirement is not understood")
		s.says("requirement-reading", "settings of “Rz 3,2”")
		for _, id := range []string{"requirement-reading", "verdict", "running-line"} {
			if said := s.text(id); strings.Contains(said, "3.2 µm") || strings.Contains(said, "Conforms") {
				t.Errorf("%s: %s still says %q", c[0], id, said)
			}
		}
		s.wait(fmt.Sprintf(`(said => said.includes(%q) && said.includes('No verdict yet') && !said.includes('Conforms'))(document.getElementById('record-page').textContent)`, c[0]), c[0]+": the record has no verdict")
		if !maps.EqualFunc(s.values(), values, same) {
			t.Errorf("%s changed the values", c[0])
		}
	}
	s.picture("requirement-refused")
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
}

// What the text leaves open is asked, one question after the other; each answer is a text that a person would write.
func TestRequirementQuestion(t *testing.T) {
	s := open(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	s.write("requirement-text", "RSm 0,2")
	s.wait(`!document.getElementById('requirement-question').hidden`, "the requirement asks")
	s.says("verdict-word", "No verdict yet")
	s.picture("requirement-question")
	for range 4 {
		was := s.text("requirement-question")
		s.says("verdict-word", "No verdict yet")
		label := eval[string](s, `([...document.querySelectorAll('#requirement-question button')].find(b => /millimetre|\bmm\b|Sc3/.test(b.textContent)) ?? document.querySelector('#requirement-question button')).id`)
		s.click(label)
		s.wait(fmt.Sprintf(`document.getElementById('requirement-question').hidden || document.getElementById('requirement-question').innerText !== %q`, was), "the answer is taken")
		if eval[bool](s, `document.getElementById('requirement-question').hidden`) {
			break
		}
	}
	text := eval[string](s, `document.getElementById('requirement-text').value`)
	want, err := judge.ReadRequirement(text, "iso-21920")
	if err != nil || len(want.Open()) > 0 {
		t.Fatalf("%s: %v, %v", text, want, err)
	}
	s.agree(trace, *want.Settings)
	s.wait(`document.querySelector('#verdict-word .word').textContent !== 'No verdict yet'`, "there is a verdict")
}

// While a requirement is typed, at any pace from 60 to 300 ms a key, no state of the page shows a verdict; nor does it once a text that
// is refused or asks has settled.
func TestNoVerdictWhileTyping(t *testing.T) {
	s := open(t, 1280, 900)
	for i, c := range []struct{ text, then string }{
		{"Rz 3,2", "Conforms"},
		{"Rz 2,5 Tmax", "Does not conform"},
		{"U Rz 5 / L Rz 1", "Conforms"},
		{"Rz 3,2; Ra 0,2", "Does not conform"},
		{"Ra 0,5 T16%", "No verdict yet"},
		{"Rz 12,5 Sc4", "No verdict yet"},
		{"Rz 3,2 Sc", "No verdict yet"},
		{"RSm 0,2", "No verdict yet"},
		{"0,008-0,8/Ra 3,1", "No verdict yet"},
	} {
		pace := []int{60, 120, 200, 300}[i%4]
		seen := get(s, chromedp.Evaluate[[]string](fmt.Sprintf(`new Promise(done => {
			const field = document.getElementById('requirement-text'), text = %q, seen = new Set();
			const look = () => {
				for (const id of ['verdict', 'running-line', 'record', 'announce']) {
					const word = document.getElementById(id).textContent.match(/Conforms|Does not conform|Not decided/);
					if (word) seen.add(field.value + ': ' + id + ' says ' + word[0]);
				}
			};
			field.focus();
			let typed = 0;
			const key = () => {
				field.value = text.slice(0, ++typed);
				field.dispatchEvent(new InputEvent('input', { bubbles: true }));
				if (typed === 1) watch.observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
				look();
				if (typed < text.length) return void setTimeout(key, %d);
				watch.disconnect();
				done([...seen]);
			};
			const watch = new MutationObserver(look);
			key();
		})`, c.text, pace), chromedp.EvalAwaitPromise))
		for _, x := range seen {
			t.Errorf("at %d ms a key, %s", pace, x)
		}
		s.wait(fmt.Sprintf(`document.querySelector('#verdict-word .word').textContent === %q && !document.querySelector('#verdict-word').textContent.includes('being')`, c.then), c.text+" in the end: "+c.then)
	}
}

// Every limit counts, each is named with its own word, and the record says so too.
func TestEveryLimit(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2; Ra 0,2")
	s.says("verdict-word", "Does not conform")
	for _, want := range []string{"Rz, upper limit 3.2 µm: Conforms", "Ra, upper limit 0.2 µm: Does not conform"} {
		s.says("verdict-log", want)
	}
	s.picture("two-limits")
	s.onOnePage()
	for _, want := range []string{"Does not conform", "Rz at most 3.2 µm", "Ra at most 0.2 µm"} {
		s.says("record-page", want)
	}
}

// Settings that deviate leave no verdict unless it is said with whom they were agreed; then the verdict carries it.
func TestAgreed(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	s.fill("sections-count", "3")
	s.says("verdict-word", "No verdict yet")
	s.wait(`document.getElementById('verdict-agree').checkVisibility()`, "it can be agreed")
	s.picture("deviates")
	s.click("verdict-deviate")
	s.says("verdict-agreed-fault", "A name is needed")
	s.fill("verdict-agreed", "the buyer, letter of 3 May")
	s.click("verdict-deviate")
	s.says("verdict-word", "Conforms")
	s.says("verdict-word", "as agreed with the buyer, letter of 3 May")
	s.says("record-page", "as agreed with the buyer, letter of 3 May")
	s.write("requirement-text", "Rz 3,3")
	s.wait(`document.querySelector('#requirement .gist').textContent.startsWith('Rz 3,3; ') && document.querySelector('#verdict-word .word').textContent === 'Conforms'`, "another requirement has its own settings again")
	if said := s.text("verdict-word"); strings.Contains(said, "agreed") {
		t.Errorf("the agreement is carried over: %s", said)
	}
}

// Without a trace, or with one that is too short, a requirement is read all the same and the verdict says what is missing.
func TestRequirementWithoutTrace(t *testing.T) {
	s := open(t, 1280, 900)
	s.drop("short.csv", table("x [mm];z [µm]", ";", ".", surface(31, 1900, 0.5), 0.5))
	s.says("trace-reading", "short.csv")
	s.write("requirement-text", "Rz 12,5 Sc4")
	s.wait(`document.querySelector('#requirement .gist').textContent.startsWith('Rz 12,5 Sc4; ')`, "the requirement is read")
	s.says("requirement-settings", "2.5\u00a0mm")
	s.says("verdict-word", "No verdict yet")
	s.picture("too-short-for-requirement")
	s.clear()
	s.wait(`document.getElementById('trace-empty').checkVisibility()`, "nothing is left")
	s.says("verdict-word", "Type the requirement")
	s.write("requirement-text", "Rz 3,2")
	s.says("requirement-settings", "0.8\u00a0mm")
	s.says("verdict-word", "Choose a trace")
}

// The caution of the library stands beside the verdict, in the line that stays in sight, in the record on paper and in the copied table.
func TestCaution(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	for _, id := range []string{"answer", "verdict", "running-line", "record-page"} {
		s.says(id, standards.Caution)
	}
	if !eval[bool](s, `document.getElementById('verdict-caution').checkVisibility() && document.getElementById('answer-caution').checkVisibility()`) {
		t.Error("the caution is not to be seen")
	}
	s.allowClipboard()
	s.click("record-copy")
	s.says("record-said", "Copied")
	copied := get(s, chromedp.Evaluate[string](`navigator.clipboard.readText()`, chromedp.EvalAwaitPromise))
	for _, want := range []string{standards.Caution, "Conforms", "Rz 3,2"} {
		if !strings.Contains(copied, want) {
			t.Errorf("the copied table lacks %q", want)
		}
	}
	for _, origin := range []string{"\tdrawing", "\tstandard, ISO 21920-3:2021", "\tset here"} {
		if !strings.Contains(copied, origin) {
			t.Errorf("the copied table names no origin %q: %s", origin, copied)
		}
	}
}

// A requirement that leaves the filter of the Rk family to the standard does not make it one that was set here, and a cut-off moved by hand
// leaves it there too.
func TestStratifiedOrigin(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 4 Sc3")
	s.says("verdict-word", "Conforms")
	s.says("values", "the edition's own filter")
	if said := s.text("values"); strings.Contains(said, "(set here)") {
		t.Errorf("the step says of the filter for Rk: %s", said)
	}
	s.click("long-longer")
	s.says("filters-changed", "2.5\u00a0mm")
	s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{Short: stating(2.5), Long: stating(2500), Sections: 5, SectionLength: 800})
}

// A symbol of another profile is refused in the words of the library.
func TestOtherProfile(t *testing.T) {
	s := open(t, 1280, 900)
	before := s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{})
	for _, typed := range []string{"Wz Pt", "W"} {
		s.fill("values-asked", typed)
		s.says("values-asked-fault", strings.Fields(typed)[0])
		if !maps.EqualFunc(s.values(), before, same) {
			t.Errorf("%q changed the values", typed)
		}
	}
}

// write types a text into a field that is read at each keystroke.
func (s *sheet) write(id, text string) {
	s.t.Helper()
	eval[bool](s, fmt.Sprintf(`(() => {
		const field = document.getElementById(%q);
		field.focus();
		field.value = %q;
		field.dispatchEvent(new Event('input', { bubbles: true }));
		return true;
	})()`, id, text))
}

// says waits until the place says the words.
func (s *sheet) says(id, words string) {
	s.t.Helper()
	s.wait(fmt.Sprintf(`document.getElementById(%q)?.textContent.includes(%q) === true`, id, words), fmt.Sprintf("%s says %q", id, words))
}

// A text that is still being typed when everything is cleared goes with it, and is not used later.
func TestClearWhileTyping(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 16")
	eval[bool](s, `(['sheet-file', 'clear-all', 'clear-yes'].forEach(id => document.getElementById(id).click()), true)`)
	if text := eval[string](s, `document.getElementById('requirement-text').value`); text != "" {
		t.Errorf("after everything was cleared the field holds %q", text)
	}
	s.settle()
	// Long after the pause after which a text is used.
	eval2[bool](s, `new Promise(done => setTimeout(() => done(true), 2000))`)
	s.settle()
	if text := s.text("requirement-reading"); !strings.Contains(text, "Type what the drawing says") {
		t.Errorf("the requirement is %q", text)
	}
}
