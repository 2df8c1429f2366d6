package figure

import (
	"flag"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// testdata/growth.svg draws the table of long traces in DEVELOPERS.md: the time a point takes against the number of points, both axes logarithmic.
// -update draws it again when the table has changed.
func TestGrowthPicture(t *testing.T) {
	const document, file = "../../DEVELOPERS.md", "testdata/growth.svg"
	text, err := os.ReadFile(document)
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(text), "### Long traces\n")
	table, _, _ = strings.Cut(table, "\n### ")
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(strings.ReplaceAll(s, " ", ""), 64)
		if err != nil {
			t.Fatalf("%s: %v", document, err)
		}
		return v
	}
	type row struct{ points, least, most float64 }
	var rows []row
	// | 100 000 000 | 62 500 | 9.6 to 12.6 s | 96 to 126 ns | ...
	for _, m := range regexp.MustCompile(`(?m)^\| ([\d ]+) \|[^|]*\|[^|]*\| ([\d ]+?)(?: to ([\d ]+))? ns \|`).FindAllStringSubmatch(table, -1) {
		r := row{number(m[1]), number(m[2]), number(m[2])}
		if m[3] != "" {
			r.most = number(m[3])
		}
		rows = append(rows, r)
	}
	if len(rows) < 5 || rows[0].points != 1000 {
		t.Fatalf("the table of long traces has %d rows from 1 000 points on", len(rows))
	}

	c := newCanvas(Options{Width: 736, ID: "growth", Standalone: true})
	decades := func(c *canvas, s axis) (list []tick) {
		for n, v := 0, 1.0; v <= s.high; n, v = n+1, v*10 {
			if s.inside(v) {
				list = append(list, tick{v, "10" + string([]rune("⁰¹²³⁴⁵⁶⁷⁸⁹")[n])})
			}
		}
		return list
	}
	steps := func(*canvas, axis) []tick {
		return []tick{{50, "50"}, {100, "100"}, {200, "200"}, {500, "500"}, {1000, "1000"}}
	}
	x := axis{low: rows[0].points, high: rows[len(rows)-1].points, name: "points", log: true, ticks: decades}
	y := axis{low: 50, high: 1500, name: "ns", log: true, ticks: steps}
	p := c.plot(x, y, 28, 30, 220)
	for _, n := range c.numbers(p.y) {
		p.level("grid", n.v)
	}
	p.axes()
	p.note(p.top-13, "time that a point takes, read in blocks", "")
	var line []pt
	columns := columns("points", "ns a point")
	for _, r := range rows {
		a, b := p.at(r.points, r.least), p.at(r.points, r.most)
		c.line("cut", a, b)
		middle := pt{a.x, (a.y + b.y) / 2}
		line = append(line, middle)
		columns.add(c.digits(r.points, 3), c.digits(math.Sqrt(r.least*r.most), 3))
	}
	c.line("prof", line...)
	for _, m := range line {
		c.circle("accf", m, 3)
	}
	const title = "Time that a point of a long trace takes"
	picture := c.picture(title, title+", against the number of points; both axes are logarithmic.", "", columns)
	if flag.Lookup("update").Value.String() == "true" {
		if err := os.WriteFile(file, []byte(picture.SVG), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if kept, err := os.ReadFile(file); err != nil || string(kept) != picture.SVG {
		t.Errorf("%s is not the picture of the table (%v): go test ./roughness/figure -run GrowthPicture -update, and look at it", file, err)
	}
}
