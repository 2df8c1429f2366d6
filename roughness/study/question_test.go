package study

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness"
	"example.com/furrow/roughness/compare"
	"example.com/furrow/roughness/synth"
)

// Everything below works out the answers again, from the heights and the definitions, without the library where that can be done in
// a few lines: the options of a question must hold that answer at the place that the question says.

func meanOf(z []float64, f func(v float64) float64) float64 {
	s := 0.0
	for _, v := range z {
		s += f(v)
	}
	return s / float64(len(z))
}

func raOf(z []float64) float64 { return meanOf(z, math.Abs) }
func rqOf(z []float64) float64 { return math.Sqrt(meanOf(z, func(v float64) float64 { return v * v })) }
func momentOf(z []float64, n float64) float64 {
	return meanOf(z, func(v float64) float64 { return math.Pow(v, n) }) / math.Pow(rqOf(z), n)
}

// rzOf is the mean of the heights of n sections.
func rzOf(z []float64, n int) float64 {
	s, l := 0.0, len(z)/n
	for k := range n {
		s += slices.Max(z[k*l:(k+1)*l]) - slices.Min(z[k*l:(k+1)*l])
	}
	return s / float64(n)
}

// elementsOf counts the profile elements of ISO 21920, joining the smallest part that is too small until none is left.
func elementsOf(z []float64, n int) int {
	type piece struct{ extent float64 }
	l := len(z) / n
	hill, dale := 0.0, 0.0
	for k := range n {
		hill += 0.1 * slices.Max(z[k*l:(k+1)*l]) / float64(n)
		dale -= 0.1 * slices.Min(z[k*l:(k+1)*l]) / float64(n)
	}
	var parts []piece
	for _, v := range z {
		switch last := len(parts) - 1; {
		case v == 0:
		case last < 0 || parts[last].extent*v < 0:
			parts = append(parts, piece{v})
		case math.Abs(v) > math.Abs(parts[last].extent):
			parts[last].extent = v
		}
	}
	parts = parts[1 : len(parts)-1]
	for {
		small := -1
		for i, p := range parts {
			if least := map[bool]float64{true: hill, false: dale}[p.extent > 0]; math.Abs(p.extent) < least && (small < 0 || math.Abs(p.extent) < math.Abs(parts[small].extent)) {
				small = i
			}
		}
		switch {
		case small < 0:
			return len(parts) - 1
		case small == 0 || small == len(parts)-1:
			parts = slices.Delete(parts, small, small+1)
		default:
			joined := parts[small-1]
			if math.Abs(parts[small+1].extent) > math.Abs(joined.extent) {
				joined = parts[small+1]
			}
			parts = slices.Replace(parts, small-1, small+2, joined)
		}
	}
}

// above is the share of the length of the straight lines between the points that is at or above a level, in percent.
func above(z []float64, c float64) float64 {
	length := 0.0
	for i := 1; i < len(z); i++ {
		a, b := z[i-1]-c, z[i]-c
		switch {
		case a >= 0 && b >= 0:
			length++
		case a*b < 0:
			length += math.Max(a, b) / math.Abs(a-b)
		}
	}
	return 100 * length / float64(len(z)-1)
}

// flattest is where the window of 40 % of the sorted heights falls least.
func flattest(z []float64) (start, least float64) {
	s := slices.Clone(z)
	slices.Sort(s)
	slices.Reverse(s)
	w := int(math.Round(0.4 * float64(len(s))))
	best := 0
	for i := range len(s) - w {
		if s[i]-s[i+w] < s[best]-s[best+w] {
			best = i
		}
	}
	return 100 * float64(best) / float64(len(s)), s[best] - s[best+w]
}

// anySurface is a random exercise of a kind of surface: ground, turned, honed, scratched, with specks, noise, sines.
func anySurface(i int) State {
	r := synth.NewRandom(uint64(i), 9)
	u := func(low, high float64) float64 { return math.Round(1e4*(low+(high-low)*r.Uniform())) / 1e4 }
	s := State{Surface: Made, Length: 4.8, Filter: Removal{Kind: "class"}}
	noise := Part{"noise", []float64{u(0.05, 1), u(2, 20), float64(1 + r.Uint32()%9999)}}
	switch i % 7 {
	case 0:
		s.Parts = []Part{noise, {"sine1", []float64{u(0, 1), u(0.2, 2), u(0, 1)}}}
	case 1:
		s.Parts = []Part{{"feed", []float64{u(0.08, 0.3), u(0.2, 1)}}, noise}
	case 2:
		s.Parts = []Part{{"hone", []float64{u(0.1, 0.3), u(1, 2), u(0, 2), 5, 13, float64(1 + r.Uint32()%9999)}}}
	case 3:
		s.Parts = []Part{noise, {"scratch", []float64{u(0.5, 4), u(5, 60), u(1, 8)}}}
	case 4:
		s.Parts = []Part{noise, {"dust", []float64{u(0.5, 4), u(2, 30), u(1, 8)}}}
	case 5:
		s.Parts = []Part{noise, {"worn", []float64{u(5, 70)}}}
	default:
		s.Parts = []Part{{"sine1", []float64{u(0.5, 4), u(0.05, 0.4), u(0, 1)}}, {"sine2", []float64{u(0.1, 1), u(0.02, 1.5), 0}}}
	}
	if i%3 == 1 {
		s.Filter, s.Sections = Removal{Kind: "none"}, Sections{Number: 1 + i%6}
	}
	return s
}

