package tracefile

import (
	"strconv"
	"strings"
)

// x3pAxis is CX, CY or CZ.
type x3pAxis struct {
	absolute          bool
	kind              byte // I int16, L int32, F float32, D float64
	increment, offset float64
	step              unit    // increment in µm
	shift             float64 // offset in µm
}

func (a *x3pAxis) whole() bool { return a.kind == 'I' || a.kind == 'L' }

// unit is what scale counts in: metres, or for integers µm, so that an increment of 1e-6 makes whole numbers again.
func (a *x3pAxis) unit() unit {
	u := metres
	if a.whole() {
		u, _ = parseUnit("µm")
	}
	return u
}

// scale turns a stored number into a length. Increment counts for integers alone: files exist that give float heights in metres
// and an increment beside them.
func (a *x3pAxis) scale(v float64) float64 {
	switch {
	case a.whole():
		return a.shift + a.step.length(v)
	case a.offset != 0:
		return a.offset + v
	}
	return v
}

// x3pDocument is what main.xml says.
type x3pDocument struct {
	*Trace                       // gets notes, and as fields what Record 1, 3 and 4 do not need
	value      map[string]string // leaf elements by their path below the root
	x, y, z    x3pAxis
	sx, sy, sz int
	datum      []float64 // inline numbers of the cells
	datumStart []int32   // where each cell's numbers begin
	datums     int64     // how many cells there are, also those beyond the announced ones, which are not kept
	most       int64     // cells to be kept

	path            []string        // of the element that is read
	text            strings.Builder // of it
	isLeaf, isDatum bool
	elements        int // how many there are beside the cells
	kept            int // bytes of their texts and paths
}

// understand makes axes and sizes out of the elements.
func (d *x3pDocument) understand() error {
	switch f := strings.ToUpper(d.value["Record1/FeatureType"]); f {
	case "PRF", "SUR":
	case "":
		d.note("feature-type", "The file does not say whether it holds a profile or an area; its size decides.")
	default:
		return because(ErrFormat, "feature type %q; profiles (PRF) and areas (SUR) are read", clip(f))
	}
	for i, axis := range []*x3pAxis{&d.x, &d.y, &d.z} {
		if err := d.axis([]string{"CX", "CY", "CZ"}[i], axis); err != nil {
			return err
		}
	}
	if !d.z.absolute {
		return because(ErrFormat, "the heights are said to be incremental")
	}
	var err error
	if d.value["Record3/ListDimension"] != "" {
		d.sy, d.sz = 1, 1
		d.sx, err = d.size("ListDimension")
		return err
	}
	for _, s := range []struct {
		key string
		to  *int
	}{{"X", &d.sx}, {"Y", &d.sy}, {"Z", &d.sz}} {
		if *s.to, err = d.size("MatrixDimension/Size" + s.key); err != nil {
			return err
		}
	}
	if cells := int64(d.sx) * int64(d.sy); cells > 1<<40 || d.sz > 1<<20 || cells*int64(d.sz) > 1<<40 {
		return because(ErrLimit, "a matrix of %d by %d in layers of %d", d.sx, d.sy, d.sz)
	}
	for _, r := range []string{"r11", "r22", "r33"} {
		if v := d.value["Record1/Axes/Rotation/"+r]; v != "" && v != "1" && v != "1.0" {
			d.note("rotation", "The axes are rotated in the file; the rotation was left out.")
			break
		}
	}
	return nil
}

// size is a number of cells in Record 3.
func (d *x3pDocument) size(key string) (int, error) {
	text := d.value["Record3/"+key]
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n < 1 {
		return 0, because(ErrFormat, "%s is %q", key, clip(text))
	}
	if n > maxPoints {
		return 0, because(ErrLimit, "%s is %d; the limit is %d", key, n, maxPoints)
	}
	return int(n), nil
}

func (d *x3pDocument) axis(name string, a *x3pAxis) error {
	at := "Record1/Axes/" + name + "/"
	kind := strings.ToUpper(d.value[at+"AxisType"])
	if a.absolute = kind == "A" || kind == "" && name == "CZ"; kind != "" && kind != "A" && kind != "I" {
		return because(ErrFormat, "axis type of %s is %q", name, clip(kind))
	}
	a.kind = 'D'
	if kind := strings.ToUpper(d.value[at+"DataType"]); kind != "" {
		if len(kind) != 1 || !strings.Contains("ILFD", kind) {
			return because(ErrFormat, "data type of %s is %q", name, clip(kind))
		}
		a.kind = kind[0]
	}
	a.increment = 1
	for _, f := range []struct {
		key string
		to  *float64
	}{{"Increment", &a.increment}, {"Offset", &a.offset}} {
		if text := d.value[at+f.key]; text != "" {
			v, ok := pointNumber(text)
			if !ok {
				return because(ErrNumber, "%s of %s: %v", f.key, name, notDecimal(text))
			}
			*f.to = v
		}
	}
	a.step, a.shift = metres.times(a.increment), shift10(a.offset, 6)
	if name == "CZ" && !a.whole() && a.increment != 1 {
		d.note("increment", "The heights are floating-point numbers and have an increment of %s, which was left out.", number(a.increment))
	}
	return nil
}
