// Command evaluate takes one trace to surface-texture values.
//
//	evaluate [flags] [FILE | -]
//
// Without FILE it evaluates the built-in demonstration trace, which is invented; - reads standard input. It prints a table,
// or with -json the result as JSON. Exit status: 0 evaluated; 1 read, but nothing could be evaluated; 2 bad usage or
// unreadable input, with one line on standard error.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strings"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/roughness/tracefile"
)

// The exit states.
const (
	evaluated = 0
	undefined = 1
	unusable  = 2
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// options are the flags as given.
type options struct {
	settings, hints      string
	callout, limit, rule string
	json, points         bool
	file                 string
}

// run is main with its surroundings as arguments, so that tests can call it.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	o, err := parse(args)
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(out, usage)
		return evaluated
	}
	if err == nil {
		var code int
		var page []byte
		if code, page, err = evaluate(o, in); err == nil {
			if _, werr := out.Write(page); werr == nil {
				return code
			} else {
				err = werr
			}
		}
	}
	fmt.Fprintf(errs, "evaluate: %s\n", oneLine(err.Error()))
	return unusable
}

const usage = `usage: evaluate [flags] [FILE | -]

Evaluates one trace. Without FILE: the built-in demonstration trace (invented).

  -settings FILE  settings as JSON; every key is optional
  -text FILE      hints for delimited text, as JSON, when the file leaves a question open
  -json           print the result as JSON instead of a table
  -points         print what enters the evaluation, one x<TAB>z line a point, in µm, and stop
  -callout TEXT   take the settings from a drawing requirement, such as "Rz 3,2"; keys of -settings override them
  -limit TEXT     judge against a limit, such as "Rz <= 3.2", or two of one parameter with a semicolon between them
  -rule NAME      acceptance rule: max, 16% or median (default: the edition's own)
  -record FILE, -selfcheck: not yet
`

func parse(args []string) (*options, error) {
	o := &options{}
	f := flag.NewFlagSet("evaluate", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.StringVar(&o.settings, "settings", "", "")
	f.StringVar(&o.hints, "text", "", "")
	f.BoolVar(&o.json, "json", false, "")
	f.BoolVar(&o.points, "points", false, "")
	f.StringVar(&o.callout, "callout", "", "")
	f.StringVar(&o.limit, "limit", "", "")
	f.StringVar(&o.rule, "rule", "", "")
	f.String("record", "", "")
	f.Bool("selfcheck", false, "")
	if err := f.Parse(args); err != nil {
		return nil, err
	}
	var notYet error
	f.Visit(func(g *flag.Flag) {
		switch g.Name {
		case "record", "selfcheck":
			notYet = fmt.Errorf("-%s: not yet", g.Name)
		}
	})
	if notYet != nil {
		return nil, notYet
	}
	empty := ""
	f.Visit(func(g *flag.Flag) {
		if g.Value.String() == "" {
			empty = "-" + g.Name
		}
	})
	switch f.NArg() {
	case 0:
		if o.hints != "" {
			return nil, errors.New("-text tells how to read a FILE, and there is none")
		}
	case 1:
		if o.file = f.Arg(0); o.file == "" {
			empty = "FILE"
		}
	default:
		return nil, fmt.Errorf("one FILE at most, after the flags; got %q", f.Args())
	}
	if empty != "" {
		return nil, fmt.Errorf("%s is empty", empty)
	}
	return o, nil
}

// evaluate does what the options ask and returns the exit state and what goes to standard output.
func evaluate(o *options, in io.Reader) (int, []byte, error) {
	trace, err := readTrace(o, in)
	if err != nil {
		return 0, nil, err
	}
	settings, source, err := readSettings(o.settings)
	if err != nil {
		return 0, nil, err
	}
	if o.points {
		z, first := roughness.Entering(trace.Profile, settings)
		return evaluated, points(z, first, trace.Profile.Spacing), nil
	}
	req, err := readRequirement(o, settings)
	if err != nil {
		return 0, nil, err
	}
	e, err := roughness.Evaluate(trace.Profile, req.settings)
	var wrong *roughness.SettingError
	if errors.As(err, &wrong) {
		if settings == nil || strings.HasPrefix(wrong.Key, "parameters[") && wrong.Key >= fmt.Sprintf("parameters[%d]", len(settings.Parameters)) {
			return 0, nil, wrong.Err // of the callout or the limit, or a default
		}
		return 0, nil, settingError(o.settings, source, wrong)
	}
	e.Notes = append(e.Notes, trace.Notes...)
	if trace.Report.Format != "" && o.json { // the table shows it in full
		e.Notes = append(e.Notes, roughness.Note{Code: "reading", Text: strings.Join(strings.Split(strings.TrimSpace(trace.Report.String()), "\n"), "; ")})
	}
	for _, f := range tracefile.Judge(trace.Profile, conditions(e)) {
		e.Notes = append(e.Notes, f.Note())
	}
	judged, err := req.judge(e)
	if err != nil {
		return 0, nil, err
	}
	for _, n := range req.notes {
		if o.json || n.Code != "requirement" { // the table begins with the readings
			e.Notes = append(e.Notes, n)
		}
	}
	code := undefined
	for _, v := range e.Values {
		if !math.IsNaN(v.Value) {
			code = evaluated
		}
	}
	if o.json {
		return code, record.AppendResult(nil, e, judged), nil
	}
	return code, table(trace, e, req, judged), nil
}

// conditions tells the look at the trace what it is evaluated under. How many sections fit the evaluation itself says.
func conditions(e *roughness.Evaluation) tracefile.Conditions {
	s := &e.Settings
	return tracefile.Conditions{Short: s.Short.Spec.Cutoff, Long: s.Long.Spec.Cutoff, Filtered: s.Input == roughness.Filtered}
}

func readTrace(o *options, in io.Reader) (*tracefile.Trace, error) {
	if o.file == "" {
		d := synth.Demos()[0]
		return &tracefile.Trace{Profile: roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: d.Title + " (demonstration, invented)"}}, nil
	}
	var hints *tracefile.Hints
	if o.hints != "" {
		data, err := os.ReadFile(o.hints)
		if err != nil {
			return nil, fileError(err)
		}
		if hints, err = tracefile.ParseHints(data); err != nil {
			return nil, located(o.hints, err)
		}
	}
	data, err := readAll(o.file, in)
	if err != nil {
		return nil, fileError(err)
	}
	trace, err := tracefile.Read(data, hints)
	if err != nil {
		return nil, located(o.file, err)
	}
	if trace.Profile.Name == "" {
		trace.Profile.Name = o.file
	}
	return trace, nil
}

