package e2e

import (
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
)

// After one visit to one sheet all four open without a network, and the worksheet calculates; every file comes from one version.
func TestOffline(t *testing.T) {
	s := blankTab(t, usual)
	if _, err := chromedp.Call(s.ctx, storage.ClearDataForOrigin, storage.ClearDataForOriginParams{Origin: site, StorageTypes: "all"}); err != nil {
		t.Fatal(err)
	}
	s.load(1280, 900)
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	get(s, chromedp.Evaluate[bool](`navigator.serviceWorker.ready.then(() => true)`, chromedp.EvalAwaitPromise))
	s.says("kept", "works offline")
	s.stores(`r.state.required?.text === 'Rz 3,2'`)
	caches := eval2[[]string](s, `caches.keys()`)
	if len(caches) != 1 {
		t.Errorf("the caches are %v", caches)
	}
	served := len(asked.all())
	asked.cut(true)
	defer asked.cut(false)
	for _, page := range []string{"difference.html", "study.html", "check.html", "index.html"} {
		s.do(chromedp.Navigate(site + page))
		s.wait(`/\d\.\d/.test(document.getElementById('version').textContent)`, page+" starts without a network")
		if n := eval[int](s, `document.querySelectorAll('nav.sheets a').length`); n != 4 {
			t.Errorf("%s has %d links to sheets", page, n)
		}
	}
	s.says("verdict-word", "Conforms")
	s.write("requirement-text", "Rz 2,5")
	s.says("verdict-word", "Does not conform")
	if all := asked.all(); len(all) > served {
		t.Errorf("without a network the server was asked for %v", all[served:])
	}
	s.mu.Lock()
	s.complaints = nil // the search for a new version fails without a network, and the browser says so
	s.mu.Unlock()
}

// A new version is fetched whole and offered; the sheet stays with the old one until the reader changes over, and then none of it is left.
func TestNewVersion(t *testing.T) {
	s := open(t, 1280, 900)
	get(s, chromedp.Evaluate[bool](`navigator.serviceWorker.ready.then(() => true)`, chromedp.EvalAwaitPromise))
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	s.stores(`r.state.required?.text === 'Rz 3,2'`)
	asked.renew(true)
	defer asked.renew(false)
	s.reload()
	s.says("update", "A new version of furrow is ready")
	s.says("update-values", "No value of this sheet changes.") // it was calculated again with that version
	s.says("verdict-word", "Conforms")
	s.click("update-now")
	s.wait(`document.getElementById('update') === null && /\d\.\d/.test(document.getElementById('version')?.textContent ?? '')`, "the page starts again")
	s.says("verdict-word", "Conforms")
	if caches := eval2[[]string](s, `caches.keys()`); len(caches) != 1 || caches[0] != "furrow-ffffffffffff" {
		t.Errorf("the caches are %v", caches)
	}
	asked.renew(false)
	// The next tests find the version that was built.
	get(s, chromedp.Evaluate[bool](`navigator.serviceWorker.getRegistration().then(r => r.unregister())`, chromedp.EvalAwaitPromise))
	get(s, chromedp.Evaluate[bool](`caches.delete('furrow-ffffffffffff')`, chromedp.EvalAwaitPromise))
}

// A new version that gives another value says which; the reader can stay.
func TestNewVersionDiffers(t *testing.T) {
	s := open(t, 1280, 900)
	get(s, chromedp.Evaluate[bool](`navigator.serviceWorker.ready.then(() => true)`, chromedp.EvalAwaitPromise))
	s.write("requirement-text", "Rz 3,2")
	s.says("verdict-word", "Conforms")
	s.stores(`r.state.required?.text === 'Rz 3,2'`)
	asked.differ(true, "({ differences: [{ text: 'Rz is 2.93 µm, was 2.92 µm' }] })")
	defer asked.renew(false)
	s.reload()
	s.says("update-values", "One value changes:")
	s.says("update", "Rz is 2.93 µm, was 2.92 µm.")
	s.click("update-later")
	s.wait(`document.getElementById('update') === null`, "the note goes")
	s.says("verdict-word", "Conforms")
	get(s, chromedp.Evaluate[bool](`navigator.serviceWorker.getRegistration().then(r => r.unregister())`, chromedp.EvalAwaitPromise))
	get(s, chromedp.Evaluate[bool](`caches.delete('furrow-ffffffffffff')`, chromedp.EvalAwaitPromise))
}

// A file that is not the one of the version is not kept, and the page goes on as before.
func TestOfflineRefusesMixture(t *testing.T) {
	s := open(t, 1280, 900)
	got := eval2[string](s, fmt.Sprintf(`(async () => {
		const text = await (await fetch('sw.js')).text();
		const changed = text.replace(/"icon.svg": "[0-9a-f]{64}"/, '"icon.svg": "%064d"').replace(/version = "[0-9a-f]+"/, 'version = "000000000000"').replace('scope.location.href', JSON.stringify(location.href));
		const install = "const e = new Event('install'); e.waitUntil = p => p.then(() => postMessage('kept'), async x => postMessage(await caches.has('furrow-000000000000') ? 'left behind' : x.message)); dispatchEvent(e);";
		const worker = new Worker(URL.createObjectURL(new Blob([changed, install], { type: 'text/javascript' })));
		return new Promise(done => { worker.onmessage = ({ data }) => done(data); worker.onerror = ({ message }) => done(message); });
	})()`, 0))
	if got != "icon.svg is not the one of version 000000000000" {
		t.Errorf("a changed file: %s", got)
	}
}

// eval2 returns what a promise on the page comes to.
func eval2[T any](s *sheet, expression string) T {
	s.t.Helper()
	return get(s, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}
