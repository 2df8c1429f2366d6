package bundle

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"slices"
)

var errOtherGo = errors.New("slim: the module is not as the Go version of this program makes it")

// A section of a module. WebAssembly Core Specification, 5.5.
type section struct {
	id   byte
	data []byte
}

// slim returns the module with its data as one segment, without the tables of lines and of inlined calls, and with a start function that writes
// what follows from the rest of the tables of functions (unfold): a traceback still names the functions that named keeps, but no file, line and
// argument. Packed, it is a fifth smaller. What the compiler made of functions stays as it is.
func slim(module []byte) (out []byte, err error) {
	defer func() {
		if recover() != nil { // an offset that is outside of its table
			out, err = nil, errOtherGo
		}
	}()
	var all []section
	for rest := module[8:]; len(rest) > 0; { // behind magic and version
		s := section{id: rest[0]}
		rest = rest[1:]
		size := take(&rest)
		s.data, rest = rest[:size], rest[size:]
		all = append(all, s)
	}
	data := &all[slices.IndexFunc(all, func(s section) bool { return s.id == 11 })]
	start, image := memory(data.data)
	body := fold(start, image)
	data.data = append(signed([]byte{1, 0, 0x41}, start), 0x0b) // one active segment at i32.const start
	data.data = append(binary.AppendUvarint(data.data, uint64(len(image))), image...)
	out = append(out, module[:8]...)
	for _, s := range withStart(all, body) {
		out = append(binary.AppendUvarint(append(out, s.id), uint64(len(s.data))), s.data...)
	}
	return out, nil
}

// withStart adds a function without parameters and results that runs before any other.
func withStart(all []section, body []byte) []section {
	var types, imports, functions int // their numbers
	var out []section
	for _, s := range all {
		rest := s.data
		n := 0
		if s.id != 0 {
			n = take(&rest)
		}
		more := func(entry ...byte) {
			s.data = append(append(binary.AppendUvarint(nil, uint64(n+1)), rest...), entry...)
		}
		switch s.id {
		case 1:
			types = n
			more(0x60, 0, 0) // a function from nothing to nothing
		case 2:
			imports = n
			for range n {
				for range 2 { // of module and field
					size := take(&rest)
					rest = rest[size:]
				}
				if take(&rest) != 0 { // not a function
					panic(errOtherGo)
				}
				take(&rest)
			}
		case 3:
			functions = n
			more(binary.AppendUvarint(nil, uint64(types))...)
		case 8:
			panic(errOtherGo) // it has a start function
		case 9:
			out = append(out, section{8, binary.AppendUvarint(nil, uint64(imports+functions))})
		case 10:
			more(append(binary.AppendUvarint(nil, uint64(len(body))), body...)...)
		}
		out = append(out, s)
	}
	return out
}

// signed appends a number as signed LEB128.
func signed(b []byte, v int) []byte {
	for v < -0x40 || v >= 0x40 {
		b = append(b, byte(v)|0x80)
		v >>= 7
	}
	return append(b, byte(v)&0x7f)
}

// take returns the number in front, LEB128.
func take(b *[]byte) int {
	v, n := binary.Uvarint(*b)
	if n <= 0 || v > math.MaxUint32 {
		panic(errOtherGo)
	}
	*b = (*b)[n:]
	return int(v)
}

// memory joins the segments of a data section, of which the linker makes up to 100 000.
func memory(section []byte) (start int, image []byte) {
	start = math.MaxInt32
	segments := map[int][]byte{}
	for range take(&section) {
		if !bytes.HasPrefix(section, []byte{0, 0x41}) { // of memory 0, at i32.const
			panic(errOtherGo)
		}
		section = section[2:]
		at := take(&section)
		section = section[1:] // end
		size := take(&section)
		if uint64(at) > math.MaxInt32 {
			panic(errOtherGo)
		}
		segments[at], section = section[:size], section[size:]
		start = min(start, at)
	}
	for at, data := range segments {
		if missing := at + len(data) - start - len(image); missing > 0 {
			image = append(image, make([]byte, missing)...)
		}
		copy(image[at-start:], data)
	}
	return start, image
}
