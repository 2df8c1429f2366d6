package tracefile_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"strings"
	"testing"

	"example.com/furrow/roughness/tracefile"
)

// Of two members of one name nobody knows which is meant.
func TestMainTwice(t *testing.T) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for range 2 {
		if _, err := w.Create("main.xml"); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := tracefile.Read(b.Bytes(), nil); !errors.Is(err, tracefile.ErrFormat) || !strings.Contains(err.Error(), "twice") {
		t.Error(err)
	}
}
