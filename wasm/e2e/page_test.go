package e2e

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// The page opens with a demonstration, worked and called so.
func TestDemonstration(t *testing.T) {
	s := open(t, 1280, 900)
	s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{})
	if note := s.text("demo-note"); !strings.Contains(note, "invented") {
		t.Errorf("the note on the demonstration says %q", note)
	}
	for _, id := range []string{"form-picture", "filters-picture", "profile-picture", "material-picture"} {
		s.reveal(id)
	}
	for _, picture := range []string{"trace-picture", "form-picture", "filters-picture", "filters-waviness", "profile-picture", "material-picture"} {
		s.wait(fmt.Sprintf("document.querySelector('#%s svg path, #%s svg polyline, #%s svg polygon') !== null", picture, picture, picture), picture+" is drawn")
	}
	s.picture("demonstration")
}

// Each trace of the demonstration gives the values of the library.
func TestDemonstrations(t *testing.T) {
	s := open(t, 1280, 900)
	offered := eval[[]string](s, `[...document.querySelectorAll('#trace-demo option')].map(o => o.value).filter(v => v)`)
	var known []string
	for _, d := range synth.Demos() {
		known = append(known, d.Key)
	}
	if !slices.Equal(offered, known) {
		t.Errorf("offered %v, want %v", offered, known)
	}
	for _, key := range offered {
		s.choose("trace-demo", key)
		s.agree(demo(t, key), roughness.Settings{})
	}
}

// A file dropped anywhere is read.
func TestDrop(t *testing.T) {
	s := open(t, 1280, 900)
	text := table("length [mm];height [µm]", ";", ".", surface(11, 11600, 0.5), 0.5)
	s.drop("press-rod.csv", text)
	s.wait(`document.getElementById('demo-note').hidden`, "the demonstration is gone")
	s.agree(readTrace(t, text), roughness.Settings{})
	s.reveal("trace-report")
	if report := s.text("trace-report"); !strings.Contains(report, "height [µm]") {
		t.Errorf("how the file was read: %q", report)
	}
	s.picture("dropped")
}

// A file chosen by the button is read.
func TestFile(t *testing.T) {
	s := open(t, 1280, 900)
	text := table("x [mm]\tz [µm]", "\t", ".", surface(12, 11600, 0.5), 0.5)
	s.chooseFile("trace-file-input", "chosen.txt", text)
	s.wait(`document.getElementById('demo-note').hidden`, "the demonstration is gone")
	s.agree(readTrace(t, text), roughness.Settings{})
}

// A table with decimal commas is pasted into its field.
func TestPaste(t *testing.T) {
	s := open(t, 1280, 900)
	text := table("x [mm]\tz [µm]", "\t", ",", surface(13, 11600, 0.5), 0.5)
	s.paste(text)
	s.wait(`document.getElementById('demo-note').hidden`, "the demonstration is gone")
	s.agree(readTrace(t, text), roughness.Settings{})
}

