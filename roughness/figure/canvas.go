package figure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// canvas collects the elements of one picture.
type canvas struct {
	printer
	o       Options
	w, h    int
	narrow  bool
	b       strings.Builder
	defs    strings.Builder
	defined map[string]bool
	labels  []box // places taken by labels
	frames  []Frame
}

// pt is a place on the canvas.
type pt struct{ x, y float64 }

func newCanvas(o Options) *canvas {
	if o.Width == 0 {
		o.Width = 640
	}
	o.Width = max(o.Width, 240)
	o.ID = strings.Map(func(r rune) rune {
		if r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return -1 // "Rmr(0.5)" inside url(#...) would not be found
	}, o.ID)
	if o.ID == "" {
		o.ID = "picture"
	}
	return &canvas{printer: printer{o.DecimalComma}, o: o, w: o.Width, narrow: o.Width < 500, defined: map[string]bool{}}
}

// pick returns the value of the wide or the narrow design.
func pick[T any](c *canvas, wide, narrow T) T {
	if c.narrow {
		return narrow
	}
	return wide
}

// coord prints a coordinate to a tenth of a pixel.
func coord(v float64) string {
	if v = math.Round(v*10) / 10; v == 0 {
		v = 0 // not -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func at(p pt) string { return coord(p.x) + " " + coord(p.y) }

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

// class writes the class, or in a file of its own what it looks like.
func (c *canvas) class(element, classes string) string {
	if c.o.Standalone {
		return attributes(element, classes)
	}
	if classes == "" {
		return ""
	}
	return ` class="` + classes + `"`
}

func (c *canvas) element(name, classes, attrs string) {
	fmt.Fprintf(&c.b, "<%s%s %s/>", name, c.class(name, classes), attrs)
}

func (c *canvas) path(classes, d string) {
	if d != "" {
		c.element("path", classes, `d="`+d+`"`)
	}
}

func (c *canvas) line(classes string, points ...pt) {
	c.path(classes, lineTo(points))
}

func lineTo(points []pt) string {
	var b strings.Builder
	for i, p := range points {
		b.WriteByte("ML"[min(i, 1)])
		b.WriteString(at(p))
	}
	return b.String()
}

func (c *canvas) rect(classes string, left, top, right, bottom float64) {
	c.element("rect", classes, fmt.Sprintf(`x="%s" y="%s" width="%s" height="%s"`, coord(left), coord(top), coord(right-left), coord(bottom-top)))
}

func (c *canvas) circle(classes string, p pt, r float64) {
	c.element("circle", classes, fmt.Sprintf(`cx="%s" cy="%s" r="%s"`, coord(p.x), coord(p.y), coord(r)))
}

// hatched fills a polygon with slanted lines. It is a polygon element, because the page fills no path.
func (c *canvas) hatched(accent bool, points []pt) {
	name, classes := c.o.ID+"-hatch", "hatch"
	if accent {
		name, classes = c.o.ID+"-accent-hatch", "hatch acc"
	}
	if !c.defined[name] {
		c.defined[name] = true
		fmt.Fprintf(&c.defs, `<pattern id="%s" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path%s d="M0 0V5"/></pattern>`, name, c.class("path", classes))
	}
	list := make([]string, len(points))
	for i, p := range points {
		list[i] = coord(p.x) + "," + coord(p.y)
	}
	fmt.Fprintf(&c.b, `<polygon fill="url(#%s)" points="%s"/>`, name, strings.Join(list, " "))
}

// Anchors of a text.
const (
	start  = ""
	middle = ` text-anchor="middle"`
	end    = ` text-anchor="end"`
)

// text writes one line; _{...} is an index.
func (c *canvas) text(p pt, s, classes, anchor string) {
	fmt.Fprintf(&c.b, `<text%s x="%s" y="%s"%s>`, c.class("text", classes), coord(p.x), coord(p.y), anchor)
	s = escaper.Replace(s)
	for {
		before, rest, found := strings.Cut(s, "_{")
		c.b.WriteString(before)
		if !found {
			break
		}
		index, after, _ := strings.Cut(rest, "}")
		fmt.Fprintf(&c.b, `<tspan%s dy="2.5">%s</tspan><tspan dy="-2.5">`, c.class("tspan", "sub"), index)
		next, _, _ := strings.Cut(after, "_{")
		c.b.WriteString(next + "</tspan>")
		s = after[len(next):]
	}
	c.b.WriteString("</text>")
}

// triangle marks a peak from above or a pit from below.
func (c *canvas) triangle(classes string, p pt, size float64, above bool) {
	gap, side := 1.0, size
	if above {
		gap, side = -1, -size
	}
	c.path(classes, fmt.Sprintf("M%sl%s %sh%sz", at(pt{p.x, p.y + gap}), coord(-size/2), coord(side), coord(size)))
}

// dimension draws a line with arrow heads at both ends.
func (c *canvas) dimension(classes, heads string, a, b pt) {
	c.line(classes, a, b)
	length := math.Hypot(b.x-a.x, b.y-a.y)
	if length < 1 {
		return
	}
	ux, uy := (b.x-a.x)/length, (b.y-a.y)/length
	size := math.Min(5, length/2)
	var d strings.Builder
	for _, e := range []struct {
		p    pt
		sign float64
	}{{a, 1}, {b, -1}} {
		base := pt{e.p.x + e.sign*size*ux, e.p.y + e.sign*size*uy}
		fmt.Fprintf(&d, "M%sL%sL%sz", at(e.p), at(pt{base.x - 2.2*uy, base.y + 2.2*ux}), at(pt{base.x + 2.2*uy, base.y - 2.2*ux}))
	}
	c.path(heads, d.String())
}

// picture closes the drawing. The words come from the drawing; the canvas adds size and markup.
func (c *canvas) picture(title, desc, caption string, table Table) Picture {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="pic" width="%d" height="%d" viewBox="0 0 %d %d" role="img" aria-labelledby="%s-title %s-desc"`,
		c.w, c.h, c.w, c.h, c.o.ID, c.o.ID)
	if c.o.Standalone {
		fmt.Fprintf(&b, ` font-family="%s" font-size="12"`, sans)
	}
	fmt.Fprintf(&b, `><title id="%s-title">%s</title><desc id="%s-desc">%s</desc>`, c.o.ID, escaper.Replace(title), c.o.ID, escaper.Replace(desc))
	if c.defs.Len() > 0 {
		b.WriteString("<defs>" + c.defs.String() + "</defs>")
	}
	if c.o.Standalone {
		fmt.Fprintf(&b, `<rect fill="%s" width="%d" height="%d"/>`, light["paper"], c.w, c.h)
	}
	b.WriteString(c.b.String())
	b.WriteString("</svg>")
	return Picture{SVG: b.String(), Title: title, Desc: desc, Caption: caption, Table: table, Width: c.w, Height: c.h, Frames: c.frames}
}