// worked is a question's answer from the definition, as the text of its option; "" where the definition says that the question must
// not be asked.
func worked(t *testing.T, d *Desk, r *Result, q *Prediction) string {
	e := r.Evaluation
	z, n := e.Evaluated(), e.Sections
	l := len(z) / n
	micro := func(v float64) string { return twoDigits(v, "µm") + " µm" }
	evaluated := func(change func(s *roughness.Settings)) *roughness.Evaluation {
		set := e.Settings
		start := e.StartLength()
		set.Start, set.Sections, set.SectionLength, set.Parameters = &start, n, float64(e.SectionPoints)*e.Spacing, []string{"Ra", "Rz", "Rdq"}
		change(&set)
		again, err := roughness.Evaluate(r.Surface, &set)
		if err != nil {
			t.Fatal(err)
		}
		return again
	}
	core := func() []float64 {
		s := r.State
		s.Symbol = "Rk"
		again, err := d.Evaluate(s)
		if err != nil {
			t.Fatal(err)
		}
		return again.Input.Z
	}
	switch q.Letter {
	case "a":
		best, sizes := 0, []float64{}
		for k := range n {
			sizes = append(sizes, slices.Max(z[k*l:(k+1)*l])-slices.Min(z[k*l:(k+1)*l]))
			if sizes[k] > sizes[best] {
				best = k
			}
		}
		high, low := slices.Index(z, slices.Max(z))/l, slices.Index(z, slices.Min(z))/l
		slices.Sort(sizes)
		if n < 3 || high == best && low == best || sizes[n-2] > 0.95*sizes[n-1] {
			return ""
		}
		return "section " + strconv.Itoa(best+1)
	case "b":
		if rt := slices.Max(z) - slices.Min(z); n > 1 && rt/rzOf(z, n) >= 1.18 {
			return micro(rt)
		}
	case "c":
		if math.Abs(momentOf(z, 3)) >= 0.1 && same(raOf(times(z, 2)), 2*raOf(z)) {
			return "Ra doubles, Rsk and Rsm stay"
		}
	case "d":
		rp, rv := 0.0, 0.0
		for k := range n {
			rp, rv = rp+slices.Max(z[k*l:(k+1)*l])/float64(n), rv-slices.Min(z[k*l:(k+1)*l])/float64(n)
		}
		if math.Abs(rp-rv)/rzOf(z, n) >= 0.05 && math.Abs(momentOf(z, 3)) >= 0.1 {
			return "Rp and Rsk"
		}
	case "e":
		sorted := slices.Clone(z)
		slices.Sort(sorted)
		if n >= 2 && rzOf(sorted, n) <= rzOf(z, n)/2 {
			return "Ra, Rq, Rsk and Rku"
		}
	case "f":
		switch v := momentOf(z, 3); {
		case math.Abs(math.Abs(v)-0.3) < 0.08-1e-9:
			return ""
		case v < -0.3:
			return "below −0.3"
		case v > 0.3:
			return "above 0.3"
		}
		return "between −0.3 and 0.3"
	case "g":
		low := 0
		for k := range n {
			if slices.Max(z[k*l:(k+1)*l])-slices.Min(z[k*l:(k+1)*l]) < slices.Max(z[low*l:(low+1)*l])-slices.Min(z[low*l:(low+1)*l]) {
				low = k
			}
		}
		cut, depth := slices.Clone(z), slices.Max(z)-slices.Min(z)
		for i := range cut {
			if x := math.Abs(float64(i)-float64(low*l)-float64(l)/2) * e.Spacing; x < 20 {
				cut[i] -= depth * (1 - x/20)
			}
		}
		change := []float64{raOf(cut)/raOf(z) - 1, rqOf(cut)/rqOf(z) - 1, rzOf(cut, n)/rzOf(z, n) - 1, momentOf(cut, 4)/momentOf(z, 4) - 1}
		best := slices.Index(change, slices.Max(change))
		if slices.Min(change) <= 0 || best < 2 {
			return ""
		}
		return []string{"Ra", "Rq", "Rz", "Rku"}[best]
	case "h":
		if n >= 3 {
			return micro(rzOf(z, n) / float64(n))
		}
	case "i":
		longer := evaluated(func(s *roughness.Settings) { s.Long.Spec.Cutoff *= 3.125 })
		switch change := longer.Values[0].Value/raOf(z) - 1; {
		case change > 0.03:
			return "rises"
		case math.Abs(change) < 0.01:
			return "stays within 2 %"
		}
	case "j":
		now, longer := evaluated(func(*roughness.Settings) {}), evaluated(func(s *roughness.Settings) { s.Short.Spec.Cutoff = 8 })
		var change []float64
		for i := range 3 {
			change = append(change, math.Abs(longer.Values[i].Value/now.Values[i].Value-1))
		}
		switch {
		case slices.Max(change) < 0.03:
		case slices.Max(change) < 1.3*slices.Min(change):
			return "all by about the same"
		case slices.Max(change) == change[2]:
			return "Rdq"
		}
	case "k":
		if m := elementsOf(z, n); m >= 3 {
			return twoDigits(float64(m), "")
		}
	case "l":
		total := slices.Max(z) - slices.Min(z)
		for _, part := range []float64{4, 2} {
			if v := above(z, slices.Max(z)-total/part); math.Abs(v-100/part) >= 8 {
				return twoDigits(v, "%") + " %"
			}
		}
	case "m":
		start, _ := flattest(core())
		at := math.Round(start/5) * 5
		return fmt.Sprintf("from %g to %g %%", at, at+40)
	case "n":
		z := core()
		raised := slices.Clone(z)
		raised[slices.Index(z, slices.Max(z))] *= 2
		if math.Abs(params.Rpk(raised)/params.Rpk(z)-1) < 0.02 && len(z) >= 200 {
			return "changes by less than 2 %"
		}
	case "o":
		rz := rzOf(z, n)
		unit := math.Pow(10, math.Floor(math.Log10(2*rz)))
		short := math.Exp(-math.Ln2 * math.Pow(e.Settings.Short.Spec.Cutoff/e.Settings.Long.Spec.Cutoff, 2)) // of a Gaussian
		return micro(math.Round(2*rz/unit) * unit * short * 0.5)
	case "p":
		set := e.Settings
		set.Parameters = []string{"Rz"}
		all, err := compare.Steady(context.Background(), r.Surface, &set)
		if err == nil && all[0].Stated {
			return []string{"", "1", "2", "3", "4 or more"}[all[0].Digits]
		}
	}
	return ""
}

