package figure

import (
	"fmt"
	"math"
)

// Share is what one difference between two settings does to a value.
type Share struct {
	Name  string // "no S-filter instead of 2.5 µm"
	Value float64
}

// Difference draws how a value goes from one evaluation to the other, a bar for each thing that differs, each starting
// where the one before it ended.
type Difference struct {
	Symbol, Unit string
	First, Last  string // names of the two evaluations
	From, To     float64
	Shares       []Share
}

// Draw draws the ledger.
func (d Difference) Draw(o Options) Picture {
	c := newCanvas(o)
	low, high := math.Min(d.From, d.To), math.Max(d.From, d.To)
	sum := d.From
	widest := math.Max(textWidth(d.First, 14.5), textWidth(d.Last, 14.5)) // semibold runs wide
	for _, s := range d.Shares {
		sum += s.Value
		low, high = math.Min(low, sum), math.Max(high, sum)
		widest = math.Max(widest, textWidth(s.Name, 12))
	}
	x := roomy(low, high, 0.28)
	decimals := heightDecimals(low, high)
	// In the wide design names stand at the left; in the narrow one above their bars.
	row := pick(c, 30.0, 44)
	left := pick(c, math.Min(widest+14, float64(c.w)*0.5), 16)
	top := 22.0
	bottom := top + row*float64(len(d.Shares)+2) + 4
	p := c.newPlot(left, float64(c.w)-pick(c, 64.0, 56), top, bottom, x, [2]float64{0, 1})
	line := func(i int) float64 { return top + row*float64(i) + pick(c, 8.0, 24) } // middle of row i
	name := func(i int, s, classes string) {
		if c.narrow {
			c.text(pt{0, line(i) - 14}, s, classes, start)
		} else {
			c.text(pt{left - 14, line(i) + 5}, s, classes, end)
		}
	}
	end := func(i int, s string, v float64) {
		name(i, s, "strong plated")
		c.line("limit", pt{p.x.at(v), line(i) - 9}, pt{p.x.at(v), line(i) + 9})
		c.text(pt{p.x.at(v) + 8, line(i) + 5}, c.fixed(v, decimals), "strong", start)
	}
	end(0, d.First, d.From)
	t := Table{Columns: []string{"what differs", "changes the value by", "to"}}
	t.Rows = append(t.Rows, []string{d.First, "", c.fixed(d.From, decimals)})
	at := d.From
	for i, s := range d.Shares {
		a, b := p.x.at(at), p.x.at(at+s.Value)
		y := line(i + 1)
		c.line("thin", pt{a, line(i) + 9}, pt{a, y - 7})
		classes, sign := "up", "+"
		if s.Value < 0 {
			classes, sign = "down", ""
		}
		name(i+1, s.Name, "plated")
		c.rect(classes, math.Min(a, b), y-7, math.Max(a, b), y+7)
		figure := sign + c.fixed(s.Value, decimals)
		c.text(pt{math.Max(a, b) + 8, y + 4}, figure, "", start)
		at += s.Value
		t.Rows = append(t.Rows, []string{s.Name, figure, c.fixed(at, decimals)})
	}
	c.line("thin", pt{p.x.at(d.To), line(len(d.Shares)) + 7}, pt{p.x.at(d.To), line(len(d.Shares)+1) - 9})
	end(len(d.Shares)+1, d.Last, d.To)
	t.Rows = append(t.Rows, []string{d.Last, "", c.fixed(d.To, decimals)})
	unit := d.Symbol
	if d.Unit != "" {
		unit += ", " + d.Unit
	}
	p.bottomAxis(c.ticks(x[0], x[1], c.xTicks(p.right()-p.left()), 1), unit)
	c.h = int(bottom) + 40
	desc := fmt.Sprintf("From %s (%s) to %s (%s).", t.Rows[0][2], d.First, t.Rows[len(t.Rows)-1][2], d.Last)
	for _, r := range t.Rows[1 : len(t.Rows)-1] {
		desc += " " + upper(r[0]) + ": " + r[1] + "."
	}
	return c.picture("Where the difference comes from", c.prose(desc), "Each bar is what one difference in the settings does to the value.", t)
}
