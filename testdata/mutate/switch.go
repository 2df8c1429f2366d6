package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// All changes are built into the tests at once, each behind a switch, so that the tests are compiled once: MUTATE in the environment says
// which one is on, and with MUTATE_REACHED a test writes into that file which ones it passes. A change of a constant that must stay one (an array length, a case) cannot be switched and is built alone.

// helpers stand in each changed package.
const helpers = `

import (
	"cmp"
	"fmt"
	"os"
	"strconv"
	"sync"
)

var mutation, _ = strconv.Atoi(os.Getenv("MUTATE"))

var mutationReached = os.Getenv("MUTATE_REACHED")

var mutationsReached sync.Map


type mutationNumber interface {
	~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~uintptr | ~float32 | ~float64
}

func mutationOn(id int) bool {
	if mutationReached != "" {
		if _, known := mutationsReached.LoadOrStore(id, true); !known {
			if f, err := os.OpenFile(mutationReached, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600); err == nil {
				fmt.Fprintln(f, id)
				f.Close()
			}
		}
	}
	return mutation == id
}

func mutationOf[T any](id int, a, b T) T {
	if mutationOn(id) {
		return b
	}
	return a
}

func mutationMinus[T mutationNumber](id int, a T, always bool) T {
	if mutationOn(id) != always {
		return -a
	}
	return a
}

func mutationNext[T mutationNumber](id int, a T) T {
	if mutationOn(id) {
		return a + 1
	}
	return a
}

func mutationSum[T mutationNumber](id int, a, b T, op, other byte) T {
	if mutationOn(id) {
		op = other
	}
	switch op {
	case '+':
		return a + b
	case '-':
		return a - b
	case '*':
		return a * b
	}
	return a / b
}

func mutationLess[T cmp.Ordered](id int, a, b T, op, other string) bool {
	if mutationOn(id) {
		op = other
	}
	switch op {
	case "<":
		return a < b
	case "<=":
		return a <= b
	case ">":
		return a > b
	}
	return a >= b
}
`

// A place is the part of a file that a switch takes the place of, and what may stand there instead, ID for the number of the change: the
// first that compiles.
type place struct {
	from, to         int // bytes
	first, last      int // lines
	ways             []string
	next             int
	id               int
	change           change
	alone            bool // no way compiles
	file, old, shown string
}

// switches are the ways to switch the change of a node; nil where there are none.
func switches(n ast.Node, c change, text func(from, to token.Pos) string) (from, to token.Pos, ways []string) {
	whole := func(format string, arguments ...any) (token.Pos, token.Pos, []string) {
		return n.Pos(), n.End(), []string{fmt.Sprintf(format, arguments...)}
	}
	switch n := n.(type) {
	case *ast.BinaryExpr:
		x, y := text(n.X.Pos(), n.X.End()), text(n.Y.Pos(), n.Y.End())
		switch n.Op {
		case token.ADD, token.SUB, token.MUL, token.QUO:
			return whole("mutationSum(ID, %s, %s, '%s', '%s')", x, y, n.Op, c.new)
		case token.LSS, token.LEQ, token.GTR, token.GEQ:
			return whole("mutationLess(ID, %s, %s, %q, %q)", x, y, n.Op, c.new)
		case token.EQL, token.NEQ:
			return whole("((%s) != mutationOn(ID))", text(n.Pos(), n.End()))
		case token.LAND, token.LOR:
			return whole("func() bool { if mutationOn(ID) { return (%s) %s (%s) }; return (%s) %s (%s) }()", x, c.new, y, x, n.Op, y)
		}
	case *ast.AssignStmt:
		right := n.Rhs[0]
		return right.Pos(), right.End(), []string{fmt.Sprintf("mutationMinus(ID, %s, false)", text(right.Pos(), right.End()))}
	case *ast.IncDecStmt:
		return whole("%s %s= mutationMinus(ID, 1, false)", text(n.X.Pos(), n.X.End()), n.Tok.String()[:1])
	case *ast.UnaryExpr:
		x := text(n.X.Pos(), n.X.End())
		if n.Op == token.SUB {
			return whole("mutationMinus(ID, %s, true)", x)
		}
		return whole("((!%s) != mutationOn(ID))", x)
	case *ast.IndexExpr:
		return n.Index.Pos(), n.Index.End(), []string{fmt.Sprintf("mutationNext(ID, %s)", text(n.Index.Pos(), n.Index.End()))}
	case *ast.IfStmt:
		return n.Cond.Pos(), n.Cond.End(), []string{fmt.Sprintf("((%s) != mutationOn(ID))", text(n.Cond.Pos(), n.Cond.End()))}
	case *ast.BasicLit:
		ways := []string{fmt.Sprintf("mutationOf(ID, %s, %s)", c.old, c.new)}
		if n.Kind == token.INT {
			ways = append(ways, fmt.Sprintf("mutationOf(ID, float64(%s), float64(%s))", c.old, c.new))
		}
		return n.Pos(), n.End(), ways
	}
	return 0, 0, nil
}

