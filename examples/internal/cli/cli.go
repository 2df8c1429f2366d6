// Package cli holds what the programs share: reading their files, and telling where something is wrong.
package cli

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

// Files refuses names that cannot be files: an empty one, a flag behind a file, standard input beside others.
func Files(names []string) error {
	switch {
	case slices.Contains(names, ""):
		return errors.New("FILE is empty")
	case slices.Contains(names, "-") && len(names) > 1:
		return errors.New("- reads one trace from standard input and stands alone")
	}
	for _, name := range names {
		if strings.HasPrefix(name, "-") && name != "-" {
			return fmt.Errorf("%s: flags go before the files", name)
		}
	}
	return nil
}

// A NamedTrace is one that was read, with what it was read from.
type NamedTrace struct {
	*tracefile.Trace
	Name  string
	Data  []byte // nil where it comes from no file
	Hints []byte
}

// ReadTraces reads traces; - is standard input. hintsFile tells how to read text, and may be empty.
func ReadTraces(names []string, hintsFile string, in io.Reader) ([]*NamedTrace, error) {
	hints, source, err := ReadHints(hintsFile)
	if err != nil {
		return nil, err
	}
	var traces []*NamedTrace
	for _, name := range names {
		data, err := readAll(name, in)
		if errors.Is(err, tracefile.ErrSize) {
			return nil, Located(name, err)
		}
		if err != nil {
			return nil, FileError(err)
		}
		t, err := tracefile.Read(data, hints)
		if err != nil {
			return nil, Located(name, err)
		}
		if t.Profile.Name == "" || len(names) > 1 {
			t.Profile.Name = name
		}
		traces = append(traces, &NamedTrace{t, name, data, source})
	}
	return traces, nil
}

func readAll(name string, in io.Reader) ([]byte, error) {
	if name == "-" {
		return tracefile.Load(in)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return tracefile.Load(f)
}

// ReadHints reads a file of hints, and keeps its text. Without a name there are none.
func ReadHints(name string) (*tracefile.Hints, []byte, error) {
	return readDocument(name, tracefile.ParseHints)
}

// ReadSettings reads a settings file, and keeps its text for the place of an error. Without a name there are no settings.
func ReadSettings(name string) (*roughness.Settings, []byte, error) {
	return readDocument(name, record.ParseSettings)
}

// SettingsIn reads the settings of a settings file, a result or a record likewise.
func SettingsIn(name string) (*roughness.Settings, []byte, error) {
	return readDocument(name, record.SettingsIn)
}

func readDocument[T any](name string, parse func([]byte) (*T, error)) (*T, []byte, error) {
	if name == "" {
		return nil, nil, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, nil, FileError(err)
	}
	s, err := parse(data)
	if err != nil {
		return nil, nil, Located(name, err)
	}
	return s, data, nil
}

// SettingError gives a setting that cannot be followed its place in the settings file.
func SettingError(name string, data []byte, err *roughness.SettingError) error {
	line, column := record.Locate(data, err.Key)
	return fmt.Errorf("%s:%d:%d: %s: %w", name, line, column, err.Key, err.Err)
}

// Located puts the file's name, and the line and column where there are any, in front of an error.
func Located(name string, err error) error {
	var t *tracefile.Error
	if errors.As(err, &t) && t.Line > 0 {
		if errors.Is(err, tracefile.ErrOpen) {
			return fmt.Errorf("%s:%d:%d: %w; write hints as JSON, such as {\"z_unit\": \"µm\"}, into a file and name it with -text", name, t.Line, t.Column, t.Err)
		}
		if t.Column > 0 {
			return fmt.Errorf("%s:%d:%d: %w", name, t.Line, t.Column, t.Err)
		}
		return fmt.Errorf("%s:%d: %w", name, t.Line, t.Err)
	}
	var r *record.DocumentError
	if errors.As(err, &r) {
		if r.Key != "" {
			return fmt.Errorf("%s:%d:%d: %s: %w", name, r.Line, r.Column, r.Key, r.Err)
		}
		return fmt.Errorf("%s:%d:%d: %w", name, r.Line, r.Column, r.Err)
	}
	return fmt.Errorf("%s: %s", name, standards.Bare(err))
}

// FileError says which file the system would not give, in its own words.
func FileError(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return fmt.Errorf("%s: %w", p.Path, p.Err)
	}
	return err
}

// OneLine puts a text on one line.
func OneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// FlagError gives a text that was typed behind a flag its place.
func FlagError(flag string, err error) error {
	if t, ok := errors.AsType[*judge.TypedError](err); ok {
		return fmt.Errorf("%s:1:%d: %s", flag, t.Column, t.Reason)
	}
	if f, ok := errors.AsType[*record.FieldError](err); ok {
		if f.Column > 0 {
			return fmt.Errorf("-%s:1:%d: %w", f.Key, f.Column, f.Err)
		}
		err = f.Err
	}
	return errors.New(standards.Bare(err))
}

