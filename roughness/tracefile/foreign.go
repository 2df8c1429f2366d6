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
	{0, "\x89PNG\r\n\x1a\n", "a PNG picture", false},
	{0, "\xff\xd8\xff", "a JPEG picture", false},
	{0, "GIF87a", "a GIF picture", true},
	{0, "GIF89a", "a GIF picture", true},
	{0, "II*\x00", "a TIFF picture", false},
	{0, "MM\x00*", "a TIFF picture", false},
	{0, "BM", "a BMP picture", true},
	{8, "WEBP", "a WebP picture", true},
	{8, "WAVE", "a sound file", true},
	{8, "AVI ", "a film", true},
	{4, "ftyp", "a film or a HEIF picture", true},
	{0, "OggS\x00", "a sound file", false},
	{0, "ID3", "a sound file", true},
	{0, "%PDF-", "a PDF document", false},
	{0, "{\\rtf1", "an RTF document", false},
	{0, "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "a spreadsheet or document of an older office program", false},
	{0, "\x1f\x8b", "a gzip archive", false},
	{0, "BZh91AY&SY", "a bzip2 archive", false},
	{0, "\xfd7zXZ\x00", "an xz archive", false},
	{0, "7z\xbc\xaf\x27\x1c", "a 7z archive", false},
	{0, "Rar!\x1a\x07", "a RAR archive", false},
	{0, "\x28\xb5\x2f\xfd", "a Zstandard archive", false},
	{257, "ustar", "a tar archive", true},
	{0, "PK\x05\x06", "an empty ZIP archive", false},
	{0, "PK\x07\x08", "a part of a ZIP archive", false},
	{0, "\x7fELF", "a program (ELF)", false},
	{0, "MZ", "a program (EXE)", true},
	{0, "\xcf\xfa\xed\xfe", "a program (Mach-O)", false},
	{0, "\xca\xfe\xba\xbe", "a program", false},
	{0, "\x00asm", "a WebAssembly program", false},
	{0, "\x89HDF\r\n\x1a\n", "an HDF5 file", false},
	{0, "CDF\x01", "a NetCDF file", false},
	{0, "CDF\x02", "a NetCDF file", false},
	{0, "MATLAB 5.0 MAT-file", "a MAT file", true},
	{0, "SQLite format 3\x00", "an SQLite database", false},
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
