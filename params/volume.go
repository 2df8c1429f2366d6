package params

// The volumes under and over the material ratio curve, each a height: 1 µm is 1 ml/m².

// volumeArgs are the two ratios that split peaks, core and dales.
var (
	argPeak = Arg{Name: "p", Unit: Percent, Default: 10, Text: "material ratio where the peaks end"}
	argDale = Arg{Name: "q", Unit: Percent, Default: 80, Text: "material ratio where the dales begin"}
	volume  = []Meaning{meaning(editions21920, EvaluationLength, iso21920("4.5.5"))}
)

// volumeRows are the volumes. The symbols of the profile are not public; they follow those of areal texture.
var volumeRows = []Parameter{
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
	{
		Key: "Rvm", Name: "material volume", Meanings: volume,
		Args:      []Arg{{Name: "p", Unit: Percent, Default: 10, Text: "material ratio of the cut"}},
		Formula:   "Rvm(p) = int{0}{p}{[c(r) - c(p)]}{r}",
		Sentence:  "The material above the height with the material ratio p, spread over the whole length; 1 µm is 1 ml/m².",
		Blind:     "Whether it is one peak or many.",
		eval:      materialAt,
		construct: constructVolume(true),
	},
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
	{
		Key: "Rvv", Name: "void volume", Meanings: volume,
		Args:      []Arg{{Name: "p", Unit: Percent, Default: 10, Text: "material ratio of the cut"}},
		Formula:   "Rvv(p) = int{p}{1}{[c(p) - c(r)]}{r}",
		Sentence:  "The empty space below the height with the material ratio p, spread over the whole length; 1 µm is 1 ml/m².",
		Blind:     "Whether the space is connected, and whether it is one dale or many.",
		eval:      voidAt,
		construct: constructVolume(false),
	},
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
	{
		Key: "Rvmp", Name: "peak material volume", Meanings: volume,
		Args:      []Arg{argPeak},
		Formula:   "Rvmp(p) = Rvm(p)",
		Sentence:  "The material above the height with the material ratio p, 10 % unless stated: the tips of the peaks.",
		Practice:  "Wears away in running-in.",
		Blind:     "Whether it is one peak or many.",
		eval:      materialAt,
		construct: constructVolume(true),
	},
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
	{
		Key: "Rvmc", Name: "core material volume", Meanings: volume,
		Args:      []Arg{argPeak, argDale},
		Formula:   "Rvmc(p, q) = Rvm(q) - Rvm(p)",
		Sentence:  "The material between the heights with the material ratios p and q, 10 % and 80 % unless stated.",
		Practice:  "Carries the load after running-in.",
		Blind:     "How the material is spread along the trace.",
		check:     checkOrder,
		eval:      materialBetween,
		construct: constructVolume(true),
	},
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
	{
		Key: "Rvvc", Name: "core void volume", Meanings: volume,
		Args:      []Arg{argPeak, argDale},
		Formula:   "Rvvc(p, q) = Rvv(p) - Rvv(q)",
		Sentence:  "The empty space between the heights with the material ratios p and q, 10 % and 80 % unless stated.",
		Practice:  "Holds fluid while the core carries.",
		Blind:     "Whether the space is connected.",
		check:     checkOrder,
		eval:      voidBetween,
		construct: constructVolume(false),
	},
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
	{
		Key: "Rvvv", Name: "dale void volume", Meanings: volume,
		Args:      []Arg{argDale},
		Formula:   "Rvvv(q) = Rvv(q)",
		Sentence:  "The empty space below the height with the material ratio q, 80 % unless stated: the bottom of the dales.",
		Practice:  "Holds oil when peaks and core are worn.",
		Blind:     "Whether it is one dale or many.",
		eval:      voidAt,
		construct: constructVolume(false),
	},
}

func checkOrder(args []float64) string {
	if args[0] >= args[1] {
		return "the first material ratio must be below the second"
	}
	return ""
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
		outline := curve.outline(from, to, curvePoints)
		for i := range outline {
			outline[i].Y = min(upper, max(lower, outline[i].Y))
		}
		outline = append(outline, Point{100 * to, back}, Point{100 * from, back})
		what := "void"
		if material {
			what = "material"
		}
		s := step("the "+what+" between "+micrometres(upper)+" and "+micrometres(lower)+" is "+micrometres(c.Result)+" spread over the length", c.Result,
			area(c.Symbol, outline...))
		for _, a := range args {
			s.Marks = append(s.Marks, level(digits(a, 4)+" %", 0, 100, curve.height(a/100)))
		}
		c.add(s)
		if len(args) == 2 {
			first, second := w.materialVolume(q), w.materialVolume(p)
			if !material {
				first, second = w.voidVolume(p), w.voidVolume(q)
			}
			c.work("{1} - {2}", first, second)
		}
	}
}
