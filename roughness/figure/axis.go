package figure

import (
	"cmp"
	"math"
	"strings"
)

// axis is one axis of a plot: what it counts, its numbers, and where it lies on the canvas.
type axis struct {
	low, high float64 // values at the ends
	name      string  // what it counts: below the bottom axis, above the left one
	log       bool
	factor    float64                        // from the values to the numbers; 0 is 1
	ticks     func(c *canvas, s axis) []tick // nil: decimal numbers, as many as there is room for
	a, b      float64                        // pixels at the ends
}

// counting is the axis with the numbers that the reader counts in.
func (p printer) counting(s axis) axis {
	if !p.inch {
		return s
	}
	// "µm along the trace", "height, µm", "1/10 mm"
	unit := strings.TrimSpace(s.name[strings.LastIndexByte(s.name, ',')+1:])
	if _, ok := inches[unit]; !ok {
		unit, _, _ = strings.Cut(unit, " ")
	}
	if f, ok := inches[unit]; ok {
		s.factor, s.name = cmp.Or(s.factor, 1)*f, p.unit(s.name)
	}
	return s
}

func (s axis) at(v float64) float64 {
	low, high := s.low, s.high
	if s.log {
		v, low, high = math.Log(v), math.Log(low), math.Log(high)
	}
	return s.a + (v-low)/(high-low)*(s.b-s.a)
}

// inside says whether a value lies on the axis.
func (s axis) inside(v float64) bool { return v >= s.low && v <= s.high }

// tick is a place on an axis with its number.
type tick struct {
	v     float64
	label string
}

// along is an axis of lengths, which counts in mm, or in µm where it is short.
func along(low, high float64, what string) axis {
	if high-low < 100 {
		return axis{low: low, high: high, name: "µm " + what}
	}
	return axis{low: low, high: high, name: "mm " + what, factor: 1e-3}
}

// waves is an axis of wavelengths.
func waves(low, high float64) axis {
	return axis{low: low, high: high, name: "wavelength", log: true, ticks: (*canvas).waveTicks}
}

// heightAxis holds the extremes of the heights with a little room, or is as fixed.
func (c *canvas) heightAxis(zs ...[]float64) axis {
	low, high := math.Inf(1), math.Inf(-1)
	for _, z := range zs {
		a, b := extent(z)
		low, high = min(low, a), max(high, b)
	}
	return c.asFixed(roomy(low, high, 0.07, "µm"))
}

// asFixed is an axis of heights, with its ends as fixed in the options.
func (c *canvas) asFixed(s axis) axis {
	if h := c.o.Heights; h[0] < h[1] {
		s.low, s.high = h[0], h[1]
	}
	return s
}

// roomy is an axis over a range widened by a share at both ends; an empty one becomes one unit.
func roomy(low, high, share float64, name string) axis {
	room := (high - low) * share
	if !(low < high) {
		if math.IsInf(low, 0) || math.IsNaN(low) {
			low = 0
		}
		room = max(0.5, math.Abs(low)*0.01)
		high = low
	}
	return axis{low: low - room, high: high + room, name: name}
}

// extent is the lowest and highest finite height; +Inf, -Inf when there is none.
func extent(z []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, h := range z {
		if h < low {
			low = h
		}
		if h > high {
			high = h
		}
	}
	return low, high
}

// counted is what an axis or a column counts, with the unit where there is one.
func counted(what, unit string) string { return strings.TrimSuffix(what+", "+unit, ", ") }

// numbers are the ticks of an axis that lies on the canvas.
func (c *canvas) numbers(s axis) []tick {
	switch {
	case s.ticks != nil:
		return s.ticks(c, s)
	case s.b < s.a: // upwards
		return c.decimal(s, max(2, min(8, int((s.a-s.b)/22))))
	}
	return c.decimal(s, max(2, min(10, int((s.b-s.a)/c.pick(56, 50)))))
}

// decimal puts at most n numbers on an axis, a step of 1, 2, 5 times a power of ten apart.
func (c *canvas) decimal(s axis, n int) []tick {
	unit := s.factor
	if unit == 0 {
		unit = 1
	}
	length := (s.high - s.low) * unit
	power := math.Pow(10, math.Floor(math.Log10(length/float64(n))))
	d := 50 * power
	for _, m := range []float64{1, 2, 5, 10, 20} {
		if length/(m*power) <= float64(n)+1e-9 {
			d = m * power
			break
		}
	}
	decimals := max(0, -int(math.Floor(math.Log10(d)+1e-9)))
	var list []tick
	for i := math.Ceil(s.low*unit/d - 1e-9); i*d <= s.high*unit+d*1e-9; i++ {
		list = append(list, tick{i * d / unit, c.short(i*d, decimals)})
	}
	return list
}

// wave prints a wavelength with its unit, µm below 1 mm only where the cut-offs are written so.
func (p printer) wave(um float64) string {
	if um < 80 {
		return p.short(p.in(um, "µm"), 3) + p.unit(" µm")
	}
	return p.mm(um) + p.unit(" mm")
}

// waveTicks are 1 and, in wide drawings, 2.5 times powers of ten, with the unit at each change.
func (c *canvas) waveTicks(s axis) []tick {
	var list []tick
	last := math.Inf(-1)
	one, from, many := 1.0, 3.0, 1000.0 // the small unit, the power of ten from which the large one is written, how many of the small it is
	if c.inch {
		one, from, many = 0.0254, 4, 1e6
	}
	for power := math.Pow(10, math.Floor(math.Log10(s.low/one))); power*one <= s.high && power > 0; power *= 10 {
		for _, m := range []float64{1, 2.5}[:int(c.pick(2, 1))] {
			v := m * power * one
			if v < s.low*(1-1e-9) || v > s.high*(1+1e-9) {
				continue
			}
			label, unit := c.short(m*power, 3), c.unit(" µm")
			if m*power >= 0.999*math.Pow(10, from) {
				label, unit = c.short(m*power/many, 3), c.unit(" mm")
			}
			if len(list) == 0 || m == 1 && math.Abs(math.Log10(power)-from) < 1e-6 {
				label += unit
			}
			w := textWidth(label, 12) / 2
			if at := s.at(v); at-w > last+4 {
				list = append(list, tick{v, label})
				last = at + w
			}
		}
	}
	return list
}

// quantile is that of the standard normal distribution at which a share of (1 + t)/2 lies below.
func quantile(t float64) float64 { return math.Sqrt2 * math.Erfinv(t) }

// ratioTicks puts ratios in % on normal paper, the most important first, as far as there is room.
func (c *canvas) ratioTicks(x axis) []tick {
	var list []tick
next:
	for _, percent := range []float64{50, 10, 90, 1, 99, 0.1, 99.9, 25, 75, 0.01, 99.99} {
		label, v := c.short(percent, 2), quantile(percent/50-1)
		for _, t := range list {
			if math.Abs(x.at(t.v)-x.at(v)) < (textWidth(label, 12)+textWidth(t.label, 12))/2+6 {
				continue next
			}
		}
		if x.inside(v) {
			list = append(list, tick{v, label})
		}
	}
	return list
}
