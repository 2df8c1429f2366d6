package bundle_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"example.com/furrow/wasm/build/bundle"
)

func TestBuild(t *testing.T) {
	p, err := bundle.Build()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []bundle.File{p.Module, p.Loader} {
		onDisk, err := os.ReadFile(f.Path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(onDisk, f.Data) {
			t.Errorf("%s: the file differs from what was reported", f.Path)
		}
		z, err := gzip.NewReader(bytes.NewReader(f.Gzip))
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
