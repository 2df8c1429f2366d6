package figure_test

import (
	"encoding/xml"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/roughness/figure"
)

var update = flag.Bool("update", false, "write the golden files")

// Golden files: look at them before committing new ones.
func TestGolden(t *testing.T) {
	for name, d := range drawings(t) {
		if strings.HasPrefix(name, "r") && name != "rz" && name != "rk" {
			continue // their geometry is that of another room
		}
		for _, width := range []int{350, 736} {
			file := filepath.Join("testdata", fmt.Sprintf("%s-%d.svg", name, width))
			got := d.Draw(figure.Options{Width: width, Standalone: true}).SVG
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if !sameDrawing(got, string(want)) {
				t.Errorf("%s differs; draw it again with -update and look at it", file)
			}
		}
	}
}

var decimal = regexp.MustCompile(`-?\d+(?:\.\d+)?`)

// sameDrawing says whether two drawings differ by no more than the last bits of a calculation can do: a tenth of a
// pixel.
func sameDrawing(a, b string) bool {
	if a == b {
		return true
	}
	first, second := decimal.FindAllString(a, -1), decimal.FindAllString(b, -1)
	if len(first) != len(second) || decimal.ReplaceAllString(a, "#") != decimal.ReplaceAllString(b, "#") {
		return false
	}
	for i := range first {
		x, _ := strconv.ParseFloat(first[i], 64)
		y, _ := strconv.ParseFloat(second[i], 64)
		if math.Abs(x-y) > 0.101 {
			return false
		}
	}
	return true
}

// Every picture at every width is XML, as wide as asked, has its title and description, and nothing that a strict
// content security policy refuses.
func TestPicturesAreSound(t *testing.T) {
	for name, d := range drawings(t) {
		for _, width := range []int{240, 640} {
			for _, standalone := range []bool{false, true} {
				p := d.Draw(figure.Options{Width: width, ID: "p1", Standalone: standalone})
				list := nodes(t, p.SVG)
				root := list[0]
				if root.attrs["width"] != fmt.Sprint(width) || root.attrs["viewBox"] != fmt.Sprintf("0 0 %d %d", p.Width, p.Height) {
					t.Errorf("%s: width %s, viewBox %s", name, root.attrs["width"], root.attrs["viewBox"])
				}
				if p.Title == "" || p.Desc == "" || len(p.Table.Rows) == 0 || len(p.Frames) == 0 {
					t.Errorf("%s: no title, description, table or frame", name)
				}
				for _, n := range list {
					switch {
					case n.name == "style" || n.attrs["style"] != "":
						t.Errorf("%s: inline style", name)
					case n.name == "title" && n.text != p.Title, n.name == "desc" && n.text != p.Desc:
						t.Errorf("%s: %s is %q", name, n.name, n.text)
					case n.name != "svg" && standalone && n.attrs["class"] != "":
						t.Errorf("%s: class %q in a file of its own", name, n.attrs["class"])
					case !standalone && (n.attrs["stroke"] != "" || n.attrs["fill"] != "" && !strings.HasPrefix(n.attrs["fill"], "url(")):
						t.Errorf("%s: a colour of its own in a page", name)
					}
				}
				if strings.Contains(p.SVG, "NaN") || strings.Contains(p.SVG, "Inf") {
					t.Errorf("%s: not a number in the picture", name)
				}
			}
		}
	}
}

// The figures of the description are those of the table.
func TestDescriptionIsInTheTable(t *testing.T) {
	numbers := regexp.MustCompile(`−?\d+(?:\.\d+)?`)
	for name, d := range drawings(t) {
		p := d.Draw(figure.Options{})
		cells := map[string]bool{}
		for _, row := range p.Table.Rows {
			for _, cell := range row {
				for _, n := range numbers.FindAllString(cell, -1) {
					cells[n] = true
				}
			}
		}
		found := numbers.FindAllString(p.Desc, -1)
		if len(found) == 0 {
			t.Errorf("%s: no figure in %q", name, p.Desc)
		}
		for _, n := range found {
			if !cells[n] {
				t.Errorf("%s: %s of the description is not in the table: %s", name, n, p.Desc)
			}
		}
		for _, row := range p.Table.Rows {
			if len(row) != len(p.Table.Columns) {
				t.Errorf("%s: row %q does not have the columns %q", name, row, p.Table.Columns)
			}
		}
	}
}

