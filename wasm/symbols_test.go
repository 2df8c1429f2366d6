package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/standards"
)

var update = flag.Bool("update", false, "rewrite what page/furrow.d.ts repeats of the library")

// What the declaration for scripts repeats of the library is made from it.
func TestDeclarations(t *testing.T) {
	name := filepath.Join("page", "furrow.d.ts")
	for _, part := range []struct {
		begin, end, want string
	}{
		{"// symbols: made by go test ./wasm -run TestDeclarations -update\n", "// end of symbols\n", symbolUnion()},
		{"// filter: made by go test ./wasm -run TestDeclarations -update\n", "// end of filter\n", bandDeclaration()},
		{"// settings: made by go test ./wasm -run TestDeclarations -update\n", "// end of settings\n", settingsDeclaration()},
	} {
		text := readText(t, name)
		before, rest, begun := strings.Cut(text, part.begin)
		has, after, ended := strings.Cut(rest, part.end)
		if !begun || !ended {
			t.Fatalf("%s has nothing between %q and %q", name, part.begin, part.end)
		}
		if has == part.want {
			continue
		}
		if !*update {
			t.Errorf("%s is out of date: go test ./wasm -run TestDeclarations -update\nit has\n%swant\n%s", name, has, part.want)
			continue
		}
		if err := os.WriteFile(name, []byte(before+part.begin+part.want+part.end+after), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// bandDeclaration declares a filter as settings state it.
func bandDeclaration() string {
	var keys []string
	for _, f := range filter.All() {
		keys = append(keys, "'"+f.Key+"'")
	}
	text := "/** A filter as settings state it: one of " + strings.Join(keys, ", ") + ". */\nexport interface Band {\n  filter?: string;\n"
	for _, o := range filter.Options() {
		kind, says := "number", o.Says
		if o.Word {
			kind = "string"
		} else {
			says += ": " + o.Range()
		}
		text += "  /** " + says + " */\n  " + o.Key + "?: " + kind + ";\n"
	}
	return text + "}\n"
}

// settingsDeclaration declares a settings file, by the table of settings.
func settingsDeclaration() string {
	text := "/** A settings file. Every key is optional; an unknown one is refused by name. */\nexport interface Settings {\n  furrow_settings?: number;\n"
	var choices []string
	for _, row := range roughness.Table() {
		object, key, nested := strings.Cut(row.Key, ".")
		if object == "choices" {
			choices = append(choices, key+" ('"+strings.Join(row.Words, "', '")+"')")
			continue
		}
		if choices != nil {
			text += "  /** Switches where the text of a standard leaves room: " + strings.Join(choices, ", ") + ". */\n  choices?: Record<string, string>;\n"
			choices = nil
		}
		kind := kindOf(row.At(&roughness.Settings{}))
		if row.Null {
			kind += " | null"
		}
		if nested {
			kind = "{ " + key + ": " + kind + " }"
		}
		says := row.Says
		if row.Free {
			says = "one of '" + strings.Join(row.Words, "', '") + "'"
		}
		if says != "" {
			text += "  /** " + strings.ToUpper(says[:1]) + says[1:] + ". */\n"
		}
		text += "  " + object + "?: " + kind + ";\n"
	}
	return text + "}\n"
}

// kindOf is the type of a setting in a script.
func kindOf(at any) string {
	switch at.(type) {
	case *string, *standards.EditionID:
		return "string"
	case *roughness.Letter:
		return "Letter"
	case *roughness.Heights:
		return "Input"
	case *bool:
		return "boolean"
	case *int, *float64, **float64:
		return "number"
	case *[2]float64:
		return "[number, number]"
	case *[]roughness.Exclusion:
		return "Exclusion[]"
	case *roughness.FormSpec:
		return "Form"
	case *roughness.Band:
		return "Band | null"
	case *[]string:
		return "string[]"
	}
	panic(fmt.Sprintf("a setting of a kind that the declaration does not know: %T", at))
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
