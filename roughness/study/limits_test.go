package study

import (
	"errors"
	"math"
	"slices"
	"testing"

	"example.com/furrow/params"
)

// refusedAt is the field that a state is refused for, "" where it is accepted.
func refusedAt(t *testing.T, s State) string {
	t.Helper()
	_, err := (&Desk{}).Evaluate(s)
	var refused *RefusedError
	if err != nil && !errors.As(err, &refused) {
		t.Fatal(err)
	}
	if refused == nil {
		return ""
	}
	return refused.ID
}

// Each limit of an exercise is accepted, and the next number beyond it is refused with its field.
func TestLimits(t *testing.T) {
	whole := func(n int) (z []float64) {
		for i := range n {
			z = append(z, float64(i%5))
		}
		return z
	}
	moved := func(n int) (list []MovedPoint) {
		for i := range n {
			list = append(list, MovedPoint{i + 1, 1, 1})
		}
		return list
	}
	typed := func(change func(s *State)) State {
		s := State{Surface: Typed, Heights: typedHeights, Symbol: "Ra"}
		change(&s)
		return s
	}
	for _, c := range []struct {
		state State
		id    string
	}{
		{typed(func(s *State) { s.Heights = whole(3) }), "hand-heights"}, {typed(func(s *State) { s.Heights = whole(4) }), ""},
		{typed(func(s *State) { s.Heights = whole(64) }), ""}, {typed(func(s *State) { s.Heights = whole(65) }), "hand-heights"},
		{typed(func(s *State) { s.Spacing = 1e-3 }), ""}, {typed(func(s *State) { s.Spacing = -1 }), "hand-spacing"},
		{typed(func(s *State) { s.Spacing = math.Inf(1) }), "hand-spacing"},
		{typed(func(s *State) { s.Moved = moved(8) }), ""}, {typed(func(s *State) { s.Moved = moved(9) }), "ordinate-height"},
		{typed(func(s *State) { s.Moved = []MovedPoint{{16, 1, 1}} }), ""}, {typed(func(s *State) { s.Moved = []MovedPoint{{17, 1, 1}} }), "ordinate-number"},
		{typed(func(s *State) { s.Moved = []MovedPoint{{0, 1, 1}} }), "ordinate-number"}, {typed(func(s *State) { s.Moved = []MovedPoint{{1, 1, 0}} }), "ordinate-number"},
		{typed(func(s *State) { s.Every = 3 }), "every"}, {typed(func(s *State) { s.Every = 4 }), ""},
		{State{Surface: Made, Length: 0.002, Spacing: 1}, ""}, {State{Surface: Made, Length: 0.0019, Spacing: 1}, "made-length"},
		{State{Surface: Made, Length: 4, Spacing: 0.1}, ""}, {State{Surface: Made, Length: 4.0001, Spacing: 0.1}, "made-length"},
		{State{Surface: Made, Length: -1, Spacing: -1}, "made-length"}, {State{Surface: Made, Length: 1, Spacing: -1}, "made-length"},
	} {
		if got := refusedAt(t, c.state); got != c.id {
			t.Errorf("%+v: refused for %q, want %q", c.state, got, c.id)
		}
	}
}

// Of each ingredient as many as it says are accepted and no more, and each field takes the ends of its range and nothing beyond.
func TestLimitsOfIngredients(t *testing.T) {
	for i := range ingredients {
		in := &ingredients[i]
		s := State{Surface: Made, Length: 4, Spacing: 0.5, Symbol: "Ra"}
		for k := range in.Most {
			s.Parts = append(s.Parts, in.part(k, s.Length))
		}
		if got := refusedAt(t, s); got != "" {
			t.Errorf("%d of %s: refused for %q", in.Most, in.Words, got)
		}
		s.Parts = append(s.Parts, s.Parts[0])
		if got := refusedAt(t, s); got != "surface-add" {
			t.Errorf("%d of %s: refused for %q", in.Most+1, in.Words, got)
		}
		for k := range in.Most {
			for j := range in.Fields {
				f := in.field(k, j, s.Length)
				if v := f.First; v < f.Least || v > f.Most || f.Low < f.Least || f.High > f.Most || f.check(f.Least) != nil || f.check(f.Most) != nil || f.check(v) != nil {
					t.Errorf("%s: first %g of %g to %g, typed %g to %g", f.ID, v, f.Low, f.High, f.Least, f.Most)
				}
				step := 1e-9 * (f.Most - f.Least)
				if f.check(f.Least-step) == nil || f.check(f.Most+step) == nil || f.check(math.NaN()) == nil {
					t.Errorf("%s takes numbers beyond %g to %g", f.ID, f.Least, f.Most)
				}
				if got := f.check(f.Least+0.5) == nil; got == f.Whole && f.Least+0.5 <= f.Most {
					t.Errorf("%s: whole %t, but %g is taken: %t", f.ID, f.Whole, f.Least+0.5, got)
				}
				// What moves it changes this field of this ingredient, and nothing else.
				r, err := (&Desk{}).Evaluate(State{Surface: Made, Length: 4, Spacing: 0.5, Symbol: "Ra", Parts: s.Parts[:k]})
				if err != nil {
					t.Fatal(err)
				}
				v := math.Round((2*f.High + f.Low) / 3)
				if got, err := r.Set(f.ID, v); err == nil {
					want := in.part(k, s.Length)
					want.Values[j] = v
					if len(got.Parts) != k+1 || !slices.Equal(got.Parts[k].Values, want.Values) {
						t.Errorf("%s at %g: %+v", f.ID, v, got.Parts)
					}
				} else if in.must == nil {
					t.Errorf("%s at %g: %v", f.ID, v, err)
				}
			}
		}
	}
}

