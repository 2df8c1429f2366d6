package study

import (
	"context"
	"fmt"
	"math"
	"slices"

	"example.com/furrow/filter"
	"example.com/furrow/params"
	"example.com/furrow/roughness/compare"
)

// next is the next longer one of a row of cut-offs, 0 for none.
func next(row []float64, from float64) float64 {
	for _, v := range row {
		if v > from*1.0001 {
			return v
		}
	}
	return 0
}

// i
func (a *asker) cutoff(p *Prediction) string {
	set := a.e.Settings
	if set.Long.Off || set.Long.Spec.Cutoff == 0 {
		return "no L-filter is used"
	}
	if why := a.lacks("Ra"); why != "" {
		return why
	}
	from := set.Long.Spec.Cutoff / millimetre
	to := next([]float64{0.08, 0.25, 0.8, 2.5, 8}, from)
	if to == 0 {
		return "there is no longer cut-off"
	}
	if float64(len(a.r.Surface.Z))*a.e.Spacing < 1.9*to*millimetre {
		return "the trace is too short for the next cut-off"
	}
	longer := func(s *State) {
		a.own(s)
		s.Filter.Long = to
		a.sameSections(s)
	}
	e := a.changed(longer)
	if e == nil {
		return "the trace cannot be evaluated with the next cut-off"
	}
	was, is := a.value("Ra"), a.valueOf(e, "Ra").Value
	change := percent(was, is)
	ra := a.name("Ra")
	p.Options = []string{"falls", "stays within 2 %", "rises"}
	switch {
	case math.IsNaN(change) || change < -1:
		return "Ra falls here, because of the ends of the filter"
	case change < 1:
		p.Answer = 1
		p.Reason = fmt.Sprintf("This trace has hardly any waves between %g and %g mm, so nothing is added.", from, to)
	case change <= 3:
		return "Ra changes by 1 to 3 %"
	default:
		p.Answer = 2
		p.Reason = fmt.Sprintf("A longer cut-off leaves longer waves in the roughness: %s becomes %s µm. A filter with a long cut-off takes less away, not more.", ra, Printed(is))
	}
	p.Words = fmt.Sprintf("The cut-off of the L-filter goes from %g to %g mm, the next longer of 0.08, 0.25, 0.8, 2.5 and 8. The sections stay. What happens to %s?", from, to, ra)
	p.shows(a, func(s *State) { longer(s); a.symbol("Ra")(s) })
	p.tries("move the cut-off of the L-filter", "filter-long")
	return ""
}

// j
func (a *asker) short(p *Prediction) string {
	set := a.e.Settings
	if set.Short.Off || set.Short.Spec.Cutoff == 0 {
		return "no S-filter is used"
	}
	keys := []string{"Ra", "Rz", "Rdq"}
	if why := a.lacks(keys...); why != "" {
		return why
	}
	from := set.Short.Spec.Cutoff
	to := next([]float64{2.5, 8, 25}, from)
	if to == 0 {
		return "there is no longer nesting index"
	}
	longer := func(s *State) {
		a.own(s)
		s.Filter.Short = to
		a.sameSections(s)
	}
	e := a.changed(longer)
	if e == nil {
		return "the trace cannot be evaluated with the next nesting index"
	}
	var change, size []float64
	for _, k := range keys {
		c := percent(a.value(k), a.valueOf(e, k).Value)
		if math.IsNaN(c) {
			return "a value is not defined"
		}
		change, size = append(change, c), append(size, math.Abs(c))
	}
	first, second := largest(size)
	alike := size[first] < 1.3*slices.Min(size)
	switch {
	case size[first] < 3:
		return "the values hardly change"
	case !alike && size[first] < 1.3*size[second]:
		return "two values change by about the same"
	case !alike && first < 2:
		return "Ra or Rz changes most here"
	}
	names := []string{a.name("Ra"), a.name("Rz"), a.name("Rdq")}
	all := "all by about the same"
	p.Reason = fmt.Sprintf("%s %s %%, %s %s %%, %s %s %%.", names[0], signed(change[0]), names[1], signed(change[1]), names[2], signed(change[2]))
	if alike {
		p.shuffled(a, all, names[0], names[1], names[2])
		p.Reason += " This profile is almost one wave, so height and slope fall together."
	} else {
		p.shuffled(a, names[2], names[0], names[1], all)
		p.Reason += " Of two waves of the same height the shorter one has the steeper flanks, so the slope loses most. A slope means nothing without its S-filter."
	}
	p.Words = fmt.Sprintf("The nesting index of the S-filter goes from %g to %g µm. Which of %s, %s, %s changes most, in percent?", from, to, names[0], names[1], names[2])
	p.shows(a, func(s *State) { longer(s); a.symbol("Rdq")(s) })
	p.tries("move the nesting index of the S-filter", "filter-short")
	return ""
}

