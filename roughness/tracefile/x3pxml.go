package tracefile

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"example.com/furrow/roughness"
)

// x3pAxis is CX, CY or CZ.
type x3pAxis struct {
	absolute          bool
	kind              byte // I int16, L int32, F float32, D float64
	increment, offset float64
	step              scaled  // increment in µm
	shift             float64 // offset in µm
}

// size is the number of bytes of a stored number.
func (a *x3pAxis) size() int {
	switch a.kind {
	case 'I':
		return 2
	case 'L', 'F':
		return 4
	}
	return 8
}

func (a *x3pAxis) whole() bool { return a.kind == 'I' || a.kind == 'L' }

// unit is what scale counts in: metres, or for integers µm, so that an increment of 1e-6 makes whole numbers again.
func (a *x3pAxis) unit() scaled {
	if a.whole() {
		return newScaled(unit{text: "µm", factor: 1}, 1)
	}
	return newScaled(metres, 1)
}

// scale turns a stored number into a length. Increment counts for integers alone: files exist that give float heights in metres
// and an increment beside them.
func (a *x3pAxis) scale(v float64) float64 {
	switch {
	case a.whole():
		return a.shift + a.step.value(v)
	case a.offset != 0:
		return a.offset + v
	}
	return v
}

// x3pDocument is what main.xml says.
type x3pDocument struct {
	value      map[string]string // leaf elements by their path below the root
	fields     []Field           // the same in the order of the file, without what Record 1, 3 and 4 need
	x, y, z    x3pAxis
	sx, sy, sz int
	list       bool
	datum      []float64 // inline numbers of all cells
	datumStart []int32   // where each cell's numbers begin
	notes      []roughness.Note
}

var errEntity = because(ErrFormat, "main.xml declares a document type or entities, which are not read")

// parseMain reads main.xml leniently: order and unknown elements do not matter, the namespace neither.
func parseMain(text []byte) (*x3pDocument, error) {
	d := &x3pDocument{value: map[string]string{}}
	dec := xml.NewDecoder(bytes.NewReader(text))
	dec.Strict = true
	dec.CharsetReader = func(charset string, input io.Reader) (io.Reader, error) {
		switch strings.ToLower(charset) {
		case "iso-8859-1", "latin1", "windows-1252":
			b, err := io.ReadAll(input)
			return bytes.NewReader(fromWindows1252(b)), err
		case "us-ascii", "utf8":
			return input, nil
		}
		return nil, fmt.Errorf("encoding %q is not read", clip(charset))
	}
	fail := func(err error) error {
		line, column := dec.InputPos()
		return &Error{Line: line, Column: column, Err: because(err, "main.xml: %v", err)}
	}
	var path []string
	var leaf strings.Builder
	isLeaf := false
	for {
		token, err := dec.RawToken()
		if err == io.EOF {
			break
		}
		if err != nil {
			var se *xml.SyntaxError
			if errors.As(err, &se) && strings.Contains(se.Msg, "EOF") {
				return nil, fail(because(ErrTruncated, "%v", se.Msg))
			}
			return nil, fail(because(ErrFormat, "%v", err))
		}
		switch e := token.(type) {
		case xml.Directive:
			return nil, fail(errEntity)
		case xml.StartElement:
			if len(path) >= maxXMLDepth {
				return nil, fail(because(ErrLimit, "elements are nested deeper than %d", maxXMLDepth))
			}
			path = append(path, e.Name.Local)
			leaf.Reset()
			isLeaf = true
		case xml.CharData:
			if isLeaf {
				leaf.Write(e)
			}
		case xml.EndElement:
			if len(path) == 0 || path[len(path)-1] != e.Name.Local {
				return nil, fail(because(ErrFormat, "element %q ends and is not open", clip(e.Name.Local)))
			}
			if isLeaf && len(path) > 1 {
				if err := d.leaf(strings.Join(path[1:], "/"), strings.TrimSpace(leaf.String())); err != nil {
					return nil, fail(err)
				}
			}
			path = path[:len(path)-1]
			isLeaf = false
		}
	}
	if len(path) > 0 {
		return nil, fail(because(ErrTruncated, "element %q is not closed", clip(path[len(path)-1])))
	}
	if err := d.understand(); err != nil {
		return nil, &Error{Err: because(err, "main.xml: %v", err)}
	}
	return d, nil
}

