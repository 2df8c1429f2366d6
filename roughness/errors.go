package roughness

import (
	"errors"
	"fmt"
)

// What a *ProfileError can wrap.
var (
	ErrSpacing  = errors.New("spacing is not a length above 0")
	ErrNoPoints = errors.New("no valid point")
	ErrHeight   = errors.New("height larger than on any surface")
	ErrTooShort = errors.New("trace too short for one section")
	ErrGap      = errors.New("gap too long to bridge")
	ErrStart    = errors.New("sections do not fit into the remaining trace")
	ErrFilter   = errors.New("filter cannot be applied")
	ErrForm     = errors.New("form cannot be fitted")
)

// SettingError says which key of the settings cannot be followed.
type SettingError struct {
	Key string // as in a settings file: "long.cutoff"
	Err error
}

func (e *SettingError) Error() string { return fmt.Sprintf("roughness: setting %s: %v", e.Key, e.Err) }

// Unwrap returns what is wrong with the setting.
func (e *SettingError) Unwrap() error { return e.Err }

func settingErrorf(key, format string, args ...any) error {
	return &SettingError{Key: key, Err: fmt.Errorf(format, args...)}
}

// ProfileError says why a trace could not be evaluated with settings that are sound in themselves. [Evaluate] returns it
// together with an Evaluation whose values are all undefined for that reason.
type ProfileError struct {
	Index int    // point of the trace from 0, or -1 where no single point is meant
	Text  string // what, where and how much
	Err   error  // one of the sentinels
}

func (e *ProfileError) Error() string { return "roughness: " + e.Text }

// Unwrap returns the sentinel.
func (e *ProfileError) Unwrap() error { return e.Err }
