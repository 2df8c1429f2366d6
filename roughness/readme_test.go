package roughness_test

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

var update = flag.Bool("update", false, "rewrite the tables of README.md")

// The table of README is made from the catalogue.
func TestReadmeTables(t *testing.T) {
	const name = "../README.md"
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, table := range []struct{ marker, body string }{
		{"<!-- catalogue: ", catalogueTable()},
	} {
		start := strings.Index(text, table.marker)
		if start < 0 {
			t.Fatalf("README has no %s", table.marker)
		}
		start += strings.Index(text[start:], "\n") + 1
		end := start + strings.Index(text[start:], "<!-- end -->")
		if text[start:end] == table.body {
			continue
		}
		if !*update {
			t.Errorf("the table after %q is out of date: go test ./roughness -run Readme -update", table.marker)
			continue
		}
		text = text[:start] + table.body + text[end:]
	}
	if *update {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func catalogueTable() string {
	var b strings.Builder
	bases := map[standards.Basis]int{}
	rows := params.Catalogue()
	for _, p := range rows {
		for _, m := range p.Meanings {
			for _, r := range m.Refs {
				bases[r.Basis]++
			}
		}
	}
	fmt.Fprintf(&b, "%d parameters. The basis of their references:", len(rows))
	for i, basis := range []standards.Basis{standards.TextRead, standards.Excerpt, standards.Trade, standards.Memory, standards.OwnChoice} {
		if i > 0 {
			b.WriteString(",")
		}
		fmt.Fprintf(&b, " %s %d", basis, bases[basis])
	}
	b.WriteString(".\n\n| symbol | name | profiles | unit | editions | source (basis) |\n|---|---|---|---|---|---|\n")
	for _, p := range rows {
		var editions, symbols []string
		source := ""
		for i, m := range p.Meanings {
			for _, e := range m.Editions {
				editions = append(editions, string(e))
				for _, s := range standards.Symbols(e) {
					if s.Key == p.Key && (s.Letter == 'R' || p.Letters == string(rune(s.Letter))) && s.Name != p.Symbol && !slices.Contains(symbols, s.Name) {
						symbols = append(symbols, s.Name)
					}
				}
			}
			if i == 0 && len(m.Refs) > 0 {
				source = m.Refs[0].String() + " (" + string(m.Refs[0].Basis) + ")"
			}
		}
		symbol := p.Notation()
		if len(symbols) > 0 {
			symbol += "; also " + strings.Join(symbols, ", ")
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s |\n", symbol, p.Name, strings.Join(strings.Split(p.Letters, ""), " "), p.Unit, strings.Join(editions, ", "), source)
	}
	return b.String()
}
