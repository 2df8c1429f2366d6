package main

import (
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/furrow/wasm/build/bundle"
)

// A site whose name was made to lead to this machine must not be answered: the Host header still has its name.
func TestHost(t *testing.T) {
	h := pages(t, small(t))
	for host, want := range map[string]int{
		"localhost": 200, "localhost:8417": 200, "LocalHost:1": 200, "127.0.0.1": 200, "127.0.0.1:8417": 200, "127.255.255.254:80": 200,
		"[::1]": 200, "[::1]:8417": 200,
		"": 421, "example.org": 421, "example.org:8417": 421, "localhost.example.org": 421, "127.0.0.1.example.org:8417": 421, "localhost.": 421,
		"128.0.0.1": 421, "0.0.0.0:8417": 421, "192.168.1.5:8417": 421, "10.0.0.1": 421, "[::]": 421, "[::2]:8417": 421, "::1": 421,
		"[::ffff:127.0.0.1]": 421, "[::1%25lo]:80": 421, "127.1": 421, "2130706433": 421, "0177.0.0.1": 421, "localhost:x": 421, "localhost:99999": 421,
		"user@localhost": 421, "localhost/x": 421, "127.0.0.1:8417:1": 421, ":8417": 421,
	} {
		r := request(http.MethodGet, "/")
		r.Host = host
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("Host %q: status %d, want %d", host, w.Code, want)
		}
		if w.Code != 200 && strings.Contains(w.Body.String(), "doctype") {
			t.Errorf("Host %q gets the page", host)
		}
	}
}

func TestMethods(t *testing.T) {
	h := pages(t, small(t))
	for _, path := range []string{"/", "/page.js", "/furrow.wasm", "/missing"} {
		for _, method := range []string{"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND"} {
			w := httptest.NewRecorder()
			h.ServeHTTP(w, request(method, path))
			if w.Code != http.StatusMethodNotAllowed || w.Header().Get("Allow") != "GET, HEAD" {
				t.Errorf("%s %s: status %d, allowed %q", method, path, w.Code, w.Header().Get("Allow"))
			}
		}
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, request(http.MethodHead, "/page.js"))
	if w.Code != 200 || w.Body.Len() != 0 || w.Header().Get("Content-Length") != "9" {
		t.Errorf("HEAD: status %d, %d bytes, %v", w.Code, w.Body.Len(), w.Header())
	}
}

// Only the files of the page are served: no list of a folder, no link that leads out, no hidden file.
func TestOnlyThePage(t *testing.T) {
	p := small(t)
	outside := t.TempDir()
	secret := filepath.Join(outside, "secret.txt")
	for name, text := range map[string]string{
		secret: "secret", filepath.Join(p.Dir, ".hidden.js"): "secret",
	} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, dir := range []string{"style", "style/.git"} {
		if err := os.MkdirAll(filepath.Join(p.Dir, dir), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for name, text := range map[string]string{"style/a.css": "p {}", "style/.git/config": "secret"} {
		if err := os.WriteFile(filepath.Join(p.Dir, filepath.FromSlash(name)), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for name, to := range map[string]string{"out.txt": secret, "up": outside, "relative.txt": "../" + filepath.Base(outside) + "/secret.txt", "device.js": "/dev/zero", "within.css": "style/a.css"} {
		if err := os.Symlink(to, filepath.Join(p.Dir, name)); err != nil {
			t.Skip(err)
		}
	}
	h := pages(t, p)
	for path, want := range map[string]int{
		"/style/a.css": 200, "/within.css": 200,
		"/style": 404, "/style/": 404, "/out.txt": 404, "/up/secret.txt": 404, "/up/": 404, "/relative.txt": 404, "/device.js": 404,
		"/.hidden.js": 404, "/style/.git/config": 404, "/style/../page.js": 404, "/./page.js": 404, "//page.js": 404, "/page.js/": 404, "/..%2f..%2fsecret.txt": 404,
		"/page.js%00": 404, `/..%5c..%5csecret.txt`: 404,
	} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, request(http.MethodGet, path))
		if w.Code != want {
			t.Errorf("%s: status %d, want %d", path, w.Code, want)
		}
		if body := w.Body.String(); strings.Contains(body, "secret") || strings.Contains(body, "a.css") {
			t.Errorf("%s: answered with %q", path, body)
		}
	}
}

// The pages carry the policy themselves, for servers that send none; framing can only be forbidden by a header.
func TestPolicyOfPage(t *testing.T) {
	for _, d := range []string{"default-src 'self'", "base-uri 'none'", "form-action 'none'", "object-src 'none'", "frame-ancestors 'none'"} {
		if !strings.Contains("; "+bundle.Policy+framing+";", "; "+d+";") {
			t.Errorf("the policy lacks %s", d)
		}
	}
}

// What is printed at the start is true of the address.
func TestGreeting(t *testing.T) {
	for at, c := range map[string]struct {
		alone bool
		link  string
	}{
		"127.0.0.1:8417":   {true, "http://127.0.0.1:8417/\n"},
		"127.0.0.9:80":     {true, "http://127.0.0.9:80/\n"},
		"[::1]:8417":       {true, "http://[::1]:8417/\n"},
		"0.0.0.0:8417":     {false, "http://localhost:8417/\n"},
		"[::]:8417":        {false, "http://localhost:8417/\n"},
		"192.168.1.5:8417": {false, ""},
	} {
		addr, err := net.ResolveTCPAddr("tcp", at)
		if err != nil {
			t.Fatal(err)
		}
		said := greeting(addr)
		if strings.Contains(said, "Only this machine") != c.alone || strings.Contains(said, "Other machines can reach") == c.alone {
			t.Errorf("%s: %q", at, said)
		}
		if c.link == "" && strings.Contains(said, "http://") || !strings.HasSuffix(said, c.link) {
			t.Errorf("%s: %q, want the link %q", at, said, c.link)
		}
	}
}
