package main

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/furrow/params"
)

var update = flag.Bool("update", false, "rewrite the union of symbols in page/furrow.d.ts")

const (
	symbolsBegin = "// symbols: made by go test ./wasm -run TestSymbolUnion -update\n"
	symbolsEnd   = "// end of symbols\n"
)

// The union of symbols in the declaration for scripts is that of the catalogue.
func TestSymbolUnion(t *testing.T) {
	name := filepath.Join("page", "furrow.d.ts")
	text := readText(t, name)
	before, rest, begun := strings.Cut(text, symbolsBegin)
	union, after, ended := strings.Cut(rest, symbolsEnd)
	if !begun || !ended {
		t.Fatalf("%s has no union between %q and %q", name, symbolsBegin, symbolsEnd)
	}
	want := symbolUnion()
	if union == want {
		return
	}
	if !*update {
		t.Fatalf("%s is out of date: go test ./wasm -run TestSymbolUnion -update\nit has\n%swant\n%s", name, union, want)
	}
	if err := os.WriteFile(name, []byte(before+symbolsBegin+want+symbolsEnd+after), 0o644); err != nil {
		t.Fatal(err)
	}
}

// symbolUnion declares the symbols of the catalogue in its order, each once: two editions may mean different things by one.
func symbolUnion() string {
	var symbols []string
	for _, p := range params.Catalogue() {
		if !slices.Contains(symbols, p.Symbol) {
			symbols = append(symbols, p.Symbol)
		}
	}
	var b strings.Builder
	b.WriteString("/** Symbols of the catalogue, with R for the letter of the profile and without arguments. */\nexport type ParameterSymbol =")
	width := 1000
	for _, s := range symbols {
		item := " | '" + s + "'"
		if n := utf8.RuneCountInString(item); width+n > 118 {
			b.WriteString("\n ")
			width = 1
		}
		b.WriteString(item)
		width += utf8.RuneCountInString(item)
	}
	b.WriteString(";\n")
	return b.String()
}
