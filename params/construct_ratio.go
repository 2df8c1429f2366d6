package params

// curvePoints is how many points the outline of an area under the material ratio curve gets at most.
const curvePoints = 200

// MaterialRatioCurve returns the material ratio curve of the heights z: ratios in % against heights, from 0 to 100 %.
// With points = 0 it has a point for each height and one at either end; otherwise the given number, evenly spread.
func MaterialRatioCurve(z []float64, points int) []Point {
	if len(z) == 0 {
		return nil
	}
	c := newWork(&Input{Z: z}).curve()
	if points > 0 {
		return c.outline(0, 1, points)
	}
	n := float64(len(z))
	curve := make([]Point, 0, len(z)+2)
	curve = append(curve, Point{0, c.z[0]})
	for i, h := range c.z {
		curve = append(curve, Point{100 * (float64(i) + 0.5) / n, h})
	}
	return append(curve, Point{100, c.z[len(z)-1]})
}

// outline returns points of the curve between two ratios, both ends included.
func (c *ratioCurve) outline(from, to float64, points int) []Point {
	n := float64(len(c.z))
	points = max(2, min(points, int((to-from)*n)+2))
	p := make([]Point, points)
	for i := range p {
		x := from + (to-from)*float64(i)/float64(points-1)
		p[i] = Point{100 * x, c.height(x)}
	}
	return p
}

// constructMaterialRatio shows the cut at height c and the material it meets, in the profile plane.
func constructMaterialRatio(w *work, args []float64, c *Construction) {
	height := args[0]
	step := Step{
		Text:  "at the height " + micrometres(height) + " the cut meets material on " + digits(c.Result, 4) + " % of the length",
		Value: c.Result,
		Marks: []Mark{level("c = "+micrometres(height), 0, w.length(), height)},
	}
	pieces := w.materialPieces(height)
	length := 0.0
	for _, p := range pieces {
		length += p[1] - p[0]
		step.Marks = append(step.Marks, Mark{Kind: LineMark, Points: []Point{{p[0], height}, {p[1], height}}})
	}
	c.step(step)
	c.work("100 · {1} / {2}", length, float64(max(1, w.n-1))*w.dx)
}

// materialPieces returns where the polyline lies at the height or above.
func (w *work) materialPieces(height float64) [][2]float64 {
	var pieces [][2]float64
	inside, from := false, 0.0
	for i, v := range w.z {
		x := float64(i) * w.dx
		if v >= height == inside {
			continue
		}
		if i > 0 {
			a := w.z[i-1]
			x -= w.dx * (v - height) / (v - a)
		}
		if inside {
			pieces = append(pieces, [2]float64{from, x})
		}
		inside, from = !inside, x
	}
	if inside {
		pieces = append(pieces, [2]float64{from, float64(w.n-1) * w.dx})
	}
	return pieces
}

// drop marks a point of the curve with the lines down to the ratio axis and across to the height axis.
func drop(label string, ratio, height, floor float64) []Mark {
	at := Point{ratio, height}
	return []Mark{
		point(PointMark, label, at),
		{Kind: LineMark, Points: []Point{{ratio, floor}, at}},
		{Kind: LevelMark, Points: []Point{{0, height}, at}},
	}
}

func constructMaterialHeight(w *work, args []float64, c *Construction) {
	c.Plane = RatioPlane
	c.step(Step{
		Text:  "the profile has " + digits(args[0], 4) + " % of its length at " + micrometres(c.Result) + " or above",
		Value: c.Result,
		Marks: drop(c.Symbol, args[0], c.Result, w.extremes().low),
	})
}

func constructHeightDifference(w *work, args []float64, c *Construction) {
	c.Plane = RatioPlane
	heights := [2]float64{w.materialHeight(args[0] / 100), w.materialHeight(args[1] / 100)}
	for i, h := range heights {
		c.step(Step{
			Text:  "the height at " + digits(args[i], 4) + " % is " + micrometres(h),
			Value: h,
			Marks: drop(digits(args[i], 4)+" %", args[i], h, w.extremes().low),
		})
	}
	c.step(Step{
		Text:  "between them lie " + micrometres(c.Result),
		Value: c.Result,
		Marks: []Mark{dimension(micrometres(c.Result), Point{args[1], heights[1]}, Point{args[1], heights[0]})},
	})
	c.work("{1} - ({2})", heights[0], heights[1])
}

func constructRelativeRatio(w *work, args []float64, c *Construction) {
	c.Plane = RatioPlane
	c0 := w.materialHeight(args[0] / 100)
	c1 := c0 - args[1]
	floor := w.extremes().low
	c.step(Step{
		Text:  "the height at " + digits(args[0], 4) + " % is " + micrometres(c0),
		Value: nan,
		Marks: drop("c0", args[0], c0, floor),
	})
	c.step(Step{
		Text:  micrometres(args[1]) + " below it, at " + micrometres(c1) + ", the ratio is " + digits(c.Result, 4) + " %",
		Value: c.Result,
		Marks: append(drop("c1", c.Result, c1, floor), dimension(micrometres(args[1]), Point{args[0], c1}, Point{args[0], c0})),
	})
}

// constructVolume shows a volume as an area at the material ratio curve: the material or the void between two levels, or
// beyond one.
func constructVolume(material bool) constructor {
	return func(w *work, args []float64, c *Construction) {
		c.Plane = RatioPlane
		curve := w.curve()
		p := args[0] / 100
		q := args[len(args)-1] / 100
		upper, lower := curve.height(p), curve.height(q)
		from, to, back := 0.0, q, lower
		if len(args) == 1 && material {
			upper = curve.z[0]
		}
		if !material {
			from, to, back = p, 1, upper
			if len(args) == 1 {
				lower = curve.z[w.n-1]
			}
		}
		area := curve.outline(from, to, curvePoints)
		for i := range area {
			area[i].Y = min(upper, max(lower, area[i].Y))
		}
		area = append(area, Point{100 * to, back}, Point{100 * from, back})
		what := "void"
		if material {
			what = "material"
		}
		s := Step{
			Text:  "the " + what + " between " + micrometres(upper) + " and " + micrometres(lower) + " is " + micrometres(c.Result) + " spread over the length",
			Value: c.Result,
			Marks: []Mark{{Kind: AreaMark, Label: c.Symbol, Points: area}},
		}
		for _, a := range args {
			s.Marks = append(s.Marks, level(digits(a, 4)+" %", 0, 100, curve.height(a/100)))
		}
		c.step(s)
		if len(args) == 2 {
			first, second := w.materialVolume(q), w.materialVolume(p)
			if !material {
				first, second = w.voidVolume(p), w.voidVolume(q)
			}
			c.work("{1} - {2}", first, second)
		}
	}
}
