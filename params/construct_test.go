package params_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

func construct(t *testing.T, in params.Input, edition standards.EditionID, name string) params.Construction {
	t.Helper()
	call, err := params.Lookup(edition, 'R', name)
	if err != nil {
		t.Fatal(err)
	}
	c, err := params.Construct(&in, call)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestConstructionOfRz: the steps are the sections; marks, words and arithmetic hold the same numbers.
func TestConstructionOfRz(t *testing.T) {
	in := threeSections()
	in.Z[2024], in.Z[2074] = 3.01, -3.02
	c := construct(t, in, "iso-21920", "Rz")
	if len(c.Steps) != 3 || c.Plane != params.ProfilePlane {
		t.Fatalf("%d steps in the plane %s", len(c.Steps), c.Plane)
	}
	const want = "section 3: peak 3.01 µm at 4.048 mm, pit -3.02 µm at 4.148 mm"
	if c.Steps[2].Text != want {
		t.Errorf("step 3 says %q, want %q", c.Steps[2].Text, want)
	}
	sum := 0.0
	for k, s := range c.Steps {
		if s.Section != k+1 {
			t.Errorf("step %d is of section %d", k+1, s.Section)
		}
		sum += s.Value
		peak, pit := s.Marks[0].Points[0], s.Marks[1].Points[0]
		holds(t, "peak less pit", peak.Y-pit.Y, s.Value, 1e-12, "the marks")
		if at := int(math.Round(peak.X / in.Dx)); in.Z[at] != peak.Y {
			t.Errorf("the peak mark lies off the profile")
		}
	}
	holds(t, "mean of the steps", sum/3, c.Result, 1e-12, "the sum")
	w := c.Worked[0]
	text := w.Symbol + " = " + w.Print(func(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) })
	if text != "Rz = (1.999 + 3.998 + 6.030) / 3" {
		t.Errorf("worked: %s", text)
	}
}

// TestConstructionOfCore: the line, the triangles and the areas of the Rk family on a curve known by hand.
func TestConstructionOfCore(t *testing.T) {
	const n = 20000
	z := make([]float64, n)
	for i := range z {
		p := (float64(i) + 0.5) / n
		switch {
		case p < 0.1:
			z[i] = 5 - 20*p
		case p < 0.8:
			z[i] = 3 - (p-0.1)/0.35
		default:
			z[i] = 1 - 20*(p-0.8)
		}
	}
	in := params.Input{Z: z, Dx: 0.5}
	const source = "three straight pieces, by hand"
	area := func(points []params.Point) float64 {
		sum := 0.0
		for i, a := range points {
			b := points[(i+1)%len(points)]
			sum += a.X*b.Y - b.X*a.Y
		}
		return math.Abs(sum) / 2
	}
	for symbol, want := range map[string]struct {
		shown    string // of the steps of the symbol's own
		outline  int    // step with the area of the curve, -1 for none
		triangle int
	}{
		"Rk": {"cu cl Rk Rk", -1, -1}, "Rpk": {"A1 cu A1 cu same area Rpk Rmrk1", 2, 4}, "Rvk": {"A2 cl A2 cl same area Rvk Rmrk2", 2, 4},
		"Rpkx": {"highest point cu Rpkx cu Rpkx", -1, -1}, "Rvkx": {"lowest point cl Rvkx cl Rvkx", -1, -1},
		"Rak1": {"A1 cu A1 cu layer of Rak1", 2, 4}, "Rak2": {"A2 cl A2 cl layer of Rak2", 2, 4},
		"Rmrk1": {"Rmrk1 cu", -1, -1}, "Rmrk2": {"Rmrk2 cl", -1, -1},
	} {
		c := construct(t, in, "iso-21920", symbol)
		if c.Plane != params.RatioPlane {
			t.Fatalf("%s: in the plane %s", symbol, c.Plane)
		}
		line := c.Steps[1].Marks[0].Points
		holds(t, "line at 0 %", line[0].Y, 3+0.1/0.35, 1e-9, source)
		holds(t, "line at 100 %", line[1].Y, 3-0.9/0.35, 1e-9, source)
		var shown []string
		for _, s := range c.Steps[2:] {
			for _, m := range s.Marks {
				if m.Label != "" {
					shown = append(shown, m.Label)
				}
			}
		}
		if got := strings.Join(shown, " "); got != want.shown {
			t.Errorf("%s shows %q, want %q", symbol, got, want.shown)
		}
		if want.outline > 0 {
			outline, equal := c.Steps[want.outline].Marks[0].Points, c.Steps[want.triangle].Marks[0].Points
			holds(t, symbol+": equal areas", area(equal), area(outline), 1e-3*area(outline), "the definition")
			// The same area in the profile, whose length is 100 %.
			holds(t, symbol+": area in the profile", area(c.Steps[3].Marks[0].Points)/(n*in.Dx)*100, area(outline), 0.03*area(outline), "the definition")
		}
		if len(c.Worked) != 1 || evaluateForm(t, c.Worked[0]) == 0 {
			t.Errorf("%s: worked %v", symbol, c.Worked)
		}
	}
}

