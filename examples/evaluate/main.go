// Command evaluate takes traces to surface-texture values, and with a requirement to a verdict.
//
//	evaluate [flags] [FILE ... | -]
//
// Several files are a series: traces of one surface, evaluated with the same settings. Without FILE it evaluates the built-in demonstration trace, which is invented; - reads standard input. It prints a table,
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
	"slices"
	"strings"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
)

// The exit states.
const (
	evaluated = 0
	undefined = 1
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// options are the flags as given.
type options struct {
	settings, hints      string
	callout, limit, rule string
	typed, u             string
	k                    float64
	prove, guard, agreed string
	record, verify       string
	units                string
	json, points         bool
	files                []string
}

// run is main with its surroundings as arguments, so that tests can call it.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	return cli.Run("evaluate", usage, out, errs, func() (int, []byte, error) {
		o, err := parse(args)
		if err != nil {
			return 0, nil, err
		}
		return evaluate(o, in)
	})
}

const usage = `usage: evaluate [flags] [FILE ... | -]

Evaluates one trace, or several of one surface as a series. Without FILE: the
built-in demonstration trace (invented).

  -settings FILE  settings as JSON; every key is optional
  -text FILE      hints for delimited text, as JSON like {"z_unit": "µm"}, for
                  a file that leaves a question open
  -json           print the result as JSON instead of a table
  -points         print what enters the evaluation, one x<TAB>z line a point, in
                  µm, and stop
  -callout TEXT   a drawing requirement, such as "Rz 3,2": it gives the settings
                  and the limits; keys of -settings override them
  -limit TEXT     judge against a limit, such as "Rz <= 3.2", or several with
                  semicolons between them
  -rule NAME      acceptance rule: max, 16% or median (default: that of the
                  requirement)
  -typed TEXT     values read elsewhere, such as "Rz 2.9; 3.1", which count too;
                  without FILE they stand alone
  -u VALUE        expanded uncertainty in the unit of the limit; for limits on
                  several parameters "Rz 0.12; Ra 0.02"
  -k VALUE        its coverage factor (default 2)
  -prove WHO      who must prove: maker, buyer or none (default: maker with -u)
  -guard YEAR     guard band by ISO 14253-1: 2017 (default) or 1998
  -agreed NAME    who agreed that the settings differ from the requirement
  -record FILE    also write the record: .json, or .html that prints on a page;
                  both open again and hold traces, settings, values and verdict
  -verify RECORD  evaluate the traces of a record again and say whether every
                  value and the verdict come out the same (exit 1 when not)
  -units inch     the table in µin and in; JSON stays in µm
`

func parse(args []string) (*options, error) {
	o := &options{}
	f := cli.Flags(map[string]*string{"settings": &o.settings, "text": &o.hints, "callout": &o.callout, "limit": &o.limit, "rule": &o.rule,
		"typed": &o.typed, "u": &o.u, "prove": &o.prove, "guard": &o.guard, "agreed": &o.agreed,
		"record": &o.record, "verify": &o.verify, "units": &o.units}, map[string]*bool{"json": &o.json, "points": &o.points})
	f.Float64Var(&o.k, "k", 0, "")
	if err := f.Parse(args); err != nil {
		return nil, err
	}
	var wrong error
	f.Visit(func(g *flag.Flag) {
		switch {
		case wrong != nil:
		case strings.TrimSpace(g.Value.String()) == "":
			wrong = fmt.Errorf("-%s is empty", g.Name)
		case g.Name == "k" && o.u == "":
			wrong = errors.New("-k goes with -u, and there is none")
		case g.Name == "k" && !(o.k > 0):
			wrong = fmt.Errorf("-k %g: a coverage factor is above 0", o.k)
		case g.Name == "guard" && o.u == "":
			wrong = errors.New("-guard goes with -u, and there is none")
		case slices.Contains([]string{"rule", "u", "prove", "agreed"}, g.Name) && o.limit == "" && o.callout == "":
			wrong = fmt.Errorf("-%s: there is no limit to judge by; give -limit or -callout", g.Name)
		case g.Name == "units" && o.units != "inch":
			wrong = fmt.Errorf("-units %s: there is inch, and µm without it", o.units)
		case o.verify != "" && g.Name != "verify" && g.Name != "json":
			wrong = errVerifyAlone
		}
	})
	o.files = f.Args()
	switch {
	case wrong != nil:
		return nil, wrong
	case len(o.files) == 0 && o.hints != "":
		return nil, errors.New("-text tells how to read a FILE, and there is none")
	case o.verify != "" && len(o.files) > 0:
		return nil, errVerifyAlone
	case o.points && o.record != "":
		return nil, errors.New("-points prints one trace and stops, and writes no record")
	case o.points && (o.json || o.callout != "" || o.limit != "" || o.units != ""):
		return nil, errors.New("-points prints one trace and stops: it takes -settings and -text only besides")
	case o.points && (len(o.files) > 1 || len(o.files) == 0 && o.typed != ""):
		return nil, errors.New("-points prints one trace")
	}
	if o.record != "" {
		if err := o.checkRecord(); err != nil {
			return nil, err
		}
	}
	return o, cli.Files(o.files)
}

