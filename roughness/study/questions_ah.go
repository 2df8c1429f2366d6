package study

import (
	"fmt"
	"math"
	"slices"

	"example.com/furrow/params"
)

// heights are the highest peak and the deepest pit of each section, pits as positive depths, and the places of both in the trace.
func (a *asker) heights() (peaks, pits, both []float64, highest, deepest int) {
	for k := range a.n {
		z := a.z[k*a.sec : (k+1)*a.sec]
		peaks, pits = append(peaks, slices.Max(z)), append(pits, -slices.Min(z))
		both = append(both, peaks[k]+pits[k])
	}
	highest, _ = largest(peaks)
	deepest, _ = largest(pits)
	return
}

// a
func (a *asker) section(p *Prediction) string {
	if a.n < 3 {
		return "fewer than three sections"
	}
	if why := a.lacks("Rz"); why != "" {
		return why
	}
	peaks, pits, both, high, deep := a.heights()
	k, next := largest(both)
	if both[next] > 0.95*both[k] {
		return "two sections raise the mean by about the same"
	}
	if high == k && deep == k {
		return "the highest peak and the deepest pit are in one section"
	}
	shown := []int{k}
	for _, i := range []int{high, deep} {
		if !slices.Contains(shown, i) {
			shown = append(shown, i)
		}
	}
	rest := slices.Clone(both)
	for _, i := range shown {
		rest[i] = math.Inf(-1)
	}
	for len(shown) < min(5, a.n) {
		i, _ := largest(rest)
		shown, rest[i] = append(shown, i), math.Inf(-1)
	}
	slices.Sort(shown)
	for _, i := range shown {
		p.Options = append(p.Options, fmt.Sprintf("section %d", i+1))
	}
	p.Answer = slices.Index(shown, k)
	p.Words = fmt.Sprintf("%s is the mean over %d sections. Which section raises the mean most?", a.name("Rz"), a.n)
	p.Reason = fmt.Sprintf("Only the distance from pit to peak of a section counts: section %d has %s + %s = %s µm. The highest peak of the trace is in section %d, the deepest pit in section %d.",
		k+1, Printed(peaks[k]), Printed(pits[k]), Printed(both[k]), high+1, deep+1)
	if high != k {
		p.chosen[slices.Index(shown, high)] = "A high peak alone is not enough."
	}
	p.Hides = []string{a.name("Rz")}
	p.shows(a, a.symbol("Rz"))
	p.tries("lower the highest peak of the trace", "ordinate-height")
	return ""
}

// b
func (a *asker) total(p *Prediction) string {
	if a.n == 1 {
		return "one section"
	}
	if why := a.lacks("Rz", "Rt"); why != "" {
		return why
	}
	rz, rt := a.value("Rz"), a.value("Rt")
	if !(rt/rz >= 1.18) {
		return "Rz and Rt are nearly equal"
	}
	p.numeric("µm", rt, rz, float64(a.n)*rz, rz*rz/rt)
	_, _, _, high, deep := a.heights()
	p.Words = fmt.Sprintf("%s is %s µm. How large is %s, over the whole evaluation length?", a.name("Rz"), Printed(rz), a.name("Rt"))
	p.Reason = fmt.Sprintf("%[1]s takes the highest peak (section %[2]d) and the deepest pit (section %[3]d), wherever they are. %[4]s takes the two of each section and then the mean. So %[1]s is never smaller than %[4]s.",
		a.name("Rt"), high+1, deep+1, a.name("Rz"))
	p.chosen[p.option(twoDigits(rz, "µm")+" µm")] = "They are equal only if all sections have the same two heights."
	p.Hides = []string{a.name("Rt")}
	p.shows(a, a.symbol("Rt"))
	p.tries(fmt.Sprintf("move one ordinate of section %d", high+1), "ordinate-height")
	return ""
}

// times returns the heights times a factor.
func times(z []float64, factor float64) []float64 {
	out := make([]float64, len(z))
	for i, v := range z {
		out[i] = factor * v
	}
	return out
}

