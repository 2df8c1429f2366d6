package figure

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
		case r == '.' || r == ',' || r == ' ' || r == 'i' || r == 'l' || r == 'j' || r == '\'' || r == '(' || r == ')':
			w += 0.32
		case r == 'm' || r == 'w' || r == 'M' || r == 'W' || r == '%' || r == '−' || r == '+' || r == '=':
			w += 0.84
		case r == '_' || r == '{' || r == '}':
		default:
			w += 0.58
		}
	}
	return w * size
}

// label writes a text at the first of the places where it meets no other label and stays on the canvas, and says
// whether there was one.
func (c *canvas) label(s, classes string, size float64, within box, places []place) bool {
	w := textWidth(s, size)
	for _, p := range places {
		b := box{p.x, p.y - size, p.x + w, p.y + 3}
		switch p.anchor {
		case middle:
			b.left, b.right = p.x-w/2, p.x+w/2
		case end:
			b.left, b.right = p.x-w, p.x
		}
		if b.left < within.left || b.right > within.right || b.top < within.top || b.bottom > within.bottom || c.taken(b) {
			continue
		}
		c.labels = append(c.labels, b)
		c.text(pt{p.x, p.y}, s, classes, p.anchor)
		return true
	}
	return false
}

type place struct {
	x, y   float64
	anchor string
}

func (c *canvas) taken(b box) bool {
	for _, l := range c.labels {
		if b.meets(l) {
			return true
		}
	}
	return false
}
