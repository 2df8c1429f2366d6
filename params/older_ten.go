package params

import "strconv"

// tenPointRows take the highest and deepest excursions of each section: a profile peak is a part above the mean line
// between two crossings, so it counts once however many tips it has.
var tenPointRows = []row{
	// func RzJIS(z []float64, section int) float64
	//
	// RzJIS returns the ten-point height of z, cut into sections of the given number of points.
	//
	//	RzJIS = 1/5 Σ (five highest peaks) + 1/5 Σ (five deepest valleys) in section k, then the mean
	//
	// where a peak is the highest point of a part above the reference line between two crossings, and a valley the lowest
	// of a part below it.
	//
	//   - Symbol: RzJIS; JIS B 0601:1994 calls it Rz.
	//   - Input: heights from the reference line; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: JIS B 0601:2013, annex; JIS B 0601:1994.
	//
	// Special cases are:
	//
	//	RzJIS(z, n) = NaN where no section has five peaks and five valleys
	{`RzJIS: ten-point height
in jis-b0601-2013, each section, then the mean: JIS B 0601:2013, annex (excerpt)
in jis-b0601-1994, each section, then the mean: JIS B 0601:1994 (excerpt)
formula: RzJIS = frac{1}{5} * sum{i=1}{5}{(P_i + V_i)} text{, in each section, then the mean}
says: In each section, the mean height of the five highest peaks plus the mean depth of the five deepest valleys; then the mean over the sections.
practice: Found on Japanese drawings. Before 2001 it was written Rz: look at the date of the drawing.
blind: Everything but ten points of each section. It is not the Rz of today's ISO standards, and not R10z.
shape: needed`,
		tenPoint(false), showTenPoint(false, 5)},
	// func Rz1982(z []float64, section int) float64
	//
	// Rz1982 returns the ten-point height of the section profile z, cut into sections of the given number of points.
	//
	//	Rz = 1/5 Σ (five highest peaks) + 1/5 Σ (five deepest valleys) in section k, then the mean
	//
	// where z has not been filtered, so that the peaks and valleys are those about the least-squares line of each section.
	//
	//   - Symbol: Rz of JIS B 0601:1982.
	//   - Input: heights of the primary profile; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: JIS B 0601:1982; furrow, peaks and valleys about the mean line of the section.
	//
	// Special cases are:
	//
	//	Rz1982(z, n) = NaN where no section has five peaks and five valleys
	{`Rz1982: ten-point height of the section profile
in jis-b0601-1982, each section, then the mean: JIS B 0601:1982 (memory); furrow, peaks and valleys about the mean line of the section (own choice)
on: primary
formula: Rz = frac{1}{5} * sum{i=1}{5}{(P_i + V_i)} text{, in each section, then the mean}
says: The ten-point height of the profile without a cut-off, peaks and valleys counted about the mean line of the section.
practice: On Japanese drawings up to 1993; the same letters Rz mean another height today.
blind: Everything but ten points of each section. Waviness shorter than a section adds to it.
shape: needed`,
		tenPoint(true), showTenPoint(true, 5)},
	// func R3z(z []float64, section int) float64
	//
	// R3z returns the mean third height of z, cut into sections of the given number of points.
	//
	//	R3z = third-highest peak + depth of third-deepest valley in section k, then the mean
	//
	// where peaks and valleys are those of [RzJIS].
	//
	//   - Symbol: R3z.
	//   - Input: heights from the reference line; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the mean.
	//   - Source: works standards of the car industry, R3z; furrow, no least height or width of a peak.
	//
	// Special cases are:
	//
	//	R3z(z, n) = NaN where no section has three peaks and three valleys
	{`R3z: third-highest peak to third-deepest valley
in iso-21920 iso-4287, each section, then the mean: works standards of the car industry, R3z (trade practice); furrow, no least height or width of a peak (own choice)
formula: R3z = P_3 + V_3 text{, in each section, then the mean}
says: In each section, the height of the third-highest peak plus the depth of the third-deepest valley; then the mean over the sections.
practice: A works standard of the car industry, used where single ridges and scratches must not decide.
blind: How far the two highest peaks and the two deepest valleys of each section stand out.
shape: needed`,
		thirdHeight, showTenPoint(false, 3)},
	// func R3zm(z []float64, section int) float64
	//
	// R3zm returns the largest third height of z, cut into sections of the given number of points.
	//
	//	R3zm = max of (third-highest peak + depth of third-deepest valley) over the sections
	//
	// where peaks and valleys are those of [RzJIS].
	//
	//   - Symbol: R3zm.
	//   - Input: heights from the reference line; the number of points in a section, 0 for all.
	//   - Unit: that of z.
	//   - Evaluated over: each section, then the largest.
	//   - Source: works standards of the car industry, R3z; furrow, no least height or width of a peak.
	//
	// Special cases are:
	//
	//	R3zm(z, n) = NaN where no section has three peaks and three valleys
	{`R3zm: largest third-highest peak to third-deepest valley
in iso-21920 iso-4287, each section, then the largest: works standards of the car industry, R3z (trade practice); furrow, no least height or width of a peak (own choice)
formula: R3zm = max{i}{R3z_i}
says: The largest of the R3z heights of the sections.
blind: All other sections.
shape: needed`,
		thirdHeight, showTenPoint(false, 3)},
}

// excursions are the highest peaks of a section from the highest down, and its deepest valleys from the deepest up, as
// heights over and depths under the level that the crossings are looked for at.
type excursions struct {
	peaks, valleys   [5]part
	nPeaks, nValleys int     // how many there are in all
	from, to         float64 // the mean line at the first and the last point of the section
}

