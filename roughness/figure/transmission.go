package figure

import (
	"fmt"
	"math"
)

// A Transmitter says which share of the height of a wave it leaves in the long-wave part, as every filter.Filter does.
type Transmitter interface {
	Transmission(wavelength float64) float64
}

// Transmission draws which share of a sine's height reaches each profile, against its wavelength.
type Transmission struct {
	Short, Long             Transmitter // S-filter and L-filter; nil where there is none
	ShortCutoff, LongCutoff float64
	ShortName, LongName     string  // as written: "N_{is}" and "N_{ic}" where empty
	From, To                float64 // wavelengths at the ends of the axis; both zero: fitted to the cut-offs
	Wave                    float64 // wavelength asked for; 0 is none
}

// share of the height of a wave that is left by the S-filter, goes into W, stays in R.
func (d Transmission) share(wave float64) (passed, waviness, roughness float64) {
	passed = 1
	if d.Short != nil {
		passed = d.Short.Transmission(wave)
	}
	if d.Long != nil {
		waviness = passed * d.Long.Transmission(wave)
	}
	return passed, waviness, passed - waviness
}

// span is the range of wavelengths drawn.
func (d Transmission) span() (from, to float64) {
	if d.From > 0 && d.From < d.To {
		return d.From, d.To
	}
	from, to = d.ShortCutoff, d.LongCutoff
	switch {
	case from <= 0 && to <= 0:
		return 1, 1e4
	case from <= 0:
		from = to / 100
	case to <= 0:
		to = from * 1000
	}
	return from / 8, to * 12
}

// Draw draws the curves.
func (d Transmission) Draw(o Options) Picture {
	c := newCanvas(o)
	for _, f := range []struct {
		name   string
		filter Transmitter
		cutoff float64
	}{{"S-filter", d.Short, d.ShortCutoff}, {"L-filter", d.Long, d.LongCutoff}} {
		if f.filter != nil && math.IsNaN(f.filter.Transmission(f.cutoff)) {
			return c.nothing("Transmission of the filters", "The "+f.name+" does not act on sines one by one: it has no transmission to draw.")
		}
	}
	from, to := d.span()
	height := pick(c, 176.0, 160)
	p := c.newPlot(pick(c, 44.0, 34), float64(c.w)-pick(c, 12.0, 6), 30, 30+height, [2]float64{from, to}, [2]float64{0, 100})
	p.x.log = true
	c.frames[0].XLog = true
	percent := func(which int) func(float64) float64 {
		return func(wave float64) float64 {
			passed, w, r := d.share(wave)
			return 100 * [3]float64{1 - passed, w, r}[which]
		}
	}
	// The wash under R comes first, so that the lines lie on it.
	n := int(p.right() - p.left())
	area := []pt{{p.left(), p.bottom()}}
	for i := 0; i <= n; i += 4 {
		x := p.left() + float64(i)
		area = append(area, pt{x, p.y.at(percent(2)(p.x.value(x)))})
	}
	c.path("wash", lineTo(append(area, pt{p.right(), p.bottom()}))+"Z")
	p.leftAxis([]tick{{0, "0"}, {50, "50"}, {100, "100"}}, "%")
	c.line("grid", p.at(from, 50), p.at(to, 50))
	ticks := c.waveTicks(from, to, p.x)
	p.bottomAxis(ticks, "wavelength")
	if d.Short != nil {
		p.function("cut dots", percent(0))
	}
	p.function("cut", percent(2))
	if d.Long != nil {
		p.function("cut dash", percent(1))
	}
	short, long := d.ShortName, d.LongName
	if short == "" {
		short = "N_{is}"
	}
	if long == "" {
		long = "N_{ic}"
	}
	d.cutoff(p, d.Short, d.ShortCutoff, short)
	d.cutoff(p, d.Long, d.LongCutoff, long)
	d.names(p)
	if d.Wave > from && d.Wave < to {
		x := p.x.at(d.Wave)
		c.line("accl dots", pt{x, p.top()}, pt{x, p.bottom()})
		_, w, r := d.share(d.Wave)
		c.circle("accf", pt{x, p.y.at(100 * r)}, 3)
		c.circle("accf", pt{x, p.y.at(100 * w)}, 3)
	}
	c.h = int(p.bottom()) + 40
	t := Table{Columns: []string{"wavelength", "removed by the S-filter, %", "in R, %", "in W, %"}}
	for _, wave := range d.rows(ticks) {
		passed, w, r := d.share(wave)
		t.Rows = append(t.Rows, []string{c.wave(wave), c.fixed(100*(1-passed), 2), c.fixed(100*r, 2), c.fixed(100*w, 2)})
	}
	desc := "Share of the height of a sine wave that reaches each profile, against its wavelength."
	for _, f := range []struct {
		name   string
		cutoff float64
		filter Transmitter
	}{{"S-filter", d.ShortCutoff, d.Short}, {"L-filter", d.LongCutoff, d.Long}} {
		if f.filter != nil {
			_, w, r := d.share(f.cutoff)
			desc += fmt.Sprintf(" At the nesting index of the %s, %s, %s %% of a wave stays in R and %s %% goes to W.", f.name, c.wave(f.cutoff), c.fixed(100*r, 2), c.fixed(100*w, 2))
		}
	}
	return c.picture("Transmission of the filters", desc, "How much of a wave's height reaches each profile.", t)
}

