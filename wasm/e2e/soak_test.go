//go:build measure

package e2e

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"example.com/furrow/roughness"
	"example.com/furrow/roughness/synth"
)

var soakFor = flag.Duration("for", time.Minute, "how long TestSoak works the page")

// Random traces, settings and requirements go through the page for as long as -for says: nothing is thrown or logged, a reference trace keeps
// its values in a cleared sheet to 12 digits, and neither heap nor nodes grow. testdata/soak does the same with the library.
func TestSoak(t *testing.T) {
	s := open(t, 1280, 900)
	r := rand.New(rand.NewPCG(1, 16))
	some := func(words ...string) string { return words[r.IntN(len(words))] }
	text := table("x [mm];z [µm]", ";", ".", surface(71, 9600, 0.5), 0.5)
	reference := readTrace(t, text)
	rounds := 0
	round := func() {
		t.Helper()
		var files []file
		for i := range 1 + r.IntN(2) {
			made := synth.Made{Wave: 3 * r.Float64(), Length: 20 + 2000*r.Float64(), Feed: float64(r.IntN(2)) * 200, Nose: 800, Noise: r.Float64(), Scratch: float64(r.IntN(2)) * 8, Seed: r.Uint64()}
			csv := table("x [mm];z [µm]", ";", ".", made.Heights(2+r.IntN(12000), 0.5), 0.5)
			files = append(files, file{fmt.Sprintf("soak-%d.csv", i), []byte(csv)})
		}
		s.dropBytes(files)
		s.settle()
		s.write("requirement-text", some("Rz ", "Ra ", "Rk ", "U Rmr(0.5) ", "RSm ", "Wt ")+some("3,2", "0.8", "16", "1,6 T16%", "-1", "n"))
		s.settle()
		s.fill(some("long-cutoff", "sections-count"), some("0.25", "0.8", "2", "3", "none", ""))
		s.settle()
		if rounds++; rounds%5 == 0 {
			s.clear()
			s.says("sheet-title", "Surface profile worksheet")
			s.dropBytes([]file{{"reference.csv", []byte(text)}})
			s.says("sheet-title", "reference")
			s.wait(`document.querySelectorAll('#values-table [data-value]').length >= 10`, "the values of the reference")
			s.agree(reference, roughness.Settings{})
		}
	}
	for range 45 { // undo and caches are full
		round()
	}
	heap, nodes := s.grown()
	t.Logf("warm: heap %.1f MB", heap/1e6)
	for end := time.Now().Add(*soakFor); time.Now().Before(end) || rounds%5 > 0; {
		round()
		if rounds%15 == 0 {
			h, n := s.grown()
			t.Logf("%d: %.1f MB, %.0f nodes", rounds, h/1e6, n)
		}
	}
	heap2, nodes2 := s.grown()
	t.Logf("%d rounds: heap %.1f to %.1f MB, nodes %.0f to %.0f", rounds, heap/1e6, heap2/1e6, nodes, nodes2)
	if heap2 > 1.2*heap+5e6 || nodes2 > 1.2*nodes+2000 {
		t.Error("memory grows")
	}
}
