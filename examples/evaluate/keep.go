package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

// recordKinds are the endings of a record's name.
var recordKinds = []string{".json", ".html"}

// checkRecord refuses a name that is none of a record, or that would write over what is read.
func (o *options) checkRecord() error {
	if !slices.Contains(recordKinds, strings.ToLower(filepath.Ext(o.record))) {
		return fmt.Errorf("-record %s: the name of a record ends in %s", o.record, strings.Join(recordKinds, " or "))
	}
	there, err := os.Stat(o.record)
	if err != nil {
		return nil // it is written for the first time
	}
	for _, name := range append([]string{o.settings, o.hints}, o.files...) {
		if read, err := os.Stat(name); err == nil && os.SameFile(read, there) {
			return fmt.Errorf("-record %s: this file is read, and a record would write over it", o.record)
		}
	}
	return nil
}

// keep writes the record of this run. The evaluations have no notes of the command yet.
func (w *work) keep() error {
	o := w.options
	s := &record.Sheet{Settings: w.settings, Invented: len(o.files) == 0 && len(w.traces) > 0, Notes: w.notes,
		Asked: w.asked()}
	if o.typed != "" {
		s.Typed = []record.TypedValue{{Text: o.typed}}
	}
	for i, t := range w.traces {
		kept := record.SheetTrace{Profile: t.Profile, Hints: t.Hints, Reading: strings.TrimSpace(t.Report.String()), Notes: t.Notes, Done: w.evaluations[i]}
		if t.Data != nil {
			kept.File = record.NewFile(filepath.ToSlash(t.Name), t.Data)
		} else {
			kept.Reading = ""
		}
		s.Traces = append(s.Traces, kept)
	}
	r, err := s.Record(time.Now())
	if err != nil {
		return err
	}
	document := record.AppendRecord(nil, r)
	if strings.EqualFold(filepath.Ext(o.record), ".html") {
		document = record.AppendPage(nil, r, w.display)
	}
	if err := record.WriteFile(o.record, document); err != nil {
		return cli.FileError(err)
	}
	return nil
}

// verify evaluates the traces of a record again and says whether every value and the verdict come out the same.
func verify(o *options) (int, []byte, error) {
	data, err := os.ReadFile(o.verify)
	if err != nil {
		return 0, nil, cli.FileError(err)
	}
	kept, err := record.Open(data)
	if err != nil {
		return 0, nil, cli.Located(o.verify, err)
	}
	v, err := kept.Verify()
	if err != nil {
		return 0, nil, fmt.Errorf("%s: %s", o.verify, standards.Bare(err))
	}
	code := evaluated
	if !v.Same {
		code = undefined
	}
	if o.json {
		return code, record.AppendVerification(nil, kept, v), nil
	}
	var b strings.Builder
	m := kept.Made
	cli.Para(&b, "", fmt.Sprintf("Record %s of %s, made %s with furrow %s on %s.", m.Number, v.Again.Name, m.Time, m.Version, m.Platform))
	if v.Same {
		cli.Para(&b, "", "Every value and the verdict come out the same.")
	} else {
		cli.Para(&b, "", fmt.Sprintf("It does not come out the same (this is furrow %s):", record.Version))
		for _, d := range v.Differences {
			cli.Para(&b, "- ", d.String()+".")
		}
	}
	if j := v.Again.Verdict; j != nil {
		cli.Para(&b, "", string(j.Word)+". "+j.Sentence)
	}
	b.WriteByte('\n')
	cli.Para(&b, "", standards.Caution)
	return code, []byte(b.String()), nil
}

var errVerifyAlone = errors.New("-verify reads a record, which holds traces and settings, and takes -json only besides")
