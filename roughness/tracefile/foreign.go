package tracefile

import (
	"bytes"
	"path"
	"strings"
)

// foreign are the first bytes of files that people take for a trace, and what such files are. Zero says that the bytes are too
// few to be certain: a file of text may begin so, one with a zero byte near its beginning not.
var foreign = []struct {
	at    int
	bytes string
	what  string
	zero  bool
}{
	{bytes: "\x89PNG\r\n\x1a\n", what: "a PNG picture"},
	{bytes: "\xff\xd8\xff", what: "a JPEG picture"},
	{bytes: "GIF87a", what: "a GIF picture", zero: true},
	{bytes: "GIF89a", what: "a GIF picture", zero: true},
	{bytes: "II*\x00", what: "a TIFF picture"},
	{bytes: "MM\x00*", what: "a TIFF picture"},
	{bytes: "BM", what: "a BMP picture", zero: true},
	{at: 8, bytes: "WEBP", what: "a WebP picture", zero: true},
	{at: 8, bytes: "WAVE", what: "a sound file", zero: true},
	{at: 8, bytes: "AVI ", what: "a film", zero: true},
	{at: 4, bytes: "ftyp", what: "a film or a HEIF picture", zero: true},
	{bytes: "OggS\x00", what: "a sound file"},
	{bytes: "ID3", what: "a sound file", zero: true},
	{bytes: "%PDF-", what: "a PDF document"},
	{bytes: "{\\rtf1", what: "an RTF document"},
	{bytes: "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", what: "a spreadsheet or document of an older office program"},
	{bytes: "\x1f\x8b", what: "a gzip archive"},
	{bytes: "BZh91AY&SY", what: "a bzip2 archive"},
	{bytes: "\xfd7zXZ\x00", what: "an xz archive"},
	{bytes: "7z\xbc\xaf\x27\x1c", what: "a 7z archive"},
	{bytes: "Rar!\x1a\x07", what: "a RAR archive"},
	{bytes: "\x28\xb5\x2f\xfd", what: "a Zstandard archive"},
	{at: 257, bytes: "ustar", what: "a tar archive", zero: true},
	{bytes: "PK\x05\x06", what: "an empty ZIP archive"},
	{bytes: "PK\x07\x08", what: "a part of a ZIP archive"},
	{bytes: "\x7fELF", what: "a program (ELF)"},
	{bytes: "MZ", what: "a program (EXE)", zero: true},
	{bytes: "\xcf\xfa\xed\xfe", what: "a program (Mach-O)"},
	{bytes: "\xca\xfe\xba\xbe", what: "a program"},
	{bytes: "\x00asm", what: "a WebAssembly program"},
	{bytes: "\x89HDF\r\n\x1a\n", what: "an HDF5 file"},
	{bytes: "CDF\x01", what: "a NetCDF file"},
	{bytes: "CDF\x02", what: "a NetCDF file"},
	{bytes: "MATLAB 5.0 MAT-file", what: "a MAT file", zero: true},
	{bytes: "SQLite format 3\x00", what: "an SQLite database"},
}

// foreignFile is the error of a file that its first bytes show to be of another kind, or nil.
func foreignFile(data []byte) *Error {
	head := data[:min(len(data), 4096)]
	zero := bytes.IndexByte(head, 0) >= 0
	for _, f := range foreign {
		if (zero || !f.zero) && len(head) >= f.at && bytes.HasPrefix(head[f.at:], []byte(f.bytes)) {
			return isForeign(f.what)
		}
	}
	return nil
}

func isForeign(what string) *Error {
	advice := "export the trace as text, SMD, SDF or X3P"
	switch {
	case strings.Contains(what, "spreadsheet"):
		advice = "save the table as text (CSV)"
	case strings.Contains(what, "archive"):
		advice = "unpack it first"
	}
	return &Error{Err: because(ErrForeign, "this seems to be %s, not a trace: %s", what, advice)}
}

// foreignArchive names a ZIP archive without main.xml by its members.
func foreignArchive(members []string) *Error {
	what := "a ZIP archive without main.xml"
	for _, name := range members {
		switch {
		case strings.HasPrefix(name, "xl/"):
			return isForeign("a spreadsheet (XLSX)")
		case strings.HasPrefix(name, "word/"):
			return isForeign("a text document (DOCX)")
		case strings.HasPrefix(name, "ppt/"):
			return isForeign("a set of slides (PPTX)")
		case path.Base(name) == "content.xml":
			what = "a spreadsheet or document (OpenDocument)"
		}
	}
	return isForeign(what)
}

// foreignBytes is the error of data that no text begins with: several of the first bytes, and more than a twentieth of them, are
// control characters. A stray one in a text is an error with its place instead.
func foreignBytes(data []byte) *Error {
	head := data[:min(len(data), 4096)]
	control := 0
	for _, c := range head {
		switch {
		case c == '\t', c == '\n', c == '\r', c == '\f', c == '\v', c == etx, c == sub, c >= ' ' && c != 0x7f:
		default:
			control++
		}
	}
	if control < 8 || 20*control <= len(head) {
		return nil
	}
	return isForeign("a binary file of an unknown kind")
}
