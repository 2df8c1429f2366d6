package record

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// fields reads the members of an object one by one; the first fault is kept, and unknown names are faults.
type fields struct {
	data  []byte
	obj   *object
	node  *node
	known []string
	err   error
}

func (f *fields) fail(n *node, format string, args ...any) {
	if f.err == nil {
		f.err = place(f.data, n.offset, n.key, fmt.Errorf(format, args...))
	}
}

// open returns the members of n, which must be an object.
func open(data []byte, n *node) *fields {
	f := &fields{data: data, node: n}
	o, ok := n.value.(*object)
	if !ok {
		f.obj = &object{fields: map[string]*node{}}
		f.fail(n, "must be an object in braces")
		return f
	}
	f.obj = o
	return f
}

// close returns the first fault, counting names that nothing asked for.
func (f *fields) close() error {
	if f.err != nil {
		return f.err
	}
	for i, name := range f.obj.names {
		if !slices.Contains(f.known, name) {
			key := f.obj.fields[name].key
			return place(f.data, f.obj.places[i], key, fmt.Errorf("no such key; there are %s", strings.Join(f.known, ", ")))
		}
	}
	return nil
}

func (f *fields) get(name string) *node {
	f.known = append(f.known, name)
	return f.obj.fields[name]
}

func (f *fields) text(name string, dst *string) {
	if n := f.get(name); n != nil {
		s, ok := n.value.(string)
		if !ok {
			f.fail(n, "must be text in quotes")
			return
		}
		*dst = s
	}
}

func (f *fields) boolean(name string, dst *bool) {
	if n := f.get(name); n != nil {
		b, ok := n.value.(bool)
		if !ok {
			f.fail(n, "must be true or false")
			return
		}
		*dst = b
	}
}

var errNumber = errors.New("must be a number")

func asNumber(n *node) (float64, error) {
	t, ok := n.value.(json.Number)
	if !ok {
		return 0, errNumber
	}
	v, err := strconv.ParseFloat(string(t), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, fmt.Errorf("the number %s is out of range", t)
	}
	return v, nil
}

func (f *fields) number(name string, dst *float64) {
	if n := f.get(name); n != nil {
		v, err := asNumber(n)
		if err != nil {
			f.fail(n, "%w", err)
			return
		}
		*dst = v
	}
}

// positive reads a length that must be above 0: the settings keep 0 for "not given".
func (f *fields) positive(name string, dst *float64) {
	f.number(name, dst)
	if n := f.obj.fields[name]; n != nil && f.err == nil && !(*dst > 0) {
		f.fail(n, "must be a number above 0")
	}
}

func (f *fields) integer(name string, dst *int) {
	if n := f.get(name); n != nil {
		v, err := asNumber(n)
		if err == nil && (v != math.Trunc(v) || math.Abs(v) > 1e9) {
			err = errors.New("must be a whole number")
		}
		if err != nil {
			f.fail(n, "%w", err)
			return
		}
		*dst = int(v)
	}
}

// bytes reads a number of bytes.
func (f *fields) bytes(name string, dst *int64) {
	size := 0.0
	if f.number(name, &size); size < 0 || size > 1<<52 || size != math.Trunc(size) {
		f.fail(f.node, "the size %g is not a number of bytes", size)
	}
	*dst = int64(size)
}

func (f *fields) list(name string) []*node {
	n := f.get(name)
	if n == nil {
		return nil
	}
	l, ok := n.value.([]*node)
	if !ok {
		f.fail(n, "must be a list in brackets")
	}
	return l
}

// version checks the number that names the JSON shape.
func (f *fields) version(name string, newest int) {
	v := newest
	f.integer(name, &v)
	if n := f.obj.fields[name]; n != nil && f.err == nil && (v < 1 || v > newest) {
		f.fail(n, "version %d is not known here; the newest is %d", v, newest)
	}
}
