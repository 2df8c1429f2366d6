package e2e

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

// A requirement typed as it stands on the drawing gives the settings, the values
// and the verdict of the library.
func TestRequirement(t *testing.T) {
	s := open(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	for _, text := range []string{"Rz 3,2", "Rz 2,5", "U Rz 5 / L Rz 1", "Ra 1.6 Sc2", "Wa 3 Sc3"} {
		want, err := roughness.ReadRequirement(text, "iso-21920")
		if err != nil {
			t.Fatal(err)
		}
		s.write("requirement-text", text)
		s.wait(fmt.Sprintf(`document.querySelector('#requirement .gist').textContent.startsWith(%q)`, text+"; "), text+" is read")
		e, err := roughness.Evaluate(trace, want.Settings)
		if err != nil {
			t.Fatal(err)
		}
		v, err := (&roughness.Judging{Requirement: want, Traces: []roughness.Profile{trace}, Done: []*roughness.Evaluation{e}}).Judge()
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
			o := want.Items[0].Settings.Origins[key]
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

// A text that cannot be read is refused at its place; the earlier reading stays.
func TestRequirementRefused(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	reading, values := s.text("requirement-reading"), s.values()
	s.write("requirement-text", "Rz 3,2 Sc9")
	s.says("requirement-text-fault", "Character 8")
	if now := s.text("requirement-reading"); now != reading {
		t.Errorf("the reading became %q", now)
	}
	if !maps.EqualFunc(s.values(), values, same) {
		t.Error("the refused text changed the values")
	}
	s.picture("requirement-refused")
}

// What the text leaves open is asked, and can stay open.
func TestRequirementQuestion(t *testing.T) {
	s := open(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	s.write("requirement-text", "RSm 0,2")
	s.says("requirement-question", "millimetre")
	s.says("verdict-word", "No verdict yet")
	s.picture("requirement-question")
	s.click("requirement-answer-1")
	s.says("requirement-question", "setting class")
	s.click("requirement-answer-3")
	s.wait(`document.getElementById('requirement-question').hidden`, "no question is open")
	text := eval[string](s, `document.getElementById('requirement-text').value`)
	want, err := roughness.ReadRequirement(text, "iso-21920")
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	s.agree(trace, *want.Settings)
	s.write("requirement-text", "RSm 0,2")
	s.says("requirement-question", "millimetre")
	s.click("requirement-leave")
	s.says("requirement-question", "setting class")
	s.click("requirement-leave")
	s.wait(`document.getElementById('requirement-question').hidden`, "the questions stay open")
	s.says("verdict-word", "No verdict yet")
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
