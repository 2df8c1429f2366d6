package e2e

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
)

// catching lets a test read what the page gives as a file.
const catching = `(() => {
	const make = URL.createObjectURL;
	URL.createObjectURL = (given) => ((window.given = given), make.call(URL, given));
})();`

// given returns the file that a press of a control gives, once the page says so.
func (s *sheet) given(id, says string) string {
	s.t.Helper()
	eval[bool](s, `(window.given = null, true)`)
	s.click(id)
	s.says("record-said", says)
	return eval2[string](s, `window.given.text()`)
}

// A record that the page saves is the library's own: it opens again, here and there, with the same values; one with a digit changed or cut
// short is refused and takes nothing away.
func TestRecord(t *testing.T) {
	s := blankTab(t, usual)
	s.before(catching)
	s.load(1280, 900)
	one, two := table("x [mm];z [µm]", ";", ".", surface(71, 9600, 0.5), 0.5), table("x [mm];z [µm]", ";", ".", surface(72, 9600, 0.5), 0.5)
	s.dropBytes([]file{{"place-1.csv", []byte(one)}, {"place-2.csv", []byte(two)}})
	s.says("trace-reading", "2 files, 2 traces")
	s.write("requirement-text", "Rz 6")
	s.wait(`[...document.querySelectorAll('button.main')].map(b => b.id).join() === 'record-save'`, "one button is filled, the next thing to do")
	s.fill("verdict-u", "0,12")
	s.says("verdict-word", "Conforms")
	s.fill("record-part", "Piston rod 7")
	s.fill("record-place", "120 mm from the eye")
	s.wait(`document.querySelector('#record-page .decide') !== null && !document.getElementById('record-page').hasAttribute('data-old')`, "the record is made")
	s.says("record-page", "Conforms")
	s.picture("record")
	for id, want := range map[string][2]string{"record-csv": {"Saved as CSV", "place-1.csv"}, "record-json": {"Saved as JSON", `"furrow_record": 1`}, "record-svg": {"saved as SVG", "<svg"}, "record-points": {"points of 2 traces", "\t"}} {
		if text := s.given(id, want[0]); !strings.Contains(text, want[1]) {
			t.Errorf("%s gives %.200q", id, text)
		}
	}
	if head := eval2[string](s, `(async () => { window.given = null; document.getElementById('record-png').click(); while (window.given?.type !== 'image/png') await new Promise(requestAnimationFrame); return String.fromCharCode(...new Uint8Array(await window.given.slice(1, 4).arrayBuffer())); })()`); head != "PNG" {
		t.Errorf("the picture begins with %q", head)
	}
	html := s.given("record-save", "The record is saved")
	opened, err := record.Open([]byte(html))
	if err != nil {
		t.Fatal(err)
	}
	if again, err := opened.Verify(); err != nil || !again.Same {
		t.Errorf("the library finds %+v, %v", again, err)
	}
	if opened.Blanks.Part != "Piston rod 7" || opened.Asked.Text != "Rz 6" || len(opened.Traces) != 2 || string(opened.Word) != "Conforms" {
		t.Errorf("the record holds %+v", opened.Sheet)
	}
	values := s.agree(readTrace(t, one), roughness.Settings{})

	s.clear()
	s.dropBytes([]file{{"rod.html", []byte(html)}})
	s.says("record-differs", "Opened record: the same values.")
	s.says("verdict-word", "Conforms")
	s.says("sheet-title", "place-1")
	if again := s.agree(readTrace(t, one), roughness.Settings{}); again["Rz"] != values["Rz"] {
		t.Errorf("Rz was %v and is %v", values["Rz"], again["Rz"])
	}
	if got := eval[string](s, `document.getElementById('record-part').value + '|' + document.getElementById('verdict-u').value`); got != "Piston rod 7|0.12" {
		t.Errorf("the fields hold %q", got)
	}
	changed := strings.Replace(html, `"text": "Rz 6"`, `"text": "Rz 8"`, 1)
	if changed == html {
		t.Fatal("nothing to change in the record")
	}
	for name, bad := range map[string]string{"changed.html": changed, "cut.html": html[:len(html)*2/3]} {
		s.dropBytes([]file{{name, []byte(bad)}})
		s.says("record-differs", name+" is refused")
		s.says("verdict-word", "Conforms")
		s.says("trace-reading", "2 files, 2 traces")
	}
}

