package main

import (
	"fmt"
	"io"
	"io/fs"
	"mime"
	"net"
	"net/http"
	"net/netip"
	"os"
	"path"
	"strconv"
	"strings"
	"time"

	"example.com/furrow/wasm/build/bundle"
)

// framing forbids to show the page inside of another, which a page cannot forbid by itself.
const framing = "; frame-ancestors 'none'"

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

	".webmanifest": "application/manifest+json",
}

// handler serves the files of the page as they are on disk at that moment, in
// the packed form beside them where the browser takes that and it belongs to
// the file. Folders are not listed, and a link that leads out of the page's
// folder leads nowhere.
func handler(p *bundle.Built) (http.Handler, error) {
	root, err := os.OpenRoot(p.Dir)
	if err != nil {
		return nil, err
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", bundle.Policy+framing)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-cache") // kept, and asked for each time whether it is still so
		switch {
		case !loopback(r.Host):
			// Another site can let its name lead here and would then read what is not its own.
			http.Error(w, "This server answers only to localhost, 127.0.0.1 and [::1].", http.StatusMisdirectedRequest)
			return
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			h.Set("Allow", "GET, HEAD")
			http.Error(w, "Only GET and HEAD are answered.", http.StatusMethodNotAllowed)
			return
		}
		name := r.URL.Path
		if name == "/" {
			name = "/index.html"
		}
		if t, ok := types[path.Ext(name)]; ok {
			h.Set("Content-Type", t)
		} else if t := mime.TypeByExtension(path.Ext(name)); t != "" {
			h.Set("Content-Type", t)
		}
		f, is, err := open(root, name)
		if err != nil {
			h.Del("Content-Type")
			http.Error(w, "There is no such file.", http.StatusNotFound)
			return
		}
		defer func() { f.Close() }()
		h.Set("Vary", "Accept-Encoding")
		form := ""
		for _, packing := range bundle.Packings() {
			if packed, there, err := open(root, name+packing.Suffix); err == nil {
				if bundle.Packed(is, there) && takes(r.Header.Get("Accept-Encoding"), packing.Coding) {
					f.Close()
					f, form = packed, packing.Suffix
					h.Set("Content-Encoding", packing.Coding)
					break
				}
				packed.Close()
			}
		}
		h.Set("ETag", fmt.Sprintf("\"%x-%x%s\"", is.ModTime().UnixNano(), is.Size(), form))
		http.ServeContent(w, r, name, time.Time{}, f)
	}), nil
}

// takes says whether an Accept-Encoding header allows a coding (RFC 9110, 12.5.3).
func takes(accepted, coding string) bool {
	for part := range strings.SplitSeq(accepted, ",") {
		name, quality, _ := strings.Cut(part, ";")
		if strings.EqualFold(strings.TrimSpace(name), coding) {
			return strings.Trim(strings.ReplaceAll(quality, " ", ""), "q=0.") != "" || quality == ""
		}
	}
	return false
}

// open opens a regular file below the root. A file whose name begins with a
// dot is not part of the page.
func open(root *os.Root, name string) (io.ReadSeekCloser, fs.FileInfo, error) {
	name = strings.TrimPrefix(name, "/")
	if !fs.ValidPath(name) || strings.HasPrefix(name, ".") || strings.Contains(name, "/.") {
		return nil, nil, fs.ErrNotExist
	}
	is, err := root.Stat(name) // before it is opened, which may never end for a pipe
	if err != nil {
		return nil, nil, err
	}
	if !is.Mode().IsRegular() {
		return nil, nil, fs.ErrNotExist
	}
	f, err := root.Open(name)
	return f, is, err
}

// loopback reports whether a Host header names this machine: localhost, an
// address of 127.0.0.0/8 or [::1], with a port or without.
func loopback(host string) bool {
	name := host
	if at := strings.LastIndexByte(host, ':'); at >= 0 && !strings.HasSuffix(host, "]") {
		var port string
		var err error
		if name, port, err = net.SplitHostPort(host); err != nil {
			return false
		}
		if _, err := strconv.ParseUint(port, 10, 16); err != nil {
			return false
		}
		if strings.HasPrefix(host, "[") {
			name = "[" + name + "]"
		}
	}
	if strings.EqualFold(name, "localhost") || name == "[::1]" {
		return true
	}
	a, err := netip.ParseAddr(name)
	return err == nil && a.Is4() && a.IsLoopback()
}
