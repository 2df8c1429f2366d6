// Mutate asks how well the tests hold the code: it changes one sign, index, constant or condition at a time and
// looks whether a test fails.
//
//	go run ./testdata/mutate [-n 200] [-seed 1] [-rooms params,filter,standards,roughness] [-quick] [-at FILE:LINE,...]
//
// All tests run once without a change, which tells what each of them passes: a change is tried on the tests that pass it, the quick ones first.
// Each line names a change and what became of it: killed, with the test that failed or ran without end; survived; or
// judged, which is a survivor that judged.txt says why it makes no difference. A change that does not compile is drawn
// again. The share of killed ones is printed with the judged as survivors, and without them. Tests that measure time can fail on a busy
// machine: see which test it was. Not changed are tests, made files and what cannot change a result: the capacity that make is
// given, a plain 0 that is returned beside an error, and a number of which only the sign counts, as that of -1, which says none: it loses its sign instead. The tree is not touched: the go command reads the changed file in the place of the original.
package main

import (
	"cmp"
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
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// A change replaces the bytes from, to of a file.
type change struct {
	file     string
	line     int
	from, to int
	old, new string
	text     string // of the whole line
}

func (c change) String() string { return fmt.Sprintf("%s:%d: %s -> %s", c.file, c.line, c.old, c.new) }

// judged is the change as a line of judged.txt names it: by the text of its line, as numbers of lines move.
func (c change) judged() string { return fmt.Sprintf("%s: %s: %s -> %s", c.file, c.text, c.old, c.new) }

// importers are the folders whose tests hold a room, beside its own tests and the record of outputs.
var importers = map[string][]string{
	"filter":    {"params", "roughness", "roughness/compare"},
	"params":    {"roughness/figure", "roughness", "roughness/study"},
	"standards": {"standards", "standards/callout", "roughness/judge", "roughness/record", "roughness"},
	"roughness": {"roughness", "roughness/record", "roughness/judge", "roughness/instrument", "roughness/compare"},
}

// records are the tests of the record of outputs that most likely see a change in a folder; the others run after the folder's own tests.
var records = []struct{ folder, tests string }{
	{"filter", "Filters|Shapes|Evaluations"}, {"params", "Parameters|Switches|Constructions|Catalogue"}, {"standards/decide", "Decisions|Standards|Seldom"}, {"standards", "Requirements|Standards|Seldom"},
	{"roughness/tracefile", "Reading|Writing|Seldom|Layouts|Formats|ChangedTexts|TextsDrawn"}, {"roughness/figure", "Figures|Marks|Charts|FiguresDrawn"}, {"roughness/judge", "Judging|Records|Sheets|Verdicts|SheetsDrawn"}, {"roughness/record", "Records|Settings|Sheets|Changed|Plans"}, {"roughness/study", "Studies|BlankLines|Exercises|Codes|Questions|ByHand|Ordinates|StudiesDrawn"},
	{"roughness/compare", "Comparing|Differences|WordsDrawn"}, {"roughness/instrument", "Instruments|Checks|ChecksDrawn"}, {"roughness/inspect", "Inspection|Evaluations|Faults"}, {"roughness/synth", "ShapesMade|Inspection|Studies"}, {"roughness/selfcheck", "Register"}, {"roughness", "Evaluations|Settings|Records|Lengths"},
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
	at := flag.String("at", "", "change nothing but these lines: file:line,file:line")
	jobs := flag.Int("jobs", 2, "changes tried at the same time")
	quick := flag.Bool("quick", false, "leave out the tests of the packages that import a folder: the share is then a lower bound")
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
	if *at != "" {
		all = slices.DeleteFunc(all, func(c change) bool {
			return !slices.Contains(strings.Split(*at, ","), fmt.Sprintf("%s:%d", c.file, c.line))
		})
	}
	draw := rand.New(rand.NewPCG(*seed, 0))
	draw.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(dir)
	known, err := os.ReadFile(filepath.Join("testdata", "mutate", "judged.txt"))
	if err != nil {
		log.Fatal(err)
	}
	tried, killed, judged := 0, 0, 0
	places := placed(all, *n)
	together := &bench{dir: dir, limit: *limit, quick: *quick, instead: build(places, dir), built: map[string]*suite{}}
	var lock sync.Mutex
	var wait sync.WaitGroup
	queue := make(chan *place)
	tell := func(c change, word, by string) {
		lock.Lock()
		defer lock.Unlock()
		tried++
		switch {
		case word == "killed":
			killed++
		case slices.Contains(strings.Split(string(known), "\n"), c.judged()):
			word, judged = "judged", judged+1
		default:
			by = c.judged()
		}
		fmt.Printf("%4d %-8s %s   %s\n", tried, word, c, by)
	}
	for range *jobs {
		wait.Go(func() {
			for p := range queue {
				word, by := together.try(p.id, p.file)
				tell(p.change, word, by)
			}
		})
	}
	for _, p := range places {
		if !p.alone {
			queue <- p
		}
	}
	close(queue)
	wait.Wait()
	for _, p := range places {
		if p.alone {
			alone := &bench{dir: dir, limit: *limit, quick: *quick, instead: single(p.change, dir), alone: true, built: map[string]*suite{}}
			if run(".", nil, "go", "build", "-overlay", alone.instead, "./"+filepath.Dir(p.file)) != "" {
				continue
			}
			word, by := alone.try(0, p.file)
			tell(p.change, word, by)
		}
	}
	share := func(of int) float64 { return 100 * float64(killed) / float64(max(of, 1)) }
	fmt.Printf("%d of %d killed (%.1f %%), %d survived, %d judged; without the judged %.1f %%; from %d possible changes, seed %d\n",
		killed, tried, share(tried), tried-killed-judged, judged, share(tried-judged), len(all), *seed)
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
			line := strings.TrimSpace(strings.Split(string(data), "\n")[p.Line-1])
			found = append(found, change{path, p.Line, p.Offset, end, old, strings.ReplaceAll(new, "%", old), line})
		}
		unread := map[ast.Node]bool{}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				if name, ok := n.Fun.(*ast.Ident); ok && name.Name == "make" && len(n.Args) == 3 {
					unread[n.Args[2]] = true
				}
				signAlone(n, unread)
			case *ast.ReturnStmt:
				besideError(n, unread)
			}
			return !unread[n] && look(n, add)
		})
		return nil
	})
	return found, err
}

