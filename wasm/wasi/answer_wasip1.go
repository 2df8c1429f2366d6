package main

import (
	"encoding/json"
	"errors"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/standards"
)

const (
	interfaceVersion = 1
	mostBytes        = 1 << 30
)

// evaluate answers a call, in JSON.
func evaluate(z []float64, spacing float64, settings []byte) (answer []byte, failed bool) {
	var s *roughness.Settings
	var err error
	if len(settings) > 0 {
		if s, err = record.ParseSettings(settings); err != nil {
			return errorOf(err), true
		}
	}
	e, err := roughness.Evaluate(roughness.Profile{Z: z, Spacing: spacing}, s)
	if err != nil {
		return errorOf(err), true
	}
	return encode(map[string]any{"caution": standards.Caution, "result": json.RawMessage(record.AppendResult(nil, e, nil))}), false
}

// errorOf is an error as an answer.
func errorOf(err error) []byte {
	kind, key := "trace", ""
	if setting := (*roughness.SettingError)(nil); errors.As(err, &setting) {
		kind, key = "settings", setting.Key
	} else if trace := (*roughness.ProfileError)(nil); !errors.As(err, &trace) {
		kind = "settings"
	}
	return failureAt(kind, key, err.Error())
}

func failure(kind, text string) []byte { return failureAt(kind, "", text) }

func failureAt(kind, key, text string) []byte {
	said := map[string]any{"kind": kind, "text": text}
	if key != "" {
		said["key"] = key
	}
	return encode(map[string]any{"caution": standards.Caution, "error": said})
}

// encode cannot fail on what is encoded here.
func encode(v any) []byte {
	b, err := json.Marshal(v)
	if err != nil {
		panic("wasi: " + err.Error())
	}
	return b
}
