package bundle

import (
	"bytes"
	"encoding/binary"
	"math"
	"slices"
	"strconv"
	"strings"
)

// What fold knows of Go's tables of functions, as runtime/symtab.go, runtime/runtime2.go and internal/abi/symtab.go state them.
const (
	pcMagic  = "\xf1\xff\xff\xff\x00\x00\x01\x08" // CurrentPCLnTabMagic, 0, 0, PCQuantum and PtrSize start a pcHeader
	pcHeader = 8 * 9                              // its size
	funcSize = 44                                 // of a _func before its offsets of pcdata and funcdata
	bucket   = 20 * 16                            // of findfunctab, for each function
)

// Only tracebacks read these, for their lines, arguments and inlined calls, the execution tracer, and asynchronous preemption, which WebAssembly
// does not have. recover reads the trees of inlined calls too: without them it takes a helper that is inlined in a deferred function for that
// function, so that it may return a panic where it would return nil, never the other way round.
var (
	unreadPCData   = []int{0, 2, 3}    // UnsafePoint, InlTreeIndex, ArgLiveIndex
	unreadFuncData = []int{3, 5, 6, 7} // InlTree, ArgInfo, ArgLiveInfo, WrapInfo
)

// The start function, which writes in memory what fold leaves out. The code is that of WebAssembly, each instruction with its immediate; a local
// is an address but for entry, and what begins with a capital letter is a number that fold states. The functions, their names and their tables of
// program counters follow each other without a gap:
//
//	for each row of functab, with f = its _func
//		row.entryoff, row.funcoff = entry, f - FUNCTAB
//		f.entryOff, f.nameOff = entry, name - NAMES
//		findfunctab's bucket of entry = the number of the row
//		name = behind the next zero
//		for each offset of a table that is not 0, of pcsp and of pcdata
//			it = table - TABLES
//			table = behind its end: pairs of varints, then a zero
//		f = behind its funcdata, on a multiple of 8
const unfold = `
const FUNCTAB set row const FUNC set f const ENTRY set entry const NAME set name const TABLE set table const BUCKETS set bucket
loop
	get row get entry store 0
	get row get f const FUNCTAB sub store 4
	get f get entry store 0
	get f get name const NAMES sub store 4
	get bucket get entry const ENTRY sub store 0
	loop get name load8 0 get name const 1 add set name br_if 0 end
	get f const 16 add set at
	loop
		get at load 0
		if
			get at get table const TABLES sub store 0
			loop
				loop get table load8 0 get table const 1 add set table const 128 ge br_if 0 end
				loop get table load8 0 get table const 1 add set table const 128 ge br_if 0 end
				get table load8 0 br_if 0
			end
			get table const 1 add set table
		end
		get f const 44 add
		get at const 4 add
		get at get f const 16 add eq
		select set at
		get at get f const 44 add get f load 28 const 2 shl add lt br_if 0
	end
	get at get f load8 43 const 2 shl add const 7 add const -8 and set f
	get bucket const 320 add set bucket
	get entry const 1 add set entry
	get row const 8 add set row
	get row const END lt br_if 0
end
end`

// The instructions of unfold, with the alignment of loads and stores.
var instructions = map[string]string{
	"loop": "\x03\x40", "if": "\x04\x40", "end": "\x0b", "br_if": "\x0d", "select": "\x1b", "get": "\x20", "set": "\x21", "load": "\x28\x00",
	"load8": "\x2d\x00", "store": "\x36\x00", "const": "\x41", "eq": "\x46", "lt": "\x49", "ge": "\x4f", "add": "\x6a", "sub": "\x6b", "and": "\x71", "shl": "\x74",
}

// assemble32 returns the body of a function whose locals are all i32.
func assemble32(text string, numbers map[string]int) []byte {
	var code []byte
	var locals []string
	for _, word := range strings.Fields(text) {
		if op, ok := instructions[word]; ok {
			code = append(code, op...)
			continue
		}
		v, known := numbers[word]
		n, err := strconv.Atoi(word)
		switch {
		case err == nil:
			v = n
		case !known:
			if v = slices.Index(locals, word); v < 0 {
				v, locals = len(locals), append(locals, word)
			}
		}
		code = signed(code, v) // those of get, set, load and store are below 64, where signed and unsigned are the same
	}
	return append([]byte{1, byte(len(locals)), 0x7f}, code...)
}

