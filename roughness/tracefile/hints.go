package tracefile

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"unicode"
)

// Hints answer what a file may leave open. The zero value answers nothing; columns, rows and lines count from 1.
type Hints struct {
	XUnit     string   `json:"x_unit,omitempty"`            // unit of x, such as mm, µm, nm, m, in or µin
	ZUnit     string   `json:"z_unit,omitempty"`            // unit of the heights, the same; of slopes such as µrad, mrad, rad or deg
	Decimal   string   `json:"decimal,omitempty" one:". ,"` // decimal mark; the other mark between groups of three digits is grouping then
	Delimiter string   `json:"delimiter,omitempty"`         // what parts the cells: one character, or comma, semicolon, tab, blank (a run of them)
	XColumn   int      `json:"x_column,omitempty"`          // column of x
	YColumn   int      `json:"y_column,omitempty"`          // column of y, in triples
	ZColumn   int      `json:"z_column,omitempty"`          // column of the heights
	SkipLines int      `json:"skip_lines,omitempty"`        // lines at the top that are not looked at
	Missing   []string `json:"missing,omitempty"`           // further cells that mean an invalid point

	// how the heights stand: in a column, when not given; rows: every number, row by row, is a height; matrix: a table of heights; triples: x y z
	Heights string `json:"heights,omitempty" one:"column rows matrix triples"`
	// what a single column begins with: the spacing in µm; or the length in mm (count times or count less one times the spacing) and the count
	First     string `json:"first,omitempty" one:"spacing length-count span-count"`
	Integrate bool   `json:"integrate,omitempty"` // the z column holds slopes, to be integrated
	// what a blank line in a single column is; missing, an invalid point, when not given
	BlankLines string `json:"blank_lines,omitempty" one:"missing skip"`

	// For files of every format: those that hold more than one trace, or an area.

	Spacing  float64 `json:"spacing,omitempty"`  // distance between points in µm, whatever x_unit says
	Resample bool    `json:"resample,omitempty"` // lay uneven x on an even grid by a natural cubic spline
	Trace    int     `json:"trace,omitempty"`    // which of several traces
	Row      int     `json:"row,omitempty"`      // of a matrix, of triples or of an areal file: the profile along x
	Column   int     `json:"column,omitempty"`   // the same along y
}

// ParseHints reads hints from JSON. A key that is none is refused by name. The error is an *Error with the place of the key or
// of the value.
func ParseHints(data []byte) (*Hints, error) {
	dec := json.NewDecoder(bytes.NewReader(data))
	h := &Hints{}
	all := h.all()
	seen := map[string]int64{} // where the value of each stands
	if t, err := dec.Token(); err != nil {
		return nil, jsonError(data, dec.InputOffset(), err)
	} else if t != json.Delim('{') {
		return nil, jsonError(data, 0, errors.New("hints are a JSON object"))
	}
	for dec.More() {
		at := next(data, dec.InputOffset())
		t, err := dec.Token()
		if err != nil {
			return nil, jsonError(data, at, err)
		}
		key := t.(string)
		i := slices.IndexFunc(all, func(h hint) bool { return h.key == key })
		if i < 0 {
			var keys []string
			for _, h := range all {
				keys = append(keys, h.key)
			}
			slices.Sort(keys)
			return nil, jsonError(data, at, because(ErrHint, "%q is not a hint; the hints are %s", clip(key), strings.Join(keys, ", ")))
		}
		if _, twice := seen[key]; twice {
			return nil, jsonError(data, at, because(ErrHint, "the hint %q is given twice", key))
		}
		at = next(data, dec.InputOffset())
		seen[key] = at
		var raw json.RawMessage
		if err := dec.Decode(&raw); err != nil {
			return nil, jsonError(data, at, err)
		}
		if string(raw) == "null" {
			continue // as if it were not there
		}
		value := all[i].value
		if err := json.Unmarshal(raw, value.Addr().Interface()); err != nil {
			if te, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
				err = because(ErrHint, "the hint %q cannot be a %s", key, te.Value)
			}
			return nil, jsonError(data, at, err)
		}
		switch {
		case value.CanInt() && value.IsZero() && key != "skip_lines":
			return nil, jsonError(data, at, because(ErrHint, "the hint %q counts from 1", key))
		case value.CanFloat() && value.IsZero():
			return nil, jsonError(data, at, because(ErrHint, "the hint %q is 0, which is not a length", key))
		}
	}
	if _, err := dec.Token(); err != nil {
		return nil, jsonError(data, dec.InputOffset(), err)
	}
	if dec.More() {
		return nil, jsonError(data, next(data, dec.InputOffset()), errors.New("there is something after the hints"))
	}
	if key, err := h.check(); err != nil {
		return nil, jsonError(data, seen[key], err)
	}
	return h, nil
}

// next is where the next token of JSON begins.
func next(data []byte, at int64) int64 {
	for at < int64(len(data)) && bytes.IndexByte([]byte(" \t\r\n,:"), data[at]) >= 0 {
		at++
	}
	return at
}

// jsonError gives a place in the hints themselves.
func jsonError(data []byte, at int64, err error) error {
	if se, ok := errors.AsType[*json.SyntaxError](err); ok {
		at = max(se.Offset-1, 0)
	}
	if !errors.Is(err, ErrHint) {
		err = because(ErrHint, "hints: %v", err)
	}
	return (&decoded{data: data}).errorAt(int(at), err)
}