// Saved settings come again by their name; one that cannot be followed is refused by its key.
func TestSavedSettings(t *testing.T) {
	s := blankTab(t, usual)
	s.before(catching)
	s.load(1280, 900)
	s.fill("long-cutoff", "0.25")
	s.says("filters-changed", "0.25\u00a0mm")
	s.menu()
	s.click("settings-save")
	s.focus("settings-name")
	eval[bool](s, `(document.getElementById('settings-name').select(), true)`)
	s.press("Honed bores", kb.Enter)
	s.says("settings-saved", "Honed bores")
	s.says("settings-saved", "L-filter 0.25\u00a0mm")
	s.press(kb.Escape)
	s.click("long-back")
	s.wait(`document.getElementById('filters-changed').hidden`, "back to 0.8 mm")
	s.menu()
	s.picture("menu")
	s.click("settings-use-1")
	s.says("filters-changed", "0.25\u00a0mm")
	s.click("settings-rename-1")
	s.wait(`document.activeElement.id === 'settings-name-1'`, "the name can be changed")
	s.press("Bores", kb.Enter)
	s.wait(`document.querySelector('#settings-saved th[scope=row]').textContent === 'Bores'`, "another name")
	s.chooseFile("settings-import-input", "newer.json", `{"furrow_settings": 99}`)
	s.says("settings-said", "newer.json is not imported")
	s.chooseFile("settings-import-input", "odd.json", `{"furrow_settings": 1, "long": {"cutof": 800}}`)
	s.says("settings-said", "cutof")
	s.chooseFile("settings-import-input", "good.json", `{"furrow_settings": 1, "name": "By hand", "long": {"cutoff": 2500}}`)
	s.says("settings-saved", "By hand")
	s.click("settings-remove-1")
	s.says("settings-saved", "Removed: Bores")
}

// A link holds the requirement, the settings and the invented trace, and opens as a sheet of its own.
func TestLink(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	s.fill("sections-count", "3")
	s.says("verdict-word", "No verdict yet")
	s.allowClipboard()
	s.menu()
	s.click("sheet-link")
	s.says("link-said", "The link holds the requirement, the settings and the name of the invented trace.")
	link := eval2[string](s, `navigator.clipboard.readText()`)
	if !strings.HasPrefix(link, site) || !strings.Contains(link, "#") {
		t.Fatalf("the link is %q", link)
	}
	next := blankTabKeeping(t)
	next.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(link))
	next.says("verdict-word", "instead of 5")
	if got := eval[string](next, `document.getElementById('requirement-text').value + '|' + document.getElementById('sections-count').value + '|' + location.hash`); got != "Rz 3,2|3|" {
		t.Errorf("the sheet of the link holds %q", got)
	}
	for _, a := range asked.all() {
		if strings.Contains(a, "sheet=") {
			t.Errorf("the data of the link reached the server: %s", a)
		}
	}
	if strings.Contains(fmt.Sprint(asked.all()), "Rz") {
		t.Error("the requirement reached the server")
	}
}

// With an uncertainty the guard band counts: who must prove, which standard, and the word between.
func TestUncertainty(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "simple acceptance")
	s.fill("verdict-u", "0.12")
	s.says("verdict-u-hint", "0.0987")
	s.says("verdict-word", "Conforms")
	s.says("verdict-log", "3.1013")
	s.wait(`document.querySelector('#verdict-picture svg') !== null`, "the decision is drawn")
	s.write("requirement-text", "Rz 3")
	s.says("verdict-word", "Not decided")
	s.picture("not-decided")
	s.choose("verdict-proof", "none")
	s.says("verdict-word", "Conforms")
	s.choose("verdict-proof", "maker")
	s.fill("verdict-u", "much")
	s.says("verdict-u-fault", "much")
	s.wait(`!document.querySelector('#verdict-word .word').textContent.includes('Conforms')`, "what cannot be read proves nothing")
	s.fill("verdict-u", "")
	s.says("verdict-word", "Conforms")
	s.click("verdict-budget")
	s.fill("budget-certificate", "2.97")
	s.fill("budget-certificate-u", "0.06")
	s.click("budget-do")
	s.says("verdict-budget-table", "does not replace a calibration")
	if u := eval[string](s, `document.getElementById('verdict-u').value`); u != "" {
		t.Errorf("the estimate was used by itself: %q", u)
	}
	s.picture("budget")
	s.click("verdict-budget-use")
	s.wait(`document.getElementById('verdict-u').value !== ''`, "the estimate is used")
}