// The figures of the table are those of the profile.
func TestTableIsTheProfile(t *testing.T) {
	z := surface()
	p := figure.ProfilePlot{Letter: "R", Z: z, Spacing: 2, Layout: layout}.Draw(figure.Options{})
	spans := map[string][2]int{"whole": {0, 2401}, "first end": {0, 200}, "section 1": {200, 600}, "section 5": {1800, 2200}, "last end": {2200, 2401}}
	seen := 0
	for _, row := range p.Table.Rows {
		span, ok := spans[row[0]]
		if !ok {
			continue
		}
		seen++
		low, high := span[0], span[0]
		for i := span[0]; i < span[1]; i++ {
			if z[i] < z[low] {
				low = i
			}
			if z[i] > z[high] {
				high = i
			}
		}
		for column, want := range map[int]float64{3: z[low], 4: float64(low) * 2 / 1000, 5: z[high], 6: float64(high) * 2 / 1000} {
			if got := number(t, row[column]); math.Abs(got-want) > 0.005 {
				t.Errorf("%s: %s is %g, want %g", row[0], p.Table.Columns[column], got, want)
			}
		}
	}
	if seen != len(spans) {
		t.Errorf("found %d of %d parts in %q", seen, len(spans), p.Table.Rows)
	}
}

// A single spike a hundred times narrower than a pixel is drawn at its full height, and at its place.
func TestExtremesSurvive(t *testing.T) {
	const n = 96_001
	z := make([]float64, n)
	for i := range z {
		z[i] = math.Sin(float64(i) / 50)
	}
	z[31_234], z[77_001] = 5, -7
	for _, width := range []int{350, 736} {
		p := figure.ProfilePlot{Letter: "R", Z: z, Spacing: 0.05, Layout: layout}.Draw(figure.Options{Width: width})
		f := p.Frames[0]
		at := func(i int) [2]float64 {
			return [2]float64{
				f.Left + (float64(i)*0.05-f.XLow)/(f.XHigh-f.XLow)*(f.Right-f.Left),
				f.Bottom - (z[i]-f.YLow)/(f.YHigh-f.YLow)*(f.Bottom-f.Top),
			}
		}
		var line [][2]float64
		for _, e := range nodes(t, p.SVG) {
			if e.attrs["class"] == "prof" {
				line = points(t, e.attrs["d"])
			}
		}
		for _, i := range []int{31_234, 77_001, 0, n - 1} {
			found := false
			for _, q := range line {
				found = found || math.Abs(q[0]-at(i)[0]) <= 0.051 && math.Abs(q[1]-at(i)[1]) <= 0.051
			}
			if !found {
				t.Errorf("width %d: point %d is not drawn at %v", width, i, at(i))
			}
		}
		if most := 4 * int(f.Right-f.Left+2); len(line) > most {
			t.Errorf("width %d: %d points drawn, at most %d expected", width, len(line), most)
		}
	}
}

// Gaps stay gaps, and a trace of nothing is a picture all the same.
func TestOddTraces(t *testing.T) {
	nan := math.NaN()
	for name, z := range map[string][]float64{
		"nothing": nil, "one point": {1}, "one height": {2, 2, 2}, "no heights": {nan, nan}, "a gap": {0, 1, nan, 1, 0}, "tiny": {0, 1e-9, 0}, "huge": {0, 1e9, 0},
	} {
		for _, d := range []figure.Drawing{
			figure.TracePlot{Z: z, Spacing: 1, Layout: layout}, figure.TracePlot{Z: z, Spacing: 1}, figure.ProfilePlot{Z: z, Spacing: 1},
			figure.FormPlot{Read: z, Fitted: z, Primary: z, Spacing: 1}, figure.Waves{Primary: z, Waviness: z, Spacing: 1}, figure.Spark{Z: z, Spacing: 1},
			figure.ConstructionPlot{Z: z, Spacing: 1, Sections: 5}, figure.ConstructionPlot{Of: params.Construction{Plane: params.SpectrumPlane}, Z: z, Spacing: 1},
			figure.Distribution{Z: z},
		} {
			p := d.Draw(figure.Options{})
			nodes(t, p.SVG)
			if strings.Contains(p.SVG, "NaN") || strings.Contains(p.SVG, "Inf") {
				t.Errorf("%s: not a number in %T", name, d)
			}
		}
	}
	p := figure.ProfilePlot{Z: []float64{0, 1, nan, 1, 0}, Spacing: 1}.Draw(figure.Options{})
	for _, e := range nodes(t, p.SVG) {
		if e.attrs["class"] == "prof" && strings.Count(e.attrs["d"], "M") != 2 {
			t.Errorf("the gap is bridged: %s", e.attrs["d"])
		}
	}
}

