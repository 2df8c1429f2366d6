// Mutate asks how well the tests hold the code: it changes one sign, index, constant or condition at a time and
// looks whether a test fails.
//
//	go run ./testdata/mutate [-n 200] [-seed 1] [-rooms params,filter,standards,roughness]
//
// Each line names a change and what became of it: killed (a test failed, or ran without end), or survived. A
// change that does not compile is drawn again. A survivor is either a test that is missing or a change that
// makes no difference; a person judges which. The tree is not touched: the go command reads the changed file
// in the place of the original. A run of 200 takes about an hour on two cores.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"log"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// A change replaces the bytes from, to of a file.
type change struct {
	file     string
	line     int
	from, to int
	old, new string
}

func (c change) String() string { return fmt.Sprintf("%s:%d: %s -> %s", c.file, c.line, c.old, c.new) }

// tests are the packages whose tests hold a room: its own first, then those that stand on it.
var tests = map[string][]string{
	"filter":    {"./filter", "./params", "./roughness/..."},
	"params":    {"./params", "./roughness/...", "./wasm"},
	"standards": {"./standards/...", "./roughness/...", "./examples/...", "./wasm"},
	"roughness": {"./roughness/...", "./examples/...", "./wasm"},
}

// swapped are the operators and what becomes of them.
var swapped = map[token.Token]string{
	token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*",
	token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">", token.EQL: "!=", token.NEQ: "==",
	token.LAND: "||", token.LOR: "&&", token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+=", token.INC: "--", token.DEC: "++",
}

func main() {
	log.SetFlags(0)
	n := flag.Int("n", 200, "number of changes")
	seed := flag.Uint64("seed", 1, "seed of the choice")
	rooms := flag.String("rooms", "params,filter,standards,roughness", "folders to change, with their sub-folders")
	limit := flag.Duration("limit", 3*time.Minute, "how long the tests of a package may run")
	flag.Parse()
	var all []change
	for room := range strings.SplitSeq(*rooms, ",") {
		found, err := changes(room)
		if err != nil {
			log.Fatal(err)
		}
		all = append(all, found...)
	}
	draw := rand.New(rand.NewPCG(*seed, 0))
	draw.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(dir)
	tried, killed := 0, 0
	for _, c := range all {
		if tried == *n {
			break
		}
		word := try(c, dir, *limit)
		if word == "" {
			continue
		}
		tried++
		if word == "killed" {
			killed++
		}
		fmt.Printf("%4d %-8s %s\n", tried, word, c)
	}
	fmt.Printf("%d of %d killed (%.1f %%), from %d possible changes, seed %d\n", killed, tried, 100*float64(killed)/float64(max(tried, 1)), len(all), *seed)
}

// changes finds all changes below a folder, save in tests and made files.
func changes(root string) ([]change, error) {
	var found []change
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.HasSuffix(path, "_gen.go") {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, path, data, 0)
		if err != nil {
			return err
		}
		// In the new text, % stands for the old one.
		add := func(from, to token.Pos, new string) {
			p, end := set.Position(from), set.Position(to).Offset
			old := string(data[p.Offset:end])
			found = append(found, change{path, p.Line, p.Offset, end, old, strings.ReplaceAll(new, "%", old)})
		}
		ast.Inspect(f, func(n ast.Node) bool { return look(n, add) })
		return nil
	})
	return found, err
}

// look adds the changes of one node and reports whether to look inside.
func look(n ast.Node, add func(from, to token.Pos, new string)) bool {
	operator := func(at token.Pos, t token.Token) {
		if s, ok := swapped[t]; ok {
			add(at, at+token.Pos(len(t.String())), s)
		}
	}
	switch n := n.(type) {
	case *ast.ImportSpec, *ast.Field: // versions, tags and lengths of arrays are no arithmetic
		return false
	case *ast.BinaryExpr:
		operator(n.OpPos, n.Op)
	case *ast.AssignStmt:
		operator(n.TokPos, n.Tok)
	case *ast.IncDecStmt:
		operator(n.TokPos, n.Tok)
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			add(n.OpPos, n.OpPos+1, "")
		}
	case *ast.IndexExpr:
		add(n.Index.Pos(), n.Index.End(), "(%)+1") // of a map or a type this does not compile, and another is drawn
	case *ast.IfStmt:
		add(n.Cond.Pos(), n.Cond.End(), "!(%)")
	case *ast.BasicLit:
		if n.Kind == token.INT {
			add(n.Pos(), n.End(), "(%+1)")
		}
		if v, err := strconv.ParseFloat(n.Value, 64); n.Kind == token.FLOAT && err == nil {
			add(n.Pos(), n.End(), strconv.FormatFloat(v*1.1, 'g', -1, 64))
		}
	}
	return true
}

// try makes the change and runs the tests; the word is empty where it does not compile.
func try(c change, dir string, limit time.Duration) string {
	data, err := os.ReadFile(c.file)
	if err != nil {
		log.Fatal(err)
	}
	changed := filepath.Join(dir, "changed.go")
	text := string(data[:c.from]) + c.new + string(data[c.to:])
	absolute, err := filepath.Abs(c.file)
	overlay, err2 := json.Marshal(map[string]any{"Replace": map[string]string{absolute: changed}})
	instead := filepath.Join(dir, "overlay.json")
	if err := errors.Join(err, err2, os.WriteFile(changed, []byte(text), 0o644), os.WriteFile(instead, overlay, 0o644)); err != nil {
		log.Fatal(err)
	}
	if run("go", "build", "-overlay", instead, "./"+filepath.Dir(c.file)) != nil {
		return ""
	}
	first := append([]string{"./" + filepath.Dir(c.file)}, tests[strings.Split(filepath.ToSlash(c.file), "/")[0]]...)
	for _, packages := range first {
		// The limit on memory keeps a loop that allocates without end from taking the machine down.
		err := run("sh", "-c", `ulimit -v 12000000; exec go test -vet=off -failfast -overlay "$1" -timeout "$2" "$3"`, "sh", instead, limit.String(), packages)
		if err != nil {
			return "killed"
		}
	}
	return "survived"
}

func run(name string, arguments ...string) error { return exec.Command(name, arguments...).Run() }