// c
func (a *asker) double(p *Prediction) string {
	if why := a.lacks("Ra", "Rsk", "Rsm"); why != "" {
		return why
	}
	was, is := a.onProfile(a.z, "Ra", "Rsk", "Rsm"), a.onProfile(times(a.z, 2), "Ra", "Rsk", "Rsm")
	ra, rsk, rsm := a.name("Ra"), a.name("Rsk"), a.name("Rsm")
	switch {
	case math.IsNaN(was["Rsk"]) || math.IsNaN(was["Rsm"]):
		return "Rsk or Rsm is not defined"
	case math.Abs(was["Rsk"]) < 0.1:
		return "Rsk is near zero"
	case !same(is["Ra"], 2*was["Ra"]) || !same(is["Rsk"], was["Rsk"]) || !same(is["Rsm"], was["Rsm"]):
		return "the calculation does not give the plain answer here"
	}
	p.Words = fmt.Sprintf("All heights are doubled, the places stay. What happens to %s, %s and %s? (On the profile.)", ra, rsk, rsm)
	p.shuffled(a, fmt.Sprintf("%s doubles, %s and %s stay", ra, rsk, rsm), "all three double",
		fmt.Sprintf("%s doubles, %s becomes 8 times as large, %s stays", ra, rsk, rsm), fmt.Sprintf("%s and %s double, %s stays", ra, rsk, rsm))
	p.Reason = fmt.Sprintf("%s divides the mean cube by %s³: both become 8 times as large. %s is a length along the trace; its thresholds double with the heights.", rsk, a.name("Rq"), rsm)
	p.shows(a, a.symbol("Rsk"))
	p.tries("turn the profile upside down", "turned")
	return ""
}

// d
func (a *asker) turned(p *Prediction) string {
	if why := a.lacks("Rp", "Rv", "Rz", "Ra", "Rsk"); why != "" {
		return why
	}
	keys := []string{"Rp", "Rv", "Rz", "Ra", "Rsk"}
	was, is := a.onProfile(a.z, keys...), a.onProfile(times(a.z, -1), keys...)
	switch {
	case !(math.Abs(was["Rp"]-was["Rv"])/was["Rz"] >= 0.05):
		return "Rp and Rv are nearly equal"
	case !(math.Abs(was["Rsk"]) >= 0.1):
		return "Rsk is near zero"
	case !same(is["Rp"], was["Rv"]) || !same(is["Rsk"], -was["Rsk"]) || !same(is["Rz"], was["Rz"]) || !same(is["Ra"], was["Ra"]):
		return "the calculation does not give the plain answer here"
	}
	rp, rz, ra, rsk := a.name("Rp"), a.name("Rz"), a.name("Ra"), a.name("Rsk")
	p.Words = fmt.Sprintf("The profile is turned upside down. Which of %s, %s, %s, %s change? (On the profile.)", rp, rz, ra, rsk)
	p.shuffled(a, rp+" and "+rsk, "all four", "only "+rsk, rp+" and "+rz, "none")
	p.Reason = fmt.Sprintf("%s becomes what %s was, %s µm. Each cube changes its sign, so %s becomes %s. %s and %s are the same for both sides.",
		rp, a.name("Rv"), Printed(was["Rv"]), rsk, Printed(-was["Rsk"]), ra, rz)
	p.shows(a, func(s *State) { s.Turned = !s.Turned; a.symbol("Rsk")(s) })
	p.tries("turn the profile upside down and look at "+rp, "turned")
	return ""
}

// e
func (a *asker) sorted(p *Prediction) string {
	if why := a.lacks("Ra", "Rq", "Rsk", "Rku", "Rdq", "Rz"); why != "" {
		return why
	}
	if len(a.z) < 16 || a.n < 2 {
		return "fewer than two sections or 16 points"
	}
	if !a.overAll("Rq") || !a.overAll("Rsk") {
		return "this edition evaluates Rq and Rsk section by section"
	}
	keys := []string{"Ra", "Rq", "Rsk", "Rku", "Rdq", "Rz"}
	z := slices.Clone(a.z)
	slices.Sort(z)
	was, is := a.onProfile(a.z, keys...), a.onProfile(z, keys...)
	if !(is["Rz"] <= was["Rz"]/2) {
		return "Rz of the sorted heights is more than half of Rz"
	}
	for _, k := range keys[:4] {
		if !same(was[k], is[k]) && !(k == "Rsk" && math.Abs(was[k]-is[k]) < 1e-3) {
			return "the calculation does not give the plain answer here"
		}
	}
	if same(was["Rdq"], is["Rdq"]) {
		return "the calculation does not give the plain answer here"
	}
	n := func(k string) string { return a.name(k) }
	p.Words = fmt.Sprintf("The same heights are put in another order: from the lowest to the highest. Which of %s, %s, %s, %s, %s and %s stay the same? (On the profile.)", n("Ra"), n("Rq"), n("Rsk"), n("Rku"), n("Rdq"), n("Rz"))
	p.shuffled(a, fmt.Sprintf("%s, %s, %s and %s", n("Ra"), n("Rq"), n("Rsk"), n("Rku")), "all six: the heights are the same", "only "+n("Ra"), n("Ra")+" and "+n("Rdq"), "none")
	p.Reason = fmt.Sprintf("These four come from sums over all heights; the order of a sum does not matter. Neighbours have changed: %s falls from %s to %s, and %s of the sections from %s to %s µm. Two surfaces with the same %s can be quite different.",
		n("Rdq"), Printed(was["Rdq"]), Printed(is["Rdq"]), n("Rz"), Printed(was["Rz"]), Printed(is["Rz"]), n("Ra"))
	p.shows(a, a.symbol("Ra"))
	p.tries("change what moves the slope and not the heights", map[bool]string{true: "noise-length", false: "filter-short"}[a.r.State.Surface == Made])
	return ""
}