// The answers of all questions on fifty random surfaces are those of the definitions, no two options read the same, and none is asked
// where the definition gives no answer.
func TestQuestions(t *testing.T) {
	asked := map[string]int{}
	for i := range 50 {
		d := &Desk{}
		s := anySurface(i)
		r, err := d.Evaluate(s)
		if err != nil {
			t.Fatal(err)
		}
		offered, withheld, err := d.Ask(s)
		if err != nil || len(offered)+len(withheld) != len(questions) {
			t.Fatalf("%d: %d offered, %d withheld, %v", i, len(offered), len(withheld), err)
		}
		for _, w := range withheld {
			if w.Why == "" || strings.HasSuffix(w.Why, ".") {
				t.Errorf("%d %s: withheld because %q", i, w.Letter, w.Why)
			}
		}
		for _, q := range offered {
			asked[q.Letter]++
			if n := len(q.Options); n < 3 || n > 5 {
				t.Errorf("%d %s: %d options", i, q.Letter, n)
			}
			for k, o := range q.Options {
				if slices.Contains(q.Options[:k], o) {
					t.Errorf("%d %s: the option %q twice", i, q.Letter, o)
				}
			}
			got := q.Options[q.Answer]
			if q.Letter == "m" {
				got, _, _ = strings.Cut(got, " (")
			}
			if want := worked(t, d, r, &q); got != want {
				t.Errorf("%d %s: %q, want %q of %q", i, q.Letter, got, want, q.Options)
			}
			for _, text := range []string{q.Words, q.Reason, q.try} {
				if text == "" || strings.Contains(text, "NaN") || strings.Contains(text, "not defined") || strings.Contains(text, "%!") {
					t.Errorf("%d %s: %q", i, q.Letter, text)
				}
			}
			if q.state != nil {
				if _, err := d.Evaluate(*q.state); err != nil {
					t.Errorf("%d %s: the state asked about: %v", i, q.Letter, err)
				}
			}
		}
	}
	for _, q := range questions {
		if asked[q.Letter] == 0 {
			t.Errorf("question %s was never asked on fifty surfaces", q.Letter)
		}
	}
	t.Log(asked)
}

