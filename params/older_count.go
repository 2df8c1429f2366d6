package params

import "strconv"

// RPcBandKey is the key of the peak count in a band.
const RPcBandKey = "RPcBand"

// countRows count excursions through fixed levels, per 10 mm.
var countRows = []row{
	// func RPcBand(z []float64, dx, c1, c2 float64) float64
	//
	// RPcBand returns the number of peaks of z per 10 mm that leave a band between two levels.
	//
	//	RPc(c1,c2) = 10 mm / l · (times z rises above c1 and then falls below c2)
	//
	// where touching a level is not enough, and what has only risen at the end does not count.
	//
	//   - Symbol: RPc(c1,c2); without levels RPc is the count made of the mean spacing, see [Rpc].
	//   - Input: heights from the reference line, the spacing in µm, and the two levels, usually ±0.5 µm.
	//   - Unit: 1/10 mm.
	//   - Evaluated over: the evaluation length.
	//   - Source: EN 10049:2013.
	//
	// Special cases are:
	//
	//	RPcBand(z, …) = 0 where z stays inside the band
	{`RPcBand: peak count in a band
in iso-21920 iso-4287 iso-12085 asme-b46.1 jis-b0601-2013 jis-b0601-1994 jis-b0601-1982, the evaluation length: EN 10049:2013 (memory)
argument: c1 µm 0.5 upper level, from the reference line
argument: c2 µm -0.5 lower level, from the reference line
must: c1 >= c2 the upper level c1 comes first and is not below the lower level c2
formula: RPc(c_1, c_2) = frac{L}{le} * nc
says: How often, on 10 mm, the profile rises above the upper level and then falls below the lower level.
practice: Stated for sheet that is formed and painted.
blind: Everything inside the band. It is not Rpc, which is made of the mean spacing.`,
		bandCount, showBandCount},
	// func Pc(z []float64, dx, c1, c2 float64) float64
	//
	// Pc returns the peak density of z: peaks per 10 mm that leave a band about the mean line.
	//
	//	Pc = 10 mm / l · (times z rises above c1 and then falls below c2)
	//
	// counted as [RPcBand] does; counts per inch are 2.54 times as large.
	//
	//   - Symbol: Pc(c1,c2), on the roughness profile.
	//   - Input: heights from the mean line, the spacing in µm, and the two levels, usually ±25 µin = ±0.635 µm.
	//   - Unit: 1/10 mm.
	//   - Evaluated over: the evaluation length.
	//   - Source: ASME B46.1-2009, 1-4; SAE J911, band of ±25 µin.
	//
	// Special cases are:
	//
	//	Pc(z, …) = 0 where z stays inside the band
	{`Pc: peak density
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory); SAE J911, band of ±25 µin (trade practice)
argument: c1 µm 0.635 upper level, from the mean line
argument: c2 µm -0.635 lower level, from the mean line
must: c1 >= c2 the upper level c1 comes first and is not below the lower level c2
formula: Pc(c_1, c_2) = frac{L}{le} * nc
says: How often, on 10 mm, the profile rises above and then falls below a band about the mean line: ±0.635 µm (±25 µin) unless stated.
practice: As RPc, in American practice.
blind: Everything inside the band, whose width must be stated. Counts for 1 inch are 2.54 times as large.`,
		bandCount, showBandCount},
	// func HSC(z []float64, dx, c float64) float64
	//
	// HSC returns the high spot count of z: regions above a level, per 10 mm.
	//
	//	HSC = 10 mm / l · (regions in which z is above c)
	//
	// where the regions that the ends of the profile cut off count too.
	//
	//   - Symbol: HSC(c), on the roughness profile.
	//   - Input: heights from the mean line, the spacing in µm, and the level, usually 0.
	//   - Unit: 1/10 mm.
	//   - Evaluated over: the evaluation length.
	//   - Source: ASME B46.1-2009, 1-4.
	//
	// Special cases are:
	//
	//	HSC(z, …) = 0 where no point is above c
	{`HSC: high spot count
in asme-b46.1, the evaluation length: ASME B46.1-2009, 1-4 (memory)
argument: c µm 0 level, from the mean line, up positive
formula: HSC(c) = frac{L}{le} * nh
says: How many separate parts of the profile, on 10 mm, are above the level c.
practice: An estimate of where a flat counterpart would touch first.
blind: How high and how broad the parts are. A ripple at the level counts as several.`,
		countSpots, showHighSpots},
}