// The cut-off changed in its field, with either decimal mark, changes every
// value below; undoing brings the old ones back.
func TestCutoff(t *testing.T) {
	s := open(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	before := s.agree(trace, roughness.Settings{})
	for _, c := range []struct {
		typed  string
		cutoff float64
	}{{"0.25", 250}, {"0,4", 400}, {"0.08", 80}} {
		s.fill("long-cutoff", c.typed)
		after := s.agree(trace, roughness.Settings{Long: stating(c.cutoff)})
		if after["Ra"] == before["Ra"] {
			t.Errorf("a cut-off of %s mm leaves Ra at %v", c.typed, after["Ra"])
		}
		if note := s.text("filters-changed"); !strings.Contains(note, "requirement asks for 0.8") {
			t.Errorf("with %s mm the note says %q", c.typed, note)
		}
	}
	s.picture("cut-off")
	s.click("long-back")
	if back := s.agree(trace, roughness.Settings{}); !maps.Equal(back, before) {
		t.Error("the way back does not lead back")
	}
	s.click("undo")
	s.agree(trace, roughness.Settings{Long: stating(80)})
	s.click("redo")
	s.agree(trace, roughness.Settings{})
}

// The other choices of the sheet reach the library too.
func TestSettings(t *testing.T) {
	s := open(t, 1280, 900)
	trace := demo(t, synth.Demos()[0].Key)
	s.agree(trace, roughness.Settings{})
	s.click("trace-turn")
	s.agree(trace, roughness.Settings{Invert: true})
	s.choose("form-kind", "mean")
	s.agree(trace, roughness.Settings{Invert: true, Form: roughness.FormSpec{Kind: "mean"}})
	s.fill("sections-count", "3")
	s.agree(trace, roughness.Settings{Invert: true, Form: roughness.FormSpec{Kind: "mean"}, Sections: 3})
	s.focus("profile-letter-w") // by key: a note that appears above moves the controls
	s.press(" ")
	s.agree(trace, roughness.Settings{Invert: true, Form: roughness.FormSpec{Kind: "mean"}, Sections: 3, Profile: roughness.W})
	s.focus("profile-letter-p")
	s.press(" ")
	s.agree(trace, roughness.Settings{Invert: true, Form: roughness.FormSpec{Kind: "mean"}, Sections: 3, Profile: roughness.P})
}

// What cannot be read says where, and takes nothing away.
func TestUnreadable(t *testing.T) {
	s := open(t, 1280, 900)
	before := s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{})
	rows := strings.Split(table("x [mm];z [µm]", ";", ".", surface(14, 2000, 0.5), 0.5), "\n")
	rows[11] = "0.0050;scratch"
	for _, c := range []struct {
		name, text string
		says       []string
	}{
		{"letters", strings.Join(rows, "\n"), []string{"line 12, character 8", "scratch"}},
		{"empty", "", []string{"nothing in the file"}},
		{"no numbers", "the instrument was not found\n", []string{"line 1", "no row of numbers"}},
		{"infinite", "z [µm]\n1\ninf\n2\n", []string{"line 3", "inf"}},
		{"beyond all bounds", "z [µm]\n1\n1e400\n2\n", []string{"line 3", "1e400"}},
	} {
		s.drop(c.name+".csv", c.text)
		for _, want := range c.says {
			s.wait(fmt.Sprintf(`(e => e.checkVisibility() && e.innerText.toLowerCase().includes(%q))(document.getElementById('trace-wrong'))`, want), c.name+" is refused, with "+want)
		}
		if got := s.values(); !maps.EqualFunc(got, before, same) {
			t.Errorf("%s: the values of the trace before are gone", c.name)
		}
		s.picture("unreadable-" + strings.ReplaceAll(c.name, " ", "-"))
	}
}

// A number that is none stays with its field; the value in use stays.
func TestRefusedField(t *testing.T) {
	s := open(t, 1280, 900)
	before := s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{})
	for _, typed := range []string{"wide", "", "-0.8", "0", "1.2.3"} {
		s.fill("long-cutoff", typed)
		s.wait(`document.getElementById('long-cutoff').getAttribute('aria-invalid') === 'true'`, fmt.Sprintf("%q is refused", typed))
		if said := s.text("long-cutoff-fault"); said == "" {
			t.Errorf("%q is refused without a word", typed)
		}
		if got := s.values(); !maps.EqualFunc(got, before, same) {
			t.Errorf("%q changed the values", typed)
		}
	}
	s.fill("long-cutoff", "0.8")
	s.wait(`document.getElementById('long-cutoff').getAttribute('aria-invalid') === null`, "a good number is accepted")
}

// A trace too short for one section leaves the values undefined, with a reason,
// and offers sections that fit.
func TestShort(t *testing.T) {
	s := open(t, 1280, 900)
	s.drop("short.csv", table("x [mm];z [µm]", ";", ".", surface(15, 900, 0.5), 0.5))
	s.wait(`document.querySelectorAll('#values-table tr[data-row]').length > 0 && document.querySelectorAll('#values-table [data-value]').length === 0`, "nothing is defined")
	if said := s.text("trace-checks"); !strings.Contains(said, "too short") {
		t.Errorf("the check says %q", said)
	}
	s.picture("short")
}

