package record

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A DocumentError says what is wrong with a JSON document of furrow, and where.
type DocumentError struct {
	Key          string // "long.cutoff"; empty where no key is concerned
	Line, Column int    // from 1; columns count characters
	Err          error
}

func (e *DocumentError) Error() string {
	if e.Key != "" {
		return fmt.Sprintf("record: line %d, column %d: %s: %v", e.Line, e.Column, e.Key, e.Err)
	}
	return fmt.Sprintf("record: line %d, column %d: %v", e.Line, e.Column, e.Err)
}

// Unwrap returns what is wrong.
func (e *DocumentError) Unwrap() error { return e.Err }

// A node is a JSON value that remembers where it stands, so that every refusal can name the place.
type node struct {
	offset int    // of the value
	end    int    // behind it
	key    string // full path
	value  any    // nil, bool, string, json.Number, []*node, *object or, for heights, []float64
}

type object struct {
	names  []string
	places []int // offset of each name
	fields map[string]*node
}

// Bounds of a document; furrow's own nest five deep and have a few kilobytes. They bound what an error quotes, too.
const (
	maxDepth    = 32
	maxDocument = 1 << 20 // bytes
	maxName     = 100     // characters of a key
	maxText     = 1000    // characters of a text
	maxNumber   = 400     // characters of a number
)

// parse reads one JSON document.
func parse(data []byte) (*node, error) {
	if len(data) > maxDocument {
		return nil, place(data, 0, "", fmt.Errorf("the document has more than %d bytes", maxDocument))
	}
	return read(data, maxText)
}

// parseLarge reads a document with heights, of any size.
func parseLarge(data []byte) (*node, error) { return read(data, maxDocument) }

// read reads one JSON document whose texts have at most some characters.
func read(data []byte, longest int) (*node, error) {
	if !utf8.Valid(data) {
		return nil, place(data, 0, "", errors.New("the text is not UTF-8"))
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	r := &reader{data: data, dec: json.NewDecoder(bytes.NewReader(data)), longest: longest}
	r.dec.UseNumber()
	n, err := r.value("", 0)
	if err != nil {
		return nil, err
	}
	rest := r.next()
	if _, err := r.dec.Token(); err != io.EOF {
		return nil, place(data, rest, "", errors.New("there is more after the end of the document"))
	}
	return n, nil
}

type reader struct {
	data    []byte
	dec     *json.Decoder
	longest int // characters of a text
}

// next is the offset of the token that comes next.
func (r *reader) next() int {
	i := int(r.dec.InputOffset())
	for i < len(r.data) && bytes.IndexByte([]byte(" \t\r\n,:"), r.data[i]) >= 0 {
		i++
	}
	return i
}

func (r *reader) token(at int) (json.Token, error) {
	t, err := r.dec.Token()
	if err == nil {
		return t, nil
	}
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		return nil, place(r.data, max(0, int(syntax.Offset)-1), "", errors.New(syntax.Error()))
	}
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		return nil, place(r.data, len(r.data), "", errors.New("the document ends too early"))
	}
	return nil, place(r.data, at, "", err)
}

func (r *reader) value(key string, depth int) (*node, error) {
	n := &node{offset: r.next(), key: key}
	defer func() { n.end = int(r.dec.InputOffset()) }()
	if depth > maxDepth {
		return nil, place(r.data, n.offset, key, errors.New("nested too deeply"))
	}
	t, err := r.token(n.offset)
	if err != nil {
		return nil, err
	}
	switch t {
	case json.Delim('{'):
		o := &object{fields: map[string]*node{}}
		for r.dec.More() {
			at := r.next()
			t, err := r.token(at)
			if err != nil {
				return nil, err
			}
			name := t.(string)
			if utf8.RuneCountInString(name) > maxName {
				return nil, place(r.data, at, key, fmt.Errorf("a key of more than %d characters", maxName))
			}
			path := name
			if key != "" {
				path = key + "." + name
			}
			if o.fields[name] != nil {
				return nil, place(r.data, at, path, errors.New("stands twice"))
			}
			f, err := r.value(path, depth+1)
			if err != nil {
				return nil, err
			}
			o.names, o.places, o.fields[name] = append(o.names, name), append(o.places, at), f
		}
		n.value = o
	case json.Delim('['):
		if strings.HasPrefix(key, "heights[") {
			z, err := r.heights(key)
			if err != nil {
				return nil, err
			}
			n.value = z
			break
		}
		list := []*node{}
		for r.dec.More() {
			v, err := r.value(key+"["+strconv.Itoa(len(list))+"]", depth+1)
			if err != nil {
				return nil, err
			}
			list = append(list, v)
		}
		n.value = list
	default:
		switch t := t.(type) {
		case string:
			if utf8.RuneCountInString(t) > r.longest {
				return nil, place(r.data, n.offset, key, fmt.Errorf("a text of more than %d characters", r.longest))
			}
		case json.Number:
			if len(t) > maxNumber {
				return nil, place(r.data, n.offset, key, fmt.Errorf("a number of more than %d characters", maxNumber))
			}
		}
		n.value = t
		return n, nil
	}
	if _, err := r.token(r.next()); err != nil {
		return nil, err
	}
	return n, nil
}

// heights reads the numbers of a list, null for an invalid point, without a node for each.
func (r *reader) heights(key string) ([]float64, error) {
	z := []float64{}
	for r.dec.More() {
		at := r.next()
		t, err := r.token(at)
		if err != nil {
			return nil, err
		}
		v := math.NaN()
		if t != nil {
			if v, err = asNumber(&node{value: t}); err != nil {
				return nil, place(r.data, at, key+"["+strconv.Itoa(len(z))+"]", err)
			}
		}
		z = append(z, v)
	}
	return z, nil
}

// place makes an *Error of an offset.
func place(data []byte, offset int, key string, err error) *DocumentError {
	offset = min(offset, len(data))
	before := data[:offset]
	line := 1 + bytes.Count(before, []byte("\n"))
	column := 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	return &DocumentError{Key: key, Line: line, Column: column, Err: err}
}

// Locate returns the line and column, from 1, of the value of a key such as "long.cutoff" or "parameters[1]" in a JSON document, or of
// the nearest value around it that exists.
func Locate(data []byte, key string) (line, column int) {
	root, err := parse(data)
	if err != nil {
		return 1, 1
	}
	best := root
	var walk func(*node)
	walk = func(n *node) {
		if n.key == key || len(n.key) > len(best.key) && len(n.key) < len(key) && key[:len(n.key)] == n.key && (key[len(n.key)] == '.' || key[len(n.key)] == '[') {
			best = n
		}
		switch v := n.value.(type) {
		case *object:
			for _, name := range v.names {
				walk(v.fields[name])
			}
		case []*node:
			for _, c := range v {
				walk(c)
			}
		}
	}
	walk(root)
	e := place(data, best.offset, "", nil)
	return e.Line, e.Column
}