// Numbers as options and sentences have them.
func TestNumbersOfQuestions(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{signed(0), "0.0"}, {signed(-0.5), "−0.50"}, {signed(12.34), "+12"}, {signed(0.5), "+0.50"}, {signed(-3), "−3.0"},
		{twoDigits(0, "µm"), "0"}, {twoDigits(173, ""), "173"}, {twoDigits(999, ""), "999"}, {twoDigits(1234, ""), "1\u202f200"}, {twoDigits(2.96, "µm"), "3.0"},
		{twoDigits(99.4, "%"), "99"}, {twoDigits(100, "%"), "100"}, {twoDigits(0.0456, "µm"), "0.046"}, {twoDigits(math.NaN(), "µm"), "not defined"}, {twoDigits(2.5, ""), "2.5"},
		{are(1, "hill"), "1 hill is"}, {are(0, "dale"), "0 dales are"}, {are(23, "hill"), "23 hills are"},
		{whole(7), "7"}, {whole(12345), "12\u202f345"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	for _, c := range []struct {
		unit string
		a, b float64
		want bool
	}{
		{"%", 20, 28, false}, {"%", 20, 27.9, true}, {"%", 28, 20, false}, {"µm", 0, 0, true}, {"µm", 0, 1, false}, {"µm", 8, 10, false}, {"µm", 9, 10, true}, {"µm", -9, -10, true}, {"µm", -1, 1, false}, {"", 85, 100, false}, {"", 86, 100, true},
	} {
		if got := close(c.unit, c.a, c.b); got != c.want {
			t.Errorf("%g and %g %s are close: %t", c.a, c.b, c.unit, got)
		}
	}
	for _, c := range []struct {
		v             []float64
		first, second int
	}{{[]float64{1, 3, 2}, 1, 2}, {[]float64{3, 3, 1}, 0, 1}, {[]float64{1, 2, 2}, 1, 2}, {[]float64{5}, 0, 0}, {[]float64{-1, -2, -3}, 0, 1}} {
		if first, second := largest(c.v); first != c.first || second != c.second {
			t.Errorf("largest of %v: %d, %d", c.v, first, second)
		}
	}
	if p := percent(2, 3); p != 50 {
		t.Errorf("from 2 to 3: %g %%", p)
	}
	if !same(1, 1.0009) || same(1, 1.002) || !same(0, 0) || !same(-2, -2.001) || same(-2, 2) {
		t.Error("same to 0.1 %")
	}
}

// What rounding leaves of a pure number that cancels is shown as 0; a height that small is shown as it is.
func TestShownZero(t *testing.T) {
	r := &Result{}
	for _, c := range []struct {
		v    params.Value
		want string
	}{
		{params.Value{Value: 9e-13, Unit: params.None}, "0"}, {params.Value{Value: -9e-13, Unit: params.None}, "0"}, {params.Value{Value: 1e-12, Unit: params.None}, Printed(1e-12)},
		{params.Value{Value: 9e-13, Unit: params.Micrometre}, Printed(9e-13)}, {params.Value{Value: math.NaN()}, ""}, {params.Value{Value: 12, Unit: params.None}, "12"}, {params.Value{Value: 12, Unit: params.Micrometre}, "12.0"},
	} {
		if r.Value = c.v; r.Shown() != c.want {
			t.Errorf("%v: %q, want %q", c.v, r.Shown(), c.want)
		}
	}
}

// Options ascend, each is far enough from the answer and from those before it, and there are five at most.
func TestOptions(t *testing.T) {
	for _, c := range []struct {
		unit        string
		answer      float64
		distractors []float64
		want        []string
		at          int
	}{
		{"µm", 2, []float64{4, 1, 2.1, math.NaN(), math.Inf(1), 8}, []string{"1.0 µm", "2.0 µm", "4.0 µm", "8.0 µm"}, 1},
		{"%", 25, []float64{30, 33, 75, 50}, []string{"25 %", "33 %", "50 %", "75 %"}, 0},
		{"", 38, []float64{41, 21, 300, 3, 900, 600}, []string{"3", "21", "38", "300", "900"}, 2},
	} {
		var p Prediction
		p.numeric(c.unit, c.answer, c.distractors...)
		if !slices.Equal(p.Options, c.want) || p.Answer != c.at {
			t.Errorf("%g: %q, answer %d; want %q, %d", c.answer, p.Options, p.Answer, c.want, c.at)
		}
	}
}

// A moved point rises by the number, and those beside it by the squared cosine that is zero just outside the width; nothing else moves.
func TestBell(t *testing.T) {
	for _, c := range []struct {
		m    MovedPoint
		want []float64
	}{
		{MovedPoint{3, 2, 1}, []float64{0, 0, 2, 0, 0, 0}}, {MovedPoint{3, 2, 2}, []float64{0, 0, 2, 0, 0, 0}}, {MovedPoint{3, 2, 3}, []float64{0, 1, 2, 1, 0, 0}},
		{MovedPoint{1, -4, 3}, []float64{-4, -2, 0, 0, 0, 0}}, {MovedPoint{6, 4, 5}, []float64{0, 0, 0, 1, 3, 4}},
	} {
		z := make([]float64, 6)
		raise(z, c.m)
		for i := range z {
			if math.Abs(z[i]-c.want[i]) > 1e-12 {
				t.Errorf("%+v: %v, want %v", c.m, z, c.want)
				break
			}
		}
	}
}

// Heights count from their mean or from the straight line with the least squares: what is left has no mean, and no part of a line.
func TestFrom(t *testing.T) {
	z := []float64{3, 1, 4, 1, 5, 9, 2, 6}
	sum := func(z []float64) (sum, moment float64) {
		for i, v := range z {
			sum, moment = sum+v, moment+float64(i)*v
		}
		return sum, moment
	}
	if got := from(z, "zero"); !slices.Equal(got, z) {
		t.Errorf("zero: %v", got)
	}
	mean := from(z, "mean")
	if s, _ := sum(mean); math.Abs(s) > 1e-12 || math.Abs(mean[0]-mean[1]-2) > 1e-12 {
		t.Errorf("mean: %v", mean)
	}
	line := from(z, "line")
	if s, m := sum(line); math.Abs(s) > 1e-12 || math.Abs(m) > 1e-12 {
		t.Errorf("line: %v", line)
	}
	for i := 1; i+1 < len(z); i++ { // what was taken away is straight
		if d := (z[i-1] - line[i-1]) - 2*(z[i]-line[i]) + (z[i+1] - line[i+1]); math.Abs(d) > 1e-12 {
			t.Errorf("what was taken away bends by %g at %d", d, i)
		}
	}
}

// The letters of a formula: points, spacing and lengths are those of the profile.
func TestLettersOfTheProfile(t *testing.T) {
	r, err := (&Desk{}).Evaluate(State{Surface: Made, Length: 1.23461, Spacing: 1.23461, Symbol: "Rmr(0.5)", Parts: []Part{{"noise", []float64{0.3, 6, 17}}}})
	if err != nil {
		t.Fatal(err)
	}
	c, err := r.Construct()
	if err != nil {
		t.Fatal(err)
	}
	ask := &letterAsk{r, c, 0}
	for key, want := range map[string]string{"N": "1\u202f000", "dx": "1.235 µm", "le": "1.235 mm", "lm": "1.233 mm", "nsc": "1", "c": "0.500 µm", "L": "10 mm"} {
		if got := letterNumbers[key](ask); got != want {
			t.Errorf("%s: %q, want %q", key, got, want)
		}
	}
}

// The window of 40 % is found where the construction of Rk has it.
func TestWindowOfCore(t *testing.T) {
	r, err := (&Desk{}).Evaluate(State{Symbol: "Rk"})
	if err != nil {
		t.Fatal(err)
	}
	c, err := r.Construct()
	if err != nil {
		t.Fatal(err)
	}
	start, found := windowOf(*c)
	want, _ := flattest(r.Input.Z)
	if !found || math.Abs(start-want) > 0.05 {
		t.Errorf("from %g %%, want %g", start, want)
	}
	if _, found := windowOf(params.Construction{}); found {
		t.Error("a window where nothing is")
	}
}
