package figure

import (
	"cmp"
	"fmt"
	"math"
	"slices"
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

// percents are what the S-filter removes, what goes into W and what stays in R, in % of the height of a wave.
func (d Transmission) percents(wave float64) [3]float64 {
	passed, waviness := 1.0, 0.0
	if d.Short != nil {
		passed = d.Short.Transmission(wave)
	}
	if d.Long != nil {
		waviness = passed * d.Long.Transmission(wave)
	}
	return [3]float64{100 * (1 - passed), 100 * waviness, 100 * (passed - waviness)}
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
	const title = "Transmission of the filters"
	var filters []bandLimit
	for _, f := range []bandLimit{{"S-filter", d.Short, d.ShortCutoff, cmp.Or(d.ShortName, "N_{is}")}, {"L-filter", d.Long, d.LongCutoff, cmp.Or(d.LongName, "N_{ic}")}} {
		if f.filter == nil {
			continue
		}
		if math.IsNaN(f.filter.Transmission(f.cutoff)) {
			return c.nothing(title, "The "+f.name+" does not act on sines one by one: it has no transmission to draw.")
		}
		filters = append(filters, f)
	}
	x := waves(d.span())
	y := axis{high: 100, name: "%", ticks: func(*canvas, axis) []tick { return []tick{{0, "0"}, {50, "50"}, {100, "100"}} }}
	p := c.lay(x, y, c.pick(44, 34), float64(c.w)-c.pick(12, 6), 30, 30+c.pick(176, 160))
	// place is where a curve runs at a pixel.
	place := func(pixel float64, which int) pt {
		t := (pixel - p.left) / (p.right - p.left)
		return pt{pixel, p.y.at(d.percents(x.low * math.Pow(x.high/x.low, t))[which])}
	}
	// The wash under R comes first, so that the lines lie on it.
	area := []pt{{p.left, p.bottom}}
	for pixel := p.left; pixel <= p.right; pixel += 4 {
		area = append(area, place(pixel, 2))
	}
	c.path("wash", lineTo(append(area, pt{p.right, p.bottom}))+"Z")
	p.leftAxis()
	p.level("grid", 50)
	p.bottomAxis()
	curve := func(classes string, which int) {
		n := max(2, int(math.Ceil((p.right-p.left)/4)))
		points := make([]pt, n+1)
		for i := range points {
			points[i] = place(p.left+(p.right-p.left)*float64(i)/float64(n), which)
		}
		c.line(classes, points...)
	}
	if d.Short != nil {
		curve("cut dots", 0)
	}
	curve("cut", 2)
	if d.Long != nil {
		curve("cut dash", 1)
	}
	for _, f := range filters {
		f.draw(p)
	}
	d.names(p)
	if d.Wave > x.low && d.Wave < x.high {
		p.upright("accl dots", d.Wave, 0)
		s := d.percents(d.Wave)
		c.circle("accf", p.at(d.Wave, s[2]), 3)
		c.circle("accf", p.at(d.Wave, s[1]), 3)
	}

	rows := []float64{d.Wave}
	for _, t := range c.numbers(p.x) {
		rows = append(rows, t.v)
	}
	desc := "Share of the height of a sine wave that reaches each profile, against its wavelength."
	for _, f := range filters {
		rows = append(rows, f.cutoff)
		s := d.percents(f.cutoff)
		desc += fmt.Sprintf(" At the nesting index of the %s, %s, %s %% of a wave stays in R and %s %% goes to W.", f.name, c.wave(f.cutoff), c.fixed(s[2], 2), c.fixed(s[1], 2))
	}
	slices.Sort(rows)
	t := columns("wavelength", "removed by the S-filter, %", "in R, %", "in W, %")
	last := 0.0
	for _, wave := range rows {
		if wave > last*(1+1e-9) {
			s := d.percents(wave)
			t.add(c.wave(wave), c.fixed(s[0], 2), c.fixed(s[2], 2), c.fixed(s[1], 2))
			last = wave
		}
	}
	return c.picture(title, desc, "How much of a wave's height reaches each profile.", t)
}

// bandLimit is a filter at an end of the band of wavelengths.
type bandLimit struct {
	name   string
	filter Transmitter
	cutoff float64
	index  string // what its nesting index is called
}

// draw marks the nesting index and the share of the wave that passes there.
func (f bandLimit) draw(p *plot) {
	if f.cutoff <= p.x.low || f.cutoff >= p.x.high {
		return
	}
	p.cutoff(f.cutoff, p.say(f.index+" "+p.wave(f.cutoff), f.index))
	if half := f.filter.Transmission(f.cutoff); half >= 0 && half <= 1 {
		p.circle("accf", p.at(f.cutoff, 100*half), 3.5)
	}
}

// names writes the names of the profiles on their curves, away from the lines.
func (d Transmission) names(p *plot) {
	write := func(x, percent float64, wide, narrow, below, anchor string) {
		y := p.y.at(percent)
		p.text(x, y, p.say(wide, narrow), "lab", anchor)
		if !p.narrow && below != "" {
			p.text(x, y+16, below, "u", anchor)
		}
	}
	from, to, both := p.left, p.right, ""
	if d.Short != nil {
		from = p.x.at(d.ShortCutoff)
		if from-p.left > 70 {
			write(p.left+8, 85, "removed", "gone", "by the S-filter", start)
		}
	}
	if d.Long != nil {
		to = p.x.at(d.LongCutoff)
		write(p.right-2, 86, "waviness W", "W", "", end)
		if d.Short != nil {
			both = "passes both filters"
		}
	}
	if to-from > 80 {
		write((from+to)/2, 74, "roughness R", "roughness R", both, middle)
	}
}
