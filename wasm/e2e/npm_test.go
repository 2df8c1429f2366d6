package e2e

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"github.com/chromedp/chromedp"
)

// said is what the program testdata/npm/app.js says of the package.
type said struct {
	Version     string
	Values      []float64
	Other       []float64
	Constructed []float64
	Heights     []float64
	Profiles    [2]any
	SVG         bool
	Word        string
	Again       float64
	There       []float64
	AfterStop   float64
	Refused     map[string]string
}

// holds compares what the program says with what the library computes.
func (got said) holds(t *testing.T) {
	t.Helper()
	p := demo(t, synth.Demos()[0].Key)
	e, values := measured(t, p, roughness.Settings{})
	_, other := measured(t, p, roughness.Settings{Long: stating(2500)})
	for _, c := range []struct {
		what      string
		got, want []float64
	}{
		{"values", got.Values, values}, {"values of the other evaluation", got.Other, other}, {"constructions", got.Constructed, []float64{values[1], other[1]}},
		{"heights", got.Heights, e.Roughness[:5]}, {"values of the thread", got.There, values},
		{"construction of an evaluation made again, and of one after the end of its thread", []float64{got.Again, got.AfterStop}, []float64{values[1], values[1]}},
	} {
		if len(c.got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
			continue
		}
		for i := range c.want {
			if !same(c.got[i], c.want[i]) {
				t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
				break
			}
		}
	}
	if got.Version != record.Version || got.Profiles != [2]any{"W,R", 6.0} || !got.SVG || got.Word != "Conforms" {
		t.Errorf("version %q, profiles %v, a picture %v, %q", got.Version, got.Profiles, got.SVG, got.Word)
	}
	for what, kind := range map[string]string{
		"closed": "request", "settings": "settings", "none": "request", "heights": "request", "symbol": "settings", "profile": "request", "file": "file",
		"question": "question", "text": "request", "module": "module", "stopped": "stopped", "thereSettings": "settings", "thereHeights": "request",
		"thereClosed": "request", "thereAll": "request",
	} {
		if got.Refused[what] != kind {
			t.Errorf("%s is refused as %q, want %q", what, got.Refused[what], kind)
		}
	}
}

func measured(t *testing.T, p roughness.Profile, s roughness.Settings) (*roughness.Evaluation, []float64) {
	t.Helper()
	s.Parameters = []string{"Ra", "Rz"}
	e, err := roughness.Evaluate(p, &s)
	if err != nil {
		t.Fatal(err)
	}
	return e, []float64{e.Values[0].Value, e.Values[1].Value}
}

// installed is a folder, empty before, into which npm has installed the packed package; testdata/npm lies beside it.
var installed = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "furrow")
	if err != nil {
		return "", err
	}
	closing = append(closing, func() { os.RemoveAll(dir) })
	if _, err := run(root, "go", "run", "./wasm/build", "-npm"); err != nil {
		return "", err
	}
	if _, err := run(filepath.Join(root, "wasm", "npm", "package"), "npm", "pack", "--silent", "--pack-destination", dir); err != nil {
		return "", err
	}
	app := filepath.Join(dir, "app")
	if err := os.CopyFS(app, os.DirFS(filepath.Join("testdata", "npm"))); err != nil {
		return "", err
	}
	_, err = run(app, "npm", "install", "--prefix", ".", "--offline", "--silent", "--no-audit", "--no-fund", filepath.Join("..", "furrow-"+record.Version+".tgz"))
	return app, err
})

// run runs a program for at most a minute or two and returns what it printed.
func run(dir string, name string, args ...string) (string, error) {
	ctx, cancel := context.WithTimeout(context.Background(), 2*patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Dir = dir
	out, err := cmd.Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			out = append(out, exit.Stderr...)
		}
		return "", fmt.Errorf("%s %s: %w\n%s", filepath.Base(name), strings.Join(args, " "), err, out)
	}
	return string(out), nil
}

func mustRun(t *testing.T, dir string, name string, args ...string) string {
	t.Helper()
	out, err := run(dir, name, args...)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// application is the folder with the installed package.
func application(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"node", "npm"} {
		if _, err := exec.LookPath(name); err != nil {
			t.Skipf("%s is missing", name)
		}
	}
	app, err := installed()
	if err != nil {
		t.Fatal(err)
	}
	return app
}

// tool is the path of a program of npm that ./check has installed.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := filepath.Abs(filepath.Join(root, ".tools", "node_modules", ".bin", name))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(path); err != nil {
		t.Skipf("no %s in .tools; ./check installs it", name)
	}
	return path
}

func heard(t *testing.T, text string) said {
	t.Helper()
	var got said
	if err := json.Unmarshal([]byte(text), &got); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return got
}

func TestNpmNode(t *testing.T) {
	app := application(t)
	write(t, filepath.Join(app, "main.mjs"), "import { run } from './app.js';\nconsole.log(JSON.stringify(await run(230)));\n")
	heard(t, mustRun(t, app, "node", "main.mjs")).holds(t)
	write(t, filepath.Join(app, "main.cjs"), "import('./app.js').then(({ run }) => run()).then((found) => console.log(JSON.stringify(found)));\n")
	heard(t, mustRun(t, app, "node", "main.cjs")).holds(t)
	// A thread without work does not keep the program.
	write(t, filepath.Join(app, "idle.mjs"), "import { load } from 'furrow/worker';\nconsole.log((await (await load()).demos()).length);\n")
	if got := mustRun(t, app, "node", "idle.mjs"); got != fmt.Sprintln(len(synth.Demos())) {
		t.Errorf("%q demonstrations", got)
	}
	// The example of the README.
	_, example, _ := strings.Cut(read(t, filepath.Join(app, "node_modules", "furrow", "README.md")), "```js\n")
	example, _, _ = strings.Cut(example, "```")
	if n := strings.Count(example, "\n"); n != 10 {
		t.Errorf("the example has %d lines", n)
	}
	write(t, filepath.Join(app, "example.mjs"), example)
	got := mustRun(t, app, "node", "example.mjs")
	if !regexp.MustCompile(`^Ra \d+\.\d+ µm ISO.*\nRz \d+\.\d+ µm ISO.*\n(Conforms|Does not conform) .*\n5 steps, 9601 points, \d+ bytes of SVG\n$`).MatchString(got) {
		t.Errorf("the example prints %q", got)
	}
}

