package e2e

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"example.com/furrow/roughness"
)

// stores waits until the store holds one sheet for which an expression on the record r is true.
func (s *sheet) stores(expression string) {
	s.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if get(s, chromedp.Evaluate[bool](fmt.Sprintf(`new Promise(done => {
			const opening = indexedDB.open('furrow');
			opening.onerror = () => done(false);
			opening.onsuccess = () => {
				const asking = opening.result.transaction('sheets').objectStore('sheets').getAll();
				asking.onerror = () => (opening.result.close(), done(false));
				asking.onsuccess = () => (opening.result.close(), done(asking.result.some(r => %s)));
			};
		})`, expression), chromedp.EvalAwaitPromise)) {
			return
		}
	}
	s.picture("waiting")
	s.t.Fatalf("waited in vain for a stored sheet with %s", expression)
}

// reload loads the page again and waits until the sheet is worked.
func (s *sheet) reload() {
	s.t.Helper()
	s.do(chromedp.Reload())
	s.wait(`document.querySelectorAll('#values-table [data-value]').length > 0`, "the sheet is there again")
	s.settle()
}

// A sheet comes again after a reload: name, requirement, traces, typed values, what is hidden, and the way back.
func TestReload(t *testing.T) {
	s := open(t, 1280, 900)
	s.says("kept", "Demonstration, nothing to keep")
	one, two := table("x [mm];z [µm]", ";", ".", surface(41, 9600, 0.5), 0.5), table("x [mm];z [µm]", ";", ".", surface(42, 9600, 0.5), 0.5)
	s.dropBytes([]file{{"place-1.csv", []byte(one)}, {"place-2.csv", []byte(two)}})
	s.says("trace-reading", "2 files, 2 traces")
	s.write("requirement-text", "Rz 8")
	s.says("verdict-word", "Conforms")
	s.click("trace-show-2")
	values := s.agree(readTrace(t, two), roughness.Settings{})
	s.fill("short-cutoff", "8")
	s.says("verdict-word", "No verdict yet")
	s.click("requirement-fold")
	s.stores(`r.hidden.includes('requirement') && r.state.settings.short?.cutoff === 8`)
	s.says("kept", "Kept on this device, ")
	s.reload()
	for id, want := range map[string]string{"sheet-title": "place-1", "trace-reading": "2 files, 2 traces", "verdict-word": "No verdict yet", "kept": "Kept on this device"} {
		s.says(id, want)
	}
	if v := eval[string](s, `document.getElementById('requirement-text').value + '|' + document.getElementById('short-cutoff').value`); v != "Rz 8|8" {
		t.Errorf("the fields hold %q", v)
	}
	if eval[bool](s, `document.getElementById('requirement').open`) {
		t.Error("the hidden step is shown")
	}
	s.click("undo")
	s.says("verdict-word", "Conforms")
	again := s.agree(readTrace(t, two), roughness.Settings{})
	if again["Rz"] != values["Rz"] {
		t.Errorf("Rz was %v and is %v", values["Rz"], again["Rz"])
	}
	s.click("undo") // to the first trace
	s.agree(readTrace(t, one), roughness.Settings{})
	s.click("redo")
	s.agree(readTrace(t, two), roughness.Settings{})
}

// A page that is left as soon as a requirement is read, before its values have come and without a wait for the store, brings it back: in the
// same window, and in another one.
func TestLeftAtOnce(t *testing.T) {
	for _, way := range []string{"true", "(sessionStorage.clear(), true)"} {
		s := open(t, 1280, 900)
		s.write("requirement-text", "Rz 3,2")
		s.wait(`document.querySelector('#requirement .gist').textContent.startsWith("Rz 3,2; ")`, "Rz 3,2 is read")
		s.turn("check.html", `document.getElementById('foot-caution')?.textContent.length > 0`, "another sheet")
		eval[bool](s, way)
		s.turn("index.html", `document.getElementById('requirement-text')?.value === 'Rz 3,2'`, "the requirement is there again")
		s.says("verdict-word", "Conforms")
	}
}

