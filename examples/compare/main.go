// Command compare says why two values of one trace differ.
//
//	compare [flags] FILE
//
// It answers one question at a time, with a table or with -json a document: what each change of the settings makes of a difference, which
// settings give a printed value, what a requirement asks in two editions, how many digits of a value mean something. Exit status: 0 done;
// 1 read, but not possible (the document is printed with the reason); 2 bad usage or unreadable input, with one line on standard error.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

const usage = `usage: compare [flags] FILE

Says why two values of one trace differ. FILE is a trace; - reads standard
input. One question at a time:

  -settings A -against B -symbol Rz
                  which change makes how much of the difference; A and B are
                  settings files, results or records, and the one left out has
                  the usual settings
  -printed TEXT   which settings give printed values, such as
                  "Rz 3.4; Ra 0.51"; the last digit counts: 3.1 is not 3.10.
                  Without any question: the results that FILE itself states
  -callout TEXT -editions A,B
                  what a requirement asks in each edition, and what it gives on
                  this trace; -periodic: the marks repeat, as in turning
  -steady         how many digits of each value mean something on this trace;
                  with -symbol for one value only

  -settings FILE  with the other questions: settings to count changes from, to
                  lay over the requirement, or to evaluate with
  -most N         fits to list (default 10; 0: all)
  -text FILE      hints for delimited text, as JSON like {"z_unit": "µm"}
  -json           print JSON instead of a table
`

// options are the flags as given.
type options struct {
	settings, against, symbol string
	printed, callout          string
	editions, hints, file     string
	steady, periodic, json    bool
	stated                    bool // no question: what the file states is looked for
	most                      int
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// run is main with its surroundings as arguments, so that tests can call it.
func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	return cli.Run("compare", usage, out, errs, func() (int, []byte, error) {
		o, err := parse(args)
		if err != nil {
			return 0, nil, err
		}
		page, possible, err := o.answer(ctx, in)
		return map[bool]int{false: 1}[possible], page, err
	})
}

func parse(args []string) (*options, error) {
	o := &options{}
	f := cli.Flags(map[string]*string{"settings": &o.settings, "against": &o.against, "symbol": &o.symbol, "printed": &o.printed,
		"callout": &o.callout, "editions": &o.editions, "text": &o.hints}, map[string]*bool{"steady": &o.steady, "periodic": &o.periodic, "json": &o.json})
	f.IntVar(&o.most, "most", 10, "")
	given, err := cli.Parse(f, args)
	if err != nil {
		return nil, err
	}
	questions := 0
	shares := given["against"] || given["symbol"] && !o.steady
	for _, asked := range []bool{shares, given["printed"], given["callout"] || given["editions"], o.steady} {
		if asked {
			questions++
		}
	}
	switch {
	case questions > 1:
		return nil, errors.New("one question at a time: -against with -symbol, -printed, -callout with -editions, or -steady")
	case shares && !given["symbol"]:
		return nil, errors.New("-against asks for one value: give -symbol")
	case shares && !given["settings"] && !given["against"]:
		return nil, errors.New("-symbol goes with -settings and -against, or with -steady")
	case given["callout"] != given["editions"]:
		return nil, errors.New("-callout and -editions go together")
	case given["periodic"] && !given["callout"]:
		return nil, errors.New("-periodic goes with -callout")
	case given["most"] && (!given["printed"] && questions > 0 || o.most < 0):
		return nil, errors.New("-most goes with -printed and is 0 or more")
	case f.NArg() != 1:
		return nil, fmt.Errorf("one FILE is needed, not %d", f.NArg())
	}
	o.file, o.stated = f.Arg(0), questions == 0
	return o, cli.Files(f.Args())
}

// answer returns what goes to standard output, and whether the question could be answered.
func (o *options) answer(ctx context.Context, in io.Reader) ([]byte, bool, error) {
	traces, err := cli.ReadTraces([]string{o.file}, o.hints, in)
	if err != nil {
		return nil, false, err
	}
	set, source, err := cli.SettingsIn(o.settings)
	if err != nil {
		return nil, false, err
	}
	if set, err = ofSymbol(o.settings, set, source, o.symbol); err != nil {
		return nil, false, err
	}
	q := &question{options: o, ctx: ctx, trace: traces[0].Profile, set: set}
	var page []byte
	switch {
	case o.printed != "" || o.stated:
		page, err = q.finding(traces[0].Trace)
	case o.callout != "":
		page, err = q.editions()
	case o.steady:
		page, err = q.steadiness()
	default:
		other, otherSource, e := cli.SettingsIn(o.against)
		if e != nil {
			return nil, false, e
		}
		if q.against, err = ofSymbol(o.against, other, otherSource, o.symbol); err != nil {
			return nil, false, err
		}
		other = q.against
		page, err = q.shares()
		if wrong, ok := errors.AsType[*roughness.SettingError](err); ok { // is it the second file that cannot be followed?
			if _, e := roughness.Complete(other); o.against != "" && e != nil {
				return nil, false, cli.SettingError(o.against, otherSource, wrong)
			}
		}
	}
	if wrong, ok := errors.AsType[*roughness.SettingError](err); ok {
		if o.settings != "" && set != nil {
			if _, e := roughness.Complete(set); e != nil {
				return nil, false, cli.SettingError(o.settings, source, wrong)
			}
		}
		return nil, false, wrong.Err
	}
	return page, !q.impossible, err
}

