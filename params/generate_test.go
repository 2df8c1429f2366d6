package params_test

import (
	"bytes"
	"flag"
	"fmt"
	"go/format"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the exported functions anew")

// functionsFile holds the exported functions of the parameters, one for each row.
const functionsFile = "functions_gen.go"

// TestFunctionsCurrent: functions_gen.go is what the comments above the rows make. Written anew by
//
//	go test ./params/generate_test.go -update
//
// which needs no other file, so that it works where the functions are missing.
func TestFunctionsCurrent(t *testing.T) {
	want, _, err := functions()
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(functionsFile, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	have, err := os.ReadFile(functionsFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(have, want) {
		t.Error(functionsFile + " is not what the comments above the rows make; run this test with -update")
	}
}

// signature is the first line of the comment above a row.
var signature = regexp.MustCompile(`^// func (\w+)\((z \[\]float64.*)\) float64$`)

// functions makes the exported functions: of each comment that begins with a signature, the rest as the doc comment, and the
// evaluator of the row with the key. It returns the file that each row stands in as well.
func functions() (source []byte, files map[string]string, err error) {
	names, err := filepath.Glob("*.go")
	if err != nil {
		return nil, nil, err
	}
	var out bytes.Buffer
	out.WriteString("// Code generated from the comments above the rows by TestFunctionsCurrent. DO NOT EDIT.\n\npackage params\n")
	set := token.NewFileSet()
	files = map[string]string{}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") || name == functionsFile {
			continue
		}
		file, err := parser.ParseFile(set, name, nil, parser.ParseComments)
		if err != nil {
			return nil, nil, err
		}
		for _, c := range file.Comments {
			m := signature.FindStringSubmatch(c.List[0].Text)
			if m == nil {
				continue
			}
			if len(c.List) < 3 || c.List[1].Text != "//" {
				return nil, nil, fmt.Errorf("%s: a signature is the first line of a comment above a row, with an empty line below it", set.Position(c.Pos()))
			}
			out.WriteByte('\n')
			for _, line := range c.List[2:] {
				fmt.Fprintln(&out, line.Text)
			}
			fmt.Fprintf(&out, "func %s(%s) float64 {\n\t// The row stands in %s.\n\treturn rowAlone(%q, %s)\n}\n", m[1], m[2], name, m[1], arguments(m[2]))
			files[m[1]] = name
		}
	}
	source, err = format.Source(out.Bytes())
	return source, files, err
}

// arguments turns the parameters of a function into the input and the arguments of an evaluator.
func arguments(list string) string {
	names := strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == ' ' })
	names = slices.DeleteFunc(names, func(s string) bool { return s == "[]float64" || s == "float64" || s == "int" })
	dx, section, args := "1", "", ""
	for _, n := range names[1:] {
		switch n {
		case "dx":
			dx = n
		case "section":
			section = ", Section: section"
		default:
			args += ", " + n
		}
	}
	return "Input{Z: z, Dx: " + dx + section + "}" + args
}
