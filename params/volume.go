package params

// The volumes under and over the material ratio curve, each a height: 1 µm is 1 ml/m².

// volumeArgs are the two ratios that split peaks, core and dales.
var (
	argPeak = Arg{Name: "p", Unit: Percent, Default: 10, Text: "material ratio where the peaks end"}
	argDale = Arg{Name: "q", Unit: Percent, Default: 80, Text: "material ratio where the dales begin"}
	volume  = []Meaning{{Editions: editions21920, Over: EvaluationLength, Refs: refs(iso21920("4.5.5"))}}
)

// volumeRows are the volumes. The symbols of the profile are not public; they follow those of areal texture.
var volumeRows = []Parameter{
	{
		Key: "Rvm", Name: "material volume", Group: GroupVolume, Meanings: volume,
		Args:      []Arg{{Name: "p", Unit: Percent, Default: 10, Text: "material ratio of the cut"}},
		Formula:   "Rvm(p) = int{0}{p}{[c(r) - c(p)]}{r}",
		Sentence:  "The material above the height with the material ratio p, spread over the whole length; 1 µm is 1 ml/m².",
		Blind:     "Whether it is one peak or many.",
		eval:      func(w *work, a []float64) result { return value(w.materialVolume(a[0] / 100)) },
		construct: constructVolume(true),
	},
	{
		Key: "Rvv", Name: "void volume", Group: GroupVolume, Meanings: volume,
		Args:      []Arg{{Name: "p", Unit: Percent, Default: 10, Text: "material ratio of the cut"}},
		Formula:   "Rvv(p) = int{p}{1}{[c(p) - c(r)]}{r}",
		Sentence:  "The empty space below the height with the material ratio p, spread over the whole length; 1 µm is 1 ml/m².",
		Blind:     "Whether the space is connected, and whether it is one dale or many.",
		eval:      func(w *work, a []float64) result { return value(w.voidVolume(a[0] / 100)) },
		construct: constructVolume(false),
	},
	{
		Key: "Rvmp", Name: "peak material volume", Group: GroupVolume, Meanings: volume,
		Args:      []Arg{argPeak},
		Formula:   "Rvmp(p) = Rvm(p)",
		Sentence:  "The material above the height with the material ratio p, 10 % unless stated: the tips of the peaks.",
		Practice:  "Wears away in running-in.",
		Blind:     "Whether it is one peak or many.",
		eval:      func(w *work, a []float64) result { return value(w.materialVolume(a[0] / 100)) },
		construct: constructVolume(true),
	},
	{
		Key: "Rvmc", Name: "core material volume", Group: GroupVolume, Meanings: volume,
		Args:      []Arg{argPeak, argDale},
		Formula:   "Rvmc(p, q) = Rvm(q) - Rvm(p)",
		Sentence:  "The material between the heights with the material ratios p and q, 10 % and 80 % unless stated.",
		Practice:  "Carries the load after running-in.",
		Blind:     "How the material is spread along the trace.",
		check:     checkOrder,
		eval:      materialBetween,
		construct: constructVolume(true),
	},
	{
		Key: "Rvvc", Name: "core void volume", Group: GroupVolume, Meanings: volume,
		Args:      []Arg{argPeak, argDale},
		Formula:   "Rvvc(p, q) = Rvv(p) - Rvv(q)",
		Sentence:  "The empty space between the heights with the material ratios p and q, 10 % and 80 % unless stated.",
		Practice:  "Holds fluid while the core carries.",
		Blind:     "Whether the space is connected.",
		check:     checkOrder,
		eval:      voidBetween,
		construct: constructVolume(false),
	},
	{
		Key: "Rvvv", Name: "dale void volume", Group: GroupVolume, Meanings: volume,
		Args:      []Arg{argDale},
		Formula:   "Rvvv(q) = Rvv(q)",
		Sentence:  "The empty space below the height with the material ratio q, 80 % unless stated: the bottom of the dales.",
		Practice:  "Holds oil when peaks and core are worn.",
		Blind:     "Whether it is one dale or many.",
		eval:      func(w *work, a []float64) result { return value(w.voidVolume(a[0] / 100)) },
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