// evaluate does what the options ask and returns the exit state and what goes to standard output.
func evaluate(o *options, in io.Reader) (int, []byte, error) {
	if o.verify != "" {
		return verify(o)
	}
	traces, err := readTraces(o, in)
	if err != nil {
		return 0, nil, err
	}
	file, source, err := cli.ReadSettings(o.settings)
	if err != nil {
		return 0, nil, err
	}
	if o.points {
		z, first := roughness.Entering(traces[0].Profile, file)
		return evaluated, points(z, first, traces[0].Profile.Spacing), nil
	}
	w := &work{options: o, file: file, source: source, traces: traces, display: record.Display{Inch: o.units == "inch"}}
	var given judge.Given
	for _, t := range traces {
		if text := given.Again(judge.HeightsSHA256(t.Profile.Z), t.Profile.Name, "its values count"); text != "" {
			w.note(judge.SameHeights, text)
		}
	}
	if err := w.readRequirement(); err != nil {
		return 0, nil, err
	}
	for _, t := range traces {
		e, err := roughness.Evaluate(t.Profile, w.settings)
		if e == nil {
			return 0, nil, w.settingError(err)
		}
		w.evaluations = append(w.evaluations, e)
	}
	if err := w.judge(); err != nil {
		return 0, nil, err
	}
	if o.record != "" {
		if err := w.keep(); err != nil {
			return 0, nil, err
		}
	}
	for i := range traces {
		w.annotate(i)
	}
	if len(traces) == 1 && o.typed == "" {
		return w.single()
	}
	return w.several()
}

// annotate adds to an evaluation what reading the trace and looking at it told.
func (w *work) annotate(i int) {
	t, e := w.traces[i], w.evaluations[i]
	e.Notes = append(e.Notes, t.Notes...)
	if t.Report.Format != "" && w.options.json { // the table shows it in full
		e.Notes = append(e.Notes, roughness.Note{Code: "reading", Text: strings.Join(strings.Split(strings.TrimSpace(t.Report.String()), "\n"), "; ")})
	}
	for _, f := range inspect.Look(t.Profile, inspect.Under(e)) {
		e.Notes = append(e.Notes, f.Note())
	}
	for _, n := range w.notes {
		if w.options.json || n.Code != "requirement" { // the table begins with the readings
			e.Notes = append(e.Notes, n)
		}
	}
}

// single is the result of one trace.
func (w *work) single() (int, []byte, error) {
	e := w.evaluations[0]
	code := undefined
	for _, v := range e.Values {
		if !math.IsNaN(v.Value) {
			code = evaluated
		}
	}
	if w.options.json {
		return code, record.AppendResult(nil, e, w.verdict), nil
	}
	return code, w.table(), nil
}

// several is the result of a series.
func (w *work) several() (int, []byte, error) {
	names := make([]string, len(w.traces))
	for i, t := range w.traces {
		names[i] = t.Profile.Name
	}
	s, err := judge.Collect(names, w.evaluations...)
	if err != nil {
		return 0, nil, errors.New(standards.Bare(err))
	}
	if len(w.traces) == 0 && w.settings != nil {
		complete, err := roughness.Complete(w.settings)
		if err != nil {
			return 0, nil, w.settingError(err)
		}
		s.Settings = *complete
	}
	s.Type(w.typed...)
	code := undefined
	for _, symbol := range s.Symbols {
		if len(s.Values(symbol)) > 0 {
			code = evaluated
		}
	}
	if w.options.json {
		return code, record.AppendSeries(nil, s, w.verdict), nil
	}
	return code, w.seriesTable(s), nil
}

// settingError gives a setting that cannot be followed its place.
func (w *work) settingError(err error) error {
	var wrong *roughness.SettingError
	if !errors.As(err, &wrong) {
		return err
	}
	if w.file == nil || strings.HasPrefix(wrong.Key, "parameters[") && wrong.Key >= fmt.Sprintf("parameters[%d]", len(w.file.Parameters)) {
		return wrong.Err // of the callout or the limit, or a default
	}
	return cli.SettingError(w.options.settings, w.source, wrong)
}

// readTraces reads the files; without any, and without values typed in, it makes the demonstration.
func readTraces(o *options, in io.Reader) ([]*cli.NamedTrace, error) {
	if len(o.files) == 0 {
		if o.typed != "" {
			return nil, nil
		}
		d := synth.Demos()[0]
		demo := &tracefile.Trace{Profile: roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: d.Title + " (demonstration, invented)"}}
		return []*cli.NamedTrace{{Trace: demo}}, nil
	}
	return cli.ReadTraces(o.files, o.hints, in)
}
