package params_test

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// comments returns the doc comments of the exported functions of the package, by name.
func comments(t *testing.T) map[string]string {
	t.Helper()
	set := token.NewFileSet()
	names, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	d, err := doc.NewFromFiles(set, files, "example.com/furrow/params")
	if err != nil {
		t.Fatal(err)
	}
	text := map[string]string{}
	for _, f := range d.Funcs {
		text[f.Name] = f.Doc
	}
	for _, typ := range d.Types {
		for _, f := range typ.Funcs {
			text[f.Name] = f.Doc
		}
	}
	return text
}

// items are the labelled lines of a doc comment, in their order.
var items = []string{"Symbol", "Input", "Unit", "Evaluated over", "Source"}

var itemLine = regexp.MustCompile(`(?m)^\s+- (Symbol|Input|Unit|Evaluated over|Source): (.*(?:\n    .*)*)\.$`)

// TestCatalogueAgreesWithDocComments: every row is an exported function whose comment has a formula and the five
// items, and whose unit, lengths and sources are those of the row.
func TestCatalogueAgreesWithDocComments(t *testing.T) {
	text := comments(t)
	keys := map[string]bool{}
	for _, p := range params.Catalogue() {
		if keys[p.Key] {
			t.Errorf("two rows have the key %s", p.Key)
		}
		keys[p.Key] = true
		c, ok := text[p.Key]
		if !ok {
			t.Errorf("%s: there is no exported function of this name", p.Key)
			continue
		}
		if !strings.HasPrefix(c, p.Key+" returns ") {
			t.Errorf("%s: the comment begins %q", p.Key, strings.SplitN(c, "\n", 2)[0])
		}
		if !regexp.MustCompile(`(?m)^\t.*=`).MatchString(c) {
			t.Errorf("%s: the comment has no formula", p.Key)
		}
		if !strings.Contains(c, "Special cases are") {
			t.Errorf("%s: the comment has no special cases", p.Key)
		}
		found := map[string]string{}
		var order []string
		for _, m := range itemLine.FindAllStringSubmatch(c, -1) {
			found[m[1]] = strings.Join(strings.Fields(m[2]), " ")
			order = append(order, m[1])
		}
		if !slices.Equal(order, items) {
			t.Errorf("%s: the comment has the items %v, want %v", p.Key, order, items)
			continue
		}
		var sources, lengths []string
		for _, m := range p.Meanings {
			for _, r := range m.Refs {
				if s := r.String(); !slices.Contains(sources, s) {
					sources = append(sources, s)
				}
			}
			if s := m.Over.String(); !slices.Contains(lengths, s) {
				lengths = append(lengths, s)
			}
		}
		if want := strings.Join(sources, "; "); found["Source"] != want {
			t.Errorf("%s: the comment has the sources\n\t%s\nthe catalogue\n\t%s", p.Key, found["Source"], want)
		}
		for _, l := range lengths {
			if !strings.Contains(found["Evaluated over"], l) {
				t.Errorf("%s: the comment says %q of the length, the catalogue %q", p.Key, found["Evaluated over"], l)
			}
		}
		units := map[params.Unit][]string{
			params.Micrometre: {"that of z", "that of dx", "µm"}, params.Percent: {"%"}, params.None: {"none"},
			params.PerMillimetre: {"1/mm"}, params.PerCentimetre: {"1/10 mm"},
		}
		if !slices.ContainsFunc(units[p.Unit], func(s string) bool { return strings.HasPrefix(found["Unit"], s) }) {
			t.Errorf("%s: the comment has the unit %q, the catalogue %q", p.Key, found["Unit"], p.Unit)
		}
		if !strings.HasPrefix(found["Symbol"], p.Symbol) {
			t.Errorf("%s: the comment has the symbol %q, the catalogue %q", p.Key, found["Symbol"], p.Symbol)
		}
	}
}

// TestCatalogueAttached: the list of symbols and the catalogue have the same parameters in the same editions, with as
// many arguments.
func TestCatalogueAttached(t *testing.T) {
	type place struct {
		edition standards.EditionID
		key     string
	}
	listed := map[place]bool{}
	symbols := map[string]standards.Symbol{}
	for _, e := range standards.EditionIDs() {
		seen := map[byte]int{}
		for _, s := range standards.Symbols(e) {
			calls := params.Defaults(e, s.Letter) // in the same order
			key := calls[seen[s.Letter]].Parameter.Key
			seen[s.Letter]++
			listed[place{e, key}] = true
			symbols[key] = s
		}
	}
	for _, p := range params.Catalogue() {
		for _, m := range p.Meanings {
			for _, e := range m.Editions {
				if !listed[place{e, p.Key}] {
					t.Errorf("%s has a meaning in %s, where it has no symbol or a second meaning", p.Key, e)
				}
				delete(listed, place{e, p.Key})
			}
		}
		if s := symbols[p.Key]; len(p.Args) != s.Max {
			t.Errorf("%s has %d arguments, its symbol takes %d", p.Key, len(p.Args), s.Max)
		}
	}
	for at := range listed {
		t.Errorf("%s has a symbol in %s and no meaning", at.key, at.edition)
	}
}

// TestCatalogueComplete: no row lacks what a reader is promised.
func TestCatalogueComplete(t *testing.T) {
	for _, p := range params.Catalogue() {
		for what, s := range map[string]string{"name": p.Name, "group": p.Group, "letters": p.Letters, "formula": p.Formula, "sentence": p.Sentence, "blind": p.Blind} {
			if s == "" {
				t.Errorf("%s has no %s", p.Key, what)
			}
		}
		if p.Name != strings.ToLower(p.Name[:1])+p.Name[1:] || !strings.HasSuffix(p.Sentence, ".") || !strings.HasSuffix(p.Blind, ".") {
			t.Errorf("%s: name %q, sentence %q, blind %q", p.Key, p.Name, p.Sentence, p.Blind)
		}
		if p.Practice != "" && !strings.HasSuffix(p.Practice, ".") {
			t.Errorf("%s: practice %q", p.Key, p.Practice)
		}
		if len(p.Meanings) == 0 {
			t.Errorf("%s is in no edition", p.Key)
		}
		for _, m := range p.Meanings {
			if len(m.Refs) == 0 || len(m.Editions) == 0 {
				t.Errorf("%s has a meaning without source or edition", p.Key)
			}
			for _, r := range m.Refs {
				if r.Basis == "" {
					t.Errorf("%s: %s has no basis", p.Key, r)
				}
			}
			for _, e := range m.Editions {
				if !slices.Contains(standards.EditionIDs(), e) {
					t.Errorf("%s: there is no edition %s", p.Key, e)
				}
			}
		}
		for _, a := range p.Args {
			if a.Name == "" || a.Text == "" {
				t.Errorf("%s has an argument without name or text", p.Key)
			}
		}
	}
}
