package params

import "math"

// A coreView is what one symbol of the family adds to the line, on the curve and in the profile.
type coreView func(w *work, k *core, c *Construction)

// constructCore shows the line through the flattest 40 % of the curve, and what the symbol adds.
func constructCore(show coreView) constructor {
	return func(w *work, _ []float64, c *Construction) {
		c.Plane = RatioPlane
		k, curve := w.stratified(), w.curve()
		n := float64(w.n)
		first, last := (float64(k.first)+0.5)/n, (float64(k.last)+0.5)/n
		c.step("the curve is flattest over 40 % between "+percent(first)+" and "+percent(last), nan,
			line("40 %", Point{100 * first, curve.z[k.first]}, Point{100 * last, curve.z[k.last]}))
		c.step("the line through these points meets 0 % at "+micrometres(k.upper)+" and 100 % at "+micrometres(k.lower), nan,
			line("", Point{0, k.upper}, Point{100, k.lower}), point(PointMark, "cu", Point{0, k.upper}), point(PointMark, "cl", Point{100, k.lower}))
		show(w, k, c)
	}
}

func coreHeight(w *work, k *core, c *Construction) {
	l := w.length()
	c.step("the core is as high as the line falls: "+micrometres(c.Result), c.Result,
		level("cu", 0, 100, k.upper), level("cl", 0, 100, k.lower), dimension(c.Symbol, Point{50, k.lower}, Point{50, k.upper}))
	c.step("the core in the profile", nan,
		area(c.Symbol, Point{0, k.upper}, Point{l, k.upper}, Point{l, k.lower}, Point{0, k.lower})).on(ProfilePlane)
	c.work("{1} - {2}", k.upper, k.lower)
}

// A coreSide is what lies above the core, or below it.
type coreSide struct {
	none                  bool
	level, area           float64 // the limit of the core, and the area of the curve beyond it
	from, to, width       float64 // ratios between which the area lies, and how far apart they are, as fractions
	limit, name, ratio, x string  // the names of the limit, of the area, of the ratio, and what the parts are called
	corner                Point   // where the limit meets the height axis of the area
	way                   float64 // 1 up, -1 down
}

// above is what lies above the core. Its area, Rak1, has the name A1 of ISO 13565-2, as in the formulas; below, Rak2 is A2.
func (k *core) above() coreSide {
	return coreSide{k.ratio1 == 0, k.upper, k.peaks, 0, k.ratio1, k.ratio1, "cu", "A1", "Rmrk1", "peaks", Point{0, k.upper}, 1}
}

func (k *core) below() coreSide {
	return coreSide{k.ratio2 == 1, k.lower, k.dales, k.ratio2, 1, 1 - k.ratio2, "cl", "A2", "Rmrk2", "dales", Point{100, k.lower}, -1}
}

// absent says that there is nothing beyond the core, and reports whether so.
func (s *coreSide) absent(c *Construction) bool {
	if s.none {
		c.step("no part of the curve lies "+map[float64]string{1: "above", -1: "below"}[s.way]+" the core", c.Result, level(s.limit, 0, 100, s.level))
		c.work("{1}", c.Result)
	}
	return s.none
}

// beyond adds the area of the curve beyond the core, and the same in the profile.
func (s *coreSide) beyond(w *work, c *Construction) {
	outline := append(w.curve().outline(s.from, s.to, curvePoints), Point{100 * s.to, s.level}, Point{100 * s.from, s.level})
	c.step("the area of the "+s.x+", spread over the length, is "+micrometres(s.area), nan,
		area(s.name, outline...), level(s.limit, 0, 100, s.level))
	c.step("the same area in the profile", nan,
		area(s.name, w.clipped(w.whole(), s.level, s.way)...), level(s.limit, 0, w.length(), s.level)).on(ProfilePlane)
}

// clipped returns the outline of what lies beyond a level, above it or below it by the sign of way.
func (w *work) clipped(p piece, height, way float64) []Point {
	from, to := w.ends(p)
	return append(w.strip(p, func(i int) float64 { return height + float64(way*max(0, way*(w.z[i]-height))) }), Point{to, height}, Point{from, height})
}

