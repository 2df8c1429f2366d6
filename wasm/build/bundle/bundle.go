// Package bundle puts the generated files beside the page's own: the evaluation
// compiled to WebAssembly, the loader that belongs to the Go version that
// compiled it, and the pages, each the common frame around its own body.
//
// It needs the go command; with node the page also knows its first answers before the module has started.
package bundle

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

const (
	program = "example.com/furrow/wasm" // what is compiled
	page    = "page"                    // where the page lives, seen from the program
	module  = "furrow.wasm"
	loader  = "wasm_exec.js"
	known   = "known.json" // what the page knows before its module has started
)

// A Generated is one generated file of the page.
type Generated struct {
	Path string // absolute
	Data []byte // as written
}

// A Built is the folder to be served, with what was generated into it.
type Built struct {
	Dir    string
	Module Generated
	Loader Generated
}

// Build compiles the program into the page's folder and copies the loader
// there. It works from any folder of the module.
//
// The module holds no path of the machine that built it, and no date: the same
// sources and the same Go give the same bytes.
func Build() (*Built, error) {
	source, err := goCommand(nil, "list", "-f", "{{.Dir}}", program)
	if err != nil {
		return nil, fmt.Errorf("bundle: not inside the module: %w", err)
	}
	root, err := goCommand(nil, "env", "GOROOT")
	if err != nil {
		return nil, fmt.Errorf("bundle: %w", err)
	}
	p := &Built{Dir: filepath.Join(source, page)}
	if p.Module, err = compile(p.Dir); err != nil {
		return nil, fmt.Errorf("bundle: %w", err)
	}
	js, err := os.ReadFile(filepath.Join(root, "lib", "wasm", loader))
	if err != nil {
		return nil, fmt.Errorf("bundle: this Go has no WebAssembly loader: %w", err)
	}
	if p.Loader, err = write(p.Dir, loader, js); err != nil {
		return nil, fmt.Errorf("bundle: %w", err)
	}
	if _, err := note(p.Dir, "The page"); err != nil {
		return nil, fmt.Errorf("bundle: %w", err)
	}
	for _, make := range []func(string) error{tell, assemble, keep} { // the list of files last
		if err := make(p.Dir); err != nil {
			return nil, fmt.Errorf("bundle: %w", err)
		}
	}
	return p, nil
}

// tell writes what the page knows beforehand. Its scripts ask and the module answers, in node; without node the page waits for the module.
func tell(dir string) error {
	at := filepath.Join(dir, known)
	node, err := exec.LookPath("node")
	if err != nil {
		if err := os.Remove(at); !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		return nil
	}
	version := sha256.New()
	for _, name := range []string{module, loader, "furrow.js", "worker.js"} { // all that an answer rests on
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			return err
		}
		version.Write(data)
	}
	tmp, err := os.MkdirTemp("", "furrow")
	if err != nil {
		return err
	}
	defer os.RemoveAll(tmp)
	out := filepath.Join(tmp, known)
	script := filepath.Join(dir, "..", "build", "bundle", "known.mjs")
	if said, err := exec.Command(node, script, dir, hex.EncodeToString(version.Sum(nil)), out).CombinedOutput(); err != nil {
		return fmt.Errorf("asking the module: %w\n%s", err, said)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		return err
	}
	_, err = write(dir, known, data)
	return err
}

// hot are the packages with loops over points, and what these call: only there functions are inlined, which makes the module 3 % smaller
// with brotli.
var hot = []string{
	"runtime/...", "internal/...", "sync/...", "math/...", "slices", "cmp", "unicode/utf8", "gonum.org/...", "example.com/furrow/filter",
	"example.com/furrow/params", "example.com/furrow/roughness", "example.com/furrow/roughness/internal/...",
}

// compile builds outside the page first, so that a page being served never
// meets half a module.
func compile(dir string) (Generated, error) {
	tmp, err := os.MkdirTemp("", "furrow")
	if err != nil {
		return Generated{}, err
	}
	defer os.RemoveAll(tmp)
	out := filepath.Join(tmp, module)
	// GOFLAGS of the caller may ask for what WebAssembly lacks, such as -race.
	env := []string{"GOOS=js", "GOARCH=wasm", "GOFLAGS=-mod=readonly"}
	args := []string{"build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w", "-gcflags=all=-l"}
	for _, p := range hot {
		args = append(args, "-gcflags="+p+"=")
	}
	if _, err := goCommand(env, append(args, "-o", out, program)...); err != nil {
		return Generated{}, err
	}
	data, err := os.ReadFile(out)
	if err != nil {
		return Generated{}, err
	}
	if less, err := slim(data); err != nil {
		log.Printf("bundle: the module stays a quarter larger: %v", err)
	} else {
		data = less
	}
	return write(dir, module, data)
}

// write replaces the file as a whole; a reader sees the old one or the new one. A file that is already so stays as it is.
func write(dir, name string, data []byte) (Generated, error) {
	f := Generated{Path: filepath.Join(dir, name), Data: data}
	if old, err := os.ReadFile(f.Path); err == nil && bytes.Equal(old, data) {
		return f, nil
	}
	tmp, err := os.CreateTemp(dir, "."+name+".*")
	if err != nil {
		return f, err
	}
	defer os.Remove(tmp.Name()) // gone already when the rename went well
	_, err = tmp.Write(data)
	if err := errors.Join(err, tmp.Chmod(0o644), tmp.Close()); err != nil {
		return f, err
	}
	return f, os.Rename(tmp.Name(), f.Path)
}

// goCommand runs the go command and returns what it printed, or an error with
// what it complained of.
func goCommand(env []string, args ...string) (string, error) {
	var complaint bytes.Buffer
	cmd := exec.Command("go", args...)
	cmd.Env = append(os.Environ(), env...)
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("go %s: %w\n%s", args[0], err, complaint.Bytes())
	}
	return strings.TrimSpace(string(out)), nil
}
