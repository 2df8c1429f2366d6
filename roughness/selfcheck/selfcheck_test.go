package selfcheck_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"example.com/furrow/roughness/selfcheck"
)

// TestRegister: all checks agree, and each has what a reader needs to follow it.
func TestRegister(t *testing.T) {
	seen := map[string]bool{}
	list := selfcheck.Run()
	for _, c := range list {
		if c.Word != selfcheck.Agrees {
			t.Errorf("%s: found %.12g, want %.12g ± %g (%s) %s", c.ID, c.Found, c.Expected, c.Tolerance, c.Source, c.Fault)
		}
		if seen[c.ID] || c.Subject == "" || c.Source == "" || c.Basis == "" || c.Reason == "" {
			t.Errorf("%s: not complete, or twice: %+v", c.ID, c)
		}
		seen[c.ID] = true
	}
	t.Log(selfcheck.Totals(list))
}

var update = flag.Bool("update", false, "write testdata/SOURCES.md and README.md anew")

// TestSources: the list of the register in testdata/SOURCES.md is the register, and README has its totals. With -update they are written.
func TestSources(t *testing.T) {
	list := selfcheck.Run()
	var b strings.Builder
	b.WriteString("| checks | of | source | known by | tolerance |\n|---:|---|---|---|---|\n")
	for i := 0; i < len(list); {
		c, n := list[i], i
		for n < len(list) && list[n].Set == c.Set {
			n++
		}
		fmt.Fprintf(&b, "| %d | %s: %s | %s | %s | %s |\n", n-i, c.Set, strings.TrimPrefix(c.What, c.Name+" of "), c.Group, c.Basis, c.Reason)
		i = n
	}
	between(t, "../../testdata/SOURCES.md", b.String())
	between(t, "../../README.md", fmt.Sprintf("The register has %d checks. %s\n", len(list), selfcheck.Totals(list)))
}

// between compares what a file has between its two marks of the register.
func between(t *testing.T, name, want string) {
	const begin, end = "<!-- register -->\n", "<!-- end of register -->\n"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), begin)
	got, after, ok2 := strings.Cut(rest, end)
	if !ok || !ok2 {
		t.Fatalf("%s has no marks of the register", name)
	}
	if *update {
		if err := os.WriteFile(name, []byte(before+begin+want+end+after), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if got != want {
		t.Errorf("%s is not current; go test ./roughness/selfcheck -run TestSources -update writes it", name)
	}
}
