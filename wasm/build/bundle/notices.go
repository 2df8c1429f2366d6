package bundle

import (
	_ "embed"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// notices is the file with the licences of all that others wrote and the page holds.
const notices = "notices.txt"

// golicence is the licence of Go: an installed Go need not hold its text.
//
//go:embed go-licence.txt
var golicence string

// note writes the notices: the Go runtime and library, the modules that the program is built from, and the
// libraries in the vendor folder where there is one, each with the text of its licence. what is in the folder.
func note(dir, what string) (Generated, error) {
	var b strings.Builder
	fmt.Fprintf(&b, "furrow is under the Apache License 2.0. %s also holds the following works of others.\n", what)
	add := func(name, text string) {
		fmt.Fprintf(&b, "\n%s\n%s\n\n%s\n", name, strings.Repeat("=", len(name)), strings.TrimSpace(text))
	}
	add("The Go runtime and standard library", golicence)
	list, err := goCommand([]string{"GOOS=js", "GOARCH=wasm"}, "list", "-deps",
		"-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}", program)
	if err != nil {
		return Generated{}, err
	}
	modules := strings.FieldsFunc(list, func(r rune) bool { return r == '\n' })
	slices.Sort(modules)
	for _, m := range slices.Compact(modules) {
		name, at, _ := strings.Cut(m, "\t")
		text, err := os.ReadFile(filepath.Join(at, "LICENSE"))
		if err != nil {
			return Generated{}, fmt.Errorf("the licence of %s: %w", name, err)
		}
		add(name, string(text))
	}
	vendored, err := filepath.Glob(filepath.Join(dir, "vendor", "*", "LICENSE"))
	if err != nil {
		return Generated{}, err
	}
	for _, at := range vendored {
		text, err := os.ReadFile(at)
		if err != nil {
			return Generated{}, err
		}
		add(filepath.Base(filepath.Dir(at)), string(text))
	}
	return write(dir, notices, []byte(b.String()))
}
