// Package selfcheck is the check register: every value from outside that furrow is held against, with where the value comes from, how it is
// known, what furrow may miss it by and why, and how furrow gets its own.
//
// [Run] computes all of them on the machine it runs on. The tests of the packages run it, the command selfcheck and the page print it, and
// testdata/SOURCES.md lists it. A check is a line of a table: table.go has those of parameters, tablefilter.go those of filters and
// decisions. Besides the register stand the second implementations in the tests of params and filter.
package selfcheck

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// Bases besides those of a document.
const (
	ClosedForm standards.Basis = "closed form"     // follows from the definition with pencil and paper
	Library    standards.Basis = "general library" // computed by a general numeric library
)

// The two words of a check.
const (
	Agrees  = "agrees"
	Differs = "differs"
)

// A Comparison is a check: one value from outside and what furrow finds.
type Comparison struct {
	ID        string // "sine Ra": Set and Name
	Set, Name string
	Area      string // the package that computes it: params, filter, standards, roughness
	Subject   string // key of the parameter or filter; else what it is about
	What      string // "Ra of a sine of amplitude 1"
	Source    string // where the expected value stands, or how it follows: that of the whole set, Group, with the formula or place of its own
	Group     string
	Basis     standards.Basis
	Expected  float64
	Tolerance float64 // absolute
	Reason    string  // of the tolerance
	Found     float64 // NaN where there is none
	Word      string  // Agrees or Differs
	Fault     string  // why nothing was found; empty where something was
}

// A finder runs the library for the name at the beginning of a row, and says which parameter or filter that was about.
type finder func(name string) (found float64, subject string, err error)

// A set is a group of checks on one profile or one question. A row is a name, the expected value, the tolerance ("=": 1e-9 of the value, at
// least 1e-9) and, where it has one, the formula or place of its own.
type set struct {
	id, of, source string
	basis          standards.Basis
	reason         string // of the tolerances
	find           func() finder
	rows           string
}

// Areas are the packages that the register looks at.
func Areas() []string { return []string{"params", "filter", "standards", "roughness"} }

// Run runs the checks of the areas, of all without one. It needs well under a second.
func Run(areas ...string) []Comparison {
	var list []Comparison
	for _, area := range Areas() {
		if len(areas) > 0 && !slices.Contains(areas, area) {
			continue
		}
		for _, s := range sets(area) {
			find := s.find()
			for row := range strings.Lines(s.rows) {
				if strings.TrimSpace(row) != "" {
					list = append(list, s.check(area, row, find))
				}
			}
		}
	}
	return list
}

// Failed counts the checks that differ.
func Failed(list []Comparison) (n int) {
	for _, c := range list {
		if c.Word != Agrees {
			n++
		}
	}
	return n
}

func (s *set) check(area, row string, find finder) Comparison {
	part := strings.Fields(row)
	name := strings.Replace(part[0], ":", " ", 1)
	c := Comparison{ID: s.id + " " + name, Set: s.id, Name: name, Group: s.source, Area: area, What: name + " of " + s.of, Source: s.source, Basis: s.basis, Reason: s.reason, Found: math.NaN(), Word: Differs}
	if len(part) > 3 {
		c.Source += ": " + strings.Join(part[3:], " ")
	}
	var err, bad error
	c.Expected, err = strconv.ParseFloat(part[1], 64)
	c.Tolerance, bad = 1e-9*max(1, math.Abs(c.Expected)), nil
	if part[2] != "=" {
		c.Tolerance, bad = strconv.ParseFloat(part[2], 64)
	}
	if err != nil || bad != nil {
		panic("selfcheck: row " + row)
	}
	if c.Found, c.Subject, err = find(name); err != nil {
		c.Found, c.Fault = math.NaN(), err.Error()
	} else if math.Abs(c.Found-c.Expected) <= c.Tolerance {
		c.Word = Agrees
	}
	return c
}

// Totals says in one sentence how many expected values of the list are known by what.
func Totals(list []Comparison) string {
	count := map[standards.Basis]int{}
	for _, c := range list {
		count[c.Basis]++
	}
	var parts []string
	for _, b := range []standards.Basis{standards.TextRead, standards.Excerpt, standards.Trade, standards.Memory, ClosedForm, Library} {
		if count[b] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", count[b], b))
		}
	}
	return "Known by: " + strings.Join(parts, ", ") + "."
}