// fold takes out of a module's memory what only tracebacks read, and what the start function writes, whose body it returns.
func fold(start int, image []byte) []byte {
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
	names, cutab, pctab, functab, buckets, gofunc, functions := field(1), field(4), field(10), field(13), field(19), field(40), word(header+8)
	var newNames, newTables []byte
	read := make([]bool, buckets-gofunc) // the bytes of funcdata that are read
	entry, f := word(functab), functab+word(functab+4)
	numbers := map[string]int{
		"FUNCTAB": start + functab, "FUNC": start + f, "ENTRY": entry, "NAMES": start + names, "NAME": start + names, "TABLES": start + pctab,
		"TABLE": start + pctab + 1, "BUCKETS": start + buckets, "END": start + functab + 8*functions,
	}
	for i := range functions {
		row := functab + 8*i
		if word(row) != entry+i || word(f) != entry+i || word(row+4) != f-functab {
			panic(errOtherGo)
		}
		name := image[names+word(f+4):]
		newNames = append(append(newNames, named(string(name[:bytes.IndexByte(name, 0)]))...), 0)
		for _, at := range []int{row, row + 4, f, f + 4, f + 20, f + 24, f + 32, f + 36, buckets + bucket*i} { // pcfile, pcln, cuOffset, startLine
			put(at, 0)
		}
		data, end := f+funcSize+4*word(f+28), f+funcSize+4*word(f+28)+4*int(image[f+43]) // of funcdata, behind npcdata offsets of pcdata
		for _, k := range unreadPCData {
			if at := f + funcSize + 4*k; at < data {
				put(at, 0)
			}
		}
		tables := []int{f + 16} // pcsp, and pcdata
		for at := f + funcSize; at < data; at += 4 {
			tables = append(tables, at)
		}
		for _, at := range tables {
			if table := word(at); table != 0 {
				newTables = append(newTables, pcTable(image[pctab+table:functab])...)
				put(at, 1)
			}
		}
		for k := range int(image[f+43]) {
			switch at := word(data + 4*k); {
			case slices.Contains(unreadFuncData, k):
				put(data+4*k, -1)
			case uint32(at) != math.MaxUint32:
				for j := range funcDataSize(k, image[gofunc+at:buckets]) {
					read[at+j] = true
				}
			}
		}
		f = (start+end+7)&^7 - start
	}
	for i := range read {
		if !read[i] {
			image[gofunc+i] = 0
		}
	}
	clear(image[names:functab]) // and cutab and filetab
	if len(newNames) > cutab-names || 1+len(newTables) > functab-pctab {
		panic(errOtherGo)
	}
	copy(image[names:], newNames)
	copy(image[pctab+1:], newTables) // an offset of 0 means that there is none
	return assemble32(unfold, numbers)
}

// pcTable is the table in front, to its end: step of runtime/symtab.go.
func pcTable(from []byte) []byte {
	rest := from
	for first := true; take(&rest) != 0 || first; first = false {
		take(&rest)
	}
	return from[:len(from)-len(rest)]
}

// funcDataSize is the size of a function's data of a kind.
func funcDataSize(kind int, data []byte) int {
	number := int(binary.LittleEndian.Uint32(data))
	switch kind {
	case 0, 1: // ArgsPointerMaps and LocalsPointerMaps: stackmap
		bits := int(binary.LittleEndian.Uint32(data[4:]))
		return 8 + number*((bits+7)/8)
	case 2: // StackObjects: a word and stackObjectRecords
		return 8 + 16*number
	case 4: // OpenCodedDeferInfo: two varints
		rest := data
		take(&rest)
		take(&rest)
		return len(data) - len(rest)
	}
	panic(errOtherGo)
}

// named is the name of a function that a traceback prints, without type arguments as it prints it; a function without a name it leaves out. Those of
// the standard library have none, but where the runtime compares it.
func named(name string) string {
	before, arguments, generic := strings.Cut(name, "[")
	host, _, inFolder := strings.Cut(before, "/")
	switch {
	case name == "runtime.gopanic", name == "reflect.makeFuncStub", name == "reflect.methodValueCall": // showfuncinfo, argMapInternal
	case strings.HasPrefix(name, "runtime."): // isSystemGoroutine, showfuncinfo
		return "runtime."
	case strings.HasPrefix(name, "main."), inFolder && strings.Contains(host, ".") && !strings.Contains(host, ":"):
	default:
		return ""
	}
	if generic {
		return before + "[...]" + arguments[strings.LastIndexByte(arguments, ']')+1:]
	}
	return name
}
