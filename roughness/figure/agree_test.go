package figure_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"example.com/furrow/params"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

// surfaces are the demonstration traces, about their means.
func surfaces() map[string]*params.Input {
	list := map[string]*params.Input{}
	for _, d := range synth.Demos() {
		z := d.Heights()
		z = z[:min(len(z), 8000)/5*5]
		mean := 0.0
		for _, v := range z {
			mean += v / float64(len(z))
		}
		for i := range z {
			z[i] -= mean
		}
		list[d.Key] = &params.Input{Z: z, Dx: d.Spacing, Section: len(z) / 5}
	}
	return list
}

// eachEntry calls f for every symbol of every edition that has a value on a surface.
func eachEntry(f func(name string, in *params.Input, call params.Call, c params.Construction)) (count int) {
	for surface, in := range surfaces() {
		for _, edition := range standards.EditionIDs() {
			for _, letter := range []byte("RPW") {
				for _, call := range params.Defaults(edition, letter) {
					if c, err := params.Construct(in, call); err == nil {
						count++
						f(fmt.Sprintf("%s, %s %c, %s", surface, edition, letter, call.Symbol), in, call, c)
					}
				}
			}
		}
	}
	return count
}

// close tells whether two numbers print alike.
func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-9+1e-6*math.Abs(b) }

// TestEntriesAgree: for every entry on four surfaces the value follows from the steps; what is marked with the symbol measures the
// value; the last worked line works out to it, with no more digits than asked; the table prints what the steps hold.
func TestEntriesAgree(t *testing.T) {
	symbols := map[string]bool{}
	n := eachEntry(func(name string, in *params.Input, call params.Call, c params.Construction) {
		symbols[call.Parameter.Key] = true
		if v := params.Evaluate(in, call)[0]; v.Value != c.Result {
			t.Errorf("%s: the construction is of %v, the value is %v", name, c.Result, v.Value)
		}
		if !fromSteps(in, c) {
			t.Errorf("%s = %v does not follow from the steps", name, c.Result)
		}
		for _, s := range c.Steps {
			want, width := c.Result, float64(len(in.Z))*in.Dx
			if s.Section > 0 && !math.IsNaN(s.Value) {
				want = s.Value
			}
			if s.Plane == params.RatioPlane || s.Plane == "" && c.Plane == params.RatioPlane {
				width = 100
			}
			for _, m := range s.Marks {
				// The outline of a profile has the highest and the lowest point of each column, so its area is no measure.
				if outline := m.Kind == params.AreaMark && width != 100 && len(m.Points) > 10; m.Label == c.Symbol && !outline && !measures(m, want, width, in) {
					t.Errorf("%s = %v: the %s with its name is at %v", name, want, m.Kind, m.Points)
				}
			}
		}
		if len(c.Worked) == 0 {
			t.Errorf("%s has no worked line", name)
			return
		}
		last := c.Worked[len(c.Worked)-1]
		if last.Symbol != c.Symbol || last.Result != c.Result {
			t.Errorf("%s: the last line works out %s = %v", name, last.Symbol, last.Result)
		}
		for _, digits := range []int{3, 4} {
			checkLine(t, name, last.Work(digits), digits, c.Result)
		}
		picture := figure.ConstructionPlot{Of: c, Z: in.Z, Spacing: in.Dx, Sections: 5}.Draw(figure.Options{Width: 350})
		twin := bare(picture.Desc)
		for i, s := range c.Steps[:min(len(c.Steps), 12)] {
			if !strings.Contains(twin, bare(s.Text)) {
				t.Errorf("%s: step %d, %q, is not in the text of the picture", name, i+1, s.Text)
			}
		}
		if told := strings.Contains(picture.Desc, "The table lists"); told != (len(c.Steps) > 13) {
			t.Errorf("%s: %d steps, the text of the picture says %q", name, len(c.Steps), picture.Desc)
		}
		var printed []string
		for _, row := range picture.Table.Rows {
			if row[0] != "" {
				printed = append(printed, row[4])
			}
		}
		for i, s := range c.Steps {
			if math.IsNaN(s.Value) != (printed[i] == "") {
				t.Errorf("%s: step %d has the value %v, the table %q", name, i+1, s.Value, printed[i])
			} else if got, err := strconv.ParseFloat(undressed.Replace(printed[i]), 64); printed[i] != "" && (err != nil || math.Abs(got-s.Value) > 6e-4*math.Abs(s.Value)+1e-12) {
				t.Errorf("%s: step %d has the value %v, the table %q", name, i+1, s.Value, printed[i])
			}
		}
	})
	if all := len(params.Catalogue()); len(symbols) < all-1 || n < 500 {
		t.Errorf("%d symbols of %d, %d entries", len(symbols), all, n)
	}
}

var undressed = strings.NewReplacer("−", "-", "\u202f", "", "\u2009", "")

// bare is a text without what print adds: spaces, signs and the case of its first letter.
func bare(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '.' {
			return unicode.ToLower(r)
		}
		return -1
	}, strings.ReplaceAll(text, ". ", " "))
}