// Height scale and exaggeration: fixed heights stay fixed, and the caption is right.
func TestExaggeration(t *testing.T) {
	p := figure.ProfilePlot{Z: surface(), Spacing: 2}.Draw(figure.Options{Width: 640, Heights: [2]float64{-10, 10}})
	f := p.Frames[0]
	if f.YLow != -10 || f.YHigh != 10 {
		t.Errorf("heights drawn from %g to %g", f.YLow, f.YHigh)
	}
	ratio := (f.Bottom - f.Top) / 20 / ((f.Right - f.Left) / 4800)
	if want := fmt.Sprintf("Heights are drawn %.1f times larger than lengths.", ratio); !strings.Contains(p.Caption, want) {
		t.Errorf("%q does not say %q", p.Caption, want)
	}
}

// A reader's decimal comma reaches every number of the picture.
func TestDecimalComma(t *testing.T) {
	point := regexp.MustCompile(`\d\.\d`)
	for name, d := range drawings(t) {
		p := d.Draw(figure.Options{DecimalComma: true})
		texts := []string{p.Desc, p.Caption}
		for _, row := range p.Table.Rows {
			texts = append(texts, row...)
		}
		for _, n := range nodes(t, p.SVG) {
			if n.name == "text" || n.name == "tspan" {
				texts = append(texts, n.text)
			}
		}
		for _, s := range texts {
			if strings.HasPrefix(name, "rmr") {
				s = strings.ReplaceAll(s, "Rmr(0.5)", "") // the symbol stands as asked
			}
			if point.MatchString(s) {
				t.Errorf("%s: decimal point in %q", name, s)
			}
		}
	}
}

// A picture in inches is the picture in micrometres: the same drawing, each number of a column with a unit turned into the other, and the
// numbers of its axes too.
func TestInch(t *testing.T) {
	per := map[string]struct {
		unit   string
		factor float64
	}{"µm": {"µin", 1 / 0.0254}, "mm": {"in", 1 / 25.4}}
	read := func(cell string) (v, half float64, ok bool) {
		cell = strings.Replace(cell, "−", "-", 1)
		v, err := strconv.ParseFloat(cell, 64)
		_, part, _ := strings.Cut(cell, ".")
		return v, 0.5 * math.Pow(10, -float64(len(part))), err == nil
	}
	turned := 0
	for name, d := range drawings(t) {
		a, b := d.Draw(figure.Options{}), d.Draw(figure.Options{Inch: true})
		for j, head := range a.Table.Columns {
			cut := strings.LastIndex(head, ", ")
			other, ok := per[head[cut+1:][min(1, len(head[cut+1:])):]]
			if cut < 0 || !ok {
				continue
			}
			if want := head[:cut+2] + other.unit; b.Table.Columns[j] != want {
				t.Errorf("%s: the column %q is %q, want %q", name, head, b.Table.Columns[j], want)
				continue
			}
			elsewhere := false // marks that lie in another plane have units of their own
			for i, row := range a.Table.Rows {
				if row[1] != "" || row[0] != "" {
					elsewhere = strings.Contains(row[1], " (")
				}
				if elsewhere {
					continue
				}
				v, half, ok := read(row[j])
				w, other2, _ := read(b.Table.Rows[i][j])
				if !ok {
					continue
				}
				if turned++; math.Abs(w-v*other.factor) > 1.001*(half*other.factor+other2) {
					t.Errorf("%s, %s: %s is %s", name, head, row[j], b.Table.Rows[i][j])
				}
			}
		}
		for _, n := range nodes(t, b.SVG) {
			if n.name == "text" && (n.text == "µm" || strings.HasPrefix(n.text, "mm ") || strings.HasPrefix(n.text, "µm ")) {
				t.Errorf("%s: an axis counts in %q", name, n.text)
			}
		}
	}
	if turned < 100 {
		t.Errorf("only %d numbers were compared", turned)
	}
}

// A symbol with brackets is no id, and a title with an ampersand is no XML until it is escaped.
func TestNamesAreEscaped(t *testing.T) {
	p := figure.TracePlot{Title: `A & B <"C">`, Z: []float64{0, 1, 0}, Spacing: 1}.Draw(figure.Options{ID: "Rmr(0.5) x"})
	list := nodes(t, p.SVG)
	if list[1].attrs["id"] != "Rmr05x-title" || list[1].text != `A & B <"C">` {
		t.Errorf("title %v", list[1])
	}
	if err := xml.Unmarshal([]byte(p.SVG), new(struct{})); err != nil {
		t.Error(err)
	}
}
