package tracefile

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"example.com/furrow/roughness"
)

// Trace is a profile with the story of how it was read.
type Trace struct {
	Profile roughness.Profile
	Origin  float64 // x of the first point as the file counts it, µm
	Report  Report
	Notes   []roughness.Note
	Fields  []Field // what the file says beside the trace, as it stands

	above  []string  // lines above the rows of a text
	stored []float64 // heights as an X3P file stores them, in metres, so that writing them again keeps every bit
}

// Field is a line of a file that furrow keeps as it stands.
type Field struct{ Key, Value string }

// Said are the lines in which the file says more than the heights: those above the rows of a text, without the marks of a remark, or what it
// says beside the trace, as "key = value". A later trace of a file has none.
func (t *Trace) Said() []string {
	lines := t.above
	for _, f := range t.Fields {
		lines = append(lines, f.Key+" = "+f.Value)
	}
	return lines
}

// Read reads one trace. What kind of file it is shows in its content, never in its name. hints may be nil.
//
// A file that can be read in more than one way is an error that wraps [Questions]; a file that cannot be read is an *[Error]
// with its place. data is only read, and the trace shares no memory with it; calls may run at the same time.
func Read(data []byte, hints *Hints) (*Trace, error) {
	return read(context.Background(), data, hints, nil)
}

// Decode reads one trace from a stream, as [Read] does from memory: up to [MaxSize] bytes of it, as [Load] takes them. It stops when ctx is
// done, with the error of ctx, and calls progress from time to time with how many bytes of how many are read. hints and progress may
// be nil.
func Decode(ctx context.Context, r io.Reader, hints *Hints, progress func(done, total int)) (*Trace, error) {
	data, err := Load(r)
	if err != nil {
		return nil, err
	}
	return read(ctx, data, hints, progress)
}

