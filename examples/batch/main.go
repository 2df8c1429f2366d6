// Command batch evaluates every trace of a folder with the same settings and writes one row a trace.
//
//	batch [flags] FOLDER
//
// Files are worked on in parallel and reported in the order of their names. A file that cannot be read or evaluated gives a row with
// the reason and never stops the rest; an interrupt ends the work with the rows so far. Exit status: 0 all evaluated; 1 some not, or
// interrupted; 2 bad usage.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/inspect"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

const usage = `usage: batch [flags] FOLDER

Evaluates every file of FOLDER with the same settings and prints a row a trace.
Folders, links, pipes and devices in it are left out and counted. In CSV a text
that a spreadsheet would take for a formula gets a leading apostrophe.

  -settings FILE  settings as JSON, as for evaluate
  -text FILE      hints for delimited text, as JSON
  -limit TEXT     judge against a limit, such as "Rz <= 3.2", or several with
                  semicolons between them: a verdict for each trace, and for all
                  where every file has a value
  -rule NAME      acceptance rule: max, 16% or median (default: the edition's)
  -agreed NAME    who agreed that a trace counts that is clipped, or has fewer
                  sections
  -json           print JSON instead of CSV
  -jobs N         files evaluated at the same time (default: number of cores)
  -progress       count the files on standard error
`

type options struct {
	folder         string
	settings       *roughness.Settings
	settingsFile   string
	source         []byte // its text, for the place of an error
	hints          *tracefile.Hints
	limits         *judge.Requirement // nil without -limit
	agreed         string
	json, progress bool
	jobs           int
}

func run(ctx context.Context, args []string, out, errs io.Writer) int {
	o, err := parse(args)
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(out, usage)
		return 0
	}
	if err != nil {
		fmt.Fprintf(errs, "batch: %v\n", err)
		return 2
	}
	entries, err := os.ReadDir(o.folder)
	if err != nil {
		fmt.Fprintf(errs, "batch: %v\n", cli.FileError(err))
		return 2
	}
	var names []string
	for _, e := range entries {
		if e.Type().IsRegular() { // a link may lead anywhere, and opening a pipe or a device may never end
			names = append(names, e.Name())
		}
	}
	left := len(entries) - len(names)
	switch {
	case len(entries) == 0:
		fmt.Fprintf(errs, "batch: %s holds no file\n", o.folder)
		return 2
	case len(names) == 0:
		fmt.Fprintf(errs, "batch: %s holds no file: its %d entries are no regular files\n", o.folder, left)
		return 2
	case left > 0:
		fmt.Fprintf(errs, "batch: left out %d of %d entries of %s: no regular files\n", left, len(entries), o.folder)
	}
	// An empty trace has no values, but it has their names, and it shows settings that no trace can follow.
	var wrong *roughness.SettingError
	empty, err := roughness.Evaluate(roughness.Profile{Spacing: 1}, o.settings)
	if errors.As(err, &wrong) {
		err = wrong
		if i := strings.Index(wrong.Key, "["); o.source != nil && (i < 0 || len(o.settings.Parameters) == 0 || o.limits == nil) {
			err = cli.SettingError(o.settingsFile, o.source, wrong)
		}
		fmt.Fprintf(errs, "batch: %s\n", standards.Bare(err))
		return 2
	}
	t := newTable(out, o.json, empty.Values, o.limits)
	each(ctx, len(names), o.jobs, func(i int) row { return evaluate(o, names[i]) }, func(i int, r row) {
		t.add(r)
		if o.progress && ((i+1)%100 == 0 || i+1 == len(names)) {
			fmt.Fprintf(errs, "\r%d of %d files, %d without a value", i+1, len(names), t.failed)
		}
	})
	if o.progress {
		fmt.Fprintln(errs)
	}
	if t.judged != nil && ctx.Err() != nil {
		t.judged.left = len(names) - t.rows
	}
	if err := t.close(); err != nil {
		fmt.Fprintf(errs, "batch: %v\n", err)
		return 1
	}
	if ctx.Err() != nil {
		fmt.Fprintf(errs, "batch: interrupted after %d of %d files\n", t.rows, len(names))
		return 1
	}
	if t.failed > 0 {
		fmt.Fprintf(errs, "batch: %d of %d files without a value; their rows say why\n", t.failed, len(names))
		return 1
	}
	return 0
}

