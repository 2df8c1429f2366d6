package main

import (
	"runtime"
	"unsafe"
)

// lent are the blocks of memory that the host holds, by address.
var lent = map[uint32][]byte{}

// said is the answer of the latest call, of which the host reads a copy.
var said []byte

// alloc lends the host a block of so many bytes, at an address divisible by 8, until free. 0 means that there is none.
//
//go:wasmexport furrow_alloc
func alloc(size uint32) uint32 {
	if size == 0 || size > mostBytes {
		return 0
	}
	block := unsafe.Slice((*byte)(unsafe.Pointer(unsafe.SliceData(make([]float64, (size+7)/8)))), size)
	at := address(block)
	lent[at] = block
	return at
}

// free takes a block back. An address that is none does nothing.
//
//go:wasmexport furrow_free
func free(at uint32) { delete(lent, at) }

// version is the number of this interface: a host that knows another one must not go on.
//
//go:wasmexport furrow_version
func version() uint32 { return interfaceVersion }

// evaluateHeights evaluates the heights at an address with the settings at another, and returns 0 when there is an evaluation and 1 when there
// is an error. Either is then the answer.
//
//go:wasmexport furrow_evaluate
func evaluateHeights(heights, points uint32, spacing float64, settings, length uint32) uint32 {
	z, ok := block(heights, 8*uint64(points))
	text, also := block(settings, uint64(length))
	if !ok || !also {
		said = failure("memory", "heights and settings must lie in blocks that furrow_alloc has lent")
		return 1
	}
	var numbers []float64
	if points > 0 {
		numbers = unsafe.Slice((*float64)(unsafe.Pointer(unsafe.SliceData(z))), points)
	}
	var failed bool
	said, failed = evaluate(numbers, spacing, text)
	runtime.KeepAlive(z)
	if failed {
		return 1
	}
	return 0
}

// answerAt is the address of the answer of the latest call, good until the next one.
//
//go:wasmexport furrow_answer
func answerAt() uint32 { return address(said) }

// answerLength is its length in bytes.
//
//go:wasmexport furrow_answer_length
func answerLength() uint32 { return uint32(len(said)) }

func address(b []byte) uint32 { return uint32(uintptr(unsafe.Pointer(unsafe.SliceData(b)))) }

// block returns the first bytes of a block that was lent; nothing lies anywhere.
func block(at uint32, size uint64) ([]byte, bool) {
	if size == 0 {
		return nil, true
	}
	b := lent[at]
	if uint64(len(b)) < size {
		return nil, false
	}
	return b[:size], true
}
