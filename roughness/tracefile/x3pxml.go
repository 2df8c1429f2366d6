package tracefile

import (
	"bufio"
	"encoding/xml"
	"errors"
	"io"
	"slices"
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

// xmlBytes gives main.xml to the decoder byte by byte, as the decoder takes them, and stops what one token may not take.
type xmlBytes struct {
	in      *bufio.Reader
	since   int    // bytes since the last token
	western bool   // Windows-1252, to be turned into UTF-8
	rest    []byte // of a character
	ended   bool
}

func (x *xmlBytes) ReadByte() (byte, error) {
	if len(x.rest) == 0 {
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
		if err != nil || !x.western || c < utf8.RuneSelf {
			return c, err
		}
		x.rest = utf8.AppendRune(nil, fromByte1252(c))
	}
	c := x.rest[0]
	x.rest = x.rest[1:]
	return c, nil
}

func (x *xmlBytes) Read(p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	c, err := x.ReadByte()
	if err != nil {
		return 0, err
	}
	p[0] = c
	return 1, nil
}

// parseMain reads main.xml leniently as it is unpacked: order and unknown elements do not matter, the namespace neither.
func (t *Trace) parseMain(main io.Reader) (*x3pDocument, error) {
	d := &x3pDocument{Trace: t, value: map[string]string{}}
	in := &xmlBytes{in: bufio.NewReaderSize(main, 1<<16)}
	dec := xml.NewDecoder(in)
	dec.CharsetReader = func(charset string, _ io.Reader) (io.Reader, error) {
		switch strings.ToLower(charset) {
		case "iso-8859-1", "latin1", "windows-1252":
			in.western = true
		case "us-ascii", "utf8":
		default:
			return nil, because(ErrFormat, "encoding %q is not read", clip(charset))
		}
		return in, nil
	}
	for {
		in.since = 0
		token, err := dec.RawToken()
		placed := errors.Is(err, ErrLimit) || errors.Is(err, ErrTruncated) || errors.Is(err, ErrFormat)
		switch {
		case err == io.EOF && len(d.path) == 0:
			if err := d.understand(); err != nil {
				return nil, because(err, "main.xml: %v", err)
			}
			return d, nil
		case err == io.EOF:
			err = because(ErrTruncated, "element %q is not closed", clip(d.path[len(d.path)-1]))
		case err != nil && !placed && in.ended:
			err = because(ErrTruncated, "%v", err)
		case err != nil && !placed:
			err = because(ErrFormat, "%v", err)
		case err == nil:
			err = d.token(token)
		}
		if err != nil {
			line, column := dec.InputPos()
			return nil, &Error{Line: line, Column: column, Err: because(err, "main.xml: %v", err)}
		}
	}
}

// token takes one token.
func (d *x3pDocument) token(token xml.Token) error {
	switch e := token.(type) {
	case xml.Directive:
		return because(ErrFormat, "main.xml declares a document type or entities, which are not read")
	case xml.StartElement:
		if len(d.path) >= maxXMLDepth {
			return because(ErrLimit, "elements are nested deeper than %d", maxXMLDepth)
		}
		if len(e.Name.Local) > maxName {
			return because(ErrLimit, "the name of an element is longer than %d bytes", maxName)
		}
		d.path = append(d.path, e.Name.Local)
		d.isLeaf, d.isDatum = true, len(d.path) == 4 && slices.Equal(d.path[1:], []string{"Record3", "DataList", "Datum"})
		if !d.isDatum {
			if d.elements++; d.elements > maxElements {
				return because(ErrLimit, "more than %d elements beside the data", maxElements)
			}
		}
		d.text.Reset()
	case xml.CharData:
		most := maxToken
		if d.isDatum {
			most = maxDatum
		}
		switch {
		case !d.isLeaf:
		case d.text.Len()+len(e) > most:
			return because(ErrLimit, "the text of element %q is longer than %d bytes", d.path[len(d.path)-1], most)
		default:
			d.text.Write(e)
		}
	case xml.EndElement:
		if len(d.path) == 0 || d.path[len(d.path)-1] != e.Name.Local {
			return because(ErrFormat, "element %q ends and is not open", clip(e.Name.Local))
		}
		var err error
		switch text := strings.TrimSpace(d.text.String()); {
		case !d.isLeaf || len(d.path) < 2:
		case d.isDatum:
			err = d.cell(text)
		default:
			err = d.leaf(strings.Join(d.path[1:], "/"), text)
		}
		d.path = d.path[:len(d.path)-1]
		d.isLeaf, d.isDatum = false, false
		return err
	}
	return nil
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
	from := len(d.datum)
	d.datumStart = append(d.datumStart, int32(from))
	if text == "" {
		return nil
	}
	for one := range strings.SplitSeq(text, ";") {
		if len(d.datum)-from == 3 {
			return because(ErrFormat, "point %d has more than 3 numbers", d.datums)
		}
		v, err := storedNumber(strings.TrimSpace(one))
		if err != nil {
			return err
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
		d.Fields = append(d.Fields, Field{path, text})
	}
	return nil
}
