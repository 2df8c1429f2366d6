package filter_test

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"os"
	"reflect"
	"strings"
	"testing"

	"example.com/furrow/filter"
)

// docs returns the comment of each type of the package.
func docs(t *testing.T) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	set := token.NewFileSet()
	var files []*ast.File
	for _, e := range entries {
		if name := e.Name(); strings.HasSuffix(name, ".go") && !strings.HasSuffix(name, "_test.go") {
			f, err := parser.ParseFile(set, name, nil, parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
	}
	p, err := doc.NewFromFiles(set, files, "example.com/furrow/filter")
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]string{}
	for _, typ := range p.Types {
		said[typ.Name] = typ.Doc
	}
	return said
}

// Every filter and form says what it rests on, and a filter names the documents of its row in the table.
func TestComments(t *testing.T) {
	said := docs(t)
	items := func(name, shared string, want ...string) {
		text := said[name]
		for _, item := range want {
			if !strings.Contains(text, "- "+item) && (shared == "" || !strings.Contains(text, shared)) {
				t.Errorf("the comment of %s has no item %q", name, item)
			}
		}
	}
	for _, i := range filter.All() {
		name := reflect.TypeOf(i.New(1)).Name()
		shared := ""
		if i.Envelope() {
			shared = "rrors"
		}
		items(name, shared, "Weighting function:", "Input", "Errors:", "Source:")
		for _, source := range strings.Split(i.Source, "; ") {
			if !strings.Contains(strings.ReplaceAll(said[name], "\n", " "), source) && !strings.Contains(said[name], "source as [") {
				t.Errorf("the comment of %s does not name %s", name, source)
			}
		}
	}
	for _, c := range forms {
		items(reflect.TypeOf(c.f).Name(), "", "Input:", "Errors:", "Source:")
	}
}
