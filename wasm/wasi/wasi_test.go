package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/record"
	"example.com/furrow/roughness/synth"
	"example.com/furrow/standards"
)

type answer struct {
	Caution string
	Result  json.RawMessage
	Error   struct{ Kind, Key, Text string }
}

// The module under node's own WASI: the result is that of the library, and what is wrong has its kind and place.
func TestNode(t *testing.T) {
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("node is missing")
	}
	module := filepath.Join(t.TempDir(), "furrow.wasm")
	build := exec.Command("go", "build", "-buildmode=c-shared", "-o", module, ".")
	build.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm", "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	ask := func(z []float64, spacing, settings string) (answer, int) {
		t.Helper()
		var heights, out, said bytes.Buffer
		if err := binary.Write(&heights, binary.LittleEndian, z); err != nil {
			t.Fatal(err)
		}
		node := exec.Command("node", "--no-warnings", "node.mjs", module, spacing, settings)
		node.Stdin, node.Stdout, node.Stderr = &heights, &out, &said
		err := node.Run()
		if exit := (*exec.ExitError)(nil); err != nil && !errors.As(err, &exit) {
			t.Fatal(err)
		}
		var a answer
		if err := json.Unmarshal(out.Bytes(), &a); err != nil || a.Caution != standards.Caution {
			t.Fatalf("%v in %q; %s", err, out.String(), said.String())
		}
		return a, node.ProcessState.ExitCode()
	}
	demo := synth.Demos()[0]
	z := demo.Heights()
	z[100] = math.NaN()
	for _, settings := range []string{"", `{"furrow_settings": 1, "edition": "iso-4287", "long": {"cutoff": 250}, "parameters": ["Ra", "Rz"]}`} {
		var set *roughness.Settings
		if settings != "" {
			var err error
			if set, err = record.ParseSettings([]byte(settings)); err != nil {
				t.Fatal(err)
			}
		}
		e, err := roughness.Evaluate(roughness.Profile{Z: z, Spacing: 0.5}, set)
		if err != nil {
			t.Fatal(err)
		}
		var want bytes.Buffer
		if err := json.Compact(&want, record.AppendResult(nil, e, nil)); err != nil {
			t.Fatal(err)
		}
		got, status := ask(z, "0.5", settings)
		if diff := differs(t, got.Result, want.Bytes()); status != 0 || diff != "" {
			t.Errorf("%s: status %d, %s", settings, status, diff)
		}
	}
	for _, tt := range []struct {
		z                                []float64
		spacing, settings, kind, key, is string
	}{
		{z, "0.5", `{"furrow_settings": 1, "long": {"cutoff": -1}}`, "settings", "", "cutoff"},
		{z, "0.5", `{"furrow_settings": 1, "parameters": ["Rx"]}`, "settings", "parameters[0]", "Rx"},
		{z, "0.5", `[`, "settings", "", ""},
		{z, "0", "", "trace", "", "spacing"},
		{nil, "0.5", "", "trace", "", "no point"},
		{z[:50], "0.5", "", "trace", "", "too short"},
	} {
		got, status := ask(tt.z, tt.spacing, tt.settings)
		if e := got.Error; status != 1 || e.Kind != tt.kind || !strings.Contains(e.Text, tt.is) || tt.key != "" && e.Key != tt.key || len(got.Result) > 0 {
			t.Errorf("%d points, %s, %s: %d, %+v", len(tt.z), tt.spacing, tt.settings, status, e)
		}
	}
}

// differs compares two results: everything must be equal but the last digits of numbers (1e-12 of the number).
func differs(t *testing.T, a, b []byte) string {
	t.Helper()
	var x, y any
	if json.Unmarshal(a, &x) != nil || json.Unmarshal(b, &y) != nil {
		return "no JSON in " + string(a)
	}
	return unlike("result", x, y)
}

func unlike(at string, a, b any) string {
	switch b := b.(type) {
	case map[string]any:
		a, ok := a.(map[string]any)
		if !ok || len(a) != len(b) {
			return at + " has other members"
		}
		for k, v := range b {
			if d := unlike(at+"."+k, a[k], v); d != "" {
				return d
			}
		}
		return ""
	case []any:
		a, ok := a.([]any)
		if !ok || len(a) != len(b) {
			return at + " has another length"
		}
		for i, v := range b {
			if d := unlike(at+"[]", a[i], v); d != "" {
				return d
			}
		}
		return ""
	case float64:
		if v, ok := a.(float64); ok && math.Abs(v-b) <= 1e-12*math.Max(math.Abs(b), 1e-3) {
			return ""
		}
	default:
		if a == b {
			return ""
		}
	}
	return at + " differs"
}
