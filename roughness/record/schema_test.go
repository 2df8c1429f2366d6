package record_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
)

// conforms checks a value against a JSON Schema, as far as furrow's own schemas use the language (draft 2020-12): a keyword it does
// not know is an error, so that a schema cannot quietly say more than is checked.
func conforms(root, schema map[string]any, v any, at string) error {
	for k, want := range schema {
		if err := keyword(root, schema, k, want, v, at); err != nil {
			return err
		}
	}
	return nil
}

func keyword(root, schema map[string]any, k string, want, v any, at string) error {
	fail := func(format string, args ...any) error { return fmt.Errorf("%s: %s", at, fmt.Sprintf(format, args...)) }
	num, isNum := v.(float64)
	obj, isObj := v.(map[string]any)
	list, isList := v.([]any)
	switch k {
	case "$schema", "$id", "title", "description", "$defs":
	case "$ref":
		target := any(root)
		for _, p := range strings.Split(strings.TrimPrefix(want.(string), "#/"), "/") {
			target = target.(map[string]any)[p]
		}
		return conforms(root, target.(map[string]any), v, at)
	case "anyOf":
		for _, s := range want.([]any) {
			if conforms(root, s.(map[string]any), v, at) == nil {
				return nil
			}
		}
		return fail("fits none of the alternatives")
	case "type":
		types, ok := want.([]any)
		if !ok {
			types = []any{want}
		}
		if !slices.ContainsFunc(types, func(t any) bool { return isType(v, t.(string)) }) {
			return fail("%v is not of type %v", v, want)
		}
	case "enum":
		if !slices.Contains(want.([]any), v) {
			return fail("%v is not one of %v", v, want)
		}
	case "minimum":
		if isNum && num < want.(float64) {
			return fail("%v < %v", num, want)
		}
	case "maximum":
		if isNum && num > want.(float64) {
			return fail("%v > %v", num, want)
		}
	case "exclusiveMinimum":
		if isNum && num <= want.(float64) {
			return fail("%v <= %v", num, want)
		}
	case "exclusiveMaximum":
		if isNum && num >= want.(float64) {
			return fail("%v >= %v", num, want)
		}
	case "minLength":
		if s, ok := v.(string); ok && len(s) < int(want.(float64)) {
			return fail("%q is too short", s)
		}
	case "minItems":
		if isList && len(list) < int(want.(float64)) {
			return fail("too few items")
		}
	case "maxItems":
		if isList && len(list) > int(want.(float64)) {
			return fail("too many items")
		}
	case "items":
		for i, item := range list {
			if err := conforms(root, want.(map[string]any), item, fmt.Sprintf("%s[%d]", at, i)); err != nil {
				return err
			}
		}
	case "required":
		for _, name := range want.([]any) {
			if _, has := obj[name.(string)]; isObj && !has {
				return fail("%v is missing", name)
			}
		}
	case "properties":
		for name, s := range want.(map[string]any) {
			if m, has := obj[name]; has {
				if err := conforms(root, s.(map[string]any), m, at+"."+name); err != nil {
					return err
				}
			}
		}
	case "additionalProperties":
		props, _ := schema["properties"].(map[string]any)
		for name, m := range obj {
			if _, known := props[name]; known {
				continue
			}
			if s, ok := want.(map[string]any); ok {
				if err := conforms(root, s, m, at+"."+name); err != nil {
					return err
				}
			} else if want == false {
				return fail("unexpected key %q", name)
			}
		}
	default:
		return fail("the checker does not know the keyword %q", k)
	}
	return nil
}

func isType(v any, t string) bool {
	switch t {
	case "null":
		return v == nil
	case "boolean":
		_, ok := v.(bool)
		return ok
	case "string":
		_, ok := v.(string)
		return ok
	case "number":
		_, ok := v.(float64)
		return ok
	case "integer":
		f, ok := v.(float64)
		return ok && f == math.Trunc(f)
	case "array":
		_, ok := v.([]any)
		return ok
	case "object":
		_, ok := v.(map[string]any)
		return ok
	}
	return false
}

func validate(schema string, document []byte) error {
	var s map[string]any
	var d any
	if err := json.Unmarshal([]byte(schema), &s); err != nil {
		return err
	}
	if err := json.Unmarshal(document, &d); err != nil {
		return err
	}
	return conforms(s, s, d, "document")
}