// signAlone adds the numbers of which a function of the standard library reads the sign alone, or whether they are 32: the second of
// math.IsInf unless it is 0, digits below 0 and the bits of a number in strconv.
func signAlone(n *ast.CallExpr, unread map[ast.Node]bool) {
	f, ok := n.Fun.(*ast.SelectorExpr)
	if !ok || !slices.Contains([]string{"math.IsInf", "math.Inf", "strconv.ParseFloat", "strconv.FormatFloat", "strconv.AppendFloat"}, fmt.Sprint(f.X, ".", f.Sel.Name)) {
		return
	}
	for _, a := range n.Args {
		minus, below := a.(*ast.UnaryExpr)
		if below && minus.Op == token.SUB {
			a = minus.X
		}
		if v, ok := a.(*ast.BasicLit); ok && (below || v.Value == "1" && f.Sel.Name != "FormatFloat" || v.Value == "64") {
			unread[v] = true
		}
	}
}

// besideError adds each 0 that is returned beside an error, written as err or made in place.
func besideError(n *ast.ReturnStmt, unread map[ast.Node]bool) {
	if len(n.Results) < 2 {
		return
	}
	last := n.Results[len(n.Results)-1]
	made := ""
	switch last := last.(type) {
	case *ast.Ident:
		made = last.Name
	case *ast.CallExpr:
		if f, ok := last.Fun.(*ast.SelectorExpr); ok {
			made = fmt.Sprint(f.X, ".", f.Sel.Name)
		}
	}
	for _, r := range n.Results {
		if v, ok := r.(*ast.BasicLit); ok && v.Value == "0" && slices.Contains([]string{"err", "errors.New", "fmt.Errorf"}, made) {
			unread[v] = true
		}
	}
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
			if v, ok := n.X.(*ast.BasicLit); ok && v.Value == "1" {
				return false
			}
		}
	case *ast.IndexExpr:
		add(n.Index.Pos(), n.Index.End(), "(%)+1") // of a map or a type this does not compile, and another is drawn
	case *ast.IfStmt:
		add(n.Cond.Pos(), n.Cond.End(), "!(%)")
	case *ast.BasicLit:
		if n.Kind == token.INT {
			add(n.Pos(), n.End(), "(%+1)")
		}
		if v, err := strconv.ParseFloat(n.Value, 64); n.Kind == token.FLOAT && err == nil && v != 0 {
			add(n.Pos(), n.End(), strconv.FormatFloat(v*1.1, 'g', -1, 64))
		}
	}
	return true
}

// single writes one change as an overlay for the go command.
func single(c change, dir string) string {
	data, err := os.ReadFile(c.file)
	changed, instead := filepath.Join(dir, "changed.go"), filepath.Join(dir, "single.json")
	absolute, err2 := filepath.Abs(c.file)
	overlay, err3 := json.Marshal(map[string]any{"Replace": map[string]string{absolute: changed}})
	if err := errors.Join(err, err2, err3, os.WriteFile(changed, []byte(string(data[:c.from])+c.new+string(data[c.to:])), 0o644), os.WriteFile(instead, overlay, 0o644)); err != nil {
		log.Fatal(err)
	}
	return instead
}