// perCentimetre relates a count to 10 mm.
func (w *work) perCentimetre(count int) result {
	return value(float64(count) / (float64(w.n) * w.dx) * 10000)
}

func countSpots(w *work, args []float64) result {
	return w.perCentimetre(highSpots(w.z, args[0]+w.in.Flat, nil))
}

func bandCount(w *work, args []float64) result {
	return w.perCentimetre(bandPeaks(w.z, args[0]+w.in.Flat, args[1]-w.in.Flat, nil))
}

// bandPeaks counts how often z rises above upper and then falls below lower; touching a level is not enough. What
// has only risen by the end does not count. peak, if not nil, is called for each count with the indices of its first point
// above and its first point below.
func bandPeaks(z []float64, upper, lower float64, peak func(rise, fall int)) int {
	count, armed := 0, -1
	for i, v := range z {
		switch {
		case armed < 0 && v > upper:
			armed = i
		case armed >= 0 && v < lower:
			if peak != nil {
				peak(armed, i)
			}
			count, armed = count+1, -1
		}
	}
	return count
}

// highSpots counts the regions of z above level, those at the ends too. spot, if not nil, is called for each.
func highSpots(z []float64, level float64, spot func(from, to int)) int {
	count, from := 0, -1
	for i := 0; i <= len(z); i++ {
		above := i < len(z) && z[i] > level
		if above && from < 0 {
			from = i
		}
		if !above && from >= 0 {
			if spot != nil {
				spot(from, i)
			}
			count, from = count+1, -1
		}
	}
	return count
}

// showBandCount draws the band and marks the highest point of every peak counted.
func showBandCount(w *work, args []float64, c *Construction) {
	end := float64(w.n-1) * w.dx
	c.step("band from "+micrometres(args[1])+" to "+micrometres(args[0]), nan,
		level("c1", 0, end, args[0]),
		level("c2", 0, end, args[1]))
	count := 0
	bandPeaks(w.z, args[0]+w.in.Flat, args[1]-w.in.Flat, func(rise, fall int) {
		count++
		top, _ := extremeIndices(w.z[rise:fall])
		p, above, below := w.pointAt(rise+top), w.pointAt(rise), w.pointAt(fall)
		c.step("peak "+strconv.Itoa(count)+": "+place(p)+", above c1 from "+millimetres(above.X)+", below c2 at "+millimetres(below.X), 1,
			point(PeakMark, strconv.Itoa(count), p), point(PointMark, "armed", above), point(PointMark, "counted", below))
	})
	c.work("{1} · 10000 / ({2} · {3})", float64(count), float64(w.n), w.dx)
}

// showHighSpots draws the level and every region above it.
func showHighSpots(w *work, args []float64, c *Construction) {
	end := float64(w.n-1) * w.dx
	c.step("level "+micrometres(args[0]), nan, level("c", 0, end, args[0]))
	count := 0
	highSpots(w.z, args[0]+w.in.Flat, func(from, to int) {
		count++
		a, b := float64(from)*w.dx, float64(to-1)*w.dx
		c.step("spot "+strconv.Itoa(count)+": from "+millimetres(a)+" to "+millimetres(b), 1,
			dimension(strconv.Itoa(count), Point{a, args[0]}, Point{b, args[0]}))
	})
	c.work("{1} · 10000 / ({2} · {3})", float64(count), float64(w.n), w.dx)
}
