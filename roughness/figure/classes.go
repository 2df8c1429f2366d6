package figure

import (
	"fmt"
	"math"
	"slices"
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
	d.Classes = slices.Clone(d.Classes)
	numbers := []*float64{&d.Limit}
	for i := range d.Classes {
		numbers = append(numbers, &d.Classes[i].To)
	}
	c.scale(&d.Unit, numbers...)
	if len(d.Classes) < 2 {
		return c.nothing("Setting classes", "There are no setting classes to draw.")
	}
	left, right, margin := c.pick(74, 4), float64(c.w)-4, c.pick(60, 34)
	top, bottom := c.pick(34, 50), c.pick(80, 96)
	x := axis{low: d.Classes[0].To, high: d.Classes[len(d.Classes)-2].To, log: true}
	p := c.lay(x, axis{high: 1}, left+margin, right-margin, top, bottom)
	c.h = int(bottom) + 36
	chosen := d.chosen()
	limit := c.short(d.Limit, 6)
	from := left
	t := columns("class", counted(d.Symbol+" limit up to", d.Unit), "nesting index Nic, mm", "")
	var words []string
	for i, class := range d.Classes {
		to := right
		if i < len(d.Classes)-1 {
			to = p.x.at(class.To)
		}
		box, name, index := "band", "", "u"
		if i == chosen {
			box, name, index = "band on", "strong", "strong"
		}
		c.rect(box, from, top, to, bottom)
		c.text((from+to)/2, top+19, class.Name, name, middle)
		c.text((from+to)/2, top+37, c.mm(class.Nic), index, middle)
		until, here, said := "no end", "", " beyond"
		if !math.IsInf(class.To, 1) {
			until = c.short(class.To, 4)
			said = " up to " + until
			c.stroke("axis", to, bottom, to, bottom+5)
			if i != chosen && i+1 != chosen || math.Abs(to-p.x.at(d.Limit)) > 24 || d.Limit <= 0 {
				c.text(to, bottom+19, until, "n", middle)
			}
		}
		if i == chosen {
			here = "the limit " + limit + " lies here"
		}
		t.add(class.Name, until, c.mm(class.Nic), here)
		words = append(words, class.Name+said)
		from = to
	}
	desc := fmt.Sprintf("Setting classes along the %s limit: %s.", d.Symbol, strings.Join(words, ", "))
	if chosen >= 0 {
		x := min(max(p.x.at(d.Limit), left+4), right-4)
		c.stroke("acc", x, top-12, x, top-4)
		c.path("accf", coords("M%s %sl-4.5 -8h9z", x, top-1.5))
		c.stroke("acc", x, bottom, x, bottom+5)
		text := d.Symbol + " " + limit
		c.centred(x, top-17, c.say("limit as written: "+text+" "+d.Unit, text), "ta", 13)
		c.text(x, bottom+19, limit, "ta", middle)
		desc += c.sprintf(" The limit %s lies in %s, nesting index %s mm.", limit, t.Rows[chosen][0], t.Rows[chosen][2])
	}
	counted := d.Symbol + " limit, " + d.Unit
	if c.narrow {
		c.text(4, 14, c.unit("class, and below it N_{ic} in mm"), "u", start)
		c.text(right, bottom+34, counted, "u", end)
	} else {
		c.text(left-8, top+19, "class", "u", end)
		c.text(left-8, top+37, c.unit("N_{ic}, mm"), "u", end)
		c.text(left-8, bottom+19, counted, "u", end)
	}
	return c.picture("Setting class for "+d.Symbol, desc, "", t)
}
