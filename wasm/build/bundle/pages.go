package bundle

import (
	"bytes"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"text/template"
)

// Policy lets the page load its own files and run its own module, and nothing else: no other host, no inline script, no style attribute
// from markup, no form that is sent, no other base for its addresses, no plug-in. The pages state it, so that any server will do.
const Policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; img-src 'self' blob: data:; worker-src 'self' blob:; base-uri 'none'; form-action 'none'; object-src 'none'"

// A Sheet is one of the four pages of the pad.
type Sheet struct {
	File   string // in the page's folder; its body is in the folder sheets, its script in the folder of its own name
	Name   string // as the head of every page links to it
	Script string
}

// Sheets are the pages in the order of the links between them.
var Sheets = []Sheet{
	{"index.html", "Worksheet", "worksheet/main.js"},
	{"difference.html", "Difference", "difference/main.js"},
	{"study.html", "Study", "study/main.js"},
	{"check.html", "Instrument check", "check/main.js"},
}

const sources = "sheets" // where the frame and the bodies are

// assemble writes the pages: the frame around the body of each sheet.
func assemble(dir string) error {
	frame, err := template.ParseFiles(filepath.Join(dir, sources, "frame.html"))
	if err != nil {
		return err
	}
	styles, err := fs.Glob(os.DirFS(dir), "style/*.css")
	if err != nil {
		return err
	}
	slices.SortFunc(styles, func(a, b string) int { return order(a) - order(b) })
	for _, s := range Sheets {
		t, err := frame.Clone()
		if err != nil {
			return err
		}
		if _, err := t.ParseFiles(filepath.Join(dir, sources, s.File)); err != nil {
			return err
		}
		var page bytes.Buffer
		err = t.ExecuteTemplate(&page, "frame.html", struct {
			Sheet
			Policy string
			Styles []string
			Sheets []Sheet
		}{s, Policy, styles, Sheets})
		if err != nil {
			return err
		}
		if _, err := write(dir, s.File, page.Bytes()); err != nil {
			return err
		}
	}
	return nil
}

// order is the place of a style sheet in the cascade: the palette first, what is for phones and paper last.
func order(style string) int {
	return map[string]int{"tokens.css": -1, "pad.css": 1, "print.css": 2}[path.Base(style)]
}
