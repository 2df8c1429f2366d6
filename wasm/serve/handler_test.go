package main

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"example.com/furrow/wasm/build/bundle"
)

// small returns a page of invented files, so that nothing need be compiled.
func small(t *testing.T) *bundle.Built {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"index.html": "<!doctype html>", "page.js": "export {}", "page.css": "p {}", "furrow.d.ts": "export {}",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	io.WriteString(z, "module")
	z.Close()
	return &bundle.Built{Dir: dir, Module: bundle.Generated{
		Path: filepath.Join(dir, "furrow.wasm"), Data: []byte("module"), Gzip: packed.Bytes(),
	}}
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
		{"/furrow.wasm", "br, gzip", 200, "application/wasm", "gzip"},
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
		if got.Get("Cache-Control") != "no-store" {
			t.Errorf("%s: may be cached: %q", c.path, got.Get("Cache-Control"))
		}
		if c.packing == "gzip" {
			z, err := gzip.NewReader(w.Body)
			if err != nil {
				t.Fatal(err)
			}
			if text, err := io.ReadAll(z); err != nil || string(text) != "module" {
				t.Errorf("%s: unpacks to %q, %v", c.path, text, err)
			}
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