// ofSymbol returns the settings of the limit of a symbol, where a file was given that holds such limits.
func ofSymbol(name string, set *roughness.Settings, source []byte, symbol string) (*roughness.Settings, error) {
	if set == nil || symbol == "" {
		return set, nil
	}
	own, err := record.SettingsFor(source, symbol)
	if err != nil {
		return nil, cli.Located(name, err)
	}
	return own, nil
}

// question is one question about one trace.
type question struct {
	*options
	ctx          context.Context
	trace        roughness.Profile
	set, against *roughness.Settings
	impossible   bool
}

// refuse says whether an error means that the input is read but the question cannot be answered.
func (q *question) refuse(err error) bool {
	if err == nil || errors.Is(err, context.Canceled) {
		return false
	}
	if _, wrong := errors.AsType[*roughness.SettingError](err); wrong {
		return false
	}
	q.impossible = true
	return true
}

func (q *question) shares() ([]byte, error) {
	l, err := compare.Explain(q.ctx, q.trace, q.set, q.against, q.symbol)
	if err != nil && !q.refuse(err) {
		return nil, err
	}
	if q.json {
		return record.AppendShares(nil, q.symbol, l, err), nil
	}
	return q.sharesTable(l, err), nil
}

// printedBy is what a person typed, or what the file states on one profile.
func (q *question) printedBy(t *tracefile.Trace) ([]compare.Printed, error) {
	if q.printed != "" {
		return compare.ParsePrinted(q.printed)
	}
	list := compare.Stated(t.Said(), t.Report.Mark())
	if len(list) == 0 {
		return nil, errors.New("no question, and the file states no result: give -settings, -against and -symbol, or -printed, or -callout and -editions, or -steady; -h tells more")
	}
	letter := list[0].Letter()
	return slices.DeleteFunc(list, func(p compare.Printed) bool { return p.Letter() != letter }), nil
}

func (q *question) finding(t *tracefile.Trace) ([]byte, error) {
	printed, err := q.printedBy(t)
	if wrong, ok := errors.AsType[*compare.PrintedError](err); ok {
		return nil, fmt.Errorf("-printed:1:%d: %s", wrong.Column, wrong.Reason)
	}
	if err != nil {
		return nil, err
	}
	f, err := compare.Find(q.ctx, q.trace, printed, q.set, nil)
	if err != nil {
		return nil, err
	}
	q.impossible = f.Tried == 0
	if q.json {
		return record.AppendFinding(nil, f, q.most), nil
	}
	return q.findingTable(f), nil
}

func (q *question) editions() ([]byte, error) {
	a, b, ok := strings.Cut(q.options.editions, ",")
	if !ok || strings.Contains(b, ",") {
		return nil, fmt.Errorf("-editions: two editions with a comma between them, such as iso-4287,iso-21920; there are %s", standards.EditionNames(standards.EditionIDs()))
	}
	first, second := standards.EditionID(strings.TrimSpace(a)), standards.EditionID(strings.TrimSpace(b))
	if first == second {
		return nil, fmt.Errorf("-editions: %s is named twice, and there is nothing to compare", first)
	}
	e, err := compare.ByEdition(q.trace, q.callout, first, second, &compare.EditionOptions{Periodic: q.periodic, Over: q.set})
	switch {
	case errors.Is(err, callout.ErrEdition):
		for _, name := range []standards.EditionID{first, second} {
			if _, known := standards.EditionByID(name); !known {
				return nil, fmt.Errorf("-editions: no edition is called %q; there are %s", name, standards.EditionNames(standards.EditionIDs()))
			}
		}
		return nil, cli.TextError(err)
	case err != nil:
		if _, wrong := errors.AsType[*roughness.SettingError](err); wrong {
			return nil, err
		}
		return nil, cli.TextError(err)
	}
	q.impossible = true
	for i := range e.Limits {
		if e.Limits[i].A.Evaluation != nil || e.Limits[i].B.Evaluation != nil {
			q.impossible = false
		}
	}
	if q.json {
		return record.AppendEditions(nil, e), nil
	}
	return q.editionsTable(e), nil
}

func (q *question) steadiness() ([]byte, error) {
	s := roughness.Settings{}
	if q.set != nil {
		s = *q.set
	}
	if q.symbol != "" {
		s.Parameters = []string{q.symbol}
	}
	list, err := compare.Steady(q.ctx, q.trace, &s)
	if err != nil && !q.refuse(err) {
		return nil, err
	}
	if q.json {
		return record.AppendSteadiness(nil, list, err), nil
	}
	return q.steadyTable(list, err), nil
}
