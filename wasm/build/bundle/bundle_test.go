package bundle_test

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.com/furrow/wasm/build/bundle"
)

func TestBuild(t *testing.T) {
	p, err := bundle.Build()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []bundle.Generated{p.Module, p.Loader} {
		onDisk, err := os.ReadFile(f.Path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(onDisk, f.Data) {
			t.Errorf("%s: the file differs from what was reported", f.Path)
		}
	}
	if err := p.Pack(); err != nil {
		t.Fatal(err)
	}
	for _, f := range []bundle.Generated{p.Module, p.Loader} {
		packed, err := os.Open(f.Path + ".gz")
		if err != nil {
			t.Fatal(err)
		}
		defer packed.Close()
		z, err := gzip.NewReader(packed)
		if err != nil {
			t.Fatal(err)
		}
		if plain, err := io.ReadAll(z); err != nil || !bytes.Equal(plain, f.Data) {
			t.Errorf("%s: the compressed form is not the file (%v)", f.Path, err)
		}
	}
	// WebAssembly Core Specification, 5.5.16: magic and version.
	if !bytes.HasPrefix(p.Module.Data, []byte("\x00asm\x01\x00\x00\x00")) {
		t.Error("the module is not WebAssembly version 1")
	}
	if left, _ := filepath.Glob(filepath.Join(p.Dir, ".furrow.wasm.*")); left != nil {
		t.Errorf("left behind: %v", left)
	}
}

// Whoever gives the page to others gives the licences of its parts as well.
func TestNotices(t *testing.T) {
	p, err := bundle.Build()
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(p.Dir, "notices.txt"))
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range []string{
		"The Go runtime", "Copyright 2009 The Go Authors", "gonum.org/v1/gonum v", "The Gonum Authors", "github.com/hack-pad/safejs v",
		"lit-html", "idb", "Redistributions in binary form",
	} {
		if !bytes.Contains(text, []byte(part)) {
			t.Errorf("the notices do not contain %q", part)
		}
	}
}

// Every page has the frame with the links to all four, and the policy, for servers that send none.
func TestPages(t *testing.T) {
	p, err := bundle.Build()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range bundle.Sheets() {
		page, err := os.ReadFile(filepath.Join(p.Dir, s.File))
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{
			`<meta http-equiv="Content-Security-Policy" content="` + bundle.Policy + `">`,
			`<a href="` + s.File + `" aria-current="page">` + s.Name + `</a>`, `src="` + strings.Replace(s.Script, "main.js", "all.js", 1) + `"`, `<link rel="stylesheet" href="style/all.css">`, `<link rel="modulepreload" href="shared/all.js">`,
			`<link rel="preload" as="fetch" crossorigin href="known.json">`,
		} {
			if !strings.Contains(string(page), want) {
				t.Errorf("%s lacks %s", s.File, want)
			}
		}
		for _, other := range bundle.Sheets() {
			if n := strings.Count(string(page), `<a href="`+other.File+`"`); other != s && n < 1 {
				t.Errorf("%s has no link to %s", s.File, other.File)
			}
		}
		if _, err := os.Stat(filepath.Join(p.Dir, filepath.FromSlash(s.Script))); err != nil {
			t.Error(err)
		}
	}
}

