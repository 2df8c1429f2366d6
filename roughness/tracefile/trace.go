package tracefile

import (
	"errors"
	"os"

	"example.com/furrow/roughness"
)

// Trace is a profile with the story of how it was read.
type Trace struct {
	Profile roughness.Profile
	Origin  float64 // x of the first point as the file counts it, µm
	Report  Report
	Notes   []roughness.Note
}

// Read reads one trace. What kind of file it is shows in its content, never in its name. hints may be nil.
//
// A file that can be read in more than one way is an error that wraps [Questions]; a file that cannot be read is an *[Error]
// with its place.
func Read(data []byte, hints *Hints) (*Trace, error) {
	if hints == nil {
		hints = &Hints{}
	}
	if err := hints.check(); err != nil {
		return nil, err
	}
	return readText(data, hints)
}

// ReadFile reads the file with the given name, which becomes the name of the profile.
func ReadFile(name string, hints *Hints) (*Trace, error) {
	data, err := os.ReadFile(name)
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
