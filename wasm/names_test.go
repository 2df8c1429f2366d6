package main

import (
	"go/build/constraint"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/roughness/record"
)

// A file that needs JavaScript and is compiled elsewhere breaks every other platform.
func TestScriptFilesAreMarked(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) < 5 {
		t.Skip("the source is not here")
	}
	found := 0
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, text, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range f.Imports {
			if i.Path.Value != `"github.com/hack-pad/safejs"` && i.Path.Value != `"syscall/js"` {
				continue
			}
			found++
			if !onlyJS(name, string(text)) {
				t.Errorf("%s imports %s and is not kept to js", name, i.Path.Value)
			}
		}
	}
	if found == 0 {
		t.Error("no file imports safejs; the test sees nothing")
	}
}

// onlyJS tells whether the name or a build line keeps a file to GOOS=js.
func onlyJS(name, text string) bool {
	base := strings.TrimSuffix(strings.TrimSuffix(name, ".go"), "_test")
	if strings.HasSuffix(base, "_js") {
		return true
	}
	for line := range strings.Lines(text) {
		if !constraint.IsGoBuild(line) {
			continue
		}
		x, err := constraint.Parse(line)
		return err == nil && x.Eval(func(tag string) bool { return tag == "js" || tag == "wasm" }) && !x.Eval(func(tag string) bool { return tag != "js" })
	}
	return false
}

// The table, its description and the declaration for scripts name the same functions.
func TestNamesAgree(t *testing.T) {
	var table []string
	for _, f := range functions {
		table = append(table, f.name)
	}
	described := regexp.MustCompile(`(?m)^//\t([a-z]+) +(?:what|the|a|how) `)
	if got := names(t, "doc.go", described); !slices.Equal(got, table) {
		t.Errorf("doc.go describes %v, the table has %v", got, table)
	}
	declaration := readText(t, filepath.Join("page", "furrow.d.ts"))
	var declared []string
	for _, of := range []string{"Furrow {", "Evaluation extends Found {"} {
		_, inside, _ := strings.Cut(declaration, "export interface "+of)
		inside, _, _ = strings.Cut(inside, "\n}")
		for _, m := range regexp.MustCompile(`(?m)^  (?:readonly )?([a-z]+)[(:<]`).FindAllStringSubmatch(inside, -1) {
			declared = append(declared, m[1])
		}
	}
	slices.Sort(declared)
	declared = slices.Compact(declared) // figure and judge are both
	sorted := slices.Sorted(slices.Values(table))
	if !slices.Equal(declared, sorted) {
		t.Errorf("furrow.d.ts declares %v, the table has %v", declared, sorted)
	}
	script := readText(t, filepath.Join("page", "furrow.js"))
	for _, name := range table {
		if !regexp.MustCompile(`\b(?:ask|answer|call|about|told)\('` + name + `'`).MatchString(script) {
			t.Errorf("furrow.js does not call %s", name)
		}
	}
	if !strings.Contains(script, "'"+registrationName+"'") {
		t.Errorf("furrow.js does not wait for %s", registrationName)
	}
}

// The script refuses a module of another version than its own, which is that of the library.
func TestVersionFile(t *testing.T) {
	if !regexp.MustCompile(`^\d+\.\d+\.\d+$`).MatchString(record.Version) {
		t.Errorf("version %q", record.Version)
	}
	if script := readText(t, filepath.Join("page", "furrow.js")); !strings.Contains(script, "\nconst version = '"+record.Version+"';\n") {
		t.Errorf("furrow.js is not of version %s", record.Version)
	}
}

func names(t *testing.T, file string, pattern *regexp.Regexp) []string {
	t.Helper()
	var list []string
	for _, m := range pattern.FindAllStringSubmatch(readText(t, file), -1) {
		list = append(list, m[1])
	}
	return list
}

func readText(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Skip("the source is not here")
	}
	return string(text)
}
