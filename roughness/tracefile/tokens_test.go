package tracefile

import (
	"math"
	"slices"
	"testing"
)

// The first pass alone: cells, where they stand, and what is empty or open.
func TestCut(t *testing.T) {
	for _, c := range []struct {
		text      string
		delimiter byte
		cells     []string
		at        []int
		tail      int
		open      bool
	}{
		{"1;2", ';', []string{"1", "2"}, []int{0, 2}, 0, false},
		{" 1 ; 2 ;", ';', []string{"1", "2", ""}, []int{1, 5, 8}, 1, false},
		{"", ';', []string{""}, []int{0}, 1, false},
		{"  ", ' ', nil, nil, 0, false},
		{" 1 \t 2  ", ' ', []string{"1", "2"}, []int{1, 5}, 0, false},
		{"1\t\t2", '\t', []string{"1", "", "2"}, []int{0, 2, 3}, 0, false},
		{`"a;b" ;2`, ';', []string{"a;b", "2"}, []int{0, 7}, 0, false},
		{`"a""b";2`, ';', []string{`a""b`, "2"}, []int{0, 7}, 0, false},
		{`"1;5"x;2`, ';', []string{`"1;5"x`, "2"}, []int{0, 7}, 0, false},
		{`1;"a;2`, ';', []string{"1", "a;2"}, []int{0, 2}, 0, true},
		{"\u00a01\u00a0;2", ';', []string{"1", "2"}, []int{0, 6}, 0, false},
	} {
		r := &reader{}
		got := r.cut([]byte(c.text), c.delimiter)
		var cells []string
		var at []int
		for _, one := range got.cells {
			cells, at = append(cells, string(one.of(got.text))), append(at, one.at)
		}
		if !slices.Equal(cells, c.cells) || !slices.Equal(at, c.at) || got.n != len(c.cells) || got.tail != c.tail || got.open != c.open {
			t.Errorf("%q at %q: %q at %v, %d cells, %d empty, open %v", c.text, c.delimiter, cells, at, got.n, got.tail, got.open)
		}
	}
}

// The second pass alone: what a cell is, and what a line is.
func TestTyped(t *testing.T) {
	r := &reader{named: nothing, header: &header{}, absent: newAbsent([]string{"lost"}, grammar{decimal: ','})}
	l := &layout{delimiter: ';', grammar: grammar{decimal: ',', group: '.'}, cells: 3}
	got := r.typed([]byte("1.234,5;lost;1.5;#N/A;-2e1"), l)
	for i, want := range []struct {
		kind  kind
		value float64
	}{{counted, 1234.5}, {missing, math.NaN()}, {strange, math.NaN()}, {missing, math.NaN()}, {counted, -20}} {
		if c := got.cells[i]; c.kind != want.kind || math.Float64bits(c.value) != math.Float64bits(want.value) {
			t.Errorf("cell %d: kind %d, value %v", i+1, c.kind, c.value)
		}
	}
	for line, want := range map[string]lineKind{"1;2;3": row, "1;;nan": row, ";;": blankLine, " ": blankLine, "# 1;2;3": remark,
		"#N/A;1;2": row, "1;a;3": other, `1;"2;3`: other} {
		if kind, _ := r.look([]byte(line), l); kind != want {
			t.Errorf("%q: kind %d, want %d", line, kind, want)
		}
	}
}
