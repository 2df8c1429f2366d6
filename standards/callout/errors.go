package callout

import (
	"errors"
	"fmt"
)

// What can be wrong with the text of a requirement; each is wrapped in a *TextError that says where.
var (
	// ErrOpen says that a question must be answered before the settings are complete.
	ErrOpen = errors.New("question open")
	// ErrSyntax says that the text cannot be read in the notation of the edition.
	ErrSyntax = errors.New("text not understood")
	// ErrNumber says that a number cannot be read, or is not possible where it stands.
	ErrNumber = errors.New("number not understood")
	// ErrSymbol says that the edition has no parameter of that symbol.
	ErrSymbol = errors.New("symbol not known")
	// ErrEdition says that there is no edition of that id.
	ErrEdition = errors.New("edition not known")
)

// A TextError is a refusal of a requirement's text, with its place and its reason.
type TextError struct {
	Line   int // from 1
	Column int // from 1, in characters
	Reason string
	Try    string // the text as it could be meant, where one correction is plain
	Err    error  // one of the sentinels above

	at int
}

// Error returns the place and the reason.
func (e *TextError) Error() string {
	return fmt.Sprintf("callout: line %d, column %d: %s", e.Line, e.Column, e.Reason)
}

// Said is the reason with the correction, where one is plain.
func (e *TextError) Said() string {
	if e.Try == "" {
		return e.Reason
	}
	return fmt.Sprintf("%s; perhaps: %q", e.Reason, e.Try)
}

// Unwrap returns the sentinel.
func (e *TextError) Unwrap() error { return e.Err }
