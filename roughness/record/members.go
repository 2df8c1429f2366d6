package record

import (
	"reflect"
	"strconv"
	"strings"

	"example.com/furrow/standards"
)

// A member is one of an object that is written and read again: its key, and where its value stands.
type member struct {
	key string
	at  any // *string, *float64, *int, *int64, *bool, *[]string, or a pointer to a named string of standards
}

// raw is JSON that is written as it stands.
type raw string

// text is the JSON of a value, or of what a pointer leads to.
func text(v any) string {
	switch v := v.(type) {
	case nil:
		return "null"
	case raw:
		return string(v)
	case []byte:
		return string(v)
	case []string:
		return string(inline(v, func(s string) any { return s }))
	case []float64:
		return string(inline(v, func(x float64) any { return x }))
	case *[]string:
		return text(*v)
	}
	switch x := reflect.Indirect(reflect.ValueOf(v)); x.Kind() {
	case reflect.String:
		return quote(x.String())
	case reflect.Float64:
		return number(x.Float())
	case reflect.Int, reflect.Int64:
		return strconv.FormatInt(x.Int(), 10)
	case reflect.Bool:
		return strconv.FormatBool(x.Bool())
	}
	panic("record: no JSON is known for a value of this kind")
}

// line is an object on one line, of keys and values in turn.
func line(pairs ...any) raw {
	b := []byte("{")
	for i := 0; i < len(pairs); i += 2 {
		if i > 0 {
			b = append(b, ", "...)
		}
		b = append(append(append(b, quote(pairs[i].(string))...), ": "...), text(pairs[i+1])...)
	}
	return raw(append(b, '}'))
}

// list is a list with an item a line, behind an indent.
func list[T any](items []T, indent string, item func(T) any) raw {
	b := []byte{'['}
	for i, x := range items {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(b, "\n  "+indent...), text(item(x))...)
	}
	if len(items) > 0 {
		b = append(b, "\n "+indent...)
	}
	return raw(append(b, ']'))
}

// inline is a list on one line.
func inline[T any](items []T, item func(T) any) raw {
	texts := make([]string, len(items))
	for i, x := range items {
		texts[i] = text(item(x))
	}
	return raw("[" + strings.Join(texts, ", ") + "]")
}

// same is an item as it stands.
func same[T any](x T) any { return x }

// orNull is text, and null without any.
func orNull[T ~string](s T) any {
	if s == "" {
		return nil
	}
	return s
}

// pairs are the keys and values of members.
func pairs(list []member) []any {
	var all []any
	for _, m := range list {
		all = append(all, m.key, m.at)
	}
	return all
}

// take reads members.
func (f *fields) take(list []member) {
	for _, m := range list {
		switch p := m.at.(type) {
		case *string:
			f.text(m.key, p)
		case *standards.EditionID:
			f.text(m.key, (*string)(p))
		case *standards.Basis:
			f.text(m.key, (*string)(p))
		case *bool:
			f.boolean(m.key, p)
		case *float64:
			f.number(m.key, p)
		case *int:
			f.integer(m.key, p)
		case *int64:
			f.bytes(m.key, p)
		case *[]string:
			*p = f.texts(m.key)
		}
	}
}
