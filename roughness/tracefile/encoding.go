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

// decode finds the encoding: by its mark, by the zero bytes of UTF-16 without a mark, else UTF-8 where the bytes are
// that, and Windows-1252 (of which Latin-1 is a part) where they are not.
func decode(data []byte) (decoded, error) {
	d := decoded{data: data}
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		d.data, d.encoding = data[3:], "UTF-8 with mark"
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		d.data, d.encoding = fromUTF16(data[2:], false), "UTF-16 LE"
		d.own = true
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		d.data, d.encoding = fromUTF16(data[2:], true), "UTF-16 BE"
		d.own = true
	default:
		head := data[:min(len(data), 4096)]
		if zeros := bytes.Count(head, []byte{0}); zeros > 0 {
			odd := 0
			for i := 1; i < len(head); i += 2 {
				if head[i] == 0 {
					odd++
				}
			}
			switch pairs := len(head) / 2; {
			case pairs > 1 && odd == zeros && 10*odd >= 9*pairs:
				d.data, d.encoding, d.own = fromUTF16(data, false), "UTF-16 LE", true
			case pairs > 1 && odd == 0 && 10*zeros >= 9*pairs:
				d.data, d.encoding, d.own = fromUTF16(data, true), "UTF-16 BE", true
			}
		}
	}
	if d.encoding == "" {
		if err := foreignBytes(d.data); err != nil {
			return d, err
		}
	}
	if i := bytes.IndexByte(d.data, 0); i >= 0 {
		return d, d.errorAt(i, because(ErrFormat, "a zero byte: this is not text"))
	}
	switch plain := ascii(d.data); {
	case plain && d.encoding == "":
		d.encoding = "ASCII"
	case plain || utf8.Valid(d.data):
		if d.encoding == "" {
			d.encoding = "UTF-8"
		}
	default:
		d.data, d.encoding, d.own = fromWindows1252(d.data), "Latin-1", true
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
	if bytes.IndexByte(d.data, '\r') < 0 {
		return
	}
	d.lineEnds = "CR LF"
	for i := 0; ; {
		k := bytes.IndexByte(d.data[i:], '\r')
		if k < 0 {
			return
		}
		i += k
		if i+1 < len(d.data) && d.data[i+1] == '\n' {
			i += 2
			continue
		}
		if !d.own {
			d.data, d.own = append(make([]byte, 0, len(d.data)), d.data...), true
		}
		if i+2 < len(d.data) && d.data[i+1] == '\r' && d.data[i+2] == '\n' {
			d.data[i] = ' '
			i += 3
			continue
		}
		d.data[i] = '\n'
		d.lineEnds = "CR"
	}
}

func fromUTF16(b []byte, big bool) []byte {
	at := func(i int) rune {
		if big {
			return rune(b[i])<<8 | rune(b[i+1])
		}
		return rune(b[i+1])<<8 | rune(b[i])
	}
	size := 0
	for i := 0; i+1 < len(b); i += 2 {
		if n := utf8.RuneLen(at(i)); n > 0 {
			size += n
		} else { // half of a pair, or the mark that takes the place of a lone one
			size += 3
		}
	}
	out := make([]byte, 0, size)
	for i := 0; i+1 < len(b); i += 2 {
		r := at(i)
		if utf16.IsSurrogate(r) {
			two := rune(utf8.RuneError)
			if i+3 < len(b) {
				two = utf16.DecodeRune(r, at(i+2))
			}
			if two != utf8.RuneError {
				i += 2
			}
			r = two
		}
		out = utf8.AppendRune(out, r)
	}
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

func (d *decoded) errorAt(at int, err error) *Error {
	line, column := d.place(at)
	return &Error{Line: line, Column: column, Err: err}
}
