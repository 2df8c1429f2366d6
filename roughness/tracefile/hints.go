package tracefile

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"
)

// Hints answer what a file may leave open. The zero value answers nothing; columns, rows and lines count from 1.
type Hints struct {
	XUnit     string   `json:"x_unit,omitempty"`     // mm, µm, nm, m, in, µin ...
	ZUnit     string   `json:"z_unit,omitempty"`     // the same; for slopes µrad, mrad, rad, deg ...
	Decimal   string   `json:"decimal,omitempty"`    // "." or ","; the other mark is grouping then
	Delimiter string   `json:"delimiter,omitempty"`  // ",", ";", "\t", " " (a run of blanks) or another character
	XColumn   int      `json:"x_column,omitempty"`   //
	ZColumn   int      `json:"z_column,omitempty"`   //
	Spacing   float64  `json:"spacing,omitempty"`    // µm, whatever XUnit says
	SkipLines int      `json:"skip_lines,omitempty"` // lines at the top that are not looked at
	Missing   []string `json:"missing,omitempty"`    // further cells that mean an invalid point
	Heights   string   `json:"heights,omitempty"`    // "column" (default), "rows": every number is a height; "matrix"; "triples" x y z

	// For files that hold more than one trace, or something else than heights over x.
	Trace      int    `json:"trace,omitempty"`       // which of several traces
	Row        int    `json:"row,omitempty"`         // of a matrix, of triples or of an areal file: the profile along x
	Column     int    `json:"column,omitempty"`      // the same along y
	YColumn    int    `json:"y_column,omitempty"`    // of triples
	First      string `json:"first,omitempty"`       // what one column begins with: "spacing" (µm); "length-count" or "span-count" (mm, points)
	Integrate  bool   `json:"integrate,omitempty"`   // the z column holds slopes, to be integrated
	Resample   bool   `json:"resample,omitempty"`    // lay uneven x on an even grid by a natural cubic spline
	BlankLines string `json:"blank_lines,omitempty"` // "missing" (default in one column): an invalid point; "skip"
}

