// Command embed shows the library in a program of one's own: read a trace, evaluate it by a drawing requirement, look at where the
// value comes from, and decide. Then the same with an Evaluator, for a program that evaluates many traces, or one trace again and again.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/judge"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/roughness/tracefile"
	"example.com/furrow/standards"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(args []string, out io.Writer) error {
	profile, err := load(args)
	if err != nil {
		return err
	}

	// What the drawing asks gives the settings, the limit and the rule.
	req, err := judge.ReadRequirement("Rz 3,2", "iso-21920")
	if err != nil {
		return err
	}
	fmt.Fprintln(out, req.Readings[0])

	e, err := roughness.Evaluate(profile, req.Settings)
	if err != nil {
		return err // a *SettingError or a *ProfileError, with its place
	}
	rz, _ := e.Value("Rz")
	fmt.Fprintf(out, "%s = %.3f %s, sections %.2f (%s; %s)\n", rz.Symbol, rz.Value, rz.Unit, rz.Sections, rz.Source, rz.Source.Basis)

	judging := judge.Judging{Requirement: req, Traces: []roughness.Profile{profile}, Done: []*roughness.Evaluation{e}}
	verdict, err := judging.Judge()
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s. %s\n%s\n", verdict.Word, verdict.Sentence, standards.Caution)
	return stream(profile, req.Settings, out)
}

// stream evaluates through an Evaluator, which looks at the settings once and keeps its buffers. Settings that differ in the cut-off go on
// with the primary profile that is there.
func stream(profile roughness.Profile, set *roughness.Settings, out io.Writer) error {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	evaluator, err := roughness.NewEvaluator(set)
	if err != nil {
		return err
	}
	for _, cutoff := range []float64{250, 800} {
		moved := evaluator.Settings()
		moved.Long.Spec.Cutoff, moved.SectionLength = cutoff, cutoff
		with, err := evaluator.With(moved)
		if err != nil {
			return err
		}
		e, err := with.Measure(ctx, profile) // Evaluate, where the profiles are wanted as well
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "cut-off %g µm: %s = %.3f %s\n", cutoff, e.Values[0].Symbol, e.Values[0].Value, e.Values[0].Unit)
	}
	return nil
}

// load reads the file named, or takes the invented demonstration trace.
func load(args []string) (roughness.Profile, error) {
	if len(args) == 0 {
		d := synth.Demos()[0]
		return roughness.Profile{Z: d.Heights(), Spacing: d.Spacing, Name: d.Title}, nil
	}
	data, err := os.ReadFile(args[0])
	if err != nil {
		return roughness.Profile{}, err
	}
	trace, err := tracefile.Read(data, nil)
	if err != nil {
		return roughness.Profile{}, err // a *tracefile.Error with line and column, or the questions that the file leaves open
	}
	return trace.Profile, nil
}
