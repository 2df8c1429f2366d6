package figure

import (
	"fmt"
	"math"
	"slices"
)

// Share is what one difference between two settings does to a value.
type Share struct {
	Name  string // "no S-filter instead of 2.5 µm"
	Value float64
}

// DifferenceChart draws how a value goes from one evaluation to the other, a bar for each thing that differs, each starting
// where the one before it ended.
type DifferenceChart struct {
	Symbol, Unit string
	First, Last  string // names of the two evaluations
	From, To     float64
	Shares       []Share
}

// Draw draws the ledger.
func (d DifferenceChart) Draw(o Options) Picture {
	c := newCanvas(o)
	d.Shares = slices.Clone(d.Shares)
	numbers := []*float64{&d.From, &d.To}
	for i := range d.Shares {
		numbers = append(numbers, &d.Shares[i].Value)
	}
	c.scale(&d.Unit, numbers...)
	low, high := min(d.From, d.To), max(d.From, d.To)
	sum := d.From
	widest := max(textWidth(d.First, 14.5), textWidth(d.Last, 14.5)) // semibold runs wide
	for _, s := range d.Shares {
		sum += s.Value
		low, high = min(low, sum), max(high, sum)
		widest = max(widest, textWidth(s.Name, 12))
	}
	decimals := max(spreadDecimals(low, high), min(decimalsFor(max(math.Abs(low), math.Abs(high)), 3), 9)) // two values that are the same have three digits
	// In the wide design names stand at the left; in the narrow one above their bars.
	const top = 22
	row := c.pick(30, 44)
	left := c.pick(min(widest+14, float64(c.w)*0.5), 16)
	p := c.lay(roomy(low, high, 0.28, counted(d.Symbol, d.Unit)), axis{high: 1},
		left, float64(c.w)-c.pick(64, 56), top, top+row*float64(len(d.Shares)+2)+4)
	y := top + c.pick(8, 24) // middle of the row
	name := func(s, classes string) {
		if c.narrow {
			c.text(0, y-14, s, classes, start)
		} else {
			c.text(left-14, y+5, s, classes, end)
		}
	}
	t := columns("what differs", "changes the value by", "to")
	evaluation := func(s string, v float64) {
		name(s, "strong plated")
		at := p.x.at(v)
		c.stroke("limit", at, y-9, at, y+9)
		c.text(at+8, y+5, c.fixed(v, decimals), "strong", start)
		t.add(s, "", c.fixed(v, decimals))
	}
	// drop leads from a place in this row to the next one.
	drop := func(v, below, above float64) {
		c.stroke("thin", p.x.at(v), y+below, p.x.at(v), y+row-above)
		y += row
	}
	evaluation(d.First, d.From)
	desc := fmt.Sprintf("From %s (%s) to %s (%s).", c.fixed(d.From, decimals), d.First, c.fixed(d.To, decimals), d.Last)
	at := d.From
	for _, s := range d.Shares {
		drop(at, 9, 7)
		a, b := p.x.at(at), p.x.at(at+s.Value)
		classes, figure := "up", "+"
		if s.Value < 0 {
			classes, figure = "down", ""
		}
		figure += c.fixed(s.Value, decimals)
		name(s.Name, "plated")
		c.rect(classes, min(a, b), y-7, max(a, b), y+7)
		c.text(max(a, b)+8, y+4, figure, "", start)
		at += s.Value
		t.add(s.Name, figure, c.fixed(at, decimals))
		desc += " " + upper(s.Name) + ": " + figure + "."
	}
	drop(d.To, 7, 9)
	evaluation(d.Last, d.To)
	p.bottomAxis()
	return c.picture("Where the difference comes from", c.prose(desc), "Each bar is what one difference in the settings does to the value.", t)
}