func read(ctx context.Context, data []byte, hints *Hints, progress func(done, total int)) (*Trace, error) {
	if hints == nil {
		hints = &Hints{}
	}
	if _, err := hints.check(); err != nil {
		return nil, &Error{Err: err}
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if err := CheckSize(int64(len(data))); err != nil {
		return nil, err
	}
	body := bytes.TrimPrefix(data, []byte(byteOrder))
	var format func(context.Context, []byte, *Hints) (*Trace, error) // one that holds one trace or one surface
	switch {
	case bytes.HasPrefix(data, []byte("PK\x03\x04")):
		format = readX3P
	case isSDF(body):
		format = readSDF
	case isSMD(body):
		format = readSMD
	default:
		if err := foreignFile(data); err != nil {
			return nil, err
		}
		return readText(ctx, data, hints, progress)
	}
	if hints.Trace > 1 {
		return nil, &Error{Err: noTrace(1)}
	}
	t, err := format(ctx, body, hints)
	if err == nil {
		t.traced()
		t.unused(hints)
	}
	return t, err
}

// ReadAll reads every trace of a file that may hold several, 1000 of them at most. With the hint "trace" it reads that one.
func ReadAll(data []byte, hints *Hints) ([]*Trace, error) {
	h := Hints{}
	if hints != nil {
		h = *hints
	}
	one := h.Trace > 0
	var all []*Trace
	for h.Trace = max(h.Trace, 1); ; h.Trace++ {
		t, err := Read(data, &h)
		switch {
		case err != nil && len(all) > 0 && errors.Is(err, errNoTrace):
			return all, nil
		case err != nil:
			return nil, err
		case len(all) == maxTraces:
			return nil, &Error{Err: because(ErrLimit, "the file holds more than %d traces", maxTraces)}
		}
		if all = append(all, t); one {
			return all, nil
		}
	}
}

// maxTraces bounds what ReadAll returns, for it reads the file again for each.
const maxTraces = 1000

// errNoTrace is the end of the traces of a file.
var errNoTrace = errors.New("no such trace in the file")

func noTrace(has int) error {
	return because(errNoTrace, "hint \"trace\": the file has %s", plural(has, "trace"))
}

// Load reads all of a file or a stream, up to [MaxSize] bytes: what is larger is refused before it is read, or where its size is not
// known, when it turns out.
func Load(r io.Reader) ([]byte, error) {
	var b bytes.Buffer
	if f, ok := r.(interface{ Stat() (fs.FileInfo, error) }); ok {
		if is, err := f.Stat(); err == nil && is.Mode().IsRegular() {
			if err := CheckSize(is.Size()); err != nil {
				return nil, err
			}
			b.Grow(int(is.Size()) + bytes.MinRead) // so that reading to the end needs no more
		}
	}
	_, err := b.ReadFrom(io.LimitReader(r, MaxSize()+1))
	if err == nil {
		err = CheckSize(int64(b.Len()))
	}
	if err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// ReadFile reads the file with the given name. Its last element becomes the name of a profile that has none in the file.
func ReadFile(name string, hints *Hints) (*Trace, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	t, err := Decode(context.Background(), f, hints, nil)
	if err == nil && t.Profile.Name == "" {
		t.Profile.Name = filepath.Base(name)
	}
	return t, err
}

func (t *Trace) note(code, format string, args ...any) {
	t.Notes = append(t.Notes, roughness.Note{Code: code, Text: fmt.Sprintf(format, args...)})
}

// maxFields bounds the lines of a file that are kept.
const maxFields = 10_000

// keep stores a line that furrow has no use for, so that writing the trace again loses nothing.
func (t *Trace) keep(key, value string) {
	switch {
	case len(t.Fields) < maxFields:
		t.Fields = append(t.Fields, Field{key, value})
	case !slices.ContainsFunc(t.Notes, func(n roughness.Note) bool { return n.Code == "fields" }):
		t.note("fields", "The file has more than %d lines of information beside the heights; the rest was left out.", maxFields)
	}
}

func (t *Trace) field(key string) string {
	i := slices.IndexFunc(t.Fields, func(f Field) bool { return f.Key == key })
	if i < 0 {
		return ""
	}
	return t.Fields[i].Value
}

// finish converts the heights of a file that counts them in u, counts, and holds the outcome against what a float64 can say.
func (t *Trace) finish(u unit) error {
	if s := t.Profile.Spacing; !(s > 0) || math.IsInf(s, 0) {
		return because(ErrFormat, "the points lie %g µm apart, which is not a distance", s)
	}
	r := &t.Report
	infinite := 0
	for i, stored := range t.Profile.Z {
		v := u.length(stored)
		switch {
		case math.IsInf(v, 0) && math.IsInf(stored, 0): // what some writers put for no height
			v = math.NaN()
			infinite++
		case math.IsInf(v, 0):
			return because(ErrNumber, "the height of point %d is too large to be counted in µm", i+1)
		}
		if v != v {
			r.Invalid++
		}
		t.Profile.Z[i] = v
	}
	if infinite > 0 {
		t.note("infinite", "%s stored as infinite were read as missing.", plural(infinite, "height"))
	}
	r.Points, r.Spacing = len(t.Profile.Z), t.Profile.Spacing
	r.ZUnit, r.ZUnitBy = u.text, "file"
	return nil
}

// traced takes instrument and date of the measurement out of the fields of a file, as far as they say anything.
func (t *Trace) traced() {
	var instrument []string
	for _, key := range []string{"INSTRUMENT_ID", "INSTRUMENT_SERIAL", "Record2/Instrument/Manufacturer", "Record2/Instrument/Model", "Record2/Instrument/Serial"} {
		v := strings.TrimSpace(t.field(key))
		if !slices.Contains([]string{"", "unknown", "none", "n/a", "-"}, strings.ToLower(v)) {
			instrument = append(instrument, v)
		}
	}
	t.Profile.Traced.Instrument = strings.Join(instrument, " ")
	for _, d := range []struct{ key, layout, as string }{
		{"Record2/Date", time.RFC3339, time.RFC3339},
		{"Record2/Date", "2006-01-02T15:04:05", "2006-01-02T15:04:05"},
		{"CreateDate", "020120061504", "2006-01-02T15:04"},
		{"DATE", "2-Jan-2006", time.DateOnly},
	} {
		if at, err := time.Parse(d.layout, strings.TrimSpace(t.field(d.key))); err == nil && at.Unix() != 0 { // the writers' word for unknown
			t.Profile.Traced.Date = at.Format(d.as)
			return
		}
	}
}
