package figure_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/figure"
	"example.com/furrow/standards"
)

// Every construction of every edition can be drawn, as a whole and with a step picked out, and its marks lie on the
// canvas.
func TestEveryConstruction(t *testing.T) {
	z := surface()[200:2200]
	in := &params.Input{Z: z, Dx: 2, Section: 400}
	drawn, refused := 0, 0
	for _, edition := range standards.EditionIDs() {
		for _, letter := range []byte("RPW") {
			for _, call := range params.Defaults(edition, letter) {
				c, err := params.Construct(in, call)
				if err != nil {
					refused++
					continue
				}
				name := string(edition) + " " + call.Symbol
				for _, d := range []figure.ConstructionPlot{
					{Of: c, Z: z, Spacing: 2, Sections: 5},
					{Of: c, Z: z, Spacing: 2, Sections: 5, Picked: 1},
					{Of: c, Z: z, Spacing: 2, Sections: 5, Picked: len(c.Steps), Close: true},
				} {
					p := d.Draw(figure.Options{Width: 350})
					if strings.Contains(p.SVG, "NaN") || strings.Contains(p.SVG, "Inf") {
						t.Errorf("%s: not a number in the picture", name)
					}
					if len(c.Steps) > 0 && (p.Desc == "" || len(p.Table.Rows) < len(c.Steps)) {
						t.Errorf("%s: %d steps, description %q, %d rows", name, len(c.Steps), p.Desc, len(p.Table.Rows))
					}
				}
				// The height axis holds every mark of the plain picture.
				p := figure.ConstructionPlot{Of: c, Z: z, Spacing: 2, Sections: 5}.Draw(figure.Options{Width: 350})
				planes := []params.Plane{c.Plane} // each has its frame, in this order
				for _, s := range c.Steps {
					plane := s.Plane
					if plane == "" {
						plane = c.Plane
					}
					if !slices.Contains(planes, plane) && len(s.Marks) > 0 {
						planes = append(planes, plane)
					}
					if len(s.Marks) == 0 {
						continue
					}
					f := p.Frames[slices.Index(planes, plane)]
					for _, m := range s.Marks {
						for _, q := range m.Points {
							if !(q.Y >= f.YLow && q.Y <= f.YHigh) {
								t.Fatalf("%s: a %s at %g lies outside the axis from %g to %g", name, m.Kind, q.Y, f.YLow, f.YHigh)
							}
						}
					}
				}
				drawn++
			}
		}
	}
	t.Logf("%d constructions drawn, %d parameters without one", drawn, refused)
	if drawn < 100 {
		t.Errorf("only %d constructions", drawn)
	}
}
