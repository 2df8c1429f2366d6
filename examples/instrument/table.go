package main

import (
	"fmt"
	"math"
	"strings"

	"example.com/furrow/examples/internal/cli"
	"example.com/furrow/roughness/instrument"
	"example.com/furrow/standards"
)

// table prints a check for a reader, within 80 columns.
func table(c *instrument.Check) []byte {
	var p cli.Page
	p.Say("%s", c.Sentence)
	p.WriteByte('\n')
	if len(c.Values) > 0 && c.Kind != "budget" {
		p.Row("trace", c.Symbol+" "+c.Unit)
		for i, v := range c.Values {
			p.Row(fmt.Sprint(i+1), cli.Short(v))
		}
		p.WriteByte('\n')
	}
	shares := false
	for _, l := range c.Lines {
		shares = shares || !math.IsNaN(l.Share)
	}
	head := []string{"value", ""}
	if shares {
		head = []string{"u", "", "share"}
	}
	if len(c.Lines) > 0 {
		p.Row(map[bool]string{true: "influence", false: "number"}[shares], head...)
	}
	for _, l := range c.Lines {
		cells := []string{cli.Short(l.Value), l.Unit}
		if shares {
			share := ""
			if !math.IsNaN(l.Share) {
				share = fmt.Sprintf("%.1f %%", 100*l.Share)
			}
			cells = append(cells, share)
		}
		name := l.Name
		if source := l.Source.String(); source != "" {
			name += " (" + source + "; " + string(l.Source.Basis) + ")"
		}
		p.Row(name, cells...)
	}
	for i, n := range c.Notes {
		if i == 0 {
			p.WriteByte('\n')
		}
		p.Say("%s", n)
	}
	if len(c.Settings) > 0 {
		p.WriteByte('\n')
		p.Say("Settings: %s.", strings.Join(c.Settings, "; "))
	}
	return p.End(standards.Caution)
}
