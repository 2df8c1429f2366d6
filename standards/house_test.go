package standards_test

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/furrow/standards"
)

// eachFile gives the files of all packages that others can import, without tests.
func eachFile(t *testing.T, look func(files *token.FileSet, path string, f *ast.File)) {
	t.Helper()
	files := token.NewFileSet()
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			_, module := os.Stat(filepath.Join(path, "go.mod"))
			if name := d.Name(); path != ".." && (module == nil || strings.HasPrefix(name, ".") || name == "testdata" || name == "node_modules") {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(files, path, nil, parser.ParseComments)
		if err == nil && f.Name.Name != "main" {
			look(files, path, f)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// No list of a comment stands directly below an indented formula: it would be shown as code.
func TestListsInComments(t *testing.T) {
	eachFile(t, func(files *token.FileSet, _ string, f *ast.File) {
		for _, c := range f.Comments {
			for _, line := range c.List {
				if text, indented := strings.CutPrefix(line.Text, "//\t"); indented && strings.HasPrefix(strings.TrimLeft(text, "\t "), "- ") {
					t.Errorf("%s: a list needs a sentence between it and the formula above", files.Position(line.Pos()))
				}
			}
		}
	})
}

// An error that names a package names its own, and [standards.Bare] knows it.
func TestErrorsNameTheirPackage(t *testing.T) {
	names, found := map[string]bool{}, 0
	eachFile(t, func(_ *token.FileSet, _ string, f *ast.File) { names[f.Name.Name] = true })
	eachFile(t, func(files *token.FileSet, _ string, f *ast.File) {
		ast.Inspect(f, func(n ast.Node) bool {
			text, ok := n.(*ast.BasicLit)
			if !ok || text.Kind != token.STRING {
				return true
			}
			name, rest, ok := strings.Cut(text.Value[1:], ": ")
			if !ok || !names[name] {
				return true
			}
			found++
			if name != f.Name.Name {
				t.Errorf("%s: %s speaks for another package", files.Position(text.Pos()), text.Value)
			}
			if said := standards.Bare(errors.New(text.Value[1:])); said != rest {
				t.Errorf("%s: Bare leaves %s", files.Position(text.Pos()), said)
			}
			return true
		})
	})
	if found < 100 {
		t.Errorf("looked at %d errors; the tree has more", found)
	}
}

// TestExportedNames walks all packages that others can import: the name of an exported type means one thing in all of them (an alias is the
// same type), and no exported variable is a slice or a map, which anyone could change.
func TestExportedNames(t *testing.T) {
	where := map[string]string{}
	eachFile(t, func(files *token.FileSet, path string, f *ast.File) {
		for _, decl := range f.Decls {
			group, ok := decl.(*ast.GenDecl)
			if !ok {
				continue
			}
			for _, spec := range group.Specs {
				switch s := spec.(type) {
				case *ast.TypeSpec:
					name := s.Name.Name
					if !s.Name.IsExported() || s.Assign.IsValid() {
						continue
					}
					if other, ok := where[name]; ok {
						t.Errorf("%s: type %s has the name of a type in %s", files.Position(s.Pos()), name, other)
					}
					where[name] = filepath.Dir(path)
				case *ast.ValueSpec:
					for i, name := range s.Names {
						if group.Tok == token.VAR && name.IsExported() && (canChange(s.Type) || i < len(s.Values) && canChange(s.Values[i])) {
							t.Errorf("%s: anyone can change what is in %s", files.Position(name.Pos()), name.Name)
						}
					}
				}
			}
		}
	})
	if len(where) < 100 {
		t.Errorf("looked at %d types; the tree has more", len(where))
	}
}

// canChange tells whether a type, or a value as it is written, is a slice, an array or a map.
func canChange(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.ArrayType, *ast.MapType:
		return true
	case *ast.CompositeLit:
		return canChange(e.Type)
	case *ast.CallExpr: // a conversion, or make
		return canChange(e.Fun) || len(e.Args) > 0 && canChange(e.Args[0])
	}
	return false
}
