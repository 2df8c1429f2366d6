package study

import (
	"math"
	"slices"
	"strconv"
	"sync"

	"example.com/furrow/params"
)

// Letters are the numbers that the letters of the symbol's formula have on this profile, by the keys of the catalogue; how is the
// construction of the value, picked the step in hand, from 1.
func (r *Result) Letters(how *params.Construction, picked int) map[string]string {
	out := map[string]string{}
	if r.Input == nil || len(r.Input.Z) == 0 {
		return out
	}
	for _, key := range lettersOf(r.Call.Parameter) {
		if text := letterNumbers[key](&letterAsk{r, how, picked}); text != "" {
			out[key] = text
		}
	}
	return out
}

// letterKeys are those of each symbol that have numbers, by its key: formulas are read once.
var letterKeys sync.Map

func lettersOf(p *params.Parameter) []string {
	if keys, ok := letterKeys.Load(p.Key); ok {
		return keys.([]string)
	}
	var keys []string
	for _, l := range append(p.Equation().Letters, p.DefinedEquation().Letters...) {
		if _, ok := letterNumbers[l.Key]; ok && !slices.Contains(keys, l.Key) {
			keys = append(keys, l.Key)
		}
	}
	letterKeys.Store(p.Key, keys)
	return keys
}

// A letterAsk asks for the number of one letter.
type letterAsk struct {
	r      *Result
	how    *params.Construction
	picked int
}

// items counts the steps with a value.
func (a *letterAsk) items() string {
	if a.how == nil {
		return ""
	}
	n := 0
	for _, s := range a.how.Steps {
		if !math.IsNaN(s.Value) {
			n++
		}
	}
	return whole(n)
}

// item is the value of the picked step.
func (a *letterAsk) item() string {
	if a.how == nil || a.picked < 1 || a.picked > len(a.how.Steps) || math.IsNaN(a.how.Steps[a.picked-1].Value) {
		return ""
	}
	return withUnit(a.how.Steps[a.picked-1].Value, a.how.Unit)
}

// section is the highest or the lowest point of the section of the picked step.
func (a *letterAsk) section(of func(z []float64) float64) string {
	n := a.r.Input.Section
	if a.how == nil || a.picked < 1 || a.picked > len(a.how.Steps) || n == 0 {
		return ""
	}
	k := a.how.Steps[a.picked-1].Section
	if k < 1 || k*n > len(a.r.Input.Z) {
		return ""
	}
	return withUnit(of(a.r.Input.Z[(k-1)*n:k*n]), params.Micrometre)
}

func (a *letterAsk) argument(i int) string {
	if i >= len(a.r.Call.Args) || math.IsNaN(a.r.Call.Args[i]) {
		return ""
	}
	return withUnit(a.r.Call.Args[i], a.r.Call.Parameter.Args[i].Unit)
}

func (a *letterAsk) named(name string) string {
	i := slices.IndexFunc(a.r.Call.Parameter.Args, func(g params.Arg) bool { return g.Name == name })
	if i < 0 {
		return ""
	}
	return a.argument(i)
}

// other is the value of another parameter on the same profile.
func (a *letterAsk) other(symbol string) float64 {
	call, err := params.Lookup("iso-21920", 'R', symbol)
	if err != nil {
		return math.NaN()
	}
	return params.Evaluate(a.r.Input, call)[0].Value
}

// letterNumbers are the letters that have one number on a profile.
var letterNumbers = map[string]func(a *letterAsk) string{
	"N":   func(a *letterAsk) string { return whole(len(a.r.Input.Z)) },
	"dx":  func(a *letterAsk) string { return plainly(a.r.Input.Dx, 4) + " µm" },
	"nsc": func(a *letterAsk) string { return strconv.Itoa(max(1, a.r.Evaluation.Sections)) },
	"le": func(a *letterAsk) string {
		return plainly(float64(len(a.r.Input.Z))*a.r.Input.Dx/millimetre, 4) + " mm"
	},
	"lm": func(a *letterAsk) string {
		return plainly(float64(len(a.r.Input.Z)-1)*a.r.Input.Dx/millimetre, 4) + " mm"
	},
	"Ng": func(a *letterAsk) string {
		if a.how == nil || len(a.how.Worked) == 0 || len(a.how.Worked[0].Terms) == 0 {
			return ""
		}
		if n := a.how.Worked[0].Terms[0]; n == math.Trunc(n) {
			return whole(int(n))
		}
		return ""
	},
	"m":  (*letterAsk).items,
	"n":  (*letterAsk).items,
	"np": (*letterAsk).items,
	"nv": (*letterAsk).items,
	"Zt": (*letterAsk).item,
	"Xs": (*letterAsk).item,
	"Wr": (*letterAsk).item,
	"Ww": (*letterAsk).item,
	"P":  (*letterAsk).item,
	"V":  (*letterAsk).item,
	"Zp": func(a *letterAsk) string { return a.section(func(z []float64) float64 { return slices.Max(z) }) },
	"Zv": func(a *letterAsk) string { return a.section(func(z []float64) float64 { return -slices.Min(z) }) },
	"c": func(a *letterAsk) string {
		if cuts := a.r.cuts(); len(cuts) > 0 {
			return withUnit(cuts[0], params.Micrometre)
		}
		return ""
	},
	"p": func(a *letterAsk) string { return a.named("p") },
	"q": func(a *letterAsk) string { return a.named("q") },
	"d": func(a *letterAsk) string { return a.named("d") },
	"s": func(a *letterAsk) string { return a.named("s") },
	"Ml": func(a *letterAsk) string {
		if a.r.Value.Unit != params.Percent {
			return ""
		}
		return withUnit(a.r.Value.Value/100*float64(len(a.r.Input.Z)-1)*a.r.Input.Dx/millimetre, "mm")
	},
	"cu": func(a *letterAsk) string { return withUnit(slices.Max(a.r.Input.Z)-a.other("Rpkx"), params.Micrometre) },
	"cl": func(a *letterAsk) string { return withUnit(slices.Min(a.r.Input.Z)+a.other("Rvkx"), params.Micrometre) },
	"jd": func(a *letterAsk) string {
		return whole(int(math.Round(float64(len(a.r.Input.Z)) * a.r.Input.Dx / a.r.Value.Value)))
	},
	"L":  func(*letterAsk) string { return "10 mm" },
	"pi": func(*letterAsk) string { return "3.1416" },
}
