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

import ("fmt"; "log"; "os"; "reflect"; "runtime"; "slices"; "strconv")

type node struct { next *node; n int }

//go:noinline
func deep(n int, last *node) int { // moves its stack, with pointers on it
	if n%1000 == 0 { runtime.GC() }
	if n == 0 { return last.n }
	return deep(n-1, &node{last, last.n+1}) + last.n - last.n
}

func (n *node) Depth() string { return "depth "+strconv.Itoa(deep(n.n, &node{})) }

func inlined(list []int) int { return list[len(os.Args)+5] }

//go:noinline
func fails(list []int) int { return inlined(list) }

func sorts[T any](list []T) { slices.SortFunc(list, func(T, T) int { return fails([]int{1}) }) }

func main() {
	log.SetFlags(log.Lshortfile)
	log.Print("logs")
	fmt.Println(reflect.ValueOf(&node{n: 20000}).Method(0).Interface().(func() string)())
	var back func(*node) *node
	reflect.ValueOf(&back).Elem().Set(reflect.MakeFunc(reflect.TypeOf(back), func(in []reflect.Value) []reflect.Value {
		deep(5000, &node{})
		return in
	}))
	fmt.Println("back", back(&node{n: 7}).n)
	done := make(chan int)
	for i := range 100 { go func() { done <- deep(i, &node{}) }() }
	sum := 0
	for range 100 { sum += <-done }
	fmt.Println("sum", sum)
	pc := make([]uintptr, 1)
	runtime.Callers(1, pc)
	frame, _ := runtime.CallersFrames(pc).Next()
	fmt.Println("called by", frame.Function != "")
	defer func() { fmt.Println(recover()); sorts([]string{"a", "b"}) }()
	fails([]int{1, 2})
}
`

// A slimmed module runs, collects garbage and moves stacks, and a panic names its functions; of its code nothing is lost.
func TestSlim(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is missing")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"main.go": failing, "go.mod": "module failing\n\ngo 1.26\n"} {
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
	for id, before := range was {
		after := is[id]
		switch id {
		case 1, 3, 10: // types, functions and code: one more, at the end
			if n := take(&before); take(&after) != n+1 || !bytes.HasPrefix(after, before) {
				t.Errorf("section %d is not as it was with one more at its end", id)
			}
		case 11:
			if bytes.Equal(before, after) {
				t.Error("the data section is as it was")
			}
		default:
			if !bytes.Equal(before, after) {
				t.Errorf("section %d differs", id)
			}
		}
	}
	if again, err := slim(less); err == nil || again != nil {
		t.Error("a slim module is slimmed again")
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
	for _, want := range []string{"logs", "depth 20000", "back 7", "sum 4950", "called by true", "main.sorts[...]", "index out of range [6] with length 2", "index out of range [6] with length 1", "main.main.func3", "main.fails", "main.main"} {
		if !strings.Contains(lines, want) || !strings.Contains(none, want) {
			t.Errorf("a module does not print %q:\n%s\nand slim:\n%s", want, lines, none)
		}
	}

	for _, text := range []string{"main.go:", "main.inlined", "slices."} {
		if !strings.Contains(lines, text) || strings.Contains(none, text) {
			t.Errorf("only the module as it was prints %q:\n%s\nand slim:\n%s", text, lines, none)
		}
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
