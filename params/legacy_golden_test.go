package params_test

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"example.com/furrow/params"
	"example.com/furrow/standards"
)

// third is what general libraries give for motifs, older heights and counts: testdata/params/third.py makes it.
type third struct {
	Libraries string
	Motifs    []struct {
		X      []int     // corners of the profile, in points
		H      []float64 // and their heights
		Dx     float64
		Values map[string]float64
	}
	Older []struct {
		Seed, N int
		Dx      float64
		Values  map[string]float64 // by edition and name
	}
}

func readThird(t *testing.T) third {
	t.Helper()
	data, err := os.ReadFile("../testdata/params/third.json")
	if err != nil {
		t.Fatal(err)
	}
	var g third
	if err := json.Unmarshal(data, &g); err != nil {
		t.Fatal(err)
	}
	if len(g.Motifs) < 3 || len(g.Older) < 3 {
		t.Fatalf("only %d and %d profiles", len(g.Motifs), len(g.Older))
	}
	return g
}

// TestMotifsAgainstLibraries: where no motifs merge, they lie between neighbouring peaks as a general library finds
// them, and R, AR, SR, SAR and those of the waviness are means and standard deviations of its lists.
func TestMotifsAgainstLibraries(t *testing.T) {
	g := readThird(t)
	for _, m := range g.Motifs {
		var z []float64
		for k := 1; k < len(m.X); k++ {
			for i := m.X[k-1]; i < m.X[k]; i++ {
				z = append(z, m.H[k-1]+(m.H[k]-m.H[k-1])*float64(i-m.X[k-1])/float64(m.X[k]-m.X[k-1]))
			}
		}
		z = append(z, m.H[len(m.H)-1])
		in := params.Input{Z: z, Dx: m.Dx}
		for name, want := range m.Values {
			letter := byte('R')
			if strings.Contains(name, "W") || name == "Nw" {
				letter = 'W'
			}
			call, err := params.Lookup("iso-12085", letter, name)
			if err != nil {
				t.Fatal(err)
			}
			v := params.Evaluate(&in, call)[0]
			holds(t, name, v.Value, want, 1e-11*math.Max(1, math.Abs(want)), g.Libraries+" "+v.Reason)
		}
	}
}

// TestOlderAgainstLibraries: parts above and below the line as an image library labels them, the highest of each, gradient
// weights from a Vandermonde system, the bearing line by root finding, and passages through a band of levels.
func TestOlderAgainstLibraries(t *testing.T) {
	g := readThird(t)
	for _, o := range g.Older {
		in := params.Input{Z: goldenProfile(o.Seed, o.N), Dx: o.Dx, Section: o.N / 5}
		for key, want := range o.Values {
			edition, name, _ := strings.Cut(key, " ")
			v := ask(t, in, standards.EditionID(edition), name)[name]
			holds(t, key, v.Value, want, 1e-9*math.Max(1, math.Abs(want)), g.Libraries+" "+v.Reason)
		}
	}
}
