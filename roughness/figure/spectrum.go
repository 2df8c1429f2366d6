package figure

import (
	"fmt"
	"math"

	"example.com/furrow/params"
)

// Spectrum draws how high the wave of each wavelength is or, with Density, how Rq² is spread over the waves.
type Spectrum struct {
	Z       []float64 // heights over the evaluation length
	Spacing float64
	Density bool // power spectral density instead of amplitudes
}

// Draw draws the spectrum over the wavelength.
func (d Spectrum) Draw(o Options) Picture {
	c := newCanvas(o)
	s := params.NewSpectrum(d.Z, d.Spacing)
	values, title, unit := s.Amplitude, "Amplitude spectrum", "µm"
	if !finite(d.Z) {
		return c.nothing(title, gaps)
	}
	if d.Density {
		values, title, unit = s.Density(), "Power spectral density", "µm³"
	}
	var points []params.Point
	for k := len(values) - 1; k > 0; k-- {
		points = append(points, params.Point{X: s.Wavelength(k), Y: values[k]})
	}
	if len(points) < 2 {
		return c.nothing(title, "Fewer than four points have no spectrum.")
	}
	high := 0.0
	for _, q := range points {
		high = math.Max(high, q.Y)
	}
	if high == 0 {
		return c.nothing(title, "The profile is level: it has no waves.")
	}
	g := graph{x: [2]float64{points[0].X, points[len(points)-1].X}, y: [2]float64{0, high * 1.1}, xLog: true, below: "wavelength", above: unit,
		xTicks: func(c *canvas, s scale, _ float64) []tick { return c.waveTicks(s.low, s.high, s) }}
	if d.Density {
		// Below a millionth of a millionth of the highest there is nothing but rounding.
		g.y, g.yLog = [2]float64{high * 1e-12, high * 3}, true
		low := high
		for i, q := range points {
			points[i].Y = math.Max(q.Y, g.y[0])
			low = math.Min(low, points[i].Y)
		}
		g.y[0] = low / 3
	}
	g.lines = []graphLine{{classes: "prof", points: points}}
	p := g.draw(c)

	peak, density := s.Peak(), s.Density()
	t := Table{Columns: []string{"quantity", "value", "unit"}}
	row := func(name, value, unit string) { t.Rows = append(t.Rows, []string{name, value, unit}) }
	top := params.Point{X: s.Wavelength(peak), Y: values[peak]}
	c.triangle("accf", p.at(top.X, top.Y), 8, true)
	row("wavelength of the highest wave", c.short(top.X/1000, 4), "mm")
	row("its amplitude", c.digits(s.Amplitude[peak], 4), "µm")
	desc := fmt.Sprintf("The highest wave is %s mm long, its amplitude %s µm.", t.Rows[0][1], t.Rows[1][1])
	square := 0.0
	for _, h := range d.Z {
		square += float64(h * h)
	}
	square /= float64(len(d.Z))
	sum := 0.0
	for _, v := range density {
		sum += float64(v * s.Step)
	}
	row("step of the frequency, Δf", c.digits(s.Step*1000, 4), "1/mm")
	row("Σ PSD·Δf", c.digits(sum, 6), "µm²")
	row("mean square of the heights, Rq²", c.digits(square, 6), "µm²")
	if d.Density {
		desc += fmt.Sprintf(" The densities times the step add up to %s µm²; the mean of the squared heights is %s µm².", t.Rows[3][1], t.Rows[4][1])
	}
	// The same by wavelength, octave by octave from the longest wave down.
	for upper := s.Wavelength(1) * (1 + 1e-9); upper > 2*d.Spacing*(1-1e-9); upper /= 2 {
		part := 0.0
		for k, v := range density {
			if w := s.Wavelength(k); k > 0 && w <= upper && w > upper/2 {
				part += float64(v * s.Step)
			}
		}
		row("mean square from waves of "+c.short(upper/2000, 4)+" to "+c.short(upper/1000, 4)+" mm", c.digits(part, 4), "µm²")
	}
	caption := "The height of the wave of each wavelength in the profile."
	if d.Density {
		caption = "How the mean square of the heights is spread over the waves: Σ PSD·Δf = " + c.digits(sum, 4) + " µm² = Rq²."
	}
	return c.picture(title, desc, caption, t)
}

// nothing is the picture of a curve that does not exist, with the reason.
func (c *canvas) nothing(title, reason string) Picture {
	c.h = 60
	c.newPlot(0, float64(c.w), 0, 60, [2]float64{0, 1}, [2]float64{0, 1})
	c.text(pt{8, 34}, reason, "u", start)
	return c.picture(title, reason, reason, Table{Columns: []string{"note"}, Rows: [][]string{{reason}}})
}

// Correlation draws the autocorrelation function: how much the profile is like itself when it is shifted.
type Correlation struct {
	Z       []float64 // heights over the evaluation length
	Spacing float64
	To      float64 // longest shift drawn; 0 is half the evaluation length
}

// Draw draws the function.
func (d Correlation) Draw(o Options) Picture {
	c := newCanvas(o)
	const title = "Autocorrelation"
	if !finite(d.Z) {
		return c.nothing(title, gaps)
	}
	r := params.Autocorrelation(d.Z)
	if len(r) < 2 {
		return c.nothing(title, "The profile is level: it has no autocorrelation.")
	}
	points := make([]params.Point, 0, len(r))
	low := 0.0
	for k, v := range r {
		x := float64(k) * d.Spacing
		if d.To > 0 && x > d.To && k > 1 {
			break
		}
		points = append(points, params.Point{X: x, Y: v})
		low = math.Min(low, v)
	}
	last := points[len(points)-1].X
	_, unit := lengthUnit(0, last)
	p := graph{x: [2]float64{0, last}, y: [2]float64{low - 0.05, 1.05}, below: unit + " shift along the trace", xTicks: lengthTicks, zero: true,
		lines: []graphLine{{classes: "curve", points: points}}}.draw(c)
	t := Table{Columns: []string{"the function falls to", "at a shift of, mm"}}
	for _, level := range []float64{0.5, 1 / math.E, 0.2, 0} {
		at := "not reached"
		for i := 1; i < len(points); i++ {
			if a, b := points[i-1], points[i]; b.Y <= level {
				x := a.X + (a.Y-level)/(a.Y-b.Y)*(b.X-a.X)
				at = c.short(x/1000, 5)
				c.circle("accf", p.at(x, level), 3)
				break
			}
		}
		t.Rows = append(t.Rows, []string{c.short(level, 4), at})
	}
	desc := fmt.Sprintf("The autocorrelation function falls to %s at a shift of %s mm and to %s at %s mm.", t.Rows[0][0], t.Rows[0][1], t.Rows[2][0], t.Rows[2][1])
	if t.Rows[2][1] == "not reached" {
		desc = fmt.Sprintf("The autocorrelation function does not fall to %s within the shifts drawn.", t.Rows[2][0])
	}
	return c.picture(title, desc, "How similar the profile is to itself when it is shifted along the trace: 1 is the same.", t)
}
