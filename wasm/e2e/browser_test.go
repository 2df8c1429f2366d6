// Package e2e drives the page as a person would, in a real browser, and holds
// what it shows against the library.
//
// It is a module of its own, so that who uses furrow need not load a browser
// driver. It needs Chromium; without one every test is skipped.
//
//	cd wasm/e2e && go test ./...
//
// With FURROW_PICTURES=folder the tests leave pictures of the page there.
package e2e

import (
	"bufio"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

const root = "../.." // of the repository

// patience is far beyond what any step takes, also on a busy machine.
const patience = 60 * time.Second

var (
	site    string   // the page's address
	asked   requests // what reached the server
	closing []func() // what ends with the tests
)

func TestMain(m *testing.M) {
	code := m.Run()
	for _, end := range slices.Backward(closing) {
		end()
	}
	os.Exit(code)
}

var errNoBrowser = errors.New("no Chromium found")

// The browsers start at the first test that needs them. In the second one the
// reader has set text to twice the usual size.
var (
	usual = sync.OnceValues(func() (context.Context, error) { return launch() })
	large = sync.OnceValues(func() (context.Context, error) {
		return launch(chromedp.Flag("blink-settings", "defaultFontSize=32"))
	})
)

// launch starts a browser on the page.
func launch(more ...chromedp.ExecAllocatorOption) (context.Context, error) {
	path := findChromium()
	if path == "" {
		return nil, errNoBrowser
	}
	if err := front(); err != nil {
		return nil, err
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
		// Nothing but this machine exists for the page.
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"),
	)
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox) // Chromium refuses its sandbox to root
	}
	allocator, cancel := chromedp.NewExecAllocator(context.Background(), append(options, more...)...)
	closing = append(closing, cancel)
	browser, cancel := chromedp.NewContext(allocator)
	closing = append(closing, cancel)
	if err := chromedp.Do(browser); err != nil {
		return nil, fmt.Errorf("%s does not start: %w", path, err)
	}
	return browser, nil
}

// front puts a counter of requests before the server.
var front = sync.OnceValue(func() error {
	address, err := serve()
	if err != nil {
		return err
	}
	counter := httptest.NewServer(asked.count(httputil.NewSingleHostReverseProxy(address)))
	closing = append(closing, counter.Close)
	site = counter.URL + "/"
	return nil
})

func findChromium() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// serve starts the command that the README names and returns the address that
// it prints.
func serve() (*url.URL, error) {
	dir, err := os.MkdirTemp("", "furrow")
	if err != nil {
		return nil, err
	}
	closing = append(closing, func() { os.RemoveAll(dir) })
	program := filepath.Join(dir, "serve")
	build := exec.Command("go", "build", "-o", program, "./wasm/serve")
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("building wasm/serve: %w\n%s", err, out)
	}
	cmd := exec.Command(program, "-addr", "127.0.0.1:0")
	cmd.Dir = root
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	closing = append(closing, func() { cmd.Process.Kill(); cmd.Wait() })
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "http://127.0.0.1:") {
			return url.Parse(lines.Text())
		}
	}
	return nil, errors.New("wasm/serve ended without an address")
}

// requests counts at the server, where those of workers are seen too.
type requests struct {
	mu    sync.Mutex
	paths []string
	down  bool   // no network: nothing is answered
	newer bool   // the server has another version of the page
	other string // what the verification of a record gives in that version, in place of its own
}

// renew lets the server have another version, or the one that was built.
func (r *requests) renew(newer bool) { r.differ(newer, "") }

// differ lets it have one in which the verification of a record gives something else, as JSON.
func (r *requests) differ(newer bool, other string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.newer, r.other = newer, other
}

// cut takes the network away, or gives it back.
func (r *requests) cut(down bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.down = down
}

func (r *requests) count(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		r.mu.Lock()
		down, newer, other := r.down, r.newer && (req.URL.Path == "/sw.js" || r.other != "" && req.URL.Path == "/worker.js"), r.other
		if !down {
			r.paths = append(r.paths, req.URL.Path)
		}
		r.mu.Unlock()
		if down {
			panic(http.ErrAbortHandler)
		}
		if newer {
			built := func(path string) (string, http.Header) {
				plain := req.Clone(req.Context())
				plain.URL.Path = path
				plain.Header.Del("Accept-Encoding")
				plain.Header.Del("If-None-Match")
				got := httptest.NewRecorder()
				next.ServeHTTP(got, plain)
				return got.Body.String(), got.Header()
			}
			body, header := built(req.URL.Path)
			if other != "" {
				script, _ := built("/worker.js")
				changed := strings.Replace(script, "furrow.verify(bytes)", other, 1)
				body = strings.Replace(body, fmt.Sprintf("%x", sha256.Sum256([]byte(script))), fmt.Sprintf("%x", sha256.Sum256([]byte(changed))), 1)
				if req.URL.Path == "/worker.js" {
					body = changed
				}
			}
			w.Header().Set("Content-Type", header.Get("Content-Type"))
			io.WriteString(w, version.ReplaceAllString(body, `const version = "ffffffffffff"`))
			return
		}
		next.ServeHTTP(w, req)
	})
}

var version = regexp.MustCompile(`const version = "[0-9a-f]+"`)

func (r *requests) all() []string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return slices.Clone(r.paths)
}
