package params

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

// alone evaluates one parameter by itself: the exported functions of the parameters that need shared work are this.
func alone(in Input, eval evaluator, args ...float64) float64 {
	if len(in.Z) == 0 {
		return nan
	}
	return eval(newWork(&in), args).value
}
