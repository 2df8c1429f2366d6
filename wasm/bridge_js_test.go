package main

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/hack-pad/safejs"
)

// call exports f and calls it as a script would.
func call(t *testing.T, f func(m *module, text string, data []byte) (answer, error), args ...any) safejs.Value {
	t.Helper()
	wrapped, err := export(&module{}, function{"f", f})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(wrapped.Release)
	reply, err := wrapped.Value().Invoke(args...)
	if err != nil {
		t.Fatal(err)
	}
	return reply
}

func get(t *testing.T, v safejs.Value, names ...string) safejs.Value {
	t.Helper()
	for _, n := range names {
		next, err := v.Get(n)
		if err != nil {
			t.Fatal(err)
		}
		v = next
	}
	return v
}

func text(t *testing.T, v safejs.Value) string {
	t.Helper()
	s, err := v.String()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Heights cross both ways without losing a bit, also from the middle of a buffer, and NaN stays NaN.
func TestArraysCross(t *testing.T) {
	z := []float64{1, -2.5, math.NaN(), math.Pi, math.Inf(-1)}
	there, err := arrayOf(z)
	if err != nil {
		t.Fatal(err)
	}
	part, err := there.Call("subarray", 1, 4)
	if err != nil {
		t.Fatal(err)
	}
	reply := call(t, func(_ *module, text string, data []byte) (answer, error) {
		back, err := heights(data)
		return answer{text: text, arrays: []array{{"z", back}, {"none", nil}}}, err
	}, "µ≤", part)
	if got := text(t, get(t, reply, "value", "text")); got != "µ≤" {
		t.Errorf("text %q", got)
	}
	data, err := bytesOf(get(t, reply, "value", "arrays", "z"))
	if err != nil {
		t.Fatal(err)
	}
	back, err := heights(data)
	if err != nil || len(back) != 3 || back[0] != -2.5 || !math.IsNaN(back[1]) || back[2] != math.Pi {
		t.Errorf("%v, %v", back, err)
	}
	if !get(t, reply, "value", "arrays", "none").IsUndefined() {
		t.Error("a profile that does not exist came across")
	}
}

// A panic becomes an answer, and the module lives on.
func TestPanicIsAnAnswer(t *testing.T) {
	for range 2 {
		reply := call(t, func(*module, string, []byte) (answer, error) { panic("on purpose") })
		if got := text(t, get(t, reply, "error")); !strings.Contains(got, `"kind":"internal"`) || !strings.Contains(got, "on purpose") {
			t.Errorf("error %s", got)
		}
		if !get(t, reply, "value").IsUndefined() {
			t.Error("a value beside the error")
		}
	}
}

func TestErrorIsAnAnswer(t *testing.T) {
	reply := call(t, func(*module, string, []byte) (answer, error) {
		return answer{}, &fault{Kind: kindTrace, Message: "no", Line: 3, Column: 4}
	})
	if got := text(t, get(t, reply, "error")); got != `{"kind":"trace","message":"no","line":3,"column":4}` {
		t.Errorf("error %s", got)
	}
	reply = call(t, func(*module, string, []byte) (answer, error) { return answer{}, errors.New("plain") })
	if got := text(t, get(t, reply, "error")); !strings.Contains(got, "plain") {
		t.Errorf("error %s", got)
	}
}

// Arguments of any kind are taken or refused, never a crash.
func TestStrangeArguments(t *testing.T) {
	echo := func(_ *module, text string, _ []byte) (answer, error) { return answer{text: text}, nil }
	for _, args := range [][]any{{}, {1}, {nil}, {"a", 1}, {"a", map[string]any{}}, {"a", nil, "b"}} {
		reply := call(t, echo, args...)
		if get(t, reply, "value").IsUndefined() && get(t, reply, "error").IsUndefined() {
			t.Errorf("%v: neither value nor error", args)
		}
	}
}

// What is larger than can be read is refused before it is copied: the array here only says that it is.
func TestTooLarge(t *testing.T) {
	reply := call(t, func(*module, string, []byte) (answer, error) { return answer{}, nil }, "", map[string]any{"byteOffset": 0, "byteLength": 3 << 30})
	if got := text(t, get(t, reply, "error")); !strings.Contains(got, `"kind":"file"`) || !strings.Contains(got, "larger than the 536 MB") {
		t.Errorf("error %s", got)
	}
}

// register gives the whole table to the waiting callback.
func TestRegister(t *testing.T) {
	var got safejs.Value
	wait, err := safejs.FuncOf(func(_ safejs.Value, args []safejs.Value) any {
		got = args[0]
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	defer wait.Release()
	if err := safejs.Global().Set(registrationName, wait); err != nil {
		t.Fatal(err)
	}
	defer safejs.Global().Delete(registrationName)
	if err := register(&module{}); err != nil {
		t.Fatal(err)
	}
	for _, f := range functions {
		if get(t, got, f.name).Type() != safejs.TypeFunction {
			t.Errorf("%s is not registered", f.name)
		}
	}
}
