// Package host runs the module of wasm/wasi in a runtime written in Go. It is a module of its own, so that furrow needs no runtime.
package host

import (
	"context"
	"encoding/binary"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"
)

// A furrow is an instance of the module.
type furrow struct {
	t      *testing.T
	ctx    context.Context
	module api.Module
}

func start(t *testing.T) *furrow {
	t.Helper()
	file := filepath.Join(t.TempDir(), "furrow.wasm")
	build := exec.Command("go", "build", "-buildmode=c-shared", "-o", file, "./wasm/wasi")
	build.Dir = filepath.Join("..", "..", "..")
	build.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm", "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	code, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	runtime := wazero.NewRuntime(ctx)
	t.Cleanup(func() { runtime.Close(ctx) })
	wasi_snapshot_preview1.MustInstantiate(ctx, runtime)
	module, err := runtime.InstantiateWithConfig(ctx, code, wazero.NewModuleConfig().WithStartFunctions("_initialize"))
	if err != nil {
		t.Fatal(err)
	}
	return &furrow{t, ctx, module}
}

// call returns the result of an export, 0 where it has none.
func (f *furrow) call(name string, args ...uint64) uint64 {
	f.t.Helper()
	results, err := f.module.ExportedFunction(name).Call(f.ctx, args...)
	if err != nil {
		f.t.Fatalf("%s: %v", name, err)
	}
	if len(results) == 0 {
		return 0
	}
	return results[0]
}

// lend copies bytes into the module.
func (f *furrow) lend(b []byte) uint64 {
	f.t.Helper()
	at := f.call("furrow_alloc", uint64(len(b)))
	if at == 0 || at%8 != 0 || !f.module.Memory().Write(uint32(at), b) {
		f.t.Fatalf("%d bytes at %d", len(b), at)
	}
	return at
}

func (f *furrow) answer() (a struct {
	Result struct {
		Values []struct {
			Symbol string
			Value  *float64
		}
	}
	Error struct{ Kind, Text string }
}) {
	f.t.Helper()
	text, ok := f.module.Memory().Read(uint32(f.call("furrow_answer")), uint32(f.call("furrow_answer_length")))
	if !ok {
		f.t.Fatal("the answer lies nowhere")
	}
	if err := json.Unmarshal(text, &a); err != nil {
		f.t.Fatalf("%v in %s", err, text)
	}
	return a
}

func TestModule(t *testing.T) {
	f := start(t)
	if v := f.call("furrow_version"); v != 1 {
		t.Fatalf("version %d", v)
	}
	settings := []byte(`{"furrow_settings": 1, "input": "filtered", "section": 80, "parameters": ["Ra", "Rt"]}`)
	for round := range 50 { // what is lent comes back: the memory does not grow without end
		var heights []byte
		height := 1 + float64(round)
		for i := range 2000 { // a square wave: Ra is its height, Rt twice that
			heights = binary.LittleEndian.AppendUint64(heights, math.Float64bits(height*float64(1-2*(i/20%2))))
		}
		z, s := f.lend(heights), f.lend(settings)
		if status := f.call("furrow_evaluate", z, 2000, math.Float64bits(0.5), s, uint64(len(settings))); status != 0 {
			t.Fatalf("status %d: %+v", status, f.answer())
		}
		v := f.answer().Result.Values
		if len(v) != 2 || v[0].Value == nil || *v[0].Value != height || *v[1].Value != 2*height {
			t.Errorf("round %d: %+v", round, v)
		}
		f.call("furrow_free", z)
		f.call("furrow_free", s)
	}
	if size := f.module.Memory().Size(); size > 100<<20 {
		t.Errorf("%d bytes after 50 rounds", size)
	}
}

func TestMemoryRefused(t *testing.T) {
	f := start(t)
	at := f.lend(make([]byte, 80))
	for _, tt := range []struct{ z, points, settings, length uint64 }{
		{at, 11, 0, 0}, {at + 8, 1, 0, 0}, {0, 10, 0, 0}, {at, 10, at + 1, 5}, {at, 10, 0, 3}, {at, math.MaxUint32, 0, 0},
	} {
		if status := f.call("furrow_evaluate", tt.z, tt.points, math.Float64bits(1), tt.settings, tt.length); status != 1 || f.answer().Error.Kind != "memory" {
			t.Errorf("%+v: %d, %+v", tt, status, f.answer())
		}
	}
	f.call("furrow_free", at)
	f.call("furrow_free", at)
	if status := f.call("furrow_evaluate", at, 10, math.Float64bits(1), 0, 0); status != 1 || f.answer().Error.Kind != "memory" {
		t.Errorf("given back: %d, %+v", status, f.answer())
	}
	for _, size := range []uint64{0, 1<<30 + 1, math.MaxUint32} {
		if at := f.call("furrow_alloc", size); at != 0 {
			t.Errorf("%d bytes are lent", size)
		}
	}
}