// TextError gives a refused requirement its place in the text.
func TextError(err error) error {
	var t *callout.TextError
	if errors.As(err, &t) {
		return fmt.Errorf("-callout:%d:%d: %s", t.Line, t.Column, t.Said())
	}
	return fmt.Errorf("-callout: %s", standards.Bare(err))
}

// Width is that of a table, in characters.
const Width = 80

// Wrap prints text in lines of the width, the further ones two further in; a longer word is broken.
func Wrap(out io.Writer, text, indent string) { wrap(out, text, indent, indent+"  ") }

// Para prints text in lines of the width behind a mark; the further ones stand below the text.
func Para(out io.Writer, mark, text string) {
	wrap(out, text, mark, strings.Repeat(" ", utf8.RuneCountInString(mark)))
}

func wrap(out io.Writer, text, indent, hang string) {
	for i, line := range Lines(text, Width-utf8.RuneCountInString(indent), Width-len(hang)) {
		if i > 0 {
			indent = hang
		}
		fmt.Fprintln(out, strings.TrimRight(indent+line, " "))
	}
}

// Lines breaks a text at blanks into a line of at most first characters, and others of at most rest; a longer word, such as the name of a
// file, is broken.
func Lines(text string, first, rest int) []string {
	var lines []string
	var line []rune
	room := first
	end := func(n int) {
		lines, line, room = append(lines, string(line[:n])), line[n:], rest
	}
	for word := range strings.FieldsSeq(text) {
		w := []rune(word)
		if len(line) > 0 && len(line)+1+len(w) > room {
			end(len(line))
		}
		if len(line) > 0 {
			line = append(line, ' ')
		}
		for line = append(line, w...); len(line) > room; {
			end(room)
		}
	}
	return append(lines, string(line))
}

// Run runs a program: it prints the page that it answers with, or one line about what is wrong, and returns the exit status.
func Run(name, usage string, out, errs io.Writer, answer func() (int, []byte, error)) int {
	code, page, err := answer()
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(out, usage)
		return 0
	}
	if err == nil {
		if _, err = out.Write(page); err == nil {
			return code
		}
	}
	fmt.Fprintf(errs, "%s: %s\n", name, OneLine(err.Error()))
	return 2
}

// Flags makes the flags of a program that are texts and switches.
func Flags(texts map[string]*string, switches map[string]*bool) *flag.FlagSet {
	f := flag.NewFlagSet("", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	for name, to := range texts {
		f.Var(&text{to: to}, name, "")
	}
	for name, to := range switches {
		f.BoolVar(to, name, false, "")
	}
	return f
}

// A text is the value of a flag that is given once at most: the last of two would silently take the place of the first.
type text struct {
	to    *string
	given bool
}

func (t *text) String() string {
	if t.to == nil {
		return ""
	}
	return *t.to
}

func (t *text) Get() any { return *t.to }

func (t *text) Set(s string) error {
	if t.given {
		return errors.New("it is given twice; write everything in one")
	}
	*t.to, t.given = s, true
	return nil
}

// Parse parses flags and says which are given; one without its text is refused.
func Parse(f *flag.FlagSet, args []string) (given map[string]bool, err error) {
	if err := f.Parse(args); err != nil {
		return nil, err
	}
	given = map[string]bool{}
	f.Visit(func(g *flag.Flag) {
		given[g.Name] = true
		if _, text := g.Value.(flag.Getter); text && strings.TrimSpace(g.Value.String()) == "" && err == nil {
			err = fmt.Errorf("-%s is empty", g.Name)
		}
	})
	return given, err
}

// Cutoff says where a cut-off comes from: "Cut-off 0.8 mm: class Sc3, stated; standard, ISO 21920-3:2021, 4.4 (excerpt)."
func Cutoff(length string, o callout.Origin) string {
	from := record.From(o)
	if o.From == callout.FromStandard || o.Basis == standards.OwnChoice {
		from = o.Text + "; " + from
	}
	return "Cut-off " + length + ": " + from + "."
}

// Short prints a number for a table, with four significant digits.
func Short(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	if v != 0 && math.Abs(v) < 1e-6 {
		return strconv.FormatFloat(v, 'g', 4, 64)
	}
	return strconv.FormatFloat(standards.RoundDigits(v, 4), 'f', -1, 64)
}

// Number prints a value with its unit, or says that there is none.
func Number(v roughness.Value) string {
	return strings.TrimSpace(Short(v.Value) + " " + string(v.Unit))
}

// ParseNumber reads a number with a point or a comma.
func ParseNumber(text string) (float64, error) {
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, fmt.Errorf("%.40q is no number", text)
	}
	return v, nil
}