// reduced shows the right triangle that has the area beyond the core and its width.
func (s coreSide) reduced(w *work, c *Construction) {
	if s.absent(c) {
		return
	}
	s.beyond(w, c)
	tip, edge := Point{s.corner.X, s.level + float64(s.way*c.Result)}, Point{100 * (s.from + s.to - s.corner.X/100), s.level}
	c.step("the triangle of the same area and the same width is "+micrometres(c.Result)+map[float64]string{1: " high", -1: " deep"}[s.way], c.Result,
		area("same area", s.corner, tip, edge), dimension(c.Symbol, s.corner, tip), point(PointMark, s.ratio, edge))
	c.work("2 · {1} / {2}", s.area, s.width)
}

func reducedPeak(w *work, k *core, c *Construction) { k.above().reduced(w, c) }
func reducedDale(w *work, k *core, c *Construction) { k.below().reduced(w, c) }

// farthest shows the highest or the lowest point and how far it stands beyond the core.
func (s coreSide) farthest(w *work, c *Construction, at int, name string) {
	if s.absent(c) {
		return
	}
	p, kind := w.pointAt(at), PeakMark
	if s.way < 0 {
		kind = PitMark
	}
	c.step("the "+name+", "+place(p)+", is "+micrometres(c.Result)+" beyond the core", c.Result,
		point(kind, name, p), level(s.limit, 0, w.length(), s.level), dimension(c.Symbol, Point{p.X, s.level}, p)).on(ProfilePlane)
	c.step("on the curve it is the end", nan, level(s.limit, 0, 100, s.level), dimension(c.Symbol, Point{s.corner.X, p.Y}, s.corner))
	if s.way > 0 {
		c.work("{1} - {2}", p.Y, s.level)
	} else {
		c.work("{1} - {2}", s.level, p.Y)
	}
}

func highestPoint(w *work, k *core, c *Construction) {
	k.above().farthest(w, c, w.extremes().highAt, "highest point")
}

func lowestPoint(w *work, k *core, c *Construction) {
	k.below().farthest(w, c, w.extremes().lowAt, "lowest point")
}

// meets shows where the curve meets the limit of the core, and the pieces of the profile at or above it.
func (s coreSide) meets(w *work, c *Construction) {
	c.onCurve(w, "the curve meets this limit at "+digits(c.Result, 4)+" %", c.Symbol, c.Result, s.level)
	c.Steps[len(c.Steps)-1].Value = c.Result
	start := len(c.Steps)
	c.bearing(w, w.whole(), "the limit of the core in the profile", s.limit, s.level)
	c.Steps[start].Plane = ProfilePlane
	if s.none {
		c.work("{1}", c.Result)
		return
	}
	// Between the two points of the curve beside the limit.
	z, n := w.curve().z, float64(w.n)
	i := max(0, min(w.n-2, int(math.Floor(float64(c.Result/100*n)-0.5))))
	if z[i] == z[i+1] {
		c.work("{1}", c.Result)
		return
	}
	c.work("{1} + ({2} - {3}) / ({2} - {4}) · {5}", 100*(float64(i)+0.5)/n, z[i], s.level, z[i+1], 100/n)
}

func upperRatio(w *work, k *core, c *Construction) { k.above().meets(w, c) }
func lowerRatio(w *work, k *core, c *Construction) { k.below().meets(w, c) }

// layer shows the area beyond the core as a layer over the whole length.
func (s coreSide) layer(w *work, c *Construction) {
	if s.absent(c) {
		return
	}
	s.beyond(w, c)
	y := s.level + float64(s.way*c.Result)
	c.step("spread over the whole length it is a layer of "+micrometres(c.Result), c.Result,
		area("layer of "+c.Symbol, Point{0, s.level}, Point{0, y}, Point{100, y}, Point{100, s.level}))
	c.work("{1} · {2} / 2", 2*s.area/s.width, s.width)
}

func peakArea(w *work, k *core, c *Construction) { k.above().layer(w, c) }
func daleArea(w *work, k *core, c *Construction) { k.below().layer(w, c) }
