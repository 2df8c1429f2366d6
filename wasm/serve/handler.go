package main

import (
	"bytes"
	"mime"
	"net/http"
	"path/filepath"
	"strings"
	"time"

	"example.com/furrow/wasm/build/bundle"
)

// policy lets the page load its own files and run its own module, and nothing
// else: no other host, no inline script, no style attribute from markup.
const policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; img-src 'self' blob: data:"

// Browsers refuse a module or a streamed WebAssembly file of the wrong type,
// and the table of the operating system, which Go reads too, may be wrong.
var types = map[string]string{
	".css":  "text/css; charset=utf-8",
	".html": "text/html; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".json": "application/json",
	".svg":  "image/svg+xml",
	".ts":   "text/plain; charset=utf-8", // not a video
	".wasm": "application/wasm",
}

// handler serves the files of the page as they are on disk at that moment, and
// the module compressed where the browser takes it.
func handler(p *bundle.Page) http.Handler {
	files := http.FileServer(http.Dir(p.Dir))
	module := "/" + filepath.Base(p.Module.Path)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-store")
		if t, ok := types[filepath.Ext(r.URL.Path)]; ok {
			h.Set("Content-Type", t)
		} else if t := mime.TypeByExtension(filepath.Ext(r.URL.Path)); t != "" {
			h.Set("Content-Type", t)
		}
		if r.URL.Path != module {
			files.ServeHTTP(w, r)
			return
		}
		h.Set("Vary", "Accept-Encoding")
		data := p.Module.Data
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			h.Set("Content-Encoding", "gzip")
			data = p.Module.Gzip
		}
		http.ServeContent(w, r, module, time.Time{}, bytes.NewReader(data))
	})
}
