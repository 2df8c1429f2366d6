package tracefile

import (
	"bytes"
	"encoding/binary"
	"unicode/utf16"
	"unicode/utf8"
)

// decoded is a file as UTF-8 with LF or CR LF at the line ends.
type decoded struct {
	data     []byte
	encoding string
	lineEnds string
	own      bool // data are a copy of the file's bytes
}

// byteOrder is the mark that may stand before UTF-8.
const byteOrder = "\ufeff"

// decode finds the encoding: by its mark, by the zero bytes of UTF-16 without a mark, else UTF-8 where the bytes are
// that, and Windows-1252 (of which Latin-1 is a part) where they are not.
func decode(data []byte) (decoded, error) {
	d := decoded{data: data}
	wide := func(b []byte, name string, order binary.ByteOrder) { d = decoded{fromUTF16(b, order), name, "", true} }
	head := data[:min(len(data), 4096)]
	zeros, odd, pairs := bytes.Count(head, []byte{0}), 0, len(head)/2
	for i := 1; i < len(head); i += 2 {
		if head[i] == 0 {
			odd++
		}
	}
	switch {
	case bytes.HasPrefix(data, []byte(byteOrder)):
		d.data, d.encoding = data[len(byteOrder):], "UTF-8 with mark"
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		wide(data[2:], "UTF-16 LE", binary.LittleEndian)
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		wide(data[2:], "UTF-16 BE", binary.BigEndian)
	case zeros == 0 || pairs < 2:
	case odd == zeros && 10*odd >= 9*pairs:
		wide(data, "UTF-16 LE", binary.LittleEndian)
	case odd == 0 && 10*zeros >= 9*pairs:
		wide(data, "UTF-16 BE", binary.BigEndian)
	}
	if d.encoding == "" {
		if err := foreignBytes(head); err != nil {
			return d, err
		}
	}
	if i := bytes.IndexByte(d.data, 0); i >= 0 {
		return d, d.fail(i, ErrFormat, "a zero byte: this is not text")
	}
	plain := ascii(d.data)
	switch {
	case !plain && !utf8.Valid(d.data):
		d.data, d.encoding, d.own = fromWindows1252(d.data), "Latin-1", true
	case d.encoding != "":
	case plain:
		d.encoding = "ASCII"
	default:
		d.encoding = "UTF-8"
	}
	d.data = bytes.TrimRight(d.data, "\x1a") // the end mark of old systems
	d.endLines()
	return d, nil
}

func ascii(b []byte) bool {
	for ; len(b) >= 16; b = b[16:] {
		if (binary.LittleEndian.Uint64(b)|binary.LittleEndian.Uint64(b[8:]))&0x8080808080808080 != 0 {
			return false
		}
	}
	for _, c := range b {
		if c >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// endLines turns a lone CR into LF and the first CR of CR CR LF into a blank.
func (d *decoded) endLines() {
	d.lineEnds = "LF"
	for i := 0; ; {
		k := bytes.IndexByte(d.data[i:], '\r')
		if k < 0 {
			return
		}
		if d.lineEnds == "LF" {
			d.lineEnds = "CR LF"
		}
		i += k
		if bytes.HasPrefix(d.data[i:], []byte("\r\n")) {
			i += 2
			continue
		}
		if !d.own {
			d.data, d.own = bytes.Clone(d.data), true
		}
		if bytes.HasPrefix(d.data[i:], []byte("\r\r\n")) {
			d.data[i] = ' '
			i += 3
			continue
		}
		d.data[i] = '\n'
		d.lineEnds = "CR"
	}
}

// fromUTF16 takes memory once.
func fromUTF16(b []byte, order binary.ByteOrder) []byte {
	at := func(i int) rune { return rune(order.Uint16(b[i:])) }
	each := func(take func(r rune)) {
		for i := 0; i+1 < len(b); i += 2 {
			r := at(i)
			if utf16.IsSurrogate(r) {
				if i+3 < len(b) {
					r = utf16.DecodeRune(r, at(i+2))
				}
				if r > 0xffff {
					i += 2
				}
			}
			take(r)
		}
	}
	size := 0
	var one [utf8.UTFMax]byte
	each(func(r rune) { size += utf8.EncodeRune(one[:], r) })
	out := make([]byte, 0, size)
	each(func(r rune) { out = utf8.AppendRune(out, r) })
	return out
}

// windows1252 holds what the bytes 0x80 to 0x9f mean; every other byte is the character of its number.
var windows1252 = [32]rune{'€', 0x81, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', 0x8d, 'Ž', 0x8f,
	0x90, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', 0x9d, 'ž', 'Ÿ'}

func fromWindows1252(b []byte) []byte {
	size := 0
	for _, c := range b {
		size += utf8.RuneLen(fromByte1252(c))
	}
	out := make([]byte, 0, size)
	for _, c := range b {
		out = utf8.AppendRune(out, fromByte1252(c))
	}
	return out
}

func fromByte1252(c byte) rune {
	if c >= 0x80 && c < 0xa0 {
		return windows1252[c-0x80]
	}
	return rune(c)
}

// place turns a byte offset into line and column.
func (d *decoded) place(at int) (line, column int) {
	at = min(at, len(d.data))
	line = 1 + bytes.Count(d.data[:at], []byte("\n"))
	start := bytes.LastIndexByte(d.data[:at], '\n') + 1
	return line, 1 + utf8.RuneCount(d.data[start:at])
}

// line is the number of the line at an offset.
func (d *decoded) line(at int) int {
	n, _ := d.place(at)
	return n
}

func (d *decoded) errorAt(at int, err error) *Error {
	line, column := d.place(at)
	return &Error{Line: line, Column: column, Err: err}
}

// open is the error of what a file leaves open at an offset.
func (d *decoded) open(at int, questions ...HintQuestion) error {
	return d.errorAt(at, Questions(questions))
}

// fail makes the error of what stands at an offset.
func (d *decoded) fail(at int, sentinel error, format string, args ...any) error {
	return d.errorAt(at, because(sentinel, format, args...))
}