// leaf takes one element without children.
func (d *x3pDocument) leaf(path, text string) error {
	if path == "Record3/DataList/Datum" {
		if len(d.datumStart) >= maxPoints {
			return because(ErrLimit, "more than %d cells", maxPoints)
		}
		d.datumStart = append(d.datumStart, int32(len(d.datum)))
		if text == "" {
			return nil
		}
		for rest, more := text, true; more; {
			var one string
			one, rest, more = strings.Cut(rest, ";")
			one = strings.TrimSpace(one)
			v, ok := smdNumber(one)
			if !ok && !smdInvalid(one) {
				return because(ErrNumber, "%q is not a finite decimal number", clip(one))
			}
			if !ok {
				v = math.NaN()
			}
			d.datum = append(d.datum, v)
		}
		return nil
	}
	if len(d.value) > 10000 {
		return because(ErrLimit, "more than 10000 elements beside the data")
	}
	if _, twice := d.value[path]; !twice {
		d.value[path] = text
	}
	if strings.HasPrefix(path, "Record2/") || path == "VendorSpecificID" || !strings.HasPrefix(path, "Record") {
		d.fields = append(d.fields, Field{path, text})
	}
	return nil
}

// understand makes axes and sizes out of the elements.
func (d *x3pDocument) understand() error {
	switch f := strings.ToUpper(d.value["Record1/FeatureType"]); f {
	case "PRF", "SUR":
	case "":
		d.note("feature-type", "The file does not say whether it holds a profile or an area; its size tells.")
	default:
		return because(ErrFormat, "feature type %q; profiles (PRF) and areas (SUR) are read", clip(f))
	}
	for _, a := range []struct {
		name string
		axis *x3pAxis
	}{{"CX", &d.x}, {"CY", &d.y}, {"CZ", &d.z}} {
		if err := d.axis(a.name, a.axis); err != nil {
			return err
		}
	}
	if !d.z.absolute {
		return because(ErrFormat, "the heights are said to be incremental")
	}
	size := func(key string) (int, error) {
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
	var err error
	if d.value["Record3/ListDimension"] != "" {
		d.list = true
		d.sy, d.sz = 1, 1
		d.sx, err = size("ListDimension")
		return err
	}
	for _, s := range []struct {
		key string
		to  *int
	}{{"MatrixDimension/SizeX", &d.sx}, {"MatrixDimension/SizeY", &d.sy}, {"MatrixDimension/SizeZ", &d.sz}} {
		if *s.to, err = size(s.key); err != nil {
			return err
		}
	}
	if int64(d.sx)*int64(d.sy) > 1<<40 {
		return because(ErrLimit, "a matrix of %d by %d", d.sx, d.sy)
	}
	for _, r := range []string{"r11", "r22", "r33"} {
		if v := d.value["Record1/Axes/Rotation/"+r]; v != "" && v != "1" && v != "1.0" {
			d.note("rotation", "The axes are rotated in the file; the rotation was left out.")
			break
		}
	}
	return nil
}

func (d *x3pDocument) axis(name string, a *x3pAxis) error {
	at := "Record1/Axes/" + name + "/"
	switch kind := strings.ToUpper(d.value[at+"AxisType"]); kind {
	case "A":
		a.absolute = true
	case "I":
	case "":
		a.absolute = name == "CZ"
	default:
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
		text := d.value[at+f.key]
		if text == "" {
			continue
		}
		v, ok := smdNumber(text)
		if !ok {
			return because(ErrNumber, "%s of %s: %q is not a finite decimal number", f.key, name, clip(text))
		}
		*f.to = v
	}
	a.step, a.shift = newScaled(metres, a.increment), shift10(a.offset, 6)
	if name == "CZ" && !a.whole() && a.increment != 1 {
		d.note("increment", fmt.Sprintf("The heights are floating-point numbers and have an increment of %s, which was left out.", number(a.increment)))
	}
	return nil
}

func (d *x3pDocument) note(code, text string) {
	d.notes = append(d.notes, roughness.Note{Code: code, Text: text})
}
