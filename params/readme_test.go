package params_test

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

var updateReadme = flag.Bool("update-readme", false, "write README.md anew")

// TestReadme: README.md is what the catalogue makes. Written anew by go test ./params -run Readme -update-readme.
func TestReadme(t *testing.T) {
	_, files, err := functions()
	if err != nil {
		t.Fatal(err)
	}
	want := readme(files)
	if *updateReadme {
		if err := os.WriteFile("README.md", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	have, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	if string(have) != want {
		t.Error("README.md is not what the catalogue makes: go test ./params -run Readme -update-readme")
	}
}

// readme makes the tables; files says where each row stands.
func readme(files map[string]string) string {
	var b strings.Builder
	rows := params.Catalogue()
	bases := map[standards.Basis]int{}
	for _, p := range rows {
		for _, m := range p.Meanings {
			for _, r := range m.Refs {
				bases[r.Basis]++
			}
		}
	}
	fmt.Fprintf(&b, `# The parameters

Made from the catalogue by `+"`go test ./params -run Readme -update-readme`"+`. The file holds the definition, the mathematics and the
construction; [doc.go](doc.go) says which file for each clause.

%d parameters. An edition that calls one of them by another name has it as a meaning of the same row: the names stand behind "also".
The source is that of the newest edition, with what our knowledge of it rests on. The basis of all references:`, len(rows))
	for i, basis := range []standards.Basis{standards.TextRead, standards.Excerpt, standards.Trade, standards.Memory, standards.OwnChoice} {
		if i > 0 {
			b.WriteString(",")
		}
		fmt.Fprintf(&b, " %s %d", basis, bases[basis])
	}
	b.WriteString(".\n")
	group := ""
	for _, p := range rows {
		if p.Group != group {
			group = p.Group
			fmt.Fprintf(&b, "\n## %s\n\n| symbol | name | profiles | unit | editions | source (basis) | file |\n|---|---|---|---|---|---|---|\n", group)
		}
		var editions []string
		for _, m := range p.Meanings {
			for _, e := range m.Editions {
				editions = append(editions, string(e))
			}
		}
		symbol := p.Notation()
		if also := otherNames(p); len(also) > 0 {
			symbol += "; also " + strings.Join(also, ", ")
		}
		source := p.Meanings[0].Refs[0]
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s (%s) | [%s](%[8]s) |\n", symbol, p.Name, strings.Join(strings.Split(p.Letters, ""), " "), p.Unit, strings.Join(editions, ", "), source, source.Basis, files[p.Key])
	}
	return b.String()
}

// otherNames are the further spellings of a parameter on the roughness profile, or on its only one.
func otherNames(p params.Parameter) (names []string) {
	for _, edition := range standards.EditionIDs() {
		for _, letter := range []byte("PRW") {
			for _, c := range params.Defaults(edition, letter) {
				name, _, _ := strings.Cut(c.String(), "(")
				if c.Parameter.Key == p.Key && (letter == 'R' || p.Letters == string(rune(letter))) && name != p.Symbol && !slices.Contains(names, name) {
					names = append(names, name)
				}
			}
		}
	}
	return names
}
