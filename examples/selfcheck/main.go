// Command selfcheck runs the check register on this machine: every value from outside that furrow is held against.
//
//	selfcheck [-json] [-html FILE]
//
// Exit status: 0 all checks agree; 1 one differs; 2 bad usage, or the sheet cannot be written.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/selfcheck"
	"example.com/furrow/standards"
)

const usage = `usage: selfcheck [-json] [-html FILE]

Runs the check register on this machine: values from standards, textbooks,
general libraries and closed forms, each with what furrow finds. No file and no
network is needed.

  -json       print JSON
  -html FILE  write the validation sheet too, a page that prints
`

func main() { os.Exit(run(os.Args[1:], selfcheck.Run, os.Stdout, os.Stderr)) }

func run(args []string, checks func(areas ...string) []selfcheck.Comparison, out, errs io.Writer) int {
	asJSON, sheet := false, ""
	set := cli.Flags(map[string]*string{"html": &sheet}, map[string]*bool{"json": &asJSON})
	bad := func(err error) int {
		fmt.Fprintf(errs, "selfcheck: %s\n", cli.OneLine(err.Error()))
		return 2
	}
	if _, err := cli.Parse(set, args); errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(out, usage)
		return 0
	} else if err != nil {
		return bad(err)
	}
	if set.NArg() > 0 {
		return bad(fmt.Errorf("%s: no file is needed", set.Arg(0)))
	}
	list := checks()
	if sheet != "" {
		if err := record.WriteFile(sheet, record.AppendValidation(nil, list, time.Now().UTC().Format("2006-01-02 15:04 MST"))); err != nil {
			return bad(cli.FileError(err))
		}
	}
	if asJSON {
		out.Write(record.AppendSelfcheck(nil, list))
	} else {
		out.Write(table(list))
	}
	return min(1, selfcheck.Failed(list))
}

// table prints the checks for a reader, within 80 columns.
func table(list []selfcheck.Comparison) []byte {
	var p cli.Page
	p.Row("", "expected", "found", "")
	last := ""
	for _, c := range list {
		if c.Set != last {
			last = c.Set
			p.WriteByte('\n')
			p.Say("%s", fmt.Sprintf("%s (%s, %s)", c.Set, c.Group, c.Basis))
		}
		p.Row("  "+c.Name, cli.Short(c.Expected), cli.Short(c.Found), c.Word)
		if c.Word != selfcheck.Agrees {
			cli.Wrap(&p, fmt.Sprintf("tolerance %.1g (%s) %s", c.Tolerance, c.Reason, c.Fault), "    ")
		}
	}
	p.WriteByte('\n')
	p.Say("%d of %d checks agree. %s", len(list)-selfcheck.Failed(list), len(list), selfcheck.Totals(list))
	return p.End(standards.Caution)
}
