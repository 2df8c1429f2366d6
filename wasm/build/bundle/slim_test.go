package bundle

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// sections splits a module.
func sections(module []byte) map[byte][]byte {
	all := map[byte][]byte{}
	for rest := module[8:]; len(rest) > 0; {
		id := rest[0]
		rest = rest[1:]
		size := take(&rest)
		all[id], rest = rest[:size], rest[size:]
	}
	return all
}

const failing = `package main

import ("fmt"; "os"; "runtime"; "strconv")

type node struct { next *node; n int }

//go:noinline
func deep(n int, last *node) int { // moves its stack, with pointers on it
	if n%1000 == 0 { runtime.GC() }
	if n == 0 { return last.n }
	return deep(n-1, &node{last, last.n+1}) + last.n - last.n
}

func inlined(list []int) int { return list[len(os.Args)+5] }

//go:noinline
func fails(list []int) int { return inlined(list) }

func main() {
	fmt.Println("depth "+strconv.Itoa(deep(20000, &node{})))
	defer func() { fmt.Println(recover()); panic(fmt.Sprint(fails([]int{1}))) }()
	fails([]int{1, 2})
}
`

// A slimmed module runs, collects garbage and moves stacks, and a panic names its functions; only its data differ.
func TestSlim(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is missing")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"main.go": failing, "go.mod": "module failing\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	at := filepath.Join(dir, module)
	cmd := exec.Command("go", "build", "-o", at)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	made, err := os.ReadFile(at)
	if err != nil {
		t.Fatal(err)
	}
	less, err := slim(made)
	if err != nil {
		t.Fatal(err)
	}
	was, is := sections(made), sections(less)
	if len(was) != len(is) || bytes.Equal(was[11], is[11]) {
		t.Error("the data section is as it was")
	}
	for id := range was {
		if id != 11 && !bytes.Equal(was[id], is[id]) {
			t.Errorf("section %d differs", id)
		}
	}
	root, err := goCommand(nil, "env", "GOROOT")
	if err != nil {
		t.Fatal(err)
	}
	run := func(module []byte) string {
		if err := os.WriteFile(at, module, 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(node, filepath.Join(root, "lib", "wasm", "wasm_exec_node.js"), at).CombinedOutput()
		if err == nil {
			t.Fatalf("the module does not end with its panic\n%s", out)
		}
		return string(out)
	}
	lines, none := run(made), run(less)
	for _, want := range []string{"depth 20000", "index out of range [6] with length 2", "index out of range [6] with length 1", "main.main.func1", "main.fails", "main.inlined", "main.main"} {
		if !strings.Contains(lines, want) || !strings.Contains(none, want) {
			t.Errorf("a module does not print %q:\n%s\nand slim:\n%s", want, lines, none)
		}
	}
	if !strings.Contains(lines, "main.go:") || strings.Contains(none, "main.go") || bytes.Contains(less, []byte("proc.go\x00")) {
		t.Errorf("lines of the module:\n%s\nand slim:\n%s", lines, none)
	}
}

// What is not as Go makes it is not touched.
func TestSlimOther(t *testing.T) {
	for _, data := range [][]byte{
		nil,
		{1, 0, 0x41, 16, 0x0b, 3, 'a', 'b', 'c'}, // no tables
		append([]byte{1, 0, 0x41, 16, 0x0b, 80}, append([]byte(pcMagic), make([]byte, 72)...)...), // nothing refers to them
		{1, 0, 0x41, 0xff, 0xff, 0xff, 0xff, 0x7f, 0x0b, 1, 0},                                    // below 0
		{1, 1, 0}, // passive
	} {
		module := append([]byte("\x00asm\x01\x00\x00\x00\x0b"), byte(len(data)))
		if out, err := slim(append(module, data...)); err == nil {
			t.Errorf("% x: % x", data, out)
		}
	}
	if _, err := slim([]byte("\x00asm\x01\x00\x00\x00\x0b\x7f")); err == nil {
		t.Error("a section that ends too early is taken")
	}
}
