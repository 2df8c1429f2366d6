package bundle

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
)

// What slim knows of Go's WebAssembly, as runtime/symtab.go, runtime/runtime2.go and internal/abi/symtab.go state it.
const (
	pcMagic   = "\xf1\xff\xff\xff\x00\x00\x01\x08" // CurrentPCLnTabMagic, 0, 0, PCQuantum and PtrSize start a pcHeader
	pcHeader  = 8 * 9                              // its size
	funcSize  = 44                                 // of a _func before its offsets of pcdata and funcdata
	bucket    = 20 * 16                            // of findfunctab, for each function
	neighbour = 16                                 // functions that findfunc looks at one by one, at most
)

// Only tracebacks read these, for their lines and arguments, and asynchronous preemption, which WebAssembly does not have.
var (
	unreadPCData   = []int{0, 3} // UnsafePoint, ArgLiveIndex
	unreadFuncData = []int{5, 6} // ArgInfo, ArgLiveInfo
)

var errOtherGo = errors.New("slim: the module is not as the Go version of this program makes it")

// slim returns the module with its data as one segment and without the tables of lines: a traceback still names its functions, but no file, line
// and argument. Packed, it is an eighth smaller. Every section but the data stays as it is.
func slim(module []byte) (out []byte, err error) {
	defer func() {
		if recover() != nil { // an offset that is outside of its table
			out, err = nil, errOtherGo
		}
	}()
	rest := module[8:] // magic and version
	out = append(out, module[:8]...)
	for len(rest) > 0 {
		whole, id := rest, rest[0]
		rest = rest[1:]
		size := take(&rest)
		section := rest[:size]
		rest = rest[size:]
		if id != 11 { // WebAssembly Core Specification, 5.5.14
			out = append(out, whole[:len(whole)-len(rest)]...)
			continue
		}
		start, image := memory(section)
		dropLines(start, image)
		data := binary.AppendUvarint([]byte{1, 0, 0x41}, uint64(start)) // one active segment at i32.const start
		if last := &data[len(data)-1]; *last >= 0x40 {                  // signed, it would be negative
			*last |= 0x80
			data = append(data, 0)
		}
		data = append(binary.AppendUvarint(append(data, 0x0b), uint64(len(image))), image...)
		out = append(binary.AppendUvarint(append(out, id), uint64(len(data))), data...)
	}
	return out, nil
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

// dropLines takes out of a module's memory what names the lines of its functions.
func dropLines(start int, image []byte) {
	word := func(at int) int { return int(binary.LittleEndian.Uint32(image[at:])) }
	put := func(at, v int) { binary.LittleEndian.PutUint32(image[at:], uint32(v)) }
	header := bytes.Index(image, []byte(pcMagic))
	first := binary.LittleEndian.AppendUint64(nil, uint64(start+header))
	first = binary.LittleEndian.AppendUint64(first, uint64(start+header+pcHeader))
	moduledata := bytes.Index(image, first)                          // starts with the addresses of the header and of its first table
	field := func(i int) int { return word(moduledata+8*i) - start } // of moduledata: an address
	for i := range 5 {                                               // funcnametab, cutab, filetab, pctab and pclntable: the header states them too
		if field(1+3*i) != header+word(header+32+8*i) {
			panic(errOtherGo)
		}
	}
	cutab, pctab, functab, findfunctab, functions := field(4), field(10), field(13), field(19), word(header+8)
	clear(image[cutab:pctab]) // and filetab behind it
	read := make([]byte, functab-pctab)
	keep := func(offset int) {
		if offset == 0 {
			return
		}
		table := image[pctab+offset : functab]
		rest := table
		for first := true; take(&rest) != 0 || first; first = false { // step of runtime/symtab.go
			take(&rest)
		}
		copy(read[offset:], table[:len(table)-len(rest)])
	}
	for i := range functions {
		f := functab + word(functab+8*i+4)
		put(f+20, 0)                        // pcfile
		put(f+24, 0)                        // pcln
		put(f+32, 0)                        // cuOffset
		put(f+36, 0)                        // startLine
		keep(word(f + 16))                  // pcsp
		data := f + funcSize + 4*word(f+28) // of funcdata, behind npcdata offsets of pcdata
		for _, k := range unreadPCData {
			if at := f + funcSize + 4*k; at < data {
				put(at, 0)
			}
		}
		for at := f + funcSize; at < data; at += 4 {
			keep(word(at))
		}
		for _, k := range unreadFuncData {
			if k < int(image[f+43]) { // nfuncdata
				put(data+4*k, -1)
			}
		}
		put(findfunctab+bucket*(word(functab+8*i)-word(functab)), i-i%neighbour)
	}
	copy(image[pctab:], read)
}