func readAll(name string, in io.Reader) ([]byte, error) {
	if name == "-" {
		return io.ReadAll(in)
	}
	return os.ReadFile(name)
}

func readSettings(name string) (*roughness.Settings, []byte, error) {
	if name == "" {
		return nil, nil, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, nil, fileError(err)
	}
	s, err := record.ParseSettings(data)
	if err != nil {
		return nil, nil, located(name, err)
	}
	return s, data, nil
}

// settingError gives a setting that cannot be followed its place in the settings file.
func settingError(name string, data []byte, err *roughness.SettingError) error {
	line, column := record.Locate(data, err.Key)
	return fmt.Errorf("%s:%d:%d: %s: %w", name, line, column, err.Key, err.Err)
}

// located puts the file's name, and the line and column where there are any, in front of an error.
func located(name string, err error) error {
	var t *tracefile.Error
	if errors.As(err, &t) && t.Line > 0 {
		if t.Column > 0 {
			return fmt.Errorf("%s:%d:%d: %w", name, t.Line, t.Column, t.Err)
		}
		return fmt.Errorf("%s:%d: %w", name, t.Line, t.Err)
	}
	var r *record.Error
	if errors.As(err, &r) {
		if r.Key != "" {
			return fmt.Errorf("%s:%d:%d: %s: %w", name, r.Line, r.Column, r.Key, r.Err)
		}
		return fmt.Errorf("%s:%d:%d: %w", name, r.Line, r.Column, r.Err)
	}
	return fmt.Errorf("%s: %s", name, bare(err))
}

// bare is the text of an error without the package that it comes from.
func bare(err error) string {
	text := err.Error()
	for _, p := range []string{"tracefile: ", "standards: ", "roughness: ", "params: ", "record: "} {
		text = strings.TrimPrefix(text, p)
	}
	return text
}

// fileError says which file the system would not give, in its own words.
func fileError(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return fmt.Errorf("%s: %w", p.Path, p.Err)
	}
	return err
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
