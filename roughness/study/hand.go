package study

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.com/furrow/params"
	"example.com/furrow/roughness/synth"
)

var trailingComma = regexp.MustCompile(`,(\s|$)`)

// ReadHeights reads 4 to 64 heights in µm. Blanks, tabs, semicolons and line breaks stand between them; a comma is the decimal mark where no
// point occurs, and stands between them where one does.
func ReadHeights(text string) ([]float64, error) {
	text = strings.NewReplacer("−", "-", ";", " ").Replace(text)
	if strings.Contains(text, ".") {
		text = strings.ReplaceAll(text, ",", " ")
	}
	text = strings.ReplaceAll(trailingComma.ReplaceAllString(text, " "), ",", ".")
	var z []float64
	for i, word := range strings.Fields(text) {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil || math.IsNaN(v) || math.Abs(v) > 1e6 {
			return nil, &RefusedError{"hand-heights", fmt.Sprintf("Height %d, %q, is no number up to a million.", i+1, word)}
		}
		z = append(z, v)
	}
	if n := len(z); n < leastTyped || n > mostTyped {
		return nil, &RefusedError{"hand-heights", fmt.Sprintf("%d to %d heights; there are %d.", leastTyped, mostTyped, n)}
	}
	return z, nil
}

// OtherHeights are whole numbers from -size to size whose mean is zero.
func OtherHeights(count, size int, seed uint64) ([]float64, error) {
	if count < leastTyped || count > mostTyped || size < 1 || size > 1000 {
		return nil, &RefusedError{"hand-count", fmt.Sprintf("%d to %d heights, up to 1 to 1000 µm.", leastTyped, mostTyped)}
	}
	r := synth.NewRandom(seed, 7)
	z, sum := make([]float64, count), 0
	for i := range z {
		v := int(r.Uint32()%uint32(2*size+1)) - size
		z[i], sum = float64(v), sum+v
	}
	for sum != 0 {
		i := int(r.Uint32() % uint32(count))
		step := 1
		if sum > 0 {
			step = -1
		}
		if v := int(z[i]) + step; v >= -size && v <= size {
			z[i], sum = float64(v), sum+step
		}
	}
	return z, nil
}

// Echo says what heights were read.
func Echo(z []float64) string {
	sum := 0.0
	for _, v := range z {
		sum += v
	}
	return fmt.Sprintf("%d heights, from %s to %s, mean %s", len(z), plainly(slices.Min(z), 4), plainly(slices.Max(z), 4), plainly(sum/float64(len(z)), 4))
}

