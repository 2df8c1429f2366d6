package tracefile

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"os"

	"example.com/furrow/roughness"
)

// Trace is a profile with the story of how it was read.
type Trace struct {
	Profile roughness.Profile
	Origin  float64 // x of the first point as the file counts it, µm
	Report  Report
	Notes   []roughness.Note
	Fields  []Field // what the file says beside the trace, as it stands

	stored []float64 // heights as an X3P file stores them, in metres, so that writing them again keeps every bit
}

// Read reads one trace. What kind of file it is shows in its content, never in its name. hints may be nil.
//
// A file that can be read in more than one way is an error that wraps [Questions]; a file that cannot be read is an *[Error]
// with its place.
func Read(data []byte, hints *Hints) (*Trace, error) {
	return ReadContext(context.Background(), data, hints, nil)
}

// ReadContext is [Read] for big files: it stops when ctx is done, with the error of ctx, and calls progress from time to time with
// how many bytes of how many are read. progress may be nil.
func ReadContext(ctx context.Context, data []byte, hints *Hints, progress func(done, total int)) (*Trace, error) {
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
	var read func(context.Context, []byte, *Hints) (*Trace, error) // of a format that holds one trace or one surface
	switch {
	case bytes.HasPrefix(data, []byte("PK\x03\x04")):
		read = readX3P
	case isSDF(data):
		read = readSDF
	case isSMD(data):
		read = readSMD
	}
	if read == nil {
		if err := foreignFile(data); err != nil {
			return nil, err
		}
		return readText(ctx, data, hints, progress)
	}
	if hints.Trace > 1 {
		return nil, &Error{Err: oneTrace()}
	}
	t, err := read(ctx, data, hints)
	if err == nil {
		t.traced()
		t.unused(hints)
	}
	return t, err
}

// ReadAll reads every trace of a file that may hold several.
func ReadAll(data []byte, hints *Hints) ([]*Trace, error) {
	h := Hints{}
	if hints != nil {
		h = *hints
	}
	if h.Trace > 0 {
		t, err := Read(data, &h)
		return []*Trace{t}, err
	}
	var all []*Trace
	for h.Trace = 1; ; h.Trace++ {
		t, err := Read(data, &h)
		if err != nil && h.Trace > 1 && errors.Is(err, errNoTrace) {
			return all, nil
		}
		if err != nil {
			return nil, err
		}
		if h.Trace > maxTraces {
			return nil, &Error{Err: because(ErrLimit, "the file holds more than %d traces", maxTraces)}
		}
		all = append(all, t)
	}
}

// maxTraces bounds what ReadAll returns, for it reads the file again for each.
const maxTraces = 1000

// errNoTrace is the end of the traces of a file.
var errNoTrace = errors.New("no such trace in the file")

func oneTrace() error { return because(errNoTrace, "hint \"trace\": the file has 1 trace") }

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

// ReadFile reads the file with the given name, which becomes the name of the profile.
func ReadFile(name string, hints *Hints) (*Trace, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := Load(f)
	if err != nil {
		return nil, err
	}
	t, err := Read(data, hints)
	if err == nil && t.Profile.Name == "" {
		t.Profile.Name = name
	}
	return t, err
}

func (t *Trace) note(code, text string) {
	t.Notes = append(t.Notes, roughness.Note{Code: code, Text: text})
}

// IsQuestion returns the questions that an error asks, or nil.
func IsQuestion(err error) Questions {
	var q Questions
	errors.As(err, &q)
	return q
}
