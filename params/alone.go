package params

import (
	"math"
	"strconv"
	"strings"
)

// whole makes an evaluator of a function of heights, over the evaluation length; the value of each section is shown
// beside it.
func whole(f func(z []float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		r := result{value: f(w.z), sections: w.perSection()}
		for k := range r.sections {
			r.sections[k] = f(w.sectionAt(k))
		}
		return r
	}
}

// sectionMean makes an evaluator of a function of heights, in each section, then the mean.
func sectionMean(f func(z []float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		s := w.perSection()
		for k := range s {
			s[k] = f(w.sectionAt(k))
		}
		return result{value: mean(s), sections: s}
	}
}

// wholeShape is whole for what a flat profile does not have.
func wholeShape(f func(z []float64, flat float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		if w.flat() {
			return undefined(reasonFlat)
		}
		r := result{value: f(w.z, w.in.Flat), sections: w.perSection()}
		for k := range r.sections {
			r.sections[k] = f(w.sectionAt(k), w.in.Flat)
		}
		return r
	}
}

// sectionMeanShape is sectionMean for what a flat section does not have.
func sectionMeanShape(f func(z []float64, flat float64) float64) evaluator {
	return func(w *work, _ []float64) result {
		if w.flat() {
			return undefined(reasonFlat)
		}
		s := w.perSection()
		for k := range s {
			s[k] = f(w.sectionAt(k), w.in.Flat)
		}
		return meanOfDefined(s, "is flat", "every section is flat: Rq = 0")
	}
}

// meanOfDefined is the mean over the sections that have a value. The reason names those that have none: what says
// what they lack, none is the reason when all lack it.
func meanOfDefined(s []float64, what, none string) result {
	sum, n := 0.0, 0
	var missing []string
	for k, v := range s {
		if math.IsNaN(v) {
			missing = append(missing, strconv.Itoa(k+1))
			continue
		}
		sum += v
		n++
	}
	r := result{value: sum / float64(n), sections: s}
	switch {
	case n == 0:
		return result{value: nan, sections: s, reason: none}
	case len(missing) == 1:
		r.reason = "section " + missing[0] + " " + what + ": the mean is taken over the others"
	case len(missing) > 1:
		r.reason = "each of the sections " + strings.Join(missing, ", ") + " " + what + ": the mean is taken over the others"
	}
	return r
}

// alone evaluates one parameter by itself: the exported functions of the parameters that need shared work are this. Without a
// height, or with an input that has a fault, there is no value.
func alone(in Input, eval evaluator, args ...float64) float64 {
	if len(in.Z) == 0 || in.fault() != "" {
		return nan
	}
	w := newWork(&in)
	defer w.release()
	return eval(w, args).value
}