// hint is one of the hints.
type hint struct {
	key   string
	value reflect.Value
	words []string // those that it may be, where it may not be all
}

// all is the list of the hints, as the type has them.
func (h *Hints) all() []hint {
	v := reflect.ValueOf(h).Elem()
	var all []hint
	for i := range v.NumField() {
		tag := v.Type().Field(i).Tag
		key, _, _ := strings.Cut(tag.Get("json"), ",")
		all = append(all, hint{key, v.Field(i), strings.Fields(tag.Get("one"))})
	}
	return all
}

// check holds the values against what they may be, and returns the key of the first that is none of them.
func (h *Hints) check() (key string, err error) {
	x, okX := parseUnit(h.XUnit)
	_, okZ := parseUnit(h.ZUnit)
	_, okDelimiter := delimiterByte(h.Delimiter)
	for _, c := range []struct {
		key  string
		bad  bool
		text string
		args []any
	}{
		{"x_unit", h.XUnit != "" && (!okX || x.slope), "%q is not a unit of length known here (mm, µm, nm, m, in, µin ...)", []any{clip(h.XUnit)}},
		{"z_unit", h.ZUnit != "" && !okZ, "%q is not a unit known here (mm, µm, nm, m, in, µin ...)", []any{clip(h.ZUnit)}},
		{"decimal", h.Decimal != "" && h.Decimal != "." && h.Decimal != ",", "%q is neither \".\" nor \",\"", []any{clip(h.Decimal)}},
		{"delimiter", h.Delimiter != "" && !okDelimiter, "%q cannot separate cells", []any{clip(h.Delimiter)}},
		{"missing", len(h.Missing) > mostMissing, "%d cells; the limit is %d", []any{len(h.Missing), mostMissing}},
		{"spacing", !(h.Spacing >= 0) || math.IsInf(h.Spacing, 0), "%g is not a length above 0", []any{h.Spacing}},
		{"z_column", h.XColumn > 0 && h.XColumn == h.ZColumn, "x and z cannot both be column %d", []any{h.ZColumn}},
		{"y_column", h.YColumn > 0 && (h.YColumn == h.ZColumn || h.YColumn == h.XColumn), "column %d cannot hold two things", []any{h.YColumn}},
		{"row", h.Row > 0 && h.Column > 0, "a profile is a row or a column, not both", nil},
	} {
		if c.bad {
			return c.key, because(ErrHint, "hint %q: "+c.text, append([]any{c.key}, c.args...)...)
		}
	}
	for _, one := range h.all() {
		switch v := one.value; {
		case v.CanInt() && v.Int() < 0:
			return one.key, because(ErrHint, "hint %q: %d is below 0", one.key, v.Int())
		case len(one.words) > 0 && !v.IsZero() && !slices.Contains(one.words, v.String()):
			return one.key, because(ErrHint, "hint %q: %q is none of %s", one.key, clip(v.String()), strings.Join(one.words, ", "))
		}
	}
	return "", nil
}

// beyond is the error of a row or column of an area that is asked for and that it does not have.
func (h *Hints) beyond(rows, columns int, area string) error {
	for _, c := range []struct {
		key       string
		want, has int
	}{{"row", h.Row, rows}, {"column", h.Column, columns}} {
		if c.want > c.has {
			return because(ErrHint, "hint %q: %d is asked for and the %s has %d", c.key, c.want, area, c.has)
		}
	}
	return nil
}

// mostMissing bounds the further cells that mean an invalid point.
const mostMissing = 100

// unused notes the hints that say nothing about a file of a format that says all by itself.
func (t *Trace) unused(h *Hints) {
	by := t.Report.SpacingBy
	used := map[string]bool{"spacing": by == "hint spacing" || by == "resampled", "resample": by == "resampled", "trace": true, "row": true, "column": true}
	var without []string
	for _, one := range h.all() {
		if v := one.value; !used[one.key] && !v.IsZero() && (v.Kind() != reflect.Slice || v.Len() > 0) {
			without = append(without, one.key)
		}
	}
	if len(without) > 0 {
		t.note("hints-unused", "The file says itself how it is to be read. These hints were not used: %s.", strings.Join(without, ", "))
	}
}

// delimiterNames are the words that a hint may use; the first one of each is that of a report.
var delimiterNames = map[byte]string{'\t': "tab", ' ': "blanks blank space spaces whitespace", ',': "comma", ';': "semicolon"}

// delimiterByte takes the hint as a character or as its name.
func delimiterByte(s string) (byte, bool) {
	for d, names := range delimiterNames {
		if s == string(d) || slices.Contains(strings.Fields(names), strings.ToLower(s)) {
			return d, true
		}
	}
	if len(s) != 1 || s[0] < ' ' || s[0] > '~' || strings.ContainsAny(s, "0123456789.+-\"#") || unicode.IsLetter(rune(s[0])) {
		return 0, false
	}
	return s[0], true
}

// delimiterName is the word a report uses.
func delimiterName(d byte) string {
	if name, _, _ := strings.Cut(delimiterNames[d], " "); name != "" {
		return name
	}
	return string(d)
}
