package figure

import (
	"slices"
	"strings"
)

// box is a place on the canvas that a label takes.
type box struct{ left, top, right, bottom float64 }

func (a box) meets(b box) bool {
	return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

// textWidth estimates the width of a text in a wide common face, so that labels fit with narrower ones.
func textWidth(s string, size float64) float64 {
	w := 0.0
	for _, r := range s {
		switch {
		case strings.ContainsRune("., ilj'()", r):
			w += 0.32
		case strings.ContainsRune("mwMW%−+=", r):
			w += 0.84
		case strings.ContainsRune("_{}", r):
		default:
			w += 0.58
		}
	}
	return w * size
}

// spot is where a label may stand: at a distance from a place, to the right of it, to the left or around it.
type spot struct {
	of     pt
	dx, dy float64
}

// within is the part of the canvas in which the labels of a plot stand: some pixels above it to some before its bottom.
func (p *plot) within(above, below float64) box {
	return box{p.left, p.top - above, p.right, p.bottom - below}
}

// apart is the room between two labels beside each other, so that they do not read as one word.
const apart = 4

// label writes a text at the first of the spots where it meets no other label and stays within a part of the canvas.
func (c *canvas) label(s, classes string, size float64, within box, spots ...spot) {
	w := textWidth(s, size)
	for _, at := range spots {
		x, y := at.of.x+at.dx, at.of.y+at.dy
		anchor, left := middle, x-w/2
		if at.dx > 0 {
			anchor, left = start, x
		} else if at.dx < 0 {
			anchor, left = end, x-w
		}
		b := box{left, y - size, left + w, y + 3}
		if b.left < within.left || b.right > within.right || b.top < within.top || b.bottom > within.bottom || slices.ContainsFunc(c.labels, box{left - apart, y - size, left + w + apart, y + 3}.meets) {
			continue
		}
		c.labels = append(c.labels, b)
		c.text(x, y, s, classes, anchor)
		return
	}
}