func parse(args []string) (*options, error) {
	o := &options{}
	var settings, hints, limit, rule string
	f := cli.Flags(map[string]*string{"settings": &settings, "text": &hints, "limit": &limit, "rule": &rule, "agreed": &o.agreed}, map[string]*bool{"json": &o.json, "progress": &o.progress})
	f.IntVar(&o.jobs, "jobs", runtime.GOMAXPROCS(0), "")
	if _, err := cli.Parse(f, args); err != nil {
		return nil, err
	}
	if f.NArg() != 1 {
		return nil, fmt.Errorf("one folder is needed, after the flags, not %d", f.NArg())
	}
	if o.jobs < 1 {
		return nil, fmt.Errorf("-jobs %d: at least 1", o.jobs)
	}
	o.folder = f.Arg(0)
	var err error
	if o.settings, o.source, err = cli.ReadSettings(settings); err != nil {
		return nil, err
	}
	if o.hints, _, err = cli.ReadHints(hints); err != nil {
		return nil, err
	}
	o.settingsFile = settings
	return o, o.judgeBy(limit, rule)
}

// judgeBy takes the limits and adds their parameters to the settings.
func (o *options) judgeBy(limit, name string) error {
	switch {
	case limit == "" && name == "" && o.agreed == "":
		return nil
	case limit == "":
		return fmt.Errorf("%s: there is no limit to judge by; give -limit", map[bool]string{true: "-agreed", false: "-rule " + name}[name == ""])
	}
	edition := standards.EditionID("")
	if o.settings != nil {
		edition = o.settings.Edition
	}
	rule, err := judge.ParseRule(name)
	if err != nil {
		return fmt.Errorf("-rule: %w", err)
	}
	if o.limits, err = judge.Limits(limit, edition, rule); err != nil {
		return fmt.Errorf("-limit: %s", standards.Bare(err))
	}
	o.settings = o.limits.Include(o.settings)
	return nil
}

// row is what is left of a trace once it is evaluated: never the points.
type row struct {
	file   string
	values []roughness.Value
	notes  []string
	err    error
	sha256 string // of the heights; empty where the file has none

	verdict *judge.Verdict // nil without -limit
}

func evaluate(o *options, name string) (r row) {
	r.file = name
	path := filepath.Join(o.folder, name)
	if is, err := os.Lstat(path); err == nil && !is.Mode().IsRegular() {
		r.err = fmt.Errorf("%s is no regular file any more", name)
		return r
	}
	trace, err := tracefile.ReadFile(path, o.hints)
	if err != nil {
		r.err = err
		return r
	}
	e, err := roughness.Evaluate(trace.Profile, o.settings)
	r.err, r.sha256 = err, judge.HeightsSHA256(trace.Profile.Z)
	if e != nil {
		for _, v := range e.Values {
			v.Sections = nil
			r.values = append(r.values, v)
		}
		for _, n := range e.Notes {
			r.notes = append(r.notes, n.Code)
		}
	}
	if o.limits != nil && e != nil {
		doubts := trace.Notes
		for _, f := range inspect.Look(trace.Profile, inspect.Under(e)) {
			doubts = append(doubts, f.Note())
		}
		for _, n := range doubts {
			if inspect.Grave(n.Code) && !slices.Contains(r.notes, n.Code) {
				r.notes = append(r.notes, n.Code)
			}
		}
		trace.Profile.Name = name
		j := judge.Judging{Requirement: o.limits, Settings: o.settings, Agreed: o.agreed, Traces: []roughness.Profile{trace.Profile}, Done: []*roughness.Evaluation{e}}
		if r.verdict, err = j.Judge(); err != nil && r.err == nil {
			r.err = err
		}
	}
	return r
}

// each calls work for 0..n-1, jobs at a time, and take with the outcomes in their order. No more than twice as many outcomes as
// jobs wait at any time. When the context ends no new work begins.
func each[T any](ctx context.Context, n, jobs int, work func(int) T, take func(int, T)) {
	type slot chan T
	queue := make(chan slot, jobs)
	room := make(chan struct{}, jobs)
	go func() {
		defer close(queue)
		var wg sync.WaitGroup
		for i := range n {
			select {
			case <-ctx.Done():
				wg.Wait()
				return
			case room <- struct{}{}:
			}
			s := make(slot, 1)
			wg.Go(func() {
				s <- work(i)
				<-room
			})
			queue <- s
		}
		wg.Wait()
	}()
	i := 0
	for s := range queue {
		take(i, <-s)
		i++
	}
}