// The libraries of others are what their packages hold, and each has its licence beside it.
func TestVendored(t *testing.T) {
	dir := filepath.Join("..", "..", "page", "vendor")
	list, err := os.ReadFile(filepath.Join(dir, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^\| (\S+/\S+) \| .* \| ([0-9a-f]{64}) \|$`).FindAllStringSubmatch(string(list), -1) {
		data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(m[1])))
		if err != nil {
			t.Error(err)
			continue
		}
		if sum := fmt.Sprintf("%x", sha256.Sum256(data)); sum != m[2] {
			t.Errorf("%s has the checksum %s, listed is %s", m[1], sum, m[2])
		}
		listed[m[1]] = true
	}
	err = fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if strings.HasSuffix(name, ".js") && !listed[name] {
			t.Errorf("%s is not listed", name)
		}
		if d.IsDir() && !strings.Contains(name, "/") && name != "." && !listed[name+"/LICENSE"] {
			t.Errorf("%s has no licence", name)
		}
		return err
	})
	if err != nil || len(listed) == 0 {
		t.Errorf("%d files listed, %v", len(listed), err)
	}
}

// A module that is passed on must not tell who built it where.
func TestNoMachinePaths(t *testing.T) {
	p, err := bundle.Build()
	if err != nil {
		t.Fatal(err)
	}
	home, err := os.UserHomeDir()
	if err != nil {
		t.Fatal(err)
	}
	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	module := filepath.Dir(filepath.Dir(p.Dir))
	for _, path := range []string{module, filepath.Dir(module), filepath.Join(home, "go"), filepath.Join(home, ".cache"), strings.TrimSpace(string(goroot))} {
		// A very short path, such as /, is in every file by chance.
		if len(path) > 3 && bytes.Contains(p.Module.Data, []byte(path+string(filepath.Separator))) {
			t.Errorf("the module contains %q", path)
		}
	}
}

// A copy has every file that the service worker lists, and the service worker, and nothing that a browser does not ask for. What is large has its
// checksum in its name, and what asks for it states it.
func TestCopy(t *testing.T) {
	p, err := bundle.Build()
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "class", "furrow")
	if err := p.Copy(to); err != nil {
		t.Fatal(err)
	}
	worker, err := os.ReadFile(filepath.Join(to, "sw.js"))
	if err != nil {
		t.Fatal(err)
	}
	listed := regexp.MustCompile(`(?m)^ "([^"]+)": "[0-9a-f]{64}"`).FindAllSubmatch(worker, -1)
	want := map[string]bool{"sw.js": true}
	gone := map[string]bool{} // a packed form comes after its file
	large := map[string]string{}
	immutable := regexp.MustCompile(`^(.*)-([0-9a-f]{8})(\.\w+)$`)
	for _, m := range listed {
		want[string(m[1])] = true
	}
	if len(want) < 15 || !want["study.html"] || want["worksheet/all.js"] || want["worksheet/main.js"] || want["furrow.wasm"] {
		t.Errorf("the service worker lists %d files", len(want))
	}
	err = fs.WalkDir(os.DirFS(to), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if plain := strings.TrimSuffix(strings.TrimSuffix(name, ".gz"), ".br"); plain != name && gone[plain] {
			return nil
		}
		gone[name] = gone[name] || want[name]
		if !want[name] {
			t.Errorf("%s is not needed", name)
		}
		delete(want, name)
		copied, err := os.ReadFile(filepath.Join(to, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		if m := immutable.FindStringSubmatch(name); m != nil {
			large[m[1]+m[3]] = name
			if sum := sha256.Sum256(copied); fmt.Sprintf("%x", sum[:4]) != m[2] {
				t.Errorf("%s has the checksum %x", name, sum)
			}
		}
		return nil
	})
	for _, name := range []string{"furrow.wasm", "shared/all.js", "worksheet/all.js", "study/all.js", "style/all.css"} {
		if large[name] == "" {
			t.Errorf("%s has no name that stays", name)
		}
	}
	page, e := os.ReadFile(filepath.Join(to, "index.html"))
	for _, name := range []string{"shared/all.js", "worksheet/all.js", "style/all.css"} {
		data, err := os.ReadFile(filepath.Join(to, large[name]))
		if err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(data)
		if text := fmt.Sprintf("=%q integrity=\"sha256-%s\"", large[name], base64.StdEncoding.EncodeToString(sum[:])); e != nil || !strings.Contains(string(page), text) {
			t.Errorf("the page lacks %s (%v)", text, e)
		}
	}
	script, e := os.ReadFile(filepath.Join(to, large["shared/all.js"]))
	for _, name := range []string{large["furrow.wasm"], "furrow.js", "worker.js", "wasm_exec.js"} {
		if !strings.Contains(string(script), fmt.Sprintf("%q:\"sha256-", name)) || e != nil {
			t.Errorf("the script states no checksum of %s (%v)", name, e)
		}
	}
	if err != nil || len(want) > 0 {
		t.Errorf("missing: %v, %v", want, err)
	}
}
