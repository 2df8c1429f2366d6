// Command plan says what the text of a drawing requirement means, without a trace.
//
//	plan [-edition ID] [-json] [--] TEXT
//
// Exit status: 0 read, or understood with questions open; 2 refused, or bad usage.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
	"example.com/furrow/standards/callout"
)

const usage = `usage: plan [-edition ID] [-json] [--] TEXT

Says what the text of a drawing requirement means: its limits, what each is
measured with, the trace that is needed, and what the text leaves open.

  -edition ID  the edition to read it by (default iso-21920): iso-21920,
               iso-4287, iso-12085, asme-b46.1, jis-b0601-2013,
               jis-b0601-1994, jis-b0601-1982
  -json        print JSON

Write -- before a text that begins with a hyphen:
  plan -edition iso-4287 -- "-0,8/Ra 1,6"
`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, errs io.Writer) int {
	set := flag.NewFlagSet("plan", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	edition := set.String("edition", "iso-21920", "")
	asJSON := set.Bool("json", false, "")
	bad := func(format string, a ...any) int {
		fmt.Fprintf(errs, "plan: "+format+"\n", a...)
		return 2
	}
	// A text may begin with a hyphen and a digit: no flag does.
	for i, a := range args {
		if a == "--" {
			break
		}
		if text := strings.TrimLeft(a, "-−–"); text != a && text != "" && !unicode.IsLetter(rune(text[0])) && (i == 0 || args[i-1] != "-edition") {
			args = append(append(append([]string{}, args[:i]...), "--"), args[i:]...)
			break
		}
	}
	if err := set.Parse(args); errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(out, usage)
		return 0
	} else if err != nil {
		return bad("%v", err)
	}
	if set.NArg() != 1 {
		return bad("one text is needed, not %d; put it in quotation marks, with a semicolon between limits", set.NArg())
	}
	text, id := set.Arg(0), standards.EditionID(*edition)
	if _, ok := standards.EditionByID(id); !ok {
		return bad("-edition: no edition is called %q; there are %s", id, standards.EditionNames(standards.EditionIDs()))
	}
	r, err := judge.ReadRequirement(text, id)
	if *asJSON {
		out.Write(record.AppendPlan(nil, text, id))
	}
	if err != nil {
		e := &callout.TextError{Line: 1, Column: 1, Reason: err.Error()}
		errors.As(err, &e)
		return bad("TEXT:%d:%d: %s", e.Line, e.Column, e.Said())
	}
	if !*asJSON {
		print(out, r)
	}
	return 0
}

// print writes the plan for a reader, within 80 columns.
func print(out io.Writer, r *judge.Requirement) {
	for i := range r.Items {
		item := &r.Items[i]
		if i > 0 {
			fmt.Fprintln(out)
		}
		cli.Wrap(out, item.Reading(), "")
		if cutoff := item.Settings["long.cutoff"]; item.Complete && cutoff.Number > 0 && !cutoff.Provisional { // a note names the table of a first estimate
			cli.Wrap(out, cli.Cutoff(standards.Length(cutoff.Number), cutoff.Origin), "  ")
		}
		for _, line := range needed(item) {
			cli.Wrap(out, line, "  ")
		}
		for _, n := range item.Notes {
			cli.Wrap(out, n, "  ")
		}
	}
	for _, q := range r.Open() {
		fmt.Fprintln(out)
		cli.Wrap(out, "Open: "+q.Text, "")
		for _, a := range q.Answers {
			says := a.Text
			if a.Then != "" {
				says += ": write " + strings.ReplaceAll(a.Then, "\n", " / ")
			}
			if a.Edition != "" {
				says += ", with -edition " + string(a.Edition)
			}
			cli.Wrap(out, "- "+says, "  ")
		}
	}
}

// needed says which trace the settings need.
func needed(item *callout.Item) []string {
	if !item.Complete {
		return nil
	}
	if item.Settings["long.cutoff"].Provisional {
		return []string{"The measured value chooses the cut-off, so the trace that is needed is found by measuring."}
	}
	p, err := callout.Advise(item, callout.Surface{})
	if err != nil || item.Settings["evaluation"].Number == 0 {
		return []string{"The trace is as long as the feature."}
	}
	text := "Trace: " + standards.Length(p.Evaluation) + " to evaluate"
	if p.Lead+p.Tail > 0 {
		text += ", " + standards.Length(p.Traverse) + " with run-up and run-out"
	}
	if p.MaxSpacing > 0 {
		text += "; points at most " + standards.Length(p.MaxSpacing) + " apart"
	}
	if p.TipRadius > 0 {
		text += "; tip radius at most " + standards.Length(p.TipRadius)
	}
	return []string{text + "."}
}