// overAll tells whether the edition evaluates a parameter over the evaluation length.
func (a *asker) overAll(key string) bool {
	c, ok := a.call(key)
	return ok && c.Meaning().Over == params.EvaluationLength
}

// f
func (a *asker) skewness(p *Prediction) string {
	if why := a.lacks("Rsk", "Rq"); why != "" {
		return why
	}
	if !a.overAll("Rsk") {
		return "this edition evaluates Rsk section by section"
	}
	rsk := a.value("Rsk")
	if !(math.Abs(math.Abs(rsk)-0.3) >= 0.08) {
		return "Rsk is too near to 0.3 or not defined"
	}
	below, above := 0.0, 0.0
	for _, v := range a.z {
		if c := v * v * v; v < 0 {
			below -= c
		} else {
			above += c
		}
	}
	name := a.name("Rsk")
	p.Distribution = true
	p.Words = fmt.Sprintf("Here is only the height distribution. Where is %s?", name)
	p.Options = []string{"below −0.3", "between −0.3 and 0.3", "above 0.3"}
	switch {
	case rsk < -0.3:
		p.Answer = 0
	case rsk < 0.3:
		p.Answer = 1
	default:
		p.Answer = 2
	}
	side := 1.0
	if below > above {
		side = -1
	}
	p.Reason = fmt.Sprintf("The cubes below the line add up to %s, those above to %s; divided by N and %s³ their difference is %s. Half of the larger sum comes from %s %% of the points.",
		Printed(-below), Printed(above), a.name("Rq"), Printed(rsk), printedTo(100*halfOf(a.z, side), 2))
	if p.Answer == 1 {
		p.Reason += " Near zero says that the two sums are nearly equal, not that the profile is symmetric."
	} else {
		p.chosen[1] = "Not the many heights near the line decide, but the cubes of the few far ones."
	}
	p.Hides = []string{name}
	p.shows(a, a.symbol("Rsk"))
	p.tries("move one ordinate far from the line", "ordinate-height")
	return ""
}

// halfOf is the share of the points whose cubes, on one side, make half of the sum of that side.
func halfOf(z []float64, side float64) float64 {
	var cubes []float64
	sum := 0.0
	for _, v := range z {
		if c := side * v * v * v; c > 0 {
			cubes, sum = append(cubes, c), sum+c
		}
	}
	slices.Sort(cubes)
	part, n := 0.0, 0
	for i := len(cubes) - 1; i >= 0 && part < sum/2; i-- {
		part += cubes[i]
		n++
	}
	return float64(n) / float64(len(z))
}

const scratchWidth = 40 // µm

