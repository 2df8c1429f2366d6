package figure

import (
	"fmt"
	"math"
	"strings"
)

// Class is a setting class on the line of a limit.
type Class struct {
	Name string  // "Sc3"
	To   float64 // largest limit of the class; +Inf for the last
	Nic  float64 // its nesting index, in µm
}

// Classes draws setting classes on a logarithmic line, with the limit of a requirement on its class.
type Classes struct {
	Symbol  string // "Rz"
	Unit    string // "µm"
	Limit   float64
	Classes []Class // in rising order
}

// chosen is the index of the class that the limit lies in, -1 where it lies in none.
func (d Classes) chosen() int {
	for i, c := range d.Classes {
		if d.Limit > 0 && d.Limit <= c.To {
			return i
		}
	}
	return -1
}

// Draw draws the line. The first and the last class are as wide as they need to be for their names.
func (d Classes) Draw(o Options) Picture {
	c := newCanvas(o)
	if len(d.Classes) < 2 {
		return c.nothing("Setting classes", "There are no setting classes to draw.")
	}
	left, right, margin := pick(c, 74.0, 4), float64(c.w)-4, pick(c, 60.0, 34)
	top, bottom := pick(c, 34.0, 50), pick(c, 80.0, 96)
	first, last := d.Classes[0].To, d.Classes[len(d.Classes)-2].To
	p := c.newPlot(left, right, top, bottom, [2]float64{first, last}, [2]float64{0, 1})
	p.x.log, p.x.a, p.x.b = true, left+margin, right-margin
	c.frames[0].XLog, c.frames[0].Left, c.frames[0].Right = true, p.x.a, p.x.b
	chosen := d.chosen()
	from := left
	t := Table{Columns: []string{"class", strings.TrimSuffix(d.Symbol+" limit up to, "+d.Unit, ", "), "nesting index Nic, mm", ""}}
	for i, class := range d.Classes {
		to := right
		if i < len(d.Classes)-1 {
			to = p.x.at(class.To)
		}
		box, words := "band", [2]string{"", "u"}
		if i == chosen {
			box, words = "band on", [2]string{"strong", "strong"}
		}
		c.rect(box, from, top, to, bottom)
		c.text(pt{(from + to) / 2, top + 19}, class.Name, words[0], middle)
		c.text(pt{(from + to) / 2, top + 37}, c.mm(class.Nic), words[1], middle)
		limit, here := "no end", ""
		if !math.IsInf(class.To, 1) {
			limit = c.short(class.To, 4)
			c.line("axis", pt{to, bottom}, pt{to, bottom + 5})
			if i != chosen && i+1 != chosen || math.Abs(to-p.x.at(d.Limit)) > 24 || d.Limit <= 0 {
				c.text(pt{to, bottom + 19}, limit, "n", middle)
			}
		}
		if i == chosen {
			here = "the limit " + c.short(d.Limit, 6) + " lies here"
		}
		t.Rows = append(t.Rows, []string{class.Name, limit, c.mm(class.Nic), here})
		from = to
	}
	if chosen >= 0 {
		x := math.Min(math.Max(p.x.at(d.Limit), left+4), right-4)
		c.line("acc", pt{x, top - 12}, pt{x, top - 4})
		c.path("accf", fmt.Sprintf("M%sl-4.5 -8h9z", at(pt{x, top - 1.5})))
		c.line("acc", pt{x, bottom}, pt{x, bottom + 5})
		text := pick(c, "limit as written: ", "") + d.Symbol + " " + c.short(d.Limit, 6) + pick(c, " "+d.Unit, "")
		half := textWidth(text, 13) / 2
		c.text(pt{math.Min(math.Max(x, half), float64(c.w)-half), top - 17}, text, "ta", middle)
		c.text(pt{x, bottom + 19}, c.short(d.Limit, 6), "ta", middle)
	}
	c.h = int(bottom) + 36
	if c.narrow {
		c.text(pt{4, 14}, "class, and below it N_{ic} in mm", "u", start)
		c.text(pt{right, bottom + 34}, d.Symbol+" limit, "+d.Unit, "u", end)
	} else {
		c.text(pt{left - 8, top + 19}, "class", "u", end)
		c.text(pt{left - 8, top + 37}, "N_{ic}, mm", "u", end)
		c.text(pt{left - 8, bottom + 19}, d.Symbol+" limit, "+d.Unit, "u", end)
	}
	var words []string
	for _, r := range t.Rows {
		if r[1] == "no end" {
			words = append(words, r[0]+" beyond")
		} else {
			words = append(words, r[0]+" up to "+r[1])
		}
	}
	desc := fmt.Sprintf("Setting classes along the %s limit: %s.", d.Symbol, strings.Join(words, ", "))
	if chosen >= 0 {
		desc += fmt.Sprintf(" The limit %s lies in %s, nesting index %s mm.", c.short(d.Limit, 6), t.Rows[chosen][0], t.Rows[chosen][2])
	}
	return c.picture("Setting class for "+d.Symbol, desc, "", t)
}