// excursions returns those of section k, which stand until it is called again. With centred, they lie about the least-squares
// line of the section, else about the reference line. The parts cut off by the ends of the section count, as in the exercise books.
func (w *work) excursions(k int, centred bool) *excursions {
	e := &w.lazy.excursions
	*e = excursions{}
	var parts []part
	if centred {
		z := w.sectionAt(k)
		level, slope := meanLine(z)
		middle := float64(len(z)-1) / 2
		e.from, e.to = level-float64(slope*middle), level+float64(slope*middle)
		parts = w.partsOf(detrended(z), k*w.section)
	} else {
		parts = w.sectionParts(k)
	}
	for _, p := range parts {
		if p.hill {
			rank(&e.peaks, e.nPeaks, p, partHeight)
			e.nPeaks++
		} else {
			rank(&e.valleys, e.nValleys, p, partHeight)
			e.nValleys++
		}
	}
	return e
}

// meanLine returns the least-squares line of z: its height in the middle, and its slope per point.
func meanLine(z []float64) (level, slope float64) {
	n := float64(len(z))
	level = mean(z)
	if len(z) < 2 {
		return level, 0
	}
	for i, v := range z {
		slope += float64((float64(i) - float64((n-1)/2)) * (v - level))
	}
	return level, slope / (n * (float64(n*n) - 1) / 12)
}

// rank puts x where it belongs among the largest so far, of which there are n or, if more, all five; equals stay in order.
func rank[T any](top *[5]T, n int, x T, size func(T) float64) {
	i := min(n, len(top))
	for i > 0 && size(x) > size(top[i-1]) {
		if i < len(top) {
			top[i] = top[i-1]
		}
		i--
	}
	if i < len(top) {
		top[i] = x
	}
}

func partHeight(p part) float64 { return p.height }

// meanHeight returns the mean height of the first n parts.
func meanHeight(top *[5]part, n int) float64 {
	n = min(n, len(top))
	sum := 0.0
	for _, p := range top[:n] {
		sum += p.height
	}
	return sum / float64(n)
}

// tenPoint makes the evaluator of the ten-point heights.
func tenPoint(centred bool) evaluator {
	return func(w *work, _ []float64) result {
		return w.fromExcursions(centred, 5, func(e *excursions) float64 {
			return meanHeight(&e.peaks, e.nPeaks) + meanHeight(&e.valleys, e.nValleys)
		})
	}
}

// thirdHeight evaluates R3z.
func thirdHeight(w *work, _ []float64) result {
	return w.fromExcursions(false, 3, func(e *excursions) float64 {
		return e.peaks[min(e.nPeaks, 3)-1].height + e.valleys[min(e.nValleys, 3)-1].height
	})
}

// fromExcursions takes f in each section that has the number of peaks and valleys needed, then the mean.
func (w *work) fromExcursions(centred bool, needed int, f func(*excursions) float64) result {
	few := 0
	s := w.each(func(k int) float64 {
		e := w.excursions(k, centred)
		if min(e.nPeaks, e.nValleys) < needed {
			few++
		}
		if w.enough(e, needed) {
			return f(e)
		}
		return nan
	})
	if few == 0 {
		return w.bySections(s, "", "")
	}
	lack := "fewer than " + strconv.Itoa(needed) + " peaks or valleys"
	r := w.bySections(s, "has "+lack, "every section has "+lack+" about the mean line")
	if r.reason == "" {
		r.reason = strconv.Itoa(few) + " of the sections have " + lack + ": there the value uses those that exist"
	}
	return r
}

// enough tells whether a section has the peaks and valleys needed; by choice one of each will do.
func (w *work) enough(e *excursions, needed int) bool {
	if w.in.Choices.TooFew == TooFewUseAll {
		needed = 1
	}
	return min(e.nPeaks, e.nValleys) >= needed
}

// showTenPoint marks the peaks and valleys of each section that counts: with a rank of 5 all five with their mean, with one of 3 the
// three highest, of which the last gives the height. Where the largest section counts, the others show their height alone.
func showTenPoint(centred bool, rank int) constructor {
	return func(w *work, _ []float64, c *Construction) {
		var values []float64
		found := false
		for _, p := range w.lengths() {
			e := w.excursions(p.section-1, centred)
			if !w.enough(e, rank) {
				continue
			}
			from, to := w.ends(p)
			about := line("mean line", Point{from, e.from}, Point{to, e.to})
			if e.from == e.to {
				about.Kind = LevelMark
			}
			text, marks := "", []Mark{about}
			side := func(kind Kind, noun, letter string, top *[5]part, n int) float64 {
				n = min(n, rank)
				for i, part := range top[:n] {
					p := w.pointAt(part.top)
					if rank == 5 || i == n-1 {
						text += noun + " " + strconv.Itoa(i+1) + " " + place(p) + ", "
					}
					marks = append(marks, point(kind, letter+strconv.Itoa(i+1), p))
				}
				if rank == 5 {
					return meanHeight(top, n)
				}
				last := w.pointAt(top[n-1].top)
				marks = append(marks, level("", from, to, last.Y))
				return top[n-1].height
			}
			up := side(PeakMark, "peak", "P", &e.peaks, e.nPeaks)
			down := side(PitMark, "valley", "V", &e.valleys, e.nValleys)
			height := up + down
			if w.as.Over == LargestSection && (height != c.Result || found) {
				marks = nil
			} else {
				found = true
			}
			c.in(p, text+"together "+micrometres(height), height, marks...)
			if len(values) == 0 {
				c.workAs(c.Symbol+" of section "+strconv.Itoa(p.section), height, c.Unit, "{1} + {2}", up, down)
			}
			values = append(values, height)
		}
		c.bySections(w, values)
	}
}
