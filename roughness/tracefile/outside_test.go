package tracefile_test

import (
	"bytes"
	"flag"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/tracefile"
)

var update = flag.Bool("update", false, "write the files in testdata/tracefile/written anew")

const outside = "../../testdata/tracefile/"

// outsideTrace is the trace that testdata/tracefile/outside.py knows.
func outsideTrace(gaps bool) *tracefile.Trace {
	z := make([]float64, 50)
	for i := range z {
		z[i] = float64(i*i%97-48) / 7
	}
	if gaps {
		z[7], z[20] = math.NaN(), math.NaN()
	}
	return &tracefile.Trace{Profile: roughness.Profile{Z: z, Spacing: 0.5, Name: "rod 7"}, Fields: []tracefile.Field{
		{Key: "COMMENT", Value: "after grinding"}, {Key: "VendorSpecificID", Value: "http://example.com/furrow"}}}
}

// What furrow writes is kept in testdata; Python's standard library reads it as a second opinion (outside.py).
func TestWritten(t *testing.T) {
	folder := t.TempDir()
	for _, c := range []struct {
		name  string
		write func(io.Writer, *tracefile.Trace) error
		gaps  bool
	}{
		{"trace.txt", tracefile.WriteText, true},
		{"trace.smd", tracefile.WriteSMD, false},
		{"trace-text.sdf", tracefile.WriteSDFText, true},
		{"trace-binary.sdf", tracefile.WriteSDFBinary, true},
		{"trace.x3p", tracefile.WriteX3P, true},
	} {
		trace := outsideTrace(c.gaps)
		var b bytes.Buffer
		if err := c.write(&b, trace); err != nil {
			t.Fatal(err)
		}
		kept := filepath.FromSlash(outside + "written/" + c.name)
		if *update {
			if err := os.WriteFile(kept, b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(filepath.Join(folder, c.name), b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(kept)
		if err != nil {
			t.Fatal(err)
		}
		if c.name == "trace.x3p" { // packing may differ from one version of Go to the next; the content may not
			old, err := tracefile.Read(want, nil)
			if err != nil {
				t.Fatal(err)
			}
			again, err := tracefile.Read(b.Bytes(), nil)
			if err != nil {
				t.Fatal(err)
			}
			same(t, again.Profile.Z, old.Profile.Z)
		} else if !bytes.Equal(b.Bytes(), want) {
			t.Errorf("%s is not as kept in testdata; look at the difference and run with -update", c.name)
		}
	}
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 not present")
	}
	if out, err := exec.Command(python, filepath.FromSlash(outside+"outside.py"), "--check", folder).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}
