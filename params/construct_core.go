package params

// A coreMember says which value of the Rk family a construction works out.
type coreMember uint8

const (
	coreHeight coreMember = iota
	corePeak
	coreDale
	coreHighest
	coreLowest
	coreRatio1
	coreRatio2
	coreArea1
	coreArea2
)

// constructCore shows the whole construction on the material ratio curve, and the arithmetic of one member.
func constructCore(m coreMember) constructor {
	return func(w *work, _ []float64, c *Construction) {
		c.Plane = RatioPlane
		k, curve := w.stratified(), w.curve()
		n := float64(w.n)
		first, last := (float64(k.first)+0.5)/n, (float64(k.last)+0.5)/n
		c.step(Step{
			Text: "the curve is flattest over 40 % between " + percent(first) + " and " + percent(last),
			Marks: []Mark{{Kind: LineMark, Label: "40 %", Points: []Point{
				{100 * first, curve.z[k.first]}, {100 * last, curve.z[k.last]},
			}}},
			Value: nan,
		})
		c.step(Step{
			Text:  "the line through these points meets 0 % at " + micrometres(k.upper) + " and 100 % at " + micrometres(k.lower),
			Value: k.upper - k.lower,
			Marks: []Mark{
				{Kind: LineMark, Label: "equivalent straight line", Points: []Point{{0, k.upper}, {100, k.lower}}},
				level("", 0, 100, k.upper), level("", 0, 100, k.lower),
				dimension("Rk", Point{100, k.lower}, Point{100, k.upper}),
			},
		})
		c.step(w.peakStep(k))
		c.step(w.daleStep(k))
		workCore(w, c, m, k)
	}
}

func (w *work) peakStep(k *core) Step {
	if k.ratio1 == 0 {
		return Step{Text: "no part of the curve lies above the core", Value: 0}
	}
	area := append([]Point{{0, k.upper}}, w.curve().outline(0, k.ratio1, curvePoints)...)
	rpk, ratio := k.reducedPeak(), 100*k.ratio1
	return Step{
		Text: "above " + micrometres(k.upper) + ", up to " + percent(k.ratio1) + ", the peaks have the area of a triangle " +
			micrometres(rpk) + " high",
		Value: rpk,
		Marks: []Mark{
			{Kind: AreaMark, Label: "A1", Points: area},
			{Kind: AreaMark, Label: "Rpk", Points: []Point{{0, k.upper}, {0, k.upper + rpk}, {ratio, k.upper}}},
			dimension("Rpk", Point{0, k.upper}, Point{0, k.upper + rpk}),
			{Kind: LineMark, Label: "Rmrk1", Points: []Point{{ratio, k.upper}, {ratio, w.extremes().low}}},
		},
	}
}

func (w *work) daleStep(k *core) Step {
	if k.ratio2 == 1 {
		return Step{Text: "no part of the curve lies below the core", Value: 0}
	}
	area := append(w.curve().outline(k.ratio2, 1, curvePoints), Point{100, k.lower})
	rvk, ratio := k.reducedDale(), 100*k.ratio2
	return Step{
		Text: "below " + micrometres(k.lower) + ", from " + percent(k.ratio2) + " on, the dales have the area of a triangle " +
			micrometres(rvk) + " deep",
		Value: rvk,
		Marks: []Mark{
			{Kind: AreaMark, Label: "A2", Points: area},
			{Kind: AreaMark, Label: "Rvk", Points: []Point{{100, k.lower}, {100, k.lower - rvk}, {ratio, k.lower}}},
			dimension("Rvk", Point{100, k.lower - rvk}, Point{100, k.lower}),
			{Kind: LineMark, Label: "Rmrk2", Points: []Point{{ratio, k.lower}, {ratio, w.extremes().low}}},
		},
	}
}

// workCore adds the arithmetic of one member.
func workCore(w *work, c *Construction, m coreMember, k *core) {
	z := w.curve().z
	switch m {
	case coreHeight:
		c.work("{1} - ({2})", k.upper, k.lower)
	case corePeak:
		if k.ratio1 > 0 {
			c.work("2 · {1} / {2}", k.peaks, k.ratio1)
		}
	case coreDale:
		if k.ratio2 < 1 {
			c.work("2 · {1} / (1 - {2})", k.dales, k.ratio2)
		}
	case coreHighest:
		if k.ratio1 > 0 {
			c.work("{1} - ({2})", z[0], k.upper)
		}
	case coreLowest:
		if k.ratio2 < 1 {
			c.work("{1} - ({2})", k.lower, z[w.n-1])
		}
	case coreArea1:
		c.work("{1} · {2} / 2", k.reducedPeak(), k.ratio1)
	case coreArea2:
		c.work("{1} · (1 - {2}) / 2", k.reducedDale(), k.ratio2)
	}
}