// The values of the demonstrations with class Sc3, as the design lists them.
func TestQuestionsOnDemonstrations(t *testing.T) {
	type seen map[string][]string
	for demo, want := range map[string]seen{
		"ground-rod": {"b": {"2.9 µm", "3.8 µm", "is 2.92"}, "h": {"= 0.584"}, "k": {"crosses the reference line 243 times", "= 173"}, "m": {"From 28 to 68"}, "l": {"87 %", "half"}, "j": {"Ra −3.4 %, Rz −5.3 %, Rdq −15 %"}},
		"turned-pin": {"h": {"= 1.37"}, "k": {"42 times", "= 38"}, "m": {"From 58 to 98"}, "l": {"12 %", "a quarter"}, "i": {"hardly any waves"}, "j": {"Ra −0.11 %, Rz −2.2 %, Rdq −5.5 %"}},
		"honed-bore": {"b": {"is 3.17", "4.3 µm"}, "h": {"= 0.634"}, "k": {"303 times", "= 80"}, "m": {"From 25 to 65"}, "l": {"91 %", "a quarter"}, "j": {"Ra −3.8 %, Rz −3.4 %, Rdq −13 %"}},
	} {
		d := &Desk{}
		offered, withheld, err := d.Ask(State{Demo: demo, Filter: Removal{Kind: "class", Class: "Sc3"}})
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range offered {
			text := q.Words + " " + strings.Join(q.Options, ", ") + " " + q.Reason
			for _, part := range want[q.Letter] {
				if !strings.Contains(text, part) {
					t.Errorf("%s %s: no %q in %s", demo, q.Letter, part, text)
				}
			}
			delete(want, q.Letter)
		}
		if len(want) > 0 {
			t.Errorf("%s: not asked: %v", demo, want)
		}
		if demo == "turned-pin" && !slices.ContainsFunc(withheld, func(w Withheld) bool { return w.Letter == "b" }) {
			t.Error("b is asked on the pin")
		}
	}
}

// Where a question would be undefined or trivial it is not asked.
func TestQuestionsWithheld(t *testing.T) {
	typed := State{Surface: Typed, Heights: []float64{3, 1, -2, 4, 0, -5, 2, 1, -1, 3, -4, 2, 0, -3, 1, -2}}
	flat := State{Surface: Made}
	for _, c := range []struct {
		name  string
		state State
		not   string
	}{
		{"16 typed heights in one section", typed, "abehijnop"},
		{"a flat profile", flat, "abcdefghijklmnop"},
		{"an old edition", State{Edition: "jis-b0601-1994"}, "abdeghjkp"},
		{"motifs", State{Edition: "iso-12085", Symbol: "R"}, "abdeghjkp"},
		{"section by section", State{Edition: "iso-4287"}, "efk"},
	} {
		offered, withheld, err := (&Desk{}).Ask(c.state)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, q := range offered {
			if strings.Contains(c.not, q.Letter) {
				t.Errorf("%s: %s is asked: %s", c.name, q.Letter, q.Words)
			}
		}
		if len(withheld) < len(c.not) {
			t.Errorf("%s: %v", c.name, withheld)
		}
	}
}

// A reply has the same form whatever was chosen; "I do not know" has one too.
func TestReply(t *testing.T) {
	d, s := &Desk{}, State{}
	offered, _, err := d.Ask(s)
	if err != nil || len(offered) < 10 {
		t.Fatal(len(offered), err)
	}
	for _, q := range offered {
		for option := -1; option < len(q.Options); option++ {
			r, err := d.Reply(s, q.Letter, option)
			if err != nil {
				t.Fatal(err)
			}
			expected := "I do not know"
			if option >= 0 {
				expected = q.Options[option]
			}
			if r.Answer != q.Answer || !strings.HasSuffix(r.Reason, q.Reason) || r.Compared != "You expected: "+expected+". The calculation gives: "+q.Options[q.Answer]+"." || !strings.HasPrefix(r.Try, "Try: ") {
				t.Errorf("%s %d: %+v", q.Letter, option, r)
			}
		}
	}
	if _, err := d.Reply(s, "a", 9); err == nil {
		t.Error("an option that is not there")
	}
}
