package tracefile

import (
	"archive/zip"
	"bufio"
	"crypto/md5"
	"encoding/hex"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"unicode/utf8"
)

// Limits of main.xml; that of a real file has about a hundred elements beside its cells.
const (
	maxXML      = 64 << 20 // bytes
	maxXMLDepth = 32
	maxToken    = 1 << 20 // bytes of one tag, text or remark
	maxElements = 10000   // beside the cells, repeated ones counted again
	maxKept     = 4 << 20 // bytes of their texts and paths together
	maxName     = 256     // bytes of the name of an element
	maxDatum    = 4096    // bytes of a cell
	unannounced = 1 << 20 // cells that may come before their number is announced
)

var errEntity = because(ErrFormat, "main.xml declares a document type or entities, which are not read")

// xmlBytes gives main.xml to the decoder byte by byte, and stops what one token may not take.
type xmlBytes struct {
	in    *bufio.Reader
	since int // bytes since the last token
	ended bool
}

func (x *xmlBytes) ReadByte() (byte, error) {
	if x.since++; x.since > maxToken {
		return 0, because(ErrLimit, "a tag, text or remark of more than %d bytes", maxToken)
	}
	c, err := x.in.ReadByte()
	switch {
	case err == io.EOF:
		x.ended = true
	case err != nil && !errors.Is(err, ErrLimit):
		err = because(ErrTruncated, "cannot be unpacked: %v", err)
	}
	return c, err
}

func (x *xmlBytes) Read(p []byte) (int, error) { return readByte(x, p) }

// readByte makes an io.Reader of what gives single bytes, as the decoder takes them.
func readByte(from io.ByteReader, p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	c, err := from.ReadByte()
	if err != nil {
		return 0, err
	}
	p[0] = c
	return 1, nil
}

// westernBytes turns Windows-1252 into UTF-8 as it comes.
type westernBytes struct {
	in   io.ByteReader
	rest []byte
}

func (w *westernBytes) ReadByte() (byte, error) {
	if len(w.rest) == 0 {
		c, err := w.in.ReadByte()
		if err != nil {
			return 0, err
		}
		w.rest = utf8.AppendRune(w.rest[:0], fromByte1252(c))
	}
	c := w.rest[0]
	w.rest = w.rest[1:]
	return c, nil
}

func (w *westernBytes) Read(p []byte) (int, error) { return readByte(w, p) }

// readMain reads main.xml as it is unpacked.
func (c *container) readMain(f *zip.File) (*x3pDocument, error) {
	member, g, err := c.openMember(f, maxXML)
	if err != nil {
		return nil, &Error{Err: err}
	}
	defer member.Close()
	sum := md5.New()
	d, err := parseMain(bufio.NewReaderSize(io.TeeReader(g, sum), 1<<16))
	if err != nil {
		return nil, err
	}
	d.sum = hex.EncodeToString(sum.Sum(nil))
	return d, nil
}