// crossed are the extents of the complete hills (positive) and dales (negative) of a profile: its highest or lowest point between two
// crossings of the line.
func crossed(z []float64) (extents []float64, crossings int) {
	sign, extent, open := 0.0, 0.0, true
	for _, v := range z {
		if v == 0 {
			continue
		}
		if s := math.Copysign(1, v); s != sign {
			if sign != 0 {
				crossings++
				if !open {
					extents = append(extents, extent)
				}
				open = false
			}
			sign, extent = s, v
		} else if math.Abs(v) > math.Abs(extent) {
			extent = v
		}
	}
	return extents, crossings
}

// k
func (a *asker) elements(p *Prediction) string {
	if a.r.State.Edition != "iso-21920" {
		return "the rule of ISO 21920 is asked about"
	}
	c, _ := a.call("Rsm")
	how, err := params.Construct(a.input("Rsm"), c)
	if err != nil {
		return "Rsm is not defined"
	}
	m := 0
	for _, s := range how.Steps {
		if !math.IsNaN(s.Value) {
			m++
		}
	}
	if m < 3 {
		return "fewer than three profile elements"
	}
	extents, n := crossed(a.z)
	peaks, pits, _, _, _ := a.heights()
	hill, dale := 0.0, 0.0
	for k := range peaks {
		hill += 0.1 * peaks[k] / float64(a.n)
		dale += 0.1 * pits[k] / float64(a.n)
	}
	hills, dales := 0, 0
	for _, v := range extents {
		switch {
		case v > 0 && v < hill:
			hills++
		case v < 0 && -v < dale:
			dales++
		}
	}
	tops := 0
	for i := 1; i < len(a.z)-1; i++ {
		if a.z[i] > a.z[i-1] && a.z[i] >= a.z[i+1] {
			tops++
		}
	}
	p.numeric("", float64(m), float64(n-1), math.Floor(float64(n)/2), float64(tops))
	p.Words = fmt.Sprintf("The profile crosses the reference line %d times. Of how many profile elements is %s the mean?", n, a.name("Rsm"))
	p.Reason = fmt.Sprintf("Between the crossings there are %d hills and dales. %s below 10 %% of Rp and %s below 10 %% of Rv. They are joined to their neighbours, the smallest first; one joining makes three parts into one. %d parts are left, and each pair of neighbours makes one element: %d − 1 = %d.",
		n-1, are(hills, "hill"), are(dales, "dale"), m+1, m+1, m)
	p.Hides = []string{a.name("Rsm")}
	p.shows(a, a.symbol("Rsm"))
	p.tries("change what makes the small hills", map[bool]string{true: "noise-rq", false: "filter-long"}[a.r.State.Surface == Made])
	return ""
}

// are is a number of things and its verb.
func are(n int, noun string) string {
	if n == 1 {
		return "1 " + noun + " is"
	}
	return whole(n) + " " + noun + "s are"
}

// l
func (a *asker) cut(p *Prediction) string {
	if why := a.lacks("Rmr"); why != "" {
		return why
	}
	high, total := slices.Max(a.z), slices.Max(a.z)-slices.Min(a.z)
	share, words := 25.0, "a quarter"
	c := math.Round((high-total/4)*1e4) / 1e4
	ratio := a.value("Rmr", c)
	if math.Abs(ratio-25) < 8 {
		share, words = 50, "half"
		c = math.Round((high-total/2)*1e4) / 1e4
		ratio = a.value("Rmr", c)
	}
	if !(math.Abs(ratio-share) >= 8) {
		return "the share of the length is near the share of the height at both cuts"
	}
	p.numeric("%", ratio, share, 100-ratio, 75-share)
	p.Words = fmt.Sprintf("The profile is cut at %s µm, %s of the total height below the highest peak. Which share of the length is at or above the cut?", Printed(c), words)
	length := float64(len(a.z)) * a.e.Spacing / millimetre
	p.Reason = fmt.Sprintf("The share counts length, not height: %s of %s mm.", Printed(ratio/100*length), Printed(length))
	if ratio < share {
		p.Reason += " The peaks take much of the height and little of the length."
	} else {
		p.Reason += " Much of the length is within this upper part."
	}
	p.chosen[p.option(twoDigits(share, "%")+" %")] = "The share of the length is not the share of the height."
	p.Hides = []string{a.name("Rmr")}
	p.shows(a, a.symbol("Rmr", c))
	p.tries("move the cut level", "cut-level")
	return ""
}