// g
func (a *asker) scratch(p *Prediction) string {
	keys := []string{"Ra", "Rq", "Rz", "Rku"}
	if why := a.lacks(append(keys, "Rt")...); why != "" {
		return why
	}
	dx := a.e.Spacing
	_, _, both, _, _ := a.heights()
	for i := range both {
		both[i] = -both[i]
	}
	k, _ := largest(both)
	switch middle := float64(k*a.sec) + float64(a.sec)/2; {
	case float64(a.sec)*dx < 2*scratchWidth:
		return "a section is shorter than 80 µm"
	case scratchWidth > 0.04*float64(len(a.z))*dx:
		return "the scratch would be more than 4 % of the evaluation length"
	case math.Abs(float64(slices.Index(a.z, slices.Min(a.z)))-middle)*dx < scratchWidth/2:
		return "the deepest pit is there already"
	default:
		z, depth := slices.Clone(a.z), slices.Max(a.z)-slices.Min(a.z)
		touched := 0
		for i := range z {
			if u := math.Abs(float64(i)-middle) * dx / (scratchWidth / 2); u < 1 {
				z[i] -= depth * (1 - u)
				touched++
			}
		}
		was, is := a.onProfile(a.z, keys...), a.onProfile(z, keys...)
		change := make([]float64, len(keys))
		for i, key := range keys {
			change[i] = percent(was[key], is[key])
			if math.IsNaN(change[i]) {
				return "a value is not defined"
			}
		}
		size := []float64{math.Abs(change[0]), math.Abs(change[1]), math.Abs(change[2]), math.Abs(change[3])}
		first, second := largest(size)
		switch {
		case size[first] < 1.25*size[second]:
			return "two values change by about the same"
		case !(change[0] > 0 && change[0] < change[1] && change[1] < change[3]) || change[2] <= 0:
			return "the values do not rise in the order of their powers here"
		case first < 2:
			return "Ra or Rq changes most here"
		}
		options := []string{a.name(keys[first])}
		for i, key := range keys {
			if i != first {
				options = append(options, a.name(key))
			}
		}
		p.shuffled(a, options...)
		p.Words = fmt.Sprintf("A scratch, %s µm deep and 40 µm wide, is added in the middle of section %d. Which value changes most, in percent? (On the profile.)", Printed(depth), k+1)
		p.Reason = fmt.Sprintf("%s %s %%, %s %s %%, %s %s %%, %s %s %%.", a.name("Ra"), signed(change[0]), a.name("Rq"), signed(change[1]), a.name("Rz"), signed(change[2]), a.name("Rku"), signed(change[3]))
		if first == 3 {
			p.Reason += fmt.Sprintf(" The higher the power, the more a few far points count. %s sees the scratch in one section only and divides it by %d.", a.name("Rz"), a.n)
		} else {
			p.Reason += fmt.Sprintf(" The scratch is only %s %% of the points, so the means over all points change less here. %s takes its whole depth in one section and divides it by %d.",
				printedTo(100*float64(touched)/float64(len(z)), 2), a.name("Rz"), a.n)
		}
		p.shows(a, a.symbol(keys[first]))
		p.tries("move a scratch of your own", map[bool]string{true: "scratch-1-depth", false: "ordinate-height"}[a.r.State.Surface == Made])
		return ""
	}
}

// h
func (a *asker) dust(p *Prediction) string {
	if a.n < 3 {
		return "fewer than three sections"
	}
	if why := a.lacks("Rz", "Rt"); why != "" {
		return why
	}
	h := a.onProfile(a.z, "Rz")["Rz"]
	at := slices.Index(a.z[:a.sec], slices.Max(a.z[:a.sec]))
	z := slices.Clone(a.z)
	z[at] += h
	was, is := a.onProfile(a.z, "Rz", "Rt"), a.onProfile(z, "Rz", "Rt")
	grows := is["Rz"] - was["Rz"]
	if !same(grows, h/float64(a.n)) {
		return "the calculation does not give the plain answer here"
	}
	rz, rt := a.name("Rz"), a.name("Rt")
	p.Words = fmt.Sprintf("A speck of dust, one point wide and %s µm high, lies on the highest peak of section 1. By how much does %s grow? (On the profile.)", Printed(h), rz)
	p.numeric("µm", grows, h, 0, h/2)
	p.Reason = fmt.Sprintf("The peak of section 1 grows by %s µm, the other sections stay. The mean of %d grows by %s / %d = %s µm. %s would grow by %s µm.",
		Printed(h), a.n, Printed(h), a.n, Printed(grows), rt, Printed(is["Rt"]-was["Rt"]))
	point := (a.e.First+a.e.Start+at)*a.r.State.Every + 1
	p.shows(a, func(s *State) {
		a.symbol("Rz")(s)
		s.Point = point
		if s.Filter.Kind == "none" && len(s.Moved) < mostMoved && !s.Turned {
			s.Moved = append(s.Moved, MovedPoint{point, h, 1})
		}
	})
	p.tries("raise one ordinate yourself", "ordinate-height")
	return ""
}
