package tracefile_test

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"errors"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// Files of other kinds get one sentence that names the kind, no place and none of their bytes. Pictures and archives come from the
// encoders of Go's library; the other first bytes are those that the formats publish: PDF in ISO 32000-1, 7.5.2; ELF in the System V
// ABI; compound files in [MS-CFB], 2.2; BMP, RIFF and EXE as the list of signatures of the "file" utility has them (from memory).
func TestForeign(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 40, 30))
	encoded := func(encode func(*bytes.Buffer) error) []byte {
		var b bytes.Buffer
		if err := encode(&b); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	noise := make([]byte, 5000)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range noise {
		noise[i] = byte(r.Uint32())
	}
	wav := append(binary.LittleEndian.AppendUint32([]byte("RIFF"), 5036), append([]byte("WAVEfmt "), noise...)...)
	own, err := os.ReadFile(os.Args[0])
	if err != nil {
		own = []byte("\x7fELF\x02\x01\x01\x00")
	}
	program := "a program"
	if bytes.HasPrefix(own, []byte("\x00asm")) {
		program = "a WebAssembly program"
	}
	for _, c := range []struct {
		want string
		data []byte
	}{
		{"a PNG picture", encoded(func(b *bytes.Buffer) error { return png.Encode(b, img) })},
		{"a JPEG picture", encoded(func(b *bytes.Buffer) error { return jpeg.Encode(b, img, nil) })},
		{"a GIF picture", encoded(func(b *bytes.Buffer) error { return gif.Encode(b, img, nil) })},
		{"a BMP picture", append([]byte("BM\x36\x10\x00\x00\x00\x00\x00\x00\x36\x00\x00\x00\x28\x00\x00\x00"), noise...)},
		{"a sound file", wav},
		{"a WebP picture", append([]byte("RIFF\x10\x00\x00\x00WEBPVP8 "), noise...)}, {"a film", append([]byte("RIFF\x10\x00\x00\x00AVI LIST"), noise...)}, {"a film or a HEIF picture", append([]byte("\x00\x00\x00\x18ftypheic"), noise...)},
		{"a tar archive", append(append([]byte("rod.txt"), make([]byte, 250)...), "ustar\x0000"...)},
		{"a set of slides (PPTX)", pack(t, "[Content_Types].xml", "<x/>", "ppt/presentation.xml", "<x/>")},
		{"a PDF document", []byte("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n<< /Type /Catalog >>\nendobj\n")},
		{"a PDF document", []byte("%PDF-1.4\n1 2\n2 3\n")},
		{"an RTF document", []byte(`{\rtf1\ansi 1 2 3}`)},
		{"a spreadsheet or document of an older office program", append([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), make([]byte, 600)...)},
		{"a gzip archive", encoded(func(b *bytes.Buffer) error {
			z := gzip.NewWriter(b)
			z.Write([]byte("x_um z_um\n0 1\n1 2\n"))
			return z.Close()
		})},
		{"a spreadsheet (XLSX)", pack(t, "[Content_Types].xml", "<x/>", "xl/workbook.xml", "<x/>")},
		{"a text document (DOCX)", pack(t, "[Content_Types].xml", "<x/>", "word/document.xml", "<x/>")},
		{"a spreadsheet or document (OpenDocument)", pack(t, "mimetype", "application/vnd.oasis.opendocument.spreadsheet", "content.xml", "<x/>")},
		{"a ZIP archive without main.xml", pack(t, "trace.txt", "1 2")},
		{program, own},
		{"a binary file of an unknown kind", noise},
		{"a binary file of an unknown kind", append([]byte{1, 0, 7, 0}, noise...)},
	} {
		_, err := tracefile.Read(c.data, nil)
		var e *tracefile.Error
		if !errors.Is(err, tracefile.ErrForeign) || !errors.As(err, &e) || e.Line != 0 || e.Column != 0 || !strings.Contains(err.Error(), "seems to be "+c.want) {
			t.Errorf("%q: %v", c.data[:min(len(c.data), 20)], err)
		}
	}
}

// Text that begins as some file of another kind does is still read, and so is text with a stray control character.
func TestNotForeign(t *testing.T) {
	for _, head := range []string{"BM 12, bar\n", "MZ\n", "GIF89a, traced from a picture\n", "ID3\n", "PK\n", "% PDF of the trace: see the folder\n", "II\n", "\x0c", "rod \a\n"} {
		trace, err := tracefile.Read([]byte(head+"x_um z_um\n0 1\n1 2\n2 4\n"), nil)
		if err != nil || len(trace.Profile.Z) != 3 {
			t.Errorf("%q: %v", head, err)
		}
	}
	// A zero byte in what is text otherwise has a place.
	_, err := tracefile.Read([]byte("x_um z_um\n0 1\n1 2\n2 \x004\n"), nil)
	var e *tracefile.Error
	if errors.Is(err, tracefile.ErrForeign) || !errors.As(err, &e) || e.Line != 4 {
		t.Errorf("one zero byte: %v", err)
	}
}
