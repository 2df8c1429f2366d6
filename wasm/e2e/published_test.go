package e2e

import (
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/chromedp/chromedp"
)

// A copy for another server opens from a server of files that knows nothing of it, also in a folder; names that can be kept for ever are
// asked for once by the page, and a file of which one byte was changed is refused.
func TestPublished(t *testing.T) {
	dir := t.TempDir()
	build := exec.Command("go", "run", "./wasm/build", "-out", filepath.Join(dir, "class")) // packs a module that has changed, which takes a while
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	kept := regexp.MustCompile(`-[0-9a-f]{8}\.\w+$`)
	s := blankTab(t, usual)
	asked := map[string]int{}
	var changed atomic.Value // the end of the name of the file that is changed, but for its checksum
	changed.Store("")
	files := http.FileServer(http.Dir(dir))
	serve := func() *httptest.Server {
		server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			s.mu.Lock()
			asked[r.URL.Path]++
			s.mu.Unlock()
			if at := filepath.Join(dir, filepath.FromSlash(r.URL.Path)); strings.HasSuffix(kept.ReplaceAllString(r.URL.Path, ""), changed.Load().(string)) && changed.Load() != "" {
				data, err := os.ReadFile(at)
				if err != nil {
					t.Error(err)
				}
				data[len(data)/2] ^= 1
				if filepath.Ext(at) == ".js" {
					w.Header().Set("Content-Type", "text/javascript")
				}
				w.Write(data)
				return
			}
			files.ServeHTTP(w, r)
		}))
		t.Cleanup(server.Close)
		return server
	}
	s.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(serve().URL+"/class/"))
	s.wait(`document.querySelectorAll('#values-table [data-value]').length > 0 && /\d\.\d/.test(document.getElementById('version').textContent)`, "the copy opens and calculates")
	get(s, chromedp.Evaluate[bool](`navigator.serviceWorker.ready.then(() => true)`, chromedp.EvalAwaitPromise)) // all files are there
	if len(s.complaints) > 0 {
		t.Logf("asked for: %v", asked)
	}
	for _, c := range s.complaints {
		t.Errorf("the browser complains: %s", c)
	}
	immutable := 0
	for name, n := range asked {
		if kept.MatchString(name) {
			immutable++
			if n > 2 { // the service worker is the second
				t.Errorf("%s was asked for %d times", name, n)
			}
		}
	}
	if immutable < 5 {
		t.Errorf("asked for: %v", asked)
	}

	changed.Store("/furrow")
	s.do(chromedp.Navigate(serve().URL + "/class/"))
	s.wait(`document.getElementById('version').textContent === 'did not start'`, "a changed module is refused")
	changed.Store("/shared/all")
	s.do(chromedp.Navigate(serve().URL + "/class/"))
	s.wait(`document.readyState === 'complete'`, "the page is there")
	if n := eval[int](s, `document.querySelectorAll('#values-table [data-value]').length`); n != 0 {
		t.Errorf("a changed script runs")
	}
	refused := 0
	if len(s.complaints) > 0 {
		t.Logf("asked for: %v", asked)
	}
	for _, c := range s.complaints {
		if strings.Contains(c, "integrity") {
			refused++
		}
	}
	if refused < 2 {
		t.Errorf("the browser says %q", s.complaints)
	}
}