// A tab that is killed in the middle of typing loses nothing that was typed before the last second, and no verdict comes from half a text.
func TestKilledWhileTyping(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	// Half of another requirement, which is never used because the tab dies first.
	eval[bool](s, `(() => { const f = document.getElementById('requirement-text'); f.focus(); f.value = 'Rz 3,2; Ra'; f.dispatchEvent(new InputEvent('input', { bubbles: true })); return true; })()`)
	s.stores(`r.typed === 'Rz 3,2; Ra'`)
	next := blankTabKeeping(t)
	dying, cancel := context.WithTimeout(s.ctx, 2*time.Second)
	defer cancel()
	if _, err := chromedp.Call(dying, page.Crash, cdp.Empty{}); err == nil {
		t.Log("the tab answered to its crash")
	}
	next.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(site))
	next.wait(`document.getElementById('requirement-text').value === 'Rz 3,2; Ra'`, "the text is there again")
	for range 20 {
		if said := next.text("verdict"); strings.Contains(said, "Conforms") {
			t.Fatalf("a verdict from half a text: %q", said)
		}
	}
	next.says("verdict-word", "The requirement is not understood")
}

// Storage that is full or not allowed is said at once; the sheet works on.
func TestNotKept(t *testing.T) {
	for _, c := range []struct{ script, says string }{
		{`IDBObjectStore.prototype.put = function () { throw new DOMException('no room', 'QuotaExceededError'); };`, "Not kept: storage is full."},
		{`indexedDB.open = () => { throw new DOMException('no', 'SecurityError'); };`, "Not kept: this browser does not allow it."},
	} {
		s := blankTab(t, usual)
		s.before(c.script)
		s.load(1280, 900)
		s.write("requirement-text", "Rz 3,2")
		s.says("kept", c.says)
		s.says("kept", "Save the record")
		s.says("verdict-word", "Conforms")
	}
}

// Two windows with the same sheet say so, and a change in one appears in the other; a verdict is never about another text than the field shows.
func TestTwoWindows(t *testing.T) {
	s := open(t, 1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	s.stores(`r.state.required?.text === 'Rz 3,2'`)
	other := blankTabKeeping(t)
	other.load(1280, 900)
	other.says("kept", "Also open in another window")
	s.says("kept", "Also open in another window")
	other.says("verdict-word", "Conforms")
	other.write("requirement-text", "Rz 2,5")
	other.says("verdict-word", "Does not conform")
	for range 50 {
		shown := eval[[]string](s, `[document.getElementById('requirement-text').value, document.querySelector('#verdict-word .word').textContent]`)
		if shown[0] == "Rz 2,5" && shown[1] == "Conforms" || shown[0] == "Rz 3,2" && shown[1] == "Does not conform" {
			t.Fatalf("the field says %s, the verdict %s", shown[0], shown[1])
		}
	}
	s.says("verdict-word", "Does not conform")
	if v := eval[string](s, `document.getElementById('requirement-text').value`); v != "Rz 2,5" {
		t.Errorf("the field says %q", v)
	}
	s.click("undo")
	s.says("verdict-word", "Conforms")
	other.says("verdict-word", "Conforms")
}

// A database of the first form opens. It is written here as furrow 0.1 wrote it; what is released stays readable.
func TestStoreForm1(t *testing.T) {
	s := blankTab(t, usual)
	s.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(site+"study.html"))
	s.wait(`/\d/.test(document.getElementById('version').textContent)`, "the page is there")
	get(s, chromedp.Evaluate[bool](`new Promise((done, fail) => {
		indexedDB.deleteDatabase('furrow'); // that page has made one
		const opening = indexedDB.open('furrow', 1);
		opening.onerror = () => fail(opening.error);
		opening.onupgradeneeded = () => {
			const db = opening.result;
			db.createObjectStore('sheets', { keyPath: 'id' });
			db.createObjectStore('traces', { keyPath: 'id' }).createIndex('sheet', 'sheet');
			db.createObjectStore('settings', { keyPath: 'id' });
			db.createObjectStore('checks', { keyPath: 'id' }).createIndex('instrument', 'instrument');
			db.createObjectStore('choices');
		};
		opening.onsuccess = () => {
			const db = opening.result, z = Float64Array.from({ length: 9600 }, (_, i) => Math.sin(i / 40));
			const state = { name: 'Rod 12', traces: ['t1'], drawn: 't1', out: {}, parts: {}, values: [{ id: 'v1', symbol: 'Rz', text: '2.1', value: 2.1, from: 'place 2' }],
				required: { text: 'Rz 3,2', edition: 'iso-21920', used: { text: 'Rz 3,2', edition: 'iso-21920' } }, rule: '', agreed: '', u: '', k: '2', prove: '', guard: '', row: '',
				settings: { edition: 'iso-21920' }, asked: ['Rz'], show: 'usual', skid: 'unknown', decimal: ',', view: null };
			const tx = db.transaction(['sheets', 'traces', 'choices'], 'readwrite');
			tx.objectStore('traces').put({ id: 't1', sheet: 's1', profile: { z, spacing: 0.5, name: 'rod.csv' }, label: 'rod.csv', origin: 'The file rod.csv', note: '', demo: '', reading: null });
			tx.objectStore('sheets').put({ id: 's1', form: 1, name: 'Rod 12', word: 'Conforms', changed: 1, furrow: '0.1.0', state, past: [{ ...state, values: [] }], future: [], typed: 'Rz 3,2', hidden: ['primary'] });
			tx.objectStore('choices').put('s1', 'sheet');
			tx.oncomplete = () => (db.close(), done(true));
		};
	})`, chromedp.EvalAwaitPromise))
	s.load(1280, 900)
	s.says("sheet-title", "Rod 12")
	s.says("verdict-word", "Conforms")
	s.says("trace-stats", "Rz of 2 values")
	z := make([]float64, 9600)
	for i := range z {
		z[i] = math.Sin(float64(i) / 40)
	}
	s.agree(roughness.Profile{Z: z, Spacing: 0.5}, roughness.Settings{})
	s.click("undo")
	s.says("trace-stats", "One value")
}