// placed finds how each change is switched. Changes that overlap with an earlier one of the list are left out.
func placed(list []change, most int) []*place {
	var places []*place
	sources := map[string][]byte{}
	for _, c := range list {
		if len(places) == most {
			break
		}
		data := sources[c.file]
		if data == nil {
			var err error
			if data, err = os.ReadFile(c.file); err != nil {
				log.Fatal(err)
			}
			sources[c.file] = data
		}
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, c.file, data, 0)
		if err != nil {
			log.Fatal(err)
		}
		offset := func(p token.Pos) int { return set.Position(p).Offset }
		text := func(from, to token.Pos) string { return string(data[offset(from):offset(to)]) }
		var found *place
		ast.Inspect(f, func(n ast.Node) bool {
			if found != nil || n == nil {
				return found == nil
			}
			look(n, func(from, to token.Pos, new string) {
				if found == nil && offset(from) == c.from && offset(to) == c.to && strings.ReplaceAll(new, "%", c.old) == c.new {
					a, b, ways := switches(n, c, text)
					if ways != nil {
						found = &place{from: offset(a), to: offset(b), first: set.Position(a).Line, last: set.Position(b).Line, ways: ways, change: c, file: c.file, old: string(data)}
					}
				}
			})
			return found == nil
		})
		if found == nil || slices.ContainsFunc(places, func(p *place) bool { return p.file == c.file && p.from < found.to && found.from < p.to }) {
			continue
		}
		places = append(places, found)
		found.id = len(places)
	}
	return places
}

var errorAt = regexp.MustCompile(`(?m)^(?:\./)?([^\s:]+\.go):(\d+):(?:\d+:)? (.*)`) // a column beyond 255 is not told

// build writes the switched files until they compile and returns the overlay for the go command.
func build(places []*place, dir string) string {
	for {
		replaced := map[string]string{}
		names := map[string]bool{}
		for _, p := range places {
			names[p.file] = true
		}
		for file := range names {
			var here []*place
			for _, p := range places {
				if p.file == file && !p.alone {
					here = append(here, p)
				}
			}
			if len(here) == 0 {
				continue
			}
			slices.SortFunc(here, func(a, b *place) int { return b.from - a.from })
			text := here[0].old
			for _, p := range here {
				text = text[:p.from] + strings.ReplaceAll(p.ways[p.next], "ID", strconv.Itoa(p.id)) + text[p.to:]
			}
			f, err := parser.ParseFile(token.NewFileSet(), file, here[0].old, parser.PackageClauseOnly)
			if err != nil {
				log.Fatal(err)
			}
			for name, text := range map[string]string{file: text, filepath.Join(filepath.Dir(file), "mutation.go"): "package " + f.Name.Name + helpers} {
				absolute, err := filepath.Abs(name)
				to := filepath.Join(dir, strings.ReplaceAll(name, "/", "+"))
				if err := errors.Join(err, os.WriteFile(to, []byte(text), 0o644)); err != nil {
					log.Fatal(err)
				}
				replaced[absolute] = to
			}
		}
		overlay, err := json.Marshal(map[string]any{"Replace": replaced})
		instead := filepath.Join(dir, "overlay.json")
		if err := errors.Join(err, os.WriteFile(instead, overlay, 0o644)); err != nil {
			log.Fatal(err)
		}
		out, err := exec.Command("go", "build", "-gcflags=-e", "-overlay", instead, "./params", "./filter", "./standards/...", "./roughness/...").CombinedOutput()
		if err == nil {
			return instead
		}
		moved := 0
		for _, m := range errorAt.FindAllStringSubmatch(string(out), -1) {
			line, _ := strconv.Atoi(m[2])
			// The go command shortens the folder of a file that it reads in place of another.
			file := strings.ReplaceAll(filepath.Base(m[1]), "+", "/")
			for _, p := range places {
				if p.file == file && !p.alone && p.first <= line && line <= p.last && p.shown != fmt.Sprint(p.next) {
					p.shown = fmt.Sprint(p.next)
					moved++
				}
			}
		}
		for _, p := range places {
			if !p.alone && p.shown == fmt.Sprint(p.next) {
				if p.next++; p.next == len(p.ways) {
					p.alone = true
				}
			}
		}
		if moved == 0 {
			log.Fatalf("the changes do not compile:\n%s", out)
		}
	}
}