const coreWindow = 40 // % of the ratio

// m
func (a *asker) window(p *Prediction) string {
	c, ok := a.call("Rk")
	if !ok {
		return "this edition has no Rk"
	}
	in := a.input("Rk")
	if in == nil {
		return "Rk is not defined"
	}
	how, err := params.Construct(in, c)
	if err != nil {
		return "Rk is not defined"
	}
	start, found := windowOf(how)
	if !found {
		return "Rk has no window here"
	}
	fall := func(from float64) float64 { return params.Rmc(in.Z, from) - params.Rmc(in.Z, from+coreWindow) }
	least := fall(start)
	if least < 1e-6*(slices.Max(in.Z)-slices.Min(in.Z)) {
		return "the curve is level over more than the window"
	}
	at := math.Round(start/5) * 5
	for from := 0.0; from <= 60; from++ {
		if math.Abs(from-start) >= 15 && fall(from) < 1.02*least {
			return "two places are equally flat; the first one counts"
		}
	}
	if math.Abs(start-30) >= 10 && fall(30) < 1.1*least {
		return "the middle is nearly as flat"
	}
	starts := []float64{at}
	for _, from := range []float64{0, 30, 60, at + 20, at - 20} {
		if from < 0 || from > 60 || math.Abs(from-at) < 10 || fall(from) < 1.1*least || len(starts) == 5 ||
			slices.ContainsFunc(starts, func(s float64) bool { return math.Abs(s-from) < 10 }) {
			continue
		}
		starts = append(starts, from)
	}
	slices.Sort(starts)
	p.Answer = slices.Index(starts, at)
	for _, from := range starts {
		text := fmt.Sprintf("from %g to %g %%", from, from+coreWindow)
		if name, ok := map[float64]string{0: "the peaks", 30: "the middle", 60: "the dales"}[from]; ok {
			text += " (" + name + ")"
		}
		p.Options = append(p.Options, text)
	}
	p.Words = "A window of 40 % slides along the material ratio curve. Where is the curve flattest?"
	if a.ownFilter(in) {
		p.Words += " (On the profile from which the core is computed.)"
	}
	p.Reason = fmt.Sprintf("Flat means: much length within little height. From %s to %s %% the curve falls by only %s µm, ", printedTo(start, 2), printedTo(start+coreWindow, 2), Printed(least))
	if at >= 20 && at <= 40 {
		p.Reason += fmt.Sprintf("from 0 to 40 %% by %s µm, from 60 to 100 %% by %s µm.", Printed(fall(0)), Printed(fall(60)))
	} else {
		p.Reason += fmt.Sprintf("in the middle (30 to 70 %%) by %s µm.", Printed(fall(30)))
	}
	p.Hides = []string{a.name("Rk"), a.name("Rpk"), a.name("Rvk")}
	p.shows(a, a.symbol("Rk"))
	p.tries("change the share that is worn level", map[bool]string{true: "worn-share", false: "ordinate-height"}[a.r.State.Surface == Made])
	return ""
}

// windowOf is where the flattest part begins in the construction of Rk.
func windowOf(c params.Construction) (start float64, found bool) {
	for _, s := range c.Steps {
		for _, m := range s.Marks {
			if n := len(m.Points); m.Kind == params.LineMark && n >= 2 && m.Points[n-1].X-m.Points[0].X > coreWindow-1 && m.Points[n-1].X-m.Points[0].X < coreWindow+1 {
				return m.Points[0].X, true
			}
		}
	}
	return 0, false
}

