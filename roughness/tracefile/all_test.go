package tracefile_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.com/furrow/roughness/tracefile"
)

// However a file holds its heights, reading all its traces comes to an end.
func TestReadAllEnds(t *testing.T) {
	files := map[string][]byte{
		"SDF text":    []byte(sdfText),
		"height rows": []byte("1 2 3\n4 5 6\n"), "matrix": []byte("1 2 3\n4 5 6\n7 8 9\n"),
		"triples": []byte("0 0 1\n1 0 2\n0 1 3\n1 1 4\n"), "one row": []byte("1 2 3 4 5 6 7 8 9\n"),
	}
	for _, pattern := range []string{"../../testdata/tracefile/*", "../../testdata/formats/*", "../../testdata/layouts/*"} {
		names, _ := filepath.Glob(pattern)
		for _, name := range names {
			if info, err := os.Stat(name); err != nil || info.IsDir() || info.Size() > 1<<20 {
				continue
			}
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			files[name] = data
		}
	}
	if len(files) < 15 {
		t.Fatalf("only %d files to read: where are the others?", len(files))
	}
	for name, data := range files {
		for _, hints := range []tracefile.Hints{
			{}, {Spacing: 1, XUnit: "µm", ZUnit: "µm"}, {Spacing: 1, ZUnit: "µm", Heights: "rows"},
			{Spacing: 1, ZUnit: "µm", Heights: "matrix", Row: 1}, {XUnit: "µm", ZUnit: "µm", Heights: "triples", Row: 1}, {Row: 1}, {Column: 1},
		} {
			done := make(chan int)
			go func() {
				all, _ := tracefile.ReadAll(data, &hints)
				done <- len(all)
			}()
			select {
			case <-done:
			case <-time.After(20 * time.Second):
				t.Fatalf("%s with %+v: no end", name, hints)
			}
		}
	}
}