// A bench runs the tests of changed packages, each built once.
type bench struct {
	dir, instead string
	limit        time.Duration
	quick        bool
	alone        bool // one change is built in, and on
	lock         sync.Mutex
	built        map[string]*suite
}

// A suite is the tests of a package.
type suite struct {
	once    sync.Once
	program string
	tests   []timed // the quick ones first
}

// A timed test, with the changes that it passes.
type timed struct {
	name    string
	took    time.Duration
	reaches map[string]bool
}

// The limit on memory keeps a loop that allocates without end from taking the machine down.
const limited = `ulimit -v 12000000; exec "$@"`

func (b *bench) suite(folder string) *suite {
	b.lock.Lock()
	s, ok := b.built[folder]
	if !ok {
		s = &suite{}
		b.built[folder] = s
	}
	b.lock.Unlock()
	s.once.Do(func() { b.build(s, folder) })
	return s
}

// build compiles the tests of a package and runs each once without a change, to learn which changes it passes.
func (b *bench) build(s *suite, folder string) {
	s.program = filepath.Join(b.dir, strings.ReplaceAll(folder, "/", "+")+".test")
	os.Remove(s.program)
	if by := run(".", nil, "go", "test", "-c", "-vet=off", "-overlay", b.instead, "-o", s.program, "./"+folder); by != "" {
		log.Printf("%s: tests do not compile, %s", folder, by)
		return
	}
	if _, err := os.Stat(s.program); err != nil {
		return // no tests
	}
	list := exec.Command(s.program, "-test.list", ".")
	list.Dir = folder
	out, err := list.Output()
	if err != nil {
		log.Fatalf("%s: %v", folder, err)
	}
	for name := range strings.FieldsSeq(string(out)) {
		if strings.HasPrefix(name, "Benchmark") {
			continue
		}
		t := timed{name: name, reaches: map[string]bool{}}
		if !b.alone {
			passed, start := s.program+"."+name, time.Now()
			if by := b.test(s, folder, t, "MUTATE_REACHED="+passed); by != "" {
				log.Fatalf("%s fails without a change, %s", folder, by)
			}
			t.took = time.Since(start)
			ids, _ := os.ReadFile(passed)
			for id := range strings.FieldsSeq(string(ids)) {
				t.reaches[id] = true
			}
		}
		s.tests = append(s.tests, t)
	}
	slices.SortStableFunc(s.tests, func(a, b timed) int { return cmp.Compare(a.took, b.took) })
}

func (b *bench) test(s *suite, folder string, t timed, variable string) string {
	limit := b.limit
	if t.took > 0 {
		limit = min(limit, 30*time.Second+8*t.took)
	}
	return run(folder, []string{variable}, "sh", "-c", limited, "sh", s.program, "-test.failfast", "-test.timeout", limit.String(), "-test.run", "^"+t.name+"$")
}

// tests runs the tests of a package that pass a change with it on, and returns which one failed.
func (b *bench) tests(id int, folder string, which func(name string) bool) string {
	s := b.suite(folder)
	for _, t := range s.tests {
		if which(t.name) && (b.alone || t.reaches[strconv.Itoa(id)]) {
			if by := b.test(s, folder, t, fmt.Sprint("MUTATE=", id)); by != "" {
				return by
			}
		}
	}
	return ""
}

const outputs = "roughness/outputs"

// try runs the tests with a change on. by is the test that failed.
func (b *bench) try(id int, file string) (word, by string) {
	folder := filepath.ToSlash(filepath.Dir(file))
	likely := "none"
	for _, r := range records {
		if folder == r.folder || strings.HasPrefix(folder, r.folder+"/") {
			likely = r.tests
			break
		}
	}
	first := regexp.MustCompile(likely).MatchString
	every := func(string) bool { return true }
	for _, step := range []struct {
		folder string
		which  func(name string) bool
	}{{outputs, first}, {folder, every}, {outputs, func(name string) bool { return !first(name) }}} {
		if by := b.tests(id, step.folder, step.which); by != "" {
			return "killed", by
		}
	}
	if b.quick {
		return "survived", ""
	}
	for _, other := range importers[strings.Split(folder, "/")[0]] {
		if other == folder {
			continue
		}
		if by := b.tests(id, other, every); by != "" {
			return "killed", by
		}
	}
	return "survived", ""
}

var failed = regexp.MustCompile(`(?m)^ *--- FAIL: (\S+)|^(panic: .*|fatal error: .*)`)

// run runs a command and returns nothing when it succeeds, else which test failed.
func run(dir string, environment []string, name string, arguments ...string) string {
	c := exec.Command(name, arguments...)
	c.Dir, c.Env = dir, append(os.Environ(), environment...)
	out, err := c.CombinedOutput()
	if err == nil {
		return ""
	}
	if m := failed.FindSubmatch(out); m != nil {
		return "by " + strings.TrimSpace(string(m[1])+string(m[2]))
	}
	return "by " + err.Error()
}