// n
func (a *asker) top(p *Prediction) string {
	keys := []string{"Rpk", "Rpkx", "Rmrk1"}
	if why := a.lacks(keys...); why != "" {
		return why
	}
	in := a.input("Rpk")
	if in == nil {
		return "Rpk is not defined"
	}
	z := in.Z
	if len(z) < 200 {
		return "fewer than 200 points"
	}
	raised := slices.Clone(z)
	at := slices.Index(z, slices.Max(z))
	raised[at] *= 2
	was, is := a.onProfile(z, keys...), a.onProfile(raised, keys...)
	switch change := math.Abs(percent(was["Rpk"], is["Rpk"])); {
	case !(was["Rmrk1"] > 0):
		return "there are no peaks above the core"
	case !(change < 2):
		return "Rpk changes by 2 % or more"
	case z[at] <= 0:
		return "the highest point is below the line"
	}
	rpk, rpkx := a.name("Rpk"), a.name("Rpkx")
	p.Words = fmt.Sprintf("The highest point of the profile is raised to twice its height. What happens to %s? (On the profile", rpk)
	if a.ownFilter(in) {
		p.Words += " from which the core is computed, which has a filter of its own"
	}
	p.Words += ".)"
	p.shuffled(a, "changes by less than 2 %", "doubles", "becomes equal to the new height above the core")
	p.Reason = fmt.Sprintf("%[1]s comes from the area of all peaks above the core. One point of %[2]s adds hardly any area: %[3]s becomes %[4]s µm. %[5]s, the height of the highest peak above the core, goes from %[6]s to %[7]s µm.",
		rpk, whole(len(z)), Printed(was["Rpk"]), Printed(is["Rpk"]), rpkx, Printed(was["Rpkx"]), Printed(is["Rpkx"]))
	p.shows(a, a.symbol("Rpk"))
	p.tries("raise one ordinate yourself", "ordinate-height")
	return ""
}

// o
func (a *asker) wave(p *Prediction) string {
	set := a.e.Settings
	if set.Long.Off || set.Long.Spec.Cutoff == 0 {
		return "no L-filter is used"
	}
	long, own := set.Long.Linear()
	if long == nil || !own {
		return "the L-filter has no transmission of its own"
	}
	passed := func(float64) float64 { return 1 }
	if !set.Short.Off {
		short, own := set.Short.Linear()
		if short == nil || !own {
			return "the S-filter has no transmission of its own"
		}
		passed = short.Transmission
	}
	if why := a.lacks("Rz"); why != "" || a.r.State.Letter != "R" {
		return "this edition or profile has no Rz"
	}
	through := func(wave float64) float64 {
		if f, ok := long.(filter.Shifting); ok {
			size, _ := f.Response(wave)
			return passed(wave) * size
		}
		return passed(wave) * (1 - long.Transmission(wave))
	}
	rz := a.value("Rz")
	if !(rz > 0) {
		return "Rz is not defined"
	}
	unit := math.Pow(10, math.Floor(math.Log10(2*rz)))
	h := math.Round(2*rz/unit) * unit
	nic := set.Long.Spec.Cutoff
	p.numeric("µm", h*through(nic), 0, h, 0.1*h)
	p.Words = fmt.Sprintf("A wave of %g mm, as long as the cut-off, and %s µm high is added to the trace. How high is it in the roughness profile?", nic/millimetre, twoDigits(h, "µm"))
	p.Reason = fmt.Sprintf("A cut-off is no edge. At its own wavelength this filter lets %s %% through; at half of it %s %%, at twice %s %%.",
		printedTo(100*through(nic), 2), printedTo(100*through(nic/2), 2), printedTo(100*through(2*nic), 2))
	p.chosen[p.option("0 µm")] = "Cut-off does not mean cut away."
	p.tries("move the cut-off of the L-filter", "filter-long")
	return ""
}

// p
func (a *asker) digits(p *Prediction) string {
	if a.n < 2 {
		return "one section"
	}
	if why := a.lacks("Rz"); why != "" {
		return why
	}
	from, to := a.e.Room()
	if free := to - from - a.n*a.sec; float64(free) < float64(a.sec)/10 {
		return "the sections have no room to move"
	}
	set := a.e.Settings
	c, _ := a.call("Rz")
	set.Parameters = []string{c.Symbol}
	all, err := compare.Steady(context.Background(), a.r.Surface, &set)
	if err != nil || len(all) == 0 || !all[0].Stated || all[0].Digits < 1 {
		return "nothing can be said of the digits"
	}
	s := all[0]
	p.Options = []string{"1", "2", "3", "4 or more"}
	p.Answer = min(4, s.Digits) - 1
	rz := a.name("Rz")
	p.Words = fmt.Sprintf("The sections can be laid at %d other places of the same trace. How many leading digits of %s stay the same, or nearly so in the last of them?", s.Places, rz)
	p.Reason = fmt.Sprintf("Over the places %s goes from %s to %s µm. More digits describe the place, not the surface. This says nothing about the instrument, which adds its own uncertainty.", rz, Printed(s.Low), Printed(s.High))
	p.shows(a, a.symbol("Rz"))
	p.tries("move the start of the sections", "section-start")
	return ""
}