// plainly writes whole numbers whole, and others with the given number of significant digits.
func plainly(v float64, digits int) string {
	if math.Abs(v) < 1e-12 {
		return "0"
	}
	if v == math.Trunc(v) && math.Abs(v) < 1e12 {
		return printedTo(v, len(strconv.FormatFloat(math.Abs(v), 'f', 0, 64)))
	}
	s := printedTo(v, digits)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// A HandColumn is a column of the table of typed heights.
type HandColumn struct {
	ID, Head string
	Used     bool // by the symbol
}

// A HandTable has one row for each ordinate, and what the columns add up to.
type HandTable struct {
	Columns     []HandColumn
	Rows        [][]string
	Sums, Means []string // "" where a column is not added up
	Notes       []string
}

// handColumns are the columns, with the keys of the symbols that use them.
var handColumns = []struct{ id, head, keys string }{
	{"i", "i", ""},
	{"x", "x, µm", ""},
	{"z", "z, µm", "Rp Rv Rz Rzx Rt Rpt Rvt R5p R5v R10z RzJIS R3z R3zm Rmax Rsm Rsmx Rsmq Rc Rcx Rcq Rpc Rmr RmrFrom Rmc Rdc Tp HSC RPcBand Pc Rk Rpk Rvk Rpkx Rvkx Rmrk1 Rmrk2 Rak1 Rak2 Ral Rsw"},
	{"abs", "|z|, µm", "Ra Ra75 LambdaA"},
	{"z2", "z², µm²", "Rq Rsk Rku LambdaQ"},
	{"z3", "z³, µm³", "Rsk"},
	{"z4", "z⁴, µm⁴", "Rku"},
	{"diff", "to the next, µm", ""},
	{"slope", "slope", "Rdq Rda Rdt Rdl Rdr LengthRatio LambdaA LambdaQ"},
	{"absslope", "|slope|", "Rda Rdt LambdaA"},
	{"slope2", "slope²", "Rdq Rdl Rdr LengthRatio LambdaQ"},
}

// handPoints is how many ordinates a table holds at most.
const handPoints = 256

// Table lists the ordinates of the profile evaluated with what the symbol is made of. With neighbours, the slope is the difference to the
// next ordinate over the spacing, for practice; otherwise it is that of seven points, as the catalogue has it.
func (r *Result) Table(neighbours bool) (*HandTable, error) {
	if r.Input == nil {
		return nil, &RefusedError{"hand-table", "Nothing can be evaluated."}
	}
	z, dx := r.Input.Z, r.Input.Dx
	if len(z) > handPoints {
		return nil, &RefusedError{"hand-table", fmt.Sprintf("There are %s ordinates; the table has room for %d.", whole(len(z)), handPoints)}
	}
	slopes := r.slopes()
	if neighbours {
		slopes = make([]float64, len(z))
		for i := range z {
			slopes[i] = math.NaN()
			if i+1 < len(z) {
				slopes[i] = (z[i+1] - z[i]) / dx
			}
		}
	}
	t := &HandTable{}
	columns := make([][]float64, len(handColumns))
	for _, c := range handColumns {
		t.Columns = append(t.Columns, HandColumn{c.id, c.head, slices.Contains(strings.Fields(c.keys), r.Call.Parameter.Key)})
	}
	for i, v := range z {
		next, g := math.NaN(), slopes[i]
		if i+1 < len(z) {
			next = z[i+1] - v
		}
		var row []string
		for k, cell := range []float64{float64(i + 1), float64(i) * dx, v, math.Abs(v), v * v, v * v * v, v * v * v * v, next, g, math.Abs(g), g * g} {
			text := ""
			if !math.IsNaN(cell) {
				text = plainly(cell, 4)
				columns[k] = append(columns[k], cell)
			}
			row = append(row, text)
		}
		t.Rows = append(t.Rows, row)
	}
	for k, cells := range columns {
		sum, mean := "", ""
		if k > 1 && handColumns[k].id != "diff" && len(cells) > 0 {
			total := 0.0
			for _, v := range cells {
				total += v
			}
			sum = plainly(total, 5)
			mean = sum + "/" + strconv.Itoa(len(cells)) + " = " + plainly(total/float64(len(cells)), 4)
		}
		t.Sums, t.Means = append(t.Sums, sum), append(t.Means, mean)
	}
	t.Notes = r.handNotes(neighbours, len(columns[8]))
	return t, nil
}

// slopes are the local slopes of the catalogue, NaN where there is none.
func (r *Result) slopes() []float64 {
	out := make([]float64, len(r.Input.Z))
	for i := range out {
		out[i] = math.NaN()
	}
	call, err := params.Lookup("iso-21920", 'R', "Rdq")
	if err != nil {
		return out
	}
	c, err := params.Construct(&params.Input{Z: r.Input.Z, Dx: r.Input.Dx}, call)
	if err != nil {
		return out
	}
	for _, s := range c.Steps {
		if planeOf(&c, s) != params.SlopePlane {
			continue
		}
		for _, m := range s.Marks {
			if m.Kind != params.LineMark || len(m.Points) < 2 {
				continue
			}
			for _, p := range m.Points {
				out[int(math.Round(p.X/r.Input.Dx))] = p.Y
			}
			return out
		}
	}
	return out
}

// handNotes are what to say of few typed points.
func (r *Result) handNotes(neighbours bool, slopes int) []string {
	notes := []string{}
	n, p := len(r.Input.Z), r.Call.Parameter
	uses := func(id string) bool {
		i := slices.IndexFunc(handColumns, func(c struct{ id, head, keys string }) bool { return c.id == id })
		return slices.Contains(strings.Fields(handColumns[i].keys), p.Key)
	}
	length := float64(n-1) * r.Input.Dx
	switch {
	case p.Group == params.GroupRatio:
		notes = append(notes, fmt.Sprintf("With %d points the straight lines between them are %d × %s = %s µm long; the material ratio divides by that, the mean heights by %d.", n, n-1, plainly(r.Input.Dx, 4), plainly(length, 6), n))
	case p.Group == params.GroupCore:
		windows := int(math.Round(coreWindow / 100.0 * float64(n)))
		notes = append(notes, fmt.Sprintf("Few points: the core is shown for practice; the window of 40 %% has %d steps, that is %d points.", windows, windows+1),
			"Rmr follows the lines between the points, the core uses the sorted heights: with few points they differ.")
	case uses("slope"):
		if neighbours {
			notes = append(notes, "This is not "+r.Call.Symbol+".")
		} else if slopes < n {
			notes = append(notes, fmt.Sprintf("Three points at each end have no slope: N_g = %d.", slopes))
		}
	}
	if low, _ := r.Extent(); low > 0 {
		notes = append(notes, "All heights are above zero as typed, so pit depths are negative.")
	}
	if left := len(r.Surface.Z) - r.Evaluation.Sections*r.Evaluation.SectionPoints; left > 0 && r.State.Filter.Kind == "none" {
		notes = append(notes, fmt.Sprintf("%d sections of %d points: the last %d of the heights are left over.", r.Evaluation.Sections, r.Evaluation.SectionPoints, left))
	}
	return notes
}