// From the moment the demonstration is worked nothing leaves the page, whatever
// is done with it.
func TestNothingIsSent(t *testing.T) {
	s := open(t, 1280, 900)
	s.agree(demo(t, synth.Demos()[0].Key), roughness.Settings{})
	get(s, chromedp.Evaluate[bool](`navigator.serviceWorker.ready.then(() => true)`, chromedp.EvalAwaitPromise)) // all files are kept
	served := len(asked.all())
	s.mu.Lock()
	fetched := len(s.fetched)
	s.mu.Unlock()

	text := table("x [mm];z [µm]", ";", ".", surface(16, 11600, 0.5), 0.5)
	s.drop("secret.csv", text)
	s.agree(readTrace(t, text), roughness.Settings{})
	s.fill("long-cutoff", "0.25")
	s.agree(readTrace(t, text), roughness.Settings{Long: stating(250)})
	s.drop("bad.csv", "x [mm];z [µm]\n0;x\n")
	s.wait(`!document.getElementById('trace-wrong').hidden`, "a bad file is refused")
	s.click("value-Rz")
	s.wait(`document.getElementById('value-Rz-work') !== null`, "Rz is open")
	time.Sleep(time.Second)

	// The browser itself looks for a new version of what is kept, whenever it likes.
	if late := slices.DeleteFunc(asked.all()[served:], func(path string) bool { return path == "/sw.js" }); len(late) > 0 {
		t.Errorf("after load the server was asked for %v", late)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, address := range s.fetched[fetched:] {
		// Addresses of what the page itself holds are no requests.
		if !strings.HasPrefix(address, "data:") && !strings.HasPrefix(address, "blob:") {
			t.Errorf("after load the page asked for %s", address)
		}
	}
	for _, address := range s.fetched[:fetched] {
		if !strings.HasPrefix(address, site) && !strings.HasPrefix(address, "data:") && !strings.HasPrefix(address, "blob:") {
			t.Errorf("while loading the page asked for %s", address)
		}
	}
}

// stating is a cut-off alone, which leaves the kind of filter to the edition.
func stating(cutoff float64) roughness.Band {
	return roughness.Band{Spec: roughness.FilterSpec{Cutoff: cutoff}}
}

// drop drops a file on the middle of the page.
func (s *sheet) drop(name, text string) {
	s.t.Helper()
	s.dropBytes([]file{{name, []byte(text)}})
}

// A file is dropped with its name and its bytes.
type file struct {
	Name  string
	Bytes []byte // base64 in JSON
}

// dropBytes drops files on the middle of the page.
func (s *sheet) dropBytes(files []file) {
	s.t.Helper()
	s.dropOn("main", files)
}

// dropOn drops files on an element.
func (s *sheet) dropOn(id string, files []file) {
	s.t.Helper()
	list, err := json.Marshal(files)
	if err != nil {
		s.t.Fatal(err)
	}
	eval[bool](s, fmt.Sprintf(`(() => {
		const carried = new DataTransfer();
		for (const { Name, Bytes } of %s) carried.items.add(new File([Uint8Array.from(atob(Bytes), (c) => c.charCodeAt(0))], Name));
		for (const kind of ['dragenter', 'dragover', 'drop']) {
			document.getElementById('%s').dispatchEvent(new DragEvent(kind, { dataTransfer: carried, bubbles: true, cancelable: true }));
		}
		return true;
	})()`, list, id))
}

// chooseFile gives a file to a file field, as its dialogue would.
func (s *sheet) chooseFile(id, name, text string) {
	s.t.Helper()
	path := s.t.TempDir() + "/" + name
	write(s.t, path, text)
	s.do(chromedp.SetUploadFiles(chromedp.ID(id), []string{path}, chromedp.NodeReady))
}

// paste opens the field for tables, pastes the text into it by the keys that do
// so, and reads it.
func (s *sheet) paste(text string) {
	s.t.Helper()
	s.click("trace-paste")
	s.wait(`document.getElementById('paste-text').checkVisibility()`, "the field for tables is open")
	s.focus("paste-text")
	s.clipboard(text)
	s.wait(fmt.Sprintf(`document.getElementById('paste-text').value.length === %d`, len([]rune(text))), "the table is in the field")
	s.click("paste-read")
}

// clipboard copies the text and pastes it where the focus is.
func (s *sheet) clipboard(text string) {
	s.t.Helper()
	s.allowClipboard()
	get(s, chromedp.Evaluate[bool](fmt.Sprintf(`navigator.clipboard.writeText(%q).then(() => true)`, text), chromedp.EvalAwaitPromise))
	for _, kind := range []input.DispatchKeyEventType{input.DispatchKeyEventTypeRawKeyDown, input.DispatchKeyEventTypeKeyUp} {
		press := input.DispatchKeyEventParams{Type: kind, Modifiers: 2, Key: "v", Code: "KeyV", WindowsVirtualKeyCode: 'V'}
		if kind == input.DispatchKeyEventTypeRawKeyDown {
			press.Commands = []string{"paste"}
		}
		if _, err := chromedp.Call(s.ctx, input.DispatchKeyEvent, press); err != nil {
			s.t.Fatal(err)
		}
	}
}

// choose picks an option of a list.
func (s *sheet) choose(id, value string) {
	s.t.Helper()
	eval[bool](s, fmt.Sprintf(`(() => {
		const list = document.getElementById(%q);
		list.value = %q;
		list.dispatchEvent(new Event('change', { bubbles: true }));
		return true;
	})()`, id, value))
}

// allowClipboard lets the page read and write the clipboard.
func (s *sheet) allowClipboard() {
	s.t.Helper()
	for _, name := range []string{"clipboard-read", "clipboard-write"} {
		if _, err := chromedp.CallBrowser(s.ctx, browser.SetPermission, browser.SetPermissionParams{
			Permission: &browser.PermissionDescriptor{Name: name}, Setting: browser.PermissionSettingGranted,
		}); err != nil {
			s.t.Fatal(err)
		}
	}
}