// rows are the wavelengths of the table: those of the ticks, the cut-offs and the one asked for.
func (d Transmission) rows(ticks []tick) []float64 {
	var list []float64
	add := func(v float64) {
		if !(v > 0) {
			return
		}
		i := 0
		for i < len(list) && list[i] < v*(1-1e-9) {
			i++
		}
		if i < len(list) && list[i] < v*(1+1e-9) {
			return
		}
		list = append(list[:i], append([]float64{v}, list[i:]...)...)
	}
	for _, t := range ticks {
		add(t.v)
	}
	if d.Short != nil {
		add(d.ShortCutoff)
	}
	if d.Long != nil {
		add(d.LongCutoff)
	}
	add(d.Wave)
	return list
}

// cutoff marks a nesting index and the half of the wave that passes there.
func (d Transmission) cutoff(p *plot, f Transmitter, cutoff float64, name string) {
	if f == nil || cutoff <= p.x.low || cutoff >= p.x.high {
		return
	}
	c := p.c
	x := p.x.at(cutoff)
	c.line("acc", pt{x, p.top() - 8}, pt{x, p.bottom()})
	c.text(pt{x, p.top() - 13}, pick(c, name+" "+c.wave(cutoff), name), "ta", middle)
	if half := f.Transmission(cutoff); half >= 0 && half <= 1 {
		c.circle("accf", pt{x, p.y.at(100 * half)}, 3.5)
	}
}

// names writes the names of the profiles on their curves, away from the lines.
func (d Transmission) names(p *plot) {
	c := p.c
	from, to := p.left(), p.right()
	if d.Short != nil {
		from = p.x.at(d.ShortCutoff)
		if from-p.left() > 70 {
			c.text(pt{p.left() + 8, p.y.at(85)}, pick(c, "removed", "gone"), "lab", start)
			if !c.narrow {
				c.text(pt{p.left() + 8, p.y.at(85) + 16}, "by the S-filter", "u", start)
			}
		}
	}
	if d.Long != nil {
		to = p.x.at(d.LongCutoff)
		c.text(pt{p.right() - 2, p.y.at(86)}, pick(c, "waviness W", "W"), "lab", end)
	}
	if to-from > 80 {
		c.text(pt{(from + to) / 2, p.y.at(74)}, "roughness R", "lab", middle)
		if !c.narrow && d.Short != nil && d.Long != nil {
			c.text(pt{(from + to) / 2, p.y.at(74) + 16}, "passes both filters", "u", middle)
		}
	}
}

// wave prints a wavelength with its unit, µm below 1 mm only where the cut-offs are written so.
func (p printer) wave(um float64) string {
	if um < 80 {
		return p.short(um, 3) + " µm"
	}
	return p.short(um/1000, 4) + " mm"
}

// waveTicks are 1, 2.5 (and in wide drawings 5) times powers of ten, with the unit at each change.
func (c *canvas) waveTicks(from, to float64, x scale) []tick {
	var list []tick
	marks := pick(c, []float64{1, 2.5}, []float64{1})
	last := math.Inf(-1)
	for power := math.Pow(10, math.Floor(math.Log10(from))); power <= to; power *= 10 {
		for _, m := range marks {
			v := m * power
			if v < from*(1-1e-9) || v > to*(1+1e-9) {
				continue
			}
			label := c.short(v, 3)
			if v >= 999 {
				label = c.short(v/1000, 3)
			}
			if m == 1 && math.Abs(math.Log10(v)-3) < 1e-6 {
				label += " mm"
			} else if len(list) == 0 {
				label += " µm"
				if v >= 999 {
					label = c.short(v/1000, 3) + " mm"
				}
			}
			w := textWidth(label, 12) / 2
			if at := x.at(v); at-w > last+4 {
				list = append(list, tick{v, label})
				last = at + w
			}
		}
	}
	return list
}