// ParseHints reads hints from JSON. A key that is none is refused by name. The error is an *Error with the place of the key or
// of the value.
func ParseHints(data []byte) (*Hints, error) {
	dec := json.NewDecoder(bytes.NewReader(data))
	if t, err := dec.Token(); err != nil {
		return nil, jsonError(data, dec.InputOffset(), err)
	} else if t != json.Delim('{') {
		return nil, jsonError(data, 0, errors.New("hints are a JSON object"))
	}
	h := &Hints{}
	fields := h.fields()
	seen := map[string]int64{} // where the value of each stands
	for dec.More() {
		at := next(data, dec.InputOffset())
		t, err := dec.Token()
		if err != nil {
			return nil, jsonError(data, at, err)
		}
		key := t.(string)
		target, ok := fields[key]
		_, twice := seen[key]
		switch {
		case !ok:
			return nil, jsonError(data, at, because(ErrHint, "%q is not a hint; the hints are %s", clip(key), strings.Join(keys(fields), ", ")))
		case twice:
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
		if err := json.Unmarshal(raw, target); err != nil {
			var te *json.UnmarshalTypeError
			if errors.As(err, &te) {
				err = because(ErrHint, "the hint %q cannot be a %s", key, te.Value)
			}
			return nil, jsonError(data, at, err)
		}
		switch v := target.(type) {
		case *int:
			if *v == 0 && key != "skip_lines" {
				return nil, jsonError(data, at, because(ErrHint, "the hint %q counts from 1", key))
			}
		case *float64:
			if *v == 0 {
				return nil, jsonError(data, at, because(ErrHint, "the hint %q is 0, which is not a length", key))
			}
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

func (h *Hints) fields() map[string]any {
	return map[string]any{
		"x_unit": &h.XUnit, "z_unit": &h.ZUnit, "decimal": &h.Decimal, "delimiter": &h.Delimiter,
		"x_column": &h.XColumn, "z_column": &h.ZColumn, "spacing": &h.Spacing, "skip_lines": &h.SkipLines,
		"missing": &h.Missing, "heights": &h.Heights,
		"trace": &h.Trace, "row": &h.Row, "column": &h.Column, "y_column": &h.YColumn, "first": &h.First,
		"integrate": &h.Integrate, "resample": &h.Resample, "blank_lines": &h.BlankLines,
	}
}

func keys(m map[string]any) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// jsonError gives a place in the hints themselves.
func jsonError(data []byte, at int64, err error) error {
	var se *json.SyntaxError
	if errors.As(err, &se) {
		at = max(se.Offset-1, 0)
	}
	at = min(at, int64(len(data)))
	line := 1 + bytes.Count(data[:at], []byte("\n"))
	column := 1 + utf8.RuneCount(data[bytes.LastIndexByte(data[:at], '\n')+1:at])
	if !errors.Is(err, ErrHint) {
		err = because(ErrHint, "hints: %v", err)
	}
	return &Error{Line: line, Column: column, Err: err}
}

// check holds the values against what they may be, and returns the key of the first that is none of them.
func (h *Hints) check() (key string, err error) {
	bad := func(key, format string, args ...any) (string, error) {
		return key, because(ErrHint, "hint %q: %s", key, fmt.Sprintf(format, args...))
	}
	if h.XUnit != "" {
		if u, ok := parseUnit(h.XUnit); !ok || u.slope {
			return bad("x_unit", "%q is not a unit of length known here (mm, µm, nm, m, in, µin ...)", clip(h.XUnit))
		}
	}
	if h.ZUnit != "" {
		if _, ok := parseUnit(h.ZUnit); !ok {
			return bad("z_unit", "%q is not a unit known here (mm, µm, nm, m, in, µin ...)", clip(h.ZUnit))
		}
	}
	if h.Decimal != "" && h.Decimal != "." && h.Decimal != "," {
		return bad("decimal", "%q is neither \".\" nor \",\"", clip(h.Decimal))
	}
	if h.Delimiter != "" {
		if _, ok := delimiterByte(h.Delimiter); !ok {
			return bad("delimiter", "%q cannot separate cells", clip(h.Delimiter))
		}
	}
	if most := 100; len(h.Missing) > most {
		return bad("missing", "%d cells; the limit is %d", len(h.Missing), most)
	}
	if h.Spacing < 0 || math.IsNaN(h.Spacing) || math.IsInf(h.Spacing, 0) {
		return bad("spacing", "%g is not a length above 0", h.Spacing)
	}
	for _, c := range []struct {
		key string
		v   int
	}{{"x_column", h.XColumn}, {"z_column", h.ZColumn}, {"y_column", h.YColumn}, {"skip_lines", h.SkipLines},
		{"trace", h.Trace}, {"row", h.Row}, {"column", h.Column}} {
		if c.v < 0 {
			return bad(c.key, "%d is below 0", c.v)
		}
	}
	if h.XColumn > 0 && h.XColumn == h.ZColumn {
		return bad("z_column", "x and z cannot both be column %d", h.ZColumn)
	}
	if h.YColumn > 0 && (h.YColumn == h.ZColumn || h.YColumn == h.XColumn) {
		return bad("y_column", "column %d cannot hold two things", h.YColumn)
	}
	if h.Row > 0 && h.Column > 0 {
		return bad("row", "a profile is a row or a column, not both")
	}
	for _, c := range []struct{ key, v, list string }{
		{"heights", h.Heights, "column rows matrix triples"},
		{"first", h.First, "spacing length-count span-count"},
		{"blank_lines", h.BlankLines, "missing skip"},
	} {
		if c.v != "" && !slices.Contains(strings.Fields(c.list), c.v) {
			return bad(c.key, "%q is none of %s", clip(c.v), strings.ReplaceAll(c.list, " ", ", "))
		}
	}
	return "", nil
}

// unused notes the hints that say nothing about a file of a format that says all by itself.
func (t *Trace) unused(h *Hints) {
	var without []string
	for _, c := range []struct {
		key string
		set bool
	}{
		{"x_unit", h.XUnit != ""}, {"z_unit", h.ZUnit != ""}, {"decimal", h.Decimal != ""}, {"delimiter", h.Delimiter != ""},
		{"x_column", h.XColumn > 0}, {"y_column", h.YColumn > 0}, {"z_column", h.ZColumn > 0}, {"skip_lines", h.SkipLines > 0},
		{"missing", len(h.Missing) > 0}, {"heights", h.Heights != ""}, {"first", h.First != ""}, {"integrate", h.Integrate},
		{"blank_lines", h.BlankLines != ""},
		{"spacing", h.Spacing > 0 && t.Report.SpacingBy != "hint spacing" && t.Report.SpacingBy != "resampled"},
		{"resample", h.Resample && t.Report.SpacingBy != "resampled"},
	} {
		if c.set {
			without = append(without, c.key)
		}
	}
	if len(without) > 0 {
		t.note("hints-unused", fmt.Sprintf("The file says itself how it is to be read. These hints were not used: %s.", strings.Join(without, ", ")))
	}
}

// delimiterByte takes the hint as a character or as its name.
func delimiterByte(s string) (byte, bool) {
	switch strings.ToLower(s) {
	case "tab", "\t":
		return '\t', true
	case "blank", "blanks", "space", "spaces", " ", "whitespace":
		return ' ', true
	case "comma":
		return ',', true
	case "semicolon":
		return ';', true
	}
	if len(s) != 1 || s[0] < ' ' || s[0] > '~' || strings.ContainsAny(s, "0123456789.+-\"#") ||
		s[0] >= 'A' && s[0] <= 'Z' || s[0] >= 'a' && s[0] <= 'z' {
		return 0, false
	}
	return s[0], true
}

// delimiterName is the word a report uses.
func delimiterName(d byte) string {
	switch d {
	case '\t':
		return "tab"
	case ' ':
		return "blanks"
	case ',':
		return "comma"
	case ';':
		return "semicolon"
	}
	return string(d)
}
