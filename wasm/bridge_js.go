package main

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"

	"example.com/furrow/roughness/tracefile"
	"github.com/hack-pad/safejs"
)

// export makes a JavaScript function of f. A Go panic or an answer that cannot be converted would end the module for
// good while the caller saw undefined; so the answer is put into an object here, inside the recover.
func export(m *module, f function) (safejs.Func, error) {
	return safejs.FuncOf(func(_ safejs.Value, args []safejs.Value) (out any) {
		reply, err := newObject()
		if err != nil {
			return safejs.Null()
		}
		defer func() {
			if r := recover(); r != nil {
				out = refuse(reply, &fault{Kind: kindInternal, Message: fmt.Sprint("furrow: ", r)})
			}
		}()
		text, data, handle, err := arguments(args)
		if refused, ok := errors.AsType[*fault](err); ok {
			return refuse(reply, refused)
		}
		if err != nil {
			return refuse(reply, &fault{Kind: kindInternal, Message: "furrow: " + f.name + ": " + err.Error()})
		}
		answer, err := m.call(f, handle, text, data)
		if err != nil {
			return refuse(reply, faultOf(err))
		}
		if err := answer.put(reply); err != nil {
			return refuse(reply, &fault{Kind: kindInternal, Message: "furrow: " + f.name + ": " + err.Error()})
		}
		return reply
	})
}

func newObject() (safejs.Value, error) { return newOf("Object") }

func newOf(class string, args ...any) (safejs.Value, error) {
	c, err := safejs.Global().Get(class)
	if err != nil {
		return safejs.Value{}, err
	}
	return c.New(args...)
}

// arguments are the JSON text of a call and, where there are any, the bytes of a typed array and the number of an evaluation.
func arguments(args []safejs.Value) (text string, data []byte, handle int, err error) {
	if len(args) > 0 && args[0].Type() == safejs.TypeString {
		if text, err = args[0].String(); err != nil {
			return "", nil, 0, err
		}
	}
	if len(args) > 1 && args[1].Type() == safejs.TypeObject {
		if data, err = bytesOf(args[1]); err != nil {
			return "", nil, 0, err
		}
	}
	if len(args) > 2 && args[2].Type() == safejs.TypeNumber {
		handle, err = args[2].Int()
	}
	return text, data, handle, err
}

// bytesOf copies what a typed array holds, through a view of bytes, because only bytes cross in one piece.
func bytesOf(array safejs.Value) ([]byte, error) {
	buffer, err := array.Get("buffer")
	if err != nil {
		return nil, err
	}
	var place [2]int
	for i, name := range []string{"byteOffset", "byteLength"} {
		v, err := array.Get(name)
		if err != nil {
			return nil, err
		}
		if place[i], err = v.Int(); err != nil {
			return nil, err
		}
	}
	if err := tracefile.CheckSize(int64(place[1])); err != nil { // before there is a copy
		return nil, traceFault(err)
	}
	view, err := newOf("Uint8Array", buffer, place[0], place[1])
	if err != nil {
		return nil, err
	}
	data := make([]byte, place[1])
	n, err := safejs.CopyBytesToGo(data, view)
	if err == nil && n != len(data) {
		err = errors.New("the array changed while it was read")
	}
	return data, err
}

// arrayOf copies heights into a new Float64Array.
func arrayOf(z []float64) (safejs.Value, error) {
	array, err := newOf("Float64Array", len(z))
	if err != nil {
		return safejs.Value{}, err
	}
	buffer, err := array.Get("buffer")
	if err != nil {
		return safejs.Value{}, err
	}
	data := make([]byte, 0, 8*min(len(z), 1<<16)) // a piece at a time: the heights of a big file are there only once
	for at := 0; at < len(z); at += 1 << 16 {
		data = data[:0]
		for _, v := range z[at:min(len(z), at+1<<16)] {
			data = binary.LittleEndian.AppendUint64(data, math.Float64bits(v))
		}
		view, err := newOf("Uint8Array", buffer, 8*at, len(data))
		if err != nil {
			return safejs.Value{}, err
		}
		if _, err := safejs.CopyBytesToJS(view, data); err != nil {
			return safejs.Value{}, err
		}
	}
	return array, nil
}

// put sets reply.value to {text, arrays}.
func (a answer) put(reply safejs.Value) error {
	value, err := newObject()
	if err != nil {
		return err
	}
	arrays, err := newObject()
	if err != nil {
		return err
	}
	for _, x := range a.arrays {
		if x.z == nil {
			continue // a profile that the settings do not produce
		}
		array, err := arrayOf(x.z)
		if err != nil {
			return err
		}
		if err := arrays.Set(x.name, array); err != nil {
			return err
		}
	}
	if err := value.Set("text", a.text); err != nil {
		return err
	}
	if err := value.Set("arrays", arrays); err != nil {
		return err
	}
	return reply.Set("value", value)
}

// refuse makes reply carry an error; if even that fails, the script sees null.
func refuse(reply safejs.Value, f *fault) any {
	if err := reply.Set("error", jsonText(f)); err != nil {
		return safejs.Null()
	}
	return reply
}
