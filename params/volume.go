package params

// The volumes under and over the material ratio curve, each a height: 1 µm is 1 ml/m².

// volumeRows are the volumes. The symbols of the profile are not public; they follow those of areal texture.
var volumeRows = []row{
	// func Rvm(z []float64, p float64) float64
	//
	// Rvm returns the material volume of z at the material ratio p, in %.
	//
	//	Rvm(p) = ∫₀ᵖ (z(q) - z(p)) dq
	//
	// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
	//
	//   - Symbol: Rvm(p); Pvm(p) and Wvm(p) are the same on the other profiles.
	//   - Input: heights, at least one; the material ratio in %.
	//   - Unit: that of z; 1 µm is 1 ml/m².
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.5.
	//
	// Special cases are:
	//
	//	Rvm(0) = 0
	{`Rvm: material volume
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.5 (excerpt)
argument: p % 10 material ratio of the cut
formula: Rvm(p) = int{0}{p}{[c(r) - c(p)]}{r}
says: The material above the height with the material ratio p, spread over the whole length; 1 µm is 1 ml/m².
blind: Whether it is one peak or many.`,
		materialAt, constructVolume(true, "material")},
	// func Rvv(z []float64, p float64) float64
	//
	// Rvv returns the void volume of z at the material ratio p, in %.
	//
	//	Rvv(p) = ∫ₚ¹ (z(p) - z(q)) dq
	//
	// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
	//
	//   - Symbol: Rvv(p); Pvv(p) and Wvv(p) are the same on the other profiles.
	//   - Input: heights, at least one; the material ratio in %.
	//   - Unit: that of z; 1 µm is 1 ml/m².
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.5.
	//
	// Special cases are:
	//
	//	Rvv(100) = 0
	{`Rvv: void volume
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.5 (excerpt)
argument: p % 10 material ratio of the cut
formula: Rvv(p) = int{p}{1}{[c(p) - c(r)]}{r}
says: The empty space below the height with the material ratio p, spread over the whole length; 1 µm is 1 ml/m².
blind: Whether the space is connected, and whether it is one dale or many.`,
		voidAt, constructVolume(false, "void")},
	// func Rvmp(z []float64, p float64) float64
	//
	// Rvmp returns the peak material volume of z at the material ratio p, in %, by default 10.
	//
	//	Rvmp(p) = Rvm(p)
	//
	// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
	//
	//   - Symbol: Rvmp(p); Pvmp(p) and Wvmp(p) are the same on the other profiles.
	//   - Input: heights, at least one; the material ratio in %.
	//   - Unit: that of z; 1 µm is 1 ml/m².
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.5.
	//
	// Special cases are:
	//
	//	Rvmp(0) = 0
	{`Rvmp: peak material volume
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.5 (excerpt)
argument: p % 10 material ratio where the peaks end
formula: Rvmp(p) = Rvm(p)
says: The material above the height with the material ratio p, 10 % unless stated: the tips of the peaks.
practice: Wears away in running-in.
blind: Whether it is one peak or many.`,
		materialAt, constructVolume(true, "material of the peaks")},
	// func Rvmc(z []float64, p, q float64) float64
	//
	// Rvmc returns the core material volume of z between the material ratios p and q, in %, by default 10 and 80.
	//
	//	Rvmc(p,q) = Rvm(q) - Rvm(p)
	//
	// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
	//
	//   - Symbol: Rvmc(p,q); Pvmc(p,q) and Wvmc(p,q) are the same on the other profiles.
	//   - Input: heights, at least one; the material ratios in %.
	//   - Unit: that of z; 1 µm is 1 ml/m².
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.5.
	//
	// Special cases are:
	//
	//	Rvmc(p,p) = 0
	{`Rvmc: core material volume
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.5 (excerpt)
argument: p % 10 material ratio where the peaks end
argument: q % 80 material ratio where the dales begin
must: p < q the first material ratio must be below the second
formula: Rvmc(p, q) = Rvm(q) - Rvm(p)
says: The material between the heights with the material ratios p and q, 10 % and 80 % unless stated.
practice: Carries the load after running-in.
blind: How the material is spread along the trace.`,
		materialBetween, constructVolume(true, "core material")},
	// func Rvvc(z []float64, p, q float64) float64
	//
	// Rvvc returns the core void volume of z between the material ratios p and q, in %, by default 10 and 80.
	//
	//	Rvvc(p,q) = Rvv(p) - Rvv(q)
	//
	// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
	//
	//   - Symbol: Rvvc(p,q); Pvvc(p,q) and Wvvc(p,q) are the same on the other profiles.
	//   - Input: heights, at least one; the material ratios in %.
	//   - Unit: that of z; 1 µm is 1 ml/m².
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.5.
	//
	// Special cases are:
	//
	//	Rvvc(p,p) = 0
	{`Rvvc: core void volume
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.5 (excerpt)
argument: p % 10 material ratio where the peaks end
argument: q % 80 material ratio where the dales begin
must: p < q the first material ratio must be below the second
formula: Rvvc(p, q) = Rvv(p) - Rvv(q)
says: The empty space between the heights with the material ratios p and q, 10 % and 80 % unless stated.
practice: Holds fluid while the core carries.
blind: Whether the space is connected.`,
		voidBetween, constructVolume(false, "core void")},
	// func Rvvv(z []float64, q float64) float64
	//
	// Rvvv returns the dale void volume of z at the material ratio q, in %, by default 80.
	//
	//	Rvvv(q) = Rvv(q)
	//
	// where z(p) is the material ratio curve of the sorted heights, ratios as fractions.
	//
	//   - Symbol: Rvvv(q); Pvvv(q) and Wvvv(q) are the same on the other profiles.
	//   - Input: heights, at least one; the material ratio in %.
	//   - Unit: that of z; 1 µm is 1 ml/m².
	//   - Evaluated over: the evaluation length.
	//   - Source: ISO 21920-2:2021, 4.5.5.
	//
	// Special cases are:
	//
	//	Rvvv(100) = 0
	{`Rvvv: dale void volume
in iso-21920, the evaluation length: ISO 21920-2:2021, 4.5.5 (excerpt)
argument: q % 80 material ratio where the dales begin
formula: Rvvv(q) = Rvv(q)
says: The empty space below the height with the material ratio q, 80 % unless stated: the bottom of the dales.
practice: Holds oil when peaks and core are worn.
blind: Whether it is one dale or many.`,
		voidAt, constructVolume(false, "void of the dales", "q")},
}