// evaluateForm works out an arithmetic line of +, -, ·, / and brackets with a small parser, so that what is printed
// is held against the result.
func evaluateForm(t *testing.T, a params.Arithmetic) float64 {
	t.Helper()
	text := a.Print(func(v float64) string { return "(" + strconv.FormatFloat(v, 'g', 17, 64) + ")" })
	text = text[strings.LastIndex(text, " = ")+1:] // behind the last sign the terms are summed up
	p := &formParser{t: t, s: []rune(strings.ReplaceAll(strings.TrimPrefix(text, "= "), " ", ""))}
	v := p.sum()
	if p.at != len(p.s) {
		t.Errorf("%s = %s: cannot be read at %d", a.Symbol, text, p.at)
	}
	return v
}

type formParser struct {
	t  *testing.T
	s  []rune
	at int
}

func (p *formParser) next(r rune) bool {
	if p.at < len(p.s) && p.s[p.at] == r {
		p.at++
		return true
	}
	return false
}

func (p *formParser) sum() float64 {
	v := p.product()
	for {
		switch {
		case p.next('+'):
			v += p.product()
		case p.next('-'):
			v -= p.product()
		default:
			return v
		}
	}
}

func (p *formParser) product() float64 {
	v := p.power()
	for {
		switch {
		case p.next('·'):
			v *= p.power()
		case p.next('/'):
			v /= p.power()
		default:
			return v
		}
	}
}

func (p *formParser) power() float64 {
	v := p.atom()
	switch {
	case p.next('²'):
		return v * v
	case p.next('³'):
		return v * v * v
	case p.next('⁴'):
		return v * v * v * v
	}
	return v
}

func (p *formParser) atom() float64 {
	switch {
	case p.next('('):
		v := p.sum()
		p.next(')')
		return v
	case p.next('|'):
		v := math.Abs(p.sum())
		p.next('|')
		return v
	case p.next('√'):
		return math.Sqrt(p.atom())
	case p.next('-'):
		return -p.atom()
	}
	if strings.HasPrefix(string(p.s[p.at:]), "max(") {
		p.at += len("max(")
		v := p.sum()
		for p.next(',') {
			v = max(v, p.sum())
		}
		p.next(')')
		return v
	}
	from := p.at
	for p.at < len(p.s) && strings.ContainsRune("0123456789.e+-", p.s[p.at]) {
		if r := p.s[p.at]; (r == '+' || r == '-') && (p.at == from || p.s[p.at-1] != 'e') {
			break
		}
		p.at++
	}
	text := string(p.s[from:p.at])
	if text == "2" && p.next('π') {
		return 2 * math.Pi
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		p.t.Errorf("not a number at %d of %s", from, string(p.s))
		p.at = len(p.s)
	}
	return v
}

