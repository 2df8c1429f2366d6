package tracefile_test

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

const formats = "../../testdata/formats/"

var sentinels = map[string]error{"uneven": tracefile.ErrUneven, "repeated": tracefile.ErrRepeated, "turns": tracefile.ErrTurns,
	"number": tracefile.ErrNumber, "cells": tracefile.ErrCells}

// zooEntry is one line of key.json: a file and what reading it must give.
type zooEntry struct {
	File    string
	Hints   json.RawMessage
	Ask     []string
	Error   string
	Line    int
	Column  int
	Spacing float64
	Z       []*float64
}

func zoo(t testing.TB) []zooEntry {
	t.Helper()
	text, err := os.ReadFile(filepath.FromSlash(formats + "key.json"))
	if err != nil {
		t.Fatal(err)
	}
	var key []zooEntry
	if err := json.Unmarshal(text, &key); err != nil {
		t.Fatal(err)
	}
	return key
}

// Every way in which text files differ has a file of its own in testdata/formats/text; its script make.py wrote the key with it.
func TestTextZoo(t *testing.T) {
	for _, c := range zoo(t) {
		t.Run(c.File, func(t *testing.T) {
			data, err := os.ReadFile(filepath.FromSlash(formats + "text/" + c.File))
			if err != nil {
				t.Fatal(err)
			}
			var hints *tracefile.Hints
			if c.Hints != nil {
				if hints, err = tracefile.ParseHints(c.Hints); err != nil {
					t.Fatal(err)
				}
			}
			trace, err := tracefile.Read(data, hints)
			switch {
			case c.Ask != nil:
				var got []string
				for _, q := range tracefile.IsQuestion(err) {
					got = append(got, q.Hint)
				}
				if !slices.Equal(got, c.Ask) {
					t.Errorf("asks for %q, want %q (%v)", got, c.Ask, err)
				}
				return
			case c.Error != "":
				var e *tracefile.Error
				if !errors.As(err, &e) || !errors.Is(err, sentinels[c.Error]) || e.Line != c.Line || e.Column != c.Column {
					t.Errorf("got %v, want %s at %d:%d", err, c.Error, c.Line, c.Column)
				}
				return
			case err != nil:
				t.Fatal(err)
			}
			p := trace.Profile
			if len(p.Z) != len(c.Z) || math.Abs(p.Spacing-c.Spacing) > 1e-12*c.Spacing {
				t.Fatalf("%d points at %v, want %d at %v\n%s", len(p.Z), p.Spacing, len(c.Z), c.Spacing, trace.Report)
			}
			invalid := 0
			for i, want := range c.Z {
				switch {
				case want == nil:
					invalid++
					if !math.IsNaN(p.Z[i]) {
						t.Errorf("point %d: %v, want none", i, p.Z[i])
					}
				case !(math.Abs(p.Z[i]-*want) <= 1e-14*(1+math.Abs(*want))):
					t.Fatalf("point %d: %v, want %v", i, p.Z[i], *want)
				}
			}
			if trace.Report.Invalid != invalid || trace.Report.Points != len(c.Z) {
				t.Errorf("the report says %d points, %d invalid", trace.Report.Points, trace.Report.Invalid)
			}
		})
	}
}