// fromSteps tells whether the value is that of a step, the sum, the mean or the largest of those of the steps or of the means of the
// sections, or what their number makes on 10 mm.
func fromSteps(in *params.Input, c params.Construction) bool {
	var values []float64
	bySection := map[int][]float64{}
	for _, s := range c.Steps {
		if !math.IsNaN(s.Value) {
			values = append(values, s.Value)
			bySection[s.Section] = append(bySection[s.Section], s.Value)
		}
	}
	if len(values) == 0 {
		return c.Result == 0
	}
	sum, means := 0.0, 0.0
	for _, v := range values {
		sum += v
	}
	for _, list := range bySection {
		m := 0.0
		for _, v := range list {
			m += v / float64(len(list))
		}
		means += m / float64(len(bySection))
	}
	length := float64(len(in.Z)) * in.Dx
	return slices.ContainsFunc([]float64{sum, sum / float64(len(values)), means, slices.Max(values), sum / length * 1e4, values[len(values)-1]},
		func(v float64) bool { return alike(v, c.Result) }) || slices.ContainsFunc(values, func(v float64) bool { return alike(v, c.Result) })
}

// measures tells whether a mark in a plane of a width is at the value or measures it, in µm or in percent; what is longer than the trace
// ends with it.
func measures(m params.Mark, value, width float64, in *params.Input) bool {
	a, b := m.Points[0], m.Points[len(m.Points)-1]
	switch m.Kind {
	case params.SpanMark:
		return alike(math.Abs(a.X-b.X), value) || alike(math.Abs(a.Y-b.Y), math.Abs(value)) || value > float64(len(in.Z))*in.Dx
	case params.AreaMark: // a layer, a band, or an area under the curve, whose ratios are in percent
		low, high := math.Inf(1), math.Inf(-1)
		area := 0.0
		for i, p := range m.Points {
			q := m.Points[(i+1)%len(m.Points)]
			low, high = min(low, p.Y), max(high, p.Y)
			area += p.X*q.Y - q.X*p.Y
		}
		return alike(high-low, value) || math.Abs(math.Abs(area)/2/width-value) < 5e-2*value
	case params.LevelMark:
		return alike(math.Abs(a.Y), math.Abs(value)) || cuts(m, value, in)
	}
	return alike(a.X, value) || alike(a.Y, value) || alike(100*normal(a.X), value)
}

// cuts tells whether the profile lies at or above a level on a share of the stretch that is the value or, where that is a mean, near it.
func cuts(m params.Mark, value float64, in *params.Input) bool {
	above, n := 0.0, 0.0
	for i := int(m.Points[0].X / in.Dx); i < min(len(in.Z), int(m.Points[1].X/in.Dx)); i++ {
		n++
		if in.Z[i] >= m.Points[0].Y {
			above++
		}
	}
	return math.Abs(100*above/n-value) < 25
}

func normal(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) }

// checkLine: the printed result is the value in so many digits; the sign tells whether the printed numbers give it.
func checkLine(t *testing.T, name string, l params.WorkedLine, digits int, value float64) {
	t.Helper()
	got, err := strconv.ParseFloat(undressed.Replace(l.Result), 64)
	if unit := math.Pow(10, math.Floor(math.Log10(math.Abs(value)))-float64(digits)+1); err != nil || value != 0 && math.Abs(got-value) > 0.51*max(unit, 1e-20) && math.Abs(value) < math.Pow(10, float64(digits)) {
		t.Errorf("%s = %v, printed as %s with %d digits", name, value, l.Result, digits)
	}
	if l.Sign != "=" && l.Sign != "≈" || len(l.Parts) == 0 || strings.Contains(strings.Join(l.Parts, ""), "{") || strings.Contains(strings.Join(l.Parts, ""), "NaN") {
		t.Errorf("%s: printed %+v", name, l)
	}
	for _, number := range numbers.FindAllString(undressed.Replace(strings.Join(l.Parts, " ")), -1) {
		if figures := strings.TrimLeft(strings.Replace(number, ".", "", 1), "0"); strings.Contains(number, ".") && len(figures) > max(digits, len(strings.Split(number, ".")[0])+digits) {
			t.Errorf("%s: %s has more than %d digits in %v", name, number, digits, l.Parts)
		}
	}
}

var numbers = regexp.MustCompile(`\d+(\.\d+)?`)

// What of a picture is no mark: words, and names that differ from picture to picture.
var wordsOf = regexp.MustCompile(`(?s)<text.*?</text>|<title.*?</title>|<desc.*?</desc>| (id|aria-labelledby|clip-path|fill)="[^"]*"|<g[^>]*>`)

// TestNoSharedPictures lists the symbols of an edition that share a picture: among heights, spacing, slopes, material ratio and core
// none do, whatever is written on it; of the others none do with what is written.
func TestNoSharedPictures(t *testing.T) {
	bare := []string{params.GroupHeight, params.GroupSpacing, params.GroupGradient, params.GroupRatio, params.GroupCore}
	seen := map[string]string{}
	eachEntry(func(name string, in *params.Input, call params.Call, c params.Construction) {
		if call.Letter != 'R' && call.Edition != "iso-12085" || c.Result == 0 {
			return
		}
		svg := figure.ConstructionPlot{Of: c, Z: in.Z, Spacing: in.Dx, Sections: 5}.Draw(figure.Options{Width: 736, ID: "p"}).SVG
		if slices.Contains(bare, call.Parameter.Group) {
			svg = wordsOf.ReplaceAllString(svg, "")
		}
		key := string(call.Edition) + svg
		if other, ok := seen[key]; ok {
			t.Errorf("%s has the picture of %s", name, other)
		}
		seen[key] = name
	})
	if len(seen) < 300 {
		t.Errorf("only %d pictures", len(seen))
	}
}