// Several traces: their values and what is to say of all of them; a far one is proposed and nothing is left out by itself; typed values
// count; the 16 % rule comes to its end.
func TestSeries(t *testing.T) {
	s := open(t, 1280, 900)
	var files []file
	for i, scale := range []float64{1, 1.02, 0.98, 1.01, 1.9} {
		z := surface(51, 9600, 0.5)
		for k := range z {
			z[k] *= scale
		}
		files = append(files, file{fmt.Sprintf("place-%d.csv", i+1), []byte(table("x [mm];z [µm]", ";", ".", z, 0.5))})
	}
	s.dropBytes(files)
	s.says("trace-reading", "5 files, 5 traces")
	var want []float64
	for i, f := range files {
		p := readTrace(t, string(f.Bytes))
		e, err := roughness.Evaluate(p, &roughness.Settings{Parameters: []string{"Rz"}})
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, e.Values[0].Value)
		s.wait(fmt.Sprintf(`Math.abs(document.querySelectorAll('#trace-list tr[data-trace]')[%d]?.querySelector('[data-value]')?.dataset.value - %v) < 1e-9`, i, e.Values[0].Value), "trace "+f.Name)
	}
	s.says("trace-stats", "Rz of 5 values")
	s.says("trace-list", "is far from the other values")
	s.picture("series")
	limit := strings.Replace(fmt.Sprintf("%.2f", want[4]*0.8), ".", ",", 1)
	s.write("requirement-text", "Rz "+limit+" T16%")
	s.says("verdict-word", "one more value: 5 of 6")
	s.click("value-open")
	s.fill("value-typed", "2,95")
	s.click("value-add")
	s.says("value-from-fault", "Say where the value comes from")
	s.focus("value-from")
	s.press("place 6, printed", kb.Enter)
	s.says("trace-list", "Typed in: place 6, printed")
	s.says("verdict-word", "Conforms")
	s.click("trace-leave-5")
	s.focus("trace-reason-5")
	s.press("traced over the edge", kb.Enter)
	s.says("trace-list", "Left out: traced over the edge")
	s.says("trace-stats", "without trace 5")
	s.says("verdict-word", "Conforms")
	s.click("trace-take-5")
	s.wait(`!document.getElementById('trace-stats').textContent.includes('without')`, "it counts again")
	s.click("trace-remove-6")
	s.says("verdict-word", "one more value: 5 of 6")
	s.click("undo")
	s.says("verdict-word", "Conforms")
	s.write("requirement-text", "Rz 1")
	s.says("verdict-word", "Does not conform")
}

// blankTabKeeping opens another window on what is kept.
func blankTabKeeping(t *testing.T) *sheet {
	t.Helper()
	browser, err := usual()
	if err != nil {
		t.Fatal(err)
	}
	s := &sheet{t: t}
	ctx, cancel := chromedp.NewContext(browser, chromedp.WithListener(s.hear))
	t.Cleanup(cancel)
	s.ctx = ctx
	// The first call opens the tab, and the tab lives as long as its context.
	if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	return s
}
