package figure

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
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
	o.Width = max(cmp.Or(o.Width, 640), 240)
	o.ID = cmp.Or(noID.ReplaceAllString(o.ID, ""), "picture")
	return &canvas{printer: printer{o.DecimalComma, o.Inch}, o: o, w: o.Width, narrow: o.Width < 500, defined: map[string]bool{}}
}

// noID is what an id has no place for: "Rmr(0.5)" inside url(#...) would not be found.
var noID = regexp.MustCompile(`[^-_0-9a-zA-Z]`)

// pick returns the length of the wide or the narrow design.
func (c *canvas) pick(wide, narrow float64) float64 {
	if c.narrow {
		return narrow
	}
	return wide
}

// say returns the text of the wide or the narrow design.
func (c *canvas) say(wide, narrow string) string {
	if c.narrow {
		return narrow
	}
	return wide
}

// coord prints a coordinate to a tenth of a pixel.
func coord(v float64) string { return string(appendCoord(nil, v)) }

func appendCoord(b []byte, v float64) []byte {
	tenths := math.Round(v * 10)
	if !(math.Abs(tenths) < 1e15) {
		return strconv.AppendFloat(b, tenths/10, 'f', -1, 64)
	}
	n := int64(tenths)
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/10, 10)
	if n%10 != 0 {
		b = append(b, '.', byte('0'+n%10))
	}
	return b
}

// coords fills coordinates into a pattern.
func coords(pattern string, values ...float64) string {
	list := make([]any, len(values))
	for i, v := range values {
		list[i] = coord(v)
	}
	return fmt.Sprintf(pattern, list...)
}

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
	c.b.WriteString("<" + name + c.class(name, classes) + " " + attrs + "/>")
}

func (c *canvas) path(classes, d string) {
	if d != "" {
		c.element("path", classes, `d="`+d+`"`)
	}
}

func (c *canvas) line(classes string, points ...pt) { c.path(classes, lineTo(points)) }

// stroke draws a straight line.
func (c *canvas) stroke(classes string, x1, y1, x2, y2 float64) {
	c.line(classes, pt{x1, y1}, pt{x2, y2})
}

func lineTo(points []pt) string {
	b := make([]byte, 0, 12*len(points))
	for i, p := range points {
		b = append(b, "ML"[min(i, 1)])
		b = append(appendCoord(b, p.x), ' ')
		b = appendCoord(b, p.y)
	}
	return string(b)
}

func (c *canvas) rect(classes string, left, top, right, bottom float64) {
	c.element("rect", classes, coords(`x="%s" y="%s" width="%s" height="%s"`, left, top, right-left, bottom-top))
}

func (c *canvas) circle(classes string, p pt, r float64) {
	c.element("circle", classes, coords(`cx="%s" cy="%s" r="%s"`, p.x, p.y, r))
}

// hatched fills a polygon with slanted lines. It is a polygon element, because the page fills no path.
func (c *canvas) hatched(accent bool, points ...pt) {
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
func (c *canvas) text(x, y float64, s, classes, anchor string) {
	s = indexes.ReplaceAllString(escaper.Replace(s), "<tspan"+c.class("tspan", "sub")+` dy="2.5">$1</tspan><tspan dy="-2.5">$2</tspan>`)
	c.b.WriteString("<text" + c.class("text", classes) + coords(` x="%s" y="%s"`, x, y) + anchor + ">" + s + "</text>")
}

// indexes are each index of a text with what follows it on the line again.
var indexes = regexp.MustCompile(`_\{(.*?)\}([^_]*)`)

// centred writes a text around x, but not beyond the edges of the canvas.
func (c *canvas) centred(x, y float64, s, classes string, size float64) {
	half := textWidth(s, size) / 2
	c.text(min(max(x, half), float64(c.w)-half), y, s, classes, middle)
}

// triangle marks a peak from above (side -1) or a pit from below (side 1).
func (c *canvas) triangle(classes string, p pt, size, side float64) {
	c.path(classes, coords("M%s %sl%s %sh%sz", p.x, p.y+side, -size/2, side*size, size))
}

// dimension draws a line with arrow heads at both ends; their class is the last one of the line with an f.
func (c *canvas) dimension(classes string, a, b pt) {
	c.line(classes, a, b)
	length := math.Hypot(b.x-a.x, b.y-a.y)
	if length < 1 {
		return
	}
	ux, uy := (b.x-a.x)/length, (b.y-a.y)/length
	size := min(5, length/2)
	head := func(p pt, size float64) string {
		x, y := p.x+size*ux, p.y+size*uy
		return coords("M%s %sL%s %sL%s %sz", p.x, p.y, x-2.2*uy, y+2.2*ux, x+2.2*uy, y-2.2*ux)
	}
	c.path(classes[strings.LastIndexByte(classes, ' ')+1:]+"f", head(a, size)+head(b, -size))
}

// picture closes the drawing. The words come from the drawing; the canvas adds size and markup.
func (c *canvas) picture(title, desc, caption string, table Table) Picture {
	for i, name := range table.Columns {
		table.Columns[i] = c.unit(name)
	}
	c.notes()
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" class="pic" width="%d" height="%d" viewBox="0 0 %[1]d %[2]d" role="img" aria-labelledby="%[3]s-title %[3]s-desc"`, c.w, c.h, c.o.ID)
	if c.o.Standalone {
		fmt.Fprintf(&b, ` font-family="%s" font-size="12"`, light["sans"])
	}
	fmt.Fprintf(&b, `><title id="%[1]s-title">%[2]s</title><desc id="%[1]s-desc">%[3]s</desc>`, c.o.ID, escaper.Replace(title), escaper.Replace(desc))
	if c.defs.Len() > 0 {
		b.WriteString("<defs>" + c.defs.String() + "</defs>")
	}
	if c.o.Standalone {
		fmt.Fprintf(&b, `<rect fill="%s" width="%d" height="%d"/>`, light["paper"], c.w, c.h)
	}
	b.WriteString(c.b.String() + "</svg>")
	return Picture{SVG: b.String(), Title: title, Desc: desc, Caption: caption, Table: table, Width: c.w, Height: c.h, Frames: c.frames}
}

// notes writes lines below the picture, as many as each needs.
func (c *canvas) notes() {
	if !c.o.Standalone {
		return
	}
	for _, note := range c.o.Notes {
		line := ""
		write := func() {
			c.h += 17
			c.text(4, float64(c.h)-5, line, "u", start)
			line = ""
		}
		for _, word := range strings.Split(note, " ") { // a number is not parted from its unit
			if line != "" && textWidth(line+" "+word, 12) > float64(c.w)-8 {
				write()
			}
			line = strings.TrimSpace(line + " " + word)
		}
		write()
	}
}

// nothing is the picture of a curve that does not exist, with the reason.
func (c *canvas) nothing(title, reason string) Picture {
	c.lay(axis{high: 1}, axis{high: 1}, 0, float64(c.w), 0, 60)
	c.h = 60
	c.text(8, 34, reason, "u", start)
	t := columns("note")
	t.add(reason)
	return c.picture(title, reason, reason, t)
}

// columns is a table without rows yet.
func columns(names ...string) Table { return Table{Columns: names} }

func (t *Table) add(cells ...string) { t.Rows = append(t.Rows, cells) }
