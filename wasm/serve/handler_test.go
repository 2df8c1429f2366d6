package main

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.com/furrow/wasm/build/bundle"
)

// small returns a page of invented files, so that nothing need be compiled.
func small(t *testing.T) *bundle.Built {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"index.html": "<!doctype html>", "page.js": "export {}", "furrow.wasm": "module", "page.css": "p {}", "furrow.d.ts": "export {}",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for name, packed := range map[string]string{"page.js.gz": "gzip form", "page.js.br": "brotli form", "page.css.gz": "of an older file"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(packed), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	old := time.Now().Add(-time.Hour)
	if err := os.Chtimes(filepath.Join(dir, "page.css.gz"), old, old); err != nil {
		t.Fatal(err)
	}
	return &bundle.Built{Dir: dir}
}

func pages(t *testing.T, p *bundle.Built) http.Handler {
	t.Helper()
	h, err := handler(p)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func request(method, path string) *http.Request {
	r := httptest.NewRequest(method, path, nil)
	r.Host = "127.0.0.1:8417"
	return r
}

func TestHandler(t *testing.T) {
	h := pages(t, small(t))
	marks := map[string]string{}
	for _, c := range []struct {
		path, accepts string
		status        int
		kind, packing string
	}{
		{"/", "gzip", 200, "text/html; charset=utf-8", ""},
		{"/page.js", "", 200, "text/javascript; charset=utf-8", ""},
		{"/page.css", "", 200, "text/css; charset=utf-8", ""},
		{"/furrow.d.ts", "", 200, "text/plain; charset=utf-8", ""},
		{"/furrow.wasm", "", 200, "application/wasm", ""},
		{"/page.js", "gzip, br", 200, "text/javascript; charset=utf-8", "br"},
		{"/page.js", "gzip;q=1.0, br;q=0", 200, "text/javascript; charset=utf-8", "gzip"},
		{"/page.js", "gzip", 200, "text/javascript; charset=utf-8", "gzip"},
		{"/page.css", "gzip, br", 200, "text/css; charset=utf-8", ""},
		{"/index.html", "", 200, "text/html; charset=utf-8", ""},
		{"/missing.js", "", 404, "", ""},
		{"/../handler.go", "", 404, "", ""},
	} {
		r := request(http.MethodGet, c.path)
		r.Header.Set("Accept-Encoding", c.accepts)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		got := w.Header()
		if w.Code != c.status {
			t.Errorf("%s: status %d, want %d", c.path, w.Code, c.status)
			continue
		}
		if got.Get("Content-Security-Policy") != bundle.Policy+framing {
			t.Errorf("%s: policy %q", c.path, got.Get("Content-Security-Policy"))
		}
		if c.status != 200 {
			continue
		}
		if got.Get("Content-Type") != c.kind {
			t.Errorf("%s: type %q, want %q", c.path, got.Get("Content-Type"), c.kind)
		}
		if got.Get("Content-Encoding") != c.packing {
			t.Errorf("%s: encoding %q, want %q", c.path, got.Get("Content-Encoding"), c.packing)
		}
		if got.Get("Cache-Control") != "no-cache" || got.Get("Vary") != "Accept-Encoding" {
			t.Errorf("%s: kept by %q, differs by %q", c.path, got.Get("Cache-Control"), got.Get("Vary"))
		}
		body := w.Body.String()
		if want := map[string]string{"gzip": "gzip form", "br": "brotli form"}[c.packing]; want != "" && body != want {
			t.Errorf("%s: %q is sent as %s", c.path, body, c.packing)
		}
		// Each form has a mark of its own, and who has it gets it no second time.
		mark := got.Get("ETag")
		if marks[c.path+mark] != "" && marks[c.path+mark] != body {
			t.Errorf("%s: two forms with the mark %s", c.path, mark)
		}
		marks[c.path+mark] = body
		r.Header.Set("If-None-Match", mark)
		again := httptest.NewRecorder()
		if h.ServeHTTP(again, r); mark == "" || again.Code != http.StatusNotModified {
			t.Errorf("%s: asked again with the mark %s: %d", c.path, mark, again.Code)
		}
	}
}

// A taken port must not keep the page from opening; a port asked for by name is
// another matter.
func TestListen(t *testing.T) {
	first, err := listen("")
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	second, err := listen("")
	if err != nil {
		t.Fatalf("with the usual port taken: %v", err)
	}
	defer second.Close()
	if first.Addr().String() == second.Addr().String() {
		t.Errorf("both at %s", first.Addr())
	}
	if third, err := listen(second.Addr().String()); err == nil {
		third.Close()
		t.Error("took an address in use without a word")
	}
}