// materialVolume returns the material above the height of ratio p, a fraction.
func (w *work) materialVolume(p float64) float64 {
	c := w.curve()
	return max(0, c.integral(p, c.height(p)))
}

// voidVolume returns the void below the height of ratio p, a fraction.
func (w *work) voidVolume(p float64) float64 {
	c := w.curve()
	level := c.height(p)
	return max(0, c.integral(p, level)-c.integral(1, level))
}

func materialAt(w *work, a []float64) result { return value(w.materialVolume(a[0] / 100)) }
func voidAt(w *work, a []float64) result     { return value(w.voidVolume(a[0] / 100)) }

func materialBetween(w *work, a []float64) result {
	return value(w.materialVolume(a[1]/100) - w.materialVolume(a[0]/100))
}

func voidBetween(w *work, a []float64) result {
	return value(w.voidVolume(a[0]/100) - w.voidVolume(a[1]/100))
}

// strips returns the mean heights, over a level or under it by the sign of way, of the strips 1/N wide that the curve has between
// two ratios, each by the share of its width that lies there.
func (c *ratioCurve) strips(from, to, level, way float64) []float64 {
	n := float64(len(c.z))
	var list []float64
	for x := from; x < to-1e-12; {
		i, _ := c.locate(x + 1e-12)
		end := min(to, (float64(i)+1.5)/n)
		if i < 0 {
			end = min(to, 0.5/n)
		}
		if end <= x {
			break
		}
		list = append(list, float64(way*(float64((c.height(x)+c.height(end))/2)-level)*(end-x)*n)+0)
		x = end
	}
	return list
}

// constructVolume shows a volume as an area at the material ratio curve and in the profile, and as a layer: the material or the void
// between two levels, or beyond one.
func constructVolume(material bool, what string, names ...string) constructor {
	names = append(names, "p", "q")
	return func(w *work, args []float64, c *Construction) {
		c.Plane = RatioPlane
		curve, layer := w.curve(), -c.Result
		p, q := args[0]/100, args[len(args)-1]/100
		upper, lower := curve.height(p), curve.height(q)
		from, to, base := p, 1.0, upper
		if material {
			layer, from, to, base = c.Result, 0, q, lower
		}
		if len(args) == 1 && material {
			upper = curve.z[0]
		} else if len(args) == 1 {
			lower = curve.z[w.n-1]
		}
		between := func(z float64) float64 { return min(upper, max(lower, z)) }
		outline := curve.outline(from, to, curvePoints)
		for i := range outline {
			outline[i].Y = between(outline[i].Y)
		}
		marks := []Mark{area(c.Symbol, append(outline, Point{100 * to, base}, Point{100 * from, base})...)}
		for i, name := range names[:len(args)] {
			marks = append(marks, level(name+" = "+inWords(args[i])+" %", 0, 100, curve.height(args[i]/100)))
		}
		c.step("the "+what+" between "+micrometres(upper)+" and "+micrometres(lower)+" is "+micrometres(c.Result)+" spread over the length", c.Result, marks...)
		whole, l := w.whole(), w.length()
		c.step("the same in the profile", nan, area(what,
			append(w.strip(whole, func(i int) float64 { return between(w.z[i]) }), Point{l, base}, Point{0, base})...)).on(ProfilePlane)
		c.step("as a layer over the whole length", nan,
			area("layer", Point{0, base}, Point{0, base + layer}, Point{100, base + layer}, Point{100, base}))
		if len(args) == 2 {
			first, second := w.materialVolume(q), w.materialVolume(p)
			if !material {
				first, second = w.voidVolume(p), w.voidVolume(q)
			}
			c.work("{1} - {2}", first, second)
			return
		}
		s, way := &sheet{}, -1.0
		if material {
			way = 1
		}
		form := s.sum("(Σ) / "+s.of(float64(w.n)), "#", curve.strips(from, to, base, way), asIs)
		c.work(form, s.terms...)
	}
}