// TestConstructions builds every construction of every edition on profiles of several kinds: the result is the value, the
// steps speak, the marks lie in the picture, and the worked line that ends in the result gives it.
func TestConstructions(t *testing.T) {
	for seed, z := range [][]float64{ground(2000), ground(777), threeSections().Z} {
		in := params.Input{Z: z, Dx: 2, Section: len(z) / 5}
		length := float64(len(z)) * in.Dx
		for _, edition := range standards.EditionIDs() {
			for _, letter := range []byte("PRW") {
				calls := params.Defaults(edition, letter)
				for i, v := range params.Evaluate(&in, calls...) {
					name := fmt.Sprintf("profile %d, %s, %s", seed, edition, v.Symbol)
					c, err := params.Construct(&in, calls[i])
					if err != nil {
						if !math.IsNaN(v.Value) {
							t.Errorf("%s: %v", name, err)
						}
						continue
					}
					if c.Result != v.Value || c.Symbol != v.Symbol || c.Unit != v.Unit {
						t.Errorf("%s: the construction is of %s = %v, the value %v", name, c.Symbol, c.Result, v.Value)
					}
					if len(c.Steps) == 0 {
						t.Errorf("%s has no steps", name)
					}
					for _, s := range c.Steps {
						if s.Text == "" || strings.Contains(s.Text, "NaN") || s.Section > 5 {
							t.Errorf("%s: step %q of section %d", name, s.Text, s.Section)
						}
						plane := c.Plane
						if s.Plane != "" {
							plane = s.Plane
						}
						for _, m := range s.Marks {
							checkMark(t, name, m, plane, length)
						}
					}
					checkWorked(t, name, c)
				}
			}
		}
	}
}

func checkMark(t *testing.T, name string, m params.Mark, plane params.Plane, length float64) {
	t.Helper()
	counts := map[params.Kind][2]int{
		params.PeakMark: {1, 1}, params.PitMark: {1, 1}, params.PointMark: {1, 1}, params.LineMark: {2, 1 << 30},
		params.SpanMark: {2, 2}, params.LevelMark: {2, 2}, params.AreaMark: {3, 1 << 30},
	}
	if c, ok := counts[m.Kind]; !ok || len(m.Points) < c[0] || len(m.Points) > c[1] {
		t.Errorf("%s: a mark %q of %d points", name, m.Kind, len(m.Points))
		return
	}
	if m.Kind == params.LevelMark && m.Points[0].Y != m.Points[1].Y {
		t.Errorf("%s: a level that is not level: %v", name, m.Points)
	}
	right := map[params.Plane]float64{params.ProfilePlane: length, params.RatioPlane: 100}[plane]
	for _, p := range m.Points {
		if p.X-p.X != 0 || p.Y-p.Y != 0 {
			t.Errorf("%s: a point at %v", name, p)
		} else if right > 0 && (p.X < -0.01*right || p.X > 1.01*right) {
			t.Errorf("%s: a point beyond the picture: %v", name, p)
		}
	}
}

// checkWorked holds the lines that give the result against it. Lines of intermediate results carry other symbols.
func checkWorked(t *testing.T, name string, c params.Construction) {
	t.Helper()
	for _, a := range c.Worked {
		if slices.ContainsFunc(a.Terms, math.IsNaN) || a.Form == "" {
			t.Errorf("%s: worked %v", name, a)
		}
		if strings.ContainsAny(a.Form, "ΣΦ") || a.Symbol != c.Symbol || strings.Contains(a.Form[strings.LastIndex(a.Form, " = ")+1:], "…") {
			continue
		}
		if got := evaluateForm(t, a); math.Abs(got-c.Result) > 1e-6*math.Abs(c.Result)+1e-12 {
			t.Errorf("%s: %s works out to %v, the value is %v", name, a.Print(func(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }), got, c.Result)
		}
	}
}