// A script of another version than the module refuses it by name.
func TestNpmVersions(t *testing.T) {
	app := application(t)
	at := filepath.Join(app, "node_modules", "furrow")
	script := read(t, filepath.Join(at, "furrow.js"))
	write(t, filepath.Join(at, "other.js"), strings.Replace(script, "const version = '"+record.Version+"'", "const version = '99.0.0'", 1))
	defer os.Remove(filepath.Join(at, "other.js"))
	write(t, filepath.Join(app, "versions.mjs"), `import { readFileSync } from 'node:fs';
import { load } from './node_modules/furrow/other.js';
await load(readFileSync('./node_modules/furrow/furrow.wasm')).catch(({ kind, message }) => console.log(kind, message));
`)
	if got, want := mustRun(t, app, "node", "versions.mjs"), "module the module cannot be used: it is of furrow "+record.Version+", and furrow.js is of 99.0.0\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// The declarations hold with the strictest options and without the types of a host; the scripts hold to them.
func TestNpmTypes(t *testing.T) {
	app := application(t)
	tsc := tool(t, "tsc")
	strict := []string{"--noEmit", "--strict", "--exactOptionalPropertyTypes", "--noUncheckedIndexedAccess", "--types", "", "--target", "es2022"}
	for _, module := range [][]string{{"--module", "nodenext"}, {"--module", "esnext", "--moduleResolution", "bundler"}} {
		mustRun(t, app, tsc, append(append(strict, "--lib", "es2022", "types.ts"), module...)...)
	}
	mustRun(t, filepath.Join(app, "node_modules", "furrow"), tsc, "--noEmit", "--strict", "--allowJs", "--checkJs", "--types", "", "--target", "es2023", "--lib", "es2023,dom,dom.iterable",
		"--module", "esnext", "--moduleResolution", "bundler", "remote.js", "relay.js", "worker.js", "thread.js")
}

// inBrowser opens a page whose script puts what it says into the title, and compares that.
func inBrowser(t *testing.T, address string) {
	t.Helper()
	s := blankTab(t, usual)
	s.do(chromedp.Navigate(address))
	title := ""
	for end := time.Now().Add(patience); title == "" && time.Now().Before(end); {
		title = eval[string](s, "document.title")
	}
	heard(t, title).holds(t)
}

const inTitle = "import { run } from '%s';\nrun().then((found) => (document.title = JSON.stringify(found)), (error) => (document.title = JSON.stringify(String(error.stack))));\n"

func hostPage(head string) string {
	return "<!doctype html><meta charset=\"utf-8\"><title></title>" + head + "<script type=\"module\" src=\"./title.js\"></script>"
}

func TestNpmBrowser(t *testing.T) {
	app := application(t)
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(app)); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "title.js"), fmt.Sprintf(inTitle, "./app.js"))
	write(t, filepath.Join(dir, "index.html"), hostPage(`<script type="importmap">{"imports": {"furrow": "./node_modules/furrow/furrow.js", "furrow/worker": "./node_modules/furrow/worker.js"}}</script>`))
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	defer server.Close()
	inBrowser(t, server.URL)
}

func TestNpmEsbuild(t *testing.T) {
	app := application(t)
	esbuild := tool(t, "esbuild")
	out := t.TempDir()
	write(t, filepath.Join(app, "title.js"), fmt.Sprintf(inTitle, "./app.js"))
	mustRun(t, app, esbuild, "title.js", "thread=furrow/thread", "--bundle", "--format=esm", "--outdir="+out)
	write(t, filepath.Join(out, "furrow.wasm"), read(t, filepath.Join(app, "node_modules", "furrow", "furrow.wasm")))
	write(t, filepath.Join(out, "index.html"), hostPage(""))
	server := httptest.NewServer(http.FileServer(http.Dir(out)))
	defer server.Close()
	inBrowser(t, server.URL)
}

func TestNpmVite(t *testing.T) {
	app := application(t)
	vite := tool(t, "vite")
	write(t, filepath.Join(app, "title.js"), fmt.Sprintf(inTitle, "./app.js"))
	write(t, filepath.Join(app, "index.html"), hostPage(""))
	out := t.TempDir()
	mustRun(t, app, vite, "build", "--outDir", out)
	server := httptest.NewServer(http.FileServer(http.Dir(out)))
	defer server.Close()
	inBrowser(t, server.URL)

	// Its development server.
	write(t, filepath.Join(app, "vite.config.mjs"), "export default { optimizeDeps: { exclude: ['furrow'] } };\n")
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address := free.Addr().(*net.TCPAddr)
	free.Close()
	cmd := exec.Command(vite, "--host", "127.0.0.1", "--strictPort", "--port", fmt.Sprint(address.Port))
	cmd.Dir = app
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() { cmd.Process.Kill(); cmd.Wait() }()
	for end := time.Now().Add(patience); ; {
		if c, err := net.Dial("tcp", address.String()); err == nil {
			c.Close()
			break
		}
		if time.Now().After(end) {
			t.Fatal("the development server of vite does not answer")
		}
		time.Sleep(20 * time.Millisecond)
	}
	inBrowser(t, "http://"+address.String()+"/")
}