// parseMain reads main.xml leniently: order and unknown elements do not matter, the namespace neither.
func parseMain(text *bufio.Reader) (*x3pDocument, error) {
	d := &x3pDocument{value: map[string]string{}}
	in := &xmlBytes{in: text}
	dec := xml.NewDecoder(in)
	dec.Strict = true
	dec.CharsetReader = func(charset string, _ io.Reader) (io.Reader, error) {
		switch strings.ToLower(charset) {
		case "iso-8859-1", "latin1", "windows-1252":
			return &westernBytes{in: in}, nil
		case "us-ascii", "utf8":
			return in, nil
		}
		return nil, because(ErrFormat, "encoding %q is not read", clip(charset))
	}
	fail := func(err error) error {
		line, column := dec.InputPos()
		return &Error{Line: line, Column: column, Err: because(err, "main.xml: %v", err)}
	}
	var path []string
	var leaf strings.Builder
	isLeaf, isDatum := false, false
	for {
		in.since = 0
		token, err := dec.RawToken()
		switch {
		case err == io.EOF:
			if len(path) > 0 {
				return nil, fail(because(ErrTruncated, "element %q is not closed", clip(path[len(path)-1])))
			}
			if err := d.understand(); err != nil {
				return nil, &Error{Err: because(err, "main.xml: %v", err)}
			}
			return d, nil
		case errors.Is(err, ErrLimit), errors.Is(err, ErrTruncated), errors.Is(err, ErrFormat):
			return nil, fail(err)
		case err != nil && in.ended:
			return nil, fail(because(ErrTruncated, "%v", err))
		case err != nil:
			return nil, fail(because(ErrFormat, "%v", err))
		}
		switch e := token.(type) {
		case xml.Directive:
			return nil, fail(errEntity)
		case xml.StartElement:
			if len(path) >= maxXMLDepth {
				return nil, fail(because(ErrLimit, "elements are nested deeper than %d", maxXMLDepth))
			}
			if len(e.Name.Local) > maxName {
				return nil, fail(because(ErrLimit, "the name of an element is longer than %d bytes", maxName))
			}
			path = append(path, e.Name.Local)
			isDatum = len(path) == 4 && path[3] == "Datum" && path[2] == "DataList" && path[1] == "Record3"
			if !isDatum {
				if d.elements++; d.elements > maxElements {
					return nil, fail(because(ErrLimit, "more than %d elements beside the data", maxElements))
				}
			}
			leaf.Reset()
			isLeaf = true
		case xml.CharData:
			if isLeaf {
				most := maxToken
				if isDatum {
					most = maxDatum
				}
				if leaf.Len()+len(e) > most {
					return nil, fail(because(ErrLimit, "the text of element %q is longer than %d bytes", path[len(path)-1], most))
				}
				leaf.Write(e)
			}
		case xml.EndElement:
			if len(path) == 0 || path[len(path)-1] != e.Name.Local {
				return nil, fail(because(ErrFormat, "element %q ends and is not open", clip(e.Name.Local)))
			}
			switch text := strings.TrimSpace(leaf.String()); {
			case !isLeaf || len(path) < 2:
			case isDatum:
				err = d.cell(text)
			default:
				err = d.leaf(strings.Join(path[1:], "/"), text)
			}
			if err != nil {
				return nil, fail(err)
			}
			path = path[:len(path)-1]
			isLeaf, isDatum = false, false
		}
	}
}

// cell takes the numbers of one cell, at most one for each axis.
func (d *x3pDocument) cell(text string) error {
	if d.datums == 0 {
		d.most = d.announced()
	}
	d.datums++
	switch {
	case d.most < 0 && d.datums > unannounced:
		return because(ErrLimit, "more than %d cells before their number is announced", unannounced)
	case d.most >= 0 && d.datums > d.most:
		return nil
	}
	d.datumStart = append(d.datumStart, int32(len(d.datum)))
	if text == "" {
		return nil
	}
	for rest, more := text, true; more; {
		var one string
		one, rest, more = strings.Cut(rest, ";")
		if len(d.datum)-int(d.datumStart[len(d.datumStart)-1]) == 3 {
			return because(ErrFormat, "point %d has more than 3 numbers", d.datums)
		}
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

// announced is the number of cells of the first layer as far as main.xml has said it, or -1.
func (d *x3pDocument) announced() int64 {
	if n, err := d.size("ListDimension"); err == nil {
		return int64(n)
	}
	x, err := d.size("MatrixDimension/SizeX")
	y, err2 := d.size("MatrixDimension/SizeY")
	if err != nil || err2 != nil {
		return -1
	}
	return int64(x) * int64(y)
}

// leaf takes one element without children.
func (d *x3pDocument) leaf(path, text string) error {
	if d.kept += len(path) + len(text); d.kept > maxKept {
		return because(ErrLimit, "more than %d bytes of text beside the data", maxKept)
	}
	if _, twice := d.value[path]; !twice {
		d.value[path] = text
	}
	if strings.HasPrefix(path, "Record2/") || path == "VendorSpecificID" || !strings.HasPrefix(path, "Record") {
		d.fields = append(d.fields, Field{path, text})
	}
	return nil
}
