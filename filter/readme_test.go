package filter_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"example.com/furrow/filter"
)

var update = flag.Bool("update", false, "rewrite README.md")

// README is made from the list of filters.
func TestReadme(t *testing.T) {
	const name = "README.md"
	want := readme()
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if has, err := os.ReadFile(name); err != nil || string(has) != want {
		t.Errorf("%s is out of date (%v): go test ./filter -run Readme -update", name, err)
	}
}

func readme() string {
	var b strings.Builder
	b.WriteString(`# filter

Profile filters and form removal on slices of heights at equal spacing. The package comment says what they share; this list is made from
` + "`filter.All`, `filter.Options` and `filter.EndTreatments`" + ` by ` + "`go test ./filter -run Readme -update`" + `.

## The filters

A filter computes the long waves W; the roughness R is what is left. "Excerpt": we have seen this part of the text quoted; "memory": we have not.

| setting | name | what it does | of a sine at the cut-off stays in W / R | takes | source (basis) |
|---|---|---|---|---|---|
`)
	for _, f := range filter.All() {
		share := "an envelope"
		if !f.Envelope() {
			share = fmt.Sprintf("%.3g %% / %.3g %%", 100*f.AtCutoff, 100*f.Short)
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s | %s (%s) |\n", f.Key, f.Name, f.Says, share, takes(&f), f.Source, f.Basis)
	}
	b.WriteString("\n## What they take\n\n| key | what it is | range |\n|---|---|---|\n")
	for _, o := range filter.Options() {
		words := o.Range()
		if o.Word {
			words = "one of the words below"
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", o.Key, o.Says, words)
	}
	b.WriteString("\n## The ends of a profile\n\nAll filters can discard them; those that take `ends` have every treatment.\n\n| word | what it does | term |\n|---|---|---|\n")
	for _, e := range filter.EndTreatments() {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", e.Key, e.Name, e.Hint)
	}
	return b.String()
}

// takes lists the options of a filter with their defaults.
func takes(f *filter.Info) string {
	var list []string
	full := filter.Spec{Filter: f.Key}.Complete()
	for _, key := range f.Options {
		for _, o := range filter.Options() {
			if o.Key != key {
				continue
			}
			word := "`" + key + "`"
			if v, stated := o.Get(full); stated {
				word += fmt.Sprintf(" %g", v)
			} else if key != f.Size() {
				word += " 0"
			}
			list = append(list, word)
		}
	}
	if f.AnyEnds {
		list = append(list, "`ends` "+full.Ends)
	}
	return strings.Join(list, ", ")
}

// What the list says that settings use where they leave something out is what the filter itself uses.
func TestDefaults(t *testing.T) {
	z := rough(2000, 3)
	for _, f := range filter.All() {
		whole := filter.Spec{Filter: f.Key}
		for _, o := range filter.Options() {
			if o.Key == f.Size() {
				o.Set(&whole, 60)
			}
		}
		whole = whole.Complete()
		if err := whole.Check(); err != nil {
			t.Fatal(err)
		}
		if d := greatest(apply(t, whole.New(), z, 1), apply(t, f.New(60), z, 1)); d != 0 || math.IsNaN(d) {
			t.Errorf("%s: its defaults stated change it by %g", f.Key, d)
		}
	}
}

// A filter's row is all that settings need to know of it, and what is foreign to it is refused by name.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		s    filter.Spec
		want string
	}{
		{filter.Spec{Filter: "gauss", Cutoff: 800}, "filter: no filter is called \"gauss\"; there are [disk-alternating disk-closing"},
		{filter.Spec{Filter: "gaussian"}, "filter: cutoff: is missing"},
		{filter.Spec{Filter: "gaussian", Cutoff: -1}, "filter: cutoff: must be a length above 0"},
		{filter.Spec{Filter: "gaussian", Cutoff: 800, Tension: 0.5}, "filter: tension: does not belong to the filter \"gaussian\""},
		{filter.Spec{Filter: "gaussian", Cutoff: 800, Support: 5}, "filter: support: must be a number above 0 and at most 4"},
		{filter.Spec{Filter: "spline", Cutoff: 800, Tension: 2}, "filter: tension: must be a number from 0 to 1"},
		{filter.Spec{Filter: "robust-gaussian", Cutoff: 800, Passes: -1}, "filter: passes: must be a whole number from 1 to 10000"},
		{filter.Spec{Filter: "robust-gaussian", Cutoff: 800, Order: new(int), Tolerance: 1}, "filter: tolerance: must be a number above 0 and below 1"},
		{filter.Spec{Filter: "two-rc-zero-phase", Cutoff: 800, Transmission: 60}, "filter: transmission: must be 75 or 50"},
		{filter.Spec{Filter: "spline", Cutoff: 800, Ends: "zero"}, "filter: ends: the filter \"spline\" has no such choice; it can only discard"},
		{filter.Spec{Filter: "spline", Cutoff: 800, Ends: "cut"}, "filter: ends: no treatment of the ends is called \"cut\"; there are [retain"},
		{filter.Spec{Filter: "gaussian", Cutoff: 800, Fit: 5}, "filter: fit: must be a length above 0, and belongs to the ends \"linear\""},
	} {
		if err := c.s.Check(); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %s", c.s, err, c.want)
		}
	}
	order := 3
	if err := (filter.Spec{Filter: "robust-gaussian", Cutoff: 800, Order: &order}).Check(); err == nil || err.Error() != "filter: order: must be 0, 1 or 2" {
		t.Error(err)
	}
}

// Two stages follow the lengths that settings state for their ends as one stage does.
func TestEndsOfTwoStages(t *testing.T) {
	s := filter.Spec{Filter: "valley-suppression", Cutoff: 60, Ends: "discard", DiscardLength: 10}
	if head, tail := s.Trim(1000, 1); head != 10 || tail != 10 {
		t.Errorf("10 to discard cut away %d and %d", head, tail)
	}
	z := rough(2000, 3)
	short, long := filter.Spec{Filter: "valley-suppression", Cutoff: 60, Ends: "linear", Fit: 5}, filter.Spec{Filter: "valley-suppression", Cutoff: 60, Ends: "linear", Fit: 50}
	if greatest(apply(t, short.New(), z, 1), apply(t, long.New(), z, 1)) == 0 {
		t.Error("the length of the fit changes nothing")
	}
}
