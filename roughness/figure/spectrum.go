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
		high = max(high, q.Y)
	}
	if high == 0 {
		return c.nothing(title, "The profile is level: it has no waves.")
	}
	y := axis{high: high * 1.1, name: unit}
	if d.Density {
		// Below a millionth of a millionth of the highest there is nothing but rounding.
		low := high
		for i, q := range points {
			points[i].Y = max(q.Y, high*1e-12)
			low = min(low, points[i].Y)
		}
		y.low, y.high, y.log, y.ticks = low/3, high*3, true, (*canvas).powerTicks
	}
	p := c.graph(waves(points[0].X, points[len(points)-1].X), y)
	p.curves(curve{classes: "prof", points: points})

	peak, density := s.Peak(), s.Density()
	t := columns("quantity", "value", "unit")
	length := s.Wavelength(peak)
	c.triangle("accf", p.at(length, values[peak]), 8, -1)
	t.add("wavelength of the highest wave", c.mm(length), "mm")
	t.add("its amplitude", c.digits(s.Amplitude[peak], 4), "µm")
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
	t.add("step of the frequency, Δf", c.digits(s.Step*1000, 4), "1/mm")
	t.add("Σ PSD·Δf", c.digits(sum, 6), "µm²")
	t.add("mean square of the heights, Rq²", c.digits(square, 6), "µm²")
	if d.Density {
		desc += fmt.Sprintf(" The densities times the step add up to %s µm²; the mean of the squared heights is %s µm².", t.Rows[3][1], t.Rows[4][1])
	}
	// The same by wavelength, octave by octave from the length wave down.
	for upper := s.Wavelength(1) * (1 + 1e-9); upper > 2*d.Spacing*(1-1e-9); upper /= 2 {
		part := 0.0
		for k, v := range density {
			if w := s.Wavelength(k); k > 0 && w <= upper && w > upper/2 {
				part += float64(v * s.Step)
			}
		}
		t.add("mean square from waves of "+c.short(upper/2000, 4)+" to "+c.short(upper/1000, 4)+" mm", c.digits(part, 4), "µm²")
	}
	caption := "The height of the wave of each wavelength in the profile."
	if d.Density {
		caption = "How the mean square of the heights is spread over the waves: Σ PSD·Δf = " + c.digits(sum, 4) + " µm² = Rq²."
	}
	return c.picture(title, desc, caption, t)
}

// Correlation draws the autocorrelation function: how much the profile is like itself when it is shifted.
type Correlation struct {
	Z       []float64 // heights over the evaluation length
	Spacing float64
	To      float64 // length shift drawn; 0 is half the evaluation length
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
		low = min(low, v)
	}
	p := c.graph(along(0, points[len(points)-1].X, "shift along the trace"), axis{low: low - 0.05, high: 1.05})
	p.level("thin", 0)
	p.curves(curve{classes: "curve", points: points})
	t := columns("the function falls to", "at a shift of, mm")
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
		t.add(c.short(level, 4), at)
	}
	desc := fmt.Sprintf("The autocorrelation function falls to %s at a shift of %s mm and to %s at %s mm.", t.Rows[0][0], t.Rows[0][1], t.Rows[2][0], t.Rows[2][1])
	if t.Rows[2][1] == "not reached" {
		desc = fmt.Sprintf("The autocorrelation function does not fall to %s within the shifts drawn.", t.Rows[2][0])
	}
	return c.picture(title, desc, "How similar the profile is to itself when it is shifted along the trace: 1 is the same.", t)
}
